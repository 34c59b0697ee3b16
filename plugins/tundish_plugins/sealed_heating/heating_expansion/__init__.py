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
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish_plugins.sealed_heating.heating_expansion.contract import (
    HeatingExpansionInputs,
    HeatingExpansionOutputs,
)
from tundish_plugins.sealed_heating.heating_expansion.formulas import (
    ASHRAE,
    BOILING,
    BS_7074,
    EN_12828,
    FINAL,
)
from tundish_plugins.sealed_heating.heating_expansion.kernel import kernel
from tundish_plugins.sealed_heating.vessel import BOYLE

_PHYSICS = (
    "sealed-charge-above-static",
    "sealed-fill-above-charge",
    "sealed-fill-temperature",
    "sealed-relief-setting",
)
"""Rules that move what the water itself does; reserve and final pressure of a basis do not."""

CALCULATION = Calculation(
    id="heating-expansion",
    version="1.0",
    title="Expansion of a sealed heating system",
    summary="Vessel size by three published bases, charge and fill from the height of the house, "
    "what the gauge reads from cold to hot, when the relief valve lifts, and whether water could "
    "boil at the top.",
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
            "the relief setting. Some of its figures are not checked against the standard, so it "
            "confirms no size as met.",
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
            "setting, fill and charge being equal. The size needed deducts no stretch.",
            source=ASHRAE,
        ),
    ),
    method_rule="sealed-vessel-method",
    needs=(
        Need("sealed-charge-above-static", "table", "Charge above static pressure"),
        Need("sealed-fill-above-charge", "pressure_difference", "Cold fill above the charge"),
        Need("sealed-top-above-boiling", "pressure_difference", "Top above boiling"),
        Need("sealed-basis-bs-7074", "table", "Figures of the British table"),
        Need("sealed-basis-en-12828", "table", "Figures of the European Standard"),
        Need("sealed-basis-ashrae", "table", "Figures of the handbook"),
    ),
    findings=(
        Finding(
            "vessel-given",
            "Vessel",
            quantity="/outputs/vessel_given",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="A vessel was given, and is judged.",
            words_failed="No vessel was given, so none is judged: choose one of at least the size "
            "needed and ask again.",
            source=BOYLE,
        ),
        Finding(
            "vessel-large-enough",
            "Size of the vessel",
            quantity="/inputs/vessel_volume",
            sense="at-least",
            limit="/outputs/size_needed",
            words_passed="The vessel holds {value}; {limit} is needed.",
            words_failed="The vessel holds {value}; {limit} is needed. Add a second vessel at the "
            "same charge, near the first, or change it.",
            source=BOYLE,
        ),
        Finding(
            "hot-pressure-within-final",
            "Hot pressure against the final pressure",
            quantity="/outputs/hot_pressure",
            sense="at-most",
            limit="/outputs/final_pressure",
            words_passed="Hot pressure {value}; the basis allows {limit}.",
            words_failed="Hot pressure would be {value}; the basis allows {limit}, so that the "
            "relief valve does not come to drip.",
            source=FINAL,
        ),
        Finding(
            "relief-stays-shut",
            "Hot pressure against the relief valve",
            quantity="/outputs/hot_pressure",
            sense="at-most",
            limit="/outputs/relief_at_vessel",
            rests_on=_PHYSICS,
            words_passed="Hot pressure {value}; the valve lifts at {limit}.",
            words_failed="Hot pressure would be {value}, and the valve lifts at {limit}: it "
            "discharges as the system heats up, and is short of pressure when cold.",
            source=BOYLE,
        ),
        Finding(
            "keeps-water-when-cold",
            "Water in the vessel when cold again",
            quantity="/outputs/keeps_water",
            sense="is",
            limit=True,
            rests_on=_PHYSICS,
            words_passed="The vessel still holds water when the system is cold again.",
            words_failed="After one heat-up the vessel is empty when cold: pressure collapses below "
            "its charge and air can be drawn in at the top. Topping up only repeats it.",
            source=BOYLE,
        ),
        Finding(
            "charge-holds-static",
            "Charge against the column of water",
            quantity="/outputs/vessel_charge",
            sense="at-least",
            limit="/outputs/static_pressure",
            rests_on=_PHYSICS,
            words_passed="Charge {value}, column of water {limit}.",
            words_failed="Charge {value} is below the column of water, {limit}: the vessel fills "
            "with water when cold and has less room left.",
            source=HYDROSTATICS,
        ),
        Finding(
            "charge-customary",
            "Charge against column and supplement",
            quantity="/outputs/vessel_charge",
            sense="at-least",
            limit="/outputs/charge_customary",
            failed="advisory",
            depends_on=("sealed-charge-above-static",),
            rests_on=_PHYSICS,
            words_passed="Charge {value}; {limit} is customary for this limit of the boiler.",
            words_failed="Charge {value}; {limit} is customary for this limit of the boiler. With "
            "less, the highest point goes short of pressure while the vessel still holds water.",
        ),
        Finding(
            "charge-below-fill",
            "Charge against the cold fill",
            quantity="/outputs/vessel_charge",
            sense="at-most",
            limit="/outputs/fill",
            rests_on=_PHYSICS,
            words_passed="Charge {value}, cold fill {limit}.",
            words_failed="Charge {value} is above the cold fill, {limit}: the vessel holds no water "
            "when cold, the gauge jumps as soon as heating starts, and the least leak takes all "
            "pressure. Lower the charge or raise the fill.",
            source=BOYLE,
        ),
        Finding(
            "top-under-pressure",
            "Pressure at the highest point, cold",
            quantity="/outputs/top_pressure_cold",
            sense="at-least",
            limit="sealed-top-pressure-least",
            rests_on=_PHYSICS,
            words_passed="The highest point stands at {value} when cold; {limit} is asked for.",
            words_failed="The highest point stands at only {value} when cold; {limit} is asked for, "
            "so that air goes out and none comes in.",
        ),
        Finding(
            "top-above-boiling",
            "Pressure at the highest point against boiling",
            quantity="/outputs/top_pressure_cold",
            sense="at-least",
            limit="/outputs/top_pressure_least",
            failed="dangerous",
            depends_on=("sealed-top-above-boiling",),
            rests_on=_PHYSICS,
            words_passed="The highest point stands at {value} or more as the system heats up; "
            "{limit} keeps water of the highest temperature from boiling there.",
            words_failed="The highest point stands at {value} until all the content is warm; {limit} "
            "keeps water of the highest temperature from boiling there. Steam and scalding water "
            "may come out. Keep the heat off until charge and fill are raised, or the limit of the "
            "boiler is set lower.",
            source=BOILING,
        ),
        Finding(
            "relief-valve-within-rating",
            "Relief valve against the ratings",
            quantity="/outputs/pressure_at_lift",
            sense="at-most",
            limit="/inputs/component_rating",
            failed="dangerous",
            rests_on=_PHYSICS,
            words_passed="When the relief valve lifts, the system stands at up to {value}; every "
            "part is rated for {limit} or more.",
            words_failed="When the relief valve lifts, the system stands at up to {value}, above "
            "what its weakest part is rated for, {limit}: that part may burst before the valve "
            "lifts. Turn the heat off, and do not use the system until a competent person has "
            "fitted a valve of the right setting.",
            source=HYDROSTATICS,
        ),
        Finding(
            "relief-setting-customary",
            "Setting of the relief valve",
            quantity="/inputs/relief_setting",
            sense="at-most",
            limit="sealed-relief-setting",
            words_passed="The valve is set to {value}; a domestic sealed system has {limit}.",
            words_failed="The valve is set to {value}; a domestic sealed system has {limit}. Have "
            "the valve changed, or show from the maker's instructions that this one belongs here.",
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
            "charge-not-fill",
            "The handbook's tank is charged to the fill, and these two differ",
            "Leave one of them out, or choose method en-12828 or bs-7074, which read both.",
        ),
        Refused(
            "no-pressure-at-top",
            "A fill of {fill} at the vessel cannot carry water up a column of {static}",
            "Raise the fill, and the charge with it, or check the height.",
        ),
        Refused(
            "above-highest-point",
            "A part of the system cannot stand above its highest point",
            "Give every height above the vessel; that of the highest point is the largest.",
        ),
        Refused(
            "vessel-volume-missing",
            "A charge was read, and the size of that vessel is not given",
            "Give vessel_volume too, or put the charge to design for into charge.",
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
            "table-expansion-exceeded",
            "The content expands more than the British table allows for",
            "Choose method en-12828, or lower the highest temperature.",
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
        Monotonic("/maximum_temperature", "/top_pressure_least", "increasing"),
        Monotonic("/height", "/static_pressure", "increasing"),
        Monotonic("/relief_setting", "/size_needed", "decreasing"),
        Monotonic("/fill", "/boyle_size", "increasing"),
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
        "maximum_temperature": {"value": 95, "unit": "degC"},
        "height": {"value": 5, "unit": "m"},
        "relief_setting": {"value": 3.0, "unit": "bar"},
        "component_rating": {"value": 3.0, "unit": "bar"},
        "vessel_volume": {"value": 12, "unit": "l"},
    },
)
