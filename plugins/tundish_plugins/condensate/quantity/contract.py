"""What is asked and what is answered about how much condensate a boiler makes."""

from __future__ import annotations

from typing import Annotated

from tundish.contract import (
    Based,
    Column,
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
from tundish_plugins.gas.pipe_sizing.contract import Component  # noqa: TC001  (pydantic reads it)

_HEAT_INPUT = {"net": "heat_input_net", "gross": "heat_input_gross"}
_SHARES = ("volume_fraction", "%")


class Point(Item):
    """One way the boiler runs: its load, its air, its flue gas."""

    name: Annotated[str, Name(help="Name of the operating point.")]
    load: Annotated[
        float,
        Number("φ", low=0.05, high=1, default=1, help="Heat input over that at rated load."),
    ]
    air_ratio: (
        Annotated[
            float,
            Number(
                "λ",
                low=1,
                high=5,
                help="Air supplied for each part of air needed; or give oxygen, or carbon dioxide.",
            ),
        ]
        | None
    ) = None
    oxygen: (
        Annotated[
            float,
            Quantity(
                "volume_fraction", "O2", "%", low=0, high=16, help="Oxygen in the dry flue gas."
            ),
        ]
        | None
    ) = None
    carbon_dioxide: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "CO2",
                "%",
                low=2,
                high=20,
                help="Carbon dioxide in the dry flue gas.",
            ),
        ]
        | None
    ) = None
    flue_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature",
                "θ_f",
                "degC",
                low=10,
                high=120,
                help="Flue gas leaving the heat exchanger; or give the return and the approach.",
            ),
        ]
        | None
    ) = None
    return_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature", "θ_r", "degC", low=10, high=90, help="Water returning to the boiler."
            ),
        ]
        | None
    ) = None
    approach: (
        Annotated[
            float,
            Quantity(
                "temperature_difference",
                "Δθ_a",
                "K",
                low=0,
                high=60,
                help="How much warmer the flue gas leaves than the water returns, from the maker or "
                "an analyser.",
            ),
        ]
        | None
    ) = None


class Measured(Item):
    """Condensate caught at the drain, over an hour or more of steady running."""

    flow: Annotated[
        float,
        Quantity("volume_flow", "V_m", "l/h", low=0, high=100, help="What was caught, an hour."),
    ]
    heat_input: (
        Annotated[
            Based,
            Quantity(
                _HEAT_INPUT,
                "Φ_m",
                "kW",
                low=0.5,
                high=100,
                help="Mean heat input meanwhile, from the meter; at rest, the rated one.",
            ),
        ]
        | None
    ) = None


class QuantityInputs(Inputs):
    """A fuel, a boiler and how it runs."""

    fuel: (
        Annotated[str, Text(longest=40, help="Fuel by name, such as natural-gas or kerosene.")]
        | None
    ) = None
    composition: (
        Annotated[
            list[Component], Rows(low=1, high=12, help="Or the gas as its components by volume.")
        ]
        | None
    ) = None
    heat_input: Annotated[
        Based,
        Quantity(
            _HEAT_INPUT,
            "Φ",
            "kW",
            low=1,
            high=100,
            help="Heat input at rated load, with its basis: net or gross.",
        ),
    ]
    points: Annotated[list[Point], Rows(low=1, high=6, help="Operating points, rated load first.")]
    air_humidity: Annotated[
        float,
        Number(
            "w",
            low=0,
            high=0.02,
            default=0,
            help="Water in the combustion air, kg for each kg of dry air: 0.0073 at 20 °C and 50 % "
            "relative humidity. Dry air unless it is given.",
        ),
    ]
    pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p",
            "mbar",
            low=700,
            high=1100,
            default=1013.25,
            help="Absolute pressure of the flue gas: that of the air outside.",
        ),
    ]
    condensate_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_c",
            "degC",
            low=5,
            high=60,
            default=20,
            help="Temperature at which litres of condensate are counted.",
        ),
    ]
    yearly_fuel: (
        Annotated[
            Based,
            Quantity(
                {"net": "energy", "gross": "energy"},
                "E",
                "kWh",
                low=100,
                high=500000,
                help="Fuel used in a year, with its basis; gas bills count gross.",
            ),
        ]
        | None
    ) = None
    acidity: (
        Annotated[
            float,
            Number("pH", low=1, high=7, help="pH of the condensate, where it was measured."),
        ]
        | None
    ) = None
    measured: Measured | None = None


class Curve(Item):
    """Condensate against temperature at one operating point."""

    temperature: Annotated[
        list[float],
        Column(
            "temperature",
            "θ_r",
            "degC",
            help="Return temperature; without an approach, that of the flue gas.",
        ),
    ]
    share: Annotated[
        list[float], Column("volume_fraction", "f_c", "%", help="Water of the fuel that condenses.")
    ]
    flow: Annotated[list[float], Column("volume_flow", "V", "l/h", help="Condensate.")]


