"""Heat, fuel, cost and carbon of a year, and a heat loss against the gas meter."""

from __future__ import annotations

from tundish.calculation import BarChart, Calculation, Finding, Method, Monotonic, Need, Refused
from tundish_plugins.heat_loss.annual_energy.contract import (
    AnnualEnergyInputs,
    AnnualEnergyOutputs,
)
from tundish_plugins.heat_loss.annual_energy.formulas import (
    BASE_CHANGE,
    DEGREE_DAYS,
    GAS_BALANCE,
    MEAN_LOAD,
)
from tundish_plugins.heat_loss.annual_energy.kernel import kernel

CALCULATION = Calculation(
    id="annual-energy",
    version="1.0",
    title="Heat, fuel and cost of a year, and the gas meter's word on the heat loss",
    summary="Heat of a year by degree days, fuel by a given efficiency or by the return of a "
    "condensing boiler, cost and carbon, and whether a computed heat loss agrees with metered gas.",
    family="heat-loss",
    questions=(
        "What does heating this house take in a year, in gas and money?",
        "What does a lower, weather-compensated return save?",
        "Does the computed heat loss agree with the gas bill?",
    ),
    inputs=AnnualEnergyInputs,
    outputs=AnnualEnergyOutputs,
    kernel=kernel,
    methods=(
        Method(
            "degree-days",
            "Degree days",
            "Coefficient times degree days, gains beyond the base taken off; the boiler at the mean "
            "load of the season; the meter read backwards by the same balance.",
            source=DEGREE_DAYS,
        ),
    ),
    needs=(
        Need("degree-day-base", "temperature", "Base of degree days where none is given"),
        Need("degree-days-standard", "table", "Standard degree days by month at three bases"),
        Need("degree-days-gatwick", "table", "Degree days of a typical year at three bases"),
        Need("condensing-efficiency", "table", "Efficiency by temperature of the flue gas"),
    ),
    findings=(
        Finding(
            "metered-from-above",
            "Heat loss coefficient against the upper end of the metered band",
            quantity="/outputs/coefficient",
            sense="at-most",
            limit="/outputs/metered/coefficient_most",
            words_passed="The coefficient of {value} is not above what the gas explains, at most "
            "{limit}.",
            words_failed="The coefficient of {value} is more than the gas explains, at most "
            "{limit}: not credible, unless the house was kept cooler or emptier than assumed. "
            "Equipment sized by it would be too large: look at air changes and U-values first.",
            source=GAS_BALANCE,
        ),
        Finding(
            "metered-from-below",
            "Heat loss coefficient against the lower end of the metered band",
            quantity="/outputs/coefficient",
            sense="at-least",
            limit="/outputs/metered/coefficient_least",
            words_passed="The coefficient of {value} is not below what the gas calls for, at least "
            "{limit}.",
            words_failed="The coefficient of {value} is less than the gas calls for, at least "
            "{limit}: not credible, unless the house was kept warmer than assumed or gas went "
            "elsewhere. Equipment sized by it would be too small.",
            source=GAS_BALANCE,
        ),
        Finding(
            "condensing",
            "Flue gas against its dew point",
            quantity="/outputs/boiler/flue_temperature",
            sense="at-most",
            limit="flue-gas-dew-point",
            failed="advisory",
            words_passed="The flue gas leaves at {value} and condenses below {limit}.",
            words_failed="The flue gas leaves at {value} and condenses only below {limit}: the boiler "
            "does not condense at the mean load. Lower the flow, or let it follow the weather.",
            source=MEAN_LOAD,
        ),
    ),
    cautions=("annual-energy-basis",),
    refusals=(
        Refused(
            "coefficient-or-load",
            "The heat loss is given twice or not at all",
            "Give either the coefficient, or the design load with the design difference.",
        ),
        Refused(
            "degree-days-or-place",
            "The weather is given twice or not at all",
            "Give either degree days with their base, or a place of the table.",
        ),
        Refused(
            "base-missing",
            "Degree days without a base say nothing",
            "Give the base temperature they were counted to.",
        ),
        Refused(
            "base-outside-table",
            "The table goes from a base of {least} to one of {most}",
            "Take a base between, or give degree days counted to your base.",
        ),
        Refused(
            "efficiency-or-boiler",
            "The efficiency is given twice or not at all",
            "Give either the efficiency, or the boiler.",
        ),
        Refused(
            "difference-missing",
            "A design load, or compensation, needs the temperature difference of the design day",
            "Give the design difference.",
        ),
        Refused(
            "flow-not-above-return",
            "The return is not below the flow",
            "Give flow and return of the design day.",
        ),
        Refused(
            "return-not-above-room",
            "The return is not warmer than the rooms",
            "No radiator cools its water to the room: give the return of the design day.",
        ),
        Refused(
            "season-too-short",
            "The mean load of so short a season would be {load} times the design load",
            "Give the days on which heating runs, and look at degree days and design difference.",
        ),
        Refused(
            "hot-water-takes-all",
            "Hot water with its spread takes all the metered gas or more",
            "Give the gas for hot water in the same period as the metered gas.",
        ),
        Refused(
            "efficiency-above-one",
            "The upper end of the efficiency would be {most}, above 1 of the gross gas",
            "Give a smaller spread, or look at the basis of the efficiency: gross.",
        ),
    ),
    monotonic=(
        Monotonic("/coefficient", "/fuel", "increasing"),
        Monotonic("/base_temperature", "/degree_days", "increasing"),
        Monotonic("/gains_share", "/heat", "decreasing"),
        Monotonic("/efficiency", "/fuel", "decreasing"),
        Monotonic("/boiler/return_temperature", "/efficiency", "decreasing"),
        Monotonic("/boiler/other_loss", "/fuel", "increasing"),
        Monotonic("/metered/gas", "/metered/coefficient", "increasing"),
        Monotonic("/metered/degree_days", "/metered/coefficient", "decreasing"),
        Monotonic("/metered/hot_water_spread", "/metered/coefficient_least", "decreasing"),
        Monotonic("/degree_day_spread", "/metered/coefficient_most", "increasing"),
    ),
    charts=(
        BarChart(
            "months",
            "Fuel by month",
            items="/outputs/months",
            label="name",
            bars=(("fuel", "fuel"),),
        ),
    ),
    sources=(BASE_CHANGE,),
    example={
        "coefficient": {"value": 250, "unit": "W/K"},
        "design_difference": {"value": 23, "unit": "K"},
        "place": "standard",
        "boiler": {
            "return_temperature": {"value": 45, "unit": "degC"},
            "flue_approach": {"value": 5, "unit": "K"},
            "other_loss": 0.03,
            "compensation": {
                "flow_temperature": {"value": 55, "unit": "degC"},
                "room_temperature": {"value": 20, "unit": "degC"},
                "exponent": 1.3,
                "season": {"value": 240, "unit": "d"},
            },
        },
        "price": 0.07,
        "emission_factor": {"value": 0.2, "unit": "kg/kWh"},
        "metered": {
            "gas": {"value": 18500, "unit": "kWh"},
            "hot_water_gas": {"value": 2500, "unit": "kWh"},
            "degree_days": {"value": 2200, "unit": "K.d"},
            "efficiency_spread": 0.05,
            "hot_water_spread": 0.25,
        },
    },
)
