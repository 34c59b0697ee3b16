"""What is asked and what is answered about radiators and the flow temperature they need."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Flag, Inputs, Item, Name, Number, Outputs, Quantity, Rows


class Emitter(Item):
    """A radiator, convector or towel rail with its rating."""

    name: Annotated[str, Name(help="Name of the radiator, unique in its room.")]
    rated_output: Annotated[
        float,
        Quantity("power", "Q_r", "W", low=10, high=20_000, help="Output on its data sheet."),
    ]
    rating: Annotated[
        Literal["current", "older", "stated"],
        Choice(
            default="current",
            help="What the data sheet rates at: the standard of today (75/65/20 °C), the older one "
            "with a larger excess temperature, or an excess temperature stated here.",
        ),
    ]
    rated_excess: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "Δθ_r",
                "K",
                low=5,
                high=100,
                help="Excess temperature of the rating, water over room, where that is 'stated'.",
            ),
        ]
        | None
    ) = None
    exponent: (
        Annotated[
            float,
            Number(
                "n",
                low=1,
                high=1.6,
                help="Exponent on its data sheet. Left out: that of a panel radiator; convectors "
                "have more, towel rails less.",
            ),
        ]
        | None
    ) = None
    output_kept: Annotated[
        float,
        Number(
            "k",
            low=0.2,
            high=1.2,
            default=1,
            help="Share of the output that casing, shelf, recess, paint, connection or towels "
            "leave. 1: rated as it stands.",
        ),
    ]
    towel_rail: Annotated[
        bool, Flag(default=False, help="It is a towel rail, which towels will cover.")
    ]


class Room(Item):
    """A room with its load and its radiators."""

    name: Annotated[str, Name(help="Name of the room.")]
    temperature: Annotated[
        float, Quantity("temperature", "θ_i", "degC", low=5, high=30, help="Room temperature.")
    ]
    load: Annotated[
        float,
        Quantity(
            "power", "Φ", "W", low=10, high=50_000, help="Heat the room needs on the design day."
        ),
    ]
    radiators: Annotated[list[Emitter], Rows(low=1, high=10, help="Its radiators.")]


class EmitterInputs(Inputs):
    """Rooms, their radiators, and the water that feeds them."""

    flow_temperature: Annotated[
        float,
        Quantity("temperature", "θ_f", "degC", low=20, high=110, help="Water into the radiators."),
    ]
    return_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_r", "degC", low=10, high=110, help="Water out of the radiators."
        ),
    ]
    work: Annotated[
        Literal["existing", "new-or-replaced"],
        Choice(
            default="existing",
            help="Whether the wet system is there (a new boiler alone changes nothing in that), or "
            "new or wholly replaced, radiators and pipes with it.",
        ),
    ]
    source_flow_most: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_s",
                "degC",
                low=25,
                high=110,
                help="Highest flow temperature the heat source gives on the design day.",
            ),
        ]
        | None
    ) = None
    rooms: Annotated[list[Room], Rows(low=1, high=60, help="The heated rooms.")]


class EmitterOutputs(Item):
    """What one radiator does."""

    name: Annotated[str, Name(help="Name of the radiator.")]
    rated_excess: Annotated[
        float, Quantity("temperature_difference", "Δθ_r", "K", help="Excess of its rating.")
    ]
    exponent: Annotated[float, Number("n", help="Its exponent.")]
    output_factor: Annotated[float, Number("f", help="Output here over rated output, k apart.")]
    output: Annotated[float, Quantity("power", "Q", "W", help="Output at these temperatures.")]
    rated_now: Annotated[
        float,
        Quantity("power", "Q_0", "W", help="Its rating restated to the standard of today."),
    ]


class RoomOutputs(Item):
    """What the radiators of one room do."""

    name: Annotated[str, Name(help="Name of the room.")]
    excess: Annotated[
        float, Quantity("temperature_difference", "Δθ", "K", help="Water over room, as the method.")
    ]
    output: Annotated[float, Quantity("power", "Q", "W", help="Output of its radiators.")]
    covered: Annotated[float, Quantity("power", "Φ_c", "W", help="Part of the load that is met.")]
    lacking: Annotated[float, Quantity("power", "Φ_l", "W", help="Part of the load not met.")]
    spare: Annotated[float, Quantity("power", "Φ_s", "W", help="Output beyond the load.")]
    growth: Annotated[
        float,
        Number(
            "g", help="Load over output: above 1, the radiators must grow by this factor together."
        ),
    ]
    rated_now: Annotated[
        float,
        Quantity("power", "Q_0", "W", help="Rating of its radiators by the standard of today."),
    ]
    rated_needed: Annotated[
        float,
        Quantity(
            "power", "Q_n", "W", help="Rating, by the standard of today, that meets the load."
        ),
    ]
    lowest_flow_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_f", "degC", help="Lowest flow that still heats it, same drop kept."
        ),
    ]
    design_flow: Annotated[
        float,
        Quantity("volume_flow", "V", "l/min", help="Water that carries the load at this drop."),
    ]
    return_share: Annotated[
        float, Number("c", help="Return over room, as a share of flow over room.")
    ]
    exponents_stated: Annotated[bool, Flag(help="Every exponent is from a data sheet.")]
    well_founded: Annotated[
        bool, Flag(help="They are, and the mean of the method stands the drop of the water.")
    ]
    has_towel_rail: Annotated[bool, Flag(help="There is a towel rail in it.")]
    towel_rails_only: Annotated[bool, Flag(help="Towel rails are all that heats it.")]
    radiators: Annotated[list[EmitterOutputs], Rows(help="Each radiator.")]


class EmittersOutputs(Outputs):
    """The rooms, and the flow temperature they need together."""

    arithmetic: Annotated[bool, Flag(help="The method takes the arithmetic mean.")]
    drop: Annotated[float, Quantity("temperature_difference", "σ", "K", help="Flow less return.")]
    lowest_flow_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_f", "degC", help="Lowest flow that heats every room, same drop."
        ),
    ]
    dictating_room: Annotated[str, Name(help="The room that asks for it.")]
    next_flow_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_f2",
                "degC",
                help="Flow that would do if that room had larger radiators.",
            ),
        ]
        | None
    )
    flow_temperature_most: (
        Annotated[
            float,
            Quantity("temperature", "θ_m", "degC", help="Limit of the region for such work."),
        ]
        | None
    )
    load: Annotated[float, Quantity("power", "Φ", "kW", help="Load of all rooms.")]
    output: Annotated[float, Quantity("power", "Q", "kW", help="Output of all radiators.")]
    design_flow: Annotated[
        float, Quantity("volume_flow", "V", "l/min", help="Water for all the rooms.")
    ]
    rooms: Annotated[list[RoomOutputs], Rows(help="Each room.")]
