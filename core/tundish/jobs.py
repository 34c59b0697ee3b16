"""Jobs: named calculations whose inputs may point at another's output.

A document (``job/1``) holds readings taken in the house, calculations and open questions. A link
is an object with the one member ``from`` (a JSON Pointer such as
``/heat_loss/outputs/rooms/kitchen/design_heat_loss`` or ``/readings/static_pressure``; a segment
matches an item's name before its index) or ``sum`` (a list of links). Nothing else is computed in
a job: any other arithmetic is a calculation. ``{"open": "question"}`` stands where a value is
still to come.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING, Any, Final

from tundish.answering import answer
from tundish.canonical import sealed
from tundish.contract import escape
from tundish.findings import worst
from tundish.host import CalculationUnknownError, PluginUnavailableError
from tundish.host import today as today_of_host
from tundish.leaves import LONGEST_PROSE, PRINTABLE, Column, Quantity
from tundish.links import (
    LARGEST,
    READINGS,
    Link,
    UnresolvedError,
    bad_job,
    carried,
    links_of,
    look_up,
    path_of,
    put,
    summed_up,
)
from tundish.problems import RefusedRequest, problem_json
from tundish.quantities.reading import LARGEST as LARGEST_NUMBER
from tundish.run import DEFAULT_PARTS, DEFAULT_REGION

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from tundish.contract import Node
    from tundish.host import Host

SCHEMA: Final = "job/1"
_MEMBERS: Final = (
    "schema",
    "title",
    "notes",
    "region",
    "date",
    "units",
    "readings",
    "calculations",
    "open_questions",
)
_ENTRY: Final = ("calculation", "title", "inputs", "method", "region", "date", "units")
_SHARED: Final = ("region", "date", "units")


def _object(value: Any, pointer: str, members: tuple[str, ...] | None = None) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise bad_job(pointer, "A JSON object is expected here.")
    if members is not None:
        for name in value:
            if name not in members:
                raise bad_job(
                    f"{pointer}/{escape(str(name)[:64])}",
                    f"There is no member {str(name)[:64]!r} here.",
                    accepted=list(members),
                )
    return value


def _words(value: Any, pointer: str, longest: int = 2000) -> str:
    fits = isinstance(value, str) and 0 < len(value) <= longest
    if not fits or PRINTABLE.fullmatch(value.replace("\n", " ")) is None:
        raise bad_job(pointer, f"Text of 1 to {longest} printable characters is expected here.")
    return str(value)


# --- the document ---------------------------------------------------------------------------------


@dataclass
class Entry:
    """One calculation of a job."""

    name: str
    calculation: str
    title: str
    request: dict[str, Any]
    links: list[Link]
    questions: list[tuple[str, str]]


@dataclass
class Job:
    """A job document that has been read and whose links make sense."""

    title: str
    notes: str
    entries: dict[str, Entry]
    readings: dict[str, dict[str, Any]]
    open_questions: list[dict[str, Any]]
    shared: dict[str, Any]
    order: list[str] = field(default_factory=list)


def read_job(document: object, host: Host, *, today: dt.date | None = None) -> Job:
    """Read a job document; raises :class:`RefusedRequest` when it cannot be read as a whole."""
    whole = _object(document, "", _MEMBERS)
    if whole.get("schema") != SCHEMA:
        raise bad_job("/schema", f"schema is {SCHEMA!r}.")
    title = _words(whole.get("title"), "/title", 200)
    notes = _words(whole["notes"], "/notes") if "notes" in whole else ""
    shared: dict[str, Any] = {"region": DEFAULT_REGION}
    shared["date"] = (today or today_of_host()).isoformat()
    shared.update({key: _words(whole[key], f"/{key}", 64) for key in _SHARED if key in whole})
    given = _object(whole.get("calculations"), "/calculations")
    if not 0 < len(given) <= LARGEST:
        raise bad_job("/calculations", f"A job holds 1 to {LARGEST} calculations.")
    readings = {
        name: _object(item, f"/readings/{escape(name)}", ("value", "what", "taken"))
        for name, item in _object(whole.get("readings", {}), "/readings").items()
    }
    for name, item in readings.items():
        _check_reading(name, item, f"/readings/{escape(name)}")
    entries = {name: _entry(name, item, shared) for name, item in given.items()}
    job = Job(title, notes, entries, readings, _open_questions(whole), shared)
    _check_links(job, host)
    return job


def _is_name(name: str) -> bool:
    return name.isascii() and name.replace("_", "").replace("-", "").isalnum()


def _check_reading(name: str, item: Mapping[str, Any], where: str) -> None:
    """Refuse a reading that is not a plain value, a quantity or a list of them."""
    if not _is_name(name):
        raise bad_job(where, "A reading's name is letters, digits, _ and -.")
    for key in ("what", "taken"):
        if key in item:
            _words(item[key], f"{where}/{key}")
    if "value" not in item:
        raise bad_job(f"{where}/value", "A reading has a value.")
    value = item["value"]
    for part in value if isinstance(value, list) else [value]:
        if not _is_reading(part):
            raise bad_job(f"{where}/value", "A reading is a value, a quantity or a list of them.")


def _is_reading(part: Any) -> bool:
    """Whether a value can be recorded, added up and read again by the field it feeds."""
    if isinstance(part, dict):
        words = [word for name, word in part.items() if name != "value"]
        return (
            {"value", "unit"} <= part.keys() <= {"value", "unit", "basis"}
            and _is_number(part["value"])
            and all(isinstance(word, str) and _is_reading(word) for word in words)
        )
    if isinstance(part, str):
        return len(part) <= LONGEST_PROSE and PRINTABLE.fullmatch(part) is not None
    return isinstance(part, bool) or _is_number(part)


def _is_number(part: Any) -> bool:
    return type(part) in {int, float} and abs(part) <= LARGEST_NUMBER  # NaN is not, either


def _entry(name: str, item: Any, shared: Mapping[str, Any]) -> Entry:
    where = f"/calculations/{escape(name)}"
    if name == READINGS or not _is_name(name):
        raise bad_job(where, "A calculation's name in a job is letters, digits, _ and -.")
    body = _object(item, where, _ENTRY)
    calculation = _words(body.get("calculation"), f"{where}/calculation", 100)
    title = _words(body["title"], f"{where}/title", 200) if "title" in body else ""
    inputs = _object(body.get("inputs"), f"{where}/inputs")
    for key in ("method", *_SHARED):
        if key in body:
            _words(body[key], f"{where}/{key}", 64)
    request = {**shared, **{k: v for k, v in body.items() if k not in {"calculation", "title"}}}
    return Entry(
        name,
        calculation,
        title,
        request,
        list(links_of(inputs, (), f"{where}/inputs")),
        list(_questions(inputs, f"{where}/inputs")),
    )


def _open_questions(whole: Mapping[str, Any]) -> list[dict[str, Any]]:
    given = whole.get("open_questions", [])
    if not isinstance(given, list):
        raise bad_job("/open_questions", "A JSON array is expected here.")
    found = []
    for index, item in enumerate(given):
        where = f"/open_questions/{index}"
        body = _object(item, where, ("question", "settled_by", "readings"))
        question: dict[str, Any] = {"question": _words(body.get("question"), f"{where}/question")}
        if "settled_by" in body:
            question["settled_by"] = _words(body["settled_by"], f"{where}/settled_by")
        names = body.get("readings", [])
        known = whole.get("readings", {})
        if not isinstance(names, list) or any(
            not isinstance(name, str) or name not in known for name in names
        ):
            raise bad_job(f"{where}/readings", "readings is a list of names of readings.")
        if names:
            question["readings"] = names
        found.append(question)
    return found


def _node(host: Host, calculation: str, source: str) -> Node | None:
    """Return the contract's node that a link reads; none when the calculation is not there."""
    try:
        runner = host.runner(calculation)
    except (CalculationUnknownError, PluginUnavailableError):
        return None
    _, _, root, *rest = source.split("/")
    if root not in {"inputs", "outputs"}:
        raise UnresolvedError(root)
    found = runner.node_at("/".join(["", root, *rest]))
    if found is None:
        raise UnresolvedError(source)
    return found


