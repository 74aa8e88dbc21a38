"""What the plates with a profile for a working edge have in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from geometry.plane.contour import Contour
from geometry.plane.profile import Profile
from jigs.parts.beds import lies_on
from jigs.parts.gauges.plate import printed_gauge
from jigs.parts.gauges.ticks import Tick, tick_marks
from jigs.parts.part import Bevel, Dimension, Lettering, Mark, Part, ProfileForm, Words
from jigs.parts.places import NoRoom, lettered, place, raised_height, raised_width
from jigs.plans.vessel import VesselPlan

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
