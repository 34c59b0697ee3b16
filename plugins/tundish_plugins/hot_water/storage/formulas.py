"""Physics of drawing from a store while it is heated: mixed through, or hot over cold.

The content is counted by its mass when hot, the lesser; heat is counted above the cold water. A
draw takes constant heat flow D while the store can give its temperature. Mixed store, heat capacity
C: C dT/dt = min(P, G (T_f - T)) - D while heated, -D while the thermostat rests. Stratified store:
its hot mass M_h falls with the draw and grows by P/(h_s - h_c).
"""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, constant, formula
from tundish.functions import exp, larger, ln, smaller, total
from tundish.sources import Source

BS_6700_DRAWS = Source(
    "bs-6700-annex-c-draws",
    kind="standard",
    document="BS 6700 (superseded by BS EN 806 and BS 8558)",
    edition="1997 and 2006",
    locator="Annex C: two draws, store perfectly stratified or fully mixed; constant 14.3",
    confirmed="seen-reproduced",
    seen_in="text of the annex shown online; its printed Table C.1 reproduced",
)
MIXED_STORE = Source(
    "mixed-store-drawn",
    kind="derivation",
    document="Energy balance of a well-mixed store that is drawn from: C dT/dt = "
    "min(P, G (T_f - T)) - D, solved in each phase",
    edition="1",
    locator="closed form, checked against an ODE solver",
    confirmed="derived",
)
PLUG_STORE = Source(
    "stratified-store-drawn",
    kind="derivation",
    document="Mass and energy balance of a store with hot water over cold and no mixing: "
    "dM_h/dt = P/(h_s - h_c) - w",
    edition="1",
    locator="closed form, checked against an ODE solver",
    confirmed="derived",
)
DRAW_BALANCE = Source(
    "draw-balance",
    kind="textbook",
    document="Energy and mass balance of hot and cold water mixed at an outlet",
    edition="plumbing and heat transfer textbooks",
    locator="mixing of two streams",
    confirmed="derived",
)

HOUR = constant("1 h", 3600.0, "time", "s")
DAY = constant("24 h", 86400.0, "time", "s")

Volume = Annotated[float, Sym("volume", "V", "m3")]
Usable = Annotated[float, Sym("number", "f_u", "1")]
StoreDensity = Annotated[float, Sym("density", "ρ_s", "kg/m3")]
MixDensity = Annotated[float, Sym("density", "ρ_m", "kg/m3")]
StoreEnthalpy = Annotated[float, Sym("specific_enthalpy", "h_s", "J/kg")]
ColdEnthalpy = Annotated[float, Sym("specific_enthalpy", "h_c", "J/kg")]
MixEnthalpy = Annotated[float, Sym("specific_enthalpy", "h_m", "J/kg")]
StoreT = Annotated[float, Sym("temperature", "T_s", "K")]
ColdT = Annotated[float, Sym("temperature", "T_c", "K")]
MixT = Annotated[float, Sym("temperature", "T_m", "K")]
Ambient = Annotated[float, Sym("temperature", "T_a", "K")]
Here = Annotated[float, Sym("temperature", "T", "K")]
Flow = Annotated[float, Sym("temperature", "T_f", "K")]
Changeover = Annotated[float, Sym("temperature", "T*", "K")]
Restart = Annotated[float, Sym("temperature", "T_on", "K")]
Band = Annotated[float, Sym("temperature_difference", "ΔT_on", "K")]
Power = Annotated[float, Sym("power", "P", "W")]
NetPower = Annotated[float, Sym("power", "P_n", "W")]
DrawPower = Annotated[float, Sym("power", "D", "W")]
LossUA = Annotated[float, Sym("thermal_conductance", "UA_l", "W/K")]
Conductance = Annotated[float, Sym("thermal_conductance", "G", "W/K")]
Capacity = Annotated[float, Sym("heat_capacity", "C", "J/K")]
Mass = Annotated[float, Sym("mass", "M", "kg")]
HotMass = Annotated[float, Sym("mass", "M_h", "kg")]
HotFlow = Annotated[float, Sym("mass_flow", "w", "kg/s")]
Refill = Annotated[float, Sym("mass_flow", "r", "kg/s")]
MixFlow = Annotated[float, Sym("volume_flow", "q", "m3/s")]
Time = Annotated[float, Sym("time", "t", "s")]
Start = Annotated[float, Sym("time", "t_0", "s")]
HotShare = Annotated[float, Sym("number", "x", "1")]
Sensor = Annotated[float, Sym("number", "s", "1")]
First = Annotated[float, Sym("volume", "V_1", "m3")]
Second = Annotated[float, Sym("volume", "V_2", "m3")]
Gain = Annotated[float, Sym("volume", "V_r", "m3")]


