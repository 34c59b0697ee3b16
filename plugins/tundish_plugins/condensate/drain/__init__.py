"""A condensate drain by gravity: bore, fall, frost, seal and end."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    LineChart,
    Monotonic,
    Need,
    Refused,
    Series,
)
from tundish_plugins.condensate.drain.contract import DrainInputs, DrainOutputs
from tundish_plugins.condensate.drain.formulas import SEAL, UNIFORM_FLOW
from tundish_plugins.condensate.drain.kernel import kernel

_OUTSIDE = "/outputs/segments/*/counts_as_outside"
_SOAKAWAY = "/inputs/termination == soakaway"


def _soakaway(code: str, title: str, member: str, limit: str) -> Finding:
    return Finding(
        code,
        title,
        quantity=f"/inputs/soakaway/{member}",
        sense="at-least",
        limit=limit,
        applies_when=_SOAKAWAY,
        words_passed="{value}; at least {limit} is asked for.",
        words_failed="{value}; at least {limit} is asked for.",
    )


CALCULATION = Calculation(
    id="condensate-drain",
    version="1.0",
    title="A condensate drain by gravity",
    summary="Whether a condensate pipe drains and lasts: bore, fall, length outside, insulation, "
    "material, the trap's seal against the flue, and where the pipe may end.",
    family="condensate",
    questions=(
        "What size and fall does a condensate pipe need?",
        "May the condensate go to this gully, stack, waste pipe or soakaway?",
        "Does the trap hold against the flue?",
        "Will the condensate pipe freeze?",
    ),
    inputs=DrainInputs,
    outputs=DrainOutputs,
    kernel=kernel,
    needs=(
        Need("condensate-yield-net", "volume_per_energy", "Most condensate for net heat input"),
        Need("condensate-yield-gross", "volume_per_energy", "Most condensate for gross heat input"),
        Need("condensate-drain-materials", "table", "Materials of the pipe"),
        Need("condensate-terminations", "table", "Where the pipe may end"),
        Need("condensate-drain-outside-length-most", "length", "Longest pipe outside"),
        Need("condensate-stack-storeys-most", "number", "Storeys up to which a stack's rule holds"),
        Need("condensate-drain-angle-least", "angle", "Least slope as an angle"),
    ),
    findings=(
        Finding(
            "bore-inside",
            "Bore in the heated building",
            quantity="/inputs/segments/*/bore",
            sense="at-least",
            limit="condensate-drain-bore-inside-least",
            applies_when=f"not {_OUTSIDE}",
            words_passed="{item}: {value} bore; {limit} is asked for inside.",
            words_failed="{item}: {value} bore; {limit} is asked for inside, unless the boiler's "
            "maker says otherwise.",
        ),
        Finding(
            "bore-outside",
            "Bore outside or in an unheated space",
            quantity="/inputs/segments/*/bore",
            sense="at-least",
            limit="condensate-drain-bore-outside-least",
            applies_when=_OUTSIDE,
            words_passed="{item}: {value} bore; {limit} is asked for outside and in unheated "
            "spaces, from before the wall on.",
            words_failed="{item}: {value} bore; {limit} is asked for outside and in unheated "
            "spaces. Widen it before it goes through the wall; measure the bore, for a pipe sold "
            "as 32 mm may have less.",
        ),
        Finding(
            "bore-along-the-way",
            "Bore along the way",
            quantity="/outputs/segments/*/as_wide_as_before",
            sense="is",
            limit=True,
            depends_on=("condensate-drain-width",),
            rests_on=(),
            words_passed="{item}: no narrower than before.",
            words_failed="{item}: narrower than the stretch before it. A drain never narrows on "
            "its way.",
        ),
        Finding(
            "fall-against-angle",
            "Fall against the least angle",
            quantity="/outputs/segments/*/fall",
            sense="at-least",
            limit="/outputs/least_fall_by_angle",
            depends_on=("condensate-drain-angle-least",),
            rests_on=(),
            words_passed="{item}: falls {value}; the least angle is {limit}.",
            words_failed="{item}: falls {value}; the least angle is {limit}. Water stands in it, "
            "and freezes there.",
        ),
        Finding(
            "fall-against-gradient",
            "Fall against the least drop for each metre",
            quantity="/outputs/segments/*/fall",
            sense="at-least",
            limit="condensate-drain-fall-least",
            failed="advisory",
            rests_on=(),
            words_passed="{item}: falls {value}; {limit} is asked for. Some instructions print 50 "
            "or 52 mm/m: the maker's own prevail.",
            words_failed="{item}: falls {value}; {limit} is asked for, and some instructions print "
            "50 or 52 mm/m.",
        ),
        Finding(
            "capacity",
            "Flow that the stretch carries",
            quantity="/outputs/segments/*/capacity",
            sense="at-least",
            limit="/outputs/flow",
            rests_on=(),
            words_passed="{item}: carries {value}; {limit} comes at most.",
            words_failed="{item}: carries {value}; {limit} comes at most.",
            source=UNIFORM_FLOW,
        ),
        Finding(
            "insulation-outside",
            "Insulation outside or in an unheated space",
            quantity="/inputs/segments/*/insulated",
            sense="is",
            limit=True,
            applies_when=_OUTSIDE,
            depends_on=("condensate-drain-insulation",),
            words_passed="{item}: insulated.",
            words_failed="{item}: outside or in an unheated space, and not insulated with "
            "weatherproof material.",
        ),
        Finding(
            "material",
            "Material of the pipe",
            quantity="/outputs/segments/*/material_accepted",
            sense="is",
            limit=True,
            failed="advisory",
            depends_on=("condensate-drain-materials",),
            rests_on=(),
            words_passed="{item}: a plastic that instructions accept.",
            words_failed="{item}: withstands condensate by other countries' lists, but the "
            "instructions seen name PVC, ABS and PP: ask the boiler's maker.",
        ),
        Finding(
            "own-trap",
            "Trap of each appliance",
            quantity="/inputs/appliances/*/own_trap",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="{item}: has its own trap.",
            words_failed="{item}: has no trap of its own: flue gas, and with it carbon monoxide, "
            "goes through the pipe into the room or into the next appliance. It must not run until "
            "a registered gas engineer has fitted one and filled it.",
            source=SEAL,
        ),
        Finding(
            "seal-depth",
            "Depth of the seal",
            quantity="/inputs/appliances/*/seal_depth",
            sense="at-least",
            limit="/outputs/seal_least",
            depends_on=("condensate-terminations",),
            rests_on=(),
            words_passed="{item}: a seal of {value}; {limit} is asked for at this termination.",
            words_failed="{item}: a seal of {value}; {limit} is asked for at this termination.",
        ),
        Finding(
            "seal-against-flue",
            "Full seal against the flue's pressure",
            quantity="/inputs/appliances/*/flue_pressure",
            sense="at-most",
            limit="/outputs/appliances/*/seal_pressure",
            failed="dangerous",
            rests_on=(),
            words_passed="{item}: the flue presses with {value}, the full seal holds {limit}.",
            words_failed="{item}: the flue presses with {value}, the full seal holds only {limit}: "
            "flue gas blows through the trap into the room or the drain. It must not run until a "
            "registered gas engineer has fitted a trap that holds.",
            source=SEAL,
        ),
        Finding(
            "seal-left",
            "Seal left under the flue's pressure",
            quantity="/outputs/appliances/*/seal_left",
            sense="at-least",
            limit="trap-seal-kept-least",
            rests_on=(),
            words_passed="{item}: {value} of the seal is left; {limit} is asked for. Gusts in the "
            "stack and drying out come on top.",
            words_failed="{item}: {value} of the seal is left; {limit} is asked for. Take a deeper "
            "trap.",
        ),
        Finding(
            "flue-pressure-known",
            "Flue pressure at the trap",
            quantity="/outputs/appliances/*/flue_pressure_known",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="{item}: the flue's greatest pressure is given.",
            words_failed="{item}: the flue's greatest pressure is not given, so nothing shows that "
            "the seal holds: ask the maker.",
            source=SEAL,
        ),
        Finding(
            "trap-place",
            "Place of the traps",
            quantity="/outputs/trap_in_the_warm",
            sense="is",
            limit=True,
            depends_on=("condensate-trap-place",),
            rests_on=(),
            words_passed="The traps stand in a heated room.",
            words_failed="The traps stand where they can freeze: put them in a heated room.",
        ),
        Finding(
            "termination",
            "Termination",
            quantity="/outputs/termination_accepted",
            sense="is",
            limit=True,
            failed="advisory",
            depends_on=("condensate-terminations",),
            rests_on=(),
            words_passed="Condensate may end here.",
            words_failed="Condensate may end here only with the consent of whoever is in charge of "
            "the sewer or the ground; keep it out of water that is collected for use.",
        ),
        Finding(
            "air-break-outside",
            "Air break before a rainwater pipe",
            quantity="/inputs/outside_air_break",
            sense="is",
            limit=True,
            applies_when="/inputs/termination == combined-rainwater-pipe",
            depends_on=("condensate-air-break-outside",),
            words_passed="An air break outside keeps rainwater out of the boiler.",
            words_failed="Without an air break outside, a rainwater pipe that runs full fills the "
            "boiler or the room.",
        ),
        Finding(
            "relief-joins",
            "Relief valve and the condensate drain",
            quantity="/inputs/relief_joins",
            sense="is",
            limit=False,
            failed="dangerous",
            depends_on=("condensate-relief-separate",),
            words_passed="No relief valve is named as led into this drain; keep it so.",
            words_failed="A relief valve is led into this drain: boiling water and steam soften "
            "the plastic and drive out the seal, and nobody sees the valve pass. A calculation "
            "does not make it acceptable: lead relief water by gravity, in metal, to a safe and "
            "visible place of its own.",
        ),
        Finding(
            "height-above-bend",
            "Connection above the foot of the stack",
            quantity="/inputs/height_above_bend",
            sense="at-least",
            limit="condensate-stack-height-least",
            applies_when="/outputs/joins_stack",
            words_passed="Joins the stack {value} above the bend at its foot; {limit} is asked for.",
            words_failed="Joins the stack {value} above the bend at its foot; {limit} is asked for: "
            "waste and foam press into the boiler.",
            capped_unless="/outputs/storeys_within_rule",
            words_capped="the height holds for stacks that serve few storeys, and nobody has said "
            "that this one does; higher stacks have requirements of their own.",
        ),
        Finding(
            "end-below-grating",
            "Open end below the grating",
            quantity="/inputs/below_grating",
            sense="at-least",
            limit="condensate-end-below-grating-least",
            applies_when="/inputs/termination == external-gully",
            words_passed="Ends {value} below the grating; {limit} is asked for, above the water.",
            words_failed="Ends {value} below the grating; {limit} is asked for, above the water: "
            "wind freezes an end that stands free.",
        ),
        _soakaway(
            "soakaway-tube",
            "Tube of the soakaway",
            "tube_diameter",
            "condensate-soakaway-tube-least",
        ),
        _soakaway(
            "soakaway-distance",
            "Soakaway and footings",
            "distance",
            "condensate-soakaway-distance-least",
        ),
        _soakaway(
            "soakaway-surround",
            "Limestone around the soakaway's tube",
            "surround",
            "condensate-soakaway-surround-least",
        ),
        _soakaway(
            "soakaway-depth",
            "Depth of the soakaway's limestone",
            "depth",
            "condensate-soakaway-depth-least",
        ),
        Finding(
            "soakaway-soil",
            "Ground of the soakaway",
            quantity="/outputs/soakaway/soil_known",
            sense="is",
            limit=True,
            failed="advisory",
            depends_on=("condensate-soakaway-depth-least",),
            rests_on=(),
            words_passed="The ground takes water.",
            words_failed="Nobody has said whether the ground takes water: dig and try first.",
        ),
    ),
    cautions=(
        "condensate-flue-gas",
        "condensate-seal-filled",
        "condensate-acid",
        "condensate-frost",
        "condensate-relief-separate",
    ),
    refusals=(
        Refused(
            "metal-drain",
            "Condensate eats {material}",
            "Use PVC, ABS or PP, as the installation instructions ask for.",
        ),
        Refused(
            "rising-section",
            "{stretch} rises by {rise}",
            "A gravity pipe never rises: lay it to fall all the way, or lift the condensate with a "
            "pump.",
        ),
        Refused(
            "drop-more-than-length",
            "A pipe cannot drop by more than its length",
            "Give length and drop of the same stretch, the length along the pipe.",
        ),
        Refused(
            "outside-run-too-long",
            "{length} of pipe is outside or in unheated spaces; {most} is the most",
            "Lead it to a drain inside, lift it there with a pump, or shorten the way outside.",
        ),
        Refused(
            "termination-not-allowed",
            "Condensate may not end in {termination}",
            "It is acid waste water: lead it to a foul drain, a combined sewer or a purpose-made "
            "soakaway.",
        ),
        Refused(
            "outside-stretch-missing",
            "An end in {termination} lies outside, but no stretch is outside",
            "Give the stretch from the wall on as one that is outside.",
        ),
        Refused(
            "seal-depth-missing",
            "The depth of the trap's seal is not known",
            "Measure it, or take it from the maker.",
        ),
        Refused(
            "height-above-bend-missing",
            "The height above the foot of the stack is not known",
            "Measure from the bend at the foot of the stack up to the connection.",
        ),
        Refused(
            "below-grating-missing",
            "How far the end lies below the grating is not known",
            "Measure it; an end above the grating is 0 mm below it.",
        ),
        Refused(
            "soakaway-missing",
            "Nothing is known of the soakaway",
            "Give its measures and the ground it is in.",
        ),
        Refused(
            "soakaway-in-clay",
            "Clay takes no water",
            "Lead the condensate to a drain, or lift it there with a pump.",
        ),
        Refused(
            "insulation-contradicts",
            "{stretch} is insulated, with an insulation of no thickness",
            "Measure the insulation, or leave its thickness out; a bare pipe is not insulated.",
        ),
        Refused(
            "outside-diameter-too-small",
            "The outside diameter is not larger than the bore",
            "Give both of the same pipe.",
        ),
    ),
    monotonic=(
        Monotonic("/segments/0/drop", "/segments/0/fall", "increasing"),
        Monotonic("/segments/0/drop", "/segments/0/capacity", "increasing"),
        Monotonic("/segments/0/bore", "/segments/0/capacity", "increasing"),
        Monotonic("/appliances/0/seal_depth", "/appliances/0/seal_left", "increasing"),
        Monotonic("/appliances/0/flue_pressure", "/appliances/0/seal_left", "decreasing"),
        Monotonic("/segments/1/insulation_thickness", "/segments/1/freezing_time", "increasing"),
    ),
    charts=(
        LineChart(
            "profile",
            "The pipe from the side",
            series=(Series("pipe", "/outputs/profile/distance", "/outputs/profile/height"),),
        ),
        BarChart(
            "frost",
            "Standing water in frost, to compare stretches",
            items="/outputs/segments",
            label="name",
            bars=(("cools to 0 °C", "cooling_time"), ("part of it freezes", "freezing_time")),
        ),
    ),
    sources=(SEAL, UNIFORM_FLOW),
    example={
        "appliances": [
            {
                "name": "boiler",
                "heat_input": {"value": 24, "unit": "kW", "basis": "net"},
                "own_trap": True,
                "seal_depth": {"value": 75, "unit": "mm"},
                "flue_pressure": {"value": 2, "unit": "mbar"},
            }
        ],
        "segments": [
            {
                "name": "in the kitchen",
                "place": "heated",
                "length": {"value": 2, "unit": "m"},
                "drop": {"value": 100, "unit": "mm"},
                "bore": {"value": 19, "unit": "mm"},
                "material": "pvc-u",
            },
            {
                "name": "outside",
                "place": "outside",
                "length": {"value": 1.5, "unit": "m"},
                "drop": {"value": 1200, "unit": "mm"},
                "bore": {"value": 30, "unit": "mm"},
                "material": "pvc-u",
                "insulated": True,
                "outside_diameter": {"value": 34, "unit": "mm"},
                "insulation_thickness": {"value": 19, "unit": "mm"},
            },
        ],
        "termination": "external-gully",
        "trap_place": "heated",
        "relief_joins": False,
        "below_grating": {"value": 30, "unit": "mm"},
        "frost": {"air_temperature": {"value": -5, "unit": "degC"}},
    },
)
