"""Secondary circulation against libraries, an exact solution, and its own balances."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.hot_water import hot_pipes
from tundish_plugins.hot_water.circulation import CALCULATION

K = 273.15


def _pipe(tube: str = "copper-22", length: float = 10, **more: Any) -> dict[str, Any]:
    return {"tube": tube, "length": {"value": length, "unit": "m"}} | more


def _loop(name: str = "loop", after: str | None = None, **pipe: Any) -> dict[str, Any]:
    section = {"name": name, "flow_pipe": _pipe(**pipe), "return_pipe": _pipe(**pipe)}
    return section if after is None else section | {"after": after}


def _answer(*sections: dict[str, Any], **inputs: Any) -> tuple[int, dict[str, Any]]:
    request = {
        "inputs": {"sections": list(sections)} | inputs,
        "region": "GB",
        "date": "2026-11-01",
    }
    return answer("secondary-circulation", request)


@settings(max_examples=25, deadline=None)
@given(
    d=st.floats(8, 54),
    emissivity=st.floats(0.02, 1),
    water=st.floats(40, 90),
    room=st.floats(-20, 35),
)
def test_bare_pipe_by_a_heat_transfer_library(
    d: float, emissivity: float, water: float, room: float
) -> None:
    nusselt = pytest.importorskip("ht.conv_free_immersed").Nu_horizontal_cylinder_Churchill_Chu
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI
    film = (water + room) / 2 + K

    def air(what: str) -> float:
        return float(props(what, "T", film, "P", 101325, "Air"))

    nu = air("V") / air("D")
    prandtl = air("V") * air("C") / air("L")
    grashof = 9.80665 * (water - room) / film * (d / 1e3) ** 3 / nu**2
    h = nusselt(prandtl, grashof) * air("L") / (d / 1e3)
    radiated = emissivity * 5.670374e-8 * ((water + K) ** 4 - (room + K) ** 4)
    expected = math.pi * d / 1e3 * (h * (water - room) + radiated)
    found = hot_pipes.bare_pipe(d / 1e3, emissivity, water + K, room + K)
    assert found == pytest.approx(expected, rel=1e-3)


@settings(max_examples=20, deadline=None)
@given(
    d=st.floats(8, 54),
    thickness=st.floats(5, 100),
    conductivity=st.floats(0.02, 0.06),
    surface=st.floats(5, 15),
)
def test_insulated_pipe_by_a_heat_transfer_library(
    d: float, thickness: float, conductivity: float, surface: float
) -> None:
    layer = pytest.importorskip("ht.conduction").R_cylinder
    outer = (d + 2 * thickness) / 1e3
    resistance = layer(d / 1e3, outer, conductivity, 1) + 1 / (surface * math.pi * outer)
    found = hot_pipes.insulated_pipe(d / 1e3, thickness / 1e3, conductivity, surface)
    assert found == pytest.approx(1 / resistance, rel=1e-10)


def test_the_real_return_is_never_cooler_than_reckoned() -> None:
    """Loss at the outlet temperature is on the high side of the exact, exponential cooling."""
    cover = {
        "insulation": {
            "thickness": "20 mm",
            "conductivity": "0.04 W/(m.K)",
            "surface_coefficient": "9 W/(m2.K)",
        }
    }
    _, body = _answer(_loop(length=30, **cover), circulation_flow="0.8 l/min")
    reckoned = body["outputs"]["return_temperature"]["value"]
    each = body["outputs"]["sections"][0]["flow_pipe"]["heat_loss"]["value"] / 40
    carried = body["outputs"]["mass_flow"]["value"] / 3600 * 4183
    exact = 20 + 40 * math.exp(-each * 60 / carried)
    assert reckoned < exact < reckoned + 1


LOSSES = st.lists(
    st.tuples(st.floats(2, 20), st.floats(2, 40), st.integers(0, 5)), min_size=1, max_size=7
)


@settings(max_examples=25, deadline=None)
@given(losses=LOSSES)
def test_every_branch_of_a_tree_comes_back_equally_warm(
    losses: list[tuple[float, float, int]],
) -> None:
    """At each node: flows add up, temperatures of the returns agree, and the heat balances."""
    sections = []
    for k, (watts, metres, above) in enumerate(losses):
        after = None if k == 0 or above >= k else f"s{above}"
        loss = {"value": watts, "unit": "W/m"}
        sections.append(_loop(f"s{k}", after, length=metres, heat_loss=loss))
    status, body = _answer(*sections, return_temperature="52 degC")
    assert status == 200, body
    found = {item["name"]: item for item in body["outputs"]["sections"]}
    by_node: dict[str | None, list[dict[str, Any]]] = {}
    for section in sections:
        by_node.setdefault(section.get("after"), []).append(found[section["name"]])
    for node, items in by_node.items():
        total = sum(item["flow"]["value"] for item in items)
        arriving = body["outputs"]["circulation_flow"] if node is None else found[node]["flow"]
        assert total == pytest.approx(arriving["value"], rel=1e-9)
        back = {round(item["back_temperature"]["value"], 7) for item in items}
        assert max(back) - min(back) < 1e-6
    assert body["outputs"]["return_temperature"]["value"] == pytest.approx(52, abs=1e-9)
    pipes = [item[side] for item in found.values() for side in ("flow_pipe", "return_pipe")]
    assert body["outputs"]["loss"]["value"] == pytest.approx(
        sum(pipe["loss"]["value"] for pipe in pipes), rel=1e-12
    )


@settings(max_examples=20, deadline=None)
@given(flow=st.floats(0.3, 20), bore=st.floats(8, 40), rough=st.floats(0, 0.1))
def test_friction_by_a_fluids_library(flow: float, bore: float, rough: float) -> None:
    colebrook = pytest.importorskip("fluids.friction").Colebrook
    props = pytest.importorskip("CoolProp.CoolProp").PropsSI
    pipe = {
        "outside_diameter": {"value": bore + 2, "unit": "mm"},
        "bore": {"value": bore, "unit": "mm"},
        "length": "20 m",
        "heat_loss": "1 W/m",
    }
    status, body = _answer(
        {"name": "loop", "flow_pipe": pipe, "return_pipe": pipe},
        circulation_flow={"value": flow, "unit": "l/min"},
        roughness={"value": rough, "unit": "mm"},
    )
    assert status == 200, body
    rho, mu = (props(w, "T", 50 + K, "P", 2.5e5, "Water") for w in "DV")
    d = bore / 1e3
    w = flow / 6e4 / (math.pi * d**2 / 4)
    reynolds = rho * w * d / mu
    if abs(reynolds - 2000) < 30 or abs(reynolds - 4000) < 60:
        return
    factor = 64 / reynolds
    if reynolds >= 2000:
        turbulent = colebrook(reynolds, rough / bore)
        factor = turbulent if reynolds >= 4000 else max(factor, turbulent)
    expected = factor * 20 / d * rho * w**2 / 2 / 1e3
    found = body["outputs"]["sections"][0]["flow_pipe"]["drop"]["value"]
    assert found == pytest.approx(expected, rel=0.012)


def test_balancing_valves_make_every_way_alike() -> None:
    _, body = _answer(*CALCULATION.example["sections"])
    sums = [
        branch["drop"]["value"] + branch["balancing_drop"]["value"]
        for branch in body["outputs"]["branches"]
    ]
    assert max(sums) == pytest.approx(min(sums), rel=1e-12)
    assert body["outputs"]["pump_pressure"]["value"] == pytest.approx(sums[0] + 3, rel=1e-12)


@pytest.mark.parametrize(("metres", "verdict"), [(10.0, "met"), (10.01, "not-met"), (9.99, "met")])
def test_far_end_at_55(metres: float, verdict: str) -> None:
    """With as much loss out as back and 10 K in all, the far end is at 55 °C."""
    loop = {
        "name": "loop",
        "flow_pipe": _pipe(length=metres, heat_loss="6 W/m"),
        "return_pipe": _pipe(length=10, heat_loss="6 W/m"),
    }
    _, body = _answer(loop)
    assert body["findings"]["far-end-hot-enough"]["verdict"] == verdict


def test_unbalanced_branches_are_no_pass() -> None:
    two = (_loop("near", heat_loss="6 W/m"), _loop("far", length=30, heat_loss="6 W/m"))
    _, body = _answer(*two)
    assert body["findings"]["branches-balanced"]["verdict"] == "not-met"
    _, body = _answer(*two, balancing_valves=True)
    assert body["findings"]["branches-balanced"]["verdict"] == "met"
    _, body = _answer(two[0])
    assert "branches-balanced" not in body["findings"]


def test_cold_water_pipe_is_refused() -> None:
    status, body = _answer(_loop(tube="pe-32"))
    assert (status, body["code"]) == (422, "tube-for-cold-only")


def test_a_guide_from_memory_is_never_met() -> None:
    cover = {"insulation": {"thickness": "100 mm", "conductivity": "0.025 W/(m.K)"}}
    _, body = _answer(_loop(**cover))
    assert body["findings"]["flow-pipe-insulated"]["verdict"] == "advisory"


def test_a_loss_no_insulation_gives_is_not_taken() -> None:
    """A tenth of a watt a metre would need next to no flow, and the far taps would run cool."""
    loss: dict[str, Any] = {"heat_loss": {"value": 0.1, "unit": "W/m"}}
    _, body = _answer(_loop(**loss))
    assert body["findings"]["flow-pipe-loss-plausible"]["verdict"] == body["verdict"] == "not-met"


def test_water_too_hot_for_pipes_is_dangerous() -> None:
    _, body = _answer(_loop(), outlet_temperature="90 degC")
    assert body["findings"]["hot-water-tempered"]["verdict"] == body["verdict"] == "dangerous"


def test_charts() -> None:
    request = {"inputs": dict(CALCULATION.example), "region": "GB", "date": "2026-11-01"}
    _, body = answer("secondary-circulation", request, parts=("charts",))
    rows = body["charts"]["temperatures"]["data"]["values"]
    assert {row["curve"] for row in rows} == {"way to bathrooms", "way to kitchen"}
    assert min(row["y"] for row in rows) == pytest.approx(53)
    assert len(body["charts"]["branches"]["data"]["values"]) == 4
