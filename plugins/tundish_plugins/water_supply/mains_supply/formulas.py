"""The supply curve of a main from a flow test, and how far it can be trusted."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import absolute, larger, ln, smaller
from tundish.sources import Source

FLOW_TEST: Final = Source(
    "flow-test-curve",
    kind="standard",
    document="NFPA 291, flow testing: residual pressure against flow projected with a power law",
    edition="exponent 0.54 = 1/1.852",
    locator="p = p_s - k q^n; n = 2 where fittings decide, 1.852 where pipe does",
    confirmed="seen",
    seen_in="engineering pages on the recommended practice",
)
GAUGE: Final = Source(
    "gauge-reading",
    kind="derivation",
    document="Each reading of a gauge is known to half a division; the errors of static and "
    "dynamic reading carried through p = p_s (1 - x) + p_t x",
    edition="1",
    locator="u = r/2 (|1 - x| + x); n from (Δp_1 ± r, Δp_2)",
    confirmed="derived",
)
BUCKET: Final = Source(
    "volume-and-time",
    kind="textbook",
    document="Flow is volume over time",
    edition="fluid mechanics textbooks",
    locator="q = V/t",
    confirmed="derived",
)
EXPONENT_RANGE: Final = Source(
    "exponent-range",
    kind="textbook",
    document="Pressure lost in pipes grows with the first power of the flow (laminar) at the "
    "least and with its square (fully rough, fittings, orifices) at the most",
    edition="fluid mechanics textbooks",
    locator="1 ≤ n ≤ 2",
    confirmed="derived",
)
LEAST_EXPONENT: Final = constant("n_lam", 1.0, "number", "1", source=EXPONENT_RANGE)
MOST_EXPONENT: Final = constant("n_sq", 2.0, "number", "1", source=EXPONENT_RANGE)

Flow = Annotated[float, Sym("volume_flow", "q", "m3/s")]
TestFlow = Annotated[float, Sym("volume_flow", "q_t", "m3/s")]
Static = Annotated[float, Sym("pressure_gauge", "p_s", "Pa")]
TestDrop = Annotated[float, Sym("pressure_difference", "Δp_t", "Pa")]
Division = Annotated[float, Sym("pressure_difference", "r", "Pa")]
Share = Annotated[float, Sym("number", "x", "1")]
Exponent = Annotated[float, Sym("number", "n", "1")]
Residual = Annotated[float, Sym("pressure_gauge", "p_1", "Pa")]


@formula("q_t", "volume_flow", "m3/s", source=BUCKET)
def measured_flow(
    V: Annotated[float, Sym("volume", "V", "m3")], t: Annotated[float, Sym("time", "t", "s")]
) -> float:
    """Flow from a measured volume and its time."""
    return V / t


@formula("Δp_t", "pressure_difference", "Pa", source=FLOW_TEST)
def test_drop(p_s: Static, p_t: Annotated[float, Sym("pressure_gauge", "p_t", "Pa")]) -> float:
    """Drop from static at a reading."""
    return p_s - p_t


@formula("Δp_t/p_s", "number", "1", source=FLOW_TEST)
def drop_share(dp_t: TestDrop, p_s: Static) -> float:
    """Drop of the test over the static pressure."""
    return dp_t / p_s


@formula("p_s", "pressure_gauge", "Pa", source=FLOW_TEST)
def judged_static(
    p_s: Static, dp_d: Annotated[float, Sym("pressure_difference", "Δp_d", "Pa")]
) -> float:
    """Static pressure at the busiest hour."""
    return p_s - dp_d


# --- exponent -------------------------------------------------------------------------------------


@formula("n", "number", "1", source=FLOW_TEST)
def exponent(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    dp_2: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
    q_1: Annotated[float, Sym("volume_flow", "q_1", "m3/s")],
    q_2: Annotated[float, Sym("volume_flow", "q_2", "m3/s")],
) -> float:
    """Exponent through static and two readings."""
    return ln(dp_2 / dp_1) / ln(q_2 / q_1)


@formula("n_1", "number", "1", source=GAUGE)
def least_exponent(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    dp_2: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
    q_1: Annotated[float, Sym("volume_flow", "q_1", "m3/s")],
    q_2: Annotated[float, Sym("volume_flow", "q_2", "m3/s")],
    r: Division,
) -> float:
    """Lowest exponent that the gauge's reading allows."""
    return ln(dp_2 / (dp_1 + r)) / ln(q_2 / q_1)


@formula("n_2", "number", "1", source=GAUGE)
def greatest_exponent(
    dp_1: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    dp_2: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
    q_1: Annotated[float, Sym("volume_flow", "q_1", "m3/s")],
    q_2: Annotated[float, Sym("volume_flow", "q_2", "m3/s")],
    r: Division,
) -> float:
    """Highest exponent that the gauge's reading allows."""
    return ln(dp_2 / (dp_1 - r)) / ln(q_2 / q_1)


@formula("n_1", "number", "1", source=EXPONENT_RANGE)
def not_below_laminar(n_1: Annotated[float, Sym("number", "n_1", "1")]) -> float:
    """Lowest exponent, not below that of laminar flow."""
    return larger(n_1, LEAST_EXPONENT)


