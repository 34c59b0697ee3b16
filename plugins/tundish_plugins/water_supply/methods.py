"""Methods and refusals that the calculations of pipework share."""

from __future__ import annotations

from typing import Final

from tundish.calculation import Finding, Method, Refused
from tundish.sources import Source
from tundish_plugins.water_supply.formulas import VALVE

EN_806_3: Final = Source(
    "en-806-3",
    kind="standard",
    document="EN 806-3, pipe sizing of drinking water installations, simplified method",
    edition="2006",
    locator="Table 2",
    confirmed="seen",
    seen_in="extract of the standard shown online",
)
BS_6700: Final = Source(
    "bs-6700",
    kind="standard",
    document="BS 6700, services supplying water for domestic use",
    edition="1997",
    locator="Annex D, Table D.1",
    confirmed="seen",
    seen_in="textbook chapter on pipe sizing and scanned annex",
)

EN_806_3_UNITS: Final = Method(
    "en-806-3",
    "Loading units of EN 806-3",
    "Adds the loading units of the fittings. The standard's figure from units to flow is not on "
    "file: read the flow from it and give it.",
    source=EN_806_3,
)
BS_6700_UNITS: Final = Method(
    "bs-6700",
    "Loading units of BS 6700, superseded",
    "Adds the loading units of the former British Standard, where a bath counts 10 and not 4: "
    "never mix the two. Read the flow from its figure and give it.",
    source=BS_6700,
)

VALVES_WITHIN_CHART: Final = Finding(
    "valve-within-chart",
    "Flow of the reducing valve against its chart",
    quantity="/outputs/valves_within_chart",
    sense="is",
    limit=True,
    failed="advisory",
    words_passed="No reducing valve passes more than the flow its fall-off is stated for.",
    words_failed="A reducing valve passes more than the flow its fall-off is stated for; the "
    "straight line is carried on. Read the maker's chart at the design flow.",
    source=VALVE,
)

REFUSALS: Final = (
    Refused(
        "fitting-missing",
        "The kind of fitting is not given",
        "Loading units go by the kind of fitting: name it.",
    ),
    Refused(
        "outlet-flow-missing",
        "An outlet has neither a flow nor a kind of fitting",
        "Give one of them.",
    ),
    Refused("tube-missing", "The tube is not given", "Name the tube, or give its bore."),
    Refused(
        "roughness-missing",
        "The roughness of the bore is not given",
        "Give it: 0.0015 mm for drawn copper, up to 0.007 mm for plastics.",
    ),
    Refused(
        "tube-given-twice",
        "The tube is given by name and by bore",
        "Name the tube, or give its bore and roughness.",
    ),
    Refused(
        "fall-off-takes-all",
        "The fall-off of the reducing valve takes all of its setting",
        "Check both on the maker's chart.",
    ),
)
"""Of outlets and of runs of pipe."""
