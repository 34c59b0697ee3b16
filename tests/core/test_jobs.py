"""Jobs: links, what they refuse, what is carried on, and how the verdicts come together.

Two tiny calculations made here: a heater that answers every kind of value, and a user of them.
"""

from __future__ import annotations

import copy
import datetime as dt
import json
import math
from types import ModuleType
from typing import Annotated, Any

import pytest

from tundish.calculation import Calculation, Finding
from tundish.canonical import fingerprint
from tundish.contract import (
    Based,
    Column,
    Count,
    Inputs,
    Item,
    Name,
    Number,
    Outputs,
    Quantity,
    Rows,
    Text,
)
from tundish.functions import require
from tundish.hooks import CalculationEntry, hookimpl
from tundish.host import Host
from tundish.jobs import answer_job, run_job
from tundish.problems import RefusedRequest
from tundish.refusals import Refused

TODAY = dt.date(2026, 11, 25)
BASES = {"net": "heat_input_net", "gross": "heat_input_gross"}
POWER = Quantity("power", "P", "kW", low=0, high=1000, help="Power.")
TEMPERATURE = Quantity("temperature", "T", "degC", low=0, high=99, help="Temperature.")
HEAT = Quantity(BASES, "Q", "kW", low=0, high=1000, help="Heat input.")
NET = Quantity("heat_input_net", "Q", "kW", low=0, high=1000, help="Net heat input.")


class Room(Item):
    """A row."""

    name: Annotated[str, Name(help="Name.")]
    power: Annotated[float, POWER]


class Curve(Item):
    """A curve."""

    power: Annotated[list[float], Column("power", "P", "kW", help="Power.")]


class HeaterInputs(Inputs):
    """What heats."""

    power: Annotated[float, POWER]
    rooms: Annotated[list[Room], Rows(low=0, high=9, help="Rooms.")] = []  # noqa: RUF012
    heat: Annotated[Based, HEAT] | None = None


class HeaterOutputs(Outputs):
    """Every kind of value."""

    power: Annotated[float, POWER]
    temperature: Annotated[float, TEMPERATURE]
    heat: Annotated[Based, HEAT] | None = None
    net: Annotated[Based, Quantity({"net": "heat_input_net"}, "Q", "kW", help="Net.")]
    plain_net: Annotated[float, NET]
    rooms: list[Room]
    powers: list[Annotated[float, POWER]]
    curve: Curve
    factor: Annotated[float, Number("f", help="Factor.")]
    words: Annotated[str, Text(help="Words.")]


def _heater(i: Any, _c: Any) -> dict[str, Any]:
    require(i.power < 900e3, "too-hot", "/power")
    rooms = [{"name": room.name, "power": 2 * room.power} for room in i.rooms]
    powers = [room["power"] for room in rooms]
    return {
        "power": i.power / 2,
        "temperature": 300.0,
        "heat": i.heat,
        "net": Based(i.power, "net"),
        "plain_net": i.power,
        "rooms": rooms,
        "powers": powers,
        "curve": {"power": powers},
        "factor": 3.0,
        "words": "warm",
    }


class UserInputs(Inputs):
    """What uses the heat."""

    power: Annotated[float, POWER]
    powers: Annotated[list[Annotated[float, POWER]], Rows(help="Powers.")] = []  # noqa: RUF012
    rooms: Annotated[list[Room], Rows(help="Rooms.")] = []  # noqa: RUF012
    temperature: Annotated[float, TEMPERATURE] | None = None
    heat: Annotated[Based, HEAT] | None = None
    net: Annotated[float, NET] | None = None
    factor: Annotated[float, Number("f", low=0, high=99, default=1, help="Factor.")]
    pumps: Annotated[int, Count("n", low=0, high=9, default=1, help="Pumps.")]
    limit: Annotated[float, Quantity("power", "P", "kW", default=50, help="Limit.")]
    danger: Annotated[float, Quantity("power", "P", "kW", default=80, help="Danger.")]
    advice: Annotated[float, Quantity("power", "P", "kW", default=20, help="Advice.")]


