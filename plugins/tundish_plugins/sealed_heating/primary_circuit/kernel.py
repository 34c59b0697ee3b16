"""The order of the formulas for a primary circuit. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, larger, pick, refuse, require, root
from tundish.physics import pipes
from tundish.physics.pumps import curve_of, head_of, pressure_of, pump_head, spare_head
from tundish.working import part, silent
from tundish_plugins.networks import Tree, tree_of
from tundish_plugins.sealed_heating import fluids
from tundish_plugins.sealed_heating.content import Content, content_of
from tundish_plugins.sealed_heating.piping import formulas as h
from tundish_plugins.sealed_heating.piping import losses as loss
from tundish_plugins.sealed_heating.primary_circuit import formulas as f

if TYPE_CHECKING:
    from tundish.physics.pumps import Points
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.piping.losses import Named, Pipe, SectionLoss
    from tundish_plugins.sealed_heating.primary_circuit.contract import (
        Closing,
        Header,
        PrimaryCircuitInputs,
    )

LENGTHS = "equivalent-lengths"
CURVE_PIECES = 24
SMALL = 1e-3
"""Share of a flow at which a search starts: friction is nothing there."""
_FREEZING = 273.15
_FASTEST = 20.0  # m/s: at any bore, friction there is far beyond every gradient in use


@dataclass(frozen=True)
class Circuit:
    """The tree with its design flows."""

    i: PrimaryCircuitInputs
    tree: Tree
    pipes: list[Pipe]
    content: Content
    flows: list[float]  # of the loads
    section_flows: list[float]
    V: float
    boiler_counts: bool

    def boiler_loss(self, V: float) -> float:
        """Loss of the boiler, where it is this pump that drives it."""
        found = [] if self.i.boiler is None or not self.boiler_counts else self.i.boiler.components
        return loss.components_loss(found, V, self.content.rho)

    def pipes_loss(self, lost: list[SectionLoss], index: int) -> float:
        """Loss of the sections on the way to a load."""
        return h.in_series([lost[k].dp for k in self.tree.paths[index]])

    def network_loss(self, V: float) -> float:
        """Loss of the index circuit without the boiler when the whole flow is another."""
        flows = [f.scaled(V_i, V, self.V) for V_i in self.section_flows]
        lost = [
            loss.loss_of(V_i, pipe, self.content)
            for V_i, pipe in zip(flows, self.pipes, strict=True)
        ]
        totals = [
            f.both(
                self.pipes_loss(lost, index),
                loss.components_loss(
                    load.components, f.scaled(self.flows[index], V, self.V), self.content.rho
                ),
            )
            for index, load in enumerate(self.i.loads)
        ]
        return reduce(f.index_loss, totals)

    def head(self, V: float) -> float:
        """Head that the whole circuit needs at a flow above nothing."""
        return head_of(f.both(self.network_loss(V), self.boiler_loss(V)), self.content.rho)


def _temperatures(i: PrimaryCircuitInputs) -> float:
    """Mean temperature of the water; refuses a return that would freeze."""
    if i.fluid != "water":
        require(i.flow_temperature <= fluids.HOTTEST, "glycol-too-hot", "/flow_temperature")
    T_r = h.return_temperature(i.flow_temperature, i.temperature_drop)
    require(T_r > _FREEZING, "return-below-freezing", "/temperature_drop")
    for index, load in enumerate(i.loads):
        if load.temperature_drop is not None:
            require(
                i.flow_temperature - load.temperature_drop > _FREEZING,
                "return-below-freezing",
                f"/loads/{index}/temperature_drop",
            )
    return h.mean_temperature(i.flow_temperature, i.temperature_drop)


def _structure(i: PrimaryCircuitInputs) -> bool:
    """Refuse what contradicts itself; say whether this pump drives the boiler."""
    boiler = i.boiler
    if boiler is not None:
        loss.check_components(boiler.components, "/boiler/components")
    for index, load in enumerate(i.loads):
        loss.check_components(load.components, f"/loads/{index}/components")
    if i.header is not None:
        if boiler is not None and boiler.components:
            refuse("boiler-beyond-header", "/boiler/components")
        if i.closing is not None:
            refuse("boiler-beyond-header", "/closing")
    counted = i.pump is not None and i.pump.curve_is == "left-by-the-boiler"
    if counted and boiler is not None and boiler.components:
        refuse("boiler-loss-counted-twice", "/boiler/components")
    if counted and i.header is not None:
        refuse("boiler-beyond-header", "/pump/curve_is")
    if i.closing is not None and (boiler is None or boiler.least_flow is None):
        refuse("least-flow-missing", "/boiler")
    return not counted


def _circuit(i: PrimaryCircuitInputs, c: Context) -> Circuit:
    """Read tree and pipes, and give every section its design flow."""
    boiler_counts = _structure(i)
    tree = tree_of(
        i.sections,
        i.origin,
        [load.node for load in i.loads],
        leaves="/loads",
        unconnected="load-unconnected",
    )
    content = content_of(i, _temperatures(i))
    by_length = c.method == LENGTHS
    fittings = c.table("heating-fitting-lengths" if by_length else "heating-fitting-losses")
    column = "length" if by_length else "loss_coefficient"
    pipes_ = []
    for index, section in enumerate(i.sections):
        with part("section", section.name):
            pipes_.append(loss.pipe_of(section, fittings, column, c, f"/sections/{index}"))
    flows = []
    for load in i.loads:
        with part("load", load.name):
            drop = i.temperature_drop if load.temperature_drop is None else load.temperature_drop
            flows.append(h.flow_of_power(load.power, content.rho, content.c_p, drop))
    section_flows = []
    for index, section in enumerate(i.sections):
        with part("section", section.name):
            section_flows.append(h.together([flows[k] for k in tree.served[index]]))
    V = h.together(flows)
    return Circuit(i, tree, pipes_, content, flows, section_flows, V, boiler_counts)


def _most_power(pipe: Pipe, circuit: Circuit) -> float:
    """Heat that a pipe carries at the usual gradient."""
    content = circuit.content

    def gap(V: float) -> float:
        w = pipes.velocity(V, pipe.d)
        factor = pipes.friction_factor(
            pipes.reynolds_number(w, pipe.d, content.rho, content.mu), pipe.eps
        )
        return f.gradient_gap(
            pipes.friction_gradient(factor, pipe.d, content.rho, w), circuit.i.gradient_limit
        )

    most = _FASTEST * (pipes.PI / 4) * pipe.d**2
    V = root(gap, 1e-6 * most, most, what="flow at the usual gradient")
    return h.power_of_flow(V, content.rho, content.c_p, circuit.i.temperature_drop)


def _in_use(w: float, pump: dict[str, Any] | None) -> float:
    """Velocity that is heard: at the duty point where the pump drives more than the design flow."""
    return w if pump is None else f.driven(w, pump["duty_over_design"])


def _alternative(named: Named | None, circuit: Circuit, index: int) -> dict[str, Any] | None:
    """What another tube would do in a section."""
    if named is None:
        return None
    tube, pipe = named
    with silent():
        each = loss.loss_of(circuit.section_flows[index], pipe, circuit.content)
    return {"tube": tube, "velocity": each.w, "gradient": each.R, "drop": each.dp}


def _sections(
    circuit: Circuit,
    lost: list[SectionLoss],
    whole: float,
    pump: dict[str, Any] | None,
    c: Context,
) -> list[dict[str, Any]]:
    found = []
    for index, (section, pipe, each) in enumerate(
        zip(circuit.i.sections, circuit.pipes, lost, strict=True)
    ):
        larger_tube, smaller_tube = loss.beside(pipe, section, c)
        with part("section", section.name):
            Q = f.power_together([circuit.i.loads[k].power for k in circuit.tree.served[index]])
            found.append(
                {
                    "name": section.name,
                    "material": pipe.material,
                    "bore": pipe.d,
                    "power": Q,
                    "flow": circuit.section_flows[index],
                    "velocity": each.w,
                    "velocity_in_use": _in_use(each.w, pump),
                    "reynolds": each.Re,
                    "transitional": each.unsettled,
                    "copper": pipe.copper,
                    "gradient": each.R,
                    "friction": each.friction,
                    "fittings": each.fittings,
                    "components": each.components,
                    "drop": each.dp,
                    "share": f.share(each.dp, whole),
                    "most_power": _most_power(pipe, circuit),
                    "larger": _alternative(larger_tube, circuit, index),
                    "smaller": _alternative(smaller_tube, circuit, index),
                }
            )
    return found


def _circuits(circuit: Circuit, lost: list[SectionLoss]) -> tuple[list[dict[str, Any]], float, Any]:
    """The way to every load, the largest loss, and the name of the load that has it."""
    found: list[dict[str, Any]] = []
    for index, load in enumerate(circuit.i.loads):
        with part("load", load.name):
            way = circuit.pipes_loss(lost, index)
            own = loss.components_loss(load.components, circuit.flows[index], circuit.content.rho)
            found.append(
                {
                    "name": load.name,
                    "flow": circuit.flows[index],
                    "pipes": way,
                    "own": own,
                    "total": f.both(way, own),
                }
            )
    worst = reduce(f.index_loss, [item["total"] for item in found])
    name: Any = found[-1]["name"]
    for item in reversed(found):
        item["surplus"] = f.surplus(worst, item["total"])
        item["index"] = item["total"] >= worst
        name = pick(item["index"], item["name"], name)
    return found, worst, name


def _points(i: PrimaryCircuitInputs, V: float) -> Points:
    """Read the pump's curve; the design flow lies within it."""
    assert i.pump is not None
    points = curve_of(i.pump.points, "/pump/points", level=True)
    _within(V, points)
    return points


