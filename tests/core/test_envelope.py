"""Reading a request: what is refused, by which code and at which place, and what is recorded.

The calculation is a tiny one made here, with one field of every kind; regions and rules are invented.
"""

from __future__ import annotations

import copy
import datetime as dt
import json
import math
import time
from typing import Annotated, Any, Literal

import pytest

from tundish.batch import run_columns
from tundish.calculation import Calculation, Finding, Method
from tundish.canonical import fingerprint
from tundish.contract import (
    Based,
    Choice,
    Column,
    Count,
    Flag,
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
from tundish.problems import RefusedRequest
from tundish.quantities.kinds import KINDS
from tundish.quantities.reading import QuantityError, read_text
from tundish.refusals import Refused
from tundish.rules import Rulebook
from tundish.run import KernelError, Runner

TODAY = dt.date(2026, 11, 25)
HUGE = 10**400
UNWRITABLE = 10**5000
"""More digits than Python turns into text."""


class Part(Item):
    """A row."""

    name: Annotated[str, Name(help="Name.")]
    length: Annotated[float, Quantity("length", "L", "m", low=0.1, high=50, help="Length.")]
    bends: Annotated[int, Count("n", low=0, high=9, default=2, help="Bends.")]


class Group(Item):
    """A group of fields."""

    spare: Annotated[float, Number("s", low=0, high=1, default=0.5, help="Spare.")]


class TinyInputs(Inputs):
    """One field of every kind."""

    power: Annotated[float, Quantity("power", "P", "kW", low=1, high=100, help="Power.")]
    heat: Annotated[
        Based,
        Quantity(
            {"net": "heat_input_net", "gross": "heat_input_gross"},
            "Q",
            "kW",
            low=1,
            high=70,
            help="Heat input.",
        ),
    ]
    pumps: Annotated[int, Count("n", low=0, high=4, help="Pumps.")]
    mode: Annotated[Literal["old", "new"], Choice(help="Mode.")]
    bled: Annotated[bool, Flag(help="Bled.")]
    parts: Annotated[list[Part], Rows(low=1, high=3, help="Parts.")]
    group: Annotated[Group, "a group"]
    temperature: Annotated[
        float,
        Quantity(
            "temperature", "T", "degC", low=5, high=90, default_rule="tiny-start", help="Start."
        ),
    ]
    share: Annotated[float, Number("f", low=0, high=1, default=0.25, help="Share.")]
    flows: Annotated[
        list[Annotated[float, Quantity("volume_flow", "V", "l/min", low=0, help="Flow.")]],
        Rows(low=0, high=2, help="Flows."),
    ] = []  # noqa: RUF012  (a default of a contract is copied)
    words: Annotated[str, Text(help="Words.")] | None = None
    head: Annotated[float, Quantity("head", "H", "m", help="Without a range.")] | None = None
    ratio: Annotated[float, Number("r", help="Without a range.")] | None = None
    things: Annotated[int, Count("n", help="Without a range.")] | None = None


class Curve(Item):
    """A curve."""

    power: Annotated[list[float], Column("power", "P", "kW", help="Power.")]


class TinyOutputs(Outputs):
    """What was read."""

    power: Annotated[float, Quantity("power", "P", "kW", help="Power.")]
    temperature: Annotated[float, Quantity("temperature", "T", "degC", help="Temperature.")]
    heat: Annotated[Based, Quantity({"net": "heat_input_net"}, "Q", "kW", help="Heat input.")]
    count: Annotated[int, Count("n", help="Pumps.")]
    curve: Curve
    extra: Annotated[float, Number("x", help="May be missing.")] | None = None


def _kernel(i: TinyInputs, _c: Any) -> dict[str, Any]:
    require(i.share != 0.75, "share-impossible", "/share", limit=(math.inf, "power", "kW"))
    return {
        "power": i.power,
        "temperature": i.temperature,
        "heat": i.heat,
        "count": i.pumps,
        "curve": {"power": [i.power, i.power / 2]},
        "extra": None,
    }


TINY = Calculation(
    id="tiny",
    version="1.0",
    title="Tiny",
    summary="Tiny.",
    family="invented",
    questions=(),
    inputs=TinyInputs,
    outputs=TinyOutputs,
    kernel=_kernel,
    example={},
    methods=(Method("short", "Short", "Short."), Method("long", "Long", "Long.")),
    method_rule="tiny-method",
    findings=(
        Finding("cool", "Cool", "/outputs/temperature", "at-most", "tiny-hottest"),
        Finding("small", "Small", "/outputs/power", "at-most", "tiny-greatest"),
    ),
    cautions=("tiny-caution",),
    refusals=(Refused("share-impossible", "No share above {limit}", "Lower it below {limit}."),),
)


def _rule(name: str, kind: str, *editions: tuple[str, Any]) -> dict[str, Any]:
    ends = [start for start, _ in editions[1:]] + [None]
    return {
        "name": name,
        "kind": kind,
        "meaning": f"Invented: {name}",
        "editions": [
            {"edition": f"of {start}", "from": start, "until": end, "value": value, "source": "own"}
            for (start, value), end in zip(editions, ends, strict=True)
        ],
    }


def _book() -> Rulebook:
    source = {
        "kind": "derivation",
        "document": "Invented",
        "edition": "1",
        "locator": "-",
        "confirmed": "derived",
    }
    book = Rulebook()
    units = {"kW": "Btu/h", "degC": "degF", "m": "ft"}
    for region, more in (("XA", {}), ("XB", {"units": units}), ("XC", {"based_on": "XB"})):
        book.add_document({"schema": "region/1", "region": region, "title": region, **more}, "t")
    rules = [
        _rule(
            "tiny-start",
            "temperature",
            ("2000-01-01", {"value": 12, "unit": "degC"}),
            ("2026-01-01", {"value": 50, "unit": "degF"}),
        ),
        _rule("tiny-hottest", "temperature", ("2000-01-01", {"value": 60, "unit": "degC"})),
        _rule("tiny-greatest", "power", ("2000-01-01", {"value": 30, "unit": "kW"})),
        _rule("tiny-caution", "caution", ("2000-01-01", "Mind the step.")),
        _rule("tiny-method", "text", ("2000-01-01", "long")),
    ]
    document = {"schema": "rules/1", "region": "XA", "family": "x", "sources": {"own": source}}
    book.add_document({**document, "rules": rules}, "t")
    return book


BOOK = _book()
RUNNER = Runner(TINY)
INPUTS: dict[str, Any] = {
    "power": "20 kW",
    "heat": "18 kW net",
    "pumps": 1,
    "mode": "old",
    "bled": True,
    "parts": [{"name": "hall", "length": "2 m"}],
    "group": {},
}


def _ask(request: object, parts: frozenset[str] = frozenset()) -> dict[str, Any]:
    raw, _ = RUNNER.answer(request, BOOK, today=TODAY, region="XA", parts=parts)
    found: dict[str, Any] = json.loads(raw)
    return found


def _answer(**inputs: Any) -> dict[str, Any]:
    return _ask({"inputs": {**INPUTS, **inputs}})


def _refused(request: object) -> dict[str, Any]:
    with pytest.raises(RefusedRequest) as caught:
        _ask(request)
    body = json.loads(json.dumps(caught.value.as_json(), allow_nan=False))
    assert body["status"] == caught.value.status == RUNNER.problems[body["code"]].status
    assert body["type"] == f"/v1/problems/{body['code']}"
    assert body["title"]
    assert body["detail"]
    assert body["remedy"]
    assert isinstance(body, dict)
    return body


def _is_refused(request: object, code: str, pointer: str) -> None:
    body = _refused(request)
    assert (body["code"], body.get("pointer", ""), "errors" in body) == (code, pointer, False)


def test_the_plain_request_is_answered() -> None:
    assert _answer()["verdict"] == "met"


# --- the members of a request ---------------------------------------------------------------------


@pytest.mark.parametrize("request_", [None, [], [INPUTS], "inputs", 5, True, math.nan])
def test_a_request_is_an_object(request_: object) -> None:
    _is_refused(request_, "object-expected", "")


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"inputs": None}, "inputs-missing", "/inputs"),
        *[({"inputs": x}, "object-expected", "/inputs") for x in ([], "power=20 kW", 5, False)],
        ({"Inputs": {}}, "request-member-unknown", "/Inputs"),
        ({"include": "working"}, "request-member-unknown", "/include"),
        ({"a/b~c": 1}, "request-member-unknown", "/a~1b~0c"),
        *[
            ({"region": x}, "region-unknown", "/region")
            for x in ("ZZ", "xa", "", " XA", 5, True, [], {}, UNWRITABLE, "X" * 99999)
        ],
        *[
            ({"date": x}, "date-invalid", "/date")
            for x in (
                *("2026-13-01", "2026-02-30", "2025-02-29", "0000-01-01", "20261101", "26-11-01"),
                *("2026-W48-3", "2026-1-011", "01.11.2026", "２０２６-11-01", "2026-11-01T00:00"),
                *("", " 2026-11-1", 20261101, True, [], {}, "2" * 99999),
            )
        ],
        *[
            ({"units": x}, "units-unknown", "/units")
            for x in ("ZZ", "kW", "", None, 5, True, ["XB"], {"kW": "W"})
        ],
        *[
            ({"method": x}, "method-unknown", "/method")
            for x in ("no-such", "Long", "", 5, True, ["long"], {}, UNWRITABLE)
        ],
    ],
)
def test_members(members: dict[str, Any], code: str, pointer: str) -> None:
    _is_refused({"inputs": INPUTS, **members}, code, pointer)


