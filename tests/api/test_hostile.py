"""Errors of the framework and hostile bodies: a problem document each, in bounded time."""

from __future__ import annotations

import asyncio
import json
import time
from copy import deepcopy
from typing import Any

import pytest

from tundish_api.app import create_app
from tundish_api.bodies import LARGEST
from tundish_api.strict import BodyError, parse

JSON = {"content-type": "application/json"}
LONGEST_SECONDS = 2.0
"""Far above what any of these takes (milliseconds), far below what an attack needs."""


def _post(
    client: Any, content: bytes, calculation: str = "hot-water-recovery", **headers: str
) -> Any:
    start = time.process_time()  # of this process: what else the machine does is not in it
    answer = client.post(
        f"/v1/calculations/{calculation}", content=content, headers={**JSON, **headers}
    )
    assert time.process_time() - start < LONGEST_SECONDS
    return answer


@pytest.mark.parametrize(
    "path",
    ["/nothing", "/v1", "/v1/calculations/", "/v1/calculations/a/b/c", "/docs", "/redoc", "/%00"],
)
def test_unknown_path(client: Any, is_problem: Any, path: str) -> None:
    is_problem(client.get(path), "path-unknown")


@pytest.mark.parametrize(
    ("method", "path", "allowed"),
    [
        ("DELETE", "/v1/calculations", "GET, HEAD"),
        ("PUT", "/v1/calculations/hot-water-recovery", "GET, HEAD, POST"),
        ("OPTIONS", "/v1/calculations/hot-water-recovery", "GET, HEAD, POST"),
        ("GET", "/v1/jobs", "POST"),
        ("POST", "/v1/rules", "GET, HEAD"),
        ("TRACE", "/", "GET, HEAD"),
        ("PATCH", "/health/live", "GET, HEAD"),
    ],
)
def test_wrong_method_names_the_right_ones(
    client: Any, is_problem: Any, method: str, path: str, allowed: str
) -> None:
    answer = client.request(method, path)
    is_problem(answer, "method-not-allowed")
    assert answer.headers["allow"] == allowed


@pytest.mark.parametrize("path", ["/v1/calculations/no-such", "/v1/calculations/no-such/schema"])
def test_unknown_calculation(client: Any, is_problem: Any, path: str) -> None:
    is_problem(client.get(path), "calculation-unknown")
    if not path.endswith("schema"):
        is_problem(client.post(path, json={"inputs": {}}), "calculation-unknown")


@pytest.mark.parametrize(
    "kind",
    [
        "",
        "text/plain",
        "application/x-www-form-urlencoded",
        "application/jsonx",
        "multipart/form-data",
    ],
)
@pytest.mark.parametrize("path", ["/v1/calculations/hot-water-recovery", "/v1/jobs"])
def test_media_type(client: Any, is_problem: Any, kind: str, path: str) -> None:
    headers = {"content-type": kind} if kind else {}
    is_problem(client.post(path, content=b"{}", headers=headers), "media-type-unsupported")


