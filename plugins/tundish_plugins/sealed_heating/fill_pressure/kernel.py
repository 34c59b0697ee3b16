"""The order of the formulas for the pressures in a sealed system. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import refuse, require
from tundish.physics import water
from tundish.physics.hydrostatics import static_pressure
from tundish.working import part
from tundish_plugins.sealed_heating import fluids
from tundish_plugins.sealed_heating import vessel as v
from tundish_plugins.sealed_heating.content import mass_share_of
from tundish_plugins.sealed_heating.fill_pressure import formulas as f
from tundish_plugins.sealed_heating.heating_expansion.formulas import least_at_top, lowered, raised

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.fill_pressure.contract import FillPressureInputs, Level

OUTLET, INLET = 0.0, 1.0
"""Shares of the pump's pressure used up at its outlet and its inlet."""


def _check(i: FillPressureInputs) -> None:
    """Refuse what contradicts itself before anything is computed."""
    require(
        i.fill_temperature < i.maximum_temperature, "fill-not-below-maximum", "/fill_temperature"
    )
    if i.fill is not None and i.gauge_reading is not None:
        refuse("fill-given-twice", "/gauge_reading")
    if (i.system_volume is None) != (i.vessel_volume is None):
        missing = "vessel_volume" if i.vessel_volume is None else "system_volume"
        refuse("hot-incomplete", f"/{missing}")
    if i.hot_pressure is not None and i.vessel_volume is not None:
        refuse("hot-given-twice", "/hot_pressure")


def _glycol(i: FillPressureInputs) -> float | None:
    x = mass_share_of(i)
    if x is not None:
        require(i.maximum_temperature <= fluids.HOTTEST, "glycol-too-hot", "/maximum_temperature")
    return x


@dataclass(frozen=True)
class _Water:
    """Water at one temperature, in columns and in the pump."""

    rho: float
    pump: float

    def column(self, h: float) -> float:
        """Pressure of a column."""
        return static_pressure(self.rho, h)


def _water(i: FillPressureInputs, x: float | None, T: float) -> _Water:
    rho = fluids.density(i.fluid, x, T)
    return _Water(rho, f.pump_pressure(rho, i.pump_head))


def _position(given: float | None, worst: float) -> float:
    return worst if given is None else given


@dataclass(frozen=True)
class _Place:
    """What a level adds to the pressure at the vessel."""

    level: Level
    cold: float
    hot: float
    most: float  # of the two columns: hot water is lighter, which below the vessel takes pressure
    pull: float  # the pump on, the least


def _places(i: FillPressureInputs, cold: _Water, hot: _Water) -> list[_Place]:
    found = []
    for level in i.levels:
        with part("level", level.name):
            x = _position(level.position, INLET)
            pull = f.pump_adds(cold.pump, i.vessel_position, x)
            columns = cold.column(level.height), hot.column(level.height)
            found.append(_Place(level, *columns, f.higher(*columns), pull))
    return found


def _needed(
    i: FillPressureInputs, c: Context, places: list[_Place], least: float
) -> tuple[float, float, float]:
    """Column up to the highest level, fill and charge needed."""
    p_st = 0.0 * places[0].cold
    for place in places:
        p_st = f.higher(p_st, place.cold)
    table = c.table("sealed-charge-above-static").at("/maximum_temperature")
    row = table.next_larger("limit_temperature", i.maximum_temperature)
    above = c.value("sealed-fill-above-charge")
    p_a = raised(raised(p_st, row["supplement"]), above)
    wanted = f.higher(least, c.value("sealed-top-pressure-least"))
    for place in places:
        with part("level", place.level.name):
            pull = f.lower(0.0 * place.pull, place.pull)
            p_a = f.higher(p_a, lowered(raised(wanted, place.most), pull))
    p_0 = lowered(p_a, above)
    if i.charge is not None:
        p_a = f.higher(p_a, raised(i.charge, above))
    return p_st, p_a, p_0


def _hot(i: FillPressureInputs, x: float | None, p_0: float, p_a: float) -> float | None:
    """Hot pressure at the vessel, the relief valve staying shut: given, or by Boyle's law."""
    if i.hot_pressure is not None:
        require(i.hot_pressure >= p_a, "hot-below-fill", "/hot_pressure")
        return i.hot_pressure
    if i.vessel_volume is None or i.system_volume is None:
        return None
    atm, V_N = i.atmospheric_pressure, i.vessel_volume
    rho_0, rho_1 = (
        fluids.density(i.fluid, x, T) for T in (i.fill_temperature, i.maximum_temperature)
    )
    dV = v.expansion_volume(i.system_volume, v.expansion_fraction(rho_0, rho_1))
    charge = v.to_absolute(p_0, atm)
    V_g = v.gas_when_cold(V_N, charge, v.to_absolute(p_a, atm))
    require(
        dV < V_g,
        "expansion-beyond-gas-volume",
        "/vessel_volume",
        gas=(V_g, "volume", "l"),
        expansion=(dV, "volume", "l"),
    )
    return v.to_gauge(v.pressure_after(charge, V_N, V_g, dV), atm)


