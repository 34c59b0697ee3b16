"""A ground floor against integrals of its own, and against the U-value that shares its slab."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from tundish.answering import answer


def _q(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _ask(calculation: str = "ground-floor-u-value", **inputs: Any) -> dict[str, Any]:
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    status, body = answer(calculation, request)
    assert status == 200, body
    return body


def _slab(area: float, perimeter: float, resistance: float) -> dict[str, Any]:
    return {
        "area": _q(area, "m2"),
        "perimeter": _q(perimeter, "m"),
        "ground": "clay",
        "floor_resistance": _q(resistance, "m2.K/W"),
    }


def _edge(position: str, extent: float, thickness: float) -> dict[str, Any]:
    return {
        "position": position,
        "extent": _q(extent, "m"),
        "thickness": _q(thickness, "mm"),
        "conductivity": "0.035 W/(m.K)",
    }


@settings(max_examples=40, deadline=None)
@given(
    extent=st.floats(0.1, 2.0),
    thickness=st.floats(20, 200),
    resistance=st.floats(0, 3),
    position=st.sampled_from(["horizontal", "vertical"]),
)
def test_edge_is_an_integral_over_its_reach(
    extent: float, thickness: float, resistance: float, position: str
) -> None:
    body = _ask(slab=_slab(100, 40, resistance), edge=_edge(position, extent, thickness))["outputs"]
    lam, d_t = 1.5, 0.3 + 1.5 * (0.21 + resistance)
    d_e = thickness / 1000 * (lam / 0.035 - 1)
    reach = extent * (2 if position == "vertical" else 1)
    taken = quad(lambda x: lam / math.pi * (1 / (x + d_t) - 1 / (x + d_t + d_e)), 0, reach)[0]
    assert body["edge"]["transmittance"]["value"] == pytest.approx(-taken, rel=1e-8)
    assert body["edge"]["saving"]["value"] == pytest.approx(40 * taken, rel=1e-6)
    assert 0 < body["u_value"]["value"] < body["plain_u_value"]["value"]


@settings(max_examples=40, deadline=None)
@given(area=st.floats(5, 2000), aspect=st.floats(1, 8), resistance=st.floats(0, 8))
def test_the_best_edge_leaves_a_loss(area: float, aspect: float, resistance: float) -> None:
    """As far as an edge may go and however good it is, the floor still loses heat."""
    width = math.sqrt(area / aspect)
    perimeter = 2 * (width + area / width)
    half = area / perimeter
    extent = min(5.0, half * (1 - 1e-9))
    slab = {**_slab(area, perimeter, resistance), "wall_thickness": "0 mm"}
    best = {**_edge("vertical", extent, 500), "conductivity": "0.005 W/(m.K)"}
    assert _ask(slab=slab, edge=best)["outputs"]["u_value"]["value"] > 0


@settings(max_examples=30, deadline=None)
@given(area=st.floats(20, 500), resistance=st.floats(0, 8))
def test_one_slab_in_two_calculations(area: float, resistance: float) -> None:
    slab = _slab(area, 4 * math.sqrt(area), resistance)
    here, there = _ask(slab=slab)["outputs"], _ask("u-value", slab=slab)["outputs"]
    assert here["u_value"] == there["u_value"]
    assert here["loss"]["value"] == pytest.approx(area * there["u_value"]["value"], rel=1e-9)
