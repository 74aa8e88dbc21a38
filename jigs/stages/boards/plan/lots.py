"""Every piece that is cut from boards, in lots of one size and wood."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos
from typing import Literal

from geometry.records import dataclass

Way = Literal["turned over", "slid across", "square", "bevelled", "slit", "by hand"]
# A spacer is a strip between segments, a ring strip one between wedge rings; of a rest thin ones are slit.
Piece = Literal["segment", "stave", "base", "upright", "plug", "knob", "spacer", "ring strip", "rest"]


@dataclass(frozen=True)
class Lot:
    """Pieces of one size and one wood, sawn off strips; `number` is its place in the plan.

    The way says how: the strip turned over between cuts under a tilted blade (a trapezoid across the board's
    thickness), slid across to the other fence (a trapezoid across the strip's width), cut off square, or
    cut off square and then ripped with both edges bevelled, or slit from the outside of a wider strip, or sawn by hand
    from a board as thin as it is. `longer` and
    `shorter` are its edges along the strip as cut.
    """

    name: str
    piece: Piece
    rings: tuple[int, ...]
    species: str
    count: int  # in the finished work
    spares: int
    thickness: float  # of the board as planed
    width: float  # of the strip as planed
    longer: float
    shorter: float
    kerf: float  # of the saw that cuts it off
    way: Way
    number: int = 0
    mitre: float = 0.0  # of each end off square, radians
    held: float = 0.0  # of the strip that stays under the hold-down in the last cut
    stop: float | None = None  # from the blade's kept side, where a jig holds a stop
    bevel: float = 0.0  # blade tilt for its long edges, radians
    off: float = 0.0  # mm3 that bevels, tapers and slanted ends take off each piece after it is cut off

    @property
    def slip(self) -> bool:
        """Whether it is a strip between segments that is cut to length by hand, in its box."""
        return self.piece == "spacer" and self.way in ("slit", "by hand")

    @property
    def high(self) -> float:
        """Of a slip as it lies flat in its box: along its ring's axis or tube."""
        return self.thickness if self.way == "slit" else self.width

    @property
    def wanted(self) -> int:
        return self.count + self.spares

    @property
    def mean(self) -> float:
        """Half of the longer and the shorter edge."""
        return (self.longer + self.shorter) / 2

    @property
    def slant(self) -> float:
        """What one cut takes along the strip."""
        return self.kerf / cos(self.mitre)

    @property
    def end(self) -> float:
        """Along the strip, from the tip to the foot of a slanted end."""
        return (self.longer - self.shorter) / 2

    @property
    def volume(self) -> float:
        """Of one piece, mm3."""
        return self.mean * self.width * self.thickness - self.off

    def strip_length(self, pieces: int) -> float:
        """Least strip for so many: a cut at each end, and what the hold-down needs in the last."""
        return pieces * self.mean + (pieces + 1) * self.slant + self.end + self.held

    def left_of(self, length: float, pieces: int) -> float:
        """What is left of a strip, along its shorter edge; never less than `held` for `pieces_in(length)`."""
        return length - self.strip_length(pieces) + self.held

    def pieces_in(self, length: float) -> int:
        """How many a strip gives."""
        return max(0, int((length - self.strip_length(0) + 1e-9) // (self.mean + self.slant)))


def rings_of(lots: Iterable[Lot]) -> tuple[int, ...]:
    """All rings of some lots."""
    return tuple(sorted({ring for lot in lots for ring in lot.rings}))


def wanted(lots: Iterable[Lot]) -> int:
    """Pieces of some lots, spares among them."""
    return sum(lot.wanted for lot in lots)
