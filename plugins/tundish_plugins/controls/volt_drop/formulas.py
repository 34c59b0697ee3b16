"""Current of a load, resistance of a conductor, and the drop along a cable."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import larger, smaller, total
from tundish.sources import Source

OHM: Final = Source(
    "ohms-law",
    kind="textbook",
    document="Ohm's and Joule's laws, single-phase alternating current",
    edition="electrical engineering textbooks",
    locator="I = P/(U cos φ), ΔU = z I L, P = R I²",
    confirmed="derived",
)
IEC_60228: Final = Source(
    "iec-60228-temperature",
    kind="standard",
    document="IEC 60228, Conductors of insulated cables",
    edition="2004",
    locator="correction of a copper conductor's resistance to 20 degC, 250/(230 + θ)",
    confirmed="seen-reproduced",
    seen_in="cable makers' pages that print the factors from 5 to 100 degC",
)

NO_RESISTANCE = constant("T_x", 43.15, "temperature", "K", source=IEC_60228)
REFERENCE = constant("T_20", 293.15, "temperature", "K", source=IEC_60228)

Power = Annotated[float, Sym("power", "P", "W")]
Voltage = Annotated[float, Sym("voltage", "U", "V")]
Current = Annotated[float, Sym("current", "I", "A")]
Currents = Annotated[list[float], Sym("current", "I", "A")]
Drop = Annotated[float, Sym("voltage", "ΔU", "V")]
Figure = Annotated[float, Sym("resistance_per_length", "z", "ohm/m")]
Length = Annotated[float, Sym("length", "L", "m")]


@formula("I", "current", "A", source=OHM)
def load_current(
    P: Power,
    n: Annotated[float, Sym("number", "n", "1")],
    U: Voltage,
    cos_phi: Annotated[float, Sym("number", "cos_φ", "1")],
) -> float:
    """Current of a load."""
    return n * P / (U * cos_phi)


@formula("I", "current", "A", source=OHM)
def current_of_all(I: Currents) -> float:
    """Current of all loads; the sum is never too small where power factors differ."""
    return total(I)


@formula("P", "power", "W", source=OHM)
def power_of_all(n: Annotated[float, Sym("number", "n", "1")], P: Power) -> float:
    """Power of all that are alike."""
    return n * P


@formula("z", "resistance_per_length", "ohm/m", source=IEC_60228)
def loop_figure(
    R_20: Annotated[float, Sym("resistance_per_length", "R_20", "ohm/m")],
    T: Annotated[float, Sym("temperature", "θ", "K")],
) -> float:
    """Resistance of both conductors a metre at their temperature."""
    return 2 * R_20 * (T - NO_RESISTANCE) / (REFERENCE - NO_RESISTANCE)


@formula("ΔU", "voltage", "V", source=OHM)
def drop(z: Figure, I: Current, L: Length) -> float:
    """Drop along the cable."""
    return z * I * L


@formula("ΔU_t", "voltage", "V", source=OHM)
def drop_from_origin(DU_0: Annotated[float, Sym("voltage", "ΔU_0", "V")], DU: Drop) -> float:
    """Drop from the origin to the load."""
    return DU_0 + DU


@formula("ΔU/U", "number", "1", source=OHM)
def drop_share(DU: Drop, U: Voltage) -> float:
    """Drop as a share of the supply voltage."""
    return DU / U


@formula("U_L", "voltage", "V", source=OHM)
def voltage_at_load(U: Voltage, DU: Drop) -> float:
    """Voltage at the load."""
    return U - DU


@formula("L_max", "length", "m", source=OHM)
def longest_length(
    r: Annotated[float, Sym("number", "r", "1")],
    U: Voltage,
    DU_0: Annotated[float, Sym("voltage", "ΔU_0", "V")],
    z: Figure,
    I: Current,
) -> float:
    """Longest cable within the limit; nothing where the limit is used up before it."""
    return larger((r * U - DU_0) / (z * I), 0 * U / (z * I))


@formula("P_L", "power", "W", source=OHM)
def heat_in_cable(DU: Drop, I: Current) -> float:
    """Power lost in the cable."""
    return DU * I


@formula("I_p", "current", "A", source=OHM)
def smaller_rating(
    I_1: Annotated[float, Sym("current", "I_1", "A")],
    I_2: Annotated[float, Sym("current", "I_2", "A")],
) -> float:
    """Rating that acts first."""
    return smaller(I_1, I_2)


@formula("P_max", "power", "W", source=OHM)
def most_power(U: Voltage, I: Current) -> float:
    """Load at power factor 1 that a rating carries."""
    return U * I
