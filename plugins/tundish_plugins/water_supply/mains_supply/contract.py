"""What is asked and what is answered about a mains supply."""

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
)
from tundish_plugins.water_supply.contract import Building, Component, ReducingValve, Run
from tundish_plugins.water_supply.contract import Outlet as Drawing


class Reading(Item):
    """One reading with water running: pressure, and the flow or a measured volume and time."""

    pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_t",
            "bar",
            low=0,
            high=16,
            help="Pressure at the gauge while it runs.",
        ),
    ]
    flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow", "q_t", "l/min", low=0.5, high=500, help="Flow that ran meanwhile."
            ),
        ]
        | None
    ) = None
    volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V",
                "l",
                low=0.5,
                high=2000,
                help="Or the volume that ran into a vessel or through the meter.",
            ),
        ]
        | None
    ) = None
    time: (
        Annotated[
            float, Quantity("time", "t", "s", low=2, high=7200, help="Time that volume took.")
        ]
        | None
    ) = None


class SupplyRun(Run):
    """A section on the way; it carries the flow of its way, unless another is stated."""

    flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q",
                "l/min",
                low=0.5,
                high=500,
                help="Flow it carries, where that is not the flow of its way: for a cold feed that "
                "takes only the hot share, or a hot pipe that other outlets share.",
            ),
        ]
        | None
    ) = None


class Store(Item):
    """An unvented hot water store at the end of the supply."""

    required_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_r",
            "bar",
            low=0.1,
            high=6,
            default_rule="unvented-inlet-pressure-least",
            help="Pressure its maker asks for at its inlet while water runs.",
        ),
    ]
    required_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "q_r",
            "l/min",
            low=2,
            high=200,
            default_rule="unvented-inlet-flow-least",
            help="Flow its maker asks for at that pressure.",
        ),
    ]
    working_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_w",
                "bar",
                low=0.5,
                high=12,
                help="Pressure it may stand at with nothing running, from its data plate.",
            ),
        ]
        | None
    ) = None
    expansion_valve: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_ev",
                "bar",
                low=0.5,
                high=12,
                help="Setting of its expansion valve: what heating up can bring the outlets "
                "behind it to.",
            ),
        ]
        | None
    ) = None
    flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q_h",
                "l/min",
                low=0.5,
                high=200,
                help="Flow through the store at the design flow, no less than its outlets that "
                "run at once; otherwise all of it, which is on the safe side.",
            ),
        ]
        | None
    ) = None
    components: Annotated[
        list[Component], Rows(low=0, high=20, help="Its inlet group and its own loss.")
    ] = []
    reducing_valve: ReducingValve | None = None


class Outlet(Drawing):
    """An outlet and the pipe that leads to it."""

    at_once: Annotated[
        bool,
        Flag(default=False, help="It runs at the same time as the others marked so."),
    ]
    fed_by: Annotated[
        Literal["supply", "store"],
        Choice(default="supply", help="Cold from the end of the supply, or hot through the store."),
    ]
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
    other_side_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_o",
                "bar",
                low=0.01,
                high=10,
                help="For a mixer: flowing pressure on its other side.",
            ),
        ]
        | None
    ) = None
    sections: Annotated[
        list[SupplyRun],
        Rows(low=0, high=30, help="Pipe from the end of the supply, or from the store, to it."),
    ] = []


