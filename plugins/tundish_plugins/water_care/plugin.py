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
    return [
        CalculationEntry(
            id="frost-protection",
            title="Glycol against frost",
            summary="Share of propylene or ethylene glycol for the coldest it gets, how much to put "
            "in or exchange, and what it costs in expansion, flow and pressure drop.",
            family="water-care",
            questions=(
                "How much glycol does the system need?",
                "Is what is in it enough?",
                "What does the glycol do to the vessel and the pump?",
            ),
            target="tundish_plugins.water_care.frost:CALCULATION",
        ),
        CalculationEntry(
            id="water-treatment",
            title="Care of the heating water",
            summary="Inhibitor by volume, hardness of the fill against content and output, scale, "
            "flushing velocity of every leg, and what was done to the system.",
            family="water-care",
            questions=(
                "How much inhibitor does the system need?",
                "Is the water too hard to fill with?",
                "Does the flush move anything?",
            ),
            target="tundish_plugins.water_care.treatment:CALCULATION",
        ),
    ]
