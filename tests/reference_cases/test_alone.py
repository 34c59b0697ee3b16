"""The package needs nothing but the standard library."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

import ast
import subprocess
import sys
from pathlib import Path

import tundish_reference_cases

PACKAGE = Path(tundish_reference_cases.__file__).parent


def _imports(path: Path) -> Iterator[Any]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield (node.module or "").partition(".")[0]


def test_only_the_standard_library_is_imported() -> None:
    allowed = sys.stdlib_module_names | {"tundish_reference_cases"}
    for path in PACKAGE.glob("*.py"):
        more = {"pytest"} if path.name == "pytest_plugin.py" else set()
        assert set(_imports(path)) <= allowed | more, path.name


def test_corpus_is_read_and_checked_by_a_python_without_packages() -> None:
    program = (
        "import sys; sys.path.insert(0, sys.argv[1])\n"
        "from tundish_reference_cases.groups import load\n"
        "from tundish_reference_cases.lint import lint\n"
        "assert lint(load()) == []\n"
        "from tundish_reference_cases.command import main\n"
        "sys.exit(main([]))\n"
    )
    done = subprocess.run(
        [sys.executable, "-I", "-S", "-c", program, str(PACKAGE.parent)],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 2, done.stderr
    assert "tundish.verify_target:answer cannot be imported" in done.stderr
