"""The order of the formulas for a gas installation. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, larger, smaller
from tundish.working import part, silent
from tundish_plugins.gas.pipe_sizing import formulas as f
from tundish_plugins.gas.pipe_sizing.laws import (
    ByLongestLength,
    ByTable,
    Physical,
    Spitzglass,
    longest_way,
)
from tundish_plugins.gas.pipework import (
    PLASTIC,
    DiverseLoad,
    Fittings,
    Gas,
    Load,
    Tube,
    Tubes,
    all_settled,
    demand_of,
    flow_state,
    gas_of,
    profile,
    uncertain,
    within_method,
    within_scope,
)
from tundish_plugins.networks import tree_of

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.gas.pipe_sizing.contract import PipeSizingInputs
    from tundish_plugins.networks import Tree

PHYSICAL, TABLE, LONGEST, SPITZGLASS = "physical", "table", "longest-length", "spitzglass"

Law = Physical | ByTable | ByLongestLength


@dataclass
class _State:
    """What is known of every section, by index."""

    tubes: list[Tube]
    flows: list[float] = field(default_factory=list)
    speeds: list[tuple[float, float] | None] = field(default_factory=list)  # velocity, Reynolds
    lengths: list[float] = field(default_factory=list)
    gradients: list[float] = field(default_factory=list)
    drops: list[float] = field(default_factory=list)

    @property
    def unsettled(self) -> list[Any]:
        """Whether each flow lies between laminar and turbulent."""
        return [False if speed is None else uncertain(speed[1]) for speed in self.speeds]


def _law(i: PipeSizingInputs, gas: Gas, tubes: list[Tube], c: Context) -> Law:
    if c.method == TABLE:
        return ByTable(i, gas, c)
    if c.method == LONGEST:
        return ByLongestLength(i, gas, tubes, c)
    return Spitzglass(gas, c) if c.method == SPITZGLASS else Physical(gas, c)


def _along(
    i: PipeSizingInputs,
    tree: Tree,
    load: Load,
    tubes: list[Tube],
    fittings: Fittings,
    law: Law,
    gas: Gas,
) -> _State:
    """Flow and drop of every section."""
    state = _State(tubes)
    for index, section in enumerate(i.sections):
        tube = tubes[index]
        here = f"/sections/{index}"
        with part("section", section.name):
            Q = load.of(tree.served[index])
            counts = [float(item.count) for item in section.fittings]
            added = fittings.added(section.fittings, tube, f"{here}/fittings")
            L_e = f.effective_length(section.length, section.extra_length, counts, added)
            with silent():
                state.speeds.append(None if tube.bore is None else flow_state(Q, tube.bore, gas))
            law.covers(L_e, f"{here}/length")
            R = law.gradient(Q, tube, f"{here}/tube")
            state.flows.append(Q)
            state.lengths.append(L_e)
            state.gradients.append(R)
            state.drops.append(f.section_drop(R, L_e))
    return state


@dataclass(frozen=True)
class _Exchange:
    """What another tube in one section would do, all else left as it is."""

    i: PipeSizingInputs
    tree: Tree
    tubes: Tubes
    fittings: Fittings
    law: Law
    state: _State
    arrived: list[float]

    def alternatives(self, index: int) -> dict[str, Any]:
        """The next size up and the next down. A table has few tubes: none are offered by it."""
        if not isinstance(self.law, Physical):
            return {"larger": None, "smaller": None}
        up, down = self.tubes.neighbours(self.state.tubes[index])
        with silent():
            return {"larger": self._with(index, up), "smaller": self._with(index, down)}

    def _with(self, index: int, name: str | None) -> dict[str, Any] | None:
        if name is None:
            return None
        section, where = self.i.sections[index], f"/sections/{index}/tube"
        tube = self.tubes.named(name, where)
        counts = [float(item.count) for item in section.fittings]
        added = self.fittings.added(section.fittings, tube, where)
        L_e = f.effective_length(section.length, section.extra_length, counts, added)
        dp = f.section_drop(self.law.gradient(self.state.flows[index], tube, where), L_e)
        drops = [
            f.replaced(old, self.state.drops[index], dp) if a in self.tree.served[index] else old
            for a, old in enumerate(self.arrived)
        ]
        return {"tube": name, "drop": dp, "highest_drop": reduce(larger, drops)}


def _section_outputs(exchange: _Exchange, spares: list[float]) -> list[dict[str, Any]]:
    """Every section, with the length the limit leaves it and the sizes beside its own."""
    state, law, found = exchange.state, exchange.law, []
    unsettled = state.unsettled
    by_length = isinstance(law, ByLongestLength)
    longest = longest_way(state.lengths, exchange.tree.paths) if by_length else None
    for index, section in enumerate(exchange.i.sections):
        w, Re = state.speeds[index] or (None, None)
        answer = {
            "name": section.name,
            "tube": section.tube,
            "flow": state.flows[index],
            "effective_length": state.lengths[index],
            "velocity": w,
            "reynolds": Re,
            "transitional": unsettled[index],
            "drop": state.drops[index],
            "spare_length": None,
            "longest_length": None,
            "table_length": None,
            "table_flow": None,
            "table_heat": None,
            "capacity": None,
            "least_tube": None,
            **exchange.alternatives(index),
        }
        if isinstance(law, ByLongestLength):
            assert longest is not None
            with part("section", section.name):
                answer |= law.allowed(longest, state.tubes[index], state.flows[index])
        else:
            least = reduce(smaller, [spares[a] for a in exchange.tree.served[index]])
            dL = f.spare_length(least, state.gradients[index])
            answer |= {
                "spare_length": dL,
                "longest_length": f.longest_length(section.length, dL),
            }
        found.append(answer)
    return found


def kernel(i: PipeSizingInputs, c: Context) -> dict[str, Any]:
    """Drop at every appliance of a gas installation, and what each section does to it."""
    tree = tree_of(
        i.sections,
        i.meter,
        [appliance.node for appliance in i.appliances],
        leaves="/appliances",
        unconnected="appliance-unconnected",
    )
    gas = gas_of(i, c)
    by_length = c.method == LONGEST
    limit = None if by_length else c.value(f"gas-drop-limit-{gas.family}")
    share = 0.0 if by_length else c.value("gas-uncertain-flow-margin")
    catalogue = Tubes(c)
    tubes = [
        catalogue.named(section.tube, f"/sections/{index}/tube")
        for index, section in enumerate(i.sections)
    ]
    law = _law(i, gas, tubes, c)
    if isinstance(law, ByLongestLength):
        limit = law.drop
    assert limit is not None
    fittings = Fittings(c, law.fittings_edition if isinstance(law, ByTable) else None)
    demand = demand_of(i, gas)
    load = DiverseLoad(i.appliances, demand, c)
    total_flow = load.of_all()
    state = _along(i, tree, load, tubes, fittings, law, gas)
    arrived, spares = [], []
    for index, appliance in enumerate(i.appliances):
        with part("appliance", appliance.name):
            dp = f.path_drop([state.drops[k] for k in tree.paths[index]])
            arrived.append(dp)
            spares.append(f.spare(limit, dp))
    highest = reduce(larger, arrived)
    within_scope(total_flow, c)
    within_method(highest, c)
    exchange = _Exchange(i, tree, catalogue, fittings, law, state, arrived)
    sections = _section_outputs(exchange, spares)
    unsettled = state.unsettled
    appliances = [
        {
            "name": appliance.name,
            "flow": demand[index],
            "drop": arrived[index],
            "spare": spares[index],
            "settled": None
            if by_length
            else all_settled(tree.paths[index], unsettled, spares[index], limit, share),
            "profile": drawn(profile, tree.paths[index], state.lengths, state.drops),
        }
        for index, appliance in enumerate(i.appliances)
    ]
    table = None if isinstance(law, Physical) else law.table
    least_supply = law.least_supply if isinstance(law, ByLongestLength) else None
    return {
        "family": gas.family,
        "judged_by": "capacity" if by_length else f"{gas.family}-drop",
        "density": gas.rho,
        "relative_density": f.relative_density(gas.rho),
        "viscosity": gas.mu,
        "gross_calorific_value": gas.gross,
        "net_calorific_value": gas.net,
        "total_flow": total_flow,
        "full_rate": load.at_full_rate,
        "drop_limit": limit,
        "highest_drop": highest,
        "plastic": any(tube.material == PLASTIC for tube in tubes),
        "least_supply": least_supply,
        "supply_known": None if least_supply is None else i.supply_pressure is not None,
        "meter_judged": i.meter_capacity is not None,
        "table_edition": None if table is None else table.edition,
        "table_in_force": None if table is None else not table.superseded,
        "appliances": appliances,
        "sections": sections,
    }
