"""The order of the formulas for the condensate of a boiler. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import any_of, choose, drawn, larger, not_, refuse, require, root
from tundish.physics import flue_gas, water
from tundish.working import part
from tundish_plugins.condensate.quantity import formulas as f
from tundish_plugins.gas.combustion import formulas as burning
from tundish_plugins.gas.mixture import checked
from tundish_plugins.gas.pipe_sizing.formulas import mixture_molar_volume

if TYPE_CHECKING:
    from tundish.leaves import Based
    from tundish.rules import Context
    from tundish_plugins.condensate.quantity.contract import Measured, Point, QuantityInputs

_COLDEST, _HOTTEST = 273.16, 373.15  # between which a dew point is looked for
_CURVE_FROM, _CURVE_STEP, _CURVE_POINTS = 288.15, 2.5, 23
_LIQUID = "liquid"


@dataclass(frozen=True)
class Fuel:
    """What a mole of the fuel needs and makes."""

    water: float
    air: float
    dry: float
    most: float  # highest share of carbon dioxide in dry flue gas
    gross: float
    net: float
    molar_volume: Any  # none of a liquid


def _burnt(amounts: tuple[Any, ...], gross: float, net: float, volume: Any, field: str) -> Fuel:
    O_min, n_CO2, n_H2O, n_N2 = amounts
    require(O_min > 0.0, "fuel-does-not-burn", field)
    L_min = flue_gas.air_needed(O_min)
    V_min = flue_gas.dry_flue_gas_least(n_CO2, n_N2, L_min)
    most = flue_gas.most_carbon_dioxide(n_CO2, V_min)
    return Fuel(n_H2O, L_min, V_min, most, gross, net, volume)


def _mixture(i: QuantityInputs, c: Context) -> Fuel:
    assert i.composition is not None
    x, rows = checked(i.composition, c.table("gas-components"))
    table = c.table("gas-combustion")
    burnt = [
        table.at(f"/composition/{k}/gas").exact(gas=item.gas)
        for k, item in enumerate(i.composition)
    ]
    amounts = (
        flue_gas.oxygen_needed(x, [row["oxygen"] for row in burnt]),
        flue_gas.carbon_dioxide_made(x, [row["carbon_dioxide"] for row in burnt]),
        flue_gas.water_made(x, [row["water"] for row in burnt]),
        flue_gas.nitrogen_of_fuel(x, [row["nitrogen"] for row in burnt]),
    )
    gross = burning.gross_heating_value(x, [row["gross"] for row in rows])
    net = burning.net_heating_value(x, [row["net"] for row in rows])
    volume = mixture_molar_volume(x, [row["molar_volume"] for row in rows])
    return _burnt(amounts, gross, net, volume, "/composition")


def _named(name: str, c: Context) -> Fuel:
    named = c.table("condensate-fuels").at("/fuel").exact(fuel=name)
    if named["state"] == _LIQUID:
        row = c.table("condensate-liquid-fuels").exact(substance=named["stands_for_it"])
        heat, volume = row, None
    else:
        heat = c.table("gas-components").exact(gas=named["stands_for_it"])
        row, volume = c.table("gas-combustion").exact(gas=heat["gas"]), heat["molar_volume"]
    amounts = (row["oxygen"], row["carbon_dioxide"], row["water"], row["nitrogen"])
    return _burnt(amounts, heat["gross"], heat["net"], volume, "/fuel")


def _fuel(i: QuantityInputs, c: Context) -> Fuel:
    if i.composition is None:
        if i.fuel is None:
            refuse("fuel-missing", "/fuel")
        assert i.fuel is not None
        return _named(i.fuel, c)
    if i.fuel is not None:
        refuse("fuel-given-twice", "/fuel")
    return _mixture(i, c)


def _both(given: Based, fuel: Fuel) -> tuple[float, float]:
    """Net and gross heat input."""
    if given.basis == "net":
        return given.value, burning.gross_of_net(given.value, fuel.gross, fuel.net)
    return burning.net_of_gross(given.value, fuel.net, fuel.gross), given.value


# --- an operating point ---------------------------------------------------------------------------


def _sample(point: Point, fuel: Fuel, where: str) -> tuple[float, float, float]:
    """Air ratio, oxygen and carbon dioxide of the dry flue gas: one of them is given."""
    given = (point.air_ratio, point.oxygen, point.carbon_dioxide)
    count = sum(item is not None for item in given)
    if count == 0:
        refuse("air-missing", f"{where}/air_ratio")
    if count > 1:  # structure
        refuse("air-given-twice", f"{where}/air_ratio")
    if point.carbon_dioxide is not None:
        require(
            point.carbon_dioxide < fuel.most * (1 - 1e-9),
            "carbon-dioxide-above-most",
            f"{where}/carbon_dioxide",
            most=(fuel.most, "volume_fraction", "%"),
        )
        o2 = flue_gas.oxygen_beside(point.carbon_dioxide, fuel.most)
        return flue_gas.air_ratio(fuel.dry, fuel.air, o2), o2, point.carbon_dioxide
    if point.oxygen is not None:
        o2 = point.oxygen
        ratio = flue_gas.air_ratio(fuel.dry, fuel.air, o2)
    else:
        assert point.air_ratio is not None
        ratio = point.air_ratio
        o2 = f.oxygen_of_ratio(ratio, fuel.air, flue_gas.dry_flue_gas(fuel.dry, ratio, fuel.air))
    return ratio, o2, flue_gas.carbon_dioxide_beside(o2, fuel.most)


def _flue_temperature(point: Point, where: str) -> float:
    if point.flue_temperature is not None:
        if point.return_temperature is not None:
            refuse("flue-temperature-given-twice", f"{where}/flue_temperature")
        return point.flue_temperature
    if point.return_temperature is None:
        refuse("flue-temperature-missing", f"{where}/flue_temperature")
    if point.approach is None:
        refuse("approach-missing", f"{where}/approach")
    assert point.return_temperature is not None
    assert point.approach is not None
    return f.flue_temperature(point.return_temperature, point.approach)


def _some(n_w: float, V: float, T_f: float, p: float) -> float:
    return flue_gas.water_condensed(n_w, V, water.saturation_pressure(T_f), p)


def _none(n_w: float, V: float, T_f: float, p: float) -> float:
    del V, T_f, p
    return 0.0 * n_w


@dataclass(frozen=True)
class State:
    """Flue gas of an operating point, before it is cooled."""

    fuel: Fuel
    dry: float
    water: float
    dew: float
    pressure: float
    net: float
    rho: float

    def at(self, T_f: float) -> tuple[float, float, float, float]:
        """Moles condensed, their share of the fuel's water, mass and volume flow."""
        n_c = choose(
            T_f < self.dew,
            _some,
            _none,
            self.water,
            self.dry,
            T_f,
            self.pressure,
            why="the flue gas leaves below its dew point",
        )
        m = flue_gas.condensate_flow(n_c, self.fuel.net, self.net)
        share = burning.condensed_share(n_c, self.fuel.water)
        return n_c, share, m, f.volume_flow(m, self.rho)


