"""Properties of the recovery: arrays, units, edges, what is refused."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from tundish import answer
from tundish.host import default_host
from tundish.refusals import Refusal
from tundish.rules import Context
from tundish_plugins.hot_water.recovery import CALCULATION
from tundish_plugins.hot_water.recovery import formulas as f
from tundish_plugins.hot_water.recovery.contract import CoilRating, RecoveryInputs

DATE = dt.date(2026, 11, 1)
K = 273.15


def _answer(inputs: dict[str, Any], **more: Any) -> tuple[int, dict[str, Any]]:
    request = {"inputs": inputs, "region": "GB", "date": DATE.isoformat(), **more}
    return answer("hot-water-recovery", request)


def _context(method: str) -> Context:
    return Context(default_host().book, "GB", DATE, method, CALCULATION.declared_rules)


def _steps(inputs: dict[str, Any], **more: Any) -> int:
    status, body = _answer(inputs, **more)
    assert status == 200, body
    return len(body["working"])


COMMON = {
    "heated_fraction": 1.0,
    "primary_pipe_loss": 0.0,
    "supply_voltage": 230.0,
    "ambient_temperature": 20 + K,
    "cold_temperature": 10 + K,
    "mix_temperature": 40 + K,
}
FIELDS = RecoveryInputs.model_fields


def _inputs(values: dict[str, Any]) -> Any:
    blank = dict.fromkeys(FIELDS)
    return RecoveryInputs.model_construct(**{**blank, **COMMON, **values})


STRUCTURES: dict[str, tuple[str, ...]] = {
    "conductance": ("coil_conductance",),
    "conductance-loss": ("coil_conductance", "standing_loss", "minimum_output"),
    "ua": ("coil_ua", "primary_flow"),
    "rating": ("coil_rating",),
    "rating-flow-immersion": ("coil_rating", "primary_flow", "immersion_power", "standing_loss"),
    "flow-limit": ("coil_conductance", "primary_flow", "primary_temperature_difference"),
}


def _columns(structure: tuple[str, ...], count: int) -> dict[str, Any]:
    numpy = pytest.importorskip("numpy")
    rng = numpy.random.default_rng(7)

    def between(low: float, high: float) -> Any:
        return rng.uniform(low, high, count)

    columns = {
        "store_volume": between(0.05, 0.5),
        "start_temperature": between(5, 30) + K,
        "target_temperature": between(45, 65) + K,
        "boiler_output": between(3e3, 40e3),
        "flow_temperature": between(55, 85) + K,
        "primary_pipe_loss": between(0, 500),
    }
    offered = {
        "coil_conductance": lambda: between(100, 600),
        "coil_ua": lambda: between(100, 2000),
        "primary_flow": lambda: between(10, 40) / 60e3,
        "primary_temperature_difference": lambda: between(5, 30),
        "standing_loss": lambda: between(20, 150),
        "minimum_output": lambda: between(1e3, 3e3),
        "immersion_power": lambda: between(500, 6e3),
    }
    columns |= {name: offered[name]() for name in structure if name in offered}
    if "coil_rating" in structure:
        columns["coil_rating"] = CoilRating.model_construct(
            power=between(5e3, 25e3),
            start_temperature=15 + K,
            end_temperature=60 + K,
            flow_temperature=80 + K,
            primary_flow=between(25, 40) / 60e3,
        )
    return columns


def _row(value: Any, index: int) -> Any:
    if isinstance(value, CoilRating):
        members = {name: _row(getattr(value, name), index) for name in CoilRating.model_fields}
        return CoilRating.model_construct(**members)
    return float(value[index]) if hasattr(value, "dtype") else value


def _flat(outputs: Any) -> list[Any]:
    if isinstance(outputs, dict):
        return [leaf for item in outputs.values() for leaf in _flat(item)]
    if isinstance(outputs, list):
        return [leaf for item in outputs for leaf in _flat(item)]
    return [outputs]


@pytest.mark.parametrize("structure", STRUCTURES.values(), ids=STRUCTURES)
def test_columns_equal_rows(structure: tuple[str, ...]) -> None:
    """A column run gives each row what a single run gives, and refuses the same rows."""
    numpy = pytest.importorskip("numpy")
    from tundish.rows import ROWS, Rows

    count = 200
    columns = _columns(structure, count)
    rows = Rows(count)
    token = ROWS.set(rows)
    try:
        with numpy.errstate(all="ignore"):
            many = _flat(CALCULATION.kernel(_inputs(columns), _context("two-phase")))
    finally:
        ROWS.reset(token)
    answered = 0
    for index in range(count):
        row = {name: _row(column, index) for name, column in columns.items()}
        try:
            one = _flat(CALCULATION.kernel(_inputs(row), _context("two-phase")))
        except Refusal as refusal:
            marked = rows.refused[index]
            assert (marked.code, marked.pointer) == (refusal.code, refusal.pointer)
            continue
        assert index not in rows.refused
        answered += 1
        for a, b in zip(many, one, strict=True):
            if b is None:
                assert a is None
            else:
                value = a[index] if hasattr(a, "dtype") else a
                assert value == pytest.approx(b, rel=1e-11, abs=1e-9)
    assert answered > count // 2


def test_units_do_not_matter() -> None:
    """The same store in other units gives the same answer."""
    metric = dict(CALCULATION.example)
    other = metric | {
        "store_volume": {"value": 0.21, "unit": "m3"},
        "start_temperature": {"value": 59, "unit": "degF"},
        "target_temperature": {"value": 333.15, "unit": "K"},
        "boiler_output": {"value": 18000, "unit": "W"},
        "minimum_output": "4500 W",
        "flow_temperature": {"value": 167, "unit": "degF"},
        "coil_rating": {"power": "20000 W"},
        "target_time": {"value": 3000, "unit": "s"},
    }
    first, second = _answer(metric)[1]["outputs"], _answer(other)[1]["outputs"]
    for name in ("reheat_time", "heat", "loss_energy", "mixed_volume", "needed_power"):
        assert second[name]["value"] == pytest.approx(first[name]["value"], rel=1e-12)


def test_steady_and_tapering_time_meet() -> None:
    """At the edge between series and logarithm both give the same."""
    for change in (0.0029, 0.003, 0.0031):
        low = 1000 * (1 - change) / (1 + change)
        args = (8e5, 290.0, 330.0, 1000.0, low)
        assert f.steady_time(*args) == pytest.approx(f.tapering_time(*args), rel=1e-13)
        mean = f.tapering_mean_temperature(*args, f.tapering_time(*args))
        assert f.steady_mean_temperature(*args[1:]) == pytest.approx(mean, abs=1e-8)


def test_steady_time_of_a_constant_power_is_heat_over_power() -> None:
    assert f.steady_time(8e5, 290.0, 330.0, 5e3, 5e3) == 8e5 * 40 / 5e3


def test_the_working_stays_short() -> None:
    """The benchmark case keeps its working within a page."""
    assert _steps(dict(CALCULATION.example)) <= 36


@pytest.mark.parametrize("short_of", [1.0, 1e-3, 1e-6])
def test_time_grows_without_bound_towards_the_flow_temperature(short_of: float) -> None:
    inputs = {
        "store_volume": "200 l",
        "start_temperature": "15 degC",
        "target_temperature": {"value": 70 - short_of, "unit": "degC"},
        "boiler_output": "40 kW",
        "coil_conductance": "500 W/K",
        "flow_temperature": "70 degC",
    }
    status, body = _answer(inputs)
    assert status == 200
    nearer = inputs | {"target_temperature": {"value": 70 - short_of / 10, "unit": "degC"}}
    longer = _answer(nearer)[1]["outputs"]["reheat_time"]["value"]
    assert longer > body["outputs"]["reheat_time"]["value"] + 40  # one more time constant x ln 10
    assert _answer(inputs | {"target_temperature": "70 degC"})[1]["code"] == "target-unreachable"


def test_unreachable_says_what_can_be_reached() -> None:
    inputs = {
        "store_volume": "200 l",
        "start_temperature": "15 degC",
        "target_temperature": "60 degC",
        "boiler_output": "18 kW",
        "coil_conductance": "500 W/K",
        "flow_temperature": "58 degC",
        "standing_loss": "90 W",
    }
    status, body = _answer(inputs)
    assert status == 422
    assert body["code"] == "target-unreachable"
    # 500 (58 - T) = 2 (T - 20)
    assert body["facts"]["reachable"]["value"] == pytest.approx((500 * 58 + 2 * 20) / 502)
    within = inputs | {"target_temperature": "57.8 degC"}
    assert _answer(within)[0] == 200


def test_constant_power_is_never_slower_than_the_coil_allows() -> None:
    inputs = dict(CALCULATION.example)
    slow = _answer(inputs)[1]["outputs"]["reheat_time"]["value"]
    fast = _answer(inputs, method="constant-power")[1]["outputs"]["reheat_time"]["value"]
    assert fast < slow
    plain = _answer(inputs)[1]["outputs"]["least_time"]["value"]
    assert plain == pytest.approx(fast, rel=0.01)


def test_every_finding_and_caution_is_there() -> None:
    status, body = _answer(dict(CALCULATION.example))
    assert status == 200
    assert set(body["findings"]) == {finding.code for finding in CALCULATION.findings}
    assert [c["caution"] for c in body["cautions"]] == list(CALCULATION.cautions)


def test_charts_hold_both_limits_and_the_changeover() -> None:
    status, body = answer(
        "hot-water-recovery",
        {"inputs": dict(CALCULATION.example), "region": "GB", "date": DATE.isoformat()},
        parts=("charts",),
    )
    assert status == 200
    curves = {row["curve"] for row in body["charts"]["limits"]["data"]["values"]}
    assert {"coil limit", "source limit", "heat into the water"} <= curves
    levels = {row["curve"] for row in body["charts"]["reheat"]["data"]["values"]}
    assert {"store", "target", "coil takes over", "flow"} <= levels
