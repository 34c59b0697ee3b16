"""What is asked and what is answered about a secondary circulation."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import Column, Flag, Inputs, Item, Name, Number, Outputs, Quantity, Rows, Text
from tundish_plugins.hot_water.tubes import Tube


class PipeInsulation(Item):
    """Insulation of a pipe."""

    thickness: Annotated[
        float, Quantity("length", "s", "mm", low=3, high=150, help="Thickness of the insulation.")
    ]
    conductivity: Annotated[
        float,
        Quantity(
            "thermal_conductivity",
            "λ",
            "W/(m.K)",
            low=0.01,
            high=0.2,
            help="Conductivity of the insulation when warm, from its maker.",
        ),
    ]
    surface_coefficient: Annotated[
        float,
        Quantity(
            "thermal_transmittance",
            "h",
            "W/(m2.K)",
            low=2,
            high=30,
            default_rule="insulation-surface-coefficient",
            help="Heat from the outer surface to the room, for each kelvin.",
        ),
    ]


class Pipe(Tube):
    """A run of one tube. Without insulation and without a known loss it is bare."""

    length: Annotated[
        float, Quantity("length", "L", "m", low=0.1, high=300, help="Length of the run.")
    ]
    insulation: PipeInsulation | None = None
    heat_loss: (
        Annotated[
            float,
            Quantity(
                "linear_heat_flux",
                "q",
                "W/m",
                low=0.1,
                high=200,
                help="Loss for each metre, if it is known at these temperatures.",
            ),
        ]
        | None
    ) = None
    ambient_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_a",
                "degC",
                low=-20,
                high=45,
                help="Air round this run, where it differs from the rest.",
            ),
        ]
        | None
    ) = None
    fittings_loss: Annotated[
        float,
        Number("Σζ", low=0, high=200, default=0, help="Sum of the loss coefficients of fittings."),
    ]


class Section(Item):
    """A flow pipe and the return pipe that comes back beside it."""

    name: Annotated[str, Name(help="Name of the section.")]
    after: (
        Annotated[str, Name(help="Section it goes on from; left out where it starts at the store.")]
        | None
    ) = None
    flow_pipe: Pipe
    return_pipe: Pipe


class CirculationInputs(Inputs):
    """A store, and the pipes that hot water circulates through."""

    outlet_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_out",
            "degC",
            low=40,
            high=90,
            default_rule="circulation-outlet-temperature-least",
            help="Hot water as it leaves the store.",
        ),
    ]
    return_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_ret",
            "degC",
            low=30,
            high=89,
            default_rule="circulation-return-temperature-least",
            help="Circulation wanted back at the store: the flow is found from it.",
        ),
    ]
    ambient_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_a",
            "degC",
            low=-20,
            high=45,
            default=20,
            help="Air round the pipes, where a run has none of its own.",
        ),
    ]
    emissivity: (
        Annotated[
            float,
            Number(
                "ε",
                low=0.02,
                high=1,
                help="Emissivity of bare pipe: 0.05 bright copper, 0.8 dull, 0.95 painted.",
            ),
        ]
        | None
    ) = None
    roughness: Annotated[
        float,
        Quantity(
            "length",
            "k",
            "mm",
            low=0,
            high=0.5,
            default=0.0015,
            help="Roughness of the bores; 0.0015 mm for new copper, more for scaled or steel tube.",
        ),
    ]
    circulation_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V",
                "l/min",
                low=0.05,
                high=200,
                help="Flow through the pump, if it is known; else that for the return wanted.",
            ),
        ]
        | None
    ) = None
    check_valve_drop: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_cv",
            "kPa",
            low=0,
            high=50,
            default_rule="circulation-check-valve-drop",
            help="Pressure that the check valve of the circulation takes.",
        ),
    ]
    other_drop: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_x",
            "kPa",
            low=0,
            high=200,
            default=0,
            help="Pressure that heater, meter or balancing valve of the longest way take.",
        ),
    ]
    pump_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_difference",
                "Δp_p",
                "kPa",
                low=0.1,
                high=500,
                help="What the pump gives at this flow, from its curve.",
            ),
        ]
        | None
    ) = None
    balancing_valves: Annotated[
        bool,
        Flag(help="Each branch has a balancing valve, set and checked.", default=False),
    ]
    sections: Annotated[
        list[Section], Rows(low=1, high=40, help="Sections, flow and return side by side.")
    ]


class PipeOutputs(Item):
    """One pipe of a section."""

    heat_loss: Annotated[
        float, Quantity("linear_heat_flux", "q", "W/m", help="Loss for each metre.")
    ]
    loss: Annotated[float, Quantity("power", "Q", "W", help="Loss of the run.")]
    guide_loss: (
        Annotated[
            float,
            Quantity("linear_heat_flux", "q_g", "W/m", help="The same at the guide's condition."),
        ]
        | None
    )
    given_loss: (
        Annotated[float, Quantity("linear_heat_flux", "q", "W/m", help="The loss given.")] | None
    )
    least_loss: (
        Annotated[
            float,
            Quantity(
                "linear_heat_flux",
                "q_min",
                "W/m",
                help="Loss with the best insulation, where the loss is given.",
            ),
        ]
        | None
    )
    guide_limit: (
        Annotated[
            float,
            Quantity("linear_heat_flux", "q_max", "W/m", help="Most that the guide allows there."),
        ]
        | None
    )
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Velocity.")]
    reynolds: Annotated[float, Number("Re", help="Reynolds number.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "kPa", help="Friction and fittings.")
    ]


class SectionOutputs(Item):
    """One section."""

    name: Annotated[str, Name(help="Name of the section.")]
    flow: Annotated[
        float, Quantity("volume_flow", "V", "l/min", help="Flow to be set for this section.")
    ]
    end_temperature: Annotated[
        float, Quantity("temperature", "T_e", "degC", help="Hot water at the far end.")
    ]
    back_temperature: Annotated[
        float, Quantity("temperature", "T_b", "degC", help="Circulation back at the near end.")
    ]
    flow_pipe: PipeOutputs
    return_pipe: PipeOutputs


class Branch(Item):
    """A whole way out to one far end and back."""

    name: Annotated[str, Name(help="Section at its far end.")]
    flow: Annotated[
        float, Quantity("volume_flow", "V", "l/min", help="Flow to be set in this branch.")
    ]
    far_temperature: Annotated[
        float, Quantity("temperature", "T_far", "degC", help="Hot water at the far end.")
    ]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "kPa", help="Friction out and back.")
    ]
    balancing_drop: Annotated[
        float,
        Quantity(
            "pressure_difference", "Δp_b", "kPa", help="What its balancing valve takes at its flow."
        ),
    ]
    distance: Annotated[
        list[float], Column("length", "x", "m", help="Way from the store, out and back.")
    ]
    temperature: Annotated[list[float], Column("temperature", "T", "degC", help="Water there.")]


class CirculationOutputs(Outputs):
    """Loss, flow, pump and temperatures."""

    loss: Annotated[float, Quantity("power", "Q", "W", help="Loss of all pipes.")]
    flow_loss: Annotated[float, Quantity("power", "Q_f", "W", help="Part of the flow pipes.")]
    return_loss: Annotated[float, Quantity("power", "Q_r", "W", help="Part of the return pipes.")]
    daily_loss: Annotated[float, Quantity("energy", "Q_d", "kWh", help="Loss in a day, all hours.")]
    yearly_loss: Annotated[float, Quantity("energy", "Q_y", "kWh", help="Loss in 365 days.")]
    circulation_flow: Annotated[
        float, Quantity("volume_flow", "V", "l/min", help="Flow through the pump.")
    ]
    mass_flow: Annotated[float, Quantity("mass_flow", "m", "kg/h", help="The same by mass.")]
    return_temperature: Annotated[
        float, Quantity("temperature", "T_r", "degC", help="Circulation back at the store.")
    ]
    temperature_drop: Annotated[
        float, Quantity("temperature_difference", "ΔT", "K", help="Outlet less return.")
    ]
    pump_pressure: Annotated[
        float, Quantity("pressure_difference", "Δp_p", "kPa", help="What the pump must give.")
    ]
    pump_head: Annotated[float, Quantity("head", "H", "m", help="The same as head.")]
    highest_velocity: Annotated[
        float, Quantity("velocity", "w_max", "m/s", help="Highest velocity in any pipe.")
    ]
    branched: Annotated[bool, Flag(help="The circulation has more than one way.")]
    longest_way: Annotated[str, Text(help="Far end of the way with the highest friction.")]
    sections: Annotated[list[SectionOutputs], Rows(help="Each section.")]
    branches: Annotated[list[Branch], Rows(help="Each way out and back.")]
