"""A calculation as its author declares it: what it is, what it needs, what it is judged by."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any, Final

from tundish.charts import BarChart, Level, LineChart, Series
from tundish.contract import Inputs, Outputs, node_of
from tundish.refusals import Refused

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tundish.contract import Node
    from tundish.rules import Context
    from tundish.sources import Source

__all__ = [
    "BarChart",
    "Calculation",
    "Finding",
    "Level",
    "LineChart",
    "Method",
    "Monotonic",
    "Need",
    "Refused",
    "Series",
]

VERDICTS: Final = ("met", "advisory", "not-met", "dangerous")
"""From best to worst."""

_KEBAB = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


@dataclass(frozen=True)
class Method:
    """A named, cited way to answer; the request chooses, or the region's rule does."""

    id: str
    title: str
    summary: str
    source: Source | None = None


@dataclass(frozen=True)
class Need:
    """A rule the calculation reads: its name, its kind, what it means.

    ``kind`` is a quantity's kind, ``number``, ``text`` or ``table``. ``optional`` rules may be
    missing in a region; the kernel asks ``context.has`` first.
    """

    rule: str
    kind: str
    meaning: str
    optional: bool = False


@dataclass(frozen=True)
class Finding:
    """A judgement, declared: which quantity, in which sense, against what, in which words.

    ``quantity`` points at inputs or outputs; ``*`` names every item of a list. ``sense`` is
    ``at-most``, ``at-least`` or ``is``. ``limit`` is the name of a rule, a pointer, or (for ``is``)
    true or false. ``applies_when`` is a pointer to a flag, ``not`` and a pointer, or
    ``pointer == word``. A limit, or a rule in ``depends_on``, that is unconfirmed caps a passed
    verdict at ``advisory``. So does anything unconfirmed that the kernel or a default used, when the
    finding is about an output. Where most of that has no bearing on the quantity, ``rests_on`` names
    the rules and sources that have (none: an empty tuple); the kit proves that the others move
    nothing. An input that was not given but assumed is advisory at best, too. ``capped_unless`` is
    a condition like ``applies_when``: where it does not hold, a kept limit is advisory at best, and
    ``words_capped`` says why.
    """

    code: str
    title: str
    quantity: str
    sense: str
    limit: str | bool
    passed: str = "met"
    failed: str = "not-met"
    applies_when: str | None = None
    words_passed: str = "{value} against {limit}."
    words_failed: str = "{value} against {limit}."
    depends_on: tuple[str, ...] = ()
    rests_on: tuple[str, ...] | None = None
    capped_unless: str | None = None
    words_capped: str = ""
    source: Source | None = None

    @property
    def computed(self) -> bool:
        """Whether it is about something the kernel computed."""
        limit = self.limit if isinstance(self.limit, str) else ""
        return self.quantity.startswith("/outputs") or limit.startswith("/outputs")

    def __post_init__(self) -> None:
        """Refuse a declaration outside the vocabulary."""
        for verdict in (self.passed, self.failed):
            if verdict not in VERDICTS:
                message = f"finding {self.code}: {verdict!r} is not one of {VERDICTS}"
                raise ValueError(message)
        if self.sense not in {"at-most", "at-least", "is"}:
            message = f"finding {self.code}: sense {self.sense!r}"
            raise ValueError(message)
        if (self.capped_unless is None) != (not self.words_capped):
            message = f"finding {self.code}: capped_unless and words_capped go together"
            raise ValueError(message)
        if not _KEBAB.fullmatch(self.code):
            message = f"finding {self.code!r}: codes are kebab-case"
            raise ValueError(message)


@dataclass(frozen=True)
class Monotonic:
    """As ``input`` rises, ``output`` never falls (``increasing``) or never rises."""

    input: str
    output: str
    direction: str


@dataclass(frozen=True)
class Calculation:
    """A calculation: the table of contents of its folder."""

    id: str
    version: str
    title: str
    summary: str
    family: str
    questions: tuple[str, ...]
    inputs: type[Inputs]
    outputs: type[Outputs]
    kernel: Callable[[Any, Context], dict[str, Any]]
    example: Mapping[str, Any]
    example_region: str = "GB"
    methods: tuple[Method, ...] = ()
    method_rule: str | None = None
    needs: tuple[Need, ...] = ()
    findings: tuple[Finding, ...] = ()
    cautions: tuple[str, ...] = ()
    refusals: tuple[Refused, ...] = ()
    monotonic: tuple[Monotonic, ...] = ()
    charts: tuple[LineChart | BarChart, ...] = ()
    sources: tuple[Source, ...] = ()
    solvable: tuple[str, ...] = ()
    row_by_row: str | None = None  # the reason, when columns cannot be grouped
    extra: Mapping[str, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse an id that could not stand in a URL."""
        if not _KEBAB.fullmatch(self.id):
            message = f"calculation id {self.id!r} is not kebab-case"
            raise ValueError(message)

    @cached_property
    def inputs_node(self) -> Node:
        """The tree of the inputs."""
        return node_of(self.inputs)

    @cached_property
    def outputs_node(self) -> Node:
        """The tree of the outputs."""
        return node_of(self.outputs)

    @cached_property
    def declared_rules(self) -> frozenset[str]:
        """Every rule the calculation may read: needs, defaults, limits, cautions, method."""
        names = {need.rule for need in self.needs} | set(self.cautions)
        names |= {
            node.leaf.default_rule
            for _, node in self.inputs_node.walk()
            if node.leaf is not None and node.leaf.default_rule is not None
        }
        for finding in self.findings:
            names |= set(finding.depends_on)
            if isinstance(finding.limit, str) and not finding.limit.startswith("/"):
                names.add(finding.limit)
        if self.method_rule is not None:
            names.add(self.method_rule)
        return frozenset(names)
