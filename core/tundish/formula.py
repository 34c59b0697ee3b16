"""``@formula``: one expression that computes, prints itself and states its source.

The printed mathematics comes from the function's own syntax tree, so the formula shown is the code
that ran. With no recorder active a call costs little more than the plain function.
"""

from __future__ import annotations

import ast
import inspect
import types
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, ParamSpec, TypeVar, get_args, get_type_hints

from tundish.doubts import doubt
from tundish.quantities.kinds import conversion
from tundish.rendering import Expression, FormulaError, symbols
from tundish.rows import ROWS
from tundish.sources import UNCONFIRMED
from tundish.working import ACTIVE

if TYPE_CHECKING:
    from collections.abc import Callable

    from tundish.sources import Source

P = ParamSpec("P")
R = TypeVar("R")


@dataclass(frozen=True)
class Sym:
    """Annotation of a formula's parameter: what it is, its symbol, the unit it is stated in.

    Kind ``number`` with unit ``1`` is a pure number.
    """

    kind: str
    symbol: str
    unit: str

    def conversion(self) -> tuple[float, float]:
        """Factor and offset from the stated unit to SI."""
        return (1.0, 0.0) if self.kind == "number" else conversion(self.kind, self.unit)


class Constant(float):
    """A named physical constant: a float with a symbol, a kind, a unit and a source."""

    symbol: str
    kind: str
    unit: str
    source: Source | None

    def __new__(  # noqa: PYI034  (subclasses are not made)
        cls, symbol: str, value: float, kind: str, unit: str, source: Source | None
    ) -> Constant:
        """Make the float and hang its meaning on it."""
        self = super().__new__(cls, value)
        self.symbol, self.kind, self.unit, self.source = symbol, kind, unit, source
        return self


def constant(
    symbol: str, value: float, kind: str, unit: str, *, source: Source | None = None
) -> Constant:
    """Name a constant for use in formulas; ``value`` is in SI units."""
    return Constant(symbol, value, kind, unit, source)


@lru_cache(maxsize=64)
def _functions(filename: str, _stamp: object) -> dict[int, ast.FunctionDef]:
    """Every function of a file by the line it starts on: one parse a file, not one a formula."""
    tree = ast.parse(Path(filename).read_text(encoding="utf-8"))
    return {
        (node.decorator_list[0].lineno if node.decorator_list else node.lineno): node
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
    }


def _definition(function: types.FunctionType) -> ast.FunctionDef:
    code = function.__code__
    path = Path(code.co_filename)
    if path.is_file():
        found = _functions(code.co_filename, path.stat().st_mtime_ns).get(code.co_firstlineno)
        if found is not None:
            return found
    node = ast.parse(inspect.cleandoc("\n" + inspect.getsource(function))).body[0]
    if not isinstance(node, ast.FunctionDef):  # pragma: no cover  (decorators sit on functions)
        message = f"{function.__name__} is not a function"
        raise FormulaError(message)
    return node


def _doubtful(function: types.FunctionType, source: Source | None) -> set[str]:
    """Sources of a formula and of its constants that nobody has checked."""
    named = [function.__globals__.get(name) for name in function.__code__.co_names]
    sources = [source, *[item.source for item in named if isinstance(item, Constant)]]
    return {item.id for item in sources if item is not None and item.confirmed in UNCONFIRMED}


