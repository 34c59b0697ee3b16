"""Gas pipe sizing of the International Fuel Gas Code, as a region of its own."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from tundish.hooks import PluginInfo, hookimpl

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who this plugin is."""
    return PluginInfo(title="Gas rules of the United States", regions=("US",), licence="Apache-2.0")


@hookimpl
def tundish_rules() -> list[Traversable]:
    """Offer the region and its rules."""
    here = files("tundish_plugins.rules") / "us"
    return [here / "region.json", here / "gas.json"]
