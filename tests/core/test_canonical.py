"""Canonical bytes are those of RFC 8785: judged by the rfc8785 package and by hand-picked traps."""

from __future__ import annotations

import json
import random
import struct

import pytest
import rfc8785

from tundish.canonical import canonical, fingerprint, number_text, sealed

TRAPS = (
    15.0,
    -0.0,
    0.0,
    -15.0,
    1e16,
    1e15,
    123456789012345680.0,
    1e21,
    1e20,
    1e-6,
    1e-7,
    -1e-7,
    5e-324,
    1.7976931348623157e308,
    9007199254740993.0,
    100.0,
    1.0e5,
    0.1,
    1 / 3,
)


def _doubles(count: int) -> list[float]:
    draw = random.Random(8785)
    found: list[float] = []
    while len(found) < count:
        value = struct.unpack("<d", draw.randbytes(8))[0]
        if value - value == 0.0:
            found.append(value)
    whole = [float(draw.randint(-(10 ** draw.randint(1, 22)), 10**22)) for _ in range(count)]
    return found + whole + [draw.uniform(-1e3, 1e3) for _ in range(count)]


def test_numbers_against_the_package() -> None:
    values = [*TRAPS, *_doubles(3000)]
    assert canonical({"v": values}) == rfc8785.dumps({"v": values})
    for value in TRAPS:
        expected = rfc8785.dumps(value)
        assert number_text(value).encode() == expected
        assert canonical(value) == expected
        assert canonical([value]) == b"[" + expected + b"]"
        assert canonical({"a": value, "b": "x"}) == rfc8785.dumps({"a": value, "b": "x"})


@pytest.mark.parametrize(
    "text",
    [
        "a:1.0,b",
        "[1.0]",
        "5e3,",
        '"1.0,"',
        '\\"2.0}',
        "\\",
        "\\\\",
        'q"',
        "x\\,1.0,",
        "\u2028 Δθ = 1.0}",
    ],
)
def test_numbers_inside_a_text_stay(text: str) -> None:
    for record in (
        {"a": 1.0, "t": text, "z": 2.0},
        {"a": text, "b": [1.0, text, -0.0], "c": 1e22},
        [text, 3.0, text],
    ):
        assert canonical(record) == rfc8785.dumps(record)


def test_seal() -> None:
    record = {"a": 15.0, "b": {"c": [1e-7, "x"]}}
    raw, digest = sealed(record)
    again = json.loads(raw)
    assert again.pop("fingerprint") == digest == fingerprint(record) == fingerprint(again)
    assert raw.startswith(rfc8785.dumps(record)[:-1])


def test_keys_beyond_ascii_are_refused() -> None:
    with pytest.raises(ValueError, match="ASCII"):
        fingerprint({"a": {"é": 1}})
