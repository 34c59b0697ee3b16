"""The order of the formulas for a gas installation. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import (
    absolute,
    all_of,
    any_of,
    drawn,
    larger,
    not_,
    refuse,
    require,
    smaller,
    total,
    where,
)
from tundish.physics import pipes
from tundish.working import part, silent
from tundish_plugins.gas.pipe_sizing import formulas as f
from tundish_plugins.networks import tree_of

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row, Table
    from tundish_plugins.gas.pipe_sizing.contract import Component, PipeSizingInputs, Section
    from tundish_plugins.networks import Tree

PHYSICAL, TABLE = "physical", "table"
_SUM_SLACK = 1e-6


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
    table = c.table("gas-components")
    shares = [item.fraction for item in components]
    with silent():
        whole = total(shares)
    require(absolute(whole - 1.0) <= _SUM_SLACK, "fractions-do-not-sum", "/composition", sum=whole)
    rows: list[Row] = []
    for index, item in enumerate(components):
        if item.gas in {other.gas for other in components[:index]}:
            refuse("component-twice", f"/composition/{index}/gas")
        rows.append(table.at(f"/composition/{index}/gas").exact(gas=item.gas))
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


def _gas(i: PipeSizingInputs, c: Context) -> Gas:
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


class _Fittings:
    """Added lengths: by size where the region's rule has them, by bores elsewhere.

    A capacity table goes with the added lengths of its own edition, never with another's.
    """

    def __init__(self, c: Context, edition: str | None) -> None:
        self._by_size = c.table("gas-fitting-lengths", edition=edition)
        self._by_bores = c.table("gas-fitting-bores")

    def _one(self, kind: str, tube: Row) -> float:
        for row in self._by_size.rows():
            if row["size"] == tube["size"] and row["fitting"] == kind:
                found: float = self._by_size.exact(size=tube["size"], fitting=kind)["added"]
                return found
        n = self._by_bores.exact(fitting=kind)["bores"]
        return f.length_by_bores(n, tube["bore"])

    def effective(self, section: Section, tube: Row) -> float:
        """Length with fittings."""
        counts = [float(item.count) for item in section.fittings]
        added = [self._one(item.kind, tube) for item in section.fittings]
        return f.effective_length(section.length, section.extra_length, counts, added)


class _Physical:
    """Drop for each metre by friction; the density is that at 15 °C, on the safe side."""

    def __init__(self, gas: Gas) -> None:
        self._gas = gas

    def flow_state(self, Q: float, tube: Row) -> tuple[float, float]:
        """Velocity and Reynolds number."""
        w = pipes.velocity(Q, tube["bore"])
        return w, pipes.reynolds_number(w, tube["bore"], self._gas.rho, self._gas.mu)

    def covers(self, L_e: float, field: str) -> None:
        """Friction holds at any length."""

    def gradient(self, Q: float, tube: Row, field: str) -> float:
        """Drop for each metre."""
        del field
        w, Re = self.flow_state(Q, tube)
        eps = pipes.relative_roughness(tube["roughness"], tube["bore"])
        return pipes.friction_gradient(
            pipes.friction_factor(Re, eps), tube["bore"], self._gas.rho, w
        )


class _ByTable(_Physical):
    """Drop for each metre in proportion of a capacity table."""

    def __init__(self, gas: Gas, table: Table, drop: float) -> None:
        super().__init__(gas)
        self._table, self._drop = table, drop

    def covers(self, L_e: float, field: str) -> None:
        """Refuse a section longer than the table's last column."""
        last = max(  # structure
            float(column.name.removeprefix("at_"))
            for column in self._table.columns
            if column.name.startswith("at_")
        )
        require(L_e <= last * (1 + 1e-9), "outside-table", field, table=self._table.name)

    def gradient(self, Q: float, tube: Row, field: str) -> float:
        """Drop for each metre: the table's drop over the longest length that carries the flow."""
        row = self._table.at(field).exact(tube=tube["tube"])
        cells = [
            (float(column.name.removeprefix("at_")), row.values[column.name])
            for column in self._table.columns
            if column.name.startswith("at_")
        ]
        carried = 0.0 * Q
        for length, capacity in cells:
            if capacity is not None:
                carried = where(capacity >= Q * (1 - 1e-9), length + 0.0 * Q, carried)
        # Capacity falls with length: a doubtful cell matters only when the certain one before it
        # carries the flow and the certain one after it does not.
        unsure: Any = False
        for length, capacity in cells:
            if capacity is None:
                certain = [known for known, value in cells if value is not None]
                shorter = [known for known in certain if known < length]  # structure
                longer = [known for known in certain if known > length]  # structure
                before = max(shorter, default=float("inf"))  # structure
                after = min(longer, default=float("inf"))  # structure
                unsure = any_of(unsure, all_of(carried >= before, carried < after))
        first_known = next((cap for _, cap in cells if cap is not None), None)
        if first_known is None:
            refuse("table-cell-doubtful", field, table=self._table.name)
        require(not_(unsure), "table-cell-doubtful", field)
        require(carried > 0.0, "outside-table", field, table=self._table.name)
        return f.table_gradient(self._drop, carried)


