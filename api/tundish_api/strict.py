"""Reading a JSON body strictly, in bounded time: what two readers could take differently is refused."""

from __future__ import annotations

import json
import math
from typing import Any, Final

DEEPEST: Final = 24
"""Deepest nesting of a body: a job's inputs with their links need about half of it."""
_BOM: Final = "\ufeff"


class BodyError(ValueError):
    """A body that is not read: a problem's code, and a sentence."""

    def __init__(self, code: str, detail: str) -> None:
        """Keep both."""
        super().__init__(detail)
        self.code, self.detail = code, detail


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        message = f"The member {twice[:64]!r} stands twice in one object."
        raise BodyError("duplicate-key", message)
    return found


def _no_constant(name: str) -> float:
    raise BodyError("number-not-finite", f"{name} is not a number of JSON.")


def _finite(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise BodyError("number-not-finite", f"{text[:32]} is too large.")
    return value


def _depth(value: Any) -> int:
    """Depth of nesting, without recursion."""
    deepest = 0
    waiting = [(value, 1)]
    while waiting:
        here, depth = waiting.pop()
        deepest = max(deepest, depth)
        inner = here.values() if isinstance(here, dict) else here
        waiting += [(item, depth + 1) for item in inner if isinstance(item, (dict, list))]
        if deepest > DEEPEST:
            return deepest
    return deepest


def parse(body: bytes) -> Any:
    """Read a body; raises :class:`BodyError`."""
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError:
        raise BodyError("body-not-json", "The body is not UTF-8.") from None
    if text[:1] == _BOM:
        raise BodyError("body-not-json", "The body starts with a byte order mark.")
    try:
        value = json.loads(
            text, object_pairs_hook=_unique, parse_constant=_no_constant, parse_float=_finite
        )
    except BodyError:
        raise
    except RecursionError:
        raise BodyError("body-too-deep", "The body is nested too deeply.") from None
    except ValueError as error:
        if "integer string conversion" in str(error):
            raise BodyError("number-not-finite", "A number has too many digits.") from None
        raise BodyError("body-not-json", f"The body is not JSON: {error}.") from None
    if "\\u" in text:
        _no_lone_surrogates(value)
    if (
        isinstance(value, (dict, list))
        and body.count(b"{") + body.count(b"[") > DEEPEST
        and _depth(value) > DEEPEST
    ):
        raise BodyError("body-too-deep", f"The body is nested more than {DEEPEST} deep.")
    return value


def _no_lone_surrogates(value: Any) -> None:
    try:
        json.dumps(value, ensure_ascii=False).encode()
    except UnicodeEncodeError:
        raise BodyError("body-not-json", "A text holds half of a surrogate pair.") from None
    except RecursionError:
        raise BodyError("body-too-deep", "The body is nested too deeply.") from None
