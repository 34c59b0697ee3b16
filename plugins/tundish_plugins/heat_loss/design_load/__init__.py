"""Design heat loss of a house, room by room and as a whole."""

from __future__ import annotations

from typing import Any

from tundish.calculation import BarChart, Calculation, Finding, Method, Monotonic, Need, Refused
from tundish_plugins.heat_loss.design_load.contract import HeatLossInputs, HeatLossOutputs
from tundish_plugins.heat_loss.design_load.formulas import EN_12831
from tundish_plugins.heat_loss.design_load.kernel import kernel


def _element(name: str, kind: str, area: float, u_value: float, **more: str) -> dict[str, Any]:
    """Write an element of the example."""
    return {
        "name": name,
        "kind": kind,
        **more,
        "area": {"value": area, "unit": "m2"},
        "u_value": {"value": u_value, "unit": "W/(m2.K)"},
    }


def _room(name: str, area: float, air: float, *elements: dict[str, Any]) -> dict[str, Any]:
    """Write a room of the example, a published house of 1940."""
    return {
        "name": name,
        "temperature": {"value": 20, "unit": "degC"},
        "floor_area": {"value": area, "unit": "m2"},
        "height": {"value": 2.5, "unit": "m"},
        "air_changes": {"value": air, "unit": "1/h"},
        "elements": list(elements),
    }


