"""A brute-force simulator of contact networks, to hold the calculation against.

It shares no code with it: one state at a time, points joined with union-find, rounds of switching
kept in a list to see a repeat.
"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import random


class Joined:
    """Disjoint sets of points."""

    def __init__(self) -> None:
        self.up: dict[str, str] = {}

    def find(self, x: str) -> str:
        if self.up.setdefault(x, x) != x:
            self.up[x] = self.find(self.up[x])
        return self.up[x]

    def join(self, a: str, b: str) -> None:
        self.up[self.find(a)] = self.find(b)

    def same(self, a: str, b: str) -> bool:
        return self.find(a) == self.find(b)


def _network(inputs: dict[str, Any], free: dict[str, bool], moved: dict[str, bool]) -> Joined:
    joined = Joined()
    for wire in inputs.get("wires", []):
        joined.join(wire["start"], wire["end"])
    for contact in inputs.get("contacts", []):
        by = contact["moved_by"]
        operated = free[by] if by in free else moved[by]
        if operated == (contact["kind"] == "normally-open"):
            joined.join(contact["start"], contact["end"])
    # Poles of equal name at one voltage are one pole.
    for band in ("mains", "extra-low-voltage"):
        of_band = [s for s in inputs.get("supplies", []) if s.get("band", "mains") == band]
        for pole in ("live", "neutral"):
            for one, other in itertools.pairwise(of_band):
                joined.join(one[pole], other[pole])
    earths = [s["earth"] for s in inputs.get("supplies", []) if s.get("earth")]
    for one, other in itertools.pairwise(earths):
        joined.join(one, other)
    return joined


def _shorted(inputs: dict[str, Any], joined: Joined) -> bool:
    for supply in inputs.get("supplies", []):
        if joined.same(supply["live"], supply["neutral"]):
            return True
        earths = [s["earth"] for s in inputs["supplies"] if s.get("earth")]
        if supply.get("band", "mains") == "mains" and any(
            joined.same(supply[pole], earths[0]) for pole in ("live", "neutral") if earths
        ):
            return True
    return False


def _answers(inputs: dict[str, Any], joined: Joined) -> dict[str, bool]:
    found = {}
    for group in ("relays", "valves", "loads"):
        for item in inputs.get(group, []):
            a, b = item["start"], item["end"]
            found[item["name"]] = any(
                (joined.same(a, s["live"]) and joined.same(b, s["neutral"]))
                or (joined.same(b, s["live"]) and joined.same(a, s["neutral"]))
                for s in inputs.get("supplies", [])
            )
    for item in inputs.get("sensed_inputs", []):
        closed = joined.same(item["start"], item["end"])
        found[item["name"]] = closed == (item["open_means"] == "no-demand")
    return found


def simulate(inputs: dict[str, Any]) -> dict[tuple[bool, ...], tuple[str, dict[str, bool]]]:
    """Every state -> ("rest", what is operated), ("restless", {}) or ("short", {})."""
    names = [item["name"] for item in inputs["free_inputs"]]
    table = {}
    for values in itertools.product([False, True], repeat=len(names)):
        free = dict(zip(names, values, strict=True))
        groups = ("relays", "valves", "loads", "sensed_inputs")
        moved = {item["name"]: False for group in groups for item in inputs.get(group, [])}
        before, told, shorted = [moved], "restless", False
        while True:
            joined = _network(inputs, free, moved)
            shorted = shorted or _shorted(inputs, joined)
            following = _answers(inputs, joined)
            if following == moved:
                told = "rest"
                break
            moved = following
            if moved in before:
                break
            before.append(moved)
        if shorted:
            table[values] = ("short", {})
        else:
            table[values] = (told, moved if told == "rest" else {})
    return table


def digits(inputs: dict[str, Any], name: str) -> str:
    """A thing's column over all states, as 0, 1 and ~."""
    marks = []
    for told, moved in simulate(inputs).values():
        marks.append("~" if told == "restless" else str(int(moved[name])))
    return "".join(marks)


def random_network(chance: random.Random) -> dict[str, Any]:
    """A network of some points, contacts, relays, valves and loads, thrown together."""
    points = ["L", "N", *[f"p{k}" for k in range(chance.randint(2, 7))]]
    free = [f"x{k}" for k in range(chance.randint(1, 4))]

    # Most of the time no contact or wire leads to neutral, or nearly all would be shorts.
    switched = points if chance.random() < 0.3 else [p for p in points if p != "N"]

    def ends(pool: list[str] = points) -> dict[str, str]:
        start, end = chance.sample(pool, 2)
        return {"start": start, "end": end}

    def some(word: str, most: int, **members: Any) -> list[dict[str, Any]]:
        return [
            {
                "name": f"{word}{k}",
                **ends(),
                **{key: make() for key, make in members.items()},
            }
            for k in range(chance.randint(0, most))
        ]

    found: dict[str, Any] = {
        "free_inputs": [{"name": name} for name in free],
        "supplies": [{"name": "mains", "live": "L", "neutral": "N", "isolator": "spur"}],
        "wires": [{"name": f"w{k}", **ends(switched)} for k in range(chance.randint(0, 2))],
        "relays": some("r", 3),
        "valves": some("v", 2, rest=lambda: chance.choice(["open", "closed"])),
        "loads": [{"name": "boiler", **ends(), "kind": "boiler"}],
        "sensed_inputs": some(
            "s", 2, open_means=lambda: chance.choice(["demand", "no-demand"]), band=lambda: "mains"
        ),
    }
    movers = [
        item["name"]
        for group in ("relays", "valves", "loads", "sensed_inputs")
        for item in found[group]
    ]
    found["contacts"] = [
        {
            "name": f"c{k}",
            **ends(switched),
            "moved_by": chance.choice(free * 2 + movers),
            "kind": chance.choice(["normally-open", "normally-closed"]),
        }
        for k in range(chance.randint(1, 10))
    ]
    return found
