"""What a proposal costs."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import total
from tundish.sources import Source

COST: Final = Source(
    "cost-of-tube",
    kind="derivation",
    document="Cost of tube by the metre",
    edition="1",
    locator="K = k L over the sections; where no cost is given, the bore in millimetres stands for it",
    confirmed="derived",
)
SEARCH: Final = Source(
    "pareto-search",
    kind="derivation",
    document="Cheapest choice in a tree under a limit on every way",
    edition="1",
    locator="dynamic programming from the ends: at each point a part-solution is dropped only where "
    "two others need no more of the limit and cost no more, so best and second best survive",
    confirmed="derived",
)


@formula("k", "number", "1", source=COST, empirical=True)
def bore_as_cost(d: Annotated[float, Sym("length", "d", "mm")]) -> float:
    """Bore in millimetres, which stands for the cost of a metre."""
    return 1 * d


@formula("K", "number", "1", source=COST, empirical=True)
def cost_of_section(
    k: Annotated[float, Sym("number", "k", "1")], L: Annotated[float, Sym("length", "L", "m")]
) -> float:
    """Cost of a section, by its measured metres."""
    return k * L


@formula("K", "number", "1", source=COST)
def cost_together(K: Annotated[list[float], Sym("number", "K", "1")]) -> float:
    """Cost of the proposal."""
    return total(K)


@formula("ΔK", "number", "1", source=COST)
def dearer(
    K_2: Annotated[float, Sym("number", "K_2", "1")], K: Annotated[float, Sym("number", "K", "1")]
) -> float:
    """What the next cheapest costs more."""
    return K_2 - K


@formula("Δp_u", "pressure_difference", "Pa", source=COST)
def spare_of_limit(
    share: Annotated[float, Sym("number", "x", "1")],
    limit: Annotated[float, Sym("pressure_difference", "Δp_lim", "Pa")],
) -> float:
    """What stays spare where flow on the way is uncertain."""
    return share * limit
