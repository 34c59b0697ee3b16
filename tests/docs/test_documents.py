"""The documents are true: hooks, commands, layout."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from tundish import hooks
from tundish.cli import main
from tundish.host import default_host

ROOT = Path(__file__).resolve().parents[2]
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "core",
    "plugins",
    "api",
    "reference_cases",
    "tests",
    "docs",
}


def _tracked() -> list[str]:
    found = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if found.returncode:
        pytest.skip("not a git checkout")
    return found.stdout.splitlines()


def test_every_hook_is_in_the_guide() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = [name for name in vars(hooks) if name.startswith("tundish_")]
    assert named
    assert not [name for name in named if f"`{name}`" not in guide]


def test_every_calculation_is_in_the_readme() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert not [name for name in default_host().entries if f"`{name}`" not in readme]


def test_what_the_readme_shows_is_what_comes_out(capsys: pytest.CaptureFixture[str]) -> None:
    """Each line the tour shows, ellipses apart, stands in the real output."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    status = main(
        [
            "calculate",
            "condensate-pump-head",
            "--example",
            "relief.heat_input=30 kW net",
            "relief.set_pressure=3 bar",
        ]
    )
    assert status == 1
    out = capsys.readouterr().out
    shown = re.search(r"Lifting condensate with a pump\n(.*?)```", readme, re.DOTALL)
    assert shown is not None
    for line in shown[1].splitlines():
        words = line.replace("…", "").split()
        if words and "·" not in line:
            pattern = r"\s+".join(map(re.escape, words))
            assert re.search(pattern, out), line


def test_top_level_is_as_the_design_has_it() -> None:
    tops = {path.split("/")[0] for path in _tracked()}
    assert {name for name in tops if not name.startswith(".")} == TOP


def test_no_machine_path_and_no_registry_in_any_file() -> None:
    forbidden = re.compile(
        "/" + "work/|/" + "root/|/" + "tmp/|pypi" + r"\.org|file" + "s.pythonhosted"
    )
    faults = []
    for path in _tracked():
        file = ROOT / path
        if file.suffix in {".py", ".md", ".json", ".toml", ".txt", ""} and file.is_file():
            text = file.read_text(encoding="utf-8")
            faults += [f"{path}: {found[0]}" for found in forbidden.finditer(text)]
    assert not faults
