"""The physics of a primary circuit beyond what the family shares."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, smaller, total
from tundish.sources import Source
from tundish_plugins.sealed_heating.piping.formulas import HEAT_BALANCE, LOSSES, MIXING

CONTINUITY: Final = Source(
    "boiler-flow-continuity",
    kind="derivation",
    document="Continuity at the boiler: its flow is that of the open valves and of the bypass",
    edition="1",
    locator="V_b = max(0, V_min - V_open)",
    confirmed="derived",
)

FlowT = Annotated[float, Sym("temperature", "θ_f", "K")]
Pressure = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Flow = Annotated[float, Sym("volume_flow", "V", "m3/s")]


@formula("Q", "power", "W", source=HEAT_BALANCE)
def power_together(Q: Annotated[list[float], Sym("power", "Q", "W")]) -> float:
    """Heat that flows together."""
    return total(Q)


@formula("m", "mass_flow", "kg/s", source=HEAT_BALANCE)
def mass_flow(V: Flow, rho: Annotated[float, Sym("density", "ρ", "kg/m3")]) -> float:
    """Mass flow."""
    return V * rho


@formula("Δp", "pressure_difference", "Pa", source=LOSSES)
def both(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    dp_2: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
) -> float:
    """Two losses one after the other."""
    return dp_1 + dp_2


@formula("Δp", "pressure_difference", "Pa", source=LOSSES)
def index_loss(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    dp_2: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
) -> float:
    """Loss of the index circuit: the larger."""
    return larger(dp_1, dp_2)


@formula("Δp_s", "pressure_difference", "Pa", source=LOSSES)
def surplus(
    dp_x: Annotated[float, Sym("pressure_difference", "Δp_index", "Pa")], dp: Pressure
) -> float:
    """Loss of the index circuit less that of this one."""
    return dp_x - dp


@formula("s", "number", "1", source=LOSSES)
def share(dp: Pressure, dp_t: Annotated[float, Sym("pressure_difference", "Δp_t", "Pa")]) -> float:
    """Loss over the whole."""
    return dp / dp_t


@formula("V", "volume_flow", "m3/s", source=LOSSES)
def scaled(
    V_i: Annotated[float, Sym("volume_flow", "V_i", "m3/s")],
    V: Flow,
    V_0: Annotated[float, Sym("volume_flow", "V_0", "m3/s")],
) -> float:
    """Flow of a part when the whole flow is another."""
    return V_i * V / V_0


@formula("r", "number", "1", source=CONTINUITY)
def flow_ratio(
    V_1: Annotated[float, Sym("volume_flow", "V_1", "m3/s")],
    V_2: Annotated[float, Sym("volume_flow", "V_2", "m3/s")],
) -> float:
    """One flow over another."""
    return V_1 / V_2


@formula("V_b", "volume_flow", "m3/s", source=CONTINUITY)
def bypass_flow(
    V_min: Annotated[float, Sym("volume_flow", "V_min", "m3/s")],
    V_open: Annotated[float, Sym("volume_flow", "V_open", "m3/s")],
) -> float:
    """Flow that a bypass has to add."""
    return larger(V_min - V_open, 0 * V_min)


@formula("V_x", "volume_flow", "m3/s", source=MIXING)
def straight_through(
    V_p: Annotated[float, Sym("volume_flow", "V_p", "m3/s")],
    V_s: Annotated[float, Sym("volume_flow", "V_s", "m3/s")],
) -> float:
    """Flow that both sides of the header share: the smaller."""
    return smaller(V_p, V_s)


@formula("V_y", "volume_flow", "m3/s", source=MIXING)
def rest(V: Flow, V_x: Annotated[float, Sym("volume_flow", "V_x", "m3/s")]) -> float:
    """Flow that short-circuits in the header."""
    return V - V_x


@formula("Δθ", "temperature_difference", "K", source=MIXING)
def warmer(
    T_1: Annotated[float, Sym("temperature", "θ_1", "K")],
    T_2: Annotated[float, Sym("temperature", "θ_2", "K")],
) -> float:
    """How much warmer the first is."""
    return T_1 - T_2


@formula("ΔR", "pressure_gradient", "Pa/m", source=LOSSES)
def gradient_gap(
    R: Annotated[float, Sym("pressure_gradient", "R", "Pa/m")],
    R_u: Annotated[float, Sym("pressure_gradient", "R_u", "Pa/m")],
) -> float:
    """Gradient less the one sized for; nothing where both are the same."""
    return R - R_u


@formula("θ_r", "temperature", "K", source=HEAT_BALANCE)
def return_of_all(
    T_f: FlowT,
    Q: Annotated[float, Sym("power", "Q", "W")],
    V: Flow,
    rho: Annotated[float, Sym("density", "ρ", "kg/m3")],
    c_p: Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")],
) -> float:
    """Return of all loads together."""
    return T_f - Q / (V * rho * c_p)


@formula("w_d", "velocity", "m/s", source=LOSSES)
def driven(
    w: Annotated[float, Sym("velocity", "w", "m/s")], r: Annotated[float, Sym("number", "r", "1")]
) -> float:
    """Velocity when the pump drives more than the design flow."""
    return w * larger(r, 1)
