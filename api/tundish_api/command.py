"""``tundish serve``: the API on this machine."""

from __future__ import annotations

import argparse
import errno
import socket
import sys
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

PORT: Final = 8000
_TRIES: Final = 50


def free_port(host: str, port: int, *, search: bool) -> int:
    """Return ``port``, or the next free one when it is taken and ``search`` allows."""
    for candidate in range(port, port + (_TRIES if search else 1)):
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        with socket.socket(family) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((host, candidate))
            except OSError as error:
                if error.errno != errno.EADDRINUSE:
                    raise
                continue
            return int(probe.getsockname()[1])  # port 0 asks for any that is free
    message = f"no free port from {port} on {host}"
    raise OSError(message)


def wanted_port(host: str, port: int | None) -> int:
    """Return the port asked for, or the usual one, or the next free one after it."""
    return free_port(host, PORT if port is None else port, search=port is None)


def serve(host: str, port: int, workers: int = 1) -> None:
    """Serve until interrupted."""
    import uvicorn  # noqa: PLC0415

    print(f"tundish listens on http://{host}:{port}/ (interrupt to stop)", flush=True)  # noqa: T201
    uvicorn.run(
        "tundish_api.app:create_app",
        factory=True,
        host=host,
        port=port,
        workers=workers,
        log_level="warning",
        access_log=False,
        server_header=False,
    )


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command."""
    parser = argparse.ArgumentParser(prog="tundish serve", description=__doc__)
    parser.add_argument("--host", default="127.0.0.1", help="address to listen on")
    parser.add_argument("--port", type=int, default=None, help=f"port; {PORT} or the next free one")
    parser.add_argument("--workers", type=int, default=1, help="processes")
    options = parser.parse_args(argv)
    try:
        port = wanted_port(options.host, options.port)
    except OSError as error:
        print(f"tundish serve: {error}", file=sys.stderr)  # noqa: T201
        return 2
    serve(options.host, port, options.workers)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
