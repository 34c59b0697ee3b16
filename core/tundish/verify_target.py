"""The named callable ``tundish verify`` runs the corpus against by default."""

from __future__ import annotations

from typing import Any

from tundish.answering import answer as _answer


def answer(calculation: str, request: dict[str, Any]) -> tuple[int, dict[str, Any]]:
    """Answer one reference case's request on this installation."""
    return _answer(calculation, request)