def _target(host: Host, calculation: str, link: Link) -> Node | None:
    try:
        return host.runner(calculation).calculation.inputs_node.at(link.pointer)
    except (CalculationUnknownError, PluginUnavailableError):
        return None


def _one_or_list(node: Node) -> tuple[Node, bool]:
    """Return the node of one value, and whether a list of them is carried."""
    if node.item is not None and node.item.leaf is not None:
        return node.item, True
    return node, isinstance(node.leaf, Column)


def _compatible(source: Node, target: Node, *, summed: bool) -> bool:
    source, many = _one_or_list(source)
    target, wants_many = _one_or_list(target)
    if source.leaf is None or target.leaf is None or many != wants_many or (many and summed):
        return False
    if isinstance(target.leaf, Quantity):
        if not isinstance(source.leaf, Quantity):
            return False
        accepted = set(target.leaf.bases.values()) or {target.leaf.kind}
        offered = set(source.leaf.bases.values()) or {source.leaf.kind}
        # A value that carries no basis cannot fill a field that asks for one.
        return offered <= accepted and bool(source.leaf.bases or not target.leaf.bases)
    return not isinstance(source.leaf, Quantity)


def _check_links(job: Job, host: Host) -> None:
    """Refuse links that point at nothing, join two kinds, or run in a circle."""
    graph: dict[str, set[str]] = {}
    for entry in job.entries.values():
        graph[entry.name] = set()
        for link in entry.links:
            where = f"/calculations/{escape(entry.name)}/inputs{link.pointer}"
            target = _target(host, entry.calculation, link)
            for source in link.sources:
                _check_source(job, host, source, target, link, where)
            graph[entry.name] |= link.names
    try:
        job.order = list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        circle = " → ".join(error.args[1])
        raise bad_job(
            "/calculations", f"The links run in a circle: {circle}.", "link-cycle"
        ) from None


