"""The physics of a condensate pump: inflow, heads, cycles, and what a relief valve would send."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import exp, larger, sqrt
from tundish.physics.hydrostatics import ATMOSPHERE, HYDROSTATICS, Density, g
from tundish.physics.pipes import PI, Bore, Flow, Length
from tundish.sources import Source

VOLUME_BALANCE: Final = Source(
    "tank-volume-balance",
    kind="derivation",
    document="Volume balance of a tank that a pump empties between two levels",
    edition="1",
    locator="t_on = V_s/(V_p - V_in), t_off = V_s/V_in",
    confirmed="derived",
)
SATURATION: Final = Source(
    "iapws-sr1-86",
    kind="standard",
    document="IAPWS SR1-86, Revised Supplementary Release on Saturation Properties of Ordinary "
    "Water Substance",
    edition="1992",
    locator="equations 1 to 3, vapour pressure and densities of saturated liquid and vapour",
    confirmed="seen-reproduced",
    seen_in="coefficients as carried by the library iapws 1.5.5",
)
CLAPEYRON: Final = Source(
    "clapeyron",
    kind="textbook",
    document="Clausius-Clapeyron equation, with the vapour-pressure equation's own slope",
    edition="thermodynamics textbooks",
    locator="h_fg = T (v'' - v') dp/dT",
    confirmed="derived",
)
SEAT: Final = Source(
    "safety-valve-seat",
    kind="standard",
    document="ISO 4126 mass flow of saturated steam through a safety valve's seat",
    edition="isentropic exponent 1.135, C = 2.509",
    locator="q = 0.2883 C sqrt(p/v), kg/(h.mm²), p in bar absolute",
    confirmed="computed",
    computed_with="agrees within 0.4 % with 1.26 kW/mm² of a safety-valve leaflet at 3 bar",
)
ERGUN: Final = Source(
    "ergun",
    kind="textbook",
    document="Pressure drop of a fluid through a bed of grains (Ergun)",
    edition="Chemical Engineering Progress 48 (1952) 89-94",
    locator="150 laminar, 1.75 turbulent",
    confirmed="seen-reproduced",
    seen_in="as carried by the library fluids 1.3.1",
)
FLASH: Final = Source(
    "flash-steam",
    kind="textbook",
    document="Energy balance of water let out to the pressure of the room",
    edition="thermodynamics textbooks",
    locator="x = (h' - h'_100)/h_fg,100, enthalpies by IAPWS SR1-86",
    confirmed="derived",
)
EXPANSION: Final = Source(
    "expansion-with-no-vessel",
    kind="derivation",
    document="Water in a full circuit with no vessel leaves as fast as it expands",
    edition="1",
    locator="V = P β/(ρ c_p)",
    confirmed="derived",
)
SEAT_BORE: Final = Source(
    "seat-of-a-bore",
    kind="derivation",
    document="A seat passes at most what its whole bore passes without loss",
    edition="1",
    locator="A = π d²/4, coefficient of discharge 1",
    confirmed="derived",
)

Yield = Annotated[float, Sym("volume_per_energy", "y", "m3/J")]
Head = Annotated[float, Sym("head", "H", "m")]
Lift = Annotated[float, Sym("length", "H_s", "m")]
KelvinT = Annotated[float, Sym("temperature", "T", "K")]


@formula("V_in", "volume_flow", "m3/s", source=VOLUME_BALANCE)
def inflow(y: Yield, Q: Annotated[float, Sym("power", "Q", "W")]) -> float:
    """Condensate that the heat input can make at most."""
    return y * Q


@formula("V_in", "volume_flow", "m3/s", source=VOLUME_BALANCE)
def greater_inflow(
    V_in: Annotated[float, Sym("volume_flow", "V_in", "m3/s")],
    V_m: Annotated[float, Sym("volume_flow", "V_m", "m3/s")],
) -> float:
    """Inflow to be lifted: what was measured, if that is more."""
    return larger(V_in, V_m)


@formula("H", "head", "m", source=HYDROSTATICS)
def system_head(H_s: Lift, H_f: Annotated[float, Sym("head", "H_f", "m")]) -> float:
    """Head that lift and friction ask for."""
    return H_s + H_f


@formula("m", "number", "1", source=VOLUME_BALANCE)
def flow_margin(
    V_j: Annotated[float, Sym("volume_flow", "V_j", "m3/s")],
    V_in: Annotated[float, Sym("volume_flow", "V_in", "m3/s")],
) -> float:
    """Flow of the pump over inflow."""
    return V_j / V_in


Inflow = Annotated[float, Sym("volume_flow", "V_in", "m3/s")]
Pumped = Annotated[float, Sym("volume_flow", "V_p", "m3/s")]
Switching = Annotated[float, Sym("volume", "V_s", "m3")]


@formula("t_on", "time", "s", source=VOLUME_BALANCE)
def run_time(V_s: Switching, V_p: Pumped, V_in: Inflow) -> float:
    """Run time of one cycle: the pump lifts the switched volume and what flows in meanwhile."""
    return V_s / (V_p - V_in)


@formula("t_off", "time", "s", source=VOLUME_BALANCE)
def rest_time(V_s: Switching, V_in: Inflow) -> float:
    """Rest between two runs."""
    return V_s / V_in


@formula("n", "frequency", "1/s", source=VOLUME_BALANCE)
def starts(
    t_on: Annotated[float, Sym("time", "t_on", "s")],
    t_off: Annotated[float, Sym("time", "t_off", "s")],
) -> float:
    """Starts in a unit of time."""
    return 1 / (t_on + t_off)


@formula("τ", "number", "1", source=VOLUME_BALANCE)
def run_share(V_in: Inflow, V_p: Pumped) -> float:
    """Share of the time that the pump runs."""
    return V_in / V_p


@formula("V_b", "volume", "m3", source=VOLUME_BALANCE)
def tube_content(d: Bore, L: Length) -> float:
    """Content of the tube."""
    return PI * d**2 / 4 * L


@formula("t_r", "time", "s", source=VOLUME_BALANCE)
def filling_time(V_r: Annotated[float, Sym("volume", "V_r", "m3")], V_in: Inflow) -> float:
    """Time in which the inflow fills the reserve."""
    return V_r / V_in


@formula("H_f", "head", "m", source=HYDROSTATICS)
def friction_head(H_p: Annotated[float, Sym("head", "H_p", "m")], H_s: Lift) -> float:
    """Head that friction takes at the duty point: the pump's head less the lift."""
    return H_p - H_s


