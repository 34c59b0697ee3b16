"""Radiators against roots and averages of their own, and their shape."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from tundish.answering import answer

ARITHMETIC, LOGARITHMIC = "arithmetic-mean", "logarithmic-mean"


def _ask(
    flow: float, back: float, rooms: list[dict[str, Any]], method: str = ARITHMETIC, **more: Any
) -> dict[str, Any]:
    date = more.pop("date", "2026-11-01")
    inputs = {
        "flow_temperature": {"value": flow, "unit": "degC"},
        "return_temperature": {"value": back, "unit": "degC"},
        "rooms": rooms,
        **more,
    }
    request = {"inputs": inputs, "method": method, "region": "GB", "date": date}
    status, body = answer("emitter-output", request)
    assert status == 200, body
    return body


def _room(
    temperature: float, load: float, radiators: list[tuple[float, float]], name: str = "room"
) -> dict[str, Any]:
    return {
        "name": name,
        "temperature": {"value": temperature, "unit": "degC"},
        "load": {"value": load, "unit": "W"},
        "radiators": [
            {"name": f"r{k}", "rated_output": {"value": rated, "unit": "W"}, "exponent": n}
            for k, (rated, n) in enumerate(radiators)
        ],
    }


def _excess(method: str, flow: float, back: float, room: float) -> float:
    """Mean excess temperature: of the ends, or along an exponential."""
    if method == ARITHMETIC:
        return (flow + back) / 2 - room
    a, b = flow - room, back - room
    return float(quad(lambda s: a * (b / a) ** s, 0, 1, epsabs=1e-12)[0])


_RADIATORS = st.lists(st.tuples(st.floats(200, 3000), st.floats(1.1, 1.5)), min_size=1, max_size=4)


@settings(deadline=None, max_examples=40)
@given(
    st.floats(15, 24),
    st.floats(2, 15),
    st.floats(0.2, 1.2),
    _RADIATORS,
    st.sampled_from([ARITHMETIC, LOGARITHMIC]),
)
def test_lowest_flow_against_a_root(
    temperature: float, drop: float, share: float, radiators: list[tuple[float, float]], method: str
) -> None:
    load = share * sum(rated for rated, _ in radiators)
    rated_excess = _excess(method, 75, 65, 20)

    def given_at(flow: float) -> float:
        dT = _excess(method, flow, flow - drop, temperature)
        return math.fsum(rated * (dT / rated_excess) ** n for rated, n in radiators)

    body = _ask(
        temperature + drop + 20, temperature + 20, [_room(temperature, load, radiators)], method
    )
    room = body["outputs"]["rooms"][0]
    assert room["output"]["value"] == pytest.approx(given_at(temperature + drop + 20), rel=1e-9)
    found = room["lowest_flow_temperature"]["value"]
    low = temperature + drop * (1 + 1e-9)
    if given_at(low) > load:
        assert method == ARITHMETIC
        assert found == pytest.approx(temperature + drop, abs=1e-9)
    else:
        wanted = brentq(lambda flow: given_at(flow) - load, low, 300, xtol=1e-12)
        assert found == pytest.approx(wanted, abs=1e-6)


@settings(deadline=None, max_examples=30)
@given(st.floats(22, 60), st.floats(1, 30), _RADIATORS)
def test_logarithm_never_promises_more_for_the_same_rating(
    back: float, drop: float, radiators: list[tuple[float, float]]
) -> None:
    """The logarithmic mean lies below the arithmetic one, for any drop."""
    rooms = [_room(20, 500, radiators)]
    a = _ask(back + drop, back, rooms)["outputs"]["rooms"][0]["excess"]["value"]
    b = _ask(back + drop, back, rooms, LOGARITHMIC)["outputs"]["rooms"][0]["excess"]["value"]
    assert b <= a * (1 + 1e-9)
    # Series of the two means in the drop over twice the arithmetic one.
    x = drop / (2 * a)
    assert b == pytest.approx(a * x / math.atanh(x), rel=1e-9)


def test_grown_radiators_just_heat_the_room() -> None:
    room = _room(21, 900, [(700, 1.3), (500, 1.25)])
    body = _ask(50, 42, [room])["outputs"]["rooms"][0]
    assert body["growth"] > 1
    grown = _room(21, 900, [(700 * body["growth"], 1.3), (500 * body["growth"], 1.25)])
    after = _ask(50, 42, [grown])
    assert after["outputs"]["rooms"][0]["output"]["value"] == pytest.approx(900, rel=1e-12)
    assert after["findings"]["room-output"]["verdict"] == "met"


def test_two_halves_are_one_radiator() -> None:
    one = _ask(55, 45, [_room(20, 600, [(1400, 1.28)])])["outputs"]
    two = _ask(55, 45, [_room(20, 600, [(700, 1.28), (700, 1.28)])])["outputs"]
    for key in ("lowest_flow_temperature", "output", "design_flow"):
        assert two[key]["value"] == pytest.approx(one[key]["value"], rel=1e-10)


@pytest.mark.parametrize("count", range(2, 8))
@pytest.mark.parametrize("rated", [220.0, 700.0, 1033.0])
def test_equal_radiators_bracket_their_root(count: int, rated: float) -> None:
    """Where all are alike, each gives just its share: the bracket must not end there."""
    for load in (300, 317, 500, 777):
        room = _ask(60, 50, [_room(20, load, [(rated, 1.5)] * count)])["outputs"]["rooms"][0]
        wanted = max(25 + 50 * (load / (count * rated)) ** (1 / 1.5), 30)
        assert room["lowest_flow_temperature"]["value"] == pytest.approx(wanted, abs=1e-9)


def test_order_of_rooms_does_not_matter() -> None:
    rooms = [_room(20, load, [(1000, 1.3)], f"room of {load}") for load in (300, 700, 500, 700.5)]
    for turned in range(4):
        outputs = _ask(60, 50, rooms[turned:] + rooms[:turned])["outputs"]
        assert outputs["dictating_room"] == "room of 700.5"
        wanted = 25 + 50 * 0.7 ** (1 / 1.3)
        assert outputs["next_flow_temperature"]["value"] == pytest.approx(wanted, abs=1e-9)
    assert _ask(60, 50, rooms[:1])["outputs"]["next_flow_temperature"] is None


@pytest.mark.parametrize(
    ("date", "work", "verdict"),
    [
        ("2022-06-14", "new-or-replaced", None),
        ("2022-06-15", "new-or-replaced", "not-met"),
        ("2026-11-01", "existing", None),
    ],
)
def test_regulated_flow_has_a_first_day(date: str, work: str, verdict: str | None) -> None:
    body = _ask(70, 60, [_room(20, 500, [(1000, 1.3)])], work=work, date=date)
    finding = body["findings"].get("flow-temperature-regulated")
    assert (finding and finding["verdict"]) == verdict


def test_verdict_is_capped_where_an_exponent_was_assumed() -> None:
    room = _room(20, 500, [(1500, 1.3)])
    del room["radiators"][0]["exponent"]
    finding = _ask(60, 50, [room])["findings"]["room-output"]
    assert finding["verdict"] == "advisory"
    assert "assumed" in finding["items"][0]["words"]
