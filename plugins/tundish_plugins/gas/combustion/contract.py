"""What is asked and what is answered about the combustion of a gas boiler."""

from __future__ import annotations

from typing import Annotated, Literal

from tundish.contract import (
    Based,
    Choice,
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
from tundish_plugins.gas.pipe_sizing.contract import Component  # noqa: TC001  (read at run time)

_LEAST_CO2, _MOST_CO2, _MOST_O2 = 1.5, 20, 18


class AirInlet(Item):
    """A sample of the air on its way to the burner, taken before any other reading."""

    o2: (
        Annotated[
            float,
            Quantity("volume_fraction", "O2_in", "%", low=0, high=21.5, help="Oxygen in it."),
        ]
        | None
    ) = None
    co2: (
        Annotated[
            float,
            Quantity(
                "volume_fraction", "CO2_in", "%", low=0, high=20, help="Carbon dioxide in it."
            ),
        ]
        | None
    ) = None


class Reading(Item):
    """What the analyser shows at one rate, in the dry sample; what the maker gives for it."""

    name: Annotated[str, Name(help="Name of the reading.")]
    rate: Annotated[
        Literal["maximum", "minimum", "fixed"],
        Choice(help="Rate of the burner; fixed for a burner that has only one."),
    ]
    co2: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "CO2",
                "%",
                low=_LEAST_CO2,
                high=_MOST_CO2,
                help="Carbon dioxide in the dry flue gas; or give o2.",
            ),
        ]
        | None
    ) = None
    o2: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "O2",
                "%",
                low=0,
                high=_MOST_O2,
                help="Oxygen in the dry flue gas; or give co2. With both, they are held against "
                "each other.",
            ),
        ]
        | None
    ) = None
    co: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "CO",
                "ppm",
                low=0,
                high=20000,
                help="Carbon monoxide in the dry flue gas, as shown, not air-free.",
            ),
        ]
        | None
    ) = None
    flue_temperature: Annotated[
        float,
        Quantity("temperature", "θ_f", "degC", low=5, high=250, help="Temperature of the sample."),
    ]
    return_temperature: (
        Annotated[
            float,
            Quantity(
                "temperature", "θ_r", "degC", low=5, high=90, help="Water returning to the boiler."
            ),
        ]
        | None
    ) = None
    heat_input: (
        Annotated[
            Based,
            Quantity(
                {"net": "heat_input_net", "gross": "heat_input_gross"},
                "Φ",
                "kW",
                low=0.5,
                high=78,
                help="Heat input at this rate, with its basis: net or gross.",
            ),
        ]
        | None
    ) = None
    maker_co2_least: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "CO2_lo",
                "%",
                low=_LEAST_CO2,
                high=_MOST_CO2,
                help="Least carbon dioxide the maker gives for this rate.",
            ),
        ]
        | None
    ) = None
    maker_co2_most: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "CO2_hi",
                "%",
                low=_LEAST_CO2,
                high=_MOST_CO2,
                help="Most carbon dioxide the maker gives for this rate.",
            ),
        ]
        | None
    ) = None
    maker_co_most: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "CO_m",
                "ppm",
                low=1,
                high=1000,
                help="Most carbon monoxide the maker gives, as shown, not air-free.",
            ),
        ]
        | None
    ) = None
    maker_ratio_most: (
        Annotated[
            float,
            Number(
                "R_m",
                low=0.0001,
                high=0.008,
                help="Highest ratio of carbon monoxide to carbon dioxide the maker gives.",
            ),
        ]
        | None
    ) = None


