"""Steps of the working written out for people and programs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.formula import Formula

if TYPE_CHECKING:
    from tundish.sources import Source
    from tundish.working import Recorder


_NONE: list[float] = []


def _children(steps: list[tuple[Any, Any, Any, int]], index: int) -> list[float]:
    """Values of the formulas called directly by the one at ``index``, in order of evaluation.

    In SI: an empirical formula's step holds its value as stated, its caller computed in SI.
    """
    start = steps[index][3]
    found: list[float] = []
    here = index - 1
    while here >= start:
        inner, _, value, _ = steps[here]
        if inner.empirical:
            factor, offset = inner.result.conversion()
            value = value * factor + offset
        found.append(value)
        here = steps[here][3] - 1
    found.reverse()
    return found


def write_steps(recorder: Recorder) -> tuple[list[dict[str, Any]], list[Source]]:
    """Return every step as JSON, and the sources of the formulas used."""
    steps = recorder.steps
    written: list[dict[str, Any]] = []
    sources: dict[int, Source] = {}  # by identity: hashing a citation at every step is dear
    headings = recorder.paths
    heading, path = 0, headings[0][1]
    for index, (what, payload, value, _start) in enumerate(steps):
        while heading + 1 < len(headings) and headings[heading + 1][0] <= index:
            heading += 1
            path = headings[heading][1]
        if what.__class__ is Formula:
            children = _children(steps, index) if what.nested else _NONE
            step = what.step_members.copy()
            step["substituted"] = what.substituted(payload, children)
            step["value"] = value
            step["shown"] = f"{what.result.symbol} = {value:.5g}{what.shown_unit}"
            if what.source is not None:
                sources[id(what.source)] = what.source
        else:
            step = what(payload, value)
        if path:
            step["path"] = path
        written.append(step)
    return written, list(dict.fromkeys(sources.values()))
