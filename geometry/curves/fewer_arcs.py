"""A chain of many short edges as few arcs, within a stated deviation. Lengths mm."""

from __future__ import annotations

import numpy as np

from geometry.curves.biarcs import TOLERANCE, biarc_rows, unit
from geometry.plane.contour import Contour
from geometry.plane.edges import BoolArray, FloatArray, IntArray, lengths_of, points_along
from geometry.plane.nearest import distances

MANY = 150  # edges; a chain of fewer is left as it is
_SAMPLES = 65  # vertices of a stretch that are looked at while it grows; all of them at last
_MARGIN = 0.95  # of the tolerance may be used where not all vertices are looked at


def fewer_arcs(rows: FloatArray, tolerance: float = TOLERANCE) -> FloatArray:
    """Rows (n, 3) of x, y, bulge of an open chain with arcs in place of runs of its edges that these follow.

    No vertex and no middle of an edge lies farther than `tolerance` from the new chain. A chain of fewer than MANY
    edges, and one of which no half could be saved, comes back as it is. Pairs of neighbouring runs are merged for as
    long as one biarc follows both.
    """
    if len(rows) <= MANY:
        return rows
    chain = _Chain(rows)
    cuts, parity, idle = np.arange(len(rows)), 0, 0
    while idle < 2 and len(cuts) > 2:
        k = np.arange(parity, len(cuts) - 2, 2)
        merged = chain.follows(cuts[k], cuts[k + 2], _MARGIN * tolerance)
        idle = 0 if merged.any() else idle + 1
        cuts, parity = np.delete(cuts, k[merged] + 1), 1 - parity
    found = chain.rows_of(cuts)
    if len(found) > len(rows) / 2:
        return rows
    edges = Contour(found).edges()[:-1]
    return found if float(distances(edges, chain.looked_at).max()) <= tolerance else rows


class _Chain:
    """The vertices, the middles of the edges between them, and a tangent at each vertex."""

    def __init__(self, rows: FloatArray) -> None:
        self.rows, self.points = rows, rows[:, :2]
        sweeps = 4.0 * np.arctan(rows[:-1, 2])
        middles = points_along(self.points[:-1], self.points[1:], sweeps, np.array(0.5))
        self.looked_at = np.empty((2 * len(rows) - 1, 2))
        self.looked_at[::2], self.looked_at[1::2] = self.points, middles
        chord = np.diff(self.points, axis=0)
        self._tangents = _tangents(np.arctan2(chord[:, 1], chord[:, 0]), sweeps, lengths_of(chord))

    def follows(self, first: IntArray, last: IntArray, tolerance: float) -> BoolArray:
        """Which runs, between these vertices (m,), one biarc follows."""
        share = np.linspace(0.0, 1.0, _SAMPLES)
        places = np.rint(2 * first[:, None] + share * 2 * (last - first)[:, None]).astype(np.intp)
        return biarc_rows(self.looked_at[places], self._tangents[first], self._tangents[last], tolerance)[1]

    def rows_of(self, cuts: IntArray) -> FloatArray:
        """The chain of single edges as they were, and of the biarcs of all longer runs."""
        first, last = cuts[:-1], cuts[1:]
        ends = np.stack((self.points[first], self.points[last]), axis=1)
        pairs, _ = biarc_rows(ends, self._tangents[first], self._tangents[last], np.inf)
        alone = last - first == 1
        own = self.rows[first]
        found = [own[k : k + 1] if alone[k] else pairs[k] for k in range(len(first))]
        return np.vstack((*found, (*self.points[-1], 0.0)))


def _tangents(chords: FloatArray, sweeps: FloatArray, lengths: FloatArray) -> FloatArray:
    """Unit tangents at the vertices (n, 2): of the circle through three where edges meet at an angle."""
    arriving, leaving = chords + sweeps / 2.0, chords - sweeps / 2.0
    turn = (leaving[1:] - arriving[:-1] + np.pi) % (2.0 * np.pi) - np.pi
    inner = arriving[:-1] + turn * lengths[:-1] / (lengths[:-1] + lengths[1:])
    first = leaving[0] - (turn[0] / 2.0 if len(turn) else 0.0)
    final = arriving[-1] + (turn[-1] / 2.0 if len(turn) else 0.0)
    headings = np.concatenate(((first,), inner, (final,)))
    return unit(np.column_stack((np.cos(headings), np.sin(headings))))