class UserOutputs(Outputs):
    """What came in."""

    power: Annotated[float, POWER]
    many: Annotated[float, POWER]
    heat: Annotated[Based, HEAT] | None = None
    net: Annotated[float, NET] | None = None


def _user(i: Any, _c: Any) -> dict[str, Any]:
    many = sum(i.powers) + sum(room.power for room in i.rooms)
    return {"power": i.power, "many": float(many), "heat": i.heat, "net": i.net}


def _finding(code: str, failed: str) -> Finding:
    return Finding(code, code, "/outputs/power", "at-most", f"/inputs/{code}", failed=failed)


def _calculation(name: str, inputs: Any, outputs: Any, kernel: Any, **more: Any) -> Calculation:
    return Calculation(
        id=name,
        version="1.0",
        title=name,
        summary=name,
        family="invented",
        questions=(),
        inputs=inputs,
        outputs=outputs,
        kernel=kernel,
        example={},
        **more,
    )


HEATER = _calculation(
    "heater",
    HeaterInputs,
    HeaterOutputs,
    _heater,
    refusals=(Refused("too-hot", "Too hot", "Use less."),),
)
USER = _calculation(
    "user",
    UserInputs,
    UserOutputs,
    _user,
    findings=(
        _finding("limit", "not-met"),
        _finding("danger", "dangerous"),
        _finding("advice", "advisory"),
    ),
)


@pytest.fixture(scope="module")
def host() -> Host:
    """Two calculations and nothing else; one more whose module is not there."""
    module = ModuleType("tiny")

    @hookimpl
    def tundish_calculations() -> list[CalculationEntry]:
        targets = {
            "heater": f"{__name__}:HEATER",
            "user": f"{__name__}:USER",
            "broken": "nowhere:X",
        }
        return [CalculationEntry(k, k, k, "invented", (), v) for k, v in targets.items()]

    module.tundish_calculations = tundish_calculations  # type: ignore[attr-defined]
    made = Host(extra=[("tiny", module)], names=frozenset())
    assert all(plugin.loaded for plugin in made.plugins)
    for region in ("GB", "XA"):
        made.book.add_document({"schema": "region/1", "region": region, "title": region}, "tiny")
    return made


ROOMS = [{"name": "hall", "power": "1 kW"}, {"name": "loft room", "power": "2 kW"}]
SOURCE = {
    "calculation": "heater",
    "inputs": {"power": "40 kW", "rooms": ROOMS, "heat": "18 kW gross"},
}
READINGS = {
    "short": {"value": "7 kW", "what": "Read off", "taken": "today"},
    "long": {"value": {"value": 7, "unit": "kW"}},
    "watts": {"value": {"value": 7, "unit": "W"}},
    "net": {"value": "7 kW net"},
    "length": {"value": "7 m"},
    "several": {"value": ["1 kW", {"value": 2, "unit": "kW"}]},
    "plain": {"value": 7},
    "half": {"value": 0.5},
    "words": {"value": "seven"},
    "flag": {"value": True},
}


def _user_of(**inputs: Any) -> dict[str, Any]:
    return {"calculation": "user", "inputs": {"power": "1 kW", **inputs}}


def _job(calculations: dict[str, Any] | None = None, **members: Any) -> dict[str, Any]:
    chosen = {"b": _user_of()} if calculations is None else calculations
    return {"schema": "job/1", "title": "Invented", "calculations": chosen, **members}


def _linked(**inputs: Any) -> dict[str, Any]:
    return _job({"b": _user_of(**inputs), "a": SOURCE}, readings=READINGS)


def _run(document: object, host: Host) -> dict[str, Any]:
    return run_job(document, host, today=TODAY, parts=frozenset())


def _refused(document: object, host: Host) -> dict[str, Any]:
    with pytest.raises(RefusedRequest) as caught:
        _run(document, host)
    body = caught.value.as_json()
    assert body["status"] == 422
    json.dumps(body, allow_nan=False)
    return body


def _link(source: str) -> dict[str, str]:
    return {"from": source}


def _sum(*sources: str) -> dict[str, Any]:
    return {"sum": [_link(source) for source in sources]}


