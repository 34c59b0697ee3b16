"""What is asked and what is answered about the logic of a wiring."""

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

Band = Literal["mains", "extra-low-voltage"]

_START = Text(longest=64, help="Point at one end. Points of one name are one terminal.")
_END = Text(longest=64, help="Point at the other end.")
LONG = 20_000
"""Letters a column of an answer may have."""


class Named(Item):
    """Something with a name."""

    name: Annotated[str, Name(help="Its name.")]


class Ended(Named):
    """Something between two points."""

    start: Annotated[str, _START]
    end: Annotated[str, _END]


class Supply(Item):
    """A supply with its two poles."""

    name: Annotated[str, Name(help="Supply.")]
    live: Annotated[
        str, Text(longest=64, help="Point at which the live (or positive) pole arrives.")
    ]
    neutral: Annotated[
        str, Text(longest=64, help="Point at which the neutral (or return) pole arrives.")
    ]
    earth: Annotated[str, Text(longest=64, help="Point at which the earth arrives.")] | None = None
    band: Annotated[Band, Choice(help="mains, or extra-low voltage.", default="mains")]
    isolator: Annotated[str, Name(help="The switch or fused unit that isolates it.")]


class FreeInput(Named):
    """Something that may be so or not: a programmer's channel, a thermostat, a cut-out."""

    name: Annotated[str, Name(help="What it says when it is true, such as hot_water_on.")]


class Wire(Ended):
    """A conductor between two terminals."""

    name: Annotated[str, Name(help="Wire.")]


class Contact(Ended):
    """A contact of a switch, a thermostat, a relay, an end switch."""

    name: Annotated[str, Name(help="Contact.")]
    moved_by: Annotated[
        str,
        Name(
            help="What moves it: a free input that is true; a relay that is energised; a valve that "
            "has run to its powered end; a load that is on; a sensed input that demands."
        ),
    ]
    kind: Annotated[
        Literal["normally-open", "normally-closed"],
        Choice(help="What it is until it is moved. A change-over is one contact of each kind."),
    ]


class Relay(Ended):
    """A coil that moves contacts."""

    name: Annotated[str, Name(help="Relay.")]


class Valve(Ended):
    """A motorised valve, driven one way by its motor and back by a spring."""

    name: Annotated[str, Name(help="Valve.")]
    start: Annotated[str, Text(longest=64, help="Point at which the motor is fed.")]
    end: Annotated[str, Text(longest=64, help="Point of the motor's other lead.")]
    rest: Annotated[
        Literal["closed", "open"], Choice(help="Where the spring leaves it without power.")
    ]
    travel_time: (
        Annotated[
            float,
            Quantity("time", "t", "s", low=0.1, high=600, help="From one end to the other."),
        ]
        | None
    ) = None


class Load(Ended):
    """Something that is to run: a boiler's demand at mains, a pump, an immersion heater."""

    name: Annotated[str, Name(help="Load.")]
    kind: Annotated[
        Literal["boiler", "pump", "heater", "other"],
        Choice(help="What it is. A heater is an electric one that heats stored water."),
    ]


class SensedInput(Ended):
    """Two terminals of an appliance that look whether they are joined."""

    name: Annotated[str, Name(help="The demand that is read.")]
    open_means: Annotated[
        Literal["demand", "no-demand"], Choice(help="What the appliance reads when they are open.")
    ]
    band: Annotated[Band, Choice(help="Voltage of the terminals.", default="extra-low-voltage")]


class FlowPath(Named):
    """A way for the water that valves open and shut."""

    name: Annotated[str, Name(help="What is heated this way.")]
    open_when: Annotated[
        str,
        Text(
            help="Condition over valves (true: open), relays (true: energised), loads (true: on) "
            "and free inputs, such as: cylinder_valve and not bypass_valve."
        ),
    ]
    heats_store: Annotated[bool, Flag(help="Whether it heats a hot water store.", default=False)]


