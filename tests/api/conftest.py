"""One application over the installed plugins, spoken to in process."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING, Any

import httpx
import pytest

from tundish.host import Host, default_host
from tundish.refusals import PROBLEMS
from tundish.schemas import example_request
from tundish_api.app import create_app

if TYPE_CHECKING:
    from collections.abc import Iterator

CALCULATIONS = sorted(default_host().entries)


class Client:
    """Speaks to an ASGI application in process, on one event loop."""

    def __init__(self, app: Any) -> None:
        self.app = app
        self._loop = asyncio.Runner()
        self._client = httpx.AsyncClient(
            transport=httpx.ASGITransport(app), base_url="http://test", timeout=60
        )

    def request(self, method: str, path: str, **more: Any) -> httpx.Response:
        return self._loop.run(self._client.request(method, path, **more))

    def get(self, path: str, **more: Any) -> httpx.Response:
        return self.request("GET", path, **more)

    def head(self, path: str, **more: Any) -> httpx.Response:
        return self.request("HEAD", path, **more)

    def post(self, path: str, **more: Any) -> httpx.Response:
        return self.request("POST", path, **more)

    def close(self) -> None:
        self._loop.run(self._client.aclose())
        self._loop.close()


@pytest.fixture(scope="session")
def host() -> Host:
    return default_host()


@pytest.fixture(scope="session")
def client(host: Host) -> Iterator[Client]:
    made = Client(create_app(host))
    yield made
    made.close()


@pytest.fixture(scope="session")
def examples(host: Host) -> dict[str, dict[str, Any]]:
    """Each calculation's own example, as a request."""
    return {name: example_request(host.runner(name).calculation) for name in CALCULATIONS}


@pytest.fixture(scope="session")
def is_problem() -> Any:
    """Return a check that an answer is a problem document of a code, and give its members."""

    def check(answer: Any, code: str) -> dict[str, Any]:
        assert answer.headers["content-type"] == "application/problem+json", answer.text[:300]
        body: dict[str, Any] = json.loads(answer.content)
        assert body["code"] == code, body
        assert body["status"] == answer.status_code
        if code in PROBLEMS:
            assert answer.status_code == PROBLEMS[code].status
        assert body["type"] == f"/v1/problems/{code}"
        assert body["title"]
        assert body["detail"]
        assert body["remedy"]
        assert "Traceback" not in answer.text
        assert ".py" not in answer.text
        return body

    return check


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run a test that takes ``calculation`` for every one in the catalogue."""
    if "calculation" in metafunc.fixturenames:
        metafunc.parametrize("calculation", CALCULATIONS)
