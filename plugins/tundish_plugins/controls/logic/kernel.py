"""Settle a wiring in every state, and hold what it does against what is meant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.working import note, part
from tundish_plugins.controls.logic import examine as x
from tundish_plugins.controls.logic import formulas as f
from tundish_plugins.controls.logic.reading import read
from tundish_plugins.controls.logic.wiring import Work

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.controls.logic.contract import LogicInputs


def _isolators(i: LogicInputs) -> list[str] | None:
    mains = [supply.isolator for supply in i.supplies if supply.band == "mains"]
    return list(dict.fromkeys(mains)) or None


def _remembered(e: x.Examined) -> dict[str, int]:
    """What rests otherwise in some state when everything was on before."""
    resting = e.full & ~e.settled.unsettled & ~e.held_unsettled
    found = {name: (e.columns[name] ^ e.held[name]) & resting for name in e.wiring.names}
    return {name: column for name, column in found.items() if column}


def _listed(e: x.Examined, columns: dict[str, int]) -> str | None:
    words = [f"{name} ({x.whenever(e, column)})" for name, column in columns.items()]
    return "; ".join(words) or None


def _results(e: x.Examined, N: float) -> list[dict[str, Any]]:
    rows = []
    for name, what in x.kinds(e.i).items():
        column = e.columns[name] & ~e.settled.unsettled
        meant = e.read.meant.get(name)
        products = e.read.states.products(column)
        with part(what, name):
            share = f.share_of_states(float(column.bit_count()), N)
        rows.append(
            {
                "name": name,
                "what": what,
                "column": x.column_words(e, column),
                "on_states": column.bit_count(),
                "share": share,
                "meant_states": None if meant is None else meant.on.bit_count(),
                "condition": None if products is None else x.condition_words(products),
            }
        )
    return rows


def _settling(i: LogicInputs) -> float | None:
    times = [valve.travel_time for valve in i.valves if valve.travel_time is not None]
    if not times or len(times) != len(i.valves):
        return None
    return f.longest_settling(times)


_NOTHING: dict[str, Any] = {
    "settles": None,
    "unsettled_states": None,
    "unsettled_whenever": None,
    "remembers": None,
    "remembered": None,
    "fed_in_series": None,
    "series": None,
    "dead_headed": None,
    "dead_headed_whenever": None,
    "runs_early": None,
    "runs_early_whenever": None,
    "settling_time": None,
    "results": [],
    "table": [],
    "compared": [],
    "mismatches": [],
    "cut_outs": [],
    "heated": [],
    "end_switches": [],
    "faults_examined": False,
    "faults": [],
    "ladder": [],
}


def _enumerated(e: x.Examined, N: float) -> dict[str, Any]:
    """Everything that the states say when no supply is shorted."""
    unsettled = e.settled.unsettled
    remembered = _remembered(e)
    series = e.wiring.in_series(e.settled)
    headed = x.dead_headed(e)
    early = x.dead_headed(e, still=True)
    examine_faults = e.read.states.count <= x.FAULTS_UP_TO  # structure
    return {
        "settles": not unsettled,
        "unsettled_states": unsettled.bit_count(),
        "unsettled_whenever": x.whenever(e, unsettled) if unsettled else None,
        "remembers": bool(remembered),
        "remembered": _listed(e, remembered),
        "fed_in_series": bool(series),
        "series": _listed(e, series),
        "dead_headed": None if headed is None else bool(headed),
        "dead_headed_whenever": x.whenever(e, headed) if headed else None,
        "runs_early": None if early is None else bool(early),
        "runs_early_whenever": x.whenever(e, early) if early else None,
        "settling_time": _settling(e.i),
        "results": _results(e, N),
        "table": x.table(e),
        "compared": x.compared(e),
        "mismatches": list(x.mismatches(e)),
        "cut_outs": x.cut_outs(e),
        "heated": x.heated(e),
        "end_switches": x.end_switches(e),
        "faults_examined": examine_faults,
        "faults": x.faults(e) if examine_faults else [],
        "ladder": x.ladder(e),
    }


def kernel(i: LogicInputs, c: Context) -> dict[str, Any]:
    """Truth table of a wiring against the intended one, with what is unsafe about it."""
    del c
    request = read(i)
    N = f.number_of_states(float(len(request.states.names)))
    e = x.examined(i, request, Work(request.states))
    met = bool(e.wiring.bands_met(e.settled.reached))
    on_earth = e.wiring.on_earth(e.settled.reached)
    isolators = _isolators(i)
    shorted = bool(e.settled.shorted)
    if shorted:
        note("Poles of a supply meet without a load between them: no truth table is given.")
    else:
        note("Every state starts from rest; everything answers at once, round by round.")
    return {
        "states": N,
        "shorted": shorted,
        "bands_joined": met,
        "earth_used": bool(on_earth),
        "on_earth": ", ".join(on_earth) or None,
        "shorts": x.shorts(e) if shorted else [],
        "isolators": None if isolators is None else len(isolators),
        "isolator_names": None if isolators is None else ", ".join(isolators),
        "intent_given": bool(request.meant),
        "inputs_in_order": " ".join(request.states.names),
        "together": x.together(e),
        **(_NOTHING if shorted else _enumerated(e, N)),
    }
