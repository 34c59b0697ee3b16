"""Discharge pipe of an unvented hot water store: its sizes, its way, its end, its relief valve."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Level,
    LineChart,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish.physics.pipes import DARCY_WEISBACH
from tundish_plugins.unvented.discharge_pipe.contract import (
    DischargePipeInputs,
    DischargePipeOutputs,
)
from tundish_plugins.unvented.discharge_pipe.formulas import GRAVITY_RUN
from tundish_plugins.unvented.discharge_pipe.kernel import kernel

_SIZES = ("discharge-pipe-sizes",)
_RUN = (*_SIZES, "water-tubes")
_TUNDISH = ("discharge-tundish-placing",)
_DRY = ("discharge-keeps-dry",)
_END = ("discharge-ending-conditions",)
_STACK = ("discharge-stack-conditions",)
_HEAT_OFF = "Turn the heat off and leave it off until a registered person has put it right."

_PIPE = (
    Finding(
        "d1-large-enough",
        "Size of the pipe from valve to tundish",
        quantity="/inputs/relief_pipe/size",
        sense="at-least",
        limit="/outputs/d1_size",
        rests_on=_SIZES,
        depends_on=_SIZES,
        words_passed="{value} from the valve to the tundish; {limit} is the least.",
        words_failed="{value} from the valve to the tundish chokes the valve; {limit} is the least.",
    ),
    Finding(
        "d1-of-metal",
        "Material of the pipe from valve to tundish",
        quantity="/outputs/d1_metal",
        sense="is",
        limit=True,
        depends_on=("discharge-pipe-materials",),
        rests_on=("discharge-pipe-materials",),
        words_passed="The pipe from the valve to the tundish is of metal.",
        words_failed="The pipe from the valve to the tundish is not of metal: replace it.",
    ),
    Finding(
        "d2-large-enough",
        "Size of the discharge pipe",
        quantity="/inputs/discharge_pipe/size",
        sense="at-least",
        limit="/outputs/d2_size",
        rests_on=_SIZES,
        depends_on=_SIZES,
        words_passed="The discharge pipe is {value}; {limit} is the least for this run.",
        words_failed="The discharge pipe is {value}; {limit} is the least for this run. Enlarge it "
        "from the tundish to the end, or shorten it and take out bends.",
    ),
    Finding(
        "d2-bore-large-enough",
        "Bore of the discharge pipe against copper's",
        quantity="/inputs/discharge_pipe/bore",
        sense="at-least",
        limit="/outputs/d2_bore",
        rests_on=_RUN,
        depends_on=_SIZES,
        words_passed="Bore {value}; copper of the size found has {limit}.",
        words_failed="Bore {value}, less than the {limit} of copper of the size found: the table "
        "is for copper. Take a pipe with at least that bore.",
    ),
    Finding(
        "d2-stands-heat",
        "Material of the discharge pipe",
        quantity="/outputs/d2_stands_heat",
        sense="is",
        limit=True,
        depends_on=("discharge-pipe-materials",),
        rests_on=("discharge-pipe-materials",),
        words_passed="The material of the discharge pipe is acceptable.",
        words_failed="The material of the discharge pipe is not acceptable, or not shown to stand "
        "the discharge: use metal, or a pipe whose maker states that it stands it.",
    ),
    Finding(
        "vertical-leg-long-enough",
        "Straight leg below the tundish",
        quantity="/inputs/discharge_pipe/vertical_leg",
        sense="at-least",
        limit="discharge-vertical-leg-least",
        words_passed="{value} straight down below the tundish; {limit} is asked for.",
        words_failed="Only {value} straight down below the tundish; {limit} is asked for before "
        "the first bend, or water splashes back out of the tundish.",
    ),
    Finding(
        "fall-steep-enough",
        "Fall of the discharge pipe",
        quantity="/inputs/discharge_pipe/fall",
        sense="at-least",
        limit="discharge-fall-least",
        words_passed="Least fall {value} (height over length); {limit} is asked for.",
        words_failed="Least fall only {value} (height over length); {limit} is asked for.",
    ),
    Finding(
        "nothing-holds-water",
        "Standing water in the pipe",
        quantity="/inputs/discharge_pipe/holds_water",
        sense="is",
        limit=False,
        depends_on=_DRY,
        words_passed="No part rises, sags or dips.",
        words_failed="Water can stand in a part of the pipe: it shuts the way for the next "
        "discharge, or freezes. Relay it with a continuous fall.",
    ),
    Finding(
        "nothing-freezes",
        "Frost in the pipe",
        quantity="/inputs/discharge_pipe/can_freeze",
        sense="is",
        limit=False,
        depends_on=_DRY,
        words_passed="No part can freeze.",
        words_failed="A part can freeze: drips of a weeping valve build up ice until the pipe is "
        "shut. Re-route it.",
    ),
    Finding(
        "common-pipe-large-enough",
        "Size of the common pipe of several stores",
        quantity="/inputs/common_pipe_size",
        sense="at-least",
        limit="/outputs/common_pipe_size",
        depends_on=("discharge-pipe-common",),
        rests_on=("discharge-pipe-common", *_SIZES),
        words_passed="The common pipe is {value}; {limit} is the least.",
        words_failed="The common pipe is {value}; {limit} is the least, one size above the largest "
        "pipe led into it.",
    ),
)

_TUNDISH_FINDINGS = (
    Finding(
        "tundish-near-valve",
        "Distance from relief valve to tundish",
        quantity="/inputs/tundish/distance",
        sense="at-most",
        limit="discharge-tundish-distance-most",
        words_passed="{value} of pipe between valve and tundish; {limit} at most.",
        words_failed="{value} of pipe between valve and tundish; {limit} at most. Move the tundish, "
        "never the valve.",
    ),
    Finding(
        "tundish-vertical",
        "How the tundish stands",
        quantity="/inputs/tundish/vertical",
        sense="is",
        limit=True,
        depends_on=_TUNDISH,
        words_passed="The tundish stands vertical.",
        words_failed="The tundish is not vertical: water misses it.",
    ),
    Finding(
        "tundish-in-same-space",
        "Place of the tundish",
        quantity="/inputs/tundish/same_space",
        sense="is",
        limit=True,
        depends_on=_TUNDISH,
        words_passed="The tundish is in the same space as the store.",
        words_failed="The tundish is not in the same space as the store.",
    ),
    Finding(
        "tundish-visible",
        "Sight of a discharge at the tundish",
        quantity="/inputs/tundish/visible",
        sense="is",
        limit=True,
        depends_on=_TUNDISH,
        words_passed="A discharge is seen at the tundish.",
        words_failed="A discharge is not seen at the tundish: it can go on unnoticed.",
    ),
    Finding(
        "tundish-away-from-electrics",
        "Electrical parts near the tundish",
        quantity="/inputs/tundish/away_from_electrics",
        sense="is",
        limit=True,
        depends_on=("discharge-tundish-electrics",),
        words_passed="What spills from the tundish meets no electrical part.",
        words_failed="Water that spills from the tundish can run onto electrical parts.",
    ),
    Finding(
        "discharge-noticed",
        "Who notices a discharge",
        quantity="/outputs/discharge_noticed",
        sense="is",
        limit=True,
        failed="advisory",
        depends_on=("discharge-noticed-by",),
        rests_on=(),
        words_passed="The people there will notice a discharge.",
        words_failed="People there may not notice a discharge: consider a device that warns of it.",
    ),
    Finding(
        "pipe-carries-rated-heat",
        "Water of the rated heat against what runs off",
        quantity="/outputs/relief_flow",
        sense="at-most",
        limit="/outputs/capacity",
        rests_on=(*_RUN, "cold-water-temperature", "relief-valve-temperature-most"),
        failed="advisory",
        words_passed="{value} of water carries the valve's rated heat away; the tundish runs over "
        "at {limit}. A check beside the table, never instead of it: steam is not reckoned, and a "
        "wide-open valve passes more.",
        words_failed="{value} of water carries the valve's rated heat away, and the tundish runs "
        "over at {limit}: give the pipe more height, fewer bends or a size more than the table "
        "asks for.",
        source=GRAVITY_RUN,
    ),
    Finding(
        "pipe-carries-open-valve",
        "Water of the wide-open valve against what runs off",
        quantity="/inputs/relief_valve/open_flow",
        sense="at-most",
        limit="/outputs/capacity",
        rests_on=(*_RUN, "relief-valve-temperature-most"),
        failed="advisory",
        words_passed="The wide-open valve passes {value}; the tundish runs over at {limit}.",
        words_failed="The wide-open valve passes {value}, and the tundish runs over at {limit}: "
        "scalding water may spill beside the store. Give the pipe more height or a size more.",
        source=GRAVITY_RUN,
    ),
)

_ENDING = (
    Finding(
        "ending-recognised",
        "Kind of ending",
        quantity="/outputs/ending_recognised",
        sense="is",
        limit=True,
        depends_on=("discharge-endings",),
        rests_on=("discharge-endings",),
        words_passed="The guidance names such an ending as acceptable.",
        words_failed="The guidance does not name such an ending: lead the water to a gully, low "
        "level, a metal hopper or a roof that stands it, or have it accepted by building control.",
    ),
    Finding(
        "ends-below-grating",
        "End of the pipe against the grating",
        quantity="/inputs/ending/below_grating",
        sense="is",
        limit=True,
        applies_when="/inputs/ending/kind == gully",
        depends_on=_END,
        words_passed="The end is below the grating and above the water seal.",
        words_failed="The end is not below the grating and above the water seal: scalding water "
        "splashes out.",
    ),
    Finding(
        "low-level-height",
        "Height of a low-level ending",
        quantity="/inputs/ending/height",
        sense="at-most",
        limit="discharge-low-level-height-most",
        applies_when="/inputs/ending/kind == low-level",
        words_passed="The end is {value} above the surface; {limit} at most.",
        words_failed="The end is {value} above the surface; {limit} at most.",
    ),
    Finding(
        "discharge-meets-nobody",
        "People near the discharge",
        quantity="/outputs/ending_keeps_off",
        sense="is",
        limit=True,
        rests_on=(),
        failed="dangerous",
        depends_on=_END,
        words_passed="The discharge meets nobody.",
        words_failed="Water near boiling can meet people: near the ground fit a cage that keeps "
        "them off and leaves the end in sight, or end the pipe elsewhere.",
    ),
    Finding(
        "hopper-of-metal",
        "Material of hopper and downpipe",
        quantity="/inputs/ending/metal",
        sense="is",
        limit=True,
        applies_when="/inputs/ending/kind == hopper",
        depends_on=_END,
        words_passed="Hopper and downpipe are of metal.",
        words_failed="Hopper or downpipe is not of metal and will not stand the discharge.",
    ),
    Finding(
        "hopper-end-visible",
        "Sight of the end above the hopper",
        quantity="/inputs/ending/end_visible",
        sense="is",
        limit=True,
        applies_when="/inputs/ending/kind == hopper",
        depends_on=_END,
        words_passed="The end of the pipe is clearly seen.",
        words_failed="The end of the pipe is not clearly seen.",
    ),
    Finding(
        "roof-stands-heat",
        "Roof covering against the heat",
        quantity="/inputs/ending/heat_proof",
        sense="is",
        limit=True,
        applies_when="/inputs/ending/kind == roof",
        depends_on=_END,
        words_passed="The roof covering stands the discharge.",
        words_failed="The roof covering does not stand water near boiling, as felt and asphalt do "
        "not.",
    ),
    Finding(
        "roof-away-from-plastic-gutter",
        "Distance to a plastic gutter",
        quantity="/inputs/ending/gutter_distance",
        sense="at-least",
        limit="discharge-gutter-distance-least",
        applies_when="/inputs/ending/plastic_gutter",
        words_passed="{value} to the plastic gutter; {limit} at least.",
        words_failed="{value} to the plastic gutter that collects the water; {limit} at least.",
    ),
    Finding(
        "stack-stands-heat",
        "Soil stack against the heat",
        quantity="/outputs/stack_stands_heat",
        sense="is",
        limit=True,
        rests_on=(),
        depends_on=_STACK,
        words_passed="The soil stack may take the discharge.",
        words_failed="The soil stack is not shown to stand the discharge, or is of PVC-U and not "
        "fully ventilated.",
    ),
    Finding(
        "pvc-stack-small-store",
        "Content of the store against a stack of PVC-U",
        quantity="/inputs/store_volume",
        sense="at-most",
        limit="discharge-pvc-stack-volume-most",
        applies_when="/inputs/ending/stack_material == pvc-u",
        words_passed="The store holds {value}; a stack of PVC-U may take about {limit}.",
        words_failed="The store holds {value}; a stack of PVC-U may take no more than about "
        "{limit}.",
    ),
    Finding(
        "stack-seal-mechanical",
        "Seal at the soil stack",
        quantity="/inputs/ending/mechanical_seal",
        sense="is",
        limit=True,
        applies_when="/inputs/ending/kind == soil-stack",
        depends_on=_STACK,
        words_passed="A mechanical seal keeps smells back.",
        words_failed="No mechanical seal: a trap dries out or holds water, and foul air comes up "
        "the tundish.",
    ),
    Finding(
        "stack-branch-separate",
        "Branch to the soil stack",
        quantity="/inputs/ending/separate_branch",
        sense="is",
        limit=True,
        applies_when="/inputs/ending/kind == soil-stack",
        depends_on=("discharge-stack-branch",),
        words_passed="The branch carries relief water only.",
        words_failed="Sanitary appliances share the branch: scalding water can come up in them.",
    ),
)

_STORE = (
    Finding(
        "relief-valve-rating",
        "Rating of the relief valve",
        quantity="/inputs/relief_valve/rating",
        sense="at-least",
        limit="/outputs/rating_needed",
        failed="dangerous",
        depends_on=("relief-valve-rating-ratio-least",),
        rests_on=("relief-valve-rating-ratio-least",),
        words_passed="The relief valve is rated at {value}; the sources together give {limit}.",
        words_failed="The relief valve is rated at {value}, less than the {limit} that the sources "
        "together can give: with the controls failed the store would boil. " + _HEAT_OFF,
    ),
    Finding(
        "relief-opens-in-time",
        "Opening temperature of the relief valve",
        quantity="/inputs/relief_valve/temperature",
        sense="at-most",
        limit="relief-valve-temperature-most",
        failed="dangerous",
        words_passed="The relief valve opens at {value}; {limit} at most.",
        words_failed="The relief valve opens only at {value}; {limit} at most. " + _HEAT_OFF,
    ),
    Finding(
        "cut-out-fitted",
        "Cut-out of each source of heat",
        quantity="/outputs/sources/*/cut_out_fitted",
        sense="is",
        limit=True,
        failed="dangerous",
        depends_on=("unvented-cut-out-each",),
        rests_on=("unvented-cut-out-each",),
        words_passed="{item} has its own energy cut-out.",
        words_failed="{item} has no energy cut-out of its own: one safeguard of two is missing. "
        + _HEAT_OFF,
    ),
    Finding(
        "cut-out-temperature",
        "Setting of the cut-outs",
        quantity="/inputs/heat_sources/*/cut_out_temperature",
        sense="at-most",
        limit="unvented-cut-out-temperature-most",
        failed="dangerous",
        words_passed="The cut-out of {item} trips at {value}; {limit} at most.",
        words_failed="The cut-out of {item} trips only at {value}; {limit} at most. " + _HEAT_OFF,
    ),
    Finding(
        "thermostat-below-cut-out",
        "Thermostat against the cut-out",
        quantity="/inputs/thermostat_temperature",
        sense="at-most",
        limit="hot-water-cut-out-temperature-least",
        failed="dangerous",
        words_passed="The thermostat is set to {value}; cut-outs may trip from {limit}.",
        words_failed="The thermostat is set to {value}; a cut-out, which may trip from {limit}, "
        "would be the working control. Turn the thermostat down.",
    ),
    Finding(
        "cut-out-above-thermostat",
        "Order of thermostat and cut-out",
        quantity="/outputs/sources/*/above_thermostat",
        sense="is",
        limit=True,
        failed="dangerous",
        depends_on=("unvented-cut-out-each",),
        rests_on=("unvented-cut-out-each",),
        words_passed="The cut-out of {item} trips above the thermostat's setting.",
        words_failed="The cut-out of {item} trips no higher than the thermostat is set: the "
        "safeguard would be the working control, and be wedged or reset until it fails. Set them "
        "apart. " + _HEAT_OFF,
    ),
    Finding(
        "cut-out-before-relief",
        "Order of cut-out and relief valve",
        quantity="/outputs/sources/*/below_relief",
        sense="is",
        limit=True,
        failed="dangerous",
        depends_on=("unvented-cut-out-each",),
        rests_on=("unvented-cut-out-each", "relief-valve-temperature-most"),
        words_passed="The cut-out of {item} trips before the relief valve opens.",
        words_failed="The cut-out of {item} trips no sooner than the relief valve opens: scalding "
        "water would run before the heat is stopped. Have the controls set in their order.",
    ),
    Finding(
        "all-stated",
        "What was given to be judged",
        quantity="/outputs/stated/*/given",
        sense="is",
        limit=True,
        failed="advisory",
        rests_on=(),
        words_passed="{item}: given, and judged.",
        words_failed="{item}: not given, and so not judged. A store is not signed off without it.",
        source=GRAVITY_RUN,
    ),
    Finding(
        "work-notifiable",
        "Notice of the work",
        quantity="/outputs/notifiable",
        sense="is",
        limit=False,
        failed="advisory",
        depends_on=("unvented-notified-volume-least",),
        rests_on=("unvented-notified-volume-least",),
        words_passed="A store this small: the work is not notified, and must be as safe.",
        words_failed="The work is notified before it starts, or done by a registered competent "
        "person who certifies it.",
    ),
    Finding(
        "store-within-guidance",
        "Content of the store against the guidance for packaged systems",
        quantity="/inputs/store_volume",
        sense="at-most",
        limit="unvented-guidance-volume-most",
        words_passed="The store holds {value}; the guidance is for up to {limit}.",
        words_failed="The store holds {value}; the guidance is for up to {limit}. Its safety is "
        "designed individually by a qualified engineer.",
    ),
    Finding(
        "heat-within-guidance",
        "Heat input against the guidance for packaged systems",
        quantity="/outputs/total_heat_input",
        sense="at-most",
        limit="unvented-guidance-heat-most",
        rests_on=(),
        words_passed="The sources together give {value}; the guidance is for up to {limit}.",
        words_failed="The sources together give {value}; the guidance is for up to {limit}. Its "
        "safety is designed individually by a qualified engineer.",
    ),
)

CALCULATION = Calculation(
    id="safety-discharge-pipe",
    version="1.0",
    title="Discharge pipe of an unvented hot water store",
    summary="Sizes before and after the tundish by the regulation's table, the way and the end of "
    "the pipe, the relief valve against all the heat, and a check that the water runs off.",
    family="unvented-hot-water",
    questions=(
        "Where does relief water go?",
        "What size is the discharge pipe, and would a size less do?",
        "Is the safety chain of the unvented store complete?",
        "Who must be told, and who may do the work?",
    ),
    inputs=DischargePipeInputs,
    outputs=DischargePipeOutputs,
    kernel=kernel,
    needs=(
        Need("discharge-pipe-sizes", "table", "Sizes by the outlet of the valve"),
        Need("discharge-pipe-common", "table", "Pipe that several stores share"),
        Need("discharge-pipe-materials", "table", "Materials"),
        Need("discharge-endings", "table", "Endings"),
        Need("water-tubes", "table", "Bores of copper tubes"),
        Need("relief-valve-rating-ratio-least", "number", "Valve's rating over the heat input"),
        Need("unvented-notified-volume-least", "volume", "Content from which work is notified"),
    ),
    findings=(*_PIPE, *_TUNDISH_FINDINGS, *_ENDING, *_STORE),
    cautions=("discharge-who-may-work", "discharge-relief-untouched", "discharge-scalding"),
    refusals=(
        Refused(
            "run-beyond-table",
            "Even {size}, the largest of the table, is too small: the run counts as {equivalent} "
            "in it, and {allowed} is the most",
            "Shorten the run, take out bends, or move the store or the ending. Else have the pipe "
            "designed by a competent person: the table is never extended.",
        ),
        Refused(
            "bend-missing",
            "The pipe leaves the vertical, so it has at least one bend",
            "Count every bend from the tundish to the end; none only where the whole run is "
            "vertical.",
        ),
        Refused(
            "solid-fuel-cut-out",
            "A cut-out cannot stop solid fuel",
            "Say that it has none: only its heat leak or quench protects the store.",
        ),
        Refused(
            "pipe-runs-upward",
            "Part of the pipe runs upward",
            "Lay it with a continuous fall from the tundish to the end: relief water never climbs.",
        ),
        Refused(
            "pipe-without-drop",
            "The end is no lower than the tundish",
            "Give the pipe a vertical leg and a fall.",
        ),
        Refused(
            "vertical-leg-beyond-run",
            "The vertical leg is longer than the whole run",
            "The run from the tundish to the end includes the vertical leg: check both.",
        ),
        Refused(
            "drop-beyond-run",
            "The height is more than the whole run",
            "Check the height and the run: a pipe is at least as long as it is high.",
        ),
        Refused(
            "drop-contradicts-fall",
            "The height is less than the vertical leg and the fall give: {least}",
            "Check the height, the vertical leg and the fall.",
        ),
        Refused(
            "plastic-bore-missing",
            "The bore of the plastic pipe is missing",
            "Give its bore: plastic of one nominal size is narrower than the copper of the table.",
        ),
        Refused(
            "ending-incomplete",
            "A detail of the ending is missing",
            "Give it: nothing about where scalding water ends is taken for granted.",
        ),
        Refused(
            "relief-into-pump",
            "Relief water is led into a pump",
            "Lead it by gravity to a safe place in sight: a pump may stand still when the valve "
            "opens, and passes a fraction of the water.",
        ),
        Refused(
            "solid-fuel-uncontrolled",
            "Solid fuel heats an unvented store, and its heat cannot be shut off",
            "Do not light it. Use a vented store, or have a heat leak or quench designed that "
            "needs no electricity.",
        ),
    ),
    monotonic=(
        Monotonic("/discharge_pipe/length", "/equivalent_length", "increasing"),
        Monotonic("/discharge_pipe/length", "/d2_size", "increasing"),
        Monotonic("/heat_sources/0/power", "/rating_needed", "increasing"),
        Monotonic("/relief_valve/rating", "/relief_flow", "increasing"),
        Monotonic("/relief_valve/rating", "/capacity_margin", "decreasing"),
        Monotonic("/cold_temperature", "/relief_flow", "increasing"),
    ),
    charts=(
        BarChart(
            "sizes",
            "Equivalent length by size",
            items="/outputs/candidates",
            label="name",
            bars=(("run", "run"), ("bends", "bends")),
        ),
        LineChart(
            "head",
            "Head that the pipe asks for",
            series=(Series("pipe", "/outputs/curve/flow", "/outputs/curve/head"),),
            levels=(Level("available", "/outputs/head_available"),),
        ),
    ),
    sources=(DARCY_WEISBACH,),
    example={
        "store_volume": {"value": 210, "unit": "l"},
        "heat_sources": [
            {
                "name": "coil",
                "kind": "coil",
                "power": {"value": 20, "unit": "kW"},
                "cut_out": True,
                "cut_out_temperature": {"value": 85, "unit": "degC"},
            },
            {
                "name": "immersion heater",
                "kind": "immersion-heater",
                "power": {"value": 3, "unit": "kW"},
                "cut_out": True,
                "cut_out_temperature": {"value": 85, "unit": "degC"},
            },
        ],
        "thermostat_temperature": {"value": 60, "unit": "degC"},
        "relief_valve": {"outlet": "G1/2", "rating": {"value": 25, "unit": "kW"}},
        "relief_pipe": {"material": "copper", "size": {"value": 15, "unit": "mm"}},
        "tundish": {
            "distance": {"value": 400, "unit": "mm"},
            "vertical": True,
            "same_space": True,
            "visible": True,
            "away_from_electrics": True,
        },
        "discharge_pipe": {
            "length": {"value": 7, "unit": "m"},
            "bends": 4,
            "vertical_leg": {"value": 300, "unit": "mm"},
            "fall": 0.01,
            "material": "copper",
            "size": {"value": 28, "unit": "mm"},
            "holds_water": False,
            "can_freeze": False,
        },
        "ending": {"kind": "gully", "below_grating": True},
    },
)
