"""Working edges of gauges: the plates that have them, marked heights along them, and their tips.

A slicer prints what is thinner than its lines too wide, or not at all. So a tip is cut square where it is narrower than
two lines. Measured in PrusaSlicer, nozzle 0.4 mm, both ways of making walls, tips of 10 to 40 degrees: none reached
past its end, but those under 25 degrees stood up to 0.15 mm out of their edges. Cut square, of 4 to 30 degrees: 0.03 mm
at most (tests/clients/test_printed_tips.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import radians, tan

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.nearest import Table, distances
from geometry.plane.profile import Profile
from geometry.records import Record, replace
from geometry.strokes.lettering import text_width
from jigs.asked.job_shop import Workshop
from jigs.parts.gauges.plate import printed_gauge
from jigs.parts.part import Bevel, Dimension, Lettering, Line, Mark, Part, Point, Words
from jigs.parts.places import NoRoom, lettered, place, raised_height, raised_width
from jigs.parts.probes import ProfileForm
from jigs.parts.proof import lies_on
from jigs.plans.vessel import VesselPlan
from jigs.words.lengths import Unit, show_length

LENGTH = 6.0  # of a tick, mm
GAPS = (1.5, 2.5, 4.0, 6.0, 9.0, 13.0)  # from the edge to its tick: the nearest that keeps clear is taken
TO_TEXT = 1.5
PITCH = 1.7  # of the lettering, in cap heights: what stands nearer to another is left out
CLEAR = 1.2  # mm of a stroke's middle line from the plate's edges and holes
SAME = 0.05  # mm left by a gauge, under which the work measures what it does when finished
BRACKETS = "Ø NOW (FINISHED)"
SIZES = "The sizes along its edge are what the work measures there at this stage, and in brackets when it is finished."
STEP = 2.0  # mm between the places of a box that are looked at


class Tick(Record):
    """A height, what stands there, and the diameter there: of the work at a stage, and finished."""

    height: float
    diameter: float
    finished: float
    name: str


def tick_marks(
    ticks: Sequence[Tick], edge: Profile, side: int, outline: Contour, holes: Sequence[Contour],
    height: float, unit: Unit,
) -> tuple[Mark, ...]:  # fmt: skip
    """Ticks and their lettering beside a working edge; the plate is to its right (`side` +1) or left (-1).

    Those for which there is no room are left out, the last named first.
    """
    kept: list[float] = []
    marks: list[Mark] = []
    edges = Table.of([edge for contour in (outline, *holes) for edge in contour.edges()])
    for tick in ticks:
        on_edge = edge.bottom <= tick.height <= edge.top
        if on_edge and all(abs(tick.height - other) >= PITCH * height for other in kept):
            found = _beside(tick, edge.radius_at(tick.height), side, outline, edges, height, unit)
            marks += found
            kept += [tick.height] if found else []
    return tuple(marks)


def _beside(
    tick: Tick, x: float, side: int, outline: Contour, edges: Table, height: float, unit: Unit
) -> list[Mark]:
    """One tick and its lettering, as near to the edge as both keep clear; nothing where they cannot."""
    for text in _texts(tick, unit):
        first, *tries = (_at(tick, x, side, gap, text, height) for gap in GAPS)
        if _clear(*first, outline, edges):
            return list(first)
        ends = np.array([[*line.points, *_corners(label)] for line, label in tries])
        on_plate = outline.contains(ends).reshape(len(tries), -1).all(axis=1)
        for line, label in (tries[k] for k in np.flatnonzero(on_plate)):
            if _clear(line, label, outline, edges):
                return [line, label]
    return []


def _at(tick: Tick, x: float, side: int, gap: float, text: str, height: float) -> tuple[Line, Lettering]:
    """A tick so far from the edge, and its lettering."""
    start, end = x + side * gap, x + side * (gap + LENGTH)
    left = end + TO_TEXT if side > 0 else end - TO_TEXT - text_width(text, height)
    line = Line(((start, tick.height), (end, tick.height)), tick.name)
    return line, Lettering(text, (left, tick.height - height / 2), height)


def _corners(label: Lettering) -> list[Point]:
    """Of its box."""
    (x, y), wide = label.origin, text_width(label.text, label.height)
    return [(x, y), (x + wide, y), (x, y + label.height), (x + wide, y + label.height)]


def _texts(tick: Tick, unit: Unit) -> tuple[str, ...]:
    """What the work measures now, with the finished size in brackets, or without where there is no room."""
    now, finished = (diameter_text(mm, unit) for mm in (tick.diameter, tick.finished))
    return (f"Ø {now}",) if now == finished else (f"Ø {now} ({finished})", f"Ø {now}")


def diameter_text(mm: float, unit: Unit) -> str:
    """A diameter without its unit: tenths of mm, or thousandths of an inch."""
    return f"{mm:.1f}" if unit == "mm" else show_length(mm, unit, exact=True).removesuffix(" in")


def _clear(line: Line, label: Lettering, outline: Contour, edges: Table) -> bool:
    """Whether a tick and its lettering's box lie on the plate, clear of its edges and holes."""
    (left, low), wide, high = label.origin, text_width(label.text, label.height), label.height
    across = [left + wide * share for share in _shares(wide)]
    up = [low + high * share for share in _shares(high)]
    level = [(x, y) for y in (low, low + high) for x in across]
    upright = [(x, y) for x in (left, left + wide) for y in up]
    points = np.array([*line.points, *level, *upright])
    near = edges.only(edges.meeting(points.min(axis=0) - CLEAR, points.max(axis=0) + CLEAR))
    if not len(near):
        return bool(outline.contains(points[:1])[0])
    return bool(outline.contains(points).all() and distances(near, points).min() >= CLEAR)