BODIES = {
    "nothing": (b"", "body-not-json"),
    "words": (b"hello", "body-not-json"),
    "half": (b'{"inputs": {', "body-not-json"),
    "two": (b"{}{}", "body-not-json"),
    "trailing comma": (b'{"inputs": {},}', "body-not-json"),
    "comment": (b"{} // x", "body-not-json"),
    "invalid UTF-8": (b'{"inputs": "\xff\xfe"}', "body-not-json"),
    "UTF-16": ('{"inputs": {}}'.encode("utf-16"), "body-not-json"),
    "byte order mark": (b'\xef\xbb\xbf{"inputs": {}}', "body-not-json"),
    "lone surrogate": (b'{"inputs": {"a": "\\ud800"}}', "body-not-json"),
    "lone surrogate as a key": (b'{"inputs": {"\\udfff": 1}}', "body-not-json"),
    "control character": (b'{"inputs": "a\x01b"}', "body-not-json"),
    "leading zero": (b'{"inputs": 007}', "body-not-json"),
    "NaN": (b'{"inputs": {"a": NaN}}', "number-not-finite"),
    "Infinity": (b'{"inputs": {"a": Infinity}}', "number-not-finite"),
    "minus Infinity": (b'{"inputs": {"a": -Infinity}}', "number-not-finite"),
    "exponent": (b'{"inputs": {"a": 1e999}}', "number-not-finite"),
    "capital exponent": (b'{"inputs": {"a": -1E999}}', "number-not-finite"),
    "long exponent": (b'{"inputs": {"a": 1e' + b"9" * 5000 + b"}}", "number-not-finite"),
    "many digits": (b'{"inputs": {"a": ' + b"9" * 900_000 + b"}}", "number-not-finite"),
    "many digits before a point": (
        b'{"inputs": {"a": ' + b"9" * 900_000 + b".5}}",
        "number-not-finite",
    ),
    "same key twice": (b'{"inputs": {}, "inputs": {}}', "duplicate-key"),
    "same key twice inside": (b'{"inputs": {"a": {"b": 1, "b": 2}}}', "duplicate-key"),
    "same key, escaped": (b'{"inputs": {"a": 1, "\\u0061": 2}}', "duplicate-key"),
    "25 deep": (b'{"inputs":' * 25 + b"1" + b"}" * 25, "body-too-deep"),
    "lists 100000 deep": (b"[" * 100_000, "body-too-deep"),
    "lists 400000 deep, closed": (b"[" * 400_000 + b"]" * 400_000, "body-too-deep"),
    "objects 100000 deep": (b'{"a":' * 100_000 + b"1" + b"}" * 100_000, "body-too-deep"),
    "null": (b"null", "object-expected"),
    "list": (b"[]", "object-expected"),
    "number": (b"1", "object-expected"),
    "empty": (b"{}", "inputs-missing"),
}


@pytest.mark.parametrize("name", list(BODIES))
def test_hostile_bodies(client: Any, is_problem: Any, name: str) -> None:
    body, code = BODIES[name]
    is_problem(_post(client, body), code)


@pytest.mark.parametrize("name", [name for name, (_, c) in BODIES.items() if not c.endswith("g")])
def test_hostile_jobs(client: Any, is_problem: Any, name: str) -> None:
    body, code = BODIES[name]
    if code in {"object-expected", "inputs-missing"}:
        code = "job-invalid"
    is_problem(client.post("/v1/jobs", content=body, headers=JSON), code)


def test_a_body_of_the_limit_is_read_and_one_more_is_not(client: Any, is_problem: Any) -> None:
    at_limit = b'{"inputs": {}}' + b" " * (LARGEST - 14)
    assert _post(client, at_limit).json()["code"] == "field-missing"
    is_problem(_post(client, at_limit + b" "), "body-too-large")
    is_problem(client.post("/v1/jobs", content=at_limit + b" ", headers=JSON), "body-too-large")


def test_a_body_sent_in_pieces_stops_at_the_limit(host: Any) -> None:
    """No Content-Length to believe: an endless body is cut off, not kept."""
    app, sent, taken = create_app(host), [], 0

    async def receive() -> dict[str, Any]:
        nonlocal taken
        taken += 1
        assert taken < 40, "goes on reading past the limit"
        return {"type": "http.request", "body": b" " * 65536, "more_body": True}

    async def send(message: dict[str, Any]) -> None:
        sent.append(message)

    scope = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": "POST",
        "scheme": "http",
        "path": "/v1/calculations/hot-water-recovery",
        "raw_path": b"/v1/calculations/hot-water-recovery",
        "root_path": "",
        "query_string": b"",
        "headers": [(b"content-type", b"application/json")],
        "client": ("test", 1),
        "server": ("test", 80),
    }
    asyncio.run(app(scope, receive, send))
    assert sent[0]["status"] == 413
    assert json.loads(sent[1]["body"])["code"] == "body-too-large"


