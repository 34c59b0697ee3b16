"""Pipes and pump of a heating circuit against other libraries, and their shape."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer
from tundish.host import Host
from tundish_plugins.sealed_heating import fluids

POINTS = [(0, 6.0), (0.5, 5.8), (1.0, 5.2), (1.5, 4.3), (2.0, 3.1), (2.5, 1.6)]
ROUGHNESS = {"copper": 1.5e-6, "plastic": 7e-6, "steel": 1e-4}


def _section(name: str, start: str, end: str, **changes: Any) -> dict[str, Any]:
    found: dict[str, Any] = {
        "name": name,
        "start": start,
        "end": end,
        "length": "10 m",
        "material": "copper",
        "bore": "20.2 mm",
    }
    found.update(changes)
    return {key: value for key, value in found.items() if value is not None}


def _load(name: str, node: str, kw: float, **changes: Any) -> dict[str, Any]:
    return {"name": name, "node": node, "power": {"value": kw, "unit": "kW"}, **changes}


def _run(**changes: Any) -> dict[str, Any]:
    inputs: dict[str, Any] = {
        "flow_temperature": "70 degC",
        "temperature_drop": "20 K",
        "sections": [_section("pipe", "boiler", "a")],
        "loads": [_load("emitter", "a", 12)],
    }
    inputs.update(changes)
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    status, body = answer("primary-circuit", request, parts=())
    assert status == 200, body
    found: dict[str, Any] = body["outputs"]
    return found


@pytest.mark.parametrize("material", sorted(ROUGHNESS))
@pytest.mark.parametrize("bore", [6.8, 13.6, 26.2, 51.6])
def test_friction_is_that_of_another_library(material: str, bore: float) -> None:
    from fluids import friction_factor

    tried = 0
    for exponent in range(28):
        Re = 500 * (1e6 / 500) ** (exponent / 27)
        rho, mu = 983.26, 4.6607e-4
        power = Re * math.pi / 4 * bore / 1e3 * mu / rho * rho * 4.1847 * 20
        if not 0.02 <= power <= 500:
            continue
        pipe = _section("pipe", "boiler", "a", material=material, bore=f"{bore} mm")
        body = _run(sections=[pipe], loads=[_load("emitter", "a", power)])
        found = body["sections"][0]
        rho, w, Re = body["density"]["value"], found["velocity"]["value"], found["reynolds"]
        turbulent = friction_factor(Re=max(Re, 2040), eD=ROUGHNESS[material] / (bore / 1e3))
        if 2000 <= Re < 4000:
            from fluids.friction import Colebrook

            turbulent = Colebrook(Re, ROUGHNESS[material] / (bore / 1e3))
            f = max(64 / Re, turbulent)
        else:
            f = 64 / Re if Re < 2000 else turbulent
        wanted = f / (bore / 1e3) * rho * w**2 / 2
        assert found["gradient"]["value"] == pytest.approx(wanted, rel=1e-3)
        assert found["transitional"] == (2000 <= Re < 4000)
        tried += 1
    assert tried > 8


@pytest.mark.parametrize(
    ("fluid", "name"), [("MPG", "propylene-glycol"), ("MEG", "ethylene-glycol")]
)
def test_glycol_flows_as_its_data_say(fluid: str, name: str) -> None:
    from CoolProp.CoolProp import PropsSI

    for x in (0.10, 0.22, 0.37, 0.55):
        for t in (0, 12, 35, 60, 80, 100):
            T, medium = t + 273.15, f"INCOMP::{fluid}[{x}]"
            mu, c_p = fluids.viscosity(name, x, T), fluids.specific_heat(name, x, T)
            assert mu == pytest.approx(PropsSI("V", "T", T, "P", 2.5e5, medium), rel=3e-3)
            assert c_p == pytest.approx(PropsSI("C", "T", T, "P", 2.5e5, medium), rel=7e-4)


def _pump(points: list[tuple[float, float]]) -> dict[str, Any]:
    return {
        "curve_is": "of-the-pump",
        "points": [
            {"flow": {"value": V, "unit": "m3/h"}, "head": {"value": H, "unit": "m"}}
            for V, H in points
        ],
    }


@pytest.mark.parametrize("length", [2, 20, 80, 300])
def test_duty_point_is_that_of_another_solver(length: float) -> None:
    from fluids import friction_factor
    from scipy.optimize import brentq

    pipe = _section("pipe", "boiler", "a", length={"value": length, "unit": "m"})
    body = _run(
        sections=[pipe],
        loads=[_load("emitter", "a", 12, components=[{"name": "valve", "kv": "2.5 m3/h"}])],
        pump=_pump(POINTS),
    )
    rho, mu, d = body["density"]["value"], body["viscosity"]["value"] / 1e3, 0.0202

    def gap(flow: float) -> float:
        w = flow / 3600 / (math.pi * d**2 / 4)
        Re = w * d * rho / mu
        f = friction_factor(Re=Re, eD=1.5e-6 / d)
        loss = f * length / d * rho * w**2 / 2 + 1e5 * rho / 1000 * (flow / 2.5) ** 2
        low = max(k for k, (V, _) in enumerate(POINTS[:-1]) if flow >= V)
        (V_a, H_a), (V_b, H_b) = POINTS[low], POINTS[low + 1]
        return H_a + (flow - V_a) / (V_b - V_a) * (H_b - H_a) - loss / (rho * 9.80665)

    wanted = brentq(gap, 0.2, 2.5, xtol=1e-13)
    assert body["pump"]["duty_flow"]["value"] == pytest.approx(wanted, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(
    powers=st.lists(st.floats(0.2, 9), min_size=4, max_size=4),
    lengths=st.lists(st.floats(1, 60), min_size=5, max_size=5),
)
def test_the_index_circuit_has_the_largest_loss(powers: list[float], lengths: list[float]) -> None:
    ways = [
        ("m", "boiler", "h"),
        ("a", "h", "a"),
        ("b", "h", "b"),
        ("c", "b", "c"),
        ("d", "c", "d"),
    ]
    body = _run(
        sections=[
            _section(name, start, end, length={"value": L, "unit": "m"})
            for (name, start, end), L in zip(ways, lengths, strict=True)
        ],
        loads=[_load(n.upper(), n, kw) for n, kw in zip("abcd", powers, strict=True)],
    )
    drops = {item["name"]: item["drop"]["value"] for item in body["sections"]}
    paths = {"A": "ma", "B": "mb", "C": "mbc", "D": "mbcd"}
    whole = {name: sum(drops[k] for k in path) for name, path in paths.items()}
    assert whole[body["index_circuit"]] == pytest.approx(max(whole.values()), rel=1e-12)
    for circuit in body["circuits"]:
        assert circuit["surplus"]["value"] >= 0
        assert circuit["total"]["value"] == pytest.approx(whole[circuit["name"]], rel=1e-12)
        assert circuit["total"]["value"] + circuit["surplus"]["value"] == pytest.approx(
            body["required_pressure"]["value"], rel=1e-12
        )
    flows = {item["name"]: item["flow"]["value"] for item in body["sections"]}
    assert flows["m"] == pytest.approx(flows["a"] + flows["b"], rel=1e-12)
    assert flows["m"] == pytest.approx(body["total_flow"]["value"], rel=1e-12)


@settings(max_examples=25, deadline=None)
@given(primary=st.floats(0.05, 5), boiler=st.floats(51, 100))
def test_a_header_neither_makes_nor_loses_heat(primary: float, boiler: float) -> None:
    body = _run(
        header={
            "primary_flow": {"value": primary, "unit": "m3/h"},
            "boiler_flow_temperature": {"value": boiler, "unit": "degC"},
        }
    )
    header, V = body["header"], body["total_flow"]["value"] * 0.06
    given_out = primary * (boiler - header["primary_return_temperature"]["value"])
    taken = V * (
        header["secondary_flow_temperature"]["value"] - body["return_temperature"]["value"]
    )
    assert given_out == pytest.approx(taken, rel=1e-9, abs=1e-9)


TUBES = {
    "schema": "rules/1",
    "region": "XT",
    "family": "invented",
    "sources": {
        "invented": {
            "kind": "common-practice",
            "document": "Invented tubes",
            "edition": "1",
            "locator": "of this test",
            "confirmed": "seen",
        }
    },
    "rules": [
        {
            "name": "water-tubes",
            "kind": "table",
            "meaning": "Tubes",
            "columns": [
                {"name": "tube", "kind": "key"},
                {"name": "series", "kind": "text"},
                {"name": "outside_diameter", "kind": "length", "unit": "mm"},
                {"name": "wall", "kind": "length", "unit": "mm"},
                {"name": "bore", "kind": "length", "unit": "mm"},
                {"name": "roughness", "kind": "length", "unit": "mm"},
            ],
            "editions": [
                {
                    "edition": "1",
                    "from": "1990-01-01",
                    "until": None,
                    "source": "invented",
                    "rows": [
                        ["copper-28", "copper thin wall", 28, 0.9, 26.2, 0.0015],
                        ["copper-15", "copper thin wall", 15, 0.7, 13.6, 0.0015],
                        ["copper-22", "copper thin wall", 22, 0.9, 20.2, 0.0015],
                        ["pe-25", "polyethylene", 25, 2.3, 20.4, 0.007],
                    ],
                }
            ],
        }
    ],
}
REGION = {"schema": "region/1", "region": "XT", "title": "Test", "based_on": "GB", "units": {}}


@lru_cache
def _host() -> Host:
    made = Host()
    made.book.add_document(REGION, "test")
    made.book.add_document(TUBES, "test")
    return made


def _by_name(tube: str, **changes: Any) -> dict[str, Any]:
    inputs = {
        "flow_temperature": "70 degC",
        "temperature_drop": "20 K",
        "sections": [
            _section("pipe", "boiler", "a", tube=tube, material=None, bore=None, **changes)
        ],
        "loads": [_load("emitter", "a", 12)],
    }
    request = {"inputs": inputs, "region": "XT", "date": "2026-11-01"}
    status, body = answer("primary-circuit", request, parts=(), host=_host())
    assert status == 200, body
    found: dict[str, Any] = body["outputs"]["sections"][0]
    return found


def test_a_tube_by_name_is_read_from_the_region_s_table() -> None:
    found, given = _by_name("copper-22"), _run()["sections"][0]
    for member in ("bore", "gradient", "copper", "drop"):
        assert found[member] == given[member]
    assert _by_name("pe-25")["copper"] is False
    assert _by_name("pe-25")["larger"] is None
    assert _by_name("pe-25")["smaller"] is None
    rough = _run(sections=[_section("pipe", "boiler", "a", roughness="0.1 mm")])
    assert _by_name("copper-22", roughness="0.1 mm")["drop"] == rough["sections"][0]["drop"]


def test_the_sizes_beside_a_tube_are_those_of_its_series() -> None:
    found = _by_name("copper-22")
    for side, tube, bore in (("larger", "copper-28", 26.2), ("smaller", "copper-15", 13.6)):
        other = _run(sections=[_section("pipe", "boiler", "a", bore=f"{bore} mm")])
        for member in ("velocity", "gradient", "drop"):
            assert found[side][member] == other["sections"][0][member]
        assert found[side]["tube"] == tube
    assert _by_name("copper-28")["larger"] is None
    assert _by_name("copper-15")["smaller"] is None


def test_a_tube_by_name_is_refused_where_the_region_has_no_table() -> None:
    inputs = {
        "flow_temperature": "70 degC",
        "temperature_drop": "20 K",
        "sections": [
            _section("pipe", "boiler", "a", tube="no-such-tube", material=None, bore=None)
        ],
        "loads": [_load("emitter", "a", 12)],
    }
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    status, body = answer("primary-circuit", request, parts=())
    assert status == 422
    assert body["code"] in {"rule-missing", "table-key-unknown"}
