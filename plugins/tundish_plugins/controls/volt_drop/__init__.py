"""Current, volt drop and protection of a cable to a heater, a boiler or its controls."""

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
from tundish_plugins.controls.volt_drop.contract import VoltDropInputs, VoltDropOutputs
from tundish_plugins.controls.volt_drop.formulas import IEC_60228, OHM
from tundish_plugins.controls.volt_drop.kernel import kernel

CALCULATION = Calculation(
    id="cable-volt-drop",
    version="1.0",
    title="Volt drop and protection of a cable",
    summary="Current of heaters, boilers and controls, volt drop along their cable, the longest "
    "cable that will do, and fuse against load and cable.",
    family="controls",
    questions=(
        "Which cable does the immersion heater need?",
        "How long may this cable be?",
        "Is the fuse right for the load and the cable?",
    ),
    inputs=VoltDropInputs,
    outputs=VoltDropOutputs,
    kernel=kernel,
    methods=(
        Method(
            "tabulated",
            "Volt drop by table",
            "Millivolts a metre and ampere from the table of the cable, hot at full load, or the "
            "figure that is given for it.",
            source=OHM,
        ),
        Method(
            "conductor-resistance",
            "Volt drop by conductor resistance",
            "The largest resistance the standard allows a conductor of the size, at its "
            "temperature. A cool conductor drops less than the table says.",
            source=IEC_60228,
        ),
    ),
    needs=(
        Need("cable-volt-drop-figures", "table", "Volt drop by size"),
        Need("copper-conductor-resistance", "table", "Conductor resistance by size"),
        Need("cable-capacity-by-size", "table", "Current a size carries at best"),
        Need("flexible-cord-least-size", "table", "Least size of a cord behind a fuse"),
        Need("volt-drop-lighting-public-most", "number", "Limit: lighting, public supply"),
        Need("volt-drop-other-public-most", "number", "Limit: other uses, public supply"),
        Need("volt-drop-lighting-private-most", "number", "Limit: lighting, private supply"),
        Need("volt-drop-other-private-most", "number", "Limit: other uses, private supply"),
        Need("immersion-own-circuit-above", "volume", "Store that needs a circuit of its own"),
    ),
    findings=(
        Finding(
            "load-against-rating",
            "Load against fuse or breaker",
            quantity="/outputs/current",
            sense="at-most",
            limit="/outputs/protective_rating",
            failed="dangerous",
            applies_when="not /outputs/heater_on_unit",
            rests_on=(),
            words_passed="The load takes {value}; the smallest rating before it is {limit}.",
            words_failed="The load takes {value}, more than the rating of {limit} before it: fuse, "
            "unit and terminals overheat. Never fit a larger fuse on the same cable: lay a cable "
            "and a protection that are made for the load.",
            source=OHM,
        ),
        Finding(
            "heater-on-fused-unit",
            "Immersion heater on a 13 A connection unit",
            quantity="/outputs/heater_power",
            sense="at-most",
            limit="immersion-fused-unit-power-most",
            passed="advisory",
            failed="dangerous",
            rests_on=(),
            words_passed="A heater of {value} is accepted on a 13 A connection unit, up to {limit}, "
            "but loads it for hours to its very limit. A double-pole switch on a way of 16 A or "
            "more runs cooler.",
            words_failed="A heater of {value} is more than the {limit} accepted on a 13 A connection "
            "unit: it overheats. Take the unit out and give the heater a way of its own.",
        ),
        Finding(
            "rating-against-cable",
            "Fuse or breaker against the cable",
            quantity="/outputs/protective_rating",
            sense="at-most",
            limit="/outputs/capacity",
            failed="dangerous",
            rests_on=("cable-capacity-by-size",),
            words_passed="The rating of {value} is within the {limit} that the cable carries.",
            words_failed="The rating of {value} is above the {limit} that the cable carries: the "
            "cable can burn before anything trips. Fit a smaller rating or a larger cable.",
            source=OHM,
        ),
        Finding(
            "load-against-cable",
            "Load against the cable",
            quantity="/outputs/current",
            sense="at-most",
            limit="/outputs/capacity",
            failed="dangerous",
            applies_when="not /outputs/heater_on_unit",
            rests_on=("cable-capacity-by-size",),
            words_passed="The load takes {value}; the cable carries {limit}.",
            words_failed="The load takes {value}; the cable carries only {limit}: it overheats. "
            "Take a larger cable.",
            source=OHM,
        ),
        Finding(
            "cord-against-fuse",
            "Flexible cord against its fuse",
            quantity="/outputs/section",
            sense="at-least",
            limit="/outputs/least_section",
            failed="dangerous",
            rests_on=(),
            words_passed="The cord of {value} goes with its fuse, which asks for {limit}.",
            words_failed="The cord of {value} is too thin for its fuse, which asks for {limit}: it "
            "can burn before the fuse blows. Fit a smaller fuse if the load allows, or a larger "
            "cord.",
            depends_on=("flexible-cord-least-size",),
        ),
        Finding(
            "protection-stated",
            "Protection of the cable",
            quantity="/outputs/protection_given",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=(),
            words_passed="A fuse or breaker is given and judged.",
            words_failed="Neither fuse nor breaker is given: whether the cable is protected has not "
            "been judged.",
            source=OHM,
        ),
        Finding(
            "volt-drop",
            "Volt drop from the origin",
            quantity="/outputs/drop_share",
            sense="at-most",
            limit="/outputs/share_limit",
            rests_on=(),
            capped_unless="/outputs/whole_way",
            words_capped="the drop from the origin to the start of this cable is not given, and the "
            "limit counts from the origin.",
            words_passed="The drop is {value} of the supply voltage; {limit} is allowed.",
            words_failed="The drop is {value} of the supply voltage; {limit} is allowed. Take a "
            "larger cable or a shorter way.",
            source=OHM,
        ),
        Finding(
            "heater-circuit",
            "Circuit of the immersion heater",
            quantity="/outputs/circuit_kept",
            sense="is",
            limit=True,
            rests_on=(),
            words_passed="The heater has a circuit of its own, or its store is too small to need "
            "one.",
            words_failed="The heater has no circuit of its own, and its store is not known to be so "
            "small that it needs none. Never run it from a socket outlet of a ring or radial.",
            source=OHM,
        ),
        Finding(
            "controls-fuse",
            "Fuse of the heating controls",
            quantity="/outputs/protective_rating",
            sense="at-most",
            limit="heating-controls-fuse-most",
            applies_when="/inputs/use == heating-controls",
            rests_on=(),
            words_passed="The controls are fused at {value}; {limit} is customary.",
            words_failed="The controls are fused at {value}; no more than {limit} is customary for "
            "boiler, pump, valves and programmer. Follow the boiler's maker if he asks for less.",
        ),
    ),
    cautions=("controls-electrical-work", "cable-protection-scope"),
    refusals=(
        Refused(
            "conductor-temperature-missing",
            "The temperature of the conductor is not known",
            "Give it, 70 degC for a cable at its full load, or take the tabulated volt drop.",
        ),
        Refused(
            "conductor-temperature-unused",
            "The tabulated volt drop holds for a hot conductor at full load only",
            "Leave the temperature out, or choose the conductor's resistance as the method.",
        ),
        Refused(
            "drop-figure-unused",
            "A volt drop figure is given beside the conductor's resistance",
            "Leave the figure out, or choose the tabulated volt drop as the method.",
        ),
        Refused(
            "size-not-tabulated",
            "There is no figure on file for {cable} cable of {size} mm2; there is one for {accepted}",
            "Give the figure from the cable's own table, or choose another size or method.",
        ),
        Refused(
            "capacity-missing",
            "What {cable} cable of {size} mm2 carries is not on file",
            "Give the current it carries as it is laid.",
        ),
        Refused(
            "drop-beyond-supply",
            "The drop would be as large as the supply voltage",
            "Check the length, the loads and the size: no such circuit works.",
        ),
    ),
    monotonic=(
        Monotonic("/length", "/drop", "increasing"),
        Monotonic("/loads/0/power", "/current", "increasing"),
        Monotonic("/loads/0/power_factor", "/current", "decreasing"),
        Monotonic("/conductor_temperature", "/drop", "increasing"),
        Monotonic("/upstream_drop", "/longest_length", "decreasing"),
        Monotonic("/voltage", "/drop_share", "decreasing"),
    ),
    charts=(
        BarChart(
            "sizes",
            "Drop from the origin by size of the cable",
            items="/outputs/sizes",
            label="name",
            bars=(("share of the supply voltage", "drop_share"),),
        ),
    ),
    sources=(OHM,),
    example={
        "loads": [{"name": "immersion heater", "power": "3 kW"}],
        "use": "immersion-heater",
        "cable": "fixed",
        "size": "2.5",
        "length": "20 m",
        "upstream_drop": "0 V",
        "breaker": "16 A",
        "cable_capacity": "20 A",
        "heater_volume": "150 l",
        "own_circuit": True,
    },
)
