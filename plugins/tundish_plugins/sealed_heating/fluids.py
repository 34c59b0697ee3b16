"""Density of what fills a heating system: water, or water with glycol."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import all_of
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
