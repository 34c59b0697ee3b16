"""Rules: what a file must say, which edition answers, and tables that never guess."""

from __future__ import annotations

import copy
import datetime as dt
import json
import re
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.refusals import Refusal
from tundish.rows import ROWS, Rows
from tundish.rules import Context, Rulebook, RulesError, parse_rules
from tundish.sources import Source
from tundish.working import recording

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tundish.rules import InForce
    from tundish.tables import Table

DAY = dt.date(2024, 6, 1)


def _source(confirmed: str = "seen", locator: str = "clause 1") -> dict[str, str]:
    return {
        "kind": "standard",
        "document": "Invented standard",
        "edition": "1",
        "locator": locator,
        "confirmed": confirmed,
    }


def _edition(value: Any, edition: str = "2000", start: str = "2000-01-01", **more: Any) -> Any:
    return {"edition": edition, "from": start, "source": "std", "value": value, **more}


def _quantity(value: Any, unit: str = "degC") -> dict[str, Any]:
    return {"value": value, "unit": unit}


def _rule(name: str, kind: str, *editions: Any, **more: Any) -> dict[str, Any]:
    meaning = f"Invented {name}"
    return {"name": name, "kind": kind, "meaning": meaning, "editions": list(editions), **more}


def _document(*rules: Any, region: str = "INT", **more: Any) -> dict[str, Any]:
    sources = {"std": _source(), "recalled": _source("memory"), "argued": _source("disputed")}
    head = {"schema": "rules/1", "region": region, "family": "invented"}
    return {**head, "sources": sources, "rules": list(rules), **more}


def _region(code: str, based_on: str | None = None) -> dict[str, Any]:
    return {"schema": "region/1", "region": code, "title": code, "based_on": based_on}


def _book(*documents: dict[str, Any]) -> Rulebook:
    book = Rulebook()
    for document in documents:
        book.add_document(document, "invented")
    return book


def _context(book: Rulebook, *names: str, region: str = "INT", date: dt.date = DAY) -> Context:
    return Context(book, region, date, "", frozenset(names))


def _table_rule(columns: list[Any], rows: list[Any], name: str = "tubes") -> dict[str, Any]:
    edition = {k: v for k, v in _edition(None).items() if k != "value"}
    return _rule(name, "table", {**edition, "rows": rows}, columns=columns)


def _found(found: InForce | None) -> tuple[str, str] | None:
    return None if found is None else (found.rule.region, found.edition.edition)


# --- reading --------------------------------------------------------------------------------------

FLOW = _rule("flow-limit", "temperature", _edition(_quantity(60)))
BORES = _table_rule(
    [{"name": "tube", "kind": "key"}, {"name": "bore", "kind": "length", "unit": "mm"}],
    [["thin", 8.5], ["thick", None]],
)
WHOLE = _document(FLOW, BORES)


def test_values_are_read_in_si_and_kept_as_written() -> None:
    rules = {
        rule.name: rule
        for rule in parse_rules(
            _document(
                FLOW,
                BORES,
                _rule("drop", "pressure_difference", _edition(_quantity(1, "mbar"))),
                _rule("share", "number", _edition(3)),
                _rule("words", "text", _edition("Flush first.")),
                _rule("warning", "caution", _edition("Mind the heat.")),
            ),
            "invented",
        )
    }
    edition = {name: rule.editions[0] for name, rule in rules.items()}
    assert edition["flow-limit"].value == pytest.approx(333.15)
    assert edition["flow-limit"].wire == {"value": 60, "unit": "degC"}
    assert edition["drop"].value == 100.0
    assert (edition["share"].value, edition["share"].wire) == (3.0, 3)
    assert type(edition["share"].value) is float
    assert edition["words"].value == "Flush first."
    assert edition["warning"].value == "Mind the heat."
    assert edition["tubes"].value.data == (("thin", pytest.approx(0.0085)), ("thick", None))
    assert rules["flow-limit"].meaning == "Invented flow-limit"
    assert {(r.region, r.family, r.plugin) for r in rules.values()} == {
        ("INT", "invented", "invented")
    }


