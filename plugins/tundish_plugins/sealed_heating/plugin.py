"""What the sealed heating family offers. Imports no contract: calculations load at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Sealed heating", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="heating-expansion",
            title="Expansion of a sealed heating system",
            summary="Vessel size by three published bases, charge and fill from the height of the "
            "house, what the gauge reads from cold to hot, when the relief valve lifts, and whether "
            "water could boil at the top.",
            family="sealed-heating",
            questions=(
                "How big an expansion vessel does the heating need?",
                "What will the gauge read cold and hot?",
                "Is the vessel in the boiler enough?",
            ),
            target="tundish_plugins.sealed_heating.heating_expansion:CALCULATION",
        ),
        CalculationEntry(
            id="hot-water-expansion",
            title="Expansion of an unvented hot water store",
            summary="Vessel or air gap for the expansion of stored hot water, the order of the "
            "pressures of reducing valve, expansion valve and relief valve, and what happens "
            "without a vessel.",
            family="hot-water",
            questions=(
                "How big an expansion vessel, or how much air in its top, does the store need?",
                "Why does the expansion valve drip?",
                "Are the pressures of the safety devices in order?",
            ),
            target="tundish_plugins.sealed_heating.hot_water_expansion:CALCULATION",
        ),
        CalculationEntry(
            id="primary-circuit",
            title="Pipes and pump of a heating circuit",
            summary="Flow, velocity and loss of every section, the index circuit, where the pump meets "
            "it, what the boiler gets when valves close, and what mixes in a low-loss header.",
            family="sealed-heating",
            questions=(
                "Which size of pipe does this boiler need?",
                "Is the pump strong enough for the index circuit?",
                "How much must the bypass pass when the valves close?",
                "What does the low-loss header do to flow and return temperature?",
            ),
            target="tundish_plugins.sealed_heating.primary_circuit:CALCULATION",
        ),
        CalculationEntry(
            id="radiator-balancing",
            title="Balancing radiators",
            summary="Design flow of every radiator, what its balancing valve has to take and the "
            "setting for it, and the flows, returns and outputs that settle before and after.",
            family="sealed-heating",
            questions=(
                "How far does each lockshield have to be opened?",
                "Which radiator is the index one?",
                "Why does the far radiator stay cold?",
                "Which temperature drop should be measured at each radiator?",
            ),
            target="tundish_plugins.sealed_heating.balancing:CALCULATION",
        ),
        CalculationEntry(
            id="system-volume",
            title="Content of a heating system",
            summary="Water in a heating system by a meter read at filling, by an inventory of pipes "
            "and parts, or by rules of thumb, each with how far it may be off, and whether they "
            "agree.",
            family="sealed-heating",
            questions=(
                "How many litres does the heating hold?",
                "How far off can a rule of thumb be?",
                "Which content should the vessel and the inhibitor be worked out for?",
            ),
            target="tundish_plugins.sealed_heating.system_volume:CALCULATION",
        ),
        CalculationEntry(
            id="fill-pressure",
            title="Fill pressure of a sealed heating system",
            summary="What to charge the vessel and fill the system to, what the gauge has to read, "
            "and the pressure at every level cold, hot and with the pump on, by where the vessel "
            "joins.",
            family="sealed-heating",
            questions=(
                "What pressure does the heating have to be filled to?",
                "Does the highest radiator have pressure enough with the pump on?",
                "Does it matter on which side of the pump the vessel joins?",
                "Which pressure do the lowest parts have to stand?",
            ),
            target="tundish_plugins.sealed_heating.fill_pressure:CALCULATION",
        ),
    ]
