"""Friction of a fluid in a full round pipe, for water, gas and condensate.

Laminar below a Reynolds number of 2000, Colebrook above 4000, and between them the larger of the
two: what the flow does there is not known, so the unfavourable law is taken and marked. At 2000 the
friction factor therefore jumps.
"""

from __future__ import annotations

import math
from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import choose, larger, ln, log10, sqrt
from tundish.sources import Source
from tundish.working import silent

LAMINAR_UP_TO: Final = 2000.0
TURBULENT_FROM: Final = 4000.0

CONTINUITY: Final = Source(
    "continuity",
    kind="textbook",
    document="Continuity of flow in a full pipe",
    edition="fluid mechanics textbooks",
    locator="w = V/A",
    confirmed="derived",
)
REYNOLDS: Final = Source(
    "reynolds-number",
    kind="textbook",
    document="Reynolds number of pipe flow",
    edition="fluid mechanics textbooks",
    locator="Re = w d ρ/μ",
    confirmed="derived",
)
HAGEN_POISEUILLE: Final = Source(
    "hagen-poiseuille",
    kind="textbook",
    document="Law of Hagen and Poiseuille for laminar flow",
    edition="fluid mechanics textbooks",
    locator="f = 64/Re",
    confirmed="derived",
)
COLEBROOK: Final = Source(
    "colebrook",
    kind="textbook",
    document="C. F. Colebrook, Turbulent flow in pipes, Journal of the Institution of Civil Engineers 11",
    edition="1939",
    locator="transition formula; started from two steps of D. Clamond, Industrial & Engineering "
    "Chemistry Research 48 (2009) 3665",
    confirmed="seen-reproduced",
    seen_in="constants as carried by the library fluids 1.3.1",
)
DARCY_WEISBACH: Final = Source(
    "darcy-weisbach",
    kind="textbook",
    document="Darcy-Weisbach equation of friction in pipes",
    edition="fluid mechanics textbooks",
    locator="Δp = f L/d ρ w²/2",
    confirmed="derived",
)

PI: Final = constant("π", math.pi, "number", "1")
Flow = Annotated[float, Sym("volume_flow", "V", "m3/s")]
Bore = Annotated[float, Sym("length", "d", "m")]
Length = Annotated[float, Sym("length", "L", "m")]
Velocity = Annotated[float, Sym("velocity", "w", "m/s")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
Viscosity = Annotated[float, Sym("dynamic_viscosity", "μ", "Pa.s")]
Roughness = Annotated[float, Sym("length", "k", "m")]
RelativeRoughness = Annotated[float, Sym("number", "ε", "1")]
Reynolds = Annotated[float, Sym("number", "Re", "1")]
Friction = Annotated[float, Sym("number", "f", "1")]
Loss = Annotated[float, Sym("number", "Σζ", "1")]


@formula("w", "velocity", "m/s", source=CONTINUITY)
def velocity(V: Flow, d: Bore) -> float:
    """Mean velocity in the pipe."""
    return V / (PI * d**2 / 4)


@formula("Re", "number", "1", source=REYNOLDS)
def reynolds_number(w: Velocity, d: Bore, rho: Density, mu: Viscosity) -> float:
    """Reynolds number."""
    return w * d * rho / mu


@formula("V_2000", "volume_flow", "m3/s", source=REYNOLDS)
def flow_at_reynolds(Re: Reynolds, d: Bore, rho: Density, mu: Viscosity) -> float:
    """Flow at which the Reynolds number has a given value."""
    return Re * PI * d / 4 * mu / rho


@formula("ε", "number", "1", source=COLEBROOK)
def relative_roughness(k: Roughness, d: Bore) -> float:
    """Relative roughness."""
    return k / d


@formula("f", "number", "1", source=HAGEN_POISEUILLE)
def laminar_friction(Re: Reynolds) -> float:
    """Friction factor of laminar flow."""
    return 64 / Re


@formula("f", "number", "1", source=COLEBROOK)
def colebrook(f: Friction, Re: Reynolds, eps: RelativeRoughness) -> float:
    """Friction factor of turbulent flow, put into Colebrook's equation, which gives it back."""
    return 1 / (2 * log10(eps / 3.7 + 2.51 / (Re * sqrt(f)))) ** 2


@formula("f", "number", "1", source=COLEBROOK)
def larger_friction(f_l: Friction, f_t: Friction) -> float:
    """Friction factor between laminar and turbulent flow: the larger of both."""
    return larger(f_l, f_t)


@formula("Δp", "pressure_difference", "Pa", source=DARCY_WEISBACH)
def friction_drop(f: Friction, L: Length, d: Bore, rho: Density, w: Velocity) -> float:
    """Pressure drop by friction."""
    return f * L / d * rho * w**2 / 2


@formula("R", "pressure_gradient", "Pa/m", source=DARCY_WEISBACH)
def friction_gradient(f: Friction, d: Bore, rho: Density, w: Velocity) -> float:
    """Pressure drop by friction for each metre."""
    return f / d * rho * w**2 / 2


@formula("Δp_ζ", "pressure_difference", "Pa", source=DARCY_WEISBACH)
def fittings_drop(zeta: Loss, rho: Density, w: Velocity) -> float:
    """Pressure drop of fittings by their loss coefficients."""
    return zeta * rho * w**2 / 2


def _clamond(Re: float, eps: float) -> float:
    """Solve Colebrook's equation to the last places in two steps of third order.

    Source: D. Clamond, Industrial & Engineering Chemistry Research 48 (2009) 3665-3671.
    """
    # 2.51/3.7 and ln 10 are Colebrook's own constants, brought to Clamond's variables.
    x1 = eps * Re * (math.log(10) / (2 * 3.7 * 2.51))
    x2 = ln(Re * (math.log(10) / (2 * 2.51)))
    found = x2 - 0.2
    for _ in range(2):
        error = (ln(x1 + found) + found - x2) / (1 + x1 + found)
        found = found - (1 + x1 + found + 0.5 * error) * error * (x1 + found) / (
            1 + x1 + found + error * (1 + error / 3)
        )
    return (math.log(10) / 2 / found) ** 2


def turbulent_friction(Re: float, eps: float) -> float:
    """Friction factor by Colebrook; one step of the working, which proves itself."""
    with silent():
        f = _clamond(Re, eps)
    return colebrook(f, Re, eps)


def unsettled_friction(Re: float, eps: float) -> float:
    """Friction factor where the law is uncertain: the larger of laminar and turbulent."""
    return larger_friction(laminar_friction(Re), turbulent_friction(Re, eps))


def friction_beyond_laminar(Re: float, eps: float) -> float:
    """Friction factor from a Reynolds number of 2000 on."""
    found: float = choose(
        Re < TURBULENT_FROM,
        unsettled_friction,
        turbulent_friction,
        Re,
        eps,
        why="flow between laminar and turbulent: the larger friction is taken",
    )
    return found


def _laminar(Re: float, eps: float) -> float:
    del eps
    return laminar_friction(Re)


def friction_factor(Re: float, eps: float) -> float:
    """Friction factor at a Reynolds number above zero and a relative roughness; arrays too."""
    found: float = choose(
        Re < LAMINAR_UP_TO,
        _laminar,
        friction_beyond_laminar,
        Re,
        eps,
        why="flow laminar, Re below 2000",
    )
    return found
