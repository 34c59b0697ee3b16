"""What every calculation of gas pipework shares: the gas, tubes, fittings, friction, demand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from tundish.functions import all_of, any_of, not_, refuse, require
from tundish.physics import pipes
from tundish.working import part
from tundish_plugins.gas.mixture import checked
from tundish_plugins.gas.pipe_sizing import formulas as f

if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Protocol

    from tundish.rules import Context
    from tundish.tables import Row, Table
    from tundish_plugins.gas.pipe_sizing.contract import (
        Appliance,
        Component,
        Fitting,
        SharedAppliance,
    )

    class Supplied(Protocol):
        """Inputs that say which gas arrives, and who burns it."""

        @property
        def gas(self) -> str | None:
            """Gas by name."""

        @property
        def composition(self) -> list[Component] | None:
            """Gas by its components."""

        @property
        def gas_family(self) -> Any:
            """Which limit applies to a mixture."""

        @property
        def appliances(self) -> Sequence[Appliance]:
            """Who burns it."""


# --- the gas --------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Gas:
    """Properties at 15 °C and 1013.25 mbar, dry."""

    family: str
    rho: float
    mu: float
    gross: float
    net: float


def _named(name: str, c: Context) -> Gas:
    row = c.table("gas-named").at("/gas").exact(gas=name)
    return Gas(row["family"], row["density"], row["viscosity"], row["gross"], row["net"])


def _of_family(gas: Gas, c: Context) -> None:
    """Refuse a mixture that lies outside the family it is said to belong to."""
    s = f.relative_density(gas.rho)
    W = f.wobbe_index(gas.gross, s)
    band = c.table("gas-families").exact(family=gas.family)
    require(
        all_of(
            W >= band["wobbe_least"],
            W <= band["wobbe_most"],
            s >= band["relative_density_least"],
            s <= band["relative_density_most"],
        ),
        "gas-outside-family",
        "/gas_family",
        family=gas.family,
        wobbe=(W, "calorific_value_gross", "MJ/m3"),
        relative_density=s,
    )


def _mixed(components: list[Component], family: str, c: Context) -> Gas:
    shares, rows = checked(components, c.table("gas-components"))
    masses = [row["molar_mass"] for row in rows]
    V = f.mixture_molar_volume(shares, [row["molar_volume"] for row in rows])
    gross = f.mixture_calorific_value(shares, [row["gross"] for row in rows], V)
    require(gross > 0.0, "gas-does-not-burn", "/composition")
    gas = Gas(
        family,
        f.mixture_density(f.mixture_molar_mass(shares, masses), V),
        f.mixture_viscosity(shares, [row["viscosity"] for row in rows], masses),
        gross,
        f.mixture_calorific_value(shares, [row["net"] for row in rows], V),
    )
    _of_family(gas, c)
    return gas


def gas_of(i: Supplied, c: Context) -> Gas:
    """Return the gas given by name or by its components; refuse what is neither or both."""
    if i.composition is None:
        if i.gas is None:
            refuse("gas-missing", "/gas")
        assert i.gas is not None
        gas = _named(i.gas, c)
        if i.gas_family not in {None, gas.family}:
            refuse("gas-family-contradicts", "/gas_family", family=gas.family)
        return gas
    if i.gas is not None:
        refuse("gas-given-twice", "/gas")
    if i.gas_family is None:
        refuse("gas-family-missing", "/gas_family")
    assert i.gas_family is not None
    return _mixed(i.composition, i.gas_family, c)


PLASTIC: Final = "polyethylene"


# --- tubes and fittings ---------------------------------------------------------------------------


@dataclass(frozen=True)
class Tube:
    """A tube by name; corrugated tubing has no bore, only capacity tables."""

    name: str
    series: str
    size: str
    material: str
    bore: float | None
    roughness: float | None

    def roughness_by(self, c: Context) -> float:
        """Its roughness, or that of its material; read only where friction is computed."""
        if self.roughness is None:
            return c.value(f"gas-roughness-{self.material}")
        return self.roughness


class Tubes:
    """Tubes by name: copper by wall, and the further materials."""

    def __init__(self, c: Context) -> None:
        """Read the rules."""
        self._copper = c.table("gas-tubes")
        self._further = c.table("gas-tubes-further")
        self._names = [table.keys("tube") for table in (self._copper, self._further)]

    def named(self, name: str, field: str) -> Tube:
        """Return a tube; refuse at ``field`` what no rule holds."""
        if name in self._names[1]:
            return self._other(self._further.at(field).exact(tube=name))
        if name not in self._names[0]:
            refuse(
                "table-key-unknown",
                field,
                table=self._copper.name,
                asked=name,
                accepted=[*self._names[0], *self._names[1]],
            )
        row = self._copper.at(field).exact(tube=name)
        return Tube(name, row["series"], row["size"], "copper", row["bore"], row["roughness"])

    @staticmethod
    def _other(row: Row) -> Tube:
        bore = row["bore"] if row.has("bore") else None
        rough = row["roughness"] if row.has("roughness") else None
        return Tube(row["tube"], row["series"], row["size"], row["material"], bore, rough)

    def neighbours(self, tube: Tube) -> tuple[str | None, str | None]:
        """Names of the next larger and the next smaller tube; a series stands by size."""
        series = [
            name
            for names, table in zip(self._names, (self._copper, self._further), strict=True)
            for name, its in zip(names, table.keys("series"), strict=True)
            if its == tube.series
        ]
        place = series.index(tube.name)
        up = series[place + 1] if place + 1 < len(series) else None  # structure
        return up, series[place - 1] if place else None


class Fittings:
    """Added lengths: by size where the region's rule has them, by bores elsewhere.

    A capacity table goes with the added lengths of its own edition, never with another's.
    """

    def __init__(self, c: Context, edition: str | None = None) -> None:
        """Read the rules."""
        self._by_size = c.table("gas-fitting-lengths", edition=edition)
        self._by_bores = c.table("gas-fitting-bores")
        keys = (self._by_size.keys("size"), self._by_size.keys("fitting"))
        self._sizes = set(zip(*keys, strict=True))

    def _one(self, kind: str, tube: Tube, field: str) -> float:
        if (tube.size, kind) in self._sizes:
            found: float = self._by_size.exact(size=tube.size, fitting=kind)["added"]
            return found
        if tube.bore is None:
            refuse("fitting-length-unknown", field, tube=tube.name)
        assert tube.bore is not None
        return f.length_by_bores(self._by_bores.exact(fitting=kind)["bores"], tube.bore)

    def added(self, fittings: Sequence[Fitting], tube: Tube, field: str) -> list[float]:
        """Added length of one of each kind of fitting in the tube."""
        return [self._one(item.kind, tube, field) for item in fittings]


# --- friction -------------------------------------------------------------------------------------


def flow_state(Q: float, d: float, gas: Gas) -> tuple[float, float]:
    """Velocity and Reynolds number; the density is that at 15 °C, on the safe side."""
    w = pipes.velocity(Q, d)
    return w, pipes.reynolds_number(w, d, gas.rho, gas.mu)


def friction_gradient(Q: float, d: float, k: float, gas: Gas) -> float:
    """Drop for each metre by friction."""
    w, Re = flow_state(Q, d, gas)
    eps = pipes.relative_roughness(k, d)
    return pipes.friction_gradient(pipes.friction_factor(Re, eps), d, gas.rho, w)


def uncertain(Re: float) -> Any:
    """Whether a flow lies between laminar and turbulent."""
    return all_of(Re >= pipes.LAMINAR_UP_TO, Re < pipes.TURBULENT_FROM)


# --- demand ---------------------------------------------------------------------------------------


def demand_of(i: Supplied, gas: Gas) -> list[float]:
    """Flow of every appliance at full rate."""
    found = []
    for appliance in i.appliances:
        with part("appliance", appliance.name):
            H = gas.net if appliance.heat_input.basis == "net" else gas.gross
            found.append(f.gas_flow(appliance.heat_input.value, H))
    return found


class Load:
    """Flows together, all appliances at full rate."""

    def __init__(self, demand: list[float]) -> None:
        """Keep the flow of every appliance."""
        self._full = self._shared = demand
        self.at_full_rate = True

    def of(self, served: Sequence[int]) -> float:
        """Flow of some appliances together."""
        flows = self._shared if len(served) > 1 else self._full  # structure
        return f.together([flows[index] for index in served])

    def of_all(self) -> float:
        """Flow of every appliance together."""
        return self.of(range(len(self._full)))


class DiverseLoad(Load):
    """Flows together, less than full rate where the region's rule allows it.

    Whatever serves one appliance alone carries its full rate.
    """

    def __init__(
        self, appliances: Sequence[SharedAppliance], demand: list[float], c: Context
    ) -> None:
        """Refuse a diversity that the region does not allow."""
        super().__init__(demand)
        self._shared = list(demand)
        for index, appliance in enumerate(appliances):
            if appliance.diversity is None:
                continue
            if not c.has("gas-diversity"):
                refuse("diversity-not-allowed", f"/appliances/{index}/diversity", region=c.region)
            if self.at_full_rate:
                c.text("gas-diversity")
                self.at_full_rate = False
            with part("appliance", appliance.name):
                self._shared[index] = f.diversified(demand[index], appliance.diversity)


def edition_with(name: str, edition: str | None, c: Context) -> str | None:
    """The edition named, if a rule that goes with a capacity table has it; else that in force."""
    known = {item.edition for _, item in c.book.editions(c.region, name)}
    return edition if edition in known else None


def within_scope(total_flow: float, c: Context) -> None:
    """Refuse a flow beyond domestic work, where the region says how far that goes."""
    if not c.has("gas-flow-most"):
        return
    most = c.value("gas-flow-most")
    require(
        total_flow <= most * (1 + 1e-9),
        "beyond-domestic-scope",
        "/appliances",
        flow=(total_flow, "gas_flow_15", "m3/h"),
        most=(most, "gas_flow_15", "m3/h"),
    )


def within_method(highest: float, c: Context) -> None:
    """Refuse a drop beyond low pressure: no figure there would mean anything."""
    most = c.value("gas-drop-of-method-most")
    require(
        highest <= most * (1 + 1e-9),
        "drop-beyond-method",
        "/sections",
        drop=(highest, "pressure_difference", "mbar"),
        most=(most, "pressure_difference", "mbar"),
    )


def length_columns(table: Table) -> list[tuple[float, str]]:
    """Columns of a capacity table by length, as (metres, name)."""
    return [
        (float(column.name.removeprefix("at_")), column.name)
        for column in table.columns
        if column.name.startswith("at_")
    ]


# --- what arrives ---------------------------------------------------------------------------------


def all_settled(
    path: Sequence[int], unsettled: list[Any], spare: float, limit: float, share: float
) -> Any:
    """Whether no section on the way is of uncertain flow, or enough is spare."""
    found: Any = False
    for index in path:
        found = any_of(found, unsettled[index])
    return any_of(not_(found), spare >= share * limit * (1 - 1e-9))


def profile(path: Sequence[int], lengths: list[float], drops: list[float]) -> dict[str, Any]:
    """Drop along the way to an appliance, for a chart."""
    distance, drop = [0.0 * lengths[0]], [0.0 * drops[0]]
    for index in path:
        distance.append(distance[-1] + lengths[index])
        drop.append(drop[-1] + drops[index])
    return {"distance": distance, "drop": drop}
