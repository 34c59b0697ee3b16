"""The order of the formulas for balancing radiators. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import choose, pick, refuse, require, root
from tundish.physics import radiators
from tundish.physics.pumps import curve_of, head_of, pressure_of, pump_head
from tundish.working import part
from tundish_plugins.networks import Tree, tree_of
from tundish_plugins.sealed_heating import fluids
from tundish_plugins.sealed_heating.balancing import formulas as f
from tundish_plugins.sealed_heating.balancing.solver import Drive, Network
from tundish_plugins.sealed_heating.content import Content, content_of
from tundish_plugins.sealed_heating.piping import formulas as h
from tundish_plugins.sealed_heating.piping import losses as loss

if TYPE_CHECKING:
    from tundish.physics.pumps import Points
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.balancing.contract import (
        Radiator,
        RadiatorBalancingInputs,
        Valve,
    )
    from tundish_plugins.sealed_heating.piping.losses import Pipe, SectionLoss

ARITHMETIC = "arithmetic-mean"
_SETTLED = 1e-9
_COOLED = 700.0  # logarithm of the ratio of excess temperatures: the return is at room temperature
_WARM = 1e-7


@dataclass(frozen=True)
class System:
    """Tree, pipes and design."""

    i: RadiatorBalancingInputs
    tree: Tree
    pipes: list[Pipe]
    content: Content
    drops: list[float]  # temperature differences of the radiators
    flows: list[float]
    section_flows: list[float]
    lost: list[SectionLoss]
    arithmetic: bool


def _temperatures(i: RadiatorBalancingInputs) -> list[float]:
    """Temperature difference of every radiator; refuses what cannot heat its room."""
    drops = []
    for index, radiator in enumerate(i.radiators):
        own = radiator.temperature_drop
        drop = i.temperature_drop if own is None else own
        require(
            i.flow_temperature > radiator.room_temperature,
            "flow-colder-than-room",
            "/flow_temperature",
            radiator=radiator.name,
        )
        with part("radiator", radiator.name):
            T_r = h.return_temperature(i.flow_temperature, drop)
        field = "/temperature_drop" if own is None else f"/radiators/{index}/temperature_drop"
        require(
            T_r > radiator.room_temperature,
            "return-colder-than-room",
            field,
            radiator=radiator.name,
        )
        drops.append(drop)
    return drops


def _check_valve(valve: Valve, field: str) -> None:
    points = valve.points
    for k in range(1, len(points)):
        rises = points[k - 1].setting < points[k].setting
        require(rises, "valve-points-not-rising", f"{field}/points/{k}/setting")
        require(
            points[k - 1].kv < points[k].kv, "valve-points-not-rising", f"{field}/points/{k}/kv"
        )
    if valve.set_to is not None:
        within = (valve.set_to >= points[0].setting) & (valve.set_to <= points[-1].setting)
        require(within, "setting-outside-valve", f"{field}/set_to")


def _system(i: RadiatorBalancingInputs, c: Context) -> System:
    """Read the tree and give every radiator and section its design flow."""
    if i.pump_curve is not None and i.available_pressure is not None:
        refuse("pressure-given-twice", "/available_pressure")
    tree = tree_of(
        i.sections,
        i.origin,
        [radiator.node for radiator in i.radiators],
        leaves="/radiators",
        unconnected="radiator-unconnected",
    )
    drops = _temperatures(i)
    content = content_of(i, h.mean_temperature(i.flow_temperature, i.temperature_drop))
    fittings = c.table("heating-fitting-losses")
    pipes_ = []
    for index, section in enumerate(i.sections):
        with part("section", section.name):
            pipes_.append(
                loss.pipe_of(section, fittings, "loss_coefficient", c, f"/sections/{index}")
            )
    flows = []
    for index, radiator in enumerate(i.radiators):
        field = f"/radiators/{index}"
        loss.check_components(radiator.components, f"{field}/components")
        _check_valve(radiator.valve, f"{field}/valve")
        with part("radiator", radiator.name):
            flows.append(
                h.flow_of_power(radiator.heat_load, content.rho, content.c_p, drops[index])
            )
    section_flows = []
    for index, section in enumerate(i.sections):
        with part("section", section.name):
            section_flows.append(h.together([flows[k] for k in tree.served[index]]))
    lost = loss.through(i.sections, pipes_, section_flows, content)
    arithmetic = c.method == ARITHMETIC
    return System(i, tree, pipes_, content, drops, flows, section_flows, lost, arithmetic)


# --- valves ---------------------------------------------------------------------------------------

Line = tuple[list[Any], list[Any]]
"""Settings and Kv of a valve."""


def _line(valve: Valve) -> Line:
    return [point.setting for point in valve.points], [point.kv for point in valve.points]


def _setting(K: float, settings: list[Any], kvs: list[Any]) -> float:
    """Setting for a Kv within the valve's range."""

    def first(K: float, settings: list[Any], kvs: list[Any]) -> float:
        return f.setting_between(K, settings[0], kvs[0], settings[1], kvs[1])

    def later(K: float, settings: list[Any], kvs: list[Any]) -> float:
        return _setting(K, settings[1:], kvs[1:])

    if len(kvs) == 2:
        return first(K, settings, kvs)
    found: float = choose(K <= kvs[1], first, later, K, settings, kvs)
    return found


