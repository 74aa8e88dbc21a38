"""Where a plate that is too long for its bed may be joined: clear of holes, lettering and slanting edges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, dist, hypot, pi, radians, sin

import numpy as np

from geometry.curves.room import dense
from geometry.plane.contour import Contour
from geometry.plane.crossings import distances
from geometry.plane.edges import BoolArray, Edge, FloatArray, lengths_of
from geometry.plane.sample import sample
from geometry.plane.split import Key, line_meetings
from geometry.records import Record
from geometry.strokes.lettering import strokes
from jigs.parts.beds import Bed, beyond
from jigs.parts.part import Lettering, Line, Mark, Point

ROUGH = 0.05  # mm: how near lines are judged to curves
PITCH = 3.0  # mm between the lines that are tried
TURNS = ((pi / 2, 0.0), tuple(k * pi / 12 for k in (1, 2, 3, 4, 5, 7, 8, 9, 10, 11)))  # the second if need be
SQUARE = radians(40)  # least angle between a joint and the edges it meets; less makes a feather edge
LEAST_JOINT = 16.0  # mm long
LEAST_SLICE = 6.0  # mm wide: what a joint leaves beside an edge that it runs along
# Where along a joint its key is: off the middle, and each joint's own.
SHARES = (0.34, 0.42, 0.38, 0.3, 0.36, 0.4, 0.32)
NECK, MOST_NECK = 0.3, 14.0  # of a key: share of the joint's length, and mm
DEPTH = 0.6  # of a key, in necks
SHORT_LINE = 40.0  # mm
CLEAR = 2.0  # mm from a joint to holes and lettering, and from a key's tip to the plate's edges


class Obstacles(Record):
    """Points (m, 2) that a joint must keep clear of; those of one hole or one text share an `owner` (m,).

    `crossable` (k, 2) are on marked lines: a joint may cross these, a key may not.
    """

    points: FloatArray
    owner: FloatArray
    crossable: FloatArray

    def on_line(self, key: Key) -> bool:
        """Whether one is near the joint's line beside its key."""
        (x, y), (x1, y1) = key.start, key.end
        ux, uy = (x1 - x) / key.length, (y1 - y) / key.length
        dx, dy = self.points[:, 0] - x, self.points[:, 1] - y
        along = (dx * ux + dy * uy)[np.abs(dy * ux - dx * uy) < CLEAR]
        beside = np.abs(along - key.along) >= key.neck / 2
        return bool((beside & (along >= 0.0) & (along <= key.length)).any())

    def clear_of(self, key: Key) -> bool:
        """Whether none is near the joint."""
        edges = edges_of(key)
        return _clear(edges, self.points) and _clear(edges[1:-1], self.crossable)

    def undivided_by(self, left: Contour) -> bool:
        """Whether each owner is wholly inside or wholly outside."""
        inside = left.contains(self.points)
        return all(len(set(inside[self.owner == owner].tolist())) == 1 for owner in set(self.owner.tolist()))


def obstacles(holes: Sequence[Contour], marks: Sequence[Mark]) -> Obstacles:
    """The holes, the lettering and short marked lines; long ones may be cut."""
    shapes = [[np.vstack((loop, loop[:1]))] for loop in (sample(hole, 0.2) for hole in holes)]
    shapes += [list(drawn) for mark in marks if (drawn := _whole(mark))]
    long = [mark.points for mark in marks if isinstance(mark, Line) and not _whole(mark)]
    owner = np.repeat(np.arange(len(shapes), dtype=np.float64), [len(shape) for shape in shapes])
    points, line = dense([each for shape in shapes for each in shape], CLEAR)
    return Obstacles(points, owner[line], dense(long, CLEAR)[0])


def _clear(edges: Sequence[Edge], points: FloatArray) -> bool:
    ends = np.array([end for edge in edges for end in (edge.start, edge.end)])
    low, high = ends.min(axis=0) - CLEAR, ends.max(axis=0) + CLEAR
    near = points[((points >= low) & (points <= high)).all(axis=1)]
    return not len(near) or float(distances(edges, near).min()) >= CLEAR


def _whole(mark: Mark) -> tuple[FloatArray, ...]:
    """The lines of a mark that must not be cut."""
    if isinstance(mark, Lettering):
        return strokes(mark.text, mark.origin, mark.height, mark.angle)
    points = np.array(mark.points)
    return (points,) if lengths_of(np.diff(points, axis=0)).sum() < SHORT_LINE else ()


def keys(
    outline: Contour, turns: Sequence[float], bed: Bed, joint: int, keep_clear: Obstacles
) -> Iterator[tuple[float, Key]]:
    """The keyed joints along straight lines at these angles, best first: one crossing, squarely enough.

    None whose straight parts come near what must be kept clear of; the keys themselves may. Best is where the halves
    stand least over the bed, then where they are most alike and the joint short. Each comes with how far its halves
    stand over the bed, its key left out, to within ROUGH.
    """
    for (over, _), ends in sorted(_lines(outline, turns, bed)):
        met = line_meetings(outline, *ends)
        if len(met) != 2 or min(angle for _, angle in met) < SQUARE:
            continue
        (start, _), (end, _) = met
        free = [key for key in _keyed(start, end, joint) if not keep_clear.on_line(key)]
        if free and not _slices(outline, met):
            yield from ((over, key) for key in free)


