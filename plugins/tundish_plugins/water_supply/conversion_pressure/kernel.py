"""The order of the formulas for turning a house to mains pressure. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, any_of, choose, larger, refuse, require
from tundish.physics import pipes
from tundish.physics.water import density
from tundish.working import part, silent
from tundish_plugins.water_supply import elasticity as e
from tundish_plugins.water_supply.conversion_pressure import formulas as f
from tundish_plugins.water_supply.formulas import (
    cistern_pressure,
    mixer_ratio,
    pressure_ratio,
    valve_static,
    worst_of_hot_side,
)
from tundish_plugins.water_supply.proof import proof_needed

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.water_supply.conversion_pressure.contract import (
        Closing,
        ConversionInputs,
        Mixer,
        Part,
    )

SLACK = 1e-9
GO = {"replace", "remove"}
NO_RISE = "Its pressure does not rise: the change asks nothing of it."


def _from_cistern(i: ConversionInputs, rho: float, level: float, place: str) -> float:
    """Static pressure from the cistern; the part must lie below its water level."""
    if i.cistern_level is None:
        refuse("cistern-level-missing", "/cistern_level")
    assert i.cistern_level is not None
    require(
        level < i.cistern_level,
        "above-cistern",
        f"{place}/level",
        cistern=(i.cistern_level, "length", "m"),
    )
    return cistern_pressure(rho, f.depth_below_cistern(i.cistern_level, level))


def _main_at(i: ConversionInputs, rho: float, level: float) -> float:
    return e.static_pressure(i.mains_pressure, rho, level, i.mains_level)


def _behind_valve(i: ConversionInputs, rho: float, level: float) -> float:
    """Static pressure behind the reducing valve, or the main's where there is none."""
    if i.reducing_valve is None:
        return _main_at(i, rho, level)
    valve = i.reducing_valve
    p_r = valve_static(valve.setting, _main_at(i, rho, valve.level))
    return e.static_pressure(p_r, rho, level, valve.level)


def _after(i: ConversionInputs, rho: float, feed: str, level: float, place: str) -> float:
    """Static pressure after, at a level; water must reach it."""
    if feed == "cistern":
        return _from_cistern(i, rho, level, place)
    if feed == "reduced" and i.reducing_valve is None:
        refuse("reducing-valve-missing", "/reducing_valve")
    p = _main_at(i, rho, level) if feed == "mains" else _behind_valve(i, rho, level)
    require(p > 0.0, "above-supply", f"{place}/level", pressure=(p, "pressure_gauge", "bar"))
    return p


def _by_night(i: ConversionInputs, rho: float, feed: str) -> Any:
    """Whether a night cannot bring more than was judged: recorded, or held by the valve."""
    if i.recorded_overnight or feed == "cistern":
        return True
    if feed == "mains" or i.reducing_valve is None:
        return False
    valve = i.reducing_valve
    return _main_at(i, rho, valve.level) >= valve.setting * (1 - SLACK)


def _worst(i: ConversionInputs, rho: float, feed: str, level: float, p: float) -> float:
    """Highest static pressure: on the hot side the expansion valve lifting."""
    if feed != "hot-store":
        return p
    if i.expansion_valve is None:
        refuse("expansion-valve-missing", "/expansion_valve")
    assert i.expansion_valve is not None
    valve = i.expansion_valve
    return worst_of_hot_side(p, e.static_pressure(valve.setting, rho, level, valve.level))


def _size(closing: Closing, c: Context, place: str) -> tuple[float, float]:
    """Bore and wall, from the table or as given."""
    if closing.tube is not None:
        if closing.bore is not None or closing.wall is not None:
            refuse("tube-size-twice", f"{place}/tube")
        row = c.table("water-tubes").at(f"{place}/tube").exact(tube=closing.tube)
        return row["bore"], row["wall"]
    if closing.bore is None or closing.wall is None:
        refuse("tube-size-missing", f"{place}/tube")
    assert closing.bore is not None
    assert closing.wall is not None
    return closing.bore, closing.wall


