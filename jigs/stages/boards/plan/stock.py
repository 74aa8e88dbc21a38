"""Which boards are sawn into which strips, how much is bought, and where every cubic millimetre goes."""

from __future__ import annotations

from typing import Literal

from geometry.records import dataclass

Lacking = Literal["width", "length"]


@dataclass(frozen=True)
class StripCut:
    """Strips of one width ripped from each of the boards, and cut into pieces."""

    lot: int  # its number
    strips: int  # from each board
    pieces: int  # cut from each strip
    width: float  # as ripped, before its edges are planed; of a strip ready as it was, its own
    length: float  # between the board's trimmed ends
    left: float  # of each strip after its last cut, along the shorter edge; what was held is in it


@dataclass(frozen=True)
class BoardCut:
    """Lengths of board of one size that are sawn alike; a hair under a size they count as of it."""

    thickness: float  # before they are planed
    width: float
    length: float  # between trimmed ends, as crosscut
    bought: bool
    ready: bool  # a strip as it is: its edges are planed, nothing is ripped
    count: int
    strips: tuple[StripCut, ...]
    left: float  # width of what is left beside the strips


@dataclass(frozen=True)
class BoardsTaken:
    """Whole boards of one size that are crosscut alike; what is left beside their lengths stays in one piece. Boards at
    hand a hair under a size count as of it, for they are not measured finer."""

    thickness: float  # as they are
    width: float
    length: float
    bought: bool
    count: int
    lengths: tuple[float, ...]  # that each is crosscut into, the longest first; one alone may be all of it
    rest: float  # of each, that stays in one piece; 0 where there is none
    rest_of: float | None = None  # left of boards for thicker strips: the planed thickness of these
    thin: float = 0.0  # that they are under the thickness they count as
    narrow: float = 0.0

    @property
    def section(self) -> float:
        """Across one board, as it counts, mm2."""
        return (self.width + self.narrow) * (self.thickness + self.thin)


@dataclass(frozen=True)
class Offcut:
    """What is left of boards or strips; kept where it is long enough to be held safely."""

    width: float
    length: float
    thickness: float
    count: int
    kept: bool

    @property
    def volume(self) -> float:
        """Of all of them."""
        return self.width * self.length * self.thickness * self.count


@dataclass(frozen=True)
class Volumes:
    """Where the wood of the boards taken goes, mm3: all but `stock` and `kept` sum to it.

    Rests that thinner strips are sawn from are in their stock alone: over all classes no wood counts twice.
    """

    stock: float  # without those rests
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


@dataclass(frozen=True)
class WoodClass:
    """Boards of one wood and one planed thickness: the lots sawn from them, and how.

    `area` is what is taken of boards, whole width, ends included, without the rests that stay in one piece. Thicker
    classes of its wood choose first, and their rests are there too where that saves boards to buy. Of two plans the one
    that buys fewer whole boards is the better; then the one of fewer boards or, where some are bought, of more of
    those at hand; then of fewer ends of strips too short to be held; then of less wood in strips. `least` and `bound`
    hold for every plan with what was there when its turn came, however boards are crosscut.
    """

    species: str
    thickness: float  # as planed
    lots: tuple[int, ...]
    taken: tuple[BoardsTaken, ...]
    boards: tuple[BoardCut, ...]
    area: float  # mm2
    bound: float  # no plan takes less
    least: int  # whole boards that any plan buys
    would_do: (
        tuple[float, float] | None
    )  # width and length of a piece that does instead of the one that is bought
    offcuts: tuple[Offcut, ...]
    volumes: Volumes
    hand_spares: (
        int | None
    )  # that boards at hand give beside all of the work; None: not all, or nothing is bought
    passed_on: tuple[Offcut, ...] = ()  # not among `offcuts`: thinner strips of this wood are sawn from them


@dataclass(frozen=True)
class Shortage:
    """A lot that no board which can be had is wide enough for, or none long enough; one for each that is lacking."""

    lot: str  # its name
    rings: tuple[int, ...]
    species: str
    thickness: float  # as planed
    lacking: Lacking
    needed: float  # of a bought board
