"""The order of the formulas for a ground floor. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, refuse, require
from tundish.working import part, silent
from tundish_plugins.heat_loss.ground_floor import formulas as f
from tundish_plugins.heat_loss.u_value.formulas import layer_resistance
from tundish_plugins.heat_loss.u_value.ground import slab, suspended

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.heat_loss.ground_floor.contract import Edge, GroundFloorInputs

PIECES = 16


def _edge_curve(reach: Any, lam: float, d_t: float, d_e: float, U_0: float, B: float) -> Any:
    """Draw the U-value of the floor by the extent of its edge insulation, to half the floor."""
    extent = [f.half_dimension(B) * (k / PIECES) for k in range(1, PIECES + 1)]
    return {
        "extent": extent,
        "u_value": [
            f.with_edge(U_0, f.edge_transmittance(lam, reach(D), d_t, d_e), B) for D in extent
        ],
    }


def _edge(edge: Edge, area: float, lam: float, floor: dict[str, Any]) -> dict[str, Any]:
    """U-value with edge insulation, and what it does."""
    U_0, B, d_t = (
        floor[name] for name in ("u_value", "characteristic_dimension", "equivalent_thickness")
    )
    with silent():
        most = f.half_dimension(B)
    require(edge.extent <= most, "edge-beyond-floor", "/edge/extent", most=(most, "length", "m"))
    require(
        edge.conductivity < lam,
        "edge-no-better-than-ground",
        "/edge/conductivity",
        ground=(lam, "thermal_conductivity", "W/(m.K)"),
    )
    d_e = f.added_thickness(
        layer_resistance(edge.thickness, edge.conductivity), lam, edge.thickness
    )
    vertical = edge.position == "vertical"
    reach: Any = f.path_beside if vertical else lambda D: D
    psi = f.edge_transmittance(lam, reach(edge.extent), d_t, d_e)
    U = f.with_edge(U_0, psi, B)

    def curve(*given: Any) -> Any:
        return _edge_curve(reach, *given)

    return {
        "u_value": U,
        "edge": {
            "equivalent_thickness": d_e,
            "transmittance": psi,
            "saving": f.saving(area, U_0, U),
            "curve": drawn(curve, lam, d_t, d_e, U_0, B),
        },
    }


def kernel(i: GroundFloorInputs, c: Context) -> dict[str, Any]:
    """U-value and loss of a slab, with or without edge insulation, or of a suspended floor."""
    if (i.slab is None) == (i.suspended is None):
        refuse("one-floor-expected", "/slab" if i.slab is None else "/suspended")
    if i.edge is not None and i.slab is None:
        refuse("edge-without-slab", "/edge")
    found: dict[str, Any] = {"ground_u_value": None, "void_u_value": None, "edge": None}
    if i.slab is not None:
        area = i.slab.area
        found |= slab(i.slab, c)
    else:
        assert i.suspended is not None
        area = i.suspended.area
        found |= suspended(i.suspended, c)
    found["plain_u_value"] = found["u_value"]
    if i.edge is not None:
        assert i.slab is not None
        lam = c.table("ground-conductivities").exact(ground=i.slab.ground)["conductivity"]
        with part("edge"):
            found |= _edge(i.edge, area, lam, found)
    H = f.floor_loss(area, found["u_value"])
    return {
        **found,
        "loss": H,
        "mean_loss": None if i.mean_difference is None else f.mean_loss(H, i.mean_difference),
        "compared": i.part,
    }
