"""Efficiency on both bases, the flue loss of the German ordinance, and what goes with them."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import total
from tundish.physics.flue_gas import ENERGY_BALANCE, STOICHIOMETRY
from tundish.sources import Source

SIEGERT: Final = Source(
    "flue-loss-ordinance",
    kind="regulation",
    document="First Ordinance on the Implementation of the Federal Immission Control Act "
    "(1. BImSchV), flue loss of oil and gas firings",
    edition="2010",
    locator="Annex 2 no. 3.4.1: q_A = (t_A - t_L)(A2/(21 - O2) + B)",
    confirmed="seen",
    seen_in="public text of the federal ordinance",
)
TWO_BASES: Final = Source(
    "gross-and-net",
    kind="textbook",
    document="Gross and net heating value of one fuel",
    edition="combustion textbooks",
    locator="Φ_s/Φ_i = H_s/H_i, so η_s H_s = η_i H_i",
    confirmed="derived",
)
FLUE_WORKS: Final = Source(
    "flue-effective",
    kind="regulation",
    document="Gas Safety (Installation and Use) Regulations",
    edition="1998 No. 2451",
    locator="regulation 26(9)(a): effectiveness of any flue, examined after work on an appliance",
    confirmed="seen",
    seen_in="official legislation database",
)
TWO_RATES: Final = Source(
    "two-rates-together",
    kind="common-practice",
    document="Premix burner at maximum and at minimum rate",
    edition="not dated",
    locator="as much or less carbon dioxide at minimum rate as at maximum",
    confirmed="memory",
)
INSTRUMENT_ERRORS: Final = Source(
    "instrument-errors-added",
    kind="derivation",
    document="Two readings held against each other within both instrument errors",
    edition="1",
    locator="O2 = x_O2 (1 - CO2/CO2_max): an error of CO2 moves O2 by x_O2/CO2_max times as much",
    confirmed="derived",
)

HeatNet = Annotated[float, Sym("molar_energy", "H_i", "J/mol")]
HeatGross = Annotated[float, Sym("molar_energy", "H_s", "J/mol")]
Net = Annotated[float, Sym("efficiency_net", "η_i", "1")]
Gross = Annotated[float, Sym("efficiency_gross", "η_s", "1")]


@formula("H_s", "molar_energy", "J/mol", source=TWO_BASES)
def gross_heating_value(
    x: Annotated[list[float], Sym("number", "x", "1")],
    H: Annotated[list[float], Sym("molar_energy", "H_s", "J/mol")],
) -> float:
    """Gross heating value of a mole of the gas."""
    return total(a * b for a, b in zip(x, H, strict=True))


@formula("H_i", "molar_energy", "J/mol", source=TWO_BASES)
def net_heating_value(
    x: Annotated[list[float], Sym("number", "x", "1")],
    H: Annotated[list[float], Sym("molar_energy", "H_i", "J/mol")],
) -> float:
    """Net heating value of a mole of the gas."""
    return total(a * b for a, b in zip(x, H, strict=True))


@formula("H_s/H_i", "number", "1", source=TWO_BASES)
def gross_over_net(H_s: HeatGross, H_i: HeatNet) -> float:
    """Gross over net heating value."""
    return H_s / H_i


@formula("ΔO2", "volume_fraction", "1", source=INSTRUMENT_ERRORS)
def oxygen_error(
    e_O: Annotated[float, Sym("volume_fraction", "e_O2", "1")],
    e_C: Annotated[float, Sym("volume_fraction", "e_CO2", "1")],
    x: Annotated[float, Sym("number", "x_O2", "1")],
    most: Annotated[float, Sym("volume_fraction", "CO2_max", "1")],
) -> float:
    """Oxygen by which two right readings may disagree."""
    return e_O + e_C * x / most


@formula("O2_lo", "volume_fraction", "1", source=INSTRUMENT_ERRORS)
def oxygen_at_least(
    o2: Annotated[float, Sym("volume_fraction", "O2", "1")],
    error: Annotated[float, Sym("volume_fraction", "ΔO2", "1")],
) -> float:
    """Oxygen that is there even if the instrument shows as much too high as it may; may be below 0."""
    return o2 - error


@formula("q_A", "efficiency_net", "1", source=ENERGY_BALANCE)
def sensible_loss(
    Q_fg: Annotated[float, Sym("molar_energy", "Q_fg", "J/mol")],
    Q_air: Annotated[float, Sym("molar_energy", "Q_air", "J/mol")],
    H_i: HeatNet,
) -> float:
    """Heat that leaves in the flue gas, less what the air brought, of the net heating value."""
    return (Q_fg - Q_air) / H_i


@formula("q_A", "efficiency_net", "%", source=SIEGERT, empirical=True)
def flue_loss_by_constants(
    T_f: Annotated[float, Sym("temperature", "θ_f", "degC")],
    T_a: Annotated[float, Sym("temperature", "θ_a", "degC")],
    o2: Annotated[float, Sym("volume_fraction", "O2", "%")],
    A: Annotated[float, Sym("number", "A2", "1")],
    B: Annotated[float, Sym("number", "B", "1")],
) -> float:
    """Heat that leaves in the flue gas, of the net heat input, by constants of the fuel."""
    return (T_f - T_a) * (A / (21 - o2) + B)


@formula("g_c", "efficiency_net", "1", source=ENERGY_BALANCE)
def condensing_gain(
    Q_c: Annotated[float, Sym("molar_energy", "Q_c", "J/mol")], H_i: HeatNet
) -> float:
    """Heat of condensing, of the net heating value."""
    return Q_c / H_i


@formula("f_c", "number", "1", source=STOICHIOMETRY)
def condensed_share(
    n_c: Annotated[float, Sym("number", "n_c", "1")],
    n_w: Annotated[float, Sym("number", "n_w", "1")],
) -> float:
    """Share of the water that condenses."""
    return n_c / n_w


@formula("η_i", "efficiency_net", "1", source=ENERGY_BALANCE)
def efficiency_net(
    q: Annotated[float, Sym("efficiency_net", "q_A", "1")],
    g: Annotated[float, Sym("efficiency_net", "g_c", "1")],
) -> float:
    """Efficiency on net heat input, casing losses not taken off."""
    return 1 - q + g


@formula("η_s", "efficiency_gross", "1", source=TWO_BASES)
def efficiency_gross(eta: Net, H_i: HeatNet, H_s: HeatGross) -> float:
    """Efficiency on gross heat input."""
    return eta * H_i / H_s


@formula("q_s", "efficiency_gross", "1", source=ENERGY_BALANCE)
def loss_gross(eta: Gross) -> float:
    """Heat lost by the flue, of the gross heat input."""
    return 1 - eta


@formula("Φ_s", "heat_input_gross", "W", source=TWO_BASES)
def gross_of_net(
    Phi: Annotated[float, Sym("heat_input_net", "Φ_i", "W")], H_s: HeatGross, H_i: HeatNet
) -> float:
    """Gross heat input that goes with a net one."""
    return Phi * H_s / H_i


@formula("Φ_i", "heat_input_net", "W", source=TWO_BASES)
def net_of_gross(
    Phi: Annotated[float, Sym("heat_input_gross", "Φ_s", "W")], H_i: HeatNet, H_s: HeatGross
) -> float:
    """Net heat input that goes with a gross one."""
    return Phi * H_i / H_s


@formula("Φ_f", "power", "W", source=ENERGY_BALANCE)
def flue_loss(
    q: Annotated[float, Sym("efficiency_gross", "q_s", "1")],
    Phi: Annotated[float, Sym("heat_input_gross", "Φ_s", "W")],
) -> float:
    """Heat lost by the flue."""
    return q * Phi


@formula("Δθ", "temperature_difference", "K", source=ENERGY_BALANCE)
def approach(
    T_f: Annotated[float, Sym("temperature", "T_f", "K")],
    T_r: Annotated[float, Sym("temperature", "T_r", "K")],
) -> float:
    """How much warmer the flue gas leaves than the water returns."""
    return T_f - T_r


@formula("ΔCO2", "volume_fraction", "1", source=STOICHIOMETRY)
def carbon_dioxide_fall(
    high: Annotated[float, Sym("volume_fraction", "CO2_1", "1")],
    low: Annotated[float, Sym("volume_fraction", "CO2_2", "1")],
) -> float:
    """Carbon dioxide at maximum rate less that at minimum rate."""
    return high - low
