"""What is asked and what is answered about the discharge pipe of an unvented hot water store."""

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
    Text,
)


class ReliefValve(Item):
    """The temperature relief valve, or the combined temperature and pressure relief valve."""

    outlet: Annotated[str, Text(longest=10, help="Size of its outlet, such as G1/2.")]
    rating: Annotated[
        float,
        Quantity("power", "P_v", "kW", low=1, high=1000, help="Discharge rating on its plate."),
    ]
    temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_v",
            "degC",
            low=70,
            high=99,
            default_rule="relief-valve-temperature-most",
            help="Temperature at which it opens.",
        ),
    ]
    open_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V_o",
                "l/min",
                low=0.1,
                high=500,
                help="Water it passes when wide open, from its maker or a test: more than the rated "
                "heat needs.",
            ),
        ]
        | None
    ) = None


class HeatSource(Item):
    """One source of heat to the store."""

    name: Annotated[str, Name(help="Name of the source, such as coil.")]
    kind: Annotated[
        Literal["coil", "burner", "immersion-heater", "heat-pump", "solar", "solid-fuel"],
        Choice(help="What heats: solid fuel cannot be shut off and is treated apart."),
    ]
    power: Annotated[
        float,
        Quantity(
            "power",
            "P",
            "kW",
            low=0.1,
            high=500,
            help="Most heat it can give the stored water; for a coil no more than its boiler gives.",
        ),
    ]
    cut_out: Annotated[
        bool,
        Flag(
            help="It has a manually reset energy cut-out of its own that stops it; on a coil one "
            "that closes a valve in the primary and stops the call for heat."
        ),
    ]
    cut_out_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature", "θ_co", "degC", low=50, high=99, help="Where that cut-out trips."
            ),
        ]
        | None
    ) = None
    heat_leak: Annotated[
        bool,
        Flag(
            default=False,
            help="For solid fuel: a heat leak or quench that needs no electricity is designed.",
        ),
    ]


class Tundish(Item):
    """The tundish between the relief pipe (D1) and the discharge pipe (D2)."""

    distance: Annotated[
        float,
        Quantity(
            "length",
            "L_1",
            "mm",
            low=0,
            high=5000,
            help="Length of pipe between the outlet of the valve and the tundish.",
        ),
    ]
    vertical: Annotated[bool, Flag(help="It stands vertical.")]
    same_space: Annotated[bool, Flag(help="It is in the same space as the store.")]
    visible: Annotated[bool, Flag(help="A discharge is seen at it.")]
    away_from_electrics: Annotated[
        bool, Flag(help="Water that spills from it meets no electrical part.")
    ]


class ReliefPipe(Item):
    """The pipe from the valve to the tundish (D1)."""

    material: Annotated[str, Text(longest=40, help="Material, such as copper.")]
    size: (
        Annotated[
            float,
            Quantity("length", "D_1", "mm", low=8, high=108, help="Nominal size that is there."),
        ]
        | None
    ) = None


class DischargePipe(Item):
    """The pipe from the tundish to where the water ends (D2)."""

    length: Annotated[
        float,
        Quantity(
            "length",
            "L",
            "m",
            low=0.3,
            high=100,
            help="Run from the tundish to the end, vertical leg included.",
        ),
    ]
    bends: Annotated[
        int, Count("n", low=0, high=60, help="Elbows and bends after the tundish, of any angle.")
    ]
    vertical_leg: Annotated[
        float,
        Quantity(
            "length",
            "L_v",
            "mm",
            low=0,
            high=20000,
            help="Straight vertical pipe below the tundish before the first elbow or bend.",
        ),
    ]
    fall: Annotated[
        float,
        Number(
            "s",
            low=-1,
            high=1,
            help="Least fall of the rest, as height over length: 0.005 is 1 in 200. Below nothing "
            "it rises.",
        ),
    ]
    drop: (
        Annotated[
            float,
            Quantity(
                "length",
                "h",
                "m",
                low=0.05,
                high=60,
                help="Height of the tundish above the end of the pipe. Left out: the least that "
                "the vertical leg and the fall give.",
            ),
        ]
        | None
    ) = None
    material: Annotated[str, Text(longest=40, help="Material, such as copper or polybutylene.")]
    heat_proven: Annotated[
        bool,
        Flag(
            default=False,
            help="Its maker states that the pipe and its joints stand the discharge: water near "
            "boiling, and steam.",
        ),
    ]
    size: (
        Annotated[
            float,
            Quantity("length", "D_2", "mm", low=8, high=108, help="Nominal size that is there."),
        ]
        | None
    ) = None
    bore: (
        Annotated[
            float,
            Quantity(
                "length",
                "d_2",
                "mm",
                low=5,
                high=105,
                help="Bore; needed for plastic, whose bore is less than copper's of one name.",
            ),
        ]
        | None
    ) = None
    holds_water: Annotated[
        bool, Flag(help="Some part rises, sags or dips, so that water stands in it.")
    ]
    can_freeze: Annotated[bool, Flag(help="Some part can freeze or ice over.")]


