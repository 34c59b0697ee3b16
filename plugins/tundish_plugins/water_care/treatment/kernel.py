"""The order of the formulas for the care of heating water. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish.functions import any_of, require, where
from tundish.physics import pipes
from tundish.working import part
from tundish_plugins.water_care.treatment import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.water_care.treatment.contract import TreatmentInputs

VDI: Final = "vdi-2035"
SMALL: Final = 20e-6
LARGE: Final = 50e-6
"""Contents of 20 and 50 l/kW, in m3/W: the columns of the tables part there."""


def _limit(v: float, i: TreatmentInputs, c: Context) -> float:
    """Largest hardness by output and specific content."""
    name = "hardness-limits-vdi" if c.method == VDI else "hardness-limits-oenorm"
    row = c.table(name).at("/smallest_output").next_larger("output", i.smallest_output)
    small = v <= SMALL * (1 + 1e-9) if c.method == VDI else v < SMALL * (1 - 1e-9)
    found: float = where(
        any_of(v >= LARGE * (1 - 1e-9)),
        row["large"],
        where(any_of(small), row["small"], row["middle"]),
    )
    return found


def kernel(i: TreatmentInputs, c: Context) -> dict[str, Any]:
    """Dose, hardness and flushing of a heating system."""
    V, u = i.content, i.content_uncertainty
    v = f.specific_content(V, i.smallest_output)
    limit = _limit(v, i, c)
    require(i.treated_hardness < limit, "treated-not-soft-enough", "/treated_hardness")
    s = f.demineralised_share(i.mains_hardness, limit, i.treated_hardness)
    largest = f.largest_dose(i.dose_rate, V, u)
    legs = []
    for leg in i.legs:
        with part("leg", leg.name):
            legs.append(
                {
                    "name": leg.name,
                    "velocity": pipes.velocity(leg.flow, leg.bore),
                    "flow_needed": (
                        None if i.flush_velocity is None else f.flow_for(i.flush_velocity, leg.bore)
                    ),
                }
            )
    return {
        "dose": f.dose(i.dose_rate, V),
        "least_dose": f.least_dose(i.dose_rate, V, u),
        "largest_dose": largest,
        "containers": f.containers(largest, i.container),
        "specific_content": v,
        "hardness_limit": limit,
        "demineralised_share": s,
        "demineralised_volume": f.part_of(s, V),
        "scale": f.scale(V, i.mains_hardness),
        "legs": legs,
        "dissolved_deviation": (
            None
            if i.dissolved is None
            else f.dissolved_deviation(i.dissolved.system, i.dissolved.mains)
        ),
    }
