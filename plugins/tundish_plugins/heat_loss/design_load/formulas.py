"""Transmission, air, bridges and reheat of a room on the design day."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, total
from tundish.sources import Source

EN_12831: Final = Source(
    "en-12831",
    kind="standard",
    document="EN 12831, method for calculation of the design heat load",
    edition="2003 and 2017",
    locator="transmission to outside, unheated, ground and adjacent; V = max(n V_r, V_inf)",
    confirmed="seen-reproduced",
    seen_in="teaching texts and worked examples that print the method",
)
SPACE_BALANCE: Final = Source(
    "unheated-space-balance",
    kind="standard",
    document="EN ISO 13789, transmission and ventilation heat transfer coefficients",
    edition="2017",
    locator="heat balance of an unheated space, b = H_ue/(H_iu + H_ue)",
    confirmed="derived",
)
ATMOSPHERE: Final = Source(
    "standard-atmosphere",
    kind="standard",
    document="Standard atmosphere, pressure by altitude",
    edition="ASHRAE Fundamentals 2017, chapter 1, equation 3",
    locator="p = 101.325 (1 - 2.25577e-5 z)^5.2559 kPa",
    confirmed="seen-reproduced",
    seen_in="reference values in the tests of an open psychrometrics library",
)
DRY_AIR: Final = Source(
    "dry-air",
    kind="library",
    document="Dry air as an ideal gas, 287.05 J/(kg K), specific heat 1006 J/(kg K)",
    edition="CoolProp 8.0.0, psychrolib 2.5.0",
    locator="0.3366 Wh/(m3 K) at 20 °C and sea level, within 0.001",
    confirmed="computed",
    computed_with="CoolProp 8.0.0, psychrolib 2.5.0",
)
GRADIENT: Final = Source(
    "altitude-gradient",
    kind="handbook",
    document="Building-services rules of thumb, external conditions",
    edition="not dated",
    locator="0.6 K for each 100 m",
    confirmed="seen",
    seen_in="construction journal data table",
)

Area = Annotated[float, Sym("area", "A", "m2")]
Areas = Annotated[list[float], Sym("area", "A_o", "m2")]
U = Annotated[float, Sym("thermal_transmittance", "U", "W/(m2.K)")]
Inside = Annotated[float, Sym("temperature", "θ_i", "K")]
Beyond = Annotated[float, Sym("temperature", "θ_x", "K")]
Powers = Annotated[list[float], Sym("power", "Φ", "W")]


@formula("θ_e", "temperature", "degC", source=GRADIENT, empirical=True)
def outside_at_altitude(
    t: Annotated[float, Sym("temperature", "θ_e", "degC")],
    z: Annotated[float, Sym("length", "z", "m")],
    z_0: Annotated[float, Sym("length", "z_0", "m")],
) -> float:
    """Design temperature outside at the altitude of the house."""
    return t - 0.006 * (z - z_0)


@formula("p", "pressure_absolute", "kPa", source=ATMOSPHERE, empirical=True)
def air_pressure(z: Annotated[float, Sym("length", "z", "m")]) -> float:
    """Pressure of the standard atmosphere at an altitude."""
    return 101.325 * (1 - 2.25577e-5 * z) ** 5.2559  # type: ignore[no-any-return]


@formula("c_v", "volumetric_heat_capacity", "J/(m3.K)", source=DRY_AIR, empirical=True)
def heat_capacity_of_air(
    p: Annotated[float, Sym("pressure_absolute", "p", "Pa")],
    T: Annotated[float, Sym("temperature", "T", "K")],
) -> float:
    """Heat capacity of dry air by volume."""
    return p / (287.05 * T) * 1006


@formula("A", "area", "m2", source=EN_12831)
def net_area(A: Area, A_o: Areas) -> float:
    """Area without its openings."""
    return A - total(A_o)


@formula("θ_x", "temperature", "K", source=EN_12831)
def unheated_temperature(
    b: Annotated[float, Sym("number", "b", "1")],
    T_i: Inside,
    T_e: Annotated[float, Sym("temperature", "θ_e", "K")],
) -> float:
    """Temperature of an unheated space, from its reduction factor."""
    return T_i - b * (T_i - T_e)


@formula("H_iu", "thermal_conductance", "W/K", source=SPACE_BALANCE)
def conductance(A: Area, U_: U) -> float:
    """Loss a kelvin through an element."""
    return A * U_


@formula("θ_u", "temperature", "K", source=SPACE_BALANCE)
def balanced_temperature(
    H_iu: Annotated[list[float], Sym("thermal_conductance", "H_iu", "W/K")],
    T_i: Annotated[list[float], Sym("temperature", "θ_i", "K")],
    H_ue: Annotated[float, Sym("thermal_conductance", "H_ue", "W/K")],
    T_e: Annotated[float, Sym("temperature", "θ_e", "K")],
) -> float:
    """Temperature at which an unheated space loses what the rooms give it."""
    return (total(a * b for a, b in zip(H_iu, T_i, strict=True)) + H_ue * T_e) / (
        total(H_iu) + H_ue
    )


@formula("Φ", "power", "W", source=EN_12831)
def transmission(A: Area, U_: U, T_i: Inside, T_x: Beyond) -> float:
    """Loss through an element."""
    return A * U_ * (T_i - T_x)


@formula("Φ", "power", "W", source=EN_12831)
def no_gain(Phi: Annotated[float, Sym("power", "Φ", "W")]) -> float:
    """Loss to a warmer place, which is not counted as a gain."""
    return larger(0.0 * Phi, Phi)


@formula("Φ_TB", "power", "W", source=EN_12831)
def bridges_by_allowance(
    A: Annotated[list[float], Sym("area", "A", "m2")],
    y: Annotated[float, Sym("thermal_transmittance", "y", "W/(m2.K)")],
    T_i: Inside,
    T_e: Annotated[float, Sym("temperature", "θ_e", "K")],
) -> float:
    """Loss of thermal bridges, by an allowance on the areas to outside."""
    return total(a * y * (T_i - T_e) for a in A)


@formula("Φ_TB", "power", "W", source=EN_12831)
def bridges_by_length(
    psi: Annotated[list[float], Sym("linear_transmittance", "ψ", "W/(m.K)")],
    length: Annotated[list[float], Sym("length", "l", "m")],
    T_i: Inside,
    T_e: Annotated[float, Sym("temperature", "θ_e", "K")],
) -> float:
    """Loss of linear thermal bridges."""
    return total(a * b * (T_i - T_e) for a, b in zip(psi, length, strict=True))


@formula("V_r", "volume", "m3", source=EN_12831)
def room_volume(A: Area, h: Annotated[float, Sym("length", "h", "m")]) -> float:
    """Air in the room."""
    return A * h


@formula("V", "volume_flow", "m3/s", source=EN_12831)
def needed_air(
    n: Annotated[float, Sym("frequency", "n", "1/s")],
    V_r: Annotated[float, Sym("volume", "V_r", "m3")],
) -> float:
    """Air by air changes."""
    return n * V_r


@formula("V_inf", "volume_flow", "m3/s", source=EN_12831)
def infiltration(
    V_r: Annotated[float, Sym("volume", "V_r", "m3")],
    n50: Annotated[float, Sym("frequency", "n50", "1/s")],
    e: Annotated[float, Sym("number", "e", "1")],
    epsilon: Annotated[float, Sym("number", "ε", "1")],
) -> float:
    """Air by infiltration, from a pressure test."""
    return 2 * V_r * n50 * e * epsilon


@formula("V", "volume_flow", "m3/s", source=EN_12831)
def larger_air(
    V_n: Annotated[float, Sym("volume_flow", "V_n", "m3/s")],
    V_inf: Annotated[float, Sym("volume_flow", "V_inf", "m3/s")],
) -> float:
    """Design air flow: the larger of need and infiltration."""
    return larger(V_n, V_inf)


@formula("V", "volume_flow", "m3/s", source=EN_12831)
def with_supply(
    V: Annotated[float, Sym("volume_flow", "V", "m3/s")],
    V_su: Annotated[float, Sym("volume_flow", "V_su", "m3/s")],
    eta: Annotated[float, Sym("number", "η", "1")],
) -> float:
    """Air that is warmed, with mechanical supply less what is recovered."""
    return V + V_su * (1 - eta)


@formula("n", "frequency", "1/s", source=EN_12831)
def air_changes(
    V: Annotated[float, Sym("volume_flow", "V", "m3/s")],
    V_su: Annotated[float, Sym("volume_flow", "V_su", "m3/s")],
    V_r: Annotated[float, Sym("volume", "V_r", "m3")],
) -> float:
    """Air changes of the room, recovery not deducted."""
    return (V + V_su) / V_r


@formula("Φ_V", "power", "W", source=EN_12831)
def air_loss(
    V: Annotated[float, Sym("volume_flow", "V", "m3/s")],
    c_v: Annotated[float, Sym("volumetric_heat_capacity", "c_v", "J/(m3.K)")],
    T_i: Inside,
    T_e: Annotated[float, Sym("temperature", "θ_e", "K")],
) -> float:
    """Heat that warms the air."""
    return V * c_v * (T_i - T_e)


@formula("Φ_RH", "power", "W", source=EN_12831)
def reheat(f_RH: Annotated[float, Sym("heat_flux", "f_RH", "W/m2")], A: Area) -> float:
    """Heat to warm the room up after a setback."""
    return f_RH * A


@formula("Φ", "power", "W", source=EN_12831)
def added(Phi: Powers) -> float:
    """Heat flows added."""
    return total(Phi)


@formula("Φ_V", "power", "W", source=EN_12831)
def weighted_air(w: Annotated[float, Sym("number", "w", "1")], Phi: Powers) -> float:
    """Heat that warms the air of the whole house."""
    return w * total(Phi)


@formula("H", "thermal_conductance", "W/K", source=EN_12831)
def room_coefficient(
    Phi: Powers, T_i: Inside, T_e: Annotated[float, Sym("temperature", "θ_e", "K")]
) -> float:
    """Loss of a room a kelvin."""
    return total(Phi) / (T_i - T_e)


@formula("H", "thermal_conductance", "W/K", source=EN_12831)
def coefficients_added(
    H: Annotated[list[float], Sym("thermal_conductance", "H", "W/K")],
) -> float:
    """Loss of the house a kelvin."""
    return total(H)


@formula("A_f", "area", "m2", source=EN_12831)
def floors(A: Annotated[list[float], Sym("area", "A_f", "m2")]) -> float:
    """Floor of all rooms."""
    return total(A)


@formula("φ", "heat_flux", "W/m2", source=EN_12831)
def per_area(Phi: Annotated[float, Sym("power", "Φ", "W")], A: Area) -> float:
    """Load over the floor."""
    return Phi / A
