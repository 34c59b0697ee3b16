"""The hot route: a request's bytes in, a sealed record's bytes out."""

from __future__ import annotations

import logging
from functools import partial
from typing import TYPE_CHECKING, Final
from urllib.parse import parse_qsl

from anyio import to_thread

from tundish.answering import unavailable
from tundish.host import CalculationUnknownError, PluginUnavailableError, today
from tundish.problems import RefusedRequest
from tundish.run import DEFAULT_PARTS, PARTS
from tundish_api.answers import problem, send_bytes, send_problem
from tundish_api.bodies import ClientGoneError, read_bytes
from tundish_api.strict import BodyError, parse

if TYPE_CHECKING:
    from starlette.types import Receive, Scope, Send

    from tundish.host import Host

LONG_BODY: Final = 8_000
"""Bytes from which a request is calculated in a worker thread, so that others need not wait."""
_LOG = logging.getLogger("tundish.api")


class QueryError(ValueError):
    """A query that is not read."""


def parts_of(query: bytes) -> frozenset[str]:
    """Read ``include=``, the only query: working, sources and charts, or nothing."""
    if not query:
        return DEFAULT_PARTS
    pairs = parse_qsl(query.decode("latin-1"), keep_blank_values=True)
    if len(pairs) != 1 or pairs[0][0] != "include":
        raise QueryError
    chosen = frozenset(part for part in pairs[0][1].split(",") if part)
    if not chosen <= frozenset(PARTS):
        raise QueryError
    return chosen


class Calculate:
    """``POST /v1/calculations/{id}`` as a bare ASGI application."""

    def __init__(self, host: Host) -> None:
        """Keep the host; nothing is imported until a calculation is asked for."""
        self._host = host

    def _answer(self, calculation: str, body: bytes, parts: frozenset[str]) -> bytes:
        runner = self._host.runner(calculation)
        raw, _ = runner.answer(parse(body), self._host.book, today=today(), parts=parts)
        return raw

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        calculation = scope["path_params"]["calculation"]
        host = self._host
        try:
            parts = parts_of(scope["query_string"])
            body = await read_bytes(scope, receive)
            if len(body) > LONG_BODY:
                raw = await to_thread.run_sync(partial(self._answer, calculation, body, parts))
            else:
                raw = self._answer(calculation, body, parts)
        except BodyError as error:
            await send_problem(send, problem(error.code, error.detail))
        except QueryError:
            await send_problem(send, problem("query-unknown"))
        except RefusedRequest as refused:
            host.tell("refused", calculation=calculation, code=refused.errors[0].code)
            await send_problem(send, refused.as_json())
        except (CalculationUnknownError, PluginUnavailableError) as error:
            await send_problem(send, unavailable(error))
        except ClientGoneError:
            return
        except Exception:  # noqa: BLE001  (no trace leaves the process)
            # The trace is for our log; the client gets a code and no inside of ours.
            _LOG.exception("calculation %s failed", calculation)
            host.tell("failed", calculation=calculation)
            await send_problem(send, problem("calculation-failed"))
        else:
            host.tell("ran", calculation=calculation)
            await send_bytes(send, 200, raw)
