"""The example house: invented, people and readings included."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any


def document() -> dict[str, Any]:
    """Return the job document of the example house."""
    text = (files("tundish_plugins.conversion") / "house.json").read_text(encoding="utf-8")
    found: dict[str, Any] = json.loads(text)
    return found
