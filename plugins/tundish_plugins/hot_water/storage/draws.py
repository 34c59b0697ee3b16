"""What is drawn: the user's list, a load profile, or the draws that go with the bathrooms."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import refuse, require
from tundish.physics.water import density, enthalpy
from tundish.working import part
from tundish_plugins.hot_water.storage import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.hot_water.storage.contract import StorageInputs

TWO_DRAW, PROFILE = "two-draw", "profile"

PROFILES = {"M": "load-profile-m", "L": "load-profile-l", "XL": "load-profile-xl"}


TOUCHING = 0.01
"""Seconds by which two draws may overlap: one that starts as the other ends, rounded."""


@dataclass(frozen=True)
class Water:
    """Temperatures, densities and enthalpies of the water in the store and at the outlets."""

    T_s: float
    T_c: float
    rho_s: float
    h_s: float
    h_c: float
    f_u: float


@dataclass(frozen=True)
class Drawn:
    """A draw as the store sees it. Without a flow it is at once, as the two-draw method has it."""

    name: str
    start: float
    T_m: float
    energy: float
    hot_volume: float
    time: float | None
    end: float
    power: float | None
    flow: float | None  # of water of store temperature
    gap: float | None  # until the next draw


@dataclass(frozen=True)
class _Asked:
    name: str
    field: str
    start: float
    volume: float
    T_m: float
    q: float | None


def _listed(i: StorageInputs) -> list[_Asked]:
    return [
        _Asked(d.name, f"/draws/{k}", d.start, d.volume, d.temperature, d.flow)
        for k, d in enumerate(i.draws)
    ]


def _of_profile(name: str, c: Context) -> list[_Asked]:
    """A load profile's draws: litres that carry its energy above its own cold water."""
    h_c = enthalpy(c.value("load-profile-cold-temperature"))
    asked = []
    for row in c.table(PROFILES[name]).rows():
        T_m = row["peak"] if row.has("peak") else row["useful"]
        with part("draw", row["name"]):
            V = f.volume_of_energy(row["energy"], density(T_m), enthalpy(T_m), h_c)
        asked.append(_Asked(row["name"], "/load_profile", row["time"], V, T_m, row["flow"]))
    return asked


def _of_bathrooms(bathrooms: int, c: Context) -> list[_Asked]:
    row = c.table("hot-water-two-draws").at("/bathrooms").exact(bathrooms=str(bathrooms))
    first, second = row["first_volume"], row["second_volume"]
    return [
        _Asked("first draw", "/bathrooms", 0.0, first, row["first_temperature"], None),
        _Asked(
            "second draw", "/bathrooms", row["interval"], second, row["second_temperature"], None
        ),
    ]


def _asked(i: StorageInputs, c: Context) -> list[_Asked]:
    """Return the draws; what the structure makes unanswerable is refused."""
    if i.draws and i.load_profile is not None:
        refuse("draws-given-twice", "/load_profile")
    if c.method == TWO_DRAW:
        if i.load_profile is not None:
            refuse("load-profile-by-two-draws", "/load_profile")
        if not i.draws and i.bathrooms is not None:
            return _of_bathrooms(i.bathrooms, c)
        if len(i.draws) != 2:  # noqa: PLR2004
            refuse("two-draws-needed", "/draws")
        return _listed(i)
    if i.load_profile is not None:
        return _of_profile(i.load_profile, c)
    if not i.draws:
        refuse("draws-missing", "/draws")
    asked = _listed(i)
    for draw in asked:
        if draw.q is None:
            refuse("flow-missing", f"{draw.field}/flow")
    return asked


def _pointer(draw: _Asked, member: str) -> str:
    return f"{draw.field}/{member}" if draw.field.startswith("/draws") else draw.field


def _check(draw: _Asked, water: Water, *, may_equal: bool) -> None:
    here = _pointer(draw, "temperature")
    require(draw.T_m > water.T_c, "draw-not-above-cold", here)
    cool_enough = draw.T_m <= water.T_s if may_equal else draw.T_m < water.T_s
    store = (water.T_s, "temperature", "degC")
    require(cool_enough, "draw-too-hot", here, store=store)


def drawn(i: StorageInputs, c: Context, water: Water) -> list[Drawn]:
    """Return the draws with their times, heat and hot water."""
    asked = _asked(i, c)
    by_hand = c.method == TWO_DRAW
    result: list[Drawn] = []
    last = len(asked) - 1
    ends: list[float] = []
    times: list[float | None] = []
    for k, draw in enumerate(asked):
        _check(draw, water, may_equal=by_hand and k == 0)
        if k and not by_hand:
            require(draw.start >= ends[-1] - TOUCHING, "draws-overlap", _pointer(draw, "start"))
        elif k:
            require(draw.start > ends[-1], "draws-overlap", _pointer(draw, "start"))
        with part("draw", draw.name):
            t = None if draw.q is None or by_hand else f.draw_time(draw.volume, draw.q)
            ends.append(draw.start if t is None else f.later(draw.start, t))
            times.append(t)
    for k, draw in enumerate(asked):
        with part("draw", draw.name):
            rest: dict[str, Any] = _heat(draw, water, times[k])
            gap = None if k == last else f.between(ends[k], asked[k + 1].start)
        result.append(Drawn(draw.name, draw.start, draw.T_m, end=ends[k], gap=gap, **rest))
    return result


def _heat(draw: _Asked, water: Water, t: float | None) -> dict[str, Any]:
    T_m = draw.T_m
    if draw.q is None or t is None:
        V_h = f.hot_equivalent(draw.volume, T_m, water.T_c, water.T_s)
        Q = f.energy_of_volume(draw.volume, density(T_m), enthalpy(T_m), water.h_c)
        return {"time": None, "power": None, "flow": None, "energy": Q, "hot_volume": V_h}
    D = f.draw_power(draw.q, density(T_m), enthalpy(T_m), water.h_c)
    Q = f.draw_energy(D, t)
    return {
        "time": t,
        "power": D,
        "flow": f.hot_flow(D, water.h_s, water.h_c),
        "energy": Q,
        "hot_volume": f.hot_volume(Q, water.rho_s, water.h_s, water.h_c),
    }
