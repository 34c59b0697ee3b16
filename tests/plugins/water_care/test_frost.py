"""Glycol against the published table, and what an exchange and the heat balance must give."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer


def _ask(**changes: Any) -> tuple[int, dict[str, Any]]:
    inputs: dict[str, Any] = {
        "fluid": "propylene-glycol",
        "coldest_temperature": "-10 degC",
        "margin": "3 K",
        "content": "100 l",
        "hottest_temperature": "80 degC",
        "potable_coil": False,
    }
    request = {"inputs": inputs | changes, "region": "GB", "date": "2026-11-01"}
    return answer("frost-protection", request)


def _body(**changes: Any) -> dict[str, Any]:
    status, body = _ask(**changes)
    assert status == 200, body
    return body


# freezing points of propylene glycol by mass share, CoolProp 8.0.0, INCOMP::MPG
@pytest.mark.parametrize(
    ("share", "celsius"), [(0.2, -7.172894942895), (0.3, -12.78910405847), (0.5, -32.1934687944)]
)
def test_mass_share_against_library(share: float, celsius: float) -> None:
    body = _body(coldest_temperature={"value": celsius + 2, "unit": "degC"}, margin="2 K")
    assert body["outputs"]["mass_share"] == pytest.approx(share, abs=2e-6)


@settings(max_examples=20, deadline=None)
@given(
    coldest=st.floats(-28, -4),
    present=st.floats(0.12, 0.5),
    fluid=st.sampled_from(["propylene-glycol", "ethylene-glycol"]),
)
def test_exchange_reaches_the_share(coldest: float, present: float, fluid: str) -> None:
    body = _body(
        fluid=fluid, coldest_temperature={"value": coldest, "unit": "degC"}, present_share=present
    )
    found = body["outputs"]
    exchanged = found["exchange_volume"]["value"]
    glycol = present * (100 - exchanged) + exchanged
    assert glycol == pytest.approx(max(found["glycol_volume"]["value"], 100 * present), rel=1e-9)
    enough = present >= found["volume_share"]
    verdict = body["findings"]["freezing-point"]["verdict"]
    assert verdict == ("met" if enough else "not-met")


def test_share_found_just_protects() -> None:
    share = _body()["outputs"]["volume_share"]
    for present, verdict in ((share * 1.0001, "met"), (share * 0.9999, "not-met")):
        body = _body(present_share=present)
        assert body["findings"]["freezing-point"]["verdict"] == verdict


def test_glycol_expands_and_resists_more() -> None:
    circuit = {"flow": "900 l/h", "bore": "20.2 mm", "temperature": "50 degC"}
    found = _body(circuit=circuit)["outputs"]
    assert found["expansion_ratio"] > 1.3
    assert found["circuit"]["flow_ratio"] > 1
    assert found["circuit"]["gradient_ratio"] > found["circuit"]["flow_ratio"] ** 1.75


def test_margin_covers_the_spread_of_the_sources() -> None:
    status, body = _ask(margin="0.5 K")
    assert (status, body["code"]) == (422, "value-out-of-range")
