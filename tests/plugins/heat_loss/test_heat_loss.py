"""U-values and design loads against independent sums, and their shape."""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.answering import answer


def _u(inputs: dict[str, Any]) -> dict[str, Any]:
    status, body = answer(
        "u-value", {"inputs": inputs, "region": "GB", "date": "2026-11-01"}, parts=()
    )
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


def _layer(name: str, thickness: float, *materials: tuple[float, float]) -> dict[str, Any]:
    """A layer of one material or several: (share, conductivity)."""
    if len(materials) == 1:
        return {
            "name": name,
            "thickness": {"value": thickness, "unit": "mm"},
            "conductivity": {"value": materials[0][1], "unit": "W/(m.K)"},
        }
    return {
        "name": name,
        "thickness": {"value": thickness, "unit": "mm"},
        "parts": [
            {
                "name": f"part {k}",
                "fraction": share,
                "conductivity": {"value": conductivity, "unit": "W/(m.K)"},
            }
            for k, (share, conductivity) in enumerate(materials)
        ],
    }


@settings(deadline=None, max_examples=60)
@given(
    st.floats(0.02, 0.98),
    st.floats(0.03, 0.2),
    st.floats(0.03, 0.2),
    st.floats(20, 200),
    st.floats(0.1, 0.9),
)
def test_combined_method_against_a_sum_of_its_own(
    share: float, a: float, b: float, thickness: float, other: float
) -> None:
    layers = [
        [thickness, (share, a), (1 - share, b)],
        [30.0, (other, 0.1), (1 - other, 0.15)],
    ]
    got = _u({"layers": [_layer(f"layer {k}", *items) for k, items in enumerate(layers)]})
    upper = lower = 0.0
    for path in itertools.product(*(items[1:] for items in layers)):
        R = sum(items[0] / 1e3 / lam for items, (_, lam) in zip(layers, path, strict=True))
        upper += math.prod(f for f, _ in path) / (0.13 + R + 0.04)
    lower = 0.13 + 0.04
    for items in layers:
        lower += 1 / sum(f / (items[0] / 1e3 / lam) for f, lam in items[1:])
    assert got["upper_limit"]["value"] == pytest.approx(1 / upper, rel=1e-10)
    assert got["lower_limit"]["value"] == pytest.approx(lower, rel=1e-10)
    assert got["upper_limit"]["value"] >= got["lower_limit"]["value"] * (1 - 1e-12)


def test_wall_in_two_dimensions() -> None:
    """A stud wall solved by finite volumes lies between the method's own limits."""
    import numpy as np
    from scipy.sparse import lil_matrix
    from scipy.sparse.linalg import spsolve

    # Half a module of 400 mm: stud 30 mm, insulation 170 mm; board 12.5 mm inside, 10 mm outside.
    step = 2.5e-3
    nx, widths = 80, (12.5e-3, 140e-3, 10e-3)
    columns = [round(width / step) for width in widths]
    ny = sum(columns)
    lam = np.empty((ny, nx))
    lam[: columns[0]] = 0.25
    lam[columns[0] : columns[0] + columns[1]] = 0.038
    lam[columns[0] : columns[0] + columns[1], :12] = 0.13
    lam[columns[0] + columns[1] :] = 0.13
    matrix, right = lil_matrix((nx * ny, nx * ny)), np.zeros(nx * ny)

    def couple(p: int, q: int, G: float) -> None:
        matrix[p, p] += G
        matrix[q, q] += G
        matrix[p, q] -= G
        matrix[q, p] -= G

    for j in range(ny):
        for k in range(nx):
            p = j * nx + k
            if k + 1 < nx:
                couple(p, p + 1, 2 / (1 / lam[j, k] + 1 / lam[j, k + 1]))
            if j + 1 < ny:
                couple(p, p + nx, 2 / (1 / lam[j, k] + 1 / lam[j + 1, k]))
    for k in range(nx):
        inner = step / (0.13 + step / 2 / lam[0, k])
        matrix[k, k] += inner
        right[k] += inner
        outer = step / (0.04 + step / 2 / lam[-1, k])
        matrix[(ny - 1) * nx + k, (ny - 1) * nx + k] += outer
    T = spsolve(matrix.tocsr(), right)
    flow = sum((1 - T[k]) * step / (0.13 + step / 2 / lam[0, k]) for k in range(nx))
    solved = flow / (nx * step)
    got = _u(
        {
            "layers": [
                _layer("board", 12.5, (1, 0.25)),
                _layer("studs", 140, (0.85, 0.038), (0.15, 0.13)),
                _layer("sheathing", 10, (1, 0.13)),
            ]
        }
    )
    assert 1 / got["upper_limit"]["value"] < solved < 1 / got["lower_limit"]["value"]
    assert got["u_value"]["value"] == pytest.approx(solved, rel=got["largest_error"])