# --- links ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("inputs", "output", "kilowatts"),
    [
        ({"power": _link("/a/outputs/power")}, "power", 20),
        ({"power": _link("/a/inputs/power")}, "power", 40),
        ({"power": _link("/readings/short")}, "power", 7),
        ({"power": _link("/readings/long")}, "power", 7),
        ({"power": _link("/a/outputs/rooms/loft room/power")}, "power", 4),
        ({"power": _link("/a/outputs/rooms/1/power")}, "power", 4),
        ({"power": _link("/a/inputs/rooms/hall/power")}, "power", 1),
        ({"power": _link("/a/outputs/powers/1")}, "power", 4),
        ({"power": _sum("/a/outputs/power")}, "power", 20),
        ({"power": _sum("/a/outputs/power", "/a/outputs/rooms/0/power")}, "power", 22),
        ({"power": _sum("/a/outputs/rooms/hall/power", "/a/outputs/rooms/hall/power")}, "power", 4),
        ({"power": _sum("/a/inputs/power", "/readings/long")}, "power", 47),
        ({"powers": _link("/a/outputs/powers")}, "many", 6),
        ({"powers": _link("/a/outputs/curve/power")}, "many", 6),
        ({"powers": _link("/readings/several")}, "many", 3),
        ({"powers": [_link("/a/outputs/power"), "1 kW"]}, "many", 21),
        ({"rooms": [{"name": "x", "power": _link("/a/outputs/power")}]}, "many", 20),
        ({"heat": _link("/a/inputs/heat")}, "heat", 18),
        ({"heat": _link("/a/outputs/net")}, "heat", 40),
        ({"heat": _link("/readings/net")}, "heat", 7),
        ({"net": _link("/a/outputs/net")}, "net", 40),
        ({"net": _link("/a/outputs/plain_net")}, "net", 40),
    ],
)
def test_links_carry(inputs: dict[str, Any], output: str, kilowatts: float, host: Host) -> None:
    document = _linked(**inputs)
    before = copy.deepcopy(document)
    entry = _run(document, host)["calculations"]["b"]
    assert document == before
    assert entry["status"] == "answered", entry
    found = entry["record"]["outputs"][output]
    assert (found["value"], found["unit"]) == (pytest.approx(kilowatts, rel=1e-12), "kW")
    if output == "heat":
        expected = "gross" if kilowatts == 18 else "net"
        assert found["basis"] == expected


def test_plain_numbers_and_counts(host: Host) -> None:
    inputs = {
        "factor": _sum("/a/outputs/factor", "/readings/half"),
        "pumps": _link("/readings/plain"),
    }
    entry = _run(_linked(**inputs), host)["calculations"]["b"]
    given = entry["record"]["inputs"]["given"]
    assert (given["factor"], given["pumps"]) == (3.5, 7)
    assert entry["linked_from"] == ["a"]


def test_a_link_uses_the_full_number(host: Host) -> None:
    chain = {"a": {"calculation": "heater", "inputs": {"power": {"value": 1 / 3, "unit": "kW"}}}}
    chain["b"] = _user_of(power=_link("/a/outputs/power"))
    record = _run(_job(chain), host)
    carried = record["calculations"]["b"]["record"]["inputs"]["given"]["power"]
    assert carried == record["calculations"]["a"]["record"]["outputs"]["power"]


