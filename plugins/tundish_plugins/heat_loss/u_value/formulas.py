"""Thermal resistance in series and side by side, windows, and slabs on the ground."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import ln, total
from tundish.physics.pipes import PI
from tundish.sources import Source

EN_ISO_6946: Final = Source(
    "en-iso-6946",
    kind="standard",
    document="EN ISO 6946, Building components, thermal resistance and thermal transmittance",
    edition="2017",
    locator="6.7.1 homogeneous layers, 6.7.2 combined method",
    confirmed="seen-reproduced",
    seen_in="teaching texts that print the method",
)
EN_ISO_10077: Final = Source(
    "en-iso-10077-1",
    kind="standard",
    document="EN ISO 10077-1, Thermal performance of windows",
    edition="2017",
    locator="U_w = (A_g U_g + A_f U_f + l_g ψ_g)/(A_g + A_f)",
    confirmed="seen-reproduced",
    seen_in="trade texts that print the formula",
)
EN_ISO_13370: Final = Source(
    "en-iso-13370",
    kind="standard",
    document="EN ISO 13370, Heat transfer via the ground",
    edition="2017",
    locator="slab on ground, d_t below B and at or above it",
    confirmed="seen-reproduced",
    seen_in="teaching texts; the two branches meet at d_t = B",
)

SUSPENDED: Final = Source(
    "en-iso-13370-suspended",
    kind="standard",
    document="EN ISO 13370, Heat transfer via the ground",
    edition="2007",
    locator="suspended floor, 1/U = 1/U_f + 1/(U_g + U_x)",
    confirmed="memory",
)

Resistance = Annotated[float, Sym("thermal_resistance", "R", "m2.K/W")]
Resistances = Annotated[list[float], Sym("thermal_resistance", "R", "m2.K/W")]
Shares = Annotated[list[float], Sym("number", "f", "1")]
Inside = Annotated[float, Sym("thermal_resistance", "R_si", "m2.K/W")]
Outside = Annotated[float, Sym("thermal_resistance", "R_se", "m2.K/W")]
Thickness = Annotated[float, Sym("length", "d", "m")]


@formula("R", "thermal_resistance", "m2.K/W", source=EN_ISO_6946)
def layer_resistance(
    d: Thickness, lam: Annotated[float, Sym("thermal_conductivity", "λ", "W/(m.K)")]
) -> float:
    """Resistance of a layer."""
    return d / lam


@formula("R_T", "thermal_resistance", "m2.K/W", source=EN_ISO_6946)
def in_series(R_si: Inside, R: Resistances, R_se: Outside) -> float:
    """Resistance of layers one behind the other, with the surfaces."""
    return R_si + total(R) + R_se


@formula("R", "thermal_resistance", "m2.K/W", source=EN_ISO_6946)
def side_by_side(f: Shares, R: Resistances) -> float:
    """Resistance of paths side by side."""
    return 1 / total(a / b for a, b in zip(f, R, strict=True))


@formula("R_T", "thermal_resistance", "m2.K/W", source=EN_ISO_6946)
def combined(
    R_up: Annotated[float, Sym("thermal_resistance", "R_up", "m2.K/W")],
    R_low: Annotated[float, Sym("thermal_resistance", "R_low", "m2.K/W")],
) -> float:
    """Total resistance: the mean of upper and lower limit."""
    return (R_up + R_low) / 2


@formula("e", "number", "1", source=EN_ISO_6946)
def largest_error(
    R_up: Annotated[float, Sym("thermal_resistance", "R_up", "m2.K/W")],
    R_low: Annotated[float, Sym("thermal_resistance", "R_low", "m2.K/W")],
    R_T: Annotated[float, Sym("thermal_resistance", "R_T", "m2.K/W")],
) -> float:
    """Largest relative error of the combined method."""
    return (R_up - R_low) / (2 * R_T)


@formula("U", "thermal_transmittance", "W/(m2.K)", source=EN_ISO_6946)
def transmittance(
    R_T: Annotated[float, Sym("thermal_resistance", "R_T", "m2.K/W")],
    R_u: Annotated[float, Sym("thermal_resistance", "R_u", "m2.K/W")],
    dU: Annotated[float, Sym("thermal_transmittance", "ΔU", "W/(m2.K)")],
) -> float:
    """Thermal transmittance, with the space behind and corrections."""
    return 1 / (R_T + R_u) + dU


@formula("U_w", "thermal_transmittance", "W/(m2.K)", source=EN_ISO_10077)
def window(
    A_g: Annotated[float, Sym("area", "A_g", "m2")],
    U_g: Annotated[float, Sym("thermal_transmittance", "U_g", "W/(m2.K)")],
    A_f: Annotated[float, Sym("area", "A_f", "m2")],
    U_f: Annotated[float, Sym("thermal_transmittance", "U_f", "W/(m2.K)")],
    l_g: Annotated[float, Sym("length", "l_g", "m")],
    psi_g: Annotated[float, Sym("linear_transmittance", "ψ_g", "W/(m.K)")],
) -> float:
    """Thermal transmittance of a window: glass, frame and edge."""
    return (A_g * U_g + A_f * U_f + l_g * psi_g) / (A_g + A_f)


@formula("B", "length", "m", source=EN_ISO_13370)
def characteristic_dimension(
    A: Annotated[float, Sym("area", "A", "m2")], P: Annotated[float, Sym("length", "P", "m")]
) -> float:
    """Characteristic dimension of the floor."""
    return A / (0.5 * P)


Ground = Annotated[float, Sym("thermal_conductivity", "λ_g", "W/(m.K)")]
Equivalent = Annotated[float, Sym("length", "d_t", "m")]
Dimension = Annotated[float, Sym("length", "B", "m")]


@formula("d_t", "length", "m", source=EN_ISO_13370)
def equivalent_thickness(
    w: Annotated[float, Sym("length", "w", "m")],
    lam_g: Ground,
    R_si: Inside,
    R_f: Annotated[float, Sym("thermal_resistance", "R_f", "m2.K/W")],
    R_se: Outside,
) -> float:
    """Equivalent thickness of the floor, as ground."""
    return w + lam_g * (R_si + R_f + R_se)


@formula("U", "thermal_transmittance", "W/(m2.K)", source=EN_ISO_13370)
def slab_little_insulated(lam_g: Ground, B: Dimension, d_t: Equivalent) -> float:
    """Thermal transmittance of a slab, d_t below B."""
    return 2 * lam_g / (PI * B + d_t) * ln(PI * B / d_t + 1)


@formula("U", "thermal_transmittance", "W/(m2.K)", source=EN_ISO_13370)
def slab_well_insulated(lam_g: Ground, B: Dimension, d_t: Equivalent) -> float:
    """Thermal transmittance of a slab, d_t at or above B."""
    return lam_g / (0.457 * B + d_t)


VOID_AIR: Final = constant("C", 1450.0, "volumetric_heat_capacity", "J/(m3.K)", source=SUSPENDED)


@formula("U_x", "thermal_transmittance", "W/(m2.K)", source=SUSPENDED)
def void_transmittance(
    h: Annotated[float, Sym("length", "h", "m")],
    U_w: Annotated[float, Sym("thermal_transmittance", "U_w", "W/(m2.K)")],
    B: Dimension,
    epsilon: Annotated[float, Sym("length", "ε", "m")],
    v: Annotated[float, Sym("velocity", "v", "m/s")],
    f_w: Annotated[float, Sym("number", "f_w", "1")],
) -> float:
    """Loss of the void through its walls and with its air, over the floor."""
    return 2 * h * U_w / B + VOID_AIR * epsilon * v * f_w / B


@formula("U_f", "thermal_transmittance", "W/(m2.K)", source=SUSPENDED)
def suspended_deck(
    R_f: Annotated[float, Sym("thermal_resistance", "R_f", "m2.K/W")], R_si: Inside
) -> float:
    """Thermal transmittance of the floor itself: both faces look into still air."""
    return 1 / (2 * R_si + R_f)


@formula("U", "thermal_transmittance", "W/(m2.K)", source=SUSPENDED)
def suspended_floor(
    U_f: Annotated[float, Sym("thermal_transmittance", "U_f", "W/(m2.K)")],
    U_g: Annotated[float, Sym("thermal_transmittance", "U_g", "W/(m2.K)")],
    U_x: Annotated[float, Sym("thermal_transmittance", "U_x", "W/(m2.K)")],
) -> float:
    """Thermal transmittance of a suspended floor with its void."""
    return 1 / (1 / U_f + 1 / (U_g + U_x))


@formula("U_c", "thermal_transmittance", "W/(m2.K)", source=EN_ISO_6946)
def corrected(
    U: Annotated[float, Sym("thermal_transmittance", "U", "W/(m2.K)")],
    dU: Annotated[float, Sym("thermal_transmittance", "ΔU", "W/(m2.K)")],
) -> float:
    """Thermal transmittance with corrections."""
    return U + dU


@formula("f", "number", "1", source=EN_ISO_6946)
def path_share(
    a: Annotated[float, Sym("number", "f_1", "1")], b: Annotated[float, Sym("number", "f_2", "1")]
) -> float:
    """Share of a path through two layers whose parts do not know of each other."""
    return a * b
