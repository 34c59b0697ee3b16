"""A callable, a service and a program, each with its ways of going wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

import json
import re
import sys
import threading
import time
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

import tundish_reference_cases
from tundish_reference_cases.targets import (
    CallableTarget,
    HttpTarget,
    ProcessTarget,
    TargetError,
    translate,
)

REQUEST = {
    "inputs": {"volume": {"value": 10, "unit": "l"}, "count": 1},
    "region": "INT",
    "date": "2026-11-01",
}


# --- a callable -------------------------------------------------------------------------------


@pytest.fixture
def tool(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    def make(body: Any) -> Any:
        name = f"tool_{time.monotonic_ns()}"
        (tmp_path / f"{name}.py").write_text(f"def answer(calculation, request):\n    {body}\n")
        monkeypatch.syspath_prepend(tmp_path)
        return CallableTarget(f"{name}:answer")

    return make


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        ("return 200, {}", "value"),
        ("return 422, {'code': 'x', 'pointer': '/inputs'}", "refused"),
        ("return 404, {'detail': 'none such'}", "not-supported"),
        ("return 503, {'detail': 'plugin'}", "not-supported"),
        ("return 500, {}", "errored"),
        ("return 429, {}", "errored"),
        ("return 200, []", "errored"),
        ("raise ValueError('no')", "errored"),
        ("return None", "errored"),
    ],
)
def test_callable(tool: Any, body: Any, kind: str) -> None:
    assert tool(body).ask("c", "tank-mass", REQUEST).kind == kind


@pytest.mark.parametrize("name", ["no_such_module:answer", "json:no_such_name", "json"])
def test_callable_that_is_not_there(name: str) -> None:
    with pytest.raises(TargetError):
        CallableTarget(name)


# --- a service --------------------------------------------------------------------------------


@contextmanager
def _service(answer: Any) -> Iterator[Any]:
    seen = []

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = json.loads(self.rfile.read(int(self.headers["Content-Length"])))
            seen.append((self.path, body))
            status, text = answer(self.path, body)
            if status is None:
                self.close_connection = True
                return
            self.send_response(status)
            self.send_header("Content-Length", str(len(text)))
            self.end_headers()
            self.wfile.write(text)

        def log_message(self, *_: Any) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02})
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}", seen
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


@pytest.mark.parametrize(
    ("status", "text", "kind"),
    [
        (200, b'{"outputs": {}}', "value"),
        (422, b'{"code": "x", "pointer": "/inputs"}', "refused"),
        (400, b'{"code": "x"}', "refused"),
        (404, b'{"detail": "none such"}', "not-supported"),
        (401, b"{}", "errored"),
        (429, b"{}", "errored"),
        (500, b"{}", "errored"),
        (200, b"<html>", "errored"),
        (200, b"[]", "errored"),
        (None, b"", "errored"),
    ],
)
def test_service(status: Any, text: bytes, kind: str) -> None:
    with _service(lambda *_: (status, text)) as (base, seen):
        answer = HttpTarget(base + "/").ask("tank-0", "tank-mass", REQUEST)
    assert answer.kind == kind
    assert seen == [("/v1/calculations/tank-mass", REQUEST)], "only the request is sent"


def test_service_that_is_slow() -> None:
    def slow(*_: Any) -> Any:
        time.sleep(0.5)
        return 200, b"{}"

    with _service(slow) as (base, _):
        assert HttpTarget(base, seconds=0.1).ask("c", "tank-mass", REQUEST).kind == "timed-out"


def test_service_that_is_not_there() -> None:
    with _service(lambda *_: (200, b"{}")) as (base, _):
        pass
    assert HttpTarget(base, seconds=2).ask("c", "tank-mass", REQUEST).kind == "errored"
    with pytest.raises(TargetError):
        HttpTarget("file:///etc")


def test_service_of_another_shape() -> None:
    mapping = {
        "paths": {"tank-mass": "/tank"},
        "inputs": {"/inputs/volume": "/litres"},
        "outputs": {"/outputs/mass": "/result/kilos"},
    }
    text = b'{"result": {"kilos": {"value": 10, "unit": "kg"}}}'
    with _service(lambda *_: (200, text)) as (base, seen):
        answer = HttpTarget(base, mapping).ask("c", "tank-mass", REQUEST)
    assert answer.body["outputs"]["mass"] == {"value": 10, "unit": "kg"}
    path, body = seen[0]
    assert path == "/tank"
    assert body["litres"] == {"value": 10, "unit": "l"}
    assert "volume" not in body["inputs"]
    assert "volume" in REQUEST["inputs"], "the case itself is not touched"


def test_translate_leaves_what_is_not_there() -> None:
    assert translate({"a": 1}, {"/b": "/c", "/a/x": "/d"}) == {"a": 1}


# --- a program --------------------------------------------------------------------------------

HEAD = """
import json, sys, time
def say(**told):
    print(json.dumps(told), flush=True)