class Formula(Generic[P, R]):
    """A formula: callable on floats, arrays and (in proofs of dimension) pint quantities."""

    def __init__(
        self,
        function: types.FunctionType,
        result: Sym,
        source: Source | None,
        *,
        empirical: bool,
    ) -> None:
        """Read the function's tree and refuse anything but one expression of allowed parts."""
        self.function = function
        self.result = result
        self.source = source
        self.empirical = empirical
        self.__name__ = function.__name__
        self.__qualname__ = function.__qualname__
        self.__module__ = function.__module__
        self.__doc__ = function.__doc__
        self.__wrapped__ = function
        self.id = f"{function.__module__}.{function.__name__}"
        doc = inspect.getdoc(function) or function.__name__.replace("_", " ")
        self.name = doc.splitlines()[0].rstrip(".")
        self.expression = Expression(_definition(function), function.__globals__, function.__name__)
        self._parameters: tuple[Sym, ...] | None = None
        self._text: str | None = None
        self._scales: tuple[tuple[float, float], ...] | None = None
        self.nested = self.expression.nested
        self.doubtful = tuple(sorted(_doubtful(function, source)))  # sources nobody has checked
        if empirical and self.nested:
            message = f"{function.__name__}: an empirical formula calls no other formula"
            raise FormulaError(message)

    @property
    def parameters(self) -> tuple[Sym, ...]:
        """The annotation of every parameter, in order; read at first use, then kept."""
        if self._parameters is None:
            hints = get_type_hints(self.function, include_extras=True)
            found = []
            for name in self.expression.names:
                syms = [item for item in get_args(hints.get(name)) if isinstance(item, Sym)]
                if len(syms) != 1:
                    message = f"{self.__name__}: parameter {name} needs one Sym annotation"
                    raise FormulaError(message)
                found.append(syms[0])
            self._parameters = tuple(found)
        return self._parameters

    @property
    def text(self) -> str:
        """The right-hand side in symbols, such as ``m·c_p·(T_1 - T_0)``."""
        if self._text is None:
            self._text = self.expression.symbols(self._symbols(), symbols)
        return self._text

    @cached_property
    def shown_unit(self) -> str:
        """The unit as it follows a shown value; nothing after a pure number."""
        return "" if self.result.unit == "1" else f" {self.result.unit}"

    @cached_property
    def step_members(self) -> dict[str, Any]:
        """What every step of this formula says, whatever its numbers."""
        members = {
            "step": "formula",
            "name": self.name,
            "symbol": self.result.symbol,
            "formula": self.text,
            "unit": self.result.unit,
        }
        if self.source is not None:
            members["source"] = self.source.id
        return members

    def _symbols(self) -> dict[str, str]:
        return dict(zip(self.expression.names, [p.symbol for p in self.parameters], strict=True))

    def render(self, style: Any) -> str:
        """Write the right-hand side in another style: MathML or typeset mathematics."""
        return self.expression.symbols(self._symbols(), style)

    def substituted(self, arguments: tuple[Any, ...], children: list[float]) -> str:
        """Return the right-hand side with full numbers in place of symbols."""
        return self.expression.numbers(arguments, children)

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> R:
        """Compute; leave a step when a recorder is active."""
        if kwargs:
            names = self.expression.names
            if set(kwargs) != set(names[len(args) :]):
                message = f"{self.__name__} takes {', '.join(names)}"
                raise TypeError(message)
            args = (*args, *[kwargs[name] for name in names[len(args) :]])  # type: ignore[assignment]
        if self.doubtful:
            self._doubt()
        if self.empirical:
            return self._empirical(*args)
        recorder = ACTIVE.get()
        start = 0 if recorder is None else len(recorder.steps)
        value = self.function(*args)
        if value.__class__ is Constant:  # chosen by smaller or larger: from here on a plain number
            value = float(value)
        if recorder is not None:
            recorder.steps.append((self, args, value, start))
        return value  # type: ignore[no-any-return]

    def _doubt(self) -> None:
        rows = ROWS.get()
        for name in self.doubtful:
            doubt(name, None if rows is None else (rows.count, rows.current))

    def _empirical(self, *args: Any) -> R:
        if self._scales is None:
            self._scales = tuple(p.conversion() for p in (*self.parameters, self.result))
        scales = self._scales
        stated = tuple(
            [(item - offset) / factor for item in argument]
            if isinstance(argument, list)
            else (argument - offset) / factor
            for argument, (factor, offset) in zip(args, scales, strict=False)
        )
        value = self.function(*stated)
        if value.__class__ is Constant:
            value = float(value)
        recorder = ACTIVE.get()
        if recorder is not None:
            recorder.steps.append((self, stated, value, len(recorder.steps)))
        factor, offset = scales[-1]
        return value * factor + offset  # type: ignore[no-any-return]

    def in_quantities(self, quantity: Callable[[float, str, str], Any]) -> Callable[..., Any]:
        """Return the bare function with constants and nested formulas turned into quantities.

        ``quantity(value, kind, unit)`` makes one. Used to prove dimensions with pint.
        """
        names: dict[str, Any] = {}
        for name in self.function.__code__.co_names:
            item = self.function.__globals__.get(name)
            if isinstance(item, Constant):
                names[name] = quantity(float(item), item.kind, item.unit)
            elif isinstance(item, Formula):
                names[name] = item.in_quantities(quantity)
        return types.FunctionType(
            self.function.__code__, {**self.function.__globals__, **names}, self.__name__
        )


def formula(
    symbol: str,
    kind: str,
    unit: str,
    *,
    source: Source | None = None,
    empirical: bool = False,
) -> Callable[[Callable[P, R]], Formula[P, R]]:
    """Make a function of one expression a formula.

    ``symbol``, ``kind`` and ``unit`` describe its result. ``empirical`` says that the constants
    hold only in the stated units; core then converts from SI and back. Raises
    :class:`~tundish.rendering.FormulaError` at decoration when the function is anything else than
    one returned expression of arithmetic, powers, core functions, other formulas and sums.
    """

    def decorate(function: Callable[P, R]) -> Formula[P, R]:
        if not isinstance(function, types.FunctionType):
            message = "a formula is made from a plain function"
            raise FormulaError(message)
        return Formula(function, Sym(kind, symbol, unit), source, empirical=empirical)

    return decorate
