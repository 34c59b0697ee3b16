"""The tree of an installation: who hangs on what. Structure only, no quantity."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tundish.functions import refuse

if TYPE_CHECKING:
    from tundish_plugins.gas.pipe_sizing.contract import PipeSizingInputs


@dataclass(frozen=True)
class Tree:
    """Sections on the way to each appliance, and appliances behind each section, by index."""

    paths: tuple[tuple[int, ...], ...]
    served: tuple[tuple[int, ...], ...]


def tree_of(i: PipeSizingInputs) -> Tree:
    """Read the tree; refuse loops, double feeds, and what hangs on nothing."""
    fed: dict[str, int] = {}
    for index, section in enumerate(i.sections):
        where = f"/sections/{index}/end"
        if section.end in {section.start, i.meter}:
            refuse("network-loop", where, point=section.end)
        if section.end in fed:
            refuse("point-fed-twice", where, point=section.end)
        fed[section.end] = index
    for index in range(len(i.sections)):
        _way(i, fed, index, f"/sections/{index}/start")
    paths = []
    for index, appliance in enumerate(i.appliances):
        last = fed.get(appliance.node)
        if last is None:
            refuse("appliance-unconnected", f"/appliances/{index}/node", point=appliance.node)
        assert last is not None
        paths.append(_way(i, fed, last, f"/appliances/{index}/node"))
    served = tuple(
        tuple(a for a, path in enumerate(paths) if index in path)
        for index in range(len(i.sections))
    )
    for index, behind in enumerate(served):
        if not behind:
            refuse("section-without-load", f"/sections/{index}/end", point=i.sections[index].end)
    return Tree(tuple(paths), served)


def _way(i: PipeSizingInputs, fed: dict[str, int], last: int, where: str) -> tuple[int, ...]:
    """Sections from the meter to the end of one, in order."""
    way = [last]
    while i.sections[way[0]].start != i.meter:
        start = i.sections[way[0]].start
        before = fed.get(start)
        if before is None:
            refuse("section-unconnected", where, point=start)
        assert before is not None
        if before in way:
            refuse("network-loop", where, point=start)
        way.insert(0, before)
    return tuple(way)
