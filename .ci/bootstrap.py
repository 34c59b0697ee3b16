"""Make an environment of pinned packages and hand back its Python. Standard library only.

Used by ``python3 api`` and ``python3 tests``: a machine with Python 3.11 and pip needs no more.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import os
import subprocess
import sys
import time
import venv
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
WAIT = 600  # seconds to wait for another set-up of the same environment


class SetupError(RuntimeError):
    """The environment cannot be made; the message says why."""


def _stamp(kind: str) -> str:
    """Everything the environment depends on, in one hash."""
    pins = [ROOT / ".requirements" / f"{name}.txt" for name in (kind, "build")]
    parts = b"".join(path.read_bytes() for path in (*pins, ROOT / "pyproject.toml"))
    return hashlib.sha256(parts + sys.version.encode() + str(ROOT).encode()).hexdigest()


@contextlib.contextmanager
def _alone(home: Path) -> Iterator[None]:
    """Let one process set the environment up while others wait."""
    lock = home.with_name(home.name + ".lock")
    deadline = time.monotonic() + WAIT
    told = False
    while True:
        try:
            os.close(os.open(lock, os.O_CREAT | os.O_EXCL))
            break
        except FileExistsError:
            with contextlib.suppress(FileNotFoundError):  # the other run may end meanwhile
                if time.monotonic() > deadline or time.time() - lock.stat().st_mtime > WAIT:
                    lock.unlink()
                    continue
            if not told:
                told = True
                print(
                    f"Waiting for another set-up; if none is running, delete {lock.name} …",
                    file=sys.stderr,
                    flush=True,
                )
            time.sleep(0.5)
    try:
        yield
    finally:
        lock.unlink(missing_ok=True)


def _run(command: list[str]) -> None:
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode:
        message = f"set-up failed: {' '.join(command[:6])} …\n{done.stdout}{done.stderr}"
        raise SetupError(message)


def python(kind: str) -> Path:
    """Return the Python of the environment ``run`` or ``test``, made first if need be."""
    if sys.version_info < (3, 11):  # noqa: UP036  (said in words before anything fails)
        message = "tundish needs Python 3.11 or later"
        raise SetupError(message)
    home = ROOT / f".venv-{kind}"
    found = home / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    mark, wanted = home / "stamp", _stamp(kind)
    with _alone(home):
        if mark.is_file() and mark.read_text() == wanted and found.exists():
            return found
        print(f"Setting up {home.name} (once; about a minute) …", file=sys.stderr, flush=True)
        mark.unlink(missing_ok=True)
        outer = importlib.util.find_spec("pip") is not None
        venv.create(home, with_pip=not outer, clear=True)
        pip = (
            [sys.executable, "-m", "pip", "--python", str(found)]
            if outer
            else [
                str(found),
                "-m",
                "pip",
            ]
        )
        quiet = ["--quiet", "--disable-pip-version-check", "--no-input"]
        pins = [
            part
            for name in (kind, "build")
            for part in ("-r", str(ROOT / ".requirements" / f"{name}.txt"))
        ]
        _run([*pip, "install", *quiet, "--require-hashes", *pins])
        _run(
            [*pip, "install", *quiet, "--no-deps", "--no-build-isolation", "--editable", str(ROOT)]
        )
        mark.write_text(wanted)
    return found
