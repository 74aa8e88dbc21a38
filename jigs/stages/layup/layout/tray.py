"""The tray in which a segment's pieces are glued up mirrored, where its plies meet, and the holder for sanding a piece.

Tray: x runs along side a and y along side b of the whole segment as glued, from the corner of its two fences. A
side that is mirrored is made of two pieces, its seam in the middle. Within a piece p and q run along a and b from
the seam, or from the piece's end where that side is not mirrored; the plies are counted from that corner of the
piece as cut.

Holder: a glue face stands out by what is left to take off. x across the pocket, 0 in its middle; y from the pocket's
floor, on which the piece's other end stands, to the reference edge, which is the finished size. Distances are common
practice, no source. Lengths mm, angles radians.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from math import cos, floor, sin

from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import TAB
from geometry.records import Record

Point = tuple[float, float]
Span = tuple[Point, Point]

CORNER = 8.0  # left free between the fences: glue
LEAST_FENCE = 2 * TAB + 25
LEAST_HEIGHT = 15.0
FENCE_SHORT = 2.0  # of the pieces' top: clamps bear on the wood
PAST = 14.0  # of the base past the work and the fences: witness lines
BESIDE = 12.0  # of the base behind a fence
FOOT = 50.0  # of the base before the lower fence: lettering
NO_LENGTH = 1e-6  # mm


class LayupTrayLayout(Record):
    """A segment of 1, 2 or 4 pieces."""

    plies: tuple[float, ...]
    angle: float  # of side a to the plies
    a: float  # of a piece, as cut
    b: float
    across: float  # of a piece, sanded
    up: float
    columns: int  # pieces along a: 2 where it is mirrored left and right
    rows: int
    turned: bool
    height: float  # depth of the pieces
    sheet: float
    play: float

    @property
    def size(self) -> Point:
        """Of the segment as glued."""
        return (self.columns * self.across, self.rows * self.up)

    @property
    def fences(self) -> tuple[float, float]:
        """Where the fence along x and the one along y end."""
        x, y = self.size
        return (max(x + BESIDE, CORNER + LEAST_FENCE), max(y + BESIDE, CORNER + LEAST_FENCE))

    @property
    def fence_height(self) -> float:
        return max(self.height - FENCE_SHORT, LEAST_HEIGHT)

    def tabs(self, end: float) -> tuple[float, float]:
        """Where the two tabs of a fence start that ends there."""
        return (CORNER + 6, end - 6 - TAB)

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Of the base."""
        right, top = self.fences
        return (-self.sheet - BESIDE, -self.sheet - FOOT, right + PAST, top + PAST)

    @property
    def corner(self) -> Point:
        """p and q at a sanded piece's corner at the seams, or where its ends have been sanded alike."""
        lost = (self.a - self.across, self.b - self.up)
        return (lost[0] if self.columns == 2 else lost[0] / 2, lost[1] if self.rows == 2 else lost[1] / 2)

    def joints(self) -> list[float]:
        """Distances square to the plies of the faces where two strips of a stack meet, from the piece's corner."""
        return self._repeated((0.0,))

    def boundaries(self) -> list[float]:
        """The same of all faces where two plies meet."""
        faces = [sum(self.plies[:i]) for i in range(len(self.plies))]
        return self._repeated(tuple(faces))

    def _repeated(self, faces: tuple[float, ...]) -> list[float]:
        most, sheet = self.a * sin(self.angle) + self.b * cos(self.angle), sum(self.plies)
        found = [face + k * sheet for k in range(int(most / sheet) + 1) for face in faces]
        return [d for d in found if NO_LENGTH < d < most - NO_LENGTH]

    def lines(self, distances: list[float]) -> list[Span]:
        """Where faces at these distances show on the segment: one line for each piece that they cross."""
        spans = [span for d in distances if (span := self._in_piece(d)) is not None]
        return [
            (self._placed(start, i, j), self._placed(end, i, j))
            for i in range(self.columns)
            for j in range(self.rows)
            for start, end in spans
        ]

    def _in_piece(self, d: float) -> Span | None:
        """p and q of both ends of the face at `d` within a sanded piece."""
        c, s = cos(self.angle), sin(self.angle)
        (p0, q0), (p1, q1) = self.corner, (self.corner[0] + self.across, self.corner[1] + self.up)
        if self.turned:  # counted from the other end
            p0, p1 = self.a - p1, self.a - p0
        ends = list(_clipped(d, (c, s), (p0, q0), (p1, q1)))
        if len(ends) < 2 or _far(ends[0], ends[-1]) < NO_LENGTH:
            return None
        first, last = ((self.a - p if self.turned else p, q) for p, q in (ends[0], ends[-1]))
        return first, last

    def _placed(self, place: Point, column: int, row: int) -> Point:
        p, q = place[0] - self.corner[0], place[1] - self.corner[1]
        x = self.across + (p if column else -p) if self.columns == 2 else p
        y = self.up + (q if row else -q) if self.rows == 2 else q
        return x, y

    def meetings(self, distances: list[float]) -> tuple[list[float], list[float], list[float], list[float]]:
        """Where lines reach the segment's lower, upper, left and right edge: x, x, y and y."""
        wide, tall = self.size
        ends = [end for line in self.lines(distances) for end in line]
        return (
            _sorted(x for x, y in ends if abs(y) < NO_LENGTH),
            _sorted(x for x, y in ends if abs(y - tall) < NO_LENGTH),
            _sorted(y for x, y in ends if abs(x) < NO_LENGTH),
            _sorted(y for x, y in ends if abs(x - wide) < NO_LENGTH),
        )


