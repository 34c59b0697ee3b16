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
from tundish.contract import FieldError, escape
from tundish.findings import worst
from tundish.host import CalculationUnknownError, PluginUnavailableError
from tundish.host import today as today_of_host
from tundish.leaves import LONGEST_PROSE, PRINTABLE, Column, Quantity
from tundish.quantities.reading import LARGEST as LARGEST_NUMBER
from tundish.refusals import PROBLEMS
from tundish.run import DEFAULT_PARTS, DEFAULT_REGION, RefusedRequest, problem_json

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from tundish.contract import Node
    from tundish.host import Host

SCHEMA: Final = "job/1"
LARGEST: Final = 200
"""Calculations a job may hold."""
READINGS: Final = "readings"
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


def _bad(pointer: str, detail: str, code: str = "job-invalid", **facts: Any) -> RefusedRequest:
    return RefusedRequest([FieldError(code, pointer, detail, facts)], PROBLEMS)


def _object(value: Any, pointer: str, members: tuple[str, ...] | None = None) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise _bad(pointer, "A JSON object is expected here.")
    if members is not None:
        for name in value:
            if name not in members:
                raise _bad(
                    f"{pointer}/{escape(str(name)[:64])}",
                    f"There is no member {str(name)[:64]!r} here.",
                    accepted=list(members),
                )
    return value


def _words(value: Any, pointer: str, longest: int = 2000) -> str:
    fits = isinstance(value, str) and 0 < len(value) <= longest
    if not fits or PRINTABLE.fullmatch(value.replace("\n", " ")) is None:
        raise _bad(pointer, f"Text of 1 to {longest} printable characters is expected here.")
    return str(value)


# --- links ----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Link:
    """A place in a calculation's inputs that another's output, or a reading, fills."""

    at: tuple[str | int, ...]
    sources: tuple[str, ...]
    summed: bool

    @property
    def pointer(self) -> str:
        """Where the link stands, under the inputs."""
        return "".join(f"/{escape(part)}" for part in self.at)

    @property
    def names(self) -> set[str]:
        """The calculations it reads from."""
        return {source.split("/")[1] for source in self.sources} - {READINGS}


def _is_link(value: Any) -> bool:
    return isinstance(value, dict) and len(value) == 1 and next(iter(value)) in {"from", "sum"}


def _source(value: Any, pointer: str) -> str:
    if not isinstance(value, str) or not value.startswith("/") or not 1 < len(value) <= 400:  # noqa: PLR2004
        raise _bad(pointer, "A link is a JSON Pointer such as '/name/outputs/field'.")
    return value


def _links(value: Any, at: tuple[str | int, ...], pointer: str, depth: int = 0) -> Iterator[Link]:
    if depth > 12:  # noqa: PLR2004  (no contract nests so deep)
        raise _bad(pointer, "The inputs are nested too deeply.")
    if _is_link(value):
        if "from" in value:
            yield Link(at, (_source(value["from"], pointer),), summed=False)
            return
        parts = value["sum"]
        if not isinstance(parts, list) or not 0 < len(parts) <= LARGEST:
            raise _bad(pointer, "sum takes a list of links.")
        for part in parts:
            if not _is_link(part) or "from" not in part:
                raise _bad(pointer, "sum takes links such as {'from': '/name/outputs/field'}.")
        yield Link(at, tuple(_source(part["from"], pointer) for part in parts), summed=True)
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _links(item, (*at, key), f"{pointer}/{escape(key)}", depth + 1)
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _links(item, (*at, index), f"{pointer}/{index}", depth + 1)


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


def _put(value: Any, at: tuple[str | int, ...], filled: Any) -> Any:
    """Return a copy of ``value`` with ``filled`` at a place."""
    if not at:
        return filled
    copy: Any = dict(value) if isinstance(value, dict) else list(value)
    copy[at[0]] = _put(copy[at[0]], at[1:], filled)
    return copy


class _UnresolvedError(LookupError):
    """A link whose pointer names nothing in the record it reads."""


def _look_up(record: Any, segments: list[str]) -> Any:
    here = record
    for segment in segments:
        part = segment.replace("~1", "/").replace("~0", "~")
        if isinstance(here, list):
            named = [item for item in here if isinstance(item, dict) and item.get("name") == part]
            if named:
                here = named[0]
            elif part.isascii() and part.isdigit() and int(part) < len(here):
                here = here[int(part)]
            else:
                raise _UnresolvedError(segment)
        elif isinstance(here, dict) and part in here:
            here = here[part]
        else:
            raise _UnresolvedError(segment)
    return here


def _path(source: str) -> list[str]:
    """Return the segments of a link in the record: inputs are read as they were understood."""
    _, _, root, *rest = source.split("/")
    return ["inputs", "understood", *rest] if root == "inputs" else [root, *rest]


