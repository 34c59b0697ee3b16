"""What is imported when: answers without NumPy, plugins without pydantic, each in its own process."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys

import pytest

BLOCK = """
import sys

class Blocked:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in BLOCKED:
            raise ImportError(f"{name} is blocked by the test")
        return None

sys.meta_path.insert(0, Blocked())
"""

ANSWERS = """
import json
import tundish
from tundish.host import default_host

host = default_host()
found = {}
for name in sorted(host.entries):
    calculation = host.runner(name).calculation
    request = {"inputs": calculation.example, "region": calculation.example_region}
    status, body = tundish.answer(
        name, {**request, "date": "2026-06-01"}, parts=("working", "sources", "charts")
    )
    found[name] = [status, body.get("fingerprint") or body]
print(json.dumps({
    "plugins": {plugin.name: plugin.reason for plugin in host.plugins},
    "answers": found,
    "imported": sorted({name.partition(".")[0] for name in sys.modules}),
}))
"""

LOADED = """
import json, sys
from importlib.metadata import entry_points

points = entry_points(group="tundish")
for point in points:
    point.load()
modules = [point.value for point in points]
after_points = sorted(sys.modules)

import tundish
from tundish.host import default_host

host = default_host()
after_host = sorted(sys.modules)
print(json.dumps({
    "modules": modules,
    "calculations": len(host.entries),
    "failed": [plugin.reason for plugin in host.plugins if not plugin.loaded],
    "after_points": after_points,
    "after_host": after_host,
}))
"""

HEAVY = ("numpy", "scipy", "pint", "CoolProp", "fluids", "iapws")


def _python(code: str) -> dict[str, object]:
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.returncode == 0, done.stderr
    found: dict[str, object] = json.loads(done.stdout)
    return found


@pytest.fixture(scope="module")
def plain() -> dict[str, object]:
    return _python("import sys\n" + ANSWERS)


@pytest.mark.parametrize("blocked", [("numpy",), ("pint",), ("scipy",), HEAVY, ("orjson",)])
def test_every_example_is_answered_without(
    blocked: tuple[str, ...], plain: dict[str, object]
) -> None:
    """With the same fingerprint as with everything there."""
    assert all(importlib.util.find_spec(name) for name in blocked), "nothing would be blocked"
    told = _python(f"BLOCKED = {set(blocked)!r}\n{BLOCK}\n{ANSWERS}")
    assert isinstance(told["answers"], dict)
    assert told["answers"]
    assert {name: status for name, (status, _) in told["answers"].items()} == dict.fromkeys(
        told["answers"], 200
    )
    assert told["plugins"] == plain["plugins"]
    assert told["answers"] == plain["answers"]


def test_the_block_blocks() -> None:
    code = f"BLOCKED = {{'numpy'}}\n{BLOCK}\nimport numpy\n"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, timeout=60
    )
    assert "numpy is blocked by the test" in done.stderr


def test_an_answer_imports_nothing_heavy(plain: dict[str, object]) -> None:
    assert isinstance(plain["imported"], list)
    assert not set(HEAVY) & set(plain["imported"])
    assert "pydantic" in plain["imported"]  # so that its absence below means something


def test_plugins_and_host_import_no_pydantic_and_no_calculation() -> None:
    told = _python(LOADED)
    assert told["failed"] == []
    assert isinstance(told["calculations"], int)
    assert told["calculations"] > 0
    for when in ("after_points", "after_host"):
        modules = told[when]
        assert isinstance(modules, list)
        assert set(told["modules"]) <= set(modules)  # type: ignore[call-overload]
        banned = ("pydantic", "pydantic_core", "rich", "fastapi", "starlette", "uvicorn", *HEAVY)
        assert not [name for name in modules if name.partition(".")[0] in banned]
        ends = (".kernel", ".contract", ".formulas")
        assert not [m for m in modules if m.startswith("tundish_plugins") and m.endswith(ends)]
        assert not [m for m in modules if m.startswith("tundish_reference_cases")]
