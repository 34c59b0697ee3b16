"""Hot and cold water pipes: a tree of sections from a main, a store or a cistern to the outlets."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    LineChart,
    Method,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.pipes import COLEBROOK, DARCY_WEISBACH
from tundish_plugins.water_supply.formulas import DIN_1988_300, TOGETHER
from tundish_plugins.water_supply.methods import (
    BS_6700_UNITS,
    EN_806_3_UNITS,
    REFUSALS,
    VALVES_WITHIN_CHART,
)
from tundish_plugins.water_supply.pipe_sizing.contract import PipeSizingInputs, PipeSizingOutputs
from tundish_plugins.water_supply.pipe_sizing.kernel import kernel

_SLOW = "Velocity in {item} is {value}; {limit} is allowed there."
_FAST = (
    "Velocity in {item} is {value}; only {limit} is allowed there. It will be heard, and closing "
    "taps will hammer: go up a size."
)

CALCULATION = Calculation(
    id="water-pipe-sizing",
    version="1.0",
    title="Hot and cold water pipes",
    summary="Velocity and pressure section by section from a main, a store or a cistern to every "
    "outlet; the next size up and down.",
    family="water-supply",
    questions=(
        "Are these pipes large enough for the outlets?",
        "Which section takes the pressure?",
        "Does the cistern stand high enough to feed them?",
    ),
    inputs=PipeSizingInputs,
    outputs=PipeSizingOutputs,
    kernel=kernel,
    methods=(
        Method(
            "all-at-once",
            "All outlets at once",
            "Each section carries every outlet behind it, unless its flow is given: an upper "
            "bound. Outlets without a flow take the draw-off flow of EN 806-3.",
            source=TOGETHER,
        ),
        EN_806_3_UNITS,
        BS_6700_UNITS,
        Method(
            "din-1988-300",
            "Peak flow of DIN 1988-300",
            "Peak flow of each section from the sum of the calculation flows behind it, never "
            "below the largest outlet nor above two outlets a room.",
            source=DIN_1988_300,
        ),
    ),
    needs=(
        Need("water-tubes", "table", "Tubes for water"),
        Need("hazen-williams-temperature-most", "temperature", "Reach of Hazen-Williams"),
        Need("loading-units-en-806-3", "table", "Loading units, EN 806-3"),
        Need("loading-units-bs-6700", "table", "Loading units, BS 6700", optional=True),
        Need("design-flows-din-1988-300", "table", "Calculation flows, DIN 1988-300"),
        Need("peak-flow-din-1988-300", "table", "Constants of the peak flow, DIN 1988-300"),
    ),
    findings=(
        Finding(
            "outlet-pressure",
            "Pressure at the outlets",
            quantity="/outputs/outlets/*/pressure",
            sense="at-least",
            limit="/inputs/outlets/*/required_pressure",
            words_passed="{item} gets {value}; it needs {limit}.",
            words_failed="{item} gets {value}; it needs {limit}. Go up a size in the section that "
            "loses most for each metre on the way, or run less at once.",
            source=DARCY_WEISBACH,
        ),
        Finding(
            "velocity-shared",
            "Velocity in shared pipes",
            quantity="/outputs/sections/*/velocity",
            sense="at-most",
            limit="water-velocity-shared-most",
            applies_when="/outputs/sections/*/pipe == shared",
            words_passed=_SLOW,
            words_failed=_FAST,
        ),
        Finding(
            "velocity-single",
            "Velocity in pipes to one fitting",
            quantity="/outputs/sections/*/velocity",
            sense="at-most",
            limit="water-velocity-single-most",
            applies_when="/outputs/sections/*/pipe == single",
            words_passed=_SLOW,
            words_failed=_FAST,
        ),
        Finding(
            "velocity-former",
            "Velocity, former British Standard",
            quantity="/outputs/sections/*/velocity",
            sense="at-most",
            limit="water-velocity-bs-6700-most",
            applies_when="/outputs/sections/*/pipe == former",
            words_passed=_SLOW,
            words_failed=_FAST,
        ),
        Finding(
            "no-suction",
            "Lowest pressure in the pipes",
            quantity="/outputs/above_atmospheric",
            sense="is",
            limit=True,
            words_passed="At no point the pressure falls below that of the air.",
            words_failed="At some point the pressure would fall below that of the air (see the "
            "sections): the flow cannot be had, air is drawn in and foul water may be sucked back.",
            source=DARCY_WEISBACH,
        ),
        VALVES_WITHIN_CHART,
        Finding(
            "units-in-force",
            "Edition of the loading units",
            quantity="/outputs/units_in_force",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The table of loading units is in force on the date.",
            words_failed="The table of loading units is superseded; it answers because the method "
            "was named. Never mix its units with those of another standard.",
            source=TOGETHER,
        ),
    ),
    cautions=("water-fittings-law", "water-standing"),
    refusals=(
        Refused(
            "start-missing",
            "The pressure at the start is not known",
            "Give start_pressure, or cistern_level.",
        ),
        Refused(
            "start-given-twice",
            "The pressure at the start is given twice",
            "Give start_pressure or cistern_level.",
        ),
        Refused(
            "coefficient-missing",
            "Hazen-Williams needs its coefficient",
            "Give hazen_williams_coefficient, 140 for smooth pipe, or use Colebrook.",
        ),
        Refused(
            "coefficient-without-use",
            "Colebrook takes no coefficient of Hazen-Williams",
            "Leave it out, or choose hazen-williams.",
        ),
        Refused(
            "water-too-warm-for-hazen-williams",
            "The formula of Hazen and Williams holds for cold water only",
            "Use Colebrook, which knows the viscosity.",
        ),
        Refused(
            "network-loop",
            "The sections run in a circle at the point {point}",
            "Pipes are a tree from the source: open the circle.",
        ),
        Refused(
            "point-fed-twice",
            "The point {point} is fed by two sections",
            "Pipes are a tree from the source: let one section lead to each point.",
        ),
        Refused(
            "section-unconnected",
            "Nothing leads to the point {point}",
            "Let the section start from the source or from the end of another section.",
        ),
        Refused(
            "outlet-unconnected",
            "No section leads to the point {point}",
            "Connect the outlet to the end of a section.",
        ),
        Refused(
            "section-without-load",
            "No outlet is behind the point {point}",
            "Leave the section out: dead ends let water stand; or connect its outlet.",
        ),
        Refused(
            "section-flow-missing",
            "{section} has {units} loading units behind it; the standard's figure from units to "
            "flow is not on file",
            "Read the flow from the figure and give it as the section's flow.",
        ),
        Refused(
            "section-flow-too-large",
            "The section's flow is more than all outlets behind it take, {flow}",
            "Correct the flow, or leave it out.",
        ),
        Refused(
            "section-flow-too-small",
            "A section carries less than an outlet or a section behind it",
            "Give it at least the largest flow that it feeds.",
        ),
        *REFUSALS,
    ),
    monotonic=(
        Monotonic("/sections/0/length", "/least_spare", "decreasing"),
        Monotonic("/sections/0/rise", "/least_spare", "decreasing"),
        Monotonic("/sections/0/fittings_loss", "/least_spare", "decreasing"),
        Monotonic("/start_pressure", "/least_spare", "increasing"),
        Monotonic("/cistern_level", "/least_spare", "increasing"),
    ),
    charts=(
        LineChart(
            "profile",
            "Pressure along the way",
            series=(
                Series(
                    "way",
                    "/outputs/outlets/*/profile/distance",
                    "/outputs/outlets/*/profile/pressure",
                ),
            ),
        ),
        BarChart(
            "sections",
            "Pressure lost in each section",
            items="/outputs/sections",
            label="name",
            bars=(("lost", "drop"),),
        ),
    ),
    sources=(DARCY_WEISBACH, COLEBROOK),
    example={
        "start_pressure": {"value": 2.2, "unit": "bar"},
        "water_temperature": {"value": 60, "unit": "degC"},
        "sections": [
            {
                "name": "hot main",
                "start": "source",
                "end": "landing",
                "tube": "copper-22",
                "length": {"value": 6, "unit": "m"},
                "rise": {"value": 2.5, "unit": "m"},
                "fittings_loss": 4,
            },
            {
                "name": "bath branch",
                "start": "landing",
                "end": "bath",
                "tube": "copper-22",
                "length": {"value": 3, "unit": "m"},
                "fittings_loss": 3,
            },
            {
                "name": "shower branch",
                "start": "landing",
                "end": "shower",
                "tube": "copper-15",
                "length": {"value": 5, "unit": "m"},
                "rise": {"value": 1.2, "unit": "m"},
                "fittings_loss": 5,
            },
        ],
        "outlets": [
            {
                "name": "bath",
                "node": "bath",
                "flow": {"value": 18, "unit": "l/min"},
                "required_pressure": {"value": 0.3, "unit": "bar"},
            },
            {
                "name": "shower",
                "node": "shower",
                "flow": {"value": 9, "unit": "l/min"},
                "required_pressure": {"value": 1, "unit": "bar"},
            },
        ],
    },
)
