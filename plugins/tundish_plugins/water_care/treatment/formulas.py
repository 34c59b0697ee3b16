"""Dose by volume, hardness and scale, and flushing."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import absolute, larger
from tundish.physics.pipes import PI
from tundish.sources import Source

BY_VOLUME: Final = Source(
    "treatment-by-volume",
    kind="derivation",
    document="Shares of a volume, mixing of two waters, continuity in a pipe",
    edition="1",
    locator="V_i = r V; h = s h_t + (1 - s) h_m; q = w A",
    confirmed="derived",
)
STOICHIOMETRY: Final = Source(
    "scale-stoichiometry",
    kind="library",
    document="Calcium carbonate, one mole for each mole of hardness",
    edition="chemicals 1.5.2",
    locator="molar mass of CaCO3",
    confirmed="computed",
    computed_with="chemicals 1.5.2",
)
CARBONATE = constant("M", 0.1000869, "molar_mass", "kg/mol", source=STOICHIOMETRY)

Content = Annotated[float, Sym("volume", "V", "m3")]
Hardness = Annotated[float, Sym("hardness", "h", "mol/m3")]
Rate = Annotated[float, Sym("number", "r", "1")]
Spread = Annotated[float, Sym("number", "u", "1")]
Bore = Annotated[float, Sym("length", "d", "m")]


@formula("V_i", "volume", "m3", source=BY_VOLUME)
def dose(r: Rate, V: Content) -> float:
    """Inhibitor for the content."""
    return r * V


@formula("V_i1", "volume", "m3", source=BY_VOLUME)
def least_dose(r: Rate, V: Content, u: Spread) -> float:
    """Inhibitor for the smallest content."""
    return r * V * (1 - u)


@formula("V_i2", "volume", "m3", source=BY_VOLUME)
def largest_dose(r: Rate, V: Content, u: Spread) -> float:
    """Inhibitor for the largest content."""
    return r * V * (1 + u)


@formula("n", "number", "1", source=BY_VOLUME)
def containers(
    V_i: Annotated[float, Sym("volume", "V_i", "m3")],
    V_c: Annotated[float, Sym("volume", "V_c", "m3")],
) -> float:
    """Containers for a dose."""
    return V_i / V_c


@formula("v", "volume_per_power", "m3/W", source=BY_VOLUME)
def specific_content(V: Content, P: Annotated[float, Sym("power", "P", "W")]) -> float:
    """Content over output."""
    return V / P


@formula("s", "number", "1", source=BY_VOLUME)
def demineralised_share(
    h: Hardness,
    h_max: Annotated[float, Sym("hardness", "h_max", "mol/m3")],
    h_t: Annotated[float, Sym("hardness", "h_t", "mol/m3")],
) -> float:
    """Share of the fill to be demineralised; nothing where the water is soft enough."""
    return larger(h - h_max, 0 * h) / larger(h - h_t, h_max - h_t)


@formula("V_d", "volume", "m3", source=BY_VOLUME)
def part_of(s: Annotated[float, Sym("number", "s", "1")], V: Content) -> float:
    """Volume of a share."""
    return s * V


@formula("m", "mass", "kg", source=STOICHIOMETRY)
def scale(V: Content, h: Hardness) -> float:
    """Most scale from one fill."""
    return V * h * CARBONATE


@formula("q_f", "volume_flow", "m3/s", source=BY_VOLUME)
def flow_for(w: Annotated[float, Sym("velocity", "w_f", "m/s")], d: Bore) -> float:
    """Flow for a velocity."""
    return w * PI * d**2 / 4


@formula("Δc/c", "number", "1", source=BY_VOLUME)
def dissolved_deviation(
    c_s: Annotated[float, Sym("number", "c_s", "1")],
    c_m: Annotated[float, Sym("number", "c_m", "1")],
) -> float:
    """Dissolved solids away from the mains."""
    return absolute(c_s - c_m) / c_m
