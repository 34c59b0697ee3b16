"""Purge of a small gas installation."""

from __future__ import annotations

from typing import Final

from tundish.calculation import BarChart, Calculation, Finding, Monotonic, Need, Refused
from tundish_plugins.gas.installation.formulas import VOLUME
from tundish_plugins.gas.installation.refusals import INSTALLATION_NEEDS, INSTALLATION_REFUSALS
from tundish_plugins.gas.purge.contract import PurgeInputs, PurgeOutputs
from tundish_plugins.gas.purge.formulas import PURGE
from tundish_plugins.gas.purge.kernel import kernel

_STOP: Final = (
    "Do not purge like this. If gas has come out already: turn it off at the meter, open doors and "
    "windows, touch no switch, light nothing, and ring the gas emergency number from outside where "
    "it does not clear."
)

CALCULATION = Calculation(
    id="gas-purge",
    version="1.0",
    title="Purge of a small gas installation",
    summary="Volume that must pass to drive the air out, how long that takes, whether it must be "
    "burnt, and how much gas the room would hold if it were not.",
    family="gas",
    questions=(
        "How much must pass to purge the pipes?",
        "Must the purge be burnt?",
        "How long does the purge take through the hob?",
    ),
    inputs=PurgeInputs,
    outputs=PurgeOutputs,
    kernel=kernel,
    needs=(
        *INSTALLATION_NEEDS,
        Need("gas-purge-procedure", "table", "Purge volume, and the most that may go unburnt"),
        Need("gas-named", "table", "Gases by name"),
        Need("gas-flammable-from-natural", "volume_fraction", "Lower flammable limit, natural gas"),
        Need(
            "gas-flammable-from-lpg",
            "volume_fraction",
            "Lower flammable limit, liquefied petroleum gas",
            optional=True,
        ),
    ),
    findings=(
        Finding(
            "unburnt-purge",
            "Purge let out unburnt",
            quantity="/outputs/purge_volume",
            sense="at-most",
            limit="/outputs/unburnt_limit",
            failed="dangerous",
            applies_when="not /inputs/burnt",
            words_passed="The purge is {value}; up to {limit} may be let out unburnt. Burn it all the "
            "same where an open burner is there.",
            words_failed="The purge is {value}; only {limit} may be let out unburnt. Burn it at a lit "
            "open burner. " + _STOP,
            source=VOLUME,
        ),
        Finding(
            "gas-in-room",
            "Gas in the room against what burns",
            quantity="/outputs/room_share",
            sense="at-most",
            limit="/outputs/flammable_from",
            passed="advisory",
            failed="dangerous",
            words_passed="Mixed evenly with the room the purge would be {value} of it; it burns from "
            "{limit}. Near the outlet it burns long before it is mixed, and it gathers under the "
            "ceiling.",
            words_failed="The purge could make {value} of the room gas; it burns from {limit}. "
            + _STOP,
            source=PURGE,
        ),
        Finding(
            "gas-in-room-margin",
            "Gas in the room against a share of what burns",
            quantity="/outputs/share_of_flammable",
            sense="at-most",
            limit="gas-share-of-flammable-most",
            passed="advisory",
            words_passed="Mixed evenly the purge would be {value} of the share that burns; {limit} "
            "leaves a margin for what is not mixed.",
            words_failed="Mixed evenly the purge would be {value} of the share that burns, more than "
            "{limit}: where it is not mixed it burns. " + _STOP,
            source=PURGE,
        ),
        Finding(
            "room-known",
            "Room where the purge comes out unburnt",
            quantity="/outputs/room_known",
            sense="is",
            limit=True,
            failed="advisory",
            applies_when="not /inputs/burnt",
            rests_on=(),
            words_passed="The volume of the room was given.",
            words_failed="The volume of the room was not given: how much gas it would hold is not "
            "judged. Give it.",
            source=PURGE,
        ),
        Finding(
            "burner-open",
            "Burner through which it is purged",
            quantity="/outputs/burner_known_open",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="Nothing is purged into a closed chamber.",
            words_failed="It is not said that the burner burns in the open. Never purge through a "
            "boiler or any other closed chamber.",
            source=VOLUME,
        ),
        Finding(
            "purge-ventilation",
            "Ventilation where the purge comes out",
            quantity="/inputs/ventilated",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="The place is ventilated.",
            words_failed="The place is not ventilated. " + _STOP,
            source=VOLUME,
        ),
        Finding(
            "purge-ignition",
            "Sources of ignition near the purge",
            quantity="/inputs/ignition_excluded",
            sense="is",
            limit=True,
            failed="dangerous",
            words_passed="Sources of ignition are kept away.",
            words_failed="Sources of ignition are near: what comes out is a mixture that burns. "
            + _STOP,
            source=VOLUME,
        ),
        Finding(
            "volume-recorded",
            "Reading of the volume passed",
            quantity="/outputs/volume_recorded",
            sense="is",
            limit=True,
            failed="advisory",
            words_passed="The volume that passed was read.",
            words_failed="No volume passed is given: whether the purge is complete is not shown.",
            rests_on=(),
            source=PURGE,
        ),
        Finding(
            "volume-passed",
            "Volume passed against the purge volume",
            quantity="/inputs/volume_passed",
            sense="at-least",
            limit="/outputs/purge_volume",
            words_passed="{value} has passed; {limit} are called for.",
            words_failed="Only {value} has passed; {limit} are called for. Air and gas are left in "
            "the pipes, a mixture that burns in them: go on, and put no appliance to use.",
            source=PURGE,
        ),
    ),
    cautions=("gas-smell", "gas-registered-person", "gas-purge-order", "gas-proving"),
    refusals=(
        *INSTALLATION_REFUSALS,
        Refused(
            "volume-unknown",
            "The volume of the installation is not known",
            "Trace the pipes, or give the volume: a purge that is too small leaves a mixture that "
            "burns.",
        ),
        Refused(
            "burner-closed",
            "The purge would go into a closed chamber",
            "Do not purge like this: air and gas gather there and explode. Purge at an open burner, "
            "such as a hob's.",
        ),
        Refused("flow-given-twice", "There is a flow and a burner", "Give one of them."),
    ),
    monotonic=(
        Monotonic("/pipes/0/length", "/purge_volume", "increasing"),
        Monotonic("/flow", "/purge_time", "decreasing"),
        Monotonic("/burner", "/purge_time", "decreasing"),
        Monotonic("/room_volume", "/room_share", "decreasing"),
    ),
    charts=(
        BarChart(
            "pipes",
            "Volume of each pipe",
            items="/outputs/pipes",
            label="name",
            bars=(("volume", "volume"),),
        ),
    ),
    example={
        "gas": "natural",
        "meter": "G4",
        "pipes": [
            {"name": "carcass", "tube": "copper-22", "length": {"value": 20, "unit": "m"}},
            {"name": "branches", "tube": "copper-15", "length": {"value": 10, "unit": "m"}},
        ],
        "burnt": True,
        "ventilated": True,
        "ignition_excluded": True,
        "burner": {"value": 3, "unit": "kW", "basis": "gross"},
        "burner_open": True,
    },
)
