"""What is asked and what is answered about a gas rate test."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import (
    Based,
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


class RateInputs(Inputs):
    """What the meter passed in a time, and what the appliance is to burn."""

    gas: Annotated[str, Text(longest=40, help="Gas by name, such as natural-gas or propane.")]
    calorific_value: (
        Annotated[
            Based,
            Quantity(
                {"gross": "calorific_value_gross", "net": "calorific_value_net"},
                "H",
                "MJ/m3",
                low=10,
                high=150,
                help="Calorific value of the day with its basis, gross or net; that of the named "
                "gas where it is left out.",
            ),
        ]
        | None
    ) = None
    gross_to_net: (
        Annotated[
            float,
            Number(
                "H_s/H_i",
                low=1,
                high=1.25,
                help="Gross over net calorific value; that of the named gas where it is left out. "
                "The trade uses 1.11 or 1.1.",
            ),
        ]
        | None
    ) = None
    time: Annotated[
        float,
        Quantity("time", "t", "s", low=-3600, high=7200, help="Time in which the gas passed."),
    ]
    time_error: Annotated[
        float,
        Quantity(
            "time", "e_t", "s", low=0, high=60, default=0.5, help="Error of starting and stopping."
        ),
    ]
    volume: (
        Annotated[float, Quantity("volume", "V", "m3", low=0, high=100, help="Volume that passed.")]
        | None
    ) = None
    start: (
        Annotated[
            float,
            Quantity("volume", "V_1", "m3", low=0, high=1e7, help="Reading before, with end."),
        ]
        | None
    ) = None
    end: (
        Annotated[
            float,
            Quantity("volume", "V_2", "m3", low=0, high=1e7, help="Reading after, with start."),
        ]
        | None
    ) = None
    dial: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_d",
                "ft3",
                low=0.1,
                high=100,
                help="Volume of one revolution of the test dial, as printed on it.",
            ),
        ]
        | None
    ) = None
    revolutions: Annotated[
        int,
        Count("n", low=1, high=100, default=1, help="Whole revolutions of the test dial timed."),
    ]
    step: (
        Annotated[
            float,
            Quantity(
                "volume",
                "s",
                "m3",
                low=0.0001,
                high=1,
                help="Least step that can be read, such as 0.001 m3. Needed with volume and with "
                "start and end; a dial is timed from mark to mark.",
            ),
        ]
        | None
    ) = None
    meter_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_g",
                "mbar",
                low=0,
                high=75,
                help="Pressure at the meter during the test, to correct the volume for it.",
            ),
        ]
        | None
    ) = None
    atmospheric_pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p_a",
            "mbar",
            low=700,
            high=1080,
            default=1013.25,
            help="Pressure of the air at the place, used with meter_pressure.",
        ),
    ]
    gas_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T",
                "degC",
                low=-30,
                high=50,
                help="Temperature of the gas in the meter, to correct the volume for it.",
            ),
        ]
        | None
    ) = None
    meter_capacity: (
        Annotated[
            float,
            Quantity("volume_flow", "Q_m", "m3/h", low=1, high=100, help="Capacity on its badge."),
        ]
        | None
    ) = None
    meter_converts: Annotated[
        bool,
        Flag(
            default=False,
            help="The meter itself converts its reading to 15 degC and 1013.25 mbar.",
        ),
    ]
    rated_input: (
        Annotated[
            Based,
            Quantity(
                {"net": "heat_input_net", "gross": "heat_input_gross"},
                "Φ_r",
                "kW",
                low=0.5,
                high=200,
                help="Heat input on the data plate at this setting, with its basis: net or gross.",
            ),
        ]
        | None
    ) = None
    tolerance: Annotated[
        float,
        Number(
            "a",
            low=0.005,
            high=0.2,
            default_rule="gas-rate-tolerance",
            help="Share by which the heat input may differ from the rated one; the maker's prevails.",
        ),
    ]
    target_volume: Annotated[
        float,
        Quantity(
            "volume",
            "V_t",
            "m3",
            low=0.001,
            high=10,
            default=0.1,
            help="Volume for which the time is wanted.",
        ),
    ]


class Compared(Item):
    """One heat input beside others."""

    name: Annotated[str, Name(help="Which it is.")]
    heat_input: Annotated[float, Quantity("heat_input_net", "Φ_i", "kW", help="Net heat input.")]


class RateOutputs(Outputs):
    """Rate, heat input with its error, and how it stands to the rated one."""

    volume: Annotated[float, Quantity("volume", "V", "m3", help="Volume that passed the meter.")]
    metered_rate: Annotated[
        float, Quantity("volume_flow", "Q", "m3/h", help="Rate as the meter shows it.")
    ]
    pressure_factor: Annotated[
        float, Number("z_p", help="Factor for the pressure at the meter; 1 where none was given.")
    ]
    temperature_factor: Annotated[
        float,
        Number("z_T", help="Factor for the temperature of the gas; 1 where none was given."),
    ]
    corrected: Annotated[bool, Flag(help="The rate was corrected for what was given.")]
    state_known: Annotated[
        bool,
        Flag(help="Pressure and temperature of the metered gas are known, or the meter converts."),
    ]
    rate: Annotated[
        float,
        Quantity(
            "gas_flow_15",
            "Q_15",
            "m3/h",
            help="Rate at 15 degC and 1013.25 mbar, as far as it was corrected.",
        ),
    ]
    gross_calorific_value: Annotated[
        float, Quantity("calorific_value_gross", "H_s", "MJ/m3", help="Gross calorific value used.")
    ]
    net_calorific_value: Annotated[
        float, Quantity("calorific_value_net", "H_i", "MJ/m3", help="Net calorific value used.")
    ]
    gross_input: Annotated[
        float, Quantity("heat_input_gross", "Φ_s", "kW", help="Heat input, gross.")
    ]
    net_input: Annotated[float, Quantity("heat_input_net", "Φ_i", "kW", help="Heat input, net.")]
    by_counter: Annotated[
        bool, Flag(help="Read on the counter, not timed over whole revolutions of a dial.")
    ]
    steps_read: (
        Annotated[float, Number("N", help="Steps of the meter in the volume that passed.")] | None
    ) = None
    reading_error: Annotated[
        float, Number("e", help="Greatest error of the reading as a share: step and stopwatch.")
    ]
    least_net_input: Annotated[
        float, Quantity("heat_input_net", "Φ_a", "kW", help="Net heat input less the error.")
    ]
    greatest_net_input: Annotated[
        float, Quantity("heat_input_net", "Φ_b", "kW", help="Net heat input plus the error.")
    ]
    time_needed: Annotated[
        float,
        Quantity(
            "time",
            "t_n",
            "s",
            help="Time at this rate after which the error is half the tolerance: the least for a "
            "verdict.",
        ),
    ]
    precise: Annotated[bool, Flag(help="The error is no more than half the tolerance.")]
    surely_not_over: Annotated[
        bool, Flag(help="That, and with its error added it is still within what is accepted.")
    ]
    largest_error: Annotated[float, Number("e_max", help="Half the tolerance.")]
    rated_known: Annotated[
        bool, Flag(help="The rated heat input was given, and the reading is held against it.")
    ]
    rated_net_input: (
        Annotated[float, Quantity("heat_input_net", "Φ_r", "kW", help="Rated heat input, net.")]
        | None
    ) = None
    deviation: (
        Annotated[float, Number("x", help="Heat input over the rated one, less 1.")] | None
    ) = None
    least_accepted: (
        Annotated[
            float, Quantity("heat_input_net", "Φ_min", "kW", help="Least net input accepted.")
        ]
        | None
    ) = None
    greatest_accepted: (
        Annotated[
            float, Quantity("heat_input_net", "Φ_max", "kW", help="Greatest net input accepted.")
        ]
        | None
    ) = None
    time_for_volume: Annotated[
        float,
        Quantity(
            "time", "t_m", "s", help="Time in which the meter passes the target volume as measured."
        ),
    ]
    time_for_volume_rated: (
        Annotated[
            float,
            Quantity("time", "t_r", "s", help="Time in which it passes at the rated input."),
        ]
        | None
    ) = None
    billed_energy: (
        Annotated[
            float,
            Quantity(
                "energy",
                "E",
                "kWh",
                help="Energy billed for the volume by the fixed factor of the region; not for "
                "rating an appliance.",
            ),
        ]
        | None
    ) = None
    compared: Annotated[list[Compared], Rows(help="Heat inputs side by side.")]
