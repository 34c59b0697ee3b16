"""The order of the formulas for the expansion of stored hot water. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, refuse, require
from tundish.physics.hydrostatics import static_pressure
from tundish.physics.water import density
from tundish_plugins.sealed_heating import vessel as v
from tundish_plugins.sealed_heating.hot_water_expansion import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.hot_water_expansion.contract import HotWaterExpansionInputs

FOUR_PER_CENT, DENSITIES = "four-per-cent", "water-densities"
PIECES = 16
APART = 1e-9
"""Share of a setting by which two must differ to be two."""
BEHAVIOUR = ("vessel", "vessel_charge", "hot_pressure", "valve_lifts", "water_lost", "curve")
Gas = tuple[float, float]
"""Volume of a vessel or of air, and the gauge pressure at which it fills that volume."""


def _curve(
    i: HotWaterExpansionInputs, V: float, cold: float, full: Gas, half: Gas
) -> dict[str, Any]:
    """Pressure over temperature by the densities; the expansion valve holds it."""
    atm, T_0 = i.atmospheric_pressure, i.cold_temperature
    T = [T_0 + (i.hot_temperature - T_0) * (k / PIECES) for k in range(PIECES + 1)]
    grown = [v.expansion_volume(V, v.expansion_fraction(density(T_0), density(t))) for t in T]

    def pressures(gas: Gas) -> list[float]:
        V_N, p_0 = gas
        V_g = v.gas_when_cold(V_N, p_0 + atm, cold + atm)
        room = v.room_up_to(V_g, V_N, p_0 + atm, i.expansion_valve + atm)
        rest = [
            v.pressure_after(p_0 + atm, V_N, V_g, v.taken_at_most(dV, room)) - atm
            for dV in grown[1:]
        ]
        return [cold + 0.0 * V_N, *rest]

    return {"temperature": T, "pressure": pressures(full), "half_charge": pressures(half)}


def _gas(i: HotWaterExpansionInputs, cold: float) -> tuple[Gas, Gas, str] | None:
    """Gas that takes the expansion, what is left with half of it lost, and the field it is from.

    None when neither vessel nor air was given: there is nothing to judge.
    """
    if i.air_gap is not None:
        for name in ("vessel_volume", "vessel_charge", "vessel_rating"):
            if getattr(i, name) is not None:
                refuse("vessel-beside-air-gap", f"/{name}")
        V = i.air_gap.volume
        if V is not None:
            require(V < i.store_volume, "air-gap-beyond-store", "/air_gap/volume")
        return None if V is None else ((V, cold), (0.5 * V, cold), "/air_gap/volume")
    charge = cold if i.vessel_charge is None else i.vessel_charge
    require(charge < i.expansion_valve, "charge-above-expansion-valve", "/vessel_charge")
    if i.vessel_volume is None:
        return None
    V = i.vessel_volume
    return (V, charge), (V, 0.5 * charge), "/vessel_volume"


def _behaviour(
    i: HotWaterExpansionInputs, V: float, dV: float, p_a: float, given: tuple[Gas, Gas, str]
) -> dict[str, Any]:
    """What the vessel or the air given does when the store heats up."""
    atm = i.atmospheric_pressure
    full, half, field = given
    V_N, charge = full
    p_0, cold = v.to_absolute(charge, atm), v.to_absolute(p_a, atm)
    V_g = v.gas_when_cold(V_N, p_0, cold)
    require(
        dV < V_g,
        "expansion-beyond-gas-volume",
        field,
        gas=(V_g, "volume", "l"),
        expansion=(dV, "volume", "l"),
    )
    room = v.room_up_to(V_g, V_N, p_0, v.to_absolute(i.expansion_valve, atm))
    return {
        "vessel": V_N,
        "vessel_charge": charge if i.air_gap is None else None,
        "hot_pressure": v.to_gauge(v.pressure_after(p_0, V_N, V_g, dV), atm),
        "valve_lifts": dV > room,
        "water_lost": v.water_lost(dV, room),
        "curve": drawn(_curve, i, V, p_a, full, half),
    }


def kernel(i: HotWaterExpansionInputs, c: Context) -> dict[str, Any]:
    """Expansion of a store, the vessel or the air it needs, and what that does with it."""
    atm = i.atmospheric_pressure
    require(i.cold_temperature < i.hot_temperature, "cold-not-below-hot", "/cold_temperature")
    column = static_pressure(density(i.cold_temperature), i.reducing_valve_height)
    p_a = f.pressure_before_heating(i.supply_pressure, column, i.static_rise)
    require(p_a > 0.0, "no-pressure-at-store", "/reducing_valve_height")
    require(
        p_a < i.expansion_valve,
        "expansion-valve-not-above-supply",
        "/expansion_valve",
        static=(p_a, "pressure_gauge", "bar"),
    )
    V = f.heated_volume(i.store_volume, i.pipe_volume)
    e = v.expansion_fraction(density(i.cold_temperature), density(i.hot_temperature))
    if c.method == FOUR_PER_CENT:
        dV = f.four_per_cent(V)
        e = f.e_4 + 0.0 * e
    else:
        dV = v.expansion_volume(V, e)
    p_e = f.final_pressure(c.value("hot-water-vessel-final-share"), i.expansion_valve)
    require(
        p_a < p_e,
        "no-room-below-expansion-valve",
        "/supply_pressure",
        static=(p_a, "pressure_gauge", "bar"),
        final=(p_e, "pressure_gauge", "bar"),
    )
    eta = v.acceptance(v.to_absolute(p_a, atm), v.to_absolute(p_e, atm))
    size = f.size(dV, eta)
    given = _gas(i, p_a)
    step = f.step_up(i.relief_valve, i.expansion_valve)
    behaviour: dict[str, Any] = dict.fromkeys(BEHAVIOUR)
    if given is not None:
        behaviour = _behaviour(i, V, dV, p_a, given)
    return {
        "static_pressure": p_a,
        "expansion_above_static": f.step_up(i.expansion_valve, p_a),
        "relief_above_expansion": step,
        # Equal settings are no order, and neither are settings apart by rounding alone.
        "expansion_valve_first": step > APART * i.relief_valve,
        "expansion_fraction": e,
        "expansion_volume": dV,
        "final_pressure": p_e,
        "acceptance": eta,
        "size_needed": size,
        "relief_above_static": i.relief_valve > p_a * (1 + APART),
        "vessel_given": given is not None,
        **behaviour,
    }
