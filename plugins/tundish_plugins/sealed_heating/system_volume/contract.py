"""What is asked and what is answered about the content of a heating system."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Count,
    Flag,
    Inputs,
    Item,
    Name,
    Number,
    Outputs,
    Quantity,
    Rows,
    Text,
)


class Pipe(Item):
    """All pipe of one bore."""

    name: Annotated[str, Name(help="What it is, such as 15 mm branches.")]
    length: Annotated[
        float,
        Quantity(
            "length", "L", "m", low=0.1, high=20000, help="Length of flow and return pipe together."
        ),
    ]
    tube: (
        Annotated[
            str,
            Text(longest=40, help="Tube from the region's table, such as copper-22; or the bore."),
        ]
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
    heats: Annotated[
        bool, Flag(default=False, help="It is the emitter itself, such as underfloor pipe.")
    ]


class Part(Item):
    """Parts of one kind and content, by their makers' data."""

    name: Annotated[str, Name(help="What it is, such as radiators upstairs.")]
    kind: Annotated[
        Literal["boiler", "emitter", "coil", "buffer", "header", "other"],
        Choice(
            help="Kind of part. A coil is the heating water in a hot water cylinder, never the "
            "drinking water around it."
        ),
    ]
    content: Annotated[
        float,
        Quantity("volume", "V_k", "l", low=0.05, high=5000, help="Heating water in each of them."),
    ]
    count: Annotated[int, Count("n", low=1, high=500, default=1, help="How many of them.")]


class SystemVolumeInputs(Inputs):
    """A filling measured by meter, an inventory, figures for rules of thumb; or several of them."""

    metered_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_m",
                "l",
                low=1,
                high=20000,
                help="Water that passed the meter while the empty system was filled and vented: "
                "reading after less reading before.",
            ),
        ]
        | None
    ) = None
    run_off: Annotated[
        float,
        Quantity(
            "volume",
            "V_o",
            "l",
            low=0,
            high=5000,
            default=0,
            help="Of that, water that did not stay: let out at vents, or flushed through.",
        ),
    ]
    vessel_water: Annotated[
        float,
        Quantity(
            "volume",
            "V_w",
            "l",
            low=0,
            high=500,
            default=0,
            help="Of that, water that the expansion vessel took up at the cold fill.",
        ),
    ]
    meter_uncertainty: Annotated[
        float,
        Number(
            "u_m",
            low=0,
            high=0.2,
            default=0.05,
            help="Share by which meter and readings may be off. Left out, a twentieth is assumed.",
        ),
    ]
    pipes: Annotated[list[Pipe], Rows(low=0, high=100, help="Pipes of the inventory.")] = []
    parts: Annotated[
        list[Part],
        Rows(low=0, high=200, help="Boiler, emitters, coil and the rest of the inventory."),
    ] = []
    inventory_uncertainty: Annotated[
        float,
        Number(
            "u_i",
            low=0,
            high=0.5,
            default=0.1,
            help="Share by which lengths and contents may be off together. Left out, a tenth is "
            "assumed.",
        ),
    ]
    heat_output: (
        Annotated[
            float,
            Quantity(
                "power",
                "Q",
                "kW",
                low=0.5,
                high=500,
                help="Output of the emitters at design, for rules of thumb; not the plate of a "
                "boiler that is larger.",
            ),
        ]
        | None
    ) = None
    emitters: (
        Annotated[
            Literal[
                "steel-panels",
                "low-water-content",
                "convectors",
                "fan-coils",
                "cast-iron",
                "underfloor",
            ],
            Choice(help="What most of the heat comes from, for rules of thumb."),
        ]
        | None
    ) = None
    pipework: Annotated[
        Literal["small-bore", "microbore"],
        Choice(default="small-bore", help="Pipes to the radiators, for rules of thumb."),
    ]
    cylinder_coils: Annotated[
        int,
        Count("n_c", low=0, high=10, default=0, help="Hot water cylinders with a coil, for rules."),
    ]
    boiler_content: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_b",
                "l",
                low=0.2,
                high=500,
                help="Heating water in the boiler, for rules of thumb. Left out: a range.",
            ),
        ]
        | None
    ) = None
    panels: (
        Annotated[
            int,
            Count(
                "n_p",
                low=1,
                high=500,
                help="Radiator panels in the house, for rules of thumb: a double one is two.",
            ),
        ]
        | None
    ) = None
    assumed_content: (
        Annotated[
            float,
            Quantity(
                "volume",
                "C_a",
                "l",
                low=1,
                high=20000,
                help="Content that a vessel or a dose was worked out for, to be judged.",
            ),
        ]
        | None
    ) = None


class Line(Item):
    """One line of the inventory."""

    name: Annotated[str, Name(help="Pipe or part.")]
    content: Annotated[float, Quantity("volume", "V_k", "l", help="Water in all of them.")]


class Band(Item):
    """A content between a low and a high value."""

    name: Annotated[str, Name(help="Where it comes from.")]
    low: Annotated[float, Quantity("volume", "C_low", "l", help="Lowest content.")]
    content: Annotated[float, Quantity("volume", "C", "l", help="Content.")]
    high: Annotated[float, Quantity("volume", "C_high", "l", help="Highest content.")]
    width: Annotated[float, Quantity("volume", "ΔC", "l", help="From the lowest to the highest.")]


class SystemVolumeOutputs(Outputs):
    """The content, how far it may be off, and what each way of knowing it gives."""

    basis: Annotated[
        Literal["meter", "inventory", "estimate"], Choice(help="Which way the content comes from.")
    ]
    content: Annotated[
        float, Quantity("volume", "C", "l", help="Content of the heating system when cold.")
    ]
    low: Annotated[float, Quantity("volume", "C_low", "l", help="Lowest it may be.")]
    high: Annotated[
        float,
        Quantity(
            "volume",
            "C_high",
            "l",
            help="Highest it may be: the content to size a vessel for, as system_volume of "
            "heating-expansion.",
        ),
    ]
    spread: Annotated[float, Number("s", help="Highest over lowest.")]
    rule_of_thumb: Annotated[bool, Flag(help="Nothing was measured or counted.")]
    content_per_output: (
        Annotated[
            float,
            Quantity(
                "volume_per_power", "v", "l/kW", help="Content for each kilowatt of the emitters."
            ),
        ]
        | None
    )
    inventory_complete: (
        Annotated[bool, Flag(help="The inventory has pipes, a boiler and something that heats.")]
        | None
    )
    answers_agree: (
        Annotated[bool, Flag(help="All ways of knowing the content have some content in common.")]
        | None
    )
    answers: Annotated[list[Band], Rows(help="Content by each way for which there are figures.")]
    rules: Annotated[list[Band], Rows(help="Content by each rule of thumb that applies.")]
    lines: Annotated[list[Line], Rows(help="The inventory, line by line.")]
