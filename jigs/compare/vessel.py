"""Every stack of a vessel at once: which look as if they can be made, and which of them are best."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from geometry.blanks.flat_candidates import FlatCandidates, flat_candidates
from geometry.hardware.sled_sizes import BLADE_PAST_RING
from geometry.lathe.turning import SWING_CLEARANCE
from geometry.plane.edges import BoolArray, FloatArray
from geometry.plane.sample import IntArray
from geometry.records import Record
from jigs.asked.change import Changes
from jigs.asked.defaults import WIDE_DISC
from jigs.compare.wish import PIECES, By, Wish
from jigs.forms.vessel.shaped import formed
from jigs.stages.stack.layers import THINNEST
from jigs.stages.stack.solve.heights import solve_heights, spans_of
from jigs.words.lengths import MM_PER_INCH
from jigs.work.minutes import CLAMPED, FLATTENED, ON_SLED, SANDED

if TYPE_CHECKING:
    from geometry.bodies.section import Section
    from jigs.asked.vessel_job import VesselJob

_MM2 = 1e-6  # square metres
SAME = 0.02  # mm


class RankedStacks(Record, eq=False):
    """All that look makable, the best first by what matters; `tried` is how many there were before."""

    found: FlatCandidates
    heights: tuple[float | None, ...]  # by the candidates' choice; None for the job's own
    mirrored: tuple[str, ...]  # of each, how its layup is mirrored; "" for solid wood
    tried: int


def ranked_stacks(job: VesselJob, wish: Wish) -> RankedStacks:
    """Estimates: what is close to them is settled by a trial. Raises RefusedSoon where the form itself cannot be."""
    section, _, _ = formed(job)
    heights = _heights(job, wish)
    places = [_places(job, section, height) for height in heights]
    widest = {"solid": np.inf, None: WIDE_DISC[job.unit]}.get(job.rings.base, 0.0)
    every = flat_candidates(section, job.rings.turning_allowance, places, wish.segments, widest)
    likely, ways = every.chosen(_likely(job, every)), wish.layups
    value = np.concatenate([_value(job, likely, wish, PIECES.get(way, 1)) for way in ways])
    pieces = np.tile(likely.pieces, len(ways))
    order: IntArray = np.lexsort((pieces, np.round(value, 6)))
    count = max(len(likely), 1)
    mirrored = tuple(ways[k // count] for k in order.tolist())
    return RankedStacks(likely.chosen(order % count), heights, mirrored, len(every) * len(ways))


def _heights(job: VesselJob, wish: Wish) -> tuple[float | None, ...]:
    """The job's own, then one for each board, flattened."""
    flat = [round(depth - job.rings.flattening, 4) for depth in wish.depths]
    return (None, *(height for height in flat if height > 0 and not _own(job, height)))


def _own(job: VesselJob, height: float) -> bool:
    """Whether all of the job's rings are of this height."""
    asked = job.rings.heights
    return isinstance(asked, tuple) and all(abs(one - height) < SAME for one in asked)


def _places(job: VesselJob, section: Section, height: float | None) -> list[tuple[float, float]]:
    """Bottom and top of each ring; none that would only be faced away, and no staves."""
    found: list[tuple[float, float]] = []
    spans = spans_of(job, section.height)
    own = solve_heights(job, section)[0] if height is None else ()
    for k, span in enumerate(spans):
        low, asked = span.low, iter(own[k] if own else ())
        while low < min(span.high - THINNEST, section.height):
            top = low + (next(asked, None) or height or span.high)
            found.append((low, min(top, span.high) if span.exact else top))
            low = top
    return found


def _likely(job: VesselJob, many: FlatCandidates) -> BoolArray:
    """What the job's own limits, the saw's height and the lathe allow."""
    wish, shop = job.rings, job.workshop
    highest = np.nanmax(np.where(many.disc, np.nan, many.height), axis=1, initial=0.0)
    blade = highest + wish.flattening + shop.boards.sheet + BLADE_PAST_RING
    depth = np.nanmin(many.depth, axis=1)
    return np.asarray(
        (depth > 0)
        & (many.smallest(wish.between) >= wish.least_segment)
        & (many.glue >= wish.least_glue)
        & (blade <= shop.saw.blade_height)
        & (2 * many.radius + SWING_CLEARANCE <= shop.lathe.swing_over_bed)
    )


def _value(job: VesselJob, many: FlatCandidates, wish: Wish, parts: int) -> FloatArray:
    """`parts` are the pieces of a layup in a segment."""
    flattening, kerf = job.rings.flattening, job.workshop.saw.kerf
    if wish.by in ("wood", "cost"):
        return many.sawn(flattening, kerf, parts)
    ways: dict[By, FloatArray] = {
        "cuts": cuts(many, parts),
        "time": minutes(job, many, parts),
        "gap": many.closing_gap(wish.saw_error),
        "piece": -many.smallest(job.rings.between),
    }
    return ways[wish.by]


def cuts(many: FlatCandidates, parts: int) -> FloatArray:
    """One for each segment, and for each piece of its layup."""
    return np.asarray((1.0 + parts if parts > 1 else 1.0) * many.pieces)


def minutes(job: VesselJob, many: FlatCandidates, parts: int) -> FloatArray:
    """Hands on, of what the counts change, by the rules of `jigs.work.minutes`: segments sawn, sanded and glued, rings
    flattened and glued."""
    glue = job.workshop.glue
    each = 1 + (parts if parts > 1 else 0)
    segment = each * (ON_SLED + 2 * SANDED + glue.joint_time)
    ring = 2 * FLATTENED + CLAMPED + glue.joint_time
    spread = glue.area_time * _MM2 * (each * many.joints + many.faces)
    return np.asarray(many.pieces * segment + many.rings * ring + spread)


def stack_changes(found: RankedStacks, job: VesselJob) -> Iterator[Changes]:
    """As they would be typed; the job as it is is left out."""
    own: str = job.layup.mirrored if job.layup else ""
    for k, mirrored in enumerate(found.mirrored):
        height, count = found.heights[int(found.found.choice[k])], int(found.found.segments[k])
        made: dict[str, object] = {}
        if set(job.rings.segments) != {count}:
            made["rings.segments"] = count
        if height is not None:
            made["rings.heights"] = height if job.unit == "mm" else f"{height / MM_PER_INCH:g} in"
        if mirrored != own:
            made["layup.mirrored"] = mirrored
        if made:
            yield made
