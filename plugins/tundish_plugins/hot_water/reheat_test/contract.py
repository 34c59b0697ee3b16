"""Inputs and outputs of the test of a measured reheat."""

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
from tundish_plugins.hot_water.recovery.contract import CoilRating  # noqa: TC001


class ExtraHeat(Item):
    """Heat that may have come in besides the source."""

    primary_content: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_p",
                "l",
                low=1,
                high=2000,
                example=80,
                help="Water of the primary circuit that was hot when the test began.",
            ),
        ]
        | None
    ) = None
    primary_start_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_p0",
                "degC",
                low=5,
                high=95,
                example=70,
                help="Its temperature when the test began.",
            ),
        ]
        | None
    ) = None
    primary_end_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_p1",
                "degC",
                low=5,
                high=95,
                example=60,
                help="Its temperature when the test ended.",
            ),
        ]
        | None
    ) = None
    immersion_power: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_i",
                "kW",
                low=0.1,
                high=36,
                example=3,
                help="Immersion heater that may have been left on.",
            ),
        ]
        | None
    ) = None
    output_gain: (
        Annotated[
            float,
            Number(
                "g",
                low=1,
                high=1.3,
                example=1.07,
                help="Output of the source over its rating, such as by condensing at a cold return "
                "or by a gas rate above nominal.",
            ),
        ]
        | None
    ) = None


class ReheatTestInputs(Inputs):
    """A reheat as it was measured, and what was to heat the store."""

    store_volume: Annotated[
        float,
        Quantity(
            "volume", "V", "l", low=10, high=3000, example=250, help="Water content of the store."
        ),
    ]
    volume_uncertainty: Annotated[
        float,
        Number(
            "u_V",
            low=0.001,
            high=0.3,
            default=0.03,
            help="Standard uncertainty of the content, as a share of it.",
        ),
    ]
    heated_fraction: Annotated[
        float,
        Number(
            "f",
            low=0.05,
            high=1,
            default=1,
            help="Share of the content above the lowest part of the heater: only that is heated.",
        ),
    ]
    start_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_0",
            "degC",
            low=1,
            high=90,
            example=12,
            help="Temperature of the water at the start, as read.",
        ),
    ]
    start_uncertainty: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "u_0",
            "K",
            low=0.01,
            high=15,
            default=1,
            help="Standard uncertainty of that as the mean of the store.",
        ),
    ]
    end_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_1",
            "degC",
            low=5,
            high=95,
            example=57,
            help="Temperature of the water at the end, as read.",
        ),
    ]
    end_uncertainty: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "u_1",
            "K",
            low=0.01,
            high=15,
            default=1,
            help="Standard uncertainty of that as the mean of the store.",
        ),
    ]
    reheat_time: Annotated[
        float,
        Quantity(
            "time", "t", "min", low=0.5, high=2880, example=38, help="Time from start to end."
        ),
    ]
    time_uncertainty: Annotated[
        float,
        Quantity(
            "time",
            "u_t",
            "min",
            low=0.001,
            high=120,
            default=0.5,
            help="Standard uncertainty of the time.",
        ),
    ]
    source_power: Annotated[
        float,
        Quantity(
            "power",
            "P_s",
            "kW",
            low=0.3,
            high=200,
            example=15,
            help="Output of the source for hot water as rated, all that was meant to run: not its "
            "gas or electrical input.",
        ),
    ]
    power_uncertainty: Annotated[
        float,
        Number(
            "u_s,rel",
            low=0.001,
            high=0.3,
            default=0.05,
            help="Standard uncertainty of the source's output, as a share of it.",
        ),
    ]
    flow_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_f",
                "degC",
                low=25,
                high=95,
                example=75,
                help="Primary flow temperature held at the coil during the test.",
            ),
        ]
        | None
    ) = None
    primary_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "q",
                "l/min",
                low=0.5,
                high=200,
                example=15,
                help="Primary flow rate through the coil. Left out with a rated coil: taken as in "
                "its rating.",
            ),
        ]
        | None
    ) = None
    coil_rating: CoilRating | None = None
    coil_conductance: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "G",
                "W/K",
                low=10,
                high=20000,
                example=524,
                help="Heat the coil gives for each kelvin between primary flow and store.",
            ),
        ]
        | None
    ) = None
    coil_uncertainty: Annotated[
        float,
        Number(
            "u_G,rel",
            low=0.001,
            high=0.5,
            default=0.1,
            help="Standard uncertainty of the coil's conductance, as a share of it.",
        ),
    ]
    standing_loss: (
        Annotated[
            float,
            Quantity(
                "power",
                "S",
                "W",
                low=1,
                high=1000,
                example=70,
                help="Standing loss of the store as its test states it, 45 K above the room; it "
                "slows the prediction. Left out: no loss.",
            ),
        ]
        | None
    ) = None
    ambient_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_a",
            "degC",
            low=-20,
            high=45,
            default=20,
            help="Temperature of the place the store stands in; used with the standing loss.",
        ),
    ]
    extra_heat: ExtraHeat | None = None


