"""Formulas that the calculations of the family share: heads, sections, components, demand."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, smaller, total
from tundish.physics.hydrostatics import HYDROSTATICS, Density, g
from tundish.sources import Source

SQUARE_LAW: Final = Source(
    "square-law",
    kind="textbook",
    document="Pressure lost in a fitting or apparatus grows with the square of the flow",
    edition="fluid mechanics textbooks",
    locator="Δp = Δp_1 (q/q_1)²",
    confirmed="derived",
)
ENERGY_LINE: Final = Source(
    "energy-line",
    kind="textbook",
    document="Pressure along a pipe: start, less what is lost, less what is lifted",
    edition="fluid mechanics textbooks",
    locator="p_2 = p_1 - Δp - ρ g z",
    confirmed="derived",
)
VALVE: Final = Source(
    "reducing-valve-fall-off",
    kind="common-practice",
    document="Outlet pressure of a reducing valve: its setting less a fall-off that grows with flow",
    edition="1",
    locator="straight line through the fall-off its maker states at one flow; standing open, the "
    "inlet less what it then loses, with the square of the flow",
    confirmed="derived",
)
REDUCING_VALVE: Final = Source(
    "reducing-valve-static",
    kind="derivation",
    document="A pressure reducing valve holds its setting, or stands open and passes what the main "
    "has; an expansion valve holds the hot side to its own setting",
    edition="1",
    locator="p = min(p_set, p_main); worst of the hot side max(p, p_ev)",
    confirmed="derived",
)
DIN_1988_300: Final = Source(
    "din-1988-300",
    kind="standard",
    document="DIN 1988-300, pipe sizing of drinking water installations",
    edition="2012",
    locator="peak flow V_S = a (Σ V_R)^b - c",
    confirmed="seen",
    seen_in="German technical glossary page",
)
TOGETHER: Final = Source(
    "flows-together",
    kind="textbook",
    document="Flows that run at the same time add up",
    edition="fluid mechanics textbooks",
    locator="q = Σ q",
    confirmed="derived",
)

Flow = Annotated[float, Sym("volume_flow", "q", "m3/s")]
Flows = Annotated[list[float], Sym("volume_flow", "q", "m3/s")]
Gauge = Annotated[float, Sym("pressure_gauge", "p", "Pa")]
Drop = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Rise = Annotated[float, Sym("length", "z", "m")]


# --- heights --------------------------------------------------------------------------------------


@formula("Δp_z", "pressure_difference", "Pa", source=HYDROSTATICS)
def rise_pressure(rho: Density, z: Rise) -> float:
    """Pressure taken by the rise; negative where the pipe falls."""
    return rho * g * z


@formula("p", "pressure_gauge", "Pa", source=HYDROSTATICS)
def cistern_pressure(rho: Density, h: Annotated[float, Sym("head", "h", "m")]) -> float:
    """Pressure under a water surface."""
    return rho * g * h


@formula("Δp", "pressure_difference", "Pa", source=HYDROSTATICS)
def head_pressure(rho: Density, h: Annotated[float, Sym("head", "h_f", "m")]) -> float:
    """Pressure of a head of water."""
    return rho * g * h


@formula("h", "head", "m", source=HYDROSTATICS)
def head_of(p: Gauge, rho: Density) -> float:
    """Head of a pressure."""
    return p / (rho * g)


# --- sections -------------------------------------------------------------------------------------


@formula("L_e", "length", "m", source=ENERGY_LINE)
def effective_length(
    L: Annotated[float, Sym("length", "L", "m")], L_x: Annotated[float, Sym("length", "L_x", "m")]
) -> float:
    """Length with the length that stands for fittings."""
    return L + L_x


@formula("Δp_c", "pressure_difference", "Pa", source=SQUARE_LAW)
def component_drop(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    q: Flow,
    q_1: Annotated[float, Sym("volume_flow", "q_1", "m3/s")],
) -> float:
    """Pressure lost in a component, from its loss at one flow."""
    return dp_1 * (q / q_1) ** 2


@formula("Δp", "pressure_difference", "Pa", source=ENERGY_LINE)
def section_drop(
    dp_f: Annotated[float, Sym("pressure_difference", "Δp_f", "Pa")],
    dp_zeta: Annotated[float, Sym("pressure_difference", "Δp_ζ", "Pa")],
    dp_c: Annotated[list[float], Sym("pressure_difference", "Δp_c", "Pa")],
) -> float:
    """Pressure lost in the section: friction, fittings, components."""
    return dp_f + dp_zeta + total(dp_c)


@formula("Δp", "pressure_difference", "Pa", source=ENERGY_LINE)
def components_together(
    dp_c: Annotated[list[float], Sym("pressure_difference", "Δp_c", "Pa")],
) -> float:
    """Pressure lost in the components."""
    return total(dp_c)


@formula("p_2", "pressure_gauge", "Pa", source=ENERGY_LINE)
def end_pressure(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    dp: Drop,
    dp_z: Annotated[float, Sym("pressure_difference", "Δp_z", "Pa")],
) -> float:
    """Pressure at the end: start, less lost, less lifted."""
    return p_1 - dp - dp_z


@formula("p_r", "pressure_gauge", "Pa", source=VALVE)
def valve_regulated(
    p_set: Annotated[float, Sym("pressure_gauge", "p_set", "Pa")],
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    q: Flow,
    q_1: Annotated[float, Sym("volume_flow", "q_1", "m3/s")],
) -> float:
    """Pressure that the reducing valve holds: setting less fall-off."""
    return p_set - dp_1 * q / q_1


@formula("p_2", "pressure_gauge", "Pa", source=VALVE)
def valve_outlet(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_r: Annotated[float, Sym("pressure_gauge", "p_r", "Pa")],
    dp_o: Annotated[float, Sym("pressure_difference", "Δp_o", "Pa")],
) -> float:
    """Pressure after the reducing valve: what it holds, or its inlet less its loss when open."""
    return smaller(p_1 - dp_o, p_r)


@formula("p_2", "pressure_gauge", "Pa", source=VALVE)
def valve_static(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_set: Annotated[float, Sym("pressure_gauge", "p_set", "Pa")],
) -> float:
    """Pressure after the reducing valve with nothing flowing."""
    return smaller(p_1, p_set)


@formula("p_w", "pressure_gauge", "Pa", source=REDUCING_VALVE)
def worst_of_hot_side(
    p: Gauge,
    p_ev: Annotated[float, Sym("pressure_gauge", "p_ev", "Pa")],
) -> float:
    """Highest static pressure of the hot side: the expansion valve lifting."""
    return larger(p, p_ev)


@formula("Δp_s", "pressure_difference", "Pa", source=ENERGY_LINE)
def spare(p: Gauge, p_r: Annotated[float, Sym("pressure_gauge", "p_r", "Pa")]) -> float:
    """Pressure beyond what is asked for; negative: missing."""
    return p - p_r


@formula("r", "number", "1", source=HYDROSTATICS)
def pressure_ratio(
    p_2: Annotated[float, Sym("pressure_gauge", "p_2", "Pa")],
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
) -> float:
    """Pressure after over pressure before."""
    return p_2 / p_1


@formula("r_m", "number", "1", source=HYDROSTATICS)
def mixer_ratio(
    p_h: Annotated[float, Sym("pressure_gauge", "p_h", "Pa")],
    p_c: Annotated[float, Sym("pressure_gauge", "p_c", "Pa")],
) -> float:
    """Larger of the two pressures at a mixer over the smaller."""
    return larger(p_h, p_c) / smaller(p_h, p_c)


# --- demand ---------------------------------------------------------------------------------------


@formula("Σq", "volume_flow", "m3/s", source=TOGETHER)
def together(q: Flows) -> float:
    """Flow of outlets that run at the same time."""
    return total(q)


@formula("ΣLU", "number", "1", source=TOGETHER)
def units_together(LU: Annotated[list[float], Sym("number", "LU", "1")]) -> float:
    """Loading units of the outlets together."""
    return total(LU)


@formula("V_S", "volume_flow", "l/s", source=DIN_1988_300, empirical=True)
def peak_flow(
    V_R: Annotated[float, Sym("volume_flow", "ΣV_R", "l/s")],
    a: Annotated[float, Sym("number", "a", "1")],
    b: Annotated[float, Sym("number", "b", "1")],
    c: Annotated[float, Sym("number", "c", "1")],
) -> float:
    """Peak flow by the formula of the standard, from the sum of the calculation flows."""
    return a * V_R**b - c  # type: ignore[no-any-return]


@formula("V_S", "volume_flow", "m3/s", source=DIN_1988_300)
def peak_within(
    V_S: Annotated[float, Sym("volume_flow", "V_S", "m3/s")],
    q_1: Annotated[float, Sym("volume_flow", "q_max", "m3/s")],
    q_r: Annotated[float, Sym("volume_flow", "Σq_r", "m3/s")],
) -> float:
    """Peak flow: never below the largest outlet, nor above what the rooms draw at once."""
    return smaller(larger(V_S, q_1), q_r)
