"""The application: FastAPI with our own hot routes on it, problems on every path."""

from __future__ import annotations

import logging
from functools import partial
from html import escape
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qsl

from anyio import to_thread
from fastapi import FastAPI
from starlette.exceptions import HTTPException
from starlette.routing import Route

from tundish.answering import unavailable
from tundish.host import CalculationUnknownError, PluginUnavailableError, default_host, today
from tundish.problems import RefusedRequest
from tundish_api import reading
from tundish_api.answers import (
    HTML,
    PROBLEM,
    as_json,
    etag_of,
    problem,
    send_bytes,
    send_problem,
    send_unchanged,
    unchanged,
)
from tundish_api.bodies import ClientGoneError, read_json
from tundish_api.calculate import Calculate
from tundish_api.strict import BodyError

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.types import ASGIApp, Receive, Scope, Send

    from tundish.host import Host

_LOG = logging.getLogger("tundish.api")
_STATUS_CODES = {400: "request-invalid", 404: "path-unknown", 405: "method-not-allowed"}


class NotHereError(LookupError):
    """A path whose last part names nothing."""


class Get:
    """A GET route whose answer changes only with the installation: bytes kept, entity tag, 304."""

    def __init__(
        self,
        make: Callable[..., Any],
        *,
        name: str = "",
        query: tuple[str, ...] = (),
        keep: bool = True,
    ) -> None:
        """``make`` is called with the path's name and the query, in a worker thread."""
        self._make, self._name, self._query, self._keep = make, name, query, keep
        self._kept: dict[str, bytes] = {}

    def _body(self, scope: Scope) -> bytes:
        name = scope["path_params"][self._name] if self._name else ""
        query = self._read_query(scope["query_string"])
        key = f"{name}?{sorted(query.items())}"
        known = self._kept.get(key)
        if known is not None:
            return known
        arguments: list[Any] = ([name] if self._name else []) + ([query] if self._query else [])
        body = as_json(self._make(*arguments))
        if self._keep and len(self._kept) < 200:  # noqa: PLR2004  (names come from requests)
            self._kept[key] = body
        return body

    def _read_query(self, query: bytes) -> dict[str, str]:
        pairs = parse_qsl(query.decode("latin-1"), keep_blank_values=True)
        found = dict(pairs)
        if len(found) != len(pairs) or not found.keys() <= set(self._query):
            code = "query-unknown"
            raise BodyError(code, "")
        return found

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        del receive
        head = scope["method"] == "HEAD"
        try:
            body = await to_thread.run_sync(self._body, scope)
        except BodyError as error:
            return await send_problem(send, problem(error.code, error.detail), head=head)
        except (CalculationUnknownError, PluginUnavailableError) as error:
            return await send_problem(send, unavailable(error), head=head)
        except NotHereError:
            return await send_problem(send, problem("path-unknown"), head=head)
        etag = etag_of(body)
        headers = ((b"etag", etag), (b"cache-control", b"no-cache"))
        if unchanged(scope, etag):
            return await send_unchanged(send, headers)
        return await send_bytes(send, 200, body, headers=headers, head=head)


class Jobs:
    """``POST /v1/jobs``: run in a worker thread, for a job takes many calculations."""

    def __init__(self, host: Host) -> None:
        """Keep the host."""
        self._host = host

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        from tundish.jobs import answer_job  # noqa: PLC0415  (pydantic waits for the first use)

        try:
            if scope["query_string"]:
                return await send_problem(send, problem("query-unknown"))
            document = await read_json(scope, receive)
            run = partial(answer_job, document, self._host, today=today())
            raw, _ = await to_thread.run_sync(run)
        except BodyError as error:
            return await send_problem(send, problem(error.code, error.detail))
        except RefusedRequest as refused:
            return await send_problem(send, refused.as_json())
        except ClientGoneError:
            return None
        except Exception:  # noqa: BLE001  (no trace leaves the process)
            _LOG.exception("a job failed")
            return await send_problem(send, problem("calculation-failed"))
        return await send_bytes(send, 200, raw)


