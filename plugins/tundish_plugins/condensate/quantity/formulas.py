"""Water of a fuel by heat and by volume, condensate of a year, acid in it."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.physics.flue_gas import M_water, oxygen_of_air
from tundish.sources import Source

WATER_OF_FUEL: Final = Source(
    "water-of-combustion",
    kind="textbook",
    document="Complete combustion, balance of atoms: water for each mole of fuel",
    edition="combustion textbooks",
    locator="CxHy + (x + y/4) O2 -> x CO2 + y/2 H2O",
    confirmed="derived",
)
MASS_BALANCE: Final = Source(
    "condensate-mass-balance",
    kind="derivation",
    document="Mass of water in proportion to the fuel burnt",
    edition="1",
    locator="m = w E, V = m/ρ",
    confirmed="derived",
)
FREE_ACID: Final = Source(
    "free-acid",
    kind="textbook",
    document="Hydrogen ions of a pH, taken up by limestone",
    edition="chemistry textbooks",
    locator="[H+] = 10^-pH mol/l; CaCO3 + 2 H+ -> Ca2+ + H2O + CO2; 100.087 g/mol",
    confirmed="derived",
)
ZERO_CELSIUS: Final = Source(
    "zero-celsius",
    kind="standard",
    document="The International System of Units, degree Celsius",
    edition="9th edition",
    locator="t/°C = T/K - 273.15",
    confirmed="seen",
    seen_in="SI brochure",
)

T_15: Final = constant("T_15", 288.15, "temperature", "K", source=ZERO_CELSIUS)
T_0: Final = constant("T_0", 273.15, "temperature", "K", source=ZERO_CELSIUS)

Water = Annotated[float, Sym("number", "n_H2O", "1")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]


@formula("w", "mass_per_energy", "kg/J", source=WATER_OF_FUEL)
def water_by_heat(n: Water, H: Annotated[float, Sym("molar_energy", "H", "J/mol")]) -> float:
    """Water that the fuel makes, by its heating value."""
    return n * M_water / H


@formula("w_15", "density", "kg/m3", source=WATER_OF_FUEL)
def water_by_volume(n: Water, V: Annotated[float, Sym("molar_volume", "V_m", "m3/mol")]) -> float:
    """Water that a cubic metre of gas makes, measured at 15 °C and 1013.25 mbar."""
    return n * M_water / V


@formula("w_0", "density", "kg/m3", source=WATER_OF_FUEL)
def water_by_normal_volume(w: Annotated[float, Sym("density", "w_15", "kg/m3")]) -> float:
    """Water that a cubic metre of gas makes, measured at 0 °C: an ideal gas is denser there."""
    return w * T_15 / T_0


@formula("T_f", "temperature", "K", source=MASS_BALANCE)
def flue_temperature(
    T_r: Annotated[float, Sym("temperature", "T_r", "K")],
    dT: Annotated[float, Sym("temperature_difference", "ΔT_a", "K")],
) -> float:
    """Flue gas leaves by the approach warmer than the water returns."""
    return T_r + dT


@formula("Φ_φ", "heat_input_net", "W", source=MASS_BALANCE)
def input_at_load(
    load: Annotated[float, Sym("number", "φ", "1")],
    Phi: Annotated[float, Sym("heat_input_net", "Φ_i", "W")],
) -> float:
    """Heat input at part of the rated load."""
    return load * Phi


@formula("V", "volume_flow", "m3/s", source=MASS_BALANCE)
def volume_flow(m: Annotated[float, Sym("mass_flow", "m", "kg/s")], rho: Density) -> float:
    """Condensate as a volume."""
    return m / rho


@formula("V", "volume_flow", "m3/s", source=MASS_BALANCE)
def flow_at_input(
    V: Annotated[float, Sym("volume_flow", "V_p", "m3/s")],
    Phi: Annotated[float, Sym("heat_input_net", "Φ_m", "W")],
    Phi_p: Annotated[float, Sym("heat_input_net", "Φ_p", "W")],
) -> float:
    """Condensate of an operating point at another heat input, as hot and with as much air."""
    return V * Phi / Phi_p


@formula("V_a", "volume", "m3", source=MASS_BALANCE)
def volume_of_year(
    b: Annotated[float, Sym("number", "b", "1")],
    w: Annotated[float, Sym("mass_per_energy", "w", "kg/J")],
    E: Annotated[float, Sym("energy", "E", "J")],
    rho: Density,
) -> float:
    """Condensate of the fuel of a year, with a share of its water condensing."""
    return b * w * E / rho


@formula("r", "number", "1", source=MASS_BALANCE)
def share_of_ceiling(
    V_m: Annotated[float, Sym("volume_flow", "V_m", "m3/s")],
    V: Annotated[float, Sym("volume_flow", "V_max", "m3/s")],
) -> float:
    """What was caught over the most that the fuel can make."""
    return V_m / V


@formula("m_l", "mass", "g", source=FREE_ACID, empirical=True)
def limestone(
    V: Annotated[float, Sym("volume", "V_a", "l")], pH: Annotated[float, Sym("number", "pH", "1")]
) -> float:
    """Limestone that the free acid takes up."""
    return 100.087 / 2 * V * 10 ** (-pH)


@formula("O2", "volume_fraction", "1", source=WATER_OF_FUEL)
def oxygen_of_ratio(
    ratio: Annotated[float, Sym("number", "λ", "1")],
    L_min: Annotated[float, Sym("number", "L_min", "1")],
    V: Annotated[float, Sym("number", "V_dry", "1")],
) -> float:
    """Oxygen left over in the dry flue gas."""
    return oxygen_of_air * (ratio - 1) * L_min / V
