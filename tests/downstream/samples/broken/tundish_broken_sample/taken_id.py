"""Takes an id that is taken."""

from __future__ import annotations

from tundish.hooks import CalculationEntry, hookimpl


@hookimpl
def tundish_calculations() -> list[CalculationEntry]:
    """Give one calculation."""
    return [
        CalculationEntry(
            id="hot-water-recovery",
            title="Broken",
            summary="Broken on purpose.",
            family="broken",
            questions=(),
            target="tundish_broken_sample.nowhere:CALCULATION",
        )
    ]
