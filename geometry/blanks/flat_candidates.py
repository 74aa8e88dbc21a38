"""Many stacks of flat rings for one vessel at once: every height of ring with every count of segments.

Arrays are (m, k): m candidates, k rings from the foot up, NaN where a stack has fewer. Lengths mm, angles radians.
The formulas are those of `geometry.blanks.ring_stack`, which the tests hold them against one by one; the vessel is
looked at in points STEP apart, so that a radius may be short by as much as it grows over a step.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from geometry.bodies.section import Section
from geometry.plane.edges import BoolArray, FloatArray
from geometry.plane.sample import IntArray, sample_with_counts
from geometry.records import Record, fields

STEP = 0.1  # mm
TOUCH = 1e-4  # mm; what only touches a ring's face is not in it
ON_AXIS = 1e-3  # mm

Places = Sequence[tuple[float, float]]  # bottom and top of each ring, from the foot up


class FlatCandidates(Record, eq=False):
    """Stacks that hold the vessel with its allowance; whether saw, lathe and glue allow them is not asked here."""

    choice: IntArray  # (m,) which of the heights
    segments: IntArray  # (m,) in every ring that is not a disc
    bottom: FloatArray
    top: FloatArray
    outer: FloatArray  # apothem; of a disc the radius
    core: FloatArray  # apothem of the opening; 0 where there is none
    disc: BoolArray  # a ring in one solid piece

    @property
    def mitre(self) -> FloatArray:
        """(m, 1)"""
        return np.asarray(np.pi / self.segments)[:, None]

    @property
    def rings(self) -> IntArray:
        """(m,)"""
        return np.asarray(np.isfinite(self.outer).sum(axis=1))

    @property
    def pieces(self) -> IntArray:
        """(m,): segments of all rings."""
        return np.asarray(self.segments * (np.isfinite(self.outer) & ~self.disc).sum(axis=1))

    @property
    def height(self) -> FloatArray:
        return self.top - self.bottom

    @property
    def depth(self) -> FloatArray:
        return self.outer - self.core

    @property
    def radius(self) -> FloatArray:
        """(m,): of what spins."""
        corners = np.where(self.disc, self.outer, self.outer / np.cos(self.mitre))
        return np.asarray(np.nanmax(corners, axis=1))

    def smallest(self, spacer: float) -> FloatArray:
        """(m,): the least outer edge of a segment; infinite where there are none."""
        edge = 2 * self.outer * np.tan(self.mitre) - spacer / np.cos(self.mitre)
        return np.asarray(np.min(np.where(self.disc | np.isnan(edge), np.inf, edge), axis=1))

    @property
    def glue(self) -> FloatArray:
        """(m,): the least width on which two rings meet as glued, turned by half a segment; infinite for one ring."""
        corner = 1 / np.cos(self.mitre)
        reach, opening = np.where(self.disc, self.outer, self.outer * corner), self.core * corner
        below, above = slice(0, -1), slice(1, None)
        one = np.minimum(self.outer[:, below], reach[:, above]) - np.maximum(
            self.core[:, below], opening[:, above]
        )
        two = np.minimum(self.outer[:, above], reach[:, below]) - np.maximum(
            self.core[:, above], opening[:, below]
        )
        met = np.minimum(one, two)
        return np.asarray(np.min(np.where(np.isnan(met), np.inf, met), axis=1, initial=np.inf))

    def closing_gap(self, error: float) -> FloatArray:
        """(m,): at the widest ring's last joint, where every segment's angle is out by `error`."""
        return np.asarray(self.radius * self.segments * error)

    def sawn(self, flattening: float, kerf: float, parts: int = 1) -> FloatArray:
        """(m,): wood that the segments are sawn from, with the kerf of every cut, and squares for discs."""
        pitch = (self.outer + self.core) * np.tan(self.mitre) + parts * kerf / np.cos(self.mitre)
        strips = self.segments[:, None] * pitch * self.depth
        area = np.where(self.disc, 4 * self.outer**2, strips)
        return np.asarray(np.nansum(area * (self.height + flattening), axis=1))

    @property
    def joints(self) -> FloatArray:
        """(m,): mm2 of mitres, one for each segment."""
        each = np.where(
            self.disc, 0.0, self.segments[:, None] * self.depth / np.cos(self.mitre) * self.height
        )
        return np.asarray(np.nansum(each, axis=1))

    @property
    def faces(self) -> FloatArray:
        """(m,): mm2 of rings glued on rings, each by the smaller of the two."""
        area = np.pi * (self.outer**2 - self.core**2)
        return np.asarray(np.nansum(np.minimum(area[:, :-1], area[:, 1:]), axis=1))

    def chosen(self, which: BoolArray | IntArray) -> FlatCandidates:
        """Those of a mask or of these places, in order."""
        return FlatCandidates(*(getattr(self, field.name)[which] for field in fields(self)))

    def __len__(self) -> int:
        return len(self.segments)


def flat_candidates(
    section: Section, allowance: float, places: Sequence[Places], segments: Sequence[int], widest_disc: float
) -> FlatCandidates:
    """For each choice of `places` one candidate with each count. A ring that closes over the middle is a disc up to
    this finished diameter."""
    most = max(len(one) for one in places)
    grown, finished = _points(section, allowance), _points(section, 0.0)
    ends = [np.array(one) for one in places]
    bottom, top = (np.array([_padded(one[:, k], most) for one in ends]) for k in (0, 1))
    radii = [_extremes(grown, one) for one in ends]
    least, outer = (np.array([_padded(row[k], most) for row in radii]) for k in (0, 1))
    closed = least <= ON_AXIS
    widest = np.array([_padded(_extremes(finished, one)[1], most) for one in ends])
    disc = closed & (2 * widest <= widest_disc)
    counts, choice = (
        np.tile(np.asarray(segments), len(places)),
        np.repeat(np.arange(len(places)), len(segments)),
    )
    core = np.where(closed, 0.0 * least, least)[choice] * np.cos(np.pi / counts)[:, None]
    return FlatCandidates(choice, counts, bottom[choice], top[choice], outer[choice], core, disc[choice])


def _points(section: Section, allowance: float) -> FloatArray:
    """On the section's outline, STEP apart, by height."""
    grown = section.dilated(allowance)
    points = sample_with_counts(grown, np.maximum(1, np.ceil(grown.lengths / STEP)).astype(int))
    return np.asarray(points[np.argsort(points[:, 1], kind="stable")])


def _extremes(points: FloatArray, ends: FloatArray) -> tuple[FloatArray, FloatArray]:
    """The least and the largest radius between the two heights of each row (k, 2)."""
    heights = (ends + np.array((TOUCH, -TOUCH))).ravel()
    cuts = np.minimum(np.searchsorted(points[:, 1], heights), len(points) - 1)
    x = points[:, 0]
    return np.minimum.reduceat(x, cuts)[::2], np.maximum.reduceat(x, cuts)[::2]


def _padded(row: FloatArray, most: int) -> FloatArray:
    return np.concatenate((row, np.full(most - len(row), np.nan)))