def _curve(state: State, approach: float) -> dict[str, Any]:
    start = _CURVE_FROM + 0.0 * state.dew
    back = [start + k * _CURVE_STEP for k in range(_CURVE_POINTS)]
    found = [state.at(T + approach) for T in back]
    return {
        "temperature": back,
        "share": [item[1] for item in found],
        "flow": [item[3] for item in found],
    }


def _point(i: QuantityInputs, index: int, fuel: Fuel, rated: float, rho: float) -> dict[str, Any]:
    point, where = i.points[index], f"/points/{index}"
    ratio, o2, co2 = _sample(point, fuel, where)
    T_f = _flue_temperature(point, where)
    V = flue_gas.dry_flue_gas(fuel.dry, ratio, fuel.air)
    n_w = flue_gas.water_in_all(fuel.water, flue_gas.water_of_air(i.air_humidity, ratio, fuel.air))
    y = flue_gas.water_share(n_w, V)
    p_w = flue_gas.vapour_pressure(y, i.pressure)
    dew = root(
        lambda T: water.saturation_pressure(T) - p_w,
        _COLDEST,
        _HOTTEST,
        what="dew point: saturation pressure equals that of the vapour",
        code="no-dew-point",
        field=where,
    )
    net = f.input_at_load(point.load, rated)
    state = State(fuel, V, n_w, dew, i.pressure, net, rho)
    n_c, share, mass, flow = state.at(T_f)
    require(n_c <= fuel.water * (1 + 1e-9), "air-gives-up-water", where)
    approach = 0.0 if point.approach is None else point.approach
    return {
        "name": point.name,
        "heat_input_net": net,
        "air_ratio": ratio,
        "oxygen": o2,
        "carbon_dioxide": co2,
        "water_share": y,
        "dew_point": dew,
        "flue_temperature": T_f,
        "condenses": T_f < dew,
        "condensed_share": share,
        "condensate_mass": mass,
        "condensate_flow": flow,
        "curve": drawn(_curve, state, approach),
    }


