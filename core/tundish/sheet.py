"""A record or a job's record as blocks of words: one arrangement, drawn by the terminal and Markdown.

The order is what a person on site needs: the verdict, what is wrong and by how much, the answers,
the cautions, what is still open, and then the working and the sources.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tundish.words import name_words, number_words, pointer_words, unit_words, value_words, visible

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tundish.contract import Node


@dataclass(frozen=True)
class Heading:
    """A heading; ``level`` 1 is the title."""

    text: str
    level: int = 2


@dataclass(frozen=True)
class Verdict:
    """A verdict with the sentence that goes with it."""

    verdict: str | None
    words: str


@dataclass(frozen=True)
class Paragraph:
    """Plain words; ``mark`` says what kind: a caution, a question, or nothing."""

    text: str
    mark: str = ""


@dataclass(frozen=True)
class Grid:
    """A table. ``numbers`` are the columns set to the right."""

    head: tuple[str, ...]
    rows: list[tuple[str, ...]]
    numbers: frozenset[int] = field(default_factory=frozenset)
    title: str = ""


@dataclass(frozen=True)
class Entry:
    """A term with its facts in brief, and its meaning below it."""

    term: str
    facts: str
    text: str


Block = Heading | Verdict | Paragraph | Grid | Entry
_COLUMNS = 4
_MANY = 3
_FIGURES = 6
_LONG = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:e[-+]?\d+)?(?![\w.])")


# --- one record -----------------------------------------------------------------------------------


def _is_value(value: Any) -> bool:
    return not isinstance(value, dict) or "unit" in value


def _grids(value: Mapping[str, Any], node: Node, title: str, figures: int) -> Iterator[Grid]:
    """Lay out values: a grid of plain ones, then one for each list of items, curves left out."""
    plain: list[tuple[str, ...]] = []
    later: list[Grid] = []
    for child in node.fields:  # the contract's order, which canonical JSON does not keep
        item = value[child.name]
        words = name_words(child.name)
        if item is None:
            continue
        if isinstance(item, list) and item and not _is_value(item[0]):
            assert child.item is not None
            later += _list_grid(item, child.item, words, figures)
        elif not _is_value(item):
            if any(isinstance(part, dict) and "values" in part for part in item.values()):
                continue  # a curve is for the chart
            later += _grids(item, child, words, figures)
        else:
            symbol = getattr(child.leaf, "symbol", "") if child.leaf is not None else ""
            plain.append((words, symbol, value_words(item, figures)))
    if plain:
        yield Grid(("", "", ""), plain, frozenset({2}), title)
    yield from later


def _flat_row(row: Mapping[str, Any], node: Node) -> dict[str, Any]:
    """Lay a row's groups of plain values out beside its own values."""
    flat: dict[str, Any] = {}
    for child in node.fields:
        value = row.get(child.name)
        if isinstance(value, dict) and not _is_value(value):
            for inner in child.fields:
                if _is_value(value.get(inner.name)) and not isinstance(value[inner.name], list):
                    flat[f"{child.name}_{inner.name}"] = value[inner.name]
        elif not isinstance(value, list):
            flat[child.name] = value
    return {k: v for k, v in flat.items() if not (isinstance(v, dict) and "values" in v)}


def _column(name: str, values: list[Any], figures: int) -> tuple[str, list[str], bool]:
    """Return a column's head, its cells, and whether it holds numbers."""
    units = {value["unit"] for value in values if isinstance(value, dict)}
    one = next(iter(units)) if len(units) == 1 else None
    head = name_words(name) + (f", {unit_words(one)}" if one and unit_words(one) else "")
    cells = []
    for value in values:
        bare = value["value"] if one and isinstance(value, dict) else value
        basis = f" {value['basis']}" if one and isinstance(value, dict) and "basis" in value else ""
        cells.append(value_words(bare, figures) + basis)
    return head, cells, bool(units) or any(isinstance(value, float) for value in values)


def _list_grid(rows: list[Any], node: Node, title: str, figures: int) -> Iterator[Grid]:
    """Lay out a list: a few columns at a time, each with the name before them."""
    flat = [_flat_row(row, node) for row in rows]
    names = list(dict.fromkeys(name for row in flat for name in row if name != "name"))
    names = [name for name in names if any(row.get(name) is not None for row in flat)]
    named = any("name" in row for row in flat)
    for start in range(0, len(names), _COLUMNS):
        chosen = (["name"] if named else []) + names[start : start + _COLUMNS]
        columns = [_column(name, [row.get(name) for row in flat], figures) for name in chosen]
        numbers = frozenset(k for k, (_, _, numeric) in enumerate(columns) if numeric)
        yield Grid(
            tuple(head for head, _, _ in columns),
            list(zip(*(cells for _, cells, _ in columns), strict=True)),
            numbers,
            title if start == 0 else "",
        )
    for row in rows:
        for child in node.fields:
            inner = row.get(child.name)
            if isinstance(inner, list) and inner and not _is_value(inner[0]):
                assert child.item is not None
                label = f"{row.get('name', title)}: {name_words(child.name)}"
                yield from _list_grid(inner, child.item, label, figures)