def _kv(s: float, settings: list[Any], kvs: list[Any]) -> float:
    """Kv at a setting within the valve's range."""

    def first(s: float, settings: list[Any], kvs: list[Any]) -> float:
        return f.kv_between(s, settings[0], kvs[0], settings[1], kvs[1])

    def later(s: float, settings: list[Any], kvs: list[Any]) -> float:
        return _kv(s, settings[1:], kvs[1:])

    if len(kvs) == 2:
        return first(s, settings, kvs)
    found: float = choose(s <= settings[1], first, later, s, settings, kvs)
    return found


def _needed(system: System) -> tuple[list[dict[str, Any]], float, Any, list[Any]]:
    """What every valve has to take away: rows, index loss, name of the index radiator, Kv set."""
    rho = system.content.rho
    rows: list[dict[str, Any]] = []
    for index, radiator in enumerate(system.i.radiators):
        with part("radiator", radiator.name):
            V = system.flows[index]
            way = h.in_series([system.lost[k].dp for k in system.tree.paths[index]])
            own = loss.components_loss(radiator.components, V, rho)
            open_ = h.kv_loss(V, radiator.valve.points[-1].kv, rho)
            rows.append(
                {
                    "name": radiator.name,
                    "flow": V,
                    "pipes": way,
                    "own": own,
                    "open_total": h.in_series([way, own, open_]),
                }
            )
    worst = reduce(f.index_loss, [row["open_total"] for row in rows])
    name: Any = rows[-1]["name"]
    kvs = []
    for row, radiator in reversed(list(zip(rows, system.i.radiators, strict=True))):
        settings, points = _line(radiator.valve)
        with part("radiator", radiator.name):
            row["index"] = row["open_total"] >= worst
            name = pick(row["index"], row["name"], name)
            row["valve"] = f.left_for_valve(worst, row["pipes"], row["own"])
            row["kv_needed"] = f.kv_needed(row["flow"], row["valve"], rho)
            row["valve_least"] = points[0]
            K = f.kv_set(row["kv_needed"], points[0], points[-1])
            row["setting"] = _setting(K, settings, points)
            kvs.append(K)
    return rows, worst, name, kvs[::-1]


# --- flows that settle ----------------------------------------------------------------------------


def _drive(i: RadiatorBalancingInputs, content: Content, worst: float) -> Drive:
    """Pressure that is held, or a pump."""
    if i.pump_curve is None:
        return Drive(worst if i.available_pressure is None else i.available_pressure, None)
    flows, heads = curve_of(i.pump_curve, "/pump_curve", level=True)
    return Drive(None, (flows, [pressure_of(H, content.rho) for H in heads]))


def _within(V: float, points: Points) -> None:
    flow = (V, "volume_flow", "m3/h")
    require(V >= points[0][0], "below-pump-curve", "/pump_curve", flow=flow)
    require(V <= points[0][-1], "beyond-pump-curve", "/pump_curve", flow=flow)


def _radiator(
    system: System, index: int, radiator: Radiator, V: float, reference: tuple[float, float]
) -> dict[str, Any]:
    """Return and output of a radiator at a flow."""
    content, T_f, T_i = system.content, system.i.flow_temperature, radiator.room_temperature
    Q_0, dT_0 = reference
    excess = f.arithmetic_by_ratio if system.arithmetic else f.logarithmic_by_ratio

    def left(y: float) -> float:
        return f.heat_left(V, content.rho, content.c_p, T_f, T_i, y)

    def gap(y: float) -> float:
        factor = radiators.output_factor(excess(T_f, T_i, y), dT_0, radiator.exponent)
        return f.heat_gap(left(y), f.output(Q_0, factor))

    y = root(
        gap,
        _WARM,
        _COOLED,
        what="logarithm of the ratio of excess temperatures",
        code="mean-too-crude",
        field=f"/radiators/{index}",
    )
    drop = f.temperature_drop(T_f, T_i, y)
    return {
        "flow": V,
        "share": f.share(V, system.flows[index]),
        "return_temperature": h.return_temperature(T_f, drop),
        "temperature_drop": drop,
        "output": left(y),
    }


