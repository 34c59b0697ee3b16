"""Resistance of a temperature sensor, its temperature, and whether a reading can be true."""

from __future__ import annotations

from tundish.calculation import Calculation, Finding, LineChart, Monotonic, Need, Refused, Series
from tundish_plugins.controls.sensor.contract import SensorInputs, SensorOutputs
from tundish_plugins.controls.sensor.formulas import SPREAD
from tundish_plugins.controls.sensor.kernel import kernel

CALCULATION = Calculation(
    id="sensor-resistance",
    version="1.0",
    title="Resistance of a temperature sensor",
    summary="Thermistors and platinum sensors: resistance to temperature and back, tolerance, "
    "leads, open and short, and what a controller set for another curve shows.",
    family="controls",
    questions=(
        "What temperature is this resistance?",
        "Is the sensor broken, or of the wrong type?",
        "What does the controller show with the wrong sensor?",
    ),
    inputs=SensorInputs,
    outputs=SensorOutputs,
    kernel=kernel,
    needs=(Need("platinum-tolerance", "table", "Tolerance classes of platinum sensors"),),
    findings=(
        Finding(
            "sensor-against-thermometer",
            "Sensor against thermometer",
            quantity="/outputs/deviation",
            sense="at-most",
            limit="/outputs/band",
            words_passed="Sensor and thermometer differ by {value}, within {limit}.",
            words_failed="Sensor and thermometer differ by {value}, more than {limit}: another type "
            "of sensor, poor contact with the pipe or pocket, or damage. Check at a second "
            "temperature: a wrong type shows another error there.",
            source=SPREAD,
        ),
        Finding(
            "shown-against-cold-limit",
            "Shown temperature below the true one",
            quantity="/outputs/shown_error",
            sense="at-least",
            limit="/outputs/lowest_error",
            failed="dangerous",
            words_passed="The controller shows {value} against the truth; {limit} is allowed towards "
            "cold.",
            words_failed="The controller shows {value} against the truth; {limit} is allowed towards "
            "cold. It goes on heating water that is hotter than it shows: it can scald or boil. "
            "Fit the sensor that the controller is made for.",
            source=SPREAD,
        ),
        Finding(
            "shown-against-hot-limit",
            "Shown temperature above the true one",
            quantity="/outputs/shown_error",
            sense="at-most",
            limit="/inputs/allowed_error",
            words_passed="The controller shows {value} against the truth; {limit} is allowed towards "
            "hot.",
            words_failed="The controller shows {value} against the truth; {limit} is allowed towards "
            "hot. It stops heating too early: stored water may stay too cool to be safe from "
            "bacteria.",
            source=SPREAD,
        ),
        Finding(
            "leads-against-limit",
            "Error by the leads",
            quantity="/outputs/lead_error",
            sense="at-most",
            limit="/inputs/allowed_error",
            failed="advisory",
            words_passed="The leads put a reading out by {value}, within {limit}.",
            words_failed="The leads put a reading out by {value}, more than {limit}: use thicker or "
            "shorter leads, or let the controller allow for them.",
            source=SPREAD,
        ),
    ),
    cautions=("controls-electrical-work", "controls-bands-apart", "sensor-no-cut-out"),
    refusals=(
        Refused(
            "sensor-missing",
            "The sensor is not described",
            "Give Beta with its reference, three points, coefficients, or a platinum sensor.",
        ),
        Refused(
            "sensor-given-twice",
            "The sensor is described in two ways",
            "Give one of them.",
        ),
        Refused(
            "tolerance-given-twice",
            "The tolerance of a platinum sensor follows from its class",
            "Leave the stated tolerance out, or change the class.",
        ),
        Refused(
            "nothing-asked",
            "Neither a resistance nor a temperature is given",
            "Give the measured resistance, a known temperature, or both.",
        ),
        Refused(
            "range-empty",
            "The hottest is not above the coldest",
            "Give the coldest and the hottest that it can be where the sensor sits.",
        ),
        Refused(
            "temperature-outside-range",
            "The temperature lies outside the range that is given for the place",
            "Check it, or widen the range if it really occurs.",
        ),
        Refused(
            "reads-short",
            "The sensor itself comes to less than {least}, the least it can have here: no "
            "temperature is given",
            "Look for a short or damp joint, check the leads' resistance and the type of sensor.",
        ),
        Refused(
            "reads-open",
            "The sensor itself comes to more than {largest}, the most it can have here: no "
            "temperature is given",
            "Look for a broken wire or a loose terminal, and check the type of sensor.",
        ),
        Refused(
            "points-not-rising",
            "The points do not rise in temperature",
            "Give them from cold to hot.",
        ),
        Refused(
            "points-not-falling",
            "The resistance does not fall from point to point",
            "A thermistor's does; for platinum give a platinum sensor.",
        ),
        Refused(
            "points-no-thermistor",
            "No thermistor's curve goes through the three points",
            "Check the points, and take them further apart.",
        ),
        Refused(
            "curve-does-not-reach",
            "The curve has no resistance at a temperature of the range",
            "Check the coefficients: they are for a resistance in ohm.",
        ),
        Refused(
            "shown-beyond-curve",
            "A controller of that curve would show below -100 or above 200 degC: a fault, no "
            "temperature",
            "The sensor is of a wholly different type: change it.",
        ),
    ),
    monotonic=(
        Monotonic("/lead_resistance", "/lead_error", "increasing"),
        Monotonic("/thermometer_uncertainty", "/band", "increasing"),
        Monotonic("/beta/resistance", "/least_resistance", "increasing"),
        Monotonic("/platinum/resistance", "/largest_resistance", "increasing"),
    ),
    charts=(
        LineChart(
            "curve",
            "Resistance over temperature",
            series=(Series("sensor", "/outputs/curve/temperature", "/outputs/curve/resistance"),),
        ),
    ),
    sources=(SPREAD,),
    example={
        "beta": {
            "resistance": "10 kohm",
            "temperature": "25 degC",
            "beta": "3977 K",
            "resistance_tolerance": 0.02,
            "beta_tolerance": 0.01,
        },
        "coldest": "0 degC",
        "hottest": "110 degC",
        "measured_resistance": "3.6 kohm",
        "known_temperature": "50 degC",
        "read_as": {"resistance": "12 kohm", "temperature": "25 degC", "beta": "3740 K"},
        "allowed_error": "2 K",
    },
)
