"""Proof by water: the test pressure that a working pressure asks for."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.sources import Source

TEST_FACTOR: Final = Source(
    "test-factor",
    kind="derivation",
    document="Test pressure as a multiple of the highest working pressure",
    edition="1",
    locator="p_t = f p",
    confirmed="derived",
)

Gauge = Annotated[float, Sym("pressure_gauge", "p", "Pa")]


@formula("p_t", "pressure_gauge", "Pa", source=TEST_FACTOR)
def proof_needed(f: Annotated[float, Sym("number", "f", "1")], p: Gauge) -> float:
    """Test pressure that proves a part for its new pressure."""
    return f * p
