"""Balanced radiators against a solver of another library, and the shape of what settles."""

from __future__ import annotations

import math
import random
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tundish.answering import answer
from tundish_plugins.networks import Tree
from tundish_plugins.sealed_heating.balancing.solver import Drive, Network, Settled
from tundish_plugins.sealed_heating.content import Content
from tundish_plugins.sealed_heating.piping.losses import Pipe

CONTENT = Content(983.26, 4.66e-4, 4184.8)
ROUGHNESS = 1.5e-6
VALVE = [(0.25, 0.04), (0.5, 0.09), (1, 0.2), (2, 0.42), (4, 0.8)]


# --- the solver itself ----------------------------------------------------------------------------


def _friction(V: float, pipe: Pipe) -> tuple[float, float, float]:
    """Loss by the laws below and above Re 2000, and the Reynolds number."""
    from fluids.friction import Colebrook

    w = V / (math.pi * pipe.d**2 / 4)
    Re = w * pipe.d * CONTENT.rho / CONTENT.mu
    each = pipe.L_e / pipe.d * CONTENT.rho * w**2 / 2
    turbulent = Colebrook(Re, pipe.eps)
    return 64 / Re * each, (turbulent if Re >= 4000 else max(64 / Re, turbulent)) * each, Re


def _network(chance: random.Random) -> tuple[Tree, list[Pipe], list[float], list[float]]:
    count = chance.randint(1, 9)
    before: list[int | None] = [None]
    before += [
        chance.choice([None, *range(k)]) if chance.random() < 0.3 else chance.randrange(k)
        for k in range(1, count)
    ]

    def way(k: int) -> tuple[int, ...]:
        found = [k]
        while (up := before[found[0]]) is not None:
            found.insert(0, up)
        return tuple(found)

    nodes = [k for k in range(count) if k not in before]
    nodes += [chance.randrange(count) for _ in range(chance.randint(0, 3))]
    tree = Tree(
        tuple(way(k) for k in nodes),
        tuple(tuple(n for n, at in enumerate(nodes) if k in way(at)) for k in range(count)),
        tuple(before),
    )
    pipes = []
    for _ in range(count):
        d = chance.choice([6.8, 8.8, 13.6, 20.2]) / 1e3
        pipes.append(Pipe(d, ROUGHNESS / d, chance.uniform(0.5, 40), 0.0, (), True, "copper"))
    squares = [chance.choice([0.0, chance.uniform(0, 2000) / 9e-10]) for _ in range(count)]
    radiators = [chance.uniform(500, 20000) / chance.uniform(5e-6, 4e-5) ** 2 for _ in nodes]
    return tree, pipes, squares, radiators


def _proved(
    tree: Tree,
    pipes: list[Pipe],
    squares: list[float],
    radiators: list[float],
    settled: Settled,
) -> int:
    """Every law and every balance holds; returns how many sections stand at the jump."""
    assert settled.moved < 1e-9
    jumps = 0
    drops = []
    for pipe, square, V, R in zip(
        pipes, squares, settled.section_flows, settled.resistances, strict=True
    ):
        lower, upper, Re = _friction(V, pipe)
        friction = (R - square) * V**2
        if abs(Re / 2000 - 1) < 1e-9:
            jumps += 1
            assert lower * (1 - 1e-8) <= friction <= upper * (1 + 1e-8)
        else:
            assert friction == pytest.approx(lower if Re < 2000 else upper, rel=1e-6)
        drops.append(R * V**2)
    for k, leaves in enumerate(tree.served):
        whole = sum(settled.radiator_flows[n] for n in leaves)
        assert settled.section_flows[k] == pytest.approx(whole, rel=1e-9)
    for path, R, V in zip(tree.paths, radiators, settled.radiator_flows, strict=True):
        assert sum(drops[k] for k in path) + R * V**2 == pytest.approx(settled.pressure, rel=1e-9)
    return jumps


def test_every_network_settles_and_its_balances_hold() -> None:
    jumps = 0
    for seed in range(150):
        chance = random.Random(seed)
        tree, pipes, squares, radiators = _network(chance)
        network = Network(tree, pipes, CONTENT, squares, radiators)
        start = [1e-5 * len(leaves) for leaves in tree.served]
        settled = network.settle(Drive(chance.uniform(2000, 40000), None), start)
        jumps += _proved(tree, pipes, squares, radiators, settled)
    assert jumps > 3, "no network that stands at the jump of friction was tried"


