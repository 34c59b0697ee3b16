"""What the water care family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Care of the heating water", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return []
