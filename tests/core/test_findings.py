"""Findings: what is judged, against what, on which side, and that a column is judged row by row."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from typing import Annotated, Any, Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.batch import run_columns
from tundish.calculation import VERDICTS, Calculation, Finding, Need
from tundish.contract import Choice, Flag, Inputs, Item, Name, Outputs, Quantity, Rows
from tundish.findings import holds, judge, select, worst
from tundish.problems import RefusedRequest
from tundish.rules import Context, Rulebook
from tundish.run import Runner

TODAY = dt.date(2026, 1, 1)


class Room(Item):
    """A room."""

    name: Annotated[str, Name(help="Name.")]
    drop: Annotated[
        float, Quantity("pressure_difference", "p", "Pa", low=-1e9, high=1e9, help="Drop.")
    ]
    allowed: (
        Annotated[
            float, Quantity("pressure_difference", "p_a", "Pa", low=-1e9, high=1e9, help="Allowed.")
        ]
        | None
    ) = None
    wet: Annotated[bool, Flag(help="Wet.")] | None = None


class Given(Inputs):
    """What is given."""

    drop: Annotated[
        float, Quantity("pressure_difference", "p", "Pa", low=-1e9, high=1e9, help="Drop.")
    ]
    flow: Annotated[
        float, Quantity("temperature", "θ", "degC", low=-50, high=200, default=60, help="Flow.")
    ]
    fitted: Annotated[bool, Flag(default=True, help="Fitted.")]
    open: Annotated[bool, Flag(help="Open.")] | None = None
    gas: Annotated[Literal["natural", "lpg"], Choice(default="natural", help="Gas.")]
    rooms: Annotated[list[Room], Rows(low=0, high=9, help="Rooms.")]


class RoomOut(Item):
    """A room, answered."""

    name: Annotated[str, Name(help="Name.")]
    drop: Annotated[float, Quantity("pressure_difference", "p", "Pa", help="Drop.")]


class Found(Outputs):
    """What is found."""

    drop: Annotated[float, Quantity("pressure_difference", "p", "Pa", help="Drop.")]
    flow: Annotated[float, Quantity("temperature", "θ", "degC", help="Flow.")]
    doubled: Annotated[float, Quantity("pressure_difference", "p_2", "Pa", help="Twice.")]
    fitted: Annotated[bool, Flag(help="Fitted.")]
    safe: Annotated[bool, Flag(help="Not under pressure.")]
    rooms: Annotated[list[RoomOut], Rows(help="Rooms, last first.")]


def _kernel(i: Any, _c: object) -> dict[str, Any]:
    return {
        "drop": i.drop,
        "flow": i.flow,
        "doubled": 2 * i.drop,
        "fitted": i.fitted,
        "safe": i.drop <= 50,
        "rooms": [{"name": r.name, "drop": 2 * r.drop} for r in reversed(i.rooms)],
    }


def _source(confirmed: str) -> dict[str, str]:
    head = {"kind": "standard", "document": "Invented", "edition": "1", "locator": "clause 1"}
    return {**head, "confirmed": confirmed}


def _rule(name: str, kind: str, value: Any, source: str = "seen") -> dict[str, Any]:
    edition = {"edition": "1", "from": "2000-01-01", "source": source, "value": value}
    return {"name": name, "kind": kind, "meaning": f"Invented {name}", "editions": [edition]}


PASCALS = {"value": 100, "unit": "Pa"}
CONFIRMED = ("seen", "seen-reproduced", "computed", "derived", "memory", "disputed")
BOOK = Rulebook()
BOOK.add_document({"schema": "region/1", "region": "INT", "title": "International"}, "invented")
BOOK.add_document(
    {
        "schema": "region/1",
        "region": "XS",
        "title": "Small units",
        "based_on": "INT",
        "units": {"Pa": "mbar", "degC": "degF"},
    },
    "invented",
)
BOOK.add_document(
    {
        "schema": "rules/1",
        "region": "INT",
        "family": "invented",
        "sources": {word: _source(word) for word in CONFIRMED},
        "rules": [
            *[_rule(f"drop-{word}", "pressure_difference", PASCALS, word) for word in CONFIRMED],
            _rule("flow-limit", "temperature", {"value": 75, "unit": "degC"}),
            _rule("the-gas", "text", "natural"),
        ],
    },
    "invented",
)

_REST: dict[str, Any] = {
    "version": "1",
    "title": "Invented",
    "summary": "Invented.",
    "family": "invented",
    "questions": (),
    "inputs": Given,
    "outputs": Found,
    "kernel": _kernel,
    "example": {},
}


def _runner(*findings: Finding) -> Runner:
    return Runner(Calculation(id="invented", findings=findings, **_REST))


def _request(region: str = "INT", **inputs: Any) -> dict[str, Any]:
    inputs = {"drop": "10 Pa", "rooms": [], **inputs}
    inputs["drop"] = _pascals(inputs["drop"])
    return {"inputs": inputs, "region": region, "date": "2026-01-01"}


def _pascals(value: Any) -> Any:
    return {"value": value, "unit": "Pa"} if isinstance(value, (int, float)) else value


def _run(*findings: Finding, region: str = "INT", **inputs: Any) -> dict[str, Any]:
    raw, _ = _runner(*findings).answer(_request(region, **inputs), BOOK, today=TODAY)
    record: dict[str, Any] = json.loads(raw)
    return record


def _one(finding: Finding, region: str = "INT", **inputs: Any) -> dict[str, Any] | None:
    found: dict[str, Any] | None = _run(finding, region=region, **inputs)["findings"].get("judged")
    return found


def _verdict(finding: Finding, **inputs: Any) -> str | None:
    found = _one(finding, **inputs)
    return None if found is None else found["verdict"]


def _finding(**members: Any) -> Finding:
    plain = {
        "code": "judged",
        "title": "Judged",
        "quantity": "/outputs/drop",
        "sense": "at-most",
        "limit": "drop-seen",
    }
    return Finding(**{**plain, **members})


# --- senses and slack -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("sense", "value", "kept"),
    [
        ("at-most", 99.0, True),
        ("at-most", 100.0, True),
        ("at-most", 100.0 * (1 + 0.99e-9), True),
        ("at-most", 100.0 * (1 + 1.01e-9), False),
        ("at-most", 101.0, False),
        ("at-most", -1e6, True),
        ("at-least", 101.0, True),
        ("at-least", 100.0, True),
        ("at-least", 100.0 * (1 - 0.99e-9), True),
        ("at-least", 100.0 * (1 - 1.01e-9), False),
        ("at-least", 99.0, False),
        ("at-least", -1e6, False),
    ],
)
def test_sense_and_slack(sense: str, value: float, kept: bool) -> None:
    finding = _finding(sense=sense)
    assert _verdict(finding, drop=value) == ("met" if kept else "not-met")
    assert holds(sense, -value, -100.0) is holds(
        {"at-most": "at-least", "at-least": "at-most"}[sense], value, 100.0
    )


@given(st.floats(-1e6, 1e6), st.sampled_from(["at-most", "at-least"]))
def test_the_slack_is_a_share_of_the_limit_whatever_its_sign(limit: float, sense: str) -> None:
    outwards = abs(limit) * (1 if sense == "at-most" else -1)
    assert holds(sense, limit, limit)
    assert holds(sense, limit + 0.9e-9 * outwards, limit)
    if abs(limit) > 1e-290:
        assert not holds(sense, limit + 1.1e-9 * outwards, limit)


@pytest.mark.parametrize("sense", ["at-most", "at-least", "is"])
def test_what_is_no_number_keeps_no_limit(sense: str) -> None:
    assert not holds(sense, float("nan"), 1.0)
    assert not holds(sense, 1.0, float("nan"))


@pytest.mark.parametrize("sense", ["at-most", "at-least", "is"])
def test_columns_hold_element_by_element(sense: str) -> None:
    values = np.array([99.0, 100.0, 100.0 * (1 + 2e-9), np.nan])
    limits = np.array([100.0, -100.0, 100.0, 1.0])
    for limit in (limits, 100.0):
        pairs = zip(values.tolist(), np.broadcast_to(limit, 4).tolist(), strict=True)
        assert holds(sense, values, limit).tolist() == [holds(sense, v, li) for v, li in pairs]


@pytest.mark.parametrize(
    ("quantity", "limit", "inputs", "kept"),
    [
        ("/outputs/fitted", True, {"fitted": True}, True),
        ("/outputs/fitted", True, {"fitted": False}, False),
        ("/inputs/fitted", False, {"fitted": False}, True),
        ("/inputs/fitted", False, {"fitted": True}, False),
        ("/inputs/gas", "the-gas", {"gas": "natural"}, True),
        ("/inputs/gas", "the-gas", {"gas": "lpg"}, False),
        ("/outputs/safe", "/inputs/fitted", {"fitted": True}, True),
        ("/outputs/safe", "/inputs/fitted", {"fitted": False}, False),
    ],
)
def test_what_is_so_or_not(
    quantity: str, limit: str | bool, inputs: dict[str, Any], kept: bool
) -> None:
    finding = _finding(quantity=quantity, sense="is", limit=limit, failed="dangerous")
    found = _one(finding, **inputs)
    assert found is not None
    assert found["verdict"] == ("met" if kept else "dangerous")
    assert "margin" not in found["items"][0]


def test_a_limit_may_be_another_quantity() -> None:
    finding = _finding(quantity="/outputs/doubled", limit="/inputs/drop")
    assert _verdict(finding, drop=-1.0) == "met"
    assert _verdict(finding, drop=1.0) == "not-met"


@pytest.mark.parametrize(
    ("members", "words"),
    [
        ({"passed": "fine"}, "'fine'"),
        ({"failed": "stop"}, "'stop'"),
        ({"sense": "below"}, "'below'"),
        ({"code": "Not_kebab"}, "kebab-case"),
        ({"capped_unless": "/inputs/fitted"}, "go together"),
        ({"words_capped": "Why."}, "go together"),
    ],
)
def test_a_declaration_outside_the_vocabulary_is_refused(
    members: dict[str, Any], words: str
) -> None:
    with pytest.raises(ValueError, match=words):
        _finding(**members)


# --- applies when ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("condition", "inputs", "applies"),
    [
        (None, {}, True),
        ("/inputs/fitted", {"fitted": True}, True),
        ("/inputs/fitted", {"fitted": False}, False),
        ("not /inputs/fitted", {"fitted": True}, False),
        ("not /inputs/fitted", {"fitted": False}, True),
        ("/outputs/safe", {"drop": 10}, True),
        ("/outputs/safe", {"drop": 60}, False),
        ("not /outputs/safe", {"drop": 60}, True),
        ("/inputs/gas == natural", {"gas": "natural"}, True),
        ("/inputs/gas == natural", {"gas": "lpg"}, False),
        ("not /inputs/gas == natural", {"gas": "natural"}, False),
        ("not /inputs/gas == natural", {"gas": "lpg"}, True),
        ("/inputs/open", {"open": True}, True),
        ("/inputs/open", {}, False),
    ],
)
def test_applies_when(condition: str | None, inputs: dict[str, Any], applies: bool) -> None:
    finding = _finding(applies_when=condition)
    record = _run(finding, **inputs)
    assert list(record["findings"]) == (["judged"] if applies else [])
    assert record["verdict"] == ("met" if applies else None)


def test_a_quantity_that_is_not_given_is_not_judged() -> None:
    finding = _finding(quantity="/inputs/rooms/*/allowed")
    assert [item[0] for item in _items(finding, rooms=[{"name": "hall", "drop": "5 Pa"}])] == []
    rooms = [{"name": "hall", "drop": "5 Pa"}, {"name": "loft", "drop": "5 Pa", "allowed": "4 Pa"}]
    assert [item[0] for item in _items(finding, rooms=rooms)] == ["loft"]


def test_a_limit_that_is_not_given_judges_nothing() -> None:
    finding = _finding(quantity="/inputs/rooms/*/drop", limit="/inputs/rooms/*/allowed")
    rooms = [
        {"name": "hall", "drop": "5 Pa"},
        {"name": "loft", "drop": "5 Pa", "allowed": "4 Pa"},
    ]
    found = _one(finding, rooms=rooms)
    assert found is not None
    assert [item["item"] for item in found["items"]] == ["loft"]


# --- every item of a list -------------------------------------------------------------------------

ROOMS = [
    {"name": "hall", "drop": "10 Pa", "allowed": "15 Pa", "wet": True},
    {"name": "bath", "drop": "20 Pa", "allowed": "50 Pa", "wet": False},
    {"name": "loft", "drop": "70 Pa", "allowed": "150 Pa"},
]


def _items(finding: Finding, **inputs: Any) -> list[tuple[str, str, str]]:
    found = _one(finding, **inputs)
    items = [] if found is None else found["items"]
    return [(item["item"], item["pointer"], item["verdict"]) for item in items]


def test_each_item_is_judged_by_its_own_name() -> None:
    """The outputs stand in another order than the inputs: limits are found by name."""
    finding = _finding(quantity="/outputs/rooms/*/drop", limit="/inputs/rooms/*/allowed")
    assert _items(finding, rooms=ROOMS) == [
        ("loft", "/outputs/rooms/0/drop", "met"),
        ("bath", "/outputs/rooms/1/drop", "met"),
        ("hall", "/outputs/rooms/2/drop", "not-met"),
    ]


def test_items_against_one_limit() -> None:
    finding = _finding(quantity="/outputs/rooms/*/drop", failed="dangerous")
    found = _one(finding, rooms=ROOMS)
    assert found is not None
    assert [item["verdict"] for item in found["items"]] == ["dangerous", "met", "met"]
    assert found["verdict"] == "dangerous"
    assert _one(finding, rooms=[]) is None


@pytest.mark.parametrize(
    ("condition", "names"),
    [
        ("/inputs/rooms/*/wet", ["hall"]),
        ("not /inputs/rooms/*/wet", ["bath"]),
        ("/inputs/rooms/*/name == loft", ["loft"]),
        ("/inputs/fitted", ["loft", "bath", "hall"]),
        ("not /inputs/fitted", []),
    ],
)
def test_a_condition_of_each_item(condition: str, names: list[str]) -> None:
    finding = _finding(quantity="/outputs/rooms/*/drop", applies_when=condition)
    assert [item[0] for item in _items(finding, rooms=ROOMS)] == names


@pytest.mark.parametrize("rooms", [ROOMS, ROOMS[:1]])
def test_what_one_item_says_reaches_nothing_else(rooms: list[dict[str, Any]]) -> None:
    """Not even when the list has one item only."""
    assert _one(_finding(applies_when="/inputs/rooms/*/wet"), rooms=rooms) is None
    assert _one(_finding(limit="/inputs/rooms/*/allowed"), rooms=rooms) is None


def test_items_of_items_are_told_apart() -> None:
    """Two rooms have a wall of the same name; each is judged by its own room and wall."""
    walls = {
        "hall": {"limit": 9, "walls": [{"name": "north", "u": 3, "own": 5}]},
        "bath": {"limit": 1, "walls": [{"name": "north", "u": 2, "own": 1}]},
    }
    outputs = {"rooms": [{"name": name, **room} for name, room in walls.items()]}
    for limit, kept in {
        "/outputs/rooms/*/walls/*/own": [True, False],
        "/outputs/rooms/*/limit": [True, False],
    }.items():
        finding = _finding(quantity="/outputs/rooms/*/walls/*/u", limit=limit)
        context = Context(BOOK, "INT", TODAY, "", frozenset())
        judged = judge(_runner(finding).calculation, context, None, outputs, {})
        assert [item.place.item for item in judged] == ["north", "north"]
        assert [item.kept for item in judged] == kept


def test_select() -> None:
    inputs = {"rooms": [{"name": "hall", "walls": [{"u": 1}, {"u": 2}]}, {"walls": [{"u": 3}]}]}
    found = select("/inputs/rooms/*/walls/*/u", inputs, None)
    assert [(place.pointer, place.item, place.value) for place in found] == [
        ("/inputs/rooms/0/walls/0/u", "0", 1),
        ("/inputs/rooms/0/walls/1/u", "1", 2),
        ("/inputs/rooms/1/walls/0/u", "0", 3),
    ]
    assert [place.value for place in select("/outputs/a/b", None, {"a": None})] == [None]
    assert select("/outputs/a/*/b", None, {"a": None}) == []


# --- verdicts -------------------------------------------------------------------------------------


@pytest.mark.parametrize("count", [1, 2, 3])
def test_the_worst_verdict(count: int) -> None:
    for verdicts in itertools.product(VERDICTS, repeat=count):
        expected = max(VERDICTS.index(verdict) for verdict in verdicts)
        assert worst(list(verdicts)) == VERDICTS[expected]
    assert worst([]) is None


@pytest.mark.parametrize("failed", VERDICTS)
def test_a_record_has_the_worst_of_its_findings(failed: str) -> None:
    kept = _finding(code="kept")
    broken = _finding(code="broken", sense="at-least", failed=failed)
    record = _run(kept, broken)
    assert {code: item["verdict"] for code, item in record["findings"].items()} == {
        "kept": "met",
        "broken": failed,
    }
    assert record["verdict"] == failed


@pytest.mark.parametrize("confirmed", CONFIRMED)
@pytest.mark.parametrize("passed", VERDICTS)
@pytest.mark.parametrize("by", ["limit", "depends_on"])
@pytest.mark.parametrize("quantity", ["/inputs/drop", "/outputs/drop"])
def test_an_unconfirmed_limit_is_never_met(
    confirmed: str, passed: str, by: str, quantity: str
) -> None:
    if by == "limit":
        members = {"limit": f"drop-{confirmed}"}
    else:
        members = {"depends_on": ("drop-seen", f"drop-{confirmed}")}
    finding = _finding(quantity=quantity, passed=passed, failed="dangerous", **members)
    capped = confirmed in {"memory", "disputed"} and passed == "met"
    found = _one(finding)
    assert found is not None
    assert found["verdict"] == ("advisory" if capped else passed)
    unshown = "Not shown to be met" in found["items"][0]["words"]
    assert unshown is (confirmed in {"memory", "disputed"})
    broken = _one(finding, drop=1e3)
    assert broken is not None
    assert broken["verdict"] == "dangerous"
    assert "Not shown" not in broken["items"][0]["words"]


@pytest.mark.parametrize(
    ("quantity", "rule", "rests_on", "verdict"),
    [
        ("/outputs/drop", "drop-seen", None, "met"),
        ("/outputs/drop", "drop-memory", None, "advisory"),
        ("/outputs/drop", "drop-memory", ("drop-memory",), "advisory"),
        ("/outputs/drop", "drop-memory", ("drop-seen",), "met"),
        ("/outputs/drop", "drop-memory", (), "met"),
        ("/inputs/drop", "drop-memory", None, "met"),
    ],
)
def test_what_rests_on_an_unconfirmed_rule_is_never_met(
    quantity: str, rule: str, rests_on: tuple[str, ...] | None, verdict: str
) -> None:
    def kernel(i: Any, c: Context) -> dict[str, Any]:
        c.value(rule)
        return _kernel(i, c)

    finding = _finding(quantity=quantity, rests_on=rests_on)
    need = Need(rule, "pressure_difference", "Invented.")
    rest = {**_REST, "kernel": kernel, "needs": (need,)}
    runner = Runner(Calculation(id="invented", findings=(finding,), **rest))
    (group,) = run_columns(runner, [_request(), _request()], BOOK, today=TODAY).groups
    assert group.verdicts() == {"judged": [verdict, verdict]}
    raw, _ = runner.answer(_request(), BOOK, today=TODAY)
    assert json.loads(raw)["findings"]["judged"]["verdict"] == verdict


@pytest.mark.parametrize(
    ("passed", "drop", "fitted", "verdict"),
    [
        ("met", 10, True, "met"),
        ("met", 10, False, "advisory"),
        ("not-met", 10, False, "not-met"),
        ("met", 101, True, "dangerous"),
        ("met", 101, False, "dangerous"),
    ],
)
def test_a_condition_may_cap(passed: str, drop: float, fitted: bool, verdict: str) -> None:
    finding = _finding(
        passed=passed,
        failed="dangerous",
        capped_unless="/inputs/fitted",
        words_capped="it is not fitted.",
    )
    found = _one(finding, drop=drop, fitted=fitted)
    assert found is not None
    assert found["verdict"] == verdict
    said = found["items"][0]["words"].endswith("Not shown to be met: it is not fitted.")
    assert said is (not fitted and drop < 100)


def test_a_limit_that_the_region_lacks_refuses_the_request() -> None:
    with pytest.raises(RefusedRequest, match="rule-missing"):
        _run(_finding(limit="lost"))


# --- what is written ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("region", "value", "limit", "margin"),
    [
        ("INT", (10.0, "Pa"), (100.0, "Pa"), (90.0, "Pa")),
        ("XS", (0.1, "mbar"), (1.0, "mbar"), (0.9, "mbar")),
    ],
)
@pytest.mark.parametrize("sense", ["at-most", "at-least"])
def test_value_limit_and_margin(
    region: str,
    value: tuple[float, str],
    limit: tuple[float, str],
    margin: tuple[float, str],
    sense: str,
) -> None:
    found = _one(_finding(sense=sense), region=region)
    assert found is not None
    (item,) = found["items"]
    sign = 1 if sense == "at-most" else -1
    for name, (number, unit) in {"value": value, "limit": limit}.items():
        assert item[name] == {"value": pytest.approx(number), "unit": unit}
    assert item["margin"] == {"value": pytest.approx(sign * margin[0]), "unit": margin[1]}
    assert (found["title"], found["rule"]) == ("Judged", "drop-seen")


@pytest.mark.parametrize(
    ("region", "value", "margin"),
    [("INT", (70.0, "degC"), (5.0, "K")), ("XS", (158.0, "degF"), (9.0, "degF_diff"))],
)
def test_the_margin_of_temperatures_is_a_difference(
    region: str, value: tuple[float, str], margin: tuple[float, str]
) -> None:
    finding = _finding(quantity="/outputs/flow", limit="flow-limit")
    found = _one(finding, region=region, flow="70 degC")
    assert found is not None
    (item,) = found["items"]
    assert item["value"] == {"value": pytest.approx(value[0]), "unit": value[1]}
    assert item["margin"] == {"value": pytest.approx(margin[0]), "unit": margin[1]}


def test_words_are_filled() -> None:
    finding = _finding(
        quantity="/outputs/rooms/*/drop",
        words_passed="{item}: {value} leaves {margin} of {limit}.",
        words_failed="{item}: {value} is over {limit} by {margin}.",
    )
    found = _one(finding, rooms=ROOMS)
    assert found is not None
    assert [item["words"] for item in found["items"]] == [
        "loft: 140 Pa is over 100 Pa by -40 Pa.",
        "bath: 40 Pa leaves 60 Pa of 100 Pa.",
        "hall: 20 Pa leaves 80 Pa of 100 Pa.",
    ]
    plain = _one(_finding(quantity="/outputs/fitted", sense="is", limit=True))
    assert plain is not None
    assert plain["items"][0]["words"] == "yes against yes."


def test_a_name_with_braces_is_only_a_name() -> None:
    finding = _finding(quantity="/outputs/rooms/*/drop", words_passed="{item} is well.")
    found = _one(finding, rooms=[{**ROOMS[0], "name": "{limit}"}])
    assert found is not None
    assert found["items"][0]["words"] == "{limit} is well."


# --- columns --------------------------------------------------------------------------------------

EVERY = (
    _finding(code="most"),
    _finding(code="least", sense="at-least", failed="dangerous"),
    _finding(code="recalled", limit="drop-memory"),
    _finding(code="so", quantity="/outputs/safe", sense="is", limit=True, failed="advisory"),
    _finding(code="same", quantity="/outputs/safe", sense="is", limit="/inputs/fitted"),
    _finding(code="own", quantity="/outputs/doubled", limit="/inputs/drop"),
    _finding(code="each", quantity="/outputs/rooms/*/drop", failed="dangerous"),
    _finding(code="by-name", quantity="/outputs/rooms/*/drop", limit="/inputs/rooms/*/allowed"),
    _finding(code="if-safe", applies_when="/outputs/safe"),
    _finding(code="if-not", applies_when="not /outputs/safe", failed="dangerous"),
    _finding(code="sure", capped_unless="/outputs/safe", words_capped="It is not safe."),
    _finding(code="if-lpg", applies_when="/inputs/gas == lpg"),
    _finding(code="if-wet", quantity="/outputs/rooms/*/drop", applies_when="/inputs/rooms/*/wet"),
)
DROPS = st.one_of(st.floats(-200, 200), st.sampled_from([50.0, 100.0, 100.0 * (1 + 5e-10)]))


@st.composite
def _rows(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Rows of one structure, so that they stand in one column run."""
    fitted, gas = draw(st.booleans()), draw(st.sampled_from(["natural", "lpg"]))
    wet = draw(st.lists(st.booleans(), max_size=2))
    return [
        {
            "drop": draw(DROPS),
            "fitted": fitted,
            "gas": gas,
            "rooms": [
                {
                    "name": f"r{index}",
                    "drop": _pascals(draw(DROPS)),
                    "allowed": _pascals(draw(DROPS)),
                    "wet": flag,
                }
                for index, flag in enumerate(wet)
            ],
        }
        for _ in range(draw(st.integers(2, 8)))
    ]


@given(_rows())
def test_columns_are_judged_as_their_rows(rows: list[dict[str, Any]]) -> None:
    requests = [_request(**row) for row in rows]
    (group,) = run_columns(_runner(*EVERY), requests, BOOK, today=TODAY).groups
    assert group.indices == list(range(len(rows)))
    verdicts = group.verdicts()
    for index, row in enumerate(rows):
        single = _run(*EVERY, **row)["findings"]
        many = {code: column[index] for code, column in verdicts.items()}
        assert {code: verdict for code, verdict in many.items() if verdict is not None} == {
            code: item["verdict"] for code, item in single.items()
        }
