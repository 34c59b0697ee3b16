"""What the gas family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Gas", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="gas-pipe-sizing",
            title="Pressure drop of a gas installation",
            summary="Drop from the meter to every appliance, section by section, with fittings; the "
            "next size up and down, and how much longer each section may be.",
            family="gas",
            questions=(
                "Will the gas pipe carry the new boiler?",
                "Which section must be larger?",
                "How long may this section be?",
            ),
            target="tundish_plugins.gas.pipe_sizing:CALCULATION",
        ),
        CalculationEntry(
            id="gas-drop-forecast",
            title="Forecast of the drop of a gas pipe that cannot be seen",
            summary="From drops read at known rates: the drop at a new rate with its band, what the "
            "pipe could be, the largest rate within the limit, and which reading would settle it.",
            family="gas",
            questions=(
                "Will the buried gas pipe carry the new boiler, before anything is bought?",
                "How large may the new boiler be on this pipe?",
                "Which further reading would settle it?",
            ),
            target="tundish_plugins.gas.drop_forecast:CALCULATION",
        ),
        CalculationEntry(
            id="combustion",
            title="Combustion of a gas boiler",
            summary="From carbon dioxide or oxygen and carbon monoxide in the flue gas: excess air, "
            "dew point, ratio, losses and efficiency on net and gross, and what condensing gives; "
            "the flue before the burner, maximum and minimum rate together.",
            family="gas",
            questions=(
                "Does the boiler burn safely?",
                "Is the gas valve set right at maximum and at minimum rate?",
                "What does a cooler return save?",
            ),
            target="tundish_plugins.gas.combustion:CALCULATION",
        ),
        CalculationEntry(
            id="gas-tightness",
            title="Tightness test of a small gas installation",
            summary="Volume of the installation, the drop that the edition of the procedure in force "
            "allows, and what the readings say: let-by, movement of the gauge, leak, effect of "
            "temperature.",
            family="gas",
            questions=(
                "What drop is allowed in the tightness test?",
                "Is the gas installation tight?",
                "What is the installation volume?",
            ),
            target="tundish_plugins.gas.tightness:CALCULATION",
        ),
    ]
