"""A reheat in phases of closed form: what drives the store, its phases and its curve.

Shared by the recovery of a store and by the test of a reheat. Floats or arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import absolute, choose, require
from tundish.physics.water import density, specific_heat
from tundish_plugins.hot_water.recovery import formulas as f

if TYPE_CHECKING:
    from tundish_plugins.hot_water.recovery.contract import CoilRating

NEARLY_STEADY = 0.003
"""Relative change of heat flow over a phase below which the series is exact to the last places
and the logarithm no longer is."""
SOURCE_PIECES, COIL_PIECES, IMMERSION_PIECES = 4, 16, 4
"""Pieces of the printed curve in each phase: the first is nearly straight."""


@dataclass(frozen=True)
class Coil:
    """A coil as the phases see it."""

    G: float
    T_f: float
    UA: float | None
    effectiveness: float | None


@dataclass(frozen=True)
class Sources:
    """What heats the store, before coil and loss."""

    boiler: float | None  # brought to the coil
    immersion: float | None
    full: float


@dataclass(frozen=True)
class Law:
    """Net heat flow into the water as a function of store temperature."""

    sources: Sources
    coil: Coil | None
    UA_l: float
    T_a: float
    lossy: bool  # whether a loss was given at all

    def power(self, T: float) -> float:
        """Net heat flow at a store temperature."""
        coil, sources = self.coil, self.sources
        if coil is None or sources.boiler is None:
            return f.net_power_without_coil(sources.full, self.UA_l, self.T_a, T)
        immersion = 0.0 if sources.immersion is None else sources.immersion
        return f.net_power(sources.boiler, coil.G, coil.T_f, immersion, self.UA_l, self.T_a, T)


@dataclass(frozen=True)
class Phases:
    """The store's temperature at the ends of its phases, and how long each takes."""

    bounds: list[float]
    pieces: tuple[int, ...]  # of the curve, one number a phase
    powers: list[float]
    times: list[float]
    means: list[float]  # mean store temperature; empty without loss


def rated_coil(rating: CoilRating) -> float:
    """Conductance of the coil at its rating condition."""
    require(
        rating.start_temperature < rating.end_temperature,
        "rating-impossible",
        "/coil_rating/end_temperature",
    )
    require(
        rating.end_temperature < rating.flow_temperature,
        "rating-impossible",
        "/coil_rating/flow_temperature",
    )
    return f.rated_conductance(
        rating.power, rating.flow_temperature, rating.start_temperature, rating.end_temperature
    )


def coil_of(
    rating: CoilRating | None,
    UA: float | None,
    G: float | None,
    T_f: float,
    rate: float | None,
) -> Coil:
    """Conductance of the coil at the primary flow it gets; one of rating, UA and conductance."""
    if G is not None:
        if rate is None:
            return Coil(G, T_f, None, None)
        require(G < rate, "coil-beyond-primary-flow", "/coil_conductance")
        return Coil(G, T_f, f.ua_of_coil(G, rate), f.effectiveness_from_conductance(G, rate))
    if rating is not None:
        rated = rated_coil(rating)
        if rate is None:
            return Coil(rated, T_f, None, None)
        T = rating.flow_temperature
        rated_rate = f.capacity_rate(rating.primary_flow, density(T), specific_heat(T))
        require(rated < rated_rate, "coil-beyond-primary-flow", "/coil_rating/primary_flow")
        UA = f.ua_of_coil(rated, rated_rate)
    assert UA is not None
    assert rate is not None
    share = f.effectiveness(UA, rate)
    return Coil(f.conductance(share, rate), T_f, UA, share)


def _tapering(C: float, T_A: float, T_B: float, P_A: float, P_B: float) -> tuple[float, float]:
    t = f.tapering_time(C, T_A, T_B, P_A, P_B)
    return t, f.tapering_mean_temperature(C, T_A, T_B, P_A, P_B, t)


def _steady(C: float, T_A: float, T_B: float, P_A: float, P_B: float) -> tuple[float, float]:
    return (
        f.steady_time(C, T_A, T_B, P_A, P_B),
        f.steady_mean_temperature(T_A, T_B, P_A, P_B),
    )


def _is_steady(P_A: float, P_B: float) -> bool:
    return absolute(P_A - P_B) <= NEARLY_STEADY * (P_A + P_B)


def curve(law: Law, C: float, phases: Phases) -> dict[str, Any]:
    """Time and heat flow against store temperature, each piece in closed form."""
    bounds, powers = phases.bounds, [phases.powers[0]]
    temperatures, times = [bounds[0]], [0.0 * bounds[0]]
    for T_A, T_B, count in zip(bounds, bounds[1:], phases.pieces, strict=False):
        for k in range(1, count + 1):
            T = T_B if k == count else T_A + (T_B - T_A) * (k / count)
            P_A, P_B = powers[-1], law.power(T)
            steady = _is_steady(P_A, P_B)
            ends = (temperatures[-1], T, P_A, P_B)
            times.append(times[-1] + choose(steady, f.steady_time, f.tapering_time, C, *ends))
            temperatures.append(T)
            powers.append(P_B)
    return {"time": times, "temperature": temperatures, "power": powers}


def phases_of(law: Law, C: float, T_0: float, T_1: float, highest: float | None) -> Phases:
    """Cut the reheat where the limit changes, and time each phase."""
    bounds = [T_0, T_1]
    pieces: tuple[int, ...] = (SOURCE_PIECES + COIL_PIECES,)
    coil, sources = law.coil, law.sources
    if coil is not None and sources.boiler is not None:
        T_x = f.within_reheat(f.changeover(coil.T_f, sources.boiler, coil.G), T_0, T_1)
        bounds, pieces = [T_0, T_x, T_1], (SOURCE_PIECES, COIL_PIECES)
        if sources.immersion is not None:
            bounds = [T_0, T_x, f.within_reheat(coil.T_f, T_x, T_1), T_1]
            pieces = (SOURCE_PIECES, COIL_PIECES, IMMERSION_PIECES)
    powers = [law.power(T) for T in bounds]
    require(
        powers[-1] > 0.0,
        "target-unreachable",
        "/target_temperature",
        reachable=(highest, "temperature", "degC"),
    )
    times: list[float] = []
    means: list[float] = []
    for T_A, T_B, P_A, P_B in zip(bounds, bounds[1:], powers, powers[1:], strict=False):
        steady = _is_steady(P_A, P_B)
        why = "heat flow nearly steady in this phase"
        if law.lossy:
            t, mean = choose(steady, _steady, _tapering, C, T_A, T_B, P_A, P_B, why=why)
            means.append(mean)
        else:
            t = choose(steady, f.steady_time, f.tapering_time, C, T_A, T_B, P_A, P_B, why=why)
        times.append(t)
    return Phases(bounds, pieces, powers, times, means)
