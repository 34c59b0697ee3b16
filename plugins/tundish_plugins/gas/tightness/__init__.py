"""Test of tightness of a small gas installation."""

from __future__ import annotations

from typing import Final

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Level,
    LineChart,
    Monotonic,
    Need,
    Series,
)
from tundish_plugins.gas.installation.formulas import VOLUME
from tundish_plugins.gas.installation.refusals import INSTALLATION_NEEDS, INSTALLATION_REFUSALS
from tundish_plugins.gas.tightness.contract import TightnessInputs, TightnessOutputs
from tundish_plugins.gas.tightness.formulas import IDEAL_GAS
from tundish_plugins.gas.tightness.kernel import kernel
from tundish_plugins.gas.tightness.refusals import TIGHTNESS_REFUSALS

_STOP: Final = (
    "Stop: turn the gas off at the meter and leave it off. Follow the unsafe-situations procedure; "
    "where gas is smelt, or the leak is not found and made safe at once, ring the gas emergency "
    "number from outside. Only a registered engineer may repair it, and then the whole test is done "
    "again."
)
_SMELL: Final = (
    "Gas is smelt: that fails any test, whatever the gauge says. Turn the gas off at the meter if "
    "it is safe, open doors and windows, touch no switch, light nothing, leave, and ring the gas "
    "emergency number from outside."
)
_MOVEMENT_RULE: Final = ("gas-tightness-movement",)
_LIMIT_RULES: Final = (
    *(need.rule for need in INSTALLATION_NEEDS),
    "gas-tightness-procedure",
    *(f"gas-tightness-by-{by}-{gas}" for by in ("volume", "meter") for gas in ("natural", "lpg")),
)
"""All that the permitted drop comes from; what the eye can see on the gauge has no part in it."""

