"""Coupons to measure a machine by: a small plate with outsides, insides, holes, an arc, and a strip of the sheet.

Plate: of a printer, a tab and notches too. x runs to the right, y up; the lower left corner without its tab is the
origin. Strip: its notches, open upward, are a little wider than the sheet is thick: what play a slot needs.
"""

from __future__ import annotations

from math import pi

from geometry.plane.contour import Contour, circle, outline, rectangle
from geometry.plane.contour import outline as contour
from geometry.plane.edges import bulge_from_angle
from geometry.records import Record, replace
from jigs.asked.readings.machine import THOU
from jigs.parts.part import Dimension, Lettering, Part, Point
from jigs.parts.places import as_lines, centred, hang_hole, lettered, raised_rise, raised_width
from jigs.parts.plate import Plate
from jigs.parts.probes import ArcRadius, EdgeGap, Extent, HoleDiameter, Thickness
from jigs.plans.plan import Plan
from jigs.words.lengths import MM_PER_INCH as INCH
from jigs.words.lengths import Unit, mixed, show_length


class Sizes(Record):
    """What is measured, mm, and how it is lettered and named."""

    unit: Unit
    lengths: tuple[float, ...]  # outside and inside
    holes: tuple[float, ...]
    plays: tuple[float, ...]  # of the notches over the tab
    tab: float
    radius: float

    def lettered(self, size: float) -> str:
        """As a rule or a drill has it, the unit left out."""
        return f"{size:g}" if self.unit == "mm" else mixed(round(64 * size / INCH), 64)

    def play(self, size: float) -> str:
        """As a calliper shows it, the unit left out."""
        return f"{size / (1.0 if self.unit == 'mm' else INCH):g}"

    def named(self, size: float) -> str:
        """In the ids of readings, from which its size is read back: mm, or thousandths of an inch."""
        return f"{size:g}" if self.unit == "mm" else f"{round(1000 * size / INCH)}{THOU}"


SIZES: dict[Unit, Sizes] = {
    "mm": Sizes(
        "mm", (10.0, 20.0, 40.0, 80.0), (4.0, 8.0, 10.0, 15.0), (0.0, 0.05, 0.1, 0.15, 0.2, 0.3), 10.0, 25.0
    ),
    "in": Sizes(
        "in",
        (0.5 * INCH, 0.75 * INCH, 1.5 * INCH, 3 * INCH),
        (0.25 * INCH, 0.375 * INCH, 0.5 * INCH, 0.625 * INCH),
        (0.0, 0.002 * INCH, 0.004 * INCH, 0.006 * INCH, 0.008 * INCH, 0.012 * INCH),
        0.375 * INCH,
        INCH,
    ),
}
DEEP = 7.0  # a notch; a tab is 1 mm shorter
PITCH = 16.0
WIDTH, HEIGHT = 110.0, 90.0  # of the plate under the steps, so that it lies on small beds in one piece
STEP = 7.0  # height of one outside step
TAB_AT = 58.0  # height of the tab's middle
WINDOWS: tuple[Point, ...] = ((84.0, 36.0), (56.0, 36.0), (10.0, 36.0), (10.0, 18.0))  # the shortest first
SLOT = 8.0  # height of a window
HOLE_MIDDLES: tuple[Point, ...] = ((10.0, 62.0), (29.0, 62.0), (48.0, 62.0), (68.0, 62.0))
TEXT = 4.0