def _rank(verdict: str) -> int:
    return ("dangerous", "not-met", "advisory", "met").index(verdict)


def findings(record: Mapping[str, Any]) -> Iterator[Block]:
    """Every finding, the worst first, each with its margin and where its limit comes from.

    Where many items of a list all keep a limit, the closest of them stands for all.
    """
    shown: list[tuple[dict[str, Any], dict[str, Any], str]] = []
    for finding in record["findings"].values():
        items = finding["items"]
        if len(items) > _MANY and all(item["verdict"] == "met" for item in items):
            closest = min(items, key=_margin)
            shown.append((closest, finding, f" All {len(items)} are met; this is the closest."))
        else:
            shown += [(item, finding, "") for item in items]
    shown.sort(key=lambda entry: _rank(entry[0]["verdict"]))
    rules = {rule["rule"]: rule for rule in record["provenance"]["rules"]}
    for item, finding, tail in shown:
        cited = rules.get(finding.get("rule", ""))
        origin = f" [{_edition(cited['edition'])}, {cited['locator']}]" if cited else ""
        name = item.get("item", "")
        who = f"{name}: " if name and name not in item["words"] else ""
        yield Verdict(item["verdict"], f"{finding['title']}. {who}{item['words']}{tail}{origin}")


def _margin(item: Mapping[str, Any]) -> float:
    margin = item.get("margin")
    return float(margin["value"] if isinstance(margin, dict) else margin or 0.0)


def _steps(record: Mapping[str, Any]) -> Iterator[Block]:
    path: list[str] = []
    for number, step in enumerate(record.get("working", ()), start=1):
        if step.get("path", []) != path:
            path = step.get("path", [])
            if path:
                yield Heading(" / ".join(path), 3)
        yield Paragraph(f"{number}. {step_words(step)}")


def _rounded(text: str) -> str:
    """Shorten the long numbers of a printed expression; the record keeps every figure."""
    return _LONG.sub(lambda found: number_words(float(found[0]), _FIGURES), text)


def _result(step: Mapping[str, Any]) -> str:
    unit = unit_words(step["unit"])
    return f"{number_words(step['value'], 5)} {unit}".rstrip()


def _edition(edition: str) -> str:
    """Write an edition for people: the first of what we derived ourselves has a number only."""
    return "derived" if edition == "1" else edition


def _table_words(step: Mapping[str, Any]) -> str:
    asked, row = step["asked"], step["row"]
    keys = asked if isinstance(asked, dict) else {}
    told = {name: item for name, item in row.items() if name not in keys} if row else {}
    age = ", superseded" if step["superseded"] else ""
    where = ", ".join(f"{name_words(k)} {value_words(v)}" for k, v in keys.items())
    return (
        f"Table {step['rule']} ({_edition(step['edition'])}{age}), {where or value_words(asked)}: "
        f"{value_words(told)}"
    )


def step_words(step: Mapping[str, Any]) -> str:
    """Write one step of the working as a sentence of mathematics."""
    kind = step["step"]
    if kind == "formula":
        return (
            f"{step['name']}: {step['symbol']} = {step['formula']}"
            f" = {_rounded(step['substituted'])} = {_result(step)}"
        )
    if kind == "rule":
        value, edition = value_words(step["value"]), _edition(step["edition"])
        return f"Rule {step['rule']}: {step['name']}: {value} ({edition})"
    if kind == "table":
        return _table_words(step)
    if kind == "choice":
        name = step["name"]
        return f"{name[:1].upper()}{name[1:]}: {'yes' if step['holds'] else 'no'}"
    if kind == "search":
        return (
            f"Search for {step['name']} between {step['low']:.6g} and {step['high']:.6g}: "
            f"{step['value']:.6g}, residual {step['residual']:.2g}"
        )
    rest = {k: v for k, v in step.items() if k not in {"step", "name", "path", "source"}}
    return f"{step.get('name', kind)}: {value_words(rest)}" if rest else str(step.get("name", kind))


