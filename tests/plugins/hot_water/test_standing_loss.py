"""Standing loss against an ODE solver and heat-transfer libraries that share no code with it."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.hot_water.standing_loss import CALCULATION


def _answer(**inputs: Any) -> tuple[int, dict[str, Any]]:
    base = {"volume": "200 l"}
    return answer(
        "store-standing-loss", {"inputs": base | inputs, "region": "GB", "date": "2026-11-01"}
    )


def _value(body: dict[str, Any], name: str) -> float:
    found = body["outputs"][name]
    return float(found["value"] if isinstance(found, dict) else found)


@settings(max_examples=15, deadline=None)
@given(
    litres=st.floats(50, 500),
    watts=st.floats(30, 150),
    store=st.floats(50, 85),
    room=st.floats(2, 30),
    hours=st.floats(6, 72),
)
def test_cooling_by_an_ode_solver(
    litres: float, watts: float, store: float, room: float, hours: float
) -> None:
    """The closed form agrees with an integration whose specific heat follows the temperature.

    It takes the specific heat of the hot store throughout. Of ΔT e^-x, x is off by the share by
    which that differs at most, and x e^-x is never above 1/e.
    """
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI
    solve = pytest.importorskip("scipy.integrate").solve_ivp
    mass = litres / 1e3 * props("D", "T", store + 273.15, "P", 2.5e5, "Water")

    def slope(_t: float, y: list[float]) -> list[float]:
        specific = props("C", "T", y[0] + 273.15, "P", 2.5e5, "Water")
        return [-watts / 45 * (y[0] - room) / (mass * specific)]

    expected = solve(slope, (0, hours * 3600), [store], rtol=1e-9, atol=1e-9).y[0][-1]
    status, body = _answer(
        volume={"value": litres, "unit": "l"},
        declared_loss={"value": watts, "unit": "W"},
        store_temperature={"value": store, "unit": "degC"},
        ambient_temperature={"value": room, "unit": "degC"},
        cooling_time={"value": hours, "unit": "h"},
    )
    assert status == 200, body
    hot = props("C", "T", store + 273.15, "P", 2.5e5, "Water")
    span = [room + k / 50 * (store - room) for k in range(51)]
    spread = max(abs(props("C", "T", t + 273.15, "P", 2.5e5, "Water") / hot - 1) for t in span)
    furthest = (store - room) / math.e * spread
    assert _value(body, "end_temperature") == pytest.approx(expected, abs=furthest + 0.02)


@settings(max_examples=20, deadline=None)
@given(
    diameter=st.floats(300, 900),
    thickness=st.floats(10, 200),
    conductivity=st.floats(0.02, 0.06),
    surface=st.floats(4, 15),
)
def test_side_by_a_heat_transfer_library(
    diameter: float, thickness: float, conductivity: float, surface: float
) -> None:
    resistance = pytest.importorskip("ht.conduction").R_cylinder
    outer = (diameter + 2 * thickness) / 1e3
    whole = resistance(diameter / 1e3, outer, conductivity, 1.5) + 1 / (
        surface * math.pi * outer * 1.5
    )
    _, body = _answer(
        volume="50 l",
        insulation={
            "diameter": {"value": diameter, "unit": "mm"},
            "height": "1.5 m",
            "thickness": {"value": thickness, "unit": "mm"},
            "conductivity": {"value": conductivity, "unit": "W/(m.K)"},
            "surface_coefficient": {"value": surface, "unit": "W/(m2.K)"},
        },
    )
    assert _value(body, "side_conductance") == pytest.approx(1 / whole, rel=1e-10)


def test_a_cooling_test_gives_back_the_loss_that_made_it() -> None:
    _, body = _answer(declared_loss="90 W", cooling_time="30 h")
    end = _value(body, "end_temperature")
    _, back = _answer(
        cooling_test={
            "start_temperature": "60 degC",
            "end_temperature": {"value": end, "unit": "degC"},
            "ambient_temperature": "20 degC",
            "duration": "30 h",
        }
    )
    assert _value(back, "test_loss") == pytest.approx(90, rel=1e-9)


def test_watts_and_kilowatt_hours_agree() -> None:
    first, second = _answer(declared_loss="75 W")[1], _answer(declared_daily_loss="1.8 kWh")[1]
    assert _value(first, "loss") == pytest.approx(_value(second, "loss"), rel=1e-12)


def test_classes_get_worse_with_the_loss() -> None:
    order = ["A+", "A", "B", "C", "D", "E", "F", "G"]
    seen = [
        _answer(declared_loss={"value": watts, "unit": "W"})[1]["outputs"]["label_class"]
        for watts in range(20, 200, 5)
    ]
    assert all(item.endswith(", by bounds from memory") for item in seen)
    places = [order.index(item.partition(",")[0]) for item in seen]
    assert places == sorted(places)
    assert set(places) == set(range(8))


def test_the_market_limit_judges_new_stores_only_and_from_its_date() -> None:
    _, new = _answer(declared_loss="120 W")
    assert new["findings"]["within-market-limit"]["verdict"] == "not-met"
    _, old = _answer(declared_loss="120 W", new_store=False)
    assert "within-market-limit" not in old["findings"]
    request = {
        "inputs": {"volume": "200 l", "declared_loss": "120 W"},
        "region": "GB",
        "date": "2017-09-25",
    }
    assert answer("store-standing-loss", request)[1]["outputs"]["market_limit"] is None
    later = answer("store-standing-loss", request | {"date": "2017-09-26"})[1]
    assert later["outputs"]["market_limit"]["value"] == pytest.approx(86.0, abs=0.05)


def test_the_guide_from_memory_is_never_met() -> None:
    _, body = _answer(declared_loss="30 W")
    assert body["findings"]["within-guide"]["verdict"] == "advisory"


def test_a_reckoned_loss_is_no_declared_one() -> None:
    """Insulation alone, without connections, neither passes the market limit nor earns a label."""
    vessel = {
        "diameter": "450 mm",
        "height": "1400 mm",
        "thickness": "100 mm",
        "conductivity": "0.025 W/(m.K)",
    }
    _, body = _answer(insulation=vessel)
    assert body["findings"]["within-market-limit"]["verdict"] == "advisory"
    assert body["outputs"]["label_class"] is None


def test_half_the_insulation_loses_nearly_twice() -> None:
    def lost(mm: int) -> float:
        vessel = {
            "diameter": "450 mm",
            "height": "1400 mm",
            "thickness": f"{mm} mm",
            "conductivity": "0.025 W/(m.K)",
        }
        return _value(_answer(insulation=vessel)[1], "loss")

    assert 1.6 < lost(25) / lost(50) < 2


def test_chart() -> None:
    request = {"inputs": dict(CALCULATION.example), "region": "GB", "date": "2026-11-01"}
    _, body = answer("store-standing-loss", request, parts=("charts",))
    curves = {row["curve"] for row in body["charts"]["cooling"]["data"]["values"]}
    assert curves == {"store", "room", "still of use"}
