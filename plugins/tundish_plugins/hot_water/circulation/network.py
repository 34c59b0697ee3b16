"""The sections of a circulation as a tree: structure only, no quantities."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tundish.functions import refuse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish_plugins.hot_water.circulation.contract import Section


@dataclass(frozen=True)
class Tree:
    """Positions of the sections: from the store outwards, and what follows on each."""

    order: tuple[int, ...]
    children: dict[int | None, tuple[int, ...]]  # None: the store
    parent: dict[int, int | None]

    def ends(self) -> tuple[int, ...]:
        """Sections that nothing follows on."""
        return tuple(k for k in range(len(self.parent)) if not self.children.get(k))

    def way(self, end: int) -> tuple[int, ...]:
        """Sections from the store to a far end."""
        found: list[int] = []
        here: int | None = end
        while here is not None:
            found.insert(0, here)
            here = self.parent[here]
        return tuple(found)


def tree_of(sections: Sequence[Section]) -> Tree:
    """Order the sections; refuse one that goes on from nothing, and rings."""
    places = {section.name: k for k, section in enumerate(sections)}
    parent: dict[int, int | None] = {}
    for k, section in enumerate(sections):
        if section.after is None:
            parent[k] = None
        elif section.after in places:
            parent[k] = places[section.after]
        else:
            refuse("section-unknown", f"/sections/{k}/after", after=section.after)
    children: dict[int | None, tuple[int, ...]] = {}
    for k, above in parent.items():
        children[above] = (*children.get(above, ()), k)
    order: list[int] = []
    waiting = list(children.get(None, ()))
    while waiting:
        here = waiting.pop(0)
        order.append(here)
        waiting += children.get(here, ())
    lost = [k for k in range(len(sections)) if k not in order]
    if lost:
        refuse("sections-in-a-ring", f"/sections/{lost[0]}/after")
    return Tree(tuple(order), children, parent)
