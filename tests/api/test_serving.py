"""The served process: what it imports at start, its address, the main job."""

from __future__ import annotations

import json
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from typing import TYPE_CHECKING, Any

import pytest

from tundish_api.command import free_port

if TYPE_CHECKING:
    from collections.abc import Iterator


def _python(code: str) -> str:
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    ).stdout


def test_start_imports_no_calculation() -> None:
    told = _python(
        "import sys\n"
        "from tundish_api.app import create_app\n"
        "create_app()\n"
        "print([name for name in sys.modules if name.split('.')[0] in "
        "('numpy', 'scipy', 'pint', 'CoolProp', 'tundish_reference_cases', 'uvicorn') "
        "or name.startswith('tundish_plugins') and name.endswith(('kernel', 'contract', 'formulas'))])"
    )
    assert told.strip() == "[]"


def test_answers_without_numpy(examples: dict[str, Any]) -> None:
    code = (
        "import sys, json, asyncio\n"
        "for name in ('numpy', 'scipy', 'pint', 'CoolProp'): sys.modules[name] = None\n"
        "from tundish.answering import answer\n"
        "for name, request in json.load(sys.stdin).items():\n"
        "    status, body = answer(name, request)\n"
        "    assert status == 200, (name, body)\n"
    )
    subprocess.run(
        [sys.executable, "-c", code], input=json.dumps(examples), text=True, check=True, timeout=60
    )


def test_next_free_port() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert free_port("127.0.0.1", port, search=True) > port
        with pytest.raises(OSError, match="no free port"):
            free_port("127.0.0.1", port, search=False)


@pytest.fixture(scope="module")
def served() -> Iterator[str]:
    server = subprocess.Popen(
        [sys.executable, "-m", "tundish_api.command", "--port", "0"],
        stdout=subprocess.PIPE,
        text=True,
    )
    assert server.stdout is not None
    line = server.stdout.readline()
    url = line.split("listens on ")[1].split(" ")[0].rstrip("/")
    for _ in range(200):
        try:
            with urllib.request.urlopen(url + "/health/live", timeout=5):
                break
        except OSError:
            time.sleep(0.1)
    yield url
    server.terminate()
    server.wait(timeout=20)
    server.stdout.close()


def test_over_http(served: str, examples: dict[str, Any], calculation: str) -> None:
    asked = urllib.request.Request(
        f"{served}/v1/calculations/{calculation}",
        json.dumps(examples[calculation]).encode(),
        {"Content-Type": "application/json"},
    )
    with urllib.request.urlopen(asked, timeout=20) as answer:
        assert json.load(answer)["calculation"]["id"] == calculation
        assert "server" not in {name.lower() for name in answer.headers}


def _raw(url: str, request: bytes) -> bytes:
    host, _, port = url.removeprefix("http://").partition(":")
    with socket.create_connection((host, int(port)), timeout=10) as wire:
        wire.sendall(request)
        found = b""
        while piece := wire.recv(65536):
            found += piece
    return found


def test_head_and_unchanged_on_the_wire(served: str) -> None:
    for method, more in (("HEAD", ""), ("GET", "If-None-Match: *\r\n")):
        asked = f"{method} /v1/calculations HTTP/1.1\r\nHost: t\r\n{more}Connection: close\r\n\r\n"
        told = _raw(served, asked.encode())
        assert told.split(b" ")[1] == (b"200" if method == "HEAD" else b"304")
        assert told.endswith(b"\r\n\r\n")


def test_problem_on_the_wire(served: str) -> None:
    with pytest.raises(urllib.error.HTTPError) as caught:
        urllib.request.urlopen(served + "/nothing", timeout=10)
    with caught.value as answer:
        assert answer.headers["content-type"] == "application/problem+json"
        assert json.load(answer)["code"] == "path-unknown"


def test_main_job_once() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tundish_api.main_job", "--once"],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert not done.stderr
    assert len(done.stdout.splitlines()) > 20
