"""Contours as they have to be drawn, so that a machine with known errors makes them to size; and back again."""

from __future__ import annotations

from typing import Literal

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.edges import FloatArray
from geometry.records import Record

# Over the part; over a bay of its outline, which has the outline's wall; over an opening closed all round, which has
# another. Slicers correct these two walls apart (OrcaSlicer's settings: xy_contour_compensation, xy_hole_compensation).
Side = Literal["outside", "hollow", "opening"]
LONGEST = 3.0  # of the distance: a sharper corner moves no farther


class DrawnSize(Record):
    """What a machine does: a length comes out as own + scale times length, own for outsides and for openings (mm)."""

    outside: float = 0.0
    inside: float = 0.0
    scale: float = 1.0

    @property
    def exact(self) -> bool:
        return (self.outside, self.inside, self.scale) == (0.0, 0.0, 1.0)

    def drawn(self, size: float, side: Side = "outside") -> float:
        """What is drawn for a size."""
        return (size - self._own(side)) / self.scale

    def made(self, size: float, side: Side = "outside") -> float:
        """What a size comes out at that is drawn so."""
        return self._own(side) + self.scale * size

    def _own(self, side: Side) -> float:
        return {"outside": self.outside, "hollow": -self.outside, "opening": self.inside}[side]

    def outline(self, contour: Contour) -> Contour:
        """Half of the own error outward, then scaled: what is drawn is 1/scale of that."""
        return scaled(moved(contour, -self.outside / 2), 1 / self.scale)

    def opening(self, contour: Contour) -> Contour:
        """Of a clockwise opening, whose own error makes it larger."""
        return scaled(moved(contour, self.inside / 2), 1 / self.scale)

    def made_outline(self, drawn: Contour) -> Contour:
        """What the machine makes of a drawn one: `outline` undone."""
        return moved(scaled(drawn, self.scale), self.outside / 2)

    def made_opening(self, drawn: Contour) -> Contour:
        return moved(scaled(drawn, self.scale), -self.inside / 2)


def scaled(contour: Contour, factor: float) -> Contour:
    """About the origin."""
    return Contour(contour.vertices * (factor, factor, 1.0))


def moved(contour: Contour, distance: float) -> Contour:
    """The same edges, each moved by `distance` (mm) to its right: a counter-clockwise contour grows.

    Corners move along their mitre, beside an arc along its tangent, which is right to the square of the distance over
    the arc's radius. For distances far below every edge's length and radius; nothing is trimmed.
    """
    if distance == 0:
        return contour
    points, sweeps = contour.points, contour.sweeps
    chords = np.arctan2(*(contour.ends - points).T[::-1])
    leaves, comes = chords - sweeps / 2, np.roll(chords + sweeps / 2, 1)
    mitre = _right(leaves) + _right(comes)
    along = 1 + np.cos(leaves - comes)  # 1 + the cosine of the corner's turn
    mitre = mitre / np.maximum(along, 2 / LONGEST**2)[:, None]
    places = points + distance * mitre
    turned = _sweeps(contour, places)
    return Contour(np.column_stack([places, np.tan(turned / 4)]))


def _right(angles: FloatArray) -> FloatArray:
    """Unit vectors to the right of these directions, (n, 2)."""
    return np.column_stack([np.sin(angles), -np.cos(angles)])


def _sweeps(contour: Contour, places: FloatArray) -> FloatArray:
    """Of the edges between moved vertices: arcs keep their centres."""
    found = np.zeros(len(places))
    for k, edge in enumerate(contour.edges()):
        if edge.is_arc:
            start, end = places[k] - edge.centre, places[(k + 1) % len(places)] - edge.centre
            turn = np.arctan2(end[1], end[0]) - np.arctan2(start[1], start[0])
            found[k] = turn + 2 * np.pi * np.round((edge.angle - turn) / (2 * np.pi))
    return found