class Index:
    """``/``: a plain list of the calculations, until the pages come."""

    def __init__(self, host: Host) -> None:
        """Keep the host."""
        self._host = host

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        del receive
        rows = "".join(
            f'<li><a href="/v1/calculations/{escape(entry.id)}">{escape(entry.title)}</a>: '
            f"{escape(entry.summary)}</li>"
            for _, (entry, _) in sorted(self._host.entries.items())
        )
        page = (
            '<!doctype html><html lang="en"><meta charset="utf-8"><title>tundish</title>'
            '<meta name="viewport" content="width=device-width">'
            "<h1>tundish</h1><p>Calculations for sealed heating and unvented hot water. A result is "
            "a calculation, not a permission.</p>"
            f'<ul>{rows}</ul><p><a href="/openapi.json">OpenAPI</a>, '
            '<a href="/v1/rules">rules</a>, <a href="/v1/plugins">plugins</a>, '
            '<a href="/v1/problems">problems</a></p></html>'
        ).encode()
        policy = ((b"content-security-policy", b"default-src 'none'; base-uri 'none'"),)
        await send_bytes(send, 200, page, HTML, policy, head=scope["method"] == "HEAD")


class _Outermost:
    """Answers what nothing inside answered: no trace leaves the process."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return await self.app(scope, receive, send)
        started = False

        async def watched(message: Any) -> None:
            nonlocal started
            started = True
            await send(message)

        try:
            return await self.app(scope, receive, watched)
        except Exception:
            _LOG.exception("%s %s failed", scope["method"], scope["path"])
            if started:
                raise
            return await send_problem(send, problem("calculation-failed"))


def _allowed(app: FastAPI, path: str) -> str:
    """Return every method that some route of this path takes."""
    methods: set[str] = set()
    for route in app.router.routes:
        if isinstance(route, Route) and route.path_regex.match(path):
            methods |= set(route.methods or ())
    return ", ".join(sorted(methods))


async def _framework_problem(request: Request, error: Exception) -> Response:
    """Turn the framework's own errors into problems."""
    from starlette.responses import Response as Plain  # noqa: PLC0415

    assert isinstance(error, HTTPException)
    body = problem(_STATUS_CODES.get(error.status_code, "request-invalid"))
    headers = dict(error.headers or {})
    if body["status"] == 405:  # noqa: PLR2004
        headers["Allow"] = _allowed(request.app, request.url.path)
    return Plain(as_json(body), body["status"], headers, media_type=PROBLEM.decode())


def create_app(host: Host | None = None) -> FastAPI:
    """Make the application. Nothing is imported of a calculation until it is asked for."""
    chosen = host if host is not None else default_host()
    app = FastAPI(title="tundish", docs_url=None, redoc_url=None, openapi_url=None)

    def openapi() -> dict[str, Any]:
        from tundish_api.openapi import document  # noqa: PLC0415  (loads every calculation)

        return document(chosen)

    def templates() -> dict[str, Any]:
        return {
            "job_templates": [
                {"id": template.id, "title": template.title, "summary": template.summary}
                for template, _ in chosen.templates.values()
            ]
        }

    def one_problem(code: str) -> dict[str, Any]:
        for item in reading.problems(chosen)["problems"]:
            if item["code"] == code:
                return item  # type: ignore[no-any-return]
        raise NotHereError(code)

    def template(name: str) -> dict[str, Any]:
        if name not in chosen.templates:
            raise NotHereError(name)
        return chosen.template(name)

    gets: dict[str, Get] = {
        "/v1/calculations": Get(partial(reading.calculations, chosen)),
        "/v1/calculations/{calculation}/schema": Get(
            partial(reading.schema, chosen), name="calculation"
        ),
        "/v1/calculations/{calculation}": Get(
            partial(reading.calculation, chosen), name="calculation"
        ),
        "/v1/job-templates": Get(templates),
        "/v1/job-templates/{template}": Get(template, name="template"),
        "/v1/rules": Get(partial(reading.rules, chosen), query=("region", "rule")),
        "/v1/sources": Get(partial(reading.sources, chosen)),
        "/v1/reference-cases": Get(partial(reading.reference_cases, chosen)),
        "/v1/plugins": Get(partial(reading.plugins, chosen), keep=False),
        "/v1/problems": Get(partial(reading.problems, chosen)),
        "/v1/problems/{code}": Get(one_problem, name="code"),
        "/health/live": Get(lambda: {"status": "live"}),
        "/health/ready": Get(partial(reading.ready, chosen), keep=False),
        "/openapi.json": Get(openapi),
    }
    app.router.redirect_slashes = False  # a path is right or it is not there
    routes = app.router.routes
    routes.append(Route("/v1/calculations/{calculation}", Calculate(chosen), methods=["POST"]))
    routes.append(Route("/v1/jobs", Jobs(chosen), methods=["POST"]))
    routes += [Route(path, endpoint, methods=["GET"]) for path, endpoint in gets.items()]
    routes.append(Route("/", Index(chosen), methods=["GET"]))
    app.add_exception_handler(HTTPException, _framework_problem)
    app.add_middleware(_Outermost)
    return app
