"""What the user asked of the wood: stock, spares, glue, layups."""

from __future__ import annotations

from typing import Literal

from geometry.blanks.planes import Mirrored, Plane
from geometry.records import Record
from jigs.asked.key import key
from jigs.words.trade import OUNCE, SQUARE_FOOT, SQUARE_METRE

Stacking = Literal["auto", "square", "staggered"]
PaperSize = Literal["A4", "Letter"]


LAYUP = "layup"  # what sheets of plies at hand are called among the sheets of the stock
WORKDAY = 8.0  # hours at the bench; common practice, no source
SAME_THICKNESS = 0.1  # mm, between sheets of plies that are taken for one. Common practice, no source


_UNSET = "its cost is left out"
_MOST = 1e6


# fmt: off
class Board(Record):
    """Boards, strips or sheets of one size at hand; None where it was not stated."""

    species: str  # of a sheet, what it is
    thickness: float
    width: float | None
    length: float | None
    count: int


class Stock(Record):
    """What is at hand, what can be bought, and what sawing and planing take."""

    boards: tuple[Board, ...] = key("boards", "boards and strips at hand, each with species and thickness as "
        "planed, and where known width, length and count", unset="none are listed",
        example=(Board("ash", 22.0, 150.0, 1200.0, 2),), most=5000)
    sheets: tuple[Board, ...] = key("boards", "offcuts of sheet for cut jigs, each with what it is as its species, "
        "thickness, width, length and count", unset="whole sheets of the cutter's bed",
        example=(Board("birch ply", 12.0, 400.0, 600.0, 1),), most=5000)
    bought_width: float = key("length", "of a board that can be bought; not stated, it is as wide as a strip asks, "
        "and this at least", 150.0, inch_default=152.4, least=20, most=1000)
    bought_length: float = key("length", "of a board that can be bought; not stated, it is as long as a strip "
        "asks, and this at least", 2000.0, inch_default=2438.4, least=300, most=5000)
    planing: float = key("length", "planed off the thickness of a bought board, at least", 3.0, inch_default=3.175,
        most=20)
    planed_down: float = key("length", "that a board at hand may be thicker still and is planed down to match; more "
        "serves where only thick boards are at hand", 3.0, inch_default=3.175, most=100)
    edge_trim: float = key("length", "off one edge of each board, to begin with a straight one", 5.0,
        inch_default=4.7625, most=50)
    end_trim: float = key("length", "off each end of a board", 20.0, inch_default=19.05, most=200)
    strip_clean_up: float = key("length", "planed off the width of a ripped strip", 1.0, inch_default=0.79375, most=10)
    least_offcut: float = key("length", "shorter ones cannot be held safely and are not counted on", 300.0,
        inch_default=304.8, least=50, most=1000)


class Spares(Record):
    """Pieces beyond those of the work."""

    segments: float = key("number", "per cent of the segments", 5.0, most=100)
    least: int = key("count", "at least so many of each size", 4, most=100)
    rings: int = key("count", "whole wedge rings", 1, most=10)
    layup: float = key("number", "per cent of the pieces of a layup", 10.0, most=100)


class Glue(Record):
    """The glue's times, as its maker states them."""

    open_time: float = key("number", "minutes from the first drop to the clamps", 8.0, least=0.5, most=240)
    joint_time: float = key("number", "minutes to lay and close one joint", 0.5, least=0.05, most=60)
    area_time: float = key("number", "minutes to spread a square metre of joint, beside that; in a file in "
        "inches minutes to spread a square foot of joint, beside that", 4.0,
        inch_default=0.4 * SQUARE_METRE / SQUARE_FOOT, most=240, per="area")
    clamp_time: float = key("number", "hours in clamps", 1.0, least=0.05, most=72)
    cure: float = key("number", "hours before turning", 24.0, most=720)
    spread: float = key("number", "grams on a square metre of joint; from memory of data sheets; in a file in inches "
        "ounces on a square foot of joint; from memory of data sheets", 180.0,
        inch_default=0.6 * OUNCE * SQUARE_METRE / SQUARE_FOOT, least=20, most=1000, per="coat")


