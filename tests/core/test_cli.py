"""The command, run in process through its ``main``; a few times as people start it."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator

import tundish.host
from tundish import __version__, answer
from tundish.canonical import fingerprint
from tundish.cli import main
from tundish.hooks import CalculationEntry, hookimpl
from tundish.host import Host, default_host
from tundish.schemas import example_request

if TYPE_CHECKING:
    from collections.abc import Callable

    Run = Callable[..., tuple[int, str, str]]

CALCULATIONS = sorted(default_host().entries)
RECOVERY = "hot-water-recovery"
EXAMPLE: dict[str, Any] = example_request(default_host().runner(RECOVERY).calculation)
RELIEF = ("relief.heat_input=30 kW net", "relief.set_pressure=3 bar")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run a command line: exit status, what it prints, what it says on stderr."""
    monkeypatch.setenv("COLUMNS", "100")

    def call(*argv: str, stdin: str = "") -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "stdin", io.StringIO(stdin))
        try:
            status = main(argv)
        except SystemExit as stop:  # argparse
            status = int(stop.code or 0)
        told = capsys.readouterr()
        assert "Traceback" not in told.err
        return status, told.out, told.err

    return call


def _file(tmp_path: Path, value: Any) -> str:
    path = tmp_path / "given.json"
    path.write_bytes(value if isinstance(value, bytes) else json.dumps(value).encode())
    return str(path)


# --- what there is --------------------------------------------------------------------------------


def test_version(run: Run) -> None:
    assert run("--version") == (0, f"tundish {__version__}\n", "")


def test_list(run: Run) -> None:
    status, out, err = run("list")
    assert (status, err) == (0, "")
    assert all(name in out for name in CALCULATIONS)
    assert "UNAVAILABLE" not in out
    status, out, _ = run("list", "--json")
    told = json.loads(out)
    assert status == 0
    assert [item["id"] for item in told["calculations"]] == CALCULATIONS
    assert all(item["available"] and item["summary"] for item in told["calculations"])
    assert {plugin["status"] for plugin in told["plugins"]} == {"loaded"}


def test_list_shows_what_is_broken(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    @hookimpl
    def tundish_calculations() -> list[CalculationEntry]:
        return [CalculationEntry("lost", "Lost", "Lost.", "x", ("Where?",), "nowhere_at_all:X")]

    module = ModuleType("lost")
    module.tundish_calculations = tundish_calculations  # type: ignore[attr-defined]
    monkeypatch.setattr(tundish.host, "_host", Host(extra=[("lost", module)], names=frozenset()))
    status, out, _ = run("list")
    assert (status, out.count("UNAVAILABLE")) == (0, 1)
    assert "nowhere_at_all" in out
    assert not json.loads(run("list", "--json")[1])["calculations"][0]["available"]
    status, out, err = run("calculate", "lost", "x=1")
    assert (status, out) == (2, "")
    assert "lost is unavailable" in err


@pytest.mark.parametrize("calculation", CALCULATIONS)
def test_describe_and_schema(calculation: str, run: Run) -> None:
    declared = default_host().runner(calculation).calculation
    status, out, err = run("describe", calculation)
    assert (status, err) == (0, "")
    assert declared.title in out
    assert all(method.id in out for method in declared.methods)
    status, out, _ = run("describe", calculation, "--json")
    assert (status, json.loads(out)["id"]) == (0, calculation)
    status, out, _ = run("schema", calculation)
    schema = json.loads(out)
    assert status == 0
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(example_request(declared))


# --- one calculation ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("argv", "verdict", "status"),
    [
        ((RECOVERY,), "met", 0),
        (("u-value",), None, 0),
        (("condensate-pump-head",), "advisory", 0),
        ((RECOVERY, "target_time=5 min"), "not-met", 1),
        (("condensate-pump-head", *RELIEF), "dangerous", 1),
    ],
)
def test_exit_status_follows_the_verdict(
    argv: tuple[str, ...], verdict: str | None, status: int, run: Run
) -> None:
    found, out, err = run("calculate", *argv, "--example", "--json")
    record = json.loads(out)
    assert (found, record["verdict"], err) == (status, verdict, "")
    assert record["fingerprint"] == fingerprint(record)
    assert record["working"]
    found, out, err = run("calculate", *argv, "--example")
    assert (found, err) == (status, "")
    word = {"met": "met", None: "Answers"}.get(verdict, str(verdict).replace("-", " "))
    assert word.lower() in out.lower().replace("-", " ")
    assert "sha256:" in out