class MainsSupplyInputs(Inputs):
    """A flow test of the main, the pipe behind it, and what is to run."""

    static_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_s",
            "bar",
            low=0.1,
            high=16,
            example=3.5,
            help="Pressure at the gauge with nothing running anywhere.",
        ),
    ]
    night_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_n",
                "bar",
                low=0.1,
                high=16,
                help="Highest pressure of a gauge left there overnight, for what store and outlets "
                "stand at: a main stands highest when nobody draws.",
            ),
        ]
        | None
    ) = None
    readings: Annotated[
        list[Reading],
        Rows(low=1, high=2, help="Readings with water running, in order of rising flow."),
    ]
    gauge_resolution: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "r",
            "bar",
            low=0,
            high=0.5,
            default=0.1,
            help="Finest division the gauge can be read to; 0 takes the readings as exact.",
        ),
    ]
    static_allowance: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_d",
            "bar",
            low=0,
            high=5,
            default=0,
            help="By how much the main is lower at the busiest hour than at the test.",
        ),
    ]
    residual_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_1",
            "bar",
            low=0,
            high=10,
            default=1,
            help="Pressure to be left at the point of test, for the flow the main can give.",
        ),
    ]
    cold_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_c",
            "degC",
            low=1,
            high=30,
            default_rule="cold-water-temperature",
            help="Cold water.",
        ),
    ]
    hot_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_h",
            "degC",
            low=30,
            high=95,
            default=60,
            help="Water in the pipes from the store.",
        ),
    ]
    building: Building
    design_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q_d",
                "l/min",
                low=0.5,
                high=500,
                help="Flow to be had at once: as wished, or as read from a standard's figure for "
                "the loading units. Otherwise that of the outlets marked at_once, or what the "
                "store asks for.",
            ),
        ]
        | None
    ) = None
    supply: Annotated[
        list[SupplyRun],
        Rows(low=0, high=30, help="Pipe from the point of test to the store's inlet."),
    ] = []
    store: Store | None = None
    outlets: Annotated[
        list[Outlet], Rows(low=0, high=40, help="Outlets: what they need, and the pipe to them.")
    ] = []


class SectionOutputs(Item):
    """One section at the design flow."""

    name: Annotated[str, Name(help="Name of the section.")]
    flow: Annotated[float, Quantity("volume_flow", "q", "l/min", help="Flow it carries.")]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Mean velocity.")]
    reynolds: Annotated[float, Number("Re", help="Reynolds number.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "bar", help="Pressure lost in it.")
    ]
    pressure: Annotated[
        float,
        Quantity("pressure_gauge", "p", "bar", help="Pressure at its end, by the lower curve."),
    ]


class Demand(Item):
    """What is drawn at once, and what it is made of."""

    all_outlets: Annotated[
        float, Quantity("volume_flow", "Σq", "l/min", help="Every outlet listed, all at once.")
    ]
    largest_outlet: Annotated[
        float, Quantity("volume_flow", "q_max", "l/min", help="Largest single outlet.")
    ]
    loading_units: (
        Annotated[float, Number("ΣLU", help="Loading units together, by the method's table.")]
        | None
    ) = None
    units_in_force: (
        Annotated[bool, Flag(help="Whether that table is in force on the date.")] | None
    ) = None


class StoreOutputs(Item):
    """What arrives at the store."""

    available_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "q_a",
            "l/min",
            help="Largest flow at its inlet with the required pressure left; 0: none.",
        ),
    ]
    pressure: Annotated[
        float,
        Quantity("pressure_gauge", "p", "bar", help="Pressure at its inlet at the design flow."),
    ]
    outlet_pressure: Annotated[
        float,
        Quantity("pressure_gauge", "p_2", "bar", help="Pressure behind it at the design flow."),
    ]
    standing_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_0",
            "bar",
            help="Highest pressure it stands at with nothing running, behind its reducing valve; "
            "before any heating up.",
        ),
    ]
    standing_known: Annotated[
        bool,
        Flag(
            help="A night cannot bring more: it was recorded, or a reducing valve holds its setting."
        ),
    ]
    rating_given: Annotated[bool, Flag(help="What it may stand at is given.")]


class OutletOutputs(Item):
    """What arrives at an outlet while the design flow runs."""

    name: Annotated[str, Name(help="Name of the outlet.")]
    flow: Annotated[float, Quantity("volume_flow", "q", "l/min", help="Its flow.")]
    pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p",
            "bar",
            help="Pressure at it, by the lower curve; negative: it cannot have that flow.",
        ),
    ]
    pressure_high: Annotated[
        float, Quantity("pressure_gauge", "p_h", "bar", help="The same by the upper curve.")
    ]
    spare: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_s", "bar", help="Beyond what it needs; negative: missing."
        ),
    ]
    standing_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_0",
            "bar",
            help="Highest pressure it stands at with nothing running; behind a store up to its "
            "expansion valve, where that is given.",
        ),
    ]
    standing_known: Annotated[
        bool,
        Flag(
            help="It cannot be more: a night was recorded, or a reducing valve holds its setting; "
            "behind a store the expansion valve is given, too."
        ),
    ]
    rated: Annotated[bool, Flag(help="What it may stand at is given.")]
    mixer_ratio: (
        Annotated[float, Number("r_m", help="Higher over lower pressure of the mixer's two sides.")]
        | None
    ) = None
    sections: Annotated[list[SectionOutputs], Rows(help="The pipe to it.")]


