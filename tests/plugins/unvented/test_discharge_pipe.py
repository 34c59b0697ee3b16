"""Discharge pipe: the table looped by other means, the safety chain, editions, what is refused."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish.host import default_host
from tundish_plugins.unvented.discharge_pipe import CALCULATION

DATE = "2026-11-01"

# Typed from reproductions of the guidance, not read from the rules: size, metres allowed, bend.
TABLE = {
    "G1/2": [(22, 9, 0.8), (28, 18, 1.0), (35, 27, 1.4)],
    "G3/4": [(28, 9, 1.0), (35, 18, 1.4), (42, 27, 1.7)],
    "G1": [(35, 9, 1.4), (42, 18, 1.7), (54, 27, 2.3)],
}


def _inputs(**changes: Any) -> dict[str, Any]:
    """Return the example with some members of its parts changed; None takes one out."""
    inputs: dict[str, Any] = copy.deepcopy(dict(CALCULATION.example))
    for name, value in changes.items():
        if isinstance(value, dict) and name != "ending":
            inputs[name] = {k: v for k, v in {**inputs[name], **value}.items() if v is not None}
        else:
            inputs[name] = value
    return inputs


def _ask(inputs: dict[str, Any], date: str = DATE, **more: Any) -> tuple[int, dict[str, Any]]:
    return answer("safety-discharge-pipe", {"inputs": inputs, "region": "GB", "date": date}, **more)


def _body(inputs: dict[str, Any], date: str = DATE) -> dict[str, Any]:
    status, body = _ask(inputs, date)
    assert status == 200, body
    return body


@settings(deadline=None, max_examples=150)
@given(
    st.sampled_from(sorted(TABLE)),
    st.integers(4, 320).map(lambda k: k / 10),
    st.integers(1, 12),
)
def test_sizes_against_a_loop_in_decimetres(outlet: str, length: float, bends: int) -> None:
    """Whole decimetres compare exactly; the sum of floats must never tip a limit over."""
    status, body = _ask(
        _inputs(
            relief_valve={"outlet": outlet},
            relief_pipe={"size": None},
            discharge_pipe={
                "length": {"value": length, "unit": "m"},
                "bends": bends,
                "size": None,
            },
        )
    )
    fitting = [
        (size, most, bend)
        for size, most, bend in TABLE[outlet]
        if round(10 * length) + bends * round(10 * bend) <= 10 * most
    ]
    if not fitting:
        assert status == 422
        assert body["code"] == "run-beyond-table"
        assert body["pointer"] == "/inputs/discharge_pipe/length"
        return
    size, most, bend = fitting[0]
    assert status == 200, body
    outputs = body["outputs"]
    assert outputs["d2_size"]["value"] == pytest.approx(size, rel=1e-12)
    assert outputs["longest_run"]["value"] == pytest.approx(most - bends * bend, abs=1e-9)
    assert [item["fits"] for item in outputs["candidates"]] == [
        size <= item["size"]["value"] + 1e-9 for item in outputs["candidates"]
    ]


@pytest.mark.parametrize(("unit", "factor"), [("m", 1.0), ("mm", 1000.0), ("ft", 1 / 0.3048)])
def test_a_limit_reached_exactly_counts_whatever_floats_make_of_it(
    unit: str, factor: float
) -> None:
    """Every size and number of bends, with the run that reaches the limit to the decimetre."""
    tried = 0
    for outlet, sizes in TABLE.items():
        for size, most, bend in sizes:
            for bends in range(1, 13):
                length = (10 * most - bends * round(10 * bend)) / 10
                if length < 0.4:
                    continue
                body = _body(
                    _inputs(
                        relief_valve={"outlet": outlet},
                        discharge_pipe={
                            "length": {"value": length * factor, "unit": unit},
                            "bends": bends,
                        },
                    )
                )
                assert body["outputs"]["d2_size"]["value"] <= size + 1e-9, (outlet, bends, length)
                tried += 1
    assert tried > 90


def test_a_run_added_up_in_floats_does_not_tip_a_limit() -> None:
    """Runs summed by a job come out a few last places long: 2.2 + 5.9 + 0.9 is not quite 9."""
    length = 2.2 + 5.9 + 0.9
    assert length > 9
    run = {"value": length, "unit": "m"}
    body = _body(_inputs(discharge_pipe={"length": run, "vertical_leg": run, "bends": 0}))
    assert body["outputs"]["d2_size"]["value"] == pytest.approx(22)


def test_the_longest_run_fits_and_a_hair_more_takes_the_next_size() -> None:
    longest = _body(_inputs())["outputs"]["longest_run"]["value"]
    assert longest == pytest.approx(14.0)
    at = _body(_inputs(discharge_pipe={"length": {"value": longest, "unit": "m"}}))
    assert at["outputs"]["d2_size"]["value"] == pytest.approx(28)
    assert at["outputs"]["spare_length"]["value"] == pytest.approx(0, abs=1e-9)
    over = _body(_inputs(discharge_pipe={"length": {"value": longest + 1e-6, "unit": "m"}}))
    assert over["outputs"]["d2_size"]["value"] == pytest.approx(35)


def test_every_row_of_the_table_reads_alike_in_every_edition() -> None:
    """Four editions were seen with one table: a slip in one of them would show."""
    editions = default_host().book.editions("GB", "discharge-pipe-sizes")
    assert len(editions) == 3
    seen = {edition.value.data for _, edition in editions}
    assert len(seen) == 1
    rows = list(editions[0][1].value.rows())
    for outlet, sizes in TABLE.items():
        mine = [
            (round(1000 * row["d2"]), round(row["allowed"]), round(row["bend"], 6))
            for row in rows
            if row["outlet"] == outlet
        ]
        assert mine == sizes


@settings(deadline=None, max_examples=40)
@given(
    st.floats(1, 30),
    st.floats(0.06, 1.5),
    st.floats(0.005, 0.05),
    st.integers(1, 5),
    st.floats(70, 99),
)
def test_capacity_against_another_library(
    length: float, leg: float, fall: float, bends: int, temperature: float
) -> None:
    from CoolProp.CoolProp import PropsSI
    from fluids.friction import Colebrook
    from scipy.optimize import brentq

    status, body = _ask(
        _inputs(
            relief_valve={"temperature": {"value": temperature, "unit": "degC"}},
            discharge_pipe={
                "length": {"value": max(length, leg), "unit": "m"},
                "bends": bends,
                "vertical_leg": {"value": 1000 * leg, "unit": "mm"},
                "fall": fall,
            },
        )
    )
    if status == 422:
        assert body["code"] == "run-beyond-table"
        return
    outputs = body["outputs"]
    rho = PropsSI("D", "T", temperature + 273.15, "P", 2.5e5, "Water")
    mu = PropsSI("V", "T", temperature + 273.15, "P", 2.5e5, "Water")
    d = outputs["d2_bore"]["value"] / 1000
    L_eq = outputs["equivalent_length"]["value"]
    height = leg + fall * (max(length, leg) - leg)

    def gap(flow: float) -> float:
        w = flow / (math.pi * d * d / 4)
        Re = rho * w * d / mu
        f = 64 / Re if Re < 2000 else Colebrook(Re, 1.5e-6 / d)
        return float((f * L_eq / d + 1.5) * w * w / (2 * 9.80665) - height)

    expected = brentq(gap, 1e-7, 1.0) * 6e4
    assert outputs["capacity"]["value"] == pytest.approx(expected, rel=5e-3)


def test_relief_water_against_another_library() -> None:
    from CoolProp.CoolProp import PropsSI

    def enthalpy(celsius: float) -> float:
        found: float = PropsSI("H", "T", celsius + 273.15, "P", 2.5e5, "Water")
        return found

    outputs = _body(_inputs(cold_temperature="6 degC"))["outputs"]
    rho = PropsSI("D", "T", 95 + 273.15, "P", 2.5e5, "Water")
    expected = 25e3 / (enthalpy(95) - enthalpy(6)) / rho * 6e4
    assert outputs["relief_flow"]["value"] == pytest.approx(expected, rel=5e-4)


def test_at_the_capacity_the_head_is_just_what_is_there() -> None:
    """Turn the capacity back into a rating: the head it needs is the height of the tundish."""
    first = _body(_inputs())["outputs"]
    rating = 25 * first["capacity_margin"]
    again = _body(_inputs(relief_valve={"rating": {"value": rating, "unit": "kW"}}))
    outputs = again["outputs"]
    assert outputs["capacity_margin"] == pytest.approx(1, rel=1e-9)
    assert outputs["head_needed"]["value"] == pytest.approx(
        outputs["head_available"]["value"], rel=1e-9
    )
    assert again["findings"]["pipe-carries-rated-heat"]["verdict"] == "met"


def test_a_small_valve_is_dangerous_in_every_part_and_a_large_one_never_better_than_advisory() -> (
    None
):
    """The rating rule rests on memory: it may condemn, and never acquits."""
    small = _inputs(relief_valve={"rating": {"value": 22.9, "unit": "kW"}})
    for parts in ((), ("working",), ("charts", "sources")):
        _, body = _ask(small, parts=parts)
        assert body["verdict"] == "dangerous"
    large = _body(_inputs(relief_valve={"rating": {"value": 500, "unit": "kW"}}))
    assert large["findings"]["relief-valve-rating"]["verdict"] == "advisory"


@pytest.mark.parametrize(
    ("date", "limit", "verdict"),
    [
        ("1995-01-01", 500, "met"),
        ("2010-04-05", 500, "met"),
        ("2010-04-06", 750, "advisory"),
        ("2010-11-30", 750, "advisory"),
        ("2010-12-01", 600, "met"),
        ("2015-10-01", 600, "met"),
        (DATE, 600, "met"),
    ],
)
def test_tundish_distance_by_edition(date: str, limit: float, verdict: str) -> None:
    def judged(distance: float) -> str:
        inputs = _inputs(tundish={"distance": {"value": distance, "unit": "mm"}})
        found: str = _body(inputs, date)["findings"]["tundish-near-valve"]["verdict"]
        return found

    assert judged(limit) == verdict
    assert judged(limit + 0.1) == "not-met"


def test_before_any_edition_there_is_no_answer() -> None:
    status, body = _ask(_inputs(), "1991-06-01")
    assert status == 422
    assert body["code"] == "rule-missing"


ENDINGS: dict[str, dict[str, Any]] = {
    "gully": {"below_grating": True},
    "low-level": {
        "height": {"value": 80, "unit": "mm"},
        "people_can_reach": True,
        "guarded": True,
    },
    "hopper": {"metal": True, "end_visible": True},
    "roof": {
        "heat_proof": True,
        "people_can_reach": False,
        "plastic_gutter": True,
        "gutter_distance": {"value": 4, "unit": "m"},
    },
    "soil-stack": {
        "stack_material": "pvc-u",
        "fully_ventilated": True,
        "mechanical_seal": True,
        "separate_branch": True,
    },
}


@pytest.mark.parametrize("kind", ENDINGS)
def test_no_detail_of_an_ending_may_be_left_out(kind: str) -> None:
    """Leaving out a detail is refused there: it never passes a check by silence."""
    whole = {"kind": kind, **ENDINGS[kind]}
    assert _body(_inputs(ending=whole))["findings"]["ending-recognised"]["verdict"] == "met"
    for name in ENDINGS[kind]:
        lacking = {key: value for key, value in whole.items() if key != name}
        status, body = _ask(_inputs(ending=lacking))
        assert (status, body["code"]) == (422, "ending-incomplete"), name
        assert body["pointer"] == f"/inputs/ending/{name}"


@pytest.mark.parametrize("kind", ["gully", "low-level", "hopper", "roof", "soil-stack"])
def test_every_detail_of_an_ending_counts(kind: str) -> None:
    """Turning any yes of an ending into a no fails some finding."""
    whole = {"kind": kind, **ENDINGS[kind]}
    for name, value in ENDINGS[kind].items():
        if value is not True or name in {"people_can_reach", "plastic_gutter"}:
            continue
        body = _body(_inputs(ending={**whole, name: False}))
        assert body["verdict"] in {"not-met", "dangerous"}, name


def test_relief_water_never_climbs_and_never_meets_a_pump() -> None:
    status, body = _ask(_inputs(discharge_pipe={"fall": -0.0001}))
    assert (status, body["code"]) == (422, "pipe-runs-upward")
    status, body = _ask(_inputs(ending={"kind": "pump"}))
    assert (status, body["code"]) == (422, "relief-into-pump")


def test_cautions_say_who_may_work_and_leave_the_valve_alone() -> None:
    words = " ".join(item["words"] for item in _body(_inputs())["cautions"])
    for part in ("registered competent person", "Never adjust, plug, cap or re-site", "burns"):
        assert part in words
