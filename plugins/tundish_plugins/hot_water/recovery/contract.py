"""Inputs and outputs of the recovery of a hot water store."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import Column, Flag, Inputs, Item, Number, Outputs, Quantity


class CoilRating(Item):
    """The coil's published output with the condition it was measured at."""

    power: Annotated[
        float,
        Quantity(
            "power",
            "P_r",
            "kW",
            low=0.5,
            high=150,
            example=20,
            help="Published output of the coil: the mean over the warm-up of the test, not a peak.",
        ),
    ]
    start_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_r0",
            "degC",
            low=1,
            high=60,
            default_rule="coil-rating-start-temperature",
            help="Store temperature at the start of the rating test.",
        ),
    ]
    end_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_r1",
            "degC",
            low=20,
            high=90,
            default_rule="coil-rating-end-temperature",
            help="Store temperature at the end of the rating test.",
        ),
    ]
    flow_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_rf",
            "degC",
            low=30,
            high=95,
            default_rule="coil-rating-flow-temperature",
            help="Primary flow temperature of the rating test.",
        ),
    ]
    primary_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "q_r",
            "l/min",
            low=0.5,
            high=200,
            default_rule="coil-rating-primary-flow",
            help="Primary flow rate of the rating test.",
        ),
    ]


class RecoveryInputs(Inputs):
    """A store to be heated, and what heats it."""

    store_volume: Annotated[
        float,
        Quantity(
            "volume", "V", "l", low=10, high=2000, example=210, help="Water content of the store."
        ),
    ]
    heated_fraction: Annotated[
        float,
        Number(
            "f",
            low=0.05,
            high=1,
            default=1,
            help="Share of the content above the lowest part of the heater: only that is heated.",
        ),
    ]
    start_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_0",
            "degC",
            low=1,
            high=90,
            example=15,
            help="Mean temperature of the heated water at the start.",
        ),
    ]
    target_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_1",
            "degC",
            low=20,
            high=95,
            example=60,
            help="Store temperature to be reached: where the thermostat stops the reheat.",
        ),
    ]
    boiler_output: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_b",
                "kW",
                low=0.5,
                high=100,
                example=18,
                help="Heat the boiler or heat pump gives to hot water: its output at the real "
                "return temperature, not its gas or electrical input, less any heating drawn at "
                "the same time.",
            ),
        ]
        | None
    ) = None
    minimum_output: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_min",
                "kW",
                low=0.1,
                high=100,
                example=4.5,
                help="Least output the boiler can modulate to; below it the burner cycles.",
            ),
        ]
        | None
    ) = None
    primary_pipe_loss: Annotated[
        float,
        Quantity(
            "power",
            "P_p",
            "W",
            low=0,
            high=10000,
            default=0,
            help="Heat lost from the primary pipes between boiler and coil.",
        ),
    ]
    flow_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_f",
                "degC",
                low=25,
                high=95,
                example=75,
                help="Primary flow temperature the boiler holds at the coil.",
            ),
        ]
        | None
    ) = None
    primary_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q",
                "l/min",
                low=0.5,
                high=200,
                example=15,
                help="Primary flow rate through the coil. Left out with a rated coil: taken as in "
                "its rating.",
            ),
        ]
        | None
    ) = None
    primary_temperature_difference: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT_max",
                "K",
                low=1,
                high=50,
                example=20,
                help="Greatest difference between flow and return the boiler allows; with the "
                "primary flow it limits the heat carried.",
            ),
        ]
        | None
    ) = None
    coil_rating: CoilRating | None = None
    coil_ua: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "UA",
                "W/K",
                low=10,
                high=50000,
                example=735,
                help="Heat transfer coefficient times area of the coil; needs the primary flow.",
            ),
        ]
        | None
    ) = None
    coil_conductance: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "G",
                "W/K",
                low=10,
                high=20000,
                example=524,
                help="Heat the coil gives for each kelvin between primary flow and store.",
            ),
        ]
        | None
    ) = None
    immersion_power: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_i",
                "kW",
                low=0.1,
                high=36,
                example=3,
                help="Immersion heater that runs during the reheat.",
            ),
        ]
        | None
    ) = None
    immersion_rated_voltage: (
        Annotated[
            float,
            Quantity(
                "voltage",
                "U_r",
                "V",
                low=100,
                high=480,
                example=240,
                help="Voltage the immersion heater is rated at. Left out: its power is taken as "
                "given.",
            ),
        ]
        | None
    ) = None
    supply_voltage: Annotated[
        float,
        Quantity(
            "voltage",
            "U",
            "V",
            low=90,
            high=500,
            default_rule="supply-voltage",
            help="Voltage at the immersion heater; used only with its rated voltage.",
        ),
    ]
    standing_loss: (
        Annotated[
            float,
            Quantity(
                "power",
                "S",
                "W",
                low=1,
                high=1000,
                example=70,
                help="Standing loss of the store as its test states it, 45 K above the room. Left "
                "out: no loss.",
            ),
        ]
        | None
    ) = None
    ambient_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_a",
            "degC",
            low=-20,
            high=45,
            default=20,
            help="Temperature of the place the store stands in; used with the standing loss.",
        ),
    ]
    cold_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_c",
            "degC",
            low=1,
            high=40,
            default_rule="cold-water-temperature",
            help="Cold water that is mixed with the hot at the outlets.",
        ),
    ]
    mix_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_m",
            "degC",
            low=15,
            high=80,
            default_rule="mixed-water-temperature",
            help="Temperature of the mixed water people use.",
        ),
    ]
    target_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_max",
                "min",
                low=1,
                high=2880,
                example=45,
                help="Longest reheat that will do.",
            ),
        ]
        | None
    ) = None


