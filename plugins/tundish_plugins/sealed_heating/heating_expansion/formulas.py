"""Three published bases for the size of a heating vessel. They are never mixed."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import larger
from tundish.sources import Source
from tundish_plugins.sealed_heating.vessel import (
    BOYLE,
    EXPANSION,
    HYDROSTATICS,
    Charge,
    Content,
    Fill,
    Final_,
    Fraction,
    Taken,
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
    seen_in="0.5 % reserve and clause 4.6.2.4 seen second-hand; the other figures from memory",
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

TABLE_ATMOSPHERE: Final = constant("p_1", 1e5, "pressure_absolute", "Pa", source=BS_7074)
TABLE_EXPANSION: Final = constant("e_T", 0.0491, "number", "1", source=BS_7074)
TABLE_MARGIN: Final = constant("Δp_T", 0.35e5, "pressure_difference", "Pa", source=BS_7074)
EN_MARGIN: Final = constant("Δp_E", 0.5e5, "pressure_difference", "Pa", source=EN_12828)
LEAST_RESERVE: Final = constant("V_3", 3e-3, "volume", "m3", source=EN_12828)
STRETCH: Final = {"steel": 11.7e-6, "copper": 17.1e-6}
"""Linear expansion of pipes, 1/K, as the handbook gives it."""

Relief = Annotated[float, Sym("pressure_difference", "p_sv", "Pa")]
Size = Annotated[float, Sym("volume", "V_N", "m3")]


@formula("p_e", "pressure_difference", "Pa", source=BS_7074)
def table_final(p_sv: Relief) -> float:
    """Final pressure of the British table."""
    return p_sv - TABLE_MARGIN


@formula("p_e", "pressure_difference", "Pa", source=EN_12828)
def en_final_low(p_sv: Relief) -> float:
    """Final pressure for relief settings up to 5 bar."""
    return p_sv - EN_MARGIN


@formula("p_e", "pressure_difference", "Pa", source=EN_12828)
def en_final_high(p_sv: Relief) -> float:
    """Final pressure for relief settings above 5 bar."""
    return 0.9 * p_sv


@formula("p_e", "pressure_difference", "Pa", source=ASHRAE)
def ashrae_final(p_sv: Relief) -> float:
    """Final pressure at nine tenths of the relief setting."""
    return 0.9 * p_sv


@formula("V_N", "volume", "m3", source=BS_7074)
def table_size(
    C: Content,
    p_c: Annotated[float, Sym("pressure_difference", "p_c", "Pa")],
    p_i: Annotated[float, Sym("pressure_difference", "p_i", "Pa")],
    p_f: Annotated[float, Sym("pressure_difference", "p_f", "Pa")],
) -> float:
    """Vessel by the British table, at an atmosphere of 1.0 bar."""
    return (
        C
        * TABLE_EXPANSION
        / (
            (p_c + TABLE_ATMOSPHERE) / (p_i + TABLE_ATMOSPHERE)
            - (p_c + TABLE_ATMOSPHERE) / (p_f + TABLE_ATMOSPHERE)
        )
    )


@formula("V_N", "volume", "m3", source=BS_7074)
def below_88(V_N: Size) -> float:
    """Vessel by the British table for flow temperatures below 88 degC."""
    return 0.8 * V_N


@formula("V_R", "volume", "m3", source=EN_12828)
def reserve_of_content(C: Content) -> float:
    """Water reserve of vessels over 15 litre."""
    return larger(0.005 * C, LEAST_RESERVE)


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
def en_small_size(dV: Taken, k: Annotated[float, Sym("number", "k", "1")]) -> float:
    """Vessel up to 15 litre: a fifth of it is the reserve."""
    return dV * k / (1 - 0.2 * k)


@formula("V_R", "volume", "m3", source=EN_12828)
def small_reserve(V_N: Size) -> float:
    """Water reserve of a vessel up to 15 litre."""
    return 0.2 * V_N


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


@formula("p_a", "pressure_difference", "Pa", source=HYDROSTATICS)
def raised(
    p: Annotated[float, Sym("pressure_difference", "p", "Pa")],
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
) -> float:
    """Pressure with a supplement on it."""
    return p + dp


@formula("ΔV", "volume", "m3", source=BOYLE)
def gap_to_relief(V_room: Annotated[float, Sym("volume", "V_room", "m3")], dV: Taken) -> float:
    """Room up to the relief setting, less the expansion."""
    return V_room - dV


@formula("p", "pressure_difference", "Pa", source=HYDROSTATICS)
def lowered(
    p: Annotated[float, Sym("pressure_difference", "p", "Pa")],
    dp: Annotated[float, Sym("pressure_difference", "p_h", "Pa")],
) -> float:
    """Pressure at a place higher up by a column of water."""
    return p - dp
