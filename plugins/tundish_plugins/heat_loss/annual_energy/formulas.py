"""Heat of a year by degree days, the boiler's return, and the house behind a gas meter."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import total
from tundish.sources import Source

DEGREE_DAYS: Final = Source(
    "degree-day-method",
    kind="common-practice",
    document="Degree-day method",
    edition="heating textbooks",
    locator="E = H D, degree days to the balance temperature, gains beyond it taken off",
    confirmed="derived",
)
BASE_CHANGE: Final = Source(
    "degree-days-newton",
    kind="derivation",
    document="Degree days at another base: polynomial of Newton through three bases",
    edition="derivation",
    locator="within the three bases; degree days grow with the base ever faster, days at most",
    confirmed="derived",
)
FUEL: Final = Source(
    "fuel-balance",
    kind="derivation",
    document="Fuel, cost and carbon of a heat",
    edition="derivation",
    locator="F = E/η, all on the gross basis",
    confirmed="derived",
)
MEAN_LOAD: Final = Source(
    "mean-load-of-season",
    kind="derivation",
    document="Return of radiators at the mean load of a season",
    edition="derivation",
    locator="excess of the radiators with r^(1/n), drop of the water with r, at constant flow",
    confirmed="derived",
)
GAS_BALANCE: Final = Source(
    "gas-balance",
    kind="common-practice",
    document="Heat loss coefficient from metered gas",
    edition="energy balance",
    locator="H = (η (E_g - E_w) + E_e)/(D (1 - g))",
    confirmed="derived",
)
KILOWATT_HOUR: Final = constant("kWh", 3.6e6, "energy", "J", source=FUEL)

H = Annotated[float, Sym("thermal_conductance", "H", "W/K")]
D = Annotated[float, Sym("degree_days", "D", "K.s")]
Gains = Annotated[float, Sym("number", "g", "1")]
Heat = Annotated[float, Sym("energy", "E", "J")]
Fuel = Annotated[float, Sym("energy", "F", "J")]
Eta = Annotated[float, Sym("number", "η", "1")]
Difference = Annotated[float, Sym("temperature_difference", "Δθ", "K")]
Load = Annotated[float, Sym("number", "r", "1")]
Flow = Annotated[float, Sym("temperature", "θ_f", "K")]
Return = Annotated[float, Sym("temperature", "θ_r", "K")]
Room = Annotated[float, Sym("temperature", "θ_i", "K")]
Spread = Annotated[float, Sym("number", "s", "1")]


@formula("H", "thermal_conductance", "W/K", source=DEGREE_DAYS)
def coefficient(Phi: Annotated[float, Sym("power", "Φ", "W")], dT: Difference) -> float:
    """Heat loss coefficient from the design load."""
    return Phi / dT


@formula("Φ", "power", "W", source=DEGREE_DAYS)
def design_load(H_m: H, dT: Difference) -> float:
    """Design load by a coefficient."""
    return H_m * dT


@formula("D", "degree_days", "K.s", source=BASE_CHANGE)
def degree_days_at(
    b: Annotated[float, Sym("temperature", "θ_b", "K")],
    b_1: Annotated[float, Sym("temperature", "θ_1", "K")],
    b_2: Annotated[float, Sym("temperature", "θ_2", "K")],
    b_3: Annotated[float, Sym("temperature", "θ_3", "K")],
    D_1: Annotated[float, Sym("degree_days", "D_1", "K.s")],
    D_2: Annotated[float, Sym("degree_days", "D_2", "K.s")],
    D_3: Annotated[float, Sym("degree_days", "D_3", "K.s")],
) -> float:
    """Degree days at a base, from those at three."""
    return D_1 + (b - b_1) * (
        (D_2 - D_1) / (b_2 - b_1)
        + (b - b_2) / (b_3 - b_1) * ((D_3 - D_2) / (b_3 - b_2) - (D_2 - D_1) / (b_2 - b_1))
    )


@formula("D", "degree_days", "K.s", source=BASE_CHANGE)
def degree_days_of_year(D: Annotated[list[float], Sym("degree_days", "D", "K.s")]) -> float:
    """Degree days of the year."""
    return total(D)


@formula("E", "energy", "J", source=DEGREE_DAYS)
def heat(H: H, D: D, g: Gains) -> float:
    """Heat for the rooms, gains beyond the base taken off."""
    return H * D * (1 - g)


@formula("F", "energy", "J", source=FUEL)
def fuel(E: Heat, eta: Eta) -> float:
    """Fuel for that heat."""
    return E / eta


@formula("F_1", "energy", "J", source=FUEL)
def fuel_least(F: Fuel, s: Spread) -> float:
    """Fuel at the fewest degree days of the spread."""
    return F * (1 - s)


@formula("F_2", "energy", "J", source=FUEL)
def fuel_most(F: Fuel, s: Spread) -> float:
    """Fuel at the most degree days of the spread."""
    return F * (1 + s)


@formula("K", "number", "1", source=FUEL)
def cost(p: Annotated[float, Sym("number", "p", "1")], F: Fuel) -> float:
    """Cost of the fuel at a price a kWh."""
    return p * F / KILOWATT_HOUR


@formula("M", "mass", "kg", source=FUEL)
def carbon(f_c: Annotated[float, Sym("emission_factor", "f_c", "kg/J")], F: Fuel) -> float:
    """Carbon dioxide of the fuel."""
    return f_c * F


@formula("r", "number", "1", source=MEAN_LOAD)
def mean_load(
    D: D, g: Gains, t_s: Annotated[float, Sym("time", "t_s", "s")], dT: Difference
) -> float:
    """Mean load of the season over the design load."""
    return D * (1 - g) / t_s / dT


@formula("θ_r", "temperature", "K", source=MEAN_LOAD)
def return_at_load(
    T_f: Flow, T_r: Return, T_i: Room, r: Load, n: Annotated[float, Sym("number", "n", "1")]
) -> float:
    """Return at a part of the design load, flow temperature following the weather."""
    return T_i + ((T_f - T_i + T_r - T_i) * r ** (1 / n) - r * (T_f - T_r)) / 2  # type: ignore[no-any-return]


@formula("θ_g", "temperature", "K", source=MEAN_LOAD)
def flue_temperature(T_r: Return, dT_a: Difference) -> float:
    """Flue gas as it leaves the boiler."""
    return T_r + dT_a


@formula("η", "number", "1", source=FUEL)
def efficiency(
    eta_g: Annotated[float, Sym("number", "η_g", "1")],
    loss: Annotated[float, Sym("number", "l", "1")],
) -> float:
    """Efficiency, other losses taken off."""
    return eta_g - loss


@formula("η", "number", "1", source=GAS_BALANCE)
def share_up(eta: Eta, e: Spread) -> float:
    """Efficiency at the upper end of its spread."""
    return eta * (1 + e)


@formula("H_m", "thermal_conductance", "W/K", source=GAS_BALANCE)
def metered_coefficient(
    eta: Eta,
    E_g: Annotated[float, Sym("energy", "E_g", "J")],
    E_w: Annotated[float, Sym("energy", "E_w", "J")],
    E_e: Annotated[float, Sym("energy", "E_e", "J")],
    D: D,
    g: Gains,
    e: Annotated[float, Sym("number", "e", "1")],
    w: Annotated[float, Sym("number", "w", "1")],
    s: Spread,
) -> float:
    """Coefficient that explains the gas, each uncertain figure off by a share of itself."""
    return (eta * (1 + e) * (E_g - E_w * (1 + w)) + E_e) / (D * (1 + s) * (1 - g))


@formula("c", "number", "1", source=GAS_BALANCE)
def ratio(H: H, H_m: Annotated[float, Sym("thermal_conductance", "H_m", "W/K")]) -> float:
    """Coefficient as given over the metered one."""
    return H / H_m
