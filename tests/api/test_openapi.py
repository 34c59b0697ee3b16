"""The OpenAPI document is valid, names every object, and client generators read all of it."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import validate

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture(scope="module")
def document(client: Any) -> dict[str, Any]:
    told: dict[str, Any] = client.get("/openapi.json").json()
    return told


def test_document_is_valid(document: dict[str, Any]) -> None:
    validate(document)
    for name, schema in document["components"]["schemas"].items():
        Draft202012Validator.check_schema(schema)
        assert name.isalnum(), name


def test_every_route_is_documented(document: dict[str, Any], client: Any, host: Any) -> None:
    told = {(path, m.upper()) for path, item in document["paths"].items() for m in item}
    app = client.app
    served = {
        (route.path, method)
        for route in app.router.routes
        for method in route.methods
        if method != "HEAD" and route.path not in {"/", "/openapi.json"}
    }
    served.discard(("/v1/calculations/{calculation}", "POST"))
    served |= {(f"/v1/calculations/{name}", "POST") for name in host.entries}
    assert told == served
    identifiers = [op["operationId"] for item in document["paths"].values() for op in item.values()]
    assert len(set(identifiers)) == len(identifiers)


def _inner(schema: Any, pointer: str) -> Iterator[tuple[str, Any]]:
    if isinstance(schema, dict):
        yield pointer, schema
        for key, item in schema.items():
            if key not in {"examples", "example", "default", "x-quantity", "enum"}:
                yield from _inner(item, f"{pointer}/{key}")
    elif isinstance(schema, list):
        for index, item in enumerate(schema):
            yield from _inner(item, f"{pointer}/{index}")


def test_no_object_is_nameless(document: dict[str, Any]) -> None:
    for name, component in document["components"]["schemas"].items():
        for pointer, schema in _inner(component, ""):
            if pointer and schema.get("type") == "object":
                pytest.fail(f"{name}{pointer} is an object without a name")


def test_quantities_are_annotated(document: dict[str, Any]) -> None:
    found = 0
    for _, schema in _inner(document["components"]["schemas"], ""):
        told = schema.get("x-quantity")
        if told is None:
            continue
        found += 1
        assert told["kind"]
        assert told["defaultUnit"] in told["units"]
        assert schema["description"]
        reference, text = schema["anyOf"]
        assert reference["$ref"].startswith("#/components/schemas/Quantity")
        assert text["maxLength"]
        for example in schema["examples"]:
            Draft202012Validator(text).validate(example)
    assert found > 40


def test_examples_fit_the_plain_schema(
    document: dict[str, Any], calculation: str, examples: dict[str, Any]
) -> None:
    post = document["paths"][f"/v1/calculations/{calculation}"]["post"]
    media = post["requestBody"]["content"]["application/json"]
    whole = {**media["schema"], "components": document["components"]}
    Draft202012Validator(whole).validate(media["example"])
    Draft202012Validator(whole).validate(examples[calculation])


def test_answers_fit_the_plain_schema(
    document: dict[str, Any], client: Any, calculation: str, examples: dict[str, Any]
) -> None:
    path = f"/v1/calculations/{calculation}"
    answers = document["paths"][path]["post"]["responses"]
    record = client.post(
        path + "?include=working,sources,charts", json=examples[calculation]
    ).json()
    schema = answers["200"]["content"]["application/json"]["schema"]
    Draft202012Validator({**schema, "components": document["components"]}).validate(record)
    refusal = client.post(path, json={"inputs": {"x": 1}}).json()
    schema = answers["422"]["content"]["application/problem+json"]["schema"]
    Draft202012Validator({**schema, "components": document["components"]}).validate(refusal)


@pytest.mark.slow
def test_a_python_client_is_generated_whole(document: dict[str, Any], tmp_path: Path) -> None:
    source = tmp_path / "openapi.json"
    source.write_text(json.dumps(document))
    made = subprocess.run(
        [
            sys.executable,
            "-m",
            "openapi_python_client",
            "generate",
            "--path",
            str(source),
            "--output-path",
            str(tmp_path / "client"),
            "--meta",
            "none",
        ],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        timeout=300,
    )
    told = made.stdout + made.stderr
    assert made.returncode == 0, told
    assert "WARNING parsing" not in told, told
    modules = {path.stem for path in (tmp_path / "client" / "api").rglob("*.py")}
    for item in document["paths"].values():
        for operation in item.values():
            assert operation["operationId"] in modules, told
