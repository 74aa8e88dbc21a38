"""The inside of a vessel from its outside and its wall, which may change with height.

Profiles rise from the foot; x is the radius, y the height. A wall is measured square to the outer surface. Lengths mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from geometry.bodies.floor import with_floor
from geometry.bodies.wall_measure import shortfall
from geometry.curves.biarcs import biarcs
from geometry.plane.crossings import crossings, distances, parameter
from geometry.plane.edges import SAME_POINT, Edge, FloatArray, Point, bulge_about, points_along
from geometry.plane.loops import part
from geometry.plane.profile import Profile, from_edges
from geometry.records import Record

_MEET = 1e-6  # mm; runs whose ends are no farther apart than this meet


class _Moved(Record):
    """An edge moved to its left by `wall` + `slope` · height."""

    edge: Edge
    wall: float
    slope: float

    @property
    def knots(self) -> FloatArray:
        return np.array((0.0, 1.0))

    def at(self, t: FloatArray) -> FloatArray:
        places, left, _ = self._frame(t)
        return places + self._wall(places) * left

    def derivative(self, t: FloatArray) -> FloatArray:
        """The edge's own tangent, shortened by its turning, and the wall's growth along its normal."""
        places, left, along = self._frame(t)
        growth = self.slope * self.edge.length * along[..., 1:]
        return (self.edge.length - self._wall(places) * self.edge.angle) * along + growth * left

    def _wall(self, places: FloatArray) -> FloatArray:
        return self.wall + self.slope * places[..., 1:]

    def _frame(self, t: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Places on the edge, the normals to its left, the directions along it."""
        t = np.asarray(t, dtype=np.float64)
        start, end = np.array(self.edge.start), np.array(self.edge.end)
        heading = self.edge.heading(0.0) + t * self.edge.angle
        along = np.stack((np.cos(heading), np.sin(heading)), axis=-1)
        left = np.stack((-along[..., 1], along[..., 0]), axis=-1)
        return points_along(start, end, np.array(self.edge.angle), t), left, along


def beside_by_height(outer: Profile, pairs: FloatArray, floor: float) -> Profile:
    """The inner side of a wall given by (height, thickness) rows (k, 2), linear between them.

    Starts at the floor's height, or above it where the wall's own side does. No arc may curve more tightly
    than the wall there (geometry.bodies.wall). Raises ValueError where the wall cannot be followed.
    """
    stretches = _stretches(_pieces(outer, pairs))
    line = stretches[0].line
    for before, after in pairwise(stretches):
        line = _joined(line, after.line, before.last, after.first)
    found = _above(line, floor)
    fold = found.fold()
    if fold is not None:
        raise ValueError(f"the wall changes too fast to be turned at a height of {fold:.6g} mm")
    return found


class _Stretch(Record):
    """The inner side of outer edges, `first` to `last`, between two corners."""

    line: list[Edge]
    first: Edge
    last: Edge


def _stretches(pieces: list[_Moved]) -> list[_Stretch]:
    found: list[_Stretch] = []
    for piece in pieces:
        run = _edges(biarcs(piece))
        if found and math.dist(found[-1].line[-1].end, run[0].start) <= _MEET:
            found[-1] = _Stretch(found[-1].line + run, found[-1].first, piece.edge)
        else:
            found.append(_Stretch(run, piece.edge, piece.edge))
    return found


def _pieces(outer: Profile, pairs: FloatArray) -> list[_Moved]:
    """The outer edges, cut at the heights at which the wall is given."""
    inside = pairs[(pairs[:, 0] > outer.bottom + _MEET) & (pairs[:, 0] < outer.top - _MEET), 0]
    found = []
    for low, high in pairwise((outer.bottom, *inside.tolist(), outer.top)):
        first, last = np.interp((low, high), *pairs.T).tolist()
        slope = (last - first) / (high - low)
        part_edges = outer.between(low, high).edges()
        found += [_Moved(edge, first - slope * low, slope) for edge in part_edges if edge.length > _MEET]
    return found


