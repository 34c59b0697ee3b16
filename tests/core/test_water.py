"""Water properties against two libraries that share no code with ours."""

from __future__ import annotations

import pytest

from tundish.physics import water

CoolProp = pytest.importorskip("CoolProp.CoolProp")
iapws = pytest.importorskip("iapws")

CELSIUS = [0.01, *range(2, 110, 4), 110.0]


def _kelvin(celsius: float) -> float:
    return celsius + 273.15


def _points() -> list[tuple[float, float]]:
    """Temperature and pressure pairs that are liquid: from 1 to 4 bar absolute."""
    return [
        (_kelvin(t), p)
        for p in (1.0e5, 1.01325e5, 2.5e5, 4.0e5)
        for t in CELSIUS
        if t < 99 or p > 2e5
    ]


@pytest.mark.parametrize(
    ("ours", "theirs", "relative"),
    [
        (water.density, "D", 1e-4),
        (water.specific_heat, "C", 1e-3),
        (water.dynamic_viscosity, "V", 1e-2),
    ],
)
def test_properties_agree_with_coolprop(ours: object, theirs: str, relative: float) -> None:
    for temperature, pressure in _points():
        expected = CoolProp.PropsSI(theirs, "T", temperature, "P", pressure, "Water")
        assert ours(temperature) == pytest.approx(expected, rel=relative)  # type: ignore[operator]


def test_the_fits_are_as_close_as_their_source_says() -> None:
    pressure = water.REFERENCE_PRESSURE
    for celsius in CELSIUS:
        t = _kelvin(celsius)
        expected = [CoolProp.PropsSI(k, "T", t, "P", pressure, "Water") for k in "DCH"]
        assert water.density(t) == pytest.approx(expected[0], rel=2e-6)
        assert water.specific_heat(t) == pytest.approx(expected[1], rel=1e-4)
        assert water.enthalpy(t) == pytest.approx(expected[2], abs=3)


def test_properties_agree_with_iapws() -> None:
    for celsius in CELSIUS[1:-1]:
        t = _kelvin(celsius)
        other = iapws._iapws._Liquid(t)  # noqa: SLF001  (the release at 0.1 MPa has no public name)
        assert water.density(t) == pytest.approx(other["rho"], rel=1e-4)
        assert water.specific_heat(t) == pytest.approx(other["cp"] * 1e3, rel=1e-3)
        assert water.dynamic_viscosity(t) == pytest.approx(other["mu"], rel=1e-12)
        saturated = iapws.iapws97._PSat_T(t) * 1e6  # noqa: SLF001
        assert water.saturation_pressure(t) == pytest.approx(saturated, rel=3e-4)


def test_saturation_pressure_agrees_with_coolprop() -> None:
    for celsius in CELSIUS:
        t = _kelvin(celsius)
        expected = CoolProp.PropsSI("P", "T", t, "Q", 0, "Water")
        assert water.saturation_pressure(t) == pytest.approx(expected, rel=1e-4)


def test_enthalpy_is_the_integral_of_specific_heat() -> None:
    for celsius in (5.0, 20.0, 60.0, 104.0):
        t = _kelvin(celsius)
        slope = (water.enthalpy(t + 0.05) - water.enthalpy(t - 0.05)) / 0.1
        assert slope == pytest.approx(water.specific_heat(t), rel=1e-7)


def test_range() -> None:
    assert water.in_range(273.15)
    assert water.in_range(383.15)
    assert not water.in_range(273.1)
    assert not water.in_range(383.2)


def test_arrays_equal_floats() -> None:
    numpy = pytest.importorskip("numpy")
    temperatures = numpy.linspace(273.15, 383.15, 23)
    for ours in (
        water.density,
        water.specific_heat,
        water.enthalpy,
        water.dynamic_viscosity,
        water.saturation_pressure,
    ):
        many = ours(temperatures)
        for one, value in zip(temperatures.tolist(), many.tolist(), strict=True):
            assert value == pytest.approx(ours(one), rel=1e-13)


def test_heat_of_vaporisation_agrees_with_coolprop() -> None:
    """Saturated vapour less saturated liquid, to 0.002 %."""
    for celsius in CELSIUS:
        ends = [CoolProp.PropsSI("H", "T", _kelvin(celsius), "Q", q, "Water") for q in (1, 0)]
        ours = water.heat_of_vaporisation(_kelvin(celsius))
        assert ours == pytest.approx(ends[0] - ends[1], rel=2e-5)
