"""The order of the formulas for the standing loss of a store. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tundish.functions import drawn, pick, refuse, require
from tundish.physics.water import density, specific_heat
from tundish_plugins.hot_water.standing_loss import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.hot_water.standing_loss.contract import (
        CoolingTest,
        Insulation,
        StandingLossInputs,
    )

CURVE_PIECES = 24
DECLARED = "declared"
DOUBT = "by bounds from memory"
"""Said with every class until the regulation's own table has been read."""


def _insulated(vessel: Insulation, V: float) -> tuple[float, float, float]:
    """Conductance of side, ends and the whole, from the insulation."""
    content = f.vessel_content(vessel.diameter, vessel.height)
    require(
        content >= V,
        "vessel-too-small",
        "/insulation/diameter",
        content=(content, "volume", "l"),
    )
    k, h = vessel.conductivity, vessel.surface_coefficient
    d_2 = f.insulated_diameter(vessel.diameter, vessel.thickness)
    side = f.side_conductance(f.insulated_conductance(vessel.diameter, d_2, k, h), vessel.height)
    end = vessel.thickness if vessel.end_thickness is None else vessel.end_thickness
    ends = f.end_conductance(d_2, end, k, h)
    return side, ends, f.vessel_conductance(side, ends, vessel.bridges)


def _measured(test: CoolingTest, V: float) -> float:
    """Conductance from a cooling test."""
    T_0, T_1, T_a = test.start_temperature, test.end_temperature, test.ambient_temperature
    require(T_a < T_1, "cooling-test-impossible", "/cooling_test/ambient_temperature")
    require(T_1 < T_0, "cooling-test-impossible", "/cooling_test/end_temperature")
    C = f.heat_capacity(V, density(T_0), specific_heat(T_0))
    return f.measured_conductance(C, test.duration, T_0, T_1, T_a)


def _conductance(i: StandingLossInputs) -> tuple[str, float, float | None, float | None]:
    """Where the loss comes from, and the conductance: whole, side, ends."""
    ways = (i.declared_loss, i.declared_daily_loss, i.insulation, i.cooling_test)
    given = [way for way in ways if way is not None]
    if not given:
        refuse("loss-missing", "/declared_loss")
    if len(given) > 1:  # structure
        refuse("loss-given-twice", "/declared_loss")
    if i.insulation is not None:
        side, ends, whole = _insulated(i.insulation, i.volume)
        return "insulation", whole, side, ends
    if i.cooling_test is not None:
        return "cooling test", _measured(i.cooling_test, i.volume), None, None
    if i.declared_loss is not None:
        return DECLARED, f.declared_conductance(i.declared_loss, i.test_difference), None, None
    assert i.declared_daily_loss is not None
    S = f.mean_power(i.declared_daily_loss)
    return DECLARED, f.declared_conductance(S, i.test_difference), None, None


def _label(S: float, V: float, c: Context) -> str:
    """Class of the energy label: the best whose bound lies above the loss."""
    found = f"G, {DOUBT}"
    for row in reversed(list(c.table("store-label-classes").rows())):
        bound = f.loss_by_size(row["constant"], row["slope"], V)
        found = pick(S < bound, f"{row['class']}, {DOUBT}", found)
    return pick(V <= c.value("store-label-volume-most"), found, "no label above 500 l")


def _curve(T_0: float, T_a: float, t: float, tau: float) -> dict[str, Any]:
    times = [t * (k / CURVE_PIECES) for k in range(CURVE_PIECES + 1)]
    return {
        "time": times,
        "temperature": [f.cooled_temperature(T_0, T_a, time, tau) for time in times],
    }


def kernel(i: StandingLossInputs, c: Context) -> dict[str, Any]:
    """Loss, its yearly sum, limits by size, and how the store cools down."""
    T_0, T_a, V = i.store_temperature, i.ambient_temperature, i.volume
    require(T_a < T_0, "store-not-above-ambient", "/store_temperature")
    if i.useful_temperature is not None:
        require(i.useful_temperature < T_0, "useful-not-below-store", "/useful_temperature")
        require(
            T_a < i.useful_temperature,
            "never-cools-so-far",
            "/useful_temperature",
            ambient=(T_a, "temperature", "degC"),
        )
    basis, UA, side, ends = _conductance(i)
    P = f.loss(UA, T_0, T_a)
    Q = f.daily_loss(P)
    year = f.yearly_loss(Q)
    S = f.test_loss(UA, c.value("standing-loss-test-difference"))

    market = guide = label = None
    if c.has("store-market-limit-constant"):
        a, b = c.value("store-market-limit-constant"), c.value("store-market-limit-slope")
        market = f.loss_by_size(a, b, V)
    if c.has("store-guide-loss-factor"):
        guide = f.guide_loss(c.value("store-guide-loss-factor"), V)
    if basis == DECLARED and c.has("store-label-classes"):
        label = _label(S, V, c)

    tau = f.time_constant(f.heat_capacity(V, density(T_0), specific_heat(T_0)), UA)
    return {
        "basis": basis,
        "loss": P,
        "daily_loss": Q,
        "yearly_loss": year,
        "yearly_cost": None if i.energy_price is None else f.yearly_cost(year, i.energy_price),
        "conductance": UA,
        "side_conductance": side,
        "end_conductance": ends,
        "test_loss": S,
        "test_daily_loss": f.daily_loss(S),
        "market_limit": market,
        "guide_limit": guide,
        "label_class": label,
        "time_constant": tau,
        "end_temperature": f.cooled_temperature(T_0, T_a, i.cooling_time, tau),
        "useful_time": (
            None
            if i.useful_temperature is None
            else f.time_to_cool(tau, T_0, i.useful_temperature, T_a)
        ),
        "curve": drawn(_curve, T_0, T_a, i.cooling_time, tau),
    }
