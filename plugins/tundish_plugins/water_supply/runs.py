"""The order of the formulas for a run of pipe with its components and reducing valve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, any_of, refuse, require
from tundish.physics import pipes
from tundish.physics.water import density, dynamic_viscosity
from tundish.working import silent
from tundish_plugins.tubes import require_suited
from tundish_plugins.water_supply import formulas as f

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.tables import Table
    from tundish_plugins.water_supply.contract import Component, ReducingValve, Run


Reducer = tuple[float, float, float, float | None]
"""A reducing valve: setting, fall-off, the flow of both, and its loss there when fully open."""


@dataclass(frozen=True)
class Water:
    """The water that flows."""

    rho: float
    mu: float


@dataclass(frozen=True)
class Tubes:
    """The table of tubes, the temperature of the water in them, and the most for cold ones."""

    table: Table
    T: float
    T_cold: float


@dataclass(frozen=True)
class Pipe:
    """A run as the friction sees it."""

    d: float
    k: float
    L_e: float
    zeta: float
    components: tuple[tuple[float, float], ...]  # loss, at flow
    valve: Reducer | None
    dp_z: float

    def given(self) -> tuple[Any, ...]:
        """Every number of the run, to pass to a branch; ``Pipe(*given)`` is the run again."""
        return self.d, self.k, self.L_e, self.zeta, self.components, self.valve, self.dp_z


@dataclass(frozen=True)
class Passed:
    """What a flow does in a run."""

    w: float
    Re: float
    dp: float
    inlet: float  # before its reducing valve
    p: float

    @property
    def unsettled(self) -> Any:
        """Whether the flow lies between laminar and turbulent."""
        return all_of(self.Re >= pipes.LAMINAR_UP_TO, self.Re < pipes.TURBULENT_FROM)


def water_at(T: float) -> Water:
    """Density and viscosity at a temperature."""
    return Water(density(T), dynamic_viscosity(T))


def valve_of(valve: ReducingValve | None, field: str) -> Reducer | None:
    """Read a reducing valve; its fall-off cannot take all of its setting."""
    if valve is None:
        return None
    require(valve.fall_off < valve.setting, "fall-off-takes-all", f"{field}/fall_off")
    return valve.setting, valve.fall_off, valve.at_flow, valve.open_loss


def components_of(components: list[Component]) -> tuple[tuple[float, float], ...]:
    """Losses of some components with the flows they are for."""
    return tuple((item.pressure_loss, item.at_flow) for item in components)


def bore_of(run: Run, tubes: Tubes, field: str) -> tuple[float, float]:
    """Bore and roughness: by the name of a tube that suits the water, or as given."""
    if run.tube is None:
        if run.bore is None:
            refuse("tube-missing", f"{field}/tube")
        if run.roughness is None:
            refuse("roughness-missing", f"{field}/roughness")
        assert run.bore is not None
        assert run.roughness is not None
        return run.bore, run.roughness
    if run.bore is not None or run.roughness is not None:
        refuse(
            "tube-given-twice", f"{field}/bore" if run.bore is not None else f"{field}/roughness"
        )
    row = tubes.table.at(f"{field}/tube").exact(tube=run.tube)
    require_suited(row, tubes.T, tubes.T_cold, f"{field}/tube")
    return row["bore"], row["roughness"]


def pipe_of(run: Run, tubes: Tubes, water: Water, field: str) -> Pipe:
    """Read a run; ``field`` is its pointer under the inputs."""
    d, k = bore_of(run, tubes, field)
    return Pipe(
        d,
        k,
        f.effective_length(run.length, run.extra_length),
        run.fittings_loss,
        components_of(run.components),
        valve_of(run.reducing_valve, f"{field}/reducing_valve"),
        f.rise_pressure(water.rho, run.rise),
    )


def _component_drops(components: tuple[tuple[float, float], ...], q: float) -> list[float]:
    return [f.component_drop(dp_1, q, q_1) for dp_1, q_1 in components]


def lost(pipe: Pipe, q: float, water: Water) -> tuple[float, float, float]:
    """Velocity, Reynolds number and pressure lost at a flow above nothing."""
    w = pipes.velocity(q, pipe.d)
    Re = pipes.reynolds_number(w, pipe.d, water.rho, water.mu)
    factor = pipes.friction_factor(Re, pipes.relative_roughness(pipe.k, pipe.d))
    dp_f = pipes.friction_drop(factor, pipe.L_e, pipe.d, water.rho, w)
    return w, Re, with_fittings(pipe, q, w, dp_f, water)


def with_fittings(pipe: Pipe, q: float, w: float, dp_f: float, water: Water) -> float:
    """Pressure lost with the friction known: fittings and components added."""
    dp_zeta = pipes.fittings_drop(pipe.zeta, water.rho, w)
    return f.section_drop(dp_f, dp_zeta, _component_drops(pipe.components, q))


def through(pipe: Pipe, q: float, p: float, water: Water) -> Passed:
    """Send a flow through a run from a pressure at its start; its reducing valve sits at its end."""
    w, Re, dp = lost(pipe, q, water)
    inlet = f.end_pressure(p, dp, pipe.dp_z)
    return Passed(w, Re, dp, inlet, after_valve(pipe.valve, q, inlet))


def after_valve(valve: Reducer | None, q: float, p: float) -> float:
    """Pressure behind a reducing valve, if there is one; a loss when open that nobody gave is 0."""
    if valve is None:
        return p
    p_set, dp_1, q_1, dp_o = valve
    open_drop = 0.0 * p if dp_o is None else f.component_drop(dp_o, q, q_1)
    return f.valve_outlet(p, f.valve_regulated(p_set, dp_1, q, q_1), open_drop)


@dataclass(frozen=True)
class AtValve:
    """A reducing valve with the flow through it, the pressure before it, and its pointer."""

    valve: Reducer
    q: float
    p: float
    field: str


def within_charts(valves: Sequence[AtValve]) -> Any:
    """Whether no reducing valve passes more than its fall-off is stated for; none: no valve."""
    known: list[Any] = [at.q <= at.valve[2] * (1 + 1e-9) for at in valves]
    return all_of(*known) if known else None


def open_known(valves: Sequence[AtValve]) -> Any:
    """Whether what every valve passes is known, standing open or not.

    A valve that cannot hold what it should stands open; without its loss then, what it passes is
    refused. Near that, with less than its setting before it, it may stand open.
    """
    known: Any = True
    for at in valves:
        p_set, dp_1, q_1, dp_o = at.valve
        if dp_o is not None:
            continue
        with silent():
            held = f.valve_regulated(p_set, dp_1, at.q, q_1)
        require(
            at.p >= held,
            "open-loss-missing",
            f"{at.field}/open_loss",
            pressure=(at.p, "pressure_gauge", "bar"),
            held=(held, "pressure_gauge", "bar"),
        )
        known = all_of(known, at.p >= p_set * (1 - 1e-9))
    return known


def through_components(components: tuple[tuple[float, float], ...], q: float, p: float) -> float:
    """Pressure behind components without any pipe."""
    if not components:
        return p
    dp = f.components_together(_component_drops(components, q))
    return f.end_pressure(p, dp, 0.0 * p)


@dataclass(frozen=True)
class Standing:
    """Pressure with nothing flowing, and whether more at the start would make it no more."""

    p: float
    held: Any

    def along(self, pipe: Pipe) -> Standing:
        """Return what stands at the end of a run."""
        still = f.end_pressure(self.p, 0.0 * self.p, pipe.dp_z)
        return Standing(still, self.held).behind(pipe.valve)

    def behind(self, valve: Reducer | None) -> Standing:
        """Return what stands behind a reducing valve: it holds its setting, whatever comes."""
        if valve is None:
            return self
        held = any_of(self.held, self.p >= valve[0] * (1 - 1e-9))
        return Standing(f.valve_static(self.p, valve[0]), held)
