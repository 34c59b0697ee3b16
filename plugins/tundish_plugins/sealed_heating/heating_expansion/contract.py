"""What is asked and what is answered about the expansion of a sealed heating system."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Column,
    Flag,
    Inputs,
    Item,
    Number,
    Outputs,
    Quantity,
)


class HeatingExpansionInputs(Inputs):
    """A sealed system: its content, temperatures, heights, pressures, and perhaps its vessel."""

    system_volume: Annotated[
        float,
        Quantity(
            "volume",
            "C",
            "l",
            low=10,
            high=5000,
            help="Content of the whole primary system when cold: boiler, pipes, emitters, coil.",
        ),
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
            help="Highest temperature the content can reach: where the limit of the boiler cuts "
            "out, not the set point of the day.",
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
    height: Annotated[
        float,
        Quantity(
            "length",
            "h",
            "m",
            low=0,
            high=50,
            help="Height of the highest point of the system above the vessel, which joins near the "
            "inlet of the pump.",
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
            help="Height of the relief valve above the vessel; below it is negative. No part is "
            "higher than the highest point.",
        ),
    ]
    gauge_height: Annotated[
        float,
        Quantity(
            "length",
            "h_g",
            "m",
            low=-50,
            high=50,
            default=0,
            help="Height of the gauge above the vessel; below it is negative. No part is higher "
            "than the highest point.",
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
                help="Gas charge to design for, with the water side at no pressure. Left out: "
                "static pressure and a supplement that goes by the highest temperature; with "
                "ashrae, the fill.",
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
                help="Cold fill at the vessel. Left out: the charge and a supplement; with ashrae, "
                "a charge that is given.",
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
    component_rating: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_r",
            "bar",
            low=0.5,
            high=25,
            help="Lowest working pressure that any part is rated for, from plates and leaflets: "
            "boiler, vessel, emitters, valves, coil of the store.",
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
            help="Pressure of the air; left out, the standard atmosphere of ISO 2533. The British "
            "table keeps its own 1.0 bar.",
        ),
    ]
    pipe_material: Annotated[
        Literal["copper", "steel"],
        Choice(
            default="copper",
            help="Pipes whose stretch the ashrae basis deducts from its published size.",
        ),
    ]
    uncontrolled_heat_source: Annotated[
        bool,
        Flag(
            default=False, help="A solid-fuel or other source without a control heats the system."
        ),
    ]
    vessel_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_N",
                "l",
                low=1,
                high=2000,
                help="Size of the vessel that is there, or planned. Left out: a size is worked "
                "out, and no vessel is judged.",
            ),
        ]
        | None
    ) = None
    vessel_charge: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_c",
                "bar",
                low=0,
                high=6,
                help="Charge read at that vessel with the water side at no pressure. Left out: the "
                "charge of the design.",
            ),
        ]
        | None
    ) = None


class Curve(Item):
    """Reading of the gauge from cold to hot, with the charge as it is and with it lost."""

    temperature: Annotated[
        list[float], Column("temperature", "θ", "degC", help="Mean temperature.")
    ]
    gauge: Annotated[
        list[float], Column("pressure_gauge", "p", "bar", help="Reading with the charge as it is.")
    ]
    half_charge: Annotated[
        list[float], Column("pressure_gauge", "p", "bar", help="Reading with half the charge lost.")
    ]
    no_charge: Annotated[
        list[float], Column("pressure_gauge", "p", "bar", help="Reading with the charge all lost.")
    ]


class HeatingExpansionOutputs(Outputs):
    """Size needed, and what the vessel does."""

    expansion_fraction: Annotated[float, Number("e", help="Gain for each litre filled.")]
    expansion_volume: Annotated[
        float, Quantity("volume", "ΔV", "l", help="Water that the content gains.")
    ]
    static_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_st", "bar", help="Column of water above the vessel.")
    ]
    charge_customary: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_0,min",
            "bar",
            help="Column of water and the supplement that goes by the highest temperature.",
        ),
    ]
    charge: Annotated[float, Quantity("pressure_gauge", "p_0", "bar", help="Charge designed for.")]
    fill: Annotated[float, Quantity("pressure_gauge", "p_a", "bar", help="Cold fill.")]
    relief_at_vessel: Annotated[
        float,
        Quantity(
            "pressure_gauge", "p_sv", "bar", help="Pressure at the vessel when the valve lifts."
        ),
    ]
    final_pressure: Annotated[
        float, Quantity("pressure_gauge", "p_e", "bar", help="Highest hot pressure of the method.")
    ]
    reserve: (
        Annotated[float, Quantity("volume", "V_R", "l", help="Water held in reserve when cold.")]
        | None
    ) = None
    basis_size: Annotated[
        float, Quantity("volume", "V_p", "l", help="Size by the published basis alone.")
    ]
    boyle_size: Annotated[
        float,
        Quantity(
            "volume",
            "V_B",
            "l",
            help="Size at which the hot pressure is the final pressure, by Boyle's law with this "
            "charge and fill.",
        ),
    ]
    size_needed: Annotated[
        float,
        Quantity(
            "volume", "V_N", "l", help="Least nominal volume of the vessel: the larger of the two."
        ),
    ]
    vessel_given: Annotated[
        bool, Flag(help="A vessel was given, so that what it does is worked out.")
    ]
    vessel_charge: Annotated[
        float,
        Quantity(
            "pressure_gauge", "p_c", "bar", help="Charge that was read, or that is designed for."
        ),
    ]
    gas_volume_cold: (
        Annotated[float, Quantity("volume", "V_g", "l", help="Gas in the vessel after filling.")]
        | None
    ) = None
    hot_pressure: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_max",
                "bar",
                help="Pressure at the vessel at the highest temperature, were the valve to stay "
                "shut.",
            ),
        ]
        | None
    ) = None
    gauge_cold: Annotated[
        float, Quantity("pressure_gauge", "p", "bar", help="Reading of the gauge, cold.")
    ]
    gauge_hot: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p",
                "bar",
                help="Reading of the gauge, hot; the valve holds it.",
            ),
        ]
        | None
    ) = None
    relief_lifts: (
        Annotated[bool, Flag(help="The relief valve lifts before the highest temperature.")] | None
    ) = None
    safe_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_sv",
                "degC",
                help="Temperature up to which the relief valve stays shut, no further than the "
                "highest.",
            ),
        ]
        | None
    ) = None
    water_lost: (
        Annotated[
            float, Quantity("volume", "V_l", "l", help="Water discharged on the first heat-up.")
        ]
        | None
    ) = None
    water_left: (
        Annotated[
            float,
            Quantity(
                "volume", "V_w", "l", help="Water in the vessel when cold again; negative: short."
            ),
        ]
        | None
    ) = None
    keeps_water: (
        Annotated[bool, Flag(help="The vessel still holds water when cold again.")] | None
    ) = None
    top_pressure_cold: Annotated[
        float,
        Quantity("pressure_gauge", "p_top", "bar", help="Pressure at the highest point, cold."),
    ]
    saturation_pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p_s",
            "bar",
            help="Absolute pressure at which water of the highest temperature boils; mixtures with "
            "glycol boil later.",
        ),
    ]
    top_pressure_least: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_top,min",
            "bar",
            help="Pressure that keeps such water from boiling at the highest point; below nothing, "
            "the air alone does.",
        ),
    ]
    pressure_at_lift: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_lift",
            "bar",
            help="Pressure at the lowest of vessel, gauge and relief valve when the valve lifts.",
        ),
    ]
    curve: Curve | None = None
