"""What is asked and what is answered about a condensate pump."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
    Choice,
    Column,
    Flag,
    Inputs,
    Item,
    Number,
    Outputs,
    Quantity,
    Rows,
)


class PumpPoint(Item):
    """One point of the pump's curve."""

    flow: Annotated[
        float, Quantity("volume_flow", "V", "l/h", low=0, high=5000, help="Flow of the point.")
    ]
    head: Annotated[
        float, Quantity("head", "H", "m", low=0, high=30, help="Head of the pump at this flow.")
    ]


class Relief(Item):
    """A relief valve that somebody wants to lead into the pump."""

    heat_input: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "P",
            "kW",
            low=1,
            high=100,
            help="Full heat input of the boiler, hot water included: the valve relieves it as "
            "steam.",
        ),
    ]
    set_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge", "p_set", "bar", low=1, high=10, help="Pressure at which it lifts."
        ),
    ]
    rated_discharge: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_v",
                "kW",
                low=1,
                high=1000,
                help="Heat that the valve is rated to relieve as steam, from its plate or leaflet.",
            ),
        ]
        | None
    ) = None
    seat_bore: (
        Annotated[
            float,
            Quantity("length", "d_0", "mm", low=3, high=50, help="Bore of the valve's seat."),
        ]
        | None
    ) = None
    water_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_w",
                "degC",
                low=10,
                high=95,
                help="Heating water that a circuit without a working vessel pushes out, little by "
                "little, each time it heats up.",
            ),
        ]
        | None
    ) = None


class Neutraliser(Item):
    """A bed of limestone between pump and outlet, which the pump presses the condensate through."""

    bed_length: Annotated[
        float, Quantity("length", "L_b", "mm", low=20, high=3000, help="Length of the bed.")
    ]
    bed_diameter: Annotated[
        float,
        Quantity("length", "D_b", "mm", low=20, high=600, help="Diameter of the vessel, inside."),
    ]
    grain_size: Annotated[
        float, Quantity("length", "d_p", "mm", low=0.5, high=50, help="Size of the grains.")
    ]
    void_fraction: Annotated[
        float,
        Number(
            "ε_b",
            low=0.2,
            high=0.8,
            help="Share of the bed between the grains: about 0.4 of chips that are all alike, less "
            "of mixed sizes.",
        ),
    ]


class Measurement(Item):
    """Condensate caught and measured while the boiler fires steadily."""

    flow: Annotated[
        float,
        Quantity("volume_flow", "V_m", "l/h", low=0.05, high=100, help="Flow that was measured."),
    ]
    heat_input: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "Q_m",
            "kW",
            low=1,
            high=100,
            help="Heat input at which the boiler fired meanwhile, from the gas meter: natural gas.",
        ),
    ]


class PumpHeadInputs(Inputs):
    """A pump, its discharge tube, and what flows into it."""

    inflow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V_in",
                "l/h",
                low=0.05,
                high=100,
                help="Greatest condensate flow, if it is known. Otherwise give the heat input.",
            ),
        ]
        | None
    ) = None
    heat_input: (
        Annotated[
            Based,
            Quantity(
                {"net": "heat_input_net", "gross": "heat_input_gross"},
                "Q",
                "kW",
                low=1,
                high=100,
                help="Heat input of the boiler, net or gross: the condensate is reckoned from it.",
            ),
        ]
        | None
    ) = None
    measurement: Measurement | None = None
    static_lift: Annotated[
        float,
        Quantity(
            "length",
            "H_s",
            "m",
            low=0,
            high=20,
            example=2,
            help="Lift from the water level in the tank, at the float, to the highest point.",
        ),
    ]
    tube_bore: Annotated[
        float, Quantity("length", "d", "mm", low=3, high=50, help="Bore (inside) of the tube.")
    ]
    tube_length: Annotated[
        float, Quantity("length", "L", "m", low=0.1, high=100, help="Length of the tube.")
    ]
    tube_material: Annotated[
        Literal["plastic", "stainless-steel", "copper", "steel"],
        Choice(help="Material of the tube: condensate is acid.", default="plastic"),
    ]
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
    fittings_loss: Annotated[
        float,
        Number("Σζ", low=0, high=100, default=0, help="Sum of the loss coefficients of fittings."),
    ]
    hottest_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_h",
            "degC",
            low=1,
            high=95,
            help="Hottest water that flows in during use, other discharges included. There is no "
            "default.",
        ),
    ]
    coldest_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_c",
            "degC",
            low=1,
            high=95,
            default=1,
            help="Coldest water in the tube: the thickest, with which the flow is reckoned. If it "
            "is not given, water about to freeze.",
        ),
    ]
    pump_temperature_limit: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_max",
            "degC",
            low=20,
            high=160,
            help="Hottest water the pump's maker allows. There is no default.",
        ),
    ]
    pump_curve: Annotated[
        list[PumpPoint],
        Rows(low=3, high=30, help="Points of the pump's curve from shut-off: flow up, head down."),
    ]
    switching_volume: Annotated[
        float,
        Quantity(
            "volume", "V_s", "l", low=0.02, high=20, help="Volume between pump on and pump off."
        ),
    ]
    reserve_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_r",
                "l",
                low=0.02,
                high=20,
                help="Volume between pump on and the alarm level.",
            ),
        ]
        | None
    ) = None
    non_return_valve: Annotated[
        bool, Flag(help="A non-return valve keeps the tube from draining back.")
    ]
    alarm_interlock: Annotated[
        bool, Flag(help="The boiler is wired through the pump's alarm contact and stops with it.")
    ]
    neutraliser: Neutraliser | None = None
    relief: Relief | None = None