def test_an_edition_may_have_its_own_place_and_degree_in_the_source() -> None:
    item = _edition(_quantity(60), locator="table 3", confirmed="memory")
    (rule,) = parse_rules(_document(_rule("flow-limit", "temperature", item)), "p")
    source = rule.editions[0].source
    assert (source.locator, source.confirmed, source.document) == (
        "table 3",
        "memory",
        "Invented standard",
    )


Change = tuple["str | int", ...]


@pytest.mark.parametrize(
    ("place", "value", "words"),
    [
        (("schema",), "rules/2", "'rules/2' is not rules/1"),
        (("sources", "std", "confirmed"), "hearsay", "source std: confirmed 'hearsay'"),
        (("sources", "std", "kind"), "rumour", "source std: kind 'rumour'"),
        (("rules", 0, "kind"), "warmth", "INT/invented/flow-limit: unknown kind warmth"),
        (("rules", 0, "kind"), "number", "INT/invented/flow-limit: {'value': 60"),
        (("rules", 0, "kind"), "text", "INT/invented/flow-limit: text needs words"),
        (("rules", 0, "kind"), "caution", "INT/invented/flow-limit: caution needs words"),
        (("rules", 0, "editions", 0, "source"), "lost", "flow-limit: source 'lost' is not"),
        (("rules", 0, "editions", 0, "from"), "1 May 2000", "flow-limit: '1 May 2000' is not a"),
        (("rules", 0, "editions", 0, "from"), 2000, "flow-limit: 2000 is not a date"),
        (("rules", 0, "editions", 0, "until"), "2001-02-30", "flow-limit: '2001-02-30' is not a"),
        (("rules", 0, "editions", 0, "confirmed"), "hearsay", "confirmed 'hearsay'"),
        (("rules", 0, "editions", 0, "value"), 60, "flow-limit: a quantity needs value and unit"),
        (("rules", 0, "editions", 0, "value", "basis"), "x", "flow-limit: a quantity needs"),
        (("rules", 0, "editions", 0, "value", "unit"), "bar", "flow-limit: 'bar' is not a unit"),
        (("rules", 0, "editions", 0, "value", "value"), "60", "flow-limit: '60' is not a number"),
        (("rules", 0, "editions", 0, "value", "value"), True, "flow-limit: True is not a number"),
        (("rules", 0, "editions", 0, "value", "value"), float("nan"), "flow-limit: nan is not"),
        (("rules", 1, "columns", 1, "kind"), "girth", "INT/invented/tubes: unknown kind girth"),
        (("rules", 1, "columns", 1, "unit"), "bar", "INT/invented/tubes: 'bar' is not a unit"),
        (("rules", 1, "editions", 0, "rows", 0), ["thin"], "INT/invented/tubes: "),
        (("rules", 1, "editions", 0, "rows", 0), ["thin", 8, 9], "INT/invented/tubes: "),
        (("rules", 1, "editions", 0, "rows", 0, 1), "8.5", "tubes, column bore: '8.5' is not"),
        (("rules", 1, "editions", 0, "rows", 0, 1), True, "tubes, column bore: True is not"),
    ],
)
def test_what_a_file_may_not_say(place: Change, value: Any, words: str) -> None:
    document: Any = copy.deepcopy(WHOLE)
    here = document
    for part in place[:-1]:
        here = here[part]
    here[place[-1]] = value
    with pytest.raises(RulesError, match=re.escape(words)):
        parse_rules(document, "invented")


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (("region",), "'region' is missing"),
        (("family",), "'family' is missing"),
        (("sources", "std", "locator"), "source std: 'locator' is missing"),
        (("rules", 0, "name"), "INT/invented: 'name' is missing"),
        (("rules", 0, "kind"), "INT/invented/flow-limit: 'kind' is missing"),
        (("rules", 0, "meaning"), "INT/invented/flow-limit: 'meaning' is missing"),
        (("rules", 0, "editions"), "INT/invented/flow-limit: 'editions' is missing"),
        (("rules", 0, "editions", 0, "edition"), "INT/invented/flow-limit: 'edition' is missing"),
        (("rules", 0, "editions", 0, "from"), "INT/invented/flow-limit: 'from' is missing"),
        (("rules", 0, "editions", 0, "source"), "INT/invented/flow-limit: 'source' is missing"),
        (("rules", 0, "editions", 0, "value"), "flow-limit: a quantity needs value and unit"),
        (("rules", 1, "columns"), "INT/invented/tubes: 'columns' is missing"),
        (("rules", 1, "columns", 0, "name"), "INT/invented/tubes: 'name' is missing"),
        (("rules", 1, "editions", 0, "rows"), "INT/invented/tubes: 'rows' is missing"),
    ],
)
def test_what_a_file_must_say(place: Change, words: str) -> None:
    document: Any = copy.deepcopy(WHOLE)
    here = document
    for part in place[:-1]:
        here = here[part]
    del here[place[-1]]
    with pytest.raises(RulesError, match=re.escape(words)):
        parse_rules(document, "invented")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (json.dumps({**WHOLE, "rules": [{**FLOW, "kind": "warmth"}]}), "unknown kind warmth"),
        ("{", "broken.json"),
        ("[]", "broken.json"),
        (json.dumps({"schema": "region/1", "region": "XS"}), "title"),
    ],
)
def test_files_are_named(tmp_path: Path, text: str, words: str) -> None:
    file = tmp_path / "broken.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(RulesError, match=r"broken\.json: ") as caught:
        Rulebook().add_files([file], "invented")
    assert words in str(caught.value)


