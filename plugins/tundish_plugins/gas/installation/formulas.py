"""Volume of an installation."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, constant, formula
from tundish.functions import total
from tundish.sources import Source

GEOMETRY: Final = Source(
    "pipe-content",
    kind="textbook",
    document="Content of a round pipe",
    edition="geometry",
    locator="V = π d² L/4",
    confirmed="derived",
)
VOLUME: Final = Source(
    "igem-up-1b-volume",
    kind="standard",
    document="IGEM/UP/1B, tightness testing and direct purging of small installations",
    edition="Edition 3 (+A 2012)",
    locator="installation volume: meter, pipe, and a share of the pipe for its fittings",
    confirmed="seen-reproduced",
    seen_in="pocket guide of a certification body, worked example",
)
PI: Final = constant("π", 3.141592653589793, "number", "1", source=GEOMETRY)

Volume = Annotated[float, Sym("volume", "V", "m3")]
PipeVolumes = Annotated[list[float], Sym("volume", "V_p", "m3")]


@formula("V'", "volume_per_length", "m3/m", source=GEOMETRY)
def volume_per_length(d: Annotated[float, Sym("length", "d", "m")]) -> float:
    """Volume of a metre of tube of a bore."""
    return PI * d**2 / 4


@formula("V_p", "volume", "m3", source=GEOMETRY)
def pipe_volume(
    v: Annotated[float, Sym("volume_per_length", "V'", "m3/m")],
    L: Annotated[float, Sym("length", "L", "m")],
) -> float:
    """Volume of a pipe."""
    return v * L


@formula("V_f", "volume", "m3", source=VOLUME)
def fittings_volume(a: Annotated[float, Sym("number", "a_f", "1")], V_p: PipeVolumes) -> float:
    """Allowance for fittings, a share of the volume of the pipes."""
    return a * total(V_p)


@formula("V", "volume", "m3", source=VOLUME)
def installation_volume(
    V_m: Annotated[float, Sym("volume", "V_m", "m3")],
    V_p: PipeVolumes,
    V_f: Annotated[float, Sym("volume", "V_f", "m3")],
) -> float:
    """Volume of the installation: meter, pipes and fittings."""
    return V_m + total(V_p) + V_f
