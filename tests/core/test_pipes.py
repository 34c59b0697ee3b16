"""Pipe friction against independent solutions, and its shape."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.physics import pipes


def _colebrook_by_search(Re: float, eps: float) -> float:
    from scipy.optimize import brentq

    def gap(f: float) -> float:
        return 1 / math.sqrt(f) + 2 * math.log10(eps / 3.7 + 2.51 / (Re * math.sqrt(f)))

    found: float = brentq(gap, 1e-4, 1.0, xtol=1e-16, rtol=1e-14)
    return found


@settings(deadline=None)
@given(st.floats(4000, 1e8), st.floats(1e-7, 0.05))
def test_turbulent_friction_solves_colebrook(Re: float, eps: float) -> None:
    expected = _colebrook_by_search(Re, eps)
    assert pipes.friction_factor(Re, eps) == pytest.approx(expected, rel=1e-11)


@pytest.mark.parametrize("Re", [500.0, 1999.0, 4001.0, 1e5, 1e6])
def test_friction_against_another_library(Re: float) -> None:
    from fluids import friction_factor

    expected = friction_factor(Re=Re, eD=0.001)
    assert pipes.friction_factor(Re, 0.001) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("Re", [2000.0, 2700.0, 3999.0])
def test_larger_of_both_where_the_flow_is_unsettled(Re: float) -> None:
    both = (64 / Re, _colebrook_by_search(Re, 1e-3))
    assert pipes.friction_factor(Re, 1e-3) == pytest.approx(max(both), rel=1e-11)


def test_columns_equal_floats() -> None:
    rng = np.random.default_rng(7)
    Re = 10 ** rng.uniform(1, 7, 3000)
    eps = 10 ** rng.uniform(-6, -1.4, 3000)
    columns = pipes.friction_factor(Re, eps)
    rows = [pipes.friction_factor(float(a), float(b)) for a, b in zip(Re, eps, strict=True)]
    np.testing.assert_allclose(columns, rows, rtol=1e-12)


@pytest.mark.parametrize(
    ("flow", "bore", "head"),
    [(50, 6, 0.903), (150, 6, 5.961), (400, 6, 33.43), (50, 9.5, 0.071), (250, 9.5, 1.635)],
)
def test_published_head_of_small_tube(flow: float, bore: float, head: float) -> None:
    """Head lost in 10 m of smooth tube, water at 20 degC, computed with fluids and iapws."""
    from tundish.physics.water import density, dynamic_viscosity

    rho, mu, d = density(293.15), dynamic_viscosity(293.15), bore / 1e3
    w = pipes.velocity(flow / 3.6e6, d)
    f = pipes.friction_factor(pipes.reynolds_number(w, d, rho, mu), 1.5e-6 / d)
    lost = pipes.friction_drop(f, 10.0, d, rho, w) / (rho * 9.80665)
    assert lost == pytest.approx(head, rel=0.01)
