"""What is asked and what is answered about the expansion of stored hot water."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import Column, Flag, Inputs, Item, Number, Outputs, Quantity


class AirGap(Item):
    """Air kept in the top of the store, in place of a vessel."""

    volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_gap",
                "l",
                low=0.5,
                high=500,
                help="Air when cold, at the pressure before heating, from the store's maker. Left "
                "out: as much as is needed.",
            ),
        ]
        | None
    ) = None
    renewed: Annotated[
        bool,
        Flag(
            help="The air was renewed as the maker says after the last draining, and at the last "
            "service: water dissolves it."
        ),
    ]


class HotWaterExpansionInputs(Inputs):
    """An unvented store, the pressures around it, and its vessel or its air."""

    store_volume: Annotated[
        float,
        Quantity("volume", "V_s", "l", low=5, high=2000, help="Water in the store when cold."),
    ]
    pipe_volume: Annotated[
        float,
        Quantity(
            "volume",
            "V_p",
            "l",
            low=0,
            high=500,
            default=0,
            help="Hot water in pipes that warms with the store, such as a circulation circuit.",
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
            help="Cold water that fills the store.",
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
            help="Highest temperature of the store in use.",
        ),
    ]
    supply_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_c",
            "bar",
            low=0.5,
            high=10,
            help="Pressure behind the reducing valve, with no flow.",
        ),
    ]
    static_rise: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_r",
            "bar",
            low=0,
            high=10,
            default=0,
            help="Further rise while nothing flows, before any heating: a reducing valve that "
            "creeps, or a main that rises at night.",
        ),
    ]
    reducing_valve_height: Annotated[
        float,
        Quantity(
            "length",
            "h",
            "m",
            low=-30,
            high=30,
            default=0,
            help="Height of the reducing valve above the expansion valve; below it, negative.",
        ),
    ]
    expansion_valve: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_ev",
            "bar",
            low=1,
            high=15,
            help="Setting of the expansion valve.",
        ),
    ]
    relief_valve: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_tp",
            "bar",
            low=1,
            high=15,
            help="Pressure setting of the temperature and pressure relief valve.",
        ),
    ]
    store_rating: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_r",
            "bar",
            low=1,
            high=20,
            help="Highest working pressure of the store, from its plate.",
        ),
    ]
    atmospheric_pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p_atm",
            "bar",
            low=0.7,
            high=1.1,
            default=1.01325,
            help="Pressure of the air.",
        ),
    ]
    vessel_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_N",
                "l",
                low=0.5,
                high=500,
                help="Size of the drinking-water vessel that is there, or planned.",
            ),
        ]
        | None
    ) = None
    vessel_charge: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_0",
                "bar",
                low=0,
                high=10,
                help="Charge read at that vessel with its water side open. Left out: as the pressure "
                "before heating.",
            ),
        ]
        | None
    ) = None
    vessel_rating: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_N",
                "bar",
                low=1,
                high=25,
                help="Highest working pressure of that vessel, from its plate.",
            ),
        ]
        | None
    ) = None
    air_gap: AirGap | None = None


class Curve(Item):
    """Pressure of the store as it heats up, with charge or air as it is and with half of it lost."""

    temperature: Annotated[
        list[float], Column("temperature", "θ", "degC", help="Store temperature.")
    ]
    pressure: Annotated[
        list[float],
        Column("pressure_gauge", "p", "bar", help="With the charge, or the air, as it is."),
    ]
    half_charge: Annotated[
        list[float], Column("pressure_gauge", "p", "bar", help="With half of it lost.")
    ]


class HotWaterExpansionOutputs(Outputs):
    """Expansion, the vessel it needs, and what a vessel does."""

    expansion_fraction: Annotated[float, Number("e", help="Gain for each litre, of the method.")]
    expansion_volume: Annotated[
        float,
        Quantity(
            "volume",
            "ΔV",
            "l",
            help="Water gained in one heat-up: what drips without a vessel.",
        ),
    ]
    static_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_a",
            "bar",
            help="Pressure at the expansion valve before heating: supply, height and rise.",
        ),
    ]
    expansion_above_static: Annotated[
        float,
        Quantity("pressure_difference", "Δp", "bar", help="From there up to the expansion valve."),
    ]
    relief_above_expansion: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp",
            "bar",
            help="From the expansion valve up to the relief valve.",
        ),
    ]
    expansion_valve_first: Annotated[
        bool, Flag(help="The expansion valve is set below the relief valve.")
    ]
    final_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_e", "bar", help="Highest pressure to size for.")
    ]
    acceptance: Annotated[float, Number("η", help="Share of vessel or air gap that takes water.")]
    size_needed: Annotated[
        float,
        Quantity(
            "volume", "V_N", "l", help="Least nominal volume of the vessel, or least air when cold."
        ),
    ]
    relief_above_static: Annotated[
        bool, Flag(help="The relief valve is set above the pressure before heating.")
    ]
    vessel_given: Annotated[
        bool, Flag(help="A vessel, or the air of the store, was given, and is judged.")
    ]
    vessel: (
        Annotated[float, Quantity("volume", "V_N", "l", help="Vessel or air given, when cold.")]
        | None
    )
    vessel_charge: (
        Annotated[float, Quantity("pressure_gauge", "p_0", "bar", help="Charge of the vessel.")]
        | None
    )
    hot_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_h",
                "bar",
                help="Pressure when hot, were the valve to stay shut.",
            ),
        ]
        | None
    )
    valve_lifts: Annotated[bool, Flag(help="The expansion valve lifts on heating up.")] | None
    water_lost: (
        Annotated[float, Quantity("volume", "V_l", "l", help="Water discharged at each heat-up.")]
        | None
    )
    curve: Curve | None
