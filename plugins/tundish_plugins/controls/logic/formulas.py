"""How many states there are, which share of them counts, and how long rest may take."""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, formula
from tundish.functions import total
from tundish.sources import Source

SWITCHING = Source(
    "switching-algebra",
    kind="derivation",
    document="Algebra of contact networks, by enumeration of every state",
    edition="1",
    locator="closed contacts join points; a load runs between the two poles; rounds until rest",
    confirmed="derived",
)

Number_ = Annotated[float, Sym("number", "n", "1")]
Some = Annotated[float, Sym("number", "N_1", "1")]
All = Annotated[float, Sym("number", "N", "1")]
Times = Annotated[list[float], Sym("time", "t", "s")]


@formula("N", "number", "1", source=SWITCHING)
def number_of_states(n: Number_) -> float:
    """States of the free inputs."""
    return 2**n


@formula("s", "number", "1", source=SWITCHING)
def share_of_states(N_1: Some, N: All) -> float:
    """Share of all states."""
    return N_1 / N


@formula("t", "time", "s", source=SWITCHING)
def longest_settling(t: Times) -> float:
    """Longest time to rest: every valve runs once, one after the other."""
    return total(t)
