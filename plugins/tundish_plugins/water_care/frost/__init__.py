"""Glycol against frost: how much, and what it costs in expansion and flow."""

from __future__ import annotations

from tundish.calculation import Calculation, Finding, LineChart, Monotonic, Refused, Series
from tundish_plugins.water_care.frost.contract import FrostInputs, FrostOutputs
from tundish_plugins.water_care.frost.formulas import FREEZING_FIT, SAME_HEAT
from tundish_plugins.water_care.frost.kernel import kernel

CALCULATION = Calculation(
    id="frost-protection",
    version="1.0",
    title="Glycol against frost",
    summary="Share of propylene or ethylene glycol for the coldest it gets, how much to put in or "
    "exchange, and what it costs in expansion, flow and pressure drop.",
    family="water-care",
    questions=(
        "How much glycol does the system need?",
        "Is what is in it enough?",
        "What does the glycol do to the vessel and the pump?",
    ),
    inputs=FrostInputs,
    outputs=FrostOutputs,
    kernel=kernel,
    findings=(
        Finding(
            "freezing-point",
            "Freezing point of the content",
            quantity="/outputs/present_freezing_point",
            sense="at-most",
            limit="/outputs/target_temperature",
            words_passed="What is in the system freezes at {value}; {limit} is asked for.",
            words_failed="What is in the system freezes at {value}; {limit} is asked for. Exchange "
            "the volume that is shown for glycol, circulate, and measure again.",
            source=FREEZING_FIT,
        ),
        Finding(
            "glycol-behind-coil",
            "Poison behind drinking water",
            quantity="/outputs/poisonous_coil",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="No ethylene glycol stands behind a single wall of drinking water.",
            words_failed="Ethylene glycol is poisonous and only one wall of a coil keeps it from "
            "drinking water: a pinhole can poison the house. Use propylene glycol made for it.",
            depends_on=("frost-ethylene-glycol",),
        ),
        Finding(
            "flow-with-glycol",
            "Kind of flow with glycol",
            quantity="/outputs/circuit/laminar",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="The flow with glycol stays turbulent.",
            words_failed="The flow with glycol is no longer clearly turbulent: pressure drop is "
            "uncertain, and emitters and heat exchangers give less.",
            source=SAME_HEAT,
        ),
    ),
    cautions=("frost-ethylene-glycol", "frost-glycol-care"),
    refusals=(
        Refused(
            "beyond-glycol-data",
            "The freezing point asked for lies outside the data, 10 to 55 % glycol by mass",
            "Check temperature and margin; with less than 10 % a glycol is no protection to rely "
            "on.",
        ),
        Refused(
            "present-share-beyond-data",
            "The share that is in the system lies outside the data, 10 to 55 % by mass",
            "Leave it out, and treat the system as filled with water.",
        ),
        Refused(
            "hottest-below-filling",
            "The hottest is not above the filling temperature",
            "Give the hottest that the content gets.",
        ),
    ),
    monotonic=(
        Monotonic("/coldest_temperature", "/volume_share", "decreasing"),
        Monotonic("/margin", "/volume_share", "increasing"),
        Monotonic("/content", "/glycol_volume", "increasing"),
        Monotonic("/hottest_temperature", "/glycol_expansion", "increasing"),
        Monotonic("/present_share", "/exchange_volume", "decreasing"),
    ),
    charts=(
        LineChart(
            "freezing",
            "Freezing point by glycol in the content",
            series=(
                Series("glycol", "/outputs/curve/glycol_volume", "/outputs/curve/freezing_point"),
            ),
        ),
    ),
    sources=(SAME_HEAT,),
    example={
        "fluid": "propylene-glycol",
        "coldest_temperature": "-10 degC",
        "margin": "3 K",
        "content": "120 l",
        "present_share": 0.2,
        "hottest_temperature": "80 degC",
        "circuit": {"flow": "900 l/h", "bore": "20.2 mm", "temperature": "50 degC"},
        "potable_coil": True,
    },
)