def _capacity(i: PipeSizingInputs, gas: Gas, c: Context) -> Table:
    """The capacity table asked for, or the one in force; refuse a gas it does not hold for."""
    name = "gas-copper-capacity"
    editions = [edition.edition for _, edition in c.book.editions(c.region, name)]
    if i.table_edition is None and not c.has(name):
        refuse("table-not-in-force", "/table_edition", accepted=", ".join(editions) or "none")
    if i.table_edition is not None and i.table_edition not in editions:
        refuse("table-edition-unknown", "/table_edition", accepted=", ".join(editions) or "none")
    where_gas = "/gas" if i.composition is None else "/composition"
    if gas.family != "natural":
        refuse("table-for-natural-gas-only", where_gas)
    of_table = _with_table("gas-copper-capacity-relative-density", i.table_edition, c)
    s = f.relative_density(gas.rho)
    most = c.value("gas-copper-capacity-relative-density", edition=of_table)
    require(s <= most * (1 + 1e-9), "gas-heavier-than-table", where_gas, relative_density=s)
    return c.table(name, edition=i.table_edition).at("/table_edition")


def _with_table(name: str, edition: str | None, c: Context) -> str | None:
    """The edition named, if a rule that goes with the capacity table has it; else that in force."""
    known = {item.edition for _, item in c.book.editions(c.region, name)}
    return edition if edition in known else None


def _within_method(highest: float, total_flow: float, c: Context) -> None:
    """Refuse what lies beyond domestic low pressure: no figure there would mean anything."""
    if c.has("gas-flow-most"):
        most = c.value("gas-flow-most")
        require(
            total_flow <= most * (1 + 1e-9),
            "beyond-domestic-scope",
            "/appliances",
            flow=(total_flow, "gas_flow_15", "m3/h"),
            most=(most, "gas_flow_15", "m3/h"),
        )
    most = c.value("gas-drop-of-method-most")
    require(
        highest <= most * (1 + 1e-9),
        "drop-beyond-method",
        "/sections",
        drop=(highest, "pressure_difference", "mbar"),
        most=(most, "pressure_difference", "mbar"),
    )


def _neighbours(tubes: Table, tube: Row) -> tuple[str | None, str | None]:
    """Names of the next larger and the next smaller tube of the same series."""
    series = [row for row in tubes.rows() if row["series"] == tube["series"]]
    series.sort(key=lambda row: float(row["bore"]))
    place = next(k for k, row in enumerate(series) if row["tube"] == tube["tube"])
    up = series[place + 1]["tube"] if place + 1 < len(series) else None  # structure
    down = series[place - 1]["tube"] if place else None
    return up, down


def _profile(path: tuple[int, ...], lengths: list[float], drops: list[float]) -> dict[str, Any]:
    distance, drop = [0.0 * lengths[0]], [0.0 * drops[0]]
    for index in path:
        distance.append(distance[-1] + lengths[index])
        drop.append(drop[-1] + drops[index])
    return {"distance": distance, "drop": drop}


def _all_settled(
    path: tuple[int, ...], unsettled: list[Any], spare: float, limit: float, share: float
) -> Any:
    """Whether no section on the way is of uncertain flow, or enough is spare."""
    uncertain: Any = False
    for index in path:
        uncertain = any_of(uncertain, unsettled[index])
    return any_of(not_(uncertain), spare >= share * limit)


@dataclass
class _State:
    """What is known of every section, by index."""

    rows: list[Row] = field(default_factory=list)
    flows: list[float] = field(default_factory=list)
    speeds: list[tuple[float, float]] = field(default_factory=list)  # velocity, Reynolds number
    lengths: list[float] = field(default_factory=list)
    gradients: list[float] = field(default_factory=list)
    drops: list[float] = field(default_factory=list)

    @property
    def unsettled(self) -> list[Any]:
        """Whether each flow lies between laminar and turbulent."""
        return [
            all_of(Re >= pipes.LAMINAR_UP_TO, Re < pipes.TURBULENT_FROM) for _, Re in self.speeds
        ]


def _demand(i: PipeSizingInputs, gas: Gas) -> list[float]:
    """Flow of every appliance at full rate."""
    found = []
    for appliance in i.appliances:
        with part("appliance", appliance.name):
            H = gas.net if appliance.heat_input.basis == "net" else gas.gross
            found.append(f.gas_flow(appliance.heat_input.value, H))
    return found


def _along(
    i: PipeSizingInputs,
    tree: Tree,
    demand: list[float],
    tubes: Table,
    fittings: _Fittings,
    law: _Physical,
) -> _State:
    """Flow and drop of every section."""
    state = _State()
    for index, section in enumerate(i.sections):
        where_tube = f"/sections/{index}/tube"
        with part("section", section.name):
            tube = tubes.at(where_tube).exact(tube=section.tube)
            Q = f.together([demand[a] for a in tree.served[index]])
            L_e = fittings.effective(section, tube)
            with silent():
                state.speeds.append(law.flow_state(Q, tube))
            law.covers(L_e, f"/sections/{index}/length")
            R = law.gradient(Q, tube, where_tube)
            state.rows.append(tube)
            state.flows.append(Q)
            state.lengths.append(L_e)
            state.gradients.append(R)
            state.drops.append(f.section_drop(R, L_e))
    return state


