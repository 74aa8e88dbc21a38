"""Each part as a drawing office puts it: outline, holes and main sizes, its code, its thickness, how many; and small,
without words, to be known by."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, hypot, pi, radians, sin

from geometry.plane.contour import Contour
from geometry.readback.measure import Run, straight_edge
from geometry.records import Record
from jigs.figures.figure import LARGEST, Figure
from jigs.figures.items import Callout, Caption, Dimension, Item, Point, area, line
from jigs.figures.told import Show, angle, by_calliper, by_rule
from jigs.parts.part import Line, Part
from jigs.parts.probes import ArcRadius, EdgeAngle, EdgeGap, EdgeLength, HoleDiameter

NARROW, WIDE, TALL, LARGE = (
    (80.0, 50.0),
    (165.0, 50.0),
    (80.0, 115.0),
    (165.0, 115.0),
)  # mm of paper: for most parts,
# for long ones, for those whose sizes would leave them no room, and
MANY = 8  # for those with more dimensions than this
LEAST = 25.0  # mm of paper that a part's longer side has
LONG = 320.0  # mm: a part is long from here on,
SLIM, SHORT = 3.2, 120.0  # or where it is so many times as long as high, and no shorter than this
SMALL = (23.0, 19.0)
FIRST, PITCH = 7.0, 7.0  # mm of paper from the part to its dimensions, and from each to the next
MOST, CALLED = 4, 5  # dimensions on a side, and sizes called out beside it
SAME = 0.02  # mm: sizes that differ by less are shown once
FAR = 0.15  # of the part's smaller side
LEVEL = 1e-4  # of a direction, across the axis along which it runs
MADE = {"print": "print", "cut": "cut", "turn": "turn", "paper": "saw out"}


class _Gap(Record):
    """A length along an axis (0: across) between two places."""

    a: Point
    b: Point
    axis: int

    @property
    def mm(self) -> float:
        return abs(self.b[self.axis] - self.a[self.axis])


def drawing(part: Part, show: Show) -> Figure:
    """With its main sizes."""
    x0, y0, x1, y1 = part.outline.bounds
    wide, high = x1 - x0, y1 - y0
    items = (
        *_drawn(part, 0.25),
        *_dimensions(part, show),
        *_called(part, show),
        Caption(tuple(_told(part, show))),
    )
    title = f"{part.code}, {part.name}"
    alt = f"The part {title}, with its sizes: {by_rule(show, wide)} by {by_rule(show, high)}."
    for paper in _papers(part, wide, high):
        figure = Figure(f"drawing.{part.name}", title, alt, items, *paper)
        if figure.scale * max(wide, high) >= min(LEAST, LARGEST * max(wide, high)):
            break
    return figure


def _papers(part: Part, wide: float, high: float) -> Iterator[tuple[float, float]]:
    """Those that may do, the smallest first."""
    if len(part.dimensions) <= MANY:
        long = wide > LONG or wide > max(SHORT, SLIM * high)
        yield from (WIDE,) if long else (NARROW, TALL)
    yield LARGE


def thumbnail(part: Part) -> Figure:
    """Without words."""
    lines = tuple(_drawn(part, 0.3))
    return Figure(f"part.{part.name}", part.name, f"The outline of {part.code}.", lines, *SMALL, margin=0.5)


def _told(part: Part, show: Show) -> Iterator[str]:
    yield f"{part.code}  {part.name}"
    thick = f"{by_calliper(show, part.thickness)} thick, " if part.thickness else ""
    glued = f", glue {part.stack} into one" if part.stack > 1 else ""
    yield f"{thick}{MADE[part.process]} {part.quantity}{glued}"


def _drawn(part: Part, width: float) -> Iterator[Item]:
    yield area(part.outline, fill="jig", width=width)
    yield from (area(hole, fill="paper", width=0.7 * width) for hole in part.holes)
    yield from (line(*mark.points, paint="grey") for mark in part.marks if isinstance(mark, Line))


def _dimensions(part: Part, show: Show) -> Iterator[Item]:
    """What is measured across above the part, its width below it, what is measured up on the left."""
    x0, y0, x1, y1 = part.outline.bounds
    if _is_round(part.outline):
        middle = (y0 + y1) / 2
        yield Dimension((x0, middle), (x1, middle), f"Ø {by_rule(show, x1 - x0)}", -FIRST, y0 - middle)
        return
    left, right, low, high = (_reach(part.outline, *of) for of in ((0, x0), (0, x1), (1, y0), (1, y1)))
    whole = _Gap(left, right, 0), _Gap(low, high, 1)
    every = list(_gaps(part))
    gaps = [gap for gap in every if abs(gap.mm - whole[gap.axis].mm) > SAME]
    exact = {gap.axis for gap in every if gap not in gaps}
    told = [(by_calliper if one.axis in exact else by_rule)(show, one.mm) for one in whole]
    yield from _level(whole[0], y0, -FIRST, told[0])
    for k, gap in enumerate(_few(gaps, 0)):
        yield from _level(gap, y1, FIRST + PITCH * k, by_calliper(show, gap.mm))
    upright = _few(gaps, 1)
    for k, gap in enumerate(upright):
        yield from _upright(gap, x0, FIRST + PITCH * k, by_calliper(show, gap.mm))
    yield from _upright(whole[1], x0, FIRST + PITCH * len(upright), told[1])


def _is_round(contour: Contour) -> bool:
    edges = contour.edges()
    return all(edge.is_arc and hypot(*_from(edge.centre, edges[0].centre)) < SAME for edge in edges)


def _from(a: Point, b: Point) -> Point:
    return (a[0] - b[0], a[1] - b[1])


def _reach(contour: Contour, axis: int, at: float) -> Point:
    """Where a contour reaches this far along an axis, as low or as far left as it does."""
    other = 1 - axis
    found = [point for point in contour.points.tolist() if abs(point[axis] - at) < SAME]
    across = min((point[other] for point in found), default=contour.centroid[other])
    return (at, across) if axis == 0 else (across, at)


def _gaps(part: Part) -> Iterator[_Gap]:
    """Of the nominal dimensions, those that lie along an axis."""
    contours = (part.outline, *part.holes)
    for one in part.dimensions:
        if isinstance(one.probe, EdgeGap):
            first, second = (straight_edge(contours, at) for at in (one.probe.first, one.probe.second))
            if (axis := _across(first)) is not None:
                yield _Gap(_end(first, axis), _end(second, axis), axis)
        elif isinstance(one.probe, EdgeLength):
            run = straight_edge(contours, one.probe.point)
            if (axis := _across(run)) is not None:
                yield _Gap(run.start, run.end, 1 - axis)


def _across(run: Run) -> int | None:
    """The axis that it is square to; None where it leans."""
    return next((axis for axis in (0, 1) if abs(run.direction[axis]) < LEVEL), None)


def _end(run: Run, axis: int) -> Point:
    """The end from which its dimension is drawn: the upper one, or the left one; the middle of what leans."""
    if abs(run.direction[axis]) >= LEVEL:
        return run.middle
    return max(run.start, run.end, key=lambda at: at[1]) if axis == 0 else min(run.start, run.end)


def _few(gaps: list[_Gap], axis: int) -> list[_Gap]:
    """The first that differ, the shortest first."""
    own: list[_Gap] = []
    for gap in (one for one in gaps if one.axis == axis):
        if all(abs(gap.mm - other.mm) > SAME for other in own):
            own.append(gap)
    return sorted(own[:MOST], key=lambda gap: gap.mm)


def _level(gap: _Gap, edge: float, off: float, text: str) -> Iterator[Item]:
    """Past an upper or a lower edge of the part."""
    a, b = sorted((gap.a, gap.b))
    yield from (line(at, (at[0], edge), paint="grey") for at in (a, b) if abs(at[1] - edge) > SAME)
    yield Dimension((a[0], edge), (b[0], edge), text, off)


def _upright(gap: _Gap, edge: float, off: float, text: str) -> Iterator[Item]:
    """Past the left edge of the part."""
    a, b = sorted((gap.a, gap.b), key=lambda at: at[1])
    yield from (line(at, (edge, at[1]), paint="grey") for at in (a, b) if abs(at[0] - edge) > SAME)
    yield Dimension((edge, a[1]), (edge, b[1]), text, off)


def _called(part: Part, show: Show) -> Iterator[Item]:
    """Holes, radii and angles, with where they are."""
    found = [*_holes(part, show), *_radii(part, show)]
    angles = list(_angles(part, show))
    for text, at in [*found, *((text, corner) for text, corner, _ in angles)][:CALLED]:
        yield Callout(text, at, "right")
    for _, corner, ends in angles:
        yield from (line(end, corner, paint="grey") for end in ends if hypot(*_from(end, corner)) > SAME)


def _holes(part: Part, show: Show) -> Iterator[tuple[str, Point]]:
    """Each size once, at the hole that lies farthest right."""
    found: dict[str, list[Point]] = {}
    for one in part.dimensions:
        if isinstance(one.probe, HoleDiameter):
            x, y = one.probe.centre
            found.setdefault(f"Ø {by_calliper(show, one.value)}", []).append((x + one.value / 2, y))
    yield from ((f"{len(at)} × {text}" if len(at) > 1 else text, max(at)) for text, at in found.items())


def _radii(part: Part, show: Show) -> Iterator[tuple[str, Point]]:
    """Each once, at the arc that lies farthest right."""
    found: dict[str, list[Point]] = {}
    for one in part.dimensions:
        if isinstance(one.probe, ArcRadius):
            (x, y), start, end = one.probe.centre, one.probe.start, one.probe.end
            middle = start + ((end - start) % (2 * pi) or 2 * pi) / 2
            at = (x + one.value * cos(middle), y + one.value * sin(middle))
            found.setdefault(f"R {by_calliper(show, one.value)}", []).append(at)
    yield from ((text, max(at)) for text, at in found.items())


def _angles(part: Part, show: Show) -> Iterator[tuple[str, Point, tuple[Point, Point]]]:
    """With the corner, and the end of either edge that lies nearest to it; on the edge that leans where it is far."""
    contours = (part.outline, *part.holes)
    for one in part.dimensions:
        if isinstance(one.probe, EdgeAngle):
            runs = [straight_edge(contours, at) for at in (one.probe.first, one.probe.second)]
            corner, x0, y0, x1, y1 = _crossing(*runs), *part.outline.bounds
            ends = [min(run.start, run.end, key=lambda at: hypot(*_from(at, corner))) for run in runs]
            out = max(x0 - corner[0], corner[0] - x1, y0 - corner[1], corner[1] - y1)
            if out > FAR * min(x1 - x0, y1 - y0):
                corner = max(runs, key=lambda run: min(map(abs, run.direction))).middle
                ends = [corner, corner]
            yield angle(show, radians(one.value)), corner, (ends[0], ends[1])


def _crossing(one: Run, other: Run) -> Point:
    """Of the lines along two edges."""
    (ax, ay), (bx, by) = one.direction, other.direction
    along = other.across(one.start) / (ax * by - ay * bx)
    return (one.start[0] + along * ax, one.start[1] + along * ay)
