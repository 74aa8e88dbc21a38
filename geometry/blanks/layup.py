"""Plies glued up from strips of a sheet and cut again at an angle: the rectangles, the stacks, the waste.

In the plane of the pattern a piece is a rectangle a x b, its side a at the layup's angle to the plies; the third
dimension, `depth`, is the strips' width. A stack's plies run along x, its height is y. A piece stands on one
corner in it: side a rises from there to the right at the angle, side b to the left, square to it. With distances
p along a and q along b from that corner, a place lies p·sin + q·cos of the angle above the stack's foot, where
the first strip's first ply begins. All pieces of a stack stand equally high in it, so all are alike.
Lengths mm, areas mm2, angles radians.
"""

from __future__ import annotations

from math import ceil, cos, inf, pi, sin
from typing import Literal

from geometry.records import Record

Side = Literal["a", "b"]

_LEVEL = 1e-9  # sines and cosines below this are of plies along a side
_EDGE = 1e-9  # mm, by which a strip may be too thin


class Layup(Record):
    """One piece as cut: the sanding of its glued faces is in `a` and `b`."""

    plies: tuple[float, ...]  # thicknesses from the sheet's one face to the other; they repeat strip by strip
    angle: float  # of side a to the plies, 0 to pi/2
    a: float
    b: float
    depth: float
    kerf: float

    @property
    def sheet(self) -> float:
        """Thickness of the sheet, and the pattern's repeat square to the plies."""
        return sum(self.plies)

    @property
    def sine(self) -> float:
        """Of the angle; exactly 0 where side a runs along the plies."""
        return _clean(sin(self.angle))

    @property
    def cosine(self) -> float:
        """Of the angle; exactly 0 where side b runs along the plies."""
        return _clean(cos(self.angle))

    @property
    def height(self) -> float:
        """Of a piece, square to the plies: the least height of a stack."""
        return self.a * self.sine + self.b * self.cosine

    @property
    def strips(self) -> int:
        """Glued face to face in a stack."""
        return max(1, ceil((self.height - _EDGE) / self.sheet))

    @property
    def along(self) -> float:
        """Of a piece, along the plies."""
        return self.a * self.cosine + self.b * self.sine

    @property
    def period_a(self) -> float:
        """The pattern's repeat along side a; infinite where the plies run along it."""
        return _over(self.sheet, self.sine)

    @property
    def period_b(self) -> float:
        """The pattern's repeat along side b."""
        return _over(self.sheet, self.cosine)

    def pitch(self, cut: Side) -> float:
        """From one piece to the next along the plies where the stack is sawn along this side of the pieces."""
        width, slope = (self.b, self.sine) if cut == "a" else (self.a, self.cosine)
        return _over(width + self.kerf, slope)

    def cut_angle(self, cut: Side) -> float:
        """Of these cuts to the plies."""
        return self.angle if cut == "a" else pi / 2 - self.angle


class Stack(Record):
    """Strips of one length, glued face to face, from which so many pieces are cut in a row along the plies.

    The angled cuts, `pitch` apart along the plies, part the stack into slabs; each slab is then cut off square.
    """

    layup: Layup
    pieces: int
    cut: Side  # the side of the pieces along which the stack is sawn
    strip_length: float
    foot: float  # from the lowest strip's left end to the corner on which the first piece stands
    # Each strip to the right of the one below it; negative to the left, 0 for square ends.
    stagger: float = 0.0

    @property
    def pitch(self) -> float:
        return self.layup.pitch(self.cut)

    @property
    def slab(self) -> float:
        """Thickness of a slab between two cuts."""
        return self.layup.b if self.cut == "a" else self.layup.a

    @property
    def slab_length(self) -> float:
        """To which a slab is cut off square."""
        return self.layup.a if self.cut == "a" else self.layup.b

    @property
    def area(self) -> float:
        """Of the strips."""
        return self.layup.strips * self.layup.sheet * self.strip_length

    @property
    def waste(self) -> float:
        """Area that no piece takes, kerfs among it."""
        return self.area - self.pieces * self.layup.a * self.layup.b

    @property
    def saw_cuts(self) -> int:
        """Angled cuts on both sides of every slab, then two square ones for each piece."""
        return self.pieces + 1 + 2 * self.pieces


def square_stack(layup: Layup, pieces: int) -> Stack:
    """The stack with square ends: its strips are as long as the row of pieces, sawn along the side that is closer."""
    cut: Side = "a" if layup.pitch("a") <= layup.pitch("b") else "b"
    return Stack(layup, pieces, cut, layup.along + (pieces - 1) * layup.pitch(cut), layup.b * layup.sine)


def staggered_stacks(layup: Layup, pieces: int) -> tuple[Stack, ...]:
    """The stacks whose ends lean as side a or as side b does, steps of one strip in them.

    None where the plies run along a side: there the ends are square anyhow.
    """
    if not layup.sine or not layup.cosine:
        return ()
    one_a, step_a = layup.b / layup.sine, layup.sheet * layup.cosine / layup.sine
    one_b, step_b = layup.a / layup.cosine, layup.sheet * layup.sine / layup.cosine
    more = pieces - 1
    return (
        Stack(layup, pieces, "a", one_a + more * layup.pitch("a") + step_a, one_a, step_a),
        Stack(layup, pieces, "b", one_b + more * layup.pitch("b") + step_b, step_b, -step_b),
    )


def most_pieces(first: Stack, length: float) -> int:
    """How many pieces a stack like this one, which has one, gives of strips of at most `length`; at least 1."""
    return 1 + max(0, int((length - first.strip_length + _EDGE) / first.pitch))


def _clean(value: float) -> float:
    return 0.0 if abs(value) < _LEVEL else value


def _over(length: float, slope: float) -> float:
    return length / slope if slope else inf