def _check_source(
    job: Job, host: Host, source: str, target: Node | None, link: Link, where: str
) -> None:
    head, _, rest = source[1:].partition("/")
    if head == READINGS:
        if rest not in job.readings:
            detail = f"There is no reading {rest[:64]!r}."
            raise bad_job(where, detail, "link-unresolved", accepted=sorted(job.readings))
        return
    if head not in job.entries:
        detail = f"There is no calculation {head[:64]!r} in this job."
        raise bad_job(where, detail, "link-unresolved", accepted=sorted(job.entries))
    if "/" not in rest:
        raise bad_job(where, f"{source} names no input or output.", "link-unresolved")
    try:
        node = _node(host, job.entries[head].calculation, source)
    except UnresolvedError:
        raise bad_job(where, f"{source} is not an input or output.", "link-unresolved") from None
    if (
        node is not None
        and target is not None
        and not _compatible(node, target, summed=link.summed)
    ):
        raise bad_job(where, f"{source} is another kind of value than this field.", "link-kind")


def _questions(value: Any, pointer: str) -> Iterator[tuple[str, str]]:
    """Every ``{"open": "question"}`` with the place it stands at."""
    if isinstance(value, dict):
        if value.keys() == {"open"}:
            yield pointer, _words(value["open"], pointer)
            return
        for key, item in value.items():
            yield from _questions(item, f"{pointer}/{escape(key)}")
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _questions(item, f"{pointer}/{index}")


# --- running --------------------------------------------------------------------------------------


def _fill(job: Job, entry: Entry, records: Mapping[str, Any], host: Host) -> dict[str, Any]:
    """Put the linked values into an entry's inputs."""
    inputs: Any = entry.request["inputs"]
    for link in entry.links:
        where = f"/calculations/{escape(entry.name)}/inputs{link.pointer}"
        target = _target(host, entry.calculation, link)
        values = []
        for source in link.sources:
            head, _, rest = source[1:].partition("/")
            if head == READINGS:
                values.append(job.readings[rest]["value"])
                continue
            try:
                found = look_up(records[head], path_of(source))
            except UnresolvedError:
                detail = f"{source} is not in the answer."
                raise bad_job(where, detail, "link-unresolved") from None
            if found is None:
                detail = f"{source} has no value in this case."
                raise bad_job(where, detail, "link-unresolved")
            values.append(carried(found, target, where))
        filled = summed_up(values, where) if link.summed else values[0]
        inputs = put(inputs, link.at, filled)
    return {**entry.request, "inputs": inputs}


