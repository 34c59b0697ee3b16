"""Resistance of thermistors and platinum sensors, and back to temperature."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import absolute, exp, ln, smaller
from tundish.sources import Source

BETA: Final = Source(
    "thermistor-beta",
    kind="textbook",
    document="Beta equation of a thermistor",
    edition="as printed beside tables of service data, 2004",
    locator="R = R_0 exp(B (1/T - 1/T_0)), T in kelvin",
    confirmed="seen",
    seen_in="service manual that prints formula and table",
)
STEINHART: Final = Source(
    "steinhart-hart",
    kind="textbook",
    document="Equation of Steinhart and Hart",
    edition="as printed in documentation of measuring instruments",
    locator="1/T = A + B ln R + C (ln R)³",
    confirmed="seen-reproduced",
    seen_in="documentation of analogue input modules",
)
IEC_60751: Final = Source(
    "iec-60751",
    kind="standard",
    document="IEC 60751, Industrial platinum resistance thermometers and sensors",
    edition="1995 and 2008",
    locator="resistance against temperature, A = 3.9083e-3, B = -5.775e-7, C = -4.183e-12",
    confirmed="seen-reproduced",
    seen_in="sensor makers' pages that print equation and coefficients",
)
SPREAD: Final = Source(
    "sensor-error",
    kind="derivation",
    document="First-order error of a reading: change of resistance over its slope",
    edition="1",
    locator="ΔT = ΔR/(R |α|); thermistor α = -B/T²",
    confirmed="derived",
)

Resistance = Annotated[float, Sym("resistance", "R", "ohm")]
Reference = Annotated[float, Sym("resistance", "R_0", "ohm")]
Temperature = Annotated[float, Sym("temperature", "T", "K")]
ReferenceT = Annotated[float, Sym("temperature", "T_0", "K")]
BetaK = Annotated[float, Sym("temperature_difference", "B", "K")]
Inverse = Annotated[float, Sym("expansion_coefficient", "1/T", "1/K")]
Log = Annotated[float, Sym("number", "x", "1")]
CoefA = Annotated[float, Sym("expansion_coefficient", "A", "1/K")]
CoefB = Annotated[float, Sym("expansion_coefficient", "B", "1/K")]
CoefC = Annotated[float, Sym("expansion_coefficient", "C", "1/K")]
Alpha = Annotated[float, Sym("expansion_coefficient", "α", "1/K")]
Celsius = Annotated[float, Sym("temperature", "t", "degC")]


@formula("R", "resistance", "ohm", source=BETA)
def beta_resistance(R_0: Reference, T_0: ReferenceT, B: BetaK, T: Temperature) -> float:
    """Resistance of a thermistor by Beta."""
    return R_0 * exp(B * (1 / T - 1 / T_0))


@formula("1/T", "expansion_coefficient", "1/K", source=BETA)
def beta_inverse(R_0: Reference, T_0: ReferenceT, B: BetaK, R: Resistance) -> float:
    """Inverse of a thermistor's temperature by Beta."""
    return 1 / T_0 + ln(R / R_0) / B


@formula("T", "temperature", "K", source=BETA)
def temperature_of(Y: Inverse) -> float:
    """Temperature from its inverse."""
    return 1 / Y


@formula("α", "expansion_coefficient", "1/K", source=BETA)
def beta_sensitivity(B: BetaK, T: Temperature) -> float:
    """Change of resistance a kelvin by Beta."""
    return -B / T**2


@formula("ΔT", "temperature_difference", "K", source=SPREAD)
def beta_tolerance(
    B: BetaK,
    T: Temperature,
    T_0: ReferenceT,
    r: Annotated[float, Sym("number", "ΔR/R", "1")],
    b: Annotated[float, Sym("number", "ΔB/B", "1")],
) -> float:
    """Tolerance of a thermistor, both tolerances the same way."""
    return T**2 / B * (r + b * B * absolute(1 / T - 1 / T_0))


@formula("x", "number", "1", source=STEINHART, empirical=True)
def log_resistance(R: Resistance) -> float:
    """Logarithm of a resistance in ohm."""
    return ln(R)


@formula("R", "resistance", "ohm", source=STEINHART, empirical=True)
def resistance_of_log(x: Log) -> float:
    """Resistance in ohm from its logarithm."""
    return exp(x)


@formula("1/T", "expansion_coefficient", "1/K", source=STEINHART)
def steinhart_inverse(A: CoefA, B: CoefB, C: CoefC, x: Log) -> float:
    """Inverse of a thermistor's temperature by Steinhart and Hart."""
    return A + B * x + C * x**3


@formula("Δ(1/T)", "expansion_coefficient", "1/K", source=STEINHART)
def inverse_gap(Y: Inverse, T: Temperature) -> float:
    """Inverse temperature less that of the temperature asked for."""
    return Y - 1 / T


@formula("d(1/T)/dx", "expansion_coefficient", "1/K", source=STEINHART)
def steinhart_slope(B: CoefB, C: CoefC, x: Log) -> float:
    """Slope of the inverse temperature over the logarithm."""
    return B + 3 * C * x**2


@formula("α", "expansion_coefficient", "1/K", source=STEINHART)
def steinhart_sensitivity(
    s: Annotated[float, Sym("expansion_coefficient", "s", "1/K")], T: Temperature
) -> float:
    """Change of resistance a kelvin by Steinhart and Hart."""
    return -1 / (s * T**2)


