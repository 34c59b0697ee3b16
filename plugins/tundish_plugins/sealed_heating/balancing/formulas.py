"""The physics of balancing: what a valve has to take, what a radiator gives at another flow."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import exp, larger, smaller, sqrt, total
from tundish.physics.radiators import EN_442, LOG_MEAN
from tundish.sources import Source
from tundish_plugins.sealed_heating.piping.formulas import (
    BAR,
    COLD_WATER,
    HEAT_BALANCE,
    KV,
    LOSSES,
    MIXING,
)

VALVE_LINE: Final = Source(
    "valve-points",
    kind="derivation",
    document="Straight line between two points of a valve's characteristic",
    edition="1",
    locator="K_v = K_a + (s - s_a)/(s_b - s_a) (K_b - K_a)",
    confirmed="derived",
)
SQUARES: Final = Source(
    "hydraulic-resistances",
    kind="textbook",
    document="Losses as resistances that go with the square of the flow, in series and side by side",
    edition="heating textbooks",
    locator="Δp = R V²",
    confirmed="derived",
)

RATED_FLOW: Final = constant("θ_f50", 348.15, "temperature", "K", source=EN_442)
RATED_RETURN: Final = constant("θ_r50", 338.15, "temperature", "K", source=EN_442)
RATED_ROOM: Final = constant("θ_i50", 293.15, "temperature", "K", source=EN_442)

Flow = Annotated[float, Sym("volume_flow", "V", "m3/s")]
Pressure = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
FlowT = Annotated[float, Sym("temperature", "θ_f", "K")]
RoomT = Annotated[float, Sym("temperature", "θ_i", "K")]
Ratio = Annotated[float, Sym("number", "y", "1")]
Setting = Annotated[float, Sym("number", "s", "1")]
SettingA = Annotated[float, Sym("number", "s_a", "1")]
SettingB = Annotated[float, Sym("number", "s_b", "1")]
Kv = Annotated[float, Sym("volume_flow", "K_v", "m3/s")]
KvA = Annotated[float, Sym("volume_flow", "K_a", "m3/s")]
KvB = Annotated[float, Sym("volume_flow", "K_b", "m3/s")]
Resistance = Annotated[float, Sym("hydraulic_resistance", "R", "Pa.s2/m6")]


@formula("Δp", "pressure_difference", "Pa", source=LOSSES)
def index_loss(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    dp_2: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
) -> float:
    """Loss of the index radiator's way: the larger."""
    return larger(dp_1, dp_2)


@formula("Δp_v", "pressure_difference", "Pa", source=LOSSES)
def left_for_valve(
    dp_0: Annotated[float, Sym("pressure_difference", "Δp_0", "Pa")],
    dp_p: Annotated[float, Sym("pressure_difference", "Δp_p", "Pa")],
    dp_l: Annotated[float, Sym("pressure_difference", "Δp_l", "Pa")],
) -> float:
    """What the balancing valve has to take away."""
    return dp_0 - dp_p - dp_l


@formula("K_v,n", "volume_flow", "m3/s", source=KV)
def kv_needed(V: Flow, dp: Pressure, rho: Density) -> float:
    """Kv at which the valve takes that away."""
    return V * sqrt(BAR * rho / (COLD_WATER * dp))


@formula("K_v", "volume_flow", "m3/s", source=VALVE_LINE)
def kv_set(
    K_n: Annotated[float, Sym("volume_flow", "K_v,n", "m3/s")],
    K_1: Annotated[float, Sym("volume_flow", "K_v,1", "m3/s")],
    K_m: Annotated[float, Sym("volume_flow", "K_v,m", "m3/s")],
) -> float:
    """Kv that the valve can be set to: from its least to fully open."""
    return smaller(larger(K_n, K_1), K_m)


@formula("s", "number", "1", source=VALVE_LINE)
def setting_between(K_v: Kv, s_a: SettingA, K_a: KvA, s_b: SettingB, K_b: KvB) -> float:
    """Setting for a Kv, on the straight line between two points of the valve."""
    return s_a + (K_v - K_a) / (K_b - K_a) * (s_b - s_a)


