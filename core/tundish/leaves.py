"""What a field of a contract is: quantities, numbers, counts, choices, flags, names, columns.

Each leaf is frozen metadata for ``typing.Annotated``. It reads a JSON value (pydantic calls it),
writes an answer's value, and knows its range in every unit.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, get_args

from tundish.quantities.kinds import KINDS, Kind, rounded_bound
from tundish.quantities.reading import LARGEST, LONGEST_TEXT, QuantityError, read_quantity, shown

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pydantic import GetCoreSchemaHandler
    from pydantic_core import CoreSchema

LONGEST_NAME = 64
LONGEST_PROSE = 400
PRINTABLE = re.compile(r"[^\x00-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]+")


@dataclass(frozen=True)
class Based:
    """A value with the basis the user stated, such as net or gross."""

    value: float
    basis: str


@dataclass(frozen=True, kw_only=True)
class Leaf:
    """Common to every field: what it means, a default, where a default comes from."""

    help: str = ""
    default: Any = None
    default_rule: str | None = None
    columnar: ClassVar[bool] = False  # becomes an array in a column run

    def read(self, given: object) -> Any:
        """Read a JSON value to what the kernel sees; raise :class:`QuantityError`."""
        raise NotImplementedError

    def wire_default(self, value: object) -> object:
        """Return a default, stated in the contract's unit, as it would stand in a request."""
        return value

    def writer(self, units: Mapping[str, str]) -> Callable[[Any], Any]:
        """Return a function from the kernel's value to the JSON of an answer."""
        del units
        return lambda value: value

    def __get_pydantic_core_schema__(
        self, _source: type, _handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Let pydantic read the field through :meth:`read`."""
        from pydantic_core import PydanticCustomError, core_schema  # noqa: PLC0415

        read = self.read

        def check(given: object) -> Any:
            try:
                return read(given)
            except QuantityError as error:
                raise PydanticCustomError(
                    "refused",
                    "{sentence}",
                    {"code": error.code, "sentence": error.message, "facts": error.context},
                ) from None

        return core_schema.no_info_plain_validator_function(check)


def _out_of_range(given: str, low: str, high: str) -> QuantityError:
    if low and high:
        words = f"from {low} to {high}"
    else:
        words = f"at least {low}" if low else f"at most {high}"
    return QuantityError(
        "value-out-of-range",
        f"{given} is outside the range of this calculation: {words}.",
        given=given,
        accepted=words,
    )


class Quantity(Leaf):
    """A dimensional field. ``low``, ``high``, ``example`` and ``default`` are in ``unit``.

    ``kind`` is a kind's name, or a mapping basis -> kind where the user must state the basis; the
    kernel then sees :class:`Based`.
    """

    kind: str
    bases: dict[str, str]
    columnar = True

    def __init__(
        self,
        kind: str | dict[str, str],
        symbol: str,
        unit: str,
        *,
        help: str,  # noqa: A002  (the word for it)
        low: float | None = None,
        high: float | None = None,
        example: float | str | None = None,
        default: float | str | None = None,
        default_rule: str | None = None,
    ) -> None:
        """Keep the parts and convert the bounds once for every spelling."""
        set_ = object.__setattr__
        set_(self, "help", help)
        set_(self, "default", default)
        set_(self, "default_rule", default_rule)
        bases = kind if isinstance(kind, dict) else {}
        set_(self, "bases", bases)
        set_(self, "kind", next(iter(bases.values())) if isinstance(kind, dict) else kind)
        set_(self, "symbol", symbol)
        set_(self, "unit", unit)
        set_(self, "low", low)
        set_(self, "high", high)
        set_(self, "example", example)
        set_(self, "_kind", KINDS[self.kind])
        set_(self, "_cache", {})
        self._kind.conversion(unit)

    symbol: str
    unit: str
    low: float | None
    high: float | None
    example: float | str | None
    _kind: Kind
    _cache: dict[str, tuple[float, float, float, float]]

    def __hash__(self) -> int:
        """Identity is enough: leaves are made once."""
        return id(self)

    def __eq__(self, other: object) -> bool:
        """Identity is enough: leaves are made once."""
        return self is other

    def bounds(self, unit: str) -> tuple[float | None, float | None]:
        """Return the range in ``unit``, rounded to 12 figures: the one used and the one shown."""
        factor, offset = self._kind.conversion(unit)
        own_factor, own_offset = self._kind.conversion(self.unit)

        def there(bound: float | None) -> float | None:
            if bound is None:
                return None
            if unit == self.unit:
                return float(bound)
            return rounded_bound((bound * own_factor + own_offset - offset) / factor)

        return there(self.low), there(self.high)

    def _known(self, spelling: str) -> tuple[float, float, float, float]:
        known = self._cache.get(spelling)
        if known is None:
            factor, offset = self._kind.conversion(spelling)
            low, high = self.bounds(spelling)
            known = (
                factor,
                offset,
                -math.inf if low is None else low,
                math.inf if high is None else high,
            )
            self._cache[spelling] = known
        return known

    def read(self, given: object) -> float | Based:
        """Return the SI value (with its basis where the user must state one)."""
        if self.bases:
            return self._read_based(given)
        value, spelling = read_quantity(given, self._kind)
        factor, offset, low, high = self._known(spelling)
        if not low <= value <= high:
            raise self._outside(value, spelling)
        return value * factor + offset

    def _outside(self, value: float, spelling: str) -> QuantityError:
        low, high = self.bounds(spelling)
        return _out_of_range(
            f"{value:.12g} {spelling}",
            "" if low is None else f"{low:.12g} {spelling}",
            "" if high is None else f"{high:.12g} {spelling}",
        )

    def _read_based(self, given: object) -> Based:
        basis: object = None
        rest = given
        if isinstance(given, dict):
            basis = given.get("basis")
            rest = {key: item for key, item in given.items() if key != "basis"}
        elif isinstance(given, str) and len(given) <= LONGEST_TEXT:
            head, _, last = given.rstrip().rpartition(" ")
            if last in self.bases:
                basis, rest = last, head
        if basis is None:
            # Say first whether the number itself can be read; then ask for the basis.
            read_quantity(rest, self._kind)
            raise QuantityError(
                "basis-missing",
                f"Say on which basis: one of {', '.join(self.bases)}. Write "
                f"'18 {self.unit} {next(iter(self.bases))}' or add a member basis.",
                accepted=list(self.bases),
            )
        if not isinstance(basis, str) or basis not in self.bases:
            raise QuantityError(
                "basis-unknown",
                f"The basis is one of {', '.join(self.bases)}.",
                given=shown(basis),
                accepted=list(self.bases),
            )
        value, spelling = read_quantity(rest, self._kind)
        factor, offset, low, high = self._known(spelling)
        if not low <= value <= high:
            raise self._outside(value, spelling)
        return Based(value * factor + offset, basis)

    def wire_default(self, value: object) -> object:
        """State a plain default in the contract's unit; text stays as it is."""
        if isinstance(value, (int, float)):
            return {"value": value, "unit": self.unit}
        return value

    def writer(self, units: Mapping[str, str]) -> Callable[[Any], Any]:
        """Write ``{"value", "unit"}`` in the profile's unit for this field's unit."""
        unit = units.get(self.unit, self.unit)
        if unit not in self._kind.spellings:
            unit = self.unit
        factor, offset = self._kind.conversion(unit)
        if self.bases:
            return lambda based: {
                "value": (based.value - offset) / factor,
                "unit": unit,
                "basis": based.basis,
            }
        return lambda value: {"value": (value - offset) / factor, "unit": unit}


@dataclass(frozen=True, kw_only=True)
class _Plain(Leaf):
    low: float | None = None
    high: float | None = None
    example: float | None = None
    symbol: str = ""

    def _within(self, value: float) -> None:
        if (self.low is not None and value < self.low) or (
            self.high is not None and value > self.high
        ):
            raise _out_of_range(
                f"{value:.12g}",
                "" if self.low is None else f"{self.low:g}",
                "" if self.high is None else f"{self.high:g}",
            )


class Number(_Plain):
    """A pure number: a ratio, a share, a factor."""

    columnar = True

    def __init__(self, symbol: str, **members: Any) -> None:
        """``symbol`` first, then ``low``, ``high``, ``example``, ``default``, ``help``."""
        super().__init__(symbol=symbol, **members)

    def read(self, given: object) -> float:
        """Read a JSON number; never a boolean, never text."""
        if type(given) is not float and type(given) is not int:
            raise QuantityError(
                "number-expected",
                "A plain number without unit is expected here.",
                given=shown(given),
            )
        if abs(given) > LARGEST or not math.isfinite(given):
            raise QuantityError("number-not-finite", "The number is not finite or far too large.")
        self._within(given)
        return float(given)


class Count(_Plain):
    """A whole number of things."""

    def __init__(self, symbol: str = "", **members: Any) -> None:
        """``symbol`` first, then ``low``, ``high``, ``example``, ``default``, ``help``."""
        super().__init__(symbol=symbol, **members)

    def read(self, given: object) -> int:
        """Read a whole JSON number (1.0 counts, as in JSON Schema); never a boolean."""
        whole = type(given) is int or (type(given) is float and given.is_integer())
        if not whole:
            raise QuantityError(
                "whole-number-expected",
                "A whole number is expected here.",
                given=shown(given),
            )
        assert isinstance(given, (int, float))
        if abs(given) > LARGEST:
            raise QuantityError("number-not-finite", "The number is far too large.")
        self._within(given)
        return int(given)


@dataclass(frozen=True, kw_only=True)
class Choice(Leaf):
    """One of a few words; the words come from the field's ``Literal``."""

    options: tuple[str, ...] = ()

    def __get_pydantic_core_schema__(
        self, source: type, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Take the words from the field's ``Literal``."""
        if self.options:
            return super().__get_pydantic_core_schema__(source, handler)
        return self.with_options(source).__get_pydantic_core_schema__(source, handler)

    def with_options(self, literal: Any) -> Choice:
        """Return the same leaf with the words of a ``Literal``."""
        return replace(self, options=tuple(get_args(literal)))

    def read(self, given: object) -> str:
        """Read one of the options."""
        if not isinstance(given, str) or given not in self.options:
            raise QuantityError(
                "choice-unknown",
                f"One of {', '.join(self.options)} is expected here.",
                given=shown(given),
                accepted=list(self.options),
            )
        return given


@dataclass(frozen=True, kw_only=True)
class Flag(Leaf):
    """A yes or no."""

    def read(self, given: object) -> bool:
        """Read true or false and nothing that merely looks like it."""
        if not isinstance(given, bool):
            raise QuantityError("flag-expected", "true or false is expected.", given=shown(given))
        return given


@dataclass(frozen=True, kw_only=True)
class Text(Leaf):
    """Free words for people; shown, never interpreted."""

    longest: int = LONGEST_PROSE

    def read(self, given: object) -> str:
        """Read short printable text."""
        if not isinstance(given, str):
            raise QuantityError("text-expected", "Text is expected here.")
        if not 0 < len(given) <= self.longest or not PRINTABLE.fullmatch(given):
            raise QuantityError(
                "text-invalid", f"1 to {self.longest} printable characters are expected."
            )
        return given


@dataclass(frozen=True, kw_only=True)
class Name(Leaf):
    """The name of a row (a room, a section): unique in its list, cited by links and findings."""

    def read(self, given: object) -> str:
        """Read a short printable name that a JSON Pointer can hold."""
        if not isinstance(given, str):
            raise QuantityError("text-expected", "A name is text.")
        fits = 0 < len(given) <= LONGEST_NAME and PRINTABLE.fullmatch(given)
        if not fits or given != given.strip() or given.isdigit() or "/" in given or "~" in given:
            raise QuantityError(
                "name-invalid",
                f"A name has 1 to {LONGEST_NAME} printable characters, is not a bare number and "
                "holds no / or ~, nor blanks at its ends.",
                given=shown(given),
            )
        return given


@dataclass(frozen=True, kw_only=True)
class Rows:
    """Metadata of a list: how many rows it may have, and what they are."""

    low: int = 0
    high: int = 100
    help: str = ""

    def __get_pydantic_core_schema__(
        self, source: type, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        """Check the list itself before its rows."""
        from pydantic_core import PydanticCustomError, core_schema  # noqa: PLC0415

        def fail(code: str, sentence: str) -> PydanticCustomError:
            return PydanticCustomError(
                "refused", "{sentence}", {"code": code, "sentence": sentence, "facts": {}}
            )

        def check(given: object) -> object:
            if not isinstance(given, list):
                raise fail("list-expected", "A list is expected here.")
            if not self.low <= len(given) <= self.high:
                sentence = f"{len(given)} rows; {self.low} to {self.high} are read."
                raise fail("rows-out-of-range", sentence)
            names = [row.get("name") for row in given if isinstance(row, dict)]
            seen: set[str] = set()
            for name in names:
                if isinstance(name, str):
                    if name in seen:
                        raise fail("name-duplicate", f"Two rows are called {name!r}.")
                    seen.add(name)
            return given

        return core_schema.no_info_before_validator_function(check, handler(source))


class Column(Quantity):
    """An output curve: a list of values of one kind, written ``{"values", "unit"}``."""

    columnar = False

    def writer(self, units: Mapping[str, str]) -> Callable[[Any], Any]:
        """Write the whole list in one object."""
        one = super().writer(units)
        unit = one(1.0)["unit"]
        return lambda values: {"values": [one(value)["value"] for value in values], "unit": unit}