def test_values_files_and_stdin_are_one_request(run: Run, tmp_path: Path) -> None:
    """In every way of giving it, a request gets the answer that Python callers get."""
    request = {**EXAMPLE, "date": "2026-06-01"}
    _, expected = answer(RECOVERY, request)
    path, bare = _file(tmp_path, request), tmp_path / "bare.json"
    bare.write_text(json.dumps(request["inputs"]), encoding="utf-8")
    words = [f"{name}={json.dumps(value)}" for name, value in request["inputs"].items()]
    where = ("--region", "GB", "--date", "2026-06-01")
    for argv, stdin in (
        (("--input", path), ""),
        (("--input", "-"), json.dumps(request)),
        (("--input", str(bare), *where), ""),
        (("--example", *where), ""),
        ((*words, *where), ""),
        ((*where, *words), ""),
    ):
        status, out, err = run("calculate", RECOVERY, "--json", *argv, stdin=stdin)
        assert (status, err) == (0, "")
        assert json.loads(out)["fingerprint"] == expected["fingerprint"]


def test_values_replace_what_the_example_and_the_file_say(run: Run, tmp_path: Path) -> None:
    path = _file(tmp_path, {"inputs": {**EXAMPLE["inputs"], "store_volume": "250 l"}})
    for argv, litres in (
        (("--input", path), 250),
        (("--input", path, "store_volume=300 l"), 300),
        (("--example", "store_volume=180 l"), 180),
        (("--example", 'store_volume={"value": 150, "unit": "l"}'), 150),
        (("--example", "store_volume.value=170"), 170),
    ):
        status, out, _ = run("calculate", RECOVERY, *argv, "--json")
        assert status in {0, 1}
        told = json.loads(out)["inputs"]["understood"]["store_volume"]
        assert told == {"value": pytest.approx(litres), "unit": "l"}


def test_dots_go_into_groups_and_rows(run: Run) -> None:
    rows = (
        "layers.0.name=brick",
        "layers.0.thickness=220 mm",
        "layers.0.conductivity=0.77 W/(m.K)",
    )
    more = ("layers.1.name=wool", "layers.1.resistance=2 m2.K/W")
    status, out, _ = run("calculate", "u-value", *rows, *more, "--json")
    assert status == 0
    assert [row["name"] for row in json.loads(out)["inputs"]["given"]["layers"]] == [
        "brick",
        "wool",
    ]


def test_a_row_goes_by_its_name(run: Run) -> None:
    named = ("layers.insulation and studs.thickness=150 mm", "layers.cavity.resistance=0.2 m2.K/W")
    _, out, _ = run("calculate", "u-value", "--example", *named, "--json")
    given = {row["name"]: row for row in json.loads(out)["inputs"]["given"]["layers"]}
    assert given["insulation and studs"]["thickness"] == "150 mm"
    assert given["cavity"] == {"name": "cavity", "resistance": "0.2 m2.K/W"}


def test_members_of_the_request(run: Run) -> None:
    members = ("--method", "constant-power", "--date", "2026-06-01", "--units", "INT")
    _, out, _ = run("calculate", RECOVERY, "--example", *members, "--json")
    record = json.loads(out)
    assert (record["method"], record["date"]) == ("constant-power", "2026-06-01")
    assert record["provenance"]["units"] == "INT"


def test_working_charts_and_markdown(run: Run) -> None:
    _, plain, _ = run("calculate", RECOVERY, "--example")
    status, full, _ = run("calculate", RECOVERY, "--example", "--working")
    assert status == 0
    assert len(full.splitlines()) > 2 * len(plain.splitlines())
    status, markdown, _ = run("calculate", RECOVERY, "--example", "--markdown")
    assert status == 0
    assert markdown.startswith("# ")
    assert "\x1b" not in plain + full + markdown
    _, out, _ = run("calculate", RECOVERY, "--example", "--json", "--charts")
    assert json.loads(out)["charts"]


def test_refused(run: Run) -> None:
    argv = ("calculate", RECOVERY, "--example", "flow_temperature=55", "store_volume=9000 l")
    status, out, err = run(*argv)
    assert (status, out) == (1, "")
    assert "refused at /inputs/flow_temperature: " in err
    assert "refused at /inputs/store_volume: " in err
    assert "[unit-missing]" in err
    assert "[value-out-of-range]" in err
    status, out, err = run(*argv, "--json")
    assert (status, err) == (1, "")
    assert {e["code"] for e in json.loads(out)["errors"]} == {"unit-missing", "value-out-of-range"}


@pytest.mark.parametrize(
    "argv",
    [
        (),
        ("store_volume=NaN",),
        ("store_volume=1e999",),
        ("store_volume=" + "9" * 5000,),
        ("store_volume=" + "[" * 100_000,),
        ("store_volume.value=NaN",),
        ("=5",),
        ("no_such=5",),
        ("--region", "ZZ"),
        ("--date", "yesterday"),
        ("--method", "none"),
        ("--units", "ZZ"),
    ],
)
def test_refused_readably_whatever_is_typed(argv: tuple[str, ...], run: Run) -> None:
    status, out, err = run("calculate", RECOVERY, *(["--example"] if argv else []), *argv)
    assert (status, out) == (1, "")
    assert err.startswith("refused")
    assert len(err) < 3000


