"""What is asked and what is answered about the pipes of a heating system."""

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
from tundish_plugins.sealed_heating.piping.contract import (  # noqa: TC001  (read at run time)
    Component,
    Section,
)


class Load(Item):
    """A radiator, coil, manifold or zone at the end of a section."""

    name: Annotated[str, Name(help="Name of the load.")]
    node: Annotated[str, Name(help="Point it is connected to.")]
    power: Annotated[
        float,
        Quantity("power", "Q", "kW", low=0.02, high=500, help="Heat it takes at design."),
    ]
    temperature_drop: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "Δθ",
                "K",
                low=1,
                high=60,
                help="Its own difference of flow and return, if it is not that of the system; properties "
                "of the water stay those of the system.",
            ),
        ]
        | None
    ) = None
    components: Annotated[
        list[Component],
        Rows(low=0, high=20, help="Emitter, coil and valves that only its flow passes."),
    ] = []


class Boiler(Item):
    """The boiler in the circuit."""

    least_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V_min",
                "l/min",
                low=0.1,
                high=500,
                help="Least flow its maker asks for.",
            ),
        ]
        | None
    ) = None
    components: Annotated[
        list[Component],
        Rows(low=0, high=10, help="Its loss, and that of what only the whole flow passes."),
    ] = []


class PumpPoint(Item):
    """One point of the pump's curve."""

    flow: Annotated[
        float, Quantity("volume_flow", "V", "m3/h", low=0, high=100, help="Flow of the point.")
    ]
    head: Annotated[
        float, Quantity("head", "H", "m", low=0, high=40, help="Head of the pump at this flow.")
    ]


class Pump(Item):
    """The pump, by points of one curve."""

    curve_is: Annotated[
        Literal["of-the-pump", "left-by-the-boiler"],
        Choice(
            help="Whose curve it is: the pump's own, or what a boiler with its pump inside leaves "
            "for the pipes, its own loss already taken off."
        ),
    ]
    points: Annotated[
        list[PumpPoint],
        Rows(
            low=2,
            high=40,
            help="Points in order of rising flow, of one speed or of one constant pressure. The "
            "curve is straight between them and is not extended.",
        ),
    ]


class Closing(Item):
    """What happens when the valves close while the boiler still runs."""

    open_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_open",
            "l/min",
            low=0,
            high=1000,
            help="Flow that remains when every valve that can close has closed.",
        ),
    ]
    bypass_setting: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_set",
                "kPa",
                low=1,
                high=200,
                help="Pressure at which the automatic bypass valve opens, if there is one.",
            ),
        ]
        | None
    ) = None


class Header(Item):
    """A low-loss header (hydraulic separator) between boiler and this circuit."""

    primary_flow: Annotated[
        float,
        Quantity(
            "volume_flow", "V_p", "m3/h", low=0.01, high=200, help="Flow on the boiler's side."
        ),
    ]
    boiler_flow_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_b", "degC", low=20, high=110, help="Flow temperature of the boiler."
        ),
    ]


class PrimaryCircuitInputs(Inputs):
    """A heating circuit as a tree of sections from the boiler (or header) to its loads."""

    flow_temperature: Annotated[
        float,
        Quantity("temperature", "θ_f", "degC", low=20, high=110, help="Design flow temperature."),
    ]
    temperature_drop: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ",
            "K",
            low=1,
            high=60,
            help="Design difference of flow and return.",
        ),
    ]
    fluid: Annotated[
        Literal["water", "propylene-glycol", "ethylene-glycol"],
        Choice(default="water", help="What fills the system."),
    ]
    glycol_mass_share: (
        Annotated[float, Number("x", low=0, high=1, help="Share of glycol by mass.")] | None
    ) = None
    glycol_volume_share: (
        Annotated[
            float, Number("φ", low=0, high=1, help="Share of glycol by volume, mixed at 20 °C.")
        ]
        | None
    ) = None
    gradient_limit: Annotated[
        float,
        Quantity(
            "pressure_gradient",
            "R_u",
            "Pa/m",
            low=20,
            high=2000,
            default_rule="heating-gradient-most",
            help="Friction for each metre that the pipes are sized for.",
        ),
    ]
    origin: Annotated[str, Name(default="boiler", help="Point the tree starts from.")]
    sections: Annotated[list[Section], Rows(low=1, high=60, help="Sections of the circuit.")]
    loads: Annotated[list[Load], Rows(low=1, high=40, help="What takes the heat.")]
    boiler: Boiler | None = None
    pump: Pump | None = None
    closing: Closing | None = None
    header: Header | None = None


