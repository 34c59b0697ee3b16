"""Working recomputed from what is printed: reads the numbers and signs, knows nothing of our code."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Callable

_TOKEN: Final = re.compile(r"\s*(\d+\.?\d*(?:[eE][+-]?\d+)?|[a-z_]+\d*|[-+×/^(),])")
_FUNCTIONS: Final[dict[str, Callable[..., float]]] = {
    "sqrt": math.sqrt,
    "exp": math.exp,
    "ln": math.log,
    "log10": math.log10,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "abs": abs,
    "min": min,
    "max": max,
}


class _Reader:
    """A reader of sums, products, signs, powers and calls, in the order of school mathematics."""

    def __init__(self, text: str) -> None:
        self.tokens: list[str] = []
        place = 0
        while place < len(text):
            found = _TOKEN.match(text, place)
            if found is None:
                message = f"cannot read {text[place : place + 20]!r} in {text!r}"
                raise ValueError(message)
            self.tokens.append(found[1])
            place = found.end()
        self.place = 0

    def peek(self) -> str:
        return self.tokens[self.place] if self.place < len(self.tokens) else ""

    def take(self, expected: str = "") -> str:
        token = self.peek()
        if expected and token != expected:
            message = f"expected {expected!r}, found {token!r}"
            raise ValueError(message)
        self.place += 1
        return token

    def sum(self) -> float:
        value = self.product()
        while self.peek() in {"+", "-"}:
            value = value + self.product() if self.take() == "+" else value - self.product()
        return value

    def product(self) -> float:
        value = self.signed()
        while self.peek() in {"×", "/"}:
            value = value * self.signed() if self.take() == "×" else value / self.signed()
        return value

    def signed(self) -> float:
        if self.peek() == "-":
            self.take()
            return -self.signed()
        return self.power()

    def power(self) -> float:
        base = self.atom()
        if self.peek() == "^":
            self.take()
            return float(base ** self.signed())
        return base

    def atom(self) -> float:
        token = self.take()
        if token == "(":  # noqa: S105  (no password)
            value = self.sum()
            self.take(")")
            return value
        if token in _FUNCTIONS:
            self.take("(")
            arguments = [self.sum()]
            while self.peek() == ",":
                self.take()
                arguments.append(self.sum())
            self.take(")")
            return _FUNCTIONS[token](*arguments)
        return float(token)


def evaluate(text: str) -> float:
    """Compute a printed right-hand side; raises ``ValueError`` when it cannot be read."""
    reader = _Reader(text)
    value = reader.sum()
    if reader.peek():
        message = f"left over: {' '.join(reader.tokens[reader.place :])!r} in {text!r}"
        raise ValueError(message)
    return value