def test_a_name_in_a_file_cannot_steer_the_terminal(run: Run, tmp_path: Path) -> None:
    inputs = {**EXAMPLE["inputs"], "\x1b[2J\u009b\u202e": 1}
    _, out, err = run("calculate", RECOVERY, "--input", _file(tmp_path, inputs))
    assert "refused at /inputs/\\u001b[2J\\u009b\\u202e: " in err
    job = _job(calculations={"store": {"calculation": RECOVERY, "inputs": inputs}})
    _, out, _ = run("job", _file(tmp_path, job))
    assert "\\u001b" in out
    assert not any(sign in out + err for sign in "\x1b\u009b\u202e")


# --- misuse ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("argv", "words"),
    [
        ((), "required"),
        (("nonsense",), "nonsense"),
        (("list", "--nonsense"), "--nonsense"),
        (("list", "a=b"), "a=b"),
        (("describe",), "ID"),
        (("describe", "no-such"), "'no-such'"),
        (("schema", "no-such"), "tundish list"),
        (("calculate", "no-such", "a=1"), "'no-such'"),
        (("calculate", "hot-water"), f"Near it: hot-water-expansion, {RECOVERY}"),
        (("calculate", RECOVERY, "store_volume"), "not name=value"),
        (("calculate", RECOVERY, "--nonsense"), "--nonsense"),
        (("calculate", RECOVERY, "--input"), "--input"),
        (("calculate", RECOVERY, "--input", "/no/such/file.json"), "cannot be read"),
        (
            ("calculate", RECOVERY, "--example", "store_volume.value.x=1"),
            "holds a value, not fields",
        ),
        (("calculate", RECOVERY, 'a={"b": 1, "b": 2}'), "twice"),
        (("calculate", "u-value", "layers.1.name=x"), "without gaps"),
        (("calculate", "u-value", "layers.0.name=x", "layers.²=y"), "without gaps"),
        (("calculate", "u-value", "layers.0.name=x", "layers.².name=y"), "without gaps"),
        (("job",), "--template"),
        (("job", "--template", "no-such"), "example-house"),
        (("job", "/no/such/file.json"), "cannot be read"),
        (("job", "a.json", "b.json"), "b.json"),
    ],
)
def test_misuse(argv: tuple[str, ...], words: str, run: Run) -> None:
    status, out, err = run(*argv)
    assert (status, out) == (2, "")
    assert words in err
    assert len(err.splitlines()) < 8


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "is not JSON"),
        (b"{", "is not JSON"),
        (b"hello", "is not JSON"),
        (b"{} {}", "is not JSON"),
        (b"\xff\xfe", "cannot be read"),
        (b'{"inputs": {"a": NaN}}', "NaN is not JSON"),
        (b'{"inputs": {"a": -Infinity}}', "-Infinity is not JSON"),
        (b'{"inputs": {"a": 1, "a": 2}}', "twice"),
        (b'{"inputs": ' + b"9" * 5000 + b"}", "is not JSON"),
        (b"[" * 200_000, "is not JSON"),
        (b" " * 10_000_001, "larger than"),
    ],
)
@pytest.mark.parametrize("command", [("calculate", RECOVERY, "--input"), ("job",)])
def test_files_that_are_no_json(
    content: bytes, words: str, command: tuple[str, ...], run: Run, tmp_path: Path
) -> None:
    status, out, err = run(*command, _file(tmp_path, content))
    assert (status, out) == (2, "")
    assert words in err
    assert err.startswith("tundish: ")


@pytest.mark.parametrize("request_", [[], "x", 5, None])
def test_a_request_that_is_no_object(request_: Any, run: Run, tmp_path: Path) -> None:
    status, _, err = run("calculate", RECOVERY, "--input", _file(tmp_path, request_))
    assert status == 2
    assert "JSON object" in err


@pytest.mark.parametrize("inputs", [[], "x", 5, None])
def test_inputs_that_are_no_object(inputs: Any, run: Run, tmp_path: Path) -> None:
    path = _file(tmp_path, {"inputs": inputs})
    assert run("calculate", RECOVERY, "--input", path)[0] == 1
    status, out, err = run("calculate", RECOVERY, "--input", path, "store_volume=210 l")
    assert (status, out) == (2, "")
    assert err.startswith("tundish: store_volume")


# --- jobs -----------------------------------------------------------------------------------------


