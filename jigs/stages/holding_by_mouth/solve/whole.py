"""The plug that holds the vessel by its mouth: the first way that works, or the one asked for."""

from __future__ import annotations

from collections.abc import Callable
from math import atan, atan2, ceil, floor, inf, pi, radians, tan

import numpy as np

from geometry.bodies.section import Section
from geometry.hardware.fittings import CLEARANCE, bolt_diameter, clearance_hole, screws_for
from geometry.lathe.mouth_plug import bore, find_band, gauge_edge, opening, taper_reach, taper_side
from geometry.lathe.turning import SWING_CLEARANCE, bearing_forces, sticks
from geometry.plane.profile import Profile
from geometry.records import Record, replace
from geometry.statics.lathe_holding import MOST_PULL, TOOL_FORCE
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import ALLOWED_MITRE, PUSH, most_pull, pushed, turned_pull
from jigs.stages.holding_by_mouth.plan import (
    LEAST_REACH,
    Barred,
    Fault,
    MouthPlug,
    PlugBolt,
    ReversingPlan,
    Way,
)
from jigs.stages.holding_by_mouth.solve import statics
from jigs.stages.mountings.solve.holding import SMALL_WORK
from jigs.stages.solids.slim import has_stem
from jigs.stages.stack.plan import StackPlan
from jigs.words.lengths import MM_PER_INCH, Unit

FLOOR_CLEAR = 2.0  # between the plug's tip and the floor
EDGE_CLEAR = 2.0  # between a band and the mouth's edge
# Between the rim and the flange where the rim does not stand on it.
RIM_CLEAR: dict[Unit, float] = {"mm": 10.0, "in": 7 * MM_PER_INCH / 16}
NUT_AND_WASHER = 15.0
PAST_RIM = 3.0  # of the flange
LEAST_FLANGE = 45.0  # radius, for the faceplate's screws
LEAST_BACK = 15.0  # thickness of the flange
LEAST_PLUG = 10.0  # radius
# From where the taper jams to where the rim stands on the flange, at most.
PRESS: dict[Unit, float] = {"mm": 1.0, "in": 0.040 * MM_PER_INCH}
# Most by which a bare plug widens the mouth, a share of it: what mitres may stand over 12000 N/mm² along the grain, as
# most hardwoods have (USDA Wood Handbook, from memory). Wood across its grain gives more for what it may stand.
WIDENED = ALLOWED_MITRE / 12000.0
LOOSE = 0.2  # round a spigot that only centres
OVER_SIZE = 6.0  # on a disc's diameter, turned away
FACED = 1.0  # off the flange's front
ROUND_BOLT = 5.0  # wood of the plug round its bolt's hole
LEAST_WASHER = 3.0  # in bolt diameters
WASHER_PAST = 5.0  # its edge past the hole in the floor
FOOT_LEFT = 5.0  # of the foot beside the washer, to turn
POINT_DEPTH = 5.0  # of the tailstock point's recess
POINT_LEFT = 0.5  # turned away under the recess


class _Body(Record, eq=False):
    """What of the plug goes into the mouth."""

    bearing: Profile
    low: float
    high: float
    face: float
    stands: bool
    press: float
    slope: float  # of what takes the push


def reversing_plan(job: VesselJob, section: Section, stack: StackPlan) -> ReversingPlan:
    """How the vessel is held by its mouth; no plug, and the reasons, where it cannot be or is not asked for."""
    asked = job.reversing.hold
    if asked == "none" or section.through:  # the tailstock has no floor to press on
        return ReversingPlan(None, (), ())
    barred: list[Barred] = []
    for way in _WAYS if asked == "auto" else (asked,):
        found = _tried(job, section, stack, way)
        if isinstance(found, MouthPlug):
            return ReversingPlan(found, tuple(barred), ())
        barred.append(found)
    rest: list[Way] = [way for way in _WAYS if asked != "auto" and way != asked]
    others = tuple(way for way in rest if isinstance(_tried(job, section, stack, way), MouthPlug))
    return ReversingPlan(None, tuple(barred), others, _hole(job, section, stack))


def _hole(job: VesselJob, section: Section, stack: StackPlan) -> float | None:
    """The least hole in the floor with which a bolt holds the vessel."""
    for hole in sorted(CLEARANCE[thread]["medium"] for thread in job.fittings.plugs):
        with_hole = replace(job, reversing=replace(job.reversing, base_hole=hole))
        if isinstance(_tried(with_hole, section, stack, "bolt"), MouthPlug):
            return hole
    return None


