"""Friction by Hazen-Williams, and the pressures of a tree of water pipes."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import total
from tundish.sources import Source
from tundish_plugins.water_supply.formulas import ENERGY_LINE

HAZEN_WILLIAMS: Final = Source(
    "hazen-williams",
    kind="textbook",
    document="Formula of Hazen and Williams for water in pipes",
    edition="hydraulics textbooks",
    locator="h = 10.67 L Q^1.852/(C^1.852 D^4.8704) in metres and cubic metres a second; cold water",
    confirmed="seen",
    seen_in="hydraulics pages that print the metric constant",
)


@formula("h_f", "head", "m", source=HAZEN_WILLIAMS, empirical=True)
def hazen_williams_head(
    q: Annotated[float, Sym("volume_flow", "q", "m3/s")],
    d: Annotated[float, Sym("length", "d", "m")],
    L: Annotated[float, Sym("length", "L", "m")],
    C: Annotated[float, Sym("number", "C", "1")],
) -> float:
    """Head lost by friction, Hazen-Williams."""
    return 10.67 * L * q**1.852 / (C**1.852 * d**4.8704)  # type: ignore[no-any-return]


@formula("Δp", "pressure_difference", "Pa", source=ENERGY_LINE)
def way_drop(dp: Annotated[list[float], Sym("pressure_difference", "Δp", "Pa")]) -> float:
    """Pressure lost on the way: its sections added."""
    return total(dp)


@formula("L", "length", "m", source=ENERGY_LINE)
def way_length(L_e: Annotated[list[float], Sym("length", "L_e", "m")]) -> float:
    """Length of the way: its sections added."""
    return total(L_e)


@formula("R_a", "pressure_gradient", "Pa/m", source=ENERGY_LINE)
def available_gradient(
    p_st: Annotated[float, Sym("pressure_gauge", "p_st", "Pa")],
    p_r: Annotated[float, Sym("pressure_gauge", "p_r", "Pa")],
    L: Annotated[float, Sym("length", "L", "m")],
) -> float:
    """Pressure that may be lost for each metre of the way."""
    return (p_st - p_r) / L
