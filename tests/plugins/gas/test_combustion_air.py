"""Air for gas appliances: areas by a sum of its own, vents that count, vents that must not go."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.gas.combustion_air import CALCULATION

DATE = "2026-11-01"
EXAMPLE: dict[str, Any] = CALCULATION.example
FAST = settings(max_examples=60, deadline=None, derandomize=True)
KILOWATTS = st.floats(0.5, 70)


def _appliance(name: str, kind: str, kilowatts: float, **more: Any) -> dict[str, Any]:
    heat_input = {"value": kilowatts, "unit": "kW", "basis": "net"}
    return {"name": name, "kind": kind, "heat_input": heat_input, **more}


def _vent(
    name: str = "vent", place: str = "outside", area: float = 60, **more: Any
) -> dict[str, Any]:
    return {
        "name": name,
        "place": place,
        "free_area": {"value": area, "unit": "cm2"},
        "least_opening": "8 mm",
        "closable": False,
        "screened": False,
        **more,
    }


def _inputs(*appliances: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {
        "gas": "natural-gas",
        "space": "room",
        "air_from": "outside",
        "airtight": False,
        "appliances": list(appliances),
        **more,
    }


def _body(inputs: dict[str, Any]) -> dict[str, Any]:
    request = {"inputs": inputs, "region": "GB", "date": DATE}
    status, body = answer("combustion-air", request)
    assert status == 200, body
    return body


def _needed(inputs: dict[str, Any]) -> dict[str, float]:
    return {o["name"]: o["needed"]["value"] for o in _body(inputs)["outputs"]["openings"]}


@FAST
@given(st.lists(st.tuples(st.sampled_from(["open-flued", "room-sealed"]), KILOWATTS), max_size=5))
def test_room_by_a_sum(load: list[tuple[str, float]]) -> None:
    """500 mm² for each kilowatt above seven, taken off once; room-sealed ask for nothing."""
    load = [*load, ("open-flued", 3.0)]
    appliances = [_appliance(f"a{k}", kind, kw) for k, (kind, kw) in enumerate(load)]
    open_flued = sum(kw for kind, kw in load if kind == "open-flued")
    square_millimetres = max(0.0, 500 * (open_flued - 7))
    found = _needed(_inputs(*appliances))
    assert found == {"outside": pytest.approx(square_millimetres / 100, abs=1e-9)}
    by_room = _needed(_inputs(*appliances, air_from="room", through_room="ordinary"))
    assert by_room["outside"] == pytest.approx(found["outside"], abs=1e-9)
    assert by_room["internal"] == pytest.approx(1.5 * found["outside"], abs=1e-9)


@FAST
@given(KILOWATTS, KILOWATTS)
def test_compartment_by_a_sum(open_flued: float, sealed: float) -> None:
    """Air by way of a room asks for twice the area; no allowance is taken off in a compartment."""
    appliances = (_appliance("a", "open-flued", open_flued), _appliance("b", "room-sealed", sealed))
    direct = _needed(_inputs(*appliances, space="compartment"))
    assert direct["high"] == pytest.approx(5 * (open_flued + sealed))
    assert direct["low"] == pytest.approx(10 * open_flued + 5 * sealed)
    inputs = _inputs(*appliances, space="compartment", air_from="room", through_room="ordinary")
    by_room = _needed(inputs)
    assert by_room["high"] == pytest.approx(2 * direct["high"])
    assert by_room["low"] == pytest.approx(2 * direct["low"])
    assert by_room["outside"] == pytest.approx(max(0, 5 * (open_flued - 7)), abs=1e-9)


@pytest.mark.parametrize(
    "spoilt",
    [
        {"closable": True},
        {"screened": True},
        {"least_opening": "4.99 mm"},
        {"plan": "close"},
    ],
)
def test_what_does_not_count(spoilt: dict[str, Any]) -> None:
    """A vent that can be shut, is screened, too fine or to be closed gives no air."""
    boiler = _appliance("boiler", "open-flued", 18)
    good = _body(_inputs(boiler, vents=[_vent()]))
    assert good["verdict"] == "met"
    body = _body(_inputs(boiler, vents=[_vent(**spoilt)]))
    assert body["outputs"]["openings"][0]["given"]["value"] == 0
    assert body["findings"]["air-enough"]["verdict"] == "dangerous"
    assert body["verdict"] == "dangerous"


def test_unknown_openings_are_never_met() -> None:
    vent = _vent(area=500)
    del vent["least_opening"]
    body = _body(_inputs(_appliance("boiler", "open-flued", 18), vents=[vent]))
    assert body["findings"]["air-enough"]["verdict"] == "advisory"


@pytest.mark.parametrize("kind", ["open-flued", "room-sealed", "flueless", "decorative"])
@pytest.mark.parametrize("serves_other", [False, True])
def test_closing_is_never_met(kind: str, *, serves_other: bool) -> None:
    """Whatever goes, closing is advisory at best, and dangerous while anything may draw."""
    gone = _appliance("old", kind, 20, state="goes")
    new = _appliance("new", "room-sealed", 24, state="comes")
    closing = _vent(plan="close", serves_other=serves_other)
    body = _body(_inputs(gone, new, vents=[closing]))
    wanted = "dangerous" if serves_other else "advisory"
    assert body["findings"]["vent-free-to-close"]["verdict"] == wanted
    fire = _appliance("fire", "open-flued", 1)
    body = _body(_inputs(gone, new, fire, vents=[closing]))
    assert body["findings"]["vent-free-to-close"]["verdict"] == "dangerous"


def test_a_fire_next_door_keeps_the_vent() -> None:
    """An appliance in the room that the air comes by draws on the vent to outside, too."""
    gone = _appliance("old", "open-flued", 18, state="goes")
    fire = _appliance("fire", "open-flued", 5, location="other-room")
    inputs = _inputs(
        gone, fire, air_from="room", through_room="ordinary", vents=[_vent(plan="close")]
    )
    assert _body(inputs)["findings"]["vent-free-to-close"]["verdict"] == "dangerous"


@pytest.mark.parametrize("state", ["stays", "comes"])
@pytest.mark.parametrize("kind", ["flueless", "decorative"])
def test_what_the_rules_do_not_hold(kind: str, state: str) -> None:
    inputs = _inputs(_appliance("a", kind, 5, state=state))
    request = {"inputs": inputs, "region": "GB", "date": DATE}
    status, body = answer("combustion-air", request)
    assert (status, body["code"]) == (422, f"{kind}-not-in-rules")
    assert body["pointer"] == "/inputs/appliances/0/kind"
    assert "leave every vent open" in body["remedy"]


def test_no_answer_before_the_rules_nor_elsewhere() -> None:
    for change in ({"date": "2009-12-31"}, {"region": "INT"}):
        request = {"inputs": EXAMPLE, "region": "GB", "date": DATE, **change}
        status, body = answer("combustion-air", request)
        assert (status, body["code"]) == (422, "rule-missing")


def test_both_units_say_the_same() -> None:
    inputs = copy.deepcopy(EXAMPLE)
    (opening,) = _body(inputs)["outputs"]["openings"]
    assert opening["needed_mm2"]["unit"] == "mm2"
    assert opening["needed_mm2"]["value"] == pytest.approx(100 * opening["needed"]["value"])
