"""Gas pressures: at the meter, at the appliances, and where they are lost."""

from __future__ import annotations

from tundish.calculation import (
    BarChart,
    Calculation,
    Finding,
    Method,
    Monotonic,
    Need,
    Refused,
)
from tundish_plugins.gas.pressures.contract import PressuresInputs, PressuresOutputs
from tundish_plugins.gas.pressures.formulas import LOAD, READINGS
from tundish_plugins.gas.pressures.kernel import kernel

_CONDITION = (
    "the pressure at the meter is asked for with the appliance of the highest rate at full rate and "
    "the others at half or more; they ran otherwise."
)
_READ = (
    "gas-drop-limit-lpg",
    "gas-drop-limit-natural",
    "gas-meter-others-share",
    "gas-meter-pressure-least",
    "gas-meter-pressure-most",
    "gas-named",
)
"""Rules that the other findings rest on: none of them on the limit of lock-up."""
_REPORT = " Report it to the gas supplier or the gas emergency service; leave the regulator's seal."


def _drop(family: str, ending: str, words: str) -> Finding:
    return Finding(
        f"drop-of-pipework{ending}",
        f"Drop from meter to appliance against the limit, {words}",
        quantity="/outputs/appliances/*/drop",
        sense="at-most",
        limit=f"gas-drop-limit-{family}",
        applies_when=f"/outputs/family == {family}",
        capped_unless="/outputs/appliances/*/sure",
        words_capped="not everything ran at full rate, or one step of the gauge more would exceed "
        "the limit.",
        rests_on=_READ,
        words_passed="From the meter to {item} {value} is lost; {limit} is allowed.",
        words_failed="From the meter to {item} {value} is lost; only {limit} is allowed, whatever "
        "pressure the appliance's maker accepts.",
    )


