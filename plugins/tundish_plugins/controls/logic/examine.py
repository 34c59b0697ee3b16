"""What the enumerated states say: mismatches, sneak paths, cut-outs, faults. Structure only."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish_plugins.controls.expressions import column_of, names_of, quoted
from tundish_plugins.controls.logic.reading import state_words
from tundish_plugins.controls.logic.wiring import Fault, Settled, Wiring

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tundish_plugins.controls.logic.contract import LogicInputs, Named
    from tundish_plugins.controls.logic.reading import Read
    from tundish_plugins.controls.logic.wiring import Work

COLUMN_SHOWN = 1024
TABLE_SHOWN = 64
LISTED = 16
FAULTS_UP_TO = 4096
_PAIR = 2


@dataclass
class Examined:
    """A wiring at rest, with everything that can be asked of it."""

    i: LogicInputs
    read: Read
    work: Work
    wiring: Wiring
    settled: Settled
    columns: dict[str, int]  # load, relay, valve, sensed input, path -> states it is on, or open
    held: dict[str, int]  # the same when everything was on before
    held_unsettled: int

    @property
    def full(self) -> int:
        """Every state."""
        return self.read.states.full


def examined(i: LogicInputs, read: Read, work: Work, fault: Fault | None = None) -> Examined:
    """Settle a wiring, healthy or with one fault."""
    wiring = Wiring(i, read.states, work, fault)
    settled = wiring.settle()
    after = wiring.settle(dict.fromkeys(wiring.names, read.states.full))
    return Examined(
        i,
        read,
        work,
        wiring,
        settled,
        _columns(read, wiring, settled),
        _columns(read, wiring, after),
        after.unsettled,
    )


def _columns(read: Read, wiring: Wiring, settled: Settled) -> dict[str, int]:
    names = wiring.open_paths(settled.operated)
    columns = {name: names[name] for name in wiring.names}
    for name, tree in read.paths.items():
        columns[name] = column_of(tree, names, read.states.full)
    return columns


# --- words ----------------------------------------------------------------------------------------


def literal_words(literals: dict[str, bool]) -> str:
    """Write a product of inputs with their values; every state when there are none."""
    if not literals:
        return "in every state"
    return ", ".join(f"{name} {int(on)}" for name, on in literals.items())


def whenever(e: Examined, column: int) -> str:
    """Return the fewest inputs that alone put the wiring into some of these states."""
    return literal_words(e.read.states.simplest(column))


def condition_words(products: list[dict[str, bool]]) -> str:
    """Write a sum of products in the grammar of conditions."""
    if not products:
        return "false"
    if products == [{}]:
        return "true"
    terms = [
        " and ".join(f"{'' if on else 'not '}{quoted(name)}" for name, on in product.items())
        for product in products
    ]
    return " or ".join(terms)


def _counted(items: list[str]) -> str:
    return ", ".join(items)


# --- results --------------------------------------------------------------------------------------


def kinds(i: LogicInputs) -> dict[str, str]:
    """What each thing with a result is."""
    groups: tuple[tuple[Sequence[Named], str], ...] = (
        (i.loads, "load"),
        (i.sensed_inputs, "sensed input"),
        (i.valves, "valve"),
        (i.flow_paths, "flow path"),
        (i.relays, "relay"),
    )
    return {item.name: what for items, what in groups for item in items}


def column_words(e: Examined, column: int) -> str | None:
    """Write a column for people; none when it is too long to read."""
    states = e.read.states
    if states.count > COLUMN_SHOWN:  # structure
        return None
    digits = list(states.digits(column & e.full))
    for state, mark in enumerate(states.digits(e.settled.unsettled)):
        if mark == "1":
            digits[state] = "~"
    return "".join(digits)


def table(e: Examined) -> list[dict[str, str]]:
    """Every state with what is on, while they can be read."""
    states = e.read.states
    if states.count > TABLE_SHOWN:  # structure
        return []
    rows = []
    for state in range(states.count):
        on = [name for name in kinds(e.i) if e.columns[name] >> state & 1]
        restless = e.settled.unsettled >> state & 1
        rows.append(
            {
                "inputs": " ".join(states.values(state)),
                "on": "does not come to rest" if restless else _counted(on) or "nothing",
            }
        )
    return rows


def ladder(e: Examined) -> list[dict[str, str]]:
    """Draw each load and sensed input as rungs, one for each product."""
    rungs = []
    drawn: list[Named] = [*e.i.loads, *e.i.sensed_inputs]
    for name in (item.name for item in drawn):
        products = e.read.states.products(e.columns[name] & ~e.settled.unsettled)
        for k, product in enumerate(products or ()):
            contacts = "--".join(f"[{'' if on else '/'}{x}]" for x, on in product.items())
            rungs.append(
                {"name": f"{name}, {k + 1}", "drawn": f"|--{contacts or '-'}--({name})--|"}
            )
    return rungs


# --- what is meant --------------------------------------------------------------------------------


def mismatches(e: Examined) -> Iterator[dict[str, Any]]:
    """Every thing that does other than is meant, each way once, with the shortest explanation."""
    states = e.read.states
    for name, meant in e.read.meant.items():
        got = e.columns[name] & ~e.settled.unsettled
        said = meant.said & ~e.settled.unsettled
        for fault, column in (
            ("runs", got & ~meant.on & said),
            ("stands-still", ~got & meant.on & said),
        ):
            if not column:
                continue
            literals = states.simplest(column)
            state = _state_of(e, literals, column)
            found = [k for k in range(states.count) if column >> k & 1][:LISTED]
            yield {
                "name": f"{name} {fault.replace('-', ' ')}",
                "result": name,
                "fault": fault,
                "states": column.bit_count(),
                "listed": "; ".join(state_words(states, k) for k in found),
                "whenever": literal_words(literals),
                "inputs_involved": len(literals),
                "parts": explained(e, name, state, on=fault == "runs"),
            }


def _state_of(e: Examined, literals: dict[str, bool], column: int) -> int:
    """Return the first state of a column in which some inputs have some values."""
    states = e.read.states
    for name, on in literals.items():
        of_input = states.columns[states.names.index(name)]
        column &= of_input if on else ~of_input
    return states.first(column)


def _parts_of(e: Examined, name: str, state: int, *, on: bool) -> str:
    """Return what carries a load in a state, or the fewest contacts that keep it from running."""
    item = next(x for x in e.wiring.driven if x.name == name)
    best: tuple[int, int, str] | None = None
    operated = e.settled.operated
    for band in e.wiring.bands:
        of_band = [s for s in e.i.supplies if s.band == band]
        lives, neutrals = {s.live for s in of_band}, {s.neutral for s in of_band}
        for one, other in ((item.start, item.end), (item.end, item.start)):
            to_live = e.wiring.way(lives, {one}, state, operated)
            to_neutral = e.wiring.way({other}, neutrals, state, operated)
            if to_live is None or to_neutral is None:
                continue
            opens = [*to_live[1], *to_neutral[1]]
            parts = [*to_live[0], *to_neutral[0]]
            words = (
                f"carried by {_counted(parts) or 'nothing between'}"
                if on
                else f"open: {_counted(opens)}"
            )
            found = (len(opens), len(parts), words)
            if best is None or found < best:  # structure
                best = found
    return "no way leads to both poles, whatever closes" if best is None else best[2]


def explained(e: Examined, name: str, state: int, *, on: bool) -> str:
    """Return the parts that make a thing do what it does in a state."""
    if name in e.read.paths:
        words = []
        columns = e.wiring.open_paths(e.settled.operated)
        for part in names_of(e.read.paths[name]):
            is_on = columns[part] >> state & 1
            valve = part in {x.name for x in e.i.valves}
            words.append(f"{part} {('shut', 'open')[is_on] if valve else ('off', 'on')[is_on]}")
        return _counted(words) or "nothing"
    sensed = next((x for x in e.i.sensed_inputs if x.name == name), None)
    if sensed is not None:
        way = e.wiring.way({sensed.start}, {sensed.end}, state, e.settled.operated)
        if way is None:
            return "no way joins its terminals, whatever closes"
        parts, opens = way
        return f"open: {_counted(opens)}" if opens else f"joined by {_counted(parts)}"
    valve_open = next((x.rest == "open" for x in e.i.valves if x.name == name), False)
    return _parts_of(e, name, state, on=on != valve_open)


def compared(e: Examined) -> list[dict[str, Any]]:
    """Each thing that something is said of, against it."""
    rows = []
    for name, meant in e.read.meant.items():
        got = e.columns[name]
        said = meant.said & ~e.settled.unsettled
        rows.append(
            {
                "name": name,
                "only_when_meant": not got & ~meant.on & said,
                "whenever_meant": not ~got & meant.on & said,
            }
        )
    return rows


# --- shorts ---------------------------------------------------------------------------------------


def shorts(e: Examined) -> list[dict[str, Any]]:
    """Ways round the loads, at rest or on the way there."""
    found = []
    for name, meeting in e.settled.meetings.items():
        poles, _, band = name.partition(", ")
        of_band = [s for s in e.i.supplies if s.band == band]
        ends = [
            {point for s in of_band if (point := getattr(s, pole)) is not None}
            for pole in poles.split(" and ")
        ]
        state = e.read.states.first(meeting.first)
        way = e.wiring.way(ends[0], ends[1], state, meeting.operated)
        found.append(
            {
                "name": name,
                "states": meeting.states.bit_count(),
                "whenever": whenever(e, meeting.states),
                "parts": _counted(way[0]) or "one and the same point",
            }
        )
    return found


# --- safety ---------------------------------------------------------------------------------------


def _tripped(e: Examined, name: str) -> int:
    states = e.read.states
    return e.full & ~states.columns[states.names.index(name)]


def _undone(e: Examined, stops: list[str], tripped: int) -> int:
    """Tripped states in which heat goes on: from rest, held on from before, or restless."""
    column = e.settled.unsettled | e.held_unsettled
    for name in stops:
        column |= e.columns[name] | e.held[name]
    return column & tripped


def cut_outs(e: Examined) -> list[dict[str, Any]]:
    """Whether each cut-out stops what it must, also with any one wire broken."""
    rows = []
    broken = [
        (wire.name, examined(e.i, e.read, e.work, Fault(wire.name, "broken"))) for wire in e.i.wires
    ]
    for cut_out in e.i.cut_outs:
        tripped = _tripped(e, cut_out.name)
        undone = _undone(e, cut_out.stops, tripped)
        breaks = [name for name, other in broken if _undone(other, cut_out.stops, tripped)]
        words = None
        if undone:
            running = [n for n in cut_out.stops if (e.columns[n] | e.held[n]) & tripped]
            words = f"{_counted(running) or 'no rest'}: {whenever(e, undone)}"
        elif breaks:
            words = f"broken: {_counted(breaks)}"
        rows.append(
            {
                "name": cut_out.name,
                "stops": not undone,
                "survives_broken_wire": not undone and not breaks,
                "defeated_by": words,
            }
        )
    return rows


def heated(e: Examined) -> list[dict[str, Any]]:
    """What heats stored water: whether a cut-out is named for it, and where it rests."""
    stopped = {name for cut_out in e.i.cut_outs for name in cut_out.stops}
    rows: list[dict[str, Any]] = [
        {"name": load.name, "has_cut_out": load.name in stopped, "shut_at_rest": None}
        for load in e.i.loads
        if load.kind == "heater"
    ]
    rows += [
        {
            "name": path.name,
            "has_cut_out": path.name in stopped if e.i.unvented else None,
            "shut_at_rest": not _open_at_rest(e, path.name) if e.i.unvented else None,
        }
        for path in e.i.flow_paths
        if path.heats_store
    ]
    return rows


def _open_at_rest(e: Examined, name: str) -> bool:
    """Whether valves without power leave a path open, whatever loads and demands then do."""
    tree = e.read.paths[name]
    at_rest = e.wiring.open_paths(dict.fromkeys(e.wiring.names, 0))
    loose: list[Named] = [*e.i.loads, *e.i.sensed_inputs]
    free = [item.name for item in loose if item.name in names_of(tree)]
    return any(
        column_of(tree, {**at_rest, **dict(zip(free, values, strict=True))}, e.full)
        for values in itertools.product((0, e.full), repeat=len(free))
    )


def dead_headed(e: Examined, *, still: bool = False) -> int | None:
    """States in which a pump or boiler runs with every path shut; none when that is no question.

    ``still`` asks of the time before a valve has moved.
    """
    movers = [load.name for load in e.i.loads if load.kind in {"pump", "boiler"}]
    if e.i.bypass or not movers or not e.read.paths:
        return None
    columns, unsettled = e.columns, e.settled.unsettled
    if still:
        wiring = Wiring(e.i, e.read.states, e.work, still=True)
        settled = wiring.settle()
        columns = _columns(e.read, wiring, settled)
        unsettled |= settled.unsettled
    running = opened = 0
    for name in movers:
        running |= columns[name]
    for name in e.read.paths:
        opened |= columns[name]
    return running & ~opened & ~unsettled


# --- faults ---------------------------------------------------------------------------------------


def _difference(e: Examined, other: Examined) -> tuple[list[str], list[str], int]:
    """Return what runs that would not, what stands still that would run, and in which states."""
    relays = {relay.name for relay in e.i.relays}
    resting = e.full & ~e.settled.unsettled & ~other.settled.unsettled
    more, fewer, column = [], [], 0
    for name in kinds(e.i):
        if name in relays:
            continue
        added = other.columns[name] & ~e.columns[name] & resting
        lost = e.columns[name] & ~other.columns[name] & resting
        more += [name] if added else []
        fewer += [name] if lost else []
        column |= added | lost
    return more, fewer, column


def end_switches(e: Examined) -> list[dict[str, Any]]:
    """What each end switch does when it sticks: loads and demands that run, or do not."""
    valves = {valve.name for valve in e.i.valves}
    rows = []
    for contact in e.i.contacts:
        if contact.moved_by not in valves:
            continue
        for kind in ("stuck-closed", "stuck-open"):
            other = examined(e.i, e.read, e.work, Fault(contact.name, kind))
            more, fewer, column = _difference(e, other)
            rows.append(
                {
                    "name": f"{contact.name} {kind}",
                    "harmless": not more,
                    "states": column.bit_count(),
                    "runs": _counted(more) or None,
                    "idle": _counted(fewer) or None,
                }
            )
    return rows


def _single_faults(i: LogicInputs) -> Iterator[Fault]:
    for wire in i.wires:
        yield Fault(wire.name, "broken")
    for contact in i.contacts:
        yield Fault(contact.name, "stuck-closed")
        yield Fault(contact.name, "stuck-open")
    for valve in i.valves:
        yield Fault(valve.name, "driven")
        yield Fault(valve.name, "at-rest")


_FAULT_WORDS = {"driven": "stuck at its powered end", "at-rest": "stuck at its spring's end"}
_EFFECTS = ("shorts-the-supply", "defeats-a-cut-out", "unsettled", "runs", "idles")


def faults(e: Examined) -> list[dict[str, Any]]:
    """Every single fault that changes something, the worst first."""
    rows = []
    for fault in _single_faults(e.i):
        other = examined(e.i, e.read, e.work, fault)
        more, fewer, column = _difference(e, other)
        undone = [
            cut_out.name
            for cut_out in e.i.cut_outs
            if _undone(other, cut_out.stops, _tripped(other, cut_out.name))
        ]
        restless = other.settled.unsettled & ~e.settled.unsettled
        present = (other.settled.shorted, undone, restless, more, fewer)
        worst = next((k for k, there in enumerate(present) if there), None)
        if worst is None:
            continue
        words = [f"runs or opens: {_counted(more)}"] if more else []
        words += [f"stands or shuts: {_counted(fewer)}"] if fewer else []
        words += [f"does nothing any more: {_counted(undone)}"] if undone else []
        column |= other.settled.shorted | restless
        rows.append(
            (
                worst,
                {
                    "name": f"{fault.part} {_FAULT_WORDS.get(fault.kind, fault.kind)}",
                    "effect": _EFFECTS[worst],
                    "states": column.bit_count(),
                    "changes": "; ".join(words) or "the whole circuit",
                },
            )
        )
    rows.sort(key=lambda row: row[0])
    return [row for _, row in rows]


# --- voltages -------------------------------------------------------------------------------------


def together(e: Examined) -> list[dict[str, Any]]:
    """Which points of each cable or enclosure can be at mains, and which are extra-low voltage."""
    wiring = e.wiring
    beside: list[list[tuple[int, int]]] = [[] for _ in range(wiring.count)]
    conductors = [(item.start, item.end) for item in wiring.links]
    conductors += [(item.start, item.end) for item in wiring.driven]
    for start, end in conductors:
        a, b = wiring.net[start], wiring.net[end]
        if a != b:
            beside[a].append((b, e.full))
            beside[b].append((a, e.full))
    nets = {}
    for band in ("mains", "extra-low-voltage"):
        poles = {
            wiring.net[point]
            for supply in e.i.supplies
            if supply.band == band
            for point in (supply.live, supply.neutral)
        }
        poles |= {
            wiring.net[point]
            for item in e.i.sensed_inputs
            if item.band == band
            for point in (item.start, item.end)
        }
        nets[band] = wiring.spread(poles, beside)
    rows = []
    for shared in e.i.together:
        mains, low = (
            [p for p in shared.points if wiring.net[p] in nets[band]]
            for band in ("mains", "extra-low-voltage")
        )
        rows.append(
            {
                "name": shared.name,
                "mains": _counted(mains) or None,
                "extra_low": _counted(low) or None,
                "apart": not (mains and low) or shared.separated != "no",
            }
        )
    return rows