def _within(V: float, points: Points) -> None:
    flow = (V, "volume_flow", "m3/h")
    require(V >= points[0][0], "below-pump-curve", "/pump/points", flow=flow)
    require(V <= points[0][-1], "beyond-pump-curve", "/pump/points", flow=flow)


def _pump(circuit: Circuit, points: Points, H: float) -> dict[str, Any]:
    """Design point and duty point of the pump."""
    H_p = pump_head(circuit.V, *points)

    def spare(V: float) -> float:
        return spare_head(pump_head(V, *points), circuit.head(V))

    first = larger(points[0][0], SMALL * points[0][-1])
    code, field = "beyond-pump-curve", "/pump/points"
    flow = (points[0][-1], "volume_flow", "m3/h")
    ends = points[1][-1] <= circuit.head(points[0][-1])
    require(ends, code, field, flow=flow)
    starts = pump_head(first, *points) >= circuit.head(first)
    require(starts, "below-pump-curve", field, flow=(first, "volume_flow", "m3/h"))
    V_d = root(spare, first, points[0][-1], what="duty flow")
    return {
        "head_at_design": H_p,
        "surplus_head": spare_head(H_p, H),
        "duty_flow": V_d,
        "duty_head": pump_head(V_d, *points),
        "duty_over_design": f.flow_ratio(V_d, circuit.V),
    }


