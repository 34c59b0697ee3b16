"""A complete request: heating and hot water by two normally closed valves with end switches."""

from __future__ import annotations

from typing import Any


def _wire(name: str, start: str, end: str) -> dict[str, Any]:
    return {"name": name, "start": start, "end": end}


def _contact(name: str, start: str, end: str, moved_by: str) -> dict[str, Any]:
    return {
        "name": name,
        "start": start,
        "end": end,
        "moved_by": moved_by,
        "kind": "normally-open",
    }


EXAMPLE: dict[str, Any] = {
    "free_inputs": [
        {"name": "hw_on"},
        {"name": "cylinder_calls"},
        {"name": "ch_on"},
        {"name": "room_calls"},
        {"name": "cut_out_healthy"},
    ],
    "supplies": [
        {"name": "mains", "live": "L", "neutral": "N", "earth": "E", "isolator": "fused spur"}
    ],
    "wires": [
        _wire("end switch bridge", "3", "4"),
        _wire("end switch output", "5", "6"),
    ],
    "contacts": [
        _contact("programmer HW", "L", "1", "hw_on"),
        _contact("cylinder thermostat", "1", "7", "cylinder_calls"),
        _contact("cylinder cut-out", "7", "8", "cut_out_healthy"),
        _contact("programmer CH", "L", "2", "ch_on"),
        _contact("room thermostat", "2", "9", "room_calls"),
        _contact("HW end switch", "3", "5", "hw_valve"),
        _contact("CH end switch", "4", "6", "ch_valve"),
    ],
    "valves": [
        {"name": "hw_valve", "start": "8", "end": "N", "rest": "closed", "travel_time": "20 s"},
        {"name": "ch_valve", "start": "9", "end": "N", "rest": "closed", "travel_time": "20 s"},
    ],
    "loads": [
        {"name": "boiler", "start": "6", "end": "N", "kind": "boiler"},
        {"name": "pump", "start": "6", "end": "N", "kind": "pump"},
    ],
    "flow_paths": [
        {"name": "cylinder", "open_when": "hw_valve", "heats_store": True},
        {"name": "heating", "open_when": "ch_valve"},
    ],
    "cut_outs": [{"name": "cut_out_healthy", "stops": ["cylinder"]}],
    "intended": [
        {
            "name": "boiler",
            "when": "hw_on and cylinder_calls and cut_out_healthy or ch_on and room_calls",
        },
        {"name": "cylinder", "when": "hw_on and cylinder_calls and cut_out_healthy"},
        {"name": "heating", "when": "ch_on and room_calls"},
    ],
    "unvented": True,
}
EXAMPLE["wires"].append(_wire("live to the end switches", "L", "3"))
