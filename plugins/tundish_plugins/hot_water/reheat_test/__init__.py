"""The test of a measured reheat: can the readings be believed, and what would explain them."""

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
from tundish_plugins.hot_water.recovery.formulas import STORE_BALANCE
from tundish_plugins.hot_water.reheat_test.contract import ReheatTestInputs, ReheatTestOutputs
from tundish_plugins.hot_water.reheat_test.formulas import RECONCILED, UNCERTAINTY
from tundish_plugins.hot_water.reheat_test.kernel import kernel

_DOUBT = "the readings are so uncertain that a common fault would agree with them as well."

CALCULATION = Calculation(
    id="reheat-test",
    version="1.0",
    title="Test of a measured reheat",
    summary="Whether a measured reheat can be true: the power it implies against the source and "
    "against source and coil together, with the uncertainty of each reading; and what, alone, "
    "would explain the difference.",
    family="hot-water",
    questions=(
        "Can this reheat time be true?",
        "Is the boiler, the coil or the reading to blame?",
        "What has to be measured next?",
    ),
    inputs=ReheatTestInputs,
    outputs=ReheatTestOutputs,
    kernel=kernel,
    methods=(
        Method(
            "reconciliation",
            "Implied power against source and coil",
            "Heat of the water as read over the time, with uncertainties added in squares. Above "
            "the source is judged against its full power, which no coil can beat; below against "
            "the reheat that source and coil give together, less the standing loss.",
            source=RECONCILED,
        ),
    ),
    needs=(
        Need(
            "reheat-test-coverage",
            "number",
            "Standard uncertainties by which a reading may differ and still agree",
        ),
        Need(
            "reheat-test-doubt-most",
            "number",
            "Doubt, as a share of the power, up to which agreement means anything",
        ),
        Need(
            "hot-water-cut-out-temperature-least",
            "temperature",
            "Where the energy cut-out may trip",
            optional=True,
        ),
    ),
    findings=(
        Finding(
            "readings-decide",
            "Doubt of the readings",
            quantity="/outputs/doubt",
            sense="at-most",
            limit="reheat-test-doubt-most",
            failed="advisory",
            words_passed="The doubt is a share of {value} of the power; up to {limit} a "
            "test decides.",
            words_failed="The doubt is a share of {value} of the power; above {limit} no "
            "agreement means anything. Let the store warm further, and read better thermometers, "
            "a better clock and the true content.",
        ),
        Finding(
            "power-within-source",
            "Implied power against what the source can give",
            quantity="/outputs/mean_power",
            sense="at-most",
            limit="/outputs/most_power",
            capped_unless="/outputs/tells",
            words_capped=_DOUBT,
            words_passed="The readings imply {value} into the store; the source can give up to "
            "{limit}, uncertainty counted.",
            words_failed="Impossible as stated: the readings imply {value} into the store, and the "
            "source can give {limit} at most, uncertainty counted. They cannot all be right for "
            "the whole heated part; this is not the source's output.",
            depends_on=("reheat-test-coverage",),
        ),
        Finding(
            "as-fast-as-predicted",
            "Implied power against source and coil",
            quantity="/outputs/mean_power",
            sense="at-least",
            limit="/outputs/least_power",
            applies_when="/outputs/within_source",
            capped_unless="/outputs/tells",
            words_capped=_DOUBT,
            words_passed="The readings imply {value}; source and coil let expect {limit} or more, "
            "uncertainty counted.",
            words_failed="Too slow: the readings imply only {value}; source and coil let expect "
            "{limit} at least, uncertainty counted. Look at primary flow, air, priority, scale and "
            "the flow temperature that was really held.",
            depends_on=("reheat-test-coverage",),
        ),
        Finding(
            "as-fast-as-source",
            "Implied power against the whole source",
            quantity="/outputs/mean_power",
            sense="at-least",
            limit="/outputs/least_by_source",
            applies_when="/outputs/within_source",
            failed="advisory",
            capped_unless="/outputs/tells",
            words_capped=_DOUBT,
            words_passed="The readings imply {value}, what the source gives to the end; a coil "
            "does not hold it back.",
            words_failed="Provisional: the readings imply only {value}, below the {limit} of the "
            "whole source. Whether that is a fault cannot be said without the coil's rating, the "
            "flow temperature and the primary flow: give them.",
            depends_on=("reheat-test-coverage",),
        ),
        Finding(
            "no-faster-than-predicted",
            "Implied power against the coil's limit",
            quantity="/outputs/mean_power",
            sense="at-most",
            limit="/outputs/most_predicted",
            applies_when="/outputs/within_source",
            failed="advisory",
            capped_unless="/outputs/tells",
            words_capped=_DOUBT,
            words_passed="The readings imply {value}, no more than source and coil give: {limit}, "
            "uncertainty counted.",
            words_failed="The readings imply {value}, more than source and coil let expect: "
            "{limit}, uncertainty counted. Check the coil's data and the flow temperature, and "
            "whether the whole content was cold at the start and hot at the end.",
            depends_on=("reheat-test-coverage",),
        ),
        Finding(
            "store-not-too-hot",
            "End temperature against tempering",
            quantity="/inputs/end_temperature",
            sense="at-most",
            limit="hot-water-store-temperature-untempered",
            words_passed="The store came to {value}; tempering is asked for above {limit}.",
            words_failed="The store came to {value}: water stored above {limit} must not reach the "
            "pipes untempered.",
        ),
        Finding(
            "below-cut-out",
            "End temperature against the safety cut-out",
            quantity="/outputs/below_cut_out",
            sense="is",
            limit=True,
            failed="dangerous",
            depends_on=("hot-water-cut-out-temperature-least",),
            rests_on=(),
            words_passed="The store stayed below where its energy cut-out may trip.",
            words_failed="The store came to where its energy cut-out has to act: the thermostat "
            "did not stop it. Isolate the heat and find out why.",
        ),
    ),
    cautions=(
        "reheat-test-how",
        "hot-water-scalding",
        "hot-water-unvented-competence",
        "hot-water-electrical-work",
    ),
    refusals=(
        Refused(
            "no-rise",
            "The store did not get warmer",
            "Give an end temperature above the start: there is nothing to judge.",
        ),
        Refused(
            "rise-within-uncertainty",
            "The rise is no larger than the readings are uncertain",
            "Let the store warm further, or read with a better thermometer.",
        ),
        Refused(
            "time-within-uncertainty",
            "The time is no longer than it is uncertain",
            "Take a longer test, or a watch.",
        ),
        Refused(
            "end-not-below-flow",
            "The end temperature is not below the flow temperature: the coil can bring the store "
            "to {reachable} at most",
            "Check both thermometers; heat that came from elsewhere is no test of this coil.",
        ),
        Refused(
            "end-unreachable",
            "Source and coil could not bring the store to this end temperature against its loss",
            "Check the end temperature, the source's power and the standing loss.",
        ),
        Refused(
            "flow-temperature-missing",
            "The coil is given without the flow temperature",
            "Give the flow temperature held during the test, or leave out the coil.",
        ),
        Refused(
            "coil-given-twice",
            "The coil is given in more than one way",
            "Give one of rating and conductance.",
        ),
        Refused(
            "rating-impossible",
            "The coil's rating condition cannot be: start, end and flow temperature must rise",
            "Take start, end and flow temperature of the test from the coil's sheet.",
        ),
        Refused(
            "coil-beyond-primary-flow",
            "The coil would take more heat than its primary flow can carry",
            "Check rating, conductance and primary flow: the primary would have to cool below "
            "the store.",
        ),
        Refused(
            "primary-incomplete",
            "The hot primary circuit is not fully described",
            "Give its content and both its temperatures, or none of them.",
        ),
        Refused(
            "primary-not-cooling",
            "The primary circuit did not cool, so it gave no heat of its own",
            "Leave it out, or check its temperatures.",
        ),
        Refused(
            "extra-heat-empty",
            "Extra heat is given with nothing in it",
            "Say what may have come in besides, or leave it out.",
        ),
    ),
    monotonic=(
        Monotonic("/store_volume", "/mean_power", "increasing"),
        Monotonic("/reheat_time", "/mean_power", "decreasing"),
        Monotonic("/end_temperature", "/mean_power", "increasing"),
        Monotonic("/source_power", "/z_source", "decreasing"),
        Monotonic("/source_power", "/predicted_time", "decreasing"),
        Monotonic("/coil_conductance", "/predicted_time", "decreasing"),
        Monotonic("/volume_uncertainty", "/most_power", "increasing"),
        Monotonic("/end_uncertainty", "/most_power", "increasing"),
    ),
    charts=(
        LineChart(
            "reheat",
            "Reheat as measured and as source and coil give it",
            series=(
                Series("predicted", "/outputs/predicted/time", "/outputs/predicted/temperature"),
                Series(
                    "measured, start to end",
                    "/outputs/measured/time",
                    "/outputs/measured/temperature",
                ),
            ),
        ),
        BarChart(
            "causes",
            "Each cause alone, in its own standard uncertainties",
            items="/outputs/explanations",
            label="name",
            bars=(("error needed", "error"),),
        ),
    ),
    sources=(STORE_BALANCE, UNCERTAINTY),
    example={
        "store_volume": {"value": 250, "unit": "l"},
        "start_temperature": {"value": 12, "unit": "degC"},
        "end_temperature": {"value": 57, "unit": "degC"},
        "reheat_time": {"value": 38, "unit": "min"},
        "source_power": {"value": 15, "unit": "kW"},
        "extra_heat": {
            "primary_content": {"value": 80, "unit": "l"},
            "primary_start_temperature": {"value": 70, "unit": "degC"},
            "primary_end_temperature": {"value": 60, "unit": "degC"},
            "immersion_power": {"value": 3, "unit": "kW"},
            "output_gain": 1.07,
        },
    },
    example_region="GB",
)
