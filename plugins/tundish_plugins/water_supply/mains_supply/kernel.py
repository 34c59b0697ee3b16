"""The order of the formulas for a mains supply. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any, Final

from tundish.functions import (
    all_of,
    choose,
    drawn,
    refuse,
    require,
    root,
    smaller,
)
from tundish.working import part, silent
from tundish_plugins.water_supply import formulas as shared
from tundish_plugins.water_supply import runs
from tundish_plugins.water_supply.demand import DIN_1988_300, UNITS, demand_of
from tundish_plugins.water_supply.mains_supply import formulas as f

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.rules import Context
    from tundish_plugins.water_supply.demand import Demand
    from tundish_plugins.water_supply.mains_supply.contract import (
        MainsSupplyInputs,
        Outlet,
        Reading,
        Store,
        SupplyRun,
    )

SMALL: Final = 1e-4
"""Share of the tested flow at which a search starts: friction is nothing there."""
CURVE_PIECES: Final = 24

Way = tuple[tuple[Any, ...], ...]
"""Pipes with the flow each carries; none: that of the way."""
Valves = list[runs.AtValve]
"""Reducing valves, with the flow through each and the pressure before it."""


@dataclass(frozen=True)
class Curve:
    """The main as the test knows it."""

    p_s: float  # judged static
    dp_t: float
    q_t: float
    n_1: float
    n_2: float
    r: float

    def given(self) -> tuple[float, ...]:
        """Every number of the curve, to pass to a branch."""
        return self.p_s, self.dp_t, self.q_t, self.n_1, self.n_2, self.r

    def lower(self, q: float) -> float:
        """Pressure at the point of test, the least the readings allow."""
        x = f.greater_share(*self._shares(q))
        return f.lower_pressure(self.p_s, self.dp_t, x, f.reading_band(self.r, x))

    def upper(self, q: float) -> float:
        """Pressure at the point of test, the most the readings allow."""
        x = f.lesser_share(*self._shares(q))
        return f.upper_pressure(self.p_s, self.dp_t, x, f.reading_band(self.r, x))

    def _shares(self, q: float) -> tuple[float, float]:
        return (
            f.power_of_flow(q, self.q_t, self.n_1),
            f.power_of_flow(q, self.q_t, self.n_2),
        )


# --- the test -------------------------------------------------------------------------------------


def _flow(reading: Reading, field: str) -> float:
    if reading.flow is None:
        if reading.volume is None or reading.time is None:
            refuse("reading-flow-missing", f"{field}/flow")
        assert reading.volume is not None
        assert reading.time is not None
        return f.measured_flow(reading.volume, reading.time)
    if reading.volume is not None or reading.time is not None:
        refuse("reading-flow-given-twice", f"{field}/flow")
    return reading.flow


def _readings(i: MainsSupplyInputs) -> list[tuple[float, float]]:
    """Flow and drop of each reading; refuse what no main does."""
    found: list[tuple[float, float]] = []
    r = i.gauge_resolution
    for index, reading in enumerate(i.readings):
        field = f"/readings/{index}"
        q = _flow(reading, field)
        require(
            reading.pressure < i.static_pressure, "dynamic-not-below-static", f"{field}/pressure"
        )
        dp = f.test_drop(i.static_pressure, reading.pressure)
        require(
            dp > r * (1 + 1e-9),
            "drop-below-resolution",
            f"{field}/pressure",
            drop=(dp, "pressure_difference", "bar"),
        )
        if found:
            require(found[-1][0] < q, "readings-not-rising", f"{field}/flow")
            require(found[-1][1] < dp, "readings-contradict", f"{field}/pressure")
        found.append((q, dp))
    return found


def _curve(i: MainsSupplyInputs, c: Context) -> tuple[Curve, float | None]:
    """The supply curve, and the exponent where the readings give one."""
    readings, r = _readings(i), i.gauge_resolution
    q_t, dp_t = readings[-1]
    p_s = f.judged_static(i.static_pressure, i.static_allowance)
    if len(readings) == 1:
        low, high = c.value("mains-exponent-low"), c.value("mains-exponent-high")
        return Curve(p_s, dp_t, q_t, low, high, r), None
    (q_1, dp_1), _ = readings
    n = f.exponent(dp_1, dp_t, q_1, q_t)
    n_1 = f.least_exponent(dp_1, dp_t, q_1, q_t, r)
    n_2 = f.greatest_exponent(dp_1, dp_t, q_1, q_t, r)
    require(
        all_of(n_2 >= float(f.LEAST_EXPONENT), n_1 <= float(f.MOST_EXPONENT)),
        "readings-contradict",
        "/readings/1/pressure",
    )
    return Curve(p_s, dp_t, q_t, f.not_below_laminar(n_1), f.not_above_square(n_2), r), n


def _at_residual(curve: Curve, p_1: float) -> float:
    """Flow on the lower curve that leaves a pressure at the point of test."""

    def beyond(p_1: float, *given: float) -> float:
        p_s, dp_t, q_t, _, n_2, r = given
        return f.lower_flow_beyond(q_t, p_s, p_1, dp_t, r, n_2)

    def within(p_1: float, *given: float) -> float:
        p_s, dp_t, q_t, n_1, _, r = given
        return f.lower_flow_within(q_t, p_s, p_1, dp_t, r, n_1)

    with silent():
        drop = f.drop_to(f.least_static(curve.p_s, curve.r), p_1)
    found: float = choose(
        drop >= curve.dp_t,
        beyond,
        within,
        p_1,
        *curve.given(),
        why="the flow lies beyond the tested one",
    )
    return found


# --- the pipe -------------------------------------------------------------------------------------


def _tubes(T: float, c: Context) -> runs.Tubes:
    return runs.Tubes(c.table("water-tubes"), T, c.value("cold-tube-temperature-most"))


def _way(sections: Sequence[SupplyRun], tubes: runs.Tubes, water: runs.Water, field: str) -> Way:
    found = []
    for index, section in enumerate(sections):
        with part("section", section.name):
            pipe = runs.pipe_of(section, tubes, water, f"{field}/{index}")
        found.append((pipe, section.flow))
    return tuple(found)


def _along(way: Way, q: float, p: float, water: runs.Water) -> float:
    """Pressure at the end of a way."""
    for pipe, own in way:
        p = runs.through(pipe, q if own is None else own, p, water).p
    return p


def _rest(way: Way, standing: runs.Standing) -> runs.Standing:
    for pipe, _ in way:
        standing = standing.along(pipe)
    return standing


def _sections(
    sections: Sequence[SupplyRun],
    way: Way,
    q: float,
    p: float,
    water: runs.Water,
    field: str,
    valves: Valves,
) -> tuple[list[dict[str, Any]], float]:
    """Every section at a flow, for people, and the pressure at the end; its valves are added."""
    found = []
    for index, (section, (pipe, own)) in enumerate(zip(sections, way, strict=True)):
        flow = q if own is None else own
        with part("section", section.name):
            state = runs.through(pipe, flow, p, water)
        if pipe.valve is not None:
            where = f"{field}/{index}/reducing_valve"
            valves.append(runs.AtValve(pipe.valve, flow, state.inlet, where))
        p = state.p
        found.append(
            {
                "name": section.name,
                "flow": flow,
                "velocity": state.w,
                "reynolds": state.Re,
                "drop": state.dp,
                "pressure": p,
            }
        )
    return found, p


@dataclass(frozen=True)
class Supply:
    """The main with the pipe to the end of the supply."""

    curve: Curve
    way: Way
    water: runs.Water
    falls: float  # what the falling sections give back, Pa

    def lower(self, q: float) -> float:
        """Pressure at the end of the supply, lower curve."""
        return _along(self.way, q, self.curve.lower(q), self.water)

    def upper(self, q: float) -> float:
        """Pressure at the end of the supply, upper curve."""
        return _along(self.way, q, self.curve.upper(q), self.water)

    def bracket(self) -> tuple[float, float]:
        """Flows between which every answer lies."""
        p_s, dp_t, q_t, n_1, _, r = self.curve.given()
        return SMALL * q_t, f.search_end(q_t, p_s, self.falls, dp_t, r, n_1)

    def flow_leaving(self, p: float, *, upper: bool = False, what: str) -> float:
        """Flow that leaves a pressure at the end of the supply; 0 when even a trickle does not."""
        side = self.upper if upper else self.lower
        with silent():
            low, high = self.bracket()
            some = shared.spare(side(low), p) > 0.0

        def found(supply: tuple[Any, ...], p: float, low: float, high: float) -> float:
            curve, way, water, falls = supply
            pipes = tuple((runs.Pipe(*pipe), own) for pipe, own in way)
            here = Supply(Curve(*curve), pipes, runs.Water(*water), falls)
            there = here.upper if upper else here.lower
            return root(lambda q: shared.spare(there(q), p), low, high, what=what)

        def none(supply: tuple[Any, ...], p: float, low: float, high: float) -> float:
            del supply, p, high
            return 0.0 * low

        way = tuple((pipe.given(), own) for pipe, own in self.way)
        given = (self.curve.given(), way, (self.water.rho, self.water.mu), self.falls)
        value: float = choose(some, found, none, given, p, low, high, why="some flow is left")
        return value


def _falls(way: Way) -> float:
    """What the falls of the pipe can add, and what rises do not: an upper bound."""
    given = 0.0
    for pipe, _ in way:
        given = given - smaller(pipe.dp_z, 0.0)
    return given


# --- demand ---------------------------------------------------------------------------------------


def _design_flow(i: MainsSupplyInputs, demand: Demand | None, c: Context) -> float:
    """Flow that is to run at once."""
    marked = [k for k, outlet in enumerate(i.outlets) if outlet.at_once]
    everything = range(len(i.outlets))
    if c.method in {*UNITS, DIN_1988_300}:
        if demand is None:
            refuse("outlets-missing", "/outlets")
        if marked:
            refuse("demand-given-twice", f"/outlets/{marked[0]}/at_once")
    if c.method == DIN_1988_300:
        if i.design_flow is not None:
            refuse("demand-given-twice", "/design_flow")
        assert demand is not None
        return demand.peak_of(everything)
    if i.design_flow is None:
        if c.method in UNITS:
            assert demand is not None
            refuse("design-flow-missing", "/design_flow", units=f"{demand.units_of(everything):g}")
        if marked:
            assert demand is not None
            return demand.sum_of(marked)
        if i.store is None:
            refuse("demand-missing", "/design_flow")
        assert i.store is not None
        return i.store.required_flow
    if marked:
        refuse("demand-given-twice", f"/outlets/{marked[0]}/at_once")
    if c.method in UNITS:
        assert demand is not None
        whole = demand.sum_of(everything)
        require(
            i.design_flow <= whole * (1 + 1e-9),
            "design-flow-above-all",
            "/design_flow",
            flow=(whole, "volume_flow", "l/min"),
        )
    return i.design_flow


# --- what is behind the supply --------------------------------------------------------------------


@dataclass(frozen=True)
class Start:
    """Where the pipe to an outlet begins: both curves at the design flow, and standing."""

    p: float
    p_high: float
    standing: runs.Standing
    q: float | None = None
    """Flow of the store; none at the end of the supply."""


def _highest_static(i: MainsSupplyInputs, supply: Supply) -> runs.Standing:
    """What stands at the end of the supply at the most; known where a night was recorded."""
    curve, p_s = supply.curve, i.static_pressure
    if i.night_pressure is not None:
        require(i.night_pressure >= p_s * (1 - 1e-9), "night-below-static", "/night_pressure")
        p_s = f.highest_static(p_s, i.night_pressure)
    none = 0.0 * curve.q_t
    p = f.upper_pressure(p_s, curve.dp_t, none, f.reading_band(curve.r, none))
    return _rest(supply.way, runs.Standing(p, i.night_pressure is not None))


def _hot_at_once(i: MainsSupplyInputs, demand: Demand | None) -> float | None:
    """Flow of the outlets behind the store that are marked to run at once."""
    marked = [k for k, o in enumerate(i.outlets) if o.at_once and o.fed_by == "store"]
    return None if demand is None or not marked else demand.sum_of(marked)


def _store(
    store: Store,
    supply: Supply,
    q_d: float,
    hot: float | None,
    end: Start,
    valves: Valves,
) -> tuple[dict[str, Any], Start]:
    """What arrives at the store, and where the pipes behind it begin."""
    components = runs.components_of(store.components)
    valve = runs.valve_of(store.reducing_valve, "/store/reducing_valve")
    q_h = q_d
    if store.flow is not None:
        require(store.flow <= q_d * (1 + 1e-9), "store-flow-above-design", "/store/flow")
        if hot is not None:
            require(store.flow >= hot * (1 - 1e-9), "store-flow-below-outlet", "/store/flow")
        q_h = store.flow
    inlet = runs.through_components(components, q_h, end.p)
    p_2 = runs.after_valve(valve, q_h, inlet)
    with silent():
        p_2h = runs.after_valve(valve, q_h, runs.through_components(components, q_h, end.p_high))
    if valve is not None:
        valves.append(runs.AtValve(valve, q_h, inlet, "/store/reducing_valve"))
    standing = end.standing.behind(valve)
    told = {
        "available_flow": supply.flow_leaving(
            store.required_pressure, what="flow that leaves the store its pressure"
        ),
        "pressure": end.p,
        "outlet_pressure": p_2,
        "standing_pressure": standing.p,
        "standing_known": standing.held,
        "rating_given": store.working_pressure is not None,
    }
    return told, Start(p_2, p_2h, _heated(store, standing), q_h)


def _heated(store: Store, standing: runs.Standing) -> runs.Standing:
    """What stands behind the store as it heats up; not known without its expansion valve."""
    if store.expansion_valve is None:
        return runs.Standing(standing.p, held=False)
    return runs.Standing(shared.worst_of_hot_side(standing.p, store.expansion_valve), standing.held)


def _outlet(
    outlet: Outlet,
    q: float,
    field: str,
    i: MainsSupplyInputs,
    c: Context,
    start: Start,
    valves: Valves,
) -> dict[str, Any]:
    """What arrives at an outlet; the reducing valves on the way are added to ``valves``."""
    T = i.hot_temperature if outlet.fed_by == "store" else i.cold_temperature
    water = runs.water_at(T)
    way = _way(outlet.sections, _tubes(T, c), water, f"{field}/sections")
    for index, section in enumerate(outlet.sections):
        if section.flow is not None:
            require(
                section.flow >= q * (1 - 1e-9),
                "section-flow-too-small",
                f"{field}/sections/{index}/flow",
            )
    if start.q is not None:
        require(start.q >= q * (1 - 1e-9), "store-flow-below-outlet", "/store/flow")
    told, p = _sections(outlet.sections, way, q, start.p, water, f"{field}/sections", valves)
    with silent():
        p_h = _along(way, q, start.p_high, water)
    standing = _rest(way, start.standing)
    ratio = None
    if outlet.other_side_pressure is not None:
        require(p > 0.0, "mixer-without-pressure", f"{field}/other_side_pressure")
        ratio = shared.mixer_ratio(p, outlet.other_side_pressure)
    return {
        "name": outlet.name,
        "flow": q,
        "pressure": p,
        "pressure_high": p_h,
        "spare": shared.spare(p, outlet.required_pressure),
        "standing_pressure": standing.p,
        "standing_known": standing.held,
        "rated": outlet.most_pressure is not None,
        "mixer_ratio": ratio,
        "sections": told,
    }


def _drawing(supply: Supply, q_m: float, q_d: float, p_e: float) -> dict[str, Any]:
    flows = [SMALL * supply.curve.q_t + q_m * (k / CURVE_PIECES) for k in range(CURVE_PIECES)]
    flows.append(q_m)
    return {
        "flow": flows,
        "pressure": [supply.curve.lower(q) for q in flows],
        "pressure_high": [supply.curve.upper(q) for q in flows],
        "end_pressure": [supply.lower(q) for q in flows],
        "design_flow": [q_d, q_d],
        "design_pressure": [0.0 * p_e, p_e],
    }


def _checked(q_d: float, demand: Demand | None, i: MainsSupplyInputs, supply: Supply) -> None:
    """Refuse a design flow that is less than an outlet takes, or more than the main can give."""
    if demand is not None:
        field = "/design_flow" if i.design_flow is not None else "/outlets"
        with silent():
            most = demand.largest_of(range(len(i.outlets)))
        require(q_d >= most * (1 - 1e-9), "design-flow-below-outlet", field)
    with silent():
        limit = supply.flow_leaving(0.0 * supply.curve.p_s, upper=True, what="largest flow")
    marked = any(outlet.at_once for outlet in i.outlets)
    require(
        q_d < limit,
        "flow-beyond-supply",
        "/outlets" if marked else "/design_flow",
        flow=(limit, "volume_flow", "l/min"),
    )


def kernel(i: MainsSupplyInputs, c: Context) -> dict[str, Any]:
    """What a main gives, by a flow test, and what reaches the store and the outlets."""
    curve, n = _curve(i, c)
    p_s, dp_t, q_t, n_1, n_2, r = curve.given()
    p_1 = i.residual_pressure
    with silent():
        p_sl = f.least_static(p_s, r)
    require(p_1 < p_sl, "residual-not-below-static", "/residual_pressure")
    least = _at_residual(curve, p_1)

    cold = runs.water_at(i.cold_temperature)
    with part("at rest"):
        h_s = shared.head_of(curve.lower(0.0 * q_t), cold.rho)
    h_r = None
    if c.has("mains-reference-flow"):
        with part("at the reference flow"):
            h_r = shared.head_of(curve.lower(c.value("mains-reference-flow") + 0.0 * q_t), cold.rho)

    demand = demand_of(i.outlets, i.building, c, "/outlets") if i.outlets else None
    q_d = _design_flow(i, demand, c)
    way = _way(i.supply, _tubes(i.cold_temperature, c), cold, "/supply")
    supply = Supply(curve, way, cold, _falls(way))
    with silent():
        lowest = _rest(way, runs.Standing(curve.lower(0.0 * q_t), held=False))
    require(lowest.p > 0.0, "height-above-static", "/supply")
    _checked(q_d, demand, i, supply)

    valves: Valves = []
    with part("at the design flow"):
        p_t = curve.lower(q_d)
        sections, p_e = _sections(i.supply, way, q_d, p_t, cold, "/supply", valves)
    with silent():
        p_eh = supply.upper(q_d)
    with part("largest flow"):
        q_m = supply.flow_leaving(0.0 * p_s, what="flow that leaves nothing")
    with part("with nothing running"):
        end = Start(p_e, p_eh, _highest_static(i, supply))
    store, behind = None, None
    if i.store is not None:
        with part("store"):
            store, behind = _store(i.store, supply, q_d, _hot_at_once(i, demand), end, valves)
    outlets = []
    for index, outlet in enumerate(i.outlets):
        assert demand is not None
        start = end
        if outlet.fed_by == "store":
            if behind is None:
                refuse("store-missing", f"/outlets/{index}/fed_by")
            assert behind is not None
            start = behind
        with part("outlet", outlet.name):
            outlets.append(
                _outlet(
                    outlet,
                    demand.flows[index],
                    f"/outlets/{index}",
                    i,
                    c,
                    start,
                    valves,
                )
            )
    everything = range(len(i.outlets))
    return {
        "tested_flow": q_t,
        "tested_drop": dp_t,
        "drop_share": f.drop_share(dp_t, i.static_pressure),
        "exponent": n,
        "exponent_low": n_1,
        "exponent_high": n_2,
        "coefficient": f.coefficient(dp_t, q_t, n_2),
        "static_head": h_s,
        "reference_head": h_r,
        "flow_at_residual": least,
        "flow_by_high_exponent": f.flow_at_residual(q_t, p_s, p_1, dp_t, n_2),
        "flow_by_low_exponent": f.flow_at_residual(q_t, p_s, p_1, dp_t, n_1),
        "demand": None
        if demand is None
        else {
            "all_outlets": demand.sum_of(everything),
            "largest_outlet": demand.largest_of(everything),
            "loading_units": demand.units_of(everything),
            "units_in_force": demand.in_force,
        },
        "design_flow": q_d,
        "known_flow": f.known_flow(q_t, c.value("mains-extrapolation-most")),
        "test_pressure": p_t,
        "end_pressure": p_e,
        "end_pressure_high": p_eh,
        "largest_flow": q_m,
        "valves_within_chart": runs.within_charts(valves),
        "valves_known": runs.open_known(valves),
        "supply_valves_known": all(
            pipe.valve is None or pipe.valve[3] is not None for pipe, _ in way
        ),
        "least_spare": reduce(smaller, [item["spare"] for item in outlets]) if outlets else None,
        "supply": sections,
        "store": store,
        "outlets": outlets,
        "curve": drawn(_drawing, supply, q_m, q_d, p_e),
    }
