"""What a metre of tube drops: by friction, by a formula for steel, or by a published table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, any_of, larger, not_, pick, refuse, require, where
from tundish.working import silent
from tundish_plugins.gas.pipe_sizing import formulas as f
from tundish_plugins.gas.pipework import (
    Gas,
    edition_with,
    friction_gradient,
    length_columns,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.rules import Context
    from tundish.tables import Row, Table
    from tundish_plugins.gas.pipe_sizing.contract import PipeSizingInputs
    from tundish_plugins.gas.pipework import Tube


class Physical:
    """Drop for each metre by friction; the density is that at 15 °C, on the safe side."""

    def __init__(self, gas: Gas, c: Context) -> None:
        """Keep the gas and the rules, for roughness."""
        self._gas, self._c = gas, c

    def covers(self, L_e: float, field: str) -> None:
        """Friction holds at any length."""

    def gradient(self, Q: float, tube: Tube, field: str) -> float:
        """Drop for each metre."""
        if tube.bore is None:
            refuse("tube-without-friction", field, tube=tube.name)
        assert tube.bore is not None
        return friction_gradient(Q, tube.bore, tube.roughness_by(self._c), self._gas)


class Spitzglass(Physical):
    """The larger of friction and Spitzglass's formula, which is for steel and knows no laminar flow."""

    def gradient(self, Q: float, tube: Tube, field: str) -> float:
        """Drop for each metre."""
        if tube.material != "steel":
            refuse("formula-for-steel-only", field, tube=tube.name)
        by_friction = super().gradient(Q, tube, field)
        assert tube.bore is not None
        s = f.relative_density(self._gas.rho)
        return f.larger_gradient(by_friction, f.spitzglass_gradient(Q, tube.bore, s))


# --- a table by tube, its lengths as columns ------------------------------------------------------


class ByTable:
    """Drop for each metre in proportion of a capacity table: a row for a tube."""

    def __init__(self, i: PipeSizingInputs, gas: Gas, c: Context) -> None:
        """Find the table asked for, or the one in force; refuse a gas it does not hold for."""
        name = "gas-copper-capacity"
        editions = [edition.edition for _, edition in c.book.editions(c.region, name)]
        accepted = ", ".join(editions) or "none"
        if i.table_edition is None and not c.has(name):
            refuse("table-not-in-force", "/table_edition", accepted=accepted)
        if i.table_edition is not None and i.table_edition not in editions:
            refuse("table-edition-unknown", "/table_edition", accepted=accepted)
        where_gas = "/gas" if i.composition is None else "/composition"
        if gas.family != "natural":
            refuse("table-for-natural-gas-only", where_gas)
        of_table = edition_with("gas-copper-capacity-relative-density", i.table_edition, c)
        s = f.relative_density(gas.rho)
        most = c.value("gas-copper-capacity-relative-density", edition=of_table)
        require(s <= most * (1 + 1e-9), "gas-heavier-than-table", where_gas, relative_density=s)
        self.table = c.table(name, edition=i.table_edition).at("/table_edition")
        self.fittings_edition = i.table_edition
        if self.fittings_edition != edition_with("gas-fitting-lengths", i.table_edition, c):
            refuse("table-edition-unknown", "/table_edition", accepted="none with added lengths")
        of_drop = edition_with("gas-copper-capacity-drop", i.table_edition, c)
        self._drop = c.value("gas-copper-capacity-drop", edition=of_drop)

    def covers(self, L_e: float, field: str) -> None:
        """Refuse a section longer than the table's last column."""
        last = max(length for length, _ in length_columns(self.table))  # structure
        require(L_e <= last * (1 + 1e-9), "outside-table", field, table=self.table.name)

    def gradient(self, Q: float, tube: Tube, field: str) -> float:
        """Drop for each metre: the table's drop over the longest length that carries the flow."""
        row = self.table.at(field).exact(tube=tube.name)
        cells = [(length, row.values[name]) for length, name in length_columns(self.table)]
        return f.table_gradient(self._drop, longest_carrying(cells, Q, self.table.at(field)))


def longest_carrying(cells: Sequence[tuple[float, float | None]], Q: float, table: Table) -> float:
    """Longest length of a table whose capacity still carries a flow, through certain cells only."""
    field = table.field
    carried = 0.0 * Q
    for length, capacity in cells:
        if capacity is not None:
            carried = where(capacity >= Q * (1 - 1e-9), length + 0.0 * Q, carried)
    # Capacity falls with length: a doubtful cell matters only when the certain one before it
    # carries the flow and the certain one after it does not.
    unsure: Any = False
    certain = [length for length, capacity in cells if capacity is not None]
    if not certain:
        refuse("table-cell-doubtful", field, table=table.name)
    for length, capacity in cells:
        if capacity is None:
            shorter = [known for known in certain if known < length]  # structure
            longer = [known for known in certain if known > length]  # structure
            before = max(shorter, default=float("inf"))  # structure
            after = min(longer, default=float("inf"))  # structure
            unsure = any_of(unsure, all_of(carried >= before, carried < after))
    require(not_(unsure), "table-cell-doubtful", field)
    require(carried > 0.0, "outside-table", field, table=table.name)
    return carried


