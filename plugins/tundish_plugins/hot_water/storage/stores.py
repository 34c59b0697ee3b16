"""Two stores stepped through a list of draws, each span in closed form: mixed, and hot over cold.

A span is a draw or the time to the next. While a source gives more than a draw takes, the store
stays at its temperature until the draw ends.

A thermostat at rest leaves the store anywhere from full down to where it calls. The day is taken
through from all of these starts at once, by their ends; the least that any of them leaves counts.

The energy balance goes on below the temperature of a draw: how far it falls short there is what a
search for the needed volume steers by. Nothing below that point is shown but the first draw missed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol

from tundish.functions import any_of, choose, not_, where
from tundish.working import part
from tundish_plugins.hot_water.recovery.formulas import within_reheat
from tundish_plugins.hot_water.storage import formulas as f

if TYPE_CHECKING:
    from tundish_plugins.hot_water.storage.draws import Drawn, Water


@dataclass(frozen=True)
class Heating:
    """What heats the store, its loss taken off."""

    power: float
    G: float | None
    T_f: float | None
    T_x: float | None  # where the coil takes over as the limit


class Span(NamedTuple):
    """Where a store may stand: from the coolest to the fullest, if it may be so at all."""

    low: float
    high: float
    may: bool


@dataclass(frozen=True)
class Day:
    """The least of all starts in each draw, what it has to spare there, and how the day ends."""

    lows: list[float]  # temperature, or hot mass
    margins: list[float]  # negative when the draw fails
    off: Span
    on: Span


class Store(Protocol):
    """A store model: a size, a state that draws lower and heat raises, a thermostat."""

    full: float
    size: float
    calls: float  # state at which the thermostat calls

    def unheated(self, state: float, draw: Drawn, t: float) -> float:
        """State after a time of drawing without heat."""

    def margin(self, low: float, draw: Drawn) -> float:
        """What is to spare at the lowest state of a draw."""

    def draw(self, state: float, on: bool, draw: Drawn, t: float) -> tuple[float, float, bool]:
        """State after a time of drawing, the lowest before it, whether it is heated then."""

    def rest(self, state: float, on: bool, t: float) -> tuple[float, bool]:
        """State after a time without a draw, and whether it is heated then."""

    def energy(self, state: float) -> float:
        """Heat above cold water."""

    def refill(self, state: float) -> float:
        """Time to fill the store again."""


# --- mixed through --------------------------------------------------------------------------------


def _past_source(
    C: float, P: float, G: float, T_f: float, T_x: float, D: float, T: float, t: float, _T: float
) -> float:
    t_1 = f.time_by_source(C, T, T_x, P, D)
    return f.coil_limited(T_x, G, T_f, D, t - t_1, C)


def _past_coil(
    C: float, P: float, G: float, T_f: float, T_x: float, D: float, T: float, t: float, _T: float
) -> float:
    t_1 = f.time_by_coil(C, G, T, T_x, T_f, D)
    return f.source_limited(T_x, P, D, t - t_1, C)


def _within(*arguments: float) -> float:
    return arguments[-1]


def _from_source(
    C: float, P: float, G: float, T_f: float, T_x: float, D: float, T: float, t: float
) -> float:
    T_1 = f.source_limited(T, P, D, t, C)
    return choose(T_1 > T_x, _past_source, _within, C, P, G, T_f, T_x, D, T, t, T_1)  # type: ignore[no-any-return]


def _from_coil(
    C: float, P: float, G: float, T_f: float, T_x: float, D: float, T: float, t: float
) -> float:
    T_1 = f.coil_limited(T, G, T_f, D, t, C)
    return choose(T_1 < T_x, _past_coil, _within, C, P, G, T_f, T_x, D, T, t, T_1)  # type: ignore[no-any-return]


class Mixed:
    """A store of one temperature."""

    def __init__(self, V: float, water: Water, heating: Heating, T_on: float) -> None:
        """Take the content, the heat input and where the thermostat calls."""
        self.full, self.calls, self.heating, self.T_c = water.T_s, T_on, heating, water.T_c
        M = f.usable_mass(V, water.f_u, water.rho_s)
        self.size = self.C = f.heat_capacity(M, water.h_s, water.h_c, water.T_s, water.T_c)

    def unheated(self, state: float, draw: Drawn, t: float) -> float:
        """Cooler by what was drawn."""
        assert draw.power is not None
        return f.unheated(state, draw.power, t, self.C)

    def margin(self, low: float, draw: Drawn) -> float:
        """Kelvins above the temperature of the draw."""
        return f.temperature_margin(low, draw.T_m)

    def _heated(self, T: float, D: float, t: float) -> float:
        h, C = self.heating, self.C
        if h.G is None or h.T_f is None or h.T_x is None:
            return f.source_limited(T, h.power, D, t, C)
        D_all = D + 0.0 * T
        return choose(  # type: ignore[no-any-return]
            T <= h.T_x, _from_source, _from_coil, C, h.power, h.G, h.T_f, h.T_x, D_all, T, t
        )

    def draw(self, state: float, on: bool, draw: Drawn, t: float) -> tuple[float, float, bool]:
        """Cool, call for heat, go on heated."""
        assert draw.power is not None
        t_w = where(on, 0.0, f.waiting_time(t, self.C, state, self.calls, draw.power))
        T_w = f.unheated(state, draw.power, t_w, self.C)
        on = any_of(on, t_w < t)
        T = f.no_more_than(self._heated(T_w, draw.power, t - t_w), self.full)
        return T, f.lowest_temperature(T_w, T), on & (T < self.full)

    def rest(self, state: float, on: bool, t: float) -> tuple[float, bool]:
        """Heat until full, or stay."""
        T = where(on, f.no_more_than(self._heated(state, 0.0, t), self.full), state)
        return T, on & (T < self.full)

    def energy(self, state: float) -> float:
        """Heat above cold water."""
        return f.mixed_energy(self.C, state, self.T_c)

    def refill(self, state: float) -> float:
        """Time to heat the store through, the source limiting, then the coil."""
        h, C = self.heating, self.C
        if h.G is None or h.T_f is None or h.T_x is None:
            return f.time_by_source(C, state, self.full, h.power, 0.0)
        T_x = within_reheat(h.T_x, state, self.full)
        t = f.time_by_source(C, state, T_x, h.power, 0.0)
        return f.later(t, f.time_by_coil(C, h.G, T_x, self.full, h.T_f, 0.0))


# --- hot over cold --------------------------------------------------------------------------------


class Stratified:
    """A store of hot water over cold, without mixing."""

    def __init__(self, V: float, water: Water, heating: Heating, s: float) -> None:
        """Take the content, the heat input and where the thermostat sits."""
        self.s, self.water = s, water
        self.full = self.size = f.usable_mass(V, water.f_u, water.rho_s)
        self.calls = f.mass_at_call(self.full, s)
        power = heating.power
        if heating.G is not None and heating.T_f is not None:
            power = f.power_into_cold(power, heating.G, heating.T_f, water.T_c)
        self.r = f.refill_rate(power, water.h_s, water.h_c)

    def unheated(self, state: float, draw: Drawn, t: float) -> float:
        """Less hot water by what was drawn."""
        assert draw.flow is not None
        return f.hot_mass_unheated(state, draw.flow, t)

    def margin(self, low: float, draw: Drawn) -> float:
        """Hot water left."""
        del draw
        return low

    def draw(self, state: float, on: bool, draw: Drawn, t: float) -> tuple[float, float, bool]:
        """Draw hot water off the top, then heat as well."""
        w = draw.flow
        assert w is not None
        t_w = where(on, 0.0, f.waiting_for_sensor(t, state, self.full, self.s, w))
        M_w = f.hot_mass_unheated(state, w, t_w)
        on = any_of(on, t_w < t)
        M = f.no_more_than_full(f.hot_mass(M_w, self.r, w, t - t_w), self.full)
        return M, f.least_hot_mass(M_w, M), on & (M < self.full)

    def rest(self, state: float, on: bool, t: float) -> tuple[float, bool]:
        """Heat until full, or stay."""
        M = f.no_more_than_full(f.hot_mass(state, self.r, 0.0, t), self.full)
        M = where(on, M, state)
        return M, on & (M < self.full)

    def energy(self, state: float) -> float:
        """Heat above cold water."""
        return f.hot_energy(state, self.water.h_s, self.water.h_c)

    def refill(self, state: float) -> float:
        """Time to fill the store with hot water."""
        return f.refill_time(self.full, state, self.r)


# --- through the draws ----------------------------------------------------------------------------


def _both(one: Span, other: Span) -> Span:
    """Either of two; the gap between them counts as well, which is on the safe side."""
    if one.may is False:
        return other
    if other.may is False:
        return one
    low = where(other.may & (not_(one.may) | (other.low < one.low)), other.low, one.low)
    high = where(other.may & (not_(one.may) | (other.high > one.high)), other.high, one.high)
    return Span(low, high, any_of(one.may, other.may))


def _settled(
    full: float, low: float, high: float, on_low: bool, on_high: bool, may: bool
) -> tuple[Span, Span]:
    """Split heated stores into those that are full, and at rest, and those still heated."""
    return (
        Span(full, full, may & not_(on_high & on_low)),
        Span(low, where(on_high, high, full), may & on_low),
    )


def _drawn_heated(store: Store, on: Span, draw: Drawn, t: float) -> tuple[Span, Span, float]:
    """Draw from stores that are heated; the cooler one stays the cooler."""
    low, least, on_low = store.draw(on.low, True, draw, t)  # noqa: FBT003
    high, _, on_high = store.draw(on.high, True, draw, t)  # noqa: FBT003
    return *_settled(store.full, low, high, on_low, on_high, on.may), least


def _drawn_at_rest(store: Store, off: Span, draw: Drawn, t: float) -> tuple[Span, Span, float]:
    """Draw from stores at rest. They call one after the other, the coolest first."""
    low, least, on_low = store.draw(off.low, False, draw, t)  # noqa: FBT003
    high, least_high, on_high = store.draw(off.high, False, draw, t)  # noqa: FBT003
    called = store.unheated(off.low, draw, t) < store.calls
    all_called = store.unheated(off.high, draw, t) < store.calls
    rest = Span(where(called, store.calls, low), high, off.may & not_(all_called))
    # the last to call does so as the draw ends, unless all have called before
    last, on_last = where(all_called, high, store.calls), any_of(not_(all_called), on_high)
    last_first = last < low
    on_cool: Any = where(last_first, on_last, on_low)
    on_full: Any = where(last_first, on_low, on_last)
    cool, fullest = where(last_first, last, low), where(last_first, low, last)
    full, on = _settled(store.full, cool, fullest, on_cool, on_full, off.may & called)
    least = where(all_called & (least_high < least), least_high, least)
    return _both(rest, full), on, least


def _drawn(store: Store, off: Span, on: Span, draw: Drawn, t: float) -> tuple[Span, Span, float]:
    """Draw from all the stores there may be; what is left of them, and the least of them all."""
    parts = []
    if off.may is not False:
        parts.append((_drawn_at_rest(store, off, draw, t), off.may))
    if on.may is not False:
        parts.append((_drawn_heated(store, on, draw, t), on.may))
    (rest, heated, least), may = parts[0]
    for (rest_2, heated_2, least_2), may_2 in parts[1:]:
        rest, heated = _both(rest, rest_2), _both(heated, heated_2)
        least = where(may_2 & (not_(may) | (least_2 < least)), least_2, least)
    return rest, heated, least


def _rested(store: Store, off: Span, on: Span, t: float) -> tuple[Span, Span]:
    """Heat the stores that are heated through a pause."""
    if on.may is False:
        return off, on
    low, on_low = store.rest(on.low, True, t)  # noqa: FBT003
    high, on_high = store.rest(on.high, True, t)  # noqa: FBT003
    full, still = _settled(store.full, low, high, on_low, on_high, on.may)
    return _both(off, full), still


def through(store: Store, draws: list[Drawn]) -> Day:
    """Step a store through the draws from wherever its thermostat may have left it.

    Two stores heated alike keep their order, so the coolest and the fullest of those at rest and
    of those heated are all that has to be followed.
    """
    never: Any = store.full != store.full  # false, row by row
    off, on = Span(store.calls, store.full, not_(never)), Span(store.full, store.full, never)
    lows, margins = [], []
    for draw in draws:
        assert draw.time is not None
        with part("draw", draw.name):
            off, on, low = _drawn(store, off, on, draw, draw.time)
            lows.append(low)
            margins.append(store.margin(low, draw))
            if draw.gap is not None:
                off, on = _rested(store, off, on, draw.gap)
    return Day(lows, margins, off, on)


def least(values: list[float]) -> float:
    """The least of some, row by row."""
    found = values[0]
    for value in values[1:]:
        found = where(value < found, value, found)
    return found


POINTS = 4
"""Points of the printed curve in each span."""


def curve(store: Store, draws: list[Drawn]) -> dict[str, Any]:
    """Heat in the store, need and supply, from where the thermostat calls through the refill."""
    state, on = store.calls, store.full != store.full
    times, energies = [draws[0].start + 0.0 * state], [store.energy(state)]
    needs = [0.0 * state]

    def point(time: float, here: float, need: float) -> None:
        times.append(time + 0.0 * here)
        energies.append(store.energy(here))
        needs.append(need + 0.0 * here)

    for draw in draws:
        assert draw.time is not None
        assert draw.power is not None
        base = needs[-1]
        for k in range(1, POINTS + 1):
            t = draw.time * (k / POINTS)
            here, _, then = store.draw(state, on, draw, t)
            point(draw.start + t, here, base + draw.power * t)
        state, on = here, then
        if draw.gap is not None:
            for k in range(1, POINTS + 1):
                here, then = store.rest(state, on, draw.gap * (k / POINTS))
                point(draw.end + draw.gap * (k / POINTS), here, needs[-1])
            state, on = here, then
    refill = where(on, store.refill(state), 0.0)
    for k in range(1, POINTS + 1):
        here, _ = store.rest(state, on, refill * (k / POINTS))
        point(draws[-1].end + refill * (k / POINTS), here, needs[-1])
    return {
        "time": times,
        "energy": energies,
        "need": needs,
        "supply": [a + b for a, b in zip(energies, needs, strict=True)],
    }


def first_failing(margins: list[float], slack: float) -> tuple[list[bool], float, bool]:
    """Which draw fails first or, if none, is met most narrowly; its margin; whether all are met.

    A later draw must be narrower by more than the slack, so that equal ones do not change places.
    """
    best = margins[0]
    chosen: list[Any] = [margins[0] == margins[0]]
    failed: Any = margins[0] < -slack
    for margin in margins[1:]:
        narrower = not_(failed) & (margin < best - slack)
        best = where(narrower, margin, best)
        chosen = [before & not_(narrower) for before in chosen]
        chosen.append(narrower)
        failed = any_of(failed, margin < -slack)
    return chosen, best, not_(failed)
