"""Combustion: stoichiometry, dew point and heat against sums that share no code with it; limits."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish_plugins.gas.combustion import CALCULATION

DATE = "2026-11-01"
EXAMPLE: dict[str, Any] = CALCULATION.example
FAST = settings(max_examples=40, deadline=None, derandomize=True)
# name: carbon, hydrogen atoms
ATOMS = {"methane": (1, 4), "propane": (3, 8), "butane": (4, 10)}


def _inputs(reading: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A reading whose flue is proved, unless another flue is asked for."""
    first = {"name": "r", "rate": "fixed", "flue_temperature": "60 degC", **reading}
    proved = {} if "flue" in more else {"air_inlet": {"o2": "20.9 %"}}
    return {
        **proved,
        "gas": "methane",
        "flue": "separate",
        "air_temperature": "15 degC",
        "readings": [first],
        **more,
    }


def _body(inputs: dict[str, Any], **more: Any) -> dict[str, Any]:
    status, body = answer("combustion", {"inputs": inputs, "region": "GB", "date": DATE, **more})
    assert status == 200, body
    return body


def _refused(inputs: dict[str, Any], **more: Any) -> str:
    status, body = answer("combustion", {"inputs": inputs, "region": "GB", "date": DATE, **more})
    assert status == 422, body
    return str(body["code"])


def _reading(inputs: dict[str, Any], **more: Any) -> dict[str, Any]:
    found: dict[str, Any] = _body(inputs, **more)["outputs"]["readings"][0]
    return found


def _verdict(inputs: dict[str, Any], code: str) -> str:
    return str(_body(inputs)["findings"][code]["verdict"])


def _flue_gas(gas: str, excess: float) -> tuple[float, float, float, float]:
    """Shares of carbon dioxide and oxygen in dry flue gas, moles of it and of water, by counting."""
    carbon, hydrogen = ATOMS[gas]
    needed = carbon + hydrogen / 4
    oxygen_in = needed * (1 + excess)
    nitrogen = oxygen_in / 0.2095 * 0.7905
    left = oxygen_in - needed
    dry = carbon + left + nitrogen
    return carbon / dry, left / dry, dry, hydrogen / 2


@FAST
@given(st.sampled_from(sorted(ATOMS)), st.floats(0.02, 2.5), st.booleans())
def test_excess_air_by_counting_atoms(gas: str, excess: float, by_oxygen: bool) -> None:
    """A flue gas mixed from atoms gives back the excess air it was mixed with."""
    co2, o2, dry, water = _flue_gas(gas, excess)
    given_ = (
        {"o2": {"value": o2, "unit": "1"}} if by_oxygen else {"co2": {"value": co2, "unit": "1"}}
    )
    found = _reading(_inputs(given_, gas=gas))
    assert found["excess_air"]["value"] == pytest.approx(100 * excess, rel=1e-9)
    assert found["co2"]["value"] == pytest.approx(100 * co2, rel=1e-9)
    assert found["o2"]["value"] == pytest.approx(100 * o2, rel=1e-9)
    assert found["dry_flue_gas"] == pytest.approx(dry, rel=1e-9)
    assert found["water_share"]["value"] == pytest.approx(100 * water / (water + dry), rel=1e-9)


@FAST
@given(st.floats(0.02, 2.5), st.floats(0.1, 3), st.floats(1, 300))
def test_dilution_leaves_the_ratio(excess: float, more: float, ppm: float) -> None:
    """Air drawn into the sample lowers every reading, not the ratio nor the air-free figure."""
    co2, *_ = _flue_gas("methane", excess)
    thin = 1 / (1 + more)
    found = []
    for share in (1.0, thin):
        if co2 * share < 0.015:
            return
        reading = {
            "co2": {"value": co2 * share, "unit": "1"},
            "co": {"value": ppm * share, "unit": "ppm"},
        }
        found.append(_reading(_inputs(reading)))
    assert found[0]["ratio"] == pytest.approx(found[1]["ratio"], rel=1e-12)
    air_free = [item["co_air_free"]["value"] for item in found]
    assert air_free[0] == pytest.approx(air_free[1], rel=1e-12)
    assert found[1]["dew_point"]["value"] < found[0]["dew_point"]["value"]


