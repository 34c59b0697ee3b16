"""Expansion vessels against independent densities and roots, and their shape."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
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
        "vessel_volume": "12 l",
    }
    inputs.update(changes)
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


@settings(deadline=None, max_examples=40)
@given(st.floats(20, 400), st.floats(45, 100), st.floats(0.5, 1.4), st.floats(0, 0.6))
def test_a_vessel_of_the_size_needed_does_not_lift(
    volume: float, hottest: float, charge: float, above: float
) -> None:
    """The European basis leaves reserve and margin, so its own size keeps the valve shut."""
    status, body = _heating(
        system_volume={"value": volume, "unit": "l"},
        maximum_temperature={"value": hottest, "unit": "degC"},
        charge={"value": charge, "unit": "bar"},
        fill={"value": charge + above / 10, "unit": "bar"},
        vessel_volume=None,
        method="en-12828",
    )
    assert status == 200, body
    assert body["outputs"]["relief_lifts"] is False
    assert body["outputs"]["keeps_water"] is True


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
