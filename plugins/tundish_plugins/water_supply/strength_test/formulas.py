"""Pressure of a water test by level, what a kelvin does to it, and what the pipes store."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import absolute, larger
from tundish.sources import Source
from tundish_plugins.water_supply.elasticity import TRAPPED, Compressibility, Give

ISENTROPIC: Final = Source(
    "isentropic-work",
    kind="textbook",
    document="Work of air that expands to the atmosphere without heat",
    edition="thermodynamics textbooks",
    locator="E = p V/(γ - 1) (1 - (p_atm/p)^((γ - 1)/γ)), γ = 1.4; other conventions differ by "
    "a factor of up to three",
    confirmed="derived",
)
STAGES: Final = Source(
    "stages",
    kind="derivation",
    document="Readings of a test, stage by stage",
    edition="1",
    locator="drop = start - end, against the drop allowed and half of the smallest change that "
    "can be read",
    confirmed="derived",
)
ATMOSPHERE: Final = constant("p_atm", 101325.0, "pressure_gauge", "Pa", source=ISENTROPIC)
GAMMA: Final = constant("γ", 1.4, "number", "1", source=ISENTROPIC)

Gauge = Annotated[float, Sym("pressure_gauge", "p", "Pa")]
Drop = Annotated[float, Sym("pressure_difference", "Δp", "Pa")]
Content = Annotated[float, Sym("volume", "V", "m3")]
Kelvins = Annotated[float, Sym("temperature", "T", "K")]
PerKelvin = Annotated[float, Sym("pressure_per_temperature", "dp/dT", "Pa/K")]


@formula("p_s", "pressure_gauge", "Pa", source=STAGES)
def share_of_test(x: Annotated[float, Sym("number", "x", "1")], p_t: Gauge) -> float:
    """Pressure of the stage, as a share of the test pressure, at the lowest point."""
    return x * p_t


@formula("Δp", "pressure_difference", "Pa", source=STAGES)
def drop_of(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_gauge", "p_2", "Pa")],
) -> float:
    """Drop from the start to the end of the stage; negative where it rose."""
    return p_1 - p_2


@formula("Δp_a", "pressure_difference", "Pa", source=STAGES)
def allowed_drop(
    dp_r: Annotated[float, Sym("pressure_difference", "Δp_r", "Pa")],
    dp_g: Annotated[float, Sym("pressure_difference", "Δp_g", "Pa")],
) -> float:
    """Drop allowed, and half of what can be read on the gauge: a whole division is a drop."""
    return dp_r + dp_g / 2


@formula("Δp_s", "pressure_difference", "Pa", source=STAGES)
def spare(
    p_max: Annotated[float, Sym("pressure_gauge", "p_max", "Pa")],
    p: Gauge,
) -> float:
    """What the part could stand beyond the test."""
    return p_max - p


@formula("p_hi", "pressure_gauge", "Pa", source=STAGES)
def higher(
    p_1: Annotated[float, Sym("pressure_gauge", "p_1", "Pa")],
    p_2: Annotated[float, Sym("pressure_gauge", "p_2", "Pa")],
) -> float:
    """Higher of two readings."""
    return larger(p_1, p_2)


@formula("T_m", "temperature", "K", source=STAGES)
def mean_temperature(
    T_1: Annotated[float, Sym("temperature", "T_1", "K")],
    T_2: Annotated[float, Sym("temperature", "T_2", "K")],
) -> float:
    """Mean temperature of the stage."""
    return (T_1 + T_2) / 2


@formula("Δp_T", "pressure_difference", "Pa", source=TRAPPED)
def change_by_temperature(
    k: PerKelvin,
    T_1: Annotated[float, Sym("temperature", "T_1", "K")],
    T_2: Annotated[float, Sym("temperature", "T_2", "K")],
) -> float:
    """Change of pressure that the temperature alone would make, with no air in the pipes."""
    return k * (T_2 - T_1)


@formula("|Δp_T|", "pressure_difference", "Pa", source=TRAPPED)
def size_of_change(dp_T: Drop) -> float:
    """Size of that change."""
    return absolute(dp_T)


@formula("dp/dT", "pressure_per_temperature", "Pa/K", source=TRAPPED)
def rigid_per_kelvin(
    beta: Annotated[float, Sym("expansion_coefficient", "β", "1/K")],
    kappa: Compressibility,
) -> float:
    """Pressure change for each kelvin in a vessel that does not give."""
    return beta / kappa


@formula("ΔV", "volume", "m3", source=TRAPPED)
def lost_volume(V: Content, kappa: Compressibility, D: Give, dp: Drop) -> float:
    """Water that must have gone for the pressure to drop so, with no air in the pipes."""
    return V * (kappa + D) * dp


@formula("E_w", "energy", "J", source=TRAPPED)
def water_energy(V: Content, kappa: Compressibility, D: Give, p: Gauge) -> float:
    """Energy stored by water and pipes at the test pressure."""
    return V * (kappa + D) * p**2 / 2


@formula("E_a", "energy", "J", source=ISENTROPIC)
def air_energy(p: Gauge, V: Content) -> float:
    """Energy that air would store at the same pressure in the same pipes."""
    return (  # type: ignore[no-any-return]
        (p + ATMOSPHERE)
        * V
        / (GAMMA - 1)
        * (1 - (ATMOSPHERE / (p + ATMOSPHERE)) ** ((GAMMA - 1) / GAMMA))
    )


@formula("t", "time", "s", source=STAGES)
def later(
    t_0: Annotated[float, Sym("time", "t_0", "s")], t_1: Annotated[float, Sym("time", "t_1", "s")]
) -> float:
    """Time since the first reading."""
    return t_0 + t_1
