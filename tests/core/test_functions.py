"""The functions of kernels: one meaning for a float and for every element of an array."""

from __future__ import annotations

import math
import subprocess
import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.optimize.elementwise import find_root

from tundish import functions as fn
from tundish.functions import choose, drawn, refuse, require, root
from tundish.refusals import Refusal, RefusedRowsError
from tundish.rows import ROWS, Rows
from tundish.working import note, recording

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

ULPS = 4 * sys.float_info.epsilon


@contextmanager
def column_run(count: int, *, curves: bool = True) -> Iterator[Rows]:
    """Stand in a column run of ``count`` rows."""
    rows = Rows(count, curves=curves)
    token = ROWS.set(rows)
    try:
        yield rows
    finally:
        ROWS.reset(token)


def _codes(rows: Rows) -> dict[int, str]:
    return {row: refusal.code for row, refusal in rows.refused.items()}


# --- mathematics ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("found", "value"),
    [
        (fn.sqrt(9.0), 3.0),
        (fn.exp(0.0), 1.0),
        (fn.exp(1.0), math.e),
        (fn.ln(math.e), 1.0),
        (fn.log10(1000.0), 3.0),
        (fn.sin(math.pi / 6), 0.5),
        (fn.cos(math.pi / 3), 0.5),
        (fn.tan(math.pi / 4), 1.0),
        (fn.absolute(-2.5), 2.5),
        (fn.smaller(2.0, -3.0), -3.0),
        (fn.larger(2.0, -3.0), 2.0),
        (fn.total([1.0, 2.5, -1.0]), 2.5),
        (fn.total(x for x in (4.0,)), 4.0),
        (fn.total([]), 0.0),
    ],
)
def test_known_values(found: float, value: float) -> None:
    assert found == pytest.approx(value, rel=ULPS)
    assert type(found) is float


@pytest.mark.parametrize("name", ["sqrt", "exp", "ln", "log10", "sin", "cos", "tan", "absolute"])
def test_an_array_is_element_by_element(name: str) -> None:
    function: Any = getattr(fn, name)
    low = 1e-3 if name in {"sqrt", "ln", "log10"} else -6.0
    xs = np.linspace(low, 6.0, 401)
    np.testing.assert_allclose(function(xs), [function(x) for x in xs.tolist()], rtol=ULPS)


@pytest.mark.parametrize("function", [fn.smaller, fn.larger])
def test_the_smaller_and_the_larger(function: Any) -> None:
    xs, ys = np.array([1.0, -2.0, 3.0]), np.array([2.0, -3.0, 3.0])
    assert function(xs, ys).tolist() == [function(x, y) for x, y in zip(xs, ys, strict=True)]
    assert function(xs, 0.5).tolist() == [function(x, 0.5) for x in xs.tolist()]
    assert function(0.5, xs).tolist() == [function(0.5, x) for x in xs.tolist()]


def test_a_sum_of_columns() -> None:
    assert fn.total([np.array([1.0, 2.0]), 3.0, np.array([0.5, 0.25])]).tolist() == [4.5, 5.25]


@pytest.mark.parametrize("function", [fn.sqrt, fn.ln, fn.log10])
def test_a_float_outside_the_domain_is_an_error(function: Callable[[float], float]) -> None:
    with pytest.raises(ValueError, match=r"domain|positive"):
        function(-1.0)


def test_floats_need_no_numpy() -> None:
    program = (
        "import sys; from tundish.functions import *\n"
        "choose(smaller(sqrt(2.0), 1.0) < 2, abs, abs, 1.0); root(lambda x: x - 1, 0.0, 3.0)\n"
        "where(all_of(True, not_(False)), 1.0, 2.0); require(True, 'c', '/f'); total([exp(1.0)])\n"
        "assert 'numpy' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", "from math import *\n" + program], check=True, timeout=60)


# --- conditions -----------------------------------------------------------------------------------

TRUTH = [(a, b) for a in (True, False) for b in (True, False)]


@pytest.mark.parametrize(("a", "b"), TRUTH)
def test_conditions_on_floats(a: bool, b: bool) -> None:
    assert fn.not_(a) is (not a)
    assert fn.all_of(a, b) is (a and b)
    assert fn.any_of(a, b) is (a or b)
    assert fn.where(a, 1.0, 2.0) == (1.0 if a else 2.0)
    assert fn.pick(a, "one", "two") == ("one" if a else "two")


