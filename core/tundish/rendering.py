"""A formula's syntax tree, checked and written out: as text, as MathML, as typeset mathematics."""

from __future__ import annotations

import ast
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from tundish.functions import FORMULA_FUNCTIONS

if TYPE_CHECKING:
    from collections.abc import Callable


class FormulaError(TypeError):
    """The decorated function is not one expression of allowed parts."""


# Binding strength: a part is put in brackets when it binds less than its place needs.
_SUM, _PRODUCT, _SIGN, _POWER, _ATOM = range(5)


@dataclass(frozen=True)
class Style:
    """How the parts of an expression are written in one notation."""

    name: str
    symbol: Callable[[str], str]
    number: Callable[[str], str]
    add: Callable[[str, str], str]
    subtract: Callable[[str, str], str]
    multiply: Callable[[str, str], str]
    divide: Callable[[str, str], str]
    power: Callable[[str, str], str]
    negate: Callable[[str], str]
    brackets: Callable[[str], str]
    call: Callable[[str, list[str]], str]
    sum_of: Callable[[str], str]
    fraction_bar: bool = False  # drawn fractions and raised powers need no brackets inside


def _mathml_symbol(text: str) -> str:
    base, _, sub = text.partition("_")
    if sub:
        return f"<msub><mi>{escape(base)}</mi><mtext>{escape(sub)}</mtext></msub>"
    return f"<mi>{escape(base)}</mi>"


def _mathml_call(name: str, parts: list[str]) -> str:
    if name == "sqrt":
        return f"<msqrt>{parts[0]}</msqrt>"
    inside = "<mo>,</mo>".join(parts)
    return f"<mrow><mi>{name}</mi><mo>(</mo>{inside}<mo>)</mo></mrow>"


def _typeset_symbol(text: str) -> str:
    base, _, sub = text.partition("_")
    head = base if len(base) == 1 else f'"{base}"'
    return f'{head}_"{sub}"' if sub else head


def _typeset_number(text: str) -> str:
    mantissa, _, power = text.partition("e")
    return f"{mantissa} dot 10^({int(power)})" if power else text


def _typeset_call(name: str, parts: list[str]) -> str:
    if name == "sqrt":
        return f"sqrt({parts[0]})"
    return f'op("{name}")({", ".join(parts)})'


symbols = Style(
    name="text",
    symbol=lambda s: s,
    number=lambda s: s,
    add=lambda a, b: f"{a} + {b}",
    subtract=lambda a, b: f"{a} - {b}",
    multiply=lambda a, b: f"{a}·{b}",
    divide=lambda a, b: f"{a}/{b}",
    power=lambda a, b: f"{a}^{b}",
    negate=lambda a: f"-{a}",
    brackets=lambda a: f"({a})",
    call=lambda name, parts: f"{name}({', '.join(parts)})",
    sum_of=lambda a: f"Σ({a})",
)
_LISTS = (list, tuple)
NUMBERS = Style(
    name="numbers",
    symbol=lambda s: s,
    number=lambda s: s,
    add=lambda a, b: f"{a} + {b}",
    subtract=lambda a, b: f"{a} - {b}",
    multiply=lambda a, b: f"{a} × {b}",
    divide=lambda a, b: f"{a} / {b}",
    power=lambda a, b: f"{a}^{b}",
    negate=lambda a: f"-{a}",
    brackets=lambda a: f"({a})",
    call=lambda name, parts: f"{name}({', '.join(parts)})",
    sum_of=lambda a: f"({a})",
)
MATHML_NAMESPACE = "http://www.w3.org/1998/Math/MathML"
MATHML = Style(
    name="mathml",
    symbol=_mathml_symbol,
    number=lambda s: f"<mn>{escape(s)}</mn>",
    add=lambda a, b: f"<mrow>{a}<mo>+</mo>{b}</mrow>",
    subtract=lambda a, b: f"<mrow>{a}<mo>&#x2212;</mo>{b}</mrow>",
    multiply=lambda a, b: f"<mrow>{a}<mo>&#x22C5;</mo>{b}</mrow>",
    divide=lambda a, b: f"<mfrac>{a}{b}</mfrac>",
    power=lambda a, b: f"<msup>{a}{b}</msup>",
    negate=lambda a: f"<mrow><mo>&#x2212;</mo>{a}</mrow>",
    brackets=lambda a: f"<mrow><mo>(</mo>{a}<mo>)</mo></mrow>",
    call=_mathml_call,
    sum_of=lambda a: f"<mrow><mo>&#x2211;</mo><mrow><mo>(</mo>{a}<mo>)</mo></mrow></mrow>",
    fraction_bar=True,
)
TYPESET = Style(
    name="typeset",
    symbol=_typeset_symbol,
    number=_typeset_number,
    add=lambda a, b: f"{a} + {b}",
    subtract=lambda a, b: f"{a} - {b}",
    multiply=lambda a, b: f"{a} dot {b}",
    divide=lambda a, b: f"frac({a}, {b})",
    power=lambda a, b: f"{a}^({b})",
    negate=lambda a: f"-{a}",
    brackets=lambda a: f"({a})",
    call=_typeset_call,
    sum_of=lambda a: f"sum ({a})",
    fraction_bar=True,
)


