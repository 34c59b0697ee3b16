"""Reference cases as the kit needs them, read when they are installed."""

from __future__ import annotations

from importlib.metadata import entry_points
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tundish.host import Host

GROUP = "tundish.reference_cases"


def cases_of(calculation: str, host: Host) -> dict[str, dict[str, Any]]:
    """Return case id -> case of every installed reference case of a calculation."""
    found: dict[str, dict[str, Any]] = {}
    for point in entry_points(group=GROUP):
        corpus = point.load().load(host.reference_groups())
        for group, case in corpus.cases():
            if group.calculation == calculation:
                found[case["id"]] = case
    return found