class CombustionInputs(Inputs):
    """A gas, the air it burns in, and what the analyser shows."""

    gas: (
        Annotated[
            str, Text(longest=40, help="Gas by name: natural-gas, methane, propane or butane.")
        ]
        | None
    ) = None
    composition: (
        Annotated[list[Component], Rows(low=1, high=12, help="Gas by its components.")] | None
    ) = None
    flue: Annotated[
        Literal["concentric", "separate", "open"],
        Choice(
            help="Flue inside its air duct; air and flue in separate pipes; or open flue with air "
            "from the room."
        ),
    ]
    air_inlet: AirInlet | None = None
    spillage: (
        Annotated[
            Literal["none", "spills"],
            Choice(
                help="Result of the spillage test of an open flue, doors and windows shut and every "
                "fan running; leave it out where it was not done."
            ),
        ]
        | None
    ) = None
    air_temperature: Annotated[
        float,
        Quantity("temperature", "θ_a", "degC", low=-20, high=45, help="Air to the burner."),
    ]
    air_humidity: Annotated[
        float,
        Number(
            "w",
            low=0,
            high=0.03,
            default=0,
            help="Water in the combustion air, kg for each kg of dry air; at 20 °C and half "
            "saturated about 0.007. Dry air gives the lowest dew point.",
        ),
    ]
    pressure: Annotated[
        float,
        Quantity(
            "pressure_absolute",
            "p",
            "mbar",
            low=800,
            high=1100,
            default=1013.25,
            help="Pressure of the atmosphere; lower with altitude.",
        ),
    ]
    reference_temperature: Annotated[
        float,
        Quantity(
            "temperature",
            "θ_0",
            "degC",
            low=0,
            high=30,
            default=15,
            help="Temperature from which heat in air and flue gas counts; heating values are "
            "those at 15 °C.",
        ),
    ]
    readings: Annotated[
        list[Reading],
        Rows(low=1, high=2, help="Reading at the fixed rate, or at maximum and at minimum rate."),
    ]


class ReadingOutputs(Item):
    """What one reading says."""

    name: Annotated[str, Name(help="Name of the reading.")]
    rate: Annotated[Literal["maximum", "minimum", "fixed"], Choice(help="Rate of the burner.")]
    co2: Annotated[
        float, Quantity("volume_fraction", "CO2", "%", help="Carbon dioxide, read or from oxygen.")
    ]
    o2: Annotated[float, Quantity("volume_fraction", "O2", "%", help="Oxygen that goes with it.")]
    o2_least: Annotated[
        float,
        Quantity(
            "volume_fraction",
            "O2_lo",
            "%",
            help="Oxygen there at the least, within the error allowed of the analyser; below 0: "
            "perhaps no excess air.",
        ),
    ]
    air_certain: Annotated[
        bool, Flag(help="There is excess air whatever the analyser's allowed error.")
    ]
    ratio: Annotated[float, Number("R", help="Carbon monoxide over carbon dioxide.")] | None = None
    co_air_free: (
        Annotated[
            float,
            Quantity("volume_fraction", "CO_0", "ppm", help="Carbon monoxide without excess air."),
        ]
        | None
    ) = None
    air_ratio: Annotated[float, Number("λ", help="Air supplied over air needed.")]
    excess_air: Annotated[
        float, Quantity("volume_fraction", "e", "%", help="Air beyond what is needed.")
    ]
    dry_flue_gas: Annotated[float, Number("V_dry", help="Dry flue gas for each volume of gas.")]
    wet_flue_gas: Annotated[
        float, Number("V_wet", help="Flue gas with its water as vapour, for each volume of gas.")
    ]
    water_share: Annotated[
        float, Quantity("volume_fraction", "y_w", "%", help="Water vapour in the wet flue gas.")
    ]
    dew_point: Annotated[
        float, Quantity("temperature", "θ_d", "degC", help="Dew point of the flue gas.")
    ]
    condensing: Annotated[bool, Flag(help="The flue gas leaves below its dew point.")]
    condensed_share: Annotated[
        float, Number("f_c", help="Share of the water in the flue gas that condenses, at the most.")
    ]
    sensible_loss_net: Annotated[
        float,
        Quantity("efficiency_net", "q_A", "%", help="Heat in the flue gas, of the net heat input."),
    ]
    condensing_gain_net: Annotated[
        float,
        Quantity("efficiency_net", "g_c", "%", help="Heat of condensing, of the net heat input."),
    ]
    efficiency_net: Annotated[
        float,
        Quantity(
            "efficiency_net",
            "η_i",
            "%",
            help="Efficiency on net heat input, casing losses not taken off; may pass 100 %.",
        ),
    ]
    efficiency_gross: Annotated[
        float,
        Quantity(
            "efficiency_gross",
            "η_s",
            "%",
            help="Efficiency on gross heat input, casing losses not taken off.",
        ),
    ]
    loss_gross: Annotated[
        float,
        Quantity(
            "efficiency_gross",
            "q_s",
            "%",
            help="All heat lost by the flue, of the gross heat input.",
        ),
    ]
    approach: (
        Annotated[
            float,
            Quantity("temperature_difference", "Δθ", "K", help="Flue gas warmer than the return."),
        ]
        | None
    ) = None
    heat_input_net: (
        Annotated[float, Quantity("heat_input_net", "Φ_i", "kW", help="Heat input, net.")] | None
    ) = None
    heat_input_gross: (
        Annotated[float, Quantity("heat_input_gross", "Φ_s", "kW", help="Heat input, gross.")]
        | None
    ) = None
    flue_loss: (
        Annotated[float, Quantity("power", "Φ_f", "kW", help="Heat lost by the flue.")] | None
    ) = None
    condensate: (
        Annotated[float, Quantity("mass_flow", "m_c", "kg/h", help="Most condensate at this rate.")]
        | None
    ) = None
    co_read: Annotated[bool, Flag(help="Carbon monoxide was read.")]
    window_given: Annotated[
        bool, Flag(help="The maker's least and most carbon dioxide were given.")
    ]
    maker_gives_co: Annotated[bool, Flag(help="The maker gives a limit of carbon monoxide.")]
    maker_gives_ratio: Annotated[bool, Flag(help="The maker gives a limit of the ratio.")]


