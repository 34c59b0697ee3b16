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
        )
    ]
