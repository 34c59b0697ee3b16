"""The corpus itself: every case against this installation, every file against its schema."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

import tundish_reference_cases
from tundish_reference_cases.groups import load, manifest, schema
from tundish_reference_cases.lint import lint
from tundish_reference_cases.write import document
from tundish_reference_cases.write import manifest as counted

pytest_plugins = ["tundish_reference_cases.pytest_plugin"]

PACKAGE = Path(tundish_reference_cases.__file__).parent
FILES = sorted((PACKAGE / "cases").rglob("*.json"))


def test_case(tundish_case: Any, tundish_target: Any) -> None:
    judgement = tundish_case.put_to(tundish_target)
    assert judgement.verdict == "pass", tundish_case.explain(judgement)


def test_nothing_for_the_linter() -> None:
    assert lint(load()) == []


def test_every_file_is_read() -> None:
    assert len(FILES) == len(load().groups)
    assert FILES


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_file(path: Any) -> None:
    text = path.read_text(encoding="utf-8")
    data = json.loads(text)
    jsonschema.Draft202012Validator(schema()).validate(data)
    assert text == document(data), "run: python -m tundish_reference_cases.write"
    calculation, region, _ = path.relative_to(PACKAGE / "cases").parts
    assert data["calculation"] == calculation
    for case in data["cases"]:
        assert region == "INT" or case["request"]["region"].partition("-")[0] in {region, "INT"}


def test_manifest_lists_what_there_is() -> None:
    told = manifest()
    jsonschema.Draft202012Validator(schema("manifest-1")).validate(told)
    mine = [group for group in load().groups if (PACKAGE / "cases" / group.path).exists()]
    fresh = counted(told, mine)
    assert told == fresh, "run: python -m tundish_reference_cases.write"
    assert told["cases"] == sum(len(json.loads(path.read_text())["cases"]) for path in FILES)
    assert (told["version"], told["licence"]) == ("2026.1", "CC-BY-4.0")
