"""Gas rate: what the meter passes in a time, and the heat input that follows."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Method,
    Monotonic,
    Need,
    Refused,
)
from tundish_plugins.gas.rate.contract import RateInputs, RateOutputs
from tundish_plugins.gas.rate.formulas import BAND, ERROR, RATE
from tundish_plugins.gas.rate.kernel import kernel

_COARSE = (
    "the error of the reading is more than half the tolerance. Run the test longer, for the time "
    "given."
)

CALCULATION = Calculation(
    id="gas-rate",
    version="1.0",
    title="Gas rate and heat input",
    summary="Heat input, gross and net, from a metric or an imperial meter, with the error of the "
    "reading, against the rated heat input.",
    family="gas",
    questions=(
        "Does the boiler burn what its plate says?",
        "How long must the test run for a verdict?",
        "In how many seconds must the meter pass a set volume?",
    ),
    inputs=RateInputs,
    outputs=RateOutputs,
    kernel=kernel,
    methods=(
        Method(
            "meter-and-stopwatch",
            "Meter and stopwatch",
            "Volume over time, times the calorific value. Corrected for pressure and temperature "
            "only where these are given, and then once.",
            source=RATE,
        ),
    ),
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("gas-rate-steps-least", "number", "Least steps of the meter for a verdict"),
        Need("gas-families", "table", "Wobbe index and relative density of a family"),
        Need("gas-flow-most", "gas_flow_15", "Greatest flow of domestic work", optional=True),
        Need("gas-billing-factor", "number", "Fixed factor of the bill", optional=True),
    ),
    findings=(
        Finding(
            "input-at-most-rated",
            "Heat input against the upper end of the tolerance",
            quantity="/outputs/net_input",
            sense="at-most",
            limit="/outputs/greatest_accepted",
            capped_unless="/outputs/surely_not_over",
            words_capped="with the error of the reading it may burn more than that. Run the test "
            "longer, for the time given.",
            words_passed="It burns {value} net; {limit} is the most accepted.",
            words_failed="It burns {value} net; only {limit} is accepted: over-rated. Find out why "
            "and set it by the maker's instructions, or turn it off.",
            source=BAND,
        ),
        Finding(
            "input-at-least-rated",
            "Heat input against the lower end of the tolerance",
            quantity="/outputs/net_input",
            sense="at-least",
            limit="/outputs/least_accepted",
            capped_unless="/outputs/precise",
            words_capped=_COARSE,
            words_passed="It burns {value} net; {limit} is the least accepted.",
            words_failed="It burns {value} net; at least {limit} is expected: under-rated. Check "
            "that it runs at full rate, then pressures, pipe and burner.",
            source=BAND,
        ),
        Finding(
            "reading-error",
            "Error of the reading against half the tolerance",
            quantity="/outputs/reading_error",
            sense="at-most",
            limit="/outputs/largest_error",
            failed="advisory",
            words_passed="The reading may be wrong by a share of {value}; {limit} will do for a "
            "verdict.",
            words_failed="The reading may be wrong by a share of {value}; a verdict takes "
            "{limit} at most: time it longer.",
            source=ERROR,
        ),
        Finding(
            "gas-state",
            "Pressure and temperature of the metered gas",
            quantity="/outputs/state_known",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="Pressure and temperature were given, or the meter converts by itself.",
            words_failed="Pressure or temperature of the gas at the meter was not given: cold gas "
            "under pressure holds more than was reckoned, some hundredths of the heat input. Give "
            "both before the burner is called right.",
            rests_on=(),
            source=RATE,
        ),
        Finding(
            "rated-input",
            "Rated heat input",
            quantity="/outputs/rated_known",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The rated heat input was given, and the reading is held against it.",
            words_failed="The rated heat input was not given: the reading is not judged.",
            source=BAND,
        ),
        Finding(
            "test-time",
            "Length of the test",
            quantity="/inputs/time",
            sense="at-least",
            limit="gas-rate-test-time",
            applies_when="/outputs/by_counter",
            failed="advisory",
            words_passed="The test ran {value}; {limit} is asked for.",
            words_failed="The test ran {value}; {limit} is asked for on a metric meter.",
        ),
    ),
    cautions=("gas-registered-person", "gas-smell", "gas-rate-test"),
    refusals=(
        Refused(
            "time-not-positive", "The time is not above zero", "Give the seconds the test ran."
        ),
        Refused(
            "volume-missing",
            "It is not said what passed",
            "Give volume, or start and end, or the dial.",
        ),
        Refused(
            "volume-given-twice",
            "What passed is given in more than one way",
            "Give volume, or start and end, or the dial.",
        ),
        Refused("reading-missing", "One of two readings is missing", "Give start and end."),
        Refused(
            "meter-runs-back",
            "The second reading is below the first",
            "Correct them. If the counter passed its last figure, give the volume that passed.",
        ),
        Refused(
            "nothing-passed",
            "Nothing passed the meter",
            "Check that the appliance burns and that this meter serves it.",
        ),
        Refused(
            "step-missing",
            "The step of the meter is not given",
            "Give the least step that can be read, such as 0.001 m3.",
        ),
        Refused(
            "too-few-steps",
            "Only {passed} passed, fewer than {least} steps of the meter: no verdict",
            "Run the test longer. Without rated_input the figures are given, with their error.",
        ),
        Refused(
            "calorific-value-of-no-such-gas",
            "{given} gross is the calorific value of no gas of this family: {least} to {most}",
            "Give gas and calorific value of the same gas, the value in its own unit and on its own "
            "basis: gross on a bill.",
        ),
        Refused(
            "rate-beyond-meter",
            "{rate} is more than the meter passes: {most} on its badge",
            "Check readings, step, dial and seconds. If they are right the meter is too small for "
            "what burns: turn appliances off and tell the gas supplier.",
        ),
        Refused(
            "beyond-domestic-scope",
            "{rate} passed, above the {most} of domestic work",
            "Check readings, step, dial and seconds: a decimal point is easily a tenfold rate.",
        ),
        Refused(
            "corrected-twice",
            "The meter converts its reading, and a correction is asked for besides",
            "Leave meter_pressure and gas_temperature out, or meter_converts.",
        ),
    ),
    monotonic=(
        Monotonic("/time", "/net_input", "decreasing"),
        Monotonic("/time", "/reading_error", "decreasing"),
        Monotonic("/volume", "/net_input", "increasing"),
        Monotonic("/meter_pressure", "/net_input", "increasing"),
        Monotonic("/target_volume", "/time_for_volume", "increasing"),
    ),
    charts=(
        BarChart(
            "compared",
            "Net heat input as read, with its error, and as rated",
            items="/outputs/compared",
            label="name",
            bars=(("heat input", "heat_input"),),
        ),
    ),
    example={
        "gas": "natural-gas",
        "calorific_value": {"value": 39.4, "unit": "MJ/m3", "basis": "gross"},
        "start": {"value": 1204.316, "unit": "m3"},
        "end": {"value": 1204.402, "unit": "m3"},
        "step": {"value": 0.001, "unit": "m3"},
        "time": {"value": 121, "unit": "s"},
        "rated_input": {"value": 24.8, "unit": "kW", "basis": "net"},
    },
)
