"""The closed table of units against pint, and both directions of every conversion."""

from __future__ import annotations

import math

import pint
import pytest

from tundish.quantities.kinds import conversion, from_si, to_si
from tundish.quantities.table import ROWS, Spelling

UNITS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
ALL = [(row.kind, row.spellings[0], item) for row in ROWS for item in row.spellings]


@pytest.mark.parametrize(("kind", "si", "item"), ALL, ids=lambda v: getattr(v, "text", v))
def test_conversions_go_there_and_back(kind: str, si: Spelling, item: Spelling) -> None:
    assert conversion(kind, si.text) == (1.0, 0.0)
    for value in (-3.5, 0.0, 7.25):
        back = from_si(to_si(value, kind, item.text), kind, item.text)
        assert math.isclose(back, value, rel_tol=1e-9, abs_tol=1e-9)


@pytest.mark.parametrize(("kind", "si", "item"), ALL, ids=lambda v: getattr(v, "text", v))
def test_factors_are_those_of_pint(kind: str, si: Spelling, item: Spelling) -> None:
    """The ratio of base units; an offset is held at two points by pint's own conversion."""
    if item.offset:
        for value in (0.0, 100.0):
            theirs = UNITS.Quantity(value, item.pint).to(si.pint).magnitude
            assert math.isclose(to_si(value, kind, item.text), theirs, rel_tol=1e-12)
        return
    try:
        theirs = UNITS.Quantity(1.0, UNITS.Unit(item.pint)).to(si.pint).magnitude
    except ValueError:  # an expression with a number in it is a quantity, not a unit
        theirs = UNITS.parse_expression(item.pint)
        theirs = theirs.to(si.pint).magnitude if hasattr(theirs, "to") else theirs
    assert math.isclose(item.factor, theirs, rel_tol=1e-9)
