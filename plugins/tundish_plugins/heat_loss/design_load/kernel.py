"""The order of the formulas for a house on its design day. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, refuse, require
from tundish.working import part
from tundish_plugins.heat_loss.design_load import formulas as f
from tundish_plugins.heat_loss.design_load.contract import OUTSIDE

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.heat_loss.design_load.contract import (
        Element,
        HeatLossInputs,
        Room,
        Space,
    )

DESTINATIONS = ("outside", "ground", "unheated", "inside")
_COLDEST, _WARMEST = (bound or 0.0 for bound in OUTSIDE.bounds("K"))
_SLACK = 1e-9  # K and W: what converting units may move
KINDS = ("wall", "window", "door", "roof", "floor", "partition", "bridges", "air")


@dataclass
class Losses:
    """Losses of one room: by where they go, and those of the house by kind of element."""

    to: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in DESTINATIONS})
    kinds: dict[str, list[float]] = field(default_factory=lambda: {name: [] for name in KINDS})
    neighbours: list[float] = field(default_factory=list)
    exposed: list[float] = field(default_factory=list)


def _outside(i: HeatLossInputs, c: Context) -> tuple[float, float, float]:
    """Design temperature outside, altitude of the house, altitude the temperature belongs to."""
    if i.station is not None:
        if i.outside_temperature is not None or i.station_altitude is not None:
            refuse("outside-given-twice", "/station")
        stations = c.table("design-temperature-stations")
        known = stations.keys("station")
        if i.station not in known:
            refuse("station-unknown", "/station", station=i.station, known=", ".join(known))
        row = stations.exact(station=i.station)
        cold = row["colder_0_4"] if i.colder_hours == "0.4 %" else row["colder_1"]
        z_0 = row["altitude"]
        return cold, z_0 if i.altitude is None else i.altitude, z_0
    if i.station_altitude is not None:
        # Without both of the others it would move a temperature it does not belong to.
        if i.outside_temperature is None:
            refuse("station-altitude-alone", "/station_altitude")
        if i.altitude is None:
            refuse("altitude-missing", "/altitude")
    theta = i.outside_temperature
    if theta is None:
        theta = c.value("design-outside-temperature")
    z = 0.0 if i.altitude is None else i.altitude
    return theta, z, 0.0 if i.station_altitude is None else i.station_altitude


class _House:
    """What all rooms share."""

    def __init__(self, i: HeatLossInputs, c: Context) -> None:
        self.i = i
        theta, self.z, z_0 = _outside(i, c)
        self.T_e = f.outside_at_altitude(theta, self.z, z_0)
        require(
            all_of(self.T_e >= _COLDEST - _SLACK, self.T_e <= _WARMEST + _SLACK),
            "outside-out-of-range",
            "/altitude",
            outside=(self.T_e, "temperature", "degC"),
        )
        self.p = f.air_pressure(self.z)
        self.temperatures = {room.name: room.temperature for room in i.rooms}
        self.spaces: dict[str, float] = {}
        for index, space in enumerate(i.spaces):
            with part("space", space.name):
                self.spaces[space.name] = self._balance(space, f"/spaces/{index}")

    def _balance(self, space: Space, where: str) -> float:
        """Temperature of an unheated space, from every element that borders on it."""
        H_iu: list[float] = []
        T_i: list[float] = []
        for j, room in enumerate(self.i.rooms):
            for k, element in enumerate(room.elements):
                if element.space != space.name:
                    continue
                A = self._net_area(element, f"/rooms/{j}/elements/{k}")
                H_iu.append(f.conductance(A, element.u_value))
                H_iu += [f.conductance(item.area, item.u_value) for item in element.openings]
                T_i += [room.temperature] * (1 + len(element.openings))
        if not H_iu:
            refuse("space-not-bordered", where, space=space.name)
        return f.balanced_temperature(H_iu, T_i, space.loss_to_outside, self.T_e)

    def beyond(self, room: Room, element: Element, where: str) -> float:
        """Temperature beyond an element."""
        self._check_fields(element, where)
        if element.beyond == "room":
            if element.room == room.name or element.room not in self.temperatures:
                refuse("neighbour-unknown", f"{where}/room", room=str(element.room))
            return self.temperatures[str(element.room)]
        if element.beyond == "neighbour":
            return self._stated(element, where)
        if element.beyond == "unheated":
            if element.temperature is not None:
                return self._stated(element, where)
            if element.space is not None:
                if element.space not in self.spaces:
                    refuse("space-unknown", f"{where}/space", space=element.space)
                return self.spaces[element.space]
            assert element.reduction_factor is not None
            return f.unheated_temperature(element.reduction_factor, room.temperature, self.T_e)
        return self.T_e

    def _stated(self, element: Element, where: str) -> float:
        """Temperature stated for what lies beyond: nothing there is colder than outside."""
        assert element.temperature is not None
        require(
            element.temperature >= self.T_e - _SLACK,
            "beyond-colder-than-outside",
            f"{where}/temperature",
            outside=(self.T_e, "temperature", "degC"),
        )
        return element.temperature

    @staticmethod
    def _net_area(element: Element, where: str) -> float:
        """Area without the openings."""
        if not element.openings:
            return element.area
        A = f.net_area(element.area, [opening.area for opening in element.openings])
        require(A >= 0.0, "openings-larger-than-element", f"{where}/openings")
        return A

    @staticmethod
    def _check_fields(element: Element, where: str) -> None:
        """Refuse an element whose fields do not fit what lies beyond it."""
        given = {
            "room": element.room is not None,
            "temperature": element.temperature is not None,
            "reduction_factor": element.reduction_factor is not None,
            "space": element.space is not None,
        }
        wanted: dict[str, tuple[set[str], ...]] = {
            "room": ({"room"},),
            "neighbour": ({"temperature"},),
            "unheated": ({"temperature"}, {"reduction_factor"}, {"space"}),
        }
        present = {name for name, there in given.items() if there}
        if present not in wanted.get(element.beyond, (set(),)):
            refuse("beyond-not-defined", f"{where}/beyond", beyond=element.beyond)

    def element(self, room: Room, element: Element, losses: Losses, where: str) -> None:
        """Add the loss through an element and its openings."""
        T_i, T_x = room.temperature, self.beyond(room, element, where)
        A = self._net_area(element, where)
        flows = [(element.kind, f.transmission(A, element.u_value, T_i, T_x))]
        flows += [
            (opening.kind, f.transmission(opening.area, opening.u_value, T_i, T_x))
            for opening in element.openings
        ]
        inside = element.beyond in {"room", "neighbour"}
        may_gain = inside or element.beyond == "unheated"
        for kind, flow in flows:
            Phi = f.no_gain(flow) if may_gain and not self.i.count_gains else flow
            losses.to["inside" if inside else element.beyond].append(Phi)
            if element.beyond != "room":
                losses.kinds[kind].append(Phi)
            if element.beyond == "neighbour":
                losses.neighbours.append(Phi)
        if element.beyond == "outside":
            losses.exposed.append(element.area)

    def bridges(self, room: Room, losses: Losses) -> None:
        """Add the loss of thermal bridges: the room's own, or the allowance."""
        T_i = room.temperature
        if room.bridges:
            Phi = f.bridges_by_length(
                [item.transmittance for item in room.bridges],
                [item.length for item in room.bridges],
                T_i,
                self.T_e,
            )
        else:
            Phi = f.bridges_by_allowance(losses.exposed, self.i.bridge_allowance, T_i, self.T_e)
        losses.to["outside"].append(Phi)
        losses.kinds["bridges"].append(Phi)

    def air(self, room: Room, where: str) -> tuple[float, float, float]:
        """Heat that warms the air, the air flow and the air changes."""
        i = self.i
        V_r = f.room_volume(room.floor_area, room.height)
        V = f.needed_air(room.air_changes, V_r)
        if i.leakage is not None:
            if room.shielding is None:
                refuse("shielding-missing", f"{where}/shielding")
            assert room.shielding is not None
            V = f.larger_air(V, f.infiltration(V_r, i.leakage, room.shielding, i.height_factor))
        warmed = f.with_supply(V, room.mechanical_supply, room.heat_recovery)
        n = f.air_changes(V, room.mechanical_supply, V_r)
        c_v = i.air_heat_capacity
        if c_v is None:
            c_v = f.heat_capacity_of_air(self.p, room.temperature)
        return f.air_loss(warmed, c_v, room.temperature, self.T_e), warmed, n