# --- what is drawn --------------------------------------------------------------------------------


@formula("V_m", "volume", "m3", source=DRAW_BALANCE)
def volume_of_energy(
    Q: Annotated[float, Sym("energy", "Q", "J")],
    rho_m: MixDensity,
    h_m: MixEnthalpy,
    h_c: ColdEnthalpy,
) -> float:
    """Mixed water that carries a draw's energy above cold water."""
    return Q / (rho_m * (h_m - h_c))


@formula("t", "time", "s", source=DRAW_BALANCE)
def draw_time(V_m: Annotated[float, Sym("volume", "V_m", "m3")], q: MixFlow) -> float:
    """How long a draw lasts."""
    return V_m / q


@formula("D", "power", "W", source=DRAW_BALANCE)
def draw_power(q: MixFlow, rho_m: MixDensity, h_m: MixEnthalpy, h_c: ColdEnthalpy) -> float:
    """Heat flow a draw takes, above cold water."""
    return q * rho_m * (h_m - h_c)


@formula("Q", "energy", "J", source=DRAW_BALANCE)
def draw_energy(D: DrawPower, t: Time) -> float:
    """Heat a draw takes."""
    return D * t


@formula("Q", "energy", "J", source=DRAW_BALANCE)
def energy_of_volume(
    V_m: Annotated[float, Sym("volume", "V_m", "m3")],
    rho_m: MixDensity,
    h_m: MixEnthalpy,
    h_c: ColdEnthalpy,
) -> float:
    """Heat a draw takes, above cold water."""
    return V_m * rho_m * (h_m - h_c)


@formula("w", "mass_flow", "kg/s", source=DRAW_BALANCE)
def hot_flow(D: DrawPower, h_s: StoreEnthalpy, h_c: ColdEnthalpy) -> float:
    """Flow of water of store temperature for a draw."""
    return D / (h_s - h_c)


@formula("V_h", "volume", "m3", source=DRAW_BALANCE)
def hot_volume(
    Q: Annotated[float, Sym("energy", "Q", "J")],
    rho_s: StoreDensity,
    h_s: StoreEnthalpy,
    h_c: ColdEnthalpy,
) -> float:
    """Water of store temperature that carries a draw's heat."""
    return Q / (rho_s * (h_s - h_c))


@formula("Σ", "energy", "J", source=DRAW_BALANCE)
def all_energy(Q: Annotated[list[float], Sym("energy", "Q", "J")]) -> float:
    """Heat of all the draws."""
    return total(Q)


@formula("V_d", "volume", "m3", source=DRAW_BALANCE)
def daily_volume(
    V_b: Annotated[float, Sym("volume", "V_b", "m3")],
    V_p: Annotated[float, Sym("volume", "V_p", "m3")],
    N: Annotated[float, Sym("number", "N", "1")],
) -> float:
    """Hot water of an average day: a base and a share for each person."""
    return V_b + V_p * N


# --- heat brought in ------------------------------------------------------------------------------


@formula("P_n", "power", "W", source=MIXED_STORE)
def net_input(P: Power, UA_l: LossUA, T_s: StoreT, T_a: Ambient) -> float:
    """Heat input less the standing loss of the full store."""
    return P - UA_l * (T_s - T_a)


@formula("T_f,n", "temperature", "K", source=MIXED_STORE)
def net_flow_temperature(
    T_f: Flow, UA_l: LossUA, T_s: StoreT, T_a: Ambient, G: Conductance
) -> float:
    """Flow temperature at which a coil in a store without loss would give the same."""
    return T_f - UA_l * (T_s - T_a) / G


@formula("P_c", "power", "W", source=PLUG_STORE)
def power_into_cold(P_n: NetPower, G: Conductance, T_f: Flow, T_c: ColdT) -> float:
    """Heat brought to the cold water around the coil of a stratified store."""
    return smaller(P_n, G * (T_f - T_c))


# --- the store mixed through ----------------------------------------------------------------------


