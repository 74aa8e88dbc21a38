"""The pieces of a layup, worked out anew from the job: a segment's sides, halved where mirrored, and the sanding."""

from __future__ import annotations

from math import cos, pi, tan

from geometry.records import dataclass
from jigs.asked.defaults import default_clean_up
from jigs.asked.job import TorusJob
from jigs.asked.job_wood import LayupWish
from jigs.dryfit.ring import CutRing

SIDE = 0.05  # mm, of a piece


@dataclass(frozen=True)
class Sides:
    """A piece as cut, and a segment of such pieces as glued."""

    a: float
    b: float
    columns: int
    rows: int
    sanding: float
    height: float  # of the stack that it is cut from: the side that is neither a nor b

    @property
    def done(self) -> tuple[float, float]:
        return (self.a - (self.columns - 1) * self.sanding, self.b - (self.rows - 1) * self.sanding)


def sides(wish: LayupWish, edge: float, length: float, depth: float) -> Sides:
    """Of a segment as cut: its outer edge, its length along the tube or the height, its depth."""
    plane = wish.plane
    columns = 1 + (plane != "end" and wish.mirrored in ("left and right", "both"))
    rows = 1 + (plane != "face" and wish.mirrored in ("up and down", "both"))
    a, b = depth if plane == "end" else edge, depth if plane == "face" else length
    more = wish.sanding
    height = {"flat": depth, "end": edge, "face": length}[plane]
    return Sides(
        a / columns + (columns - 1) * more, b / rows + (rows - 1) * more, columns, rows, more, height
    )


def torus_sides(job: TorusJob, ring: CutRing, apothem: float) -> list[Sides]:
    """Of the one size of segments that wedge rings as the drawn sled cuts them are made of."""
    if job.layup is None:
        return []
    mitre, wedge, form = pi / job.form.segments, pi / job.form.wedge_rings, job.form
    kerf = (
        job.workshop.saw.kerf if job.workshop.cutting.wedge_rings != "bandsaw" else job.workshop.bandsaw.kerf
    )
    clean = default_clean_up(kerf, job.unit) if form.clean_up is None else form.clean_up
    thick = ring.thick + 2 * form.face_sanding / cos(wedge) + 2 * clean + form.flattening
    edge = 2 * apothem * tan(mitre) + 2 * form.joint_sanding / cos(mitre)
    return [sides(job.layup, edge, thick, apothem - form.core_opening / 2)]