def test_a_pump_and_its_network_meet_on_the_curve() -> None:
    for seed in range(100):
        chance = random.Random(seed)
        tree, pipes, squares, radiators = _network(chance)
        H, V = chance.uniform(2000, 40000), 1e-4 * len(radiators)
        flows, heads = [0.0, V / 2, 2 * V, 20 * V], [H, 0.9 * H, 0.4 * H, 0.01 * H]
        network = Network(tree, pipes, CONTENT, squares, radiators)
        start = [1e-5 * len(leaves) for leaves in tree.served]
        settled = network.settle(Drive(None, (flows, heads)), start)
        _proved(tree, pipes, squares, radiators, settled)
        low = max(k for k in range(3) if settled.flow >= flows[k])
        share = (settled.flow - flows[low]) / (flows[low + 1] - flows[low])
        curve = heads[low] + share * (heads[low + 1] - heads[low])
        assert settled.pressure == pytest.approx(curve, rel=1e-9)
        assert settled.flow == pytest.approx(sum(settled.radiator_flows), rel=1e-9)


def test_settled_flows_are_those_of_another_library() -> None:
    import numpy as np
    from scipy.optimize import root

    tried = 0
    for seed in range(400, 412):
        chance = random.Random(seed)
        tree, pipes, squares, radiators = _network(chance)
        network = Network(tree, pipes, CONTENT, squares, radiators)
        settled = network.settle(
            Drive(15000.0, None), [1e-5 * len(leaves) for leaves in tree.served]
        )
        if _proved(tree, pipes, squares, radiators, settled):
            continue
        count = len(pipes)

        def gaps(
            x: Any,
            tree: Tree = tree,
            pipes: list[Pipe] = pipes,
            squares: list[float] = squares,
            radiators: list[float] = radiators,
            count: int = count,
        ) -> Any:
            """All edges and all nodes: logarithms of flows, and pressures behind sections."""
            flows, pressures = np.exp(x[:-count]), x[-count:] * 1e4
            found = []
            for k, pipe in enumerate(pipes):
                up = tree.before[k]
                start = 15000.0 if up is None else pressures[up]
                lower, upper, Re = _friction(flows[k], pipe)
                loss = (lower if Re < 2000 else upper) + squares[k] * flows[k] ** 2
                found.append((start - pressures[k] - loss) / 1e4)
                out = sum(flows[n] for n in range(count) if tree.before[n] == k)
                out += sum(flows[count + n] for n, w in enumerate(tree.paths) if w[-1] == k)
                found.append((flows[k] - out) * 1e4)
            for n, (way, R) in enumerate(zip(tree.paths, radiators, strict=True)):
                found.append((pressures[way[-1]] - R * flows[count + n] ** 2) / 1e4)
            return found

        start = [math.log(V * 1.02) for V in (*settled.section_flows, *settled.radiator_flows)]
        solved = root(gaps, [*start, *([0.7] * count)], method="lm", options={"xtol": 1e-13})
        if max(map(abs, solved.fun)) > 1e-8:
            continue  # the other solver lost its way: it says so itself
        wanted = np.exp(solved.x[count:-count])
        assert settled.radiator_flows == pytest.approx(list(wanted), rel=1e-6)
        tried += 1
    assert tried > 5


# --- the calculation ------------------------------------------------------------------------------


def _radiator(name: str, watts: float, **changes: Any) -> dict[str, Any]:
    points = [{"setting": s, "kv": {"value": kv, "unit": "m3/h"}} for s, kv in VALVE]
    return {
        "name": name,
        "node": name,
        "heat_load": {"value": watts, "unit": "W"},
        "room_temperature": "20 degC",
        "exponent": 1.3,
        "components": [{"name": "thermostatic valve", "kv": "0.6 m3/h"}],
        "valve": {"points": points, **changes},
    }


