"""What the condensate family offers. Imports no contract: the calculation loads at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Condensate", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="condensate-pump-head",
            title="Lifting condensate with a pump",
            summary="Whether a condensate pump lifts what the boiler makes: lift and friction "
            "against its curve, cycles, a power cut, hot water, and relief valves kept out of it.",
            family="condensate",
            questions=(
                "Where does the condensate go with no drain outside?",
                "Will this pump lift it through this tube?",
                "May the relief valve share the condensate pump?",
            ),
            target="tundish_plugins.condensate.pump_head:CALCULATION",
        ),
        CalculationEntry(
            id="condensate-quantity",
            title="How much condensate a boiler makes",
            summary="Condensate of a fuel: the most that a drain or pump must take, what condenses "
            "at each flue temperature and air ratio, litres a year, and whether a measured flow can "
            "be condensate.",
            family="condensate",
            questions=(
                "How much condensate does this boiler make?",
                "Does it condense at this return temperature?",
                "Is all that water really condensate?",
            ),
            target="tundish_plugins.condensate.quantity:CALCULATION",
        ),
        CalculationEntry(
            id="condensate-drain",
            title="A condensate drain by gravity",
            summary="Whether a condensate pipe drains and lasts: bore, fall, length outside, "
            "insulation, material, the trap's seal against the flue, and where the pipe may end.",
            family="condensate",
            questions=(
                "What size and fall does a condensate pipe need?",
                "May the condensate go to this gully, stack, waste pipe or soakaway?",
                "Does the trap hold against the flue?",
                "Will the condensate pipe freeze?",
            ),
            target="tundish_plugins.condensate.drain:CALCULATION",
        ),
    ]
