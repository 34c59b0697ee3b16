"""Physics of a store that loses heat: well mixed, one conductance to the room."""

from __future__ import annotations

from typing import Annotated

from tundish.formula import Sym, constant, formula
from tundish.functions import exp, ln
from tundish.physics.pipes import PI
from tundish.sources import Source
from tundish_plugins.hot_water.insulation import (
    INSULATION,
    insulated_conductance,
    insulated_diameter,
)

__all__ = ["insulated_conductance", "insulated_diameter"]

LOSS = Source(
    "loss-conductance",
    kind="textbook",
    document="Heat loss in proportion to the difference of temperature",
    edition="heat transfer textbooks",
    locator="P = UA (T_s - T_a)",
    confirmed="derived",
)
COOLING = Source(
    "cooling-store",
    kind="derivation",
    document="Energy balance of a well-mixed store left alone: C dT/dt = -UA (T - T_a)",
    edition="1",
    locator="closed form, checked against an ODE solver",
    confirmed="derived",
)
MARKET = Source(
    "eu-814-2013-standing-loss",
    kind="regulation",
    document="Commission Regulation (EU) 814/2013 and Delegated Regulation (EU) 812/2013",
    edition="2013",
    locator="Annex II 2.1 and form of Annex II Table 2: S = a + b·V^0.4, W and litres",
    confirmed="seen",
    seen_in="formula in the source text of an energy-system library; its figure for 2000 litres "
    "in a trade journal",
)
GUIDE = Source(
    "compliance-guide-cylinders",
    kind="official-guidance",
    document="Domestic Building Services Compliance Guide",
    edition="2013",
    locator="hot water cylinders: Q = f·(0.2 + 0.051·V^(2/3)), kWh in 24 h, litres",
    confirmed="memory",
)

DAY = constant("t_d", 86400.0, "time", "s")
YEAR = constant("n_y", 365.0, "number", "1")

Volume = Annotated[float, Sym("volume", "V", "m3")]
Density = Annotated[float, Sym("density", "ρ", "kg/m3")]
SpecificHeat = Annotated[float, Sym("specific_heat", "c_p", "J/(kg.K)")]
Conductance = Annotated[float, Sym("thermal_conductance", "UA", "W/K")]
Capacity = Annotated[float, Sym("heat_capacity", "C", "J/K")]
Loss = Annotated[float, Sym("power", "S", "W")]
Power = Annotated[float, Sym("power", "P", "W")]
Daily = Annotated[float, Sym("energy", "Q", "J")]
TestDifference = Annotated[float, Sym("temperature_difference", "ΔT_S", "K")]
Store = Annotated[float, Sym("temperature", "T_0", "K")]
End = Annotated[float, Sym("temperature", "T_1", "K")]
Ambient = Annotated[float, Sym("temperature", "T_a", "K")]
Time = Annotated[float, Sym("time", "t", "s")]
Diameter = Annotated[float, Sym("length", "d_1", "m")]
Outer = Annotated[float, Sym("length", "d_2", "m")]
Height = Annotated[float, Sym("length", "H", "m")]
EndThickness = Annotated[float, Sym("length", "s_e", "m")]
Conductivity = Annotated[float, Sym("thermal_conductivity", "λ", "W/(m.K)")]
Surface = Annotated[float, Sym("thermal_transmittance", "h", "W/(m2.K)")]
Constant = Annotated[float, Sym("power", "a", "W")]
Slope = Annotated[float, Sym("number", "b", "1")]
Litres = Annotated[float, Sym("volume", "V", "l")]


# --- the loss -------------------------------------------------------------------------------------


@formula("S", "power", "W", source=LOSS)
def mean_power(Q: Daily) -> float:
    """Loss as a steady heat flow, from the loss in 24 hours."""
    return Q / DAY


@formula("UA", "thermal_conductance", "W/K", source=LOSS)
def declared_conductance(S: Loss, dT: TestDifference) -> float:
    """Loss for each kelvin above the room, from the test."""
    return S / dT


@formula("V_g", "volume", "m3", source=INSULATION)
def vessel_content(d_1: Diameter, H: Height) -> float:
    """Space inside the outline of the vessel."""
    return PI * d_1**2 / 4 * H


