"""What is asked and what is answered about a temperature sensor."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Column, Inputs, Item, Number, Outputs, Quantity, Rows


class Beta(Item):
    """A thermistor by one point and its Beta."""

    resistance: Annotated[
        float,
        Quantity(
            "resistance", "R_0", "ohm", low=100, high=1e6, help="Resistance at the reference."
        ),
    ]
    temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_0",
            "degC",
            low=-10,
            high=100,
            help="Reference temperature: mostly 25 degC, 0 degC in some data.",
        ),
    ]
    beta: Annotated[
        float,
        Quantity("temperature_difference", "B", "K", low=2000, high=6000, help="Beta."),
    ]
    resistance_tolerance: (
        Annotated[
            float,
            Number("ΔR/R", low=0, high=0.25, help="Tolerance of that resistance as a share of it."),
        ]
        | None
    ) = None
    beta_tolerance: (
        Annotated[
            float, Number("ΔB/B", low=0, high=0.1, help="Tolerance of Beta as a share of it.")
        ]
        | None
    ) = None


class Curve(Item):
    """A thermistor as a controller takes it."""

    resistance: Annotated[
        float,
        Quantity(
            "resistance", "R_c", "ohm", low=100, high=1e6, help="Resistance at the reference."
        ),
    ]
    temperature: Annotated[
        float,
        Quantity(
            "temperature", "T_c", "degC", low=-10, high=100, help="Its reference temperature."
        ),
    ]
    beta: Annotated[
        float,
        Quantity("temperature_difference", "B_c", "K", low=2000, high=6000, help="Its Beta."),
    ]


class Point(Item):
    """A known point of a thermistor."""

    temperature: Annotated[
        float,
        Quantity("temperature", "T", "degC", low=-55, high=200, help="Temperature of the point."),
    ]
    resistance: Annotated[
        float, Quantity("resistance", "R", "ohm", low=1, high=1e7, help="Resistance there.")
    ]


class Coefficients(Item):
    """A thermistor by the coefficients of Steinhart and Hart, resistance in ohm."""

    a: Annotated[
        float, Quantity("expansion_coefficient", "A", "1/K", low=-0.01, high=0.01, help="First.")
    ]
    b: Annotated[
        float, Quantity("expansion_coefficient", "B", "1/K", low=1e-5, high=1e-3, help="Second.")
    ]
    c: Annotated[
        float, Quantity("expansion_coefficient", "C", "1/K", low=0, high=1e-5, help="Third.")
    ]


class Platinum(Item):
    """A platinum resistor."""

    resistance: Annotated[
        float,
        Quantity(
            "resistance",
            "R_0",
            "ohm",
            low=50,
            high=2000,
            help="Resistance at 0 degC: 1000 ohm for a PT1000.",
        ),
    ]
    tolerance_class: Annotated[Literal["A", "B"], Choice(help="Its tolerance class.", default="B")]


class SensorInputs(Inputs):
    """One sensor, and what was measured."""

    beta: Beta | None = None
    points: (
        Annotated[list[Point], Rows(low=3, high=3, help="Three known points, from cold to hot.")]
        | None
    ) = None
    coefficients: Coefficients | None = None
    platinum: Platinum | None = None
    coldest: Annotated[
        float,
        Quantity(
            "temperature",
            "T_min",
            "degC",
            low=-50,
            high=100,
            help="Coldest that it can be where the sensor sits.",
        ),
    ]
    hottest: Annotated[
        float,
        Quantity(
            "temperature", "T_max", "degC", low=-40, high=200, help="Hottest that it can be there."
        ),
    ]
    measured_resistance: (
        Annotated[
            float,
            Quantity(
                "resistance",
                "R_m",
                "ohm",
                low=0,
                high=1e9,
                help="Resistance by meter, leads included, sensor disconnected and its circuit dead.",
            ),
        ]
        | None
    ) = None
    known_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_k",
                "degC",
                low=-50,
                high=200,
                help="Temperature of the sensor by a thermometer; or the one whose resistance is "
                "asked for.",
            ),
        ]
        | None
    ) = None
    thermometer_uncertainty: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "u",
            "K",
            low=0,
            high=10,
            default=1,
            help="How far that thermometer may be out, with its place.",
        ),
    ]
    lead_resistance: Annotated[
        float,
        Quantity(
            "resistance", "R_L", "ohm", low=0, high=100, default=0, help="Both leads together."
        ),
    ]
    stated_tolerance: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT_s",
                "K",
                low=0.01,
                high=20,
                help="Tolerance of a thermistor as its maker states it, in kelvin.",
            ),
        ]
        | None
    ) = None
    read_as: Curve | None = None
    allowed_error: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT_a",
                "K",
                low=0.1,
                high=20,
                help="How far a shown temperature may be out.",
            ),
        ]
        | None
    ) = None


class CurveOutput(Item):
    """Resistance over temperature."""

    temperature: Annotated[list[float], Column("temperature", "T", "degC", help="Temperature.")]
    resistance: Annotated[list[float], Column("resistance", "R", "ohm", help="Resistance.")]


class SensorOutputs(Outputs):
    """Resistance, temperature, and how far either may be out."""

    temperature: Annotated[
        float,
        Quantity("temperature", "T", "degC", help="Temperature by the resistance, or as given."),
    ]
    resistance: Annotated[
        float,
        Quantity("resistance", "R", "ohm", help="Resistance of the sensor without its leads."),
    ]
    least_resistance: Annotated[
        float,
        Quantity("resistance", "R_min", "ohm", help="Least that can be read: below is short."),
    ]
    largest_resistance: Annotated[
        float,
        Quantity("resistance", "R_max", "ohm", help="Largest that can be read: above is open."),
    ]
    sensitivity: Annotated[
        float,
        Quantity(
            "expansion_coefficient",
            "α",
            "1/K",
            help="Change of resistance a kelvin as a share of it; negative for a thermistor.",
        ),
    ]
    lead_error: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "ΔT_L",
            "K",
            help="Size of the error the leads make in a reading that does not allow for them.",
        ),
    ]
    tolerance: (
        Annotated[
            float, Quantity("temperature_difference", "ΔT", "K", help="Tolerance of the sensor.")
        ]
        | None
    )
    band: (
        Annotated[
            float,
            Quantity(
                "temperature_difference", "ΔT_b", "K", help="Tolerance with the thermometer's."
            ),
        ]
        | None
    )
    deviation: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT_d",
                "K",
                help="Size of the difference between sensor and thermometer.",
            ),
        ]
        | None
    )
    shown_temperature: (
        Annotated[
            float,
            Quantity("temperature", "T_c", "degC", help="What a controller of that curve shows."),
        ]
        | None
    )
    shown_error: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT_c",
                "K",
                help="Shown less true; below 0 it shows cold.",
            ),
        ]
        | None
    )
    lowest_error: (
        Annotated[
            float,
            Quantity("temperature_difference", "-ΔT_a", "K", help="Error allowed towards cold."),
        ]
        | None
    )
    curve: CurveOutput | None
