"""``tundish verify``: run the reference cases against this installation, a service or a program.

Exit status: 0 everything agrees, 1 something does not, 2 misuse.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tundish_reference_cases import report
from tundish_reference_cases.groups import CorpusError, load
from tundish_reference_cases.lint import independent, lint
from tundish_reference_cases.run import against_baseline, counts, run
from tundish_reference_cases.shape import ShapeError, parse
from tundish_reference_cases.targets import (
    CallableTarget,
    HttpTarget,
    ProcessTarget,
    TargetError,
)
from tundish_reference_cases.write import rewrite

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tundish_reference_cases.groups import Corpus
    from tundish_reference_cases.run import Outcome
    from tundish_reference_cases.targets import Target

DEFAULT_TARGET = "tundish.verify_target:answer"
DEFAULT_FOLDERS = "tundish.verify_target:folders"


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="tundish verify", description=__doc__)
    add = parser.add_argument
    add("--calculation", action="append", default=[], metavar="ID", help="only this calculation")
    add("--case", action="append", default=[], metavar="ID", help="only this case")
    add("--level", action="append", default=[], help="only required, recommended or informative")
    add(
        "--target",
        default=DEFAULT_TARGET,
        metavar="T",
        help="module:callable, an http address, or a command that speaks JSON lines",
    )
    add("--process", action="store_true", help="the target is a command, whatever it looks like")
    add(
        "--map", metavar="FILE", help="for an http target of another shape: pointers ours to theirs"
    )
    add("--seconds", type=float, default=30.0, help="longest wait for one answer")
    add("--cases", action="append", default=[], metavar="FOLDER", help="a further folder of groups")
    add(
        "--baseline",
        metavar="FILE",
        help="expected failures, case id to reason; they must burn down",
    )
    add("--report", metavar="FILE", help="write JSON lines")
    add("--markdown", metavar="FILE", help="write a summary")
    add("--junit", metavar="FILE", help="write JUnit XML")
    add("--badges", metavar="FILE", help="write a label for each calculation")
    add("--json", action="store_true", help="print the report as JSON lines")
    add("--lint", action="store_true", help="check the corpus itself too")
    add("--write", action="store_true", help="with --cases: write its files in the one layout")
    return parser


def _say(text: str = "") -> None:
    print(text)  # noqa: T201


def _json_file(path: str) -> dict[str, Any]:
    found = parse(Path(path).read_text(encoding="utf-8"))
    if not isinstance(found, dict):
        message = f"{path} is not a JSON object"
        raise ShapeError(message)
    return found


def _target(options: argparse.Namespace) -> Target:
    if not options.process:
        if options.target.startswith(("http://", "https://")):
            mapping = _json_file(options.map) if options.map else None
            service = HttpTarget(options.target, mapping, options.seconds)
            service.reach()  # one plain word now, not one for every case
            return service
        if re.fullmatch(r"[\w.]+:\w+", options.target):
            return CallableTarget(options.target)
    return ProcessTarget(options.target, options.seconds)


def _folders(options: argparse.Namespace) -> list[Any]:
    """Folders named on the command line, and those that this installation's plugins ship."""
    folders: list[Any] = [Path(path) for path in options.cases]
    if options.target == DEFAULT_TARGET:
        module, _, name = DEFAULT_FOLDERS.partition(":")
        try:
            offered: Callable[[], list[Any]] = getattr(import_module(module), name)
            folders += offered()
        except ImportError:  # the corpus is used without the host
            pass
    return folders


def _failure(outcome: Outcome) -> None:
    judged, case = outcome.judgement, outcome.case
    _say(f"{judged.verdict}: {outcome.group.calculation} {case['id']}: {case['title']}")
    if judged.reason:
        _say(f"    {judged.reason}")
    for miss in judged.misses:
        off = f", off by {miss.difference}" if miss.difference else ""
        _say(f"    {miss.pointer or 'answer'}: wanted {miss.wanted}, got {miss.got}{off}")
    for name in case["sources"]:
        source = outcome.group.data["sources"][name]
        _say(f"    source: {source['document']}, {source['edition']}, {source['locator']}")
    for name in case.get("flags", ()):
        consequence = outcome.group.data["flags"][name].get("consequence")
        if consequence:
            _say(f"    on site: {consequence}")


