"""Which formulas a kernel can reach: read from its code, so nothing is declared twice."""

from __future__ import annotations

import types
from typing import TYPE_CHECKING, Any

from tundish.formula import Formula

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator


def _code_names(code: types.CodeType) -> Iterator[str]:
    """Names a piece of code uses, those of the functions inside it included."""
    yield from code.co_names
    for item in code.co_consts:
        if isinstance(item, types.CodeType):
            yield from _code_names(item)


def _named(function: types.FunctionType) -> Iterator[Any]:
    """Everything of its module, or of a module it imported, that a function names."""
    names = list(_code_names(function.__code__))
    scope = function.__globals__
    for name in names:
        item = scope.get(name)
        if isinstance(item, types.ModuleType):
            yield from (getattr(item, inner, None) for inner in names)
        else:
            yield item


def _reach(kernel: Callable[..., Any]) -> tuple[list[Formula[..., Any]], list[Any]]:
    formulas: dict[str, Formula[..., Any]] = {}
    functions: list[Any] = []
    seen: set[int] = set()

    def visit(item: Any) -> None:
        if id(item) in seen:
            return
        seen.add(id(item))
        if isinstance(item, Formula):
            formulas[item.id] = item
            visit(item.function)
        elif isinstance(item, types.FunctionType):
            functions.append(item)
            for inner in _named(item):
                visit(inner)
        elif isinstance(item, type):
            for base in item.__bases__:  # what it inherits, as far as its own package goes
                if base.__module__.partition(".")[0] == item.__module__.partition(".")[0]:
                    visit(base)
            for member in vars(item).values():
                visit(getattr(member, "__func__", getattr(member, "fget", member)))

    visit(kernel)
    return list(formulas.values()), functions


def reachable_formulas(kernel: Callable[..., Any]) -> list[Formula[..., Any]]:
    """Return every formula that a kernel may run, in the order its code names them."""
    return _reach(kernel)[0]


def reachable_files(kernel: Callable[..., Any]) -> list[str]:
    """Return the files of a kernel and of the functions it calls within its own package."""
    package = kernel.__module__.partition(".")[0]
    formulas, functions = _reach(kernel)
    inside = {formula.function for formula in formulas}
    files = {
        function.__code__.co_filename: None
        for function in functions
        if function.__module__.partition(".")[0] == package
        and function not in inside
        and not function.__code__.co_filename.startswith("<")  # a dataclass's own methods
    }
    return list(files)
