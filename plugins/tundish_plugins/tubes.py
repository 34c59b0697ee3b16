"""Tubes for water: which of the table's series are for cold water only."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish.calculation import Refused
from tundish.functions import require

if TYPE_CHECKING:
    from tundish.tables import Row

COLD_ONLY: Final = "polyethylene"
"""Series of the table that are for cold water: they do not stand hot water under pressure."""

FOR_COLD_ONLY: Final = Refused(
    "tube-for-cold-only",
    "{tube} is a tube for cold water",
    "Use a tube made for hot water: polyethylene softens and bursts.",
)


def for_cold_only(row: Row | dict[str, Any]) -> bool:
    """Whether a row of the table is a tube for cold water."""
    return str(row["series"]).startswith(COLD_ONLY)


def require_suited(row: Row, T: Any, T_max: Any, field: str) -> None:
    """Refuse a tube for cold water where the water is warmer than such a tube may carry."""
    if for_cold_only(row):
        require(T <= T_max, FOR_COLD_ONLY.code, field, tube=str(row["tube"]))