CALCULATION = Calculation(
    id="gas-tightness",
    version="1.0",
    title="Tightness test of a small gas installation",
    summary="Volume of the installation, the drop that the edition of the procedure in force "
    "allows, and what the readings say: let-by, movement of the gauge, leak, effect of temperature.",
    family="gas",
    questions=(
        "What drop is allowed in the tightness test?",
        "Is the gas installation tight?",
        "What is the installation volume?",
    ),
    inputs=TightnessInputs,
    outputs=TightnessOutputs,
    kernel=kernel,
    needs=(
        *INSTALLATION_NEEDS,
        Need("gas-tightness-procedure", "table", "Pressures and times of the test"),
        Need(
            "gas-tightness-by-volume-natural",
            "table",
            "Permitted drop by volume, natural gas",
            optional=True,
        ),
        Need(
            "gas-tightness-by-meter-natural",
            "table",
            "Permitted drop by meter, natural gas",
            optional=True,
        ),
        Need(
            "gas-tightness-by-volume-lpg",
            "table",
            "Permitted drop by volume, liquefied petroleum gas",
            optional=True,
        ),
        Need(
            "gas-tightness-by-meter-lpg",
            "table",
            "Permitted drop by meter, liquefied petroleum gas",
            optional=True,
        ),
        Need("gas-tightness-movement", "table", "Movement that the eye can see, by gauge"),
    ),
    findings=(
        Finding(
            "gas-smelt",
            "Smell of gas",
            quantity="/inputs/readings/smell_of_gas",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="No gas is smelt.",
            words_failed=_SMELL,
            source=VOLUME,
        ),
        Finding(
            "readings-recorded",
            "Readings of the test",
            quantity="/outputs/readings_given",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="Readings were given.",
            words_failed="No readings were given: nothing is said about whether the installation is "
            "tight.",
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "let-by-recorded",
            "Let-by test",
            quantity="/outputs/let_by_recorded",
            sense="is",
            limit=True,
            words_passed="A let-by test was done.",
            words_failed="No let-by test is recorded. A valve that passes gas can feed a leak and "
            "hold the gauge still: the test does not count without it.",
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "let-by",
            "Rise in the let-by test",
            quantity="/outputs/lets_by",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="The pressure did not rise: the valve holds.",
            words_failed="The pressure rose: the meter control valve lets gas by, or the let-by test "
            "was not done as it must. Nothing can be said about tightness until it is put right. "
            + _STOP,
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "let-by-fall",
            "Fall in the let-by test",
            quantity="/outputs/let_by_fell",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="The pressure did not fall in the let-by test.",
            words_failed="The pressure fell in the let-by test already: gas is getting out, and a "
            "valve that lets by could not have shown. " + _STOP,
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "test-pressure",
            "Test pressure",
            quantity="/outputs/full_pressure",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The usual test pressure was reached.",
            words_failed="The test was done below the usual pressure because the supply cannot give "
            "more: that is within the procedure, but tell the gas supplier that the pressure is low.",
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "volume-known",
            "Volume of the installation",
            quantity="/outputs/volume_known",
            sense="is",
            limit=True,
            failed="advisory",
            applies_when="not /outputs/none_allowed",
            words_passed="Nothing had to be assumed about the volume or the pipes.",
            words_failed="The volume, or the size of a pipe, is not known: the strictest drop that it "
            "could call for is taken. Whether the installation is small enough for this procedure "
            "is not shown.",
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "reading-changed",
            "Change of the reading",
            quantity="/outputs/moved",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="The reading did not fall.",
            words_failed="The reading fell.",
            rests_on=(),
            source=IDEAL_GAS,
        ),
        Finding(
            "gauge-movement",
            "Movement of the gauge, none allowed",
            quantity="/outputs/movement",
            sense="is",
            limit=False,
            failed="dangerous",
            applies_when="/outputs/stillness_judged",
            depends_on=_MOVEMENT_RULE,
            words_passed="The gauge moved less than the eye can see.",
            words_failed="The gauge moved, and no movement is allowed here. " + _STOP,
            rests_on=_MOVEMENT_RULE,
        ),
        Finding(
            "drop-within-permitted",
            "Drop against the permitted drop",
            quantity="/outputs/drop",
            sense="at-most",
            limit="/outputs/permitted_drop",
            failed="dangerous",
            applies_when="/outputs/moved",
            words_passed="The pressure fell by {value}; {limit} is allowed.",
            words_failed="The pressure fell by {value}; only {limit} is allowed. " + _STOP + " Gas "
            "that cools falls in pressure, too: after sun on the meter, let it settle and test again "
            "before the leak is sought, but never take this test as passed.",
            rests_on=_LIMIT_RULES,
            source=VOLUME,
        ),
        Finding(
            "pipework-tested-alone",
            "Test of the pipework alone after a movement",
            quantity="/outputs/retest_recorded",
            sense="is",
            limit=True,
            applies_when="/outputs/retest_needed",
            words_passed="The pipework was tested alone after the movement.",
            words_failed="The gauge moved: the appliances must be isolated and the pipework tested "
            "alone, and it may show no movement. That test is not recorded. If an appliance cannot "
            "be isolated, no movement is allowed at all.",
            rests_on=(),
            source=VOLUME,
        ),
        Finding(
            "pipework-reading-changed",
            "Change of the reading, pipework alone",
            quantity="/outputs/retest_moved",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="With the appliances isolated the reading did not fall.",
            words_failed="With the appliances isolated the reading still fell.",
            rests_on=(),
            source=IDEAL_GAS,
        ),
        Finding(
            "pipework-movement",
            "Movement of the gauge, pipework alone",
            quantity="/outputs/retest_movement",
            sense="is",
            limit=False,
            failed="dangerous",
            applies_when="/outputs/retest_moved",
            depends_on=_MOVEMENT_RULE,
            words_passed="With the appliances isolated the gauge moved less than the eye can see.",
            words_failed="With the appliances isolated the gauge still moved: the pipework itself "
            "leaks. " + _STOP,
            rests_on=_MOVEMENT_RULE,
        ),
    ),
    cautions=("gas-smell", "gas-registered-person", "gas-tightness-order", "gas-proving"),
    refusals=(*INSTALLATION_REFUSALS, *TIGHTNESS_REFUSALS),
    monotonic=(
        Monotonic("/pipes/0/length", "/installation_volume", "increasing"),
        Monotonic("/pipes/0/length", "/permitted_drop", "decreasing"),
        Monotonic("/pipes/0/length", "/leak", "increasing"),
        Monotonic("/gas_temperature", "/pressure_per_kelvin", "decreasing"),
        Monotonic("/readings/end_pressure", "/drop", "decreasing"),
    ),
    charts=(
        LineChart(
            "permitted-drop",
            "Permitted drop by the volume of the installation",
            series=(Series("permitted", "/outputs/bands/volume", "/outputs/bands/drop"),),
            levels=(Level("reading", "/outputs/drop"),),
        ),
        BarChart(
            "pipes",
            "Volume of each pipe",
            items="/outputs/pipes",
            label="name",
            bars=(("volume", "volume"),),
        ),
    ),
    example={
        "gas": "natural",
        "meter": "G4",
        "pipes": [
            {"name": "carcass", "tube": "copper-22", "length": {"value": 20, "unit": "m"}},
            {"name": "branches", "tube": "copper-15", "length": {"value": 10, "unit": "m"}},
        ],
        "tested": "with-appliances",
        "readings": {
            "gauge": "water",
            "smell_of_gas": False,
            "let_by": {
                "start_pressure": {"value": 8.5, "unit": "mbar"},
                "end_pressure": {"value": 8.5, "unit": "mbar"},
                "duration": {"value": 1.2, "unit": "min"},
            },
            "stabilisation": {"value": 1.2, "unit": "min"},
            "start_pressure": {"value": 20.5, "unit": "mbar"},
            "end_pressure": {"value": 20.5, "unit": "mbar"},
            "duration": {"value": 2.2, "unit": "min"},
        },
    },
)