def _room(house: _House, index: int, room: Room) -> tuple[dict[str, Any], Losses]:
    where = f"/rooms/{index}"
    require(house.T_e < room.temperature, "outside-not-colder", f"{where}/temperature")
    losses = Losses()
    for k, element in enumerate(room.elements):
        with part("element", element.name):
            house.element(room, element, losses, f"{where}/elements/{k}")
    house.bridges(room, losses)
    air, flow, changes = house.air(room, where)
    losses.kinds["air"].append(air)
    to = {name: f.added(losses.to[name]) for name in DESTINATIONS}
    require(to["outside"] >= -_SLACK, "bridges-beyond-transmission", f"{where}/bridges")
    warm_up = f.reheat(house.i.reheat_allowance, room.floor_area)
    load = f.added([*to.values(), air, warm_up])
    require(load > 0.0, "no-load-left", where, load=(load, "power", "W"))
    return {
        "name": room.name,
        "load": load,
        "load_per_area": f.per_area(load, room.floor_area),
        **to,
        "air": air,
        "reheat": warm_up,
        "air_flow": flow,
        "air_changes": changes,
    }, losses


def kernel(i: HeatLossInputs, c: Context) -> dict[str, Any]:
    """Design heat loss of every room and of the house."""
    house = _House(i, c)
    rooms, losses = [], []
    for index, room in enumerate(i.rooms):
        with part("room", room.name):
            found, lost = _room(house, index, room)
        rooms.append(found)
        losses.append(lost)
    outward = [
        flow
        for lost in losses
        for flow in (
            *lost.to["outside"],
            *lost.to["ground"],
            *lost.to["unheated"],
            *lost.neighbours,
        )
    ]
    Phi_T = f.added(outward)
    Phi_V = f.weighted_air(i.infiltration_weight, [room["air"] for room in rooms])
    Phi_RH = f.added([room["reheat"] for room in rooms])
    Phi = f.added([Phi_T, Phi_V, Phi_RH])
    require(Phi > 0.0, "no-load-left", "/rooms", load=(Phi, "power", "W"))
    w = i.infiltration_weight
    H = f.coefficients_added(
        [
            f.room_coefficient(
                [
                    found["outside"],
                    found["ground"],
                    found["unheated"],
                    f.weighted_air(w, [found["air"]]),
                ],
                room.temperature,
                house.T_e,
            )
            for room, found in zip(i.rooms, rooms, strict=True)
        ]
    )
    A = f.floors([room.floor_area for room in i.rooms])
    breakdown = []
    for kind in KINDS:
        flows = [flow for lost in losses for flow in lost.kinds[kind]]
        if flows:
            loss = f.weighted_air(i.infiltration_weight, flows) if kind == "air" else f.added(flows)
            breakdown.append({"name": kind, "loss": loss})
    return {
        "design_outside_temperature": house.T_e,
        "altitude": house.z,
        "air_pressure": house.p,
        "design_heat_loss": Phi,
        "sum_of_rooms": f.added([room["load"] for room in rooms]),
        "transmission": Phi_T,
        "air": Phi_V,
        "reheat": Phi_RH,
        "floor_area": A,
        "loss_per_area": f.per_area(Phi, A),
        "loss_coefficient": H,
        "spaces": [{"name": name, "temperature": theta} for name, theta in house.spaces.items()],
        "rooms": rooms,
        "breakdown": breakdown,
    }
