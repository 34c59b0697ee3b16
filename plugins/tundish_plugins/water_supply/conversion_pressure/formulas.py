"""Pressure before and after a house is turned from a cistern to the main."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, sqrt
from tundish.physics.hydrostatics import HYDROSTATICS, Density
from tundish.sources import Source

ORIFICE: Final = Source(
    "orifice",
    kind="textbook",
    document="Flow through one and the same opening",
    edition="fluid mechanics textbooks",
    locator="V ~ √Δp; the pipe's own losses take part of it, so it is the most that can be expected",
    confirmed="derived",
)
JOUKOWSKY: Final = Source(
    "joukowsky",
    kind="textbook",
    document="Surge when flow is stopped at once (Joukowsky)",
    edition="fluid mechanics textbooks",
    locator="Δp = ρ a Δw, for closing within 2 L/a",
    confirmed="seen",
    seen_in="several pages on water hammer",
)
MICHAUD: Final = Source(
    "michaud",
    kind="textbook",
    document="Surge when flow is stopped slowly and evenly (Michaud)",
    edition="fluid mechanics textbooks",
    locator="Δp = 2 ρ L Δw/t, for closing longer than 2 L/a",
    confirmed="derived",
)

Gauge = Annotated[float, Sym("pressure_gauge", "p", "Pa")]
Surge = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Velocity = Annotated[float, Sym("velocity", "Δw", "m/s")]
Wave = Annotated[float, Sym("velocity", "a", "m/s")]
Length = Annotated[float, Sym("length", "L", "m")]


@formula("h", "head", "m", source=HYDROSTATICS)
def depth_below_cistern(
    z_c: Annotated[float, Sym("length", "z_c", "m")],
    z: Annotated[float, Sym("length", "z", "m")],
) -> float:
    """Depth below the water level of the cistern."""
    return z_c - z


@formula("r_V", "number", "1", source=ORIFICE)
def flow_ratio(r: Annotated[float, Sym("number", "r", "1")]) -> float:
    """Flow after over flow before through the same opening, at most."""
    return sqrt(r)


@formula("t_r", "time", "s", source=JOUKOWSKY)
def reflection_time(L: Length, a: Wave) -> float:
    """Time for the wave to run to the main run of pipe and back."""
    return 2 * L / a


@formula("Δp", "pressure_difference", "Pa", source=JOUKOWSKY)
def sudden_surge(rho: Density, a: Wave, w: Velocity) -> float:
    """Surge when the flow is stopped at once."""
    return rho * a * w


@formula("Δp", "pressure_difference", "Pa", source=MICHAUD)
def slow_surge(
    rho: Density, L: Length, w: Velocity, t: Annotated[float, Sym("time", "t", "s")]
) -> float:
    """Surge when the flow is stopped more slowly than the wave runs."""
    return 2 * rho * L * w / t


@formula("p_p", "pressure_gauge", "Pa", source=JOUKOWSKY)
def peak_pressure(
    p: Gauge, dp: Surge, p_w: Annotated[float, Sym("pressure_gauge", "p_w", "Pa")]
) -> float:
    """Highest pressure: the surge on the static pressure, or the expansion valve lifting.

    The two do not meet: a tap that is open lets the hot side down to the cold supply first.
    """
    return larger(p_w, p + dp)
