"""Rows of a column run, and refusals: one row is refused without touching another."""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, Any

from tundish.refusals import Refusal, RefusedRowsError

if TYPE_CHECKING:
    from collections.abc import Iterator


def _np() -> Any:
    import numpy  # noqa: ICN001, PLC0415  (floats must not pay for arrays)

    return numpy


class Rows:
    """Which rows of a column run have been refused, and with what code."""

    def __init__(self, count: int, *, curves: bool = True) -> None:
        """Start with no refusal in ``count`` rows; ``curves`` says whether they are wanted."""
        np = _np()
        self.count = count
        self.curves = curves
        self.refused: dict[int, Refusal] = {}
        self.current = np.arange(count)

    def refuse(self, failing: Any, code: str, field: str, context: dict[str, Any]) -> None:
        """Mark rows by a mask over the current rows; the first refusal of a row stays."""
        np = _np()
        for index in np.flatnonzero(failing).tolist():
            row = int(self.current[index])
            if row not in self.refused:
                facts = {name: _row_fact(value, index) for name, value in context.items()}
                self.refused[row] = Refusal(code, field, context=facts)

    @contextmanager
    def only(self, indices: Any) -> Iterator[None]:
        """Narrow the current rows to a subset while a branch runs."""
        before = self.current
        self.current = before[indices]
        try:
            yield
        finally:
            self.current = before


def _row_fact(value: Any, index: int) -> Any:
    """Take one row's value out of a refusal's context."""
    if isinstance(value, tuple):
        return tuple(_row_fact(item, index) for item in value)
    return value[index].item() if getattr(value, "ndim", 0) == 1 else value


ROWS: ContextVar[Rows | None] = ContextVar("tundish_rows", default=None)


def require(condition: bool, code: str, field: str, **context: Any) -> None:
    """Refuse with ``code`` at ``field`` (a pointer under the inputs) unless the condition holds.

    On floats raises :class:`Refusal`; on arrays marks the failing rows and goes on. ``context`` may
    hold quantities for the sentence as ``name=(value, kind, unit)`` or plain words.
    """
    if condition is True:
        return
    rows = ROWS.get()
    if rows is None:
        if not condition:
            raise Refusal(code, field, context=context)
        return
    np = _np()
    failing = np.broadcast_to(~np.asarray(condition, dtype=bool), rows.current.shape)
    if failing.any():
        rows.refuse(failing, code, field, context)
        if failing.all():
            raise RefusedRowsError


def refuse(code: str, field: str, **context: Any) -> None:
    """Refuse always: for what the structure alone decides."""
    require(False, code, field, **context)  # noqa: FBT003
