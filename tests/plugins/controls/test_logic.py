"""Conditions, columns of states, explanations and faults of contact networks."""

from __future__ import annotations

import itertools
import random
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.answering import answer
from tundish_plugins.controls.expressions import (
    DEEPEST,
    ExpressionError,
    column_of,
    names_of,
    parsed,
)
from tundish_plugins.controls.logic import wiring
from tundish_plugins.controls.logic.examine import condition_words
from tundish_plugins.controls.logic.example import EXAMPLE
from tundish_plugins.controls.states import States

sys.path.insert(0, str(Path(__file__).parent))

import simulator


def _answer(inputs: dict[str, Any]) -> dict[str, Any]:
    status, body = answer("control-logic", {"inputs": inputs, "region": "GB", "date": "2026-11-01"})
    assert status == 200, body
    return body


# --- conditions -----------------------------------------------------------------------------------

_NAMES = ("a", "b", "c")


def _texts() -> st.SearchStrategy[str]:
    return st.recursive(
        st.sampled_from([*_NAMES, "true", "false"]),
        lambda inner: st.one_of(
            inner.map("not ({})".format),
            st.tuples(inner, inner).map("({0[0]}) and ({0[1]})".format),
            st.tuples(inner, inner).map("({0[0]}) or ({0[1]})".format),
            st.tuples(st.sampled_from(_NAMES), inner).map("{0[0]} and ({0[1]})".format),
        ),
        max_leaves=10,
    )


@given(_texts())
def test_a_condition_means_what_it_says(text: str) -> None:
    states = States(_NAMES)
    column = column_of(parsed(text), dict(zip(_NAMES, states.columns, strict=True)), states.full)
    python = text.replace("true", "True").replace("false", "False")
    for state, values in enumerate(itertools.product([False, True], repeat=3)):
        wanted = eval(python, {}, dict(zip(_NAMES, values, strict=True)))  # noqa: S307
        assert bool(column >> state & 1) == wanted


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("a or b and c", "a or (b and c)"),
        ("not a and b", "(not a) and b"),
        ("not not a", "a"),
        ('"a" and b', "a and b"),
    ],
)
def test_what_binds_first(text: str, meant: str) -> None:
    states = States(_NAMES)
    columns = dict(zip(_NAMES, states.columns, strict=True))
    assert column_of(parsed(text), columns, states.full) == column_of(
        parsed(meant), columns, states.full
    )


@pytest.mark.parametrize(
    "text",
    [
        "a b",
        "a and",
        "(a",
        "a)",
        "not",
        "a == b",
        "__import__('os')",
        "a.b",
        'a and "',
        "(" * (DEEPEST + 1) + "a" + ")" * (DEEPEST + 1),
    ],
)
def test_what_is_no_condition_is_refused(text: str) -> None:
    with pytest.raises(ExpressionError):
        parsed(text)


def test_names_with_blanks_and_words() -> None:
    assert names_of(parsed('"frost stat" and "not" or a')) == ["frost stat", "not", "a"]
    assert condition_words([{"frost stat": False, "not": True}]) == 'not "frost stat" and "not"'


# --- columns --------------------------------------------------------------------------------------


@given(st.integers(1, 4), st.data())
def test_fewest_inputs_and_products_against_every_choice(n: int, data: st.DataObject) -> None:
    states = States(tuple(f"x{k}" for k in range(n)))
    column = data.draw(st.integers(1, states.full))
    columns = dict(zip(states.names, states.columns, strict=True))

    def product(literals: dict[str, bool]) -> int:
        found = states.full
        for name, on in literals.items():
            found &= columns[name] if on else ~columns[name]
        return found

    simplest = states.simplest(column)
    assert not product(simplest) & ~column
    for size in range(len(simplest)):
        for names in itertools.combinations(states.names, size):
            for values in itertools.product([False, True], repeat=size):
                assert product(dict(zip(names, values, strict=True))) & ~column
    products = states.products(column)
    assert products is not None
    union = 0
    for literals in products:
        union |= product(literals)
    assert union == column
    for spared in products:
        rest = 0
        for other in products:
            rest |= product(other) if other is not spared else 0
        assert rest != column
    text = condition_words(products)
    assert column_of(parsed(text), columns, states.full) == column
    digits = states.digits(column)
    for state, values in enumerate(itertools.product([0, 1], repeat=n)):
        assert states.values(state) == "".join(map(str, values))
        assert digits[state] == str(column >> state & 1)


def test_parity_is_not_written_out_for_ever() -> None:
    states = States(tuple(f"x{k}" for k in range(12)))
    parity = 0
    for column in states.columns:
        parity ^= column
    assert states.products(parity) is None
    assert len(states.simplest(parity)) == 12


# --- explanations and faults against the simulator -------------------------------------------------


def _stuck(inputs: dict[str, Any], contact: dict[str, Any], *, closed: bool) -> dict[str, Any]:
    """The same network with one contact a wire, or gone."""
    others = [c for c in inputs["contacts"] if c is not contact]
    wires = list(inputs["wires"])
    if closed:
        wires.append({"name": "welded", "start": contact["start"], "end": contact["end"]})
    return {**inputs, "contacts": others, "wires": wires}


