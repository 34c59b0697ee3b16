"""What the controls family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Controls and their wiring", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="control-logic",
            title="Logic of a control wiring",
            summary="Truth table of contacts, relays, end switches and sensed inputs against what is "
            "meant; every mismatch with its shortest explanation, and what a cut-out, a broken wire "
            "or a stuck end switch does.",
            family="controls",
            questions=(
                "Does the wiring do what is meant?",
                "Why does the cylinder heat with hot water switched off?",
                "Does the cut-out really stop the heat?",
                "What happens when an end switch sticks?",
            ),
            target="tundish_plugins.controls.logic:CALCULATION",
        ),
        CalculationEntry(
            id="control-cores",
            title="Cores between the places of a control wiring",
            summary="Conductors that cross from place to place in each control scheme, against the "
            "cores that are there: which scheme fits, what is left over, and an earth core that is "
            "never anything else.",
            family="controls",
            questions=(
                "Are there enough cores?",
                "Which control scheme fits the cables that are there?",
                "How many cores must the new cable have?",
            ),
            target="tundish_plugins.controls.cores:CALCULATION",
        ),
        CalculationEntry(
            id="cable-volt-drop",
            title="Volt drop and protection of a cable",
            summary="Current of heaters, boilers and controls, volt drop along their cable, the "
            "longest cable that will do, and fuse against load and cable.",
            family="controls",
            questions=(
                "Which cable does the immersion heater need?",
                "How long may this cable be?",
                "Is the fuse right for the load and the cable?",
            ),
            target="tundish_plugins.controls.volt_drop:CALCULATION",
        ),
        CalculationEntry(
            id="sensor-resistance",
            title="Resistance of a temperature sensor",
            summary="Thermistors and platinum sensors: resistance to temperature and back, "
            "tolerance, leads, open and short, and what a controller set for another curve shows.",
            family="controls",
            questions=(
                "What temperature is this resistance?",
                "Is the sensor broken, or of the wrong type?",
                "What does the controller show with the wrong sensor?",
            ),
            target="tundish_plugins.controls.sensor:CALCULATION",
        ),
    ]
