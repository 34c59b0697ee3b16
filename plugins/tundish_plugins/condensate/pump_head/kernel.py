"""The order of the formulas for a condensate pump. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import (
    all_of,
    any_of,
    choose,
    drawn,
    not_,
    refuse,
    require,
    root,
    smaller,
)
from tundish.physics import pipes
from tundish.physics.hydrostatics import head_of_pressure
from tundish.physics.pumps import Points, curve_of, pump_head, spare_head
from tundish.physics.water import (
    density,
    dynamic_viscosity,
    saturation_pressure,
    specific_heat,
)
from tundish.working import silent
from tundish_plugins.condensate.pump_head import formulas as f
from tundish_plugins.water_supply.elasticity import water_expansion

if TYPE_CHECKING:
    from collections.abc import Callable

    from tundish.leaves import Based
    from tundish.rules import Context
    from tundish_plugins.condensate.pump_head.contract import PumpHeadInputs, Relief

SMALL = 1e-8
"""Share of a flow at which a search starts: friction is nothing there."""
CURVE_PIECES = 24
_HOT_WATER = 368.15  # 95 degC: relief water before it flashes; 4 % lighter than cold
_BOILING = (373.15, 470.0)  # 0 to 14 bar gauge

Tube = tuple[Any, ...]
"""Bore, length, relative roughness, loss coefficients, density, viscosity, lift; then the bed."""


def _ceiling(heat_input: Based, c: Context) -> float:
    return f.inflow(c.value(f"condensate-yield-{heat_input.basis}"), heat_input.value)


def _inflow(i: PumpHeadInputs, c: Context) -> float:
    """Condensate: as given, or the most the heat input can make."""
    if i.inflow is not None:
        if i.heat_input is not None:
            refuse("inflow-given-twice", "/inflow")
        return i.inflow
    if i.heat_input is None:
        refuse("inflow-missing", "/inflow")
    assert i.heat_input is not None
    return _ceiling(i.heat_input, c)


def _points(i: PumpHeadInputs) -> Points:
    """Read the pump's curve; it starts at no flow."""
    points = curve_of(i.pump_curve, "/pump_curve")
    require(points[0][0] == 0.0, "pump-curve-no-shut-off", "/pump_curve/0/flow")
    return points


def _laminar(Re: float, eps: float) -> float:
    del eps
    return pipes.laminar_friction(Re)


def _system_head(V: float, tube: Tube, law: Callable[[float, float], float]) -> float:
    """Head that the tube asks for at a flow above nothing."""
    d, L, eps, zeta, rho, mu, lift, bed = tube
    w = pipes.velocity(V, d)
    factor = law(pipes.reynolds_number(w, d, rho, mu), eps)
    lost = head_of_pressure(
        pipes.friction_drop(factor, L, d, rho, w), pipes.fittings_drop(zeta, rho, w), rho
    )
    H = f.system_head(lift, lost)
    return H if bed is None else f.with_bed(H, _bed(V, bed, rho, mu)[0])


def _bed(V: float, bed: tuple[Any, ...], rho: float, mu: float) -> tuple[float, float]:
    """Head that a clean bed asks for, and the velocity in it."""
    L_b, D_b, d_p, e = bed
    w = f.bed_velocity(V, D_b)
    return f.bed_head(f.bed_drop(L_b, d_p, e, mu, rho, w), rho), w


def _spare(V: float, points: Points, tube: Tube, law: Callable[[float, float], float]) -> float:
    return spare_head(pump_head(V, *points), _system_head(V, tube, law))


def _laminar_duty(V_t: float, V_2000: float, V_end: float, points: Points, tube: Tube) -> float:
    del V_2000, V_end
    return root(
        lambda V: _spare(V, points, tube, _laminar), SMALL * V_t, V_t, what="duty flow, laminar"
    )


def _upper_duty(V_t: float, V_2000: float, V_end: float, points: Points, tube: Tube) -> float:
    del V_t
    return root(
        lambda V: _spare(V, points, tube, pipes.friction_beyond_laminar),
        V_2000,
        V_end,
        what="duty flow",
    )


def _at_2000(V_t: float, V_2000: float, V_end: float, points: Points, tube: Tube) -> float:
    del V_t, V_end, points, tube
    return V_2000


def _least_duty(V_t: float, V_2000: float, V_end: float, points: Points, tube: Tube) -> float:
    """Flow with the larger friction, where laminar flow breaks up.

    Re 50 is low enough: hot water, at most six times as thin, reaches Re 2000 only where cold water
    comes to 2000/6².
    """
    del V_end
    return root(
        lambda V: _spare(V, points, tube, pipes.unsettled_friction),
        V_2000 / 40,
        V_t,
        what="duty flow with the larger friction",
    )


