"""The order of the formulas for the test of a measured reheat. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, drawn, pick, refuse, require, where
from tundish.physics.water import density, enthalpy, specific_heat
from tundish.working import part, silent
from tundish_plugins.hot_water.recovery.formulas import (
    capacity_rate,
    heat_of_store,
    loss_conductance,
    loss_energy,
    mean_heat_capacity,
    mean_power,
    rated_conductance,
    reheat_time,
)
from tundish_plugins.hot_water.recovery.phases import (
    Coil,
    Law,
    Phases,
    Sources,
    coil_of,
    curve,
    phases_of,
)
from tundish_plugins.hot_water.reheat_test import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.hot_water.reheat_test.contract import ExtraHeat, ReheatTestInputs

FREEZING, BOILING = 273.15, 373.15
"""What a mean temperature of the water can be at all; with a known flow, no more than that."""

CHECKS = {
    "heated part": "Run off at a tap until it turns cold and count the litres; strap thermometers "
    "to the store at top, middle and bottom.",
    "start temperature": "Read the top of the store before the next test, or run it cold through "
    "first: after a part draw warm water stays above the cold.",
    "end temperature": "Wait ten minutes without drawing and read again at top, middle and bottom: "
    "a store can be hot at the sensor and cooler below.",
    "time": "Repeat the test with the times of call, firing and stop written down.",
    "source and coil": "Take the gas rate or the meter, flow and return temperatures and the primary "
    "flow; isolate the immersion heater; begin with the primary cold and all heat to the store.",
}


@dataclass(frozen=True)
class Test:
    """The readings, the heat they imply and its uncertainty."""

    T_0: float
    T_1: float
    t: float
    Q: float
    C: float
    u_rise: float
    P: float
    u_power: float


@dataclass(frozen=True)
class Prediction:
    """What source and coil should do."""

    law: Law
    phases: Phases
    t: float
    P: float
    u: float | None
    loss: float | None


def _check(i: ReheatTestInputs, u_dT: float, k: float) -> None:
    """Refuse readings that show nothing."""
    rise = i.end_temperature - i.start_temperature
    require(rise > 0.0, "no-rise", "/end_temperature")
    require(rise > k * u_dT, "rise-within-uncertainty", "/end_temperature")
    require(i.reheat_time > k * i.time_uncertainty, "time-within-uncertainty", "/reheat_time")
    if i.flow_temperature is not None:
        require(
            i.end_temperature < i.flow_temperature,
            "end-not-below-flow",
            "/end_temperature",
            reachable=(i.flow_temperature, "temperature", "degC"),
        )


def _coil(i: ReheatTestInputs) -> Coil | None:
    """The coil as it worked in the test, when it is known."""
    if i.coil_rating is not None and i.coil_conductance is not None:
        refuse("coil-given-twice", "/coil_rating")
    if i.coil_rating is None and i.coil_conductance is None:
        return None
    T_f = i.flow_temperature
    if T_f is None:
        refuse("flow-temperature-missing", "/flow_temperature")
    assert T_f is not None
    rate = None
    if i.primary_flow is not None:
        rate = capacity_rate(i.primary_flow, density(T_f), specific_heat(T_f))
    return coil_of(i.coil_rating, None, i.coil_conductance, T_f, rate)


def _law(i: ReheatTestInputs, P_s: float, coil: Coil | None) -> Law:
    sources = Sources(None, P_s, P_s) if coil is None else Sources(P_s, None, P_s)
    if i.standing_loss is None:
        return Law(sources, coil, 0.0, i.ambient_temperature, lossy=False)
    UA_l = loss_conductance(i.standing_loss)
    return Law(sources, coil, UA_l, i.ambient_temperature, lossy=True)


def _mean(i: ReheatTestInputs, P_s: float, coil: Coil, G: float, test: Test) -> float:
    """Mean power with another source or coil."""
    law = _law(i, P_s, Coil(G, coil.T_f, None, None))
    phases = phases_of(law, test.C, test.T_0, test.T_1, coil.T_f)
    return mean_power(test.Q, reheat_time(phases.times))


def _predicted(i: ReheatTestInputs, test: Test, coil: Coil | None, u_s: float) -> Prediction:
    """Reheat time and mean power of source and coil, and how well they are known."""
    P_s = i.source_power
    with part("reheat", "predicted"):
        u_G = None if coil is None else f.conductance_uncertainty(coil.G, i.coil_uncertainty)
        with silent():  # the weakest of what is tried below still has to reach the end
            weakest = coil
            if coil is not None and u_G is not None:
                weakest = Coil(coil.G - u_G, coil.T_f, None, None)
            spare = _law(i, P_s - u_s, weakest).power(test.T_1)
        require(spare > 0.0, "end-unreachable", "/end_temperature")
        law = _law(i, P_s, coil)
        phases = phases_of(law, test.C, test.T_0, test.T_1, None if coil is None else coil.T_f)
        t = reheat_time(phases.times)
        if law.lossy:
            loss = loss_energy(law.UA_l, law.T_a, phases.means, phases.times)
        else:
            loss = None
        P = mean_power(test.Q, t)
        if coil is None or u_G is None:
            return Prediction(law, phases, t, P, None, loss)
        with silent():
            spread = (
                _mean(i, P_s + u_s, coil, coil.G, test),
                _mean(i, P_s - u_s, coil, coil.G, test),
                _mean(i, P_s, coil, coil.G + u_G, test),
                _mean(i, P_s, coil, coil.G - u_G, test),
            )
        return Prediction(law, phases, t, P, f.predicted_uncertainty(*spread), loss)


def _primary(extra: ExtraHeat, t: float) -> float | None:
    fields = (
        extra.primary_content,
        extra.primary_start_temperature,
        extra.primary_end_temperature,
    )
    V_p, T_a, T_b = fields
    if V_p is None or T_a is None or T_b is None:
        if any(field is not None for field in fields):
            refuse("primary-incomplete", "/extra_heat/primary_content")
        return None
    require(T_b < T_a, "primary-not-cooling", "/extra_heat/primary_end_temperature")
    T = f.middle(T_a, T_b)
    return f.primary_power(V_p, density(T), specific_heat(T), T_a, T_b, t)


def _extra(i: ReheatTestInputs, test: Test, u_c: float) -> dict[str, Any] | None:
    """Heat that may have come in besides, and what it leaves unexplained."""
    extra = i.extra_heat
    if extra is None:
        return None
    with part("heat besides the source"):
        primary = _primary(extra, test.t)
        gained = None
        if extra.output_gain is not None:
            gained = f.gained_power(i.source_power, extra.output_gain)
        parts = [x for x in (primary, extra.immersion_power, gained) if x is not None]
        if not parts:
            refuse("extra-heat-empty", "/extra_heat")
        together = f.all_extra(parts)
        rest = f.left_over(test.P, i.source_power, together)
        return {
            "primary_power": primary,
            "immersion_power": extra.immersion_power,
            "gained_power": gained,
            "together": together,
            "left_over": rest,
            "z": f.left_score(rest, u_c),
        }


def _causes(
    i: ReheatTestInputs, test: Test, P_ref: float, u_ref: float, k: float
) -> dict[str, Any]:
    """Each reading alone solved for the value at which the powers agree."""
    T_0, T_1, P = test.T_0, test.T_1, test.P
    with part("each cause alone"):
        V_eff = f.effective_volume(i.store_volume, i.heated_fraction, P_ref, P)
        share = f.effective_share(V_eff, i.store_volume)
        start = f.needed_start(T_1, T_0, P_ref, P)
        end = f.needed_end(T_1, T_0, P_ref, P)
        time = f.needed_time(test.Q, P_ref)
        scores = {
            "heated part": f.volume_score(P, P_ref, i.volume_uncertainty),
            "start temperature": f.temperature_score(T_1, T_0, P, P_ref, i.start_uncertainty),
            "end temperature": f.temperature_score(T_1, T_0, P, P_ref, i.end_uncertainty),
            "time": f.time_score(time, test.t, i.time_uncertainty),
            "source and coil": f.score(P, P_ref, u_ref),
        }
        can_be: dict[str, Any] = {
            "heated part": share <= 1.0,
            "start temperature": start >= FREEZING,
            "end temperature": end
            <= (BOILING if i.flow_temperature is None else i.flow_temperature),
        }
        return {
            "effective_volume": V_eff,
            "effective_volume_uncertainty": f.effective_volume_uncertainty(
                V_eff, u_ref, P_ref, test.u_rise, T_1, T_0, i.time_uncertainty, test.t
            ),
            "effective_fraction": share,
            "needed_start_temperature": start,
            "needed_end_temperature": end,
            "needed_time": time,
            "missing_power": f.missing_power(P, P_ref),
            "readings_score": f.score(P, P_ref, test.u_power),
            "explanations": [
                {
                    "name": name,
                    "error": score,
                    "within_uncertainty": all_of(score <= k, score >= -k),
                    "possible": can_be.get(name, True),
                    "check": CHECKS[name],
                }
                for name, score in scores.items()
            ],
        }


def _two_points(test: Test) -> dict[str, Any]:
    return {"time": [0.0 * test.t, test.t], "temperature": [test.T_0, test.T_1]}


def _course(prediction: Prediction, C: float) -> dict[str, Any]:
    full = curve(prediction.law, C, prediction.phases)
    return {"time": full["time"], "temperature": full["temperature"]}


def kernel(i: ReheatTestInputs, c: Context) -> dict[str, Any]:
    """Implied power against the source and the prediction, then each cause alone."""
    k = c.value("reheat-test-coverage")
    T_0, T_1, t, P_s = i.start_temperature, i.end_temperature, i.reheat_time, i.source_power
    u_dT = f.rise_uncertainty(i.start_uncertainty, i.end_uncertainty)
    _check(i, u_dT, k)
    coil = _coil(i)
    with part("reheat", "measured"):
        Q = heat_of_store(
            i.store_volume, i.heated_fraction, density(T_0), enthalpy(T_1), enthalpy(T_0)
        )
        C = mean_heat_capacity(Q, T_1, T_0)
        P = mean_power(Q, t)
        u_P = f.power_uncertainty(P, i.volume_uncertainty, u_dT, T_1, T_0, i.time_uncertainty, t)
    test = Test(T_0, T_1, t, Q, C, u_dT, P, u_P)

    with part("against the source"):
        u_s = f.source_uncertainty(P_s, i.power_uncertainty)
        u_c = f.combined(u_P, u_s)
        z_source = f.score(P, P_s, u_c)
        ceiling = f.most(P_s, k, u_c)
        doubt = f.doubt(k, u_c, P, P_s)
    over = ceiling * (1 + 1e-9) < P
    tells: Any = doubt <= c.value("reheat-test-doubt-most") * (1 + 1e-9)

    prediction = _predicted(i, test, coil, u_s)
    least_by_source = z_predicted = least = most_predicted = None
    reading = pick(tells, "consistent", "too-uncertain")
    if prediction.u is None:
        least_by_source = f.least(prediction.P, k, u_c)
        reading = pick(least_by_source * (1 - 1e-9) > P, "slower-than-expected", reading)
    else:
        with part("against the prediction"):
            u_d = f.combined(u_P, prediction.u)
            z_predicted = f.score(P, prediction.P, u_d)
            least = f.least(prediction.P, k, u_d)
            most_predicted = f.most(prediction.P, k, u_d)
        reading = pick(most_predicted * (1 + 1e-9) < P, "faster-than-predicted", reading)
        reading = pick(least * (1 - 1e-9) > P, "slower-than-expected", reading)
    reading = pick(over, "impossible-as-stated", reading)

    P_ref = where(over, P_s, prediction.P)
    u_ref = u_s if prediction.u is None else where(over, u_s, prediction.u)
    implied = share = None
    if i.flow_temperature is not None:
        implied = rated_conductance(P, i.flow_temperature, T_0, T_1)
        if coil is not None:
            share = f.conductance_share(implied, coil.G)
    below = None
    if c.has("hot-water-cut-out-temperature-least"):
        below = T_1 < c.value("hot-water-cut-out-temperature-least")
    return {
        "reading": reading,
        "doubt": doubt,
        "tells": tells,
        "below_cut_out": below,
        "within_source": P <= ceiling * (1 + 1e-9),
        "mean_power": P,
        "mean_power_uncertainty": u_P,
        "heat": Q,
        "source_uncertainty": u_s,
        "z_source": z_source,
        "most_power": ceiling,
        "least_by_source": least_by_source,
        "predicted_time": prediction.t,
        "predicted_power": prediction.P,
        "predicted_uncertainty": prediction.u,
        "predicted_loss": prediction.loss,
        "z_predicted": z_predicted,
        "least_power": least,
        "most_predicted": most_predicted,
        "reference_power": P_ref,
        **_causes(i, test, P_ref, u_ref, k),
        "implied_conductance": implied,
        "conductance_share": share,
        "extra_heat": _extra(i, test, u_c),
        "predicted": drawn(_course, prediction, C),
        "measured": drawn(_two_points, test),
    }
