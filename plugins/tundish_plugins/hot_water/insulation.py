"""Heat through the insulation of pipes and stores: formulas that the family shares."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import ln
from tundish.physics.pipes import PI
from tundish.sources import Source

INSULATION: Final = Source(
    "insulated-cylinder",
    kind="textbook",
    document="Radial conduction through a layer with an outer surface coefficient, the method of "
    "ISO 12241",
    edition="heat transfer textbooks",
    locator="q = ΔT/(ln(d_2/d_1)/(2 π λ) + 1/(π d_2 h))",
    confirmed="derived",
)

Inner = Annotated[float, Sym("length", "d_1", "m")]
Outer = Annotated[float, Sym("length", "d_2", "m")]
Thickness = Annotated[float, Sym("length", "s", "m")]
Conductivity = Annotated[float, Sym("thermal_conductivity", "λ", "W/(m.K)")]
Surface = Annotated[float, Sym("thermal_transmittance", "h", "W/(m2.K)")]


@formula("d_2", "length", "m", source=INSULATION)
def insulated_diameter(d_1: Inner, s: Thickness) -> float:
    """Diameter over the insulation."""
    return d_1 + 2 * s


@formula("U_l", "linear_transmittance", "W/(m.K)", source=INSULATION)
def insulated_conductance(d_1: Inner, d_2: Outer, k: Conductivity, h: Surface) -> float:
    """Heat lost for each metre and kelvin through round insulation."""
    return 1 / (ln(d_2 / d_1) / (2 * PI * k) + 1 / (PI * d_2 * h))