class Explanation(Item):
    """One cause that alone would make the reading agree."""

    name: Annotated[str, Name(help="What would have been otherwise than read.")]
    error: Annotated[
        float,
        Number(
            "n",
            help="How far it would be off, in its own standard uncertainties; positive where the "
            "reading was too favourable.",
        ),
    ]
    within_uncertainty: Annotated[
        bool, Flag(help="Whether an ordinary error of that reading is enough.")
    ]
    possible: Annotated[bool, Flag(help="Whether the value it would take can be at all.")]
    check: Annotated[str, Text(help="What to read next to tell it from the others.")]


class ExtraResult(Item):
    """What heat besides the source would explain."""

    primary_power: (
        Annotated[
            float,
            Quantity("power", "P_pr", "kW", help="From the hot primary circuit, over the test."),
        ]
        | None
    )
    immersion_power: (
        Annotated[float, Quantity("power", "P_i", "kW", help="From the immersion heater.")] | None
    )
    gained_power: (
        Annotated[float, Quantity("power", "P_g", "kW", help="From a source above its rating.")]
        | None
    )
    together: Annotated[float, Quantity("power", "P_x", "kW", help="All of it.")]
    left_over: Annotated[
        float, Quantity("power", "P_rest", "kW", help="What it leaves unexplained.")
    ]
    z: Annotated[
        float, Number("z_x", help="What it leaves unexplained, in standard uncertainties.")
    ]


class Curve(Item):
    """Store temperature against time."""

    time: Annotated[list[float], Column("time", "t", "min", help="Time from the start.")]
    temperature: Annotated[
        list[float], Column("temperature", "T", "degC", help="Store temperature.")
    ]


