"""A condensate pump against independent solutions, and its shape."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

POINTS = [(0, 5.0), (100, 4.5), (200, 3.6), (300, 2.2), (380, 0.5)]


def _request(**changes: Any) -> dict[str, Any]:
    inputs: dict[str, Any] = {
        "inflow": "2.4 l/h",
        "static_lift": "2 m",
        "tube_bore": "6 mm",
        "tube_length": "8 m",
        "pump_temperature_limit": "60 degC",
        "pump_curve": [{"flow": f"{V} l/h", "head": f"{H} m"} for V, H in POINTS],
        "switching_volume": "0.6 l",
        "non_return_valve": True,
        "alarm_interlock": True,
    }
    inputs.update(changes)
    return {"inputs": inputs, "region": "GB", "date": "2026-11-01"}


def _outputs(**changes: Any) -> dict[str, Any]:
    status, body = answer("condensate-pump-head", _request(**changes), parts=())
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


def _independent_duty(lift: float, length: float, bore: float) -> float:
    """Duty flow in l/h with the friction of another library and properties of a third."""
    from fluids import friction_factor
    from iapws import IAPWS97
    from scipy.optimize import brentq

    water = IAPWS97(T=293.15, P=0.101325)

    def gap(flow: float) -> float:
        w = flow / 3.6e6 / (math.pi * bore**2 / 4)
        Re = water.rho * w * bore / water.mu
        f = 64 / Re if Re < 2000 else friction_factor(Re=Re, eD=1.5e-6 / bore)
        system = lift + f * length / bore * w**2 / 2 / 9.80665
        low = max(k for k, (V, _) in enumerate(POINTS[:-1]) if flow >= V)
        (V_a, H_a), (V_b, H_b) = POINTS[low], POINTS[low + 1]
        return H_a + (flow - V_a) / (V_b - V_a) * (H_b - H_a) - system

    found: float = brentq(gap, 1, 379.9, xtol=1e-9)
    return found


@pytest.mark.parametrize(
    ("lift", "length", "bore"), [(0.5, 6, 0.006), (2, 10, 0.006), (1, 20, 0.008), (3, 4, 0.0095)]
)
def test_duty_against_other_libraries(lift: float, length: float, bore: float) -> None:
    got = _outputs(static_lift=f"{lift} m", tube_length=f"{length} m", tube_bore=f"{bore * 1e3} mm")
    assert got["reynolds"] > 4000
    expected = _independent_duty(lift, length, bore)
    assert got["duty_flow"]["value"] == pytest.approx(expected, rel=0.005)


@settings(deadline=None, max_examples=40)
@given(st.floats(0, 4.5), st.floats(1, 60), st.floats(5, 15))
def test_heads_balance_at_the_duty(lift: float, length: float, bore: float) -> None:
    status, body = answer(
        "condensate-pump-head",
        _request(
            static_lift={"value": lift, "unit": "m"},
            tube_length={"value": length, "unit": "m"},
            tube_bore={"value": bore, "unit": "mm"},
        ),
        parts=(),
    )
    if status != 200:
        assert body["code"] in {"beyond-pump-curve", "pump-overwhelmed"}
        return
    got = body["outputs"]
    heads = got["friction_head"]["value"] + lift
    assert heads == pytest.approx(got["duty_head"]["value"], rel=1e-12)
    assert got["judged_flow"]["value"] <= got["duty_flow"]["value"] * (1 + 1e-9)
    assert got["run_share"] < 1


def test_relief_is_never_blessed() -> None:
    """Whatever the pump, a relief valve led into it is at best an advisory."""
    for limit in ("60 degC", "100 degC", "160 degC"):
        request = _request(
            pump_temperature_limit=limit, relief={"heat_input": "1 kW", "set_pressure": "1 bar"}
        )
        status, body = answer("condensate-pump-head", request, parts=())
        assert status == 200
        assert body["verdict"] in {"advisory", "dangerous"}


def test_evaporation_against_another_library() -> None:
    from iapws import IAPWS97

    for pressure in (1, 3, 6, 10):
        got = _outputs(relief={"heat_input": "24 kW", "set_pressure": f"{pressure} bar"})["relief"]
        liquid = IAPWS97(P=(pressure + 1.01325) / 10, x=0)
        steam = IAPWS97(P=(pressure + 1.01325) / 10, x=1)
        assert got["temperature"]["value"] == pytest.approx(liquid.T - 273.15, abs=0.02)
        flow = 24 / (steam.h - liquid.h) * 3600
        assert got["steam_flow"]["value"] == pytest.approx(flow, rel=0.001)


def test_chart_shows_pump_and_tube() -> None:
    _, body = answer("condensate-pump-head", _request(), parts=("charts",))
    chart = body["charts"]["duty"]
    assert {row["curve"] for row in chart["data"]["values"]} == {"pump", "tube"}
    assert chart["encoding"]["x"]["title"] == "flow (l/h)"
