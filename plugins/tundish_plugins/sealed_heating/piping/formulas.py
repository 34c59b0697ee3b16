"""Flow, heat and pressure in heating circuits."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import total
from tundish.sources import Source

HEAT_BALANCE: Final = Source(
    "heating-heat-balance",
    kind="textbook",
    document="Heat carried by flowing water",
    edition="heating textbooks",
    locator="Q = V ρ c_p Δθ",
    confirmed="derived",
)
MIXING: Final = Source(
    "heating-mixing",
    kind="textbook",
    document="Heat and volume balance of two flows that mix",
    edition="heating textbooks",
    locator="θ = (V_1 θ_1 + V_2 θ_2)/(V_1 + V_2), density and specific heat alike",
    confirmed="derived",
)
KV: Final = Source(
    "kv-definition",
    kind="standard",
    document="Definition of Kv: flow of water at 1 bar (EN 60534, VDI/VDE 2173)",
    edition="practice after both",
    locator="K_v = V sqrt(1 bar/Δp · ρ/1000 kg/m3)",
    confirmed="seen",
    seen_in="engineering pages on valve sizing",
)
SQUARE_LAW: Final = Source(
    "square-law",
    kind="derivation",
    document="Loss that goes with the square of the flow",
    edition="1",
    locator="Δp = Δp_r (V/V_r)²",
    confirmed="derived",
)
LOSSES: Final = Source(
    "losses-in-series",
    kind="derivation",
    document="Losses one after the other add up; circuits side by side share one pressure",
    edition="1",
    locator="sums",
    confirmed="derived",
)

BAR: Final = constant("p_1", 1e5, "pressure_difference", "Pa", source=KV)
COLD_WATER: Final = constant("ρ_0", 1000.0, "density", "kg/m3", source=KV)

Flow = Annotated[float, Sym("volume_flow", "V", "m3/s")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
SpecificHeat = Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")]
Power = Annotated[float, Sym("power", "Q", "W")]
Drop = Annotated[float, Sym("temperature_difference", "Δθ", "K")]
Pressure = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Losses = Annotated[list[float], Sym("pressure_difference", "Δp", "Pa")]
Flows = Annotated[list[float], Sym("volume_flow", "V", "m3/s")]
Coefficient = Annotated[float, Sym("volume_flow", "K_v", "m3/s")]


@formula("V", "volume_flow", "m3/s", source=HEAT_BALANCE)
def flow_of_power(Q: Power, rho: Density, c_p: SpecificHeat, dT: Drop) -> float:
    """Flow that carries the heat at the temperature difference."""
    return Q / (rho * c_p * dT)


@formula("Q", "power", "W", source=HEAT_BALANCE)
def power_of_flow(V: Flow, rho: Density, c_p: SpecificHeat, dT: Drop) -> float:
    """Heat that a flow carries at the temperature difference."""
    return V * rho * c_p * dT


@formula("Δθ", "temperature_difference", "K", source=HEAT_BALANCE)
def drop_of_flow(Q: Power, V: Flow, rho: Density, c_p: SpecificHeat) -> float:
    """Temperature difference at which a flow carries the heat."""
    return Q / (V * rho * c_p)


@formula("θ_m", "temperature", "K", source=MIXING)
def mean_temperature(T_f: Annotated[float, Sym("temperature", "θ_f", "K")], dT: Drop) -> float:
    """Mean of flow and return."""
    return T_f - dT / 2


@formula("θ_r", "temperature", "K", source=HEAT_BALANCE)
def return_temperature(T_f: Annotated[float, Sym("temperature", "θ_f", "K")], dT: Drop) -> float:
    """Return temperature."""
    return T_f - dT


@formula("V", "volume_flow", "m3/s", source=LOSSES)
def together(V: Flows) -> float:
    """Flows that run together."""
    return total(V)


@formula("ΣΔp", "pressure_difference", "Pa", source=LOSSES)
def in_series(dp: Losses) -> float:
    """Losses one after the other."""
    return total(dp)


@formula("Σζ", "number", "1", source=LOSSES)
def loss_coefficients(
    zeta_x: Annotated[float, Sym("number", "ζ_x", "1")],
    n: Annotated[list[float], Sym("number", "n", "1")],
    zeta: Annotated[list[float], Sym("number", "ζ", "1")],
) -> float:
    """Loss coefficients of all fittings."""
    return zeta_x + total(k * z for k, z in zip(n, zeta, strict=True))


@formula("L_e", "length", "m", source=LOSSES)
def effective_length(
    L: Annotated[float, Sym("length", "L", "m")],
    L_x: Annotated[float, Sym("length", "L_x", "m")],
    n: Annotated[list[float], Sym("number", "n", "1")],
    L_f: Annotated[list[float], Sym("length", "L_f", "m")],
) -> float:
    """Length with the equivalent lengths of fittings."""
    return L + L_x + total(k * a for k, a in zip(n, L_f, strict=True))


@formula("Δp_v", "pressure_difference", "Pa", source=KV)
def kv_loss(V: Flow, K_v: Coefficient, rho: Density) -> float:
    """Loss of what has a Kv."""
    return BAR * rho / COLD_WATER * (V / K_v) ** 2


@formula("Δp_c", "pressure_difference", "Pa", source=SQUARE_LAW)
def rated_loss(
    V: Flow,
    V_r: Annotated[float, Sym("volume_flow", "V_r", "m3/s")],
    dp_r: Annotated[float, Sym("pressure_difference", "Δp_r", "Pa")],
) -> float:
    """Loss from the loss at one flow."""
    return dp_r * (V / V_r) ** 2


@formula("θ", "temperature", "K", source=MIXING)
def mixed(
    V_1: Annotated[float, Sym("volume_flow", "V_1", "m3/s")],
    T_1: Annotated[float, Sym("temperature", "θ_1", "K")],
    V_2: Annotated[float, Sym("volume_flow", "V_2", "m3/s")],
    T_2: Annotated[float, Sym("temperature", "θ_2", "K")],
) -> float:
    """Temperature of two flows that mix."""
    return (V_1 * T_1 + V_2 * T_2) / (V_1 + V_2)
