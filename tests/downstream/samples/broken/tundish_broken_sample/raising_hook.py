"""Raises in a hook after naming a calculation."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, hookimpl


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give one calculation."""
    return [
        CalculationEntry(
            id="sample-raising",
            title="Broken",
            summary="Broken on purpose.",
            family="broken",
            questions=(),
            target="tundish_broken_sample.nowhere:CALCULATION",
        )
    ]


@hookimpl
def tundish_rules() -> list[object]:
    """Raise."""
    message = "raised on purpose"
    raise RuntimeError(message)
