"""Testing pipes with water: how far to pump, what every part gets, and what the readings say."""

from __future__ import annotations

from typing import Any

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
from tundish_plugins.water_supply.elasticity import TRAPPED, WATER_GIVE_FIT
from tundish_plugins.water_supply.strength_test.contract import (
    StrengthTestInputs,
    StrengthTestOutputs,
)
from tundish_plugins.water_supply.strength_test.formulas import STAGES
from tundish_plugins.water_supply.strength_test.kernel import kernel


def _of_stages(kind: str, rule: str, applies: str) -> tuple[Finding, ...]:
    """Judge the stages of one procedure, each by the table that it stands in."""
    shared: dict[str, Any] = {"applies_when": applies, "depends_on": (rule, "strength-test-factor")}
    return (
        Finding(
            f"{kind}-stage-at-pressure",
            "Pressure at the start against the test",
            quantity="/outputs/stages/*/start",
            sense="at-least",
            limit="/outputs/stages/*/required",
            words_passed="{item}: started at {value}; {limit} is asked for.",
            words_failed="{item}: started at {value}, and {limit} is asked for. Pump up and start "
            "the stage again.",
            **shared,
        ),
        Finding(
            f"{kind}-stage-long-enough",
            "Time held",
            quantity="/outputs/stages/*/duration",
            sense="at-least",
            limit="/outputs/stages/*/least_duration",
            words_passed="{item}: held for {value}; {limit} is asked for.",
            words_failed="{item}: held for {value}, and {limit} is asked for. A slow leak does not "
            "show so soon.",
            **shared,
        ),
        Finding(
            f"{kind}-stage-holds",
            "Drop of pressure against the drop allowed",
            quantity="/outputs/stages/*/drop",
            sense="at-most",
            limit="/outputs/stages/*/allowed",
            words_passed="{item}: dropped by {value}; up to {limit} is allowed, half of "
            "what can be read on the gauge included.",
            words_failed="{item}: dropped by {value}, more than the {limit} allowed. Find the "
            "leak, put it right and test again from the start.",
            **shared,
        ),
    )


