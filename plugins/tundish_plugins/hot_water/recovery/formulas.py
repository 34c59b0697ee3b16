"""Physics of the recovery of a store: well mixed, heated by a source, a coil, an immersion heater.

Symbols: G conductance from primary flow to store, C heat capacity of the heated water, P net heat
flow into it, UA_l conductance of the standing loss. In each phase P falls in a straight line with
store temperature, so a phase lasts C·ΔT over the logarithmic mean of P at its ends.
"""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, constant, formula
from tundish.functions import exp, larger, ln, smaller, total
from tundish.sources import Source

STORE_BALANCE = Source(
    "well-mixed-store",
    kind="derivation",
    document="Energy balance of a well-mixed store: C dT/dt = min(P_s, G (T_f - T)) + P_i "
    "- UA (T - T_a), solved in each phase",
    edition="1",
    locator="closed form, checked against an ODE solver",
    confirmed="derived",
)
EXCHANGER = Source(
    "effectiveness-ntu",
    kind="textbook",
    document="Effectiveness and number of transfer units of a heat exchanger with one side at "
    "uniform temperature",
    edition="heat transfer textbooks",
    locator="capacity rate ratio zero: effectiveness = 1 - exp(-UA/C)",
    confirmed="derived",
)
FIRST_LAW = Source(
    "store-enthalpy",
    kind="derivation",
    document="First law for the heated water: mass times difference of enthalpy; mass is volume "
    "times density at the start temperature",
    edition="1",
    locator="convention of this calculation",
    confirmed="derived",
)
BS_6700 = Source(
    "bs-6700-annex-c",
    kind="standard",
    document="BS 6700 (superseded by BS EN 806 and BS 8558)",
    edition="1997 and 2006",
    locator="Annex C, M = V·ΔT/(14.3·P), minutes, litres, kelvins, kilowatts",
    confirmed="seen",
    seen_in="text of the annex shown online",
)
STANDING_LOSS_TEST = Source(
    "standing-loss-45-k",
    kind="regulation",
    document="Commission Delegated Regulation (EU) 812/2013",
    edition="2013",
    locator="standing loss S: at 65 degC stored, 20 degC ambient",
    confirmed="seen-reproduced",
    seen_in="method sheet and the label formula in an open-source library",
)
MIXING = Source(
    "mixing-balance",
    kind="textbook",
    document="Energy and mass balance of mixing hot and cold water",
    edition="plumbing and heat transfer textbooks",
    locator="mixing of two streams",
    confirmed="derived",
)
OHM = Source(
    "resistive-heater",
    kind="textbook",
    document="Power of a fixed resistance goes with the square of the voltage",
    edition="electrical textbooks",
    locator="P = U²/R",
    confirmed="derived",
)

TEST_DIFFERENCE = constant("ΔT_S", 45.0, "temperature_difference", "K", source=STANDING_LOSS_TEST)

