"""A small plate to measure the machine by: outsides, insides, holes, an arc, a tab and notches.

x runs to the right, y up; the lower left corner of the plate without its tab is the origin.
"""

from __future__ import annotations

from math import pi

from geometry.plane.arcs import bulge_from_angle
from geometry.plane.contour import Contour, circle, rectangle
from geometry.plane.contour import outline as contour
from jigs.parts.labels import centred, raised_rise, raised_width
from jigs.parts.marked import as_lines
from jigs.parts.part import (
    ArcRadius,
    Dimension,
    EdgeGap,
    Extent,
    HoleDiameter,
    Lettering,
    Part,
    Point,
    Thickness,
)
from jigs.parts.places import hang_hole, lettered
from jigs.plans.plan import Plan

LENGTHS = (10.0, 20.0, 40.0, 80.0)  # outside and inside
HOLES = (4.0, 8.0, 10.0, 15.0)
PLAYS = (0.0, 0.05, 0.1, 0.15, 0.2, 0.3)  # of the notches over the tab
TAB = 10.0
DEEP = 7.0  # a notch; a tab is 1 mm shorter
PITCH = 16.0
WIDTH, HEIGHT = 110.0, 98.0  # of the plate under the steps
STEP = 10.0  # height of one outside step
RADIUS = 25.0
TAB_AT = 58.0  # height of the tab's middle
WINDOWS = ((10.0, 18.0, 80.0), (10.0, 36.0, 40.0), (56.0, 36.0, 20.0), (84.0, 36.0, 10.0))  # x, y, length
SLOT = 8.0  # height of a window
HOLE_MIDDLES: tuple[Point, ...] = ((12.0, 62.0), (28.0, 62.0), (46.0, 62.0), (68.0, 62.0))
TEXT = 4.0


def coupon(plan: Plan) -> list[Part]:
    """Two alike: the tab of one is tried in the notches of the other."""
    printer, plate = plan.job.workshop.printer, plan.gauges.plate
    outline = _outline()
    drilled = [circle(at, d / 2).cw() for at, d in zip(HOLE_MIDDLES, HOLES, strict=True)]
    holes = [*(rectangle(x, y, x + long, y + SLOT).cw() for x, y, long in WINDOWS), *drilled]
    hang = hang_hole(outline, holes, (WIDTH, TAB_AT + 10))
    values = _values()
    text = lettered(
        outline,
        (*holes, hang),
        as_lines(values),
        (plan.job.title.upper(), "COUPON: MEASURE ALL OF IT"),
        near=(WIDTH / 2, HEIGHT - 12),
        height=TEXT,
    )
    x0, y0, x1, y1 = outline.bounds
    return [
        Part(
            name="coupon",
            family="coupon",
            purpose="what the machine does to outsides, insides, holes, an arc and a fit",
            process="print",
            material="the material of the jigs, flat on the bed, no supports",
            outline=outline,
            thickness=plate,
            holes=(*holes, hang),
            marks=tuple(values),
            words=text,
            dimensions=(
                *_outsides(),
                *_insides(),
                *_fits(),
                Dimension("arc radius", RADIUS, ArcRadius(_arc_centre(), 0.0, pi / 2)),
                Dimension("width", x1 - x0, Extent("x")),
                Dimension("height", y1 - y0, Extent("y")),
                Dimension("thickness", plate, Thickness()),
            ),
            quantity=2,
            mark_width=min(raised_width(printer), max(printer.nozzle, 0.8)),
            mark_height=raised_rise(printer),
        )
    ]


def _arc_centre() -> Point:
    return WIDTH - RADIUS, HEIGHT - RADIUS


def _outline() -> Contour:
    """Notches below, the arc at the right, steps above, the tab at the left."""
    notches = [v for k in range(len(PLAYS)) for v in _notch(k)]
    steps: list[tuple[float, ...]] = []
    for k, long in enumerate(reversed(LENGTHS)):
        low = HEIGHT + STEP * k
        steps += [(long, low), (long, low + STEP)]
    return contour(
        (0.0, 0.0),
        *notches,
        (WIDTH, 0.0),
        (WIDTH, HEIGHT - RADIUS, bulge_from_angle(pi / 2)),
        (WIDTH - RADIUS, HEIGHT),
        *steps,
        (0.0, HEIGHT + STEP * len(LENGTHS)),
        (0.0, TAB_AT + TAB / 2),
        (1.0 - DEEP, TAB_AT + TAB / 2),
        (1.0 - DEEP, TAB_AT - TAB / 2),
        (0.0, TAB_AT - TAB / 2),
    )


def _notch(k: int) -> list[Point]:
    left, right = _notch_sides(k)
    return [(left, 0.0), (left, DEEP), (right, DEEP), (right, 0.0)]


def _notch_sides(k: int) -> tuple[float, float]:
    left = 5.0 + PITCH * k
    return left, left + TAB + PLAYS[k]


def _values() -> list[Lettering]:
    """The nominal sizes, each beside its place."""
    outside = [
        (f"{long:g}", (long / 2, HEIGHT + STEP * (k + 0.5))) for k, long in enumerate(reversed(LENGTHS))
    ]
    inside = [(f"{long:g}", (x + long / 2, y + SLOT + 4.0)) for x, y, long in WINDOWS]
    holes = [(f"Ø{d:g}", (x, y + 12.0)) for (x, y), d in zip(HOLE_MIDDLES, HOLES, strict=True)]
    plays = [
        (f"{play:g}".lstrip("0") or "0", (sum(_notch_sides(k)) / 2, DEEP + 4.5))
        for k, play in enumerate(PLAYS)
    ]
    arc = [(f"R{RADIUS:g}", (WIDTH - 14.0, HEIGHT - 20.0))]
    return [centred(text, at, TEXT) for text, at in (*outside, *inside, *holes, *plays, *arc)]


def _outsides() -> list[Dimension]:
    return [
        Dimension(f"outside {long:g}", long, EdgeGap((0.0, y), (long, y)))
        for k, long in enumerate(reversed(LENGTHS))
        for y in (HEIGHT + STEP * (k + 0.5),)
    ]


def _insides() -> list[Dimension]:
    windows = [
        Dimension(f"inside {long:g}", long, EdgeGap((x, y + SLOT / 2), (x + long, y + SLOT / 2)))
        for x, y, long in WINDOWS
    ]
    holes = [Dimension(f"hole {d:g}", d, HoleDiameter(at)) for at, d in zip(HOLE_MIDDLES, HOLES, strict=True)]
    return [*windows, *holes]


def _fits() -> list[Dimension]:
    out = 1.0 - DEEP / 2
    tab = Dimension("tab", TAB, EdgeGap((out, TAB_AT - TAB / 2), (out, TAB_AT + TAB / 2)))
    notches = [
        Dimension(f"notch with {play:g} mm of play", TAB + play, EdgeGap((left, DEEP / 2), (right, DEEP / 2)))
        for k, play in enumerate(PLAYS)
        for left, right in (_notch_sides(k),)
    ]
    return [tab, *notches]
