"""The built wheel holds what it must."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.slow
def test_wheel(tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    (wheel,) = tmp_path.glob("*.whl")
    names = set(zipfile.ZipFile(wheel).namelist())
    for package in ("tundish", "tundish_plugins", "tundish_api", "tundish_reference_cases"):
        assert f"{package}/__init__.py" in names
        assert f"{package}/py.typed" in names
    assert "tundish_plugins/rules/gb/gas.json" in names
    assert "tundish_plugins/conversion/house.json" in names
    assert "tundish_reference_cases/cases/u-value/GB/layers.json" in names
    assert "tundish_reference_cases/schema/group-1.schema.json" in names
    assert any(name.endswith("licenses/docs/licence/LICENSE.txt") for name in names)
    (entry_points,) = (name for name in names if name.endswith("entry_points.txt"))
    text = zipfile.ZipFile(wheel).read(entry_points).decode()
    assert "gas = tundish_plugins.gas.plugin" in text
    assert "serve = tundish_api.command:main" in text
