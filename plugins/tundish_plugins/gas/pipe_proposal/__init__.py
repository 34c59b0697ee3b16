"""The cheapest tubes of a gas installation that keep the limit at every appliance."""

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
from tundish.physics.pipes import COLEBROOK
from tundish_plugins.gas.pipe_proposal.contract import PipeProposalInputs, PipeProposalOutputs
from tundish_plugins.gas.pipe_proposal.formulas import COST, SEARCH
from tundish_plugins.gas.pipe_proposal.kernel import kernel
from tundish_plugins.gas.pipe_sizing.shared import METER, PLASTIC, REFUSALS

_PASSED = "{item} gets its gas with a drop of {value}; {limit} is allowed."
_FAILED = (
    "With the tubes offered {item} cannot have its gas: the widest of them still drop {value}, and "
    "{limit} is allowed. Offer larger tubes, replace one that stays, or shorten the way."
)
_UNSETTLED = "a section on the way lies between laminar and turbulent flow, and little is spare."

CALCULATION = Calculation(
    id="gas-pipe-proposal",
    version="1.0",
    title="Cheapest tubes of a gas installation",
    summary="From the tubes on offer and their costs, the cheapest for each section that keep the "
    "limit at every appliance, found exactly, with the next cheapest beside it.",
    family="gas",
    questions=(
        "Which tube sizes do I need, and no larger?",
        "Which section of the old gas pipe can stay?",
        "What is the cheapest way to feed another appliance?",
    ),
    inputs=PipeProposalInputs,
    outputs=PipeProposalOutputs,
    kernel=kernel,
    methods=(
        Method(
            "physical",
            "Friction, exact search",
            "Drops by friction as in the sizing; every combination of the tubes offered is covered "
            "by dynamic programming over the tree, and none that keeps the limit is cheaper. Cost "
            "is by the measured metre: fittings, joints and labour are not in it unless the cost of "
            "a metre holds them.",
            source=SEARCH,
        ),
    ),
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("gas-components", "table", "Components of mixtures"),
        Need("gas-families", "table", "Wobbe index and relative density of a family"),
        Need("gas-flow-most", "gas_flow_15", "Greatest flow of domestic work", optional=True),
        Need("gas-drop-of-method-most", "pressure_difference", "Greatest drop of the method"),
        Need("gas-tubes", "table", "Tubes"),
        Need("gas-tubes-further", "table", "Tubes of steel, plastic and corrugated steel"),
        Need("gas-roughness-polyethylene", "length", "Roughness of polyethylene"),
        Need("gas-roughness-steel", "length", "Roughness of steel"),
        Need("gas-fitting-lengths", "table", "Added length of fittings by size"),
        Need("gas-fitting-bores", "table", "Added length of fittings in bores"),
        Need("gas-uncertain-flow-margin", "number", "Share to be spare in uncertain flow"),
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
            "and little is spare: the real drop may differ by a fifth. Keep the spare share, or "
            "offer a larger tube.",
            source=COLEBROOK,
        ),
        Finding(
            "sizes-fall-along-the-way",
            "Order of the sizes",
            quantity="/outputs/sections/*/wider_than_feed",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="{item} is no wider than what feeds it.",
            words_failed="{item} is wider than the section that feeds it. The drops allow it and it "
            "is the cheapest; a later appliance would find the narrow part first. Ask for falling "
            "sizes in size_order to see what that costs.",
            source=COST,
        ),
        *METER,
        PLASTIC,
    ),
    cautions=("gas-registered-person", "gas-smell", "gas-proving"),
    refusals=(
        *REFUSALS,
        Refused(
            "candidate-twice",
            "The tube {tube} is offered twice",
            "Offer each tube once, with one cost.",
        ),
        Refused(
            "cost-missing",
            "Some of the tubes offered have a cost and this one has none",
            "Give every tube its cost, or none.",
        ),
        Refused(
            "search-too-large",
            "The search has not ended after {most} part-solutions",
            "Raise most_steps, offer fewer tubes, or say which sections keep their tube.",
        ),
    ),
    monotonic=(
        Monotonic("/sections/0/length", "/cost", "increasing"),
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
                "length": {"value": 6, "unit": "m"},
                "fittings": [{"kind": "elbow-90", "count": 2}],
            },
            {
                "name": "boiler branch",
                "start": "A",
                "end": "boiler",
                "length": {"value": 7, "unit": "m"},
                "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "bend-90", "count": 1}],
            },
            {
                "name": "kitchen branch",
                "start": "A",
                "end": "hob",
                "length": {"value": 9, "unit": "m"},
                "fittings": [{"kind": "bend-90", "count": 2}],
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
        "candidates": [
            {"tube": "copper-15x0.7", "cost": 6},
            {"tube": "copper-22x0.9", "cost": 11},
            {"tube": "copper-28x0.9", "cost": 17},
            {"tube": "copper-35x1.2", "cost": 29},
        ],
    },
)
