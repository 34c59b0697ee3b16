"""A calculation's description as blocks of words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.sheet import Grid, Heading, Paragraph
from tundish.words import name_words, unit_words, value_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tundish.sheet import Block


def _range(field: Mapping[str, Any]) -> str:
    low, high = field.get("minimum"), field.get("maximum")
    if "options" in field:
        return ", ".join(field["options"])
    if low is None and high is None:
        return ""
    if low is None or high is None:
        return f"at least {low:g}" if low is not None else f"at most {high:g}"
    return f"{low:g} to {high:g}"


def _default(field: Mapping[str, Any]) -> str:
    if "default" in field:
        return value_words(field["default"])
    if "default_rule" in field:
        return f"rule {field['default_rule']}"
    return "required" if field["required"] else ""


def describe_blocks(told: Mapping[str, Any]) -> Iterator[Block]:
    """Lay out a description: questions, inputs, answers, methods, limits, refusals."""
    yield Heading(f"{told['title']} ({told['id']})", 1)
    yield Paragraph(told["summary"])
    for question in told["questions"]:
        yield Paragraph(question, "question")
    yield Heading("Inputs")
    rows: list[tuple[str, ...]] = [
        (
            field["pointer"][1:],
            unit_words(field["unit"]) if "unit" in field else field["kind"],
            _range(field),
            _default(field),
            field["help"],
        )
        for field in told["inputs"]
    ]
    yield Grid(("field", "unit", "range", "default", "meaning"), rows)
    yield Heading("Answers")
    rows = [
        (
            field["pointer"][1:],
            field.get("symbol", ""),
            unit_words(field.get("unit", "")),
            field["help"],
        )
        for field in told["outputs"]
    ]
    yield Grid(("field", "symbol", "unit", "meaning"), rows)
    yield Heading("Methods")
    for method in told["methods"]:
        yield Paragraph(f"{method['id']}: {method['summary']}")
    if told["findings"]:
        yield Heading("Judged")
        rows = [
            (
                item["title"],
                name_words(item["sense"]),
                str(item["limit"]),
                item["passed"],
                item["failed"],
            )
            for item in told["findings"]
        ]
        yield Grid(("finding", "sense", "limit", "kept", "broken"), rows)
    yield Heading("Refused")
    for item in told["refusals"]:
        yield Paragraph(f"{item['code']}: {item['remedy']}")
