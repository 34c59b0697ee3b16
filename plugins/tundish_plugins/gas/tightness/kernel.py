"""The order of a test of tightness. Floats or arrays."""

from __future__ import annotations

from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, drawn, refuse, require, smaller
from tundish.working import part
from tundish_plugins.gas.installation.volume import edition_of, installed, procedure
from tundish_plugins.gas.tightness import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row, Table
    from tundish_plugins.gas.installation.volume import Installed
    from tundish_plugins.gas.tightness.contract import LetBy, Readings, Retest, TightnessInputs

PROCEDURE = "gas-tightness-procedure"
Gas = tuple[float | None, float, float]
"""Volume where it is known, absolute pressure at the start, change of pressure for each kelvin."""
_SLACK = 1e-9
_READ = (
    "drop",
    "moved",
    "movement",
    "stillness_judged",
    "full_pressure",
    "leak",
    "cooling",
    "let_by_recorded",
    "let_by_rise",
    "lets_by",
    "let_by_fell",
    "retest_needed",
    "retest_recorded",
    "retest_drop",
    "retest_moved",
    "retest_movement",
)
"""What only readings tell."""


def _pressure(value: float, low: float, high: float, code: str, field: str) -> None:
    require(
        all_of(value >= low * (1 - _SLACK), value <= high * (1 + _SLACK)),
        code,
        field,
        low=(low, "pressure_gauge", "mbar"),
        high=(high, "pressure_gauge", "mbar"),
    )


def _time(value: float, least: float, code: str, field: str) -> None:
    require(value >= least * (1 - _SLACK), code, field, least=(least, "time", "min"))


def _of_gas(name: str, i: TightnessInputs, c: Context) -> Table:
    return c.table(f"{name}-{i.gas}", edition=i.edition)


def _by_volume(i: TightnessInputs, c: Context, held: Installed) -> tuple[float, float | None]:
    """Permitted drop by the volume; where it is not known, the strictest of all."""
    table = _of_gas("gas-tightness-by-volume", i, c)
    if held.known:
        row = table.at("/pipes").next_larger("volume_up_to", held.total)
        return row["drop"], row["volume_up_to"]
    strictest: float = reduce(smaller, [row["drop"] for row in table.rows()])
    return table.exact(drop=strictest)["drop"], None


def _bands(i: TightnessInputs, c: Context, row: Row) -> dict[str, list[float]] | None:
    """Steps of the permitted drop, for a chart."""
    if i.tested != "with-appliances" or row["basis"] != "volume":
        return None
    volumes, drops, start = [], [], 0.0
    for band in _of_gas("gas-tightness-by-volume", i, c).rows():
        volumes += [start, band["volume_up_to"]]
        drops += [band["drop"], band["drop"]]
        start = band["volume_up_to"]
    return {"volume": volumes, "drop": drops}


def _sizes_known(i: TightnessInputs, held: Installed) -> bool:
    return bool(i.pipes) and not i.untraced_pipework and None not in held.sizes


def _by_meter(i: TightnessInputs, c: Context, held: Installed) -> float:
    """Permitted drop by the meter and the largest pipe; the stricter where a size is not known."""
    table = _of_gas("gas-tightness-by-meter", i, c).at("/meter")
    within = _sizes_known(i, held)
    if within:
        most = table.exact(meter=i.meter, pipe="up to")["size"]
        within = all(size <= most * (1 + _SLACK) for size in held.sizes if size)  # structure
    drop: float = table.exact(meter=i.meter, pipe="up to" if within else "beyond")["drop"]
    return drop


def _permitted(
    i: TightnessInputs, c: Context, held: Installed, row: Row
) -> tuple[float | None, float | None, bool]:
    """Permitted drop, the volume up to which it holds, and whether nothing had to be assumed."""
    if i.tested != "with-appliances":
        return None, None, held.known
    if row["basis"] == "meter":
        return _by_meter(i, c, held), None, _sizes_known(i, held)
    return *_by_volume(i, c, held), held.known


def _moved(drop: float, gauge: str, c: Context) -> tuple[Any, Any]:
    """Whether the reading fell at all, and whether perceptibly.

    Where the region gives no figure for a gauge, any fall is a movement.
    """
    moved = drop > 0.0
    table = c.table("gas-tightness-movement")
    if gauge not in table.keys("gauge"):
        return moved, moved
    return moved, drop >= table.exact(gauge=gauge)["movement"] * (1 - _SLACK)