@formula("K_v", "volume_flow", "m3/s", source=VALVE_LINE)
def kv_between(s: Setting, s_a: SettingA, K_a: KvA, s_b: SettingB, K_b: KvB) -> float:
    """Kv at a setting, on the straight line between two points of the valve."""
    return K_a + (s - s_a) / (s_b - s_a) * (K_b - K_a)


@formula("R", "hydraulic_resistance", "Pa.s2/m6", source=SQUARES)
def resistance(dp: Pressure, V: Flow) -> float:
    """Resistance of what loses a pressure at a flow."""
    return dp / V**2


@formula("Δp", "pressure_difference", "Pa", source=SQUARES)
def loss_of_resistance(R: Resistance, V: Flow) -> float:
    """Loss of a resistance."""
    return R * V**2


@formula("V", "volume_flow", "m3/s", source=SQUARES)
def flow_through(
    dp_0: Annotated[float, Sym("pressure_difference", "Δp_0", "Pa")],
    dp_p: Annotated[float, Sym("pressure_difference", "Δp_p", "Pa")],
    R: Resistance,
) -> float:
    """Flow of a radiator with what the pipes leave it."""
    return sqrt((dp_0 - dp_p) / R)


@formula("r", "number", "1", source=LOSSES)
def share(V: Flow, V_0: Annotated[float, Sym("volume_flow", "V_0", "m3/s")]) -> float:
    """Flow over design flow."""
    return V / V_0


@formula("r_min", "number", "1", source=LOSSES)
def least_share(
    r_1: Annotated[float, Sym("number", "r_1", "1")],
    r_2: Annotated[float, Sym("number", "r_2", "1")],
) -> float:
    """Flow over design flow of the radiator that gets least: the smaller."""
    return smaller(r_1, r_2)


@formula("Q", "power", "W", source=HEAT_BALANCE)
def together(Q: Annotated[list[float], Sym("power", "Q", "W")]) -> float:
    """Heat of all radiators."""
    return total(Q)


@formula("θ_r", "temperature", "K", source=MIXING)
def mixed_return(
    V: Annotated[list[float], Sym("volume_flow", "V", "m3/s")],
    T: Annotated[list[float], Sym("temperature", "θ_r", "K")],
) -> float:
    """All returns mixed."""
    return total(v * t for v, t in zip(V, T, strict=True)) / total(V)


# --- what a radiator gives ------------------------------------------------------------------------


@formula("Δθ_ln", "temperature_difference", "K", source=LOG_MEAN)
def logarithmic_by_ratio(T_f: FlowT, T_i: RoomT, y: Ratio) -> float:
    """Logarithmic mean of the excess temperature, by the logarithm of its ratio."""
    return (T_f - T_i) * (1 - exp(-y)) / y


@formula("Δθ_m", "temperature_difference", "K", source=EN_442)
def arithmetic_by_ratio(T_f: FlowT, T_i: RoomT, y: Ratio) -> float:
    """Arithmetic mean of the excess temperature, by the logarithm of its ratio."""
    return (T_f - T_i) * (1 + exp(-y)) / 2


@formula("Q", "power", "W", source=EN_442)
def output(
    Q_0: Annotated[float, Sym("power", "Q_0", "W")],
    f: Annotated[float, Sym("number", "f", "1")],
) -> float:
    """Heat that the radiator gives."""
    return Q_0 * f


@formula("Q", "power", "W", source=HEAT_BALANCE)
def heat_left(
    V: Flow,
    rho: Density,
    c_p: Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")],
    T_f: FlowT,
    T_i: RoomT,
    y: Ratio,
) -> float:
    """Heat that the water leaves, by the logarithm of the ratio of excess temperatures."""
    return V * rho * c_p * (T_f - T_i) * (1 - exp(-y))


@formula("ΔQ", "power", "W", source=HEAT_BALANCE)
def heat_gap(
    Q_w: Annotated[float, Sym("power", "Q_w", "W")], Q: Annotated[float, Sym("power", "Q", "W")]
) -> float:
    """Heat that the water leaves less heat that the radiator gives; nothing in the end."""
    return Q_w - Q


@formula("Δθ", "temperature_difference", "K", source=LOG_MEAN)
def temperature_drop(T_f: FlowT, T_i: RoomT, y: Ratio) -> float:
    """Difference of flow and return, by the logarithm of the ratio of excess temperatures."""
    return (T_f - T_i) * (1 - exp(-y))
