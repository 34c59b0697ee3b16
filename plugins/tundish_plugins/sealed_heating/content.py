"""What fills a system and flows in it, as calculations ask for it: water, or water with glycol."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tundish.functions import refuse, require
from tundish_plugins.sealed_heating import fluids

if TYPE_CHECKING:
    from typing import Protocol

    class Filled(Protocol):
        """Inputs that say what fills the system."""

        @property
        def fluid(self) -> str:
            """Water, or which glycol."""

        @property
        def glycol_mass_share(self) -> float | None:
            """Share by mass."""

        @property
        def glycol_volume_share(self) -> float | None:
            """Share by volume, mixed at 20 °C."""


@dataclass(frozen=True)
class Content:
    """Properties at one temperature."""

    rho: float
    mu: float
    c_p: float


def mass_share_of(i: Filled) -> float | None:
    """Mass share of glycol, or none for water; refuses what the data do not reach."""
    if i.fluid == "water":
        if i.glycol_mass_share is not None or i.glycol_volume_share is not None:
            refuse("glycol-share-of-water", "/fluid")
        return None
    if (i.glycol_mass_share is None) == (i.glycol_volume_share is None):
        refuse("glycol-share-once", "/glycol_mass_share")
    x = i.glycol_mass_share
    field = "/glycol_mass_share"
    if x is None:
        assert i.glycol_volume_share is not None
        field = "/glycol_volume_share"
        x = fluids.share_by_mass(i.fluid, i.glycol_volume_share)
    require(fluids.known(x), "glycol-outside-data", field)
    return x


def content_of(i: Filled, T: float) -> Content:
    """Density, viscosity and specific heat of the content at a temperature."""
    x = mass_share_of(i)
    return Content(
        fluids.density(i.fluid, x, T),
        fluids.viscosity(i.fluid, x, T),
        fluids.specific_heat(i.fluid, x, T),
    )
