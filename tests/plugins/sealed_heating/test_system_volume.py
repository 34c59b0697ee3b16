"""Content of a heating system: against plain sums, and its shape."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer
from tundish.host import Host

TUBES = {
    "schema": "rules/1",
    "region": "XV",
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
                {"name": "bore", "kind": "length", "unit": "mm"},
            ],
            "editions": [
                {
                    "edition": "1",
                    "from": "1990-01-01",
                    "until": None,
                    "source": "invented",
                    "rows": [["copper-15", 13.6], ["copper-22", 20.2]],
                }
            ],
        }
    ],
}
REGION = {"schema": "region/1", "region": "XV", "title": "Test", "based_on": "GB", "units": {}}


@lru_cache
def _host() -> Host:
    made = Host()
    made.book.add_document(REGION, "test")
    made.book.add_document(TUBES, "test")
    return made


def _ask(inputs: dict[str, Any], method: str = "surest") -> dict[str, Any]:
    status, body = answer(
        "system-volume",
        {"inputs": inputs, "method": method, "region": "XV", "date": "2026-11-01"},
        host=_host(),
    )
    return {"status": status, **body}


def _outputs(inputs: dict[str, Any], method: str = "surest") -> dict[str, Any]:
    found = _ask(inputs, method)
    assert found["status"] == 200, found
    outputs: dict[str, Any] = found["outputs"]
    return outputs


def _litre(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "l"}


def test_a_tube_is_known_by_its_name() -> None:
    by_name = _outputs({"pipes": [{"name": "a", "length": "30 m", "tube": "copper-22"}]})
    by_bore = _outputs({"pipes": [{"name": "a", "length": "30 m", "bore": "20.2 mm"}]})
    assert by_name == by_bore
    wrong = _ask({"pipes": [{"name": "a", "length": "30 m", "tube": "copper-99"}]})
    assert wrong["status"] == 422
    assert wrong["code"] == "table-key-unknown"
    assert wrong["pointer"] == "/inputs/pipes/0/tube"


@settings(max_examples=40, deadline=None)
@given(
    pipes=st.lists(st.tuples(st.floats(3, 150), st.floats(0.1, 500)), max_size=6),
    parts=st.lists(st.tuples(st.floats(0.05, 500), st.integers(1, 30)), min_size=1, max_size=6),
    share=st.floats(0, 0.5),
)
def test_an_inventory_adds_up(
    pipes: list[tuple[float, float]], parts: list[tuple[float, int]], share: float
) -> None:
    found = _outputs(
        {
            "pipes": [
                {
                    "name": f"pipe {k}",
                    "bore": {"value": d, "unit": "mm"},
                    "length": {"value": length, "unit": "m"},
                }
                for k, (d, length) in enumerate(pipes)
            ],
            "parts": [
                {"name": f"part {k}", "kind": "other", "content": _litre(v), "count": n}
                for k, (v, n) in enumerate(parts)
            ],
            "inventory_uncertainty": share,
        }
    )
    wanted = math.fsum(
        [math.pi * d * d / 4 * length / 1000 for d, length in pipes] + [v * n for v, n in parts]
    )
    assert found["content"]["value"] == pytest.approx(wanted, rel=1e-11)
    assert found["low"]["value"] == pytest.approx(wanted * (1 - share), rel=1e-11)
    assert found["high"]["value"] == pytest.approx(wanted * (1 + share), rel=1e-11)
    assert math.fsum(line["content"]["value"] for line in found["lines"]) == pytest.approx(
        wanted, rel=1e-11
    )


@settings(max_examples=40, deadline=None)
@given(
    power=st.floats(1, 100),
    emitters=st.sampled_from(
        ["steel-panels", "low-water-content", "convectors", "fan-coils", "cast-iron", "underfloor"]
    ),
    panels=st.none() | st.integers(1, 40),
)
def test_rules_of_thumb_leave_open_all_they_say(
    power: float, emitters: str, panels: int | None
) -> None:
    inputs: dict[str, Any] = {"heat_output": {"value": power, "unit": "kW"}, "emitters": emitters}
    if panels is not None:
        inputs["panels"] = panels
    found = _outputs(inputs)
    low, high = found["low"]["value"], found["high"]["value"]
    assert low <= found["content"]["value"] <= high
    for rule in found["rules"]:
        assert low * (1 - 1e-12) <= rule["low"]["value"]
        assert rule["high"]["value"] <= high * (1 + 1e-12)
    if len(found["rules"]) == 1:
        assert high / low == pytest.approx(2)
    assert found["rule_of_thumb"]


def test_the_surest_way_answers() -> None:
    inputs: dict[str, Any] = {"panels": 10}
    assert _outputs(inputs)["basis"] == "estimate"
    inputs["parts"] = [{"name": "all", "kind": "other", "content": "90 l"}]
    assert _outputs(inputs)["basis"] == "inventory"
    inputs["metered_volume"] = "95 l"
    assert _outputs(inputs)["basis"] == "meter"
    assert [band["name"] for band in _outputs(inputs)["answers"]] == [
        "meter",
        "inventory",
        "estimate",
    ]
    assert _outputs(inputs, "estimate")["basis"] == "estimate"


def test_what_heats_may_be_pipe_or_part() -> None:
    boiler = {"name": "boiler", "kind": "boiler", "content": "3 l"}
    emitter = {"name": "panels", "kind": "emitter", "content": "40 l"}
    pipe = {"name": "pipe", "bore": "16 mm", "length": "50 m"}
    floor = {**pipe, "heats": True}
    for pipes, parts, complete in (
        ([pipe], [boiler, emitter], True),
        ([floor], [boiler], True),
        ([pipe], [boiler], False),
        ([pipe], [emitter], False),
        ([], [boiler, emitter], False),
    ):
        found = _outputs({"pipes": pipes, "parts": parts})
        assert found["inventory_complete"] is complete


def test_a_rule_of_thumb_confirms_nothing() -> None:
    found = _ask({"panels": 10, "assumed_content": "100 l"})
    assert found["findings"]["assumed-content-enough"]["verdict"] == "advisory"
    found = _ask({"panels": 10, "assumed_content": "99.9 l"})
    assert found["findings"]["assumed-content-enough"]["verdict"] == "not-met"
