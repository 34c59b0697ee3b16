"""The order of the formulas for the combustion of a gas. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import (
    absolute,
    all_of,
    choose,
    drawn,
    larger,
    refuse,
    require,
    root,
    smaller,
)
from tundish.physics import flue_gas, water
from tundish.working import part
from tundish_plugins.gas.combustion import formulas as f
from tundish_plugins.gas.mixture import checked
from tundish_plugins.gas.pipe_sizing.contract import Component

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.gas.combustion.contract import CombustionInputs, Reading

BY_CONSTANTS = "flue-loss-constants"
_COLDEST, _HOTTEST = 273.16, 373.15  # between which a dew point is looked for
_CURVE_FROM, _CURVE_TO, _POINTS = 288.15, 353.15, 27


@dataclass(frozen=True)
class Fuel:
    """What a mole of the gas needs and makes."""

    oxygen: float
    carbon_dioxide: float
    water: float
    nitrogen: float
    air: float
    dry: float
    most: float  # highest share of carbon dioxide in dry flue gas
    gross: float
    net: float


def _components(i: CombustionInputs, c: Context) -> tuple[list[Component], str]:
    """The gas as components, and the field to blame."""
    if i.composition is not None:
        if i.gas is not None:
            refuse("gas-given-twice", "/gas")
        return i.composition, "/composition"
    if i.gas is None:
        refuse("gas-missing", "/gas")
    assert i.gas is not None
    table = c.table("gas-named-shares").at("/gas")
    found = [row["component"] for row in table.rows() if row["gas"] == i.gas]
    if not found:
        table.exact(gas=i.gas)
    shares = [table.exact(gas=i.gas, component=name)["share"] for name in found]
    return [Component(gas=a, fraction=b) for a, b in zip(found, shares, strict=True)], "/gas"


def _fuel(i: CombustionInputs, c: Context) -> Fuel:
    components, field = _components(i, c)
    x, rows = checked(components, c.table("gas-components"))
    table = c.table("gas-combustion")
    burnt = [table.at(field).exact(gas=item.gas) for item in components]
    O_min = flue_gas.oxygen_needed(x, [row["oxygen"] for row in burnt])
    require(O_min > 0.0, "gas-does-not-burn", field)
    n_CO2 = flue_gas.carbon_dioxide_made(x, [row["carbon_dioxide"] for row in burnt])
    require(n_CO2 > 0.0, "fuel-without-carbon", field)
    n_H2O = flue_gas.water_made(x, [row["water"] for row in burnt])
    n_N2 = flue_gas.nitrogen_of_fuel(x, [row["nitrogen"] for row in burnt])
    L_min = flue_gas.air_needed(O_min)
    V_min = flue_gas.dry_flue_gas_least(n_CO2, n_N2, L_min)
    return Fuel(
        O_min,
        n_CO2,
        n_H2O,
        n_N2,
        L_min,
        V_min,
        flue_gas.most_carbon_dioxide(n_CO2, V_min),
        f.gross_heating_value(x, [row["gross"] for row in rows]),
        f.net_heating_value(x, [row["net"] for row in rows]),
    )


def _of_air_inlet(i: CombustionInputs, c: Context) -> tuple[bool, Any]:
    """Whether the air inlet was sampled, and whether the sample was fresh air."""
    if i.air_inlet is None:
        return False, False
    if i.air_inlet.o2 is None and i.air_inlet.co2 is None:
        refuse("air-inlet-empty", "/air_inlet")
    fresh: Any = True
    if i.air_inlet.o2 is not None:
        least = c.value("combustion-air-inlet-oxygen-least")
        fresh = all_of(fresh, i.air_inlet.o2 >= least * (1 - 1e-9))
    if i.air_inlet.co2 is not None:
        most = c.value("combustion-air-inlet-carbon-dioxide-most")
        fresh = all_of(fresh, i.air_inlet.co2 <= most * (1 + 1e-9))
    return True, fresh


def _flue(i: CombustionInputs, c: Context) -> dict[str, Any]:
    """What was shown of the flue itself, before anything is said of the burner."""
    is_open = i.flue == "open"
    if i.spillage is not None and not is_open:
        refuse("spillage-contradicts", "/spillage")
    sampled, proved = _of_air_inlet(i, c)
    free = None if i.spillage is None else i.spillage == "none"
    if is_open:  # its air is that of the room: a sample can tell against it, not for it
        proved = all_of(bool(free), proved) if sampled else bool(free)
    return {
        "integrity_sampled": sampled,
        "flue_proved": proved,
        "open_flue": is_open,
        "spillage_tested": free is not None,
        "spillage_free": free,
        "general_limits_hold": False if is_open else proved,
    }


def _rates(i: CombustionInputs) -> bool:
    """Whether every rate of the burner is among the readings."""
    rates = [item.rate for item in i.readings]
    if len(set(rates)) < len(rates) or ("fixed" in rates and len(rates) > 1):  # structure
        refuse("rates-contradict", "/readings")
    if rates == ["minimum"]:
        refuse("maximum-rate-missing", "/readings")
    inputs = {item.rate: item.heat_input for item in i.readings if item.heat_input is not None}
    if {"maximum", "minimum"} <= inputs.keys():  # structure
        high, low = inputs["maximum"], inputs["minimum"]
        if high.basis != low.basis:
            refuse("bases-mixed", "/readings")
        require(low.value <= high.value, "rates-swapped", "/readings")
    return rates != ["maximum"]


def _dry_sample(reading: Reading, fuel: Fuel, c: Context, where: str) -> tuple[float, float, float]:
    """Carbon dioxide and oxygen of the dry sample, one read, the other from it; oxygen at least."""
    e_O = c.value("combustion-oxygen-error")
    if reading.co2 is None:
        if reading.o2 is None:
            refuse("reading-missing", where)
        assert reading.o2 is not None
        require(reading.o2 > 0.0, "at-stoichiometric", f"{where}/o2")
        o2_least = f.oxygen_at_least(reading.o2, e_O)
        return flue_gas.carbon_dioxide_beside(reading.o2, fuel.most), reading.o2, o2_least
    require(
        reading.co2 < fuel.most,
        "at-stoichiometric",
        f"{where}/co2",
        most=(fuel.most, "volume_fraction", "%"),
    )
    o2 = flue_gas.oxygen_beside(reading.co2, fuel.most)
    e_C = larger(
        c.value("combustion-carbon-dioxide-error"),
        c.value("combustion-carbon-dioxide-error-share") * reading.co2,
    )
    by_co2 = f.oxygen_error(0.0 * e_C, e_C, flue_gas.oxygen_of_air, fuel.most)
    o2_least = f.oxygen_at_least(o2, by_co2)
    if reading.o2 is not None:
        apart = f.oxygen_error(e_O, e_C, flue_gas.oxygen_of_air, fuel.most)
        require(
            absolute(reading.o2 - o2) <= apart,
            "readings-contradict",
            f"{where}/o2",
            given=(reading.o2, "volume_fraction", "%"),
            wanted=(o2, "volume_fraction", "%"),
            apart=(apart, "volume_fraction", "%"),
        )
        o2_least = smaller(o2_least, f.oxygen_at_least(reading.o2, e_O))
    return reading.co2, o2, o2_least


def _carbon_monoxide(reading: Reading, co2: float, fuel: Fuel, c: Context, where: str) -> Any:
    """Ratio and air-free carbon monoxide, where it was read."""
    if reading.co is None:
        return None, None
    ratio = flue_gas.carbon_monoxide_ratio(reading.co, co2)
    most = c.value("combustion-ratio-believable-most")
    require(
        ratio <= most * (1 + 1e-9),
        "ratio-not-believable",
        f"{where}/co",
        ratio=ratio,
    )
    return ratio, flue_gas.carbon_monoxide_air_free(reading.co, fuel.most, co2)


def _condensing(n_w: float, V: float, T_f: float, p: float) -> tuple[float, float]:
    n_c = flue_gas.water_condensed(n_w, V, water.saturation_pressure(T_f), p)
    return n_c, flue_gas.heat_of_condensing(n_c, water.heat_of_vaporisation(T_f))


def _dry(n_w: float, V: float, T_f: float, p: float) -> tuple[float, float]:
    del n_w, V, p
    return 0.0 * T_f, 0.0 * T_f


@dataclass(frozen=True)
class Burning:
    """One reading's flue gas, and its heat at any temperature."""

    i: CombustionInputs
    fuel: Fuel
    o2: float
    ratio: float
    dry: float
    air_water: float
    water: float
    share: float
    dew: float
    constants: tuple[float, float] | None

    def _balance(self, T_f: float) -> float:
        T_a, T_0, fuel = self.i.air_temperature, self.i.reference_temperature, self.fuel
        Q_fg = flue_gas.heat_of_flue_gas(
            fuel.carbon_dioxide,
            fuel.nitrogen,
            self.water,
            self.ratio,
            fuel.air,
            flue_gas.heat_of_carbon_dioxide(T_0, T_f),
            flue_gas.heat_of_vapour(T_0, T_f),
            flue_gas.heat_of_nitrogen(T_0, T_f),
            flue_gas.heat_of_oxygen(T_0, T_f),
        )
        Q_air = flue_gas.heat_of_air(
            self.air_water,
            self.ratio,
            fuel.air,
            flue_gas.heat_of_vapour(T_0, T_a),
            flue_gas.heat_of_nitrogen(T_0, T_a),
            flue_gas.heat_of_oxygen(T_0, T_a),
        )
        return f.sensible_loss(Q_fg, Q_air, fuel.net)

    def at(self, T_f: float) -> dict[str, Any]:
        """Losses and efficiencies with the flue gas leaving at a temperature."""
        fuel = self.fuel
        if self.constants is None:
            q = self._balance(T_f)
        else:
            q = f.flue_loss_by_constants(T_f, self.i.air_temperature, self.o2, *self.constants)
        condensing = T_f < self.dew
        n_c, Q_c = choose(
            condensing,
            _condensing,
            _dry,
            self.water,
            self.dry,
            T_f,
            self.i.pressure,
            why="the flue gas leaves below its dew point",
        )
        g = f.condensing_gain(Q_c, fuel.net)
        eta = f.efficiency_net(q, g)
        eta_s = f.efficiency_gross(eta, fuel.net, fuel.gross)
        return {
            "condensing": condensing,
            "condensed": n_c,
            "condensed_share": f.condensed_share(n_c, self.water),
            "sensible_loss_net": q,
            "condensing_gain_net": g,
            "efficiency_net": eta,
            "efficiency_gross": eta_s,
            "loss_gross": f.loss_gross(eta_s),
        }


