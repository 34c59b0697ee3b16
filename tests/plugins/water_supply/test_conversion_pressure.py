"""A house turned to mains pressure: against other libraries, and both sides of what it judges."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer
from tundish_plugins.water_supply import elasticity as e

MATERIALS = {
    "copper": (130e9, 0.343),
    "steel": (212e9, 0.293),
    "stainless-steel": (215e9, 0.283),
    "lead": (16.1e9, 0.44),
    "polyethylene": (1.08e9, 0.42),
}


def _part(**changes: Any) -> dict[str, Any]:
    part = {
        "name": "tap",
        "kind": "outlet-mains-rated",
        "level": "1 m",
        "fed_before": "cistern",
        "fed_after": "mains",
    }
    return {**part, **changes}


def _ask(*parts: dict[str, Any], region: str = "GB", **changes: Any) -> tuple[int, Any]:
    inputs = {
        "cistern_level": "6 m",
        "mains_pressure": "4 bar",
        "recorded_overnight": True,
        "parts": list(parts),
        **changes,
    }
    request = {"inputs": inputs, "region": region, "date": "2026-11-01"}
    return answer("conversion-pressure", request, parts=())


def _first(*parts: dict[str, Any], **changes: Any) -> Any:
    status, body = _ask(*parts, **changes)
    assert status == 200, body
    return body["outputs"]["parts"][0]


@pytest.mark.parametrize("celsius", range(0, 111, 5))
def test_give_of_water_against_coolprop(celsius: int) -> None:
    from CoolProp.CoolProp import PropsSI

    T = celsius + 273.15 + (0.02 if celsius == 0 else 0.0)
    at = ("T", T, "P", 2.5e5, "Water")
    assert e.speed_of_sound(T) == pytest.approx(PropsSI("A", *at), abs=0.03)
    kappa = PropsSI("ISOTHERMAL_COMPRESSIBILITY", *at)
    assert e.compressibility(T) == pytest.approx(kappa, rel=5e-4)
    beta = PropsSI("ISOBARIC_EXPANSION_COEFFICIENT", *at)
    assert e.water_expansion(T) == pytest.approx(beta, abs=4e-7)


@pytest.mark.parametrize("material", MATERIALS)
@pytest.mark.parametrize(("d", "s"), [(0.0136, 0.0007), (0.0204, 0.0023), (0.0127, 0.005)])
def test_give_of_a_tube_against_its_differential_equation(
    material: str, d: float, s: float
) -> None:
    """Plane strain, u'' + u'/r - u/r² = 0, with the pressure at the bore and none outside."""
    from scipy.integrate import solve_bvp

    E, nu = MATERIALS[material]
    ri, ro = d / 2, d / 2 + s
    stiff = E / ((1 + nu) * (1 - 2 * nu))

    def radial(r: Any, u: Any, du: Any) -> Any:
        return stiff * ((1 - nu) * du + nu * u / r)

    def ends(a: Any, b: Any) -> list[float]:
        return [(radial(ri, a[0], a[1]) + 1e9) / 1e9, radial(ro, b[0], b[1]) / 1e9]

    r = [ri + (ro - ri) * k / 50 for k in range(51)]
    start = [[1e-3 * ri] * 51, [0.0] * 51]
    solved = solve_bvp(lambda r, y: [y[1], y[0] / r**2 - y[1] / r], ends, r, start, tol=1e-8)
    assert solved.success
    assert e.pipe_give(E, nu, d, s) == pytest.approx(2 * solved.y[0][0] / ri / 1e9, rel=1e-5)


def test_a_rigid_pipe_carries_sound_as_open_water_does() -> None:
    c = e.speed_of_sound(283.15)
    assert e.wave_speed(c, 999.77, 0.0) == c
    assert e.wave_speed(c, 999.77, e.pipe_give(130e9, 0.343, 0.0136, 0.0007)) < c


@settings(max_examples=60, deadline=None)
@given(st.floats(-5, 5.9), st.floats(0, 20))
def test_pressure_rises_by_the_same_weight_everywhere(level: float, mains_level: float) -> None:
    """Before and after differ by the same amount at every level: both are resting water."""
    from fluids import constants

    first = _first(_part(level=f"{level:.6f} m"), mains_level=f"{mains_level:.6f} m")
    second = _first(_part(level="0 m"), mains_level=f"{mains_level:.6f} m")
    rise = [part["after"]["value"] - part["before"]["value"] for part in (first, second)]
    assert rise[0] == pytest.approx(rise[1], abs=1e-9)
    weight = (second["after"]["value"] - first["after"]["value"]) * 1e5
    assert weight == pytest.approx(999.77 * constants.g * round(level, 6), rel=2e-5, abs=1e-3)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.011, 5), st.floats(0.5, 100))
