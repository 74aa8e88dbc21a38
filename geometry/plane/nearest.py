"""How far points lie from edges, and how far a ray runs to them. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.plane.edges import BoolArray, Edge, FloatArray, IntArray, lengths_of, paired, points_along
from geometry.records import Record, cached_property

_DENSE = 40_000  # pairs of point and edge that are simply all looked at
_BLOCK = 96  # points in a row that are looked at together: they lie near each other


class Table(Record, eq=False):
    """Edges as arrays, one row each: to be kept where many points are held against the same edges."""

    start: FloatArray
    end: FloatArray
    sweep: FloatArray  # radians, 0 for a straight edge

    @staticmethod
    def of(edges: Sequence[Edge] | Table) -> Table:
        if isinstance(edges, Table):
            return edges
        rows = np.array([(*e.start, *e.end, e.angle) for e in edges], dtype=np.float64).reshape(-1, 5)
        return Table(rows[:, :2], rows[:, 2:4], rows[:, 4])

    def __len__(self) -> int:
        return len(self.sweep)

    def only(self, kept: IntArray) -> Table:
        return Table(self.start[kept], self.end[kept], self.sweep[kept])

    @cached_property
    def arcs(self) -> IntArray:
        return np.flatnonzero(self.sweep)

    @cached_property
    def circles(self) -> tuple[FloatArray, FloatArray]:
        """Centre and radius of each arc."""
        start, end, half = self.start[self.arcs], self.end[self.arcs], self.sweep[self.arcs] / 2.0
        chord = end - start
        k = (1.0 / np.tan(half) / 2.0)[:, None]
        centre = (start + end) / 2.0 + k * paired(-chord[:, 1], chord[:, 0])
        return centre, lengths_of(chord) / (2.0 * np.abs(np.sin(half)))

    @cached_property
    def _boxes(self) -> tuple[FloatArray, FloatArray]:
        """Low and high corners (n, 2) of boxes round the edges: their chords', wider by as much as an arc is high."""
        half, chord = np.abs(self.sweep) / 2.0, lengths_of(self.end - self.start)
        arc = np.where(half <= np.pi / 2.0, np.tan(half / 2.0) / 2.0, 1.0 / np.maximum(np.sin(half), 1e-300))
        room = (chord * arc)[:, None]
        return np.minimum(self.start, self.end) - room, np.maximum(self.start, self.end) + room

    def meeting(self, low: FloatArray, high: FloatArray) -> IntArray:
        """Which edges may come into a box between two corners; all that do are among them."""
        lows, highs = self._boxes
        return np.flatnonzero(((lows <= high) & (highs >= low)).all(axis=1))

    def faced(self, away: FloatArray) -> BoolArray:
        """Whether each arc (k) spans the direction of `away` (m, k, 2) from its centre."""
        first = self.start[self.arcs] - self.circles[0]
        turned = np.arctan2(away[..., 1], away[..., 0]) - np.arctan2(first[:, 1], first[:, 0])
        sweep = self.sweep[self.arcs]
        return np.asarray(np.sign(sweep) * turned % (2.0 * np.pi) <= np.abs(sweep))


def distances(edges: Sequence[Edge] | Table, points: FloatArray) -> FloatArray:
    """Distance of each point (m, 2) from the nearest of the edges, (m,)."""
    return nearest(edges, points)[0]


def nearest(edges: Sequence[Edge] | Table, points: FloatArray) -> tuple[FloatArray, IntArray]:
    """Distance of each point (m, 2) from the nearest of the edges, and the number of this edge, (m,) each."""
    table = Table.of(edges)
    if len(points) * len(table) <= _DENSE:
        return _nearest(table, points)
    middles = points_along(table.start, table.end, table.sweep, np.array(0.5))
    room = np.maximum(lengths_of(table.start - middles), lengths_of(table.end - middles))
    gaps, which = np.empty(len(points)), np.empty(len(points), dtype=np.intp)
    for first in range(0, len(points), _BLOCK):
        block = slice(first, first + _BLOCK)
        kept = _within_reach(middles, room, points[block])
        gaps[block], own = _nearest(table.only(kept), points[block])
        which[block] = kept[own]
    return gaps, which


def feet(edges: Sequence[Edge] | Table, which: IntArray, points: FloatArray) -> FloatArray:
    """The place on an edge, by its number, that is nearest to each point (m, 2)."""
    table = Table.of(edges).only(which)
    chord = table.end - table.start
    along = ((points - table.start) * chord).sum(axis=-1) / np.maximum((chord**2).sum(axis=-1), 1e-300)
    found = table.start + np.clip(along, 0.0, 1.0)[:, None] * chord
    arcs = table.arcs
    if len(arcs):
        centres, radii = table.circles
        start, end, away = table.start[arcs], table.end[arcs], points[arcs] - centres
        first = lengths_of(points[arcs] - start) < lengths_of(points[arcs] - end)
        on_circle = centres + away * (radii / np.maximum(lengths_of(away), 1e-300))[:, None]
        at_end = np.where(first[:, None], start, end)
        found[arcs] = np.where(table.faced(away)[:, None], on_circle, at_end)
    return np.asarray(found, dtype=np.float64)


