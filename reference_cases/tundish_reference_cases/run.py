"""Running the corpus against a tool, and what came of it."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish_reference_cases.judge import Judgement, judge

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from tundish_reference_cases.groups import Corpus, Group
    from tundish_reference_cases.targets import Target


@dataclass(frozen=True)
class Outcome:
    """One case and how it came out."""

    group: Group
    case: dict[str, Any]
    judgement: Judgement

    @property
    def passed(self) -> bool:
        """Whether the tool agreed with the case."""
        return self.judgement.verdict == "pass"

    @property
    def required(self) -> bool:
        """Whether a conforming tool must agree."""
        return bool(self.case["level"] == "required")


def run(
    corpus: Corpus,
    target: Target,
    *,
    calculations: Iterable[str] = (),
    cases: Iterable[str] = (),
    levels: Iterable[str] = (),
    told: Callable[[Outcome], None] | None = None,
) -> list[Outcome]:
    """Ask the tool every chosen case, in order."""
    wanted, chosen, ranks = set(calculations), set(cases), set(levels)
    outcomes = []
    for group, case in corpus.cases():
        if (
            (wanted and group.calculation not in wanted)
            or (chosen and case["id"] not in chosen)
            or (ranks and case["level"] not in ranks)
        ):
            continue
        answer = target.ask(case["id"], group.calculation, case["request"])
        outcome = Outcome(group, case, judge(case, answer))
        outcomes.append(outcome)
        if told is not None:
            told(outcome)
    return outcomes


def counts(outcomes: list[Outcome]) -> dict[str, Counter[str]]:
    """Return how many cases of each calculation there are, and how many passed."""
    found: dict[str, Counter[str]] = defaultdict(Counter)
    for outcome in outcomes:
        count = found[outcome.group.calculation]
        count["cases"] += 1
        count["passed"] += outcome.passed
        if outcome.required:
            count["required"] += 1
            count["required passed"] += outcome.passed
    return dict(found)


def against_baseline(
    outcomes: list[Outcome], baseline: dict[str, str], known: Iterable[str] = ()
) -> tuple[list[Outcome], list[str]]:
    """Return failures the baseline does not know, and its entries that no longer fail.

    A required case that the tool skips has not been shown to be right, so it counts as a failure.
    An entry is stale when its case passes, or when ``known`` has no such case.
    """
    failing = {
        o.case["id"]
        for o in outcomes
        if not o.passed and (o.judgement.verdict != "skipped" or o.required)
    }
    settled = {o.case["id"] for o in outcomes} - failing
    there = settled | failing | set(known)
    unknown = [o for o in outcomes if o.case["id"] in failing and o.case["id"] not in baseline]
    stale = [name for name in baseline if name in settled or (known and name not in there)]
    return unknown, stale
