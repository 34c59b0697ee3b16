"""The order of the formulas for the recovery of a store. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import choose, drawn, refuse, require
from tundish.physics.water import density, enthalpy, specific_heat
from tundish_plugins.hot_water.recovery import formulas as f
from tundish_plugins.hot_water.recovery.phases import Law, Sources, coil_of, curve, phases_of

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.hot_water.recovery.contract import RecoveryInputs

TWO_PHASE, CONSTANT_POWER, BS_6700 = "two-phase", "constant-power", "bs-6700"

LITTLE_LOSS = 0.03
"""Target time over the store's time constant of loss: the same for the needed heat input."""


def _check_structure(i: RecoveryInputs, method: str) -> None:
    """Refuse what the choice of fields alone makes unanswerable."""
    coils = [i.coil_rating, i.coil_ua, i.coil_conductance]
    if i.boiler_output is None:
        given = [*coils, i.minimum_output, i.primary_flow, i.primary_temperature_difference]
        if any(field is not None for field in given):
            refuse("boiler-output-missing", "/boiler_output")
        if i.immersion_power is None:
            refuse("no-heat-source", "/boiler_output")
        return
    if sum(coil is not None for coil in coils) > 1:  # structure
        refuse("coil-given-twice", "/coil_rating")
    if method == TWO_PHASE and all(coil is None for coil in coils):
        refuse("coil-missing", "/coil_rating")
    if i.primary_flow is None and (
        i.coil_ua is not None or i.primary_temperature_difference is not None
    ):
        refuse("primary-flow-missing", "/primary_flow")
    if i.flow_temperature is None and (method == TWO_PHASE or i.primary_flow is not None):
        refuse("flow-temperature-missing", "/flow_temperature")


def _voltage_fits(supply: float, rated: float, c: Context) -> None:
    """Refuse a supply that the element is not made for: it burns out, or burns."""
    require(
        supply <= rated * c.value("supply-over-rated-voltage-most") * (1 + 1e-9),
        "voltage-above-rating",
        "/supply_voltage",
        rated=(rated, "voltage", "V"),
    )


def _immersion(i: RecoveryInputs) -> float | None:
    if i.immersion_power is None or i.immersion_rated_voltage is None:
        return i.immersion_power
    return f.immersion_at_voltage(i.immersion_power, i.supply_voltage, i.immersion_rated_voltage)


def _sources(i: RecoveryInputs, rate: float | None) -> Sources:
    """What boiler and immersion heater bring."""
    immersion = _immersion(i)
    if i.boiler_output is None:
        assert immersion is not None
        return Sources(None, immersion, immersion)
    if i.minimum_output is not None:
        require(i.minimum_output <= i.boiler_output, "minimum-above-output", "/minimum_output")
    if i.primary_temperature_difference is None or rate is None:
        boiler = f.source_power(i.boiler_output, i.primary_pipe_loss)
    else:
        boiler = f.source_power_by_flow(
            i.boiler_output, i.primary_pipe_loss, rate, i.primary_temperature_difference
        )
    require(boiler > 0.0, "pipe-loss-takes-all", "/primary_pipe_loss")
    if immersion is None:
        return Sources(boiler, None, boiler)
    return Sources(boiler, immersion, f.together(boiler, immersion))


def _settling(law: Law) -> float | None:
    """Temperature the store would settle at, or none when nothing in the inputs limits it."""
    sources, coil, UA_l, T_a = law.sources, law.coil, law.UA_l, law.T_a
    if coil is None or sources.boiler is None:
        return f.settling_by_source(T_a, sources.full, UA_l) if law.lossy else None
    if not law.lossy:
        return coil.T_f if sources.immersion is None else None
    immersion = 0.0 if sources.immersion is None else sources.immersion
    lower = f.settling_by_coil(coil.G, coil.T_f, sources.boiler, immersion, UA_l, T_a)
    if sources.immersion is None:
        return lower
    return f.settling_higher(lower, f.settling_by_source(T_a, sources.immersion, UA_l))


def _limits(law: Law, bounds: list[float]) -> dict[str, Any] | None:
    """What source and coil could give, from the start to the target."""
    coil, boiler = law.coil, law.sources.boiler
    if coil is None or boiler is None:
        return None
    return {
        "temperature": bounds,
        "source_limit": [boiler + 0.0 * T for T in bounds],
        "coil_limit": [f.coil_power(coil.G, coil.T_f, T) for T in bounds],
    }


