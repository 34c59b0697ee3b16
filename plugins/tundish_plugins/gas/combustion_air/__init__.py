"""Air for gas appliances: vents of a room or compartment, and those left by an old boiler."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Monotonic,
    Need,
    Refused,
)
from tundish_plugins.gas.combustion_air.contract import CombustionAirInputs, CombustionAirOutputs
from tundish_plugins.gas.combustion_air.formulas import AREA_BY_INPUT, FREE_AREA
from tundish_plugins.gas.combustion_air.kernel import kernel

_STARVED = (
    "An open flue without air spills: turn off every appliance that draws on it, leave it off, tell "
    "the user, and follow the procedure for unsafe situations."
)
_SIZES = "the least opening of a vent is not known; measure what ball passes."

CALCULATION = Calculation(
    id="combustion-air",
    version="1.0",
    title="Air for gas appliances",
    summary="Free area of the vents that a room or compartment needs, straight from outside or by "
    "way of a room; whether the vents there are enough and fit; and which may go when a boiler does.",
    family="gas",
    questions=(
        "Does the room need a vent, and how large?",
        "Is this vent good enough?",
        "May the old vent be closed when the boiler is replaced?",
    ),
    inputs=CombustionAirInputs,
    outputs=CombustionAirOutputs,
    kernel=kernel,
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("air-vent-input-most", "heat_input_net", "Greatest input of the rules"),
        Need("air-vent-input-free", "heat_input_net", "Input that needs no vent"),
        Need("air-vent-rate", "area_per_power", "Area for open-flued appliances"),
        Need("air-vent-rate-room-sealed", "area_per_power", "Area for room-sealed appliances"),
        Need("air-vent-compartment-rates", "table", "Area for compartments"),
        Need("air-vent-internal-factor", "number", "Inside vent over outside vent"),
        Need("air-vent-aperture-least", "length", "Least size of openings"),
    ),
    findings=(
        Finding(
            "air-enough",
            "Free area for open flues",
            quantity="/outputs/openings/*/given",
            sense="at-least",
            limit="/outputs/openings/*/needed",
            failed="dangerous",
            applies_when="/outputs/openings/*/for_combustion",
            capped_unless="/outputs/openings/*/sizes_known",
            words_capped=_SIZES,
            words_passed="{item}: {value} of free area; {limit} is needed.",
            words_failed="{item}: {value} of free area that counts; {limit} is needed. " + _STARVED,
            source=AREA_BY_INPUT,
        ),
        Finding(
            "cooling-enough",
            "Free area where no open flue draws",
            quantity="/outputs/openings/*/given",
            sense="at-least",
            limit="/outputs/openings/*/needed",
            applies_when="not /outputs/openings/*/for_combustion",
            capped_unless="/outputs/openings/*/sizes_known",
            words_capped=_SIZES,
            words_passed="{item}: {value} of free area; {limit} is needed.",
            words_failed="{item}: {value} of free area that counts; {limit} is needed to carry the "
            "heat out of the compartment, unless the maker waives it.",
            source=AREA_BY_INPUT,
        ),
        Finding(
            "low-openings",
            "Openings at floor level for liquefied gas",
            quantity="/outputs/liquefied",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="The gas is not liquefied petroleum gas: no low openings for leaks are asked "
            "for.",
            words_failed="Liquefied petroleum gas is heavier than air and gathers at the floor: low "
            "openings for leaks, and basements and cellars, are not judged here. Have them judged by "
            "the standard for it before the gas is turned on.",
            source=AREA_BY_INPUT,
        ),
        Finding(
            "vents-given",
            "Vents that are there",
            quantity="/outputs/vents_given",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The vents were given, and are judged.",
            words_failed="No vents were given: what is needed is said, not whether it is there.",
            source=FREE_AREA,
        ),
        Finding(
            "vent-stays-open",
            "Whether the vent can be shut",
            quantity="/inputs/vents/*/closable",
            sense="is",
            limit=False,
            applies_when="/outputs/vents/*/needed",
            words_passed="{item} cannot be shut.",
            words_failed="{item} can be shut, so it counts for nothing. Fit a vent that stays open.",
            source=FREE_AREA,
        ),
        Finding(
            "vent-unscreened",
            "Gauze or fly screen",
            quantity="/inputs/vents/*/screened",
            sense="is",
            limit=False,
            applies_when="/outputs/vents/*/needed",
            words_passed="{item} has no gauze or fly screen.",
            words_failed="{item} has a gauze or fly screen, which clogs: it counts for nothing. Take "
            "the screen out, or fit another vent.",
            source=FREE_AREA,
        ),
        Finding(
            "vent-openings",
            "Size of the openings",
            quantity="/outputs/vents/*/least_opening",
            sense="at-least",
            limit="air-vent-aperture-least",
            applies_when="/outputs/vents/*/needed",
            words_passed="{item}: a ball of {value} passes; {limit} is asked for.",
            words_failed="{item}: only a ball of {value} passes; {limit} is asked for, as finer "
            "openings clog. It counts for nothing.",
        ),
        Finding(
            "vent-drawn-on",
            "What draws on a vent that stays",
            quantity="/outputs/vents/*/needed",
            sense="is",
            limit=True,
            failed="advisory",
            applies_when="not /outputs/vents/*/to_close",
            words_passed="{item} stays: an appliance that stays or comes, or something else, draws on "
            "it, or may. Never block it.",
            words_failed="{item}: nothing given here draws on it any more. It may stay; ask with plan "
            "close before it goes.",
            source=AREA_BY_INPUT,
        ),
        Finding(
            "vent-free-to-close",
            "Whether anything draws on a vent to be closed",
            quantity="/outputs/vents/*/needed",
            sense="is",
            limit=False,
            passed="advisory",
            failed="dangerous",
            applies_when="/outputs/vents/*/to_close",
            words_passed="{item}: nothing given here draws on it any more. Before it is closed, look "
            "in every room that gets air through this one for open-flued and flueless appliances, "
            "solid fuel and floor voids, and keep the background ventilation that the building needs.",
            words_failed="{item} must stay open: an appliance that stays or comes, or something else, "
            "draws on it. Closing it can fill the room with carbon monoxide.",
            source=AREA_BY_INPUT,
        ),
    ),
    cautions=(
        "gas-registered-person",
        "gas-smell",
        "air-vent-never-blocked",
        "air-vent-spillage",
        "air-vent-limits",
    ),
    refusals=(
        Refused(
            "airtight-not-in-rules",
            "The rules hold no vent area for a dwelling that tight",
            "Take it from the guidance of the building regulations or from the maker; it is larger.",
        ),
        Refused(
            "flueless-not-in-rules",
            "The rules hold no vent area for flueless appliances",
            "Size for them by the standard, with the volume of the room; leave every vent open.",
        ),
        Refused(
            "decorative-not-in-rules",
            "The rules hold no vent area for decorative fuel-effect fires",
            "Take it from the maker or the standard for such fires; leave every vent open.",
        ),
        Refused(
            "beyond-rules",
            "The heat input of {given} net is above the {most} that the rules are for",
            "Have the air supply designed to the standard for larger plant.",
        ),
        Refused(
            "waiver-for-room-sealed-only",
            "The appliance is not room-sealed: its air cannot be waived",
            "Set cooling_waived for room-sealed appliances only.",
        ),
        Refused(
            "air-path-missing",
            "It is not said by way of which room the air comes",
            "Give through_room.",
        ),
        Refused(
            "air-path-contradicts",
            "The air comes straight from outside, and yet by way of a room",
            "Leave through_room out, or set air_from to room.",
        ),
        Refused(
            "air-path-forbidden",
            "Air for combustion must not come by way of such a room",
            "Take it straight from outside, or by way of an ordinary room; better, fit a room-sealed "
            "appliance.",
        ),
        Refused(
            "no-other-room",
            "An appliance stands in another room, and the air comes straight from outside",
            "Judge that room for itself, or say that the air comes by way of it.",
        ),
        Refused(
            "vent-misplaced",
            "There is no such place here; the places are: {accepted}",
            "Set the vent's place.",
        ),
        Refused(
            "free-area-missing",
            "The free area of the vent is not known",
            "Give what is marked on it, or count and measure all its openings; the size of the "
            "grille is not its free area.",
        ),
        Refused(
            "free-area-given-twice",
            "The vent has a marked free area and openings besides",
            "Give the marked one where there is one.",
        ),
        Refused(
            "opening-contradicts",
            "A ball of {given} is said to pass, and the sides or the free area let only one of {most} "
            "pass",
            "Measure the openings and the largest ball again, and correct what is wrong.",
        ),
    ),
    monotonic=(
        Monotonic("/appliances/0/heat_input", "/openings/0/needed", "increasing"),
        Monotonic("/vents/0/free_area", "/openings/0/given", "increasing"),
        Monotonic("/vents/0/free_area", "/openings/0/lacking", "decreasing"),
    ),
    charts=(
        BarChart(
            "openings",
            "Free area given, and lacking",
            items="/outputs/openings",
            label="name",
            bars=(("given", "given"), ("lacking", "lacking")),
        ),
    ),
    example={
        "gas": "natural-gas",
        "space": "room",
        "air_from": "outside",
        "airtight": False,
        "appliances": [
            {
                "name": "old heat-only boiler",
                "kind": "open-flued",
                "heat_input": {"value": 18, "unit": "kW", "basis": "net"},
                "state": "goes",
            },
            {
                "name": "system boiler",
                "kind": "room-sealed",
                "heat_input": {"value": 24, "unit": "kW", "basis": "net"},
                "state": "comes",
            },
            {
                "name": "gas fire",
                "kind": "open-flued",
                "heat_input": {"value": 9, "unit": "kW", "basis": "net"},
            },
        ],
        "vents": [
            {
                "name": "air brick",
                "place": "outside",
                "free_area": {"value": 60, "unit": "cm2"},
                "least_opening": {"value": 8, "unit": "mm"},
                "closable": False,
                "screened": False,
            }
        ],
    },
)
