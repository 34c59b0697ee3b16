"""The order of the formulas for the size of a hot water store. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import any_of, drawn, not_, pick, refuse, require, root, total, where
from tundish.physics.water import density, enthalpy
from tundish.working import note, part, silent
from tundish_plugins.hot_water.recovery.formulas import (
    changeover,
    hot_share,
    loss_conductance,
    mixed_volume,
)
from tundish_plugins.hot_water.storage import formulas as f
from tundish_plugins.hot_water.storage import stores
from tundish_plugins.hot_water.storage.draws import (
    TWO_DRAW,
    Water,
)
from tundish_plugins.hot_water.storage.draws import drawn as drawn_water

if TYPE_CHECKING:
    from collections.abc import Callable

    from tundish.rules import Context
    from tundish_plugins.hot_water.storage.contract import StorageInputs
    from tundish_plugins.hot_water.storage.draws import Drawn

MIXED = "mixed"

WIDER, NARROWEST, STEPS = 1.001, 0.001, 48
"""Ends of the search, as shares of the content that needs no heat (which meets the draws surely),
and the steps in which it looks above what it found: with a thermostat that calls late a larger
store can fail where a smaller one does not."""
SLACK = 1e-6
"""Kelvins, or kilograms of hot water, by which a draw may fail and count as met."""
NEXT = 1e-9
"""Relative step across a volume at which a late thermostat makes the margin jump."""


@dataclass(frozen=True)
class Need:
    """The needed content by each store, and without heat."""

    mixed: float
    stratified: float
    mixed_alone: float
    stratified_alone: float
    source_alone: bool | None = None


def _heating(i: StorageInputs, water: Water) -> stores.Heating:
    """Heat brought in and the coil's law, the standing loss taken off."""
    power, T_f, G = i.heat_input, i.flow_temperature, i.coil_conductance
    if (G is None) != (T_f is None):
        refuse("coil-incomplete", "/coil_conductance" if G is None else "/flow_temperature")
    if i.standing_loss is not None:
        UA_l = loss_conductance(i.standing_loss)
        power = f.net_input(power, UA_l, water.T_s, i.ambient_temperature)
        if T_f is not None and G is not None:
            T_f = f.net_flow_temperature(T_f, UA_l, water.T_s, i.ambient_temperature, G)
    require(power > 0.0, "loss-takes-all", "/heat_input")
    if T_f is None or G is None:
        return stores.Heating(power, None, None, None)
    require(
        T_f > water.T_s,
        "store-unreachable",
        "/flow_temperature",
        reachable=(T_f, "temperature", "degC"),
    )
    return stores.Heating(power, G, T_f, changeover(T_f, power, G))


def _search(
    make: Callable[[float], stores.Store], draws: list[Drawn], alone: float
) -> tuple[float, bool]:
    """Return the content from which on the draws are met, and whether the source carries them."""

    def spare(V: float) -> float:
        return stores.least(stores.through(make(V), draws).margins)

    least, top = NARROWEST * alone, WIDER * alone
    with silent():
        carried = spare(least) >= 0.0  # the source carries the draws without a store
        first = root(lambda V: where(carried, V - least, spare(V)), least, top)
        low, high, again = first, top, carried & not_(carried)
        for n in range(1, STEPS):
            here = first * (top / first) ** (n / STEPS)
            fails = spare(here) < -SLACK
            low = where(fails, here, low)
            high = where(fails, first * (top / first) ** ((n + 1) / STEPS), high)
            again = any_of(again, fails)

    V = root(
        lambda V: where(again, spare(V), V - first),
        low,
        high,
        what="content from which on every draw is met",
    )
    with silent():
        up, down = V * (1 + NEXT), V * (1 - NEXT)
        V = where(spare(V) >= -SLACK, V, where(spare(up) >= -SLACK, up, down))
    return V, carried & not_(again)


def _needs_of_profile(
    i: StorageInputs, water: Water, heating: stores.Heating, draws: list[Drawn]
) -> Need:
    energies = [d.energy for d in draws]
    warmest = draws[0].T_m + 0.0 * water.T_s
    for draw in draws[1:]:
        warmest = where(draw.T_m > warmest, draw.T_m, warmest)
    with part("store", "mixed"):
        T_on = f.restart_temperature(water.T_s, i.restart_difference)
        mixed_alone = f.mixed_without_reheat(
            energies,
            water.T_s,
            water.T_c,
            warmest,
            water.f_u,
            water.rho_s,
            water.h_s,
            water.h_c,
        )
        mixed, mixed_carried = _search(
            lambda V: stores.Mixed(V, water, heating, T_on), draws, mixed_alone
        )
    with part("store", "stratified"):
        plug_alone = f.stratified_without_reheat(
            energies, water.f_u, water.rho_s, water.h_s, water.h_c
        )
        s = i.sensor_share
        plug, plug_carried = _search(
            lambda V: stores.Stratified(V, water, heating, s), draws, plug_alone
        )
    carried = mixed_carried if i.mixing == MIXED else plug_carried
    return Need(mixed, plug, mixed_alone, plug_alone, carried)


