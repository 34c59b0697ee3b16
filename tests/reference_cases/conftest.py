"""A small corpus without a fault, invented, for tests that break it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from tundish_reference_cases.groups import Corpus, read_group

if TYPE_CHECKING:
    from collections.abc import Callable


def _source(kind: str, confirmed: str, **more: str) -> dict[str, str]:
    return {
        "kind": kind,
        "document": f"Invented {kind}",
        "edition": "1",
        "locator": "table 1",
        "confirmed": confirmed,
        **more,
    }


def _case(number: int) -> dict[str, Any]:
    source = ("printed", "worked", "closed-form")[number % 3]
    case: dict[str, Any] = {
        "id": f"tank-{number}",
        "title": f"Tank {number} holds its volume times its density",
        "level": "required",
        "request": {
            "inputs": {
                "volume": {"value": 10 + number, "unit": "l"},
                "count": number,
            },
            "region": "INT",
            "date": "2026-11-01",
        },
        "result": "value",
        "expect": {
            "/outputs/mass": {
                "quantity": {"value": (10.0 + number) * max(number, 1), "unit": "kg"},
                "tolerance": {"relative": 1e-9, "basis": "exact-arithmetic"},
            },
        },
        "sources": [source],
        "flags": ["plain"],
        "since": "2026.1",
    }
    if source == "closed-form":
        case["derivation"] = "one kilogram a litre, times the count"
    if number in {7, 8}:
        case["result"] = "refused"
        case["request"]["inputs"]["volume"]["value"] = -number
        case["refusal"] = {"code": "out-of-range", "pointer": "/inputs/volume"}
        del case["expect"]
    return case


def _group() -> dict[str, Any]:
    return {
        "schema": "group/1",
        "group": "tank-mass/plain",
        "calculation": "tank-mass",
        "title": "Mass of water in tanks (invented)",
        "sources": {
            "printed": _source("standard", "seen"),
            "worked": _source("library", "computed", computed_with="arithmetic 1.0"),
            "closed-form": _source("derivation", "derived"),
        },
        "flags": {
            "plain": {
                "kind": "basic",
                "description": "Nothing special.",
                "consequence": "The floor is loaded beyond what it carries.",
            }
        },
        "cases": [_case(number) for number in range(9)],
    }


@pytest.fixture
def group() -> dict[str, Any]:
    return _group()


@pytest.fixture
def corpus() -> Callable[..., Corpus]:
    def build(*groups: dict[str, Any]) -> Corpus:
        read = [
            read_group(f"tank-mass/INT/group-{index}.json", json.dumps(data))
            for index, data in enumerate(groups)
        ]
        return Corpus(tuple(read), "2026.1", "CC-BY-4.0")

    return build