def _law(i: RecoveryInputs, method: str) -> Law:
    """What drives the store: source, coil, immersion heater and loss."""
    T_f, rate = i.flow_temperature, None
    if i.primary_flow is not None and T_f is not None:
        rate = f.capacity_rate(i.primary_flow, density(T_f), specific_heat(T_f))
    sources = _sources(i, rate)
    coil = None
    if sources.boiler is not None and T_f is not None:
        if method == TWO_PHASE:
            coil = coil_of(i.coil_rating, i.coil_ua, i.coil_conductance, T_f, rate)
        else:
            require(
                i.target_temperature < T_f,
                "target-unreachable",
                "/target_temperature",
                reachable=(T_f, "temperature", "degC"),
            )
    if i.standing_loss is None or method == BS_6700:
        return Law(sources, coil, 0.0, i.ambient_temperature, lossy=False)
    UA_l = f.loss_conductance(i.standing_loss)
    return Law(sources, coil, UA_l, i.ambient_temperature, lossy=True)


def _needed_power(law: Law, C: float, t: float, T_0: float, T_1: float) -> float:
    """Steady heat input that meets a target time."""
    found: float = choose(
        law.UA_l * t <= LITTLE_LOSS * C,
        f.needed_power_little_loss,
        f.needed_power,
        C,
        t,
        law.UA_l,
        T_0,
        T_1,
        law.T_a,
        why="loss small beside the heat input",
    )
    return found


def kernel(i: RecoveryInputs, c: Context) -> dict[str, Any]:
    """Reheat of a well-mixed store in phases of closed form."""
    _check_structure(i, c.method)
    V, share, T_0, T_1 = (
        i.store_volume,
        i.heated_fraction,
        i.start_temperature,
        i.target_temperature,
    )
    require(T_0 < T_1, "start-not-below-target", "/start_temperature")
    require(i.cold_temperature < i.mix_temperature, "mix-not-above-cold", "/mix_temperature")
    require(i.mix_temperature < T_1, "store-too-cool-to-mix", "/mix_temperature")

    h_1 = enthalpy(T_1)
    if c.method == BS_6700:
        Q = f.heat_by_bs_6700(V, share, T_1, T_0)
    else:
        Q = f.heat_of_store(V, share, density(T_0), h_1, enthalpy(T_0))
    C = f.mean_heat_capacity(Q, T_1, T_0)

    if i.immersion_rated_voltage is not None:
        _voltage_fits(i.supply_voltage, i.immersion_rated_voltage, c)
    law = _law(i, c.method)
    coil, sources = law.coil, law.sources
    highest = _settling(law)
    phases = phases_of(law, C, T_0, T_1, highest)
    t = f.reheat_time(phases.times)
    loss = f.loss_energy(law.UA_l, law.T_a, phases.means, phases.times) if law.lossy else None

    cycling = margin = needed = None
    if coil is not None and i.minimum_output is not None:
        cycling = f.cycling_temperature(coil.T_f, i.minimum_output, i.primary_pipe_loss, coil.G)
    if sources.boiler is not None and i.flow_temperature is not None:
        margin = f.flow_margin(i.flow_temperature, T_1)
    if i.target_time is not None:
        needed = _needed_power(law, C, i.target_time, T_0, T_1)
    x = f.hot_share(enthalpy(i.mix_temperature), enthalpy(i.cold_temperature), h_1)

    times = phases.times
    return {
        "coil_counted": i.boiler_output is None or c.method == TWO_PHASE,
        "wholly_heated": share >= 1.0,
        "reheat_time": t,
        "source_limited_time": times[0],
        "coil_limited_time": None if coil is None else times[1],
        "immersion_only_time": None if coil is None or sources.immersion is None else times[2],
        "least_time": f.least_time(Q, sources.full),
        "changeover_temperature": None if coil is None else phases.bounds[1],
        "highest_temperature": None if coil is None or sources.immersion is not None else highest,
        "cycling_temperature": cycling,
        "flow_margin": margin,
        "heat": Q,
        "loss_energy": loss,
        "mean_power": f.mean_power(Q, t),
        "start_power": phases.powers[0],
        "end_power": phases.powers[-1],
        "source_power": sources.full,
        "coil_conductance": None if coil is None else coil.G,
        "coil_ua": None if coil is None else coil.UA,
        "coil_effectiveness": None if coil is None else coil.effectiveness,
        "needed_power": needed,
        "hot_share": x,
        "mixed_volume": f.mixed_volume(V, share, density(T_1), density(i.mix_temperature), x),
        "curve": drawn(curve, law, C, phases),
        "limits": drawn(_limits, law, phases.bounds),
    }
