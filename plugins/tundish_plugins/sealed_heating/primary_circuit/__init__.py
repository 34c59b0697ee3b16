"""Primary circuit: flows, losses, the index circuit, the pump, the bypass and the header."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    LineChart,
    Method,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.physics.pipes import COLEBROOK
from tundish.sources import Source
from tundish_plugins.sealed_heating.piping.formulas import HEAT_BALANCE, LOSSES, MIXING
from tundish_plugins.sealed_heating.primary_circuit.contract import (
    PrimaryCircuitInputs,
    PrimaryCircuitOutputs,
)
from tundish_plugins.sealed_heating.primary_circuit.formulas import CONTINUITY
from tundish_plugins.sealed_heating.primary_circuit.kernel import kernel

_BY_LOSSES = Source(
    "fittings-by-loss-coefficient",
    kind="textbook",
    document="Fittings by loss coefficients of the dynamic pressure",
    edition="fluid mechanics textbooks",
    locator="Δp = ζ ρ w²/2",
    confirmed="derived",
)
_BY_LENGTHS = Source(
    "fittings-by-length",
    kind="handbook",
    document="Copper Development Association publication 150, Copper tubes in domestic heating systems",
    edition="undated",
    locator="Table 1, fittings as lengths of tube",
    confirmed="seen",
    seen_in="trade association publication text",
)

CALCULATION = Calculation(
    id="primary-circuit",
    version="1.0",
    title="Pipes and pump of a heating circuit",
    summary="Flow, velocity and loss of every section, the index circuit, where the pump meets it, "
    "what the boiler gets when valves close, and what mixes in a low-loss header.",
    family="sealed-heating",
    questions=(
        "Which size of pipe does this boiler need?",
        "Is the pump strong enough for the index circuit?",
        "How much must the bypass pass when the valves close?",
        "What does the low-loss header do to flow and return temperature?",
    ),
    inputs=PrimaryCircuitInputs,
    outputs=PrimaryCircuitOutputs,
    kernel=kernel,
    methods=(
        Method(
            "loss-coefficients",
            "Fittings by loss coefficients",
            "Every fitting takes a multiple of the dynamic pressure; holds for any pipe.",
            source=_BY_LOSSES,
        ),
        Method(
            "equivalent-lengths",
            "Fittings as lengths of copper tube",
            "Every fitting counts as so many metres of the same copper tube.",
            source=_BY_LENGTHS,
        ),
    ),
    needs=(
        Need("heating-pipe-roughness", "table", "Roughness by material"),
        Need("heating-fitting-losses", "table", "Loss coefficients of fittings"),
        Need("heating-fitting-lengths", "table", "Equivalent lengths of fittings"),
        Need("water-tubes", "table", "Tubes by name", optional=True),
    ),
    findings=(
        Finding(
            "pump-against-circuit",
            "Head of the pump against the index circuit",
            quantity="/outputs/pump/head_at_design",
            sense="at-least",
            limit="/outputs/required_head",
            words_passed="At the design flow the pump gives {value}; the index circuit needs {limit}.",
            words_failed="At the design flow the pump gives {value}, but the index circuit needs "
            "{limit}: it gets less than its design flow. Take wider pipes on its way or a stronger "
            "pump.",
            rests_on=(),
            source=HYDROSTATICS,
        ),
        Finding(
            "velocity-noise",
            "Velocity and noise",
            quantity="/outputs/sections/*/velocity_in_use",
            sense="at-most",
            limit="heating-velocity-noise-most",
            words_passed="{value}; noise is heard above {limit}.",
            words_failed="{value}: noise is heard above {limit}. Take the next size up.",
            rests_on=(),
        ),
        Finding(
            "velocity-erosion",
            "Velocity and wear of copper",
            quantity="/outputs/sections/*/velocity_in_use",
            sense="at-most",
            limit="heating-velocity-erosion-most",
            applies_when="/outputs/sections/*/copper",
            words_passed="{value}; copper wears away above {limit}.",
            words_failed="{value} wears the wall of copper tube away (above {limit}): it will leak in "
            "time. Take a wider tube.",
            rests_on=(),
        ),
        Finding(
            "velocity-settling",
            "Velocity and sludge",
            quantity="/outputs/sections/*/velocity",
            sense="at-least",
            limit="heating-velocity-least",
            failed="advisory",
            words_passed="{value}; sludge can settle below {limit}.",
            words_failed="{value}: below {limit} sludge can settle and air is not carried along.",
            rests_on=(),
        ),
        Finding(
            "gradient-usual",
            "Friction for each metre",
            quantity="/outputs/sections/*/gradient",
            sense="at-most",
            limit="/inputs/gradient_limit",
            failed="advisory",
            words_passed="{value}; the pipes are sized for {limit}.",
            words_failed="{value} is more than the {limit} that the pipes are sized for: the pump "
            "pays for it. The next size up costs less to run.",
            rests_on=("heating-gradient-most",),
            source=LOSSES,
        ),
        Finding(
            "flow-settled",
            "Kind of flow",
            quantity="/outputs/sections/*/transitional",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="Clearly laminar or clearly turbulent.",
            words_failed="Between laminar and turbulent: its loss is uncertain, and the larger is "
            "taken.",
            rests_on=(),
            source=COLEBROOK,
        ),
        Finding(
            "boiler-flow",
            "Flow through the boiler with all valves open",
            quantity="/outputs/boiler_flow",
            sense="at-least",
            limit="/inputs/boiler/least_flow",
            words_passed="{value}; its maker asks for {limit} at least.",
            words_failed="{value} is less than the {limit} that its maker asks for, even with every "
            "valve open: it can overheat and lock out. A smaller difference of flow and return, or "
            "a low-loss header with a pump of its own, gives it more.",
            rests_on=(),
            source=CONTINUITY,
        ),
        Finding(
            "flow-with-valves-closed",
            "Flow when the valves close, without a bypass",
            quantity="/inputs/closing/open_flow",
            sense="at-least",
            limit="/inputs/boiler/least_flow",
            applies_when="not /outputs/closing/bypass_fitted",
            words_passed="{value} still flow; the boiler needs {limit}. No bypass is needed for it.",
            words_failed="Only {value} still flow when the valves close; the boiler needs {limit}. "
            "Fit an automatic bypass, or leave enough of the circuit always open.",
            source=CONTINUITY,
        ),
        Finding(
            "bypass-shut-in-use",
            "Setting of the bypass against the open circuit",
            quantity="/inputs/closing/bypass_setting",
            sense="at-least",
            limit="/outputs/closing/pressure_open",
            failed="advisory",
            words_passed="Set to {value}, above the {limit} across it with every valve open.",
            words_failed="Set to {value}, below the {limit} across it with every valve open: it "
            "passes flow water all the time, and the return is warmed for nothing.",
            rests_on=(),
            source=LOSSES,
        ),
        Finding(
            "bypass-opens",
            "Setting of the bypass against what the pump can do",
            quantity="/inputs/closing/bypass_setting",
            sense="at-most",
            limit="/outputs/closing/pressure_closed",
            applies_when="/outputs/closing/bypass_needed",
            words_passed="Set to {value}; with the valves closed the pump leaves {limit} across it.",
            words_failed="Set to {value}, but with the valves closed the pump leaves only {limit} "
            "across it: it does not pass the boiler's least flow. Set it lower.",
            rests_on=(),
            source=LOSSES,
        ),
        Finding(
            "header-flow-temperature",
            "Flow temperature behind the header",
            quantity="/outputs/header/secondary_flow_temperature",
            sense="at-least",
            limit="/inputs/flow_temperature",
            words_passed="{value} reach the circuit, which is designed for {limit}.",
            words_failed="Only {value} reach the circuit, which is designed for {limit}: its own "
            "return mixes in because it takes more than the boiler's side gives. Raise the flow on "
            "the boiler's side or slow the circuit's pump.",
            rests_on=(),
            source=MIXING,
        ),
        Finding(
            "header-return-condenses",
            "Return to the boiler and condensing",
            quantity="/outputs/header/primary_return_temperature",
            sense="at-most",
            limit="heating-condensing-return-most",
            failed="advisory",
            words_passed="{value} return to the boiler; it condenses below about {limit}.",
            words_failed="{value} return to the boiler, too warm to condense (about {limit}). Where "
            "the circuit's own return is colder, slow the pump on the boiler's side.",
            rests_on=(),
        ),
    ),
    cautions=("heating-bypass", "heating-hydraulics-limits", "sealed-make-safe"),
    refusals=(
        Refused(
            "return-below-freezing",
            "The return would be at or below 0 °C",
            "Take a smaller difference of flow and return.",
        ),
        Refused(
            "glycol-share-of-water",
            "A share of glycol is given for water",
            "Leave the share out, or name the glycol as the fluid.",
        ),
        Refused(
            "glycol-share-once",
            "The share of glycol is needed once: by mass or by volume",
            "Give one of both.",
        ),
        Refused(
            "glycol-outside-data",
            "The share of glycol lies outside the data",
            "The data hold from 0.10 to 0.55 by mass.",
        ),
        Refused(
            "glycol-too-hot",
            "The data of glycol end at 100 °C",
            "Take a lower flow temperature.",
        ),
        Refused(
            "network-loop",
            "The sections form a loop at {point}",
            "Describe flow and return together: each point is fed by one section.",
        ),
        Refused(
            "point-fed-twice",
            "The point {point} is fed by two sections",
            "Each point is fed by one section.",
        ),
        Refused(
            "section-unconnected",
            "Nothing leads to {point}: there is no path for the water",
            "Begin the section at the origin, or at the end of another section.",
        ),
        Refused(
            "load-unconnected",
            "No section leads to {point}: there is no path for the water",
            "Name the end of a section as the load's node.",
        ),
        Refused(
            "section-without-load",
            "Nothing hangs on {point}: no water flows there",
            "Connect a load behind the section, or leave the section out.",
        ),
        Refused(
            "tube-given-twice",
            "The tube is given by name and by material or bore",
            "Give the name, or material and bore.",
        ),
        Refused(
            "tube-missing",
            "Material or bore of the pipe is missing",
            "Measure the bore and name the material; neither follows from a nominal size.",
        ),
        Refused(
            "lengths-for-copper-only",
            "The lengths of fittings hold for copper tube",
            "Use loss coefficients, or state the fittings of this section as a further length.",
        ),
        Refused(
            "component-loss-once",
            "The loss of a component is needed once",
            "Give its Kv, or its loss at one flow.",
        ),
        Refused(
            "component-rating-incomplete",
            "A loss needs the flow it belongs to",
            "Give both, flow and loss.",
        ),
        Refused(
            "boiler-loss-counted-twice",
            "The loss of the boiler is already taken off in what it leaves for the pipes",
            "Leave the boiler's components out, or give the curve of the pump itself.",
        ),
        Refused(
            "boiler-beyond-header",
            "Behind a low-loss header the circuit's pump does not drive the boiler",
            "Leave this out: the boiler's side is a circuit of its own.",
        ),
        Refused(
            "least-flow-missing",
            "What happens when valves close is judged by the boiler's least flow",
            "Give the boiler with its least flow.",
        ),
        Refused(
            "header-colder-than-return",
            "The boiler's flow is no warmer than the return of the circuit",
            "Check both temperatures.",
        ),
        Refused(
            "pump-curve-flow-not-rising",
            "Flow does not rise from point to point",
            "Give the points in order of rising flow.",
        ),
        Refused(
            "pump-curve-not-falling",
            "The head of the pump rises with the flow",
            "Give the curve of one fixed speed, or of constant pressure, from the maker.",
        ),
        Refused(
            "below-pump-curve",
            "{flow} lie before the first point of the pump's curve",
            "Give points from a lower flow on; the curve is not extended.",
        ),
        Refused(
            "beyond-pump-curve",
            "At {flow} the curve of the pump is at its end or beyond",
            "Give points to a higher flow, or take a larger pump; the curve is not extended.",
        ),
    ),
    monotonic=(
        Monotonic("/loads/0/power", "/total_flow", "increasing"),
        Monotonic("/loads/0/power", "/required_pressure", "increasing"),
        Monotonic("/temperature_drop", "/total_flow", "decreasing"),
        Monotonic("/sections/0/length", "/required_pressure", "increasing"),
        Monotonic("/sections/0/bore", "/sections/0/velocity", "decreasing"),
        Monotonic("/sections/0/length", "/pump/duty_flow", "decreasing"),
        Monotonic("/closing/open_flow", "/closing/bypass_flow", "decreasing"),
        Monotonic("/header/primary_flow", "/header/primary_return_temperature", "increasing"),
    ),
    charts=(
        LineChart(
            "duty",
            "Pump and circuit",
            series=(
                Series("circuit", "/outputs/curve/flow", "/outputs/curve/circuit_head"),
                Series("pump", "/outputs/curve/flow", "/outputs/curve/pump_head"),
            ),
        ),
        BarChart(
            "sections",
            "Where the pressure goes",
            items="/outputs/sections",
            label="name",
            bars=(("pipe", "friction"), ("fittings", "fittings"), ("components", "components")),
        ),
    ),
    sources=(HEAT_BALANCE,),
    example={
        "flow_temperature": {"value": 70, "unit": "degC"},
        "temperature_drop": {"value": 20, "unit": "K"},
        "sections": [
            {
                "name": "main",
                "start": "boiler",
                "end": "hall",
                "length": {"value": 8, "unit": "m"},
                "material": "copper",
                "bore": {"value": 26.2, "unit": "mm"},
                "fittings": [{"kind": "elbow", "size": "DN 25", "count": 4}],
            },
            {
                "name": "upstairs",
                "start": "hall",
                "end": "landing",
                "length": {"value": 14, "unit": "m"},
                "material": "copper",
                "bore": {"value": 20.2, "unit": "mm"},
                "fittings": [
                    {"kind": "tee-branch", "count": 2},
                    {"kind": "elbow", "size": "DN 20", "count": 6},
                ],
            },
            {
                "name": "downstairs",
                "start": "hall",
                "end": "lounge",
                "length": {"value": 10, "unit": "m"},
                "material": "plastic",
                "bore": {"value": 17.7, "unit": "mm"},
                "fittings": [{"kind": "tee-straight", "count": 2}],
            },
        ],
        "loads": [
            {
                "name": "bedrooms",
                "node": "landing",
                "power": {"value": 9, "unit": "kW"},
                "components": [{"name": "zone valve", "kv": {"value": 4.6, "unit": "m3/h"}}],
            },
            {
                "name": "living rooms",
                "node": "lounge",
                "power": {"value": 9, "unit": "kW"},
                "components": [
                    {
                        "name": "manifold",
                        "rated_flow": {"value": 10, "unit": "l/min"},
                        "rated_loss": {"value": 12, "unit": "kPa"},
                    }
                ],
            },
        ],
        "boiler": {
            "least_flow": {"value": 8, "unit": "l/min"},
            "components": [
                {
                    "name": "heat exchanger",
                    "rated_flow": {"value": 17.2, "unit": "l/min"},
                    "rated_loss": {"value": 10, "unit": "kPa"},
                }
            ],
        },
        "pump": {
            "curve_is": "of-the-pump",
            "points": [
                {"flow": {"value": 0, "unit": "m3/h"}, "head": {"value": 6, "unit": "m"}},
                {"flow": {"value": 0.5, "unit": "m3/h"}, "head": {"value": 5.8, "unit": "m"}},
                {"flow": {"value": 1, "unit": "m3/h"}, "head": {"value": 5.2, "unit": "m"}},
                {"flow": {"value": 1.5, "unit": "m3/h"}, "head": {"value": 4.3, "unit": "m"}},
                {"flow": {"value": 2, "unit": "m3/h"}, "head": {"value": 3.1, "unit": "m"}},
                {"flow": {"value": 2.5, "unit": "m3/h"}, "head": {"value": 1.6, "unit": "m"}},
            ],
        },
        "closing": {
            "open_flow": {"value": 3.5, "unit": "l/min"},
            "bypass_setting": {"value": 40, "unit": "kPa"},
        },
    },
)
