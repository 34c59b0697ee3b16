"""Schemathesis with every check on: valid and invalid requests drawn from the served document.

Valid data may also get 422, for a schema cannot say what goes together. So that most requests reach
a kernel, the drawn quantities are samples about each calculation's example; what lies outside is
drawn by the invalid half and tried at every bound in ``test_routes``.
"""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections import Counter
from typing import TYPE_CHECKING, Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, settings

from tundish.host import default_host
from tundish.quantities.kinds import KINDS
from tundish.schemas import example_request
from tundish_api.app import create_app

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

# Schemathesis warns of its own libraries; its findings come as failures.
pytestmark = [pytest.mark.slow, pytest.mark.filterwarnings("ignore")]

LEAST = 3000
"""Requests over all operations, in process."""
LEAST_SHARE = 1 / 2
"""Share of the requests near its example that a calculation must answer."""
SPREAD = (0.97, 1.0, 1.02)
CHECKS = {
    # 422: the values are each in range but do not go together. 404: a name the pattern allows.
    "positive_data_acceptance": {"expected-statuses": ["2xx", 304, 404, 422]},
    "negative_data_rejection": {"expected-statuses": [400, 404, 405, 413, 415, 422]},
    "missing_required_header": {"expected-statuses": [400, 415, 422]},
}


def _samples(told: dict[str, Any], example: Any) -> dict[str, Any]:
    """Values near an example in every unit, as objects and as texts."""
    kind = told["kind"] if isinstance(told["kind"], str) else told["kind"][0]
    unit, value = told["unit"], None
    basis: dict[str, str] = {}
    if isinstance(example, dict):
        unit, value = example["unit"], example["value"]
        basis = {"basis": example["basis"]} if "basis" in example else {}
    elif isinstance(example, str):
        number, unit, *rest = example.split(" ")
        value = float(number)
        basis = {"basis": rest[0]} if rest else {}
    found: list[Any] = []
    factor, offset = KINDS[kind].conversion(unit)
    for other in told["units"]:
        f, o = KINDS[kind].conversion(other)
        for share in SPREAD:
            there = float(f"{(value * share * factor + offset - o) / f:.9g}")
            found.append({"value": there, "unit": other, **basis})
            found.append(" ".join([f"{there:.9g}", other, *basis.values()]))
    return {"enum": found}


def _follow(schema: Any, raw: dict[str, Any]) -> Any:
    while "$ref" in schema:
        schema = raw["components"]["schemas"][schema["$ref"].rpartition("/")[2]]
    return schema


def _near(schema: Any, example: Any, raw: dict[str, Any]) -> Any:
    """Write a schema of what lies near an example: the same structure, other numbers."""
    schema = _follow(schema, raw)
    if "x-quantity" in schema:
        return _samples(schema["x-quantity"], example)
    if example is None:
        return schema
    if "anyOf" in schema:
        inner = [arm for arm in schema["anyOf"] if arm.get("type") != "null"]
        return _near(inner[0], example, raw)
    if isinstance(example, dict):
        fields = {
            name: _near(schema["properties"][name], value, raw) for name, value in example.items()
        }
        return {
            "type": "object",
            "properties": fields,
            "required": list(fields),
            "additionalProperties": False,
        }
    if isinstance(example, list):
        rows = [_near(schema["items"], row, raw) for row in example]
        return {
            "type": "array",
            "prefixItems": rows,
            "items": False,
            "minItems": len(rows),
            "maxItems": len(rows),
        }
    return {"enum": [example]}


def rewrite(raw: dict[str, Any], reach: str) -> None:
    """Keep every number in its range, and let only likely requests through if they are to be near."""
    for path, item in raw["paths"].items():
        name = path.rpartition("/")[2]
        if reach == "near" and "post" in item and name in default_host().entries:
            media = item["post"]["requestBody"]["content"]["application/json"]
            example = example_request(default_host().runner(name).calculation)
            media["schema"] = _near(media["schema"], example, raw)
    for component in raw["components"]["schemas"].values():
        for field in component.get("properties", {}).values():
            _exact(field)