@formula("UA_s", "thermal_conductance", "W/K", source=INSULATION)
def side_conductance(
    U_l: Annotated[float, Sym("linear_transmittance", "U_l", "W/(m.K)")], H: Height
) -> float:
    """Loss through the side for each kelvin."""
    return U_l * H


@formula("UA_e", "thermal_conductance", "W/K", source=INSULATION)
def end_conductance(d_2: Outer, s_e: EndThickness, k: Conductivity, h: Surface) -> float:
    """Loss through top and bottom for each kelvin: flat discs out to the edge of the side."""
    return 2 * PI * d_2**2 / 4 / (s_e / k + 1 / h)


@formula("UA", "thermal_conductance", "W/K", source=INSULATION)
def vessel_conductance(
    UA_s: Annotated[float, Sym("thermal_conductance", "UA_s", "W/K")],
    UA_e: Annotated[float, Sym("thermal_conductance", "UA_e", "W/K")],
    UA_b: Annotated[float, Sym("thermal_conductance", "UA_b", "W/K")],
) -> float:
    """Loss of the whole vessel for each kelvin."""
    return UA_s + UA_e + UA_b


@formula("UA", "thermal_conductance", "W/K", source=COOLING)
def measured_conductance(C: Capacity, t: Time, T_0: Store, T_1: End, T_a: Ambient) -> float:
    """Loss for each kelvin, from a cooling test."""
    return C / t * ln((T_0 - T_a) / (T_1 - T_a))


@formula("P", "power", "W", source=LOSS)
def loss(UA: Conductance, T_0: Store, T_a: Ambient) -> float:
    """Loss at the temperatures given."""
    return UA * (T_0 - T_a)


@formula("S", "power", "W", source=LOSS)
def test_loss(UA: Conductance, dT: TestDifference) -> float:
    """Loss at the test difference of the label."""
    return UA * dT


@formula("Q", "energy", "J", source=LOSS)
def daily_loss(P: Power) -> float:
    """Loss in a day."""
    return P * DAY


@formula("Q_y", "energy", "J", source=LOSS)
def yearly_loss(Q: Daily) -> float:
    """Loss in 365 days."""
    return Q * YEAR


@formula("K", "number", "1", source=LOSS, empirical=True)
def yearly_cost(
    Q: Annotated[float, Sym("energy", "Q_y", "kWh")], p: Annotated[float, Sym("number", "p", "1")]
) -> float:
    """Price of the yearly loss."""
    return Q * p


# --- cooling down ---------------------------------------------------------------------------------


@formula("C", "heat_capacity", "J/K", source=COOLING)
def heat_capacity(V: Volume, rho: Density, c_p: SpecificHeat) -> float:
    """Heat capacity of the water."""
    return V * rho * c_p


@formula("τ", "time", "s", source=COOLING)
def time_constant(C: Capacity, UA: Conductance) -> float:
    """Time constant of cooling."""
    return C / UA


@formula("T_1", "temperature", "K", source=COOLING)
def cooled_temperature(
    T_0: Store, T_a: Ambient, t: Time, tau: Annotated[float, Sym("time", "τ", "s")]
) -> float:
    """Temperature after a time without heat."""
    return T_a + (T_0 - T_a) * exp(-t / tau)


@formula("t_u", "time", "s", source=COOLING)
def time_to_cool(
    tau: Annotated[float, Sym("time", "τ", "s")],
    T_0: Store,
    T_u: Annotated[float, Sym("temperature", "T_u", "K")],
    T_a: Ambient,
) -> float:
    """Time until the store falls to the useful temperature."""
    return tau * ln((T_0 - T_a) / (T_u - T_a))


# --- limits by size -------------------------------------------------------------------------------


@formula("S_max", "power", "W", source=MARKET, empirical=True)
def loss_by_size(a: Constant, b: Slope, V: Litres) -> float:
    """Loss that a bound allows at this size."""
    return a + b * V**0.4  # type: ignore[no-any-return]


@formula("Q_g", "energy", "kWh", source=GUIDE, empirical=True)
def guide_loss(factor: Annotated[float, Sym("number", "f", "1")], V: Litres) -> float:
    """Loss in 24 hours that the guide allows at this size."""
    return factor * (0.2 + 0.051 * V ** (2 / 3))  # type: ignore[no-any-return]
