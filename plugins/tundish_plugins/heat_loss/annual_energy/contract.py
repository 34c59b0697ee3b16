"""What is asked and what is answered about the heat and fuel of a year."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import Choice, Flag, Inputs, Item, Name, Number, Outputs, Quantity, Rows

_SPREAD = 0.5


class Compensation(Item):
    """Flow temperature that follows the weather."""

    flow_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_f",
            "degC",
            low=25,
            high=90,
            example=55,
            help="Flow on the design day.",
        ),
    ]
    room_temperature: Annotated[
        float,
        Quantity(
            "temperature", "θ_i", "degC", low=10, high=28, example=20, help="Mean of the rooms."
        ),
    ]
    exponent: Annotated[
        float,
        Number("n", low=1, high=1.6, example=1.3, help="Exponent of the radiators."),
    ]
    season: Annotated[
        float,
        Quantity(
            "time",
            "t_s",
            "d",
            low=30,
            high=366,
            example=240,
            help="Days of the year on which heating runs.",
        ),
    ]


class Boiler(Item):
    """A condensing boiler on natural gas, by the return it works at."""

    return_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_r",
            "degC",
            low=20,
            high=80,
            example=45,
            help="Return on the design day; without compensation, all winter.",
        ),
    ]
    flue_approach: Annotated[
        float,
        Quantity(
            "temperature_difference",
            "Δθ_a",
            "K",
            low=0,
            high=40,
            example=5,
            help="By how much the flue gas leaves warmer than the return comes in.",
        ),
    ]
    other_loss: Annotated[
        float,
        Number(
            "l",
            low=0,
            high=0.3,
            example=0.03,
            help="Share of the gas lost otherwise: casing, standing and cycling.",
        ),
    ]
    compensation: Compensation | None = None


class Metered(Item):
    """Gas that went through the meter in some period."""

    gas: Annotated[
        float,
        Quantity(
            "energy",
            "E_g",
            "kWh",
            low=1,
            high=1e6,
            example=14000,
            help="Gas of the period, gross, as on the bill.",
        ),
    ]
    hot_water_gas: Annotated[
        float,
        Quantity(
            "energy",
            "E_w",
            "kWh",
            low=0,
            high=1e6,
            example=2500,
            help="Of that, for hot water and cooking.",
        ),
    ]
    electric_heat: Annotated[
        float,
        Quantity(
            "energy",
            "E_e",
            "kWh",
            low=0,
            high=1e6,
            default=0,
            help="Electricity that heated the rooms. Appliances count only if the base of the degree "
            "days is the room temperature; a lower base allows for them already.",
        ),
    ]
    degree_days: Annotated[
        float,
        Quantity(
            "degree_days",
            "D_m",
            "K.d",
            low=0.5,
            high=10000,
            example=2200,
            help="Degree days of that period and place, to the same base.",
        ),
    ]
    efficiency_spread: Annotated[
        float,
        Number(
            "e",
            low=0,
            high=_SPREAD,
            example=0.05,
            help="By what share of itself the efficiency may be off, either way.",
        ),
    ]
    hot_water_spread: Annotated[
        float,
        Number(
            "w",
            low=0,
            high=_SPREAD,
            example=0.25,
            help="By what share of itself the gas for hot water may be off, either way.",
        ),
    ]


class AnnualEnergyInputs(Inputs):
    """A house, its weather, its boiler, and what the meter says."""

    coefficient: (
        Annotated[
            float,
            Quantity(
                "thermal_conductance",
                "H",
                "W/K",
                low=10,
                high=10000,
                help="Heat loss coefficient of the house: fabric and air. Or give the design load.",
            ),
        ]
        | None
    ) = None
    design_load: (
        Annotated[
            float,
            Quantity(
                "power",
                "Φ",
                "kW",
                low=0.3,
                high=300,
                help="Heat loss on the design day, without reheat and margins.",
            ),
        ]
        | None
    ) = None
    design_difference: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "Δθ",
                "K",
                low=5,
                high=70,
                help="Inside less outside on the design day.",
            ),
        ]
        | None
    ) = None
    place: (
        Annotated[
            Literal["standard", "gatwick"],
            Choice(
                help="Degree days from a table: the standard year of no one place, or a typical "
                "year of Gatwick. Or give degree days."
            ),
        ]
        | None
    ) = None
    degree_days: (
        Annotated[
            float,
            Quantity("degree_days", "D", "K.d", low=1, high=10000, help="Degree days of the year."),
        ]
        | None
    ) = None
    base_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_b",
                "degC",
                low=5,
                high=25,
                help="Base of the degree days: outside temperature from which gains alone keep the "
                "rooms warm. Left out with a place: the base of the country.",
            ),
        ]
        | None
    ) = None
    gains_share: Annotated[
        float,
        Number(
            "g",
            low=0,
            high=0.8,
            default=0,
            help="Share of that heat that sun, people and appliances give, beyond what the base "
            "allows for already.",
        ),
    ]
    degree_day_spread: Annotated[
        float,
        Number(
            "s",
            low=0,
            high=_SPREAD,
            default_rule="degree-day-spread",
            help="By what share of itself the degree days may be off, either way.",
        ),
    ]
    efficiency: (
        Annotated[
            float,
            Number(
                "η",
                low=0.3,
                high=1,
                help="Efficiency over the season, heat over gross gas. Or describe the boiler.",
            ),
        ]
        | None
    ) = None
    boiler: Boiler | None = None
    price: (
        Annotated[
            float,
            Number("p", low=0, high=1000, help="Price of a kWh of fuel, in your currency."),
        ]
        | None
    ) = None
    emission_factor: (
        Annotated[
            float,
            Quantity(
                "emission_factor",
                "f_c",
                "kg/kWh",
                low=0,
                high=2,
                help="Carbon dioxide from a kWh of fuel, gross.",
            ),
        ]
        | None
    ) = None
    metered: Metered | None = None


class Month(Item):
    """One month of the table."""

    name: Annotated[str, Name(help="Month.")]
    degree_days: Annotated[float, Quantity("degree_days", "D", "K.d", help="Degree days.")]
    heat: Annotated[float, Quantity("energy", "E", "kWh", help="Heat for the rooms.")]
    fuel: Annotated[float, Quantity("energy", "F", "kWh", help="Fuel for that, gross.")]


class BoilerAnswer(Item):
    """How the boiler works over the season."""

    mean_load: Annotated[float, Number("r", help="Mean load over design load.")] | None = None
    return_mean: Annotated[
        float,
        Quantity("temperature", "θ_r", "degC", help="Return, at the mean load of the season."),
    ]
    flue_temperature: Annotated[
        float, Quantity("temperature", "θ_g", "degC", help="Flue gas as it leaves.")
    ]
    flue_efficiency: Annotated[
        float, Number("η_g", help="Efficiency, losses other than by the flue apart.")
    ]


class MeteredAnswer(Item):
    """What the meter says about the house."""

    coefficient: Annotated[
        float,
        Quantity("thermal_conductance", "H_m", "W/K", help="Coefficient that explains the gas."),
    ]
    coefficient_least: Annotated[
        float, Quantity("thermal_conductance", "H_1", "W/K", help="Lower end of its band.")
    ]
    coefficient_most: Annotated[
        float, Quantity("thermal_conductance", "H_2", "W/K", help="Upper end of its band.")
    ]
    ratio: Annotated[float, Number("c", help="Coefficient of the house as given over that one.")]
    credible: Annotated[
        bool, Flag(help="The coefficient as given lies in the band of the metered one.")
    ]
    design_load: (
        Annotated[
            float,
            Quantity("power", "Φ_m", "kW", help="Design load by the metered coefficient."),
        ]
        | None
    ) = None


class AnnualEnergyOutputs(Outputs):
    """Heat, fuel, cost and carbon of a year for heating the rooms; hot water not in it."""

    coefficient: Annotated[
        float, Quantity("thermal_conductance", "H", "W/K", help="Heat loss coefficient.")
    ]
    degree_days: Annotated[
        float, Quantity("degree_days", "D", "K.d", help="Degree days of the year.")
    ]
    base_temperature: Annotated[
        float, Quantity("temperature", "θ_b", "degC", help="Base of the degree days.")
    ]
    heat: Annotated[float, Quantity("energy", "E", "kWh", help="Heat for the rooms in the year.")]
    efficiency: Annotated[
        float, Number("η", help="Efficiency over the season, heat over gross gas.")
    ]
    fuel: Annotated[float, Quantity("energy", "F", "kWh", help="Fuel for the rooms, gross.")]
    fuel_least: Annotated[
        float, Quantity("energy", "F_1", "kWh", help="The same, fewest degree days of the spread.")
    ]
    fuel_most: Annotated[
        float, Quantity("energy", "F_2", "kWh", help="The same, most degree days of the spread.")
    ]
    cost: Annotated[float, Number("K", help="Cost of it, in the currency of the price.")] | None
    carbon: Annotated[float, Quantity("mass", "M", "kg", help="Carbon dioxide of it.")] | None
    boiler: BoilerAnswer | None
    months: Annotated[list[Month], Rows(help="Months, where the table has them.")] | None
    metered: MeteredAnswer | None