def test_a_name_is_taken_once_a_region() -> None:
    book = _book(_region("INT"), _region("XS"), _document(FLOW))
    book.add_document(_document(FLOW, region="XS"), "second")  # another region: an overlay
    with pytest.raises(RulesError, match="INT/flow-limit is already given by invented"):
        book.add_document(_document(FLOW), "third")
    with pytest.raises(RulesError, match="region XS is already defined by invented"):
        book.add_document(_region("XS"), "third")
    with pytest.raises(RulesError, match="already given"):
        _book(_document(FLOW, FLOW))


# --- dates ----------------------------------------------------------------------------------------

DATED = _rule(
    "limit",
    "number",
    _edition(1, "first", "2000-01-01", until="2010-07-01"),
    _edition(2, "second", "2010-07-01"),
    _edition(3, "third", "2020-01-01", until="2020-02-01"),
)


@pytest.mark.parametrize(
    ("date", "edition"),
    [
        ("1999-12-31", None),
        ("2000-01-01", "first"),
        ("2010-06-30", "first"),
        ("2010-07-01", "second"),
        ("2019-12-31", "second"),
        ("2020-01-01", "third"),  # both hold: the later one answers
        ("2020-01-31", "third"),
        ("2020-02-01", "second"),
        ("2999-01-01", "second"),
    ],
)
@pytest.mark.parametrize("turned", [False, True])
def test_the_edition_of_a_day(date: str, edition: str | None, turned: bool) -> None:
    editions = DATED["editions"][::-1] if turned else DATED["editions"]
    book = _book(_document({**DATED, "editions": editions}))
    found = book.find("INT", dt.date.fromisoformat(date), "limit")
    assert _found(found) == (edition and ("INT", edition))


def test_a_gap_between_editions_has_no_rule() -> None:
    gap = _rule(
        "limit",
        "number",
        _edition(1, "first", "2000-01-01", until="2010-01-01"),
        _edition(2, "second", "2011-01-01"),
    )
    context = _context(_book(_document(gap)), "limit", date=dt.date(2010, 5, 1))
    assert not context.has("limit")
    with pytest.raises(Refusal, match="2010-05-01") as caught:
        context.value("limit")
    assert (caught.value.code, caught.value.pointer) == ("rule-missing", "@/region")


# --- regions --------------------------------------------------------------------------------------


def test_the_chain_of_a_region() -> None:
    book = _book(_region("INT"), _region("XA", "INT"), _region("XB", "XA"), _region("XC"))
    assert book.chain("INT") == ["INT"]
    assert book.chain("XB") == ["XB", "XA", "INT"]
    assert book.chain("XC") == ["XC", "INT"]
    assert book.chain("unknown") == ["unknown", "INT"]


def test_a_circle_of_regions_ends() -> None:
    assert _book(_region("XA", "XB"), _region("XB", "XA")).chain("XA") == ["XA", "XB", "INT"]


