"""Checks of the corpus that a schema cannot say. Each finding is a sentence that names its place."""

from __future__ import annotations

import json
import re
from collections import Counter, defaultdict
from typing import TYPE_CHECKING, Any

from tundish_reference_cases.judge import margin
from tundish_reference_cases.units import UNITS, UnitError, convert

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tundish_reference_cases.groups import Corpus, Group

LEAST_REQUIRED = 8
LEAST_KINDS = 3
LARGEST_SHARE = 1 / 3
UNCONFIRMED = frozenset({"memory", "disputed"})
_POINTER = re.compile(r"(?:/(?:[^~/]|~[01])+)+\Z")
_AMOUNT = re.compile(r"[-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?\s*(.*)\Z", re.DOTALL)
_FLOATS = 1e-12  # a tolerance below this asks for more than doubles keep


def lint(corpus: Corpus) -> list[str]:
    """Return everything that is wrong; an empty list when nothing is."""
    found: list[str] = []
    ids: Counter[str] = Counter()
    for group in corpus.groups:
        found += _group(group)
        ids.update(case["id"] for case in group.data["cases"])
    found += [f"case id {name} is used {count} times" for name, count in ids.items() if count > 1]
    by_calculation: dict[str, list[tuple[Group, dict[str, Any]]]] = defaultdict(list)
    for group, case in corpus.cases():
        by_calculation[group.calculation].append((group, case))
    for calculation, cases in by_calculation.items():
        found += _calculation(calculation, cases)
    return found


def _group(group: Group) -> Iterator[str]:
    data, where = group.data, group.path
    cited: set[str] = set()
    flagged: set[str] = set()
    if data["group"].partition("/")[0] != group.calculation:
        yield f"{where}: group {data['group']} does not start with its calculation"
    for name, source in data["sources"].items():
        computed = source["kind"] == "library" or source["confirmed"] == "computed"
        if computed and "computed_with" not in source:
            yield f"{where}: source {name} was computed, and computed_with is missing"
        if not computed and "computed_with" in source:
            yield f"{where}: source {name} was not computed, yet names computed_with"
    for case in data["cases"]:
        cited.update(case["sources"])
        flagged.update(case.get("flags", ()))
        for text in _case(case, data):
            yield f"{where}: {case['id']}: {text}"
    yield from (f"{where}: source {name} is not used" for name in data["sources"].keys() - cited)
    yield from (f"{where}: flag {name} is not used" for name in data["flags"].keys() - flagged)


def _case(case: dict[str, Any], data: dict[str, Any]) -> Iterator[str]:
    sources = [data["sources"].get(name) for name in case["sources"]]
    for name, source in zip(case["sources"], sources, strict=True):
        if source is None:
            yield f"source {name} is not defined"
    for name in case.get("flags", ()):
        if name not in data["flags"]:
            yield f"flag {name} is not defined"
    known = [source for source in sources if source is not None]
    if case["level"] == "required" and any(s["confirmed"] in UNCONFIRMED for s in known):
        yield "rests on memory or a disputed source, so it cannot be required"
    if any(s["kind"] == "derivation" for s in known) and "derivation" not in case:
        yield "cites a derivation and does not write it out"
    if re.search(r"\bshould\b", case["title"], re.IGNORECASE) or case["title"].endswith("."):
        yield "a title states a fact, without a full stop"
    yield from _result(case)
    for pointer, expected in case.get("expect", {}).items():
        if not _POINTER.match(pointer):
            yield f"{pointer!r} is not a JSON Pointer into the result"
        for text in _expected(expected):
            yield f"{pointer}: {text}"


def _result(case: dict[str, Any]) -> Iterator[str]:
    if (case["result"] == "refused") != ("refusal" in case):
        yield "result and refusal do not agree"
    if case["result"] == "value" and not case.get("expect"):
        yield "expects nothing"
    if case["result"] == "refused" and "expect" in case:
        yield "a refused case expects no value"
    if case.get("refusal", {}).get("pointer") and not _POINTER.match(case["refusal"]["pointer"]):
        yield f"refusal: {case['refusal']['pointer']!r} is not a JSON Pointer"


