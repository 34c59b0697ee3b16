"""Flow from heat input, properties of a mixture, and the drop of a section."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import larger, sqrt, total
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
SPITZGLASS: Final = Source(
    "spitzglass",
    kind="worked-example",
    document="Spitzglass formula for gas of low pressure in steel pipe",
    edition="undated engineering reference page",
    locator="q = 3550 √(d⁵/(1 + 3.6/d + 0.03 d)) √(h/(s l)); its example of 0.622 in, 100 ft, "
    "0.5 in w.c. gives 37.9 ft³/h",
    confirmed="seen-reproduced",
    seen_in="general engineering reference page",
)
METERING: Final = Source(
    "metering-conditions",
    kind="derivation",
    document="Volume of an ideal gas at two metering conditions",
    edition="1",
    locator="V ∝ T/p; 15 °C and 1013.25 mbar against 60 °F and 30 in of mercury at 0 °C",
    confirmed="derived",
)
LONGEST_LENGTH: Final = Source(
    "ifgc-402-4-1",
    kind="regulation",
    document="International Fuel Gas Code, longest length method",
    edition="2018",
    locator="402.4.1, Appendix A.2.4 and A.3: one row for the whole installation, that of the longest "
    "way or the next longer; capacities times the multiplier of the next higher specific gravity",
    confirmed="seen",
    seen_in="page text of the code",
)
PLASTIC_PIPE: Final = Source(
    "plastic-pipe-buried",
    kind="common-practice",
    document="Polyethylene gas pipe is laid underground, outside",
    edition="1",
    locator="rules of gas pipework in several countries, not quoted",
    confirmed="memory",
)
DIVERSITY: Final = Source(
    "ifgc-402-2",
    kind="regulation",
    document="International Fuel Gas Code, maximum gas demand",
    edition="2018",
    locator="402.2: every appliance at full input, or less where a diversity can be established",
    confirmed="seen",
    seen_in="page text of the code",
)
rho_air: Final = constant("ρ_a", 1.22554, "density", "kg/m3", source=AIR)
T_15: Final = constant("T_15", 288.15, "temperature", "K", source=METERING)
p_15: Final = constant("p_15", 101325.0, "pressure_absolute", "Pa", source=METERING)
T_60F: Final = constant("T_60F", 288.7055555555556, "temperature", "K", source=METERING)
p_30: Final = constant("p_30inHg", 101591.67, "pressure_absolute", "Pa", source=METERING)

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
    """Flow of everything downstream together."""
    return total(Q)


@formula("Q", "volume_flow", "m3/s", source=DIVERSITY)
def diversified(Q: Flow, g: Annotated[float, Sym("number", "g", "1")]) -> float:
    """Flow that counts together with others."""
    return Q * g


@formula("Q_15", "volume_flow", "m3/s", source=METERING)
def flow_at_15(Q_60: Annotated[float, Sym("volume_flow", "Q_60F", "m3/s")]) -> float:
    """Flow at 15 °C and 1013.25 mbar of one metered at 60 °F and 30 in of mercury."""
    return Q_60 * T_15 / T_60F * p_30 / p_15


@formula("Q_T", "volume_flow", "m3/s", source=LONGEST_LENGTH)
def capacity_of_density(
    Q_T: Annotated[float, Sym("volume_flow", "Q_T,0.6", "m3/s")],
    m: Annotated[float, Sym("number", "m", "1")],
) -> float:
    """Capacity of the table, for the gas's relative density."""
    return Q_T * m


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


@formula("R", "pressure_gradient", "inH2O/ft", source=SPITZGLASS, empirical=True)
def spitzglass_gradient(
    q: Annotated[float, Sym("volume_flow", "q", "ft3/h")],
    d: Annotated[float, Sym("length", "d", "in")],
    s: Annotated[float, Sym("number", "s", "1")],
) -> float:
    """Drop for each foot of steel pipe after Spitzglass."""
    return s * (q / 3550) ** 2 * (1 + 3.6 / d + 0.03 * d) / d**5


@formula("R", "pressure_gradient", "Pa/m", source=FITTINGS)
def larger_gradient(
    R_f: Annotated[float, Sym("pressure_gradient", "R_f", "Pa/m")],
    R_S: Annotated[float, Sym("pressure_gradient", "R_S", "Pa/m")],
) -> float:
    """Drop for each metre: the larger of both laws."""
    return larger(R_f, R_S)


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


@formula("L_w", "length", "m", source=FITTINGS)
def way_length(L_e: Annotated[list[float], Sym("length", "L_e", "m")]) -> float:
    """Length of the way from the meter to an appliance, fittings included."""
    return total(L_e)


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
