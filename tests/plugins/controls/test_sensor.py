"""Sensors against scipy, there and back, and faults that are never a temperature."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from tundish.answering import answer

BETA = {"resistance": "10 kohm", "temperature": "25 degC", "beta": "3977 K"}
PLATINUM = {"resistance": "1000 ohm"}


def _ask(**inputs: Any) -> tuple[int, dict[str, Any]]:
    base = {"coldest": "-20 degC", "hottest": "120 degC"}
    request = {"inputs": base | inputs, "region": "GB", "date": "2026-11-01"}
    return answer("sensor-resistance", request)


def _outputs(**inputs: Any) -> dict[str, Any]:
    status, body = _ask(**inputs)
    assert status == 200, body
    found: dict[str, Any] = body["outputs"]
    return found


def _code(**inputs: Any) -> str:
    status, body = _ask(**inputs)
    assert status == 422, body
    return str(body["code"])


@settings(max_examples=25, deadline=None)
@given(celsius=st.floats(-19.9, 119.9), kind=st.sampled_from(["beta", "platinum", "points"]))
def test_there_and_back(celsius: float, kind: str) -> None:
    sensors: dict[str, Any] = {
        "beta": BETA,
        "platinum": PLATINUM,
        "points": [
            {"temperature": "-20 degC", "resistance": "82923 ohm"},
            {"temperature": "0 degC", "resistance": "30029 ohm"},
            {"temperature": "25 degC", "resistance": "10000 ohm"},
        ],
    }
    sensor = {kind: sensors[kind]}
    there = _outputs(**sensor, known_temperature={"value": celsius, "unit": "degC"})
    back = _outputs(**sensor, measured_resistance=there["resistance"])
    assert back["temperature"]["value"] == pytest.approx(celsius, abs=1e-7)


@settings(max_examples=25, deadline=None)
@given(celsius=st.floats(-49, 149))
def test_platinum_against_scipy(celsius: float) -> None:
    def ratio(t: float) -> float:
        low = -4.183e-12 * (t - 100) * t**3 if t < 0 else 0.0
        return 1 + 3.9083e-3 * t - 5.775e-7 * t * t + low

    found = _outputs(
        platinum=PLATINUM,
        coldest="-50 degC",
        hottest="150 degC",
        measured_resistance={"value": 1000 * ratio(celsius), "unit": "ohm"},
    )
    root = brentq(lambda t: ratio(t) - ratio(celsius), -60, 160, xtol=1e-12)
    assert found["temperature"]["value"] == pytest.approx(root, abs=1e-7)
    step = 1e-4
    slope = (ratio(celsius + step) - ratio(celsius - step)) / (2 * step) / ratio(celsius)
    assert found["sensitivity"]["value"] == pytest.approx(slope, rel=1e-5)


def test_points_pass_through_what_was_given() -> None:
    points = [(-20, 82923.0), (0, 30029.0), (25, 10000.0)]
    sensor = [
        {
            "temperature": {"value": t, "unit": "degC"},
            "resistance": {"value": r, "unit": "ohm"},
        }
        for t, r in points
    ]
    for celsius, ohm in points:
        found = _outputs(points=sensor, known_temperature={"value": celsius, "unit": "degC"})
        assert found["resistance"]["value"] == pytest.approx(ohm, rel=1e-9)


def test_tolerance_is_that_of_the_worst_sensor() -> None:
    found = _outputs(
        beta={**BETA, "resistance_tolerance": 0.01, "beta_tolerance": 0.005},
        measured_resistance="1253 ohm",
    )
    true = found["temperature"]["value"] + 273.15
    inverse = 1 / 298.15 + math.log(1253 / (10000 * 1.01)) / (3977 * 0.995)
    worst = abs(1 / inverse - true)
    inverse = 1 / 298.15 + math.log(1253 / (10000 * 0.99)) / (3977 * 1.005)
    worst = max(worst, abs(1 / inverse - true))
    assert found["tolerance"]["value"] == pytest.approx(worst, rel=0.1)


@pytest.mark.parametrize(("ohm", "code"), [(1e6, "reads-open"), (0, "reads-short")])
@pytest.mark.parametrize("sensor", [{"beta": BETA}, {"platinum": PLATINUM}])
def test_faults_are_no_temperature(sensor: dict[str, Any], ohm: float, code: str) -> None:
    assert _code(**sensor, measured_resistance={"value": ohm, "unit": "ohm"}) == code


def test_shown_error_just_allowed() -> None:
    curve = {"resistance": "9 kohm", "temperature": "25 degC", "beta": "3977 K"}
    given_ = {"beta": BETA, "measured_resistance": "10 kohm", "read_as": curve}
    error = _outputs(**given_)["shown_error"]["value"]
    assert error < 0
    for allowed, verdict in ((-error, "met"), (-error * 0.999, "dangerous")):
        _, body = _ask(**given_, allowed_error={"value": allowed, "unit": "K"})
        assert body["findings"]["shown-against-cold-limit"]["verdict"] == verdict