Volume = Annotated[float, Sym("volume", "V", "m3")]
Share = Annotated[float, Sym("number", "f", "1")]
Density0 = Annotated[float, Sym("density", "ρ_0", "kg/m3")]
Density1 = Annotated[float, Sym("density", "ρ_1", "kg/m3")]
DensityM = Annotated[float, Sym("density", "ρ_m", "kg/m3")]
DensityP = Annotated[float, Sym("density", "ρ", "kg/m3")]
SpecificHeat = Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")]
Enthalpy0 = Annotated[float, Sym("specific_enthalpy", "h_0", "J/kg")]
Enthalpy1 = Annotated[float, Sym("specific_enthalpy", "h_1", "J/kg")]
EnthalpyM = Annotated[float, Sym("specific_enthalpy", "h_m", "J/kg")]
EnthalpyC = Annotated[float, Sym("specific_enthalpy", "h_c", "J/kg")]
Start = Annotated[float, Sym("temperature", "T_0", "K")]
Target = Annotated[float, Sym("temperature", "T_1", "K")]
Flow = Annotated[float, Sym("temperature", "T_f", "K")]
Store = Annotated[float, Sym("temperature", "T", "K")]
Ambient = Annotated[float, Sym("temperature", "T_a", "K")]
Begin = Annotated[float, Sym("temperature", "T_A", "K")]
End = Annotated[float, Sym("temperature", "T_B", "K")]
Changeover = Annotated[float, Sym("temperature", "T*", "K")]
Heat = Annotated[float, Sym("energy", "Q", "J")]
Capacity = Annotated[float, Sym("heat_capacity", "C", "J/K")]
Conductance = Annotated[float, Sym("thermal_conductance", "G", "W/K")]
RatedConductance = Annotated[float, Sym("thermal_conductance", "G_r", "W/K")]
CoilUA = Annotated[float, Sym("thermal_conductance", "UA", "W/K")]
LossUA = Annotated[float, Sym("thermal_conductance", "UA_l", "W/K")]
Rate = Annotated[float, Sym("thermal_conductance", "Ċ", "W/K")]
RatedRate = Annotated[float, Sym("thermal_conductance", "Ċ_r", "W/K")]
VolumeFlow = Annotated[float, Sym("volume_flow", "q", "m3/s")]
Effectiveness = Annotated[float, Sym("number", "ε", "1")]
Boiler = Annotated[float, Sym("power", "P_b", "W")]
PipeLoss = Annotated[float, Sym("power", "P_p", "W")]
LeastOutput = Annotated[float, Sym("power", "P_min", "W")]
SourcePower = Annotated[float, Sym("power", "P_s", "W")]
Immersion = Annotated[float, Sym("power", "P_i", "W")]
FullPower = Annotated[float, Sym("power", "P", "W")]
RatedPower = Annotated[float, Sym("power", "P_r", "W")]
PowerA = Annotated[float, Sym("power", "P_A", "W")]
PowerB = Annotated[float, Sym("power", "P_B", "W")]
StandingLoss = Annotated[float, Sym("power", "S", "W")]
GreatestDrop = Annotated[float, Sym("temperature_difference", "ΔT_max", "K")]
Duration = Annotated[float, Sym("time", "t", "s")]
TargetTime = Annotated[float, Sym("time", "t_max", "s")]
Voltage = Annotated[float, Sym("voltage", "U", "V")]
RatedVoltage = Annotated[float, Sym("voltage", "U_r", "V")]
HotShare = Annotated[float, Sym("number", "x", "1")]


# --- heat -----------------------------------------------------------------------------------------


@formula("Q", "energy", "J", source=FIRST_LAW)
def heat_of_store(V: Volume, f: Share, rho: Density0, h_1: Enthalpy1, h_0: Enthalpy0) -> float:
    """Heat to bring the heated water to the target, mass taken at the start temperature."""
    return V * f * rho * (h_1 - h_0)


@formula("Q", "energy", "kWh", source=BS_6700, empirical=True)
def heat_by_bs_6700(
    V: Annotated[float, Sym("volume", "V", "l")],
    f: Share,
    T_1: Annotated[float, Sym("temperature", "θ_1", "degC")],
    T_0: Annotated[float, Sym("temperature", "θ_0", "degC")],
) -> float:
    """Heat by the former British Standard's constant, 14.3 litre-kelvins a kilowatt-minute."""
    return V * f * (T_1 - T_0) / (14.3 * 60)


@formula("C", "heat_capacity", "J/K", source=FIRST_LAW)
def mean_heat_capacity(Q: Heat, T_1: Target, T_0: Start) -> float:
    """Mean heat capacity of the heated water between start and target."""
    return Q / (T_1 - T_0)


# --- source ---------------------------------------------------------------------------------------


@formula("P_s", "power", "W", source=STORE_BALANCE)
def source_power(P_b: Boiler, P_p: PipeLoss) -> float:
    """Heat that the source brings to the coil."""
    return P_b - P_p


@formula("P_s", "power", "W", source=STORE_BALANCE)
def source_power_by_flow(P_b: Boiler, P_p: PipeLoss, C: Rate, dT: GreatestDrop) -> float:
    """Heat that the source brings to the coil, no more than the primary flow carries."""
    return smaller(P_b, C * dT) - P_p


@formula("P_i", "power", "W", source=OHM)
def immersion_at_voltage(P_i: RatedPower, U: Voltage, U_r: RatedVoltage) -> float:
    """Immersion heater's power at the supply voltage."""
    return P_i * (U / U_r) ** 2


@formula("P", "power", "W", source=STORE_BALANCE)
def together(P_s: SourcePower, P_i: Immersion) -> float:
    """Source and immersion heater together."""
    return P_s + P_i


@formula("UA_l", "thermal_conductance", "W/K", source=STANDING_LOSS_TEST)
def loss_conductance(S: StandingLoss) -> float:
    """Conductance of the standing loss."""
    return S / TEST_DIFFERENCE


# --- coil -----------------------------------------------------------------------------------------


@formula("Ċ", "thermal_conductance", "W/K", source=EXCHANGER)
def capacity_rate(q: VolumeFlow, rho: DensityP, c_p: SpecificHeat) -> float:
    """Heat capacity rate of the primary flow."""
    return q * rho * c_p


