"""The arithmetic of the table, the heat a relief valve must carry away, and the head of the pipe."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import sqrt, total
from tundish.physics.hydrostatics import g
from tundish.physics.pipes import PI, Bore
from tundish.sources import Source

RESISTANCE: Final = Source(
    "discharge-resistance",
    kind="official-guidance",
    document="Approved Document G, requirement G3: resistance of a discharge pipe as a length",
    edition="2010, also 2015 edition",
    locator="table of copper discharge pipes and the worked example",
    confirmed="seen-reproduced",
    seen_in="installation instructions that reproduce the guidance",
)
HEAT_BALANCE: Final = Source(
    "relief-heat-balance",
    kind="derivation",
    document="Heat balance of a store at the temperature of its relief valve",
    edition="1",
    locator="P = m (h_v - h_c): what leaves hot is followed by cold water",
    confirmed="derived",
)
GRAVITY_RUN: Final = Source(
    "gravity-run",
    kind="textbook",
    document="Bernoulli's equation of a full pipe between an open funnel and an open end",
    edition="fluid mechanics textbooks",
    locator="h = (f L/d + ζ) w²/(2 g); sharp entry 0.5 and velocity at the end 1",
    confirmed="derived",
)

ENTRY_AND_EXIT: Final = constant("ζ", 1.5, "number", "1", source=GRAVITY_RUN)

Run = Annotated[float, Sym("length", "L", "m")]
Bends = Annotated[float, Sym("number", "n", "1")]
BendResistance = Annotated[float, Sym("length", "z", "m")]
Allowed = Annotated[float, Sym("length", "L_max", "m")]


@formula("n z", "length", "m", source=RESISTANCE)
def bends_length(n: Bends, z: BendResistance) -> float:
    """Straight pipe that the bends of this size stand for."""
    return n * z


@formula("L_eq", "length", "m", source=RESISTANCE)
def equivalent_length(L: Run, nz: Annotated[float, Sym("length", "n z", "m")]) -> float:
    """Equivalent length: the run and its bends."""
    return L + nz


@formula("ΔL", "length", "m", source=RESISTANCE)
def spare_length(L_max: Allowed, L_eq: Annotated[float, Sym("length", "L_eq", "m")]) -> float:
    """Length left of what the table allows."""
    return L_max - L_eq


@formula("L", "length", "m", source=RESISTANCE)
def longest_run(L_max: Allowed, nz: Annotated[float, Sym("length", "n z", "m")]) -> float:
    """Longest run with these bends."""
    return L_max - nz


@formula("ΣP", "power", "W", source=HEAT_BALANCE)
def total_heat(P: Annotated[list[float], Sym("power", "P", "W")]) -> float:
    """Most heat that all sources give together."""
    return total(P)


@formula("P_v", "power", "W", source=HEAT_BALANCE)
def rating_needed(
    r: Annotated[float, Sym("number", "r", "1")], P: Annotated[float, Sym("power", "ΣP", "W")]
) -> float:
    """Discharge rating that the relief valve needs."""
    return r * P


@formula("V_r", "volume_flow", "m3/s", source=HEAT_BALANCE)
def relief_water(
    P_v: Annotated[float, Sym("power", "P_v", "W")],
    h_v: Annotated[float, Sym("specific_enthalpy", "h_v", "J/kg")],
    h_c: Annotated[float, Sym("specific_enthalpy", "h_c", "J/kg")],
    rho: Annotated[float, Sym("density", "ρ_v", "kg/m3")],
) -> float:
    """Hot water that carries the rated heat away."""
    return P_v / (h_v - h_c) / rho


@formula("h", "length", "m", source=GRAVITY_RUN)
def least_drop(
    L_v: Annotated[float, Sym("length", "L_v", "m")],
    s: Annotated[float, Sym("number", "s", "1")],
    L: Run,
) -> float:
    """Least height of the tundish above the end: vertical leg, then the fall."""
    return L_v + s * (L - L_v)


@formula("V_0", "volume_flow", "m3/s", source=GRAVITY_RUN)
def flow_without_friction(h: Annotated[float, Sym("length", "h", "m")], d: Bore) -> float:
    """Flow that the height would give were there no friction: more than the pipe ever carries."""
    return PI * d**2 / 4 * sqrt(2 * g * h)


@formula("ΔH", "head", "m", source=GRAVITY_RUN)
def head_over(
    H: Annotated[float, Sym("head", "H", "m")], h: Annotated[float, Sym("length", "h", "m")]
) -> float:
    """Head asked for beyond the height; nothing where the tundish just stays full."""
    return H - h


@formula("m", "number", "1", source=GRAVITY_RUN)
def capacity_margin(
    V_cap: Annotated[float, Sym("volume_flow", "V_cap", "m3/s")],
    V_r: Annotated[float, Sym("volume_flow", "V_r", "m3/s")],
) -> float:
    """Capacity over relief flow."""
    return V_cap / V_r