@pytest.mark.parametrize(
    ("inputs", "where"),
    [
        ({"power": _link("/a/outputs/temperature")}, "/power"),
        ({"power": _link("/a/outputs/factor")}, "/power"),
        ({"power": _link("/a/outputs/words")}, "/power"),
        ({"power": _link("/a/outputs/net")}, "/power"),
        ({"power": _link("/a/outputs/powers")}, "/power"),
        ({"power": _link("/a/outputs/curve/power")}, "/power"),
        ({"power": _link("/a/outputs/rooms")}, "/power"),
        ({"power": _link("/a/outputs/rooms/hall")}, "/power"),
        ({"power": _sum("/a/outputs/power", "/a/outputs/temperature")}, "/power"),
        ({"powers": _link("/a/outputs/power")}, "/powers"),
        ({"powers": _sum("/a/outputs/powers", "/a/outputs/powers")}, "/powers"),
        ({"powers": ["1 kW", _link("/a/outputs/temperature")]}, "/powers/1"),
        ({"rooms": _link("/a/outputs/rooms")}, "/rooms"),
        ({"rooms": [{"name": "x", "power": _link("/a/outputs/net")}]}, "/rooms/0/power"),
        ({"temperature": _link("/a/outputs/power")}, "/temperature"),
        ({"factor": _link("/a/outputs/power")}, "/factor"),
        ({"heat": _link("/a/outputs/power")}, "/heat"),
        ({"heat": _link("/a/outputs/plain_net")}, "/heat"),
        ({"net": _link("/a/inputs/heat")}, "/net"),
    ],
)
def test_links_of_another_kind(inputs: dict[str, Any], where: str, host: Host) -> None:
    body = _refused(_linked(**inputs), host)
    assert (body["code"], body["pointer"]) == ("link-kind", f"/calculations/b/inputs{where}")


@pytest.mark.parametrize(
    "source",
    [
        *("/c/outputs/power", "/A/outputs/power", "/outputs/power", "/heater/outputs/power"),
        *("/a", "/a/", "/a/outputs", "/a/power", "/a/outputs/", "/a//power", "//a/outputs/power"),
        *("/a/outputs/pwr", "/a/inputs/temperature", "/a/outputs/power/value", "/a/verdict/x"),
        *("/a/findings/limit", "/a/outputs/curve/nothing", "/a/outputs/rooms/hall/nothing"),
        *("/readings", "/readings/", "/readings/none", "/readings/long/value", "/" + "a" * 300),
    ],
)
@pytest.mark.parametrize("summed", [False, True])
def test_links_to_nothing(source: str, summed: bool, host: Host) -> None:
    link = _sum("/a/outputs/power", source) if summed else _link(source)
    body = _refused(_linked(power=link), host)
    assert (body["code"], body["pointer"]) == (
        "link-unresolved",
        "/calculations/b/inputs/power",
    )


@pytest.mark.parametrize(
    "row",
    ["none", "2", "²", "-1", "9" * 300, "Hall", ""],
)
def test_rows_that_are_not_in_the_answer(row: str, host: Host) -> None:
    source = f"/a/outputs/rooms/{row}/power"
    _downstream_only(_run(_linked(power=_link(source)), host), "link-unresolved")


def test_a_value_that_is_none_in_this_case(host: Host) -> None:
    document = _linked(heat=_link("/a/outputs/heat"))
    del document["calculations"]["a"]["inputs"]
    document["calculations"]["a"]["inputs"] = {"power": "1 kW"}
    _downstream_only(_run(document, host), "link-unresolved", "/heat")


def _downstream_only(record: dict[str, Any], code: str, where: str = "/power") -> None:
    """The link's own calculation is refused, at its place, and nothing else is."""
    entry = record["calculations"]["b"]
    assert entry["status"] == "refused"
    assert entry["problem"]["code"] == code
    assert entry["problem"]["pointer"] == f"/calculations/b/inputs{where}"
    assert record["calculations"]["a"]["status"] == "answered"
    assert record["not_computed"] == ["b"]
    assert record["verdict"] == "incomplete"


