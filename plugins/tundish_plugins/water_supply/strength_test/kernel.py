"""The order of the formulas for a water test. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, drawn, pick, refuse, require
from tundish.physics.water import density
from tundish.working import part
from tundish_plugins.water_supply import elasticity as e
from tundish_plugins.water_supply.conversion_pressure.formulas import pressure_ratio, proof_needed
from tundish_plugins.water_supply.strength_test import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.water_supply.strength_test.contract import (
        Pipe,
        Stage,
        StrengthTestInputs,
        Tested,
    )

SLACK = 1e-9
RIGID = "rigid-pipe"
HUNDRED_LITRES = 0.1


def _pipe(pipe: Pipe, c: Context) -> tuple[Any, Any, Any]:
    """Give, Poisson ratio and expansion of the pipe."""
    if pipe.tube is not None:
        if pipe.bore is not None or pipe.wall is not None:
            refuse("tube-size-twice", "/pipe/tube")
        tube = c.table("water-tubes").at("/pipe/tube").exact(tube=pipe.tube)
        d, s = tube["bore"], tube["wall"]
    else:
        if pipe.bore is None or pipe.wall is None:
            refuse("tube-size-missing", "/pipe/tube")
        d, s = pipe.bore, pipe.wall
    row = c.table("pipe-elasticity").at("/pipe/material").exact(material=pipe.material)
    return e.pipe_give(row["modulus"], row["poisson"], d, s), row["poisson"], row["expansion"]


def _per_kelvin(T: float, pipe: tuple[Any, Any, Any]) -> float:
    D, nu, alpha = pipe
    return e.pressure_per_kelvin(e.water_expansion(T), alpha, nu, e.compressibility(T), D)


def _plan(c: Context) -> list[dict[str, Any]]:
    """Read the stages of the chosen procedure from the region's table."""
    table = c.table("strength-test-rigid" if c.method == RIGID else "strength-test-plastic")
    names = [name for name in table.keys("procedure") if name == c.method]
    rows = [table.exact(procedure=c.method, stage=str(n + 1)) for n in range(len(names))]
    return [
        {
            "name": f"stage {n + 1}",
            "task": str(row["what"]),
            "share": float(row["share"]),
            "duration": row["duration"],
            "drop": row["drop"] if row.has("drop") else None,
        }
        for n, row in enumerate(rows)
    ]


def _part(
    p: Tested, i: StrengthTestInputs, rho: float, p_t: float, highest: Any, place: str
) -> dict[str, Any]:
    inside = all_of(p.level >= i.lowest_level, p.level <= i.highest_level)
    require(inside, "part-outside-levels", f"{place}/level")
    p_k = e.static_pressure(p_t, rho, p.level, i.lowest_level)
    stands = p_k <= p.rating * (1 + SLACK)
    if not p.isolated:
        require(
            stands, "test-above-rating", f"{place}/rating", pressure=(p_k, "pressure_gauge", "bar")
        )
    read = None
    if highest is not None and not p.isolated:
        read = e.static_pressure(highest, rho, p.level, i.gauge_level)
    return {
        "name": p.name,
        "test_pressure": p_k,
        "spare": f.spare(p.rating, p_k),
        "in_test": not p.isolated,
        "left_out": stands if p.isolated else None,
        "highest_reading": read,
    }


def _read(
    s: Stage,
    stage: dict[str, Any],
    i: StrengthTestInputs,
    pipe: tuple[Any, Any, Any] | None,
    place: str,
) -> dict[str, Any]:
    """Put what was read beside what the stage asks for."""
    stage["start"], stage["duration"] = s.start_pressure, s.duration
    dp = stage["drop"] = f.drop_of(s.start_pressure, s.end_pressure)
    if (s.start_temperature is None) != (s.end_temperature is None):
        refuse("temperature-missing", f"{place}/end_temperature")
    if pipe is None:
        return stage
    T = i.water_temperature
    if s.start_temperature is not None and s.end_temperature is not None:
        T = f.mean_temperature(s.start_temperature, s.end_temperature)
        k = _per_kelvin(T, pipe)
        dp_T = f.change_by_temperature(k, s.start_temperature, s.end_temperature)
        stage["by_temperature"], stage["temperature_effect"] = dp_T, f.size_of_change(dp_T)
    if i.content is not None:
        stage["lost_water"] = f.lost_volume(i.content, e.compressibility(T), pipe[0], dp)
    return stage