# --- tables by length, their tubes as columns -----------------------------------------------------


@dataclass(frozen=True)
class _Capacities:
    """A capacity table: a row for a length, a column for a tube, in flow or in gross heat input."""

    table: Table
    gas: Gas
    multiplier: float | None  # for the gas's density; none where the table is in heat

    def flow(self, row: Row, name: str) -> float:
        """Flow at 15 °C that a cell allows."""
        return self._of(row[name])

    def _of(self, cell: float) -> float:
        if self.multiplier is None:
            return f.gas_flow(cell, self.gas.gross)
        return f.flow_at_15(f.capacity_of_density(cell, self.multiplier))

    def cells(self, name: str) -> list[tuple[float, float | None]]:
        """Every length of a tube with the flow it allows."""
        with silent():
            return [
                (row["length"], self._of(row[name]) if row.has(name) else None)
                for row in self.table.rows()
            ]

    @property
    def tubes(self) -> list[str]:
        """Tubes of the table, by size."""
        return [column.name for column in self.table.columns if column.name != "length"]


class ByLongestLength:
    """One row for the whole installation: that of the longest way, or the next longer.

    Every section must carry its flow there. A section's own drop follows as in the other tables:
    the table's drop over the longest length that still carries its flow.
    """

    def __init__(self, i: PipeSizingInputs, gas: Gas, tubes: Sequence[Tube], c: Context) -> None:
        """Find the tables of the tubes used; refuse what they do not hold for."""
        if not c.has("gas-capacity-drops"):
            refuse("method-not-in-region", "@/method", region=c.region)
        if gas.family == "lpg" and i.gas != "propane":
            where_gas = "/gas" if i.composition is None else "/composition"
            refuse("tables-for-propane-only", where_gas)
        drops = c.table("gas-capacity-drops")
        known = {(row["family"], row["material"]) for row in drops.rows()}
        self._tables: dict[str, _Capacities] = {}
        self.drop = 0.0
        self.least_supply: float | None = None
        multiplier = None
        for index, tube in enumerate(tubes):
            field = f"/sections/{index}/tube"
            if (gas.family, tube.material) not in known:
                refuse("tube-without-table", field, tube=tube.name, family=gas.family)
            if tube.material not in self._tables:
                name = f"gas-capacity-{gas.family}-{tube.material}"
                table = c.table(name, edition=i.table_edition)
                head = drops.exact(family=gas.family, material=tube.material)
                if self._tables and head["drop"] != self.drop:
                    refuse("table-drops-differ", field)
                self.drop = head["drop"]
                self.least_supply = head.values["least_supply"] or self.least_supply
                if gas.family == "natural" and multiplier is None:
                    s = f.relative_density(gas.rho)
                    by_density = c.table("gas-capacity-multipliers").at("/gas")
                    multiplier = by_density.next_larger("relative_density", s)["multiplier"]
                self._tables[tube.material] = _Capacities(table, gas, multiplier)
            if tube.name not in self._tables[tube.material].tubes:
                refuse("tube-without-table", field, tube=tube.name, family=gas.family)

    @property
    def table(self) -> Table:
        """The first table read, for its edition."""
        return next(iter(self._tables.values())).table

    def covers(self, L_e: float, field: str) -> None:
        """The longest way is held against the table, not a section."""

    def gradient(self, Q: float, tube: Tube, field: str) -> float:
        """Drop for each metre: the table's drop over the longest length that carries the flow."""
        found = self._tables[tube.material]
        cells = found.cells(tube.name)
        return f.table_gradient(self.drop, longest_carrying(cells, Q, found.table.at(field)))

    def allowed(self, longest: float, tube: Tube, Q: float) -> dict[str, Any]:
        """Row read, capacity of the tube, and the smallest tube of the table that carries the flow."""
        found = self._tables[tube.material]
        row = found.table.at("/sections").next_larger("length", longest)
        smallest = "none"
        with silent():
            for name in reversed(found.tubes):
                smallest = pick(found.flow(row, name) >= Q * (1 - 1e-9), name, smallest)
        cell = row[tube.name]
        return {
            "table_length": row["length"],
            "table_flow": None if found.multiplier is None else cell,
            "table_heat": cell if found.multiplier is None else None,
            "capacity": found.flow(row, tube.name),
            "least_tube": smallest,
        }


def longest_way(lengths: Sequence[float], paths: Sequence[Sequence[int]]) -> float:
    """Length with fittings of the longest way from the meter to an appliance."""
    ways = [f.way_length([lengths[k] for k in path]) for path in paths]
    longest = ways[0]
    for way in ways[1:]:
        longest = larger(longest, way)
    return longest
