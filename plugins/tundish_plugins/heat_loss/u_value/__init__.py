"""U-value of an element: layers, bridged layers, windows, slabs."""

from __future__ import annotations

from tundish.calculation import Calculation, Finding, Method, Monotonic, Need, Refused
from tundish_plugins.heat_loss.u_value.contract import UValueInputs, UValueOutputs
from tundish_plugins.heat_loss.u_value.formulas import (
    EN_ISO_6946,
    EN_ISO_10077,
    EN_ISO_13370,
    SUSPENDED,
)
from tundish_plugins.heat_loss.u_value.kernel import kernel


def _improved(part: str) -> Finding:
    return Finding(
        f"improved-{part}-limit",
        f"U-value of an improved {part}",
        quantity="/outputs/u_value",
        sense="at-most",
        limit=f"u-value-improved-{part}",
        applies_when=f"/outputs/compared == improved-{part}",
        words_passed="U-value {value}; an improved " + part + " may have {limit} at most.",
        words_failed="U-value {value}; an improved " + part + " may have only {limit}.",
    )


def _limit(part: str) -> Finding:
    return Finding(
        f"new-{part}-limit",
        f"U-value of a new {part}",
        quantity="/outputs/u_value",
        sense="at-most",
        limit=f"u-value-new-{part}",
        applies_when=f"/outputs/compared == {part}",
        words_passed="U-value {value}; a new " + part + " may have {limit} at most.",
        words_failed="U-value {value}; a new " + part + " may have only {limit}.",
    )


CALCULATION = Calculation(
    id="u-value",
    version="1.0",
    title="U-value of a wall, roof, floor or window",
    summary="Thermal transmittance from layers, bridged layers by the combined method, windows "
    "from their parts, and slabs on the ground.",
    family="heat-loss",
    questions=(
        "What is the U-value of this wall?",
        "What do the joists or the mortar do to it?",
    ),
    inputs=UValueInputs,
    outputs=UValueOutputs,
    kernel=kernel,
    methods=(
        Method(
            "standard",
            "European Standards",
            "EN ISO 6946 for layers with the combined method for bridges, EN ISO 10077-1 for "
            "windows, EN ISO 13370 for slabs on the ground and suspended floors (the latter not "
            "checked against the standard).",
            source=EN_ISO_6946,
        ),
    ),
    needs=(
        Need("surface-resistances", "table", "Inner surface resistances by direction"),
        Need("surface-resistance-outside", "thermal_resistance", "Outer surface resistance"),
        Need("ground-conductivities", "table", "Conductivity of the ground"),
    ),
    findings=(
        *(_limit(part) for part in ("wall", "roof", "floor", "window")),
        *(_improved(part) for part in ("wall", "roof", "floor")),
    ),
    cautions=("heat-loss-fabric",),
    refusals=(
        Refused(
            "one-element-expected",
            "One element at a time",
            "Give exactly one of layers, window, slab and suspended.",
        ),
        Refused(
            "part-contradicts",
            "What it is said to be ({part}) does not go with {given}",
            "Slabs and suspended floors are floors, windows are windows, layers are walls, roofs or "
            "floors. Heat flows horizontally through a wall, up through a roof, down through a "
            "floor: leave the direction out.",
        ),
        Refused(
            "field-not-applicable",
            "The field belongs to layers and has no bearing on a {element}",
            "Leave it out.",
        ),
        Refused(
            "perimeter-too-short",
            "Area over half the perimeter is {dimension}, more than {most}",
            "Give area and exposed perimeter of the whole floor of the building. A floor of such "
            "dimensions is outside this calculation.",
        ),
        Refused(
            "resistance-beyond-thickness",
            "No material so thin has such a resistance; {most} is the most",
            "Check thickness and resistance, or leave the thickness out.",
        ),
        Refused(
            "layer-given-twice",
            "A layer has both a resistance and a conductivity",
            "Give a resistance, or a thickness with a conductivity, or parts.",
        ),
        Refused(
            "layer-without-resistance",
            "A layer has neither a resistance nor a conductivity",
            "Give a resistance, or a thickness with a conductivity.",
        ),
        Refused(
            "layer-without-thickness",
            "A layer has no thickness",
            "Give its thickness.",
        ),
        Refused(
            "part-without-resistance",
            "A part of a layer has no resistance",
            "Give each part a conductivity or a resistance above nothing.",
        ),
        Refused(
            "fractions-do-not-sum",
            "The shares of a layer's parts sum to {sum}, not to 1",
            "Give shares of the area that sum to 1.",
        ),
        Refused(
            "too-many-paths",
            "The parts make {paths} paths, more than 64",
            "Put parts that are nearly alike together.",
        ),
        Refused(
            "combined-method-out-of-range",
            "Upper and lower limit lie more than 1.5 apart, where the combined method does not hold",
            "Have a two- or three-dimensional calculation made. The bound 1.5 has not been checked "
            "against the standard; the stricter reading is taken.",
        ),
    ),
    monotonic=(
        Monotonic("/layers/1/thickness", "/u_value", "decreasing"),
        Monotonic("/space_resistance", "/u_value", "decreasing"),
        Monotonic("/suspended/floor_resistance", "/u_value", "decreasing"),
        Monotonic("/suspended/wind", "/u_value", "increasing"),
        Monotonic("/slab/floor_resistance", "/u_value", "decreasing"),
        Monotonic("/window/edge_length", "/u_value", "increasing"),
    ),
    sources=(EN_ISO_10077, EN_ISO_13370, SUSPENDED),
    example={
        "layers": [
            {
                "name": "plasterboard",
                "thickness": {"value": 12.5, "unit": "mm"},
                "conductivity": {"value": 0.25, "unit": "W/(m.K)"},
            },
            {
                "name": "insulation and studs",
                "thickness": {"value": 140, "unit": "mm"},
                "parts": [
                    {
                        "name": "insulation",
                        "fraction": 0.85,
                        "conductivity": {"value": 0.038, "unit": "W/(m.K)"},
                    },
                    {
                        "name": "timber",
                        "fraction": 0.15,
                        "conductivity": {"value": 0.13, "unit": "W/(m.K)"},
                    },
                ],
            },
            {
                "name": "plywood",
                "thickness": {"value": 9, "unit": "mm"},
                "conductivity": {"value": 0.13, "unit": "W/(m.K)"},
            },
            {"name": "cavity", "resistance": {"value": 0.18, "unit": "m2.K/W"}},
            {
                "name": "brick",
                "thickness": {"value": 102.5, "unit": "mm"},
                "conductivity": {"value": 0.77, "unit": "W/(m.K)"},
            },
        ],
    },
)