@formula("M", "mass", "kg", source=MIXED_STORE)
def usable_mass(V: Volume, f_u: Usable, rho_s: StoreDensity) -> float:
    """Mass of the usable content when hot."""
    return V * f_u * rho_s


@formula("C", "heat_capacity", "J/K", source=MIXED_STORE)
def heat_capacity(M: Mass, h_s: StoreEnthalpy, h_c: ColdEnthalpy, T_s: StoreT, T_c: ColdT) -> float:
    """Heat capacity of the usable content between cold and store temperature."""
    return M * (h_s - h_c) / (T_s - T_c)


@formula("T_on", "temperature", "K", source=MIXED_STORE)
def restart_temperature(T_s: StoreT, dT_on: Band) -> float:
    """Temperature at which the thermostat calls for heat."""
    return T_s - dT_on


@formula("t_w", "time", "s", source=MIXED_STORE)
def waiting_time(t: Time, C: Capacity, T: Here, T_on: Restart, D: DrawPower) -> float:
    """Part of the draw before the thermostat calls."""
    return smaller(t, C * (T - T_on) / D)


@formula("T", "temperature", "K", source=MIXED_STORE)
def unheated(T: Here, D: DrawPower, t: Time, C: Capacity) -> float:
    """Store temperature after a draw without heat."""
    return T - D * t / C


@formula("T", "temperature", "K", source=MIXED_STORE)
def source_limited(T: Here, P_n: NetPower, D: DrawPower, t: Time, C: Capacity) -> float:
    """Store temperature after a time with the whole heat input."""
    return T + (P_n - D) * t / C


@formula("T", "temperature", "K", source=MIXED_STORE)
def coil_limited(T: Here, G: Conductance, T_f: Flow, D: DrawPower, t: Time, C: Capacity) -> float:
    """Store temperature after a time with the coil as the limit."""
    return T_f - D / G + (T - T_f + D / G) * exp(-G * t / C)


@formula("t_x", "time", "s", source=MIXED_STORE)
def time_by_source(C: Capacity, T: Here, T_x: Changeover, P_n: NetPower, D: DrawPower) -> float:
    """Time until the coil takes over as the limit."""
    return C * (T_x - T) / (P_n - D)


@formula("t_x", "time", "s", source=MIXED_STORE)
def time_by_coil(
    C: Capacity, G: Conductance, T: Here, T_x: Changeover, T_f: Flow, D: DrawPower
) -> float:
    """Time for which the coil is the limit, down or up to another temperature."""
    return C / G * ln((T - T_f + D / G) / (T_x - T_f + D / G))


@formula("T", "temperature", "K", source=MIXED_STORE)
def no_more_than(T: Here, T_s: StoreT) -> float:
    """Store temperature, no more than where the thermostat stops."""
    return smaller(T, T_s)


@formula("T", "temperature", "K", source=MIXED_STORE)
def lowest_temperature(T: Here, T_x: Annotated[float, Sym("temperature", "T_e", "K")]) -> float:
    """Lowest store temperature in the draw: at its end or when the reheat started."""
    return smaller(T, T_x)


@formula("ΔT", "temperature_difference", "K", source=MIXED_STORE)
def temperature_margin(T: Here, T_m: MixT) -> float:
    """Store temperature above the draw's."""
    return T - T_m


@formula("ΔT", "temperature_difference", "K", source=MIXED_STORE)
def shown_margin(T: Here, T_c: ColdT, T_m: MixT) -> float:
    """Store temperature, no lower than the cold water's, above the draw's."""
    return larger(T, T_c) - T_m


@formula("V_40", "volume", "m3", source=MIXED_STORE)
def mixed_store_water(
    C: Capacity, T_s: StoreT, T_m: MixT, rho_m: MixDensity, h_m: MixEnthalpy, h_c: ColdEnthalpy
) -> float:
    """Mixed water from a full mixed store until it has cooled to the temperature counted."""
    return C * (T_s - T_m) / (rho_m * (h_m - h_c))


