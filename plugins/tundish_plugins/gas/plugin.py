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
        )
    ]
