"""The corpus's own table of units against the host's and against pint."""

from __future__ import annotations

from typing import Any

import pint
import pytest

from tundish.quantities.table import ROWS
from tundish_reference_cases.units import UNITS, UnitError, convert

SPELLINGS = sorted({(s.text, s.factor, s.offset, s.pint) for row in ROWS for s in row.spellings})
REGISTRY = pint.UnitRegistry()


def test_same_spellings_as_the_host() -> None:
    assert sorted(UNITS) == sorted({text for text, *_ in SPELLINGS})


@pytest.mark.parametrize(("text", "factor", "offset", "_pint"), SPELLINGS, ids=str)
def test_same_numbers_as_the_host(text: str, factor: Any, offset: Any, _pint: Any) -> None:
    assert UNITS[text][1] == pytest.approx(factor, rel=1e-14)
    assert UNITS[text][2] == pytest.approx(offset, rel=1e-14)


def _by_pint(value: Any, expression: Any) -> Any:
    if expression in {"degC", "degF"}:  # a scale with an offset cannot be multiplied
        return REGISTRY.Quantity(value, expression).to_base_units()
    return (value * REGISTRY(expression.replace("kilo*", "1000*"))).to_base_units()


@pytest.mark.parametrize(("text", "_factor", "_offset", "expression"), SPELLINGS, ids=str)
def test_same_numbers_as_pint(text: str, _factor: Any, _offset: Any, expression: Any) -> None:
    for value in (1.0, 37.5):
        mine = value * UNITS[text][1] + UNITS[text][2]
        theirs = _by_pint(value, expression)
        # pint's base units are m, kg, s, K, A, mol, radian: SI throughout
        assert mine == pytest.approx(theirs.magnitude, rel=1e-12)


def test_units_of_one_dimension_only_convert_among_themselves() -> None:
    dimensions = {}
    for text, _, _, expression in SPELLINGS:
        dimensions.setdefault(UNITS[text][0], set()).add(
            str(_by_pint(1.0, expression).dimensionality)
        )
    assert [name for name, found in dimensions.items() if len(found) != 1] == []


@pytest.mark.parametrize(
    ("value", "unit", "wanted", "expected"),
    [
        (60.0, "degC", "degF", 140.0),
        (0.0, "degC", "K", 273.15),
        (9.0, "degF_diff", "K", 5.0),
        (1.0, "bar", "mbar", 1000.0),
        (1.0, "kWh", "MJ", 3.6),
        (36.0, "l/min", "m3/h", 2.16),
        (1.0, "in", "mm", 25.4),
    ],
)
def test_known_conversions(value: Any, unit: str, wanted: Any, expected: Any) -> None:
    assert convert(value, unit, wanted) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(("unit", "wanted"), [("kW", "kWh"), ("bar", "m"), ("stone", "kg")])
def test_no_conversion(unit: str, wanted: Any) -> None:
    with pytest.raises(UnitError):
        convert(1.0, unit, wanted)
