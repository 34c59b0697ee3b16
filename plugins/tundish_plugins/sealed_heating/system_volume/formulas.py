"""Content of pipes and parts, of a filling measured by meter, and by rules of thumb."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import larger, smaller, sqrt, total
from tundish.sources import Source

GEOMETRY: Final = Source(
    "content-geometry",
    kind="textbook",
    document="Content of round pipe, and contents that add up",
    edition="geometry",
    locator="V = π d²/4 L",
    confirmed="derived",
)
METERING: Final = Source(
    "content-metering",
    kind="derivation",
    document="Balance of the water that passes a meter while a system is filled",
    edition="1",
    locator="what passed, less what ran off, less what the expansion vessel took",
    confirmed="derived",
)
BAND: Final = Source(
    "content-band",
    kind="derivation",
    document="Least and most of a content known to a share, or by rules that differ",
    edition="1",
    locator="all errors to one side; two rules leave open what lies between them; one rule alone "
    "is half of a pair whose ratio is known",
    confirmed="derived",
)
GUIDE: Final = Source(
    "content-guide",
    kind="common-practice",
    document="Guide volumes for sizing the vessel of a domestic sealed system",
    edition="1990s to 2000s",
    locator="pipes and emitters by output, coil and boiler by piece",
    confirmed="seen",
    seen_in="boiler installation instructions",
)
PER_OUTPUT: Final = Source(
    "content-per-output",
    kind="common-practice",
    document="Estimating system volume from output or from the number of panels",
    edition="2000s",
    locator="litre for each kilowatt; litre for each panel",
    confirmed="seen",
    seen_in="water-treatment guidance note; trade notes on the web",
)

pi: Final = constant("π", 3.141592653589793, "number", "1", source=GEOMETRY)

Volume = Annotated[float, Sym("volume", "V", "m3")]
Low = Annotated[float, Sym("volume", "C_low", "m3")]
High = Annotated[float, Sym("volume", "C_high", "m3")]
Share = Annotated[float, Sym("number", "u", "1")]
Output = Annotated[float, Sym("power", "Q", "W")]
Count = Annotated[float, Sym("number", "n", "1")]


@formula("V_k", "volume", "m3", source=GEOMETRY)
def pipe_content(
    d: Annotated[float, Sym("length", "d", "m")], L: Annotated[float, Sym("length", "L", "m")]
) -> float:
    """Water in a pipe."""
    return pi * d**2 / 4 * L


@formula("V_k", "volume", "m3", source=GEOMETRY)
def parts_content(n: Count, V: Volume) -> float:
    """Water in parts of one kind."""
    return n * V


@formula("C", "volume", "m3", source=GEOMETRY)
def inventory(V_k: Annotated[list[float], Sym("volume", "V_k", "m3")]) -> float:
    """Water in all lines of the inventory."""
    return total(V_k)


@formula("C", "volume", "m3", source=METERING)
def metered(
    V_m: Annotated[float, Sym("volume", "V_m", "m3")],
    V_o: Annotated[float, Sym("volume", "V_o", "m3")],
    V_w: Annotated[float, Sym("volume", "V_w", "m3")],
) -> float:
    """Water that stayed in the system."""
    return V_m - V_o - V_w


@formula("δ", "volume", "m3", source=BAND)
def off_by(V: Volume, u: Share) -> float:
    """How far a volume may be off."""
    return V * u


@formula("C_low", "volume", "m3", source=BAND)
def less(V: Volume, delta: Annotated[float, Sym("volume", "δ", "m3")]) -> float:
    """Lowest content."""
    return V - delta


@formula("C_high", "volume", "m3", source=BAND)
def more(V: Volume, delta: Annotated[float, Sym("volume", "δ", "m3")]) -> float:
    """Highest content."""
    return V + delta


@formula("ΔC", "volume", "m3", source=BAND)
def width(C_high: High, C_low: Low) -> float:
    """From the lowest to the highest."""
    return C_high - C_low


@formula("C", "volume", "m3", source=BAND)
def middle(C_low: Low, C_high: High) -> float:
    """Middle of lowest and highest."""
    return (C_low + C_high) / 2


@formula("s", "number", "1", source=BAND)
def spread(C_high: High, C_low: Low) -> float:
    """Highest content over lowest."""
    return C_high / C_low


@formula("C_low", "volume", "m3", source=BAND)
def lower(a: Low, b: Low) -> float:
    """The lower of two contents."""
    return smaller(a, b)


@formula("C_high", "volume", "m3", source=BAND)
def higher(a: High, b: High) -> float:
    """The higher of two contents."""
    return larger(a, b)


@formula("C_low", "volume", "m3", source=BAND)
def lone_low(V: Low, k: Annotated[float, Sym("number", "k", "1")]) -> float:
    """Lowest content that one rule alone leaves open."""
    return V / sqrt(k)


@formula("C_high", "volume", "m3", source=BAND)
def lone_high(V: High, k: Annotated[float, Sym("number", "k", "1")]) -> float:
    """Highest content that one rule alone leaves open."""
    return V * sqrt(k)


@formula("V", "volume", "m3", source=PER_OUTPUT)
def by_output(Q: Output, v: Annotated[float, Sym("volume_per_power", "v", "m3/W")]) -> float:
    """Content from a content for each kilowatt."""
    return Q * v


@formula("V", "volume", "m3", source=GUIDE)
def by_guide(
    V_e: Annotated[float, Sym("volume", "V_e", "m3")],
    V_p: Annotated[float, Sym("volume", "V_p", "m3")],
    V_c: Annotated[float, Sym("volume", "V_c", "m3")],
    V_b: Annotated[float, Sym("volume", "V_b", "m3")],
) -> float:
    """Content of emitters, pipes, coils and boiler together."""
    return V_e + V_p + V_c + V_b


@formula("v", "volume_per_power", "m3/W", source=GEOMETRY)
def per_output(C: Annotated[float, Sym("volume", "C", "m3")], Q: Output) -> float:
    """Content for each kilowatt of output."""
    return C / Q
