"""The order of the formulas for a sealed heating system. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import choose, drawn, refuse, require, root
from tundish.physics import water
from tundish.physics.hydrostatics import static_pressure
from tundish.working import note
from tundish_plugins.sealed_heating import fluids
from tundish_plugins.sealed_heating import vessel as v
from tundish_plugins.sealed_heating.content import mass_share_of
from tundish_plugins.sealed_heating.heating_expansion import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row
    from tundish_plugins.sealed_heating.heating_expansion.contract import HeatingExpansionInputs

TABLE, EN, ASHRAE = "bs-7074", "en-12828", "ashrae"
PIECES = 16
_SAME = 1 + 1e-9  # one pressure in two units


def _basis(i: HeatingExpansionInputs, c: Context) -> Row:
    """Figures of the published basis that was asked for."""
    rule = f"sealed-basis-{c.method}"
    if c.method == ASHRAE:
        return c.table(rule).at("/pipe_material").exact(pipe_material=i.pipe_material)
    return c.table(rule).exact(basis=c.method)


def _glycol(i: HeatingExpansionInputs, method: str) -> float | None:
    """Mass share of glycol, or none for water; refuses what the data do not reach."""
    if i.fluid != "water" and method == TABLE:
        refuse("table-for-water-only", "/fluid")
    x = mass_share_of(i)
    if x is None:
        return None
    require(i.maximum_temperature <= fluids.HOTTEST, "glycol-too-hot", "/maximum_temperature")
    return x


def _charge_by_height(i: HeatingExpansionInputs, c: Context, p_st: float) -> float:
    """Charge above the column by as much as the limit of the boiler asks for."""
    table = c.table("sealed-charge-above-static").at("/maximum_temperature")
    row = table.next_larger("limit_temperature", i.maximum_temperature)
    return f.raised(p_st, row["supplement"])


def _charge_and_fill(
    i: HeatingExpansionInputs, c: Context, customary: float
) -> tuple[float, float]:
    """Charge and cold fill at the vessel, in gauge pressure; the handbook takes them as one."""
    p_c, p_i = i.charge, i.fill
    if c.method == ASHRAE and (p_c is not None or p_i is not None):
        p_c, p_i = (p_i if p_c is None else p_c), (p_c if p_i is None else p_i)
    if p_c is None:
        p_c = customary
    if p_i is None:
        p_i = f.raised(p_c, c.value("sealed-fill-above-charge"))
        if c.method == ASHRAE:
            p_c = p_i
    field = "/charge" if i.charge is not None else "/fill"
    require(p_c <= p_i, "charge-above-fill", field)
    if c.method == ASHRAE:
        require(p_i <= p_c * _SAME, "charge-not-fill", field)
    return p_c, p_i


def _final(i: HeatingExpansionInputs, method: str, basis: Row) -> float:
    """Final pressure where the relief valve sits: it goes by the setting, not by the column."""
    p_sv = i.relief_setting
    if method == TABLE:
        return f.final_by_margin(p_sv, basis["margin"])
    if method == ASHRAE:
        return f.final_by_share(p_sv, basis["final_share"])
    found: float = choose(
        p_sv <= basis["margin_up_to"],
        lambda p_sv: f.final_by_margin(p_sv, basis["margin"]),
        lambda p_sv: f.final_by_share(p_sv, basis["share_above"]),
        p_sv,
        why="relief setting for which the margin is a pressure",
    )
    return found


def _en_size(dV: float, C: float, p_0: float, p_e: float, basis: Row) -> tuple[float, float]:
    """Size and reserve: the reserve goes by the content, in a small vessel by the vessel."""
    k = f.pressure_factor(p_0, p_e)
    V_R = f.reserve_of_content(C, basis["reserve_share"], basis["reserve_least"])
    V_N = f.en_size(dV, V_R, k)

    def large(dV: float, k: float, V_N: float, V_R: float) -> tuple[float, float]:
        del dV, k
        return V_N, V_R

    def small(dV: float, k: float, V_N: float, V_R: float) -> tuple[float, float]:
        del V_N, V_R
        V = f.en_small_size(dV, k, basis["small_reserve_share"])
        return V, f.small_reserve(V, basis["small_reserve_share"])

    found: tuple[float, float] = choose(
        V_N > basis["small_vessel"],
        large,
        small,
        dV,
        k,
        V_N,
        V_R,
        why="vessel larger than what counts as small",
    )
    return found


def _table_size(
    C: float, e: float, pressures: tuple[float, float, float], T_max: float, basis: Row
) -> float:
    note("The British table keeps its own atmosphere, and one expansion for every temperature.")
    require(e <= basis["expansion"], "table-expansion-exceeded", "/maximum_temperature")
    V = f.table_size(C, basis["expansion"], *pressures, basis["atmosphere"])
    found: float = choose(
        T_max < basis["reduced_below"],
        lambda V: f.reduced(V, basis["reduction"]),
        lambda V: V,
        V,
        why="highest temperature for which the table is reduced",
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
    column = static_pressure(rho_0, i.gauge_height)
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


_NO_VESSEL: dict[str, Any] = dict.fromkeys(
    (
        "gas_volume_cold",
        "hot_pressure",
        "gauge_hot",
        "relief_lifts",
        "safe_temperature",
        "water_lost",
        "water_left",
        "keeps_water",
        "curve",
    )
)


def _judged(
    i: HeatingExpansionInputs,
    content: tuple[float | None, float, float],
    pressures: tuple[float, float, float],
    column: float,
) -> dict[str, Any]:
    """What the vessel that is given does.

    ``content`` is glycol share, density at filling and expansion; ``pressures`` are charge, fill and
    relief setting in gauge pressure at the vessel; ``column`` is the water from there to the gauge.
    """
    V_N, C, T_0, T_1 = i.vessel_volume, i.system_volume, i.fill_temperature, i.maximum_temperature
    assert V_N is not None
    x, rho_0, dV = content
    p_c, p_i, p_sv = pressures
    atm = i.atmospheric_pressure
    vessel = _Vessel(
        V_N, v.to_absolute(p_c, atm), v.to_absolute(p_i, atm), v.to_absolute(p_sv, atm)
    )
    require(
        dV < vessel.V_g,
        "expansion-beyond-gas-volume",
        "/vessel_volume",
        gas=(vessel.V_g, "volume", "l"),
        expansion=(dV, "volume", "l"),
    )
    lost = v.water_lost(dV, vessel.room)
    left = v.water_left(V_N, vessel.V_g, lost)

    def gap(T: float, C: float, rho_0: float, room: float, x: float | None) -> float:
        grown = v.expansion_volume(C, v.expansion_fraction(rho_0, fluids.density(i.fluid, x, T)))
        return f.gap_to_relief(room, grown)

    def lift(T_0: float, T_1: float, *rest: Any) -> float:
        return root(lambda T: gap(T, *rest), T_0, T_1, what="temperature at which the valve lifts")

    def shut(T_0: float, T_1: float, *rest: Any) -> float:
        del T_0, rest
        return T_1

    lifts = dV > vessel.room
    safe = choose(
        lifts, lift, shut, T_0, T_1, C, rho_0, vessel.room, x, why="the relief valve lifts"
    )
    return {
        "gas_volume_cold": vessel.V_g,
        "hot_pressure": v.to_gauge(vessel.pressure(dV), atm),
        "gauge_hot": f.lowered(v.to_gauge(vessel.held(dV), atm), column),
        "relief_lifts": lifts,
        "safe_temperature": safe,
        "water_lost": lost,
        "water_left": left,
        "keeps_water": left >= 0.0,
        "curve": drawn(_curve, i, x, V_N, p_c, p_i, p_sv),
    }


def _check(i: HeatingExpansionInputs) -> None:
    """Refuse what contradicts itself before anything is computed."""
    if i.uncontrolled_heat_source:
        refuse("uncontrolled-heat-source", "/uncontrolled_heat_source")
    if i.vessel_volume is None and i.vessel_charge is not None:
        refuse("vessel-volume-missing", "/vessel_charge")
    require(
        i.fill_temperature < i.maximum_temperature, "fill-not-below-maximum", "/fill_temperature"
    )
    require(i.relief_height <= i.height, "above-highest-point", "/relief_height")
    require(i.gauge_height <= i.height, "above-highest-point", "/gauge_height")


def kernel(i: HeatingExpansionInputs, c: Context) -> dict[str, Any]:
    """Expansion of the content, the vessel it needs, and what a vessel does with it."""
    _check(i)
    method, basis = c.method, _basis(i, c)
    C, atm = i.system_volume, i.atmospheric_pressure
    T_0, T_1 = i.fill_temperature, i.maximum_temperature
    x = _glycol(i, method)
    rho_0 = fluids.density(i.fluid, x, T_0)
    e = v.expansion_fraction(rho_0, fluids.density(i.fluid, x, T_1))
    dV = v.expansion_volume(C, e)

    p_st = static_pressure(rho_0, i.height)
    to_valve = static_pressure(rho_0, i.relief_height)
    p_sv = f.raised(i.relief_setting, to_valve)
    require(
        p_st < p_sv,
        "relief-below-static",
        "/relief_setting",
        static=(p_st, "pressure_gauge", "bar"),
    )
    customary = _charge_by_height(i, c, p_st)
    p_c, p_i = _charge_and_fill(i, c, customary)
    top = f.lowered(p_i, p_st)
    require(
        v.to_absolute(top, atm) > 0.0,
        "no-pressure-at-top",
        "/fill" if i.fill is not None else "/charge",
        fill=(p_i, "pressure_gauge", "bar"),
        static=(p_st, "pressure_gauge", "bar"),
    )
    p_e = f.raised(_final(i, method, basis), to_valve)
    require(p_i < p_e, "fill-not-below-final", "/fill", final=(p_e, "pressure_gauge", "bar"))

    charged, filled = v.to_absolute(p_c, atm), v.to_absolute(p_i, atm)
    final = v.to_absolute(p_e, atm)
    V_R = None
    if method == TABLE:
        published = _table_size(C, e, (p_c, p_i, p_e), T_1, basis)
    elif method == EN:
        published, V_R = _en_size(dV, C, charged, final, basis)
    else:
        published = f.ashrae_size(C, e, basis["stretch"], f.rise(T_1, T_0), filled, final)
    by_boyle = f.size_by_boyle(dV, charged, filled, final)

    reading = p_c if i.vessel_charge is None else i.vessel_charge
    require(reading < p_sv, "charge-above-relief", "/vessel_charge")
    column = static_pressure(rho_0, i.gauge_height)
    p_s = water.saturation_pressure(T_1)
    outputs = {
        "expansion_fraction": e,
        "expansion_volume": dV,
        "static_pressure": p_st,
        "charge_customary": customary,
        "charge": p_c,
        "fill": p_i,
        "relief_at_vessel": p_sv,
        "final_pressure": p_e,
        "reserve": V_R,
        "basis_size": published,
        "boyle_size": by_boyle,
        "size_needed": f.size_needed(published, by_boyle),
        "vessel_given": i.vessel_volume is not None,
        "vessel_charge": reading,
        "gauge_cold": f.lowered(p_i, column),
        "top_pressure_cold": top,
        "saturation_pressure": p_s,
        "top_pressure_least": f.least_at_top(p_s, c.value("sealed-top-above-boiling"), atm),
        "pressure_at_lift": f.raised(
            i.relief_setting,
            static_pressure(rho_0, f.drop_below_valve(i.relief_height, i.gauge_height)),
        ),
    }
    if i.vessel_volume is None:
        return {**outputs, **_NO_VESSEL}
    return {**outputs, **_judged(i, (x, rho_0, dV), (reading, p_i, p_sv), column)}
