"""A gravity drain: slope, full-bore flow, the seal of a trap, water that freezes in a pipe."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import ln, log10, smaller, sqrt, tan, total
from tundish.physics.hydrostatics import g
from tundish.physics.pipes import COLEBROOK, HAGEN_POISEUILLE, PI
from tundish.sources import Source

GEOMETRY: Final = Source(
    "slope-geometry",
    kind="textbook",
    document="Slope of a pipe",
    edition="trigonometry",
    locator="i = z/L, i = tan α",
    confirmed="derived",
)
UNIFORM_FLOW: Final = Source(
    "uniform-flow",
    kind="textbook",
    document="Uniform flow in a full pipe: the slope is the head lost for each metre",
    edition="hydraulics textbooks",
    locator="i = f/d w²/(2 g), with Colebrook's equation solved for the velocity",
    confirmed="derived",
)
SEAL: Final = Source(
    "trap-seal",
    kind="derivation",
    document="Water seal under a steady pressure: what is pushed over the weir is lost, and the "
    "inlet leg stands lower by the head of the pressure",
    edition="1",
    locator="p = ρ g h, h_l = h_s - p_f/(ρ g)",
    confirmed="derived",
)
FREEZING: Final = Source(
    "freezing-time",
    kind="standard",
    document="EN ISO 12241, thermal insulation of pipes, time until water freezes",
    edition="2008 and 2022",
    locator="method of cooling and freezing times",
    confirmed="memory",
)
ICE: Final = Source(
    "melting-ice",
    kind="library",
    document="Heat of fusion of ice at 0 °C and 1013.25 mbar",
    edition="iapws 1.5.5",
    locator="enthalpy of water (IAPWS-95) less that of ice Ih (IAPWS-06)",
    confirmed="computed",
    computed_with="iapws 1.5.5",
)

h_fus: Final = constant("h_fus", 333421.0, "specific_enthalpy", "J/kg", source=ICE)
FREEZING_POINT: Final = constant("T_f", 273.15, "temperature", "K", source=FREEZING)

Slope = Annotated[float, Sym("slope", "i", "m/m")]
Bore = Annotated[float, Sym("length", "d", "m")]
Outer = Annotated[float, Sym("length", "D", "m")]
Thickness = Annotated[float, Sym("length", "s_i", "m")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
Viscosity = Annotated[float, Sym("dynamic_viscosity", "μ", "Pa.s")]
Air = Annotated[float, Sym("temperature", "T_a", "K")]
Loss = Annotated[float, Sym("linear_transmittance", "U_l", "W/(m.K)")]


@formula("i", "slope", "m/m", source=GEOMETRY)
def fall(
    z: Annotated[float, Sym("length", "z", "m")], L: Annotated[float, Sym("length", "L", "m")]
) -> float:
    """Drop for each metre of pipe."""
    return z / L


@formula("i_min", "slope", "m/m", source=GEOMETRY)
def fall_of_angle(a: Annotated[float, Sym("angle", "α", "rad")]) -> float:
    """An angle as drop for each metre."""
    return tan(a)


@formula("L", "length", "m", source=GEOMETRY)
def together(L: Annotated[list[float], Sym("length", "L", "m")]) -> float:
    """Lengths added."""
    return total(L)


@formula("V", "volume_flow", "m3/s", source=GEOMETRY)
def flow_together(V: Annotated[list[float], Sym("volume_flow", "V_in", "m3/s")]) -> float:
    """Condensate of all appliances at once."""
    return total(V)


@formula("w_l", "velocity", "m/s", source=HAGEN_POISEUILLE)
def laminar_velocity(i: Slope, d: Bore, rho: Density, mu: Viscosity) -> float:
    """Velocity on the slope if the flow is laminar."""
    return rho * g * i * d**2 / (32 * mu)


@formula("w_t", "velocity", "m/s", source=COLEBROOK)
def turbulent_velocity(
    i: Slope,
    d: Bore,
    k: Annotated[float, Sym("length", "k", "m")],
    rho: Density,
    mu: Viscosity,
) -> float:
    """Velocity on the slope if the flow is turbulent."""
    return (
        -2
        * sqrt(2 * g * d * i)
        * log10(k / (3.7 * d) + 2.51 * mu / (rho * d * sqrt(2 * g * d * i)))
    )


@formula("V_f", "volume_flow", "m3/s", source=UNIFORM_FLOW)
def full_bore_flow(
    w_l: Annotated[float, Sym("velocity", "w_l", "m/s")],
    w_t: Annotated[float, Sym("velocity", "w_t", "m/s")],
    d: Bore,
) -> float:
    """Flow that fills the bore, by the slower of both laws."""
    return smaller(w_l, w_t) * PI * d**2 / 4


@formula("h_l", "length", "m", source=SEAL)
def seal_left(
    h: Annotated[float, Sym("length", "h_s", "m")],
    p: Annotated[float, Sym("pressure_difference", "p_f", "Pa")],
    rho: Density,
) -> float:
    """Seal left under the pressure of the flue gas."""
    return h - p / (rho * g)


@formula("U_l", "linear_transmittance", "W/(m.K)", source=FREEZING)
def loss_of_pipe(
    d: Bore,
    D: Outer,
    s: Thickness,
    k_p: Annotated[float, Sym("thermal_conductivity", "λ_p", "W/(m.K)")],
    k_i: Annotated[float, Sym("thermal_conductivity", "λ_i", "W/(m.K)")],
    h: Annotated[float, Sym("thermal_transmittance", "h_e", "W/(m2.K)")],
) -> float:
    """Heat lost by a metre of pipe for each kelvin."""
    return 1 / (
        ln(D / d) / (2 * PI * k_p)
        + ln((D + 2 * s) / D) / (2 * PI * k_i)
        + 1 / (PI * (D + 2 * s) * h)
    )


@formula("t_0", "time", "s", source=FREEZING)
def cooling_time(
    rho: Density,
    c: Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")],
    d: Bore,
    U: Loss,
    T_0: Annotated[float, Sym("temperature", "T_0", "K")],
    T_a: Air,
) -> float:
    """Time until standing water has cooled to freezing point."""
    return rho * PI * d**2 / 4 * c / U * ln((T_0 - T_a) / (FREEZING_POINT - T_a))


@formula("t_i", "time", "s", source=FREEZING)
def freezing_time(
    f: Annotated[float, Sym("number", "f_i", "1")], rho: Density, d: Bore, U: Loss, T_a: Air
) -> float:
    """Time in which a share of the water then freezes."""
    return f * rho * PI * d**2 / 4 * h_fus / (U * (FREEZING_POINT - T_a))
