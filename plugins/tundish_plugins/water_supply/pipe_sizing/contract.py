"""What is asked and what is answered about hot and cold water pipes."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
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
from tundish_plugins.water_supply.contract import Building, Run
from tundish_plugins.water_supply.contract import Outlet as Drawing


class Section(Run):
    """A run of one tube between two points of the tree."""

    start: Annotated[str, Name(help="Point it starts from.")]
    end: Annotated[str, Name(help="Point it leads to.")]
    flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q",
                "l/min",
                low=0.5,
                high=2000,
                help="Design flow, where it is given: as wished, or as read from a standard's "
                "figure for the loading units behind it.",
            ),
        ]
        | None
    ) = None


class Outlet(Drawing):
    """An outlet, and the pressure it needs."""

    node: Annotated[str, Name(help="Point it is connected to.")]
    required_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_r",
            "bar",
            low=0,
            high=6,
            help="Pressure it needs at its inlet to give its flow, from its maker.",
        ),
    ]


class PipeSizingInputs(Inputs):
    """Hot or cold water pipes as a tree from a main, a store or a cistern to the outlets."""

    source: Annotated[str, Name(default="source", help="Point the tree starts from.")]
    start_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_0",
                "bar",
                low=0,
                high=16,
                help="Pressure there while the design flow runs: of the main, behind the reducing "
                "valve or behind the store.",
            ),
        ]
        | None
    ) = None
    standing_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_n",
                "bar",
                low=0,
                high=16,
                help="Highest pressure there with nothing running: of the main overnight, the "
                "setting of a reducing valve, of the expansion valve behind a store, or under the "
                "highest water level of a cistern.",
            ),
        ]
        | None
    ) = None
    cistern_level: (
        Annotated[
            float,
            Quantity(
                "head",
                "h_0",
                "m",
                low=0.05,
                high=100,
                help="Or, fed from a cistern: lowest water level above the start of the tree.",
            ),
        ]
        | None
    ) = None
    water_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ",
            "degC",
            low=1,
            high=95,
            default_rule="cold-water-temperature",
            help="Temperature of the water in these pipes.",
        ),
    ]
    friction: Annotated[
        Literal["colebrook", "hazen-williams"],
        Choice(
            default="colebrook",
            help="Law of friction: Darcy with Colebrook at the water's temperature, or Hazen-"
            "Williams, for cold water only.",
        ),
    ]
    hazen_williams_coefficient: (
        Annotated[
            float,
            Number("C", low=60, high=160, help="Coefficient of Hazen-Williams, 140 for smooth."),
        ]
        | None
    ) = None
    building: Building
    sections: Annotated[list[Section], Rows(low=1, high=60, help="Sections of the tree.")]
    outlets: Annotated[list[Outlet], Rows(low=1, high=60, help="Outlets on it.")]


class Alternative(Item):
    """What another tube would do in a section, all else left as it is."""

    tube: Annotated[str, Text(help="Tube.")]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Velocity in it.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "bar", help="Pressure lost in the section.")
    ]
    least_spare: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_s", "bar", help="Least to spare at any outlet behind it."
        ),
    ]


class SectionOutputs(Item):
    """What one section does."""

    name: Annotated[str, Name(help="Name of the section.")]
    tube: Annotated[str, Text(help="Its tube.")] | None = None
    pipe: Annotated[
        Literal["shared", "single", "former"],
        Choice(
            help="Which limit of velocity holds: a pipe that several outlets share, one to a "
            "single outlet, or that of the former standard."
        ),
    ]
    loading_units: (
        Annotated[float, Number("ΣLU", help="Loading units behind it, by the method's table.")]
        | None
    ) = None
    all_outlets: Annotated[
        float,
        Quantity("volume_flow", "Σq", "l/min", help="Every outlet behind it, all at once."),
    ]
    flow: Annotated[float, Quantity("volume_flow", "q", "l/min", help="Design flow.")]
    effective_length: Annotated[
        float, Quantity("length", "L_e", "m", help="Length with the length added for fittings.")
    ]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Mean velocity.")]
    reynolds: Annotated[float, Number("Re", help="Reynolds number.")]
    transitional: Annotated[
        bool, Flag(help="The flow lies between laminar and turbulent, where its law is uncertain.")
    ]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "bar", help="Pressure lost in it.")
    ]
    pressure: Annotated[float, Quantity("pressure_gauge", "p", "bar", help="Pressure at its end.")]
    larger: Alternative | None = None
    smaller: Alternative | None = None


class Profile(Item):
    """Pressure along the way to an outlet, at the points of the tree."""

    distance: Annotated[
        list[float], Column("length", "l", "m", help="Length with fittings from the start.")
    ]
    pressure: Annotated[list[float], Column("pressure_gauge", "p", "bar", help="Pressure there.")]


class OutletOutputs(Item):
    """What arrives at one outlet."""

    name: Annotated[str, Name(help="Name of the outlet.")]
    flow: Annotated[float, Quantity("volume_flow", "q", "l/min", help="Its flow.")]
    static_pressure: Annotated[
        float,
        Quantity("pressure_gauge", "p_st", "bar", help="Pressure at it if nothing were lost."),
    ]
    standing_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge", "p_n", "bar", help="Highest pressure at it with nothing running."
        ),
    ]
    standing_known: Annotated[
        bool,
        Flag(
            help="It cannot be more: it is given at the start, or a reducing valve holds its "
            "setting."
        ),
    ]
    rated: Annotated[bool, Flag(help="What it may stand at is given.")]
    lost: Annotated[
        float, Quantity("pressure_difference", "Δp", "bar", help="Lost on the way to it.")
    ]
    pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p",
            "bar",
            help="Pressure at it while the design flows run; negative: it cannot have its flow.",
        ),
    ]
    head: Annotated[float, Quantity("head", "h", "m", help="The same as a head of water.")]
    spare: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_s", "bar", help="Beyond what it needs; negative: missing."
        ),
    ]
    available_gradient: Annotated[
        float,
        Quantity(
            "pressure_gradient",
            "R_a",
            "mbar/m",
            help="Pressure that may be lost for each metre of the way to it.",
        ),
    ]
    profile: Profile


class PipeSizingOutputs(Outputs):
    """Pressure at every outlet, and what each section has to do with it."""

    start_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_0", "bar", help="Pressure at the start.")
    ]
    density: Annotated[float, Quantity("density", "ρ", "kg/m3", help="Density of the water.")]
    viscosity: Annotated[
        float, Quantity("dynamic_viscosity", "μ", "mPa.s", help="Viscosity of the water.")
    ]
    least_spare: Annotated[
        float, Quantity("pressure_difference", "Δp_s", "bar", help="Least to spare at any outlet.")
    ]
    above_atmospheric: Annotated[
        bool, Flag(help="At no point of the tree the pressure falls below that of the air.")
    ]
    valves_within_chart: (
        Annotated[
            bool,
            Flag(help="No reducing valve passes more than the flow its fall-off is stated for."),
        ]
        | None
    ) = None
    valves_known: Annotated[
        bool,
        Flag(
            help="What every reducing valve passes is known: it has its setting before it, or its "
            "loss when open is given."
        ),
    ]
    units_in_force: (
        Annotated[bool, Flag(help="Whether the table of loading units is in force on the date.")]
        | None
    ) = None
    outlets: Annotated[list[OutletOutputs], Rows(help="Each outlet.")]
    sections: Annotated[list[SectionOutputs], Rows(help="Each section.")]