@formula("V_0", "volume", "m3", source=MIXED_STORE)
def mixed_without_reheat(
    Q: Annotated[list[float], Sym("energy", "Q", "J")],
    T_s: StoreT,
    T_c: ColdT,
    T_on: Restart,
    T_m: Annotated[float, Sym("temperature", "T_m,max", "K")],
    f_u: Usable,
    rho_s: StoreDensity,
    h_s: StoreEnthalpy,
    h_c: ColdEnthalpy,
) -> float:
    """Mixed store that would give all the draws without heat, from where the thermostat calls."""
    return total(Q) * (T_s - T_c) / ((T_on - T_m) * f_u * rho_s * (h_s - h_c))


# --- hot over cold --------------------------------------------------------------------------------


@formula("r", "mass_flow", "kg/s", source=PLUG_STORE)
def refill_rate(P_n: NetPower, h_s: StoreEnthalpy, h_c: ColdEnthalpy) -> float:
    """Hot water the heat input makes of cold."""
    return P_n / (h_s - h_c)


@formula("t_w", "time", "s", source=PLUG_STORE)
def waiting_for_sensor(t: Time, M_h: HotMass, M: Mass, s: Sensor, w: HotFlow) -> float:
    """Part of the draw before cold water reaches the thermostat."""
    return smaller(t, (M_h - s * M) / w)


@formula("M_h", "mass", "kg", source=PLUG_STORE)
def hot_mass(M_h: HotMass, r: Refill, w: HotFlow, t: Time) -> float:
    """Hot water in the store after a time of drawing and heating."""
    return M_h + (r - w) * t


@formula("M_h", "mass", "kg", source=PLUG_STORE)
def hot_mass_unheated(M_h: HotMass, w: HotFlow, t: Time) -> float:
    """Hot water in the store after a draw without heat."""
    return M_h - w * t


@formula("M_s", "mass", "kg", source=PLUG_STORE)
def mass_at_call(M: Mass, s: Sensor) -> float:
    """Hot water when cold has risen to the thermostat."""
    return s * M


@formula("M_h", "mass", "kg", source=PLUG_STORE)
def no_more_than_full(M_h: HotMass, M: Mass) -> float:
    """Hot water in the store, no more than it holds."""
    return smaller(M_h, M)


@formula("M_h", "mass", "kg", source=PLUG_STORE)
def least_hot_mass(M_h: HotMass, M_e: Annotated[float, Sym("mass", "M_e", "kg")]) -> float:
    """Least hot water in the draw: at its end or when the reheat started."""
    return smaller(M_h, M_e)


@formula("V_l", "volume", "m3", source=PLUG_STORE)
def hot_left(M_h: HotMass, rho_s: StoreDensity) -> float:
    """Hot water left, as volume."""
    return M_h / rho_s


@formula("V_0", "volume", "m3", source=PLUG_STORE)
def stratified_without_reheat(
    Q: Annotated[list[float], Sym("energy", "Q", "J")],
    s: Sensor,
    f_u: Usable,
    rho_s: StoreDensity,
    h_s: StoreEnthalpy,
    h_c: ColdEnthalpy,
) -> float:
    """Stratified store that would give all the draws without heat, hot down to the thermostat."""
    return total(Q) / (s * f_u * rho_s * (h_s - h_c))


@formula("t_r", "time", "s", source=PLUG_STORE)
def refill_time(M: Mass, M_h: HotMass, r: Refill) -> float:
    """Time to fill the store with hot water again."""
    return (M - M_h) / r


# --- two draws ------------------------------------------------------------------------------------


@formula("V_h", "volume", "m3", source=BS_6700_DRAWS)
def hot_equivalent(
    V_m: Annotated[float, Sym("volume", "V_m", "m3")], T_m: MixT, T_c: ColdT, T_s: StoreT
) -> float:
    """Water of store temperature that a cooler draw amounts to."""
    return V_m * (T_m - T_c) / (T_s - T_c)


@formula("V_r", "volume", "l", source=BS_6700_DRAWS, empirical=True)
def recovered_between(
    t: Annotated[float, Sym("time", "t_M", "min")],
    P: Annotated[float, Sym("power", "P_n", "kW")],
    T_s: Annotated[float, Sym("temperature", "θ_s", "degC")],
    T_c: Annotated[float, Sym("temperature", "θ_c", "degC")],
    V_1: Annotated[float, Sym("volume", "V_1", "l")],
) -> float:
    """Hot water recovered between the draws, no more than was drawn."""
    return smaller(V_1, t * 14.3 * P / (T_s - T_c))


