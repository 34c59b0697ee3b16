"""Strict reading of quantities: bounded in time and memory whatever the text."""

from __future__ import annotations

import math
import re
from typing import Any

from tundish.quantities.kinds import Kind, UnknownSpellingError

LONGEST_TEXT = 64
LARGEST = 1e30  # far beyond any engineering value, so that products stay finite

# 15 digits are what a double keeps; the exponent is bounded so float() is cheap and finite.
PATTERN = r"[+-]?[0-9]{1,15}(?:\.[0-9]{1,15})?(?:[eE][+-]?[0-9]{1,3})?"
# No digit after the number: else the last of too many would be read as part of the unit.
_SHORT = re.compile(rf"({PATTERN})(?![0-9.]) ?(\S.*)?")
_COMMA = re.compile(r"[+-]?[0-9]+,[0-9]+.*")
_TIDY = str.maketrans({"\u2212": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " "})


class QuantityError(ValueError):
    """A quantity that cannot be understood: stable code, sentence and context."""

    def __init__(self, code: str, message: str, **context: Any) -> None:
        """Keep the stable code and the context beside the sentence."""
        super().__init__(message)
        self.code = code
        self.message = message
        self.context = context


def shown(given: object) -> str:
    """Return what was given, short; its type where it cannot be written out."""
    try:
        text = repr(given)
    except (ValueError, RecursionError):  # a number of thousands of digits, nesting without end
        text = type(given).__name__
    return text if len(text) <= LONGEST_TEXT else text[: LONGEST_TEXT - 1] + "…"


def _accepted(kind: Kind) -> str:
    return ", ".join(kind.units)


def _unit_error(kind: Kind, spelling: object) -> QuantityError:
    from tundish.quantities.kinds import KINDS  # noqa: PLC0415  (read at call: plugins add to it)

    others = []
    if isinstance(spelling, str) and len(spelling) <= LONGEST_TEXT:
        others = [k.name for k in KINDS.values() if k.canonical(spelling) in k.spellings]
    context = {
        "given": shown(spelling),
        "expected_kind": kind.name,
        "accepted_units": list(kind.units),
    }
    if others:
        words = others[0].replace("_", " ")
        return QuantityError(
            "unit-wrong-kind",
            f"{shown(spelling)} is a unit of {words}; this field is a {kind.words}. "
            f"Give it in one of: {_accepted(kind)}.",
            given_kind=others[0],
            **context,
        )
    return QuantityError(
        "unit-unknown",
        f"{shown(spelling)} is not a unit we read for {kind.words}. Use one of: {_accepted(kind)}.",
        **context,
    )


def read_text(text: str, kind: Kind) -> tuple[float, str]:
    """Read ``"18 kW"`` as a number and a canonical spelling of ``kind``."""
    if len(text) > LONGEST_TEXT:
        raise QuantityError(
            "quantity-unreadable",
            f"A quantity is at most {LONGEST_TEXT} characters, such as '18 {kind.units[-1]}'.",
            given=shown(text),
        )
    tidy = text.translate(_TIDY)
    found = _SHORT.fullmatch(tidy)
    if found is None:
        if _COMMA.fullmatch(tidy):
            raise QuantityError(
                "decimal-comma",
                f"{shown(text)} has a comma. Write decimals with a point and leave out "
                "thousands marks.",
                given=shown(text),
            )
        raise QuantityError(
            "quantity-unreadable",
            f"{shown(text)} is not a number and a unit. Write it like '18 {kind.units[-1]}', "
            f"with one of: {_accepted(kind)}.",
            given=shown(text),
            accepted_units=list(kind.units),
        )
    if found[2] is None:
        raise _missing_unit(kind, text)
    return _finite(float(found[1]), text), _spelling(kind, found[2])


def _spelling(kind: Kind, text: object) -> str:
    if not isinstance(text, str) or len(text) > LONGEST_TEXT:
        raise _unit_error(kind, text)
    try:
        kind.conversion(text)
    except UnknownSpellingError:
        if text[:1] == ",":
            raise QuantityError(
                "decimal-comma",
                f"{shown(text)}: write decimals with a point.",
                given=shown(text),
            ) from None
        raise _unit_error(kind, text) from None
    return kind.canonical(text)


def _missing_unit(kind: Kind, given: object) -> QuantityError:
    return QuantityError(
        "unit-missing",
        f"{shown(given)} has no unit. This field is a {kind.words}: give one of {_accepted(kind)}.",
        given=shown(given),
        expected_kind=kind.name,
        accepted_units=list(kind.units),
    )


def _finite(value: float, given: object) -> float:
    if not math.isfinite(value) or abs(value) > LARGEST:
        raise QuantityError(
            "number-not-finite",
            f"{shown(given)} is not a finite number of a sensible size.",
            given=shown(given),
        )
    return value


def read_quantity(given: object, kind: Kind) -> tuple[float, str]:
    """Read either JSON form. Returns the number as sent and the canonical spelling."""
    if type(given) is dict:
        if given.keys() != {"value", "unit"}:
            if "value" in given and "unit" not in given:
                raise _missing_unit(kind, given)
            raise QuantityError(
                "quantity-unreadable",
                "A quantity object has exactly the members value and unit.",
                given=shown(sorted(map(str, given))),
                accepted_units=list(kind.units),
            )
        value, unit = given["value"], given["unit"]
        if type(value) is not float and type(value) is not int:
            raise QuantityError(
                "number-expected",
                f"value must be a plain number, not {shown(value)}.",
                given=shown(value),
            )
        known = type(unit) is str and unit in kind.spellings
        spelling = unit if known else _spelling(kind, unit)
        if type(value) is int and abs(value) > LARGEST:
            return _finite(math.inf, "the number"), spelling
        return _finite(float(value), value), spelling
    if type(given) is str:
        return read_text(given, kind)
    if isinstance(given, (bool, list)) or given is None or isinstance(given, dict):
        raise QuantityError(
            "quantity-unreadable",
            f"{shown(given)} is not a quantity. Send {{'value': 18, 'unit': "
            f"'{kind.units[-1]}'}} or '18 {kind.units[-1]}'.",
            given=shown(given),
            accepted_units=list(kind.units),
        )
    raise _missing_unit(kind, given)
