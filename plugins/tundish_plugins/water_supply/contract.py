"""Parts of a contract that the calculations of the family share: runs of pipe, and outlets."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Item, Name, Number, Quantity, Rows, Text

Building = Annotated[
    Literal["dwelling", "nursing-home", "hotel", "hospital-ward-block", "school", "office"],
    Choice(help="Kind of building, for method din-1988-300.", default="dwelling"),
]


class Outlet(Item):
    """Something that draws water."""

    name: Annotated[str, Name(help="Name of the outlet, such as main bath.")]
    fitting: (
        Annotated[
            str,
            Text(
                longest=40,
                help="Kind of fitting in the table of the method, such as bath, shower, washbasin, "
                "kitchen-sink or wc-cistern: gives its flow and its loading units.",
            ),
        ]
        | None
    ) = None
    flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q",
                "l/min",
                low=0.5,
                high=200,
                help="Flow it takes, when known; otherwise that of its kind of fitting.",
            ),
        ]
        | None
    ) = None
    room: (
        Annotated[
            str,
            Name(
                help="Room it is in, for method din-1988-300: of a room's outlets no more than two "
                "are taken to run at once."
            ),
        ]
        | None
    ) = None


class Component(Item):
    """Something in the way that its maker gives a pressure loss for."""

    name: Annotated[
        str, Name(help="What it is, such as stop valve, meter, softener or check valve.")
    ]
    pressure_loss: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_1", "bar", low=0, high=5, help="Its loss at the flow beside."
        ),
    ]
    at_flow: Annotated[
        float,
        Quantity(
            "volume_flow", "q_1", "l/min", low=0.5, high=1000, help="Flow that the loss is for."
        ),
    ]


class ReducingValve(Item):
    """A pressure reducing valve."""

    setting: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_set",
            "bar",
            low=0.5,
            high=8,
            help="Pressure it holds behind it with nothing flowing.",
        ),
    ]
    fall_off: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_1",
            "bar",
            low=0,
            high=3,
            help="By how much that falls at the flow beside; ask the maker for the chart. It is "
            "taken as growing in a straight line with the flow.",
        ),
    ]
    at_flow: Annotated[
        float,
        Quantity("volume_flow", "q_1", "l/min", low=0.5, high=1000, help="Flow of that fall-off."),
    ]


class Run(Item):
    """A run of one tube with what is fitted in it."""

    name: Annotated[str, Name(help="Name of the section.")]
    tube: (
        Annotated[
            str,
            Text(longest=40, help="Tube, such as copper-22 or pe-25; or give the bore instead."),
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
                low=4,
                high=150,
                help="Bore (inside), where the tube is not in the table: plastic barrier pipe has "
                "much less than its nominal size.",
            ),
        ]
        | None
    ) = None
    roughness: (
        Annotated[
            float,
            Quantity("length", "k", "mm", low=0, high=3, help="Roughness of that bore."),
        ]
        | None
    ) = None
    length: Annotated[
        float, Quantity("length", "L", "m", low=0.05, high=1000, help="Length as measured.")
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
            help="Length of tube that stands for its fittings; or give loss coefficients.",
        ),
    ]
    fittings_loss: Annotated[
        float,
        Number(
            "Σζ",
            low=0,
            high=500,
            default=0,
            help="Sum of the loss coefficients of its fittings; or give an added length.",
        ),
    ]
    rise: Annotated[
        float,
        Quantity(
            "length",
            "z",
            "m",
            low=-100,
            high=100,
            default=0,
            help="By how much its end lies above its start; negative where it falls.",
        ),
    ]
    components: Annotated[
        list[Component], Rows(low=0, high=20, help="Components with a stated loss.")
    ] = []
    reducing_valve: ReducingValve | None = None
