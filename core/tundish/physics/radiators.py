"""What a radiator gives away from its rating: excess temperature and characteristic."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import ln
from tundish.sources import Source

EN_442: Final = Source(
    "en-442",
    kind="standard",
    document="EN 442-2, radiators and convectors, characteristic equation",
    edition="rated at 75/65/20 °C",
    locator="Q = Q_r (Δθ/Δθ_r)^n with the arithmetic mean excess temperature",
    confirmed="seen-reproduced",
    seen_in="building-services product index article whose table of factors it reproduces",
)
LOG_MEAN: Final = Source(
    "logarithmic-excess",
    kind="textbook",
    document="Logarithmic mean excess temperature of a radiator",
    edition="heating textbooks",
    locator="Δθ = (θ_f - θ_r)/ln((θ_f - θ_i)/(θ_r - θ_i))",
    confirmed="derived",
)

Flow = Annotated[float, Sym("temperature", "θ_f", "K")]
Return = Annotated[float, Sym("temperature", "θ_r", "K")]
Room = Annotated[float, Sym("temperature", "θ_i", "K")]
Excess = Annotated[float, Sym("temperature_difference", "Δθ", "K")]
RatedExcess = Annotated[float, Sym("temperature_difference", "Δθ_r", "K")]
Exponent = Annotated[float, Sym("number", "n", "1")]


@formula("Δθ", "temperature_difference", "K", source=EN_442)
def arithmetic_excess(T_f: Flow, T_r: Return, T_i: Room) -> float:
    """Excess temperature, arithmetic mean."""
    return (T_f + T_r) / 2 - T_i


@formula("Δθ", "temperature_difference", "K", source=LOG_MEAN)
def logarithmic_excess(T_f: Flow, T_r: Return, T_i: Room) -> float:
    """Excess temperature, logarithmic mean."""
    return (T_f - T_r) / ln((T_f - T_i) / (T_r - T_i))


@formula("f", "number", "1", source=EN_442)
def output_factor(dT: Excess, dT_r: RatedExcess, n: Exponent) -> float:
    """Output over rated output."""
    return (dT / dT_r) ** n  # type: ignore[no-any-return]
