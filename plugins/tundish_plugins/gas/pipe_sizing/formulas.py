"""Flow from heat input, properties of a mixture, and the drop of a section."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import sqrt, total
from tundish.sources import Source

ENERGY: Final = Source(
    "gas-energy",
    kind="textbook",
    document="Gas flow from heat input and calorific value on the same basis",
    edition="gas textbooks",
    locator="Q = Φ/H",
    confirmed="derived",
)
MIXING: Final = Source(
    "amagat",
    kind="textbook",
    document="Mixture of gases by molar shares: molar volumes and heats added (Amagat)",
    edition="thermodynamics textbooks",
    locator="V = Σ x V, M = Σ x M, H = Σ x H",
    confirmed="derived",
)
HERNING_ZIPPERER: Final = Source(
    "herning-zipperer",
    kind="textbook",
    document="Viscosity of gas mixtures at low pressure after Herning and Zipperer",
    edition="1936",
    locator="μ = Σ x μ √M / Σ x √M",
    confirmed="derived",
)
AIR: Final = Source(
    "air-density-15",
    kind="library",
    document="Density of dry air at 15 °C and 1013.25 mbar",
    edition="CoolProp 8.0.0",
    locator="PropsSI D of Air",
    confirmed="computed",
    computed_with="CoolProp 8.0.0",
)
WOBBE: Final = Source(
    "wobbe-index",
    kind="standard",
    document="EN 437, test gases, test pressures and appliance categories",
    edition="2003+A1:2009",
    locator="definition: gross calorific value over the square root of the relative density; "
    "reproduces Table 2 for G23, G222 and G24",
    confirmed="seen-reproduced",
    seen_in="preview of the British edition",
)
TABLE_METHOD: Final = Source(
    "bs-6891-sections",
    kind="standard",
    document="BS 6891, section drops in proportion of a capacity table",
    edition="2005",
    locator="effective length over the longest tabulated length that still carries the flow",
    confirmed="seen-reproduced",
    seen_in="student hand-out that reproduces the table",
)
FITTINGS: Final = Source(
    "effective-length",
    kind="textbook",
    document="Fittings as added length of tube",
    edition="pipe flow textbooks",
    locator="L_e = L + Σ n L_f",
    confirmed="derived",
)
rho_air: Final = constant("ρ_a", 1.22554, "density", "kg/m3", source=AIR)

Shares = Annotated[list[float], Sym("number", "x", "1")]
Flow = Annotated[float, Sym("volume_flow", "Q", "m3/s")]


@formula("M", "molar_mass", "kg/mol", source=MIXING)
def mixture_molar_mass(
    x: Shares, M: Annotated[list[float], Sym("molar_mass", "M", "kg/mol")]
) -> float:
    """Molar mass of the mixture."""
    return total(a * b for a, b in zip(x, M, strict=True))


@formula("V_m", "molar_volume", "m3/mol", source=MIXING)
def mixture_molar_volume(
    x: Shares, V: Annotated[list[float], Sym("molar_volume", "V_m", "m3/mol")]
) -> float:
    """Molar volume of the mixture at 15 °C and 1013.25 mbar."""
    return total(a * b for a, b in zip(x, V, strict=True))


@formula("H", "calorific_value", "J/m3", source=MIXING)
def mixture_calorific_value(
    x: Shares,
    H: Annotated[list[float], Sym("molar_energy", "H_m", "J/mol")],
    V: Annotated[float, Sym("molar_volume", "V_m", "m3/mol")],
) -> float:
    """Calorific value of the mixture, on the basis of its components'."""
    return total(a * b for a, b in zip(x, H, strict=True)) / V


@formula("ρ", "density", "kg/m3", source=MIXING)
def mixture_density(
    M: Annotated[float, Sym("molar_mass", "M", "kg/mol")],
    V: Annotated[float, Sym("molar_volume", "V_m", "m3/mol")],
) -> float:
    """Density of the mixture at 15 °C and 1013.25 mbar."""
    return M / V


@formula("μ", "dynamic_viscosity", "Pa.s", source=HERNING_ZIPPERER)
def mixture_viscosity(
    x: Shares,
    mu: Annotated[list[float], Sym("dynamic_viscosity", "μ", "Pa.s")],
    M: Annotated[list[float], Sym("molar_mass", "M", "kg/mol")],
) -> float:
    """Viscosity of the mixture."""
    return total(a * b * sqrt(c) for a, b, c in zip(x, mu, M, strict=True)) / total(
        a * sqrt(c) for a, c in zip(x, M, strict=True)
    )


