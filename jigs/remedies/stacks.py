"""Changes of a vessel's stack that are more than one number."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from math import ceil, floor

from geometry.records import replace
from jigs.asked.change import typed
from jigs.asked.jobfile.shape import through_stations
from jigs.asked.key import Wrong
from jigs.asked.vessel_job import VesselJob, by_ring
from jigs.measured.glued import glued_rings
from jigs.remedies.ladder import Rung, as_many, last_rungs
from jigs.remedies.lever import Lever, View, of_vessel
from jigs.remedies.shapes import steady_rows, steady_rung
from jigs.words.findings import Refused
from jigs.words.lengths import MM_PER_INCH

LEAST_FOOT_RING = 4.0  # mm over the foot, of a ring that is worth having under a stem
OTHER_STEPS = 12  # of 0.5 mm or 1/32 in, by which rings are made higher or lower on those that are glued
USUAL_HEIGHTS = (
    20.0,
    15.0,
    25.0,
    12.0,
)  # mm: rings for a vessel whose boards are not listed. Common practice


@of_vessel
def _one_height(_: View, job: VesselJob) -> Sequence[Rung]:
    """Heights of the boards that are listed, those of most woods first; else usual ones."""
    flat = job.rings.flattening
    listed = Counter(round(board.thickness - flat, 2) for board in job.workshop.stock.boards)
    heights = [height for height, _ in listed.most_common() if height >= 2] or list(USUAL_HEIGHTS)
    return [
        Rung({"rings.heights": as_many(job, "rings.heights", typed(height, job.unit))}, 0.1 * k)
        for k, height in enumerate(heights)
    ]


@of_vessel
def _others_above(_: View, job: VesselJob) -> Sequence[Rung]:
    """Rings above those that are glued already a little higher, or lower; those stay."""
    heights, count = job.rings.heights, glued_rings(job.readings).count
    if not count or not isinstance(heights, tuple):
        return []
    step = 0.5 if job.unit == "mm" else MM_PER_INCH / 32
    listed = [by_ring(heights, number) for number in range(1, max(len(heights), count + 1) + 1)]
    below, above = listed[:count], listed[count:]
    return [
        Rung({"rings.heights": [typed(one, job.unit) for one in (*below, *(own + way * k * step for own in above))]},
             0.1 * k)
        for k in range(1, OTHER_STEPS + 1)
        for way in (1, -1)
    ]  # fmt: skip


def _one_wood(view: View) -> Sequence[Rung]:
    """All rings of one wood whose boards are listed."""
    woods = dict.fromkeys(board.species for board in view.job.workshop.stock.boards)
    return [Rung({"rings.species": name}, 0.0) for name in woods]


@of_vessel
def _no_staves(view: View, job: VesselJob) -> Sequence[Rung]:
    if job.staves is None:
        return []
    return [
        Rung({f"staves.{name}": None for name in ("low", "high", "count", "species")
              if view.raw(f"staves.{name}") is not None}, 0.0)
    ]  # fmt: skip


def _fewer_heights(view: View) -> Sequence[Rung]:
    """A list of heights without its last."""
    heights = view.raw("rings.heights")
    if not isinstance(heights, list):
        return []
    return [
        Rung({"rings.heights": heights[:k] if k > 1 else heights[0]}, 0.1)
        for k in range(len(heights) - 1, 0, -1)
    ]


@of_vessel
def _upright_stem(_: View, job: VesselJob) -> Sequence[Rung]:
    """One ring with its grain along the axis, from under the thin part of a stem to over it; others as they were."""
    from jigs.stages.finished_form.solve import solve_section
    from jigs.stages.solids.slim import too_slim_across
    from jigs.stages.stack.solve.whole import solve_stack

    section, allowance = solve_section(job), job.rings.turning_allowance
    span = too_slim_across(job, section, solve_stack(job, section).layers)
    if span is None:
        return []
    low, high = floor(span[0]), ceil(span[1])
    others = job.rings.heights[-1:] if isinstance(job.rings.heights, tuple) else USUAL_HEIGHTS[:1]
    below = [low + allowance] if low > LEAST_FOOT_RING else []
    heights = [*below, (high - low if below else high + allowance), *others]
    typed_heights = [typed(height, job.unit) for height in heights]
    return [Rung({"rings.heights": typed_heights, "rings.upright": [len(below) + 1]}, 0.5)]


@of_vessel
def _steady_upright(view: View, job: VesselJob) -> Sequence[Rung]:
    """Both: stations more where the curve is thinner than these, and such a ring for the stem that they give."""
    found = []
    for rows in steady_rows(view):
        with suppress(Refused, Wrong):
            thicker = replace(job, outside=through_stations([tuple(row) for row in rows], job.unit))
            steady, uprights = steady_rung(view, rows), _upright_stem(replace(view, job=thicker))
            found += [Rung({**steady.changes, **rung.changes}, steady.far) for rung in uprights]
    return found


LAST_HIGHER = Lever("rings.heights", lambda view: last_rungs(view.job, "rings.heights", "up"), "up")
ONE_HEIGHT = Lever("rings.heights", _one_height, None, False)
OTHERS_ABOVE = Lever("rings.heights", _others_above, None, False, 0.5)
ONE_WOOD = Lever("rings.species", _one_wood, None, False)
NO_STAVES = Lever("staves.low", _no_staves, None, False, 2.0)
UPRIGHT_STEM = Lever("rings.upright", _upright_stem, None, False)
STEADY_UPRIGHT = Lever("profile", _steady_upright, None, False)
FEWER_HEIGHTS = Lever("rings.heights", _fewer_heights, None, False)
