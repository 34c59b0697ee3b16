"""Sections of heating pipe as calculations ask for them."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Count, Item, Name, Number, Quantity, Rows, Text


class Fitting(Item):
    """Fittings of one kind and size in a section."""

    kind: Annotated[
        str,
        Text(
            longest=40, help="Kind of fitting as the table of the method names it, such as elbow."
        ),
    ]
    size: Annotated[
        str,
        Text(
            longest=20,
            default="any",
            help="Its size as the table names it, such as DN 20 or 22 mm; any where the table knows "
            "no sizes.",
        ),
    ]
    count: Annotated[int, Count("n", low=1, high=200, help="How many of them.")]


class Component(Item):
    """A valve, filter, coil, emitter or boiler in the way: its Kv, or its loss at one flow."""

    name: Annotated[str, Name(help="What it is.")]
    kv: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "K_v",
                "m3/h",
                low=0.001,
                high=500,
                help="Kv: flow of cold water that it passes at 1 bar.",
            ),
        ]
        | None
    ) = None
    rated_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V_r",
                "l/min",
                low=0.01,
                high=2000,
                help="Flow at which its loss is stated.",
            ),
        ]
        | None
    ) = None
    rated_loss: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_r",
                "kPa",
                low=0,
                high=500,
                help="Its loss at that flow; it grows with the square of the flow.",
            ),
        ]
        | None
    ) = None


class Section(Item):
    """A run of one size between two points: flow pipe and return pipe together, of one flow."""

    name: Annotated[str, Name(help="Name of the section.")]
    start: Annotated[str, Name(help="Point it starts from, such as boiler.")]
    end: Annotated[str, Name(help="Point it leads to.")]
    length: Annotated[
        float,
        Quantity(
            "length", "L", "m", low=0.05, high=1000, help="Length of flow and return pipe together."
        ),
    ]
    tube: (
        Annotated[
            str,
            Text(
                longest=40,
                help="Tube from the region's table, such as copper-22; instead of material and bore.",
            ),
        ]
        | None
    ) = None
    material: (
        Annotated[Literal["copper", "plastic", "steel"], Choice(help="What the pipe is made of.")]
        | None
    ) = None
    bore: (
        Annotated[
            float,
            Quantity(
                "length",
                "d",
                "mm",
                low=3,
                high=150,
                help="Inside diameter. Plastic is much narrower than copper of the same name.",
            ),
        ]
        | None
    ) = None
    roughness: (
        Annotated[
            float,
            Quantity(
                "length",
                "k",
                "mm",
                low=0,
                high=0.5,
                help="Roughness of the inside, if known; otherwise that of the material.",
            ),
        ]
        | None
    ) = None
    fittings: Annotated[list[Fitting], Rows(low=0, high=30, help="Its fittings.")] = []
    loss_coefficient: Annotated[
        float,
        Number("ζ_x", low=0, high=500, default=0, help="Further loss coefficients, summed."),
    ]
    extra_length: Annotated[
        float,
        Quantity(
            "length",
            "L_x",
            "m",
            low=0,
            high=500,
            default=0,
            help="Further equivalent length, such as a maker states for a fitting.",
        ),
    ]
    components: Annotated[
        list[Component], Rows(low=0, high=20, help="Valves, filters and the like in it.")
    ] = []
