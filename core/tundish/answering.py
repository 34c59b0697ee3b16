"""Answers for Python callers and for the reference cases: the same path the API takes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from tundish.host import (
    CalculationUnknownError,
    Host,
    PluginUnavailableError,
    default_host,
    today,
)

if TYPE_CHECKING:
    from collections.abc import Iterable


def unavailable(error: CalculationUnknownError | PluginUnavailableError) -> dict[str, Any]:
    """Return the problem document for a calculation that cannot be reached."""
    from tundish.contract import FieldError  # noqa: PLC0415
    from tundish.problems import problem_json  # noqa: PLC0415
    from tundish.refusals import PROBLEMS  # noqa: PLC0415

    if isinstance(error, PluginUnavailableError):
        code, detail, facts = "plugin-unavailable", str(error), {"plugin": error.plugin}
    else:
        code, detail, facts = "calculation-unknown", "There is no such calculation.", {}
    return problem_json([FieldError(code, "", detail, facts)], PROBLEMS)


def answer(
    calculation: str,
    request: dict[str, Any],
    *,
    parts: Iterable[str] | None = None,
    host: Host | None = None,
) -> tuple[int, dict[str, Any]]:
    """Answer a request: ``(200, record)`` or ``(status, problem document)``.

    ``request`` is the body of ``POST /v1/calculations/<id>``; ``parts`` chooses among working,
    sources and charts.
    """
    from tundish.problems import RefusedRequest  # noqa: PLC0415
    from tundish.run import DEFAULT_PARTS  # noqa: PLC0415

    host = host or default_host()
    try:
        runner = host.runner(calculation)
    except (CalculationUnknownError, PluginUnavailableError) as error:
        body = unavailable(error)
        return body["status"], body
    chosen = DEFAULT_PARTS if parts is None else frozenset(parts)
    try:
        raw, _ = runner.answer(request, host.book, today=today(), parts=chosen)
    except RefusedRequest as refused:
        return refused.status, refused.as_json()
    return 200, json.loads(raw)
