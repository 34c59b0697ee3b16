"""The test of a measured reheat: readings drawn from a known store, words, and hard limits."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.hot_water.reheat_test import CALCULATION

scipy_integrate = pytest.importorskip("scipy.integrate")
numpy = pytest.importorskip("numpy")
CoolProp = pytest.importorskip("CoolProp.CoolProp")

DATE = "2026-11-01"
PRESSURE = 2.5e5


def _water(what: str, celsius: float) -> float:
    return float(CoolProp.PropsSI(what, "T", celsius + 273.15, "P", PRESSURE, "Water"))


def _quantity(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _ask(inputs: dict[str, Any]) -> dict[str, Any]:
    request = {"inputs": inputs, "region": "GB", "date": DATE}
    status, body = answer("reheat-test", request)
    assert status == 200, body
    return dict(body)


def _readings(
    litres: float, start: float, end: float, minutes: float, kilowatts: float, **more: Any
) -> dict[str, Any]:
    return {
        "store_volume": _quantity(litres, "l"),
        "start_temperature": _quantity(start, "degC"),
        "end_temperature": _quantity(end, "degC"),
        "reheat_time": _quantity(minutes, "min"),
        "source_power": _quantity(kilowatts, "kW"),
        **more,
    }


def _heat(litres: float, start: float, end: float) -> float:
    return litres / 1e3 * _water("D", start) * (_water("H", end) - _water("H", start))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    litres=st.floats(60, 400),
    start=st.floats(5, 30),
    rise=st.floats(15, 45),
    minutes=st.floats(10, 200),
    kilowatts=st.floats(2, 40),
)
def test_each_cause_alone_closes_the_gap(
    litres: float, start: float, rise: float, minutes: float, kilowatts: float
) -> None:
    """The reading with one value replaced by the one that is named agrees with the reference."""
    end = start + rise
    outputs = _ask(_readings(litres, start, end, minutes, kilowatts))["outputs"]
    reference = outputs["reference_power"]["value"]
    assert reference == pytest.approx(kilowatts, rel=1e-12)

    def power(**changed: float) -> float:
        values = {"litres": litres, "start": start, "end": end, "minutes": minutes, **changed}
        heat = _heat(values["litres"], values["start"], values["end"])
        return heat / values["minutes"] / 60e3

    assert power(litres=outputs["effective_volume"]["value"]) == pytest.approx(reference, rel=1e-4)
    assert power(minutes=outputs["needed_time"]["value"]) == pytest.approx(reference, rel=1e-4)
    cooler = outputs["needed_end_temperature"]["value"]
    if cooler < 95:  # a mean specific heat stands in between
        assert power(end=cooler) == pytest.approx(reference, rel=0.01)
    warmer = outputs["needed_start_temperature"]["value"]
    if warmer > 1:
        assert power(start=warmer) == pytest.approx(reference, rel=0.02)


def test_uncertainty_against_random_readings() -> None:
    """The uncertainty of the implied power, and z, against 200,000 drawn readings."""
    random = numpy.random.default_rng(4)
    litres, start, end, minutes, kilowatts = 250.0, 12.0, 57.0, 38.0, 15.0
    outputs = _ask(_readings(litres, start, end, minutes, kilowatts))["outputs"]
    count = 200_000
    capacity = _heat(litres, start, end) / (end - start) / litres
    V = random.normal(litres, 0.03 * litres, count)
    rise = random.normal(end, 1.0, count) - random.normal(start, 1.0, count)
    t = random.normal(minutes, 0.5, count)
    power = V * capacity * rise / t / 60e3
    source = random.normal(kilowatts, 0.05 * kilowatts, count)
    assert outputs["mean_power_uncertainty"]["value"] == pytest.approx(power.std(), rel=0.01)
    gap = power - source
    assert outputs["z_source"] == pytest.approx(gap.mean() / gap.std(), rel=0.01)
    effective = source * t * 60e3 / (capacity * rise)
    assert outputs["effective_volume_uncertainty"]["value"] == pytest.approx(
        effective.std(), rel=0.02
    )


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    litres=st.floats(80, 400),
    start=st.floats(5, 30),
    kilowatts=st.floats(5, 40),
    coil=st.floats(150, 1500),
    flow=st.floats(62, 85),
    loss=st.floats(20, 150) | st.none(),
)
def test_a_true_reading_is_believed(
    litres: float, start: float, kilowatts: float, coil: float, flow: float, loss: float | None
) -> None:
    """The time an ODE solver gives a store is predicted, consistent, and shows no gap."""
    end = 58.0
    capacity = _heat(litres, start, end) / (end - start)

    def net(T: float) -> float:
        gone = 0.0 if loss is None else loss / 45 * (T - 20)
        return min(kilowatts * 1e3, coil * (flow - T)) - gone

    def reached(_t: float, y: list[float]) -> float:
        return y[0] - end

    reached.terminal = True  # type: ignore[attr-defined]
    run = scipy_integrate.solve_ivp(
        lambda _t, y: [net(y[0]) / capacity],
        (0.0, 1e6),
        [start],
        events=reached,
        method="DOP853",
        rtol=1e-10,
        atol=1e-9,
        max_step=60.0,
    )
    minutes = float(run.t_events[0][0]) / 60
    given = _readings(
        litres,
        start,
        end,
        minutes,
        kilowatts,
        coil_conductance=_quantity(coil, "W/K"),
        flow_temperature=_quantity(flow, "degC"),
    )
    if loss is not None:
        given["standing_loss"] = _quantity(loss, "W")
    body = _ask(given)
    outputs = body["outputs"]
    assert outputs["predicted_time"]["value"] == pytest.approx(minutes, rel=5e-4)
    assert outputs["reading"] == "consistent"
    assert abs(outputs["z_predicted"]) < 0.05
    assert body["findings"]["as-fast-as-predicted"]["verdict"] == "met"


def test_more_than_the_source_is_never_believed() -> None:
    """No coil, no loss and no helping heat turns an impossible reading into a possible one."""
    for more in (
        {},
        {"coil_conductance": _quantity(3000, "W/K"), "flow_temperature": _quantity(90, "degC")},
        {"standing_loss": _quantity(150, "W")},
        {"extra_heat": {"immersion_power": _quantity(6, "kW")}},
    ):
        body = _ask(_readings(200, 15, 58, 25, 18, **more))
        assert body["outputs"]["reading"] == "impossible-as-stated"
        found = body["findings"]["power-within-source"]
        assert found["verdict"] == body["verdict"] == "not-met"
        assert found["items"][0]["words"].startswith("Impossible as stated")
        told = set(body["findings"])
        assert not told & {"as-fast-as-predicted", "as-fast-as-source", "no-faster-than-predicted"}


def test_slow_without_a_coil_asks_for_it() -> None:
    body = _ask(_readings(250, 12, 55, 70, 24))
    words = body["findings"]["as-fast-as-source"]["items"][0]["words"]
    assert words.startswith("Provisional")
    assert body["verdict"] == "advisory"


def test_implied_coil_is_the_logarithm() -> None:
    flow = {"flow_temperature": _quantity(70, "degC")}
    outputs = _ask(_readings(250, 12, 55, 70, 24, **flow))["outputs"]
    capacity = _heat(250, 12, 55) / 43
    wanted = capacity / (70 * 60) * math.log((70 - 12) / (70 - 55))
    assert outputs["implied_conductance"]["value"] == pytest.approx(wanted, rel=1e-4)
    assert outputs["conductance_share"] is None


def test_smaller_uncertainty_never_turns_a_no_into_a_yes() -> None:
    readings = copy.deepcopy(dict(CALCULATION.example))
    for share in (0.05, 0.02, 0.005):
        readings["power_uncertainty"] = share
        assert _ask(readings)["outputs"]["reading"] == "impossible-as-stated"


@settings(max_examples=20, deadline=None, derandomize=True)
@given(doubt=st.floats(0.13, 0.3), minutes=st.floats(20, 200))
def test_readings_that_cannot_decide_are_never_met(doubt: float, minutes: float) -> None:
    """A content known to an eighth or worse: no agreement counts, whatever the time."""
    found = _ask(_readings(250, 12, 57, minutes, 15, volume_uncertainty=doubt))
    powers = found["findings"]
    if not found["outputs"]["tells"]:
        assert found["outputs"]["reading"] != "consistent"
        assert powers["power-within-source"]["verdict"] != "met"
        assert found["verdict"] != "met"
    if minutes < 60:
        assert not found["outputs"]["tells"]


def test_the_cut_out_temperature_itself_is_too_hot() -> None:
    found = _ask(_readings(200, 20, 85, 60, 15))["findings"]["below-cut-out"]
    assert found["verdict"] == "dangerous"
