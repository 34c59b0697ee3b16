"""The order of the formulas for a gas rate test. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, refuse, require
from tundish.working import silent
from tundish_plugins.gas.energy import heat_input
from tundish_plugins.gas.rate import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row
    from tundish_plugins.gas.rate.contract import RateInputs

_SLACK = 1 + 1e-9
_ALMOST = 1 - 1e-9


def _volume(i: RateInputs) -> tuple[float, str]:
    """Volume that passed, and where it was given."""
    ways = [name for name in ("volume", "start", "end", "dial") if getattr(i, name) is not None]
    if ways not in (["volume"], ["start", "end"], ["dial"]):
        if ways in (["start"], ["end"]):
            refuse("reading-missing", "/end" if ways == ["start"] else "/start")
        refuse("volume-given-twice" if ways else "volume-missing", "/volume")
    if i.dial is not None:
        return f.turned(float(i.revolutions), i.dial), "/dial"
    if i.volume is not None:
        require(i.volume > 0.0, "nothing-passed", "/volume")
        return i.volume, "/volume"
    assert i.start is not None
    assert i.end is not None
    require(i.end >= i.start, "meter-runs-back", "/end")
    require(i.end > i.start, "nothing-passed", "/end")
    return f.passed(i.end, i.start), "/end"


@dataclass(frozen=True)
class _Values:
    """Calorific values on both bases, and their ratio."""

    gross: float
    net: float
    ratio: float


def _values(i: RateInputs, gas: Row) -> _Values:
    ratio = i.gross_to_net
    if ratio is None:
        ratio = f.gross_over_net(gas["gross"], gas["net"])
    given = i.calorific_value
    if given is not None and given.basis == "net":
        return _Values(f.gross_from_net(given.value, ratio), given.value, ratio)
    gross = gas["gross"] if given is None else given.value
    return _Values(gross, f.net_from_gross(gross, ratio), ratio)


def _check_value(given: Any, gross: float, family: str, c: Context) -> None:
    """Refuse a calorific value that no gas of the family has."""
    if given is None:
        return
    band = c.table("gas-families").exact(family=family)
    with silent():
        least = f.gross_of_wobbe(band["wobbe_least"], band["relative_density_least"])
        most = f.gross_of_wobbe(band["wobbe_most"], band["relative_density_most"])
    require(
        all_of(gross >= least * _ALMOST, gross <= most * _SLACK),
        "calorific-value-of-no-such-gas",
        "/calorific_value",
        given=(gross, "calorific_value_gross", "MJ/m3"),
        least=(least, "calorific_value_gross", "MJ/m3"),
        most=(most, "calorific_value_gross", "MJ/m3"),
    )


def _check_rate(i: RateInputs, metered: float, at: str, c: Context) -> None:
    """Refuse a rate that the meter, or any domestic meter, does not pass."""
    found = (metered, "volume_flow", "m3/h")
    if i.meter_capacity is not None:
        most = i.meter_capacity
        require(
            metered <= most * _SLACK,
            "rate-beyond-meter",
            at,
            rate=found,
            most=(most, "volume_flow", "m3/h"),
        )
    if c.has("gas-flow-most"):
        most = c.value("gas-flow-most")
        require(
            metered <= most * _SLACK,
            "beyond-domestic-scope",
            at,
            rate=found,
            most=(most, "volume_flow", "m3/h"),
        )


def _factors(i: RateInputs) -> tuple[float, float, bool]:
    """Factors for pressure and temperature, each only where it was given."""
    corrected = i.meter_pressure is not None or i.gas_temperature is not None
    if corrected and i.meter_converts:
        refuse(
            "corrected-twice",
            "/gas_temperature" if i.meter_pressure is None else "/meter_pressure",
        )
    z_p = (
        1.0
        if i.meter_pressure is None
        else f.pressure_factor(i.meter_pressure, i.atmospheric_pressure)
    )
    z_T = 1.0 if i.gas_temperature is None else f.temperature_factor(i.gas_temperature)
    return z_p, z_T, corrected


def _against_rated(
    i: RateInputs, H: _Values, net: float, factors: tuple[float, float]
) -> dict[str, Any]:
    """What is said only where the rated heat input is known."""
    if i.rated_input is None:
        names = "rated_net_input", "deviation", "least_accepted", "greatest_accepted"
        return dict.fromkeys((*names, "time_for_volume_rated"))
    rated = i.rated_input.value
    if i.rated_input.basis == "gross":
        rated = f.rated_net(rated, H.ratio)
    return {
        "rated_net_input": rated,
        "deviation": f.deviation(net, rated),
        "least_accepted": f.least_accepted(rated, i.tolerance),
        "greatest_accepted": f.greatest_accepted(rated, i.tolerance),
        "time_for_volume_rated": f.time_at_input(i.target_volume, rated, H.net, *factors),
    }


def kernel(i: RateInputs, c: Context) -> dict[str, Any]:
    """Heat input from a rate test, with its error, against the rated one."""
    gas = c.table("gas-named").at("/gas").exact(gas=i.gas)
    require(i.time > 0.0, "time-not-positive", "/time")
    V, at = _volume(i)
    step = i.step
    if step is None:
        if i.dial is None:
            refuse("step-missing", "/step")
        step = 0.0
    if i.rated_input is not None and i.step is not None:
        least = c.value("gas-rate-steps-least")
        require(
            V * _SLACK >= least * step,
            "too-few-steps",
            at,
            least=least,
            passed=(V, "volume", "m3"),
        )
    H = _values(i, gas)
    _check_value(i.calorific_value, H.gross, gas["family"], c)
    z_p, z_T, corrected = _factors(i)
    metered = f.metered_rate(V, i.time)
    _check_rate(i, metered, at, c)
    rate = f.corrected_rate(metered, z_p, z_T) if corrected else metered
    net = heat_input(rate, H.net)
    e = f.reading_error(V, step, i.time, i.time_error)
    most = f.half(i.tolerance)
    low, high = f.less_error(net, e), f.plus_error(net, e)
    rated = _against_rated(i, H, net, (z_p, z_T))
    compared = [
        {"name": "less the error", "heat_input": low},
        {"name": "as read", "heat_input": net},
        {"name": "plus the error", "heat_input": high},
    ]
    if rated["rated_net_input"] is not None:
        compared.append({"name": "rated", "heat_input": rated["rated_net_input"]})
    surely: Any = e <= most * _SLACK
    if rated["greatest_accepted"] is not None:
        surely = all_of(surely, high <= rated["greatest_accepted"] * _SLACK)
    billed = None
    if c.has("gas-billing-factor"):
        billed = f.billed_energy(V, c.value("gas-billing-factor"), H.gross)
    return {
        "volume": V,
        "metered_rate": metered,
        "pressure_factor": z_p,
        "temperature_factor": z_T,
        "corrected": corrected,
        "state_known": i.meter_converts
        or (i.meter_pressure is not None and i.gas_temperature is not None),
        "rate": rate,
        "gross_calorific_value": H.gross,
        "net_calorific_value": H.net,
        "gross_input": heat_input(rate, H.gross),
        "net_input": net,
        "by_counter": i.dial is None,
        "steps_read": None if i.step is None else f.steps_in(V, step),
        "reading_error": e,
        "least_net_input": low,
        "greatest_net_input": high,
        "time_needed": f.time_needed(step, metered, i.time_error, most),
        "precise": e <= most * _SLACK,
        "surely_not_over": surely,
        "largest_error": most,
        "rated_known": i.rated_input is not None,
        **rated,
        "time_for_volume": f.time_for(i.target_volume, metered),
        "billed_energy": billed,
        "compared": compared,
    }
