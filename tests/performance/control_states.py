"""Time to enumerate contact networks of many states. Prints it; asserts nothing.

    .venv-test/bin/python tests/performance/control_states.py [--rounds 5]

Beside each absolute figure stands the ratio to a simulator that goes through the states one by one.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tundish.answering import answer
from tundish_plugins.controls.logic.contract import LogicInputs
from tundish_plugins.controls.logic.examine import examined
from tundish_plugins.controls.logic.reading import read
from tundish_plugins.controls.logic.wiring import Work

if TYPE_CHECKING:
    from collections.abc import Callable

sys.path.insert(0, str(Path(__file__).parents[1] / "plugins" / "controls"))

import simulator


def zones(count: int) -> dict[str, Any]:
    """Zones of a programmer, a thermostat, a valve and its end switch each; one boiler, one pump."""
    free, contacts, valves, paths = [], [], [], []
    for k in range(count):
        free += [{"name": f"timed_{k}"}, {"name": f"calls_{k}"}]
        for name, start, end, by in (
            (f"programmer {k}", "L", f"a{k}", f"timed_{k}"),
            (f"thermostat {k}", f"a{k}", f"b{k}", f"calls_{k}"),
            (f"end switch {k}", "L", "B", f"valve_{k}"),
        ):
            contacts.append(
                {"name": name, "start": start, "end": end, "moved_by": by, "kind": "normally-open"}
            )
        valves.append({"name": f"valve_{k}", "start": f"b{k}", "end": "N", "rest": "closed"})
        paths.append({"name": f"zone {k}", "open_when": f"valve_{k}"})
    wanted = " or ".join(f"timed_{k} and calls_{k}" for k in range(count))
    return {
        "free_inputs": free,
        "supplies": [{"name": "mains", "live": "L", "neutral": "N", "isolator": "spur"}],
        "contacts": contacts,
        "valves": valves,
        "loads": [
            {"name": "boiler", "start": "B", "end": "N", "kind": "boiler"},
            {"name": "pump", "start": "B", "end": "N", "kind": "pump"},
        ],
        "flow_paths": paths,
        "intended": [{"name": "boiler", "when": wanted}],
    }


def best(make: Callable[[], object], rounds: int) -> float:
    """Return the shortest of some runs."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        make()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> int:
    """Measure four sizes."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=5)
    rounds = parser.parse_args().rounds
    print("states  table, ms  answer with every fault, ms  one by one, ms  ratio to the table")
    for count in (2, 4, 6, 7):
        inputs = zones(count)
        request = {"inputs": inputs, "region": "GB", "date": "2026-11-01"}
        checked = LogicInputs.model_validate(
            {**_filled(inputs)},
        )

        def table(checked: LogicInputs = checked) -> object:
            known = read(checked)
            return examined(checked, known, Work(known.states))

        status, _ = answer("control-logic", request, parts=())
        assert status == 200
        fast = best(table, rounds) * 1e3
        whole = best(lambda r=request: answer("control-logic", r, parts=()), rounds) * 1e3
        slow = best(lambda i=inputs: simulator.simulate(i), 1) * 1e3
        print(f"{4**count:6d}  {fast:9.2f}  {whole:27.1f}  {slow:14.0f}  {slow / fast:18.0f}")
    return 0


def _filled(inputs: dict[str, Any]) -> dict[str, Any]:
    """Add what a request may leave out."""
    filled = {
        **{
            name: []
            for name in (
                "wires",
                "relays",
                "sensed_inputs",
                "cut_outs",
                "intended_rows",
                "together",
            )
        },
        "unvented": False,
        "bypass": False,
        **inputs,
    }
    filled["supplies"] = [{"band": "mains", **item} for item in inputs["supplies"]]
    filled["flow_paths"] = [{"heats_store": False, **item} for item in inputs["flow_paths"]]
    return filled


if __name__ == "__main__":
    raise SystemExit(main())