class CutOut(Item):
    """An overheat cut-out and what it must stop."""

    name: Annotated[str, Name(help="The free input that is true while the cut-out is healthy.")]
    stops: Annotated[
        list[Annotated[str, Name(help="A load, a sensed input or a flow path.")]],
        Rows(low=1, high=8, help="What must be off, or shut, whenever it has tripped."),
    ]


class Intended(Item):
    """What is meant, as a condition."""

    name: Annotated[str, Name(help="The load, relay, valve, sensed input or flow path.")]
    when: Annotated[
        str,
        Text(
            help="Condition over the free inputs under which it is to be on (a valve or a path: "
            "open). Words: and, or, not, true, false, brackets; other names in double quotes."
        ),
    ]


class IntendedRow(Item):
    """One row of an intended truth table. States no row names are left open."""

    name: Annotated[str, Name(help="Row.")]
    when: Annotated[str, Text(help="Condition over the free inputs: the states of this row.")]
    result: Annotated[str, Name(help="The load, relay, valve, sensed input or flow path.")]
    on: Annotated[bool, Flag(help="Whether it is to be on (a valve or a path: open) there.")]


class Together(Item):
    """Conductors that share a cable or an enclosure."""

    name: Annotated[str, Name(help="Cable or enclosure.")]
    points: Annotated[
        list[Annotated[str, Text(longest=64, help="A point of the wiring.")]],
        Rows(low=1, high=40, help="Points that one of its conductors or terminals belongs to."),
    ]
    separated: Annotated[
        Literal["no", "insulated-for-mains", "screen", "partition"],
        Choice(
            help="How extra-low voltage is kept from mains in it: every conductor insulated for "
            "the highest voltage there, an earthed metal screen, a partition or compartment.",
            default="no",
        ),
    ]


class LogicInputs(Inputs):
    """The wiring, and what it is meant to do."""

    free_inputs: Annotated[
        list[FreeInput], Rows(low=1, high=40, help="What may be so or not, each by itself.")
    ]
    supplies: Annotated[list[Supply], Rows(low=0, high=6, help="Supplies.")] = []
    wires: Annotated[list[Wire], Rows(low=0, high=120, help="Wires between terminals.")] = []
    contacts: Annotated[list[Contact], Rows(low=0, high=60, help="Contacts.")] = []
    relays: Annotated[list[Relay], Rows(low=0, high=12, help="Relays.")] = []
    valves: Annotated[list[Valve], Rows(low=0, high=8, help="Motorised valves.")] = []
    loads: Annotated[list[Load], Rows(low=0, high=16, help="Loads.")] = []
    sensed_inputs: Annotated[
        list[SensedInput], Rows(low=0, high=8, help="Terminals that sense an open or closed pair.")
    ] = []
    flow_paths: Annotated[list[FlowPath], Rows(low=0, high=8, help="Ways for the water.")] = []
    cut_outs: Annotated[list[CutOut], Rows(low=0, high=6, help="Overheat cut-outs.")] = []
    intended: Annotated[list[Intended], Rows(low=0, high=40, help="What is meant.")] = []
    intended_rows: Annotated[
        list[IntendedRow], Rows(low=0, high=200, help="What is meant, as rows of a truth table.")
    ] = []
    together: Annotated[
        list[Together], Rows(low=0, high=40, help="Cables and enclosures, for their voltages.")
    ] = []
    unvented: Annotated[bool, Flag(help="Whether the store is unvented.", default=False)]
    bypass: Annotated[
        bool, Flag(help="Whether a bypass lets the pump's water pass all valves.", default=False)
    ]


class Behaviour(Item):
    """What one thing does over all states."""

    name: Annotated[str, Name(help="What is on, or open.")]
    what: Annotated[str, Text(help="Load, relay, valve, sensed input or flow path.")]
    column: Annotated[
        str | None,
        Text(
            longest=LONG,
            help="0 or 1 for every state, counted from all inputs false, the first input as the "
            "leading digit; ~ where the wiring does not come to rest. Left out above 1024 states.",
        ),
    ]
    on_states: Annotated[int, Count("", help="States in which it is on, or open.")]
    share: Annotated[float, Number("s", help="Share of all states in which it is on, or open.")]
    meant_states: Annotated[int, Count("", help="States in which it is meant to be.")] | None
    condition: Annotated[
        str | None,
        Text(longest=LONG, help="When it is on: a sum of products, none of which can be spared."),
    ]


