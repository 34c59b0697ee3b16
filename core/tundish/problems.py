"""Problem documents of RFC 9457: what was wrong, where, and how to put it right."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tundish.contract import FieldError
    from tundish.refusals import Problem

_UNFILLED: Final = re.compile(r"\{[a-z_]+\}")


class RefusedRequest(Exception):  # noqa: N818
    """A request answered with problems instead of a record."""

    def __init__(self, errors: list[FieldError], problems: Mapping[str, Problem]) -> None:
        """Keep every error; the first one names the problem."""
        super().__init__(errors[0].code)
        self.errors = errors
        self.problems = problems

    @property
    def status(self) -> int:
        """The HTTP status of the first error."""
        return self.problems[self.errors[0].code].status

    def as_json(self) -> dict[str, Any]:
        """Return the problem document of RFC 9457."""
        return problem_json(self.errors, self.problems)


def problem_json(errors: list[FieldError], problems: Mapping[str, Problem]) -> dict[str, Any]:
    """Write errors as one problem document: the first names it, all are listed."""
    first = errors[0]
    problem = problems[first.code]
    body: dict[str, Any] = {
        "type": f"/v1/problems/{first.code}",
        "title": filled(problem.title, first.facts),
        "status": problem.status,
        "code": first.code,
        "detail": first.detail or filled(problem.title, first.facts),
        "remedy": filled(problem.remedy, first.facts),
    }
    if first.pointer:
        body["pointer"] = first.pointer
    if first.facts:
        body["facts"] = _plain(first.facts)
    if len(errors) > 1:
        body["errors"] = [
            {
                "code": error.code,
                "pointer": error.pointer,
                "detail": error.detail,
                "remedy": filled(problems[error.code].remedy, error.facts),
                **({"facts": _plain(error.facts)} if error.facts else {}),
            }
            for error in errors[:50]
        ]
    return body


def _fact(value: Any) -> str:
    if isinstance(value, dict):
        number = value["value"]  # words where it is not finite
        return f"{number if isinstance(number, str) else f'{number:.6g}'} {value['unit']}"
    if isinstance(value, float):
        return f"{value:.6g}"
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


def filled(text: str, facts: Mapping[str, Any]) -> str:
    """Put facts into the words of a problem; what is not known stays an ellipsis."""
    for name, value in facts.items():
        text = text.replace("{" + name + "}", _fact(value))
    return _UNFILLED.sub("…", text)


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(item) for item in value]
    if isinstance(value, (str, int, bool)) or value is None:
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else str(value)
    return str(value)
