"""What is asked and what is answered about a ground floor."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Column, Inputs, Item, Outputs, Quantity
from tundish_plugins.heat_loss.u_value.contract import CONDUCTIVITY, DIMENSION, Slab, Suspended

Position = Literal["horizontal", "vertical"]
Compared = Literal["floor", "improved-floor"]


class Edge(Item):
    """Insulation along the edge of a slab, all round the exposed perimeter."""

    position: Annotated[
        Position,
        Choice(
            help="Horizontal: a strip along the edge, under or over the slab. Vertical: down the "
            "foundation, inside or outside of it."
        ),
    ]
    extent: Annotated[
        float,
        Quantity(
            "length",
            "D",
            "m",
            low=0.05,
            high=5,
            example=1,
            help="Width of the strip, or depth below the ground.",
        ),
    ]
    thickness: Annotated[
        float,
        Quantity(
            "length", "d_n", "mm", low=5, high=500, example=50, help="Thickness of the insulation."
        ),
    ]
    conductivity: Annotated[float, CONDUCTIVITY]


class GroundFloorInputs(Inputs):
    """The whole floor of a building: a slab, with or without edge insulation, or suspended."""

    slab: Slab | None = None
    edge: Edge | None = None
    suspended: Suspended | None = None
    mean_difference: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "Δθ",
                "K",
                low=0,
                high=50,
                help="Inside less outside, both as means of the year, for the loss in watts.",
            ),
        ]
        | None
    ) = None
    part: (
        Annotated[
            Compared,
            Choice(help="What it is, if it is to be compared with the limit for such floors."),
        ]
        | None
    ) = None


class EdgeCurve(Item):
    """The floor by the extent of its edge insulation."""

    extent: Annotated[list[float], Column("length", "D", "m", help="Width or depth.")]
    u_value: Annotated[
        list[float], Column("thermal_transmittance", "U", "W/(m2.K)", help="U-value of the floor.")
    ]


class EdgeAnswer(Item):
    """What the edge insulation does."""

    equivalent_thickness: Annotated[
        float,
        Quantity("length", "d_e", "m", help="Thickness of ground its insulation adds."),
    ]
    transmittance: Annotated[
        float,
        Quantity(
            "linear_transmittance", "ψ_e", "W/(m.K)", help="Loss along the perimeter it takes off."
        ),
    ]
    saving: Annotated[
        float, Quantity("thermal_conductance", "ΔH", "W/K", help="Loss of the floor it saves.")
    ]
    curve: EdgeCurve


class GroundFloorOutputs(Outputs):
    """The U-value of the floor, and its loss."""

    u_value: Annotated[
        float, Quantity("thermal_transmittance", "U", "W/(m2.K)", help="Thermal transmittance.")
    ]
    plain_u_value: Annotated[
        float,
        Quantity(
            "thermal_transmittance", "U_0", "W/(m2.K)", help="The same, edge insulation apart."
        ),
    ]
    loss: Annotated[
        float, Quantity("thermal_conductance", "H", "W/K", help="Loss of the whole floor a kelvin.")
    ]
    mean_loss: (
        Annotated[
            float,
            Quantity("power", "Φ", "W", help="Loss of the whole floor, mean of the year."),
        ]
        | None
    ) = None
    characteristic_dimension: Annotated[float, DIMENSION]
    equivalent_thickness: Annotated[
        float,
        Quantity(
            "length",
            "d_t",
            "m",
            help="Equivalent thickness of the floor on the ground, or of the ground of the void.",
        ),
    ]
    ground_u_value: (
        Annotated[
            float,
            Quantity("thermal_transmittance", "U_g", "W/(m2.K)", help="From void to ground."),
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
    edge: EdgeAnswer | None = None
    compared: (
        Annotated[Compared, Choice(help="What its U-value is compared with, if with anything.")]
        | None
    ) = None
