"""Cutting a contour in two along a path, and the path of a joint with a key. Lengths mm."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.crossings import crossings, parameter
from geometry.plane.edges import SAME_POINT, Edge, FloatArray, Point, lengths_of
from geometry.plane.loops import part
from geometry.records import Record, replace

NEAR = 2e-6  # mm from a vertex of the contour, within which the path is taken to go through it
FLARE = math.radians(15)  # of a key's flanks: it cannot be drawn out in the plane of the plate


class Key(Record):
    """A dovetail on the straight line from `start` to `end`, standing out to its right.

    `along` is the distance of the key's middle from `start`, `neck` its width on the line, `depth` how far it
    stands out.
    """

    start: Point
    end: Point
    along: float
    neck: float
    depth: float

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    def path(self, play: float = 0.0) -> FloatArray:
        """The joint's line with the key, (6, 3) of x, y, bulge.

        The key's two flanks are drawn in by half of `play` each, square to themselves, and its tip by all of
        it; the line to either side of it stays.
        """
        neck = self.neck / 2 - play / (2 * math.cos(FLARE))
        depth = self.depth - play
        tip = neck + depth * math.tan(FLARE)
        local = ((-neck, 0.0), (-tip, depth), (tip, depth), (neck, 0.0))
        points = [self.start, *(self._placed(self.along + x, out) for x, out in local), self.end]
        return np.array([(x, y, 0.0) for x, y in points])

    def _placed(self, along: float, out: float) -> Point:
        ux, uy = (self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length
        return self.start[0] + along * ux + out * uy, self.start[1] + along * uy - out * ux


class _Meeting(Record):
    """Where the path meets the contour: edge and fraction of each."""

    path_edge: int
    path_at: float
    edge: int
    at: float


def split(contour: Contour, path: FloatArray) -> tuple[Contour, Contour]:
    """The parts of a counter-clockwise contour to the left and to the right of an open path.

    `path` is (k, 3) of x, y and the bulge of the edge to the next row; it starts and ends outside, or on the
    contour. Arcs stay arcs. Raises ValueError unless the path enters the contour once and leaves it once.
    """
    edges, line = contour.edges(), _path_edges(path)
    meetings = _meetings(contour, line)
    if len(meetings) != 2:
        raise ValueError(f"a path that splits a contour meets it twice, not {len(meetings)} times")
    enters, leaves = meetings
    if not contour.contains(np.array([_between(line, enters, leaves)]))[0]:
        raise ValueError("a path that splits a contour runs inside it between the two places where they meet")
    inside = _run(line, (enters.path_edge, enters.path_at), (leaves.path_edge, leaves.path_at))
    middle = _pinned(inside, edges[enters.edge].point_at(enters.at), edges[leaves.edge].point_at(leaves.at))
    back = [Edge(edge.end, edge.start, -edge.bulge) for edge in reversed(middle)]
    left = _run(edges, (leaves.edge, leaves.at), (enters.edge, enters.at), round_about=True)
    right = _run(edges, (enters.edge, enters.at), (leaves.edge, leaves.at), round_about=True)
    return _closed([*middle, *left]), _closed([*back, *right])


def line_meetings(contour: Contour, start: Point, end: Point) -> list[tuple[Point, float]]:
    """Where a straight line meets a contour, in order along it, and at what angle (0 to π/2 radians)."""
    edges, line = contour.edges(), (Edge(start, end),)
    heading = line[0].heading(0.0)
    found = []
    for meeting in _meetings(contour, line):
        turn = (edges[meeting.edge].heading(meeting.at) - heading) % math.pi
        found.append((line[0].point_at(meeting.path_at), min(turn, math.pi - turn)))
    return found


def _path_edges(path: FloatArray) -> tuple[Edge, ...]:
    rows = path.tolist()
    return tuple(Edge((a[0], a[1]), (b[0], b[1]), a[2]) for a, b in pairwise(rows))


def _meetings(contour: Contour, line: tuple[Edge, ...]) -> list[_Meeting]:
    """In order along the path; a vertex that it goes through counts once."""
    edges = contour.edges()
    found: list[_Meeting] = []
    for i, piece in enumerate(line):
        for k in _near(contour, piece):
            for point in crossings(piece, edges[k]):
                meeting = _Meeting(
                    i, parameter(piece, point), k, _snapped(edges[k], parameter(edges[k], point))
                )
                if all(math.dist(_place(line, other), point) > 10 * SAME_POINT for other in found):
                    found.append(meeting)
    return sorted(found, key=lambda m: (m.path_edge, m.path_at))


def _near(contour: Contour, piece: Edge) -> list[int]:
    """Numbers of the edges that may meet a piece of the path: those whose boxes, seen along it, overlap its own."""
    heading = math.atan2(piece.end[1] - piece.start[1], piece.end[0] - piece.start[0])
    axes = np.array(((math.cos(heading), -math.sin(heading)), (math.sin(heading), math.cos(heading))))
    starts, ends = (contour.points - piece.start) @ axes, (contour.ends - piece.start) @ axes
    room = (_swelling(contour.vertices[:, 2], lengths_of(ends - starts)) + NEAR)[:, None]
    low, high = np.minimum(starts, ends) - room, np.maximum(starts, ends) + room
    own = float(_swelling(np.array((piece.bulge,)), np.array((piece.chord,)))[0])
    met = (low <= (piece.chord + own, own)) & (high >= (-own, -own))
    return [int(k) for k in np.flatnonzero(met.all(axis=1))]


def _swelling(bulges: FloatArray, chords: FloatArray) -> FloatArray:
    """How far an arc may stand out of its chord's box: its sagitta, its whole diameter over half a turn."""
    size = np.abs(bulges)
    whole = chords * (1.0 + size**2) / np.maximum(2.0 * size, 1.0)
    return np.asarray(np.where(size <= 1.0, chords * size / 2.0, whole))


