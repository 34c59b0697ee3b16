"""The order of the formulas for a gas pipe that cannot be seen. Floats or arrays."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import (
    all_of,
    any_of,
    drawn,
    larger,
    not_,
    pick,
    refuse,
    require,
    root,
    smaller,
    where,
)
from tundish.physics import pipes
from tundish.working import part, silent
from tundish_plugins.gas.drop_forecast import formulas as f
from tundish_plugins.gas.drop_forecast.bounds import (
    Candidate,
    Flow,
    Fluid,
    Seen,
    Span,
    candidate,
    flow_in,
    lengths,
    span,
)
from tundish_plugins.gas.energy import heat_input
from tundish_plugins.gas.pipe_sizing.formulas import gas_flow
from tundish_plugins.gas.pipework import Tubes

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish.tables import Row
    from tundish_plugins.gas.drop_forecast.contract import DropForecastInputs, Reading

CONFIDENCE = 0.95
_SLACK = 1 + 1e-9
_UNDER = 1 - 1e-6
_TRIED = (1.0, 0.9, 0.8, 0.7, 0.6)
"""Shares of the new rate at which a further reading is tried, from the surest down."""
_WIDEST = (1e-3, 1.0)
"""Bores, in metres, between which the bore of one tube is looked for."""

NOTHING = "Nothing more is needed: the band lies on one side of the limit."
FINER = "Read the same drops again with the finer gauge: if they come out as now, that decides."
TUBE = "Find out which of the possible tubes it is: any of them decides."
HIGHER = (
    "Read the drop once more, at the higher rate given here: in the middle of the band it decides."
)
NONE = (
    "No further reading is sure to decide: the limit lies near the middle of the band. Plan for a "
    "larger pipe or a smaller appliance."
)


def _new_rate(i: DropForecastInputs, gas: Row) -> tuple[float, str]:
    """The rate to forecast, and where it was given."""
    if i.new_rate is None and i.new_heat_input is None:
        refuse("new-rate-missing", "/new_rate")
    if i.new_rate is not None:
        if i.new_heat_input is not None:
            refuse("new-rate-given-twice", "/new_rate")
        return i.new_rate, "/new_rate"
    assert i.new_heat_input is not None
    H = gas["net"] if i.new_heat_input.basis == "net" else gas["gross"]
    return gas_flow(i.new_heat_input.value, H), "/new_heat_input"


def _within_meter(Q: float, most: float, field: str) -> None:
    require(
        Q <= most * _SLACK,
        "rate-beyond-meter",
        field,
        rate=(Q, "gas_flow_15", "m3/h"),
        most=(most, "gas_flow_15", "m3/h"),
    )


@dataclass(frozen=True)
class Run:
    """All that is known of the run."""

    gas: Fluid
    tubes: list[Candidate]
    longest: float
    readings: list[Seen]

    def flows(self, Q: float) -> list[Flow]:
        """Flow in every tube at a rate."""
        found = []
        for tube in self.tubes:
            with part("tube", tube.name):
                found.append(flow_in(tube, Q, self.gas))
        return found

    def spans(self, Q: float) -> list[Span]:
        """What each reading leaves open at a rate."""
        flows = self.flows(Q)
        found = []
        for seen in self.readings:
            with part("reading", seen.name):
                found.append(span(seen, Q, flows, self.tubes, self.longest))
        return found

    def band(self, Q: float) -> tuple[float, float, list[Span]]:
        """What all readings leave open at a rate."""
        spans = self.spans(Q)
        low = reduce(f.higher, [item.low for item in spans])
        high = reduce(f.lower, [item.high for item in spans])
        return low, high, spans

    def with_reading(self, seen: Seen) -> Run:
        """Return the same run with one reading more."""
        return replace(self, readings=[*self.readings, seen])


def _seen(name: str, Q: float, dp: float, r: float, z: float, delta: float, run: Run) -> Seen:
    """A reading with its spread."""
    U = f.half_width(z, r, delta, dp)
    return Seen(name, Q, f.least_read(dp, U), f.greatest_read(dp, U), run.flows(Q))


def _read(reading: Reading, i: DropForecastInputs, run: Run, step: float) -> Seen:
    with part("reading", reading.name):
        z = f.COVERAGE[len(i.readings)]
        r = smaller(reading.resolution, step)
        return _seen(reading.name, reading.rate, reading.drop, r, z, i.rate_uncertainty, run)


def _check_readings(i: DropForecastInputs) -> None:
    """Refuse readings that no pipe can give."""
    for index, reading in enumerate(i.readings):
        require(reading.drop >= 0.0, "drop-negative", f"/readings/{index}/drop")
        require(
            reading.drop * _SLACK >= reading.resolution,
            "drop-below-gauge-step",
            f"/readings/{index}/drop",
            step=(reading.resolution, "pressure_difference", "mbar"),
        )
        _within_meter(reading.rate, i.meter_capacity, f"/readings/{index}/rate")


def _check_together(run: Run) -> None:
    """Refuse readings of which one excludes the other, whatever the tubes."""
    for index, seen in enumerate(run.readings):
        flows = seen.flows
        for other in run.readings[:index]:
            reach = span(other, seen.Q, flows, run.tubes, run.longest)
            require(
                all_of(reach.low <= seen.high * _SLACK, reach.high * _SLACK >= seen.low),
                "readings-contradictory",
                f"/readings/{index}/drop",
                least=(reach.low, "pressure_difference", "mbar"),
                most=(reach.high, "pressure_difference", "mbar"),
            )


def _one_tube(run: Run, at: tuple[float, float], L: float, k: float, what: str) -> float:
    """Bore of one smooth tube of a length that drops as read."""
    Q, dp = at

    def missed(d: float) -> float:
        w = pipes.velocity(Q, d)
        Re = pipes.reynolds_number(w, d, run.gas.rho, run.gas.mu)
        friction = pipes.friction_factor(Re, pipes.relative_roughness(k, d))
        return pipes.friction_drop(friction, L, d, run.gas.rho, w) - dp

    return root(missed, *_WIDEST, what=what)


def _tube(run: Run, index: int, spans: list[Span], i: DropForecastInputs) -> dict[str, Any]:
    """What the readings say of one tube alone."""
    found = [lengths(seen, index) for seen in run.readings]
    least = reduce(larger, [a for a, _ in found])
    greatest = reduce(smaller, [b for _, b in found])
    low = reduce(larger, [item.alone[index][0] for item in spans])
    high = reduce(smaller, [item.alone[index][1] for item in spans])
    return {
        "name": run.tubes[index].name,
        "bore": run.tubes[index].d,
        "possible": all_of(
            least <= greatest * _SLACK,
            least <= i.longest_length * _SLACK,
            greatest * _SLACK >= i.shortest_length,
            low <= high * _SLACK,
        ),
        "least_length": least,
        "greatest_length": greatest,
        "lowest_drop": low,
        "highest_drop": high,
    }


def _tubes(i: DropForecastInputs, c: Context) -> list[tuple[str, float]]:
    """Name and bore of every tube the run may consist of."""
    if i.tubes is None:
        series = c.text("gas-forecast-series").split(", ")
        return [
            (row["tube"], row["bore"])
            for table in (c.table("gas-tubes"), c.table("gas-tubes-further"))
            for row in table.rows()
            if row["series"] in series
        ]
    known = Tubes(c)
    found = []
    for index, name in enumerate(i.tubes):
        tube = known.named(name, f"/tubes/{index}")
        if tube.bore is None:
            refuse("tube-without-bore", f"/tubes/{index}", tube=name)
        assert tube.bore is not None
        found.append((name, tube.bore))
    return found


def _decides(low: float, high: float, limit: float) -> Any:
    """Whether a band lies on one side of the limit."""
    return any_of(high <= limit * _SLACK, low > limit * _SLACK)


def _reach(Q: float, dp: float, limit: float) -> tuple[float, float]:
    """Rates between which a drop reaches the limit: it rises at least in proportion of the rate."""
    by_proportion = Q * limit / dp
    return smaller(Q, by_proportion) * _UNDER, larger(Q, by_proportion) / _UNDER


def _higher_rate(i: DropForecastInputs, run: Run, Q: float, limit: float) -> tuple[float, Any]:
    """The least rate at which a further reading in the middle of the band would decide."""
    r = reduce(smaller, [reading.resolution for reading in i.readings])
    highest = reduce(larger, [reading.rate for reading in i.readings])
    z = f.COVERAGE[3]
    rate, decides = Q, False
    flows = run.flows(Q)
    before_low, before_high, _ = run.band(Q)
    for share in _TRIED:
        low, high, _ = run.band(share * Q)
        dp = f.middle(low, high)
        more = _seen("further", share * Q, dp, r, z, i.rate_uncertainty, run)
        reach = span(more, Q, flows, run.tubes, run.longest)
        settled = all_of(
            share * Q > highest,
            _decides(larger(before_low, reach.low), smaller(before_high, reach.high), limit),
        )
        rate = where(settled, share * Q, rate)
        decides = any_of(decides, settled)
    return rate, decides


def _band(run: Run, Q: float) -> dict[str, list[float]]:
    rates = [Q * (step + 2) / 8 for step in range(9)]
    ends = [run.band(rate) for rate in rates]
    return {"rate": rates, "lowest": [e[0] for e in ends], "highest": [e[1] for e in ends]}


def _advice(decided: Any, finer: Any, tube: Any, higher: Any) -> str:
    last = pick(higher, HIGHER, NONE)
    for settles, words in ((tube, TUBE), (finer, FINER), (decided, NOTHING)):
        last = pick(settles, words, last)
    return last


def kernel(i: DropForecastInputs, c: Context) -> dict[str, Any]:
    """Band of the drop at the new rate, what the run could be, and what would settle it."""
    gas = c.table("gas-named").at("/gas").exact(gas=i.gas)
    _check_readings(i)
    Q, given_at = _new_rate(i, gas)
    _within_meter(Q, i.meter_capacity, given_at)
    require(i.shortest_length <= i.longest_length * _SLACK, "lengths-crossed", "/longest_length")
    limit = c.value(f"gas-drop-limit-{gas['family']}")
    k = c.value("gas-roughness-least"), c.value("gas-roughness-most")
    with silent():
        tubes = [candidate(name, d, *k) for name, d in _tubes(i, c)]
    empty = Run(Fluid(gas["density"], gas["viscosity"]), tubes, i.longest_length, [])
    readings = [_read(reading, i, empty, reading.resolution) for reading in i.readings]
    run = replace(empty, readings=readings)
    with silent():
        _check_together(run)
    low, high, spans = run.band(Q)
    require(
        low <= high * _SLACK,
        "readings-do-not-meet",
        "/readings",
        least=(low, "pressure_difference", "mbar"),
        most=(high, "pressure_difference", "mbar"),
    )
    most = c.value("gas-drop-of-method-most")
    require(
        high <= most * _SLACK,
        "drop-beyond-method",
        given_at,
        drop=(high, "pressure_difference", "mbar"),
        most=(most, "pressure_difference", "mbar"),
    )
    decided = _decides(low, high, limit)

    def over_at_most(rate: float) -> float:
        with silent():
            return run.band(rate)[1] - limit

    def over_at_least(rate: float) -> float:
        with silent():
            return run.band(rate)[0] - limit

    by_limit = root(
        over_at_most, *_reach(Q, high, limit), what="rate at which the band reaches the limit"
    )
    beyond = root(
        over_at_least,
        *_reach(Q, low, limit),
        what="rate at which the whole band is beyond the limit",
    )
    with silent():
        outputs = [_tube(run, n, spans, i) for n in range(len(tubes))]
        finer = replace(
            empty,
            readings=[_read(reading, i, empty, i.finer_step) for reading in i.readings],
        ).band(Q)
        higher_rate, higher_decides = _higher_rate(i, run, Q, limit)
    each = [
        any_of(not_(item["possible"]), _decides(item["lowest_drop"], item["highest_drop"], limit))
        for item in outputs
    ]
    some = reduce(any_of, [item["possible"] for item in outputs])
    # Tubes or lengths that the readings exclude would only narrow the band, and mislead.
    require(some, "no-tube-possible", "/tubes")
    # Of a single tube nothing more is to be found out.
    tube_decides = all_of(some, *each, len(tubes) > 1)  # structure
    finer_decides = _decides(finer[0], finer[1], limit)
    largest = f.rate_by_limit_or_meter(by_limit, i.meter_capacity)
    at = i.readings[0].rate, i.readings[0].drop
    for reading in i.readings[1:]:
        faster = reading.rate > at[0]
        at = where(faster, reading.rate, at[0]), where(faster, reading.drop, at[1])
    return {
        "family": gas["family"],
        "new_rate": Q,
        "drop_limit": limit,
        "lowest_drop": low,
        "middle_drop": f.middle(low, high),
        "highest_drop": high,
        "confidence": CONFIDENCE,
        "decided": decided,
        "largest_rate": largest,
        "limit_rate": beyond,
        "largest_heat_input": heat_input(largest, gas["net"]),
        "bore_if_shortest": _one_tube(
            run, at, i.shortest_length, k[0], "bore, run of least length"
        ),
        "bore_if_longest": _one_tube(
            run, at, i.longest_length, k[0], "bore, run of greatest length"
        ),
        "tubes": outputs,
        "finer_gauge_decides": finer_decides,
        "tube_known_decides": tube_decides,
        "higher_rate": higher_rate,
        "higher_rate_decides": higher_decides,
        "advice": _advice(decided, finer_decides, tube_decides, higher_decides),
        "band": drawn(_band, run, Q),
    }
