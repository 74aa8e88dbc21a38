"""The work in its order: what is set, cut and glued, and what is tried in scrap first."""

from __future__ import annotations

from typing import Literal

from geometry.records import dataclass
from jigs.words.lengths import MM_PER_INCH, Unit
from jigs.words.quantity import Quantity

Machine = Literal["planer", "table saw", "bandsaw", "lathe", "bench"]
Work = Literal[
    "crosscut",  # boards to rough lengths
    "mill",  # lengths of board to thickness
    "rip",  # strips off lengths of board, planed to width
    "thin",  # lengths to the thickness of slips, on a carrier
    "knife",  # thin boards to strips, by hand
    "edges",  # strips that are narrow boards, planed to width
    "sheet",  # plies glued to a sheet
    "strips",  # ripped from the sheet
    "stacks",  # strips glued face to face
    "pieces",  # cut from the stacks at the layup's angle
    "blocks",  # pieces glued to the blocks of segments
    "rails",  # blocks glued in a row to rails of scrap, to be held on the saw
    "mitre",  # segments, under a tilted blade
    "slide",  # segments, on the sled for flat rings
    "slit",  # slips, from the outside of a strip that stays wide
    "slips",  # cut to length by hand in their box
    "leaves",  # strips between rings, cut square by hand
    "square",  # pieces cut off square: staves, the base, strips between segments
    "taper",  # both edges of a vessel's staves
    "disc",
    "upright",  # solid pieces, the grain along the axis, turned round
    "plug",  # turned round and glued into the middle of its ring
    "float",  # a floating base turned to its groove
    "groove",  # turned into the lowest ring for it
    "drop",  # laid in and closed in by the ring above
    "rings",  # segments glued to rings
    "flatten",
    "wedge",  # both faces of wedge rings
    "end wedge",  # those of the rings at the ends of halves
    "spare",  # wedge rings that stay uncut until the others fit
    "band",  # staves glued to a band
    "close",  # wedge rings to quarters, halves and the torus
    "courses",  # segments of open rings on the ring below
    "stack",  # rings on rings
]


@dataclass(frozen=True)
class Step:
    """One setting of one machine, or one gluing."""

    number: int  # from 1
    work: Work
    machine: Machine
    rings: tuple[int, ...]  # numbers from 1
    lots: tuple[int, ...]  # whose pieces are worked on
    pieces: int  # that come of it, spares among them
    settings: tuple[Quantity, ...]
    jigs: tuple[str, ...]  # of the rack: it is set, done and checked with them
    checks: tuple[Quantity, ...]  # sizes that are measured after it, beside those that are set


@dataclass(frozen=True)
class CutLine:
    """One lot in the cut list: how it comes off the saw, and what it is when it is glued."""

    lot: int
    step: int  # that cuts its pieces
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


@dataclass(frozen=True)
class KeptLong:
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


@dataclass(frozen=True)
class Scrap:
    """A trial in scrap, before good wood; pieces are as those of the first of its rings."""

    of: Literal["ring", "quarter", "staves"]
    rings: tuple[int, ...]  # that it proves
    count: int  # of rings that are made
    segments: int  # in each
    thickness: float
    width: float
    strips: int  # of scrap
    strip: float  # length of each
    jigs: tuple[str, ...]  # what it has to fit
