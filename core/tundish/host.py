"""The host: finds plugins, keeps one that fails from harming the rest, and freezes a catalogue."""

from __future__ import annotations

import datetime as dt
import importlib
import os
import re
import threading
from dataclasses import dataclass, field, replace
from functools import partial
from importlib.metadata import entry_points
from typing import TYPE_CHECKING, Any, Final

import pluggy

from tundish import hooks
from tundish.quantities.kinds import KINDS, add_spelling, remove_spelling
from tundish.rules import Rulebook

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from importlib.metadata import EntryPoint

    from tundish.calculation import Calculation, Finding
    from tundish.hooks import CalculationEntry, JobTemplate, PluginInfo
    from tundish.run import Runner

GROUP: Final = "tundish"


@dataclass
class Plugin:
    """A plugin as the host knows it: loaded, or failed at a stage with a reason."""

    name: str
    distribution: str
    version: str
    info: PluginInfo | None = None
    stage: str = "loaded"
    reason: str = ""
    calculations: list[str] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)  # ids of a plugin that failed after naming them
    spellings: list[tuple[str, str]] = field(default_factory=list)

    @property
    def loaded(self) -> bool:
        """Whether the plugin is in use."""
        return self.stage == "loaded"

    def as_json(self) -> dict[str, Any]:
        """Return the plugin as ``GET /v1/plugins`` shows it."""
        body: dict[str, Any] = {
            "plugin": self.name,
            "distribution": self.distribution,
            "version": self.version,
            "status": "loaded" if self.loaded else "failed",
            "calculations": self.calculations or self.lost,
        }
        if self.info is not None:
            body["title"] = self.info.title
            body["regions"] = list(self.info.regions)
        if not self.loaded:
            body["stage"] = self.stage
            body["reason"] = self.reason
        if self.problems:
            body["problems"] = self.problems
        return body


class CalculationUnknownError(LookupError):
    """No plugin gives a calculation of that id."""


class PluginUnavailableError(RuntimeError):
    """The calculation is known, but its plugin could not give it."""

    def __init__(self, calculation: str, plugin: str, reason: str) -> None:
        """Say which plugin and why."""
        super().__init__(f"{calculation} is unavailable: plugin {plugin}: {reason}")
        self.calculation, self.plugin, self.reason = calculation, plugin, reason


def _fits(contract: str) -> bool:
    """Whether this host's contract lies in a range such as ``>=1,<2``."""
    for part in contract.split(","):
        found = re.fullmatch(r"\s*(>=|<=|==|<|>)\s*(\d+)\s*", part)
        if found is None:
            message = f"contract {contract!r} is not a range such as '>=1,<2'"
            raise ValueError(message)
        number = int(found[2])
        kept = {
            ">=": hooks.CONTRACT >= number,
            "<=": hooks.CONTRACT <= number,
            "==": hooks.CONTRACT == number,
            "<": hooks.CONTRACT < number,
            ">": hooks.CONTRACT > number,
        }[found[1]]
        if not kept:
            return False
    return True


def _given(module: Any) -> Any:
    return module


