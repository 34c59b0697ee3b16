"""How an installation is described: shared by the test of tightness and the purge."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Flag, Inputs, Item, Name, Outputs, Quantity, Rows, Text


class Meter(Item):
    """A meter that the region's table does not list."""

    volume: Annotated[
        float,
        Quantity(
            "volume", "V_m", "l", low=0.1, high=200, help="Volume of gas that the meter holds."
        ),
    ]
    capacity: Annotated[
        float,
        Quantity("gas_flow_15", "Q_m", "m3/h", low=1, high=200, help="Capacity on its badge."),
    ]


class Pipe(Item):
    """A length of one pipe."""

    name: Annotated[str, Name(help="Name of the pipe.")]
    tube: (
        Annotated[
            str,
            Text(
                longest=40,
                help="Tube by the region's table, such as copper-22, steel-20 or pe-25, or by its "
                "wall, such as copper-22x1.2.",
            ),
        ]
        | None
    ) = None
    bore: (
        Annotated[
            float,
            Quantity(
                "length",
                "d",
                "mm",
                low=4,
                high=200,
                help="Bore of a tube that no table lists.",
            ),
        ]
        | None
    ) = None
    length: Annotated[
        float, Quantity("length", "L", "m", low=0.05, high=500, help="Length as measured.")
    ]


class InstallationInputs(Inputs):
    """A meter and the pipes behind it."""

    gas: Annotated[Literal["natural", "lpg"], Choice(help="Family of the gas.")]
    edition: (
        Annotated[
            str,
            Text(
                longest=60,
                help="Edition of the procedure, where two are in force on the date. Left out: the "
                "newest in force.",
            ),
        ]
        | None
    ) = None
    meter: Annotated[
        str,
        Text(
            longest=20,
            help="Meter by the region's table, such as G4, U6 or E6; none for pipework without a "
            "meter; other with other_meter.",
        ),
    ]
    other_meter: Meter | None = None
    pipes: Annotated[list[Pipe], Rows(low=0, high=60, help="Pipes behind the meter.")] = []
    volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V",
                "l",
                low=0.1,
                high=1000,
                help="Volume of the whole installation, meter included, if it is known. Otherwise "
                "give the pipes.",
            ),
        ]
        | None
    ) = None
    untraced_pipework: Annotated[
        bool,
        Flag(
            help="Some pipework could not be traced: the volume counts as unknown.",
            default=False,
        ),
    ]


class PipeOutputs(Item):
    """What one pipe holds."""

    name: Annotated[str, Name(help="Name of the pipe.")]
    volume: Annotated[float, Quantity("volume", "V_p", "l", help="Volume of the pipe.")]


class InstallationOutputs(Outputs):
    """What the installation holds, and by which edition it is treated."""

    edition: Annotated[str, Text(help="Edition of the procedure.")]
    meter_volume: Annotated[float, Quantity("volume", "V_m", "l", help="Volume of the meter.")]
    fittings_volume: (
        Annotated[float, Quantity("volume", "V_f", "l", help="Allowance for fittings.")] | None
    ) = None
