"""Reading the body of a POST: its type, its size, its JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish_api.answers import header
from tundish_api.strict import BodyError, parse

if TYPE_CHECKING:
    from starlette.types import Receive, Scope

LARGEST: Final = 1_000_000
"""Largest body in bytes; a job of a large house is some 60 000."""


class ClientGoneError(ConnectionError):
    """The client went away before its body was there."""


async def read_bytes(scope: Scope, receive: Receive, largest: int = LARGEST) -> bytes:
    """Read the body, at most ``largest`` bytes of it; raises :class:`BodyError`."""
    kind = header(scope, b"content-type").split(b";")[0].strip().lower()
    if kind != b"application/json":
        given = kind.decode("latin-1")[:64] or "nothing"
        raise BodyError("media-type-unsupported", f"Content-Type is {given}, not application/json.")
    length = header(scope, b"content-length")
    if length.isdigit() and int(length) > largest:
        raise BodyError("body-too-large", f"A body has at most {largest} bytes.")
    parts: list[bytes] = []
    size = 0
    more = True
    while more:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise ClientGoneError
        part = message.get("body", b"")
        size += len(part)
        if size > largest:
            raise BodyError("body-too-large", f"A body has at most {largest} bytes.")
        parts.append(part)
        more = message.get("more_body", False)
    return parts[0] if len(parts) == 1 else b"".join(parts)


async def read_json(scope: Scope, receive: Receive, largest: int = LARGEST) -> Any:
    """Read the body as JSON; raises :class:`BodyError`."""
    return parse(await read_bytes(scope, receive, largest))
