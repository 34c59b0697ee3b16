"""Edge insulation of a slab on the ground; the slab itself is that of the U-value."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import ln
from tundish.physics.pipes import PI
from tundish.sources import Source
from tundish_plugins.heat_loss.u_value.formulas import (
    EN_ISO_13370,
    Dimension,
    Equivalent,
    Ground,
)

EDGE: Final = Source(
    "en-iso-13370-edge",
    kind="standard",
    document="EN ISO 13370, Heat transfer via the ground",
    edition="2007",
    locator="edge insulation, horizontal and vertical",
    confirmed="memory",
)

Extent = Annotated[float, Sym("length", "D", "m")]
Path = Annotated[float, Sym("length", "s", "m")]
Area = Annotated[float, Sym("area", "A", "m2")]
Transmittance = Annotated[float, Sym("thermal_transmittance", "U", "W/(m2.K)")]
Plain = Annotated[float, Sym("thermal_transmittance", "U_0", "W/(m2.K)")]
Added = Annotated[float, Sym("length", "d_e", "m")]
Psi = Annotated[float, Sym("linear_transmittance", "ψ_e", "W/(m.K)")]


@formula("d_e", "length", "m", source=EDGE)
def added_thickness(
    R_n: Annotated[float, Sym("thermal_resistance", "R_n", "m2.K/W")],
    lam_g: Ground,
    d_n: Annotated[float, Sym("length", "d_n", "m")],
) -> float:
    """Thickness of ground the insulation adds, the ground it displaces taken off."""
    return R_n * lam_g - d_n


@formula("s", "length", "m", source=EDGE)
def path_beside(D: Extent) -> float:
    """Reach of a vertical insulation: down one side and up the other."""
    return 2 * D


@formula("ψ_e", "linear_transmittance", "W/(m.K)", source=EDGE)
def edge_transmittance(lam_g: Ground, s: Path, d_t: Equivalent, d_e: Added) -> float:
    """Loss along the perimeter that edge insulation takes off (negative)."""
    return -lam_g / PI * (ln(s / d_t + 1) - ln(s / (d_t + d_e) + 1))


@formula("U", "thermal_transmittance", "W/(m2.K)", source=EDGE)
def with_edge(U_0: Plain, psi: Psi, B: Dimension) -> float:
    """Thermal transmittance of the floor with its edge insulation."""
    return U_0 + 2 * psi / B


@formula("H", "thermal_conductance", "W/K", source=EN_ISO_13370)
def floor_loss(A: Area, U: Transmittance) -> float:
    """Loss of the whole floor, yearly mean."""
    return A * U


@formula("Φ", "power", "W", source=EN_ISO_13370)
def mean_loss(
    H: Annotated[float, Sym("thermal_conductance", "H", "W/K")],
    dT: Annotated[float, Sym("temperature_difference", "Δθ", "K")],
) -> float:
    """Loss of the whole floor, mean of the year."""
    return H * dT


@formula("ΔH", "thermal_conductance", "W/K", source=EN_ISO_13370)
def saving(A: Area, U_0: Plain, U: Transmittance) -> float:
    """Loss the edge insulation saves."""
    return A * (U_0 - U)


@formula("b", "length", "m", source=EN_ISO_13370)
def half_dimension(B: Dimension) -> float:
    """Half the characteristic dimension: from the edge to the middle of a long floor."""
    return B / 2
