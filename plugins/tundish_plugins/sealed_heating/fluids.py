"""Density, viscosity and specific heat of what fills a heating system: water, or water with glycol."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import all_of, exp
from tundish.physics import water
from tundish.sources import Source

GLYCOL_FIT: Final = Source(
    "glycol-density-fit",
    kind="library",
    document="Least-squares fit to the density of aqueous glycols (Melinder's data), mass share "
    "0.10 to 0.55, 0 to 100 degC",
    edition="CoolProp 8.0.0, INCOMP::MPG and INCOMP::MEG",
    locator="propylene glycol within 0.015 %, ethylene glycol within 0.032 %",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
GLYCOL_VOLUME: Final = Source(
    "glycol-volume-share",
    kind="derivation",
    document="Mass share of a glycol from its share of the volumes put together at 20 degC",
    edition="1",
    locator="x = φ ρ_g/(φ ρ_g + (1 - φ) ρ_w)",
    confirmed="derived",
)
PURE_GLYCOL: Final = Source(
    "pure-glycol-density",
    kind="library",
    document="Perry's Chemical Engineers' Handbook, densities of organic liquids, equation 105",
    edition="8th edition, as carried by chemicals 1.5.2",
    locator="20 degC: propane-1,2-diol 1036.3 kg/m3, ethane-1,2-diol 1113.7 kg/m3",
    confirmed="computed",
    computed_with="chemicals 1.5.2",
)
GLYCOL_FLOW_FIT: Final = Source(
    "glycol-flow-fit",
    kind="library",
    document="Least-squares fit to the viscosity and specific heat of aqueous glycols (Melinder's "
    "data), mass share 0.10 to 0.55, 0 to 100 degC",
    edition="CoolProp 8.0.0, INCOMP::MPG and INCOMP::MEG",
    locator="viscosity within 0.3 %, specific heat within 0.07 %",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
LEAST_SHARE: Final = 0.10
"""Least mass share in the data of the fit."""
LARGEST_SHARE: Final = 0.55
"""Largest mass share in the data of the fit."""
HOTTEST: Final = 373.15
"""Highest temperature in the data of the fit, K (100 degC)."""
MIXED_AT: Final = 293.15
"""Temperature at which a share by volume is understood, K (20 degC)."""

PURE: Final = {
    "propylene-glycol": constant("ρ_g", 1036.3, "density", "kg/m3", source=PURE_GLYCOL),
    "ethylene-glycol": constant("ρ_g", 1113.7, "density", "kg/m3", source=PURE_GLYCOL),
}
"""Density of the pure glycols at 20 degC."""

Share = Annotated[float, Sym("number", "x", "1")]
CelsiusT = Annotated[float, Sym("temperature", "θ", "degC")]


@formula("ρ", "density", "kg/m3", source=GLYCOL_FIT, empirical=True)
def propylene_glycol(x: Share, t: CelsiusT) -> float:
    """Density of water with propylene glycol, mass share 0.10 to 0.55, 0 to 100 degC."""
    return (
        1000.799
        + x * (69.42382 + x * (183.5563 - 243.6392 * x))
        + t
        * (
            0.05163764
            - x * (0.7940349 + x * (2.346061 - 3.138728 * x))
            - t
            * (
                0.006576995
                - x * (0.0093312 - x * (0.0007218543 + 0.007175 * x))
                - t * (2.077592e-05 - x * (3.416073e-05 - 3.376e-05 * x))
            )
        )
    )


@formula("ρ", "density", "kg/m3", source=GLYCOL_FIT, empirical=True)
def ethylene_glycol(x: Share, t: CelsiusT) -> float:
    """Density of water with ethylene glycol, mass share 0.10 to 0.55, 0 to 100 degC."""
    return (
        999.0167
        + x * (138.0337 + x * (85.59198 - 118.0406 * x))
        + t
        * (
            0.04962402
            - x * (1.093052 + x * (0.4979276 - 1.483626 * x))
            - t
            * (
                0.005067203
                - x * (0.006743048 + x * (0.001932634 - 0.01153 * x))
                - t * (8.944013e-06 - x * (2.904515e-05 - 4.982e-05 * x))
            )
        )
    )


@formula("x", "number", "1", source=GLYCOL_VOLUME)
def mass_share(
    phi: Annotated[float, Sym("number", "φ", "1")],
    rho_g: Annotated[float, Sym("density", "ρ_g", "kg/m3")],
    rho_w: Annotated[float, Sym("density", "ρ_w", "kg/m3")],
) -> float:
    """Mass share of glycol from its share by volume."""
    return phi * rho_g / (phi * rho_g + (1 - phi) * rho_w)


def share_by_mass(fluid: str, phi: float) -> float:
    """Mass share of a glycol from its share of the volumes put together at 20 degC."""
    return mass_share(phi, PURE[fluid], water.density(MIXED_AT))


def known(x: float) -> bool:
    """Whether the data reach this mass share; arrays too."""
    return all_of(x >= LEAST_SHARE, x <= LARGEST_SHARE)


def density(fluid: str, x: float | None, T: float) -> float:
    """Density of the content at an absolute temperature."""
    if fluid == "water" or x is None:
        return water.density(T)
    if fluid == "propylene-glycol":
        return propylene_glycol(x, T)
    return ethylene_glycol(x, T)


# --- in flow --------------------------------------------------------------------------------------


@formula("μ", "dynamic_viscosity", "mPa.s", source=GLYCOL_FLOW_FIT, empirical=True)
def propylene_glycol_viscosity(x: Share, t: CelsiusT) -> float:
    """Viscosity of water with propylene glycol, mass share 0.10 to 0.55, 0 to 100 degC."""
    return exp(
        0.6517154
        + x * (2.99449 + x * (6.658595 - 6.896271 * x))
        + t
        * (
            -0.03386162
            + x * (-0.0204436 + x * (-0.1854841 + 0.2125634 * x))
            + t
            * (
                0.000235838
                + x * (0.0002372529 + x * (0.00134813 - 0.001589 * x))
                + t * (-8.70013e-07 + x * (-1.585821e-06 + x * (-4.465e-07)))
            )
        )
    )


@formula("c_p", "specific_heat", "J/(kg.K)", source=GLYCOL_FLOW_FIT, empirical=True)
def propylene_glycol_specific_heat(x: Share, t: CelsiusT) -> float:
    """Specific heat of water with propylene glycol, mass share 0.10 to 0.55, 0 to 100 degC."""
    return (
        4161.266
        + x * (-992.2556 + x * (-487.7858 - 706.6671 * x))
        + t
        * (
            -1.432556
            + x * (25.65379 + x * (-52.22932 + 44.04996 * x))
            + t
            * (
                0.02932569
                + x * (-0.2027099 + x * (0.4314658 - 0.2902652 * x))
                + t * (-0.0001027248 + x * (0.0004486093 + x * (-0.0004787002 - 7.839211e-06 * x)))
            )
        )
    )


@formula("μ", "dynamic_viscosity", "mPa.s", source=GLYCOL_FLOW_FIT, empirical=True)
def ethylene_glycol_viscosity(x: Share, t: CelsiusT) -> float:
    """Viscosity of water with ethylene glycol, mass share 0.10 to 0.55, 0 to 100 degC."""
    return exp(
        0.5371415
        + x * (3.205023 + x * (-0.7288626 + 0.9025522 * x))
        + t
        * (
            -0.03267475
            + x * (-0.02053818 + x * (0.005349335 - 0.02141393 * x))
            + t
            * (
                0.0002274882
                + x * (-6.835156e-05 + x * (0.0003454321 + 0.0004063 * x))
                + t * (-8.789616e-07 + x * (2.360583e-06 + x * (-6.475e-06)))
            )
        )
    )


@formula("c_p", "specific_heat", "J/(kg.K)", source=GLYCOL_FLOW_FIT, empirical=True)
def ethylene_glycol_specific_heat(x: Share, t: CelsiusT) -> float:
    """Specific heat of water with ethylene glycol, mass share 0.10 to 0.55, 0 to 100 degC."""
    return (
        4172.894
        + x * (-1141.991 + x * (-2409.195 + 1625.127 * x))
        + t
        * (
            -1.428635
            + x * (17.28235 + x * (-9.146295 + 5.630942 * x))
            + t
            * (
                0.02601498
                + x * (-0.1621228 + x * (0.2660834 - 0.1592115 * x))
                + t * (-8.712352e-05 + x * (0.0004540535 + x * (-0.0006972474 - 1.687621e-05 * x)))
            )
        )
    )


def viscosity(fluid: str, x: float | None, T: float) -> float:
    """Dynamic viscosity of the content at an absolute temperature."""
    if fluid == "water" or x is None:
        return water.dynamic_viscosity(T)
    if fluid == "propylene-glycol":
        return propylene_glycol_viscosity(x, T)
    return ethylene_glycol_viscosity(x, T)


def specific_heat(fluid: str, x: float | None, T: float) -> float:
    """Specific heat of the content at an absolute temperature."""
    if fluid == "water" or x is None:
        return water.specific_heat(T)
    if fluid == "propylene-glycol":
        return propylene_glycol_specific_heat(x, T)
    return ethylene_glycol_specific_heat(x, T)
