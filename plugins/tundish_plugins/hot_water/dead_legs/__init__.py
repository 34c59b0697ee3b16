"""Dead legs: litres that stand, seconds to wait, metres that may be bare."""

from __future__ import annotations

from tundish.calculation import BarChart, Calculation, Finding, Monotonic, Need, Refused
from tundish_plugins.hot_water.dead_legs.contract import DeadLegsInputs, DeadLegsOutputs
from tundish_plugins.hot_water.dead_legs.kernel import kernel
from tundish_plugins.hot_water.tubes import REFUSALS

_TUBE = ("water-tubes",)
_WALL = (*_TUBE, "tube-wall-heat-copper", "tube-wall-heat")

CALCULATION = Calculation(
    id="dead-legs",
    version="1.0",
    title="Dead legs of hot water pipes",
    summary="How much water stands in each leg, how long one waits for hot water, how many metres "
    "may be bare, and what runs to waste.",
    family="hot-water",
    questions=(
        "How long does one wait for hot water at this tap?",
        "Is the leg too long or too wide, or does it need a circulation?",
        "Which legs must be insulated?",
        "How much water and heat do the legs waste?",
    ),
    inputs=DeadLegsInputs,
    outputs=DeadLegsOutputs,
    kernel=kernel,
    needs=(
        Need("water-tubes", "table", "Tubes for water: outside diameter and bore"),
        Need("tube-wall-heat-copper", "volumetric_heat_capacity", "Heat capacity of copper"),
        Need("tube-wall-heat", "table", "Heat capacity of other walls by material"),
        Need(
            "water-velocity-single-most",
            "velocity",
            "Greatest velocity in a pipe to one fitting",
            optional=True,
        ),
        Need(
            "bare-hot-pipe-length-most",
            "table",
            "Longest hot pipe without insulation by its size",
            optional=True,
        ),
        Need(
            "hot-tap-time-water-regulations-most",
            "time",
            "Longest time until a hot tap runs hot, the shorter of two",
            optional=True,
        ),
    ),
    findings=(
        Finding(
            "hot-in-time",
            "Wait for hot water",
            quantity="/outputs/legs/*/wait",
            sense="at-most",
            limit="hot-tap-time-most",
            rests_on=_WALL,
            capped_unless="/outputs/legs/*/can_be_drawn",
            words_capped="the tube will not give the flow it is reckoned with.",
            words_passed="{item}: hot after {value}; it shall be within {limit}.",
            words_failed="{item}: hot only after {value}; it shall be within {limit}. Shorten or "
            "narrow the leg, circulate to it, trace heat it, or heat at the outlet.",
        ),
        Finding(
            "hot-in-time-water-regulations",
            "Wait for hot water against the guidance to the water regulations",
            quantity="/outputs/legs/*/wait",
            sense="at-most",
            limit="hot-tap-time-water-regulations-most",
            rests_on=_WALL,
            capped_unless="/outputs/legs/*/can_be_drawn",
            words_capped="the tube will not give the flow it is reckoned with.",
            words_passed="{item}: hot after {value}; the guidance says within {limit}.",
            words_failed="{item}: hot only after {value}; the guidance says within {limit}.",
        ),
        Finding(
            "bare-length-within-guidance",
            "Length without insulation",
            quantity="/outputs/legs/*/bare_length",
            sense="at-most",
            limit="/outputs/legs/*/bare_limit",
            depends_on=("bare-hot-pipe-length-most",),
            rests_on=_TUBE,
            words_passed="{item}: {value} bare; up to {limit} is accepted at its widest tube.",
            words_failed="{item}: {value} bare; only {limit} is accepted at its widest tube. "
            "Insulate it.",
        ),
        Finding(
            "content-as-in-germany",
            "Content against the German limit, for information",
            quantity="/outputs/legs/*/content",
            sense="at-most",
            limit="dead-leg-content-information-most",
            rests_on=_TUBE,
            failed="advisory",
            words_passed="{item}: {value} stand in it; Germany allows {limit} without circulation.",
            words_failed="{item}: {value} stand in it; Germany allows {limit} without circulation.",
        ),
        Finding(
            "hot-on-arrival",
            "Temperature at the outlet",
            quantity="/outputs/legs/*/arrival_temperature",
            sense="at-least",
            limit="hot-tap-temperature-least",
            rests_on=_TUBE,
            words_passed="{item}: at least {value} arrive; {limit} is asked for.",
            words_failed="{item}: as little as {value} may arrive, however long one waits; at "
            "least {limit} is asked for. Start hotter, insulate, or draw more.",
        ),
        Finding(
            "flow-can-be-drawn",
            "Velocity in the leg",
            quantity="/outputs/legs/*/velocity",
            sense="at-most",
            limit="water-velocity-single-most",
            rests_on=_TUBE,
            words_passed="{item}: {value} in its narrowest tube; {limit} is allowed to one outlet.",
            words_failed="{item}: {value} in its narrowest tube; only {limit} is allowed to one "
            "outlet. Nor will it give that flow: the wait reckoned from it is too short.",
        ),
        Finding(
            "hot-water-tempered",
            "Hot water against tempering",
            quantity="/inputs/hot_temperature",
            sense="at-most",
            limit="hot-water-store-temperature-untempered",
            failed="dangerous",
            words_passed="Hot water starts at {value}; above {limit} it must not reach the pipes.",
            words_failed="Hot water starts at {value}: above {limit} it must not reach the pipes. Turn "
            "the store down, or fit a tempering valve.",
        ),
    ),
    cautions=("dead-leg-stagnation", "hot-water-scalding"),
    refusals=(
        *REFUSALS,
        Refused(
            "material-missing",
            "The material of the wall is not known",
            "Give it with a tube that is given by its size: the wall must grow hot too.",
        ),
        Refused(
            "material-contradicts",
            "{tube} is a copper tube",
            "Leave the material out, or give the tube by its size.",
        ),
        Refused(
            "standing-not-below-hot",
            "The leg stands as hot as the hot water",
            "Give the temperature it cools to between uses, below the hot water's.",
        ),
    ),
    monotonic=(
        Monotonic("/legs/0/pipes/0/length", "/longest_wait", "increasing"),
        Monotonic("/legs/0/pipes/0/bore", "/content", "increasing"),
        Monotonic("/legs/0/pipes/0/length", "/content", "increasing"),
        Monotonic("/legs/0/flow", "/longest_wait", "decreasing"),
        Monotonic("/legs/0/uses", "/yearly_heat", "increasing"),
        Monotonic("/hot_temperature", "/yearly_heat", "increasing"),
    ),
    charts=(
        BarChart(
            "waits",
            "Wait for hot water",
            items="/outputs/legs",
            label="name",
            bars=(("standing water", "plug_time"), ("wall of the tube", "wall_time")),
        ),
    ),
    example={
        "hot_temperature": {"value": 60, "unit": "degC"},
        "legs": [
            {
                "name": "kitchen",
                "flow": {"value": 6, "unit": "l/min"},
                "uses": 12,
                "pipes": [
                    {"tube": "copper-22", "length": {"value": 10, "unit": "m"}},
                    {"tube": "copper-15", "length": {"value": 3, "unit": "m"}},
                ],
            },
            {
                "name": "basin",
                "flow": {"value": 4, "unit": "l/min"},
                "uses": 8,
                "pipes": [
                    {"tube": "copper-15", "length": {"value": 5, "unit": "m"}, "insulated": True}
                ],
            },
        ],
    },
)
