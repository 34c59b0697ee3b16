"""The order of the formulas for the output of a boiler. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import choose, drawn, refuse, require
from tundish.physics.water import density, specific_heat
from tundish.working import part
from tundish_plugins.gas.pipe_sizing.formulas import gas_flow
from tundish_plugins.heat_loss.boiler_output import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.heat_loss.boiler_output.contract import BoilerOutputInputs

PIECES = 16


def _check(i: BoilerOutputInputs) -> None:
    """Refuse what contradicts itself."""
    made = i.hot_water != "none"
    for name, given in (
        ("hot_water_load", i.hot_water_load),
        ("hot_water_output_most", i.hot_water_output_most),
    ):
        if (given is not None) != made:
            refuse("hot-water-not-described", f"/{name}", hot_water=i.hot_water)
    if i.reheat_time is not None and i.hot_water != "priority":
        refuse("reheat-without-priority", "/reheat_time", hot_water=i.hot_water)
    if i.time_constant is not None and i.reheat_time is None:
        refuse("reheat-time-missing", "/reheat_time")
    require(
        i.outside_temperature < i.room_temperature, "outside-not-colder", "/outside_temperature"
    )
    require(i.room_temperature < i.water_temperature, "water-not-above-room", "/water_temperature")
    require(i.output_least <= i.heating_output_most, "least-above-most", "/output_least")


def _needed(i: BoilerOutputInputs) -> dict[str, Any]:
    """Output to heating and hot water, line by line."""
    Phi, Phi_l = i.heating_load, i.pipe_losses
    Phi_m = f.margin(i.margin, Phi)
    Phi_u: Any = 0.0
    if i.reheat_time is not None:
        t = f.time_of_a_day(i.reheats_a_day, i.reheat_time)
        require(t < f.DAY, "no-time-for-heating", "/reheats_a_day", taken=(t, "time", "h"))
        Phi_u = f.made_up(Phi, Phi_l, t)
    P = f.heating_needed(Phi, Phi_l, Phi_m, Phi_u)
    P_n = P
    if i.hot_water_load is not None:
        combine = f.with_priority if i.hot_water == "priority" else f.at_the_same_time
        P_n = combine(P, i.hot_water_load)
    most = i.heating_output_most
    if i.hot_water_output_most is not None:
        most = f.with_priority(most, i.hot_water_output_most)
    return {
        "margin": Phi_m,
        "made_up": Phi_u,
        "heating_needed": P,
        "output_needed": P_n,
        "output_most": most,
    }


def _range(i: BoilerOutputInputs, c: Context, needed: dict[str, Any]) -> dict[str, Any]:
    """Setting of the range, as output, heat input and gas."""
    wanted = needed["output_needed" if i.hot_water == "simultaneous" else "heating_needed"]
    P_s = f.range_setting(wanted, i.output_least, i.heating_output_most)
    r = f.range_share(P_s, i.heating_output_most)
    found: dict[str, Any] = dict.fromkeys(
        (
            "range_input_net",
            "range_input_gross",
            "range_gas_flow",
            "efficiency_net",
            "efficiency_gross",
        )
    )
    if i.rated_input is not None:
        row = c.table("gas-named").exact(gas=i.gas)
        if i.rated_input.basis == "net":
            net = i.rated_input.value
            gross = f.to_gross(net, row["gross"], row["net"])
        else:
            gross = i.rated_input.value
            net = f.to_net(gross, row["net"], row["gross"])
        eta = f.efficiency(i.heating_output_most, gross)
        require(eta <= 1.0, "output-above-input", "/rated_input", input=(gross, "power", "kW"))
        Q_n, Q_g = f.input_at(r, net), f.input_at(r, gross)
        found = {
            "range_input_net": Q_n,
            "range_input_gross": Q_g,
            "range_gas_flow": gas_flow(Q_n, row["net"]),
            "efficiency_net": f.efficiency(i.heating_output_most, net),
            "efficiency_gross": eta,
        }
    return {"range_setting": P_s, "range_share": r, **found}


def _cycle_curve(C: float, dT: float, P_min: float) -> dict[str, Any]:
    load = [P_min * (k / PIECES) for k in range(PIECES + 1)]
    return {"load": load, "starts": [f.starts(C, dT, P_min, Q) for Q in load]}


def _season_curve(Phi: float, Phi_l: float, T_i: float, T_e: float) -> dict[str, Any]:
    outside = [T_e + (T_i - T_e) * (k / PIECES) for k in range(PIECES + 1)]
    return {"outside": outside, "load": [f.load_at(Phi, Phi_l, T_i, T_e, T) for T in outside]}


def _room_curve(T_i: float, T_e: float, t: float, tau: float) -> dict[str, Any]:
    time = [t * (k / PIECES) for k in range(PIECES + 1)]
    return {"time": time, "temperature": [f.cooled(T_i, T_e, s, tau) for s in time]}


def _cycles(i: BoilerOutputInputs) -> dict[str, Any]:
    """What the burner does at a load below its least output."""
    P_min, dT = i.output_least, i.switching_difference
    rho, c_p = density(i.water_temperature), specific_heat(i.water_temperature)
    C = f.capacity(i.water_content, rho, c_p, i.metal_capacity)
    Q = f.half(P_min) if i.part_load is None else i.part_load
    cycles = Q < P_min
    on, off, N = choose(
        cycles,
        lambda C, dT, P, Q: (
            f.run_time(C, dT, P, Q),
            f.rest_time(C, dT, Q),
            f.starts(C, dT, P, Q),
        ),
        lambda _C, _dT, _P, Q: (f.DAY + 0.0 * Q, 0.0 * Q, 0.0 * Q),
        C,
        dT,
        P_min,
        Q,
        why="the load is below the least output",
    )
    V_n = f.content_needed(i.run_time_least, P_min, Q, dT, i.metal_capacity, rho, c_p)
    return {
        "part_load": Q,
        "cycles": cycles,
        "starts": N,
        "run_time": on,
        "rest_time": off,
        "starts_most": f.starts_most(C, dT, P_min),
        "content_needed": V_n,
        "content_lacking": f.content_lacking(V_n, i.water_content),
        "cycle_curve": drawn(_cycle_curve, C, dT, P_min),
    }


def _rooms(i: BoilerOutputInputs, P_s: float) -> dict[str, Any] | None:
    """What the rooms see of a reheat."""
    if i.reheat_time is None or i.time_constant is None:
        return None
    T_i, T_e, t, tau = i.room_temperature, i.outside_temperature, i.reheat_time, i.time_constant
    require(
        i.fall_most < T_i - T_e,
        "fall-beyond-outside",
        "/fall_most",
        between=(T_i - T_e, "temperature_difference", "K"),
    )
    dT = f.fallen(T_i, T_e, t, tau)
    Phi, Phi_l = i.heating_load, i.pipe_losses
    recovers = P_s - Phi_l > Phi
    return {
        "temperature": f.cooled(T_i, T_e, t, tau),
        "fall": dT,
        "longest_reheat": f.time_to_fall(T_i, T_e, i.fall_most, tau),
        "recovers": recovers,
        "recovery_time": choose(
            recovers,
            f.recovery_time,
            lambda *given: f.DAY + 0.0 * given[0],
            tau,
            dT,
            T_i,
            T_e,
            P_s,
            Phi,
            Phi_l,
            why="heating as set gives more than the house loses",
        ),
        "curve": drawn(_room_curve, T_i, T_e, t, tau),
    }


def kernel(i: BoilerOutputInputs, c: Context) -> dict[str, Any]:
    """What a boiler has to give, how it is set, how it cycles, and what rooms see of hot water."""
    _check(i)
    with part("output"):
        needed = _needed(i)
    with part("range"):
        setting = _range(i, c, needed)
    T_i, T_e = i.room_temperature, i.outside_temperature
    with part("cycles"):
        cycles = _cycles(i)
        above = f.outside_at_load(T_i, T_e, i.output_least, i.heating_load, i.pipe_losses)
    with part("rooms"):
        rooms = _rooms(i, setting["range_setting"])
    return {
        **needed,
        **setting,
        "turndown": f.turndown(i.heating_output_most, i.output_least),
        "cycles_above": above,
        **cycles,
        "rooms_meanwhile": rooms,
        "season_curve": drawn(_season_curve, i.heating_load, i.pipe_losses, T_i, T_e),
    }
