"""What is asked and what is answered when a house is turned from a cistern to mains pressure."""

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


class Valve(Item):
    """A valve that sets or limits pressure."""

    setting: Annotated[
        float,
        Quantity("pressure_gauge", "p_set", "bar", low=0.5, high=12, help="Its set pressure."),
    ]
    level: Annotated[
        float,
        Quantity("length", "z", "m", low=-30, high=100, help="Its level above the datum."),
    ]


class Closing(Item):
    """A flow that is stopped: for the surge at a part."""

    flow: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V",
            "l/min",
            low=0.1,
            high=200,
            help="Flow that is stopped, at the new pressure.",
        ),
    ]
    material: Annotated[
        str,
        Text(
            longest=40,
            help="Material of the pipe, by the table pipe-elasticity. Cross-linked polyethylene "
            "and polybutylene are softer than polyethylene: polyethylene is on the safe side.",
        ),
    ]
    tube: (
        Annotated[str, Text(longest=40, help="Tube by the table water-tubes, such as copper-15.")]
        | None
    ) = None
    bore: (
        Annotated[
            float,
            Quantity("length", "d", "mm", low=3, high=110, help="Bore, when no tube is named."),
        ]
        | None
    ) = None
    wall: (
        Annotated[
            float,
            Quantity("length", "s", "mm", low=0.3, high=20, help="Wall, when no tube is named."),
        ]
        | None
    ) = None
    temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ",
            "degC",
            low=1,
            high=95,
            default_rule="cold-water-temperature",
            help="Temperature of the water. Sound is fastest, and surge highest, near 74 degC.",
        ),
    ]
    length: (
        Annotated[
            float,
            Quantity(
                "length",
                "L",
                "m",
                low=0.1,
                high=200,
                help="Length of the pipe back to a much wider one, a store or a vessel.",
            ),
        ]
        | None
    ) = None
    closing_time: (
        Annotated[
            float,
            Quantity(
                "time",
                "t",
                "s",
                low=0.005,
                high=60,
                help="Time the valve takes to close. Without it the flow is stopped at once.",
            ),
        ]
        | None
    ) = None


class Part(Item):
    """An outlet, a pipe or a fitting of the old house."""

    name: Annotated[str, Name(help="What and where, such as basin tap first floor.")]
    kind: Annotated[
        str,
        Text(longest=40, help="Kind of part, by the region's table conversion-parts."),
    ]
    level: Annotated[
        float,
        Quantity(
            "length",
            "z",
            "m",
            low=-30,
            high=100,
            help="Its level above the datum; for a run of pipe its lowest point.",
        ),
    ]
    fed_before: Annotated[
        Literal["cistern", "mains", "none"],
        Choice(help="What feeds it before: cistern also for hot water from a vented store."),
    ]
    fed_after: Annotated[
        Literal["mains", "reduced", "hot-store", "cistern", "none"],
        Choice(
            help="What feeds it after: mains is straight from the main with no reducing valve; "
            "reduced is behind the reducing valve; hot-store is behind an unvented store. Hot "
            "water from a combination boiler counts as what feeds the boiler."
        ),
    ]
    plan: Annotated[
        Literal["keep", "replace", "remove"],
        Choice(help="What is to happen to it before the water is turned on.", default="keep"),
    ]
    rating: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_max",
                "bar",
                low=0.05,
                high=40,
                help="Highest working pressure its maker allows at its temperature: of the new "
                "part where it is replaced. Leave it out where it is not known.",
            ),
        ]
        | None
    ) = None
    proved_to: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_p",
            "bar",
            low=0,
            high=60,
            default=0,
            help="Pressure of a recorded water test that it has held; 0 where there was none.",
        ),
    ]
    checked: Annotated[
        bool,
        Flag(
            help="The maker's data or its condition was looked at, and it suits the new pressure.",
            default=False,
        ),
    ]
    backflow_category: Annotated[
        int,
        Count(
            "",
            low=1,
            high=5,
            default=1,
            help="Highest fluid category that its backflow prevention serves; 1 where none.",
        ),
    ]
    capped: Annotated[
        bool,
        Flag(
            help="Where it is taken out or left dry: its pipes are cut back and capped.",
            default=False,
        ),
    ]
    closing: Closing | None = None


class Mixer(Item):
    """A tap or shower that mixes hot and cold."""

    name: Annotated[str, Name(help="What and where, such as shower top floor.")]
    level: Annotated[
        float, Quantity("length", "z", "m", low=-30, high=100, help="Its level above the datum.")
    ]
    hot_feed: Annotated[
        Literal["mains", "reduced", "hot-store", "cistern"],
        Choice(help="What feeds its hot side after."),
    ]
    cold_feed: Annotated[
        Literal["mains", "reduced", "cistern"], Choice(help="What feeds its cold side after.")
    ]
    hot_flowing: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_h",
                "bar",
                low=0.01,
                high=12,
                help="Hot pressure measured there with water flowing.",
            ),
        ]
        | None
    ) = None
    cold_flowing: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_c",
                "bar",
                low=0.01,
                high=12,
                help="Cold pressure measured there with water flowing.",
            ),
        ]
        | None
    ) = None


