"""Trees of water pipes against sums and libraries that share no code with them, and their shape."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

fluids_friction = pytest.importorskip("fluids.friction")
iapws = pytest.importorskip("iapws")
FAST = settings(max_examples=50, deadline=None, derandomize=True)
TUBES = {
    "copper-10": (8.8, 1.5e-6),
    "copper-15": (13.6, 1.5e-6),
    "copper-22": (20.2, 1.5e-6),
    "copper-28": (26.2, 1.5e-6),
    "copper-54": (51.6, 1.5e-6),
    "pe-25": (20.4, 7e-6),
    "pe-32": (26.0, 7e-6),
}


def _amount(value: float, unit: str) -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _section(name: str, start: str, end: str, tube: str, **more: Any) -> dict[str, Any]:
    return {"name": name, "start": start, "end": end, "tube": tube, **more}


def _outlet(name: str, node: str, flow: float, **more: Any) -> dict[str, Any]:
    return {
        "name": name,
        "node": node,
        "flow": _amount(flow, "l/min"),
        "required_pressure": _amount(0.1, "bar"),
        **more,
    }


def _ask(inputs: dict[str, Any], method: str | None = None) -> tuple[int, dict[str, Any]]:
    request: dict[str, Any] = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    if method is not None:
        request["method"] = method
    return answer("water-pipe-sizing", request)


def _outputs(inputs: dict[str, Any], method: str | None = None) -> dict[str, Any]:
    status, body = _ask(inputs, method)
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


def _lost(flow: float, tube: str, metres: float, zeta: float, celsius: float) -> float:
    """Pressure in bar lost in a pipe, by the library's friction factors and water."""
    water = iapws.IAPWS97(T=celsius + 273.15, P=0.4)
    bore, k = TUBES[tube]
    d = bore / 1e3
    w = flow / 6e4 / (math.pi * d**2 / 4)
    Re = water.rho * w * d / water.mu
    laminar = fluids_friction.friction_laminar(Re)
    turbulent = fluids_friction.Colebrook(Re, k / d)
    f = laminar if Re < 2000 else turbulent if Re >= 4000 else max(laminar, turbulent)
    return float((f * metres / d + zeta) * water.rho * w**2 / 2 / 1e5)


@FAST
@given(
    st.sampled_from(sorted(TUBES)),
    st.floats(1, 40),
    st.floats(0.5, 60),
    st.floats(0, 20),
    st.floats(5, 90),
)
def test_drop_of_a_pipe(tube: str, flow: float, metres: float, zeta: float, celsius: float) -> None:
    """Laminar, unsettled and turbulent, hot and cold."""
    water = iapws.IAPWS97(T=celsius + 273.15, P=0.4)
    d = TUBES[tube][0] / 1e3
    Re = water.rho * flow / 6e4 / (math.pi * d / 4) / water.mu
    if abs(Re / 2000 - 1) < 0.02:
        return  # viscosities that differ by 1 % put the jump on either side
    got = _outputs(
        {
            "start_pressure": _amount(10, "bar"),
            "water_temperature": _amount(celsius, "degC"),
            "sections": [
                _section("p", "source", "t", tube, length=_amount(metres, "m"), fittings_loss=zeta)
            ],
            "outlets": [_outlet("t", "t", flow)],
        }
    )
    rel = 0.004 if Re > 2000 else 0.012
    assert got["sections"][0]["drop"]["value"] == pytest.approx(
        _lost(flow, tube, metres, zeta, celsius), rel=rel
    )