def _carried(found: Any, target: Node | None, where: str) -> Any:
    """Return an answer's value as it stands in a request for the target field."""
    if isinstance(found, dict) and found.keys() == {"values", "unit"}:
        return [{"value": value, "unit": found["unit"]} for value in found["values"]]
    if isinstance(found, dict) and not found.keys() <= {"value", "unit", "basis"}:
        raise _bad(where, "A link carries one value or one list, not an object.", "link-kind")
    if isinstance(found, list) and any(
        isinstance(item, dict) and not item.keys() <= {"value", "unit", "basis"} for item in found
    ):
        raise _bad(where, "A link carries one value or one list of values.", "link-kind")
    wants_no_basis = (
        target is not None and isinstance(target.leaf, Quantity) and not target.leaf.bases
    )
    if wants_no_basis and isinstance(found, dict) and "basis" in found:
        return {"value": found["value"], "unit": found["unit"]}
    return found


def _summed(values: list[Any], where: str) -> Any:
    """Sum quantities of one unit, or plain numbers."""
    if all(type(value) in {int, float} for value in values):
        return sum(values)
    units = {(v["unit"], v.get("basis")) if isinstance(v, dict) else None for v in values}
    if None in units or len(units) != 1 or any("value" not in v for v in values):
        raise _bad(where, "sum adds values of one kind, in one unit and basis.", "link-kind")
    return {**values[0], "value": sum(value["value"] for value in values)}


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
        raise _bad("/schema", f"schema is {SCHEMA!r}.")
    title = _words(whole.get("title"), "/title", 200)
    notes = _words(whole["notes"], "/notes") if "notes" in whole else ""
    shared: dict[str, Any] = {"region": DEFAULT_REGION}
    shared["date"] = (today or today_of_host()).isoformat()
    shared.update({key: _words(whole[key], f"/{key}", 64) for key in _SHARED if key in whole})
    given = _object(whole.get("calculations"), "/calculations")
    if not 0 < len(given) <= LARGEST:
        raise _bad("/calculations", f"A job holds 1 to {LARGEST} calculations.")
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
        raise _bad(where, "A reading's name is letters, digits, _ and -.")
    for key in ("what", "taken"):
        if key in item:
            _words(item[key], f"{where}/{key}")
    if "value" not in item:
        raise _bad(f"{where}/value", "A reading has a value.")
    value = item["value"]
    for part in value if isinstance(value, list) else [value]:
        if not _is_reading(part):
            raise _bad(f"{where}/value", "A reading is a value, a quantity or a list of them.")


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
        raise _bad(where, "A calculation's name in a job is letters, digits, _ and -.")
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
        list(_links(inputs, (), f"{where}/inputs")),
        list(_questions(inputs, f"{where}/inputs")),
    )


def _open_questions(whole: Mapping[str, Any]) -> list[dict[str, Any]]:
    given = whole.get("open_questions", [])
    if not isinstance(given, list):
        raise _bad("/open_questions", "A JSON array is expected here.")
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
            raise _bad(f"{where}/readings", "readings is a list of names of readings.")
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
        raise _UnresolvedError(root)
    found = runner.node_at("/".join(["", root, *rest]))
    if found is None:
        raise _UnresolvedError(source)
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
        raise _bad("/calculations", f"The links run in a circle: {circle}.", "link-cycle") from None


def _check_source(
    job: Job, host: Host, source: str, target: Node | None, link: Link, where: str
) -> None:
    head, _, rest = source[1:].partition("/")
    if head == READINGS:
        if rest not in job.readings:
            detail = f"There is no reading {rest[:64]!r}."
            raise _bad(where, detail, "link-unresolved", accepted=sorted(job.readings))
        return
    if head not in job.entries:
        detail = f"There is no calculation {head[:64]!r} in this job."
        raise _bad(where, detail, "link-unresolved", accepted=sorted(job.entries))
    if "/" not in rest:
        raise _bad(where, f"{source} names no input or output.", "link-unresolved")
    try:
        node = _node(host, job.entries[head].calculation, source)
    except _UnresolvedError:
        raise _bad(where, f"{source} is not an input or output.", "link-unresolved") from None
    if (
        node is not None
        and target is not None
        and not _compatible(node, target, summed=link.summed)
    ):
        raise _bad(where, f"{source} is another kind of value than this field.", "link-kind")


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
                found = _look_up(records[head], _path(source))
            except _UnresolvedError:
                detail = f"{source} is not in the answer."
                raise _bad(where, detail, "link-unresolved") from None
            if found is None:
                detail = f"{source} has no value in this case."
                raise _bad(where, detail, "link-unresolved")
            values.append(_carried(found, target, where))
        filled = _summed(values, where) if link.summed else values[0]
        inputs = _put(inputs, link.at, filled)
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
