"""What is asked and what is answered about the pressures in a sealed heating system."""

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


class Level(Item):
    """A place in the system: its height, where in the circuit it is, what its parts stand."""

    name: Annotated[str, Name(help="What is there, such as radiators in the loft.")]
    height: Annotated[
        float,
        Quantity(
            "length",
            "h",
            "m",
            low=-50,
            high=50,
            help="Height above the point where the vessel joins; below it is negative.",
        ),
    ]
    position: (
        Annotated[
            float,
            Number(
                "x",
                low=0,
                high=1,
                help="Share of the pump's pressure that is used up from its outlet to here: 0 at "
                "the outlet, 1 at the inlet. Left out: the worst of both.",
            ),
        ]
        | None
    ) = None
    rating: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_r",
                "bar",
                low=0.5,
                high=25,
                help="Lowest working pressure that any part there is rated for, from plates and "
                "leaflets.",
            ),
        ]
        | None
    ) = None


class FillPressureInputs(Inputs):
    """Levels, vessel, pump, gauge and relief valve of a sealed system."""

    levels: Annotated[
        list[Level],
        Rows(low=1, high=60, help="Places of the system, the highest and the lowest among them."),
    ]
    fill_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_fill",
            "degC",
            low=1,
            high=40,
            default_rule="sealed-fill-temperature",
            help="Temperature of the water at filling.",
        ),
    ]
    maximum_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_max",
            "degC",
            low=40,
            high=110,
            help="Highest temperature the water can reach: where the limit of the boiler cuts out, "
            "not the set point of the day.",
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
    pump_head: Annotated[
        float,
        Quantity(
            "head",
            "H",
            "m",
            low=0,
            high=30,
            default=0,
            help="Head of the pump at its highest, as with all valves shut.",
        ),
    ]
    vessel_position: Annotated[
        float,
        Number(
            "s",
            low=0,
            high=1,
            default=1,
            help="Share of the pump's pressure that is used up from its outlet to where the vessel "
            "joins: 1 at the inlet of the pump, 0 at its outlet.",
        ),
    ]
    charge: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_0",
                "bar",
                low=0,
                high=6,
                help="Gas charge of the vessel, with the water side at no pressure. Left out: what "
                "is needed.",
            ),
        ]
        | None
    ) = None
    fill: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_a",
                "bar",
                low=0,
                high=6,
                help="Cold fill where the vessel joins, pump off. Left out, with gauge_reading: "
                "what is needed.",
            ),
        ]
        | None
    ) = None
    gauge_reading: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_g",
                "bar",
                low=0,
                high=10,
                help="What the gauge reads, cold and with the pump off; instead of fill.",
            ),
        ]
        | None
    ) = None
    gauge_height: Annotated[
        float,
        Quantity(
            "length",
            "h_g",
            "m",
            low=-50,
            high=50,
            default=0,
            help="Height of the gauge above the point where the vessel joins; below is negative.",
        ),
    ]
    hot_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_e",
                "bar",
                low=0,
                high=10,
                help="Pressure where the vessel joins, hot and with the pump off, if known.",
            ),
        ]
        | None
    ) = None
    system_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "C",
                "l",
                low=10,
                high=5000,
                help="Content of the system, to work out the hot pressure from the vessel.",
            ),
        ]
        | None
    ) = None
    vessel_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_N",
                "l",
                low=1,
                high=2000,
                help="Size of the vessel, to work out the hot pressure.",
            ),
        ]
        | None
    ) = None
    relief_setting: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_sv",
            "bar",
            low=0.5,
            high=10,
            default_rule="sealed-relief-setting",
            help="Pressure at which the relief valve lifts.",
        ),
    ]
    relief_height: Annotated[
        float,
        Quantity(
            "length",
            "h_sv",
            "m",
            low=-50,
            high=50,
            default=0,
            help="Height of the relief valve above the point where the vessel joins; below is "
            "negative.",
        ),
    ]
    relief_position: (
        Annotated[
            float,
            Number(
                "x_sv",
                low=0,
                high=1,
                help="Share of the pump's pressure that is used up from its outlet to the relief "
                "valve. Left out: the worst of both ends.",
            ),
        ]
        | None
    ) = None
    atmospheric_pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p_atm",
            "bar",
            low=0.7,
            high=1.1,
            default=1.01325,
            help="Pressure of the air; left out, the standard atmosphere of ISO 2533.",
        ),
    ]


