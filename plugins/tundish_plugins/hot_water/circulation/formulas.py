"""Physics of a circulation: what it carries, how it splits, how warm it comes back.

Every pipe's loss is taken at the outlet temperature, which is on the high side. At a node the flow
splits in proportion to the loss behind each branch, so that all come back equally warm.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import larger, total
from tundish.physics.hydrostatics import g
from tundish.sources import Source

CARRIED: Final = Source(
    "circulation-balance",
    kind="textbook",
    document="Energy balance of a circulation: the flow carries the loss of its pipes",
    edition="building services textbooks",
    locator="m = Q/(h_out - h_ret)",
    confirmed="derived",
)
SPLIT: Final = Source(
    "circulation-split",
    kind="derivation",
    document="Split of a circulation at a node so that every branch comes back equally warm",
    edition="1",
    locator="T_n - Q_i/(m_i c) equal for all i gives m_i = m Q_i/ΣQ",
    confirmed="derived",
)
RESISTANCE: Final = Source(
    "circulation-resistance",
    kind="textbook",
    document="Pressure drop of a circuit: the sum along its way; the pump serves the longest",
    edition="building services textbooks",
    locator="Δp = max over ways of the sum of drops, valves added",
    confirmed="derived",
)

DAY: Final = constant("t_d", 86400.0, "time", "s")
YEAR: Final = constant("n_y", 365.0, "number", "1")

Loss = Annotated[float, Sym("power", "Q", "W")]
Losses = Annotated[list[float], Sym("power", "Q", "W")]
MassFlow = Annotated[float, Sym("mass_flow", "m", "kg/s")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
Enthalpy1 = Annotated[float, Sym("specific_enthalpy", "h_out", "J/kg")]
Enthalpy2 = Annotated[float, Sym("specific_enthalpy", "h_ret", "J/kg")]
Outlet = Annotated[float, Sym("temperature", "T_out", "K")]
Return = Annotated[float, Sym("temperature", "T_ret", "K")]
SpecificHeat = Annotated[float, Sym("specific_heat", "c", "J/(kg.K)")]
Drop = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Drops = Annotated[list[float], Sym("pressure_difference", "Δp", "Pa")]


@formula("ΣQ", "power", "W", source=CARRIED)
def all_losses(Q: Losses) -> float:
    """Sum of losses."""
    return total(Q)


@formula("c", "specific_heat", "J/(kg.K)", source=CARRIED)
def mean_specific_heat(h_1: Enthalpy1, h_2: Enthalpy2, T_1: Outlet, T_2: Return) -> float:
    """Mean specific heat between outlet and return."""
    return (h_1 - h_2) / (T_1 - T_2)


@formula("m", "mass_flow", "kg/s", source=CARRIED)
def carrying_flow(Q: Loss, h_1: Enthalpy1, h_2: Enthalpy2) -> float:
    """Flow that carries the loss and comes back as warm as wanted."""
    return Q / (h_1 - h_2)


@formula("m", "mass_flow", "kg/s", source=CARRIED)
def mass_flow(V: Annotated[float, Sym("volume_flow", "V", "m3/s")], rho: Density) -> float:
    """Flow by mass."""
    return V * rho


@formula("V", "volume_flow", "m3/s", source=CARRIED)
def volume_flow(m: MassFlow, rho: Density) -> float:
    """Flow by volume at the return."""
    return m / rho


@formula("m_i", "mass_flow", "kg/s", source=SPLIT)
def branch_flow(m: MassFlow, Q_i: Annotated[float, Sym("power", "Q_i", "W")], Q: Loss) -> float:
    """Flow of a branch: the node's flow in the share of the loss behind it."""
    return m * Q_i / Q


@formula("T_e", "temperature", "K", source=CARRIED)
def cooled(
    T: Annotated[float, Sym("temperature", "T", "K")], Q: Loss, m: MassFlow, c: SpecificHeat
) -> float:
    """Temperature after a run that loses heat."""
    return T - Q / (m * c)


@formula("ΔT", "temperature_difference", "K", source=CARRIED)
def temperature_drop(T_1: Outlet, T_2: Return) -> float:
    """Outlet less return."""
    return T_1 - T_2


@formula("Q_d", "energy", "J", source=CARRIED)
def daily_loss(Q: Loss) -> float:
    """Loss in a day of running through."""
    return Q * DAY


@formula("Q_y", "energy", "J", source=CARRIED)
def yearly_loss(Q_d: Annotated[float, Sym("energy", "Q_d", "J")]) -> float:
    """Loss in 365 days."""
    return Q_d * YEAR


@formula("Δp", "pressure_difference", "Pa", source=RESISTANCE)
def pipe_drop(
    dp_f: Drop, dp_z: Annotated[float, Sym("pressure_difference", "Δp_ζ", "Pa")]
) -> float:
    """Friction and fittings of a pipe."""
    return dp_f + dp_z


@formula("Δp_w", "pressure_difference", "Pa", source=RESISTANCE)
def way_drop(dp: Drops) -> float:
    """Pressure drop of a whole way out and back."""
    return total(dp)


@formula("Δp_max", "pressure_difference", "Pa", source=RESISTANCE)
def higher_drop(
    a: Annotated[float, Sym("pressure_difference", "Δp_a", "Pa")],
    b: Annotated[float, Sym("pressure_difference", "Δp_b", "Pa")],
) -> float:
    """Higher of two ways."""
    return larger(a, b)


@formula("Δp_b", "pressure_difference", "Pa", source=RESISTANCE)
def balancing_drop(
    dp_max: Annotated[float, Sym("pressure_difference", "Δp_max", "Pa")], dp: Drop
) -> float:
    """What the balancing valve of a way takes."""
    return dp_max - dp


@formula("Δp_p", "pressure_difference", "Pa", source=RESISTANCE)
def pump_pressure(
    dp_max: Annotated[float, Sym("pressure_difference", "Δp_max", "Pa")],
    dp_cv: Annotated[float, Sym("pressure_difference", "Δp_cv", "Pa")],
    dp_x: Annotated[float, Sym("pressure_difference", "Δp_x", "Pa")],
) -> float:
    """What the pump must give."""
    return dp_max + dp_cv + dp_x


@formula("H", "head", "m", source=RESISTANCE)
def pump_head(dp: Drop, rho: Density) -> float:
    """Pressure of the pump as head."""
    return dp / (rho * g)
