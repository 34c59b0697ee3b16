"""Expansion of an unvented hot water store: vessel or air gap, and the order of its pressures."""

from __future__ import annotations

from tundish.calculation import (
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
from tundish_plugins.sealed_heating.hot_water_expansion.contract import (
    HotWaterExpansionInputs,
    HotWaterExpansionOutputs,
)
from tundish_plugins.sealed_heating.hot_water_expansion.formulas import FOUR_PER_CENT
from tundish_plugins.sealed_heating.hot_water_expansion.kernel import kernel
from tundish_plugins.sealed_heating.vessel import BOYLE, EXPANSION

CALCULATION = Calculation(
    id="hot-water-expansion",
    version="1.1",
    title="Expansion of an unvented hot water store",
    summary="Vessel or air gap for the expansion of stored hot water, the order of the pressures of "
    "reducing valve, expansion valve and relief valve, and what happens without a vessel.",
    family="hot-water",
    questions=(
        "How big an expansion vessel, or how much air in its top, does the store need?",
        "Why does the expansion valve drip?",
        "Are the pressures of the safety devices in order?",
    ),
    inputs=HotWaterExpansionInputs,
    outputs=HotWaterExpansionOutputs,
    kernel=kernel,
    methods=(
        Method(
            "four-per-cent",
            "Four per cent",
            "Four per cent of the content, which covers a store that a failed thermostat lets heat "
            "up to its cut-out.",
            source=FOUR_PER_CENT,
        ),
        Method(
            "water-densities",
            "Densities of water",
            "What the water really gains between the two temperatures: for judging a reading.",
            source=EXPANSION,
        ),
    ),
    method_rule="hot-water-expansion-method",
    needs=(
        Need(
            "hot-water-vessel-final-share",
            "number",
            "Highest vessel pressure over the setting of the expansion valve",
        ),
    ),
    findings=(
        Finding(
            "vessel-given",
            "Vessel or air of the store",
            quantity="/outputs/vessel_given",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="A vessel, or the air of the store, was given, and is judged.",
            words_failed="Neither a vessel nor the air of the store was given, so none is judged. "
            "Without any, the expansion valve runs at every heat-up.",
            source=BOYLE,
        ),
        Finding(
            "vessel-large-enough",
            "Size of the vessel",
            quantity="/inputs/vessel_volume",
            sense="at-least",
            limit="/outputs/size_needed",
            depends_on=("hot-water-vessel-final-share",),
            words_passed="The vessel holds {value}; {limit} is needed.",
            words_failed="The vessel holds {value}; {limit} is needed, or the expansion valve will "
            "come to drip.",
        ),
        Finding(
            "air-gap-large-enough",
            "Size of the air gap",
            quantity="/inputs/air_gap/volume",
            sense="at-least",
            limit="/outputs/size_needed",
            depends_on=("hot-water-vessel-final-share",),
            words_passed="{value} of air when cold; {limit} is needed.",
            words_failed="{value} of air when cold; {limit} is needed, or the expansion valve will "
            "come to drip. Renew the air as the store's maker says, or have a vessel fitted.",
        ),
        Finding(
            "air-gap-renewed",
            "Renewal of the air",
            quantity="/inputs/air_gap/renewed",
            sense="is",
            limit=True,
            depends_on=("hot-water-air-gap-renewal",),
            words_passed="The air was renewed after draining and at the service.",
            words_failed="The air was not renewed: water has dissolved part of it, and the "
            "expansion valve will come to drip. Renew it as the store's maker says; leave the "
            "valve alone.",
        ),
        Finding(
            "vessel-stands-relief-pressure",
            "Relief valve against the vessel's rating",
            quantity="/inputs/relief_valve",
            sense="at-most",
            limit="/inputs/vessel_rating",
            failed="dangerous",
            words_passed="The relief valve lifts at {value}; the vessel is rated for {limit}.",
            words_failed="The relief valve lifts at {value}, above what the vessel is rated for, "
            "{limit}: the vessel may burst before the valve lifts. Turn the heat off, and have a "
            "vessel fitted that stands it.",
            source=EXPANSION,
        ),
        Finding(
            "expansion-valve-stays-shut",
            "Hot pressure against the expansion valve",
            quantity="/outputs/hot_pressure",
            sense="at-most",
            limit="/inputs/expansion_valve",
            rests_on=(),
            words_passed="Hot pressure {value}; the expansion valve lifts at {limit}.",
            words_failed="Hot pressure would be {value}, and the expansion valve lifts at {limit}: "
            "it drips at every heat-up.",
            source=BOYLE,
        ),
        Finding(
            "standing-within-rating",
            "Pressure before heating against the store's rating",
            quantity="/outputs/static_pressure",
            sense="at-most",
            limit="/inputs/store_rating",
            failed="dangerous",
            rests_on=(),
            words_passed="{value} before heating; the store is rated for {limit}.",
            words_failed="{value} stands at the store before it is heated at all; it is rated for "
            "{limit}. Shut the supply and lower the pressure before the store is filled again.",
            source=EXPANSION,
        ),
        Finding(
            "standing-below-relief",
            "Pressure before heating against the relief valve",
            quantity="/outputs/relief_above_static",
            sense="is",
            limit=True,
            failed="dangerous",
            rests_on=(),
            words_passed="The relief valve stays shut on the cold pressure alone.",
            words_failed="The relief valve lifts on the cold pressure alone: it would run all the "
            "time, and wear out as a safeguard. Lower the supply pressure, or have the valve that "
            "the store's maker asks for fitted.",
            source=EXPANSION,
        ),
        Finding(
            "hot-below-relief",
            "Hot pressure against the relief valve",
            quantity="/outputs/hot_pressure",
            sense="at-most",
            limit="/inputs/relief_valve",
            rests_on=(),
            words_passed="Hot pressure {value}; the relief valve lifts at {limit}.",
            words_failed="Hot pressure would be {value}, and the relief valve lifts at {limit}: it "
            "runs at every heat-up, and wears out as a safeguard.",
            source=BOYLE,
        ),
        Finding(
            "charge-at-supply",
            "Charge against the pressure before heating, from below",
            quantity="/outputs/vessel_charge",
            sense="at-least",
            limit="/outputs/static_pressure",
            failed="advisory",
            rests_on=(),
            words_passed="Charge {value}, pressure before heating {limit}.",
            words_failed="Charge {value} is below the pressure before heating, {limit}: part of the "
            "vessel is full of water when cold. Restore the charge.",
            source=BOYLE,
        ),
        Finding(
            "charge-not-above-supply",
            "Charge against the pressure before heating, from above",
            quantity="/outputs/vessel_charge",
            sense="at-most",
            limit="/outputs/static_pressure",
            failed="advisory",
            rests_on=(),
            words_passed="Charge {value}, pressure before heating {limit}.",
            words_failed="Charge {value} is above the pressure before heating, {limit}: pressure "
            "jumps to the charge as soon as heating starts.",
            source=BOYLE,
        ),
        Finding(
            "expansion-valve-first",
            "Order of expansion valve and relief valve",
            quantity="/outputs/expansion_valve_first",
            sense="is",
            limit=True,
            depends_on=("unvented-valve-order",),
            rests_on=(),
            words_passed="The expansion valve is set below the temperature and pressure relief "
            "valve.",
            words_failed="The expansion valve is not set below the temperature and pressure relief "
            "valve: a safety device would take everyday expansion, and wear out on it. Have the "
            "set changed as the maker says.",
            source=EXPANSION,
        ),
        Finding(
            "relief-valve-within-rating",
            "Relief valve against the store's rating",
            quantity="/inputs/relief_valve",
            sense="at-most",
            limit="/inputs/store_rating",
            failed="dangerous",
            words_passed="The relief valve lifts at {value}; the store is rated for {limit}.",
            words_failed="The relief valve lifts at {value}, above what the store is rated for, "
            "{limit}: the store may burst before the valve lifts. Turn the heat off and do not use "
            "it until a registered person has put it right.",
            source=EXPANSION,
        ),
    ),
    cautions=("hot-water-unvented-competence", "hot-water-scalding", "hot-water-relief-devices"),
    refusals=(
        Refused(
            "air-gap-beyond-store",
            "The air is no smaller than the store itself",
            "Give the volume of air in the top of the store.",
        ),
        Refused(
            "cold-not-below-hot",
            "The cold water is not colder than the store",
            "Give the cold water and the highest store temperature.",
        ),
        Refused(
            "expansion-valve-not-above-supply",
            "The expansion valve is set no higher than the pressure before heating, {static}, so "
            "it would run all the time",
            "Reduce the supply pressure, stop its rise, or fit the valve the store's maker asks "
            "for.",
        ),
        Refused(
            "no-room-below-expansion-valve",
            "The pressure before heating, {static}, is not below {final}, so no vessel has room to "
            "work",
            "Reduce the supply pressure, or stop its rise.",
        ),
        Refused(
            "charge-above-expansion-valve",
            "The vessel is charged above the expansion valve",
            "Lower the charge to the pressure before heating.",
        ),
        Refused(
            "no-pressure-at-store",
            "The reducing valve stands so far below that nothing is left of its pressure",
            "Check the height of the reducing valve against its pressure.",
        ),
        Refused(
            "vessel-beside-air-gap",
            "A vessel and an air gap are given together",
            "Give one: the store is made for the one or the other.",
        ),
        Refused(
            "expansion-beyond-gas-volume",
            "The water gains {expansion}, and there is only {gas} of gas when cold",
            "No finite pressure follows: take a larger vessel, or restore its charge or the air.",
        ),
    ),
    monotonic=(
        Monotonic("/store_volume", "/size_needed", "increasing"),
        Monotonic("/supply_pressure", "/size_needed", "increasing"),
        Monotonic("/expansion_valve", "/size_needed", "decreasing"),
        Monotonic("/vessel_volume", "/hot_pressure", "decreasing"),
        Monotonic("/air_gap/volume", "/hot_pressure", "decreasing"),
        Monotonic("/static_rise", "/size_needed", "increasing"),
        Monotonic("/reducing_valve_height", "/size_needed", "increasing"),
    ),
    charts=(
        LineChart(
            "heat-up",
            "Pressure as the store heats up",
            series=(
                Series("as it is", "/outputs/curve/temperature", "/outputs/curve/pressure"),
                Series("half lost", "/outputs/curve/temperature", "/outputs/curve/half_charge"),
            ),
            levels=(Level("expansion valve", "/inputs/expansion_valve"),),
        ),
    ),
    example={
        "store_volume": {"value": 200, "unit": "l"},
        "hot_temperature": {"value": 65, "unit": "degC"},
        "supply_pressure": {"value": 3.0, "unit": "bar"},
        "expansion_valve": {"value": 6.0, "unit": "bar"},
        "relief_valve": {"value": 7.0, "unit": "bar"},
        "store_rating": {"value": 7.0, "unit": "bar"},
        "vessel_volume": {"value": 24, "unit": "l"},
    },
)
