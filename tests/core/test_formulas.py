"""Formulas: what is refused, what is computed, and that what is printed is what was computed."""

from __future__ import annotations

import importlib.util
import itertools
import math
import random
import re
import sys
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated, Any
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from tundish.formula import Constant, Sym, constant, formula
from tundish.functions import smaller, total
from tundish.rendering import MATHML, TYPESET, FormulaError
from tundish.sources import Source
from tundish.steps import write_steps
from tundish.working import note, part, recording, silent

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path
    from types import ModuleType

INVENTED = Source(
    "invented",
    kind="derivation",
    document="Invented for tests",
    edition="1",
    locator="-",
    confirmed="derived",
)
Mass = Annotated[float, Sym("mass", "m", "kg")]
Heat = Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")]
End = Annotated[float, Sym("temperature", "T_1", "K")]
Start = Annotated[float, Sym("temperature", "T_0", "K")]
Num = Annotated[float, Sym("number", "x", "1")]
Other = Annotated[float, Sym("number", "y", "1")]
Areas = Annotated[list[float], Sym("area", "A", "m2")]
Losses = Annotated[list[float], Sym("thermal_transmittance", "U", "W/(m2.K)")]
Celsius = Annotated[float, Sym("temperature", "θ", "degC")]
Litres = Annotated[list[float], Sym("volume", "V", "l")]

COLD = constant("k", -3.0, "number", "1")
CEILING = constant("z_max", 5.0, "number", "1", source=INVENTED)


@formula("Q", "energy", "J", source=INVENTED)
def heat(m: Mass, c_p: Heat, T_1: End, T_0: Start) -> float:
    """Heat to warm a mass.

    Further words are not the name.
    """
    return m * c_p * (T_1 - T_0)


@formula("H", "thermal_conductance", "W/K")
def loss(A: Areas, U: Losses, x: Num) -> float:
    """Sum of areas by transmittances, and a share more."""
    return (1 + x) * total(a * u for a, u in zip(A, U, strict=True))


@formula("s", "number", "1")
def double(x: Num) -> float:
    """Twice."""
    return 2 * x


@formula("d", "number", "1")
def gap(x: Num, y: Other) -> float:
    """Difference of two doubles, then doubled again."""
    return double(double(x) - y) - double(y)


@formula("e", "number", "1")
def over_gap(x: Num, y: Other) -> float:
    """A formula over one that is itself over others."""
    return gap(x, y) - double(y) * gap(y, x)


@formula("w", "number", "1")
def capped(x: Num) -> float:
    """Never above the ceiling."""
    return smaller(x, CEILING)


@formula("q", "number", "1")
def squared_below_zero(x: Num) -> float:
    """A power of a constant that is negative."""
    return x - COLD**2


@formula("p", "pressure_absolute", "kPa", empirical=True)
def vapour(t: Celsius) -> float:
    """Invented pressure, stated in kilopascals and degrees Celsius."""
    return 2 + 0.5 * t


@formula("V_t", "volume", "l", empirical=True)
def litres_in_all(V: Litres) -> float:
    """Invented sum, stated in litres."""
    return total(V) + 1


@formula("w", "number", "1", empirical=True)
def capped_empirically(x: Num) -> float:
    """Never above the ceiling, stated without units."""
    return smaller(x, CEILING)


@formula("r", "number", "1")
def over_vapour(t: Celsius, x: Num) -> float:
    """A formula over one that is stated in other units than SI."""
    return x / vapour(t)


# --- making formulas from text --------------------------------------------------------------------

