"""Dead legs against a simulation that shares no code with them, and at their limits."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.hot_water.dead_legs import CALCULATION

WALL_15 = 0.18111  # heat capacity of the wall over that of the water, 15 x 0.7 mm copper


def _leg(length: float = 5, flow: float = 6, **pipe: Any) -> dict[str, Any]:
    run = {"tube": "copper-15", "length": {"value": length, "unit": "m"}, "insulated": True}
    return {"name": "tap", "flow": {"value": flow, "unit": "l/min"}, "pipes": [run | pipe]}


def _answer(*legs: dict[str, Any], **inputs: Any) -> tuple[int, dict[str, Any]]:
    request = {
        "inputs": {"hot_temperature": "60 degC", "legs": list(legs)} | inputs,
        "region": "GB",
        "date": "2026-11-01",
    }
    return answer("dead-legs", request)


def _simulated(length: float, flow: float, cells: int = 600) -> float:
    """Seconds until half of the rise arrives: water moves cell by cell and shares with the wall."""
    step = math.pi * 0.0136**2 / 4 * length / cells / (flow / 6e4)
    water, wall = [0.0] * cells, [0.0] * cells
    for count in range(1, 4 * cells):
        water = [1.0, *water[:-1]]
        for k in range(min(count, cells)):
            mixed = (water[k] + WALL_15 * wall[k]) / (1 + WALL_15)
            water[k] = wall[k] = mixed
        if water[-1] >= 0.5:
            return count * step
    raise AssertionError


def test_wait_by_a_simulation() -> None:
    _, body = _answer(_leg(8, 5), standing_temperature="10 degC")
    wait = body["outputs"]["legs"][0]["wait"]["value"]
    assert wait == pytest.approx(_simulated(8, 5), rel=0.01)


@settings(max_examples=25, deadline=None)
@given(
    bore=st.floats(6, 50),
    wall=st.floats(0.5, 1.9),
    length=st.floats(0.5, 60),
    hot=st.floats(45, 80),
    standing=st.floats(5, 35),
)
def test_wall_by_a_water_library(
    bore: float, wall: float, length: float, hot: float, standing: float
) -> None:
    """The heat in the wall comes from hot water that cools to the standing temperature."""
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI
    status, body = _answer(
        {
            "name": "tap",
            "flow": "6 l/min",
            "pipes": [
                {
                    "outside_diameter": {"value": max(8, bore + 2 * wall), "unit": "mm"},
                    "bore": {"value": bore, "unit": "mm"},
                    "length": {"value": length, "unit": "m"},
                    "material": "copper",
                }
            ],
        },
        hot_temperature={"value": hot, "unit": "degC"},
        standing_temperature={"value": standing, "unit": "degC"},
    )
    assert status == 200, body

    def water(what: str, t: float) -> float:
        return float(props(what, "T", t + 273.15, "P", 2.5e5, "Water"))

    outside = max(8, bore + 2 * wall)
    metal = math.pi / 4 * (outside**2 - bore**2) * 1e-6 * length * 3.44e6 * (hot - standing)
    taken = metal / (water("D", hot) * (water("H", hot) - water("H", standing)))
    leg = body["outputs"]["legs"][0]
    assert leg["wall_time"]["value"] == pytest.approx(taken / 1e-4, rel=1e-3)
    assert leg["content"]["value"] == pytest.approx(math.pi / 4 * bore**2 * length / 1e3, rel=1e-12)


@pytest.mark.parametrize(
    ("length", "fast", "slow"),
    [(17.4, "met", "met"), (17.6, "not-met", "met"), (35.1, "not-met", "not-met")],
)
def test_both_times_are_judged(length: float, fast: str, slow: str) -> None:
    _, body = _answer(_leg(length))
    assert body["findings"]["hot-in-time-water-regulations"]["verdict"] == fast
    assert body["findings"]["hot-in-time"]["verdict"] == slow


def test_needed_flow_meets_the_shorter_time() -> None:
    _, body = _answer(_leg(20))
    needed = body["outputs"]["legs"][0]["needed_flow"]["value"]
    _, again = _answer(_leg(20, needed))
    assert again["outputs"]["legs"][0]["wait"]["value"] == pytest.approx(30, rel=1e-9)
    assert again["findings"]["hot-in-time-water-regulations"]["verdict"] == "met"


def test_water_arrives_no_cooler_than_said() -> None:
    """Integrated along the pipe with the loss at each point's own temperature."""
    ht = pytest.importorskip("ht.conv_free_immersed").Nu_horizontal_cylinder_Churchill_Chu
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI

    def lost(t: float) -> float:
        film = (t + 20) / 2 + 273.15
        rho, mu, k, c = (props(w, "T", film, "P", 101325, "Air") for w in "DVLC")
        grashof = 9.80665 * (t - 20) / film * 0.015**3 / (mu / rho) ** 2
        h = ht(mu * c / k, grashof) * k / 0.015
        black = 5.670374e-8 * ((t + 273.15) ** 4 - 293.15**4)
        return float(math.pi * 0.015 * (h * (t - 20) + black))

    t, steps = 55.0, 400
    for _ in range(steps):
        t -= lost(t) * 30 / steps / (3 / 6e4 * 985.7 * 4183)
    _, body = _answer(_leg(30, 3), hot_temperature="55 degC")
    said = body["outputs"]["legs"][0]["arrival_temperature"]["value"]
    assert t - 0.6 < said < t
    verdict = body["findings"]["hot-on-arrival"]["verdict"]
    assert verdict == ("met" if said >= 50 else "not-met")


def test_insulated_runs_are_not_bare() -> None:
    _, body = _answer(_leg(40))
    assert "bare-length-within-guidance" not in body["findings"]
    _, bare = _answer(_leg(12.01, insulated=False))
    assert bare["findings"]["bare-length-within-guidance"]["verdict"] == "not-met"


def test_a_wider_bare_run_never_widens_the_limit() -> None:
    limits = []
    for tube in ("copper-10", "copper-12", "copper-15", "copper-22", "copper-28", "copper-35"):
        _, body = _answer(_leg(1, tube=tube, insulated=False))
        limits.append(body["outputs"]["legs"][0]["bare_limit"]["value"])
    assert limits == pytest.approx([20, 20, 12, 12, 8, 3])


def test_cold_water_pipe_is_refused() -> None:
    status, body = _answer(_leg(tube="pe-25"))
    assert (status, body["code"]) == (422, "tube-for-cold-only")


def test_chart() -> None:
    request = {"inputs": dict(CALCULATION.example), "region": "GB", "date": "2026-11-01"}
    _, body = answer("dead-legs", request, parts=("charts",))
    assert len(body["charts"]["waits"]["data"]["values"]) == 4


def test_no_wait_counts_that_a_tube_cannot_give() -> None:
    """60 l/min through 15 mm would be nearly 7 m/s: short on paper, and never drawn."""
    body = _answer(_leg(length=12, flow=60))[1]
    assert body["findings"]["hot-in-time"]["verdict"] == "advisory"
    assert body["findings"]["flow-can-be-drawn"]["verdict"] == body["verdict"] == "not-met"


def test_water_too_hot_for_pipes_is_dangerous() -> None:
    assert _answer(_leg(), hot_temperature="95 degC")[1]["verdict"] == "dangerous"
