"""What is asked and what is answered about a water test of pipes."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Column,
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
    """The pipe that holds most of the water, for what a kelvin does to the pressure."""

    material: Annotated[
        str, Text(longest=40, help="Material of the pipe, by the table pipe-elasticity.")
    ]
    tube: (
        Annotated[str, Text(longest=40, help="Tube by the table water-tubes, such as copper-15.")]
        | None
    ) = None
    bore: (
        Annotated[
            float,
            Quantity("length", "d", "mm", low=3, high=110, help="Bore, when no tube is named."),
        ]
        | None
    ) = None
    wall: (
        Annotated[
            float,
            Quantity("length", "s", "mm", low=0.3, high=20, help="Wall, when no tube is named."),
        ]
        | None
    ) = None


class Tested(Item):
    """A part that is in the pipes under test, or is shut off from them."""

    name: Annotated[str, Name(help="What and where, such as shower valve.")]
    level: Annotated[
        float, Quantity("length", "z", "m", low=-30, high=100, help="Its level above the datum.")
    ]
    rating: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_max",
            "bar",
            low=0.05,
            high=60,
            help="Highest test pressure its maker allows; its working rating where none is given.",
        ),
    ]
    isolated: Annotated[bool, Flag(help="It is shut off or taken out for the test.", default=False)]


class Stage(Item):
    """One stage of the test as it was read."""

    start_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge", "p_1", "bar", low=0, high=40, help="Gauge reading at its start."
        ),
    ]
    end_pressure: Annotated[
        float,
        Quantity("pressure_gauge", "p_2", "bar", low=0, high=40, help="Gauge reading at its end."),
    ]
    duration: Annotated[
        float, Quantity("time", "t", "min", low=0, high=1440, help="Time between the two.")
    ]
    start_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_1",
                "degC",
                low=1,
                high=60,
                help="Temperature of the water or the pipe wall at its start.",
            ),
        ]
        | None
    ) = None
    end_temperature: (
        Annotated[
            float,
            Quantity("temperature", "T_2", "degC", low=1, high=60, help="The same at its end."),
        ]
        | None
    ) = None


class StrengthTestInputs(Inputs):
    """The pipes, the pressure they are for, and the readings as far as there are any."""

    medium: Annotated[
        Literal["water", "air", "inert-gas"],
        Choice(help="What the pipes are filled with for the test. Only water is answered."),
    ]
    operating_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_o",
            "bar",
            low=0.2,
            high=16,
            example=3,
            help="Highest pressure the pipes are to have in use: the main at night, the reducing "
            "valve, or on the hot side the expansion valve.",
        ),
    ]
    operating_level: Annotated[
        float,
        Quantity(
            "length",
            "z_o",
            "m",
            low=-30,
            high=100,
            default=0,
            help="Level above the datum at which it has that pressure.",
        ),
    ]
    lowest_level: Annotated[
        float,
        Quantity(
            "length",
            "z_l",
            "m",
            low=-30,
            high=100,
            default=0,
            help="Lowest point of the pipes under test, above the datum.",
        ),
    ]
    highest_level: Annotated[
        float,
        Quantity(
            "length", "z_h", "m", low=-30, high=100, help="Highest point of the pipes under test."
        ),
    ]
    gauge_level: Annotated[
        float,
        Quantity("length", "z_g", "m", low=-30, high=100, default=0, help="Level of the gauge."),
    ]
    gauge_resolution: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_g",
            "bar",
            low=0.001,
            high=0.1,
            help="Smallest change that can be read on the gauge. A coarser one shows no leak.",
        ),
    ]
    water_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T",
            "degC",
            low=1,
            high=40,
            default_rule="cold-water-temperature",
            help="Temperature of the water in the pipes.",
        ),
    ]
    plastic: Annotated[bool, Flag(help="There is plastic pipe in the test.")]
    content: (
        Annotated[
            float,
            Quantity("volume", "V", "l", low=0.5, high=5000, help="Water in the pipes under test."),
        ]
        | None
    ) = None
    pipe: Pipe | None = None
    parts: Annotated[
        list[Tested], Rows(low=0, high=60, help="Parts that the pressure reaches or could reach.")
    ] = []
    stages: Annotated[
        list[Stage],
        Rows(low=0, high=6, help="Stages as read, in order. None while the test is planned."),
    ] = []
    joints: Annotated[
        Literal["tight", "leak-seen", "not-looked-at"],
        Choice(help="What was seen at the joints at the end of the test.", default="not-looked-at"),
    ]


class TestedOutputs(Item):
    """The pressure of the test at a part."""

    name: Annotated[str, Name(help="Name of the part.")]
    test_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_t", "bar", help="Test pressure at its level.")
    ]
    spare: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_s",
            "bar",
            help="Its rating less that; negative where it must be isolated.",
        ),
    ]
    in_test: Annotated[bool, Flag(help="It is under the test pressure.")]
    left_out: (
        Annotated[bool, Flag(help="It is isolated though it would stand the test.")] | None
    ) = None
    highest_reading: (
        Annotated[
            float,
            Quantity("pressure_gauge", "p_hi", "bar", help="Highest pressure it has had, as read."),
        ]
        | None
    ) = None


class StageOutputs(Item):
    """One stage: what it asks for, and what was read."""

    name: Annotated[str, Name(help="Number of the stage.")]
    task: Annotated[str, Text(help="What is done in it.")]
    required: (
        Annotated[
            float,
            Quantity("pressure_gauge", "p_s", "bar", help="Least reading at its start."),
        ]
        | None
    ) = None
    least_duration: Annotated[float, Quantity("time", "t_s", "min", help="Least duration.")]
    allowed: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_a",
                "bar",
                help="Drop allowed, with half of what can be read on the gauge. None where it is "
                "pumped up.",
            ),
        ]
        | None
    ) = None
    start: (
        Annotated[float, Quantity("pressure_gauge", "p_1", "bar", help="As read at its start.")]
        | None
    ) = None
    duration: Annotated[float, Quantity("time", "t", "min", help="As it was.")] | None = None
    drop: (
        Annotated[
            float,
            Quantity("pressure_difference", "Δp", "bar", help="Drop; negative where it rose."),
        ]
        | None
    ) = None
    by_temperature: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_T",
                "bar",
                help="Change that the temperature alone would make, with no air in the pipes.",
            ),
        ]
        | None
    ) = None
    temperature_effect: (
        Annotated[
            float, Quantity("pressure_difference", "|Δp_T|", "bar", help="Size of that change.")
        ]
        | None
    ) = None
    lost_water: (
        Annotated[
            float,
            Quantity(
                "volume", "ΔV", "ml", help="Water that must have gone, with no air in the pipes."
            ),
        ]
        | None
    ) = None


class Record(Item):
    """The readings over time."""

    time: Annotated[list[float], Column("time", "t", "min", help="Time since the first reading.")]
    pressure: Annotated[
        list[float], Column("pressure_gauge", "p", "bar", help="Reading of the gauge.")
    ]


class StrengthTestOutputs(Outputs):
    """What to pump to, what every part gets, and what the readings say."""

    result: Annotated[
        str,
        Text(
            help="planned, passed, failed, not at pressure, not long enough or joints not "
            "looked at."
        ),
    ]
    test_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_t", "bar", help="Test pressure at the lowest point.")
    ]
    gauge_pressure: Annotated[
        float,
        Quantity("pressure_gauge", "p_g", "bar", help="What the gauge must show for it."),
    ]
    top_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_h", "bar", help="Pressure then at the highest point.")
    ]
    top_ratio: Annotated[
        float, Number("r", help="That over the highest pressure in use there: never less.")
    ]
    rigid_procedure: Annotated[bool, Flag(help="The procedure is the one for rigid pipes.")]
    procedure_fits: Annotated[bool, Flag(help="The procedure suits the pipes.")]
    tested: Annotated[bool, Flag(help="There are readings.")]
    complete: Annotated[bool, Flag(help="Every stage has been read.")]
    tight: Annotated[bool, Flag(help="The joints were looked at and are tight.")]
    rigid_per_kelvin: Annotated[
        float,
        Quantity(
            "pressure_per_temperature",
            "dp/dT",
            "bar/K",
            help="Change for each kelvin if nothing gave: the most there can be.",
        ),
    ]
    per_kelvin: (
        Annotated[
            float,
            Quantity(
                "pressure_per_temperature",
                "dp/dT",
                "bar/K",
                help="Change for each kelvin in this pipe, with no air in it.",
            ),
        ]
        | None
    ) = None
    air_energy: (
        Annotated[
            float, Quantity("energy", "E_a", "kJ", help="What air at this pressure would store.")
        ]
        | None
    ) = None
    water_energy: (
        Annotated[float, Quantity("energy", "E_w", "J", help="What the water and pipe store.")]
        | None
    ) = None
    parts: Annotated[list[TestedOutputs], Rows(help="Every part.")]
    stages: Annotated[list[StageOutputs], Rows(help="Every stage of the procedure.")]
    record: Record | None = None