class TableRow(Item):
    """One state."""

    inputs: Annotated[str, Text(longest=LONG, help="The free inputs, in their order.")]
    on: Annotated[str, Text(longest=LONG, help="What is on, or open.")]


class Mismatch(Item):
    """One way in which the wiring does other than is meant."""

    name: Annotated[str, Text(longest=LONG, help="What, and which way.")]
    result: Annotated[str, Text(help="The load, relay, valve, sensed input or flow path.")]
    fault: Annotated[str, Text(help="runs (though not meant) or stands-still (though meant).")]
    states: Annotated[int, Count("", help="How many states differ this way.")]
    listed: Annotated[str, Text(longest=LONG, help="The states, at most 16 of them.")]
    whenever: Annotated[
        str,
        Text(longest=LONG, help="The fewest inputs that alone bring it about, with their values."),
    ]
    inputs_involved: Annotated[int, Count("", help="How many inputs that takes.")]
    parts: Annotated[
        str,
        Text(
            longest=LONG,
            help="In the first such state: the parts that carry it, or the fewest that stand open.",
        ),
    ]


class Compared(Item):
    """One thing against what is meant."""

    name: Annotated[str, Name(help="The load, relay, valve, sensed input or flow path.")]
    only_when_meant: Annotated[bool, Flag(help="Whether it runs only when it is meant to.")]
    whenever_meant: Annotated[bool, Flag(help="Whether it runs whenever it is meant to.")]


class CutOutResult(Item):
    """What a cut-out does."""

    name: Annotated[str, Name(help="The cut-out.")]
    stops: Annotated[bool, Flag(help="Whether all it must stop is off in every tripped state.")]
    survives_broken_wire: Annotated[
        bool, Flag(help="Whether that also holds with any one wire broken.")
    ]
    defeated_by: Annotated[str | None, Text(longest=LONG, help="What defeats it.")]


class Heated(Item):
    """Something that heats stored water."""

    name: Annotated[str, Name(help="An electric heater, or a flow path to a store.")]
    has_cut_out: Annotated[
        bool | None,
        Flag(help="Whether a cut-out is named for it; of a path, asked if the store is unvented."),
    ]
    shut_at_rest: Annotated[
        bool | None, Flag(help="A path: whether it is shut with every supply off.")
    ]


class EndSwitch(Item):
    """What the failure of a valve's end switch does."""

    name: Annotated[str, Text(longest=LONG, help="Contact, and how it fails.")]
    harmless: Annotated[bool, Flag(help="Whether nothing then runs that would not otherwise.")]
    states: Annotated[int, Count("", help="States in which something then does otherwise.")]
    runs: Annotated[str | None, Text(longest=LONG, help="What runs that would not.")]
    idle: Annotated[str | None, Text(longest=LONG, help="What stands still that would run.")]


class Fault(Item):
    """What one fault does."""

    name: Annotated[str, Text(longest=LONG, help="The part and its fault.")]
    effect: Annotated[
        str,
        Text(
            help="shorts-the-supply, defeats-a-cut-out, runs, idles, unsettled: the worst of them."
        ),
    ]
    states: Annotated[int, Count("", help="States in which something does otherwise.")]
    changes: Annotated[str, Text(longest=LONG, help="What does otherwise.")]


class TogetherResult(Item):
    """Voltages in one cable or enclosure."""

    name: Annotated[str, Name(help="Cable or enclosure.")]
    mains: Annotated[str | None, Text(longest=LONG, help="Points that can be at mains.")]
    extra_low: Annotated[str | None, Text(longest=LONG, help="Points of extra-low voltage.")]
    apart: Annotated[bool, Flag(help="Whether mains and extra-low voltage are kept apart in it.")]


