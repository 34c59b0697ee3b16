"""Proofs of a calculation: units, columns, working, dimensions, directions, limits, kernels, contract.

Each ``check_…`` takes a calculation's id and a host, and raises ``AssertionError`` that names what is
wrong. They run over the calculation's reference cases: those are its structures.
"""

from __future__ import annotations

import ast
import copy
import math
import random
import re
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from tundish.batch import run_columns
from tundish.doubts import doubting
from tundish.findings import judge
from tundish.formula import Formula
from tundish.host import Host, default_host, today
from tundish.leaves import Based, Column, Count, Number, Quantity
from tundish.problems import RefusedRequest
from tundish.quantities.kinds import KINDS
from tundish.quantities.reading import PATTERN
from tundish.reach import reachable_files, reachable_formulas
from tundish.refusals import Refusal
from tundish.rules import Rulebook
from tundish.run import read_request
from tundish.tables import Table
from tundish.testing.cases import cases_of
from tundish.testing.recompute import evaluate
from tundish.working import recording

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tundish.calculation import Calculation
    from tundish.contract import Node
    from tundish.doubts import Doubts
    from tundish.run import Request, Runner

TOLERANCE: Final = 1e-12
PLACES: Final = 4
"""Last places by which an input may move the answer without a fault."""
EDGE: Final = 16
"""Last places within which an input stands on the edge of a jump: a conversion costs some."""
ROWS: Final = 10_000
LEAST_STRUCTURES: Final = 20
LARGEST_FLIPS: Final = 0.01
_SHORT: Final = re.compile(PATTERN)


@dataclass
class Subject:
    """A calculation with its cases: their requests, and what they expect."""

    host: Host
    runner: Runner
    requests: dict[str, dict[str, Any]]
    expected: list[dict[str, Any]]
    memo: dict[str, Any] = field(default_factory=dict)

    @property
    def calculation(self) -> Calculation:
        """The calculation itself."""
        return self.runner.calculation

    def read(self, request: dict[str, Any]) -> tuple[Request, Any]:
        """Read a request to inputs in SI; raises :class:`RefusedRequest`."""
        try:
            read = read_request(self.calculation, request, self.host.book, today=today())
        except Refusal as refusal:
            raise self.runner.refused(refusal) from None
        inputs, _ = self.runner.inputs(read)
        return read, inputs

    def outputs(self, request: dict[str, Any]) -> Any:
        """Return a request's outputs in SI, or its refusal."""
        try:
            read, inputs = self.read(request)
            return self.calculation.kernel(inputs, read.context)
        except RefusedRequest as refused:
            return refused.errors[0].code, refused.errors[0].pointer
        except Refusal as refusal:
            error = self.runner.refused(refusal).errors[0]
            return error.code, error.pointer

    def answered(self) -> dict[str, dict[str, Any]]:
        """Return the cases that are answered."""
        if "answered" not in self.memo:
            self.memo["answered"] = {
                name: request
                for name, request in self.requests.items()
                if not isinstance(self.outputs(request), tuple)
            }
        found: dict[str, dict[str, Any]] = self.memo["answered"]
        return found


@lru_cache(maxsize=32)
def _subject(calculation: str, host: Host) -> Subject:
    cases = cases_of(calculation, host)
    requests = {name: case["request"] for name, case in cases.items()}
    expected = [case.get("expect", {}) for case in cases.values()]
    return Subject(host, host.runner(calculation), requests, expected)


def subject(calculation: str, host: Host | None = None) -> Subject:
    """Return a calculation with its cases; they are read once."""
    return _subject(calculation, host or default_host())


# --- values ---------------------------------------------------------------------------------------


def flat(value: Any, pointer: str = "") -> Iterator[tuple[str, Any]]:
    """Every plain value of some outputs with its pointer."""
    if isinstance(value, dict):
        for key, item in value.items():
            yield from flat(item, f"{pointer}/{key}")
    elif isinstance(value, (list, tuple)):
        for index, item in enumerate(value):
            yield from flat(item, f"{pointer}/{index}")
    elif isinstance(value, Based):
        yield from flat(value.value, pointer)
    else:
        yield pointer, value


def _close(a: float, b: float) -> bool:
    return a == b or abs(a - b) <= TOLERANCE * max(abs(a), abs(b))


