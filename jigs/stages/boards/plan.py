"""The wood of a job: every piece, where it is sawn from, in which order, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos
from typing import Literal

from geometry.records import Record
from jigs.stages.finish.plan import FinishPlan
from jigs.stages.glue_up.plan import GluePlan
from jigs.stages.grain.plan import GrainPlan
from jigs.words.lengths import MM_PER_INCH, Unit


class WoodPlan(Record):
    """The cut list is in the order of the work."""

    lots: tuple[Lot, ...]
    lines: tuple[CutLine, ...]  # the cut list: one for each lot, in the order in which they are cut
    classes: tuple[WoodClass, ...]
    shortages: tuple[Shortage, ...]
    kept_long: tuple[KeptLong, ...]
    scraps: tuple[Scrap, ...]
    grain: GrainPlan
    glue: GluePlan
    finish: FinishPlan

    def lot(self, number: int) -> Lot:
        """Raises StopIteration for a number that is none."""
        return next(lot for lot in self.lots if lot.number == number)


class CutLine(Record):
    """One lot in the cut list: how it comes off the saw, and what it is when it is glued."""

    lot: int
    tilt: float  # of the blade from upright, radians
    gauge: float  # of mitre gauge or fence off square, radians
    sanded: float  # off each mitred end before gluing
    width: float  # when it is glued
    longer: float  # its edges then
    shorter: float
    rough: tuple[
        tuple[float, float], ...
    ]  # thickness of each sort of board it is sawn from, width of its strips
    each: float  # of the strip, for one piece and its cut
    strip: float  # least length for all of them in one


class KeptLong(Record):
    """Strips that end too short to be held again; cutting so many pieces fewer from each keeps it long.

    Where a strip is too short once its first piece is cut, no number of pieces does.
    """

    lot: int
    strips: int
    left: float  # of each, as planned
    fewer: int | None  # pieces from each
    length: float  # that is then left; of a strip that no number keeps long, once its first piece is cut


# Least length of a strip that is planed and ripped, over what no hand may hold; common practice.
SCRAP: dict[Unit, float] = {"mm": 350.0, "in": 14 * MM_PER_INCH}


class Scrap(Record):
    """A trial in scrap, before good wood; pieces are as those of the first of its rings."""

    of: Literal["ring", "quarter", "staves"]
    rings: tuple[int, ...]  # that it proves
    count: int  # of rings that are made
    segments: int  # in each
    thickness: float
    width: float
    strips: int  # of scrap, for all of them
    strip: float  # length of each
    jigs: tuple[str, ...]  # what it has to fit


Lacking = Literal["width", "length"]


class StripCut(Record):
    """Strips of one width ripped from each of the boards, and cut into pieces."""

    lot: int  # its number
    strips: int  # from each board
    pieces: int  # cut from each strip
    width: float  # as ripped, before its edges are planed; of a strip ready as it was, its own
    length: float  # between the board's trimmed ends
    left: float  # of each strip after its last cut, along the shorter edge; what was held is in it


class BoardCut(Record):
    """Lengths of board of one size that are sawn alike; a hair under a size they count as of it."""

    thickness: float  # before they are planed
    width: float
    length: float  # between trimmed ends, as crosscut
    bought: bool
    ready: bool  # a strip as it is: its edges are planed, nothing is ripped
    count: int
    strips: tuple[StripCut, ...]
    left: float  # width of what is left beside the strips


class BoardsTaken(Record):
    """Whole boards of one size that are crosscut alike; what is left beside their lengths stays in one piece. Boards at
    hand a hair under a size count as of it, for they are not measured finer."""

    thickness: float  # as they are
    width: float
    length: float
    bought: bool
    count: int
    lengths: tuple[float, ...]  # that each is crosscut into, the longest first; one alone may be all of it
    rest: float  # of each, that stays in one piece; 0 where there is none
    thin: float = 0.0  # that they are under the thickness they count as
    narrow: float = 0.0

    @property
    def section(self) -> float:
        """Across one board, as it counts, mm2."""
        return (self.width + self.narrow) * (self.thickness + self.thin)


class Offcut(Record):
    """What is left of boards or strips; kept unless it is too `short` to be held safely, or narrow."""

    width: float
    length: float
    thickness: float
    count: int
    kept: bool
    short: bool

    @property
    def volume(self) -> float:
        """Of all of them."""
        return self.width * self.length * self.thickness * self.count


class Volumes(Record):
    """Where the wood of the boards taken goes, mm3: all but `stock` and `kept` sum to it."""

    stock: float
    pieces: float  # of the finished work, as cut
    spares: float  # asked for
    kerf: float
    planed: float  # off faces and edges
    trimmed: float  # edges and ends of boards, slanted ends of strips, bevels of staves
    offcuts: float  # long and short, what the hold-down held among them
    kept: float  # of the offcuts, those long enough to keep

    @property
    def left(self) -> float:
        """What does not close: nothing, to rounding."""
        work = self.pieces + self.spares
        return self.stock - work - self.kerf - self.planed - self.trimmed - self.offcuts


class WoodClass(Record):
    """Boards of one wood and one planed thickness: the lots sawn from them, and how.

    `area` is what is taken of boards, whole width, ends included, without the rests that stay in one piece. Thicker
    classes of its wood choose first. Of two plans the one that buys fewer whole boards is the better; then the one of
    fewer boards or, where some are bought, of more of those at hand; then of fewer ends of strips too short to be held;
    then of less wood in strips. `least` and `bound` hold for every plan with what was there when its turn came, however
    boards are crosscut.
    """

    species: str
    thickness: float  # as planed
    lots: tuple[int, ...]
    taken: tuple[BoardsTaken, ...]
    boards: tuple[BoardCut, ...]
    area: float  # mm2
    bound: float  # no plan takes less
    least: int  # whole boards that any plan buys
    would_do: tuple[float, float] | None  # width and length of a piece that does for the one to buy
    offcuts: tuple[Offcut, ...]
    volumes: Volumes


class Shortage(Record):
    """A lot that no board which can be had is wide enough for, or none long enough; one for each that is lacking."""

    lot: str  # its name
    rings: tuple[int, ...]
    species: str
    thickness: float  # as planed
    lacking: Lacking
    needed: float  # of a bought board


RIPPED = 4.0  # mm: thinner boards slip under a rip fence and break in a planer. Common practice, no source
Way = Literal["turned over", "slid across", "square", "bevelled", "slit", "by hand"]
# A spacer is a strip between segments, a ring strip one between wedge rings; of a rest thin ones are slit.
Piece = Literal["segment", "stave", "base", "upright", "plug", "knob", "spacer", "ring strip", "rest"]


class Lot(Record):
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
    blade: float | None = None  # above the table, or a bandsaw's guides, where a jig is set so
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
