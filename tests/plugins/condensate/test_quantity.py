"""Condensate of a fuel against other libraries, and its shape."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer

WATER = 18.015268e-3  # kg/mol
GASES = {
    "methane": (1, 4),
    "ethane": (2, 6),
    "propane": (3, 8),
    "butane": (4, 10),
    "hydrogen": (0, 2),
}


def _ask(**changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "fuel": "methane",
        "heat_input": "24 kW net",
        "points": [{"name": "one", "air_ratio": 1.25, "flue_temperature": "40 degC"}],
    }
    inputs.update(changes)
    given_ = {key: value for key, value in inputs.items() if value is not None}
    request = {"inputs": given_, "region": "GB", "date": "2026-11-01"}
    return answer("condensate-quantity", request, parts=("findings",))


def _outputs(**changes: Any) -> dict[str, Any]:
    status, body = _ask(**changes)
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


def _independent(shares: dict[str, float], ratio: float, w: float, celsius: float) -> Any:
    """Dew point in degC and share condensed, by the balance of atoms and another formulation."""
    from iapws import IAPWS97

    carbon = sum(x * GASES[gas][0] for gas, x in shares.items())
    water = sum(x * GASES[gas][1] / 2 for gas, x in shares.items())
    air = (carbon + water / 2) / 0.2095
    dry = carbon + (ratio - 0.2095) * air
    vapour = water + w * 28.96546 / 18.015268 * ratio * air
    dew = IAPWS97(P=0.101325 * vapour / (vapour + dry), x=0).T - 273.15
    p = IAPWS97(T=celsius + 273.15, x=0).P
    left = dry * p / (0.101325 - p)
    return dew, max(0.0, vapour - left) / water


@settings(deadline=None, max_examples=60)
@given(
    st.dictionaries(st.sampled_from(sorted(GASES)), st.floats(0.1, 1), min_size=1),
    st.floats(1, 3),
    st.floats(0, 0.01),
    st.floats(26, 70),
)
def test_dew_point_and_share(
    parts: dict[str, float], ratio: float, w: float, celsius: float
) -> None:
    whole = sum(parts.values())
    shares = {gas: x / whole for gas, x in parts.items()}
    got = _outputs(
        fuel=None,
        composition=[{"gas": gas, "fraction": x} for gas, x in shares.items()],
        air_humidity=w,
        points=[
            {
                "name": "one",
                "air_ratio": ratio,
                "flue_temperature": {"value": celsius, "unit": "degC"},
            }
        ],
    )["points"][0]
    dew, share = _independent(shares, ratio, w, celsius)
    assert got["dew_point"]["value"] == pytest.approx(dew, abs=0.02)
    assert got["condensed_share"]["value"] == pytest.approx(100 * share, abs=0.2)
    assert got["condenses"] == (got["condensed_share"]["value"] > 0)


@pytest.mark.parametrize(
    ("gas", "formation"), [("methane", -74.53), ("propane", -104.4), ("butane", -125.9)]
)
def test_water_by_heats_of_formation(gas: str, formation: float) -> None:
    """Heats of formation at 25 degC in kJ/mol: CO2 -393.51, liquid water -285.83."""
    carbon, hydrogen = GASES[gas]
    water = hydrogen / 2
    gross = carbon * 393.51 + water * 285.83 + formation
    got = _outputs(fuel=gas)
    made = water * WATER * 3600
    assert got["water_by_gross"]["value"] == pytest.approx(made / gross, rel=0.002)
    assert got["water_by_net"]["value"] == pytest.approx(made / (gross - water * 44.01), rel=0.002)


def test_never_more_than_the_fuel_makes() -> None:
    got = _outputs(
        points=[
            {"name": str(t) + " degC", "air_ratio": 1.0, "flue_temperature": f"{t} degC"}
            for t in (10, 30, 50, 59, 60, 100)
        ]
    )
    most = got["design_mass"]["value"]
    masses = [point["condensate_mass"]["value"] for point in got["points"]]
    assert masses == sorted(masses, reverse=True)
    assert most > masses[0]
    assert masses[-2:] == [0.0, 0.0]


def test_basis_moves_the_answer_by_the_ratio_of_the_heats() -> None:
    net, gross = _outputs(), _outputs(heat_input="24 kW gross")
    ratio = net["water_by_net"]["value"] / net["water_by_gross"]["value"]
    assert net["design_flow"]["value"] / gross["design_flow"]["value"] == pytest.approx(
        ratio, rel=1e-12
    )


@pytest.mark.parametrize(("factor", "verdict"), [(1 - 1e-6, "met"), (1 + 1e-6, "not-met")])
def test_measured_just_within_and_just_beyond(factor: float, verdict: str) -> None:
    flow = _outputs()["design_flow"]["value"] * factor
    _, body = _ask(measured={"flow": {"value": flow, "unit": "l/h"}})
    assert body["findings"]["measured-against-ceiling"]["verdict"] == verdict


def test_curve_goes_through_the_point() -> None:
    """The curve by return temperature meets the point's own answer."""
    point = {"name": "one", "air_ratio": 1.25, "return_temperature": "35 degC", "approach": "7 K"}
    got = _outputs(points=[point])["points"][0]
    index = got["curve"]["temperature"]["values"].index(pytest.approx(35.0))
    assert got["curve"]["flow"]["values"][index] == pytest.approx(got["condensate_flow"]["value"])
    assert got["flue_temperature"]["value"] == pytest.approx(42.0)


@pytest.mark.parametrize(
    ("celsius", "factor", "against_points", "arrives"),
    [
        (40, 0.999, "met", "met"),
        (40, 1.001, "advisory", "met"),
        (40, 0, "met", "advisory"),
        (70, 0, "met", "met"),
    ],
)
def test_measured_against_the_operating_point(
    celsius: float, factor: float, against_points: str, arrives: str
) -> None:
    """Half the heat input makes half the condensate; none is as telling as too much."""
    point = {"name": "one", "air_ratio": 1.25, "flue_temperature": f"{celsius} degC"}
    whole = _outputs(points=[point])["points"][0]["condensate_flow"]["value"]
    flow = {"value": whole / 2 * factor, "unit": "l/h"}
    _, body = _ask(points=[point], measured={"flow": flow, "heat_input": "12 kW net"})
    assert body["findings"]["measured-against-points"]["verdict"] == against_points
    assert body["findings"]["condensate-arrives"]["verdict"] == arrives


def test_carbon_dioxide_without_excess_air_is_refused() -> None:
    """One sense here and in combustion: at the most, not only above it."""
    most = 20.95 / (0.2095 + 2 * 0.7905)
    for co2, status in ((most, 422), (most - 0.0005, 200)):
        point = {"name": "one", "carbon_dioxide": f"{co2!r} %", "flue_temperature": "40 degC"}
        assert _ask(points=[point])[0] == status