# --- a year, acid, a measurement ------------------------------------------------------------------


def _acidity(i: QuantityInputs, c: Context) -> tuple[Any, Any]:
    """Most and least acid: as measured, or as the fuel's condensate is known for."""
    if i.acidity is not None:
        return i.acidity, i.acidity
    table = c.table("condensate-acidity")
    if i.fuel is None or i.fuel not in table.keys("fuel"):
        return None, None
    row = table.exact(fuel=i.fuel)
    return row["ph_from"], row["ph_to"]


def _yearly(used: Based, by_net: float, by_gross: float, rho: float, c: Context) -> dict[str, Any]:
    w = by_net if used.basis == "net" else by_gross
    return {
        "low": f.volume_of_year(c.value("condensate-year-share-low"), w, used.value, rho),
        "high": f.volume_of_year(c.value("condensate-year-share-high"), w, used.value, rho),
        "most": f.volume_of_year(1.0, w, used.value, rho),
    }


def _expected(item: Measured, points: list[dict[str, Any]], net: float) -> Any:
    """The most that the operating points make, at the heat input measured where it was."""
    flows = [
        point["condensate_flow"]
        if item.heat_input is None
        else f.flow_at_input(point["condensate_flow"], net, point["heat_input_net"])
        for point in points
    ]
    return reduce(larger, flows)


def _measured(
    item: Measured, points: list[dict[str, Any]], fuel: Fuel, rated: float, rho: float
) -> dict[str, Any]:
    net = rated if item.heat_input is None else _both(item.heat_input, fuel)[0]
    most = f.volume_flow(flue_gas.condensate_flow(fuel.water, fuel.net, net), rho)
    return {
        "flow": item.flow,
        "ceiling": most,
        "expected": _expected(item, points, net),
        "arrives": any_of(item.flow > 0.0, not_(any_of(*[point["condenses"] for point in points]))),
        "share_of_ceiling": f.share_of_ceiling(item.flow, most),
    }


def kernel(i: QuantityInputs, c: Context) -> dict[str, Any]:
    """Condensate of a boiler: at most, as it runs, in a year."""
    fuel = _fuel(i, c)
    net, gross = _both(i.heat_input, fuel)
    by_net, by_gross = (
        f.water_by_heat(fuel.water, fuel.net),
        f.water_by_heat(fuel.water, fuel.gross),
    )
    metered = normal = None
    if fuel.molar_volume is not None:
        metered = f.water_by_volume(fuel.water, fuel.molar_volume)
        normal = f.water_by_normal_volume(metered)
    rho = water.density(i.condensate_temperature)
    most = flue_gas.condensate_flow(fuel.water, fuel.net, net)
    points = []
    for index, point in enumerate(i.points):
        with part("operating point", point.name):
            points.append(_point(i, index, fuel, net, rho))
    yearly = None if i.yearly_fuel is None else _yearly(i.yearly_fuel, by_net, by_gross, rho, c)
    ph_from, ph_to = _acidity(i, c)
    limestone = None
    if yearly is not None and ph_from is not None:
        limestone = f.limestone(yearly["high"], ph_from)
    return {
        "heat_input_net": net,
        "heat_input_gross": gross,
        "water_by_net": by_net,
        "water_by_gross": by_gross,
        "water_by_metered_volume": metered,
        "water_by_normal_volume": normal,
        "design_mass": most,
        "design_flow": f.volume_flow(most, rho),
        "points": points,
        "yearly": yearly,
        "ph_from": ph_from,
        "ph_to": ph_to,
        "free_acid_as_limestone": limestone,
        "measured": None if i.measured is None else _measured(i.measured, points, fuel, net, rho),
    }
