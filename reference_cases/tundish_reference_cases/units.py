"""Units of expected values: enough to compare an answer in one unit with a case in another.

Own table, because the corpus stands alone; the tests hold it against the host's and a library's.
"""

from __future__ import annotations

import math

_BTU = 1055.05585262
_PSI = 6894.757293168361
_INCH, _FOOT = 0.0254, 0.3048
_INH2O = 249.08891
_POUND = 0.45359237
_GALLON_US = 231 * _INCH**3

UNITS: dict[str, tuple[str, float, float]] = {
    # spelling: (dimension, factor to SI, offset to SI)
    "K": ("temperature", 1.0, 0.0),
    "degC": ("temperature", 1.0, 273.15),
    "degF": ("temperature", 5 / 9, 459.67 * 5 / 9),
    "degF_diff": ("temperature", 5 / 9, 0.0),
    "m3": ("volume", 1.0, 0.0),
    "l": ("volume", 1e-3, 0.0),
    "ml": ("volume", 1e-6, 0.0),
    "ft3": ("volume", _FOOT**3, 0.0),
    "gal_us": ("volume", _GALLON_US, 0.0),
    "gal_imp": ("volume", 4.54609e-3, 0.0),
    "kg": ("mass", 1.0, 0.0),
    "g": ("mass", 1e-3, 0.0),
    "t": ("mass", 1e3, 0.0),
    "lb": ("mass", _POUND, 0.0),
    "m": ("length", 1.0, 0.0),
    "mm": ("length", 1e-3, 0.0),
    "cm": ("length", 1e-2, 0.0),
    "km": ("length", 1e3, 0.0),
    "in": ("length", _INCH, 0.0),
    "ft": ("length", _FOOT, 0.0),
    "m2": ("area", 1.0, 0.0),
    "mm2": ("area", 1e-6, 0.0),
    "cm2": ("area", 1e-4, 0.0),
    "ft2": ("area", _FOOT**2, 0.0),
    "in2": ("area", _INCH**2, 0.0),
    "s": ("time", 1.0, 0.0),
    "min": ("time", 60.0, 0.0),
    "h": ("time", 3600.0, 0.0),
    "d": ("time", 86400.0, 0.0),
    "W": ("power", 1.0, 0.0),
    "kW": ("power", 1e3, 0.0),
    "MW": ("power", 1e6, 0.0),
    "Btu/h": ("power", _BTU / 3600, 0.0),
    "kBtu/h": ("power", _BTU / 3.6, 0.0),
    "J": ("energy", 1.0, 0.0),
    "kJ": ("energy", 1e3, 0.0),
    "MJ": ("energy", 1e6, 0.0),
    "kWh": ("energy", 3.6e6, 0.0),
    "Wh": ("energy", 3600.0, 0.0),
    "Btu": ("energy", _BTU, 0.0),
    "Pa": ("pressure", 1.0, 0.0),
    "hPa": ("pressure", 100.0, 0.0),
    "kPa": ("pressure", 1e3, 0.0),
    "MPa": ("pressure", 1e6, 0.0),
    "mbar": ("pressure", 100.0, 0.0),
    "bar": ("pressure", 1e5, 0.0),
    "psi": ("pressure", _PSI, 0.0),
    "inH2O": ("pressure", _INH2O, 0.0),
    "mH2O": ("pressure", 9806.65, 0.0),
    "Pa/m": ("pressure gradient", 1.0, 0.0),
    "kPa/m": ("pressure gradient", 1e3, 0.0),
    "mbar/m": ("pressure gradient", 100.0, 0.0),
    "inH2O/ft": ("pressure gradient", _INH2O / _FOOT, 0.0),
    "1/K": ("expansion coefficient", 1.0, 0.0),
    "1/degF_diff": ("expansion coefficient", 1.8, 0.0),
    "m3/J": ("volume per energy", 1.0, 0.0),
    "l/kWh": ("volume per energy", 1e-3 / 3.6e6, 0.0),
    "m3/W": ("volume per power", 1.0, 0.0),
    "l/kW": ("volume per power", 1e-6, 0.0),
    "m3/s": ("flow", 1.0, 0.0),
    "l/s": ("flow", 1e-3, 0.0),
    "l/min": ("flow", 1e-3 / 60, 0.0),
    "l/h": ("flow", 1e-3 / 3600, 0.0),
    "m3/h": ("flow", 1 / 3600, 0.0),
    "ft3/h": ("flow", _FOOT**3 / 3600, 0.0),
    "ft3/min": ("flow", _FOOT**3 / 60, 0.0),
    "gal_us/min": ("flow", _GALLON_US / 60, 0.0),
    "gal_us/h": ("flow", _GALLON_US / 3600, 0.0),
    "kg/s": ("mass flow", 1.0, 0.0),
    "kg/h": ("mass flow", 1 / 3600, 0.0),
    "g/s": ("mass flow", 1e-3, 0.0),
    "lb/h": ("mass flow", _POUND / 3600, 0.0),
    "m/s": ("velocity", 1.0, 0.0),
    "ft/s": ("velocity", _FOOT, 0.0),
    "m/s2": ("acceleration", 1.0, 0.0),
    "kg/m3": ("density", 1.0, 0.0),
    "g/l": ("density", 1.0, 0.0),
    "kg/l": ("density", 1e3, 0.0),
    "lb/ft3": ("density", _POUND / _FOOT**3, 0.0),
    "J/(kg.K)": ("specific heat", 1.0, 0.0),
    "kJ/(kg.K)": ("specific heat", 1e3, 0.0),
    "Wh/(kg.K)": ("specific heat", 3.6e3, 0.0),
    "J/kg": ("specific energy", 1.0, 0.0),
    "kJ/kg": ("specific energy", 1e3, 0.0),
    "MJ/kg": ("specific energy", 1e6, 0.0),
    "kWh/kg": ("specific energy", 3.6e6, 0.0),
    "Pa.s": ("dynamic viscosity", 1.0, 0.0),
    "mPa.s": ("dynamic viscosity", 1e-3, 0.0),
    "m2/s": ("kinematic viscosity", 1.0, 0.0),
    "mm2/s": ("kinematic viscosity", 1e-6, 0.0),
    "W/K": ("conductance", 1.0, 0.0),
    "kW/K": ("conductance", 1e3, 0.0),
    "Btu/(h.degF_diff)": ("conductance", _BTU / 3600 * 1.8, 0.0),
    "W/m2": ("heat flux", 1.0, 0.0),
    "Btu/(h.ft2)": ("heat flux", _BTU / 3600 / _FOOT**2, 0.0),
    "W/(m2.K)": ("transmittance", 1.0, 0.0),
    "Btu/(h.ft2.degF_diff)": ("transmittance", _BTU / 3600 / _FOOT**2 * 1.8, 0.0),
    "W/(m.K)": ("conductivity", 1.0, 0.0),
    "Btu/(h.ft.degF_diff)": ("conductivity", _BTU / 3600 / _FOOT * 1.8, 0.0),
    "m2.K/W": ("resistance", 1.0, 0.0),
    "h.ft2.degF_diff/Btu": ("resistance", _FOOT**2 * 3600 / _BTU / 1.8, 0.0),
    "J/m3": ("calorific value", 1.0, 0.0),
    "MJ/m3": ("calorific value", 1e6, 0.0),
    "kWh/m3": ("calorific value", 3.6e6, 0.0),
    "Btu/ft3": ("calorific value", _BTU / _FOOT**3, 0.0),
    "1/s": ("frequency", 1.0, 0.0),
    "1/min": ("frequency", 1 / 60, 0.0),
    "1/h": ("frequency", 1 / 3600, 0.0),
    "J/K": ("heat capacity", 1.0, 0.0),
    "kJ/K": ("heat capacity", 1e3, 0.0),
    "kWh/K": ("heat capacity", 3.6e6, 0.0),
    "Pa.s2/m6": ("hydraulic resistance", 1.0, 0.0),
    "K.s": ("degree days", 1.0, 0.0),
    "K.d": ("degree days", 86400.0, 0.0),
    "K.h": ("degree days", 3600.0, 0.0),
    "degF_diff.d": ("degree days", 48000.0, 0.0),
    "kg/J": ("emission factor", 1.0, 0.0),
    "kg/kWh": ("emission factor", 1 / 3.6e6, 0.0),
    "g/kWh": ("emission factor", 1e-3 / 3.6e6, 0.0),
    "J/(m3.K)": ("volumetric heat capacity", 1.0, 0.0),
    "kJ/(m3.K)": ("volumetric heat capacity", 1e3, 0.0),
    "Wh/(m3.K)": ("volumetric heat capacity", 3.6e3, 0.0),
    "rad": ("angle", 1.0, 0.0),
    "deg": ("angle", math.pi / 180, 0.0),
    "kg/mol": ("molar mass", 1.0, 0.0),
    "g/mol": ("molar mass", 1e-3, 0.0),
    "m3/mol": ("molar volume", 1.0, 0.0),
    "l/mol": ("molar volume", 1e-3, 0.0),
    "J/mol": ("molar energy", 1.0, 0.0),
    "kJ/mol": ("molar energy", 1e3, 0.0),
    "V": ("voltage", 1.0, 0.0),
    "mV": ("voltage", 1e-3, 0.0),
    "A": ("current", 1.0, 0.0),
    "mA": ("current", 1e-3, 0.0),
    "ohm": ("electrical resistance", 1.0, 0.0),
    "kohm": ("electrical resistance", 1e3, 0.0),
    "ohm/m": ("resistance per length", 1.0, 0.0),
    "mohm/m": ("resistance per length", 1e-3, 0.0),
    "mV/(A.m)": ("resistance per length", 1e-3, 0.0),
    "ohm/km": ("resistance per length", 1e-3, 0.0),
    "mol/m3": ("hardness", 1.0, 0.0),
    "mmol/l": ("hardness", 1.0, 0.0),
    "degdH": ("hardness", 1 / 5.6, 0.0),
    "degfH": ("hardness", 0.1, 0.0),
    "ppm": ("hardness", 1 / 100.0869, 0.0),
}


class UnitError(ValueError):
    """Two units cannot be compared."""


def convert(value: float, unit: str, wanted: str) -> float:
    """Convert ``value``; raises :class:`UnitError` when the two measure different things."""
    if unit == wanted:
        return value
    try:
        dimension, factor, offset = UNITS[unit]
        other, to_factor, to_offset = UNITS[wanted]
    except KeyError as error:
        message = f"the corpus does not know the unit {error.args[0]!r}"
        raise UnitError(message) from None
    if dimension != other:
        message = f"{unit} is a {dimension}, {wanted} a {other}"
        raise UnitError(message)
    return (value * factor + offset - to_offset) / to_factor