def test_a_slow_valve_never_knocks_harder_than_a_sudden_one(time: float, length: float) -> None:
    closing = {"flow": "10 l/min", "material": "copper", "tube": "copper-15"}
    at_once = _first(_part(closing=closing))
    slow = _first(
        _part(closing={**closing, "closing_time": f"{time:.6f} s", "length": f"{length:.6f} m"})
    )
    assert slow["surge"]["value"] <= at_once["surge"]["value"] * (1 + 1e-12)


def test_surge_is_continuous_where_the_wave_comes_back() -> None:
    closing = {"flow": "10 l/min", "material": "copper", "tube": "copper-15", "length": "10 m"}
    a = _first(_part(closing=closing))["wave_speed"]["value"]
    surges = [
        _first(_part(closing={**closing, "closing_time": f"{20 / a * factor:.9f} s"}))["surge"][
            "value"
        ]
        for factor in (1 - 1e-6, 1 + 1e-6)
    ]
    assert surges[0] == pytest.approx(surges[1], rel=1e-5)


@pytest.mark.parametrize(("rating", "verdict"), [(3.99999, "dangerous"), (4.0, "met")])
def test_static_limit(rating: float, verdict: str) -> None:
    _, body = _ask(_part(level="0 m", rating=f"{rating} bar"))
    assert body["findings"]["static-within-rating"]["verdict"] == verdict


def test_unknown_strength_is_never_passed_over() -> None:
    """A part with neither rating nor test gives no verdict on pressure, and is not met."""
    _, body = _ask(_part())
    assert "static-within-rating" not in body["findings"]
    assert body["findings"]["strength-known"]["verdict"] == "not-met"
    assert body["verdict"] == "not-met"


@pytest.mark.parametrize("kind", ["cylinder-vented", "vent-pipe", "shower-pump", "pipe-lead"])
def test_dangerous_kinds_stop_the_job(kind: str) -> None:
    _, body = _ask(_part(kind=kind, rating="20 bar", proved_to="30 bar", checked=True))
    assert body["verdict"] == "dangerous"


def test_no_part_passes_on_the_list_alone() -> None:
    """The list of old parts is from memory: its best verdict is advisory."""
    _, body = _ask(_part(kind="gate-valve", plan="replace", rating="16 bar"))
    assert body["findings"]["old-part-changed"]["verdict"] == "advisory"
    assert body["verdict"] == "advisory"


def test_hot_side_is_judged_by_its_expansion_valve() -> None:
    """Rated above the reducing valve and below the expansion valve: not safe."""
    valves = {
        "mains_pressure": "5 bar",
        "reducing_valve": {"setting": "3 bar", "level": "0 m"},
        "expansion_valve": {"setting": "6 bar", "level": "0 m"},
    }
    hot = _part(level="0 m", fed_after="hot-store", rating="5.9 bar")
    _, body = _ask(hot, **valves)
    assert body["findings"]["static-within-rating"]["verdict"] == "dangerous"
    _, body = _ask({**hot, "rating": "6 bar"}, **valves)
    assert body["findings"]["static-within-rating"]["verdict"] == "met"


def test_every_kind_of_the_list_is_answered() -> None:
    from tundish.host import default_host, today

    table = default_host().book.find("GB", today(), "conversion-parts")
    assert table is not None
    kinds = table.edition.value.keys("kind")
    assert len(kinds) == len(set(kinds))
    status, body = _ask(*(_part(name=kind, kind=kind, level="0.5 m") for kind in kinds))
    assert status == 200
    for part in body["outputs"]["parts"]:
        assert part["reason"]
    law = default_host().book.find("GB", today(), "conversion-parts-regulation")
    assert law is not None
    assert set(law.edition.value.keys("kind")) <= set(kinds)


def test_flow_ratio_is_the_root_of_the_pressure_ratio() -> None:
    part = _first(_part())
    assert part["flow_ratio"] == pytest.approx(math.sqrt(part["pressure_ratio"]), rel=1e-15)
