"""A diaphragm vessel: Boyle's law between the charge, the fill and the hot pressure.

Pressures in these formulas are absolute. The water that the content gains, reckoned at the fill
density, enters the vessel and is not cooled there; the gas keeps its temperature. Both are on the
safe side for a steady reading; a fast heat-up reads slightly higher for a while.
"""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, smaller
from tundish.sources import Source

BOYLE: Final = Source(
    "boyle",
    kind="textbook",
    document="Boyle's law for the gas in a diaphragm vessel",
    edition="thermodynamics textbooks",
    locator="p V constant at constant temperature, absolute pressures",
    confirmed="derived",
)
EXPANSION: Final = Source(
    "expansion-of-water",
    kind="derivation",
    document="Mass of the content kept while its density falls",
    edition="1",
    locator="e = ρ_fill/ρ_hot - 1, times the volume at fill",
    confirmed="derived",
)


def absolute(symbol: str) -> Sym:
    """Annotate an absolute pressure."""
    return Sym("pressure_absolute", symbol, "Pa")


Content = Annotated[float, Sym("volume", "C", "m3")]
Fraction = Annotated[float, Sym("number", "e", "1")]
Taken = Annotated[float, Sym("volume", "ΔV", "m3")]
Vessel = Annotated[float, Sym("volume", "V_N", "m3")]
Gas = Annotated[float, Sym("volume", "V_g", "m3")]
Charge = Annotated[float, absolute("p_0")]
Fill = Annotated[float, absolute("p_a")]
Final_ = Annotated[float, absolute("p_e")]


@formula("e", "number", "1", source=EXPANSION)
def expansion_fraction(
    rho_fill: Annotated[float, Sym("density", "ρ_fill", "kg/m3")],
    rho_hot: Annotated[float, Sym("density", "ρ_hot", "kg/m3")],
) -> float:
    """Expansion of the content for each litre filled."""
    return rho_fill / rho_hot - 1


@formula("ΔV", "volume", "m3", source=EXPANSION)
def expansion_volume(C: Content, e: Fraction) -> float:
    """Water that the content gains."""
    return C * e


@formula("p", "pressure_absolute", "Pa", source=BOYLE)
def to_absolute(
    p_g: Annotated[float, Sym("pressure_difference", "p_g", "Pa")],
    p_atm: Annotated[float, absolute("p_atm")],
) -> float:
    """Absolute pressure of a gauge reading."""
    return p_g + p_atm


@formula("p_g", "pressure_difference", "Pa", source=BOYLE)
def to_gauge(
    p: Annotated[float, absolute("p")], p_atm: Annotated[float, absolute("p_atm")]
) -> float:
    """Gauge reading of an absolute pressure."""
    return p - p_atm


@formula("V_g", "volume", "m3", source=BOYLE)
def gas_when_cold(V_N: Vessel, p_0: Charge, p_a: Fill) -> float:
    """Gas left in the vessel after filling; the whole vessel when the charge is above the fill."""
    return V_N * smaller(1.0, p_0 / p_a)


@formula("η", "number", "1", source=BOYLE)
def acceptance(p_a: Fill, p_e: Final_) -> float:
    """Share of the vessel that takes water between fill and final pressure, charged to the fill."""
    return 1 - p_a / p_e


@formula("p", "pressure_absolute", "Pa", source=BOYLE)
def pressure_after(p_0: Charge, V_N: Vessel, V_g: Gas, dV: Taken) -> float:
    """Absolute pressure when the vessel has taken up some expansion."""
    return p_0 * V_N / (V_g - dV)


@formula("V_room", "volume", "m3", source=BOYLE)
def room_up_to(V_g: Gas, V_N: Vessel, p_0: Charge, p: Annotated[float, absolute("p")]) -> float:
    """Expansion the vessel takes before an absolute pressure is reached."""
    return V_g - V_N * p_0 / p


@formula("V_l", "volume", "m3", source=BOYLE)
def water_lost(dV: Taken, V_room: Annotated[float, Sym("volume", "V_room", "m3")]) -> float:
    """Water that leaves through the relief valve on heating up."""
    return larger(0.0 * dV, dV - V_room)


@formula("V_w", "volume", "m3", source=BOYLE)
def water_left(V_N: Vessel, V_g: Gas, V_l: Annotated[float, Sym("volume", "V_l", "m3")]) -> float:
    """Water left in the vessel when all is cold again; below nothing, the system runs short."""
    return V_N - V_g - V_l


@formula("ΔV", "volume", "m3", source=BOYLE)
def taken_at_most(dV: Taken, V_room: Annotated[float, Sym("volume", "V_room", "m3")]) -> float:
    """Expansion that stays in the system: beyond the room, the relief valve lets it go."""
    return smaller(dV, V_room)