HEADER = """
from __future__ import annotations
from typing import Annotated
from tundish.formula import Sym, constant, formula
from tundish.functions import *
from tundish.functions import absolute, smaller, larger, sqrt, total, exp
A_ = Annotated[float, Sym("number", "a", "1")]
B_ = Annotated[float, Sym("number", "b", "1")]
C_ = Annotated[float, Sym("number", "c", "1")]
L_ = Annotated[list[float], Sym("number", "L", "1")]
M_ = Annotated[list[float], Sym("number", "M", "1")]
K = constant("k", -2.5, "number", "1")
G = constant("g", 9.75, "number", "1")
plain = 3.0

@formula("h", "number", "1")
def half(x: A_) -> float:
    return x / 2

@formula("n", "number", "1")
def least(x: A_, y: B_) -> float:
    return smaller(x, y)

"""
PARAMETERS = "a: A_, b: B_, c: C_, L: L_, M: M_"
_numbers = itertools.count()


@pytest.fixture(scope="module")
def load(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], ModuleType]:
    """Make a module of a text, as a file: formulas read their own source."""
    folder: Path = tmp_path_factory.mktemp("formulas")

    def make(text: str) -> ModuleType:
        name = f"invented_formulas_{next(_numbers)}"
        file = folder / f"{name}.py"
        file.write_text(HEADER + text, encoding="utf-8")
        spec = importlib.util.spec_from_file_location(name, file)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[name] = module  # annotations are read from there
        try:
            spec.loader.exec_module(module)
        finally:
            del sys.modules[name]
        return module

    return make


def _one(expression: str, arguments: str = "a: A_, b: B_, c: C_", more: str = "") -> str:
    return (
        f'@formula("f", "number", "1"{more})\ndef f({arguments}) -> float:\n'
        f"    return {expression}\n"
    )


# --- refused at decoration ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("expression", "words"),
    [
        ("a if a > b else b", "IfExp"),
        ("a < b", "Compare"),
        ("a and b", "BoolOp"),
        ("not a", "UnaryOp"),
        ("+a", "UnaryOp"),
        ("a // b", "FloorDiv"),
        ("a % b", "Mod"),
        ("a @ b", "MatMult"),
        ("a.real", "Attribute"),
        ("L[0]", "Subscript"),
        ("a * plain", "plain"),
        ("a * nowhere", "nowhere"),
        ("a * True", "True"),
        ("a * 'x'", "'x'"),
        ("a * 1j", "1j"),
        ("None", "None"),
        ("(a, b)", "Tuple"),
        ("[a]", "List"),
        ("(lambda: a)()", "by name"),
        ("half(x=a)", "by name"),
        ("a.conjugate()", "by name"),
        ("abs(a)", "abs"),
        ("max(a, b)", "max"),
        ("sum(L)", "sum"),
        ("where(a, b, c)", "where"),
        ("nowhere(a)", "nowhere"),
        ("half(*L)", "Starred"),
        ("sqrt((x := a))", "NamedExpr"),
        ("half", "half"),
        ("total(a * total(L) for a in L)", "sum in a sum"),
        ("total(half(a) for a in L)", "formula inside a sum"),
        ("total(L, M)", "sums something other"),
        ("total(x for x in L if x > 0)", "sums something other"),
        ("total(x * y for x in L for y in M)", "sums something other"),
        ("total([x for x in L])", "sums something other"),
        ("total(2 * L)", "sums something other"),
        ("total(x for x in range(3))", "loops over something other"),
        ("total(x for x in sorted(L))", "loops over something other"),
        ("total(x * y for x, y in zip(L, M, L, strict=True))", "loops over something other"),
        ("total(x * y for x, y in zip(L, [1, 2], strict=True))", "loops over something other"),
        ("total(x * y for x, (y, z) in zip(L, M, strict=True))", "loops over something other"),
        ("total(x for x in nowhere)", "loops over something other"),
        ("total(x * nowhere for x in L)", "nowhere"),
        ("total(x * plain for x in L)", "plain"),
        ("total(x < 1 for x in L)", "Compare"),
    ],
)
def test_refused_expressions(
    load: Callable[[str], ModuleType], expression: str, words: str
) -> None:
    text = _one(expression, PARAMETERS)
    with pytest.raises(FormulaError, match=re.escape(words)):
        load(text)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("def f(a: A_):\n    b = a\n    return b", "one return"),
        ("def f(a: A_):\n    if a:\n        return a\n    return 2 * a", "one return"),
        ("def f(a: A_):\n    for b in [a]:\n        return b", "one return"),
        ("def f(a: A_):\n    '''Words only.'''", "one return"),
        ("def f(a: A_):\n    return", "one return"),
        ("def f(a: A_):\n    pass", "one return"),
        ("def f(a: A_ = 1.0):\n    return a", "plain parameters"),
        ("def f(*a: A_):\n    return a", "plain parameters"),
        ("def f(**a: A_):\n    return a", "plain parameters"),
        ("def f(*, a: A_):\n    return a", "plain parameters"),
        ("class f:\n    a: A_", "plain function"),
    ],
)
def test_refused_shapes(load: Callable[[str], ModuleType], text: str, words: str) -> None:
    with pytest.raises(FormulaError, match=words):
        load(f'@formula("f", "number", "1")\n{text}\n')


