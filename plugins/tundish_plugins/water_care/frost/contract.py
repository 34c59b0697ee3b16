"""What is asked and what is answered about glycol against frost."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Column, Flag, Inputs, Item, Number, Outputs, Quantity


class Circuit(Item):
    """A pipe of the system, and the flow it carries with plain water."""

    flow: Annotated[
        float,
        Quantity("volume_flow", "V_w", "l/h", low=10, high=20000, help="Flow with plain water."),
    ]
    bore: Annotated[float, Quantity("length", "d", "mm", low=6, high=110, help="Bore of the pipe.")]
    roughness: Annotated[
        float,
        Quantity(
            "length",
            "k",
            "mm",
            low=0,
            high=0.5,
            default=0.0015,
            help="Roughness of its wall: smooth tube 0.0015 mm, steel 0.045 mm.",
        ),
    ]
    temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ",
            "degC",
            low=5,
            high=95,
            help="Mean temperature of the content in it.",
        ),
    ]


class FrostInputs(Inputs):
    """The coldest it gets, the system, and what is in it now."""

    fluid: Annotated[
        Literal["propylene-glycol", "ethylene-glycol"],
        Choice(help="Glycol; the share is of the pure glycol, not of the product."),
    ]
    coldest_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_min",
            "degC",
            low=-40,
            high=0,
            help="Coldest that any part of the system can get.",
        ),
    ]
    margin: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ",
            "K",
            low=1,
            high=20,
            help="By how much the freezing point is to lie below it; at least 1 K, because "
            "published freezing points differ by 0.8 K.",
        ),
    ]
    content: Annotated[
        float, Quantity("volume", "V", "l", low=1, high=10000, help="Content of the system.")
    ]
    present_share: (
        Annotated[
            float,
            Number(
                "φ_0", low=0, high=0.6, help="Share of glycol by volume that is in it, as measured."
            ),
        ]
        | None
    ) = None
    fill_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_f", "degC", low=4, high=40, default=10, help="Filling temperature."
        ),
    ]
    hottest_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_max", "degC", low=20, high=100, help="Hottest the content gets."
        ),
    ]
    circuit: Circuit | None = None
    potable_coil: Annotated[
        bool,
        Flag(help="Whether it also heats drinking water through a single wall, such as a coil."),
    ]


class CircuitResult(Item):
    """What the glycol asks of a pump."""

    flow: Annotated[
        float,
        Quantity("volume_flow", "V_g", "l/h", help="Flow for the same heat at the same drop."),
    ]
    flow_ratio: Annotated[float, Number("V_g/V_w", help="That flow over the one with water.")]
    water_gradient: Annotated[
        float,
        Quantity("pressure_gradient", "R_w", "Pa/m", help="Pressure drop a metre with water."),
    ]
    glycol_gradient: Annotated[
        float,
        Quantity("pressure_gradient", "R_g", "Pa/m", help="Pressure drop a metre with glycol."),
    ]
    gradient_ratio: Annotated[float, Number("R_g/R_w", help="Glycol over water.")]
    reynolds: Annotated[float, Number("Re", help="Reynolds number with glycol.")]
    laminar: Annotated[bool, Flag(help="Whether the flow with glycol is no longer turbulent.")]


class FrostCurve(Item):
    """Freezing point over the glycol in the content."""

    glycol_volume: Annotated[
        list[float], Column("volume", "V_g", "l", help="Pure glycol in the content.")
    ]
    freezing_point: Annotated[
        list[float], Column("temperature", "θ_F", "degC", help="Freezing point.")
    ]


class FrostOutputs(Outputs):
    """Share of glycol, how much to add, and what it costs in expansion and flow."""

    target_temperature: Annotated[
        float, Quantity("temperature", "θ_F", "degC", help="Freezing point that is asked for.")
    ]
    mass_share: Annotated[float, Number("x", help="Share of glycol by mass for it.")]
    volume_share: Annotated[float, Number("φ", help="Share of glycol by volume for it.")]
    glycol_volume: Annotated[
        float, Quantity("volume", "V_g", "l", help="Pure glycol for the whole content.")
    ]
    present_freezing_point: (
        Annotated[
            float,
            Quantity("temperature", "θ_F0", "degC", help="Freezing point of what is in it."),
        ]
        | None
    )
    exchange_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_x",
                "l",
                help="Content to drain and to replace by pure glycol; 0 l where there is enough.",
            ),
        ]
        | None
    )
    water_expansion: Annotated[
        float, Quantity("volume", "ΔV_w", "l", help="Expansion of the content as water.")
    ]
    glycol_expansion: Annotated[
        float, Quantity("volume", "ΔV_g", "l", help="Its expansion with the glycol.")
    ]
    expansion_ratio: Annotated[float, Number("ΔV_g/ΔV_w", help="Glycol over water.")]
    circuit: CircuitResult | None
    poisonous_coil: Annotated[
        bool, Flag(help="Whether poisonous glycol stands behind one wall of drinking water.")
    ]
    curve: FrostCurve | None
