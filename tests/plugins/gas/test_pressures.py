"""Gas pressures: where they are lost, what is dangerous, readings at their limits."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.gas.pressures.kernel import (
    APPLIANCE,
    EITHER,
    NOTHING,
    PIPEWORK,
    REGULATOR,
    STEPS,
    SUPPLY,
)


def _q(value: float, unit: str = "mbar") -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _boiler(inlet: float | None = None, share: float = 1, **more: Any) -> dict[str, Any]:
    item = {
        "name": "boiler",
        "heat_input": {"value": 24.5, "unit": "kW", "basis": "net"},
        "share": share,
        **more,
    }
    return item if inlet is None else {**item, "inlet_pressure": _q(inlet)}


def _hob(share: float = 1) -> dict[str, Any]:
    heat = {"value": 7.5, "unit": "kW", "basis": "gross"}
    return {"name": "hob", "heat_input": heat, "share": share}


def _answer(meter: float, *appliances: dict[str, Any], **more: Any) -> tuple[int, dict[str, Any]]:
    inputs = {
        "gas": "natural-gas",
        "meter_pressure": _q(meter),
        "resolution": _q(0.01),
        "meter_capacity": _q(6, "m3/h"),
        "appliances": list(appliances),
        **more,
    }
    return answer("gas-pressures", {"inputs": inputs, "region": "GB", "date": "2026-11-01"})


def _body(meter: float, *appliances: dict[str, Any], **more: Any) -> dict[str, Any]:
    status, body = _answer(meter, *appliances, **more)
    assert status == 200, body
    return body


@settings(max_examples=100, deadline=None)
@given(
    meter=st.floats(15, 26),
    drop=st.floats(0, 3),
    before=st.one_of(st.none(), st.floats(0, 30)),
    least=st.floats(14, 20),
    rate=st.one_of(st.none(), st.booleans()),
)
def test_the_first_cause_from_the_street(
    meter: float, drop: float, before: float | None, least: float, rate: bool | None
) -> None:
    """Supply before regulator before pipework before appliance; each by its own limit."""
    more: dict[str, Any] = {}
    if before is not None:
        more["regulator_inlet"] = _q(meter + before)
    if rate is not None:
        more["rate_right"] = rate
    body = _body(meter, _boiler(meter - drop, least_inlet=_q(least)), _hob(), **more)
    found = body["outputs"]
    if meter > 23:
        expected = REGULATOR
    elif meter < 18.5:
        if before is None:
            expected = EITHER
        else:
            fed = meter + before
            expected = SUPPLY if fed < 18.5 else REGULATOR if fed > 23 else EITHER
    elif drop > 1:
        expected = PIPEWORK
    elif meter - drop < least or rate is False:
        expected = APPLIANCE
    else:
        expected = NOTHING
    near = min(abs(meter - x) for x in (18.5, 23, 25))
    near = min(near, abs(drop - 1), abs(meter - drop - least))
    if before is not None:
        near = min(near, abs(meter + before - 18.5), abs(meter + before - 23))
    if near < 1e-6:
        return
    assert found["cause"] == expected
    assert found["next_step"] == STEPS[expected]
    suffers = meter - drop < least or rate is False
    dangerous = meter > 25 or ((meter > 23 or meter < 18.5) and suffers)
    assert (body["verdict"] == "dangerous") == dangerous
    if expected == NOTHING:
        assert body["verdict"] in {"met", "advisory"}
    else:
        assert body["verdict"] in {"not-met", "dangerous"}


@pytest.mark.parametrize(
    ("inlet", "step", "verdict"),
    [
        (19.61, 0.01, "met"),
        (19.60, 0.01, "advisory"),
        (19.59, 0.01, "not-met"),
        (19.7, 0.1, "met"),
        (19.6, 0.1, "advisory"),
    ],
)
def test_the_step_of_the_gauge_counts(inlet: float, step: float, verdict: str) -> None:
    body = _body(20.6, _boiler(inlet), _hob(), resolution=_q(step))
    assert body["findings"]["drop-of-pipework"]["verdict"] == verdict


@pytest.mark.parametrize(
    ("boiler", "hob", "condition"),
    [(1, 1, True), (1, 0.5, True), (1, 0.49, False), (0.99, 1, False)],
)
def test_condition_of_the_meter_reading(boiler: float, hob: float, condition: bool) -> None:
    body = _body(20.6, _boiler(20.2, boiler), _hob(hob))
    assert body["outputs"]["meter_condition"] is condition
    wanted = "met" if condition else "advisory"
    assert body["findings"]["meter-pressure-least"]["verdict"] == wanted
    # A pressure out of range is never excused by the condition.
    low = _body(18.0, _boiler(17.6, boiler), _hob(hob))
    assert low["findings"]["meter-pressure-least"]["verdict"] == "not-met"


def test_dangerous_tells_the_emergency_route() -> None:
    body = _body(14, _boiler(13.5, least_inlet=_q(18)), _hob())
    words = body["findings"]["supply-and-appliance"]["items"][0]["words"]
    assert "emergency" in words
    assert "off" in words


def test_a_low_reading_alone_is_not_dangerous() -> None:
    body = _body(18.0, _boiler(17.5, least_inlet=_q(16)), _hob())
    assert body["verdict"] == "not-met"


@pytest.mark.parametrize("name", ["standing_pressure", "lock_up_pressure", "regulator_inlet"])
def test_without_flow_pressure_is_never_lower(name: str) -> None:
    assert _answer(20.6, _boiler(20), **{name: _q(20.59)})[0] == 200
    status, body = _answer(20.6, _boiler(20), **{name: _q(20.58)})
    assert (status, body["code"], body["pointer"]) == (
        422,
        "below-working-pressure",
        f"/inputs/{name}",
    )


@pytest.mark.parametrize(
    ("meter", "verdict"), [(24.9, "advisory"), (25.1, "dangerous"), (60, "dangerous")]
)
def test_too_much_pressure_suits_no_appliance(meter: float, verdict: str) -> None:
    """Inlets above what their makers ask for say nothing about too much pressure."""
    body = _body(meter, _boiler(meter - 0.5, least_inlet=_q(18)))
    assert body["findings"]["supply-and-appliance"]["verdict"] == "advisory"
    assert body["findings"]["pressure-on-appliances"]["verdict"] == verdict
    assert body["verdict"] == ("dangerous" if verdict == "dangerous" else "not-met")


@pytest.mark.parametrize(
    ("meter", "least", "verdict"), [(15, 18, "dangerous"), (19, 19.5, "not-met"), (19, 18, "met")]
)
def test_an_unread_inlet_has_no_more_than_the_meter(
    meter: float, least: float, verdict: str
) -> None:
    body = _body(meter, _boiler(least_inlet=_q(least)))
    assert body["outputs"]["appliance_short"] is (verdict != "met")
    assert body["verdict"] == ("advisory" if verdict == "met" else verdict)
    assert body["outputs"]["cause"] != APPLIANCE


@pytest.mark.parametrize(
    ("before", "cause"),
    [(18.4, SUPPLY), (18.6, EITHER), (22.9, EITHER), (23.1, REGULATOR)],
)
def test_an_almost_starved_regulator_is_not_blamed(before: float, cause: str) -> None:
    body = _body(18.0, _boiler(17.6), regulator_inlet=_q(before))
    assert body["outputs"]["cause"] == cause


def test_a_gas_without_a_range_is_not_for_the_record() -> None:
    for standing in (38, 70):
        body = _body(37, _boiler(36), gas="propane", standing_pressure=_q(standing))
        assert body["outputs"]["next_step"].startswith("No range")


def test_a_meter_too_small_is_a_cause() -> None:
    body = _body(20.6, _boiler(20.2), meter_capacity=_q(2, "m3/h"))
    assert body["outputs"]["cause"] == "meter"
