"""What is asked and what is answered about a condensate drain that runs by gravity."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
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

_TERMINATIONS = Literal[
    "internal-stack",
    "internal-waste",
    "external-stack",
    "external-gully",
    "combined-rainwater-pipe",
    "soakaway",
    "condensate-pump",
    "rainwater-pipe",
    "surface-water-drain",
    "open-ground",
]
_MATERIALS = Literal[
    "pvc-u",
    "pvc-c",
    "abs",
    "pp",
    "pe-hd",
    "stainless-steel",
    "clay",
    "copper",
    "brass",
    "steel",
    "galvanised-steel",
    "cast-iron",
]


class Appliance(Item):
    """An appliance that makes condensate, and the trap between it and the drain."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    heat_input: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "Q",
            "kW",
            low=1,
            high=100,
            help="Heat input with its basis, net or gross.",
        ),
    ]
    own_trap: Annotated[
        bool, Flag(help="The appliance has a water trap of its own, built in or beside it.")
    ]
    seal_depth: (
        Annotated[
            float,
            Quantity(
                "length", "h_s", "mm", low=1, high=500, help="Depth of water in that trap's seal."
            ),
        ]
        | None
    ) = None
    flue_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "p_f",
                "mbar",
                low=0,
                high=50,
                help="Greatest pressure of the flue gas at the trap, above the room's; from the "
                "maker.",
            ),
        ]
        | None
    ) = None


class Segment(Item):
    """A stretch of pipe of one bore and one slope, in the order the water takes."""

    name: Annotated[str, Name(help="Name of the stretch.")]
    place: Annotated[
        Literal["heated", "unheated", "outside"],
        Choice(help="Heated room; unheated loft, basement or garage; or outside."),
    ]
    length: Annotated[
        float, Quantity("length", "L", "m", low=0.05, high=30, help="Length along the pipe.")
    ]
    drop: Annotated[
        float,
        Quantity(
            "length",
            "z",
            "mm",
            low=-5000,
            high=30000,
            help="How far its end lies below its start; negative where it rises.",
        ),
    ]
    bore: Annotated[
        float,
        Quantity(
            "length", "d", "mm", low=5, high=150, help="Inside diameter: measured, not the label's."
        ),
    ]
    material: Annotated[_MATERIALS, Choice(help="Material of pipe and fittings.")]
    insulated: Annotated[
        bool, Flag(help="Insulated with weatherproof material all along.", default=False)
    ]
    outside_diameter: (
        Annotated[
            float,
            Quantity(
                "length", "D", "mm", low=6, high=200, help="Outside diameter, for freezing times."
            ),
        ]
        | None
    ) = None
    insulation_thickness: (
        Annotated[
            float,
            Quantity(
                "length",
                "s_i",
                "mm",
                low=0,
                high=100,
                help="Thickness of the insulation, for freezing times; 0: bare.",
            ),
        ]
        | None
    ) = None


class Soakaway(Item):
    """A pit that takes the condensate in the ground."""

    tube_diameter: Annotated[
        float, Quantity("length", "D_s", "mm", low=20, high=1000, help="Diameter of its tube.")
    ]
    distance: Annotated[
        float,
        Quantity("length", "a", "mm", low=0, high=50000, help="Distance from the footings."),
    ]
    surround: Annotated[
        float,
        Quantity(
            "length", "s", "mm", low=0, high=2000, help="Limestone chippings around the tube."
        ),
    ]
    depth: Annotated[
        float, Quantity("length", "h", "mm", low=0, high=3000, help="Depth of the chippings.")
    ]
    soil: Annotated[
        Literal["drains-well", "clay", "unknown"],
        Choice(help="How water gets away in the ground there."),
    ]


class Frost(Item):
    """A cold spell, to compare stretches of pipe by."""

    air_temperature: Annotated[
        float, Quantity("temperature", "θ_a", "degC", low=-40, high=-0.5, help="Air outside.")
    ]
    start_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_0", "degC", low=1, high=60, default=10, help="Water at the start."
        ),
    ]
    surface_coefficient: Annotated[
        float,
        Quantity(
            "thermal_transmittance",
            "h_e",
            "W/(m2.K)",
            low=2,
            high=100,
            default=10,
            help="Heat transfer from the surface to the air; wind makes it several times larger.",
        ),
    ]
    pipe_conductivity: Annotated[
        float,
        Quantity(
            "thermal_conductivity",
            "λ_p",
            "W/(m.K)",
            low=0.05,
            high=100,
            default=0.17,
            help="Conductivity of the pipe.",
        ),
    ]
    insulation_conductivity: Annotated[
        float,
        Quantity(
            "thermal_conductivity",
            "λ_i",
            "W/(m.K)",
            low=0.01,
            high=1,
            default=0.038,
            help="Conductivity of the insulation, dry.",
        ),
    ]
    ice_share: Annotated[
        float,
        Number("f_i", low=0.05, high=1, default=0.25, help="Share of the water that is to freeze."),
    ]


