"""What of a section can be dragged, and which values of the job file that changes."""

from __future__ import annotations

from collections.abc import Iterator

from jigs.asked.job import TorusJob
from jigs.page.contract import Bend, Handle, Way
from jigs.page.handle import DOWN, OUT, TURNED, UP, handle_of, way_of
from jigs.page.vessel_handles import not_dragged, vessel_handles
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape

OUTER, TUBE, HOLE = "form.outer_diameter", "form.tube_diameter", "form.hole_diameter"
HEIGHT = "form.tube_height"


def handles_of(shape: Shape) -> list[Handle]:
    return [*by_form(shape, torus=_torus, vessel=vessel_handles)]


def without_handle(shape: Shape) -> list[str]:
    """What of the section cannot be dragged, each with its reason, as people read it."""
    return [*by_form(shape, torus=_not_dragged, vessel=not_dragged)]


def _torus(shape: TorusShape) -> Iterator[Handle]:
    """Rim, hole and tube, two of which are stated; the core; the ring where its size is."""
    job, blank = shape.job, shape.blank
    major, tube, high = job.form.major_radius, job.form.tube_radius, job.form.tube.high
    yield handle_of("rim", major + tube, 0.0, _rim(job))
    yield handle_of("hole", major - tube, 0.0, _hole(job))
    if HEIGHT in job.places:
        bend = Bend(TURNED, True, (major, 0.0), rise=1 / high)
        yield handle_of("tube-height", major, high, way_of(HEIGHT, "Tube height", UP, 2.0, 2 * high, bend))
    elif TUBE in job.places:
        yield handle_of("tube", major, tube, _tube_size(job, UP, 2.0))
    if blank.core_apothem > 0:
        grow = 1 / blank.core_apothem
        bend = Bend(["core"], False, (blank.centre, 0.0), grow, grow)
        way = way_of("form.core_opening", "Core, across its flats", DOWN, 2.0, 2 * blank.core_apothem, bend)
        yield handle_of("core", blank.centre, -blank.core_apothem, way)
    if job.form.ring_across_flats is not None:
        grow = 1 / blank.apothem
        bend = Bend(["blank"], False, (blank.centre, 0.0), grow, grow)
        way = way_of("form.ring_across_flats", "Ring, across its flats", DOWN, 2.0, 2 * blank.apothem, bend)
        yield handle_of("ring", blank.centre, -blank.apothem, way)


def _not_dragged(shape: TorusShape) -> Iterator[str]:
    job = shape.job
    if TUBE not in job.places:
        yield "The tube follows from the outer diameter and the hole: drag these."
    if job.form.ring_across_flats is None:
        yield "The ring is as small as the form allows: give Ring across flats under Shape to drag it."


def _rim(job: TorusJob) -> Way:
    form = job.form
    if OUTER not in job.places:
        return _tube_size(job, OUT, 1.0)
    if TUBE in job.places:
        return way_of(OUTER, "Outer diameter", OUT, 2.0, form.outer_diameter, _moved(1.0))
    return way_of(OUTER, "Outer diameter", OUT, 2.0, form.outer_diameter, _grown(job, 0.5, 0.5))


def _hole(job: TorusJob) -> Way:
    form = job.form
    if HOLE not in job.places:
        return _tube_size(job, OUT, -1.0)
    bend = _moved(1.0) if TUBE in job.places else _grown(job, 0.5, -0.5)
    return way_of(HOLE, "Hole diameter", OUT, 2.0, 2 * (form.major_radius - form.tube_radius), bend)


def _tube_size(job: TorusJob, along: tuple[float, float], rate: float) -> Way:
    """The tube's diameter; where the rim is stated it grows inward, else outward."""
    out = -rate / 2 if OUTER in job.places else rate / 2
    return way_of(TUBE, "Tube diameter", along, rate, job.form.tube_diameter, _grown(job, out, rate / 2))


def _moved(share: float) -> Bend:
    """The whole ring, out from the axis."""
    return Bend([*TURNED, "blank", "core"], True, out=[(0.0, share)])


def _grown(job: TorusJob, out: float, radius: float) -> Bend:
    """The tube, its centre out from the axis and its radius, mm for each that is dragged; a stated height stays."""
    grow = radius / job.form.tube_radius
    rise = 0.0 if HEIGHT in job.places else grow
    return Bend([*TURNED, "blank"], True, (job.form.major_radius, 0.0), grow, rise, out=[(0.0, out)])
