"""Cores that are needed, there, and left over."""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, formula
from tundish.functions import larger, total
from tundish.sources import Source

NET_COUNT = Source(
    "net-count",
    kind="derivation",
    document="Net count: distinct conductors that cross from one place to the next",
    edition="1",
    locator="by place pair and by voltage; one protective conductor with any mains",
    confirmed="derived",
)

Cores = Annotated[float, Sym("number", "n", "1")]
There = Annotated[float, Sym("number", "n_t", "1")]
Needed = Annotated[float, Sym("number", "n_n", "1")]
Lines = Annotated[float, Sym("number", "n_L", "1")]
Neutrals = Annotated[float, Sym("number", "n_N", "1")]
Earths = Annotated[float, Sym("number", "n_E", "1")]
Lengths = Annotated[list[float], Sym("length", "L", "m")]
Spares = Annotated[list[float], Sym("number", "Δn", "1")]


@formula("n_m", "number", "1", source=NET_COUNT)
def mains_cores(n_L: Lines, n_N: Neutrals, n_E: Earths) -> float:
    """Mains cores, with the earth."""
    return n_L + n_N + n_E


@formula("Δn", "number", "1", source=NET_COUNT)
def cores_left(n_t: There, n_n: Needed) -> float:
    """Cores left over."""
    return n_t - n_n


@formula("n", "number", "1", source=NET_COUNT)
def cores_missing(Dn: Spares) -> float:
    """Cores missing over all ways."""
    return total(larger(-d, 0.0) for d in Dn)


@formula("L", "length", "m", source=NET_COUNT)
def length_to_lay(L: Lengths) -> float:
    """Cable to lay where cores are missing."""
    return total(L)
