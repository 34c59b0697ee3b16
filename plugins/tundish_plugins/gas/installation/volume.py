"""Reads an installation: the edition it is treated by, its volume, and whether it is a small one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tundish.functions import refuse, require
from tundish.working import part
from tundish_plugins.gas.installation import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row, Table
    from tundish_plugins.gas.installation.contract import InstallationInputs, Pipe

_SLACK = 1 + 1e-9


@dataclass(frozen=True)
class Installed:
    """What an installation holds; ``known`` where nothing of it is hidden."""

    meter: float
    pipes: list[float]
    per_length: list[float]
    sizes: list[float | None]
    fittings: float | None
    total: float
    known: bool


def named_edition(i: InstallationInputs, c: Context, rule: str) -> str | None:
    """Return the edition asked for, if it is one that is in force on the date."""
    if i.edition is None:
        return None
    known = {item.edition: item for _, item in c.book.editions(c.region, rule)}
    if i.edition not in known:
        refuse("edition-not-on-file", "/edition", accepted=", ".join(known) or "none")
    if not known[i.edition].in_force(c.date):
        refuse("edition-not-in-force", "/edition", date=c.date.isoformat())
    return i.edition


def procedure(i: InstallationInputs, c: Context, rule: str) -> Row:
    """Return the procedure for the gas; refuse a gas for which the region has none."""
    table = c.table(rule, edition=named_edition(i, c, rule))
    if i.gas not in table.keys("gas"):
        refuse("gas-without-procedure", "/gas", gas=i.gas)
    return table.at("/gas").exact(gas=i.gas)


def edition_of(i: InstallationInputs, c: Context, rule: str) -> str:
    """Return the name of the edition that a procedure is read from."""
    return i.edition if i.edition is not None else c.resolve(rule).edition.edition


def _meter(i: InstallationInputs, c: Context) -> float:
    if i.meter == "other":
        if i.other_meter is None:
            refuse("meter-missing", "/other_meter")
        assert i.other_meter is not None
        volume, capacity = i.other_meter.volume, i.other_meter.capacity
    else:
        if i.other_meter is not None:
            refuse("meter-given-twice", "/other_meter")
        row = c.table("gas-meter-volumes").at("/meter").exact(meter=i.meter)
        volume, capacity = row["volume"], row["capacity"]
    most = c.value("gas-flow-most")
    require(
        capacity <= most * _SLACK,
        "meter-too-large",
        "/meter" if i.other_meter is None else "/other_meter/capacity",
        capacity=(capacity, "gas_flow_15", "m3/h"),
        most=(most, "gas_flow_15", "m3/h"),
    )
    return volume


@dataclass(frozen=True)
class _Tube:
    """Volume of a metre, what it measures across, and its nominal size where that is known."""

    per_length: float
    across: float
    size: float | None = None


def _tube(pipe: Pipe, where: str, listed: Table, c: Context) -> _Tube:
    if pipe.tube is None:
        if pipe.bore is None:
            refuse("tube-missing", f"{where}/tube")
        assert pipe.bore is not None
        return _Tube(f.volume_per_length(pipe.bore), pipe.bore)
    if pipe.bore is not None:
        refuse("tube-given-twice", f"{where}/bore")
    if pipe.tube in listed.keys("tube"):
        row = listed.exact(tube=pipe.tube)
        return _Tube(row["volume"], row["size"], row["size"])
    if c.has("gas-tubes-further"):
        further = c.table("gas-tubes-further").at(f"{where}/tube")
        if pipe.tube in further.keys("tube"):
            bore = further.exact(tube=pipe.tube)["bore"]
            return _Tube(f.volume_per_length(bore), bore)
    row = c.table("gas-tubes").at(f"{where}/tube").exact(tube=pipe.tube)
    size = float(row["size"]) / 1000
    return _Tube(f.volume_per_length(row["bore"]), size, size)


def _pipes(i: InstallationInputs, c: Context) -> tuple[list[float], list[_Tube]]:
    listed = c.table("gas-pipe-volumes")
    most = c.value("gas-small-pipe-most")
    volumes: list[float] = []
    tubes: list[_Tube] = []
    for index, pipe in enumerate(i.pipes):
        where = f"/pipes/{index}"
        with part("pipe", pipe.name):
            tube = _tube(pipe, where, listed, c)
            require(
                tube.across <= most * _SLACK,
                "pipe-too-large",
                f"{where}/bore" if pipe.tube is None else f"{where}/tube",
                most=(most, "length", "mm"),
            )
            volumes.append(f.pipe_volume(tube.per_length, pipe.length))
            tubes.append(tube)
    return volumes, tubes


def installed(i: InstallationInputs, c: Context) -> Installed:
    """Volume of the installation; refuse one beyond the scope of the procedure."""
    V_m = _meter(i, c)
    volumes, tubes = _pipes(i, c)
    V_f: float | None = None
    if i.volume is not None:
        if i.pipes or i.untraced_pipework:
            refuse("volume-given-twice", "/volume")
        require(i.volume >= V_m, "volume-below-meter", "/volume", meter=(V_m, "volume", "l"))
        V = i.volume
    else:
        V_f = f.fittings_volume(c.value("gas-fittings-volume-share"), volumes)
        V = f.installation_volume(V_m, volumes, V_f)
    most = c.value("gas-small-volume-most")
    require(
        V <= most * _SLACK,
        "installation-too-large",
        "/pipes" if i.volume is None else "/volume",
        volume=(V, "volume", "l"),
        most=(most, "volume", "l"),
    )
    known = i.volume is not None or (bool(i.pipes) and not i.untraced_pipework)
    return Installed(
        meter=V_m,
        pipes=volumes,
        per_length=[tube.per_length for tube in tubes],
        sizes=[tube.size for tube in tubes],
        fittings=V_f,
        total=V,
        known=known,
    )
