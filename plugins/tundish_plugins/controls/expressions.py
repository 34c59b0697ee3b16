"""Conditions in words: ``hot_water and not (holiday or "frost stat")``.

A closed grammar: names, ``and``, ``or``, ``not``, ``true``, ``false``, brackets. A name of other
characters than letters, digits, ``_`` and ``-`` stands in double quotes. Nothing is ever evaluated
as code: the text becomes a tree of tuples, and the tree works on whole columns of states at once.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

DEEPEST = 24
"""Brackets within brackets that are read."""

_TOKEN = re.compile(r'\s*(?:([A-Za-z][A-Za-z0-9_-]*)|"([^"]+)"|([()]))')
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_WORDS = frozenset({"and", "or", "not", "true", "false"})

Tree = tuple[Any, ...]
"""``("name", n)``, ``("true",)``, ``("false",)``, ``("not", t)``, ``("and", t, …)``, ``("or", t, …)``."""


class ExpressionError(ValueError):
    """The text is no condition; says where and why."""


def quoted(name: str) -> str:
    """Write a name as it stands in a condition."""
    return name if _PLAIN.fullmatch(name) and name not in _WORDS else f'"{name}"'


def _tokens(text: str) -> list[tuple[str, str]]:
    found, place = [], 0
    text = text.rstrip()
    while place != len(text):
        match = _TOKEN.match(text, place)
        if match is None:
            message = f"cannot read it from {text[place : place + 12].strip()!r} on"
            raise ExpressionError(message)
        word, name, bracket = match.groups()
        if word is not None:
            found.append((word if word in _WORDS else "name", word))
        elif name is not None:
            found.append(("name", name))
        else:
            found.append((bracket, bracket))
        place = match.end()
    return found


class _Reader:
    def __init__(self, text: str) -> None:
        self.tokens = _tokens(text)
        self.place = 0

    def next(self) -> str:
        return self.tokens[self.place][0] if self.place != len(self.tokens) else "the end"

    def take(self) -> str:
        self.place += 1
        return self.tokens[self.place - 1][1]

    def either(self, depth: int) -> Tree:
        return self._chain("or", lambda: self._chain("and", lambda: self._one(depth)))

    def _chain(self, word: str, part: Any) -> Tree:
        parts = [part()]
        while self.next() == word:
            self.take()
            parts.append(part())
        return parts[0] if len(parts) == 1 else (word, *parts)

    def _one(self, depth: int) -> Tree:
        negative = False
        while self.next() == "not":
            self.take()
            negative = not negative
        kind = self.next()
        tree: Tree
        if kind == "(":
            if depth == DEEPEST:
                message = f"brackets are nested deeper than {DEEPEST}"
                raise ExpressionError(message)
            self.take()
            tree = self.either(depth + 1)
            if self.next() != ")":
                message = f"a closing bracket is wanted, not {self.next()!r}"
                raise ExpressionError(message)
            self.take()
        elif kind == "name":
            tree = ("name", self.take())
        elif kind in {"true", "false"}:
            tree = (self.take(),)
        else:
            message = f"a name is wanted, not {kind!r}"
            raise ExpressionError(message)
        return ("not", tree) if negative else tree


def parsed(text: str) -> Tree:
    """Read a condition to its tree; raises :class:`ExpressionError`."""
    reader = _Reader(text)
    tree = reader.either(0)
    if reader.next() != "the end":
        message = f"'and' or 'or' is wanted, not {reader.next()!r}"
        raise ExpressionError(message)
    return tree


def names_of(tree: Tree) -> list[str]:
    """Names in a condition, in order, each once."""
    if tree[0] == "name":
        return [tree[1]]
    return list(dict.fromkeys(name for part in tree[1:] for name in names_of(part)))


def column_of(tree: Tree, columns: Mapping[str, int], full: int) -> int:
    """Return a condition's column: one bit a state, set where it holds."""
    kind = tree[0]
    if kind == "name":
        return columns[tree[1]]
    if kind in {"true", "false"}:
        return full if kind == "true" else 0
    parts = [column_of(part, columns, full) for part in tree[1:]]
    if kind == "not":
        return full & ~parts[0]
    result = parts[0]
    for part in parts[1:]:
        result = result & part if kind == "and" else result | part
    return result
