"""Tables of rules: exact, next larger and interpolated look-ups. Never extrapolated."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import absolute, refuse, require
from tundish.quantities.kinds import from_si
from tundish.working import record

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tundish.sources import Source

PLAIN = frozenset({"key", "text", "number"})


@dataclass(frozen=True)
class TableColumn:
    """One column: its name, what it holds, and the unit it is printed in."""

    name: str
    kind: str
    unit: str = ""


def _sound(value: Any) -> Any:
    """Whether a cell holds a value; of each row, in a column of cells (NaN where there is none)."""
    if getattr(value, "ndim", 0) == 1 and value.dtype.kind == "f":
        return value == value  # noqa: PLR0124
    return value is not None


class Row:
    """One row: values by column name, SI for quantities. A doubtful cell refuses when read."""

    __slots__ = ("_table", "_values")

    def __init__(self, table: Table, values: dict[str, Any]) -> None:
        """Keep the values beside the table they came from."""
        self._table = table
        self._values = values

    def __getitem__(self, column: str) -> Any:
        """Return the cell; refuse ``table-cell-doubtful`` when the table holds none to trust."""
        value = self._values[column]
        self._table.trust(column, _sound(value))
        return value

    def has(self, column: str) -> bool:
        """Whether the cell can be used."""
        return _sound(self._values.get(column))  # type: ignore[no-any-return]

    @property
    def values(self) -> dict[str, Any]:
        """Every cell, doubtful ones as ``None``."""
        return dict(self._values)


def _table_step(payload: tuple[Table, str, Any, dict[str, Any]], _value: object) -> dict[str, Any]:
    table, how, asked, row = payload
    return {
        "step": "table",
        "name": table.meaning,
        "rule": table.name,
        "edition": table.edition,
        "superseded": table.superseded,
        "look_up": how,
        "asked": {name: table.printed(name, value) for name, value in asked.items()},
        "row": row,
        "source": table.source.id,
        "locator": table.source.locator,
    }


@dataclass(frozen=True)
class Table:
    """A dated, cited table in SI, with the columns it is printed in."""

    name: str
    meaning: str
    edition: str
    superseded: bool
    columns: tuple[TableColumn, ...]
    data: tuple[tuple[Any, ...], ...]
    source: Source
    field: str = ""

    def at(self, field: str) -> Table:
        """Return the same table, refusing at ``field`` (a pointer under the inputs)."""
        return Table(
            self.name,
            self.meaning,
            self.edition,
            self.superseded,
            self.columns,
            self.data,
            self.source,
            field,
        )

    def trust(self, column: str, sound: Any) -> None:
        """Refuse ``table-cell-doubtful`` unless the cells of a column are sound."""
        require(sound, "table-cell-doubtful", self.field, table=self.name, column=column)

    def _index(self, column: str) -> int:
        for index, item in enumerate(self.columns):
            if item.name == column:
                return index
        message = f"table {self.name} has no column {column}"
        raise KeyError(message)

    def _printed(self, row: tuple[Any, ...]) -> dict[str, Any]:
        return {c.name: self.printed(c.name, v) for c, v in zip(self.columns, row, strict=True)}

    def printed_rows(self) -> list[dict[str, Any]]:
        """Every row as a step of the working prints it."""
        return [self._printed(row) for row in self.data]

    def printed(self, column: str, value: Any) -> Any:
        """Write a value of a column in the unit it is printed in."""
        found = self.columns[self._index(column)]
        if found.kind in PLAIN or value is None:
            return value
        shown = float(f"{from_si(value, found.kind, found.unit):.12g}")
        return {"value": shown, "unit": found.unit}

    def _row(self, row: tuple[Any, ...]) -> Row:
        return Row(self, {c.name: v for c, v in zip(self.columns, row, strict=True)})

    def keys(self, column: str) -> list[str]:
        """Every entry of a key column, in order."""
        index = self._index(column)
        return [row[index] for row in self.data]

    def rows(self) -> Iterator[Row]:
        """Every row, in order; reading rows this way makes no step."""
        return (self._row(row) for row in self.data)

    def exact(self, **keys: str | float) -> Row:
        """Return the row with exactly these entries; refuse ``table-key-unknown`` without one."""
        wanted = {self._index(name): value for name, value in keys.items()}
        for row in self.data:
            if all(row[index] == value for index, value in wanted.items()):
                record(_table_step, (self, "exact", keys, self._printed(row)))
                return self._row(row)
        refuse(
            "table-key-unknown",
            self.field,
            table=self.name,
            asked=", ".join(str(value) for value in keys.values()),
            accepted=list(dict.fromkeys(str(row[next(iter(wanted))]) for row in self.data)),
        )
        raise AssertionError  # pragma: no cover

    def _axis(self, column: str) -> list[float]:
        index = self._index(column)
        axis = [row[index] for row in self.data]
        self.trust(column, None not in axis)
        if sorted(axis) != axis:
            message = f"table {self.name} is not sorted by {column}"
            raise ValueError(message)
        return axis

    def _column(self, index: int) -> Any:
        """Every cell of a column as an array: NaN for a doubtful number."""
        import numpy as np  # noqa: PLC0415

        cells = [row[index] for row in self.data]
        words = self.columns[index].kind in {"key", "text"}
        return np.array(cells) if words else np.array(cells, dtype=float)

    def next_larger(self, column: str, x: float) -> Row:
        """Return the first row whose ``column`` is at least ``x``; refuse ``outside-table``.

        The table stands sorted by that column. Works on arrays, giving arrays of cells.
        """
        axis = self._axis(column)
        slack = 1e-9 * abs(axis[-1])
        require(x <= axis[-1] + slack, "outside-table", self.field, table=self.name)
        if isinstance(x, (float, int)):
            place = bisect_left(axis, x - 1e-9 * abs(x))
            row = self.data[min(place, len(axis) - 1)]
            record(_table_step, (self, "next-larger", {column: x}, self._printed(row)))
            return self._row(row)
        import numpy as np  # noqa: PLC0415

        places = np.clip(np.searchsorted(axis, x - 1e-9 * absolute(x)), 0, len(axis) - 1)
        cells = {item.name: self._column(index)[places] for index, item in enumerate(self.columns)}
        return Row(self, cells)

    def interpolate(self, column: str, x: float, target: str) -> float:
        """Return ``target`` at ``x`` of ``column``, linear between rows; never beyond the ends."""
        axis = self._axis(column)
        index = self._index(target)
        require(axis[0] <= x, "outside-table", self.field, table=self.name)
        require(x <= axis[-1], "outside-table", self.field, table=self.name)
        if isinstance(x, (float, int)):
            place = min(max(bisect_left(axis, x), 1), len(axis) - 1)
            low, high = self.data[place - 1], self.data[place]
            width = axis[place] - axis[place - 1]  # none in a table of one row
            share = (x - axis[place - 1]) / width if width else 0.0
            start, end = self._row(low)[target], self._row(high)[target]
            value = start + share * (end - start)
            printed = {
                "from": self._printed(low),
                "to": self._printed(high),
                target: self.printed(target, float(value)),
            }
            record(_table_step, (self, "interpolate", {column: x}, printed))
            return float(value)
        import numpy as np  # noqa: PLC0415

        xs, ys = np.array(axis), self._column(index)
        places = np.clip(np.searchsorted(xs, x), 1, len(axis) - 1)
        width = xs[places] - xs[places - 1]
        share = np.where(width > 0, (x - xs[places - 1]) / np.where(width > 0, width, 1.0), 0.0)
        value = ys[places - 1] + share * (ys[places] - ys[places - 1])
        self.trust(target, _sound(value))
        return value
