"""Cores between places against a count by other means, and the schemes on file as networks."""

from __future__ import annotations

import itertools
import random
from typing import Any

import pytest

from tundish.answering import answer
from tundish.host import default_host

LOW = "extra-low-voltage"


def _answer(inputs: dict[str, Any]) -> dict[str, Any]:
    status, body = answer("control-cores", {"inputs": inputs, "region": "GB", "date": "2026-11-01"})
    assert status == 200, body
    return body


# --- against a walk along the way of every net -------------------------------------------------------


def _random(chance: random.Random) -> dict[str, Any]:
    """A tree of places with cables, and a scheme of random nets."""
    places = [f"place {chr(97 + k)}" for k in range(chance.randint(2, 6))]
    cables = []
    for k in range(1, len(places)):
        start = places[chance.randrange(k)]
        for n in range(chance.randint(1, 3)):
            earth = chance.random() < 0.7
            cables.append(
                {
                    "name": f"cable {k}-{n}",
                    "start": start,
                    "end": places[k],
                    "cores": chance.randint(1 if earth else 0, 6),
                    "earth_core": earth,
                    "insulated_for": chance.choice(["mains", "mains", LOW]),
                    "carries": chance.choice(["free", "free", "free", "mains", LOW, "other"]),
                }
            )
    nets = [
        {
            "name": f"net {k}",
            "role": chance.choice(["line", "line", "neutral", "earth"]),
            "band": chance.choice(["mains", "mains", LOW]),
            "places": chance.sample(places, chance.randint(2, len(places))),
        }
        for k in range(chance.randint(1, 8))
    ]
    return {"cables": cables, "schemes": [{"name": "random", "nets": nets}]}


def _path(parents: dict[str, str], a: str, b: str) -> set[frozenset[str]]:
    """Ways between two places of a tree, by their lines of descent."""

    def up(place: str) -> list[frozenset[str]]:
        found = []
        while place in parents:
            found.append(frozenset((place, parents[place])))
            place = parents[place]
        return found

    return set(up(a)) ^ set(up(b))


def _missing(cables: list[dict[str, Any]], live: int, low: int, *, mains: bool) -> int:
    """Fewest missing cores over every use of every cable."""
    found = []
    for uses in itertools.product(["", "mains", LOW], repeat=len(cables)):
        there = {"mains": 0, LOW: 0}
        earth = allowed = True
        earth = False
        for cable, use in zip(cables, uses, strict=True):
            if not use:
                continue
            if cable["carries"] not in {"free", use}:
                allowed = False
            if use == "mains" and not (cable["earth_core"] and cable["insulated_for"] == "mains"):
                allowed = False
            there[use] += cable["cores"] - (1 if cable["earth_core"] else 0)
            earth = earth or use == "mains"
        if allowed:
            short = max(live + (1 if mains else 0) - there["mains"] - (1 if earth else 0), 0)
            found.append(short + max(low - there[LOW], 0))
    return min(found)


def test_random_trees_of_cables() -> None:
    chance, fitted = random.Random(3), 0
    for _ in range(400):
        inputs = _random(chance)
        outputs = _answer(inputs)["outputs"]
        parents = {c["end"]: c["start"] for c in inputs["cables"]}
        total = 0
        for leg in outputs["legs"]:
            start, end = leg["name"].split(" to ")
            way = frozenset((start, end))
            crossing = [
                net
                for net in inputs["schemes"][0]["nets"]
                if any(way in _path(parents, net["places"][0], p) for p in net["places"][1:])
            ]
            mains = [net for net in crossing if net["band"] == "mains"]
            live = sum(net["role"] != "earth" for net in mains)
            low = len(crossing) - len(mains)
            assert leg["mains_needed"] == (live + 1 if mains else None)
            assert leg["low_needed"] == (low or None)
            cables = [c for c in inputs["cables"] if {c["start"], c["end"]} == way]
            total += _missing(cables, live, low, mains=bool(mains))
        assert outputs["schemes"][0]["missing_cores"] == total, inputs
        assert outputs["some_fits"] == (total == 0)
        fitted += outputs["some_fits"]
    assert 20 < fitted < 380


# --- what must never happen ----------------------------------------------------------------------------


@pytest.mark.parametrize("use", ["line", "switched-line", "neutral", "signal"])
def test_an_earth_core_never_counts_as_anything_else(use: str) -> None:
    nets = [{"name": f"net {k}", "places": ["a place", "b place"]} for k in range(3)]
    cable = {
        "name": "cable",
        "start": "a place",
        "end": "b place",
        "cores": 3,
        "earth_core": True,
        "earth_core_used_as": use,
    }
    body = _answer({"cables": [cable], "schemes": [{"name": "three lines", "nets": nets}]})
    assert body["findings"]["earth-core"]["verdict"] == "dangerous"
    assert body["findings"]["mains-earthed"]["verdict"] == "dangerous"
    assert body["outputs"]["some_fits"] is False
    assert body["verdict"] == "dangerous"


# --- the schemes on file are networks that do what they say ---------------------------------------------

Part = tuple[str, str, str, str]  # what, from net, to net, where it stands

