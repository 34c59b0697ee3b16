"""The one layout of a group file: a short object on one line, everything else spread out."""

from __future__ import annotations

import json
from typing import Any

WIDTH = 96


def _flat(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def layout(value: Any, indent: int = 0) -> str:
    """Write a value; objects and lists that fit on a line stand on one."""
    flat = _flat(value)
    simple = isinstance(value, (dict, list)) and not _deep(value)
    if not isinstance(value, (dict, list)) or not value or (simple and len(flat) + indent <= WIDTH):
        return flat
    pad = " " * (indent + 2)
    if isinstance(value, dict):
        rows = [f"{pad}{_flat(key)}: {layout(item, indent + 2)}" for key, item in value.items()]
        opening, closing = "{", "}"
    else:
        rows = [f"{pad}{layout(item, indent + 2)}" for item in value]
        opening, closing = "[", "]"
    return opening + "\n" + ",\n".join(rows) + "\n" + " " * indent + closing


def _deep(value: Any) -> bool:
    """Whether an object nests further than a quantity with its tolerance."""
    inner = value.values() if isinstance(value, dict) else value
    for item in inner:
        if isinstance(item, (dict, list)):
            deeper = item.values() if isinstance(item, dict) else item
            if any(isinstance(part, (dict, list)) for part in deeper):
                return True
    return False


def document(value: Any) -> str:
    """Return the text of a group file."""
    return layout(value) + "\n"
