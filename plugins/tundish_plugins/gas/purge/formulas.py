"""Volume, time and dilution of a purge."""

from __future__ import annotations

from typing import Annotated, Final

from tundish.formula import Sym, formula
from tundish.functions import sqrt
from tundish.sources import Source

PURGE: Final = Source(
    "purge-volume",
    kind="derivation",
    document="Purge of a volume at a steady flow",
    edition="1",
    locator="V_pur = k V; t = V_pur/Q; w = Q/V'; share of a room V_pur/V_room",
    confirmed="derived",
)
ORIFICE: Final = Source(
    "orifice-flow",
    kind="textbook",
    document="Flow through an injector at one pressure",
    edition="fluid mechanics textbooks",
    locator="Q in proportion of 1/√ρ: air to gas as √s",
    confirmed="derived",
)

Flow = Annotated[float, Sym("volume_flow", "Q", "m3/s")]
Volume = Annotated[float, Sym("volume", "V", "m3")]
Purge = Annotated[float, Sym("volume", "V_pur", "m3")]


@formula("V_pur", "volume", "m3", source=PURGE)
def purge_volume(k: Annotated[float, Sym("number", "k", "1")], V: Volume) -> float:
    """Volume that must pass at least."""
    return k * V


@formula("Q", "volume_flow", "m3/s", source=ORIFICE)
def air_through_burner(
    Q_g: Annotated[float, Sym("volume_flow", "Q_g", "m3/s")],
    s: Annotated[float, Sym("number", "s", "1")],
) -> float:
    """Flow of air through a burner that passes so much gas at the same pressure."""
    return Q_g * sqrt(s)


@formula("t", "time", "s", source=PURGE)
def purge_time(V: Purge, Q: Flow) -> float:
    """Time in which the purge volume passes."""
    return V / Q


@formula("w", "velocity", "m/s", source=PURGE)
def velocity(Q: Flow, v: Annotated[float, Sym("volume_per_length", "V'", "m3/m")]) -> float:
    """Velocity when the whole flow goes through a pipe."""
    return Q / v


@formula("k", "number", "1", source=PURGE)
def share_of_flammable(
    x: Annotated[float, Sym("volume_fraction", "x", "1")],
    LFL: Annotated[float, Sym("volume_fraction", "LFL", "1")],
) -> float:
    """Share of gas in the room over the share from which it burns."""
    return x / LFL


@formula("x", "volume_fraction", "1", source=PURGE)
def room_share(V: Purge, V_room: Annotated[float, Sym("volume", "V_room", "m3")]) -> float:
    """Share of gas in the room, mixed evenly, if all that is let out were gas."""
    return V / V_room