def _within_reach(middles: FloatArray, room: FloatArray, points: FloatArray) -> IntArray:
    """The edges, by their middles and what holds them about these, that may be nearest to one of the points."""
    centre = (points.min(axis=0) + points.max(axis=0)) / 2.0
    spread = float(lengths_of(points - centre).max())
    away = lengths_of(middles - centre)
    # A middle lies on its edge, so no point is farther from the nearest edge than this.
    return np.flatnonzero(away - room <= away.min() + 2.0 * spread)


def _nearest(table: Table, points: FloatArray) -> tuple[FloatArray, IntArray]:
    gap = _gaps(table, points)
    which = gap.argmin(axis=1)
    return gap[np.arange(len(points)), which], which


def _gaps(table: Table, points: FloatArray) -> FloatArray:
    """Distance of each point from each edge, (m, n)."""
    x, y = points[:, :1], points[:, 1:]
    arcs = table.arcs
    if not len(arcs):
        return _to_chords(table, x, y)
    gap = np.empty((len(points), len(table)))
    straight = np.flatnonzero(table.sweep == 0.0)
    if len(straight):
        gap[:, straight] = _to_chords(table.only(straight), x, y)
    gap[:, arcs] = _to_arcs(table, x, y)
    return gap


def _to_chords(table: Table, x: FloatArray, y: FloatArray) -> FloatArray:
    across, up = (table.end - table.start).T
    dx, dy = x - table.start[:, 0], y - table.start[:, 1]
    along = (dx * across + dy * up) / np.maximum(across**2 + up**2, 1e-300)
    np.clip(along, 0.0, 1.0, out=along)
    return np.asarray(np.hypot(dx - along * across, dy - along * up))


def _to_arcs(table: Table, x: FloatArray, y: FloatArray) -> FloatArray:
    centres, radii = table.circles
    away = np.stack((x - centres[:, 0], y - centres[:, 1]), axis=-1)
    off_circle = np.abs(np.hypot(away[..., 0], away[..., 1]) - radii)
    faced = table.faced(away)
    if faced.all():
        return off_circle
    to_start, to_end = (
        np.hypot(x - end[:, 0], y - end[:, 1]) for end in (table.start[table.arcs], table.end[table.arcs])
    )
    return np.where(faced, off_circle, np.minimum(to_start, to_end))


def ray_lengths(
    edges: Sequence[Edge] | Table, points: FloatArray, directions: FloatArray, beyond: float
) -> FloatArray:
    """How far it is from each point (m, 2), along its unit direction, to the first of the edges; infinite to none.

    Edges met less than `beyond` away do not count.
    """
    table = Table.of(edges)
    rows = max(1, _DENSE // max(1, len(edges)))
    found = [
        _rays(table, points[k : k + rows], directions[k : k + rows], beyond).min(axis=1, initial=np.inf)
        for k in range(0, len(points), rows)
    ]
    return np.concatenate(found) if found else np.zeros(0)


def _rays(table: Table, points: FloatArray, directions: FloatArray, beyond: float) -> FloatArray:
    """How far each ray runs to each edge, (m, n), infinite where it misses it."""
    chord, way = table.end - table.start, table.start - points[:, None]
    ahead = directions[:, None]
    with np.errstate(divide="ignore", invalid="ignore"):
        across = _cross(ahead, chord)
        length, share = _cross(way, chord) / across, _cross(way, ahead) / across
        met = (share >= -1e-9) & (share <= 1.0 + 1e-9) & (length >= beyond)
    found = np.where(met, length, np.inf)
    if len(table.arcs):
        found[:, table.arcs] = _rays_to_arcs(table, points, directions, beyond)
    return np.asarray(found)


def _rays_to_arcs(table: Table, points: FloatArray, directions: FloatArray, beyond: float) -> FloatArray:
    centres, radii = table.circles
    way = centres - points[:, None]
    foot = (way * directions[:, None]).sum(axis=-1)
    square = radii**2 - _cross(directions[:, None], way) ** 2
    half = np.sqrt(np.maximum(square, 0.0))
    found = np.full(foot.shape, np.inf)
    for length in (foot - half, foot + half):
        away = points[:, None] + length[..., None] * directions[:, None] - centres
        met = (square >= 0.0) & (length >= beyond) & table.faced(away)
        found = np.where(met, np.minimum(found, length), found)
    return found


def _cross(a: FloatArray, b: FloatArray) -> FloatArray:
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0])
