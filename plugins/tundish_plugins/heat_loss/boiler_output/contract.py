"""What is asked and what is answered about the output of a boiler."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
    Choice,
    Column,
    Flag,
    Inputs,
    Item,
    Number,
    Outputs,
    Quantity,
)


class BoilerOutputInputs(Inputs):
    """A house, its hot water, and a boiler for both."""

    heating_load: Annotated[
        float,
        Quantity("power", "Φ", "kW", low=0.5, high=70, help="Heat loss of the house, design day."),
    ]
    room_temperature: Annotated[
        float, Quantity("temperature", "θ_i", "degC", low=10, high=28, help="Mean of the rooms.")
    ]
    outside_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_e",
            "degC",
            low=-40,
            high=15,
            default_rule="design-outside-temperature",
            help="Outside, on the design day of the heat loss.",
        ),
    ]
    pipe_losses: Annotated[
        float,
        Quantity(
            "power", "Φ_l", "kW", low=0, high=10, default=0, help="Lost from pipes, to no room."
        ),
    ]
    margin: Annotated[
        float, Number("m", low=0, high=0.5, default=0, help="Margin wanted on the heating load.")
    ]
    hot_water: Annotated[
        Literal["none", "priority", "simultaneous"],
        Choice(
            help="Hot water by this boiler: none; with priority, heating off meanwhile; or at the "
            "same time as heating."
        ),
    ]
    hot_water_load: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_w",
                "kW",
                low=0.5,
                high=70,
                help="Output hot water asks for: what the coil of the store takes, or the draw-off.",
            ),
        ]
        | None
    ) = None
    reheat_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_w",
                "min",
                low=1,
                high=600,
                help="Time heating is off for one reheat of the store, with priority.",
            ),
        ]
        | None
    ) = None
    reheats_a_day: Annotated[
        float, Number("z", low=0.1, high=24, default=1, help="Reheats in a day.")
    ]
    time_constant: (
        Annotated[
            float,
            Quantity(
                "time",
                "τ",
                "h",
                low=2,
                high=1000,
                help="Time constant of the rooms with what stands in them: heat stored a kelvin "
                "over heat lost a kelvin. With the reheat time it says what the rooms see of it.",
            ),
        ]
        | None
    ) = None
    fall_most: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ_m",
            "K",
            low=0.1,
            high=5,
            default_rule="room-fall-most",
            help="Fall of the room that is accepted while hot water is made.",
        ),
    ]
    heating_output_most: Annotated[
        float,
        Quantity(
            "power",
            "P_h",
            "kW",
            low=1,
            high=70,
            help="Greatest output of the boiler to heating, at the flow and return it will run at.",
        ),
    ]
    hot_water_output_most: (
        Annotated[
            float,
            Quantity("power", "P_wm", "kW", low=1, high=70, help="The same to hot water."),
        ]
        | None
    ) = None
    output_least: Annotated[
        float,
        Quantity(
            "power", "P_min", "kW", low=0.2, high=70, help="Least output it can modulate down to."
        ),
    ]
    rated_input: (
        Annotated[
            Based,
            Quantity(
                {"net": "heat_input_net", "gross": "heat_input_gross"},
                "Q",
                "kW",
                low=1,
                high=80,
                help="Heat input on the plate that belongs to its greatest heating output.",
            ),
        ]
        | None
    ) = None
    gas: Annotated[
        Literal["natural-gas", "propane", "butane"],
        Choice(default="natural-gas", help="What it burns, to go from net to gross."),
    ]
    part_load: (
        Annotated[
            float,
            Quantity(
                "power",
                "Q",
                "kW",
                low=0.01,
                high=70,
                help="Load at which cycling is looked at, such as the smallest zone on a mild day. "
                "Left out: half the least output, where starts are most.",
            ),
        ]
        | None
    ) = None
    water_content: Annotated[
        float,
        Quantity(
            "volume",
            "V",
            "l",
            low=1,
            high=5000,
            help="Water in circulation then: only of the zone that calls, with any buffer.",
        ),
    ]
    metal_capacity: Annotated[
        float,
        Quantity(
            "heat_capacity",
            "C_m",
            "kJ/K",
            low=0,
            high=5000,
            default=0,
            help="Heat capacity of the metal it fills. Nothing: on the safe side.",
        ),
    ]
    switching_difference: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "ΔT",
            "K",
            low=1,
            high=30,
            help="By how much the water warms between burner on and burner off.",
        ),
    ]
    water_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_w", "degC", low=20, high=95, help="Mean temperature of the circuit."
        ),
    ]
    run_time_least: Annotated[
        float,
        Quantity(
            "time",
            "t_min",
            "min",
            low=0.5,
            high=60,
            default_rule="boiler-run-time-least",
            help="Least time the burner is to run at one start.",
        ),
    ]


class CycleCurve(Item):
    """Starts of the burner by load, up to the least output."""

    load: Annotated[list[float], Column("power", "Q", "kW", help="Load.")]
    starts: Annotated[list[float], Column("frequency", "N", "1/h", help="Starts.")]


class SeasonCurve(Item):
    """Load of the house by outside temperature."""

    outside: Annotated[list[float], Column("temperature", "θ_e", "degC", help="Outside.")]
    load: Annotated[list[float], Column("power", "Φ", "kW", help="Load.")]


class RoomCurve(Item):
    """The room while heating is off."""

    time: Annotated[list[float], Column("time", "t", "min", help="Since heating went off.")]
    temperature: Annotated[list[float], Column("temperature", "θ", "degC", help="Of the room.")]


class RoomsMeanwhile(Item):
    """What rooms see of a reheat with priority, on the design day."""

    temperature: Annotated[
        float, Quantity("temperature", "θ", "degC", help="Room when heating comes back.")
    ]
    fall: Annotated[
        float, Quantity("temperature_difference", "Δθ", "K", help="By how much it has fallen.")
    ]
    longest_reheat: Annotated[
        float, Quantity("time", "t", "min", help="Reheat at which it falls by as much as accepted.")
    ]
    recovers: Annotated[bool, Flag(help="Heating as set gives more than the house loses.")]
    recovery_time: Annotated[
        float,
        Quantity(
            "time",
            "t_r",
            "h",
            help="Until the room is warm again, if the radiators give what the boiler does. 24 h: "
            "a day or more, or never.",
        ),
    ]
    curve: RoomCurve


class BoilerOutputOutputs(Outputs):
    """What the boiler has to give, how it is to be set, and how it runs."""

    margin: Annotated[float, Quantity("power", "Φ_m", "kW", help="Margin on the heating load.")]
    made_up: Annotated[
        float,
        Quantity(
            "power", "Φ_u", "kW", help="To make up for the hours the boiler is away for hot water."
        ),
    ]
    heating_needed: Annotated[
        float,
        Quantity("power", "P", "kW", help="Output to heating: load, losses, margin, made up."),
    ]
    output_needed: Annotated[
        float,
        Quantity(
            "power", "P_n", "kW", help="Output of the boiler, hot water counted as it is made."
        ),
    ]
    output_most: Annotated[
        float, Quantity("power", "P_g", "kW", help="Greatest output of the boiler for either.")
    ]
    range_setting: Annotated[
        float, Quantity("power", "P_s", "kW", help="Output to set for heating: range rating.")
    ]
    range_share: Annotated[float, Number("r", help="It over the greatest heating output.")]
    range_input_net: (
        Annotated[
            float, Quantity("heat_input_net", "Q_n", "kW", help="Heat input at that setting, net.")
        ]
        | None
    )
    range_input_gross: (
        Annotated[
            float,
            Quantity("heat_input_gross", "Q_g", "kW", help="The same, gross."),
        ]
        | None
    )
    range_gas_flow: (
        Annotated[
            float,
            Quantity(
                "gas_flow_15", "V_g", "m3/h", help="Gas at that setting, to read at the meter."
            ),
        ]
        | None
    )
    efficiency_net: Annotated[float, Number("η_n", help="Plate output over net input.")] | None
    efficiency_gross: Annotated[float, Number("η_g", help="Plate output over gross input.")] | None
    turndown: Annotated[float, Number("d", help="Greatest over least heating output.")]
    cycles_above: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_c",
            "degC",
            help="Outside temperature above which the boiler has to cycle, sun and gains apart.",
        ),
    ]
    part_load: Annotated[
        float, Quantity("power", "Q", "kW", help="Load at which cycling is looked at.")
    ]
    cycles: Annotated[bool, Flag(help="It cycles at that load.")]
    starts: Annotated[float, Quantity("frequency", "N", "1/h", help="Starts at that load.")]
    run_time: Annotated[
        float,
        Quantity("time", "t_on", "min", help="Run at one start there. 24 h: a day, or no stop."),
    ]
    rest_time: Annotated[float, Quantity("time", "t_off", "min", help="Rest between two runs.")]
    starts_most: Annotated[
        float, Quantity("frequency", "N_m", "1/h", help="Starts at the worst load, half the least.")
    ]
    content_needed: Annotated[
        float,
        Quantity("volume", "V_n", "l", help="Water for the least run time at that load."),
    ]
    content_lacking: Annotated[
        float, Quantity("volume", "V_l", "l", help="Of that, what a buffer would have to add.")
    ]
    rooms_meanwhile: RoomsMeanwhile | None
    cycle_curve: CycleCurve
    season_curve: SeasonCurve