def _tried(job: VesselJob, section: Section, stack: StackPlan, way: Way) -> MouthPlug | Barred:
    """A plug that this way gives, and that what it bears in stands."""
    found = _WAYS[way](job, section)
    if isinstance(found, Barred):
        return found
    glue = statics.most_push(job, section, stack.layers, found)
    allowed = statics.hoop_allowed(job, stack.layers, found)
    hoop = statics.hoop_stress(section, found, 1.0)
    joints = allowed / hoop if hoop else inf
    stand: dict[Fault, float] = {
        "open": glue,
        "splits": joints,
        "thin-floor": statics.floor_stands(job, section, stack.layers, found),
    }
    weakest = min(stand, key=stand.__getitem__)
    push = stand[weakest]
    holding = statics.plug_held(job, section, stack, found, push)
    if found.bolt:  # its nut may turn lightly
        needed = max(PUSH, holding.least_pull)
        spared = turned_pull(min(needed, MOST_PULL))
    else:  # a push is felt
        spared = max(PUSH, min(pushed(holding.least_pull), MOST_PULL))
        needed = max(holding.least_pull, min(PUSH, PUSH * push / pushed(PUSH)))
    if push < spared:
        return Barred(way, weakest, push, spared)
    if not holding.held:
        return Barred(way, "loose", holding.strength * holding.most / holding.pull, TOOL_FORCE)
    return replace(
        found,
        least_push=needed,
        most_push=min(push, most_pull(needed)),
        hoop=hoop * needed,
        hoop_allowed=allowed if hoop else 0.0,
    )


def _taper(job: VesselJob, section: Section) -> MouthPlug | Barred:
    taper, most = radians(job.reversing.taper), atan(job.reversing.friction)
    if taper > most:
        return Barred("taper", "slips", taper, most)
    lining, press = job.reversing.lining, PRESS[job.unit]
    if not lining:
        press = min(press, WIDENED * section.mouth_radius / tan(taper))
    body = _jammed(job, section, "taper", taper, lining, press)
    return body if isinstance(body, Barred) else _plug(job, section, "taper", body, None)


def _inside(job: VesselJob, section: Section) -> MouthPlug | Barred:
    body = _twin(job, section, "inside")
    return body if isinstance(body, Barred) else _plug(job, section, "inside", body, None)


def _bolt(job: VesselJob, section: Section) -> MouthPlug | Barred:
    """The rim on the flange where a cone of the taper asked for centres it, else a plug turned to the inside."""
    if job.rings.base == "floating":
        return Barred("bolt", "floats", 0.0, 0.0)
    if has_stem(section):
        least = min(section.outer.radius_at(z) for z in np.linspace(0.0, section.inner.bottom, 100).tolist())
        return Barred("bolt", "stem", 2 * least, job.reversing.base_hole)
    bolt = _bolt_through(job, section)
    if isinstance(bolt, Barred):
        return bolt
    taper = radians(job.reversing.taper)
    body = _standing(job, section, taper)
    if isinstance(body, Barred):
        body = _twin(job, section, "bolt")
    if isinstance(body, Barred):
        body = _standing(job, section, max(taper, opening(section.inner, LEAST_REACH)))
    return body if isinstance(body, Barred) else _plug(job, section, "bolt", body, bolt)


_WAYS: dict[Way, Callable[[VesselJob, Section], MouthPlug | Barred]] = {
    "taper": _taper,
    "inside": _inside,
    "bolt": _bolt,
}


def _jammed(
    job: VesselJob, section: Section, way: Way, taper: float, gap: float, press: float
) -> _Body | Barred:
    """A cone whose side passes the mouth's edge at a distance of `gap`."""
    inner, height = section.inner, section.height
    if shallow := _shallow(section, way):
        return shallow
    deepest = min(job.reversing.depth, _hollow(section) - FLOOR_CLEAR)
    reach = taper_reach(inner, taper, deepest)
    if reach < LEAST_REACH:
        return Barred(way, "flared", opening(inner, LEAST_REACH), taper)
    side = taper_side(inner.end, taper, gap, reach, press)
    return _Body(side, height, height, height + press, True, press, taper)


def _standing(job: VesselJob, section: Section, taper: float) -> _Body | Barred:
    """The rim stands on the flange; a short cone, free of the mouth, centres it."""
    body = _jammed(job, section, "bolt", taper, job.reversing.lining + LOOSE, 0.0)
    return body if isinstance(body, Barred) else replace(body, slope=pi / 2)


def _twin(job: VesselJob, section: Section, way: Way) -> _Body | Barred:
    """A plug turned to a band of the inside that narrows towards the floor."""
    lining = job.reversing.lining
    if shallow := _shallow(section, way):
        return shallow
    if section.mouth_radius - lining < LEAST_PLUG:
        return Barred(way, "slim", 2 * (section.mouth_radius - lining), 2 * LEAST_PLUG)
    left = bore(section.inner, lining)
    low = left.start[1] + FLOOR_CLEAR
    high = section.height - job.rebate.depth - EDGE_CLEAR  # a lid's ledge is no part of what it bears on
    search = find_band(left, section.mouth_radius - lining, low, high, job.reversing.depth, LEAST_REACH)
    if search.band is None:
        if search.longest < LEAST_REACH:
            return Barred(way, "flat-inside", search.longest, LEAST_REACH)
        return Barred(way, "narrow-mouth", 2 * (search.throat + lining), 2 * (search.wanted + lining))
    bearing = left.between(*search.band)
    slope = atan2(bearing.end[0] - bearing.start[0], bearing.end[1] - bearing.start[1])
    return _Body(bearing, *search.band, section.height + RIM_CLEAR[job.unit], False, 0.0, slope)


