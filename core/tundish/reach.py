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


def reachable_formulas(kernel: Callable[..., Any]) -> list[Formula[..., Any]]:
    """Return every formula that a kernel may run, in the order its code names them."""
    found: dict[str, Formula[..., Any]] = {}
    seen: set[int] = set()

    def visit(item: Any) -> None:
        if id(item) in seen:
            return
        seen.add(id(item))
        if isinstance(item, Formula):
            found[item.id] = item
            visit(item.function)
        elif isinstance(item, types.FunctionType):
            for inner in _named(item):
                visit(inner)
        elif isinstance(item, type):
            for member in vars(item).values():
                visit(getattr(member, "__func__", getattr(member, "fget", member)))

    visit(kernel)
    return list(found.values())
