"""Names checked, conditions read: what a request means before anything is enumerated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tundish.functions import refuse
from tundish_plugins.controls.expressions import (
    ExpressionError,
    Tree,
    column_of,
    names_of,
    parsed,
)
from tundish_plugins.controls.logic.wiring import MOST_INPUTS, points_of
from tundish_plugins.controls.states import States

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tundish_plugins.controls.logic.contract import Ended, LogicInputs, Named


@dataclass(frozen=True)
class Meant:
    """What is meant of one thing: the states it is to be on in, and those that are said at all."""

    on: int
    said: int


@dataclass(frozen=True)
class Read:
    """A request, read."""

    states: States
    paths: dict[str, Tree]
    meant: dict[str, Meant]


def _condition(text: str, known: Iterable[str], field: str) -> Tree:
    """Read a condition whose names must be known."""
    tree: Tree = ("true",)
    try:
        tree = parsed(text)
    except ExpressionError as error:
        refuse("expression-unreadable", field, why=str(error))
    accepted = list(known)
    for name in names_of(tree):
        if name not in accepted:
            refuse("name-unknown", field, given=name, accepted=", ".join(accepted))
    return tree


def _unique(i: LogicInputs) -> None:
    """Names of things, and names of wires and contacts, are each used once."""
    things = ("free_inputs", "relays", "valves", "loads", "sensed_inputs", "flow_paths")
    for group in (things, ("wires", "contacts")):
        seen: set[str] = set()
        for list_name in group:
            for index, item in enumerate(getattr(i, list_name)):
                if item.name in seen:
                    refuse("name-taken", f"/{list_name}/{index}/name", given=item.name)
                seen.add(item.name)


def _ends(i: LogicInputs) -> None:
    for list_name in ("wires", "contacts", "relays", "valves", "loads", "sensed_inputs"):
        for index, item in enumerate(getattr(i, list_name)):
            if item.start == item.end:
                refuse("ends-alike", f"/{list_name}/{index}/end", given=item.name)


def _known(name: str, known: Iterable[str], field: str) -> None:
    accepted = list(known)
    if name not in accepted:
        refuse("name-unknown", field, given=name, accepted=", ".join(accepted) or "none")


def read(i: LogicInputs) -> Read:
    """Check names and read conditions; refuse what cannot be enumerated."""
    free = [item.name for item in i.free_inputs]
    if len(free) > MOST_INPUTS:  # structure
        refuse(
            "too-many-states",
            "/free_inputs",
            states=str(2 ** len(free)),
            most=str(2**MOST_INPUTS),
        )
    _unique(i)
    _ends(i)
    ended: list[Ended] = [*i.relays, *i.valves, *i.loads, *i.sensed_inputs]
    moving = [item.name for item in ended]
    if not moving:
        refuse("nothing-to-judge", "/loads")
    for index, contact in enumerate(i.contacts):
        _known(contact.moved_by, [*free, *moving], f"/contacts/{index}/moved_by")
    paths = {
        path.name: _condition(path.open_when, [*free, *moving], f"/flow_paths/{k}/open_when")
        for k, path in enumerate(i.flow_paths)
    }
    results: list[Named] = [*i.loads, *i.valves, *i.sensed_inputs, *i.flow_paths]
    stoppable = [item.name for item in results]
    for index, cut_out in enumerate(i.cut_outs):
        _known(cut_out.name, free, f"/cut_outs/{index}/name")
        for k, name in enumerate(cut_out.stops):
            _known(name, stoppable, f"/cut_outs/{index}/stops/{k}")
    points = points_of(i)
    for index, shared in enumerate(i.together):
        for k, point in enumerate(shared.points):
            _known(point, points, f"/together/{index}/points/{k}")
    heats = [path for path in i.flow_paths if path.heats_store]
    heats_by_current = [load for load in i.loads if load.kind == "heater"]
    if i.unvented and not heats and not heats_by_current:
        refuse("store-path-missing", "/flow_paths")
    states = States(tuple(free))
    return Read(states, paths, _meant(i, states, [*moving, *paths]))


def _meant(i: LogicInputs, states: States, results: list[str]) -> dict[str, Meant]:
    columns = dict(zip(states.names, states.columns, strict=True))
    meant: dict[str, Meant] = {}
    for index, item in enumerate(i.intended):
        _known(item.name, results, f"/intended/{index}/name")
        tree = _condition(item.when, states.names, f"/intended/{index}/when")
        meant[item.name] = Meant(column_of(tree, columns, states.full), states.full)
    by_condition = set(meant)
    for index, row in enumerate(i.intended_rows):
        where = f"/intended_rows/{index}"
        _known(row.result, results, f"{where}/result")
        if row.result in by_condition:
            refuse("intended-twice", f"{where}/result", given=row.result)
        tree = _condition(row.when, states.names, f"{where}/when")
        column = column_of(tree, columns, states.full)
        before = meant.get(row.result, Meant(0, 0))
        against = before.said & column & (~before.on if row.on else before.on)
        if against:
            refuse(
                "intended-contradicts",
                f"{where}/when",
                given=row.result,
                state=state_words(states, states.first(against)),
            )
        on = before.on | column if row.on else before.on
        meant[row.result] = Meant(on, before.said | column)
    return meant


def state_words(states: States, state: int) -> str:
    """Write a state as its inputs with their values."""
    return ", ".join(
        f"{name} {digit}" for name, digit in zip(states.names, states.values(state), strict=True)
    )
