"""A boiler against integrations of its own, and the shape of what it is told."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

PLAIN: dict[str, Any] = {
    "heating_load": "9.6 kW",
    "room_temperature": "20 degC",
    "outside_temperature": "-3 degC",
    "hot_water": "priority",
    "hot_water_load": "18 kW",
    "heating_output_most": "24 kW",
    "hot_water_output_most": "24 kW",
    "output_least": "4.8 kW",
    "water_content": "60 l",
    "switching_difference": "8 K",
    "water_temperature": "50 degC",
    "run_time_least": "5 min",
    "fall_most": "1 K",
}


def _q(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _ask(**changes: Any) -> dict[str, Any]:
    inputs = {key: value for key, value in {**PLAIN, **changes}.items() if value is not None}
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    status, body = answer("boiler-output", request)
    assert status == 200, body
    return body


@settings(deadline=None, max_examples=40)
@given(
    st.floats(0.05, 0.95), st.floats(2, 10), st.floats(10, 300), st.floats(2, 15), st.floats(0, 200)
)
def test_heat_of_a_cycle_is_the_load(
    share: float, least: float, litres: float, difference: float, metal: float
) -> None:
    """What the burner gives in one run is what is drawn in a run and a rest."""
    body = _ask(
        output_least=_q(least, "kW"),
        part_load=_q(share * least, "kW"),
        water_content=_q(litres, "l"),
        switching_difference=_q(difference, "K"),
        metal_capacity=_q(metal, "kJ/K"),
    )["outputs"]
    on, off = body["run_time"]["value"], body["rest_time"]["value"]
    if on >= 24 * 60 * (1 - 1e-9):
        return
    assert least * on == pytest.approx(share * least * (on + off), rel=1e-9)
    assert body["starts"]["value"] == pytest.approx(60 / (on + off), rel=1e-9)
    assert body["starts"]["value"] <= body["starts_most"]["value"] * (1 + 1e-12)


@settings(deadline=None, max_examples=40)
@given(st.floats(0.2, 0.9), st.floats(1, 20), st.floats(0, 100))
def test_content_asked_for_gives_the_run_asked_for(
    share: float, minutes: float, metal: float
) -> None:
    changes = {
        "part_load": _q(4.8 * share, "kW"),
        "run_time_least": _q(minutes, "min"),
        "metal_capacity": _q(metal, "kJ/K"),
    }
    wanted = _ask(**changes)["outputs"]["content_needed"]["value"]
    if not 1 < wanted < 5000:
        return
    after = _ask(**changes, water_content=_q(wanted, "l"))
    assert after["outputs"]["run_time"]["value"] == pytest.approx(minutes, rel=1e-9)
    assert after["findings"]["burner-run"]["verdict"] == "met"


@settings(deadline=None, max_examples=30)
@given(st.floats(5, 200), st.floats(5, 100), st.floats(11, 24))
def test_room_against_an_integration(minutes: float, hours: float, output: float) -> None:
    """Heating off, then on: Runge and Kutta's steps against the closed forms."""
    body = _ask(
        reheat_time=_q(minutes, "min"),
        time_constant=_q(hours, "h"),
        heating_output_most=_q(output, "kW"),
    )["outputs"]
    rooms, tau, supply = body["rooms_meanwhile"], hours * 60, body["range_setting"]["value"] / 9.6

    def after(start: float, time: float, heat: float) -> float:
        def slope(theta: float) -> float:
            return (-3 + 23 * heat - theta) / tau

        theta, step = start, time / 400
        for _ in range(400):
            a = slope(theta)
            b = slope(theta + step / 2 * a)
            c = slope(theta + step / 2 * b)
            theta += step / 6 * (a + 2 * b + 2 * c + slope(theta + step * c))
        return theta

    cold = after(20, minutes, 0)
    assert rooms["temperature"]["value"] == pytest.approx(cold, abs=1e-6)
    assert rooms["fall"]["value"] == pytest.approx(20 - cold, abs=1e-6)
    back = rooms["recovery_time"]["value"] * 60
    if back < 24 * 60 * (1 - 1e-9):
        assert after(cold, back, supply) == pytest.approx(20, abs=1e-5)
    else:
        assert after(cold, back, supply) <= 20 + 1e-6


def test_what_a_day_loses_is_given_in_the_hours_left() -> None:
    body = _ask(reheat_time="45 min", reheats_a_day=2, pipe_losses="0.5 kW")["outputs"]
    assert body["heating_needed"]["value"] * 22.5 == pytest.approx(10.1 * 24, rel=1e-12)


def test_net_and_gross_plates_of_one_boiler_agree() -> None:
    net = _ask(rated_input="24.5 kW net")["outputs"]
    gross = _ask(rated_input={"value": 24.5 * 38.76 / 34.9, "unit": "kW", "basis": "gross"})[
        "outputs"
    ]
    for key in ("range_input_net", "range_input_gross", "range_gas_flow"):
        assert gross[key]["value"] == pytest.approx(net[key]["value"], rel=1e-12)
    assert net["range_input_gross"]["value"] / net["range_input_net"]["value"] == pytest.approx(
        1.1107, rel=1e-4
    )


def test_longest_reheat_is_where_the_limit_is_met() -> None:
    longest = _ask(reheat_time="10 min", time_constant="30 h")["outputs"]["rooms_meanwhile"]
    minutes = longest["longest_reheat"]["value"]
    assert minutes == pytest.approx(1800 * math.log(23 / 22), rel=1e-12)
    at = _ask(reheat_time=_q(minutes, "min"), time_constant="30 h")
    assert at["findings"]["room-fall"]["verdict"] == "met"
    over = _ask(reheat_time=_q(minutes * 1.001, "min"), time_constant="30 h")
    assert over["findings"]["room-fall"]["verdict"] == "not-met"


def test_limits_nobody_has_checked_cap_a_verdict() -> None:
    body = _ask(fall_most=None, run_time_least=None, reheat_time="10 min", time_constant="50 h")
    assert body["findings"]["room-fall"]["verdict"] == "advisory"
    assert body["findings"]["heating-output"]["verdict"] == "met"


def test_no_reheat_says_nothing_of_rooms() -> None:
    body = _ask()
    assert body["outputs"]["rooms_meanwhile"] is None
    assert "room-fall" not in body["findings"]
