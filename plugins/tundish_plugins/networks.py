"""The tree of a piped installation: who hangs on what. Structure only, no quantity."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from tundish.functions import refuse

if TYPE_CHECKING:
    from collections.abc import Sequence


class Link(Protocol):
    """A section leads from one point to another."""

    @property
    def start(self) -> str:
        """Point it starts from."""

    @property
    def end(self) -> str:
        """Point it leads to."""


@dataclass(frozen=True)
class Tree:
    """Sections on the way to each leaf, and leaves behind each section, by index."""

    paths: tuple[tuple[int, ...], ...]
    served: tuple[tuple[int, ...], ...]
    before: tuple[int | None, ...]  # the section each starts from; none: the root


def tree_of(
    sections: Sequence[Link],
    root: str,
    nodes: Sequence[str],
    *,
    leaves: str,
    unconnected: str,
) -> Tree:
    """Read the tree; refuse loops, double feeds, and what hangs on nothing.

    ``nodes`` are the points that the leaves hang on, ``leaves`` the pointer of their list, and
    ``unconnected`` the code for a leaf that hangs on nothing.
    """
    fed: dict[str, int] = {}
    for index, section in enumerate(sections):
        where = f"/sections/{index}/end"
        if section.end in {section.start, root}:
            refuse("network-loop", where, point=section.end)
        if section.end in fed:
            refuse("point-fed-twice", where, point=section.end)
        fed[section.end] = index
    for index in range(len(sections)):
        _way(sections, root, fed, index, f"/sections/{index}/start")
    paths = []
    for index, node in enumerate(nodes):
        last = fed.get(node)
        if last is None:
            refuse(unconnected, f"{leaves}/{index}/node", point=node)
        assert last is not None
        paths.append(_way(sections, root, fed, last, f"{leaves}/{index}/node"))
    served = tuple(
        tuple(leaf for leaf, path in enumerate(paths) if index in path)
        for index in range(len(sections))
    )
    for index, behind in enumerate(served):
        if not behind:
            refuse("section-without-load", f"/sections/{index}/end", point=sections[index].end)
    return Tree(tuple(paths), served, tuple(fed.get(section.start) for section in sections))


def _way(
    sections: Sequence[Link], root: str, fed: dict[str, int], last: int, where: str
) -> tuple[int, ...]:
    """Sections from the root to the end of one, in order."""
    way = [last]
    while sections[way[0]].start != root:
        start = sections[way[0]].start
        before = fed.get(start)
        if before is None:
            refuse("section-unconnected", where, point=start)
        assert before is not None
        if before in way:
            refuse("network-loop", where, point=start)
        way.insert(0, before)
    return tuple(way)
