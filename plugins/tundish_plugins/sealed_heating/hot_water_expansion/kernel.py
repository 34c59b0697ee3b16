"""The order of the formulas for the expansion of stored hot water. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, require
from tundish.physics.water import density
from tundish_plugins.sealed_heating import vessel as v
from tundish_plugins.sealed_heating.hot_water_expansion import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.hot_water_expansion.contract import HotWaterExpansionInputs

FOUR_PER_CENT, DENSITIES = "four-per-cent", "water-densities"
PIECES = 16


def _curve(i: HotWaterExpansionInputs, V: float, V_N: float, charge: float) -> dict[str, Any]:
    """Pressure over temperature by the densities; the expansion valve holds it."""
    atm, T_0 = i.atmospheric_pressure, i.cold_temperature
    T = [T_0 + (i.hot_temperature - T_0) * (k / PIECES) for k in range(PIECES + 1)]
    grown = [v.expansion_volume(V, v.expansion_fraction(density(T_0), density(t))) for t in T]

    def pressures(p_0: float) -> list[float]:
        cold, lift = i.supply_pressure + atm, i.expansion_valve + atm
        V_g = v.gas_when_cold(V_N, p_0 + atm, cold)
        room = v.room_up_to(V_g, V_N, p_0 + atm, lift)
        rest = [
            v.pressure_after(p_0 + atm, V_N, V_g, v.taken_at_most(dV, room)) - atm
            for dV in grown[1:]
        ]
        return [i.supply_pressure + 0.0 * V_N, *rest]

    return {"temperature": T, "pressure": pressures(charge), "half_charge": pressures(0.5 * charge)}


def kernel(i: HotWaterExpansionInputs, c: Context) -> dict[str, Any]:
    """Expansion of a store, the vessel it needs, and what a vessel does with it."""
    atm = i.atmospheric_pressure
    require(i.cold_temperature < i.hot_temperature, "cold-not-below-hot", "/cold_temperature")
    require(
        i.supply_pressure < i.expansion_valve,
        "expansion-valve-not-above-supply",
        "/expansion_valve",
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
        i.supply_pressure < p_e,
        "no-room-below-expansion-valve",
        "/supply_pressure",
        final=(p_e, "pressure_gauge", "bar"),
    )
    cold, lift = v.to_absolute(i.supply_pressure, atm), v.to_absolute(i.expansion_valve, atm)
    eta = v.acceptance(cold, v.to_absolute(p_e, atm))
    size = f.size(dV, eta)

    V_N = size if i.vessel_volume is None else i.vessel_volume
    charge = i.supply_pressure if i.vessel_charge is None else i.vessel_charge
    require(charge < i.expansion_valve, "charge-above-expansion-valve", "/vessel_charge")
    p_0 = v.to_absolute(charge, atm)
    V_g = v.gas_when_cold(V_N, p_0, cold)
    require(
        dV < V_g,
        "expansion-beyond-gas-volume",
        "/vessel_volume",
        gas=(V_g, "volume", "l"),
        expansion=(dV, "volume", "l"),
    )
    room = v.room_up_to(V_g, V_N, p_0, lift)
    return {
        "expansion_fraction": e,
        "expansion_volume": dV,
        "final_pressure": p_e,
        "acceptance": eta,
        "size_needed": size,
        "vessel": V_N,
        "vessel_charge": charge,
        "hot_pressure": v.to_gauge(v.pressure_after(p_0, V_N, V_g, dV), atm),
        "valve_lifts": dV > room,
        "water_lost": v.water_lost(dV, room),
        "curve": drawn(_curve, i, V, V_N, charge),
    }
