"""A mains supply against independent solutions, and its shape."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

FAST = settings(max_examples=40, deadline=None, derandomize=True)
fluids_friction = pytest.importorskip("fluids.friction")
iapws = pytest.importorskip("iapws")


def _bar(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "bar"}


def _flow(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "l/min"}


def _metres(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "m"}


def _ask(**changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "static_pressure": _bar(4.0),
        "readings": [{"pressure": _bar(2.5), "flow": _flow(25)}],
        "gauge_resolution": _bar(0.1),
        "design_flow": _flow(18),
    }
    inputs.update(changes)
    inputs = {key: value for key, value in inputs.items() if value is not None}
    return answer("mains-supply", {"inputs": inputs, "region": "GB", "date": "2026-11-01"})


def _outputs(**changes: Any) -> dict[str, Any]:
    status, body = _ask(**changes)
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


def _pipe(bore: float, metres: float, rise: float, zeta: float) -> dict[str, Any]:
    return {
        "name": "pipe",
        "bore": {"value": bore, "unit": "mm"},
        "roughness": {"value": 0.0015, "unit": "mm"},
        "length": _metres(metres),
        "rise": _metres(rise),
        "fittings_loss": zeta,
    }


def _lost(flow: float, bore: float, metres: float, rise: float, zeta: float) -> float:
    """Pressure in bar taken by a pipe at 10 degC, by libraries that share no code with ours."""
    water = iapws.IAPWS97(T=283.15, P=0.4)
    d = bore / 1e3
    w = flow / 6e4 / (math.pi * d**2 / 4)
    Re = water.rho * w * d / water.mu
    laminar = 64 / Re
    turbulent = fluids_friction.Colebrook(Re, 1.5e-6 / d)
    f = laminar if Re < 2000 else turbulent if Re >= 4000 else max(laminar, turbulent)
    return float(
        ((f * metres / d + zeta) * water.rho * w**2 / 2 + water.rho * 9.80665 * rise) / 1e5
    )


@FAST
@given(st.floats(1, 28), st.floats(12, 40), st.floats(1, 40), st.floats(-3, 6), st.floats(0, 20))
def test_pressure_behind_a_pipe(
    flow: float, bore: float, metres: float, rise: float, zeta: float
) -> None:
    status, body = _ask(
        gauge_resolution=_bar(0), design_flow=_flow(flow), supply=[_pipe(bore, metres, rise, zeta)]
    )
    lost = _lost(flow, bore, metres, rise, zeta)
    pressure = 4 - 1.5 * max((flow / 25) ** 1.852, (flow / 25) ** 2) - lost
    if status != 200:
        assert body["code"] == "flow-beyond-supply"
        assert pressure < 0.3
        return
    assert body["outputs"]["end_pressure"]["value"] == pytest.approx(
        pressure, abs=0.003 + 0.003 * abs(lost)
    )


@FAST
@given(st.floats(0.2, 3.5), st.floats(0, 0.4), st.floats(15, 28))
def test_flow_at_residual_lies_on_the_lower_curve(
    residual: float, division: float, metres: float
) -> None:
    """Running the flow found leaves the residual pressure it was found for."""
    given_ = {"gauge_resolution": _bar(division), "residual_pressure": _bar(residual)}
    flow = _outputs(design_flow=_flow(metres), **given_)["flow_at_residual"]["value"]
    again = _outputs(design_flow=_flow(flow), **given_)
    assert again["test_pressure"]["value"] == pytest.approx(residual, abs=1e-9)


def test_store_flow_against_a_root_of_another_library() -> None:
    from scipy.optimize import brentq

    pipe = (20.2, 14.0, 5.0, 8.0)

    def left(flow: float) -> float:
        x = max((flow / 25) ** 1.852, (flow / 25) ** 2)
        return float(4 - 1.5 * x - 0.05 * (abs(1 - x) + x) - _lost(flow, *pipe) - 1.5)

    got = _outputs(supply=[_pipe(*pipe)], store={})
    assert got["store"]["available_flow"]["value"] == pytest.approx(brentq(left, 1, 40), rel=0.003)


@FAST
@given(st.floats(1.1, 1.99), st.floats(0.05, 0.4), st.floats(8, 15))
def test_three_points_give_back_the_exponent(n: float, drop: float, flow: float) -> None:
    readings = [
        {"pressure": _bar(6 - drop), "flow": _flow(flow)},
        {"pressure": _bar(6 - drop * 2**n), "flow": _flow(2 * flow)},
    ]
    got = _outputs(
        static_pressure=_bar(6.0),
        readings=readings,
        gauge_resolution=_bar(0),
        design_flow=_flow(flow),
    )
    assert got["exponent"] == pytest.approx(n, rel=1e-9)
    assert got["exponent_low"] == pytest.approx(got["exponent_high"], rel=1e-9)


def test_gauge_band_holds_every_true_main() -> None:
    """A main whose readings were rounded to the division lies between both curves, every time."""
    import random

    chance = random.Random(7)
    inside = 0
    for _ in range(60):
        static, n = chance.uniform(2.5, 6), chance.uniform(1.852, 2)
        k = chance.uniform(0.3, 0.6) * static / 20**n
        readings = [
            {"pressure": _bar(round((static - k * q**n) * 10) / 10), "flow": _flow(q)}
            for q in (20.0,)
        ]
        q = chance.uniform(5, 25)
        got = _outputs(
            static_pressure=_bar(round(static * 10) / 10), readings=readings, design_flow=_flow(q)
        )
        true = static - k * q**n
        assert got["test_pressure"]["value"] <= true + 1e-9
        assert got["end_pressure_high"]["value"] >= true - 1e-9
        inside += 1
    assert inside == 60


@pytest.mark.parametrize(("step", "verdict"), [(0.0, "met"), (0.0005, "not-met")])
def test_store_just_met_and_just_missed(step: float, verdict: str) -> None:
    status, body = _ask(
        static_pressure=_bar(3.5),
        readings=[{"pressure": _bar(1.5), "flow": _flow(20 - step)}],
        gauge_resolution=_bar(0),
        design_flow=None,
        store={},
    )
    assert status == 200
    assert body["findings"]["store-supplied"]["verdict"] == verdict


def test_refusal_names_the_largest_flow() -> None:
    status, body = _ask(design_flow=_flow(90), gauge_resolution=_bar(0))
    assert status == 422
    assert body["code"] == "flow-beyond-supply"
    assert body["title"].startswith("The main cannot give that flow: 42.4")
    status, body = _ask(design_flow=_flow(42.3), gauge_resolution=_bar(0))
    assert status == 200


def test_chart_shows_the_operating_point() -> None:
    _, body = answer(
        "mains-supply",
        {
            "inputs": {
                "static_pressure": "3.5 bar",
                "readings": [{"pressure": "2.6 bar", "flow": "15 l/min"}],
                "design_flow": "12 l/min",
                "store": {},
            },
            "region": "GB",
            "date": "2026-11-01",
        },
        parts=("charts",),
    )
    rows = body["charts"]["supply"]["data"]["values"]
    names = {row["curve"] for row in rows}
    assert {"point of test", "end of the supply", "design flow", "store asks for"} <= names
    assert {row["x"] for row in rows if row["curve"] == "design flow"} == {12}


def _valve(setting: float, fall_off: float = 0.3, open_loss: float | None = None) -> dict[str, Any]:
    known = {} if open_loss is None else {"open_loss": _bar(open_loss)}
    return {
        "setting": _bar(setting),
        "fall_off": _bar(fall_off),
        "at_flow": _flow(30),
        **known,
    }


@FAST
@given(st.floats(2, 8), st.floats(0, 4), st.floats(1, 8), st.floats(-3, 3), st.booleans())
def test_no_store_is_met_that_a_night_could_strain(
    by_day: float, more: float, setting: float, rise: float, valved: bool
) -> None:
    """Where a reading by day is met, every higher pressure of the night is kept, too."""
    shared: dict[str, Any] = {
        "static_pressure": _bar(by_day),
        "readings": [{"pressure": _bar(by_day - 1), "flow": _flow(25)}],
        "design_flow": _flow(5),
        "supply": [_pipe(26.0, 5.0, rise, 2.0)],
        "store": {
            "working_pressure": _bar(3.5),
            "expansion_valve": _bar(3.5),
            **({"reducing_valve": _valve(setting, open_loss=0.3)} if valved else {}),
        },
        "outlets": [
            {
                "name": "tap",
                "flow": _flow(5),
                "fed_by": "store",
                "required_pressure": _bar(0),
                "most_pressure": _bar(4),
            }
        ],
    }
    _, day = _ask(**shared)
    _, night = _ask(night_pressure=_bar(by_day + more), **shared)
    for code in ("store-standing-pressure", "outlet-standing-pressure"):
        if day["findings"][code]["verdict"] == "met":
            assert night["findings"][code]["verdict"] == "met"
        assert night["findings"][code]["verdict"] in {"met", "not-met"}
    water = iapws.IAPWS97(T=283.15, P=0.4)
    there = by_day + more + 0.05 - water.rho * 9.80665 * rise / 1e5
    expected = min(there, setting) if valved else there
    assert night["outputs"]["store"]["standing_pressure"]["value"] == pytest.approx(
        expected, abs=1e-4
    )


@FAST
@given(st.floats(0.6, 6), st.floats(0.1, 0.5), st.floats(0.05, 1), st.floats(3, 12))
def test_no_reducing_valve_gives_more_than_it_has(
    setting: float, fall_off: float, open_loss: float, flow: float
) -> None:
    """Behind it: what it holds, or its inlet less its own loss, whichever is less."""
    shared: dict[str, Any] = {"gauge_resolution": _bar(0), "design_flow": _flow(flow)}
    outlet = {"name": "tap", "flow": _flow(flow), "required_pressure": _bar(0), "fed_by": "store"}
    got = _outputs(
        store={"reducing_valve": _valve(setting, fall_off, open_loss)}, outlets=[outlet], **shared
    )
    inlet = got["store"]["pressure"]["value"]
    held = setting - fall_off * flow / 30
    expected = min(held, inlet - open_loss * (flow / 30) ** 2)
    assert got["store"]["outlet_pressure"]["value"] == pytest.approx(expected, abs=1e-9)
    status, body = _ask(
        store={"reducing_valve": _valve(setting, fall_off)}, outlets=[outlet], **shared
    )
    if inlet < held * (1 - 1e-9):
        assert (status, body["code"]) == (422, "open-loss-missing")
    elif inlet < setting * (1 - 1e-9):
        assert body["findings"]["outlet-pressure"]["verdict"] == "advisory"
    else:
        assert body["findings"]["outlet-pressure"]["verdict"] == "met"


@pytest.mark.parametrize(("flow", "status"), [(9.9, 422), (10, 422), (19.9, 422), (20, 200)])
def test_a_store_carries_all_its_outlets_that_run_at_once(flow: float, status: int) -> None:
    outlets = [
        {
            "name": name,
            "flow": _flow(10),
            "at_once": True,
            "fed_by": "store",
            "required_pressure": _bar(0),
        }
        for name in ("first", "second")
    ]
    got, body = _ask(design_flow=None, store={"flow": _flow(flow)}, outlets=outlets)
    assert got == status
    if status == 422:
        assert body["code"] == "store-flow-below-outlet"


@pytest.mark.parametrize(("celsius", "status"), [(30, 200), (40, 200), (40.1, 422), (95, 422)])
def test_hot_water_never_runs_in_a_tube_for_cold(celsius: float, status: int) -> None:
    hot = {"name": "hot", "tube": "pe-25", "length": _metres(5)}
    outlet = {
        "name": "tap",
        "flow": _flow(10),
        "fed_by": "store",
        "required_pressure": _bar(0),
        "sections": [hot],
    }
    got, body = _ask(store={}, outlets=[outlet], hot_temperature={"value": celsius, "unit": "degC"})
    assert got == status
    if status == 422:
        assert body["code"] == "tube-for-cold-only"