@pytest.mark.parametrize(
    ("inputs", "code", "pointer"),
    [
        ({"power": _link("/readings/length")}, "unit-wrong-kind", "/inputs/power"),
        ({"power": _link("/readings/plain")}, "unit-missing", "/inputs/power"),
        ({"power": _link("/readings/words")}, "quantity-unreadable", "/inputs/power"),
        ({"power": _link("/readings/net")}, "unit-unknown", "/inputs/power"),
        ({"heat": _link("/readings/long")}, "basis-missing", "/inputs/heat"),
        ({"power": _link("/readings/several")}, "quantity-unreadable", "/inputs/power"),
        ({"powers": _link("/readings/long")}, "list-expected", "/inputs/powers"),
        ({"pumps": _link("/readings/half")}, "whole-number-expected", "/inputs/pumps"),
        ({"pumps": _link("/readings/flag")}, "whole-number-expected", "/inputs/pumps"),
        ({"factor": _link("/readings/long")}, "number-expected", "/inputs/factor"),
        *[
            ({"power": _sum("/readings/long", other)}, "link-kind", "/calculations/b/inputs/power")
            for other in (
                *("/readings/watts", "/readings/length", "/readings/short", "/readings/several"),
                *("/readings/plain", "/readings/words", "/readings/flag"),
            )
        ],
        ({"colour": _link("/a/outputs/power")}, "field-unknown", "/inputs/colour"),
    ],
)
def test_readings_are_read_as_anything_else(
    inputs: dict[str, Any], code: str, pointer: str, host: Host
) -> None:
    entry = _run(_linked(**inputs), host)["calculations"]["b"]
    assert entry["status"] == "refused"
    assert (entry["problem"]["code"], entry["problem"]["pointer"]) == (code, pointer)


@pytest.mark.parametrize(
    ("links", "circle"),
    [
        ({"a": "a"}, {"a"}),
        ({"a": "b", "b": "a"}, {"a", "b"}),
        ({"a": "b", "b": "c", "c": "a", "d": "a"}, {"a", "b", "c"}),
    ],
)
@pytest.mark.parametrize("root", ["outputs", "inputs"])
def test_circles(links: dict[str, str], circle: set[str], root: str, host: Host) -> None:
    job = {name: _user_of(power=_link(f"/{other}/{root}/power")) for name, other in links.items()}
    body = _refused(_job(job), host)
    assert (body["code"], body["pointer"]) == ("link-cycle", "/calculations")
    told = body["detail"].partition(": ")[2].rstrip(".").split(" → ")
    assert set(told) == circle
    assert told[0] == told[-1]


# --- what cannot be computed ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("upstream", "code", "status"),
    [
        ({"calculation": "heater", "inputs": {"power": "950 kW"}}, "too-hot", 422),
        ({"calculation": "heater", "inputs": {"power": 40}}, "unit-missing", 422),
        ({"calculation": "heater", "inputs": {}}, "field-missing", 422),
        ({"calculation": "heater", "inputs": {"power": "1 kW"}, "region": "ZZ"}, None, 422),
        ({"calculation": "heater", "inputs": {"power": "1 kW"}, "date": "1.1.26"}, None, 422),
        ({"calculation": "heater", "inputs": {"power": "1 kW"}, "method": "x"}, None, 422),
        ({"calculation": "no-such", "inputs": {}}, "calculation-unknown", 404),
        ({"calculation": "broken", "inputs": {}}, "plugin-unavailable", 503),
    ],
)
def test_a_refusal_is_carried_downstream(
    upstream: dict[str, Any], code: str | None, status: int, host: Host
) -> None:
    job = {
        "c": _user_of(power=_link("/b/outputs/power")),
        "b": _user_of(power=_link("/a/outputs/power")),
        "a": upstream,
        "alone": _user_of(),
    }
    record = _run(_job(job), host)
    entries = record["calculations"]
    assert entries["a"]["status"] == "refused"
    assert entries["a"]["problem"]["status"] == status
    assert code in {None, entries["a"]["problem"]["code"]}
    assert entries["b"]["status"] == entries["c"]["status"] == "not-computed"
    assert entries["b"]["because"] == ["a is refused"]
    assert entries["c"]["because"] == ["b is not-computed"]
    assert entries["alone"]["verdict"] == "met"
    assert record["not_computed"] == ["c", "b", "a"]
    assert (record["verdict"], record["incomplete"]) == ("incomplete", True)


