"""A mains supply: what a flow test says, and what reaches a store and the outlets."""

from __future__ import annotations

from tundish.calculation import (
    Calculation,
    Finding,
    Level,
    LineChart,
    Method,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.physics.pipes import COLEBROOK, DARCY_WEISBACH
from tundish_plugins.water_supply.formulas import DIN_1988_300, TOGETHER
from tundish_plugins.water_supply.mains_supply.contract import (
    MainsSupplyInputs,
    MainsSupplyOutputs,
)
from tundish_plugins.water_supply.mains_supply.formulas import FLOW_TEST
from tundish_plugins.water_supply.mains_supply.kernel import kernel
from tundish_plugins.water_supply.methods import (
    BS_6700_UNITS,
    EN_806_3_UNITS,
    NEEDS,
    REFUSALS,
    VALVES_WITHIN_CHART,
    outlets_stand,
)

_DAY = (
    "the static pressure is a single reading, and a main stands higher at night: give "
    "night_pressure, of a gauge with a maximum hand left overnight."
)
_MORE = (
    "a main stands higher at night, and behind a store heated water up to its expansion valve: "
    "give night_pressure, of a gauge left overnight, and the store's expansion_valve."
)
_OPEN = (
    "a reducing valve stands open, or may, and what it loses then is not given: give its open_loss."
)

CALCULATION = Calculation(
    id="mains-supply",
    version="1.0",
    title="What the incoming main can give",
    summary="Supply curve from a flow test with its uncertainty; pressure and flow that reach an "
    "unvented store and the outlets on every floor.",
    family="water-supply",
    questions=(
        "Will the main feed an unvented store?",
        "What flow is left for the shower upstairs when two outlets run?",
        "What does my flow test really say?",
    ),
    inputs=MainsSupplyInputs,
    outputs=MainsSupplyOutputs,
    kernel=kernel,
    methods=(
        Method(
            "flowing-at-once",
            "Outlets that run at once",
            "The design flow is that of the outlets marked to run at once, or the flow given, or "
            "what the store asks for. Outlets without a flow take the draw-off flow of EN 806-3.",
            source=TOGETHER,
        ),
        EN_806_3_UNITS,
        BS_6700_UNITS,
        Method(
            "din-1988-300",
            "Peak flow of DIN 1988-300",
            "Peak flow from the sum of the calculation flows, never below the largest outlet nor "
            "above two outlets a room.",
            source=DIN_1988_300,
        ),
    ),
    needs=(
        Need("mains-exponent-low", "number", "Lowest exponent of a test with one reading"),
        Need("mains-exponent-high", "number", "Highest exponent of a test with one reading"),
        Need("mains-extrapolation-most", "number", "Reach of a test beyond its flow"),
        Need("mains-reference-flow", "volume_flow", "Flow of the reference level", optional=True),
        *NEEDS,
    ),
    findings=(
        Finding(
            "store-supplied",
            "Supply at the store against what it asks for",
            quantity="/outputs/store/available_flow",
            sense="at-least",
            limit="/inputs/store/required_flow",
            capped_unless="/outputs/supply_valves_known",
            words_capped=_OPEN,
            words_passed="With its pressure left, {value} can be had at the store's inlet; it asks "
            "for {limit}.",
            words_failed="With its pressure left, only {value} can be had at the store's inlet; it "
            "asks for {limit}. A larger supply pipe, fewer losses, or an accumulator or a cistern-"
            "fed store instead.",
            source=DARCY_WEISBACH,
        ),
        Finding(
            "design-flow-carried",
            "Design flow against the supply curve",
            quantity="/outputs/design_flow",
            sense="at-most",
            limit="/outputs/largest_flow",
            capped_unless="/outputs/supply_valves_known",
            words_capped=_OPEN,
            words_passed="The design flow is {value}; {limit} could be had with nothing left.",
            words_failed="The design flow is {value}; by the lower curve {limit} can be had, and "
            "that with nothing left. Run less at once, test nearer the design flow, or enlarge the "
            "supply.",
            source=FLOW_TEST,
        ),
        Finding(
            "outlet-pressure",
            "Pressure at the outlets",
            quantity="/outputs/outlets/*/pressure",
            sense="at-least",
            limit="/inputs/outlets/*/required_pressure",
            capped_unless="/outputs/valves_known",
            words_capped=_OPEN,
            words_passed="{item} gets {value} while the design flow runs; it needs {limit}.",
            words_failed="{item} gets {value} while the design flow runs; it needs {limit}. Look "
            "at the section that drops most, or run less at once.",
            source=DARCY_WEISBACH,
        ),
        Finding(
            "store-standing-pressure",
            "Standing pressure of the store",
            quantity="/outputs/store/standing_pressure",
            sense="at-most",
            limit="/inputs/store/working_pressure",
            capped_unless="/outputs/store/standing_known",
            words_capped=_DAY,
            words_passed="With nothing running the store stands at {value} at most; it may stand "
            "at {limit}.",
            words_failed="With nothing running the store stands at {value}; it may stand at {limit} "
            "only. It needs a pressure reducing valve, or one set lower.",
            source=HYDROSTATICS,
        ),
        Finding(
            "store-rating-given",
            "Pressure the store may stand at",
            quantity="/outputs/store/rating_given",
            sense="is",
            limit=True,
            rests_on=(),
            words_passed="What the store may stand at is given.",
            words_failed="What the store may stand at is not given: read the working pressure from "
            "its data plate and give it as working_pressure.",
            source=HYDROSTATICS,
        ),
        *outlets_stand("/outputs/outlets/*/standing_known", _MORE),
        Finding(
            "drop-readable",
            "Drop of pressure in the test",
            quantity="/outputs/drop_share",
            sense="at-least",
            limit="mains-drop-share-least",
            failed="advisory",
            words_passed="The test pulled the pressure down by {value} of the static pressure; "
            "{limit} is asked for.",
            words_failed="The test pulled the pressure down by only {value} of the static pressure; "
            "{limit} is asked for. Test again with more outlets open: what follows is little more "
            "than a guess.",
        ),
        Finding(
            "within-tested-flow",
            "Design flow against the tested flow",
            quantity="/outputs/design_flow",
            sense="at-most",
            limit="/outputs/known_flow",
            failed="advisory",
            words_passed="The design flow of {value} lies within reach of the test, {limit}.",
            words_failed="The design flow of {value} lies beyond the reach of the test, {limit}. "
            "Test again with more outlets open.",
            depends_on=("mains-extrapolation-most",),
            source=FLOW_TEST,
        ),
        Finding(
            "mains-reference-level",
            "Main against the reference level",
            quantity="/outputs/reference_head",
            sense="at-least",
            limit="mains-reference-head",
            failed="advisory",
            words_passed="At the reference flow {value} is left at the point of test; the reference "
            "level is {limit} at the boundary.",
            words_failed="At the reference flow only {value} is left at the point of test; the "
            "reference level is {limit} at the boundary. Measure there, and ask the water supplier.",
            depends_on=("mains-reference-flow",),
        ),
        Finding(
            "mains-guaranteed-level",
            "Main against the guaranteed standard",
            quantity="/outputs/static_head",
            sense="at-least",
            limit="mains-guaranteed-head",
            words_passed="With nothing running {value} stands at the point of test; {limit} is "
            "guaranteed.",
            words_failed="With nothing running only {value} stands at the point of test; {limit} is "
            "guaranteed at the boundary. Measure there, and report it to the water supplier.",
        ),
        Finding(
            "mixer-balanced",
            "Pressures on the two sides of a mixer",
            quantity="/outputs/outlets/*/mixer_ratio",
            sense="at-most",
            limit="mixer-pressure-ratio-most",
            words_passed="The two sides of {item} differ by {value} to 1; {limit} to 1 is allowed.",
            words_failed="The two sides of {item} differ by {value} to 1; {limit} to 1 is allowed. "
            "It runs hot or cold: take both sides from behind one reducing valve.",
        ),
        VALVES_WITHIN_CHART,
        Finding(
            "units-in-force",
            "Edition of the loading units",
            quantity="/outputs/demand/units_in_force",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The table of loading units is in force on the date.",
            words_failed="The table of loading units is superseded; it answers because the method "
            "was named. Never mix its units with those of another standard.",
            source=TOGETHER,
        ),
    ),
    cautions=("mains-varies", "water-fittings-law", "hot-water-unvented-competence"),
    refusals=(
        Refused(
            "night-below-static",
            "The highest pressure of the night is below the static pressure of the test",
            "Read the maximum hand again: the night holds the highest.",
        ),
        Refused(
            "reading-flow-missing",
            "A reading has no flow",
            "Give the flow, or the volume and the time it took.",
        ),
        Refused(
            "reading-flow-given-twice",
            "A reading has its flow twice",
            "Give the flow, or the volume and the time, not both.",
        ),
        Refused(
            "dynamic-not-below-static",
            "The pressure with water running is not below the static pressure",
            "Read again: static with everything closed, then with water running.",
        ),
        Refused(
            "drop-below-resolution",
            "The drop of {drop} is no more than the gauge can tell",
            "Open more outlets, or read a finer gauge.",
        ),
        Refused(
            "readings-not-rising",
            "The second reading does not run more than the first",
            "Give two readings at different flows, the smaller first.",
        ),
        Refused(
            "readings-contradict",
            "The readings contradict each other",
            "More flow must leave less pressure, between in proportion and with the square; read "
            "again with nothing else running.",
        ),
        Refused(
            "residual-not-below-static",
            "The residual pressure is not below the static pressure",
            "Ask for a residual pressure below static, allowance and gauge reading included.",
        ),
        Refused(
            "demand-missing",
            "It is not said what is to run",
            "Give design_flow, mark outlets at_once, or give the store.",
        ),
        Refused(
            "demand-given-twice",
            "It is said twice what is to run",
            "Mark outlets at_once, or give design_flow, or let the method find it.",
        ),
        Refused(
            "outlets-missing", "The method needs the outlets", "List the outlets with their kinds."
        ),
        Refused(
            "design-flow-missing",
            "The outlets have {units} loading units together; the standard's figure from units to "
            "flow is not on file",
            "Read the flow from the figure and give it as design_flow.",
        ),
        Refused(
            "design-flow-above-all",
            "The design flow is more than all outlets together take, {flow}",
            "Read the figure again.",
        ),
        Refused(
            "design-flow-below-outlet",
            "The design flow is less than one outlet alone takes",
            "The design flow is never less than the largest outlet: raise it, or mark that outlet.",
        ),
        Refused(
            "flow-beyond-supply",
            "The main cannot give that flow: {flow} at the most, and that with no pressure left",
            "Run less at once, or enlarge the supply.",
        ),
        Refused(
            "height-above-static",
            "The static pressure does not lift water to the end of the supply",
            "Nothing would run there; check the heights and the static pressure.",
        ),
        Refused(
            "store-missing",
            "An outlet is fed by a store that is not given",
            "Give the store, or let the supply feed the outlet.",
        ),
        Refused(
            "store-flow-above-design",
            "More is to flow through the store than runs in all",
            "Give the hot share of the design flow, or leave it out.",
        ),
        Refused(
            "store-flow-below-outlet",
            "Less is to flow through the store than the outlets behind it take",
            "Give at least the hot outlets that run at once, or the largest; or leave it out.",
        ),
        Refused(
            "section-flow-too-small",
            "A section on the way to an outlet carries less than the outlet takes",
            "Give the flow of everything the section feeds, or leave it out.",
        ),
        Refused(
            "mixer-without-pressure",
            "No pressure is left at the mixer to compare",
            "See the pressure that the outlet gets; then compare the two sides.",
        ),
        *REFUSALS,
    ),
    monotonic=(
        Monotonic("/residual_pressure", "/flow_at_residual", "decreasing"),
        Monotonic("/gauge_resolution", "/flow_at_residual", "decreasing"),
        Monotonic("/static_allowance", "/largest_flow", "decreasing"),
        Monotonic("/supply/0/length", "/end_pressure", "decreasing"),
        Monotonic("/supply/0/rise", "/store/available_flow", "decreasing"),
        Monotonic("/store/required_pressure", "/store/available_flow", "decreasing"),
    ),
    charts=(
        LineChart(
            "supply",
            "Supply curve with the design flow",
            series=(
                Series("point of test", "/outputs/curve/flow", "/outputs/curve/pressure"),
                Series(
                    "point of test, at best", "/outputs/curve/flow", "/outputs/curve/pressure_high"
                ),
                Series("end of the supply", "/outputs/curve/flow", "/outputs/curve/end_pressure"),
                Series(
                    "design flow", "/outputs/curve/design_flow", "/outputs/curve/design_pressure"
                ),
            ),
            levels=(Level("store asks for", "/inputs/store/required_pressure"),),
        ),
    ),
    sources=(FLOW_TEST, DARCY_WEISBACH, COLEBROOK),
    example={
        "static_pressure": {"value": 3.5, "unit": "bar"},
        "readings": [
            {"pressure": {"value": 2.6, "unit": "bar"}, "flow": {"value": 15, "unit": "l/min"}}
        ],
        "supply": [
            {
                "name": "rising main",
                "tube": "copper-22",
                "length": {"value": 6, "unit": "m"},
                "rise": {"value": 3, "unit": "m"},
                "fittings_loss": 4,
            }
        ],
        "store": {
            "reducing_valve": {
                "setting": {"value": 3, "unit": "bar"},
                "fall_off": {"value": 0.5, "unit": "bar"},
                "at_flow": {"value": 30, "unit": "l/min"},
                "open_loss": {"value": 0.4, "unit": "bar"},
            },
            "working_pressure": {"value": 3.5, "unit": "bar"},
            "expansion_valve": {"value": 6, "unit": "bar"},
        },
        "night_pressure": {"value": 4.2, "unit": "bar"},
        "outlets": [
            {
                "name": "shower upstairs",
                "flow": {"value": 10, "unit": "l/min"},
                "at_once": True,
                "fed_by": "store",
                "required_pressure": {"value": 1, "unit": "bar"},
                "most_pressure": {"value": 10, "unit": "bar"},
                "sections": [
                    {
                        "name": "hot to shower",
                        "tube": "copper-15",
                        "length": {"value": 8, "unit": "m"},
                        "rise": {"value": 1.5, "unit": "m"},
                        "fittings_loss": 6,
                    }
                ],
            },
            {
                "name": "kitchen tap",
                "fitting": "kitchen-sink",
                "at_once": True,
                "required_pressure": {"value": 0.3, "unit": "bar"},
                "sections": [
                    {
                        "name": "cold to kitchen",
                        "tube": "copper-15",
                        "length": {"value": 5, "unit": "m"},
                        "rise": {"value": -2, "unit": "m"},
                    }
                ],
            },
        ],
    },
)
