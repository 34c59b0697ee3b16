"""A measured reheat against what source and coil can do: implied power, its uncertainty, causes.

Uncertainties are standard ones (k = 1), taken as independent of each other. The heat of the water
and the phases of a reheat are those of the recovery of a store.
"""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, formula
from tundish.functions import larger, sqrt, total
from tundish.sources import Source

UNCERTAINTY = Source(
    "gum-propagation",
    kind="standard",
    document="JCGM 100, Guide to the expression of uncertainty in measurement",
    edition="2008",
    locator="5.1.2, law of propagation for independent readings",
    confirmed="seen-reproduced",
    seen_in="pages of national metrology institutes; each result here recomputed with another library",
)
RECONCILED = Source(
    "reheat-reconciled",
    kind="derivation",
    document="Mean power implied by V, T and t against the source's, and each reading alone solved "
    "for the value at which both agree",
    edition="1",
    locator="energy balance of the heated water",
    confirmed="derived",
)

Power = Annotated[float, Sym("power", "P", "W")]
SourcePower = Annotated[float, Sym("power", "P_s", "W")]
Predicted = Annotated[float, Sym("power", "P_p", "W")]
Reference = Annotated[float, Sym("power", "P_ref", "W")]
PowerError = Annotated[float, Sym("power", "u_P", "W")]
SourceError = Annotated[float, Sym("power", "u_s", "W")]
OtherError = Annotated[float, Sym("power", "u_x", "W")]
Extra = Annotated[float, Sym("power", "P_x", "W")]
RelVolume = Annotated[float, Sym("number", "u_V", "1")]
RelSource = Annotated[float, Sym("number", "u_s,rel", "1")]
Start = Annotated[float, Sym("temperature", "T_0", "K")]
End = Annotated[float, Sym("temperature", "T_1", "K")]
StartError = Annotated[float, Sym("temperature_difference", "u_0", "K")]
EndError = Annotated[float, Sym("temperature_difference", "u_1", "K")]
ReadError = Annotated[float, Sym("temperature_difference", "u_T", "K")]
Time = Annotated[float, Sym("time", "t", "s")]
TimeError = Annotated[float, Sym("time", "u_t", "s")]
Coverage = Annotated[float, Sym("number", "k", "1")]
Volume = Annotated[float, Sym("volume", "V", "m3")]
Share = Annotated[float, Sym("number", "f", "1")]
Heat = Annotated[float, Sym("energy", "Q", "J")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
SpecificHeat = Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")]
Conductance = Annotated[float, Sym("thermal_conductance", "G", "W/K")]


# --- uncertainty ----------------------------------------------------------------------------------


@formula("u_ΔT", "temperature_difference", "K", source=UNCERTAINTY)
def rise_uncertainty(u_0: StartError, u_1: EndError) -> float:
    """Uncertainty of the rise."""
    return sqrt(u_0**2 + u_1**2)


@formula("u_P", "power", "W", source=UNCERTAINTY)
def power_uncertainty(
    P: Power, u_V: RelVolume, u_dT: ReadError, T_1: End, T_0: Start, u_t: TimeError, t: Time
) -> float:
    """Uncertainty of the implied power."""
    return P * sqrt(u_V**2 + (u_dT / (T_1 - T_0)) ** 2 + (u_t / t) ** 2)


@formula("u_s", "power", "W", source=UNCERTAINTY)
def source_uncertainty(P_s: SourcePower, u_s: RelSource) -> float:
    """Uncertainty of the source's power."""
    return P_s * u_s


@formula("u_G", "thermal_conductance", "W/K", source=UNCERTAINTY)
def conductance_uncertainty(
    G: Conductance, u: Annotated[float, Sym("number", "u_G,rel", "1")]
) -> float:
    """Uncertainty of the coil's conductance."""
    return G * u


@formula("u_p", "power", "W", source=UNCERTAINTY)
def predicted_uncertainty(
    P_s1: Annotated[float, Sym("power", "P_p,s+", "W")],
    P_s0: Annotated[float, Sym("power", "P_p,s-", "W")],
    P_G1: Annotated[float, Sym("power", "P_p,G+", "W")],
    P_G0: Annotated[float, Sym("power", "P_p,G-", "W")],
) -> float:
    """Uncertainty of the predicted power: source and coil each moved both ways."""
    return sqrt(((P_s1 - P_s0) / 2) ** 2 + ((P_G1 - P_G0) / 2) ** 2)


@formula("u_c", "power", "W", source=UNCERTAINTY)
def combined(u_P: PowerError, u_x: OtherError) -> float:
    """Uncertainty of the difference of two powers."""
    return sqrt(u_P**2 + u_x**2)


@formula("z", "number", "1", source=UNCERTAINTY)
def score(P: Power, P_ref: Reference, u_c: OtherError) -> float:
    """Difference in standard uncertainties."""
    return (P - P_ref) / u_c


@formula("P_max", "power", "W", source=UNCERTAINTY)
def most(P_ref: Reference, k: Coverage, u_c: OtherError) -> float:
    """Most power that still agrees."""
    return P_ref + k * u_c


@formula("d", "number", "1", source=UNCERTAINTY)
def doubt(
    k: Coverage,
    u_c: OtherError,
    P: Power,
    P_s: Annotated[float, Sym("power", "P_s", "W")],
) -> float:
    """Doubt of readings and source together, as a share of the larger of their powers."""
    return k * u_c / larger(P, P_s)


@formula("P_min", "power", "W", source=UNCERTAINTY)
def least(P_ref: Reference, k: Coverage, u_c: OtherError) -> float:
    """Least power that still agrees."""
    return P_ref - k * u_c


# --- each cause alone -----------------------------------------------------------------------------


@formula("V_eff", "volume", "m3", source=RECONCILED)
def effective_volume(V: Volume, f: Share, P_ref: Reference, P: Power) -> float:
    """Water that would have been heated at that power."""
    return V * f * P_ref / P


@formula("u_Veff", "volume", "m3", source=UNCERTAINTY)
def effective_volume_uncertainty(
    V_eff: Annotated[float, Sym("volume", "V_eff", "m3")],
    u_s: SourceError,
    P_ref: Reference,
    u_dT: ReadError,
    T_1: End,
    T_0: Start,
    u_t: TimeError,
    t: Time,
) -> float:
    """Uncertainty of that: the stated content has no part in it."""
    return V_eff * sqrt((u_s / P_ref) ** 2 + (u_dT / (T_1 - T_0)) ** 2 + (u_t / t) ** 2)


@formula("f_eff", "number", "1", source=RECONCILED)
def effective_share(V_eff: Annotated[float, Sym("volume", "V_eff", "m3")], V: Volume) -> float:
    """Share of the content that would have been heated."""
    return V_eff / V


@formula("T_0'", "temperature", "K", source=RECONCILED)
def needed_start(T_1: End, T_0: Start, P_ref: Reference, P: Power) -> float:
    """Mean start temperature that would agree."""
    return T_1 - (T_1 - T_0) * P_ref / P


@formula("T_1'", "temperature", "K", source=RECONCILED)
def needed_end(T_1: End, T_0: Start, P_ref: Reference, P: Power) -> float:
    """Mean end temperature that would agree."""
    return T_0 + (T_1 - T_0) * P_ref / P


@formula("t'", "time", "s", source=RECONCILED)
def needed_time(Q: Heat, P_ref: Reference) -> float:
    """Time that would agree."""
    return Q / P_ref


@formula("ΔP", "power", "W", source=RECONCILED)
def missing_power(P: Power, P_ref: Reference) -> float:
    """Heat flow that would have to come in besides; negative: be held back."""
    return P - P_ref


@formula("n_V", "number", "1", source=RECONCILED)
def volume_score(P: Power, P_ref: Reference, u_V: RelVolume) -> float:
    """Error of the content alone, in its uncertainty."""
    return (1 - P_ref / P) / u_V


@formula("n_T", "number", "1", source=RECONCILED)
def temperature_score(T_1: End, T_0: Start, P: Power, P_ref: Reference, u_T: ReadError) -> float:
    """Error of one temperature alone, in its uncertainty."""
    return (T_1 - T_0) * (1 - P_ref / P) / u_T


@formula("n_t", "number", "1", source=RECONCILED)
def time_score(t_n: Annotated[float, Sym("time", "t'", "s")], t: Time, u_t: TimeError) -> float:
    """Error of the time alone, in its uncertainty."""
    return (t_n - t) / u_t


# --- heat besides the source ----------------------------------------------------------------------


@formula("P_pr", "power", "W", source=RECONCILED)
def primary_power(
    V_p: Annotated[float, Sym("volume", "V_p", "m3")],
    rho: Density,
    c_p: SpecificHeat,
    T_a: Annotated[float, Sym("temperature", "T_p0", "K")],
    T_b: Annotated[float, Sym("temperature", "T_p1", "K")],
    t: Time,
) -> float:
    """Heat flow from a hot primary circuit that cools during the test."""
    return V_p * rho * c_p * (T_a - T_b) / t


@formula("T_p", "temperature", "K", source=RECONCILED)
def middle(
    T_a: Annotated[float, Sym("temperature", "T_p0", "K")],
    T_b: Annotated[float, Sym("temperature", "T_p1", "K")],
) -> float:
    """Mean temperature of the primary circuit."""
    return (T_a + T_b) / 2


@formula("P_g", "power", "W", source=RECONCILED)
def gained_power(P_s: SourcePower, g: Annotated[float, Sym("number", "g", "1")]) -> float:
    """Heat flow of a source above its rated output."""
    return P_s * (g - 1)


@formula("P_x", "power", "W", source=RECONCILED)
def all_extra(P_x: Annotated[list[float], Sym("power", "P_x", "W")]) -> float:
    """Heat flow besides the source, together."""
    return total(P_x)


@formula("P_rest", "power", "W", source=RECONCILED)
def left_over(P: Power, P_s: SourcePower, P_x: Extra) -> float:
    """Heat flow still not explained."""
    return P - P_s - P_x


@formula("z_x", "number", "1", source=UNCERTAINTY)
def left_score(P_rest: Annotated[float, Sym("power", "P_rest", "W")], u_c: OtherError) -> float:
    """What is left over, in standard uncertainties."""
    return P_rest / u_c


@formula("r_G", "number", "1", source=RECONCILED)
def conductance_share(
    G_i: Annotated[float, Sym("thermal_conductance", "G_i", "W/K")], G: Conductance
) -> float:
    """Conductance the reading shows over the coil's."""
    return G_i / G