@formula("γ", "expansion_coefficient", "1/K", source=STEINHART)
def chord(
    T_1: Annotated[float, Sym("temperature", "T_1", "K")],
    T_2: Annotated[float, Sym("temperature", "T_2", "K")],
    x_1: Annotated[float, Sym("number", "x_1", "1")],
    x_2: Annotated[float, Sym("number", "x_2", "1")],
) -> float:
    """Slope of the inverse temperature between two points."""
    return (1 / T_2 - 1 / T_1) / (x_2 - x_1)


@formula("C", "expansion_coefficient", "1/K", source=STEINHART)
def third_coefficient(
    g_2: Annotated[float, Sym("expansion_coefficient", "γ_2", "1/K")],
    g_3: Annotated[float, Sym("expansion_coefficient", "γ_3", "1/K")],
    x_1: Annotated[float, Sym("number", "x_1", "1")],
    x_2: Annotated[float, Sym("number", "x_2", "1")],
    x_3: Annotated[float, Sym("number", "x_3", "1")],
) -> float:
    """Third coefficient through three points."""
    return (g_3 - g_2) / ((x_3 - x_2) * (x_1 + x_2 + x_3))


@formula("B", "expansion_coefficient", "1/K", source=STEINHART)
def second_coefficient(
    g_2: Annotated[float, Sym("expansion_coefficient", "γ_2", "1/K")],
    C: CoefC,
    x_1: Annotated[float, Sym("number", "x_1", "1")],
    x_2: Annotated[float, Sym("number", "x_2", "1")],
) -> float:
    """Second coefficient through three points."""
    return g_2 - C * (x_1**2 + x_1 * x_2 + x_2**2)


@formula("A", "expansion_coefficient", "1/K", source=STEINHART)
def first_coefficient(
    T_1: Annotated[float, Sym("temperature", "T_1", "K")],
    B: CoefB,
    C: CoefC,
    x_1: Annotated[float, Sym("number", "x_1", "1")],
) -> float:
    """First coefficient through three points."""
    return 1 / T_1 - B * x_1 - C * x_1**3


@formula("R", "resistance", "ohm", source=IEC_60751, empirical=True)
def platinum_resistance(R_0: Reference, t: Celsius) -> float:
    """Resistance of a platinum sensor; the last term counts below 0 degC only."""
    return R_0 * (
        1 + 3.9083e-3 * t - 5.775e-7 * t**2 - 4.183e-12 * (t - 100) * smaller(t, 0.0) ** 3
    )


@formula("α", "expansion_coefficient", "1/K", source=IEC_60751, empirical=True)
def platinum_sensitivity(R_0: Reference, R: Resistance, t: Celsius) -> float:
    """Change of a platinum sensor's resistance a kelvin."""
    return (
        R_0
        / R
        * (
            3.9083e-3
            - 2 * 5.775e-7 * t
            - 4.183e-12 * (4 * smaller(t, 0.0) ** 3 - 300 * smaller(t, 0.0) ** 2)
        )
    )


@formula("ΔR", "resistance", "ohm", source=IEC_60751)
def resistance_gap(R: Resistance, R_m: Annotated[float, Sym("resistance", "R_m", "ohm")]) -> float:
    """Resistance less the one that was measured."""
    return R - R_m


@formula("ΔT", "temperature_difference", "K", source=IEC_60751, empirical=True)
def platinum_tolerance(
    a: Annotated[float, Sym("temperature_difference", "a", "K")],
    b: Annotated[float, Sym("number", "b", "1")],
    t: Celsius,
) -> float:
    """Tolerance of a platinum sensor by its class."""
    return a + b * absolute(t)


@formula("R", "resistance", "ohm", source=SPREAD)
def without_leads(
    R_m: Annotated[float, Sym("resistance", "R_m", "ohm")],
    R_L: Annotated[float, Sym("resistance", "R_L", "ohm")],
) -> float:
    """Resistance of the sensor alone."""
    return R_m - R_L


@formula("R", "resistance", "ohm", source=SPREAD)
def with_leads(R: Resistance, R_L: Annotated[float, Sym("resistance", "R_L", "ohm")]) -> float:
    """Resistance of sensor and leads."""
    return R + R_L


@formula("ΔT_L", "temperature_difference", "K", source=SPREAD)
def lead_error(
    R_L: Annotated[float, Sym("resistance", "R_L", "ohm")], R: Resistance, alpha: Alpha
) -> float:
    """Error the leads make."""
    return R_L / (R * absolute(alpha))


@formula("ΔT_b", "temperature_difference", "K", source=SPREAD)
def band(
    DT: Annotated[float, Sym("temperature_difference", "ΔT", "K")],
    u: Annotated[float, Sym("temperature_difference", "u", "K")],
) -> float:
    """Tolerance of the sensor with that of the thermometer."""
    return DT + u


@formula("ΔT_d", "temperature_difference", "K", source=SPREAD)
def deviation(T: Temperature, T_k: Annotated[float, Sym("temperature", "T_k", "K")]) -> float:
    """Difference between sensor and thermometer."""
    return absolute(T - T_k)


@formula("ΔT_c", "temperature_difference", "K", source=SPREAD)
def shown_error(T_c: Annotated[float, Sym("temperature", "T_c", "K")], T: Temperature) -> float:
    """Shown temperature less the true one."""
    return T_c - T


@formula("-ΔT_a", "temperature_difference", "K", source=SPREAD)
def lowest_error(DT_a: Annotated[float, Sym("temperature_difference", "ΔT_a", "K")]) -> float:
    """Error allowed towards cold."""
    return -DT_a
