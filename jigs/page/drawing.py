"""A shape as the page draws it: half section, contours, surface laid flat."""

from __future__ import annotations

import base64
from math import pi

import numpy as np

from geometry.bodies.torus import flat_normals
from geometry.bodies.tube import Tube
from geometry.plane.arcs import FloatArray
from geometry.plane.contour import Contour
from jigs.looks.form import Form, form_of
from jigs.looks.lid import over, shown_knob, turned_over
from jigs.looks.mistakes import Mistakes
from jigs.looks.picture import png
from jigs.looks.surface import paint_of, surface_of
from jigs.looks.unrolled import LINE, true_height, unrolled
from jigs.looks.views import cameras, drawn
from jigs.page.contract import Drawing, FormView, Loop, PatternView, Role, SectionView, Stretch
from jigs.page.handles import handles_of, without_handle
from jigs.page.woods import legend, rings_of
from jigs.plans.plan import Shape, by_form
from jigs.plans.shape import TorusShape, VesselShape

DEVIATION = 0.05  # mm, from the outline to the chords that are turned about the axis
LONGEST = 1 / 120  # of the outline's length
WIDTH, COARSE = 512, 192  # of the pattern, pixels: at once, and while something is dragged
FINE = 1024  # and when nothing has changed for a while
PICTURE = 480  # longer side of a drawn picture, pixels


def drawing_of(shape: Shape, coarse: bool = False) -> Drawing:
    """All pictures of a shape, `coarse` to have them sooner."""
    form = form_of(shape)
    return Drawing(_form(form), section_of(shape), _pattern(shape, form, COARSE if coarse else WIDTH))


def section_of(shape: Shape) -> SectionView:
    """Its lines and what of them can be dragged."""
    loops = by_form(shape, torus=_torus_loops, vessel=_vessel_loops)
    return SectionView(loops, handles_of(shape), without_handle(shape))


def picture_of(shape: Shape) -> bytes:
    """The finished form from above, as a PNG."""
    form, surface = form_of(shape), surface_of(shape)
    camera = cameras(form.meridian, form.upright, PICTURE, form.lid)["perspective"]
    solid = turned_over(form.solid) if form.lid else form.solid
    return png(next(iter(drawn(solid, camera, [paint_of(surface, LINE / camera.scale, form.lid)]))))


def _form(form: Form) -> FormView:
    line = form.meridian
    outline = line.at(line.chords(DEVIATION, line.length * LONGEST))
    (radius, height), (out, up) = outline.points.T, outline.normals.T
    v = 1 - outline.along / line.length
    return FormView(
        _rounded(radius, 3),
        _rounded(height, 3),
        _rounded(out, 4),
        _rounded(up, 4),
        _rounded(v, 5),
        form.lid,
    )


def _rounded(numbers: FloatArray, digits: int) -> list[float]:
    found: list[float] = np.round(numbers, digits).tolist()
    return found


def _loop(id: str, role: Role, rows: FloatArray) -> Loop:
    points: list[list[float]] = np.round(rows, 6).tolist()
    return Loop(id, role, points)


def _tube(id: str, role: Role, x: float, tube: Tube) -> Loop:
    return _loop(id, role, np.array(tube.rows(x)))


def _polygon(id: str, role: Role, x: float, apothem: float, count: int) -> Loop:
    angles = flat_normals(count) + pi / count
    corners = apothem / np.cos(pi / count) * np.column_stack((np.cos(angles), np.sin(angles), 0 * angles))
    return _loop(id, role, corners + np.array([x, 0.0, 0.0]))


def _torus_loops(shape: TorusShape) -> list[Loop]:
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


def _vessel_loops(shape: VesselShape) -> list[Loop]:
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


def pattern_of(shape: Shape, width: int = WIDTH, mistakes: Mistakes | None = None) -> PatternView:
    """The surface laid flat, with mistakes put in."""
    return _pattern(shape, form_of(shape), width, mistakes)


def _pattern(shape: Shape, form: Form, width: int, mistakes: Mistakes | None = None) -> PatternView:
    line = form.meridian
    height = true_height(line, form.whole, width)
    picture = unrolled(surface_of(shape, mistakes=mistakes), line, form.whole, width, height)
    stretches = [
        Stretch(one.name, round(1 - one.top / line.length, 5), round(1 - one.foot / line.length, 5))
        for one in form.sheets
    ]
    return PatternView(
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
