"""Recovery of a hot water store: how long it takes to reheat, and what holds it back."""

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
from tundish_plugins.hot_water.recovery.contract import RecoveryInputs, RecoveryOutputs
from tundish_plugins.hot_water.recovery.formulas import BS_6700, FIRST_LAW, STORE_BALANCE
from tundish_plugins.hot_water.recovery.kernel import kernel

CALCULATION = Calculation(
    id="hot-water-recovery",
    version="1.0",
    title="Recovery of a hot water store",
    summary="How long a store takes to reheat, while the boiler limits and while the coil limits, "
    "with standing loss and an immersion heater.",
    family="hot-water",
    questions=(
        "How fast does the store recover?",
        "Does the boiler or the coil hold the reheat back?",
        "Can the store reach its temperature at this flow temperature at all?",
    ),
    inputs=RecoveryInputs,
    outputs=RecoveryOutputs,
    kernel=kernel,
    methods=(
        Method(
            "two-phase",
            "Source, then coil",
            "A well-mixed store takes the whole output of the source until the coil, whose heat "
            "flow falls as the store warms, can pass no more; above the flow temperature only an "
            "immersion heater goes on. Loss counted throughout.",
            source=STORE_BALANCE,
        ),
        Method(
            "constant-power",
            "Whole source to the end",
            "The source heats at full output to the end: for immersion heaters and stores without "
            "a coil. With a coil it is the shortest time possible, not the expected one.",
            source=FIRST_LAW,
        ),
        Method(
            "bs-6700",
            "Former British Standard",
            "Litres times kelvins over 14.3 times kilowatts gives minutes. No coil, no loss.",
            source=BS_6700,
        ),
    ),
    needs=(Need("supply-over-rated-voltage-most", "number", "Supply over rated voltage at most"),),
    findings=(
        Finding(
            "store-hot-enough",
            "Stored temperature against legionella",
            quantity="/inputs/target_temperature",
            sense="at-least",
            limit="hot-water-store-temperature-least",
            capped_unless="/outputs/wholly_heated",
            words_capped="only a part of the content is heated; the water below it stays lukewarm "
            "unless something heats it through regularly.",
            words_passed="The store is brought to {value}; at least {limit} is asked for.",
            words_failed="The store is only brought to {value}; at least {limit} is asked for "
            "against legionella.",
        ),
        Finding(
            "store-not-too-hot",
            "Stored temperature against tempering",
            quantity="/inputs/target_temperature",
            sense="at-most",
            limit="hot-water-store-temperature-untempered",
            words_passed="The store is brought to {value}; tempering is asked for above {limit}.",
            words_failed="At {value} the outlet of the store needs a tempering device: water "
            "stored above {limit} must not reach the pipes untempered.",
        ),
        Finding(
            "below-cut-out",
            "Thermostat against the safety cut-out",
            quantity="/inputs/target_temperature",
            sense="at-most",
            limit="hot-water-cut-out-temperature-least",
            failed="dangerous",
            words_passed="The target of {value} leaves the energy cut-out, which may trip from "
            "{limit}, as a safeguard.",
            words_failed="At {value} the energy cut-out, which may trip from {limit}, would be the "
            "working control: a safety device is never that.",
        ),
        Finding(
            "flow-hot-enough",
            "Flow temperature above the target",
            quantity="/outputs/flow_margin",
            sense="at-least",
            limit="hot-water-flow-margin-least",
            failed="advisory",
            words_passed="The flow is {value} above the target.",
            words_failed="The flow is only {value} above the target; with less than about {limit} "
            "the thermostat may never be satisfied and the boiler cycles.",
        ),
        Finding(
            "burner-runs-through",
            "Burner against the coil",
            quantity="/outputs/cycling_temperature",
            sense="at-least",
            limit="/inputs/target_temperature",
            failed="advisory",
            words_passed="The burner would cycle only from {value}, above the target.",
            words_failed="From {value} the coil takes less than the boiler's least output: the "
            "burner cycles until the target of {limit} is reached.",
            source=STORE_BALANCE,
        ),
        Finding(
            "reheat-in-time",
            "Reheat time against the time asked for",
            quantity="/outputs/reheat_time",
            sense="at-most",
            limit="/inputs/target_time",
            capped_unless="/outputs/coil_counted",
            words_capped="this method leaves the coil out; through a coil it is the shortest time "
            "possible, not the expected one.",
            words_passed="Reheat takes {value}; {limit} will do.",
            words_failed="Reheat takes {value}; {limit} was asked for.",
            source=STORE_BALANCE,
        ),
    ),
    cautions=(
        "hot-water-unvented-competence",
        "hot-water-scalding",
        "hot-water-electrical-work",
    ),
    refusals=(
        Refused(
            "target-unreachable",
            "The store can never reach the target: with this heat it can reach {reachable}",
            "Raise the flow temperature or the heat input, cut the loss, or lower the target.",
        ),
        Refused(
            "start-not-below-target",
            "The store is already at the target temperature or above it",
            "Give a start temperature below the target: there is nothing to reheat.",
        ),
        Refused(
            "no-heat-source",
            "Nothing heats the store",
            "Give the boiler output for hot water, an immersion heater, or both.",
        ),
        Refused(
            "voltage-above-rating",
            "The supply is above what an immersion heater rated at {rated} may be given",
            "Fit an element made for the supply, or check its rated voltage.",
        ),
        Refused(
            "boiler-output-missing",
            "A coil or primary circuit is given without the output of the boiler",
            "Give the boiler's output for hot water, or leave out coil and primary circuit.",
        ),
        Refused(
            "coil-missing",
            "The coil is not known",
            "Give its rating, its UA with the primary flow, or its conductance; or choose the "
            "method constant-power, which gives the shortest time possible.",
        ),
        Refused(
            "coil-given-twice",
            "The coil is given in more than one way",
            "Give one of rating, UA and conductance.",
        ),
        Refused(
            "flow-temperature-missing",
            "The primary flow temperature is not known",
            "Give the flow temperature the boiler holds while it heats the store.",
        ),
        Refused(
            "primary-flow-missing",
            "The primary flow rate is not known",
            "Give the primary flow rate: a coil's UA and a limit on flow and return need it.",
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
            "pipe-loss-takes-all",
            "The primary pipes lose all that the source brings",
            "Check the pipe loss, the boiler output and the limit on flow and return.",
        ),
        Refused(
            "minimum-above-output",
            "The boiler's least output is above its output for hot water",
            "Check both: a boiler cannot be held below its least output.",
        ),
        Refused(
            "mix-not-above-cold",
            "Mixed water cannot be as cold as the cold water or colder",
            "Give a mixed temperature above the cold water's.",
        ),
        Refused(
            "store-too-cool-to-mix",
            "The store is not hotter than the mixed water asked for",
            "Give a mixed temperature below the target: no mixing makes water hotter.",
        ),
    ),
    monotonic=(
        Monotonic("/store_volume", "/reheat_time", "increasing"),
        Monotonic("/heated_fraction", "/reheat_time", "increasing"),
        Monotonic("/target_temperature", "/reheat_time", "increasing"),
        Monotonic("/start_temperature", "/reheat_time", "decreasing"),
        Monotonic("/boiler_output", "/reheat_time", "decreasing"),
        Monotonic("/primary_pipe_loss", "/reheat_time", "increasing"),
        Monotonic("/coil_conductance", "/reheat_time", "decreasing"),
        Monotonic("/coil_ua", "/reheat_time", "decreasing"),
        Monotonic("/immersion_power", "/reheat_time", "decreasing"),
        Monotonic("/ambient_temperature", "/reheat_time", "decreasing"),
        Monotonic("/store_volume", "/mixed_volume", "increasing"),
        Monotonic("/mix_temperature", "/mixed_volume", "decreasing"),
    ),
    charts=(
        LineChart(
            "reheat",
            "Store temperature through the reheat",
            series=(Series("store", "/outputs/curve/time", "/outputs/curve/temperature"),),
            levels=(
                Level("target", "/inputs/target_temperature"),
                Level("coil takes over", "/outputs/changeover_temperature"),
                Level("flow", "/inputs/flow_temperature"),
            ),
        ),
        LineChart(
            "limits",
            "What source and coil can give",
            series=(
                Series("heat into the water", "/outputs/curve/temperature", "/outputs/curve/power"),
                Series("coil limit", "/outputs/limits/temperature", "/outputs/limits/coil_limit"),
                Series(
                    "source limit", "/outputs/limits/temperature", "/outputs/limits/source_limit"
                ),
            ),
        ),
    ),
    example={
        "store_volume": {"value": 210, "unit": "l"},
        "start_temperature": {"value": 15, "unit": "degC"},
        "target_temperature": {"value": 60, "unit": "degC"},
        "boiler_output": {"value": 18, "unit": "kW"},
        "minimum_output": {"value": 4.5, "unit": "kW"},
        "flow_temperature": {"value": 75, "unit": "degC"},
        "coil_rating": {
            "power": {"value": 20, "unit": "kW"},
            "start_temperature": {"value": 15, "unit": "degC"},
            "end_temperature": {"value": 60, "unit": "degC"},
            "flow_temperature": {"value": 80, "unit": "degC"},
            "primary_flow": {"value": 15, "unit": "l/min"},
        },
        "standing_loss": {"value": 70, "unit": "W"},
        "target_time": {"value": 50, "unit": "min"},
    },
    example_region="GB",
)
