"""A condensate pump against independent solutions, and its shape."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tundish.answering import answer

POINTS = [(0, 5.0), (100, 4.5), (200, 3.6), (300, 2.2), (380, 0.5)]


def _request(**changes: Any) -> dict[str, Any]:
    inputs: dict[str, Any] = {
        "inflow": "2.4 l/h",
        "static_lift": "2 m",
        "tube_bore": "6 mm",
        "tube_length": "8 m",
        "hottest_temperature": "20 degC",
        "coldest_temperature": "20 degC",
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


def _independent_friction(flow: float, length: float, bore: float, *, larger: bool) -> float:
    """Head in m that a flow in l/h loses at 20 degC, by another library; ``larger`` of both laws."""
    from fluids.friction import Colebrook
    from iapws import IAPWS97

    water = IAPWS97(T=293.15, P=0.101325)
    w = flow / 3.6e6 / (math.pi * bore**2 / 4)
    Re = water.rho * w * bore / water.mu
    turbulent = Colebrook(Re, 1.5e-6 / bore) if larger or Re >= 2000 else 0.0
    f = turbulent if Re > 4000 else max(64 / Re, turbulent)
    head: float = f * length / bore * w**2 / 2 / 9.80665
    return head


def _pump(flow: float) -> float:
    """Head of the pump in m on its curve."""
    low = max(k for k, (V, _) in enumerate(POINTS[:-1]) if flow >= V)
    (V_a, H_a), (V_b, H_b) = POINTS[low], POINTS[low + 1]
    return H_a + (flow - V_a) / (V_b - V_a) * (H_b - H_a)


def _quantities(lift: float, length: float, bore: float) -> dict[str, Any]:
    return {
        "static_lift": {"value": lift, "unit": "m"},
        "tube_length": {"value": length, "unit": "m"},
        "tube_bore": {"value": bore, "unit": "mm"},
    }


@settings(deadline=None, max_examples=40)
@given(st.floats(0, 4.5), st.floats(1, 60), st.floats(4, 15))
def test_heads_balance_at_the_duty(lift: float, more: float, bore: float) -> None:
    """At the flow of the answer another library's friction, the lift and the pump agree."""
    changes = _quantities(lift, lift + more, bore)
    status, body = answer("condensate-pump-head", _request(**changes), parts=())
    if status != 200:
        assert body["code"] in {"beyond-pump-curve", "pump-overwhelmed"}
        return
    got = body["outputs"]
    duty, judged = got["duty_flow"]["value"], got["judged_flow"]["value"]
    assert got["duty_head"]["value"] == pytest.approx(_pump(duty), rel=1e-9)
    size = (lift + more, bore / 1e3)
    if judged == duty:
        if abs(got["reynolds"] - 2000) > 20:  # the other viscosity puts 2000 elsewhere
            lost = _independent_friction(duty, *size, larger=False)
            assert got["friction_head"]["value"] == pytest.approx(lost, rel=0.012)
    else:  # the pump's curve passes through the jump
        assert got["transitional"]
        assert got["reynolds"] == pytest.approx(2000, rel=1e-9)
        assert judged < duty
        lost = _independent_friction(judged, *size, larger=True)
        assert _pump(judged) - lift == pytest.approx(lost, rel=0.012)
    assert got["run_share"] < 1


@settings(deadline=None, max_examples=25)
@given(
    st.floats(0, 4.5),
    st.floats(1, 40),
    st.floats(4, 12),
    st.floats(1, 90),
    st.floats(1, 90),
    st.floats(0, 1),
)
@example(4.0, 16.0, 6.0, 5.0, 40.0, 0.257)  # 14 degC: laminar when colder, broken up here
def test_no_temperature_between_carries_less(
    lift: float, more: float, bore: float, one: float, other: float, part: float
) -> None:
    """The judged flow holds for every temperature from the coldest to the hottest."""
    cold, hot = min(one, other), max(one, other)
    changes = _quantities(lift, lift + more, bore)

    def judged(coldest: float, hottest: float) -> float | None:
        status, body = answer(
            "condensate-pump-head",
            _request(
                **changes,
                coldest_temperature={"value": coldest, "unit": "degC"},
                hottest_temperature={"value": hottest, "unit": "degC"},
            ),
            parts=(),
        )
        return body["outputs"]["judged_flow"]["value"] if status == 200 else None

    between = cold + part * (hot - cold)
    least, alone = judged(cold, hot), judged(between, between)
    if least is not None and alone is not None:
        assert least <= alone * (1 + 1e-9)


