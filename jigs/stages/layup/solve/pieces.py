"""From the segments to the pieces that make them: their sides, and what of them shows when the work is turned."""

from __future__ import annotations

from itertools import pairwise
from math import asin, cos, dist, hypot, pi, radians, sin
from typing import TYPE_CHECKING

from geometry.blanks.layup import Layup
from geometry.blanks.planes import Mirrored
from geometry.bodies.torus import Blank, SegmentCut
from geometry.records import Record
from jigs.asked.job import TorusJob
from jigs.asked.job_wood import LayupWish

if TYPE_CHECKING:  # a torus is worked out without what only a vessel has
    from jigs.stages.stack.plan import Layer


class Shown(Record):
    """A whole segment on the finished form: from seam to seam along the flat, and along the tube or the height."""

    across: float  # where they are nearest to one another
    up: float
    up_range: tuple[float, float]  # on a torus at the hole and at the rim
    farthest: float  # as `across`, where they are farthest from one another: round an ellipse


def left_and_right(mirrored: Mirrored) -> bool:
    """Whether a segment is mirrored about its middle across the flat."""
    return mirrored in ("left and right", "both")


def up_and_down(mirrored: Mirrored) -> bool:
    """Whether a segment is mirrored about its middle along the tube or the height."""
    return mirrored in ("up and down", "both")


def halves(wish: LayupWish) -> tuple[bool, bool]:
    """Whether sides a and b are halves of the segment's, one face of each glued."""
    return (
        wish.plane != "end" and left_and_right(wish.mirrored),
        wish.plane != "face" and up_and_down(wish.mirrored),
    )


def piece_of(wish: LayupWish, cut: SegmentCut, kerf: float) -> Layup:
    """The rectangle as cut: the segment's sides, halved and left larger by the sanding where it is mirrored."""
    a, b, depth = {
        "flat": (cut.outer_edge, cut.length, cut.depth),
        "end": (cut.depth, cut.length, cut.outer_edge),
        "face": (cut.outer_edge, cut.depth, cut.length),
    }[wish.plane]
    half_a, half_b = halves(wish)
    return Layup(
        plies=tuple(ply.thickness for ply in wish.plies),
        angle=radians(wish.angle),
        a=a / 2 + wish.sanding if half_a else a,
        b=b / 2 + wish.sanding if half_b else b,
        depth=depth,
        kerf=kerf,
    )


def shown_on_torus(job: TorusJob, blank: Blank) -> Shown:
    """Seams of segments are 2r·sin μ apart, round the middle of the tube's own section; those of rings 2ρ·s.

    ρ is the distance from the axis. The tube's centre lies off the ring's by a fraction of a millimetre, which
    is left out. An ellipse's seams lie at a·b/hypot(b·cos θ, a·sin θ) from its centre.
    """
    form, s = job.form, sin(blank.half_wedge)
    major, tube = form.major_radius, form.tube_radius
    least = most = 2 * tube * sin(blank.mitre)
    if not form.tube.round:
        ends = _seam_places(tube, form.tube.high, blank)
        apart = [dist(a, b) for a, b in pairwise([*ends, ends[0]])]
        least, most = min(apart), max(apart)
    return Shown(least, 2 * major * s, (2 * (major - tube) * s, 2 * (major + tube) * s), most)


def _seam_places(wide: float, high: float, blank: Blank) -> list[tuple[float, float]]:
    turns = [(2 * k + 1) * blank.mitre - pi / 2 for k in range(blank.segments)]
    off = [wide * high / hypot(high * cos(turn), wide * sin(turn)) for turn in turns]
    return [(r * cos(turn), r * sin(turn)) for r, turn in zip(off, turns, strict=True)]


def shown_on_ring(layer: Layer, allowance: float) -> Shown:
    """At the widest finished radius of the ring, between the strips or gaps that part its segments."""
    ring = layer.ring
    radius = max(ring.outer - allowance, ring.core)
    aside = asin(min(1.0, ring.spacer / (2 * radius)))
    across = 2 * radius * sin(max(0.0, pi / ring.segments - aside))
    return Shown(across, ring.height, (ring.height, ring.height), across)