def _reference(system: System, index: int, radiator: Radiator) -> tuple[float, float]:
    """Output and excess temperature that a radiator's characteristic goes through."""
    mean = radiators.arithmetic_excess if system.arithmetic else radiators.logarithmic_excess
    if radiator.rated_output is not None:
        return radiator.rated_output, mean(
            float(f.RATED_FLOW), float(f.RATED_RETURN), float(f.RATED_ROOM)
        )
    T_f = system.i.flow_temperature
    T_r = h.return_temperature(T_f, system.drops[index])
    return radiator.heat_load, mean(T_f, T_r, radiator.room_temperature)


def _state(
    system: System, drive: Drive, kvs: list[Any], references: list[tuple[float, float]]
) -> tuple[list[dict[str, Any]], dict[str, Any]]:
    """Flows with the valves in one position, and what the radiators make of them."""
    i, tree, rho = system.i, system.tree, system.content.rho
    branches = []
    for index, radiator in enumerate(i.radiators):
        with part("radiator", radiator.name):
            V = system.flows[index]
            own = loss.components_loss(radiator.components, V, rho)
            valve = h.kv_loss(V, kvs[index], rho)
            branches.append(f.resistance(h.in_series([own, valve]), V))
    squares = []
    for section, each, V in zip(i.sections, system.lost, system.section_flows, strict=True):
        with part("section", section.name):
            squares.append(f.resistance(h.in_series([each.fittings, each.components]), V))
    settled = Network(tree, system.pipes, system.content, squares, branches).settle(
        drive, system.section_flows
    )
    require(settled.moved <= _SETTLED, "no-solution", "/sections")
    if drive.points is not None:
        _within(settled.flow, drive.points)
    drops = []
    for section, R, V in zip(i.sections, settled.resistances, settled.section_flows, strict=True):
        with part("section", section.name):
            drops.append(f.loss_of_resistance(R, V))
    rows = []
    for index, radiator in enumerate(i.radiators):
        with part("radiator", radiator.name):
            way = h.in_series([drops[k] for k in tree.paths[index]])
            V = f.flow_through(settled.pressure, way, branches[index])
            rows.append(
                {"kv": kvs[index], **_radiator(system, index, radiator, V, references[index])}
            )
    flows = [row["flow"] for row in rows]
    return rows, {
        "pressure": settled.pressure,
        "flow": h.together(flows),
        "return_temperature": f.mixed_return(flows, [row["return_temperature"] for row in rows]),
        "output": f.together([row["output"] for row in rows]),
        "least_share": reduce(f.least_share, [row["share"] for row in rows]),
    }


def _found(system: System) -> list[Any]:
    """Kv of every valve as it stands; fully open where nothing is stated."""
    kvs = []
    for radiator in system.i.radiators:
        with part("radiator", radiator.name):
            s = radiator.valve.set_to
            kvs.append(
                radiator.valve.points[-1].kv + 0.0 * system.flows[0]
                if s is None
                else _kv(s, *_line(radiator.valve))
            )
    return kvs


def kernel(i: RadiatorBalancingInputs, c: Context) -> dict[str, Any]:
    """Design flows and settings of radiators, and what flows before and after they are set."""
    if i.fluid != "water":
        require(i.flow_temperature <= fluids.HOTTEST, "glycol-too-hot", "/flow_temperature")
    system = _system(i, c)
    content = system.content
    rows, worst, name, kvs = _needed(system)
    V = h.together(system.flows)
    drive = _drive(i, content, worst)
    there = i.available_pressure
    if drive.points is not None:
        assert i.pump_curve is not None
        _within(V, drive.points)
        heads = [point.head for point in i.pump_curve]
        there = pressure_of(pump_head(V, drive.points[0], heads), content.rho)
    references = []
    for index, radiator in enumerate(i.radiators):
        with part("radiator", radiator.name):
            references.append(_reference(system, index, radiator))
    with part("valves", "as found"):
        found, before = _state(system, drive, _found(system), references)
    with part("valves", "balanced"):
        balanced, after = _state(system, drive, kvs, references)
    for row, one, other in zip(rows, found, balanced, strict=True):
        row["as_found"], row["balanced"] = one, other
    returns = [h.return_temperature(i.flow_temperature, drop) for drop in system.drops]
    return {
        "density": content.rho,
        "total_flow": V,
        "return_temperature": f.mixed_return(system.flows, returns),
        "index_radiator": name,
        "required_pressure": worst,
        "required_head": head_of(worst, content.rho),
        "pressure_at_design": there,
        "settings_stated": any(item.valve.set_to is not None for item in i.radiators),
        "radiators": rows,
        "as_found": before,
        "balanced": after,
    }
