"""Forecast of a buried gas pipe: bounds against friction of a library, limits, several readings."""

from __future__ import annotations

import copy
import math
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish import answer
from tundish.batch import run_columns
from tundish.host import default_host, today
from tundish_plugins.gas.drop_forecast import CALCULATION
from tundish_plugins.gas.drop_forecast.kernel import FINER, HIGHER, NONE, NOTHING, TUBE

friction = pytest.importorskip("fluids.friction")

RHO, MU = 0.7353, 1.1e-5
BORES = {"copper-15x0.7": 13.6e-3, "copper-22x0.9": 20.2e-3, "copper-28x0.9": 26.2e-3}


def _answer(*readings: tuple[float, float, float], **more: Any) -> tuple[int, dict[str, Any]]:
    inputs = {
        "gas": "natural-gas",
        "readings": [
            {
                "name": f"reading {n}",
                "rate": {"value": rate, "unit": "m3/h"},
                "drop": {"value": drop, "unit": "mbar"},
                "resolution": {"value": step, "unit": "mbar"},
            }
            for n, (rate, drop, step) in enumerate(readings)
        ],
        "meter_capacity": {"value": 6, "unit": "m3/h"},
        "shared_run": False,
        **more,
    }
    return answer("gas-drop-forecast", {"inputs": inputs, "region": "GB", "date": "2026-11-01"})


def _outputs(*readings: tuple[float, float, float], rate: float = 3.0, **more: Any) -> Any:
    status, body = _answer(*readings, new_rate={"value": rate, "unit": "m3/h"}, **more)
    assert status == 200, body
    return body["outputs"]


def _ends(outputs: Any) -> tuple[float, float]:
    return outputs["lowest_drop"]["value"], outputs["highest_drop"]["value"]


def _drop(Q: float, d: float, L: float) -> float:
    """Drop in mbar by the library, the turbulent law from Re 2000 on."""
    w = Q / 3600 / (math.pi * d * d / 4)
    Re = w * d * RHO / MU
    f = 64 / Re if Re < 2000 else float(friction.Colebrook(Re, 1.5e-6 / d))
    return f * L / d * RHO * w * w / 200


@settings(max_examples=60, deadline=None)
@given(
    tube=st.sampled_from(sorted(BORES)),
    drop=st.floats(0.1, 1.5),
    old=st.floats(0.9, 3.0),
    more=st.floats(0.4, 2.2),
)
def test_a_clean_tube_lies_in_its_band(tube: str, drop: float, old: float, more: float) -> None:
    """A smooth tube read exactly, at any rate above or below: the truth is in the band."""
    new = min(old * more, 5.9)
    length = drop / _drop(old, BORES[tube], 1.0)
    if length > 60:
        return
    status, body = _answer(
        (old, drop, 0.01), new_rate={"value": new, "unit": "m3/h"}, rate_uncertainty=0
    )
    if status != 200:
        assert body["code"] == "drop-beyond-method"
        return
    low, high = _ends(body["outputs"])
    assert low <= _drop(new, BORES[tube], length) <= high
    found = {item["name"]: item for item in body["outputs"]["tubes"]}[tube]
    assert found["least_length"]["value"] <= length <= found["greatest_length"]["value"]


def test_a_reading_more_never_widens_much() -> None:
    """Two readings leave what both allow; only the widening for two is added."""
    one = _ends(_outputs((1.5, 0.2, 0.01)))
    both = _ends(_outputs((1.5, 0.2, 0.01), (2.6, 0.55, 0.01)))
    assert both[1] < one[1]
    assert both[0] > one[0]


def test_order_of_readings_is_nothing() -> None:
    a = _outputs((1.5, 0.2, 0.01), (2.6, 0.55, 0.01))
    b = _outputs((2.6, 0.55, 0.01), (1.5, 0.2, 0.01))
    for name in ("lowest_drop", "highest_drop", "largest_rate", "bore_if_longest"):
        assert a[name]["value"] == pytest.approx(b[name]["value"], rel=1e-12)