def _random_tree(chance: random.Random) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Sections in any order, an outlet at every point that feeds nothing and at some others."""
    points = ["source"]
    sections = []
    for k in range(chance.randint(1, 12)):
        start = chance.choice(points)
        points.append(f"n{k}")
        sections.append(
            _section(
                f"s{k}",
                start,
                f"n{k}",
                chance.choice(["copper-22", "copper-28", "copper-54"]),
                length=_amount(round(chance.uniform(0.5, 8), 2), "m"),
                rise=_amount(round(chance.uniform(-1.5, 2), 2), "m"),
            )
        )
    feeding = {section["start"] for section in sections}
    outlets = [
        _outlet(f"o{k}", point, round(chance.uniform(4, 15), 1))
        for k, point in enumerate(points[1:])
        if point not in feeding or chance.random() < 0.3
    ]
    chance.shuffle(sections)
    return sections, outlets


def _way(sections: list[dict[str, Any]], point: str) -> list[str]:
    by_end = {section["end"]: section["start"] for section in sections}
    found = []
    while point != "source":
        found.append(point)
        point = by_end[point]
    return found


@pytest.mark.parametrize("seed", range(12))
def test_trees_against_a_walk_from_each_outlet(seed: int) -> None:
    """Pressures found by walking up from each outlet, and adding up what every pipe feeds."""
    chance = random.Random(seed)
    sections, outlets = _random_tree(chance)
    got = _outputs({"start_pressure": _amount(6, "bar"), "sections": sections, "outlets": outlets})
    by_end = {section["end"]: section for section in sections}
    carried = dict.fromkeys(by_end, 0.0)
    for outlet in outlets:
        point = outlet["node"]
        while point != "source":
            carried[point] += outlet["flow"]["value"]
            point = by_end[point]["start"]
    rho = iapws.IAPWS97(T=283.15, P=0.4).rho
    for outlet, told in zip(outlets, got["outlets"], strict=True):
        pressure, point = 6.0, outlet["node"]
        while point != "source":
            section = by_end[point]
            pressure -= _lost(carried[point], section["tube"], section["length"]["value"], 0, 10)
            pressure -= rho * 9.80665 * section["rise"]["value"] / 1e5
            point = section["start"]
        assert told["pressure"]["value"] == pytest.approx(pressure, abs=0.004)
    assert got["least_spare"]["value"] == pytest.approx(
        min(told["spare"]["value"] for told in got["outlets"]), abs=1e-12
    )


@pytest.mark.parametrize("seed", range(4))
def test_what_another_tube_is_said_to_do_it_does(seed: int) -> None:
    """Answers for the next size equal those of the tree with that size in it."""
    sections, outlets = _random_tree(random.Random(100 + seed))
    inputs = {"start_pressure": _amount(6, "bar"), "sections": sections, "outlets": outlets}
    for index, told in enumerate(_outputs(inputs)["sections"]):
        for size in ("larger", "smaller"):
            if told[size] is None:
                continue
            other = [dict(section) for section in sections]
            other[index]["tube"] = told[size]["tube"]
            again = _outputs({**inputs, "sections": other})
            assert again["sections"][index]["drop"] == pytest.approx(told[size]["drop"])
            assert again["sections"][index]["velocity"] == pytest.approx(told[size]["velocity"])
            behind = [
                outlet["spare"]["value"]
                for outlet, asked in zip(again["outlets"], outlets, strict=True)
                if sections[index]["end"] in _way(sections, asked["node"])
            ]
            assert told[size]["least_spare"]["value"] == pytest.approx(min(behind), abs=1e-12)


def test_a_larger_pipe_never_loses_more() -> None:
    order = ["copper-10", "copper-15", "copper-22", "copper-28", "copper-54"]
    drops = [
        _outputs(
            {
                "start_pressure": _amount(10, "bar"),
                "sections": [_section("p", "source", "t", tube, length=_amount(5, "m"))],
                "outlets": [_outlet("t", "t", 12)],
            }
        )["sections"][0]["drop"]["value"]
        for tube in order
    ]
    assert drops == sorted(drops, reverse=True)


def test_peak_flow_never_leaves_its_bounds() -> None:
    """From one washbasin to sixty: between the largest outlet and the sum of all."""
    for count in (1, 2, 3, 5, 10, 60):
        outlets = [
            {
                "name": f"o{k}",
                "node": "t",
                "fitting": "washbasin",
                "required_pressure": _amount(0.1, "bar"),
            }
            for k in range(count)
        ]
        got = _outputs(
            {
                "start_pressure": _amount(5, "bar"),
                "sections": [_section("p", "source", "t", "copper-54", length=_amount(1, "m"))],
                "outlets": outlets,
            },
            "din-1988-300",
        )
        litres = got["sections"][0]["flow"]["value"] / 60
        formula = 1.48 * (0.07 * count) ** 0.19 - 0.94
        assert litres == pytest.approx(min(max(formula, 0.07), 0.07 * count), rel=1e-12)


@pytest.mark.parametrize(("more", "verdict"), [(0.0, "met"), (1e-6, "not-met")])
def test_velocity_just_met_and_just_missed(more: float, verdict: str) -> None:
    flow = 4 * math.pi * 0.0136**2 / 4 * 6e4 * (1 + more)
    status, body = _ask(
        {
            "start_pressure": _amount(9, "bar"),
            "sections": [_section("p", "source", "t", "copper-15", length=_amount(1, "m"))],
            "outlets": [_outlet("t", "t", flow)],
        }
    )
    assert status == 200
    assert body["findings"]["velocity-single"]["verdict"] == verdict


def test_units_of_two_standards_are_never_mixed() -> None:
    bath = {
        "name": "bath",
        "node": "t",
        "fitting": "bath",
        "required_pressure": _amount(0.1, "bar"),
    }
    inputs = {
        "start_pressure": _amount(3, "bar"),
        "sections": [_section("p", "source", "t", "copper-22", length=_amount(1, "m"))],
        "outlets": [bath],
    }
    assert _outputs(inputs, "en-806-3")["sections"][0]["loading_units"] == 4
    assert _outputs(inputs, "bs-6700")["sections"][0]["loading_units"] == 10
    assert _outputs(inputs)["sections"][0]["loading_units"] is None
    status, body = answer(
        "water-pipe-sizing",
        {"inputs": inputs, "region": "INT", "date": "2026-11-01", "method": "bs-6700"},
    )
    assert status == 422
    assert body["code"] == "edition-unknown"
