"""A pump's curve by points: straight between them, read in order, the same for columns."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tundish.physics import pumps
from tundish.refusals import Refusal

POINTS = [(0.0, 6.0), (1.0, 5.2), (2.0, 3.1), (2.5, 1.6)]


def _points(points: list[tuple[float, float]]) -> list[Any]:
    return [SimpleNamespace(flow=V, head=H) for V, H in points]


def test_head_is_straight_between_points() -> None:
    flows, heads = pumps.curve_of(_points(POINTS), "/pump")
    asked = np.linspace(0, 2.5, 41)
    wanted = np.interp(asked, flows, heads)
    assert pumps.pump_head(asked, flows, heads) == pytest.approx(wanted, rel=1e-14)  # type: ignore[arg-type]
    for V, H in zip(asked, wanted, strict=True):
        assert pumps.pump_head(float(V), flows, heads) == pytest.approx(H, rel=1e-14)


@pytest.mark.parametrize(
    ("points", "level", "code", "field"),
    [
        ([(0, 6), (2, 5), (2, 4)], False, "pump-curve-flow-not-rising", "/pump/2/flow"),
        ([(0, 6), (1, 6)], False, "pump-curve-not-falling", "/pump/1/head"),
        ([(0, 6), (1, 6.1)], True, "pump-curve-not-falling", "/pump/1/head"),
    ],
)
def test_a_curve_out_of_order_is_refused(
    points: list[tuple[float, float]], level: bool, code: str, field: str
) -> None:
    with pytest.raises(Refusal) as refused:
        pumps.curve_of(_points(points), "/pump", level=level)
    assert (refused.value.code, refused.value.pointer) == (code, field)


def test_a_level_curve_is_read_where_it_may_be_level() -> None:
    assert pumps.curve_of(_points([(0, 6), (1, 6)]), "/pump", level=True)[1] == [6, 6]


def test_head_and_pressure_go_over_into_each_other() -> None:
    assert pumps.pressure_of(1.0, 1000.0) == pytest.approx(9806.65)
    assert pumps.head_of(pumps.pressure_of(3.7, 970.0), 970.0) == pytest.approx(3.7)