def _clipped(d: float, normal: Point, low: Point, high: Point) -> Iterator[Point]:
    """Points, along the line, where p·sin + q·cos = d meets the edges of a rectangle."""
    c, s = normal
    found = set[Point]()
    if s > NO_LENGTH:
        found |= {((d - q * c) / s, q) for q in (low[1], high[1])}
    if c > NO_LENGTH:
        found |= {(p, (d - p * s) / c) for p in (low[0], high[0])}
    for p, q in sorted(found):
        if low[0] - NO_LENGTH <= p <= high[0] + NO_LENGTH and low[1] - NO_LENGTH <= q <= high[1] + NO_LENGTH:
            yield p, q


def _far(first: Point, second: Point) -> float:
    return max(abs(first[0] - second[0]), abs(first[1] - second[1]))


def _sorted(values: Iterator[float]) -> list[float]:
    return sorted({round(value, 6) for value in values})


SHOULDER = 28.0  # of the reference edge on both sides of the pocket
FLOOR = 30.0  # under the pocket
RELIEF = 2.0  # of the pocket's inner corners
BAR = 18.0  # width of the bar over the piece
BAR_SHORT = 2.0  # of the reference edge
BOLT_SHORT = 10.0
PROUD = 1.0  # of the piece above the plates, so that the bar bears on it
FINGER, NOTCH = 12.0, 15.0  # of the size gauge: width between notches, and their depth
GAUGE_HEIGHT = 45.0


class SandingHolder(Record):
    """For the faces at one end of side a, or of side b."""

    side: str  # "a" or "b", that is sanded to size
    cut: float  # that side as cut
    finished: float
    across: float  # the other side, as cut
    depth: float
    sheet: float
    play: float
    fittings: Fittings = field(kw_only=True)

    @property
    def left(self) -> float:
        """What is taken off: how far the glue face stands out."""
        return self.cut - self.finished

    @property
    def half(self) -> float:
        """Of the pocket's width."""
        return (self.across + self.play) / 2

    @property
    def half_width(self) -> float:
        """Of the whole."""
        return self.half + SHOULDER

    @property
    def layers(self) -> int:
        """Plates with the pocket, glued to each other: the piece stands proud of them."""
        return max(1, floor((self.depth - PROUD) / self.sheet))

    @property
    def bolts(self) -> tuple[tuple[float, float], tuple[float, float]]:
        x, y = self.half + SHOULDER / 2, min(self.finished / 2, self.finished - BOLT_SHORT)
        return ((-x, y), (x, y))

    @property
    def bar(self) -> tuple[float, float]:
        """y of the bar's two sides."""
        y = self.bolts[0][1]
        return (y - BAR / 2, min(y + BAR / 2, self.finished - BAR_SHORT))

    @property
    def steps(self) -> tuple[float, float, float]:
        """Widths of the gauge's notches: as cut, half of it left, finished."""
        return (self.cut, (self.cut + self.finished) / 2, self.finished)

    @property
    def notches(self) -> tuple[tuple[float, float], ...]:
        """x from and to of each notch."""
        found, x = list[tuple[float, float]](), FINGER
        for width in self.steps:
            found.append((x, x + width))
            x += width + FINGER
        return tuple(found)

    @property
    def bolt_hole(self) -> float:
        """Diameter."""
        return self.fittings.bolt_hole
