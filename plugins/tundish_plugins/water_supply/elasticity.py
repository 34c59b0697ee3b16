"""Water and pipes that give: sound in water, its compressibility and expansion, and the pipe's own.

For water hammer and for the pressure of water that is shut in. Temperatures from 0 to 110 degC. A
pipe is taken as clipped, that is, held along its length: the stiffer case, so surge and the pressure
of trapped water come out on the high side.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import sqrt
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.sources import Source
from tundish_plugins.water_supply.formulas import rise_pressure

WATER_GIVE_FIT: Final = Source(
    "water-give-fit",
    kind="library",
    document="Least-squares fits to the IAPWS-95 formulation of ordinary water, liquid at 2.5 bar "
    "absolute, 0 to 110 degC, 400 Chebyshev points",
    edition="IAPWS R6-95(2018) as computed by CoolProp 8.0.0",
    locator="speed of sound within 0.02 m/s, compressibility within 0.04 %, expansion within "
    "0.3e-6 1/K",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
THICK_TUBE: Final = Source(
    "thick-tube",
    kind="textbook",
    document="Lamé's thick tube under internal pressure, held along its length (plane strain)",
    edition="strength of materials textbooks",
    locator="dA/(A dp) = [2 (1 + ν) + (1 - ν²) d²/(s (d + s))]/E",
    confirmed="derived",
)
KORTEWEG: Final = Source(
    "korteweg",
    kind="textbook",
    document="Speed of a pressure wave in an elastic pipe (Korteweg)",
    edition="fluid mechanics textbooks",
    locator="a = c/√(1 + ρ c² D), D the give of the pipe",
    confirmed="seen",
    seen_in="documentation of a pipe-flow simulator, with the factors for a held pipe",
)
TRAPPED: Final = Source(
    "trapped-water",
    kind="derivation",
    document="Water shut in a full pipe: what it swells beyond the pipe is taken up by the give of "
    "both",
    edition="1",
    locator="dp/dT = (β - 2 (1 + ν) α)/(κ + D)",
    confirmed="derived",
)
CelsiusT = Annotated[float, Sym("temperature", "θ", "degC")]
Gauge = Annotated[float, Sym("pressure_gauge", "p", "Pa")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
Bore = Annotated[float, Sym("length", "d", "m")]
Wall = Annotated[float, Sym("length", "s", "m")]
Modulus = Annotated[float, Sym("elastic_modulus", "E", "Pa")]
Poisson = Annotated[float, Sym("number", "ν", "1")]
Sound = Annotated[float, Sym("velocity", "c", "m/s")]
Give = Annotated[float, Sym("compressibility", "D", "1/Pa")]
Compressibility = Annotated[float, Sym("compressibility", "κ", "1/Pa")]


@formula("c", "velocity", "m/s", source=WATER_GIVE_FIT, empirical=True)
def speed_of_sound(t: CelsiusT) -> float:
    """Speed of sound in water.

    0 to 110 degC, within 0.02 m/s of IAPWS-95 at 2.5 bar absolute.
    """
    return 1402.64 + t * (
        5.03016 - t * (0.0574282 - t * (0.000316701 - t * (1.29978e-06 - t * 2.53723e-09)))
    )


@formula("κ", "compressibility", "1/GPa", source=WATER_GIVE_FIT, empirical=True)
def compressibility(t: CelsiusT) -> float:
    """Compressibility of water at constant temperature.

    0 to 110 degC, within 0.04 % of IAPWS-95 at 2.5 bar absolute; 0.4 % less at 15 bar.
    """
    return 0.508475 - t * (
        0.00372677 - t * (7.49838e-05 - t * (7.53112e-07 - t * (4.80933e-09 - t * 1.234e-11)))
    )


@formula("β", "expansion_coefficient", "1/K", source=WATER_GIVE_FIT, empirical=True)
def water_expansion(t: CelsiusT) -> float:
    """Expansion of water by volume.

    0 to 110 degC, within 0.3e-6 1/K of IAPWS-95 at 2.5 bar absolute; below 4 degC it is negative.
    """
    return 1e-6 * (
        -66.9757
        + t
        * (
            17.9687
            - t
            * (
                0.283268
                - t * (0.00427227 - t * (4.25232e-05 - t * (2.40033e-07 - t * 5.67081e-10)))
            )
        )
    )


@formula("D", "compressibility", "1/Pa", source=THICK_TUBE)
def pipe_give(E: Modulus, nu: Poisson, d: Bore, s: Wall) -> float:
    """Give of the pipe: share by which its section widens for each unit of pressure."""
    return (2 * (1 + nu) + (1 - nu**2) * d**2 / (s * (d + s))) / E


@formula("a", "velocity", "m/s", source=KORTEWEG)
def wave_speed(c: Sound, rho: Density, D: Give) -> float:
    """Speed of a pressure wave in the pipe."""
    return c / sqrt(1 + rho * c**2 * D)


@formula("dp/dT", "pressure_per_temperature", "Pa/K", source=TRAPPED)
def pressure_per_kelvin(
    beta: Annotated[float, Sym("expansion_coefficient", "β", "1/K")],
    alpha: Annotated[float, Sym("expansion_coefficient", "α", "1/K")],
    nu: Poisson,
    kappa: Compressibility,
    D: Give,
) -> float:
    """Pressure change of water shut in the full pipe, for each kelvin."""
    return (beta - 2 * (1 + nu) * alpha) / (kappa + D)


@formula("p", "pressure_gauge", "Pa", source=HYDROSTATICS)
def static_pressure(
    p_0: Annotated[float, Sym("pressure_gauge", "p_0", "Pa")],
    rho: Density,
    z: Annotated[float, Sym("length", "z", "m")],
    z_0: Annotated[float, Sym("length", "z_0", "m")],
) -> float:
    """Static pressure at a level, from a pressure known at another."""
    return p_0 - rise_pressure(rho, z - z_0)
