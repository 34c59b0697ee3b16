"""Floors on the ground, shared by the calculations that have them. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import choose, require
from tundish_plugins.heat_loss.u_value import formulas as f
from tundish_plugins.heat_loss.u_value.contract import DIMENSION

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.heat_loss.u_value.contract import Slab, Suspended

_MOST_DIMENSION = DIMENSION.bounds("m")[1] or 0.0


def _dimension(floor: Slab | Suspended, where: str) -> float:
    """Characteristic dimension, within what the formulas are meant for."""
    B = f.characteristic_dimension(floor.area, floor.perimeter)
    require(
        B <= _MOST_DIMENSION,
        "perimeter-too-short",
        f"{where}/perimeter",
        dimension=(B, "length", "m"),
        most=(_MOST_DIMENSION, "length", "m"),
    )
    return B


def slab(slab: Slab, c: Context) -> dict[str, Any]:
    """U-value of a slab on the ground."""
    R_si = c.table("surface-resistances").exact(heat_flow="down")["inside"]
    R_se = c.value("surface-resistance-outside")
    lam = c.table("ground-conductivities").exact(ground=slab.ground)["conductivity"]
    B = _dimension(slab, "/slab")
    d_t = f.equivalent_thickness(slab.wall_thickness, lam, R_si, slab.floor_resistance, R_se)
    U = choose(
        d_t < B,
        f.slab_little_insulated,
        f.slab_well_insulated,
        lam,
        B,
        d_t,
        why="equivalent thickness below the characteristic dimension",
    )
    return {
        "u_value": U,
        "characteristic_dimension": B,
        "equivalent_thickness": d_t,
    }


def suspended(item: Suspended, c: Context) -> dict[str, Any]:
    """U-value of a suspended floor with its void."""
    R_si = c.table("surface-resistances").exact(heat_flow="down")["inside"]
    R_se = c.value("surface-resistance-outside")
    lam = c.table("ground-conductivities").exact(ground=item.ground)["conductivity"]
    B = _dimension(item, "/suspended")
    d_g = f.equivalent_thickness(item.wall_thickness, lam, R_si, item.ground_resistance, R_se)
    U_g = choose(
        d_g < B,
        f.slab_little_insulated,
        f.slab_well_insulated,
        lam,
        B,
        d_g,
        why="equivalent thickness below the characteristic dimension",
    )
    U_x = f.void_transmittance(
        item.height, item.wall_u_value, B, item.opening, item.wind, item.wind_shielding
    )
    U_f = f.suspended_deck(item.floor_resistance, R_si)
    return {
        "u_value": f.suspended_floor(U_f, U_g, U_x),
        "characteristic_dimension": B,
        "equivalent_thickness": d_g,
        "ground_u_value": U_g,
        "void_u_value": U_x,
    }