class Curve(Item):
    """Pressure at the point of test, and at the end of the supply, against flow."""

    flow: Annotated[list[float], Column("volume_flow", "q", "l/min", help="Flow.")]
    pressure: Annotated[
        list[float],
        Column("pressure_gauge", "p", "bar", help="At the point of test, the lower curve."),
    ]
    pressure_high: Annotated[
        list[float], Column("pressure_gauge", "p_h", "bar", help="The same, the upper curve.")
    ]
    end_pressure: Annotated[
        list[float],
        Column("pressure_gauge", "p_e", "bar", help="At the end of the supply, the lower curve."),
    ]
    design_flow: Annotated[
        list[float], Column("volume_flow", "q_d", "l/min", help="The design flow.")
    ]
    design_pressure: Annotated[
        list[float],
        Column("pressure_gauge", "p", "bar", help="From nothing to the end of the supply there."),
    ]


class MainsSupplyOutputs(Outputs):
    """What the main gives and where it goes."""

    tested_flow: Annotated[
        float, Quantity("volume_flow", "q_t", "l/min", help="Largest flow of the test.")
    ]
    tested_drop: Annotated[
        float,
        Quantity("pressure_difference", "Δp_t", "bar", help="Drop from static at that flow."),
    ]
    drop_share: Annotated[float, Number("Δp_t/p_s", help="That drop over the static pressure.")]
    exponent: (
        Annotated[float, Number("n", help="Exponent through the readings, where two ran.")] | None
    ) = None
    exponent_low: Annotated[float, Number("n_1", help="Lowest exponent that is allowed for.")]
    exponent_high: Annotated[float, Number("n_2", help="Highest exponent that is allowed for.")]
    coefficient: Annotated[
        float,
        Number("k", help="k of p = p_s - k q^n at the highest exponent, p in bar and q in l/min."),
    ]
    static_head: Annotated[
        float, Quantity("head", "h_s", "m", help="Head with nothing running, as judged.")
    ]
    reference_head: (
        Annotated[
            float,
            Quantity(
                "head",
                "h_r",
                "m",
                help="Head left at the region's reference flow, as judged; negative: it does not "
                "give that flow.",
            ),
        ]
        | None
    ) = None
    flow_at_residual: Annotated[
        float,
        Quantity(
            "volume_flow",
            "q_1",
            "l/min",
            help="Flow at the point of test with the residual pressure left: lowest of the "
            "exponents and of what the gauge can be read to.",
        ),
    ]
    flow_by_high_exponent: Annotated[
        float,
        Quantity("volume_flow", "q_n2", "l/min", help="The same by the highest exponent alone."),
    ]
    flow_by_low_exponent: Annotated[
        float,
        Quantity("volume_flow", "q_n1", "l/min", help="The same by the lowest exponent alone."),
    ]
    demand: Demand | None = None
    design_flow: Annotated[
        float, Quantity("volume_flow", "q_d", "l/min", help="Flow that is to run at once.")
    ]
    known_flow: Annotated[
        float,
        Quantity("volume_flow", "q_k", "l/min", help="Flow up to which the test can be relied on."),
    ]
    test_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge", "p", "bar", help="Pressure at the point of test at the design flow."
        ),
    ]
    end_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_e",
            "bar",
            help="Pressure at the end of the supply at the design flow, by the lower curve.",
        ),
    ]
    end_pressure_high: Annotated[
        float, Quantity("pressure_gauge", "p_eh", "bar", help="The same by the upper curve.")
    ]
    largest_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "q_m",
            "l/min",
            help="Flow at the end of the supply with no pressure left, by the lower curve.",
        ),
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
    supply_valves_known: Annotated[
        bool,
        Flag(
            help="The loss when open of every reducing valve of the supply is given: at the "
            "largest flows they stand open."
        ),
    ]
    least_spare: (
        Annotated[
            float,
            Quantity(
                "pressure_difference", "Δp_s", "bar", help="Least to spare at any outlet listed."
            ),
        ]
        | None
    ) = None
    supply: Annotated[list[SectionOutputs], Rows(help="Sections of the supply.")]
    store: StoreOutputs | None = None
    outlets: Annotated[list[OutletOutputs], Rows(help="Each outlet.")]
    curve: Curve
