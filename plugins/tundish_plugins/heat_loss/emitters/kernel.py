"""The order of the formulas for radiators room by room. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, pick, refuse, require, root
from tundish.physics import radiators
from tundish.physics.water import density, specific_heat
from tundish.working import part
from tundish_plugins.heat_loss.emitters import formulas as f
from tundish_plugins.sealed_heating.piping.formulas import flow_of_power, mean_temperature, together

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.heat_loss.emitters.contract import Emitter, EmitterInputs, Room

ARITHMETIC = "arithmetic-mean"
LEAST_DROP = 0.1 - 1e-9
"""Least drop that is told apart, K: a tenth, less what converting units may move. Nearer to none the
logarithm loses its figures."""


@dataclass
class Rated:
    """A radiator with what its rating means in the method's own excess temperature."""

    emitter: Emitter
    excess: float
    exponent: float
    where: str

    def output(self, dT: float) -> tuple[float, float]:
        """Return output factor and output at an excess temperature."""
        factor = radiators.output_factor(dT, self.excess, self.exponent)
        return factor, f.output(self.emitter.output_kept, self.emitter.rated_output, factor)

    def excess_for(self, Q: float) -> float:
        """Return the excess temperature at which it gives an output."""
        e = self.emitter
        return f.excess_for(Q, e.output_kept, e.rated_output, self.excess, self.exponent)


class _Ratings:
    """What the ratings of radiators rest on, read once."""

    def __init__(self, c: Context) -> None:
        self.c = c
        self.today = self._logged(c.value("radiator-rated-excess"))
        self.exponent: float | None = None

    def _logged(self, dT: float) -> float:
        """Excess of today's rating in the mean of the method."""
        if self.c.method == ARITHMETIC:
            return dT
        return f.rated_logarithmic_excess(dT, self.c.value("radiator-rated-drop"))

    def of(self, emitter: Emitter, where: str) -> Rated:
        """Rating of a radiator; refuses one that says it in two ways or in none."""
        if (emitter.rating == "stated") != (emitter.rated_excess is not None):
            refuse("rated-excess-mismatch", f"{where}/rated_excess")
        if emitter.rating == "older":
            excess = self.c.value("radiator-rated-excess-older")
        elif emitter.rated_excess is not None:
            excess = emitter.rated_excess
        else:
            excess = self.today
        n = emitter.exponent
        if n is None:
            if self.exponent is None:
                self.exponent = self.c.value("radiator-exponent")
            n = self.exponent
        return Rated(emitter, excess, n, where)


def _excess(method: str | None, T_f: float, T_r: float, T_i: float) -> float:
    if method == ARITHMETIC:
        return radiators.arithmetic_excess(T_f, T_r, T_i)
    return radiators.logarithmic_excess(T_f, T_r, T_i)


def _excess_needed(room: Room, rated: list[Rated], where: str) -> float:
    """Excess temperature at which the radiators of a room give its load together."""
    if len(rated) == 1:  # structure
        return rated[0].excess_for(room.load)
    # One radiator by itself would need more than all of them; where each gives less than its equal
    # share, they give less than the load.
    share = room.load / (len(rated) + 1)
    high = rated[0].excess_for(room.load)
    low = rated[0].excess_for(share)
    for one in rated[1:]:
        high = f.lesser_excess(high, one.excess_for(room.load))
        low = f.lesser_excess(low, one.excess_for(share))

    def missing(dT: float) -> float:
        return f.left(f.together([one.output(dT)[1] for one in rated]), room.load)

    return root(missing, low, high, what="excess temperature for the load", field=where)


def _room(
    i: EmitterInputs, c: Context, ratings: _Ratings, index: int, sigma: float
) -> dict[str, Any]:
    room = i.rooms[index]
    where = f"/rooms/{index}"
    T_f, T_r, T_i = i.flow_temperature, i.return_temperature, room.temperature
    require(T_i < T_f, "flow-not-above-room", "/flow_temperature", room=room.name)
    require(T_i < T_r, "return-not-above-room", "/return_temperature", room=room.name)
    dT = _excess(c.method, T_f, T_r, T_i)
    rated: list[Rated] = []
    radiators: list[dict[str, Any]] = []
    for k, emitter in enumerate(room.radiators):
        with part("radiator", emitter.name):
            one = ratings.of(emitter, f"{where}/radiators/{k}")
            factor, Q = one.output(dT)
            now = f.rated_now(emitter.rated_output, ratings.today, one.excess, one.exponent)
        rated.append(one)
        radiators.append(
            {
                "name": emitter.name,
                "rated_excess": one.excess,
                "exponent": one.exponent,
                "output_factor": factor,
                "output": Q,
                "rated_now": now,
            }
        )
    Q = f.together([item["output"] for item in radiators])
    now = f.together([item["rated_now"] for item in radiators])
    g = f.growth(room.load, Q)
    needed = _excess_needed(room, rated, f"{where}/radiators")
    lowest = (
        f.flow_by_arithmetic(T_i, needed, sigma)
        if c.method == ARITHMETIC
        else f.flow_by_logarithm(T_i, needed, sigma)
    )
    T_m = mean_temperature(T_f, sigma)
    share = f.return_share(T_f, T_r, T_i)
    holds: Any = True
    if c.method == ARITHMETIC:
        holds = share >= c.value("radiator-return-share-least") * (1 - 1e-9)
    stated = all(emitter.exponent is not None for emitter in room.radiators)
    rails = [emitter.towel_rail for emitter in room.radiators]
    return {
        "name": room.name,
        "excess": dT,
        "output": Q,
        "covered": f.covered(room.load, Q),
        "lacking": f.lacking(room.load, Q),
        "spare": f.spare(room.load, Q),
        "growth": g,
        "rated_now": now,
        "rated_needed": f.rated_needed(g, now),
        "lowest_flow_temperature": lowest,
        "design_flow": flow_of_power(room.load, density(T_m), specific_heat(T_m), sigma),
        "return_share": share,
        "exponents_stated": stated,
        "well_founded": all_of(holds, stated),
        "has_towel_rail": any(rails),
        "towel_rails_only": all(rails),
        "radiators": radiators,
    }


def kernel(i: EmitterInputs, c: Context) -> dict[str, Any]:
    """Output of radiators, whether each room is heated, and the lowest flow that does it."""
    sigma = f.drop(i.flow_temperature, i.return_temperature)
    require(sigma >= LEAST_DROP, "return-not-below-flow", "/return_temperature")
    ratings = _Ratings(c)
    rooms = []
    for index, room in enumerate(i.rooms):
        with part("room", room.name):
            rooms.append(_room(i, c, ratings, index, sigma))
    first: Any = rooms[0]["lowest_flow_temperature"]
    dictating: Any = rooms[0]["name"]
    second: Any = None
    for found in rooms[1:]:
        T = found["lowest_flow_temperature"]
        dictating = pick(T > first, found["name"], dictating)
        less = f.cooler(first, T)
        second = less if second is None else f.hotter(second, less)
        first = f.hotter(first, T)
    limit = None
    if i.work == "new-or-replaced" and c.has("heating-flow-temperature-most"):
        limit = c.value("heating-flow-temperature-most")
    return {
        "arithmetic": c.method == ARITHMETIC,
        "drop": sigma,
        "lowest_flow_temperature": first,
        "dictating_room": dictating,
        "next_flow_temperature": second,
        "flow_temperature_most": limit,
        "load": f.together([room.load for room in i.rooms]),
        "output": f.together([found["output"] for found in rooms]),
        "design_flow": together([found["design_flow"] for found in rooms]),
        "rooms": rooms,
    }
