"""What is asked and what is answered about a gas pipe that cannot be seen."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
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


class Reading(Item):
    """One drop between meter and appliance, read while the gas passed at a known rate."""

    name: Annotated[str, Name(help="Name of the reading.")]
    rate: Annotated[
        float,
        Quantity(
            "gas_flow_15",
            "Q_1",
            "m3/h",
            low=0.05,
            high=25,
            help="Rate through the meter during the reading, from a gas rate test.",
        ),
    ]
    drop: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_1",
            "mbar",
            low=-10,
            high=20,
            help="Working pressure at the meter outlet less that at the appliance inlet, both at "
            "this rate and with one gauge.",
        ),
    ]
    resolution: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "r",
            "mbar",
            low=0.001,
            high=1,
            help="Step of the gauge, or its stated error where that is larger.",
        ),
    ]


class DropForecastInputs(Inputs):
    """Readings of a run that cannot be seen, and the rate it shall carry."""

    gas: Annotated[str, Text(longest=40, help="Gas by name, such as natural-gas or propane.")]
    readings: Annotated[
        list[Reading],
        Rows(low=1, high=3, help="Readings, each at another rate or with another gauge."),
    ]
    rate_uncertainty: Annotated[
        float,
        Number(
            "δ",
            low=0,
            high=0.05,
            default=0.04,
            help="Error of the rates as a share, exceeded once in twenty: steps of the meter, "
            "stopwatch, and the meter itself.",
        ),
    ]
    new_rate: (
        Annotated[
            float,
            Quantity("gas_flow_15", "Q_2", "m3/h", low=0.05, high=25, help="Rate to be carried."),
        ]
        | None
    ) = None
    new_heat_input: (
        Annotated[
            Based,
            Quantity(
                {"net": "heat_input_net", "gross": "heat_input_gross"},
                "Φ_2",
                "kW",
                low=0.5,
                high=200,
                help="Greatest heat input of the new appliance, hot water included, with its "
                "basis: net or gross. Instead of the rate.",
            ),
        ]
        | None
    ) = None
    meter_capacity: Annotated[
        float,
        Quantity(
            "gas_flow_15", "Q_m", "m3/h", low=1, high=25, help="Capacity on the meter's badge."
        ),
    ]
    shared_run: Annotated[
        bool,
        Flag(
            help="Whether other appliances draw gas through a part of the run, at the readings or "
            "later."
        ),
    ]
    shortest_length: Annotated[
        float,
        Quantity(
            "length",
            "L_min",
            "m",
            low=0.5,
            high=60,
            default=1,
            help="Least length the run can have, fittings included.",
        ),
    ]
    longest_length: Annotated[
        float,
        Quantity(
            "length",
            "L_max",
            "m",
            low=0.5,
            high=60,
            default=60,
            help="Greatest length the run can have, fittings included.",
        ),
    ]
    tubes: (
        Annotated[
            list[Annotated[str, Text(longest=40, help="Tube and wall, such as copper-22x0.9.")]],
            Rows(low=1, high=12, help="Tubes it can consist of, where they are known."),
        ]
        | None
    ) = None
    finer_step: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "r_f",
            "mbar",
            low=0.001,
            high=1,
            default=0.01,
            help="Step of a finer gauge that could be had.",
        ),
    ]


class TubeOutputs(Item):
    """What the readings say of one tube, as if the whole run were of it, with fittings."""

    name: Annotated[str, Name(help="Tube.")]
    bore: Annotated[float, Quantity("length", "d", "mm", help="Its bore.")]
    possible: Annotated[
        bool, Flag(help="It agrees with every reading at a length the run can have.")
    ]
    least_length: Annotated[
        float,
        Quantity("length", "L_a", "m", help="Least length of it that agrees with the readings."),
    ]
    greatest_length: Annotated[
        float,
        Quantity(
            "length",
            "L_b",
            "m",
            help="Greatest length of it that agrees; below the least: none does.",
        ),
    ]
    lowest_drop: Annotated[
        float,
        Quantity("pressure_difference", "Δp_a", "mbar", help="Lowest drop then, at the new rate."),
    ]
    highest_drop: Annotated[
        float,
        Quantity("pressure_difference", "Δp_b", "mbar", help="Highest drop then, at the new rate."),
    ]


class Band(Item):
    """The band of the forecast over the rate."""

    rate: Annotated[list[float], Column("gas_flow_15", "Q", "m3/h", help="Rate.")]
    lowest: Annotated[
        list[float], Column("pressure_difference", "Δp_lo", "mbar", help="Lower end of the band.")
    ]
    highest: Annotated[
        list[float], Column("pressure_difference", "Δp_hi", "mbar", help="Upper end of the band.")
    ]


class DropForecastOutputs(Outputs):
    """The drop to expect, what the run could be, and what would settle it."""

    family: Annotated[Literal["natural", "lpg"], Choice(help="Family of the gas.")]
    new_rate: Annotated[float, Quantity("gas_flow_15", "Q_2", "m3/h", help="Rate forecast.")]
    drop_limit: Annotated[
        float, Quantity("pressure_difference", "Δp_lim", "mbar", help="Limit of the region.")
    ]
    lowest_drop: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_lo",
            "mbar",
            help="Lower end of the forecast; the band holds the drop at least 95 times in 100.",
        ),
    ]
    middle_drop: Annotated[
        float,
        Quantity("pressure_difference", "Δp_2", "mbar", help="Middle of the forecast, by ratio."),
    ]
    highest_drop: Annotated[
        float, Quantity("pressure_difference", "Δp_hi", "mbar", help="Upper end of the forecast.")
    ]
    confidence: Annotated[
        float, Number("P", help="Share of cases in which the band is stated to hold the drop.")
    ]
    decided: Annotated[bool, Flag(help="The whole band lies on one side of the limit.")]
    largest_rate: Annotated[
        float,
        Quantity(
            "gas_flow_15",
            "Q_ok",
            "m3/h",
            help="Largest rate at which the whole band keeps the limit, or the meter's capacity.",
        ),
    ]
    limit_rate: Annotated[
        float,
        Quantity(
            "gas_flow_15",
            "Q_lim",
            "m3/h",
            help="Rate from which the whole band is beyond the limit; may exceed the meter's.",
        ),
    ]
    largest_heat_input: Annotated[
        float,
        Quantity("heat_input_net", "Φ_ok", "kW", help="Net heat input at that largest rate."),
    ]
    bore_if_shortest: Annotated[
        float,
        Quantity(
            "length",
            "d_min",
            "mm",
            help="Bore of one smooth tube of the least length that drops as read at the highest "
            "rate.",
        ),
    ]
    bore_if_longest: Annotated[
        float, Quantity("length", "d_max", "mm", help="The same for the greatest length.")
    ]
    tubes: Annotated[list[TubeOutputs], Rows(help="Each tube it could be.")]
    finer_gauge_decides: Annotated[
        bool, Flag(help="The same drops read with the finer gauge would decide.")
    ]
    tube_known_decides: Annotated[
        bool, Flag(help="Knowing the tube would decide, whichever possible one it is.")
    ]
    higher_rate: Annotated[
        float,
        Quantity(
            "gas_flow_15",
            "Q_3",
            "m3/h",
            help="Least rate at which a further reading would decide, in tenths of the new rate; "
            "the new rate itself where none would.",
        ),
    ]
    higher_rate_decides: Annotated[
        bool,
        Flag(help="A further reading there, in the middle of the band, would decide."),
    ]
    advice: Annotated[str, Text(help="What would settle it.")]
    band: Band
