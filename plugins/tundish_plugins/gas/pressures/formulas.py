"""Differences of pressures that were read, and loads."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, sqrt
from tundish.sources import Source

READINGS: Final = Source(
    "pressures-read",
    kind="derivation",
    document="Differences of pressures read at two places or two times",
    edition="1",
    locator="Δp = p_1 - p_2",
    confirmed="derived",
)
ORIFICE: Final = Source(
    "orifice-flow",
    kind="textbook",
    document="Flow through an orifice",
    edition="fluid mechanics textbooks",
    locator="Q ∝ √p, for burners without regulator",
    confirmed="derived",
)
LOAD: Final = Source(
    "load-by-share",
    kind="derivation",
    document="Load of an appliance at a share of its full rate",
    edition="1",
    locator="Q g",
    confirmed="derived",
)

Gauge = Annotated[float, Sym("pressure_gauge", "p", "Pa")]


@formula("Δp", "pressure_difference", "Pa", source=READINGS)
def drop(
    p_m: Annotated[float, Sym("pressure_gauge", "p_m", "Pa")],
    p_i: Annotated[float, Sym("pressure_gauge", "p_i", "Pa")],
) -> float:
    """Drop from the meter outlet to the appliance."""
    return p_m - p_i


@formula("Δp", "pressure_difference", "Pa", source=READINGS)
def rise(
    p: Gauge,
    p_m: Annotated[float, Sym("pressure_gauge", "p_m", "Pa")],
) -> float:
    """Pressure without flow over the working one."""
    return p - p_m


@formula("Δp_max", "pressure_difference", "Pa", source=READINGS)
def higher(
    a: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    b: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
) -> float:
    """Higher of two drops."""
    return larger(a, b)


@formula("Δp_r", "pressure_difference", "Pa", source=READINGS)
def a_step_more(
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
    r: Annotated[float, Sym("pressure_difference", "r", "Pa")],
) -> float:
    """Drop with a step of the gauge more."""
    return dp + r


@formula("Q_t", "volume_flow", "m3/s", source=LOAD)
def drawn_at(
    Q: Annotated[float, Sym("volume_flow", "Q", "m3/s")],
    g: Annotated[float, Sym("number", "g", "1")],
) -> float:
    """Flow at a share of the full rate."""
    return Q * g


@formula("k", "number", "1", source=ORIFICE)
def unregulated(
    p_i: Annotated[float, Sym("pressure_gauge", "p_i", "Pa")],
    p_n: Annotated[float, Sym("pressure_gauge", "p_n", "Pa")],
) -> float:
    """Heat input of a burner without regulator, over that at the nominal pressure."""
    return sqrt(p_i / p_n)
