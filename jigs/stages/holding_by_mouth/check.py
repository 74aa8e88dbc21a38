"""Whether the vessel is held by its mouth in the way asked for, or in any."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan, ceil, degrees, floor, sqrt

from geometry.bodies.section import Section
from geometry.lathe.mouth_plug import LEAST_LEAN, MOST_LEAN, opening
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import FLOOR_SAFETY, SAFETY
from jigs.stages.holding_by_mouth.plan import LEAST_REACH, Barred, ReversingPlan, Way
from jigs.words.findings import Finding
from jigs.words.lengths import force_texts

MOST_TAPER = 5.0  # degrees, as the key allows
SHARP_EDGE = 45.0  # degrees by which the inside opens behind the mouth: its edge is crushed by a bare plug
SOFT = 1.0  # mm of lining that spares it


def reversing_findings(job: VesselJob, section: Section, reversing: ReversingPlan) -> list[Finding]:
    """Why it is not held; where the job says that the foot is finished by hand, what no hand finishes."""
    plug = reversing.plug
    if plug is not None:  # of several ways the one that holds is enough
        return list(_sharp_edge(job, section)) if plug.way == "taper" else []
    if reversing.by_hand:
        return list(_hollow_by_hand(job))
    if job.reversing.hold == "auto":
        return [_not_at_all(job, section, reversing)]
    return [_finding(job, section, reversing, barred) for barred in reversing.barred]


def _way(job: VesselJob, way: Way) -> str:
    return {
        "taper": f"a taper jammed into the {job.called.mouth}",
        "inside": "a plug turned to the inside",
        "bolt": f"a bolt through the {job.called.floor}",
    }[way]


def _by_hand(job: VesselJob) -> str:
    return f'use hold = "none" if you finish the {job.called.foot} by hand'


def _not_at_all(job: VesselJob, section: Section, reversing: ReversingPlan) -> Finding:
    """Every way and why it does not hold, in one; a bolt that holds was tried."""
    reasons = [f"{_way(job, b.way)}: {_WORDS[b.fault](job, section, b)[0]}" for b in reversing.barred]
    hole = reversing.hole
    bolt = [] if hole is None else [f"give a base_hole of at least {job.at_least(hole)}, for a bolt"]
    thicker = [
        _thin_floor(job, section, barred)[1] for barred in reversing.barred if barred.fault == "thin-floor"
    ]
    return job.finding(
        "not-held-at-all",
        f"nothing holds it by the {job.called.mouth} while the {job.called.foot} is turned: {'; '.join(reasons)}",
        key="wall.floor" if thicker and not job.inside else "reversing.hold",
        remedy=", or ".join([*bolt, *thicker, _by_hand(job)]),
        wants=_wants(section, reversing, reversing.barred),
    )


def _wants(section: Section, reversing: ReversingPlan, barred: Sequence[Barred]) -> dict[str, float]:
    """What would hold it, in mm or degrees by key."""
    wants = {} if reversing.hole is None else {"reversing.base_hole": reversing.hole}
    wants.update(("reversing.taper", degrees(one.found)) for one in barred if one.fault == "flared")
    floors = [_thicker(section, one) for one in barred if one.fault == "thin-floor"]
    return {**wants, "wall.floor": min(floors)} if floors else wants


def _hollow_by_hand(job: VesselJob) -> Iterator[Finding]:
    """A hollow is turned with the mouth held, or not at all."""
    if job.foot.recess_diameter and job.foot.recess_depth and job.rings.base != "floating":
        deep = job.show(job.foot.recess_depth)
        yield job.finding(
            "hollow-by-hand",
            f"the foot is finished by hand, and its hollow, {deep} deep, is turned with the mouth held",
            key="foot.recess_depth",
            remedy="leave the hollow out, or choose another hold",
        )


def _finding(job: VesselJob, section: Section, reversing: ReversingPlan, barred: Barred) -> Finding:
    message, remedy, key = _WORDS[barred.fault](job, section, barred)
    ways = [f'use hold = "{way}"' for way in reversing.others]
    if barred.fault in ("open", "splits") and reversing.hole is not None:
        ways.append(f'use hold = "bolt" and a base_hole of at least {job.at_least(reversing.hole)}')
    remedy = ", or ".join([*ways, remedy])
    return job.finding(
        f"not-held-{barred.way}",
        f"{_way(job, barred.way)} does not hold it: {message}",
        key=key,
        remedy=remedy,
        wants=_wants(section, reversing, [barred]),
    )


Said = tuple[str, str, str]  # message, remedy, key


def _flared(job: VesselJob, section: Section, barred: Barred) -> Said:
    word = job.called
    found, works = degrees(barred.found), degrees(barred.works)
    message = (
        f"next to the {word.mouth} the inside leans outward by {ceil(found * 100) / 100:g} degrees off the axis, and a "
        f"taper of {works:g} degrees jams on no more than {works:g}"
    )
    last = job.show(LEAST_REACH)
    straighten = f"let the last {last} of the inside lean by at most {works:g} degrees"
    steeper = ceil(found * 10 + 1e-6) / 10
    if steeper > MOST_TAPER or steeper > degrees(atan(job.reversing.friction)):
        return message, straighten, "reversing.hold"
    return message, f"a taper of at least {steeper:g}, or {straighten}", "reversing.taper"


def _slips(job: VesselJob, section: Section, barred: Barred) -> Said:
    most = floor(degrees(barred.works) * 10) / 10
    message = (
        f"a taper of {degrees(barred.found):g} degrees slips out at a friction of {job.reversing.friction:g}"
    )
    return message, f"a taper of at most {most:g}", "reversing.taper"


def _shallow(job: VesselJob, section: Section, barred: Barred) -> Said:
    floor_thickness = section.floor_thickness - (barred.works - barred.found)
    message = f"the inside is {job.at_most(barred.found)} deep, and {job.at_least(barred.works)} is the least"
    key = "inside" if job.inside else "wall.floor"
    if job.inside or floor_thickness < job.wall.least:
        return message, f"let the rim stand at least {job.at_least(barred.works - barred.found)} higher", key
    return message, f"a floor of at most {job.at_most(floor_thickness)}", key


def _slim(job: VesselJob, section: Section, barred: Barred) -> Said:
    message = (
        f"the plug would be {job.at_most(barred.found)} across, and {job.at_least(barred.works)} is the least"
    )
    wider = job.at_least(2 * section.mouth_radius + barred.works - barred.found)
    return message, f"a {job.called.mouth} of at least {wider}", "profile"


def _swing(job: VesselJob, section: Section, barred: Barred) -> Said:
    message = f"its discs do not turn in {job.show(barred.found)}"
    return message, f"a lathe that swings at least {job.at_least(barred.works)}", "lathe.swing_over_bed"


def _flat_inside(job: VesselJob, section: Section, barred: Barred) -> Said:
    word = job.called
    leans = f"{degrees(LEAST_LEAN):g} to {degrees(MOST_LEAN):g} degrees"
    message = (
        f"the inside narrows towards the {word.floor} by {leans} over {job.at_most(barred.found)} at most, and a plug "
        f"needs {job.at_least(barred.works)}"
    )
    remedy = f"let {job.at_least(barred.works)} or more of the inside lean outward by {leans}"
    return message, remedy, "reversing.hold"


def _narrow_mouth(job: VesselJob, section: Section, barred: Barred) -> Said:
    message = (
        f"the way in is {job.at_most(barred.found)} across at its narrowest, and where the inside narrows towards "
        f"the {job.called.floor} a plug needs {job.at_least(barred.works)}"
    )
    remedy = f"a {job.called.mouth}, and an inside below it, of at least {job.at_least(barred.works)} across"
    return message, remedy, "profile"


def _no_hole(job: VesselJob, section: Section, barred: Barred) -> Said:
    least = job.at_least(barred.works)
    message = (
        f"there is no hole in the {job.called.floor}"
        if not barred.found
        else f"a hole of {job.show(barred.found)} in the {job.called.floor} passes no bolt"
    )
    return message, f"a base_hole of at least {least}", "reversing.base_hole"


def _stem(job: VesselJob, section: Section, barred: Barred) -> Said:
    message = f"its hole would go through the stem, {job.show(barred.found)} at its thinnest"
    return message, _by_hand(job), "reversing.hold"


def _floats(job: VesselJob, section: Section, barred: Barred) -> Said:
    return "its washer would press on a base that floats", _by_hand(job), "reversing.hold"


def _no_washer(job: VesselJob, section: Section, barred: Barred) -> Said:
    more = barred.works - barred.found
    message = (
        f"there is room for a washer of {job.at_most(max(0.0, barred.found))} under the {job.called.foot}, and "
        f"{job.at_least(barred.works)} "
        "is the least"
    )
    if section.recess_depth and section.recess_radius:
        wider = job.at_least(2 * section.recess_radius + more + 2)
        return message, f"a hollow in the foot of at least {wider} across", "foot.recess_diameter"
    return (
        message,
        f"a foot of at least {job.at_least(2 * section.foot_radius + more + 2)} across",
        "profile",
    )


def _open(job: VesselJob, section: Section, barred: Barred) -> Said:
    word, (found, works) = job.called, force_texts(barred.found, barred.works, job.unit)
    message = (
        f"it presses the {word.mouth} open, and segments with gaps are glued only above and below: they stand a push "
        f"of {found}, and it takes up to {works} to hold the work"
    )
    return message, "no gap between the segments", "rings.gap"


def _splits(job: VesselJob, section: Section, barred: Barred) -> Said:
    word, (found, works) = job.called, force_texts(barred.found, barred.works, job.unit)
    message = (
        f"it presses the {word.mouth} open, and the joints round it stand a push of {found}, with a safety of "
        f"{SAFETY:g}; it takes up to {works} to hold the work"
    )
    return message, f"a thicker wall at the {word.mouth}", "wall"


def _thicker(section: Section, barred: Barred) -> float:
    """The floor that does not bend: the wall stands wider over it, and holds a shorter hollow, so a tenth more."""
    return section.floor_thickness * sqrt(1.1 * barred.works / barred.found)


def _thin_floor(job: VesselJob, section: Section, barred: Barred) -> Said:
    found, works = force_texts(barred.found, barred.works, job.unit)
    thick = section.floor_thickness
    bends = "its washer" if barred.way == "bolt" else "the tailstock"
    message = (
        f"{bends} bends the {job.called.floor}, {job.show(thick)} thick, which stands {found}, with a safety of "
        f"{FLOOR_SAFETY:g}; it takes up to {works} to hold the work"
    )
    thicker = job.at_least(_thicker(section, barred))
    return message, f"a {job.called.floor} of at least {thicker}", "inside" if job.inside else "wall.floor"


def _loose(job: VesselJob, section: Section, barred: Barred) -> Said:
    word, (found, works) = job.called, force_texts(barred.found, barred.works, job.unit)
    message = f"pressed as hard as it may be, it holds {found} at the {word.foot}, where the tool may push with {works}"
    return message, f"a wider {word.mouth}, or a narrower {word.foot}", "reversing.hold"


_WORDS = {
    "flared": _flared,
    "slips": _slips,
    "shallow": _shallow,
    "slim": _slim,
    "swing": _swing,
    "flat-inside": _flat_inside,
    "narrow-mouth": _narrow_mouth,
    "no-hole": _no_hole,
    "stem": _stem,
    "floats": _floats,
    "no-washer": _no_washer,
    "splits": _splits,
    "open": _open,
    "thin-floor": _thin_floor,
    "loose": _loose,
}


def _sharp_edge(job: VesselJob, section: Section) -> Iterator[Finding]:
    word = job.called
    opens = degrees(-opening(section.inner, LEAST_REACH))
    if opens > SHARP_EDGE and job.reversing.lining < SOFT:
        soft = job.at_least(SOFT)
        yield job.note(
            "sharp-mouth",
            f"the inside opens by {opens:.0f} degrees behind the {word.mouth}, so the plug touches a sharp edge only",
            key="reversing.lining",
            remedy=f"a lining of at least {soft}",
        )
