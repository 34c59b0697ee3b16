"""Physics of mixing hot and cold water, and the death of legionella in hot water.

Masses and enthalpies balance; volumes follow from the density at each temperature. The share of hot
water and the litres a store gives are the formulas of the recovery.
"""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, formula
from tundish.functions import log10
from tundish.sources import Source
from tundish_plugins.hot_water.recovery.formulas import MIXING, hot_share, mixed_volume

__all__ = ["DEATH", "MIXING", "hot_share", "mixed_volume"]

DEATH = Source(
    "decimal-reduction",
    kind="textbook",
    document="Thermal death of bacteria: decimal reduction time and z value",
    edition="microbiology textbooks",
    locator="log-linear: D = D_r·10^((T_r - T)/z), n = t/D",
    confirmed="derived",
)
BURNS = Source(
    "burn-time-share",
    kind="derivation",
    document="Share of an adult's burn time that a child has",
    edition="1",
    locator="t_child = share · t_adult",
    confirmed="derived",
)

MixedFlow = Annotated[float, Sym("volume_flow", "q_m", "m3/s")]
MixedVolume = Annotated[float, Sym("volume", "V_m", "m3")]
StoreMixed = Annotated[float, Sym("volume", "V_ms", "m3")]
HotShare = Annotated[float, Sym("number", "x", "1")]
DensityM = Annotated[float, Sym("density", "ρ_m", "kg/m3")]
DensityH = Annotated[float, Sym("density", "ρ_h", "kg/m3")]
DensityC = Annotated[float, Sym("density", "ρ_c", "kg/m3")]
EnthalpyM = Annotated[float, Sym("specific_enthalpy", "h_m", "J/kg")]
EnthalpyC = Annotated[float, Sym("specific_enthalpy", "h_c", "J/kg")]
Time = Annotated[float, Sym("time", "t", "s")]
DValue = Annotated[float, Sym("time", "D", "s")]
LowT = Annotated[float, Sym("temperature", "T_1", "K")]
HighT = Annotated[float, Sym("temperature", "T_2", "K")]
LowD = Annotated[float, Sym("time", "D_1", "s")]
HighD = Annotated[float, Sym("time", "D_2", "s")]
ZValue = Annotated[float, Sym("temperature_difference", "z", "K")]


@formula("q_h", "volume_flow", "m3/s", source=MIXING)
def hot_flow(q_m: MixedFlow, rho_m: DensityM, x: HotShare, rho_h: DensityH) -> float:
    """Hot water running, by volume at its own temperature."""
    return q_m * rho_m * x / rho_h


@formula("q_c", "volume_flow", "m3/s", source=MIXING)
def cold_flow(q_m: MixedFlow, rho_m: DensityM, x: HotShare, rho_c: DensityC) -> float:
    """Cold water running, by volume at its own temperature."""
    return q_m * rho_m * (1 - x) / rho_c


@formula("P", "power", "W", source=MIXING)
def heat_flow(q_m: MixedFlow, rho_m: DensityM, h_m: EnthalpyM, h_c: EnthalpyC) -> float:
    """Heat carried off above the cold water."""
    return q_m * rho_m * (h_m - h_c)


@formula("V_h", "volume", "m3", source=MIXING)
def hot_volume(V_m: MixedVolume, rho_m: DensityM, x: HotShare, rho_h: DensityH) -> float:
    """Hot water in the mixed water."""
    return V_m * rho_m * x / rho_h


@formula("V_c", "volume", "m3", source=MIXING)
def cold_volume(V_m: MixedVolume, rho_m: DensityM, x: HotShare, rho_c: DensityC) -> float:
    """Cold water in the mixed water."""
    return V_m * rho_m * (1 - x) / rho_c


@formula("N", "number", "1", source=MIXING)
def uses(V_ms: StoreMixed, V_m: MixedVolume) -> float:
    """Uses the store gives."""
    return V_ms / V_m


@formula("t_s", "time", "s", source=MIXING)
def draw_time(V_ms: StoreMixed, q_m: MixedFlow) -> float:
    """How long the store keeps the flow up."""
    return V_ms / q_m


@formula("t_bc", "time", "s", source=BURNS)
def child_burn_time(
    share: Annotated[float, Sym("number", "k", "1")],
    t_b: Annotated[float, Sym("time", "t_b", "s")],
) -> float:
    """Burn time of a child."""
    return share * t_b


@formula("z", "temperature_difference", "K", source=DEATH)
def z_value(T_1: LowT, D_1: LowD, T_2: HighT, D_2: HighD) -> float:
    """Rise of temperature that cuts the decimal reduction time to a tenth."""
    return (T_2 - T_1) / log10(D_1 / D_2)


@formula("D", "time", "s", source=DEATH)
def decimal_reduction_time(
    D_2: HighD, T_2: HighT, T: Annotated[float, Sym("temperature", "T_p", "K")], z: ZValue
) -> float:
    """Time at the temperature held that leaves a tenth of the bacteria."""
    return D_2 * 10 ** ((T_2 - T) / z)


@formula("n", "number", "1", source=DEATH)
def log_reduction(t: Time, D: DValue) -> float:
    """Powers of ten by which the bacteria fall."""
    return t / D


@formula("t_n", "time", "s", source=DEATH)
def time_needed(n: Annotated[float, Sym("number", "n_0", "1")], D: DValue) -> float:
    """Time the wanted reduction takes."""
    return n * D
