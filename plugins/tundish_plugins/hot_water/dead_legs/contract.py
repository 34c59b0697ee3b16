"""What is asked and what is answered about dead legs."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Flag, Inputs, Item, Name, Number, Outputs, Quantity, Rows
from tundish_plugins.hot_water.tubes import Tube


class LegPipe(Tube):
    """A run of one tube in a leg."""

    length: Annotated[
        float, Quantity("length", "L", "m", low=0.1, high=200, help="Length of the run.")
    ]
    material: (
        Annotated[
            Literal["copper", "steel", "stainless-steel", "plastic"],
            Choice(help="Material of the wall, where the tube is given by its size."),
        ]
        | None
    ) = None
    insulated: Annotated[bool, Flag(help="The run is insulated.", default=False)]


class Leg(Item):
    """The way from hot water that is kept hot to one outlet."""

    name: Annotated[str, Name(help="Name of the outlet.")]
    flow: Annotated[
        float,
        Quantity(
            "volume_flow", "q", "l/min", low=0.5, high=100, help="Hot water drawn while waiting."
        ),
    ]
    uses: (
        Annotated[
            float,
            Number("n", low=0, high=500, help="Uses a day after which the leg grows cold again."),
        ]
        | None
    ) = None
    pipes: Annotated[
        list[LegPipe], Rows(low=1, high=20, help="Runs of tube, from the hot end to the outlet.")
    ]


class DeadLegsInputs(Inputs):
    """Hot water that is kept hot, and the legs that are not."""

    hot_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_h",
            "degC",
            low=30,
            high=95,
            example=60,
            help="Hot water where the legs start: at the store or at the circulation.",
        ),
    ]
    standing_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_s",
            "degC",
            low=1,
            high=60,
            default=20,
            help="What a leg cools to between uses: the rooms it runs through.",
        ),
    ]
    legs: Annotated[list[Leg], Rows(low=1, high=60, help="Legs, one an outlet.")]


class LegOutputs(Item):
    """One leg."""

    name: Annotated[str, Name(help="Name of the outlet.")]
    length: Annotated[float, Quantity("length", "L", "m", help="Length of the leg.")]
    content: Annotated[float, Quantity("volume", "V", "l", help="Water that stands in it.")]
    plug_time: Annotated[
        float, Quantity("time", "t_p", "s", help="Time until the standing water is out.")
    ]
    wall_time: Annotated[
        float, Quantity("time", "t_w", "s", help="Further time until the wall of the tube is hot.")
    ]
    wait: Annotated[float, Quantity("time", "t", "s", help="Wait for hot water: both.")]
    velocity: Annotated[
        float, Quantity("velocity", "w", "m/s", help="Velocity in its narrowest tube.")
    ]
    can_be_drawn: (
        Annotated[bool, Flag(help="Whether the tube can be expected to give this flow.")] | None
    )
    arrival_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_e",
            "degC",
            help="Least temperature at the outlet once it runs hot: every run as if bare.",
        ),
    ]
    needed_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow", "q_n", "l/min", help="Draw-off that would meet the shortest limit."
            ),
        ]
        | None
    )
    bare_length: (
        Annotated[float, Quantity("length", "L_b", "m", help="Part that is not insulated.")] | None
    )
    bare_limit: (
        Annotated[
            float,
            Quantity("length", "L_max", "m", help="Most without insulation, by its widest tube."),
        ]
        | None
    )
    daily_waste: (
        Annotated[float, Quantity("volume", "V_d", "l", help="Water run off in a day.")] | None
    )
    yearly_heat: (
        Annotated[float, Quantity("energy", "Q_y", "kWh", help="Heat left in the leg in 365 days.")]
        | None
    )


class DeadLegsOutputs(Outputs):
    """Litres, seconds and waste."""

    content: Annotated[float, Quantity("volume", "V", "l", help="Water in all legs.")]
    longest_wait: Annotated[float, Quantity("time", "t", "s", help="Longest wait of all.")]
    daily_waste: Annotated[
        float,
        Quantity("volume", "V_d", "l", help="Water run off in a day, as far as uses are told."),
    ]
    yearly_waste: Annotated[float, Quantity("volume", "V_y", "m3", help="The same in 365 days.")]
    yearly_heat: Annotated[
        float, Quantity("energy", "Q_y", "kWh", help="Heat left in the legs in 365 days.")
    ]
    legs: Annotated[list[LegOutputs], Rows(help="Each leg.")]
