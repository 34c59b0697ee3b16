"""Sizing of a drinking-water vessel between supply and expansion valve."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.sources import Source
from tundish_plugins.sealed_heating.vessel import BOYLE, EXPANSION, Taken

FOUR_PER_CENT: Final = Source(
    "four-per-cent",
    kind="common-practice",
    document="Expansion of stored hot water reckoned as four per cent: the fault case up to 95 °C",
    edition="1",
    locator="e = 0.04",
    confirmed="seen-reproduced",
    seen_in="design notes; 3.93 % from 10 to 95 °C by CoolProp 8.0.0",
)
e_4: Final = constant("e_4", 0.04, "number", "1", source=FOUR_PER_CENT)


@formula("V", "volume", "m3", source=EXPANSION)
def heated_volume(
    V_s: Annotated[float, Sym("volume", "V_s", "m3")],
    V_p: Annotated[float, Sym("volume", "V_p", "m3")],
) -> float:
    """Water that warms up."""
    return V_s + V_p


@formula("ΔV", "volume", "m3", source=FOUR_PER_CENT)
def four_per_cent(V: Annotated[float, Sym("volume", "V", "m3")]) -> float:
    """Water gained, by the four-per-cent rule."""
    return V * e_4


@formula("p_a", "pressure_difference", "Pa", source=HYDROSTATICS)
def pressure_before_heating(
    p_c: Annotated[float, Sym("pressure_difference", "p_c", "Pa")],
    p_st: Annotated[float, Sym("pressure_difference", "p_st", "Pa")],
    dp_r: Annotated[float, Sym("pressure_difference", "Δp_r", "Pa")],
) -> float:
    """Pressure at the expansion valve before heating: supply, column of water and rise."""
    return p_c + p_st + dp_r


@formula("Δp", "pressure_difference", "Pa", source=HYDROSTATICS)
def step_up(
    p_2: Annotated[float, Sym("pressure_difference", "p_2", "Pa")],
    p_1: Annotated[float, Sym("pressure_difference", "p_1", "Pa")],
) -> float:
    """Step from one pressure up to the next."""
    return p_2 - p_1


@formula("p_e", "pressure_difference", "Pa", source=BOYLE)
def final_pressure(
    n: Annotated[float, Sym("number", "n", "1")],
    p_ev: Annotated[float, Sym("pressure_difference", "p_ev", "Pa")],
) -> float:
    """Highest pressure to size for: a share of the expansion valve's setting."""
    return n * p_ev


@formula("V_N", "volume", "m3", source=BOYLE)
def size(dV: Taken, eta: Annotated[float, Sym("number", "η", "1")]) -> float:
    """Vessel charged to the pressure before heating, or air at it, that takes the expansion."""
    return dV / eta
