"""What is asked and what is answered about the drop of a gas installation."""

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


class Component(Item):
    """One component of a gas mixture."""

    gas: Annotated[str, Text(longest=40, help="Component, such as methane.")]
    fraction: Annotated[float, Number("x", low=0, high=1, help="Its share by volume.")]


class Fitting(Item):
    """Fittings of one kind in a section."""

    kind: Annotated[
        Literal["elbow-90", "bend-90", "bend-45", "return-180", "tee"],
        Choice(help="Kind of fitting."),
    ]
    count: Annotated[int, Count("n", low=1, high=200, help="How many of them.")]


class Section(Item):
    """A run of one tube between two points, carrying one flow."""

    name: Annotated[str, Name(help="Name of the section.")]
    start: Annotated[str, Name(help="Point it starts from, such as meter.")]
    end: Annotated[str, Name(help="Point it leads to.")]
    tube: Annotated[
        str,
        Text(
            longest=40,
            help="Tube, such as copper-22x0.9, steel-26.9x2.6, steel-sch40-3/4 or csst-ehd-25.",
        ),
    ]
    length: Annotated[
        float, Quantity("length", "L", "m", low=0.1, high=200, help="Length as measured.")
    ]
    fittings: Annotated[list[Fitting], Rows(low=0, high=20, help="Its fittings.")] = []
    extra_length: Annotated[
        float,
        Quantity(
            "length",
            "L_x",
            "m",
            low=0,
            high=200,
            default=0,
            help="Further length to add, for valves and the like, from the maker.",
        ),
    ]


class Appliance(Item):
    """An appliance at full rate."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    node: Annotated[str, Name(help="Point it is connected to.")]
    heat_input: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "Q",
            "kW",
            low=0.5,
            high=200,
            help="Greatest heat input, hot water included, with its basis: net or gross.",
        ),
    ]


class SharedAppliance(Appliance):
    """An appliance whose load may count less than full where it shares a pipe."""

    diversity: (
        Annotated[
            float,
            Number(
                "g",
                low=0.1,
                high=1,
                help="Share of it that counts where it shares a pipe with others, where the region "
                "allows that and the design establishes it. Great Britain: none.",
            ),
        ]
        | None
    ) = None


class PipeSizingInputs(Inputs):
    """A gas installation as a tree from the meter to the appliances."""

    gas: (
        Annotated[str, Text(longest=40, help="Gas by name, such as natural-gas or propane.")] | None
    ) = None
    composition: (
        Annotated[list[Component], Rows(low=1, high=12, help="Gas by its components.")] | None
    ) = None
    gas_family: (
        Annotated[
            Literal["natural", "lpg"],
            Choice(help="Which limit applies; needed when the gas is given by composition."),
        ]
        | None
    ) = None
    meter: Annotated[str, Name(default="meter", help="Point the tree starts from.")]
    meter_capacity: (
        Annotated[
            float,
            Quantity("gas_flow_15", "Q_m", "m3/h", low=1, high=100, help="Capacity on its badge."),
        ]
        | None
    ) = None
    supply_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_s",
                "mbar",
                low=5,
                high=140,
                help="Least working pressure that arrives; some capacity tables are for no less.",
            ),
        ]
        | None
    ) = None
    sections: Annotated[list[Section], Rows(low=1, high=60, help="Sections of the installation.")]
    appliances: Annotated[
        list[SharedAppliance], Rows(low=1, high=30, help="Appliances, all at once.")
    ]
    table_edition: (
        Annotated[
            str,
            Text(
                longest=60,
                help="Edition of the capacity table to read with method table, such as "
                "BS 6891:2005. A superseded one is used only when named here.",
            ),
        ]
        | None
    ) = None


class Alternative(Item):
    """What another tube would do in a section."""

    tube: Annotated[str, Text(help="Tube.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "mbar", help="Drop of the section with it.")
    ]
    highest_drop: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_max",
            "mbar",
            help="Highest drop at any appliance then, all else left as it is.",
        ),
    ]


class SectionOutputs(Item):
    """What one section does."""

    name: Annotated[str, Name(help="Name of the section.")]
    tube: Annotated[str, Text(help="Its tube.")]
    flow: Annotated[float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow at 15 °C.")]
    effective_length: Annotated[
        float, Quantity("length", "L_e", "m", help="Length with its fittings.")
    ]
    velocity: (
        Annotated[float, Quantity("velocity", "w", "m/s", help="Mean velocity; not in corrugated.")]
        | None
    ) = None
    reynolds: Annotated[float, Number("Re", help="Reynolds number.")] | None = None
    transitional: Annotated[
        bool, Flag(help="The flow lies between laminar and turbulent, where its law is uncertain.")
    ]
    drop: Annotated[float, Quantity("pressure_difference", "Δp", "mbar", help="Its drop.")]
    spare_length: (
        Annotated[
            float,
            Quantity(
                "length",
                "ΔL",
                "m",
                help="Length that could be added with every limit still met; negative: too long. "
                "Not with longest-length.",
            ),
        ]
        | None
    ) = None
    longest_length: (
        Annotated[
            float,
            Quantity(
                "length",
                "L_max",
                "m",
                help="Longest measured length that meets the limit; negative: no length does.",
            ),
        ]
        | None
    ) = None
    table_length: (
        Annotated[
            float,
            Quantity("length", "L_T", "m", help="Row of the table read, with longest-length."),
        ]
        | None
    ) = None
    table_flow: (
        Annotated[
            float,
            Quantity(
                "gas_flow_60f",
                "Q_60F",
                "m3/h",
                help="Cell of that row, at 60 °F and 30 in of mercury, relative density 0.60.",
            ),
        ]
        | None
    ) = None
    table_heat: (
        Annotated[
            float,
            Quantity(
                "heat_input_gross", "Φ_T", "kW", help="Cell of that row, as gross heat input."
            ),
        ]
        | None
    ) = None
    capacity: (
        Annotated[
            float,
            Quantity("gas_flow_15", "Q_T", "m3/h", help="Flow its tube may carry by that row."),
        ]
        | None
    ) = None
    least_tube: (
        Annotated[
            str,
            Text(
                help="Smallest tube of the same table that carries the flow by that row, or none."
            ),
        ]
        | None
    ) = None
    larger: Alternative | None = None
    smaller: Alternative | None = None


class Profile(Item):
    """Drop along the way to an appliance."""

    distance: Annotated[
        list[float], Column("length", "l", "m", help="Effective length from the meter.")
    ]
    drop: Annotated[list[float], Column("pressure_difference", "Δp", "mbar", help="Drop up to it.")]


class ApplianceOutputs(Item):
    """What arrives at one appliance."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    flow: Annotated[float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow at full rate.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "mbar", help="Drop from the meter.")
    ]
    spare: Annotated[
        float, Quantity("pressure_difference", "Δp_s", "mbar", help="Limit less drop.")
    ]
    settled: (
        Annotated[
            bool,
            Flag(
                help="No section on its way is of uncertain flow with little to spare; not said "
                "where capacities are judged."
            ),
        ]
        | None
    ) = None
    profile: Profile


