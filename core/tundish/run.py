"""One run: a request in, a record or a refusal out.

Order: read the request, resolve region and date to rules, put in defaults, read the inputs, run
the kernel with the recorder on, judge, write, seal.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from pydantic import ValidationError

from tundish._about import __version__
from tundish.canonical import sealed
from tundish.contract import FieldError, escape, field_errors, fill_defaults, read_inputs, writer_of
from tundish.doubts import doubting
from tundish.findings import Judged, judge, worst, written
from tundish.leaves import Based, Quantity
from tundish.problems import RefusedRequest, filled
from tundish.quantities.kinds import KINDS
from tundish.quantities.reading import shown
from tundish.refusals import PROBLEMS, Problem, Refusal
from tundish.rules import Context
from tundish.steps import write_steps
from tundish.working import recording

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from tundish.calculation import Calculation
    from tundish.contract import Node
    from tundish.rules import Rulebook
    from tundish.sources import Source
    from tundish.working import Recorder

REQUEST_MEMBERS: Final = ("inputs", "method", "region", "date", "units")
PARTS: Final = ("working", "sources", "charts")
DEFAULT_PARTS: Final = frozenset({"working", "sources"})
DEFAULT_REGION: Final = "GB"


@dataclass(frozen=True)
class Request:
    """A request after its envelope was read; the inputs are still as sent."""

    inputs: dict[str, Any]
    context: Context
    units: Mapping[str, str]
    units_profile: str
    set_by_host: tuple[str, ...]


def _refuse(code: str, pointer: str, detail: str, **context: Any) -> Refusal:
    return Refusal(code, f"@{pointer}", detail, context)


def read_request(
    calculation: Calculation,
    given: object,
    book: Rulebook,
    *,
    today: dt.date,
    region: str = DEFAULT_REGION,
) -> Request:
    """Read the envelope of a request. ``today`` and ``region`` are what the host sets if absent."""
    if not isinstance(given, dict):
        raise _refuse("object-expected", "", "The request is a JSON object.")
    for member in given:
        if member not in REQUEST_MEMBERS:
            sentence = f"The request has no member {str(member)[:64]!r}."
            raise _refuse(
                "request-member-unknown",
                f"/{escape(str(member)[:64])}",
                sentence,
                accepted=list(REQUEST_MEMBERS),
            )
    inputs = given.get("inputs")
    if inputs is None:
        raise _refuse("inputs-missing", "/inputs", "The request needs an object named inputs.")
    if not isinstance(inputs, dict):
        raise _refuse("object-expected", "/inputs", "inputs is a JSON object.")
    set_by_host = []
    place = given.get("region")
    if place is None:
        place = region
        set_by_host.append("region")
    if not isinstance(place, str) or place not in book.regions:
        raise _refuse(
            "region-unknown",
            "/region",
            f"There are no rules for {shown(place)}.",
            accepted=sorted(book.regions),
        )
    date = today
    if given.get("date") is None:
        set_by_host.append("date")
    else:
        date = _date(given["date"])
    units_profile = given.get("units", place)
    if not isinstance(units_profile, str) or units_profile not in book.regions:
        raise _refuse(
            "units-unknown",
            "/units",
            "units names a region whose units to answer in.",
            accepted=sorted(book.regions),
        )
    context = Context(book, place, date, "", calculation.declared_rules)
    method = _method(calculation, given.get("method"), context)
    context = Context(book, place, date, method, calculation.declared_rules, context.used)
    return Request(
        inputs, context, units_of(book, units_profile), units_profile, tuple(set_by_host)
    )


def units_of(book: Rulebook, profile: str) -> Mapping[str, str]:
    """Return a region's units: contract unit -> unit its people read."""
    for code in book.chain(profile):
        region = book.regions.get(code)
        if region is not None and region.units:
            return region.units
    return {}


def _date(text: object) -> dt.date:
    try:
        if not isinstance(text, str) or len(text) != 10:  # noqa: PLR2004  (YYYY-MM-DD)
            raise ValueError  # noqa: TRY301
        found = dt.date.fromisoformat(text)
        if found.isoformat() != text:  # a week or a day of the year is read, too
            raise ValueError  # noqa: TRY301
    except ValueError:
        raise _refuse("date-invalid", "/date", "Write the date as YYYY-MM-DD.") from None
    return found


def _method(calculation: Calculation, asked: object, context: Context) -> str:
    known = [method.id for method in calculation.methods]
    if asked is None:
        if calculation.method_rule is not None and context.has(calculation.method_rule):
            return context.resolve(calculation.method_rule).edition.value  # type: ignore[no-any-return]
        return known[0] if known else ""
    if asked not in known:
        raise _refuse(
            "method-unknown", "/method", f"There is no method {shown(asked)}.", accepted=known
        )
    return str(asked)