def _burning(i: CombustionInputs, fuel: Fuel, o2: float, c: Context) -> Burning:
    constants = None
    if c.method == BY_CONSTANTS:
        if i.gas is None:
            refuse("constants-need-a-name", "/composition")
        row = c.table("combustion-flue-loss-constants").at("/gas").exact(gas=i.gas or "")
        constants = row["a2"], row["b"]
    ratio = flue_gas.air_ratio(fuel.dry, fuel.air, o2)
    V = flue_gas.dry_flue_gas(fuel.dry, ratio, fuel.air)
    n_wa = flue_gas.water_of_air(i.air_humidity, ratio, fuel.air)
    n_w = flue_gas.water_in_all(fuel.water, n_wa)
    y = flue_gas.water_share(n_w, V)
    p_w = flue_gas.vapour_pressure(y, i.pressure)
    dew = root(
        lambda T: water.saturation_pressure(T) - p_w,
        _COLDEST,
        _HOTTEST,
        what="dew point: saturation pressure equals that of the vapour",
        code="no-dew-point",
        field="/readings",
    )
    return Burning(i, fuel, o2, ratio, V, n_wa, n_w, y, dew, constants)


def _powers(reading: Reading, fuel: Fuel, state: dict[str, Any]) -> dict[str, Any]:
    """What the heat input makes of the shares."""
    given = reading.heat_input
    if given is None:
        return dict.fromkeys(("heat_input_net", "heat_input_gross", "flue_loss", "condensate"))
    if given.basis == "net":
        net, gross = given.value, f.gross_of_net(given.value, fuel.gross, fuel.net)
    else:
        net, gross = f.net_of_gross(given.value, fuel.net, fuel.gross), given.value
    return {
        "heat_input_net": net,
        "heat_input_gross": gross,
        "flue_loss": f.flue_loss(state["loss_gross"], gross),
        "condensate": flue_gas.condensate_flow(state["condensed"], fuel.net, net),
    }


