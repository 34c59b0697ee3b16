"""Output of a boiler: heating and hot water apart, range rating, part load, rooms meanwhile."""

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
from tundish_plugins.heat_loss.boiler_output.contract import (
    BoilerOutputInputs,
    BoilerOutputOutputs,
)
from tundish_plugins.heat_loss.boiler_output.formulas import COOLING, CYCLING, LOADS
from tundish_plugins.heat_loss.boiler_output.kernel import kernel

CALCULATION = Calculation(
    id="boiler-output",
    version="1.0",
    title="Output of a boiler for heating and hot water",
    summary="What a boiler must give to heating and to hot water, how its range is to be set, net "
    "and gross, how it cycles below its least output, and how far rooms fall during a reheat.",
    family="heat-loss",
    questions=(
        "Is this boiler large enough, and what is heating to be set to?",
        "From which weather on will it cycle, and how often?",
        "Will the rooms notice that the hot water has priority?",
    ),
    inputs=BoilerOutputInputs,
    outputs=BoilerOutputOutputs,
    kernel=kernel,
    methods=(
        Method(
            "lumped-capacity",
            "Lumped capacities",
            "The circuit is one heat capacity between burner on and burner off, the rooms are one "
            "time constant, and the load goes with inside less outside.",
            source=CYCLING,
        ),
    ),
    needs=(Need("gas-named", "table", "Calorific values of gases, net and gross"),),
    findings=(
        Finding(
            "heating-output",
            "Heating output of the boiler",
            quantity="/inputs/heating_output_most",
            sense="at-least",
            limit="/outputs/heating_needed",
            rests_on=(),
            words_passed="The boiler gives heating up to {value}; {limit} is needed.",
            words_failed="The boiler gives heating only {value}; {limit} is needed on the design "
            "day.",
            source=LOADS,
        ),
        Finding(
            "hot-water-output",
            "Hot water output of the boiler",
            quantity="/inputs/hot_water_output_most",
            sense="at-least",
            limit="/inputs/hot_water_load",
            words_passed="The boiler gives hot water up to {value}; {limit} is asked for.",
            words_failed="The boiler gives hot water only {value}; {limit} is asked for: reheats "
            "take longer.",
            source=LOADS,
        ),
        Finding(
            "both-at-once",
            "Output of the boiler for both at the same time",
            quantity="/outputs/output_most",
            sense="at-least",
            limit="/outputs/output_needed",
            rests_on=(),
            applies_when="/inputs/hot_water == simultaneous",
            words_passed="The boiler gives up to {value}; heating and hot water together ask for "
            "{limit}.",
            words_failed="The boiler gives only {value}; heating and hot water together ask for "
            "{limit}. Give hot water priority, or take a larger boiler.",
            source=LOADS,
        ),
        Finding(
            "design-day-floor",
            "Heating needed against the least output",
            quantity="/outputs/heating_needed",
            sense="at-least",
            limit="/inputs/output_least",
            failed="advisory",
            rests_on=(),
            words_passed="On the design day {value} is needed; the boiler goes down to {limit}.",
            words_failed="Even on the design day only {value} is needed, and the boiler goes no "
            "lower than {limit}: it cycles all winter. Look for one that modulates lower.",
            source=CYCLING,
        ),
        Finding(
            "burner-run",
            "Water in circulation against the least run of the burner",
            quantity="/inputs/water_content",
            sense="at-least",
            limit="/outputs/content_needed",
            failed="advisory",
            rests_on=("boiler-run-time-least",),
            words_passed="{value} circulate; {limit} are needed for the least run at this load.",
            words_failed="Only {value} circulate; {limit} are needed for the least run at this load. "
            "More water (open zones, a buffer), a wider switching difference, or a boiler that "
            "modulates lower.",
            source=CYCLING,
        ),
        Finding(
            "room-fall",
            "Fall of the rooms during a reheat",
            quantity="/outputs/rooms_meanwhile/fall",
            sense="at-most",
            limit="/inputs/fall_most",
            rests_on=("room-fall-most",),
            words_passed="The rooms fall by {value} during a reheat; {limit} is accepted.",
            words_failed="The rooms fall by {value} during a reheat; {limit} is accepted. A shorter "
            "reheat (larger coil, more output to hot water), or one at night.",
            source=COOLING,
        ),
        Finding(
            "rooms-recover",
            "Recovery of the rooms after a reheat",
            quantity="/outputs/rooms_meanwhile/recovers",
            sense="is",
            limit=True,
            rests_on=(),
            words_passed="Heating as set gives more than the house loses: the rooms warm up again.",
            words_failed="Heating gives no more than the house loses on the design day: what the "
            "rooms lose during a reheat they do not get back.",
            source=COOLING,
        ),
    ),
    cautions=(
        "gas-registered-person",
        "boiler-range-rating",
        "boiler-sizing",
        "emitters-hot-water-apart",
    ),
    refusals=(
        Refused(
            "hot-water-not-described",
            "Hot water is '{hot_water}', and its load and the boiler's output to it do not fit that",
            "Give both hot_water_load and hot_water_output_most, or, with 'none', neither.",
        ),
        Refused(
            "reheat-without-priority",
            "A reheat during which heating is off is given, and hot water is '{hot_water}'",
            "Heating is off only with priority: choose it, or leave the reheat time out.",
        ),
        Refused(
            "reheat-time-missing",
            "A time constant is given, and no time for which heating is off",
            "Give the time of one reheat with it, or leave the time constant out.",
        ),
        Refused(
            "outside-not-colder",
            "It is not colder outside than in the rooms",
            "There is no heating load then: check the temperatures and their signs.",
        ),
        Refused(
            "water-not-above-room",
            "The water of the circuit is not warmer than the rooms",
            "No heat would reach the rooms: give the mean of flow and return.",
        ),
        Refused(
            "least-above-most",
            "The least output is above the greatest heating output",
            "Look at the boiler's data: least output, and greatest output to heating.",
        ),
        Refused(
            "output-above-input",
            "The boiler would give more than the {input} gross that goes into it",
            "Output and input belong to different operating points, or the basis (net, gross) is "
            "the wrong one: read the plate again.",
        ),
        Refused(
            "no-time-for-heating",
            "Hot water takes {taken} of a day, so no time is left for heating",
            "Shorten the reheat, or make hot water at the same time or from another source.",
        ),
        Refused(
            "fall-beyond-outside",
            "The rooms are only {between} warmer than outside and can never fall that far",
            "Give a smaller fall, or the outside temperature of the design day.",
        ),
    ),
    monotonic=(
        Monotonic("/heating_load", "/heating_needed", "increasing"),
        Monotonic("/heating_load", "/range_setting", "increasing"),
        Monotonic("/output_least", "/starts_most", "increasing"),
        Monotonic("/water_content", "/starts_most", "decreasing"),
        Monotonic("/water_content", "/run_time", "increasing"),
        Monotonic("/switching_difference", "/content_needed", "decreasing"),
        Monotonic("/output_least", "/cycles_above", "decreasing"),
        Monotonic("/reheat_time", "/rooms_meanwhile/fall", "increasing"),
        Monotonic("/time_constant", "/rooms_meanwhile/fall", "decreasing"),
        Monotonic("/reheat_time", "/made_up", "increasing"),
    ),
    charts=(
        LineChart(
            "season",
            "Load of the house by outside temperature, and what the boiler can do",
            series=(Series("load", "/outputs/season_curve/outside", "/outputs/season_curve/load"),),
            levels=(
                Level("least output", "/inputs/output_least"),
                Level("setting", "/outputs/range_setting"),
            ),
        ),
        LineChart(
            "cycles",
            "Starts of the burner by load",
            series=(Series("starts", "/outputs/cycle_curve/load", "/outputs/cycle_curve/starts"),),
        ),
        LineChart(
            "reheat",
            "Room while hot water is made",
            series=(
                Series(
                    "room",
                    "/outputs/rooms_meanwhile/curve/time",
                    "/outputs/rooms_meanwhile/curve/temperature",
                ),
            ),
        ),
    ),
    example={
        "heating_load": {"value": 9.6, "unit": "kW"},
        "room_temperature": {"value": 20, "unit": "degC"},
        "outside_temperature": {"value": -3, "unit": "degC"},
        "hot_water": "priority",
        "hot_water_load": {"value": 18, "unit": "kW"},
        "reheat_time": {"value": 40, "unit": "min"},
        "time_constant": {"value": 30, "unit": "h"},
        "heating_output_most": {"value": 24, "unit": "kW"},
        "hot_water_output_most": {"value": 24, "unit": "kW"},
        "output_least": {"value": 4.8, "unit": "kW"},
        "rated_input": {"value": 24.5, "unit": "kW", "basis": "net"},
        "part_load": {"value": 1.5, "unit": "kW"},
        "water_content": {"value": 60, "unit": "l"},
        "switching_difference": {"value": 8, "unit": "K"},
        "water_temperature": {"value": 50, "unit": "degC"},
    },
)
