"""Rules: limits, tables, defaults, words and cautions, by region and date, each with its citation.

A rules file is data (``rules/1``); a region file names the region, what it is based on and its
units (``region/1``). A regional plugin adds files; nothing edits a calculation.
"""

from __future__ import annotations

import datetime as dt
import json
import math
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

from tundish.quantities.kinds import KINDS, to_si
from tundish.refusals import Refusal
from tundish.sources import UNCONFIRMED, Source
from tundish.tables import PLAIN, Table, TableColumn
from tundish.working import record

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from importlib.resources.abc import Traversable
    from pathlib import Path

BASE_REGION = "INT"
WORD_KINDS = frozenset({"text", "caution"})


class RulesError(ValueError):
    """A rules file does not say what it must."""


@dataclass(frozen=True)
class Edition:
    """A rule as one edition has it: in force from a date until another, with its citation."""

    edition: str
    start: dt.date
    until: dt.date | None
    source: Source
    value: Any  # SI float, number, text or Table
    wire: Any  # as written: {"value", "unit"}, number or text

    def in_force(self, date: dt.date) -> bool:
        """Whether the edition holds on a date; ``until`` is the first day it does not."""
        return self.start <= date and (self.until is None or date < self.until)


@dataclass(frozen=True)
class Rule:
    """A named rule of one region."""

    name: str
    kind: str
    meaning: str
    region: str
    family: str
    plugin: str
    editions: tuple[Edition, ...]


@dataclass(frozen=True)
class Region:
    """A region: what it is called, whose rules it builds on, and the units its people use."""

    code: str
    title: str
    based_on: str | None
    units: Mapping[str, str]
    plugin: str


@dataclass(frozen=True)
class InForce:
    """One rule resolved for a region and a date."""

    rule: Rule
    edition: Edition
    superseded: bool = False

    @property
    def unconfirmed(self) -> bool:
        """Whether the value rests on memory or is disputed."""
        return self.edition.source.confirmed in UNCONFIRMED

    def as_json(self) -> dict[str, Any]:
        """Return the rule as a result cites it."""
        return self._json.copy()

    @cached_property
    def _json(self) -> dict[str, Any]:
        shown: Any = self.edition.wire
        if self.rule.kind == "table":
            shown = {"rows": len(self.edition.value.data)}
        members = {
            "rule": self.rule.name,
            "meaning": self.rule.meaning,
            "region": self.rule.region,
            "edition": self.edition.edition,
            "from": self.edition.start.isoformat(),
            "value": shown,
            "source": self.edition.source.id,
            "locator": self.edition.source.locator,
            "confirmed": self.edition.source.confirmed,
        }
        if self.edition.until is not None:
            members["until"] = self.edition.until.isoformat()
        if self.superseded:
            members["superseded"] = True
        return members


@contextmanager
def _at(where: str) -> Iterator[None]:
    """Name the place in whatever is found wrong inside."""
    try:
        yield
    except RulesError:
        raise
    except KeyError as error:
        message = f"{where}: {error.args[0]!r} is missing"
        raise RulesError(message) from None
    except (AttributeError, TypeError, ValueError) as error:
        message = f"{where}: {error}"
        raise RulesError(message) from error


def _number(wire: Any, where: str) -> float:
    if isinstance(wire, bool) or not isinstance(wire, (int, float)) or not math.isfinite(wire):
        message = f"{where}: {wire!r} is not a number"
        raise RulesError(message)
    return float(wire)