@FAST
@given(st.sampled_from(sorted(ATOMS)), st.floats(0.05, 1), st.floats(16, 180), st.floats(-5, 15))
def test_heat_against_a_library(gas: str, excess: float, flue: float, air: float) -> None:
    """Dew point, loss and condensing gain as a property library has them."""
    properties = pytest.importorskip("CoolProp.CoolProp")
    integrate = pytest.importorskip("scipy.integrate")
    heating = {"methane": 802665.0, "propane": 2043545.0, "butane": 2657388.0}[gas]

    def heat(fluid: str, start: float, end: float) -> float:
        def cp(theta: float) -> float:
            kelvin = max(theta + 273.15, 274.0 if fluid == "Water" else 0.0)
            return float(properties.PropsSI("CP0MOLAR", "T", kelvin, "P", 600, fluid))

        return float(integrate.quad(cp, start, end)[0])

    co2, o2, dry, water = _flue_gas(gas, excess)
    found = _reading(
        _inputs(
            {
                "co2": {"value": co2, "unit": "1"},
                "flue_temperature": {"value": flue, "unit": "degC"},
            },
            gas=gas,
            air_temperature={"value": air, "unit": "degC"},
        )
    )
    dew = properties.PropsSI("T", "P", 101325 * water / (water + dry), "Q", 1, "Water") - 273.15
    assert found["dew_point"]["value"] == pytest.approx(dew, abs=0.02)
    carbon, hydrogen = ATOMS[gas]
    supplied = (carbon + hydrogen / 4) * (1 + excess)
    inert = supplied / 0.2095 * 0.7905
    argon = 0.0118 * inert

    def of_inert(start: float, end: float) -> float:
        return (inert - argon) * heat("Nitrogen", start, end) + argon * heat("Argon", start, end)

    leaving = (
        carbon * heat("CarbonDioxide", 15, flue)
        + water * heat("Water", 15, flue)
        + dry * o2 * heat("Oxygen", 15, flue)
        + of_inert(15, flue)
    )
    brought = supplied * heat("Oxygen", 15, air) + of_inert(15, air)
    assert found["sensible_loss_net"]["value"] == pytest.approx(
        100 * (leaving - brought) / heating, abs=0.01
    )
    condensed = 0.0
    if flue < dew:
        p = properties.PropsSI("P", "T", flue + 273.15, "Q", 1, "Water")
        condensed = water - dry * p / (101325 - p)
    assert found["condensed_share"] == pytest.approx(condensed / water, abs=1e-3)
    latent = sum(
        sign * properties.PropsSI("HMOLAR", "T", flue + 273.15, "Q", quality, "Water")
        for sign, quality in ((1, 1), (-1, 0))
    )
    gain = 100 * condensed * latent / heating
    assert found["condensing_gain_net"]["value"] == pytest.approx(gain, abs=0.03)


@FAST
@given(st.floats(5, 12), st.floats(20, 70))
def test_gross_and_net_say_the_same_heat(o2: float, flue: float) -> None:
    """Useful heat is one number, on whichever input it is stated."""
    reading = {
        "o2": {"value": o2, "unit": "%"},
        "flue_temperature": {"value": flue, "unit": "degC"},
        "heat_input": "20 kW net",
    }
    found = _reading(_inputs(reading, gas="natural-gas"))
    net = found["efficiency_net"]["value"] * found["heat_input_net"]["value"]
    gross = found["efficiency_gross"]["value"] * found["heat_input_gross"]["value"]
    assert net == pytest.approx(gross, rel=1e-12)
    lost = found["heat_input_gross"]["value"] - gross / 100
    assert found["flue_loss"]["value"] == pytest.approx(lost, rel=1e-9)
    backwards = {**reading, "heat_input": {**found["heat_input_gross"], "basis": "gross"}}
    again = _reading(_inputs(backwards, gas="natural-gas"))
    assert again["heat_input_net"]["value"] == pytest.approx(20, rel=1e-12)