@formula("n_2", "number", "1", source=EXPONENT_RANGE)
def not_above_square(n_2: Annotated[float, Sym("number", "n_2", "1")]) -> float:
    """Highest exponent, not above the square law."""
    return smaller(n_2, MOST_EXPONENT)


@formula("k", "number", "1", source=FLOW_TEST, empirical=True)
def coefficient(
    dp_t: Annotated[float, Sym("pressure_difference", "Δp_t", "bar")],
    q_t: Annotated[float, Sym("volume_flow", "q_t", "l/min")],
    n: Exponent,
) -> float:
    """Coefficient of p = p_s - k q^n, for pressure in bar and flow in l/min."""
    return dp_t / q_t**n  # type: ignore[no-any-return]


# --- the curve ------------------------------------------------------------------------------------


@formula("x", "number", "1", source=FLOW_TEST)
def power_of_flow(q: Flow, q_t: TestFlow, n: Exponent) -> float:
    """Drop at a flow over the drop of the test."""
    return (q / q_t) ** n  # type: ignore[no-any-return]


@formula("x", "number", "1", source=FLOW_TEST)
def greater_share(
    x_1: Annotated[float, Sym("number", "x_1", "1")],
    x_2: Annotated[float, Sym("number", "x_2", "1")],
) -> float:
    """Drop over that of the test, by the exponent that gives more."""
    return larger(x_1, x_2)


@formula("x", "number", "1", source=FLOW_TEST)
def lesser_share(
    x_1: Annotated[float, Sym("number", "x_1", "1")],
    x_2: Annotated[float, Sym("number", "x_2", "1")],
) -> float:
    """Drop over that of the test, by the exponent that gives less."""
    return smaller(x_1, x_2)


@formula("u", "pressure_difference", "Pa", source=GAUGE)
def reading_band(r: Division, x: Share) -> float:
    """How far the gauge's reading leaves the curve open."""
    return r / 2 * (absolute(1 - x) + x)


@formula("p", "pressure_gauge", "Pa", source=FLOW_TEST)
def lower_pressure(
    p_s: Static,
    dp_t: TestDrop,
    x: Share,
    u: Annotated[float, Sym("pressure_difference", "u", "Pa")],
) -> float:
    """Pressure at the point of test, lower curve."""
    return p_s - dp_t * x - u


@formula("p_h", "pressure_gauge", "Pa", source=FLOW_TEST)
def upper_pressure(
    p_s: Static,
    dp_t: TestDrop,
    x: Share,
    u: Annotated[float, Sym("pressure_difference", "u", "Pa")],
) -> float:
    """Pressure at the point of test, upper curve."""
    return p_s - dp_t * x + u


@formula("q", "volume_flow", "m3/s", source=FLOW_TEST)
def flow_at_residual(
    q_t: TestFlow, p_s: Static, p_1: Residual, dp_t: TestDrop, n: Exponent
) -> float:
    """Flow that leaves a residual pressure."""
    return q_t * ((p_s - p_1) / dp_t) ** (1 / n)  # type: ignore[no-any-return]


@formula("q", "volume_flow", "m3/s", source=GAUGE)
def lower_flow_beyond(
    q_t: TestFlow, p_s: Static, p_1: Residual, dp_t: TestDrop, r: Division, n: Exponent
) -> float:
    """Flow that leaves a residual pressure, lower curve, beyond the tested flow."""
    return q_t * ((p_s - p_1 + r / 2) / (dp_t + r)) ** (1 / n)  # type: ignore[no-any-return]


@formula("q", "volume_flow", "m3/s", source=GAUGE)
def lower_flow_within(
    q_t: TestFlow, p_s: Static, p_1: Residual, dp_t: TestDrop, r: Division, n: Exponent
) -> float:
    """Flow that leaves a residual pressure, lower curve, within the tested flow."""
    return q_t * ((p_s - p_1 - r / 2) / dp_t) ** (1 / n)  # type: ignore[no-any-return]


@formula("q", "volume_flow", "m3/s", source=GAUGE)
def search_end(
    q_t: TestFlow,
    p_s: Static,
    dp_g: Annotated[float, Sym("pressure_difference", "Δp_g", "Pa")],
    dp_t: TestDrop,
    r: Division,
    n: Exponent,
) -> float:
    """Flow well beyond the last that the upper curve, helped by the falls of the pipe, can give."""
    return 2 * q_t * larger(1.0, (p_s + r + dp_g) / (dp_t - r)) ** (1 / n)  # type: ignore[no-any-return]


@formula("q_k", "volume_flow", "m3/s", source=FLOW_TEST)
def known_flow(q_t: TestFlow, m: Annotated[float, Sym("number", "m", "1")]) -> float:
    """Flow up to which the test can be relied on."""
    return m * q_t


@formula("r_m", "number", "1", source=FLOW_TEST)
def mixer_ratio(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_gauge", "p_2", "Pa")],
) -> float:
    """Higher over lower pressure of a mixer's sides."""
    return larger(p_1, p_2) / smaller(p_1, p_2)
