"""The gauges' share of the plan: stages, pieces, what passes the mouth, how the outer one is divided by height."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import ceil, sqrt

import numpy as np

from geometry.bodies.section import Section
from geometry.bodies.torus import bevel_needed
from geometry.hardware.fittings import clearance_hole
from geometry.lathe.inside_reach import Reach, beyond_back, reach, riding_radius, rim_slot
from geometry.measuring.turned import Station
from geometry.plane.levels import monotone
from geometry.plane.profile import Profile
from geometry.records import Record
from jigs.asked.vessel_job import VesselJob
from jigs.stages.gauging.plan.vessel import (
    FloatingGauges,
    GaugePiece,
    InsideReach,
    OutsideBody,
    VesselGauges,
    VesselStage,
    WallSlots,
)
from jigs.stages.gauging.solve.torus import plate_of
from jigs.stages.stack.plan import StackPlan

WASTE_CLEAR = 2.0  # of the foot from the lowest ring and the waste block
ROOMY_WEB = 64.0  # beside the widest working edge, for ticks and text, where the bed has room for it
LEAST_WEB = 24.0  # where it has not,
SHORT = 80.0  # and by as much more as pieces are shorter than this, for what is lettered on them
LEAST_FOOT = 20.0  # from the waste block to the rail
RAIL, BOLTS_IN = 40.0, 10.0  # width of the rail, and the bolts' distance from its back
HOOK_PAST = 3.0  # of the inner gauge over the rim's outer arris
HOOK_LEAST, HOOK_MOST = 12.0, 30.0  # from its working edge
HANDLE = 60.0  # of the inner gauge, above the rim
MOST_STATED = 40  # stations that are marked and listed; of more an even share
DEEPEST_SLOT, SHALLOWEST_SLOT = 25.0, 4.0
WALL_WITHIN = 0.2  # of the wall at the rim, as deep as a slot goes


def gauge_plan(job: VesselJob, section: Section, stack: StackPlan) -> VesselGauges:
    """Stages, pieces and reach of the profile gauges, and the slots of the wall gauge."""
    offsets, faceplate = job.gauges.stages, stack.bottom - job.rings.waste_block
    outsides, body, pieces, longest = _outer(job, section, stack, faceplate)
    inside = _inside(job, section, longest)
    if inside.any:
        longest = max(longest, section.height - inside.low + HANDLE)
    plate = plate_of(job, longest, job.workshop.made.gauges)
    return VesselGauges(
        stages=tuple(_stage(job, section, k, outside, inside.edges[k]) for k, outside in enumerate(outsides)),
        fit=job.gauges.fit,
        plate=plate,
        faceplate=faceplate,
        body=body,
        pieces=pieces,
        stations=_stations(job, section),
        reach=_reach(section, inside, offsets[0], plate),
        unguided=inside.unguided,
        wall=_wall(section, offsets, job.gauges.fit),
        floating=floating_gauges(job, stack, plate),
    )


def unguided_inside(job: VesselJob, section: Section, stack: StackPlan) -> tuple[float, float] | None:
    """As a `gauge_plan` has it, which is not made for it alone."""
    *_, longest = _outer(job, section, stack, stack.bottom - job.rings.waste_block)
    return _inside(job, section, longest).unguided


def _outer(
    job: VesselJob, section: Section, stack: StackPlan, faceplate: float
) -> tuple[tuple[Profile, ...], OutsideBody, tuple[GaugePiece, ...], float]:
    """Working edges by stage, what the plates are beside them, the pieces, and the length of the longest."""
    outsides = tuple(_outside(section, offset + job.gauges.fit) for offset in job.gauges.stages)
    reaches = [edge.radii(edge.bottom, edge.top) for edge in outsides]
    least, most = min(low for low, _ in reaches), max(high for _, high in reaches)
    body = _body(job, outsides, (least, most), stack)
    cup = section.inner.bottom if stack.stemmed else None
    pieces = pieces_of(job, section.outer, faceplate, body.back - least, cup)
    return outsides, body, pieces, max(body.back - least, *(piece.high - piece.low for piece in pieces))


def _inside(job: VesselJob, section: Section, longest: float) -> Inside:
    """Tried with plates as thick as the longest piece asks for."""
    thickest = plate_of(job, max(longest, section.height + HANDLE), job.workshop.made.gauges)
    return inside_of(section, job.gauges.stages, job.gauges.fit, thickest)


@lru_cache(maxsize=64)  # of gauges and of the work at each stage
def _outside(section: Section, offset: float) -> Profile:
    """The outside moved outward; lengthened first, so that at a flat rim it goes round the arris."""
    longer = section.outer.spanning(-2.0 * offset - 1.0, section.height + 2.0 * offset + 1.0)
    return longer.beside(offset).spanning(0.0, section.height)


def _stage(
    job: VesselJob, section: Section, index: int, outside: Profile, inside: Profile | None
) -> VesselStage:
    offset, last = job.gauges.stages[index], index == len(job.gauges.stages) - 1
    name = "finished" if last else f"stage-{index + 1}"
    label = "FINISHED" if last else f"+{job.show(offset)}".upper()
    work = _outside(section, offset), beside(section, offset)
    return VesselStage(name, label, offset, outside, inside, *work)


def _body(
    job: VesselJob, outsides: tuple[Profile, ...], widths: tuple[float, float], stack: StackPlan
) -> OutsideBody:
    least, most = widths
    foot = max(edge.start[0] for edge in outsides)
    stand = max(foot, stack.layers[0].ring.radius) + WASTE_CLEAR
    shop = job.workshop
    bed = shop.printer.bed if shop.made.gauges == "print" else shop.cutter.bed
    web = max(LEAST_WEB, min(ROOMY_WEB, min(bed) - RAIL - (most - least)))
    web += max(0.0, SHORT - job.gauges.longest_in_hand)
    rail, bolt = max(most + web, stand + LEAST_FOOT), job.fittings.screw
    return OutsideBody(stand, rail, rail + RAIL - BOLTS_IN, rail + RAIL, bolt, clearance_hole(bolt, "fine"))


def _stations(job: VesselJob, section: Section) -> tuple[Station, ...]:
    """Those that were stated, the widest and the narrowest place between, the rim and the foot."""
    outer, height = section.outer, section.height
    stated = [(z, f"station {k}") for k, z in enumerate(job.outside.stations, 1) if 0.0 <= z <= height]
    stated = stated[:: ceil(len(stated) / MOST_STATED)] if stated else []
    heights = [*stated, (_widest(outer), "widest"), (height, "rim"), (0.0, job.called.foot)]
    found: list[Station] = []
    for z, name in heights:
        if all(abs(z - other.height) > 0.5 for other in found):
            found.append(Station(z, outer.radius_at(z), name))
    return tuple(found)


def _widest(outer: Profile) -> float:
    """The height at which a profile is widest."""
    parts = [part for edge in outer.edges() for part in monotone(edge)]
    return max(place for part in parts for place in (part.start, part.end))[1]


def _reach(section: Section, inside: Inside, offset: float, plate: float) -> InsideReach | None:
    edges = [edge for edge in inside.edges if edge is not None]
    if not edges:
        return None
    mouth = max(edge.end[0] for edge in edges)
    past = section.rim_radius + offset + HOOK_PAST
    hook = min(max(past, mouth + HOOK_LEAST), mouth + HOOK_MOST)
    radius = min(riding_radius(edge) for edge in edges)
    return InsideReach(inside.low, inside.back, inside.width, hook, bevel_needed(plate, radius))


def _wall(section: Section, offsets: tuple[float, ...], fit: float) -> WallSlots | None:
    """One slot for each stage of one face; the other is turned to its last stage before."""
    slot = rim_slot(section.outer, section.inner, DEEPEST_SLOT, WALL_WITHIN)
    if slot is None or slot.depth < SHALLOWEST_SLOT:
        return None
    widths = tuple(slot.wall + offset + offsets[-1] + 2 * fit for offset in offsets)
    return WallSlots(slot.wall, slot.depth, widths)


LEAST_EDGE = 10.0  # of working edge on the lowest piece
BOLT_INSET = 12.0  # from the ends of a piece
TRIED = 9  # places for each division


def pieces_of(
    job: VesselJob, outer: Profile, faceplate: float, width: float, cup: float | None = None
) -> tuple[GaugePiece, ...]:
    """Pieces no longer than is handy and than the bed, divided where the profile stands steepest.

    And at the height where the `cup` over a stem begins: it is turned while the stem is too thick for its own pieces.
    """
    longest = _longest(job, width)
    low = [] if cup is None else _bounds(outer, (faceplate, cup), longest)[:-1]
    bounds = [*low, *_bounds(outer, (faceplate if cup is None else cup, outer.top), longest)]
    return tuple(GaugePiece(k, *ends, _bolts(*ends)) for k, ends in enumerate(pairwise(bounds), 1))


def _longest(job: VesselJob, width: float) -> float:
    """As long as is handy, and lies on the bed beside the width; what is too wide anyhow is joined from halves."""
    shop = job.workshop
    bed = shop.printer.bed if shop.made.gauges == "print" else shop.cutter.bed
    return min(job.gauges.longest_in_hand, max(bed) if width <= min(bed) else min(bed))


def _bounds(outer: Profile, ends: tuple[float, float], longest: float) -> list[float]:
    low, top = ends
    count = ceil((top - low) / longest - 1e-9)
    each = (top - low) / count
    slack = min((longest - each) / 2, each / 4)
    even = [low + k * each for k in range(1, count)]
    if not even or even[0] + slack >= LEAST_EDGE:
        return [low, *(_steepest(outer, max(z - slack, LEAST_EDGE), z + slack) for z in even), top]
    # A deep waste block: the lowest piece is as long as that asks for.
    return [low, *_bounds(outer, (LEAST_EDGE, top), longest)] if top > 2 * LEAST_EDGE else [low, top]


def _steepest(outer: Profile, low: float, high: float) -> float:
    """The height between two at which the profile leans least, the middle one of equals."""
    tried = np.linspace(low, high, TRIED).tolist()
    middle = (low + high) / 2
    return float(min(tried, key=lambda z: (round(abs(outer.lean_at(z)), 3), abs(z - middle))))


def _bolts(low: float, high: float) -> tuple[float, float]:
    inset = min(BOLT_INSET, (high - low) / 4)
    return low + inset, high - inset


ARM = 12.0  # mm of the plate on the ring
NOSE = 6.0  # mm of the step that enters the opening, at most
OVER_TONGUE = 0.1  # mm that the slot is wider
PAST = 1.0  # mm that it is deeper than the rebate

PLAY = 2.0  # on either side of the gauge while it passes
LEAST_WIDTH = 12.0  # of a plate that stays stiff
LEAST_DEPTH = 10.0  # of a gauge that is worth having
LEFT_OUT = 1.0  # of height over the floor that is not worth telling


class Inside(Record, eq=False):
    """Working edges by stage, None where no gauge passes, and what they have in common."""

    edges: tuple[Profile | None, ...]
    low: float
    back: float
    width: float
    unguided: tuple[float, float] | None

    @property
    def any(self) -> bool:
        return any(edge is not None for edge in self.edges)


@lru_cache(maxsize=32)
def inside_of(section: Section, offsets: tuple[float, ...], fit: float, plate: float) -> Inside:
    """The inner gauges' edges, as deep as all of them get that pass the mouth with plates of this thickness."""
    floor, height = section.inner.bottom, section.height
    whole = [beside(section, offset + fit) for offset in offsets]
    passes = [_passes(section, edge, offset, plate) for edge, offset in zip(whole, offsets, strict=True)]
    reached = [one for one in passes if one]
    if not reached:
        return Inside((None,) * len(offsets), height, 0.0, 0.0, (floor, height))
    back, width = max(one.back for one in reached), min(one.width for one in reached)
    edges = _edges(whole, passes, back)
    low = max(edge.bottom for edge in edges if edge)
    over = floor + offsets[0] + fit
    return Inside(edges, low, back, width, (floor, low) if low > over + LEFT_OUT else None)


