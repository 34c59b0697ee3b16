"""What is asked and what is answered about the standing loss of a store."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import Column, Flag, Inputs, Item, Number, Outputs, Quantity, Text


class Insulation(Item):
    """An upright round vessel and its insulation."""

    diameter: Annotated[
        float,
        Quantity("length", "d_1", "mm", low=100, high=2000, help="Diameter of the bare vessel."),
    ]
    height: Annotated[
        float, Quantity("length", "H", "mm", low=200, high=4000, help="Height of the bare vessel.")
    ]
    thickness: Annotated[
        float,
        Quantity("length", "s", "mm", low=5, high=400, help="Insulation round the side."),
    ]
    end_thickness: (
        Annotated[
            float,
            Quantity(
                "length",
                "s_e",
                "mm",
                low=1,
                high=400,
                help="Insulation at top and bottom; the same as round the side when left out.",
            ),
        ]
        | None
    ) = None
    conductivity: Annotated[
        float,
        Quantity(
            "thermal_conductivity",
            "λ",
            "W/(m.K)",
            low=0.01,
            high=0.2,
            help="Conductivity of the insulation when warm, from its maker.",
        ),
    ]
    surface_coefficient: Annotated[
        float,
        Quantity(
            "thermal_transmittance",
            "h",
            "W/(m2.K)",
            low=2,
            high=30,
            default_rule="insulation-surface-coefficient",
            help="Heat from the outer surface to the room, for each kelvin.",
        ),
    ]
    bridges: Annotated[
        float,
        Quantity(
            "thermal_conductance",
            "UA_b",
            "W/K",
            low=0,
            high=10,
            default=0,
            help="Further loss for each kelvin: connections, flanges, feet, gaps. Seldom nothing.",
        ),
    ]


class CoolingTest(Item):
    """The store left alone, without heat and draw-off."""

    start_temperature: Annotated[
        float,
        Quantity("temperature", "T_0", "degC", low=20, high=95, help="Mean temperature at first."),
    ]
    end_temperature: Annotated[
        float,
        Quantity("temperature", "T_1", "degC", low=5, high=95, help="Mean temperature at the end."),
    ]
    ambient_temperature: Annotated[
        float,
        Quantity("temperature", "T_a", "degC", low=-20, high=45, help="Room, mean over the test."),
    ]
    duration: Annotated[
        float, Quantity("time", "t", "h", low=0.5, high=1000, help="Time between the readings.")
    ]


class StandingLossInputs(Inputs):
    """A store, what is known of its loss, and how it is kept. Give the loss in one way."""

    volume: Annotated[
        float,
        Quantity(
            "volume", "V", "l", low=5, high=2000, example=200, help="Water content of the store."
        ),
    ]
    declared_loss: (
        Annotated[
            float,
            Quantity(
                "power", "S", "W", low=1, high=1000, help="Standing loss from the energy label."
            ),
        ]
        | None
    ) = None
    declared_daily_loss: (
        Annotated[
            float,
            Quantity(
                "energy",
                "Q_d",
                "kWh",
                low=0.02,
                high=24,
                help="Standing loss in 24 hours from the maker's sheet.",
            ),
        ]
        | None
    ) = None
    test_difference: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "ΔT_S",
            "K",
            low=20,
            high=70,
            default_rule="standing-loss-test-difference",
            help="Store above room in the test behind the declared loss.",
        ),
    ]
    insulation: Insulation | None = None
    cooling_test: CoolingTest | None = None
    store_temperature: Annotated[
        float,
        Quantity("temperature", "T_s", "degC", low=20, high=95, default=60, help="Store as kept."),
    ]
    ambient_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "T_a",
            "degC",
            low=-20,
            high=45,
            default=20,
            help="Temperature of the place the store stands in.",
        ),
    ]
    cooling_time: Annotated[
        float,
        Quantity(
            "time", "t", "h", low=1, high=240, default=24, help="Time without heat and draw-off."
        ),
    ]
    useful_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "T_u",
                "degC",
                low=10,
                high=90,
                help="Lowest temperature at which the water is still of use.",
            ),
        ]
        | None
    ) = None
    energy_price: (
        Annotated[
            float,
            Number("p", low=0, high=1000, help="Price of a kilowatt hour of heat in the store."),
        ]
        | None
    ) = None
    new_store: Annotated[
        bool,
        Flag(help="The store is newly sold: limits for new products apply.", default=True),
    ]


class Curve(Item):
    """The store left alone."""

    time: Annotated[list[float], Column("time", "t", "h", help="Time without heat.")]
    temperature: Annotated[
        list[float], Column("temperature", "T", "degC", help="Store temperature.")
    ]


class StandingLossOutputs(Outputs):
    """What the store loses."""

    basis: Annotated[str, Text(help="Where the loss comes from.")]
    loss: Annotated[float, Quantity("power", "P", "W", help="Loss at the temperatures given.")]
    daily_loss: Annotated[float, Quantity("energy", "Q", "kWh", help="Loss in a day.")]
    yearly_loss: Annotated[float, Quantity("energy", "Q_y", "kWh", help="Loss in 365 days.")]
    yearly_cost: Annotated[float, Number("K", help="Price of that, as priced.")] | None
    conductance: Annotated[
        float,
        Quantity("thermal_conductance", "UA", "W/K", help="Loss for each kelvin above the room."),
    ]
    side_conductance: (
        Annotated[
            float, Quantity("thermal_conductance", "UA_s", "W/K", help="Part through the side.")
        ]
        | None
    )
    end_conductance: (
        Annotated[
            float,
            Quantity("thermal_conductance", "UA_e", "W/K", help="Part through top and bottom."),
        ]
        | None
    )
    test_loss: Annotated[
        float, Quantity("power", "S", "W", help="Loss at the test difference of the label.")
    ]
    test_daily_loss: Annotated[
        float, Quantity("energy", "Q_d", "kWh", help="The same in 24 hours.")
    ]
    market_limit: (
        Annotated[
            float, Quantity("power", "S_max", "W", help="Most a new store of this size may lose.")
        ]
        | None
    )
    guide_limit: (
        Annotated[
            float,
            Quantity("energy", "Q_g", "kWh", help="Most in 24 hours by the region's guide."),
        ]
        | None
    )
    label_class: (
        Annotated[
            str,
            Text(
                help="Class of the energy label, for a declared loss. All bounds but the one of class "
                "C, the market limit, are from memory."
            ),
        ]
        | None
    )
    time_constant: Annotated[
        float, Quantity("time", "τ", "h", help="Heat capacity over conductance.")
    ]
    end_temperature: Annotated[
        float, Quantity("temperature", "T_1", "degC", help="Store after the time without heat.")
    ]
    useful_time: (
        Annotated[
            float, Quantity("time", "t_u", "h", help="Until it falls to the useful temperature.")
        ]
        | None
    )
    curve: Curve
