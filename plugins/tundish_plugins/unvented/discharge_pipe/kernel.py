"""The order of the formulas for a discharge pipe. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import any_of, drawn, larger, refuse, require, root, where
from tundish.physics import pipes
from tundish.physics.hydrostatics import head_of_pressure
from tundish.physics.water import density, dynamic_viscosity, enthalpy
from tundish.working import part
from tundish_plugins.unvented.discharge_pipe import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.unvented.discharge_pipe.contract import DischargePipeInputs, Ending

SLACK = 1 + 1e-9
"""A limit reached exactly by another route still counts as kept."""
PIECES = 20
SOLID_FUEL = "solid-fuel"
SMALL = 1e-6
"""Share of the frictionless flow at which a search starts."""

_DETAILS: dict[str, tuple[str, ...]] = {
    "gully": ("below_grating",),
    "low-level": ("height", "people_can_reach", "guarded"),
    "hopper": ("metal", "end_visible"),
    "roof": ("heat_proof", "people_can_reach", "plastic_gutter"),
    "soil-stack": ("stack_material", "mechanical_seal", "separate_branch"),
}
_STACK_DETAILS = {"pvc-u": "fully_ventilated", "other": "stack_heat_proven"}


@dataclass(frozen=True)
class _Size:
    """The size found: where it depends on the run, arrays."""

    size: float
    bore: float
    roughness: float
    bends: float
    equivalent: float
    allowed: float


def _require_ending(ending: Ending) -> None:
    """Refuse an ending whose details are missing: nothing about it is taken for granted."""
    if ending.kind == "pump":
        refuse("relief-into-pump", "/ending/kind")
    needed = list(_DETAILS.get(ending.kind, ()))
    if ending.kind == "soil-stack" and ending.stack_material in _STACK_DETAILS:
        needed.append(_STACK_DETAILS[ending.stack_material])
    if ending.kind == "roof" and ending.plastic_gutter:
        needed.append("gutter_distance")
    for name in needed:
        if getattr(ending, name) is None:
            refuse("ending-incomplete", f"/ending/{name}")


def _require_geometry(i: DischargePipeInputs) -> float:
    """Refuse a run that contradicts itself or climbs; return the height of the tundish."""
    pipe = i.discharge_pipe
    require(pipe.fall >= 0.0, "pipe-runs-upward", "/discharge_pipe/fall")
    require(
        pipe.vertical_leg <= pipe.length * SLACK,
        "vertical-leg-beyond-run",
        "/discharge_pipe/vertical_leg",
    )
    if pipe.bends == 0:  # structure
        # A run that leaves the vertical for a slope has turned at least once.
        require(pipe.vertical_leg * SLACK >= pipe.length, "bend-missing", "/discharge_pipe/bends")
    least = f.least_drop(pipe.vertical_leg, pipe.fall, pipe.length)
    if pipe.drop is None:
        require(least > 0.0, "pipe-without-drop", "/discharge_pipe/fall")
        return least
    require(pipe.drop <= pipe.length * SLACK, "drop-beyond-run", "/discharge_pipe/drop")
    require(
        pipe.drop * SLACK >= least,
        "drop-contradicts-fall",
        "/discharge_pipe/drop",
        least=(least, "length", "m"),
    )
    return pipe.drop


def _sizes(i: DischargePipeInputs, c: Context) -> tuple[float, _Size, list[dict[str, Any]]]:
    """Try the sizes of the table from the smallest up, each with its own bends."""
    table, tubes = (
        c.table("discharge-pipe-sizes").at("/relief_valve/outlet"),
        c.table("water-tubes"),
    )
    pipe, outlet = i.discharge_pipe, i.relief_valve.outlet
    n = float(pipe.bends)
    count = sum(row["outlet"] == outlet for row in table.rows())
    first = table.exact(outlet=outlet, step=1.0)
    tried: list[tuple[Any, _Size]] = []
    candidates = []
    for step in range(1, count + 1):
        row = first if step == 1 else table.exact(outlet=outlet, step=float(step))
        tube = tubes.exact(tube=row["tube"])
        name = f"{1000 * row['d2']:g} mm"
        with part("size", name):
            nz = f.bends_length(n, row["bend"])
            L_eq = f.equivalent_length(pipe.length, nz)
            spare = f.spare_length(row["allowed"], L_eq)
        fits = L_eq <= row["allowed"] * SLACK
        tried.append(
            (fits, _Size(row["d2"], tube["bore"], tube["roughness"], nz, L_eq, row["allowed"]))
        )
        candidates.append(
            {
                "name": name,
                "size": row["d2"],
                "bend_resistance": row["bend"],
                "run": pipe.length,
                "bends": nz,
                "equivalent_length": L_eq,
                "allowed": row["allowed"],
                "spare": spare,
                "fits": fits,
            }
        )
    last = tried[-1][1]
    require(
        any_of(*(fits for fits, _ in tried)),
        "run-beyond-table",
        "/discharge_pipe/length",
        size=candidates[-1]["name"],
        equivalent=(last.equivalent, "length", "m"),
        allowed=(last.allowed, "length", "m"),
    )
    return first["d1"], reduce(_smaller_if_it_fits, reversed(tried))[1], candidates


def _smaller_if_it_fits(found: tuple[Any, _Size], one: tuple[Any, _Size]) -> tuple[Any, _Size]:
    """The smaller size where it fits, else the larger one found before."""
    fits, a = one
    _, b = found
    chosen = _Size(
        where(fits, a.size, b.size),
        where(fits, a.bore, b.bore),
        where(fits, a.roughness, b.roughness),
        where(fits, a.bends, b.bends),
        where(fits, a.equivalent, b.equivalent),
        where(fits, a.allowed, b.allowed),
    )
    return True, chosen


def _head(V: float, size: _Size, rho: float, mu: float) -> float:
    """Head that a flow asks for from the tundish to the end."""
    w = pipes.velocity(V, size.bore)
    Re = pipes.reynolds_number(w, size.bore, rho, mu)
    factor = pipes.friction_factor(Re, pipes.relative_roughness(size.roughness, size.bore))
    return head_of_pressure(
        pipes.friction_drop(factor, size.equivalent, size.bore, rho, w),
        pipes.fittings_drop(f.ENTRY_AND_EXIT, rho, w),
        rho,
    )


def _curve(V_0: float, size: _Size, rho: float, mu: float) -> dict[str, Any]:
    flows = [V_0 * (k / PIECES) for k in range(1, PIECES + 1)]
    return {
        "flow": [0.0 * V_0, *flows],
        "head": [0.0 * V_0, *(_head(V, size, rho, mu) for V in flows)],
    }


def _common(i: DischargePipeInputs, D_2: float, c: Context) -> float | None:
    """Size of a pipe that several stores share: one above the largest of them."""
    if not i.other_pipes:
        return None
    own = D_2 if i.discharge_pipe.size is None else larger(D_2, i.discharge_pipe.size)
    largest = reduce(larger, i.other_pipes, own)
    table = c.table("discharge-pipe-common").at("/other_pipes")
    found: float = table.next_larger("largest", largest)["common"]
    return found


def _heat(i: DischargePipeInputs) -> float:
    """Everything that heats the store; solid fuel only with a way for its heat to go."""
    for index, source in enumerate(i.heat_sources):
        if source.kind == SOLID_FUEL and not source.heat_leak:
            refuse("solid-fuel-uncontrolled", f"/heat_sources/{index}/kind")
        if source.kind == SOLID_FUEL and source.cut_out:
            refuse("solid-fuel-cut-out", f"/heat_sources/{index}/cut_out")
    return f.total_heat([source.power for source in i.heat_sources])


def _safeguards(i: DischargePipeInputs) -> list[dict[str, Any]]:
    """Thermostat, cut-out and relief valve of each source: each strictly below the next."""
    found = []
    for source in i.heat_sources:
        trips = source.cut_out_temperature if source.cut_out else None
        above = None
        if trips is not None and i.thermostat_temperature is not None:
            above = trips > i.thermostat_temperature
        found.append(
            {
                "name": source.name,
                "cut_out_fitted": None if source.kind == SOLID_FUEL else source.cut_out,
                "above_thermostat": above,
                "below_relief": None if trips is None else trips < i.relief_valve.temperature,
            }
        )
    return found


def _stated(i: DischargePipeInputs) -> list[dict[str, Any]]:
    """What was given of all that can be judged only when it is given."""
    asked = {
        "size of the pipe from valve to tundish": i.relief_pipe.size,
        "size of the discharge pipe": i.discharge_pipe.size,
        "setting of the thermostat": i.thermostat_temperature,
        **{
            f"cut-out of {source.name}": source.cut_out_temperature
            for source in i.heat_sources
            if source.cut_out
        },
    }
    if i.other_pipes:
        asked["size of the common pipe"] = i.common_pipe_size
    return [{"name": name[:64], "given": value is not None} for name, value in asked.items()]


def _stack(ending: Ending) -> bool | None:
    if ending.kind != "soil-stack":
        return None
    if ending.stack_material == "pvc-u":
        return bool(ending.fully_ventilated)
    return ending.stack_material == "cast-iron" or bool(ending.stack_heat_proven)


def _keeps_off(ending: Ending) -> bool | None:
    """Whether a discharge in the open meets nobody; a guard helps near the ground only."""
    if ending.kind == "low-level":
        return bool(ending.guarded) or not ending.people_can_reach
    if ending.kind == "roof":
        return not ending.people_can_reach
    return None


def kernel(i: DischargePipeInputs, c: Context) -> dict[str, Any]:
    """Sizes of the discharge pipe by the table, and whether relief water runs off by gravity."""
    pipe, valve, ending = i.discharge_pipe, i.relief_valve, i.ending
    _require_ending(ending)
    materials = c.table("discharge-pipe-materials")
    d1_material = materials.at("/relief_pipe/material").exact(material=i.relief_pipe.material)
    d2_material = materials.at("/discharge_pipe/material").exact(material=pipe.material)
    if d2_material["metal"] != "yes" and pipe.bore is None:
        refuse("plastic-bore-missing", "/discharge_pipe/bore")
    h = _require_geometry(i)
    d1, size, candidates = _sizes(i, c)

    P = _heat(i)
    rho, mu = density(valve.temperature), dynamic_viscosity(valve.temperature)
    V_r = f.relief_water(
        valve.rating, enthalpy(valve.temperature), enthalpy(i.cold_temperature), rho
    )
    H = _head(V_r, size, rho, mu)
    V_0 = f.flow_without_friction(h, size.bore)
    V_cap = root(
        lambda flow: f.head_over(_head(flow, size, rho, mu), h),
        SMALL * V_0,
        V_0,
        what="flow that fills the tundish",
    )
    known = c.table("discharge-endings").at("/ending/kind").exact(ending=ending.kind)
    return {
        "d1_size": d1,
        "d2_size": size.size,
        "d2_bore": size.bore,
        "equivalent_length": size.equivalent,
        "allowed_length": size.allowed,
        "spare_length": f.spare_length(size.allowed, size.equivalent),
        "longest_run": f.longest_run(size.allowed, size.bends),
        "candidates": candidates,
        "common_pipe_size": _common(i, size.size, c),
        "sources": _safeguards(i),
        "stated": _stated(i),
        "total_heat_input": P,
        "rating_needed": f.rating_needed(c.value("relief-valve-rating-ratio-least"), P),
        "relief_flow": V_r,
        "head_available": h,
        "head_needed": H,
        "capacity": V_cap,
        "capacity_margin": f.capacity_margin(V_cap, V_r),
        "d1_metal": d1_material["metal"] == "yes",
        "d2_stands_heat": d2_material["discharge"] == "yes"
        or (d2_material["discharge"] == "if-proven" and pipe.heat_proven),
        "discharge_noticed": i.discharge_alarm or not i.vulnerable_occupants,
        "ending_recognised": known["recognised"] == "yes",
        "ending_keeps_off": _keeps_off(ending),
        "stack_stands_heat": _stack(ending),
        "notifiable": i.store_volume * SLACK >= c.value("unvented-notified-volume-least"),
        "curve": drawn(_curve, V_0, size, rho, mu),
    }