def _shares(size: float) -> list[float]:
    """The places of a side that are looked at, its ends among them."""
    last = max(2, round(size / STEP)) - 1
    return [k / last for k in range(last + 1)]


WIDTH = 2.0  # nozzles: a tip narrower than this is cut off
SHARP = radians(25)  # wider corners are printed as drawn
HALVINGS = 40  # to a height


class Blunted(Record):
    """A working edge without its tips; the corners (mm) of the square cuts below and above it."""

    edge: Profile
    below: tuple[Point, ...] = ()
    above: tuple[Point, ...] = ()
    lost: tuple[tuple[float, float], ...] = ()  # diameters from and to which nothing guides

    def notes(self, unit: Unit) -> tuple[str, ...]:
        """What the turner has to do without the tips."""
        return tuple(
            "Its tip is cut square, for a printer makes so thin a tip too thick. No edge guides you from "
            f"{show_length(min(ends), unit)} to {show_length(max(ends), unit)} across: carry the curve on by eye."
            for ends in self.lost
        )


def blunted(edge: Profile, shop: Workshop, stand: float | None = None) -> Blunted:
    """The edge of a plate that lies right of it, level at both ends; at its lower one as far as a foot at a radius.

    A gauge cut from sheet keeps its tips.
    """
    if shop.made.gauges != "print":
        return Blunted(edge)
    width = min(WIDTH * shop.printer.nozzle, (edge.top - edge.bottom) / 3)
    low, high = _cut(edge, edge.bottom, width, stand), _cut(edge, edge.top, -width)
    if not low and not high:
        return Blunted(edge)
    left = edge.between(edge.bottom + low, edge.top - high)
    return Blunted(
        left,
        ((left.start[0], edge.bottom),) if low else (),
        ((left.end[0], edge.top),) if high else (),
        (
            *(((2 * edge.start[0], 2 * left.start[0]),) if low else ()),
            *(((2 * edge.end[0], 2 * left.end[0]),) if high else ()),
        ),
    )


def _cut(edge: Profile, end: float, width: float, stand: float | None = None) -> float:
    """Height to take off at an end; 0 where its corner is printed as drawn."""
    tip, reach = edge.radius_at(end), edge.radius_at(end + width)
    if abs(width) >= (reach - tip) * tan(SHARP):
        return 0.0
    if stand is None or reach <= stand:
        return abs(width)
    low, high = 0.0, width  # the plate goes on under the edge from its foot on: cut it there
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if edge.radius_at(end + middle) < stand else (low, middle)
    return low


FEW = 2  # ticks where there is room for no more
LEAST_RAISED = 0.8  # of the usual cap height: rather than smaller text, fewer ticks


def form_of(edge: Profile) -> Dimension:
    """How far a working edge is out."""
    rows = tuple((x, y, bulge) for x, y, bulge in edge.vertices.tolist())
    return Dimension("working edge, out by", 0.0, ProfileForm(rows))


def edge_plate(
    plan: VesselPlan, name: str, purpose: str, outline: Contour, holes: Sequence[Contour],
    marks: Sequence[Mark | Words], dimensions: Sequence[Dimension], notes: Sequence[str],
    bevel: Bevel | None = None,
) -> Part:  # fmt: skip
    """A printed gauge with one hole or more; smaller lettering has strokes narrower by as much."""
    put = tuple(mark for mark in marks if not isinstance(mark, Words))
    part = printed_gauge(plan, name, purpose, outline, holes[0], put, tuple(dimensions), tuple(notes), bevel)
    printer = plan.job.workshop.printer
    full = raised_height(printer)
    least = min((mark.height for mark in put if isinstance(mark, Lettering)), default=full)
    return replace(
        part,
        holes=tuple(holes),
        words=tuple(mark for mark in marks if isinstance(mark, Words)),
        mark_width=raised_width(printer) * min(1.0, least / full),
    )


def marked(
    plan: VesselPlan, edge: Profile, outline: Contour, holes: Sequence[Contour],
    ticks: Sequence[Tick], text: Sequence[str],
) -> tuple[Mark | Words, ...]:  # fmt: skip
    """Ticks right of an edge, and text: title first. Where not all has room, joints go, then stations."""
    height = raised_height(plan.job.workshop.printer)
    ticks = [tick for tick in ticks if edge.bottom <= tick.height <= edge.top]
    stations = [tick for tick in ticks if not tick.name.startswith("joint")]
    x0, y0, x1, y1 = outline.bounds
    near = None
    if not lies_on((x1 - x0, y1 - y0), plan.job.workshop.printer.bed):  # leave room for a joint
        ticks, stations, near = stations[:FEW], stations[:FEW], (x1, (y0 + y1) / 2)
    smaller: tuple[Mark, ...] = ()
    fewer = [ticks, *(stations[:count] for count in range(len(stations), 0, -1)), ()]
    for wanted, lines in (*((some, text) for some in fewer), ((), text[1:])):
        beside = tick_marks(wanted, edge, 1, outline, holes, height, plan.job.unit)
        try:
            label = place(lettered(outline, holes, (), lines, near, height)[0], beside)
        except NoRoom:
            continue
        if label[0].height >= LEAST_RAISED * height:
            return (*beside, *label)
        smaller = smaller or (*beside, *label)
    return smaller or lettered(outline, holes, (), text, near, height)
