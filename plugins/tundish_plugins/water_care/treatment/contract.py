"""What is asked and what is answered about the care of heating water."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import Flag, Inputs, Item, Name, Number, Outputs, Quantity, Rows


class Leg(Item):
    """A part of the system that is flushed by itself."""

    name: Annotated[str, Name(help="Leg.")]
    bore: Annotated[float, Quantity("length", "d", "mm", low=6, high=110, help="Bore.")]
    flow: Annotated[
        float,
        Quantity("volume_flow", "q", "l/min", low=0.1, high=1000, help="Flow while it is flushed."),
    ]


class Dissolved(Item):
    """Total dissolved solids after the flush."""

    mains: Annotated[float, Number("c_m", low=10, high=2000, help="Of the mains water, in ppm.")]
    system: Annotated[
        float, Number("c_s", low=1, high=20000, help="Of the water in the system, in ppm.")
    ]


class TreatmentInputs(Inputs):
    """The system, its water, and what was done to it."""

    content: Annotated[
        float, Quantity("volume", "V", "l", low=5, high=20000, help="Content of the system.")
    ]
    content_uncertainty: Annotated[
        float, Number("u", low=0, high=0.5, default=0, help="How far that may be out, as a share.")
    ]
    smallest_output: Annotated[
        float,
        Quantity(
            "power", "P", "kW", low=1, high=600, help="Heat output of the smallest heat source."
        ),
    ]
    mains_hardness: Annotated[
        float,
        Quantity(
            "hardness",
            "h",
            "ppm_CaCO3",
            low=0,
            high=1000,
            help="Total hardness of the water it is filled with.",
        ),
    ]
    treated_hardness: Annotated[
        float,
        Quantity(
            "hardness",
            "h_t",
            "ppm_CaCO3",
            low=0,
            high=50,
            default=0,
            help="Hardness of demineralised water that is mixed in.",
        ),
    ]
    dose_rate: Annotated[
        float,
        Number(
            "r",
            low=0.0005,
            high=0.2,
            help="Inhibitor by its product's own label, as a share of the content: 0.01 for 1 l "
            "to 100 l.",
        ),
    ]
    container: Annotated[
        float,
        Quantity("volume", "V_c", "l", low=0.05, high=50, help="Volume of a container of it."),
    ]
    heats_drinking_water: Annotated[
        bool, Flag(help="Whether the same mains feeds a water heater or a combination boiler.")
    ]
    cleaned: Annotated[bool, Flag(help="Whether the system was cleaned and flushed.")]
    filter_fitted: Annotated[bool, Flag(help="Whether an in-line filter is fitted.")]
    since_check: (
        Annotated[
            float,
            Quantity(
                "time", "t_c", "d", low=0, high=20000, help="Time since the inhibitor was checked."
            ),
        ]
        | None
    ) = None
    since_dose: (
        Annotated[
            float,
            Quantity("time", "t_d", "d", low=0, high=20000, help="Time since it was last dosed."),
        ]
        | None
    ) = None
    flush_velocity: (
        Annotated[
            float,
            Quantity("velocity", "w_f", "m/s", low=0.1, high=3, help="Velocity to be reached."),
        ]
        | None
    ) = None
    legs: Annotated[list[Leg], Rows(low=0, high=40, help="Legs that are flushed.")] = []
    dissolved: Dissolved | None = None


class LegResult(Item):
    """Flushing of one leg."""

    name: Annotated[str, Name(help="Leg.")]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Velocity in it.")]
    flow_needed: (
        Annotated[
            float, Quantity("volume_flow", "q_f", "l/min", help="Flow for the velocity asked for.")
        ]
        | None
    )


class TreatmentOutputs(Outputs):
    """Dose, hardness, flushing."""

    dose: Annotated[float, Quantity("volume", "V_i", "l", help="Inhibitor for the content.")]
    least_dose: Annotated[
        float, Quantity("volume", "V_i1", "l", help="If the content is as small as it may be.")
    ]
    largest_dose: Annotated[
        float, Quantity("volume", "V_i2", "l", help="If it is as large as it may be: buy for this.")
    ]
    containers: Annotated[
        float, Number("n", help="Containers for the largest dose, to be rounded up.")
    ]
    specific_content: Annotated[
        float, Quantity("volume_per_power", "v", "l/kW", help="Content over the smallest output.")
    ]
    hardness_limit: Annotated[
        float, Quantity("hardness", "h_max", "ppm_CaCO3", help="Largest hardness of the fill.")
    ]
    demineralised_share: Annotated[
        float, Number("s", help="Share of the fill to be demineralised to keep it; 1 is all.")
    ]
    demineralised_volume: Annotated[
        float, Quantity("volume", "V_d", "l", help="That share of the content.")
    ]
    scale: Annotated[
        float,
        Quantity("mass", "m", "g", help="Most scale that one fill of untreated water can leave."),
    ]
    legs: Annotated[list[LegResult], Rows(help="Flushing.")]
    dissolved_deviation: (
        Annotated[float, Number("Δc/c", help="Dissolved solids away from the mains, as a share.")]
        | None
    )