def test_largest_rate_stands_at_the_limit() -> None:
    """At the largest rate the band ends at the limit; just above it is over."""
    found = _outputs((1.9, 0.25, 0.01), tubes=["copper-22x0.9"])
    rate = found["largest_rate"]["value"]
    assert rate < 6
    assert _ends(_outputs((1.9, 0.25, 0.01), tubes=["copper-22x0.9"], rate=rate))[1] <= 1.0 + 1e-6
    over = _ends(_outputs((1.9, 0.25, 0.01), tubes=["copper-22x0.9"], rate=rate * 1.0001))[1]
    assert over > 1.0
    beyond = found["limit_rate"]["value"]
    assert _ends(_outputs((1.9, 0.25, 0.01), tubes=["copper-22x0.9"], rate=beyond))[0] == (
        pytest.approx(1.0, rel=1e-3)
    )


def test_the_meter_bounds_the_largest_rate() -> None:
    assert _outputs((2.0, 0.02, 0.01))["largest_rate"]["value"] == pytest.approx(6.0)


def test_a_longer_run_leaves_more_open() -> None:
    short = _ends(_outputs((1.7, 0.2, 0.01), longest_length={"value": 5, "unit": "m"}))
    long = _ends(_outputs((1.7, 0.2, 0.01), longest_length={"value": 60, "unit": "m"}))
    assert long[0] <= short[0]
    assert long[1] >= short[1]
    assert long != short


@pytest.mark.parametrize(
    ("reading", "rate", "more", "words"),
    [
        ((2.6, 0.4, 0.01), 2.6, {}, NOTHING),
        ((2.6, 0.95, 0.1), 2.6, {"rate_uncertainty": 0}, FINER),
        ((1.9, 0.24, 0.01), 3.0, {"tubes": ["copper-22x0.9"]}, HIGHER),
        ((2.6, 1.0, 0.01), 2.6, {}, NONE),
        ((1.9, 0.35, 0.01), 3.0, {"tubes": ["copper-22x0.9"]}, NONE),
    ],
)
def test_advice(
    reading: tuple[float, float, float], rate: float, more: dict[str, Any], words: str
) -> None:
    assert _outputs(reading, rate=rate, **more)["advice"] == words


def test_a_further_reading_does_settle_it() -> None:
    """The reading advised, in the middle of the band, really decides."""
    reading = (1.9, 0.24, 0.01)
    found = _outputs(reading, tubes=["copper-22x0.9"])
    assert found["advice"] == HIGHER
    rate = found["higher_rate"]["value"]
    low, high = _ends(_outputs(reading, tubes=["copper-22x0.9"], rate=rate))
    more = _outputs(reading, (rate, math.sqrt(low * high), 0.01), tubes=["copper-22x0.9"])
    assert more["decided"]


def test_a_known_tube_is_advised_where_it_settles() -> None:
    found = _outputs((1.5, 0.18, 0.01), rate=2.4, longest_length={"value": 12, "unit": "m"})
    assert not found["decided"] or found["advice"] == NOTHING
    possible = [item for item in found["tubes"] if item["possible"]]
    each = [
        item["highest_drop"]["value"] <= 1.0 or item["lowest_drop"]["value"] > 1.0
        for item in possible
    ]
    assert found["tube_known_decides"] == (bool(possible) and all(each))
    assert found["advice"] in {NOTHING, TUBE} or not found["tube_known_decides"]


