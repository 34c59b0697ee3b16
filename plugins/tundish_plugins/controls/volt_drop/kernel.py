"""The order of the formulas for a cable and its protection. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish.functions import any_of, refuse, require
from tundish.working import part, silent
from tundish_plugins.controls.volt_drop import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Table
    from tundish_plugins.controls.volt_drop.contract import VoltDropInputs

TABULATED: Final = "tabulated"
RESISTANCE: Final = "conductor-resistance"
MM2: Final = 1e-6


def _check_structure(i: VoltDropInputs, method: str) -> None:
    """Refuse what the choice of fields alone makes unanswerable."""
    if method == TABULATED:
        if i.conductor_temperature is not None:
            refuse("conductor-temperature-unused", "/conductor_temperature")
        return
    if i.drop_figure is not None:
        refuse("drop-figure-unused", "/drop_figure")
    if i.conductor_temperature is None:
        refuse("conductor-temperature-missing", "/conductor_temperature")


def _table(c: Context) -> tuple[Table, str]:
    """The table of the method, and its column."""
    if c.method == TABULATED:
        return c.table("cable-volt-drop-figures"), "drop"
    return c.table("copper-conductor-resistance"), "resistance"


def _figure(value: float, i: VoltDropInputs) -> float:
    if i.conductor_temperature is None:
        return value
    return f.loop_figure(value, i.conductor_temperature)


def _loop_figure(i: VoltDropInputs, table: Table, column: str) -> float:
    """Volt drop a metre and ampere: the cable's own, the tabulated, or by resistance."""
    if i.drop_figure is not None:
        return i.drop_figure
    there = [row["size"] for row in table.rows() if row["cable"] == i.cable]
    if i.size not in there:
        refuse("size-not-tabulated", "/size", size=i.size, cable=i.cable, accepted=", ".join(there))
    return _figure(table.exact(cable=i.cable, size=i.size)[column], i)


def _rating(i: VoltDropInputs) -> float | None:
    """Rating of what protects the cable: the smaller, where two follow one another."""
    if i.fused_unit is None:
        return i.breaker
    fuse = float(i.fused_unit)
    return fuse if i.breaker is None else f.smaller_rating(fuse, i.breaker)


def _capacity(i: VoltDropInputs, c: Context) -> float | None:
    """Current the cable carries: as given, else by its size, which is from memory."""
    if i.cable_capacity is not None:
        return i.cable_capacity
    table = c.table("cable-capacity-by-size")
    there = [row["size"] for row in table.rows() if row["cable"] == i.cable]
    if i.size not in there:
        refuse("capacity-missing", "/cable_capacity", size=i.size, cable=i.cable)
    capacity: float = table.exact(cable=i.cable, size=i.size)["capacity"]
    return capacity


def _share_limit(i: VoltDropInputs, c: Context) -> float:
    what = "lighting" if i.use == "lighting" else "other"
    return c.value(f"volt-drop-{what}-{i.supply}-most")


def _circuit_kept(i: VoltDropInputs, c: Context) -> Any:
    """Whether a heater in a store above the threshold has its own circuit."""
    if i.use != "immersion-heater":
        return None
    if i.own_circuit:
        return True
    threshold = c.value("immersion-own-circuit-above")
    return False if i.heater_volume is None else any_of(i.heater_volume <= threshold)


def kernel(i: VoltDropInputs, c: Context) -> dict[str, Any]:
    """Current, drop and protection of one cable."""
    _check_structure(i, c.method)
    U = i.voltage
    currents = []
    for load in i.loads:
        with part("load", load.name):
            one = f.load_current(load.power, float(load.number), U, load.power_factor)
            currents.append(one)
    current = f.current_of_all(currents)
    table, column = _table(c)
    z = _loop_figure(i, table, column)
    upstream = 0.0 * U if i.upstream_drop is None else i.upstream_drop
    drop = f.drop(z, current, i.length)
    whole = f.drop_from_origin(upstream, drop)
    require(whole < U, "drop-beyond-supply", "/length")
    limit = _share_limit(i, c)
    rating = _rating(i)
    on_unit = i.use == "immersion-heater" and i.fused_unit == "13" and len(i.loads) == 1
    least = None
    if i.cable == "flexible" and i.fused_unit is not None:
        row = c.table("flexible-cord-least-size").next_larger("fuse", float(i.fused_unit))
        least = row["section"]
    sizes = []
    with silent():
        for row in table.rows():
            if row["cable"] == i.cable:
                there = f.drop(_figure(row[column], i), current, i.length)
                share = f.drop_share(f.drop_from_origin(upstream, there), U)
                sizes.append({"name": f"{row['size']} mm2", "drop": there, "drop_share": share})
    return {
        "loads": [
            {"name": load.name, "current": one} for load, one in zip(i.loads, currents, strict=True)
        ],
        "current": current,
        "loop_figure": z,
        "drop": drop,
        "total_drop": whole,
        "drop_share": f.drop_share(whole, U),
        "share_limit": limit,
        "whole_way": i.upstream_drop is not None,
        "voltage_at_load": f.voltage_at_load(U, whole),
        "longest_length": f.longest_length(limit, U, upstream, z, current),
        "heat_in_cable": f.heat_in_cable(drop, current),
        "protective_rating": rating,
        "most_power": None if rating is None else f.most_power(U, rating),
        "protection_given": rating is not None,
        "capacity": _capacity(i, c),
        "section": float(i.size) * MM2,
        "least_section": least,
        "heater_on_unit": on_unit,
        "heater_power": (
            f.power_of_all(float(i.loads[0].number), i.loads[0].power) if on_unit else None
        ),
        "circuit_kept": _circuit_kept(i, c),
        "sizes": sizes,
    }