def _temperatures(i: CombustionInputs, reading: Reading, where: str) -> float | None:
    """Refuse temperatures in the wrong order; the approach to the return, where that is given."""
    T_f = reading.flue_temperature
    require(
        T_f >= i.air_temperature,
        "flue-colder-than-air",
        f"{where}/flue_temperature",
        flue=(T_f, "temperature", "degC"),
        air=(i.air_temperature, "temperature", "degC"),
    )
    if reading.return_temperature is None:
        return None
    require(
        T_f >= reading.return_temperature,
        "flue-colder-than-return",
        f"{where}/flue_temperature",
        flue=(T_f, "temperature", "degC"),
        back=(reading.return_temperature, "temperature", "degC"),
    )
    return f.approach(T_f, reading.return_temperature)


def _window(reading: Reading, fuel: Fuel, where: str) -> None:
    """Refuse a window of the maker's that is upside down, or that leaves no excess air."""
    if reading.maker_co2_most is not None:
        require(
            reading.maker_co2_most < fuel.most,
            "window-without-air",
            f"{where}/maker_co2_most",
            given=(reading.maker_co2_most, "volume_fraction", "%"),
            most=(fuel.most, "volume_fraction", "%"),
        )
    if reading.maker_co2_least is not None and reading.maker_co2_most is not None:
        require(reading.maker_co2_least <= reading.maker_co2_most, "window-upside-down", where)


