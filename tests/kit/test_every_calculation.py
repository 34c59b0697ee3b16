"""The plugin kit on every calculation of the catalogue."""

from __future__ import annotations

import pytest

from tundish.host import default_host
from tundish.testing import kit
from tundish.testing.recompute import evaluate

CATALOGUE = sorted(default_host().entries)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_contract(calculation: str) -> None:
    kit.check_contract(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_kernel(calculation: str) -> None:
    kit.check_kernel(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_units(calculation: str) -> None:
    kit.check_units(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_working(calculation: str) -> None:
    kit.check_working(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_dimensions(calculation: str) -> None:
    kit.check_dimensions(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_directions(calculation: str) -> None:
    kit.check_directions(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_limits(calculation: str) -> None:
    kit.check_limits(calculation)


@pytest.mark.parametrize("calculation", CATALOGUE)
def test_a_few_columns(calculation: str) -> None:
    kit.check_columns(calculation, rows=400)


@pytest.mark.slow
@pytest.mark.parametrize("calculation", CATALOGUE)
def test_ten_thousand_rows(calculation: str) -> None:
    print(calculation, kit.check_columns(calculation))


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2 + 3 × 4", 14.0),
        ("-2^2", -4.0),
        ("2^-1", 0.5),
        ("8 / 2 / 2", 2.0),
        ("(1 + 2) × sqrt(16) - max(1, 5)", 7.0),
        ("1.5e-3 × ln(exp(2))", 0.003),
    ],
)
def test_reader_of_printed_working(text: str, value: float) -> None:
    assert evaluate(text) == pytest.approx(value, rel=1e-15)


def test_kernel_lint_sees_what_arrays_cannot_follow() -> None:
    faults = kit.kernel_faults("def k(i):\n    if i.a < i.b:\n        return max(i.a, 1)\n")
    assert faults == [
        "line 2: orders quantities where an array has no one answer",
        "line 3: calls max()",
    ]
