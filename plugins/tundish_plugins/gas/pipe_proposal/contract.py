"""What is asked and what is answered about the tubes a gas installation should have."""

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
from tundish_plugins.gas.pipe_sizing.contract import (  # noqa: TC001  (read at run time)
    Appliance,
    Component,
    Fitting,
    Profile,
)


class OpenSection(Item):
    """A run between two points whose tube is to be found, or stays."""

    name: Annotated[str, Name(help="Name of the section.")]
    start: Annotated[str, Name(help="Point it starts from, such as meter.")]
    end: Annotated[str, Name(help="Point it leads to.")]
    tube: (
        Annotated[str, Text(longest=40, help="Tube that is there and stays; without one: open.")]
        | None
    ) = None
    length: Annotated[
        float, Quantity("length", "L", "m", low=0.1, high=200, help="Length as measured.")
    ]
    fittings: Annotated[list[Fitting], Rows(low=0, high=20, help="Its fittings.")] = []
    extra_length: Annotated[
        float,
        Quantity(
            "length",
            "L_x",
            "m",
            low=0,
            high=200,
            default=0,
            help="Further length to add, for valves and the like, from the maker.",
        ),
    ]


class Candidate(Item):
    """A tube that may be used."""

    tube: Annotated[str, Text(longest=40, help="Tube and wall, such as copper-22x0.9.")]
    cost: (
        Annotated[
            float,
            Number(
                "k", low=0, high=1e6, help="What a metre of it costs laid, in any one currency."
            ),
        ]
        | None
    ) = None


class PipeProposalInputs(Inputs):
    """A gas installation whose tubes are to be chosen, and the tubes that may be."""

    gas: (
        Annotated[str, Text(longest=40, help="Gas by name, such as natural-gas or propane.")] | None
    ) = None
    composition: (
        Annotated[list[Component], Rows(low=1, high=12, help="Gas by its components.")] | None
    ) = None
    gas_family: (
        Annotated[
            Literal["natural", "lpg"],
            Choice(help="Which limit applies; needed when the gas is given by composition."),
        ]
        | None
    ) = None
    meter: Annotated[str, Name(default="meter", help="Point the tree starts from.")]
    meter_capacity: (
        Annotated[
            float,
            Quantity("gas_flow_15", "Q_m", "m3/h", low=1, high=100, help="Capacity on its badge."),
        ]
        | None
    ) = None
    sections: Annotated[
        list[OpenSection], Rows(low=1, high=60, help="Sections of the installation.")
    ]
    appliances: Annotated[list[Appliance], Rows(low=1, high=30, help="Appliances, all at once.")]
    candidates: Annotated[
        list[Candidate],
        Rows(
            low=1,
            high=12,
            help="Tubes to choose from. Give a cost with each or with none: without costs, metres "
            "times bore stands for them.",
        ),
    ]
    uncertain_flow: Annotated[
        Literal["spare", "allow"],
        Choice(
            default="spare",
            help="Where flow between laminar and turbulent is on the way: keep a share of the limit "
            "spare, or use the limit whole.",
        ),
    ]
    size_order: Annotated[
        Literal["any", "falling"],
        Choice(
            default="any",
            help="Whether a section may be wider than the one that feeds it, where that is cheapest, "
            "or sizes only fall along the way; tubes that stay are not asked.",
        ),
    ]
    most_steps: Annotated[
        int,
        Count(
            "n",
            low=100,
            high=10_000_000,
            default=3_000_000,
            help="Part-solutions the search may make before it gives up; a house takes thousands.",
        ),
    ]


class Offered(Item):
    """What one tube would cost and drop in a section."""

    tube: Annotated[str, Text(help="Tube.")]
    cost: Annotated[float, Number("K", help="Its cost there.")]
    drop: Annotated[float, Quantity("pressure_difference", "Δp", "mbar", help="Its drop there.")]
    transitional: Annotated[bool, Flag(help="Its flow would lie between laminar and turbulent.")]


class ProposedSection(Item):
    """The tube proposed for one section, and what it does."""

    name: Annotated[str, Name(help="Name of the section.")]
    tube: Annotated[str, Text(help="Tube proposed, or the one that stays.")]
    stays: Annotated[bool, Flag(help="The tube is there already.")]
    flow: Annotated[float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow at 15 °C.")]
    effective_length: Annotated[
        float, Quantity("length", "L_e", "m", help="Length with its fittings.")
    ]
    velocity: Annotated[float, Quantity("velocity", "w", "m/s", help="Mean velocity.")]
    reynolds: Annotated[float, Number("Re", help="Reynolds number.")]
    transitional: Annotated[
        bool, Flag(help="The flow lies between laminar and turbulent, where its law is uncertain.")
    ]
    drop: Annotated[float, Quantity("pressure_difference", "Δp", "mbar", help="Its drop.")]
    cost: Annotated[float, Number("K", help="Its cost.")]
    wider_than_feed: (
        Annotated[bool, Flag(help="It is wider than the section that feeds it.")] | None
    ) = None
    runner_up: Annotated[str, Text(help="Its tube in the next cheapest proposal.")]
    offered: Annotated[list[Offered], Rows(help="What each tube offered would cost and drop here.")]


class ServedAppliance(Item):
    """What arrives at one appliance."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    flow: Annotated[float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow at full rate.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "Δp", "mbar", help="Drop from the meter.")
    ]
    spare: Annotated[
        float, Quantity("pressure_difference", "Δp_s", "mbar", help="Limit less drop.")
    ]
    settled: Annotated[
        bool, Flag(help="No section on its way is of uncertain flow with little to spare.")
    ]
    profile: Profile


class RunnerUp(Item):
    """The next cheapest proposal that keeps the limit."""

    found: Annotated[bool, Flag(help="There is one; if not, the proposal stands here again.")]
    cost: Annotated[float, Number("K_2", help="Its cost.")]
    dearer: Annotated[float, Number("ΔK", help="What it costs more than the proposal.")]
    highest_drop: Annotated[
        float, Quantity("pressure_difference", "Δp_2", "mbar", help="Its highest drop.")
    ]


class PipeProposalOutputs(Outputs):
    """The cheapest tubes that keep the limit everywhere, and the next cheapest."""

    family: Annotated[Literal["natural", "lpg"], Choice(help="Family of the gas.")]
    total_flow: Annotated[
        float, Quantity("gas_flow_15", "Q", "m3/h", help="Flow of all appliances together.")
    ]
    drop_limit: Annotated[
        float, Quantity("pressure_difference", "Δp_lim", "mbar", help="Limit of the region.")
    ]
    possible: Annotated[
        bool,
        Flag(
            help="Some choice keeps the limit, with what was asked to stay spare; if none does, the "
            "tubes of least drop stand here."
        ),
    ]
    cost_basis: Annotated[
        Literal["costs", "metres-times-bore"],
        Choice(help="What the cost is counted in: the costs given, or metres times millimetres."),
    ]
    cost: Annotated[float, Number("K", help="Cost of the proposal; tubes that stay cost nothing.")]
    highest_drop: Annotated[
        float, Quantity("pressure_difference", "Δp_max", "mbar", help="Highest drop of all.")
    ]
    meter_judged: Annotated[
        bool, Flag(help="The meter's capacity was given, and the flow is held against it.")
    ]
    plastic: Annotated[bool, Flag(help="Some section is of polyethylene.")]
    runner_up: RunnerUp
    appliances: Annotated[list[ServedAppliance], Rows(help="Each appliance.")]
    sections: Annotated[list[ProposedSection], Rows(help="Each section.")]
