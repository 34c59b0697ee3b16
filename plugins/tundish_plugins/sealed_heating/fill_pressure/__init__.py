"""Pressures in a sealed heating system: what to charge and fill to, level by level."""

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
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish_plugins.sealed_heating.fill_pressure.contract import (
    FillPressureInputs,
    FillPressureOutputs,
)
from tundish_plugins.sealed_heating.fill_pressure.formulas import NEUTRAL_POINT
from tundish_plugins.sealed_heating.fill_pressure.kernel import kernel
from tundish_plugins.sealed_heating.heating_expansion.formulas import BOILING
from tundish_plugins.sealed_heating.vessel import BOYLE

CALCULATION = Calculation(
    id="fill-pressure",
    version="1.0",
    title="Fill pressure of a sealed heating system",
    summary="What to charge the vessel and fill the system to, what the gauge has to read, and the "
    "pressure at every level cold, hot and with the pump on, by where the vessel joins.",
    family="sealed-heating",
    questions=(
        "What pressure does the heating have to be filled to?",
        "Does the highest radiator have pressure enough with the pump on?",
        "Does it matter on which side of the pump the vessel joins?",
        "Which pressure do the lowest parts have to stand?",
    ),
    inputs=FillPressureInputs,
    outputs=FillPressureOutputs,
    kernel=kernel,
    needs=(
        Need("sealed-charge-above-static", "table", "Charge above static pressure"),
        Need("sealed-fill-above-charge", "pressure_difference", "Cold fill above the charge"),
        Need("sealed-top-pressure-least", "pressure_gauge", "Least pressure at a level"),
        Need("sealed-top-above-boiling", "pressure_difference", "Top above boiling"),
    ),
    findings=(
        Finding(
            "fill-customary",
            "Cold fill against what is needed",
            quantity="/outputs/fill",
            sense="at-least",
            limit="/outputs/fill_needed",
            failed="advisory",
            words_passed="Cold fill {value}; {limit} is needed.",
            words_failed="Cold fill {value}; {limit} is needed, so that every level keeps its "
            "pressure and the vessel holds water in reserve.",
            source=HYDROSTATICS,
        ),
        Finding(
            "charge-holds-static",
            "Charge against the column of water",
            quantity="/outputs/charge",
            sense="at-least",
            limit="/outputs/static_pressure",
            words_passed="Charge {value}, column of water {limit}.",
            words_failed="Charge {value} is below the column of water, {limit}: the vessel fills "
            "with water when cold and has less room left.",
            source=HYDROSTATICS,
        ),
        Finding(
            "charge-below-fill",
            "Charge against the cold fill",
            quantity="/outputs/charge",
            sense="at-most",
            limit="/outputs/fill",
            words_passed="Charge {value}, cold fill {limit}.",
            words_failed="Charge {value} is above the cold fill, {limit}: the vessel holds no water "
            "when cold, and the least leak takes all pressure. Lower the charge or raise the fill.",
            source=BOYLE,
        ),
        Finding(
            "level-under-pressure",
            "Lowest pressure at each level",
            quantity="/outputs/levels/*/lowest",
            sense="at-least",
            limit="sealed-top-pressure-least",
            words_passed="{item}: {value} at the lowest; {limit} is asked for.",
            words_failed="{item}: only {value} at the lowest; {limit} is asked for, so that air goes "
            "out and none comes in. Raise charge and fill, or have the vessel joined near the inlet "
            "of the pump.",
        ),
        Finding(
            "level-above-boiling",
            "Lowest pressure at each level against boiling",
            quantity="/outputs/levels/*/lowest",
            sense="at-least",
            limit="/outputs/least_pressure",
            failed="dangerous",
            depends_on=("sealed-top-above-boiling",),
            words_passed="{item}: {value} at the lowest; {limit} keeps water of the highest "
            "temperature from boiling.",
            words_failed="{item}: {value} at the lowest; {limit} keeps water of the highest "
            "temperature from boiling. Steam and scalding water may come out. Keep the heat off "
            "until charge and fill are raised, or the limit of the boiler is set lower.",
            source=BOILING,
        ),
        Finding(
            "level-within-rating",
            "Highest pressure at each level against what its parts stand",
            quantity="/outputs/levels/*/at_lift",
            sense="at-most",
            limit="/outputs/levels/*/rating",
            failed="dangerous",
            words_passed="{item}: up to {value} when the relief valve lifts; its parts are rated for "
            "{limit}.",
            words_failed="{item}: up to {value} when the relief valve lifts, above what its weakest "
            "part is rated for, {limit}: that part may burst before the valve lifts. Turn the heat "
            "off, and do not use the system until a competent person has put it right.",
            source=HYDROSTATICS,
        ),
        Finding(
            "ratings-given",
            "Ratings of the parts",
            quantity="/outputs/ratings_given",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="A rating is given for every level.",
            words_failed="For some level no rating is given, so its parts are not judged: take it "
            "from plates and leaflets.",
            source=HYDROSTATICS,
        ),
        Finding(
            "relief-stays-shut",
            "Hot pressure against the relief valve",
            quantity="/outputs/hot_at_relief",
            sense="at-most",
            limit="/inputs/relief_setting",
            words_passed="The relief valve feels {value} when all is hot; it lifts at {limit}.",
            words_failed="The relief valve would feel {value} when all is hot, and it lifts at "
            "{limit}: it discharges as the system heats up, and the system is short of pressure "
            "when cold. A larger vessel is needed.",
            source=NEUTRAL_POINT,
        ),
        Finding(
            "hot-known",
            "Hot pressure",
            quantity="/outputs/hot_known",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="The hot pressure is known, and is judged.",
            words_failed="The hot pressure is not known, so the relief valve is not judged: give "
            "system_volume and vessel_volume, or hot_pressure.",
            source=BOYLE,
        ),
    ),
    cautions=("sealed-vessel-connection", "sealed-relief-valve", "sealed-make-safe"),
    refusals=(
        Refused(
            "fill-not-below-maximum",
            "The fill is not colder than the highest temperature",
            "Give the temperature at filling, and the highest the content can reach.",
        ),
        Refused(
            "fill-given-twice",
            "The cold fill is given at the vessel and at the gauge",
            "Give one of fill and gauge_reading.",
        ),
        Refused(
            "hot-given-twice",
            "The hot pressure is given, and so is the vessel it follows from",
            "Give hot_pressure, or system_volume and vessel_volume.",
        ),
        Refused(
            "hot-incomplete",
            "The hot pressure follows from content and vessel together",
            "Give both system_volume and vessel_volume, or neither.",
        ),
        Refused(
            "hot-below-fill",
            "The hot pressure is below the cold fill",
            "Both are where the vessel joins, with the pump off: check the readings.",
        ),
        Refused(
            "relief-below-fill",
            "The relief valve would lift at the cold fill of {fill}",
            "Take a valve with a higher setting, or bring vessel and valve higher up.",
        ),
        Refused(
            "no-pressure-at-level",
            "The fill cannot carry water up to {level}",
            "Raise the fill, and the charge with it, or check heights and pump.",
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
    ),
    monotonic=(
        Monotonic("/fill", "/levels/0/cold", "increasing"),
        Monotonic("/pump_head", "/fill_needed", "increasing"),
        Monotonic("/maximum_temperature", "/fill_needed", "increasing"),
        Monotonic("/relief_setting", "/levels/0/at_lift", "increasing"),
        Monotonic("/levels/0/height", "/static_pressure", "increasing"),
        Monotonic("/vessel_volume", "/hot_pressure", "decreasing"),
    ),
    charts=(
        LineChart(
            "profile",
            "Pressure over the height",
            series=(
                Series("cold", "/outputs/profile/height", "/outputs/profile/cold"),
                Series("lowest", "/outputs/profile/height", "/outputs/profile/lowest"),
                Series("relief valve lifts", "/outputs/profile/height", "/outputs/profile/at_lift"),
            ),
        ),
    ),
    example={
        "levels": [
            {
                "name": "loft radiator",
                "height": {"value": 5, "unit": "m"},
                "position": 0.8,
                "rating": {"value": 6, "unit": "bar"},
            },
            {
                "name": "boiler",
                "height": {"value": 0.5, "unit": "m"},
                "position": 0.1,
                "rating": {"value": 3.5, "unit": "bar"},
            },
            {
                "name": "ground floor radiator",
                "height": {"value": -1.2, "unit": "m"},
                "rating": {"value": 6, "unit": "bar"},
            },
        ],
        "maximum_temperature": {"value": 90, "unit": "degC"},
        "pump_head": {"value": 5, "unit": "m"},
        "charge": {"value": 0.75, "unit": "bar"},
        "gauge_reading": {"value": 1.0, "unit": "bar"},
        "gauge_height": {"value": 0.5, "unit": "m"},
        "system_volume": {"value": 85, "unit": "l"},
        "vessel_volume": {"value": 12, "unit": "l"},
        "relief_height": {"value": 0.5, "unit": "m"},
        "relief_position": 0.15,
    },
)
