"""Ways between places, and which cable takes what. Structure only, no quantity."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from tundish.functions import refuse

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tundish_plugins.controls.cores.contract import Cable, CoresInputs

MOST_BESIDE = 8
"""Cables side by side on one way."""


@dataclass(frozen=True)
class Conductor:
    """A net of a scheme, with its places."""

    name: str
    role: str
    band: str
    places: tuple[str, ...]


@dataclass
class Way:
    """A way between two neighbouring places: its cables and what crosses."""

    start: str
    end: str
    cables: list[Cable] = field(default_factory=list)

    @property
    def name(self) -> str:
        """From where to where."""
        return f"{self.start} to {self.end}"


@dataclass
class Crossing:
    """What crosses one way."""

    lines: list[str] = field(default_factory=list)
    neutrals: list[str] = field(default_factory=list)
    earths: list[str] = field(default_factory=list)
    low: list[str] = field(default_factory=list)

    @property
    def mains(self) -> bool:
        """Whether a mains conductor crosses."""
        return bool(self.lines or self.neutrals or self.earths)

    @property
    def needed(self) -> tuple[int, int]:
        """Live mains cores, and extra-low voltage cores."""
        return len(self.lines) + len(self.neutrals), len(self.low)


def ways_of(i: CoresInputs) -> list[Way]:
    """Pool cables by the two places they join; refuse what is no tree."""
    found: dict[frozenset[str], Way] = {}
    group: dict[str, str] = {}

    def root(place: str) -> str:
        while group.setdefault(place, place) != place:
            place = group[place]
        return place

    for index, cable in enumerate(i.cables):
        where = f"/cables/{index}"
        if cable.start == cable.end:
            refuse("cable-ends-alike", f"{where}/end", place=cable.end)
        if cable.earth_core and cable.cores == 0:
            refuse("earth-core-contradicts", f"{where}/earth_core", cable=cable.name)
        if not cable.earth_core and cable.earth_core_used_as not in {"earth", "unused"}:
            refuse("earth-core-contradicts", f"{where}/earth_core_used_as", cable=cable.name)
        key = frozenset((cable.start, cable.end))
        if key not in found:
            one, other = root(cable.start), root(cable.end)
            if one == other:
                refuse("route-not-unique", f"{where}/end", place=cable.end)
            group[one] = other
            found[key] = Way(cable.start, cable.end)
        if len(found[key].cables) == MOST_BESIDE:
            refuse("too-many-cables", where, most=str(MOST_BESIDE))
        found[key].cables.append(cable)
    return list(found.values())


def _behind(ways: Sequence[Way], way: Way) -> set[str]:
    """Places on the start's side of a way."""
    reached = {way.start}
    grown = True
    while grown:
        grown = False
        for other in ways:
            if other is not way and (other.start in reached) != (other.end in reached):
                reached |= {other.start, other.end}
                grown = True
    return reached


def crossings(ways: Sequence[Way], nets: Iterable[Conductor]) -> list[Crossing]:
    """What crosses each way: every net with places on both of its sides."""
    found = [Crossing() for _ in ways]
    sides = [_behind(ways, way) for way in ways]
    for net in nets:
        for crossing, side in zip(found, sides, strict=True):
            if len({place in side for place in net.places}) == 1:
                continue
            if net.band != "mains":
                crossing.low.append(net.name)
            else:
                {
                    "line": crossing.lines,
                    "neutral": crossing.neutrals,
                    "earth": crossing.earths,
                }[net.role].append(net.name)
    return found


@dataclass(frozen=True)
class Allotted:
    """Which cables of a way take mains and which extra-low voltage."""

    mains: tuple[Cable, ...]
    low: tuple[Cable, ...]

    @property
    def there(self) -> tuple[int, int]:
        """Live mains cores, and extra-low voltage cores."""
        return sum(usable(c) for c in self.mains), sum(usable(c) for c in self.low)


def usable(cable: Cable) -> int:
    """Cores of a cable besides its earth core, which is never anything but earth."""
    return cable.cores - cable.earth_core


def _options(cable: Cable) -> list[str]:
    if cable.carries in {"both", "other"}:
        return [""]
    options = [""]
    if cable.carries in {"free", "extra-low-voltage"}:
        options.append("low")
    fit_for_mains = cable.insulated_for == "mains" and cable.earth_core
    if cable.carries in {"free", "mains"} and fit_for_mains:
        options.append("mains")
    return options


def allotted(way: Way, crossing: Crossing) -> Allotted:
    """Choose what each cable takes: the fewest missing cores, mains first, then the fewest cables."""
    need = crossing.needed
    best: tuple[tuple[int, ...], Allotted] | None = None
    for choice in itertools.product(*map(_options, way.cables)):
        found = Allotted(
            tuple(c for c, what in zip(way.cables, choice, strict=True) if what == "mains"),
            tuple(c for c, what in zip(way.cables, choice, strict=True) if what == "low"),
        )
        spare = [there - n for there, n in zip(found.there, need, strict=True)]
        missing = sum(s for s in spare if s < 0)  # structure
        no_earth = crossing.mains and not found.mains
        unearthed = sum(c.earth_core_used_as != "earth" for c in found.mains)
        cables = len(found.mains) + len(found.low)
        room = min(spare)  # structure
        short_of_mains = min(spare[0], 0)  # structure
        rank = (
            missing - no_earth,
            short_of_mains,
            -len(found.mains),
            -unearthed,
            -cables,
            room,
        )
        if best is None or rank > best[0]:  # structure
            best = (rank, found)
    assert best is not None
    return best[1]


def fits_shared(way: Way, crossing: Crossing) -> bool:
    """Whether the cores do when both voltages share cables that are insulated for mains."""
    live = sum(usable(c) for c in way.cables if c.carries != "other")
    made = all(c.insulated_for == "mains" for c in way.cables if c.carries != "other")
    earth = any(c.earth_core for c in way.cables if c.carries != "other")
    needed = sum(crossing.needed)
    enough = live >= needed
    return enough and made and (earth or not crossing.mains)


def to_mark(found: Allotted, crossing: Crossing) -> int:
    """Cores whose colour would say another thing than what they carry."""
    blue = sum(c.blue_core for c in found.mains)
    coloured = sum(usable(c) for c in found.mains) - blue
    lines = len(crossing.lines) - coloured
    neutrals = len(crossing.neutrals) - blue
    return sum(n for n in (lines, neutrals) if n > 0)  # structure
