"""Sizes of a heating vessel: by three published bases, which are never mixed, and by Boyle's law.

The figures of each basis stand in a rule of its own (``sealed-basis-...``): a standard is revised.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.sources import Source
from tundish_plugins.sealed_heating.vessel import (
    BOYLE,
    EXPANSION,
    Charge,
    Content,
    Fill,
    Final_,
    Fraction,
    Taken,
    absolute,
)

BS_7074: Final = Source(
    "bs-7074",
    kind="standard",
    document="BS 5449 and BS 7074-1, capacity of vessels for domestic sealed systems",
    edition="BS 5449:1990, BS 7074-1:1989",
    locator="factors for other system volumes; one expansion of 0.0491 and a final pressure 0.35 bar "
    "below the relief setting give each within 0.0012",
    confirmed="seen-reproduced",
    seen_in="boiler installation instructions that reproduce the table",
)
EN_12828: Final = Source(
    "en-12828",
    kind="standard",
    document="EN 12828, Annex D: expansion volume, water reserve, absolute pressures",
    edition="2012+A1:2014",
    locator="reserve 0.5 % of the content, at least 3 litre; 20 % of vessels up to 15 litre; final "
    "pressure 0.5 bar below the relief setting up to 5 bar, else 90 %",
    confirmed="memory",
    seen_in="0.5 % reserve and clause 4.6.2.4 seen second-hand; the other figures are not checked "
    "against the standard",
)
ASHRAE: Final = Source(
    "ashrae-hydronic",
    kind="handbook",
    document="ASHRAE Handbook, HVAC Systems and Equipment, hydronic chapter, diaphragm tank",
    edition="2000, chapter 12, equation 14",
    locator="V_t = V_s [(v_2/v_1 - 1) - 3 α Δt]/(1 - P_1/P_2); limit about 90 % of the relief setting",
    confirmed="seen-reproduced",
    seen_in="engineering worksheet that quotes the handbook",
)
FINAL: Final = Source(
    "final-pressure",
    kind="derivation",
    document="Highest pressure to size for: below the setting of the relief valve, at the valve",
    edition="1",
    locator="by a margin or by a share, as the basis says; a valve feels the pressure where it sits",
    confirmed="derived",
)
BOILING: Final = Source(
    "boiling-at-the-top",
    kind="derivation",
    document="Water does not boil where the absolute pressure is above its saturation pressure",
    edition="1",
    locator="p_s(θ_max) + Δp - p_atm, at the highest point, before the rest of the content is warm",
    confirmed="derived",
)

Relief = Annotated[float, Sym("pressure_difference", "p_sv", "Pa")]
Size = Annotated[float, Sym("volume", "V_N", "m3")]
Number = Annotated[float, Sym("number", "n", "1")]


# --- final pressure, at the relief valve ----------------------------------------------------------


@formula("p_e", "pressure_difference", "Pa", source=FINAL)
def final_by_margin(
    p_sv: Relief, dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
) -> float:
    """Final pressure at the valve, a margin below its setting."""
    return p_sv - dp


@formula("p_e", "pressure_difference", "Pa", source=FINAL)
def final_by_share(p_sv: Relief, n: Number) -> float:
    """Final pressure at the valve, a share of its setting."""
    return n * p_sv


# --- the British table ----------------------------------------------------------------------------


@formula("V_N", "volume", "m3", source=BS_7074)
def table_size(
    C: Content,
    e: Annotated[float, Sym("number", "e_T", "1")],
    p_c: Annotated[float, Sym("pressure_difference", "p_c", "Pa")],
    p_i: Annotated[float, Sym("pressure_difference", "p_i", "Pa")],
    p_f: Annotated[float, Sym("pressure_difference", "p_f", "Pa")],
    p_1: Annotated[float, absolute("p_1")],
) -> float:
    """Vessel by the British table, with its own expansion and its own atmosphere."""
    return C * e / ((p_c + p_1) / (p_i + p_1) - (p_c + p_1) / (p_f + p_1))


@formula("V_N", "volume", "m3", source=BS_7074)
def reduced(V_N: Size, n: Number) -> float:
    """Vessel by the British table for lower flow temperatures."""
    return n * V_N


# --- the European Standard ------------------------------------------------------------------------


@formula("V_R", "volume", "m3", source=EN_12828)
def reserve_of_content(
    C: Content, n: Number, V_R: Annotated[float, Sym("volume", "V_R,min", "m3")]
) -> float:
    """Water reserve of larger vessels: a share of the content, and no less than a volume."""
    return larger(n * C, V_R)


@formula("k", "number", "1", source=EN_12828)
def pressure_factor(p_0: Charge, p_e: Final_) -> float:
    """Vessel volume for each litre of water it takes."""
    return p_e / (p_e - p_0)


@formula("V_N", "volume", "m3", source=EN_12828)
def en_size(
    dV: Taken,
    V_R: Annotated[float, Sym("volume", "V_R", "m3")],
    k: Annotated[float, Sym("number", "k", "1")],
) -> float:
    """Vessel that takes expansion and reserve."""
    return (dV + V_R) * k


@formula("V_N", "volume", "m3", source=EN_12828)
def en_small_size(dV: Taken, k: Annotated[float, Sym("number", "k", "1")], n: Number) -> float:
    """Small vessel: a share of it is the reserve."""
    return dV * k / (1 - n * k)


@formula("V_R", "volume", "m3", source=EN_12828)
def small_reserve(V_N: Size, n: Number) -> float:
    """Water reserve of a small vessel."""
    return n * V_N


# --- the North American handbook ------------------------------------------------------------------


@formula("V_N", "volume", "m3", source=ASHRAE)
def ashrae_size(
    C: Content,
    e: Fraction,
    alpha: Annotated[float, Sym("expansion_coefficient", "α", "1/K")],
    dT: Annotated[float, Sym("temperature_difference", "Δt", "K")],
    p_a: Fill,
    p_e: Final_,
) -> float:
    """Diaphragm tank by the handbook: expansion less the stretch of the pipes."""
    return C * (e - 3 * alpha * dT) / (1 - p_a / p_e)


@formula("Δt", "temperature_difference", "K", source=EXPANSION)
def rise(
    T_1: Annotated[float, Sym("temperature", "T_1", "K")],
    T_0: Annotated[float, Sym("temperature", "T_0", "K")],
) -> float:
    """Rise from fill to the highest temperature."""
    return T_1 - T_0


# --- Boyle's law, whatever the basis --------------------------------------------------------------


@formula("V_B", "volume", "m3", source=BOYLE)
def size_by_boyle(dV: Taken, p_0: Charge, p_a: Fill, p_e: Final_) -> float:
    """Vessel that stands at the final pressure when it has taken up the whole expansion.

    With the charge and the fill as they are; no stretch of pipes and no reserve.
    """
    return dV / (p_0 / p_a - p_0 / p_e)


@formula("V_N", "volume", "m3", source=BOYLE)
def size_needed(
    V_p: Annotated[float, Sym("volume", "V_p", "m3")],
    V_B: Annotated[float, Sym("volume", "V_B", "m3")],
) -> float:
    """Least vessel: the published basis, but never less than Boyle's law asks for."""
    return larger(V_p, V_B)


