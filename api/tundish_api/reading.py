"""What the API tells of itself: catalogue, rules, sources, cases, plugins, problems."""

from __future__ import annotations

from importlib.metadata import entry_points
from typing import TYPE_CHECKING, Any

from tundish.refusals import PROBLEMS
from tundish.schemas import describe, exact_schema
from tundish.tables import PLAIN

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from tundish.host import Host
    from tundish.rules import Edition, Rule
    from tundish.sources import Source

CASES_GROUP = "tundish.reference_cases"


def calculations(host: Host) -> dict[str, Any]:
    """List the catalogue, without importing a calculation."""
    return {
        "calculations": [
            {
                "id": entry.id,
                "title": entry.title,
                "family": entry.family,
                "summary": entry.summary,
            }
            for _, (entry, _) in sorted(host.entries.items())
        ]
    }


def calculation(host: Host, name: str) -> dict[str, Any]:
    """Describe one calculation."""
    return describe(host.runner(name).calculation, host)


def schema(host: Host, name: str) -> dict[str, Any]:
    """Return the exact schema of one calculation's request."""
    return exact_schema(host.runner(name).calculation)


def _shown(rule: Rule, edition: Edition) -> Any:
    if rule.kind != "table":
        return edition.wire
    table = edition.value
    columns = [
        {"name": c.name, "kind": c.kind, **({"unit": c.unit} if c.kind not in PLAIN else {})}
        for c in table.columns
    ]
    return {"columns": columns, "rows": len(table.data)}


def rules(host: Host, chosen: Mapping[str, str]) -> dict[str, Any]:
    """List rules with every edition and its citation; ``region`` and ``rule`` choose."""
    found = []
    for (region, name), rule in sorted(host.book.rules.items()):
        if chosen.get("region", region) != region or chosen.get("rule", name) != name:
            continue
        editions = []
        for edition in rule.editions:
            told: dict[str, Any] = {
                "edition": edition.edition,
                "from": edition.start.isoformat(),
                "value": _shown(rule, edition),
                "source": edition.source.as_json(),
            }
            if edition.until is not None:
                told["until"] = edition.until.isoformat()
            editions.append(told)
        found.append(
            {
                "rule": name,
                "region": region,
                "family": rule.family,
                "kind": rule.kind,
                "meaning": rule.meaning,
                "plugin": rule.plugin,
                "editions": editions,
            }
        )
    regions = [
        {"region": r.code, "title": r.title, "based_on": r.based_on, "plugin": r.plugin}
        for r in host.book.regions.values()
    ]
    return {"regions": regions, "rules": found}


def _all_sources(host: Host) -> Iterator[Source]:
    for rule in host.book.rules.values():
        for edition in rule.editions:
            yield edition.source
    for name in host.entries:
        runner = host.ready(name)
        if runner is not None:
            declared = runner.calculation
            yield from declared.sources
            yield from (m.source for m in declared.methods if m.source is not None)
            yield from (f.source for f in declared.findings if f.source is not None)


def sources(host: Host) -> dict[str, Any]:
    """List every source that rules, methods and findings cite."""
    found: dict[tuple[str, str, str], Source] = {}
    for source in _all_sources(host):
        found.setdefault((source.id, source.document, source.locator), source)
    return {"sources": [found[key].as_json() for key in sorted(found)]}


def plugins(host: Host) -> dict[str, Any]:
    """List plugins, loaded or not, with the reason."""
    host.load_all()
    return {"plugins": [plugin.as_json() for plugin in host.plugins]}


def reference_cases(host: Host) -> dict[str, Any]:
    """List the groups of reference cases that installed packages ship."""
    corpora = []
    for point in sorted(entry_points(group=CASES_GROUP), key=lambda item: item.name):
        corpus = point.load().load(host.reference_groups())
        groups = [
            {
                "group": group.data["group"],
                "calculation": group.calculation,
                "title": group.data["title"],
                "cases": len(group.cases),
                "required": sum(case["level"] == "required" for case in group.cases),
            }
            for group in corpus.groups
        ]
        corpora.append(
            {
                "corpus": point.name,
                "version": corpus.version,
                "licence": corpus.licence,
                "digest": corpus.digest,
                "groups": groups,
            }
        )
    return {"corpora": corpora}


def problems(host: Host) -> dict[str, Any]:
    """List every problem code: the host's own, and each calculation's refusals."""
    found: dict[str, dict[str, Any]] = {
        problem.code: {
            "code": problem.code,
            "title": problem.title,
            "status": problem.status,
            "remedy": problem.remedy,
            "calculations": [],
        }
        for problem in PROBLEMS.values()
    }
    for name in sorted(host.entries):
        runner = host.ready(name)
        for refused in runner.calculation.refusals if runner is not None else ():
            told = found.setdefault(
                refused.code,
                {
                    "code": refused.code,
                    "title": refused.title,
                    "status": refused.status,
                    "remedy": refused.remedy,
                    "calculations": [],
                },
            )
            told["calculations"].append(name)
    return {"problems": [found[code] for code in sorted(found)]}


def ready(host: Host) -> dict[str, Any]:
    """Load everything and say what is missing."""
    host.load_all()
    failed = [plugin.name for plugin in host.plugins if not plugin.loaded or plugin.problems]
    return {"status": "ready", "calculations": len(host.entries), "failed_plugins": failed}
