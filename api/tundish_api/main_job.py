"""The main job: run the example house, print it, then serve until interrupted."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Final

from tundish.cli import print_job
from tundish.host import default_host
from tundish_api.command import PORT, serve, wanted_port

if TYPE_CHECKING:
    from collections.abc import Sequence

TEMPLATE: Final = "example-house"


def main(argv: Sequence[str] | None = None) -> int:
    """Print the example job; then serve, unless ``--once``."""
    parser = argparse.ArgumentParser(prog="python3 api", description=__doc__)
    parser.add_argument("--once", action="store_true", help="stop after the job")
    parser.add_argument("--port", type=int, default=None, help=f"port; {PORT} or the next free one")
    options = parser.parse_args(argv)
    from tundish.jobs import run_job  # noqa: PLC0415

    host = default_host()
    print_job(run_job(host.template(TEMPLATE), host, parts=frozenset()), host)
    if not options.once:
        serve("127.0.0.1", wanted_port("127.0.0.1", options.port))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