def test_an_open_value_waits_and_so_does_what_hangs_on_it(host: Host) -> None:
    job = {
        "b": _user_of(power=_link("/a/outputs/power")),
        "a": {
            "calculation": "heater",
            "inputs": {
                "power": {"open": "Which boiler?"},
                "rooms": [{"name": "x", "power": {"open": "How cold?"}}],
            },
        },
    }
    record = _run(_job(job), host)
    places = ["/calculations/a/inputs/power", "/calculations/a/inputs/rooms/0/power"]
    asked = [(item["pointer"], item["question"]) for item in record["open_questions"]]
    assert asked == list(zip(places, ["Which boiler?", "How cold?"], strict=True))
    because = [f"open at {pointer}: {question}" for pointer, question in asked]
    assert record["calculations"]["a"]["status"] == "not-computed"
    assert record["calculations"]["a"]["because"] == because
    assert record["calculations"]["b"]["because"] == ["a is not-computed"]
    assert (record["verdict"], record["incomplete"]) == ("incomplete", True)


def test_a_reading_is_used_asked_for_or_open(host: Host) -> None:
    readings = {name: {"value": "1 kW"} for name in ("used", "summed", "asked", "idle")}
    job = {"b": _user_of(power=_link("/readings/used"))}
    job["c"] = _user_of(power=_sum("/readings/summed"))
    questions = [{"question": "What of it?", "settled_by": "A visit", "readings": ["asked"]}]
    record = _run(_job(job, readings=readings, open_questions=questions), host)
    assert record["open_questions"][0] == questions[0]
    assert [item["readings"] for item in record["open_questions"][1:]] == [["idle"]]
    assert record["readings"] == readings
    assert record["verdict"] == "incomplete"


# --- verdicts -------------------------------------------------------------------------------------

POWERS = {"met": "10 kW", "advisory": "30 kW", "not-met": "60 kW", "dangerous": "90 kW"}


@pytest.mark.parametrize("open_", [False, True])
@pytest.mark.parametrize(
    ("verdicts", "worst"),
    [
        (["met"], "met"),
        (["met", "advisory"], "advisory"),
        (["not-met", "advisory", "met"], "not-met"),
        (["met", "dangerous", "not-met"], "dangerous"),
    ],
)
def test_the_worst_verdict_counts_and_open_is_never_met(
    verdicts: list[str], worst: str, open_: bool, host: Host
) -> None:
    job = {f"e{n}": _user_of(power=POWERS[verdict]) for n, verdict in enumerate(verdicts)}
    more = {"open_questions": [{"question": "And the drain?"}]} if open_ else {}
    record = _run(_job(job, **more), host)
    assert [record["calculations"][f"e{n}"]["verdict"] for n in range(len(job))] == verdicts
    expected = "incomplete" if open_ and worst in {"met", "advisory"} else worst
    assert (record["verdict"], record["incomplete"]) == (expected, open_)
    attention = [item["verdict"] for item in record["attention"]]
    assert attention == sorted(attention, key=["dangerous", "not-met", "advisory"].index)
    assert bool(attention) == (worst != "met")


def test_without_a_finding_there_is_no_verdict(host: Host) -> None:
    record = _run(_job({"a": SOURCE}), host)
    assert (record["verdict"], record["incomplete"]) == (None, False)


# --- the document ---------------------------------------------------------------------------------


def test_order_is_that_of_the_links_and_the_list_that_of_the_document(host: Host) -> None:
    names = "dbca"
    job = {n: _user_of(power=_link(f"/{chr(ord(n) - 1)}/outputs/power")) for n in names[:-1]}
    job["a"] = _user_of()
    record = _run(_job(job), host)
    assert record["listed"] == list(names)
    assert record["order"] == sorted(names)


def test_region_date_and_units_are_shared_unless_an_entry_has_its_own(host: Host) -> None:
    job = {"a": SOURCE, "b": {**SOURCE, "region": "GB", "date": "2026-02-02", "title": "Own"}}
    shared = {"region": "XA", "date": "2026-01-01", "units": "XA"}
    record = _run(_job(job, **shared, notes="Two\nlines"), host)
    told = {
        name: (entry["record"]["region"], entry["record"]["date"])
        for name, entry in record["calculations"].items()
    }
    assert told == {"a": ("XA", "2026-01-01"), "b": ("GB", "2026-02-02")}
    assert record["calculations"]["b"]["title"] == "Own"
    assert record["calculations"]["a"]["record"]["provenance"]["units"] == "XA"
    assert (record["region"], record["date"], record["notes"]) == ("XA", "2026-01-01", "Two\nlines")
    plain = _run(_job({"a": SOURCE}), host)
    assert (plain["region"], plain["date"]) == ("GB", "2026-11-25")