@pytest.mark.parametrize(
    ("readings", "code", "pointer"),
    [
        ([(1.9, -0.01, 0.01)], "drop-negative", "/inputs/readings/0/drop"),
        ([(1.9, 0.009, 0.01)], "drop-below-gauge-step", "/inputs/readings/0/drop"),
        ([(6.01, 0.5, 0.01)], "rate-beyond-meter", "/inputs/readings/0/rate"),
        (
            [(1.2, 0.4, 0.01), (2.0, 0.3, 0.01)],
            "readings-contradictory",
            "/inputs/readings/1/drop",
        ),
        (
            [(2.0, 0.4, 0.01), (2.0, 0.6, 0.01)],
            "readings-contradictory",
            "/inputs/readings/1/drop",
        ),
    ],
)
def test_refused(readings: list[tuple[float, float, float]], code: str, pointer: str) -> None:
    status, body = _answer(*readings, new_rate={"value": 3, "unit": "m3/h"})
    assert status == 422
    assert (body["code"], body["pointer"]) == (code, pointer)


def test_a_step_of_the_gauge_is_enough() -> None:
    assert _answer((1.9, 0.01, 0.01), new_rate={"value": 3, "unit": "m3/h"})[0] == 200


def test_an_open_forecast_is_no_promise() -> None:
    """An undecided forecast is never met."""
    status, body = _answer((1.9, 0.35, 0.01), new_rate={"value": 3, "unit": "m3/h"})
    assert status == 200
    assert not body["outputs"]["decided"]
    assert body["verdict"] == "advisory"


def test_the_example_decides() -> None:
    request = {"inputs": copy.deepcopy(dict(CALCULATION.example)), "region": "GB"}
    status, body = answer("gas-drop-forecast", {**request, "date": "2026-11-01"})
    assert status == 200
    assert body["verdict"] == "met"
    assert body["outputs"]["advice"] == NOTHING


def test_whatever_is_read_is_answered_or_refused_with_a_reason() -> None:
    """Random readings of every gas: the searches never fail, and the band stands in order."""
    pytest.importorskip("numpy")
    chance = random.Random(3)
    requests = []
    for _ in range(3000):
        length = {"value": chance.uniform(1, 60), "unit": "m"}
        readings = [
            {
                "name": f"reading {n}",
                "rate": {"value": 10 ** chance.uniform(-1, 1), "unit": "m3/h"},
                "drop": {"value": 10 ** chance.uniform(-2, 1), "unit": "mbar"},
                "resolution": {"value": 0.01, "unit": "mbar"},
            }
            for n in range(chance.choice((1, 1, 2)))
        ]
        inputs = {
            "gas": chance.choice(("natural-gas", "propane", "methane", "butane")),
            "readings": readings,
            "new_rate": {"value": 10 ** chance.uniform(-1, 1.2), "unit": "m3/h"},
            "meter_capacity": {"value": 25, "unit": "m3/h"},
            "shared_run": False,
            "longest_length": length,
        }
        requests.append({"inputs": inputs, "region": "GB", "date": "2026-11-01"})
    host = default_host()
    columns = run_columns(
        host.runner("gas-drop-forecast"), requests, host.book, today=today(), curves=False
    )
    answered = 0
    for code, found in zip(columns.codes(), columns.outputs(), strict=True):
        if code is not None:
            assert code[0] in {
                "readings-contradictory",
                "readings-do-not-meet",
                "drop-beyond-method",
                "no-tube-possible",
            }
            continue
        answered += 1
        assert 0 < found["lowest_drop"] <= found["middle_drop"] <= found["highest_drop"]
        assert found["largest_rate"] <= found["limit_rate"] * (1 + 1e-6)
        limit = found["drop_limit"]
        inside = found["highest_drop"] <= limit
        assert inside == (found["largest_rate"] >= found["new_rate"] * (1 - 1e-6))
    assert answered > 1000


@pytest.mark.parametrize(("drop", "verdict"), [(5, "advisory"), (1.01, "advisory"), (0.99, "met")])
def test_a_drop_already_over_the_limit_is_told(drop: float, verdict: str) -> None:
    """Whatever is asked about the new rate."""
    status, body = _answer((1.9, drop, 0.01), new_rate={"value": 0.1, "unit": "m3/h"})
    assert status == 200, body
    assert body["findings"]["drop-as-read"]["verdict"] == verdict
    assert (body["verdict"] == "met") is (verdict == "met")
