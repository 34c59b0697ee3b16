"""Pressures in a sealed system: against a plain reckoning, and their shape."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer
from tundish.physics import water

G = 9.80665
COLD, HOT = 283.15, 353.15


def _column(kelvin: float, height: float) -> float:
    return water.density(kelvin) * G * height / 1e5


def _ask(**inputs: Any) -> dict[str, Any]:
    given_: dict[str, Any] = {"maximum_temperature": "80 degC", **inputs}
    status, body = answer("fill-pressure", {"inputs": given_, "region": "GB", "date": "2026-11-01"})
    return {"answered": status == 200, **body}


def _level(name: str, height: float, **more: Any) -> dict[str, Any]:
    return {"name": name, "height": {"value": height, "unit": "m"}, **more}


def _bar(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "bar"}


HEIGHTS = st.lists(st.floats(-8, 12), min_size=1, max_size=5)
SHARE = st.floats(0, 1)


@settings(max_examples=60, deadline=None)
@given(
    heights=HEIGHTS,
    positions=st.lists(st.none() | SHARE, min_size=5, max_size=5),
    vessel=SHARE,
    head=st.floats(0, 8),
)
def test_what_is_needed_is_enough_everywhere(
    heights: list[float], positions: list[float | None], vessel: float, head: float
) -> None:
    """Left to itself the fill keeps every level above air and boiling, and not by much more."""
    levels = [
        _level(f"level {k}", h) | ({} if x is None else {"position": x})
        for k, (h, x) in enumerate(zip(heights, positions, strict=False))
    ]
    found = _ask(
        levels=levels,
        vessel_position=vessel,
        pump_head={"value": head, "unit": "m"},
        relief_setting="10 bar",
    )
    assert found["answered"], found
    lowest = [level["lowest"]["value"] for level in found["outputs"]["levels"]]
    assert min(lowest) >= 0.2 - 1e-9
    top = max(0.0, *(_column(COLD, h) for h in heights))
    fill = found["outputs"]["fill"]["value"]
    assert fill >= top + 0.4 - 1e-9
    assert min(lowest) == pytest.approx(0.2) or fill == pytest.approx(top + 0.4)
    for code in ("fill-customary", "charge-holds-static", "charge-below-fill"):
        assert found["findings"][code]["verdict"] == "met"


@settings(max_examples=60, deadline=None)
@given(heights=HEIGHTS, x=SHARE, vessel=SHARE, head=st.floats(0, 8), valve=SHARE)
def test_levels_against_a_plain_reckoning(
    heights: list[float], x: float, vessel: float, head: float, valve: float
) -> None:
    found = _ask(
        levels=[_level(f"level {k}", h, position=x) for k, h in enumerate(heights)],
        vessel_position=vessel,
        pump_head={"value": head, "unit": "m"},
        fill=_bar(2.0),
        charge=_bar(1.5),
        hot_pressure=_bar(2.6),
        relief_position=valve,
        relief_height="1 m",
    )
    assert found["answered"], found
    for h, level in zip(heights, found["outputs"]["levels"], strict=True):
        got = {key: item["value"] for key, item in level.items() if isinstance(item, dict)}
        pump, pump_hot = _column(COLD, head), _column(HOT, head)
        assert got["cold"] == pytest.approx(2 - _column(COLD, h), abs=1e-9)
        assert got["cold_pump"] == pytest.approx(got["cold"] + (vessel - x) * pump, abs=1e-9)
        assert got["hot"] == pytest.approx(2.6 - _column(HOT, h), abs=1e-9)
        assert got["hot_pump"] == pytest.approx(got["hot"] + (vessel - x) * pump_hot, abs=1e-9)
        lift = 3 + max(_column(COLD, 1 - h), _column(HOT, 1 - h)) + max(0, (valve - x) * pump)
        assert got["at_lift"] == pytest.approx(lift, abs=1e-9)
        still = 2 - max(_column(COLD, h), _column(HOT, h))
        assert got["lowest"] == pytest.approx(still + min(0, (vessel - x) * pump), abs=1e-9)


def test_an_unknown_position_is_never_better_than_a_known_one() -> None:
    common: dict[str, Any] = {
        "pump_head": "6 m",
        "vessel_position": 0.6,
        "fill": "1.5 bar",
        "charge": "1 bar",
        "hot_pressure": "2 bar",
    }
    (unknown,) = _ask(levels=[_level("a", 4)], **common)["outputs"]["levels"]
    unknown_valve = _ask(levels=[_level("a", 4)], **common)["outputs"]["hot_at_relief"]["value"]
    for x in (0, 0.3, 0.6, 1):
        (known,) = _ask(levels=[_level("a", 4, position=x)], relief_position=x, **common)[
            "outputs"
        ]["levels"]
        assert unknown["lowest"]["value"] <= known["lowest"]["value"] + 1e-12
        assert unknown["at_lift"]["value"] >= known["at_lift"]["value"] - 1e-12
        assert unknown["hot_pump"]["value"] >= known["hot_pump"]["value"] - 1e-12
        valve = _ask(levels=[_level("a", 4)], relief_position=x, **common)
        assert unknown_valve >= valve["outputs"]["hot_at_relief"]["value"] - 1e-12


def test_a_gauge_reading_is_a_fill_at_its_height() -> None:
    by_gauge = _ask(levels=[_level("a", 4)], gauge_reading="1.2 bar", gauge_height="2 m")
    fill = by_gauge["outputs"]["fill"]["value"]
    assert fill == pytest.approx(1.2 + _column(COLD, 2))
    by_fill = _ask(levels=[_level("a", 4)], fill=_bar(fill), gauge_height="2 m")
    assert by_fill["outputs"]["gauge_cold"]["value"] == pytest.approx(1.2)


def test_the_hot_pressure_is_that_of_the_vessel_sizing() -> None:
    common = {"system_volume": "90 l", "vessel_volume": "12 l", "fill": "1.2 bar"}
    here = _ask(levels=[_level("a", 5)], charge="1 bar", **common)["outputs"]
    _, there = answer(
        "heating-expansion",
        {
            "inputs": {
                **common,
                "charge": "1 bar",
                "maximum_temperature": "80 degC",
                "height": "5 m",
                "component_rating": "6 bar",
            },
            "region": "GB",
            "date": "2026-11-01",
        },
    )
    assert here["hot_pressure"]["value"] == pytest.approx(
        there["outputs"]["hot_pressure"]["value"], rel=1e-12
    )
    assert here["least_pressure"] == there["outputs"]["top_pressure_least"]
