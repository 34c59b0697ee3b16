"""The pytest plugin, run as an integrator runs it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

import json
import subprocess
import sys

import pytest

from tundish_reference_cases.write import document

TOOL = """
def answer(calculation, request):
    volume, count = request["inputs"]["volume"]["value"], request["inputs"]["count"]
    if volume <= 0:
        return 422, {"code": "out-of-range", "pointer": "/inputs/volume"}
    return 200, {"outputs": {"mass": {"value": float(volume) * max(count, 1), "unit": "kg"}}}
"""


@pytest.fixture
def run_pytest(group: dict[str, Any], tmp_path: Path) -> Any:
    (tmp_path / "cases").mkdir()

    def go(*arguments: Any, tool: Any = TOOL) -> Any:
        (tmp_path / "cases" / "plain.json").write_text(document(group), encoding="utf-8")
        (tmp_path / "cases" / "notes.txt").write_text("not a group")
        (tmp_path / "tool.py").write_text(tool)
        command = [sys.executable, "-m", "pytest", "-p", "tundish_reference_cases.pytest_plugin"]
        command += ["-p", "no:cacheprovider", "-q", "-rA", f"--rootdir={tmp_path}", *arguments]
        done = subprocess.run(
            command, cwd=tmp_path, capture_output=True, text=True, timeout=60, check=False
        )
        return done.returncode, done.stdout + done.stderr

    return go


def test_group_files_become_items(run_pytest: Any) -> None:
    status, out = run_pytest("--tundish-cases", "cases", "--tundish-target", "tool:answer")
    assert status == 0, out
    assert "9 passed" in out
    assert "plain.json::tank-0" in out


def test_disagreement_is_explained_without_a_traceback(run_pytest: Any) -> None:
    wrong = TOOL.replace("float(volume)", "1.5 * volume")
    status, out = run_pytest(
        "--tundish-cases", "cases", "--tundish-target", "tool:answer", tool=wrong
    )
    assert status == 1
    assert "7 failed, 2 passed" in out
    assert "/outputs/mass: wanted 10 kg" in out
    assert "on site: The floor is loaded" in out
    assert "Traceback" not in out


def test_broken_group_is_an_error(run_pytest: Any, group: dict[str, Any]) -> None:
    group["surplus"] = 1
    status, out = run_pytest("--tundish-cases", "cases", "--tundish-target", "tool:answer")
    assert status == 2
    assert "has no member 'surplus'" in out


def test_nothing_is_collected_unless_asked(run_pytest: Any) -> None:
    status, out = run_pytest("cases")
    assert status == 5, out
    assert "no tests ran" in out


def test_fixture_runs_once_a_case(run_pytest: Any, tmp_path: Path) -> None:
    (tmp_path / "test_mine.py").write_text(
        "def test_case(tundish_case, tundish_target):\n"
        "    judgement = tundish_case.put_to(tundish_target)\n"
        "    assert judgement.verdict == 'pass', tundish_case.explain(judgement)\n"
    )
    status, out = run_pytest("-k", "store-at-60", "test_mine.py")
    assert status == 0, out
    assert "test_case[store-at-60]" in out
    status, out = run_pytest("-k", "store-at-60", "test_mine.py", "--tundish-target", "tool:answer")
    assert status == 1, json.dumps(out)
