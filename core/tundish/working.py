"""The recorder: what was computed, looked up, chosen and solved, in order.

A recorder is a context variable, so kernels pass nothing about. With none active a formula costs
one look-up more than a plain function.
"""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator


class Recorder:
    """Collects raw steps; rendering happens later and only when asked for.

    ``steps`` holds tuples whose first item renders the rest: ``(formula, arguments, value, start)``
    for formulas, where ``start`` is the length of the list when the call began, so nested calls can
    be found; every other kind of step is ``(builder, payload, value, start)``.
    """

    __slots__ = ("names", "paths", "steps")

    def __init__(self) -> None:
        """Start empty, at the outermost level."""
        self.steps: list[tuple[Any, Any, Any, int]] = []
        self.paths: list[tuple[int, tuple[str, ...]]] = [(0, ())]
        self.names: tuple[str, ...] = ()


ACTIVE: ContextVar[Recorder | None] = ContextVar("tundish_recorder", default=None)


def record(builder: Any, payload: Any, value: Any = None) -> None:
    """Append a step when a recorder is active."""
    recorder = ACTIVE.get()
    if recorder is not None:
        recorder.steps.append((builder, payload, value, len(recorder.steps)))


@contextmanager
def recording() -> Iterator[Recorder]:
    """Collect every step made inside."""
    recorder = Recorder()
    token = ACTIVE.set(recorder)
    try:
        yield recorder
    finally:
        ACTIVE.reset(token)


class silent:  # noqa: N801  (reads as a word in a with statement)
    """Make no steps inside: for curves and for the trials of a search."""

    __slots__ = ("_token",)

    def __enter__(self) -> None:
        """Switch the recorder off."""
        self._token = ACTIVE.set(None)

    def __exit__(self, *_: object) -> None:
        """Switch it back."""
        ACTIVE.reset(self._token)


class part:  # noqa: N801  (reads as a word in a with statement)
    """Nest the steps made inside under a heading, such as ``part("room", "kitchen")``."""

    __slots__ = ("_before", "_heading")

    def __init__(self, kind: str, name: str = "") -> None:
        """Name the heading."""
        self._heading = f"{kind} {name}".strip()

    def __enter__(self) -> None:
        """Open the heading."""
        recorder = ACTIVE.get()
        if recorder is not None:
            self._before = recorder.names
            recorder.names = (*recorder.names, self._heading)
            recorder.paths.append((len(recorder.steps), recorder.names))

    def __exit__(self, *_: object) -> None:
        """Close it."""
        recorder = ACTIVE.get()
        if recorder is not None:
            recorder.names = self._before
            recorder.paths.append((len(recorder.steps), recorder.names))


def _note(payload: str, _value: object) -> dict[str, Any]:
    return {"step": "note", "name": payload}


def note(text: str) -> None:
    """Add a remark to the working."""
    record(_note, text)
