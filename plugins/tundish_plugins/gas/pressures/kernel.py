"""The order of the formulas for gas pressures. Floats or arrays."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, any_of, larger, not_, pick, require
from tundish.working import part
from tundish_plugins.gas.pipe_sizing.formulas import gas_flow, spare, together
from tundish_plugins.gas.pressures import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row
    from tundish_plugins.gas.pressures.contract import Appliance, PressuresInputs

_SLACK = 1 + 1e-9
_ALMOST = 1 - 1e-9

SUPPLY = "supply"
REGULATOR = "meter regulator"
EITHER = "supply or meter regulator"
PIPEWORK = "pipework"
APPLIANCE = "appliance"
UNREACHED = "pressure at the meter below what an appliance asks for"
METER = "meter"
AGAIN = "nothing found at this load"
NOTHING = "nothing found"
UNRANGED = "nothing found, no range on file"

STEPS = {
    SUPPLY: "Report the low pressure to the gas supplier or the gas emergency service: the gas "
    "comes in too low. The regulator is theirs; leave its seal.",
    EITHER: "Report the pressure at the meter to the gas supplier or the gas emergency service; "
    "they tell supply from regulator by the pressure before it. Leave its seal.",
    REGULATOR: "Report it to the gas supplier or the gas emergency service: the meter regulator "
    "does not hold its pressure. It is theirs; leave its seal.",
    PIPEWORK: "Find the section that drops most: read at the meter, before and after each tee, all "
    "at full rate. Then enlarge it, and look for kinks, solder and closed valves.",
    APPLIANCE: "The pipework does its part. Look at the appliance: inlet filter and valve, gas "
    "valve, injector, setting; ask its maker.",
    AGAIN: "Read again with every appliance at full rate: what ran shows nothing of the full load.",
    NOTHING: "Enter the pressures in the record. Take the gas rate, and combustion where the maker "
    "asks for it.",
    UNREACHED: "Read at the inlet of that appliance, and hold its maker's figure against the "
    "pressure at the meter: no pipework gives it more than that.",
    METER: "Ask the gas supplier for a meter that passes the full load.",
    UNRANGED: "No range at the meter is on file for this gas: hold the pressure there against the "
    "gas supplier's and the makers' figures before it is called in order.",
}


def _loads(i: PressuresInputs, gas: Row) -> list[tuple[float, float]]:
    """Flow of every appliance at full rate and during the test."""
    found = []
    for item in i.appliances:
        with part("appliance", item.name):
            H = gas["net"] if item.heat_input.basis == "net" else gas["gross"]
            Q = gas_flow(item.heat_input.value, H)
            found.append((Q, f.drawn_at(Q, item.share)))
    return found


def _conditions(
    i: PressuresInputs, loads: list[tuple[float, float]], others: float
) -> tuple[Any, Any]:
    """Whether the meter was read under its condition, and whether everything ran at full rate."""
    highest = reduce(larger, [Q for Q, _ in loads])
    highest_full: Any = False
    others_on: Any = True
    full: Any = True
    for item, (Q, _) in zip(i.appliances, loads, strict=True):
        is_full = item.share >= _ALMOST
        highest_full = any_of(highest_full, all_of(is_full, highest * _ALMOST <= Q))
        others_on = all_of(others_on, item.share >= others * _ALMOST)
        full = all_of(full, is_full)
    return all_of(highest_full, others_on), full


def _check_meter(i: PressuresInputs) -> None:
    """Refuse pressures of which one excludes the other."""
    r = i.resolution
    for name in ("standing_pressure", "lock_up_pressure", "regulator_inlet"):
        given = getattr(i, name)
        if given is not None:
            require(
                given + r >= i.meter_pressure * _ALMOST,
                "below-working-pressure",
                f"/{name}",
                working=(i.meter_pressure, "pressure_gauge", "mbar"),
            )


def _appliance(
    i: PressuresInputs, index: int, load: tuple[float, float], limit: float, full: Any
) -> dict[str, Any]:
    item: Appliance = i.appliances[index]
    found: dict[str, Any] = {"name": item.name, "flow": load[0], "test_flow": load[1]}
    blank = dict.fromkeys(("inlet", "drop", "spare", "sure", "unregulated_share"))
    found["unread_most"] = i.meter_pressure if item.inlet_pressure is None else None
    p_i = item.inlet_pressure
    if p_i is None:
        return {**found, "read": False, **blank}
    require(
        p_i <= (i.meter_pressure + i.resolution) * _SLACK,
        "drop-negative",
        f"/appliances/{index}/inlet_pressure",
        meter=(i.meter_pressure, "pressure_gauge", "mbar"),
    )
    dp = f.drop(i.meter_pressure, p_i)
    return {
        **found,
        "read": True,
        "inlet": p_i,
        "drop": dp,
        "spare": spare(limit, dp),
        "sure": all_of(full, f.a_step_more(dp, i.resolution) <= limit * _SLACK),
        "unregulated_share": (
            None if i.nominal_pressure is None else f.unregulated(p_i, i.nominal_pressure)
        ),
    }


def _points(i: PressuresInputs) -> list[dict[str, Any]]:
    found = [
        {"name": name, "pressure": value}
        for name, value in (
            ("meter, standing", i.standing_pressure),
            ("meter, lock-up", i.lock_up_pressure),
            ("meter, working", i.meter_pressure),
        )
        if value is not None
    ]
    found += [
        {"name": f"at {item.name}", "pressure": item.inlet_pressure}
        for item in i.appliances
        if item.inlet_pressure is not None
    ]
    return found


def _first(ways: list[tuple[Any, str]], otherwise: str) -> tuple[str, str]:
    """The first cause that applies, seen from the street, and what to do about it."""
    cause, step = otherwise, STEPS[otherwise]
    for applies, name in reversed(ways):
        cause, step = pick(applies, name, cause), pick(applies, STEPS[name], step)
    return cause, step


def _low(i: PressuresInputs, low: Any, least: float, most: float) -> list[tuple[Any, str]]:
    """Whose fault a low pressure at the meter is, as far as the pressure before it tells.

    Below the least, the regulator cannot give it. Above the most it is ever to give, it has enough.
    Between the two an open regulator may still lose what is lacking: it stays open.
    """
    p = i.regulator_inlet
    if p is None:
        return [(low, EITHER)]
    starved, fed = p < least * _ALMOST, p > most * _SLACK
    return [(all_of(low, starved), SUPPLY), (all_of(low, fed), REGULATOR), (low, EITHER)]


def _too_small(i: PressuresInputs, load: float) -> list[tuple[Any, str]]:
    if i.meter_capacity is None:
        return []
    return [(load > i.meter_capacity * _SLACK, METER)]


def kernel(i: PressuresInputs, c: Context) -> dict[str, Any]:
    """Where the pressure is lost between the street and the burners."""
    gas = c.table("gas-named").at("/gas").exact(gas=i.gas)
    natural = gas["family"] == "natural"
    limit = c.value(f"gas-drop-limit-{gas['family']}")
    _check_meter(i)
    loads = _loads(i, gas)
    load, test = together([Q for Q, _ in loads]), together([Q for _, Q in loads])
    require(test > 0.0, "nothing-burns", "/appliances")
    others = c.value("gas-meter-others-share") if c.has("gas-meter-others-share") else 1.0
    at_meter, full = _conditions(i, loads, others)
    appliances = [_appliance(i, n, load, limit, full) for n, load in enumerate(loads)]
    drops = [item["drop"] for item in appliances if item["drop"] is not None]
    low: Any = False
    high: Any = False
    ranged = natural and c.has("gas-meter-pressure-least") and c.has("gas-meter-pressure-most")
    from_street: list[tuple[Any, str]] = []
    if ranged:
        least, most = c.value("gas-meter-pressure-least"), c.value("gas-meter-pressure-most")
        low = i.meter_pressure < least * _ALMOST
        high = i.meter_pressure > most * _SLACK
        from_street = [(high, REGULATOR), *_low(i, low, least, most)]
    if ranged and c.has("gas-lock-up-most"):
        highest = c.value("gas-lock-up-most")
        for value in (i.standing_pressure, i.lock_up_pressure):
            if value is not None:
                from_street.append((value > highest * _SLACK, REGULATOR))
    over: Any = any_of(*[dp > limit * _SLACK for dp in drops])
    # An inlet that was not read gets what the meter has at most.
    unreached: Any = any_of(
        *[
            i.meter_pressure < item.least_inlet * _ALMOST
            for item in i.appliances
            if item.inlet_pressure is None and item.least_inlet is not None
        ]
    )
    short: Any = any_of(
        unreached,
        *[
            item.inlet_pressure < item.least_inlet * _ALMOST
            for item in i.appliances
            if item.inlet_pressure is not None and item.least_inlet is not None
        ],
    )
    wrong_rate = i.rate_right is False
    cause, step = _first(
        [
            *from_street,
            (over, PIPEWORK),
            (unreached, UNREACHED),
            (any_of(short, wrong_rate), APPLIANCE),
            *_too_small(i, load),
            (not_(full), AGAIN),
        ],
        NOTHING if ranged else UNRANGED,
    )
    no_flow = {
        name: None if value is None else f.rise(value, i.meter_pressure)
        for name, value in (
            ("standing_rise", i.standing_pressure),
            ("lock_up_rise", i.lock_up_pressure),
        )
    }
    return {
        "family": gas["family"],
        "drop_limit": limit,
        "full_load": load,
        "test_load": test,
        "meter_judged": i.meter_capacity is not None,
        "meter_condition": at_meter,
        "full_condition": full,
        "range_known": ranged,
        "drop_read": bool(drops),
        **no_flow,
        "highest_drop": reduce(f.higher, drops) if drops else None,
        "meter_low": low,
        "meter_high": high,
        "pipework_over": over,
        "appliance_short": short,
        # Too much pressure makes no inlet short: then only the rate tells.
        "inlets_judged": any_of(
            i.rate_right is True,
            all_of(
                not_(high),
                all(
                    item.inlet_pressure is not None and item.least_inlet is not None
                    for item in i.appliances
                ),
            ),
        ),
        "supply_reaches_appliance": all_of(any_of(low, high), any_of(short, wrong_rate)),
        "cause": cause,
        "next_step": step,
        "points": _points(i),
        "appliances": appliances,
    }
