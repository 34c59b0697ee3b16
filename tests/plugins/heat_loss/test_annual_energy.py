"""The heat of a year against sums of its own, and a meter read backwards and forwards."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer
from tundish_plugins.heat_loss.annual_energy.formulas import degree_days_at

PLAIN: dict[str, Any] = {"coefficient": "250 W/K", "place": "standard", "efficiency": 0.9}


def _q(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _ask(**changes: Any) -> dict[str, Any]:
    inputs = {key: value for key, value in {**PLAIN, **changes}.items() if value is not None}
    status, body = answer("annual-energy", {"inputs": inputs, "region": "GB", "date": "2026-11-01"})
    assert status == 200, body
    return body


def _number(body: dict[str, Any], *path: str) -> float:
    found: Any = body["outputs"]
    for name in path:
        found = found[name]
    return float(found["value"] if isinstance(found, dict) else found)


@pytest.mark.parametrize("base", [11.0, 12.5, 14.0, 16.0, 17.5])
def test_base_change_against_a_climate_of_sine_and_scatter(base: float) -> None:
    """Degree days of an invented climate near the standard year lie within two per cent.

    Sine of 6 K about 10 °C, daily scatter of 3 K; its values at the three bases are not the
    table's, so only the ratio to a polynomial through its own three values is compared.
    """

    def below(b: float) -> float:
        total = 0.0
        for day in range(365):
            mean = 10.0 - 6.0 * math.cos(2 * math.pi * day / 365)
            z = (b - mean) / 3.0
            total += 3.0 * (
                z * 0.5 * (1 + math.erf(z / math.sqrt(2)))
                + math.exp(-z * z / 2) / math.sqrt(2 * math.pi)
            )
        return total

    own = degree_days_at(base, 10.0, 15.5, 18.5, below(10.0), below(15.5), below(18.5))
    assert own == pytest.approx(below(base), rel=0.02)


@settings(max_examples=25, deadline=None)
@given(base=st.floats(10.0, 18.5))
def test_months_sum_to_the_year(base: float) -> None:
    body = _ask(base_temperature=_q(base, "degC"))
    months = body["outputs"]["months"]
    for name in ("degree_days", "heat", "fuel"):
        total = math.fsum(month[name]["value"] for month in months)
        assert total == pytest.approx(_number(body, name), rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(
    H=st.floats(50, 800),
    D=st.floats(500, 5000),
    g=st.floats(0, 0.5),
    eta=st.floats(0.5, 0.95),
    hot=st.floats(0, 4000),
)
def test_the_meter_gives_the_house_back(
    H: float, D: float, g: float, eta: float, hot: float
) -> None:
    """Gas worked out for a house, read backwards, is the house."""
    gas = 24 * H * D * (1 - g) / 1000 / eta + hot
    body = _ask(
        coefficient=_q(H, "W/K"),
        place=None,
        degree_days=_q(D, "K.d"),
        base_temperature="15.5 degC",
        gains_share=g,
        efficiency=eta,
        metered={
            "gas": _q(gas, "kWh"),
            "hot_water_gas": _q(hot, "kWh"),
            "degree_days": _q(D, "K.d"),
            "efficiency_spread": 0.05,
            "hot_water_spread": 0.1,
        },
    )
    assert _number(body, "metered", "coefficient") == pytest.approx(H, rel=1e-9)
    assert _number(body, "metered", "ratio") == pytest.approx(1, rel=1e-9)
    assert body["outputs"]["metered"]["credible"] is True
    low = _number(body, "metered", "coefficient_least")
    assert low < H < _number(body, "metered", "coefficient_most")


def test_compensation_never_raises_the_return() -> None:
    """A longer season has a lower mean load, and a lower return, above the room."""
    before = 45.0
    for season in (180, 210, 240, 300, 365):
        body = _ask(
            efficiency=None,
            design_difference="23 K",
            boiler={
                "return_temperature": "45 degC",
                "flue_approach": "5 K",
                "other_loss": 0.02,
                "compensation": {
                    "flow_temperature": "55 degC",
                    "room_temperature": "20 degC",
                    "exponent": 1.3,
                    "season": _q(season, "d"),
                },
            },
        )
        now = _number(body, "boiler", "return_mean")
        assert 20 < now < before
        before = now