def test_an_empirical_formula_calls_no_other(load: Callable[[str], ModuleType]) -> None:
    load(_one("sqrt(a) + K", more=", empirical=True"))
    with pytest.raises(FormulaError, match="calls no other formula"):
        load(_one("half(a)", more=", empirical=True"))


@pytest.mark.parametrize(
    "arguments",
    [
        "a",
        "a: float",
        'a: Annotated[float, "words"]',
        'a: Annotated[float, Sym("number", "a", "1"), Sym("number", "b", "1")]',
    ],
)
def test_a_parameter_without_its_one_sym_is_refused(
    load: Callable[[str], ModuleType], arguments: str
) -> None:
    made = load(_one("a", arguments)).f
    with pytest.raises(FormulaError, match="parameter a needs one Sym"):
        _ = made.text


# --- computing ------------------------------------------------------------------------------------

CASES: list[tuple[Any, tuple[Any, ...], float]] = [
    (heat, (2.0, 4000.0, 330.0, 300.0), 240000.0),
    (loss, ([2.0, 3.0], [0.5, 2.0], 0.25), 8.75),
    (loss, ([], [], 0.25), 0.0),
    (gap, (3.0, 1.0), 8.0),
    (over_gap, (3.0, 1.0), 24.0),
    (capped, (4.0,), 4.0),
    (capped, (6.0,), 5.0),
    (squared_below_zero, (1.0,), -8.0),
    (vapour, (293.15,), 12000.0),
    (litres_in_all, ([0.003, 0.004],), 0.008),
    (over_vapour, (293.15, 6.0), 5e-4),
]


@pytest.mark.parametrize(("made", "arguments", "value"), CASES)
def test_value(made: Any, arguments: tuple[Any, ...], value: float) -> None:
    found = made(*arguments)
    assert found == pytest.approx(value, rel=1e-13)
    assert type(found) is float
    named = dict(zip(made.expression.names, arguments, strict=True))
    assert made(**named) == found


@pytest.mark.parametrize(("made", "arguments", "_value"), CASES)
def test_array_equals_floats(made: Any, arguments: tuple[Any, ...], _value: float) -> None:
    rows = [1.0, 0.5, 1.75, 3.0]

    def scaled(item: Any, by: Any) -> Any:
        return [one * by for one in item] if isinstance(item, list) else item * by

    many = made(*[scaled(item, np.array(rows)) for item in arguments])
    ones = [made(*[scaled(item, by) for item in arguments]) for by in rows]
    np.testing.assert_allclose(np.broadcast_to(many, 4), ones, rtol=1e-15)


@pytest.mark.parametrize("given_", [{"x": 1.0, "z": 2.0}, {"x": 1.0}, {"y": 2.0}])
def test_named_arguments_that_do_not_fit_are_an_error(given_: dict[str, float]) -> None:
    with pytest.raises(TypeError):
        gap(**given_)


@pytest.mark.parametrize("made", [capped, capped_empirically])
def test_a_constant_chosen_is_from_there_a_plain_number(made: Any) -> None:
    with recording() as recorder:
        assert type(made(9.0)) is float
    assert [type(step[2]) for step in recorder.steps] == [float]