@formula("G_r", "thermal_conductance", "W/K", source=STORE_BALANCE)
def rated_conductance(P_r: RatedPower, T_f: Flow, T_0: Start, T_1: Target) -> float:
    """Conductance of a coil whose mean output over a warm-up is its rating."""
    return P_r * ln((T_f - T_0) / (T_f - T_1)) / (T_1 - T_0)


@formula("UA", "thermal_conductance", "W/K", source=EXCHANGER)
def ua_of_coil(G: Conductance, C: Rate) -> float:
    """Coefficient times area of the coil from its conductance and the primary flow."""
    return -C * ln(1 - G / C)


@formula("ε", "number", "1", source=EXCHANGER)
def effectiveness(UA: CoilUA, C: Rate) -> float:
    """Effectiveness of the coil in a well-mixed store."""
    return 1 - exp(-UA / C)


@formula("ε", "number", "1", source=EXCHANGER)
def effectiveness_from_conductance(G: Conductance, C: Rate) -> float:
    """Effectiveness of a coil of known conductance."""
    return G / C


@formula("G", "thermal_conductance", "W/K", source=EXCHANGER)
def conductance(eps: Effectiveness, C: Rate) -> float:
    """Heat the coil gives for each kelvin between primary flow and store."""
    return eps * C


@formula("P_c", "power", "W", source=STORE_BALANCE)
def coil_power(G: Conductance, T_f: Flow, T: Store) -> float:
    """Most the coil passes to the store; none once the store is hotter than the flow."""
    return G * (larger(T_f, T) - T)


# --- phases ---------------------------------------------------------------------------------------


@formula("T*", "temperature", "K", source=STORE_BALANCE)
def changeover(T_f: Flow, P_s: SourcePower, G: Conductance) -> float:
    """Store temperature at which coil and source give the same."""
    return T_f - P_s / G


@formula("T*", "temperature", "K", source=STORE_BALANCE)
def within_reheat(T: Changeover, T_A: Begin, T_B: End) -> float:
    """Where the next phase begins: the same, or the start or target if it lies beyond."""
    return smaller(larger(T, T_A), T_B)


@formula("P", "power", "W", source=STORE_BALANCE)
def net_power(
    P_s: SourcePower,
    G: Conductance,
    T_f: Flow,
    P_i: Immersion,
    UA_l: LossUA,
    T_a: Ambient,
    T: Store,
) -> float:
    """Heat into the water: the lesser of source and coil, plus immersion, less loss."""
    return smaller(P_s, G * (larger(T_f, T) - T)) + P_i - UA_l * (T - T_a)


@formula("P", "power", "W", source=STORE_BALANCE)
def net_power_without_coil(P: FullPower, UA_l: LossUA, T_a: Ambient, T: Store) -> float:
    """Heat into the water: the whole source less the loss."""
    return P - UA_l * (T - T_a)


@formula("t", "time", "s", source=STORE_BALANCE)
def tapering_time(C: Capacity, T_A: Begin, T_B: End, P_A: PowerA, P_B: PowerB) -> float:
    """Time of a phase: its heat over the logarithmic mean of the heat flow at its ends."""
    return C * (T_B - T_A) * ln(P_A / P_B) / (P_A - P_B)


@formula("t", "time", "s", source=STORE_BALANCE)
def steady_time(C: Capacity, T_A: Begin, T_B: End, P_A: PowerA, P_B: PowerB) -> float:
    """Time of a phase of nearly steady heat flow: the logarithmic mean as its series."""
    return (
        2
        * C
        * (T_B - T_A)
        / (P_A + P_B)
        * (1 + ((P_A - P_B) / (P_A + P_B)) ** 2 / 3 + ((P_A - P_B) / (P_A + P_B)) ** 4 / 5)
    )


@formula("T_mean", "temperature", "K", source=STORE_BALANCE)
def tapering_mean_temperature(
    C: Capacity, T_A: Begin, T_B: End, P_A: PowerA, P_B: PowerB, t: Duration
) -> float:
    """Mean store temperature over the time of a phase."""
    return T_A + (T_B - T_A) * (P_A - C * (T_B - T_A) / t) / (P_A - P_B)


@formula("T_mean", "temperature", "K", source=STORE_BALANCE)
def steady_mean_temperature(T_A: Begin, T_B: End, P_A: PowerA, P_B: PowerB) -> float:
    """Mean store temperature over the time of a phase of nearly steady heat flow."""
    return T_A + (T_B - T_A) * (
        1 / 2 + (P_A - P_B) / (P_A + P_B) / 6 + ((P_A - P_B) / (P_A + P_B)) ** 3 * 2 / 45
    )


