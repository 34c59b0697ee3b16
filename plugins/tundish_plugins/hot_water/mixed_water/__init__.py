"""Mixed water: shares, flows and litres of hot and cold, and the temperatures that are safe."""

from __future__ import annotations

from tundish.calculation import (
    Calculation,
    Finding,
    Level,
    LineChart,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish_plugins.hot_water.mixed_water.contract import MixedWaterInputs, MixedWaterOutputs
from tundish_plugins.hot_water.mixed_water.formulas import DEATH, MIXING
from tundish_plugins.hot_water.mixed_water.kernel import kernel

_DEATH = (
    "legionella-death-time-from",
    "legionella-lower-temperature",
    "legionella-lower-death-time",
    "legionella-upper-temperature",
    "legionella-upper-death-time",
)

CALCULATION = Calculation(
    id="mixed-water",
    version="1.0",
    title="Mixed water at an outlet",
    summary="How much hot and cold water make the mixed water, how much of it a store gives, and "
    "whether the temperatures scald or let legionella grow.",
    family="hot-water",
    questions=(
        "How many litres of mixed water does the store give?",
        "How much hot water does a bath or shower take?",
        "Does the mixed water scald, and is the hot water hot enough for hygiene?",
        "Was the water held hot for long enough against legionella?",
    ),
    inputs=MixedWaterInputs,
    outputs=MixedWaterOutputs,
    kernel=kernel,
    needs=(
        Need("burn-time-bands", "table", "Published burn times by water temperature"),
        Need("burn-time-child-share", "number", "Share of an adult's burn time a child has"),
        Need(
            "mixing-valve-temperatures",
            "table",
            "Highest setting and site-test reading of a mixing valve by outlet",
            optional=True,
        ),
        Need(
            "mixed-water-temperature-most",
            "temperature",
            "Mixed water for washing is never above this",
            optional=True,
        ),
        Need(
            "bath-outlet-temperature-most",
            "temperature",
            "Highest temperature at the bath of a new dwelling",
            optional=True,
        ),
        Need(
            "bathing-temperature-vulnerable-most",
            "temperature",
            "Highest temperature for bathing and showering of vulnerable people",
            optional=True,
        ),
        Need("legionella-death-time-from", "temperature", "Lower end of the measured death times"),
        Need("legionella-death-time-to", "temperature", "Upper end of the measured death times"),
        Need(
            "legionella-lower-temperature", "temperature", "Lower temperature of the straight line"
        ),
        Need("legionella-lower-death-time", "time", "Decimal reduction time there"),
        Need(
            "legionella-upper-temperature", "temperature", "Upper temperature of the straight line"
        ),
        Need("legionella-upper-death-time", "time", "Decimal reduction time there"),
    ),
    findings=(
        Finding(
            "outlet-below-scald-limit",
            "Outlet against the scald limit",
            quantity="/inputs/mixed_temperature",
            sense="at-most",
            limit="/outputs/scald_limit",
            failed="dangerous",
            depends_on=("bath-outlet-temperature-most",),
            rests_on=(),
            words_passed="{value} is within {limit}, the most that regulation allows at the bath "
            "of a new dwelling. At that limit skin still burns in minutes.",
            words_failed="{value} scalds: {limit} is the most that regulation allows even at the "
            "bath of a new dwelling. Turn the mixing valve down.",
        ),
        Finding(
            "setting-within-scheme",
            "Setting against the mixing valve scheme",
            quantity="/inputs/mixed_temperature",
            sense="at-most",
            limit="/outputs/set_limit",
            depends_on=("mixing-valve-temperatures",),
            rests_on=(),
            words_passed="Set to {value}; the scheme allows {limit} at this outlet.",
            words_failed="Set to {value}; the scheme for thermostatic mixing valves allows only "
            "{limit} at this outlet.",
        ),
        Finding(
            "mixed-below-ceiling",
            "Mixed water against the ceiling of the scheme",
            quantity="/inputs/mixed_temperature",
            sense="at-most",
            limit="/outputs/ceiling",
            depends_on=("mixed-water-temperature-most",),
            rests_on=(),
            words_passed="{value} is within the ceiling of {limit}.",
            words_failed="{value} is above {limit}, which mixed water for washing never exceeds.",
        ),
        Finding(
            "safe-for-vulnerable-people",
            "Bathing temperature for vulnerable people",
            quantity="/inputs/mixed_temperature",
            sense="at-most",
            limit="/outputs/vulnerable_limit",
            failed="dangerous",
            depends_on=("bathing-temperature-vulnerable-most",),
            rests_on=(),
            words_passed="{value} is within {limit}, above which vulnerable people are at risk of "
            "serious injury. Test it before each bath all the same.",
            words_failed="{value} can kill: above {limit} vulnerable people are at risk of serious "
            "injury or death in a bath or shower.",
        ),
        Finding(
            "test-within-scheme",
            "Site test of the mixing valve",
            quantity="/inputs/test_temperature",
            sense="at-most",
            limit="/outputs/test_limit",
            depends_on=("mixing-valve-temperatures",),
            rests_on=(),
            words_passed="{value} was measured; up to {limit} is allowed in a site test.",
            words_failed="{value} was measured; only {limit} is allowed in a site test. Set the "
            "valve again, service it, and test it again before use.",
        ),
        Finding(
            "test-below-scald-limit",
            "Measured outlet against the scald limit",
            quantity="/inputs/test_temperature",
            sense="at-most",
            limit="/outputs/scald_limit",
            failed="dangerous",
            depends_on=("bath-outlet-temperature-most",),
            rests_on=(),
            words_passed="The {value} measured are within {limit}.",
            words_failed="The outlet was measured at {value}, above {limit}: it scalds. Take it "
            "out of use until the valve is put right.",
        ),
        Finding(
            "hot-supply-hot-enough",
            "Hot water where it is mixed",
            quantity="/inputs/hot_temperature",
            sense="at-least",
            limit="hot-tap-temperature-least",
            words_passed="Hot water arrives at {value}; at least {limit} is asked for.",
            words_failed="Hot water arrives at only {value}; at least {limit} is asked for against "
            "legionella.",
        ),
        Finding(
            "cold-supply-cold-enough",
            "Cold water where it is mixed",
            quantity="/inputs/cold_temperature",
            sense="at-most",
            limit="cold-tap-temperature-most",
            words_passed="Cold water of {value} is within {limit}.",
            words_failed="Cold water of {value} is above {limit}: legionella can grow in it. Look "
            "for a cold pipe beside a hot one or a warm cistern.",
        ),
        Finding(
            "store-hot-enough",
            "Stored temperature against legionella",
            quantity="/inputs/store/temperature",
            sense="at-least",
            limit="hot-water-store-temperature-least",
            words_passed="Stored at {value}; at least {limit} is asked for.",
            words_failed="Stored at only {value}; at least {limit} is asked for against legionella.",
        ),
        Finding(
            "store-not-too-hot",
            "Stored temperature against tempering",
            quantity="/inputs/store/temperature",
            sense="at-most",
            limit="hot-water-store-temperature-untempered",
            failed="dangerous",
            applies_when="not /inputs/tempering_valve",
            words_passed="Stored at {value}; tempering is asked for above {limit}.",
            words_failed="Stored at {value} with no tempering valve: above {limit} the water must "
            "not reach the pipes untempered.",
        ),
        Finding(
            "hot-not-above-store",
            "Hot water against its store",
            quantity="/inputs/hot_temperature",
            sense="at-most",
            limit="/inputs/store/temperature",
            failed="advisory",
            source=MIXING,
            words_passed="Hot water arrives at {value} from a store at {limit}.",
            words_failed="Hot water cannot arrive at {value} from a store at {limit}: one of the "
            "two readings is wrong, or the store is hotter at its top.",
        ),
        Finding(
            "store-gives-the-volume",
            "Mixed water of the store against one use",
            quantity="/outputs/store_mixed_volume",
            sense="at-least",
            limit="/inputs/mixed_volume",
            rests_on=("cold-water-temperature",),
            source=MIXING,
            words_passed="The store gives {value}; one use takes {limit}.",
            words_failed="The store gives only {value}; one use takes {limit}.",
        ),
        Finding(
            "hot-tap-hot-enough",
            "Temperature of the hot tap",
            quantity="/inputs/hot_tap/temperature",
            sense="at-least",
            limit="hot-tap-temperature-least",
            applies_when="not /inputs/healthcare",
            words_passed="The hot tap reached {value}; at least {limit} is asked for.",
            words_failed="The hot tap reached only {value}; at least {limit} is asked for.",
        ),
        Finding(
            "hot-tap-hot-enough-healthcare",
            "Temperature of the hot tap of a hospital or care home",
            quantity="/inputs/hot_tap/temperature",
            sense="at-least",
            limit="hot-tap-temperature-least-healthcare",
            applies_when="/inputs/healthcare",
            words_passed="The hot tap reached {value}; at least {limit} is asked for.",
            words_failed="The hot tap reached only {value}; at least {limit} is asked for where "
            "people are cared for.",
        ),
        Finding(
            "hot-tap-in-time",
            "Wait at the hot tap",
            quantity="/inputs/hot_tap/after",
            sense="at-most",
            limit="hot-tap-time-most",
            words_passed="Read after {value}; it shall be hot within {limit}.",
            words_failed="Read only after {value}; it shall be hot within {limit}.",
        ),
        Finding(
            "hot-tap-in-time-water-regulations",
            "Wait at the hot tap against the guidance to the water regulations",
            quantity="/inputs/hot_tap/after",
            sense="at-most",
            limit="hot-tap-time-water-regulations-most",
            words_passed="Read after {value}; the guidance says within {limit}.",
            words_failed="Read only after {value}; the guidance to the water regulations says "
            "within {limit}. Shorten or circulate the pipe, or trace heat it.",
        ),
        Finding(
            "cold-tap-cold-enough",
            "Temperature of the cold tap",
            quantity="/inputs/cold_tap/temperature",
            sense="at-most",
            limit="cold-tap-temperature-most",
            words_passed="The cold tap ran at {value}, within {limit}.",
            words_failed="The cold tap ran at {value}, above {limit}: legionella can grow.",
        ),
        Finding(
            "cold-tap-in-time",
            "Wait at the cold tap",
            quantity="/inputs/cold_tap/after",
            sense="at-most",
            limit="cold-tap-time-most",
            words_passed="Read after {value}; it shall be cold within {limit}.",
            words_failed="Read only after {value}; it shall be cold within {limit}.",
        ),
        Finding(
            "pasteurised",
            "Time held hot",
            quantity="/outputs/pasteurisation/log_reduction",
            sense="at-least",
            limit="/inputs/pasteurisation/log_reduction",
            passed="advisory",
            rests_on=("legionella-log-reduction", *_DEATH),
            source=DEATH,
            words_passed="By published death times the bacteria fall by {value} powers of ten, "
            "{limit} were wanted. Strains differ widely, and only a water sample proves it.",
            words_failed="By published death times the bacteria fall by only {value} powers of "
            "ten; {limit} were wanted. Hold it longer or hotter.",
        ),
    ),
    cautions=(
        "hot-water-scalding",
        "mixed-water-burn-times",
        "mixing-valve-lukewarm-leg",
        "legionella-pasteurisation",
    ),
    refusals=(
        Refused(
            "mix-not-above-cold",
            "Mixed water cannot be as cold as the cold water or colder",
            "Give a mixed temperature above the cold water's.",
        ),
        Refused(
            "mix-above-hot",
            "Mixed water cannot be hotter than the hot water, which is at {hot}",
            "Give a lower mixed temperature, or hotter water at the valve.",
        ),
        Refused(
            "store-too-cool-to-mix",
            "The store is not hotter than the mixed water asked for, {mixed}",
            "Reheat the store or ask for cooler mixed water: no mixing makes water hotter.",
        ),
        Refused(
            "pasteurisation-outside-range",
            "Death times of legionella were measured from {low} to {high} only",
            "Give a temperature inside that range; below it do not rely on heat, above it take "
            "the time at its upper end, which is longer.",
        ),
    ),
    monotonic=(
        Monotonic("/mixed_temperature", "/hot_share", "increasing"),
        Monotonic("/hot_temperature", "/hot_share", "decreasing"),
        Monotonic("/cold_temperature", "/hot_share", "decreasing"),
        Monotonic("/mixed_temperature", "/store_mixed_volume", "decreasing"),
        Monotonic("/store/temperature", "/store_mixed_volume", "increasing"),
        Monotonic("/store/volume", "/store_mixed_volume", "increasing"),
        Monotonic("/mixed_flow", "/heat_flow", "increasing"),
        Monotonic("/mixed_flow", "/store_draw_time", "decreasing"),
        Monotonic("/mixed_temperature", "/burn_time", "decreasing"),
        Monotonic("/pasteurisation/temperature", "/pasteurisation/log_reduction", "increasing"),
        Monotonic("/pasteurisation/hold_time", "/pasteurisation/log_reduction", "increasing"),
    ),
    charts=(
        LineChart(
            "share",
            "Hot water in 100 litres of mixed water",
            series=(
                Series(
                    "hot water",
                    "/outputs/share_curve/temperature",
                    "/outputs/share_curve/hot_water",
                ),
            ),
        ),
        LineChart(
            "store",
            "Mixed water from the store",
            series=(
                Series(
                    "mixed water", "/outputs/store_curve/temperature", "/outputs/store_curve/volume"
                ),
            ),
            levels=(Level("one use", "/inputs/mixed_volume"),),
        ),
    ),
    example={
        "cold_temperature": {"value": 10, "unit": "degC"},
        "hot_temperature": {"value": 58, "unit": "degC"},
        "mixed_temperature": {"value": 41, "unit": "degC"},
        "outlet": "shower",
        "mixed_flow": {"value": 9, "unit": "l/min"},
        "mixed_volume": {"value": 60, "unit": "l"},
        "store": {
            "volume": {"value": 200, "unit": "l"},
            "temperature": {"value": 60, "unit": "degC"},
            "usable_share": 0.9,
        },
        "test_temperature": {"value": 41.5, "unit": "degC"},
        "hot_tap": {
            "temperature": {"value": 55, "unit": "degC"},
            "after": {"value": 25, "unit": "s"},
        },
        "cold_tap": {
            "temperature": {"value": 12, "unit": "degC"},
            "after": {"value": 60, "unit": "s"},
        },
    },
)