def test_a_constant_carries_its_meaning() -> None:
    assert isinstance(CEILING, float)
    assert isinstance(CEILING, Constant)
    assert CEILING + 1 == 6.0
    assert (CEILING.symbol, CEILING.kind, CEILING.unit) == ("z_max", "number", "1")
    assert CEILING.source is INVENTED
    assert capped.text == "min(x, z_max)"
    assert capped.substituted((6.0,), []) == "min(6.0, 5.0)"


# --- steps ----------------------------------------------------------------------------------------


def _steps(run: Callable[[], object]) -> list[dict[str, Any]]:
    with recording() as recorder:
        run()
    return write_steps(recorder)[0]


def test_a_step_says_what_was_done() -> None:
    with recording() as recorder:
        heat(2.0, 4000.0, 330.0, 300.5)
    (step,), sources = write_steps(recorder)
    assert step == {
        "step": "formula",
        "name": "Heat to warm a mass",
        "symbol": "Q",
        "formula": "m·c_p·(T_1 - T_0)",
        "substituted": "2.0 × 4000.0 × (330.0 - 300.5)",
        "value": 236000.0,
        "unit": "J",
        "shown": "Q = 2.36e+05 J",
        "source": "invented",
    }
    assert sources == [INVENTED]


def test_nested_formulas_leave_their_steps_in_order() -> None:
    steps = _steps(lambda: (gap(3.0, 1.0), double(9.0)))
    assert [step["substituted"] for step in steps] == [
        "2 × 3.0",
        "2 × 5.0",
        "2 × 1.0",
        "10.0 - 2.0",
        "2 × 9.0",
    ]
    assert steps[3]["formula"] == "s - s"


def test_formulas_of_formulas_print_what_they_called_directly() -> None:
    steps = _steps(lambda: over_gap(3.0, 1.0))
    assert [step["symbol"] for step in steps] == [*"sssd", "s", *"sssd", "e"]
    assert steps[-1]["substituted"] == "8.0 - 2.0 × -8.0"


def test_sums_of_other_lengths_are_printed_anew() -> None:
    found = [_steps(lambda n=n: loss([2.0] * n, [3.0] * n, 0.5))[0] for n in (2, 0, 1, 2)]  # type: ignore[misc]
    assert [step["substituted"] for step in found] == [
        "(1 + 0.5) × (2.0 × 3.0 + 2.0 × 3.0)",
        "(1 + 0.5) × (0)",
        "(1 + 0.5) × (2.0 × 3.0)",
        "(1 + 0.5) × (2.0 × 3.0 + 2.0 × 3.0)",
    ]


def test_an_empirical_step_is_in_the_units_it_is_stated_in() -> None:
    (step,) = _steps(lambda: vapour(293.25))
    assert _read(step["substituted"]) == pytest.approx(12.05)
    assert step["value"] == pytest.approx(12.05)
    assert step["unit"] == "kPa"
    (step,) = _steps(lambda: litres_in_all([0.003, 0.004]))
    assert step["substituted"] == "(3.0 + 4.0) + 1"


def test_a_formula_over_an_empirical_one_prints_the_number_it_used() -> None:
    first, second = _steps(lambda: over_vapour(293.15, 6.0))
    assert first["value"] == pytest.approx(12.0)
    assert second["value"] == pytest.approx(6.0 / 12000.0)
    assert _read(second["substituted"]) == pytest.approx(second["value"], rel=1e-13)


def test_steps_nest_and_can_be_silent() -> None:
    def run() -> None:
        double(1.0)
        with part("room", "kitchen"):
            double(2.0)
            with part("wall"):
                note("a remark")
            with silent():
                double(3.0)
            double(4.0)
        double(5.0)

    found = [(s.get("substituted", s["name"]), s.get("path")) for s in _steps(run)]
    assert found == [
        ("2 × 1.0", None),
        ("2 × 2.0", ("room kitchen",)),
        ("a remark", ("room kitchen", "wall")),
        ("2 × 4.0", ("room kitchen",)),
        ("2 × 5.0", None),
    ]


