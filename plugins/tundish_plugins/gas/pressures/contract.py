"""What is asked and what is answered about the pressures of a gas installation."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
    Choice,
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


class Appliance(Item):
    """An appliance, what it drew during the test, and the pressure read at its inlet."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    heat_input: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "Φ",
            "kW",
            low=0.5,
            high=200,
            help="Greatest heat input, hot water included, with its basis: net or gross.",
        ),
    ]
    share: Annotated[
        float,
        Number(
            "g", low=0, high=1, help="Share of its full rate it ran at during the test; 0: off."
        ),
    ]
    inlet_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_i",
                "mbar",
                low=0,
                high=75,
                help="Working pressure at its inlet, read together with that at the meter.",
            ),
        ]
        | None
    ) = None
    least_inlet: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_min",
                "mbar",
                low=0,
                high=75,
                help="Least inlet pressure its maker asks for at full rate.",
            ),
        ]
        | None
    ) = None


class PressuresInputs(Inputs):
    """Pressures at the meter and at the appliances, and what ran while they were read."""

    gas: Annotated[str, Text(longest=40, help="Gas by name, such as natural-gas or propane.")]
    meter_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_m",
            "mbar",
            low=0,
            high=75,
            help="Working pressure at the outlet of the meter.",
        ),
    ]
    standing_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_s",
                "mbar",
                low=0,
                high=200,
                help="Pressure there before, with no gas flowing.",
            ),
        ]
        | None
    ) = None
    lock_up_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_l",
                "mbar",
                low=0,
                high=200,
                help="Pressure there after the last appliance was turned off.",
            ),
        ]
        | None
    ) = None
    regulator_inlet: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_r",
                "mbar",
                low=0,
                high=7000,
                help="Pressure before the meter regulator at the same time, where the gas supplier "
                "read it.",
            ),
        ]
        | None
    ) = None
    resolution: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "r",
            "mbar",
            low=0.001,
            high=1,
            default=0.1,
            help="Step of the gauge.",
        ),
    ]
    meter_capacity: (
        Annotated[
            float,
            Quantity("gas_flow_15", "Q_m", "m3/h", low=1, high=100, help="Capacity on its badge."),
        ]
        | None
    ) = None
    nominal_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_n",
                "mbar",
                low=5,
                high=75,
                help="Inlet pressure for which the appliances are rated, from a data plate.",
            ),
        ]
        | None
    ) = None
    rate_right: (
        Annotated[
            bool,
            Flag(help="Whether the gas rate agrees with the data plate; leave out if not taken."),
        ]
        | None
    ) = None
    appliances: Annotated[list[Appliance], Rows(low=1, high=30, help="Every appliance, off or on.")]


class ApplianceOutputs(Item):
    """What arrives at one appliance."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    flow: Annotated[float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow at full rate.")]
    test_flow: Annotated[
        float, Quantity("gas_flow_15", "Q_t", "m3/h", help="Flow during the test.")
    ]
    read: Annotated[bool, Flag(help="The pressure was read at its inlet.")]
    inlet: (
        Annotated[
            float, Quantity("pressure_gauge", "p_i", "mbar", help="Working pressure at its inlet.")
        ]
        | None
    ) = None
    unread_most: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_m",
                "mbar",
                help="Most its inlet can have where it was not read: the pressure at the meter.",
            ),
        ]
        | None
    ) = None
    drop: (
        Annotated[
            float, Quantity("pressure_difference", "Δp", "mbar", help="Drop from the meter outlet.")
        ]
        | None
    ) = None
    spare: (
        Annotated[float, Quantity("pressure_difference", "Δp_s", "mbar", help="Limit less drop.")]
        | None
    ) = None
    sure: (
        Annotated[
            bool,
            Flag(
                help="Everything ran at full rate, and a step of the gauge more would still keep "
                "the limit."
            ),
        ]
        | None
    ) = None
    unregulated_share: (
        Annotated[
            float,
            Number(
                "k",
                help="Heat input that a burner without regulator has left, over that at the nominal "
                "pressure.",
            ),
        ]
        | None
    ) = None


class Point(Item):
    """A pressure at one place of the way."""

    name: Annotated[str, Name(help="Where, and when.")]
    pressure: Annotated[float, Quantity("pressure_gauge", "p", "mbar", help="Pressure.")]


class PressuresOutputs(Outputs):
    """Where the pressure is lost, and what to do next."""

    family: Annotated[Literal["natural", "lpg"], Choice(help="Family of the gas.")]
    drop_limit: Annotated[
        float, Quantity("pressure_difference", "Δp_lim", "mbar", help="Limit of the region.")
    ]
    full_load: Annotated[
        float,
        Quantity("gas_flow_15", "Q_f", "m3/h", help="Flow of all appliances at full rate."),
    ]
    test_load: Annotated[
        float, Quantity("gas_flow_15", "Q_t", "m3/h", help="Flow during the test.")
    ]
    meter_judged: Annotated[
        bool, Flag(help="The meter's capacity was given, and the full load is held against it.")
    ]
    meter_condition: Annotated[
        bool,
        Flag(
            help="The appliance of the highest rate ran at full rate, every other at half or more."
        ),
    ]
    full_condition: Annotated[bool, Flag(help="Every appliance ran at full rate.")]
    range_known: Annotated[
        bool, Flag(help="A range of working pressure at the meter is on file for this gas.")
    ]
    inlets_judged: Annotated[
        bool,
        Flag(
            help="The rate is right; or the meter is not above its range, every inlet was read and "
            "every maker's least is known."
        ),
    ]
    drop_read: Annotated[bool, Flag(help="The pressure was read at an appliance, too.")]
    standing_rise: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_s",
                "mbar",
                help="Standing pressure over the working one at the meter.",
            ),
        ]
        | None
    ) = None
    lock_up_rise: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_l",
                "mbar",
                help="Lock-up pressure over the working one at the meter.",
            ),
        ]
        | None
    ) = None
    highest_drop: (
        Annotated[
            float,
            Quantity(
                "pressure_difference", "Δp_max", "mbar", help="Highest drop of all that were read."
            ),
        ]
        | None
    ) = None
    meter_low: Annotated[bool, Flag(help="The pressure at the meter is below its range.")]
    meter_high: Annotated[bool, Flag(help="The pressure at the meter is above its range.")]
    pipework_over: Annotated[bool, Flag(help="A drop exceeds the limit.")]
    appliance_short: Annotated[bool, Flag(help="An appliance gets less than its maker asks for.")]
    supply_reaches_appliance: Annotated[
        bool,
        Flag(
            help="The pressure at the meter is out of range, and an appliance gets less than its "
            "maker asks for or burns at a wrong rate."
        ),
    ]
    cause: Annotated[str, Text(help="Where the pressure goes wrong first, seen from the street.")]
    next_step: Annotated[str, Text(help="What to do next.")]
    points: Annotated[list[Point], Rows(help="Pressures along the way.")]
    appliances: Annotated[list[ApplianceOutputs], Rows(help="Each appliance.")]
