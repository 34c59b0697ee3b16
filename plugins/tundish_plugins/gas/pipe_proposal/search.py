"""The cheapest tubes for a tree of sections, and the next cheapest. Exact.

One row's own plain numbers, never arrays. From the appliances up to the meter each point keeps a
front: what its cheapest choices need of the limit against what they cost. A choice is dropped only
where two others need no more and cost no more, so both the best and the runner-up survive. Where
branches meet, needs are not added (the larger counts), so fronts add and do not multiply.

A first round with thinned fronts finds two good assignments. In the second, exact round a choice is
dropped, too, where even the least that everything else can cost takes it beyond the dearer of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from operator import itemgetter
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

SLACK: Final = 1e-9
ANY: Final = float("inf")
BEAM: Final = 128
"""Labels kept of each front in the first round."""
PRICES: Final = tuple(10.0**power for power in (x / 4 for x in range(-24, 9)))
"""What a pascal may be worth, in parts of the dearest option over the limit: a grid of bounds."""

State = tuple[bool, float]  # whether flow before is uncertain; the bore not to be exceeded
Label = tuple[float, float, Any]  # need, cost, how: (section, option, below) or (one, other)
_ORDER: Final = itemgetter(0, 1)
_COST: Final = itemgetter(1)


@dataclass(frozen=True)
class Option:
    """One tube in one section: cost, drop, whether its flow is uncertain, and its bore."""

    cost: float
    drop: float
    uncertain: bool
    bore: float = 0.0


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


def _thinned(front: list[Label]) -> list[Label]:
    """Some labels of a front, spread evenly, the first and the last among them."""
    step = (len(front) - 1) / (BEAM - 1)
    return [front[int(k * step + 0.5)] for k in range(BEAM)]


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
        stays: Sequence[bool] | None,
    ) -> None:
        self._stays = stays
        self._before, self._ends, self._options = before, ends, options
        self._limit = limit * (1 + SLACK)
        self._margin, self._left = margin, most
        self._below: list[list[int]] = [[] for _ in before]
        self._roots = [k for k, parent in enumerate(before) if parent is None]
        for k, parent in enumerate(before):
            if parent is not None:
                self._below[parent].append(k)
        self._order = list(self._roots)
        for k in self._order:
            self._order.extend(self._below[k])
        # What the limit leaves to a section and all behind it, if everything before drops least.
        self._room = [self._limit] * len(before)
        for k in self._order:
            for child in self._below[k]:
                self._room[child] = self._room[k] - least_drop(options[k])
        self._thin, self._cut, self._bound = True, False, float("inf")

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
        return self._kept(_front(found))

    def _kept(self, front: list[Label]) -> list[Label]:
        if not self._thin or len(front) <= BEAM:  # structure
            return front
        self._cut = True
        return _thinned(front)

    def _states(self, k: int | None) -> list[State]:
        """What can come before whatever hangs on a section, or on the meter."""
        if k is None:
            return [(False, ANY)]
        bores = [ANY] if self._stays is None else {item.bore for item in self._options[k]}
        return [(way, bore) for way in (False, True) for bore in bores]

    def _taken(self, k: int, option: int, state: State) -> State | None:
        """What comes before the sections behind, with one tube taken; none if it may not be."""
        item, (way, bore) = self._options[k][option], state
        if self._stays is None:
            return way or item.uncertain, ANY
        allowed = any((self._stays[k], item.bore <= bore))
        return (way or item.uncertain, item.bore) if allowed else None

    def _behind(
        self, k: int, fronts: dict[tuple[int, State], list[Label]], state: State
    ) -> list[Label]:
        """Front of what is behind a section."""
        start: Label = (self._margin if state[0] else 0.0, 0.0, None)
        parts = [[start]] if self._ends[k] else []
        parts += [fronts[child, state] for child in self._below[k]]
        found = parts[0]
        for item in parts[1:]:
            found = self._joined(found, item)
        return found

    def _bounds(self) -> tuple[list[float], list[float], list[list[float]]]:
        """Prices of a pascal, and what everything outside a section and what it feeds costs at least.

        That is a sum over the sections beside the way, each at its cheapest, and for each price a
        sum over the sections before it, each at its least of cost plus price times drop.
        """
        dearest = -_least([-item.cost for each in self._options for item in each])
        unit = dearest / self._limit
        prices = [price * unit for price in PRICES]
        least = [_least([item.cost for item in each]) for each in self._options]
        inside = list(least)
        for k in reversed(self._order):
            inside[k] += sum(inside[child] for child in self._below[k])
        whole = sum(inside[k] for k in self._roots)
        before, beside = [[0.0] * len(prices) for _ in least], [0.0] * len(least)
        on_way = [0.0] * len(least)
        for k in self._order:
            parent = self._before[k]
            if parent is not None:
                on_way[k] = on_way[parent] + least[parent]
                before[k] = [
                    so_far + _least([o.cost + price * o.drop for o in self._options[parent]])
                    for so_far, price in zip(before[parent], prices, strict=True)
                ]
            beside[k] = whole - inside[k] - on_way[k]
        return prices, beside, before

    def _within(
        self, front: list[Label], prices: list[float], beside: float, before: list[float]
    ) -> list[Label]:
        """Drop what costs more than the bound, whatever the rest is. Needs rise, so prices do."""
        found, at = [], 0
        for label in front:
            left = self._limit - label[0]
            most = before[at] - prices[at] * left
            while at + 1 < len(prices):  # structure: one row's own numbers
                following = before[at + 1] - prices[at + 1] * left
                if following < most:  # structure: one row's own numbers
                    break
                at, most = at + 1, following
            if label[1] + beside + most <= self._bound:  # structure: one row's own numbers
                found.append(label)
        return found

    def _round(self) -> list[Label]:
        """Front of the whole tree at the meter."""
        fronts: dict[tuple[int, State], list[Label]] = {}
        prices, beside, before = self._bounds()
        for k in reversed(self._order):
            behind = {state: self._behind(k, fronts, state) for state in self._states(k)}
            for state in self._states(self._before[k]):
                labels: list[Label] = []
                for option in range(len(self._options[k])):
                    taken = self._taken(k, option, state)
                    if taken is not None:
                        labels += self._with(k, option, behind[taken])
                front = self._within(_front(labels), prices, beside[k], before[k])
                fronts[k, state] = self._kept(front)
            for child in self._below[k]:
                for state in self._states(k):
                    del fronts[child, state]
        (start,) = self._states(None)
        whole = fronts[self._roots[0], start]
        for k in self._roots[1:]:
            whole = self._joined(whole, fronts[k, start])
        return sorted_by_cost(whole)

    def run(self) -> list[Label]:
        """Best and next best of the whole tree; fewer where there are none."""
        found = self._round()
        if not self._cut:
            return found[:2]
        if len(found) > 1:  # structure
            self._bound = found[1][1] * (1 + SLACK) + SLACK
        self._thin = False
        return self._round()[:2]


def sorted_by_cost(labels: list[Label]) -> list[Label]:
    """Sort by cost, then by need."""
    labels = list(labels)
    labels.sort(key=lambda label: (label[1], label[0]))
    return labels


def _least(values: list[float]) -> float:
    values.sort()
    return values[0]


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
    stays: Sequence[bool] | None = None,
) -> list[Chosen]:
    """Return the cheapest assignment that keeps the limit everywhere, and the next; or fewer.

    ``before`` names the section each starts from, ``ends`` says where an appliance hangs. A way on
    which some flow is uncertain needs ``margin`` more. With ``stays``, which says where the tube is
    given, no other section may be wider than what feeds it. Raises :class:`TooManyError` after
    ``most`` part-solutions.
    """
    found = _Search(before, ends, options, limit, margin, most, stays).run()
    return [Chosen(cost, need, _written(how, len(options))) for need, cost, how in found]
