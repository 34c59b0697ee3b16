"""What is asked and what is answered about a purge to gas."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import Based, Flag, Number, Quantity, Rows
from tundish_plugins.gas.installation.contract import (
    InstallationInputs,
    InstallationOutputs,
    PipeOutputs,
)


class PurgeInputs(InstallationInputs):
    """An installation full of air that gas is to drive out, and how it is let out."""

    burnt: Annotated[
        bool,
        Flag(help="What comes out is burnt at a lit open burner as soon as it burns."),
    ]
    ventilated: Annotated[
        bool, Flag(help="The place where it comes out is well ventilated, windows and doors open.")
    ]
    ignition_excluded: Annotated[
        bool,
        Flag(
            help="No flame, switch, appliance or smoker near it, but the burner that burns the purge."
        ),
    ]
    flow: (
        Annotated[
            float,
            Quantity(
                "gas_flow_15",
                "Q",
                "m3/h",
                low=0.02,
                high=20,
                help="Flow at which it is purged, such as read at the meter.",
            ),
        ]
        | None
    ) = None
    burner: (
        Annotated[
            Based,
            Quantity(
                {"net": "heat_input_net", "gross": "heat_input_gross"},
                "Φ",
                "kW",
                low=0.2,
                high=70,
                help="Heat input of the burner through which it is purged, in place of the flow.",
            ),
        ]
        | None
    ) = None
    burner_open: (
        Annotated[
            bool,
            Flag(
                help="That burner burns in the open, as a hob's does: not in a boiler or any closed "
                "chamber, where air and gas would gather and explode."
            ),
        ]
        | None
    ) = None
    volume_passed: (
        Annotated[
            float,
            Quantity(
                "volume", "V_r", "l", low=0, high=5000, help="Volume that the meter has passed."
            ),
        ]
        | None
    ) = None
    room_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_room",
                "m3",
                low=0.05,
                high=5000,
                help="Volume of the room or cupboard where it comes out.",
            ),
        ]
        | None
    ) = None


class PurgedPipe(PipeOutputs):
    """What one pipe holds, and how fast it is purged."""

    velocity: (
        Annotated[
            float,
            Quantity(
                "velocity", "w", "m/s", help="Velocity in it when the whole flow goes through it."
            ),
        ]
        | None
    ) = None


class PurgeOutputs(InstallationOutputs):
    """What must pass, how long that takes, and how it may be let out."""

    pipes: Annotated[list[PurgedPipe], Rows(help="Each pipe.")]
    installation_volume: Annotated[
        float, Quantity("volume", "V", "l", help="Volume of the whole installation.")
    ]
    purge_volume: Annotated[
        float, Quantity("volume", "V_pur", "l", help="Volume that must pass at least.")
    ]
    unburnt_limit: Annotated[
        float,
        Quantity("volume", "V_lim", "l", help="Greatest purge that may be let out unburnt."),
    ]
    must_be_burnt: Annotated[bool, Flag(help="The purge is larger: it must be burnt.")]
    flow: (
        Annotated[
            float,
            Quantity(
                "gas_flow_15",
                "Q",
                "m3/h",
                help="Flow it is reckoned with; through a burner that of air or gas, the slower.",
            ),
        ]
        | None
    ) = None
    purge_time: (
        Annotated[float, Quantity("time", "t", "min", help="Time in which it passes.")] | None
    ) = None
    volume_recorded: Annotated[bool, Flag(help="The volume that passed was read.")]
    flammable_from: Annotated[
        float,
        Quantity(
            "volume_fraction", "LFL", "%", help="Share of gas in air from which the mixture burns."
        ),
    ]
    room_known: Annotated[bool, Flag(help="The room where it comes out unburnt was given.")]
    burner_known_open: Annotated[
        bool, Flag(help="No burner was given, or it was said to burn in the open.")
    ]
    share_of_flammable: (
        Annotated[
            float,
            Number("k", help="Share of gas in the room over that from which the mixture burns."),
        ]
        | None
    ) = None
    room_share: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "x",
                "%",
                help="Share of gas in the room if the whole purge were gas, let out unburnt and mixed "
                "evenly.",
            ),
        ]
        | None
    ) = None
