"""What is asked and what is answered about a U-value."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Count,
    Inputs,
    Item,
    Name,
    Number,
    Outputs,
    Quantity,
    Rows,
)

Compared = Literal[
    "wall", "roof", "floor", "window", "improved-wall", "improved-roof", "improved-floor"
]

Direction = Literal["horizontal", "up", "down"]

CONDUCTIVITY = Quantity(
    "thermal_conductivity",
    "λ",
    "W/(m.K)",
    low=0.005,
    high=5,
    help="Design conductivity. Metals are outside the combined method.",
)
DIMENSION = Quantity(
    "length", "B", "m", high=100, help="Characteristic dimension of the floor, at most 100 m."
)
_RESISTANCE = Quantity(
    "thermal_resistance", "R", "m2.K/W", low=0, high=20, help="Resistance, for cavities and films."
)


class Part(Item):
    """One material of a layer that is made of several side by side."""

    name: Annotated[str, Name(help="Material.")]
    fraction: Annotated[float, Number("f", low=0, high=1, help="Its share of the area.")]
    conductivity: Annotated[float, CONDUCTIVITY] | None = None
    resistance: Annotated[float, _RESISTANCE] | None = None


class Layer(Item):
    """One layer, from inside to outside."""

    name: Annotated[str, Name(help="Layer.")]
    thickness: (
        Annotated[float, Quantity("length", "d", "mm", low=0.1, high=2000, help="Thickness.")]
        | None
    ) = None
    conductivity: Annotated[float, CONDUCTIVITY] | None = None
    resistance: Annotated[float, _RESISTANCE] | None = None
    parts: (
        Annotated[list[Part], Rows(low=2, high=4, help="Materials side by side, such as studs.")]
        | None
    ) = None


class Window(Item):
    """A window by its parts."""

    glass_area: Annotated[
        float, Quantity("area", "A_g", "m2", low=0.01, high=50, help="Visible area of glass.")
    ]
    glass_u_value: Annotated[
        float,
        Quantity(
            "thermal_transmittance", "U_g", "W/(m2.K)", low=0.2, high=7, help="U of the glass."
        ),
    ]
    frame_area: Annotated[
        float, Quantity("area", "A_f", "m2", low=0, high=50, help="Projected area of the frame.")
    ]
    frame_u_value: Annotated[
        float,
        Quantity(
            "thermal_transmittance", "U_f", "W/(m2.K)", low=0.2, high=10, help="U of the frame."
        ),
    ]
    edge_length: Annotated[
        float,
        Quantity("length", "l_g", "m", low=0, high=200, help="Length of the edge of the glass."),
    ]
    edge_transmittance: Annotated[
        float,
        Quantity("linear_transmittance", "ψ_g", "W/(m.K)", low=0, high=1, help="Loss of the edge."),
    ]


class Slab(Item):
    """A slab on the ground: the whole floor of the building, not of one room."""

    area: Annotated[
        float, Quantity("area", "A", "m2", low=1, high=10000, help="Area of the floor.")
    ]
    perimeter: Annotated[
        float, Quantity("length", "P", "m", low=1, high=2000, help="Perimeter exposed to outside.")
    ]
    wall_thickness: Annotated[
        float,
        Quantity(
            "length", "w", "mm", low=0, high=1500, default=300, help="Thickness of the walls."
        ),
    ]
    ground: Annotated[
        Literal["clay", "sand", "rock"], Choice(default="clay", help="What the house stands on.")
    ]
    floor_resistance: Annotated[
        float,
        Quantity(
            "thermal_resistance",
            "R_f",
            "m2.K/W",
            low=0,
            high=20,
            default=0,
            help="Resistance of insulation and covering.",
        ),
    ]


class Suspended(Item):
    """A suspended floor over a void that is aired from outside: the whole floor of the building."""

    area: Annotated[
        float, Quantity("area", "A", "m2", low=1, high=10000, help="Area of the floor.")
    ]
    perimeter: Annotated[
        float, Quantity("length", "P", "m", low=1, high=2000, help="Perimeter exposed to outside.")
    ]
    wall_thickness: Annotated[
        float,
        Quantity(
            "length", "w", "mm", low=0, high=1500, default=300, help="Thickness of the walls."
        ),
    ]
    ground: Annotated[
        Literal["clay", "sand", "rock"], Choice(default="clay", help="What the house stands on.")
    ]
    ground_resistance: Annotated[
        float,
        Quantity(
            "thermal_resistance",
            "R_g",
            "m2.K/W",
            low=0,
            high=20,
            default=0,
            help="Resistance of insulation on the ground of the void.",
        ),
    ]
    floor_resistance: Annotated[
        float,
        Quantity(
            "thermal_resistance",
            "R_f",
            "m2.K/W",
            low=0,
            high=20,
            example=0.154,
            help="Resistance of the floor itself, its surfaces not in it.",
        ),
    ]
    height: Annotated[
        float,
        Quantity(
            "length",
            "h",
            "m",
            low=0,
            high=3,
            example=0.3,
            help="Height of the floor's upper face above the ground outside.",
        ),
    ]
    wall_u_value: Annotated[
        float,
        Quantity(
            "thermal_transmittance",
            "U_w",
            "W/(m2.K)",
            low=0.05,
            high=7,
            example=1.7,
            help="U-value of the walls of the void.",
        ),
    ]
    opening: Annotated[
        float,
        Quantity(
            "length",
            "ε",
            "m",
            low=0,
            high=0.05,
            example=0.0015,
            help="Area of the air openings over the length of the perimeter, m² a metre.",
        ),
    ]
    wind: Annotated[
        float,
        Quantity(
            "velocity",
            "v",
            "m/s",
            low=0,
            high=20,
            example=5,
            help="Mean wind speed at 10 m height.",
        ),
    ]
    wind_shielding: Annotated[
        float,
        Number("f_w", low=0, high=0.2, example=0.05, help="Wind shielding factor of the place."),
    ]


class UValueInputs(Inputs):
    """An element: layers, or a window, or a slab, or a suspended floor."""

    layers: (
        Annotated[list[Layer], Rows(low=1, high=12, help="Layers from inside to outside.")] | None
    ) = None
    window: Window | None = None
    slab: Slab | None = None
    suspended: Suspended | None = None
    heat_flow: (
        Annotated[
            Direction,
            Choice(
                help="Direction through layers: up for roofs, down for floors. Left out: by what it "
                "is, else horizontal."
            ),
        ]
        | None
    ) = None
    outer_face: (
        Annotated[
            Literal["air", "sheltered"],
            Choice(
                help="Of layers. Sheltered: behind ventilated cladding or to an unheated space. Left "
                "out: air."
            ),
        ]
        | None
    ) = None
    space_resistance: (
        Annotated[
            float,
            Quantity(
                "thermal_resistance",
                "R_u",
                "m2.K/W",
                low=0,
                high=2,
                help="Resistance of an unheated space behind layers, such as a garage or a loft. "
                "Left out: none.",
            ),
        ]
        | None
    ) = None
    correction: Annotated[
        float,
        Quantity(
            "thermal_transmittance",
            "ΔU",
            "W/(m2.K)",
            low=0,
            high=0.5,
            default=0,
            help="Correction for air gaps, fixings and inverted roofs, from the standard.",
        ),
    ]
    part: (
        Annotated[
            Compared,
            Choice(help="What it is, if it is to be compared with the limit for such elements."),
        ]
        | None
    ) = None


class UValueOutputs(Outputs):
    """The U-value and how it came about."""

    u_value: Annotated[
        float, Quantity("thermal_transmittance", "U", "W/(m2.K)", help="Thermal transmittance.")
    ]
    resistance: (
        Annotated[
            float,
            Quantity("thermal_resistance", "R_T", "m2.K/W", help="Total resistance, air to air."),
        ]
        | None
    ) = None
    upper_limit: (
        Annotated[
            float,
            Quantity(
                "thermal_resistance", "R_up", "m2.K/W", help="Upper limit, paths in parallel."
            ),
        ]
        | None
    ) = None
    lower_limit: (
        Annotated[
            float,
            Quantity(
                "thermal_resistance", "R_low", "m2.K/W", help="Lower limit, layers in series."
            ),
        ]
        | None
    ) = None
    largest_error: (
        Annotated[float, Number("e", help="Largest relative error of the combined method.")] | None
    ) = None
    paths: Annotated[int, Count("n", help="Heat paths side by side, if more than one.")] | None = (
        None
    )
    characteristic_dimension: Annotated[float, DIMENSION] | None = None
    ground_u_value: (
        Annotated[
            float,
            Quantity(
                "thermal_transmittance", "U_g", "W/(m2.K)", help="From the void to the ground."
            ),
        ]
        | None
    ) = None
    void_u_value: (
        Annotated[
            float,
            Quantity(
                "thermal_transmittance",
                "U_x",
                "W/(m2.K)",
                help="From the void through its walls and with its air, over the floor.",
            ),
        ]
        | None
    ) = None
    equivalent_thickness: (
        Annotated[float, Quantity("length", "d_t", "m", help="Equivalent thickness of the floor.")]
        | None
    ) = None
    heat_flow: (
        Annotated[Direction, Choice(help="Direction by which the inner surface was taken.")] | None
    ) = None
    compared: (
        Annotated[Compared, Choice(help="What its U-value is compared with, if with anything.")]
        | None
    ) = None