def _expected(expected: dict[str, Any]) -> Iterator[str]:
    forms = [name for name in ("quantity", "number", "equals", "between") if name in expected]
    if len(forms) != 1:
        yield "needs exactly one of quantity, number, equals and between"
        return
    form = forms[0]
    if form in {"quantity", "number"}:
        tolerance = expected.get("tolerance")
        if tolerance is None or ("relative" in tolerance) == ("absolute" in tolerance):
            yield "needs a tolerance, either relative or absolute"
            return
        value = expected["quantity"]["value"] if form == "quantity" else expected["number"]
        allowed = margin(tolerance, value)
        if "digits" in expected and value and allowed < _half_digit(value, expected["digits"]):
            yield "the tolerance is finer than the printed digits"
        if value and 0 < allowed < abs(value) * _FLOATS:
            yield "the tolerance is finer than double precision allows"
    elif "tolerance" in expected:
        yield f"{form} takes no tolerance"
    units = [expected["quantity"]] if form == "quantity" else expected.get("between", [])
    for quantity in units:
        if quantity["unit"] not in UNITS:
            yield f"the unit {quantity['unit']!r} is not in the corpus's table"
            return
    if form == "between":
        low, high = units
        try:
            if convert(high["value"], high["unit"], low["unit"]) <= low["value"]:
                yield "between runs from the lower to the higher value"
        except UnitError as error:
            yield f"between: {error}"


def _half_digit(value: float, digits: int) -> float:
    """Half a unit of the last printed digit, a hair less for the rounding of the doubles."""
    exponent = int(f"{abs(value):e}".partition("e")[2])
    return 0.5 * 10.0 ** (exponent - digits + 1) * (1 - 1e-9)


# --- over a calculation ---------------------------------------------------------------------------


def _leaves(value: Any, pointer: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        for key, item in value.items():
            yield from _leaves(item, f"{pointer}/{key}")
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _leaves(item, f"{pointer}/{index}")
    else:
        yield pointer, value


def _at_limit(group: Group, case: dict[str, Any]) -> bool:
    kinds = {group.data["flags"].get(name, {}).get("kind") for name in case.get("flags", ())}
    return bool(kinds & {"boundary", "region", "safety"}) or case["result"] == "refused"


def independent(cases: list[tuple[Group, dict[str, Any]]]) -> int:
    """Count cases; those that differ in one number only count once, except at a limit."""
    plain = [dict(_leaves(case["request"])) for group, case in cases if not _at_limit(group, case)]
    kept: list[dict[str, Any]] = []
    for leaves in plain:
        if not any(_one_number(leaves, other) for other in kept):
            kept.append(leaves)
    return len(kept) + len(cases) - len(plain)


def _one_number(a: dict[str, Any], b: dict[str, Any]) -> bool:
    if a.keys() != b.keys():
        return False
    different = [key for key in a if a[key] != b[key]]
    return len(different) <= 1 and all(_numbers(key, a[key], b[key]) for key in different)


def _numbers(pointer: str, a: Any, b: Any) -> bool:
    """Whether two leaves differ as numbers do: ``3`` and ``4``, or ``"18 kW"`` and ``"20 kW"``."""
    if not isinstance(a, str) or not isinstance(b, str):
        return not isinstance(a, str) and not isinstance(b, str)
    one, other = _AMOUNT.match(a), _AMOUNT.match(b)
    if not pointer.startswith("/inputs/") or one is None or other is None:
        return False
    return one.group(1) == other.group(1)


def _calculation(name: str, cases: list[tuple[Group, dict[str, Any]]]) -> Iterator[str]:
    required = [(group, case) for group, case in cases if case["level"] == "required"]
    count = independent(required)
    if count < LEAST_REQUIRED:
        yield f"{name}: {count} independent required cases, at least {LEAST_REQUIRED} are needed"
    refused = sum(case["result"] == "refused" for _, case in required)
    if refused > LARGEST_SHARE * len(required):
        yield f"{name}: {refused} of {len(required)} required cases are refusals, over a third"
    if required and not refused:
        yield f"{name}: no required case is a refusal"
    shares: Counter[str] = Counter()
    kinds: set[str] = set()
    outside = False
    for group, case in required:
        for source in case["sources"]:
            entry = group.data["sources"].get(source)
            if entry is None:
                continue
            shares[json.dumps([entry["document"], entry["edition"], entry["locator"]])] += 1
            kinds.add(entry["kind"])
            outside = outside or entry["kind"] != "derivation"
    for source, share in shares.items():
        if share > LARGEST_SHARE * len(required):
            yield f"{name}: {share} of {len(required)} required cases rest on one source {source}"
    if len(kinds) < LEAST_KINDS:
        yield f"{name}: required cases rest on {len(kinds)} kinds of source ({sorted(kinds)})"
    if not outside:
        yield f"{name}: no required case comes from outside our own derivations"
    seen: dict[str, str] = {}
    for _, case in cases:
        key = json.dumps(case["request"], sort_keys=True)
        if key in seen and case["result"] == "refused":
            yield f"{name}: {case['id']} asks the same as {seen[key]}"
        elif key in seen:
            yield f"{name}: {case['id']} asks the same as {seen[key]}; put them in one case"
        seen[key] = case["id"]
