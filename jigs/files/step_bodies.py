"""A part as an exact solid in the words of STEP: a plate on z = 0, a turned part about z, a wedge of wood.

Arcs are exact, marks are left out: text would be nine tenths of a file.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan, cos, hypot, tan

from geometry.plane.contour import Contour
from geometry.plane.edges import Edge
from geometry.records import dataclass
from jigs.files.step_entities import UP, Entities, Vector, cross
from jigs.parts.part import Part

CLOSE = 1e-7  # mm: as near as points are taken for one
WIDE = 2.0  # radians that one piece of a ruled surface may go round
ON_AXIS = 1e-7  # mm


@dataclass(frozen=True)
class Level:
    """A closed row of edges in the plane z = height + slope x; where it slopes all are straight."""

    edges: tuple[Edge, ...]
    height: float
    slope: float = 0.0

    def point(self, at: tuple[float, float]) -> Vector:
        return at[0], at[1], self.height + self.slope * at[0]

    def drawn(self, step: Entities) -> list[str]:
        return [_edge(step, self, edge) for edge in self.edges]


def body(step: Entities, part: Part) -> str:
    """The number of its solid. Raises ValueError for a part that is none."""
    if part.turned:
        from jigs.files.solid import turned_wedge

        return step.embedded(*turned_wedge(part))
    if part.process == "turn":
        return step.body(_turned(step, (part.outline.ccw(), *(hole.cw() for hole in part.holes))))
    if part.thickness <= 0:
        raise ValueError(f"{part.name}: has no thickness, so it is no solid")
    contours = (part.outline.ccw(), *(hole.cw() for hole in part.holes))
    return step.body(_plate(step, [_levels(part, contour) for contour in contours]))


def _levels(part: Part, contour: Contour) -> list[Level]:
    bevel = part.bevel if contour == part.outline else None
    if bevel:
        rows = [row for pair in _rows(contour, bevel.top) for row in _halved(*pair)]
        low, top = zip(*rows, strict=True)
        foot = [Level(low, 0.0)] if bevel.land else []
        return [*foot, Level(low, bevel.land), Level(top, part.thickness)]
    (edges,) = zip(*_rows(contour), strict=True)
    if part.wedge:
        return [Level(edges, 0.0, side * tan(part.wedge / 2)) for side in (-1, 1)]
    return [Level(edges, 0.0), Level(edges, part.thickness)]


def _rows(*contours: Contour) -> list[tuple[Edge, ...]]:
    """Edge by edge; where none is longer than points are near, the next begins at once."""
    rows = [
        row for row in zip(*map(Contour.edges, contours), strict=True) if max(e.chord for e in row) > CLOSE
    ]
    return [
        tuple(Edge(one.start, after.start, one.bulge) for one, after in zip(row, following, strict=True))
        for row, following in zip(rows, [*rows[1:], rows[0]], strict=True)
    ]


def _halved(low: Edge, high: Edge) -> Iterator[tuple[Edge, Edge]]:
    """The same in pieces that a ruled surface spans."""
    if max(abs(low.angle), abs(high.angle)) < WIDE:
        yield low, high
        return
    for pair in zip(_halves(low), _halves(high), strict=True):
        yield from _halved(*pair)


def _halves(edge: Edge) -> tuple[Edge, Edge]:
    middle, bulge = edge.midpoint, tan(edge.angle / 8)
    return Edge(edge.start, middle, bulge), Edge(middle, edge.end, bulge)


# ---- plates
def _plate(step: Entities, stacks: Sequence[Sequence[Level]]) -> Iterator[str]:
    """Between its lowest levels and its highest: the outline counter-clockwise, then the holes the other way."""
    for levels in stacks:
        for low, high in pairwise(levels):
            yield from _walls(step, low, high)
    for k, side in ((0, -1.0), (-1, 1.0)):
        own = stacks[0][k]
        bounds = [[(edge, side > 0) for edge in levels[k].drawn(step)] for levels in stacks]
        plane = step.plane(own.point(own.edges[0].start), (-side * own.slope, 0.0, side))
        yield step.face(plane, bounds if side > 0 else [bound[::-1] for bound in bounds])


def _walls(step: Entities, low: Level, high: Level) -> Iterator[str]:
    pairs = list(zip(low.edges, high.edges, strict=True))
    posts = [step.edge(low.point(one.start), high.point(other.start)) for one, other in pairs]
    rows = zip(low.drawn(step), high.drawn(step), posts, [*posts[1:], posts[0]], pairs, strict=True)
    for below, above, post, following, (one, other) in rows:
        surface, outward = _wall(step, low, high, one, other)
        yield step.face(surface, [[(below, True), (following, True), (above, False), (post, False)]], outward)


def _wall(step: Entities, low: Level, high: Level, one: Edge, other: Edge) -> tuple[str, bool]:
    """The surface between two edges, and whether its own normal points out of the wood."""
    start, way, over = low.point(one.start), _way(one), _way(other)
    if one.is_arc and one == other:
        return step.surface("CYLINDRICAL_SURFACE", low.point(one.centre), one.radius), one.bulge > 0
    if not (one.is_arc or other.is_arc) and abs(way[0] * over[1] - way[1] * over[0]) < CLOSE * hypot(*way):
        rise = tuple(b - a for a, b in zip(start, high.point(other.start), strict=True))
        return step.plane(start, cross(way, (rise[0], rise[1], rise[2]))), True
    ends = ((low, one), (high, other))
    rows = [[(level.point(at), weight) for at, weight in _control(edge)] for level, edge in ends]
    return step.ruled(*rows), True


def _way(edge: Edge) -> Vector:
    return edge.end[0] - edge.start[0], edge.end[1] - edge.start[1], 0.0


def _control(edge: Edge) -> list[tuple[tuple[float, float], float]]:
    """The Bézier points of an arc of less than half a turn, with their weights; of a line its middle between."""
    (x, y), (dx, dy, _), out = edge.start, _way(edge), tan(edge.angle / 2) / 2
    return [
        (edge.start, 1.0),
        ((x + dx / 2 + out * dy, y + dy / 2 - out * dx), cos(edge.angle / 2)),
        (edge.end, 1.0),
    ]


def _edge(step: Entities, level: Level, edge: Edge) -> str:
    start, end = level.point(edge.start), level.point(edge.end)
    if not edge.is_arc:
        return step.edge(start, end)
    axis = (0.0, 0.0, 1.0 if edge.bulge > 0 else -1.0)
    return step.edge(start, end, step.circle(level.point(edge.centre), edge.radius, axis))


# ---- turned parts
def _turned(step: Entities, section: Sequence[Contour]) -> Iterator[str]:
    """Two halves of each surface, from the half plane y = 0, x > 0 round to the other and on."""
    for contour in section:
        for (edge,) in _rows(contour):
            if max(edge.start[0], edge.end[0]) > ON_AXIS or edge.is_arc:
                surface, outward = _round(step, edge)
                for side in (1.0, -1.0):
                    yield step.face(surface, [_half(step, edge, side)], outward)


def _half(step: Entities, edge: Edge, side: float) -> list[tuple[str, bool]]:
    """The bound of what the edge sweeps from that side of the axis to the other; none of it where it meets the axis."""
    rounds = [
        step.edge((side * r, 0.0, z), (-side * r, 0.0, z), step.circle((0.0, 0.0, z), r))
        if r > ON_AXIS
        else ""
        for r, z in (edge.start, edge.end)
    ]
    here, there = _meridian(step, edge, side), _meridian(step, edge, -side)
    bound = [(rounds[0], True), (there, True), (rounds[1], False), (here, False)]
    return [(one, along) for one, along in bound if one]


def _meridian(step: Entities, edge: Edge, side: float) -> str:
    start, end = ((side * r if r > ON_AXIS else 0.0, 0.0, z) for r, z in (edge.start, edge.end))
    return step.edge(start, end, _meridian_arc(step, edge, side) if edge.is_arc else "")


def _meridian_arc(step: Entities, edge: Edge, side: float) -> str:
    x, z = edge.centre
    axis = (0.0, -side if edge.bulge > 0 else side, 0.0)
    return step.circle((side * x, 0.0, z), edge.radius, axis, (side, 0.0, 0.0))


def _round(step: Entities, edge: Edge) -> tuple[str, bool]:
    """The surface that an edge sweeps about z, and whether its own normal points out of the wood."""
    (r, z), (end, top) = edge.start, edge.end
    if edge.is_arc:
        x, y = edge.centre
        if x > edge.radius:
            return step.surface("TOROIDAL_SURFACE", (0.0, 0.0, y), x, edge.radius), edge.bulge > 0
        return step.revolved(_meridian_arc(step, edge, 1.0)), True
    if abs(top - z) < CLOSE:
        return step.plane((0.0, 0.0, z), (0.0, 0.0, 1.0 if end < r else -1.0)), True
    if abs(end - r) < CLOSE:
        return step.surface("CYLINDRICAL_SURFACE", (0.0, 0.0, z), r), top > z
    wider = (end > r) == (top > z)
    half = atan(abs((end - r) / (top - z)))
    origin = (0.0, 0.0, z)
    return step.surface("CONICAL_SURFACE", origin, r, half, axis=UP if wider else (0.0, 0.0, -1.0)), top > z
