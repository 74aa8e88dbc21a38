"""The blank's share of the plan."""

from __future__ import annotations

from geometry.bodies.torus import Blank, apothem_needed, centre_play, least_apothem, wall_left
from geometry.records import replace
from jigs.asked.defaults import default_clean_up
from jigs.asked.job import TorusJob
from jigs.measured.glued import glued_wedges

# mm of a segment's inner edge beside strips: a sharper tip breaks. Common practice, no source.
LEAST_INNER = 1.0


def solve_blank(job: TorusJob) -> Blank:
    """The least ring that holds the form with its allowance, or the turner's own, centred in its play; or as rings that
    are glued already have it."""
    form = job.form
    shape = (form.major_radius, form.rough, form.wedge_rings, form.segments)
    apothem, centre = least_apothem(*shape)
    if form.ring_across_flats is not None:
        apothem = form.ring_across_flats / 2
        centre = sum(centre_play(*shape, apothem)) / 2
    planned = Blank(
        form.wedge_rings, form.segments, apothem, form.core_opening / 2, centre, form.spacer, form.ring_spacer
    )
    glued = glued_wedges(job, planned)
    return replace(planned, apothem=glued.apothem, centre=glued.centre) if glued else planned


def margins(job: TorusJob, blank: Blank) -> tuple[float, ...]:
    """Wood beyond the allowance at each flat, the first flat straight down."""
    form = job.form
    needed = apothem_needed(form.major_radius, form.rough, form.wedge_rings, form.segments, blank.centre)
    return tuple(float(margin) for margin in blank.apothem - needed)


def wall(job: TorusJob, blank: Blank) -> float:
    """Wood left between the core and the finished surface."""
    form = job.form
    shape = (form.major_radius, form.tube, form.wedge_rings, form.segments)
    return wall_left(*shape, blank.centre, blank.core_apothem)


def clean_up(job: TorusJob, kerf: float) -> float:
    """Wood cut off each face of a wedge ring."""
    asked = job.form.clean_up
    return default_clean_up(kerf, job.unit) if asked is None else asked