def _places(node: Node, given: Any, pointer: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Where the quantities and pure numbers of a request's inputs stand."""
    if given is None:
        return
    if node.leaf is not None:
        if node.leaf.columnar:
            yield pointer
    elif node.item is not None:
        for index, item in enumerate(given if isinstance(given, list) else ()):
            yield from _places(node.item, item, (*pointer, index))
    elif isinstance(given, dict):
        for child in node.fields:
            if child.name in given:
                yield from _places(child, given[child.name], (*pointer, child.name))


def _node_at(node: Node, place: tuple[Any, ...]) -> Node:
    found = node.at("".join(f"/{part}" for part in place))
    assert found is not None
    return found


def _get(value: Any, place: tuple[Any, ...]) -> Any:
    for part in place:
        value = value[part]
    return value


def _put(value: Any, place: tuple[Any, ...], item: Any) -> None:
    _get(value, place[:-1])[place[-1]] = item


def _number(leaf: Quantity | Number, given: Any) -> tuple[float, str, str]:
    """Return a given value's number, unit and basis."""
    if isinstance(leaf, Number):
        return float(given), "", ""
    if isinstance(given, str):
        number, _, rest = given.partition(" ")
        unit, _, basis = rest.partition(" ")
        return float(number), unit, basis
    return float(given["value"]), given["unit"], given.get("basis", "")


def _write(leaf: Quantity | Number, number: float, unit: str, basis: str, *, short: bool) -> Any:
    if isinstance(leaf, Number):
        return number
    text = repr(number)
    if short and _SHORT.fullmatch(text):
        return " ".join(part for part in (text, unit, basis) if part)
    return {"value": number, "unit": unit, **({"basis": basis} if basis else {})}


def _moved(number: float, places: int) -> float:
    for _ in range(abs(places)):
        number = math.nextafter(number, math.inf if places > 0 else -math.inf)
    return number


def _neighbours(found: Subject, request: dict[str, Any], places: int) -> Iterator[Any]:
    """Outputs, or refusals, of the requests in which one input is moved by some last places."""
    node = found.calculation.inputs_node
    for place in _places(node, request["inputs"]):
        leaf = _node_at(node, place).leaf
        assert isinstance(leaf, (Quantity, Number))
        number, unit, basis = _number(leaf, _get(request["inputs"], place))
        for step in (places, -places):
            other = copy.deepcopy(request)
            moved = _moved(number, step)
            _put(other["inputs"], place, _write(leaf, moved, unit, basis, short=False))
            yield found.outputs(other)


def _sensitivity(found: Subject, request: dict[str, Any]) -> dict[str, float]:
    """Return how far each output moves when each input moves by its last places."""
    base = dict(flat(found.outputs(request)))
    moved = dict.fromkeys(base, 0.0)
    for outputs in _neighbours(found, request, PLACES):
        if isinstance(outputs, tuple):
            continue
        for pointer, value in flat(outputs):
            before = base.get(pointer)
            if type(value) is float and isinstance(before, float):
                moved[pointer] = moved.get(pointer, 0.0) + abs(value - before)
    return moved


def _discrete(outputs: Any) -> Any:
    """Return what of some outputs, or of a refusal, can only jump."""
    if isinstance(outputs, tuple):
        return outputs
    return [(k, "number" if type(v) is float else v) for k, v in flat(outputs)]


def _on_edge(found: Subject, request: dict[str, Any]) -> bool:
    """Whether moving one input by last places makes the answer jump: another may do so, too."""
    here = _discrete(found.outputs(request))
    return any(_discrete(near) != here for near in _neighbours(found, request, EDGE))


def _differences(found: Subject, request: dict[str, Any], a: Any, b: Any) -> list[str]:
    """Compare two outputs; what differs beyond the tolerance and the inputs' last places."""
    left, right = dict(flat(a)), dict(flat(b))
    if left.keys() != right.keys():
        return ["the shape differs"]
    suspects = []
    for pointer, value in left.items():
        other = right[pointer]
        if isinstance(value, float) and isinstance(other, float):
            if not _close(value, other):
                suspects.append(pointer)
        elif value != other:
            return [f"{pointer}: {value!r} is not {other!r}"]
    if not suspects:
        return []
    moved = _sensitivity(found, request)
    return [
        f"{pointer}: {left[pointer]!r} is not {right[pointer]!r}"
        for pointer in suspects
        if abs(left[pointer] - right[pointer]) > 2 * moved.get(pointer, 0.0)
    ]


# --- the checks -----------------------------------------------------------------------------------


def check_units(calculation: str, host: Host | None = None, *, seed: int = 1) -> None:
    """The same inputs in any compatible unit and in both forms give the same outputs."""
    found = subject(calculation, host)
    chance = random.Random(seed)  # noqa: S311
    node = found.calculation.inputs_node
    tried = 0
    for name, request in found.answered().items():
        other = copy.deepcopy(request)
        for place in list(_places(node, other["inputs"])):
            leaf = _node_at(node, place).leaf
            assert isinstance(leaf, (Quantity, Number))
            number, unit, basis = _number(leaf, _get(other["inputs"], place))
            if isinstance(leaf, Quantity):
                kind = KINDS[leaf.kind]
                factor, offset = kind.conversion(unit)
                unit = chance.choice(kind.units)
                to_factor, to_offset = kind.conversion(unit)
                number = (number * factor + offset - to_offset) / to_factor
            short = chance.random() < 0.5  # noqa: PLR2004
            _put(other["inputs"], place, _write(leaf, number, unit, basis, short=short))
        outputs, before = found.outputs(other), found.outputs(request)
        tried += 1
        if _discrete(outputs) != _discrete(before):
            assert _on_edge(found, request), f"{calculation}, {name}: jumps in other units"
            continue
        wrong = _differences(found, request, before, outputs)
        assert not wrong, f"{calculation}, {name}, in other units: {'; '.join(wrong[:3])}"
    assert tried, f"{calculation} has no answered reference case"


def _told(outputs: Any) -> str:
    return f"refused {outputs}" if isinstance(outputs, tuple) else "answered"


def _random_request(
    found: Subject, request: dict[str, Any], chance: random.Random
) -> dict[str, Any]:
    """Vary every quantity of a request about its value, and now and then over its whole range."""
    other = copy.deepcopy(request)
    node = found.calculation.inputs_node
    for place in list(_places(node, other["inputs"])):
        leaf = _node_at(node, place).leaf
        assert isinstance(leaf, (Quantity, Number))
        if chance.random() < 0.5:  # noqa: PLR2004
            continue
        number, unit, basis = _number(leaf, _get(other["inputs"], place))
        low, high = leaf.bounds(unit) if isinstance(leaf, Quantity) else (leaf.low, leaf.high)
        if chance.random() < 0.05 and low is not None and high is not None:  # noqa: PLR2004
            number = chance.uniform(low, high)
        else:
            number *= chance.uniform(0.9, 1.1)
        if (low is not None and number < low) or (high is not None and number > high):
            continue
        _put(other["inputs"], place, _write(leaf, number, unit, basis, short=False))
    return other


def check_columns(
    calculation: str, host: Host | None = None, *, rows: int = ROWS, seed: int = 2
) -> dict[str, int]:
    """Columns of random rows equal single runs, row by row, refusals with their codes included."""
    found = subject(calculation, host)
    assert found.calculation.row_by_row is None
    readable = {}
    for name, request in found.requests.items():
        try:
            found.read(request)
        except RefusedRequest:
            continue
        readable[name] = request
    assert len(readable) >= LEAST_STRUCTURES, f"{calculation}: {len(readable)} structures"
    assert 2 * len(found.answered()) >= len(readable)
    chance = random.Random(seed)  # noqa: S311
    bases = list(readable.values())
    requests = [_random_request(found, bases[k % len(bases)], chance) for k in range(rows)]
    columns = run_columns(found.runner, requests, found.host.book, today=today(), curves=True)
    codes, outputs = columns.codes(), columns.outputs()
    answered = flips = 0
    for index, request in enumerate(requests):
        single = found.outputs(request)
        column = outputs[index] if codes[index] is None else codes[index]
        if _discrete(single) != _discrete(column):
            assert _on_edge(found, request), (
                f"{calculation}, row {index}: alone {_told(single)}, in a column {_told(column)}"
            )
            flips += 1
            continue
        if isinstance(single, tuple):
            continue
        answered += 1
        wrong = _differences(found, request, single, column)
        assert not wrong, f"{calculation}, row {index}: {'; '.join(wrong[:3])}"
    assert flips < LARGEST_FLIPS * rows, f"{calculation}: {flips} of {rows} rows flip"
    assert answered, f"{calculation}: no row was answered"
    return {"rows": rows, "answered": answered, "flips": flips, "groups": len(columns.groups)}


def _plain_number(cell: Any) -> Any:
    return cell["value"] if isinstance(cell, dict) else cell


def _check_table(step: dict[str, Any], found: Subject, region: str) -> None:
    """A look-up stands in the edition cited, and follows from the numbers printed."""
    where = f"{step['rule']}, {step['look_up']} {step['asked']}"
    editions = found.host.book.editions(region, step["rule"])
    tables = [e.value for _, e in editions if e.edition == step["edition"]]
    assert tables, f"{where}: no edition {step['edition']}"
    rows = [table.printed_rows() for table in tables]
    row = step["row"]
    if step["look_up"] == "interpolate":
        ((axis, asked),) = step["asked"].items()
        low, high = row["from"], row["to"]
        assert any(low in table and high in table for table in rows), where
        (target,) = row.keys() - {"from", "to"}
        x, x_1, x_2 = map(_plain_number, (asked, low[axis], high[axis]))
        y, y_1, y_2 = map(_plain_number, (row[target], low[target], high[target]))
        assert x_1 <= x <= x_2, where
        share = (x - x_1) / (x_2 - x_1) if x_2 > x_1 else 0.0
        assert math.isclose(y, y_1 + share * (y_2 - y_1), rel_tol=1e-9, abs_tol=1e-12), where
        return
    assert any(row in table for table in rows), where
    for name, asked in step["asked"].items():
        if step["look_up"] == "exact":
            assert row[name] == asked, where
            continue
        x = _plain_number(asked)
        assert _plain_number(row[name]) >= x * (1 - 1e-8), where
        larger = [_plain_number(r[name]) for table in rows if row in table for r in table]
        between = [v for v in larger if x * (1 + 1e-8) <= v < _plain_number(row[name])]
        assert not between, f"{where}: {between} would do"


def _check_step(step: dict[str, Any], found: Subject, region: str) -> None:
    """A step that is no formula: the rule as it is written, the row as it stands, a root."""
    if step["step"] == "rule":
        wires = [e.wire for _, e in found.host.book.editions(region, step["rule"])]
        assert step["value"] in wires, f"{step['rule']}: {step['value']} is in no edition"
    elif step["step"] == "table":
        _check_table(step, found, region)
    elif step["step"] == "search":
        where = f"search for {step['name']}"
        ends = sorted((step["low"], step["high"]))
        assert ends[0] <= step["value"] <= ends[1], where


def check_working(calculation: str, host: Host | None = None) -> int:
    """Every step recomputes from its printed numbers; what is shown is within its rounding.

    Rules and rows of tables stand in the edition cited; a look-up follows from its numbers. The
    formulas of an equation are recorded at the root found, which proves it.
    """
    found = subject(calculation, host)
    count = 0
    for name, request in found.answered().items():
        read, _ = found.read(request)
        record = found.runner.run(read)
        for step in record["working"]:
            if step["step"] != "formula":
                _check_step(step, found, read.context.region)
                continue
            count += 1
            value = evaluate(step["substituted"])
            where = f"{calculation}, {name}, {step['name']}: {step['substituted']}"
            assert _close(value, step["value"]) or abs(value - step["value"]) < 1e-300, where  # noqa: PLR2004
            shown = float(step["shown"].split(" = ")[1].split(" ")[0])
            assert abs(shown - step["value"]) <= 0.5001e-4 * abs(step["value"]) + 1e-300, where
    assert count, f"{calculation} shows no working"
    return count


def formulas_of(found: Subject) -> dict[str, tuple[Formula[..., Any], tuple[Any, ...]]]:
    """Every formula that some case runs, with arguments it ran with."""
    seen: dict[str, tuple[Formula[..., Any], tuple[Any, ...]]] = {}
    for request in found.answered().values():
        read, inputs = found.read(request)
        with recording() as recorder:
            found.calculation.kernel(inputs, read.context)
        for what, payload, _, _ in recorder.steps:
            if isinstance(what, Formula):
                seen.setdefault(what.id, (what, payload))
    return seen


def check_reach(calculation: str, host: Host | None = None) -> int:
    """Some case runs every formula the kernel's code can reach, and none beyond those."""
    found = subject(calculation, host)
    ran: set[str] = set()
    plain = Formula.__call__

    def noted(self: Formula[..., Any], *args: Any, **kwargs: Any) -> Any:
        ran.add(self.id)
        return plain(self, *args, **kwargs)

    Formula.__call__ = noted  # type: ignore[method-assign]
    try:
        for request in found.answered().values():
            read, inputs = found.read(request)
            found.calculation.kernel(inputs, read.context)
    finally:
        Formula.__call__ = plain  # type: ignore[method-assign]
    known = {formula.id for formula in reachable_formulas(found.calculation.kernel)}
    assert ran == known, f"{calculation}: no case runs {known - ran}; not described: {ran - known}"
    return len(ran)


def check_dimensions(calculation: str, host: Host | None = None) -> int:
    """Every formula is right in its dimensions, proved by calling it with pint quantities."""
    import pint  # noqa: PLC0415

    found = subject(calculation, host)
    registry: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

    def quantity(value: Any, kind: str, unit: str) -> Any:
        if kind == "number":
            return registry.Quantity(value, "")
        if kind in {"temperature", "temperature_difference"}:
            return registry.Quantity(value, "kelvin")
        return registry.Quantity(value, KINDS[kind].spellings[unit].pint)

    proved = 0
    for formula, arguments in formulas_of(found).values():
        if formula.empirical:
            continue
        given = []
        for parameter, argument in zip(formula.parameters, arguments, strict=True):
            if isinstance(argument, (list, tuple)):
                given.append([quantity(item, parameter.kind, parameter.unit) for item in argument])
            else:
                given.append(quantity(argument, parameter.kind, parameter.unit))
        result = formula.in_quantities(quantity)(*given)
        wanted = quantity(1.0, formula.result.kind, formula.result.unit)
        got = result.dimensionality if hasattr(result, "dimensionality") else {}
        if isinstance(result, (int, float)) and result == 0.0:
            continue  # a sum of nothing
        assert got == wanted.dimensionality, f"{formula.id}: {got} is not {wanted.dimensionality}"
        proved += 1
    assert proved, f"{calculation}: no formula was proved"
    return proved


def check_directions(calculation: str, host: Host | None = None) -> None:
    """Declared directions hold along each input, in every case that gives it."""
    found = subject(calculation, host)
    node = found.calculation.inputs_node
    for declared in found.calculation.monotonic:
        tried = 0
        place = tuple(
            int(part) if part.isdigit() else part for part in declared.input.split("/")[1:]
        )
        for name, request in found.answered().items():
            try:
                given = _get(request["inputs"], place)
            except (KeyError, IndexError, TypeError):
                continue
            leaf = _node_at(node, place).leaf
            assert isinstance(leaf, (Quantity, Number)), declared.input
            number, unit, basis = _number(leaf, given)
            values = []
            for step in range(-4, 5):
                other = copy.deepcopy(request)
                moved = number * (1 + 0.05 * step)
                _put(other["inputs"], place, _write(leaf, moved, unit, basis, short=False))
                outputs = found.outputs(other)
                if isinstance(outputs, tuple):
                    continue
                value = dict(flat(outputs)).get(declared.output)
                if isinstance(value, float):
                    values.append(value)
            if len(values) < 3:  # noqa: PLR2004
                continue
            tried += 1
            if number < 0:
                values.reverse()
            sign = 1 if declared.direction == "increasing" else -1
            slack = 1e-9 * max(map(abs, values))
            falls = [b - a for a, b in pairwise(values)]
            assert all(sign * fall >= -slack for fall in falls), (
                f"{calculation}, {name}: {declared.output} is not {declared.direction} "
                f"in {declared.input}: {values}"
            )
        assert tried, f"{calculation}: no case exercises {declared.input} on {declared.output}"


def check_limits(calculation: str, host: Host | None = None) -> None:
    """Every finding has a case on each side of its limit that expects its verdict.

    Every refusal code is reached.
    """
    found = subject(calculation, host)
    sides: dict[str, set[bool]] = {item.code: set() for item in found.calculation.findings}
    codes: set[str] = set()
    for request in found.requests.values():
        try:
            read, inputs = found.read(request)
            with doubting() as doubts:
                outputs = found.calculation.kernel(inputs, read.context)
        except RefusedRequest as refused:
            codes.add(refused.errors[0].code)
            continue
        except Refusal as refusal:
            codes.add(refusal.code)
            continue
        for item in judge(found.calculation, read.context, inputs, outputs, doubts):
            sides[item.finding.code].add(bool(item.kept))
    for code, seen in sides.items():
        missing = {True: "met", False: "missed"}
        absent = [word for side, word in missing.items() if side not in seen]
        assert not absent, f"{calculation}: no case has {code} {' or '.join(absent)}"
    for declared in found.calculation.findings:
        pointer = f"/findings/{declared.code}/verdict"
        told = {case[pointer]["equals"] for case in found.expected if pointer in case}
        for verdicts in ({declared.failed}, {declared.passed, "advisory"}):
            wanted = f"{calculation}: no case expects {declared.code} {' or '.join(verdicts)}"
            assert told & verdicts, wanted
    unreached = {item.code for item in found.calculation.refusals} - codes
    assert not unreached, f"{calculation}: no case is refused with {sorted(unreached)}"


def _nudged_value(value: Any) -> Any:
    """A rule's value, or every number of its table, a tenth larger."""
    if isinstance(value, float):
        return value * 1.1
    if isinstance(value, Table):
        data = tuple(
            tuple(cell * 1.1 if isinstance(cell, float) else cell for cell in row)
            for row in value.data
        )
        return replace(value, data=data)
    return value


def _nudged_wire(wire: Any) -> Any:
    """A rule's value as a default takes it, a tenth larger."""
    if isinstance(wire, dict):
        return {**wire, "value": wire["value"] * 1.1}
    return wire * 1.1 if isinstance(wire, (int, float)) else wire


def _nudged_book(book: Rulebook, name: str) -> Rulebook:
    """Return the rules with one of them changed, for kernels and for defaults."""
    rules = dict(book.rules)
    for key, rule in book.rules.items():
        if rule.name == name:
            editions = tuple(
                replace(e, value=_nudged_value(e.value), wire=_nudged_wire(e.wire))
                for e in rule.editions
            )
            rules[key] = replace(rule, editions=editions)
    return Rulebook(regions=book.regions, rules=rules)


@contextmanager
def _nudged_formulas(kernel: Any, source: str) -> Iterator[None]:
    """Let every formula that rests on a source give a tenth more."""
    changed = [f for f in reachable_formulas(kernel) if source in f.doubtful]
    plain = [(formula, formula.function) for formula in changed]

    def more(function: Any) -> Any:
        return lambda *arguments: function(*arguments) * 1.1

    try:
        for formula, function in plain:
            formula.function = more(function)
        yield
    finally:
        for formula, function in plain:
            formula.function = function


def _judged(
    found: Subject, request: dict[str, Any], book: Rulebook
) -> tuple[dict[tuple[str, str], Any], Doubts]:
    """What each finding looks at, and what is doubtful in the run, its defaults included."""
    read = read_request(found.calculation, request, book, today=today())
    inputs, _ = found.runner.inputs(read)
    context = read.context
    with doubting() as doubts:
        outputs = found.calculation.kernel(inputs, context)
    seen = {**doubts, **context.doubts()}
    judged = judge(found.calculation, context, inputs, outputs, doubts)
    return {(j.finding.code, j.place.pointer): (j.place.value, j.limit) for j in judged}, seen


def check_independence(calculation: str, host: Host | None = None) -> int:
    """A finding that says what it rests on is moved by nothing else that is doubtful.

    Each doubtful rule, one behind a default too, and each formula of a doubtful source is made a
    tenth larger.
    """
    found = subject(calculation, host)
    declared = {f.code: f.rests_on for f in found.calculation.findings if f.rests_on is not None}
    tried = 0
    for name, request in found.answered().items():
        if not declared:
            break
        before, doubts = _judged(found, request, found.host.book)
        for doubt in doubts:
            try:
                with _nudged_formulas(found.calculation.kernel, doubt):
                    book = _nudged_book(found.host.book, doubt)
                    after, _ = _judged(found, request, book)
            except (Refusal, RefusedRequest, ArithmeticError, ValueError):
                continue  # changed, it can no longer be answered
            for (code, pointer), seen in before.items():
                if code not in declared or doubt in declared[code]:
                    continue
                tried += 1
                assert after.get((code, pointer)) == seen, (
                    f"{calculation}, {name}: {code} is moved by {doubt}, which it does not rest on"
                )
    return tried


_FORBIDDEN_CALLS: Final = frozenset({"min", "max", "abs", "round", "sorted"})
_ORDERINGS: Final = (ast.Lt, ast.LtE, ast.Gt, ast.GtE)


def _tests(node: ast.AST) -> list[ast.expr]:
    """What a piece of code decides by."""
    if isinstance(node, (ast.If, ast.While, ast.IfExp, ast.Assert)):
        return [node.test]
    if isinstance(node, ast.BoolOp):
        return node.values
    if isinstance(node, ast.comprehension):
        return node.ifs
    return [node.guard] if isinstance(node, ast.match_case) and node.guard is not None else []


def kernel_faults(source: str) -> list[str]:
    """Return what a kernel's text does that an array could not follow.

    A line that compares structure (counts, positions) and no quantity says so with ``# structure``.
    """
    lines = source.splitlines()
    faults = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            if node.func.id in _FORBIDDEN_CALLS:
                faults.append((node.lineno, f"calls {node.func.id}()"))
        elif isinstance(node, (ast.Import, ast.ImportFrom)):
            names = [item.name for item in node.names] + [getattr(node, "module", None) or ""]
            if any(name.partition(".")[0] in {"math", "numpy", "pint", "scipy"} for name in names):
                faults.append((node.lineno, "imports mathematics that arrays could not follow"))
        else:
            for test in _tests(node):
                faults += [
                    (inner.lineno, "orders quantities where an array has no one answer")
                    for inner in ast.walk(test)
                    if isinstance(inner, ast.Compare)
                    and any(isinstance(op, _ORDERINGS) for op in inner.ops)
                ]
    return [
        f"line {line}: {text}"
        for line, text in sorted(set(faults))
        if "# structure" not in lines[line - 1]
    ]


def check_kernel(calculation: str, host: Host | None = None) -> None:
    """The kernel, and what it calls in its package, can follow arrays.

    No built-in minimum, no ordering in an ``if``, a filter or an assertion.
    """
    found = subject(calculation, host)
    for file in map(Path, reachable_files(found.calculation.kernel)):
        faults = kernel_faults(file.read_text(encoding="utf-8"))
        assert not faults, f"{calculation}, {file.name}: {'; '.join(faults)}"


def check_contract(calculation: str, host: Host | None = None) -> None:
    """Fields have meaning and ranges, the example is a case, rules and cautions are there."""
    found = subject(calculation, host)
    declared = found.calculation
    for pointer, node in declared.inputs_node.walk():
        leaf = node.leaf
        if leaf is None:
            continue
        assert leaf.help, f"{calculation}: input {pointer} has no help"
        if isinstance(leaf, Quantity) and leaf.kind == "temperature":
            assert leaf.low is not None, f"{calculation}: {pointer} has no lower bound"
            assert leaf.high is not None, f"{calculation}: {pointer} has no upper bound"
        if isinstance(leaf, (Quantity, Number)) and not isinstance(leaf, (Column, Count)):
            assert leaf.symbol, f"{calculation}: {pointer} has no symbol"
    for pointer, node in declared.outputs_node.walk():
        if node.leaf is not None:
            assert node.leaf.help, f"{calculation}: output {pointer} has no help"
        assert pointer.isascii()
    entry, _ = found.host.entries[calculation]
    for told in ("title", "summary", "family", "questions"):
        assert getattr(entry, told) == getattr(declared, told), (
            f"{calculation}: {told} differs between the plugin's entry and the calculation"
        )
    cases = [request["inputs"] for request in found.requests.values()]
    assert dict(declared.example) in cases, f"{calculation}: the example is no reference case"
    assert declared.cautions, f"{calculation} carries no caution"
    optional = {need.rule for need in declared.needs if need.optional}
    for rule in declared.declared_rules - optional:
        known = found.host.book.find(declared.example_region, today(), rule)
        assert known is not None, f"{calculation}: no rule {rule} in {declared.example_region}"


def check(calculation: str, host: Host | None = None) -> None:
    """Run every check."""
    check_contract(calculation, host)
    check_kernel(calculation, host)
    check_units(calculation, host)
    check_working(calculation, host)
    check_reach(calculation, host)
    check_dimensions(calculation, host)
    check_directions(calculation, host)
    check_limits(calculation, host)
    check_independence(calculation, host)
    check_columns(calculation, host)
