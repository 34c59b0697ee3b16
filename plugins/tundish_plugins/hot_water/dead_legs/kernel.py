"""The order of the formulas for dead legs. Floats or arrays."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import larger, refuse, require
from tundish.physics import pipes
from tundish.physics.water import density, enthalpy, specific_heat
from tundish.working import part
from tundish_plugins.hot_water import hot_pipes
from tundish_plugins.hot_water.dead_legs import formulas as f
from tundish_plugins.hot_water.tubes import size_of

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.hot_water.dead_legs.contract import DeadLegsInputs, Leg, LegPipe

BLACK = 1.0
"""Emissivity that no surface exceeds."""
COPPER = "copper"
"""Material of every tube for hot water that the table names."""
SHORTEST = "hot-tap-time-water-regulations-most"


def _material(pipe: LegPipe, field: str) -> str:
    """Material of the wall: by the tube's name, or as told."""
    if pipe.tube is not None:
        if pipe.material not in {None, COPPER}:
            refuse("material-contradicts", f"{field}/material", tube=pipe.tube)
        return COPPER
    if pipe.material is None:
        refuse("material-missing", f"{field}/material")
    assert pipe.material is not None
    return pipe.material


def _wall_heat(material: str, c: Context) -> float:
    """Heat capacity of the wall's material for each cubic metre."""
    if material == COPPER:
        return c.value("tube-wall-heat-copper")
    found: float = c.table("tube-wall-heat").exact(material=material)["heat_capacity"]
    return found


def _leg(leg: Leg, i: DeadLegsInputs, c: Context, field: str) -> dict[str, Any]:
    """Content, waits, limits and waste of one leg."""
    T_h, T_s = i.hot_temperature, i.standing_temperature
    contents, walls, losses, bare, widths, velocities = [], [], [], [], [], []
    for k, pipe in enumerate(leg.pipes):
        here = f"{field}/pipes/{k}"
        d_a, d = size_of(pipe, c, here)
        heat = _wall_heat(_material(pipe, here), c)
        contents.append(f.tube_content(d, pipe.length))
        velocities.append(pipes.velocity(leg.flow, d))
        walls.append(f.wall_heat_capacity(d_a, d, pipe.length, heat))
        losses.append(hot_pipes.pipe_loss(hot_pipes.bare_pipe(d_a, BLACK, T_h, T_s), pipe.length))
        if not pipe.insulated:
            bare.append(pipe.length)
            widths.append(d_a)
    V = f.whole_volume(contents)
    rho, h_h, h_s = density(T_h), enthalpy(T_h), enthalpy(T_s)
    V_w = f.wall_water(walls, T_h, T_s, rho, h_h, h_s)
    t_p, t_w = f.plug_time(V, leg.flow), f.wall_time(V_w, leg.flow)
    fastest = reduce(larger, velocities)
    drawable = None
    if c.has("water-velocity-single-most"):
        drawable = fastest <= c.value("water-velocity-single-most") * (1 + 1e-9)
    limit = None
    if bare and c.has("bare-hot-pipe-length-most"):
        widest = reduce(f.wider, widths)
        limit = c.table("bare-hot-pipe-length-most").next_larger("up_to", widest)["most"]
    waste = None if leg.uses is None else f.daily_waste(leg.uses, V, V_w)
    return {
        "name": leg.name,
        "length": f.whole_length([pipe.length for pipe in leg.pipes]),
        "content": V,
        "plug_time": t_p,
        "wall_time": t_w,
        "wait": f.wait(t_p, t_w),
        "velocity": fastest,
        "can_be_drawn": drawable,
        "arrival_temperature": f.arrival_temperature(
            T_h, T_s, f.whole_loss(losses), leg.flow, rho, specific_heat(T_h)
        ),
        "needed_flow": f.needed_flow(V, V_w, c.value(SHORTEST)) if c.has(SHORTEST) else None,
        "bare_length": f.whole_length(bare) if bare else None,
        "bare_limit": limit,
        "daily_waste": waste,
        "yearly_heat": (
            None if waste is None else f.yearly_heat(f.yearly_waste(waste), rho, h_h, h_s)
        ),
    }


def kernel(i: DeadLegsInputs, c: Context) -> dict[str, Any]:
    """Every leg, and their sums."""
    T_h, T_s = i.hot_temperature, i.standing_temperature
    require(T_s < T_h, "standing-not-below-hot", "/standing_temperature")
    legs = []
    for k, leg in enumerate(i.legs):
        with part("leg", leg.name):
            legs.append(_leg(leg, i, c, f"/legs/{k}"))
    day = f.whole_volume([leg["daily_waste"] for leg in legs if leg["daily_waste"] is not None])
    year = f.yearly_waste(day)
    return {
        "content": f.whole_volume([leg["content"] for leg in legs]),
        "longest_wait": reduce(f.longer_wait, [leg["wait"] for leg in legs]),
        "daily_waste": day,
        "yearly_waste": year,
        "yearly_heat": f.yearly_heat(year, density(T_h), enthalpy(T_h), enthalpy(T_s)),
        "legs": legs,
    }
