"""What is written about a run, the baseline, and the exit status of the command."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tundish_reference_cases.groups import Corpus
    from tundish_reference_cases.run import Outcome

import copy
import json
import sys
from xml.etree import ElementTree as ET

import jsonschema
import pytest

from tundish_reference_cases import command, report
from tundish_reference_cases.groups import schema
from tundish_reference_cases.judge import Answer
from tundish_reference_cases.run import against_baseline, counts, run
from tundish_reference_cases.write import document

RIGHT = """
def answer(calculation, request):
    if calculation != "tank-mass":
        return 404, {"detail": "no such calculation"}
    volume, count = request["inputs"]["volume"]["value"], request["inputs"]["count"]
    if volume <= 0:
        return 422, {"code": "out-of-range", "pointer": "/inputs/volume"}
    mass = float(volume) * max(count, 1)
    return 200, {"outputs": {"mass": {"value": mass * 1000, "unit": "g"}}}
"""


class Toy:
    """Right but for what it is told to get wrong."""

    name = "toy"

    def __init__(self, **wrong: Any) -> None:
        """Take case ids, with "_" for "-", and what is to be wrong with their answers."""
        self.wrong = {name.replace("_", "-"): kind for name, kind in wrong.items()}
        self.asked: list[tuple[str, str, dict[str, Any]]] = []

    def ask(self, case_id: Any, calculation: Any, request: Any) -> Any:
        """Answer, and remember what was asked."""
        self.asked.append((case_id, calculation, request))
        kind = self.wrong.get(case_id)
        if kind in {"skipped", "errored", "timed-out", "not-supported"}:
            return Answer(kind, reason="<because>")
        volume, count = request["inputs"]["volume"]["value"], request["inputs"]["count"]
        if kind == "refused-wrongly" or (volume <= 0 and kind != "value-wrongly"):
            return Answer("refused", {"code": "out-of-range", "pointer": "/inputs/volume"})
        mass = float(volume) * max(count, 1) * (1.5 if kind == "fail" else 1)
        unit = "l" if kind == "unit-wrong" else "kg"
        return Answer("value", {"outputs": {"mass": {"value": mass, "unit": unit}}})

    def close(self) -> None:
        """Nothing to let go of."""


ALL_WRONG = {
    "tank_0": "fail",
    "tank_1": "unit-wrong",
    "tank_2": "refused-wrongly",
    "tank_3": "skipped",
    "tank_4": "errored",
    "tank_5": "timed-out",
    "tank_6": "not-supported",
    "tank_7": "value-wrongly",
}


@pytest.fixture
def outcomes(group: dict[str, Any], corpus: Callable[..., Corpus]) -> Any:
    return run(corpus(group), Toy(**ALL_WRONG))


def test_run_gives_every_verdict(outcomes: list[Outcome]) -> None:
    found = {o.case["id"].replace("-", "_"): o.judgement.verdict for o in outcomes}
    assert found == {**ALL_WRONG, "tank_8": "pass"}
    assert counts(outcomes) == {
        "tank-mass": {"cases": 9, "passed": 1, "required": 9, "required passed": 1}
    }


def test_tool_sees_nothing_of_what_is_expected(
    group: dict[str, Any], corpus: Callable[..., Corpus]
) -> None:
    toy = Toy()
    assert all(o.passed for o in run(corpus(group), toy))
    for case_id, calculation, request in toy.asked:
        assert set(request) == {"inputs", "region", "date"}
        assert (calculation, case_id[:5]) == ("tank-mass", "tank-")


def test_run_chooses(group: dict[str, Any], corpus: Callable[..., Corpus]) -> None:
    group["cases"][4]["level"] = "informative"
    whole = corpus(group)
    assert len(run(whole, Toy(), cases=["tank-1", "tank-2"])) == 2
    assert [o.case["id"] for o in run(whole, Toy(), levels=["informative"])] == ["tank-4"]
    assert run(whole, Toy(), calculations=["bath-mass"]) == []


def test_json_lines_follow_their_schema(
    group: dict[str, Any], corpus: Callable[..., Corpus], outcomes: list[Outcome]
) -> None:
    lines = [
        json.loads(line) for line in report.json_lines(corpus(group), "toy", outcomes).splitlines()
    ]
    check = jsonschema.Draft202012Validator(schema("report-1"))
    for line in lines:
        check.validate(line)
    assert [line["line"] for line in lines] == ["header", *["case"] * 9, "footer"]
    assert lines[0]["digest"] == corpus(group).digest
    assert lines[1]["misses"][0]["difference"].startswith("+5 kg")
    assert lines[-1]["verdicts"]["pass"] == 1
    for broken in ({**lines[0], "surplus": 1}, {**lines[1], "verdict": "perhaps"}, {"line": "x"}):
        assert list(check.iter_errors(broken))


def test_digest_tells_any_change(group: dict[str, Any], corpus: Callable[..., Corpus]) -> None:
    changed = copy.deepcopy(group)
    changed["cases"][0]["title"] = "Another title"
    assert corpus(group).digest != corpus(changed).digest


def test_markdown_and_badges(
    group: dict[str, Any], corpus: Callable[..., Corpus], outcomes: list[Outcome]
) -> None:
    text = report.markdown(corpus(group), "toy", outcomes)
    assert "| tank-mass | 1/9 | 1/9 |" in text
    assert "- `tank-0` (fail)" in text
    assert "- `tank-4` (errored): <because>" in text
    assert "tank-8" not in text
    badge = report.badges(corpus(group), outcomes)["tank-mass"]
    assert badge["message"] == "1/9 required, corpus 2026.1"


def test_junit(outcomes: list[Outcome]) -> None:
    suite = ET.fromstring(report.junit("toy", outcomes))  # noqa: S314  (our own text)
    assert len(suite.findall("testcase")) == 9
    assert len(suite.findall("testcase/failure")) == int(suite.attrib["failures"]) == 7
    assert len(suite.findall("testcase/skipped")) == int(suite.attrib["skipped"]) == 1
    found = suite.find("testcase[@name='tank-0']/failure")
    assert found is not None
    assert "wanted 10 kg" in str(found.text)


# --- the baseline -----------------------------------------------------------------------------


def test_baseline(group: dict[str, Any], corpus: Callable[..., Corpus]) -> None:
    found = run(corpus(group), Toy(tank_0="fail", tank_1="fail"))
    known = [case["id"] for case in group["cases"]]

    def against(**baseline: Any) -> Any:
        unknown, stale = against_baseline(
            found, {name.replace("_", "-"): "why" for name in baseline}, known
        )
        return [o.case["id"] for o in unknown], stale

    assert against() == (["tank-0", "tank-1"], [])
    assert against(tank_0=1) == (["tank-1"], [])
    assert against(tank_0=1, tank_1=1) == ([], [])
    assert against(tank_0=1, tank_1=1, tank_2=1) == ([], ["tank-2"])
    assert against(tank_0=1, tank_1=1, never_was=1) == ([], ["never-was"])


def test_baseline_of_cases_not_asked_is_not_stale(
    group: dict[str, Any], corpus: Callable[..., Corpus]
) -> None:
    found = run(corpus(group), Toy(), cases=["tank-0"])
    known = [case["id"] for case in group["cases"]]
    assert against_baseline(found, {"tank-1": "why"}, known) == ([], [])


def test_skipping_a_required_case_is_not_passing_it(
    group: dict[str, Any], corpus: Callable[..., Corpus]
) -> None:
    group["cases"][1]["level"] = "recommended"
    found = run(corpus(group), Toy(tank_0="skipped", tank_1="skipped"))
    unknown, _ = against_baseline(found, {})
    assert [o.case["id"] for o in unknown] == ["tank-0"]


# --- the command ------------------------------------------------------------------------------


@pytest.fixture
def verify(
    group: dict[str, Any],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Any:
    """Run the command on the invented group against a callable."""
    folder = tmp_path / "cases" / "tank-mass" / "INT"
    folder.mkdir(parents=True)

    def go(*arguments: Any, tool: Any = RIGHT, target: Any = None) -> Any:
        (folder / "plain.json").write_text(document(group), encoding="utf-8")
        name = f"tool_{abs(hash(tool)):x}"
        (tmp_path / f"{name}.py").write_text(tool)
        monkeypatch.syspath_prepend(tmp_path)
        status = command.main(
            [
                *("--cases", str(tmp_path / "cases"), "--calculation", "tank-mass"),
                *("--target", target or f"{name}:answer"),
                *arguments,
            ]
        )
        said = capsys.readouterr()
        return status, said.out, said.err

    return go


def test_all_agree(verify: Any) -> None:
    status, out, _ = verify("--lint")
    assert status == 0
    assert "9/9" in out
    assert "9 cases, 0 failures" in out


def test_disagreement_is_explained(verify: Any) -> None:
    status, out, _ = verify(tool=RIGHT.replace("* 1000", "* 1010"))
    assert status == 1
    assert "fail: tank-mass tank-0: Tank 0 holds" in out
    assert "/outputs/mass: wanted 10 kg ± 1e-08, got 10.1 kg, off by +0.1 kg" in out
    assert "source: Invented standard, 1, table 1" in out
    assert "on site: The floor is loaded beyond what it carries." in out
    assert "2/9" in out


def test_lint_fault_fails(verify: Any, group: dict[str, Any]) -> None:
    group["cases"] = group["cases"][3:]
    status, out, _ = verify("--lint")
    assert status == 1
    assert "at least 8 are needed" in out
    assert verify()[0] == 0, "only when asked"


def test_json_is_json_only(verify: Any, group: dict[str, Any]) -> None:
    group["cases"] = group["cases"][3:]
    status, out, err = verify("--json", "--lint")
    assert status == 1
    assert [json.loads(line)["line"] for line in out.splitlines()][-1] == "footer"
    assert "at least 8" in err


def test_files_are_written(verify: Any, tmp_path: Path) -> None:
    names = ("report", "markdown", "junit", "badges")
    arguments = [text for name in names for text in (f"--{name}", str(tmp_path / name))]
    assert verify(*arguments)[0] == 0
    assert all((tmp_path / name).stat().st_size for name in names)


def test_baseline_file(verify: Any, tmp_path: Path) -> None:
    at = tmp_path / "known.json"
    wrong = RIGHT.replace("max(count, 1)", "max(count, 1) * (2 if count == 3 else 1)")
    assert verify("--baseline", str(at), tool=wrong)[0] == 2, "no such file"
    at.write_text('{"tank-3": "counts twice, issue 7"}')
    assert verify("--baseline", str(at), tool=wrong)[0] == 0
    status, out, _ = verify("--baseline", str(at))
    assert status == 1
    assert "the baseline names tank-3" in out
    at.write_text('{"tank-3": ""}')
    assert verify("--baseline", str(at), tool=wrong)[0] == 2, "no reason given"


def test_misuse(verify: Any) -> None:
    assert verify("--case", "no-such-case")[0] == 2
    assert verify(target="no_such_module:answer")[0] == 2
    assert verify(target="no-such-program --at-all")[0] == 2
    with pytest.raises(SystemExit) as left:
        verify("--no-such-option")
    assert left.value.code == 2
    assert command.main(["--write"]) == 2


def test_target_may_be_a_program(verify: Any, tmp_path: Path) -> None:
    program = tmp_path / "program.py"
    program.write_text(
        "import json, sys\n" + RIGHT + "\nfor line in sys.stdin:\n"
        "    m = json.loads(line)\n"
        "    if m['do'] == 'stop':\n"
        "        break\n"
        "    if m['do'] == 'start':\n"
        "        told = {'protocol': 1, 'name': 'program'}\n"
        "    else:\n"
        "        status, body = answer(m['calculation'], m['request'])\n"
        "        kind = 'value' if status == 200 else 'refused'\n"
        "        told = {'case': m['case'], 'answer': kind, 'body': body}\n"
        "    print(json.dumps(told), flush=True)\n"
    )
    status, out, _ = verify(target=f"{sys.executable} {program}")
    assert status == 0, out


def test_broken_group_names_the_file(verify: Any, group: dict[str, Any]) -> None:
    group["surplus"] = 1
    status, _, err = verify()
    assert status == 2
    assert "tank-mass/INT/plain.json: / has no member 'surplus'" in err


def test_write_gives_the_one_layout(
    group: dict[str, Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    at = tmp_path / "plain.json"
    at.write_text(json.dumps(group))
    assert command.main(["--write", "--cases", str(tmp_path)]) == 0
    assert "wrote" in capsys.readouterr().out
    assert at.read_text(encoding="utf-8") == document(group)
    assert json.loads(at.read_text(encoding="utf-8")) == group
    assert command.main(["--write", "--cases", str(tmp_path)]) == 0
    assert capsys.readouterr().out == ""
