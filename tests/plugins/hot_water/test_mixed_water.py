"""Mixed water against a water library, and where it must refuse or warn."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.hot_water.mixed_water import CALCULATION


def _answer(region: str = "GB", **inputs: Any) -> tuple[int, dict[str, Any]]:
    base = {"hot_temperature": "60 degC", "mixed_temperature": "40 degC", "outlet": "bath"}
    return answer("mixed-water", {"inputs": base | inputs, "region": region, "date": "2026-11-01"})


def _value(body: dict[str, Any], name: str) -> float:
    found = body["outputs"][name]
    return float(found["value"] if isinstance(found, dict) else found)


@settings(max_examples=25, deadline=None)
@given(
    hot=st.floats(45, 90),
    cold=st.floats(2, 25),
    share=st.floats(0.05, 1),
    flow=st.floats(1, 40),
)
def test_heat_and_mass_balance_by_another_library(
    hot: float, cold: float, share: float, flow: float
) -> None:
    """Hot and cold flows carry the mass and the enthalpy of the mixed flow."""
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI

    def water(what: str, t: float) -> float:
        return float(props(what, "T", t + 273.15, "P", 2.5e5, "Water"))

    mixed = max(15.5, cold + share * (hot - cold))
    if mixed > min(hot, 80):
        return
    status, body = _answer(
        hot_temperature={"value": hot, "unit": "degC"},
        cold_temperature={"value": cold, "unit": "degC"},
        mixed_temperature={"value": mixed, "unit": "degC"},
        mixed_flow={"value": flow, "unit": "l/min"},
    )
    assert status == 200, body
    masses = [
        _value(body, "hot_flow") * water("D", hot),
        _value(body, "cold_flow") * water("D", cold),
    ]
    total = flow * water("D", mixed)
    assert sum(masses) == pytest.approx(total, rel=1e-5)
    carried = masses[0] * water("H", hot) + masses[1] * water("H", cold)
    assert carried / total == pytest.approx(water("H", mixed), abs=30)  # J/kg: 0.007 K
    heat = total / 60e3 * (water("H", mixed) - water("H", cold)) / 1e3
    assert _value(body, "heat_flow") == pytest.approx(heat, rel=2e-3, abs=2e-3)


def test_litres_and_degrees_promise_a_hundredth_too_much() -> None:
    _, body = _answer(store={"volume": "200 l", "temperature": "60 degC", "usable_share": 1})
    assert _value(body, "store_mixed_volume") == pytest.approx(330.3, abs=0.1)


def test_pasteurisation_is_never_more_than_advisory() -> None:
    held = {"temperature": "60 degC", "hold_time": "600 min", "log_reduction": 5}
    _, body = _answer(pasteurisation=held)
    assert body["findings"]["pasteurised"]["verdict"] == "advisory"
    assert body["outputs"]["pasteurisation"]["log_reduction"] == pytest.approx(300)


@pytest.mark.parametrize("degrees", [48.999, 61.001, 70.0])
def test_no_death_time_is_carried_beyond_its_measurements(degrees: float) -> None:
    held = {"temperature": {"value": degrees, "unit": "degC"}, "hold_time": "1 h"}
    status, body = _answer(pasteurisation=held)
    assert (status, body["code"]) == (422, "pasteurisation-outside-range")
    assert body["facts"]["low"]["value"] == pytest.approx(49)


def test_death_time_falls_to_a_tenth_over_one_z() -> None:
    def death(degrees: float) -> tuple[float, float]:
        held = {"temperature": {"value": degrees, "unit": "degC"}, "hold_time": "1 h"}
        found = _answer(pasteurisation=held)[1]["outputs"]["pasteurisation"]
        return found["decimal_reduction_time"]["value"], found["z_value"]["value"]

    slow, z = death(51)
    quick, _ = death(51 + z)
    assert slow / quick == pytest.approx(10, rel=1e-9)
    assert z == pytest.approx(10 / math.log10(50), rel=1e-12)


@pytest.mark.parametrize(
    ("degrees", "verdict"), [(43.0, "met"), (44.5, "not-met"), (46.5, "not-met"), (49, "dangerous")]
)
def test_a_hotter_bath_is_never_judged_better(degrees: float, verdict: str) -> None:
    body = _answer(mixed_temperature={"value": degrees, "unit": "degC"})[1]
    assert body["verdict"] == verdict


def test_the_burn_table_clears_nothing() -> None:
    """No finding of the calculation has a burn time as its quantity."""
    assert not [f for f in CALCULATION.findings if "burn" in f.quantity]


@settings(max_examples=20, deadline=None)
@given(degrees=st.floats(15, 80))
def test_burn_time_lies_at_the_hot_end_of_its_band(degrees: float) -> None:
    """The shortest time shown is never longer than the published time at this temperature."""
    table = {45: 7200, 47: 1200, 48: 900, 49: 480, 51: 120, 55: 17, 60: 3}
    _, body = _answer(
        hot_temperature="90 degC",
        cold_temperature="5 degC",
        outlet="sink",
        mixed_temperature={"value": degrees, "unit": "degC"},
    )
    at_or_below = [seconds for t, seconds in table.items() if t <= degrees]
    assert _value(body, "burn_time") <= min(at_or_below, default=math.inf)


def test_hot_water_is_asked_for_in_a_region_with_rules() -> None:
    status, body = _answer(region="INT")
    assert status == 422
    assert body["code"] == "rule-missing"


def test_charts() -> None:
    request = {"inputs": dict(CALCULATION.example), "region": "GB", "date": "2026-11-01"}
    _, body = answer("mixed-water", request, parts=("charts",))
    rows = body["charts"]["share"]["data"]["values"]
    assert rows[0]["y"] == pytest.approx(0, abs=1e-9)
    assert rows[-1]["y"] == pytest.approx(100)
    assert len(body["charts"]["store"]["data"]["values"]) > 10
