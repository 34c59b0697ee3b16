"""The order of the formulas for mixed water. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, require
from tundish.physics.water import density, enthalpy
from tundish.working import part
from tundish_plugins.hot_water.mixed_water import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.hot_water.mixed_water.contract import (
        MixedWaterInputs,
        Pasteurisation,
        Store,
    )

CURVE_PIECES = 20
_HUNDRED_LITRES = 0.1
WASHING = frozenset({"bath", "shower", "basin", "bidet"})
BATHING = frozenset({"bath", "shower"})


def _limits(i: MixedWaterInputs, c: Context) -> dict[str, Any]:
    """Limits of the region for this outlet; a limit that does not apply is none."""
    found: dict[str, Any] = dict.fromkeys(
        ("set_limit", "test_limit", "ceiling", "scald_limit", "vulnerable_limit")
    )
    if i.outlet not in WASHING:
        return found
    if c.has("mixing-valve-temperatures"):
        row = c.table("mixing-valve-temperatures").at("/outlet").exact(outlet=i.outlet)
        found["set_limit"], found["test_limit"] = row["set_most"], row["test_most"]
    if c.has("mixed-water-temperature-most"):
        found["ceiling"] = c.value("mixed-water-temperature-most")
    if c.has("bath-outlet-temperature-most"):
        found["scald_limit"] = c.value("bath-outlet-temperature-most")
    if i.vulnerable_people and i.outlet in BATHING and c.has("bathing-temperature-vulnerable-most"):
        found["vulnerable_limit"] = c.value("bathing-temperature-vulnerable-most")
    return found


def _pasteurised(held: Pasteurisation, c: Context) -> dict[str, Any]:
    """Reduction of legionella, inside the range the death times were measured in."""
    field = "/pasteurisation/temperature"
    low, high = c.value("legionella-death-time-from"), c.value("legionella-death-time-to")
    measured = {
        "low": (low, "temperature", "degC"),
        "high": (high, "temperature", "degC"),
    }
    require(low <= held.temperature, "pasteurisation-outside-range", field, **measured)
    require(held.temperature <= high, "pasteurisation-outside-range", field, **measured)
    T_1, D_1 = c.value("legionella-lower-temperature"), c.value("legionella-lower-death-time")
    T_2, D_2 = c.value("legionella-upper-temperature"), c.value("legionella-upper-death-time")
    z = f.z_value(T_1, D_1, T_2, D_2)
    D = f.decimal_reduction_time(D_2, T_2, held.temperature, z)
    return {
        "z_value": z,
        "decimal_reduction_time": D,
        "log_reduction": f.log_reduction(held.hold_time, D),
        "time_needed": f.time_needed(held.log_reduction, D),
    }


def _share_curve(T_h: float, T_c: float) -> dict[str, Any]:
    """Hot water in 100 litres, from cold to hot."""
    h_h, h_c, rho_h = enthalpy(T_h), enthalpy(T_c), density(T_h)
    temperatures = [T_c + (T_h - T_c) * (k / CURVE_PIECES) for k in range(CURVE_PIECES + 1)]
    shares = [f.hot_share(enthalpy(T), h_c, h_h) for T in temperatures]
    return {
        "temperature": temperatures,
        "hot_water": [
            f.hot_volume(_HUNDRED_LITRES, density(T), x, rho_h)
            for T, x in zip(temperatures, shares, strict=True)
        ],
    }


def _from_store(store: Store, T_m: float, T_c: float) -> float:
    """Mixed water from the usable part of the store, at the store's own temperature."""
    x = f.hot_share(enthalpy(T_m), enthalpy(T_c), enthalpy(store.temperature))
    return f.mixed_volume(
        store.volume, store.usable_share, density(store.temperature), density(T_m), x
    )


def _store_curve(store: Store, T_c: float) -> dict[str, Any]:
    """Mixed water the store gives, from a third of the way between cold and hot upwards."""
    pieces = range(CURVE_PIECES // 3, CURVE_PIECES + 1)
    temperatures = [T_c + (store.temperature - T_c) * (k / CURVE_PIECES) for k in pieces]
    return {
        "temperature": temperatures,
        "volume": [_from_store(store, T, T_c) for T in temperatures],
    }


def kernel(i: MixedWaterInputs, c: Context) -> dict[str, Any]:
    """Mixing by enthalpy, limits of the outlet, hazard and pasteurisation."""
    T_h, T_c, T_m = i.hot_temperature, i.cold_temperature, i.mixed_temperature
    require(T_c < T_m, "mix-not-above-cold", "/mixed_temperature")
    require(T_m <= T_h, "mix-above-hot", "/mixed_temperature", hot=(T_h, "temperature", "degC"))
    if i.store is not None:
        require(
            T_m <= i.store.temperature,
            "store-too-cool-to-mix",
            "/store/temperature",
            mixed=(T_m, "temperature", "degC"),
        )

    h_m, h_c = enthalpy(T_m), enthalpy(T_c)
    rho_m, rho_h, rho_c = density(T_m), density(T_h), density(T_c)
    x = f.hot_share(h_m, h_c, enthalpy(T_h))
    flow, volume = i.mixed_flow, i.mixed_volume
    given = None
    if i.store is not None:
        with part("store"):
            given = _from_store(i.store, T_m, T_c)
    band = c.table("burn-time-bands").at("/mixed_temperature").next_larger("up_to", T_m)
    shortest = band["shortest"]
    return {
        "hot_share": x,
        "hot_flow": None if flow is None else f.hot_flow(flow, rho_m, x, rho_h),
        "cold_flow": None if flow is None else f.cold_flow(flow, rho_m, x, rho_c),
        "heat_flow": None if flow is None else f.heat_flow(flow, rho_m, h_m, h_c),
        "hot_volume": None if volume is None else f.hot_volume(volume, rho_m, x, rho_h),
        "cold_volume": None if volume is None else f.cold_volume(volume, rho_m, x, rho_c),
        "store_mixed_volume": given,
        "store_uses": None if given is None or volume is None else f.uses(given, volume),
        "store_draw_time": None if given is None or flow is None else f.draw_time(given, flow),
        "burn_band": band["band"],
        "burn_time": shortest,
        "child_burn_time": f.child_burn_time(c.value("burn-time-child-share"), shortest),
        **_limits(i, c),
        "pasteurisation": None if i.pasteurisation is None else _pasteurised(i.pasteurisation, c),
        "share_curve": drawn(_share_curve, T_h, T_c),
        "store_curve": None if i.store is None else drawn(_store_curve, i.store, T_c),
    }