def _overlaid() -> Rulebook:
    return _book(
        _region("INT"),
        _region("XA", "INT"),
        _region("XB", "XA"),
        _document(_rule("limit", "number", _edition(1, "int"))),
        _document(_rule("limit", "number", _edition(2, "xa", "2010-01-01")), region="XA"),
        _document(
            _rule("limit", "number", _edition(3, "xb", "2005-01-01", until="2015-01-01")),
            region="XB",
        ),
    )


@pytest.mark.parametrize(
    ("region", "year", "found"),
    [
        ("XB", 2003, ("INT", "int")),
        ("XB", 2007, ("XB", "xb")),
        ("XB", 2012, ("XB", "xb")),  # the nearer region goes before the later edition
        ("XB", 2018, ("XA", "xa")),
        ("XA", 2007, ("INT", "int")),
        ("XA", 2012, ("XA", "xa")),
        ("INT", 2012, ("INT", "int")),
        ("nowhere", 2012, ("INT", "int")),
    ],
)
def test_the_nearest_region_answers(region: str, year: int, found: tuple[str, str]) -> None:
    assert _found(_overlaid().find(region, dt.date(year, 6, 1), "limit")) == found


def test_what_a_removed_plugin_gave_is_gone_and_what_it_covered_is_back() -> None:
    book = _book(_region("INT"), _document(_rule("limit", "number", _edition(1))))
    assert _found(book.find("XA", DAY, "limit")) == ("INT", "2000")
    book.add_document(_region("XA", "INT"), "regional")
    book.add_document(_document(_rule("limit", "number", _edition(2)), region="XA"), "regional")
    assert _found(book.find("XA", DAY, "limit")) == ("XA", "2000")
    book.remove("regional")
    assert _found(book.find("XA", DAY, "limit")) == ("INT", "2000")
    assert set(book.regions) == {"INT"}
    book.remove("invented")
    assert book.find("XA", DAY, "limit") is None
    assert not book.rules


# --- a kernel's reading ---------------------------------------------------------------------------


def test_readings_are_steps_and_are_cited() -> None:
    book = _book(_document(FLOW, _rule("words", "text", _edition("Flush."))))
    context = _context(book, "flow-limit", "words", "never-read")
    with recording() as recorder:
        assert context.value("flow-limit") == pytest.approx(333.15)
        assert context.text("words") == "Flush."
    assert context.wire("flow-limit") == {"value": 60, "unit": "degC"}
    first, second = [what(payload, value) for what, payload, value, _ in recorder.steps]
    assert first == {
        "step": "rule",
        "name": "Invented flow-limit",
        "rule": "flow-limit",
        "region": "INT",
        "edition": "2000",
        "from": "2000-01-01",
        "value": {"value": 60, "unit": "degC"},
        "source": "std",
        "locator": "clause 1",
        "confirmed": "seen",
    }
    assert second["value"] == "Flush."
    assert list(context.used) == ["flow-limit", "words"]


def test_a_rule_that_is_not_declared_is_our_fault() -> None:
    context = _context(_book(_document(FLOW)), "other")
    with pytest.raises(LookupError, match="flow-limit is read but not declared"):
        context.value("flow-limit")


@pytest.mark.parametrize("read", ["value", "text", "table", "wire"])
def test_a_declared_rule_that_the_region_lacks_is_refused(read: str) -> None:
    context = _context(_book(_region("INT"), _region("XA", "INT")), "lost", region="XA")
    with pytest.raises(Refusal, match="XA has no rule 'lost'") as caught:
        getattr(context, read)("lost")
    assert caught.value.code == "rule-missing"
    assert caught.value.context == {"rule": "lost"}
    assert not context.used


@pytest.mark.parametrize(
    ("source", "unconfirmed"), [("std", False), ("recalled", True), ("argued", True)]
)
def test_unconfirmed(source: str, unconfirmed: bool) -> None:
    book = _book(_document(_rule("limit", "number", {**_edition(1), "source": source})))
    found = book.find("INT", DAY, "limit")
    assert found is not None
    assert found.unconfirmed is unconfirmed


