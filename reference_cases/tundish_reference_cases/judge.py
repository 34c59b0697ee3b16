"""Judging one answer against one case."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any

from tundish_reference_cases.units import UnitError, convert

VERDICTS = (
    "pass",
    "value-wrongly",
    "refused-wrongly",
    "fail",
    "unit-wrong",
    "skipped",
    "not-supported",
    "errored",
    "timed-out",
)


@dataclass(frozen=True)
class Answer:
    """What a tool said: a value, a refusal, or why there is none."""

    kind: str  # value, refused, skipped, not-supported, errored, timed-out
    body: dict[str, Any] = field(default_factory=dict)
    reason: str = ""


@dataclass(frozen=True)
class Miss:
    """One thing that is not as the case says."""

    pointer: str
    wanted: str
    got: str
    verdict: str = "fail"
    difference: str = ""


@dataclass(frozen=True)
class Judgement:
    """How a case came out."""

    verdict: str
    misses: tuple[Miss, ...] = ()
    reason: str = ""
    digits: float | None = None  # least digits of agreement over the case's numbers


class _Missing:
    def __repr__(self) -> str:
        return "nothing"


MISSING = _Missing()


def look_up(value: Any, pointer: str) -> Any:
    """Return what a pointer names; list items by name before index."""
    here = value
    for raw in pointer.split("/")[1:]:
        part = raw.replace("~1", "/").replace("~0", "~")
        if isinstance(here, list):
            named = [item for item in here if isinstance(item, dict) and item.get("name") == part]
            if named:
                here = named[0]
            elif part.isascii() and part.isdecimal() and int(part) < len(here):
                here = here[int(part)]
            else:
                return MISSING
        elif isinstance(here, dict) and part in here:
            here = here[part]
        else:
            return MISSING
    return here


def margin(tolerance: dict[str, Any], wanted: float) -> float:
    """Return the absolute difference that a tolerance allows."""
    return float(max(tolerance.get("relative", 0.0) * abs(wanted), tolerance.get("absolute", 0.0)))


def _digits(got: float, wanted: float) -> float:
    if got == wanted:
        return 16.0
    scale = abs(wanted) or 1.0
    return max(0.0, min(16.0, -math.log10(abs(got - wanted) / scale)))


def _shown(number: float, unit: str = "") -> str:
    return f"{number:.10g} {unit}".rstrip()


def _difference(difference: float, wanted: float, unit: str) -> str:
    # A difference of temperatures is not a temperature.
    step = {"degC": "K", "degF": "degF_diff"}.get(unit, unit)
    share = f" ({difference / abs(wanted):+.3g} of it)" if wanted and unit == step else ""
    return f"{difference:+.4g} {step}".rstrip() + share


def _same(wanted: Any, got: Any) -> bool:
    """Equality of JSON: 15 and 15.0 are one number, true is not 1."""
    if isinstance(wanted, bool) or isinstance(got, bool):
        return wanted is got
    if isinstance(wanted, (int, float)) and isinstance(got, (int, float)):
        return wanted == got
    if isinstance(wanted, list) and isinstance(got, list):
        return len(wanted) == len(got) and all(map(_same, wanted, got))
    if isinstance(wanted, dict) and isinstance(got, dict):
        return wanted.keys() == got.keys() and all(_same(wanted[k], got[k]) for k in wanted)
    return type(wanted) is type(got) and bool(wanted == got)


def _in_unit(got: Any, unit: str, pointer: str, wanted: str) -> float | Miss:
    if not isinstance(got, dict) or "value" not in got or "unit" not in got:
        return Miss(pointer, wanted, repr(got)[:80])
    if isinstance(got["value"], bool) or not isinstance(got["value"], (int, float)):
        return Miss(pointer, wanted, repr(got)[:80])
    try:
        return convert(got["value"], got["unit"], unit)
    except UnitError as error:
        return Miss(pointer, wanted, f"{got['value']} {got['unit']} ({error})", "unit-wrong")


def _compare(pointer: str, expected: dict[str, Any], got: Any) -> tuple[Miss | None, float | None]:
    if "equals" in expected:
        if _same(expected["equals"], got):
            return None, None
        return Miss(pointer, repr(expected["equals"]), repr(got)[:80]), None
    if "between" in expected:
        low, high = expected["between"]
        words = (
            f"between {_shown(low['value'], low['unit'])} and {_shown(high['value'], high['unit'])}"
        )
        number = _in_unit(got, low["unit"], pointer, words)
        if isinstance(number, Miss):
            return number, None
        # Both ends in one unit: the linter sees to it that they convert.
        if low["value"] <= number <= convert(high["value"], high["unit"], low["unit"]):
            return None, None
        return Miss(pointer, words, _shown(number, low["unit"])), None
    unit = ""
    if "quantity" in expected:
        quantity = expected["quantity"]
        wanted, unit = float(quantity["value"]), quantity["unit"]
        found = _in_unit(got, unit, pointer, _shown(wanted, unit))
        if isinstance(found, Miss):
            return found, None
        if "basis" in quantity and got.get("basis") != quantity["basis"]:
            return Miss(pointer, quantity["basis"], str(got.get("basis")), "unit-wrong"), None
        number = found
    else:
        wanted = float(expected["number"])
        if isinstance(got, bool) or not isinstance(got, (int, float)):
            return Miss(pointer, _shown(wanted), repr(got)[:80]), None
        number = float(got)
    allowed = margin(expected["tolerance"], wanted)
    if abs(number - wanted) <= allowed:
        return None, _digits(number, wanted)
    words = f"{_shown(wanted, unit)} ± {allowed:.3g}"
    return Miss(
        pointer, words, _shown(number, unit), difference=_difference(number - wanted, wanted, unit)
    ), None


def judge(case: dict[str, Any], answer: Answer) -> Judgement:
    """Judge one answer; nothing is passed that the case does not say."""
    if answer.kind not in {"value", "refused"}:
        return Judgement(answer.kind, reason=answer.reason)
    if case["result"] == "refused":
        if answer.kind == "value":
            wanted = case["refusal"]["code"]
            return Judgement("value-wrongly", (Miss("", f"refusal {wanted}", "a value"),))
        misses = tuple(
            Miss(f"/{name}", case["refusal"][name], str(answer.body.get(name)))
            for name in ("code", "pointer")
            if answer.body.get(name) != case["refusal"][name]
        )
        return Judgement("fail" if misses else "pass", misses)
    if answer.kind == "refused":
        said = f"{answer.body.get('code')} at {answer.body.get('pointer')}"
        return Judgement("refused-wrongly", (Miss("", "a value", said),))
    missed: list[Miss] = []
    digits: list[float] = []
    for pointer, expected in case["expect"].items():
        miss, agreed = _compare(pointer, expected, look_up(answer.body, pointer))
        if miss is not None:
            missed.append(miss)
        elif agreed is not None:
            digits.append(agreed)
    least = min(digits, default=None)
    if not missed:
        return Judgement("pass", digits=least)
    units = all(miss.verdict == "unit-wrong" for miss in missed)
    return Judgement("unit-wrong" if units else "fail", tuple(missed), digits=least)