class ReheatTestOutputs(Outputs):
    """Whether the reading can be believed, and what would explain it."""

    reading: Annotated[
        Literal[
            "consistent",
            "impossible-as-stated",
            "slower-than-expected",
            "faster-than-predicted",
            "too-uncertain",
        ],
        Choice(help="How the reading stands to source and coil."),
    ]
    doubt: Annotated[
        float,
        Number(
            "d",
            help="Doubt of readings and source together, by k = 2, as a share of the larger of their "
            "powers.",
        ),
    ]
    tells: Annotated[
        bool, Flag(help="Whether the doubt is small enough for agreement to mean anything.")
    ]
    below_cut_out: (
        Annotated[
            bool, Flag(help="Whether the store stayed below where its energy cut-out may trip.")
        ]
        | None
    )
    within_source: Annotated[
        bool, Flag(help="Whether the source can have given what the readings imply.")
    ]
    mean_power: Annotated[
        float,
        Quantity(
            "power",
            "P",
            "kW",
            help="Mean power the readings imply if the whole heated part was warmed as read: not "
            "the source's output.",
        ),
    ]
    mean_power_uncertainty: Annotated[
        float, Quantity("power", "u_P", "kW", help="Its standard uncertainty.")
    ]
    heat: Annotated[float, Quantity("energy", "Q", "kWh", help="Heat the readings imply.")]
    source_uncertainty: Annotated[
        float, Quantity("power", "u_s", "kW", help="Standard uncertainty of the source's power.")
    ]
    z_source: Annotated[
        float,
        Number("z", help="Implied power above the source's, in standard uncertainties of both."),
    ]
    most_power: Annotated[
        float,
        Quantity("power", "P_max", "kW", help="Most that the source can have given, by k = 2."),
    ]
    least_by_source: (
        Annotated[
            float,
            Quantity(
                "power",
                "P_min",
                "kW",
                help="Least that agrees with the whole source to the end, less the loss; without a "
                "coil's data.",
            ),
        ]
        | None
    )
    predicted_time: Annotated[
        float, Quantity("time", "t_p", "min", help="Reheat time of source and coil.")
    ]
    predicted_power: Annotated[
        float, Quantity("power", "P_p", "kW", help="Mean power of source and coil.")
    ]
    predicted_uncertainty: (
        Annotated[float, Quantity("power", "u_p", "kW", help="Its standard uncertainty.")] | None
    )
    predicted_loss: (
        Annotated[
            float, Quantity("energy", "Q_l", "kWh", help="Heat lost from the store meanwhile.")
        ]
        | None
    )
    z_predicted: (
        Annotated[
            float,
            Number("z_p", help="Implied power above the predicted, in standard uncertainties."),
        ]
        | None
    )
    least_power: (
        Annotated[
            float, Quantity("power", "P_min", "kW", help="Least that agrees with the prediction.")
        ]
        | None
    )
    most_predicted: (
        Annotated[
            float, Quantity("power", "P_max,p", "kW", help="Most that agrees with the prediction.")
        ]
        | None
    )
    reference_power: Annotated[
        float,
        Quantity(
            "power",
            "P_ref",
            "kW",
            help="Power the causes below are worked out against: the source's when the reading is "
            "above it, else the predicted.",
        ),
    ]
    effective_volume: Annotated[
        float,
        Quantity("volume", "V_eff", "l", help="Water heated, if that alone was otherwise."),
    ]
    effective_volume_uncertainty: Annotated[
        float, Quantity("volume", "u_Veff", "l", help="Its standard uncertainty.")
    ]
    effective_fraction: Annotated[
        float, Number("f_eff", help="The same as a share of the content.")
    ]
    needed_start_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_0'",
            "degC",
            help="Mean start temperature, if that alone was otherwise.",
        ),
    ]
    needed_end_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_1'",
            "degC",
            help="Mean end temperature, if that alone was otherwise: hot at the sensor, cooler "
            "below.",
        ),
    ]
    needed_time: Annotated[
        float, Quantity("time", "t'", "min", help="Time, if that alone was otherwise.")
    ]
    missing_power: Annotated[
        float,
        Quantity(
            "power",
            "ΔP",
            "kW",
            help="Heat that would have come in besides; negative: that was held back.",
        ),
    ]
    readings_score: Annotated[
        float,
        Number(
            "n",
            help="Gap to the reference power in the uncertainty of volume, temperatures and "
            "time taken together.",
        ),
    ]
    implied_conductance: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "G_i",
                "W/K",
                help="Coil the reading shows, if the coil was the limit from start to end.",
            ),
        ]
        | None
    )
    conductance_share: (
        Annotated[float, Number("r_G", help="The same over the coil's stated conductance.")] | None
    )
    explanations: Annotated[list[Explanation], Rows(help="Causes, each taken alone.")]
    extra_heat: ExtraResult | None
    predicted: Curve
    measured: Curve
