"""What one reading leaves open at another rate.

Nobody knows the tubes of the run, so every tube of the region is tried, smooth and rough, and the
flow in it turned turbulent to any degree wherever that is uncertain. Tubes in series give a mean of
what each would give alone; the ends of the band are therefore the ends over the tubes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import Any

from tundish.functions import any_of, choose, larger, smaller, where
from tundish.physics import pipes
from tundish.working import part
from tundish_plugins.gas.drop_forecast import formulas as f

_APART = 1e-9
"""Rates closer than this are one rate: the flow cannot have turned between them."""


@dataclass(frozen=True)
class Fluid:
    """Density and viscosity of the gas."""

    rho: float
    mu: float


@dataclass(frozen=True)
class Candidate:
    """A tube the run may consist of, with the least and the most its walls may be rough."""

    name: str
    d: float
    smooth: float
    rough: float


def candidate(name: str, d: float, k_least: float, k_most: float) -> Candidate:
    """Return a tube with its relative roughness at least and at most."""
    return Candidate(
        name, d, pipes.relative_roughness(k_least, d), pipes.relative_roughness(k_most, d)
    )


@dataclass(frozen=True)
class Flow:
    """Flow in one tube at one rate: its gradient by each law, and how far it has surely turned."""

    laminar: float
    smooth: float
    rough: float
    turned: float


def _laminar_only(*given: Any) -> tuple[float, float]:
    *_, R = given
    return R, R


def _turbulent(*given: Any) -> tuple[float, float]:
    Re, w, d, smooth, rough, rho, _ = given
    return (
        pipes.friction_gradient(pipes.turbulent_friction(Re, smooth), d, rho, w),
        pipes.friction_gradient(pipes.turbulent_friction(Re, rough), d, rho, w),
    )


def flow_in(tube: Candidate, Q: float, gas: Fluid) -> Flow:
    """Return the gradients of a tube; where flow cannot be turbulent, the laminar one for all."""
    w = pipes.velocity(Q, tube.d)
    Re = pipes.reynolds_number(w, tube.d, gas.rho, gas.mu)
    R = pipes.friction_gradient(pipes.laminar_friction(Re), tube.d, gas.rho, w)
    smooth, rough = choose(
        Re < pipes.LAMINAR_UP_TO,
        _laminar_only,
        _turbulent,
        Re,
        w,
        tube.d,
        tube.smooth,
        tube.rough,
        gas.rho,
        R,
        why="flow laminar, Re below 2000",
    )
    turned = f.turned(Re, pipes.LAMINAR_UP_TO, pipes.TURBULENT_FROM)
    return Flow(R, smooth, rough, turned)


@dataclass(frozen=True)
class Seen:
    """A reading with what can stand behind it, and the flow it made in every tube."""

    name: str
    Q: float
    low: float
    high: float
    flows: list[Flow]


@dataclass(frozen=True)
class Span:
    """Lowest and highest drop at a rate: for the run as it may be, and of one tube with fittings."""

    low: float
    high: float
    alone: list[tuple[float, float]]


def lengths(seen: Seen, index: int) -> tuple[float, float]:
    """Least and greatest length of a tube that drops as read."""
    flow = seen.flows[index]
    least = f.blend(flow.laminar, flow.smooth, flow.turned)
    return f.length_that_drops(seen.low, flow.rough), f.length_that_drops(seen.high, least)


def _alone(seen: Seen, index: int, Q: float, flow: Flow) -> tuple[float, float]:
    """Drop at a rate if the run is of one tube: over all that its flow and its walls may do.

    Flow that has turned turbulent to some degree has done so at least as far at a higher rate. So
    the drop grows least if the flow is turned alike at both, and most if all of the turning lies
    between them.
    """
    old = seen.flows[index]
    up = Q >= seen.Q

    def at_lower(a: float, b: float) -> float:
        return where(up, a, b)

    slow_laminar = at_lower(old.laminar, flow.laminar)
    fast_laminar = at_lower(flow.laminar, old.laminar)
    slow_turned = at_lower(old.turned, flow.turned)
    fast_turned = at_lower(flow.turned, old.turned)
    apart = any_of(Q > seen.Q * (1 + _APART), Q < seen.Q * (1 - _APART))
    ends: list[float] = []
    for slow, fast in (
        (at_lower(old.smooth, flow.smooth), at_lower(flow.smooth, old.smooth)),
        (at_lower(old.rough, flow.rough), at_lower(flow.rough, old.rough)),
    ):
        alike = (f.blend(slow_laminar, slow, fast_turned), f.blend(fast_laminar, fast, fast_turned))
        between = (where(apart, f.blend(slow_laminar, slow, slow_turned), slow), fast)
        ends += [
            f.ratio(where(up, b, a), where(up, a, b)) for a, b in (alike, (slow, fast), between)
        ]
    return f.scaled(seen.low, reduce(smaller, ends)), f.scaled(seen.high, reduce(larger, ends))


def span(seen: Seen, Q: float, flows: list[Flow], tubes: list[Candidate], longest: float) -> Span:
    """Return what a reading leaves open at a rate, the tubes unknown."""
    low = low_of_fittings = f.by_square(seen.low, Q, seen.Q)
    high = high_of_fittings = f.by_square(seen.high, Q, seen.Q)
    alone, shares = [], []
    for index, (tube, flow) in enumerate(zip(tubes, flows, strict=True)):
        with part("tube", tube.name):
            ends = _alone(seen, index, Q, flow)
            steepest = seen.flows[index].rough
            sigma = f.share(longest, f.length_that_drops(seen.low, steepest))
        alone.append(ends)
        shares.append(sigma)
        low = where(sigma >= 1.0, smaller(low, ends[0]), low)
        high = where(sigma >= 1.0, larger(high, ends[1]), high)
    # A tube too wide to be the whole run moves the ends by its share only.
    lows = [f.mixed(low, ends[0], s) for ends, s in zip(alone, shares, strict=True)]
    highs = [f.mixed(high, ends[1], s) for ends, s in zip(alone, shares, strict=True)]
    with_fittings = [(smaller(a, low_of_fittings), larger(b, high_of_fittings)) for a, b in alone]
    return Span(reduce(smaller, lows, low), reduce(larger, highs, high), with_fittings)