def test_a_recorder_ends_with_its_block_even_on_an_error() -> None:
    with pytest.raises(ZeroDivisionError), recording() as outer:  # noqa: PT012
        double(1.0)
        with recording() as inner:
            raise ZeroDivisionError
    assert (len(outer.steps), len(inner.steps)) == (1, 0)
    double(2.0)
    assert len(outer.steps) == 1


# --- what is printed ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("expression", "text", "typeset"),
    [
        ("a - (b - c)", "a - (b - c)", "a - (b - c)"),
        ("a - b - c", "a - b - c", "a - b - c"),
        ("a - (b + c)", "a - (b + c)", "a - (b + c)"),
        ("a - b * c", "a - b·c", "a - b dot c"),
        ("(a - b) * c", "(a - b)·c", "(a - b) dot c"),
        ("a / (b * c)", "a/(b·c)", "frac(a, b dot c)"),
        ("a / b * c", "a/b·c", "frac(a, b) dot c"),
        ("a / (b / c)", "a/(b/c)", "frac(a, frac(b, c))"),
        ("(a + b) / (a - c)", "(a + b)/(a - c)", "frac(a + b, a - c)"),
        ("(a / b) ** 2", "(a/b)^2", "(frac(a, b))^(2)"),
        ("a ** 2 / b", "a^2/b", "frac(a^(2), b)"),
        ("(a ** b) ** c", "(a^b)^c", "(a^(b))^(c)"),
        ("a ** b ** c", "a^(b^c)", "a^(b^(c))"),
        ("a ** (b + c)", "a^(b + c)", "a^(b + c)"),
        ("a ** -2", "a^(-2)", "a^(-2)"),
        ("-(a ** 2)", "-a^2", "-a^(2)"),
        ("(-a) ** 2", "(-a)^2", "(-a)^(2)"),
        ("-(a - b)", "-(a - b)", "-(a - b)"),
        ("a * -b", "a·-b", "a dot -b"),
        ("sqrt(a + b) * exp(-c)", "sqrt(a + b)·exp(-c)", 'sqrt(a + b) dot op("exp")(-c)'),
        ("larger(a, b - c)", "max(a, b - c)", 'op("max")(a, b - c)'),
        ("half(a - b) * G", "h·g", "h dot g"),
        ("1e-7**a", "1e-07^a", "(1 dot 10^(-7))^(a)"),
        ("2.5e-7 * a", "2.5e-07·a", "2.5 dot 10^(-7) dot a"),
    ],
)
def test_symbols(
    load: Callable[[str], ModuleType], expression: str, text: str, typeset: str
) -> None:
    made = load(_one(expression)).f
    assert made.text == text
    assert made.render(TYPESET) == typeset


@pytest.mark.parametrize(
    ("expression", "substituted"),
    [
        ("a - b", "1.5 - -2.0"),
        ("a * b", "1.5 × -2.0"),
        ("b * a", "-2.0 × 1.5"),
        ("a / b", "1.5 / -2.0"),
        ("-b", "--2.0"),
        ("b ** 2", "(-2.0)^2"),
        ("a ** b", "(1.5)^(-2.0)"),
        ("K ** 2", "(-2.5)^2"),
        ("G ** 2", "9.75^2"),
        ("a - K", "1.5 - -2.5"),
        ("half(b) ** 2", "(-1.0)^2"),
        ("least(half(a), half(b)) - half(c)", "-1.0 - 1e-21"),
        ("smaller(a, b) ** 2", "min(1.5, -2.0)^2"),
        ("total(L) ** 2", "(1.0 + -3.0)^2"),
        ("total(x ** 2 for x in L)", "((1.0)^2 + (-3.0)^2)"),
        ("total(x - y for x, y in zip(L, M, strict=True))", "(1.0 - 0.5 + -3.0 - -4.0)"),
        (
            "total(x * K ** 2 for x in M) - total(a * x for x in L)",
            "(0.5 × (-2.5)^2 + -4.0 × (-2.5)^2) - (1.5 × 1.0 + 1.5 × -3.0)",
        ),
        ("total(M) * half(b)", "(0.5 + -4.0) × -1.0"),
    ],
)
def test_numbers_below_zero(
    load: Callable[[str], ModuleType], expression: str, substituted: str
) -> None:
    made = load(_one(expression, PARAMETERS)).f
    arguments = (1.5, -2.0, 2e-21, [1.0, -3.0], [0.5, -4.0])
    with recording() as recorder:
        value = made(*arguments)
    assert write_steps(recorder)[0][-1]["substituted"] == substituted
    assert float(_read(substituted)) == pytest.approx(value, rel=1e-15)