class Notice(Item):
    """Work of which the water undertaker may have to be told first."""

    consent: Annotated[bool, Flag(help="Notice was given and consent has come.", default=False)]
    pump_flow: (
        Annotated[
            float,
            Quantity(
                "volume_flow",
                "V_p",
                "l/min",
                low=0,
                high=500,
                help="Flow of a pump that draws from the supply pipe, directly or not.",
            ),
        ]
        | None
    ) = None
    bath_volume: (
        Annotated[
            float,
            Quantity(
                "volume",
                "V_b",
                "l",
                low=20,
                high=5000,
                help="Content of the largest new bath to the centre line of its overflow.",
            ),
        ]
        | None
    ) = None
    pipe_depth: (
        Annotated[
            float,
            Quantity(
                "length",
                "h",
                "mm",
                low=0,
                high=5000,
                help="Depth of new pipe laid outside below ground.",
            ),
        ]
        | None
    ) = None
    bidet: Annotated[
        bool, Flag(help="A bidet with ascending spray or flexible hose.", default=False)
    ]
    backflow_valve: Annotated[
        bool,
        Flag(
            help="A reduced-pressure-zone valve or another mechanical device against fluid "
            "category 4 or 5.",
            default=False,
        ),
    ]
    treatment: Annotated[
        bool,
        Flag(
            help="Water treatment that sends water to waste or regenerates with it, such as a "
            "softener.",
            default=False,
        ),
    ]
    other_premises: Annotated[
        bool, Flag(help="The premises are no house, or change their use.", default=False)
    ]


class ConversionInputs(Inputs):
    """The old cistern, the main, the valves, and every part that the pressure will reach."""

    cistern_level: (
        Annotated[
            float,
            Quantity(
                "length",
                "z_c",
                "m",
                low=-30,
                high=100,
                help="Water level of the old cistern above the datum, such as the ground floor.",
            ),
        ]
        | None
    ) = None
    mains_pressure: Annotated[
        float,
        Quantity(
            "pressure_gauge",
            "p_m",
            "bar",
            low=0.2,
            high=16,
            example=5.5,
            help="Highest static pressure of the main: a gauge left on overnight.",
        ),
    ]
    mains_level: Annotated[
        float,
        Quantity(
            "length",
            "z_m",
            "m",
            low=-30,
            high=100,
            default=0,
            help="Level of that gauge above the datum.",
        ),
    ]
    recorded_overnight: Annotated[
        bool,
        Flag(help="The pressure is the highest of at least one night, not a single reading."),
    ]
    reducing_valve: Valve | None = None
    expansion_valve: Valve | None = None
    relief_setting: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_tp",
                "bar",
                low=0.5,
                high=16,
                help="Pressure setting of the store's temperature and pressure relief valve.",
            ),
        ]
        | None
    ) = None
    water_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ",
            "degC",
            low=1,
            high=40,
            default_rule="cold-water-temperature",
            help="Temperature of the standing water, for its weight: cold is heaviest.",
        ),
    ]
    surge_allowance: Annotated[
        float,
        Quantity(
            "pressure_difference",
            "Δp_q",
            "bar",
            low=0,
            high=10,
            default_rule="surge-allowance",
            help="Surge allowed for where none is computed: quick-closing taps and valves.",
        ),
    ]
    parts: Annotated[
        list[Part], Rows(low=1, high=100, help="Every outlet, pipe and fitting concerned.")
    ]
    mixers: Annotated[
        list[Mixer], Rows(low=0, high=30, help="Taps and showers that mix hot and cold.")
    ] = []
    notice: Notice | None = None


