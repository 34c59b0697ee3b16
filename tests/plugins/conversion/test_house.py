"""The example house: invented, linked, honest about what is open."""

from __future__ import annotations

import json
from typing import Any

import pytest

from tundish.host import default_host
from tundish.jobs import run_job


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    return default_host().template("example-house")


@pytest.fixture(scope="module")
def record(document: dict[str, Any]) -> dict[str, Any]:
    return run_job(document, default_host())


def _links(value: Any) -> list[str]:
    if isinstance(value, dict):
        if value.keys() == {"from"}:
            return [value["from"]]
        return [link for item in value.values() for link in _links(item)]
    if isinstance(value, list):
        return [link for item in value for link in _links(item)]
    return []


def test_it_says_that_it_is_invented(document: dict[str, Any]) -> None:
    assert "Invented" in document["notes"]


def test_rooms_walls_and_storeys(document: dict[str, Any]) -> None:
    rooms = document["calculations"]["heat_loss"]["inputs"]["rooms"]
    assert len(rooms) >= 9
    assert any(room["name"] == "loft room" for room in rooms)
    assert {"solid_wall", "cavity_wall"} <= document["calculations"].keys()


def test_everything_is_computed(record: dict[str, Any]) -> None:
    assert record["not_computed"] == []


def test_every_reading_feeds_a_calculation_or_an_open_question(record: dict[str, Any]) -> None:
    assert not [q for q in record["open_questions"] if "feeds no calculation" in q["question"]]


def test_a_link_in_each_family(document: dict[str, Any]) -> None:
    families = {entry.id: entry.family for entry, _ in default_host().entries.values()}
    linked = {
        families[item["calculation"]]
        for item in document["calculations"].values()
        if _links(item["inputs"])
    }
    assert linked == {
        "heat-loss",
        "gas",
        "hot-water",
        "sealed-heating",
        "condensate",
        "unvented-hot-water",
        "water-supply",
    }


def test_the_verdict_hides_nothing(record: dict[str, Any]) -> None:
    """The householder's wish to lead relief water into the pump makes the whole job dangerous."""
    assert record["verdict"] == "dangerous"
    assert record["incomplete"] is True
    assert record["attention"][0]["calculation"] == "relief_into_pump"
    verdicts = {name: entry["verdict"] for name, entry in record["calculations"].items()}
    assert verdicts["gas_as_it_is"] == "not-met"
    assert verdicts["gas_in_28_mm"] == "met"


def test_the_record_is_sealed(record: dict[str, Any]) -> None:
    from tundish.canonical import fingerprint

    assert fingerprint(record) == record["fingerprint"]
    changed = json.loads(json.dumps(record))
    changed["calculations"]["heat_loss"]["record"]["outputs"]["design_heat_loss"]["value"] += 1e-9
    assert fingerprint(changed) != record["fingerprint"]
