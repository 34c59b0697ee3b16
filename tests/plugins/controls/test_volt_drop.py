"""Volt drop and protection: pint as the other route, and limits just met or just missed."""

from __future__ import annotations

from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

UNITS: Any = pint.UnitRegistry()


def _ask(method: str = "tabulated", **changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "loads": [{"name": "load", "power": "2.3 kW"}],
        "use": "other",
        "cable": "fixed",
        "size": "2.5",
        "length": "20 m",
        "upstream_drop": "0 V",
    }
    inputs = {key: value for key, value in (inputs | changes).items() if value is not None}
    request = {"inputs": inputs, "method": method, "region": "GB", "date": "2026-11-01"}
    return answer("cable-volt-drop", request)


def _answered(**changes: Any) -> dict[str, Any]:
    status, body = _ask(**changes)
    assert status == 200, body
    return body


def _verdict(body: dict[str, Any], finding: str) -> str:
    return str(body["findings"][finding]["verdict"])


@settings(max_examples=30, deadline=None)
@given(
    power=st.floats(10, 9000),
    factor=st.floats(0.3, 1),
    length=st.floats(0.5, 60),
    celsius=st.floats(5, 100),
    size=st.sampled_from([("2.5", 7.41), ("4", 4.61), ("16", 1.15)]),
)
def test_drop_against_pint(
    power: float, factor: float, length: float, celsius: float, size: tuple[str, float]
) -> None:
    body = _answered(
        method="conductor-resistance",
        loads=[
            {"name": "a", "power": {"value": power, "unit": "W"}, "power_factor": factor},
            {"name": "b", "power": "0.2 kW", "number": 3},
        ],
        length={"value": length, "unit": "m"},
        size=size[0],
        conductor_temperature={"value": celsius, "unit": "degC"},
    )
    current = (power / factor + 600) * UNITS.W / (230 * UNITS.V)
    loop = 2 * length * UNITS.m * size[1] * UNITS.ohm / UNITS.km * (230 + celsius) / 250
    drop = (current * loop).to("V").magnitude
    assert body["outputs"]["drop"]["value"] == pytest.approx(drop, rel=1e-12)
    heat = (current**2 * loop).to("W").magnitude
    assert body["outputs"]["heat_in_cable"]["value"] == pytest.approx(heat, rel=1e-12)


def test_longest_cable_just_keeps_the_limit() -> None:
    longest = _answered()["outputs"]["longest_length"]["value"]
    at = _answered(length={"value": longest, "unit": "m"})
    assert _verdict(at, "volt-drop") == "met"
    beyond = _answered(length={"value": longest * 1.001, "unit": "m"})
    assert _verdict(beyond, "volt-drop") == "not-met"


@pytest.mark.parametrize(
    ("rating", "capacity", "load", "cable"),
    [
        ("10 A", "10 A", "met", "met"),
        ("9.99 A", "10 A", "dangerous", "met"),
        ("10.01 A", "10 A", "met", "dangerous"),
    ],
)
def test_load_rating_cable(rating: str, capacity: str, load: str, cable: str) -> None:
    body = _answered(breaker=rating, cable_capacity=capacity)
    assert _verdict(body, "load-against-rating") == load
    assert _verdict(body, "rating-against-cable") == cable


def test_smaller_of_fuse_and_breaker_counts() -> None:
    body = _answered(fused_unit="13", breaker="32 A", cable_capacity="20 A")
    assert body["outputs"]["protective_rating"]["value"] == 13
    assert _verdict(body, "rating-against-cable") == "met"


def test_capacity_from_memory_never_passes() -> None:
    body = _answered(breaker="16 A")
    assert _verdict(body, "rating-against-cable") == "advisory"
    assert _verdict(body, "load-against-rating") == "met"
    assert body["verdict"] == "advisory"


def test_several_heaters_on_a_fused_unit_are_counted_together() -> None:
    body = _answered(
        use="immersion-heater",
        loads=[{"name": "heater", "power": "2 kW", "number": 2}],
        fused_unit="13",
        cable_capacity="20 A",
    )
    assert _verdict(body, "heater-on-fused-unit") == "dangerous"


def test_heater_beside_another_load_has_no_exception() -> None:
    body = _answered(
        use="immersion-heater",
        loads=[{"name": "heater", "power": "3 kW"}, {"name": "pump", "power": "60 W"}],
        fused_unit="13",
        cable_capacity="20 A",
    )
    assert _verdict(body, "load-against-rating") == "dangerous"