@formula("ΔV", "volume", "m3", source=BOYLE)
def gap_to_relief(V_room: Annotated[float, Sym("volume", "V_room", "m3")], dV: Taken) -> float:
    """Room up to the relief setting, less the expansion."""
    return V_room - dV


# --- heights --------------------------------------------------------------------------------------


@formula("p", "pressure_difference", "Pa", source=HYDROSTATICS)
def raised(
    p: Annotated[float, Sym("pressure_difference", "p", "Pa")],
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
) -> float:
    """Pressure with a supplement or a column on it."""
    return p + dp


@formula("p", "pressure_difference", "Pa", source=HYDROSTATICS)
def lowered(
    p: Annotated[float, Sym("pressure_difference", "p", "Pa")],
    dp: Annotated[float, Sym("pressure_difference", "p_h", "Pa")],
) -> float:
    """Pressure at a place higher up by a column of water."""
    return p - dp


@formula("h", "length", "m", source=HYDROSTATICS)
def drop_below_valve(
    h_sv: Annotated[float, Sym("length", "h_sv", "m")],
    h_g: Annotated[float, Sym("length", "h_g", "m")],
) -> float:
    """Height of the relief valve above the lowest of vessel, gauge and the valve itself."""
    return larger(larger(0.0 * h_sv, h_sv), h_sv - h_g)


@formula("p_top", "pressure_difference", "Pa", source=BOILING)
def least_at_top(
    p_s: Annotated[float, absolute("p_s")],
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
    p_atm: Annotated[float, absolute("p_atm")],
) -> float:
    """Gauge pressure below which water at the highest temperature might boil."""
    return p_s + dp - p_atm
