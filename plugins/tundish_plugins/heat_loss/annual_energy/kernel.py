"""The order of the formulas for the heat and fuel of a year. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.findings import holds
from tundish.functions import all_of, refuse, require
from tundish.working import part, silent
from tundish_plugins.heat_loss.annual_energy import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row
    from tundish_plugins.heat_loss.annual_energy.contract import AnnualEnergyInputs, Compensation


def _check(i: AnnualEnergyInputs) -> None:
    """Refuse what is said twice or not at all."""
    if (i.coefficient is None) == (i.design_load is None):
        refuse("coefficient-or-load", "/coefficient")
    if (i.place is None) == (i.degree_days is None):
        refuse("degree-days-or-place", "/degree_days")
    if (i.efficiency is None) == (i.boiler is None):
        refuse("efficiency-or-boiler", "/efficiency")
    if i.degree_days is not None and i.base_temperature is None:
        refuse("base-missing", "/base_temperature")
    compensated = i.boiler is not None and i.boiler.compensation is not None
    if i.design_difference is None and (i.design_load is not None or compensated):
        refuse("difference-missing", "/design_difference")


def _at(row: Row, b: float) -> float:
    """Degree days of a row of the table at a base between its bases."""
    require(
        all_of(b >= row["base_1"], b <= row["base_3"]),
        "base-outside-table",
        "/base_temperature",
        least=(row["base_1"], "temperature", "degC"),
        most=(row["base_3"], "temperature", "degC"),
    )
    return f.degree_days_at(
        b, *(row[name] for name in ("base_1", "base_2", "base_3", "days_1", "days_2", "days_3"))
    )


def _degree_days(i: AnnualEnergyInputs, c: Context) -> tuple[float, float, dict[str, float]]:
    """Degree days of the year, their base, and those of the months where the table has them."""
    if i.degree_days is not None:
        assert i.base_temperature is not None
        return i.degree_days, i.base_temperature, {}
    b = c.value("degree-day-base") if i.base_temperature is None else i.base_temperature
    found = {}
    table = c.table(f"degree-days-{i.place}")
    for name in table.keys("month"):
        with part("month", name):
            found[name] = _at(table.exact(month=name), b)
    D = f.degree_days_of_year(list(found.values()))
    return D, b, found if len(found) > 1 else {}  # structure


def _compensated(
    comp: Compensation, T_r: float, dT: float, D: float, g: float
) -> tuple[float, float]:
    """Mean load of the season, and the return at it."""
    require(T_r < comp.flow_temperature, "flow-not-above-return", "/boiler/return_temperature")
    require(comp.room_temperature < T_r, "return-not-above-room", "/boiler/return_temperature")
    r = f.mean_load(D, g, comp.season, dT)
    require(r <= 1.0, "season-too-short", "/boiler/compensation/season", load=r)
    return r, f.return_at_load(comp.flow_temperature, T_r, comp.room_temperature, r, comp.exponent)


def _boiler(i: AnnualEnergyInputs, D: float, c: Context) -> tuple[float, dict[str, Any] | None]:
    """Efficiency over the season, and how the boiler comes to it."""
    if i.efficiency is not None:
        return i.efficiency, None
    assert i.boiler is not None
    r, T_r = None, i.boiler.return_temperature
    if i.boiler.compensation is not None:
        assert i.design_difference is not None
        r, T_r = _compensated(i.boiler.compensation, T_r, i.design_difference, D, i.gains_share)
    T_g = f.flue_temperature(T_r, i.boiler.flue_approach)
    table = c.table("condensing-efficiency").at("/boiler/return_temperature")
    eta_g = table.interpolate("flue", T_g, "efficiency")
    told = {
        "mean_load": r,
        "return_mean": T_r,
        "flue_temperature": T_g,
        "flue_efficiency": eta_g,
    }
    return f.efficiency(eta_g, i.boiler.other_loss), told


def _metered(i: AnnualEnergyInputs, H: float, eta: float) -> dict[str, Any] | None:
    """Coefficient behind the meter, with the band of what is uncertain."""
    m = i.metered
    if m is None:
        return None
    require(
        m.hot_water_gas * (1.0 + m.hot_water_spread) < m.gas,
        "hot-water-takes-all",
        "/metered/hot_water_gas",
    )
    e, w, s = m.efficiency_spread, m.hot_water_spread, i.degree_day_spread
    with silent():
        most = f.share_up(eta, e)
    require(most <= 1.0, "efficiency-above-one", "/metered/efficiency_spread", most=most)

    def implied(name: str, e: Any, w: Any, s: Any) -> float:
        with part("band", name):
            return f.metered_coefficient(
                eta,
                m.gas,
                m.hot_water_gas,
                m.electric_heat,
                m.degree_days,
                i.gains_share,
                e,
                w,
                s,
            )

    H_m = implied("middle", 0.0, 0.0, 0.0)
    low, high = implied("least", -e, w, s), implied("most", e, -w, -s)
    return {
        "coefficient": H_m,
        "coefficient_least": low,
        "coefficient_most": high,
        "ratio": f.ratio(H, H_m),
        "credible": all_of(holds("at-least", H, low), holds("at-most", H, high)),
        "design_load": None
        if i.design_difference is None
        else f.design_load(H_m, i.design_difference),
    }


def kernel(i: AnnualEnergyInputs, c: Context) -> dict[str, Any]:
    """Heat, fuel, cost and carbon of a year, and whether the meter bears them out."""
    _check(i)
    H = i.coefficient
    if H is None:
        assert i.design_load is not None
        assert i.design_difference is not None
        H = f.coefficient(i.design_load, i.design_difference)
    with part("degree days"):
        D, b, by_month = _degree_days(i, c)
    with part("boiler"):
        eta, boiler = _boiler(i, D, c)
    E = f.heat(H, D, i.gains_share)
    F = f.fuel(E, eta)
    months = []
    for name, days in by_month.items():
        with part("month", name):
            heat = f.heat(H, days, i.gains_share)
            months.append(
                {"name": name, "degree_days": days, "heat": heat, "fuel": f.fuel(heat, eta)}
            )
    with part("meter"):
        metered = _metered(i, H, eta)
    return {
        "coefficient": H,
        "degree_days": D,
        "base_temperature": b,
        "heat": E,
        "efficiency": eta,
        "fuel": F,
        "fuel_least": f.fuel_least(F, i.degree_day_spread),
        "fuel_most": f.fuel_most(F, i.degree_day_spread),
        "cost": None if i.price is None else f.cost(i.price, F),
        "carbon": None if i.emission_factor is None else f.carbon(i.emission_factor, F),
        "boiler": boiler,
        "months": months or None,
        "metered": metered,
    }
