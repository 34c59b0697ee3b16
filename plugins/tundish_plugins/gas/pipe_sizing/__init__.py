"""Pressure drop of a gas installation: a tree of sections from the meter to the appliances."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
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
from tundish.physics.pipes import COLEBROOK, DARCY_WEISBACH
from tundish_plugins.gas.pipe_sizing.contract import PipeSizingInputs, PipeSizingOutputs
from tundish_plugins.gas.pipe_sizing.formulas import ENERGY, TABLE_METHOD
from tundish_plugins.gas.pipe_sizing.kernel import kernel

_PASSED = "{item} gets its gas with a drop of {value}; {limit} is allowed."
_FAILED = (
    "{item} gets its gas with a drop of {value}; only {limit} is allowed. Enlarge the section that "
    "drops most for each metre, then look again."
)
_UNSETTLED = "a section on the way lies between laminar and turbulent flow, and little is spare."

CALCULATION = Calculation(
    id="gas-pipe-sizing",
    version="1.0",
    title="Pressure drop of a gas installation",
    summary="Drop from the meter to every appliance, section by section, with fittings; the next "
    "size up and down, and how much longer each section may be.",
    family="gas",
    questions=(
        "Will the gas pipe carry the new boiler?",
        "Which section must be larger?",
        "How long may this section be?",
    ),
    inputs=PipeSizingInputs,
    outputs=PipeSizingOutputs,
    kernel=kernel,
    methods=(
        Method(
            "physical",
            "Friction",
            "Darcy-Weisbach with laminar flow, the larger of both laws between Re 2000 and 4000, "
            "and Colebrook above; density at 15 °C and 1013.25 mbar, which is on the safe side.",
            source=DARCY_WEISBACH,
        ),
        Method(
            "table",
            "Capacity table",
            "Each section takes its share of the table's drop: effective length over the longest "
            "tabulated length that still carries its flow. Natural gas in copper only. A superseded "
            "table answers only when its edition is named.",
            source=TABLE_METHOD,
        ),
    ),
    method_rule="gas-sizing-method",
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("gas-components", "table", "Components of mixtures"),
        Need("gas-families", "table", "Wobbe index and relative density of a family"),
        Need("gas-flow-most", "gas_flow_15", "Greatest flow of domestic work", optional=True),
        Need("gas-drop-of-method-most", "pressure_difference", "Greatest drop of the method"),
        Need("gas-tubes", "table", "Tubes"),
        Need("gas-fitting-lengths", "table", "Added length of fittings by size"),
        Need("gas-fitting-bores", "table", "Added length of fittings in bores"),
        Need("gas-uncertain-flow-margin", "number", "Share to be spare in uncertain flow"),
        Need("gas-copper-capacity", "table", "Capacity table", optional=True),
        Need(
            "gas-copper-capacity-drop", "pressure_difference", "Drop of that table", optional=True
        ),
        Need(
            "gas-copper-capacity-relative-density",
            "number",
            "Relative density it is for",
            optional=True,
        ),
    ),
    findings=(
        Finding(
            "drop-within-limit",
            "Drop against the limit, natural gas",
            quantity="/outputs/appliances/*/drop",
            sense="at-most",
            limit="gas-drop-limit-natural",
            applies_when="/outputs/family == natural",
            capped_unless="/outputs/appliances/*/settled",
            words_capped=_UNSETTLED,
            words_passed=_PASSED,
            words_failed=_FAILED,
        ),
        Finding(
            "drop-within-limit-lpg",
            "Drop against the limit, liquefied petroleum gas",
            quantity="/outputs/appliances/*/drop",
            sense="at-most",
            limit="gas-drop-limit-lpg",
            applies_when="/outputs/family == lpg",
            capped_unless="/outputs/appliances/*/settled",
            words_capped=_UNSETTLED,
            words_passed=_PASSED,
            words_failed=_FAILED,
        ),
        Finding(
            "flow-settled",
            "Certainty of the flow on the way",
            quantity="/outputs/appliances/*/settled",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="On the way to {item} no section of uncertain flow decides.",
            words_failed="On the way to {item} a section lies between laminar and turbulent flow, "
            "and little is spare: the real drop may differ by a fifth. Measure it, or go up a size.",
            source=COLEBROOK,
        ),
        Finding(
            "capacity-table-in-force",
            "Date of the capacity table",
            quantity="/outputs/table_in_force",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The capacity table read is in force on the date.",
            words_failed="The capacity table read is superseded. It answers because its edition was "
            "named; design by the method in force.",
            source=TABLE_METHOD,
        ),
        Finding(
            "meter-large-enough",
            "Flow of all appliances against the meter",
            quantity="/outputs/total_flow",
            sense="at-most",
            limit="/inputs/meter_capacity",
            words_passed="All appliances together take {value}; the meter passes {limit}.",
            words_failed="All appliances together take {value}; the meter passes only {limit}. Ask "
            "the gas supplier for a larger meter.",
            source=DARCY_WEISBACH,
        ),
        Finding(
            "meter-known",
            "Capacity of the meter",
            quantity="/outputs/meter_judged",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The meter's capacity was given, and the flow is held against it.",
            words_failed="The meter's capacity was not given: whether it passes the whole flow is not "
            "judged. Read it on the badge.",
            source=ENERGY,
        ),
    ),
    cautions=("gas-registered-person", "gas-smell", "gas-proving"),
    refusals=(
        Refused("gas-missing", "The gas is not given", "Give gas by name, or its composition."),
        Refused(
            "gas-given-twice", "The gas is given by name and by composition", "Give one of them."
        ),
        Refused(
            "gas-family-missing",
            "It is not said which limit applies to this mixture",
            "Give gas_family: natural or lpg.",
        ),
        Refused(
            "gas-family-contradicts",
            "The gas named is of the family {family}",
            "Leave gas_family out, or correct it.",
        ),
        Refused(
            "gas-outside-family",
            "The mixture is not of the family {family}: Wobbe index {wobbe}, relative density "
            "{relative_density}",
            "Check the shares and the family. Another gas has other limits, and appliances for this "
            "family must not burn it.",
        ),
        Refused(
            "beyond-domestic-scope",
            "The appliances take {flow} together, above the {most} of domestic work",
            "Have an installation of this size designed by a competent person.",
        ),
        Refused(
            "drop-beyond-method",
            "The drop would be {drop}, beyond the {most} for which the method holds",
            "No gas would arrive at this rate. Check heat inputs, tubes and lengths, and enlarge.",
        ),
        Refused(
            "fractions-do-not-sum",
            "The shares of the components sum to {sum}, not to 1",
            "Give shares by volume that sum to 1.",
        ),
        Refused(
            "component-twice",
            "A component is listed twice",
            "Add its shares together.",
        ),
        Refused("gas-does-not-burn", "No component burns", "Give a fuel gas."),
        Refused(
            "network-loop",
            "The sections run in a circle at the point {point}",
            "An installation is a tree from the meter: open the circle.",
        ),
        Refused(
            "point-fed-twice",
            "The point {point} is fed by two sections",
            "An installation is a tree from the meter: let one section lead to each point.",
        ),
        Refused(
            "section-unconnected",
            "Nothing leads to the point {point}",
            "Let the section start from the meter or from the end of another section.",
        ),
        Refused(
            "appliance-unconnected",
            "No section leads to the point {point}",
            "Connect the appliance to the end of a section.",
        ),
        Refused(
            "section-without-load",
            "No appliance is behind the point {point}",
            "Leave the section out, or connect its appliance.",
        ),
        Refused(
            "table-not-in-force",
            "No capacity table is in force on the date; on file: {accepted}",
            "Name a superseded edition in table_edition, or use the physical method.",
        ),
        Refused(
            "table-edition-unknown",
            "There is no such edition; on file: {accepted}",
            "Name an edition that is on file, or use the physical method.",
        ),
        Refused(
            "gas-heavier-than-table",
            "The relative density of the gas, {relative_density}, is above the table's",
            "Use the physical method: heavier gas drops more than the table says.",
        ),
        Refused(
            "table-for-natural-gas-only",
            "The capacity table is for natural gas",
            "Use the physical method for other gases.",
        ),
    ),
    monotonic=(
        Monotonic("/sections/0/length", "/highest_drop", "increasing"),
        Monotonic("/sections/0/extra_length", "/highest_drop", "increasing"),
        Monotonic("/appliances/0/heat_input", "/total_flow", "increasing"),
    ),
    charts=(
        LineChart(
            "profile",
            "Drop along the way",
            series=(
                Series(
                    "way",
                    "/outputs/appliances/*/profile/distance",
                    "/outputs/appliances/*/profile/drop",
                ),
            ),
            levels=(Level("limit", "/outputs/drop_limit"),),
        ),
        BarChart(
            "sections",
            "Drop of each section",
            items="/outputs/sections",
            label="name",
            bars=(("drop", "drop"),),
        ),
    ),
    example={
        "gas": "natural-gas",
        "meter_capacity": {"value": 6, "unit": "m3/h"},
        "sections": [
            {
                "name": "carcass",
                "start": "meter",
                "end": "A",
                "tube": "copper-28x0.9",
                "length": {"value": 6, "unit": "m"},
            },
            {
                "name": "boiler branch",
                "start": "A",
                "end": "boiler",
                "tube": "copper-22x0.9",
                "length": {"value": 5.9, "unit": "m"},
                "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "bend-90", "count": 1}],
            },
            {
                "name": "kitchen branch",
                "start": "A",
                "end": "hob",
                "tube": "copper-15x0.7",
                "length": {"value": 9, "unit": "m"},
            },
        ],
        "appliances": [
            {
                "name": "boiler",
                "node": "boiler",
                "heat_input": {"value": 30, "unit": "kW", "basis": "net"},
            },
            {
                "name": "hob",
                "node": "hob",
                "heat_input": {"value": 7.5, "unit": "kW", "basis": "gross"},
            },
        ],
    },
)