LONG = "x" * 2001
BAD_WORDS = ("", 5, None, [], "a\x1b[2Jb", "a\x00", "\ud800", "a\x9bm", LONG)
BAD_READINGS = (
    *(None, {}, [None], [[1]], "", "a\nb", "\ud800", "x" * 401, math.nan, math.inf, [math.nan]),
    *({"value": 5}, {"unit": "kW"}, {"value": "5", "unit": "kW"}, {"value": True, "unit": "kW"}),
    *({"value": None, "unit": "kW"}, {"value": 5, "unit": []}, {"value": 5, "unit": "\ud800"}),
    *({"value": 5, "unit": "kW", "basis": [1]}, {"value": 5, "unit": "kW", "of": "x"}, 10**40),
    {"value": math.nan, "unit": "kW"},
)


@pytest.mark.parametrize(
    ("document", "pointer"),
    [
        *[(document, "") for document in (None, [], 5, "job", True)],
        ({}, "/schema"),
        *[(_job(schema=x), "/schema") for x in (None, "job/2", 1, [])],
        *[(_job(title=x), "/title") for x in (*BAD_WORDS, "x" * 201)],
        *[(_job(notes=x), "/notes") for x in BAD_WORDS],
        *[(_job(region=x), "/region") for x in BAD_WORDS],
        *[(_job(date=x), "/date") for x in (*BAD_WORDS, 20261101)],
        *[(_job(units=x), "/units") for x in BAD_WORDS],
        (_job(colour="red"), "/colour"),
        ({**_job(), "a/b~": 1}, "/a~1b~0"),
        *[({**_job(), "calculations": x}, "/calculations") for x in (None, [], 5, {})],
        (_job({f"e{n}": SOURCE for n in range(201)}), "/calculations"),
        *[
            (_job({name: SOURCE}), f"/calculations/{name}")
            for name in ("readings", "", "a b", "é", "²", "a.b", "-", "_")
        ],
        (_job({"a/b": SOURCE}), "/calculations/a~1b"),
        *[(_job({"a": x}), "/calculations/a") for x in (None, [], "heater")],
        *[
            (_job({"a": {**SOURCE, "calculation": x}}), "/calculations/a/calculation")
            for x in BAD_WORDS
        ],
        (_job({"a": {"inputs": {}}}), "/calculations/a/calculation"),
        (_job({"a": {"calculation": "heater"}}), "/calculations/a/inputs"),
        *[(_job({"a": {**SOURCE, "inputs": x}}), "/calculations/a/inputs") for x in (None, [], 1)],
        *[
            (_job({"a": {**SOURCE, member: x}}), f"/calculations/a/{member}")
            for member in ("title", "method", "region", "date", "units")
            for x in (None, 5, "", LONG)
        ],
        (_job({"a": {**SOURCE, "verdict": "met"}}), "/calculations/a/verdict"),
        *[
            (_job({"a": _user_of(power=x)}), "/calculations/a/inputs/power")
            for x in (
                *({"from": y} for y in (None, 5, "", "/", "b", [], {}, "a/outputs/power")),
                {"from": "/" + "a" * 400},
                *({"sum": y} for y in (None, [], {}, "/b", ["/b"], [{}], [{"sum": []}])),
                {"sum": [{"from": 5}]},
                {"sum": [_link("/a/outputs/power")] * 201},
                *({"open": y} for y in BAD_WORDS),
            )
        ],
        *[(_job(readings=x), "/readings") for x in (None, [], 5)],
        *[(_job(readings={"r": x}), "/readings/r") for x in (None, [], 5, "7 kW")],
        (_job(readings={"r": {}}), "/readings/r/value"),
        *[(_job(readings={"r": {"value": x}}), "/readings/r/value") for x in BAD_READINGS],
        *[(_job(readings={"r": {"value": 1, "what": x}}), "/readings/r/what") for x in BAD_WORDS],
        *[(_job(readings={"r": {"value": 1, "taken": x}}), "/readings/r/taken") for x in BAD_WORDS],
        (_job(readings={"r": {"value": 1, "unit": "kW"}}), "/readings/r/unit"),
        *[(_job(readings={n: {"value": 1}}), f"/readings/{n}") for n in ("", "a b", "é", "²")],
        *[(_job(open_questions=x), "/open_questions") for x in (None, {}, "why", 5)],
        *[(_job(open_questions=[x]), "/open_questions/0") for x in (None, "why", [])],
        *[
            (_job(open_questions=[{"question": x}]), "/open_questions/0/question")
            for x in BAD_WORDS
        ],
        (_job(open_questions=[{}]), "/open_questions/0/question"),
        (
            _job(open_questions=[{"question": "why", "settled_by": 5}]),
            "/open_questions/0/settled_by",
        ),
        *[
            (
                _job(open_questions=[{"question": "why", "readings": x}]),
                "/open_questions/0/readings",
            )
            for x in (["none"], "none", [5], [["none"]], None)
        ],
        (_job(open_questions=[{"question": "why", "who": "x"}]), "/open_questions/0/who"),
    ],
)
def test_bad_documents(document: object, pointer: str, host: Host) -> None:
    body = _refused(document, host)
    assert (body["code"], body.get("pointer", "")) == ("job-invalid", pointer)