@settings(deadline=None, max_examples=40)
@given(st.floats(20, 400), st.floats(1.1, 3), st.floats(0, 6))
def test_slab_branches_meet(area: float, stretch: float, resistance: float) -> None:
    """Either branch of the slab formula, evaluated by hand."""
    perimeter = 4 * math.sqrt(area) * stretch
    got = _u(
        {
            "slab": {
                "area": {"value": area, "unit": "m2"},
                "perimeter": {"value": perimeter, "unit": "m"},
                "floor_resistance": {"value": resistance, "unit": "m2.K/W"},
            }
        }
    )
    B, d = area / (0.5 * perimeter), 0.3 + 1.5 * (0.17 + resistance + 0.04)
    expected = (
        2 * 1.5 / (math.pi * B + d) * math.log(math.pi * B / d + 1)
        if d < B
        else 1.5 / (0.457 * B + d)
    )
    assert got["u_value"]["value"] == pytest.approx(expected, rel=1e-12)


@settings(deadline=None, max_examples=40)
@given(
    st.floats(0.1, 12),
    st.sampled_from([("wall", 0.13), ("roof", 0.10), ("floor", 0.17)]),
    st.sampled_from(["", "improved-"]),
)
def test_what_it_is_decides_its_surfaces(R: float, kind: tuple[str, float], what: str) -> None:
    """Surface resistances of the standard by hand; a direction that contradicts is refused."""
    part, R_si = kind
    inputs = {
        "layers": [{"name": "one", "resistance": {"value": R, "unit": "m2.K/W"}}],
        "part": what + part,
    }
    assert _u(inputs)["resistance"]["value"] == pytest.approx(R + R_si + 0.04, rel=1e-12)
    codes = []
    for direction in ("horizontal", "up", "down"):
        status, body = answer(
            "u-value",
            {"inputs": {**inputs, "heat_flow": direction}, "region": "GB", "date": "2026-11-01"},
            parts=(),
        )
        codes.append(body["code"] if status != 200 else "")
    assert sorted(codes) == ["", "part-contradicts", "part-contradicts"]


def _house(rooms: list[dict[str, Any]], **changes: Any) -> dict[str, Any]:
    inputs = {
        "outside_temperature": "-3 degC",
        "bridge_allowance": "0 W/(m2.K)",
        "rooms": rooms,
        **changes,
    }
    status, body = answer(
        "heat-loss", {"inputs": inputs, "region": "GB", "date": "2026-11-01"}, parts=()
    )
    assert status == 200, body
    outputs: dict[str, Any] = body["outputs"]
    return outputs


def _wall(area: float, U: float = 1.0, **more: Any) -> dict[str, Any]:
    return {
        "name": "outer wall",
        "kind": "wall",
        "area": {"value": area, "unit": "m2"},
        "u_value": {"value": U, "unit": "W/(m2.K)"},
        **more,
    }


def _room(name: str, temperature: float, area: float, *elements: dict[str, Any]) -> dict[str, Any]:
    return {
        "name": name,
        "temperature": {"value": temperature, "unit": "degC"},
        "floor_area": {"value": area, "unit": "m2"},
        "height": "2.4 m",
        "air_changes": "0.7 1/h",
        "elements": list(elements),
    }


@settings(deadline=None, max_examples=40)
@given(st.floats(15, 24), st.floats(15, 24), st.floats(1, 40), st.floats(0.1, 3))
def test_what_rooms_exchange_stays_in_the_house(a: float, b: float, area: float, U: float) -> None:
    def partition(other: str) -> dict[str, Any]:
        return {
            "name": "partition",
            "kind": "partition",
            "beyond": "room",
            "room": other,
            "area": {"value": area, "unit": "m2"},
            "u_value": {"value": U, "unit": "W/(m2.K)"},
        }

    rooms = [
        _room("one", a, 10, partition("two"), _wall(100)),
        _room("two", b, 15, partition("one"), _wall(100)),
    ]
    got = _house(rooms, count_gains=True)
    outward = 100 * (a + 3) + 100 * (b + 3)
    assert got["transmission"]["value"] * 1e3 == pytest.approx(outward, rel=1e-9)
    assert got["sum_of_rooms"]["value"] == pytest.approx(got["design_heat_loss"]["value"], rel=1e-9)
    without = _house(rooms)
    assert without["sum_of_rooms"]["value"] >= got["sum_of_rooms"]["value"] - 1e-12


