"""Mathematics for kernels: the same names for floats and for NumPy arrays.

Each function looks at the type of its argument and nothing is passed in, so a kernel is written
once. NumPy is imported only when an array arrives.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from tundish.doubts import unheard
from tundish.refusals import RefusedRowsError
from tundish.rows import ROWS, refuse, require
from tundish.working import record, silent

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

__all__ = [
    "FORMULA_FUNCTIONS",
    "absolute",
    "all_of",
    "any_of",
    "choose",
    "cos",
    "drawn",
    "each_row",
    "exp",
    "larger",
    "ln",
    "log10",
    "not_",
    "pick",
    "refuse",
    "require",
    "root",
    "sin",
    "smaller",
    "sqrt",
    "tan",
    "total",
    "where",
]

_PLAIN = (float, int)


def _np() -> Any:
    import numpy  # noqa: ICN001, PLC0415  (floats must not pay for arrays)

    return numpy


def sqrt(x: float) -> float:
    """Square root."""
    return math.sqrt(x) if isinstance(x, _PLAIN) else _np().sqrt(x)


def exp(x: float) -> float:
    """Exponential of a pure number."""
    return math.exp(x) if isinstance(x, _PLAIN) else _np().exp(x)


def ln(x: float) -> float:
    """Natural logarithm of a pure number."""
    return math.log(x) if isinstance(x, _PLAIN) else _np().log(x)


def log10(x: float) -> float:
    """Decimal logarithm of a pure number."""
    return math.log10(x) if isinstance(x, _PLAIN) else _np().log10(x)


def sin(x: float) -> float:
    """Sine of an angle in radians."""
    return math.sin(x) if isinstance(x, _PLAIN) else _np().sin(x)


def cos(x: float) -> float:
    """Cosine of an angle in radians."""
    return math.cos(x) if isinstance(x, _PLAIN) else _np().cos(x)


def tan(x: float) -> float:
    """Tangent of an angle in radians."""
    return math.tan(x) if isinstance(x, _PLAIN) else _np().tan(x)


def absolute(x: float) -> float:
    """Magnitude."""
    return abs(x) if isinstance(x, _PLAIN) else _np().abs(x)


def smaller(a: float, b: float) -> float:
    """Return the smaller of two."""
    if isinstance(a, _PLAIN) and isinstance(b, _PLAIN):
        return min(a, b)
    return _np().minimum(a, b)


def larger(a: float, b: float) -> float:
    """Return the larger of two."""
    if isinstance(a, _PLAIN) and isinstance(b, _PLAIN):
        return max(a, b)
    return _np().maximum(a, b)


def total(items: Iterable[float]) -> float:
    """Sum, from the first item to the last; zero when there are none."""
    result: Any = None
    for item in items:
        result = item if result is None else result + item
    return 0.0 if result is None else result


FORMULA_FUNCTIONS: dict[Any, str] = {
    sqrt: "sqrt",
    exp: "exp",
    ln: "ln",
    log10: "log10",
    sin: "sin",
    cos: "cos",
    tan: "tan",
    absolute: "abs",
    smaller: "min",
    larger: "max",
    total: "total",
}
"""Functions a formula may call, and the name each is printed with."""


# --- conditions -----------------------------------------------------------------------------------


def not_(condition: bool) -> bool:
    """Negate a condition on floats or arrays."""
    return not condition if isinstance(condition, bool) else _np().logical_not(condition)


def all_of(*conditions: bool) -> bool:
    """Every condition holds, element by element on arrays."""
    result: Any = True
    for condition in conditions:
        result = result & condition
    return result  # type: ignore[no-any-return]


def any_of(*conditions: bool) -> bool:
    """At least one condition holds, element by element on arrays."""
    result: Any = False
    for condition in conditions:
        result = result | condition
    return result  # type: ignore[no-any-return]


def where(condition: bool, a: float, b: float) -> float:
    """Take ``a`` where the condition holds, else ``b``; both have been evaluated."""
    if isinstance(condition, bool):
        return a if condition else b
    return _np().where(condition, a, b)


def pick(condition: bool, a: str, b: str) -> str:
    """Choose between two words, element by element on arrays."""
    if isinstance(condition, bool):
        return a if condition else b
    return _np().where(condition, a, b)


# --- branches and curves ---------------------------------------------------------------------------


def drawn(make: Callable[..., Any], *arguments: Any) -> Any:
    """Return a curve for a chart, without steps; none in a column run that wants no curves."""
    rows = ROWS.get()
    if rows is not None and not rows.curves:
        return None
    with silent(), unheard():
        return make(*arguments)


def _subset(value: Any, indices: Any) -> Any:
    if isinstance(value, (float, int, str, bool)) or value is None:
        return value
    if isinstance(value, list):
        return [_subset(item, indices) for item in value]
    if isinstance(value, tuple):
        return tuple(_subset(item, indices) for item in value)
    if isinstance(value, dict):
        return {key: _subset(item, indices) for key, item in value.items()}
    if hasattr(value, "dtype") and getattr(value, "ndim", 0) == 1:
        return value[indices]
    return value


def _merge(mask: Any, yes: Any, no: Any) -> Any:
    sample = no if yes is None else yes
    if isinstance(sample, (list, tuple)):
        left = [None] * len(sample) if yes is None else yes
        right = [None] * len(sample) if no is None else no
        return type(sample)(_merge(mask, a, b) for a, b in zip(left, right, strict=True))
    if isinstance(sample, dict):
        return {
            key: _merge(mask, None if yes is None else yes[key], None if no is None else no[key])
            for key in sample
        }
    np = _np()
    if isinstance(sample, str) or np.asarray(sample).dtype.kind == "U":
        result = np.full(mask.shape, "", dtype="U64")
    elif np.asarray(sample).dtype.kind == "b":
        result = np.zeros(mask.shape, dtype=bool)
    else:
        result = np.full(mask.shape, np.nan)
    if yes is not None:
        result[mask] = yes
    if no is not None:
        result[~mask] = no
    return result


def _choice(payload: tuple[str, bool], _value: object) -> dict[str, Any]:
    why, taken = payload
    return {"step": "choice", "name": why, "holds": bool(taken)}


def choose(
    condition: bool,
    yes: Callable[..., Any],
    no: Callable[..., Any],
    *arguments: Any,
    why: str = "",
) -> Any:
    """Run only the branch that applies. On arrays each branch runs on its own rows.

    Branches are functions of ``arguments``: pass every quantity they use.
    """
    if isinstance(condition, bool) or getattr(condition, "ndim", 1) == 0:
        taken = bool(condition)
        if why:
            record(_choice, (why, taken))
        return yes(*arguments) if taken else no(*arguments)
    mask = condition
    if mask.all():
        return yes(*arguments)
    if not mask.any():
        return no(*arguments)
    np = _np()
    results: list[Any] = []
    rows = ROWS.get()
    for branch, indices in ((yes, np.flatnonzero(mask)), (no, np.flatnonzero(~mask))):
        subset = [_subset(argument, indices) for argument in arguments]
        try:
            if rows is None:
                results.append(branch(*subset))
            else:
                with rows.only(indices):
                    results.append(branch(*subset))
        except RefusedRowsError:
            results.append(None)
    if results[0] is None and results[1] is None:
        raise RefusedRowsError
    return _merge(mask, results[0], results[1])


# --- decisions ---


def _one(value: Any, index: int) -> Any:
    if isinstance(value, (list, tuple)):
        return type(value)(_one(item, index) for item in value)
    return value[index].item() if getattr(value, "ndim", 0) == 1 else value


def each_row(decide: Callable[..., list[int]], *arguments: Any) -> list[Any]:
    """Decide what no array can follow: once on floats, row by row in a column run.

    ``decide`` takes plain numbers in the shape of ``arguments`` and returns whole numbers, as many
    for every row; in a column run each of them comes back as an array. A row that has been refused
    is not asked, and is given the first row's numbers.
    """
    rows = ROWS.get()
    if rows is None:
        return decide(*arguments)
    np = _np()
    found: list[list[int] | None] = []
    for index, row in enumerate(rows.current.tolist()):
        known = row in rows.refused
        found.append(None if known else decide(*(_one(item, index) for item in arguments)))
    first = next((item for item in found if item is not None), None)
    if first is None:
        raise RefusedRowsError
    return list(np.array([first if item is None else item for item in found]).T)


# --- roots ----------------------------------------------------------------------------------------

_STEPS = 200
_RELATIVE = 8 * 2.220446049250313e-16
_TINY = 1e-300


def _divide(a: Any, b: Any) -> Any:
    """Divide, giving zero where the divisor is zero (the caller then bisects)."""
    if isinstance(b, _PLAIN):
        return a / b if b else 0.0
    np = _np()
    return np.divide(a, b, out=np.zeros(np.broadcast(a, b).shape), where=b != 0)


def _sign(x: Any) -> Any:
    if isinstance(x, _PLAIN):
        return x if math.isnan(x) else (x > 0) - (x < 0)
    return _np().sign(x)


def _any(condition: Any) -> bool:
    return condition if isinstance(condition, bool) else bool(condition.any())


def _search(f: Callable[[Any], Any], low: Any, high: Any, f1: Any, f2: Any) -> tuple[Any, int]:
    """Chandrupatla's bracketing search, the same arithmetic for a float and for each element.

    Source: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149.
    """
    x1, x2 = low + 0.0 * high, high + 0.0 * low
    f1, f2 = f1 + 0.0 * x1, f2 + 0.0 * x1
    best = where(absolute(f1) < absolute(f2), x1, x2)
    active: Any = all_of(f1 != 0, f2 != 0)
    t: Any = 0.5
    for count in range(1, _STEPS + 1):
        if not _any(active):
            return best, count
        x = x1 + t * (x2 - x1)
        fx = f(x)
        same = _sign(fx) == _sign(f1)
        x3, f3 = where(same, x1, x2), where(same, f1, f2)
        x2, f2 = where(same, x2, x1), where(same, f2, f1)
        x1, f1 = x, fx
        closer = absolute(f1) < absolute(f2)
        best = where(active, where(closer, x1, x2), best)
        width = absolute(x2 - x1)
        shortest = absolute(best) * _RELATIVE + _TINY
        active = all_of(active, width > shortest, where(closer, f1, f2) != 0)
        ratio = _divide(0.5 * shortest, width)
        xi = _divide(x1 - x2, x3 - x2)
        phi = _divide(f1 - f2, f3 - f2)
        inside = all_of(1 - sqrt(larger(1 - xi, 0.0)) < phi, phi < sqrt(larger(xi, 0.0)))
        quadratic = _divide(f1, f1 - f2) * _divide(f3, f3 - f2) - _divide(
            x3 - x1, x2 - x1
        ) * _divide(f1, f3 - f1) * _divide(f2, f2 - f3)
        t = where(inside, quadratic, 0.5)
        t = smaller(larger(t, ratio), 1 - ratio)
    return best, _STEPS


def _root_step(payload: tuple[str, Any, Any, int, Any], value: float) -> dict[str, Any]:
    what, low, high, count, residual = payload
    return {
        "step": "search",
        "name": what,
        "low": low,
        "high": high,
        "evaluations": count,
        "residual": residual,
        "value": value,
    }


def root(
    f: Callable[[float], float],
    low: float,
    high: float,
    *,
    what: str = "root of the equation",
    code: str = "no-solution",
    field: str = "",
) -> float:
    """Return where ``f`` is zero between ``low`` and ``high``, to the last places of a double.

    Refuses with ``code`` at ``field`` when ``f`` has one sign at both ends. The working shows the
    bracket and then the formulas of ``f`` at the root, which proves it.
    """
    with silent():
        f1, f2 = f(low), f(high)
        require(_sign(f1) * _sign(f2) <= 0, code, field)
        value, count = _search(f, low, high, f1, f2)
        residual = f(value)
    record(_root_step, (what, low, high, count, residual), value)
    f(value)
    return value  # type: ignore[no-any-return]
