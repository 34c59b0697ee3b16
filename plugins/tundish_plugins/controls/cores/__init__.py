"""Cores between places: what each control scheme needs against the cables that are there."""

from __future__ import annotations

from tundish.calculation import BarChart, Calculation, Finding, Monotonic, Need, Refused
from tundish_plugins.controls.cores.contract import CoresInputs, CoresOutputs
from tundish_plugins.controls.cores.formulas import NET_COUNT
from tundish_plugins.controls.cores.kernel import kernel

CALCULATION = Calculation(
    id="control-cores",
    version="1.0",
    title="Cores between the places of a control wiring",
    summary="Conductors that cross from place to place in each control scheme, against the "
    "cores that are there: which scheme fits, what is left over, and an earth core that is "
    "never anything else.",
    family="controls",
    questions=(
        "Are there enough cores?",
        "Which control scheme fits the cables that are there?",
        "How many cores must the new cable have?",
    ),
    inputs=CoresInputs,
    outputs=CoresOutputs,
    kernel=kernel,
    needs=(
        Need("control-schemes", "table", "Schemes on file"),
        Need("control-scheme-nets", "table", "Their conductors"),
        Need("controls-bands-apart", "caution", "Mains and extra-low voltage in one cable"),
        Need("controls-earth-core", "text", "What an earth core may be used for"),
        Need("controls-conductor-marking", "text", "Identification of conductors"),
    ),
    findings=(
        Finding(
            "earth-core",
            "Use of the earth core",
            quantity="/outputs/cables/*/earth_core_safe",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="The earth core of {item} is used for nothing but earth.",
            words_failed="The earth core of {item} is used as a live conductor. Whoever works there "
            "next takes it for earth: it can kill. Take the circuit out of use, give the core back "
            "to earth and lay the core that is missing.",
            depends_on=("controls-earth-core",),
        ),
        Finding(
            "mains-earthed",
            "Earth with the mains",
            quantity="/outputs/legs/*/earthed",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="{item}: a connected earth core goes with the mains.",
            words_failed="{item}: the mains goes without a connected earth core. Metal at the far "
            "end is not earthed.",
            depends_on=("controls-earth-core",),
        ),
        Finding(
            "voltages-apart",
            "Mains and extra-low voltage in one cable",
            quantity="/outputs/cables/*/voltages_safe",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="{item} carries one voltage only, or is insulated for mains throughout.",
            words_failed="{item} carries mains and extra-low voltage, and its cores are not made for "
            "mains. Take the mains out of it.",
            depends_on=("controls-bands-apart",),
        ),
        Finding(
            "scheme-fits",
            "Schemes against the cores",
            quantity="/outputs/some_fits",
            sense="is",
            limit=True,
            words_passed="The cores that are there do for at least one scheme.",
            words_failed="The cores that are there do for no scheme examined. See the ways for what "
            "must be laid.",
            source=NET_COUNT,
        ),
        Finding(
            "mains-cores",
            "Mains cores there against those needed",
            quantity="/outputs/legs/*/mains_there",
            sense="at-least",
            limit="/outputs/legs/*/mains_needed",
            words_passed="{item}: {value} mains cores are there with the earth; {limit} are needed.",
            words_failed="{item}: {value} mains cores are there with the earth; {limit} are needed. "
            "Lay a cable of {limit} cores, its earth core among them, or choose a scheme that needs "
            "fewer.",
            source=NET_COUNT,
        ),
        Finding(
            "low-voltage-cores",
            "Extra-low voltage cores there against those needed",
            quantity="/outputs/legs/*/low_there",
            sense="at-least",
            limit="/outputs/legs/*/low_needed",
            words_passed="{item}: {value} extra-low voltage cores are there; {limit} are needed.",
            words_failed="{item}: {value} extra-low voltage cores are there; {limit} are needed, in "
            "a cable of their own.",
            source=NET_COUNT,
        ),
        Finding(
            "mains-in-one-cable",
            "Mains conductors of one way",
            quantity="/outputs/legs/*/mains_in_one_cable",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: all mains conductors run in one cable.",
            words_failed="{item}: the mains conductors are spread over several cables. Keep line "
            "and neutral of one circuit together, and say on both ends which cable is which.",
            source=NET_COUNT,
        ),
        Finding(
            "colours-of-cores",
            "Colours of mains cores",
            quantity="/outputs/legs/*/colours_tell",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: every mains core has the colour of what it carries.",
            words_failed="{item}: some mains cores have the colour of something else: mark them at "
            "both ends. See cores to mark.",
            depends_on=("controls-conductor-marking",),
        ),
    ),
    cautions=(
        "controls-electrical-work",
        "controls-drawing-only",
        "controls-bands-apart",
        "hot-water-unvented-competence",
    ),
    refusals=(
        Refused(
            "cable-ends-alike",
            "Both ends of the cable are at {place}",
            "Name the two places it joins.",
        ),
        Refused(
            "earth-core-contradicts",
            "What is said of the earth core of {cable} does not go together",
            "Say whether the cable has an earth core, and what it is used as only if it has.",
        ),
        Refused(
            "route-not-unique",
            "The cables make a circle at {place}: a conductor could go two ways",
            "Leave out the way that is not to be used.",
        ),
        Refused(
            "too-many-cables",
            "More than {most} cables lie side by side",
            "Leave out those that are not to be used.",
        ),
        Refused(
            "place-without-cable",
            "No cable joins {place} to the others",
            "Give every place its cable; give one with 0 cores for a way where none is laid yet.",
        ),
        Refused("scheme-twice", "The scheme {given} is there already", "Give it another name."),
        Refused(
            "no-scheme",
            "No scheme is to be examined",
            "Say where things stand (standing), or give a scheme of your own.",
        ),
        Refused(
            "scheme-unknown",
            "No scheme is called {given}; there are: {accepted}",
            "Choose one of them, or leave it out.",
        ),
    ),
    monotonic=(Monotonic("/cables/0/length", "/schemes/0/cable_to_lay", "increasing"),),
    charts=(
        BarChart(
            "cores",
            "Cores needed on each way",
            items="/outputs/legs",
            label="name",
            bars=(("mains, with earth", "mains_needed"), ("extra-low voltage", "low_needed")),
        ),
    ),
    example={
        "cables": [
            {
                "name": "old five-core",
                "start": "boiler cupboard",
                "end": "airing cupboard",
                "cores": 5,
                "earth_core": True,
                "length": "9 m",
            },
            {
                "name": "bell wire",
                "start": "boiler cupboard",
                "end": "airing cupboard",
                "cores": 2,
                "earth_core": False,
                "blue_core": False,
                "insulated_for": "extra-low-voltage",
            },
            {
                "name": "hall four-core",
                "start": "boiler cupboard",
                "end": "hall",
                "cores": 4,
                "earth_core": True,
                "blue_core": False,
            },
        ],
        "standing": {
            "programmer": "boiler cupboard",
            "wiring_centre": "airing cupboard",
            "boiler": "boiler cupboard",
            "store": "airing cupboard",
            "valves": "airing cupboard",
            "room": "hall",
        },
        "unvented": True,
    },
)