def _edges(rows: FloatArray) -> list[Edge]:
    listed = rows.tolist()
    return [Edge((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in pairwise(listed)]


def _joined(line: list[Edge], run: list[Edge], a: Edge, b: Edge) -> list[Edge]:
    """Two runs, up to the outer corner of a and b and from there, as one: rounded, or cut where they cross."""
    turn = (b.heading(0.0) - a.heading(1.0) + math.pi) % (2.0 * math.pi) - math.pi
    if turn < 0.0:
        return [*line, Edge(line[-1].end, run[0].start, math.tan(turn / 4.0)), *run]
    for i in reversed(range(len(line))):
        for j, edge in enumerate(run):
            for point in crossings(line[i], edge)[:1]:
                kept = part(line[i], 0.0, parameter(line[i], point))
                return [*line[:i], kept, part(edge, parameter(edge, point), 1.0), *run[j + 1 :]]
    raise ValueError(f"the wall cannot follow the corner of the outside at a height of {a.end[1]:.6g} mm")


def _above(line: list[Edge], floor: float) -> Profile:
    """The chain from where it last comes up through the floor's height."""
    k = max((k for k, edge in enumerate(line) if edge.start[1] <= floor), default=0)
    level = Edge((-1e4, floor), (1e4, floor))
    if line[k].start[1] < floor < line[k].end[1]:
        at = max(parameter(line[k], point) for point in crossings(line[k], level))
        line = [*line[:k], part(line[k], at, 1.0), *line[k + 1 :]]
    return from_edges([edge for edge in line[k:] if edge.length > _MEET])


_FOLLOWS = 1e-5  # mm; what misses its place by less is there
_SHORT = 0.02  # mm by which the wall by height may fall short where arcs stand for its inner side

Wall = float | Sequence[tuple[float, float]]


class TooTight(ValueError):
    """The outside curves more tightly at height `z` than the wall allows; `most` is the largest that works."""

    def __init__(self, message: str, z: float, most: float) -> None:
        super().__init__(message)
        self.z = z
        self.most = most


def inner_from_wall(outer: Profile, wall: Wall, floor: float | None, corner: float) -> Profile:
    """The inner profile: along the floor at height `floor`, round its corner, and up to the rim's height.

    Without a floor it is the wall alone, from the foot's height up.

    `wall` is one thickness or (height, thickness) pairs, linear between their heights and constant beyond
    them. `corner` is the radius between floor and wall, 0 for a sharp one. Raises TooTight where an arc of
    the outside, or the outside as a whole, is too small for the wall, and ValueError when the floor leaves no
    inside or, with the largest that fits, the corner does not fit.
    """
    pairs = _by_height(wall)
    if floor is None:
        _refuse_tight_arcs(outer, pairs, 0.0)
        side = _side(outer, pairs, 0.0)
        _refuse_narrow(outer, pairs, side)
        return side
    if not 0.0 < floor < outer.top:
        raise ValueError(
            f"the floor, at {floor:.6g} mm, must lie above the foot and below the rim at {outer.top:.6g} mm"
        )
    _refuse_tight_arcs(outer, pairs, floor)
    side = _side(outer, pairs, floor)
    _refuse_narrow(outer, pairs, side)
    return with_floor(side, corner)


def _by_height(wall: Wall) -> FloatArray:
    """The wall as (height, thickness) rows. Raises ValueError unless heights rise and all is thicker than 0."""
    pairs = np.array([(0.0, wall)] if isinstance(wall, int | float) else wall, dtype=np.float64).reshape(
        -1, 2
    )
    if not len(pairs) or not (pairs[:, 1] > 0.0).all() or not (np.diff(pairs[:, 0]) > 0.0).all():
        raise ValueError("a wall must be thicker than 0 mm, and the heights at which it is given must rise")
    return pairs


def _most_over(pairs: FloatArray, edge: Edge) -> float:
    """The thickest wall over the heights of an edge."""
    low, high = sorted((edge.start[1], edge.end[1]))
    within = pairs[(pairs[:, 0] >= low) & (pairs[:, 0] <= high), 1]
    return float(max(*np.interp((low, high), *pairs.T), within.max(initial=0.0)))


def _refuse_tight_arcs(outer: Profile, pairs: FloatArray, floor: float) -> None:
    """Raise TooTight where an arc that curves round the inside is used up by the wall above the floor."""
    walls = [(edge, _most_over(pairs, edge)) for edge in outer.edges() if edge.bulge > 0.0]
    tight = [(edge, wall) for edge, wall in walls if edge.radius <= wall and _shows(edge, wall, floor)]
    if not tight:
        return
    edge, wall = min(tight, key=lambda found: found[0].radius)
    z, most = edge.midpoint[1], _below(edge.radius)
    raise TooTight(
        f"at a height of {z:.6g} mm the outside curves to a radius of {edge.radius:.6g} mm, too tight for a wall "
        f"of {wall:.6g} mm; the largest there is {most:.6g} mm",
        z,
        most,
    )


def _shows(edge: Edge, wall: float, floor: float) -> bool:
    """Whether the inner surface beside an end of an edge lies above the floor."""
    return any(edge.point_at(t)[1] + wall * math.cos(edge.heading(t)) > floor for t in (0.0, 1.0))


def _below(size: float) -> float:
    """The largest whole micrometre that is less than `size`."""
    return (math.ceil(size * 1000.0 - 1e-6) - 1) / 1000.0


def _side(outer: Profile, pairs: FloatArray, floor: float) -> Profile:
    """The inner wall from the floor's height to the rim's."""
    line = _parallel(outer, pairs[0, 1]) if len(pairs) == 1 else beside_by_height(outer, pairs, floor)
    if line.bottom >= outer.top:
        raise ValueError(
            f"the wall leaves no inside: its inner side starts above the rim at {outer.top:.6g} mm"
        )
    if line.top <= floor:
        raise ValueError(
            f"the floor, at {floor:.6g} mm, must be lower than {line.top:.6g} mm, where the inner wall ends"
        )
    side = _round_ends(line, outer, floor).spanning(floor, outer.top)
    if len(pairs) > 1:
        _refuse_short(outer, side, pairs)
    return side


def _parallel(outer: Profile, wall: float) -> Profile:
    """The inner side of a constant wall, as far as the outside goes."""
    line = outer.beside(-wall)
    for end, own in ((outer.start, line.start), (outer.end, line.end)):
        if abs(math.dist(end, own) - wall) > _FOLLOWS:
            raise ValueError(f"the wall cannot be followed past a height of {own[1]:.6g} mm")
    return line


def _round_ends(line: Profile, outer: Profile, floor: float) -> Profile:
    """An inner side that starts above the floor or ends below the rim, led on round the outside's ends.

    An arc about the end keeps the wall as thick as it is there, down to the foot and up to the rim: the lip is
    as wide as the wall, and square. Straight on it would be thinner under a rim that leans in, or end in a
    feather edge.
    """
    edges = list(line.edges())
    first, last = math.dist(outer.start, line.start), math.dist(outer.end, line.end)
    if line.start[1] > floor + _FOLLOWS and line.start[0] > outer.start[0] - first + _FOLLOWS:
        edges.insert(0, _about(outer.start, (outer.start[0] - first, outer.start[1]), line.start))
    if line.end[1] < outer.end[1] - _FOLLOWS and line.end[0] > outer.end[0] - last + _FOLLOWS:
        edges.append(_about(outer.end, line.end, (outer.end[0] - last, outer.end[1])))
    return from_edges(edges)


def _refuse_short(outer: Profile, side: Profile, pairs: FloatArray) -> None:
    """Raise TooTight where a wall by height is thinner than asked: another part of the outside comes near."""
    short, z, wall = shortfall(outer, side, pairs)
    if short <= _SHORT:
        return
    raise TooTight(
        f"at a height of {z:.6g} mm the wall of {wall:.6g} mm comes out as {wall - short:.6g} mm, "
        "because the outside turns in near it",
        z,
        _below(wall - short),
    )


def _about(centre: Point, start: Point, end: Point) -> Edge:
    return Edge(start, end, bulge_about(centre, start, end, ccw=False))


def _refuse_narrow(outer: Profile, pairs: FloatArray, side: Profile) -> None:
    """Raise TooTight where the inner wall reaches the axis above the floor."""
    if side.radii(side.bottom, side.top)[0] > SAME_POINT:
        return
    z, most = _room(outer, pairs, side.bottom, side.top)
    # The floor may follow the wall, so that a thinner one uncovers what lies lower.
    most = min(most, _room(outer, pairs, min(side.bottom, most), side.top)[1])
    raise TooTight(
        f"the wall closes the inside at a height of {z:.6g} mm; the largest there is {most:.6g} mm", z, most
    )


def _room(outer: Profile, pairs: FloatArray, low: float, high: float) -> tuple[float, float]:
    """Where between two heights the outside leaves a wall least room up to the axis, and the most that it takes."""
    heights = np.linspace(low, high, 2001)
    room = distances(outer.edges(), np.column_stack((np.zeros(len(heights)), heights)))
    k = int((room - np.interp(heights, *pairs.T)).argmin())
    return float(heights[k]), _below(float(room[k]) - 5e-4)  # between the heights there is a little less