def _passes(section: Section, edge: Profile | None, offset: float, plate: float) -> Reach | None:
    """How far a gauge gets at its stage, where that is far enough."""
    hollow = beside(section, offset)
    found = reach(hollow, edge, PLAY, LEAST_WIDTH, plate) if hollow and edge else None
    return found if found and section.height - found.low >= LEAST_DEPTH else None


def _edges(
    whole: Sequence[Profile | None], passes: Sequence[Reach | None], back: float
) -> tuple[Profile | None, ...]:
    """The edges down to the depth that all reach, where that is not the floor, and from the back on."""
    pairs = [(edge, one) for edge, one in zip(whole, passes, strict=True) if edge and one]
    deep = all(one.low <= edge.bottom + 1e-6 for edge, one in pairs)
    low = max(one.low for _, one in pairs)
    return tuple(
        beyond_back(edge if deep else edge.between(low, edge.top), back) if edge and one else None
        for edge, one in zip(whole, passes, strict=True)
    )


@lru_cache(maxsize=64)
def beside(section: Section, distance: float) -> Profile | None:
    """The inside moved into the hollow, up to the rim; lengthened first, so that it goes round the rim's arris,
    and the foot's where there is no floor.

    None where the wood fills the hollow.
    """
    inner, height = section.inner, section.height
    try:
        past = 2.0 * distance + 1.0
        moved = inner.spanning(inner.bottom - (past if section.through else 0.0), height + past).beside(
            -distance
        )
        return moved.spanning(inner.bottom if section.through else moved.bottom, height)
    except ValueError:
        return None


def floating_gauges(job: VesselJob, stack: StackPlan, plate: float) -> FloatingGauges | None:
    """None where no base floats."""
    if stack.floating is None:
        return None
    base = stack.floating.base
    return FloatingGauges(
        groove=_across(base.groove, plate),
        depth=base.depth,
        opening=_across(base.opening, plate),
        nose=min(NOSE, base.ledge + job.rings.turning_allowance / 2),
        arm=ARM,
        slot=base.tongue_thickness + OVER_TONGUE,
        slot_depth=base.tongue - base.field + PAST,
    )


def _across(radius: float, plate: float) -> float:
    """Width of a plate that touches a round hole with the corners of its thickness."""
    return 2 * sqrt(radius**2 - (plate / 2) ** 2)
