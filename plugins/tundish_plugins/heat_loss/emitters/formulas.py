"""Output of a radiator away from its rating, and the flow temperature for a load."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import exp, larger, ln, smaller, total
from tundish.physics.radiators import (
    EN_442,
    LOG_MEAN,
    Excess,
    Exponent,
    Flow,
    RatedExcess,
    Return,
    Room,
)
from tundish.sources import Source

SHARES: Final = Source(
    "load-and-output",
    kind="derivation",
    document="Load of a room set against the output of its radiators",
    edition="1",
    locator="sums, differences and ratios",
    confirmed="derived",
)

Drop = Annotated[float, Sym("temperature_difference", "σ", "K")]
RatedOutput = Annotated[float, Sym("power", "Q_r", "W")]
Kept = Annotated[float, Sym("number", "k", "1")]
Load = Annotated[float, Sym("power", "Φ", "W")]
Output = Annotated[float, Sym("power", "Q", "W")]
Powers = Annotated[list[float], Sym("power", "Q", "W")]


@formula("σ", "temperature_difference", "K", source=EN_442)
def drop(T_f: Flow, T_r: Return) -> float:
    """Drop of the water through the radiators."""
    return T_f - T_r


@formula("Δθ_r", "temperature_difference", "K", source=LOG_MEAN)
def rated_logarithmic_excess(
    dT_a: Annotated[float, Sym("temperature_difference", "Δθ_a", "K")],
    sigma: Annotated[float, Sym("temperature_difference", "σ_r", "K")],
) -> float:
    """Excess temperature of the rating, as a logarithmic mean."""
    return sigma / ln((dT_a + sigma / 2) / (dT_a - sigma / 2))


@formula("c", "number", "1", source=LOG_MEAN)
def return_share(T_f: Flow, T_r: Return, T_i: Room) -> float:
    """Return over room as a share of flow over room."""
    return (T_r - T_i) / (T_f - T_i)


@formula("Q", "power", "W", source=EN_442)
def output(k: Kept, Q_r: RatedOutput, f: Annotated[float, Sym("number", "f", "1")]) -> float:
    """Output of a radiator as it stands."""
    return k * Q_r * f


@formula("Q_0", "power", "W", source=EN_442)
def rated_now(
    Q_r: RatedOutput,
    dT_0: Annotated[float, Sym("temperature_difference", "Δθ_0", "K")],
    dT_r: RatedExcess,
    n: Exponent,
) -> float:
    """Rating restated to the standard of today."""
    return Q_r * (dT_0 / dT_r) ** n  # type: ignore[no-any-return]


@formula("Δθ", "temperature_difference", "K", source=EN_442)
def excess_for(Q: Output, k: Kept, Q_r: RatedOutput, dT_r: RatedExcess, n: Exponent) -> float:
    """Excess temperature at which a radiator gives an output."""
    return dT_r * (Q / (k * Q_r)) ** (1 / n)  # type: ignore[no-any-return]


@formula("θ_f", "temperature", "K", source=EN_442)
def flow_by_arithmetic(T_i: Room, dT: Excess, sigma: Drop) -> float:
    """Flow temperature for an excess, arithmetic mean; the return never below the room."""
    return T_i + larger(dT + sigma / 2, sigma)


@formula("θ_f", "temperature", "K", source=LOG_MEAN)
def flow_by_logarithm(T_i: Room, dT: Excess, sigma: Drop) -> float:
    """Flow temperature for an excess, logarithmic mean."""
    return T_i + sigma / (1 - exp(-sigma / dT))


@formula("ΣQ", "power", "W", source=SHARES)
def together(Q: Powers) -> float:
    """Powers added."""
    return total(Q)


@formula("Φ_c", "power", "W", source=SHARES)
def covered(Phi: Load, Q: Output) -> float:
    """Part of the load that the radiators meet."""
    return smaller(Phi, Q)


@formula("Φ_l", "power", "W", source=SHARES)
def lacking(Phi: Load, Q: Output) -> float:
    """Part of the load that they do not."""
    return larger(Phi - Q, 0 * Phi)


@formula("Φ_s", "power", "W", source=SHARES)
def spare(Phi: Load, Q: Output) -> float:
    """Output beyond the load."""
    return larger(Q - Phi, 0 * Q)


@formula("g", "number", "1", source=SHARES)
def growth(Phi: Load, Q: Output) -> float:
    """Load over output: the factor by which the radiators would have to grow."""
    return Phi / Q


@formula("Q_n", "power", "W", source=SHARES)
def rated_needed(
    g: Annotated[float, Sym("number", "g", "1")],
    Q_0: Annotated[float, Sym("power", "Q_0", "W")],
) -> float:
    """Rating, by the standard of today, that meets the load."""
    return g * Q_0


@formula("Δθ", "temperature_difference", "K", source=SHARES)
def lesser_excess(
    dT_1: Annotated[float, Sym("temperature_difference", "Δθ_1", "K")],
    dT_2: Annotated[float, Sym("temperature_difference", "Δθ_2", "K")],
) -> float:
    """Lesser of two excess temperatures."""
    return smaller(dT_1, dT_2)


@formula("δ", "power", "W", source=SHARES)
def left(Q: Output, Phi: Load) -> float:
    """Output less load, zero at the excess temperature sought."""
    return Q - Phi


@formula("θ_f", "temperature", "K", source=SHARES)
def hotter(
    T_1: Annotated[float, Sym("temperature", "θ_1", "K")],
    T_2: Annotated[float, Sym("temperature", "θ_2", "K")],
) -> float:
    """Flow temperature that does for both."""
    return larger(T_1, T_2)


@formula("θ_f2", "temperature", "K", source=SHARES)
def cooler(
    T_1: Annotated[float, Sym("temperature", "θ_1", "K")],
    T_2: Annotated[float, Sym("temperature", "θ_2", "K")],
) -> float:
    """Flow temperature that does for the one that asks for less."""
    return smaller(T_1, T_2)