def test_conditions_on_arrays() -> None:
    a, b = (np.array(column) for column in zip(*TRUTH, strict=True))
    assert fn.not_(a).tolist() == [not x for x, _ in TRUTH]  # type: ignore[attr-defined]
    assert fn.all_of(a, b).tolist() == [x and y for x, y in TRUTH]  # type: ignore[attr-defined]
    assert fn.any_of(a, b).tolist() == [x or y for x, y in TRUTH]  # type: ignore[attr-defined]
    assert fn.all_of(a, True, b).tolist() == fn.all_of(a, b).tolist()  # type: ignore[attr-defined]
    assert fn.any_of(a, False).tolist() == a.tolist()  # type: ignore[attr-defined]
    assert fn.where(a, np.arange(4.0), -1.0).tolist() == [0.0, 1.0, -1.0, -1.0]  # type: ignore[attr-defined]
    words: Any = fn.pick(a, "one", "three")
    assert words.tolist() == ["one", "one", "three", "three"]


def test_no_condition_at_all() -> None:
    assert fn.all_of() is True
    assert fn.any_of() is False


# --- require --------------------------------------------------------------------------------------


@pytest.mark.parametrize("condition", [False, np.False_])
def test_a_float_is_refused(condition: bool) -> None:
    with pytest.raises(Refusal) as caught:
        require(condition, "too-hot", "/flow", limit=(363.15, "temperature", "degC"))
    assert (caught.value.code, caught.value.pointer) == ("too-hot", "/flow")
    assert caught.value.context == {"limit": (363.15, "temperature", "degC")}


@pytest.mark.parametrize("condition", [True, np.True_])
def test_a_float_that_keeps_the_condition_goes_on(condition: bool) -> None:
    require(condition, "too-hot", "/flow")


def test_rows_are_refused_with_their_own_facts_and_the_first_refusal_stays() -> None:
    flow = np.array([10.0, 20.0, 30.0, 40.0])
    with column_run(4) as rows:
        require(flow < 25, "too-much", "/flow", flow=(flow, "power", "kW"), words="same")
        require(flow > 10, "too-little", "/flow")
        require(flow != 30, "unlucky", "/flow")
        require(flow < 100, "never", "/flow")
    assert _codes(rows) == {2: "too-much", 3: "too-much", 0: "too-little"}
    assert rows.refused[3].context == {"flow": (40.0, "power", "kW"), "words": "same"}
    assert type(rows.refused[3].context["flow"][0]) is float


@pytest.mark.parametrize("run", [lambda: refuse("no", "/x"), lambda: require(False, "no", "/x")])
def test_what_the_structure_decides_refuses_every_row(run: Callable[[], None]) -> None:
    with column_run(3) as rows:
        with pytest.raises(RefusedRowsError):
            run()
        assert _codes(rows) == {0: "no", 1: "no", 2: "no"}
    with pytest.raises(Refusal, match="no"):
        run()


def test_all_rows_refused_by_an_array() -> None:
    with column_run(2) as rows, pytest.raises(RefusedRowsError):
        require(np.array([False, False]), "no", "/x")
    assert _codes(rows) == {0: "no", 1: "no"}


def test_a_nan_keeps_no_condition() -> None:
    with column_run(2) as rows:
        require(np.array([np.nan, 1.0]) < 5, "no", "/x")
    assert _codes(rows) == {0: "no"}


# --- choose ---------------------------------------------------------------------------------------


def _never(*_: object) -> Any:
    raise AssertionError


@pytest.mark.parametrize("true", [True, np.True_])
def test_a_float_runs_one_branch_and_records_why(true: Any) -> None:
    with recording() as recorder:
        assert choose(true, lambda x: x + 1, _never, 1.0, why="steady") == 2.0
        assert choose(not true, _never, lambda x: x + 2, 1.0) == 3.0
    (what, payload, value, _), *rest = recorder.steps
    assert what(payload, value) == {"step": "choice", "name": "steady", "holds": True}
    assert not rest


def test_each_branch_runs_on_its_own_rows() -> None:
    x = np.array([4.0, -4.0, 9.0, -1.0])
    seen = []

    def noted(function: Callable[..., Any]) -> Callable[..., Any]:
        def branch(x: Any, pair: Any) -> Any:
            seen.append((x.tolist(), pair[0].tolist(), pair[1]))
            return function(x)

        return branch

    with np.errstate(all="raise"):
        found = choose(x > 0, noted(np.sqrt), noted(np.negative), x, (x * 10, "same"))
    assert found.tolist() == [2.0, 4.0, 3.0, 1.0]
    assert seen == [([4.0, 9.0], [40.0, 90.0], "same"), ([-4.0, -1.0], [-40.0, -10.0], "same")]