class Ending(Item):
    """Where the water ends. Which details are needed depends on the kind."""

    kind: Annotated[
        Literal["gully", "low-level", "hopper", "roof", "soil-stack", "pump", "elsewhere"],
        Choice(
            help="Trapped gully; downward near the ground; metal hopper and downpipe; roof; soil "
            "stack; a pump; anywhere else."
        ),
    ]
    below_grating: (
        Annotated[
            bool, Flag(help="Gully: the end is below the fixed grating and above the water seal.")
        ]
        | None
    ) = None
    height: (
        Annotated[
            float,
            Quantity(
                "length", "z", "mm", low=0, high=5000, help="Low level: end above the surface."
            ),
        ]
        | None
    ) = None
    people_can_reach: (
        Annotated[
            bool,
            Flag(
                help="Low level and roof: children play there, or people may touch the discharge "
                "or be below it."
            ),
        ]
        | None
    ) = None
    guarded: (
        Annotated[
            bool,
            Flag(help="Low level: a wire cage or the like keeps people off and lets them see."),
        ]
        | None
    ) = None
    metal: Annotated[bool, Flag(help="Hopper: it and its downpipe are of metal.")] | None = None
    end_visible: (
        Annotated[bool, Flag(help="Hopper: the end of the pipe is clearly seen.")] | None
    ) = None
    heat_proof: (
        Annotated[bool, Flag(help="Roof: its covering stands near-boiling water.")] | None
    ) = None
    plastic_gutter: (
        Annotated[bool, Flag(help="Roof: a plastic gutter would collect the water.")] | None
    ) = None
    gutter_distance: (
        Annotated[
            float,
            Quantity(
                "length", "a", "m", low=0, high=100, help="Roof: from the end to that gutter."
            ),
        ]
        | None
    ) = None
    stack_material: (
        Annotated[
            Literal["cast-iron", "pvc-u", "other"], Choice(help="Soil stack: what it is made of.")
        ]
        | None
    ) = None
    stack_heat_proven: (
        Annotated[bool, Flag(help="Soil stack of another material: shown to stand the discharge.")]
        | None
    ) = None
    fully_ventilated: (
        Annotated[
            bool, Flag(help="Soil stack of PVC-U: open to the air at its top, no admittance valve.")
        ]
        | None
    ) = None
    mechanical_seal: (
        Annotated[
            bool, Flag(help="Soil stack: a mechanical seal that holds no water keeps smells back.")
        ]
        | None
    ) = None
    separate_branch: (
        Annotated[
            bool, Flag(help="Soil stack: a branch of its own, with no sanitary appliance on it.")
        ]
        | None
    ) = None


class DischargePipeInputs(Inputs):
    """An unvented store, what heats it, its relief valve, and the way of the relief water."""

    store_volume: Annotated[
        float, Quantity("volume", "V_s", "l", low=1, high=5000, help="Content of the store.")
    ]
    heat_sources: Annotated[
        list[HeatSource], Rows(low=1, high=10, help="Everything that can heat the store.")
    ]
    thermostat_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature", "θ_t", "degC", low=30, high=99, help="Setting of the thermostat."
            ),
        ]
        | None
    ) = None
    cold_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_c",
            "degC",
            low=1,
            high=30,
            default_rule="cold-water-temperature",
            help="Cold water that follows when the valve opens.",
        ),
    ]
    relief_valve: ReliefValve
    relief_pipe: ReliefPipe
    tundish: Tundish
    discharge_pipe: DischargePipe
    ending: Ending
    other_pipes: Annotated[
        list[
            Annotated[
                float,
                Quantity(
                    "length", "D_2", "mm", low=8, high=54, help="Size of another store's pipe."
                ),
            ]
        ],
        Rows(low=0, high=10, help="Discharge pipes (D2) of other stores led into one with this."),
    ] = []
    common_pipe_size: (
        Annotated[
            float,
            Quantity(
                "length", "D_c", "mm", low=8, high=108, help="Size of the common pipe, if there."
            ),
        ]
        | None
    ) = None
    vulnerable_occupants: Annotated[
        bool,
        Flag(
            default=False, help="People who live there may not see a discharge, or not come near."
        ),
    ]
    discharge_alarm: Annotated[
        bool, Flag(default=False, help="A device warns when water discharges.")
    ]


