"""Rules of Great Britain, and the constants and tables that belong to no nation (``INT``)."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from tundish.hooks import PluginInfo, hookimpl

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who this plugin is."""
    return PluginInfo(title="Rules of Great Britain", regions=("INT", "GB"), licence="Apache-2.0")


@hookimpl
def tundish_rules() -> list[Traversable]:
    """Offer every rules file of both folders."""
    here = files("tundish_plugins.rules")
    return [
        file
        for region in ("int", "gb")
        for file in sorted((here / region).iterdir(), key=lambda item: item.name)
        if file.name.endswith(".json")
    ]
