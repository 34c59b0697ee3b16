"""What a plugin can tell the host. Few hooks, declarative: they return descriptions.

Every hook is optional. A plugin is a module with ``@hookimpl`` functions, named by an entry point
in the group ``tundish``. It imports no pydantic: calculations are named by a dotted target that is
imported at first use.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import pluggy

if TYPE_CHECKING:
    from collections.abc import Iterable
    from importlib.resources.abc import Traversable
    from pathlib import Path

    from tundish.calculation import Finding
    from tundish.quantities.table import Spelling

PROJECT: Final = "tundish"
CONTRACT: Final = 1
"""Version of this contract; a plugin states the range it was written for."""

hookspec = pluggy.HookspecMarker(PROJECT)
hookimpl = pluggy.HookimplMarker(PROJECT)


@dataclass(frozen=True)
class PluginInfo:
    """Who a plugin is. ``contract`` is a range such as ``>=1,<2``."""

    title: str
    regions: tuple[str, ...] = ()
    licence: str = ""
    contact: str = ""
    contract: str = ">=1,<2"


@dataclass(frozen=True)
class CalculationEntry:
    """A calculation in the catalogue before it is imported.

    ``target`` is ``package.module:NAME`` of the :class:`~tundish.calculation.Calculation`.
    """

    id: str
    title: str
    summary: str
    family: str
    questions: tuple[str, ...]
    target: str


@dataclass(frozen=True)
class JobTemplate:
    """A job document to start from.

    ``target`` is ``package.module:function``, called without arguments; it returns the document.
    """

    id: str
    title: str
    summary: str
    target: str


@hookspec
def tundish_plugin_info() -> PluginInfo:  # type: ignore[empty-body]
    """Say who the plugin is. Called first. Added in 0.1."""


@hookspec
def tundish_calculations() -> Iterable[CalculationEntry]:  # type: ignore[empty-body]
    """Give calculations. An id that is taken is refused and both plugins are named. Added in 0.1."""


@hookspec
def tundish_rules() -> Iterable[Path | Traversable]:  # type: ignore[empty-body]
    """Give rules files and region files (JSON). Added in 0.1."""


@hookspec
def tundish_spellings() -> Iterable[tuple[str, Spelling]]:  # type: ignore[empty-body]
    """Give further spellings of units as ``(kind, Spelling)``; none may be redefined. Added in 0.1."""


@hookspec
def tundish_checks(calculation: str) -> Iterable[Finding]:  # type: ignore[empty-body]
    """Give further findings for a calculation, as declarations; no code runs. Added in 0.1."""


@hookspec
def tundish_job_templates() -> Iterable[JobTemplate]:  # type: ignore[empty-body]
    """Give job templates. Added in 0.1."""


@hookspec
def tundish_reference_groups() -> Iterable[Path | Traversable]:  # type: ignore[empty-body]
    """Give folders of reference cases that ``tundish verify`` runs too. Added in 0.1."""


@hookspec
def tundish_event(event: str, facts: dict[str, Any]) -> None:
    """Hear of ``loaded``, ``ran``, ``refused`` and ``failed``; what it raises is counted. 0.1."""
