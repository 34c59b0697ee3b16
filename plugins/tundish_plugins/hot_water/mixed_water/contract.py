"""What is asked and what is answered about mixed water and its temperatures."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Column, Flag, Inputs, Item, Number, Outputs, Quantity, Text


class Store(Item):
    """The store the hot water comes from."""

    volume: Annotated[
        float,
        Quantity("volume", "V", "l", low=5, high=2000, help="Water content of the store."),
    ]
    temperature: Annotated[
        float,
        Quantity("temperature", "T_s", "degC", low=20, high=95, help="Temperature of its water."),
    ]
    usable_share: Annotated[
        float,
        Number(
            "f",
            low=0.05,
            high=1,
            help="Share of the content drawn off before the outlet turns cool: 0.8 to 0.95 in a "
            "store that layers well, 1 only on paper.",
        ),
    ]


class Reading(Item):
    """A temperature read at a running tap."""

    temperature: Annotated[
        float,
        Quantity("temperature", "T", "degC", low=1, high=95, help="Temperature read."),
    ]
    after: Annotated[
        float,
        Quantity(
            "time", "t", "s", low=0, high=3600, help="How long the tap had run when it was read."
        ),
    ]


class Pasteurisation(Item):
    """Heat held against legionella."""

    temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_p",
            "degC",
            low=20,
            high=95,
            help="Lowest temperature anywhere in the heated water while it is held.",
        ),
    ]
    hold_time: Annotated[
        float,
        Quantity("time", "t_p", "min", low=0.1, high=10080, help="How long it is held."),
    ]
    log_reduction: Annotated[
        float,
        Number(
            "n_0",
            low=1,
            high=8,
            default_rule="legionella-log-reduction",
            help="Powers of ten by which the bacteria shall fall: 5 leaves 1 in 100,000.",
        ),
    ]


class MixedWaterInputs(Inputs):
    """Hot and cold water mixed at an outlet, and what was read at the taps."""

    hot_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_h",
            "degC",
            low=20,
            high=95,
            example=60,
            help="Hot water where it is mixed: at the mixing valve or tap, once it runs hot.",
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
            help="Cold water where it is mixed.",
        ),
    ]
    mixed_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_m",
            "degC",
            low=15,
            high=80,
            example=41,
            help="Mixed water wanted at the outlet: the setting of its mixing valve.",
        ),
    ]
    outlet: Annotated[
        Literal["bath", "shower", "basin", "bidet", "sink"],
        Choice(help="What the mixed water is for; a sink is not used to wash the body."),
    ]
    mixed_flow: (
        Annotated[
            float,
            Quantity("volume_flow", "q_m", "l/min", low=0.5, high=100, help="Mixed water running."),
        ]
        | None
    ) = None
    mixed_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_m",
                "l",
                low=0.5,
                high=1000,
                help="Mixed water for one use or one bath.",
            ),
        ]
        | None
    ) = None
    store: Store | None = None
    tempering_valve: Annotated[
        bool,
        Flag(
            help="A tempering valve at the store holds down what reaches the pipes.", default=False
        ),
    ]
    vulnerable_people: Annotated[
        bool,
        Flag(
            help="Children, old or disabled people, or others who cannot pull away, bathe here.",
            default=False,
        ),
    ]
    healthcare: Annotated[
        bool, Flag(help="The building is a hospital or care home.", default=False)
    ]
    test_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_t",
                "degC",
                low=15,
                high=95,
                help="Mixed water as measured at the outlet in a site test of its mixing valve.",
            ),
        ]
        | None
    ) = None
    hot_tap: Reading | None = None
    cold_tap: Reading | None = None
    pasteurisation: Pasteurisation | None = None


class ShareCurve(Item):
    """How much of the mixed water comes from the hot side."""

    temperature: Annotated[
        list[float], Column("temperature", "T_m", "degC", help="Mixed temperature.")
    ]
    hot_water: Annotated[
        list[float], Column("volume", "V_h", "l", help="Hot water in 100 l of mixed water.")
    ]


class StoreCurve(Item):
    """What the store gives at each mixed temperature."""

    temperature: Annotated[
        list[float], Column("temperature", "T_m", "degC", help="Mixed temperature.")
    ]
    volume: Annotated[list[float], Column("volume", "V_m", "l", help="Mixed water from the store.")]


class PasteurisationOutputs(Item):
    """What the heat does to legionella."""

    z_value: Annotated[
        float,
        Quantity(
            "temperature_difference", "z", "K", help="Rise that cuts the killing time to a tenth."
        ),
    ]
    decimal_reduction_time: Annotated[
        float, Quantity("time", "D", "min", help="Time at this temperature that leaves a tenth.")
    ]
    log_reduction: Annotated[
        float, Number("n", help="Powers of ten by which the bacteria fall in the time held.")
    ]
    time_needed: Annotated[
        float, Quantity("time", "t_n", "min", help="Time the wanted reduction takes.")
    ]


class MixedWaterOutputs(Outputs):
    """Shares, flows, litres, limits and hazard."""

    hot_share: Annotated[float, Number("x", help="Share by mass that comes from the hot side.")]
    hot_flow: (
        Annotated[float, Quantity("volume_flow", "q_h", "l/min", help="Hot water running.")] | None
    )
    cold_flow: (
        Annotated[float, Quantity("volume_flow", "q_c", "l/min", help="Cold water running.")] | None
    )
    heat_flow: (
        Annotated[
            float,
            Quantity(
                "power", "P", "kW", help="Heat carried off above the cold water, while it runs."
            ),
        ]
        | None
    )
    hot_volume: (
        Annotated[float, Quantity("volume", "V_h", "l", help="Hot water for one use.")] | None
    )
    cold_volume: (
        Annotated[float, Quantity("volume", "V_c", "l", help="Cold water for one use.")] | None
    )
    store_mixed_volume: (
        Annotated[
            float,
            Quantity("volume", "V_ms", "l", help="Mixed water the store gives without reheating."),
        ]
        | None
    )
    store_uses: Annotated[float, Number("N", help="Uses the store gives.")] | None
    store_draw_time: (
        Annotated[float, Quantity("time", "t_s", "min", help="How long the store keeps the flow.")]
        | None
    )
    burn_band: Annotated[
        str, Text(help="Published time to a second-degree burn of an adult at this temperature.")
    ]
    burn_time: Annotated[
        float,
        Quantity(
            "time",
            "t_b",
            "s",
            help="Short end of that band; 0 beyond the table. It ranks a hazard and clears none.",
        ),
    ]
    child_burn_time: Annotated[
        float, Quantity("time", "t_bc", "s", help="The same for a child, by the shorter share.")
    ]
    set_limit: (
        Annotated[
            float,
            Quantity("temperature", "T_set", "degC", help="Highest setting of the mixing valve."),
        ]
        | None
    )
    test_limit: (
        Annotated[
            float,
            Quantity("temperature", "T_test", "degC", help="Highest reading in its site test."),
        ]
        | None
    )
    ceiling: (
        Annotated[
            float,
            Quantity("temperature", "T_ceil", "degC", help="Mixed water is never above this."),
        ]
        | None
    )
    scald_limit: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_scald",
                "degC",
                help="What regulation allows at the bath of a new dwelling.",
            ),
        ]
        | None
    )
    vulnerable_limit: (
        Annotated[
            float,
            Quantity(
                "temperature", "T_vul", "degC", help="Highest for bathing by vulnerable people."
            ),
        ]
        | None
    )
    pasteurisation: PasteurisationOutputs | None
    share_curve: ShareCurve
    store_curve: StoreCurve | None
