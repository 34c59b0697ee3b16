"""The order of the formulas for a U-value. Floats or arrays."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Any

from tundish.functions import absolute, refuse, require, total
from tundish.working import part, silent
from tundish_plugins.heat_loss.u_value import formulas as f
from tundish_plugins.heat_loss.u_value.contract import CONDUCTIVITY
from tundish_plugins.heat_loss.u_value.ground import slab, suspended

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.heat_loss.u_value.contract import Layer, UValueInputs

MOST_PATHS = 64
_SUM_SLACK = 1e-6
_LEAST_CONDUCTIVITY = CONDUCTIVITY.bounds("W/(m.K)")[0] or 0.0
_KINDS = ("layers", "window", "slab", "suspended")
_PARTS = {
    "layers": ("wall", "roof", "floor"),
    "window": ("window",),
    "slab": ("floor",),
    "suspended": ("floor",),
}
_DIRECTIONS = {"wall": "horizontal", "roof": "up", "floor": "down"}


def _resistance(layer: Any, thickness: float | None, where: str) -> float:
    """Resistance of a layer or of one of its parts: given, or from thickness and conductivity."""
    if layer.resistance is not None:
        if layer.conductivity is not None:
            refuse("layer-given-twice", f"{where}/resistance")
        if thickness is not None:
            with silent():
                most = f.layer_resistance(thickness, _LEAST_CONDUCTIVITY)
            require(
                layer.resistance <= most,
                "resistance-beyond-thickness",
                f"{where}/resistance",
                most=(most, "thermal_resistance", "m2.K/W"),
            )
        return layer.resistance  # type: ignore[no-any-return]
    if layer.conductivity is None:
        refuse("layer-without-resistance", f"{where}/conductivity")
    if thickness is None:
        refuse("layer-without-thickness", f"{where}/thickness")
    assert thickness is not None
    return f.layer_resistance(thickness, layer.conductivity)


def _parts(layer: Layer, where: str) -> tuple[list[float], list[float]]:
    """Shares and resistances of a layer's parts."""
    assert layer.parts is not None
    if layer.conductivity is not None or layer.resistance is not None:
        refuse("layer-given-twice", f"{where}/parts")
    shares = [item.fraction for item in layer.parts]
    with silent():
        whole = total(shares)
    require(
        absolute(whole - 1.0) <= _SUM_SLACK, "fractions-do-not-sum", f"{where}/parts", sum=whole
    )
    found = []
    for index, item in enumerate(layer.parts):
        here = f"{where}/parts/{index}"
        if layer.thickness is None and item.resistance is None:
            refuse("layer-without-thickness", f"{where}/thickness")
        R = _resistance(item, layer.thickness, here)
        require(R > 0.0, "part-without-resistance", here)
        found.append(R)
    return shares, found


def _layers(i: UValueInputs, heat_flow: str, c: Context) -> dict[str, Any]:
    assert i.layers is not None
    R_si = c.table("surface-resistances").exact(heat_flow=heat_flow)["inside"]
    R_se = R_si if i.outer_face == "sheltered" else c.value("surface-resistance-outside")
    R_u = 0.0 if i.space_resistance is None else i.space_resistance
    stacks: list[tuple[list[float], list[float]]] = []
    for index, layer in enumerate(i.layers):
        where = f"/layers/{index}"
        with part("layer", layer.name):
            if layer.parts is None:
                stacks.append(([1.0], [_resistance(layer, layer.thickness, where)]))
            else:
                stacks.append(_parts(layer, where))
    count = 1
    for shares, _ in stacks:
        count *= len(shares)
    if count > MOST_PATHS:  # structure
        refuse("too-many-paths", "/layers", paths=count)
    if count == 1:
        R_T = f.in_series(R_si, [R[0] for _, R in stacks], R_se)
        U = f.transmittance(R_T, R_u, i.correction)
        return {"u_value": U, "resistance": R_T, "heat_flow": heat_flow}
    path_shares, path_resistances = [], []
    for number, path in enumerate(product(*(range(len(shares)) for shares, _ in stacks)), start=1):
        with part("path", str(number)):
            share: Any = 1.0
            for (shares, _), k in zip(stacks, path, strict=True):
                if len(shares) > 1:  # structure
                    share = f.path_share(share, shares[k])
            path_shares.append(share)
            path_resistances.append(
                f.in_series(R_si, [R[k] for (_, R), k in zip(stacks, path, strict=True)], R_se)
            )
    upper = f.side_by_side(path_shares, path_resistances)
    lower = f.in_series(
        R_si,
        [f.side_by_side(shares, R) if len(R) > 1 else R[0] for shares, R in stacks],  # structure
        R_se,
    )
    R_T = f.combined(upper, lower)
    require(upper <= 1.5 * lower, "combined-method-out-of-range", "/layers")
    return {
        "u_value": f.transmittance(R_T, R_u, i.correction),
        "resistance": R_T,
        "upper_limit": upper,
        "lower_limit": lower,
        "largest_error": f.largest_error(upper, lower, R_T),
        "paths": count,
        "heat_flow": heat_flow,
    }


def _corrected(floor: dict[str, Any], correction: float) -> dict[str, Any]:
    """Put the correction on the U-value of a floor on the ground."""
    return {**floor, "u_value": f.corrected(floor["u_value"], correction), "heat_flow": "down"}


def _element(i: UValueInputs) -> str:
    """Return which one element is given; refuse what does not go with it."""
    given = [name for name in _KINDS if getattr(i, name) is not None]
    if len(given) != 1:
        refuse("one-element-expected", f"/{given[1] if given else 'layers'}")
    (element,) = given
    if element != "layers":
        for name in ("heat_flow", "outer_face", "space_resistance"):
            if getattr(i, name) is not None:
                refuse("field-not-applicable", f"/{name}", element=element)
    return element


def _direction(i: UValueInputs, element: str) -> str:
    """Direction of heat flow through the element: by what it is, else as given."""
    if i.part is None:
        return i.heat_flow or "horizontal"
    part = i.part.removeprefix("improved-")
    if part not in _PARTS[element]:
        refuse("part-contradicts", "/part", part=i.part, given=element)
    direction = _DIRECTIONS.get(part, "horizontal")
    if i.heat_flow not in {None, direction}:
        refuse("part-contradicts", "/heat_flow", part=i.part, given=f"heat flow {i.heat_flow}")
    return direction


def kernel(i: UValueInputs, c: Context) -> dict[str, Any]:
    """U-value of layers, a window, a slab or a suspended floor."""
    element = _element(i)
    direction = _direction(i, element)
    found: dict[str, Any] = dict.fromkeys(
        (
            "resistance",
            "upper_limit",
            "lower_limit",
            "largest_error",
            "paths",
            "characteristic_dimension",
            "equivalent_thickness",
            "ground_u_value",
            "void_u_value",
            "heat_flow",
        )
    )
    if i.window is not None:
        w = i.window
        U = f.window(
            w.glass_area,
            w.glass_u_value,
            w.frame_area,
            w.frame_u_value,
            w.edge_length,
            w.edge_transmittance,
        )
        found["u_value"] = f.corrected(U, i.correction)
    elif i.slab is not None:
        found |= _corrected(slab(i.slab, c), i.correction)
    elif i.suspended is not None:
        found |= _corrected(suspended(i.suspended, c), i.correction)
    else:
        found |= _layers(i, direction, c)
    found["compared"] = i.part
    return found
