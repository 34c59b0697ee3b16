"""Reference cases as pytest items.

Two ways, neither needing a conftest file:

* ``pytest -p tundish_reference_cases.pytest_plugin --tundish-cases FOLDER``: each case of each group
  file under the folder is a test item, put to ``--tundish-target``;
* a test that takes the fixture ``tundish_case`` runs once a case of the corpus; the module says
  ``pytest_plugins = ["tundish_reference_cases.pytest_plugin"]``.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tundish_reference_cases.groups import load, read_group
from tundish_reference_cases.judge import Judgement, judge
from tundish_reference_cases.targets import CallableTarget, HttpTarget

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tundish_reference_cases.groups import Group
    from tundish_reference_cases.targets import Target

DEFAULT_TARGET = "tundish.verify_target:answer"


@dataclass(frozen=True)
class Case:
    """One case with the group it stands in."""

    group: Group
    case: dict[str, Any]

    @property
    def calculation(self) -> str:
        """The calculation it asks."""
        return self.group.calculation

    def put_to(self, target: Target) -> Judgement:
        """Ask the tool, which never sees what is expected, and judge its answer."""
        answer = target.ask(self.case["id"], self.calculation, self.case["request"])
        return judge(self.case, answer)

    def explain(self, judgement: Judgement) -> str:
        """Say what is not as the case says, where the value comes from, and what it leads to."""
        lines = [f"{judgement.verdict}: {self.case['id']}: {self.case['title']}"]
        lines += [judgement.reason] if judgement.reason else []
        for miss in judgement.misses:
            off = f", off by {miss.difference}" if miss.difference else ""
            lines.append(f"{miss.pointer or 'answer'}: wanted {miss.wanted}, got {miss.got}{off}")
        for name in self.case["sources"]:
            source = self.group.data["sources"][name]
            lines.append(f"source: {source['document']}, {source['edition']}, {source['locator']}")
        for name in self.case.get("flags", ()):
            consequence = self.group.data["flags"][name].get("consequence")
            lines += [f"on site: {consequence}"] if consequence else []
        return "\n".join(lines)


def _target(config: pytest.Config) -> Target:
    name = str(config.getoption("tundish_target", None) or DEFAULT_TARGET)
    return HttpTarget(name) if name.startswith(("http://", "https://")) else CallableTarget(name)


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the options."""
    options = parser.getgroup("tundish", "reference cases")
    options.addoption(
        "--tundish-cases",
        dest="tundish_cases",
        metavar="FOLDER",
        help="collect the group files under FOLDER: one test a case",
    )
    options.addoption(
        "--tundish-target",
        dest="tundish_target",
        metavar="T",
        help=f"module:callable or http address to put them to (default {DEFAULT_TARGET})",
    )


def pytest_configure(config: pytest.Config) -> None:
    """Have the folder collected when nothing else is named."""
    folder = config.getoption("tundish_cases", None)
    if folder and config.args_source != pytest.Config.ArgsSource.ARGS:
        config.args[:] = [folder]


def pytest_collect_file(file_path: Path, parent: pytest.Collector) -> GroupFile | None:
    """Collect a group file under the named folder."""
    folder = parent.config.getoption("tundish_cases", None)
    if not folder or file_path.suffix != ".json":
        return None
    above = Path(folder).resolve()
    if file_path != above and above not in file_path.parents:
        return None
    return GroupFile.from_parent(parent, path=file_path)


class GroupFile(pytest.File):
    """A group file; an unreadable one is a collection error that names the place."""

    def collect(self) -> Iterator[CaseItem]:
        """Give one item a case."""
        group = read_group(self.path.name, self.path.read_text(encoding="utf-8"))
        target = _target(self.config)
        for case in group.cases:
            item: CaseItem = CaseItem.from_parent(self, name=case["id"])
            item.case, item.target = Case(group, case), target
            yield item


class DisagreementError(Exception):
    """The tool does not agree with a case."""


class CaseItem(pytest.Item):
    """One case."""

    case: Case
    target: Target

    def runtest(self) -> None:
        """Put the case to the tool."""
        judgement = self.case.put_to(self.target)
        if judgement.verdict == "skipped":
            pytest.skip(judgement.reason or "the tool skips it")
        if judgement.verdict != "pass":
            raise DisagreementError(self.case.explain(judgement))

    def repr_failure(
        self,
        excinfo: pytest.ExceptionInfo[BaseException],
        style: Any = None,
    ) -> Any:
        """Show the disagreement without a traceback."""
        if isinstance(excinfo.value, DisagreementError):
            return str(excinfo.value)
        return super().repr_failure(excinfo, style)

    def reportinfo(self) -> tuple[Path, int | None, str]:
        """Name the case by its title."""
        return self.path, None, f"{self.name}: {self.case.case['title']}"


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run a test that takes ``tundish_case`` once a case."""
    if "tundish_case" in metafunc.fixturenames:
        chosen = [Case(group, case) for group, case in load().cases()]
        metafunc.parametrize("tundish_case", chosen, ids=[item.case["id"] for item in chosen])


@pytest.fixture(scope="session")
def tundish_target(request: pytest.FixtureRequest) -> Iterator[Target]:
    """Give the tool named by ``--tundish-target``, this installation by default."""
    target = _target(request.config)
    yield target
    target.close()