def _summary(corpus: Corpus, tool: str, outcomes: list[Outcome]) -> None:
    _say(f"Reference cases {corpus.version} against {tool}")
    _say()
    _say(f"  {'calculation':<28}{'required':>12}{'all':>12}{'independent':>14}")
    for name, c in sorted(counts(outcomes).items()):
        chosen = [(o.group, o.case) for o in outcomes if o.group.calculation == name and o.required]
        required = f"{c['required passed']}/{c['required']}"
        every = f"{c['passed']}/{c['cases']}"
        _say(f"  {name:<28}{required:>12}{every:>12}{independent(chosen):>14}")
    _say()


def _write_reports(
    options: argparse.Namespace, corpus: Corpus, tool: str, outcomes: list[Outcome]
) -> None:
    texts: dict[str | None, Callable[[], str]] = {
        options.report: lambda: report.json_lines(corpus, tool, outcomes),
        options.markdown: lambda: report.markdown(corpus, tool, outcomes),
        options.junit: lambda: report.junit(tool, outcomes),
        options.badges: lambda: json.dumps(report.badges(corpus, outcomes), indent=2) + "\n",
    }
    for path, text in texts.items():
        if path:
            Path(path).write_text(text(), encoding="utf-8")


def _rewrite(folders: Sequence[str]) -> int:
    if not folders:
        message = "--write needs --cases FOLDER"
        raise ShapeError(message)
    for folder in folders:
        for path in rewrite(Path(folder)):
            _say(f"wrote {path}")
    return 0


def _baseline(path: str | None) -> dict[str, str]:
    found = _json_file(path) if path else {}
    for name, reason in found.items():
        if not isinstance(reason, str) or not reason:
            message = f"{path}: {name} needs a reason"
            raise ShapeError(message)
    return found


def _verify(options: argparse.Namespace) -> int:
    corpus = load(_folders(options))
    faults = lint(corpus) if options.lint else []
    if options.calculation:
        chosen = ("case id ", *options.calculation)
        faults = [f for f in faults if f.startswith(chosen)]
    baseline = _baseline(options.baseline)
    target = _target(options)
    try:
        outcomes = run(
            corpus,
            target,
            calculations=options.calculation,
            cases=options.case,
            levels=options.level,
        )
    finally:
        target.close()
    known = [case["id"] for _, case in corpus.cases()]
    unknown, stale = against_baseline(outcomes, baseline, known)
    _write_reports(options, corpus, target.name, outcomes)
    if options.json:
        sys.stdout.write(report.json_lines(corpus, target.name, outcomes))
    else:
        for outcome in outcomes:
            if not outcome.passed:
                _failure(outcome)
        _summary(corpus, target.name, outcomes)
        _say(f"{len(outcomes)} cases, {sum(not o.passed for o in outcomes)} failures")
    aside = sys.stderr if options.json else sys.stdout  # standard output stays JSON lines
    for name in stale:
        print(f"the baseline names {name}, which fails no more: take it out", file=aside)
    for text in faults:
        print(f"corpus: {text}", file=aside)
    if not outcomes:
        print("no case was chosen", file=aside)
        return 2
    return 1 if unknown or stale or faults else 0


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command; returns the exit status."""
    options = _parser().parse_args(argv)
    try:
        return _rewrite(options.cases) if options.write else _verify(options)
    except (CorpusError, ShapeError, TargetError, OSError) as error:
        print(f"tundish verify: {error}", file=sys.stderr)  # noqa: T201
        return 2


if __name__ == "__main__":
    raise SystemExit(main())