CALCULATION = Calculation(
    id="gas-pressures",
    version="1.0",
    title="Gas pressures at meter and appliances",
    summary="Standing, working and lock-up pressure, the drop to each appliance, the load of the "
    "meter; where the pressure is lost, and what to do next.",
    family="gas",
    questions=(
        "Is the pressure at the meter in order?",
        "Is it the supply, the meter regulator, the pipework or the appliance?",
        "Can the meter carry all appliances?",
    ),
    inputs=PressuresInputs,
    outputs=PressuresOutputs,
    kernel=kernel,
    methods=(
        Method(
            "readings",
            "Pressures read together",
            "Pressures at meter and appliances, read together under a stated load, are held "
            "against the range at the meter, the limit of the pipework and the maker's figure, in "
            "this order from the street.",
            source=READINGS,
        ),
    ),
    needs=(
        Need("gas-named", "table", "Gases by name"),
        Need("gas-drop-limit-natural", "pressure_difference", "Greatest drop, natural gas"),
        Need("gas-drop-limit-lpg", "pressure_difference", "Greatest drop, LPG"),
        Need(
            "gas-meter-pressure-least", "pressure_gauge", "Least pressure at meter", optional=True
        ),
        Need("gas-meter-others-share", "number", "Share of the other appliances", optional=True),
        Need(
            "gas-meter-pressure-most", "pressure_gauge", "Greatest pressure at meter", optional=True
        ),
    ),
    findings=(
        Finding(
            "supply-and-appliance",
            "Pressure of the supply together with an appliance",
            quantity="/outputs/supply_reaches_appliance",
            sense="is",
            limit=False,
            failed="dangerous",
            capped_unless="/outputs/inlets_judged",
            words_capped="whether an appliance suffers is not known: not every inlet was held against "
            "its maker's figure, or the pressure is above the range and no rate was taken.",
            rests_on=_READ,
            words_passed="No appliance was found to suffer from the pressure at the meter.",
            words_failed="The pressure at the meter is out of its range and an appliance does not "
            "get or burn what its maker asks for. Turn that appliance off, make safe, follow the "
            "unsafe situations procedure, and ring the gas emergency number.",
            source=READINGS,
        ),
        Finding(
            "meter-pressure-least",
            "Working pressure at the meter against the lower end of its range",
            quantity="/inputs/meter_pressure",
            sense="at-least",
            limit="gas-meter-pressure-least",
            applies_when="/outputs/range_known",
            capped_unless="/outputs/meter_condition",
            words_capped=_CONDITION,
            rests_on=_READ,
            words_passed="At the meter outlet {value} stand while gas flows; at least {limit} is "
            "asked for.",
            words_failed="At the meter outlet only {value} stand while gas flows; at least {limit} "
            "is asked for, with the others at half." + _REPORT,
        ),
        Finding(
            "meter-pressure-most",
            "Working pressure at the meter against the upper end of its range",
            quantity="/inputs/meter_pressure",
            sense="at-most",
            limit="gas-meter-pressure-most",
            applies_when="/outputs/range_known",
            capped_unless="/outputs/meter_condition",
            words_capped=_CONDITION,
            rests_on=_READ,
            words_passed="At the meter outlet {value} stand while gas flows; at most {limit} is "
            "allowed.",
            words_failed="At the meter outlet {value} stand while gas flows; only {limit} is "
            "allowed." + _REPORT,
        ),
        Finding(
            "meter-range",
            "Range of the working pressure at the meter",
            quantity="/outputs/range_known",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=_READ,
            words_passed="A range of working pressure at the meter is on file for this gas.",
            words_failed="No range of working pressure is on file for this gas: hold the reading "
            "against the gas supplier's and the maker's figures.",
            source=READINGS,
        ),
        _drop("natural", "", "natural gas"),
        _drop("lpg", "-lpg", "liquefied petroleum gas"),
        Finding(
            "inlet-pressure",
            "Inlet pressure against what the maker asks for",
            quantity="/outputs/appliances/*/inlet",
            sense="at-least",
            limit="/inputs/appliances/*/least_inlet",
            rests_on=_READ,
            words_passed="{item} gets {value}; its maker asks for {limit}.",
            words_failed="{item} gets only {value}; its maker asks for {limit}. Find out where it is "
            "lost before the appliance is left in use.",
            source=READINGS,
        ),
        Finding(
            "inlet-within-reach",
            "Pressure at the meter against what the maker of an appliance not read asks for",
            quantity="/outputs/appliances/*/unread_most",
            sense="at-least",
            limit="/inputs/appliances/*/least_inlet",
            passed="advisory",
            rests_on=_READ,
            words_passed="{item} was not read; the meter has {value}, its maker asks for {limit}.",
            words_failed="{item} was not read, and cannot have more than the {value} at the meter; "
            "its maker asks for {limit}.",
            source=READINGS,
        ),
        Finding(
            "pressure-on-appliances",
            "Working pressure above its range against the most that appliances are tested at",
            quantity="/inputs/meter_pressure",
            sense="at-most",
            limit="gas-appliance-pressure-most",
            applies_when="/outputs/meter_high",
            failed="dangerous",
            rests_on=_READ,
            words_passed="{value} are above the range, but not above the {limit} up to which "
            "appliances for natural gas are tested.",
            words_failed="{value} reach the appliances; they are tested up to {limit}. Turn them "
            "off, make safe, follow the unsafe situations procedure, and ring the gas emergency "
            "number.",
        ),
        Finding(
            "appliance-read",
            "Reading at an appliance",
            quantity="/outputs/appliances/*/read",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=_READ,
            words_passed="{item}: the pressure was read at its inlet, too.",
            words_failed="{item}: no pressure was read at its inlet, so its pipework is not judged.",
            source=READINGS,
        ),
        Finding(
            "lock-up-pressure",
            "Lock-up pressure against its limit",
            quantity="/inputs/lock_up_pressure",
            sense="at-most",
            limit="gas-lock-up-most",
            applies_when="/outputs/range_known",
            words_passed="With everything off the pressure stays at {value}; about {limit} is the "
            "most.",
            words_failed="With everything off the pressure goes to {value}; about {limit} is the "
            "most: the regulator may let by." + _REPORT,
        ),
        Finding(
            "standing-pressure",
            "Standing pressure against its limit",
            quantity="/inputs/standing_pressure",
            sense="at-most",
            limit="gas-lock-up-most",
            applies_when="/outputs/range_known",
            words_passed="With nothing burning {value} stand at the meter; about {limit} is the "
            "most.",
            words_failed="With nothing burning {value} stand at the meter; about {limit} is the "
            "most: the regulator does not hold." + _REPORT,
        ),
        Finding(
            "gas-rate",
            "Gas rate against the data plate",
            quantity="/inputs/rate_right",
            sense="is",
            limit=True,
            rests_on=_READ,
            words_passed="The gas rate agrees with the data plate.",
            words_failed="The gas rate does not agree with the data plate.",
            source=READINGS,
        ),
        Finding(
            "meter-load",
            "Flow of all appliances against the meter",
            quantity="/outputs/full_load",
            sense="at-most",
            limit="/inputs/meter_capacity",
            rests_on=_READ,
            words_passed="All appliances together take {value}; the meter passes {limit}.",
            words_failed="All appliances together take {value}; the meter passes only {limit}. Ask "
            "the gas supplier for a larger meter.",
            source=LOAD,
        ),
        Finding(
            "meter-known",
            "Capacity of the meter",
            quantity="/outputs/meter_judged",
            sense="is",
            limit=True,
            failed="advisory",
            rests_on=_READ,
            words_passed="The meter's capacity was given, and the full load is held against it.",
            words_failed="The meter's capacity was not given: whether it passes the full load is "
            "not judged. Read it on the badge.",
            source=LOAD,
        ),
    ),
    cautions=("gas-registered-person", "gas-smell", "gas-pressure-readings"),
    refusals=(
        Refused(
            "drop-negative",
            "The inlet is read above the {meter} at the meter",
            "No flow does that. Zero the gauge, use one gauge for both, and read both together.",
        ),
        Refused(
            "below-working-pressure",
            "This pressure is read below the working pressure of {working} at the meter",
            "Pressure falls as gas flows. Check which reading is which.",
        ),
        Refused(
            "nothing-burns",
            "Nothing burnt during the test",
            "A working pressure is read while gas flows: give the share each appliance ran at.",
        ),
    ),
    monotonic=(
        Monotonic("/meter_pressure", "/highest_drop", "increasing"),
        Monotonic("/appliances/0/inlet_pressure", "/highest_drop", "decreasing"),
        Monotonic("/appliances/0/heat_input", "/full_load", "increasing"),
        Monotonic("/appliances/0/share", "/test_load", "increasing"),
        Monotonic("/lock_up_pressure", "/lock_up_rise", "increasing"),
    ),
    charts=(
        BarChart(
            "pressures",
            "Pressures along the way",
            items="/outputs/points",
            label="name",
            bars=(("pressure", "pressure"),),
        ),
    ),
    example={
        "gas": "natural-gas",
        "standing_pressure": {"value": 22.6, "unit": "mbar"},
        "meter_pressure": {"value": 20.6, "unit": "mbar"},
        "resolution": {"value": 0.1, "unit": "mbar"},
        "meter_capacity": {"value": 6, "unit": "m3/h"},
        "appliances": [
            {
                "name": "boiler",
                "heat_input": {"value": 24.5, "unit": "kW", "basis": "net"},
                "share": 1,
                "inlet_pressure": {"value": 19.8, "unit": "mbar"},
                "least_inlet": {"value": 18, "unit": "mbar"},
            },
            {
                "name": "hob",
                "heat_input": {"value": 7.5, "unit": "kW", "basis": "gross"},
                "share": 1,
                "inlet_pressure": {"value": 20.1, "unit": "mbar"},
            },
        ],
    },
)
