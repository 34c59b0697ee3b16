"""A pump's curve given by points, and what it drives: straight between points, never extended."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Protocol

from tundish.formula import Sym, formula
from tundish.functions import choose, require
from tundish.physics.hydrostatics import HYDROSTATICS, Density, g

if TYPE_CHECKING:
    from collections.abc import Sequence

Flow = Annotated[float, Sym("volume_flow", "V", "m3/s")]
Head = Annotated[float, Sym("head", "H", "m")]
PumpHead = Annotated[float, Sym("head", "H_p", "m")]

Points = tuple[list[Any], list[Any]]
"""Flows and heads of the points, in order of rising flow."""


class Point(Protocol):
    """One point of a pump's curve."""

    @property
    def flow(self) -> float:
        """Flow of the point."""

    @property
    def head(self) -> float:
        """Head at this flow."""


@formula("H_p", "head", "m", source=HYDROSTATICS)
def between_points(
    V: Flow,
    V_a: Annotated[float, Sym("volume_flow", "V_a", "m3/s")],
    H_a: Annotated[float, Sym("head", "H_a", "m")],
    V_b: Annotated[float, Sym("volume_flow", "V_b", "m3/s")],
    H_b: Annotated[float, Sym("head", "H_b", "m")],
) -> float:
    """Head of the pump, on the straight line between two points of its curve."""
    return H_a + (V - V_a) / (V_b - V_a) * (H_b - H_a)


@formula("ΔH", "head", "m", source=HYDROSTATICS)
def spare_head(H_p: PumpHead, H: Head) -> float:
    """Head that the pump has to spare; nothing at the duty point."""
    return H_p - H


@formula("H", "head", "m", source=HYDROSTATICS)
def head_of(dp: Annotated[float, Sym("pressure_difference", "Δp", "Pa")], rho: Density) -> float:
    """Head of a pressure difference."""
    return dp / (rho * g)


@formula("Δp_p", "pressure_difference", "Pa", source=HYDROSTATICS)
def pressure_of(H_p: PumpHead, rho: Density) -> float:
    """Pressure difference of a head."""
    return H_p * rho * g


def curve_of(points: Sequence[Point], field: str, *, level: bool = False) -> Points:
    """Read a curve: flow rises from point to point and head falls (or, ``level``, stays).

    Refuses ``pump-curve-flow-not-rising`` and ``pump-curve-not-falling`` at ``field``.
    """
    flows = [point.flow for point in points]
    heads = [point.head for point in points]
    for k in range(1, len(flows)):
        where = f"{field}/{k}"
        require(flows[k - 1] < flows[k], "pump-curve-flow-not-rising", f"{where}/flow")
        falls = heads[k] <= heads[k - 1] if level else heads[k] < heads[k - 1]
        require(falls, "pump-curve-not-falling", f"{where}/head")
    return flows, heads


def _first_piece(V: float, flows: list[Any], heads: list[Any]) -> float:
    return between_points(V, flows[0], heads[0], flows[1], heads[1])


def _later_pieces(V: float, flows: list[Any], heads: list[Any]) -> float:
    return pump_head(V, flows[1:], heads[1:])


def pump_head(V: float, flows: list[Any], heads: list[Any]) -> float:
    """Head of the pump on its curve; never called before the first point or beyond the last."""
    if len(flows) == 2:
        return _first_piece(V, flows, heads)
    found: float = choose(V <= flows[1], _first_piece, _later_pieces, V, flows, heads)
    return found
