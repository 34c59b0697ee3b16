"""What a closed volume of gas tells by its pressure."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.sources import Source

IDEAL_GAS: Final = Source(
    "ideal-gas-closed-volume",
    kind="textbook",
    document="Ideal gas in a closed volume",
    edition="thermodynamics textbooks",
    locator="p V = n R T: dp/dT = p/T at constant V and n; leak V dp/(p t) at constant T",
    confirmed="derived",
)

Drop = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Absolute = Annotated[float, Sym("pressure_absolute", "p", "Pa")]


@formula("p", "pressure_absolute", "Pa", source=IDEAL_GAS)
def absolute_pressure(
    p_g: Annotated[float, Sym("pressure_difference", "p_g", "Pa")],
    p_atm: Annotated[float, Sym("pressure_absolute", "p_atm", "Pa")],
) -> float:
    """Absolute pressure of a gauge reading."""
    return p_g + p_atm


@formula("Δp", "pressure_difference", "Pa", source=IDEAL_GAS)
def drop(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_gauge", "p_2", "Pa")],
) -> float:
    """Drop between two readings."""
    return p_1 - p_2


@formula("Δp_r", "pressure_difference", "Pa", source=IDEAL_GAS)
def rise(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_gauge", "p_2", "Pa")],
) -> float:
    """Rise between two readings."""
    return p_2 - p_1


@formula("β", "pressure_per_temperature", "Pa/K", source=IDEAL_GAS)
def pressure_per_kelvin(p: Absolute, T: Annotated[float, Sym("temperature", "T", "K")]) -> float:
    """Change of the reading for each kelvin."""
    return p / T


@formula("ΔT", "temperature_difference", "K", source=IDEAL_GAS)
def cooling(
    dp: Drop, beta: Annotated[float, Sym("pressure_per_temperature", "β", "Pa/K")]
) -> float:
    """Cooling of the gas that alone would give the drop."""
    return dp / beta


@formula("V_l", "volume_flow", "m3/s", source=IDEAL_GAS)
def leak(
    V: Annotated[float, Sym("volume", "V", "m3")],
    dp: Drop,
    p: Absolute,
    t: Annotated[float, Sym("time", "t", "s")],
) -> float:
    """Leak that a drop implies: gas at the pressure in the pipe."""
    return V * dp / (p * t)
