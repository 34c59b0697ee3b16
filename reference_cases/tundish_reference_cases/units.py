"""Units of expected values: enough to compare an answer in one unit with a case in another.

Own table, because the corpus stands alone; the tests hold it against the host's and a library's.
"""

from __future__ import annotations

_BTU = 1055.05585262
_PSI = 6894.757293168361
_INCH, _FOOT = 0.0254, 0.3048
_INH2O = 249.08891

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
    "kg": ("mass", 1.0, 0.0),
    "g": ("mass", 1e-3, 0.0),
    "m": ("length", 1.0, 0.0),
    "mm": ("length", 1e-3, 0.0),
    "cm": ("length", 1e-2, 0.0),
    "in": ("length", _INCH, 0.0),
    "ft": ("length", _FOOT, 0.0),
    "m2": ("area", 1.0, 0.0),
    "mm2": ("area", 1e-6, 0.0),
    "cm2": ("area", 1e-4, 0.0),
    "s": ("time", 1.0, 0.0),
    "min": ("time", 60.0, 0.0),
    "h": ("time", 3600.0, 0.0),
    "d": ("time", 86400.0, 0.0),
    "W": ("power", 1.0, 0.0),
    "kW": ("power", 1e3, 0.0),
    "Btu/h": ("power", _BTU / 3600, 0.0),
    "J": ("energy", 1.0, 0.0),
    "kJ": ("energy", 1e3, 0.0),
    "MJ": ("energy", 1e6, 0.0),
    "kWh": ("energy", 3.6e6, 0.0),
    "Wh": ("energy", 3600.0, 0.0),
    "Btu": ("energy", _BTU, 0.0),
    "Pa": ("pressure", 1.0, 0.0),
    "kPa": ("pressure", 1e3, 0.0),
    "MPa": ("pressure", 1e6, 0.0),
    "mbar": ("pressure", 100.0, 0.0),
    "bar": ("pressure", 1e5, 0.0),
    "psi": ("pressure", _PSI, 0.0),
    "inH2O": ("pressure", _INH2O, 0.0),
    "Pa/m": ("pressure gradient", 1.0, 0.0),
    "mbar/m": ("pressure gradient", 100.0, 0.0),
    "m3/s": ("flow", 1.0, 0.0),
    "l/s": ("flow", 1e-3, 0.0),
    "l/min": ("flow", 1e-3 / 60, 0.0),
    "l/h": ("flow", 1e-3 / 3600, 0.0),
    "m3/h": ("flow", 1 / 3600, 0.0),
    "ft3/h": ("flow", _FOOT**3 / 3600, 0.0),
    "kg/s": ("mass flow", 1.0, 0.0),
    "kg/h": ("mass flow", 1 / 3600, 0.0),
    "m/s": ("velocity", 1.0, 0.0),
    "kg/m3": ("density", 1.0, 0.0),
    "Pa.s": ("dynamic viscosity", 1.0, 0.0),
    "mPa.s": ("dynamic viscosity", 1e-3, 0.0),
    "m2/s": ("kinematic viscosity", 1.0, 0.0),
    "mm2/s": ("kinematic viscosity", 1e-6, 0.0),
    "W/K": ("conductance", 1.0, 0.0),
    "W/m2": ("heat flux", 1.0, 0.0),
    "W/(m2.K)": ("transmittance", 1.0, 0.0),
    "W/(m.K)": ("conductivity", 1.0, 0.0),
    "m2.K/W": ("resistance", 1.0, 0.0),
    "J/m3": ("calorific value", 1.0, 0.0),
    "MJ/m3": ("calorific value", 1e6, 0.0),
    "kWh/m3": ("calorific value", 3.6e6, 0.0),
    "1/s": ("frequency", 1.0, 0.0),
    "1/min": ("frequency", 1 / 60, 0.0),
    "1/h": ("frequency", 1 / 3600, 0.0),
    "J/K": ("heat capacity", 1.0, 0.0),
    "kJ/K": ("heat capacity", 1e3, 0.0),
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