class Runner:
    """A calculation made ready to run: writers compiled, codes gathered. One a calculation."""

    def __init__(self, calculation: Calculation) -> None:
        """Compile nothing yet; writers are made at first use of a unit profile."""
        self.calculation = calculation
        self.problems: dict[str, Problem] = dict(PROBLEMS)
        for refused in calculation.refusals:
            self.problems[refused.code] = Problem(
                refused.code, refused.status, refused.title, refused.remedy
            )
        self._writers: dict[str, tuple[Callable[[Any], Any], Callable[[Any], Any]]] = {}
        self._writer_units: dict[str, Mapping[str, str]] = {}
        self._leaf_writers: dict[tuple[str, str], Callable[[Any], Any]] = {}
        self._header = {
            "id": calculation.id,
            "version": calculation.version,
            "title": calculation.title,
        }

    # --- steps of a run ---------------------------------------------------------------------------

    def inputs(self, request: Request) -> tuple[Any, dict[str, str]]:
        """Put in defaults and read the inputs; raises :class:`RefusedRequest`."""
        node = self.calculation.inputs_node
        try:
            filled, defaulted = fill_defaults(request.inputs, node, request.context.wire)
            return read_inputs(self.calculation.inputs, filled), defaulted
        except ValidationError as error:
            errors = [
                FieldError(e.code, f"/inputs{e.pointer}", e.detail, e.facts)
                for e in field_errors(error, node)
            ]
            raise RefusedRequest(errors, self.problems) from None

    def refused(self, refusal: Refusal) -> RefusedRequest:
        """Complete a kernel's or the envelope's refusal with words and a full pointer."""
        pointer = (
            refusal.pointer[1:] if refusal.pointer.startswith("@") else f"/inputs{refusal.pointer}"
        )
        facts = {name: self._fact(value) for name, value in refusal.context.items()}
        problem = self.problems.get(refusal.code)
        if problem is None:
            message = (
                f"{self.calculation.id} refuses with {refusal.code}, which it does not declare"
            )
            raise LookupError(message)
        detail = refusal.detail or filled(problem.title, facts) + "."
        return RefusedRequest([FieldError(refusal.code, pointer, detail, facts)], self.problems)

    @staticmethod
    def _fact(value: Any) -> Any:
        """Write ``(SI value, kind, unit)`` as a quantity; leave words as they are."""
        if isinstance(value, tuple) and len(value) == 3:  # noqa: PLR2004
            si, kind, unit = value
            factor, offset = KINDS[kind].conversion(unit)
            shown = (si - offset) / factor
            return {"value": shown if math.isfinite(shown) else str(shown), "unit": unit}
        return value

    def writers(self, request: Request) -> tuple[Callable[[Any], Any], Callable[[Any], Any]]:
        """Return the writers of inputs and outputs in the units asked for."""
        profile = request.units_profile
        if self._writer_units.get(profile) != request.units:
            self._writer_units[profile] = request.units
            self._writers[profile] = (
                writer_of(self.calculation.inputs_node, request.units),
                writer_of(self.calculation.outputs_node, request.units),
            )
            self._leaf_writers = {k: v for k, v in self._leaf_writers.items() if k[0] != profile}
        return self._writers[profile]

    def node_at(self, pointer: str) -> Node | None:
        """Return the node a finding's pointer names."""
        if pointer.startswith("/inputs"):
            return self.calculation.inputs_node.at(pointer.removeprefix("/inputs"))
        return self.calculation.outputs_node.at(pointer.removeprefix("/outputs"))

    def _leaf_writer(self, request: Request, pointer: str, node: Node | None) -> Any:
        key = (request.units_profile, pointer)
        write = self._leaf_writers.get(key)
        if write is None:
            if node is None or node.leaf is None:
                message = f"{self.calculation.id}: {pointer} names no value"
                raise LookupError(message)
            write = self._leaf_writers[key] = node.leaf.writer(request.units)
        return write

    def findings(self, request: Request, judged: list[Judged]) -> dict[str, Any]:
        """Write the findings."""
        return written(
            judged,
            request.context,
            lambda pointer, node: self._leaf_writer(request, pointer, node),
            self.node_at,
            _difference,
            request.units,
        )

    def run(self, request: Request, parts: frozenset[str] = DEFAULT_PARTS) -> dict[str, Any]:
        """Return the record, not yet sealed; raises :class:`RefusedRequest`."""
        calculation, context = self.calculation, request.context
        try:
            inputs, defaulted = self.inputs(request)
            recorder: Recorder | None = None
            with doubting() as doubts:
                if "working" in parts or "sources" in parts:
                    with recording() as recorder:
                        outputs = calculation.kernel(inputs, context)
                else:
                    outputs = calculation.kernel(inputs, context)
            check_outputs(calculation, outputs)
            judged = judge(calculation, context, inputs, outputs, doubts, defaulted)
            cautions = [
                {"caution": name, "words": context.resolve(name).edition.value}
                for name in calculation.cautions
            ]
        except Refusal as refusal:
            raise self.refused(refusal) from None
        write_inputs, write_outputs = self.writers(request)
        findings = self.findings(request, judged)
        record: dict[str, Any] = {
            "schema": "result/1",
            "calculation": self._header,
            "region": context.region,
            "date": context.date.isoformat(),
            "inputs": {
                "given": request.inputs,
                "understood": write_inputs(inputs),
                "defaulted": defaulted,
            },
            "outputs": write_outputs(outputs),
            "findings": findings,
            "verdict": worst([item["verdict"] for item in findings.values()]),
            "cautions": cautions,
        }
        if context.method:
            record["method"] = context.method
        self._add_parts(record, parts, recorder, context)
        record["provenance"] = {
            "tundish": __version__,
            "plugin": calculation.extra.get("plugin", {}),
            "units": request.units_profile,
            "set_by_host": request.set_by_host,
            "rules": [item.as_json() for item in context.used.values()],
        }
        return record

    def _add_parts(
        self,
        record: dict[str, Any],
        parts: frozenset[str],
        recorder: Recorder | None,
        context: Context,
    ) -> None:
        if recorder is not None:
            steps, sources = write_steps(recorder)
            if "working" in parts:
                record["working"] = steps
            if "sources" in parts:
                record["sources"] = self._sources(sources, context)
        if "charts" in parts:
            view = {"inputs": record["inputs"]["understood"], "outputs": record["outputs"]}
            record["charts"] = {chart.id: chart.build(view) for chart in self.calculation.charts}

    def _sources(self, cited: list[Source], context: Context) -> list[dict[str, Any]]:
        """Every citation once: one document may be cited at several places."""
        found = dict.fromkeys(cited)
        found |= dict.fromkeys(item.edition.source for item in context.used.values())
        found |= dict.fromkeys(self.calculation.sources)
        methods = [m.source for m in self.calculation.methods if m.id == context.method]
        findings = [finding.source for finding in self.calculation.findings]
        found |= dict.fromkeys(s for s in (*methods, *findings) if s is not None)
        return [source.as_json() for source in found]

    def answer(
        self,
        given: object,
        book: Rulebook,
        *,
        today: dt.date,
        parts: frozenset[str] = DEFAULT_PARTS,
        region: str = DEFAULT_REGION,
    ) -> tuple[bytes, str]:
        """Return a record's wire bytes and fingerprint; raises :class:`RefusedRequest`."""
        try:
            request = read_request(self.calculation, given, book, today=today, region=region)
        except Refusal as refusal:
            raise self.refused(refusal) from None
        return sealed(self.run(request, parts))


