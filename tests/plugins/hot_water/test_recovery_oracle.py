"""The recovery against an ODE solver and a water library that share no code with it."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tundish import answer

scipy_integrate = pytest.importorskip("scipy.integrate")
CoolProp = pytest.importorskip("CoolProp.CoolProp")

PRESSURE = 2.5e5
DATE = "2026-11-01"


def _water(what: str, celsius: float) -> float:
    return float(CoolProp.PropsSI(what, "T", celsius + 273.15, "P", PRESSURE, "Water"))


def _integrate(net: Any, capacity: Any, cuts: list[float]) -> tuple[float, float]:
    """Time in s from the first cut to the last, and the integral of (T - T of the first cut) dt."""
    total, area = 0.0, 0.0
    for low, high in zip(cuts, cuts[1:], strict=False):
        if high <= low:
            continue

        def reached(_t: float, y: list[float], high: float = high) -> float:
            return y[0] - high

        reached.terminal = True  # type: ignore[attr-defined]
        run = scipy_integrate.solve_ivp(
            lambda _t, y: [net(y[0]) / capacity(y[0]), y[0] - cuts[0]],
            (0.0, 1e9),
            [low, 0.0],
            events=reached,
            method="DOP853",
            rtol=1e-10,
            atol=1e-10,
            first_step=1.0,
        )
        total += float(run.t_events[0][0])
        area += float(run.y_events[0][0][1])
    return total, area


def _request(**values: tuple[float, str]) -> dict[str, Any]:
    return {name: {"value": value, "unit": unit} for name, (value, unit) in values.items()}


def _outputs(inputs: dict[str, Any], method: str = "two-phase") -> dict[str, Any]:
    status, body = answer(
        "hot-water-recovery",
        {"inputs": inputs, "method": method, "region": "GB", "date": DATE},
    )
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


# A fixed seed keeps the gate steady; the ranges cover every phase.
FAST = settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.filter_too_much],
)


@FAST
@given(
    volume=st.floats(30, 500),
    start=st.floats(5, 50),
    rise=st.floats(5, 40),
    boiler=st.floats(2, 45),
    conductance=st.floats(100, 1500),
    above=st.floats(0.5, 30),
    immersion=st.floats(0.5, 6) | st.none(),
    loss=st.floats(20, 150) | st.none(),
    ambient=st.floats(5, 30),
)
def test_against_the_ode(
    volume: float,
    start: float,
    rise: float,
    boiler: float,
    conductance: float,
    above: float,
    immersion: float | None,
    loss: float | None,
    ambient: float,
) -> None:
    """Every phase, every combination of loss and immersion heater; time, loss and power."""
    target = start + rise
    flow = max(26.0, min(94.0, target + above - (10 if immersion else 0)))
    heater = 0.0 if immersion is None else immersion * 1e3
    ua = 0.0 if loss is None else loss / 45

    def net(t: float) -> float:
        coil = min(boiler * 1e3, max(conductance * (flow - t), 0.0))
        return coil + heater - ua * (t - ambient)

    values: dict[str, tuple[float, str]] = {
        "store_volume": (volume, "l"),
        "start_temperature": (start, "degC"),
        "target_temperature": (target, "degC"),
        "boiler_output": (boiler, "kW"),
        "coil_conductance": (conductance, "W/K"),
        "flow_temperature": (flow, "degC"),
        "ambient_temperature": (ambient, "degC"),
        "cold_temperature": (2, "degC"),
        "mix_temperature": (max(15.0, start), "degC"),
    }
    assume(values["mix_temperature"][0] < target)
    assume(target >= 20)
    if immersion is not None:
        values["immersion_power"] = (immersion, "kW")
    if loss is not None:
        values["standing_loss"] = (loss, "W")
    assume(net(target) > 1.0)  # next to the limit the time is ill conditioned
    got = _outputs(_request(**values))
    heat = volume * 1e-3 * _water("D", start) * (_water("H", target) - _water("H", start))
    capacity = heat / rise
    change = min(max(flow - boiler * 1e3 / conductance, start), target)
    cuts = [start, change, min(max(flow, change), target), target]
    seconds, area = _integrate(net, lambda _t: capacity, cuts)
    # Our enthalpy is within 3 J/kg of the library's, which matters when the rise is small.
    assert got["reheat_time"]["value"] == pytest.approx(seconds / 60, rel=3e-4)
    assert got["heat"]["value"] == pytest.approx(heat / 3.6e6, rel=3e-4)
    assert got["mean_power"]["value"] == pytest.approx(heat / seconds / 1e3, rel=1e-4)
    assert got["start_power"]["value"] == pytest.approx(net(start) / 1e3, rel=1e-9)
    assert got["end_power"]["value"] == pytest.approx(net(target) / 1e3, rel=1e-7)
    if loss is not None:
        lost = ua * (area + (start - ambient) * seconds)
        assert got["loss_energy"]["value"] * 3.6e6 == pytest.approx(lost, rel=1e-3, abs=50)
    curve = got["curve"]
    assert curve["time"]["values"][-1] == pytest.approx(got["reheat_time"]["value"], rel=1e-10)
    middle = len(curve["time"]["values"]) // 2
    reached = curve["temperature"]["values"][middle]
    seconds, _ = _integrate(net, lambda _t: capacity, [min(c, reached) for c in cuts])
    assert curve["time"]["values"][middle] == pytest.approx(seconds / 60, rel=3e-4, abs=1e-6)


def test_mean_heat_capacity_is_good_enough() -> None:
    """With the specific heat of each temperature instead of the mean, the time moves by 0.1 %."""
    got = _outputs(
        _request(
            store_volume=(210, "l"),
            start_temperature=(10, "degC"),
            target_temperature=(60, "degC"),
            boiler_output=(18, "kW"),
            coil_conductance=(520, "W/K"),
            flow_temperature=(68, "degC"),
        )
    )
    mass = 0.210 * _water("D", 10)
    seconds, _ = _integrate(
        lambda t: min(18e3, 520 * (68 - t)),
        lambda t: mass * _water("C", t),
        [10.0, 68 - 18e3 / 520, 60.0],
    )
    assert got["reheat_time"]["value"] == pytest.approx(seconds / 60, rel=1e-3)


@pytest.mark.parametrize("kilowatts", [8.0, 20.0, 33.0])
def test_a_rating_is_the_mean_of_its_own_test(kilowatts: float) -> None:
    """Fed as in its rating test by an ample boiler, the coil takes its rating in the mean."""
    inputs = _request(
        store_volume=(150, "l"),
        start_temperature=(15, "degC"),
        target_temperature=(60, "degC"),
        boiler_output=(100, "kW"),
        flow_temperature=(80, "degC"),
        primary_flow=(40, "l/min"),
    )
    rating = _request(power=(kilowatts, "kW"), primary_flow=(40, "l/min"))
    got = _outputs(inputs | {"coil_rating": rating})
    assert got["mean_power"]["value"] == pytest.approx(kilowatts, rel=1e-12)


def test_less_primary_flow_means_less_heat_at_the_same_ua() -> None:
    powers = []
    for flow in (40, 20, 10, 5):
        got = _outputs(
            _request(
                store_volume=(200, "l"),
                start_temperature=(15, "degC"),
                target_temperature=(60, "degC"),
                boiler_output=(60, "kW"),
                flow_temperature=(75, "degC"),
                primary_flow=(flow, "l/min"),
                coil_ua=(800, "W/K"),
            )
        )
        rate = flow / 60e3 * _water("D", 75) * _water("C", 75)
        expected = 1 - math.exp(-800 / rate)
        assert got["coil_effectiveness"] == pytest.approx(expected, rel=2e-4)
        powers.append(got["mean_power"]["value"])
    assert powers == sorted(powers, reverse=True)


def test_mixed_water_keeps_mass_and_enthalpy() -> None:
    got = _outputs(
        _request(
            store_volume=(200, "l"),
            start_temperature=(10, "degC"),
            target_temperature=(60, "degC"),
            immersion_power=(3, "kW"),
        )
    )
    hot = 0.2 * _water("D", 60)
    mixed = got["mixed_volume"]["value"] * 1e-3 * _water("D", 40)
    cold = mixed - hot
    assert hot / mixed == pytest.approx(got["hot_share"], rel=1e-5)
    enthalpy = (hot * _water("H", 60) + cold * _water("H", 10)) / mixed
    assert enthalpy == pytest.approx(_water("H", 40), rel=1e-4)


@pytest.mark.parametrize(("loss", "minutes"), [(1, 30), (90, 90), (180, 600), (900, 300)])
def test_needed_power_would_meet_the_target_time(loss: float, minutes: float) -> None:
    """Heated with the power it asks for, the store takes the target time; series and exact."""
    values: dict[str, tuple[float, str]] = {
        "store_volume": (100, "l"),
        "start_temperature": (12, "degC"),
        "target_temperature": (62, "degC"),
        "standing_loss": (loss, "W"),
    }
    time = (minutes, "min")
    first = _outputs(_request(**values, immersion_power=(30, "kW"), target_time=time))
    needed = first["needed_power"]["value"]
    second = _outputs(_request(**values, immersion_power=(needed, "kW")))
    assert second["reheat_time"]["value"] == pytest.approx(minutes, rel=1e-11)
