"""Rules of an invented region; touches no calculation."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from tundish.hooks import PluginInfo, hookimpl

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Sample region (invented)", regions=("XS",), contract=">=1,<2")


@hookimpl
def tundish_rules() -> list[Traversable]:
    """Give the region and its rules."""
    here = files("tundish_region_sample")
    return [here / "region.json", here / "rules.json"]
