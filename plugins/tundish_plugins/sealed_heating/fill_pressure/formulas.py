"""Pressures round a circuit with a pump, relative to where the vessel holds the pressure."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, smaller
from tundish.physics.hydrostatics import HYDROSTATICS, g
from tundish.sources import Source

NEUTRAL_POINT: Final = Source(
    "neutral-point",
    kind="textbook",
    document="The point of no pressure change: where the vessel joins, the pump changes nothing",
    edition="heating textbooks",
    locator="a place has the pump's pressure that is used up from there to the vessel; negative "
    "where the vessel comes first",
    confirmed="derived",
)

Pressure = Annotated[float, Sym("pressure_difference", "p", "Pa")]


@formula("Δp", "pressure_difference", "Pa", source=HYDROSTATICS)
def pump_pressure(
    rho: Annotated[float, Sym("density", "ρ", "kg/m3")],
    H: Annotated[float, Sym("head", "H", "m")],
) -> float:
    """Pressure of a pump from its head."""
    return rho * g * H


@formula("Δp_x", "pressure_difference", "Pa", source=NEUTRAL_POINT)
def pump_adds(
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
    s: Annotated[float, Sym("number", "s", "1")],
    x: Annotated[float, Sym("number", "x", "1")],
) -> float:
    """What the running pump adds at a place; it subtracts where the vessel comes before."""
    return dp * (s - x)


@formula("p_min", "pressure_difference", "Pa", source=NEUTRAL_POINT)
def lower(
    p_1: Annotated[float, Sym("pressure_difference", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_difference", "p_2", "Pa")],
) -> float:
    """The lower of two pressures."""
    return smaller(p_1, p_2)


@formula("p_max", "pressure_difference", "Pa", source=NEUTRAL_POINT)
def higher(
    p_1: Annotated[float, Sym("pressure_difference", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_difference", "p_2", "Pa")],
) -> float:
    """The higher of two pressures."""
    return larger(p_1, p_2)
