"""What is asked and what is answered about a test of tightness."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Column, Flag, Item, Quantity, Rows
from tundish_plugins.gas.installation.contract import (
    InstallationInputs,
    InstallationOutputs,
    PipeOutputs,
)


def _reading(symbol: str, text: str) -> Quantity:
    return Quantity("pressure_gauge", symbol, "mbar", low=0, high=100, help=text)


def _duration(symbol: str, text: str) -> Quantity:
    return Quantity("time", symbol, "min", low=0, high=30, help=text)


class LetBy(Item):
    """Readings of the let-by test: a valve that passes gas lets the pressure rise."""

    start_pressure: Annotated[float, _reading("p_1", "Reading at the start of the let-by test.")]
    end_pressure: Annotated[float, _reading("p_2", "Reading at its end.")]
    duration: Annotated[float, _duration("t", "Time between the two readings.")]


class Retest(Item):
    """Readings of the test repeated on the pipework alone, every appliance isolated."""

    start_pressure: Annotated[float, _reading("p_1", "Reading at the start.")]
    end_pressure: Annotated[float, _reading("p_2", "Reading at the end.")]
    duration: Annotated[float, _duration("t", "Time between the two readings.")]


class Readings(Item):
    """What was done and read."""

    gauge: Annotated[
        Literal["water", "electronic"],
        Choice(help="Gauge: water, or electronic, on which any change of a digit is a movement."),
    ]
    smell_of_gas: Annotated[bool, Flag(help="Gas is smelt anywhere on the premises.")]
    let_by: LetBy | None = None
    stabilisation: Annotated[
        float, _duration("t_s", "Time given for the temperature to settle before the test.")
    ]
    start_pressure: Annotated[float, _reading("p_1", "Reading at the start of the test.")]
    end_pressure: Annotated[float, _reading("p_2", "Reading at its end.")]
    duration: Annotated[float, _duration("t", "Time between the two readings.")]
    low_supply: Annotated[
        bool,
        Flag(help="The supply cannot give the usual test pressure.", default=False),
    ]
    pipework_retest: Retest | None = None


class TightnessInputs(InstallationInputs):
    """An installation, what is tested of it, and the readings."""

    tested: Annotated[
        Literal["with-appliances", "appliance-not-isolated", "pipework-only", "new-pipework"],
        Choice(
            help="What is under test: an existing installation with its appliances connected, one "
            "with an appliance that cannot be isolated, existing pipework alone, or new pipework."
        ),
    ]
    readings: Readings | None = None
    gas_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ",
            "degC",
            low=-20,
            high=50,
            default=15,
            help="Temperature of the gas in the pipes.",
        ),
    ]
    atmospheric_pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p_atm",
            "mbar",
            low=700,
            high=1080,
            default=1013.25,
            help="Pressure of the air.",
        ),
    ]


_DROP = "pressure_difference"


class Bands(Item):
    """Permitted drop against the volume of the installation."""

    volume: Annotated[list[float], Column("volume", "V", "l", help="Volume of an installation.")]
    drop: Annotated[list[float], Column(_DROP, "Δp_lim", "mbar", help="Drop allowed to it.")]


class TightnessOutputs(InstallationOutputs):
    """What the installation may lose, and what it lost."""

    pipes: Annotated[list[PipeOutputs], Rows(help="Each pipe.")]
    installation_volume: (
        Annotated[
            float,
            Quantity("volume", "V", "l", help="Volume of the whole installation, if it is known."),
        ]
        | None
    ) = None
    volume_known: Annotated[
        bool, Flag(help="The volume, and the size of each pipe, are known as far as it matters.")
    ]
    none_allowed: Annotated[bool, Flag(help="The gauge may not move at all.")]
    permitted_drop: (
        Annotated[float, Quantity(_DROP, "Δp_lim", "mbar", help="Greatest drop allowed.")] | None
    ) = None
    band_up_to: (
        Annotated[
            float,
            Quantity("volume", "V_b", "l", help="Volume up to which that drop is allowed."),
        ]
        | None
    ) = None
    bands: Bands | None = None
    permitted_leak: (
        Annotated[
            float,
            Quantity("volume_flow", "V_lim", "l/h", help="Leak that the permitted drop implies."),
        ]
        | None
    ) = None
    pressure_per_kelvin: Annotated[
        float,
        Quantity(
            "pressure_per_temperature",
            "β",
            "mbar/K",
            help="Change of the reading for each kelvin that the gas warms or cools.",
        ),
    ]
    readings_given: Annotated[bool, Flag(help="Readings were given.")]
    drop: Annotated[float, Quantity(_DROP, "Δp", "mbar", help="Drop that was read.")] | None = None
    moved: Annotated[bool, Flag(help="The reading fell at all.")] | None = None
    movement: Annotated[bool, Flag(help="The gauge moved perceptibly.")] | None = None
    stillness_judged: (
        Annotated[bool, Flag(help="None is allowed, and the reading fell.")] | None
    ) = None
    full_pressure: Annotated[bool, Flag(help="The usual test pressure was reached.")] | None = None
    leak: (
        Annotated[
            float, Quantity("volume_flow", "V_l", "l/h", help="Leak that the drop read implies.")
        ]
        | None
    ) = None
    cooling: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "ΔT",
                "K",
                help="Cooling of the gas that alone would give the drop read.",
            ),
        ]
        | None
    ) = None
    let_by_recorded: Annotated[bool, Flag(help="A let-by test was done.")] | None = None
    let_by_rise: (
        Annotated[float, Quantity(_DROP, "Δp_r", "mbar", help="Rise in the let-by test.")] | None
    ) = None
    lets_by: Annotated[bool, Flag(help="The valve lets gas by.")] | None = None
    let_by_fell: Annotated[bool, Flag(help="The reading fell in the let-by test.")] | None = None
    retest_needed: (
        Annotated[bool, Flag(help="The pipework alone must be tested after this movement.")] | None
    ) = None
    retest_recorded: Annotated[bool, Flag(help="It was tested.")] | None = None
    retest_drop: (
        Annotated[float, Quantity(_DROP, "Δp_2", "mbar", help="Drop of the pipework alone.")] | None
    ) = None
    retest_moved: Annotated[bool, Flag(help="The reading fell at all.")] | None = None
    retest_movement: Annotated[bool, Flag(help="The gauge moved perceptibly.")] | None = None
