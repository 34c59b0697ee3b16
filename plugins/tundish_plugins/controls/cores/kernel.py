"""Count the conductors between places, and the cores that are there for them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

from tundish.functions import larger, refuse
from tundish.working import part
from tundish_plugins.controls.cores import formulas as f
from tundish_plugins.controls.cores.routes import (
    Allotted,
    Conductor,
    Crossing,
    Way,
    allotted,
    crossings,
    fits_shared,
    to_mark,
    usable,
    ways_of,
)

if TYPE_CHECKING:
    from tundish.rules import Context
    from tundish_plugins.controls.cores.contract import CoresInputs


@dataclass
class _Scheme:
    name: str
    nets: list[Conductor]
    where: str
    remark: str | None = None


@dataclass
class _Leg:
    way: Way
    crossing: Crossing
    found: Allotted
    numbers: dict[str, float | None]

    @property
    def spares(self) -> list[float]:
        """Cores left over, of each voltage that crosses."""
        left = (self.numbers["mains_spare"], self.numbers["low_spare"])
        return [spare for spare in left if spare is not None]


def _on_file(i: CoresInputs, c: Context) -> list[_Scheme]:
    """The schemes on file, with their conductors put where things stand."""
    if i.standing is None:
        return []
    remarks = {row["scheme"]: row["remark"] for row in c.table("control-schemes").rows()}
    found = {name: _Scheme(name, [], "/standing", remark) for name, remark in remarks.items()}
    for row in c.table("control-scheme-nets").rows():
        if row["only_unvented"] == "yes" and not i.unvented:
            continue
        places = [getattr(i.standing, role) for role in row["reaches"].split()]
        if len(set(places)) > 1:  # structure
            conductor = Conductor(row["net"], row["role"], row["band"], tuple(places))
            found[row["scheme"]].nets.append(conductor)
    return list(found.values())


def _schemes(i: CoresInputs, c: Context, ways: list[Way]) -> list[_Scheme]:
    schemes = _on_file(i, c)
    for index, scheme in enumerate(i.schemes):
        where = f"/schemes/{index}"
        if scheme.name in {other.name for other in schemes}:
            refuse("scheme-twice", f"{where}/name", given=scheme.name)
        nets = [Conductor(n.name, n.role, n.band, tuple(n.places)) for n in scheme.nets]
        schemes.append(_Scheme(scheme.name, nets, where))
    if not schemes:
        refuse("no-scheme", "/schemes")
    _reached(i, schemes, ways)
    return schemes


def _reached(i: CoresInputs, schemes: list[_Scheme], ways: list[Way]) -> None:
    """Refuse a place that no cable leads to, or that is cut off from the rest."""
    joined: set[str] = {ways[0].start}
    for _ in ways:
        for way in ways:
            if way.start in joined or way.end in joined:
                joined |= {way.start, way.end}
    for index, cable in enumerate(i.cables):
        if cable.start not in joined:
            refuse("place-without-cable", f"/cables/{index}/start", place=cable.start)
    for scheme in schemes:
        for index, net in enumerate(scheme.nets):
            for place in net.places:
                if place not in joined:
                    own = f"{scheme.where}/nets/{index}/places"
                    where = "/standing" if scheme.where == "/standing" else own
                    refuse("place-without-cable", where, place=place)


def _leg(way: Way, crossing: Crossing) -> _Leg:
    """Cores of one way."""
    found = allotted(way, crossing)
    live, low = found.there
    numbers: dict[str, float | None] = dict.fromkeys(
        ("mains_needed", "mains_there", "mains_spare", "low_needed", "low_there", "low_spare")
    )
    with part("way", way.name):
        if crossing.mains:
            lines, neutrals = float(len(crossing.lines)), float(len(crossing.neutrals))
            earths = float(bool(found.mains))
            needed = f.mains_cores(lines, neutrals, 1.0)
            there = f.mains_cores(float(live), 0.0, earths)
            numbers["mains_needed"], numbers["mains_there"] = needed, there
            numbers["mains_spare"] = f.cores_left(there, needed)
        if crossing.low:
            needed, there = float(len(crossing.low)), float(low)
            numbers["low_needed"], numbers["low_there"] = needed, there
            numbers["low_spare"] = f.cores_left(there, needed)
    return _Leg(way, crossing, found, numbers)


def _length(way: Way) -> float | None:
    """Length of a way: the longest that is given of its cables."""
    known = [cable.length for cable in way.cables if cable.length is not None]
    return reduce(larger, known) if known else None


def _examined(scheme: _Scheme, ways: list[Way]) -> tuple[list[_Leg], dict[str, Any]]:
    with part("scheme", scheme.name):
        legs = [_leg(w, x) for w, x in zip(ways, crossings(ways, scheme.nets), strict=True)]
        missing = f.cores_missing([spare for leg in legs for spare in leg.spares])
        short = [leg for leg in legs if any(n < 0 for n in leg.spares)]  # structure
        lengths = [length for leg in short if (length := _length(leg.way)) is not None]
        to_lay = f.length_to_lay(lengths) if short and len(lengths) == len(short) else None
    tight = [(spare, k) for k, leg in enumerate(legs) for spare in leg.spares]
    tightest = min(tight, default=None)  # structure
    mains = [leg.numbers["mains_needed"] for leg in legs]
    most = max((n for n in mains if n is not None), default=None)  # structure
    fits = missing == 0
    shared = all(not leg.spares or fits_shared(leg.way, leg.crossing) for leg in legs)
    return legs, {
        "name": scheme.name,
        "fits": fits,
        "missing_cores": missing,
        "tightest_way": None if tightest is None else legs[tightest[1]].way.name,
        "tightest_spare": None if tightest is None else tightest[0],
        "most_mains_cores": most,
        "would_fit_shared": fits or shared,
        "cable_to_lay": to_lay,
        "remark": scheme.remark,
    }


def _words(names: list[str]) -> str | None:
    return ", ".join(names) or None


def _leg_output(leg: _Leg) -> dict[str, Any]:
    crossing, found = leg.crossing, leg.found
    mains = crossing.mains
    marked = to_mark(found, crossing)
    return {
        "name": leg.way.name,
        "mains_nets": _words([*crossing.lines, *crossing.neutrals, *crossing.earths]),
        "mains_cables": _words([c.name for c in found.mains]) if mains else None,
        "mains_in_one_cable": len(found.mains) == 1 if mains and found.mains else None,
        "earthed": (
            all(c.earth_core_used_as == "earth" for c in found.mains)
            if mains and found.mains
            else None
        ),
        "cores_to_mark": marked if mains and found.mains else None,
        "colours_tell": not marked if mains and found.mains else None,
        "low_nets": _words(crossing.low),
        "low_cables": _words([c.name for c in found.low]) if crossing.low else None,
        **leg.numbers,
    }


def _cable_outputs(i: CoresInputs, legs: list[_Leg]) -> list[dict[str, Any]]:
    used: dict[str, str] = {}
    for leg in legs:
        used |= {c.name: "mains" for c in leg.found.mains if leg.crossing.mains}
        used |= {c.name: "extra-low-voltage" for c in leg.found.low if leg.crossing.low}
    return [
        {
            "name": cable.name,
            "way": f"{cable.start} to {cable.end}",
            "usable_cores": usable(cable),
            "used_for": used.get(cable.name, "nothing"),
            "earth_core_safe": (
                cable.earth_core_used_as in {"earth", "unused"} if cable.earth_core else None
            ),
            "voltages_safe": cable.carries != "both" or cable.insulated_for == "mains",
        }
        for cable in i.cables
    ]


def kernel(i: CoresInputs, c: Context) -> dict[str, Any]:
    """Cores between places for each scheme, and which of them the cables there are do for."""
    ways = ways_of(i)
    schemes = _schemes(i, c, ways)
    examined = {scheme.name: _examined(scheme, ways) for scheme in schemes}
    if i.chosen is not None and i.chosen not in examined:
        refuse("scheme-unknown", "/chosen", given=i.chosen, accepted=", ".join(examined))
    results = [result for _, result in examined.values()]
    ranked = [result for result in results if result["fits"]]
    ranked.sort(key=lambda result: -(result["tightest_spare"] or 0.0))
    least = min(results, key=lambda result: result["missing_cores"])  # structure
    judged = i.chosen or (ranked[0] if ranked else least)["name"]
    legs = examined[judged][0]
    return {
        "some_fits": bool(ranked),
        "fitting": _words([result["name"] for result in ranked]),
        "judged": judged,
        "schemes": results,
        "legs": [_leg_output(leg) for leg in legs],
        "cables": _cable_outputs(i, legs),
    }