CALCULATION = Calculation(
    id="strength-test",
    version="1.0",
    title="Testing pipes with water before they are used",
    summary="Test pressure at the gauge and at every level, what must be isolated, how long and "
    "with what drop, what a kelvin does, and the verdict on the readings.",
    family="water-supply",
    questions=(
        "Will old pipes and fittings stand it when the cisterns go?",
        "How far must I pump, how long must it hold?",
        "Is the drop on my gauge a leak or the temperature?",
        "May I test with air?",
    ),
    inputs=StrengthTestInputs,
    outputs=StrengthTestOutputs,
    kernel=kernel,
    methods=(
        Method(
            "rigid-pipe",
            "Rigid pipes",
            "Pumped to the test pressure and left alone: for copper and steel.",
        ),
        Method(
            "plastic-let-down",
            "Plastic pipes, let down and watched",
            "Pumped up for a while as the pipe creeps, let down at once, and watched for a drop.",
        ),
        Method(
            "plastic-two-stage",
            "Plastic pipes, watched twice",
            "Pumped up for a while as the pipe creeps, then left alone over two periods.",
        ),
    ),
    needs=(
        Need("strength-test-factor", "number", "Test pressure over highest working pressure"),
        Need("strength-test-rigid", "table", "Stages of the test of rigid pipes"),
        Need("strength-test-plastic", "table", "Stages of the tests of plastic pipes"),
        Need("pipe-elasticity", "table", "Elasticity and expansion of pipe materials"),
        Need("water-tubes", "table", "Tubes by outside diameter and wall"),
    ),
    findings=(
        *_of_stages("rigid", "strength-test-rigid", "/outputs/rigid_procedure"),
        *_of_stages("plastic", "strength-test-plastic", "not /outputs/rigid_procedure"),
        Finding(
            "every-stage-read",
            "Stages gone through",
            quantity="/outputs/complete",
            sense="is",
            limit=True,
            rests_on=("strength-test-rigid", "strength-test-plastic"),
            applies_when="/outputs/tested",
            words_passed="Every stage has its readings.",
            words_failed="Stages of the procedure are missing: the test is not finished.",
            source=STAGES,
        ),
        Finding(
            "joints-tight",
            "State of the joints",
            quantity="/outputs/tight",
            sense="is",
            limit=True,
            rests_on=("strength-test-factor",),
            applies_when="/outputs/tested",
            words_passed="No leak is to be seen.",
            words_failed="A leak was seen, or nobody looked: a weep that a gauge cannot show is "
            "seen with a torch and dry paper.",
            depends_on=("strength-test-factor",),
        ),
        Finding(
            "procedure-fits-pipes",
            "Procedure against the material of the pipes",
            quantity="/outputs/procedure_fits",
            sense="is",
            limit=True,
            rests_on=(),
            words_passed="The procedure is meant for such pipes.",
            words_failed="There is plastic in the test: it creeps, and the procedure for rigid "
            "pipes would call that a leak or be pumped up until it no longer shows one. Choose a "
            "procedure for plastic.",
            depends_on=("strength-test-factor",),
        ),
        Finding(
            "temperature-steady",
            "Change of temperature against the drop allowed",
            quantity="/outputs/stages/*/temperature_effect",
            sense="at-most",
            limit="/outputs/stages/*/allowed",
            rests_on=(
                "strength-test-rigid",
                "strength-test-plastic",
                "pipe-elasticity",
                "water-tubes",
            ),
            failed="advisory",
            words_passed="{item}: the change of temperature is worth {value} at most.",
            words_failed="{item}: the change of temperature alone is worth up to {value} where no "
            "air is in the pipes. A drop need not be a leak, and steady pressure need not be "
            "tight: wait until the water has the temperature of the house, and repeat.",
            source=TRAPPED,
        ),
        Finding(
            "reading-within-rating",
            "Highest reading against the rating of each part",
            quantity="/outputs/parts/*/highest_reading",
            sense="at-most",
            limit="/inputs/parts/*/rating",
            rests_on=("cold-water-temperature",),
            words_passed="{item}: had {value}, and stands {limit}.",
            words_failed="{item}: had {value} though it stands {limit} only. It may be strained "
            "where nobody sees it: ask its maker, or change it.",
            source=HYDROSTATICS,
        ),
        Finding(
            "nothing-left-out-needlessly",
            "Parts left out of the test",
            quantity="/outputs/parts/*/left_out",
            sense="is",
            limit=False,
            rests_on=("cold-water-temperature", "strength-test-factor"),
            failed="advisory",
            words_passed="{item}: isolated, as it must be.",
            words_failed="{item}: isolated though it would stand the test: it stays unproved.",
            source=HYDROSTATICS,
        ),
    ),
    cautions=("strength-test-water", "strength-test-record"),
    refusals=(
        Refused(
            "gas-test-refused",
            "Pipes are not tested for strength with air or gas",
            "Test with water. At {pressure} the air in {content} of pipe would store {energy}, "
            "hundreds to thousands of times what water stores: a joint that lets go becomes a "
            "shot.",
        ),
        Refused(
            "test-above-rating",
            "The test is above what a part stands",
            "At its level the test is {pressure}. Isolate the part or take it out; never lower "
            "the test for its sake.",
        ),
        Refused(
            "levels-reversed",
            "The highest point lies below the lowest",
            "Give the lowest and the highest point of the pipes under test.",
        ),
        Refused(
            "top-out-of-reach",
            "The pressure in use does not reach the highest point",
            "It would be {pressure} there: check the levels and the operating pressure.",
        ),
        Refused(
            "part-outside-levels",
            "A part lies above the highest or below the lowest point of the test",
            "Correct its level, or the lowest and highest point.",
        ),
        Refused(
            "stages-too-many",
            "There are more stages than the procedure has",
            "The procedure has {stages} stages: give one pair of readings for each, in order.",
        ),
        Refused(
            "temperature-missing",
            "One of the two temperatures of a stage is missing",
            "Give both or none.",
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
    ),
    monotonic=(
        Monotonic("/operating_pressure", "/test_pressure", "increasing"),
        Monotonic("/operating_pressure", "/gauge_pressure", "increasing"),
        Monotonic("/highest_level", "/top_pressure", "decreasing"),
        Monotonic("/gauge_level", "/gauge_pressure", "decreasing"),
        Monotonic("/content", "/air_energy", "increasing"),
    ),
    charts=(
        LineChart(
            "readings",
            "Gauge readings over the test",
            series=(Series("gauge", "/outputs/record/time", "/outputs/record/pressure"),),
            levels=(Level("test pressure at the gauge", "/outputs/gauge_pressure"),),
        ),
    ),
    sources=(WATER_GIVE_FIT,),
    example={
        "medium": "water",
        "operating_pressure": {"value": 3, "unit": "bar"},
        "highest_level": {"value": 5, "unit": "m"},
        "gauge_resolution": {"value": 0.02, "unit": "bar"},
        "plastic": False,
        "operating_level": {"value": 0.5, "unit": "m"},
        "gauge_level": {"value": 1, "unit": "m"},
        "content": {"value": 25, "unit": "l"},
        "pipe": {"material": "copper", "tube": "copper-22"},
        "parts": [
            {
                "name": "basin tap first floor",
                "level": {"value": 4, "unit": "m"},
                "rating": {"value": 10, "unit": "bar"},
            },
            {
                "name": "new stop valve",
                "level": {"value": 0.3, "unit": "m"},
                "rating": {"value": 16, "unit": "bar"},
            },
            {
                "name": "new store",
                "level": {"value": 1, "unit": "m"},
                "rating": {"value": 7, "unit": "bar"},
                "isolated": True,
            },
            {
                "name": "expansion vessel",
                "level": {"value": 1.5, "unit": "m"},
                "rating": {"value": 4, "unit": "bar"},
                "isolated": True,
            },
        ],
        "stages": [
            {
                "start_pressure": {"value": 4.6, "unit": "bar"},
                "end_pressure": {"value": 4.6, "unit": "bar"},
                "duration": {"value": 60, "unit": "min"},
                "start_temperature": {"value": 12, "unit": "degC"},
                "end_temperature": {"value": 12, "unit": "degC"},
            }
        ],
        "joints": "tight",
    },
)
