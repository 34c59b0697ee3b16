"""The order of the formulas for glycol against frost. Floats or arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish.functions import drawn, require, root
from tundish.physics import pipes, water
from tundish.working import part
from tundish_plugins.sealed_heating import fluids
from tundish_plugins.water_care.frost import formulas as f

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.water_care.frost.contract import Circuit, FrostInputs

CURVE_PIECES: Final = 18


def _freezing_point(fluid: str, x: float) -> float:
    if fluid == "propylene-glycol":
        return f.propylene_freezing_point(x)
    return f.ethylene_freezing_point(x)


def _volume_share(fluid: str, x: float) -> float:
    return f.volume_share(x, water.density(fluids.MIXED_AT), fluids.PURE[fluid])


def _present(i: FrostInputs) -> float | None:
    """Freezing point of what is in the system."""
    if i.present_share is None:
        return None
    with part("content", "as it is"):
        x = fluids.share_by_mass(i.fluid, i.present_share)
        require(fluids.known(x), "present-share-beyond-data", "/present_share")
        return _freezing_point(i.fluid, x)


def _flow(c: Circuit, V: float, rho: float, mu: float) -> tuple[float, float]:
    """Pressure gradient and Reynolds number of a flow."""
    w = pipes.velocity(V, c.bore)
    Re = pipes.reynolds_number(w, c.bore, rho, mu)
    factor = pipes.friction_factor(Re, pipes.relative_roughness(c.roughness, c.bore))
    return pipes.friction_gradient(factor, c.bore, rho, w), Re


def _circuit(c: Circuit, fluid: str, x: float) -> dict[str, Any]:
    T = c.temperature
    rho_w, rho_g = water.density(T), fluids.density(fluid, x, T)
    c_w, c_g = water.specific_heat(T), fluids.specific_heat(fluid, x, T)
    ratio = f.flow_ratio(rho_w, c_w, rho_g, c_g)
    V_g = f.glycol_flow(ratio, c.flow)
    with part("content", "water"):
        R_w, _ = _flow(c, c.flow, rho_w, water.dynamic_viscosity(T))
    with part("content", "glycol"):
        R_g, Re = _flow(c, V_g, rho_g, fluids.viscosity(fluid, x, T))
    return {
        "flow": V_g,
        "flow_ratio": ratio,
        "water_gradient": R_w,
        "glycol_gradient": R_g,
        "gradient_ratio": f.gradient_ratio(R_g, R_w),
        "reynolds": Re,
        "laminar": Re < pipes.TURBULENT_FROM,
    }


def _curve(fluid: str, V: float) -> dict[str, Any]:
    low, high = fluids.LEAST_SHARE, fluids.LARGEST_SHARE
    x = [low + (high - low) * (k / CURVE_PIECES) for k in range(CURVE_PIECES + 1)]
    return {
        "glycol_volume": [f.glycol_volume(_volume_share(fluid, item), V) for item in x],
        "freezing_point": [_freezing_point(fluid, item) + 0.0 * V for item in x],
    }


def kernel(i: FrostInputs, c: Context) -> dict[str, Any]:
    """Share of glycol against frost, and what it costs."""
    del c
    T_fill, T_hot = i.fill_temperature, i.hottest_temperature
    require(T_fill < T_hot, "hottest-below-filling", "/hottest_temperature")
    target = f.target_temperature(i.coldest_temperature, i.margin)
    x = root(
        lambda x: f.freezing_gap(_freezing_point(i.fluid, x), target),
        fluids.LEAST_SHARE,
        fluids.LARGEST_SHARE,
        what="share of glycol by mass",
        code="beyond-glycol-data",
        field="/coldest_temperature",
    )
    phi = _volume_share(i.fluid, x)
    present = _present(i)
    dV_w = f.expansion(i.content, water.density(T_fill), water.density(T_hot))
    dV_g = f.expansion(
        i.content, fluids.density(i.fluid, x, T_fill), fluids.density(i.fluid, x, T_hot)
    )
    return {
        "target_temperature": target,
        "mass_share": x,
        "volume_share": phi,
        "glycol_volume": f.glycol_volume(phi, i.content),
        "present_freezing_point": present,
        "exchange_volume": (
            None if i.present_share is None else f.exchange_volume(phi, i.present_share, i.content)
        ),
        "water_expansion": dV_w,
        "glycol_expansion": dV_g,
        "expansion_ratio": f.volume_ratio(dV_g, dV_w),
        "circuit": None if i.circuit is None else _circuit(i.circuit, i.fluid, x),
        "poisonous_coil": i.potable_coil and i.fluid == "ethylene-glycol",
        "curve": drawn(_curve, i.fluid, i.content),
    }