@pytest.mark.parametrize(
    ("code", "below", "above", "failed"),
    [
        (
            "carbon-monoxide-general",
            {"co2": "9.5 %", "co": "350 ppm"},
            {"co": "351 ppm"},
            "not-met",
        ),
        ("ratio-general", {"co2": "8.0 %", "co": "320 ppm"}, {"co": "321 ppm"}, "not-met"),
        ("ratio-safe", {"co2": "8.0 %", "co": "640 ppm"}, {"co": "641 ppm"}, "dangerous"),
    ],
)
def test_limits_just_kept_and_just_missed(
    code: str, below: dict[str, Any], above: dict[str, Any], failed: str
) -> None:
    assert _verdict(_inputs(below), code) == "met"
    assert _verdict(_inputs({**below, **above}), code) == failed


def test_nothing_passes_cleanly_with_an_unproved_flue() -> None:
    """No verdict on carbon monoxide is met without proof of the flue."""
    good = {"co2": "9 %", "co": "30 ppm", "maker_co_most": "200 ppm", "maker_ratio_most": 0.003}
    bad_air = {"o2": "20 %"}
    for inputs in (
        _inputs(good, flue="concentric"),
        _inputs(good, flue="concentric", air_inlet=bad_air),
        _inputs({"co2": "9 %", "co": "30 ppm"}, flue="concentric"),
        _inputs(good, flue="separate"),
        _inputs(good, flue="open"),
        _inputs(good, flue="open", air_inlet={"o2": "20.9 %"}),
        _inputs(good, flue="open", spillage="spills"),
        _inputs(good, flue="open", spillage="none", air_inlet=bad_air),
    ):
        body = _body(inputs)
        judged = {
            code: item["verdict"]
            for code, item in body["findings"].items()
            if code.startswith(("ratio", "carbon-monoxide")) and code != "carbon-monoxide-read"
        }
        assert judged
        assert set(judged.values()) == {"advisory"}
        wanted = {"concentric": {"not-met", "dangerous"}}
        assert body["verdict"] in wanted.get(inputs["flue"], {"advisory", "dangerous"})


WINDOW = {"maker_co2_least": "8.5 %", "maker_co2_most": "9.5 %"}


def test_an_open_flue_free_of_spillage() -> None:
    """The maker's limits hold for it; those of condensing boilers are advisory at best."""
    good = {"co2": "9 %", "co": "30 ppm", "maker_co_most": "200 ppm", **WINDOW}
    found = _body(_inputs(good, flue="open", spillage="none"))["findings"]
    assert found["carbon-monoxide-of-maker"]["verdict"] == "met"
    assert found["ratio-safe"]["verdict"] == "met"
    assert found["ratio-general"]["verdict"] == "advisory"
    assert found["carbon-monoxide-beside-maker"]["verdict"] == "advisory"
    assert found["spillage"]["verdict"] == "met"


def test_met_only_with_the_makers_window() -> None:
    good = {"co2": "9 %", "co": "30 ppm", "flue_temperature": "45 degC", **WINDOW}
    assert _body(_inputs(good))["verdict"] == "met"
    for left_out in WINDOW:
        body = _body(_inputs({key: value for key, value in good.items() if key != left_out}))
        assert body["verdict"] == "advisory"
        assert body["findings"]["window-given"]["verdict"] == "advisory"


@FAST
@given(st.floats(9, 11.7), st.booleans())
def test_excess_air_within_the_error(co2: float, by_oxygen: bool) -> None:
    """7 % of a carbon dioxide reading, or 0.4 % of oxygen, must not use up all excess air."""
    most = 11.7006
    o2 = 20.95 * (1 - co2 / most)
    given_ = (
        {"o2": {"value": o2, "unit": "%"}} if by_oxygen else {"co2": {"value": co2, "unit": "%"}}
    )
    certain = o2 > 0.4 if by_oxygen else co2 * 1.07 < most
    if abs(o2 - 0.4) < 0.001 or abs(co2 * 1.07 - most) < 0.001:
        return
    wanted = "met" if certain else "not-met"
    assert _verdict(_inputs(given_), "excess-air-certain") == wanted


@pytest.mark.parametrize("windows", [False, True])
@pytest.mark.parametrize(
    ("low", "verdicts"), [(9.2, ("advisory", "met")), (9.21, ("not-met", "advisory"))]
)
def test_both_rates_are_judged_together(
    low: float, verdicts: tuple[str, str], windows: bool
) -> None:
    inputs = copy.deepcopy(EXAMPLE)
    reading = inputs["readings"][1]
    reading["co2"] = {"value": low, "unit": "%"}
    if not windows:
        del reading["maker_co2_most"]
    found = _body(inputs)["findings"]
    code = "minimum-richer-by-maker" if windows else "minimum-not-richer"
    assert found[code]["verdict"] == verdicts[windows]


