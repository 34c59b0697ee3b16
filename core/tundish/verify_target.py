"""The named callables ``tundish verify`` uses by default: this installation, and its plugins' cases."""

from __future__ import annotations

from typing import Any

from tundish.answering import answer as _answer
from tundish.host import default_host


def answer(calculation: str, request: dict[str, Any]) -> tuple[int, dict[str, Any]]:
    """Answer one reference case's request on this installation."""
    return _answer(calculation, request)


def folders() -> list[Any]:
    """Return the folders of reference cases that installed plugins ship."""
    return default_host().reference_groups()
