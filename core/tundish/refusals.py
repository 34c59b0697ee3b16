"""Refusals: the answer when a number would be dishonest or unsafe."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


class Refusal(Exception):  # noqa: N818  (a refusal is an answer, not a fault)
    """No number can be given honestly. Carries a stable code, the field and how to put it right.

    ``pointer`` is a JSON Pointer into the request; kernels give it relative to the inputs and the
    host completes it.
    """

    def __init__(
        self,
        code: str,
        pointer: str = "",
        detail: str = "",
        context: dict[str, Any] | None = None,
    ) -> None:
        """Keep what the answer needs; the words are completed by the host."""
        super().__init__(detail or code)
        self.code = code
        self.pointer = pointer
        self.detail = detail
        self.context = context or {}


class RefusedRowsError(Exception):
    """Internal: every row of a column run was refused, so the kernel cannot go on."""


@dataclass(frozen=True)
class Refused:
    """A refusal code a calculation declares: what it means and how to put it right.

    ``title`` states what is wrong; ``remedy`` says what to do. Both may hold ``{names}`` that the
    kernel passes to ``require``.
    """

    code: str
    title: str
    remedy: str
    status: int = 422


@dataclass(frozen=True)
class Problem:
    """One entry of the registry of stable codes."""

    code: str
    status: int
    title: str
    remedy: str


def _problems(*rows: tuple[str, int, str, str]) -> dict[str, Problem]:
    return {row[0]: Problem(*row) for row in rows}


PROBLEMS: dict[str, Problem] = _problems(
    ("body-not-json", 400, "The body is not JSON", "Send one JSON object in UTF-8."),
    ("duplicate-key", 400, "A JSON object names a member twice", "Name each member once."),
    ("number-not-finite", 400, "A number is not finite", "Send finite numbers of sensible size."),
    ("body-too-deep", 400, "The JSON is nested too deeply", "Send the documented structure."),
    ("body-too-large", 413, "The body is too large", "Send less, or split the request."),
    (
        "media-type-unsupported",
        415,
        "The body is not application/json",
        "Send Content-Type: application/json.",
    ),
    ("not-acceptable", 406, "That representation is not offered", "Accept application/json."),
    ("path-unknown", 404, "There is nothing at this path", "See /v1/calculations."),
    (
        "method-not-allowed",
        405,
        "This path does not take that HTTP method",
        "Use a method listed in the Allow header.",
    ),
    ("request-invalid", 400, "The HTTP request cannot be read", "Send a well-formed request."),
    (
        "query-unknown",
        422,
        "The query is not one this path reads",
        "Use include= with working, sources, charts, or leave it out.",
    ),
    (
        "calculation-unknown",
        404,
        "There is no calculation of that name",
        "See /v1/calculations for the names.",
    ),
    (
        "plugin-unavailable",
        503,
        "The plugin that gives this calculation did not load",
        "See /v1/plugins for the reason; every other calculation works.",
    ),
    (
        "calculation-failed",
        500,
        "The calculation gave no finite answer",
        "This is our fault: report the request that caused it.",
    ),
    (
        "request-member-unknown",
        422,
        "The request has a member we do not read",
        "Send inputs, method, region, date and units only.",
    ),
    ("inputs-missing", 422, "The request has no inputs object", "Send an object named inputs."),
    ("object-expected", 422, "An object is expected here", "Send a JSON object."),
    ("field-missing", 422, "A required field is missing", "Give the field."),
    ("field-unknown", 422, "There is no field of that name", "Check the spelling in the schema."),
    ("unit-missing", 422, "A number without a unit", "Give the unit beside the number."),
    ("unit-unknown", 422, "A unit that is not read", "Use one of the accepted units."),
    ("unit-wrong-kind", 422, "A unit of another kind", "Use one of the accepted units."),
    ("basis-missing", 422, "The basis is missing", "Say which basis the number is on."),
    ("basis-unknown", 422, "A basis that is not read", "Use one of the accepted bases."),
    ("decimal-comma", 422, "A comma in a number", "Write decimals with a point."),
    ("quantity-unreadable", 422, "Not a quantity", "Give a number and a unit."),
    ("number-expected", 422, "A plain number is expected", "Give a number."),
    ("whole-number-expected", 422, "A whole number is expected", "Give a whole number."),
    ("text-expected", 422, "Text is expected", "Give text."),
    (
        "text-invalid",
        422,
        "The text is too long or has control characters",
        "Give short printable text.",
    ),
    ("flag-expected", 422, "true or false is expected", "Give true or false."),
    ("list-expected", 422, "A list is expected", "Give a JSON array."),
    ("choice-unknown", 422, "Not one of the choices", "Use one of the listed choices."),
    (
        "value-out-of-range",
        422,
        "The value is outside the range of this calculation",
        "Give a value inside the range, or have the case designed by a competent person.",
    ),
    ("rows-out-of-range", 422, "Too few or too many rows", "Give a number of rows in the range."),
    ("name-invalid", 422, "Not a usable name", "Give a short name of printable characters."),
    ("name-duplicate", 422, "Two rows have the same name", "Give each row its own name."),
    ("method-unknown", 422, "There is no method of that name", "Use one of the listed methods."),
    ("region-unknown", 422, "There are no rules for that region", "See /v1/rules for regions."),
    ("region-missing", 422, "The region is missing", "Give the region whose rules apply."),
    ("date-invalid", 422, "Not a date", "Give a day of the calendar, such as 2026-11-01."),
    (
        "units-unknown",
        422,
        "There is no unit profile of that name",
        "Use the name of a region that has a unit profile.",
    ),
    (
        "rule-missing",
        422,
        "The region has no rule that this calculation needs on that date",
        "Choose a region and date with rules, or add them in a regional plugin.",
    ),
    (
        "edition-unknown",
        422,
        "There is no such edition of the rule",
        "Use one of the listed editions.",
    ),
    (
        "outside-table",
        422,
        "The value lies outside the table",
        "Stay inside the table: it is never extrapolated. Beyond it, competent design is needed.",
    ),
    ("table-key-unknown", 422, "The table has no such row", "Use one of the listed names."),
    (
        "table-cell-doubtful",
        422,
        "The table's value is doubtful and is not used",
        "Read the cell in the published document, or use the physical method.",
    ),
    (
        "no-solution",
        422,
        "No value between the bounds satisfies the equation",
        "Check the inputs: nothing is extrapolated.",
    ),
    ("job-invalid", 422, "The job document cannot be read", "Follow the job schema."),
    ("link-unresolved", 422, "A link points at nothing", "Point at an output that exists."),
    ("link-cycle", 422, "The links of the job form a circle", "Break the circle."),
    (
        "link-kind",
        422,
        "A link joins two different kinds of quantity",
        "Link quantities of one kind.",
    ),
)
"""Codes of the host itself; calculations add their own."""