def _closing_surge(closing: Closing, c: Context, place: str) -> tuple[float, float]:
    """Wave speed and surge of a flow that is stopped."""
    d, s = _size(closing, c, place)
    row = c.table("pipe-elasticity").at(f"{place}/material").exact(material=closing.material)
    rho = density(closing.temperature)
    D = e.pipe_give(row["modulus"], row["poisson"], d, s)
    a = e.wave_speed(e.speed_of_sound(closing.temperature), rho, D)
    w = pipes.velocity(closing.flow, d)
    if closing.closing_time is None:
        return a, f.sudden_surge(rho, a, w)
    if closing.length is None:
        refuse("closing-length-missing", f"{place}/length")
    assert closing.length is not None
    dp: float = choose(
        closing.closing_time <= f.reflection_time(closing.length, a),
        lambda rho, a, w, L, t: f.sudden_surge(rho, a, w),  # noqa: ARG005
        lambda rho, a, w, L, t: f.slow_surge(rho, L, w, t),  # noqa: ARG005
        rho,
        a,
        w,
        closing.length,
        closing.closing_time,
        why="closed before the wave is back: as if at once",
    )
    return a, dp


def _listed(p: Part, c: Context, place: str) -> dict[str, Any]:
    """What the list of old parts says of this kind."""
    row = c.table("conversion-parts").at(f"{place}/kind").exact(kind=p.kind)
    law = None
    if c.has("conversion-parts-regulation"):
        table = c.table("conversion-parts-regulation")
        if p.kind in table.keys("kind"):
            law = str(table.exact(kind=p.kind)["requirement"])
    on_main = p.fed_before == "mains" and p.fed_after in {"mains", "reduced"}
    same = on_main or p.fed_after == "cistern"
    # What mains pressure makes dangerous is not safe for having been on the main before.
    never = str(row["regardless"]) == "yes" or (on_main and str(row["danger"]) == "yes")
    spared = same and not never
    action = "keep" if spared else str(row["action"])
    stays = p.plan == "keep" and p.fed_after != "none" and not spared and action not in GO
    return {
        "action": action,
        "reason": NO_RISE if spared else str(row["reason"]),
        "regulation": law,
        "unchanged": same,
        "kept": stays,
        "listed_to_go": action in GO,
        "listed_dangerous": action in GO and str(row["danger"]) == "yes",
        "must_change": p.plan == "keep" and action in GO,
        "must_prove": stays and str(row["proof"]) == "yes",
        "must_check": stays and action == "check",
        "cut_off": p.plan == "remove" or p.fed_after == "none",
        "fluid_category": (
            int(row["category"])
            if row.has("category") and p.plan != "remove" and p.fed_after != "none"
            else None
        ),
    }


def _part(p: Part, i: ConversionInputs, c: Context, rho: float, place: str) -> dict[str, Any]:
    out = {"name": p.name, **_listed(p, c, place)}
    p_1 = p_2 = p_w = p_f = r = a = dp = peak = need = None
    if p.fed_before == "cistern":
        p_1 = _from_cistern(i, rho, p.level, place)
    elif p.fed_before == "mains":
        p_1 = _main_at(i, rho, p.level)
        require(
            p_1 > 0.0, "above-supply", f"{place}/level", pressure=(p_1, "pressure_gauge", "bar")
        )
    known: Any = p.rating is not None
    night: Any = True
    if not out["cut_off"]:
        p_2 = _after(i, rho, p.fed_after, p.level, place)
        p_w = _worst(i, rho, p.fed_after, p.level, p_2)
        with silent():
            night = _by_night(i, rho, p.fed_after)
        if p.fed_after == "reduced":
            p_f = _main_at(i, rho, p.level)
        if p_1 is not None:
            r = pressure_ratio(p_2, p_1)
        if p.closing is None:
            dp = i.surge_allowance
        else:
            a, dp = _closing_surge(p.closing, c, f"{place}/closing")
        peak = f.peak_pressure(p_2, dp, p_w)
        if out["kept"]:
            need = proof_needed(c.value("strength-test-factor"), p_w)
            known = any_of(known, p.proved_to >= need * (1 - SLACK))
    return {
        **out,
        "before": p_1,
        "after": p_2,
        "worst": p_w,
        "highest_known": night,
        "valve_failed": p_f,
        "pressure_ratio": r,
        "flow_ratio": None if r is None else f.flow_ratio(r),
        "wave_speed": a,
        "surge": dp,
        "surge_computed": a is not None,
        "peak": peak,
        "proof_needed": need,
        "strength_known": known,
    }