@pytest.mark.parametrize(
    "confirmed", ["seen", "seen-reproduced", "computed", "derived", "memory", "disputed"]
)
def test_only_memory_and_dispute_are_unconfirmed(confirmed: str) -> None:
    item = _edition(1, confirmed=confirmed)
    found = _book(_document(_rule("limit", "number", item))).find("INT", DAY, "limit")
    assert found is not None
    assert found.unconfirmed is (confirmed in {"memory", "disputed"})
    assert found.as_json()["confirmed"] == confirmed


# --- editions asked for by name -------------------------------------------------------------------


def _two_editions() -> Rulebook:
    def item(edition: str, bore: float, start: str, **more: Any) -> dict[str, Any]:
        return {
            "edition": edition,
            "from": start,
            "source": "std",
            "rows": [["thin", bore]],
            **more,
        }

    rule = _table_rule(
        [{"name": "tube", "kind": "key"}, {"name": "bore", "kind": "length", "unit": "mm"}], []
    )
    rule["editions"] = [
        item("old", 8.0, "1990-01-01", until="2010-01-01"),
        item("new", 9.0, "2010-01-01"),
    ]
    return _book(_region("INT"), _region("XA", "INT"), _document(rule))


@pytest.mark.parametrize(
    ("edition", "bore", "superseded"), [(None, 9.0, False), ("new", 9.0, False), ("old", 8.0, True)]
)
def test_a_superseded_edition_answers_only_by_name(
    edition: str | None, bore: float, superseded: bool
) -> None:
    context = _context(_two_editions(), "tubes", region="XA")
    table = context.table("tubes", edition=edition)
    with recording() as recorder:
        assert table.exact(tube="thin")["bore"] == pytest.approx(bore / 1e3)
    ((what, payload, value, _),) = recorder.steps
    step = what(payload, value)
    assert (step["edition"], step["superseded"]) == (edition or "new", superseded)
    (cited,) = [item.as_json() for item in context.used.values()]
    assert cited["edition"] == (edition or "new")
    assert cited.get("superseded", False) is superseded
    assert cited["value"] == {"rows": 1}
    assert cited.get("until") == ("2010-01-01" if edition == "old" else None)


def test_an_edition_asked_for_does_not_replace_the_one_in_force() -> None:
    context = _context(_two_editions(), "tubes")
    context.table("tubes", edition="old")
    assert context.table("tubes").exact(tube="thin")["bore"] == pytest.approx(0.009)
    assert not context.table("tubes").superseded


def test_an_unknown_edition_is_refused_with_those_there_are() -> None:
    context = _context(_two_editions(), "tubes")
    with pytest.raises(Refusal, match="no edition 'newest' of 'tubes'") as caught:
        context.table("tubes", edition="newest")
    assert caught.value.code == "edition-unknown"
    assert caught.value.context["accepted"] == ["old", "new"]
    with pytest.raises(LookupError):
        context.table("others", edition="old")


# --- tables ---------------------------------------------------------------------------------------

SIZES = [
    {"name": "size", "kind": "key"},
    {"name": "bore", "kind": "length", "unit": "mm"},
    {"name": "flow", "kind": "volume_flow", "unit": "l/min"},
    {"name": "words", "kind": "text"},
    {"name": "factor", "kind": "number"},
]
ROWS_OF_SIZES = [
    ["small", 10, 6.0, "copper", 1.0],
    ["middle", 20, 12.0, "copper", None],
    ["large", 40, None, "steel", 3.0],
    ["largest", 50, 60.0, "steel", 5.0],
]


def _table(columns: list[Any] = SIZES, rows: list[Any] = ROWS_OF_SIZES) -> Table:
    book = _book(_document(_table_rule(columns, rows)))
    return _context(book, "tubes").table("tubes").at("/tube")


def _step(run: Callable[[], object]) -> dict[str, Any]:
    with recording() as recorder:
        run()
    ((what, payload, value, _),) = recorder.steps
    step: dict[str, Any] = what(payload, value)
    return step


def _refused(code: str, run: Callable[[], object]) -> Refusal:
    with pytest.raises(Refusal) as caught:
        run()
    assert (caught.value.code, caught.value.pointer) == (code, "/tube")
    return caught.value