def _closing(
    circuit: Circuit, closing: Closing, points: Points | None, V_d: float, T_r: float
) -> dict[str, Any]:
    """What the boiler gets when the valves close."""
    boiler = circuit.i.boiler
    assert boiler is not None
    assert boiler.least_flow is not None
    V_b = f.bypass_flow(boiler.least_flow, closing.open_flow)
    left = None
    if points is not None:
        V_c = h.together([closing.open_flow, V_b])
        _within(V_c, points)
        left = f.surplus(
            pressure_of(pump_head(V_c, *points), circuit.content.rho), circuit.boiler_loss(V_c)
        )
    return {
        "bypass_fitted": closing.bypass_setting is not None,
        "bypass_needed": V_b > 0.0,
        "bypass_flow": V_b,
        "return_temperature": h.mixed(closing.open_flow, T_r, V_b, circuit.i.flow_temperature),
        "pressure_open": circuit.network_loss(V_d),
        "pressure_closed": left,
    }


def _header(header: Header, V_s: float, T_sr: float) -> dict[str, Any]:
    """Mixing in a low-loss header: what one side has too much returns on the same side."""
    T_b = header.boiler_flow_temperature
    require(T_b > T_sr, "header-colder-than-return", "/header/boiler_flow_temperature")
    V_x = f.straight_through(header.primary_flow, V_s)
    T_sf = h.mixed(V_x, T_b, f.rest(V_s, V_x), T_sr)
    T_pr = h.mixed(V_x, T_sr, f.rest(header.primary_flow, V_x), T_b)
    return {
        "flow_ratio": f.flow_ratio(header.primary_flow, V_s),
        "secondary_flow_temperature": T_sf,
        "primary_return_temperature": T_pr,
        "return_lift": f.warmer(T_pr, T_sr),
        "flow_shortfall": f.warmer(T_b, T_sf),
    }


def _curve(circuit: Circuit, points: Points | None) -> dict[str, Any]:
    V_end = 1.5 * circuit.V if points is None else points[0][-1]
    V_0 = SMALL * V_end if points is None else larger(points[0][0], SMALL * V_end)
    V = [V_0 + (V_end - V_0) * (k / CURVE_PIECES) for k in range(CURVE_PIECES)] + [V_end]
    return {
        "flow": V,
        "circuit_head": [circuit.head(item) for item in V],
        "pump_head": None if points is None else [pump_head(item, *points) for item in V],
    }


def kernel(i: PrimaryCircuitInputs, c: Context) -> dict[str, Any]:
    """Losses of a circuit at its design flow, its index circuit, and what its pump makes of it."""
    circuit = _circuit(i, c)
    content, V = circuit.content, circuit.V
    lost = loss.through(i.sections, circuit.pipes, circuit.section_flows, content)
    circuits, worst, name = _circuits(circuit, lost)
    dp_b = circuit.boiler_loss(V)
    whole = f.both(worst, dp_b)
    H = head_of(whole, content.rho)
    Q = f.power_together([load.power for load in i.loads])
    T_r = f.return_of_all(i.flow_temperature, Q, V, content.rho, content.c_p)
    points = None if i.pump is None else _points(i, V)
    pump = None if points is None else _pump(circuit, points, H)
    closing = None
    if i.closing is not None:
        closing = _closing(
            circuit, i.closing, points, V if pump is None else pump["duty_flow"], T_r
        )
    return {
        "density": content.rho,
        "viscosity": content.mu,
        "specific_heat": content.c_p,
        "total_power": Q,
        "total_flow": V,
        "mass_flow": f.mass_flow(V, content.rho),
        "return_temperature": T_r,
        "boiler_flow": V if i.header is None else i.header.primary_flow,
        "index_circuit": name,
        "boiler_loss": dp_b,
        "required_pressure": whole,
        "required_head": H,
        "sections": _sections(circuit, lost, whole, pump, c),
        "circuits": circuits,
        "pump": pump,
        "closing": closing,
        "header": None if i.header is None else _header(i.header, V, T_r),
        "curve": drawn(_curve, circuit, points),
    }