def _job(**members: Any) -> dict[str, Any]:
    recovery = {"calculation": RECOVERY, "inputs": EXAMPLE["inputs"]}
    job = {"schema": "job/1", "title": "Invented", "date": "2026-06-01"}
    return {**job, "calculations": {"store": recovery}, **members}


def _with(**inputs: Any) -> dict[str, Any]:
    return {"store": {"calculation": RECOVERY, "inputs": {**EXAMPLE["inputs"], **inputs}}}


@pytest.mark.parametrize(
    ("document", "verdict", "status"),
    [
        (_job(), "met", 0),
        (_job(open_questions=[{"question": "Which drain?"}]), "incomplete", 1),
        (_job(calculations=_with(store_volume={"open": "How big?"})), "incomplete", 1),
        (_job(calculations=_with(store_volume=210)), "incomplete", 1),
        (_job(calculations=_with(target_time="5 min")), "not-met", 1),
    ],
)
def test_a_job_from_a_file_and_from_stdin(
    document: Any, verdict: str, status: int, run: Run, tmp_path: Path
) -> None:
    path = _file(tmp_path, document)
    answers = [
        run("job", path, "--json"),
        run("job", "-", "--json", stdin=json.dumps(document)),
    ]
    assert answers[0] == answers[1]
    found, out, err = answers[0]
    record = json.loads(out)
    assert (found, record["verdict"], err) == (status, verdict, "")
    assert record["fingerprint"] == fingerprint(record)
    found, out, err = run("job", path)
    assert (found, err) == (status, "")
    assert verdict.replace("-", " ") in out.lower().replace("-", " ")


def test_the_template(run: Run, tmp_path: Path) -> None:
    status, out, err = run("job", "--template", "example-house", "--document")
    document = json.loads(out)
    assert (status, err) == (0, "")
    assert document == default_host().template("example-house")
    path = _file(tmp_path, document)
    told = [run("job", "--template", "example-house"), run("job", path)]
    assert told[0] == told[1]
    status, out, _ = told[0]
    assert status == 1  # it holds a danger on purpose
    assert "DANGEROUS" in out
    assert document["title"][:30] in out
    status, markdown, _ = run("job", path, "--markdown")
    assert status == 1
    assert markdown.startswith("# ")
    assert "- **DANGEROUS** " in markdown
    status, out, _ = run("job", path, "--json")
    assert (status, json.loads(out)["verdict"]) == (1, "dangerous")
    assert len(run("job", path, "--working")[1]) > 2 * len(told[0][1])


@pytest.mark.parametrize(
    ("document", "where"),
    [
        ([], "refused: "),
        ({}, "refused at /schema: "),
        (_job(calculations={}), "refused at /calculations: "),
        (
            _job(calculations=_with(store_volume={"from": "/none/outputs/x"})),
            "refused at /calculations/store/inputs/store_volume: ",
        ),
        (_job(title="a\x1b[2Jb"), "refused at /title: "),
        (_job(title="\ud800"), "refused at /title: "),
    ],
)
def test_a_job_that_cannot_be_read(document: Any, where: str, run: Run, tmp_path: Path) -> None:
    path = _file(tmp_path, document)
    status, out, err = run("job", path)
    assert (status, out) == (1, "")
    assert err.startswith(where)
    status, out, err = run("job", path, "--json")
    assert (status, err) == (1, "")
    assert json.loads(out)["status"] == 422


# --- as people start it ---------------------------------------------------------------------------


def _start(*argv: str, stdin: str = "") -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [str(Path(sys.executable).parent / "tundish"), *argv],
        input=stdin,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )


def test_started() -> None:
    done = _start("calculate", RECOVERY, "--input", "-", stdin=json.dumps(EXAMPLE))
    assert (done.returncode, done.stderr) == (0, "")
    done = _start(
        "calculate", RECOVERY, "--input", "-", "store_volume=5", stdin=json.dumps(EXAMPLE)
    )
    assert (done.returncode, done.stdout) == (1, "")
    assert "[unit-missing]" in done.stderr
    done = _start("calculate")
    assert (done.returncode, done.stdout) == (2, "")


def test_a_reader_that_has_had_enough() -> None:
    """``tundish ... | head -1`` ends quietly, however much was still to come."""
    tundish_ = Path(sys.executable).parent / "tundish"
    with subprocess.Popen(
        [str(tundish_), "job", "--template", "example-house", "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as started:
        assert started.stdout is not None
        assert started.stderr is not None
        started.stdout.read(1)
        started.stdout.close()
        assert started.stderr.read() == b""


def test_other_commands_are_found(run: Run) -> None:
    for name in ("serve", "verify"):
        status, out, err = run(name, "--help")
        assert (status, err) == (0, "")
        assert name in out
