"""What is asked and what is answered about balancing radiators."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
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


class ValvePoint(Item):
    """One setting of a valve and what it passes there."""

    setting: Annotated[
        float,
        Number("s", low=0, high=100, help="Setting: turns open, or the number on the valve."),
    ]
    kv: Annotated[
        float,
        Quantity(
            "volume_flow",
            "K_v",
            "m3/h",
            low=0.0005,
            high=50,
            help="Kv there: flow of cold water that it passes at 1 bar.",
        ),
    ]


class Valve(Item):
    """The valve that balances a radiator."""

    points: Annotated[
        list[ValvePoint],
        Rows(
            low=2,
            high=20,
            help="Settings from the least to fully open, from the maker. Between them the Kv is "
            "taken on a straight line.",
        ),
    ]
    set_to: (
        Annotated[
            float,
            Number("s_0", low=0, high=100, help="Setting as found; fully open if not given."),
        ]
        | None
    ) = None


class Radiator(Item):
    """A radiator at the end of a section."""

    name: Annotated[str, Name(help="Name of the radiator or its room.")]
    node: Annotated[str, Name(help="Point it is connected to.")]
    heat_load: Annotated[
        float,
        Quantity("power", "Q", "W", low=20, high=50000, help="Heat its room needs from it."),
    ]
    room_temperature: Annotated[
        float,
        Quantity("temperature", "θ_i", "degC", low=5, high=35, help="Temperature of its room."),
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
    exponent: Annotated[
        float,
        Number(
            "n",
            low=1,
            high=1.6,
            help="Exponent of its output, from the maker: panels come to about 1.3, convectors "
            "higher, towel rails lower.",
        ),
    ]
    rated_output: (
        Annotated[
            float,
            Quantity(
                "power",
                "Q_50",
                "W",
                low=20,
                high=50000,
                help="Its rating at 75/65/20 °C. Without it the radiator is taken to give exactly "
                "its heat load at the design temperatures.",
            ),
        ]
        | None
    ) = None
    components: Annotated[
        list[Component],
        Rows(low=0, high=10, help="Its own loss, and valves that stay as they are."),
    ] = []
    valve: Valve


class PumpPoint(Item):
    """One point of the pump's curve."""

    flow: Annotated[
        float, Quantity("volume_flow", "V", "m3/h", low=0, high=100, help="Flow of the point.")
    ]
    head: Annotated[
        float,
        Quantity(
            "head",
            "H",
            "m",
            low=0,
            high=40,
            help="Head at this flow where the tree starts, the boiler's loss taken off.",
        ),
    ]


class RadiatorBalancingInputs(Inputs):
    """Radiators side by side on a tree of pipes."""

    flow_temperature: Annotated[
        float,
        Quantity("temperature", "θ_f", "degC", low=20, high=100, help="Flow temperature."),
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
    origin: Annotated[str, Name(default="boiler", help="Point the tree starts from.")]
    sections: Annotated[
        list[Section], Rows(low=1, high=60, help="Sections, the tails of radiators included.")
    ]
    radiators: Annotated[list[Radiator], Rows(low=1, high=40, help="The radiators.")]
    available_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_0",
                "kPa",
                low=0.1,
                high=200,
                help="Pressure held where the tree starts. Without it, and without a pump, it is "
                "what the index radiator needs.",
            ),
        ]
        | None
    ) = None
    pump_curve: (
        Annotated[
            list[PumpPoint],
            Rows(
                low=2,
                high=40,
                help="Points of the pump in order of rising flow, of one speed or of one constant "
                "pressure. The curve is straight between them and is not extended.",
            ),
        ]
        | None
    ) = None


class State(Item):
    """A radiator with its valve in one position, all others in theirs."""

    kv: Annotated[float, Quantity("volume_flow", "K_v", "m3/h", help="Kv of its valve.")]
    flow: Annotated[float, Quantity("volume_flow", "V", "l/h", help="Flow.")]
    share: Annotated[float, Number("r", help="Flow over design flow.")]
    return_temperature: Annotated[float, Quantity("temperature", "θ_r", "degC", help="Its return.")]
    temperature_drop: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ",
            "K",
            help="Difference of flow and return, to be felt or measured at its pipes.",
        ),
    ]
    output: Annotated[float, Quantity("power", "Q", "W", help="Heat it gives.")]


class RadiatorOutputs(Item):
    """What one radiator needs and gets."""

    name: Annotated[str, Name(help="Name of the radiator.")]
    flow: Annotated[float, Quantity("volume_flow", "V", "l/h", help="Design flow.")]
    pipes: Annotated[
        float,
        Quantity("pressure_difference", "Δp_p", "kPa", help="Pipes on its way, at design flow."),
    ]
    own: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_l", "kPa", help="Itself and valves that stay as they are."
        ),
    ]
    valve: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_v", "kPa", help="What its balancing valve has to take away."
        ),
    ]
    open_total: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp", "kPa", help="Loss of its whole way with the valve open."
        ),
    ]
    index: Annotated[bool, Flag(help="It is the index radiator: the one with the largest loss.")]
    kv_needed: Annotated[
        float, Quantity("volume_flow", "K_v,n", "m3/h", help="Kv that its valve needs.")
    ]
    valve_least: Annotated[
        float, Quantity("volume_flow", "K_v,1", "m3/h", help="Least Kv that its valve has.")
    ]
    setting: Annotated[
        float,
        Number("s", help="Setting for it; the least one where the valve does not throttle enough."),
    ]
    as_found: State
    balanced: State


class Whole(Item):
    """All radiators together."""

    pressure: Annotated[
        float,
        Quantity("pressure_difference", "Δp_0", "kPa", help="Pressure where the tree starts."),
    ]
    flow: Annotated[float, Quantity("volume_flow", "V", "l/h", help="Flow.")]
    return_temperature: Annotated[
        float, Quantity("temperature", "θ_r", "degC", help="All returns mixed.")
    ]
    output: Annotated[float, Quantity("power", "Q", "kW", help="Heat given.")]
    least_share: Annotated[
        float, Number("r_min", help="Flow over design flow of the radiator that gets least.")
    ]


class RadiatorBalancingOutputs(Outputs):
    """Design flows, settings, and what flows before and after."""

    density: Annotated[
        float, Quantity("density", "ρ", "kg/m3", help="Density at the mean temperature.")
    ]
    total_flow: Annotated[
        float, Quantity("volume_flow", "V", "l/h", help="Design flow of all radiators.")
    ]
    return_temperature: Annotated[
        float, Quantity("temperature", "θ_r", "degC", help="Design returns mixed.")
    ]
    index_radiator: Annotated[str, Text(help="The radiator whose way has the largest loss.")]
    required_pressure: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp",
            "kPa",
            help="What the index radiator needs where the tree starts, its valve open.",
        ),
    ]
    required_head: Annotated[float, Quantity("head", "H", "m", help="The same as head.")]
    pressure_at_design: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_d",
                "kPa",
                help="What is there at the design flow, where it is given.",
            ),
        ]
        | None
    ) = None
    settings_stated: Annotated[
        bool,
        Flag(
            help="A setting as found is stated; valves without one are taken as fully open before "
            "they are set."
        ),
    ]
    radiators: Annotated[list[RadiatorOutputs], Rows(help="Every radiator.")]
    as_found: Whole
    balanced: Whole
