"""Random contact networks against a simulator that shares no code with the calculation."""

from __future__ import annotations

import random
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from tundish.answering import answer

sys.path.insert(0, str(Path(__file__).parent))

import simulator


def _agrees(inputs: dict[str, Any]) -> str:
    """Hold one network's answer against the simulator's; return what kind of network it was."""
    request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
    status, body = answer("control-logic", request, parts=())
    assert status == 200, body
    outputs = body["outputs"]
    table = simulator.simulate(inputs)
    told = [kind for kind, _ in table.values()]
    assert outputs["shorted"] == ("short" in told)
    if "short" in told:
        assert outputs["results"] == []
        assert outputs["table"] == []
        assert body["findings"]["supply-shorted"]["verdict"] == "dangerous"
        return "short"
    assert outputs["unsettled_states"] == told.count("restless")
    at_rest = {valve["name"] for valve in inputs["valves"] if valve["rest"] == "open"}
    for result in outputs["results"]:
        name = result["name"]
        wanted = "".join(
            "~" if kind == "restless" else str(int(moved[name] != (name in at_rest)))
            for kind, moved in table.values()
        )
        assert result["column"] == wanted, (name, inputs)
    return "restless" if "restless" in told else "rest"


def _many(count: int, seed: int) -> Counter[str]:
    chance = random.Random(seed)
    return Counter(_agrees(simulator.random_network(chance)) for _ in range(count))


def test_random_networks() -> None:
    seen = _many(250, 1)
    assert min(seen["short"], seen["restless"], seen["rest"]) > 5, seen


@pytest.mark.slow
def test_ten_thousand_networks() -> None:
    seen = _many(10_000, 2)
    print(seen)
    assert min(seen.values()) > 200
