"""Liquid water from 0 to 110 degC, for hot water stores, heating circuits and mains.

Each property is a formula of temperature alone. A system holds its water somewhere between 1 and
4 bar absolute, and the reference is 2.5 bar absolute, in the middle: liquid over the whole range, and
pressure then changes density by less than 0.008 % and specific heat by less than 0.03 % either way.

The functions take kelvins and answer in SI, as a step of the working inside a run and as plain
functions of a float (or an array) anywhere else: ``density(293.15)``. They know no range of their
own: an input's range, or :func:`in_range` in a kernel's ``require``, keeps the temperature between
``LOWEST`` and ``HIGHEST``. Outside, the numbers mean nothing.

Pure water: no allowance for antifreeze or inhibitor.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import all_of, exp
from tundish.sources import Source

LOWEST: Final = 273.15
"""Lowest temperature of the correlations, K (0 degC)."""
HIGHEST: Final = 383.15
"""Highest temperature of the correlations, K (110 degC)."""
REFERENCE_PRESSURE: Final = 2.5e5
"""Absolute pressure of the density, specific heat and enthalpy, Pa."""

WATER_FIT: Final = Source(
    "water-iapws-95-fit",
    kind="library",
    document="Least-squares fit to the IAPWS-95 formulation of ordinary water, liquid at 2.5 bar "
    "absolute, 0 to 110 degC, 400 Chebyshev points",
    edition="IAPWS R6-95(2018) as computed by CoolProp 8.0.0",
    locator="density within 0.0002 %, specific heat within 0.01 %, enthalpy within 3 J/kg",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
VAPORISATION_FIT: Final = Source(
    "heat-of-vaporisation-fit",
    kind="library",
    document="Least-squares fit to the IAPWS-95 formulation of ordinary water, saturated vapour less "
    "saturated liquid, 0 to 110 degC, Chebyshev points",
    edition="IAPWS R6-95(2018) as computed by CoolProp 8.0.0",
    locator="within 0.002 %",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
WATER_0_1_MPA: Final = Source(
    "iapws-sr6-08",
    kind="standard",
    document="IAPWS SR6-08, Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa",
    edition="2011",
    locator="viscosity correlation, 253.15 to 383.15 K, uncertainty 1 %",
    confirmed="seen-reproduced",
    seen_in="coefficients as carried by the library iapws 1.5.5",
)
SATURATION: Final = Source(
    "iapws-sr1-86",
    kind="standard",
    document="IAPWS SR1-86, Revised Supplementary Release on Saturation Properties of Ordinary "
    "Water Substance",
    edition="1992",
    locator="vapour pressure, equation 1, triple point to critical point",
    confirmed="seen-reproduced",
    seen_in="coefficients as carried by the library iapws 1.5.5",
)

CelsiusT = Annotated[float, Sym("temperature", "θ", "degC")]
KelvinT = Annotated[float, Sym("temperature", "T", "K")]


def in_range(temperature: float) -> bool:
    """Whether a temperature in kelvins lies where these correlations hold; arrays too."""
    return all_of(temperature >= LOWEST, temperature <= HIGHEST)


@formula("ρ", "density", "kg/m3", source=WATER_FIT, empirical=True)
def density(t: CelsiusT) -> float:
    """Density of water.

    0 to 110 degC; within 0.001 % of IAPWS-95 at 2.5 bar absolute, 0.008 % from 1 to 4 bar.
    """
    return (999.9189 + t * (13.51461 - t * (0.00808373 + 2.31486e-05 * t))) / (1 + 0.013449 * t)


@formula("c_p", "specific_heat", "J/(kg.K)", source=WATER_FIT, empirical=True)
def specific_heat(t: CelsiusT) -> float:
    """Specific heat of water at constant pressure.

    0 to 110 degC; within 0.01 % of IAPWS-95 at 2.5 bar absolute, 0.03 % from 1 to 4 bar.
    """
    return 4218.37 - t * (
        3.17287 - t * (0.0940336 - t * (0.00132588 - t * (9.68734e-06 - 2.68764e-08 * t)))
    )


@formula("h", "specific_enthalpy", "J/kg", source=WATER_FIT, empirical=True)
def enthalpy(t: CelsiusT) -> float:
    """Specific enthalpy of water.

    The integral of :func:`specific_heat`, from the zero of the steam tables (liquid at the triple
    point). 0 to 110 degC; within 3 J/kg of IAPWS-95 at 2.5 bar absolute.
    """
    return 211.8 + t * (
        4218.37
        - t
        * (
            3.17287 / 2
            - t
            * (0.0940336 / 3 - t * (0.00132588 / 4 - t * (9.68734e-06 / 5 - t * 2.68764e-08 / 6)))
        )
    )


@formula("μ", "dynamic_viscosity", "Pa.s", source=WATER_0_1_MPA, empirical=True)
def dynamic_viscosity(temperature: KelvinT) -> float:
    """Dynamic viscosity of water.

    0 to 110 degC, within 1 %; the pressure of a water system does not change it noticeably.
    """
    return 1e-6 * (  # type: ignore[no-any-return]
        280.68 * (temperature / 300) ** -1.9
        + 511.45 * (temperature / 300) ** -7.7
        + 61.131 * (temperature / 300) ** -19.6
        + 0.45903 * (temperature / 300) ** -40
    )


@formula("p_sat", "pressure_absolute", "Pa", source=SATURATION, empirical=True)
def saturation_pressure(temperature: KelvinT) -> float:
    """Saturation pressure of water: the absolute pressure at which it boils.

    0.01 to 110 degC (and on to the critical point), within 0.01 %.
    """
    return 22.064e6 * exp(
        647.096
        / temperature
        * (
            -7.85951783 * (1 - temperature / 647.096)
            + 1.84408259 * (1 - temperature / 647.096) ** 1.5
            - 11.7866497 * (1 - temperature / 647.096) ** 3
            + 22.6807411 * (1 - temperature / 647.096) ** 3.5
            - 15.9618719 * (1 - temperature / 647.096) ** 4
            + 1.80122502 * (1 - temperature / 647.096) ** 7.5
        )
    )


@formula("r", "specific_enthalpy", "J/kg", source=VAPORISATION_FIT, empirical=True)
def heat_of_vaporisation(t: CelsiusT) -> float:
    """Heat of vaporisation of water.

    0 to 110 degC, saturated; within 0.002 % of IAPWS-95.
    """
    return 2500913.0 - t * (2375.646 - t * (0.5492631 - t * 0.01244602))
