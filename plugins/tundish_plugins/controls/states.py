"""Columns of states: an integer whose bit ``s`` says whether something holds in state ``s``.

With ``n`` free inputs there are 2^n states; the first input is the most significant digit of the
state's number. One operation on such an integer works on every state at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

_TERMS = 32
_HALF_TERMS = 256


@dataclass(frozen=True)
class States:
    """The states of some free inputs."""

    names: tuple[str, ...]

    @cached_property
    def count(self) -> int:
        """How many states there are."""
        return 1 << len(self.names)

    @cached_property
    def full(self) -> int:
        """The column that holds everywhere."""
        return (1 << self.count) - 1

    def block(self, k: int) -> int:
        """Distance between two states that differ in input ``k`` alone."""
        return 1 << (len(self.names) - 1 - k)

    @cached_property
    def columns(self) -> tuple[int, ...]:
        """The column of each input."""
        found = []
        for k in range(len(self.names)):
            width = self.block(k)
            column, size = ((1 << width) - 1) << width, 2 * width
            while size < self.count:  # structure
                column |= column << size
                size *= 2
            found.append(column)
        return tuple(found)

    def digits(self, column: int) -> str:
        """Write a column as a row of 0 and 1, state 0 first."""
        return f"{column:0{self.count}b}"[::-1]

    def values(self, state: int) -> str:
        """Write a state as its inputs' digits."""
        return f"{state:0{len(self.names)}b}" if self.names else ""

    def first(self, column: int) -> int:
        """Return the first state of a column that holds somewhere."""
        return (column & -column).bit_length() - 1

    def _everywhere(self, column: int, k: int) -> int:
        """Where a column holds whatever input ``k`` does."""
        width = self.block(k)
        low = column & ~self.columns[k] & ((column & self.columns[k]) >> width)
        return low | low << width

    def simplest(self, column: int) -> dict[str, bool]:
        """Return the fewest inputs, with their values, that alone put every state in a column.

        The column must hold somewhere. Exact: every set of inputs left free is tried, as long as
        some state remains.
        """
        best: tuple[int, int, tuple[int, ...]] = (-1, 0, ())

        def free(start: int, gone: tuple[int, ...], left: int) -> None:
            nonlocal best
            if len(gone) > best[0]:  # structure
                best = (len(gone), left, gone)
            for k in range(start, len(self.names)):
                if len(gone) + len(self.names) - k <= best[0]:  # structure
                    return
                remaining = self._everywhere(left, k)
                if remaining:
                    free(k + 1, (*gone, k), remaining)

        free(0, (), column)
        _, left, gone = best
        state = self.first(left)
        return {
            name: bool(state & self.block(k)) for k, name in enumerate(self.names) if k not in gone
        }

    def _grown(self, state: int, column: int) -> tuple[int, dict[str, bool]]:
        """Grow one state to a product of inputs that stays inside a column."""
        product, literals = 1 << state, {}
        for k, name in enumerate(self.names):
            width, on = self.block(k), bool(state & self.block(k))
            wider = product | (product >> width if on else product << width)
            if wider & ~column:
                literals[name] = on
            else:
                product = wider
        return product, literals

    def products(self, column: int) -> list[dict[str, bool]] | None:
        """Return a column as products of inputs, none of which can be spared.

        None when it takes more of them than anybody would read.
        """
        left, found = column, []
        while left:
            product, literals = self._grown(self.first(left), column)
            found.append((product, literals))
            left &= ~product
            if len(found) == _HALF_TERMS:
                return None
        kept = list(found)
        for term in found:
            rest = 0
            for other in kept:
                rest |= other[0] if other is not term else 0
            if not term[0] & ~rest:
                kept.remove(term)
        if len(kept) > _TERMS:  # structure
            return None
        return [literals for _, literals in kept]