class Alternative(Item):
    """What another tube would do in a section at the same flow, its fittings as they are."""

    tube: Annotated[str, Text(help="Tube.")]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Mean velocity with it.")]
    gradient: Annotated[
        float,
        Quantity("pressure_gradient", "R", "Pa/m", help="Friction for each metre with it."),
    ]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "kPa", help="Loss of the section with it.")
    ]


class SectionOutputs(Item):
    """What one section does."""

    name: Annotated[str, Name(help="Name of the section.")]
    material: Annotated[str, Text(help="What it is made of.")]
    bore: Annotated[float, Quantity("length", "d", "mm", help="Inside diameter.")]
    power: Annotated[float, Quantity("power", "Q", "kW", help="Heat it carries.")]
    flow: Annotated[float, Quantity("volume_flow", "V", "l/min", help="Flow.")]
    velocity: Annotated[
        float, Quantity("velocity", "w", "m/s", help="Mean velocity at the design flow.")
    ]
    velocity_in_use: Annotated[
        float,
        Quantity(
            "velocity",
            "w_d",
            "m/s",
            help="Velocity at the duty point, where a pump is given and drives more than the "
            "design flow; otherwise as at design.",
        ),
    ]
    reynolds: Annotated[float, Number("Re", help="Reynolds number.")]
    transitional: Annotated[
        bool, Flag(help="The flow lies between laminar and turbulent, where its law is uncertain.")
    ]
    copper: Annotated[bool, Flag(help="It is copper, which fast water wears away.")]
    gradient: Annotated[
        float, Quantity("pressure_gradient", "R", "Pa/m", help="Friction for each metre of pipe.")
    ]
    friction: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_R",
            "kPa",
            help="Friction of pipe, with fittings that are stated as lengths.",
        ),
    ]
    fittings: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_ζ", "kPa", help="Fittings stated as loss coefficients."
        ),
    ]
    components: Annotated[
        float, Quantity("pressure_difference", "Δp_c", "kPa", help="Valves, filters and the like.")
    ]
    drop: Annotated[float, Quantity("pressure_difference", "Δp", "kPa", help="All together.")]
    share: Annotated[float, Number("s", help="Drop over what the pump has to give.")]
    most_power: Annotated[
        float,
        Quantity(
            "power",
            "Q_R",
            "kW",
            help="Heat at which its friction reaches the gradient it is sized for, at the design "
            "difference.",
        ),
    ]
    larger: Alternative | None = None
    smaller: Alternative | None = None


class CircuitOutputs(Item):
    """The way to one load and back."""

    name: Annotated[str, Name(help="Name of the load.")]
    flow: Annotated[float, Quantity("volume_flow", "V", "l/min", help="Its flow.")]
    pipes: Annotated[
        float, Quantity("pressure_difference", "Δp_p", "kPa", help="Sections on its way.")
    ]
    own: Annotated[
        float, Quantity("pressure_difference", "Δp_l", "kPa", help="Emitter, coil and valves.")
    ]
    total: Annotated[
        float, Quantity("pressure_difference", "Δp", "kPa", help="All, without the boiler.")
    ]
    surplus: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_s",
            "kPa",
            help="What its balancing valve has to take away; nothing in the index circuit.",
        ),
    ]
    index: Annotated[bool, Flag(help="It is the index circuit: the one with the largest loss.")]


class PumpOutputs(Item):
    """What the pump does."""

    head_at_design: Annotated[
        float, Quantity("head", "H_p", "m", help="Head of the pump at the design flow.")
    ]
    surplus_head: Annotated[
        float,
        Quantity(
            "head",
            "ΔH",
            "m",
            help="That head less what the index circuit needs; negative: the pump is too weak.",
        ),
    ]
    duty_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_d",
            "m3/h",
            help="Flow at which pump and circuit meet, all branches balanced.",
        ),
    ]
    duty_head: Annotated[float, Quantity("head", "H_d", "m", help="Head there.")]
    duty_over_design: Annotated[float, Number("r", help="Duty flow over design flow.")]