def _run_entry(
    job: Job, entry: Entry, done: dict[str, dict[str, Any]], host: Host, parts: frozenset[str]
) -> dict[str, Any]:
    """Return how one calculation of a job came out."""
    result: dict[str, Any] = {"calculation": entry.calculation}
    if entry.title:
        result["title"] = entry.title
    linked = sorted({name for link in entry.links for name in link.names})
    if linked:
        result["linked_from"] = linked
    missing = [name for name in linked if done[name]["status"] != "answered"]
    if missing or entry.questions:
        result["status"] = "not-computed"
        because = [f"{name} is {done[name]['status']}" for name in missing]
        because += [f"open at {pointer}: {question}" for pointer, question in entry.questions]
        result["because"] = because
        return result
    try:
        request = _fill(job, entry, {k: v.get("record") for k, v in done.items()}, host)
    except RefusedRequest as refused:
        return {**result, "status": "refused", "problem": refused.as_json()}
    status, body = answer(entry.calculation, request, parts=parts, host=host)
    if status == 200:  # noqa: PLR2004
        return {**result, "status": "answered", "verdict": body["verdict"], "record": body}
    return {**result, "status": "refused", "problem": body}


def _unread(job: Job) -> list[str]:
    """Readings that feed nothing and that no open question names."""
    used = {
        source.removeprefix(f"/{READINGS}/")
        for entry in job.entries.values()
        for link in entry.links
        for source in link.sources
    }
    asked = {name for question in job.open_questions for name in question.get("readings", [])}
    return [name for name in job.readings if name not in used | asked]


def _attention(done: Mapping[str, Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Every finding that is not simply met, the worst first."""
    found = [
        {
            "calculation": name,
            "finding": code,
            "title": finding["title"],
            "verdict": item["verdict"],
            "words": item["words"],
            "pointer": item["pointer"],
        }
        for name, entry in done.items()
        if entry["status"] == "answered"
        for code, finding in entry["record"]["findings"].items()
        for item in finding["items"]
        if item["verdict"] != "met"
    ]
    rank = {"dangerous": 0, "not-met": 1, "advisory": 2}
    return sorted(found, key=lambda item: rank[item["verdict"]])


def answer_job(
    document: object,
    host: Host,
    *,
    today: dt.date | None = None,
    parts: frozenset[str] = DEFAULT_PARTS,
) -> tuple[bytes, str]:
    """Run a job: its record's wire bytes and fingerprint; raises :class:`RefusedRequest`.

    The verdict is the worst of its calculations'; while something is refused or open it is
    ``incomplete`` instead of ``met`` or ``advisory``, and never hides a worse one.
    """
    job = read_job(document, host, today=today)
    done: dict[str, dict[str, Any]] = {}
    for name in job.order:
        done[name] = _run_entry(job, job.entries[name], done, host, parts)
    ordered = {name: done[name] for name in job.entries}
    questions = [*job.open_questions]
    questions += [
        {"question": question, "pointer": pointer}
        for entry in job.entries.values()
        for pointer, question in entry.questions
    ]
    questions += [
        {"question": f"The reading {name} feeds no calculation yet.", "readings": [name]}
        for name in _unread(job)
    ]
    undone = [name for name, entry in ordered.items() if entry["status"] != "answered"]
    verdict = worst([v for e in ordered.values() if (v := e.get("verdict")) is not None])
    incomplete = bool(undone or questions)
    if incomplete and verdict not in {"not-met", "dangerous"}:
        verdict = "incomplete"
    cautions: dict[str, str] = {}
    for entry in ordered.values():
        if entry["status"] == "answered":
            for item in entry["record"]["cautions"]:
                cautions.setdefault(item["caution"], item["words"])
    record: dict[str, Any] = {
        "schema": "job-result/1",
        "title": job.title,
        "notes": job.notes,
        "region": job.shared["region"],
        "date": job.shared["date"],
        "readings": job.readings,
        "order": job.order,
        "listed": list(job.entries),
        "calculations": ordered,
        "verdict": verdict,
        "incomplete": incomplete,
        "not_computed": undone,
        "attention": _attention(ordered),
        "open_questions": questions,
        "cautions": [{"caution": name, "words": words} for name, words in cautions.items()],
    }
    return sealed(record)


def run_job(
    document: object,
    host: Host,
    *,
    today: dt.date | None = None,
    parts: frozenset[str] = DEFAULT_PARTS,
) -> dict[str, Any]:
    """Run a job and return its record; raises :class:`RefusedRequest`."""
    raw, _ = answer_job(document, host, today=today, parts=parts)
    record: dict[str, Any] = json.loads(raw)
    return record


__all__ = ["Job", "RefusedRequest", "answer_job", "problem_json", "read_job", "run_job"]
