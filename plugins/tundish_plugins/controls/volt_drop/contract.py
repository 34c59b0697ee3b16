"""What is asked and what is answered about a cable and its protection."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
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


class Load(Item):
    """One kind of load at the end of the cable."""

    name: Annotated[str, Name(help="Load.")]
    power: Annotated[
        float,
        Quantity("power", "P", "W", low=0.1, high=30000, help="Electrical power of one, running."),
    ]
    number: Annotated[int, Count("n", low=1, high=50, default=1, help="How many of them.")]
    power_factor: Annotated[
        float,
        Number("cos φ", low=0.2, high=1, default=1, help="Power factor; 1 for a heater."),
    ]


class VoltDropInputs(Inputs):
    """A two-core cable, its loads, and the fuse or breaker before it."""

    loads: Annotated[list[Load], Rows(low=1, high=30, help="Loads that can run at the same time.")]
    use: Annotated[
        Literal["lighting", "heating-controls", "immersion-heater", "other"],
        Choice(help="What the circuit feeds: it decides the limits."),
    ]
    supply: Annotated[
        Literal["public", "private"],
        Choice(help="Whose supply: the public network or a private one.", default="public"),
    ]
    voltage: Annotated[
        float,
        Quantity(
            "voltage",
            "U",
            "V",
            low=100,
            high=260,
            default_rule="mains-nominal-voltage",
            help="Nominal voltage of the supply, single-phase.",
        ),
    ]
    cable: Annotated[
        Literal["fixed", "flexible"],
        Choice(help="Fixed cable with 70 degC insulation, or a flexible cord."),
    ]
    size: Annotated[
        Literal["0.5", "0.75", "1.0", "1.25", "1.5", "2.5", "4", "6", "10", "16"],
        Choice(help="Nominal cross-section of a copper conductor in mm2."),
    ]
    length: Annotated[
        float,
        Quantity("length", "L", "m", low=0.1, high=1000, help="Length of the cable, one way."),
    ]
    drop_figure: (
        Annotated[
            float,
            Quantity(
                "resistance_per_length",
                "z",
                "mV/(A.m)",
                low=0.5,
                high=200,
                help="Volt drop of this cable by its own table, there and back, in place of the "
                "one on file.",
            ),
        ]
        | None
    ) = None
    conductor_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ",
                "degC",
                low=5,
                high=100,
                help="Temperature of the conductor in use; asked for with the conductor's "
                "resistance.",
            ),
        ]
        | None
    ) = None
    upstream_drop: (
        Annotated[
            float,
            Quantity(
                "voltage",
                "ΔU_0",
                "V",
                low=0,
                high=100,
                help="Drop from the origin of the installation to the start of this cable; 0 V "
                "where it starts there.",
            ),
        ]
        | None
    ) = None
    fused_unit: (
        Annotated[
            Literal["3", "5", "10", "13"],
            Choice(help="Fuse in the connection unit or plug, in A."),
        ]
        | None
    ) = None
    breaker: (
        Annotated[
            float,
            Quantity(
                "current",
                "I_n",
                "A",
                low=1,
                high=100,
                help="Rating of the breaker or circuit fuse.",
            ),
        ]
        | None
    ) = None
    cable_capacity: (
        Annotated[
            float,
            Quantity(
                "current",
                "I_z",
                "A",
                low=1,
                high=150,
                help="Current the cable carries as it is laid: after grouping, insulation and "
                "surroundings. From its table, never from the size alone.",
            ),
        ]
        | None
    ) = None
    heater_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V",
                "l",
                low=0.5,
                high=2000,
                help="Content of the store the heater is in.",
            ),
        ]
        | None
    ) = None
    own_circuit: Annotated[
        bool, Flag(help="Whether the circuit feeds nothing else.", default=False)
    ]


class LoadResult(Item):
    """Current of one kind of load."""

    name: Annotated[str, Name(help="Load.")]
    current: Annotated[float, Quantity("current", "I", "A", help="Current of all of them.")]


class SizeOption(Item):
    """The same cable in a size on file."""

    name: Annotated[str, Name(help="Cross-section.")]
    drop: Annotated[float, Quantity("voltage", "ΔU", "V", help="Drop along the cable.")]
    drop_share: Annotated[
        float, Number("ΔU/U", help="Drop from the origin as a share of the supply voltage.")
    ]


class VoltDropOutputs(Outputs):
    """Current, volt drop, and what the protection must carry."""

    loads: Annotated[list[LoadResult], Rows(help="Loads.")]
    current: Annotated[float, Quantity("current", "I", "A", help="Current in the cable.")]
    loop_figure: Annotated[
        float,
        Quantity(
            "resistance_per_length",
            "z",
            "mV/(A.m)",
            help="Volt drop a metre and ampere, both ways.",
        ),
    ]
    drop: Annotated[float, Quantity("voltage", "ΔU", "V", help="Drop along the cable.")]
    total_drop: Annotated[
        float, Quantity("voltage", "ΔU_t", "V", help="Drop from the origin to the load.")
    ]
    drop_share: Annotated[float, Number("ΔU_t/U", help="That drop as a share of the voltage.")]
    share_limit: Annotated[float, Number("", help="Largest share that is allowed.")]
    whole_way: Annotated[bool, Flag(help="Whether the drop before the cable is known.")]
    voltage_at_load: Annotated[float, Quantity("voltage", "U_L", "V", help="Voltage at the load.")]
    longest_length: Annotated[
        float,
        Quantity(
            "length",
            "L_max",
            "m",
            help="Longest cable within the limit; 0 m if none of it is left.",
        ),
    ]
    heat_in_cable: Annotated[
        float, Quantity("power", "P_L", "W", help="Power that the cable turns into heat.")
    ]
    protective_rating: (
        Annotated[
            float, Quantity("current", "I_p", "A", help="Smaller of fuse and breaker, as given.")
        ]
        | None
    )
    most_power: (
        Annotated[
            float, Quantity("power", "P_max", "W", help="Load at power factor 1 that it carries.")
        ]
        | None
    )
    protection_given: Annotated[bool, Flag(help="Whether a fuse or breaker was given.")]
    capacity: (
        Annotated[float, Quantity("current", "I_z", "A", help="Current that the cable carries.")]
        | None
    )
    section: Annotated[float, Quantity("area", "A", "mm2", help="Nominal cross-section.")]
    least_section: (
        Annotated[
            float, Quantity("area", "A_min", "mm2", help="Least cross-section of a cord behind it.")
        ]
        | None
    )
    heater_on_unit: Annotated[
        bool, Flag(help="Whether one immersion heater is fed through a 13 A fuse.")
    ]
    heater_power: (
        Annotated[float, Quantity("power", "P", "W", help="Its power, in that case.")] | None
    )
    circuit_kept: (
        Annotated[bool, Flag(help="Whether a heater that needs a circuit of its own has one.")]
        | None
    )
    sizes: Annotated[
        list[SizeOption],
        Rows(help="The same cable in the sizes on file: drop only, not what they carry."),
    ]
