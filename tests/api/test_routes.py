"""Every route answers what it says, with entity tags on what is only read."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator

from tundish.canonical import fingerprint

if TYPE_CHECKING:
    from tundish.host import Host

GETS = (
    "/v1/calculations",
    "/v1/job-templates",
    "/v1/rules",
    "/v1/sources",
    "/v1/reference-cases",
    "/v1/plugins",
    "/v1/problems",
    "/v1/problems/unit-missing",
    "/health/live",
    "/health/ready",
    "/openapi.json",
)


@pytest.mark.parametrize("path", GETS)
def test_get_with_entity_tag(client: Any, path: str) -> None:
    first = client.get(path)
    assert first.status_code == 200
    assert first.headers["content-type"] == "application/json"
    etag = first.headers["etag"]
    assert etag.startswith('W/"')
    for asked in (etag, etag.removeprefix("W/"), f'"other", {etag}', "*"):
        again = client.get(path, headers={"if-none-match": asked})
        assert again.status_code == 304, asked
        assert again.content == b""
        assert again.headers["etag"] == etag
    assert client.get(path, headers={"if-none-match": '"other"'}).content == first.content
    head = client.head(path)
    assert head.status_code == 200
    assert head.content == b""
    assert head.headers["etag"] == etag
    assert head.headers["content-length"] == str(len(first.content))


def test_catalogue(client: Any, host: Host) -> None:
    listed = client.get("/v1/calculations").json()["calculations"]
    assert [item["id"] for item in listed] == sorted(host.entries)
    assert all(set(item) == {"id", "title", "family", "summary"} for item in listed)


def test_description(client: Any, calculation: str) -> None:
    told = client.get(f"/v1/calculations/{calculation}").json()
    assert told["id"] == calculation
    assert told["questions"]
    assert told["example"]["inputs"]
    for field in (*told["inputs"], *told["outputs"]):
        assert field["help"], field
    assert any("unit" in field for field in told["inputs"])
    for method in told["methods"]:
        assert method["title"]


def test_example_and_schema(
    client: Any, calculation: str, examples: dict[str, dict[str, Any]]
) -> None:
    schema = client.get(f"/v1/calculations/{calculation}/schema").json()
    Draft202012Validator.check_schema(schema)
    judge = Draft202012Validator(schema)
    request = examples[calculation]
    judge.validate(request)
    assert not judge.is_valid({**request, "surprise": 1})
    assert not judge.is_valid({**request, "inputs": {**request["inputs"], "surprise": 1}})
    answer = client.post(f"/v1/calculations/{calculation}", json=request)
    assert answer.status_code == 200, answer.text
    record = answer.json()
    assert record["calculation"]["id"] == calculation
    assert record["working"]
    assert record["sources"]
    assert record["fingerprint"] == fingerprint(record)
    assert answer.content.rindex(b'"fingerprint"') > answer.content.rindex(b'"verdict"')


def _quantities(schema: Any) -> Any:
    """Every exact quantity of a schema: its branches by unit."""
    if isinstance(schema, dict):
        branches = schema.get("anyOf", [])
        found = [b for b in branches if "const" in b.get("properties", {}).get("unit", {})]
        if found:
            yield found
        for item in schema.values():
            yield from _quantities(item)
    elif isinstance(schema, list):
        for item in schema:
            yield from _quantities(item)


def test_exact_schema_has_a_range_for_each_unit(client: Any, calculation: str) -> None:
    schema = client.get(f"/v1/calculations/{calculation}/schema").json()
    found = list(_quantities(schema))
    assert found
    for branches in found:
        units = [branch["properties"]["unit"]["const"] for branch in branches]
        assert len(set(units)) == len(units)
        bounded = [
            {"minimum", "maximum"} & branch["properties"]["value"].keys() for branch in branches
        ]
        assert all(item == bounded[0] for item in bounded)


def test_bounds_of_the_exact_schema_are_the_ones_used(client: Any, host: Host) -> None:
    """A top-level quantity at its bound in any unit is read; a hair beyond is out of range."""
    tried = 0
    for name in sorted(host.entries):
        schema = client.get(f"/v1/calculations/{name}/schema").json()
        example = host.runner(name).calculation.example
        for field, told in schema["properties"]["inputs"]["properties"].items():
            for branches in [told["anyOf"]] if "anyOf" in told else []:
                for branch in branches:
                    value = branch.get("properties", {}).get("value", {})
                    if "maximum" not in value or "basis" in branch["properties"]:
                        continue
                    unit = branch["properties"]["unit"]["const"]
                    for number, inside in (
                        (value["maximum"], True),
                        (value["maximum"] + abs(value["maximum"]) * 1e-9 + 1e-9, False),
                    ):
                        body = {
                            "inputs": {**example, field: {"value": number, "unit": unit}},
                            "region": "GB",
                        }
                        answer = client.post(f"/v1/calculations/{name}?include=", json=body)
                        codes = _codes(answer)
                        out = ("value-out-of-range", f"/inputs/{field}") in codes
                        if inside and out:
                            # A kernel may refuse a joint range with the same code: not the field's.
                            assert "accepted" not in answer.json().get("facts", {}), (name, field)
                        if not inside:
                            assert out, (name, field, unit, number, codes)
                        tried += 1
    assert tried > 100


def _codes(answer: Any) -> set[tuple[str, str]]:
    if answer.status_code == 200:
        return set()
    body = answer.json()
    found = {(body["code"], body.get("pointer", ""))}
    return found | {(e["code"], e["pointer"]) for e in body.get("errors", ())}


def test_include(client: Any, calculation: str, examples: dict[str, Any]) -> None:
    path, request = f"/v1/calculations/{calculation}", examples[calculation]
    answers = {
        query: client.post(path + query, json=request).json()
        for query in ("", "?include=", "?include=charts", "?include=working,sources,charts")
    }
    parts = {"working", "sources", "charts"}
    assert answers[""].keys() & parts == {"working", "sources"}
    assert not answers["?include="].keys() & parts
    assert answers["?include=charts"].keys() & parts == {"charts"}
    assert answers["?include=working,sources,charts"].keys() & parts == parts
    told = [(a["outputs"], a["findings"], a["verdict"], a["cautions"]) for a in answers.values()]
    assert all(item == told[0] for item in told)


@pytest.mark.parametrize(
    "query",
    [
        "?include=everything",
        "?included=working",
        "?include=&include=",
        "?x",
        "?include=working&y=1",
    ],
)
def test_query_is_strict(
    client: Any, examples: dict[str, Any], is_problem: Any, query: str
) -> None:
    name = next(iter(examples))
    is_problem(client.post(f"/v1/calculations/{name}{query}", json=examples[name]), "query-unknown")
    is_problem(client.post(f"/v1/jobs{query}", json={}), "query-unknown")
    is_problem(client.get(f"/v1/calculations{query}"), "query-unknown")


def test_rules(client: Any) -> None:
    told = client.get("/v1/rules").json()
    assert {"GB"} <= {region["region"] for region in told["regions"]}
    assert told["rules"]
    for rule in told["rules"]:
        assert rule["editions"]
        for edition in rule["editions"]:
            assert edition["source"]["document"]
            assert edition["from"]
    one = told["rules"][0]
    chosen = client.get("/v1/rules", params={"region": one["region"], "rule": one["rule"]}).json()
    assert chosen["rules"] == [one]
    assert client.get("/v1/rules", params={"region": "nowhere"}).json()["rules"] == []


def test_sources_cases_and_plugins(client: Any, host: Host) -> None:
    assert all(item["document"] for item in client.get("/v1/sources").json()["sources"])
    corpora = client.get("/v1/reference-cases").json()["corpora"]
    judged = {group["calculation"] for corpus in corpora for group in corpus["groups"]}
    assert set(host.entries) <= judged
    plugins = client.get("/v1/plugins").json()["plugins"]
    assert all(plugin["status"] == "loaded" for plugin in plugins)
    assert client.get("/health/ready").json()["failed_plugins"] == []


def test_problem_pages(client: Any, is_problem: Any) -> None:
    listed = client.get("/v1/problems").json()["problems"]
    for item in listed:
        assert client.get(f"/v1/problems/{item['code']}").json() == item
        assert item["title"]
        assert item["remedy"]
    is_problem(client.get("/v1/problems/no-such-code"), "path-unknown")
    is_problem(client.get("/v1/job-templates/no-such"), "path-unknown")


def test_templates_run_as_jobs(client: Any) -> None:
    listed = client.get("/v1/job-templates").json()["job_templates"]
    assert listed
    for template in listed:
        document = client.get(f"/v1/job-templates/{template['id']}").json()
        answer = client.post("/v1/jobs", json=document)
        assert answer.status_code == 200, answer.text[:500]
        record = answer.json()
        assert record["calculations"].keys() == document["calculations"].keys()
        assert record["fingerprint"] == fingerprint(record)


def test_front_page(client: Any, host: Host) -> None:
    page = client.get("/")
    assert page.headers["content-type"] == "text/html; charset=utf-8"
    assert "default-src 'none'" in page.headers["content-security-policy"]
    for name in host.entries:
        assert f"/v1/calculations/{name}" in page.text
    assert "<script" not in page.text


def test_stateless_and_no_cors(client: Any, calculation: str, examples: dict[str, Any]) -> None:
    request = {**examples[calculation], "date": "2026-06-01"}
    origin = {"origin": "https://elsewhere.example"}
    answers = [
        client.post(f"/v1/calculations/{calculation}", content=json.dumps(request), headers=h)
        for h in (
            {"content-type": "application/json"},
            {"content-type": "application/json; charset=utf-8", **origin},
        )
    ]
    assert answers[0].content == answers[1].content
    for answer in answers:
        assert "set-cookie" not in answer.headers
        assert not [name for name in answer.headers if name.startswith("access-control")]
