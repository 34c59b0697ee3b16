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
from tundish_plugins.gas.pipe_sizing.formulas import (
    DIVERSITY,
    LONGEST_LENGTH,
    SPITZGLASS,
    TABLE_METHOD,
)
from tundish_plugins.gas.pipe_sizing.kernel import kernel
from tundish_plugins.gas.pipe_sizing.shared import METER, PLASTIC, REFUSALS

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
        Method(
            "longest-length",
            "Capacity tables by the longest length",
            "One row of the tables for the whole installation, that of the longest way with its "
            "fittings or the next longer; every section must carry its flow by it. For regions "
            "whose code sizes so, and the only method for corrugated tubing.",
            source=LONGEST_LENGTH,
        ),
        Method(
            "spitzglass",
            "Spitzglass formula",
            "For steel pipe; the larger of the formula and friction counts, since it knows no "
            "laminar flow. The formulas of Pole and Renouard are not offered: they promise small "
            "tubes up to more than twice the flow, or rest on constants not checked.",
            source=SPITZGLASS,
        ),
    ),
    method_rule="gas-sizing-method",
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("gas-components", "table", "Components of mixtures"),
        Need("gas-families", "table", "Wobbe index and relative density of a family"),
        Need("gas-flow-most", "gas_flow_15", "Greatest flow of domestic work", optional=True),
        Need("gas-diversity", "text", "What allows a load below full rate", optional=True),
        Need("gas-drop-of-method-most", "pressure_difference", "Greatest drop of the method"),
        Need("gas-tubes", "table", "Tubes"),
        Need("gas-tubes-further", "table", "Tubes of steel, plastic and corrugated steel"),
        Need("gas-roughness-polyethylene", "length", "Roughness of polyethylene"),
        Need("gas-roughness-steel", "length", "Roughness of steel"),
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
        Need("gas-capacity-drops", "table", "Drop that each capacity table is for", optional=True),
        Need("gas-capacity-multipliers", "table", "Multipliers by density", optional=True),
        *(
            Need(
                f"gas-capacity-{family}-{series}",
                "table",
                f"Capacities of {series}, {gas}",
                optional=True,
            )
            for family, gas in (("natural", "natural gas"), ("lpg", "propane"))
            for series in ("steel", "copper-tubing", "corrugated", "polyethylene")
        ),
    ),
    findings=(
        Finding(
            "drop-within-limit",
            "Drop against the limit, natural gas",
            quantity="/outputs/appliances/*/drop",
            sense="at-most",
            limit="gas-drop-limit-natural",
            applies_when="/outputs/judged_by == natural-drop",
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
            applies_when="/outputs/judged_by == lpg-drop",
            capped_unless="/outputs/appliances/*/settled",
            words_capped=_UNSETTLED,
            words_passed=_PASSED,
            words_failed=_FAILED,
        ),
        Finding(
            "section-carries-flow",
            "Flow of each section against its capacity",
            quantity="/outputs/sections/*/flow",
            sense="at-most",
            limit="/outputs/sections/*/capacity",
            words_passed="{item} takes {value}; the table gives its tube {limit} at this length.",
            words_failed="{item} takes {value}; the table gives its tube only {limit} at this "
            "length. Take the least tube named, or a larger one.",
            source=LONGEST_LENGTH,
        ),
        Finding(
            "supply-pressure-enough",
            "Supply pressure against the tables",
            quantity="/inputs/supply_pressure",
            sense="at-least",
            limit="/outputs/least_supply",
            rests_on=(),
            words_passed="{value} arrives; the tables are meant for {limit} or more.",
            words_failed="Only {value} arrives; the tables allow so much drop only where {limit} or "
            "more does. Appliances would starve: size by a table for a smaller drop.",
            source=LONGEST_LENGTH,
        ),
        Finding(
            "supply-pressure-known",
            "Supply pressure",
            quantity="/outputs/supply_known",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="The supply pressure was given, and is held against the tables.",
            words_failed="The supply pressure was not given, and these tables are meant for a least "
            "one. Ask the gas supplier, and measure it.",
            source=LONGEST_LENGTH,
        ),
        Finding(
            "load-at-full-rate",
            "Load taken",
            quantity="/outputs/full_rate",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="Every appliance counts at full rate at once.",
            words_failed="The load is reduced by a diversity that the design must establish, and the "
            "authority accept. Without that, size for full rate.",
            source=DIVERSITY,
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
            rests_on=(),
            words_passed="The capacity table read is in force on the date.",
            words_failed="The capacity table read is superseded. It answers because its edition was "
            "named; design by the method in force.",
            source=TABLE_METHOD,
        ),
        *METER,
        PLASTIC,
    ),
    cautions=("gas-registered-person", "gas-smell", "gas-proving"),
    refusals=(
        *REFUSALS,
        Refused(
            "diversity-not-allowed",
            "The rules of {region} allow no diversity",
            "Leave diversity out: every appliance counts at full rate.",
        ),
        Refused(
            "fitting-length-unknown",
            "No added length is on file for fittings of the tube {tube}",
            "Leave the fitting out and put the maker's added length into extra_length.",
        ),
        Refused(
            "formula-for-steel-only",
            "The Spitzglass formula is for steel pipe, not for {tube}",
            "Use the physical method.",
        ),
        Refused(
            "method-not-in-region",
            "The rules of {region} hold no capacity tables by length",
            "Use the region's own method: leave method out.",
        ),
        Refused(
            "tube-without-table",
            "The region has no capacity table for {tube}, gas of the family {family}",
            "Choose a tube that is on file, or use the maker's table.",
        ),
        Refused(
            "table-drops-differ",
            "The tables of the tubes used are for different drops",
            "One installation is sized for one drop: choose tubes whose tables agree.",
        ),
        Refused(
            "tables-for-propane-only",
            "The capacity tables for liquefied petroleum gas are for undiluted propane",
            "Have other gases sized by their supplier's tables.",
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
