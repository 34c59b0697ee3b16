"""From meter and stopwatch to heat input, and how far to trust it."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import sqrt
from tundish.sources import Source
from tundish_plugins.gas.pipe_sizing.formulas import WOBBE

METERING: Final = Source(
    "ideal-gas-metering",
    kind="textbook",
    document="Volume of a gas at another pressure and temperature",
    edition="thermodynamics textbooks",
    locator="V ∝ T/p; reference 15 °C and 1013.25 mbar",
    confirmed="derived",
)
RATE: Final = Source(
    "volume-over-time",
    kind="textbook",
    document="Volume flow from a volume and a time",
    edition="physics textbooks",
    locator="Q = V/t",
    confirmed="derived",
)
ERROR: Final = Source(
    "reading-error",
    kind="derivation",
    document="Greatest error of a reading: one step of the meter over the volume, error of the "
    "stopwatch over the time",
    edition="1",
    locator="e = s/V + e_t/t",
    confirmed="derived",
)
BASES: Final = Source(
    "gross-and-net",
    kind="textbook",
    document="Gross and net calorific value",
    edition="gas textbooks",
    locator="the net one leaves out the heat of the water vapour: a fixed ratio for a gas",
    confirmed="derived",
)
BAND: Final = Source(
    "band-about-rated",
    kind="derivation",
    document="Band about the rated heat input",
    edition="1",
    locator="Φ_r (1 ± a)",
    confirmed="derived",
)
p_0: Final = constant("p_0", 101325.0, "pressure_absolute", "Pa", source=METERING)
T_0: Final = constant("T_0", 288.15, "temperature", "K", source=METERING)

Volume = Annotated[float, Sym("volume", "V", "m3")]
Time = Annotated[float, Sym("time", "t", "s")]
Step = Annotated[float, Sym("volume", "s", "m3")]
TimeError = Annotated[float, Sym("time", "e_t", "s")]
Rate = Annotated[float, Sym("volume_flow", "Q", "m3/s")]
Input = Annotated[float, Sym("power", "Φ", "W")]
Rated = Annotated[float, Sym("power", "Φ_r", "W")]
Share = Annotated[float, Sym("number", "a", "1")]
Ratio = Annotated[float, Sym("number", "H_s/H_i", "1")]


@formula("V", "volume", "m3", source=RATE)
def passed(
    V_2: Annotated[float, Sym("volume", "V_2", "m3")],
    V_1: Annotated[float, Sym("volume", "V_1", "m3")],
) -> float:
    """Volume between two readings."""
    return V_2 - V_1


@formula("V", "volume", "m3", source=RATE)
def turned(
    n: Annotated[float, Sym("number", "n", "1")], V_d: Annotated[float, Sym("volume", "V_d", "m3")]
) -> float:
    """Volume of whole revolutions of the dial."""
    return n * V_d


@formula("Q", "volume_flow", "m3/s", source=RATE)
def metered_rate(V: Volume, t: Time) -> float:
    """Rate as the meter shows it."""
    return V / t


@formula("z_p", "number", "1", source=METERING)
def pressure_factor(
    p_g: Annotated[float, Sym("pressure_gauge", "p_g", "Pa")],
    p_a: Annotated[float, Sym("pressure_absolute", "p_a", "Pa")],
) -> float:
    """Factor for the pressure at the meter."""
    return (p_a + p_g) / p_0


@formula("z_T", "number", "1", source=METERING)
def temperature_factor(T: Annotated[float, Sym("temperature", "T", "K")]) -> float:
    """Factor for the temperature of the gas."""
    return T_0 / T


@formula("Q_15", "volume_flow", "m3/s", source=METERING)
def corrected_rate(
    Q: Rate,
    z_p: Annotated[float, Sym("number", "z_p", "1")],
    z_T: Annotated[float, Sym("number", "z_T", "1")],
) -> float:
    """Rate at 15 °C and 1013.25 mbar."""
    return Q * z_p * z_T


@formula("H_s/H_i", "number", "1", source=BASES)
def gross_over_net(
    H_s: Annotated[float, Sym("calorific_value_gross", "H_s", "J/m3")],
    H_i: Annotated[float, Sym("calorific_value_net", "H_i", "J/m3")],
) -> float:
    """Gross over net calorific value of the named gas."""
    return H_s / H_i


@formula("H_i", "calorific_value_net", "J/m3", source=BASES)
def net_from_gross(
    H_s: Annotated[float, Sym("calorific_value_gross", "H_s", "J/m3")], ratio: Ratio
) -> float:
    """Net calorific value."""
    return H_s / ratio


@formula("H_s", "calorific_value_gross", "J/m3", source=BASES)
def gross_from_net(
    H_i: Annotated[float, Sym("calorific_value_net", "H_i", "J/m3")], ratio: Ratio
) -> float:
    """Gross calorific value."""
    return H_i * ratio


@formula("H_s", "calorific_value_gross", "J/m3", source=WOBBE)
def gross_of_wobbe(
    W: Annotated[float, Sym("calorific_value_gross", "W", "J/m3")],
    s: Annotated[float, Sym("number", "s", "1")],
) -> float:
    """Gross calorific value of a gas of this Wobbe index and relative density."""
    return W * sqrt(s)


@formula("Φ_r", "power", "W", source=BASES)
def rated_net(Phi: Annotated[float, Sym("power", "Φ_r,s", "W")], ratio: Ratio) -> float:
    """Rated heat input, net, from a gross plate."""
    return Phi / ratio


@formula("N", "number", "1", source=ERROR)
def steps_in(V: Volume, s: Step) -> float:
    """Steps of the meter in the volume."""
    return V / s


@formula("e", "number", "1", source=ERROR)
def reading_error(V: Volume, s: Step, t: Time, e_t: TimeError) -> float:
    """Greatest error of the reading as a share."""
    return s / V + e_t / t


@formula("t_n", "time", "s", source=ERROR)
def time_needed(
    s: Step, Q: Rate, e_t: TimeError, e: Annotated[float, Sym("number", "e_max", "1")]
) -> float:
    """Time after which the error is no more than this."""
    return (s / Q + e_t) / e


@formula("e_max", "number", "1", source=ERROR)
def half(a: Share) -> float:
    """Largest error with which a verdict makes sense: half the tolerance."""
    return a / 2


@formula("Φ_a", "power", "W", source=ERROR)
def less_error(Phi: Input, e: Annotated[float, Sym("number", "e", "1")]) -> float:
    """Heat input less the error of the reading."""
    return Phi * (1 - e)


@formula("Φ_b", "power", "W", source=ERROR)
def plus_error(Phi: Input, e: Annotated[float, Sym("number", "e", "1")]) -> float:
    """Heat input plus the error of the reading."""
    return Phi * (1 + e)


@formula("x", "number", "1", source=BAND)
def deviation(Phi: Input, Phi_r: Rated) -> float:
    """Deviation from the rated heat input as a share."""
    return Phi / Phi_r - 1


@formula("Φ_min", "power", "W", source=BAND)
def least_accepted(Phi_r: Rated, a: Share) -> float:
    """Least heat input accepted."""
    return Phi_r * (1 - a)


@formula("Φ_max", "power", "W", source=BAND)
def greatest_accepted(Phi_r: Rated, a: Share) -> float:
    """Greatest heat input accepted."""
    return Phi_r * (1 + a)


@formula("t_m", "time", "s", source=RATE)
def time_for(V_t: Annotated[float, Sym("volume", "V_t", "m3")], Q: Rate) -> float:
    """Time in which the meter passes the target volume."""
    return V_t / Q


@formula("t_r", "time", "s", source=RATE)
def time_at_input(
    V_t: Annotated[float, Sym("volume", "V_t", "m3")],
    Phi_r: Rated,
    H_i: Annotated[float, Sym("calorific_value_net", "H_i", "J/m3")],
    z_p: Annotated[float, Sym("number", "z_p", "1")],
    z_T: Annotated[float, Sym("number", "z_T", "1")],
) -> float:
    """Time in which the meter passes the target volume at the rated heat input."""
    return V_t * z_p * z_T * H_i / Phi_r


@formula("E", "energy", "J", source=METERING)
def billed_energy(
    V: Volume,
    z: Annotated[float, Sym("number", "z", "1")],
    H_s: Annotated[float, Sym("calorific_value_gross", "H_s", "J/m3")],
) -> float:
    """Energy billed for the volume, by a fixed factor."""
    return V * z * H_s