def test_single_faults_against_the_simulator() -> None:
    chance, tried = random.Random(5), 0
    for _ in range(60):
        inputs = simulator.random_network(chance)
        healthy = simulator.simulate(inputs)
        if any(kind != "rest" for kind, _ in healthy.values()):
            continue
        told = {row["name"]: row for row in _answer(inputs)["outputs"]["faults"]}
        relays = {relay["name"] for relay in inputs["relays"]}
        broken = [
            (f"{c['name']} stuck-{word}", _stuck(inputs, c, closed=word == "closed"))
            for c in inputs["contacts"]
            for word in ("closed", "open")
        ]
        broken += [
            (f"{w['name']} broken", {**inputs, "wires": [x for x in inputs["wires"] if x is not w]})
            for w in inputs["wires"]
        ]
        for name, other in broken:
            after = simulator.simulate(other)
            kinds = [kind for kind, _ in after.values()]
            row = told.get(name)
            if "short" in kinds:
                assert row is not None
                assert row["effect"] == "shorts-the-supply"
                continue
            changed = sum(
                kind == "restless" or any(moved[n] != was[n] for n in moved if n not in relays)
                for (kind, moved), (_, was) in zip(after.values(), healthy.values(), strict=True)
            )
            assert (row["states"] if row else 0) == changed, (name, inputs)
            tried += 1
    assert tried > 100


def test_mismatches_against_the_simulator() -> None:
    chance, tried = random.Random(6), 0
    for _ in range(80):
        inputs = simulator.random_network(chance)
        names = [item["name"] for item in inputs["free_inputs"]]
        when = " or ".join(chance.sample(names, min(2, len(names))))
        inputs["intended"] = [{"name": "boiler", "when": when}]
        table = simulator.simulate(inputs)
        if any(kind != "rest" for kind, _ in table.values()):
            continue
        tried += 1
        runs = idle = 0
        for values, (_, moved) in table.items():
            free = dict(zip(names, values, strict=True))
            wanted = any(free[name] for name in when.split(" or "))
            runs += moved["boiler"] and not wanted
            idle += wanted and not moved["boiler"]
        told = {row["fault"]: row["states"] for row in _answer(inputs)["outputs"]["mismatches"]}
        assert told.get("runs", 0) == runs
        assert told.get("stands-still", 0) == idle
    assert tried > 20


def _without(list_name: str, name: str) -> dict[str, Any]:
    return {**EXAMPLE, list_name: [x for x in EXAMPLE[list_name] if x["name"] != name]}


def test_a_cut_out_that_is_bridged_is_dangerous() -> None:
    inputs = _without("contacts", "cylinder cut-out")
    inputs["wires"] = [*inputs["wires"], {"name": "bridge", "start": "7", "end": "8"}]
    body = _answer(inputs)
    assert body["findings"]["cut-out-stops-heat"]["verdict"] == "dangerous"
    assert body["outputs"]["cut_outs"][0]["defeated_by"].startswith("cylinder: ")
    assert body["verdict"] == "dangerous"


def test_a_relay_that_holds_the_store_on_defeats_the_cut_out() -> None:
    """From rest all is well; what was on before goes on heating although the cut-out trips."""
    inputs: dict[str, Any] = {
        "free_inputs": [{"name": "start"}, {"name": "healthy"}],
        "supplies": [{"name": "mains", "live": "L", "neutral": "N", "isolator": "spur"}],
        "contacts": [
            {"name": n, "start": a, "end": b, "moved_by": by, "kind": "normally-open"}
            for n, a, b, by in (
                ("button", "L", "p", "start"),
                ("cut-out", "p", "q", "healthy"),
                ("holding", "L", "q", "relay"),
            )
        ],
        "relays": [{"name": "relay", "start": "q", "end": "N"}],
        "loads": [{"name": "immersion", "start": "q", "end": "N", "kind": "heater"}],
        "cut_outs": [{"name": "healthy", "stops": ["immersion"]}],
    }
    body = _answer(inputs)
    assert body["outputs"]["results"][0]["column"] == "0001"
    assert body["findings"]["cut-out-stops-heat"]["verdict"] == "dangerous"


def test_a_chattering_circuit_is_not_called_stopped() -> None:
    """The heater is never fed, yet where relays chatter nothing is shown about it."""
    inputs: dict[str, Any] = {
        "free_inputs": [{"name": "healthy"}],
        "supplies": [{"name": "mains", "live": "L", "neutral": "N", "isolator": "spur"}],
        "contacts": [
            {
                "name": "own",
                "start": "L",
                "end": "q",
                "moved_by": "buzzer",
                "kind": "normally-closed",
            }
        ],
        "relays": [{"name": "buzzer", "start": "q", "end": "N"}],
        "loads": [{"name": "immersion", "start": "x", "end": "N", "kind": "heater"}],
        "cut_outs": [{"name": "healthy", "stops": ["immersion"]}],
    }
    assert _answer(inputs)["findings"]["cut-out-stops-heat"]["verdict"] == "dangerous"


def test_work_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(wiring, "MOST_WORK", 1000)
    request = {"inputs": dict(EXAMPLE), "region": "GB", "date": "2026-11-01"}
    status, body = answer("control-logic", request)
    assert status == 422
    assert (body["code"], body["pointer"]) == ("too-many-states", "/inputs/contacts")