def _difference(node: Node | None, raw: Any, units: Mapping[str, str]) -> Any:
    """Write a margin: a difference of two values of the node's kind."""
    if node is None or not isinstance(node.leaf, Quantity):
        return raw
    unit = units.get(node.leaf.unit, node.leaf.unit)
    kind = KINDS[node.leaf.kind]
    if unit not in kind.spellings:
        unit = node.leaf.unit
    factor, _ = kind.conversion(unit)
    shown = {"degC": "K", "degF": "degF_diff"}.get(unit, unit)
    return {"value": raw / factor, "unit": shown}


class KernelError(ArithmeticError):
    """A kernel gave something that is not an answer: our fault, never the request's."""


def check_outputs(calculation: Calculation, outputs: Any) -> None:
    """Refuse to pass on a missing or additional output, a NaN or an infinity."""
    _check(calculation.outputs_node, outputs, calculation.id)


def _check(node: Node, value: Any, where: str) -> None:  # noqa: C901
    if value is None:
        if not node.optional:
            message = f"{where} is missing"
            raise KernelError(message)
    elif node.leaf is not None:
        kind = type(value)
        if kind is float:
            if value - value != 0.0:  # NaN or infinite, at a third of isfinite's cost
                message = f"{where} is not finite"
                raise KernelError(message)
        elif kind is list:
            for item in value:
                if not math.isfinite(item):
                    message = f"{where} is not finite"
                    raise KernelError(message)
        elif isinstance(value, Based):
            _check(node, value.value, where)
        elif kind not in {str, bool, int} and not isinstance(value, float):
            message = f"{where} is a {kind.__name__}"
            raise KernelError(message)
    elif node.item is not None:
        for index, item in enumerate(value):
            _check(node.item, item, f"{where}/{index}")
    else:
        if not isinstance(value, dict) or value.keys() != node.by_name.keys():
            missing = node.by_name.keys() ^ (value.keys() if isinstance(value, dict) else set())
            message = f"{where}: outputs differ from the contract in {sorted(missing)}"
            raise KernelError(message)
        for child in node.fields:
            _check(child, value[child.name], f"{where}/{child.name}")
