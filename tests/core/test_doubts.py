"""What nobody has checked caps a verdict, on floats and row by row."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np
import pytest

from tundish.batch import run_columns
from tundish.calculation import Calculation, Finding, Method, Need
from tundish.contract import Flag, Inputs, Outputs, Quantity
from tundish.doubts import doubt, doubting, unheard
from tundish.formula import Sym, constant, formula
from tundish.functions import choose
from tundish.rules import Rulebook
from tundish.run import Runner, read_request
from tundish.sources import Source

if TYPE_CHECKING:
    from tundish.rules import Context

TODAY = dt.date(2026, 11, 1)
Length = Annotated[float, Sym("length", "L", "m")]


def _source(name: str, confirmed: str) -> Source:
    return Source(
        name, kind="textbook", document="d", edition="1", locator="l", confirmed=confirmed
    )


SEEN = _source("seen-book", "seen")
MEMORY = _source("recalled-book", "memory")
DISPUTED = constant("k", 2.0, "number", "1", source=_source("disputed-book", "disputed"))


@formula("L_s", "length", "m", source=SEEN)
def plain(L: Length) -> float:
    """Twice as long, as seen."""
    return 2 * L


@formula("L_m", "length", "m", source=MEMORY)
def recalled(L: Length) -> float:
    """Twice as long, as recalled."""
    return 2 * L


@formula("L_d", "length", "m", source=SEEN)
def disputed(L: Length) -> float:
    """Twice as long, by a disputed constant."""
    return DISPUTED * L


class In(Inputs):
    """A length."""

    length: Annotated[float, Quantity("length", "L", "m", low=0, high=100, help="Length.")]


class Out(Outputs):
    """A longer one."""

    longer: Annotated[float, Quantity("length", "L_2", "m", help="Twice.")]


RULES = {
    "schema": "rules/1",
    "region": "INT",
    "family": "test",
    "sources": {
        "s": {
            "kind": "standard",
            "document": "d",
            "edition": "1",
            "locator": "l",
            "confirmed": "seen",
        },
        "m": {
            "kind": "standard",
            "document": "d",
            "edition": "1",
            "locator": "l",
            "confirmed": "memory",
        },
    },
    "rules": [
        {
            "name": name,
            "kind": "length",
            "meaning": "m",
            "editions": [
                {
                    "edition": "1",
                    "from": "2000-01-01",
                    "value": {"value": 60, "unit": "m"},
                    "source": source,
                }
            ],
        }
        for name, source in (("most", "s"), ("recalled-most", "m"))
    ],
}


def _book() -> Rulebook:
    book = Rulebook()
    book.add_document({"schema": "region/1", "region": "INT", "title": "none"}, "t")
    book.add_document(RULES, "t")
    return book


def _calculation(
    kernel: Any, *, rests_on: tuple[str, ...] | None = None, **more: Any
) -> Calculation:
    return Calculation(
        id="a-test",
        version="1",
        title="t",
        summary="s",
        family="test",
        questions=("q?",),
        inputs=In,
        outputs=Out,
        kernel=kernel,
        needs=(Need("most", "length", "m"), Need("recalled-most", "length", "m")),
        findings=(
            Finding("of-output", "t", "/outputs/longer", "at-most", "most", rests_on=rests_on),
            Finding("of-input", "t", "/inputs/length", "at-most", "most"),
        ),
        cautions=(),
        example={"length": {"value": 1, "unit": "m"}},
        **more,
    )


def _verdicts(calculation: Calculation, length: float = 1.0) -> dict[str, str]:
    runner, book = Runner(calculation), _book()
    request = read_request(
        calculation,
        {"inputs": {"length": {"value": length, "unit": "m"}}, "region": "INT"},
        book,
        today=TODAY,
    )
    verdicts = {}
    for parts in (frozenset(), frozenset({"working", "sources"})):
        record = runner.run(request, parts)
        verdicts = {code: item["verdict"] for code, item in record["findings"].items()}
    return verdicts


def _by(use: Any) -> Any:
    def kernel(i: In, _: Context) -> dict[str, Any]:
        return {"longer": use(i.length)}

    return kernel


@pytest.mark.parametrize(
    ("use", "verdict"), [(plain, "met"), (recalled, "advisory"), (disputed, "advisory")]
)
def test_a_doubtful_formula_or_constant_caps_what_was_computed(use: Any, verdict: str) -> None:
    assert _verdicts(_calculation(_by(use))) == {"of-output": verdict, "of-input": "met"}


def test_a_broken_limit_stays_broken() -> None:
    assert _verdicts(_calculation(_by(recalled)), 40.0)["of-output"] == "not-met"


def test_independence_is_declared_by_name() -> None:
    calculation = _calculation(_by(recalled), rests_on=())
    assert _verdicts(calculation)["of-output"] == "met"
    calculation = _calculation(_by(recalled), rests_on=("recalled-book",))
    assert _verdicts(calculation)["of-output"] == "advisory"


def test_a_doubtful_rule_read_by_the_kernel_caps() -> None:
    def kernel(i: In, c: Context) -> dict[str, Any]:
        c.value("recalled-most")
        return {"longer": plain(i.length)}

    assert _verdicts(_calculation(kernel)) == {"of-output": "advisory", "of-input": "met"}


def test_a_doubtful_method_caps() -> None:
    calculation = _calculation(_by(plain), methods=(Method("m", "t", "s", source=MEMORY),))
    assert _verdicts(calculation) == {"of-output": "advisory", "of-input": "met"}


def test_only_the_rows_that_ran_it_are_capped() -> None:
    def kernel(i: In, _: Context) -> dict[str, Any]:
        return {"longer": choose(i.length < 5.0, recalled, plain, i.length)}

    calculation = _calculation(kernel)
    requests = [
        {"inputs": {"length": {"value": value, "unit": "m"}}, "region": "INT"}
        for value in (1.0, 10.0, 2.0, 50.0)
    ]
    columns = run_columns(Runner(calculation), requests, _book(), today=TODAY)
    (group,) = columns.groups
    assert group.verdicts()["of-output"] == ["advisory", "met", "advisory", "not-met"]
    assert [_verdicts(calculation, v)["of-output"] for v in (1.0, 10.0)] == ["advisory", "met"]


def test_curves_are_not_heard() -> None:
    with doubting() as found:
        with unheard():
            doubt("a-curve")
        doubt("a-value")
        doubt("some-rows", (3, np.array([1])))
    assert found.pop("some-rows").tolist() == [False, True, False]
    assert found == {"a-value": True}


def test_a_condition_that_fails_caps_and_says_why() -> None:
    finding = Finding(
        "of-output",
        "t",
        "/outputs/longer",
        "at-most",
        "most",
        capped_unless="/outputs/sure",
        words_capped="it is not sure.",
    )

    class Unsure(Outputs):
        """A longer one, sure or not."""

        longer: Annotated[float, Quantity("length", "L_2", "m", help="Twice.")]
        sure: Annotated[bool, Flag(help="Whether it is.")]

    def kernel(i: In, _: Context) -> dict[str, Any]:
        return {"longer": plain(i.length), "sure": i.length < 5.0}

    calculation = replace(_calculation(kernel), outputs=Unsure, findings=(finding,))
    assert [_verdicts(calculation, v)["of-output"] for v in (1.0, 10.0, 40.0)] == [
        "met",
        "advisory",
        "not-met",
    ]
    requests = [
        {"inputs": {"length": {"value": value, "unit": "m"}}, "region": "INT"}
        for value in (1.0, 10.0, 40.0)
    ]
    (group,) = run_columns(Runner(calculation), requests, _book(), today=TODAY).groups
    assert group.verdicts()["of-output"] == ["met", "advisory", "not-met"]
    with pytest.raises(ValueError, match="go together"):
        Finding("a-code", "t", "/outputs/longer", "at-most", "most", capped_unless="/outputs/sure")


def test_a_value_that_nobody_gave_shows_nothing() -> None:
    class Assumed(Inputs):
        """A length that may be left out."""

        length: Annotated[
            float, Quantity("length", "L", "m", low=0, high=100, default=1, help="Length.")
        ]

    calculation = replace(_calculation(_by(plain)), inputs=Assumed)
    runner, book = Runner(calculation), _book()
    given = [{"inputs": {"length": {"value": 1, "unit": "m"}}}, {"inputs": {}}]
    verdicts = []
    for request in given:
        read = read_request(calculation, {**request, "region": "INT"}, book, today=TODAY)
        found = runner.run(read)["findings"]["of-input"]
        verdicts.append((found["verdict"], "assumed" in found["items"][0]["words"]))
    assert verdicts == [("met", False), ("advisory", True)]
    rows = [{**request, "region": "INT"} for request in given]
    columns = run_columns(runner, rows, book, today=TODAY)
    assert [group.verdicts()["of-input"] for group in columns.groups] == [["met"], ["advisory"]]