class Candidate(Item):
    """One size of the table, tried from the smallest up."""

    name: Annotated[str, Name(help="Nominal size.")]
    size: Annotated[float, Quantity("length", "D", "mm", help="Nominal size.")]
    bend_resistance: Annotated[
        float, Quantity("length", "z", "m", help="Resistance of one bend of this size.")
    ]
    run: Annotated[float, Quantity("length", "L", "m", help="The run itself.")]
    bends: Annotated[float, Quantity("length", "n z", "m", help="What the bends add.")]
    equivalent_length: Annotated[
        float, Quantity("length", "L_eq", "m", help="Run and bends together.")
    ]
    allowed: Annotated[float, Quantity("length", "L_max", "m", help="Most the table allows.")]
    spare: Annotated[
        float, Quantity("length", "ΔL", "m", help="Left of it; below nothing, the size is refused.")
    ]
    fits: Annotated[bool, Flag(help="Within what the table allows.")]


class SourceOutputs(Item):
    """The safeguards of one source of heat, in their order."""

    name: Annotated[str, Name(help="Source of heat.")]
    cut_out_fitted: (
        Annotated[bool, Flag(help="It has its own cut-out; solid fuel cannot have one.")] | None
    )
    above_thermostat: (
        Annotated[bool, Flag(help="Its cut-out trips above the thermostat's setting.")] | None
    )
    below_relief: (
        Annotated[bool, Flag(help="Its cut-out trips before the relief valve opens.")] | None
    )


class Stated(Item):
    """Something that can be judged only when it is given."""

    name: Annotated[str, Name(help="What it is.")]
    given: Annotated[bool, Flag(help="It was given.")]


class Curve(Item):
    """What the pipe of the size found asks for, over the flow."""

    flow: Annotated[list[float], Column("volume_flow", "V", "l/min", help="Flow.")]
    head: Annotated[list[float], Column("head", "H", "m", help="Head it asks for.")]


class DischargePipeOutputs(Outputs):
    """Sizes by the table, what is spare, and the physical check beside it."""

    d1_size: Annotated[
        float, Quantity("length", "D_1", "mm", help="Least size from the valve to the tundish.")
    ]
    d2_size: Annotated[
        float, Quantity("length", "D_2", "mm", help="Least size from the tundish on, in copper.")
    ]
    d2_bore: Annotated[float, Quantity("length", "d_2", "mm", help="Bore of that copper pipe.")]
    equivalent_length: Annotated[
        float, Quantity("length", "L_eq", "m", help="Run and bends in that size.")
    ]
    allowed_length: Annotated[
        float, Quantity("length", "L_max", "m", help="Most the table allows that size.")
    ]
    spare_length: Annotated[float, Quantity("length", "ΔL", "m", help="Left of it.")]
    longest_run: Annotated[
        float, Quantity("length", "L", "m", help="Longest run with these bends in that size.")
    ]
    candidates: list[Candidate]
    common_pipe_size: (
        Annotated[float, Quantity("length", "D_c", "mm", help="Least size of the common pipe.")]
        | None
    )
    sources: Annotated[list[SourceOutputs], Rows(help="Safeguards of each source of heat.")]
    stated: Annotated[list[Stated], Rows(help="What must be given to be judged.")]
    total_heat_input: Annotated[
        float, Quantity("power", "ΣP", "kW", help="All sources of heat together.")
    ]
    rating_needed: Annotated[
        float, Quantity("power", "P_v", "kW", help="Least discharge rating of the relief valve.")
    ]
    relief_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_r",
            "l/min",
            help="Water that carries the rated heat of the valve away.",
        ),
    ]
    head_available: Annotated[
        float, Quantity("head", "h", "m", help="Height of the tundish above the end.")
    ]
    head_needed: Annotated[
        float, Quantity("head", "H", "m", help="Head that flow asks for in the size found.")
    ]
    capacity: Annotated[
        float,
        Quantity("volume_flow", "V_cap", "l/min", help="Flow at which the tundish would run over."),
    ]
    capacity_margin: Annotated[float, Number("V_cap/V_r", help="Capacity over relief flow.")]
    d1_metal: Annotated[bool, Flag(help="The pipe from the valve to the tundish is of metal.")]
    d2_stands_heat: Annotated[bool, Flag(help="The discharge pipe may be of this material.")]
    discharge_noticed: Annotated[bool, Flag(help="The people there will notice a discharge.")]
    ending_recognised: Annotated[bool, Flag(help="The guidance knows this ending as acceptable.")]
    ending_keeps_off: (
        Annotated[bool, Flag(help="A discharge near the ground or onto a roof meets nobody.")]
        | None
    )
    stack_stands_heat: Annotated[bool, Flag(help="The soil stack may take the discharge.")] | None
    notifiable: Annotated[
        bool, Flag(help="The work is notified, or done by a registered competent person.")
    ]
    curve: Curve
