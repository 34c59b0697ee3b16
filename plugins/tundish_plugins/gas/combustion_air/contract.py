"""What is asked and what is answered about air for gas appliances."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
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

Place = Literal["outside", "internal", "high", "low"]


class Appliance(Item):
    """A gas appliance in the room or compartment."""

    name: Annotated[str, Name(help="Name of the appliance.")]
    kind: Annotated[
        Literal["open-flued", "room-sealed", "flueless", "decorative"],
        Choice(
            help="Where it gets its air and leaves its flue gas; decorative: a fuel-effect fire."
        ),
    ]
    heat_input: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "Φ",
            "kW",
            low=0.5,
            high=200,
            help="Greatest heat input, with its basis: net or gross.",
        ),
    ]
    state: Annotated[
        Literal["stays", "goes", "comes"],
        Choice(help="Whether it stays, is taken out, or is new.", default="stays"),
    ]
    location: Annotated[
        Literal["here", "other-room"],
        Choice(
            help="In the space, or in the other room by way of which its air comes.",
            default="here",
        ),
    ]
    cooling_waived: Annotated[
        bool,
        Flag(
            help="Its maker's instructions say that its compartment needs no vents; room-sealed "
            "appliances only.",
            default=False,
        ),
    ]


class Vent(Item):
    """A vent that is there, or that is planned."""

    name: Annotated[str, Name(help="Name of the vent.")]
    place: Annotated[
        Place,
        Choice(
            help="outside: from the room to outside (from the other room where air comes by way of "
            "one). internal: between the two rooms. high and low: of the compartment."
        ),
    ]
    free_area: (
        Annotated[
            float,
            Quantity(
                "area",
                "A",
                "cm2",
                low=0,
                high=5000,
                help="Free area marked on it or given by its maker; never the size of the grille.",
            ),
        ]
        | None
    ) = None
    openings: (
        Annotated[int, Count("n", low=1, high=5000, help="Openings, where it is not marked.")]
        | None
    ) = None
    opening_width: (
        Annotated[
            float, Quantity("length", "b", "mm", low=0.5, high=1000, help="Width of an opening.")
        ]
        | None
    ) = None
    opening_height: (
        Annotated[
            float, Quantity("length", "h", "mm", low=0.5, high=1000, help="Height of an opening.")
        ]
        | None
    ) = None
    least_opening: (
        Annotated[
            float,
            Quantity(
                "length",
                "d",
                "mm",
                low=0,
                high=1000,
                help="Largest ball that passes anywhere through it; measure it.",
            ),
        ]
        | None
    ) = None
    closable: Annotated[bool, Flag(help="It can be shut: flap, slide, hit and miss.")]
    screened: Annotated[bool, Flag(help="Gauze or fly screen anywhere in it.")]
    serves_other: Annotated[
        bool,
        Flag(
            help="It serves anything else: another room, a floor void, a solid-fuel fire.",
            default=False,
        ),
    ]
    plan: Annotated[
        Literal["keep", "close"], Choice(help="What is to become of it.", default="keep")
    ]


class CombustionAirInputs(Inputs):
    """Appliances of one room or compartment, where their air comes from, and its vents."""

    space: Annotated[
        Literal["room", "compartment"],
        Choice(help="A room, or a compartment or cupboard made for the appliances."),
    ]
    air_from: Annotated[
        Literal["outside", "room"],
        Choice(help="Straight from outside, or by way of one other room."),
    ]
    through_room: (
        Annotated[
            Literal["ordinary", "bath-or-bed", "protected"],
            Choice(
                help="The other room: an ordinary one; one with bath, shower or bed; or a protected "
                "hall, stair or shaft."
            ),
        ]
        | None
    ) = None
    airtight: Annotated[
        bool,
        Flag(
            help="The dwelling is so tight that guidance asks for more air; in England and Wales a "
            "design air permeability of 5 m³/(h·m²) or less."
        ),
    ]
    gas: Annotated[
        str, Text(longest=40, help="Gas by name: natural-gas, methane, propane or butane.")
    ]
    appliances: Annotated[
        list[Appliance],
        Rows(low=1, high=12, help="Every gas appliance in the space and in the other room."),
    ]
    vents: (
        Annotated[
            list[Vent],
            Rows(low=0, high=24, help="Every vent; an empty list says that there is none."),
        ]
        | None
    ) = None


class Opening(Item):
    """Free area needed at one place, and what is there."""

    name: Annotated[Place, Choice(help="Place.")]
    needed: Annotated[
        float, Quantity("area", "A_n", "cm2", help="Free area needed with the appliances to be.")
    ]
    needed_mm2: Annotated[float, Quantity("area", "A_n", "mm2", help="The same in mm².")]
    needed_before: Annotated[
        float, Quantity("area", "A_0", "cm2", help="Needed with the appliances as they were.")
    ]
    for_combustion: Annotated[
        bool, Flag(help="An open flue draws on it; else it only carries heat away, or nothing.")
    ]
    given: (
        Annotated[
            float,
            Quantity("area", "A", "cm2", help="Free area there that counts, closed ones left out."),
        ]
        | None
    ) = None
    lacking: (
        Annotated[float, Quantity("area", "A_l", "cm2", help="Free area that is lacking.")] | None
    ) = None
    sizes_known: Annotated[bool, Flag(help="The least opening of every vent that counts is known.")]


class VentOutputs(Item):
    """What is found of one vent."""

    name: Annotated[str, Name(help="Name of the vent.")]
    free_area: Annotated[float, Quantity("area", "A", "cm2", help="Its free area.")]
    counted_area: Annotated[
        float, Quantity("area", "A_c", "cm2", help="What of it counts as permanent ventilation.")
    ]
    least_opening: (
        Annotated[float, Quantity("length", "d", "mm", help="Its least opening.")] | None
    ) = None
    needed: Annotated[bool, Flag(help="Something that stays or comes draws on it, or may.")]
    to_close: Annotated[bool, Flag(help="It is to be closed.")]


class CombustionAirOutputs(Outputs):
    """Air the appliances need, and what the vents give."""

    input_before: Annotated[
        float,
        Quantity("heat_input_net", "Φ_0", "kW", help="Open-flued heat input as it was, net."),
    ]
    input_after: Annotated[
        float,
        Quantity("heat_input_net", "Φ", "kW", help="Open-flued heat input to be, net."),
    ]
    liquefied: Annotated[bool, Flag(help="The gas is liquefied petroleum gas, heavier than air.")]
    vents_given: Annotated[bool, Flag(help="The vents were given, and are judged.")]
    openings: Annotated[list[Opening], Rows(help="Each place where air has to pass.")]
    vents: Annotated[list[VentOutputs], Rows(help="Each vent.")]
    internal_factor: Annotated[float, Number("k", help="Inside vent over outside vent.")] | None = (
        None
    )
