"""Canonical JSON (RFC 8785) and the fingerprint of a record.

The wire bytes of a record are its canonical bytes with the fingerprint put in last, so one
serialisation serves both. orjson writes when it is there; the standard library otherwise, to the
same bytes.
"""

from __future__ import annotations

import hashlib
import json
import math
import re
from typing import Any

try:
    import orjson
except ImportError:  # pragma: no cover  (as in a browser)
    orjson = None  # type: ignore[assignment,unused-ignore]

# Where the two writers may differ from RFC 8785: a fraction of zero, or an exponent. Two patterns
# that each start with a literal: looked for together they cost seven times as much.
_WHOLE = re.compile(rb"\.0(?=[,\]}])")
_EXPONENT = re.compile(rb"e[-+0-9][0-9]*(?=[,\]}])")
_NUMBER_SIGNS = b"0123456789.+-eE"
_TOKEN = re.compile(rb'"[^"\\]*(?:\\.[^"\\]*)*"|-?[0-9]+(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?')
_LARGEST_PLAIN = 1e21
_SHORT = 18
_SMALLEST_PLAIN = 1e-6
_LEAST_WHOLE, _LARGEST_WHOLE = -(2**63), 2**64 - 1


def number_text(value: float) -> str:
    """Write a finite double as ECMAScript does, which RFC 8785 asks for."""
    if not math.isfinite(value):
        message = "a number in a record is not finite"
        raise ValueError(message)
    if value == 0:
        return "0"
    digits = repr(abs(value))
    mantissa, _, exponent = digits.partition("e")
    whole, _, fraction = mantissa.partition(".")
    if fraction == "0":
        fraction = ""
    power = int(exponent or 0) + len(whole)
    figures = (whole + fraction).lstrip("0")
    power -= len(whole + fraction) - len((whole + fraction).lstrip("0"))
    figures = figures.rstrip("0") or "0"
    sign = "-" if value < 0 else ""
    count = len(figures)
    if abs(value) < _SMALLEST_PLAIN or abs(value) >= _LARGEST_PLAIN:
        tail = f".{figures[1:]}" if count > 1 else ""
        return f"{sign}{figures[0]}{tail}e{power - 1:+d}"
    if power <= 0:
        return f"{sign}0.{'0' * -power}{figures}"
    if power >= count:
        return f"{sign}{figures}{'0' * (power - count)}"
    return f"{sign}{figures[:power]}.{figures[power:]}"


def _mend(found: re.Match[bytes]) -> bytes:
    token = found[0]
    if token[:1] == b'"' or token.lstrip(b"-").isdigit():
        return token
    return number_text(float(token)).encode()


def _mended(raw: bytes) -> bytes:
    """Rewrite the suspect numbers, and only those; what stands inside a text is left alone."""
    if raw[:1] not in b"{[" or (b"\\" in raw and b'\\"' in raw):
        # A quotation mark inside a text: go through token by token.
        return _TOKEN.sub(_mend, raw)
    ends = [found.end() for found in _WHOLE.finditer(raw)]
    exponents = [found.end() for found in _EXPONENT.finditer(raw)]
    if exponents:
        ends = sorted(ends + exponents)
    pieces: list[bytes] = []
    done = counted = quotes = 0
    for end in ends:
        quotes += raw.count(b'"', counted, end)
        counted = end
        if quotes & 1:
            continue
        start = end - 2
        while raw[start - 1] in _NUMBER_SIGNS:
            start -= 1
        token = raw[start:end]
        # 15.0 is 15: nothing more to it while the figures are few.
        if token[-2:] == b".0" and len(token) < _SHORT and token != b"-0.0":
            text = token[:-2]
        else:
            text = number_text(float(token)).encode()
        pieces += (raw[done:start], text)
        done = end
    if not done:
        return raw
    pieces.append(raw[done:])
    return b"".join(pieces)


def _check_keys(value: Any) -> None:
    """Refuse keys beyond ASCII: there the two orders of sorting could part."""
    if isinstance(value, dict):
        for key, item in value.items():
            if not key.isascii():
                message = f"member {key!r} of a record is not ASCII"
                raise ValueError(message)
            _check_keys(item)
    elif isinstance(value, list):
        for item in value:
            _check_keys(item)


def _doubled(value: Any) -> Any:
    """Return the value with whole numbers beyond 64 bits as doubles, as every reader takes them."""
    if isinstance(value, dict):
        return {key: _doubled(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_doubled(item) for item in value]
    if type(value) is int and not _LEAST_WHOLE <= value <= _LARGEST_WHOLE:
        return float(value)
    return value


def canonical(record: Any) -> bytes:
    """Return a record's canonical bytes."""
    if orjson is not None:
        try:
            raw: bytes = orjson.dumps(record, option=orjson.OPT_SORT_KEYS)
        except TypeError:  # a whole number too large for it; anything else fails again
            raw = orjson.dumps(_doubled(record), option=orjson.OPT_SORT_KEYS)
    else:
        raw = json.dumps(
            _doubled(record),
            sort_keys=True,
            separators=(",", ":"),
            ensure_ascii=False,
            allow_nan=False,
        ).encode()
    return _mended(raw)


def fingerprint(record: dict[str, Any]) -> str:
    """Return the SHA-256 of a record, its own fingerprint left out."""
    bare = {key: value for key, value in record.items() if key != "fingerprint"}
    _check_keys(bare)
    return "sha256:" + hashlib.sha256(canonical(bare)).hexdigest()


def sealed(record: dict[str, Any]) -> tuple[bytes, str]:
    """Return a record's wire bytes, its fingerprint put in, and the fingerprint."""
    raw = canonical(record)
    digest = "sha256:" + hashlib.sha256(raw).hexdigest()
    return raw[:-1] + b',"fingerprint":"' + digest.encode() + b'"}', digest
