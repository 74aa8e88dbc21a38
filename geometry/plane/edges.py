"""One straight or circular edge."""

from __future__ import annotations

import math

from geometry.plane.arcs import Point
from geometry.records import dataclass


@dataclass(frozen=True)
class Edge:
    """A straight (bulge 0) or circular edge from `start` to `end`, mm."""

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def is_arc(self) -> bool:
        return self.bulge != 0.0

    @property
    def angle(self) -> float:
        """Angle turned through from start to end, radians, + counter-clockwise; 0 when straight."""
        return 4.0 * math.atan(self.bulge)

    @property
    def chord(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def apart(self) -> Point:
        """How far its two ends are apart, along x and along y."""
        return abs(self.start[0] - self.end[0]), abs(self.start[1] - self.end[1])

    @property
    def ends(self) -> tuple[float, float, float, float]:
        """Left, low, right and high of its two ends."""
        (x0, y0), (x1, y1) = self.start, self.end
        return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)

    @property
    def length(self) -> float:
        half = self.angle / 2.0
        return self.chord * (half / math.sin(half) if half else 1.0)

    @property
    def radius(self) -> float:
        """Radius of the arc; infinite for a straight edge."""
        if not self.is_arc:
            return math.inf
        return self.chord * (1.0 + self.bulge**2) / (4.0 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Centre of the arc. Raises ValueError for a straight edge."""
        if not self.is_arc:
            raise ValueError("a straight edge has no centre")
        k = (1.0 - self.bulge**2) / (4.0 * self.bulge)
        (x0, y0), (x1, y1) = self.start, self.end
        return (x0 + x1) / 2.0 - k * (y1 - y0), (y0 + y1) / 2.0 + k * (x1 - x0)

    @property
    def midpoint(self) -> Point:
        """The point half-way along the edge (on the arc)."""
        return self.point_at(0.5)

    def point_at(self, t: float) -> Point:
        """The point at the fraction `t` of the edge's length."""
        half = self.angle / 2.0
        share = math.sin(t * half) / math.sin(half) if half else t
        cos, sin = share * math.cos((t - 1.0) * half), share * math.sin((t - 1.0) * half)
        (x0, y0), (x1, y1) = self.start, self.end
        dx, dy = x1 - x0, y1 - y0
        return x0 + cos * dx - sin * dy, y0 + sin * dx + cos * dy

    def heading(self, t: float) -> float:
        """Direction of travel at the fraction `t`, radians from +x."""
        chord = math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])
        return chord + (t - 0.5) * self.angle
