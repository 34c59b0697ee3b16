"""Heat input from a metered rate: what the gas calculations share."""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, formula
from tundish_plugins.gas.pipe_sizing.formulas import ENERGY


@formula("Φ", "power", "W", source=ENERGY)
def heat_input(
    Q: Annotated[float, Sym("volume_flow", "Q", "m3/s")],
    H: Annotated[float, Sym("calorific_value", "H", "J/m3")],
) -> float:
    """Heat input of a gas rate, on the basis of the calorific value."""
    return Q * H