def _columns(
    run: Callable[[Any], Any], xs: list[float], unit: float = 1e-3
) -> tuple[Any, dict[int, str]]:
    rows = Rows(len(xs))
    token = ROWS.set(rows)
    try:
        found = run(np.array(xs) * unit)
    finally:
        ROWS.reset(token)
    return found, {row: refusal.code for row, refusal in rows.refused.items()}


def test_exact() -> None:
    table = _table()
    row = table.exact(size="middle")
    assert row["bore"] == pytest.approx(0.02)
    assert row["flow"] == pytest.approx(12e-3 / 60)
    assert row["words"] == "copper"
    assert table.exact(words="steel", factor=5.0)["size"] == "largest"
    assert table.keys("size") == ["small", "middle", "large", "largest"]
    assert [item["size"] for item in table.rows()] == table.keys("size")
    step = _step(lambda: table.exact(size="large"))
    assert step["row"] == {
        "size": "large",
        "bore": {"value": 40.0, "unit": "mm"},
        "flow": None,
        "words": "steel",
        "factor": 3.0,
    }
    assert (step["look_up"], step["asked"]) == ("exact", {"size": "large"})
    assert (step["source"], step["locator"]) == ("std", "clause 1")


@pytest.mark.parametrize("keys", [{"size": "huge"}, {"size": "small", "words": "steel"}])
def test_an_entry_that_is_not_there_is_refused(keys: dict[str, str]) -> None:
    refusal = _refused("table-key-unknown", lambda: _table().exact(**keys))
    assert refusal.context["accepted"] == ["small", "middle", "large", "largest"]


def test_a_column_that_is_not_there_is_our_fault() -> None:
    with pytest.raises(KeyError, match="no column girth"):
        _table().exact(girth=1.0)
    with pytest.raises(KeyError, match="girth"):
        _table().exact(size="small")["girth"]


def test_a_doubtful_cell_refuses_only_when_it_is_read() -> None:
    row = _table().exact(size="middle")
    assert not row.has("factor")
    assert row.has("bore")
    assert row.values["factor"] is None
    refusal = _refused("table-cell-doubtful", lambda: row["factor"])
    assert refusal.context == {"table": "tubes", "column": "factor"}


@pytest.mark.parametrize(
    ("bore", "size"),
    [
        (1.0, "small"),
        (10.0, "small"),
        (10.0 * (1 + 5e-10), "small"),  # reached by another route
        (10.0 * (1 + 2e-9), "middle"),
        (10.01, "middle"),
        (39.9, "large"),
        (40.0, "large"),
        (50.0, "largest"),
        (50.0 * (1 + 5e-10), "largest"),
    ],
)
def test_next_larger(bore: float, size: str) -> None:
    table = _table()
    assert table.next_larger("bore", bore / 1e3)["size"] == size
    many, codes = _columns(lambda x: table.next_larger("bore", x)["size"], [bore, 25.0])
    assert (many.tolist(), codes) == ([size, "large"], {})
    step = _step(lambda: table.next_larger("bore", bore / 1e3))
    assert (step["look_up"], step["row"]["size"]) == ("next-larger", size)


@pytest.mark.parametrize("x", [-5.0, -2.0, 0.0, 3.0])
def test_next_larger_of_an_entry_is_that_entry(x: float) -> None:
    columns = [{"name": "x", "kind": "number"}]
    table = _table(columns, [[-5], [-2], [0], [3]])
    assert table.next_larger("x", x)["x"] == x
    many, _ = _columns(lambda x: table.next_larger("x", x)["x"], [x, 3.0], 1.0)
    assert many.tolist() == [x, 3.0]
    below = _table(columns, [[-5], [-2]])
    assert below.next_larger("x", -2.0)["x"] == -2.0


