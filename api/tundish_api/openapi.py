"""The OpenAPI document, written from the catalogue: every calculation's real schemas, named."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish._about import __version__
from tundish.schemas import camel, components, example_request

if TYPE_CHECKING:
    from tundish.calculation import Calculation
    from tundish.host import Host

_TEXT: Final = {"type": "string"}
# What a job passes on to a calculation: wrong words there refuse that calculation, not the job.
_WORD: Final = {"type": "string", "minLength": 1, "maxLength": 64}
_ANY_OBJECT: Final = {"type": "object", "additionalProperties": True}
_OBJECTS: Final = {"type": "array", "items": {"$ref": "#/components/schemas/AnyObject"}}

_COMMON: Final[dict[str, Any]] = {
    "AnyObject": {"title": "AnyObject", **_ANY_OBJECT},
    "Problem": {
        "title": "Problem",
        "description": "RFC 9457. code is stable; words may change.",
        "type": "object",
        "properties": {
            "type": _TEXT,
            "title": _TEXT,
            "status": {"type": "integer"},
            "code": _TEXT,
            "detail": _TEXT,
            "remedy": _TEXT,
            "pointer": _TEXT,
            "facts": {"$ref": "#/components/schemas/AnyObject"},
            "errors": _OBJECTS,
        },
        "required": ["type", "title", "status", "code", "detail", "remedy"],
        "additionalProperties": False,
    },
    "Job": {
        "title": "Job",
        "description": "A job document (job/1): calculations whose inputs may point at others.",
        "type": "object",
        "properties": {
            "schema": {"type": "string", "enum": ["job/1"]},
            "title": {"type": "string", "minLength": 1, "maxLength": 200},
            "notes": {"type": "string", "minLength": 1, "maxLength": 2000},
            "region": _WORD,
            "date": _WORD,
            "units": _WORD,
            "readings": {"$ref": "#/components/schemas/AnyObject"},
            "calculations": {"$ref": "#/components/schemas/JobCalculations"},
            "open_questions": _OBJECTS,
        },
        "required": ["schema", "title", "calculations"],
        "additionalProperties": False,
    },
    "JobCalculations": {
        "title": "JobCalculations",
        "type": "object",
        "minProperties": 1,
        "maxProperties": 200,
        "propertyNames": {"pattern": "^[A-Za-z0-9_-]*[A-Za-z0-9][A-Za-z0-9_-]*$"},
        "additionalProperties": {"$ref": "#/components/schemas/JobCalculation"},
    },
    "JobCalculation": {
        "title": "JobCalculation",
        "type": "object",
        "properties": {
            "calculation": {"type": "string", "minLength": 1, "maxLength": 100},
            "title": {"type": "string", "minLength": 1, "maxLength": 200},
            "inputs": {"$ref": "#/components/schemas/AnyObject"},
            "method": _WORD,
            "region": _WORD,
            "date": _WORD,
            "units": _WORD,
        },
        "required": ["calculation", "inputs"],
        "additionalProperties": False,
    },
    "JobResult": {
        "title": "JobResult",
        "type": "object",
        "properties": {
            "schema": {"type": "string", "enum": ["job-result/1"]},
            "title": _TEXT,
            "notes": _TEXT,
            "region": _TEXT,
            "date": _TEXT,
            "readings": {"$ref": "#/components/schemas/AnyObject"},
            "order": {"type": "array", "items": _TEXT},
            "listed": {"type": "array", "items": _TEXT},
            "calculations": {"$ref": "#/components/schemas/AnyObject"},
            "verdict": {"anyOf": [_TEXT, {"type": "null"}]},
            "incomplete": {"type": "boolean"},
            "not_computed": {"type": "array", "items": _TEXT},
            "attention": _OBJECTS,
            "open_questions": _OBJECTS,
            "cautions": _OBJECTS,
            "fingerprint": _TEXT,
        },
        "required": ["schema", "title", "calculations", "verdict", "fingerprint"],
        "additionalProperties": False,
    },
    "Inputs": {
        "title": "Inputs",
        "description": "The inputs as sent, as understood, and which defaults were put in.",
        "type": "object",
        "properties": {
            "given": {"$ref": "#/components/schemas/AnyObject"},
            "understood": {"$ref": "#/components/schemas/AnyObject"},
            "defaulted": {"$ref": "#/components/schemas/AnyObject"},
        },
        "required": ["given", "understood", "defaulted"],
        "additionalProperties": False,
    },
}

_PROBLEM_STATUS: Final = {
    400: "The request or its JSON cannot be read.",
    404: "There is nothing of that name.",
    405: "This path does not take that HTTP method.",
    413: "The body is too large.",
    415: "The body is not application/json.",
    422: "Refused: what is wrong, where, and how to put it right.",
    500: "Our fault.",
    503: "The plugin that gives this did not load.",
}


def _problems(*statuses: int) -> dict[str, Any]:
    return {
        str(status): {
            "description": _PROBLEM_STATUS[status],
            "content": {
                "application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}
            },
        }
        for status in statuses
    }


def _result(calculation: Calculation, outputs: str) -> dict[str, Any]:
    """Return the schema of a record."""
    members: dict[str, Any] = {
        "schema": {"type": "string", "enum": ["result/1"]},
        "calculation": {"$ref": "#/components/schemas/AnyObject"},
        "region": _TEXT,
        "date": _TEXT,
        "inputs": {"$ref": "#/components/schemas/Inputs"},
        "outputs": {"$ref": f"#/components/schemas/{outputs}"},
        "findings": {"$ref": "#/components/schemas/AnyObject"},
        "verdict": {
            "anyOf": [
                {"type": "string", "enum": ["met", "advisory", "not-met", "dangerous"]},
                {"type": "null"},
            ]
        },
        "cautions": _OBJECTS,
        "method": _TEXT,
        "working": _OBJECTS,
        "sources": _OBJECTS,
        "charts": {"$ref": "#/components/schemas/AnyObject"},
        "provenance": {"$ref": "#/components/schemas/AnyObject"},
        "fingerprint": _TEXT,
    }
    optional = {"method", "working", "sources", "charts"}
    return {
        "title": f"{camel(calculation.id)}Result",
        "type": "object",
        "properties": members,
        "required": [name for name in members if name not in optional],
        "additionalProperties": False,
    }


def _calculate(calculation: Calculation, request: str) -> dict[str, Any]:
    result = f"{camel(calculation.id)}Result"
    return {
        "post": {
            "operationId": "calculate_" + calculation.id.replace("-", "_"),
            "summary": calculation.title,
            "description": calculation.summary,
            "tags": [calculation.family],
            "parameters": [
                {
                    "name": "include",
                    "in": "query",
                    "required": False,
                    "description": "Parts beside the answer, joined by commas: working, sources, "
                    "charts; empty for none. Left out: working and sources.",
                    "schema": {
                        "type": "string",
                        "enum": ["", "working", "sources", "charts", "working,sources,charts"],
                    },
                }
            ],
            "requestBody": {
                "required": True,
                "content": {
                    "application/json": {
                        "schema": {"$ref": f"#/components/schemas/{request}"},
                        "example": example_request(calculation),
                    }
                },
            },
            "responses": {
                "200": {
                    "description": "The sealed record.",
                    "content": {
                        "application/json": {"schema": {"$ref": f"#/components/schemas/{result}"}}
                    },
                },
                **_problems(400, 404, 405, 413, 415, 422, 500, 503),
            },
        }
    }


def _get(
    operation: str,
    summary: str,
    *,
    name: str = "",
    query: tuple[str, ...] = (),
    also: tuple[int, ...] = (),
) -> dict[str, Any]:
    parameters: list[dict[str, Any]] = []
    if name:
        parameters.append(
            {
                "name": name,
                "in": "path",
                "required": True,
                "schema": {
                    "type": "string",
                    "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$",
                    "maxLength": 80,
                },
            }
        )
    parameters += [
        {
            "name": item,
            "in": "query",
            "required": False,
            "schema": {"type": "string", "maxLength": 80},
        }
        for item in query
    ]
    return {
        "get": {
            "operationId": operation,
            "summary": summary,
            "tags": ["catalogue"],
            **({"parameters": parameters} if parameters else {}),
            "responses": {
                "200": {
                    "description": summary,
                    "content": {
                        "application/json": {"schema": {"$ref": "#/components/schemas/AnyObject"}}
                    },
                },
                "304": {"description": "Unchanged since the entity tag that was sent."},
                **_problems(405, 422, 500, *also),
            },
        }
    }


def document(host: Host) -> dict[str, Any]:
    """Return the OpenAPI document of everything that loads."""
    schemas: dict[str, Any] = dict(_COMMON)
    paths: dict[str, Any] = {
        "/v1/calculations": _get("list_calculations", "Calculations by id, title and family"),
        "/v1/calculations/{calculation}": _get(
            "describe_calculation",
            "Everything a calculation declares",
            name="calculation",
            also=(404, 503),
        ),
        "/v1/calculations/{calculation}/schema": _get(
            "calculation_schema",
            "Exact JSON Schema of a request, with ranges for each unit",
            name="calculation",
            also=(404, 503),
        ),
    }
    for name in sorted(host.entries):
        runner = host.ready(name)
        if runner is None:
            continue
        request, outputs, found = components(runner.calculation)
        schemas.update(found)
        schemas[f"{camel(name)}Result"] = _result(runner.calculation, outputs)
        paths[f"/v1/calculations/{name}"] = _calculate(runner.calculation, request)
    paths["/v1/jobs"] = {
        "post": {
            "operationId": "run_job",
            "summary": "Run a document of linked calculations",
            "tags": ["jobs"],
            "requestBody": {
                "required": True,
                "content": {"application/json": {"schema": {"$ref": "#/components/schemas/Job"}}},
            },
            "responses": {
                "200": {
                    "description": "Every calculation's record, the verdict and what is open.",
                    "content": {
                        "application/json": {"schema": {"$ref": "#/components/schemas/JobResult"}}
                    },
                },
                **_problems(400, 405, 413, 415, 422, 500),
            },
        }
    }
    paths |= {
        "/v1/job-templates": _get("list_job_templates", "Job documents to start from"),
        "/v1/job-templates/{template}": _get(
            "job_template", "One of them", name="template", also=(404,)
        ),
        "/v1/rules": _get(
            "list_rules", "Rules with their editions and citations", query=("region", "rule")
        ),
        "/v1/sources": _get("list_sources", "Sources cited"),
        "/v1/reference-cases": _get("list_reference_cases", "Groups of reference cases"),
        "/v1/plugins": _get("list_plugins", "Plugins, loaded or not, with the reason"),
        "/v1/problems": _get("list_problems", "Problem codes"),
        "/v1/problems/{code}": _get("problem", "One problem code", name="code", also=(404,)),
        "/health/live": _get("live", "The process answers"),
        "/health/ready": _get("ready", "Everything that can load has loaded"),
    }
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "tundish",
            "version": __version__,
            "description": "Calculations for converting a house to sealed heating and unvented hot "
            "water. A result is a calculation, not a permission: gas, unvented and electrical work "
            "is for registered or competent persons.",
            "license": {"name": "Apache-2.0", "identifier": "Apache-2.0"},
        },
        "paths": paths,
        "components": {"schemas": schemas},
    }