class PointResult(Item):
    """Condensate at one operating point."""

    name: Annotated[str, Name(help="Name of the operating point.")]
    heat_input_net: Annotated[
        float, Quantity("heat_input_net", "Φ_i", "kW", help="Heat input at this load, net.")
    ]
    air_ratio: Annotated[float, Number("λ", help="Air supplied for each part of air needed.")]
    oxygen: Annotated[float, Quantity(_SHARES[0], "O2", "%", help="Oxygen in the dry flue gas.")]
    carbon_dioxide: Annotated[
        float, Quantity(_SHARES[0], "CO2", "%", help="Carbon dioxide in the dry flue gas.")
    ]
    water_share: Annotated[
        float, Quantity(_SHARES[0], "y_w", "%", help="Water vapour in the wet flue gas, uncooled.")
    ]
    dew_point: Annotated[
        float, Quantity("temperature", "θ_d", "degC", help="Dew point of the flue gas.")
    ]
    flue_temperature: Annotated[
        float, Quantity("temperature", "θ_f", "degC", help="Flue gas leaving the heat exchanger.")
    ]
    condenses: Annotated[bool, Flag(help="The flue gas leaves below its dew point.")]
    condensed_share: Annotated[
        float, Quantity(_SHARES[0], "f_c", "%", help="Water of the fuel that condenses.")
    ]
    condensate_mass: Annotated[float, Quantity("mass_flow", "m_c", "kg/h", help="Condensate.")]
    condensate_flow: Annotated[
        float, Quantity("volume_flow", "V_c", "l/h", help="Condensate as litres.")
    ]
    curve: Curve | None = None


class Yearly(Item):
    """Condensate of a year."""

    low: Annotated[float, Quantity("volume", "V_lo", "l", help="With little of it condensing.")]
    high: Annotated[float, Quantity("volume", "V_hi", "l", help="With much of it condensing.")]
    most: Annotated[float, Quantity("volume", "V_max", "l", help="With all of it condensing.")]


class MeasuredResult(Item):
    """What was caught, against what the fuel can make."""

    flow: Annotated[float, Quantity("volume_flow", "V_m", "l/h", help="What was caught.")]
    ceiling: Annotated[
        float, Quantity("volume_flow", "V_max", "l/h", help="The most that the fuel can make.")
    ]
    expected: Annotated[
        float,
        Quantity(
            "volume_flow",
            "V_p",
            "l/h",
            help="The most that the operating points make; at the heat input measured, if given.",
        ),
    ]
    arrives: Annotated[
        bool, Flag(help="Something was caught, or nothing condenses at any operating point.")
    ]
    share_of_ceiling: Annotated[float, Number("r", help="What was caught over the most.")]


class QuantityOutputs(Outputs):
    """Condensate at most, at each operating point, and in a year."""

    heat_input_net: Annotated[
        float, Quantity("heat_input_net", "Φ_i", "kW", help="Heat input at rated load, net.")
    ]
    heat_input_gross: Annotated[
        float, Quantity("heat_input_gross", "Φ_s", "kW", help="Heat input at rated load, gross.")
    ]
    water_by_net: Annotated[
        float,
        Quantity("mass_per_energy", "w_i", "kg/kWh", help="Water the fuel makes, by net heat."),
    ]
    water_by_gross: Annotated[
        float,
        Quantity("mass_per_energy", "w_s", "kg/kWh", help="Water the fuel makes, by gross heat."),
    ]
    water_by_metered_volume: (
        Annotated[
            float,
            Quantity(
                "density", "w_15", "kg/m3", help="Water that a cubic metre of gas at 15 °C makes."
            ),
        ]
        | None
    ) = None
    water_by_normal_volume: (
        Annotated[
            float,
            Quantity(
                "density", "w_0", "kg/m3", help="Water that a cubic metre of gas at 0 °C makes."
            ),
        ]
        | None
    ) = None
    design_mass: Annotated[
        float,
        Quantity("mass_flow", "m_max", "kg/h", help="All the water of the fuel at rated load."),
    ]
    design_flow: Annotated[
        float,
        Quantity(
            "volume_flow", "V_max", "l/h", help="For drain and pump: all of it, as litres an hour."
        ),
    ]
    points: Annotated[list[PointResult], Rows(help="Each operating point.")]
    yearly: Yearly | None = None
    ph_from: Annotated[float, Number("pH_lo", help="pH at its most acid.")] | None = None
    ph_to: Annotated[float, Number("pH_hi", help="pH at its least acid.")] | None = None
    free_acid_as_limestone: (
        Annotated[
            float,
            Quantity(
                "mass",
                "m_l",
                "g",
                help="Limestone that the free acid of a year's condensate alone takes up; real use "
                "is many times more.",
            ),
        ]
        | None
    ) = None
    measured: MeasuredResult | None = None