def test_symbols_of_more_than_a_letter() -> None:
    assert heat.render(TYPESET) == 'm dot c_"p" dot (T_"1" - T_"0")'
    assert capped.render(TYPESET) == 'op("min")(x, z_"max")'
    assert loss.text == "(1 + x)·Σ(A·U)"
    assert loss.render(TYPESET) == "(1 + x) dot sum (A dot U)"
    assert MATHML.symbol("<_&") == "<msub><mi>&lt;</mi><mtext>&amp;</mtext></msub>"
    assert TYPESET.symbol("dp/dT") == '"dp/dT"'


ARITY = {"mfrac": 2, "msup": 2, "msub": 2, "mi": 0, "mn": 0, "mo": 0, "mtext": 0}


def _mathml(made: Any) -> ET.Element:
    element = ET.fromstring(f"<math>{made.render(MATHML)}</math>")  # noqa: S314
    for item in element.iter():
        assert len(item) == ARITY.get(item.tag, len(item)), ET.tostring(item)
        if item.tag == "msup":  # a raised number beside a fraction or a power reads wrongly
            assert item[0].tag not in {"mfrac", "msup"}, ET.tostring(item)
    return element


def _linear(item: ET.Element) -> str:
    """Write MathML on one line; a row adds nothing that the eye would not see."""
    inner = [_linear(child) for child in item]
    match item.tag:
        case "mfrac":
            return f"(({inner[0]})/({inner[1]}))"
        case "msup":
            return f"{inner[0]}^({inner[1]})"
        case "msub":
            return f"{inner[0]}_{inner[1]}"
        case "msqrt":
            return f"sqrt({''.join(inner)})"
    text = {"−": "-", "⋅": "·"}.get(item.text or "", item.text or "")
    return f" {text} " if item.tag == "mo" and text not in "(),∑" else text + "".join(inner)


def test_mathml(load: Callable[[str], ModuleType]) -> None:
    assert _linear(_mathml(heat)) == "m · c_p · (T_1 - T_0)"
    assert _linear(_mathml(loss)) == "(1 + x) · ∑(A · U)"
    made = load(_one("sqrt(a - b) / (c * larger(a, 2)) ** 0.5")).f
    assert _linear(_mathml(made)) == "((sqrt(a - b))/((c · max(a,2))^(0.5)))"


# --- printed text recomputed, exactly, for expressions drawn at random ----------------------------

_NUMBER = re.compile(r"(?<![\w.'])\d+\.?\d*(?:e[-+]?\d+)?")
_FUNCTIONS: dict[str, Any] = {"F": lambda text: Fraction(float(text)), "abs": abs}
_FUNCTIONS |= {"min": min, "max": max, "frac": lambda a, b: a / b, "sqrt": math.sqrt}
_FUNCTIONS |= {"absolute": abs, "smaller": min, "larger": max, "total": sum, "zip": zip}
_FUNCTIONS |= {"half": lambda x: x / 2, "least": min}


def _read(text: str, names: dict[str, Any] | None = None) -> Any:
    """Compute what is printed by Python's own reading of it, in exact fractions."""
    text = re.sub(r'op\("(\w+)"\)', r"\1", text)
    text = re.sub(r" dot 10\^\((-?\d+)\)", r"e\1", text)
    text = re.sub(r"×|·| dot ", "*", text).replace("^", "**")
    exact = _NUMBER.sub(lambda found: f"F('{found[0]}')", text)
    known = {"__builtins__": {}, **_FUNCTIONS, **(names or {})}
    return eval(exact, known)  # noqa: S307


