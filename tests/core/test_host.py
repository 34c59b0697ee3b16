"""One plugin's failure is that plugin's alone, in process."""

from __future__ import annotations

from types import ModuleType
from typing import Any

import pytest

from tundish.answering import answer
from tundish.hooks import CalculationEntry, PluginInfo, hookimpl
from tundish.host import Host, Plugin

ENTRY = CalculationEntry("invented", "Invented", "Invented.", "invented", (), "nowhere:NONE")


def _module(**functions: Any) -> ModuleType:
    module = ModuleType("invented")
    for name, value in functions.items():

        def hook(value: Any = value) -> Any:
            if isinstance(value, Exception):
                raise value
            return value

        hook.__name__ = name
        setattr(module, name, hookimpl(hook))
    return module


def _load(module: ModuleType, name: str = "zz") -> tuple[Host, Plugin]:
    host = Host(extra=[(name, module)])
    return host, host.plugins[-1]


@pytest.mark.parametrize(
    ("hooks", "stage"),
    [
        ({"tundish_rules": RuntimeError("on purpose")}, "rules"),
        ({"tundish_calculations": RuntimeError("on purpose")}, "calculations"),
        ({"tundish_plugin_info": PluginInfo(title="Later", contract=">=2")}, "info"),
        ({"tundish_calculatoins": []}, "register"),
    ],
)
def test_a_failing_plugin_loses_itself(hooks: dict[str, Any], stage: str) -> None:
    host, plugin = _load(_module(**hooks))
    assert plugin.stage == stage
    assert plugin.reason
    assert all(p.loaded for p in host.plugins[:-1])


def test_ids_of_a_plugin_that_failed_later_are_unavailable() -> None:
    module = _module(tundish_calculations=[ENTRY], tundish_rules=RuntimeError("on purpose"))
    host, _ = _load(module)
    status, problem = answer("invented", {"inputs": {}}, host=host)
    assert status == 503
    assert "on purpose" in str(problem)


def test_a_name_that_is_taken_leaves_the_first_alone() -> None:
    host, plugin = _load(_module(), "hot_water")
    assert plugin.stage == "register"
    assert "hot-water-recovery" in host.entries
    assert any(rule.family == "hot-water" for rule in host.book.rules.values())