def _one(i: CombustionInputs, index: int, fuel: Fuel, c: Context) -> tuple[dict[str, Any], Burning]:
    reading, where = i.readings[index], f"/readings/{index}"
    _window(reading, fuel, where)
    approach = _temperatures(i, reading, where)
    co2, o2, o2_least = _dry_sample(reading, fuel, c, where)
    ratio, air_free = _carbon_monoxide(reading, co2, fuel, c, where)
    burning = _burning(i, fuel, o2, c)
    state = burning.at(reading.flue_temperature)
    powers = _powers(reading, fuel, state)
    outputs = {
        "name": reading.name,
        "rate": reading.rate,
        "co2": co2,
        "o2": o2,
        "o2_least": o2_least,
        "air_certain": o2_least > 0.0,
        "ratio": ratio,
        "co_air_free": air_free,
        "air_ratio": burning.ratio,
        "excess_air": flue_gas.excess_air(burning.ratio),
        "dry_flue_gas": burning.dry,
        "wet_flue_gas": flue_gas.wet_flue_gas(burning.dry, burning.water),
        "water_share": burning.share,
        "dew_point": burning.dew,
        **{key: value for key, value in state.items() if key != "condensed"},
        "approach": approach,
        **powers,
        "co_read": reading.co is not None,
        "window_given": reading.maker_co2_least is not None and reading.maker_co2_most is not None,
        "maker_gives_co": reading.maker_co_most is not None,
        "maker_gives_ratio": reading.maker_ratio_most is not None,
    }
    return outputs, burning


def _curves(burning: Burning, approach: Any) -> tuple[dict[str, Any], dict[str, Any] | None]:
    """Efficiency on gross against the temperature of the flue gas, and against that of the return."""
    start = larger(burning.i.air_temperature, _CURVE_FROM)
    points = [start + k / (_POINTS - 1) * (_CURVE_TO - start) for k in range(_POINTS)]
    values = [burning.at(T)["efficiency_gross"] for T in points]
    curve = {"flue_temperature": points, "efficiency_gross": values}
    if approach is None:
        return curve, None
    back = [T - approach for T in points]
    return curve, {"return_temperature": back, "efficiency_gross": values}


def _air(i: CombustionInputs) -> None:
    """Refuse air that holds more water than it can; colder than freezing it is judged as at 0 °C."""
    p_a = flue_gas.vapour_pressure_of_air(i.air_humidity, i.pressure)
    p_s = water.saturation_pressure(larger(i.air_temperature, _COLDEST))
    require(
        p_a <= p_s,
        "air-too-humid",
        "/air_humidity",
        given=(p_a, "pressure_absolute", "mbar"),
        most=(p_s, "pressure_absolute", "mbar"),
    )


def kernel(i: CombustionInputs, c: Context) -> dict[str, Any]:
    """Air and flue gas of a fuel, and what each reading of its flue gas says."""
    every = _rates(i)
    _air(i)
    fuel = _fuel(i, c)
    flue = _flue(i, c)
    readings, burning = [], []
    for index, reading in enumerate(i.readings):
        with part("reading", reading.name):
            outputs, state = _one(i, index, fuel, c)
            readings.append(outputs)
            burning.append(state)
    by_rate = {item["rate"]: item["co2"] for item in readings}
    fall = not_richer = None
    if {"maximum", "minimum"} <= by_rate.keys():  # structure
        fall = f.carbon_dioxide_fall(by_rate["maximum"], by_rate["minimum"])
        not_richer = fall >= -1e-9 * by_rate["maximum"]
    curves = drawn(_curves, burning[0], readings[0]["approach"])
    return {
        "air_needed": fuel.air,
        "dry_flue_gas_least": fuel.dry,
        "wet_flue_gas_least": flue_gas.wet_flue_gas(fuel.dry, fuel.water),
        "most_co2": fuel.most,
        "gross_over_net": f.gross_over_net(fuel.gross, fuel.net),
        **flue,
        "every_rate_read": every,
        "co2_fall": fall,
        "windows_given": all(item["window_given"] for item in readings),
        "minimum_not_richer": not_richer,
        "readings": readings,
        "curve": None if curves is None else curves[0],
        "return_curve": None if curves is None else curves[1],
    }
