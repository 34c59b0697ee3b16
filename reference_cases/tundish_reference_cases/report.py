"""Reports of a run: JSON lines, Markdown, JUnit XML, a badge for each calculation."""

from __future__ import annotations

import json
from collections import Counter
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

from tundish_reference_cases.run import counts

if TYPE_CHECKING:
    from tundish_reference_cases.groups import Corpus
    from tundish_reference_cases.run import Outcome


def _case_line(outcome: Outcome) -> dict[str, Any]:
    judged = outcome.judgement
    line: dict[str, Any] = {
        "line": "case",
        "case": outcome.case["id"],
        "calculation": outcome.group.calculation,
        "level": outcome.case["level"],
        "verdict": judged.verdict,
    }
    if judged.digits is not None:
        line["digits"] = round(judged.digits, 1)
    if judged.reason:
        line["reason"] = judged.reason
    if judged.misses:
        line["misses"] = [
            {"pointer": m.pointer, "wanted": m.wanted, "got": m.got}
            | ({"difference": m.difference} if m.difference else {})
            for m in judged.misses
        ]
    return line


def json_lines(corpus: Corpus, tool: str, outcomes: list[Outcome]) -> str:
    """Return the report as a stream: a header, a line a case, a footer."""
    header = {
        "line": "header",
        "schema": "report/1",
        "corpus": corpus.version,
        "digest": corpus.digest,
        "tool": tool,
    }
    footer = {
        "line": "footer",
        "counts": {name: dict(count) for name, count in counts(outcomes).items()},
        "verdicts": dict(Counter(outcome.judgement.verdict for outcome in outcomes)),
    }
    lines = [header, *(_case_line(outcome) for outcome in outcomes), footer]
    return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in lines)


def badges(corpus: Corpus, outcomes: list[Outcome]) -> dict[str, dict[str, str]]:
    """Return a label for each calculation, such as ``42/42 required``."""
    return {
        name: {
            "label": name,
            "message": f"{c['required passed']}/{c['required']} required, corpus {corpus.version}",
        }
        for name, c in counts(outcomes).items()
    }


def markdown(corpus: Corpus, tool: str, outcomes: list[Outcome]) -> str:
    """Return a summary in Markdown."""
    lines = [
        f"# Reference cases {corpus.version}, {tool}",
        "",
        "| calculation | required | all |",
        "| --- | --: | --: |",
    ]
    for name, c in counts(outcomes).items():
        row = f"{c['required passed']}/{c['required']} | {c['passed']}/{c['cases']}"
        lines.append(f"| {name} | {row} |")
    failures = [outcome for outcome in outcomes if not outcome.passed]
    if failures:
        lines += ["", "## Not passed", ""]
    for outcome in failures:
        judged = outcome.judgement
        reason = f": {judged.reason}" if judged.reason else ""
        lines.append(f"- `{outcome.case['id']}` ({judged.verdict}){reason}")
        lines += [
            f"  - `{m.pointer}`: wanted {m.wanted}, got {m.got}" for m in outcome.judgement.misses
        ]
    return "\n".join(lines) + "\n"


def junit(tool: str, outcomes: list[Outcome]) -> str:
    """Return JUnit XML, one test a case."""
    skipped = sum(outcome.judgement.verdict == "skipped" for outcome in outcomes)
    failed = sum(not outcome.passed for outcome in outcomes) - skipped
    suite = ET.Element(
        "testsuite",
        {
            "name": f"reference cases, {tool}",
            "tests": str(len(outcomes)),
            "failures": str(failed),
            "skipped": str(skipped),
        },
    )
    for outcome in outcomes:
        test = ET.SubElement(
            suite,
            "testcase",
            {"classname": outcome.group.calculation, "name": outcome.case["id"]},
        )
        if outcome.passed:
            continue
        kind = "skipped" if outcome.judgement.verdict == "skipped" else "failure"
        words = [outcome.judgement.reason] if outcome.judgement.reason else []
        words += [f"{m.pointer}: wanted {m.wanted}, got {m.got}" for m in outcome.judgement.misses]
        ET.SubElement(test, kind, {"message": outcome.judgement.verdict}).text = "\n".join(words)
    return ET.tostring(suite, encoding="unicode") + "\n"