def test_a_thin_tube_is_judged_cold() -> None:
    tube = {"tube_bore": "4 mm", "tube_length": "20 m"}
    warm = _outputs(**tube, hottest_temperature="95 degC", coldest_temperature="95 degC")
    cold = _outputs(**tube, hottest_temperature="95 degC", coldest_temperature="1 degC")
    assert warm["duty_flow"]["value"] == pytest.approx(26.06, rel=0.01)
    assert cold["duty_flow"]["value"] == pytest.approx(18.62, rel=0.011)
    assert cold["flow_margin"] == pytest.approx(18.62 / 2.4, rel=0.011)
    request = _request(**tube)
    del request["inputs"]["coldest_temperature"]
    _, body = answer("condensate-pump-head", request, parts=())
    assert body["outputs"]["duty_flow"]["value"] == pytest.approx(cold["duty_flow"]["value"])


def test_how_hot_it_gets_must_be_said() -> None:
    request = _request()
    del request["inputs"]["hottest_temperature"]
    status, body = answer("condensate-pump-head", request, parts=())
    assert status == 422
    assert (body["code"], body["pointer"]) == ("field-missing", "/inputs/hottest_temperature")


@pytest.mark.parametrize("valve", [{}, {"rated_discharge": "1 kW"}, {"seat_bore": "3 mm"}])
@pytest.mark.parametrize("limit", ["60 degC", "100 degC", "160 degC"])
def test_relief_is_never_blessed(limit: str, valve: dict[str, str]) -> None:
    """Whatever pump and valve, the fact itself is dangerous; the numbers only say how bad."""
    relief = {"heat_input": "1 kW net", "set_pressure": "1 bar", **valve}
    request = _request(pump_temperature_limit=limit, relief=relief)
    status, body = answer("condensate-pump-head", request, parts=())
    assert status == 200
    verdicts = {code: found["verdict"] for code, found in body["findings"].items()}
    assert verdicts["pump-takes-relief"] == "dangerous"
    hot = limit != "160 degC"
    assert verdicts["relief-cool-enough"] == ("dangerous" if hot else "advisory")
    large = "seat_bore" in valve  # 7.07 mm²: 367 l/h against 103
    assert verdicts["relief-water-within-pump"] == ("dangerous" if large else "advisory")
    assert body["verdict"] == "dangerous"
    words = body["findings"]["relief-water-within-pump"]["items"][0]["words"]
    assert ("the least that a valve for this heat input passes" in words) == (not valve)


def test_a_pump_without_relief_is_not_called_dangerous() -> None:
    _, body = answer("condensate-pump-head", _request(), parts=())
    assert body["findings"]["pump-takes-relief"]["verdict"] == "met"
    assert "relief-water-within-pump" not in body["findings"]


def test_the_valve_decides_and_not_the_heat() -> None:
    """A valve is often larger than the heat needs: its rating or bore gives the water."""

    def water(**valve: str) -> float:
        relief = {"heat_input": "24 kW net", "set_pressure": "3 bar", **valve}
        flow: float = _outputs(relief=relief)["relief"]["water_flow"]["value"]
        return flow

    least = water()
    assert water(rated_discharge="48 kW") == pytest.approx(2 * least, rel=1e-9)
    assert water(rated_discharge="12 kW") == least
    assert water(seat_bore="12 mm") == pytest.approx(10169, rel=0.001)
    assert water(seat_bore="12 mm", rated_discharge="48 kW") == water(seat_bore="12 mm")


def test_more_water_than_gas_can_make() -> None:
    for flow, verdict in (("1.44 l/h", "met"), ("1.6 l/h", "not-met")):
        measurement = {"flow": flow, "heat_input": "10 kW gross"}
        _, body = answer("condensate-pump-head", _request(measurement=measurement), parts=())
        assert body["findings"]["measured-within-ceiling"]["verdict"] == verdict
        assert body["outputs"]["inflow"]["value"] == 2.4
    assert _outputs(measurement=measurement, inflow="1 l/h")["inflow"]["value"] == 1.6


def test_a_tube_reaches_its_highest_point() -> None:
    for length, status in (("3.999 m", 422), ("4 m", 200)):
        request = _request(static_lift="4 m", tube_length=length)
        found, body = answer("condensate-pump-head", request, parts=())
        assert found == status
    assert body["outputs"]["friction_head"]["value"] > 0


def test_titles_say_what_is_compared() -> None:
    """A title stands behind good and bad verdicts alike."""
    from tundish.host import default_host

    calculation = default_host().runner("condensate-pump-head").calculation
    titles = [finding.title for finding in calculation.findings]
    good = ("no more than", "within", "carries", "does not", "certain", "stops", "enough")
    assert not [title for title in titles if any(word in title.lower() for word in good)]


def test_evaporation_against_another_library() -> None:
    from iapws import IAPWS97

    for pressure in (1, 3, 6, 10):
        got = _outputs(relief={"heat_input": "24 kW net", "set_pressure": f"{pressure} bar"})[
            "relief"
        ]
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
