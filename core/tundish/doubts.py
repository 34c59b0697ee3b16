"""What an answer rests on that nobody has checked against its document.

A formula or a constant from memory, or a disputed one, says so when it runs; a rule does when a
kernel or a default reads it. A verdict on what was computed from it is then at best advisory.
"""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

Doubts = dict[str, Any]
"""Name of a source or of a rule -> True, or in a column run which rows rest on it."""

_FOUND: ContextVar[Doubts | None] = ContextVar("tundish_doubts", default=None)


@contextmanager
def doubting() -> Iterator[Doubts]:
    """Collect what is doubtful among all that runs inside."""
    found: Doubts = {}
    token = _FOUND.set(found)
    try:
        yield found
    finally:
        _FOUND.reset(token)


@contextmanager
def unheard() -> Iterator[None]:
    """Collect nothing inside: for curves, which no verdict is about."""
    token = _FOUND.set(None)
    try:
        yield
    finally:
        _FOUND.reset(token)


def doubt(name: str, rows: Any = None) -> None:
    """Say that a doubtful source was used; ``rows`` (count, chosen ones) in a column run."""
    found = _FOUND.get()
    if found is None:
        return
    if rows is None:
        found[name] = True
        return
    count, chosen = rows
    mask = found.get(name)
    if mask is None:
        import numpy as np  # noqa: PLC0415

        mask = found[name] = np.zeros(count, dtype=bool)
    mask[chosen] = True