class PartOutputs(Item):
    """What a part had, what it gets, and what must be done first."""

    name: Annotated[str, Name(help="Name of the part.")]
    action: Annotated[str, Text(help="What the list of old parts asks for.")]
    reason: Annotated[str, Text(help="Why.")]
    regulation: Annotated[str, Text(help="What the region's law says of it.")] | None = None
    before: (
        Annotated[float, Quantity("pressure_gauge", "p_1", "bar", help="Static pressure before.")]
        | None
    ) = None
    after: (
        Annotated[float, Quantity("pressure_gauge", "p_2", "bar", help="Static pressure after.")]
        | None
    ) = None
    worst: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_w",
                "bar",
                help="Highest static pressure after: the expansion valve lifting on the hot side.",
            ),
        ]
        | None
    ) = None
    valve_failed: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_f",
                "bar",
                help="Static pressure if the reducing valve lets by.",
            ),
        ]
        | None
    ) = None
    pressure_ratio: Annotated[float, Number("r", help="Pressure after over before.")] | None = None
    flow_ratio: (
        Annotated[float, Number("r_V", help="Flow after over before, same opening, at most.")]
        | None
    ) = None
    wave_speed: (
        Annotated[
            float, Quantity("velocity", "a", "m/s", help="Speed of the pressure wave in the pipe.")
        ]
        | None
    ) = None
    surge: (
        Annotated[
            float,
            Quantity(
                "pressure_difference", "Δp", "bar", help="Surge: computed, or as allowed for."
            ),
        ]
        | None
    ) = None
    surge_computed: Annotated[bool, Flag(help="The surge is computed for this part.")]
    peak: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge",
                "p_p",
                "bar",
                help="Highest pressure: surge on the static pressure, or the highest static pressure.",
            ),
        ]
        | None
    ) = None
    proof_needed: (
        Annotated[
            float,
            Quantity(
                "pressure_gauge", "p_t", "bar", help="Test pressure that proves it, at its level."
            ),
        ]
        | None
    ) = None
    unchanged: Annotated[
        bool, Flag(help="It was on the main before, or stays on a cistern: no more pressure.")
    ]
    kept: Annotated[bool, Flag(help="The part stays, may stay, and gets more pressure.")]
    must_change: Annotated[bool, Flag(help="It is kept, though the list says it must go.")]
    listed_to_go: Annotated[bool, Flag(help="The list says that such a part must go.")]
    listed_dangerous: Annotated[bool, Flag(help="Such a part is dangerous under mains pressure.")]
    must_prove: Annotated[bool, Flag(help="It stays and needs a test before the water is on.")]
    must_check: Annotated[bool, Flag(help="It stays and needs to be looked up or looked at.")]
    cut_off: Annotated[bool, Flag(help="It is taken out or left dry: its pipes need caps.")]
    strength_known: Annotated[bool, Flag(help="Its rating is known, or a test has proved it.")]
    fluid_category: (
        Annotated[int, Count("", help="Fluid category it must be protected against.")] | None
    ) = None


class MixerOutputs(Item):
    """Hot against cold at a mixer."""

    name: Annotated[str, Name(help="Name of the mixer.")]
    hot: Annotated[float, Quantity("pressure_gauge", "p_h", "bar", help="Hot pressure.")]
    cold: Annotated[float, Quantity("pressure_gauge", "p_c", "bar", help="Cold pressure.")]
    measured: Annotated[bool, Flag(help="Measured while flowing; otherwise static.")]
    ratio: Annotated[float, Number("r_m", help="Larger over smaller.")]
    one_source: Annotated[bool, Flag(help="Both from the main, or both from a cistern.")]


class NoticeOutputs(Item):
    """What is weighed against the region's list of work to be notified."""

    pump_flow: (
        Annotated[float, Quantity("volume_flow", "V_p", "l/min", help="Flow of the pump.")] | None
    ) = None
    bath_volume: (
        Annotated[float, Quantity("volume", "V_b", "l", help="Content of the bath.")] | None
    ) = None
    pipe_depth: (
        Annotated[float, Quantity("length", "h", "mm", help="Depth of the pipe.")] | None
    ) = None
    listed_work: (
        Annotated[bool, Flag(help="Something on the list that has no threshold.")] | None
    ) = None


class ConversionOutputs(Outputs):
    """Pressures before and after, and what must be done before the water is turned on."""

    parts: Annotated[list[PartOutputs], Rows(help="Every part.")]
    mixers: Annotated[list[MixerOutputs], Rows(help="Every mixer.")]
    notice: NoticeOutputs | None = None
    mains_reaches: Annotated[
        bool,
        Flag(help="Some part newly gets the main's pressure with no reducing valve before it."),
    ]
    settings_in_order: (
        Annotated[
            bool,
            Flag(help="Cold pressure, expansion valve and relief valve rise in that order."),
        ]
        | None
    ) = None
    highest: (
        Annotated[
            float, Quantity("pressure_gauge", "p_hi", "bar", help="Highest peak of any part.")
        ]
        | None
    ) = None
    to_change: Annotated[int, Count("", help="Parts kept that must go.")]
    to_prove: Annotated[int, Count("", help="Parts kept that must have held a test.")]
    to_check: Annotated[int, Count("", help="Parts kept that are still to be checked.")]
    to_cap: Annotated[int, Count("", help="Parts whose pipes still need caps.")]