# --- relief ---------------------------------------------------------------------------------------


@formula("p", "pressure_absolute", "Pa", source=HYDROSTATICS)
def absolute_pressure(p_set: Annotated[float, Sym("pressure_difference", "p_set", "Pa")]) -> float:
    """Absolute pressure at which the valve lifts, at standard atmosphere."""
    return p_set + ATMOSPHERE


@formula("ρ_l", "density", "kg/m3", source=SATURATION, empirical=True)
def saturated_liquid(T: KelvinT) -> float:
    """Density of saturated liquid water, 0.01 to 374 degC."""
    return 322 * (  # type: ignore[no-any-return]
        1
        + 1.99274064 * (1 - T / 647.096) ** (1 / 3)
        + 1.09965342 * (1 - T / 647.096) ** (2 / 3)
        - 0.510839303 * (1 - T / 647.096) ** (5 / 3)
        - 1.75493479 * (1 - T / 647.096) ** (16 / 3)
        - 45.5170352 * (1 - T / 647.096) ** (43 / 3)
        - 6.74694450e5 * (1 - T / 647.096) ** (110 / 3)
    )


@formula("ρ_v", "density", "kg/m3", source=SATURATION, empirical=True)
def saturated_vapour(T: KelvinT) -> float:
    """Density of saturated steam, 0.01 to 374 degC."""
    return 322 * exp(
        -2.03150240 * (1 - T / 647.096) ** (2 / 6)
        - 2.68302940 * (1 - T / 647.096) ** (4 / 6)
        - 5.38626492 * (1 - T / 647.096) ** (8 / 6)
        - 17.2991605 * (1 - T / 647.096) ** (18 / 6)
        - 44.7586581 * (1 - T / 647.096) ** (37 / 6)
        - 63.9201063 * (1 - T / 647.096) ** (71 / 6)
    )


