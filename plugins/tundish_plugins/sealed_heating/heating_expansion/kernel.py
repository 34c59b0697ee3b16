"""The order of the formulas for a sealed heating system. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import choose, drawn, refuse, require, root
from tundish.physics import water
from tundish.working import note
from tundish_plugins.sealed_heating import fluids
from tundish_plugins.sealed_heating import vessel as v
from tundish_plugins.sealed_heating.heating_expansion import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.heating_expansion.contract import HeatingExpansionInputs

TABLE, EN, ASHRAE = "bs-7074", "en-12828", "ashrae"
_SMALL_VESSEL = 15e-3
_EIGHTY_EIGHT = 361.15
_EN_LOW_SETTING = 5e5
_TWENTY = 293.15
PIECES = 16


def _glycol(i: HeatingExpansionInputs, method: str) -> float | None:
    """Mass share of glycol, or none for water; refuses what the data do not reach."""
    if i.fluid == "water":
        if i.glycol_mass_share is not None or i.glycol_volume_share is not None:
            refuse("glycol-share-of-water", "/fluid")
        return None
    if method == TABLE:
        refuse("table-for-water-only", "/fluid")
    if (i.glycol_mass_share is None) == (i.glycol_volume_share is None):
        refuse("glycol-share-once", "/glycol_mass_share")
    x = i.glycol_mass_share
    field = "/glycol_mass_share"
    if x is None:
        assert i.glycol_volume_share is not None
        field = "/glycol_volume_share"
        x = _mass_share(i.fluid, i.glycol_volume_share)
    require(fluids.known(x), "glycol-outside-data", field)
    require(i.maximum_temperature <= fluids.HOTTEST, "glycol-too-hot", "/maximum_temperature")
    return x


def _mass_share(fluid: str, phi: float) -> float:

    return fluids.mass_share(phi, fluids.PURE[fluid], water.density(_TWENTY))


def _en_final(p_sv: float) -> float:
    found: float = choose(
        p_sv <= _EN_LOW_SETTING,
        f.en_final_low,
        f.en_final_high,
        p_sv,
        why="relief setting up to 5 bar",
    )
    return found


def _en_size(dV: float, C: float, p_0: float, p_e: float) -> tuple[float, float]:
    """Size and reserve: over 15 litre the reserve goes by the content, below it by the vessel."""
    k = f.pressure_factor(p_0, p_e)
    V_R = f.reserve_of_content(C)
    V_N = f.en_size(dV, V_R, k)

    def large(dV: float, k: float, V_N: float, V_R: float) -> tuple[float, float]:
        del dV, k
        return V_N, V_R

    def small(dV: float, k: float, V_N: float, V_R: float) -> tuple[float, float]:
        del V_N, V_R
        V = f.en_small_size(dV, k)
        return V, f.small_reserve(V)

    found: tuple[float, float] = choose(
        V_N > _SMALL_VESSEL, large, small, dV, k, V_N, V_R, why="vessel over 15 litre"
    )
    return found


def _table_size(C: float, p_c: float, p_i: float, p_f: float, T_max: float) -> float:
    V = f.table_size(C, p_c, p_i, p_f)
    found: float = choose(
        T_max < _EIGHTY_EIGHT, f.below_88, lambda V: V, V, why="highest temperature below 88 °C"
    )
    return found


class _Vessel:
    """A vessel filled cold: what it does as the content expands. Pressures are absolute."""

    def __init__(self, V_N: float, p_0: float, p_a: float, p_sv: float) -> None:
        self.V_N, self.p_0 = V_N, p_0
        self.V_g = v.gas_when_cold(V_N, p_0, p_a)
        self.room = v.room_up_to(self.V_g, V_N, p_0, p_sv)

    def pressure(self, dV: float) -> float:
        """Pressure when the valve stays shut."""
        return v.pressure_after(self.p_0, self.V_N, self.V_g, dV)

    def held(self, dV: float) -> float:
        """Pressure with the relief valve holding it."""
        return self.pressure(v.taken_at_most(dV, self.room))


def _curve(
    i: HeatingExpansionInputs, x: float | None, V_N: float, p_c: float, p_i: float, p_sv: float
) -> dict[str, Any]:
    """Gauge readings over temperature; p_c and p_sv in gauge pressure at the vessel."""
    atm, T_0 = i.atmospheric_pressure, i.fill_temperature
    rho_0 = fluids.density(i.fluid, x, T_0)
    column = v.static_pressure(rho_0, i.gauge_height)
    T = [T_0 + (i.maximum_temperature - T_0) * (k / PIECES) for k in range(PIECES + 1)]
    taken = [
        v.expansion_volume(
            i.system_volume, v.expansion_fraction(rho_0, fluids.density(i.fluid, x, t))
        )
        for t in T
    ]

    def readings(charge: float) -> list[float]:
        vessel = _Vessel(V_N, charge + atm, p_i + atm, p_sv + atm)
        # A cold vessel charged above the fill holds no water: the gauge then reads the fill.
        first = [p_i - column]
        return first + [vessel.held(dV) - atm - column for dV in taken[1:]]

    return {
        "temperature": T,
        "gauge": readings(p_c),
        "half_charge": readings(0.5 * p_c),
        "no_charge": readings(0.0 * p_c),
    }


def kernel(i: HeatingExpansionInputs, c: Context) -> dict[str, Any]:
    """Expansion of the content, the vessel it needs, and what a vessel does with it."""
    method = c.method
    if i.uncontrolled_heat_source:
        refuse("uncontrolled-heat-source", "/uncontrolled_heat_source")
    C, T_0, T_1, atm = (
        i.system_volume,
        i.fill_temperature,
        i.maximum_temperature,
        i.atmospheric_pressure,
    )
    require(T_0 < T_1, "fill-not-below-maximum", "/fill_temperature")
    x = _glycol(i, method)
    rho_0 = fluids.density(i.fluid, x, T_0)
    e = v.expansion_fraction(rho_0, fluids.density(i.fluid, x, T_1))
    dV = v.expansion_volume(C, e)

    p_st = v.static_pressure(rho_0, i.height)
    p_sv = f.raised(i.relief_setting, v.static_pressure(rho_0, i.relief_height))
    require(
        p_st < p_sv,
        "relief-below-static",
        "/relief_setting",
        static=(p_st, "pressure_gauge", "bar"),
    )
    p_c = f.raised(p_st, c.value("sealed-charge-above-static")) if i.charge is None else i.charge
    p_i = f.raised(p_c, c.value("sealed-fill-above-charge")) if i.fill is None else i.fill
    require(p_c <= p_i, "charge-above-fill", "/charge" if i.charge is not None else "/fill")

    V_R = None
    if method == TABLE:
        note("The British table keeps its own atmosphere of 1.0 bar.")
        p_e = f.table_final(p_sv)
    else:
        p_e = _en_final(p_sv) if method == EN else f.ashrae_final(p_sv)
    require(p_i < p_e, "fill-not-below-final", "/fill", final=(p_e, "pressure_gauge", "bar"))
    if method == TABLE:
        size = _table_size(C, p_c, p_i, p_e, T_1)
    elif method == EN:
        size, V_R = _en_size(dV, C, v.to_absolute(p_c, atm), v.to_absolute(p_e, atm))
    else:
        size = f.ashrae_size(
            C,
            e,
            f.STRETCH[i.pipe_material],
            f.rise(T_1, T_0),
            v.to_absolute(p_i, atm),
            v.to_absolute(p_e, atm),
        )

    V_N = size if i.vessel_volume is None else i.vessel_volume
    reading = p_c if i.vessel_charge is None else i.vessel_charge
    require(reading < p_sv, "charge-above-relief", "/vessel_charge")
    vessel = _Vessel(
        V_N, v.to_absolute(reading, atm), v.to_absolute(p_i, atm), v.to_absolute(p_sv, atm)
    )
    require(
        dV < vessel.V_g,
        "expansion-beyond-gas-volume",
        "/vessel_volume",
        gas=(vessel.V_g, "volume", "l"),
        expansion=(dV, "volume", "l"),
    )
    hot = v.to_gauge(vessel.pressure(dV), atm)
    lifts = dV > vessel.room
    lost = v.water_lost(dV, vessel.room)
    left = v.water_left(V_N, vessel.V_g, lost)
    column = v.static_pressure(rho_0, i.gauge_height)

    def gap(T: float, C: float, rho_0: float, room: float, x: float | None) -> float:
        grown = v.expansion_volume(C, v.expansion_fraction(rho_0, fluids.density(i.fluid, x, T)))
        return f.gap_to_relief(room, grown)

    def lift(T_0: float, T_1: float, *rest: Any) -> float:
        return root(lambda T: gap(T, *rest), T_0, T_1, what="temperature at which the valve lifts")

    def shut(T_0: float, T_1: float, *rest: Any) -> float:
        del T_0, rest
        return T_1

    safe = choose(
        lifts, lift, shut, T_0, T_1, C, rho_0, vessel.room, x, why="the relief valve lifts"
    )
    return {
        "expansion_fraction": e,
        "expansion_volume": dV,
        "static_pressure": p_st,
        "charge": p_c,
        "fill": p_i,
        "relief_at_vessel": p_sv,
        "final_pressure": p_e,
        "reserve": V_R,
        "size_needed": size,
        "basis_unconfirmed": method == EN,
        "vessel": V_N,
        "vessel_charge": reading,
        "gas_volume_cold": vessel.V_g,
        "hot_pressure": hot,
        "gauge_cold": f.lowered(p_i, column),
        "gauge_hot": f.lowered(v.to_gauge(vessel.held(dV), atm), column),
        "relief_lifts": lifts,
        "safe_temperature": safe,
        "water_lost": lost,
        "water_left": left,
        "keeps_water": left >= 0.0,
        "top_pressure_cold": f.lowered(p_i, p_st),
        "curve": drawn(_curve, i, x, V_N, reading, p_i, p_sv),
    }
