"""Verdicts: right answers pass, and every way of being wrong is called by its name."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

import copy
import math

import pytest

from tundish.verify_target import answer as answer_here
from tundish_reference_cases.groups import load
from tundish_reference_cases.judge import Answer, judge, look_up, margin
from tundish_reference_cases.units import UNITS


def _case(pointer: str = "/outputs/mass", **expected: Any) -> Any:
    return {"result": "value", "expect": {pointer: expected}}


KG = {"quantity": {"value": 10.0, "unit": "kg"}}
REFUSED = {"result": "refused", "refusal": {"code": "out-of-range", "pointer": "/inputs/volume"}}


def _mass(value: Any, unit: str = "kg") -> Any:
    return Answer("value", {"outputs": {"mass": {"value": value, "unit": unit}}})


def _tolerance(**allowed: Any) -> Any:
    return {"tolerance": {**allowed, "basis": "method-spread"}}


@pytest.mark.parametrize(
    ("allowed", "got", "verdict"),
    [
        ({"relative": 0.01}, (10.0, "kg"), "pass"),
        ({"relative": 0.01}, (10.0999, "kg"), "pass"),
        ({"relative": 0.01}, (9.9001, "kg"), "pass"),
        ({"relative": 0.01}, (10.1001, "kg"), "fail"),
        ({"relative": 0.01}, (9.8999, "kg"), "fail"),
        ({"absolute": 0.5}, (10.4999, "kg"), "pass"),
        ({"absolute": 0.5}, (10.5001, "kg"), "fail"),
        ({"absolute": 0.5}, (10499.9, "g"), "pass"),
        ({"absolute": 0.5}, (10500.1, "g"), "fail"),
        ({"relative": 0.01}, (10.0, "g"), "fail"),
        ({"relative": 0.01}, (10.0, "l"), "unit-wrong"),
        ({"relative": 0.01}, (10.0, "stone"), "unit-wrong"),
        ({"relative": 0.01}, (math.nan, "kg"), "fail"),
        ({"relative": 0.01}, (math.inf, "kg"), "fail"),
        ({"relative": 0.01}, (True, "kg"), "fail"),
        ({"relative": 0.01}, ("10", "kg"), "fail"),
        ({"relative": 0.01}, (None, "kg"), "fail"),
    ],
)
def test_quantity(allowed: Any, got: Any, verdict: str) -> None:
    assert judge(_case(**KG, **_tolerance(**allowed)), _mass(*got)).verdict == verdict


@pytest.mark.parametrize(
    "body",
    [
        {},
        {"outputs": {}},
        {"outputs": {"mass": 10.0}},
        {"outputs": {"mass": None}},
        {"outputs": {"mass": {"value": 10.0}}},
        {"outputs": {"mass": {"unit": "kg"}}},
        {"outputs": []},
    ],
)
def test_missing_quantity_fails(body: Any) -> None:
    case = _case(**KG, **_tolerance(relative=0.01))
    assert judge(case, Answer("value", body)).verdict == "fail"


@pytest.mark.parametrize(("basis", "verdict"), [("gross", "pass"), ("net", "unit-wrong")])
def test_basis_is_part_of_the_unit(basis: Any, verdict: str) -> None:
    case = _case(
        "/outputs/input",
        quantity={"value": 20.0, "unit": "kW", "basis": "gross"},
        **_tolerance(relative=0.01),
    )
    body = {"outputs": {"input": {"value": 20.0, "unit": "kW", "basis": basis}}}
    assert judge(case, Answer("value", body)).verdict == verdict
    del body["outputs"]["input"]["basis"]
    assert judge(case, Answer("value", body)).verdict == "unit-wrong"


@pytest.mark.parametrize(
    ("got", "verdict"), [(3, "pass"), (3.02, "pass"), (3.04, "fail"), ("3", "fail"), (True, "fail")]
)
def test_number(got: Any, verdict: str) -> None:
    case = _case("/outputs/count", number=3, **_tolerance(relative=0.01))
    assert judge(case, Answer("value", {"outputs": {"count": got}})).verdict == verdict


@pytest.mark.parametrize(
    ("wanted", "got", "verdict"),
    [
        ("met", "met", "pass"),
        ("dangerous", "met", "fail"),
        ("met", "Met", "fail"),
        (15, 15, "pass"),
        (15, 15.0, "pass"),
        (15, "15", "fail"),
        (True, True, "pass"),
        (True, 1, "fail"),
        (1, True, "fail"),
        (False, None, "fail"),
        (None, None, "pass"),
        ([1, "a"], [1.0, "a"], "pass"),
        ([1, "a"], [1, "a", 2], "fail"),
        ({"a": 1}, {"a": True}, "fail"),
    ],
)
def test_equals(wanted: Any, got: Any, verdict: str) -> None:
    case = _case("/outputs/it", equals=wanted)
    assert judge(case, Answer("value", {"outputs": {"it": got}})).verdict == verdict


def test_equals_nothing_is_not_met_by_a_missing_member() -> None:
    assert judge(_case("/outputs/it", equals=None), Answer("value", {})).verdict == "fail"


@pytest.mark.parametrize(
    ("got", "verdict"),
    [
        ((1.0, "kg"), "pass"),
        ((2000.0, "g"), "pass"),
        ((0.999, "kg"), "fail"),
        ((2001.0, "g"), "fail"),
        ((math.nan, "kg"), "fail"),
        ((1.5, "l"), "unit-wrong"),
    ],
)
def test_between(got: Any, verdict: str) -> None:
    case = _case(between=[{"value": 1, "unit": "kg"}, {"value": 2000, "unit": "g"}])
    assert judge(case, _mass(*got)).verdict == verdict


def test_temperature_scale_is_converted_with_its_offset() -> None:
    expected = {"quantity": {"value": 60.0, "unit": "degC"}, **_tolerance(absolute=0.01)}
    case = _case("/outputs/t", **expected)
    for value, unit, verdict in ((140.0, "degF", "pass"), (333.15, "K", "pass"), (60, "K", "fail")):
        body = {"outputs": {"t": {"value": value, "unit": unit}}}
        assert judge(case, Answer("value", body)).verdict == verdict


@pytest.mark.parametrize(
    ("answer", "verdict"),
    [
        (Answer("refused", {"code": "out-of-range", "pointer": "/inputs/volume"}), "pass"),
        (Answer("refused", {"code": "out-of-range", "pointer": "/inputs/count"}), "fail"),
        (Answer("refused", {"code": "unit-missing", "pointer": "/inputs/volume"}), "fail"),
        (Answer("refused", {"code": "out-of-range"}), "fail"),
        (Answer("refused", {}), "fail"),
        (_mass(1.0), "value-wrongly"),
    ],
)
def test_refusal(answer: Any, verdict: str) -> None:
    assert judge(REFUSED, answer).verdict == verdict


def test_refused_in_place_of_a_value() -> None:
    case = _case(**KG, **_tolerance(relative=0.01))
    judged = judge(case, Answer("refused", {"code": "out-of-range", "pointer": "/inputs/volume"}))
    assert judged.verdict == "refused-wrongly"
    assert "out-of-range at /inputs/volume" in judged.misses[0].got


@pytest.mark.parametrize("kind", ["skipped", "not-supported", "errored", "timed-out"])
def test_no_answer_is_no_pass(kind: str) -> None:
    for case in (REFUSED, _case(equals=1)):
        assert judge(case, Answer(kind, reason="why")).verdict == kind


def test_unit_wrong_only_when_nothing_else_is() -> None:
    case = {
        "result": "value",
        "expect": {
            "/outputs/mass": {**KG, **_tolerance(relative=0.01)},
            "/outputs/ok": {"equals": True},
        },
    }
    body = {"outputs": {"mass": {"value": 10.0, "unit": "l"}, "ok": False}}
    assert judge(case, Answer("value", body)).verdict == "fail"


def test_digits_and_difference_are_told() -> None:
    case = _case(**KG, **_tolerance(relative=0.01))
    assert judge(case, _mass(10.001)).digits == pytest.approx(4.0, abs=0.01)
    miss = judge(case, _mass(12.0)).misses[0]
    assert (miss.wanted, miss.got) == ("10 kg ± 0.1", "12 kg")
    assert miss.difference.startswith("+2 kg")
    warm = _case(quantity={"value": 60.0, "unit": "degC"}, **_tolerance(absolute=0.01))
    assert judge(warm, _mass(55.0, "degC")).misses[0].difference == "-5 K"


def test_pointers() -> None:
    whole = {"rooms": [{"name": "1", "a": 10}, {"name": "hall", "a": 20}], "a/b": 1, "m~n": 2}
    assert look_up(whole, "/rooms/1/a") == 10, "a name goes before an index"
    assert look_up(whole, "/rooms/hall/a") == 20
    assert look_up(whole, "/rooms/0/a") == 10
    assert (look_up(whole, "/a~1b"), look_up(whole, "/m~0n")) == (1, 2)
    for nowhere in ("/rooms/9", "/rooms/-1", "/rooms/--1", "/rooms/²", "/b", "/a~1b/c"):
        assert repr(look_up(whole, nowhere)) == "nothing"


# --- the whole corpus: what is judged right must be judged wrong once it is changed -----------


def _answers() -> Iterator[Any]:
    for group, case in load().cases():
        status, body = answer_here(group.calculation, case["request"])
        yield case, Answer("value" if status == 200 else "refused", body)


def _at(body: Any, pointer: str) -> Any:
    above, _, last = pointer.rpartition("/")
    return look_up(body, above), last.replace("~1", "/").replace("~0", "~")


def _replace(body: Any, pointer: str, value: Any) -> Any:
    body = copy.deepcopy(body)
    here, last = _at(body, pointer)
    if isinstance(here, list):
        names = [item.get("name") if isinstance(item, dict) else None for item in here]
        here[names.index(last) if last in names else int(last)] = value
    else:
        here[last] = value
    return body


def _remove(body: Any, pointer: str) -> Any:
    body = copy.deepcopy(body)
    here, last = _at(body, pointer)
    if not isinstance(here, dict):
        return _replace(body, pointer, None)
    del here[last]
    return body


def test_every_expectation_of_the_corpus_can_fail() -> None:
    checked = 0
    for case, answer in _answers():
        if case["result"] == "refused":
            assert judge(case, Answer("value", {"outputs": {}})).verdict == "value-wrongly"
            for name in ("code", "pointer"):
                changed = {**answer.body, name: "elsewhere"}
                assert judge(case, Answer("refused", changed)).verdict == "fail"
            continue
        refusal = Answer("refused", {"code": "x", "pointer": "/inputs"})
        assert judge(case, refusal).verdict == "refused-wrongly"
        for pointer, expected in case["expect"].items():
            body = answer.body
            wrong = [(_remove(body, pointer), "fail")]
            got = look_up(body, pointer)
            if "quantity" in expected:
                unit = expected["quantity"]["unit"]
                beyond = margin(expected["tolerance"], expected["quantity"]["value"]) * 1.001
                off = expected["quantity"]["value"] + math.copysign(beyond + 1e-300, -1)
                other = "mol" if UNITS[unit][0] == "mass" else "kg"
                wrong += [
                    (_replace(body, pointer, {**got, "value": off, "unit": unit}), "fail"),
                    (_replace(body, pointer, {**got, "unit": other}), "unit-wrong"),
                    (_replace(body, pointer, got["value"]), "fail"),
                ]
            elif "number" in expected:
                beyond = margin(expected["tolerance"], expected["number"]) * 1.001
                off = expected["number"] + beyond + 1e-300
                wrong.append((_replace(body, pointer, off), "fail"))
            elif "equals" in expected:
                wrong.append((_replace(body, pointer, "otherwise"), "fail"))
            for changed, verdict in wrong:
                judged = judge(case, Answer("value", changed))
                assert judged.verdict == verdict, (case["id"], pointer, judged)
                assert pointer in [miss.pointer for miss in judged.misses]
                checked += 1
    assert checked > 1000
