"""Columns of liquid, standard gravity and the standard atmosphere, for every family."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.sources import Source

HYDROSTATICS: Final = Source(
    "hydrostatics",
    kind="textbook",
    document="Pressure of a column of liquid",
    edition="fluid mechanics textbooks",
    locator="p = ρ g h",
    confirmed="derived",
)
STANDARD_GRAVITY: Final = Source(
    "standard-gravity",
    kind="standard",
    document="3rd General Conference on Weights and Measures",
    edition="1901",
    locator="declaration on the unit of mass and the definition of weight",
    confirmed="seen",
    seen_in="SI brochure",
)
STANDARD_ATMOSPHERE: Final = Source(
    "standard-atmosphere",
    kind="standard",
    document="10th General Conference on Weights and Measures",
    edition="1954",
    locator="resolution 4, standard atmosphere",
    confirmed="seen",
    seen_in="SI brochure",
)

g: Final = constant("g", 9.80665, "acceleration", "m/s2", source=STANDARD_GRAVITY)
ATMOSPHERE: Final = constant(
    "p_0", 101325.0, "pressure_difference", "Pa", source=STANDARD_ATMOSPHERE
)

Density = Annotated[float, Sym("density", "ρ", "kg/m3")]


@formula("p_st", "pressure_difference", "Pa", source=HYDROSTATICS)
def static_pressure(rho: Density, h: Annotated[float, Sym("length", "h", "m")]) -> float:
    """Pressure of the column of liquid up to a height."""
    return rho * g * h


@formula("H_f", "head", "m", source=HYDROSTATICS)
def head_of_pressure(
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
    dp_z: Annotated[float, Sym("pressure_difference", "Δp_ζ", "Pa")],
    rho: Density,
) -> float:
    """Head lost in tube and fittings."""
    return (dp + dp_z) / (rho * g)
