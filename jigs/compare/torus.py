"""Every candidate at once: which look as if they can be made, and which of them are best."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

import numpy as np

from geometry.blanks.candidates import Candidates, candidates
from geometry.hardware.sled_sizes import BLADE_PAST_RING
from geometry.lathe.turning import SWING_CLEARANCE
from geometry.plane.edges import BoolArray, FloatArray
from geometry.plane.sample import IntArray
from geometry.records import Record
from jigs.asked.change import Changes
from jigs.asked.job import TorusJob
from jigs.compare.wish import PIECES, By, Wish
from jigs.stages.blank.size import LEAST_INNER, clean_up
from jigs.stages.segments.saws import kerf_of
from jigs.stages.wedge_rings.layout.sled import SCREW_ABOVE
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.work.minutes import CLAMPED, FLATTENED, ON_SLED, SANDED

_MM2 = 1e-6  # square metres
SAME = 0.02  # mm


class Ranked(Record, eq=False):
    """All that look makable, the best first by what matters; `tried` is how many there were before."""

    found: Candidates
    mirrored: tuple[str, ...]  # of each, how its layup is mirrored; "" for solid wood
    tried: int


def ranked(job: TorusJob, wish: Wish) -> Ranked:
    """Estimates: what is close to them is settled by a trial. Raises ValueError where the tube leaves no hole."""
    form = job.form
    every = candidates(
        form.major_radius, form.tube, form.turning_allowance, wish.rings, wish.segments, wish.depths,
        form.core_opening / 2, form.spacer, form.ring_spacer,
    )  # fmt: skip
    likely, ways = every.chosen(_likely(job, every)), wish.layups
    value = np.concatenate([_value(job, likely, wish, PIECES.get(way, 1)) for way in ways])
    pieces = np.tile(likely.pieces, len(ways))
    order: IntArray = np.lexsort((pieces, np.round(value, 6)))
    mirrored = tuple(ways[k // max(len(likely), 1)] for k in order.tolist())
    return Ranked(likely.chosen(order % max(len(likely), 1)), mirrored, len(every) * len(ways))


def _likely(job: TorusJob, many: Candidates) -> BoolArray:
    """What the form's own limits and the saws' heights allow."""
    form, shop = job.form, job.workshop
    table, band = shop.saw.blade_height, shop.bandsaw.height or 0.0
    ring = 2 * many.apothem + shop.boards.sheet + BLADE_PAST_RING
    segment = (many.depth + shop.boards.sheet) / np.cos(many.mitre) + BLADE_PAST_RING
    return np.asarray(
        (many.core > 0)
        & (many.core < many.apothem)
        & (many.wall >= form.least_wall)
        & (many.outer_edge >= form.least_segment)
        & ((many.inner_edge >= LEAST_INNER) | (form.spacer == 0))
        & (many.thin_edge >= form.least_thin_edge)
        & ((ring <= table) | (ring + SCREW_ABOVE <= band))
        & ((segment <= table) | (segment <= band))
        & (2 * many.swing_radius + SWING_CLEARANCE <= shop.lathe.swing_over_bed)
    )


def _value(job: TorusJob, many: Candidates, wish: Wish, parts: int) -> FloatArray:
    """`parts` are the pieces of a layup in a segment."""
    clean_up, kerf = _cut(job)
    if wish.by in ("wood", "cost"):
        return many.sawn(clean_up, parts * kerf)
    ways: dict[By, FloatArray] = {
        "cuts": cuts(many, parts),
        "time": minutes(job, many, parts),
        "gap": many.closing_gap(wish.saw_error),
        "piece": -smallest(many),
    }
    return ways[wish.by]


def _cut(job: TorusJob) -> tuple[float, float]:
    """Clean-up and kerf, on the table saw."""
    kerf = kerf_of(job, "table saw")
    return clean_up(job, kerf), kerf


def cuts(many: Candidates, parts: int) -> FloatArray:
    """One for each segment, and for each piece of its layup; two for each ring."""
    each = 1 + parts if parts > 1 else 1
    return np.asarray(each * many.pieces + 2.0 * many.wedge_rings)


def smallest(many: Candidates) -> FloatArray:
    """The least edge that a hand or a hold-down has: a segment's outer edge, a ring's thin edge."""
    return np.asarray(np.minimum(many.outer_edge, many.thin_edge))


def minutes(job: TorusJob, many: Candidates, parts: int) -> FloatArray:
    """Hands on, of what the counts change, by the rules of `jigs.work.minutes`: segments sawn, sanded and glued, rings
    flattened, sawn, sanded and glued."""
    glue = job.workshop.glue
    section = many.segments * np.tan(many.mitre) * (many.apothem**2 - many.core**2)
    faces, ends = (2 if thick else 1 for thick in (job.form.spacer, job.form.ring_spacer))
    joint = many.depth / np.cos(many.mitre) * many.thick_edge * _MM2
    more = parts if parts > 1 else 0  # sawn, sanded and glued before it is a segment
    segment = (
        (1 + more) * (ON_SLED + 2 * SANDED)
        + (faces + more) * glue.joint_time
        + faces * glue.area_time * joint
    )
    ring = 2 * (FLATTENED + CLAMPED + SANDED) + ends * (glue.joint_time + glue.area_time * section * _MM2)
    return np.asarray(many.pieces * segment + many.wedge_rings * ring)


def changes(found: Ranked, job: TorusJob) -> Iterator[Changes]:
    """As they would be typed; what the job has already is left out, and none comes twice."""
    form, many = job.form, found.found
    own: str = job.layup.mirrored if job.layup else ""
    known = {(form.wedge_rings, form.segments, form.core_opening, own)}
    for k, mirrored in enumerate(found.mirrored):
        core = 2 * float(many.core[k])
        same = abs(core - form.core_opening) < SAME
        counts = int(many.wedge_rings[k]), int(many.segments[k])
        key = (*counts, form.core_opening if same else round(core, 2), mirrored)
        if key in known:
            continue
        known.add(key)
        made: dict[str, object] = dict(zip(("form.wedge_rings", "form.segments"), counts, strict=True))
        if not same:
            made["form.core_opening"] = typed(core, job.unit)
        if mirrored != own:
            made["layup.mirrored"] = mirrored
        yield made


def typed(core: float, unit: Unit) -> float | str:
    """Rounded up, so that no board is asked to be thicker than it is."""
    if unit == "mm":
        return ceil(core * 100 - 1e-6) / 100
    return f"{ceil(core / MM_PER_INCH * 1000 - 1e-6) / 1000:g} in"
