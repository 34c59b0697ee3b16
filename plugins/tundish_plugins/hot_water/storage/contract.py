"""Inputs and outputs of the size of a hot water store."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Column,
    Count,
    Flag,
    Inputs,
    Item,
    Name,
    Number,
    Outputs,
    Quantity,
    Rows,
)


class Draw(Item):
    """Hot water drawn once: a bath, a shower, the sink."""

    name: Annotated[str, Name(help="What draws, such as 'bath' or 'second shower'.")]
    start: Annotated[
        float,
        Quantity(
            "time",
            "t_0",
            "h",
            low=0,
            high=48,
            example=7,
            help="When it starts, as time of day or from any other zero.",
        ),
    ]
    volume: Annotated[
        float,
        Quantity(
            "volume",
            "V_m",
            "l",
            low=0.5,
            high=1000,
            example=100,
            help="Mixed water drawn, at the temperature of the draw.",
        ),
    ]
    temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_m",
            "degC",
            low=15,
            high=80,
            example=40,
            help="Temperature of the mixed water.",
        ),
    ]
    flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q",
                "l/min",
                low=0.5,
                high=200,
                example=10,
                help="Flow of mixed water while it is drawn; the profile method needs it. Two "
                "draws at once are given as one with both flows and volumes added.",
            ),
        ]
        | None
    ) = None


class Candidate(Item):
    """A store that could be chosen."""

    name: Annotated[str, Name(help="What the store is called here.")]
    volume: Annotated[
        float,
        Quantity("volume", "V", "l", low=10, high=3000, example=210, help="Its water content."),
    ]


class StorageInputs(Inputs):
    """Who draws what and when, and what heats the store meanwhile."""

    persons: (
        Annotated[
            int, Count("N", low=1, high=12, help="People in the dwelling; for the check of sense.")
        ]
        | None
    ) = None
    bathrooms: (
        Annotated[
            int,
            Count(
                "n_b",
                low=1,
                high=6,
                help="Bathrooms. In the two-draw method they give the draws when none are listed.",
            ),
        ]
        | None
    ) = None
    draws: Annotated[
        list[Draw], Rows(low=0, high=40, help="What is drawn, in the order of time.")
    ] = []
    load_profile: (
        Annotated[
            Literal["M", "L", "XL"],
            Choice(help="A day's draws of the European load profiles, in place of a list."),
        ]
        | None
    ) = None
    store_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_s",
            "degC",
            low=35,
            high=80,
            example=60,
            help="Temperature the store is kept at: where the thermostat stops the reheat.",
        ),
    ]
    cold_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_c",
            "degC",
            low=1,
            high=30,
            default_rule="cold-water-temperature",
            help="Cold water that refills the store and is mixed in at the outlets: take the "
            "winter's.",
        ),
    ]
    mix_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_40",
            "degC",
            low=15,
            high=75,
            default_rule="mixed-water-temperature",
            help="Temperature at which mixed water is counted.",
        ),
    ]
    heat_input: Annotated[
        float,
        Quantity(
            "power",
            "P",
            "kW",
            low=0.5,
            high=150,
            example=10,
            help="Heat the source brings to the store: its output for hot water, not its gas or "
            "electrical input, less any heating drawn at the same time.",
        ),
    ]
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
                help="Heat the coil gives for each kelvin between primary flow and store; the "
                "recovery of the store gives it. Left out: the whole heat input to the end.",
            ),
        ]
        | None
    ) = None
    flow_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_f",
                "degC",
                low=30,
                high=95,
                example=75,
                help="Primary flow temperature held at the coil.",
            ),
        ]
        | None
    ) = None
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
                help="Standing loss as the store's test states it, 45 K above the room; taken "
                "off the heat input. Left out: no loss.",
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
    mixing: Annotated[
        Literal["mixed", "stratified"],
        Choice(
            default="mixed",
            help="Which store the answer is for: mixed through (the safe side), or hot over cold "
            "without mixing (the best there can be). A real store lies between.",
        ),
    ]
    usable_share: Annotated[
        float,
        Number(
            "f_u",
            low=0.5,
            high=1,
            default=1,
            help="Share of the content that is heated and can be drawn: less the water under the "
            "heater and over the draw-off.",
        ),
    ]
    restart_difference: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "ΔT_on",
            "K",
            low=0,
            high=30,
            default=0,
            help="How far a mixed store cools before its thermostat calls for heat; it may stand "
            "so cool when the draws begin. Zero: heated as soon as water is drawn.",
        ),
    ]
    sensor_share: Annotated[
        float,
        Number(
            "s",
            low=0.05,
            high=1,
            default=1,
            help="Share of the usable content above the thermostat's pocket: a stratified store "
            "calls for heat when cold water has risen to it, and no more may be hot when the "
            "draws begin. One: heated as soon as water is drawn.",
        ),
    ]
    candidates: Annotated[list[Candidate], Rows(low=0, high=12, help="Stores to compare.")] = []


class DrawResult(Item):
    """A draw at the store of the needed volume."""

    name: Annotated[str, Name(help="The draw.")]
    start: Annotated[float, Quantity("time", "t_0", "h", help="When it starts.")]
    end: Annotated[float, Quantity("time", "t_1", "h", help="When it ends.")]
    hot_volume: Annotated[
        float,
        Quantity("volume", "V_h", "l", help="Water of store temperature that the draw amounts to."),
    ]
    energy: Annotated[float, Quantity("energy", "Q", "kWh", help="Heat drawn, above cold water.")]
    store_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature", "T", "degC", help="Lowest temperature of a mixed store in this draw."
            ),
        ]
        | None
    )
    hot_left: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_l",
                "l",
                help="Least hot water left in a stratified store in this draw.",
            ),
        ]
        | None
    )


class CandidateResult(Item):
    """How a store that could be chosen does."""

    name: Annotated[str, Name(help="The store.")]
    volume: Annotated[float, Quantity("volume", "V", "l", help="Its water content.")]
    met: Annotated[bool, Flag(help="Whether every draw gets its temperature to the end.")]
    spare_volume: Annotated[
        float,
        Quantity(
            "volume",
            "ΔV",
            "l",
            help="Content beyond the needed volume; negative: below it by so much.",
        ),
    ]
    weakest_draw: Annotated[
        str,
        Name(help="The first draw that is not met, or the one met most narrowly."),
    ]
    temperature_margin: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT",
                "K",
                help="Mixed store: its lowest temperature above that draw's.",
            ),
        ]
        | None
    )
    hot_margin: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_l",
                "l",
                help="Stratified store: hot water left in that draw; negative: short.",
            ),
        ]
        | None
    )
    mixed_volume: Annotated[
        float,
        Quantity(
            "volume",
            "V_40",
            "l",
            help="Mixed water that the full store gives unheated, mixed as chosen.",
        ),
    ]
    first_hour: Annotated[
        float,
        Quantity(
            "volume",
            "V_1h",
            "l",
            help="Mixed water of the steady draw that the full store keeps up for an hour.",
        ),
    ]


class Curve(Item):
    """Heat in the store, and need and supply added up, through the draws and the refill.

    From where the thermostat calls; a start from which it calls later may leave less on the way.
    """

    time: Annotated[list[float], Column("time", "t", "h", help="Time of day, as the draws give.")]
    energy: Annotated[
        list[float], Column("energy", "E", "kWh", help="Heat in the store above cold water.")
    ]
    need: Annotated[list[float], Column("energy", "Q_n", "kWh", help="Heat drawn so far.")]
    supply: Annotated[
        list[float],
        Column("energy", "Q_s", "kWh", help="Heat stored at the start and brought in so far."),
    ]


class StorageOutputs(Outputs):
    """How large a store these draws need."""

    needed_volume: Annotated[
        float,
        Quantity(
            "volume",
            "V",
            "l",
            help="Store from which on every draw is met, mixed as chosen, wherever the thermostat "
            "leaves it before the first. Late calls can leave a narrow range above in which one "
            "is not: each store to compare is taken through by itself.",
        ),
    ]
    needed_stratified: Annotated[
        float,
        Quantity("volume", "V_str", "l", help="The same for a store of hot over cold water."),
    ]
    needed_mixed: Annotated[
        float, Quantity("volume", "V_mix", "l", help="The same for a store mixed through.")
    ]
    volume_without_reheat: Annotated[
        float,
        Quantity(
            "volume",
            "V_0",
            "l",
            help="Store, mixed as chosen, that would meet the draws with no heat brought in, from "
            "where its thermostat would call.",
        ),
    ]
    source_alone: (
        Annotated[
            bool,
            Flag(
                help="Profile: whether the source carries the draws as they come, so that hardly "
                "any store is needed."
            ),
        ]
        | None
    )
    hot_volume: Annotated[
        float,
        Quantity(
            "volume", "V_h", "l", help="Water of store temperature that all the draws amount to."
        ),
    ]
    drawn_energy: Annotated[
        float, Quantity("energy", "Q", "kWh", help="Heat drawn in all, above cold water.")
    ]
    daily_volume: (
        Annotated[
            float,
            Quantity("volume", "V_d", "l", help="Hot water these people use on an average day."),
        ]
        | None
    )
    net_heat_input: Annotated[
        float,
        Quantity("power", "P_n", "kW", help="Heat brought in, the standing loss taken off."),
    ]
    recovered_volume: (
        Annotated[
            float,
            Quantity(
                "volume", "V_r", "l", help="Two-draw method: hot water recovered between the draws."
            ),
        ]
        | None
    )
    reheat_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_r",
                "min",
                help="Longest reheat after the last draw, of all the starts of the day; nothing "
                "when the thermostat does not call.",
            ),
        ]
        | None
    )
    reheat_end: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_f",
                "h",
                help="When that reheat ends, as the draws; the end of the last draw when the "
                "thermostat does not call.",
            ),
        ]
        | None
    )
    left_full: (
        Annotated[
            bool,
            Flag(
                help="Whether the store is full then from every start. If not, the thermostat "
                "leaves it between full and its call until more is drawn."
            ),
        ]
        | None
    )
    next_day: (
        Annotated[float, Quantity("time", "t_n", "h", help="A day after the first draw.")] | None
    )
    mixed_volume: Annotated[
        float,
        Quantity(
            "volume",
            "V_40",
            "l",
            help="Mixed water that the needed volume gives when full, unheated, mixed as chosen.",
        ),
    ]
    first_hour: Annotated[
        float,
        Quantity(
            "volume",
            "V_1h",
            "l",
            help="Mixed water of the steady draw that the needed volume keeps up for an hour.",
        ),
    ]
    profile_mixed_volume_least: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_40,min",
                "l",
                help="Mixed water that a storage water heater declared for this load profile has "
                "to give.",
            ),
        ]
        | None
    )
    resting_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_r",
            "degC",
            help="Where the thermostat may leave the store: where a mixed store calls for heat; "
            "the hot part of a stratified one does not cool.",
        ),
    ]
    kept_hot: Annotated[
        bool,
        Flag(
            help="Whether all of the content is heated and nothing of it is left to cool before "
            "the thermostat calls."
        ),
    ]
    any_met: (
        Annotated[bool, Flag(help="Whether one of the stores to compare meets every draw.")] | None
    )
    draws: Annotated[list[DrawResult], Rows(help="The draws at the needed volume.")]
    candidates: Annotated[list[CandidateResult], Rows(help="The stores compared.")]
    curve: Curve | None
