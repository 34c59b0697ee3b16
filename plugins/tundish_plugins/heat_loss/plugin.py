"""What the heat loss family offers. Imports no contract: calculations load at first use."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Heat loss", regions=("INT",), contract=">=1,<2")


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give the calculations of the family."""
    return [
        CalculationEntry(
            id="heat-loss",
            title="Design heat loss of a house, room by room",
            summary="Watts each room and the whole house need on the design day: fabric, ground, "
            "neighbours, air, bridges and reheat, with altitude.",
            family="heat-loss",
            questions=(
                "What does the house lose, and which boiler output does heating need?",
                "How many watts does each room need?",
                "What would insulating this wall save?",
            ),
            target="tundish_plugins.heat_loss.design_load:CALCULATION",
        ),
        CalculationEntry(
            id="u-value",
            title="U-value of a wall, roof, floor or window",
            summary="Thermal transmittance from layers, bridged layers by the combined method, "
            "windows from their parts, and slabs on the ground.",
            family="heat-loss",
            questions=(
                "What is the U-value of this wall?",
                "What do the joists or the mortar do to it?",
            ),
            target="tundish_plugins.heat_loss.u_value:CALCULATION",
        ),
        CalculationEntry(
            id="emitter-output",
            title="Radiators at other temperatures, room by room",
            summary="Output of radiators at any flow, return and room temperature, which rooms they "
            "heat, the lowest flow temperature that still heats each, and which must grow.",
            family="heat-loss",
            questions=(
                "What do these radiators give at a lower flow temperature?",
                "How low can the flow temperature go, and which room dictates it?",
                "Which radiators must grow, and by how much?",
            ),
            target="tundish_plugins.heat_loss.emitters:CALCULATION",
        ),
        CalculationEntry(
            id="boiler-output",
            title="Output of a boiler for heating and hot water",
            summary="What a boiler must give to heating and to hot water, how its range is to be "
            "set, net and gross, how it cycles below its least output, and how far rooms fall "
            "during a reheat.",
            family="heat-loss",
            questions=(
                "Is this boiler large enough, and what is heating to be set to?",
                "From which weather on will it cycle, and how often?",
                "Will the rooms notice that the hot water has priority?",
            ),
            target="tundish_plugins.heat_loss.boiler_output:CALCULATION",
        ),
        CalculationEntry(
            id="annual-energy",
            title="Heat, fuel and cost of a year, and the gas meter's word on the heat loss",
            summary="Heat of a year by degree days, fuel by a given efficiency or by the return of a "
            "condensing boiler, cost and carbon, and whether a computed heat loss agrees with "
            "metered gas.",
            family="heat-loss",
            questions=(
                "What does heating this house take in a year, in gas and money?",
                "What does a lower, weather-compensated return save?",
                "Does the computed heat loss agree with the gas bill?",
            ),
            target="tundish_plugins.heat_loss.annual_energy:CALCULATION",
        ),
        CalculationEntry(
            id="ground-floor-u-value",
            title="U-value of a ground floor, with edge insulation",
            summary="Thermal transmittance and loss of a slab on the ground, of its edge insulation "
            "lying or standing, and of a suspended floor over an aired void.",
            family="heat-loss",
            questions=(
                "What does the ground floor lose?",
                "What does insulation along the edge do, and how wide or deep is it worth going?",
            ),
            target="tundish_plugins.heat_loss.ground_floor:CALCULATION",
        ),
    ]