def _lines(
    outline: Contour, turns: Sequence[float], bed: Bed
) -> Iterator[tuple[tuple[float, float], tuple[Point, Point]]]:
    """How good each line across a plate is, less being better, by its chords; and the line's ends."""
    points = sample(outline, ROUGH)
    (x0, y0), (x1, y1) = points.min(axis=0), points.max(axis=0)
    reach, middle = hypot(x1 - x0, y1 - y0) / 2 + 1, np.array(((x0 + x1) / 2, (y0 + y1) / 2))
    for turn in turns:
        along, across = np.array((cos(turn), sin(turn))), np.array((-sin(turn), cos(turn)))
        sides = (points - middle) @ across
        for off in np.arange(PITCH - reach, reach, PITCH)[_cut_twice(sides, reach)]:
            halves = _halves(points, sides - off)
            ends = middle + off * across + np.array((-reach, reach))[:, None] * along
            over = sum(_over(half, bed) for half in halves)
            areas = [_area(half) for half in halves]
            worth = abs(areas[0] - areas[1]) / abs(sum(areas)) * reach + dist(*halves[0][[0, -1]])
            yield (round(over, 3), worth), (_point(ends[0]), _point(ends[1]))


def _cut_twice(sides: FloatArray, reach: float) -> BoolArray:
    """Which of the lines that are tried cut a polygon twice; `sides` is how far its points lie along them all."""
    beyond = sides > np.arange(PITCH - reach, reach, PITCH)[:, None]
    return np.asarray((beyond != np.roll(beyond, -1, axis=1)).sum(axis=1) == 2)


def _halves(points: FloatArray, sides: FloatArray) -> tuple[FloatArray, FloatArray]:
    """A polygon cut in two by a line, `sides` being how far its points lie from it."""
    cuts = np.flatnonzero((sides > 0) != (np.roll(sides, -1) > 0))
    following = (cuts + 1) % len(points)
    share = (sides[cuts] / (sides[cuts] - sides[following]))[:, None]
    first, last = points[cuts] + share * (points[following] - points[cuts])
    inner = points[cuts[0] + 1 : cuts[1] + 1]
    outer = np.concatenate((points[cuts[1] + 1 :], points[: cuts[0] + 1]))
    return np.vstack((first, inner, last)), np.vstack((last, outer, first))


def _area(points: FloatArray) -> float:
    x, y = (points - points[0]).T
    return float(x[:-1] @ y[1:] - y[:-1] @ x[1:]) / 2


def _over(points: FloatArray, bed: Bed) -> float:
    """How far a polygon's box stands over the bed, the better way round, mm."""
    wide, high = np.ptp(points, axis=0).tolist()
    return beyond(wide, high, bed)


def _slices(outline: Contour, met: Sequence[tuple[Point, float]]) -> bool:
    """Whether a line between two places on the outline leaves a sliver beside an edge that it runs along."""
    (start, _), (end, _) = met
    length, clear = dist(start, end), LEAST_SLICE / sin(SQUARE) + 1.0
    if length <= 2 * clear:
        return False
    share = np.linspace(clear, length - clear, int(length / LEAST_SLICE) + 2)[:, None] / length
    points = np.array(start) + share * (np.array(end) - start)
    return float(distances(outline.table, points).min()) < LEAST_SLICE


def _keyed(start: Point, end: Point, joint: int) -> Iterator[Key]:
    """A key to either side, nearer to either end."""
    length, share = dist(start, end), SHARES[joint % len(SHARES)]
    neck = min(NECK * length, MOST_NECK)
    if length >= LEAST_JOINT:
        for a, b in ((start, end), (end, start)):
            for along in (share * length, (1 - share) * length):
                yield Key(a, b, along, neck, DEPTH * neck)


def tip_stays_in(key: Key, outline: Contour) -> bool:
    """Whether the key has wood all round its tip."""
    tips = key.path()[2:4, :2]
    return bool(outline.contains(tips).all() and distances(outline.table, tips).min() >= CLEAR)


def reaching(key: Key, play: float = 0.0) -> FloatArray:
    """The key's path, its ends a little outside the plate."""
    path = key.path(play)
    outward = (path[-1, :2] - path[0, :2]) / key.length
    path[0, :2] -= outward
    path[-1, :2] += outward
    return path


def edges_of(key: Key) -> list[Edge]:
    return [Edge(_point(a), _point(b)) for a, b in pairwise(key.path())]


def _point(row: FloatArray) -> Point:
    return float(row[0]), float(row[1])