class DrainInputs(Inputs):
    """Appliances, the pipe from the first of them on, and where it ends."""

    appliances: Annotated[list[Appliance], Rows(low=1, high=10, help="All on this drain.")]
    segments: Annotated[list[Segment], Rows(low=1, high=30, help="The pipe, from the trap down.")]
    termination: Annotated[_TERMINATIONS, Choice(help="Where the pipe ends.")]
    trap_place: Annotated[
        Literal["heated", "unheated", "outside"], Choice(help="Where the traps stand.")
    ]
    height_above_bend: (
        Annotated[
            float,
            Quantity(
                "length",
                "h_b",
                "mm",
                low=0,
                high=30000,
                help="Height of the connection above the bend at the foot of the stack.",
            ),
        ]
        | None
    ) = None
    storeys: (
        Annotated[int, Count("n", low=1, high=60, help="Storeys that the stack serves.")] | None
    ) = None
    below_grating: (
        Annotated[
            float,
            Quantity(
                "length",
                "h_g",
                "mm",
                low=0,
                high=1000,
                help="How far the open end lies below the grating, still above the water.",
            ),
        ]
        | None
    ) = None
    outside_air_break: Annotated[
        bool,
        Flag(
            help="An air break outside, between the pipe and a rainwater pipe that may run full.",
            default=False,
        ),
    ]
    relief_joins: Annotated[
        bool, Flag(help="The pipe of a relief valve joins this drain. There is no default.")
    ]
    soakaway: Soakaway | None = None
    roughness: Annotated[
        float,
        Quantity(
            "length",
            "k",
            "mm",
            low=0,
            high=0.1,
            default_rule="condensate-tube-roughness",
            help="Roughness of the bore.",
        ),
    ]
    condensate_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_c",
            "degC",
            low=1,
            high=60,
            default=20,
            help="Temperature of the condensate.",
        ),
    ]
    frost: Frost | None = None


class ApplianceResult(Item):
    """One appliance: what it makes, and what its trap holds."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    inflow: Annotated[
        float, Quantity("volume_flow", "V_in", "l/h", help="Condensate that it makes at most.")
    ]
    seal_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_difference", "p_s", "mbar", help="Pressure that the full seal holds."
            ),
        ]
        | None
    ) = None
    seal_left: (
        Annotated[
            float,
            Quantity(
                "length",
                "h_l",
                "mm",
                help="Seal left once the flue's pressure has pushed water over; negative: gas "
                "blows through.",
            ),
        ]
        | None
    ) = None
    flue_pressure_known: Annotated[bool, Flag(help="The flue's pressure at the trap is given.")]


class SegmentResult(Item):
    """One stretch of pipe."""

    name: Annotated[str, Name(help="Name of the stretch.")]
    counts_as_outside: Annotated[bool, Flag(help="Outside, or unheated, which counts the same.")]
    fall: Annotated[float, Quantity("slope", "i", "mm/m", help="Drop for each metre of pipe.")]
    below_start: Annotated[
        float, Quantity("length", "z_Σ", "mm", help="Its end below the start of the whole pipe.")
    ]
    as_wide_as_before: Annotated[bool, Flag(help="No narrower than the stretch before it.")]
    material_accepted: Annotated[
        bool, Flag(help="One of the plastics that instructions accept without more ado.")
    ]
    capacity: Annotated[
        float, Quantity("volume_flow", "V_f", "l/h", help="Flow that would fill the bore.")
    ]
    cooling_time: (
        Annotated[
            float, Quantity("time", "t_0", "h", help="Standing water cooled to freezing point.")
        ]
        | None
    ) = None
    freezing_time: (
        Annotated[
            float,
            Quantity("time", "t_i", "h", help="Then the share of it frozen: for comparison only."),
        ]
        | None
    ) = None


class Profile(Item):
    """The pipe from the side."""

    distance: Annotated[list[float], Column("length", "L", "m", help="Along the pipe.")]
    height: Annotated[
        list[float], Column("length", "z", "mm", help="Height, the start at nothing.")
    ]


class SoakawayResult(Item):
    """What is known of the ground."""

    soil_known: Annotated[bool, Flag(help="The ground is known to take water.")]


class DrainOutputs(Outputs):
    """Flow, seals, stretches and the end of the drain."""

    flow: Annotated[
        float, Quantity("volume_flow", "V", "l/h", help="Condensate of all appliances at most.")
    ]
    seal_least: Annotated[
        float, Quantity("length", "h_min", "mm", help="Least depth of seal for this termination.")
    ]
    least_fall_by_angle: Annotated[
        float, Quantity("slope", "i_min", "mm/m", help="The least angle as drop for each metre.")
    ]
    total_length: Annotated[float, Quantity("length", "L_Σ", "m", help="Length of the pipe.")]
    outside_length: Annotated[
        float, Quantity("length", "L_o", "m", help="Length that is or counts as outside.")
    ]
    outside_length_most: Annotated[
        float, Quantity("length", "L_max", "m", help="Longest length outside.")
    ]
    total_drop: Annotated[float, Quantity("length", "z_Σ", "mm", help="Drop in all.")]
    trap_in_the_warm: Annotated[bool, Flag(help="The traps stand in a heated room.")]
    termination_accepted: Annotated[
        bool, Flag(help="Accepted without asking the drainage authority.")
    ]
    how_to_end: Annotated[str, Text(help="How the pipe ends there.")]
    joins_stack: Annotated[bool, Flag(help="The pipe joins a stack.")]
    storeys_within_rule: Annotated[
        bool, Flag(help="The stack is known to serve no more storeys than its rule is for.")
    ]
    appliances: Annotated[list[ApplianceResult], Rows(help="Each appliance.")]
    segments: Annotated[list[SegmentResult], Rows(help="Each stretch.")]
    soakaway: SoakawayResult | None = None
    profile: Profile | None = None
