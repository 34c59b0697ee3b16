"""``python3 api``: set up once, run the example house, then serve the API. ``--once`` stops there."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / ".ci"))
import bootstrap

if __name__ == "__main__":
    try:
        python = bootstrap.python("run")
    except bootstrap.SetupError as error:
        raise SystemExit(str(error)) from None
    try:
        command = [str(python), "-m", "tundish_api.main_job", *sys.argv[1:]]
        raise SystemExit(subprocess.run(command, check=False).returncode)  # noqa: S603
    except KeyboardInterrupt:
        raise SystemExit(0) from None