def _breaks_up(points: Points, tube: Tube) -> Any:
    """Whether laminar flow gives way before the duty is reached, within the pump's curve."""
    d, _, _, _, rho, mu, _, _ = tube
    V_2000 = pipes.flow_at_reynolds(pipes.LAMINAR_UP_TO, d, rho, mu)
    V_end = points[0][-1]
    spare = _spare(smaller(V_2000, V_end), points, tube, _laminar)
    return all_of(V_2000 < V_end, spare > 0.0)


def _duty(points: Points, tube: Tube, warm: Tube) -> tuple[float, float, Any]:
    """Duty flow, the flow its margin is judged on, and whether it is uncertain.

    Warmer water is thinner: it flows faster, unless that breaks up flow that is laminar when cold.
    """
    d, _, _, _, rho, mu, _, _ = tube
    V_2000 = pipes.flow_at_reynolds(pipes.LAMINAR_UP_TO, d, rho, mu)
    V_end = points[0][-1]
    with silent():
        V_t = smaller(V_2000, V_end)
        laminar = _spare(V_t, points, tube, _laminar) <= 0.0
        above = _spare(V_t, points, tube, pipes.unsettled_friction) >= 0.0
        ends = _spare(V_end, points, tube, pipes.friction_factor) <= 0.0
        thinner = _breaks_up(points, warm)
    turbulent = all_of(V_2000 < V_end, any_of(not_(above), ends))
    require(any_of(laminar, turbulent), "beyond-pump-curve", "/pump_curve")
    jump = all_of(not_(laminar), not_(above))
    given = (V_t, V_2000, V_end, points, tube)
    V_p = _duty_flow(laminar, jump, given)
    uncertain = any_of(jump, all_of(laminar, thinner))
    V_j = _judged(uncertain, V_p, given)
    return V_p, V_j, uncertain


def _duty_flow(laminar: Any, jump: Any, given: tuple[Any, ...]) -> float:
    def lower(*args: Any) -> float:
        return _laminar_duty(*args[:-1])

    def upper(*args: Any) -> float:
        found: float = choose(
            args[-1],
            _at_2000,
            _upper_duty,
            *args[:-1],
            why="pump and tube meet where laminar flow breaks up",
        )
        return found

    found: float = choose(
        laminar, lower, upper, *given, jump, why="the duty point lies in laminar flow"
    )
    return found


def _judged(uncertain: Any, V_p: float, given: tuple[Any, ...]) -> float:
    def least(*args: Any) -> float:
        return _least_duty(*args[:-1])

    def same(*args: Any) -> float:
        return args[-1]  # type: ignore[no-any-return]

    found: float = choose(
        uncertain,
        least,
        same,
        *given,
        V_p,
        why="laminar flow may break up: the margin is judged with the larger friction",
    )
    return found


def _relief(relief: Relief, V_p: float, reserve: Any) -> dict[str, Any]:
    """What a relief valve sends: steam at its boiling temperature, or water through the seat.

    The seat is at least what the heat needs; valves are often larger, as rating and bore tell.
    """
    p = f.absolute_pressure(relief.set_pressure)
    T = root(
        lambda T: f.pressure_gap(saturation_pressure(T), p), *_BOILING, what="boiling temperature"
    )
    rho_v = f.saturated_vapour(T)
    h_fg = f.heat_of_evaporation(T, f.vapour_pressure_slope(T, p), f.saturated_liquid(T), rho_v)
    m = f.steam_flow(relief.heat_input.value, h_fg)
    A = f.seat_area(m, p, rho_v)
    if relief.rated_discharge is not None:
        rated = f.seat_area(f.steam_flow(relief.rated_discharge, h_fg), p, rho_v)
        A = f.larger_seat(A, rated)
    if relief.seat_bore is not None:
        A = f.larger_seat(A, f.area_of_bore(relief.seat_bore))
    V_w = f.water_flow(A, relief.set_pressure, density(_HOT_WATER))
    return {
        "steam_flow": m,
        "temperature": T,
        "water_flow": V_w,
        "seat_known": relief.rated_discharge is not None or relief.seat_bore is not None,
        "over_pump": f.relief_over_pump(V_w, V_p),
        "flash_share": _flash(T, p),
        "overflow_time": None if reserve is None else f.filling_time(reserve, V_w),
        "expansion_flow": _expansion(relief),
    }


def _enthalpy(T: float, p: float) -> float:
    return f.enthalpy_of_liquid(
        f.auxiliary_enthalpy(T), T, f.vapour_pressure_slope(T, p), f.saturated_liquid(T)
    )


def _flash(T: float, p: float) -> float:
    """Share of water that turns to steam when it is let out hot to the pressure of the room."""
    T_r = _BOILING[0] + 0.0 * T
    p_r = saturation_pressure(T_r)
    h_fg = f.heat_of_evaporation(
        T_r, f.vapour_pressure_slope(T_r, p_r), f.saturated_liquid(T_r), f.saturated_vapour(T_r)
    )
    return f.flash_share(_enthalpy(T, p), _enthalpy(T_r, p_r), h_fg)


