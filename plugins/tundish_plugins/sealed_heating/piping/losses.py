"""What a flow loses in a section of pipe and in what stands in it. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from tundish.functions import all_of, refuse
from tundish.physics import pipes
from tundish.working import part
from tundish_plugins.sealed_heating.piping import formulas as f

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tundish.rules import Context
    from tundish.tables import Row, Table
    from tundish_plugins.sealed_heating.content import Content
    from tundish_plugins.sealed_heating.piping.contract import Component, Fitting, Section


@dataclass(frozen=True)
class Pipe:
    """A section as hydraulics sees it."""

    d: float
    eps: float
    L_e: float
    zeta: float
    components: tuple[Component, ...]
    copper: bool
    material: str


Named = tuple[str, Pipe]
"""A pipe and the name of its tube."""


@dataclass(frozen=True)
class SectionLoss:
    """What a flow loses in a section."""

    w: float
    Re: float
    R: float
    friction: float
    fittings: float
    components: float
    dp: float

    @property
    def unsettled(self) -> Any:
        """Whether the flow lies between laminar and turbulent."""
        return all_of(self.Re >= pipes.LAMINAR_UP_TO, self.Re < pipes.TURBULENT_FROM)


def check_components(components: Sequence[Component], field: str) -> None:
    """Refuse a component whose loss is stated twice, not at all, or by half."""
    for index, item in enumerate(components):
        rated = (item.rated_flow is not None, item.rated_loss is not None)
        if rated[0] != rated[1]:
            refuse("component-rating-incomplete", f"{field}/{index}/rated_flow")
        if rated[0] == (item.kv is not None):
            refuse("component-loss-once", f"{field}/{index}/kv")


def component_loss(item: Component, V: float, rho: float) -> float:
    """Loss of one component at a flow."""
    if item.kv is not None:
        return f.kv_loss(V, item.kv, rho)
    assert item.rated_flow is not None
    assert item.rated_loss is not None
    return f.rated_loss(V, item.rated_flow, item.rated_loss)


def components_loss(components: Sequence[Component], V: float, rho: float) -> float:
    """Loss of all components at a flow."""
    if not components:
        return 0.0 * V
    return f.in_series([component_loss(item, V, rho) for item in components])


def tube_of(section: Section, c: Context, field: str) -> tuple[float, float, str]:
    """Bore, roughness and material: from the region's table of tubes, or as given."""
    if section.tube is not None:
        if section.bore is not None or section.material is not None:
            refuse("tube-given-twice", f"{field}/tube")
        row = c.table("water-tubes").at(f"{field}/tube").exact(tube=section.tube)
        k = row["roughness"] if section.roughness is None else section.roughness
        copper = str(row["series"]).startswith("copper")
        return row["bore"], k, "copper" if copper else "plastic"
    if section.bore is None or section.material is None:
        refuse("tube-missing", f"{field}/{'bore' if section.bore is None else 'material'}")
    assert section.bore is not None
    assert section.material is not None
    roughness = section.roughness
    if roughness is None:
        roughness = c.table("heating-pipe-roughness").exact(material=section.material)["roughness"]
    return section.bore, roughness, section.material


def beside(pipe: Pipe, section: Section, c: Context) -> tuple[Named | None, Named | None]:
    """Return the pipe in the next larger and the next smaller tube of its series, by name.

    None where the tube has no name; fittings stay as they are.
    """
    if section.tube is None:
        return None, None
    tubes = c.table("water-tubes")
    rows = list(tubes.rows())
    own = next(row for row in rows if row["tube"] == section.tube)
    series = [row for row in rows if row["series"] == own["series"]]
    series.sort(key=lambda row: float(row["bore"]))
    place = next(k for k, row in enumerate(series) if row["tube"] == section.tube)

    def named(row: Row) -> Named:
        k = row["roughness"] if section.roughness is None else section.roughness
        d = row["bore"] + 0.0 * pipe.L_e
        return row["tube"], replace(pipe, d=d, eps=pipes.relative_roughness(k, d))

    larger = named(series[place + 1]) if place + 1 < len(series) else None  # structure
    return larger, named(series[place - 1]) if place else None


def pipe_of(section: Section, fittings: Table, column: str, c: Context, field: str) -> Pipe:
    """Read a section. ``column`` is what the table holds: ``loss_coefficient`` or ``length``."""
    check_components(section.components, f"{field}/components")
    d, k, material = tube_of(section, c, field)
    by_length = column == "length"
    if by_length and section.fittings and material != "copper":
        refuse("lengths-for-copper-only", f"{field}/fittings")
    values = [
        _fitting(item, fittings, column, f"{field}/fittings/{n}")
        for n, item in enumerate(section.fittings)
    ]
    counts = [float(item.count) for item in section.fittings]
    return Pipe(
        d,
        pipes.relative_roughness(k, d),
        f.effective_length(
            section.length,
            section.extra_length,
            counts if by_length else [],
            values if by_length else [],
        ),
        f.loss_coefficients(
            section.loss_coefficient,
            [] if by_length else counts,
            [] if by_length else values,
        ),
        tuple(section.components),
        material == "copper",
        material,
    )


def _fitting(item: Fitting, table: Table, column: str, field: str) -> float:
    found: float = table.at(f"{field}/kind").exact(fitting=item.kind, size=item.size)[column]
    return found


def loss_of(V: float, pipe: Pipe, content: Content) -> SectionLoss:
    """What a flow above nothing loses in a section."""
    w = pipes.velocity(V, pipe.d)
    Re = pipes.reynolds_number(w, pipe.d, content.rho, content.mu)
    factor = pipes.friction_factor(Re, pipe.eps)
    R = pipes.friction_gradient(factor, pipe.d, content.rho, w)
    friction = pipes.friction_drop(factor, pipe.L_e, pipe.d, content.rho, w)
    fittings = pipes.fittings_drop(pipe.zeta, content.rho, w)
    components = components_loss(pipe.components, V, content.rho)
    dp = f.in_series([friction, fittings, components])
    return SectionLoss(w, Re, R, friction, fittings, components, dp)


def through(
    sections: Sequence[Section], pipes_: Sequence[Pipe], flows: Sequence[float], content: Content
) -> list[SectionLoss]:
    """What the flows lose in every section, each in a part of the working of its own."""
    found = []
    for section, pipe, V in zip(sections, pipes_, flows, strict=True):
        with part("section", section.name):
            found.append(loss_of(V, pipe, content))
    return found
