"""Freezing point of glycol in water, shares, and what the glycol costs."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger
from tundish.sources import Source

FREEZING_FIT: Final = Source(
    "glycol-freezing-fit",
    kind="library",
    document="Polynomial through the freezing points of aqueous glycols (Melinder's data), mass "
    "share 0.10 to 0.55",
    edition="CoolProp 8.0.0, INCOMP::MPG and INCOMP::MEG",
    locator="T_freeze; within 0.00001 K",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
SHARES: Final = Source(
    "glycol-shares",
    kind="derivation",
    document="Shares of volumes put together at 20 degC, and what an exchange does",
    edition="1",
    locator="φ = x ρ_w/(x ρ_w + (1 - x) ρ_g); V_x = V (φ - φ_0)/(1 - φ_0)",
    confirmed="derived",
)
SAME_HEAT: Final = Source(
    "same-heat-flow",
    kind="derivation",
    document="Flow for the same heat at the same drop of temperature; expansion by density",
    edition="1",
    locator="V_g = V_w ρ_w c_w/(ρ_g c_g); ΔV = V (ρ_f/ρ_max - 1)",
    confirmed="derived",
)

Share = Annotated[float, Sym("number", "x", "1")]
VolumeShare = Annotated[float, Sym("number", "φ", "1")]
Water = Annotated[float, Sym("density", "ρ_w", "kg/m3")]
Glycol = Annotated[float, Sym("density", "ρ_g", "kg/m3")]
Content = Annotated[float, Sym("volume", "V", "m3")]


@formula("θ_F", "temperature", "degC", source=FREEZING_FIT, empirical=True)
def propylene_freezing_point(x: Share) -> float:
    """Freezing point with propylene glycol, mass share 0.10 to 0.55."""
    return -0.02507128 + x * (
        -17.7195 + x * (-134.3321 + x * (328.4701 + x * (-565.8002 + 146.5 * x)))
    )


@formula("θ_F", "temperature", "degC", source=FREEZING_FIT, empirical=True)
def ethylene_freezing_point(x: Share) -> float:
    """Freezing point with ethylene glycol, mass share 0.10 to 0.55."""
    return 0.0002850816 + x * (
        -30.61426 + x * (-11.82566 + x * (-186.2081 + x * (83.01767 + 11.4 * x)))
    )


@formula("θ_F", "temperature", "K", source=SHARES)
def target_temperature(
    T: Annotated[float, Sym("temperature", "θ_min", "K")],
    DT: Annotated[float, Sym("temperature_difference", "Δθ", "K")],
) -> float:
    """Freezing point that is asked for."""
    return T - DT


@formula("Δθ", "temperature_difference", "K", source=FREEZING_FIT)
def freezing_gap(
    T: Annotated[float, Sym("temperature", "θ_F", "K")],
    T_t: Annotated[float, Sym("temperature", "θ_t", "K")],
) -> float:
    """Freezing point less the one asked for."""
    return T - T_t


@formula("φ", "number", "1", source=SHARES)
def volume_share(x: Share, rho_w: Water, rho_g: Glycol) -> float:
    """Share of glycol by volume from its share by mass."""
    return x * rho_w / (x * rho_w + (1 - x) * rho_g)


@formula("V_g", "volume", "m3", source=SHARES)
def glycol_volume(phi: VolumeShare, V: Content) -> float:
    """Pure glycol for the whole content."""
    return phi * V


@formula("V_x", "volume", "m3", source=SHARES)
def exchange_volume(
    phi: VolumeShare, phi_0: Annotated[float, Sym("number", "φ_0", "1")], V: Content
) -> float:
    """Content to be replaced by pure glycol; nothing where there is enough."""
    return V * larger(phi - phi_0, 0.0) / (1 - phi_0)


@formula("ΔV", "volume", "m3", source=SAME_HEAT)
def expansion(
    V: Content,
    rho_f: Annotated[float, Sym("density", "ρ_f", "kg/m3")],
    rho_max: Annotated[float, Sym("density", "ρ_max", "kg/m3")],
) -> float:
    """Expansion from filling to the hottest."""
    return V * (rho_f / rho_max - 1)


@formula("r", "number", "1", source=SAME_HEAT)
def volume_ratio(
    V_1: Annotated[float, Sym("volume", "V_1", "m3")],
    V_2: Annotated[float, Sym("volume", "V_2", "m3")],
) -> float:
    """Volume with glycol over that with water."""
    return V_1 / V_2


@formula("V_g/V_w", "number", "1", source=SAME_HEAT)
def flow_ratio(
    rho_w: Water,
    c_w: Annotated[float, Sym("specific_heat", "c_w", "J/(kg.K)")],
    rho_g: Glycol,
    c_g: Annotated[float, Sym("specific_heat", "c_g", "J/(kg.K)")],
) -> float:
    """Flow with glycol over that with water for the same heat."""
    return rho_w * c_w / (rho_g * c_g)


@formula("V_g", "volume_flow", "m3/s", source=SAME_HEAT)
def glycol_flow(
    r: Annotated[float, Sym("number", "r", "1")],
    V_w: Annotated[float, Sym("volume_flow", "V_w", "m3/s")],
) -> float:
    """Flow with glycol."""
    return r * V_w


@formula("R_g/R_w", "number", "1", source=SAME_HEAT)
def gradient_ratio(
    R_g: Annotated[float, Sym("pressure_gradient", "R_g", "Pa/m")],
    R_w: Annotated[float, Sym("pressure_gradient", "R_w", "Pa/m")],
) -> float:
    """Pressure drop with glycol over that with water."""
    return R_g / R_w
