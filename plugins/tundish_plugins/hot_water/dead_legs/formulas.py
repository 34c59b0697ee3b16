"""Physics of dead legs: plug flow, a wall that takes its heat from the water, cooling on the way."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import exp, larger, total
from tundish.physics.pipes import PI
from tundish.sources import Source

GEOMETRY: Final = Source(
    "round-tube",
    kind="textbook",
    document="Content of a round tube and volume of its wall",
    edition="geometry",
    locator="V = π d² L/4",
    confirmed="derived",
)
PLUG: Final = Source(
    "plug-flow",
    kind="derivation",
    document="Plug flow in a tube whose wall takes its heat from the water behind the front",
    edition="1",
    locator="t = (V + V_w)/q, V_w = ΣC (T_h - T_s)/(ρ_h (h_h - h_s))",
    confirmed="derived",
)

ARRIVAL: Final = Source(
    "cooling-on-the-way",
    kind="derivation",
    document="Cooling of flowing water along a pipe whose conductance is not above that at its hot "
    "end",
    edition="1",
    locator="T_s + (T_h - T_s) exp(-UA/(q ρ c)), UA = Q/(T_h - T_s)",
    confirmed="derived",
)

YEAR: Final = constant("n_y", 365.0, "number", "1")

Bore = Annotated[float, Sym("length", "d", "m")]
Outside = Annotated[float, Sym("length", "d_a", "m")]
Length = Annotated[float, Sym("length", "L", "m")]
Volume = Annotated[float, Sym("volume", "V", "m3")]
WallWater = Annotated[float, Sym("volume", "V_w", "m3")]
Flow = Annotated[float, Sym("volume_flow", "q", "m3/s")]
Density = Annotated[float, Sym("density", "ρ_h", "kg/m3")]
EnthalpyH = Annotated[float, Sym("specific_enthalpy", "h_h", "J/kg")]
EnthalpyS = Annotated[float, Sym("specific_enthalpy", "h_s", "J/kg")]
Hot = Annotated[float, Sym("temperature", "T_h", "K")]
Standing = Annotated[float, Sym("temperature", "T_s", "K")]
Uses = Annotated[float, Sym("number", "n", "1")]


@formula("V", "volume", "m3", source=GEOMETRY)
def tube_content(d: Bore, L: Length) -> float:
    """Water in the tube."""
    return PI * d**2 / 4 * L


@formula("C_w", "heat_capacity", "J/K", source=GEOMETRY)
def wall_heat_capacity(
    d_a: Outside,
    d: Bore,
    L: Length,
    c: Annotated[float, Sym("volumetric_heat_capacity", "c_w", "J/(m3.K)")],
) -> float:
    """Heat capacity of the wall."""
    return PI * (d_a**2 - d**2) / 4 * L * c


@formula("ΣL", "length", "m", source=GEOMETRY)
def whole_length(L: Annotated[list[float], Sym("length", "L", "m")]) -> float:
    """Sum of lengths."""
    return total(L)


@formula("ΣV", "volume", "m3", source=GEOMETRY)
def whole_volume(V: Annotated[list[float], Sym("volume", "V", "m3")]) -> float:
    """Sum of volumes."""
    return total(V)


@formula("d_max", "length", "m", source=GEOMETRY)
def wider(
    a: Annotated[float, Sym("length", "d_1", "m")], b: Annotated[float, Sym("length", "d_2", "m")]
) -> float:
    """Wider of two tubes."""
    return larger(a, b)


@formula("V_w", "volume", "m3", source=PLUG)
def wall_water(
    C: Annotated[list[float], Sym("heat_capacity", "C_w", "J/K")],
    T_h: Hot,
    T_s: Standing,
    rho: Density,
    h_h: EnthalpyH,
    h_s: EnthalpyS,
) -> float:
    """Hot water whose heat goes into the wall."""
    return total(C) * (T_h - T_s) / (rho * (h_h - h_s))


@formula("t_p", "time", "s", source=PLUG)
def plug_time(V: Volume, q: Flow) -> float:
    """Time until the standing water is out."""
    return V / q


@formula("t_w", "time", "s", source=PLUG)
def wall_time(V_w: WallWater, q: Flow) -> float:
    """Further time until the wall is hot."""
    return V_w / q


@formula("t", "time", "s", source=PLUG)
def wait(
    t_p: Annotated[float, Sym("time", "t_p", "s")], t_w: Annotated[float, Sym("time", "t_w", "s")]
) -> float:
    """Wait for hot water."""
    return t_p + t_w


@formula("t_max", "time", "s", source=PLUG)
def longer_wait(
    a: Annotated[float, Sym("time", "t_1", "s")], b: Annotated[float, Sym("time", "t_2", "s")]
) -> float:
    """Longer of two waits."""
    return larger(a, b)


@formula("ΣQ", "power", "W", source=ARRIVAL)
def whole_loss(Q: Annotated[list[float], Sym("power", "Q", "W")]) -> float:
    """Most the leg can lose while water runs: every run as if bare and black."""
    return total(Q)


@formula("T_e", "temperature", "K", source=ARRIVAL)
def arrival_temperature(
    T_h: Hot,
    T_s: Standing,
    Q: Annotated[float, Sym("power", "ΣQ", "W")],
    q: Flow,
    rho: Density,
    c: Annotated[float, Sym("specific_heat", "c", "J/(kg.K)")],
) -> float:
    """Least temperature at the outlet once it runs hot."""
    return T_s + (T_h - T_s) * exp(-Q / (q * rho * c * (T_h - T_s)))


@formula("q_n", "volume_flow", "m3/s", source=PLUG)
def needed_flow(V: Volume, V_w: WallWater, t: Annotated[float, Sym("time", "t_lim", "s")]) -> float:
    """Draw-off that brings hot water within a time."""
    return (V + V_w) / t


@formula("V_d", "volume", "m3", source=PLUG)
def daily_waste(n: Uses, V: Volume, V_w: WallWater) -> float:
    """Water run off in a day before it comes hot."""
    return n * (V + V_w)


@formula("V_y", "volume", "m3", source=PLUG)
def yearly_waste(V_d: Annotated[float, Sym("volume", "V_d", "m3")]) -> float:
    """Water run off in 365 days."""
    return V_d * YEAR


@formula("Q_y", "energy", "J", source=PLUG)
def yearly_heat(
    V_y: Annotated[float, Sym("volume", "V_y", "m3")],
    rho: Density,
    h_h: EnthalpyH,
    h_s: EnthalpyS,
) -> float:
    """Heat left to cool in the legs in 365 days, wall included."""
    return V_y * rho * (h_h - h_s)
