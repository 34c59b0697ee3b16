"""How long one store takes through a peak morning and through a day. Prints; asserts nothing.

    .venv-test/bin/python tests/performance/storage_peak.py

One thread. The simulation alone, then the whole calculation with its two searches and its stores.
"""

from __future__ import annotations

import copy
import datetime as dt
import sys
import time
from importlib import import_module
from typing import TYPE_CHECKING, Any

from tundish.host import default_host
from tundish.physics.water import density, enthalpy
from tundish.run import read_request
from tundish_plugins.hot_water.storage import CALCULATION
from tundish_plugins.hot_water.storage.draws import Water, drawn
from tundish_plugins.hot_water.storage.stores import Mixed, Stratified, through

if TYPE_CHECKING:
    from collections.abc import Callable

KERNEL = import_module("tundish_plugins.hot_water.storage.kernel")


def best(run: Callable[[], Any], rounds: int) -> float:
    """Milliseconds of the fastest of some rounds."""
    found = []
    for _ in range(rounds):
        start = time.perf_counter()
        run()
        found.append(time.perf_counter() - start)
    return 1e3 * min(found)


def main() -> int:
    """Measure the example's morning and the load profiles."""
    host = default_host()
    runner = host.runner(CALCULATION.id)
    for profile in (None, "M", "L", "XL"):
        given = copy.deepcopy(dict(CALCULATION.example))
        if profile is not None:
            del given["draws"]
            given["load_profile"] = profile
            given["restart_difference"] = {"value": 4, "unit": "K"}  # profiles draw at 55 °C
        body = {"inputs": given, "region": "GB", "date": "2026-11-01"}
        request = read_request(CALCULATION, body, host.book, today=dt.date(2026, 11, 1))
        inputs, _ = runner.inputs(request)
        T_s, T_c = inputs.store_temperature, inputs.cold_temperature
        water = Water(T_s, T_c, density(T_s), enthalpy(T_s), enthalpy(T_c), inputs.usable_share)
        heating = KERNEL._heating(inputs, water)  # noqa: SLF001
        draws = drawn(inputs, request.context, water)
        mixed = best(
            lambda w=water, h=heating, d=draws: through(Mixed(0.2, w, h, w.T_s - 4), d), 50
        )
        hot = best(lambda w=water, h=heating, d=draws: through(Stratified(0.2, w, h, 0.7), d), 50)
        whole = best(lambda i=inputs, c=request.context: CALCULATION.kernel(i, c), 10)
        sys.stdout.write(
            f"{profile or 'morning':8} {len(draws):3} draws   mixed {mixed:.3f} ms   "
            f"stratified {hot:.3f} ms   whole calculation {whole:.2f} ms\n"
        )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
