"""Charts a calculation declares; drawn as Vega-Lite from the written result, data inline."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

SCHEMA = "https://vega.github.io/schema/vega-lite/v5.json"
_DASHES = ([1, 0], [6, 3], [2, 2], [8, 3, 2, 3], [1, 3])


@dataclass(frozen=True)
class Series:
    """One curve: its name and pointers to its x and y columns. ``*`` draws one curve an item."""

    name: str
    x: str
    y: str


@dataclass(frozen=True)
class Level:
    """A horizontal line at a single value, such as a limit or a target."""

    name: str
    y: str


@dataclass(frozen=True)
class LineChart:
    """Curves over one axis."""

    id: str
    title: str
    series: tuple[Series, ...]
    levels: tuple[Level, ...] = ()

    def build(self, result: dict[str, Any]) -> dict[str, Any]:
        """Return the Vega-Lite specification with its data."""
        rows: list[dict[str, Any]] = []
        x_unit = y_unit = ""
        for series in self.series:
            for name, x, y in _curves(result, series):
                x_unit, y_unit = x["unit"], y["unit"]
                rows += [
                    {"x": a, "y": b, "curve": name}
                    for a, b in zip(x["values"], y["values"], strict=True)
                ]
        names = list(dict.fromkeys(row["curve"] for row in rows))
        ends = (min(r["x"] for r in rows), max(r["x"] for r in rows)) if rows else (0, 1)
        for level in self.levels:
            for _, value in _select(result, level.y):
                if value is not None:
                    rows += [{"x": end, "y": value["value"], "curve": level.name} for end in ends]
                    names.append(level.name)
        x_title = _axis(self.series[0].x, x_unit)
        y_title = _axis(self.series[0].y, y_unit)
        return {
            "$schema": SCHEMA,
            "title": self.title,
            "description": f"{self.title}: {y_title} against {x_title}; {', '.join(names)}.",
            "data": {"values": rows},
            "mark": {"type": "line", "interpolate": "linear"},
            "encoding": {
                "x": {"field": "x", "type": "quantitative", "title": x_title},
                "y": {
                    "field": "y",
                    "type": "quantitative",
                    "title": y_title,
                    "scale": {"zero": False},
                },
                "strokeDash": {
                    "field": "curve",
                    "type": "nominal",
                    "title": None,
                    "sort": names,
                    "scale": {
                        "domain": names,
                        "range": [_DASHES[i % len(_DASHES)] for i in range(len(names))],
                    },
                },
            },
        }


@dataclass(frozen=True)
class BarChart:
    """Stacked bars, one an item of a list."""

    id: str
    title: str
    items: str
    label: str
    bars: tuple[tuple[str, str], ...]  # (name shown, field of the item)

    def build(self, result: dict[str, Any]) -> dict[str, Any]:
        """Return the Vega-Lite specification with its data."""
        rows: list[dict[str, Any]] = []
        unit = ""
        found: list[Any] = next(iter(_select(result, self.items)), ("", []))[1] or []
        for item in found:
            for name, member in self.bars:
                value = item.get(member)
                if value is not None:
                    unit = value["unit"] if isinstance(value, dict) else ""
                    amount = value["value"] if isinstance(value, dict) else value
                    rows.append({"item": item[self.label], "part": name, "value": amount})
        parts = [name for name, _ in self.bars]
        return {
            "$schema": SCHEMA,
            "title": self.title,
            "description": f"{self.title}: {len(found)} bars of {', '.join(parts)} in {unit}.",
            "data": {"values": rows},
            "mark": {"type": "bar", "stroke": "black", "strokeWidth": 0.5},
            "encoding": {
                "y": {"field": "item", "type": "nominal", "title": None, "sort": None},
                "x": {"field": "value", "type": "quantitative", "title": unit, "stack": "zero"},
                "color": {
                    "field": "part",
                    "type": "nominal",
                    "title": None,
                    "sort": parts,
                    "scale": {"scheme": "greys", "domain": parts},
                },
            },
        }


def _axis(pointer: str, unit: str) -> str:
    words = pointer.rpartition("/")[2].replace("_", " ")
    return f"{words} ({unit})" if unit else words


def _select(result: Any, pointer: str) -> list[tuple[str, Any]]:
    """Every value a pointer names with the name of its item; ``*`` stands for each of a list."""
    here: list[tuple[str, Any]] = [("", result)]
    for segment in pointer.split("/")[1:]:
        step: list[tuple[str, Any]] = []
        for name, value in here:
            if segment == "*" and isinstance(value, list):
                step += [
                    (str(item.get("name", index)) if isinstance(item, dict) else str(index), item)
                    for index, item in enumerate(value)
                ]
            elif isinstance(value, dict):
                step.append((name, value.get(segment)))
        here = step
    return here


def _curves(result: dict[str, Any], series: Series) -> list[tuple[str, Any, Any]]:
    xs, ys = _select(result, series.x), _select(result, series.y)
    return [
        (f"{series.name} {name}".strip(), x, y)
        for (name, x), (_, y) in zip(xs, ys, strict=True)
        if x is not None and y is not None
    ]