def test_no_inputs() -> None:
    _is_refused({}, "inputs-missing", "/inputs")
    _is_refused({"region": "XA"}, "inputs-missing", "/inputs")


# --- every kind of field --------------------------------------------------------------------------


def _each(code: str, *values: object) -> list[tuple[str, object]]:
    return [(code, value) for value in values]


QUANTITY = [
    *_each("unit-missing", 20, 20.5, -1, 0, "20", "20 ", {"value": 20}, UNWRITABLE),
    *_each("unit-missing", math.nan, math.inf),
    *_each("quantity-unreadable", None, True, False, [], ["20 kW"], {}, {"unit": "kW"}),
    *_each("quantity-unreadable", {"value": 20, "unit": "kW", "basis": "net"}),
    *_each("quantity-unreadable", {"value": 20, "unit": "kW", "note": "about"}),
    *_each("quantity-unreadable", "", "kW", "kW 20", " 20 kW", "20  kW", "20 kW\n", "20\nkW"),
    *_each("quantity-unreadable", "NaN kW", "inf kW", "-Infinity kW", ".5 kW", "--5 kW", "２０ kW"),
    *_each(
        "quantity-unreadable",
        "20. kW",
        "20 " + "k" * 99,
        "1" * 16 + " kW",
        "2.0" + "0" * 15 + " kW",
    ),
    *_each("number-expected", *({"value": x, "unit": "kW"} for x in ("20", True, None, [], {}))),
    *_each("unit-wrong-kind", "20 m", "20m", {"value": 20, "unit": "degC"}, "20 kWh"),
    *_each("unit-unknown", "20 KW", "20 kw", "20 furlong", "20 kW kW", "20 kW net", "0x14 kW"),
    *_each("unit-unknown", "1e9999 kW", "20 1e3 W", "20 kW "),
    *_each("unit-unknown", *({"value": 20, "unit": x} for x in (None, 5, [], {}, "", "kW" * 99))),
    *_each("decimal-comma", "18,5 kW", "1,000 kW", "18 ,5 kW", "-18,5 kW"),
    *_each(
        "number-not-finite",
        *({"value": x, "unit": "kW"} for x in (math.nan, math.inf, -math.inf, HUGE, -HUGE, 1e31)),
        "1e999 kW",
        "-1e31 kW",
    ),
    *_each(
        "value-out-of-range", "0.999999 kW", "-20 kW", "100.0001 kW", "0 W", "100001 W", "1e30 W"
    ),
    *_each("value-out-of-range", {"value": 10**20, "unit": "kW"}),
]
BASED = [
    *_each("basis-missing", "18 kW", {"value": 18, "unit": "kW"}, "900 kW"),
    *_each("basis-missing", {"value": 18, "unit": "kW", "basis": None}),
    *_each("basis-unknown", *({"value": 18, "unit": "kW", "basis": x} for x in ("Net", "", 5, []))),
    *_each("unit-missing", 18, "18", "18 net", {"value": 18, "basis": "net"}, UNWRITABLE),
    *_each("unit-unknown", "18 kW lhv", "18 kW net net", "18 kW  net", "18 KW net"),
    *_each("unit-wrong-kind", "18 m net", {"value": 18, "unit": "m", "basis": "net"}),
    *_each("decimal-comma", "18,5 kW net"),
    *_each("number-expected", {"value": True, "unit": "kW", "basis": "net"}),
    *_each("number-not-finite", {"value": math.nan, "unit": "kW", "basis": "gross"}, "1e99 kW net"),
    *_each("value-out-of-range", "70.001 kW net", "0.999 kW gross", "-18 kW net"),
    *_each("quantity-unreadable", None, True, [], {}, {"basis": "net"}, "net"),
]
NUMBER = [
    *_each("number-expected", None, True, False, "0.5", "", [], {}, {"value": 0.5}, [UNWRITABLE]),
    *_each("number-not-finite", math.nan, math.inf, -math.inf, HUGE, -HUGE, 1e31, UNWRITABLE),
    *_each("value-out-of-range", 1.0000001, -1e-9, 2, -1, 10**20),
]
COUNT = [
    *_each("whole-number-expected", None, True, False, "1", "", 1.5, [], {}, math.nan, math.inf),
    *_each("number-not-finite", HUGE, -HUGE, 1e31, UNWRITABLE),
    *_each("value-out-of-range", 5, -1, 5.0, 10**20),
]
CONTROLS = ("a\nb", "a\x00", "\x1b[2J", "\x7f", "a\x9bm", "\u2028", "\ud800", "\t")
FIELDS = {
    "power": QUANTITY,
    "heat": BASED,
    "share": NUMBER,
    "pumps": COUNT,
    "mode": _each("choice-unknown", "Old", "", "old ", None, 0, True, ["old"], {}, UNWRITABLE),
    "bled": _each("flag-expected", None, 0, 1, 1.0, "true", "", [], {}, UNWRITABLE),
    "words": [
        *_each("text-expected", 5, True, ["a"], {"a": 1}),
        *_each("text-invalid", "", "x" * 401, "x" * 999999, *CONTROLS),
    ],
    "head": _each("number-not-finite", "1e31 m", {"value": HUGE, "unit": "m"}, "1e999 m"),
    "parts/0/name": [
        *_each("text-expected", None, 5, True, [], {}),
        *_each("name-invalid", "", "a/b", "a~b", "12", "٣", " a", "a ", "x" * 65, *CONTROLS),
    ],
    "parts/0/length": _each("unit-missing", 2, "2"),
    "parts/0/bends": _each("value-out-of-range", 10),
    "parts/0": _each("object-expected", None, 5, "hall", [], True),
    "parts": [
        *_each("list-expected", None, 5, "hall", {}, {"0": {"name": "hall", "length": "2 m"}}),
        *_each("rows-out-of-range", [], [{"name": str(n), "length": "2 m"} for n in "abcd"]),
        *_each("name-duplicate", [{"name": "hall", "length": "2 m"}] * 2),
    ],
    "flows/0": _each("unit-missing", 3),
    "flows/1": [*_each("unit-wrong-kind", "3 kW"), *_each("quantity-unreadable", None, True)],
    "flows": [
        *_each("rows-out-of-range", ["3 l/min"] * 3),
        *_each("list-expected", "3 l/min", 3, {}, None),
    ],
    "group": _each("object-expected", None, 5, "spare", [], True),
    "group/spare": _each("value-out-of-range", 2),
}
WRONG = [
    pytest.param(field, code, value, id=f"{field}-{code}-{n}")
    for field, cases in FIELDS.items()
    for n, (code, value) in enumerate(cases)
]