class Curve(Item):
    """The pump's curve and the head that the tube asks for."""

    flow: Annotated[list[float], Column("volume_flow", "V", "l/h", help="Flow.")]
    pump_head: Annotated[list[float], Column("head", "H_p", "m", help="Head the pump gives.")]
    system_head: Annotated[list[float], Column("head", "H", "m", help="Head the tube asks for.")]


class ReliefOutputs(Item):
    """What the relief valve would send."""

    steam_flow: Annotated[float, Quantity("mass_flow", "m", "kg/h", help="Steam relieved.")]
    temperature: Annotated[
        float, Quantity("temperature", "θ_sat", "degC", help="Temperature of the relieved steam.")
    ]
    water_flow: Annotated[
        float,
        Quantity("volume_flow", "V_w", "l/h", help="Water at 95 degC that its seat can pass."),
    ]
    seat_known: Annotated[
        bool,
        Flag(
            help="The rating or the bore of the valve was given. If not, the seat is the least that "
            "relieves the heat, and the real one may pass more."
        ),
    ]
    over_pump: Annotated[float, Number("r", help="That water over the flow of the pump.")]
    flash_share: Annotated[
        float, Number("x", help="Share of water at the lifting pressure that turns to steam.")
    ]
    overflow_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_v",
                "s",
                help="Time in which that water fills the reserve with the pump standing.",
            ),
        ]
        | None
    ) = None
    expansion_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V_β",
                "l/h",
                help="Water pushed out while the boiler heats and the vessel takes none.",
            ),
        ]
        | None
    ) = None


class NeutraliserOutputs(Item):
    """What the bed does."""

    head: Annotated[
        float, Quantity("head", "H_b", "m", help="Head lost in the clean bed at the duty flow.")
    ]
    velocity: Annotated[
        float, Quantity("velocity", "w_b", "m/s", help="Velocity in the empty vessel there.")
    ]
    contact_time: Annotated[
        float,
        Quantity("time", "t_b", "min", help="Time the condensate spends in the bed, on the whole."),
    ]


class MeasurementOutputs(Item):
    """What the measured flow says."""

    ceiling: Annotated[
        float,
        Quantity("volume_flow", "V_max", "l/h", help="Most condensate the gas can make meanwhile."),
    ]


class PumpHeadOutputs(Outputs):
    """The duty point and what it means, with the coldest water."""

    inflow: Annotated[
        float,
        Quantity(
            "volume_flow", "V_in", "l/h", help="Water to be lifted: no less than was measured."
        ),
    ]
    measurement: MeasurementOutputs | None = None
    duty_flow: Annotated[
        float, Quantity("volume_flow", "V_p", "l/h", help="Flow at which pump and tube agree.")
    ]
    duty_head: Annotated[float, Quantity("head", "H_p", "m", help="Head of the pump there.")]
    friction_head: Annotated[
        float, Quantity("head", "H_f", "m", help="Head lost by friction there, in a bed too.")
    ]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Velocity there.")]
    reynolds: Annotated[float, Number("Re", help="Reynolds number there.")]
    transitional: Annotated[
        bool,
        Flag(
            help="Between the coldest and the hottest water the duty lies where laminar flow breaks "
            "up: the flow there is uncertain."
        ),
    ]
    judged_flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_j",
            "l/h",
            help="Flow the margin is judged on: with the larger friction where it is uncertain.",
        ),
    ]
    flow_margin: Annotated[float, Number("m", help="Judged flow over inflow.")]
    shut_off_head: Annotated[float, Quantity("head", "H_0", "m", help="Head at no flow.")]
    run_time: Annotated[float, Quantity("time", "t_on", "s", help="Run time of one cycle.")]
    rest_time: Annotated[float, Quantity("time", "t_off", "min", help="Rest between two runs.")]
    starts: Annotated[float, Quantity("frequency", "n", "1/h", help="Starts an hour.")]
    run_share: Annotated[float, Number("τ", help="Share of the time that the pump runs.")]
    drain_back: Annotated[
        float, Quantity("volume", "V_b", "l", help="Content of the tube, which can drain back.")
    ]
    power_cut_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t_r",
                "min",
                help="Time to the alarm level when the pump stands and the boiler runs.",
            ),
        ]
        | None
    ) = None
    neutraliser: NeutraliserOutputs | None = None
    takes_relief: Annotated[bool, Flag(help="A relief valve is led into the pump.")]
    relief: ReliefOutputs | None = None
    curve: Curve
