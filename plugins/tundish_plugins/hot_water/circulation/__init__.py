"""Secondary circulation: heat loss of the pipes, flow, balance, pump and temperatures."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    LineChart,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.pipes import COLEBROOK
from tundish_plugins.hot_water.circulation.contract import CirculationInputs, CirculationOutputs
from tundish_plugins.hot_water.circulation.formulas import RESISTANCE, SPLIT
from tundish_plugins.hot_water.circulation.kernel import kernel
from tundish_plugins.hot_water.hot_pipes import LINEAR, RADIATION, STILL_AIR
from tundish_plugins.hot_water.tubes import REFUSALS


def _pipe(tube: str, length: float, thickness: float) -> dict[str, object]:
    return {
        "tube": tube,
        "length": {"value": length, "unit": "m"},
        "insulation": {
            "thickness": {"value": thickness, "unit": "mm"},
            "conductivity": {"value": 0.035, "unit": "W/(m.K)"},
        },
    }


_PIPE = ("water-tubes", "insulation-surface-coefficient", "bare-pipe-emissivity")
_LOSS = (
    *_PIPE,
    "circulation-outlet-temperature-least",
    "circulation-return-temperature-least",
)
"""What the loss of the pipes, and with it the flow, rests on: the temperatures as defaults."""
_BEST = ("pipe-insulation-conductivity-least", "pipe-insulation-thickness-most")
_GUIDE = ("pipe-loss-most", "pipe-loss-guide-water", "pipe-loss-guide-air")

CALCULATION = Calculation(
    id="secondary-circulation",
    version="1.0",
    title="Secondary circulation of hot water",
    summary="Heat lost by hot water pipes, insulated or bare; the circulation that keeps the far "
    "outlets hot, how it splits between branches, and the pump it needs.",
    family="hot-water",
    questions=(
        "How much must circulate so that the far taps are hot and the return hot enough?",
        "What pump does the circulation need?",
        "What do the hot water pipes lose, and would insulation pay?",
        "How are the branches balanced?",
    ),
    inputs=CirculationInputs,
    outputs=CirculationOutputs,
    kernel=kernel,
    needs=(
        Need("water-tubes", "table", "Tubes for water: outside diameter and bore"),
        Need("bare-pipe-emissivity", "number", "Emissivity of bare pipe, when it is not known"),
        Need(
            "pipe-insulation-conductivity-least",
            "thermal_conductivity",
            "Best insulation of pipes",
            optional=True,
        ),
        Need(
            "pipe-insulation-thickness-most",
            "length",
            "Thickest insulation of pipes",
            optional=True,
        ),
        Need("pipe-loss-most", "table", "Most an insulated pipe may lose", optional=True),
        Need("pipe-loss-guide-water", "temperature", "Water of that guide", optional=True),
        Need("pipe-loss-guide-air", "temperature", "Air of that guide", optional=True),
    ),
    findings=(
        Finding(
            "outlet-hot-enough",
            "Temperature out of the store",
            quantity="/inputs/outlet_temperature",
            sense="at-least",
            limit="circulation-outlet-temperature-least",
            words_passed="It leaves at {value}; at least {limit} is asked for.",
            words_failed="It leaves at only {value}; at least {limit} is asked for against "
            "legionella.",
        ),
        Finding(
            "hot-water-tempered",
            "Hot water against tempering",
            quantity="/inputs/outlet_temperature",
            sense="at-most",
            limit="hot-water-store-temperature-untempered",
            failed="dangerous",
            words_passed="It leaves at {value}; above {limit} it must not reach the pipes.",
            words_failed="It leaves at {value}: above {limit} it must not reach the pipes. Turn "
            "the store down, or fit a tempering valve.",
        ),
        Finding(
            "return-hot-enough",
            "Temperature of the return",
            quantity="/outputs/return_temperature",
            sense="at-least",
            limit="circulation-return-temperature-least",
            rests_on=_LOSS,
            words_passed="It comes back at {value}; at least {limit} is asked for.",
            words_failed="It comes back at only {value}; at least {limit} is asked for against "
            "legionella. Circulate more or insulate better.",
        ),
        Finding(
            "far-end-hot-enough",
            "Temperature at each far end",
            quantity="/outputs/branches/*/far_temperature",
            sense="at-least",
            limit="hot-distribution-temperature-least",
            rests_on=_LOSS,
            words_passed="{item}: {value} at the far end; at least {limit} is asked for.",
            words_failed="{item}: only {value} at the far end; at least {limit} is asked for in "
            "distribution.",
        ),
        Finding(
            "drop-as-in-germany",
            "Drop of temperature against the German limit, for information",
            quantity="/outputs/temperature_drop",
            sense="at-most",
            limit="circulation-drop-information-most",
            rests_on=_LOSS,
            failed="advisory",
            words_passed="The circulation cools by {value}; Germany allows {limit}.",
            words_failed="The circulation cools by {value}; Germany allows {limit}. For "
            "information: large and sensitive buildings do well to keep to it.",
        ),
        Finding(
            "flow-pipe-insulated",
            "Insulation of the flow pipe",
            quantity="/outputs/sections/*/flow_pipe/guide_loss",
            sense="at-most",
            limit="/outputs/sections/*/flow_pipe/guide_limit",
            depends_on=("pipe-loss-most",),
            rests_on=(*_PIPE, *_GUIDE),
            words_passed="{item}: {value} at the guide's condition; {limit} is allowed.",
            words_failed="{item}: {value} at the guide's condition; only {limit} is allowed. "
            "Insulate it thicker.",
        ),
        Finding(
            "flow-pipe-loss-plausible",
            "Loss given for the flow pipe",
            quantity="/outputs/sections/*/flow_pipe/given_loss",
            sense="at-least",
            limit="/outputs/sections/*/flow_pipe/least_loss",
            depends_on=_BEST,
            rests_on=(*_PIPE, *_BEST),
            source=LINEAR,
            words_passed="{item}: {value} given; the best insulation leaves {limit}.",
            words_failed="{item}: {value} given; even the best insulation leaves {limit} at "
            "these temperatures. The flow found from it is too small: give the insulation.",
        ),
        Finding(
            "return-pipe-insulated",
            "Insulation of the return pipe",
            quantity="/outputs/sections/*/return_pipe/guide_loss",
            sense="at-most",
            limit="/outputs/sections/*/return_pipe/guide_limit",
            depends_on=("pipe-loss-most",),
            rests_on=(*_PIPE, *_GUIDE),
            words_passed="{item}: {value} at the guide's condition; {limit} is allowed.",
            words_failed="{item}: {value} at the guide's condition; only {limit} is allowed. "
            "Insulate it thicker.",
        ),
        Finding(
            "return-pipe-loss-plausible",
            "Loss given for the return pipe",
            quantity="/outputs/sections/*/return_pipe/given_loss",
            sense="at-least",
            limit="/outputs/sections/*/return_pipe/least_loss",
            depends_on=_BEST,
            rests_on=(*_PIPE, *_BEST),
            source=LINEAR,
            words_passed="{item}: {value} given; the best insulation leaves {limit}.",
            words_failed="{item}: {value} given; even the best insulation leaves {limit} at "
            "these temperatures. The flow found from it is too small: give the insulation.",
        ),
        Finding(
            "branches-balanced",
            "Balance of the branches",
            quantity="/inputs/balancing_valves",
            sense="is",
            limit=True,
            applies_when="/outputs/branched",
            source=SPLIT,
            words_passed="Each branch has its balancing valve, set to the flow found here.",
            words_failed="Without balancing valves the near branch takes the flow and the far end "
            "runs cool: the temperatures found here hold only for the flows found here.",
        ),
        Finding(
            "velocity-kept-down",
            "Velocity of the circulation",
            quantity="/outputs/highest_velocity",
            sense="at-most",
            limit="circulation-velocity-most",
            rests_on=_LOSS,
            words_passed="At most {value}; {limit} is allowed in copper.",
            words_failed="{value} in one pipe; only {limit} is allowed: hot water that always runs "
            "wears copper through. Take a wider tube.",
        ),
        Finding(
            "pump-strong-enough",
            "Pump against the pressure needed",
            quantity="/inputs/pump_pressure",
            sense="at-least",
            limit="/outputs/pump_pressure",
            rests_on=(*_LOSS, "circulation-check-valve-drop"),
            source=RESISTANCE,
            words_passed="The pump gives {value} at this flow; {limit} is needed.",
            words_failed="The pump gives only {value} at this flow; {limit} is needed.",
        ),
    ),
    cautions=("circulation-never-off", "circulation-materials", "hot-water-scalding"),
    refusals=(
        *REFUSALS,
        Refused(
            "pipe-loss-given-twice",
            "The loss of a pipe is given, and its insulation too",
            "Give either the loss for each metre or the insulation.",
        ),
        Refused(
            "ambient-not-below-return",
            "The air round the pipe is as warm as the circulation comes back",
            "Give a lower air temperature or a higher return temperature.",
        ),
        Refused(
            "return-not-below-outlet",
            "The circulation cannot come back as hot as it left",
            "Give a return temperature below the outlet's: the pipes lose heat.",
        ),
        Refused(
            "flow-too-small",
            "With so little flow the water would cool to the air on its way; reckoned {back}",
            "Give a larger circulation flow, or leave it out to have it found.",
        ),
        Refused(
            "section-unknown",
            "There is no section {after} to go on from",
            "Name a section of the list, or leave it out to start at the store.",
        ),
        Refused(
            "sections-in-a-ring",
            "The sections go on from each other in a ring",
            "Let one of them start at the store.",
        ),
    ),
    monotonic=(
        Monotonic("/outlet_temperature", "/loss", "increasing"),
        Monotonic("/return_temperature", "/circulation_flow", "increasing"),
        Monotonic("/sections/0/flow_pipe/length", "/loss", "increasing"),
        Monotonic("/sections/0/flow_pipe/heat_loss", "/circulation_flow", "increasing"),
        Monotonic("/sections/0/flow_pipe/insulation/conductivity", "/flow_loss", "increasing"),
        Monotonic("/circulation_flow", "/return_temperature", "increasing"),
        Monotonic("/circulation_flow", "/pump_pressure", "increasing"),
        Monotonic("/check_valve_drop", "/pump_pressure", "increasing"),
        Monotonic("/emissivity", "/loss", "increasing"),
    ),
    charts=(
        LineChart(
            "temperatures",
            "Water out to each far end and back",
            series=(
                Series("way to", "/outputs/branches/*/distance", "/outputs/branches/*/temperature"),
            ),
        ),
        BarChart(
            "branches",
            "Pressure of each way",
            items="/outputs/branches",
            label="name",
            bars=(("friction", "drop"), ("balancing valve", "balancing_drop")),
        ),
    ),
    sources=(STILL_AIR, RADIATION, COLEBROOK),
    example={
        "return_temperature": {"value": 53, "unit": "degC"},
        "sections": [
            {
                "name": "riser",
                "flow_pipe": _pipe("copper-22", 8, 25),
                "return_pipe": _pipe("copper-15", 8, 25),
            },
            {
                "name": "bathrooms",
                "after": "riser",
                "flow_pipe": _pipe("copper-22", 12, 25),
                "return_pipe": _pipe("copper-15", 12, 25),
            },
            {
                "name": "kitchen",
                "after": "riser",
                "flow_pipe": _pipe("copper-15", 6, 20),
                "return_pipe": _pipe("copper-15", 6, 20),
            },
        ],
        "balancing_valves": True,
        "check_valve_drop": {"value": 3, "unit": "kPa"},
        "pump_pressure": {"value": 10, "unit": "kPa"},
    },
)
