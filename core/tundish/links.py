"""Links of a job: places in one calculation's inputs that another's output, or a reading, fills.

A link is an object with the one member ``from``, a JSON Pointer, or ``sum``, a list of links. A
segment of the pointer matches an item's name before its index.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from tundish.contract import FieldError, escape
from tundish.leaves import Quantity
from tundish.problems import RefusedRequest
from tundish.refusals import PROBLEMS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tundish.contract import Node

LARGEST: Final = 200
"""Calculations a job may hold, and links a sum may add."""
READINGS: Final = "readings"


def bad_job(pointer: str, detail: str, code: str = "job-invalid", **facts: Any) -> RefusedRequest:
    """Return the refusal of a job document, at a place in it."""
    return RefusedRequest([FieldError(code, pointer, detail, facts)], PROBLEMS)


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


def is_link(value: Any) -> bool:
    """Whether a value stands for another one."""
    return isinstance(value, dict) and len(value) == 1 and next(iter(value)) in {"from", "sum"}


def _source(value: Any, pointer: str) -> str:
    if not isinstance(value, str) or not value.startswith("/") or not 1 < len(value) <= 400:  # noqa: PLR2004
        raise bad_job(pointer, "A link is a JSON Pointer such as '/name/outputs/field'.")
    return value


def links_of(value: Any, at: tuple[str | int, ...], pointer: str, depth: int = 0) -> Iterator[Link]:
    """Every link in some inputs; refuses what only looks like one."""
    if depth > 12:  # noqa: PLR2004  (no contract nests so deep)
        raise bad_job(pointer, "The inputs are nested too deeply.")
    if is_link(value):
        if "from" in value:
            yield Link(at, (_source(value["from"], pointer),), summed=False)
            return
        parts = value["sum"]
        if not isinstance(parts, list) or not 0 < len(parts) <= LARGEST:
            raise bad_job(pointer, "sum takes a list of links.")
        for part in parts:
            if not is_link(part) or "from" not in part:
                raise bad_job(pointer, "sum takes links such as {'from': '/name/outputs/field'}.")
        yield Link(at, tuple(_source(part["from"], pointer) for part in parts), summed=True)
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from links_of(item, (*at, key), f"{pointer}/{escape(key)}", depth + 1)
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from links_of(item, (*at, index), f"{pointer}/{index}", depth + 1)


def put(value: Any, at: tuple[str | int, ...], filled: Any) -> Any:
    """Return a copy of ``value`` with ``filled`` at a place."""
    if not at:
        return filled
    copy: Any = dict(value) if isinstance(value, dict) else list(value)
    copy[at[0]] = put(copy[at[0]], at[1:], filled)
    return copy


class UnresolvedError(LookupError):
    """A link whose pointer names nothing in the record it reads."""


def look_up(record: Any, segments: list[str]) -> Any:
    """Return what a pointer names in a record; raises :class:`UnresolvedError`."""
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
                raise UnresolvedError(segment)
        elif isinstance(here, dict) and part in here:
            here = here[part]
        else:
            raise UnresolvedError(segment)
    return here


def path_of(source: str) -> list[str]:
    """Return the segments of a link in the record: inputs are read as they were understood."""
    _, _, root, *rest = source.split("/")
    return ["inputs", "understood", *rest] if root == "inputs" else [root, *rest]


def carried(found: Any, target: Node | None, where: str) -> Any:
    """Return an answer's value as it stands in a request for the target field."""
    if isinstance(found, dict) and found.keys() == {"values", "unit"}:
        return [{"value": value, "unit": found["unit"]} for value in found["values"]]
    if isinstance(found, dict) and not found.keys() <= {"value", "unit", "basis"}:
        raise bad_job(where, "A link carries one value or one list, not an object.", "link-kind")
    if isinstance(found, list) and any(
        isinstance(item, dict) and not item.keys() <= {"value", "unit", "basis"} for item in found
    ):
        raise bad_job(where, "A link carries one value or one list of values.", "link-kind")
    wants_no_basis = (
        target is not None and isinstance(target.leaf, Quantity) and not target.leaf.bases
    )
    if wants_no_basis and isinstance(found, dict) and "basis" in found:
        return {"value": found["value"], "unit": found["unit"]}
    return found


def summed_up(values: list[Any], where: str) -> Any:
    """Sum quantities of one unit, or plain numbers."""
    if all(type(value) in {int, float} for value in values):
        return sum(values)
    units = {(v["unit"], v.get("basis")) if isinstance(v, dict) else None for v in values}
    if None in units or len(units) != 1 or any("value" not in v for v in values):
        raise bad_job(where, "sum adds values of one kind, in one unit and basis.", "link-kind")
    return {**values[0], "value": sum(value["value"] for value in values)}