@formula("dp/dT", "volumetric_heat_capacity", "J/(m3.K)", source=SATURATION, empirical=True)
def vapour_pressure_slope(
    T: KelvinT, p: Annotated[float, Sym("pressure_absolute", "p", "Pa")]
) -> float:
    """Slope of the vapour pressure of water; a pascal a kelvin is a joule a cubic metre and kelvin."""
    return (  # type: ignore[no-any-return]
        p
        / T
        * (
            7.85951783
            - 1.84408259 * 1.5 * (1 - T / 647.096) ** 0.5
            + 11.7866497 * 3 * (1 - T / 647.096) ** 2
            - 22.6807411 * 3.5 * (1 - T / 647.096) ** 2.5
            + 15.9618719 * 4 * (1 - T / 647.096) ** 3
            - 1.80122502 * 7.5 * (1 - T / 647.096) ** 6.5
        )
        - p
        / T
        * 647.096
        / T
        * (
            -7.85951783 * (1 - T / 647.096)
            + 1.84408259 * (1 - T / 647.096) ** 1.5
            - 11.7866497 * (1 - T / 647.096) ** 3
            + 22.6807411 * (1 - T / 647.096) ** 3.5
            - 15.9618719 * (1 - T / 647.096) ** 4
            + 1.80122502 * (1 - T / 647.096) ** 7.5
        )
    )


@formula("h_fg", "specific_enthalpy", "J/kg", source=CLAPEYRON)
def heat_of_evaporation(
    T: KelvinT,
    slope: Annotated[float, Sym("volumetric_heat_capacity", "dp/dT", "J/(m3.K)")],
    rho_l: Annotated[float, Sym("density", "ρ_l", "kg/m3")],
    rho_v: Annotated[float, Sym("density", "ρ_v", "kg/m3")],
) -> float:
    """Heat of evaporation at the lifting pressure."""
    return T * slope * (1 / rho_v - 1 / rho_l)


@formula("m", "mass_flow", "kg/s", source=CLAPEYRON)
def steam_flow(
    P: Annotated[float, Sym("power", "P", "W")],
    h_fg: Annotated[float, Sym("specific_enthalpy", "h_fg", "J/kg")],
) -> float:
    """Steam that carries the heat away."""
    return P / h_fg


@formula("A", "area", "m2", source=SEAT, empirical=True)
def seat_area(
    m: Annotated[float, Sym("mass_flow", "m", "kg/h")],
    p: Annotated[float, Sym("pressure_absolute", "p", "bar")],
    rho_v: Annotated[float, Sym("density", "ρ_v", "kg/m3")],
) -> float:
    """Effective seat that passes the steam."""
    return m / (0.2883 * 2.509 * sqrt(p * rho_v)) * 1e-6


@formula("A", "area", "m2", source=SEAT_BORE)
def area_of_bore(d_0: Annotated[float, Sym("length", "d_0", "m")]) -> float:
    """Area of the valve's bore, the most its seat can be."""
    return PI * d_0**2 / 4


@formula("A", "area", "m2", source=SEAT_BORE)
def larger_seat(
    A_1: Annotated[float, Sym("area", "A_1", "m2")],
    A_2: Annotated[float, Sym("area", "A_2", "m2")],
) -> float:
    """Seat that decides: the larger, so that the water it passes is not underrated."""
    return larger(A_1, A_2)


@formula("V_w", "volume_flow", "m3/s", source=HYDROSTATICS)
def water_flow(
    A: Annotated[float, Sym("area", "A", "m2")],
    p_set: Annotated[float, Sym("pressure_difference", "p_set", "Pa")],
    rho: Density,
) -> float:
    """Water through the seat at the lifting pressure."""
    return A * sqrt(2 * p_set / rho)


@formula("r", "number", "1", source=HYDROSTATICS)
def relief_over_pump(V_w: Annotated[float, Sym("volume_flow", "V_w", "m3/s")], V_p: Flow) -> float:
    """Water from the relief valve over the flow of the pump."""
    return V_w / V_p


@formula("Δp", "pressure_difference", "Pa", source=SATURATION)
def pressure_gap(
    p_sat: Annotated[float, Sym("pressure_absolute", "p_sat", "Pa")],
    p: Annotated[float, Sym("pressure_absolute", "p", "Pa")],
) -> float:
    """Vapour pressure less the lifting pressure; nothing at the boiling temperature."""
    return p_sat - p


