"""A shape as the page draws it: half section, contours, surface laid flat; and what of its section can be dragged."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from math import pi

import numpy as np

from geometry.bodies.torus import flat_normals
from geometry.bodies.tube import Tube
from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from jigs.asked.job import TorusJob
from jigs.looks.form import Form, form_of
from jigs.looks.lid import over, shown_knob, turned_over
from jigs.looks.mistakes import Mistakes
from jigs.looks.picture import png
from jigs.looks.surface import paint_of, surface_of
from jigs.looks.unrolled import LINE, true_height, unrolled
from jigs.looks.views import cameras, drawn
from jigs.page import contract
from jigs.page.vessel_handles import DOWN, OUT, TURNED, UP, handle_of, not_dragged, vessel_handles, way_of
from jigs.page.woods import legend, rings_of
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape, VesselShape

DEVIATION = 0.05  # mm, from the outline to the chords that are turned about the axis
LONGEST = 1 / 120  # of the outline's length
WIDTH, COARSE = 512, 192  # of the pattern, pixels: at once, and while something is dragged
FINE = 1024  # and when nothing has changed for a while
PICTURE = 480  # longer side of a drawn picture, pixels


def drawing_of(shape: Shape, coarse: bool = False) -> contract.Drawing:
    """All pictures of a shape, `coarse` to have them sooner."""
    form = form_of(shape)
    return contract.Drawing(
        _form(form), section_of(shape), _pattern(shape, form, COARSE if coarse else WIDTH)
    )


def section_of(shape: Shape) -> contract.SectionView:
    """Its lines and what of them can be dragged."""
    loops = by_form(shape, torus=_torus_loops, vessel=_vessel_loops)
    return contract.SectionView(loops, handles_of(shape), without_handle(shape))


def picture_of(shape: Shape) -> bytes:
    """The finished form from above, as a PNG."""
    form, surface = form_of(shape), surface_of(shape)
    camera = cameras(form.meridian, form.upright, PICTURE, form.lid)["perspective"]
    solid = turned_over(form.solid) if form.lid else form.solid
    return png(next(iter(drawn(solid, camera, [paint_of(surface, LINE / camera.scale, form.lid)]))))


def _form(form: Form) -> contract.FormView:
    line = form.meridian
    outline = line.at(line.chords(DEVIATION, line.length * LONGEST))
    (radius, height), (out, up) = outline.points.T, outline.normals.T
    v = 1 - outline.along / line.length
    return contract.FormView(
        _rounded(radius, 3), _rounded(height, 3), _rounded(out, 4), _rounded(up, 4), _rounded(v, 5), form.lid
    )


def _rounded(numbers: FloatArray, digits: int) -> list[float]:
    found: list[float] = np.round(numbers, digits).tolist()
    return found


def _loop(id: str, role: contract.Role, rows: FloatArray) -> contract.Loop:
    points: list[list[float]] = np.round(rows, 6).tolist()
    return contract.Loop(id, role, points)


def _tube(id: str, role: contract.Role, x: float, tube: Tube) -> contract.Loop:
    return _loop(id, role, np.array(tube.rows(x)))


def _polygon(id: str, role: contract.Role, x: float, apothem: float, count: int) -> contract.Loop:
    angles = flat_normals(count) + pi / count
    corners = apothem / np.cos(pi / count) * np.column_stack((np.cos(angles), np.sin(angles), 0 * angles))
    return _loop(id, role, corners + np.array([x, 0.0, 0.0]))


def _torus_loops(shape: TorusShape) -> list[contract.Loop]:
    """In the middle plane of a wedge ring."""
    blank, form = shape.blank, shape.job.form
    loops = [_polygon("blank", "blank", blank.centre, blank.apothem, blank.segments)]
    if blank.core_apothem > 0:
        loops.append(_polygon("core", "core", blank.centre, blank.core_apothem, blank.segments))
    return [
        *loops,
        _tube("allowance", "allowance", form.major_radius, form.rough),
        _tube("finished", "finished", form.major_radius, form.tube),
    ]


def _vessel_loops(shape: VesselShape) -> list[contract.Loop]:
    """Rings cut through the middles of their segments."""
    loops = []
    for layer in shape.stack.layers:
        ring = layer.filled
        box = [
            (ring.core, ring.bottom),
            (ring.outer, ring.bottom),
            (ring.outer, ring.top),
            (ring.core, ring.top),
        ]
        loops.append(_loop(f"ring-{ring.number}", "blank", np.array([(*point, 0.0) for point in box])))
    grown: Contour = shape.section.dilated(shape.stack.allowance)
    return [
        *loops,
        _loop("allowance", "allowance", grown.vertices),
        _loop("finished", "finished", shape.section.contour.vertices),
        *([_loop("knob", "knob", over(knob.contour.vertices))] if (knob := shown_knob(shape)) else []),
    ]


def pattern_of(shape: Shape, width: int = WIDTH, mistakes: Mistakes | None = None) -> contract.PatternView:
    """The surface laid flat, with mistakes put in."""
    return _pattern(shape, form_of(shape), width, mistakes)


def _pattern(shape: Shape, form: Form, width: int, mistakes: Mistakes | None = None) -> contract.PatternView:
    line = form.meridian
    height = true_height(line, form.whole, width)
    picture = unrolled(surface_of(shape, mistakes=mistakes), line, form.whole, width, height)
    stretches = [
        contract.Stretch(one.name, round(1 - one.top / line.length, 5), round(1 - one.foot / line.length, 5))
        for one in form.sheets
    ]
    return contract.PatternView(
        png=base64.b64encode(png(picture)).decode(),
        width=width,
        height=height,
        around=2 * pi * line.largest_radius,
        along=line.length,
        centre=by_form(shape, torus=lambda own: own.blank.centre, vessel=lambda _: 0.0),
        stretches=stretches,
        rings=rings_of(shape),
        woods=legend(shape),
    )


OUTER, TUBE, HOLE = "form.outer_diameter", "form.tube_diameter", "form.hole_diameter"
HEIGHT = "form.tube_height"


def handles_of(shape: Shape) -> list[contract.Handle]:
    return [*by_form(shape, torus=_torus, vessel=vessel_handles)]


def without_handle(shape: Shape) -> list[str]:
    """What of the section cannot be dragged, each with its reason, as people read it."""
    return [*by_form(shape, torus=_not_dragged, vessel=not_dragged)]


def _torus(shape: TorusShape) -> Iterator[contract.Handle]:
    """Rim, hole and tube, two of which are stated; the core; the ring where its size is."""
    job, blank = shape.job, shape.blank
    major, tube, high = job.form.major_radius, job.form.tube_radius, job.form.tube.high
    yield handle_of("rim", major + tube, 0.0, _rim(job))
    yield handle_of("hole", major - tube, 0.0, _hole(job))
    if HEIGHT in job.places:
        bend = contract.Bend(TURNED, True, (major, 0.0), rise=1 / high)
        yield handle_of("tube-height", major, high, way_of(HEIGHT, "Tube height", UP, 2.0, 2 * high, bend))
    elif TUBE in job.places:
        yield handle_of("tube", major, tube, _tube_size(job, UP, 2.0))
    if blank.core_apothem > 0:
        grow = 1 / blank.core_apothem
        bend = contract.Bend(["core"], False, (blank.centre, 0.0), grow, grow)
        way = way_of("form.core_opening", "Core, across its flats", DOWN, 2.0, 2 * blank.core_apothem, bend)
        yield handle_of("core", blank.centre, -blank.core_apothem, way)
    if job.form.ring_across_flats is not None:
        grow = 1 / blank.apothem
        bend = contract.Bend(["blank"], False, (blank.centre, 0.0), grow, grow)
        way = way_of("form.ring_across_flats", "Ring, across its flats", DOWN, 2.0, 2 * blank.apothem, bend)
        yield handle_of("ring", blank.centre, -blank.apothem, way)


def _not_dragged(shape: TorusShape) -> Iterator[str]:
    job = shape.job
    if TUBE not in job.places:
        yield "The tube follows from the outer diameter and the hole: drag these."
    if job.form.ring_across_flats is None:
        yield "The ring is as small as the form allows: give Ring across flats under Shape to drag it."


def _rim(job: TorusJob) -> contract.Way:
    form = job.form
    if OUTER not in job.places:
        return _tube_size(job, OUT, 1.0)
    if TUBE in job.places:
        return way_of(OUTER, "Outer diameter", OUT, 2.0, form.outer_diameter, _moved(1.0))
    return way_of(OUTER, "Outer diameter", OUT, 2.0, form.outer_diameter, _grown(job, 0.5, 0.5))


def _hole(job: TorusJob) -> contract.Way:
    form = job.form
    if HOLE not in job.places:
        return _tube_size(job, OUT, -1.0)
    bend = _moved(1.0) if TUBE in job.places else _grown(job, 0.5, -0.5)
    return way_of(HOLE, "Hole diameter", OUT, 2.0, 2 * (form.major_radius - form.tube_radius), bend)


def _tube_size(job: TorusJob, along: tuple[float, float], rate: float) -> contract.Way:
    """The tube's diameter; where the rim is stated it grows inward, else outward."""
    out = -rate / 2 if OUTER in job.places else rate / 2
    return way_of(TUBE, "Tube diameter", along, rate, job.form.tube_diameter, _grown(job, out, rate / 2))


def _moved(share: float) -> contract.Bend:
    """The whole ring, out from the axis."""
    return contract.Bend([*TURNED, "blank", "core"], True, out=[(0.0, share)])


def _grown(job: TorusJob, out: float, radius: float) -> contract.Bend:
    """The tube, its centre out from the axis and its radius, mm for each that is dragged; a stated height stays."""
    grow = radius / job.form.tube_radius
    rise = 0.0 if HEIGHT in job.places else grow
    return contract.Bend([*TURNED, "blank"], True, (job.form.major_radius, 0.0), grow, rise, out=[(0.0, out)])
