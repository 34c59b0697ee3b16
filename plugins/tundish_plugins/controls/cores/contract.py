"""What is asked and what is answered about the cores between places."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Count,
    Flag,
    Inputs,
    Item,
    Name,
    Number,
    Outputs,
    Quantity,
    Rows,
    Text,
)

LONG = 4000
_PLACE = Name(help="A place, such as kitchen or cupboard.")


class Cable(Item):
    """A cable that is there between two places."""

    name: Annotated[str, Name(help="Cable.")]
    start: Annotated[str, Name(help="The place at one end.")]
    end: Annotated[str, Name(help="The place at the other end.")]
    cores: Annotated[
        int,
        Count(
            "",
            low=0,
            high=30,
            help="All conductors, the earth core included; 0 for a way where none is laid yet.",
        ),
    ]
    earth_core: Annotated[
        bool, Flag(help="Whether one of them is a green-and-yellow or bare earth.")
    ]
    blue_core: Annotated[
        bool, Flag(help="Whether one of them has the colour of a neutral.", default=True)
    ]
    insulated_for: Annotated[
        Literal["mains", "extra-low-voltage"],
        Choice(help="The voltage its insulation is made for.", default="mains"),
    ]
    earth_core_used_as: Annotated[
        Literal["earth", "unused", "line", "switched-line", "neutral", "signal"],
        Choice(help="What its earth core is, or is to be, used as.", default="earth"),
    ]
    length: (
        Annotated[
            float,
            Quantity(
                "length", "L", "m", low=0.1, high=500, help="Length of the way that it takes."
            ),
        ]
        | None
    ) = None
    carries: Annotated[
        Literal["free", "mains", "extra-low-voltage", "both", "other"],
        Choice(
            help="What it must go on carrying: nothing (free), one voltage of these controls, both "
            "voltages, or something else, so that it is not to be had.",
            default="free",
        ),
    ]


class Net(Item):
    """One conductor of a scheme, wherever it goes."""

    name: Annotated[str, Name(help="What it carries, such as hot water on.")]
    role: Annotated[
        Literal["line", "neutral", "earth"],
        Choice(help="Of a mains conductor; a switched line is a line.", default="line"),
    ]
    band: Annotated[
        Literal["mains", "extra-low-voltage"], Choice(help="Its voltage.", default="mains")
    ]
    places: Annotated[
        list[Annotated[str, _PLACE]], Rows(low=2, high=12, help="The places it must reach.")
    ]


class Scheme(Item):
    """A control scheme, named by what its valves do."""

    name: Annotated[str, Name(help="What its valves do.")]
    nets: Annotated[list[Net], Rows(low=1, high=60, help="Its conductors.")]


class Standing(Item):
    """Where things stand, for the schemes that are on file."""

    programmer: Annotated[str, Name(help="Place of the programmer.")]
    wiring_centre: Annotated[
        str, Name(help="Place of the wiring centre, where the supply arrives.")
    ]
    boiler: Annotated[str, Name(help="Place of the boiler.")]
    store: Annotated[str, Name(help="Place of the store, its thermostat and cut-out.")]
    valves: Annotated[str, Name(help="Place of the motorised valves.")]
    room: Annotated[str, Name(help="Place of the room thermostat.")]


class CoresInputs(Inputs):
    """The cables that are there, and what is to be wired."""

    cables: Annotated[list[Cable], Rows(low=1, high=30, help="Cables between places.")]
    standing: Standing | None = None
    schemes: Annotated[
        list[Scheme], Rows(low=0, high=8, help="Schemes of your own, conductor by conductor.")
    ] = []
    chosen: (
        Annotated[str, Name(help="The scheme that is judged; the best fitting one if left out.")]
        | None
    ) = None
    unvented: Annotated[
        bool,
        Flag(
            help="Whether the store is unvented: a three-port scheme then needs a further closing "
            "valve.",
            default=False,
        ),
    ]


class CableResult(Item):
    """One cable."""

    name: Annotated[str, Name(help="Cable.")]
    way: Annotated[str, Text(help="From where to where.")]
    usable_cores: Annotated[int, Count("", help="Cores besides the earth core.")]
    used_for: Annotated[
        str, Text(help="mains, extra-low-voltage or nothing, in the scheme judged.")
    ]
    earth_core_safe: Annotated[
        bool | None, Flag(help="Whether its earth core is used for nothing but earth.")
    ]
    voltages_safe: Annotated[
        bool,
        Flag(help="Whether it carries one voltage only, or is insulated for mains throughout."),
    ]


class Leg(Item):
    """One way between two neighbouring places, in the scheme judged."""

    name: Annotated[str, Text(longest=200, help="From where to where.")]
    mains_nets: Annotated[str | None, Text(longest=LONG, help="Mains conductors that cross.")]
    mains_needed: Annotated[float | None, Number("n_m", help="Mains cores needed, with the earth.")]
    mains_there: Annotated[
        float | None, Number("n_m", help="Mains cores to be had, with the earth.")
    ]
    mains_spare: Annotated[float | None, Number("Δn_m", help="Mains cores left over.")]
    mains_cables: Annotated[str | None, Text(longest=LONG, help="Cables taken for mains.")]
    mains_in_one_cable: Annotated[
        bool | None, Flag(help="Whether one cable takes all mains cores.")
    ]
    earthed: Annotated[
        bool | None, Flag(help="Whether a connected earth core goes with the mains.")
    ]
    cores_to_mark: Annotated[
        int | None, Count("", help="Cores whose colour says another thing than what they carry.")
    ]
    colours_tell: Annotated[bool | None, Flag(help="Whether every core's colour says what it is.")]
    low_nets: Annotated[
        str | None, Text(longest=LONG, help="Extra-low voltage conductors that cross.")
    ]
    low_needed: Annotated[float | None, Number("n_e", help="Extra-low voltage cores needed.")]
    low_there: Annotated[float | None, Number("n_e", help="Extra-low voltage cores to be had.")]
    low_spare: Annotated[float | None, Number("Δn_e", help="Extra-low voltage cores left over.")]
    low_cables: Annotated[str | None, Text(longest=LONG, help="Cables taken for it.")]


class SchemeResult(Item):
    """One scheme against the cables."""

    name: Annotated[str, Name(help="What its valves do.")]
    fits: Annotated[bool, Flag(help="Whether the cores there are do for it.")]
    missing_cores: Annotated[float, Number("n", help="Cores that are missing, over all ways.")]
    tightest_way: Annotated[str | None, Text(longest=200, help="Where the fewest are left over.")]
    tightest_spare: Annotated[float | None, Number("Δn", help="How many are left over there.")]
    most_mains_cores: Annotated[
        float | None, Number("n", help="Most mains cores it needs on one way, with the earth.")
    ]
    would_fit_shared: Annotated[
        bool,
        Flag(
            help="Whether it would fit if extra-low voltage shared cables made for mains. Only where "
            "the makers of what is joined allow it."
        ),
    ]
    cable_to_lay: (
        Annotated[
            float,
            Quantity(
                "length",
                "L",
                "m",
                help="Length of the ways on which cores are missing, where every one is known.",
            ),
        ]
        | None
    )
    remark: Annotated[str | None, Text(longest=LONG, help="What to know about it.")]


class CoresOutputs(Outputs):
    """Which schemes fit, and the cores of each way."""

    some_fits: Annotated[bool, Flag(help="Whether any of the schemes fits.")]
    fitting: Annotated[str | None, Text(longest=LONG, help="Those that fit, the roomiest first.")]
    judged: Annotated[str, Name(help="The scheme that is judged, way by way.")]
    schemes: Annotated[list[SchemeResult], Rows(high=400, help="Each scheme.")]
    legs: Annotated[list[Leg], Rows(high=400, help="Each way, in the scheme judged.")]
    cables: Annotated[list[CableResult], Rows(high=400, help="Each cable.")]