def coupon(plan: Plan) -> list[Part]:
    """Two alike of a printer's: the tab of one is tried in the notches of the other. What is cut tells no fit."""
    printer, plate = plan.job.workshop.printer, plan.gauges.plate
    fits, sizes = plan.job.workshop.made.coupon == "print", SIZES[plan.job.unit]
    sizes = sizes if fits else replace(sizes, plays=())
    outline = _outline(sizes)
    drilled = [circle(at, d / 2).cw() for at, d in zip(HOLE_MIDDLES, sizes.holes, strict=True)]
    holes = [*(rectangle(x, y, x + long, y + SLOT).cw() for x, y, long in _windows(sizes)), *drilled]
    hang = hang_hole(outline, holes, (WIDTH, TAB_AT))
    values = _values(sizes)
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
            purpose=f"what the machine does to outsides, insides, holes, an arc{' and a fit' if fits else ''}",
            process="print",
            material="the material of the jigs, flat on the bed, no supports",
            outline=outline,
            thickness=plate,
            holes=(*holes, hang),
            marks=tuple(values),
            words=text,
            dimensions=(
                *_outsides(sizes),
                *_insides(sizes),
                *(_fits(sizes) if fits else ()),
                Dimension("arc radius", sizes.radius, ArcRadius(_arc_centre(sizes), 0.0, pi / 2)),
                Dimension("width", x1 - x0, Extent("x")),
                Dimension("height", y1 - y0, Extent("y")),
                Dimension("thickness", plate, Thickness()),
            ),
            quantity=2 if fits else 1,
            mark_width=min(raised_width(printer), max(printer.nozzle, 0.8)),
            mark_height=raised_rise(printer),
        )
    ]


def _arc_centre(sizes: Sizes) -> Point:
    return WIDTH - sizes.radius, HEIGHT - sizes.radius


def _windows(sizes: Sizes) -> list[tuple[float, float, float]]:
    """x, y and length, the longest first."""
    return [(*at, long) for at, long in zip(WINDOWS, sizes.lengths, strict=True)][::-1]


def _outline(sizes: Sizes) -> Contour:
    """Notches below, the arc at the right, steps above, the tab at the left."""
    notches = [v for k in range(len(sizes.plays)) for v in _notch(sizes, k)]
    steps: list[tuple[float, ...]] = []
    for k, long in enumerate(reversed(sizes.lengths)):
        low = HEIGHT + STEP * k
        steps += [(long, low), (long, low + STEP)]
    return contour(
        (0.0, 0.0),
        *notches,
        (WIDTH, 0.0),
        (WIDTH, HEIGHT - sizes.radius, bulge_from_angle(pi / 2)),
        (WIDTH - sizes.radius, HEIGHT),
        *steps,
        (0.0, HEIGHT + STEP * len(sizes.lengths)),
        *(_tab(sizes) if sizes.plays else ()),
    )


def _tab(sizes: Sizes) -> list[Point]:
    high, low = TAB_AT + sizes.tab / 2, TAB_AT - sizes.tab / 2
    return [(0.0, high), (1.0 - DEEP, high), (1.0 - DEEP, low), (0.0, low)]


def _notch(sizes: Sizes, k: int) -> list[Point]:
    left, right = _notch_sides(sizes, k)
    return [(left, 0.0), (left, DEEP), (right, DEEP), (right, 0.0)]


def _notch_sides(sizes: Sizes, k: int) -> tuple[float, float]:
    left = 5.0 + PITCH * k
    return left, left + sizes.tab + sizes.plays[k]


def _values(sizes: Sizes) -> list[Lettering]:
    """The nominal sizes, each beside its place."""
    outside = [
        (sizes.lettered(long), (long / 2, HEIGHT + STEP * (k + 0.5)))
        for k, long in enumerate(reversed(sizes.lengths))
    ]
    inside = [(sizes.lettered(long), (x + long / 2, y + SLOT + 4.0)) for x, y, long in _windows(sizes)]
    holes = [
        (f"Ø{sizes.lettered(d)}", (x, y + 12.0)) for (x, y), d in zip(HOLE_MIDDLES, sizes.holes, strict=True)
    ]
    plays = [
        (sizes.play(play).lstrip("0") or "0", (sum(_notch_sides(sizes, k)) / 2, DEEP + 4.5))
        for k, play in enumerate(sizes.plays)
    ]
    arc = [(f"R{sizes.lettered(sizes.radius)}", (WIDTH - 14.0, HEIGHT - 20.0))]
    return [centred(text, at, TEXT) for text, at in (*outside, *inside, *holes, *plays, *arc)]


