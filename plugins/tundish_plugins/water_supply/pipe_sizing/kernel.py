"""The order of the formulas for hot and cold water pipes. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import reduce
from typing import TYPE_CHECKING, Any, Final

from tundish.functions import all_of, drawn, refuse, require, smaller
from tundish.physics import pipes
from tundish.working import part, silent
from tundish_plugins.networks import tree_of
from tundish_plugins.water_supply import formulas as shared
from tundish_plugins.water_supply import runs
from tundish_plugins.water_supply.demand import BS_6700, DIN_1988_300, UNITS, demand_of
from tundish_plugins.water_supply.pipe_sizing import formulas as f

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.rules import Context
    from tundish.tables import Table
    from tundish_plugins.networks import Tree
    from tundish_plugins.water_supply.demand import Demand
    from tundish_plugins.water_supply.pipe_sizing.contract import PipeSizingInputs

_SLACK: Final = 1e-9


def _start(i: PipeSizingInputs, water: runs.Water) -> float:
    """Pressure at the start of the tree."""
    if i.start_pressure is None:
        if i.cistern_level is None:
            refuse("start-missing", "/start_pressure")
        assert i.cistern_level is not None
        return shared.cistern_pressure(water.rho, i.cistern_level)
    if i.cistern_level is not None:
        refuse("start-given-twice", "/cistern_level")
    return i.start_pressure


def _coefficient(i: PipeSizingInputs, c: Context) -> float | None:
    """Coefficient of Hazen-Williams, or none with Colebrook."""
    C = i.hazen_williams_coefficient
    if i.friction == "colebrook":
        if C is not None:
            refuse("coefficient-without-use", "/hazen_williams_coefficient")
        return None
    if C is None:
        refuse("coefficient-missing", "/hazen_williams_coefficient")
    require(
        i.water_temperature <= c.value("hazen-williams-temperature-most") * (1 + _SLACK),
        "water-too-warm-for-hazen-williams",
        "/water_temperature",
    )
    return C


# --- flows ----------------------------------------------------------------------------------------


def _flows(i: PipeSizingInputs, tree: Tree, demand: Demand, c: Context) -> list[float]:
    """Design flow of every section; a pipe carries no less than any pipe it feeds."""
    found: list[float] = []
    for index, section in enumerate(i.sections):
        behind, where = tree.served[index], f"/sections/{index}/flow"
        with part("section", section.name):
            if section.flow is not None:
                whole = demand.sum_of(behind)
                require(
                    section.flow <= whole * (1 + _SLACK),
                    "section-flow-too-large",
                    where,
                    flow=(whole, "volume_flow", "l/min"),
                )
                found.append(section.flow)
            elif c.method == DIN_1988_300:
                found.append(demand.peak_of(behind))
            elif c.method in UNITS and len(behind) > 1:  # structure
                units = demand.units_of(behind)
                refuse("section-flow-missing", where, section=section.name, units=f"{units:g}")
            else:
                found.append(demand.sum_of(behind))
    with silent():
        for index, q in enumerate(found):
            where = f"/sections/{index}/flow"
            require(
                q >= demand.largest_of(tree.served[index]) * (1 - _SLACK),
                "section-flow-too-small",
                where,
            )
            before = tree.before[index]
            if before is not None:
                where = f"/sections/{before}/flow"
                require(found[before] >= q * (1 - _SLACK), "section-flow-too-small", where)
    return found


# --- pressures ------------------------------------------------------------------------------------


@dataclass
class _State:
    """What is known of every section, by index."""

    pipes: list[runs.Pipe] = field(default_factory=list)
    speeds: list[tuple[float, float]] = field(default_factory=list)  # velocity, Reynolds number
    drops: list[float] = field(default_factory=list)


@dataclass(frozen=True)
class _Pressures:
    """The tree with its flows; gives the pressures for the drops of its sections."""

    tree: Tree
    flows: list[float]
    start: float
    order: tuple[int, ...]  # each section after the one it starts from

    def running(self, state: _State, names: Sequence[str]) -> list[float]:
        """Pressure at the end of every section while the design flows run."""
        found: dict[int, float] = {}
        for index in self.order:
            pipe, before = state.pipes[index], self.tree.before[index]
            p = self.start if before is None else found[before]
            with part("section", names[index]):
                p = _end(pipe, p, state.drops[index], self.flows[index])
            found[index] = p
        return [found[index] for index in range(len(self.flows))]

    def at_rest(self, state: _State, path: tuple[int, ...]) -> float:
        """Pressure at the end of a way if nothing were lost on it."""
        p = self.start
        for index in path:
            p = runs.at_rest(state.pipes[index], p)
        return p


def _end(pipe: runs.Pipe, p: float, dp: float, q: float) -> float:
    """Pressure at the end of a section, behind its reducing valve."""
    return runs.after_valve(pipe.valve, q, shared.end_pressure(p, dp, pipe.dp_z))


def _order(tree: Tree) -> tuple[int, ...]:
    """Sections in an order in which each comes after the one it starts from."""
    found: list[int] = []
    for path in tree.paths:
        found += [index for index in path if index not in found]
    return tuple(found)


def _lost(
    pipe: runs.Pipe, q: float, water: runs.Water, C: float | None
) -> tuple[float, float, float]:
    """Velocity, Reynolds number and pressure lost by the law of friction chosen."""
    if C is None:
        return runs.lost(pipe, q, water)
    w = pipes.velocity(q, pipe.d)
    Re = pipes.reynolds_number(w, pipe.d, water.rho, water.mu)
    h = f.hazen_williams_head(q, pipe.d, pipe.L_e, C)
    dp_f = shared.head_pressure(water.rho, h)
    return w, Re, runs.with_fittings(pipe, q, w, dp_f, water)


def _neighbours(tubes: Table, name: str) -> tuple[str | None, str | None]:
    """Names of the next larger and the next smaller tube of the same series."""
    own = next(row for row in tubes.rows() if row["tube"] == name)
    series = [row for row in tubes.rows() if row["series"] == own["series"]]
    series.sort(key=lambda row: float(row["bore"]))
    place = next(k for k, row in enumerate(series) if row["tube"] == name)
    up = series[place + 1]["tube"] if place + 1 < len(series) else None  # structure
    down = series[place - 1]["tube"] if place else None
    return up, down


@dataclass(frozen=True)
class _Exchange:
    """What another tube in one section would do, all else left as it is."""

    i: PipeSizingInputs
    tubes: Table
    water: runs.Water
    C: float | None
    pressures: _Pressures
    state: _State

    def alternatives(self, index: int) -> dict[str, Any]:
        """The next size up and the next down; none for a bore that was given."""
        name = self.i.sections[index].tube
        up, down = (None, None) if name is None else _neighbours(self.tubes, name)
        with silent():
            return {"larger": self._with(index, up), "smaller": self._with(index, down)}

    def _with(self, index: int, name: str | None) -> dict[str, Any] | None:
        if name is None:
            return None
        row, old = self.tubes.exact(tube=name), self.state.pipes[index]
        pipe = runs.Pipe(row["bore"], row["roughness"], *old.given()[2:])
        w, _, dp = _lost(pipe, self.pressures.flows[index], self.water, self.C)
        drops = list(self.state.drops)
        drops[index] = dp
        other = _State(self.state.pipes, self.state.speeds, drops)
        names = [section.name for section in self.i.sections]
        ends = self.pressures.running(other, names)
        tree = self.pressures.tree
        spares = [
            shared.spare(ends[tree.paths[leaf][-1]], self.i.outlets[leaf].required_pressure)
            for leaf in tree.served[index]
        ]
        return {"tube": name, "velocity": w, "drop": dp, "least_spare": reduce(smaller, spares)}


def _profile(
    path: tuple[int, ...], lengths: list[float], ends: list[float], start: float
) -> dict[str, Any]:
    distance, pressure = [0.0 * lengths[0]], [start]
    for index in path:
        distance.append(distance[-1] + lengths[index])
        pressure.append(ends[index])
    return {"distance": distance, "pressure": pressure}


# --- answers --------------------------------------------------------------------------------------


def _outlets(
    i: PipeSizingInputs,
    demand: Demand,
    pressures: _Pressures,
    state: _State,
    ends: list[float],
    water: runs.Water,
) -> list[dict[str, Any]]:
    found = []
    lengths = [pipe.L_e for pipe in state.pipes]
    for leaf, outlet in enumerate(i.outlets):
        path = pressures.tree.paths[leaf]
        p = ends[path[-1]]
        with part("outlet", outlet.name):
            p_st = pressures.at_rest(state, path)
            L = f.way_length([lengths[k] for k in path])
            found.append(
                {
                    "name": outlet.name,
                    "flow": demand.flows[leaf],
                    "static_pressure": p_st,
                    "lost": f.way_drop([state.drops[k] for k in path]),
                    "pressure": p,
                    "head": shared.head_of(p, water.rho),
                    "spare": shared.spare(p, outlet.required_pressure),
                    "available_gradient": f.available_gradient(p_st, outlet.required_pressure, L),
                    "profile": drawn(_profile, path, lengths, ends, pressures.start),
                }
            )
    return found


def _sections(
    exchange: _Exchange, demand: Demand, ends: list[float], method: str
) -> list[dict[str, Any]]:
    i, state, found = exchange.i, exchange.state, []
    for index, section in enumerate(i.sections):
        behind = exchange.pressures.tree.served[index]
        w, Re = state.speeds[index]
        shared_or_single = "single" if len(behind) == 1 else "shared"
        with silent():
            units, whole = demand.units_of(behind), demand.sum_of(behind)
        found.append(
            {
                "name": section.name,
                "tube": section.tube,
                "pipe": "former" if method == BS_6700 else shared_or_single,
                "loading_units": units,
                "all_outlets": whole,
                "flow": exchange.pressures.flows[index],
                "effective_length": state.pipes[index].L_e,
                "velocity": w,
                "reynolds": Re,
                "transitional": all_of(Re >= pipes.LAMINAR_UP_TO, Re < pipes.TURBULENT_FROM),
                "drop": state.drops[index],
                "pressure": ends[index],
                **exchange.alternatives(index),
            }
        )
    return found


def kernel(i: PipeSizingInputs, c: Context) -> dict[str, Any]:
    """Pressure at every outlet of a tree of water pipes, and what each section does to it."""
    tree = tree_of(
        i.sections,
        i.source,
        [outlet.node for outlet in i.outlets],
        leaves="/outlets",
        unconnected="outlet-unconnected",
    )
    water = runs.water_at(i.water_temperature)
    start = _start(i, water)
    C = _coefficient(i, c)
    tubes = c.table("water-tubes")
    demand = demand_of(i.outlets, i.building, c, "/outlets")
    flows = _flows(i, tree, demand, c)
    state = _State()
    for index, section in enumerate(i.sections):
        with part("section", section.name):
            pipe = runs.pipe_of(section, tubes, water, f"/sections/{index}")
            w, Re, dp = _lost(pipe, flows[index], water, C)
        state.pipes.append(pipe)
        state.speeds.append((w, Re))
        state.drops.append(dp)
    pressures = _Pressures(tree, flows, start, _order(tree))
    ends = pressures.running(state, [section.name for section in i.sections])
    outlets = _outlets(i, demand, pressures, state, ends, water)
    exchange = _Exchange(i, tubes, water, C, pressures, state)
    return {
        "start_pressure": start,
        "density": water.rho,
        "viscosity": water.mu,
        "least_spare": reduce(smaller, [item["spare"] for item in outlets]),
        "above_atmospheric": all_of(*(p >= 0.0 for p in ends)),
        "valves_within_chart": runs.within_charts(
            [(pipe.valve, q) for pipe, q in zip(state.pipes, flows, strict=True)]
        ),
        "units_in_force": demand.in_force,
        "outlets": outlets,
        "sections": _sections(exchange, demand, ends, c.method),
    }
