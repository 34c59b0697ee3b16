"""What is asked and what is answered about the design heat loss of a house."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Choice,
    Flag,
    Inputs,
    Item,
    Name,
    Number,
    Outputs,
    Quantity,
    Rows,
)

Kind = Literal["wall", "window", "door", "roof", "floor", "partition"]
Beyond = Literal["outside", "ground", "unheated", "room", "neighbour"]

OUTSIDE = Quantity(
    "temperature",
    "θ_e",
    "degC",
    low=-40,
    high=15,
    help="Design temperature outside, at the altitude of its station. Left out: of the weather "
    "station named, or the region's.",
)


class Opening(Item):
    """A window or door in an element: its area is taken off."""

    name: Annotated[str, Name(help="Name of the opening.")]
    kind: Annotated[Literal["window", "door"], Choice(default="window", help="What it is.")]
    area: Annotated[float, Quantity("area", "A", "m2", low=0.01, high=100, help="Its area.")]
    u_value: Annotated[
        float,
        Quantity("thermal_transmittance", "U", "W/(m2.K)", low=0.1, high=7, help="Its U-value."),
    ]


class Element(Item):
    """A surface of a room."""

    name: Annotated[str, Name(help="Name of the element.")]
    kind: Annotated[Kind, Choice(help="What it is.")]
    beyond: Annotated[
        Beyond,
        Choice(
            default="outside",
            help="What lies beyond: outside, ground, an unheated space, another room of the house, "
            "or a neighbour at a temperature of its own.",
        ),
    ]
    area: Annotated[
        float,
        Quantity("area", "A", "m2", low=0.01, high=2000, help="Area with its openings in it."),
    ]
    u_value: Annotated[
        float,
        Quantity("thermal_transmittance", "U", "W/(m2.K)", low=0.05, high=7, help="Its U-value."),
    ]
    openings: Annotated[list[Opening], Rows(low=0, high=30, help="Its openings.")] = []
    room: Annotated[str, Name(help="The other room, if a room lies beyond.")] | None = None
    temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_x",
                "degC",
                low=-40,
                high=35,
                help="Temperature beyond: of the neighbour, or of the unheated space.",
            ),
        ]
        | None
    ) = None
    reduction_factor: (
        Annotated[
            float,
            Number("b", low=0, high=1, help="Temperature reduction factor of an unheated space."),
        ]
        | None
    ) = None
    space: (
        Annotated[
            str,
            Name(
                help="Unheated space of the list, if its temperature is to come from its balance."
            ),
        ]
        | None
    ) = None


class Bridge(Item):
    """A linear thermal bridge."""

    name: Annotated[str, Name(help="Name of the bridge.")]
    length: Annotated[float, Quantity("length", "l", "m", low=0.01, high=500, help="Its length.")]
    transmittance: Annotated[
        float,
        Quantity(
            "linear_transmittance", "ψ", "W/(m.K)", low=-0.5, high=2, help="Its transmittance."
        ),
    ]


class Room(Item):
    """A heated room."""

    name: Annotated[str, Name(help="Name of the room.")]
    temperature: Annotated[
        float, Quantity("temperature", "θ_i", "degC", low=5, high=30, help="Design temperature.")
    ]
    floor_area: Annotated[
        float, Quantity("area", "A_f", "m2", low=0.5, high=1000, help="Floor area.")
    ]
    height: Annotated[float, Quantity("length", "h", "m", low=1, high=6, help="Mean height.")]
    elements: Annotated[
        list[Element],
        Rows(low=1, high=40, help="Its surfaces: one at least, if only to another room."),
    ]
    air_changes: Annotated[
        float,
        Quantity(
            "frequency",
            "n",
            "1/h",
            low=0,
            high=10,
            example=1,
            help="Air changes: what the room needs, or what is known of its draughts.",
        ),
    ]
    shielding: (
        Annotated[
            float,
            Number(
                "e", low=0, high=0.1, help="Shielding coefficient, with a leakage of the building."
            ),
        ]
        | None
    ) = None
    mechanical_supply: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_su",
            "m3/h",
            low=0,
            high=2000,
            default=0,
            help="Air supplied by a fan.",
        ),
    ]
    heat_recovery: Annotated[
        float, Number("η", low=0, high=0.95, default=0, help="Share recovered from that air.")
    ]
    bridges: Annotated[
        list[Bridge], Rows(low=0, high=30, help="Linear bridges, instead of the allowance.")
    ] = []


class Space(Item):
    """An unheated space, such as a garage, whose temperature follows from its heat balance."""

    name: Annotated[str, Name(help="Name of the space.")]
    loss_to_outside: Annotated[
        float,
        Quantity(
            "thermal_conductance",
            "H_ue",
            "W/K",
            low=0.1,
            high=5000,
            help="Its own loss to outside a kelvin, fabric and air together.",
        ),
    ]


class HeatLossInputs(Inputs):
    """A house on its design day."""

    outside_temperature: Annotated[float, OUTSIDE] | None = None
    station: (
        Annotated[
            str,
            Name(help="Weather station whose design temperature and altitude are taken."),
        ]
        | None
    ) = None
    colder_hours: Annotated[
        Literal["0.4 %", "1 %"],
        Choice(
            default="0.4 %",
            help="Share of the hours of a year that are colder than the station's temperature.",
        ),
    ]
    station_altitude: (
        Annotated[
            float,
            Quantity(
                "length",
                "z_0",
                "m",
                low=-400,
                high=3000,
                help="Altitude the outside temperature given belongs to; the house's altitude goes "
                "with it. Left out: sea level.",
            ),
        ]
        | None
    ) = None
    altitude: (
        Annotated[
            float,
            Quantity(
                "length",
                "z",
                "m",
                low=-400,
                high=3000,
                help="Altitude of the house. Left out: of the station named, else sea level.",
            ),
        ]
        | None
    ) = None
    air_heat_capacity: (
        Annotated[
            float,
            Quantity(
                "volumetric_heat_capacity",
                "c_v",
                "Wh/(m3.K)",
                low=0.2,
                high=0.5,
                help="Heat capacity of air by volume. Left out: from temperature and altitude.",
            ),
        ]
        | None
    ) = None
    bridge_allowance: Annotated[
        float,
        Quantity(
            "thermal_transmittance",
            "y",
            "W/(m2.K)",
            low=0,
            high=0.5,
            default_rule="thermal-bridge-allowance",
            help="Allowance for thermal bridges on every area to outside; not where a room lists "
            "its own.",
        ),
    ]
    leakage: (
        Annotated[
            float,
            Quantity(
                "frequency",
                "n50",
                "1/h",
                low=0.1,
                high=30,
                help="Air changes at 50 Pa from a pressure test.",
            ),
        ]
        | None
    ) = None
    height_factor: Annotated[
        float,
        Number(
            "ε", low=1, high=2, default=1, help="Height correction of infiltration, 1 below 10 m."
        ),
    ]
    reheat_allowance: Annotated[
        float,
        Quantity(
            "heat_flux",
            "f_RH",
            "W/m2",
            low=0,
            high=80,
            default=0,
            help="Allowance for heating up after a setback. Nothing for continuous heating.",
        ),
    ]
    count_gains: Annotated[
        bool,
        Flag(default=False, help="Count gains from warmer rooms, neighbours and unheated spaces."),
    ]
    infiltration_weight: Annotated[
        float,
        Number(
            "w",
            low=0.5,
            high=1,
            default_rule="building-infiltration-weight",
            help="Share of the rooms' air that the whole house has at one time.",
        ),
    ]
    spaces: Annotated[
        list[Space], Rows(low=0, high=20, help="Its unheated spaces, where a balance is wanted.")
    ] = []
    rooms: Annotated[list[Room], Rows(low=1, high=60, help="Its heated rooms.")]


class RoomOutputs(Item):
    """What one room needs."""

    name: Annotated[str, Name(help="Name of the room.")]
    load: Annotated[float, Quantity("power", "Φ", "W", help="Design heat load of the room.")]
    load_per_area: Annotated[float, Quantity("heat_flux", "φ", "W/m2", help="Over its floor.")]
    outside: Annotated[float, Quantity("power", "Φ_e", "W", help="To outside, bridges with it.")]
    ground: Annotated[float, Quantity("power", "Φ_g", "W", help="To the ground.")]
    unheated: Annotated[float, Quantity("power", "Φ_u", "W", help="To unheated spaces.")]
    inside: Annotated[
        float, Quantity("power", "Φ_j", "W", help="To other rooms and neighbours, as counted.")
    ]
    air: Annotated[float, Quantity("power", "Φ_V", "W", help="To warm the air.")]
    reheat: Annotated[float, Quantity("power", "Φ_RH", "W", help="To heat up after a setback.")]
    air_flow: Annotated[float, Quantity("volume_flow", "V", "m3/h", help="Air that is warmed.")]
    air_changes: Annotated[
        float, Quantity("frequency", "n", "1/h", help="Air changes, recovery not deducted.")
    ]


class Share(Item):
    """What goes through one kind of element."""

    name: Annotated[str, Name(help="Kind of element, or air.")]
    loss: Annotated[float, Quantity("power", "Φ", "W", help="Loss through it, whole house.")]


class SpaceOutputs(Item):
    """An unheated space on the design day."""

    name: Annotated[str, Name(help="Name of the space.")]
    temperature: Annotated[
        float, Quantity("temperature", "θ_u", "degC", help="Its temperature, by its balance.")
    ]


class HeatLossOutputs(Outputs):
    """The house and its rooms."""

    design_outside_temperature: Annotated[
        float, Quantity("temperature", "θ_e", "degC", help="Outside, at the altitude of the house.")
    ]
    altitude: Annotated[float, Quantity("length", "z", "m", help="Altitude taken for the house.")]
    air_pressure: Annotated[
        float, Quantity("pressure_absolute", "p", "kPa", help="Air pressure at that altitude.")
    ]
    design_heat_loss: Annotated[
        float,
        Quantity("power", "Φ", "kW", help="Whole house: no exchange between rooms in it."),
    ]
    sum_of_rooms: Annotated[
        float, Quantity("power", "Φ_Σ", "kW", help="All room loads added, for the emitters.")
    ]
    transmission: Annotated[
        float, Quantity("power", "Φ_T", "kW", help="To outside, ground, unheated and neighbours.")
    ]
    air: Annotated[float, Quantity("power", "Φ_V", "kW", help="To warm the air, as weighted.")]
    reheat: Annotated[float, Quantity("power", "Φ_RH", "kW", help="Reheat of all rooms.")]
    floor_area: Annotated[float, Quantity("area", "A_f", "m2", help="Floor of all rooms.")]
    loss_per_area: Annotated[float, Quantity("heat_flux", "φ", "W/m2", help="Loss over the floor.")]
    loss_coefficient: Annotated[
        float,
        Quantity(
            "thermal_conductance",
            "H",
            "W/K",
            help="Loss a kelvin to outside, ground, unheated spaces and air as weighted; rooms, "
            "neighbours and reheat are not in it.",
        ),
    ]
    spaces: Annotated[list[SpaceOutputs], Rows(help="Each unheated space of the list.")]
    rooms: Annotated[list[RoomOutputs], Rows(help="Each room.")]
    breakdown: Annotated[list[Share], Rows(help="Loss by kind of element.")]
