"""A strict reader of JSON and a checker for the part of JSON Schema that the corpus uses.

The package stands alone, so it brings its own; the tests hold it against a full implementation.
"""

from __future__ import annotations

import json
import math
import re
from typing import Any

_TYPES: dict[str, tuple[type, ...]] = {
    "object": (dict,),
    "array": (list,),
    "string": (str,),
    "number": (int, float),
    "integer": (int,),
}


class ShapeError(ValueError):
    """A document is not what its schema says: where, and what is wrong."""


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        message = f"member {twice!r} stands twice"
        raise ShapeError(message)
    return found


def _no_constant(name: str) -> float:
    message = f"{name} is not JSON"
    raise ShapeError(message)


def _finite(text: str) -> float:
    number = float(text)
    if not math.isfinite(number):  # 1e999 is good JSON, and no number a case can hold
        message = f"{text} is too large"
        raise ShapeError(message)
    return number


def parse(text: str) -> Any:
    """Read JSON; a member that stands twice, NaN and infinity are refused."""
    try:
        return json.loads(
            text, object_pairs_hook=_unique, parse_constant=_no_constant, parse_float=_finite
        )
    except ShapeError:
        raise
    except ValueError as error:
        raise ShapeError(str(error)) from None


def check(value: Any, schema: dict[str, Any], whole: dict[str, Any], where: str = "") -> None:
    """Raise :class:`ShapeError` at the first place where ``value`` departs from ``schema``."""
    if "$ref" in schema:
        schema = whole["$defs"][schema["$ref"].rpartition("/")[2]]
    if "const" in schema and value != schema["const"]:
        _fail(where, f"is not {schema['const']!r}")
    if "enum" in schema and value not in schema["enum"]:
        _fail(where, f"is {value!r}, not one of {', '.join(map(str, schema['enum']))}")
    if "type" in schema:
        fits = isinstance(value, _TYPES[schema["type"]])
        if not fits or (isinstance(value, bool) and schema["type"] in {"number", "integer"}):
            _fail(where, f"is not of type {schema['type']}")
    if isinstance(value, str):
        _check_text(value, schema, where)
    elif isinstance(value, dict):
        _check_object(value, schema, whole, where)
    elif isinstance(value, list):
        if not schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", 1 << 30):
            _fail(where, "has too few or too many items")
        for index, item in enumerate(value):
            check(item, schema.get("items", {}), whole, f"{where}/{index}")
    elif "minimum" in schema and value < schema["minimum"]:
        _fail(where, f"is below {schema['minimum']}")


def _check_text(value: str, schema: dict[str, Any], where: str) -> None:
    if len(value) < schema.get("minLength", 0) or len(value) > schema.get("maxLength", 1 << 30):
        _fail(where, "is too short or too long")
    if "pattern" in schema:
        # In JSON Schema "$" is the very end; in Python it also stands before a last line break.
        pattern = re.sub(r"(?<!\\)\$$", r"\\Z", schema["pattern"])
        if re.search(pattern, value) is None:
            _fail(where, f"{value!r} does not match {schema['pattern']}")


def _check_object(
    value: dict[str, Any], schema: dict[str, Any], whole: dict[str, Any], where: str
) -> None:
    if len(value) < schema.get("minProperties", 0):
        _fail(where, "is empty")
    for name in schema.get("required", ()):
        if name not in value:
            _fail(where, f"lacks {name!r}")
    known = schema.get("properties", {})
    other = schema.get("additionalProperties", True)
    for name, item in value.items():
        if name in known:
            check(item, known[name], whole, f"{where}/{name}")
        elif other is False:
            _fail(where, f"has no member {name!r}")
        elif isinstance(other, dict):
            check(item, other, whole, f"{where}/{name}")


def _fail(where: str, what: str) -> None:
    message = f"{where or '/'} {what}"
    raise ShapeError(message)