@pytest.mark.parametrize("sign", [1, -1])
def test_a_branch_without_rows_does_not_run(sign: int) -> None:
    x = np.array([1.0, 2.0])
    branches = [lambda x: 2 * x, _never][::sign]
    assert choose(sign * x > 0, branches[0], branches[1], x).tolist() == [2.0, 4.0]


def test_arguments_of_every_shape_are_cut_to_the_rows() -> None:
    x = np.array([1.0, -2.0, 3.0])
    given_ = ([x, 5.0, [x]], {"a": x, "b": None}, np.array(["p", "q", "r"]), 7, True, None)

    def branch(*arguments: Any) -> Any:
        items, table, words, *rest = arguments
        assert len(items[0]) == len(items[2][0]) == len(table["a"]) == len(words) < 3
        assert (items[1], table["b"], rest) == (5.0, None, [7, True, None])
        return items[0] + table["a"], words

    number, words = choose(x > 0, branch, branch, *given_)
    assert number.tolist() == [2.0, -4.0, 6.0]
    assert words.tolist() == ["p", "q", "r"]


@pytest.mark.parametrize(
    ("yes", "no", "expected"),
    [
        (1.0, 2.0, [1.0, 2.0, 1.0]),
        ("long", "shorter", ["long", "shorter", "long"]),
        (True, False, [True, False, True]),
    ],
)
def test_results_are_put_together(yes: Any, no: Any, expected: list[Any]) -> None:
    mask = np.array([True, False, True])
    assert choose(mask, lambda: yes, lambda: no).tolist() == expected
    pair = choose(mask, lambda: (yes, [no]), lambda: (no, [yes]))
    assert type(pair) is tuple
    assert pair[0].tolist() == expected
    assert pair[1][0].tolist() == [no if item == yes else yes for item in expected]
    named = choose(mask, lambda: {"a": yes, "b": (yes,)}, lambda: {"a": no, "b": (no,)})
    assert named["a"].tolist() == named["b"][0].tolist() == expected


def test_branches_of_different_form_are_an_error() -> None:
    with pytest.raises(ValueError, match="zip"):
        choose(np.array([True, False]), lambda: (1.0, 2.0), lambda: (1.0,))


def _sorted_in(x: float) -> Any:
    return choose(
        x < 0,
        lambda x: choose(x < -10, lambda _: "far below", lambda _: "below", x),
        lambda x: choose(x < 10, lambda _: "above", lambda _: "far above", x),
        x,
    )


@given(st.lists(st.floats(-20, 20), min_size=1, max_size=9))
def test_choices_inside_choices(xs: list[float]) -> None:
    found = np.broadcast_to(_sorted_in(np.array(xs)), len(xs))  # type: ignore[arg-type]
    assert found.tolist() == [_sorted_in(x) for x in xs]


def test_refusals_inside_branches_name_the_right_rows() -> None:
    x = np.array([5.0, -1.0, 50.0, -2.0, 500.0, -3.0])

    def above(x: Any) -> Any:
        def large(x: Any) -> Any:
            require(x < 100, "too-large", "/x", x=x)
            return x * 2

        return choose(x > 20, large, lambda x: x * 3, x)

    def below(x: Any) -> Any:
        require(x > -3, "too-small", "/x", x=x)
        return -x

    with column_run(6) as rows:
        found = choose(x > 0, above, below, x)
        assert rows.current.tolist() == list(range(6))
    assert _codes(rows) == {4: "too-large", 5: "too-small"}
    assert {row: why.context["x"] for row, why in rows.refused.items()} == {4: 500.0, 5: -3.0}
    assert found[:4].tolist() == [15.0, 1.0, 100.0, 2.0]


