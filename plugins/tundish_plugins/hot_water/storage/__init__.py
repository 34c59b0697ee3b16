"""The size of a hot water store for the draws of a household."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    LineChart,
    Method,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish_plugins.hot_water.storage.contract import StorageInputs, StorageOutputs
from tundish_plugins.hot_water.storage.formulas import (
    BS_6700_DRAWS,
    DRAW_BALANCE,
    MIXED_STORE,
    PLUG_STORE,
)
from tundish_plugins.hot_water.storage.kernel import kernel


def _at(hours: int, minutes: int = 0) -> dict[str, object]:
    return {"value": 60 * hours + minutes, "unit": "min"}


CALCULATION = Calculation(
    id="hot-water-storage",
    version="1.0",
    title="Size of a hot water store",
    summary="How much hot water has to be stored for these draws, while the source goes on "
    "heating: by the two draws of the former British Standard or by a list through the day, for a "
    "store mixed through and for hot over cold.",
    family="hot-water",
    questions=(
        "How big a store do these people need?",
        "Is this store large enough for two showers and a bath?",
        "How much does a stronger source or coil save in store?",
    ),
    inputs=StorageInputs,
    outputs=StorageOutputs,
    kernel=kernel,
    methods=(
        Method(
            "profile",
            "A list of draws, stepped through",
            "Every draw with its flow and time, or a European load profile; the source heats "
            "while water is drawn, from when the thermostat calls. The day starts wherever the "
            "thermostat may leave the store; from the needed volume on the narrowest draw is met.",
            source=MIXED_STORE,
        ),
        Method(
            "two-draw",
            "Two draws, former British Standard",
            "The worst two draws with a pause between them, both taken at once; heated from the "
            "first on, no coil limit, constant 14.3.",
            source=BS_6700_DRAWS,
        ),
    ),
    needs=(
        Need(
            "hot-water-two-draws",
            "table",
            "Draws that go with the number of bathrooms",
            optional=True,
        ),
        Need("load-profile-m", "table", "Draws of load profile M"),
        Need("load-profile-l", "table", "Draws of load profile L"),
        Need("load-profile-xl", "table", "Draws of load profile XL"),
        Need("load-profile-cold-temperature", "temperature", "Cold water of the load profiles"),
        Need(
            "load-profile-mixed-water-least",
            "table",
            "Mixed water that a storage water heater declared for a load profile has to give",
        ),
        Need(
            "hot-water-daily-base",
            "volume",
            "Hot water of an average day, not by persons",
            optional=True,
        ),
        Need(
            "hot-water-daily-person",
            "volume",
            "Hot water of an average day for each person",
            optional=True,
        ),
    ),
    findings=(
        Finding(
            "store-hot-enough",
            "Stored temperature against legionella",
            quantity="/inputs/store_temperature",
            sense="at-least",
            limit="hot-water-store-temperature-least",
            capped_unless="/outputs/kept_hot",
            words_capped="a part of the content is not heated, or the thermostat lets it cool "
            "before it calls; such water stays lukewarm unless it is heated through regularly.",
            words_passed="The thermostat stops at {value}; at least {limit} is asked for.",
            words_failed="The thermostat stops at only {value}; at least {limit} is asked for "
            "against legionella.",
        ),
        Finding(
            "store-rests-hot-enough",
            "Store where its thermostat leaves it, against legionella",
            quantity="/outputs/resting_temperature",
            sense="at-least",
            limit="hot-tap-temperature-least",
            rests_on=(),
            words_passed="The store may stand at {value} before its thermostat calls; at least "
            "{limit} is asked for at the taps.",
            words_failed="The store may stand at only {value} before its thermostat calls; not "
            "even the {limit} asked for at the taps against legionella. Lower the restart "
            "difference.",
        ),
        Finding(
            "a-store-large-enough",
            "Largest of the stores compared",
            quantity="/outputs/any_met",
            sense="is",
            limit=True,
            words_passed="At least one of the stores compared meets every draw.",
            words_failed="None of the stores compared meets every draw.",
            source=MIXED_STORE,
        ),
        Finding(
            "each-store-large-enough",
            "Each store against the draws",
            quantity="/outputs/candidates/*/met",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: met, every draw gets its temperature to the end.",
            words_failed="{item}: not met, a draw runs cool; this store is too small, or its "
            "thermostat calls too late.",
            source=MIXED_STORE,
        ),
        Finding(
            "large-enough-if-mixed",
            "Each store against mixing",
            quantity="/outputs/candidates/*/volume",
            sense="at-least",
            limit="/outputs/needed_mixed",
            failed="advisory",
            applies_when="/inputs/mixing == stratified",
            words_passed="{item} would do even mixed through, which takes {limit}.",
            words_failed="{item} rests on hot water staying above cold: mixed through it would "
            "take {limit}. Fast inlets, a low return and a circulation loop mix a store.",
            source=MIXED_STORE,
        ),
        Finding(
            "full-before-next-day",
            "Refill against the next day's draws",
            quantity="/outputs/reheat_end",
            sense="at-most",
            limit="/outputs/next_day",
            words_passed="The last reheat is over at {value}, before the draws begin anew at "
            "{limit}; what the thermostat then leaves cool is allowed for.",
            words_failed="The last reheat is over only at {value}, after the draws begin anew at "
            "{limit}: the source is too weak for these draws whatever the store.",
            source=PLUG_STORE,
        ),
        Finding(
            "draws-plausible",
            "Draws against a day's average use",
            quantity="/outputs/hot_volume",
            sense="at-most",
            limit="/outputs/daily_volume",
            failed="advisory",
            words_passed="The draws take {value} of hot water; these people use about {limit} on "
            "an average day.",
            words_failed="The draws take {value} of hot water, more than the {limit} these people "
            "use on an average day: the store may be larger than they need.",
            depends_on=("hot-water-daily-person",),
        ),
        Finding(
            "mixed-water-as-declared",
            "Mixed water against the load profile's least",
            quantity="/outputs/candidates/*/mixed_volume",
            sense="at-least",
            limit="/outputs/profile_mixed_volume_least",
            failed="advisory",
            words_passed="{item} gives {value} of mixed water; a storage water heater declared "
            "for this profile has to give {limit}.",
            words_failed="{item} gives only {value} of mixed water; a storage water heater "
            "declared for this profile has to give {limit}.",
            depends_on=("load-profile-mixed-water-least",),
        ),
    ),
    cautions=(
        "hot-water-storage-assumptions",
        "hot-water-scalding",
        "hot-water-unvented-competence",
    ),
    refusals=(
        Refused(
            "draws-missing",
            "Nothing is drawn",
            "List the draws, or name a load profile.",
        ),
        Refused(
            "draws-given-twice",
            "The draws are listed and a load profile is named as well",
            "Give one of them.",
        ),
        Refused(
            "two-draws-needed",
            "The two-draw method needs two draws",
            "List the worst two, or give the bathrooms; a longer list goes by the profile method.",
        ),
        Refused(
            "load-profile-by-two-draws",
            "A load profile has more than two draws",
            "Choose the profile method for a load profile.",
        ),
        Refused(
            "flow-missing",
            "The profile method does not know how fast this draw runs",
            "Give the flow of mixed water, or choose the two-draw method.",
        ),
        Refused(
            "draws-overlap",
            "A draw starts before the one above it has ended",
            "List the draws in the order of time; give two at once as one draw with their "
            "flows and volumes added.",
        ),
        Refused(
            "draw-not-above-cold",
            "A draw is no warmer than the cold water",
            "Leave out draws of cold water.",
        ),
        Refused(
            "draw-too-hot",
            "A draw is as hot as the store or hotter: the store is kept at {store}",
            "Lower the draw's temperature or store hotter: a store cools as it is drawn from.",
        ),
        Refused(
            "thermostat-calls-too-late",
            "The thermostat may leave a mixed store at {left}, which is no warmer than a draw",
            "Lower the restart difference or the draw's temperature, or store hotter: no content "
            "is large enough.",
        ),
        Refused(
            "not-in-two-draws",
            "The two-draw method heats from the first draw on with the whole heat input",
            "Leave this out, or choose the profile method, which uses it.",
        ),
        Refused(
            "coil-incomplete",
            "The coil's limit needs both its conductance and the flow temperature",
            "Give both, or leave out both: then the whole heat input counts to the end.",
        ),
        Refused(
            "loss-takes-all",
            "The standing loss takes all the heat brought in",
            "Check the heat input and the standing loss.",
        ),
        Refused(
            "store-unreachable",
            "The coil can never bring the store to its temperature: with the loss it can reach "
            "{reachable}",
            "Raise the flow temperature or store cooler.",
        ),
        Refused(
            "mix-not-above-cold",
            "Mixed water cannot be as cold as the cold water or colder",
            "Give a mixed temperature above the cold water's.",
        ),
        Refused(
            "store-too-cool-to-mix",
            "The store is not hotter than the mixed water counted",
            "Give a mixed temperature below the store's: no mixing makes water hotter.",
        ),
    ),
    monotonic=(
        Monotonic("/heat_input", "/needed_mixed", "decreasing"),
        Monotonic("/heat_input", "/needed_stratified", "decreasing"),
        Monotonic("/usable_share", "/needed_volume", "decreasing"),
        Monotonic("/heat_input", "/candidates/0/first_hour", "increasing"),
        Monotonic("/store_temperature", "/needed_stratified", "decreasing"),
        Monotonic("/draws/0/volume", "/hot_volume", "increasing"),
        Monotonic("/draws/1/volume", "/needed_mixed", "increasing"),
        Monotonic("/coil_conductance", "/needed_mixed", "decreasing"),
    ),
    charts=(
        LineChart(
            "store-energy",
            "Heat in the store of the needed volume",
            series=(Series("in the store", "/outputs/curve/time", "/outputs/curve/energy"),),
        ),
        LineChart(
            "need-and-supply",
            "Need and supply added up",
            series=(
                Series("supply", "/outputs/curve/time", "/outputs/curve/supply"),
                Series("need", "/outputs/curve/time", "/outputs/curve/need"),
            ),
        ),
        BarChart(
            "stores",
            "Mixed water from each store",
            items="/outputs/candidates",
            label="name",
            bars=(("content", "mixed_volume"),),
        ),
    ),
    sources=(DRAW_BALANCE,),
    example={
        "persons": 4,
        "store_temperature": {"value": 60, "unit": "degC"},
        "heat_input": {"value": 12, "unit": "kW"},
        "coil_conductance": {"value": 524, "unit": "W/K"},
        "flow_temperature": {"value": 75, "unit": "degC"},
        "standing_loss": {"value": 70, "unit": "W"},
        "usable_share": 0.9,
        "restart_difference": {"value": 5, "unit": "K"},
        "draws": [
            {
                "name": "first shower",
                "start": _at(6, 45),
                "volume": {"value": 60, "unit": "l"},
                "temperature": {"value": 40, "unit": "degC"},
                "flow": {"value": 9, "unit": "l/min"},
            },
            {
                "name": "second shower",
                "start": _at(7),
                "volume": {"value": 60, "unit": "l"},
                "temperature": {"value": 40, "unit": "degC"},
                "flow": {"value": 9, "unit": "l/min"},
            },
            {
                "name": "bath",
                "start": _at(7, 20),
                "volume": {"value": 120, "unit": "l"},
                "temperature": {"value": 42, "unit": "degC"},
                "flow": {"value": 12, "unit": "l/min"},
            },
            {
                "name": "sink",
                "start": _at(8),
                "volume": {"value": 15, "unit": "l"},
                "temperature": {"value": 48, "unit": "degC"},
                "flow": {"value": 6, "unit": "l/min"},
            },
        ],
        "candidates": [
            {"name": "120 litre", "volume": {"value": 120, "unit": "l"}},
            {"name": "150 litre", "volume": {"value": 150, "unit": "l"}},
            {"name": "180 litre", "volume": {"value": 180, "unit": "l"}},
            {"name": "210 litre", "volume": {"value": 210, "unit": "l"}},
        ],
    },
    example_region="GB",
)
