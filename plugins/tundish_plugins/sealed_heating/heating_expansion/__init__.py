"""Expansion of a sealed heating system: the vessel it needs, and what the gauge reads."""

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
from tundish_plugins.sealed_heating.heating_expansion.contract import (
    HeatingExpansionInputs,
    HeatingExpansionOutputs,
)
from tundish_plugins.sealed_heating.heating_expansion.formulas import ASHRAE, BS_7074, EN_12828
from tundish_plugins.sealed_heating.heating_expansion.kernel import kernel
from tundish_plugins.sealed_heating.vessel import BOYLE, HYDROSTATICS

_TOO_SMALL = (
    "The vessel holds {value}; {limit} is needed. Add a second vessel at the same charge, near the "
    "first, or change it."
)

CALCULATION = Calculation(
    id="heating-expansion",
    version="1.0",
    title="Expansion of a sealed heating system",
    summary="Vessel size by three published bases, charge and fill from the height of the house, "
    "what the gauge reads from cold to hot, and when the relief valve lifts.",
    family="sealed-heating",
    questions=(
        "How big an expansion vessel does the heating need?",
        "What will the gauge read cold and hot?",
        "Is the vessel in the boiler enough?",
    ),
    inputs=HeatingExpansionInputs,
    outputs=HeatingExpansionOutputs,
    kernel=kernel,
    methods=(
        Method(
            "en-12828",
            "European Standard",
            "Expansion from the densities, a water reserve, and a final pressure half a bar below "
            "the relief setting. Parts of it are from memory, so it confirms nothing as met.",
            source=EN_12828,
        ),
        Method(
            "bs-7074",
            "British table",
            "The capacity table of BS 5449 and BS 7074-1: one expansion for all, a final pressure "
            "0.35 bar below the relief setting, and a fifth less below 88 °C. Water only.",
            source=BS_7074,
        ),
        Method(
            "ashrae",
            "North American handbook",
            "Expansion less the stretch of the pipes, between fill and nine tenths of the relief "
            "setting. Fill and charge are taken as equal.",
            source=ASHRAE,
        ),
    ),
    method_rule="sealed-vessel-method",
    needs=(
        Need("sealed-charge-above-static", "pressure_difference", "Charge above static pressure"),
        Need("sealed-fill-above-charge", "pressure_difference", "Cold fill above the charge"),
    ),
    findings=(
        Finding(
            "vessel-large-enough",
            "Vessel large enough",
            quantity="/inputs/vessel_volume",
            sense="at-least",
            limit="/outputs/size_needed",
            applies_when="not /outputs/basis_unconfirmed",
            words_passed="The vessel holds {value}; {limit} is needed.",
            source=BOYLE,
            words_failed=_TOO_SMALL,
        ),
        Finding(
            "vessel-large-enough-unconfirmed",
            "Vessel large enough, on a basis partly from memory",
            quantity="/inputs/vessel_volume",
            sense="at-least",
            limit="/outputs/size_needed",
            applies_when="/outputs/basis_unconfirmed",
            passed="advisory",
            words_passed="The vessel holds {value}; {limit} is needed. Parts of this basis are "
            "unconfirmed: check against the standard or the maker's table.",
            source=EN_12828,
            words_failed=_TOO_SMALL,
        ),
        Finding(
            "relief-stays-shut",
            "Relief valve stays shut",
            quantity="/outputs/hot_pressure",
            sense="at-most",
            limit="/outputs/relief_at_vessel",
            untouched_by=("en-12828",),
            words_passed="Hot pressure {value}; the valve lifts at {limit}.",
            words_failed="Hot pressure would be {value}, and the valve lifts at {limit}: it "
            "discharges as the system heats up, and is short of pressure when cold.",
            source=BOYLE,
        ),
        Finding(
            "keeps-water-when-cold",
            "System keeps its pressure when cold again",
            quantity="/outputs/keeps_water",
            sense="is",
            limit=True,
            untouched_by=("en-12828",),
            words_passed="The vessel still holds water when the system is cold again.",
            words_failed="After one heat-up the vessel is empty when cold: pressure collapses below "
            "its charge and air can be drawn in at the top. Topping up only repeats it.",
            source=BOYLE,
        ),
        Finding(
            "charge-holds-static",
            "Charge holds the column of water",
            quantity="/outputs/vessel_charge",
            sense="at-least",
            limit="/outputs/static_pressure",
            untouched_by=("en-12828",),
            words_passed="Charge {value}, column of water {limit}.",
            words_failed="Charge {value} is below the column of water, {limit}: the vessel fills "
            "with water when cold and has less room left.",
            source=HYDROSTATICS,
        ),
        Finding(
            "charge-below-fill",
            "Charge no higher than the cold fill",
            quantity="/outputs/vessel_charge",
            sense="at-most",
            limit="/outputs/fill",
            untouched_by=("en-12828",),
            words_passed="Charge {value}, cold fill {limit}.",
            words_failed="Charge {value} is above the cold fill, {limit}: the vessel holds no water "
            "when cold, the gauge jumps as soon as heating starts, and the least leak takes all "
            "pressure. Lower the charge or raise the fill.",
            source=BOYLE,
        ),
        Finding(
            "top-under-pressure",
            "Highest point under pressure when cold",
            quantity="/outputs/top_pressure_cold",
            sense="at-least",
            limit="sealed-top-pressure-least",
            untouched_by=("en-12828",),
            words_passed="The highest point stands at {value} when cold; {limit} is asked for.",
            words_failed="The highest point stands at only {value} when cold; {limit} is asked for, "
            "so that air goes out and none comes in.",
        ),
    ),
    cautions=("sealed-relief-valve", "sealed-make-safe", "sealed-boiler-gas"),
    refusals=(
        Refused(
            "uncontrolled-heat-source",
            "An uncontrolled heat source must not be sealed in",
            "Keep such a source open-vented, or have a competent person separate it from this "
            "system.",
        ),
        Refused(
            "fill-not-below-maximum",
            "The fill is not colder than the highest temperature",
            "Give the temperature at filling, and the highest the content can reach.",
        ),
        Refused(
            "relief-below-static",
            "The relief valve would lift under the column of water alone, {static}",
            "Take a valve with a higher setting, or bring the vessel and valve higher up.",
        ),
        Refused(
            "charge-above-fill",
            "The charge is above the cold fill",
            "Design the charge at or below the fill. A reading of an existing vessel goes into "
            "vessel_charge.",
        ),
        Refused(
            "fill-not-below-final",
            "The cold fill leaves no room below the final pressure of {final}",
            "Lower the fill, or take a valve with a higher setting.",
        ),
        Refused(
            "charge-above-relief",
            "The vessel is charged above the relief setting",
            "Lower the charge: such a vessel takes no water before the valve lifts.",
        ),
        Refused(
            "expansion-beyond-gas-volume",
            "The content gains {expansion}, and the vessel has only {gas} of gas when cold",
            "No finite pressure follows: take a larger vessel or restore its charge.",
        ),
        Refused(
            "glycol-share-once",
            "The share of glycol is needed once, by mass or by volume",
            "Give glycol_mass_share or glycol_volume_share.",
        ),
        Refused(
            "glycol-share-of-water",
            "Water has no share of glycol",
            "Choose the glycol as fluid.",
        ),
        Refused(
            "glycol-outside-data",
            "The share of glycol lies outside the data, 0.10 to 0.55 by mass",
            "Stay inside; nothing is extrapolated.",
        ),
        Refused(
            "glycol-too-hot",
            "Glycol data end at 100 °C",
            "Lower the highest temperature.",
        ),
        Refused(
            "table-for-water-only",
            "The British table is for water",
            "Choose method en-12828 or ashrae for glycol.",
        ),
    ),
    monotonic=(
        Monotonic("/system_volume", "/size_needed", "increasing"),
        Monotonic("/maximum_temperature", "/expansion_fraction", "increasing"),
        Monotonic("/height", "/static_pressure", "increasing"),
        Monotonic("/relief_setting", "/size_needed", "decreasing"),
        Monotonic("/vessel_volume", "/hot_pressure", "decreasing"),
    ),
    charts=(
        LineChart(
            "gauge",
            "What the gauge reads",
            series=(
                Series("charge as it is", "/outputs/curve/temperature", "/outputs/curve/gauge"),
                Series("half lost", "/outputs/curve/temperature", "/outputs/curve/half_charge"),
                Series("all lost", "/outputs/curve/temperature", "/outputs/curve/no_charge"),
            ),
            levels=(Level("relief setting", "/inputs/relief_setting"),),
        ),
    ),
    example={
        "system_volume": {"value": 120, "unit": "l"},
        "fill_temperature": {"value": 10, "unit": "degC"},
        "maximum_temperature": {"value": 80, "unit": "degC"},
        "height": {"value": 5, "unit": "m"},
        "charge": {"value": 1.0, "unit": "bar"},
        "fill": {"value": 1.2, "unit": "bar"},
        "relief_setting": {"value": 3.0, "unit": "bar"},
        "vessel_volume": {"value": 12, "unit": "l"},
    },
)