def _with(field: str, value: object) -> dict[str, Any]:
    """Return right inputs with a value put at a place."""
    inputs = copy.deepcopy({**INPUTS, "flows": ["3 l/min", "3 l/min"]})
    *parents, last = [int(part) if part.isdigit() else part for part in field.split("/")]
    here: Any = inputs
    for part in parents:
        here = here[part]
    here[last] = value
    return inputs


@pytest.mark.parametrize(("field", "code", "value"), WRONG)
def test_wrong_values(field: str, code: str, value: object) -> None:
    _is_refused({"inputs": _with(field, value)}, code, f"/inputs/{field}")


@pytest.mark.parametrize(
    ("field", "value", "outputs"),
    [
        *[("power", x, ("power", 1.0)) for x in ("1 kW", "1000 W", "1.0e3 W", "+1kW", "1\u00a0kW")],
        ("power", {"value": 1, "unit": "kW"}, ("power", 1.0)),
        ("power", {"value": 100.0, "unit": "kW"}, ("power", 100.0)),
        ("power", "100000 W", ("power", 100.0)),
        ("temperature", "41 degF", ("temperature", 5.0)),
        ("temperature", "278.15 K", ("temperature", 5.0)),
        ("temperature", {"value": 90, "unit": "°C"}, ("temperature", 90.0)),
        ("pumps", 1.0, ("count", 1)),
        ("pumps", 4, ("count", 4)),
        ("pumps", 0, ("count", 0)),
    ],
)
def test_right_values_up_to_the_bounds(
    field: str, value: object, outputs: tuple[str, float]
) -> None:
    """Bounds belong to the range, in whatever unit; a whole number may be written 1.0."""
    found = _answer(**{field: value})["outputs"][outputs[0]]
    assert (found if isinstance(found, int) else found["value"]) == pytest.approx(outputs[1], 1e-12)


