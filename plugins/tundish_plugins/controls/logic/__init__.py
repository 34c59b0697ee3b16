"""Logic of a control wiring: every state of its contacts against what is meant."""

from __future__ import annotations

from tundish.calculation import BarChart, Calculation, Finding, Monotonic, Need, Refused
from tundish_plugins.controls.logic.contract import LogicInputs, LogicOutputs
from tundish_plugins.controls.logic.example import EXAMPLE
from tundish_plugins.controls.logic.formulas import SWITCHING
from tundish_plugins.controls.logic.kernel import kernel

_CUT_OUT = "controls-cut-out-stops-heat"

CALCULATION = Calculation(
    id="control-logic",
    version="1.0",
    title="Logic of a control wiring",
    summary="Truth table of contacts, relays, end switches and sensed inputs against what is meant; "
    "every mismatch with its shortest explanation, and what a cut-out, a broken wire or a stuck end "
    "switch does.",
    family="controls",
    questions=(
        "Does the wiring do what is meant?",
        "Why does the cylinder heat with hot water switched off?",
        "Does the cut-out really stop the heat?",
        "What happens when an end switch sticks?",
    ),
    inputs=LogicInputs,
    outputs=LogicOutputs,
    kernel=kernel,
    needs=(
        Need("controls-isolators-most", "number", "Points of isolation of a control circuit"),
        Need("controls-bands-apart", "caution", "Mains and extra-low voltage in one place"),
        Need(_CUT_OUT, "text", "What an overheat cut-out must stop"),
    ),
    findings=(
        Finding(
            "supply-shorted",
            "Shorts of the supply",
            quantity="/outputs/shorted",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="No state joins the poles of a supply, or a live pole to earth.",
            words_failed="In some state the poles of a supply, or a pole and earth, are joined "
            "without a load: see shorts. Do not energise it. No truth table is given.",
            source=SWITCHING,
        ),
        Finding(
            "earth-as-conductor",
            "What stands on the earth",
            quantity="/outputs/earth_used",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="No load, coil or sensed input stands on the earth.",
            words_failed="In some state a load, coil or sensed input stands on the earth with one of "
            "its ends: the earth carries current and can be live. Take the circuit out of use and "
            "give it a neutral.",
            source=SWITCHING,
        ),
        Finding(
            "voltages-joined",
            "Mains at extra-low voltage terminals",
            quantity="/outputs/bands_joined",
            sense="is",
            limit=False,
            failed="dangerous",
            words_passed="No state puts mains on an extra-low voltage terminal.",
            words_failed="In some state mains stands on an extra-low voltage terminal: it kills the "
            "control, and may kill who touches it. Do not energise it.",
            depends_on=("controls-bands-apart",),
        ),
        Finding(
            "voltages-apart",
            "Mains and extra-low voltage in one cable or enclosure",
            quantity="/outputs/together/*/apart",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="{item} keeps mains and extra-low voltage apart.",
            words_failed="{item} holds mains and extra-low voltage with nothing between them: use "
            "separate cables, conductors all insulated for mains, an earthed screen or a partition.",
            depends_on=("controls-bands-apart",),
        ),
        Finding(
            "points-of-isolation",
            "Points at which the mains must be isolated",
            quantity="/outputs/isolators",
            sense="at-most",
            limit="controls-isolators-most",
            failed="dangerous",
            words_passed="The mains is isolated at {value} point.",
            words_failed="The mains arrives from {value} points of isolation; with one switched off "
            "the wiring is still live. Feed the whole control circuit from {limit} double-pole "
            "fused point.",
        ),
        Finding(
            "comes-to-rest",
            "Coming to rest",
            quantity="/outputs/settles",
            sense="is",
            limit=True,
            words_passed="Relays and valves come to rest in every state.",
            words_failed="In some state the wiring never comes to rest: a relay or valve undoes what "
            "moved it, and chatters or hunts until something fails.",
            source=SWITCHING,
        ),
        Finding(
            "depends-on-history",
            "States that depend on what was before",
            quantity="/outputs/remembers",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="What was on before makes no difference to any state.",
            words_failed="In some state something stays as it was before: it holds itself. If that "
            "is meant (a reset by hand), leave it; if not, look for the contact that feeds its own "
            "coil.",
            source=SWITCHING,
        ),
        Finding(
            "fed-through-another-load",
            "Feeds through other loads",
            quantity="/outputs/fed_in_series",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="No load is fed through another one.",
            words_failed="In some state a load may be fed through another one: it gets part of the "
            "voltage, hums, half runs, or makes a dead terminal live. See series.",
            source=SWITCHING,
        ),
        Finding(
            "intent-known",
            "What is meant",
            quantity="/outputs/intent_given",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="It was said what is meant, and the wiring is held against it.",
            words_failed="It was not said what is meant: the table says what the wiring does, not "
            "whether that is right. Say it in intended.",
            source=SWITCHING,
        ),
        Finding(
            "runs-against-intent",
            "Running against what is meant",
            quantity="/outputs/compared/*/only_when_meant",
            sense="is",
            limit=True,
            words_passed="{item} runs (a valve or path: is open) only when meant.",
            words_failed="{item} runs (a valve or path: is open) in states in which it is not meant "
            "to: a sneak path. See mismatches for the inputs and the parts.",
            source=SWITCHING,
        ),
        Finding(
            "idle-against-intent",
            "Standing still against what is meant",
            quantity="/outputs/compared/*/whenever_meant",
            sense="is",
            limit=True,
            words_passed="{item} runs (a valve or path: is open) whenever meant.",
            words_failed="{item} stands still (a valve or path: is shut) in states in which it is "
            "meant to run. See mismatches for the inputs and the parts.",
            source=SWITCHING,
        ),
        Finding(
            "cut-out-stops-heat",
            "What runs with a cut-out tripped",
            quantity="/outputs/cut_outs/*/stops",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="With {item} false (tripped) all that it must stop is off, in every state.",
            words_failed="With {item} false (tripped) heat goes on in some state: it is not in "
            "series with what it must stop. Take the circuit out of use until that is mended.",
            depends_on=(_CUT_OUT,),
        ),
        Finding(
            "cut-out-with-a-broken-wire",
            "A cut-out with one wire broken",
            quantity="/outputs/cut_outs/*/survives_broken_wire",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="{item} still stops the heat with any one wire broken.",
            words_failed="{item} does not stop the heat, or one broken wire defeats it. It must "
            "open the live to what heats, not work through an input that reads an open pair as a "
            "demand.",
            depends_on=(_CUT_OUT,),
        ),
        Finding(
            "heat-has-cut-out",
            "Cut-out for what heats stored water",
            quantity="/outputs/heated/*/has_cut_out",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="A cut-out is named for {item}.",
            words_failed="{item} heats stored water and no cut-out is named for it.",
            depends_on=(_CUT_OUT,),
        ),
        Finding(
            "store-without-supply",
            "Way to an unvented store with the supply off",
            quantity="/outputs/heated/*/shut_at_rest",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="{item} is shut when the supply fails.",
            words_failed="{item} stands open when the supply fails or the cut-out trips: the store "
            "can go on heating. The valve to an unvented store must be normally closed.",
            depends_on=(_CUT_OUT,),
        ),
        Finding(
            "pump-against-shut-valves",
            "Paths of pump and boiler",
            quantity="/outputs/dead_headed",
            sense="is",
            limit=False,
            words_passed="Whenever the pump or boiler runs, some path is open.",
            words_failed="In some state the pump or boiler runs with every path shut. Interlock it, "
            "or fit a bypass.",
            source=SWITCHING,
        ),
        Finding(
            "runs-before-a-valve-opens",
            "Pump or boiler while a valve still opens",
            quantity="/outputs/runs_early",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="The pump or boiler waits until a path is open.",
            words_failed="The pump or boiler starts while every path is still shut and the valve is "
            "on its way. Start it through the valve's end switch.",
            source=SWITCHING,
        ),
        Finding(
            "end-switch-stuck",
            "End switch that sticks",
            quantity="/outputs/end_switches/*/harmless",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="{item}: nothing runs that would not otherwise.",
            words_failed="{item}: something runs or opens that would not otherwise. It is the "
            "commonest fault of a motorised valve: say so in the hand-over.",
            source=SWITCHING,
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
            "too-many-states",
            "{states} states are more than are enumerated here ({most} at most, and fewer with very "
            "many contacts)",
            "Split the wiring where one wire alone joins two parts, and give what that wire does as "
            "a free input of the second part; or fix the inputs that do not matter.",
        ),
        Refused("name-taken", "The name {given} is used twice", "Give each thing its own name."),
        Refused(
            "name-unknown", "Nothing is called {given} here; known: {accepted}", "Use a known name."
        ),
        Refused(
            "ends-alike",
            "Both ends of {given} are the same point",
            "Name the two points it stands between, or leave it out.",
        ),
        Refused(
            "expression-unreadable",
            "The condition cannot be read: {why}",
            "Write names with and, or, not, true, false and brackets; other names in double quotes.",
        ),
        Refused(
            "nothing-to-judge",
            "There is no relay, valve, load or sensed input",
            "Give what the contacts are to switch.",
        ),
        Refused(
            "store-path-missing",
            "The store is unvented and nothing is said to heat it",
            "Give the flow path that heats it (heats_store), or the electric heater.",
        ),
        Refused(
            "intended-twice",
            "{given} is meant by a condition and by rows",
            "Say it in one of the two ways.",
        ),
        Refused(
            "intended-contradicts",
            "The rows say both on and off of {given} with {state}",
            "Correct one of the rows.",
        ),
    ),
    monotonic=(Monotonic("/valves/0/travel_time", "/settling_time", "increasing"),),
    charts=(
        BarChart(
            "states-on",
            "States in which each thing is on, and is meant to be",
            items="/outputs/results",
            label="name",
            bars=(("on", "on_states"), ("meant", "meant_states")),
        ),
    ),
    example=EXAMPLE,
)
