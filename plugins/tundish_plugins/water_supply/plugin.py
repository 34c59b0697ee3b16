"""What the water supply family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Mains water and its pipes", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="mains-supply",
            title="What the incoming main can give",
            summary="Supply curve from a flow test with its uncertainty; pressure and flow that "
            "reach an unvented store and the outlets on every floor.",
            family="water-supply",
            questions=(
                "Will the main feed an unvented store?",
                "What flow is left for the shower upstairs when two outlets run?",
                "What does my flow test really say?",
            ),
            target="tundish_plugins.water_supply.mains_supply:CALCULATION",
        ),
        CalculationEntry(
            id="strength-test",
            title="Testing pipes with water before they are used",
            summary="Test pressure at the gauge and at every level, what must be isolated, how "
            "long and with what drop, what a kelvin does, and the verdict on the readings.",
            family="water-supply",
            questions=(
                "Will old pipes and fittings stand it when the cisterns go?",
                "How far must I pump, how long must it hold?",
                "Is the drop on my gauge a leak or the temperature?",
                "May I test with air?",
            ),
            target="tundish_plugins.water_supply.strength_test:CALCULATION",
        ),
        CalculationEntry(
            id="water-pipe-sizing",
            title="Hot and cold water pipes",
            summary="Velocity and pressure section by section from a main, a store or a cistern to "
            "every outlet; the next size up and down.",
            family="water-supply",
            questions=(
                "Are these pipes large enough for the outlets?",
                "Which section takes the pressure?",
                "Does the cistern stand high enough to feed them?",
            ),
            target="tundish_plugins.water_supply.pipe_sizing:CALCULATION",
        ),
        CalculationEntry(
            id="conversion-pressure",
            title="Old pipes and fittings under mains pressure",
            summary="Pressure at every old part before and after the loft cistern goes, surge "
            "included, against its rating, and what must be changed, proved or capped before the "
            "water is turned on.",
            family="water-supply",
            questions=(
                "Will old pipes and fittings stand it when the cisterns go?",
                "What must be changed or tested before the water is turned on?",
                "Are hot and cold still balanced at the mixers?",
                "Must the water undertaker be told first?",
            ),
            target="tundish_plugins.water_supply.conversion_pressure:CALCULATION",
        ),
    ]
