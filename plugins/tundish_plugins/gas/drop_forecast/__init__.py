"""Forecast of the drop of a gas pipe that cannot be seen, from drops read at other rates."""

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
from tundish_plugins.gas.drop_forecast.contract import DropForecastInputs, DropForecastOutputs
from tundish_plugins.gas.drop_forecast.formulas import CHOICE, SIMILAR
from tundish_plugins.gas.drop_forecast.kernel import kernel

_LIMITS = (("natural", "", "natural gas"), ("lpg", "-lpg", "liquefied petroleum gas"))
_HIGHEST = tuple(
    Finding(
        f"highest-drop-within-limit{ending}",
        f"Upper end of the forecast against the limit, {words}",
        quantity="/outputs/highest_drop",
        sense="at-most",
        limit=f"gas-drop-limit-{family}",
        failed="advisory",
        applies_when=f"/outputs/family == {family}",
        capped_unless="not /inputs/shared_run",
        words_capped="other appliances share the run, and the drop with all of them at full rate "
        "is not in the readings.",
        words_passed="At the new rate the drop is {value} at most; {limit} is allowed.",
        words_failed="At the new rate the drop may be as high as {value}; {limit} is allowed. It "
        "is not shown that the pipe will do.",
    )
    for family, ending, words in _LIMITS
)
_LOWEST = tuple(
    Finding(
        f"lowest-drop-within-limit{ending}",
        f"Lower end of the forecast against the limit, {words}",
        quantity="/outputs/lowest_drop",
        sense="at-most",
        limit=f"gas-drop-limit-{family}",
        applies_when=f"/outputs/family == {family}",
        words_passed="At the new rate the drop is at least {value}, which does not by itself "
        "exceed the {limit} allowed.",
        words_failed="At the new rate the drop is at least {value}; only {limit} is allowed. Lay "
        "a larger pipe or choose a smaller appliance.",
    )
    for family, ending, words in _LIMITS
)

_AS_READ = tuple(
    Finding(
        f"drop-as-read{ending}",
        f"Drop as read against the limit, {words}",
        quantity="/inputs/readings/*/drop",
        sense="at-most",
        limit=f"gas-drop-limit-{family}",
        applies_when=f"/outputs/family == {family}",
        failed="advisory",
        words_passed="{item}: {value} was lost at the rate of the reading; {limit} is allowed.",
        words_failed="{item}: {value} was lost at the rate of the reading; only {limit} is allowed. "
        "Whatever the new rate, the pipe is too small for what burnt then: have the pressures of "
        "the present appliance judged before it is used on.",
    )
    for family, ending, words in _LIMITS
)

