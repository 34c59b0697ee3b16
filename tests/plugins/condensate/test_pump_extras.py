"""A neutraliser behind a condensate pump, and relief water, against other libraries."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

POINTS = [(0, 5.0), (100, 4.5), (200, 3.6), (300, 2.2), (380, 0.5)]


def _ask(**changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "inflow": "2.4 l/h",
        "static_lift": "2 m",
        "tube_bore": "6 mm",
        "tube_length": "8 m",
        "hottest_temperature": "20 degC",
        "coldest_temperature": "20 degC",
        "pump_temperature_limit": "60 degC",
        "pump_curve": [{"flow": f"{V} l/h", "head": f"{H} m"} for V, H in POINTS],
        "switching_volume": "0.6 l",
        "non_return_valve": True,
        "alarm_interlock": True,
        **changes,
    }
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    return answer("condensate-pump-head", request, parts=("findings",))


def _bed(length: float, diameter: float, grain: float, voids: float) -> dict[str, Any]:
    return {
        "bed_length": {"value": length, "unit": "mm"},
        "bed_diameter": {"value": diameter, "unit": "mm"},
        "grain_size": {"value": grain, "unit": "mm"},
        "void_fraction": voids,
    }


@settings(deadline=None, max_examples=40)
@given(st.floats(50, 1000), st.floats(20, 100), st.floats(0.5, 10), st.floats(0.25, 0.6))
def test_bed_against_another_library(
    length: float, diameter: float, grain: float, voids: float
) -> None:
    """At the flow of the answer the bed loses what another library says."""
    from fluids.packed_bed import Ergun
    from iapws import IAPWS97

    status, body = _ask(neutraliser=_bed(length, diameter, grain, voids))
    if status != 200:
        assert body["code"] == "pump-overwhelmed"
        return
    water = IAPWS97(T=293.15, P=0.101325)
    V = body["outputs"]["duty_flow"]["value"] / 3.6e6
    w = V / (math.pi * (diameter / 1e3) ** 2 / 4)
    drop = Ergun(dp=grain / 1e3, voidage=voids, vs=w, rho=water.rho, mu=water.mu, L=length / 1e3)
    head = body["outputs"]["neutraliser"]["head"]["value"]
    assert head == pytest.approx(drop / water.rho / 9.80665, rel=0.01)
    assert body["outputs"]["friction_head"]["value"] >= head


def test_a_bed_never_helps() -> None:
    _, plain = _ask()
    _, with_bed = _ask(neutraliser=_bed(500, 40, 1, 0.4))
    before, after = (x["outputs"]["judged_flow"]["value"] for x in (plain, with_bed))
    assert after < before
    assert plain["outputs"]["neutraliser"] is None


@pytest.mark.parametrize("bar", [1, 2, 3, 4.5, 6, 10])
def test_flash_against_another_formulation(bar: float) -> None:
    from iapws import IAPWS97

    hot = IAPWS97(P=(bar * 1e5 + 101325) / 1e6, x=0).h
    cold, vapour = IAPWS97(P=0.101325, x=0).h, IAPWS97(P=0.101325, x=1).h
    relief = {"heat_input": "30 kW net", "set_pressure": f"{bar} bar"}
    _, body = _ask(relief=relief)
    got = body["outputs"]["relief"]["flash_share"]
    assert got == pytest.approx((hot - cold) / (vapour - cold), rel=0.003)


@pytest.mark.parametrize("celsius", [20, 40, 60, 80])
def test_expansion_water_against_another_formulation(celsius: float) -> None:
    from iapws import IAPWS97

    water = IAPWS97(T=celsius + 273.15, P=0.25)
    relief = {
        "heat_input": "24 kW net",
        "set_pressure": "3 bar",
        "water_temperature": f"{celsius} degC",
    }
    _, body = _ask(relief=relief)
    expected = 24 * water.alfav / (water.rho * water.cp) * 3.6e6
    got = body["outputs"]["relief"]["expansion_flow"]["value"]
    assert got == pytest.approx(expected, rel=0.003)


@settings(deadline=None, max_examples=30)
@given(st.floats(1, 100), st.floats(1, 10), st.floats(10, 95), st.floats(60, 160))
def test_no_relief_is_ever_blessed(kW: float, bar: float, celsius: float, limit: float) -> None:
    """Whatever the numbers: a relief valve in the pump stays dangerous."""
    status, body = _ask(
        pump_temperature_limit={"value": limit, "unit": "degC"},
        relief={
            "heat_input": {"value": kW, "unit": "kW", "basis": "net"},
            "set_pressure": {"value": bar, "unit": "bar"},
            "water_temperature": {"value": celsius, "unit": "degC"},
        },
    )
    assert status == 200
    assert body["verdict"] == "dangerous"
    for code in ("expansion-water-within-pump", "expansion-water-cool-enough"):
        assert body["findings"][code]["verdict"] in {"advisory", "dangerous"}
