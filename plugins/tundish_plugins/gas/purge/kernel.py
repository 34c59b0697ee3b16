"""The order of a purge. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import refuse, smaller
from tundish.working import part
from tundish_plugins.gas.installation.volume import edition_of, installed, procedure
from tundish_plugins.gas.pipe_sizing.formulas import gas_flow, relative_density
from tundish_plugins.gas.purge import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.gas.purge.contract import PurgeInputs

PROCEDURE = "gas-purge-procedure"
_SLACK = 1 + 1e-9


def _flow(i: PurgeInputs, c: Context) -> float | None:
    """Flow as given; through a burner that of air or of gas, whichever passes more slowly."""
    if i.burner is None:
        return i.flow
    if i.flow is not None:
        refuse("flow-given-twice", "/flow")
    if i.burner_open is False:
        refuse("burner-closed", "/burner_open")
    table = c.table("gas-named")
    first = next(row["gas"] for row in table.rows() if row["family"] == i.gas)
    gas = table.exact(gas=first)
    H = gas["net"] if i.burner.basis == "net" else gas["gross"]
    by_gas = gas_flow(i.burner.value, H)
    # A gas lighter than air passes faster than air, a heavier one more slowly.
    return smaller(by_gas, f.air_through_burner(by_gas, relative_density(gas["density"])))


def kernel(i: PurgeInputs, c: Context) -> dict[str, Any]:
    """What must pass to drive the air out of an installation, and how it may be let out."""
    row = procedure(i, c, PROCEDURE)
    held = installed(i, c)
    if not held.known:
        refuse("volume-unknown", "/untraced_pipework" if i.untraced_pipework else "/pipes")
    V = f.purge_volume(row["factor"], held.total)
    Q = _flow(i, c)
    pipes = []
    for pipe, volume, per_length in zip(i.pipes, held.pipes, held.per_length, strict=True):
        with part("pipe", pipe.name):
            w = None if Q is None else f.velocity(Q, per_length)
        pipes.append({"name": pipe.name, "volume": volume, "velocity": w})
    share = of_flammable = None
    flammable = c.value(f"gas-flammable-from-{i.gas}")
    if i.room_volume is not None and not i.burnt:
        share = f.room_share(V, i.room_volume)
        of_flammable = f.share_of_flammable(share, flammable)
    return {
        "edition": edition_of(i, c, PROCEDURE),
        "meter_volume": held.meter,
        "fittings_volume": held.fittings,
        "pipes": pipes,
        "installation_volume": held.total,
        "purge_volume": V,
        "unburnt_limit": row["unburnt_most"],
        "must_be_burnt": row["unburnt_most"] * _SLACK < V,
        "flow": Q,
        "purge_time": None if Q is None else f.purge_time(V, Q),
        "volume_recorded": i.volume_passed is not None,
        "flammable_from": flammable,
        "room_known": i.room_volume is not None,
        "burner_known_open": i.burner is None or i.burner_open is True,
        "share_of_flammable": of_flammable,
        "room_share": share,
    }