def test_the_worst_rate_decides() -> None:
    inputs = copy.deepcopy(EXAMPLE)
    inputs["readings"][1]["co"] = {"value": 800, "unit": "ppm"}
    body = _body(inputs)
    assert body["verdict"] == "dangerous"
    items = {item["item"]: item["verdict"] for item in body["findings"]["ratio-safe"]["items"]}
    assert items == {"maximum rate": "met", "minimum rate": "dangerous"}


def test_dangerous_words_say_what_to_do() -> None:
    body = _body(_inputs({"co2": "9 %", "co": "900 ppm"}))
    (item,) = body["findings"]["ratio-safe"]["items"]
    for word in ("Turn the appliance off", "unsafe situations", "emergency number"):
        assert word in item["words"]


def test_curves_pass_through_the_reading() -> None:
    """The curve against the return holds the reading's own efficiency at its own return."""
    body = _body(EXAMPLE)["outputs"]
    curve, first = body["return_curve"], body["readings"][0]
    xs, ys = curve["return_temperature"]["values"], curve["efficiency_gross"]["values"]
    assert xs == sorted(xs)
    assert ys == sorted(ys, reverse=True)
    k = next(k for k, x in enumerate(xs) if x > 50)
    assert ys[k] <= first["efficiency_gross"]["value"] <= ys[k - 1]
    assert "return_curve" not in _body(_inputs({"co2": "9 %"}))["outputs"] or (
        _body(_inputs({"co2": "9 %"}))["outputs"]["return_curve"] is None
    )


@pytest.mark.parametrize(
    ("reading", "more", "code"),
    [
        ({"co2": "11.7007 %"}, {}, "at-stoichiometric"),
        ({"co2": "9 %", "o2": "6.4 %"}, {}, "readings-contradict"),
        ({"co2": "9 %", "co": "1801 ppm"}, {}, "ratio-not-believable"),
        ({"co2": "9 %", "flue_temperature": "14.9 degC"}, {}, "flue-colder-than-air"),
        ({"co2": "9 %", "heat_input": "20 kW"}, {}, "basis-missing"),
        ({"co2": "9 %", "maker_co2_most": "11.7007 %"}, {}, "window-without-air"),
        ({"co2": "9 %"}, {"spillage": "spills"}, "spillage-contradicts"),
        ({"co2": "9 %"}, {"gas": "town-gas"}, "table-key-unknown"),
    ],
)
def test_refused(reading: dict[str, Any], more: dict[str, Any], code: str) -> None:
    assert _refused(_inputs(reading, **more)) == code


def test_refusals_read_well() -> None:
    """Numbers in a sentence carry a few figures, not those of a double."""
    request = {"inputs": _inputs({"co2": "9 %", "co": "1801 ppm"}), "region": "GB", "date": DATE}
    _, body = answer("combustion", request)
    assert "is 0.0200111, beyond belief" in body["title"]
    assert "Turn the appliance off" in body["remedy"]


def test_just_answered() -> None:
    """The other side of each refusal."""
    assert _reading(_inputs({"co2": "11.7 %"}))["excess_air"]["value"] > 0
    assert _reading(_inputs({"co2": "9 %", "o2": "6.3 %"}))["o2"]["value"] < 5
    assert _verdict(_inputs({"co2": "9 %", "co": "1799 ppm"}), "ratio-safe") == "dangerous"
    _body(_inputs({"co2": "9 %", "flue_temperature": "15 degC"}))
    _body(_inputs({"co2": "9 %", "maker_co2_most": "11.7 %"}))


def test_shortcut_is_not_what_we_do() -> None:
    """20.95/(20.95 - O2) takes dry flue gas for air: 2.3 % high at 4.5 %."""
    ratio = _reading(_inputs({"o2": "4.5 %"}))["air_ratio"]
    assert math.isclose(20.95 / 16.45 / ratio, 1.023, abs_tol=0.001)
