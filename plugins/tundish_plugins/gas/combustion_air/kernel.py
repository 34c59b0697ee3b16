"""The order of the formulas for air to gas appliances. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import refuse, require, where
from tundish.working import part, silent
from tundish_plugins.gas.combustion_air import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.gas.combustion_air.contract import (
        Appliance,
        CombustionAirInputs,
        Vent,
    )

OPEN, SEALED = "open-flued", "room-sealed"
_PLACES = {
    ("room", "outside"): ("outside",),
    ("room", "room"): ("internal", "outside"),
    ("compartment", "outside"): ("high", "low"),
    ("compartment", "room"): ("high", "low", "outside"),
}


@dataclass(frozen=True)
class Loaded:
    """An appliance with its net heat input."""

    kind: str
    state: str
    here: bool
    waived: bool
    net: float


def _loaded(i: CombustionAirInputs, index: int, c: Context) -> Loaded:
    appliance, where_ = i.appliances[index], f"/appliances/{index}"
    given = appliance.heat_input
    if appliance.state != "goes" and appliance.kind in {"flueless", "decorative"}:
        refuse(f"{appliance.kind}-not-in-rules", f"{where_}/kind")
    if appliance.cooling_waived and appliance.kind != SEALED:
        refuse("waiver-for-room-sealed-only", f"{where_}/cooling_waived")
    here = appliance.location == "here"
    if not here and i.air_from == "outside":
        refuse("no-other-room", f"{where_}/location")
    net = given.value
    if given.basis == "gross":
        row = c.table("gas-named").at("/gas").exact(gas=i.gas)
        net = f.net_heat_input(given.value, row["net"], row["gross"])
    most = c.value("air-vent-input-most")
    require(
        net <= most * (1 + 1e-9),
        "beyond-rules",
        f"{where_}/heat_input",
        given=(net, "heat_input_net", "kW"),
        most=(most, "heat_input_net", "kW"),
    )
    return Loaded(appliance.kind, appliance.state, here, appliance.cooling_waived, net)


def _path(i: CombustionAirInputs) -> None:
    """Refuse what the rules hold no figure for, and forbidden ways of the air."""
    if i.airtight:
        refuse("airtight-not-in-rules", "/airtight")
    if i.air_from == "outside":
        if i.through_room is not None:
            refuse("air-path-contradicts", "/through_room")
        return
    if i.through_room is None:
        refuse("air-path-missing", "/through_room")
    if i.through_room != "ordinary":
        refuse("air-path-forbidden", "/through_room")


@dataclass(frozen=True)
class Rates:
    """What the rules ask for each watt."""

    free: float
    open: float
    sealed: float


def _of_kind(loaded: list[Loaded], kind: str) -> float:
    return f.together([item.net for item in loaded if item.kind == kind])


def _room(loaded: list[Loaded], rates: Rates) -> float:
    """Free area to outside of the room."""
    return f.area_of_room(
        rates.open, _of_kind(loaded, OPEN), rates.free, rates.sealed, _of_kind(loaded, SEALED)
    )


def _compartment(loaded: list[Loaded], air: str, place: str, c: Context) -> float:
    """Free area of one vent of a compartment."""
    drawing = [
        item for item in loaded if item.here and item.kind in {OPEN, SEALED} and not item.waived
    ]
    table = c.table("air-vent-compartment-rates")
    return f.area_of_compartment(
        [table.exact(flue=item.kind, air=air)[place] for item in drawing],
        [item.net for item in drawing],
    )


def _needed(
    i: CombustionAirInputs, loaded: list[Loaded], place: str, rates: Rates, c: Context
) -> float:
    if place in {"high", "low"}:
        return _compartment(loaded, i.air_from, place, c)
    if place == "internal":
        here = [item for item in loaded if item.here]
        return f.area_inside(c.value("air-vent-internal-factor"), _room(here, rates))
    return _room(loaded, rates)


def _stated(vent: Vent, most: float, where_: str) -> float | None:
    """The least opening as stated; refuse one that cannot be there."""
    if vent.least_opening is not None:
        require(
            vent.least_opening <= most * (1 + 1e-9),
            "opening-contradicts",
            f"{where_}/least_opening",
            given=(vent.least_opening, "length", "mm"),
            most=(most, "length", "mm"),
        )
    return vent.least_opening


def _free_area(vent: Vent, where_: str) -> tuple[float, Any]:
    """Free area of a vent, and the largest ball through it where it is known."""
    sides = (vent.openings, vent.opening_width, vent.opening_height)
    if vent.free_area is not None:
        if sides != (None, None, None):
            refuse("free-area-given-twice", f"{where_}/free_area")
        return vent.free_area, _stated(vent, f.ball_of_area(vent.free_area), where_)
    n, b, h = sides
    if n is None or b is None or h is None:
        refuse("free-area-missing", f"{where_}/free_area")
    assert n is not None
    assert b is not None
    assert h is not None
    A = f.area_of_openings(float(n), b, h)
    d = f.ball_through(b, h)
    return A, d if vent.least_opening is None else _stated(vent, d, where_)


def _draws(i: CombustionAirInputs, item: Appliance) -> bool:
    """Whether an appliance that stays or comes draws on vents, or may."""
    if item.state == "goes":
        return False
    in_compartment = i.space == "compartment" and item.location == "here"
    return item.kind != SEALED or (in_compartment and not item.cooling_waived)


def _vents(i: CombustionAirInputs, places: tuple[str, ...], c: Context) -> list[dict[str, Any]]:
    """What is found of every vent; one that can be shut, is screened or too fine counts for nothing."""
    least = c.value("air-vent-aperture-least")
    drawn_on = any(_draws(i, item) for item in i.appliances)
    found = []
    for index, vent in enumerate(i.vents or []):
        where_ = f"/vents/{index}"
        if vent.place not in places:
            refuse("vent-misplaced", f"{where_}/place", accepted=", ".join(places))
        with part("vent", vent.name):
            A, d = _free_area(vent, where_)
        counted = 0.0 * A if vent.closable or vent.screened or vent.plan == "close" else A
        if d is not None:
            counted = where(d >= least * (1 - 1e-9), counted, 0.0 * A)
        found.append(
            {
                "name": vent.name,
                "free_area": A,
                "counted_area": counted,
                "least_opening": d,
                "needed": drawn_on or vent.serves_other,
                "to_close": vent.plan == "close",
            }
        )
    return found


def _opening(
    i: CombustionAirInputs,
    place: str,
    needs: tuple[float, float],
    vents: list[dict[str, Any]],
    *,
    combustion: bool,
) -> dict[str, Any]:
    before, after = needs
    here = [out for out, vent in zip(vents, i.vents or [], strict=True) if vent.place == place]
    given = lacking = None
    if i.vents is not None:
        given = f.area_given([item["counted_area"] for item in here]) + 0.0 * after
        lacking = f.area_lacking(after, given)
    known = all(item["least_opening"] is not None for item in here if not item["to_close"])
    return {
        "name": place,
        "needed": after,
        "needed_mm2": after,
        "needed_before": before,
        "for_combustion": combustion,
        "given": given,
        "lacking": lacking,
        "sizes_known": known,
    }


def kernel(i: CombustionAirInputs, c: Context) -> dict[str, Any]:
    """Free area that appliances need, before and after a change, and what their vents give."""
    _path(i)
    loaded = []
    for index, appliance in enumerate(i.appliances):
        with part("appliance", appliance.name):
            loaded.append(_loaded(i, index, c))
    before = [item for item in loaded if item.state != "comes"]
    after = [item for item in loaded if item.state != "goes"]
    rates = Rates(
        c.value("air-vent-input-free"),
        c.value("air-vent-rate"),
        c.value("air-vent-rate-room-sealed"),
    )
    places = _PLACES[i.space, i.air_from]
    vents = _vents(i, places, c)
    openings = []
    for place in places:
        with part("opening", place):
            need = _needed(i, after, place, rates, c)
            with silent():
                was = _needed(i, before, place, rates, c)
            drawing = [item for item in after if item.here or place == "outside"]
            combustion = any(item.kind == OPEN for item in drawing)
            openings.append(_opening(i, place, (was, need), vents, combustion=combustion))
    with silent():
        inputs = [_of_kind(item, OPEN) for item in (before, after)]
        factor = c.value("air-vent-internal-factor") if "internal" in places else None
    return {
        "input_before": inputs[0],
        "input_after": inputs[1],
        "liquefied": c.table("gas-named").at("/gas").exact(gas=i.gas)["family"] == "lpg",
        "vents_given": i.vents is not None,
        "openings": openings,
        "vents": vents,
        "internal_factor": factor,
    }