def _mixer(m: Mixer, i: ConversionInputs, rho: float, place: str) -> dict[str, Any]:
    p_h = _after(i, rho, m.hot_feed, m.level, place)
    p_c = _after(i, rho, m.cold_feed, m.level, place)
    measured = m.hot_flowing is not None and m.cold_flowing is not None
    if measured:
        assert m.hot_flowing is not None
        assert m.cold_flowing is not None
        p_h, p_c = m.hot_flowing, m.cold_flowing
    return {
        "name": m.name,
        "hot": p_h,
        "cold": p_c,
        "measured": measured,
        "ratio": mixer_ratio(p_h, p_c),
        "one_source": (m.hot_feed == "cistern") == (m.cold_feed == "cistern"),
    }


def _notice(i: ConversionInputs, c: Context) -> dict[str, Any] | None:
    """What is weighed against the region's list; nothing where the region has none."""
    n = i.notice
    if n is None:
        return None
    if not c.has("notice-operations"):
        return dict.fromkeys(("pump_flow", "bath_volume", "pipe_depth", "listed_work"))
    c.text("notice-operations")
    return {
        "pump_flow": n.pump_flow,
        "bath_volume": n.bath_volume,
        "pipe_depth": n.pipe_depth,
        "listed_work": n.bidet or n.backflow_valve or n.treatment or n.other_premises,
    }


def _order(i: ConversionInputs, rho: float) -> Any:
    """Whether cold pressure, expansion valve and relief valve rise in that order."""
    if i.expansion_valve is None:
        return None
    valve = i.expansion_valve
    cold = _behind_valve(i, rho, valve.level)
    above = cold < valve.setting
    if i.relief_setting is None:
        return above
    return all_of(above, valve.setting < i.relief_setting)


def _highest(parts: list[dict[str, Any]]) -> Any:
    peaks = [item["peak"] for item in parts if item["peak"] is not None]
    if not peaks:
        return None
    top = peaks[0]
    for peak in peaks[1:]:
        top = larger(top, peak)
    return top


def kernel(i: ConversionInputs, c: Context) -> dict[str, Any]:
    """Pressures before and after at every part, and what must be done first."""
    rho = density(i.water_temperature)
    parts = []
    for k, p in enumerate(i.parts):
        with part("part", p.name):
            parts.append(_part(p, i, c, rho, f"/parts/{k}"))
    mixers = []
    for k, m in enumerate(i.mixers):
        with part("mixer", m.name):
            mixers.append(_mixer(m, i, rho, f"/mixers/{k}"))
    with silent():
        in_order = _order(i, rho)
    feeds = [
        p.fed_after
        for p, out in zip(i.parts, parts, strict=True)
        if not out["cut_off"] and not out["unchanged"]
    ]
    straight = "mains" in feeds or ("hot-store" in feeds and i.reducing_valve is None)
    return {
        "parts": parts,
        "mixers": mixers,
        "notice": _notice(i, c),
        "mains_reaches": straight,
        "settings_in_order": in_order,
        "highest": _highest(parts),
        "to_change": sum(out["must_change"] for out in parts),
        "to_prove": sum(out["must_prove"] for out in parts),
        "to_check": sum(
            out["must_check"] and not p.checked for p, out in zip(i.parts, parts, strict=True)
        ),
        "to_cap": sum(
            out["cut_off"] and not p.capped for p, out in zip(i.parts, parts, strict=True)
        ),
    }
