"""Job documents for the conversion of a house."""

from __future__ import annotations

from tundish.hooks import JobTemplate, PluginInfo, hookimpl


@hookimpl
def tundish_plugin_info() -> PluginInfo:
    """Say who the plugin is."""
    return PluginInfo(title="Conversion to sealed and unvented", regions=("GB",))


@hookimpl
def tundish_job_templates() -> list[JobTemplate]:
    """Give the example house."""
    return [
        JobTemplate(
            id="example-house",
            title="An invented house to be converted",
            summary="Eleven rooms on two storeys and in the loft, an open-vented system, a buried "
            "gas run with readings, a store on the top floor, no drain near the boiler.",
            target="tundish_plugins.conversion.house:document",
        )
    ]