class Curve(Item):
    """Efficiency against temperature at the air of the first reading."""

    flue_temperature: Annotated[
        list[float], Column("temperature", "θ_f", "degC", help="Flue gas leaving.")
    ]
    efficiency_gross: Annotated[
        list[float], Column("efficiency_gross", "η_s", "%", help="Efficiency on gross.")
    ]


class ReturnCurve(Item):
    """The same against the return, with the approach of the first reading."""

    return_temperature: Annotated[
        list[float], Column("temperature", "θ_r", "degC", help="Water returning.")
    ]
    efficiency_gross: Annotated[
        list[float], Column("efficiency_gross", "η_s", "%", help="Efficiency on gross.")
    ]


class CombustionOutputs(Outputs):
    """Air and flue gas of the fuel, and what each reading says."""

    air_needed: Annotated[
        float, Number("L_min", help="Least dry air for each volume of gas, as ideal gases.")
    ]
    dry_flue_gas_least: Annotated[
        float, Number("V_min", help="Dry flue gas without excess air, for each volume of gas.")
    ]
    wet_flue_gas_least: Annotated[
        float, Number("V_wet_min", help="The same with its water as vapour, dry air.")
    ]
    most_co2: Annotated[
        float,
        Quantity(
            "volume_fraction", "CO2_max", "%", help="Highest carbon dioxide this gas can show."
        ),
    ]
    gross_over_net: Annotated[
        float, Number("H_s/H_i", help="Gross over net calorific value of this gas.")
    ]
    integrity_sampled: Annotated[bool, Flag(help="The air inlet was sampled.")]
    flue_proved: Annotated[
        bool,
        Flag(
            help="The sample of the air inlet was fresh air; of an open flue: it does not spill, "
            "and no sample of its air says otherwise."
        ),
    ]
    open_flue: Annotated[bool, Flag(help="The flue is open.")]
    spillage_tested: Annotated[bool, Flag(help="The spillage test was done.")]
    spillage_free: Annotated[bool, Flag(help="The flue does not spill.")] | None = None
    general_limits_hold: Annotated[
        bool,
        Flag(
            help="The flue is proved and not open: the general limits are those of condensing "
            "boilers."
        ),
    ]
    every_rate_read: Annotated[bool, Flag(help="Every rate of the burner was read.")]
    co2_fall: (
        Annotated[
            float,
            Quantity(
                "volume_fraction",
                "ΔCO2",
                "%",
                help="Carbon dioxide at maximum less that at minimum rate; makers of premix "
                "burners often want some tenths of a per cent.",
            ),
        ]
        | None
    ) = None
    windows_given: Annotated[
        bool, Flag(help="The maker's window of carbon dioxide was given at every rate.")
    ]
    minimum_not_richer: (
        Annotated[bool, Flag(help="No more carbon dioxide at minimum rate than at maximum.")] | None
    ) = None
    readings: Annotated[list[ReadingOutputs], Rows(help="Each reading.")]
    curve: Curve | None = None
    return_curve: ReturnCurve | None = None