class Host:
    """Every plugin, calculation and rule of this process. Made once, then only read."""

    def __init__(
        self, extra: Iterable[tuple[str, Any]] = (), *, names: frozenset[str] | None = None
    ) -> None:
        """Load entry points (limited to ``names`` if given) and ``extra`` (name, module) pairs."""
        self._manager = pluggy.PluginManager(hooks.PROJECT)
        self._manager.add_hookspecs(hooks)
        self.plugins: list[Plugin] = []
        self.book = Rulebook()
        self.entries: dict[str, tuple[CalculationEntry, Plugin]] = {}
        self.templates: dict[str, tuple[JobTemplate, Plugin]] = {}
        self.event_failures = 0
        self._runners: dict[str, Runner] = {}
        self._lock = threading.RLock()
        self._hears = False
        for point in sorted(entry_points(group=GROUP), key=lambda p: p.name):
            if names is None or point.name in names:
                self._load(point.name, point.load, point)
        for name, module in extra:
            self._load(name, partial(_given, module), None)
        self._hears = bool(self._manager.hook.tundish_event.get_hookimpls())

    # --- loading ----------------------------------------------------------------------------------

    def _load(self, name: str, load: Callable[[], Any], point: EntryPoint | None) -> None:
        dist = point.dist if point is not None else None
        plugin = Plugin(
            name, dist.name if dist is not None else "", dist.version if dist is not None else ""
        )
        if any(known.name == name for known in self.plugins):
            # giving this one up by its name would take the first of that name away
            plugin.stage, plugin.reason = "register", f"the name {name} is taken"
            self.plugins.append(plugin)
            if os.environ.get("TUNDISH_PLUGINS") == "strict":
                raise ValueError(plugin.reason)
            return
        self.plugins.append(plugin)
        stage = "import"
        try:
            module = load()
            stage = "register"
            self._manager.register(module, name)
            self._manager.check_pending()
            stage = "info"
            plugin.info = self._call(name, "tundish_plugin_info", single=True)
            if plugin.info is not None and not _fits(plugin.info.contract):
                message = f"written for contract {plugin.info.contract}; this is {hooks.CONTRACT}"
                raise ValueError(message)  # noqa: TRY301
            for stage, collect in (  # noqa: B007  (named in the report of a failure)
                # ids first: those of a plugin that fails later are known to be lost
                ("calculations", self._collect_calculations),
                ("spellings", self._collect_spellings),
                ("rules", self._collect_rules),
                ("job-templates", self._collect_templates),
            ):
                collect(plugin)
        except Exception as error:
            self._give_up(plugin, stage, error)
            if os.environ.get("TUNDISH_PLUGINS") == "strict":
                raise

    def _give_up(self, plugin: Plugin, stage: str, error: Exception) -> None:
        plugin.stage = stage
        plugin.reason = f"{type(error).__name__}: {error}"
        if self._manager.has_plugin(plugin.name):
            self._manager.unregister(name=plugin.name)
        self.book.remove(plugin.name)
        for kind, text in plugin.spellings:
            remove_spelling(kind, text)
        for calculation in plugin.calculations:
            self.entries.pop(calculation, None)
        plugin.lost, plugin.calculations = plugin.calculations, []
        self.templates = {k: v for k, v in self.templates.items() if v[1] is not plugin}

    def _call(self, name: str, hook: str, *, single: bool = False, **arguments: Any) -> Any:
        """Call one plugin's implementation of a hook, so that a failure is that plugin's alone."""
        others = [p for n, p in self._manager.list_name_plugin() if n != name and p is not None]
        caller = self._manager.subset_hook_caller(hook, others)
        answers = caller(**arguments)
        if single:
            return answers[0] if answers else None
        return [item for answer in answers if answer is not None for item in answer]

    def _collect_spellings(self, plugin: Plugin) -> None:
        for kind, spelling in self._call(plugin.name, "tundish_spellings"):
            if KINDS[kind].spellings.get(spelling.text) != spelling:
                add_spelling(kind, spelling)
                plugin.spellings.append((kind, spelling.text))

    def _collect_rules(self, plugin: Plugin) -> None:
        self.book.add_files(self._call(plugin.name, "tundish_rules"), plugin.name)

    def _collect_calculations(self, plugin: Plugin) -> None:
        for entry in self._call(plugin.name, "tundish_calculations"):
            taken = self.entries.get(entry.id)
            if taken is not None:
                message = f"calculation {entry.id} is already given by plugin {taken[1].name}"
                raise ValueError(message)
            self.entries[entry.id] = (entry, plugin)
            plugin.calculations.append(entry.id)

    def _collect_templates(self, plugin: Plugin) -> None:
        for template in self._call(plugin.name, "tundish_job_templates"):
            if template.id in self.templates:
                message = f"job template {template.id} is already given"
                raise ValueError(message)
            self.templates[template.id] = (template, plugin)

    # --- use --------------------------------------------------------------------------------------

    def runner(self, calculation: str) -> Runner:
        """Return a calculation ready to run, importing it at first use.

        Raises :class:`CalculationUnknownError` or :class:`PluginUnavailableError`.
        """
        known = self._runners.get(calculation)
        if known is not None:
            return known
        with self._lock:
            if calculation not in self._runners:
                self._runners[calculation] = self._make(calculation)
        return self._runners[calculation]

    def _make(self, calculation: str) -> Runner:
        from tundish.run import Runner  # noqa: PLC0415  (brings pydantic: not before it is needed)

        found = self.entries.get(calculation)
        if found is None:
            for plugin in self.plugins:
                if calculation in plugin.lost:
                    raise PluginUnavailableError(calculation, plugin.name, plugin.reason)
            raise CalculationUnknownError(calculation)
        entry, plugin = found
        module, _, name = entry.target.partition(":")
        try:
            declared: Calculation = getattr(importlib.import_module(module), name)
            if declared.id != entry.id:
                message = f"{entry.target} is {declared.id}, not {entry.id}"
                raise ValueError(message)  # noqa: TRY301
            made = replace(
                declared,
                findings=(*declared.findings, *self._checks(entry.id)),
                extra={
                    **declared.extra,
                    "plugin": {
                        "name": plugin.name,
                        "distribution": plugin.distribution,
                        "version": plugin.version,
                    },
                },
            )
            return Runner(made)
        except Exception as error:
            reason = f"{type(error).__name__}: {error}"
            if reason not in plugin.problems:
                plugin.problems.append(f"{entry.id}: {reason}")
            raise PluginUnavailableError(entry.id, plugin.name, reason) from error

    def _checks(self, calculation: str) -> list[Finding]:
        """Findings other plugins add. A plugin that raises here loses its own findings only."""
        found: list[Finding] = []
        for plugin in self.plugins:
            if plugin.loaded:
                try:
                    found += self._call(plugin.name, "tundish_checks", calculation=calculation)
                except Exception as error:  # noqa: BLE001
                    plugin.problems.append(f"tundish_checks: {type(error).__name__}: {error}")
        return found

    def template(self, name: str) -> dict[str, Any]:
        """Return the job document of a template; ``KeyError`` when no plugin gives one."""
        template, _ = self.templates[name]
        module, _, function = template.target.partition(":")
        document: dict[str, Any] = getattr(importlib.import_module(module), function)()
        return document

    def ready(self, calculation: str) -> Runner | None:
        """Return a calculation ready to run, or none when its plugin cannot give it."""
        try:
            return self.runner(calculation)
        except PluginUnavailableError:
            return None

    def load_all(self) -> None:
        """Import every calculation, so that what is broken shows; breaks nothing itself."""
        for calculation in self.entries:
            self.ready(calculation)

    def reference_groups(self) -> list[Any]:
        """Folders of reference cases that plugins ship."""
        found = []
        for plugin in self.plugins:
            if plugin.loaded:
                try:
                    found += self._call(plugin.name, "tundish_reference_groups")
                except Exception as error:  # noqa: BLE001
                    plugin.problems.append(f"reference groups: {type(error).__name__}: {error}")
        return found

    def tell(self, event: str, **facts: Any) -> None:
        """Tell plugins of an event; a listener that raises is counted and otherwise ignored."""
        if not self._hears:
            return
        try:
            self._manager.hook.tundish_event(event=event, facts=facts)
        except Exception:  # noqa: BLE001
            self.event_failures += 1


_host: Host | None = None
_host_lock = threading.Lock()


def default_host() -> Host:
    """Return this process's host, made at first use from the installed plugins.

    ``TUNDISH_PLUGINS`` limits it: ``none``, a list of names, or ``strict`` to raise on a failure.
    """
    global _host  # noqa: PLW0603
    with _host_lock:
        if _host is None:
            chosen = os.environ.get("TUNDISH_PLUGINS", "")
            names = None if chosen in {"", "strict"} else frozenset(chosen.split(",")) - {"none"}
            _host = Host(names=names)
    return _host


def today() -> dt.date:
    """Return the date the host sets when a request has none."""
    return dt.datetime.now(tz=dt.UTC).date()
