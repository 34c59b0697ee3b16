"""Each rule of the linter is seen to fail on a group broken for it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from tundish_reference_cases.groups import Corpus

import copy

import pytest

from tundish_reference_cases.lint import independent, lint


def _expected(group: dict[str, Any], number: Any = 0) -> Any:
    return group["cases"][number]["expect"]["/outputs/mass"]


def test_group_without_fault(group: dict[str, Any], corpus: Callable[..., Corpus]) -> None:
    assert lint(corpus(group)) == []


def _twice(g: Any) -> None:
    g["cases"][1]["id"] = "tank-0"


def _group_name(g: Any) -> None:
    g["group"] = "bath-mass/plain"


def _unknown_source(g: Any) -> None:
    g["cases"][0]["sources"] = ["printed", "nowhere"]


def _unused_source(g: Any) -> None:
    g["sources"]["spare"] = dict(g["sources"]["printed"])


def _unknown_flag(g: Any) -> None:
    g["cases"][0]["flags"] = ["plain", "nowhere"]


def _unused_flag(g: Any) -> None:
    g["flags"]["spare"] = dict(g["flags"]["plain"])


def _no_computed_with(g: Any) -> None:
    del g["sources"]["worked"]["computed_with"]


def _surplus_computed_with(g: Any) -> None:
    g["sources"]["printed"]["computed_with"] = "arithmetic 1.0"


def _memory(g: Any) -> None:
    g["sources"]["printed"]["confirmed"] = "memory"


def _disputed(g: Any) -> None:
    g["sources"]["printed"]["confirmed"] = "disputed"


def _no_derivation(g: Any) -> None:
    del g["cases"][2]["derivation"]


def _should(g: Any) -> None:
    g["cases"][0]["title"] = "The tank Should, when full, hold 10 l"


def _full_stop(g: Any) -> None:
    g["cases"][0]["title"] = "The tank holds 10 l."


def _value_with_refusal(g: Any) -> None:
    g["cases"][0]["refusal"] = {"code": "x", "pointer": "/inputs/volume"}


def _refusal_without_code(g: Any) -> None:
    del g["cases"][7]["refusal"]


def _refusal_pointer(g: Any) -> None:
    g["cases"][7]["refusal"]["pointer"] = "inputs/volume"


def _expects_nothing(g: Any) -> None:
    del g["cases"][0]["expect"]


def _refused_expects(g: Any) -> None:
    g["cases"][7]["expect"] = copy.deepcopy(g["cases"][0]["expect"])


def _pointer(g: Any) -> None:
    g["cases"][0]["expect"]["outputs/mass"] = {"equals": 1}


def _two_forms(g: Any) -> None:
    _expected(g)["equals"] = 1


def _no_form(g: Any) -> None:
    g["cases"][0]["expect"]["/outputs/mass"] = {}


def _no_tolerance(g: Any) -> None:
    del _expected(g)["tolerance"]


def _two_tolerances(g: Any) -> None:
    _expected(g)["tolerance"]["absolute"] = 1.0


def _equals_with_tolerance(g: Any) -> None:
    g["cases"][0]["expect"]["/outputs/mass"] = {
        "equals": 1,
        "tolerance": {"relative": 1e-3, "basis": "method-spread"},
    }


def _finer_than_digits(g: Any) -> None:
    _expected(g)["digits"] = 3


def _finer_than_doubles(g: Any) -> None:
    _expected(g)["tolerance"]["relative"] = 1e-15


def _unit(g: Any) -> None:
    _expected(g)["quantity"]["unit"] = "stone"


def _between_backwards(g: Any) -> None:
    ends = [{"value": 2, "unit": "kg"}, {"value": 1000, "unit": "g"}]
    g["cases"][0]["expect"]["/outputs/mass"] = {"between": ends}


def _between_kinds(g: Any) -> None:
    ends = [{"value": 1, "unit": "kg"}, {"value": 2, "unit": "l"}]
    g["cases"][0]["expect"]["/outputs/mass"] = {"between": ends}


def _same_request(g: Any) -> None:
    g["cases"][1]["request"] = copy.deepcopy(g["cases"][0]["request"])


def _too_few(g: Any) -> None:
    g["cases"] = [c for c in g["cases"] if c["id"] not in {"tank-0", "tank-1"}]


def _not_required(g: Any) -> None:
    for number in (0, 1):
        g["cases"][number]["level"] = "recommended"


def _refusals(g: Any) -> None:
    for number in (0, 1):
        case = g["cases"][number]
        case["result"] = "refused"
        case["refusal"] = {"code": "x", "pointer": "/inputs/volume"}
        del case["expect"]


def _no_refusal(g: Any) -> None:
    for number in (7, 8):
        case = g["cases"][number]
        case["result"] = "value"
        case["expect"] = copy.deepcopy(g["cases"][0]["expect"])
        del case["refusal"]


def _one_source(g: Any) -> None:
    g["cases"][1]["sources"] = ["printed"]


def _two_kinds(g: Any) -> None:
    g["sources"]["worked"] = {**g["sources"]["printed"], "locator": "table 2"}


def _own_derivations(g: Any) -> None:
    for number, source in enumerate(g["sources"].values()):
        source.update(kind="derivation", confirmed="derived", locator=f"{number}")
        source.pop("computed_with", None)
    for case in g["cases"]:
        case["derivation"] = "written out"


RULES = [
    (_twice, "used 2 times"),
    (_group_name, "does not start with its calculation"),
    (_unknown_source, "source nowhere is not defined"),
    (_unused_source, "source spare is not used"),
    (_unknown_flag, "flag nowhere is not defined"),
    (_unused_flag, "flag spare is not used"),
    (_no_computed_with, "computed_with is missing"),
    (_surplus_computed_with, "was not computed"),
    (_memory, "cannot be required"),
    (_disputed, "cannot be required"),
    (_no_derivation, "does not write it out"),
    (_should, "states a fact"),
    (_full_stop, "states a fact"),
    (_value_with_refusal, "result and refusal do not agree"),
    (_refusal_without_code, "result and refusal do not agree"),
    (_refusal_pointer, "is not a JSON Pointer"),
    (_expects_nothing, "expects nothing"),
    (_refused_expects, "a refused case expects no value"),
    (_pointer, "not a JSON Pointer into the result"),
    (_two_forms, "exactly one of"),
    (_no_form, "exactly one of"),
    (_no_tolerance, "needs a tolerance"),
    (_two_tolerances, "needs a tolerance"),
    (_equals_with_tolerance, "takes no tolerance"),
    (_finer_than_digits, "finer than the printed digits"),
    (_finer_than_doubles, "finer than double precision"),
    (_unit, "not in the corpus's table"),
    (_between_backwards, "from the lower to the higher"),
    (_between_kinds, "l is a volume, kg a mass"),
    (_same_request, "asks the same as tank-0"),
    (_too_few, "at least 8 are needed"),
    (_not_required, "at least 8 are needed"),
    (_refusals, "are refusals, over a third"),
    (_no_refusal, "no required case is a refusal"),
    (_one_source, "rest on one source"),
    (_two_kinds, "2 kinds of source"),
    (_own_derivations, "from outside our own derivations"),
]


@pytest.mark.parametrize(("spoil", "words"), RULES, ids=[rule[0].__name__ for rule in RULES])
def test_rule(group: dict[str, Any], corpus: Callable[..., Corpus], spoil: Any, words: str) -> None:
    spoil(group)
    assert any(words in text for text in lint(corpus(group))), lint(corpus(group))


def test_ids_are_unique_over_files(group: dict[str, Any], corpus: Callable[..., Corpus]) -> None:
    other = copy.deepcopy(group)
    other["group"] = "tank-mass/other"
    assert "case id tank-0 is used 2 times" in lint(corpus(group, other))


def _pairs(corpus: Callable[..., Corpus], *cases: Any) -> Any:
    group = {
        "schema": "group/1", "group": "tank-mass/pairs", "calculation": "tank-mass",
        "title": "Pairs", "sources": {"a": {"kind": "standard", "document": "a", "edition": "1",
        "locator": "1", "confirmed": "seen"}}, "cases": list(cases),
        "flags": {"edge": {"kind": "boundary", "description": "At a limit."},
                  "plain": {"kind": "basic", "description": "None."}},
    }  # fmt: skip
    return list(corpus(group).cases())


def _asks(number: Any, flag: Any = "plain", **inputs: Any) -> Any:
    return {
        "id": f"c-{number}", "title": "t", "level": "required", "result": "value",
        "request": {"inputs": inputs, "region": "INT", "date": "2026-11-01"},
        "expect": {"/outputs/x": {"equals": 1}}, "sources": ["a"], "flags": [flag],
        "since": "2026.1",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("one", "other", "count"),
    [
        (_asks(1, v=1, n=1), _asks(2, v=2, n=1), 1),
        (_asks(1, v=1, n=1), _asks(2, v=2, n=2), 2),
        (_asks(1, v="18 kW"), _asks(2, v="20 kW"), 1),
        (_asks(1, v="18 kW"), _asks(2, v="18 MW"), 2),
        (_asks(1, v="copper"), _asks(2, v="steel"), 2),
        (_asks(1, v=1), _asks(2, v=1, n=1), 2),
        (_asks(1, "edge", v=1), _asks(2, "edge", v=2), 2),
    ],
)
def test_cases_that_differ_in_one_number_count_once(
    corpus: Callable[..., Corpus], one: Any, other: Any, count: Any
) -> None:
    assert independent(_pairs(corpus, one, other)) == count