def _expansion(relief: Relief) -> float | None:
    """Water that a circuit without a working vessel pushes out while it heats up."""
    if relief.water_temperature is None:
        return None
    T = relief.water_temperature
    return f.expansion_flow(
        relief.heat_input.value, water_expansion(T), density(T), specific_heat(T)
    )


def _neutraliser(i: PumpHeadInputs, V: float, V_in: float, rho: float, mu: float) -> Any:
    if i.neutraliser is None:
        return None
    bed = _bed_of(i)
    assert bed is not None
    head, w = _bed(V, bed, rho, mu)
    L_b, D_b, _, e = bed
    return {
        "head": head,
        "velocity": w,
        "contact_time": f.filling_time(f.bed_water(L_b, D_b, e), V_in),
    }


def _bed_of(i: PumpHeadInputs) -> tuple[Any, ...] | None:
    bed = i.neutraliser
    if bed is None:
        return None
    require(bed.grain_size <= bed.bed_diameter, "grains-too-large", "/neutraliser/grain_size")
    return bed.bed_length, bed.bed_diameter, bed.grain_size, bed.void_fraction


def _curve(points: Points, tube: Tube) -> dict[str, Any]:
    flows, heads = points
    V = [flows[-1] * (k / CURVE_PIECES) for k in range(1, CURVE_PIECES + 1)]
    lift = tube[6]
    return {
        "flow": [flows[0], *V],
        "pump_head": [heads[0], *(pump_head(item, flows, heads) for item in V)],
        "system_head": [
            lift + 0.0 * heads[0],
            *(_system_head(item, tube, pipes.friction_factor) for item in V),
        ],
    }


def kernel(i: PumpHeadInputs, c: Context) -> dict[str, Any]:
    """Duty point of a condensate pump on its tube, and what follows from it."""
    if i.tube_material in {"copper", "steel"}:
        refuse("metal-tube", "/tube_material")
    require(
        i.coldest_temperature <= i.hottest_temperature,
        "coldest-above-hottest",
        "/coldest_temperature",
    )
    lift = (i.static_lift, "length", "m")
    require(i.static_lift <= i.tube_length, "tube-shorter-than-lift", "/tube_length", lift=lift)
    V_in = _inflow(i, c)
    measured: dict[str, Any] | None = None
    if i.measurement is not None:
        measured = {"ceiling": _ceiling(i.measurement.heat_input, c)}
        V_in = f.greater_inflow(V_in, i.measurement.flow)
    points = _points(i)
    H_0 = points[1][0]
    require(i.static_lift < H_0, "lift-above-shut-off", "/static_lift", shut_off=(H_0, "head", "m"))
    rho, mu = density(i.coldest_temperature), dynamic_viscosity(i.coldest_temperature)
    eps = pipes.relative_roughness(i.roughness, i.tube_bore)
    bed = _bed_of(i)
    tube = (i.tube_bore, i.tube_length, eps, i.fittings_loss, rho, mu, i.static_lift, bed)
    with silent():
        hot = i.hottest_temperature
        warm = (*tube[:4], density(hot), dynamic_viscosity(hot), i.static_lift, bed)
    V_p, V_j, uncertain = _duty(points, tube, warm)
    require(V_in < V_j, "pump-overwhelmed", "/pump_curve", flow=(V_j, "volume_flow", "l/h"))

    w = pipes.velocity(V_p, i.tube_bore)
    Re = pipes.reynolds_number(w, i.tube_bore, rho, mu)
    H_p = pump_head(V_p, *points)
    t_on, t_off = f.run_time(i.switching_volume, V_p, V_in), f.rest_time(i.switching_volume, V_in)
    unsettled = all_of(Re >= pipes.LAMINAR_UP_TO, Re < pipes.TURBULENT_FROM)
    return {
        "inflow": V_in,
        "measurement": measured,
        "duty_flow": V_p,
        "duty_head": H_p,
        "friction_head": f.friction_head(H_p, i.static_lift),
        "velocity": w,
        "reynolds": Re,
        "transitional": any_of(uncertain, unsettled),
        "judged_flow": V_j,
        "flow_margin": f.flow_margin(V_j, V_in),
        "shut_off_head": H_0,
        "run_time": t_on,
        "rest_time": t_off,
        "starts": f.starts(t_on, t_off),
        "run_share": f.run_share(V_in, V_p),
        "drain_back": f.tube_content(i.tube_bore, i.tube_length),
        "power_cut_time": (
            None if i.reserve_volume is None else f.filling_time(i.reserve_volume, V_in)
        ),
        "neutraliser": _neutraliser(i, V_p, V_in, rho, mu),
        "takes_relief": i.relief is not None,
        "relief": None if i.relief is None else _relief(i.relief, V_j, i.reserve_volume),
        "curve": drawn(_curve, points, tube),
    }