def _stages(
    i: StrengthTestInputs, c: Context, rho: float, p_t: float, pipe: tuple[Any, Any, Any] | None
) -> list[dict[str, Any]]:
    plan = _plan(c)
    if len(i.stages) > len(plan):  # structure
        refuse("stages-too-many", "/stages", stages=str(len(plan)))
    found = []
    for k, step in enumerate(plan):
        with part("stage", str(k + 1)):
            required = None
            if step["share"] != 0.0:
                low = f.share_of_test(step["share"], p_t)
                required = e.static_pressure(low, rho, i.gauge_level, i.lowest_level)
            stage: dict[str, Any] = {
                "name": step["name"],
                "task": step["task"],
                "required": required,
                "least_duration": step["duration"],
                "allowed": (
                    None
                    if step["drop"] is None
                    else f.allowed_drop(step["drop"], i.gauge_resolution)
                ),
                **dict.fromkeys(
                    ("start", "duration", "drop", "by_temperature", "temperature_effect")
                ),
                "lost_water": None,
            }
            if k < len(i.stages):  # structure
                stage = _read(i.stages[k], stage, i, pipe, f"/stages/{k}")
            found.append(stage)
    return found


def _result(i: StrengthTestInputs, stages: list[dict[str, Any]]) -> Any:
    """Say what the readings say; the worst first."""
    read = stages[: len(i.stages)]
    if not read:
        return "planned"
    holds: Any = i.joints != "leak-seen"
    at: Any = True
    long: Any = len(read) == len(stages)
    for stage in read:
        if stage["allowed"] is not None:
            holds = all_of(holds, stage["drop"] <= stage["allowed"] * (1 + SLACK))
        if stage["required"] is not None:
            at = all_of(at, stage["start"] >= stage["required"] * (1 - SLACK))
        long = all_of(long, stage["duration"] >= stage["least_duration"] * (1 - SLACK))
    seen = "passed" if i.joints == "tight" else "joints not looked at"
    return pick(holds, pick(at, pick(long, seen, "not long enough"), "not at pressure"), "failed")


def _highest(i: StrengthTestInputs) -> Any:
    """Return the highest reading of the gauge, where there is one."""
    readings = [p for s in i.stages for p in (s.start_pressure, s.end_pressure)]
    if not readings:
        return None
    top = readings[0]
    for p in readings[1:]:
        top = f.higher(top, p)
    return top


def _record(stages: list[Stage]) -> dict[str, Any]:
    now = 0.0 * stages[0].duration
    times, pressures = [], []
    for s in stages:
        end = f.later(now, s.duration)
        times += [now, end]
        pressures += [s.start_pressure, s.end_pressure]
        now = end
    return {"time": times, "pressure": pressures}


def kernel(i: StrengthTestInputs, c: Context) -> dict[str, Any]:
    """What to pump to, what every part gets, and what the readings say."""
    rho = density(i.water_temperature)
    require(i.lowest_level <= i.highest_level, "levels-reversed", "/highest_level")
    p_o = e.static_pressure(i.operating_pressure, rho, i.lowest_level, i.operating_level)
    p_top = e.static_pressure(i.operating_pressure, rho, i.highest_level, i.operating_level)
    require(
        p_top > 0.0,
        "top-out-of-reach",
        "/highest_level",
        pressure=(p_top, "pressure_gauge", "bar"),
    )
    p_t = proof_needed(c.value("strength-test-factor"), p_o)
    if i.medium != "water":
        V = HUNDRED_LITRES if i.content is None else i.content
        refuse(
            "gas-test-refused",
            "/medium",
            energy=(f.air_energy(p_t, V), "energy", "kJ"),
            content=(V, "volume", "l"),
            pressure=(p_t, "pressure_gauge", "bar"),
        )
    p_h = e.static_pressure(p_t, rho, i.highest_level, i.lowest_level)
    pipe = None if i.pipe is None else _pipe(i.pipe, c)
    kappa = e.compressibility(i.water_temperature)
    stages = _stages(i, c, rho, p_t, pipe)
    highest = _highest(i)
    parts = []
    for k, p in enumerate(i.parts):
        with part("part", p.name):
            parts.append(_part(p, i, rho, p_t, highest, f"/parts/{k}"))
    rigid = c.method == RIGID
    return {
        "result": _result(i, stages),
        "test_pressure": p_t,
        "gauge_pressure": e.static_pressure(p_t, rho, i.gauge_level, i.lowest_level),
        "top_pressure": p_h,
        "top_ratio": pressure_ratio(p_h, p_top),
        "rigid_procedure": rigid,
        "procedure_fits": not (rigid and i.plastic),
        "tested": bool(i.stages),
        "complete": len(i.stages) == len(stages),
        "tight": i.joints == "tight",
        "rigid_per_kelvin": f.rigid_per_kelvin(e.water_expansion(i.water_temperature), kappa),
        "per_kelvin": None if pipe is None else _per_kelvin(i.water_temperature, pipe),
        "air_energy": None if i.content is None else f.air_energy(p_t, i.content),
        "water_energy": (
            None
            if i.content is None or pipe is None
            else f.water_energy(i.content, kappa, pipe[0], p_t)
        ),
        "parts": parts,
        "stages": stages,
        "record": drawn(_record, i.stages) if i.stages else None,
    }