def _snapped(edge: Edge, at: float) -> float:
    """A fraction of an edge, a vertex nearer than NEAR taken for it: so no piece is too short to be one."""
    if at * edge.length < NEAR:
        return 0.0
    return 1.0 if (1.0 - at) * edge.length < NEAR else at


def _pinned(run: list[Edge], start: Point, end: Point) -> list[Edge]:
    """A run whose ends are moved to where the contour is cut, so that the contour's own arcs stay exact."""
    run = [replace(run[0], start=start), *run[1:]]
    return [*run[:-1], replace(run[-1], end=end)]


def _place(line: tuple[Edge, ...], meeting: _Meeting) -> Point:
    return line[meeting.path_edge].point_at(meeting.path_at)


def _between(line: tuple[Edge, ...], first: _Meeting, last: _Meeting) -> Point:
    """A point of the path between two meetings."""
    end = last.path_at if first.path_edge == last.path_edge else 1.0
    return line[first.path_edge].point_at((first.path_at + end) / 2)


def _run(
    edges: tuple[Edge, ...], start: tuple[int, float], end: tuple[int, float], round_about: bool = False
) -> list[Edge]:
    """The edges from one place (edge, fraction) to another; `round_about` on a closed contour."""
    if start[0] == end[0] and start[1] < end[1]:
        return [part(edges[start[0]], start[1], end[1])]
    count = (end[0] - start[0]) % len(edges) or len(edges) if round_about else end[0] - start[0]
    whole = [edges[(start[0] + k) % len(edges)] for k in range(1, count)]
    pieces = [part(edges[start[0]], start[1], 1.0), *whole, part(edges[end[0]], 0.0, end[1])]
    return [piece for piece in pieces if piece.length > SAME_POINT]


def _closed(edges: list[Edge]) -> Contour:
    return Contour(np.array([(*edge.start, edge.bulge) for edge in edges]))
