"""Lifting condensate: a pump's curve against the lift and friction of its tube."""

from __future__ import annotations

from tundish.calculation import (
    Calculation,
    Finding,
    LineChart,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.pipes import COLEBROOK, DARCY_WEISBACH
from tundish.physics.pumps import HYDROSTATICS
from tundish_plugins.condensate.pump_head.contract import PumpHeadInputs, PumpHeadOutputs
from tundish_plugins.condensate.pump_head.formulas import VOLUME_BALANCE
from tundish_plugins.condensate.pump_head.kernel import kernel

_NEVER = (
    "Do not lead it into the pump, whatever the numbers: what it discharges can be scalding water "
    "and steam, nobody sees it, and without power it does not leave. It needs a gravity pipe of its "
    "own to a safe, visible place. Only an arrangement that the appliance's maker and the inspecting "
    "body have accepted in writing may stand in its place. Where it is piped so already, keep the "
    "boiler off until that is mended."
)

CALCULATION = Calculation(
    id="condensate-pump-head",
    version="1.0",
    title="Lifting condensate with a pump",
    summary="Whether a condensate pump lifts what the boiler makes: lift and friction against its "
    "curve, cycles, a power cut, hot water, and relief valves kept out of it.",
    family="condensate",
    questions=(
        "Where does the condensate go with no drain outside?",
        "Will this pump lift it through this tube?",
        "May the relief valve share the condensate pump?",
    ),
    inputs=PumpHeadInputs,
    outputs=PumpHeadOutputs,
    kernel=kernel,
    needs=(
        Need("condensate-yield-net", "volume_per_energy", "Most condensate for net heat input"),
        Need("condensate-yield-gross", "volume_per_energy", "Most condensate for gross heat input"),
    ),
    findings=(
        Finding(
            "pump-carries-inflow",
            "Flow of the pump against the inflow",
            quantity="/outputs/flow_margin",
            sense="at-least",
            limit="condensate-pump-flow-margin-least",
            words_passed="The pump carries {value} times the inflow; {limit} times is asked for.",
            words_failed="The pump carries only {value} times the inflow; {limit} times is asked "
            "for. Take a wider tube, a shorter way or a stronger pump.",
        ),
        Finding(
            "flow-settled",
            "Kind of flow at the duty point",
            quantity="/outputs/transitional",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="The duty point lies in clearly laminar or clearly turbulent flow.",
            words_failed="Between the coldest and the hottest water the duty point lies where "
            "laminar flow breaks up, so the flow is uncertain; the margin is judged with the larger "
            "friction.",
            source=COLEBROOK,
        ),
        Finding(
            "water-cool-enough",
            "Hottest water against the pump's temperature limit",
            quantity="/inputs/hottest_temperature",
            sense="at-most",
            limit="/inputs/pump_temperature_limit",
            words_passed="Water of {value} is within the maker's limit of {limit}.",
            words_failed="Water of {value} is hotter than the maker's limit of {limit}.",
            source=HYDROSTATICS,
        ),
        Finding(
            "tube-keeps-its-water",
            "Water that drains back from the tube",
            quantity="/outputs/drain_back",
            sense="at-most",
            limit="/inputs/switching_volume",
            applies_when="not /inputs/non_return_valve",
            passed="advisory",
            words_passed="Without a non-return valve {value} can drain back after each run, out of "
            "{limit} switched: fit a non-return valve.",
            words_failed="Without a non-return valve {value} drains back after each run, more than "
            "the {limit} switched: the pump would start again at once. Fit a non-return valve.",
            source=VOLUME_BALANCE,
        ),
        Finding(
            "alarm-stops-boiler",
            "Boiler and alarm contact",
            quantity="/inputs/alarm_interlock",
            sense="is",
            limit=True,
            words_passed="The boiler is wired through the alarm contact.",
            words_failed="The boiler is not wired through the alarm contact: when the pump fails "
            "alone, the boiler goes on making water.",
            source=VOLUME_BALANCE,
        ),
        Finding(
            "measured-within-ceiling",
            "Measured condensate against what the gas can make",
            quantity="/inputs/measurement/flow",
            sense="at-most",
            limit="/outputs/measurement/ceiling",
            words_passed="{value} was measured; natural gas can make {limit} at most at that heat "
            "input. A little other water can still hide below that.",
            words_failed="{value} was measured; natural gas can make {limit} at most at that heat "
            "input. Other water is arriving: a relief valve that passes, a heat exchanger that "
            "leaks, or rain in the flue. Have the relief valve and the heat exchanger checked by a "
            "registered engineer before the pump is trusted.",
            source=VOLUME_BALANCE,
        ),
        Finding(
            "pump-takes-relief",
            "Relief valve and the pump",
            quantity="/outputs/takes_relief",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="No relief valve is named as led into this pump; keep it so.",
            words_failed="A relief valve is led into this pump. " + _NEVER,
            depends_on=("condensate-relief-separate",),
        ),
        Finding(
            "relief-water-within-pump",
            "Relief flow against pump flow",
            quantity="/outputs/relief/water_flow",
            sense="at-most",
            limit="/outputs/judged_flow",
            passed="advisory",
            failed="dangerous",
            words_passed="The seat of the relief valve can pass {value} of water, the pump {limit}. "
            "That does not make it acceptable.",
            words_failed="The seat of the relief valve can pass {value} of water, the pump only "
            "{limit}: the tank overflows at once with scalding water.",
            capped_unless="/outputs/relief/seat_known",
            words_capped="neither the valve's rating nor its bore is given, so this is the least "
            "that a valve for this heat input passes.",
            source=HYDROSTATICS,
        ),
        Finding(
            "relief-cool-enough",
            "Relief temperature against the pump's temperature limit",
            quantity="/outputs/relief/temperature",
            sense="at-most",
            limit="/inputs/pump_temperature_limit",
            passed="advisory",
            failed="dangerous",
            words_passed="The valve relieves at {value}; the pump's limit is {limit}. That does not "
            "make it acceptable.",
            words_failed="The valve relieves at {value}; the pump's limit is {limit}.",
            source=HYDROSTATICS,
        ),
    ),
    cautions=(
        "condensate-flue-gas",
        "condensate-acid",
        "condensate-electrical",
        "condensate-relief-separate",
    ),
    refusals=(
        Refused(
            "inflow-missing",
            "The inflow is not known",
            "Give the greatest condensate flow, or the boiler's heat input with its basis.",
        ),
        Refused(
            "inflow-given-twice",
            "The inflow is given twice",
            "Give either the condensate flow or the heat input.",
        ),
        Refused(
            "coldest-above-hottest",
            "The coldest water is hotter than the hottest",
            "Give the coldest and the hottest water that flows in during use.",
        ),
        Refused(
            "tube-shorter-than-lift",
            "The tube is shorter than the lift of {lift}",
            "Measure the whole tube from the pump to its outlet; it is at least as long as the "
            "lift.",
        ),
        Refused(
            "metal-tube",
            "Copper and plain steel do not stand acid condensate",
            "Use plastic tube, or a stainless steel the boiler's maker allows.",
        ),
        Refused(
            "pump-curve-no-shut-off",
            "The pump's curve does not start at no flow",
            "Give the shut-off head as the first point, with a flow of 0.",
        ),
        Refused(
            "pump-curve-flow-not-rising",
            "Flow does not rise from point to point",
            "Give the points in order of rising flow.",
        ),
        Refused(
            "pump-curve-not-falling",
            "The pump's curve does not fall",
            "Head must fall as flow rises; check the points against the maker's curve.",
        ),
        Refused(
            "lift-above-shut-off",
            "The pump can lift {shut_off} at most, and at that nothing flows",
            "Take a pump with more head, or a lower route.",
        ),
        Refused(
            "beyond-pump-curve",
            "The duty point lies beyond the last point of the pump's curve",
            "Give points to a higher flow; the curve is not extended.",
        ),
        Refused(
            "pump-overwhelmed",
            "The pump lifts {flow} through this tube, no more than flows in",
            "The level never falls: take a wider tube, a lower route or a stronger pump.",
        ),
    ),
    monotonic=(
        Monotonic("/static_lift", "/duty_flow", "decreasing"),
        Monotonic("/tube_length", "/duty_flow", "decreasing"),
        Monotonic("/fittings_loss", "/duty_flow", "decreasing"),
        Monotonic("/coldest_temperature", "/judged_flow", "increasing"),
        Monotonic("/hottest_temperature", "/judged_flow", "decreasing"),
        Monotonic("/inflow", "/flow_margin", "decreasing"),
        Monotonic("/switching_volume", "/starts", "decreasing"),
    ),
    charts=(
        LineChart(
            "duty",
            "Pump and tube",
            series=(
                Series("pump", "/outputs/curve/flow", "/outputs/curve/pump_head"),
                Series("tube", "/outputs/curve/flow", "/outputs/curve/system_head"),
            ),
        ),
    ),
    sources=(DARCY_WEISBACH,),
    example={
        "inflow": {"value": 2.4, "unit": "l/h"},
        "static_lift": {"value": 2, "unit": "m"},
        "tube_bore": {"value": 6, "unit": "mm"},
        "tube_length": {"value": 8, "unit": "m"},
        "hottest_temperature": {"value": 45, "unit": "degC"},
        "coldest_temperature": {"value": 20, "unit": "degC"},
        "pump_temperature_limit": {"value": 60, "unit": "degC"},
        "pump_curve": [
            {"flow": {"value": 0, "unit": "l/h"}, "head": {"value": 5, "unit": "m"}},
            {"flow": {"value": 100, "unit": "l/h"}, "head": {"value": 4.5, "unit": "m"}},
            {"flow": {"value": 200, "unit": "l/h"}, "head": {"value": 3.6, "unit": "m"}},
            {"flow": {"value": 300, "unit": "l/h"}, "head": {"value": 2.2, "unit": "m"}},
            {"flow": {"value": 380, "unit": "l/h"}, "head": {"value": 0.5, "unit": "m"}},
        ],
        "switching_volume": {"value": 0.6, "unit": "l"},
        "reserve_volume": {"value": 0.5, "unit": "l"},
        "non_return_valve": True,
        "alarm_interlock": True,
    },
)