def test_nesting_ends(host: Host) -> None:
    deep: Any = "x"
    for _ in range(900):
        deep = {"a": [deep]}
    body = _refused(_job({"a": _user_of(power=deep)}), host)
    assert body["code"] == "job-invalid"
    assert body["pointer"].startswith("/calculations/a/inputs/power/a/0/a")
    assert len(body["pointer"]) < 99


def test_two_rows_of_one_name(host: Host) -> None:
    """Which of them a link means could not be said: the calculation is refused, not guessed."""
    twice = {"calculation": "heater", "inputs": {"power": "1 kW", "rooms": [ROOMS[0]] * 2}}
    job = {"a": twice, "b": _user_of(power=_link("/a/outputs/rooms/hall/power"))}
    record = _run(_job(job), host)
    problem = record["calculations"]["a"]["problem"]
    assert (problem["code"], problem["pointer"]) == ("name-duplicate", "/inputs/rooms")
    assert record["calculations"]["b"]["status"] == "not-computed"


# --- the record -----------------------------------------------------------------------------------


def test_one_document_one_fingerprint(host: Host) -> None:
    document = _linked(power=_link("/a/outputs/power"))
    raw, digest = answer_job(document, host, today=TODAY)
    again, same = answer_job(json.loads(json.dumps(document)), host, today=TODAY)
    assert (raw, digest) == (again, same)
    record = json.loads(raw)
    assert record["fingerprint"] == digest == fingerprint(record)
    turned = {name: document[name] for name in reversed(document)}
    assert answer_job(turned, host, today=TODAY)[1] == digest


@pytest.mark.parametrize(
    "change",
    [
        {"title": "Another"},
        {"readings": {**READINGS, "plain": {"value": 8}}},
        {"date": "2026-11-24"},
        {"calculations": {"b": _user_of(power="1.0000000000001 kW"), "a": SOURCE}},
    ],
)
def test_another_document_another_fingerprint(change: dict[str, Any], host: Host) -> None:
    document = _linked()
    digests = {answer_job(d, host, today=TODAY)[1] for d in (document, {**document, **change})}
    assert len(digests) == 2


def test_a_reading_beyond_64_bits_is_recorded(host: Host) -> None:
    record = _run(_job(readings={"r": {"value": 10**25}}), host)
    assert record["readings"] == {"r": {"value": 1e25}}
    assert record["fingerprint"] == fingerprint(record)


def test_parts_reach_every_record(host: Host) -> None:
    for parts in (frozenset(), frozenset({"working", "sources"})):
        record = run_job(_job(), host, today=TODAY, parts=parts)
        assert record["calculations"]["b"]["record"].keys() & {"working", "sources"} == parts