CALCULATION = Calculation(
    id="gas-drop-forecast",
    version="1.0",
    title="Forecast of the drop of a gas pipe that cannot be seen",
    summary="From drops read at known rates: the drop at a new rate with its band, what the pipe "
    "could be, the largest rate within the limit, and which reading would settle it.",
    family="gas",
    questions=(
        "Will the buried gas pipe carry the new boiler, before anything is bought?",
        "How large may the new boiler be on this pipe?",
        "Which further reading would settle it?",
    ),
    inputs=DropForecastInputs,
    outputs=DropForecastOutputs,
    kernel=kernel,
    methods=(
        Method(
            "bounds",
            "Bounds over the tubes it could be",
            "Every tube of the region, smooth or rough, its flow turned turbulent to any degree "
            "where that is uncertain, alone or in series with others and with fittings, is held "
            "against the readings; the band runs over all that agree. Readings are widened by "
            "gauge and rate to hold in 95 of 100.",
            source=SIMILAR,
        ),
    ),
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("gas-tubes", "table", "Tubes"),
        Need("gas-tubes-further", "table", "Tubes of steel and plastic"),
        Need("gas-forecast-series", "text", "Series of tubes tried"),
        Need("gas-roughness-least", "length", "Least roughness of a gas pipe"),
        Need("gas-roughness-most", "length", "Greatest roughness of a gas pipe in use"),
        Need("gas-drop-limit-natural", "pressure_difference", "Greatest drop, natural gas"),
        Need("gas-drop-limit-lpg", "pressure_difference", "Greatest drop, LPG"),
        Need("gas-drop-of-method-most", "pressure_difference", "Greatest drop of the method"),
    ),
    findings=(
        *_HIGHEST,
        *_LOWEST,
        *_AS_READ,
        Finding(
            "evidence",
            "Weight of the readings",
            quantity="/outputs/decided",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The readings decide: the whole band lies on one side of the limit.",
            words_failed="The readings do not decide: the limit lies within the band. Do not buy on "
            "them; see what would settle it.",
            source=CHOICE,
        ),
        Finding(
            "run-alone",
            "Other appliances on the run",
            quantity="/inputs/shared_run",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="Nothing else draws gas through the run.",
            words_failed="Other appliances draw gas through a part of the run. With them at full "
            "rate the drop is greater than forecast: read it with all of them on.",
            source=SIMILAR,
        ),
    ),
    cautions=("gas-registered-person", "gas-smell", "gas-proving", "gas-forecast-no-proof"),
    refusals=(
        Refused(
            "new-rate-missing", "The new rate is not given", "Give new_rate or new_heat_input."
        ),
        Refused("new-rate-given-twice", "The new rate is given twice", "Give one of them."),
        Refused(
            "drop-negative",
            "The pressure at the appliance is read higher than at the meter",
            "No flow does that. Zero the gauge, use one gauge for both, and read both at one rate.",
        ),
        Refused(
            "drop-below-gauge-step",
            "The drop is less than one step of the gauge, {step}: nothing was measured",
            "Use a finer gauge, or a higher rate.",
        ),
        Refused(
            "rate-beyond-meter",
            "The rate {rate} is above the {most} that the meter passes",
            "Check the rate and the badge. A larger load needs a larger meter from the supplier.",
        ),
        Refused(
            "readings-contradictory",
            "This drop cannot be: the other readings leave {least} to {most} at this rate",
            "Read again: same gauge, same point, same appliances off, steady rate.",
        ),
        Refused(
            "no-tube-possible",
            "No tube and no length that was named drops as read",
            "Check the readings; leave tubes and lengths out unless they are known for certain.",
        ),
        Refused(
            "readings-do-not-meet",
            "The readings leave no common drop at the new rate: by one it is at least {least}, by "
            "another at most {most}",
            "Read again: same gauge, same point, same appliances off, steady rate.",
        ),
        Refused(
            "tube-without-bore",
            "No bore is on file for {tube}",
            "Corrugated tubing has no bore, and drops by its maker's table only. Leave it out.",
        ),
        Refused(
            "lengths-crossed",
            "The greatest length is less than the least",
            "Correct shortest_length or longest_length.",
        ),
        Refused(
            "drop-beyond-method",
            "The drop could be {drop}, beyond the {most} for which the method holds",
            "No gas would arrive at this rate. Check the readings, or forecast a smaller rate.",
        ),
    ),
    monotonic=(
        Monotonic("/new_rate", "/highest_drop", "increasing"),
        Monotonic("/new_rate", "/lowest_drop", "increasing"),
        Monotonic("/rate_uncertainty", "/highest_drop", "increasing"),
        Monotonic("/rate_uncertainty", "/largest_rate", "decreasing"),
        Monotonic("/longest_length", "/largest_rate", "decreasing"),
    ),
    charts=(
        LineChart(
            "band",
            "Drop over the rate",
            series=(
                Series("highest", "/outputs/band/rate", "/outputs/band/highest"),
                Series("lowest", "/outputs/band/rate", "/outputs/band/lowest"),
            ),
            levels=(Level("limit", "/outputs/drop_limit"),),
        ),
    ),
    example={
        "gas": "natural-gas",
        "readings": [
            {
                "name": "old boiler",
                "rate": {"value": 1.9, "unit": "m3/h"},
                "drop": {"value": 0.21, "unit": "mbar"},
                "resolution": {"value": 0.01, "unit": "mbar"},
            }
        ],
        "new_heat_input": {"value": 30, "unit": "kW", "basis": "net"},
        "meter_capacity": {"value": 6, "unit": "m3/h"},
        "shared_run": False,
        "longest_length": {"value": 25, "unit": "m"},
    },
)
