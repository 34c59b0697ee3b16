"""How much condensate: at most, at each operating point, in a year, and what a measurement says."""

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
from tundish.physics.flue_gas import SATURATED_GAS
from tundish_plugins.condensate.quantity.contract import QuantityInputs, QuantityOutputs
from tundish_plugins.condensate.quantity.formulas import WATER_OF_FUEL
from tundish_plugins.condensate.quantity.kernel import kernel

CALCULATION = Calculation(
    id="condensate-quantity",
    version="1.0",
    title="How much condensate a boiler makes",
    summary="Condensate of a fuel: the most that a drain or pump must take, what condenses at each "
    "flue temperature and air ratio, litres a year, and whether a measured flow can be condensate.",
    family="condensate",
    questions=(
        "How much condensate does this boiler make?",
        "Does it condense at this return temperature?",
        "Is all that water really condensate?",
    ),
    inputs=QuantityInputs,
    outputs=QuantityOutputs,
    kernel=kernel,
    needs=(
        Need("gas-components", "table", "Heating values and molar volumes of gases"),
        Need("gas-combustion", "table", "What a mole of each gas needs and makes"),
        Need("condensate-fuels", "table", "Fuels by name, and what stands for each"),
        Need("condensate-liquid-fuels", "table", "What a mole of a liquid fuel needs and makes"),
        Need("condensate-acidity", "table", "pH of the condensate by fuel"),
        Need("condensate-year-share-low", "number", "Share of the water that condenses, low"),
        Need("condensate-year-share-high", "number", "Share of the water that condenses, high"),
    ),
    findings=(
        Finding(
            "flue-against-dew-point",
            "Flue gas against its dew point",
            quantity="/outputs/points/*/flue_temperature",
            sense="at-most",
            limit="/outputs/points/*/dew_point",
            failed="advisory",
            words_passed="{item}: the flue gas leaves at {value}, below its dew point of {limit}.",
            words_failed="{item}: the flue gas leaves at {value}, above its dew point of {limit}: "
            "nothing condenses. Cooler return water or less excess air would change that.",
            source=SATURATED_GAS,
        ),
        Finding(
            "measured-against-ceiling",
            "Measured flow against what the fuel can make",
            quantity="/outputs/measured/flow",
            sense="at-most",
            limit="/outputs/measured/ceiling",
            rests_on=(),
            words_passed="{value} was caught; the fuel can make {limit}. That alone does not show "
            "that all of it is condensate.",
            words_failed="{value} was caught, but the fuel can make {limit} at most: other water "
            "is arriving. Look for a relief valve that passes, a leaking heat exchanger, or rain "
            "in the flue, before anything else. Have the gas side looked at by a registered gas "
            "engineer.",
            source=WATER_OF_FUEL,
        ),
        Finding(
            "measured-against-points",
            "Measured flow against what the operating points make",
            quantity="/outputs/measured/flow",
            sense="at-most",
            limit="/outputs/measured/expected",
            failed="advisory",
            rests_on=(),
            words_passed="{value} was caught; the operating points make up to {limit}.",
            words_failed="{value} was caught, but the operating points make only {limit}: either "
            "the boiler ran otherwise, or other water arrives. Look for a relief valve that passes "
            "and a leaking heat exchanger.",
            source=WATER_OF_FUEL,
        ),
        Finding(
            "condensate-arrives",
            "Condensate where the flue gas condenses",
            quantity="/outputs/measured/arrives",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="Condensate was caught, or none is expected.",
            words_failed="Nothing was caught, though the flue gas condenses. Trap or drain may be "
            "blocked, or the water goes elsewhere, and flue gas may pass a dry trap: have it "
            "looked at by a registered gas engineer before the boiler runs on.",
            source=WATER_OF_FUEL,
        ),
    ),
    cautions=("condensate-flue-gas", "condensate-acid"),
    refusals=(
        Refused("fuel-missing", "The fuel is not known", "Name the fuel, or give its composition."),
        Refused(
            "fuel-given-twice",
            "The fuel is given twice",
            "Give either the name of the fuel or its composition.",
        ),
        Refused(
            "fractions-do-not-sum",
            "The shares sum to {sum}, not to one",
            "Give shares by volume that sum to 1, inert gases included.",
        ),
        Refused(
            "component-twice",
            "A component stands twice in the composition",
            "Give each component once, with its whole share.",
        ),
        Refused(
            "fuel-does-not-burn",
            "Nothing in this composition burns",
            "Check the composition.",
        ),
        Refused(
            "air-missing",
            "Nothing says how much air the burner takes",
            "Give the air ratio, or oxygen or carbon dioxide of the dry flue gas.",
        ),
        Refused(
            "air-given-twice",
            "The air is given more than once",
            "Give one of air ratio, oxygen and carbon dioxide.",
        ),
        Refused(
            "carbon-dioxide-above-most",
            "This fuel gives {most} carbon dioxide at most",
            "Check the reading and the fuel set on the analyser. A reading at or above the most "
            "is no excess air at all: leave the boiler off until a registered gas engineer has "
            "looked at it.",
        ),
        Refused(
            "flue-temperature-missing",
            "Nothing says how far the flue gas is cooled",
            "Give the flue temperature, or the return temperature and the approach.",
        ),
        Refused(
            "flue-temperature-given-twice",
            "The flue temperature is given twice",
            "Give the flue temperature, or the return temperature and the approach.",
        ),
        Refused(
            "approach-missing",
            "The flue gas is never as cold as the return water",
            "Give the approach: how much warmer the flue gas leaves than the water returns.",
        ),
        Refused(
            "no-dew-point",
            "The flue gas holds so little water that it has no dew point above freezing",
            "Check the composition and the air ratio.",
        ),
        Refused(
            "air-gives-up-water",
            "At this flue temperature the combustion air itself would give up water",
            "Check flue temperature and humidity: flue gas is not colder than the dew point of "
            "the air.",
        ),
    ),
    monotonic=(
        Monotonic("/points/0/flue_temperature", "/points/0/condensate_flow", "decreasing"),
        Monotonic("/points/0/return_temperature", "/points/0/condensate_flow", "decreasing"),
        Monotonic("/points/0/air_ratio", "/points/0/dew_point", "decreasing"),
        Monotonic("/points/0/oxygen", "/points/0/condensed_share", "decreasing"),
        Monotonic("/heat_input", "/design_flow", "increasing"),
        Monotonic("/yearly_fuel", "/yearly/high", "increasing"),
    ),
    charts=(
        LineChart(
            "share",
            "Water of the fuel that condenses, against return temperature",
            series=(
                Series(
                    "share", "/outputs/points/*/curve/temperature", "/outputs/points/*/curve/share"
                ),
            ),
        ),
        LineChart(
            "flow",
            "Condensate against return temperature",
            series=(
                Series(
                    "flow", "/outputs/points/*/curve/temperature", "/outputs/points/*/curve/flow"
                ),
            ),
        ),
    ),
    sources=(WATER_OF_FUEL, SATURATED_GAS),
    example={
        "fuel": "natural-gas",
        "heat_input": {"value": 24, "unit": "kW", "basis": "net"},
        "points": [
            {
                "name": "full load",
                "carbon_dioxide": {"value": 9.2, "unit": "%"},
                "return_temperature": {"value": 45, "unit": "degC"},
                "approach": {"value": 8, "unit": "K"},
            },
            {
                "name": "part load",
                "load": 0.3,
                "carbon_dioxide": {"value": 8.8, "unit": "%"},
                "return_temperature": {"value": 35, "unit": "degC"},
                "approach": {"value": 3, "unit": "K"},
            },
        ],
        "air_humidity": 0.0073,
        "yearly_fuel": {"value": 12000, "unit": "kWh", "basis": "gross"},
    },
)
