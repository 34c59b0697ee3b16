"""Free area of air vents."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import larger, smaller, sqrt, total
from tundish.physics.pipes import PI
from tundish.sources import Source
from tundish_plugins.gas.combustion.formulas import TWO_BASES

AREA_BY_INPUT: Final = Source(
    "vent-area-by-input",
    kind="standard",
    document="NHBC Standards 6.8, gas, combustion air",
    edition="2024",
    locator="6.8.9 Table 3: an area for each kilowatt of heat input above a threshold",
    confirmed="seen",
    seen_in="the table itself",
)
FREE_AREA: Final = Source(
    "vent-free-area",
    kind="standard",
    document="BS 5440-2, free area of air vents",
    edition="2009",
    locator="5.1.2: as marked, else the sum of the free cross-sections of the apertures",
    confirmed="seen",
    seen_in="preview page that prints clause 5.1",
)
BALL_IN_AREA: Final = Source(
    "ball-in-area",
    kind="derivation",
    document="A ball passes where a circle of its size fits",
    edition="1",
    locator="π d²/4 of the circle is not above the free area",
    confirmed="derived",
)

Area = Annotated[float, Sym("area", "A", "m2")]
Inputs = Annotated[list[float], Sym("power", "Φ", "W")]


@formula("Φ_i", "heat_input_net", "W", source=TWO_BASES)
def net_heat_input(
    Phi: Annotated[float, Sym("heat_input_gross", "Φ_s", "W")],
    H_i: Annotated[float, Sym("calorific_value_net", "H_i", "J/m3")],
    H_s: Annotated[float, Sym("calorific_value_gross", "H_s", "J/m3")],
) -> float:
    """Net heat input that goes with a gross one."""
    return Phi * H_i / H_s


@formula("Φ", "power", "W", source=AREA_BY_INPUT)
def together(Phi: Inputs) -> float:
    """Heat input of all of them."""
    return total(Phi)


@formula("A_n", "area", "m2", source=AREA_BY_INPUT)
def area_of_room(
    a: Annotated[float, Sym("area_per_power", "a", "m2/W")],
    Phi: Annotated[float, Sym("power", "Φ", "W")],
    Phi_free: Annotated[float, Sym("power", "Φ_f", "W")],
    a_rs: Annotated[float, Sym("area_per_power", "a_rs", "m2/W")],
    Phi_rs: Annotated[float, Sym("power", "Φ_rs", "W")],
) -> float:
    """Free area that a room needs: open-flued above the threshold, and room-sealed."""
    return a * larger(0 * Phi, Phi - Phi_free) + a_rs * Phi_rs


@formula("A_n", "area", "m2", source=AREA_BY_INPUT)
def area_of_compartment(
    a: Annotated[list[float], Sym("area_per_power", "a", "m2/W")], Phi: Inputs
) -> float:
    """Free area of a vent of a compartment: every appliance at its own rate."""
    return total(b * c for b, c in zip(a, Phi, strict=True))


@formula("A_n", "area", "m2", source=AREA_BY_INPUT)
def area_inside(k: Annotated[float, Sym("number", "k", "1")], A: Area) -> float:
    """Free area of the vent in an inside wall."""
    return k * A


@formula("A", "area", "m2", source=FREE_AREA)
def area_of_openings(
    n: Annotated[float, Sym("number", "n", "1")],
    b: Annotated[float, Sym("length", "b", "m")],
    h: Annotated[float, Sym("length", "h", "m")],
) -> float:
    """Free area of a vent from its openings."""
    return n * b * h


@formula("d", "length", "m", source=FREE_AREA)
def ball_through(
    b: Annotated[float, Sym("length", "b", "m")], h: Annotated[float, Sym("length", "h", "m")]
) -> float:
    """Largest ball that passes through an opening."""
    return smaller(b, h)


@formula("d", "length", "m", source=BALL_IN_AREA)
def ball_of_area(A: Area) -> float:
    """Largest ball that any opening of a free area can pass: all of it one round hole."""
    return sqrt(4 * A / PI)


@formula("A", "area", "m2", source=FREE_AREA)
def area_given(A: Annotated[list[float], Sym("area", "A", "m2")]) -> float:
    """Free area of all vents at a place that count."""
    return total(A)


@formula("A_l", "area", "m2", source=FREE_AREA)
def area_lacking(A_n: Annotated[float, Sym("area", "A_n", "m2")], A: Area) -> float:
    """Free area that is lacking."""
    return larger(0 * A_n, A_n - A)
