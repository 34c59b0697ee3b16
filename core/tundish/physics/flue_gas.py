"""Burning a gas in air: air, flue gas, dew point, heat that leaves with it. All for one mole of fuel.

Complete combustion of ideal gases at one pressure. Amounts are moles for each mole of fuel, which are
volumes for each volume as far as the gases are ideal. Analysers dry their sample, so readings are
shares of dry flue gas. Combustion air is 20.95 % oxygen, the rest nitrogen with the argon in it.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import total
from tundish.sources import Source

STOICHIOMETRY: Final = Source(
    "stoichiometry",
    kind="textbook",
    document="Complete combustion of gases, balance of atoms",
    edition="combustion textbooks",
    locator="C + O2 -> CO2, 2 H2 + O2 -> 2 H2O; dilution by excess air",
    confirmed="derived",
)
DRY_AIR: Final = Source(
    "dry-air",
    kind="textbook",
    document="Composition of dry air near the ground",
    edition="combustion textbooks",
    locator="20.95 % oxygen by volume; molar mass 28.965 g/mol",
    confirmed="computed",
    computed_with="CoolProp 8.0.0 (molar masses)",
)
IDEAL_GAS_HEAT: Final = Source(
    "ideal-gas-heat-fit",
    kind="library",
    document="Least-squares fit to ideal-gas heat capacities of carbon dioxide, water, oxygen and "
    "nitrogen with 1.18 % argon, -20 to 260 degC, Chebyshev points, integrated",
    edition="CoolProp 8.0.0",
    locator="Cp0molar, within 0.16 %",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
ENERGY_BALANCE: Final = Source(
    "flue-energy-balance",
    kind="textbook",
    document="Energy balance of a burner and its heat exchanger, water of combustion as vapour",
    edition="combustion textbooks",
    locator="useful heat = heating value + heat of the air - heat of the flue gas + heat of what "
    "condenses",
    confirmed="derived",
)
SATURATED_GAS: Final = Source(
    "saturated-flue-gas",
    kind="textbook",
    document="Water vapour in an ideal gas: partial pressure (Dalton) and saturation",
    edition="thermodynamics textbooks",
    locator="p_w = y p; saturated gas holds n_dry p_s/(p - p_s)",
    confirmed="derived",
)

oxygen_of_air: Final = constant("x_O2", 0.2095, "number", "1", source=DRY_AIR)
M_air: Final = constant("M_a", 28.96546e-3, "molar_mass", "kg/mol", source=DRY_AIR)
M_water: Final = constant("M_w", 18.015268e-3, "molar_mass", "kg/mol", source=DRY_AIR)

Shares = Annotated[list[float], Sym("number", "x", "1")]
OxygenLeast = Annotated[float, Sym("number", "O_min", "1")]
AirLeast = Annotated[float, Sym("number", "L_min", "1")]
DryLeast = Annotated[float, Sym("number", "V_min", "1")]
Dry = Annotated[float, Sym("number", "V_dry", "1")]
CarbonDioxide = Annotated[float, Sym("number", "n_CO2", "1")]
FuelWater = Annotated[float, Sym("number", "n_H2O", "1")]
FuelNitrogen = Annotated[float, Sym("number", "n_N2", "1")]
Water = Annotated[float, Sym("number", "n_w", "1")]
AirRatio = Annotated[float, Sym("number", "λ", "1")]
DryCO2 = Annotated[float, Sym("volume_fraction", "CO2", "1")]
MostCO2 = Annotated[float, Sym("volume_fraction", "CO2_max", "1")]
DryO2 = Annotated[float, Sym("volume_fraction", "O2", "1")]
Pressure = Annotated[float, Sym("pressure_absolute", "p", "Pa")]
FromT = Annotated[float, Sym("temperature", "θ_1", "degC")]
ToT = Annotated[float, Sym("temperature", "θ_2", "degC")]


# --- stoichiometry --------------------------------------------------------------------------------


@formula("O_min", "number", "1", source=STOICHIOMETRY)
def oxygen_needed(x: Shares, o: Annotated[list[float], Sym("number", "ν_O2", "1")]) -> float:
    """Oxygen that a mole of fuel needs."""
    return total(a * b for a, b in zip(x, o, strict=True))


@formula("n_CO2", "number", "1", source=STOICHIOMETRY)
def carbon_dioxide_made(x: Shares, c: Annotated[list[float], Sym("number", "ν_CO2", "1")]) -> float:
    """Carbon dioxide in the flue gas of a mole of fuel."""
    return total(a * b for a, b in zip(x, c, strict=True))


@formula("n_H2O", "number", "1", source=STOICHIOMETRY)
def water_made(x: Shares, w: Annotated[list[float], Sym("number", "ν_H2O", "1")]) -> float:
    """Water that a mole of fuel makes."""
    return total(a * b for a, b in zip(x, w, strict=True))


@formula("n_N2", "number", "1", source=STOICHIOMETRY)
def nitrogen_of_fuel(x: Shares, n: Annotated[list[float], Sym("number", "ν_N2", "1")]) -> float:
    """Nitrogen that a mole of fuel brings along."""
    return total(a * b for a, b in zip(x, n, strict=True))


@formula("L_min", "number", "1", source=STOICHIOMETRY)
def air_needed(O_min: OxygenLeast) -> float:
    """Least dry air for complete combustion."""
    return O_min / oxygen_of_air


@formula("V_min", "number", "1", source=STOICHIOMETRY)
def dry_flue_gas_least(n_CO2: CarbonDioxide, n_N2: FuelNitrogen, L_min: AirLeast) -> float:
    """Dry flue gas without excess air."""
    return n_CO2 + n_N2 + (1 - oxygen_of_air) * L_min


@formula("V_wet", "number", "1", source=STOICHIOMETRY)
def wet_flue_gas(V: Dry, n_w: Water) -> float:
    """Flue gas with its water as vapour."""
    return V + n_w


@formula("CO2_max", "volume_fraction", "1", source=STOICHIOMETRY)
def most_carbon_dioxide(n_CO2: CarbonDioxide, V_min: DryLeast) -> float:
    """Carbon dioxide of dry flue gas without excess air: no reading can be higher."""
    return n_CO2 / V_min


# --- from a reading -------------------------------------------------------------------------------


@formula("O2", "volume_fraction", "1", source=STOICHIOMETRY)
def oxygen_beside(co2: DryCO2, most: MostCO2) -> float:
    """Oxygen that goes with a reading of carbon dioxide."""
    return oxygen_of_air * (1 - co2 / most)


@formula("CO2", "volume_fraction", "1", source=STOICHIOMETRY)
def carbon_dioxide_beside(o2: DryO2, most: MostCO2) -> float:
    """Carbon dioxide that goes with a reading of oxygen."""
    return most * (1 - o2 / oxygen_of_air)


@formula("λ", "number", "1", source=STOICHIOMETRY)
def air_ratio(V_min: DryLeast, L_min: AirLeast, o2: DryO2) -> float:
    """Air supplied for each part of air needed."""
    return 1 + V_min / L_min * o2 / (oxygen_of_air - o2)


@formula("e", "number", "1", source=STOICHIOMETRY)
def excess_air(ratio: AirRatio) -> float:
    """Air beyond what is needed, as a share of it."""
    return ratio - 1


@formula("V_dry", "number", "1", source=STOICHIOMETRY)
def dry_flue_gas(V_min: DryLeast, ratio: AirRatio, L_min: AirLeast) -> float:
    """Dry flue gas with the excess air."""
    return V_min + (ratio - 1) * L_min


@formula("p_a", "pressure_absolute", "Pa", source=SATURATED_GAS)
def vapour_pressure_of_air(w: Annotated[float, Sym("number", "w", "1")], p: Pressure) -> float:
    """Partial pressure of the water in the combustion air; never above saturation."""
    return p * w / (M_water / M_air + w)


@formula("n_wa", "number", "1", source=STOICHIOMETRY)
def water_of_air(
    w: Annotated[float, Sym("number", "w", "1")], ratio: AirRatio, L_min: AirLeast
) -> float:
    """Water that the combustion air brings along."""
    return w * M_air / M_water * ratio * L_min


@formula("n_w", "number", "1", source=STOICHIOMETRY)
def water_in_all(n_H2O: FuelWater, n_wa: Annotated[float, Sym("number", "n_wa", "1")]) -> float:
    """Water in the flue gas, of the fuel and of the air."""
    return n_H2O + n_wa


@formula("y_w", "volume_fraction", "1", source=SATURATED_GAS)
def water_share(n_w: Water, V: Dry) -> float:
    """Share of water vapour in the wet flue gas."""
    return n_w / (n_w + V)


@formula("p_w", "pressure_absolute", "Pa", source=SATURATED_GAS)
def vapour_pressure(y: Annotated[float, Sym("volume_fraction", "y_w", "1")], p: Pressure) -> float:
    """Partial pressure of the water vapour; at the dew point it is the saturation pressure."""
    return y * p


# --- carbon monoxide ------------------------------------------------------------------------------


@formula("R", "number", "1", source=STOICHIOMETRY)
def carbon_monoxide_ratio(
    co: Annotated[float, Sym("volume_fraction", "CO", "1")], co2: DryCO2
) -> float:
    """Carbon monoxide over carbon dioxide: dilution by air leaves it unchanged."""
    return co / co2


@formula("CO_0", "volume_fraction", "1", source=STOICHIOMETRY)
def carbon_monoxide_air_free(
    co: Annotated[float, Sym("volume_fraction", "CO", "1")], most: MostCO2, co2: DryCO2
) -> float:
    """Carbon monoxide of the flue gas without its excess air."""
    return co * most / co2


# --- heat -----------------------------------------------------------------------------------------


@formula("h_CO2", "molar_energy", "J/mol", source=IDEAL_GAS_HEAT, empirical=True)
def heat_of_carbon_dioxide(start: FromT, end: ToT) -> float:
    """Heat that takes a mole of carbon dioxide from one temperature to the other."""
    return (
        35.9753 * (end - start)
        + 0.0474219 / 2 * (end**2 - start**2)
        - 4.07604e-05 / 3 * (end**3 - start**3)
    )


@formula("h_H2O", "molar_energy", "J/mol", source=IDEAL_GAS_HEAT, empirical=True)
def heat_of_vapour(start: FromT, end: ToT) -> float:
    """Heat that takes a mole of water vapour from one temperature to the other."""
    return (
        33.4628 * (end - start)
        + 0.00447194 / 2 * (end**2 - start**2)
        + 1.44994e-05 / 3 * (end**3 - start**3)
    )


@formula("h_N2", "molar_energy", "J/mol", source=IDEAL_GAS_HEAT, empirical=True)
def heat_of_nitrogen(start: FromT, end: ToT) -> float:
    """Heat that takes a mole of nitrogen, with its argon, from one temperature to the other."""
    return (
        29.0187 * (end - start)
        - 0.000152528 / 2 * (end**2 - start**2)
        + 9.54699e-06 / 3 * (end**3 - start**3)
    )


@formula("h_O2", "molar_energy", "J/mol", source=IDEAL_GAS_HEAT, empirical=True)
def heat_of_oxygen(start: FromT, end: ToT) -> float:
    """Heat that takes a mole of oxygen from one temperature to the other."""
    return (
        29.2623 * (end - start)
        + 0.00479145 / 2 * (end**2 - start**2)
        + 1.43959e-05 / 3 * (end**3 - start**3)
    )


@formula("Q_fg", "molar_energy", "J/mol", source=ENERGY_BALANCE)
def heat_of_flue_gas(
    n_CO2: CarbonDioxide,
    n_N2: FuelNitrogen,
    n_w: Water,
    ratio: AirRatio,
    L_min: AirLeast,
    h_CO2: Annotated[float, Sym("molar_energy", "h_CO2", "J/mol")],
    h_H2O: Annotated[float, Sym("molar_energy", "h_H2O", "J/mol")],
    h_N2: Annotated[float, Sym("molar_energy", "h_N2", "J/mol")],
    h_O2: Annotated[float, Sym("molar_energy", "h_O2", "J/mol")],
) -> float:
    """Heat of the flue gas above the reference temperature, its water as vapour."""
    return (
        n_CO2 * h_CO2
        + n_w * h_H2O
        + (n_N2 + (1 - oxygen_of_air) * ratio * L_min) * h_N2
        + oxygen_of_air * (ratio - 1) * L_min * h_O2
    )


@formula("Q_air", "molar_energy", "J/mol", source=ENERGY_BALANCE)
def heat_of_air(
    n_wa: Annotated[float, Sym("number", "n_wa", "1")],
    ratio: AirRatio,
    L_min: AirLeast,
    h_H2O: Annotated[float, Sym("molar_energy", "h_H2O", "J/mol")],
    h_N2: Annotated[float, Sym("molar_energy", "h_N2", "J/mol")],
    h_O2: Annotated[float, Sym("molar_energy", "h_O2", "J/mol")],
) -> float:
    """Heat of the combustion air above the reference temperature."""
    return n_wa * h_H2O + ratio * L_min * ((1 - oxygen_of_air) * h_N2 + oxygen_of_air * h_O2)


@formula("n_c", "number", "1", source=SATURATED_GAS)
def water_condensed(
    n_w: Water, V: Dry, p_s: Annotated[float, Sym("pressure_absolute", "p_s", "Pa")], p: Pressure
) -> float:
    """Water that condenses until the gas is saturated; below the dew point."""
    return n_w - V * p_s / (p - p_s)


@formula("Q_c", "molar_energy", "J/mol", source=ENERGY_BALANCE)
def heat_of_condensing(
    n_c: Annotated[float, Sym("number", "n_c", "1")],
    r: Annotated[float, Sym("specific_enthalpy", "r", "J/kg")],
) -> float:
    """Heat set free by the water that condenses."""
    return n_c * M_water * r


@formula("m_c", "mass_flow", "kg/s", source=ENERGY_BALANCE)
def condensate_flow(
    n_c: Annotated[float, Sym("number", "n_c", "1")],
    H_i: Annotated[float, Sym("molar_energy", "H_i", "J/mol")],
    Phi: Annotated[float, Sym("power", "Φ_net", "W")],
) -> float:
    """Condensate at a net heat input."""
    return n_c * M_water * Phi / H_i