def record_blocks(
    record: Mapping[str, Any],
    node: Node,
    *,
    working: bool = False,
    figures: int = 4,
    level: int = 1,
) -> Iterator[Block]:
    """Lay out one record."""
    what = record["calculation"]
    yield Heading(what["title"], level)
    context = [what["id"], record.get("method", ""), f"rules of {record['region']}", record["date"]]
    yield Paragraph(" · ".join(part for part in context if part))
    tail = "is the verdict of this calculation." if record["verdict"] else "here: no limit applies."
    yield Verdict(record["verdict"], tail)
    yield from findings(record)
    yield Heading("Answers", level + 1)
    yield from _grids(record["outputs"], node, "", figures)
    if record["inputs"]["defaulted"]:
        yield Heading("Taken as defaults, because they were not given", level + 1)
        given = record["inputs"]["understood"]
        rows: list[tuple[str, ...]] = [
            (pointer_words(pointer), value_words(_at(given, pointer)), origin)
            for pointer, origin in record["inputs"]["defaulted"].items()
            if _at(given, pointer) not in ([], None)
        ]
        yield Grid(("field", "value", "from"), rows)
    if working:
        yield Heading("Working", level + 1)
        yield from _steps(record)
    yield Heading("Cautions", level + 1)
    for item in record["cautions"]:
        yield Paragraph(item["words"], "caution")
    if working and record.get("sources"):
        yield Heading("Sources", level + 1)
        for source in record["sources"]:
            yield Paragraph(source_words(source))
    yield Paragraph(f"Fingerprint {record['fingerprint']} (shows accidental change, not forgery)")


def source_words(source: Mapping[str, Any]) -> str:
    """Write a citation."""
    seen = f", {source['confirmed']}"
    return f"{source['id']}: {source['document']}, {source['edition']}, {source['locator']}{seen}"


def _at(value: Any, pointer: str) -> Any:
    for part in pointer.split("/")[1:]:
        value = value[int(part)] if isinstance(value, list) else value[part]
    return value


# --- a job ----------------------------------------------------------------------------------------


def job_blocks(
    record: Mapping[str, Any], nodes: Mapping[str, Node], *, working: bool = False
) -> Iterator[Block]:
    """Lay out a job: its verdict, what wants attention, answers one by one, open questions."""
    yield Heading(record["title"], 1)
    if record["notes"]:
        yield Paragraph(record["notes"])
    yield Paragraph(f"rules of {record['region']} · {record['date']}")
    tail = " (incomplete: something is open or refused)" if record["incomplete"] else ""
    yield Verdict(record["verdict"], f"is the verdict of the whole job{tail}.")
    if record["attention"]:
        yield Heading("What wants attention")
        for item in record["attention"]:
            yield Verdict(
                item["verdict"], f"{item['calculation']}: {item['title']}. {item['words']}"
            )
    for name in record["listed"]:
        entry = record["calculations"][name]
        title = entry.get("title") or name_words(name)
        yield Heading(f"{title} ({name})")
        if entry.get("linked_from"):
            yield Paragraph(f"Takes values from {', '.join(entry['linked_from'])}.")
        if entry["status"] == "answered":
            yield from _entry_blocks(entry["record"], nodes[entry["calculation"]], working=working)
        elif entry["status"] == "refused":
            problem = entry["problem"]
            where = f" at {visible(problem['pointer'])}" if "pointer" in problem else ""
            yield Verdict("not-met", f"Refused{where}: {problem['detail']} {problem['remedy']}")
        else:
            yield Verdict("incomplete", f"Not computed because {'; '.join(entry['because'])}.")
    if record["open_questions"]:
        yield Heading("Open questions")
        for item in record["open_questions"]:
            settled = f" Settled by: {item['settled_by']}" if "settled_by" in item else ""
            readings = f" (readings: {', '.join(item['readings'])})" if "readings" in item else ""
            yield Paragraph(f"{item['question']}{settled}{readings}", "question")
    yield Heading("Cautions")
    for item in record["cautions"]:
        yield Paragraph(item["words"], "caution")
    yield Paragraph(f"Fingerprint {record['fingerprint']} (shows accidental change, not forgery)")


def _entry_blocks(record: Mapping[str, Any], node: Node, *, working: bool) -> Iterator[Block]:
    if record["verdict"] is not None:
        yield Verdict(record["verdict"], f"is the verdict of {record['calculation']['id']}.")
    yield from _grids(record["outputs"], node, "", 4)
    yield from findings(record)
    if working:
        yield Heading("Working", 3)
        yield from _steps(record)
