"""A calculation's description as blocks of words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.sheet import Entry, Heading, Paragraph
from tundish.words import name_words, pointer_words, unit_words, value_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tundish.sheet import Block


_WORDS = {"flag": "yes or no", "text": "words", "name": "a name"}
_NEVER = {"increasing": "never falls", "decreasing": "never rises"}


def _range(field: Mapping[str, Any]) -> str:
    low, high = field.get("minimum"), field.get("maximum")
    if "options" in field:
        return " | ".join(map(str, field["options"]))
    if low is None and high is None:
        return ""
    if low is None or high is None:
        return f"at least {low:g}" if low is not None else f"at most {high:g}"
    return f"{low:g} to {high:g}"


def _default(field: Mapping[str, Any]) -> str:
    if "default" in field:
        return f"default {value_words(field['default'])}"
    if "default_rule" in field:
        return f"default by rule {field['default_rule']}"
    return "required" if field["required"] else ""


def _facts(*words: str) -> str:
    return ", ".join(word for word in words if word)


def _inputs(told: Mapping[str, Any]) -> Iterator[Block]:
    yield Heading("Inputs")
    for field in told["inputs"]:
        unit = unit_words(field["unit"]) if "unit" in field else ""
        within = " ".join((_range(field), unit)).strip()
        word = _WORDS.get(str(field["kind"]), within)
        basis = " or ".join(field.get("bases", ()))
        facts = _facts(field.get("symbol", ""), word, basis, _default(field))
        yield Entry(field["pointer"][1:], facts, field["help"])


def _answers(told: Mapping[str, Any]) -> Iterator[Block]:
    yield Heading("Answers")
    for field in told["outputs"]:
        facts = _facts(field.get("symbol", ""), unit_words(field.get("unit", "")))
        yield Entry(field["pointer"][1:], facts, field["help"])


def _formulas(told: Mapping[str, Any]) -> Iterator[Block]:
    yield Heading("Formulas")
    sources: dict[str, str] = {}
    for item in told["formulas"]:
        source = item["source"]
        sources.setdefault(source["id"], f"{source['document']}, {source['locator']}")
        unit = unit_words(item["unit"])
        yield Entry(item["name"], _facts(f"in {unit}" if unit else "", source["id"]), item["text"])
    yield Heading("Sources of the formulas")
    for name, text in sources.items():
        yield Entry(name, "", text)
    if told["directions"]:
        yield Heading("What follows what")
    for item in told["directions"]:
        yield Paragraph(
            f"With a larger {pointer_words(item['input'])}, {pointer_words(item['output'])} "
            f"{_NEVER[item['direction']]}."
        )


def _limit(limit: Any) -> str:
    if isinstance(limit, bool):
        return "yes" if limit else "no"
    return pointer_words(limit) if limit.startswith("/") else f"rule {limit}"


def _judged(told: Mapping[str, Any]) -> Iterator[Block]:
    if told["findings"]:
        yield Heading("Judged")
    for item in told["findings"]:
        yield Entry(
            item["title"],
            f"{item['passed']} or {item['failed']}",
            f"{pointer_words(item['quantity'])} {name_words(item['sense'])} {_limit(item['limit'])}",
        )


def describe_blocks(told: Mapping[str, Any]) -> Iterator[Block]:
    """Lay out a description: questions, inputs, answers, methods, formulas, limits, refusals."""
    yield Heading(f"{told['title']} ({told['id']})", 1)
    yield Paragraph(told["summary"])
    for question in told["questions"]:
        yield Paragraph(question, "question")
    yield from _inputs(told)
    yield from _answers(told)
    yield Heading("Methods")
    for method in told["methods"]:
        yield Entry(method["id"], method["title"], method["summary"])
    yield from _formulas(told)
    yield from _judged(told)
    yield Heading("Refused")
    for item in told["refusals"]:
        yield Entry(item["code"], "", f"{item['title']}. {item['remedy']}")