def _needs_of_two(water: Water, heating: stores.Heating, draws: list[Drawn]) -> tuple[Need, float]:
    """The two draws of the former British Standard."""
    first, second = draws
    assert first.gap is not None
    V_1, V_2, T_m = first.hot_volume, second.hot_volume, second.T_m
    T_s, T_c, f_u = water.T_s, water.T_c, water.f_u
    V_r = f.recovered_between(first.gap, heating.power, T_s, T_c, V_1)
    mixed = f.with_unusable(f.two_draws_mixed(V_1, V_2, V_r, T_s, T_c, T_m), f_u)
    plug = f.with_unusable(f.two_draws_stratified(V_1, V_2, V_r), f_u)
    with part("store", "without reheat"):
        none = 0.0 * V_r
        mixed_alone = f.with_unusable(f.two_draws_mixed(V_1, V_2, none, T_s, T_c, T_m), f_u)
        plug_alone = f.with_unusable(f.two_draws_stratified(V_1, V_2, none), f_u)
    return Need(mixed, plug, mixed_alone, plug_alone), V_r


def _store(i: StorageInputs, V: float, water: Water, heating: stores.Heating) -> stores.Store:
    if i.mixing == MIXED:
        return stores.Mixed(
            V, water, heating, f.restart_temperature(water.T_s, i.restart_difference)
        )
    return stores.Stratified(V, water, heating, i.sensor_share)


def _two_states(i: StorageInputs, V: float, V_r: float, draws: list[Drawn], water: Water) -> Any:
    """State of the store in each of two draws: lowest temperature or hot water left."""
    first, second = draws
    V_u = f.usable_volume(V, water.f_u)
    if i.mixing == MIXED:
        T = f.second_draw_temperature(first.hot_volume, V_r, V_u, water.T_s, water.T_c)
        return [water.T_s, T], [None, None]
    left = f.left_after_two(first.hot_volume, second.hot_volume, V_r, V_u)
    return [None, None], [f.left_after_first(first.hot_volume, V_u), left]


def _named(draws: list[Drawn], chosen: list[bool]) -> str:
    name = draws[0].name
    for draw, here in zip(draws[1:], chosen[1:], strict=True):
        name = pick(here, draw.name, name)
    return name


@dataclass(frozen=True)
class Mixing:
    """What turns content and heat into mixed water."""

    rho: float
    h: float
    x: float
    rho_s: float
    f_u: float
    h_c: float
    power: float

    def content(self, V: float) -> float:
        """Mixed water from the usable content."""
        return mixed_volume(V, self.f_u, self.rho_s, self.rho, self.x)

    def hour(self, V_40: float) -> float:
        """Mixed water with an hour of heating."""
        return f.first_hour(V_40, self.power, self.rho, self.h, self.h_c)


def _candidates(
    i: StorageInputs,
    water: Water,
    heating: stores.Heating,
    draws: list[Drawn],
    needed: float,
    mixing: Mixing,
    *,
    by_hand: bool,
) -> list[dict[str, Any]]:
    found = []
    for candidate in i.candidates:
        V = candidate.volume
        with part("store", candidate.name):
            temperature = hot = None
            if by_hand:
                with silent():
                    V_u = f.usable_volume(V, water.f_u)
                met: Any = V >= needed * (1 - NEXT)
                weakest = pick(V_u < draws[0].hot_volume, draws[0].name, draws[1].name)
            else:
                with silent():
                    store = _store(i, V, water, heating)
                    run = stores.through(store, draws)
                    chosen, margin, met = stores.first_failing(run.margins, SLACK)
                weakest = _named(draws, chosen)
                if i.mixing == MIXED:
                    T_m = draws[0].T_m
                    for draw, here in zip(draws[1:], chosen[1:], strict=True):
                        T_m = where(here, draw.T_m, T_m)
                    temperature = f.shown_margin(margin + T_m, water.T_c, T_m)
                else:
                    hot = f.hot_left(margin, water.rho_s)
            V_40 = mixing.content(V)
            found.append(
                {
                    "name": candidate.name,
                    "volume": V,
                    "met": met,
                    "spare_volume": f.spare_volume(V, needed),
                    "weakest_draw": weakest,
                    "temperature_margin": temperature,
                    "hot_margin": hot,
                    "mixed_volume": V_40,
                    "first_hour": mixing.hour(V_40),
                }
            )
    return found