class ClosingOutputs(Item):
    """What is left when the valves close."""

    bypass_fitted: Annotated[bool, Flag(help="An automatic bypass valve is there.")]
    bypass_needed: Annotated[
        bool, Flag(help="Less than the boiler's least flow remains without one.")
    ]
    bypass_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_b",
            "l/min",
            help="Flow that a bypass must pass so that the boiler has its least flow.",
        ),
    ]
    return_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_rb", "degC", help="Return to the boiler while the bypass is open."
        ),
    ]
    pressure_open: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_open",
            "kPa",
            help="Pressure across the bypass with every valve open, at the duty point if there is "
            "a pump.",
        ),
    ]
    pressure_closed: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_closed",
                "kPa",
                help="Pressure the pump leaves across the bypass at the flow that then runs.",
            ),
        ]
        | None
    ) = None


class HeaderOutputs(Item):
    """What mixes in the low-loss header."""

    flow_ratio: Annotated[float, Number("r", help="Flow on the boiler's side over the circuit's.")]
    secondary_flow_temperature: Annotated[
        float, Quantity("temperature", "θ_sf", "degC", help="What flows out to the circuit.")
    ]
    primary_return_temperature: Annotated[
        float, Quantity("temperature", "θ_pr", "degC", help="What returns to the boiler.")
    ]
    return_lift: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ_r",
            "K",
            help="How much warmer that is than the return of the circuit.",
        ),
    ]
    flow_shortfall: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ_f",
            "K",
            help="How much colder the circuit's flow is than the boiler's.",
        ),
    ]


class Curve(Item):
    """Circuit and pump against flow."""

    flow: Annotated[list[float], Column("volume_flow", "V", "m3/h", help="Flow.")]
    circuit_head: Annotated[
        list[float], Column("head", "H", "m", help="Head that the circuit needs, balanced.")
    ]
    pump_head: (
        Annotated[list[float], Column("head", "H_p", "m", help="Head that the pump gives.")] | None
    ) = None


class PrimaryCircuitOutputs(Outputs):
    """Flows, losses, the index circuit and the pump."""

    density: Annotated[
        float, Quantity("density", "ρ", "kg/m3", help="Density at the mean temperature.")
    ]
    viscosity: Annotated[
        float, Quantity("dynamic_viscosity", "μ", "mPa.s", help="Viscosity there.")
    ]
    specific_heat: Annotated[
        float, Quantity("specific_heat", "c_p", "kJ/(kg.K)", help="Specific heat there.")
    ]
    total_power: Annotated[float, Quantity("power", "Q", "kW", help="Heat of all loads.")]
    total_flow: Annotated[float, Quantity("volume_flow", "V", "l/min", help="Flow of all loads.")]
    mass_flow: Annotated[float, Quantity("mass_flow", "m", "kg/s", help="The same as mass.")]
    return_temperature: Annotated[
        float, Quantity("temperature", "θ_r", "degC", help="Return of all loads together.")
    ]
    boiler_flow: Annotated[
        float,
        Quantity(
            "volume_flow", "V_boiler", "l/min", help="Flow through the boiler with all valves open."
        ),
    ]
    index_circuit: Annotated[str, Text(help="The load whose way has the largest loss.")]
    boiler_loss: Annotated[
        float, Quantity("pressure_difference", "Δp_b", "kPa", help="Loss of the boiler.")
    ]
    required_pressure: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp", "kPa", help="What the pump has to give at design flow."
        ),
    ]
    required_head: Annotated[float, Quantity("head", "H", "m", help="The same as head.")]
    sections: Annotated[list[SectionOutputs], Rows(help="Every section.")]
    circuits: Annotated[list[CircuitOutputs], Rows(help="The way to every load.")]
    pump: PumpOutputs | None = None
    closing: ClosingOutputs | None = None
    header: HeaderOutputs | None = None
    curve: Curve