CALCULATION = Calculation(
    id="heat-loss",
    version="1.0",
    title="Design heat loss of a house, room by room",
    summary="Watts each room and the whole house need on the design day: fabric, ground, "
    "neighbours, air, bridges and reheat, with altitude.",
    family="heat-loss",
    questions=(
        "What does the house lose, and which boiler output does heating need?",
        "How many watts does each room need?",
        "What would insulating this wall save?",
    ),
    inputs=HeatLossInputs,
    outputs=HeatLossOutputs,
    kernel=kernel,
    methods=(
        Method(
            "steady-state",
            "European Standard, steady state",
            "Losses of EN 12831 on the design day without sun and inner gains: elements, unheated "
            "spaces, ground at the outside temperature (on the safe side), neighbours, air.",
            source=EN_12831,
        ),
    ),
    needs=(
        Need("design-outside-temperature", "temperature", "Design temperature outside"),
        Need("design-temperature-stations", "table", "Design temperatures of weather stations"),
    ),
    findings=(
        Finding(
            "air-enough",
            "Air changes of the rooms",
            quantity="/outputs/rooms/*/air_changes",
            sense="at-least",
            limit="room-air-changes-least",
            failed="advisory",
            rests_on=(),
            words_passed="Air changes of {item}: {value}; {limit} is asked for.",
            words_failed="Air changes of {item}: only {value}; {limit} is asked for against damp. "
            "Never reduce air that an open-flued appliance needs: ask a registered gas engineer.",
        ),
        Finding(
            "room-load-least",
            "Room load over its floor, low side",
            quantity="/outputs/rooms/*/load_per_area",
            sense="at-least",
            limit="room-load-per-area-least",
            failed="advisory",
            words_passed="{item}: {value} of floor; {limit} or more is usual.",
            words_failed="{item}: only {value} of floor; below {limit} lie only rooms of very well "
            "insulated houses. Check that all its surfaces and its air are in.",
        ),
        Finding(
            "room-load-most",
            "Room load over its floor, high side",
            quantity="/outputs/rooms/*/load_per_area",
            sense="at-most",
            limit="room-load-per-area-most",
            failed="advisory",
            words_passed="{item}: {value} of floor; up to {limit} is usual.",
            words_failed="{item}: {value} of floor; more than {limit} is seldom true. Check areas, "
            "units, temperatures and air changes.",
        ),
        Finding(
            "house-load-most",
            "House loss over its floor",
            quantity="/outputs/loss_per_area",
            sense="at-most",
            limit="house-load-per-area-most",
            failed="advisory",
            words_passed="{value} of floor; up to {limit} is usual for a whole house.",
            words_failed="{value} of floor; more than {limit} is unusual for a whole house, though "
            "not for a room by itself. Check U-values and air changes before anything is sized.",
        ),
    ),
    cautions=("heat-loss-fabric", "heat-loss-ventilation"),
    refusals=(
        Refused(
            "outside-not-colder",
            "It is not colder outside than in this room",
            "There is no heat loss to design for: check the temperatures and their signs.",
        ),
        Refused(
            "outside-given-twice",
            "A weather station is named and its temperature or altitude given as well",
            "Give either the station, or the outside temperature with its altitude.",
        ),
        Refused(
            "station-altitude-alone",
            "The altitude of a station is given without its temperature",
            "Give the outside temperature with it, or name the weather station instead.",
        ),
        Refused(
            "altitude-missing",
            "The altitude of the station is given and that of the house is not",
            "Give the altitude of the house: the outside temperature is carried from one to the "
            "other.",
        ),
        Refused(
            "outside-out-of-range",
            "At the altitude of the house it would be {outside} outside, beyond what is calculated",
            "From -40 to 15 °C is calculated: check both altitudes and the temperature.",
        ),
        Refused(
            "beyond-colder-than-outside",
            "What lies beyond is colder than outside, {outside}",
            "Check the temperature and its sign. Nothing beside a house is colder than the design "
            "day.",
        ),
        Refused(
            "bridges-beyond-transmission",
            "The bridges take off more than the room's surfaces lose to outside",
            "Check the sign and the length of the bridges: a negative one corrects areas that were "
            "measured outside, and no more.",
        ),
        Refused(
            "no-load-left",
            "The heat load is {load}: there is nothing to design for",
            "Check areas, temperatures and air changes. If gains from warmer rooms, neighbours or "
            "spaces are counted, do not count them: they may not be there on the design day.",
        ),
        Refused(
            "station-unknown",
            "There is no design temperature for the station {station}; there is for {known}",
            "Name one of these stations, or give the outside temperature with its altitude.",
        ),
        Refused(
            "space-unknown",
            "There is no unheated space {space} in the list",
            "Name a space of the list, or give its temperature or its reduction factor.",
        ),
        Refused(
            "space-not-bordered",
            "No element of a room borders on the unheated space {space}",
            "Name the space in the elements beside it, or leave it out.",
        ),
        Refused(
            "openings-larger-than-element",
            "The openings are larger than the element they are in",
            "Give the area of the element with its openings in it.",
        ),
        Refused(
            "neighbour-unknown",
            "There is no other room {room} in this house",
            "Name another room of the list, or give a neighbour with its temperature.",
        ),
        Refused(
            "beyond-not-defined",
            "What lies beyond ({beyond}) is not fully or not rightly described",
            "room: name it. neighbour: its temperature. unheated: one of its temperature, its "
            "reduction factor, and its name in the list of spaces. outside and ground: nothing "
            "more.",
        ),
        Refused(
            "shielding-missing",
            "A leakage needs the shielding coefficient of each room",
            "Give shielding for the room, or leave the leakage out.",
        ),
    ),
    monotonic=(
        Monotonic("/spaces/0/loss_to_outside", "/design_heat_loss", "increasing"),
        Monotonic("/rooms/0/air_changes", "/loss_coefficient", "increasing"),
        Monotonic("/outside_temperature", "/design_heat_loss", "decreasing"),
        Monotonic("/bridge_allowance", "/design_heat_loss", "increasing"),
        Monotonic("/rooms/0/air_changes", "/design_heat_loss", "increasing"),
        Monotonic("/rooms/0/air_changes", "/rooms/0/load", "increasing"),
        Monotonic("/reheat_allowance", "/sum_of_rooms", "increasing"),
    ),
    charts=(
        BarChart(
            "rooms",
            "Load of each room",
            items="/outputs/rooms",
            label="name",
            bars=(
                ("outside", "outside"),
                ("ground", "ground"),
                ("unheated", "unheated"),
                ("inside", "inside"),
                ("air", "air"),
                ("reheat", "reheat"),
            ),
        ),
        BarChart(
            "breakdown",
            "Where the heat goes",
            items="/outputs/breakdown",
            label="name",
            bars=(("loss", "loss"),),
        ),
    ),
    example={
        "outside_temperature": {"value": -1, "unit": "degC"},
        "air_heat_capacity": {"value": 0.3333333333333333, "unit": "Wh/(m3.K)"},
        "bridge_allowance": {"value": 0, "unit": "W/(m2.K)"},
        "rooms": [
            _room(
                "bedrooms",
                32,
                0.5,
                _element("pitched roof", "roof", 48, 0.6),
                _element("flat roof", "roof", 1.6, 3),
                _element("main walls", "wall", 50, 1.0),
                _element("double glazing", "window", 17.8, 2.9),
            ),
            _room("kitchen", 14.4, 2, _element("extension walls", "wall", 24.1, 0.6)),
            _room(
                "hall",
                10.8,
                3,
                _element("thin wall", "wall", 2, 3),
                _element("single glazing", "window", 7.35, 5),
            ),
            _room("other rooms", 30.8, 1, _element("floor", "floor", 50, 0.8, beyond="ground")),
        ],
    },
)