def _exact(schema: dict[str, Any]) -> None:
    """Give a quantity one branch a unit with its own range, and texts that lie inside it."""
    for arm in schema.get("anyOf", ()):
        if "x-quantity" in arm:
            _exact(arm)
    told = schema.get("x-quantity")
    if told is None:
        return
    kind = told["kind"] if isinstance(told["kind"], str) else told["kind"][0]
    factor, offset = KINDS[kind].conversion(told["unit"])
    branches: list[Any] = []
    for unit in told["units"]:
        f, o = KINDS[kind].conversion(unit)
        low, high = (
            None if bound not in told else (told[bound] * factor + offset - o) / f
            for bound in ("minimum", "maximum")
        )
        slack = 1e-9 * max(abs(low or 0), abs(high or 0))
        value = {"type": "number"}
        value |= {} if low is None else {"minimum": low + slack}
        value |= {} if high is None else {"maximum": high - slack}
        members = {"value": value, "unit": {"enum": [unit]}}
        if "bases" in told:
            members["basis"] = {"enum": told["bases"]}
        branches.append(
            {
                "type": "object",
                "properties": members,
                "required": list(members),
                "additionalProperties": False,
            }
        )
    schema["anyOf"] = [*branches, {"type": "string", "enum": schema["examples"]}]


_sharpening: list[str] = []


@schemathesis.hook
def before_load_schema(_context: Any, raw: dict[str, Any]) -> None:
    """Sharpen what valid requests are drawn from."""
    if _sharpening:
        rewrite(raw, _sharpening[0])


def _operations(schema: Any) -> list[Any]:
    return [found.ok() for found in schema.get_all_operations()]


def _by_route(load: Callable[[], Any], reach: str = "") -> dict[tuple[str, str], Any]:
    _sharpening.extend([reach] if reach else [])
    try:
        return {(item.method, item.path): item for item in _operations(load())}
    finally:
        _sharpening.clear()


def _config() -> Any:
    return schemathesis.Config.from_dict({"checks": CHECKS})


def _drive(operation: Any, mode: Any, count: int) -> Counter[int]:
    told: Counter[int] = Counter()

    @settings(
        max_examples=count,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy(generation_mode=mode))
    def run(case: Any) -> None:
        told[case.call_and_validate().status_code] += 1

    run()
    return told


def _fuzz(load: Callable[[], Any], valid: int, invalid: int) -> tuple[int, dict[str, Counter[int]]]:
    """Send valid requests, three of four near the examples, and invalid ones to what is served.

    What the sharpened schema calls invalid is often right: it is narrower than the document.
    """
    served = _by_route(load)
    near, wide = (_by_route(load, reach) for reach in ("near", "wide"))
    total, answered = 0, {}
    for route, operation in wide.items():
        hot = operation.method == "post" and operation.path != "/v1/jobs"
        positive = schemathesis.GenerationMode.POSITIVE
        found = _drive(operation, positive, 1 + valid // 4 if hot else 20)
        total += sum(found.values())
        if hot:
            found = _drive(near[route], positive, valid - valid // 4)
            total += sum(found.values())
            answered[operation.path] = found
        if operation.method == "post":
            # Whether what is invalid was refused is Schemathesis's own check: some of what it makes
            # invalid, such as a query member with an empty list, is gone on the wire.
            wrong = _drive(served[route], schemathesis.GenerationMode.NEGATIVE, invalid)
            total += sum(wrong.values())
    return total, answered


def test_in_process() -> None:
    app = create_app()

    def load() -> Any:
        return schemathesis.openapi.from_asgi("/openapi.json", app, config=_config())

    calculations = len(default_host().entries)
    total, answered = _fuzz(load, valid=1 + 2400 // calculations, invalid=1 + 900 // calculations)
    print(f"\n{total} requests")
    assert len(answered) == calculations
    for path, told in sorted(answered.items()):
        print(f"{path}: {dict(told)}, {told[200] / told.total():.0%} answered")
    assert total >= LEAST
    for path, told in answered.items():
        assert told[200] / told.total() >= LEAST_SHARE, (path, told)


@pytest.fixture
def served() -> Iterator[str]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = subprocess.Popen(
        [sys.executable, "-m", "tundish_api.command", "--port", str(port)],
        stdout=subprocess.PIPE,
        env={**os.environ},
    )
    url = f"http://127.0.0.1:{port}"
    try:
        for _ in range(200):
            try:
                with urllib.request.urlopen(url + "/health/live", timeout=5):
                    break
            except OSError:
                time.sleep(0.1)
        yield url
    finally:
        server.terminate()
        server.wait(timeout=20)
        if server.stdout is not None:
            server.stdout.close()


def test_over_http(served: str) -> None:
    def load() -> Any:
        return schemathesis.openapi.from_url(served + "/openapi.json", config=_config())

    total, answered = _fuzz(load, valid=12, invalid=8)
    print(f"\n{total} requests over HTTP")
    assert all(told[200] for told in answered.values()), answered
