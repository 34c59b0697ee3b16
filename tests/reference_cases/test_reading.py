"""The strict reader, and that it says what a full JSON Schema implementation says."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

import copy
import json

import jsonschema
import pytest

from tundish_reference_cases.groups import CorpusError, load, read_group, schema
from tundish_reference_cases.shape import ShapeError, check, parse

KEYWORDS = {
    "$defs", "$id", "$ref", "$schema", "additionalProperties", "const", "enum", "items",
    "maxItems", "maxLength", "minItems", "minLength", "minProperties", "minimum", "pattern",
    "properties", "required", "title", "type",
}  # fmt: skip


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{"a": 1, "a": 2}', "twice"),
        ('{"a": {"b": 1, "b": 1}}', "twice"),
        ("[NaN]", "NaN"),
        ("[Infinity]", "Infinity"),
        ("[-Infinity]", "Infinity"),
        ("[1e999]", "too large"),
        ("{", "Expecting"),
        ("", "Expecting"),
    ],
)
def test_refused_text(text: str, words: str) -> None:
    with pytest.raises(ShapeError, match=words):
        parse(text)


def _schemas(node: Any) -> Iterator[Any]:
    """Every schema inside a schema: members of ``properties`` are names, not keywords."""
    yield node
    for name in ("properties", "$defs"):
        for inner in node.get(name, {}).values():
            yield from _schemas(inner)
    for name in ("items", "additionalProperties"):
        if isinstance(node.get(name), dict):
            yield from _schemas(node[name])


@pytest.mark.parametrize("name", ["group-1", "manifest-1"])
def test_no_keyword_that_our_reader_passes_over(name: str) -> None:
    for node in _schemas(schema(name)):
        assert set(node) <= KEYWORDS


@pytest.mark.parametrize("name", ["group-1", "manifest-1", "report-1"])
def test_schema_is_closed(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema(name))
    for node in _schemas(schema(name)):
        if node.get("type") == "object" and "properties" in node:
            assert node["additionalProperties"] is False


def _set(data: Any, path: Any, value: Any) -> None:
    *above, last = path
    here = data
    for part in above:
        here = here[part]
    here[last] = value


def _drop(data: Any, path: Any) -> None:
    *above, last = path
    here = data
    for part in above:
        here = here[part]
    del here[last]


BROKEN = [
    (("surplus",), 1),
    (("schema",), "group/2"),
    (("group",), "tank-mass"),
    (("calculation",), "Tank"),
    (("calculation",), "tank-mass\n"),
    (("title",), "x" * 101),
    (("title",), ""),
    (("cases",), []),
    (("cases", 0, "surplus"), 1),
    (("cases", 0, "id"), "Tank_0"),
    (("cases", 0, "title"), "x" * 101),
    (("cases", 0, "level"), "optional"),
    (("cases", 0, "result"), "either"),
    (("cases", 0, "sources"), []),
    (("cases", 0, "since"), "1"),
    (("cases", 0, "expect"), {}),
    (("cases", 0, "expect", "/outputs/mass", "surplus"), 1),
    (("cases", 0, "expect", "/outputs/mass", "quantity", "surplus"), 1),
    (("cases", 0, "expect", "/outputs/mass", "quantity", "value"), "10"),
    (("cases", 0, "expect", "/outputs/mass", "quantity", "value"), True),
    (("cases", 0, "expect", "/outputs/mass", "tolerance", "basis"), "felt right"),
    (("cases", 0, "expect", "/outputs/mass", "tolerance", "relative"), -1),
    (("cases", 0, "expect", "/outputs/mass", "digits"), 0),
    (("cases", 0, "expect", "/outputs/mass"), {"between": [{"value": 1, "unit": "kg"}] * 3}),
    (("cases", 0, "expect", "/outputs/mass"), {"between": [{"value": 1, "unit": "kg"}]}),
    (("cases", 0, "request", "surplus"), 1),
    (("cases", 0, "request", "date"), "today"),
    (("cases", 7, "refusal", "surplus"), 1),
    (("sources", "printed", "kind"), "hearsay"),
    (("sources", "printed", "confirmed"), "sure"),
    (("sources", "printed", "surplus"), "x"),
    (("sources", "printed", "locator"), ""),
    (("flags", "plain", "kind"), "odd"),
    (("flags", "plain", "surplus"), "x"),
]
MISSING = [
    *[(name,) for name in ("schema", "group", "calculation", "title", "sources", "flags", "cases")],
    *[
        ("cases", 0, name)
        for name in ("id", "title", "level", "request", "result", "sources", "since")
    ],
    *[("cases", 0, "request", name) for name in ("inputs", "region", "date")],
    *[("cases", 7, "refusal", name) for name in ("code", "pointer")],
    *[
        ("sources", "printed", name)
        for name in ("kind", "document", "edition", "locator", "confirmed")
    ],
    ("cases", 0, "expect", "/outputs/mass", "tolerance", "basis"),
    ("cases", 0, "expect", "/outputs/mass", "quantity", "unit"),
]


def test_whole_group_is_read(group: dict[str, Any]) -> None:
    jsonschema.Draft202012Validator(schema()).validate(group)
    assert read_group("g.json", json.dumps(group)).calculation == "tank-mass"


@pytest.mark.parametrize(("path", "value"), BROKEN)
def test_broken_group_is_refused_by_both(group: dict[str, Any], path: Any, value: Any) -> None:
    data = copy.deepcopy(group)
    _set(data, path, value)
    assert list(jsonschema.Draft202012Validator(schema()).iter_errors(data)) or "\n" in str(value)
    with pytest.raises(CorpusError, match=r"g\.json"):
        read_group("g.json", json.dumps(data))


@pytest.mark.parametrize("path", MISSING)
def test_missing_member_is_refused_by_both(group: dict[str, Any], path: Any) -> None:
    data = copy.deepcopy(group)
    _drop(data, path)
    assert list(jsonschema.Draft202012Validator(schema()).iter_errors(data))
    with pytest.raises(CorpusError, match="lacks"):
        read_group("g.json", json.dumps(data))


def test_error_names_the_place(group: dict[str, Any]) -> None:
    group["cases"][3]["request"]["surplus"] = 1
    with pytest.raises(ShapeError, match=r"/cases/3/request has no member 'surplus'"):
        check(group, schema(), schema())


def test_further_folder_is_read(group: dict[str, Any], tmp_path: Path) -> None:
    (tmp_path / "tank-mass" / "INT").mkdir(parents=True)
    (tmp_path / "tank-mass" / "INT" / "plain.json").write_text(json.dumps(group))
    one, more = load(), load([tmp_path])
    assert len(more.groups) == len(one.groups) + 1
    assert more.digest != one.digest


def test_withdrawn_case_is_kept_but_not_asked(group: dict[str, Any]) -> None:
    group["cases"][0]["withdrawn"] = {"in": "2026.2", "reason": "a digit was misread"}
    found = read_group("g.json", json.dumps(group))
    assert "tank-0" not in [case["id"] for case in found.cases]
    assert "tank-0" in [case["id"] for case in found.data["cases"]]