@pytest.mark.parametrize("altitude", [0, 300, 1200])
def test_air_against_another_library(altitude: float) -> None:
    import psychrolib
    from CoolProp.CoolProp import PropsSI

    psychrolib.SetUnitSystem(psychrolib.SI)
    p = psychrolib.GetStandardAtmPressure(altitude)
    got = _house([_room("one", 21, 10, _wall(10))], altitude={"value": altitude, "unit": "m"})
    capacity = PropsSI("D", "T", 294.15, "P", p, "Air") * PropsSI("C", "T", 294.15, "P", p, "Air")
    outside = -3 - 0.006 * altitude
    expected = 0.7 * 24 / 3600 * capacity * (21 - outside)
    assert got["rooms"][0]["air"]["value"] == pytest.approx(expected, rel=0.003)
    assert got["air_pressure"]["value"] * 1e3 == pytest.approx(p, abs=2)


def test_breakdown_adds_up_to_the_house() -> None:
    wall = {
        "name": "wall",
        "kind": "wall",
        "area": "12 m2",
        "u_value": "1.7 W/(m2.K)",
        "openings": [{"name": "window", "area": "2 m2", "u_value": "2.8 W/(m2.K)"}],
    }
    got = _house([_room("one", 21, 10, wall)], bridge_allowance="0.1 W/(m2.K)")
    total = sum(item["loss"]["value"] for item in got["breakdown"])
    assert total == pytest.approx(got["design_heat_loss"]["value"] * 1e3, rel=1e-12)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.tuples(st.floats(12, 26), st.floats(1, 40), st.floats(0.1, 3)), min_size=1),
    st.floats(1, 500),
    st.floats(-20, 5),
)
def test_an_unheated_space_keeps_its_balance(
    sides: list[tuple[float, float, float]], to_outside: float, outside: float
) -> None:
    """What all rooms give the space is what it gives outside; no room gains heat from nothing."""
    rooms = [
        _room(
            f"room {k}",
            temperature,
            12,
            {
                "name": "wall",
                "kind": "wall",
                "beyond": "unheated",
                "space": "garage",
                "area": {"value": area, "unit": "m2"},
                "u_value": {"value": U, "unit": "W/(m2.K)"},
            },
            _wall(150, 2.0),
        )
        for k, (temperature, area, U) in enumerate(sides)
    ]
    got = _house(
        rooms,
        count_gains=True,
        outside_temperature={"value": outside, "unit": "degC"},
        spaces=[
            {"name": "garage", "loss_to_outside": {"value": to_outside, "unit": "W/K"}},
        ],
    )
    theta = got["spaces"][0]["temperature"]["value"]
    given_by_rooms = sum(room["unheated"]["value"] for room in got["rooms"])
    assert given_by_rooms == pytest.approx(to_outside * (theta - outside), rel=1e-7, abs=1e-6)
    assert outside < theta < max(temperature for temperature, _, _ in sides)


def test_loss_a_kelvin_is_the_slope_of_the_load() -> None:
    """The published coefficient's meaning: one kelvin colder outside costs that many watts."""
    wall = {"name": "wall", "kind": "wall", "area": "12 m2", "u_value": "1.7 W/(m2.K)"}
    rooms = [_room("one", 21, 10, wall), _room("two", 18, 8, wall)]
    cold, colder = (
        _house(rooms, outside_temperature=t, air_heat_capacity="0.34 Wh/(m3.K)")
        for t in ("-3 degC", "-4 degC")
    )
    slope = (colder["design_heat_loss"]["value"] - cold["design_heat_loss"]["value"]) * 1e3
    assert cold["loss_coefficient"]["value"] == pytest.approx(slope, rel=1e-9)


