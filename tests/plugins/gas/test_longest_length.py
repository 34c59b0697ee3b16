"""Gas pipe sizing by another region's code, other materials, and formulas for steel."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest

from tundish import answer
from tundish.host import default_host

DATE = "2026-11-01"
FOOT = 0.3048
CUBIC_FOOT_AN_HOUR = FOOT**3 / 3600
TO_15 = 288.15 / 288.7055555555556 * 101591.67 / 101325
RULES = {
    rule.name: rule.editions[0].value
    for (region, _), rule in default_host().book.rules.items()
    if region == "US"
}
NATURAL = ("gas-capacity-natural-steel", "gas-capacity-natural-polyethylene")
PROPANE = (
    "gas-capacity-lpg-steel",
    "gas-capacity-lpg-copper-tubing",
    "gas-capacity-lpg-polyethylene",
)
BORES = {
    row["tube"]: row["bore"] / 0.0254
    for row in default_host().book.rules["INT", "gas-tubes-further"].editions[0].value.rows()
    if row.has("bore")
}


def _run(inputs: dict[str, Any], region: str = "US", **more: Any) -> tuple[int, dict[str, Any]]:
    request = {"inputs": inputs, "region": region, "date": DATE, **more}
    return answer("gas-pipe-sizing", request, parts=())


def _section(name: str, start: str, end: str, tube: str, feet: float) -> dict[str, Any]:
    length = {"value": feet, "unit": "ft"}
    return {"name": name, "start": start, "end": end, "tube": tube, "length": length}


def _appliance(node: str, feet_an_hour: float) -> dict[str, Any]:
    """An appliance that takes so many cubic feet at 60 °F of natural gas."""
    watts = feet_an_hour * CUBIC_FOOT_AN_HOUR * TO_15 * 38.76e6
    return {
        "name": node,
        "node": node,
        "heat_input": {"value": watts, "unit": "W", "basis": "gross"},
    }


@pytest.mark.parametrize("name", [*NATURAL, *PROPANE])
def test_every_cell_follows_from_the_equation_of_the_code(name: str) -> None:
    """Q = 2313 D^2.623 (ΔH/(C_r L))^0.541 gives each printed cell within its rounding.

    A cell with a digit astray would fall out; the drop of each table is part of the equation.
    """
    drops = {(r["family"], r["material"]): r["drop"] for r in RULES["gas-capacity-drops"].rows()}
    _, _, family, material = name.split("-", 3)
    inches = drops[family, material] / 249.08891
    factor = 0.6094 if family == "natural" else 1.2462
    unit = CUBIC_FOOT_AN_HOUR if family == "natural" else 1000 * 0.29307107
    scale = 1.0 if family == "natural" else 2.488  # thousand Btu/h in a cubic foot an hour
    cells = 0
    for row in RULES[name].rows():
        feet = row["length"] / FOOT
        for tube, cell in row.values.items():
            if tube == "length":
                continue
            printed = cell / unit
            expected = scale * 2313 * BORES[tube] ** 2.623 * (inches / (factor * feet)) ** 0.541
            digits = 0 if printed < 100 else math.floor(math.log10(printed)) - 2
            assert abs(printed - expected) <= 0.54 * 10**digits, (tube, feet)
            cells += 1
    assert cells >= 28


@pytest.mark.parametrize("name", [key for key in RULES if key.startswith("gas-capacity-lpg-corr")])
def test_corrugated_tubing_falls_smoothly(name: str) -> None:
    """No equation is on file: each tube falls as a power of the length, each size carries more."""
    rows = [row.values for row in RULES[name].rows()]
    tubes = [tube for tube in rows[0] if tube != "length"]
    for row in rows:
        cells = [row[tube] for tube in tubes]
        assert cells == sorted(cells)
    for tube in tubes:
        first, last = rows[0], rows[-1]
        power = math.log(last[tube] / first[tube]) / math.log(last["length"] / first["length"])
        assert -0.56 < power < -0.47
        for row in rows:
            fitted = first[tube] * (row["length"] / first["length"]) ** power
            assert row[tube] == pytest.approx(fitted, rel=0.05)


@pytest.mark.parametrize("seed", range(60))
def test_the_longest_length_method_read_by_hand(seed: int) -> None:
    """Random trees in Schedule 40 against a plain reading of the printed table."""
    rng = random.Random(seed)
    table = RULES["gas-capacity-natural-steel"]
    rows = [row.values for row in table.rows()]
    tubes = [tube for tube in rows[0] if tube != "length"]
    sections, points, depth = [], ["meter"], {"meter": 0.0}
    for k in range(rng.randint(1, 5)):
        start, feet = rng.choice(points), round(rng.uniform(2, 30), 1)
        sections.append(_section(f"s{k}", start, f"p{k}", rng.choice(tubes), feet))
        points.append(f"p{k}")
        depth[f"p{k}"] = depth[start] + feet
    starts = {item["start"] for item in sections}
    loads = {p: rng.uniform(20, 300) for p in points[1:] if p not in starts}
    inputs = {
        "gas": "natural-gas",
        "supply_pressure": "9 inH2O",
        "sections": sections,
        "appliances": [_appliance(p, load) for p, load in loads.items()],
    }
    status, body = _run(inputs)
    longest = max(depth[p] for p in loads)
    by_end = {item["end"]: item for item in sections}
    flows = dict.fromkeys(by_end, 0.0)
    for point, load in loads.items():
        here = point
        while here != "meter":
            flows[here] += load
            here = by_end[here]["start"]
    row = next((r for r in rows if r["length"] / FOOT >= longest - 1e-9), None)
    beyond = any(
        flows[item["end"]] > rows[0][item["tube"]] / CUBIC_FOOT_AN_HOUR for item in sections
    )
    if row is None or beyond:
        assert (status, body["code"]) == (422, "outside-table")
        return
    assert status == 200, body
    wrong = False
    for item, found in zip(sections, body["outputs"]["sections"], strict=True):
        flow = flows[item["end"]]
        cell = row[item["tube"]] / CUBIC_FOOT_AN_HOUR
        assert found["table_flow"]["value"] == pytest.approx(cell, rel=1e-9)
        assert found["table_length"]["value"] == pytest.approx(row["length"] / FOOT, rel=1e-9)
        carrying = [t for t in tubes if row[t] / CUBIC_FOOT_AN_HOUR >= flow]
        assert found["least_tube"] == (carrying[0] if carrying else "none")
        wrong = wrong or flow > cell
    assert body["findings"]["section-carries-flow"]["verdict"] == ("not-met" if wrong else "met")
    # The estimate of the drop keeps the table's whenever every section carries its flow.
    if not wrong:
        assert body["outputs"]["highest_drop"]["value"] <= 3 * (1 + 1e-9)


def test_own_branch_is_never_diversified() -> None:
    """A diversity counts only where a pipe is shared; the meter sees the reduced load."""
    appliances = [_appliance("A", 100), {**_appliance("B", 60), "diversity": 0.5}]
    sections = [
        _section("trunk", "meter", "T", "steel-sch40-1", 20),
        _section("a", "T", "A", "steel-sch40-3/4", 10),
        _section("b", "T", "B", "steel-sch40-3/4", 10),
    ]
    inputs = {"gas": "natural-gas", "sections": sections, "appliances": appliances}
    status, body = _run(inputs)
    assert status == 200, body
    flows = [item["flow"]["value"] / TO_15 for item in body["outputs"]["sections"]]
    assert flows == pytest.approx([130, 100, 60], rel=1e-9)
    assert body["findings"]["load-at-full-rate"]["verdict"] == "advisory"
    assert _run(inputs, region="GB", method="physical")[1]["code"] == "diversity-not-allowed"


def test_too_little_supply_is_never_passed() -> None:
    inputs = {
        "gas": "natural-gas",
        "supply_pressure": "7 inH2O",
        "sections": [_section("run", "meter", "A", "steel-sch40-3/4", 20)],
        "appliances": [_appliance("A", 60)],
    }
    status, body = _run(inputs)
    assert status == 200
    assert body["verdict"] == "not-met"
    assert body["findings"]["supply-pressure-enough"]["verdict"] == "not-met"


def test_cautions_are_those_of_the_region() -> None:
    inputs = {
        "gas": "natural-gas",
        "sections": [_section("run", "meter", "A", "pe-1-sdr11", 20)],
        "appliances": [_appliance("A", 60)],
    }
    words = " ".join(item["words"] for item in _run(inputs)[1]["cautions"])
    assert "911" in words
    assert "gas register" not in words


@pytest.mark.parametrize("watts", [3000 * k for k in range(1, 16)])
@pytest.mark.parametrize("tube", ["steel-21.3x2.6", "steel-26.9x2.6", "steel-sch40-1"])
def test_spitzglass_is_never_kinder_than_friction(tube: str, watts: int) -> None:
    """The larger of both laws counts, so a change of method never makes a drop smaller."""
    inputs = {
        "gas": "natural-gas",
        "sections": [_section("run", "meter", "A", tube, 20)],
        "appliances": [{"name": "A", "node": "A", "heat_input": f"{watts} W gross"}],
    }
    drops = []
    for method in ("physical", "spitzglass"):
        status, body = _run(inputs, region="GB", method=method)
        assert status == 200, body
        drops.append(body["outputs"]["highest_drop"]["value"])
    assert drops[1] >= drops[0]


def test_rough_steel_drops_more_than_smooth_copper_of_its_bore() -> None:
    """The wall of steel counts above laminar flow: 25.6 mm copper against 26.6 mm steel pipe."""
    drops = {}
    for tube in ("copper-28x1.2", "steel-sch40-1"):
        inputs = {
            "gas": "natural-gas",
            "sections": [_section("run", "meter", "A", tube, 30)],
            "appliances": [{"name": "A", "node": "A", "heat_input": "55 kW gross"}],
        }
        drops[tube] = _run(inputs, region="GB")[1]["outputs"]["highest_drop"]["value"]
    # The wider bore alone would give (25.6/26.64)^4.8 of the drop.
    assert drops["steel-sch40-1"] > drops["copper-28x1.2"] * (25.6 / 26.6446) ** 4.7