def _date(text: str, where: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except (TypeError, ValueError):
        message = f"{where}: {text!r} is not a date"
        raise RulesError(message) from None


def _value(rule: Mapping[str, Any], item: Mapping[str, Any], where: str) -> tuple[Any, Any]:
    kind = rule["kind"]
    wire = item.get("value")
    if kind in WORD_KINDS:
        if not isinstance(wire, str):
            message = f"{where}: {kind} needs words"
            raise RulesError(message)
        return wire, wire
    if kind == "number":
        return _number(wire, where), wire
    if kind not in KINDS:
        message = f"{where}: unknown kind {kind}"
        raise RulesError(message)
    if not isinstance(wire, dict) or wire.keys() != {"value", "unit"}:
        message = f"{where}: a quantity needs value and unit"
        raise RulesError(message)
    return to_si(_number(wire["value"], where), kind, wire["unit"]), dict(wire)


def _cell(column: TableColumn, cell: Any, where: str) -> Any:
    if cell is None:
        return None
    if column.kind in {"key", "text"}:
        return str(cell)
    number = _number(cell, f"{where}, column {column.name}")
    return number if column.kind == "number" else to_si(number, column.kind, column.unit)


def _columns(rule: Mapping[str, Any], where: str) -> tuple[TableColumn, ...]:
    columns = tuple(
        TableColumn(item["name"], item["kind"], item.get("unit", "")) for item in rule["columns"]
    )
    for column in columns:
        if column.kind not in PLAIN:
            if column.kind not in KINDS:
                message = f"{where}: unknown kind {column.kind}"
                raise RulesError(message)
            KINDS[column.kind].conversion(column.unit)
    return columns


def _edition(
    rule: Mapping[str, Any], item: Mapping[str, Any], sources: Mapping[str, Source], where: str
) -> Edition:
    if item["source"] not in sources:
        message = f"{where}: source {item['source']!r} is not in the file"
        raise RulesError(message)
    source = sources[item["source"]]
    source = replace(
        source,
        locator=item.get("locator", source.locator),
        confirmed=item.get("confirmed", source.confirmed),
    )
    start = _date(item["from"], where)
    until = None if item.get("until") is None else _date(item["until"], where)
    if rule["kind"] == "table":
        columns = _columns(rule, where)
        data = tuple(
            tuple(_cell(c, cell, where) for c, cell in zip(columns, row, strict=True))
            for row in item["rows"]
        )
        table = Table(
            rule["name"],
            rule["meaning"],
            item["edition"],
            superseded=False,
            columns=columns,
            data=data,
            source=source,
        )
        return Edition(item["edition"], start, until, source, table, None)
    value, wire = _value(rule, item, where)
    return Edition(item["edition"], start, until, source, value, wire)


def parse_rules(document: Mapping[str, Any], plugin: str) -> list[Rule]:
    """Read one rules document; raises :class:`RulesError` that names the place."""
    if document.get("schema") != "rules/1":
        message = f"schema {document.get('schema')!r} is not rules/1"
        raise RulesError(message)
    with _at("rules file"):
        region, family = document["region"], document["family"]
        given_sources, given_rules = document["sources"], document["rules"]
    sources = {}
    for key, item in given_sources.items():
        with _at(f"{region}/{family}: source {key}"):
            sources[key] = Source(
                key,
                kind=item["kind"],
                document=item["document"],
                edition=item["edition"],
                locator=item["locator"],
                confirmed=item["confirmed"],
                seen_in=item.get("seen_in"),
                computed_with=item.get("computed_with"),
                url=item.get("url"),
            )
    rules = []
    for item in given_rules:
        with _at(f"{region}/{family}"):
            where = f"{region}/{family}/{item['name']}"
        with _at(where):
            editions = tuple(_edition(item, e, sources, where) for e in item["editions"])
            rules.append(
                Rule(item["name"], item["kind"], item["meaning"], region, family, plugin, editions)
            )
    return rules


@dataclass
class Rulebook:
    """Every rule of every plugin; resolves region and date to what is in force."""

    regions: dict[str, Region] = field(default_factory=dict)
    rules: dict[tuple[str, str], Rule] = field(default_factory=dict)  # (region, name)
    _resolved: dict[tuple[str, dt.date, str], InForce | None] = field(default_factory=dict)

    def add_document(self, document: Mapping[str, Any], plugin: str) -> None:
        """Add a region file or a rules file; a name taken in the same region is refused."""
        if document.get("schema") == "region/1":
            code = document["region"]
            if code in self.regions:
                message = f"region {code} is already defined by {self.regions[code].plugin}"
                raise RulesError(message)
            self.regions[code] = Region(
                code, document["title"], document.get("based_on"), document.get("units", {}), plugin
            )
        else:
            for rule in parse_rules(document, plugin):
                taken = self.rules.get((rule.region, rule.name))
                if taken is not None:
                    message = f"rule {rule.region}/{rule.name} is already given by {taken.plugin}"
                    raise RulesError(message)
                self.rules[rule.region, rule.name] = rule
        self._resolved.clear()

    def add_files(self, files: Iterable[Path | Traversable], plugin: str) -> None:
        """Add every file, in order."""
        for file in files:
            try:
                self.add_document(json.loads(file.read_text(encoding="utf-8")), plugin)
            except (RulesError, ValueError, KeyError, TypeError, AttributeError) as error:
                message = f"{file.name}: {error}"
                raise RulesError(message) from error

    def remove(self, plugin: str) -> None:
        """Take back everything a plugin gave."""
        self.regions = {k: v for k, v in self.regions.items() if v.plugin != plugin}
        self.rules = {k: v for k, v in self.rules.items() if v.plugin != plugin}
        self._resolved.clear()

    def chain(self, region: str) -> list[str]:
        """Return the region, what it is based on, and so on down to INT."""
        chain: list[str] = []
        here: str | None = region
        while here is not None and here not in chain:
            chain.append(here)
            known = self.regions.get(here)
            here = known.based_on if known is not None else None
        if BASE_REGION not in chain:
            chain.append(BASE_REGION)
        return chain

    def find(self, region: str, date: dt.date, name: str) -> InForce | None:
        """Return the rule in force, the nearest region's first."""
        key = (region, date, name)
        if key in self._resolved:
            return self._resolved[key]
        found: InForce | None = None
        for code in self.chain(region):
            rule = self.rules.get((code, name))
            if rule is None:
                continue
            current = [e for e in rule.editions if e.in_force(date)]
            if current:
                found = InForce(rule, max(current, key=lambda e: e.start))
                break
        if len(self._resolved) > 20_000:  # noqa: PLR2004  (dates come from requests: stay bounded)
            self._resolved.clear()
        self._resolved[key] = found
        return found

    def editions(self, region: str, name: str) -> list[tuple[Rule, Edition]]:
        """Every edition of a rule that a region can ask for by name."""
        return [
            (rule, edition)
            for code in self.chain(region)
            if (rule := self.rules.get((code, name))) is not None
            for edition in rule.editions
        ]


def _rule_step(payload: InForce, _value: object) -> dict[str, Any]:
    step: dict[str, Any] = {"step": "rule", "name": payload.rule.meaning, **payload.as_json()}
    step.pop("meaning")
    return step


@dataclass(frozen=True)
class Context:
    """What a kernel sees beside its inputs: method, region, date, and the rules it declared."""

    book: Rulebook
    region: str
    date: dt.date
    method: str
    declared: frozenset[str]
    used: dict[str, InForce] = field(default_factory=dict)

    def resolve(self, name: str, *, edition: str | None = None) -> InForce:
        """Return a declared rule; refuse when the region has none in force."""
        if name not in self.declared:
            message = f"rule {name} is read but not declared"
            raise LookupError(message)
        if edition is not None:
            return self._by_edition(name, edition)
        known = self.used.get(name)
        if known is not None:
            return known
        found = self.book.find(self.region, self.date, name)
        if found is None:
            raise Refusal(
                "rule-missing",
                "@/region",
                f"{self.region} has no rule {name!r} in force on {self.date.isoformat()}.",
                {"rule": name},
            )
        self.used[name] = found
        return found

    def _by_edition(self, name: str, edition: str) -> InForce:
        options = self.book.editions(self.region, name)
        for rule, item in options:
            if item.edition == edition:
                found = InForce(rule, item, superseded=not item.in_force(self.date))
                self.used[f"{name} ({edition})"] = found
                return found
        raise Refusal(
            "edition-unknown",
            "@/region",
            f"There is no edition {edition!r} of {name!r}.",
            {"rule": name, "accepted": [item.edition for _, item in options]},
        )

    def doubts(self) -> dict[str, bool]:
        """Rules read so far that rest on memory or are disputed; words are no values.

        A rule stands by its name, whether an edition of it was asked for or not.
        """
        return {
            item.rule.name: True
            for item in self.used.values()
            if item.unconfirmed and item.rule.kind not in WORD_KINDS
        }

    def has(self, name: str) -> bool:
        """Whether a declared rule is in force here; for rules that a region may lack."""
        return self.book.find(self.region, self.date, name) is not None

    def value(self, name: str, *, edition: str | None = None) -> float:
        """Return a rule's number in SI; the reading is a step of the working."""
        found = self.resolve(name, edition=edition)
        record(_rule_step, found)
        return found.edition.value  # type: ignore[no-any-return]

    def text(self, name: str) -> str:
        """Return a rule's words; the reading is a step of the working."""
        found = self.resolve(name)
        record(_rule_step, found)
        return str(found.edition.value)

    def table(self, name: str, *, edition: str | None = None) -> Table:
        """Return a rule's table; each look-up in it is a step of the working."""
        found = self.resolve(name, edition=edition)
        table: Table = found.edition.value
        if found.superseded:
            return replace(table, superseded=True)
        return table

    def wire(self, name: str) -> object:
        """Return a rule's value as it stands on the wire, for a default."""
        return self.resolve(name).edition.wire