PLAIN = ("a", "b", "c", "K", "G", "2", "0.5", "1e-05")
IN_SUM = ("x", "y", "a", "K", "3")


def _nested(chance: random.Random) -> str:
    """Formulas with the same number in doubles as in fractions: halves and the smaller of two."""
    if chance.random() < 0.4:
        return chance.choice("abc")
    if chance.random() < 0.5:
        return f"half({_nested(chance)})"
    return f"least({_nested(chance)}, {_nested(chance)})"


def _sum(chance: random.Random) -> str:
    if chance.random() < 0.3:
        return "total(L)"
    element = _drawn(chance, 2, IN_SUM, special=False)
    if chance.random() < 0.5:
        return f"total({element} for x, y in zip(L, M, strict=True))"
    return f"total({element.replace('y', 'x')} for x in M)"


def _drawn(chance: random.Random, depth: int, atoms: tuple[str, ...], *, special: bool) -> str:
    """Draw an expression; ``special`` with nested formulas and sums."""
    if special and chance.random() < 0.2:
        return _sum(chance) if chance.random() < 0.5 else _nested(chance)
    if depth == 0 or chance.random() < 0.1:
        return chance.choice(atoms)
    one, two = (_drawn(chance, depth - 1, atoms, special=special) for _ in range(2))
    forms = [f"({one} {sign} {two})" for sign in "+-*/"]
    forms += [f"({one} ** {power})" for power in (2, 3, -1)] + [f"(-{one})"] * 2
    forms += [f"absolute({one})", f"smaller({one}, {two})", f"larger({one}, {two})"]
    return chance.choice(forms)


def _trials(
    load: Callable[[str], ModuleType], seed: int, *, special: bool
) -> Iterator[tuple[Any, str, dict[str, Any], Fraction]]:
    """Formulas drawn at random and run: formula, printed numbers, exact names and value."""
    chance = random.Random(f"{seed} {special}")
    sources = [_drawn(chance, 4, PLAIN, special=special) for _ in range(60)]
    made = load(
        "\n".join(_one(e, PARAMETERS).replace("def f", f"def f{i}") for i, e in enumerate(sources))
    )
    ran = 0
    for index, source in enumerate(sources):
        values = [round(chance.uniform(-9, 9), 3) for _ in range(9)]
        rows = chance.randrange(4)
        columns = [*values[:3], values[3 : 3 + rows], values[6 : 6 + rows]]
        names: dict[str, Any] = {
            name: [Fraction(x) for x in item] if isinstance(item, list) else Fraction(item)
            for name, item in zip("abcLM", columns, strict=True)
        }
        names |= {"K": Fraction(-2.5), "G": Fraction(9.75), "k": Fraction(-2.5)}
        names["g"] = names["G"]
        one = getattr(made, f"f{index}")
        try:
            exact = _read(source, names)
            with recording() as recorder:
                one(*columns)
        except (ZeroDivisionError, OverflowError):
            continue
        ran += 1
        yield one, write_steps(recorder)[0][-1]["substituted"], names, exact
    assert ran > 40


@pytest.mark.parametrize("special", [False, True])
@pytest.mark.parametrize("seed", range(5))
def test_printed_numbers_give_the_value(
    load: Callable[[str], ModuleType], seed: int, special: bool
) -> None:
    for _, substituted, _, exact in _trials(load, seed, special=special):
        assert _read(substituted) == exact, substituted


@pytest.mark.parametrize("seed", range(5))
def test_every_notation_means_the_same(load: Callable[[str], ModuleType], seed: int) -> None:
    for made, _, names, exact in _trials(load, seed, special=False):
        for text in (made.text, made.render(TYPESET), _linear(_mathml(made))):
            assert _read(text, names) == exact, text
