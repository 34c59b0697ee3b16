"""What the hot water family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Stored hot water", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="hot-water-recovery",
            title="Recovery of a hot water store",
            summary="How long a store takes to reheat, while the boiler limits and while the "
            "coil limits, with standing loss and an immersion heater.",
            family="hot-water",
            questions=(
                "How fast does the store recover?",
                "Does the boiler or the coil hold the reheat back?",
                "Can the store reach its temperature at this flow temperature at all?",
            ),
            target="tundish_plugins.hot_water.recovery:CALCULATION",
        ),
        CalculationEntry(
            id="mixed-water",
            title="Mixed water at an outlet",
            summary="How much hot and cold water make the mixed water, how much of it a store "
            "gives, and whether the temperatures scald or let legionella grow.",
            family="hot-water",
            questions=(
                "How many litres of mixed water does the store give?",
                "How much hot water does a bath or shower take?",
                "Does the mixed water scald, and is the hot water hot enough for hygiene?",
                "Was the water held hot for long enough against legionella?",
            ),
            target="tundish_plugins.hot_water.mixed_water:CALCULATION",
        ),
        CalculationEntry(
            id="store-standing-loss",
            title="Standing loss of a hot water store",
            summary="What a store loses at its temperatures, from its label, its insulation or a "
            "cooling test; the loss in a year, how it cools, and what a new store may lose.",
            family="hot-water",
            questions=(
                "What does it cost to keep the store hot?",
                "How long does the water stay hot without heat?",
                "May a store with this loss be sold, and which label does it earn?",
                "Does the store lose more than its label says?",
            ),
            target="tundish_plugins.hot_water.standing_loss:CALCULATION",
        ),
        CalculationEntry(
            id="secondary-circulation",
            title="Secondary circulation of hot water",
            summary="Heat lost by hot water pipes, insulated or bare; the circulation that keeps "
            "the far outlets hot, how it splits between branches, and the pump it needs.",
            family="hot-water",
            questions=(
                "How much must circulate so that the far taps are hot and the return hot enough?",
                "What pump does the circulation need?",
                "What do the hot water pipes lose, and would insulation pay?",
                "How are the branches balanced?",
            ),
            target="tundish_plugins.hot_water.circulation:CALCULATION",
        ),
        CalculationEntry(
            id="dead-legs",
            title="Dead legs of hot water pipes",
            summary="How much water stands in each leg, how long one waits for hot water, how "
            "many metres may be bare, and what runs to waste.",
            family="hot-water",
            questions=(
                "How long does one wait for hot water at this tap?",
                "Is the leg too long or too wide, or does it need a circulation?",
                "Which legs must be insulated?",
                "How much water and heat do the legs waste?",
            ),
            target="tundish_plugins.hot_water.dead_legs:CALCULATION",
        ),
        CalculationEntry(
            id="hot-water-storage",
            title="Size of a hot water store",
            summary="How much hot water has to be stored for these draws, while the source goes "
            "on heating: by the two draws of the former British Standard or by a list through the "
            "day, for a store mixed through and for hot over cold.",
            family="hot-water",
            questions=(
                "How big a store do these people need?",
                "Is this store large enough for two showers and a bath?",
                "How much does a stronger source or coil save in store?",
            ),
            target="tundish_plugins.hot_water.storage:CALCULATION",
        ),
        CalculationEntry(
            id="reheat-test",
            title="Test of a measured reheat",
            summary="Whether a measured reheat can be true: the power it implies against the "
            "source and against source and coil together, with the uncertainty of each reading; "
            "and what, alone, would explain the difference.",
            family="hot-water",
            questions=(
                "Can this reheat time be true?",
                "Is the boiler, the coil or the reading to blame?",
                "What has to be measured next?",
            ),
            target="tundish_plugins.hot_water.reheat_test:CALCULATION",
        ),
    ]
