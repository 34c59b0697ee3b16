"""Distributions of others, built as wheels: an invented region, and plugins broken on purpose."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest

SAMPLES = Path(__file__).parent / "samples"


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Build each sample as a wheel and install it into a folder of its own."""
    found = {}
    for name in ("region", "broken"):
        target, dist = tmp_path_factory.mktemp(name), tmp_path_factory.mktemp("dist")
        subprocess.run(
            [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(dist)],
            cwd=SAMPLES / name,
            check=True,
            capture_output=True,
            timeout=120,
        )
        (wheel,) = dist.glob("*.whl")
        with zipfile.ZipFile(wheel) as packed:
            packed.extractall(target)
        found[name] = target
    return found


def _run(folder: Path, *argv: str, stdin: str = "") -> str:
    done = subprocess.run(
        [sys.executable, *argv],
        input=stdin,
        env={**os.environ, "PYTHONPATH": str(folder)},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


EXAMPLES = """
import json
from tundish.host import default_host
from tundish.answering import answer
host = default_host()
out = {}
for name in sorted(host.entries):
    calculation = host.runner(name).calculation
    for date in ("2024-06-01", "2026-06-01"):
        for region in ("XS", "GB"):
            request = {"inputs": calculation.example, "region": region, "date": date}
            out[f"{name} {date} {region}"] = answer(name, request)
print(json.dumps(out))
"""


@pytest.fixture(scope="module")
def answers(installed: dict[str, Path]) -> dict[str, Any]:
    """The example of every calculation under the invented region and under GB, on two dates."""
    found: dict[str, Any] = json.loads(_run(installed["region"], "-c", EXAMPLES))
    return found


def test_the_invented_region_answers_every_example(answers: dict[str, Any]) -> None:
    bad = {k: v for k, v in answers.items() if " XS" in k and v[0] != 200}
    assert not bad


@pytest.mark.parametrize(
    ("date", "edition"),
    [("2024-06-01", "Invented XS:2020"), ("2026-06-01", "Invented XS:2025")],
)
@pytest.mark.parametrize(
    ("calculation", "rule"),
    [("gas-pipe-sizing", "gas-drop-limit-natural"), ("gas-pipe-sizing", "gas-fitting-lengths")],
)
def test_the_date_chooses_the_edition(
    answers: dict[str, Any], calculation: str, rule: str, date: str, edition: str
) -> None:
    _, body = answers[f"{calculation} {date} XS"]
    cited = [r for r in body["provenance"]["rules"] if r["rule"] == rule]
    assert [(r["region"], r["edition"]) for r in cited] == [("XS", edition)]


def test_the_limit_judges(answers: dict[str, Any]) -> None:
    found = []
    for region, date in (("GB", "2026-06-01"), ("XS", "2024-06-01"), ("XS", "2026-06-01")):
        _, body = answers[f"gas-pipe-sizing {date} {region}"]
        items = body["findings"]["drop-within-limit"]["items"]
        found += [item for item in items if item["item"] == "boiler"]
    now, earlier, later = found
    assert now["verdict"] == "met"
    assert earlier["verdict"] != "met"
    assert later["verdict"] != "met"
    assert earlier["value"]["unit"] == later["value"]["unit"] == "inH2O"
    assert earlier["value"]["value"] < later["value"]["value"]  # the table of added lengths


def test_what_the_region_does_not_change_is_what_it_is_based_on(answers: dict[str, Any]) -> None:
    _, body = answers["gas-pipe-sizing 2026-06-01 XS"]
    regions = {rule["rule"]: rule["region"] for rule in body["provenance"]["rules"]}
    assert regions["gas-drop-limit-natural"] == regions["gas-smell"] == "XS"
    assert regions["gas-registered-person"] == "GB"
    assert regions["gas-tubes"] == "INT"


@pytest.mark.parametrize("year", ["2020", "2025"])
def test_the_caution_is_the_regions(answers: dict[str, Any], year: str) -> None:
    date = {"2020": "2024-06-01", "2025": "2026-06-01"}[year]
    assert f"caution of {year}" in json.dumps(answers[f"gas-pipe-sizing {date} XS"])
    assert "Invented" not in json.dumps(answers[f"gas-pipe-sizing {date} GB"])


CHOICES = """
import json
from tundish.answering import answer
from tundish.host import default_host
found = {}
for date in ("2024-06-01", "2026-06-01"):
    example = default_host().runner("hot-water-recovery").calculation.example
    inputs = {k: v for k, v in example.items() if k != "cold_temperature"}
    vessel = default_host().runner("heating-expansion").calculation.example
    for region in ("XS", "GB"):
        more = {"region": region, "date": date}
        found[f"cold {date} {region}"] = answer("hot-water-recovery", {"inputs": inputs, **more})
        found[f"vessel {date} {region}"] = answer("heating-expansion", {"inputs": vessel, **more})
print(json.dumps(found))
"""


def test_default_method_and_units_are_the_regions(installed: dict[str, Path]) -> None:
    found = json.loads(_run(installed["region"], "-c", CHOICES))
    assert {v[0] for v in found.values()} == {200}
    for date, celsius in (("2024-06-01", 6), ("2026-06-01", 4)):
        cited = [
            r["value"]["value"]
            for r in found[f"cold {date} XS"][1]["provenance"]["rules"]
            if r["rule"] == "cold-water-temperature"
        ]
        assert cited == [celsius]
        own, other = (found[f"vessel {date} {region}"][1] for region in ("XS", "GB"))
        assert own["method"] == {"2024-06-01": "ashrae", "2026-06-01": "bs-7074"}[date]
        assert other["method"] == "en-12828"
        assert '"psi"' in json.dumps(own["outputs"])
        assert '"psi"' not in json.dumps(other["outputs"])


BROKEN = """
import json
from starlette.testclient import TestClient
from tundish_api.app import create_app
client = TestClient(create_app())
lost = client.post("/v1/calculations/sample-raising", json={"inputs": {}})
print(json.dumps([client.get("/v1/plugins").json(), lost.status_code, lost.json()]))
"""


def test_broken_plugins_lose_only_themselves(installed: dict[str, Path]) -> None:
    shown, status, problem = json.loads(_run(installed["broken"], "-c", BROKEN))
    text = json.dumps(shown)
    for name in ("zz_missing_import", "zz_taken_id", "zz_raising_hook"):
        assert name in text
    assert "raised on purpose" in text
    assert "tundish_no_such_module" in text
    assert status == 503
    assert "plugin-unavailable" in json.dumps(problem)
    listed = _run(installed["broken"], "-m", "tundish.cli", "list")
    assert "raised on purpose" in " ".join(listed.split())


def test_other_calculations_answer_beside_broken_plugins(installed: dict[str, Path]) -> None:
    found = json.loads(_run(installed["broken"], "-c", EXAMPLES))
    assert found["hot-water-recovery 2026-06-01 GB"][0] == 200
