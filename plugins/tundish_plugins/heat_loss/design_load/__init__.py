"""Design heat loss of a house, room by room and as a whole."""

from __future__ import annotations

from tundish.calculation import BarChart, Calculation, Finding, Method, Monotonic, Need, Refused
from tundish_plugins.heat_loss.design_load.contract import HeatLossInputs, HeatLossOutputs
from tundish_plugins.heat_loss.design_load.formulas import EN_12831
from tundish_plugins.heat_loss.design_load.kernel import kernel

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
            "Enough air",
            quantity="/outputs/rooms/*/air_changes",
            sense="at-least",
            limit="room-air-changes-least",
            failed="advisory",
            rests_on=(),
            words_passed="Air changes of {item}: {value}; {limit} is asked for.",
            words_failed="Air changes of {item}: only {value}; {limit} is asked for against damp. "
            "Never reduce air that an open-flued appliance needs: ask a registered gas engineer.",
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
        "air_heat_capacity": {"value": 0.33, "unit": "Wh/(m3.K)"},
        "bridge_allowance": {"value": 0, "unit": "W/(m2.K)"},
        "rooms": [
            {
                "name": "living room",
                "temperature": {"value": 21, "unit": "degC"},
                "floor_area": {"value": 9.9, "unit": "m2"},
                "height": {"value": 2.3, "unit": "m"},
                "air_changes": {"value": 2, "unit": "1/h"},
                "elements": [
                    {
                        "name": "walls",
                        "kind": "wall",
                        "area": {"value": 13.8, "unit": "m2"},
                        "u_value": {"value": 1.5, "unit": "W/(m2.K)"},
                    },
                    {
                        "name": "glass",
                        "kind": "window",
                        "area": {"value": 6, "unit": "m2"},
                        "u_value": {"value": 2.9, "unit": "W/(m2.K)"},
                    },
                    {
                        "name": "floor",
                        "kind": "floor",
                        "area": {"value": 9.9, "unit": "m2"},
                        "u_value": {"value": 1.0, "unit": "W/(m2.K)"},
                    },
                ],
            }
        ],
    },
)
