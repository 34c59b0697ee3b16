"""Output of radiators at any temperatures, and the lowest flow that heats every room."""

from __future__ import annotations

from typing import Any

from tundish.calculation import BarChart, Calculation, Finding, Method, Monotonic, Need, Refused
from tundish.physics.radiators import EN_442, LOG_MEAN
from tundish_plugins.heat_loss.emitters.contract import EmitterInputs, EmittersOutputs
from tundish_plugins.heat_loss.emitters.formulas import SHARES
from tundish_plugins.heat_loss.emitters.kernel import kernel


def _room(name: str, temperature: float, load: float, *radiators: float) -> dict[str, Any]:
    """Write a room of the example: its radiators by their rated outputs."""
    return {
        "name": name,
        "temperature": {"value": temperature, "unit": "degC"},
        "load": {"value": load, "unit": "W"},
        "radiators": [
            {
                "name": f"radiator {k}",
                "rated_output": {"value": rated, "unit": "W"},
                "exponent": 1.3,
            }
            for k, rated in enumerate(radiators, 1)
        ],
    }


CALCULATION = Calculation(
    id="emitter-output",
    version="1.0",
    title="Radiators at other temperatures, room by room",
    summary="Output of radiators at any flow, return and room temperature, which rooms they heat, "
    "the lowest flow temperature that still heats each, and which must grow.",
    family="heat-loss",
    questions=(
        "What do these radiators give at a lower flow temperature?",
        "How low can the flow temperature go, and which room dictates it?",
        "Which radiators must grow, and by how much?",
    ),
    inputs=EmitterInputs,
    outputs=EmittersOutputs,
    kernel=kernel,
    methods=(
        Method(
            "arithmetic-mean",
            "Arithmetic mean, as radiators are rated",
            "Excess temperature from the mean of flow and return. Promises too much where the water "
            "cools a lot.",
            source=EN_442,
        ),
        Method(
            "logarithmic-mean",
            "Logarithmic mean",
            "Excess temperature that counts how the water cools along the way: for large drops and "
            "low flow temperatures. A rating of 75/65/20 °C is restated to the same mean; an older "
            "or stated one is taken as that mean, which is on the safe side.",
            source=LOG_MEAN,
        ),
    ),
    method_rule="radiator-excess-method",
    needs=(
        Need("radiator-rated-excess", "temperature_difference", "Excess temperature of ratings"),
        Need("radiator-rated-drop", "temperature_difference", "Drop of the water in the rating"),
        Need("radiator-rated-excess-older", "temperature_difference", "The same of older ratings"),
        Need("radiator-exponent", "number", "Exponent where none is known"),
        Need("radiator-return-share-least", "number", "Drop that the arithmetic mean stands"),
        Need(
            "heating-flow-temperature-most",
            "temperature",
            "Greatest flow temperature of a new design",
            optional=True,
        ),
    ),
    findings=(
        Finding(
            "room-output",
            "Output of the radiators against the load of the room",
            quantity="/outputs/rooms/*/output",
            sense="at-least",
            limit="/inputs/rooms/*/load",
            words_passed="{item}: the radiators give {value}; {limit} is needed.",
            words_failed="{item}: the radiators give only {value} where {limit} is needed. Larger "
            "ones, or hotter water.",
            capped_unless="/outputs/rooms/*/well_founded",
            words_capped="an exponent was assumed, or the water cools too far for the arithmetic "
            "mean.",
            source=EN_442,
        ),
        Finding(
            "mean-excess",
            "Drop of the water against the arithmetic mean",
            quantity="/outputs/rooms/*/return_share",
            sense="at-least",
            limit="radiator-return-share-least",
            failed="advisory",
            applies_when="/outputs/arithmetic",
            words_passed="{item}: return over room is {value} of flow over room; from {limit} up "
            "the arithmetic mean will do.",
            words_failed="{item}: return over room is only {value} of flow over room. Below {limit} "
            "the arithmetic mean promises too much: ask for the logarithmic one.",
        ),
        Finding(
            "exponents-known",
            "Exponents of the radiators",
            quantity="/outputs/rooms/*/exponents_stated",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: every exponent is from a data sheet.",
            words_failed="{item}: an exponent was assumed to be that of a panel radiator. A "
            "convector gives less than that at low temperatures: look at the data sheet.",
            source=EN_442,
        ),
        Finding(
            "towel-rail",
            "Towel rail as the heating of a room",
            quantity="/outputs/rooms/*/towel_rails_only",
            sense="is",
            limit=False,
            failed="advisory",
            applies_when="/outputs/rooms/*/has_towel_rail",
            words_passed="{item}: there is more than a towel rail.",
            words_failed="{item}: only towel rails heat it, and towels take about half of what they "
            "give. Reckon with that in output_kept, or add a radiator.",
            source=SHARES,
        ),
        Finding(
            "flow-temperature-regulated",
            "Flow temperature of the design",
            quantity="/inputs/flow_temperature",
            sense="at-most",
            limit="/outputs/flow_temperature_most",
            depends_on=("heating-flow-temperature-most",),
            words_passed="Designed for {value}; at most {limit} in a new or wholly replaced system.",
            words_failed="Designed for {value}; a new or wholly replaced system is sized for {limit} "
            "or less in England. Where that cannot be done, for the lowest that can, and say why.",
        ),
        Finding(
            "source-flow",
            "Flow temperature of the heat source",
            quantity="/outputs/rooms/*/lowest_flow_temperature",
            sense="at-most",
            limit="/inputs/source_flow_most",
            words_passed="{item} needs {value} of flow at this drop; the heat source gives up to "
            "{limit}.",
            words_failed="{item} needs {value} of flow at this drop; the heat source gives only "
            "{limit}: larger radiators.",
            capped_unless="/outputs/rooms/*/well_founded",
            words_capped="an exponent was assumed, or the water cools too far for the arithmetic "
            "mean.",
            source=EN_442,
        ),
        Finding(
            "flow-possible",
            "Flow temperature that would heat the room",
            quantity="/outputs/rooms/*/lowest_flow_temperature",
            sense="at-most",
            limit="radiator-flow-temperature-most",
            words_passed="{item} would be heated from {value} of flow up, at this drop.",
            words_failed="{item} would need {value} of flow, which no water system runs at: the "
            "radiators are far too small. Check the load, the rating and its unit.",
        ),
    ),
    cautions=("emitters-figures", "emitters-hot-water-apart"),
    refusals=(
        Refused(
            "return-not-below-flow",
            "The return is not colder than the flow, by a tenth of a kelvin at least",
            "Give the water into the radiators as flow, the colder water out of them as return.",
        ),
        Refused(
            "flow-not-above-room",
            "The flow is not warmer than the room {room}",
            "No heat goes from the water to the room: raise the flow temperature, or check units.",
        ),
        Refused(
            "return-not-above-room",
            "The return is not warmer than the room {room}",
            "Water cannot leave a radiator colder than the room: give a smaller drop.",
        ),
        Refused(
            "rated-excess-mismatch",
            "The excess temperature of the rating is said twice or not at all",
            "Give rated_excess with the rating 'stated', and with no other.",
        ),
    ),
    monotonic=(
        Monotonic("/flow_temperature", "/rooms/0/output", "increasing"),
        Monotonic("/return_temperature", "/output", "increasing"),
        Monotonic("/rooms/0/load", "/lowest_flow_temperature", "increasing"),
        Monotonic("/rooms/0/load", "/rooms/0/growth", "increasing"),
        Monotonic(
            "/rooms/0/radiators/0/rated_output", "/rooms/0/lowest_flow_temperature", "decreasing"
        ),
        Monotonic("/rooms/0/temperature", "/rooms/0/output", "decreasing"),
    ),
    charts=(
        BarChart(
            "rooms",
            "Load of each room, met and not met, and output beyond it",
            items="/outputs/rooms",
            label="name",
            bars=(("met", "covered"), ("lacking", "lacking"), ("spare", "spare")),
        ),
        BarChart(
            "flow-temperatures",
            "Lowest flow temperature of each room",
            items="/outputs/rooms",
            label="name",
            bars=(("lowest flow temperature", "lowest_flow_temperature"),),
        ),
    ),
    example={
        "flow_temperature": {"value": 55, "unit": "degC"},
        "return_temperature": {"value": 45, "unit": "degC"},
        "source_flow_most": {"value": 65, "unit": "degC"},
        "rooms": [
            _room("living room", 21, 1500, 1800, 1400),
            _room("kitchen", 20, 700, 1500),
            _room("bedroom", 18, 650, 1100),
            _room("bathroom", 22, 520, 900),
        ],
    },
)
