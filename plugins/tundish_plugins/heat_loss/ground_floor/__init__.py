"""U-value of a ground floor: slabs with edge insulation, and suspended floors."""

from __future__ import annotations

from tundish.calculation import (
    Calculation,
    Finding,
    Level,
    LineChart,
    Method,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish_plugins.heat_loss.ground_floor.contract import GroundFloorInputs, GroundFloorOutputs
from tundish_plugins.heat_loss.ground_floor.formulas import EDGE
from tundish_plugins.heat_loss.ground_floor.kernel import kernel
from tundish_plugins.heat_loss.u_value.formulas import EN_ISO_13370, SUSPENDED

CALCULATION = Calculation(
    id="ground-floor-u-value",
    version="1.0",
    title="U-value of a ground floor, with edge insulation",
    summary="Thermal transmittance and loss of a slab on the ground, of its edge insulation lying "
    "or standing, and of a suspended floor over an aired void.",
    family="heat-loss",
    questions=(
        "What does the ground floor lose?",
        "What does insulation along the edge do, and how wide or deep is it worth going?",
    ),
    inputs=GroundFloorInputs,
    outputs=GroundFloorOutputs,
    kernel=kernel,
    methods=(
        Method(
            "standard",
            "European Standard",
            "EN ISO 13370: slabs by their equivalent thickness; edge insulation and suspended "
            "floors too, but these two have not been checked against the standard. Yearly mean; "
            "basements are outside it.",
            source=EN_ISO_13370,
        ),
    ),
    needs=(
        Need("surface-resistances", "table", "Inner surface resistances by direction"),
        Need("surface-resistance-outside", "thermal_resistance", "Outer surface resistance"),
        Need("ground-conductivities", "table", "Conductivity of the ground"),
    ),
    findings=(
        Finding(
            "new-floor-limit",
            "U-value of a new floor",
            quantity="/outputs/u_value",
            sense="at-most",
            limit="u-value-new-floor",
            applies_when="/outputs/compared == floor",
            words_passed="U-value {value}; a new floor may have {limit} at most.",
            words_failed="U-value {value}; a new floor may have only {limit}.",
        ),
        Finding(
            "improved-floor-limit",
            "U-value of an improved floor",
            quantity="/outputs/u_value",
            sense="at-most",
            limit="u-value-improved-floor",
            applies_when="/outputs/compared == improved-floor",
            words_passed="U-value {value}; an improved floor may have {limit} at most.",
            words_failed="U-value {value}; an improved floor may have only {limit}.",
        ),
    ),
    cautions=("heat-loss-fabric", "ground-floor-whole"),
    refusals=(
        Refused(
            "one-floor-expected",
            "One floor at a time",
            "Give either a slab or a suspended floor.",
        ),
        Refused(
            "edge-without-slab",
            "Edge insulation belongs to a slab",
            "Leave it out: a suspended floor is insulated between or under its joists, or on the "
            "ground of its void.",
        ),
        Refused(
            "perimeter-too-short",
            "Area over half the perimeter is {dimension}, more than {most}",
            "Give area and exposed perimeter of the whole floor of the building. A floor of such "
            "dimensions is outside this calculation.",
        ),
        Refused(
            "edge-beyond-floor",
            "Edge insulation goes no further than half the characteristic dimension, {most} here",
            "Give a smaller extent. Insulation over the whole floor belongs to its resistance.",
        ),
        Refused(
            "edge-no-better-than-ground",
            "The edge insulation conducts as well as the ground, {ground}, or better",
            "Check its conductivity and its unit: insulation has some 0.02 to 0.05 W/(m K).",
        ),
    ),
    monotonic=(
        Monotonic("/edge/extent", "/u_value", "decreasing"),
        Monotonic("/edge/thickness", "/u_value", "decreasing"),
        Monotonic("/edge/conductivity", "/edge/saving", "decreasing"),
        Monotonic("/slab/floor_resistance", "/u_value", "decreasing"),
        Monotonic("/slab/perimeter", "/u_value", "increasing"),
        Monotonic("/suspended/floor_resistance", "/u_value", "decreasing"),
        Monotonic("/suspended/wind", "/loss", "increasing"),
        Monotonic("/mean_difference", "/mean_loss", "increasing"),
    ),
    charts=(
        LineChart(
            "edge",
            "U-value of the floor by the extent of its edge insulation",
            series=(
                Series("with edge", "/outputs/edge/curve/extent", "/outputs/edge/curve/u_value"),
            ),
            levels=(Level("no edge insulation", "/outputs/plain_u_value"),),
        ),
    ),
    sources=(EDGE, SUSPENDED),
    example={
        "slab": {
            "area": {"value": 58.89, "unit": "m2"},
            "perimeter": {"value": 33.8, "unit": "m"},
            "wall_thickness": {"value": 300, "unit": "mm"},
            "ground": "clay",
        },
        "edge": {
            "position": "vertical",
            "extent": {"value": 0.6, "unit": "m"},
            "thickness": {"value": 75, "unit": "mm"},
            "conductivity": {"value": 0.035, "unit": "W/(m.K)"},
        },
        "mean_difference": {"value": 9, "unit": "K"},
    },
)