@formula("V_str", "volume", "m3", source=BS_6700_DRAWS)
def two_draws_stratified(V_1: First, V_2: Second, V_r: Gain) -> float:
    """Store for two draws, perfectly stratified."""
    return larger(larger(V_1, V_2), V_1 + V_2 - V_r)


@formula("V_mix", "volume", "m3", source=BS_6700_DRAWS)
def two_draws_mixed(
    V_1: First, V_2: Second, V_r: Gain, T_s: StoreT, T_c: ColdT, T_m: MixT
) -> float:
    """Store for two draws, fully mixed when the second begins."""
    return larger(
        larger(V_1, V_2),
        larger((V_1 - V_r) * (T_s - T_c) / (T_s - T_m), V_1 + V_2 - V_r),
    )


@formula("T", "temperature", "K", source=BS_6700_DRAWS)
def second_draw_temperature(V_1: First, V_r: Gain, V: Volume, T_s: StoreT, T_c: ColdT) -> float:
    """Temperature of the mixed store when the second draw begins."""
    return T_s - (V_1 - V_r) * (T_s - T_c) / V


@formula("V_l", "volume", "m3", source=BS_6700_DRAWS)
def left_after_two(V_1: First, V_2: Second, V_r: Gain, V: Volume) -> float:
    """Hot water a stratified store has left after the second draw."""
    return V - V_1 - V_2 + V_r


@formula("V_l", "volume", "m3", source=BS_6700_DRAWS)
def left_after_first(V_1: First, V: Volume) -> float:
    """Hot water a stratified store has left after the first draw."""
    return V - V_1


# --- what a reader asks next ----------------------------------------------------------------------


@formula("V", "volume", "m3", source=DRAW_BALANCE)
def with_unusable(V_u: Annotated[float, Sym("volume", "V_u", "m3")], f_u: Usable) -> float:
    """Content of the store when only a share of it is usable."""
    return V_u / f_u


@formula("V_u", "volume", "m3", source=DRAW_BALANCE)
def usable_volume(V: Volume, f_u: Usable) -> float:
    """Usable part of the content."""
    return V * f_u


@formula("V_1h", "volume", "m3", source=DRAW_BALANCE)
def first_hour(D: DrawPower, rho_m: MixDensity, h_m: MixEnthalpy, h_c: ColdEnthalpy) -> float:
    """Mixed water from an hour's steady draw."""
    return D * HOUR / (rho_m * (h_m - h_c))


@formula("D", "power", "W", source=DRAW_BALANCE)
def power_of_volume(
    V_40: Annotated[float, Sym("volume", "V_40", "m3")],
    rho_m: MixDensity,
    h_m: MixEnthalpy,
    h_c: ColdEnthalpy,
) -> float:
    """Heat flow of a steady draw that takes this mixed water in an hour."""
    return V_40 * rho_m * (h_m - h_c) / HOUR


@formula("D", "power", "W", source=DRAW_BALANCE)
def heated_power(D: DrawPower, P_n: NetPower) -> float:
    """Heat flow of an hour's draw that takes the content and all the heat brought in."""
    return D + P_n


@formula("ΔV", "volume", "m3", source=DRAW_BALANCE)
def spare_volume(V: Volume, V_n: Annotated[float, Sym("volume", "V_n", "m3")]) -> float:
    """Content beyond the needed volume."""
    return V - V_n


@formula("t", "time", "s", source=DRAW_BALANCE)
def later(t_0: Start, t: Time) -> float:
    """Clock time after a duration."""
    return t_0 + t


@formula("t_n", "time", "s", source=DRAW_BALANCE)
def day_later(t_0: Start) -> float:
    """The same time on the next day."""
    return t_0 + DAY


@formula("Δt", "time", "s", source=DRAW_BALANCE)
def between(t_0: Start, t_1: Annotated[float, Sym("time", "t_1", "s")]) -> float:
    """Time from one to the other."""
    return t_1 - t_0


@formula("E", "energy", "J", source=MIXED_STORE)
def mixed_energy(C: Capacity, T: Here, T_c: ColdT) -> float:
    """Heat in a mixed store above cold water."""
    return C * (T - T_c)


@formula("E", "energy", "J", source=PLUG_STORE)
def hot_energy(M_h: HotMass, h_s: StoreEnthalpy, h_c: ColdEnthalpy) -> float:
    """Heat in a stratified store above cold water."""
    return M_h * (h_s - h_c)
