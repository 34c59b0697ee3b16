"""What reading an installation needs, and why one is not taken."""

from __future__ import annotations

from typing import Final

from tundish.calculation import Need, Refused

INSTALLATION_NEEDS: Final = (
    Need("gas-meter-volumes", "table", "Volume and capacity of meters"),
    Need("gas-pipe-volumes", "table", "Volume of a metre of pipe"),
    Need("gas-tubes", "table", "Tubes by their wall"),
    Need("gas-tubes-further", "table", "Tubes of other materials", optional=True),
    Need("gas-fittings-volume-share", "number", "Allowance for fittings"),
    Need("gas-flow-most", "gas_flow_15", "Greatest capacity of the meter"),
    Need("gas-small-pipe-most", "length", "Greatest size of pipe"),
    Need("gas-small-volume-most", "volume", "Greatest volume"),
)
_LARGE: Final = (
    "This procedure does not hold for it. The procedure for larger installations does, and a person "
    "qualified for it."
)
INSTALLATION_REFUSALS: Final = (
    Refused(
        "edition-not-on-file",
        "There is no such edition; on file: {accepted}",
        "Name an edition that is on file, or leave edition out.",
    ),
    Refused(
        "edition-not-in-force",
        "That edition is not in force on {date}",
        "Leave edition out. For an old record, give the date on which the work was done.",
    ),
    Refused(
        "gas-without-procedure",
        "For this gas ({gas}) the region has no figures that have been seen",
        "Work by the procedure itself; its limits for this gas are not on file, and those of another "
        "gas do not hold.",
    ),
    Refused(
        "meter-missing",
        "The meter is said to be another, but it is not described",
        "Give other_meter: its volume and its capacity.",
    ),
    Refused(
        "meter-given-twice",
        "The meter is given by name and by its own figures",
        "Give the name, or other with other_meter.",
    ),
    Refused("meter-too-large", "The meter passes {capacity}, above {most}", _LARGE),
    Refused("tube-missing", "The pipe has neither a tube nor a bore", "Give one of them."),
    Refused("tube-given-twice", "The pipe has both a tube and a bore", "Give one of them."),
    Refused("pipe-too-large", "The pipe is larger than {most}", _LARGE),
    Refused(
        "volume-given-twice",
        "The volume is given, and pipes are listed or some are untraced",
        "Give the whole volume, or what is known of the pipes.",
    ),
    Refused(
        "volume-below-meter",
        "The volume is less than the meter alone holds, {meter}",
        "Give the volume of the whole installation, meter included.",
    ),
    Refused("installation-too-large", "The installation holds {volume}, above {most}", _LARGE),
)
