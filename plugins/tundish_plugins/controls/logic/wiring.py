"""A wiring as a network, settled in every state at once. Structure only, no quantity.

Wires join points to nets. A contact joins two nets in the states in which it is closed: a column of
states (``controls.states``). What a pole of a supply reaches is therefore found for every state in
one walk over the nets.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tundish.functions import refuse

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tundish_plugins.controls.logic.contract import Ended, LogicInputs
    from tundish_plugins.controls.states import States

ROUNDS = 64
"""Rounds of switching after which a wiring that still switches is said not to come to rest."""
MOST_INPUTS = 14
MOST_WORK = 1_500_000
"""Steps from net to net, weighed by the length of a column, in one request."""
_WORD = 4096


@dataclass(frozen=True)
class Link:
    """A contact between two points: what moves it, and whether it is closed until then."""

    name: str
    start: str
    end: str
    moved_by: str
    closed_at_rest: bool


@dataclass(frozen=True)
class Fault:
    """One thing that is broken: a wire, a contact stuck open or closed, a valve stuck."""

    part: str = ""
    kind: str = ""  # "broken", "stuck-open", "stuck-closed", "at-rest", "driven"


@dataclass
class Work:
    """Counts what the enumeration costs, and stops what is too much."""

    states: States
    spent: int = 0

    def spend(self, steps: int) -> None:
        """Add some steps; refuse beyond the limit."""
        self.spent += steps * (1 + self.states.count // _WORD)
        if self.spent > MOST_WORK:  # structure
            refuse(
                "too-many-states",
                "/contacts",
                states=str(self.states.count),
                most=str(1 << MOST_INPUTS),
            )


@dataclass
class Reached:
    """What the poles reach in every state: a column a net."""

    live: dict[str, dict[int, int]] = field(default_factory=dict)  # band -> net -> column
    neutral: dict[str, dict[int, int]] = field(default_factory=dict)
    earth: dict[int, int] = field(default_factory=dict)
    sensed: dict[str, int] = field(default_factory=dict)  # sensed input -> closed


@dataclass
class Meeting:
    """Two poles that meet: in which states, and as things stood when they first did."""

    states: int
    first: int
    operated: dict[str, int]


@dataclass
class Settled:
    """The wiring at rest: what is operated in which states, and where it found no rest."""

    operated: dict[str, int]
    unsettled: int
    reached: Reached
    meetings: dict[str, Meeting]

    @property
    def shorted(self) -> int:
        """States in which poles meet, at rest or on the way there."""
        column = 0
        for meeting in self.meetings.values():
            column |= meeting.states
        return column


class Wiring:
    """A contact network over the states of its free inputs."""

    def __init__(
        self,
        i: LogicInputs,
        states: States,
        work: Work,
        fault: Fault | None = None,
        *,
        still: bool = False,
    ) -> None:
        """Join wires to nets; a fault changes one part, ``still`` keeps every valve at rest."""
        self.still = frozenset(valve.name for valve in i.valves if still)
        self.i, self.states, self.work = i, states, work
        self.fault = fault or Fault()
        self.inputs = dict(zip(states.names, states.columns, strict=True))
        self.net: dict[str, int] = self._nets()
        self.count = len(set(self.net.values()))
        self.links = [
            Link(c.name, c.start, c.end, c.moved_by, c.kind == "normally-closed")
            for c in i.contacts
        ]
        self.driven: list[Ended] = [*i.relays, *i.valves, *i.loads]
        self.names = [item.name for item in [*self.driven, *i.sensed_inputs]]
        self.bands = {item.band for item in i.supplies}

    def _nets(self) -> dict[str, int]:
        parent: dict[str, str] = {}

        def root(point: str) -> str:
            parent.setdefault(point, point)
            while parent[point] != point:
                parent[point] = parent[parent[point]]
                point = parent[point]
            return point

        for wire in self.i.wires:
            start, end = root(wire.start), root(wire.end)
            if not (self.fault.kind == "broken" and self.fault.part == wire.name):
                parent[start] = end
        for point in points_of(self.i):
            root(point)
        numbers: dict[str, int] = {}
        return {point: numbers.setdefault(root(point), len(numbers)) for point in list(parent)}

    # --- conduction -------------------------------------------------------------------------------

    def closed(self, link: Link, operated: dict[str, int]) -> int:
        """States in which a contact is closed."""
        if self.fault.part == link.name and self.fault.kind == "stuck-open":
            return 0
        if self.fault.part == link.name and self.fault.kind == "stuck-closed":
            return self.states.full
        moved = self.inputs.get(link.moved_by)
        if moved is None:
            moved = operated[link.moved_by]
        return self.states.full & ~moved if link.closed_at_rest else moved

    def edges(self, operated: dict[str, int]) -> list[list[tuple[int, int]]]:
        """Return for every net the nets beside it and the states in which they are joined."""
        beside: list[list[tuple[int, int]]] = [[] for _ in range(self.count)]
        for link in self.links:
            column = self.closed(link, operated)
            a, b = self.net[link.start], self.net[link.end]
            if column and a != b:
                beside[a].append((b, column))
                beside[b].append((a, column))
        return beside

    def spread(
        self,
        sources: Iterable[int],
        beside: list[list[tuple[int, int]]],
        barred: dict[int, int] | None = None,
    ) -> dict[int, int]:
        """Return what some nets reach: a column a net. ``barred`` nets are entered nowhere."""
        reached: dict[int, int] = {}
        waiting: deque[int] = deque()
        for net in sources:
            reached[net] = self.states.full
            waiting.append(net)
        steps = 0
        while waiting:
            net = waiting.popleft()
            here = reached[net]
            for other, column in beside[net]:
                steps += 1
                add = here & column
                if barred is not None:
                    add &= ~barred.get(other, 0)
                known = reached.get(other, 0)
                if add & ~known:
                    reached[other] = known | add
                    waiting.append(other)
        self.work.spend(steps + 1)
        return reached

    def reach(self, operated: dict[str, int]) -> Reached:
        """Follow every pole through what is closed."""
        beside = self.edges(operated)
        found = Reached()
        for band in self.bands:
            of_band = [item for item in self.i.supplies if item.band == band]
            found.live[band] = self.spread({self.net[s.live] for s in of_band}, beside)
            found.neutral[band] = self.spread({self.net[s.neutral] for s in of_band}, beside)
        earths = {self.net[s.earth] for s in self.i.supplies if s.earth is not None}
        found.earth = self.spread(earths, beside)
        for item in self.i.sensed_inputs:
            near = self.spread({self.net[item.start]}, beside)
            found.sensed[item.name] = near.get(self.net[item.end], 0)
        return found

    def fed(self, start: str, end: str, found: Reached) -> int:
        """States in which two points stand at the two poles of a supply."""
        a, b = self.net[start], self.net[end]
        column = 0
        for band in self.bands:
            live, neutral = found.live[band], found.neutral[band]
            column |= live.get(a, 0) & neutral.get(b, 0)
            column |= live.get(b, 0) & neutral.get(a, 0)
        return column

    def poles_met(self, found: Reached) -> dict[str, int]:
        """Which poles are joined without a load between them, and in which states."""
        met: dict[str, int] = {}
        for band in self.bands:
            live, neutral = found.live[band], found.neutral[band]
            met[f"live and neutral, {band}"] = _both(live, neutral)
            if band == "mains":
                met["live and earth, mains"] = _both(live, found.earth)
                met["neutral and earth, mains"] = _both(neutral, found.earth)
        return {name: column for name, column in met.items() if column}

    def bands_met(self, found: Reached) -> int:
        """States in which mains stands on extra-low voltage, or on a sensed pair of it."""
        mains = [poles["mains"] for poles in (found.live, found.neutral) if "mains" in poles]
        low = "extra-low-voltage"
        nets: dict[int, int] = {}
        for poles in (found.live, found.neutral):
            nets |= poles.get(low, {})
        column = 0
        for item in self.i.sensed_inputs:
            if item.band == low:
                nets[self.net[item.start]] = nets[self.net[item.end]] = self.states.full
        for reached in mains:
            column |= _both(reached, nets)
        return column

    def on_earth(self, found: Reached) -> dict[str, int]:
        """What stands on the earth with one of its ends, and in which states."""
        ended: list[Ended] = [*self.driven, *self.i.sensed_inputs]
        columns = {
            item.name: found.earth.get(self.net[item.start], 0)
            | found.earth.get(self.net[item.end], 0)
            for item in ended
        }
        return {name: column for name, column in columns.items() if column}

    # --- switching --------------------------------------------------------------------------------

    def answer(self, found: Reached) -> dict[str, int]:
        """What every relay, valve, load and sensed input does, given what the poles reach."""
        operated = {}
        for item in self.driven:
            column = self.fed(item.start, item.end, found)
            if self.fault.part == item.name and self.fault.kind in {"at-rest", "driven"}:
                column = 0 if self.fault.kind == "at-rest" else self.states.full
            operated[item.name] = 0 if item.name in self.still else column
        for item in self.i.sensed_inputs:
            column = found.sensed[item.name]
            if item.open_means == "demand":
                column = self.states.full & ~column
            operated[item.name] = column
        return operated

    def settle(self, start: dict[str, int] | None = None) -> Settled:
        """Let everything answer, round by round and all at once, until nothing changes."""
        operated = dict.fromkeys(self.names, 0) if start is None else start
        changing = 0
        meetings: dict[str, Meeting] = {}
        found = Reached()
        for _ in range(ROUNDS + 1):
            found = self.reach(operated)
            for name, column in self.poles_met(found).items():
                meetings.setdefault(name, Meeting(0, column, operated)).states |= column
            following = self.answer(found)
            changing = 0
            for name, column in following.items():
                changing |= column ^ operated[name]
            if not changing:
                break
            operated = following
        return Settled(operated, changing, found, meetings)

    def open_paths(self, operated: dict[str, int]) -> dict[str, int]:
        """What the names in a condition over the water's ways say: a valve is open, the rest on."""
        columns = {**self.inputs, **operated}
        for valve in self.i.valves:
            if valve.rest == "open":
                columns[valve.name] = self.states.full & ~operated[valve.name]
        return columns

    # --- series -----------------------------------------------------------------------------------

    def in_series(self, settled: Settled) -> dict[str, int]:
        """States in which something that is off may still be fed through another load."""
        beside = self.edges(settled.operated)
        joined: dict[str, int] = {}
        for item in self.driven:
            others: list[list[tuple[int, int]]] = [list(row) for row in beside]
            for other in self.driven:
                a, b = self.net[other.start], self.net[other.end]
                if other is not item and a != b:
                    others[a].append((b, self.states.full))
                    others[b].append((a, self.states.full))
            a, b = self.net[item.start], self.net[item.end]
            column = 0
            for band in self.bands:
                of_band = [s for s in self.i.supplies if s.band == band]
                live = self.spread(
                    {self.net[s.live] for s in of_band}, others, settled.reached.neutral[band]
                )
                neutral = self.spread(
                    {self.net[s.neutral] for s in of_band}, others, settled.reached.live[band]
                )
                column |= live.get(a, 0) & neutral.get(b, 0)
                column |= live.get(b, 0) & neutral.get(a, 0)
            column &= ~settled.operated[item.name]
            if column:
                joined[item.name] = column
        return joined

    # --- one state --------------------------------------------------------------------------------

    def way(self, starts: set[str], ends: set[str], state: int, operated: dict[str, int]) -> Any:
        """Return the parts of the way with the fewest open contacts: (parts, open contacts).

        None when no way leads there even with every contact closed.
        """
        beside: dict[str, list[tuple[str, str, bool]]] = {}
        for wire in self.i.wires:
            if not (self.fault.kind == "broken" and self.fault.part == wire.name):
                beside.setdefault(wire.start, []).append((wire.end, wire.name, True))
                beside.setdefault(wire.end, []).append((wire.start, wire.name, True))
        for link in self.links:
            closed = bool(self.closed(link, operated) >> state & 1)
            beside.setdefault(link.start, []).append((link.end, link.name, closed))
            beside.setdefault(link.end, []).append((link.start, link.name, closed))
        best: dict[str, tuple[int, int]] = dict.fromkeys(starts, (0, 0))
        came: dict[str, tuple[str, str, bool]] = {}
        waiting = deque(starts)
        while waiting:
            point = waiting.popleft()
            opened, length = best[point]
            for other, part, closed in beside.get(point, ()):
                cost = (opened + (not closed), length + 1)
                if other not in best or cost < best[other]:  # structure
                    best[other] = cost
                    came[other] = (point, part, closed)
                    waiting.append(other)
        reached = [(best[point], point) for point in ends if point in best]
        if not reached:
            return None
        reached.sort()
        point, parts, opens = reached[0][1], [], []
        while point not in starts:
            point, part, closed = came[point]
            parts.append(part)
            if not closed:
                opens.append(part)
        return parts[::-1], opens[::-1]


def _both(a: dict[int, int], b: dict[int, int]) -> int:
    column = 0
    for net, here in a.items():
        column |= here & b.get(net, 0)
    return column


def points_of(i: LogicInputs) -> list[str]:
    """Every point that is named, in the order of the request."""
    found: dict[str, None] = {}
    for supply in i.supplies:
        found |= dict.fromkeys(p for p in (supply.live, supply.neutral, supply.earth) if p)
    ended: list[Ended] = [*i.wires, *i.contacts, *i.relays, *i.valves, *i.loads, *i.sensed_inputs]
    for item in ended:
        found |= dict.fromkeys((item.start, item.end))
    return list(found)