class Short(Item):
    """A way round the loads."""

    name: Annotated[str, Text(longest=LONG, help="Which poles are joined.")]
    states: Annotated[int, Count("", help="In how many states.")]
    whenever: Annotated[str, Text(longest=LONG, help="The fewest inputs that bring it about.")]
    parts: Annotated[str, Text(longest=LONG, help="The parts that join them.")]


class Rung(Item):
    """A rung of the ladder diagram."""

    name: Annotated[str, Text(longest=LONG, help="Rung.")]
    drawn: Annotated[
        str,
        Text(longest=LONG, help="[name] a contact closed by the name, [/name] one opened by it."),
    ]


class LogicOutputs(Outputs):
    """The truth table, and what it says about the wiring."""

    states: Annotated[float, Number("N", help="States of the free inputs.")]
    shorted: Annotated[bool, Flag(help="Whether some state joins the poles of a supply.")]
    bands_joined: Annotated[bool, Flag(help="Whether some state joins mains to extra-low voltage.")]
    earth_used: Annotated[
        bool, Flag(help="Whether in some state something is wired to earth with one of its ends.")
    ]
    on_earth: Annotated[str | None, Text(longest=LONG, help="What is.")]
    shorts: Annotated[
        list[Short], Rows(high=400, help="Ways round the loads; no truth table then.")
    ]
    isolators: Annotated[int, Count("", help="Points at which the mains must be isolated.")] | None
    isolator_names: Annotated[str | None, Text(longest=LONG, help="Which.")]
    settles: Annotated[bool, Flag(help="Whether the wiring comes to rest in every state.")] | None
    unsettled_states: Annotated[int, Count("", help="States in which it goes on switching.")] | None
    unsettled_whenever: Annotated[
        str | None, Text(longest=LONG, help="The fewest inputs that bring that about.")
    ]
    remembers: Annotated[bool, Flag(help="Whether some state depends on what was before.")] | None
    remembered: Annotated[str | None, Text(longest=LONG, help="What may stay as it was, and when.")]
    fed_in_series: (
        Annotated[bool, Flag(help="Whether something may be fed through another load.")] | None
    )
    series: Annotated[str | None, Text(longest=LONG, help="What, and when.")]
    dead_headed: Annotated[bool, Flag(help="Whether a pump runs with every path shut.")] | None
    dead_headed_whenever: Annotated[
        str | None, Text(longest=LONG, help="The fewest inputs that bring that about.")
    ]
    runs_early: (
        Annotated[
            bool,
            Flag(help="Whether a pump or boiler runs before a valve has opened its path."),
        ]
        | None
    )
    runs_early_whenever: Annotated[
        str | None, Text(longest=LONG, help="The fewest inputs that bring that about.")
    ]
    intent_given: Annotated[bool, Flag(help="Whether it was said what is meant.")]
    settling_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t",
                "s",
                help="Longest time to rest: all valves, one after the other, where all are timed.",
            ),
        ]
        | None
    )
    inputs_in_order: Annotated[
        str, Text(longest=LONG, help="The free inputs as the table has them.")
    ]
    results: Annotated[
        list[Behaviour], Rows(high=400, help="What each thing does over all states.")
    ]
    table: Annotated[list[TableRow], Rows(high=400, help="Every state, up to 64 of them.")]
    compared: Annotated[list[Compared], Rows(high=400, help="Against what is meant.")]
    mismatches: Annotated[list[Mismatch], Rows(high=400, help="What differs from what is meant.")]
    cut_outs: Annotated[list[CutOutResult], Rows(high=400, help="Overheat cut-outs.")]
    heated: Annotated[list[Heated], Rows(high=400, help="What heats stored water.")]
    end_switches: Annotated[list[EndSwitch], Rows(high=400, help="Failures of end switches.")]
    faults_examined: Annotated[
        bool, Flag(help="Whether single faults were gone through; above 4096 states they are not.")
    ]
    faults: Annotated[list[Fault], Rows(high=400, help="Single faults that change something.")]
    together: Annotated[
        list[TogetherResult], Rows(high=400, help="Voltages in cables and enclosures.")
    ]
    ladder: Annotated[
        list[Rung], Rows(high=400, help="The function, drawn: a rung for each product.")
    ]
