"""The order of the formulas, and the search, for a proposal of tubes. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import any_of, drawn, each_row, larger, pick, refuse, require, where
from tundish.working import note, part, silent
from tundish_plugins.gas.pipe_proposal import formulas as p
from tundish_plugins.gas.pipe_proposal import search
from tundish_plugins.gas.pipe_sizing import formulas as f
from tundish_plugins.gas.pipework import (
    PLASTIC,
    Fittings,
    Gas,
    Load,
    Tube,
    Tubes,
    all_settled,
    demand_of,
    flow_state,
    friction_gradient,
    gas_of,
    profile,
    uncertain,
    within_method,
    within_scope,
)
from tundish_plugins.networks import tree_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.rules import Context
    from tundish_plugins.gas.pipe_proposal.contract import OpenSection, PipeProposalInputs
    from tundish_plugins.networks import Tree


@dataclass(frozen=True)
class _Offer:
    """A tube in a section: added lengths of its fittings, what it drops, what it costs."""

    tube: Tube
    bore: float
    roughness: float
    rate: float
    added: list[float]
    cost: float
    drop: float
    uncertain: Any


def _taken(index: Any, values: Sequence[float]) -> float:
    """The value of the option taken; row by row in a column run."""
    found = values[0]
    for place, value in enumerate(values[1:], start=1):
        found = where(index == place, value, found)
    return found


def _named(index: Any, names: Sequence[str]) -> str:
    found = names[0]
    for place, name in enumerate(names[1:], start=1):
        found = pick(index == place, name, found)
    return found


def _rates(i: PipeProposalInputs) -> list[float] | None:
    """Cost of a metre of each candidate; none where no cost is given."""
    seen: set[str] = set()
    for index, candidate in enumerate(i.candidates):
        if candidate.tube in seen:
            refuse("candidate-twice", f"/candidates/{index}/tube", tube=candidate.tube)
        seen.add(candidate.tube)
    costs = [candidate.cost for candidate in i.candidates]
    given = [cost for cost in costs if cost is not None]
    if given and len(given) != len(costs):
        missing = [cost is None for cost in costs].index(True)
        refuse("cost-missing", f"/candidates/{missing}/cost")
    return given or None


def _plastic(best: list[Any], offers: list[list[_Offer]]) -> Any:
    """Whether some tube taken is of plastic."""
    found: Any = False
    for taken, offered in zip(best, offers, strict=True):
        for place, item in enumerate(offered):
            if item.tube.material == PLASTIC:
                found = any_of(found, taken == place)
    return found


@dataclass(frozen=True)
class _Offers:
    """Makes the offers of each section."""

    gas: Gas
    fittings: Fittings
    candidates: list[Tube]
    rates: list[float] | None
    c: Context

    def of(self, section: OpenSection, index: int, stays: Tube | None, Q: float) -> list[_Offer]:
        """Every tube that may be in a section; the one that stays costs nothing."""
        tubes = self.candidates if stays is None else [stays]
        return [
            self._one(section, index, place, tube, Q, free=stays is not None)
            for place, tube in enumerate(tubes)
        ]

    def _one(
        self, section: OpenSection, index: int, place: int, tube: Tube, Q: float, *, free: bool
    ) -> _Offer:
        where_tube = f"/sections/{index}/tube" if free else f"/candidates/{place}/tube"
        if tube.bore is None:
            refuse("tube-without-friction", where_tube, tube=tube.name)
        assert tube.bore is not None
        k = tube.roughness_by(self.c)
        rate = 0.0
        if not free:
            rate = p.bore_as_cost(tube.bore) if self.rates is None else self.rates[place]
        added = self.fittings.added(section.fittings, tube, where_tube)
        counts = [float(item.count) for item in section.fittings]
        L_e = f.effective_length(section.length, section.extra_length, counts, added)
        R = friction_gradient(Q, tube.bore, k, self.gas)
        _, Re = flow_state(Q, tube.bore, self.gas)
        cost = p.cost_of_section(rate, section.length)
        return _Offer(
            tube,
            tube.bore,
            k,
            rate,
            added,
            cost,
            f.section_drop(R, L_e),
            uncertain(Re),
        )


def _search(
    before: Sequence[int | None], ends: Sequence[bool], most: int, stays: Sequence[bool] | None
) -> Any:
    """Return a decision on one row's plain numbers; ``stays`` only where sizes are to fall.

    It gives: whether the search ended, whether some choice keeps the limit, whether there is a
    runner-up, then the option of every section in the best and in the next.
    """

    def decide(
        costs: list[list[float]],
        drops: list[list[float]],
        unsure: list[list[bool]],
        bores: list[list[float]],
        limit: float,
        margin: float,
    ) -> list[int]:
        options = [
            [search.Option(*item) for item in zip(*each, strict=True)]
            for each in zip(costs, drops, unsure, bores, strict=True)
        ]
        least = [search.widest(each) for each in options]
        try:
            found = search.cheapest(before, ends, options, limit, margin, most, stays)
        except search.TooManyError:
            return [0, 0, 0, *least, *least]
        if not found:
            return [1, 0, 0, *least, *least]
        best, other = found[0].options, found[-1].options
        return [1, 1, len(found) - 1, *best, *other]

    return decide


def _final(
    i: PipeProposalInputs,
    make: _Offers,
    flows: list[float],
    offers: list[list[_Offer]],
    best: list[Any],
) -> list[dict[str, Any]]:
    """Every section with the tube taken, its steps in the working."""
    found = []
    for index, section in enumerate(i.sections):
        offered, taken, Q = offers[index], best[index], flows[index]
        with part("section", section.name):
            d = _taken(taken, [item.bore for item in offered])
            k = _taken(taken, [item.roughness for item in offered])
            counts = [float(item.count) for item in section.fittings]
            if isinstance(taken, int):  # one request: the look-ups stand in the working
                added = make.fittings.added(section.fittings, offered[taken].tube, "")
            else:
                added = [
                    _taken(taken, [item.added[kind] for item in offered])
                    for kind in range(len(section.fittings))
                ]
            L_e = f.effective_length(section.length, section.extra_length, counts, added)
            with silent():
                w, Re = flow_state(Q, d, make.gas)
            dp = f.section_drop(friction_gradient(Q, d, k, make.gas), L_e)
            cost = p.cost_of_section(_taken(taken, [item.rate for item in offered]), section.length)
        found.append(
            {
                "name": section.name,
                "tube": _named(taken, [item.tube.name for item in offered]),
                "stays": section.tube is not None,
                "flow": Q,
                "effective_length": L_e,
                "velocity": w,
                "reynolds": Re,
                "transitional": uncertain(Re),
                "drop": dp,
                "cost": cost,
                "offered": [
                    {
                        "tube": item.tube.name,
                        "cost": item.cost,
                        "drop": item.drop,
                        "transitional": item.uncertain,
                    }
                    for item in offered
                ],
                "bore": d,
            }
        )
    return found


def _runner_up(
    tree: Tree, offers: list[list[_Offer]], other: list[Any], found: Any, cost: float
) -> dict[str, Any]:
    """Cost and highest drop of the next cheapest."""
    with silent():
        drops = [
            _taken(taken, [item.drop for item in offered])
            for taken, offered in zip(other, offers, strict=True)
        ]
        highest = reduce(larger, [f.path_drop([drops[k] for k in path]) for path in tree.paths])
        costs = [
            _taken(taken, [item.cost for item in offered])
            for taken, offered in zip(other, offers, strict=True)
        ]
        its = p.cost_together(costs)
    return {
        "found": found,
        "cost": its,
        "dearer": p.dearer(its, cost),
        "highest_drop": highest,
    }


def kernel(i: PipeProposalInputs, c: Context) -> dict[str, Any]:
    """The cheapest tubes that keep the limit at every appliance, and the next cheapest."""
    nodes = [appliance.node for appliance in i.appliances]
    tree = tree_of(
        i.sections, i.meter, nodes, leaves="/appliances", unconnected="appliance-unconnected"
    )
    rates = _rates(i)
    gas = gas_of(i, c)
    limit = c.value(f"gas-drop-limit-{gas.family}")
    share = c.value("gas-uncertain-flow-margin")
    catalogue = Tubes(c)
    candidates = [
        catalogue.named(candidate.tube, f"/candidates/{index}/tube")
        for index, candidate in enumerate(i.candidates)
    ]
    demand = demand_of(i, gas)
    load = Load(demand)
    total_flow = load.of_all()
    within_scope(total_flow, c)
    make = _Offers(gas, Fittings(c), candidates, rates, c)
    flows, offers = [], []
    for index, section in enumerate(i.sections):
        with part("section", section.name):
            flows.append(load.of(tree.served[index]))
        here = f"/sections/{index}/tube"
        stays = None if section.tube is None else catalogue.named(section.tube, here)
        with silent():
            offers.append(make.of(section, index, stays, flows[index]))
    margin = p.spare_of_limit(share, limit) if i.uncertain_flow == "spare" else 0.0
    ways = 1
    for offered in offers:
        ways *= len(offered)
    note(
        f"{ways} choices of tubes, each offered tube in each open section; the cheapest that keeps "
        "the limit on every way is found exactly, and the next cheapest with it."
    )
    ends = [section.end in nodes for section in i.sections]
    stay = [section.tube is not None for section in i.sections]
    ended, possible, second, *options = each_row(
        _search(tree.before, ends, i.most_steps, stay if i.size_order == "falling" else None),
        [[item.cost for item in offered] for offered in offers],
        [[item.drop for item in offered] for offered in offers],
        [[item.uncertain for item in offered] for offered in offers],
        [[item.bore for item in offered] for offered in offers],
        limit,
        margin,
    )
    require(ended == 1, "search-too-large", "/most_steps", most=i.most_steps)
    count = len(i.sections)
    best, other = options[:count], options[count:]
    sections = _final(i, make, flows, offers, best)
    bores = [section.pop("bore") for section in sections]
    for index, answer in enumerate(sections):
        feed = tree.before[index]
        answer["wider_than_feed"] = None if feed is None else bores[index] > bores[feed]
        answer["runner_up"] = _named(other[index], [item.tube.name for item in offers[index]])
    drops = [section["drop"] for section in sections]
    appliances = []
    for index, appliance in enumerate(i.appliances):
        path = tree.paths[index]
        with part("appliance", appliance.name):
            dp = f.path_drop([drops[k] for k in path])
            spare = f.spare(limit, dp)
        unsettled = [section["transitional"] for section in sections]
        lengths = [section["effective_length"] for section in sections]
        appliances.append(
            {
                "name": appliance.name,
                "flow": demand[index],
                "drop": dp,
                "spare": spare,
                "settled": all_settled(path, unsettled, spare, limit, share),
                "profile": drawn(profile, path, lengths, drops),
            }
        )
    highest = reduce(larger, [appliance["drop"] for appliance in appliances])
    within_method(highest, c)
    cost = p.cost_together([section["cost"] for section in sections])
    return {
        "family": gas.family,
        "total_flow": total_flow,
        "drop_limit": limit,
        "possible": possible == 1,
        "cost_basis": "metres-times-bore" if rates is None else "costs",
        "cost": cost,
        "highest_drop": highest,
        "meter_judged": i.meter_capacity is not None,
        "plastic": _plastic(best, offers),
        "runner_up": _runner_up(tree, offers, other, second == 1, cost),
        "appliances": appliances,
        "sections": sections,
    }