def _house(watts: list[float], lengths: list[float], **changes: Any) -> dict[str, Any]:
    ways = [("riser", "boiler", "a", 20.2), ("one", "a", "1", 13.6), ("corridor", "a", "b", 13.6)]
    ways += [("two", "b", "2", 8.8), ("three", "b", "3", 8.8)]
    sections = [
        {
            "name": name,
            "start": start,
            "end": {"1": "r1", "2": "r2", "3": "r3"}.get(end, end),
            "length": {"value": L, "unit": "m"},
            "material": "copper",
            "bore": {"value": d, "unit": "mm"},
        }
        for (name, start, end, d), L in zip(ways, lengths, strict=True)
    ]
    first = changes.pop("set_to", None)
    radiators = [
        _radiator(f"r{k + 1}", W, **({"set_to": first} if first is not None and k == 0 else {}))
        for k, W in enumerate(watts)
    ]
    return {
        "flow_temperature": "65 degC",
        "temperature_drop": "15 K",
        "sections": sections,
        "radiators": radiators,
        **changes,
    }


def _run(inputs: dict[str, Any], method: str = "logarithmic-mean") -> dict[str, Any]:
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01", "method": method}
    status, body = answer("radiator-balancing", request, parts=())
    assert status == 200, body
    found: dict[str, Any] = body["outputs"]
    return found


@settings(max_examples=25, deadline=None)
@given(
    watts=st.lists(st.floats(300, 2500), min_size=3, max_size=3),
    lengths=st.lists(st.floats(1, 40), min_size=5, max_size=5),
)
@example(watts=[300, 300, 300], lengths=[1, 40, 16.221669543891785, 27.860469354502964, 40])
def test_balanced_radiators_have_their_design_flow(
    watts: list[float], lengths: list[float]
) -> None:
    body = _run(_house(watts, lengths))
    coarse = any(
        item["kv_needed"]["value"] < item["valve_least"]["value"] for item in body["radiators"]
    )
    for radiator, W in zip(body["radiators"], watts, strict=True):
        whole = radiator["pipes"]["value"] + radiator["own"]["value"] + radiator["valve"]["value"]
        assert whole == pytest.approx(body["required_pressure"]["value"], rel=1e-9)
        if coarse:
            continue  # a valve passes too much, and the others get less
        assert radiator["balanced"]["share"] == pytest.approx(1, rel=1e-6)
        assert radiator["balanced"]["output"]["value"] == pytest.approx(W, rel=1e-6)
        assert radiator["balanced"]["temperature_drop"]["value"] == pytest.approx(15, rel=1e-6)
    if not coarse:
        assert body["balanced"]["return_temperature"]["value"] == pytest.approx(50, abs=1e-4)


@settings(max_examples=25, deadline=None)
@given(lower=st.floats(0.3, 3.9), step=st.floats(0.01, 1))
def test_an_opened_valve_takes_from_the_others(lower: float, step: float) -> None:
    def flows(s: float) -> list[float]:
        body = _run(_house([1800, 900, 700], [6, 6, 20, 4, 16], set_to=s))
        return [item["as_found"]["flow"]["value"] for item in body["radiators"]]

    less, more = flows(lower), flows(min(lower + step, 4))
    assert more[0] > less[0]
    assert more[1] < less[1]
    assert more[2] < less[2]


def test_heat_is_what_the_water_leaves() -> None:
    for method in ("logarithmic-mean", "arithmetic-mean"):
        body = _run(_house([1800, 900, 700], [6, 6, 20, 4, 16]), method)
        for radiator in body["radiators"]:
            for state in (radiator["as_found"], radiator["balanced"]):
                V, drop = state["flow"]["value"] / 3.6e6, state["temperature_drop"]["value"]
                carried = V * body["density"]["value"] * 4183.6 * drop
                assert state["output"]["value"] == pytest.approx(carried, rel=1e-4)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.999])
def test_a_starved_radiator_gives_what_its_characteristic_says(share: float) -> None:
    from scipy.optimize import brentq

    inputs = _house([1800, 900, 700], [6, 6, 20, 4, 16])
    needed = _run(inputs)["required_pressure"]["value"]
    body = _run({**inputs, "available_pressure": {"value": needed * share**2, "unit": "kPa"}})
    design = 15 / math.log(45 / 30)
    for radiator, W in zip(body["radiators"], (1800, 900, 700), strict=True):
        state = radiator["as_found"]
        capacity = state["share"] * W / 15

        def gap(T: float, capacity: float = capacity, W: float = W) -> float:
            mean = (65 - T) / math.log(45 / (T - 20))
            return capacity * (65 - T) - W * (mean / design) ** 1.3

        wanted = brentq(gap, 20 + 1e-9, 65 - 1e-6, xtol=1e-12)
        assert state["return_temperature"]["value"] == pytest.approx(wanted, abs=1e-6)