INSIDE = "inside the valve"
TWO = "two normally closed valves with end switches"
ONE = "a normally closed and a normally open valve on one live"
DIVERTING = "a three-port diverting valve"
MID = "a three-port mid-position valve"
_HEATING: list[Part] = [("ch", "permanent line", "heating on", "programmer")]
_PARTS: dict[str, list[Part]] = {
    TWO: [
        *_HEATING,
        ("hw", "permanent line", "hot water on", "programmer"),
        ("cold", "hot water on", "cylinder calls", "store"),
        ("room", "heating on", "room calls", "room"),
        ("valve:hw_valve", "cylinder calls", "neutral", "valves"),
        ("valve:ch_valve", "room calls", "neutral", "valves"),
        ("hw_valve", "permanent line", "end switch output", "valves"),
        ("ch_valve", "permanent line", "end switch output", "valves"),
        ("load:boiler", "end switch output", "neutral", "boiler"),
    ],
    ONE: [
        ("sense:demand", "hot water pair 1", "hot water pair 2", "boiler"),
        ("not hw", "hot water pair 1", "hot water pair 2", "programmer"),
        ("not cold", "hot water pair 1", "hot water pair 2", "store"),
        ("demand", "permanent line", "hot-water mode live", "boiler"),
        ("healthy", "hot-water mode live", "live after the cut-out", "store"),
        ("valve:hw_valve", "live after the cut-out", "neutral", "valves"),
        ("open:ch_valve", "live after the cut-out", "neutral", "valves"),
        ("closed:heating", "heating pair 1", "heating pair 2", "boiler"),
        ("ch", "heating pair 1", "heating link", "programmer"),
        ("room", "heating link", "heating pair 2", "room"),
    ],
    DIVERTING: [
        *_HEATING,
        ("hw", "permanent line", "thermostat common", "programmer"),
        ("room", "heating on", "thermostat common", "room"),
        ("cold", "thermostat common", "boiler demand", "store"),
        ("not cold", "thermostat common", "cylinder satisfied", "store"),
        ("valve:diverter", "cylinder satisfied", "neutral", "valves"),
        ("diverter", "thermostat common", "boiler demand", "valves"),
        ("load:boiler", "boiler demand", "neutral", "boiler"),
    ],
    MID: [
        *_HEATING,
        ("hw", "permanent line", "hot water on", "programmer"),
        ("not hw", "permanent line", "hot water off or satisfied", "programmer"),
        ("room", "heating on", "room calls", "room"),
        ("cold", "hot water on", "boiler demand", "store"),
        ("not cold", "hot water on", "hot water off or satisfied", "store"),
        ("relay:motor", "room calls", "neutral", "valves"),
        ("relay:holding", "hot water off or satisfied", "neutral", "valves"),
        ("motor", "room calls", INSIDE, "valves"),
        ("holding", INSIDE, "boiler demand", "valves"),
        ("load:boiler", "boiler demand", "neutral", "boiler"),
    ],
}
_MEANT = {
    TWO: [("boiler", "hw and cold or ch and room")],
    ONE: [
        ("demand", "hw and cold"),
        ("heating", "ch and room"),
        ("hw_valve", "hw and cold and healthy"),
        ("ch_valve", "not (hw and cold and healthy)"),
    ],
    DIVERTING: [("boiler", "hw or ch and room"), ("diverter", "(hw or ch and room) and not cold")],
    MID: [("boiler", "hw and cold or ch and room")],
}


def _nets(scheme: str) -> dict[str, set[str]]:
    host = default_host()
    _, edition = next(iter(host.book.editions("GB", "control-scheme-nets")))
    return {
        row["net"]: set(row["reaches"].split())
        for row in edition.value.rows()
        if row["scheme"] == scheme and row["only_unvented"] == "no"
    }


def _network(scheme: str) -> dict[str, Any]:
    """The scheme as a contact network whose points are its nets."""
    inputs: dict[str, Any] = {
        "free_inputs": [{"name": name} for name in ("hw", "cold", "ch", "room", "healthy")],
        "supplies": [
            {"name": "mains", "live": "permanent line", "neutral": "neutral", "isolator": "spur"}
        ],
        "intended": [{"name": name, "when": when} for name, when in _MEANT[scheme]],
    }
    for number, (what, start, end, _) in enumerate(_PARTS[scheme]):
        kind, _, name = what.partition(":")
        ended: dict[str, Any] = {"name": name, "start": start, "end": end}
        if kind in {"valve", "open"}:
            rest = "open" if kind == "open" else "closed"
            inputs.setdefault("valves", []).append({**ended, "rest": rest})
        elif kind == "relay":
            inputs.setdefault("relays", []).append(ended)
        elif kind == "load":
            inputs.setdefault("loads", []).append({**ended, "kind": "boiler"})
        elif kind in {"sense", "closed"}:
            means = "demand" if kind == "sense" else "no-demand"
            inputs.setdefault("sensed_inputs", []).append({**ended, "open_means": means})
        else:
            inputs.setdefault("contacts", []).append(
                {
                    "name": f"contact {number}",
                    "start": start,
                    "end": end,
                    "moved_by": what.removeprefix("not "),
                    "kind": "normally-closed" if what.startswith("not ") else "normally-open",
                }
            )
    return inputs


@pytest.mark.parametrize("scheme", list(_PARTS))
def test_a_scheme_on_file_does_what_it_says(scheme: str) -> None:
    status, body = answer(
        "control-logic", {"inputs": _network(scheme), "region": "GB", "date": "2026-11-01"}
    )
    assert status == 200, body
    assert body["outputs"]["mismatches"] == []
    assert body["outputs"]["shorted"] is False
    assert body["outputs"]["remembers"] is False


@pytest.mark.parametrize("scheme", list(_PARTS))
def test_the_conductors_on_file_are_those_of_the_network(scheme: str) -> None:
    nets = _nets(scheme)
    used: dict[str, set[str]] = {name: set() for name in nets}
    for _, start, end, place in _PARTS[scheme]:
        for net in {start, end} - {INSIDE}:
            assert place in nets[net], (net, place)
            used[net].add(place)
    # The supply arrives at the wiring centre; the programmer and the boiler are fed as they are.
    fed = {"wiring_centre", "programmer", "boiler"}
    for net, places in nets.items():
        if net != "earth":
            assert places - used[net] <= (fed if net in {"permanent line", "neutral"} else set())
