"""The order of the formulas for a secondary circulation. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import larger, pick, refuse, require
from tundish.physics import pipes
from tundish.physics.water import density, dynamic_viscosity, enthalpy
from tundish.working import part, silent
from tundish_plugins.hot_water import hot_pipes
from tundish_plugins.hot_water.circulation import formulas as f
from tundish_plugins.hot_water.circulation.network import Tree, tree_of
from tundish_plugins.hot_water.tubes import size_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from tundish.rules import Context
    from tundish.tables import Table
    from tundish_plugins.hot_water.circulation.contract import CirculationInputs, Pipe


@dataclass(frozen=True)
class Run:
    """A pipe with its size and its loss."""

    pipe: Pipe
    bore: float
    q: float
    Q: float
    guide_loss: float | None
    guide_limit: float | None
    least_loss: float | None = None


@dataclass(frozen=True)
class Guide:
    """The region's guide to the loss of insulated pipes."""

    most: Table
    water: float
    air: float


@dataclass(frozen=True)
class Water:
    """The circulating water."""

    c: float
    rho: float
    mu: float
    k: float


def _loss(
    pipe: Pipe, d_a: float, i: CirculationInputs, c: Context
) -> Callable[[float, float], float]:
    """Loss for each metre as a function of water and air temperature."""
    cover = pipe.insulation
    if cover is None:
        given = i.emissivity
        emissivity = c.value("bare-pipe-emissivity") if given is None else given
        return lambda T, T_a: hot_pipes.bare_pipe(d_a, emissivity, T, T_a)
    U_l = hot_pipes.insulated_pipe(
        d_a, cover.thickness, cover.conductivity, cover.surface_coefficient
    )
    return lambda T, T_a: hot_pipes.loss_for_each_metre(U_l, T, T_a)


def _least_loss(d_a: float, T: float, T_a: float, c: Context) -> float | None:
    """Loss for each metre with the best insulation there is."""
    if not c.has("pipe-insulation-conductivity-least"):
        return None
    with part("at the best insulation"):
        U_l = hot_pipes.insulated_pipe(
            d_a,
            c.value("pipe-insulation-thickness-most"),
            c.value("pipe-insulation-conductivity-least"),
            c.value("insulation-surface-coefficient"),
        )
        return hot_pipes.loss_for_each_metre(U_l, T, T_a)


def _run(pipe: Pipe, i: CirculationInputs, c: Context, guide: Guide | None, field: str) -> Run:
    """Size and loss of one pipe."""
    d_a, bore = size_of(pipe, c, field)
    own = pipe.ambient_temperature
    T_a = i.ambient_temperature if own is None else own
    if pipe.heat_loss is not None:
        if pipe.insulation is not None:
            refuse("pipe-loss-given-twice", f"{field}/heat_loss")
        q = pipe.heat_loss
        least = _least_loss(d_a, i.outlet_temperature, T_a, c)
        return Run(pipe, bore, q, hot_pipes.pipe_loss(q, pipe.length), None, None, least)
    require(
        T_a < i.return_temperature,
        "ambient-not-below-return",
        "/ambient_temperature" if own is None else f"{field}/ambient_temperature",
    )
    loss = _loss(pipe, d_a, i, c)
    q = loss(i.outlet_temperature, T_a)
    Q = hot_pipes.pipe_loss(q, pipe.length)
    if guide is None:
        return Run(pipe, bore, q, Q, None, None)
    with part("at the guide's condition"):
        most = guide.most.at(f"{field}/outside_diameter")
        limit = most.interpolate("outside_diameter", d_a, "most")
        return Run(pipe, bore, q, Q, loss(guide.water, guide.air), limit)


def _flows(tree: Tree, behind: dict[int, float], m: float) -> dict[int, float]:
    """Flow of each section: at every node in the share of the loss behind each branch."""
    flows: dict[int, float] = {}
    for node in (None, *tree.order):
        after = tree.children.get(node, ())
        arriving = m if node is None else flows[node]
        if len(after) == 1:  # structure
            flows[after[0]] = arriving
        elif after:
            Q = f.all_losses([behind[k] for k in after])
            for k in after:
                flows[k] = f.branch_flow(arriving, behind[k], Q)
    return flows


def _hydraulics(run: Run, V: float, water: Water) -> dict[str, Any]:
    """Velocity and pressure drop of one pipe."""
    w = pipes.velocity(V, run.bore)
    Re = pipes.reynolds_number(w, run.bore, water.rho, water.mu)
    friction = pipes.friction_factor(Re, pipes.relative_roughness(water.k, run.bore))
    drop = f.pipe_drop(
        pipes.friction_drop(friction, run.pipe.length, run.bore, water.rho, w),
        pipes.fittings_drop(run.pipe.fittings_loss, water.rho, w),
    )
    return {
        "heat_loss": run.q,
        "loss": run.Q,
        "guide_loss": run.guide_loss,
        "guide_limit": run.guide_limit,
        "given_loss": run.pipe.heat_loss,
        "least_loss": run.least_loss,
        "velocity": w,
        "reynolds": Re,
        "drop": drop,
    }