def _after(store: stores.Store, run: stores.Run, draws: list[Drawn]) -> dict[str, Any]:
    """When the store is full again."""
    with part("store", "after the last draw"):
        wait = where(run.heated, store.refill(run.state), 0.0)
        return {
            "reheat_time": wait,
            "full_again": f.later(draws[-1].end, wait),
            "next_day": f.day_later(draws[0].start),
        }


def _rows(draws: list[Drawn], temperatures: list[Any], left: list[Any]) -> list[dict[str, Any]]:
    return [
        {
            "name": draw.name,
            "start": draw.start,
            "end": draw.end,
            "hot_volume": draw.hot_volume,
            "energy": draw.energy,
            "store_temperature": T,
            "hot_left": V,
        }
        for draw, T, V in zip(draws, temperatures, left, strict=True)
    ]


def kernel(i: StorageInputs, c: Context) -> dict[str, Any]:
    """Needed content by two draws or by a profile, and how each candidate does."""
    T_s, T_c, T_40 = i.store_temperature, i.cold_temperature, i.mix_temperature
    require(T_c < T_40, "mix-not-above-cold", "/mix_temperature")
    require(T_40 < T_s, "store-too-cool-to-mix", "/mix_temperature")
    water = Water(T_s, T_c, density(T_s), enthalpy(T_s), enthalpy(T_c), i.usable_share)
    heating = _heating(i, water)
    draws = drawn_water(i, c, water)
    by_hand = c.method == TWO_DRAW
    V_r = curve = None
    if by_hand:
        need, V_r = _needs_of_two(water, heating, draws)
    else:
        need = _needs_of_profile(i, water, heating, draws)
    mixed = i.mixing == MIXED
    needed = need.mixed if mixed else need.stratified
    alone = need.mixed_alone if mixed else need.stratified_alone

    after: dict[str, Any] = {"reheat_time": None, "full_again": None, "next_day": None}
    if V_r is not None:
        temperatures, left = _two_states(i, needed, V_r, draws, water)
    else:
        with silent():
            store = _store(i, needed, water, heating)
            run = stores.through(store, draws)
        temperatures = run.lows if mixed else [None] * len(draws)
        left = [None] * len(draws) if mixed else [f.hot_left(m, water.rho_s) for m in run.lows]
        after = _after(store, run, draws)
        curve = drawn(stores.curve, store, draws)

    h_40 = enthalpy(T_40)
    x = hot_share(h_40, water.h_c, water.h_s)
    power = heating.power
    if heating.G is not None and heating.T_f is not None:
        power = f.power_into_cold(power, heating.G, heating.T_f, T_c)
    mixing = Mixing(density(T_40), h_40, x, water.rho_s, water.f_u, water.h_c, power)
    candidates = _candidates(i, water, heating, draws, needed, mixing, by_hand=by_hand)
    if i.candidates:
        note("each store to compare is taken through the same draws")
    V_40 = mixing.content(needed)
    daily = least = None
    if i.persons is not None and c.has("hot-water-daily-person"):
        daily = f.daily_volume(
            c.value("hot-water-daily-base"), c.value("hot-water-daily-person"), float(i.persons)
        )
    if i.load_profile is not None:
        row = c.table("load-profile-mixed-water-least").exact(profile=i.load_profile)
        least = row["mixed_volume"]
    return {
        "needed_volume": needed,
        "needed_stratified": need.stratified,
        "needed_mixed": need.mixed,
        "volume_without_reheat": alone,
        "source_alone": need.source_alone,
        "hot_volume": f.hot_volume(
            f.all_energy([d.energy for d in draws]), water.rho_s, water.h_s, water.h_c
        )
        if not by_hand
        else total(d.hot_volume for d in draws),
        "drawn_energy": f.all_energy([d.energy for d in draws]),
        "daily_volume": daily,
        "heat_input": heating.power,
        "recovered_volume": V_r,
        **after,
        "mixed_volume": V_40,
        "first_hour": mixing.hour(V_40),
        "profile_mixed_volume_least": least,
        "wholly_usable": water.f_u >= 1.0,
        "any_met": any_of(*[row["met"] for row in candidates]) if candidates else None,
        "draws": _rows(draws, temperatures, left),
        "candidates": candidates,
        "curve": curve,
    }