def _hollow(section: Section) -> float:
    """Depth of the inside."""
    return section.height - section.inner.bottom


def _shallow(section: Section, way: Way) -> Barred | None:
    deep, least = _hollow(section), LEAST_REACH + FLOOR_CLEAR
    return Barred(way, "shallow", deep, least) if deep < least else None


def _bolt_through(job: VesselJob, section: Section) -> PlugBolt | Barred:
    """The thickest usual bolt that passes the hole in the floor, its washer under the foot; its length to come."""
    hole, asked = job.reversing.base_hole, job.workshop.bolts.centre
    small, large = job.fittings.centre
    usual = small if 2 * section.outer.radii(0.0, section.height)[1] < SMALL_WORK[job.unit] else large
    plugs = job.fittings.plugs
    threads = (asked,) if asked else tuple(t for t in plugs if bolt_diameter(t) <= bolt_diameter(usual))
    thread = next((t for t in threads if clearance_hole(t) <= hole), None)
    if thread is None:
        return Barred("bolt", "no-hole", hole, CLEARANCE[threads[-1]]["medium"])
    room = section.recess_radius if section.recess_depth else section.foot_radius - FOOT_LEFT
    step = 2 * job.fittings.drill
    washer = min(job.workshop.holding.washer, step * floor(2 * (room - 1) / step))
    least = max(LEAST_WASHER * bolt_diameter(thread), hole + 2 * WASHER_PAST)
    return PlugBolt(thread, 0.0, washer) if washer >= least else Barred("bolt", "no-washer", washer, least)


def _plug(
    job: VesselJob, section: Section, way: Way, body: _Body, bolt: PlugBolt | None
) -> MouthPlug | Barred:
    """The whole plug: flange, discs, forces."""
    hole = clearance_hole(bolt.thread) if bolt else job.fittings.middle
    if barred := _too_slim(body, way, hole) or _too_wide(job, section, body, way):
        return barred
    tip, layer = body.bearing.bottom, job.workshop.boards.thickness
    flange = min(max(section.rim_radius + PAST_RIM, LEAST_FLANGE), _most_radius(job))
    back_layers = ceil((LEAST_BACK + FACED) / layer)
    back = body.face + back_layers * layer - FACED
    normal, spread = bearing_forces(body.slope, job.reversing.friction)
    depth = _point_depth(job, section)
    return MouthPlug(
        way=way,
        bearing=body.bearing,
        gauge_edge=gauge_edge(body.bearing, job.gauges.fit, body.high),
        low=body.low,
        high=body.high,
        tip=tip,
        face=body.face,
        back=back,
        flange=flange,
        stands=body.stands,
        press=body.press,
        slope=body.slope,
        normal_force=normal,
        spread=max(0.0, spread),
        sticks=sticks(body.slope, job.reversing.friction),
        layer_thickness=layer,
        back_layers=back_layers,
        back_blank=2 * flange + OVER_SIZE,
        front_layers=ceil((body.face - tip) / layer - 1e-9),
        front_blank=2 * _widest(body) + OVER_SIZE,
        hole=hole,
        bolt=bolt and _long_enough(bolt, back - section.recess_depth, job.fittings.step),
        screws=screws_for(job.fittings, 2 * flange, back - body.face),
        centre_recess=2 * depth * tan(radians(30)),
        centre_depth=depth,
    )


def _widest(body: _Body) -> float:
    return max(body.bearing.start[0], body.bearing.end[0])


def _most_radius(job: VesselJob) -> float:
    return (job.workshop.lathe.swing_over_bed - SWING_CLEARANCE - OVER_SIZE) / 2


def _too_slim(body: _Body, way: Way, hole: float) -> Barred | None:
    tip, least = body.bearing.start[0], max(LEAST_PLUG, hole / 2 + ROUND_BOLT)
    return Barred(way, "slim", 2 * tip, 2 * least) if tip < least else None


def _too_wide(job: VesselJob, section: Section, body: _Body, way: Way) -> Barred | None:
    """Whether the lathe swings discs on which the middle of the rim stands, or the plug itself."""
    needed = (section.mouth_radius + section.rim_radius) / 2 if body.stands else _widest(body)
    swing, short = job.workshop.lathe.swing_over_bed, 2 * (needed - _most_radius(job))
    return Barred(way, "swing", swing, swing + short) if short > 0 else None


def _long_enough(bolt: PlugBolt, through: float, step: float) -> PlugBolt:
    return PlugBolt(bolt.thread, float(step * ceil((through + NUT_AND_WASHER) / step)), bolt.washer)


def _point_depth(job: VesselJob, section: Section) -> float:
    """Of a 60 degree recess for the tailstock's point, in wood that is turned away at last; 0 for none."""
    if job.reversing.base_hole or job.rings.base == "floating":
        return 0.0
    waste = job.rings.turning_allowance + (section.recess_depth if section.recess_radius else 0.0)
    return max(0.0, min(POINT_DEPTH, waste - POINT_LEFT))
