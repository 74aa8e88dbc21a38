"""The inner side of a wall whose thickness changes with height, measured square to the outer surface. mm."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from geometry.curves.biarcs import biarcs
from geometry.plane.arcs import FloatArray, points_along
from geometry.plane.crossings import crossings, parameter
from geometry.plane.edges import Edge
from geometry.plane.loops import part
from geometry.plane.profile import Profile, from_edges
from geometry.records import dataclass

_MEET = 1e-6  # mm; runs whose ends are no farther apart than this meet


@dataclass(frozen=True)
class _Moved:
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


@dataclass(frozen=True)
class _Stretch:
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
