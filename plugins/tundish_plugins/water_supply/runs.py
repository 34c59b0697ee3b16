"""The order of the formulas for a run of pipe with its components and reducing valve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, refuse, require
from tundish.physics import pipes
from tundish.physics.water import density, dynamic_viscosity
from tundish_plugins.water_supply import formulas as f

if TYPE_CHECKING:
    from tundish.tables import Table
    from tundish_plugins.water_supply.contract import Component, ReducingValve, Run


@dataclass(frozen=True)
class Water:
    """The water that flows."""

    rho: float
    mu: float


@dataclass(frozen=True)
class Pipe:
    """A run as the friction sees it."""

    d: float
    k: float
    L_e: float
    zeta: float
    components: tuple[tuple[float, float], ...]  # loss, at flow
    valve: tuple[float, float, float] | None  # setting, fall-off, at flow
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
    p: float

    @property
    def unsettled(self) -> Any:
        """Whether the flow lies between laminar and turbulent."""
        return all_of(self.Re >= pipes.LAMINAR_UP_TO, self.Re < pipes.TURBULENT_FROM)


def water_at(T: float) -> Water:
    """Density and viscosity at a temperature."""
    return Water(density(T), dynamic_viscosity(T))


def valve_of(valve: ReducingValve | None, field: str) -> tuple[float, float, float] | None:
    """Read a reducing valve; its fall-off cannot take all of its setting."""
    if valve is None:
        return None
    require(valve.fall_off < valve.setting, "fall-off-takes-all", f"{field}/fall_off")
    return valve.setting, valve.fall_off, valve.at_flow


def components_of(components: list[Component]) -> tuple[tuple[float, float], ...]:
    """Losses of some components with the flows they are for."""
    return tuple((item.pressure_loss, item.at_flow) for item in components)


def bore_of(run: Run, tubes: Table, field: str) -> tuple[float, float]:
    """Bore and roughness: by the tube's name, or as given."""
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
    row = tubes.at(f"{field}/tube").exact(tube=run.tube)
    return row["bore"], row["roughness"]


def pipe_of(run: Run, tubes: Table, water: Water, field: str) -> Pipe:
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
    return Passed(w, Re, dp, after_valve(pipe.valve, q, f.end_pressure(p, dp, pipe.dp_z)))


def after_valve(valve: tuple[float, float, float] | None, q: float, p: float) -> float:
    """Pressure behind a reducing valve, if there is one."""
    if valve is None:
        return p
    p_set, dp_1, q_1 = valve
    return f.valve_outlet(p, p_set, dp_1, q, q_1)


def within_charts(valves: list[tuple[tuple[float, float, float] | None, float]]) -> Any:
    """Whether no reducing valve passes more than its fall-off is stated for; none: no valve."""
    known: list[Any] = [q <= valve[2] * (1 + 1e-9) for valve, q in valves if valve is not None]
    return all_of(*known) if known else None


def through_components(
    components: tuple[tuple[float, float], ...],
    valve: tuple[float, float, float] | None,
    q: float,
    p: float,
) -> float:
    """Pressure behind components and a reducing valve without any pipe."""
    if components:
        dp = f.components_together(_component_drops(components, q))
        p = f.end_pressure(p, dp, 0.0 * p)
    return after_valve(valve, q, p)


def at_rest(pipe: Pipe, p: float) -> float:
    """Pressure at the end of a run with nothing flowing."""
    still = f.end_pressure(p, 0.0 * p, pipe.dp_z)
    return still if pipe.valve is None else f.valve_static(still, pipe.valve[0])
