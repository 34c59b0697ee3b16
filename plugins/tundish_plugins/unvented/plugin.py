"""What the unvented safety family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Safety of unvented hot water", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="safety-discharge-pipe",
            title="Discharge pipe of an unvented hot water store",
            summary="Sizes before and after the tundish by the regulation's table, the way and the "
            "end of the pipe, the relief valve against all the heat, and a check that the water "
            "runs off.",
            family="unvented-hot-water",
            questions=(
                "Where does relief water go?",
                "What size is the discharge pipe, and would a size less do?",
                "Is the safety chain of the unvented store complete?",
                "Who must be told, and who may do the work?",
            ),
            target="tundish_plugins.unvented.discharge_pipe:CALCULATION",
        ),
    ]