class Expression:
    """The single expression a formula returns."""

    def __init__(self, node: ast.FunctionDef, names: dict[str, Any], label: str) -> None:
        """Check the tree; raise :class:`FormulaError` for anything a formula may not hold."""
        self._label = label
        self._globals = names
        arguments = node.args
        if arguments.vararg or arguments.kwarg or arguments.kwonlyargs or arguments.defaults:
            self._fail("takes plain parameters only")
        self.names = tuple(a.arg for a in (*arguments.posonlyargs, *arguments.args))
        body = [
            item
            for item in node.body
            if not (isinstance(item, ast.Expr) and isinstance(item.value, ast.Constant))
        ]
        if len(body) != 1 or not isinstance(body[0], ast.Return) or body[0].value is None:
            self._fail("must be one return statement")
        returned = body[0]
        assert isinstance(returned, ast.Return)
        assert returned.value is not None
        self.tree: ast.expr = returned.value
        self.nested = 0
        self.sums = False
        self._check(self.tree, None)
        self._templates: dict[tuple[int, ...], tuple[list[tuple[int | None, Any]], str, bool]] = {}

    def _fail(self, what: str) -> None:
        message = f"formula {self._label} {what}"
        raise FormulaError(message)

    def _global(self, name: str) -> Any:
        return self._globals.get(name)

    def _check(self, node: ast.expr, loop: dict[str, str] | None) -> None:
        """Refuse what a formula may not hold; ``loop`` holds the loop's names inside a sum."""
        match node:
            case ast.BinOp(left=left, op=op, right=right):
                if not isinstance(op, (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)):
                    self._fail(f"uses the operator {type(op).__name__}")
                self._check(left, loop)
                self._check(right, loop)
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                self._check(operand, loop)
            case ast.Constant(value=value):
                if type(value) not in {int, float}:
                    self._fail(f"holds the constant {value!r}")
            case ast.Name(id=name):
                known = name in self.names or hasattr(self._global(name), "symbol")
                known = known or (loop is not None and name in loop)
                if not known:
                    self._fail(f"uses {name}, which is neither a parameter nor a named constant")
            case ast.Call():
                self._check_call(node, loop)
            case _:
                self._fail(f"holds {type(node).__name__}, which a formula may not")

    def _check_call(self, node: ast.Call, loop: dict[str, str] | None) -> None:
        if not isinstance(node.func, ast.Name) or node.keywords:
            self._fail("calls something other than a core function or a formula by name")
        assert isinstance(node.func, ast.Name)
        target = self._global(node.func.id)
        printed = FORMULA_FUNCTIONS.get(target) if callable(target) else None
        if printed == "total":
            if loop is not None:
                self._fail("nests a sum in a sum")
            self._check_total(node)
            return
        if printed is None and not hasattr(target, "expression"):
            self._fail(f"calls {node.func.id}, which is neither a core function nor a formula")
        if printed is None:
            if loop is not None:
                self._fail("calls a formula inside a sum")
            self.nested += 1
        for argument in node.args:
            self._check(argument, loop)

    def _check_total(self, node: ast.Call) -> None:
        self.sums = True
        match node.args:
            case [ast.Name(id=name)] if name in self.names:
                return
            case [ast.GeneratorExp(elt=element, generators=[only])] if not only.ifs:
                self._check(element, self._loop(only))
            case _:
                self._fail("sums something other than a list or one loop over lists")

    def _loop(self, loop: ast.comprehension) -> dict[str, str]:
        """Loop variable -> list parameter."""
        targets: list[ast.expr] = []
        lists: list[ast.expr] = []
        match loop:
            case ast.comprehension(target=ast.Name() as target, iter=ast.Name() as source):
                targets, lists = [target], [source]
            case ast.comprehension(
                target=ast.Tuple(elts=targets),
                iter=ast.Call(func=ast.Name(id="zip"), args=lists),
            ):
                pass
        names = [item.id for item in targets if isinstance(item, ast.Name)]
        sources = [
            item.id for item in lists if isinstance(item, ast.Name) and item.id in self.names
        ]
        if not names or not len(names) == len(sources) == len(targets) == len(lists):
            self._fail("loops over something other than lists among its parameters")
        return dict(zip(names, sources, strict=True))

    # --- writing ----------------------------------------------------------------------------------

    def symbols(self, named: dict[str, str], style: Style) -> str:
        """Write the expression in symbols; ``named`` gives each parameter's symbol."""

        def leaf(name: str, bound: dict[str, str]) -> tuple[str, int]:
            symbol = named.get(bound.get(name, name))
            if symbol is None:
                symbol = self._global(name).symbol
            return style.symbol(symbol), _ATOM

        def nested(target: Any, _arguments: list[ast.expr]) -> tuple[str, int]:
            return style.symbol(target.result.symbol), _ATOM

        def sums(node: ast.expr) -> str:
            if isinstance(node, ast.Name):
                return style.sum_of(leaf(node.id, {})[0])
            assert isinstance(node, ast.GeneratorExp)
            bound = self._loop(node.generators[0])
            return style.sum_of(self._write(node.elt, style, leaf, nested, sums, bound)[0])

        return self._write(self.tree, style, leaf, nested, sums, {})[0]

    def numbers(self, arguments: tuple[Any, ...], children: list[float]) -> str:
        """Write the expression with full numbers; ``children`` are nested formulas' values."""
        lengths = tuple([len(item) for item in arguments if item.__class__ in _LISTS])
        template = self._templates.get(lengths)
        if template is None:
            template = self._templates[lengths] = self._template(arguments)
        order, text, straight = template
        if straight:
            return text % arguments
        return text % tuple(
            [
                children[index]
                if item is None
                else arguments[item][index]
                if index is not None
                else arguments[item]
                for item, index in order
            ]
        )

    def _template(
        self, arguments: tuple[Any, ...]
    ) -> tuple[list[tuple[int | None, Any]], str, bool]:
        """Return where each number comes from, the text to put them in, and if in plain order.

        A number comes from an argument (position, none), from an item of a list (position, index)
        or from a nested formula (none, index). It may be negative, so it binds like a sign.
        """
        order: list[tuple[int | None, Any]] = []
        positions = {name: index for index, name in enumerate(self.names)}
        seen = 0

        def leaf(name: str, bound: dict[str, Any]) -> tuple[str, int]:
            if name in bound:
                order.append(bound[name])
            elif name in positions:
                order.append((positions[name], None))
            else:
                value = float(self._global(name))
                return repr(value), _SIGN if value < 0 else _ATOM
            return "%r", _SIGN

        def nested(_target: Any, inner: list[ast.expr]) -> tuple[str, int]:
            nonlocal seen
            seen += sum(self._count(item) for item in inner)
            order.append((None, seen))
            seen += 1
            return "%r", _SIGN

        def sums(node: ast.expr) -> str:
            parts = []
            if isinstance(node, ast.Name):
                at = positions[node.id]
                for index in range(len(arguments[at])):
                    order.append((at, index))
                    parts.append("%r")
            else:
                assert isinstance(node, ast.GeneratorExp)
                loop = {
                    name: positions[source]
                    for name, source in self._loop(node.generators[0]).items()
                }
                for index in range(min(len(arguments[at]) for at in loop.values())):
                    bound = {name: (at, index) for name, at in loop.items()}
                    parts.append(self._write(node.elt, NUMBERS, leaf, nested, sums, bound)[0])
            return NUMBERS.sum_of(" + ".join(parts) if parts else "0")

        text = self._write(self.tree, NUMBERS, leaf, nested, sums, {})[0]
        straight = order == [(index, None) for index in range(len(self.names))]
        return order, text, straight

    def _count(self, node: ast.expr) -> int:
        """How many formulas are called directly under this node, in order of evaluation."""
        return sum(
            1
            for item in ast.walk(node)
            if isinstance(item, ast.Call)
            and isinstance(item.func, ast.Name)
            and hasattr(self._global(item.func.id), "expression")
        )

    def _write(
        self,
        node: ast.expr,
        style: Style,
        leaf: Callable[[str, dict[str, Any]], tuple[str, int]],
        nested: Callable[[Any, list[ast.expr]], tuple[str, int]],
        sums: Callable[[ast.expr], str],
        bound: dict[str, Any],
    ) -> tuple[str, int]:
        """Return the written node and how strongly it binds."""

        def inner(child: ast.expr, needs: int) -> str:
            text, binds = self._write(child, style, leaf, nested, sums, bound)
            return style.brackets(text) if binds < needs else text

        match node:
            case ast.Constant(value=value):
                text = repr(value) if isinstance(value, int) else f"{value!r}"
                number = style.number(text)
                return number, _PRODUCT if " " in number else _ATOM  # times a power of ten
            case ast.Name(id=name):
                return leaf(name, bound)
            case ast.UnaryOp(operand=operand):
                return style.negate(inner(operand, _PRODUCT)), _SIGN
            case ast.BinOp(left=left, op=ast.Add(), right=right):
                return style.add(inner(left, _SUM), inner(right, _SUM)), _SUM
            case ast.BinOp(left=left, op=ast.Sub(), right=right):
                return style.subtract(inner(left, _SUM), inner(right, _PRODUCT)), _SUM
            case ast.BinOp(left=left, op=ast.Mult(), right=right):
                return style.multiply(inner(left, _PRODUCT), inner(right, _SIGN)), _PRODUCT
            case ast.BinOp(left=left, op=ast.Div(), right=right):
                if style.fraction_bar:
                    return style.divide(inner(left, _SUM), inner(right, _SUM)), _SIGN
                return style.divide(inner(left, _PRODUCT), inner(right, _SIGN)), _PRODUCT
            case ast.BinOp(left=left, op=ast.Pow(), right=right):
                raised = _SUM if style.fraction_bar else _ATOM  # set above the line or beside it
                return style.power(inner(left, _ATOM), inner(right, raised)), _POWER
            case ast.Call(func=ast.Name(id=name), args=arguments):
                return self._write_call(name, arguments, style, nested, sums, inner)
        raise AssertionError(node)  # pragma: no cover  (the check refused it)

    def _write_call(
        self,
        name: str,
        arguments: list[ast.expr],
        style: Style,
        nested: Callable[[Any, list[ast.expr]], tuple[str, int]],
        sums: Callable[[ast.expr], str],
        inner: Callable[[ast.expr, int], str],
    ) -> tuple[str, int]:
        target = self._global(name)
        printed = FORMULA_FUNCTIONS.get(target)
        if printed == "total":
            return sums(arguments[0]), _ATOM
        if printed is None:
            return nested(target, arguments)
        return style.call(printed, [inner(a, _SUM) for a in arguments]), _ATOM
