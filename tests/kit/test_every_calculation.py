"""The plugin kit on every calculation of the catalogue."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tundish.host import default_host
from tundish.run import Runner
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
def test_reach(calculation: str) -> None:
    kit.check_reach(calculation)


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
def test_independence(calculation: str) -> None:
    kit.check_independence(calculation)


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


@pytest.mark.parametrize(
    "line",
    [
        "    return [x for x in i.rows if x.a < i.b]",
        "    assert i.a < i.b",
        "    return sorted(i.rows)",
        "    return i.a < i.b and i.c",
        "    return i.a if i.a > 0 else i.b",
    ],
)
def test_kernel_lint_sees_every_way_to_decide(line: str) -> None:
    assert kit.kernel_faults(f"def k(i):\n{line}\n")
    assert not kit.kernel_faults(f"def k(i):\n{line}  # structure\n")


def test_columns_that_differ_are_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """A kernel that answers arrays otherwise than floats is caught."""
    from tundish_plugins.condensate.pump_head import formulas

    def wrong(V_s: float, V_p: float, V_in: float) -> float:
        return V_s / (V_p - V_in) if isinstance(V_s, float) else V_s / V_p

    monkeypatch.setattr(formulas.run_time, "function", wrong)
    with pytest.raises(AssertionError, match="/run_time"):
        kit.check_columns("condensate-pump-head", rows=400)


def test_working_that_lies_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """A printed step whose numbers do not give its value is caught."""
    from tundish_plugins.condensate.pump_head import formulas

    assert formulas.rest_time.parameters  # read before the function goes
    monkeypatch.setattr(formulas.rest_time, "function", lambda V_s, V_in: V_s / V_in * 1.001)
    with pytest.raises(AssertionError, match="Rest between two runs"):
        kit.check_working("condensate-pump-head")


def test_a_formula_no_case_runs_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """A formula in reach of the kernel that no case runs is caught, and one it should not run."""
    from tundish_plugins.condensate.pump_head import formulas
    from tundish_plugins.hot_water.recovery.formulas import heat_by_bs_6700

    plain = kit.reachable_formulas
    monkeypatch.setattr(kit, "reachable_formulas", lambda k: [*plain(k), heat_by_bs_6700])
    with pytest.raises(AssertionError, match=r"no case runs {'.*heat_by_bs_6700'}"):
        kit.check_reach("condensate-pump-head")
    monkeypatch.setattr(
        kit, "reachable_formulas", lambda k: [f for f in plain(k) if f is not formulas.rest_time]
    )
    with pytest.raises(AssertionError, match=r"not described: {'.*rest_time'}"):
        kit.check_reach("condensate-pump-head")


def test_a_formula_reached_through_a_base_class_counts() -> None:
    """A class named in a kernel brings the formulas of what it inherits."""
    from tundish_plugins.gas.pipe_sizing.formulas import together
    from tundish_plugins.gas.pipework import DiverseLoad, Load

    assert DiverseLoad.of is Load.of  # inherited, not its own
    assert together in kit.reachable_formulas(DiverseLoad)


@pytest.mark.parametrize(
    ("calculation", "moved"),
    [
        ("safety-discharge-pipe", "relief-valve-rating is moved by relief-valve-rating-ratio"),
        ("mixed-water", "pasteurised is moved by legionella-log-reduction"),  # behind a default
        ("store-standing-loss", "within-guide is moved by"),
    ],
)
def test_a_finding_that_denies_what_it_rests_on_is_seen(
    calculation: str, moved: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = kit.subject(calculation)
    findings = tuple(
        replace(finding, rests_on=()) if finding.computed else finding
        for finding in plain.calculation.findings
    )
    wrong = Runner(replace(plain.calculation, findings=findings))
    lying = replace(plain, runner=wrong, memo={})
    monkeypatch.setattr(kit, "subject", lambda *_: lying)
    with pytest.raises(AssertionError, match=moved):
        kit.check_independence(calculation)


def test_a_wrong_dimension_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """A formula whose result has another dimension than it declares is caught."""
    from tundish_plugins.condensate.pump_head import formulas

    def wrong(V_s: float, V_in: float) -> float:
        return V_s * V_in

    assert formulas.rest_time.parameters  # read before the function goes
    monkeypatch.setattr(formulas.rest_time, "function", wrong)
    with pytest.raises(AssertionError, match="rest_time"):
        kit.check_dimensions("condensate-pump-head")
