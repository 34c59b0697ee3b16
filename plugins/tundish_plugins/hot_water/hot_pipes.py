"""Heat lost by hot pipes: insulated, or bare in still air. Formulas that the family shares.

The wall of the pipe and the water film inside are left out: both are small, and leaving them out
keeps the loss on the high side.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.physics.hydrostatics import g
from tundish.physics.pipes import PI
from tundish.sources import Source
from tundish_plugins.hot_water.insulation import insulated_conductance, insulated_diameter

__all__ = ["bare_pipe", "insulated_pipe", "loss_for_each_metre", "pipe_loss"]

STILL_AIR: Final = Source(
    "churchill-chu",
    kind="textbook",
    document="S. W. Churchill and H. H. S. Chu, Correlating equations for laminar and turbulent "
    "free convection from a horizontal cylinder, Int. J. Heat and Mass Transfer 18",
    edition="1975",
    locator="Nu over the whole range of Ra; from 1e-5",
    confirmed="seen-reproduced",
    seen_in="the equation as carried by the library ht 1.2.0",
)
AIR: Final = Source(
    "air-fit",
    kind="library",
    document="Least-squares fit to dry air at 1.01325 bar, -20 to 100 degC, 200 points",
    edition="CoolProp 8.0.0",
    locator="conductivity within 0.02 %, viscosity within 0.05 %, Prandtl number within 0.01 %",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
RADIATION: Final = Source(
    "grey-radiation",
    kind="textbook",
    document="Radiation of a small grey body into large surroundings, Stefan-Boltzmann law",
    edition="heat transfer textbooks; constant of CODATA 2018",
    locator="q = ε σ (T⁴ - T_a⁴), σ = 5.670374e-8 W/(m²·K⁴)",
    confirmed="derived",
)
LINEAR: Final = Source(
    "loss-for-each-metre",
    kind="textbook",
    document="Heat loss of a pipe in proportion to length and difference of temperature",
    edition="heat transfer textbooks",
    locator="q = U_l (T - T_a), Q = q L",
    confirmed="derived",
)


Outside = Annotated[float, Sym("length", "d_a", "m")]
Water = Annotated[float, Sym("temperature", "T", "K")]
Room = Annotated[float, Sym("temperature", "T_a", "K")]
Film = Annotated[float, Sym("temperature", "T_f", "K")]
Prandtl = Annotated[float, Sym("number", "Pr", "1")]
Rayleigh = Annotated[float, Sym("number", "Ra", "1")]
Viscosity = Annotated[float, Sym("kinematic_viscosity", "ν", "m2/s")]
Coefficient = Annotated[float, Sym("thermal_transmittance", "h_c", "W/(m2.K)")]


@formula("T_f", "temperature", "K", source=STILL_AIR)
def film_temperature(T: Water, T_a: Room) -> float:
    """Temperature of the air film at the pipe."""
    return (T + T_a) / 2


@formula("λ_f", "thermal_conductivity", "W/(m.K)", source=AIR, empirical=True)
def air_conductivity(T: Film) -> float:
    """Conductivity of air, -20 to 100 degC."""
    return 2.63833e-2 + (T - 300) * (7.43477e-5 - 3.84359e-8 * (T - 300))


@formula("ν", "kinematic_viscosity", "m2/s", source=AIR, empirical=True)
def air_viscosity(T: Film) -> float:
    """Kinematic viscosity of air at sea level, -20 to 100 degC."""
    return 1.57512e-5 + (T - 300) * (9.34795e-8 + 1.05593e-10 * (T - 300))


@formula("Pr", "number", "1", source=AIR, empirical=True)
def air_prandtl(T: Film) -> float:
    """Prandtl number of air, -20 to 100 degC."""
    return 0.707074 - (T - 300) * (1.27651e-4 - 4.79616e-7 * (T - 300))


@formula("Ra", "number", "1", source=STILL_AIR)
def rayleigh_number(
    d_a: Outside, T: Water, T_a: Room, T_f: Film, nu: Viscosity, Pr: Prandtl
) -> float:
    """Rayleigh number of the air round the pipe."""
    return g * (T - T_a) / T_f * d_a**3 * Pr / nu**2


@formula("Nu", "number", "1", source=STILL_AIR)
def nusselt_number(Ra: Rayleigh, Pr: Prandtl) -> float:
    """Nusselt number of a level pipe in still air."""
    return (  # type: ignore[no-any-return]
        0.6 + 0.387 * Ra ** (1 / 6) / (1 + (0.559 / Pr) ** (9 / 16)) ** (8 / 27)
    ) ** 2


@formula("h_c", "thermal_transmittance", "W/(m2.K)", source=STILL_AIR)
def convection(
    Nu: Annotated[float, Sym("number", "Nu", "1")],
    k: Annotated[float, Sym("thermal_conductivity", "λ_f", "W/(m.K)")],
    d_a: Outside,
) -> float:
    """Heat to still air for each square metre and kelvin."""
    return Nu * k / d_a


@formula("h_r", "thermal_transmittance", "W/(m2.K)", source=RADIATION, empirical=True)
def radiation(eps: Annotated[float, Sym("number", "ε", "1")], T: Water, T_a: Room) -> float:
    """Heat by radiation for each square metre and kelvin."""
    return eps * 5.670374e-8 * (T**2 + T_a**2) * (T + T_a)


@formula("U_l", "linear_transmittance", "W/(m.K)", source=LINEAR)
def bare_conductance(
    d_a: Outside,
    h_c: Coefficient,
    h_r: Annotated[float, Sym("thermal_transmittance", "h_r", "W/(m2.K)")],
) -> float:
    """Heat lost for each metre and kelvin by a bare pipe."""
    return PI * d_a * (h_c + h_r)


@formula("q", "linear_heat_flux", "W/m", source=LINEAR)
def loss_for_each_metre(
    U_l: Annotated[float, Sym("linear_transmittance", "U_l", "W/(m.K)")], T: Water, T_a: Room
) -> float:
    """Heat lost for each metre."""
    return U_l * (T - T_a)


@formula("Q", "power", "W", source=LINEAR)
def pipe_loss(
    q: Annotated[float, Sym("linear_heat_flux", "q", "W/m")],
    L: Annotated[float, Sym("length", "L", "m")],
) -> float:
    """Heat lost by the pipe."""
    return q * L


def insulated_pipe(d_a: float, s: float, k: float, h: float) -> float:
    """Loss of an insulated pipe for each metre and kelvin, W/(m·K)."""
    return insulated_conductance(d_a, insulated_diameter(d_a, s), k, h)


def bare_pipe(d_a: float, eps: float, T: float, T_a: float) -> float:
    """Loss for each metre of a bare level pipe in still air, W/m."""
    T_f = film_temperature(T, T_a)
    Pr = air_prandtl(T_f)
    Ra = rayleigh_number(d_a, T, T_a, T_f, air_viscosity(T_f), Pr)
    h_c = convection(nusselt_number(Ra, Pr), air_conductivity(T_f), d_a)
    return loss_for_each_metre(bare_conductance(d_a, h_c, radiation(eps, T, T_a)), T, T_a)
