"""Methods and refusals that the calculations of pipework share."""

from __future__ import annotations

from typing import Final

from tundish.calculation import Finding, Method, Need, Refused
from tundish.physics.hydrostatics import HYDROSTATICS
from tundish.sources import Source
from tundish_plugins.tubes import FOR_COLD_ONLY
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

NEEDS: Final = (
    Need("water-tubes", "table", "Tubes for water"),
    Need("cold-tube-temperature-most", "temperature", "Warmest water in tubes for cold water"),
    Need("loading-units-en-806-3", "table", "Loading units, EN 806-3"),
    Need("loading-units-bs-6700", "table", "Loading units, BS 6700", optional=True),
    Need("loading-units-bs-6700-edition", "text", "Edition of those", optional=True),
    Need("design-flows-din-1988-300", "table", "Calculation flows, DIN 1988-300"),
    Need("peak-flow-din-1988-300", "table", "Constants of the peak flow, DIN 1988-300"),
    Need("outlets-a-room-din-1988-300", "number", "Outlets of a room at once, DIN 1988-300"),
)
"""Of tubes and of demand."""


def outlets_stand(known: str, unknown: str) -> tuple[Finding, ...]:
    """Judge what outlets stand at with nothing running; ``known`` points at whether it is known."""
    return (
        Finding(
            "outlet-standing-pressure",
            "Standing pressure at the outlets against their rating",
            quantity="/outputs/outlets/*/standing_pressure",
            sense="at-most",
            limit="/inputs/outlets/*/most_pressure",
            rests_on=("cold-water-temperature",),
            capped_unless=known,
            words_capped=unknown,
            words_passed="{item} stands at {value} with nothing running; it may stand at {limit}.",
            words_failed="{item} stands at {value} with nothing running; it may stand at {limit} "
            "only. Fit a pressure reducing valve, or set it lower.",
            source=HYDROSTATICS,
        ),
        Finding(
            "unrated-outlet-standing-pressure",
            "Standing pressure at outlets whose rating is not given",
            quantity="/outputs/outlets/*/standing_pressure",
            sense="at-most",
            limit="outlet-standing-pressure-most",
            rests_on=("cold-water-temperature",),
            applies_when="not /outputs/outlets/*/rated",
            capped_unless=known,
            words_capped=unknown,
            words_passed="{item} stands at {value} with nothing running; the weakest kinds of "
            "outlet are made for {limit}.",
            words_failed="{item} stands at {value} with nothing running, and the weakest kinds of "
            "outlet are made for {limit} only. Give its rating, or reduce the pressure.",
        ),
    )


REFUSALS: Final = (
    FOR_COLD_ONLY,
    Refused(
        "open-loss-missing",
        "The reducing valve cannot hold {held}: only {pressure} stands before it, so it stands open",
        "Ask the maker what it loses fully open at the flow of its fall-off, and give open_loss.",
    ),
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