def _outsides(sizes: Sizes) -> list[Dimension]:
    return [
        Dimension(f"outside {sizes.named(long)}", long, EdgeGap((0.0, y), (long, y)))
        for k, long in enumerate(reversed(sizes.lengths))
        for y in (HEIGHT + STEP * (k + 0.5),)
    ]


def _insides(sizes: Sizes) -> list[Dimension]:
    windows = [
        Dimension(f"inside {sizes.named(long)}", long, EdgeGap((x, y + SLOT / 2), (x + long, y + SLOT / 2)))
        for x, y, long in _windows(sizes)
    ]
    drilled = zip(HOLE_MIDDLES, sizes.holes, strict=True)
    holes = [Dimension(f"hole {sizes.named(d)}", d, HoleDiameter(at)) for at, d in drilled]
    return [*windows, *holes]


def _fits(sizes: Sizes) -> list[Dimension]:
    out = 1.0 - DEEP / 2
    tab = Dimension("tab", sizes.tab, EdgeGap((out, TAB_AT - sizes.tab / 2), (out, TAB_AT + sizes.tab / 2)))
    notches = []
    for k, play in enumerate(sizes.plays):
        name = f"notch with {sizes.play(play)} {sizes.unit} of play"
        left, right = _notch_sides(sizes, k)
        notches.append(Dimension(name, sizes.tab + play, EdgeGap((left, DEEP / 2), (right, DEEP / 2))))
    return [tab, *notches]


NAME = "sheet-coupon"
NOTCH_DEEP, UNDER = 12.0, 30.0  # mm: a notch, and the strip under it
LAND = 12.0  # mm between notches


def sheet_coupon(plan: Plan) -> list[Part]:
    """One; none where no sled with slots is cut at a machine."""
    made = plan.job.workshop.made
    if "cut" not in (made.sled, made.segments, made.truing, made.layup):
        return []
    unit, sizes = plan.job.unit, SIZES[plan.job.unit]
    notches = [(play, *_sides(plan, k)) for k, play in enumerate(sizes.plays)]
    plate = Plate(plan, _strip_outline(plan))
    for play, left, right in notches:
        told = show_length(play, unit, exact=unit == "in")
        plate.gap(f"notch with {told} of play", right - left, _side(left), _side(right))
        number = sizes.play(play).lstrip("0") or "0"
        plate.marks.append(centred(number, ((left + right) / 2, UNDER - 5.0), TEXT))
    plate.hang((_long(plan), 0.0))
    plate.letter("SHEET'S COUPON", near=(_long(plan) / 2, UNDER / 2))
    return [plate.part(NAME, "what play a slot needs over the sheet")]


def _sides(plan: Plan, k: int) -> tuple[float, float]:
    sheet, plays = plan.job.workshop.boards.sheet, SIZES[plan.job.unit].plays
    left = LAND + k * (sheet + plays[-1] + LAND)
    return left, left + sheet + plays[k]


def _long(plan: Plan) -> float:
    return _sides(plan, len(SIZES[plan.job.unit].plays) - 1)[1] + LAND


def _side(x: float) -> Point:
    return x, UNDER + NOTCH_DEEP / 2


def _strip_outline(plan: Plan) -> Contour:
    top = UNDER + NOTCH_DEEP
    notches = [
        corner
        for k in reversed(range(len(SIZES[plan.job.unit].plays)))
        for left, right in (_sides(plan, k),)
        for corner in ((right, top), (right, UNDER), (left, UNDER), (left, top))
    ]
    long = _long(plan)
    return outline((0.0, 0.0), (long, 0.0), (long, top), *notches, (0.0, top))