def test_no_figure_of_a_number_is_read_as_part_of_its_unit() -> None:
    for text in ("0.1234567890123451/h", "1" * 16 + "/h"):
        with pytest.raises(QuantityError) as caught:
            read_text(text, KINDS["frequency"])
        assert caught.value.code == "quantity-unreadable"


def test_a_number_far_beyond_64_bits_is_answered_where_no_range_forbids_it() -> None:
    record = _answer(head={"value": 10**20 + 1, "unit": "m"}, ratio=-(10**25), things=10**22)
    assert record["inputs"]["understood"]["things"] == 10**22
    assert record["fingerprint"] == fingerprint(record)


@pytest.mark.parametrize("basis", ["net", "gross"])
@pytest.mark.parametrize("short", [True, False])
def test_the_basis_is_kept(basis: str, short: bool) -> None:
    given = f"18 kW {basis}" if short else {"value": 18, "unit": "kW", "basis": basis}
    assert _answer(heat=given)["outputs"]["heat"] == {"value": 18, "unit": "kW", "basis": basis}


# --- members of objects ---------------------------------------------------------------------------


@pytest.mark.parametrize("field", [name for name in INPUTS if name != "group"])
def test_missing(field: str) -> None:
    inputs = {name: value for name, value in INPUTS.items() if name != field}
    _is_refused({"inputs": inputs}, "field-missing", f"/inputs/{field}")


