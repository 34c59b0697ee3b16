"""Answers of the API: bytes with their headers, and problems of RFC 9457."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, Any

import orjson

from tundish.contract import FieldError
from tundish.problems import problem_json
from tundish.refusals import PROBLEMS

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from starlette.types import Scope, Send

JSON = b"application/json"
PROBLEM = b"application/problem+json"
HTML = b"text/html; charset=utf-8"
Headers = tuple[tuple[bytes, bytes], ...]


def as_json(value: Any) -> bytes:
    """Write a value as JSON."""
    return orjson.dumps(value)


def problem(code: str, detail: str = "", pointer: str = "", **facts: Any) -> dict[str, Any]:
    """Return a problem document of the host's own."""
    return problem_json([FieldError(code, pointer, detail, facts)], PROBLEMS)


async def send_bytes(
    send: Send,
    status: int,
    body: bytes,
    content_type: bytes = JSON,
    headers: Headers = (),
    *,
    head: bool = False,
) -> None:
    """Send one whole answer; with ``head``, all of it but the body."""
    await send(
        {
            "type": "http.response.start",
            "status": status,
            "headers": [
                (b"content-type", content_type),
                (b"content-length", str(len(body)).encode()),
                *headers,
            ],
        }
    )
    await send({"type": "http.response.body", "body": b"" if head else body})


async def send_unchanged(send: Send, headers: Headers) -> None:
    """Send 304: the client holds what it asks for."""
    await send({"type": "http.response.start", "status": 304, "headers": list(headers)})
    await send({"type": "http.response.body", "body": b""})


async def send_problem(send: Send, body: Mapping[str, Any], *, head: bool = False) -> None:
    """Send a problem document with its own status."""
    await send_bytes(send, body["status"], as_json(body), PROBLEM, head=head)


def etag_of(body: bytes) -> bytes:
    """Return a weak entity tag of some bytes."""
    return b'W/"' + hashlib.sha256(body).hexdigest()[:32].encode() + b'"'


def header(scope: Scope, name: bytes) -> bytes:
    """Return a request header, or nothing."""
    headers: Iterable[tuple[bytes, bytes]] = scope["headers"]
    return next((value for key, value in headers if key == name), b"")


def unchanged(scope: Scope, etag: bytes) -> bool:
    """Whether the client already holds what has this tag."""
    asked = header(scope, b"if-none-match")
    bare = etag.removeprefix(b"W/")
    return any(
        item.strip() == b"*" or item.strip().removeprefix(b"W/") == bare
        for item in asked.split(b",")
        if item.strip()
    )
