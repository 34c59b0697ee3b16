"""The order of the formulas for the size of a hot water store. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import (
    all_of,
    any_of,
    drawn,
    not_,
    pick,
    refuse,
    require,
    root,
    total,
    where,
)
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
from tundish_plugins.hot_water.storage.draws import TWO_DRAW, Drawn, Water
from tundish_plugins.hot_water.storage.draws import drawn as drawn_water

if TYPE_CHECKING:
    from collections.abc import Callable

    from tundish.rules import Context
    from tundish_plugins.hot_water.storage.contract import StorageInputs

MIXED = "mixed"

WIDER, NARROWEST, STEPS = 1.001, 0.001, 48
"""Ends of the search, as shares of the content that needs no heat (which meets the draws surely),
and the steps in which it looks above what it found: with a thermostat that calls late a larger
store can fail where a smaller one does not."""
SLACK = 1e-6
"""Kelvins, or kilograms of hot water, by which a draw may fail and count as met."""
HOUR = 3600.0
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


def _check_two_draws(i: StorageInputs) -> None:
    """Refuse what the two-draw method has no place for."""
    for given, field in (
        (i.coil_conductance, "/coil_conductance"),
        (i.flow_temperature, "/flow_temperature"),
    ):
        if given is not None:
            refuse("not-in-two-draws", field)
    require(i.restart_difference <= 0.0, "not-in-two-draws", "/restart_difference")
    require(i.sensor_share >= 1.0, "not-in-two-draws", "/sensor_share")


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
        require(
            warmest < T_on,
            "thermostat-calls-too-late",
            "/restart_difference",
            left=(T_on, "temperature", "degC"),
        )
        mixed_alone = f.mixed_without_reheat(
            energies,
            water.T_s,
            water.T_c,
            T_on,
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
        s = i.sensor_share
        plug_alone = f.stratified_without_reheat(
            energies, s, water.f_u, water.rho_s, water.h_s, water.h_c
        )
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
    """What turns content and heat into mixed water, as the store is mixed."""

    T: float
    rho: float
    h: float
    water: Water
    mixed: bool

    def content(self, V: float, store: stores.Store) -> float:
        """Mixed water from the usable content of a full store, not heated."""
        water = self.water
        if self.mixed:
            return f.mixed_store_water(store.size, water.T_s, self.T, self.rho, self.h, water.h_c)
        x = hot_share(self.h, water.h_c, water.h_s)
        return mixed_volume(V, water.f_u, water.rho_s, self.rho, x)

    def hour(self, V_40: float, store: stores.Store, P: float) -> float:
        """Mixed water of the steady draw that a full store just keeps up for an hour."""
        water = self.water

        def left(D: float) -> float:
            w = f.hot_flow(D, water.h_s, water.h_c)
            draw = Drawn("hour", 0.0, self.T, 0.0, 0.0, HOUR, HOUR, D, w, None)
            return store.margin(store.draw(store.full, False, draw, HOUR)[1], draw)  # noqa: FBT003

        with silent():
            least = f.power_of_volume(V_40, self.rho, self.h, water.h_c)
            most = f.heated_power(least, P)
            D = root(left, least * (1 - NEXT), most * (1 + NEXT))
        return f.first_hour(D, self.rho, self.h, water.h_c)


def _candidates(
    i: StorageInputs,
    water: Water,
    heating: stores.Heating,
    draws: list[Drawn],
    needed: float,
    mixing: Mixing,
    P: float,
    *,
    by_hand: bool,
) -> list[dict[str, Any]]:
    found = []
    for candidate in i.candidates:
        V = candidate.volume
        with part("store", candidate.name):
            temperature = hot = None
            with silent():
                store = _store(i, V, water, heating)
            if by_hand:
                with silent():
                    V_u = f.usable_volume(V, water.f_u)
                met: Any = V >= needed * (1 - NEXT)
                weakest = pick(V_u < draws[0].hot_volume, draws[0].name, draws[1].name)
            else:
                with silent():
                    day = stores.through(store, draws)
                    chosen, margin, met = stores.first_failing(day.margins, SLACK)
                weakest = _named(draws, chosen)
                if i.mixing == MIXED:
                    T_m = draws[0].T_m
                    for draw, here in zip(draws[1:], chosen[1:], strict=True):
                        T_m = where(here, draw.T_m, T_m)
                    temperature = f.shown_margin(margin + T_m, water.T_c, T_m)
                else:
                    hot = f.hot_left(margin, water.rho_s)
            V_40 = mixing.content(V, store)
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
                    "first_hour": mixing.hour(V_40, store, P),
                }
            )
    return found


def _after(store: stores.Store, day: stores.Day, draws: list[Drawn]) -> dict[str, Any]:
    """The longest reheat after the last draw, and whether it leaves the store full."""
    with part("store", "after the last draw"):
        wait = where(day.on.may, store.refill(day.on.low), 0.0)
        full = any_of(not_(day.off.may), day.off.low >= store.full)
        return {
            "reheat_time": wait,
            "reheat_end": f.later(draws[-1].end, wait),
            "left_full": full,
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
    if c.method == TWO_DRAW:
        _check_two_draws(i)
    heating = _heating(i, water)
    draws = drawn_water(i, c, water)
    by_hand = c.method == TWO_DRAW
    mixed = i.mixing == MIXED
    V_r = curve = None
    if by_hand:
        need, V_r = _needs_of_two(water, heating, draws)
    else:
        need = _needs_of_profile(i, water, heating, draws)
    needed = need.mixed if mixed else need.stratified
    alone = need.mixed_alone if mixed else need.stratified_alone

    after: dict[str, Any] = dict.fromkeys(("reheat_time", "reheat_end", "left_full", "next_day"))
    with silent():
        store = _store(i, needed, water, heating)
    if V_r is not None:
        temperatures, left = _two_states(i, needed, V_r, draws, water)
    else:
        with silent():
            day = stores.through(store, draws)
        note("the day starts where the thermostat leaves least: anywhere from full to its call")
        temperatures = day.lows if mixed else [None] * len(draws)
        left = [None] * len(draws) if mixed else [f.hot_left(m, water.rho_s) for m in day.lows]
        after = _after(store, day, draws)
        curve = drawn(stores.curve, store, draws)

    mixing = Mixing(T_40, density(T_40), enthalpy(T_40), water, mixed)
    P = heating.power
    candidates = _candidates(i, water, heating, draws, needed, mixing, P, by_hand=by_hand)
    if i.candidates:
        note("each store to compare is taken through the same draws")
    V_40 = mixing.content(needed, store)
    T_rest = f.restart_temperature(T_s, i.restart_difference) if mixed else T_s
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
        "net_heat_input": heating.power,
        "recovered_volume": V_r,
        **after,
        "mixed_volume": V_40,
        "first_hour": mixing.hour(V_40, store, P),
        "profile_mixed_volume_least": least,
        "resting_temperature": T_rest,
        "kept_hot": all_of(water.f_u >= 1.0, T_rest >= T_s, any_of(mixed, i.sensor_share >= 1.0)),
        "any_met": any_of(*[row["met"] for row in candidates]) if candidates else None,
        "draws": _rows(draws, temperatures, left),
        "candidates": candidates,
        "curve": curve,
    }
