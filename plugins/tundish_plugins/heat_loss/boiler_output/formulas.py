"""Heat a boiler has to give, its range, its cycles, and a room without heating."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import exp, larger, ln, smaller
from tundish.sources import Source

LOADS: Final = Source(
    "boiler-loads",
    kind="derivation",
    document="Loads of heating and hot water on one boiler",
    edition="derivation",
    locator="with priority the larger, at the same time the sum; heat of a day in the hours left",
    confirmed="derived",
)
RANGE: Final = Source(
    "range-rating",
    kind="derivation",
    document="Range rating of a boiler",
    edition="derivation",
    locator="setting between least and greatest output; heat input in proportion to output",
    confirmed="derived",
)
CYCLING: Final = Source(
    "boiler-cycling",
    kind="textbook",
    document="Lumped capacity between burner on and burner off",
    edition="hydronics textbooks",
    locator="t_on = C ΔT/(P_min - Q), t_off = C ΔT/Q",
    confirmed="derived",
)
STEADY: Final = Source(
    "load-line",
    kind="textbook",
    document="Load of a house in proportion to inside less outside, losses of pipes as they are",
    edition="heating textbooks",
    locator="Φ(θ) = Φ (θ_i - θ)/(θ_i - θ_e) + Φ_l",
    confirmed="derived",
)
COOLING: Final = Source(
    "time-constant",
    kind="textbook",
    document="Cooling of a body of one time constant (Newton)",
    edition="heat transfer textbooks",
    locator="θ - θ_e = (θ_i - θ_e) exp(-t/τ)",
    confirmed="derived",
)
DAY: Final = constant("t_d", 86400.0, "time", "s", source=LOADS)

Load = Annotated[float, Sym("power", "Φ", "W")]
Losses = Annotated[float, Sym("power", "Φ_l", "W")]
Least = Annotated[float, Sym("power", "P_min", "W")]
Part = Annotated[float, Sym("power", "Q", "W")]
Most = Annotated[float, Sym("power", "P_h", "W")]
Setting = Annotated[float, Sym("power", "P_s", "W")]
Capacity = Annotated[float, Sym("heat_capacity", "C", "J/K")]
Metal = Annotated[float, Sym("heat_capacity", "C_m", "J/K")]
Difference = Annotated[float, Sym("temperature_difference", "ΔT", "K")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
SpecificHeat = Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")]
Volume = Annotated[float, Sym("volume", "V", "m3")]
Inside = Annotated[float, Sym("temperature", "θ_i", "K")]
Outside = Annotated[float, Sym("temperature", "θ_e", "K")]
Warm = Annotated[float, Sym("temperature", "θ_1", "K")]
Time = Annotated[float, Sym("time", "t", "s")]
Tau = Annotated[float, Sym("time", "τ", "s")]
OnTime = Annotated[float, Sym("time", "t_on", "s")]
OffTime = Annotated[float, Sym("time", "t_off", "s")]
Net = Annotated[float, Sym("calorific_value", "H_i", "J/m3")]
Gross = Annotated[float, Sym("calorific_value", "H_s", "J/m3")]
Input = Annotated[float, Sym("power", "Q_i", "W")]


@formula("Φ_m", "power", "W", source=LOADS)
def margin(m: Annotated[float, Sym("number", "m", "1")], Phi: Load) -> float:
    """Margin on the heating load."""
    return m * Phi


@formula("Φ_u", "power", "W", source=LOADS)
def made_up(Phi: Load, Phi_l: Losses, t: Time) -> float:
    """What makes up for the hours of a day that hot water takes."""
    return (Phi + Phi_l) * t / (DAY - t)


@formula("t", "time", "s", source=LOADS)
def time_of_a_day(
    z: Annotated[float, Sym("number", "z", "1")],
    t_w: Annotated[float, Sym("time", "t_w", "s")],
) -> float:
    """Time of a day that hot water takes."""
    return z * t_w


@formula("P", "power", "W", source=LOADS)
def heating_needed(
    Phi: Load,
    Phi_l: Losses,
    Phi_m: Annotated[float, Sym("power", "Φ_m", "W")],
    Phi_u: Annotated[float, Sym("power", "Φ_u", "W")],
) -> float:
    """Output to heating."""
    return Phi + Phi_l + Phi_m + Phi_u


@formula("P_n", "power", "W", source=LOADS)
def with_priority(
    P: Annotated[float, Sym("power", "P", "W")], P_w: Annotated[float, Sym("power", "P_w", "W")]
) -> float:
    """The larger of the two: one at a time."""
    return larger(P, P_w)


@formula("P_n", "power", "W", source=LOADS)
def at_the_same_time(
    P: Annotated[float, Sym("power", "P", "W")], P_w: Annotated[float, Sym("power", "P_w", "W")]
) -> float:
    """The sum of the two."""
    return P + P_w


@formula("P_s", "power", "W", source=RANGE)
def range_setting(
    P_n: Annotated[float, Sym("power", "P_n", "W")], P_min: Least, P_h: Most
) -> float:
    """Setting of the range, as near to what is needed as the boiler goes."""
    return smaller(larger(P_n, P_min), P_h)


@formula("r", "number", "1", source=RANGE)
def range_share(P_s: Setting, P_h: Most) -> float:
    """Setting over greatest output."""
    return P_s / P_h


@formula("d", "number", "1", source=RANGE)
def turndown(P_h: Most, P_min: Least) -> float:
    """Greatest over least output."""
    return P_h / P_min


@formula("Q_g", "power", "W", source=RANGE)
def to_gross(Q_i: Input, H_s: Gross, H_i: Net) -> float:
    """Heat input, from net to gross."""
    return Q_i * H_s / H_i


@formula("Q_n", "power", "W", source=RANGE)
def to_net(Q_i: Input, H_i: Net, H_s: Gross) -> float:
    """Heat input, from gross to net."""
    return Q_i * H_i / H_s


@formula("η", "number", "1", source=RANGE)
def efficiency(P_h: Most, Q_i: Input) -> float:
    """Output over input."""
    return P_h / Q_i


@formula("Q", "power", "W", source=RANGE)
def input_at(r: Annotated[float, Sym("number", "r", "1")], Q_i: Input) -> float:
    """Heat input at the setting, in proportion."""
    return r * Q_i


@formula("θ_c", "temperature", "K", source=STEADY)
def outside_at_load(T_i: Inside, T_e: Outside, P_min: Least, Phi: Load, Phi_l: Losses) -> float:
    """Outside temperature at which the load is the least output."""
    return T_i - (T_i - T_e) * (P_min - Phi_l) / Phi


@formula("Φ", "power", "W", source=STEADY)
def load_at(
    Phi: Load,
    Phi_l: Losses,
    T_i: Inside,
    T_e: Outside,
    T: Annotated[float, Sym("temperature", "θ", "K")],
) -> float:
    """Load of the house at an outside temperature."""
    return Phi * (T_i - T) / (T_i - T_e) + Phi_l


@formula("Q", "power", "W", source=CYCLING)
def half(P_min: Least) -> float:
    """Load at which starts are most: half the least output."""
    return P_min / 2


@formula("C", "heat_capacity", "J/K", source=CYCLING)
def capacity(V: Volume, rho: Density, c_p: SpecificHeat, C_m: Metal) -> float:
    """Heat capacity of what circulates."""
    return V * rho * c_p + C_m


@formula("t_on", "time", "s", source=CYCLING)
def run_time(C: Capacity, dT: Difference, P_min: Least, Q: Part) -> float:
    """Run at one start, a day at most."""
    return smaller(C * dT / (P_min - Q), DAY)


@formula("t_off", "time", "s", source=CYCLING)
def rest_time(C: Capacity, dT: Difference, Q: Part) -> float:
    """Rest between two runs."""
    return C * dT / Q


@formula("N", "frequency", "1/s", source=CYCLING)
def starts(C: Capacity, dT: Difference, P_min: Least, Q: Part) -> float:
    """Starts at a load below the least output."""
    return Q * (P_min - Q) / (P_min * C * dT)


@formula("N_m", "frequency", "1/s", source=CYCLING)
def starts_most(C: Capacity, dT: Difference, P_min: Least) -> float:
    """Starts at half the least output, the most there can be."""
    return P_min / (4 * C * dT)


@formula("V_n", "volume", "m3", source=CYCLING)
def content_needed(
    t: Annotated[float, Sym("time", "t_min", "s")],
    P_min: Least,
    Q: Part,
    dT: Difference,
    C_m: Metal,
    rho: Density,
    c_p: SpecificHeat,
) -> float:
    """Water for the least run time; none where the boiler does not cycle."""
    return larger(t * (P_min - Q) / dT - C_m, 0 * C_m) / (rho * c_p)


@formula("V_l", "volume", "m3", source=CYCLING)
def content_lacking(V_n: Annotated[float, Sym("volume", "V_n", "m3")], V: Volume) -> float:
    """Water that is lacking."""
    return larger(V_n - V, 0 * V)


@formula("θ", "temperature", "K", source=COOLING)
def cooled(T_i: Inside, T_e: Outside, t: Time, tau: Tau) -> float:
    """Room some time after heating went off."""
    return T_e + (T_i - T_e) * exp(-t / tau)


@formula("Δθ", "temperature_difference", "K", source=COOLING)
def fallen(T_i: Inside, T_e: Outside, t: Time, tau: Tau) -> float:
    """Fall of the room meanwhile."""
    return (T_i - T_e) * (1 - exp(-t / tau))


@formula("t", "time", "s", source=COOLING)
def time_to_fall(
    T_i: Inside,
    T_e: Outside,
    dT: Annotated[float, Sym("temperature_difference", "Δθ_m", "K")],
    tau: Tau,
) -> float:
    """Time in which the room falls by as much as is accepted."""
    return tau * ln((T_i - T_e) / (T_i - T_e - dT))


@formula("t_r", "time", "s", source=COOLING)
def recovery_time(
    tau: Tau,
    dT: Annotated[float, Sym("temperature_difference", "Δθ", "K")],
    T_i: Inside,
    T_e: Outside,
    P_s: Setting,
    Phi: Load,
    Phi_l: Losses,
) -> float:
    """Time to warm up again at the setting, a day at most."""
    return smaller(tau * ln(1 + dT * Phi / ((T_i - T_e) * (P_s - Phi_l - Phi))), DAY)
