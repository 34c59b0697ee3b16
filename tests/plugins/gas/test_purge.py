"""Purge: volume, time, burning and dilution against sums that share no code with the kernel."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer

DATE = "2026-11-01"
FAST = settings(max_examples=60, deadline=None, derandomize=True)


def _inputs(**more: Any) -> dict[str, Any]:
    pipes = [{"name": "run", "tube": "copper-15", "length": "9 m"}]
    base = {
        "gas": "natural",
        "meter": "G4",
        "pipes": pipes,
        "burnt": True,
        "ventilated": True,
        "ignition_excluded": True,
    }
    return {k: v for k, v in {**base, **more}.items() if v is not None}


def _answer(inputs: dict[str, Any], date: str = DATE) -> tuple[int, dict[str, Any]]:
    return answer("gas-purge", {"inputs": inputs, "region": "GB", "date": date})


def _body(inputs: dict[str, Any], date: str = DATE) -> dict[str, Any]:
    status, body = _answer(inputs, date)
    assert status == 200, body
    return body


@given(
    litres=st.floats(3, 35),
    flow=st.floats(0.05, 16),
    burnt=st.booleans(),
    room=st.floats(0.06, 100),
)
@FAST
def test_purge_against_sums(litres: float, flow: float, burnt: bool, room: float) -> None:
    body = _body(
        _inputs(
            meter="E6",
            pipes=None,
            volume={"value": litres, "unit": "l"},
            flow={"value": flow, "unit": "m3/h"},
            burnt=burnt,
            room_volume={"value": room, "unit": "m3"},
        )
    )
    out, found = body["outputs"], body["findings"]
    purge = 1.5 * litres
    assert out["purge_volume"]["value"] == pytest.approx(purge, rel=1e-12)
    assert out["purge_time"]["value"] == pytest.approx(purge / (flow * 1000 / 60), rel=1e-12)
    assert out["must_be_burnt"] is (purge > 20)
    if burnt:
        assert "unburnt-purge" not in found
        assert "gas-in-room" not in found
        assert body["verdict"] == "advisory"
        return
    share = purge / 1000 / room
    assert out["room_share"]["value"] == pytest.approx(100 * share, rel=1e-12)
    assert found["unburnt-purge"]["verdict"] == ("dangerous" if purge > 20 else "advisory")
    assert found["gas-in-room"]["verdict"] == ("dangerous" if share > 0.044 else "advisory")


@given(kilowatts=st.floats(0.3, 60), basis=st.sampled_from(["net", "gross"]))
@FAST
def test_burner_passes_air_more_slowly_than_gas(kilowatts: float, basis: str) -> None:
    out = _body(_inputs(burner={"value": kilowatts, "unit": "kW", "basis": basis}))["outputs"]
    gas = 3.6 * kilowatts / (34.9 if basis == "net" else 38.76)
    assert out["flow"]["value"] == pytest.approx(gas * math.sqrt(0.7353 / 1.22554), rel=1e-6)
    assert out["flow"]["value"] < gas
    seconds = 1.5 * 9.386 / (out["flow"]["value"] / 3.6)
    assert out["purge_time"]["value"] * 60 == pytest.approx(seconds, rel=1e-9)


def test_ratio_of_flows_against_a_library_orifice() -> None:
    """Air and gas through one hole at one pressure difference."""
    orifice = pytest.importorskip("fluids.flow_meter").flow_meter_discharge
    one = {"D": 0.02, "Do": 0.002, "P1": 103425.0, "P2": 103325.0, "C": 0.62}
    air, gas = (orifice(**one, rho=rho, expansibility=1.0) / rho for rho in (1.22554, 0.7353))
    out = _body(_inputs(burner={"value": 38.76 / 3.6, "unit": "kW", "basis": "gross"}))["outputs"]
    assert out["flow"]["value"] == pytest.approx(air / gas, rel=1e-6)


def test_velocity_is_flow_over_bore() -> None:
    pipes = [{"name": "run", "tube": "copper-22x1.2", "length": "3 m"}]
    out = _body(_inputs(pipes=pipes, flow="1 m3/h"))["outputs"]
    area = math.pi * 0.0196**2 / 4
    assert out["pipes"][0]["velocity"]["value"] == pytest.approx(1 / 3600 / area, rel=1e-12)


def test_no_purge_is_met_on_figures_not_confirmed() -> None:
    for date in (DATE, "2025-11-01"):
        body = _body(_inputs(volume_passed="100 l"), date)
        assert body["findings"]["volume-passed"]["verdict"] == "advisory"
        body = _body(_inputs(burnt=False, volume_passed="100 l"), date)
        assert body["findings"]["unburnt-purge"]["verdict"] == "advisory"


@pytest.mark.parametrize(
    "wrong", [{"ventilated": False}, {"ignition_excluded": False}, {"burnt": False, "meter": "U16"}]
)
def test_danger_carries_the_emergency_route(wrong: dict[str, Any]) -> None:
    body = _body(_inputs(**wrong))
    assert body["verdict"] == "dangerous"
    words = [
        item["words"]
        for found in body["findings"].values()
        if found["verdict"] == "dangerous"
        for item in found["items"]
    ]
    assert words
    for text in words:
        assert "Do not purge like this" in text
        assert "emergency number" in text


@pytest.mark.parametrize("field", ["burnt", "ventilated", "ignition_excluded"])
def test_precautions_are_never_assumed(field: str) -> None:
    status, body = _answer(_inputs(**{field: None}))
    assert (status, body["code"], body["pointer"]) == (422, "field-missing", f"/inputs/{field}")


@pytest.mark.parametrize(
    ("more", "code", "field"),
    [
        ({"gas": "lpg"}, "gas-without-procedure", "gas"),
        ({"pipes": None}, "volume-unknown", "pipes"),
        ({"untraced_pipework": True}, "volume-unknown", "untraced_pipework"),
        ({"flow": "1 m3/h", "burner": "3 kW net"}, "flow-given-twice", "flow"),
        ({"pipes": None, "volume": "35.1 l"}, "installation-too-large", "volume"),
    ],
)
def test_refusals(more: dict[str, Any], code: str, field: str) -> None:
    status, body = _answer(_inputs(**more))
    assert (status, body["code"], body["pointer"]) == (422, code, f"/inputs/{field}")


@pytest.mark.parametrize(
    ("room", "verdict"), [("1599.8 l", "not-met"), ("1600.2 l", "advisory"), (None, None)]
)
def test_gas_in_the_room_keeps_a_margin(room: str | None, verdict: str | None) -> None:
    """A fifth of what burns is the most; an unknown room is told, not passed over."""
    body = _body(_inputs(burnt=False, room_volume=room))
    found = body["findings"]
    assert (found["gas-in-room-margin"]["verdict"] if room else None) == verdict
    assert found["room-known"]["verdict"] == ("met" if room else "advisory")


@pytest.mark.parametrize(("is_open", "verdict"), [(True, "met"), (None, "advisory"), (False, None)])
def test_no_purge_into_a_closed_chamber(is_open: bool | None, verdict: str | None) -> None:
    status, body = _answer(_inputs(burner="24 kW net", burner_open=is_open))
    if verdict is None:
        assert (status, body["code"]) == (422, "burner-closed")
    else:
        assert body["findings"]["burner-open"]["verdict"] == verdict
