"""The one layout of a group file: a short object on one line, everything else spread out.

``python -m tundish_reference_cases.write`` writes the package's own files so, manifest included.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tundish_reference_cases.groups import read_group
from tundish_reference_cases.shape import parse

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tundish_reference_cases.groups import Group

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


def manifest(told: dict[str, Any], groups: Iterable[Group]) -> dict[str, Any]:
    """Return the manifest with its list of groups counted anew."""
    listed = [
        {"path": group.path, "group": group.data["group"], "cases": len(group.data["cases"])}
        for group in groups
    ]
    kept = {name: told[name] for name in ("schema", "version", "licence", "title")}
    return {**kept, "cases": sum(int(item["cases"]) for item in listed), "groups": listed}


def rewrite(folder: Path) -> list[Path]:
    """Write every group of a folder in the one layout; return the files that changed."""
    changed = []
    for path in sorted(folder.rglob("*.json")):
        before = path.read_text(encoding="utf-8")
        found = parse(before)
        if not isinstance(found, dict) or found.get("schema") != "group/1":
            continue  # schemas and the manifest have layouts of their own
        after = document(found)
        if after != before:
            path.write_text(after, encoding="utf-8")
            changed.append(path)
    return changed


def main() -> int:
    """Write this package's groups in the one layout, and its manifest from what they hold."""
    package = Path(__file__).resolve().parent
    rewrite(package / "cases")
    at = package / "manifest.json"
    groups = [
        read_group(path.relative_to(package / "cases").as_posix(), path.read_text(encoding="utf-8"))
        for path in sorted((package / "cases").rglob("*.json"))
    ]
    at.write_text(document(manifest(parse(at.read_text(encoding="utf-8")), groups)), "utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