@pytest.mark.parametrize("first", [True, False])
def test_a_branch_that_refuses_all_its_rows_leaves_them_empty(first: bool) -> None:
    x = np.array([1.0, -1.0, 2.0])
    kept, lost = (lambda x: (x, "kept", True)), (lambda _: refuse("no", "/x"))
    with column_run(3) as rows:
        if first:
            number, words, flag = choose(x > 0, kept, lost, x)
        else:
            number, words, flag = choose(x < 0, lost, kept, x)
    assert _codes(rows) == {1: "no"}
    np.testing.assert_array_equal(number, [1.0, np.nan, 2.0])
    assert words.tolist() == ["kept", "", "kept"]
    assert flag.tolist() == [True, False, True]


def test_both_branches_refusing_ends_the_run() -> None:
    with column_run(2) as rows, pytest.raises(RefusedRowsError):
        choose(np.array([True, False]), lambda: refuse("one", "/x"), lambda: refuse("other", "/x"))
    assert _codes(rows) == {0: "one", 1: "other"}


# --- roots ----------------------------------------------------------------------------------------

Curve = tuple["Callable[[Any, Any], Any]", float, float, list[float]]
CURVES: dict[str, Curve] = {
    "line": (lambda x, p: x - p, -10.0, 10.0, [-3.0, 0.1, 7.5]),
    "falling line": (lambda x, p: p - 2 * x, -10.0, 10.0, [-3.0, 0.1, 7.5]),
    "square": (lambda x, p: x * x - p, 0.0, 10.0, [1e-4, 2.0, 50.0]),
    "cubic": (lambda x, p: x * x * x - 2 * x - p, 1.0, 4.0, [0.5, 5.0, 20.0]),
    "exponential": (lambda x, p: fn.exp(x) - p, -5.0, 20.0, [0.01, 3.0, 1e8]),
    "logarithm": (lambda x, p: fn.ln(x) + x - p, 1e-6, 50.0, [-5.0, 1.0, 40.0]),
    "cosine": (lambda x, p: fn.cos(x) - p * x, 0.0, 1.5, [0.3, 1.0, 9.0]),
    "hyperbola": (lambda x, p: 1 / x - p, 1e-3, 100.0, [0.02, 1.0, 900.0]),
    "friction": (
        lambda x, p: 1 / fn.sqrt(x) + 2 * fn.log10(2.51 / (p * fn.sqrt(x))),
        1e-4,
        1.0,
        [4e3, 1e5, 1e8],
    ),
    "kink": (lambda x, p: fn.larger(x - p, 3 * (x - p)), -1.0, 9.0, [0.25, 1 / 3, 8.0]),
    "step": (lambda x, p: fn.where(x < p, -1.0, 2.0) + 0 * x, 0.0, 1.0, [0.2, 1 / 3, 0.9]),
    "small numbers": (lambda x, p: x - p, 0.0, 1.0, [1e-12, 3e-9, 1e-6]),
}


@pytest.mark.parametrize("name", CURVES)
def test_roots_against_another_library(name: str) -> None:
    f, low, high, parameters = CURVES[name]
    tight = {"xatol": 0.0, "xrtol": ULPS, "fatol": 0.0}
    theirs = find_root(f, (low, high), args=(np.array(parameters),), tolerances=tight)
    with recording() as recorder:
        ours = [root(lambda x, p=p: f(x, p), low, high) for p in parameters]  # type: ignore[misc]
    np.testing.assert_allclose(ours, theirs.x, rtol=1e-13)
    steps = [what(payload, value) for what, payload, value, _ in recorder.steps]
    for step, evaluations in zip(steps, theirs.nfev, strict=True):
        assert step["evaluations"] <= evaluations
    brent = [brentq(f, low, high, (p,), xtol=1e-300, rtol=ULPS) for p in parameters]
    np.testing.assert_allclose(ours, brent, rtol=1e-13)


@pytest.mark.parametrize("name", CURVES)
@pytest.mark.parametrize("swapped", [False, True])
def test_roots_of_columns_equal_those_of_floats(name: str, swapped: bool) -> None:
    f, low, high, ends = CURVES[name]
    if swapped:
        low, high = high, low
    p = np.linspace(min(ends), max(ends), 37)
    with column_run(37) as rows:
        many: Any = root(lambda x: f(x, p), low, high)
        bounds: Any = root(lambda x: f(x, p), np.full(37, low), np.full(37, high))
    assert not rows.refused
    ones = [root(lambda x, q=q: f(x, q), low, high) for q in p.tolist()]  # type: ignore[misc]
    np.testing.assert_allclose(many, ones, rtol=1e-14)
    assert bounds.tolist() == many.tolist()


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6), st.floats(1e-3, 1e6), st.floats(0.1, 3.0))
def test_the_root_lies_where_the_sign_changes(
    at: float, below: float, above: float, steep: float
) -> None:
    def f(x: float) -> float:
        return math.atan(steep * (x - at))

    found = root(f, at - below, at + above)
    room = 16 * ULPS * max(abs(at), 1e-12)
    assert f(found - room) <= 0 <= f(found + room)


