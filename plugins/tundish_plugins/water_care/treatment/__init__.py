"""Care of heating water: cleaning, inhibitor, hardness and flushing."""

from __future__ import annotations

from tundish.calculation import BarChart, Calculation, Finding, Method, Monotonic, Need, Refused
from tundish_plugins.water_care.treatment.contract import TreatmentInputs, TreatmentOutputs
from tundish_plugins.water_care.treatment.formulas import BY_VOLUME
from tundish_plugins.water_care.treatment.kernel import kernel

CALCULATION = Calculation(
    id="water-treatment",
    version="1.0",
    title="Care of the heating water",
    summary="Inhibitor by volume, hardness of the fill against content and output, scale, flushing "
    "velocity of every leg, and what was done to the system.",
    family="water-care",
    questions=(
        "How much inhibitor does the system need?",
        "Is the water too hard to fill with?",
        "Does the flush move anything?",
    ),
    inputs=TreatmentInputs,
    outputs=TreatmentOutputs,
    kernel=kernel,
    methods=(
        Method("vdi-2035", "Hardness by VDI 2035", "Sources of small water content."),
        Method("oenorm-h-5195-1", "Hardness by OENORM H 5195-1", "Stricter; small water content."),
    ),
    needs=(
        Need("hardness-limits-vdi", "table", "Largest hardness of the fill"),
        Need("hardness-limits-oenorm", "table", "Largest hardness of the fill"),
    ),
    findings=(
        Finding(
            "fill-hardness",
            "Hardness of the fill",
            quantity="/inputs/mains_hardness",
            sense="at-most",
            limit="/outputs/hardness_limit",
            words_passed="The mains water has {value}; {limit} is allowed for this content.",
            words_failed="The mains water has {value}; only {limit} is allowed for this content: "
            "scale settles in the heat exchanger. Demineralise the share that is shown.",
            source=BY_VOLUME,
        ),
        Finding(
            "feed-hardness",
            "Hardness of the feed to a water heater",
            quantity="/inputs/mains_hardness",
            sense="at-most",
            limit="water-heater-hardness-most",
            applies_when="/inputs/heats_drinking_water",
            words_passed="The feed has {value}; above {limit} it is to be treated.",
            words_failed="The feed has {value}; above {limit} it is to be treated against scale.",
        ),
        Finding(
            "system-cleaned",
            "Cleaning of the system",
            quantity="/inputs/cleaned",
            sense="is",
            limit=True,
            words_passed="The system was cleaned and flushed.",
            words_failed="The system was not cleaned and flushed: do so before it is dosed.",
            depends_on=("water-care-duties",),
        ),
        Finding(
            "filter-fitted",
            "In-line filter",
            quantity="/inputs/filter_fitted",
            sense="is",
            limit=True,
            words_passed="An in-line filter is fitted.",
            words_failed="No in-line filter is fitted.",
            depends_on=("water-care-duties",),
        ),
        Finding(
            "check-of-inhibitor",
            "Time since the inhibitor was checked",
            quantity="/inputs/since_check",
            sense="at-most",
            limit="inhibitor-check-interval",
            words_passed="It was checked {value} ago; {limit} is the interval.",
            words_failed="It was checked {value} ago; {limit} is the interval. Test it.",
        ),
        Finding(
            "age-of-dose",
            "Time since the last dose",
            quantity="/inputs/since_dose",
            sense="at-most",
            limit="inhibitor-dose-interval",
            words_passed="It was dosed {value} ago; {limit} is the interval.",
            words_failed="It was dosed {value} ago; {limit} is the interval. Dose it again, or have "
            "the water tested in full.",
        ),
        Finding(
            "flushing-velocity",
            "Velocity while flushing",
            quantity="/outputs/legs/*/velocity",
            sense="at-least",
            limit="/inputs/flush_velocity",
            words_passed="{item}: {value} is reached; {limit} is asked for.",
            words_failed="{item}: only {value} is reached; {limit} is asked for. Flush fewer legs "
            "at a time, or with a pump.",
            source=BY_VOLUME,
        ),
        Finding(
            "dissolved-solids",
            "Dissolved solids after the flush",
            quantity="/outputs/dissolved_deviation",
            sense="at-most",
            limit="flush-dissolved-deviation-most",
            words_passed="They are {value} away from the mains; {limit} is allowed.",
            words_failed="They are {value} away from the mains; {limit} is allowed. Flush on.",
        ),
    ),
    cautions=("water-care-products",),
    refusals=(
        Refused(
            "treated-not-soft-enough",
            "The water that is mixed in is not softer than the limit",
            "Give the hardness that the demineraliser really reaches.",
        ),
    ),
    monotonic=(
        Monotonic("/content", "/dose", "increasing"),
        Monotonic("/mains_hardness", "/demineralised_share", "increasing"),
        Monotonic("/container", "/containers", "decreasing"),
        Monotonic("/legs/0/bore", "/legs/0/velocity", "decreasing"),
    ),
    charts=(
        BarChart(
            "flushing",
            "Velocity while flushing",
            items="/outputs/legs",
            label="name",
            bars=(("reached", "velocity"),),
        ),
    ),
    sources=(BY_VOLUME,),
    example={
        "content": "120 l",
        "content_uncertainty": 0.1,
        "smallest_output": "24 kW",
        "mains_hardness": "300 ppm_CaCO3",
        "dose_rate": 0.01,
        "container": "1 l",
        "heats_drinking_water": True,
        "cleaned": True,
        "filter_fitted": False,
        "flush_velocity": "1 m/s",
        "legs": [
            {"name": "upstairs", "bore": "20.2 mm", "flow": "20 l/min"},
            {"name": "downstairs", "bore": "20.2 mm", "flow": "15 l/min"},
        ],
        "dissolved": {"mains": 310, "system": 335},
    },
)
