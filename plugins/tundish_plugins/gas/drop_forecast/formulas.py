"""How a drop read at one rate bounds the drop at another."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import larger, smaller, sqrt
from tundish.sources import Source

SIMILAR: Final = Source(
    "same-run-other-rate",
    kind="derivation",
    document="The same run at another rate: its drops are as its friction gradients",
    edition="1",
    locator="Δp_2/Δp_1 = R_2/R_1 for one tube; for tubes in series a mean of their ratios, weighted "
    "by their shares of the drop, so never outside the least and the greatest of them",
    confirmed="derived",
)
TURNING: Final = Source(
    "turning-flow",
    kind="derivation",
    document="Friction between laminar and turbulent flow, for the ends of a band",
    edition="1",
    locator="between Re 2000 and 4000 at least the straight line in Re from the laminar law to the "
    "turbulent one, at most the turbulent one; held in simulation against Churchill's formula and "
    "against flow that turns suddenly at any Re up to 3000",
    confirmed="derived",
)
SQUARE: Final = Source(
    "square-law",
    kind="textbook",
    document="Fittings, and tubes as rough as can be: drop as the square of the rate",
    edition="fluid mechanics textbooks",
    locator="Δp = ζ ρ w²/2",
    confirmed="derived",
)
SHARE: Final = Source(
    "share-of-a-wide-tube",
    kind="derivation",
    document="A tube so wide that the whole run of it would be too long can cause only a part of "
    "the drop",
    edition="1",
    locator="share of the drop at most L_max/L, where L is the length that would cause all of it",
    confirmed="derived",
)
SPREAD: Final = Source(
    "reading-spread",
    kind="derivation",
    document="Spread of a difference of two readings, each within half a step, and of the rate",
    edition="1",
    locator="triangular distribution of half width r: r/√6; an error δ of the rate moves the drop "
    "by 2 δ at most",
    confirmed="derived",
)
NORMAL: Final = Source(
    "normal-quantiles",
    kind="library",
    document="Quantiles of the normal distribution for 95 % in all of one, two or three readings",
    edition="scipy 1.17.1",
    locator="norm.ppf(1 - 0.025/n)",
    confirmed="computed",
    computed_with="scipy 1.17.1",
)
CHOICE: Final = Source(
    "readings-together",
    kind="derivation",
    document="Every reading bounds the drop; together they leave what all of them allow",
    edition="1",
    locator="highest of the lower ends, lowest of the upper ends",
    confirmed="derived",
)
COVERAGE: Final = {
    1: constant("z", 1.959963984540054, "number", "1", source=NORMAL),
    2: constant("z", 2.241402727604947, "number", "1", source=NORMAL),
    3: constant("z", 2.3939797998185104, "number", "1", source=NORMAL),
}
"""Widening of each reading by the number of readings, so that all hold together in 95 of 100."""

Drop = Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")]
Half = Annotated[float, Sym("pressure_difference", "U", "Pa")]
Rate = Annotated[float, Sym("volume_flow", "Q", "m3/s")]
OldRate = Annotated[float, Sym("volume_flow", "Q_1", "m3/s")]
Gradient = Annotated[float, Sym("pressure_gradient", "R", "Pa/m")]
OldGradient = Annotated[float, Sym("pressure_gradient", "R_1", "Pa/m")]
Longest = Annotated[float, Sym("length", "L_max", "m")]


@formula("U", "pressure_difference", "Pa", source=SPREAD)
def half_width(
    z: Annotated[float, Sym("number", "z", "1")],
    r: Annotated[float, Sym("pressure_difference", "r", "Pa")],
    delta: Annotated[float, Sym("number", "δ", "1")],
    dp: Drop,
) -> float:
    """Uncertainty of the drop read: gauge and rate."""
    return z * sqrt(r**2 / 6 + (delta * dp) ** 2)


@formula("Δp_1", "pressure_difference", "Pa", source=SPREAD)
def least_read(dp: Drop, U: Half) -> float:
    """Least drop that can stand behind the reading."""
    return larger(dp - U, dp / 100)


@formula("Δp_1", "pressure_difference", "Pa", source=SPREAD)
def greatest_read(dp: Drop, U: Half) -> float:
    """Greatest drop that can stand behind the reading."""
    return dp + U


@formula("m", "number", "1", source=SIMILAR)
def ratio(R: Gradient, R_1: OldGradient) -> float:
    """Drop at the other rate over the drop read, by the gradients of this tube."""
    return R / R_1


@formula("Δp_2", "pressure_difference", "Pa", source=SIMILAR)
def scaled(dp: Drop, m: Annotated[float, Sym("number", "m", "1")]) -> float:
    """Drop at the other rate, if the run is of this tube."""
    return dp * m


@formula("Δp_2", "pressure_difference", "Pa", source=SQUARE)
def by_square(dp: Drop, Q: Rate, Q_1: OldRate) -> float:
    """Drop at the other rate, if fittings or rough walls cause it."""
    return dp * (Q / Q_1) ** 2


@formula("γ", "number", "1", source=TURNING)
def turned(
    Re: Annotated[float, Sym("number", "Re", "1")],
    Re_l: Annotated[float, Sym("number", "Re_l", "1")],
    Re_t: Annotated[float, Sym("number", "Re_t", "1")],
) -> float:
    """How far the flow has at least turned turbulent: none below Re 2000, wholly from 4000."""
    return smaller(larger((Re - Re_l) / (Re_t - Re_l), 0), 1)


@formula("R", "pressure_gradient", "Pa/m", source=TURNING)
def blend(
    R_l: Annotated[float, Sym("pressure_gradient", "R_l", "Pa/m")],
    R_t: Annotated[float, Sym("pressure_gradient", "R_t", "Pa/m")],
    gamma: Annotated[float, Sym("number", "γ", "1")],
) -> float:
    """Gradient of a flow turned turbulent to this degree."""
    return R_l + gamma * (R_t - R_l)


@formula("L", "length", "m", source=SIMILAR)
def length_that_drops(dp: Drop, R_1: OldGradient) -> float:
    """Length of this tube that drops as read."""
    return dp / R_1


@formula("σ", "number", "1", source=SHARE)
def share(L_max: Longest, L: Annotated[float, Sym("length", "L", "m")]) -> float:
    """Share of the drop that this tube can cause."""
    return smaller(L_max / L, 1)


@formula("Δp_2", "pressure_difference", "Pa", source=SHARE)
def mixed(
    rest: Annotated[float, Sym("pressure_difference", "Δp_r", "Pa")],
    own: Annotated[float, Sym("pressure_difference", "Δp_w", "Pa")],
    sigma: Annotated[float, Sym("number", "σ", "1")],
) -> float:
    """Drop at the other rate, if this tube causes its share and others the rest."""
    return rest + sigma * (own - rest)


@formula("Δp_lo", "pressure_difference", "Pa", source=CHOICE)
def higher(
    a: Annotated[float, Sym("pressure_difference", "Δp_a", "Pa")],
    b: Annotated[float, Sym("pressure_difference", "Δp_b", "Pa")],
) -> float:
    """Higher of two."""
    return larger(a, b)


@formula("Δp_hi", "pressure_difference", "Pa", source=CHOICE)
def lower(
    a: Annotated[float, Sym("pressure_difference", "Δp_a", "Pa")],
    b: Annotated[float, Sym("pressure_difference", "Δp_b", "Pa")],
) -> float:
    """Lower of two."""
    return smaller(a, b)


@formula("Δp_2", "pressure_difference", "Pa", source=CHOICE)
def middle(
    low: Annotated[float, Sym("pressure_difference", "Δp_lo", "Pa")],
    high: Annotated[float, Sym("pressure_difference", "Δp_hi", "Pa")],
) -> float:
    """Middle of the band, by ratio."""
    return sqrt(low * high)


@formula("Q_ok", "volume_flow", "m3/s", source=CHOICE)
def rate_by_limit_or_meter(
    Q: Rate, Q_m: Annotated[float, Sym("volume_flow", "Q_m", "m3/s")]
) -> float:
    """Largest rate: by the limit or by the meter."""
    return smaller(Q, Q_m)
