"""The cheapest tubes for a tree of sections, and the next cheapest. Exact.

One row's own plain numbers, never arrays. From the appliances up to the meter each point keeps a
front: what its cheapest choices need of the limit against what they cost. A choice is dropped only
where two others need no more and cost no more, so both the best and the runner-up survive. Where
branches meet, needs are not added (the larger counts), so fronts add and do not multiply.
"""

from __future__ import annotations

from dataclasses import dataclass
from operator import itemgetter
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

SLACK: Final = 1e-9

Label = tuple[float, float, Any]  # need, cost, how: (section, option, below) or (one, other)
_ORDER: Final = itemgetter(0, 1)
_COST: Final = itemgetter(1)


@dataclass(frozen=True)
class Option:
    """One tube in one section: what it costs, what it drops, and whether its flow is uncertain."""

    cost: float
    drop: float
    uncertain: bool


@dataclass(frozen=True)
class Chosen:
    """An assignment: its cost, what it needs of the limit, and the option of every section."""

    cost: float
    need: float
    options: tuple[int, ...]


class TooManyError(Exception):
    """More part-solutions are worth keeping than the search may make."""


def _front(labels: list[Label]) -> list[Label]:
    """Keep what fewer than two others match or beat in both need and cost; sorted by need."""
    labels.sort(key=_ORDER)
    kept: list[Label] = []
    first = second = float("inf")
    for label in labels:
        cost = label[1]
        if cost < second:  # structure: one row's own numbers
            kept.append(label)
            first, second = (cost, first) if cost < first else (first, cost)  # structure
    return kept


class _Search:
    """Fronts of every section, with and without uncertain flow before it."""

    def __init__(
        self,
        before: Sequence[int | None],
        ends: Sequence[bool],
        options: Sequence[Sequence[Option]],
        limit: float,
        margin: float,
        most: int,
    ) -> None:
        self._options, self._ends = options, ends
        self._margin, self._left = margin, most
        self._below: list[list[int]] = [[] for _ in before]
        self._roots = [k for k, parent in enumerate(before) if parent is None]
        for k, parent in enumerate(before):
            if parent is not None:
                self._below[parent].append(k)
        # What the limit leaves to a section and all behind it, if everything before drops least.
        self._room = [limit * (1 + SLACK)] * len(before)
        for k in self._downward():
            for child in self._below[k]:
                self._room[child] = self._room[k] - least_drop(options[k])

    def _downward(self) -> list[int]:
        order = list(self._roots)
        for k in order:
            order.extend(self._below[k])
        return order

    def _spend(self, count: int) -> None:
        self._left -= count
        if self._left < 0:  # structure: one row's own numbers
            raise TooManyError

    def _with(self, k: int, option: int, behind: list[Label]) -> list[Label]:
        """What is behind a section, with one tube in it."""
        chosen, room = self._options[k][option], self._room[k]
        found = []
        for need, cost, how in behind:
            if need + chosen.drop > room:  # structure: one row's own numbers
                break
            found.append((need + chosen.drop, cost + chosen.cost, (k, option, how)))
        self._spend(len(found))
        return found

    def _joined(self, one: list[Label], other: list[Label]) -> list[Label]:
        """Choices for two branches together: the larger need, both costs.

        Each pair is made when the one of larger need comes up, with the two cheapest of the other
        side that need no more: a third can be neither in the best pair nor in the second best.
        """
        found: list[Label] = []
        cheapest: tuple[list[Label], list[Label]] = ([], [])
        marked = [(label, 0) for label in one] + [(label, 1) for label in other]
        marked.sort(key=lambda item: _ORDER(item[0]))
        for label, side in marked:
            for partner in cheapest[1 - side]:
                how = (label[2], partner[2]) if side == 0 else (partner[2], label[2])
                found.append((label[0], label[1] + partner[1], how))
            here = cheapest[side]
            here.append(label)
            here.sort(key=_COST)
            del here[2:]
        self._spend(len(found))
        return _front(found)

    def _behind(
        self, k: int, fronts: dict[tuple[int, bool], list[Label]], way: bool
    ) -> list[Label]:
        """Front of what is behind a section; ``way`` says whether the way there is uncertain."""
        start: Label = (self._margin if way else 0.0, 0.0, None)
        parts = [[start]] if self._ends[k] else []
        parts += [fronts[child, way] for child in self._below[k]]
        found = parts[0]
        for item in parts[1:]:
            found = self._joined(found, item)
        return found

    def run(self) -> list[Label]:
        """Front of the whole tree at the meter."""
        fronts: dict[tuple[int, bool], list[Label]] = {}
        for k in reversed(self._downward()):
            behind = {way: self._behind(k, fronts, way) for way in (False, True)}
            for way in (False, True):
                fronts[k, way] = _front(
                    [
                        label
                        for option, item in enumerate(self._options[k])
                        for label in self._with(k, option, behind[way or item.uncertain])
                    ]
                )
            for child in self._below[k]:
                del fronts[child, False], fronts[child, True]
        whole = fronts[self._roots[0], False]
        for k in self._roots[1:]:
            whole = self._joined(whole, fronts[k, False])
        return whole


def least_drop(options: Sequence[Option]) -> float:
    """Least drop of some options."""
    return options[widest(options)].drop


def widest(options: Sequence[Option]) -> int:
    """Which option drops least; among equals the cheapest."""
    best = 0
    for index, item in enumerate(options):
        mine, its = (item.drop, item.cost), (options[best].drop, options[best].cost)
        best = index if mine < its else best  # structure: one row's own numbers
    return best


def _written(how: Any, count: int) -> tuple[int, ...]:
    """Read which option each section took."""
    options = [0] * count
    waiting: list[Any] = [how]
    while waiting:
        item = waiting.pop()
        if item is None:
            continue
        if isinstance(item[0], int):
            options[item[0]] = item[1]
            waiting.append(item[2])
        else:
            waiting.extend(item)
    return tuple(options)


def cheapest(
    before: Sequence[int | None],
    ends: Sequence[bool],
    options: Sequence[Sequence[Option]],
    limit: float,
    margin: float,
    most: int = 10_000_000,
) -> list[Chosen]:
    """Return the cheapest assignment that keeps the limit everywhere, and the next; or fewer.

    ``before`` names the section each starts from, ``ends`` says where an appliance hangs. A way on
    which some flow is uncertain needs ``margin`` more. Raises :class:`TooManyError` after ``most``
    part-solutions.
    """
    front = _Search(before, ends, options, limit, margin, most).run()
    front.sort(key=lambda label: (label[1], label[0]))
    return [Chosen(cost, need, _written(how, len(options))) for need, cost, how in front[:2]]
