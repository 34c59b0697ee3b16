"""Gas rate: units against pint, errors, corrections made once, verdicts at their limits."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tundish import answer

pint = pytest.importorskip("pint")
UNITS = pint.UnitRegistry()


def _q(value: float, unit: str, basis: str | None = None) -> dict[str, Any]:
    return {"value": value, "unit": unit, **({"basis": basis} if basis else {})}


def _answer(date: str = "2026-11-01", **inputs: Any) -> tuple[int, dict[str, Any]]:
    given = {"gas": "natural-gas", "time": _q(120, "s"), **inputs}
    return answer("gas-rate", {"inputs": given, "region": "GB", "date": date})


def _outputs(**inputs: Any) -> Any:
    status, body = _answer(**inputs)
    assert status == 200, body
    return body["outputs"]


def _verdict(code: str, **inputs: Any) -> str:
    status, body = _answer(**inputs)
    assert status == 200, body
    return str(body["findings"][code]["verdict"])


@settings(max_examples=80, deadline=None)
@given(
    dial=st.floats(0.5, 10),
    seconds=st.floats(10, 900),
    value=st.floats(900, 1180),
    revolutions=st.integers(1, 5),
)
def test_imperial_by_pint(dial: float, seconds: float, value: float, revolutions: int) -> None:
    """Cubic feet, Btu and seconds by another library."""
    assume(revolutions * dial / seconds < 0.15)  # 15 m3/h: no more than a domestic meter passes
    found = _outputs(
        dial=_q(dial, "ft3"),
        revolutions=revolutions,
        time=_q(seconds, "s"),
        calorific_value=_q(value, "Btu/ft3", "gross"),
    )
    expected = revolutions * dial * UNITS.foot**3 / (seconds * UNITS.second)
    power = (expected * value * UNITS.Btu_it / UNITS.foot**3).to("kW").m
    assert found["gross_input"]["value"] == pytest.approx(power, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(
    rate=st.floats(0.5, 5),
    seconds=st.integers(60, 400),
    phase=st.floats(0, 1, exclude_max=True),
)
def test_the_error_holds_the_truth(rate: float, seconds: int, phase: float) -> None:
    """A counter in litres, read at any phase: the true rate is within the error stated."""
    true = rate / 3600 * seconds * 1000 + phase
    steps = int(true)
    if not steps:
        return
    found = _outputs(
        volume=_q(steps / 1000, "m3"),
        step=_q(0.001, "m3"),
        time=_q(seconds, "s"),
        time_error=_q(0, "s"),
    )
    share = abs(rate / found["metered_rate"]["value"] - 1)
    assert share <= found["reading_error"] * (1 + 1e-9)


def test_after_the_time_needed_the_error_is_half_the_tolerance() -> None:
    inputs = {"step": _q(0.001, "m3"), "rated_input": _q(22, "kW", "net")}
    needed = _outputs(volume=_q(0.077, "m3"), **inputs)["time_needed"]["value"]
    again = _outputs(
        volume=_q(0.077 / 120 * needed, "m3"), time=_q(needed * (1 + 1e-12), "s"), **inputs
    )
    assert again["reading_error"] == pytest.approx(0.025, rel=1e-9)


def test_corrected_once_or_not_at_all() -> None:
    read: dict[str, Any] = {"volume": _q(0.09, "m3"), "step": _q(0.001, "m3")}
    plain = _outputs(**read)
    by_hand = _outputs(**read, meter_pressure=_q(21, "mbar"), gas_temperature=_q(288.15, "K"))
    assert not plain["corrected"]
    assert plain["rate"]["value"] == pytest.approx(plain["metered_rate"]["value"], rel=1e-15)
    assert by_hand["net_input"]["value"] / plain["net_input"]["value"] == pytest.approx(
        1034.25 / 1013.25, rel=1e-12
    )
    assert _outputs(**read, meter_converts=True)["net_input"] == plain["net_input"]
    status, body = _answer(**read, meter_converts=True, meter_pressure=_q(21, "mbar"))
    assert (status, body["code"]) == (422, "corrected-twice")


def test_the_bill_never_rates_an_appliance() -> None:
    """The fixed factor of the bill is in no heat input."""
    found = _outputs(volume=_q(0.09, "m3"), step=_q(0.001, "m3"))
    energy = found["gross_input"]["value"] * 120 / 3600
    assert found["billed_energy"]["value"] == pytest.approx(energy * 1.02264, rel=1e-12)


def test_gross_and_net_plates_agree() -> None:
    read: dict[str, Any] = {"volume": _q(0.09, "m3"), "step": _q(0.001, "m3"), "gross_to_net": 1.11}
    net = _outputs(**read, rated_input=_q(25, "kW", "net"))
    gross = _outputs(**read, rated_input=_q(25 * 1.11, "kW", "gross"))
    assert net["deviation"] == pytest.approx(gross["deviation"], abs=1e-12)


@pytest.mark.parametrize(
    ("net", "upper", "lower"),
    [
        (25.7251, "not-met", "met"),
        (25.7249, "advisory", "met"),
        (23.2751, "met", "met"),
        (23.2749, "met", "not-met"),
    ],
)
def test_at_the_tolerance(net: float, upper: str, lower: str) -> None:
    inputs = {
        "volume": _q(net * 1.11 / 38760 * 300, "m3"),
        "time": _q(300, "s"),
        "step": _q(0.001, "m3"),
        "calorific_value": _q(38.76, "MJ/m3", "gross"),
        "gross_to_net": 1.11,
        "rated_input": _q(24.5, "kW", "net"),
    }
    assert _verdict("input-at-most-rated", **inputs) == upper
    assert _verdict("input-at-least-rated", **inputs) == lower


def test_a_coarse_reading_passes_nothing() -> None:
    """Whatever it says, a reading with an error above half the tolerance is never met."""
    for rated in range(8, 40):
        status, body = _answer(
            volume=_q(0.03, "m3"),
            time=_q(60, "s"),
            step=_q(0.001, "m3"),
            rated_input=_q(rated, "kW", "net"),
        )
        assert status == 200
        assert body["verdict"] != "met"
        for code in ("input-at-most-rated", "input-at-least-rated"):
            assert body["findings"][code]["verdict"] in {"advisory", "not-met"}


@pytest.mark.parametrize(
    ("inputs", "code"),
    [
        ({"time": _q(0, "s")}, "time-not-positive"),
        ({"volume": _q(0.0099, "m3"), "rated_input": _q(5, "kW", "net")}, "too-few-steps"),
        ({"rated_input": _q(24, "kW")}, "basis-missing"),
        ({"calorific_value": _q(39, "MJ/m3")}, "basis-missing"),
    ],
)
def test_refused(inputs: dict[str, Any], code: str) -> None:
    status, body = _answer(**{"volume": _q(0.05, "m3"), "step": _q(0.001, "m3"), **inputs})
    assert status == 422
    assert body["code"] == code


@pytest.mark.parametrize(
    ("gas", "value", "volume", "code"),
    [
        ("propane", 39.4, 0.05, "calorific-value-of-no-such-gas"),
        ("natural-gas", 120, 0.05, "calorific-value-of-no-such-gas"),
        ("natural-gas", 39.4, 0.05, None),
        ("propane", 95, 0.05, None),
        ("natural-gas", 39.4, 1.97, "beyond-domestic-scope"),
        ("natural-gas", 39.4, 0.21, "rate-beyond-meter"),
    ],
)
def test_gas_and_rate_that_cannot_be(
    gas: str, value: float, volume: float, code: str | None
) -> None:
    more = {"meter_capacity": _q(6, "m3/h")} if code == "rate-beyond-meter" else {}
    status, body = _answer(
        gas=gas,
        calorific_value=_q(value, "MJ/m3", "gross"),
        volume=_q(volume, "m3"),
        step=_q(0.001, "m3"),
        **more,
    )
    assert (status, body.get("code")) == ((200, None) if code is None else (422, code))