@formula("t", "time", "s", source=STORE_BALANCE)
def reheat_time(t: Annotated[list[float], Sym("time", "t", "s")]) -> float:
    """Reheat time: the phases added."""
    return total(t)


@formula("Q_l", "energy", "J", source=STORE_BALANCE)
def loss_energy(
    UA_l: LossUA,
    T_a: Ambient,
    T: Annotated[list[float], Sym("temperature", "T_mean", "K")],
    t: Annotated[list[float], Sym("time", "t", "s")],
) -> float:
    """Heat lost from the store during the reheat."""
    return UA_l * total((a - T_a) * b for a, b in zip(T, t, strict=True))


# --- what a reader asks next ----------------------------------------------------------------------


@formula("P_m", "power", "W", source=STORE_BALANCE)
def mean_power(Q: Heat, t: Duration) -> float:
    """Mean heat flow into the water."""
    return Q / t


@formula("t_min", "time", "s", source=STORE_BALANCE)
def least_time(Q: Heat, P: FullPower) -> float:
    """Time if the whole source heated to the end, without coil limit or loss."""
    return Q / P


@formula("P_req", "power", "W", source=STORE_BALANCE)
def needed_power(
    C: Capacity, t: TargetTime, UA_l: LossUA, T_0: Start, T_1: Target, T_a: Ambient
) -> float:
    """Steady heat input that meets the target time against the loss."""
    return UA_l * (T_1 - T_a) + UA_l * (T_1 - T_0) / (exp(UA_l * t / C) - 1)


@formula("P_req", "power", "W", source=STORE_BALANCE)
def needed_power_little_loss(
    C: Capacity, t: TargetTime, UA_l: LossUA, T_0: Start, T_1: Target, T_a: Ambient
) -> float:
    """Steady heat input that meets the target time, a loss small beside it taken as its series."""
    return UA_l * ((T_0 + T_1) / 2 - T_a) + C * (T_1 - T_0) / t * (
        1 + (UA_l * t / C) ** 2 / 12 - (UA_l * t / C) ** 4 / 720
    )


@formula("T_∞", "temperature", "K", source=STORE_BALANCE)
def settling_by_source(T_a: Ambient, P: FullPower, UA_l: LossUA) -> float:
    """Temperature at which the loss eats the whole source."""
    return T_a + P / UA_l


@formula("T_∞", "temperature", "K", source=STORE_BALANCE)
def settling_by_coil(
    G: Conductance,
    T_f: Flow,
    P_s: SourcePower,
    P_i: Immersion,
    UA_l: LossUA,
    T_a: Ambient,
) -> float:
    """Highest temperature the store can reach: where coil or source give just the loss."""
    return smaller((G * T_f + P_i + UA_l * T_a) / (G + UA_l), T_a + (P_s + P_i) / UA_l)


@formula("T_∞", "temperature", "K", source=STORE_BALANCE)
def settling_higher(
    T_A: Annotated[float, Sym("temperature", "T_∞,coil", "K")],
    T_B: Annotated[float, Sym("temperature", "T_∞,immersion", "K")],
) -> float:
    """Highest temperature with the immersion heater left on: the higher of the two."""
    return larger(T_A, T_B)


@formula("T_cyc", "temperature", "K", source=STORE_BALANCE)
def cycling_temperature(T_f: Flow, P_min: LeastOutput, P_p: PipeLoss, G: Conductance) -> float:
    """Store temperature above which the coil takes less than the boiler's least output."""
    return T_f - (P_min - P_p) / G


@formula("ΔT_f", "temperature_difference", "K", source=STORE_BALANCE)
def flow_margin(T_f: Flow, T_1: Target) -> float:
    """Primary flow temperature above the target."""
    return T_f - T_1


@formula("x", "number", "1", source=MIXING)
def hot_share(h_m: EnthalpyM, h_c: EnthalpyC, h_1: Enthalpy1) -> float:
    """Share by mass of hot water in the mixed water."""
    return (h_m - h_c) / (h_1 - h_c)


@formula("V_m", "volume", "m3", source=MIXING)
def mixed_volume(V: Volume, f: Share, rho_1: Density1, rho_m: DensityM, x: HotShare) -> float:
    """Mixed water from the whole of the heated part."""
    return V * f * rho_1 / (rho_m * x)
