"""The corpus as it is read from disk: groups, cases, manifest."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, field
from functools import lru_cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from tundish_reference_cases.shape import ShapeError, check, parse

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from importlib.resources.abc import Traversable
    from pathlib import Path

PACKAGE = "tundish_reference_cases"


class CorpusError(ValueError):
    """A file of the corpus cannot be read; the message names it."""


@dataclass(frozen=True)
class Group:
    """One file: cases of one calculation with their sources and flags."""

    path: str
    data: dict[str, Any]
    text: str = field(repr=False)

    @property
    def calculation(self) -> str:
        """The calculation the group is about."""
        return str(self.data["calculation"])

    @property
    def cases(self) -> list[dict[str, Any]]:
        """Its cases, withdrawn ones left out."""
        return [case for case in self.data["cases"] if "withdrawn" not in case]


@dataclass(frozen=True)
class Corpus:
    """Every group, with the corpus version."""

    groups: tuple[Group, ...]
    version: str
    licence: str

    def cases(self) -> Iterator[tuple[Group, dict[str, Any]]]:
        """Every case that stands, with its group."""
        for group in self.groups:
            for case in group.cases:
                yield group, case

    @property
    def digest(self) -> str:
        """A hash over every file, so that a report can say what it ran."""
        whole = hashlib.sha256()
        for group in self.groups:
            whole.update(f"{group.path}\0{group.text}\0".encode())
        return "sha256:" + whole.hexdigest()


@lru_cache(maxsize=3)
def schema(name: str = "group-1") -> dict[str, Any]:
    """Return a JSON Schema of the package: ``group-1``, ``manifest-1`` or ``report-1``."""
    text = (files(PACKAGE) / "schema" / f"{name}.schema.json").read_text(encoding="utf-8")
    found: dict[str, Any] = parse(text)
    return found


def manifest() -> dict[str, Any]:
    """Return the corpus's version, the licence of its data and its list of groups."""
    try:
        found: dict[str, Any] = parse(
            (files(PACKAGE) / "manifest.json").read_text(encoding="utf-8")
        )
        check(found, schema("manifest-1"), schema("manifest-1"))
    except ShapeError as error:
        message = f"manifest.json: {error}"
        raise CorpusError(message) from None
    return found


def _walk(folder: Traversable | Path, path: str = "") -> Iterator[tuple[str, Traversable | Path]]:
    for item in sorted(folder.iterdir(), key=lambda entry: entry.name):
        here = f"{path}/{item.name}" if path else item.name
        if item.is_dir():
            yield from _walk(item, here)
        elif item.name.endswith(".json"):
            yield here, item


def read_group(path: str, text: str) -> Group:
    """Read one group; raises :class:`CorpusError` with the place that is wrong."""
    try:
        data = parse(text)
        check(data, schema(), schema())
    except ShapeError as error:
        message = f"{path}: {error}"
        raise CorpusError(message) from None
    return Group(path, data, text)


def load(extra: Iterable[Traversable | Path] = ()) -> Corpus:
    """Read the corpus that comes with the package, and further folders of groups."""
    folders: list[Traversable | Path] = [files(PACKAGE) / "cases", *extra]
    groups = [
        read_group(path, item.read_text(encoding="utf-8"))
        for folder in folders
        for path, item in _walk(folder)
    ]
    told = manifest()
    return Corpus(tuple(groups), told["version"], told["licence"])
