"""Values and names as people read them: shared by the terminal and by Markdown."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache
from typing import Any, Final

VERDICT_WORDS: Final = {
    "met": "met",
    "advisory": "advisory",
    "not-met": "NOT MET",
    "dangerous": "DANGEROUS",
    "incomplete": "INCOMPLETE",
    None: "nothing to judge",
}
"""A verdict in words; the two that stop a job are in capitals, so colour is never needed."""

_QUANTITY = {"value", "unit"}
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_POWER = re.compile(r"(?<=[A-Za-z])(-?[1-9])(?![0-9A-Za-z])")
_UNITS: Final = {
    "degC": "°C",
    "degF": "°F",
    "degF_diff": "°F (difference)",
    "inH2O": "in H2O",
    "ohm": "Ω",
    "deg": "°",
    "degdH": "°dH",
    "degfH": "°fH",
    "ppm_CaCO3": "ppm CaCO₃",
    "1": "",
}


@lru_cache(maxsize=1024)
def unit_words(unit: str) -> str:
    """Write a wire spelling as it is printed: ``W/(m2.K)`` becomes ``W/(m²·K)``."""
    known = _UNITS.get(unit)
    if known is not None:
        return known
    raised = _POWER.sub(lambda found: found[1].translate(_RAISED), unit)
    return raised.replace(".", "·")


def number_words(value: float, figures: int = 4) -> str:
    """Write a number to some significant figures, never in exponent form within the trade's range."""
    if isinstance(value, int) or value == 0:
        return f"{value:g}"
    text = f"{value:.{figures}g}"
    if "e" in text and 1e-6 < abs(value) < 1e9:  # noqa: PLR2004  (readable without exponent)
        text = f"{Decimal(text):f}"
    return text


def value_words(value: Any, figures: int = 4) -> str:
    """Write any value of a record for people."""
    if type(value) is dict and value.keys() == _QUANTITY:  # the commonest by far
        inner = value["value"]
        if type(inner) is float:
            return f"{number_words(inner, figures)} {unit_words(value['unit'])}".rstrip()
    if value is None:
        return "–"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return number_words(value, figures)
    if isinstance(value, dict):
        if value.keys() == {"values", "unit"}:
            return f"{len(value['values'])} points"
        if "unit" in value and "value" in value:
            inner = value["value"]
            number = number_words(inner, figures) if isinstance(inner, (int, float)) else str(inner)
            parts = [number, unit_words(value["unit"]), value.get("basis", "")]
            return " ".join(part for part in parts if part)
        return ", ".join(f"{name_words(k)} {value_words(v, figures)}" for k, v in value.items())
    if isinstance(value, list):
        return ", ".join(value_words(item, figures) for item in value)
    return str(value)


def name_words(name: str) -> str:
    """Write a member's name as words."""
    return name.replace("_", " ")


def visible(text: str) -> str:
    """Write signs that would steer a terminal as their numbers: the text is somebody else's."""
    return "".join(sign if sign.isprintable() else f"\\u{ord(sign):04x}" for sign in text)


def pointer_words(pointer: str) -> str:
    """Write a pointer as words: ``/outputs/rooms/kitchen/loss`` is ``rooms / kitchen / loss``."""
    parts = [name_words(part) for part in pointer.split("/")[1:]]
    if parts[:1] in (["outputs"], ["inputs"]):
        parts = parts[1:]
    return " / ".join(parts)