class Curve(Item):
    """Store temperature and net heat input through the reheat."""

    time: Annotated[list[float], Column("time", "t", "min", help="Time from the start.")]
    temperature: Annotated[
        list[float], Column("temperature", "T", "degC", help="Store temperature.")
    ]
    power: Annotated[
        list[float], Column("power", "P", "kW", help="Heat into the water, less the loss.")
    ]


class Limits(Item):
    """What source and coil can give against store temperature: straight lines between points."""

    temperature: Annotated[
        list[float], Column("temperature", "T", "degC", help="Store temperature.")
    ]
    source_limit: Annotated[
        list[float], Column("power", "P_s", "kW", help="Most the source brings to the coil.")
    ]
    coil_limit: Annotated[
        list[float], Column("power", "P_c", "kW", help="Most the coil passes to the store.")
    ]


class RecoveryOutputs(Outputs):
    """How the reheat goes."""

    coil_counted: Annotated[
        bool, Flag(help="What a coil can pass is counted, or no boiler heats through one.")
    ]
    wholly_heated: Annotated[bool, Flag(help="The whole content is heated, not a part of it.")]
    reheat_time: Annotated[
        float, Quantity("time", "t", "min", help="Time from start to target temperature.")
    ]
    source_limited_time: Annotated[
        float,
        Quantity("time", "t_1", "min", help="Part of it in which the heat source is the limit."),
    ]
    coil_limited_time: (
        Annotated[
            float,
            Quantity("time", "t_2", "min", help="Part of it in which the coil is the limit."),
        ]
        | None
    )
    immersion_only_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_3",
                "min",
                help="Part of it above the flow temperature, where only the immersion heats.",
            ),
        ]
        | None
    )
    least_time: Annotated[
        float,
        Quantity(
            "time",
            "t_min",
            "min",
            help="Reheat time if the whole source heated to the end, without coil limit or loss.",
        ),
    ]
    changeover_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T*",
                "degC",
                help="Store temperature at which the coil takes over as the limit; the start or "
                "target temperature when one of the two limits throughout.",
            ),
        ]
        | None
    )
    highest_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_∞",
                "degC",
                help="Temperature the coil could bring the store to in the end.",
            ),
        ]
        | None
    )
    cycling_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_cyc",
                "degC",
                help="Store temperature above which the coil takes less than the least boiler "
                "output, so that the burner cycles.",
            ),
        ]
        | None
    )
    flow_margin: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT_f",
                "K",
                help="Primary flow temperature above the target.",
            ),
        ]
        | None
    )
    heat: Annotated[
        float, Quantity("energy", "Q", "kWh", help="Heat taken up by the water of the store.")
    ]
    loss_energy: (
        Annotated[
            float,
            Quantity("energy", "Q_l", "kWh", help="Heat lost from the store during the reheat."),
        ]
        | None
    )
    mean_power: Annotated[
        float, Quantity("power", "P_m", "kW", help="Mean heat flow into the water.")
    ]
    start_power: Annotated[
        float, Quantity("power", "P_0", "kW", help="Heat flow into the water at the start.")
    ]
    end_power: Annotated[
        float, Quantity("power", "P_1", "kW", help="Heat flow into the water at the target.")
    ]
    source_power: Annotated[
        float,
        Quantity(
            "power",
            "P_s",
            "kW",
            help="Heat the boiler brings to the coil plus the immersion heater's, unlimited by "
            "the coil.",
        ),
    ]
    coil_conductance: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "G",
                "W/K",
                help="Heat the coil gives for each kelvin between primary flow and store.",
            ),
        ]
        | None
    )
    coil_ua: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "UA",
                "W/K",
                help="Heat transfer coefficient times area of the coil.",
            ),
        ]
        | None
    )
    coil_effectiveness: (
        Annotated[
            float,
            Number("ε", help="Share of the primary's cooling down to store temperature achieved."),
        ]
        | None
    )
    needed_power: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_req",
                "kW",
                help="Steady heat input to the store that would meet the target time.",
            ),
        ]
        | None
    )
    hot_share: Annotated[float, Number("x", help="Share by mass of hot water in the mixed water.")]
    mixed_volume: Annotated[
        float,
        Quantity(
            "volume",
            "V_m",
            "l",
            help="Mixed water that the heated part gives if all of it can be drawn.",
        ),
    ]
    curve: Curve
    limits: Limits | None
