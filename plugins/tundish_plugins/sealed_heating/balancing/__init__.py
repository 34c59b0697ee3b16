"""Radiator balancing: design flows, valve settings, and what flows before and after."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Method,
    Monotonic,
    Need,
    Refused,
)
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.physics.radiators import EN_442, LOG_MEAN
from tundish_plugins.sealed_heating.balancing.contract import (
    RadiatorBalancingInputs,
    RadiatorBalancingOutputs,
)
from tundish_plugins.sealed_heating.balancing.formulas import VALVE_LINE
from tundish_plugins.sealed_heating.balancing.kernel import ARITHMETIC, kernel
from tundish_plugins.sealed_heating.piping.formulas import KV, SQUARE_LAW

_POINTS = [
    {"setting": 0.25, "kv": {"value": 0.04, "unit": "m3/h"}},
    {"setting": 0.5, "kv": {"value": 0.09, "unit": "m3/h"}},
    {"setting": 1, "kv": {"value": 0.2, "unit": "m3/h"}},
    {"setting": 2, "kv": {"value": 0.42, "unit": "m3/h"}},
    {"setting": 4, "kv": {"value": 0.8, "unit": "m3/h"}},
]


def _section(name: str, start: str, end: str, length: float, bore: float) -> dict[str, object]:
    return {
        "name": name,
        "start": start,
        "end": end,
        "length": {"value": length, "unit": "m"},
        "material": "copper",
        "bore": {"value": bore, "unit": "mm"},
    }


def _radiator(name: str, load: float, rated: float, room: float) -> dict[str, object]:
    return {
        "name": name,
        "node": f"{name} radiator",
        "heat_load": {"value": load, "unit": "W"},
        "room_temperature": {"value": room, "unit": "degC"},
        "exponent": 1.3,
        "rated_output": {"value": rated, "unit": "W"},
        "components": [
            {
                "name": "thermostatic valve",
                "kv": {"value": 0.6, "unit": "m3/h"},
            }
        ],
        "valve": {"points": _POINTS},
    }


CALCULATION = Calculation(
    id="radiator-balancing",
    version="1.0",
    title="Balancing radiators",
    summary="Design flow of every radiator, what its balancing valve has to take and the setting for "
    "it, and the flows, returns and outputs that settle before and after.",
    family="sealed-heating",
    questions=(
        "How far does each lockshield have to be opened?",
        "Which radiator is the index one?",
        "Why does the far radiator stay cold?",
        "Which temperature drop should be measured at each radiator?",
    ),
    inputs=RadiatorBalancingInputs,
    outputs=RadiatorBalancingOutputs,
    kernel=kernel,
    methods=(
        Method(
            "logarithmic-mean",
            "Output by the logarithmic mean",
            "Right at any flow; the rating at 75/65/20 °C stands for 49.83 K.",
            source=LOG_MEAN,
        ),
        Method(
            ARITHMETIC,
            "Output by the arithmetic mean",
            "As radiators are rated: 50 K at 75/65/20 °C. Too high where the water cools far.",
            source=EN_442,
        ),
    ),
    needs=(
        Need("heating-pipe-roughness", "table", "Roughness by material"),
        Need("heating-fitting-losses", "table", "Loss coefficients of fittings"),
        Need("water-tubes", "table", "Tubes by name", optional=True),
    ),
    findings=(
        Finding(
            "pressure-for-index",
            "Pressure against the index radiator",
            quantity="/outputs/pressure_at_design",
            sense="at-least",
            limit="/outputs/required_pressure",
            words_passed="{value} are there at the design flow; the index radiator needs {limit}.",
            words_failed="Only {value} are there at the design flow; the index radiator needs {limit} "
            "with its valve fully open: no setting gives every radiator its flow. Take wider pipes "
            "on its way, a smaller flow or a stronger pump.",
            rests_on=(),
            source=HYDROSTATICS,
        ),
        Finding(
            "valve-range",
            "Kv needed against the least that the valve has",
            quantity="/outputs/radiators/*/kv_needed",
            sense="at-least",
            limit="/outputs/radiators/*/valve_least",
            words_passed="Kv {value} is needed; the valve goes down to {limit}.",
            words_failed="Kv {value} is needed, but the valve goes down to {limit} only: even at its "
            "least setting it passes too much. Fit a finer valve, or take pressure away before it.",
            rests_on=(),
            source=KV,
        ),
        Finding(
            "heat-as-found",
            "Heat as the valves stand",
            quantity="/outputs/radiators/*/as_found/output",
            sense="at-least",
            limit="/inputs/radiators/*/heat_load",
            applies_when="/outputs/settings_stated",
            words_passed="{value} against {limit} needed.",
            words_failed="{value} against {limit} needed: the room does not get warm as the valves "
            "stand.",
            rests_on=(),
            source=LOG_MEAN,
        ),
        Finding(
            "heat-balanced",
            "Heat once the valves are set",
            quantity="/outputs/radiators/*/balanced/output",
            sense="at-least",
            limit="/inputs/radiators/*/heat_load",
            words_passed="{value} against {limit} needed.",
            words_failed="{value} against {limit} needed, even with every valve set: the radiator is "
            "too small for this flow temperature, or the water does not reach it.",
            rests_on=(),
            source=LOG_MEAN,
        ),
        Finding(
            "return-condenses",
            "Mixed return and condensing",
            quantity="/outputs/balanced/return_temperature",
            sense="at-most",
            limit="heating-condensing-return-most",
            failed="advisory",
            words_passed="{value} return with the valves set; a boiler for natural gas condenses "
            "below about {limit}.",
            words_failed="{value} return even with the valves set, too warm for a boiler for natural "
            "gas to condense (about {limit}). A lower flow temperature or less flow lets it.",
            rests_on=(),
        ),
    ),
    cautions=("heating-balancing", "heating-hydraulics-limits", "sealed-make-safe"),
    refusals=(
        Refused(
            "flow-colder-than-room",
            "The flow is no warmer than the room of {radiator}",
            "Take a flow temperature above that of the room.",
        ),
        Refused(
            "return-colder-than-room",
            "The return of {radiator} would be no warmer than its room",
            "Take a smaller difference of flow and return, or a warmer flow.",
        ),
        Refused(
            "mean-too-crude",
            "At so small a flow the arithmetic mean gives more heat than the water carries",
            "Use the logarithmic mean.",
        ),
        Refused(
            "valve-points-not-rising",
            "Setting or Kv does not rise from point to point",
            "Give the valve's points from the least setting to fully open.",
        ),
        Refused(
            "setting-outside-valve",
            "The setting lies outside the points of the valve",
            "Give a setting within them, or more points; the line is not extended.",
        ),
        Refused(
            "pressure-given-twice",
            "The pressure is given as held and by a pump",
            "Give one of both.",
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
            "radiator-unconnected",
            "No section leads to {point}: there is no path for the water",
            "Name the end of a section as the radiator's node.",
        ),
        Refused(
            "section-without-load",
            "Nothing hangs on {point}: no water flows there",
            "Connect a radiator behind the section, or leave the section out.",
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
            "{flow} lie beyond the last point of the pump's curve",
            "Give points to a higher flow, or take a larger pump; the curve is not extended.",
        ),
    ),
    monotonic=(
        Monotonic("/radiators/0/heat_load", "/total_flow", "increasing"),
        Monotonic("/temperature_drop", "/total_flow", "decreasing"),
        Monotonic("/sections/0/length", "/required_pressure", "increasing"),
        Monotonic("/available_pressure", "/as_found/flow", "increasing"),
        Monotonic("/radiators/0/valve/set_to", "/radiators/0/as_found/flow", "increasing"),
        Monotonic("/radiators/0/valve/set_to", "/radiators/0/as_found/output", "increasing"),
    ),
    charts=(
        BarChart(
            "pressures",
            "Where each radiator's pressure goes",
            items="/outputs/radiators",
            label="name",
            bars=(("pipes", "pipes"), ("radiator", "own"), ("balancing valve", "valve")),
        ),
    ),
    sources=(VALVE_LINE, SQUARE_LAW),
    example={
        "flow_temperature": {"value": 65, "unit": "degC"},
        "temperature_drop": {"value": 15, "unit": "K"},
        "sections": [
            _section("riser", "boiler", "landing", 6, 20.2),
            _section("lounge tail", "landing", "lounge radiator", 6, 13.6),
            _section("corridor", "landing", "corridor end", 20, 13.6),
            _section("bedroom tail", "corridor end", "bedroom radiator", 4, 8.8),
            _section("study tail", "corridor end", "study radiator", 16, 6.8),
        ],
        "radiators": [
            _radiator("lounge", 1800, 2900, 21),
            _radiator("bedroom", 900, 1500, 18),
            _radiator("study", 700, 1090, 21),
        ],
    },
)
