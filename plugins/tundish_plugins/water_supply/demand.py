"""How much water is drawn at the same time: named outlets, loading units, or a peak formula."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any, Final

from tundish.functions import larger, refuse, smaller
from tundish_plugins.water_supply import formulas as f

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.rules import Context
    from tundish.tables import Table
    from tundish_plugins.water_supply.contract import Outlet

EN_806_3: Final = "en-806-3"
BS_6700: Final = "bs-6700"
DIN_1988_300: Final = "din-1988-300"
UNITS: Final = (EN_806_3, BS_6700)
"""Methods that add loading units. Their curves from units to flow are figures that we have not
seen: the flow is read from the standard and given."""


@dataclass(frozen=True)
class Demand:
    """Flows and loading units of the outlets, in their order."""

    method: str
    flows: tuple[float, ...]
    units: tuple[float, ...] | None
    rooms: tuple[str, ...]
    constants: tuple[float, float, float] | None
    in_force: bool | None

    def sum_of(self, which: Sequence[int]) -> float:
        """Flow of some outlets, all at once."""
        return f.together([self.flows[k] for k in which])

    def largest_of(self, which: Sequence[int]) -> float:
        """Largest single flow among some outlets."""
        return reduce(larger, [self.flows[k] for k in which])

    def units_of(self, which: Sequence[int]) -> float | None:
        """Loading units of some outlets."""
        return None if self.units is None else f.units_together([self.units[k] for k in which])

    def peak_of(self, which: Sequence[int]) -> float:
        """Peak flow of some outlets by the formula of DIN 1988-300."""
        assert self.constants is not None
        rooms: dict[str, list[float]] = {}
        for k in which:
            rooms.setdefault(self.rooms[k], []).append(self.flows[k])
        drawn = f.together([_two_largest(flows) for flows in rooms.values()])
        found = f.peak_flow(self.sum_of(which), *self.constants)
        return f.peak_within(found, self.largest_of(which), drawn)


def _two_largest(flows: list[float]) -> float:
    """Flow of the two largest outlets of a room."""
    if len(flows) == 1:
        return flows[0]
    first, second = larger(flows[0], flows[1]), smaller(flows[0], flows[1])
    for flow in flows[2:]:
        first, second = larger(first, flow), larger(second, smaller(first, flow))
    return f.together([first, second])


def _table(c: Context) -> Table:
    """Table of fittings of the method; flows of named outlets are those of EN 806-3."""
    if c.method == BS_6700:
        return c.table("loading-units-bs-6700", edition="BS 6700:1997")
    if c.method == DIN_1988_300:
        return c.table("design-flows-din-1988-300")
    return c.table("loading-units-en-806-3")


def demand_of(outlets: Sequence[Outlet], building: str, c: Context, field: str) -> Demand:
    """Read flows and loading units of every outlet; ``field`` is the list's pointer."""
    table = _table(c)
    counts_units = c.method in UNITS
    flows, units = [], []
    for index, outlet in enumerate(outlets):
        where = f"{field}/{index}/fitting"
        if outlet.fitting is None:
            if counts_units:
                refuse("fitting-missing", where)
            if outlet.flow is None:
                refuse("outlet-flow-missing", f"{field}/{index}/flow")
            assert outlet.flow is not None
            flows.append(outlet.flow)
            continue
        row = table.at(where).exact(fitting=outlet.fitting)
        flows.append(row["draw_off"] if outlet.flow is None else outlet.flow)
        if counts_units:
            units.append(row["units"])
    constants: tuple[float, float, float] | None = None
    if c.method == DIN_1988_300:
        kind: Any = c.table("peak-flow-din-1988-300").at("/building").exact(building=building)
        constants = (kind["a"], kind["b"], kind["c"])
    return Demand(
        c.method,
        tuple(flows),
        tuple(units) if counts_units else None,
        tuple(outlet.room or f"/{index}" for index, outlet in enumerate(outlets)),
        constants,
        not table.superseded if counts_units else None,
    )
