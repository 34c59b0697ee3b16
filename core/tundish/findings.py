"""Findings evaluated: the same comparison for a float and for a column."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.calculation import VERDICTS, Calculation, Finding
from tundish.functions import any_of, not_
from tundish.sources import UNCONFIRMED
from tundish.words import value_words

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Mapping

    from tundish.contract import Node
    from tundish.doubts import Doubts
    from tundish.rules import Context

SLACK = 1e-9
_RANK = {verdict: rank for rank, verdict in enumerate(VERDICTS)}


def worst(verdicts: list[str]) -> str | None:
    """Return the worst of some verdicts; none when there are none."""
    return max(verdicts, key=_RANK.__getitem__, default=None)


def holds(sense: str, value: Any, limit: Any) -> Any:
    """Whether a value keeps a limit, unrounded, with a relative slack of 1e-9.

    The slack is on the limit, so that a limit reached exactly by another route still counts.
    """
    if sense == "is":
        return value == limit
    slack = SLACK * abs(limit)
    return value <= limit + slack if sense == "at-most" else value >= limit - slack


@dataclass(frozen=True)
class Place:
    """One value a pointer names: its exact pointer, the names of the items, the value in SI."""

    pointer: str
    path: tuple[str, ...]  # the name of each list's item on the way
    value: Any

    @property
    def item(self) -> str:
        """The name of the innermost item; empty outside lists."""
        return self.path[-1] if self.path else ""


def select(pointer: str, inputs: Any, outputs: Any) -> list[Place]:
    """Every value a pointer under ``/inputs`` or ``/outputs`` names; ``*`` is each of a list."""
    _, root, *segments = pointer.split("/")
    here = [Place(f"/{root}", (), inputs if root == "inputs" else outputs)]
    for segment in segments:
        step: list[Place] = []
        for place in here:
            value = place.value
            if segment == "*":
                for index, item in enumerate(value or ()):
                    name = (
                        item.get("name") if isinstance(item, dict) else getattr(item, "name", None)
                    )
                    path = (*place.path, str(name or index))
                    step.append(Place(f"{place.pointer}/{index}", path, item))
            else:
                inner = (
                    None
                    if value is None
                    else value.get(segment)
                    if isinstance(value, dict)
                    else getattr(value, segment)
                )
                step.append(Place(f"{place.pointer}/{segment}", place.path, inner))
        here = step
    return here


def _beside(pointer: str, inputs: Any, outputs: Any, place: Place) -> Any:
    """Return the one value a pointer names, or that of the item in which ``place`` stands."""
    found = select(pointer, inputs, outputs)
    if "*" not in pointer:
        return found[0].value
    return next((p.value for p in found if p.path == place.path[: len(p.path)]), None)


def _applies(condition: str | None, inputs: Any, outputs: Any, place: Place) -> Any:
    if condition is None:
        return True
    negative = condition.startswith("not ")
    pointer = condition.removeprefix("not ")
    word: str | None = None
    if " == " in pointer:
        pointer, word = pointer.split(" == ")
    value = _beside(pointer, inputs, outputs, place)
    if value is None:
        return False
    if word is not None:
        value = value == word
    if negative:
        return not value if isinstance(value, bool) else ~value
    return value


def _limit(finding: Finding, context: Context, inputs: Any, outputs: Any, place: Place) -> Any:
    if isinstance(finding.limit, bool):
        return finding.limit
    if not finding.limit.startswith("/"):
        return context.resolve(finding.limit).edition.value
    return _beside(finding.limit, inputs, outputs, place)


@dataclass(frozen=True)
class Judged:
    """One item of a finding: where, what, against what, kept or not, and whether it applies.

    ``capped`` says that a kept limit counts as advisory at best; ``doubts``, ``sure`` and
    ``assumed`` say why.
    """

    finding: Finding
    place: Place
    limit: Any
    kept: Any
    applies: Any
    capped: Any
    doubts: tuple[str, ...] = ()
    sure: Any = True
    assumed: bool = False

    def verdict(self, kept: bool, capped: bool) -> str:
        """Return the verdict for a kept or broken limit, capped or not."""
        if not kept:
            return self.finding.failed
        if capped and _RANK[self.finding.passed] < _RANK["advisory"]:
            return "advisory"
        return self.finding.passed


def _doubts_of(calculation: Calculation, context: Context, doubts: Doubts) -> Doubts:
    """All that is doubtful in a run: formulas, rules read, and the method itself."""
    found = {**doubts, **context.doubts()}
    for method in calculation.methods:
        source = method.source if method.id == context.method else None
        if source is not None and source.confirmed in UNCONFIRMED:
            found[source.id] = True
    return found


def judge(
    calculation: Calculation,
    context: Context,
    inputs: Any,
    outputs: Any,
    doubts: Doubts,
    defaulted: Container[str] = (),
) -> list[Judged]:
    """Evaluate every declared finding that applies, item by item, on floats or columns.

    ``doubts`` are those of the kernel's run. ``defaulted`` are the inputs, by pointer, that nobody
    gave: an assumed value shows nothing, so a limit that it keeps is advisory at best.
    """
    judged: list[Judged] = []
    doubted = _doubts_of(calculation, context, doubts)
    for finding in calculation.findings:
        by_rule = isinstance(finding.limit, str) and not finding.limit.startswith("/")
        names = [*finding.depends_on, *([str(finding.limit)] if by_rule else [])]
        for place in select(finding.quantity, inputs, outputs):
            if place.value is None:
                continue
            applies = _applies(finding.applies_when, inputs, outputs, place)
            if applies is False:
                continue
            limit = _limit(finding, context, inputs, outputs, place)
            if limit is None:
                continue
            against: Doubts = {name: True for name in names if context.resolve(name).unconfirmed}
            if finding.computed:
                matters = doubted if finding.rests_on is None else finding.rests_on
                against |= {k: v for k, v in doubted.items() if k in matters}
            kept = holds(finding.sense, place.value, limit)
            sure = _applies(finding.capped_unless, inputs, outputs, place)
            assumed = place.pointer.removeprefix("/inputs") in defaulted
            capped = any_of(*against.values(), not_(sure), assumed)
            judged.append(
                Judged(finding, place, limit, kept, applies, capped, tuple(against), sure, assumed)
            )
    return judged


def _apart(value: Any, limit: Any) -> tuple[str, str]:
    """Write value and limit with as many figures as it takes to see that they differ."""
    for figures in range(4, 16):
        shown, against = value_words(value, figures), value_words(limit, figures)
        if shown != against or value == limit:
            break
    return shown, against


def written(
    judged: list[Judged],
    context: Context,
    writer: Callable[[str, Node | None], Callable[[Any], Any]],
    node_at: Callable[[str], Node | None],
    difference: Callable[[Node | None, Any, Mapping[str, str]], Any],
    units: Mapping[str, str],
) -> dict[str, Any]:
    """Write findings as they stand in a result, keyed by code.

    A finding names its rule; the rule itself, edition and citation, stands once in the provenance.
    """
    result: dict[str, Any] = {}
    for item in judged:
        finding = item.finding
        node = node_at(finding.quantity)
        write = writer(finding.quantity, node)
        kept = bool(item.kept)
        verdict = item.verdict(kept, item.capped)
        value, limit = write(item.place.value), write(item.limit)
        entry: dict[str, Any] = {
            "pointer": item.place.pointer,
            "value": value,
            "limit": limit,
            "verdict": verdict,
        }
        margin = None
        if finding.sense != "is":
            raw = item.limit - item.place.value
            margin = difference(node, raw if finding.sense == "at-most" else -raw, units)
            entry["margin"] = margin
        if item.place.item:
            entry["item"] = item.place.item
        words = finding.words_passed if kept else finding.words_failed
        shown, against = _apart(value, limit)
        entry["words"] = words.format(
            value=shown,
            limit=against,
            margin=value_words(margin),
            item=item.place.item,
        )
        if kept and not item.sure:
            entry["words"] += f" Not shown to be met: {finding.words_capped}"
        if kept and item.assumed:
            entry["words"] += " Not shown to be met: the value was not given, but assumed."
        if kept and item.doubts:
            names = ", ".join(item.doubts)
            whose = "has not been checked against its document"
            if len(item.doubts) > 1:
                whose = "have not been checked against their documents"
            entry["words"] += f" Not shown to be met: {names} {whose}."
            entry["unchecked"] = list(item.doubts)
        known = result.get(finding.code)
        if known is None:
            known = {"title": finding.title, "verdict": verdict, "items": []}
            if isinstance(finding.limit, str) and not finding.limit.startswith("/"):
                known["rule"] = finding.limit
                known["source"] = context.resolve(finding.limit).edition.source.id
            elif finding.depends_on:
                known["rule"] = finding.depends_on[0]
                known["source"] = context.resolve(finding.depends_on[0]).edition.source.id
            elif finding.source is not None:
                known["source"] = finding.source.id
            result[finding.code] = known
        known["items"].append(entry)
        known["verdict"] = worst([known["verdict"], verdict])
    return result