for line in sys.stdin:
    m = json.loads(line)
    if m["do"] == "start":
        say(protocol=1, name="toy", version="2"{more})
    elif m["do"] == "stop":
        break
    else:
        {body}
"""


@pytest.fixture
def program(tmp_path: Path) -> Iterator[Any]:
    targets = []

    def make(body: Any, more: Any = "", seconds: Any = 5.0) -> Any:
        path = tmp_path / f"tool{len(targets)}.py"
        path.write_text(HEAD.format(body=body, more=more))
        targets.append(ProcessTarget(f"{sys.executable} {path}", seconds))
        return targets[-1]

    yield make
    for target in targets:
        target.close()


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        ("say(case=m['case'], answer='value', body={'outputs': {}})", "value"),
        ("say(case=m['case'], answer='refused', body={'code': 'x', 'pointer': '/i'})", "refused"),
        ("say(case=m['case'], answer='skipped', reason='not yet')", "skipped"),
        ("say(case=m['case'], answer='not-supported')", "not-supported"),
        ("say(case=m['case'], answer='errored', reason='oh')", "errored"),
        ("say(case=m['case'], answer='perhaps')", "errored"),
        ("say(case=m['case'], answer='refused', body=[])", "errored"),
        ("say(case='another', answer='value', body={})", "errored"),
        ("say(answer='value', body={})", "errored"),
        ("print('working on it', flush=True)", "errored"),
        ("print('[]', flush=True)", "errored"),
        ("sys.exit(3)", "errored"),
    ],
)
def test_program(program: Any, body: Any, kind: str) -> None:
    target = program(body)
    assert target.name == "toy 2"
    assert target.ask("tank-0", "tank-mass", REQUEST).kind == kind


def test_program_is_told_the_request_and_nothing_else(program: Any) -> None:
    target = program("say(case=m['case'], answer='value', body=m)")
    body = target.ask("tank-0", "tank-mass", REQUEST).body
    wanted = {"do": "run", "case": "tank-0", "calculation": "tank-mass", "request": REQUEST}
    assert body == wanted


def test_program_out_of_step_answers_no_further_case(program: Any) -> None:
    body = "print('noise', flush=True); say(case=m['case'], answer='value', body={})"
    target = program(body)
    first, second = (target.ask(name, "tank-mass", REQUEST) for name in ("tank-0", "tank-1"))
    assert (first.kind, second.kind) == ("errored", "errored")
    assert "noise" in second.reason


def test_program_that_is_slow(program: Any) -> None:
    target = program("time.sleep(30)", seconds=0.3)
    assert target.ask("tank-0", "tank-mass", REQUEST).kind == "timed-out"
    assert target.ask("tank-1", "tank-mass", REQUEST).kind == "errored"


def test_program_that_names_its_calculations(program: Any) -> None:
    target = program("say(case=m['case'], answer='value')", more=", calculations=['bath-mass']")
    assert target.ask("tank-0", "tank-mass", REQUEST).kind == "not-supported"
    assert target.ask("bath-0", "bath-mass", REQUEST).kind == "value"


def test_program_that_cannot_be_started(tmp_path: Path) -> None:
    with pytest.raises(TargetError, match="cannot be started"):
        ProcessTarget(str(tmp_path / "none"))
    silent = tmp_path / "silent.py"
    silent.write_text("print('{\"protocol\": 2}', flush=True)\n")
    with pytest.raises(TargetError, match="did not answer start"):
        ProcessTarget(f"{sys.executable} {silent}", 5)


def test_program_of_the_readme(tmp_path: Path) -> None:
    readme = (Path(tundish_reference_cases.__file__).parent / "README.md").read_text("utf-8")
    program = next(
        text
        for text in re.findall(r"```python\n(.*?)```", readme, re.DOTALL)
        if "sys.stdin" in text
    )
    path = tmp_path / "tool.py"
    path.write_text(program)
    target = ProcessTarget(f"{sys.executable} {path}", 5)
    try:
        assert target.name == "litres-to-kilograms 1"
        answer = target.ask("tank-0", "tank-mass", REQUEST)
        assert answer.body == {"outputs": {"mass": {"value": 10, "unit": "kg"}}}
        nothing = {**REQUEST, "inputs": {"volume": {"value": 0, "unit": "l"}}}
        assert target.ask("tank-1", "tank-mass", nothing).kind == "refused"
    finally:
        target.close()