def _let_by(given: LetBy | None, row: Row) -> dict[str, Any]:
    if given is None:
        return {
            "let_by_recorded": False,
            "let_by_rise": None,
            "lets_by": None,
            "let_by_fell": None,
        }
    where = "/readings/let_by"
    low, high = row["let_by_least"], row["let_by_most"]
    _pressure(given.start_pressure, low, high, "let-by-pressure-wrong", f"{where}/start_pressure")
    _time(given.duration, row["let_by_time"], "let-by-too-short", f"{where}/duration")
    with part("let-by", "valve"):
        rise = f.rise(given.start_pressure, given.end_pressure)
    return {
        "let_by_recorded": True,
        "let_by_rise": rise,
        "lets_by": rise > 0.0,
        "let_by_fell": rise < 0.0,
    }


def _fall(given: Readings | Retest, lowest: float, row: Row, where: str) -> float:
    """Drop of a test done inside the procedure; a rise cannot be judged."""
    _pressure(
        given.start_pressure,
        lowest,
        row["test_most"],
        "test-pressure-wrong",
        f"{where}/start_pressure",
    )
    _time(given.duration, row["test_time"], "test-too-short", f"{where}/duration")
    require(given.end_pressure <= given.start_pressure, "pressure-rose", f"{where}/end_pressure")
    return f.drop(given.start_pressure, given.end_pressure)


def _retest(given: Readings, lowest: float, row: Row, c: Context) -> dict[str, Any]:
    retest = given.pipework_retest
    if retest is None:
        return {
            "retest_recorded": False,
            "retest_drop": None,
            "retest_moved": None,
            "retest_movement": None,
        }
    with part("test", "pipework alone"):
        drop = _fall(retest, lowest, row, "/readings/pipework_retest")
        moved, movement = _moved(drop, given.gauge, c)
    return {
        "retest_recorded": True,
        "retest_drop": drop,
        "retest_moved": moved,
        "retest_movement": movement,
    }


def _read(i: TightnessInputs, given: Readings, row: Row, held: Gas, c: Context) -> dict[str, Any]:
    """Judge readings taken inside the procedure."""
    lowest = row["test_least"]
    if given.low_supply and row.has("test_lowest"):
        lowest = row["test_lowest"]
    let_by = _let_by(given.let_by, row)
    _time(
        given.stabilisation,
        row["stabilisation_time"],
        "stabilisation-too-short",
        "/readings/stabilisation",
    )
    drop = _fall(given, lowest, row, "/readings")
    moved, movement = _moved(drop, given.gauge, c)
    appliances = i.tested == "with-appliances"
    volume, p, beta = held
    return {
        **let_by,
        **_retest(given, lowest, row, c),
        "drop": drop,
        "moved": moved,
        "movement": movement,
        "stillness_judged": False if appliances else moved,
        "full_pressure": given.start_pressure >= row["test_least"] * (1 - _SLACK),
        "leak": None if volume is None else f.leak(volume, drop, p, given.duration),
        "cooling": f.cooling(drop, beta),
        "retest_needed": movement if appliances and row["retest"] == "yes" else False,
    }


def kernel(i: TightnessInputs, c: Context) -> dict[str, Any]:
    """What an installation may lose in a test of tightness, and what it lost."""
    row = procedure(i, c, PROCEDURE)
    held = installed(i, c)
    if i.tested != "with-appliances" and i.readings and i.readings.pipework_retest:
        refuse("retest-out-of-place", "/readings/pipework_retest")
    drop, up_to, known = _permitted(i, c, held, row)
    volume = held.total if held.known else None
    given = i.readings
    start = row["test_least"] if given is None else given.start_pressure
    p = f.absolute_pressure(start, i.atmospheric_pressure)
    beta = f.pressure_per_kelvin(p, i.gas_temperature)
    allowed_leak = None
    if drop is not None and volume is not None:
        allowed_leak = f.leak(volume, drop, p, row["test_time"])
    return {
        "edition": edition_of(i, c, PROCEDURE),
        "meter_volume": held.meter,
        "pipes": [
            {"name": pipe.name, "volume": V} for pipe, V in zip(i.pipes, held.pipes, strict=True)
        ],
        "fittings_volume": held.fittings,
        "installation_volume": volume,
        "volume_known": known,
        "none_allowed": drop is None,
        "permitted_drop": drop,
        "band_up_to": up_to,
        "bands": drawn(_bands, i, c, row),
        "permitted_leak": allowed_leak,
        "pressure_per_kelvin": beta,
        "readings_given": given is not None,
        **(dict.fromkeys(_READ) if given is None else _read(i, given, row, (volume, p, beta), c)),
    }