class Prices(Record):
    """Of a mm3, a gram or a piece; None where there is none."""

    currency: str | None = key("text", "behind each price, as you write it", unset="prices stand alone", example="EUR",
        inch_example="USD", most=8)
    wood: tuple[tuple[str, float], ...] = key("prices", "of each wood, its name and the price of a cubic metre; "
        "plies and hardwood for runners have theirs here too; in a file in inches of each wood, its name and the price "
        "of a board foot; plies and hardwood for runners have theirs here too", unset=_UNSET,
        example=(("maple", 3200.0), ("hardwood", 2500.0)), inch_example=(("maple", 8.0), ("hardwood", 6.0)),
        most=_MOST, per="timber")
    sheet: float | None = key("price", "of a sheet for jigs, as large as the cutter's bed", unset=_UNSET,
        example=18.0, most=_MOST)
    board: float | None = key("price", "of a sheet of the board for what spins, as large as the cutter's bed",
        unset=_UNSET, example=24.0, most=_MOST)
    hardware: float | None = key("price", "of a piece of hardware with its nut and washers, the mean of all",
        unset=_UNSET, example=0.6, most=_MOST)
    abrasive: float | None = key("price", "of a sheet of abrasive", unset=_UNSET, example=1.2, most=_MOST)
    tape: float | None = key("price", "of a roll of masking tape, or of waxed paper", unset=_UNSET, example=4.0,
        most=_MOST)
    lining: float | None = key("price", "of a piece of cork, leather or felt", unset=_UNSET, example=6.0,
        most=_MOST)
    glue: float | None = key("price", "of a kilogram of glue; in a file in inches of a pound of glue", unset=_UNSET,
        example=14.0, inch_example=6.0, most=_MOST, per="weight")
    finish: float | None = key("price", "of a litre of finish; in a file in inches of a quart of finish", unset=_UNSET,
        example=28.0, inch_example=26.0, most=_MOST, per="liquid")
    filament: float | None = key("price", "of a kilogram of filament; in a file in inches of a pound of "
        "filament", unset=_UNSET, example=22.0, inch_example=10.0, most=_MOST, per="weight")


class Paper(Record):
    """The sheets of the paper printer."""

    size: PaperSize = key("choice", "of the shop book, labels, tape layouts and other sheets", "A4",
        inch_default="Letter", choices=("A4", "Letter"))


class Ply(Record):
    """One ply of a layup's sheet; without a colour it has its wood's."""

    name: str
    thickness: float
    colour: str | None = None  # "#rrggbb"


class LayupWish(Record):
    """A sheet of plies, cut to strips, glued up and cut again at an angle, so that the plies draw a pattern.

    `plane` is where the pattern shows: on the outer flats, running through the depth; on the ends, running
    along the flat; on the faces, running along the tube or the height. `mirrored` says about which middle
    lines of a segment it is mirrored: 1, 2 or 4 pieces.
    """

    plies: tuple[Ply, ...] = key("plies", "from one face of the sheet to the other, each a wood or a colour's "
        "name, its thickness and, if wished, its colour", unset="segments are of solid wood",
        example=(Ply("maple", 3.0), Ply("walnut", 1.5), Ply("black", 0.6, "#202020")), most=50)
    angle: float = key("number", "degrees from the flat's length (on the ends: from the depth) to the plies", 30.0,
        least=0, most=90)
    plane: Plane = key("choice", "where the pattern shows: flat, the outer flats; end, the ends; face, the faces",
        "flat", choices=("flat", "end", "face"))
    mirrored: Mirrored = key("choice", "about which middle lines of a segment the pattern is mirrored: 1, 2 or 4 "
        "pieces", "both", choices=("none", "left and right", "up and down", "both"))
    one_hand: bool = key("flag", "whether all segments are of one hand, so that stripes run on round the ring; else "
        "neighbours that differ mirror each other", False)
    stacking: Stacking = key("choice", "of the strips; auto is whichever glues fewer stacks for little more wood",
        "auto", choices=("auto", "square", "staggered"))
    turned: bool = key("flag", "whether the pieces are turned end for end, so that the pattern points the other "
        "way", False)
    sanding: float = key("length", "off each face of a piece that is glued", 0.1, inch_default=0.1016, most=2)
    rings: tuple[int, ...] | None = key("counts", "of a vessel, that have the layup",
        unset="all that have segments", example=(2, 3), least=1, most=500)
    sheet_width: float = key("length", "of a sheet of plies", 300.0, inch_default=304.8, least=30, most=3000)
    sheet_length: float = key("length", "of a sheet of plies", 600.0, inch_default=609.6, least=50, most=5000)

    def covers(self, ring: int) -> bool:
        """Whether the segments of a vessel's ring come from it."""
        return self.rings is None or ring in self.rings
# fmt: on
