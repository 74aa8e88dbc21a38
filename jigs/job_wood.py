"""What the user asked of the wood: stock, spares, glue, layups."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from geometry.blanks.planes import Mirrored, Plane

Stacking = Literal["auto", "square", "staggered"]
Route = Literal["segments", "staves"]
PaperSize = Literal["A4", "Letter"]


LAYUP = "layup"  # what sheets of plies at hand are called among the sheets of the stock

SAME_THICKNESS = 0.1  # mm, between sheets of plies that are taken for one. Common practice, no source


@dataclass(frozen=True)
class Board:
    """Boards, strips or sheets of one size at hand; None where it was not stated."""

    species: str  # of a sheet, what it is
    thickness: float
    width: float | None
    length: float | None
    count: int


@dataclass(frozen=True)
class Stock:
    """What is at hand, what can be bought, and what sawing and planing take."""

    boards: tuple[Board, ...]
    sheets: tuple[Board, ...]  # offcuts for cut jigs
    bought_width: float
    bought_length: float
    planing: float  # off the thickness of a bought board
    edge_trim: float  # off one edge of each board, to begin with a straight one
    end_trim: float  # off each end of a board
    strip_clean_up: float  # planed off the width of a ripped strip
    least_offcut: float  # shorter ones cannot be held safely


@dataclass(frozen=True)
class Spares:
    """Pieces beyond those of the work."""

    segments: float  # per cent
    least: int  # of each size
    rings: int  # whole wedge rings
    layup: float  # per cent of the pieces of a layup


@dataclass(frozen=True)
class Glue:
    """The glue's times, as its maker states them."""

    open_time: float  # minutes
    joint_time: float  # minutes to lay and close one joint
    area_time: float  # minutes to spread a square metre of joint
    clamp_time: float  # hours
    cure: float  # hours before turning
    spread: float  # g/m2 of one joint


@dataclass(frozen=True)
class Prices:
    """Of a mm3, a gram or a piece; None where there is none."""

    wood: tuple[tuple[str, float], ...]  # name and price of a mm3
    sheet: float | None
    board: float | None
    hardware: float | None
    abrasive: float | None
    glue: float | None  # of a gram
    finish: float | None  # of a mm3
    filament: float | None  # of a gram


@dataclass(frozen=True)
class Paper:
    """The sheets of the paper printer."""

    size: PaperSize


@dataclass(frozen=True)
class Ply:
    """One ply of a layup's sheet; without a colour it has its wood's."""

    name: str
    thickness: float
    colour: str | None = None  # "#rrggbb"


@dataclass(frozen=True)
class LayupWish:
    """A sheet of plies, cut to strips, glued up and cut again at an angle, so that the plies draw a pattern.

    `plane` is where the pattern shows: on the outer flats, running through the depth; on the ends, running
    along the flat; on the faces, running along the tube or the height. `mirrored` says about which middle
    lines of a segment it is mirrored: 1, 2 or 4 pieces.
    """

    plies: tuple[Ply, ...]  # from one face of the sheet to the other
    angle: float  # degrees from the flat's length (on the ends: from the depth) to the plies
    plane: Plane
    mirrored: Mirrored
    stacking: Stacking
    turned: bool  # the pieces turned end for end, so that the pattern's points show the other way
    sanding: float  # off each face that is glued
    rings: tuple[int, ...] | None  # of a vessel; None: all that have segments
    sheet_width: float
    sheet_length: float

    def covers(self, ring: int) -> bool:
        """Whether the segments of a vessel's ring come from it."""
        return self.rings is None or ring in self.rings
