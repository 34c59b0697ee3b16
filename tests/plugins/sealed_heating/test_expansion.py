"""Expansion vessels against independent densities and roots, and their shape."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tundish.answering import answer

ATMOSPHERE = 1.01325


def _heating(method: str | None = None, **changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "system_volume": "120 l",
        "fill_temperature": "10 degC",
        "maximum_temperature": "80 degC",
        "height": "5 m",
        "charge": "1 bar",
        "fill": "1.2 bar",
        "relief_setting": "3 bar",
        "component_rating": "3 bar",
        "vessel_volume": "12 l",
    }
    inputs.update(changes)
    inputs = {name: value for name, value in inputs.items() if value is not None}
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    if method is not None:
        request["method"] = method
    return answer("heating-expansion", request, parts=())


def _density(celsius: float) -> float:
    from CoolProp.CoolProp import PropsSI

    found: float = PropsSI("D", "T", celsius + 273.15, "P", 2.5e5, "Water")
    return found


@pytest.mark.parametrize("celsius", [40, 55, 70, 90, 105])
def test_hot_pressure_against_independent_density(celsius: float) -> None:
    status, body = _heating(maximum_temperature=f"{celsius} degC", vessel_volume="25 l")
    assert status == 200, body
    e = _density(10) / _density(celsius) - 1
    gas = 25 * (1 + ATMOSPHERE) / (1.2 + ATMOSPHERE)
    expected = (1 + ATMOSPHERE) * 25 / (gas - 120 * e) - ATMOSPHERE
    assert body["outputs"]["hot_pressure"]["value"] == pytest.approx(expected, abs=0.002)


def test_lift_temperature_against_independent_root() -> None:
    from scipy.optimize import brentq

    status, body = _heating(vessel_volume="9 l", system_volume="150 l")
    assert status == 200
    gas = 9 * (1 + ATMOSPHERE) / (1.2 + ATMOSPHERE)

    def gap(celsius: float) -> float:
        taken = 150 * (_density(10) / _density(celsius) - 1)
        return (1 + ATMOSPHERE) * 9 / (gas - taken) - ATMOSPHERE - 3.0

    expected = brentq(gap, 20, 80)
    assert body["outputs"]["safe_temperature"]["value"] == pytest.approx(expected, abs=0.05)
    assert body["outputs"]["relief_lifts"] is True


@pytest.mark.parametrize("share", [0.15, 0.3, 0.5])
@pytest.mark.parametrize(
    ("fluid", "library", "tolerance"),
    [("propylene-glycol", "MPG", 2e-4), ("ethylene-glycol", "MEG", 4e-4)],
)
def test_glycol_against_another_library(
    fluid: str, library: str, tolerance: float, share: float
) -> None:
    from CoolProp.CoolProp import PropsSI

    status, body = _heating(fluid=fluid, glycol_mass_share=share, vessel_volume=None)
    assert status == 200, body

    def density(celsius: float) -> float:
        found: float = PropsSI(
            "D", "T", celsius + 273.15, "P", 2.5e5, f"INCOMP::{library}[{share}]"
        )
        return found

    expected = density(10) / density(80) - 1
    assert body["outputs"]["expansion_fraction"] == pytest.approx(expected, abs=tolerance)


METHODS = ("en-12828", "bs-7074", "ashrae")
FINAL = {"en-12828": 2.5, "bs-7074": 2.65, "ashrae": 2.7}
"""Final pressure, where a valve of 3 bar sits: half a bar below, 0.35 below, nine tenths."""


def _bar(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "bar"}


@pytest.mark.parametrize("method", METHODS)
@settings(deadline=None, max_examples=60)
@given(
    st.floats(20, 400),
    st.floats(45, 110),
    st.floats(1, 30),
    st.floats(0.1, 1.6),
    st.floats(0, 1),
    st.floats(-8, 5),
    st.floats(0.8, 1.05),
)
def test_a_vessel_of_the_size_needed_does_not_lift(
    method: str,
    volume: float,
    hottest: float,
    cold: float,
    charge: float,
    above: float,
    valve: float,
    air: float,
) -> None:
    """Whatever basis was asked for: by Boyle's law with other densities, the valve stays shut.

    The fill lies anywhere between the charge and the final pressure.
    """
    changes = {
        "system_volume": {"value": volume, "unit": "l"},
        "maximum_temperature": {"value": hottest, "unit": "degC"},
        "fill_temperature": {"value": cold, "unit": "degC"},
        "charge": _bar(charge),
        "fill": _bar(charge),
        "relief_height": {"value": valve, "unit": "m"},
        "atmospheric_pressure": _bar(air),
        "vessel_volume": None,
    }
    status, body = _heating(method, **changes)
    assume(status == 200)
    if method != "ashrae":
        fill = charge + above * 0.98 * (body["outputs"]["final_pressure"]["value"] - charge)
        changes["fill"] = _bar(fill)
        status, body = _heating(method, **changes)
        assert status == 200, body
    size = body["outputs"]["size_needed"]["value"]
    final = body["outputs"]["final_pressure"]["value"]
    assume(size <= 2000)
    fill = changes["fill"]["value"]
    grown = volume * (_density(cold) / _density(hottest) - 1)
    p_0 = charge + air
    hot = p_0 * size / (size * p_0 / (fill + air) - grown) - air
    room = (final - fill) * 2e-3 + 1e-3  # what two formulations of density may differ by
    assert hot <= final + room
    at_valve = final - _density(cold) * 9.80665 * valve / 1e5
    assert at_valve == pytest.approx(FINAL[method], abs=1e-3)

    judged, body = _heating(method, **changes | {"vessel_volume": {"value": size, "unit": "l"}})
    assume(judged == 200)
    assert body["outputs"]["relief_lifts"] is False
    assert body["outputs"]["keeps_water"] is True
    for code in ("vessel-large-enough", "hot-pressure-within-final"):
        assert body["findings"][code]["verdict"] in {"met", "advisory"}
    assert body["findings"]["relief-stays-shut"]["verdict"] == "met"


@pytest.mark.parametrize(
    ("method", "charge", "fill", "lifting"),
    [("ashrae", 1.0, 1.0, 7.0), ("en-12828", 0.5, 2.0, 14.0), ("en-12828", 0.5, 2.0, 9.4)],
)
def test_a_size_that_lifts_the_valve_is_never_enough(
    method: str, charge: float, fill: float, lifting: float
) -> None:
    _, body = _heating(
        method, charge=_bar(charge), fill=_bar(fill), vessel_volume={"value": lifting, "unit": "l"}
    )
    grown = 120 * (_density(10) / _density(80) - 1)
    p_0 = charge + ATMOSPHERE
    hot = p_0 * lifting / (lifting * p_0 / (fill + ATMOSPHERE) - grown) - ATMOSPHERE
    assert hot > body["outputs"]["final_pressure"]["value"]
    assert body["findings"]["vessel-large-enough"]["verdict"] == "not-met"
    assert body["findings"]["hot-pressure-within-final"]["verdict"] == "not-met"


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("celsius", [60, 85, 99, 100, 104, 110])
def test_defaults_keep_the_top_from_boiling(method: str, celsius: float) -> None:
    """By another library: left to itself, the fill stands above boiling at every limit."""
    from CoolProp.CoolProp import PropsSI

    status, body = _heating(
        method,
        maximum_temperature=f"{celsius} degC",
        fill_temperature="15 degC",
        charge=None,
        fill=None,
        vessel_volume=None,
    )
    if method == "bs-7074" and celsius == 110:
        assert body["code"] == "table-expansion-exceeded"
        return
    assert status == 200, body
    top = body["outputs"]["fill"]["value"] - _density(15) * 9.80665 * 5 / 1e5
    boils = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water") / 1e5 - ATMOSPHERE
    assert body["outputs"]["top_pressure_cold"]["value"] == pytest.approx(top, abs=1e-3)
    assert top >= boils + 0.19
    assert body["findings"]["top-above-boiling"]["verdict"] == "met"


@settings(deadline=None, max_examples=60)
@given(st.floats(60, 110), st.floats(0, 12), st.floats(0.1, 1.6), st.floats(0.7, 1.05))
def test_a_top_that_could_boil_is_dangerous(
    celsius: float, height: float, charge: float, air: float
) -> None:
    from CoolProp.CoolProp import PropsSI

    status, body = _heating(
        maximum_temperature={"value": celsius, "unit": "degC"},
        height={"value": height, "unit": "m"},
        charge=_bar(charge),
        fill=_bar(charge),
        atmospheric_pressure=_bar(air),
        vessel_volume="2000 l",
    )
    assume(status == 200)
    top = charge + air - _density(10) * 9.80665 * height / 1e5
    boils = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water") / 1e5
    if top < boils + 0.19:
        assert body["verdict"] == "dangerous"
    elif top > boils + 0.21:
        assert body["findings"]["top-above-boiling"]["verdict"] == "met"


def test_without_a_vessel_none_is_judged() -> None:
    """A size to buy is no vessel: nothing is said about what it does, and nothing is met by it."""
    status, body = _heating("bs-7074", vessel_volume=None)
    assert status == 200
    assert body["verdict"] == "advisory"
    assert not {"vessel-large-enough", "relief-stays-shut"} & body["findings"].keys()
    for name in ("hot_pressure", "water_lost", "relief_lifts", "gauge_hot", "curve"):
        assert body["outputs"][name] is None


def test_a_valve_that_no_part_stands_is_dangerous() -> None:
    _, body = _heating(relief_setting="10 bar", component_rating="6 bar")
    assert body["verdict"] == "dangerous"
    assert body["findings"]["relief-valve-within-rating"]["verdict"] == "dangerous"
    assert body["findings"]["relief-setting-customary"]["verdict"] == "not-met"


def test_the_gauge_never_reads_beyond_the_relief_setting() -> None:
    _, body = _heating(vessel_charge="0.1 bar", maximum_temperature="75 degC")
    curve = body["outputs"]["curve"]
    for name in ("gauge", "half_charge", "no_charge"):
        readings = curve[name]["values"]
        assert readings == sorted(readings)
        assert readings[-1] <= 3.0 + 1e-9


def test_gauge_pressure_in_boyles_law_would_be_seen() -> None:
    """18 litre at 1.5 bar squeezed to 9: 4.01 bar, not the 3.0 that gauge pressures give."""
    inputs = {
        "store_volume": "225 l",
        "hot_temperature": "65 degC",
        "supply_pressure": "1.5 bar",
        "expansion_valve": "6 bar",
        "relief_valve": "7 bar",
        "store_rating": "7 bar",
        "vessel_volume": "18 l",
    }
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    _, body = answer("hot-water-expansion", request, parts=())
    assert body["outputs"]["hot_pressure"]["value"] == pytest.approx(4.013, abs=0.001)


def test_a_relief_valve_above_the_rating_is_dangerous_in_every_part() -> None:
    """A dangerous finding cannot be filtered out."""
    inputs = {
        "store_volume": "200 l",
        "hot_temperature": "65 degC",
        "supply_pressure": "3 bar",
        "expansion_valve": "6 bar",
        "relief_valve": "10 bar",
        "store_rating": "7 bar",
    }
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    for parts in ((), ("working",), ("charts", "sources")):
        _, body = answer("hot-water-expansion", request, parts=parts)
        assert body["verdict"] == "dangerous"
        assert body["findings"]["relief-valve-within-rating"]["verdict"] == "dangerous"
