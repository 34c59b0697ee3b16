"""Care of heating water: mixing gives the limit back, columns of the tables, pint for flushing."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

UNITS: Any = pint.UnitRegistry()


def _body(method: str = "vdi-2035", **changes: Any) -> dict[str, Any]:
    inputs: dict[str, Any] = {
        "content": "120 l",
        "smallest_output": "24 kW",
        "mains_hardness": "10 degdH",
        "dose_rate": 0.01,
        "container": "1 l",
        "heats_drinking_water": False,
        "cleaned": True,
        "filter_fitted": True,
    }
    request = {"inputs": inputs | changes, "method": method, "region": "GB", "date": "2026-11-01"}
    status, body = answer("water-treatment", request)
    assert status == 200, body
    return body


@settings(max_examples=25, deadline=None)
@given(hardness=st.floats(0.5, 50), treated=st.floats(0, 0.1), content=st.floats(50, 3000))
def test_mixture_keeps_the_limit(hardness: float, treated: float, content: float) -> None:
    found = _body(
        content={"value": content, "unit": "l"},
        mains_hardness={"value": hardness, "unit": "degdH"},
        treated_hardness={"value": treated, "unit": "degdH"},
    )["outputs"]
    share = found["demineralised_share"]
    limit = found["hardness_limit"]["value"] / 100.0869 * 5.6
    mixed = share * treated + (1 - share) * hardness
    assert 0 <= share <= 1
    assert mixed == pytest.approx(min(limit, hardness), rel=1e-9)


@pytest.mark.parametrize(
    ("method", "litres", "degrees"),
    [
        ("vdi-2035", 480, 16.8),
        ("vdi-2035", 480.01, 11.2),
        ("vdi-2035", 1199.9, 11.2),
        ("vdi-2035", 1200, 0.11),
        ("oenorm-h-5195-1", 479.9, 11.2),
        ("oenorm-h-5195-1", 480, 5.6),
        ("oenorm-h-5195-1", 1200, 0.6),
    ],
)
def test_columns_part_at_20_and_50_litres_a_kilowatt(
    method: str, litres: float, degrees: float
) -> None:
    found = _body(method=method, content={"value": litres, "unit": "l"})["outputs"]
    assert found["hardness_limit"]["value"] / 100.0869 * 5.6 == pytest.approx(degrees, rel=1e-9)


def test_flushing_against_pint() -> None:
    legs = [{"name": "leg", "bore": "13.6 mm", "flow": "7 l/min"}]
    leg = _body(legs=legs, flush_velocity="0.9 m/s")["outputs"]["legs"][0]
    area = math.pi / 4 * (13.6 * UNITS.mm) ** 2
    velocity = (7 * UNITS.liter / UNITS.minute / area).to("m/s").magnitude
    assert leg["velocity"]["value"] == pytest.approx(velocity, rel=1e-12)
    needed = (0.9 * UNITS.m / UNITS.s * area).to("liter/minute").magnitude
    assert leg["flow_needed"]["value"] == pytest.approx(needed, rel=1e-12)