class LevelPressures(Item):
    """Gauge pressures at one level."""

    name: Annotated[str, Name(help="Level.")]
    height: Annotated[float, Quantity("length", "h", "m", help="Height above the vessel.")]
    cold: Annotated[float, Quantity("pressure_gauge", "p", "bar", help="Cold, pump off.")]
    cold_pump: Annotated[
        float,
        Quantity("pressure_gauge", "p", "bar", help="Cold, pump on; the least where it is open."),
    ]
    hot: Annotated[float, Quantity("pressure_gauge", "p", "bar", help="Hot, pump off.")] | None = (
        None
    )
    hot_pump: (
        Annotated[
            float,
            Quantity("pressure_gauge", "p", "bar", help="Hot, pump on; the most where it is open."),
        ]
        | None
    ) = None
    lowest: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_min",
            "bar",
            help="Lowest at the cold fill: pump off or on, water cold or just heated.",
        ),
    ]
    at_lift: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_max",
            "bar",
            help="Highest: when the relief valve lifts, with the pump off or on.",
        ),
    ]
    rating: (
        Annotated[float, Quantity("pressure_gauge", "p_r", "bar", help="What its parts stand.")]
        | None
    ) = None


class Profile(Item):
    """Pressures over the height."""

    height: Annotated[list[float], Column("length", "h", "m", help="Height above the vessel.")]
    cold: Annotated[list[float], Column("pressure_gauge", "p", "bar", help="Cold, pump off.")]
    lowest: Annotated[list[float], Column("pressure_gauge", "p_min", "bar", help="Lowest.")]
    at_lift: Annotated[
        list[float],
        Column("pressure_gauge", "p_max", "bar", help="When the relief valve lifts."),
    ]


class FillPressureOutputs(Outputs):
    """What to charge and fill to, and the pressure at every level."""

    static_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_st",
            "bar",
            help="Column of water from the vessel up to the highest level.",
        ),
    ]
    charge_needed: Annotated[
        float,
        Quantity("pressure_gauge", "p_0,min", "bar", help="Least charge to give the vessel."),
    ]
    fill_needed: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_a,min",
            "bar",
            help="Cold fill where the vessel joins: above the charge by what is customary, and enough "
            "at every level with the pump on.",
        ),
    ]
    gauge_needed: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_g,min",
            "bar",
            help="Reading to fill to at the height of the gauge, cold and with the pump off.",
        ),
    ]
    charge: Annotated[
        float, Quantity("pressure_gauge", "p_0", "bar", help="Charge given, or needed.")
    ]
    fill: Annotated[float, Quantity("pressure_gauge", "p_a", "bar", help="Fill given, or needed.")]
    gauge_cold: Annotated[
        float, Quantity("pressure_gauge", "p_g", "bar", help="What the gauge reads at that fill.")
    ]
    hot_pressure: (
        Annotated[
            float,
            Quantity("pressure_gauge", "p_e", "bar", help="Where the vessel joins, hot, pump off."),
        ]
        | None
    ) = None
    gauge_hot: (
        Annotated[
            float, Quantity("pressure_gauge", "p_g", "bar", help="What the gauge reads, hot.")
        ]
        | None
    ) = None
    hot_at_relief: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p",
                "bar",
                help="At the relief valve, hot, with the pump off or on.",
            ),
        ]
        | None
    ) = None
    pump_pressure: Annotated[
        float, Quantity("pressure_difference", "Δp", "bar", help="Pressure of the pump, cold.")
    ]
    saturation_pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p_s",
            "bar",
            help="Absolute pressure at which water of the highest temperature boils.",
        ),
    ]
    least_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_top",
            "bar",
            help="Gauge pressure that keeps water of the highest temperature from boiling.",
        ),
    ]
    ratings_given: Annotated[bool, Flag(help="What the parts stand is given for every level.")]
    hot_known: Annotated[bool, Flag(help="The hot pressure is given or can be worked out.")]
    levels: Annotated[list[LevelPressures], Rows(help="Pressures level by level.")]
    profile: Profile