UNITS = {
    "tower of powers": "9**9**9 kW",
    "long": "k" * 900_000,
    "digits": "9" * 900_000 + " kW",
    "brackets": "(" * 400_000 + "W",
    "blanks": "18" + " " * 900_000 + "kW",
    "signs": "-" * 900_000,
    "exponents": "1e999 kW",
    "code": "__import__('os') kW",
    "marks": "18 k\u0301W",
    "wide digits": "１８ kW",
    "comma": "18,5 kW",
    "twice": "18 kW kW",
    "bare": "18",
    "empty": "",
}


def _quantity(given: Any) -> tuple[str | int, ...] | None:
    """Find the path of the first quantity in some inputs."""
    if isinstance(given, dict) and set(given) == {"value", "unit"}:
        return ()
    members = given.items() if isinstance(given, dict) else enumerate(given)
    for key, member in members if isinstance(given, dict | list) else ():
        found = _quantity(member) if isinstance(member, dict | list) else None
        if found is not None:
            return (key, *found)
    return None


@pytest.mark.parametrize("name", list(UNITS))
def test_hostile_units(client: Any, calculation: str, examples: dict[str, Any], name: str) -> None:
    path = _quantity(examples[calculation]["inputs"])
    if path is None:
        pytest.skip("the example has no quantity")
    text = UNITS[name]
    shapes = (text, {"value": 18, "unit": text}, {"value": text, "unit": "kW"})
    for given in shapes:
        inputs = deepcopy(examples[calculation]["inputs"])
        holder = inputs
        for key in path[:-1]:
            holder = holder[key]
        holder[path[-1]] = given
        answer = _post(client, json.dumps({"inputs": inputs}).encode(), calculation)
        body = answer.json()
        # Too large a number is one code, 400, whether JSON or a text holds it.
        assert answer.status_code == (400 if body["code"] == "number-not-finite" else 422), body
        pointers = {body.get("pointer"), *(e["pointer"] for e in body.get("errors", ()))}
        assert any((p or "").startswith(f"/inputs/{path[0]}") for p in pointers), body
        assert len(answer.content) < 20_000, "echoes what was sent"


def test_many_wrong_members_are_told_in_bounds(client: Any, calculation: str) -> None:
    inputs = {f"x{index}": index for index in range(40_000)}
    answer = _post(client, json.dumps({"inputs": inputs}).encode(), calculation)
    assert answer.status_code == 422
    assert len(answer.content) < 100_000


def test_parse_takes_what_is_plain() -> None:
    assert parse('{"Δθ": [1, -2.5, 1e3, true, null, "\\u00e9 \\ud83d\\ude00"]}'.encode()) == {
        "Δθ": [1, -2.5, 1000.0, True, None, "é 😀"]
    }
    assert parse(b"[" * 24 + b"]" * 24)
    with pytest.raises(BodyError):
        parse(b"[" * 25 + b"]" * 25)


def test_a_fault_of_ours_shows_no_inside(
    client: Any, host: Any, examples: dict[str, Any], is_problem: Any, monkeypatch: Any
) -> None:
    name = "hot-water-recovery"

    def broken(*_: Any, **__: Any) -> Any:
        message = "secret inside"
        raise RuntimeError(message)

    monkeypatch.setattr(host.runner(name), "run", broken)
    answer = client.post(f"/v1/calculations/{name}", json=examples[name])
    is_problem(answer, "calculation-failed")
    assert "secret" not in answer.text


def test_a_broken_read_shows_no_inside(
    client: Any, host: Any, is_problem: Any, monkeypatch: Any
) -> None:
    def broken() -> Any:
        message = "secret inside"
        raise RuntimeError(message)

    monkeypatch.setattr(host, "load_all", broken)
    answer = client.get("/health/ready")
    is_problem(answer, "calculation-failed")
    assert "secret" not in answer.text
