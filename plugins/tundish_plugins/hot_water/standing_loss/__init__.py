"""Standing loss of a store: what it loses, how it cools, what a new one may lose."""

from __future__ import annotations

from tundish.calculation import (
    Calculation,
    Finding,
    Level,
    LineChart,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish_plugins.hot_water.insulation import INSULATION
from tundish_plugins.hot_water.standing_loss.contract import (
    StandingLossInputs,
    StandingLossOutputs,
)
from tundish_plugins.hot_water.standing_loss.formulas import COOLING, GUIDE
from tundish_plugins.hot_water.standing_loss.kernel import kernel

_LOSS = ("standing-loss-test-difference", "insulation-surface-coefficient")

CALCULATION = Calculation(
    id="store-standing-loss",
    version="1.0",
    title="Standing loss of a hot water store",
    summary="What a store loses at its temperatures, from its label, its insulation or a cooling "
    "test; the loss in a year, how it cools, and what a new store may lose.",
    family="hot-water",
    questions=(
        "What does it cost to keep the store hot?",
        "How long does the water stay hot without heat?",
        "May a store with this loss be sold, and which label does it earn?",
        "Does the store lose more than its label says?",
    ),
    inputs=StandingLossInputs,
    outputs=StandingLossOutputs,
    kernel=kernel,
    needs=(
        Need(
            "store-market-limit-constant",
            "power",
            "Constant part of the most a new store may lose",
            optional=True,
        ),
        Need("store-market-limit-slope", "number", "Part that grows with its size", optional=True),
        Need("store-guide-loss-factor", "number", "Factor of the region's guide", optional=True),
        Need("store-label-classes", "table", "Bounds of the energy label", optional=True),
        Need("store-label-volume-most", "volume", "Largest store with a label", optional=True),
        Need("standing-loss-test-difference", "temperature_difference", "Store above room in test"),
    ),
    findings=(
        Finding(
            "within-market-limit",
            "Loss against the limit for new stores",
            quantity="/outputs/test_loss",
            sense="at-most",
            limit="/outputs/market_limit",
            applies_when="/inputs/new_store",
            depends_on=("store-market-limit-constant",),
            rests_on=(*_LOSS, "store-market-limit-slope"),
            capped_unless="/outputs/basis == declared",
            words_capped="the loss is not the declared one; connections may add to it.",
            words_passed="{value} in the test; a new store of this size may lose {limit}.",
            words_failed="{value} in the test; a new store of this size may lose only {limit} "
            "and must not be sold with more.",
        ),
        Finding(
            "within-guide",
            "Loss against the building services guide",
            quantity="/outputs/test_daily_loss",
            sense="at-most",
            limit="/outputs/guide_limit",
            applies_when="/inputs/new_store",
            depends_on=("store-guide-loss-factor",),
            rests_on=(*_LOSS, "store-guide-loss-factor", GUIDE.id),
            words_passed="{value} in 24 hours of the test; the guide allows {limit}.",
            words_failed="{value} in 24 hours of the test; the guide allows only {limit}.",
        ),
        Finding(
            "store-hot-enough",
            "Stored temperature against legionella",
            quantity="/inputs/store_temperature",
            sense="at-least",
            limit="hot-water-store-temperature-least",
            words_passed="Kept at {value}; at least {limit} is asked for.",
            words_failed="Kept at only {value}; at least {limit} is asked for against legionella. "
            "Insulate rather than turn the thermostat down.",
        ),
        Finding(
            "store-not-too-hot",
            "Stored temperature against tempering",
            quantity="/inputs/store_temperature",
            sense="at-most",
            limit="hot-water-store-temperature-untempered",
            words_passed="Kept at {value}; tempering is asked for above {limit}.",
            words_failed="Kept at {value}: water stored above {limit} must not reach the pipes "
            "untempered.",
        ),
        Finding(
            "stays-useful",
            "Temperature after the time without heat",
            quantity="/outputs/end_temperature",
            sense="at-least",
            limit="/inputs/useful_temperature",
            rests_on=_LOSS,
            source=COOLING,
            words_passed="It falls to {value}; {limit} is still of use.",
            words_failed="It falls to {value}, below the {limit} that are of use.",
        ),
    ),
    cautions=("standing-loss-pipes", "hot-water-scalding"),
    refusals=(
        Refused(
            "loss-missing",
            "The loss is not known",
            "Give the declared loss, its insulation, or a cooling test.",
        ),
        Refused(
            "loss-given-twice",
            "The loss is given in more than one way",
            "Give one of declared loss, declared daily loss, insulation and cooling test; run "
            "them one after the other to compare.",
        ),
        Refused(
            "vessel-too-small",
            "The vessel's outline holds only {content}",
            "Check diameter, height and water content against each other.",
        ),
        Refused(
            "cooling-test-impossible",
            "A store left alone cools towards its room: start, end and room temperature must fall",
            "Check the readings, and that nothing heated the store.",
        ),
        Refused(
            "store-not-above-ambient",
            "The store is not warmer than its room",
            "Give a store temperature above the room's: there is no loss otherwise.",
        ),
        Refused(
            "useful-not-below-store",
            "The store is no hotter than the useful temperature to begin with",
            "Give a useful temperature below the store's.",
        ),
        Refused(
            "never-cools-so-far",
            "The store never cools to its room at {ambient}, only towards it",
            "Give a useful temperature above the room's.",
        ),
    ),
    monotonic=(
        Monotonic("/declared_loss", "/loss", "increasing"),
        Monotonic("/declared_daily_loss", "/yearly_loss", "increasing"),
        Monotonic("/store_temperature", "/loss", "increasing"),
        Monotonic("/cooling_time", "/end_temperature", "decreasing"),
        Monotonic("/volume", "/end_temperature", "increasing"),
        Monotonic("/volume", "/market_limit", "increasing"),
        Monotonic("/insulation/thickness", "/side_conductance", "decreasing"),
        Monotonic("/insulation/conductivity", "/conductance", "increasing"),
        Monotonic("/insulation/height", "/conductance", "increasing"),
        Monotonic("/cooling_test/end_temperature", "/conductance", "decreasing"),
        Monotonic("/cooling_test/duration", "/conductance", "decreasing"),
        Monotonic("/useful_temperature", "/useful_time", "decreasing"),
    ),
    charts=(
        LineChart(
            "cooling",
            "Store left without heat",
            series=(Series("store", "/outputs/curve/time", "/outputs/curve/temperature"),),
            levels=(
                Level("room", "/inputs/ambient_temperature"),
                Level("still of use", "/inputs/useful_temperature"),
            ),
        ),
    ),
    sources=(INSULATION,),
    example={
        "volume": {"value": 210, "unit": "l"},
        "declared_loss": {"value": 62, "unit": "W"},
        "store_temperature": {"value": 60, "unit": "degC"},
        "ambient_temperature": {"value": 18, "unit": "degC"},
        "useful_temperature": {"value": 45, "unit": "degC"},
        "energy_price": 0.09,
    },
)