class PipeSizingOutputs(Outputs):
    """Drop at every appliance, and what each section has to do with it."""

    family: Annotated[Literal["natural", "lpg"], Choice(help="Family of the gas.")]
    judged_by: Annotated[
        Literal["natural-drop", "lpg-drop", "capacity"],
        Choice(help="What the verdict is about: the region's limit of drop, or capacities."),
    ]
    density: Annotated[float, Quantity("density", "ρ", "kg/m3", help="Density at 15 °C.")]
    relative_density: Annotated[float, Number("s", help="Density over that of air.")]
    viscosity: Annotated[
        float, Quantity("dynamic_viscosity", "μ", "mPa.s", help="Viscosity at 15 °C.")
    ]
    gross_calorific_value: Annotated[
        float, Quantity("calorific_value_gross", "H_s", "MJ/m3", help="Gross calorific value.")
    ]
    net_calorific_value: Annotated[
        float, Quantity("calorific_value_net", "H_i", "MJ/m3", help="Net calorific value.")
    ]
    total_flow: Annotated[
        float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow of all appliances together.")
    ]
    full_rate: Annotated[bool, Flag(help="Every appliance counts at full rate everywhere.")]
    drop_limit: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_lim",
            "mbar",
            help="Limit of the region, or the drop its capacity tables are for.",
        ),
    ]
    highest_drop: Annotated[
        float, Quantity("pressure_difference", "Δp_max", "mbar", help="Highest drop of all.")
    ]
    plastic: Annotated[bool, Flag(help="Some section is of polyethylene.")]
    least_supply: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge", "p_min", "mbar", help="Supply the capacity tables are meant for."
            ),
        ]
        | None
    ) = None
    supply_known: (
        Annotated[bool, Flag(help="The supply pressure was given, where the tables ask for one.")]
        | None
    ) = None
    meter_judged: Annotated[
        bool, Flag(help="The meter's capacity was given, and the flow is held against it.")
    ]
    table_edition: (
        Annotated[str, Text(help="Edition of the capacity table read, with method table.")] | None
    ) = None
    table_in_force: (
        Annotated[bool, Flag(help="Whether that edition is in force on the date.")] | None
    ) = None
    appliances: Annotated[list[ApplianceOutputs], Rows(help="Each appliance.")]
    sections: Annotated[list[SectionOutputs], Rows(help="Each section.")]
