"""Turning an old house to mains pressure: what every part had, what it gets, what must be done."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Monotonic,
    Need,
    Refused,
)
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish_plugins.water_supply.conversion_pressure.contract import (
    ConversionInputs,
    ConversionOutputs,
)
from tundish_plugins.water_supply.conversion_pressure.formulas import (
    JOUKOWSKY,
)
from tundish_plugins.water_supply.conversion_pressure.kernel import kernel
from tundish_plugins.water_supply.elasticity import KORTEWEG, THICK_TUBE, WATER_GIVE_FIT
from tundish_plugins.water_supply.formulas import REDUCING_VALVE
from tundish_plugins.water_supply.proof import TEST_FACTOR

_WATER = ("cold-water-temperature",)
"""For the weight of the water, where its temperature is not given."""
_DAY = (
    "the main's pressure is a single reading, and it rises at night: leave a gauge with a maximum "
    "hand on overnight."
)
_NOTICE = "Give notice and wait for consent before the work begins."

CALCULATION = Calculation(
    id="conversion-pressure",
    version="1.0",
    title="Old pipes and fittings under mains pressure",
    summary="Pressure at every old part before and after the loft cistern goes, surge included, "
    "against its rating, and what must be changed, proved or capped before the water is turned on.",
    family="water-supply",
    questions=(
        "Will old pipes and fittings stand it when the cisterns go?",
        "What must be changed or tested before the water is turned on?",
        "Are hot and cold still balanced at the mixers?",
        "Must the water undertaker be told first?",
    ),
    inputs=ConversionInputs,
    outputs=ConversionOutputs,
    kernel=kernel,
    needs=(
        Need("conversion-parts", "table", "What old kinds of part need before mains pressure"),
        Need(
            "conversion-parts-regulation",
            "table",
            "What the law says of such parts",
            optional=True,
        ),
        Need("pipe-elasticity", "table", "Elasticity of pipe materials"),
        Need("water-tubes", "table", "Tubes by outside diameter and wall"),
        Need("strength-test-factor", "number", "Test pressure over highest working pressure"),
        Need("notice-operations", "text", "Work to be notified", optional=True),
    ),
    findings=(
        Finding(
            "static-within-rating",
            "Standing pressure against the rating",
            quantity="/outputs/parts/*/worst",
            sense="at-most",
            limit="/inputs/parts/*/rating",
            rests_on=_WATER,
            failed="dangerous",
            capped_unless="/outputs/parts/*/highest_known",
            words_capped=_DAY,
            words_passed="{item}: {value} at most, rated {limit}.",
            words_failed="{item}: {value} of standing pressure on a part rated {limit}. It can "
            "burst while nobody is there. Change it, or lower the pressure there with a reducing "
            "valve, before the water is turned on.",
            source=REDUCING_VALVE,
        ),
        Finding(
            "peak-within-rating",
            "Pressure with computed surge against the rating",
            quantity="/outputs/parts/*/peak",
            sense="at-most",
            limit="/inputs/parts/*/rating",
            rests_on=(*_WATER, "pipe-elasticity", "water-tubes"),
            applies_when="/outputs/parts/*/surge_computed",
            capped_unless="/outputs/parts/*/highest_known",
            words_capped=_DAY,
            words_passed="{item}: {value} with the surge, rated {limit}.",
            words_failed="{item}: the surge takes it to {value}, above its rating of {limit}. "
            "Slow the closing, slow the water with a larger pipe, lower the pressure, or fit an "
            "arrester.",
            source=JOUKOWSKY,
        ),
        Finding(
            "peak-allowed-for-within-rating",
            "Pressure with the surge allowance against the rating",
            quantity="/outputs/parts/*/peak",
            sense="at-most",
            limit="/inputs/parts/*/rating",
            rests_on=(*_WATER, "surge-allowance"),
            applies_when="not /outputs/parts/*/surge_computed",
            passed="advisory",
            words_passed="{item}: {value} with an allowance for surge, rated {limit}. The surge is "
            "not computed.",
            words_failed="{item}: {value} with the allowance for surge is above its rating of "
            "{limit}. Compute the surge, lower the pressure or change the part.",
            depends_on=("surge-allowance",),
        ),
        Finding(
            "holds-if-valve-lets-by",
            "Pressure of the main against the rating, if the reducing valve lets by",
            quantity="/outputs/parts/*/valve_failed",
            sense="at-most",
            limit="/inputs/parts/*/rating",
            rests_on=_WATER,
            failed="advisory",
            capped_unless="/inputs/recorded_overnight",
            words_capped=_DAY,
            words_passed="{item}: {value} if the reducing valve lets by, rated {limit}.",
            words_failed="{item}: {value} if the reducing valve lets by, more than its rating of "
            "{limit}. The valve is then a safety device: keep it serviced, with a gauge behind it.",
            source=REDUCING_VALVE,
        ),
        Finding(
            "strength-known",
            "Rating or proof of what stays",
            quantity="/outputs/parts/*/strength_known",
            sense="is",
            limit=True,
            rests_on=(*_WATER, "strength-test-factor"),
            applies_when="/outputs/parts/*/kept",
            words_passed="{item}: its rating is known, or a test has proved it.",
            words_failed="{item}: neither a rating nor a sufficient test is known. Find its rating "
            "or prove it by test before the water is turned on.",
            source=TEST_FACTOR,
        ),
        Finding(
            "proved-before-filling",
            "Proof of what the eye cannot judge",
            quantity="/inputs/parts/*/proved_to",
            sense="at-least",
            limit="/outputs/parts/*/proof_needed",
            rests_on=(*_WATER, "strength-test-factor"),
            applies_when="/outputs/parts/*/must_prove",
            words_passed="{item}: has held {value}; {limit} is asked for.",
            words_failed="{item}: proved to {value}, and {limit} is asked for. Test it with water "
            "before the main is connected.",
            depends_on=("strength-test-factor",),
        ),
        Finding(
            "old-part-changed",
            "Plan for parts that cannot stay",
            quantity="/outputs/parts/*/must_change",
            sense="is",
            limit=False,
            applies_when="/outputs/parts/*/listed_to_go",
            words_passed="{item}: will be changed or taken out.",
            words_failed="{item}: such a part cannot stay under mains pressure. See its action and "
            "reason; change it before the water is turned on.",
            depends_on=("conversion-parts",),
        ),
        Finding(
            "dangerous-part-changed",
            "Plan for parts that mains pressure makes dangerous",
            quantity="/outputs/parts/*/must_change",
            sense="is",
            limit=False,
            applies_when="/outputs/parts/*/listed_dangerous",
            failed="dangerous",
            words_passed="{item}: will be gone before the water is turned on.",
            words_failed="{item}: kept under mains pressure this can burst, flood or scald. Do not "
            "turn the water on until it is gone.",
            depends_on=("conversion-parts",),
        ),
        Finding(
            "part-checked",
            "Check of parts that may stay",
            quantity="/inputs/parts/*/checked",
            sense="is",
            limit=True,
            applies_when="/outputs/parts/*/must_check",
            failed="advisory",
            words_passed="{item}: checked for the new pressure.",
            words_failed="{item}: check its data plate, its seals and its condition for the new "
            "pressure first. See its reason.",
            depends_on=("conversion-parts",),
        ),
        Finding(
            "backflow-prevented",
            "Backflow protection against the fluid category",
            quantity="/inputs/parts/*/backflow_category",
            sense="at-least",
            limit="/outputs/parts/*/fluid_category",
            words_passed="{item}: protected for fluid category {value}; {limit} is asked for.",
            words_failed="{item}: protected for fluid category {value} only, and {limit} is asked "
            "for: what is in the hose, bowl or bath could be drawn into drinking water.",
            depends_on=("conversion-parts",),
        ),
        Finding(
            "ends-capped",
            "Ends of pipes to what goes",
            quantity="/inputs/parts/*/capped",
            sense="is",
            limit=True,
            applies_when="/outputs/parts/*/cut_off",
            words_passed="{item}: its pipes are cut back and capped.",
            words_failed="{item}: its pipes are not yet cut back and capped. An open end floods "
            "the house when the main is turned on, and a long dead end goes stale.",
            source=HYDROSTATICS,
        ),
        Finding(
            "night-pressure-recorded",
            "How the main's pressure was read",
            quantity="/inputs/recorded_overnight",
            sense="is",
            limit=True,
            applies_when="/outputs/mains_reaches",
            words_passed="The main's pressure is the highest of a night.",
            words_failed="The main's pressure is a single reading. It rises at night, when nobody "
            "draws, and no reducing valve stands before some parts: leave a gauge with a "
            "maximum hand on overnight, then judge again.",
            source=HYDROSTATICS,
        ),
        Finding(
            "settings-in-order",
            "Order of reducing valve, expansion valve and relief valve",
            quantity="/outputs/settings_in_order",
            sense="is",
            limit=True,
            rests_on=_WATER,
            passed="advisory",
            words_passed="The settings that were given rise in order from the cold supply over the "
            "expansion valve to the relief valve; keep to those of the store's maker.",
            words_failed="The expansion valve would lift on cold pressure alone, or the relief "
            "valve before it: lower the reducing valve's setting or fit the maker's valves.",
            source=REDUCING_VALVE,
        ),
        Finding(
            "mixer-from-one-source",
            "Kind of supply on the two sides of a mixer",
            quantity="/outputs/mixers/*/one_source",
            sense="is",
            limit=True,
            rests_on=(),
            words_passed="{item}: hot and cold both from the main, or both from a cistern.",
            words_failed="{item}: one side from the main and the other from a cistern. The main "
            "pushes into the cistern, and the temperature jumps when either fails.",
            source=HYDROSTATICS,
        ),
        Finding(
            "mixer-pressures-balanced",
            "Ratio of the pressures at a mixer against the most allowed",
            quantity="/outputs/mixers/*/ratio",
            sense="at-most",
            limit="mixer-pressure-ratio-most",
            rests_on=_WATER,
            words_passed="{item}: one pressure is {value} times the other, {limit} at most.",
            words_failed="{item}: one pressure is {value} times the other, {limit} at most: it will "
            "run hot or cold as other taps open. Take the cold from behind the same valve.",
        ),
        Finding(
            "mixer-pressures-nearly-equal",
            "Ratio of the pressures at a mixer against good practice",
            quantity="/outputs/mixers/*/ratio",
            sense="at-most",
            limit="mixer-pressure-ratio-good",
            rests_on=_WATER,
            failed="advisory",
            words_passed="{item}: nearly equal, {value} to 1.",
            words_failed="{item}: {value} to 1; better is {limit} to 1.",
        ),
        Finding(
            "pump-below-notice",
            "Flow of a pump on the supply pipe against notice",
            quantity="/outputs/notice/pump_flow",
            sense="at-most",
            limit="notice-pump-flow",
            rests_on=(),
            applies_when="not /inputs/notice/consent",
            words_passed="The pump draws {value}; above {limit} it needs consent.",
            words_failed="The pump draws {value}, above the {limit} that needs no consent. "
            + _NOTICE,
        ),
        Finding(
            "bath-below-notice",
            "Content of the bath against notice",
            quantity="/outputs/notice/bath_volume",
            sense="at-most",
            limit="notice-bath-volume",
            rests_on=(),
            applies_when="not /inputs/notice/consent",
            words_passed="The bath holds {value}; above {limit} it needs consent.",
            words_failed="The bath holds {value}, above the {limit} that needs no consent. "
            + _NOTICE,
        ),
        Finding(
            "pipe-deep-enough-without-notice",
            "Least depth of an outside pipe against notice",
            quantity="/outputs/notice/pipe_depth",
            sense="at-least",
            limit="notice-pipe-depth-least",
            rests_on=(),
            applies_when="not /inputs/notice/consent",
            words_passed="The pipe lies {value} deep, not less than {limit}.",
            words_failed="The pipe lies {value} deep, less than {limit}. " + _NOTICE,
        ),
        Finding(
            "pipe-shallow-enough-without-notice",
            "Greatest depth of an outside pipe against notice",
            quantity="/outputs/notice/pipe_depth",
            sense="at-most",
            limit="notice-pipe-depth-most",
            rests_on=(),
            applies_when="not /inputs/notice/consent",
            words_passed="The pipe lies {value} deep, not more than {limit}.",
            words_failed="The pipe lies {value} deep, more than {limit}. " + _NOTICE,
        ),
        Finding(
            "no-listed-work-without-consent",
            "Other work on the list to be notified",
            quantity="/outputs/notice/listed_work",
            sense="is",
            limit=False,
            rests_on=(),
            applies_when="not /inputs/notice/consent",
            words_passed="No bidet with spray or hose, no such backflow valve or treatment, no "
            "other premises.",
            words_failed="The work holds something that is on the list. " + _NOTICE,
            depends_on=("notice-operations",),
        ),
    ),
    cautions=(
        "conversion-first-filling",
        "conversion-competence",
        "conversion-electric-showers",
    ),
    refusals=(
        Refused(
            "cistern-level-missing",
            "A part is fed from the cistern, and its water level is not known",
            "Give the water level of the cistern above the datum.",
        ),
        Refused(
            "above-cistern",
            "The part lies at or above the water level of the cistern",
            "No water reaches it from there: lower its level, or say it is fed by none. The "
            "cistern's water stands at {cistern}.",
        ),
        Refused(
            "reducing-valve-missing",
            "A part is said to be behind a reducing valve, and there is none",
            "Give the reducing valve with its setting and level, or say the part is on the mains.",
        ),
        Refused(
            "expansion-valve-missing",
            "The hot side's highest pressure is not known",
            "Give the expansion valve of the unvented store with its setting and level: when the "
            "vessel has lost its charge, the hot side goes up to it.",
        ),
        Refused(
            "above-supply",
            "The supply does not reach so high",
            "The static pressure there would be {pressure}: lower the level or raise the pressure.",
        ),
        Refused(
            "tube-size-missing",
            "The bore and wall of the pipe are not known",
            "Name a tube of the table water-tubes, or give bore and wall.",
        ),
        Refused(
            "tube-size-twice",
            "The pipe is given by name and by size",
            "Give either the tube or its bore and wall.",
        ),
        Refused(
            "closing-length-missing",
            "A closing time is given without the length of the pipe",
            "Give the length back to a wider pipe, store or vessel, or leave the time out.",
        ),
    ),
    monotonic=(
        Monotonic("/cistern_level", "/parts/0/before", "increasing"),
        Monotonic("/mains_pressure", "/parts/0/after", "increasing"),
        Monotonic("/parts/0/level", "/parts/0/after", "decreasing"),
        Monotonic("/parts/0/level", "/parts/0/before", "decreasing"),
        Monotonic("/parts/0/closing/flow", "/parts/0/surge", "increasing"),
        Monotonic("/parts/0/closing/wall", "/parts/0/wave_speed", "increasing"),
        Monotonic("/parts/0/closing/closing_time", "/parts/0/surge", "decreasing"),
    ),
    charts=(
        BarChart(
            "pressures",
            "Static pressure after, and surge, at each part",
            items="/outputs/parts",
            label="name",
            bars=(("static", "after"), ("surge", "surge")),
        ),
    ),
    sources=(KORTEWEG, THICK_TUBE, WATER_GIVE_FIT),
    example={
        "cistern_level": {"value": 6.5, "unit": "m"},
        "mains_pressure": {"value": 5.5, "unit": "bar"},
        "recorded_overnight": True,
        "parts": [
            {
                "name": "basin tap first floor",
                "kind": "tap",
                "level": {"value": 3.8, "unit": "m"},
                "fed_before": "cistern",
                "fed_after": "hot-store",
                "rating": {"value": 10, "unit": "bar"},
                "checked": True,
                "closing": {
                    "flow": {"value": 8, "unit": "l/min"},
                    "material": "copper",
                    "tube": "copper-15",
                    "temperature": {"value": 60, "unit": "degC"},
                    "length": {"value": 8, "unit": "m"},
                    "closing_time": {"value": 0.1, "unit": "s"},
                },
            },
            {
                "name": "shower pump",
                "kind": "shower-pump",
                "level": {"value": 3.2, "unit": "m"},
                "fed_before": "cistern",
                "fed_after": "none",
                "plan": "remove",
            },
            {
                "name": "store in the airing cupboard",
                "kind": "cylinder-vented",
                "level": {"value": 3.2, "unit": "m"},
                "fed_before": "cistern",
                "fed_after": "hot-store",
                "plan": "replace",
                "rating": {"value": 7, "unit": "bar"},
            },
            {
                "name": "loft cistern",
                "kind": "cistern-cold",
                "level": {"value": 6, "unit": "m"},
                "fed_before": "none",
                "fed_after": "none",
                "plan": "remove",
                "capped": True,
            },
            {
                "name": "WC float valve",
                "kind": "float-valve-low-pressure",
                "level": {"value": 3.4, "unit": "m"},
                "fed_before": "cistern",
                "fed_after": "reduced",
                "rating": {"value": 2, "unit": "bar"},
            },
            {
                "name": "buried copper to bathroom",
                "kind": "pipe-buried",
                "level": {"value": 2.7, "unit": "m"},
                "fed_before": "cistern",
                "fed_after": "reduced",
                "proved_to": {"value": 0, "unit": "bar"},
            },
            {
                "name": "garden tap",
                "kind": "hose-tap",
                "level": {"value": 0.6, "unit": "m"},
                "fed_before": "mains",
                "fed_after": "mains",
                "rating": {"value": 10, "unit": "bar"},
                "backflow_category": 2,
            },
        ],
        "reducing_valve": {
            "setting": {"value": 3, "unit": "bar"},
            "level": {"value": 0.5, "unit": "m"},
        },
        "expansion_valve": {
            "setting": {"value": 6, "unit": "bar"},
            "level": {"value": 0.5, "unit": "m"},
        },
        "relief_setting": {"value": 7, "unit": "bar"},
        "mixers": [
            {
                "name": "bath",
                "level": {"value": 3.5, "unit": "m"},
                "hot_feed": "hot-store",
                "cold_feed": "reduced",
            },
            {
                "name": "shower",
                "level": {"value": 4.7, "unit": "m"},
                "hot_feed": "hot-store",
                "cold_feed": "mains",
            },
        ],
        "notice": {
            "pump_flow": {"value": 0, "unit": "l/min"},
            "bath_volume": {"value": 180, "unit": "l"},
        },
    },
)
