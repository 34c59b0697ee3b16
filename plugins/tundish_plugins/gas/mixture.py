"""A gas given by its components: shares that sum to one, each component once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish.functions import absolute, refuse, require, total
from tundish.working import silent

if TYPE_CHECKING:
    from tundish.tables import Row, Table
    from tundish_plugins.gas.pipe_sizing.contract import Component

SUM_SLACK = 1e-6


def checked(components: list[Component], table: Table) -> tuple[list[float], list[Row]]:
    """Return shares and rows of a table of components; refuse what is no mixture."""
    shares = [item.fraction for item in components]
    with silent():
        whole = total(shares)
    require(absolute(whole - 1.0) <= SUM_SLACK, "fractions-do-not-sum", "/composition", sum=whole)
    rows: list[Row] = []
    for index, item in enumerate(components):
        if item.gas in {other.gas for other in components[:index]}:
            refuse("component-twice", f"/composition/{index}/gas")
        rows.append(table.at(f"/composition/{index}/gas").exact(gas=item.gas))
    return shares, rows