@formula("α_0", "specific_enthalpy", "J/kg", source=SATURATION, empirical=True)
def auxiliary_enthalpy(T: KelvinT) -> float:
    """Auxiliary quantity of the enthalpy of saturated water, 0.01 to 374 degC."""
    return 1000 * (  # type: ignore[no-any-return]
        -1135.905627715
        - 5.65134998e-8 * (T / 647.096) ** -19
        + 2690.66631 * (T / 647.096)
        + 127.287297 * (T / 647.096) ** 4.5
        - 135.003439 * (T / 647.096) ** 5
        + 0.981825814 * (T / 647.096) ** 54.5
    )


@formula("h'", "specific_enthalpy", "J/kg", source=SATURATION)
def enthalpy_of_liquid(
    alpha: Annotated[float, Sym("specific_enthalpy", "α_0", "J/kg")],
    T: KelvinT,
    slope: Annotated[float, Sym("volumetric_heat_capacity", "dp/dT", "J/(m3.K)")],
    rho_l: Annotated[float, Sym("density", "ρ_l", "kg/m3")],
) -> float:
    """Enthalpy of saturated liquid water."""
    return alpha + T / rho_l * slope


@formula("x", "number", "1", source=FLASH)
def flash_share(
    h: Annotated[float, Sym("specific_enthalpy", "h'", "J/kg")],
    h_100: Annotated[float, Sym("specific_enthalpy", "h'_100", "J/kg")],
    h_fg: Annotated[float, Sym("specific_enthalpy", "h_fg,100", "J/kg")],
) -> float:
    """Share of water at the lifting pressure that turns to steam in the room."""
    return (h - h_100) / h_fg


@formula("V_β", "volume_flow", "m3/s", source=EXPANSION)
def expansion_flow(
    P: Annotated[float, Sym("power", "P", "W")],
    beta: Annotated[float, Sym("expansion_coefficient", "β", "1/K")],
    rho: Density,
    c: Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")],
) -> float:
    """Water pushed out while the boiler heats, with a vessel that takes none."""
    return P * beta / (rho * c)


# --- neutraliser ----------------------------------------------------------------------------------


@formula("w_b", "velocity", "m/s", source=ERGUN)
def bed_velocity(V: Flow, D_b: Annotated[float, Sym("length", "D_b", "m")]) -> float:
    """Velocity in the bed's vessel as if it were empty."""
    return V / (PI * D_b**2 / 4)


@formula("Δp_b", "pressure_difference", "Pa", source=ERGUN)
def bed_drop(
    L_b: Annotated[float, Sym("length", "L_b", "m")],
    d_p: Annotated[float, Sym("length", "d_p", "m")],
    e: Annotated[float, Sym("number", "ε_b", "1")],
    mu: Annotated[float, Sym("dynamic_viscosity", "μ", "Pa.s")],
    rho: Density,
    w: Annotated[float, Sym("velocity", "w_b", "m/s")],
) -> float:
    """Pressure drop of the clean bed."""
    return L_b * (
        150 * mu * (1 - e) ** 2 * w / (e**3 * d_p**2) + 1.75 * rho * (1 - e) * w**2 / (e**3 * d_p)
    )


@formula("V_e", "volume", "m3", source=VOLUME_BALANCE)
def bed_water(
    L_b: Annotated[float, Sym("length", "L_b", "m")],
    D_b: Annotated[float, Sym("length", "D_b", "m")],
    e: Annotated[float, Sym("number", "ε_b", "1")],
) -> float:
    """Water between the grains of the bed."""
    return e * PI * D_b**2 / 4 * L_b


@formula("H", "head", "m", source=HYDROSTATICS)
def with_bed(H: Head, H_b: Annotated[float, Sym("head", "H_b", "m")]) -> float:
    """Head that tube and bed ask for."""
    return H + H_b


@formula("H_b", "head", "m", source=HYDROSTATICS)
def bed_head(dp: Annotated[float, Sym("pressure_difference", "Δp_b", "Pa")], rho: Density) -> float:
    """Head lost in the bed."""
    return dp / (rho * g)
