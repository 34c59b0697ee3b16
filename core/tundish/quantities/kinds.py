"""Kinds built from the closed table, and conversion between spellings and SI."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tundish.quantities.table import ALIASES, ROWS, Spelling

if TYPE_CHECKING:
    from collections.abc import Mapping


class UnknownSpellingError(ValueError):
    """The spelling is not one this kind accepts."""


@dataclass(frozen=True)
class Kind:
    """What a number is: its SI unit and every accepted spelling with factor and offset."""

    name: str
    si: str
    spellings: dict[str, Spelling] = field(compare=False)

    def conversion(self, spelling: str) -> tuple[float, float]:
        """Factor and offset to SI; :class:`UnknownSpellingError` for a spelling not accepted."""
        found = self.spellings.get(spelling) or self.spellings.get(ALIASES.get(spelling, ""))
        if found is None:
            message = f"{spelling!r} is not a unit of {self.name}"
            raise UnknownSpellingError(message)
        return found.factor, found.offset

    def canonical(self, spelling: str) -> str:
        """Return the spelling that is written for one that was read."""
        return spelling if spelling in self.spellings else ALIASES.get(spelling, spelling)

    @property
    def units(self) -> tuple[str, ...]:
        """Every canonical spelling, the SI spelling first."""
        return tuple(self.spellings)

    @property
    def words(self) -> str:
        """Return the kind's name as people say it."""
        return self.name.replace("_", " ")


KINDS: dict[str, Kind] = {
    row.kind: Kind(row.kind, row.spellings[0].text, {item.text: item for item in row.spellings})
    for row in ROWS
}


def kind(name: str) -> Kind:
    """Return the kind called ``name``; ``KeyError`` when there is none."""
    return KINDS[name]


def conversion(kind_name: str, spelling: str) -> tuple[float, float]:
    """Return factor and offset to SI of a spelling of a kind."""
    return KINDS[kind_name].conversion(spelling)


def to_si(value: float, kind_name: str, spelling: str) -> float:
    """Convert ``value`` in ``spelling`` to the kind's SI unit."""
    factor, offset = KINDS[kind_name].conversion(spelling)
    return value * factor + offset


def from_si(value: float, kind_name: str, spelling: str) -> float:
    """Convert an SI ``value`` to ``spelling``."""
    factor, offset = KINDS[kind_name].conversion(spelling)
    return (value - offset) / factor


def rounded_bound(value: float) -> float:
    """Round a converted bound to 12 figures, so that a range reads as people wrote it."""
    return float(f"{value:.12g}")


def add_spelling(kind_name: str, spelling: Spelling) -> None:
    """Add a plugin's spelling to a kind. Redefinition and unsafe spellings are refused."""
    known = KINDS[kind_name].spellings
    if spelling.text in known or spelling.text in ALIASES:
        message = f"{spelling.text!r} is already a unit of {kind_name}"
        raise ValueError(message)
    if not spelling.text.isascii() or not 0 < len(spelling.text) <= 32:  # noqa: PLR2004
        message = f"{spelling.text!r} is not a short ASCII spelling"
        raise ValueError(message)
    known[spelling.text] = spelling


def remove_spelling(kind_name: str, text: str) -> None:
    """Take a plugin's spelling back, when the plugin could not be loaded after all."""
    KINDS[kind_name].spellings.pop(text, None)


def table() -> Mapping[str, Kind]:
    """Return the table as it stands, plugins' spellings included."""
    return KINDS
