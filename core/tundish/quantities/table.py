"""The closed table of kinds and spellings.

A kind is what a number *is* (gauge pressure, net heat input), which is narrower than its dimension.
Each spelling carries its factor and offset to the kind's SI unit (``SI = value * factor + offset``)
and the pint expression a test derives the same two numbers from. Request text never reaches pint.
"""

from __future__ import annotations

from typing import NamedTuple

BTU = 1055.05585262  # International Table British thermal unit, J
POUND = 0.45359237
FOOT = 0.3048
INCH = 0.0254
GRAVITY = 9.80665
US_GALLON = 231 * INCH**3
IMPERIAL_GALLON = 4.54609e-3
INCH_OF_WATER = 249.08891  # water at 4 degC, Pa
RANKINE = 5 / 9


class Spelling(NamedTuple):
    """One accepted way to write a unit, with its conversion to SI."""

    text: str
    factor: float
    offset: float
    pint: str


class Row(NamedTuple):
    """A kind's SI unit and its spellings, the SI spelling first."""

    kind: str
    spellings: tuple[Spelling, ...]


def _row(kind: str, *units: tuple[str, float, str] | tuple[str, float, float, str]) -> Row:
    spellings = tuple(
        Spelling(unit[0], unit[1], 0.0, unit[2])
        if len(unit) == 3  # noqa: PLR2004
        else Spelling(unit[0], unit[1], unit[2], unit[3])
        for unit in units
    )
    return Row(kind, spellings)


_POWER = (
    ("W", 1.0, "W"),
    ("kW", 1e3, "kW"),
    ("MW", 1e6, "MW"),
    ("Btu/h", BTU / 3600, "Btu_it/hour"),
    ("kBtu/h", BTU / 3.6, "1000*Btu_it/hour"),
)
_PRESSURE = (
    ("Pa", 1.0, "Pa"),
    ("hPa", 1e2, "hPa"),
    ("kPa", 1e3, "kPa"),
    ("MPa", 1e6, "MPa"),
    ("mbar", 1e2, "mbar"),
    ("bar", 1e5, "bar"),
    ("psi", POUND * GRAVITY / INCH**2, "psi"),
    ("inH2O", INCH_OF_WATER, "249.08891*Pa"),
    ("mH2O", GRAVITY * 1e3, "9806.65*Pa"),
)
_GAS_FLOW = (
    ("m3/s", 1.0, "m**3/s"),
    ("m3/h", 1 / 3600, "m**3/hour"),
    ("l/min", 1e-3 / 60, "liter/minute"),
    ("l/s", 1e-3, "liter/second"),
    ("ft3/h", FOOT**3 / 3600, "foot**3/hour"),
)
_CALORIFIC = (
    ("J/m3", 1.0, "J/m**3"),
    ("MJ/m3", 1e6, "MJ/m**3"),
    ("kWh/m3", 3.6e6, "kWh/m**3"),
    ("Btu/ft3", BTU / FOOT**3, "Btu_it/foot**3"),
)
_SHARE = (("1", 1.0, "dimensionless"), ("%", 1e-2, "percent"), ("ppm", 1e-6, "ppm"))