class _Pressures:
    """Pressures of a system at its levels; all gauge."""

    def __init__(self, i: FillPressureInputs, cold: _Water, hot: _Water) -> None:
        self.i, self.cold, self.hot = i, cold, hot
        self.lift = raised(i.relief_setting, cold.column(i.relief_height))
        self.lift_hot = raised(i.relief_setting, hot.column(i.relief_height))

    def at(self, place: _Place, p_a: float, p_e: float | None) -> dict[str, Any]:
        """Pressures at one level with a fill and perhaps a hot pressure at the vessel."""
        i, level = self.i, place.level
        still = lowered(p_a, place.cold)
        least = lowered(p_a, place.most)
        # Of the two columns between valve and level that counts which leaves more pressure here.
        lift = f.higher(lowered(self.lift, place.cold), lowered(self.lift_hot, place.hot))
        x = _position(level.position, OUTLET)
        # The valve feels its own share of the pump; this level may feel more, never reckoned less.
        more = f.pump_adds(self.cold.pump, _position(i.relief_position, INLET), x)
        above = f.higher(0.0 * more, more)
        found: dict[str, Any] = {
            "name": level.name,
            "height": level.height,
            "cold": still,
            "cold_pump": raised(still, place.pull),
            "hot": None,
            "hot_pump": None,
            "lowest": f.lower(least, raised(least, place.pull)),
            "at_lift": raised(lift, above),
            "rating": level.rating,
        }
        if p_e is not None:
            found["hot"] = lowered(p_e, place.hot)
            push = f.pump_adds(self.hot.pump, i.vessel_position, x)
            found["hot_pump"] = raised(found["hot"], push)
        return found

    def hot_at_relief(self, p_e: float) -> float:
        """Pressure that the relief valve feels, hot; the pump may add to it."""
        i = self.i
        push = f.pump_adds(self.hot.pump, i.vessel_position, _position(i.relief_position, OUTLET))
        still = lowered(p_e, self.hot.column(i.relief_height))
        return raised(still, f.higher(0.0 * push, push))


def kernel(i: FillPressureInputs, c: Context) -> dict[str, Any]:
    """What to charge and fill to, and the pressure at every level."""
    _check(i)
    x, atm = _glycol(i), i.atmospheric_pressure
    cold, hot = _water(i, x, i.fill_temperature), _water(i, x, i.maximum_temperature)
    p_s = water.saturation_pressure(i.maximum_temperature)
    least = least_at_top(p_s, c.value("sealed-top-above-boiling"), atm)
    places = _places(i, cold, hot)
    p_st, fill_needed, charge_needed = _needed(i, c, places, least)

    to_gauge = cold.column(i.gauge_height)
    p_a = fill_needed if i.fill is None else i.fill
    if i.gauge_reading is not None:
        p_a = raised(i.gauge_reading, to_gauge)
    field = "/fill" if i.gauge_reading is None else "/gauge_reading"
    p_0 = charge_needed if i.charge is None else i.charge
    pressures = _Pressures(i, cold, hot)
    require(
        p_a < pressures.lift,
        "relief-below-fill",
        "/relief_setting",
        fill=(p_a, "pressure_gauge", "bar"),
    )
    for place in places:
        still = lowered(p_a, place.most)
        require(
            v.to_absolute(f.lower(still, raised(still, place.pull)), atm) > 0.0,
            "no-pressure-at-level",
            field,
            level=place.level.name,
        )
    p_e = _hot(i, x, p_0, p_a)
    levels = []
    for place in places:
        with part("level", place.level.name):
            levels.append(pressures.at(place, p_a, p_e))
    return {
        "static_pressure": p_st,
        "charge_needed": charge_needed,
        "fill_needed": fill_needed,
        "gauge_needed": lowered(fill_needed, to_gauge),
        "charge": p_0,
        "fill": p_a,
        "gauge_cold": lowered(p_a, to_gauge),
        "hot_pressure": p_e,
        "gauge_hot": None if p_e is None else lowered(p_e, hot.column(i.gauge_height)),
        "hot_at_relief": None if p_e is None else pressures.hot_at_relief(p_e),
        "pump_pressure": cold.pump,
        "saturation_pressure": p_s,
        "least_pressure": least,
        "ratings_given": all(level.rating is not None for level in i.levels),
        "hot_known": p_e is not None,
        "levels": levels,
        "profile": {
            key: [level[key] for level in levels] for key in ("height", "cold", "lowest", "at_lift")
        },
    }
