"""``python3 tests``: set up once, then the quick set. ``--all``: everything that CI runs.

Other arguments go to pytest as they are.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / ".ci"))
import bootstrap

# Called by name: run with -m, importlinter.cli does nothing and exits 0.
LINT_IMPORTS = "from importlinter.cli import lint_imports_command as run; run()"
CHECKS = (
    ("ruff", ["-m", "ruff", "check", "."]),
    ("mypy", ["-m", "mypy"]),
    ("imports", ["-c", LINT_IMPORTS]),
    ("corpus", ["-m", "tundish.cli", "verify", "--lint"]),
)
LEFT_OUT = (
    "Left out of the quick set: tests marked slow (10,000-row columns, fuzzing of the API, built "
    "distributions, generated clients), ruff, mypy and the import contracts. 'python3 tests --all' "
    "runs everything."
)


def main(arguments: list[str]) -> int:
    """Run the checks and the tests; the exit status is the first failure's."""
    try:
        python = str(bootstrap.python("test"))
    except bootstrap.SetupError as error:
        print(error, file=sys.stderr)
        return 2
    everything = "--all" in arguments
    arguments = [item for item in arguments if item != "--all"]
    failed = 0
    if everything:
        for name, command in CHECKS:
            print(f"== {name}", flush=True)
            done = subprocess.run([python, *command], cwd=ROOT, check=False)
            failed = failed or done.returncode
    chosen = [] if everything or "-m" in arguments else ["-m", "not slow"]
    if not arguments:  # the whole set: on every processor
        chosen += ["-n", "auto", "--dist", "worksteal"]
    command = [python, "-m", "pytest", *chosen, *arguments]
    done = subprocess.run(command, cwd=ROOT, check=False)
    if not everything:
        print(LEFT_OUT)
    return failed or done.returncode


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
