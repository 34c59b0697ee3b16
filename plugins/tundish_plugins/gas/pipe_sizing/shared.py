"""Refusals and findings that every calculation of gas pipework declares alike."""

from __future__ import annotations

from typing import Final

from tundish.calculation import Finding, Refused
from tundish.physics.pipes import DARCY_WEISBACH
from tundish_plugins.gas.pipe_sizing.formulas import ENERGY, PLASTIC_PIPE

REFUSALS: Final = (
    Refused("gas-missing", "The gas is not given", "Give gas by name, or its composition."),
    Refused("gas-given-twice", "The gas is given by name and by composition", "Give one of them."),
    Refused(
        "gas-family-missing",
        "It is not said which limit applies to this mixture",
        "Give gas_family: natural or lpg.",
    ),
    Refused(
        "gas-family-contradicts",
        "The gas named is of the family {family}",
        "Leave gas_family out, or correct it.",
    ),
    Refused(
        "gas-outside-family",
        "The mixture is not of the family {family}: Wobbe index {wobbe}, relative density "
        "{relative_density}",
        "Check the shares and the family. Another gas has other limits, and appliances for this "
        "family must not burn it.",
    ),
    Refused(
        "beyond-domestic-scope",
        "The appliances take {flow} together, above the {most} of domestic work",
        "Have an installation of this size designed by a competent person.",
    ),
    Refused(
        "drop-beyond-method",
        "The drop would be {drop}, beyond the {most} for which the method holds",
        "No gas would arrive at this rate. Check heat inputs, tubes and lengths, and enlarge.",
    ),
    Refused(
        "fractions-do-not-sum",
        "The shares of the components sum to {sum}, not to 1",
        "Give shares by volume that sum to 1.",
    ),
    Refused(
        "component-twice",
        "A component is listed twice",
        "Add its shares together.",
    ),
    Refused("gas-does-not-burn", "No component burns", "Give a fuel gas."),
    Refused(
        "network-loop",
        "The sections run in a circle at the point {point}",
        "An installation is a tree from the meter: open the circle.",
    ),
    Refused(
        "point-fed-twice",
        "The point {point} is fed by two sections",
        "An installation is a tree from the meter: let one section lead to each point.",
    ),
    Refused(
        "section-unconnected",
        "Nothing leads to the point {point}",
        "Let the section start from the meter or from the end of another section.",
    ),
    Refused(
        "appliance-unconnected",
        "No section leads to the point {point}",
        "Connect the appliance to the end of a section.",
    ),
    Refused(
        "section-without-load",
        "No appliance is behind the point {point}",
        "Leave the section out, or connect its appliance.",
    ),
    Refused(
        "tube-without-friction",
        "Friction in the tube {tube} cannot be computed: it has capacity tables only",
        "Use the method longest-length in a region that has its table, or the maker's table.",
    ),
)

METER: Final = (
    Finding(
        "meter-large-enough",
        "Flow of all appliances against the meter",
        quantity="/outputs/total_flow",
        sense="at-most",
        limit="/inputs/meter_capacity",
        rests_on=("gas-named", "gas-components", "gas-diversity"),
        words_passed="All appliances together take {value}; the meter passes {limit}.",
        words_failed="All appliances together take {value}; the meter passes only {limit}. Ask "
        "the gas supplier for a larger meter.",
        source=DARCY_WEISBACH,
    ),
    Finding(
        "meter-known",
        "Capacity of the meter",
        quantity="/outputs/meter_judged",
        sense="is",
        limit=True,
        failed="advisory",
        rests_on=(),
        words_passed="The meter's capacity was given, and the flow is held against it.",
        words_failed="The meter's capacity was not given: whether it passes the whole flow is not "
        "judged. Read it on the badge.",
        source=ENERGY,
    ),
)

PLASTIC: Final = Finding(
    "plastic-pipe",
    "Plastic pipe",
    quantity="/outputs/plastic",
    sense="is",
    limit=False,
    failed="advisory",
    rests_on=(),
    words_passed="No section is of polyethylene.",
    words_failed="Polyethylene is for buried pipe outside the building: it melts in a fire and suffers "
    "in daylight. What the local rules allow was not judged.",
    source=PLASTIC_PIPE,
)