def _branches(
    i: CirculationInputs, tree: Tree, found: dict[int, dict[str, Any]]
) -> tuple[list[dict[str, Any]], float, str]:
    """Each way out and back, the highest pressure drop, and which way has it."""
    branches: list[dict[str, Any]] = []
    for end in tree.ends():
        way = tree.way(end)
        drops = [found[k][side]["drop"] for k in way for side in ("flow_pipe", "return_pipe")]
        with silent():
            x, T = [0.0 * i.outlet_temperature], [i.outlet_temperature]
            for k in way:
                x.append(x[-1] + i.sections[k].flow_pipe.length)
                T.append(found[k]["end_temperature"])
            for k in reversed(way):
                x.append(x[-1] + i.sections[k].return_pipe.length)
                T.append(found[k]["back_temperature"])
        branches.append(
            {
                "name": i.sections[end].name,
                "flow": found[end]["flow"],
                "far_temperature": found[end]["end_temperature"],
                "drop": f.way_drop(drops),
                "distance": x,
                "temperature": T,
            }
        )
    highest = reduce(f.higher_drop, [branch["drop"] for branch in branches])
    longest = branches[0]["name"]
    so_far = branches[0]["drop"]
    for branch in branches[1:]:
        longest = pick(branch["drop"] > so_far, branch["name"], longest)
        so_far = larger(branch["drop"], so_far)
    for branch in branches:
        branch["balancing_drop"] = f.balancing_drop(highest, branch["drop"])
    return branches, highest, longest


def kernel(i: CirculationInputs, c: Context) -> dict[str, Any]:
    """Loss of the pipes, the flow that carries it, and the pump that drives it."""
    T_out, T_ret = i.outlet_temperature, i.return_temperature
    require(T_ret < T_out, "return-not-below-outlet", "/return_temperature")
    tree = tree_of(i.sections)
    guide = None
    if c.has("pipe-loss-most"):
        table = c.table("pipe-loss-most")
        guide = Guide(table, c.value("pipe-loss-guide-water"), c.value("pipe-loss-guide-air"))
    out: list[Run] = []
    back: list[Run] = []
    for k, section in enumerate(i.sections):
        with part("section", section.name):
            with part("flow pipe"):
                out.append(_run(section.flow_pipe, i, c, guide, f"/sections/{k}/flow_pipe"))
            with part("return pipe"):
                back.append(_run(section.return_pipe, i, c, guide, f"/sections/{k}/return_pipe"))
    Q_f, Q_r = f.all_losses([run.Q for run in out]), f.all_losses([run.Q for run in back])
    Q = f.all_losses([Q_f, Q_r])

    h_out, h_ret = enthalpy(T_out), enthalpy(T_ret)
    rho, mu = density(T_ret), dynamic_viscosity(T_ret)
    water = Water(f.mean_specific_heat(h_out, h_ret, T_out, T_ret), rho, mu, i.roughness)
    if i.circulation_flow is None:
        m = f.carrying_flow(Q, h_out, h_ret)
    else:
        m = f.mass_flow(i.circulation_flow, rho)
    T_r = f.cooled(T_out, Q, m, water.c)
    ambients = [i.ambient_temperature]
    ambients += [
        pipe.ambient_temperature
        for section in i.sections
        for pipe in (section.flow_pipe, section.return_pipe)
        if pipe.ambient_temperature is not None
    ]
    for T_a in ambients:
        require(T_a < T_r, "flow-too-small", "/circulation_flow", back=(T_r, "temperature", "degC"))

    behind: dict[int, float] = {}
    for k in reversed(tree.order):
        after = [behind[child] for child in tree.children.get(k, ())]
        behind[k] = f.all_losses([out[k].Q, back[k].Q, *after])
    flows = _flows(tree, behind, m)
    found: dict[int, dict[str, Any]] = {}
    far: dict[int | None, float] = {None: T_out}
    for k in tree.order:
        with part("section", i.sections[k].name):
            start = far[tree.parent[k]]
            far[k] = f.cooled(start, out[k].Q, flows[k], water.c)
            V = f.volume_flow(flows[k], rho)
            found[k] = {
                "name": i.sections[k].name,
                "flow": V,
                "end_temperature": far[k],
                "back_temperature": f.cooled(start, behind[k], flows[k], water.c),
            }
            for side, run in (("flow pipe", out[k]), ("return pipe", back[k])):
                with part(side):
                    found[k][side.replace(" ", "_")] = _hydraulics(run, V, water)
    branches, highest, longest = _branches(i, tree, found)
    needed = f.pump_pressure(highest, i.check_valve_drop, i.other_drop)
    velocities = [
        item[s]["velocity"] for item in found.values() for s in ("flow_pipe", "return_pipe")
    ]
    day = f.daily_loss(Q)
    return {
        "loss": Q,
        "flow_loss": Q_f,
        "return_loss": Q_r,
        "daily_loss": day,
        "yearly_loss": f.yearly_loss(day),
        "circulation_flow": f.volume_flow(m, rho),
        "mass_flow": m,
        "return_temperature": T_r,
        "temperature_drop": f.temperature_drop(T_out, T_r),
        "pump_pressure": needed,
        "pump_head": f.pump_head(needed, rho),
        "highest_velocity": reduce(larger, velocities),
        "branched": len(branches) > 1,
        "longest_way": longest,
        "sections": [found[k] for k in range(len(i.sections))],
        "branches": branches,
    }
