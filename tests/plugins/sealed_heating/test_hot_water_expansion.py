"""Hot water expansion: the order of pressures, air in the top of the store, pressure before heating."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.sealed_heating.hot_water_expansion import CALCULATION

ATMOSPHERE = 1.01325


def _ask(method: str | None = None, **changes: Any) -> tuple[int, dict[str, Any]]:
    """Return the answer to the example with members changed; None takes one out."""
    inputs = {k: v for k, v in {**CALCULATION.example, **changes}.items() if v is not None}
    request: dict[str, Any] = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    if method is not None:
        request["method"] = method
    return answer("hot-water-expansion", request)


def _body(method: str | None = None, **changes: Any) -> dict[str, Any]:
    status, body = _ask(method, **changes)
    assert status == 200, body
    return body


def _gap(litres: float | None = None, *, renewed: bool = True) -> dict[str, Any]:
    gap: dict[str, Any] = {"renewed": renewed}
    if litres is not None:
        gap["volume"] = {"value": litres, "unit": "l"}
    return {"air_gap": gap, "vessel_volume": None}


def _density(celsius: float) -> float:
    from CoolProp.CoolProp import PropsSI

    found: float = PropsSI("D", "T", celsius + 273.15, "P", 2.5e5, "Water")
    return found


@settings(deadline=None, max_examples=60)
@given(st.floats(3.5, 9), st.floats(3.5, 9))
def test_the_expansion_valve_is_first_only_when_it_is_lower(
    expansion: float, relief: float
) -> None:
    body = _body(
        expansion_valve={"value": expansion, "unit": "bar"},
        relief_valve={"value": relief, "unit": "bar"},
        vessel_volume={"value": 400, "unit": "l"},
        store_rating="15 bar",
    )
    found = body["findings"]["expansion-valve-first"]["verdict"]
    assert found == ("advisory" if expansion < relief * (1 - 1e-9) else "not-met")


@pytest.mark.parametrize(
    "relief", ["6 bar", "6.000000000000001 bar", "600 kPa", "0.6 MPa", "87.02264257 psi"]
)
def test_equal_settings_are_no_order_in_any_unit(relief: str) -> None:
    assert _body(relief_valve=relief)["findings"]["expansion-valve-first"]["verdict"] == "not-met"


@settings(deadline=None, max_examples=40)
@given(st.floats(60, 400), st.floats(1, 4.5), st.floats(40, 95))
def test_air_of_the_size_needed_reaches_just_the_pressure_it_was_sized_for(
    volume: float, supply: float, hottest: float
) -> None:
    """Boyle's law both ways, on either basis of the expansion."""
    for method in ("four-per-cent", "water-densities"):
        store = {
            "store_volume": {"value": volume, "unit": "l"},
            "supply_pressure": {"value": supply, "unit": "bar"},
            "hot_temperature": {"value": hottest, "unit": "degC"},
        }
        asked = _body(method, **store, **_gap())["outputs"]
        assert asked["hot_pressure"] is None  # no air given, none judged
        outputs = _body(method, **store, **_gap(asked["size_needed"]["value"]))["outputs"]
        assert outputs["hot_pressure"]["value"] == pytest.approx(5.4, rel=1e-9)
        assert outputs["valve_lifts"] is False
        assert outputs["vessel_charge"] is None


def test_air_and_a_vessel_charged_to_the_supply_do_the_same() -> None:
    air = _body("water-densities", **_gap(18))["outputs"]
    vessel = _body("water-densities", vessel_volume="18 l")["outputs"]
    for name in ("hot_pressure", "size_needed", "acceptance", "water_lost"):
        assert air[name] == vessel[name]


@pytest.mark.parametrize(("litres", "store"), [(18.0, 200.0), (9.0, 120.0), (30.0, 250.0)])
def test_half_the_air_against_another_library(litres: float, store: float) -> None:
    """Half the air dissolved is half the volume at the same pressure, not half the pressure."""
    body = _body("water-densities", store_volume=f"{store} l", **_gap(litres))
    grown = store * (_density(10) / _density(65) - 1)
    expected = (3 + ATMOSPHERE) * litres / 2 / (litres / 2 - grown) - ATMOSPHERE
    curve = body["outputs"]["curve"]["half_charge"]["values"]
    assert curve[0] == pytest.approx(3.0)
    assert curve[-1] == pytest.approx(min(expected, 6.0), rel=6e-3)


def test_the_column_and_the_rise_come_before_heating() -> None:
    plain = _body()["outputs"]
    raised = _body(static_rise="0.4 bar", reducing_valve_height="5 m", vessel_volume="60 l")
    column = _density(10) * 9.80665 * 5 / 1e5
    outputs = raised["outputs"]
    assert plain["static_pressure"]["value"] == pytest.approx(3.0, rel=1e-12)
    assert outputs["static_pressure"]["value"] == pytest.approx(3.4 + column, rel=1e-5)
    assert outputs["vessel_charge"] == outputs["static_pressure"]
    assert outputs["curve"]["pressure"]["values"][0] == pytest.approx(3.4 + column, rel=1e-5)
    eta = 1 - (3.4 + column + ATMOSPHERE) / (5.4 + ATMOSPHERE)
    assert outputs["size_needed"]["value"] == pytest.approx(8 / eta, rel=1e-4)


def test_a_rise_that_reaches_the_expansion_valve_is_refused() -> None:
    status, body = _ask(static_rise="2.39 bar")
    assert status == 200, body
    status, body = _ask(static_rise="2.4 bar")
    assert (status, body["code"]) == (422, "no-room-below-expansion-valve")
    status, body = _ask(static_rise="3 bar")
    assert (status, body["code"]) == (422, "expansion-valve-not-above-supply")
    assert "6 bar" in body["title"] + body.get("detail", "")


@pytest.mark.parametrize("name", ["vessel_volume", "vessel_charge", "vessel_rating"])
def test_nothing_of_a_vessel_stands_beside_an_air_gap(name: str) -> None:
    value = "24 l" if name == "vessel_volume" else "3 bar"
    status, body = _ask(**{**_gap(20), name: value})
    assert (status, body["code"]) == (422, "vessel-beside-air-gap")
    assert body["pointer"] == f"/inputs/{name}"


def test_a_vessel_weaker_than_the_relief_valve_is_dangerous_in_every_part() -> None:
    inputs = {**CALCULATION.example, "vessel_rating": "6.99 bar"}
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    for parts in ((), ("working",), ("charts", "sources")):
        _, body = answer("hot-water-expansion", request, parts=parts)
        assert body["verdict"] == "dangerous"