ROWS: tuple[Row, ...] = (
    _row(
        "temperature",
        ("K", 1.0, "kelvin"),
        ("degC", 1.0, 273.15, "degC"),
        ("degF", RANKINE, 459.67 * RANKINE, "degF"),
    ),
    _row(
        "temperature_difference",
        ("K", 1.0, "kelvin"),
        ("degF_diff", RANKINE, "delta_degF"),
    ),
    _row(
        "volume",
        ("m3", 1.0, "m**3"),
        ("l", 1e-3, "liter"),
        ("ml", 1e-6, "milliliter"),
        ("ft3", FOOT**3, "foot**3"),
        ("gal_us", US_GALLON, "gallon"),
        ("gal_imp", IMPERIAL_GALLON, "imperial_gallon"),
    ),
    _row("mass", ("kg", 1.0, "kg"), ("g", 1e-3, "g"), ("t", 1e3, "tonne"), ("lb", POUND, "lb")),
    _row(
        "length",
        ("m", 1.0, "m"),
        ("mm", 1e-3, "mm"),
        ("cm", 1e-2, "cm"),
        ("km", 1e3, "km"),
        ("in", INCH, "inch"),
        ("ft", FOOT, "foot"),
    ),
    _row(
        "area",
        ("m2", 1.0, "m**2"),
        ("mm2", 1e-6, "mm**2"),
        ("cm2", 1e-4, "cm**2"),
        ("ft2", FOOT**2, "foot**2"),
        ("in2", INCH**2, "inch**2"),
    ),
    _row(
        "time",
        ("s", 1.0, "s"),
        ("min", 60.0, "minute"),
        ("h", 3600.0, "hour"),
        ("d", 86400.0, "day"),
    ),
    _row("power", *_POWER),
    _row("heat_input_net", *_POWER),
    _row("heat_input_gross", *_POWER),
    _row(
        "energy",
        ("J", 1.0, "J"),
        ("kJ", 1e3, "kJ"),
        ("MJ", 1e6, "MJ"),
        ("Wh", 3.6e3, "Wh"),
        ("kWh", 3.6e6, "kWh"),
        ("Btu", BTU, "Btu_it"),
    ),
    _row("pressure_gauge", *_PRESSURE),
    _row("pressure_absolute", *_PRESSURE),
    _row("pressure_difference", *_PRESSURE),
    _row(
        "pressure_gradient",
        ("Pa/m", 1.0, "Pa/m"),
        ("kPa/m", 1e3, "kPa/m"),
        ("mbar/m", 1e2, "mbar/m"),
        ("inH2O/ft", INCH_OF_WATER / FOOT, "249.08891*Pa/foot"),
    ),
    _row(
        "expansion_coefficient",
        ("1/K", 1.0, "1/kelvin"),
        ("mm/(m.K)", 1e-3, "mm/m/kelvin"),
        ("1/degF_diff", 1.8, "1/delta_degF"),
    ),
    _row("elastic_modulus", ("Pa", 1.0, "Pa"), ("MPa", 1e6, "MPa"), ("GPa", 1e9, "GPa")),
    _row("compressibility", ("1/Pa", 1.0, "1/Pa"), ("1/GPa", 1e-9, "1/GPa")),
    _row(
        "pressure_per_temperature",
        ("Pa/K", 1.0, "Pa/kelvin"),
        ("mbar/K", 1e2, "mbar/kelvin"),
        ("bar/K", 1e5, "bar/kelvin"),
        ("psi/degF_diff", POUND * GRAVITY / INCH**2 / RANKINE, "psi/delta_degF"),
    ),
    _row(
        "volume_per_energy",
        ("m3/J", 1.0, "m**3/joule"),
        ("l/kWh", 1e-3 / 3.6e6, "liter/kilowatt_hour"),
    ),
    _row("volume_per_power", ("m3/W", 1.0, "m**3/watt"), ("l/kW", 1e-6, "liter/kilowatt")),
    _row(
        "mass_per_energy",
        ("kg/J", 1.0, "kg/joule"),
        ("kg/kWh", 1 / 3.6e6, "kg/kilowatt_hour"),
        ("g/kWh", 1e-3 / 3.6e6, "g/kilowatt_hour"),
    ),
    _row("slope", ("m/m", 1.0, "m/m"), ("mm/m", 1e-3, "mm/m")),
    _row(
        "volume_flow",
        ("m3/s", 1.0, "m**3/s"),
        ("l/s", 1e-3, "liter/second"),
        ("l/min", 1e-3 / 60, "liter/minute"),
        ("l/h", 1e-3 / 3600, "liter/hour"),
        ("m3/h", 1 / 3600, "m**3/hour"),
        ("ft3/h", FOOT**3 / 3600, "foot**3/hour"),
        ("ft3/min", FOOT**3 / 60, "foot**3/minute"),
        ("gal_us/min", US_GALLON / 60, "gallon/minute"),
        ("gal_us/h", US_GALLON / 3600, "gallon/hour"),
    ),
    _row("gas_flow_15", *_GAS_FLOW),
    _row("gas_flow_0", *_GAS_FLOW),
    _row("gas_flow_60f", *_GAS_FLOW),
    _row(
        "mass_flow",
        ("kg/s", 1.0, "kg/s"),
        ("kg/h", 1 / 3600, "kg/hour"),
        ("g/s", 1e-3, "g/s"),
        ("lb/h", POUND / 3600, "lb/hour"),
    ),
    _row("velocity", ("m/s", 1.0, "m/s"), ("ft/s", FOOT, "foot/s")),
    _row("acceleration", ("m/s2", 1.0, "m/s**2")),
    _row(
        "density",
        ("kg/m3", 1.0, "kg/m**3"),
        ("g/l", 1.0, "g/liter"),
        ("kg/l", 1e3, "kg/liter"),
        ("lb/ft3", POUND / FOOT**3, "lb/foot**3"),
    ),
    _row(
        "specific_heat",
        ("J/(kg.K)", 1.0, "J/kg/kelvin"),
        ("kJ/(kg.K)", 1e3, "kJ/kg/kelvin"),
        ("Wh/(kg.K)", 3.6e3, "Wh/kg/kelvin"),
    ),
    _row("specific_enthalpy", ("J/kg", 1.0, "J/kg"), ("kJ/kg", 1e3, "kJ/kg")),
    _row("dynamic_viscosity", ("Pa.s", 1.0, "Pa*s"), ("mPa.s", 1e-3, "mPa*s")),
    _row("kinematic_viscosity", ("m2/s", 1.0, "m**2/s"), ("mm2/s", 1e-6, "mm**2/s")),
    _row(
        "thermal_conductance",
        ("W/K", 1.0, "W/kelvin"),
        ("kW/K", 1e3, "kW/kelvin"),
        ("Btu/(h.degF_diff)", BTU / 3600 / RANKINE, "Btu_it/hour/delta_degF"),
    ),
    _row(
        "thermal_transmittance",
        ("W/(m2.K)", 1.0, "W/m**2/kelvin"),
        (
            "Btu/(h.ft2.degF_diff)",
            BTU / 3600 / FOOT**2 / RANKINE,
            "Btu_it/hour/foot**2/delta_degF",
        ),
    ),
    _row(
        "thermal_conductivity",
        ("W/(m.K)", 1.0, "W/m/kelvin"),
        ("Btu/(h.ft.degF_diff)", BTU / 3600 / FOOT / RANKINE, "Btu_it/hour/foot/delta_degF"),
    ),
    _row(
        "thermal_resistance",
        ("m2.K/W", 1.0, "m**2*kelvin/W"),
        (
            "h.ft2.degF_diff/Btu",
            FOOT**2 * RANKINE * 3600 / BTU,
            "hour*foot**2*delta_degF/Btu_it",
        ),
    ),
    _row("linear_transmittance", ("W/(m.K)", 1.0, "W/m/kelvin")),
    _row(
        "linear_heat_flux",
        ("W/m", 1.0, "W/m"),
        ("Btu/(h.ft)", BTU / 3600 / FOOT, "Btu_it/hour/foot"),
    ),
    _row(
        "heat_flux",
        ("W/m2", 1.0, "W/m**2"),
        ("Btu/(h.ft2)", BTU / 3600 / FOOT**2, "Btu_it/hour/foot**2"),
    ),
    _row(
        "heat_capacity",
        ("J/K", 1.0, "J/kelvin"),
        ("kJ/K", 1e3, "kJ/kelvin"),
        ("kWh/K", 3.6e6, "kWh/kelvin"),
    ),
    _row(
        "degree_days",
        ("K.s", 1.0, "kelvin*s"),
        ("K.d", 86400.0, "kelvin*day"),
        ("K.h", 3600.0, "kelvin*hour"),
        ("degF_diff.d", 86400.0 * RANKINE, "delta_degF*day"),
    ),
    _row(
        "emission_factor",
        ("kg/J", 1.0, "kg/J"),
        ("kg/kWh", 1 / 3.6e6, "kg/(kW*hour)"),
        ("g/kWh", 1e-3 / 3.6e6, "g/(kW*hour)"),
    ),
    _row(
        "volumetric_heat_capacity",
        ("J/(m3.K)", 1.0, "J/m**3/kelvin"),
        ("kJ/(m3.K)", 1e3, "kJ/m**3/kelvin"),
        ("Wh/(m3.K)", 3.6e3, "Wh/m**3/kelvin"),
    ),
    _row("calorific_value", *_CALORIFIC),  # on the basis stated beside it
    _row("calorific_value_gross", *_CALORIFIC),
    _row("calorific_value_net", *_CALORIFIC),
    _row(
        "specific_calorific_value",
        ("J/kg", 1.0, "J/kg"),
        ("MJ/kg", 1e6, "MJ/kg"),
        ("kWh/kg", 3.6e6, "kWh/kg"),
    ),
    _row("head", ("m", 1.0, "m"), ("ft", FOOT, "foot")),
    _row("hydraulic_resistance", ("Pa.s2/m6", 1.0, "Pa*s**2/m**6")),
    _row(
        "frequency",
        ("1/s", 1.0, "1/s"),
        ("1/min", 1 / 60, "1/minute"),
        ("1/h", 1 / 3600, "1/hour"),
    ),
    _row("angle", ("rad", 1.0, "radian"), ("deg", 3.141592653589793 / 180, "degree")),
    _row(
        "hardness",  # amount of alkaline earths; as calcium carbonate 100.0869 g/mol
        ("mol/m3", 1.0, "mol/m**3"),
        ("mmol/l", 1.0, "mmol/liter"),
        ("degdH", 1 / 5.6, "mol/m**3/5.6"),
        ("degfH", 0.1, "0.1*mol/m**3"),
        ("ppm_CaCO3", 1 / 100.0869, "mol/m**3/100.0869"),
    ),
    _row("molar_mass", ("kg/mol", 1.0, "kg/mol"), ("g/mol", 1e-3, "g/mol")),
    _row("molar_volume", ("m3/mol", 1.0, "m**3/mol"), ("l/mol", 1e-3, "liter/mol")),
    _row("molar_energy", ("J/mol", 1.0, "J/mol"), ("kJ/mol", 1e3, "kJ/mol")),
    _row("volume_per_length", ("m3/m", 1.0, "m**3/m"), ("l/m", 1e-3, "liter/m")),
    _row(
        "area_per_power",
        ("m2/W", 1.0, "m**2/W"),
        ("cm2/kW", 1e-7, "cm**2/kilowatt"),
        ("mm2/kW", 1e-9, "mm**2/kilowatt"),
    ),
    _row("volume_fraction", *_SHARE),  # of a gas in a mixture
    _row("efficiency_net", *_SHARE),  # and losses, of the net heat input
    _row("efficiency_gross", *_SHARE),  # of the gross heat input
    _row("voltage", ("V", 1.0, "V"), ("mV", 1e-3, "mV")),
    _row("current", ("A", 1.0, "A"), ("mA", 1e-3, "mA")),
    _row("resistance", ("ohm", 1.0, "ohm"), ("kohm", 1e3, "kiloohm")),
    _row(
        "resistance_per_length",
        ("ohm/m", 1.0, "ohm/m"),
        ("mohm/m", 1e-3, "milliohm/m"),
        ("mV/(A.m)", 1e-3, "mV/A/m"),
        ("ohm/km", 1e-3, "ohm/km"),
    ),
)

ALIASES: dict[str, str] = {
    "°C": "degC",
    "°F": "degF",
    "L": "l",
    "litre": "l",
    "litres": "l",
    "m³": "m3",
    "m²": "m2",
    "m³/h": "m3/h",
    "m³/s": "m3/s",
    "L/min": "l/min",
    "L/s": "l/s",
    "L/h": "l/h",
    "W/m²K": "W/(m2.K)",
    "W/(m²·K)": "W/(m2.K)",
    "W/(m2K)": "W/(m2.K)",
    "W/m2K": "W/(m2.K)",
    "W/mK": "W/(m.K)",
    "W/(m·K)": "W/(m.K)",
    "m²K/W": "m2.K/W",
    "m²·K/W": "m2.K/W",
    "m2K/W": "m2.K/W",
    "m³/kg": "m3/kg",
    "MJ/m³": "MJ/m3",
    "kWh/m³": "kWh/m3",
    "kg/m³": "kg/m3",
    "W/m²": "W/m2",
    "1/hour": "1/h",
    "hr": "h",
    "mins": "min",
    "secs": "s",
    "ppm CaCO3": "ppm_CaCO3",
    "°dH": "degdH",
    "°fH": "degfH",
}
"""Other ways people type the same spelling; understood, never written."""