def test_missing_further_in() -> None:
    without = {name: value for name, value in INPUTS.items() if name != "group"}
    _is_refused({"inputs": without}, "field-missing", "/inputs/group")
    _is_refused(
        {"inputs": _with("parts/0", {"name": "a"})}, "field-missing", "/inputs/parts/0/length"
    )


@pytest.mark.parametrize("name", ["Power", "powr", "", "a/b~c", "é", "0", "x" * 9999, "__class__"])
@pytest.mark.parametrize("where", ["", "group", "parts/0"])
def test_unknown(name: str, where: str) -> None:
    right = {"": INPUTS, "group": {}, "parts/0": INPUTS["parts"][0]}[where]
    wrong = {**right, name: 1}
    pointer = "/".join(["/inputs", *([where] if where else [])])
    pointer += "/" + name.replace("~", "~0").replace("/", "~1")
    body = _refused({"inputs": _with(where, wrong) if where else wrong})
    assert (body["code"], body["pointer"]) == ("field-unknown", pointer)
    assert set(right) <= set(body["facts"]["accepted"])


def test_every_error_is_listed() -> None:
    wrong = {"power": 5, "parts": [{"name": "a/b", "length": "1 s"}], "colour": "red"}
    inputs = {name: value for name, value in {**INPUTS, **wrong}.items() if name != "bled"}
    body = _refused({"inputs": inputs})
    found = [(error["code"], error["pointer"]) for error in body["errors"]]
    assert sorted(found) == [
        ("field-missing", "/inputs/bled"),
        ("field-unknown", "/inputs/colour"),
        ("name-invalid", "/inputs/parts/0/name"),
        ("unit-missing", "/inputs/power"),
        ("unit-wrong-kind", "/inputs/parts/0/length"),
    ]
    assert (body["code"], body["pointer"]) == found[0]
    assert all(error["detail"] and error["remedy"] for error in body["errors"])


def test_a_refusal_of_the_kernel_has_its_place_and_its_facts() -> None:
    body = _refused({"inputs": {**INPUTS, "share": 0.75}})
    assert (body["code"], body["pointer"]) == ("share-impossible", "/inputs/share")
    assert body["title"] == "No share above inf kW"
    assert body["facts"] == {"limit": {"value": "inf", "unit": "kW"}}


# --- hostile texts --------------------------------------------------------------------------------

