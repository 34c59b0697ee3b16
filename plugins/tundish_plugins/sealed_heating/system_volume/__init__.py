"""Content of a heating system: by meter, by inventory, by rules of thumb."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Method,
    Monotonic,
    Need,
    Refused,
)
from tundish_plugins.sealed_heating.system_volume.contract import (
    SystemVolumeInputs,
    SystemVolumeOutputs,
)
from tundish_plugins.sealed_heating.system_volume.formulas import (
    BAND,
    GEOMETRY,
    METERING,
    PER_OUTPUT,
)
from tundish_plugins.sealed_heating.system_volume.kernel import kernel

CALCULATION = Calculation(
    id="system-volume",
    version="1.0",
    title="Content of a heating system",
    summary="Water in a heating system by a meter read at filling, by an inventory of pipes and "
    "parts, or by rules of thumb, each with how far it may be off, and whether they agree.",
    family="sealed-heating",
    questions=(
        "How many litres does the heating hold?",
        "How far off can a rule of thumb be?",
        "Which content should the vessel and the inhibitor be worked out for?",
    ),
    inputs=SystemVolumeInputs,
    outputs=SystemVolumeOutputs,
    kernel=kernel,
    methods=(
        Method(
            "surest",
            "Surest way there is",
            "The meter where it was read, otherwise the inventory, otherwise rules of thumb.",
            source=METERING,
        ),
        Method(
            "meter",
            "By meter",
            "Water that passed a meter during the fill, less what did not stay in the system.",
            source=METERING,
        ),
        Method(
            "inventory",
            "By inventory",
            "Pipes by bore and length, and parts by their makers' data.",
            source=GEOMETRY,
        ),
        Method(
            "estimate",
            "By rules of thumb",
            "The lowest and the highest of all published rules that apply: they differ by up to a "
            "factor of two.",
            source=PER_OUTPUT,
        ),
    ),
    needs=(
        Need("water-tubes", "table", "Tubes by name", optional=True),
        Need("system-volume-guide-rates", "table", "Guide volumes by output"),
        Need("system-volume-guide-parts", "table", "Guide volumes by piece"),
        Need("system-volume-per-output", "table", "Content for each kilowatt"),
        Need("system-volume-per-panel", "table", "Content for each panel"),
        Need("system-volume-rules-ratio", "number", "How far rules of thumb differ"),
    ),
    findings=(
        Finding(
            "content-known",
            "How the content is known",
            quantity="/outputs/rule_of_thumb",
            sense="is",
            limit=False,
            failed="advisory",
            words_passed="The content was measured or counted.",
            words_failed="The content rests on rules of thumb, which differ by up to a factor of "
            "two. Size a vessel for the highest, and read a meter at the next fill.",
            source=BAND,
        ),
        Finding(
            "inventory-complete",
            "What the inventory lists",
            quantity="/outputs/inventory_complete",
            sense="is",
            limit=True,
            words_passed="Pipes, a boiler and emitters are listed.",
            words_failed="Pipes, a boiler or emitters are not in the inventory, so the system holds "
            "more than it adds up to. Do not size a vessel by it.",
            source=GEOMETRY,
        ),
        Finding(
            "answers-agree",
            "Ways of knowing the content against each other",
            quantity="/outputs/answers_agree",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="There is a content that all of them allow.",
            words_failed="No content fits all of them. Look for a part that was forgotten, water "
            "that ran off, air left in the system, or the drinking water of a cylinder counted in.",
            source=BAND,
        ),
        Finding(
            "assumed-content-enough",
            "Content assumed for vessel or dose",
            quantity="/inputs/assumed_content",
            sense="at-least",
            limit="/outputs/high",
            capped_unless="not /outputs/rule_of_thumb",
            words_capped="the content rests on rules of thumb.",
            words_passed="{value} was assumed; the system holds {limit} at most.",
            words_failed="{value} was assumed; the system may hold {limit}. Work out vessel and dose "
            "anew for that.",
            source=BAND,
        ),
    ),
    cautions=("system-volume-counted", "sealed-make-safe"),
    refusals=(
        Refused(
            "content-basis-missing",
            "There is nothing to know the content by",
            "Give metered_volume; or pipes and parts; or heat_output with emitters, or panels.",
        ),
        Refused(
            "metering-missing",
            "No meter was read",
            "Give metered_volume, or choose another method.",
        ),
        Refused(
            "inventory-missing",
            "There is no inventory",
            "Give pipes and parts, or choose another method.",
        ),
        Refused(
            "estimate-missing",
            "There is nothing for a rule of thumb to go by",
            "Give heat_output with emitters, or panels; or choose another method.",
        ),
        Refused(
            "metered-nothing",
            "Of the water metered, nothing may have stayed in the system",
            "Check the readings: run_off and vessel_water are parts of metered_volume.",
        ),
        Refused(
            "tube-or-bore",
            "A pipe is known by its tube or by its bore",
            "Give one of the two.",
        ),
        Refused(
            "emitters-missing",
            "A content by output depends on the kind of emitters",
            "Give emitters too.",
        ),
    ),
    monotonic=(
        Monotonic("/metered_volume", "/content", "increasing"),
        Monotonic("/run_off", "/answers/0/content", "decreasing"),
        Monotonic("/pipes/0/length", "/high", "increasing"),
        Monotonic("/pipes/0/bore", "/high", "increasing"),
        Monotonic("/heat_output", "/high", "increasing"),
        Monotonic("/inventory_uncertainty", "/spread", "increasing"),
    ),
    charts=(
        BarChart(
            "inventory",
            "Where the water is",
            items="/outputs/lines",
            label="name",
            bars=(("content", "content"),),
        ),
        BarChart(
            "answers",
            "Content by each way",
            items="/outputs/answers",
            label="name",
            bars=(("lowest", "low"), ("up to the highest", "width")),
        ),
    ),
    example={
        "pipes": [
            {
                "name": "15 mm branches",
                "bore": {"value": 13.6, "unit": "mm"},
                "length": {"value": 40, "unit": "m"},
            },
            {
                "name": "22 mm mains",
                "bore": {"value": 20.2, "unit": "mm"},
                "length": {"value": 18, "unit": "m"},
            },
        ],
        "parts": [
            {
                "name": "radiators",
                "kind": "emitter",
                "content": {"value": 5.5, "unit": "l"},
                "count": 10,
            },
            {"name": "boiler", "kind": "boiler", "content": {"value": 3, "unit": "l"}},
            {"name": "cylinder coil", "kind": "coil", "content": {"value": 6, "unit": "l"}},
        ],
        "heat_output": {"value": 9, "unit": "kW"},
        "emitters": "steel-panels",
        "cylinder_coils": 1,
        "assumed_content": {"value": 90, "unit": "l"},
    },
)