@pytest.mark.parametrize(("low", "high"), [(2.0, 5.0), (0.0, 2.0)])
def test_a_root_at_an_end(low: float, high: float) -> None:
    assert root(lambda x: x - 2.0, low, high) == 2.0


@pytest.mark.parametrize(
    "f", [lambda x: x * x + 1, lambda x: -x * x - 1, lambda x: x + 0 * x - 50, lambda _: math.nan]
)
def test_no_change_of_sign_is_refused(f: Callable[[float], float]) -> None:
    with pytest.raises(Refusal) as caught:
        root(f, -3.0, 7.0, code="no-duty", field="/pump")
    assert (caught.value.code, caught.value.pointer) == ("no-duty", "/pump")
    with pytest.raises(Refusal, match="no-solution"):
        root(f, -3.0, 7.0)


def test_rows_without_a_change_of_sign_are_refused_and_the_others_answered() -> None:
    p = np.array([4.0, -1.0, 9.0, np.nan])
    with column_run(4) as rows:
        found: Any = root(lambda x: x * x - p, 0.0, 5.0, code="no-duty", field="/pump")
    assert _codes(rows) == {1: "no-duty", 3: "no-duty"}
    np.testing.assert_allclose(found[[0, 2]], [2.0, 3.0], rtol=1e-15)


def test_the_working_of_a_root_shows_bracket_and_proof() -> None:
    def f(x: float) -> float:
        note("tried")
        return x * x - 2

    with recording() as recorder:
        found = root(f, 0.0, 2.0, what="flow")
    first, *rest = [what(payload, value) for what, payload, value, _ in recorder.steps]
    assert (first["step"], first["name"]) == ("search", "flow")
    assert (first["low"], first["high"], first["value"]) == (0.0, 2.0, found)
    assert first["residual"] == found * found - 2
    assert 3 < first["evaluations"] < 20
    assert [step["name"] for step in rest] == ["tried"]


# --- curves ---------------------------------------------------------------------------------------


def _curve(count: int) -> list[float]:
    note("a point")
    return [x / count for x in range(count)]


def test_curves_leave_no_steps() -> None:
    with recording() as recorder:
        assert drawn(_curve, 4) == [0.0, 0.25, 0.5, 0.75]
        note("after")
    assert len(recorder.steps) == 1


def test_curves_of_columns_only_when_wanted() -> None:
    with column_run(2, curves=False):
        assert drawn(_never, 2) is None
    with column_run(2, curves=True):
        assert drawn(_curve, 2) == [0.0, 0.5]


# --- decisions row by row -------------------------------------------------------------------------


def _smallest_that_holds(sizes: list[float], flow: float) -> list[int]:
    """A decision no array can follow: it runs over a row's own numbers, and counts its trials."""
    for place, size in enumerate(sizes):
        if size >= flow:
            return [place, place + 1]
    return [len(sizes) - 1, len(sizes)]


def test_a_decision_on_floats_is_made_once() -> None:
    assert fn.each_row(_smallest_that_holds, [1.0, 2.0, 4.0], 1.5) == [1, 2]


def test_a_decision_on_columns_is_made_for_every_row() -> None:
    flows, middle = np.array([0.5, 1.5, 3.0, 9.0]), np.array([2.0, 2.0, 3.5, 2.0])
    with column_run(4):
        place, trials = fn.each_row(_smallest_that_holds, [1.0, middle, 4.0], flows)
    assert place.tolist() == [0, 1, 1, 2]
    assert trials.tolist() == [1, 2, 2, 3]


def test_a_refused_row_is_not_asked() -> None:
    asked: list[float] = []

    def decide(x: float) -> list[int]:
        asked.append(x)
        return [int(x)]

    with column_run(3):
        x = np.array([1.0, float("nan"), 3.0])
        require(x == x, "gone", "/x")  # noqa: PLR0124
        (found,) = fn.each_row(decide, x)
    assert asked == [1.0, 3.0]
    assert found.tolist() == [1, 1, 3]
