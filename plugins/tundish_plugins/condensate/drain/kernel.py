"""The order of the formulas for a condensate drain. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import choose, drawn, refuse, require
from tundish.physics.hydrostatics import static_pressure
from tundish.physics.water import density, dynamic_viscosity, specific_heat
from tundish.working import part, silent
from tundish_plugins.condensate.drain import formulas as f
from tundish_plugins.condensate.pump_head.formulas import inflow

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.condensate.drain.contract import (
        Appliance,
        DrainInputs,
        Frost,
        Segment,
    )

_ACCEPTED, _REFUSED = "accepted", "refused"
_STACKS = {"internal-stack", "external-stack"}
_OUTSIDE = "outside"
_GULLY, _SOAKAWAY = "external-gully", "soakaway"


# --- what is refused ------------------------------------------------------------------------------


def _check_pipe(i: DrainInputs, c: Context) -> list[bool]:
    """Refuse a pipe that cannot drain or will not last; which materials need no asking."""
    table = c.table("condensate-drain-materials")
    accepted = []
    for index, item in enumerate(i.segments):
        where = f"/segments/{index}"
        row = table.at(f"{where}/material").exact(material=item.material)
        if row["standing"] == _REFUSED:
            refuse("metal-drain", f"{where}/material", material=item.material)
        accepted.append(row["standing"] == _ACCEPTED)
        require(
            item.drop >= 0.0,
            "rising-section",
            f"{where}/drop",
            stretch=item.name,
            rise=(-item.drop, "length", "mm"),
        )
        require(item.drop <= item.length, "drop-more-than-length", f"{where}/drop")
        if item.insulated and item.insulation_thickness is not None:
            require(
                item.insulation_thickness > 0.0,
                "insulation-contradicts",
                f"{where}/insulation_thickness",
                stretch=item.name,
            )
    return accepted


def _check_end(i: DrainInputs, place: str) -> None:
    """Refuse an end of which the deciding measure is not known."""
    if place == _OUTSIDE and all(item.place != _OUTSIDE for item in i.segments):
        refuse("outside-stretch-missing", "/segments", termination=i.termination)
    if i.termination in _STACKS and i.height_above_bend is None:
        refuse("height-above-bend-missing", "/height_above_bend")
    if i.termination == _GULLY and i.below_grating is None:
        refuse("below-grating-missing", "/below_grating")
    if i.termination == _SOAKAWAY:
        if i.soakaway is None:
            refuse("soakaway-missing", "/soakaway")
        assert i.soakaway is not None
        if i.soakaway.soil == "clay":
            refuse("soakaway-in-clay", "/soakaway/soil")


def _few_storeys(i: DrainInputs, c: Context) -> bool:
    """Whether the stack is known to serve no more storeys than its rule is for."""
    if i.termination not in _STACKS or i.storeys is None:
        return False
    return i.storeys <= c.value("condensate-stack-storeys-most")


# --- appliances -----------------------------------------------------------------------------------


def _appliance(item: Appliance, index: int, rho: float, c: Context) -> dict[str, Any]:
    held = left = None
    if item.own_trap:
        if item.seal_depth is None:
            refuse("seal-depth-missing", f"/appliances/{index}/seal_depth")
        assert item.seal_depth is not None
        held = static_pressure(rho, item.seal_depth)
        if item.flue_pressure is not None:
            left = f.seal_left(item.seal_depth, item.flue_pressure, rho)
    return {
        "name": item.name,
        "inflow": inflow(
            c.value(f"condensate-yield-{item.heat_input.basis}"), item.heat_input.value
        ),
        "seal_pressure": held,
        "seal_left": left,
        "flue_pressure_known": item.flue_pressure is not None,
    }


# --- the pipe -------------------------------------------------------------------------------------


def _running(slope: float, d: float, k: float, rho: float, mu: float) -> float:
    return f.full_bore_flow(
        f.laminar_velocity(slope, d, rho, mu), f.turbulent_velocity(slope, d, k, rho, mu), d
    )


def _standing(slope: float, d: float, k: float, rho: float, mu: float) -> float:
    del d, k, rho, mu
    return 0.0 * slope


def _freezing(item: Segment, index: int, frost: Frost, rho: float, c_p: float) -> tuple[Any, Any]:
    """Time to cool, and to freeze a share; nothing of a pipe not fully known."""
    if item.outside_diameter is None:
        return None, None
    D, d = item.outside_diameter, item.bore
    require(d < D, "outside-diameter-too-small", f"/segments/{index}/outside_diameter")
    s_i = item.insulation_thickness
    if s_i is None:
        if item.insulated:  # of no known thickness: the times of a bare pipe would mislead
            return None, None
        s_i = 0.0 * item.bore
    U = f.loss_of_pipe(
        d,
        D,
        s_i,
        frost.pipe_conductivity,
        frost.insulation_conductivity,
        frost.surface_coefficient,
    )
    T_a = frost.air_temperature
    return (
        f.cooling_time(rho, c_p, d, U, frost.start_temperature, T_a),
        f.freezing_time(frost.ice_share, rho, d, U, T_a),
    )


def _profile(lengths: list[float], drops: list[float]) -> dict[str, Any]:
    nothing = 0.0 * (lengths[0] + drops[0])
    distance, height = [nothing], [nothing]
    for L, z in zip(lengths, drops, strict=True):
        distance.append(distance[-1] + L)
        height.append(height[-1] - z)
    return {"distance": distance, "height": height}


def _segment(i: DrainInputs, index: int, accepted: bool, water: tuple[Any, ...]) -> dict[str, Any]:
    item, outside = i.segments[index], i.segments[index].place != "heated"
    rho, mu, c_p = water
    slope = f.fall(item.drop, item.length)
    cooling = freezing = None
    if outside and i.frost is not None:
        cooling, freezing = _freezing(item, index, i.frost, rho, c_p)
    with silent():
        below = f.together([other.drop for other in i.segments[: index + 1]])
    return {
        "name": item.name,
        "counts_as_outside": outside,
        "fall": slope,
        "below_start": below,
        "as_wide_as_before": (
            item.bore >= i.segments[index - 1].bore * (1 - 1e-9)
            if index > 0  # structure
            else True
        ),
        "material_accepted": accepted,
        "capacity": choose(
            slope > 0.0,
            _running,
            _standing,
            slope,
            item.bore,
            i.roughness,
            rho,
            mu,
            why="the stretch falls",
        ),
        "cooling_time": cooling,
        "freezing_time": freezing,
    }


def kernel(i: DrainInputs, c: Context) -> dict[str, Any]:
    """Judge a condensate drain from trap to termination."""
    accepted = _check_pipe(i, c)
    end = c.table("condensate-terminations").at("/termination").exact(termination=i.termination)
    if end["standing"] == _REFUSED:
        refuse("termination-not-allowed", "/termination", termination=i.termination)
    _check_end(i, end["place"])
    most = c.value("condensate-drain-outside-length-most")
    outside = [item.length for item in i.segments if item.place != "heated"]
    L_o = f.together(outside) if outside else 0.0 * i.segments[0].length
    require(
        L_o <= most * (1 + 1e-9),
        "outside-run-too-long",
        "/segments",
        length=(L_o, "length", "m"),
        most=(most, "length", "m"),
    )
    T = i.condensate_temperature
    water = density(T), dynamic_viscosity(T), specific_heat(T)
    appliances = []
    for index, appliance in enumerate(i.appliances):
        with part("appliance", appliance.name):
            appliances.append(_appliance(appliance, index, water[0], c))
    segments = []
    for index, segment in enumerate(i.segments):
        with part("stretch", segment.name):
            segments.append(_segment(i, index, accepted[index], water))
    lengths = [item.length for item in i.segments]
    drops = [item.drop for item in i.segments]
    return {
        "flow": f.flow_together([item["inflow"] for item in appliances]),
        "seal_least": end["seal"],
        "least_fall_by_angle": f.fall_of_angle(c.value("condensate-drain-angle-least")),
        "total_length": f.together(lengths),
        "outside_length": L_o,
        "outside_length_most": most,
        "total_drop": f.together(drops),
        "trap_in_the_warm": i.trap_place == "heated",
        "termination_accepted": end["standing"] == _ACCEPTED,
        "how_to_end": end["how"],
        "joins_stack": i.termination in _STACKS,
        "storeys_within_rule": _few_storeys(i, c),
        "appliances": appliances,
        "segments": segments,
        "soakaway": (
            None
            if i.termination != _SOAKAWAY or i.soakaway is None
            else {"soil_known": i.soakaway.soil != "unknown"}
        ),
        "profile": drawn(_profile, lengths, drops),
    }
