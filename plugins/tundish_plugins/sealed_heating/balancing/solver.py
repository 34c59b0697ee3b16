"""Flows that settle in a tree of circuits side by side. Numerics only; floats or arrays.

Every radiator is a resistance that goes with the square of the flow, every section friction and a
resistance of that kind. A step takes the friction as a resistance, finds all flows of the tree in
closed form, and solves each section anew with the pressure that all others leave it (and how that
falls with its flow). At a Reynolds number of 2000 friction jumps: a flow may stand right there with
any friction between both laws, and the section then takes the friction that its pressure leaves.
The number of steps is fixed, so that a column of rows takes the same ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from tundish.functions import absolute, larger, smaller, sqrt, total, where
from tundish.physics import pipes
from tundish.working import silent

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.physics.pumps import Points
    from tundish_plugins.networks import Tree
    from tundish_plugins.sealed_heating.content import Content
    from tundish_plugins.sealed_heating.piping.losses import Pipe

STEPS: Final = 48
_TINY: Final = 1e-30


@dataclass(frozen=True)
class Settled:
    """Flows of sections and radiators, friction of sections as resistances, pressure at the root."""

    section_flows: list[Any]
    radiator_flows: list[Any]
    resistances: list[Any]  # of whole sections, Pa/(m3/s)²
    pressure: Any
    flow: Any
    moved: Any  # largest relative change of a flow in the last step


class Drive:
    """What drives the water: a pressure that is held, or a pump in pressures over flows."""

    def __init__(self, held: Any, points: Points | None) -> None:
        """Keep a held pressure, or the points of a pump (then ``held`` is not read)."""
        self.held = held
        self.points = points

    def meets(self, R: Any) -> tuple[Any, Any, Any]:
        """Flow, pressure and the pressure's fall with flow, on a resistance.

        A pump's curve is straight between points; before the first and beyond the last, the last
        piece is carried on only so that the steps can go on: the caller refuses such a flow.
        """
        if self.points is None:
            return sqrt(self.held / R), self.held + 0.0 * R, 0.0 * R
        flows, pressures = self.points
        V: Any = None
        fall: Any = None
        for k in range(len(flows) - 2, -1, -1):
            slope = (pressures[k + 1] - pressures[k]) / (flows[k + 1] - flows[k])
            start = pressures[k] - slope * flows[k]
            here = (slope + sqrt(larger(slope**2 + 4 * R * start, _TINY))) / (2 * R)
            inside = here < flows[k + 1]
            V = here if V is None else where(inside, here, V)
            fall = -slope + 0.0 * R if fall is None else where(inside, -slope, fall)
        return V, R * V**2, fall


@dataclass(frozen=True)
class _Law:
    """Friction of one section: laminar up to Re 2000, the other laws from there."""

    pipe: Pipe
    content: Content
    V_t: Any  # flow at Re 2000
    a: Any  # laminar: pressure for each flow
    R_t: Any  # resistance of friction just above Re 2000

    def beyond(self, V: Any) -> Any:
        """Resistance of friction at a flow from Re 2000 on."""
        w = pipes.velocity(V, self.pipe.d)
        Re = pipes.reynolds_number(w, self.pipe.d, self.content.rho, self.content.mu)
        f = pipes.friction_beyond_laminar(Re, self.pipe.eps)
        return pipes.friction_drop(f, self.pipe.L_e, self.pipe.d, self.content.rho, w) / V**2

    def slope(self, V: Any, R: Any, q: Any) -> Any:
        """How the loss of the section rises with its flow."""
        return 2 * q * V + where(self.V_t > V, self.a, 2 * R * V)

    def solved(self, V: Any, left: Any, D: Any, q: Any, kept: Any) -> Any:
        """Resistance of friction with a pressure that falls by ``D`` for each flow.

        ``left`` is what the flow before, ``V``, left to the section itself; ``q`` its resistance
        beside friction. ``kept`` is the friction before, where it is another's turn to move at the
        jump; none where it is this one's.
        """
        b, whole = self.a + D, left + D * V
        laminar = 2 * whole / (b + sqrt(b**2 + 4 * q * whole))
        at_jump = (whole - D * self.V_t) / self.V_t**2 - q
        beyond = self.beyond(larger(V, self.V_t))
        if kept is not None:
            resting = smaller(larger(kept, self.a / self.V_t), self.R_t)
            at_jump = where(at_jump < self.R_t, resting, at_jump)
            return where(
                laminar < self.V_t, self.a / laminar, where(at_jump <= self.R_t, at_jump, beyond)
            )
        return where(
            laminar < self.V_t, self.a / laminar, where(at_jump < self.R_t, at_jump, beyond)
        )


def _law(pipe: Pipe, content: Content) -> _Law:
    V_t = pipes.flow_at_reynolds(pipes.LAMINAR_UP_TO, pipe.d, content.rho, content.mu)
    w = pipes.velocity(V_t, pipe.d)
    eps, L = pipe.eps + 0.0 * V_t, pipe.L_e
    Re = pipes.LAMINAR_UP_TO + 0.0 * V_t
    low, high = pipes.laminar_friction(Re), pipes.unsettled_friction(Re, eps)
    drops = [pipes.friction_drop(f, L, pipe.d, content.rho, w) for f in (low, high)]
    return _Law(pipe, content, V_t, drops[0] / V_t, drops[1] / V_t**2)


class Network:
    """The tree with what does not change from step to step."""

    def __init__(
        self,
        tree: Tree,
        pipes_: Sequence[Pipe],
        content: Content,
        squares: list[Any],
        radiators: list[Any],
    ) -> None:
        """``squares`` are resistances in the sections beside friction, ``radiators`` of branches."""
        self.tree = tree
        with silent():
            self.laws = [_law(pipe, content) for pipe in pipes_]
        self.squares = squares
        self.radiators = radiators
        count = len(pipes_)
        self.order = sorted(range(count), key=self._depth)  # structure: from the root outwards
        self.behind = [[n for n in range(count) if tree.before[n] == k] for k in range(count)]
        self.first = [n for n in range(count) if tree.before[n] is None]
        self.at: list[list[int]] = [
            [leaf for leaf, path in enumerate(tree.paths) if path[-1] == k] for k in range(count)
        ]

        # Sections of one flow in a row share the jump if their bore is the same: they move in turn.
        self.chain: list[tuple[int, int]] = [(0, 1)] * count
        for k in self.order:
            row = [k]
            while not self.at[row[-1]] and len(self.behind[row[-1]]) == 1:
                row.append(self.behind[row[-1]][0])
            if self.chain[k] == (0, 1):
                for place, member in enumerate(row):
                    self.chain[member] = (place, len(row))

    def _depth(self, section: int) -> int:
        found, here = 0, self.tree.before[section]
        while here is not None:
            found, here = found + 1, self.tree.before[here]
        return found

    def settle(self, drive: Drive, flows: list[Any]) -> Settled:
        """Flows that settle; ``flows`` of the sections are where the search starts."""
        with silent():
            friction = [
                law.beyond(larger(V, law.V_t)) for law, V in zip(self.laws, flows, strict=True)
            ]
            before = flows
            found = self._step(drive, friction)
            for turn in range(STEPS):
                friction = self._friction(found, friction, turn)
                before = found.section_flows
                found = self._step(drive, friction)
            moved: Any = 0.0
            for V, V_0 in zip(found.section_flows, before, strict=True):
                moved = larger(absolute(V / V_0 - 1), moved)
        return Settled(
            found.section_flows,
            found.radiator_flows,
            found.resistances,
            found.pressure,
            found.flow,
            moved,
        )

    def _step(self, drive: Drive, friction: list[Any]) -> _Step:
        """All flows of the tree with friction as resistances."""
        count = len(friction)
        series = [R + q for R, q in zip(friction, self.squares, strict=True)]
        after: list[Any] = [None] * count  # resistance of all that is behind a section
        whole: list[Any] = [None] * count
        for k in reversed(self.order):
            open_ = [1 / sqrt(whole[n]) for n in self.behind[k]]
            open_ += [1 / sqrt(self.radiators[leaf]) for leaf in self.at[k]]
            after[k] = 1 / total(open_) ** 2
            whole[k] = series[k] + after[k]
        R = 1 / total(1 / sqrt(whole[k]) for k in self.first) ** 2
        V, pressure, fall = drive.meets(R)
        flows: list[Any] = [None] * count
        leaves: list[Any] = [None] * len(self.radiators)
        for k in self.order:
            up = self.tree.before[k]
            reach = pressure if up is None else flows[up] ** 2 * after[up]
            flows[k] = sqrt(reach / whole[k])
            for leaf in self.at[k]:
                leaves[leaf] = flows[k] * sqrt(after[k] / self.radiators[leaf])
        left = [R * V**2 for R, V in zip(series, flows, strict=True)]
        slopes = [
            law.slope(V, R, q)
            for law, V, R, q in zip(self.laws, flows, friction, self.squares, strict=True)
        ]
        falls = self._falls(fall, slopes, leaves)
        return _Step(flows, leaves, series, pressure, V, left, falls)

    def _falls(self, fall: Any, series: list[Any], leaves: list[Any]) -> list[Any]:
        """How the pressure left to each section falls with its flow, all others giving way.

        ``series`` are the slopes of the sections' own losses.
        """
        count = len(series)
        gives: list[Any] = [None] * count  # flow for each pressure, of a section with all behind it
        beside: list[Any] = [None] * count  # the same of all that is behind it
        for k in reversed(self.order):
            parts = [gives[n] for n in self.behind[k]]
            parts += [1 / (2 * self.radiators[leaf] * leaves[leaf]) for leaf in self.at[k]]
            beside[k] = total(parts)
            gives[k] = 1 / (series[k] + 1 / beside[k])
        ahead: list[Any] = [None] * count  # what is in front of a section
        for k in self.order:
            up = self.tree.before[k]
            if up is None:
                upstream, others = fall, total(gives[n] for n in self.first if n != k)
            else:
                upstream = ahead[up] + series[up]
                others = beside[up] - gives[k]
            ahead[k] = upstream / (1 + upstream * others)
        return [a + 1 / b for a, b in zip(ahead, beside, strict=True)]

    def _friction(self, step: _Step, before: list[Any], turn: int) -> list[Any]:
        found = []
        for k, law in enumerate(self.laws):
            place, length = self.chain[k]
            kept = None if turn % length == place else before[k]
            V, q = step.section_flows[k], self.squares[k]
            found.append(law.solved(V, step.left[k], step.falls[k], q, kept))
        return found


@dataclass(frozen=True)
class _Step:
    section_flows: list[Any]
    radiator_flows: list[Any]
    resistances: list[Any]
    pressure: Any
    flow: Any
    left: list[Any]  # pressure that the section itself takes
    falls: list[Any]
