"""The order of the formulas for the content of a heating system. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import refuse, require
from tundish_plugins.sealed_heating.system_volume import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.sealed_heating.system_volume.contract import Pipe, SystemVolumeInputs

WAYS = ("meter", "inventory", "estimate")
"""From the surest to the least sure."""
BY_PARTS = ("steel-panels", "low-water-content")
"""Emitters for which the guide knows a content, and which small domestic systems have."""
MISSING = {
    "meter": ("metering-missing", "/metered_volume"),
    "inventory": ("inventory-missing", "/parts"),
    "estimate": ("estimate-missing", "/heat_output"),
}


def _band(name: str, low: float, content: float, high: float) -> dict[str, Any]:
    return {
        "name": name,
        "low": low,
        "content": content,
        "high": high,
        "width": f.width(high, low),
    }


def _meter(i: SystemVolumeInputs) -> dict[str, Any] | None:
    """Water that passed the meter and stayed; the meter is off by a share of all that passed."""
    if i.metered_volume is None:
        return None
    C = f.metered(i.metered_volume, i.run_off, i.vessel_water)
    delta = f.off_by(i.metered_volume, i.meter_uncertainty)
    low = f.less(C, delta)
    require(low > 0.0, "metered-nothing", "/metered_volume")
    return _band("meter", low, C, f.more(C, delta))


def _bore(pipe: Pipe, c: Context, field: str) -> float:
    if pipe.tube is not None:
        if pipe.bore is not None:
            refuse("tube-or-bore", f"{field}/bore")
        found: float = c.table("water-tubes").at(f"{field}/tube").exact(tube=pipe.tube)["bore"]
        return found
    if pipe.bore is None:
        refuse("tube-or-bore", f"{field}/bore")
    assert pipe.bore is not None
    return pipe.bore


def _lines(i: SystemVolumeInputs, c: Context) -> list[dict[str, Any]]:
    pipes = [
        {
            "name": pipe.name,
            "content": f.pipe_content(_bore(pipe, c, f"/pipes/{k}"), pipe.length),
        }
        for k, pipe in enumerate(i.pipes)
    ]
    parts = [
        {"name": part.name, "content": f.parts_content(float(part.count), part.content)}
        for part in i.parts
    ]
    return pipes + parts


def _inventory(i: SystemVolumeInputs, lines: list[dict[str, Any]]) -> dict[str, Any] | None:
    if not lines:
        return None
    C = f.inventory([line["content"] for line in lines])
    delta = f.off_by(C, i.inventory_uncertainty)
    return _band("inventory", f.less(C, delta), C, f.more(C, delta))


def _complete(i: SystemVolumeInputs) -> bool:
    """Whether the inventory has what every system has."""
    kinds = {part.kind for part in i.parts}
    heats = "emitter" in kinds or any(pipe.heats for pipe in i.pipes)
    return bool(i.pipes) and "boiler" in kinds and heats


def _guide(i: SystemVolumeInputs, c: Context, Q: float) -> dict[str, Any]:
    """Emitters and pipes by output, coil and boiler by piece; the boiler may be a range."""
    each = c.table("system-volume-guide-parts").at("/pipework")
    rates = c.table("system-volume-guide-rates").at("/emitters")
    V_e = f.by_output(Q, rates.exact(part=i.emitters or "")["content"])
    if i.pipework == "microbore":
        V_p = each.exact(part="microbore")["content"]
    else:
        V_p = f.by_output(Q, rates.exact(part="small-bore")["content"])
    V_c = f.parts_content(float(i.cylinder_coils), each.exact(part="cylinder-coil")["content"])
    if i.boiler_content is not None:
        V = f.by_guide(V_e, V_p, V_c, i.boiler_content)
        return _band("guide-volumes", V, V, V)
    least, most = (each.exact(part=f"boiler-{end}")["content"] for end in ("least", "most"))
    low, high = f.by_guide(V_e, V_p, V_c, least), f.by_guide(V_e, V_p, V_c, most)
    return _band("guide-volumes", low, f.middle(low, high), high)


def _rules(i: SystemVolumeInputs, c: Context) -> list[dict[str, Any]]:
    """Every rule of thumb for which there are figures."""
    found = []
    if i.heat_output is not None:
        Q, kind = i.heat_output, i.emitters
        if kind is None:
            refuse("emitters-missing", "/emitters")
        assert kind is not None
        table = c.table("system-volume-per-output").at("/emitters")
        names: list[str] = [] if kind == "low-water-content" else [kind]
        if kind in BY_PARTS:
            found.append(_guide(i, c, Q))
            names.append("small-domestic")
        for name in names:
            V = f.by_output(Q, table.exact(system=name)["content"])
            found.append(_band(f"per-kilowatt-{name}", V, V, V))
    if i.panels is not None:
        for row in c.table("system-volume-per-panel").rows():
            V = f.parts_content(float(i.panels), row["content"])
            found.append(_band(f"per-panel-{row['rule']}", V, V, V))
    return found


def _estimate(c: Context, rules: list[dict[str, Any]]) -> dict[str, Any] | None:
    """From the lowest to the highest of the rules; one alone is widened by what rules differ by."""
    if not rules:
        return None
    low, high = rules[0]["low"], rules[0]["high"]
    if len(rules) == 1:
        k = c.value("system-volume-rules-ratio")
        low, high = f.lone_low(low, k), f.lone_high(high, k)
    for rule in rules[1:]:
        low, high = f.lower(low, rule["low"]), f.higher(high, rule["high"])
    return _band("estimate", low, f.middle(low, high), high)


def _agree(answers: list[dict[str, Any]]) -> Any:
    """Whether some content lies in every band."""
    low, high = answers[0]["low"], answers[0]["high"]
    for answer in answers[1:]:
        low, high = f.higher(low, answer["low"]), f.lower(high, answer["high"])
    return low <= high


def kernel(i: SystemVolumeInputs, c: Context) -> dict[str, Any]:
    """Content by every way for which there are figures, and the surest, or that asked for."""
    lines, rules = _lines(i, c), _rules(i, c)
    made = (_meter(i), _inventory(i, lines), _estimate(c, rules))
    found = {way: band for way, band in zip(WAYS, made, strict=True) if band is not None}
    if not found:
        refuse("content-basis-missing", "/parts")
    basis = next(iter(found)) if c.method == "surest" else c.method
    if basis not in found:
        refuse(*MISSING[basis])
    band, answers = found[basis], list(found.values())
    return {
        "basis": basis,
        "content": band["content"],
        "low": band["low"],
        "high": band["high"],
        "spread": f.spread(band["high"], band["low"]),
        "rule_of_thumb": basis == "estimate",
        "content_per_output": (
            None if i.heat_output is None else f.per_output(band["content"], i.heat_output)
        ),
        "inventory_complete": _complete(i) if lines else None,
        "answers_agree": _agree(answers) if len(answers) > 1 else None,  # structure
        "answers": answers,
        "rules": rules,
        "lines": lines,
    }
