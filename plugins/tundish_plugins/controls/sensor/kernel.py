"""The order of the formulas for a temperature sensor. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, Protocol

from tundish.functions import drawn, refuse, require, root
from tundish_plugins.controls.sensor import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.controls.sensor.contract import Beta, Platinum, Point, SensorInputs

CURVE_PIECES: Final = 24
LOGS: Final = (0.0, 20.0)
"""Logarithm of 1 ohm, and of 485 megohm: no thermistor of a heating system lies beyond."""
SHOWN: Final = (1 / 473.15, 1 / 173.15)
"""Inverse of 200 and of -100 degC: a controller shows nothing beyond."""


class _Sensor(Protocol):
    """What every kind of sensor can be asked."""

    rising: bool

    def resistance(self, T: float) -> float:
        """Resistance at a temperature."""

    def temperature(self, R: float, T_min: float, T_max: float) -> float:
        """Temperature of a resistance."""

    def sensitivity(self, T: float, R: float) -> float:
        """Change a kelvin as a share."""

    def tolerance(self, T: float) -> float | None:
        """Tolerance at a temperature."""


class _BySlope:
    rising = False

    def __init__(self, beta: Beta, stated: float | None) -> None:
        self.beta, self.stated = beta, stated

    def resistance(self, T: float) -> float:
        return f.beta_resistance(self.beta.resistance, self.beta.temperature, self.beta.beta, T)

    def temperature(self, R: float, T_min: float, T_max: float) -> float:
        del T_min, T_max
        beta = self.beta
        return f.temperature_of(f.beta_inverse(beta.resistance, beta.temperature, beta.beta, R))

    def sensitivity(self, T: float, R: float) -> float:
        del R
        return f.beta_sensitivity(self.beta.beta, T)

    def tolerance(self, T: float) -> float | None:
        beta = self.beta
        if self.stated is not None:
            return self.stated
        if beta.resistance_tolerance is None or beta.beta_tolerance is None:
            return None
        return f.beta_tolerance(
            beta.beta, T, beta.temperature, beta.resistance_tolerance, beta.beta_tolerance
        )


class _ByCoefficients:
    rising = False

    def __init__(self, a: float, b: float, c: float, stated: float | None) -> None:
        self.a, self.b, self.c, self.stated = a, b, c, stated

    def resistance(self, T: float) -> float:
        a, b, c = self.a, self.b, self.c
        x = root(
            lambda x: f.inverse_gap(f.steinhart_inverse(a, b, c, x), T),
            *LOGS,
            what="logarithm of the resistance",
            code="curve-does-not-reach",
            field="/coldest",
        )
        return f.resistance_of_log(x)

    def temperature(self, R: float, T_min: float, T_max: float) -> float:
        del T_min, T_max
        x = f.log_resistance(R)
        return f.temperature_of(f.steinhart_inverse(self.a, self.b, self.c, x))

    def sensitivity(self, T: float, R: float) -> float:
        slope = f.steinhart_slope(self.b, self.c, f.log_resistance(R))
        return f.steinhart_sensitivity(slope, T)

    def tolerance(self, T: float) -> float | None:
        del T
        return self.stated


class _Platinum:
    rising = True

    def __init__(self, platinum: Platinum, limits: tuple[float, float]) -> None:
        self.R_0, self.limits = platinum.resistance, limits

    def resistance(self, T: float) -> float:
        return f.platinum_resistance(self.R_0, T)

    def temperature(self, R: float, T_min: float, T_max: float) -> float:
        return root(
            lambda T: f.resistance_gap(f.platinum_resistance(self.R_0, T), R),
            T_min,
            T_max,
            what="temperature of the platinum sensor",
        )

    def sensitivity(self, T: float, R: float) -> float:
        return f.platinum_sensitivity(self.R_0, R, T)

    def tolerance(self, T: float) -> float | None:
        return f.platinum_tolerance(*self.limits, T)


def _through(points: list[Point], stated: float | None) -> _ByCoefficients:
    """The coefficients of Steinhart and Hart through three points."""
    for index in (1, 2):
        before, here = points[index - 1], points[index]
        where = f"/points/{index}"
        require(before.temperature < here.temperature, "points-not-rising", f"{where}/temperature")
        require(here.resistance < before.resistance, "points-not-falling", f"{where}/resistance")
    T_1, T_2, T_3 = (point.temperature for point in points)
    x_1, x_2, x_3 = (f.log_resistance(point.resistance) for point in points)
    g_2, g_3 = f.chord(T_1, T_2, x_1, x_2), f.chord(T_1, T_3, x_1, x_3)
    c = f.third_coefficient(g_2, g_3, x_1, x_2, x_3)
    b = f.second_coefficient(g_2, c, x_1, x_2)
    require(b > 0.0, "points-no-thermistor", "/points")
    require(f.steinhart_slope(b, c, LOGS[1]) > 0.0, "points-no-thermistor", "/points")
    return _ByCoefficients(f.first_coefficient(T_1, b, c, x_1), b, c, stated)


def _sensor(i: SensorInputs, c: Context) -> _Sensor:
    """The one kind of sensor that is described."""
    kinds = {
        "/beta": i.beta,
        "/points": i.points,
        "/coefficients": i.coefficients,
        "/platinum": i.platinum,
    }
    given = [where for where, kind in kinds.items() if kind is not None]
    if not given:
        refuse("sensor-missing", "/beta")
    if len(given) > 1:  # structure
        refuse("sensor-given-twice", given[1])
    stated = i.stated_tolerance
    if i.beta is not None:
        return _BySlope(i.beta, stated)
    if i.points is not None:
        return _through(i.points, stated)
    if i.coefficients is not None:
        return _ByCoefficients(i.coefficients.a, i.coefficients.b, i.coefficients.c, stated)
    assert i.platinum is not None
    if stated is not None:
        refuse("tolerance-given-twice", "/stated_tolerance")
    row = c.table("platinum-tolerance").exact(tolerance_class=i.platinum.tolerance_class)
    return _Platinum(i.platinum, (row["at_zero"], row["slope"]))


def _shown(i: SensorInputs, R: float) -> float | None:
    """What a controller of another curve makes of the resistance, leads included."""
    if i.read_as is None:
        return None
    whole = f.with_leads(R, i.lead_resistance)
    curve = i.read_as
    inverse = f.beta_inverse(curve.resistance, curve.temperature, curve.beta, whole)
    require(SHOWN[0] < inverse, "shown-beyond-curve", "/read_as")
    require(inverse < SHOWN[1], "shown-beyond-curve", "/read_as")
    return f.temperature_of(inverse)


def _curve(sensor: _Sensor, T_min: float, T_max: float) -> dict[str, Any]:
    T = [T_min + (T_max - T_min) * (k / CURVE_PIECES) for k in range(CURVE_PIECES + 1)]
    return {"temperature": T, "resistance": [sensor.resistance(item) for item in T]}


def kernel(i: SensorInputs, c: Context) -> dict[str, Any]:
    """Temperature and resistance of a sensor, and how far they may be out."""
    require(i.coldest < i.hottest, "range-empty", "/hottest")
    sensor = _sensor(i, c)
    cold, hot = sensor.resistance(i.coldest), sensor.resistance(i.hottest)
    least, largest = (cold, hot) if sensor.rising else (hot, cold)
    T_k = i.known_temperature
    if T_k is not None:
        require(i.coldest <= T_k, "temperature-outside-range", "/known_temperature")
        require(T_k <= i.hottest, "temperature-outside-range", "/known_temperature")
    if i.measured_resistance is not None:
        R = f.without_leads(i.measured_resistance, i.lead_resistance)
        bounds = {"least": (least, "resistance", "ohm"), "largest": (largest, "resistance", "ohm")}
        require(least <= R, "reads-short", "/measured_resistance", **bounds)
        require(R <= largest, "reads-open", "/measured_resistance", **bounds)
        T = sensor.temperature(R, i.coldest, i.hottest)
    else:
        if T_k is None:
            refuse("nothing-asked", "/measured_resistance")
        assert T_k is not None
        T = T_k
        R = sensor.resistance(T)
    alpha = sensor.sensitivity(T, R)
    tolerance = sensor.tolerance(T)
    compared = i.measured_resistance is not None and T_k is not None
    shown = _shown(i, R)
    return {
        "temperature": T,
        "resistance": R,
        "least_resistance": least,
        "largest_resistance": largest,
        "sensitivity": alpha,
        "lead_error": f.lead_error(i.lead_resistance, R, alpha),
        "tolerance": tolerance,
        "band": (
            None
            if tolerance is None or not compared
            else f.band(tolerance, i.thermometer_uncertainty)
        ),
        "deviation": f.deviation(T, T_k) if compared and T_k is not None else None,
        "shown_temperature": shown,
        "shown_error": None if shown is None else f.shown_error(shown, T),
        "lowest_error": None if i.allowed_error is None else f.lowest_error(i.allowed_error),
        "curve": drawn(_curve, sensor, i.coldest, i.hottest),
    }