@settings(deadline=None, max_examples=40)
@given(st.floats(20, 300), st.floats(0, 5), st.floats(0, 1), st.floats(0, 10))
def test_suspended_floor_by_hand(area: float, R_f: float, height: float, wind: float) -> None:
    perimeter = 4 * math.sqrt(area)
    got = _u(
        {
            "suspended": {
                "area": {"value": area, "unit": "m2"},
                "perimeter": {"value": perimeter, "unit": "m"},
                "floor_resistance": {"value": R_f, "unit": "m2.K/W"},
                "height": {"value": height, "unit": "m"},
                "wall_u_value": "1.7 W/(m2.K)",
                "opening": "1.5 mm",
                "wind": {"value": wind, "unit": "m/s"},
                "wind_shielding": 0.05,
            }
        }
    )
    B, d = area / (perimeter / 2), 0.3 + 1.5 * 0.21
    to_ground = (
        3 / (math.pi * B + d) * math.log(math.pi * B / d + 1) if d < B else 1.5 / (0.457 * B + d)
    )
    void = (2 * height * 1.7 + 1450 * 0.0015 * wind * 0.05) / B
    expected = 1 / (R_f + 0.34 + 1 / (to_ground + void))
    assert got["u_value"]["value"] == pytest.approx(expected, rel=1e-10)


def _refused(inputs: dict[str, Any]) -> tuple[str, str]:
    status, body = answer(
        "heat-loss", {"inputs": inputs, "region": "GB", "date": "2026-11-01"}, parts=()
    )
    return ("", "") if status == 200 else (body["code"], body["pointer"])


@settings(deadline=None, max_examples=60)
@given(st.floats(-40, 15), st.none() | st.floats(-400, 3000), st.none() | st.floats(-400, 3000))
def test_no_altitude_warms_the_design_day_in_silence(
    outside: float, altitude: float | None, station: float | None
) -> None:
    """Only both altitudes carry a temperature to another; never beyond what is calculated."""
    inputs: dict[str, Any] = {
        "rooms": [_room("one", 21, 10, _wall(10))],
        "outside_temperature": {"value": outside, "unit": "degC"},
    }
    if altitude is not None:
        inputs["altitude"] = {"value": altitude, "unit": "m"}
    if station is not None:
        inputs["station_altitude"] = {"value": station, "unit": "m"}
    refused = _refused(inputs)
    if station is not None and altitude is None:
        assert refused == ("altitude-missing", "/inputs/altitude")
        return
    expected = outside - 0.006 * ((altitude or 0.0) - (station or 0.0))
    if -40 <= expected <= 15:
        got = _house(inputs.pop("rooms"), **inputs)
        assert got["design_outside_temperature"]["value"] == pytest.approx(expected, abs=1e-9)
    elif not (-40 - 1e-6 <= expected <= 15 + 1e-6):
        assert refused == ("outside-out-of-range", "/inputs/altitude")


@settings(deadline=None, max_examples=60)
@given(st.floats(-40, 35), st.floats(0.1, 200), st.floats(-0.5, 2), st.floats(0.1, 400))
def test_an_answer_has_a_load_in_every_room(
    beyond: float, area: float, psi: float, length: float
) -> None:
    """Whatever lies beside it and whatever its bridges: a room that is answered needs heat."""
    room = _room(
        "one",
        20,
        10,
        _wall(12),
        _wall(
            area,
            name="party wall",
            beyond="neighbour",
            temperature={"value": beyond, "unit": "degC"},
        ),
    )
    room["bridges"] = [
        {
            "name": "corner",
            "length": {"value": length, "unit": "m"},
            "transmittance": {"value": psi, "unit": "W/(m.K)"},
        }
    ]
    inputs = {
        "rooms": [room],
        "outside_temperature": "-3 degC",
        "air_heat_capacity": "0.34 Wh/(m3.K)",
        "count_gains": True,
    }
    code, pointer = _refused(inputs)
    to_outside = 23 * (12 + psi * length)
    load = to_outside + area * (20 - beyond) + 0.7 * 24 * 0.34 * 23
    if beyond < -3:
        assert (code, pointer) == (
            "beyond-colder-than-outside",
            "/inputs/rooms/0/elements/1/temperature",
        )
    elif to_outside < -1e-6:
        assert (code, pointer) == ("bridges-beyond-transmission", "/inputs/rooms/0/bridges")
    elif load < -1e-6:
        assert (code, pointer) == ("no-load-left", "/inputs/rooms/0")
    elif to_outside > 1e-6 and load > 1e-6:
        got = _house([room], count_gains=True, air_heat_capacity="0.34 Wh/(m3.K)")
        assert got["rooms"][0]["load"]["value"] == pytest.approx(load, rel=1e-9)