@formula("s", "number", "1", source=AIR)
def relative_density(rho: Annotated[float, Sym("density", "ρ", "kg/m3")]) -> float:
    """Relative density of the gas."""
    return rho / rho_air


@formula("W", "calorific_value_gross", "J/m3", source=WOBBE)
def wobbe_index(
    H: Annotated[float, Sym("calorific_value_gross", "H_s", "J/m3")],
    s: Annotated[float, Sym("number", "s", "1")],
) -> float:
    """Gross Wobbe index."""
    return H / sqrt(s)


@formula("Q", "volume_flow", "m3/s", source=ENERGY)
def gas_flow(
    Phi: Annotated[float, Sym("power", "Φ", "W")],
    H: Annotated[float, Sym("calorific_value", "H", "J/m3")],
) -> float:
    """Gas flow at 15 °C; heat input and calorific value on the same basis."""
    return Phi / H


@formula("Q", "volume_flow", "m3/s", source=ENERGY)
def together(Q: Annotated[list[float], Sym("volume_flow", "Q", "m3/s")]) -> float:
    """Flow of everything downstream, all at full rate."""
    return total(Q)


@formula("L_f", "length", "m", source=FITTINGS)
def length_by_bores(
    n: Annotated[float, Sym("number", "n_d", "1")], d: Annotated[float, Sym("length", "d", "m")]
) -> float:
    """Added length of a fitting, as a number of bores."""
    return n * d


@formula("L_e", "length", "m", source=FITTINGS)
def effective_length(
    L: Annotated[float, Sym("length", "L", "m")],
    L_x: Annotated[float, Sym("length", "L_x", "m")],
    n: Annotated[list[float], Sym("number", "n", "1")],
    L_f: Annotated[list[float], Sym("length", "L_f", "m")],
) -> float:
    """Length with its fittings."""
    return L + L_x + total(a * b for a, b in zip(n, L_f, strict=True))


@formula("R", "pressure_gradient", "Pa/m", source=TABLE_METHOD)
def table_gradient(
    p_T: Annotated[float, Sym("pressure_difference", "Δp_T", "Pa")],
    L_T: Annotated[float, Sym("length", "L_T", "m")],
) -> float:
    """Drop for each metre by the capacity table: its drop over the longest length that carries."""
    return p_T / L_T


@formula("Δp", "pressure_difference", "Pa", source=FITTINGS)
def section_drop(
    R: Annotated[float, Sym("pressure_gradient", "R", "Pa/m")],
    L_e: Annotated[float, Sym("length", "L_e", "m")],
) -> float:
    """Drop of the section."""
    return R * L_e


@formula("Δp", "pressure_difference", "Pa", source=FITTINGS)
def path_drop(dp: Annotated[list[float], Sym("pressure_difference", "Δp", "Pa")]) -> float:
    """Drop from the meter to the appliance: its sections added."""
    return total(dp)


@formula("Δp_s", "pressure_difference", "Pa", source=FITTINGS)
def spare(
    limit: Annotated[float, Sym("pressure_difference", "Δp_lim", "Pa")],
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
) -> float:
    """What the limit leaves."""
    return limit - dp


@formula("ΔL", "length", "m", source=FITTINGS)
def spare_length(
    dp_s: Annotated[float, Sym("pressure_difference", "Δp_s", "Pa")],
    R: Annotated[float, Sym("pressure_gradient", "R", "Pa/m")],
) -> float:
    """Length that uses up what is spare."""
    return dp_s / R


@formula("L_max", "length", "m", source=FITTINGS)
def longest_length(
    L: Annotated[float, Sym("length", "L", "m")], dL: Annotated[float, Sym("length", "ΔL", "m")]
) -> float:
    """Longest measured length that meets the limit."""
    return L + dL


@formula("Δp", "pressure_difference", "Pa", source=FITTINGS)
def replaced(
    dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")],
    old: Annotated[float, Sym("pressure_difference", "Δp_1", "Pa")],
    new: Annotated[float, Sym("pressure_difference", "Δp_2", "Pa")],
) -> float:
    """Drop at an appliance with one section changed."""
    return dp - old + new
