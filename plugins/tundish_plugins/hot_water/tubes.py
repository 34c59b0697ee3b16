"""Tubes as the family's calculations ask for them: by name from the region's table, or by size."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from tundish.calculation import Refused
from tundish.contract import Item, Quantity, Text
from tundish.functions import refuse, require
from tundish_plugins.tubes import FOR_COLD_ONLY, for_cold_only

if TYPE_CHECKING:
    from tundish.rules import Context


class Tube(Item):
    """A tube, by name or by its size."""

    tube: (
        Annotated[
            str,
            Text(longest=40, help="Tube from the table, such as copper-22. Or give its size."),
        ]
        | None
    ) = None
    outside_diameter: (
        Annotated[
            float,
            Quantity("length", "d_a", "mm", low=8, high=54, help="Outside diameter, if no name."),
        ]
        | None
    ) = None
    bore: (
        Annotated[
            float,
            Quantity("length", "d", "mm", low=5, high=53, help="Bore (inside), if no name."),
        ]
        | None
    ) = None


REFUSALS = (
    Refused(
        "tube-missing",
        "The tube is not known",
        "Give its name, or its outside diameter and its bore.",
    ),
    Refused(
        "tube-given-twice",
        "The tube is given by name and by size",
        "Give either its name or its size.",
    ),
    Refused(
        "tube-impossible",
        "The bore is not smaller than the outside diameter",
        "Check both: the wall lies between them.",
    ),
    FOR_COLD_ONLY,
)


def size_of(tube: Tube, c: Context, field: str) -> tuple[float, float]:
    """Outside diameter and bore of a tube; ``field`` is the pointer of its row."""
    if tube.tube is None:
        if tube.outside_diameter is None or tube.bore is None:
            refuse("tube-missing", f"{field}/tube")
        assert tube.outside_diameter is not None
        assert tube.bore is not None
        require(tube.bore < tube.outside_diameter, "tube-impossible", f"{field}/bore")
        return tube.outside_diameter, tube.bore
    if tube.outside_diameter is not None or tube.bore is not None:
        refuse("tube-given-twice", f"{field}/tube")
    row = c.table("water-tubes").at(f"{field}/tube").exact(tube=tube.tube)
    if for_cold_only(row):
        refuse(FOR_COLD_ONLY.code, f"{field}/tube", tube=tube.tube)
    return row["outside_diameter"], row["bore"]