@dataclass(frozen=True)
class _Exchange:
    """What another tube in one section would do, all else left as it is."""

    i: PipeSizingInputs
    tree: Tree
    tubes: Table
    fittings: _Fittings
    law: _Physical
    state: _State
    arrived: list[float]

    def alternatives(self, index: int, *, by_table: bool) -> dict[str, Any]:
        """The next size up and the next down. The table has few tubes: none are offered by it."""
        up, down = (None, None) if by_table else _neighbours(self.tubes, self.state.rows[index])
        with silent():
            return {"larger": self._with(index, up), "smaller": self._with(index, down)}

    def _with(self, index: int, name: str | None) -> dict[str, Any] | None:
        if name is None:
            return None
        tube = self.tubes.exact(tube=name)
        L_e = self.fittings.effective(self.i.sections[index], tube)
        R = self.law.gradient(self.state.flows[index], tube, f"/sections/{index}/tube")
        dp = f.section_drop(R, L_e)
        drops = [
            f.replaced(old, self.state.drops[index], dp) if a in self.tree.served[index] else old
            for a, old in enumerate(self.arrived)
        ]
        return {"tube": name, "drop": dp, "highest_drop": reduce(larger, drops)}


def _section_outputs(
    exchange: _Exchange, spares: list[float], *, by_table: bool
) -> list[dict[str, Any]]:
    """Every section, with the length the limit leaves it and the sizes beside its own."""
    state, found = exchange.state, []
    unsettled = state.unsettled
    for index, section in enumerate(exchange.i.sections):
        least = reduce(smaller, [spares[a] for a in exchange.tree.served[index]])
        dL = f.spare_length(least, state.gradients[index])
        w, Re = state.speeds[index]
        found.append(
            {
                "name": section.name,
                "tube": section.tube,
                "flow": state.flows[index],
                "effective_length": state.lengths[index],
                "velocity": w,
                "reynolds": Re,
                "transitional": unsettled[index],
                "drop": state.drops[index],
                "spare_length": dL,
                "longest_length": f.longest_length(section.length, dL),
                **exchange.alternatives(index, by_table=by_table),
            }
        )
    return found


def kernel(i: PipeSizingInputs, c: Context) -> dict[str, Any]:
    """Drop at every appliance of a gas installation, and what each section does to it."""
    tree = tree_of(
        i.sections,
        i.meter,
        [appliance.node for appliance in i.appliances],
        leaves="/appliances",
        unconnected="appliance-unconnected",
    )
    gas = _gas(i, c)
    limit = c.value(f"gas-drop-limit-{gas.family}")
    share = c.value("gas-uncertain-flow-margin")
    table = _capacity(i, gas, c) if c.method == TABLE else None
    tubes = c.table("gas-tubes")
    law, edition = _Physical(gas), None
    if table is not None:
        edition = i.table_edition
        if edition is not None and edition != _with_table("gas-fitting-lengths", edition, c):
            refuse("table-edition-unknown", "/table_edition", accepted="none with added lengths")
        of_drop = _with_table("gas-copper-capacity-drop", edition, c)
        law = _ByTable(gas, table, c.value("gas-copper-capacity-drop", edition=of_drop))
    fittings = _Fittings(c, edition)
    demand = _demand(i, gas)
    total_flow = f.together(demand)
    state = _along(i, tree, demand, tubes, fittings, law)
    arrived, spares = [], []
    for index, appliance in enumerate(i.appliances):
        with part("appliance", appliance.name):
            dp = f.path_drop([state.drops[k] for k in tree.paths[index]])
            arrived.append(dp)
            spares.append(f.spare(limit, dp))
    highest = reduce(larger, arrived)
    _within_method(highest, total_flow, c)
    exchange = _Exchange(i, tree, tubes, fittings, law, state, arrived)
    sections = _section_outputs(exchange, spares, by_table=table is not None)
    unsettled = state.unsettled
    appliances = [
        {
            "name": appliance.name,
            "flow": demand[index],
            "drop": arrived[index],
            "spare": spares[index],
            "settled": _all_settled(tree.paths[index], unsettled, spares[index], limit, share),
            "profile": drawn(_profile, tree.paths[index], state.lengths, state.drops),
        }
        for index, appliance in enumerate(i.appliances)
    ]
    return {
        "family": gas.family,
        "density": gas.rho,
        "relative_density": f.relative_density(gas.rho),
        "viscosity": gas.mu,
        "gross_calorific_value": gas.gross,
        "net_calorific_value": gas.net,
        "total_flow": total_flow,
        "drop_limit": limit,
        "highest_drop": highest,
        "meter_judged": i.meter_capacity is not None,
        "table_edition": None if table is None else table.edition,
        "table_in_force": None if table is None else not table.superseded,
        "appliances": appliances,
        "sections": sections,
    }