@pytest.mark.parametrize("x", [-8.0, -3.0, -2.0, 0.0, 1.0, 3.75, 9.0])
def test_interpolate(x: float) -> None:
    columns = [{"name": "x", "kind": "number"}, {"name": "y", "kind": "number"}]
    xs, ys = [-8.0, -2.0, 1.0, 9.0], [4.0, -5.0, 7.0, 0.5]
    table = _table(columns, [list(row) for row in zip(xs, ys, strict=True)])
    expected = np.interp(x, xs, ys)
    assert table.interpolate("x", x, "y") == pytest.approx(expected, rel=1e-14)
    assert type(table.interpolate("x", x, "y")) is float
    many, _ = _columns(lambda x: table.interpolate("x", x, "y"), [x, 0.0], 1.0)
    np.testing.assert_allclose(many, [expected, np.interp(0.0, xs, ys)], rtol=1e-14)
    step = _step(lambda: table.interpolate("x", x, "y"))
    assert step["row"]["from"]["x"] <= x <= step["row"]["to"]["x"]


@given(st.floats(9.9e-3, 50.1e-3))
def test_never_beyond_the_ends(x: float) -> None:
    table = _table()
    outside = x < 0.01 or x > 0.05
    try:
        table.interpolate("bore", x, "bore")
        refused = False
    except Refusal as refusal:
        refused = refusal.code == "outside-table"
    assert refused is outside


@pytest.mark.parametrize("x", [50.001e-3, 1.0, float("inf"), float("nan")])
def test_above_the_last_row_is_refused(x: float) -> None:
    table = _table()
    refusal = _refused("outside-table", lambda: table.next_larger("bore", x))
    assert refusal.context == {"table": "tubes"}
    _refused("outside-table", lambda: table.interpolate("bore", x, "bore"))


def test_a_table_out_of_order_is_our_fault() -> None:
    table = _table(rows=ROWS_OF_SIZES[::-1])
    for run in (
        lambda: table.next_larger("bore", 0.02),
        lambda: table.interpolate("bore", 0.02, "factor"),
    ):
        with pytest.raises(ValueError, match="not sorted by bore"):
            run()


def test_a_row_alone_is_no_line() -> None:
    """One row answers its own entry and nothing else."""
    table = _table(rows=ROWS_OF_SIZES[:1])
    assert table.interpolate("bore", 0.01, "factor") == 1.0
    _refused("outside-table", lambda: table.interpolate("bore", 0.011, "factor"))
    found, codes = _columns(lambda x: table.interpolate("bore", x, "factor"), [10, 11])
    assert (found[0], codes) == (1.0, {1: "outside-table"})


def test_a_doubtful_entry_on_the_way_is_refused() -> None:
    table = _table()
    for run in (
        lambda: table.next_larger("flow", 1e-4),
        lambda: table.interpolate("flow", 1e-4, "bore"),
    ):
        assert _refused("table-cell-doubtful", run).context["column"] == "flow"


@pytest.mark.parametrize("bore", [15.0, 20.0, 30.0])
def test_interpolation_next_to_a_doubtful_cell_is_refused(bore: float) -> None:
    table = _table()
    refusal = _refused(
        "table-cell-doubtful", lambda: table.interpolate("bore", bore / 1e3, "factor")
    )
    assert refusal.context == {"table": "tubes", "column": "factor"}
    assert table.interpolate("bore", 0.045, "factor") == pytest.approx(4.0)


def test_columns_refuse_row_by_row() -> None:
    table = _table()
    found, codes = _columns(lambda x: table.interpolate("bore", x, "factor"), [9, 45, 30, 51, 50])
    assert codes == {0: "outside-table", 2: "table-cell-doubtful", 3: "outside-table"}
    np.testing.assert_allclose(found[[1, 4]], [4.0, 5.0])
    found, codes = _columns(lambda x: table.next_larger("bore", x)["flow"], [9, 51, 30, 45])
    assert codes == {1: "outside-table", 2: "table-cell-doubtful"}
    np.testing.assert_allclose(found[[0, 3]], [1e-4, 1e-3])


# --- sources --------------------------------------------------------------------------------------


def test_a_source_says_only_what_it_has() -> None:
    source = Source("std", **_source())
    assert source.as_json() == {"id": "std", **_source()}
    more = Source("std", **_source(), seen_in="a copy", url="https://example.invalid/")
    assert more.as_json() == {
        "id": "std",
        **_source(),
        "seen_in": "a copy",
        "url": "https://example.invalid/",
    }
