"""A condensate drain against other libraries, its limits and its shape."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer


def _mm(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "mm"}


def _stretch(**changes: Any) -> dict[str, Any]:
    stretch: dict[str, Any] = {
        "name": "one",
        "place": "heated",
        "length": "2 m",
        "drop": "100 mm",
        "bore": "19 mm",
        "material": "pvc-u",
    }
    return {**stretch, **changes}


def _ask(**changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "appliances": [
            {
                "name": "boiler",
                "heat_input": "24 kW net",
                "own_trap": True,
                "seal_depth": "75 mm",
                "flue_pressure": "2 mbar",
            }
        ],
        "segments": [_stretch()],
        "termination": "internal-waste",
        "trap_place": "heated",
        "relief_joins": False,
        **changes,
    }
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    return answer("condensate-drain", request, parts=("findings",))


def _body(**changes: Any) -> dict[str, Any]:
    status, body = _ask(**changes)
    assert status == 200, body
    return body


@settings(deadline=None, max_examples=40)
@given(st.floats(12, 110), st.floats(20, 400))
def test_capacity_against_another_friction_law(bore: float, drop: float) -> None:
    """At the flow of the answer the friction of another library equals the slope."""
    from fluids.friction import Colebrook
    from iapws import IAPWS97

    got = _body(segments=[_stretch(bore=_mm(bore), drop=_mm(drop))])["outputs"]["segments"][0]
    water, d = IAPWS97(T=293.15, P=0.101325), bore / 1e3
    w = got["capacity"]["value"] / 3.6e6 / (math.pi * d**2 / 4)
    Re = water.rho * w * d / water.mu
    f = max(64 / Re, Colebrook(Re, 1.5e-6 / d))
    assert f / d * w**2 / 2 / 9.80665 == pytest.approx(drop / 2000, rel=0.012)


def test_cooling_against_the_differential_equation() -> None:
    """Cooling of the water, integrated step by step."""
    from scipy.integrate import solve_ivp

    stretch = _stretch(
        place="outside",
        bore="30 mm",
        drop="1200 mm",
        insulated=True,
        outside_diameter="34 mm",
        insulation_thickness="19 mm",
    )
    body = _body(segments=[stretch], frost={"air_temperature": "-5 degC"})
    got = body["outputs"]["segments"][0]
    loss = 1 / (
        math.log(34 / 30) / (2 * math.pi * 0.17)
        + math.log(72 / 34) / (2 * math.pi * 0.038)
        + 1 / (math.pi * 0.072 * 10)
    )
    content = 998.2 * math.pi * 0.03**2 / 4

    def slope(_t: float, T: Any) -> Any:
        return -loss * (T + 5) / (content * 4184)

    def frozen(_t: float, T: Any) -> float:
        return float(T[0])

    frozen.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(slope, (0, 1e5), [10.0], events=frozen, rtol=1e-9, atol=1e-9)
    assert got["cooling_time"]["value"] * 3600 == pytest.approx(found.t_events[0][0], rel=1e-3)
    ice = 0.25 * content * 333400 / (loss * 5)
    assert got["freezing_time"]["value"] * 3600 == pytest.approx(ice, rel=1e-3)


@settings(deadline=None, max_examples=40)
@given(st.floats(1, 300), st.floats(0, 30))
def test_seal_and_flue_tell_one_story(depth: float, pressure: float) -> None:
    """Gas blows through exactly where nothing of the seal is left."""
    from iapws import IAPWS97

    rho = IAPWS97(T=293.15, P=0.25).rho  # the pressure that the library's water is stated for
    boiler = {
        "name": "boiler",
        "heat_input": "24 kW net",
        "own_trap": True,
        "seal_depth": _mm(depth),
        "flue_pressure": {"value": pressure, "unit": "mbar"},
    }
    body = _body(appliances=[boiler])
    left = body["outputs"]["appliances"][0]["seal_left"]["value"]
    assert left == pytest.approx(depth - pressure * 100 / (rho * 9.80665) * 1000, abs=1e-3)
    verdict = body["findings"]["seal-against-flue"]["verdict"]
    if abs(left) > 1e-6:
        assert verdict == ("dangerous" if left < 0 else "met")
    assert (body["findings"]["seal-left"]["verdict"] == "met") == (left >= 25 * (1 - 1e-9))


@settings(deadline=None, max_examples=40)
@given(st.lists(st.floats(-50, 200), min_size=1, max_size=5))
def test_no_rise_is_ever_answered(drops: list[float]) -> None:
    stretches = [_stretch(name=f"no {k}", drop=_mm(drop)) for k, drop in enumerate(drops)]
    status, body = _ask(segments=stretches)
    if min(drops) < 0:
        assert status == 422
        assert body["code"] == "rising-section"
        first = next(k for k, drop in enumerate(drops) if drop < 0)
        assert body["pointer"] == f"/inputs/segments/{first}/drop"
    else:
        total = body["outputs"]["total_drop"]["value"]
        assert total == pytest.approx(sum(drops), abs=1e-9)
        ends = [part["below_start"]["value"] for part in body["outputs"]["segments"]]
        assert ends[-1] == pytest.approx(total, abs=1e-9)
        heights = body["outputs"]["profile"]["height"]["values"]
        assert heights[-1] == pytest.approx(-total, abs=1e-9)


@pytest.mark.parametrize("material", ["copper", "brass", "steel", "galvanised-steel", "cast-iron"])
def test_every_metal_that_condensate_eats_is_refused(material: str) -> None:
    status, body = _ask(segments=[_stretch(material=material)])
    assert (status, body["code"]) == (422, "metal-drain")


@pytest.mark.parametrize("end", ["rainwater-pipe", "surface-water-drain", "open-ground"])
def test_clean_water_is_kept_clean(end: str) -> None:
    status, body = _ask(termination=end)
    assert (status, body["code"]) == (422, "termination-not-allowed")


@pytest.mark.parametrize("place", ["unheated", "outside"])
@pytest.mark.parametrize(("length", "status"), [(3.0, 200), (3.000001, 422)])
def test_three_metres_outside(place: str, length: float, status: int) -> None:
    stretch = _stretch(
        place=place, length={"value": length, "unit": "m"}, bore="30 mm", insulated=True
    )
    assert _ask(segments=[stretch])[0] == status


def test_freezing_is_information_and_moves_no_verdict() -> None:
    stretch = _stretch(
        place="outside",
        bore="30 mm",
        drop="1200 mm",
        insulated=True,
        outside_diameter="34 mm",
        insulation_thickness="19 mm",
    )
    plain = _body(segments=[stretch])
    cold = _body(segments=[stretch], frost={"air_temperature": "-30 degC"})
    assert plain["findings"] == cold["findings"]
    assert plain["outputs"]["segments"][0]["freezing_time"] is None
    assert cold["outputs"]["segments"][0]["freezing_time"]["value"] > 0


def test_insulation_of_no_thickness_is_none() -> None:
    """An insulated pipe never gets the freezing time of a bare one."""
    outside = _stretch(place="outside", bore="30 mm", drop="1200 mm", outside_diameter="34 mm")
    frost = {"air_temperature": "-5 degC"}
    status, body = _ask(
        segments=[{**outside, "insulated": True, "insulation_thickness": "0 mm"}], frost=frost
    )
    assert (status, body["code"]) == (422, "insulation-contradicts")
    for told, timed in (({"insulated": True}, False), ({"insulated": False}, True)):
        got = _body(segments=[{**outside, **told}], frost=frost)["outputs"]["segments"][0]
        assert (got["freezing_time"] is not None) is timed
        assert (got["cooling_time"] is not None) is timed