LONG = 400_000
HOSTILE = {
    "digits": "9" * LONG,
    "digits and unit": "9" * LONG + " kW",
    "fraction": "1." + "0" * LONG + " kW",
    "exponent": "1e" + "9" * LONG + " kW",
    "blanks": "18" + " " * LONG + "kW",
    "signs": "+-" * LONG,
    "brackets": "(" * LONG + "W" + ")" * LONG,
    "tower": "9" + "**9" * LONG + " kW",
    "slashes": "18 kW" + "/W" * LONG,
    "commas": "1" + ",000" * LONG + " kW",
    "marks": "18 k" + "\u0301" * LONG + "W",
    "short tower": "9**9**9 kW",
    "short power": "18 W**999999999",
    "code": "18 __import__('os').getcwd()",
    "braces": "{detail.__class__} %s %n kW",
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_texts_are_refused_at_once_and_not_echoed(text: str) -> None:
    forms = [text, {"value": 18, "unit": text}, {"value": text, "unit": "kW"}, {text: 1}]
    forms += [{"value": 18, "unit": "kW", "basis": text}, f"18 kW {text}"]
    start = time.process_time()
    for field in ("power", "heat", "share", "mode", "words", "parts/0/name"):
        for given in forms if field in {"power", "heat"} else [text + "\n" + "x" * LONG, {text: 1}]:
            body = _refused({"inputs": _with(field, given)})
            assert body["pointer"] == f"/inputs/{field}"
            assert len(json.dumps(body)) < 3000
    assert time.process_time() - start < 1.0  # a few hundredths, and linear


def test_many_errors_are_told_in_bounds() -> None:
    body = _refused({"inputs": {**INPUTS, **{f"x{n}": n for n in range(5000)}}})
    assert len(body["errors"]) == 50


# --- what is recorded -----------------------------------------------------------------------------


def test_defaults_say_where_they_come_from() -> None:
    record = _answer()
    assert record["inputs"]["defaulted"] == {
        "/temperature": "tiny-start",
        "/share": "contract",
        "/flows": "contract",
        "/group/spare": "contract",
        "/parts/0/bends": "contract",
    }
    understood = record["inputs"]["understood"]
    assert understood["share"] == 0.25
    assert understood["flows"] == []
    assert understood["group"] == {"spare": 0.5}
    assert understood["parts"][0]["bends"] == 2
    assert understood["words"] is None
    assert "tiny-start" in {rule["rule"] for rule in record["provenance"]["rules"]}


def test_what_is_given_is_no_default() -> None:
    inputs = _with("parts/0", {"name": "hall", "length": "2 m", "bends": 2})
    inputs |= {"temperature": "12 degC", "share": 0.25, "group": {"spare": 0.5}, "flows": []}
    assert _ask({"inputs": inputs})["inputs"]["defaulted"] == {}


@pytest.mark.parametrize(
    ("date", "edition", "kelvin"),
    [
        ("2000-01-01", "of 2000-01-01", 12.0),
        ("2025-12-31", "of 2000-01-01", 12.0),
        ("2026-01-01", "of 2026-01-01", 10.0),
    ],
)
def test_a_default_of_a_rule_is_that_of_the_date(date: str, edition: str, kelvin: float) -> None:
    record = _ask({"inputs": INPUTS, "date": date})
    assert record["outputs"]["temperature"]["value"] == pytest.approx(kelvin, rel=1e-12)
    used = {rule["rule"]: rule["edition"] for rule in record["provenance"]["rules"]}
    assert used["tiny-start"] == edition


@pytest.mark.parametrize(
    ("members", "code", "pointer"),
    [
        ({"date": "1999-12-31", "method": "short"}, "rule-missing", "/region"),
        ({"region": "XB", "method": "short"}, "rule-missing", "/region"),
    ],
)
def test_no_rule_for_a_default(members: dict[str, Any], code: str, pointer: str) -> None:
    """Alone it is refused; in a column, that row alone is refused."""
    request = {"inputs": INPUTS, **members}
    _is_refused(request, code, pointer)
    right = {"inputs": INPUTS, "region": "XA"}
    columns = run_columns(RUNNER, [right, {"region": "XA", **request}, right], BOOK, today=TODAY)
    assert columns.codes() == [None, (code, pointer), None]
    assert columns.outputs()[1] is None
    assert columns.outputs()[0] == columns.outputs()[2]


def test_what_was_given_is_echoed_and_left_alone() -> None:
    request = {"inputs": copy.deepcopy(INPUTS), "date": "2026-06-01"}
    before = json.dumps(request)
    record = _ask(request)
    assert json.dumps(request) == before
    assert record["inputs"]["given"] == INPUTS
    assert record["inputs"]["understood"]["power"] == {"value": 20, "unit": "kW"}
    assert record["date"] == "2026-06-01"


@pytest.mark.parametrize(
    ("members", "set_by_host"),
    [
        ({}, ["region", "date"]),
        ({"region": None, "date": None}, ["region", "date"]),
        ({"region": "XA"}, ["date"]),
        ({"date": "2026-11-25"}, ["region"]),
        ({"region": "XA", "date": "2026-11-25"}, []),
    ],
)
def test_the_host_says_what_it_set(members: dict[str, Any], set_by_host: list[str]) -> None:
    record = _ask({"inputs": INPUTS, **members})
    assert (record["region"], record["date"]) == ("XA", "2026-11-25")
    assert record["provenance"]["set_by_host"] == set_by_host


@pytest.mark.parametrize(
    ("members", "method"),
    [({}, "long"), ({"method": None}, "long"), ({"method": "short"}, "short")],
)
def test_the_method_is_the_one_asked_for_or_the_regions(
    members: dict[str, Any], method: str
) -> None:
    assert _ask({"inputs": INPUTS, **members})["method"] == method


@pytest.mark.parametrize("profile", ["XB", "XC"])
def test_units_of_another_region(profile: str) -> None:
    """Every value, limit and margin in the other units; rules, verdicts and defaults stay."""
    plain, other = _answer(), _ask({"inputs": INPUTS, "units": profile})
    assert other["region"] == "XA"
    assert other["provenance"]["units"] == profile
    assert other["inputs"]["given"] == plain["inputs"]["given"]
    for name in ("verdict", "cautions"):
        assert other[name] == plain[name]
    btu_h = 1055.05585262 / 3600
    shown = {
        "outputs": (other["outputs"]["power"], 20e3 / btu_h, "Btu/h"),
        "temperature": (other["outputs"]["temperature"], 50, "degF"),
        "understood": (other["inputs"]["understood"]["power"], 20e3 / btu_h, "Btu/h"),
        "row": (other["inputs"]["understood"]["parts"][0]["length"], 2 / 0.3048, "ft"),
        "limit": (other["findings"]["cool"]["items"][0]["limit"], 140, "degF"),
        "margin": (other["findings"]["cool"]["items"][0]["margin"], 90, "degF_diff"),
        "power": (other["findings"]["small"]["items"][0]["margin"], 10e3 / btu_h, "Btu/h"),
    }
    for name, (found, value, unit) in shown.items():
        assert (found["value"], found["unit"]) == (pytest.approx(value, rel=1e-12), unit), name
    curve = other["outputs"]["curve"]["power"]
    assert curve == {"values": pytest.approx([20e3 / btu_h, 10e3 / btu_h]), "unit": "Btu/h"}


@pytest.mark.parametrize(
    "parts", [(), ("working",), ("sources",), ("charts",), ("working", "sources", "charts")]
)
def test_parts_come_as_asked_and_change_nothing_else(parts: tuple[str, ...]) -> None:
    brief = _ask({"inputs": INPUTS})
    record = _ask({"inputs": INPUTS}, frozenset(parts))
    assert record.keys() - brief.keys() == set(parts)
    assert {**{name: record[name] for name in brief}, "fingerprint": ""} == {
        **brief,
        "fingerprint": "",
    }
    assert record["fingerprint"] == fingerprint(record)


# --- answers that are none ------------------------------------------------------------------------


@pytest.mark.parametrize(
    "change",
    [
        {"power": math.nan},
        {"power": math.inf},
        {"power": None},
        {"extra": 1j},
        {"heat": Based(math.nan, "net")},
        {"curve": {"power": [1.0, -math.inf]}},
        {"curve": {}},
        {"curve": None},
        {"surprise": 1.0},
    ],
)
def test_a_kernel_that_gives_no_answer_is_a_fault(
    change: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(i: Any, c: Any) -> dict[str, Any]:
        return {**_kernel(i, c), **change}

    monkeypatch.setitem(TINY.__dict__, "kernel", broken)
    with pytest.raises(KernelError):
        _answer()


def test_an_output_that_is_left_out_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(TINY.__dict__, "kernel", lambda i, _: {"power": i.power})
    with pytest.raises(KernelError):
        _answer()
