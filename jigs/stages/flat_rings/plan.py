"""Boards for gluing and truing flat rings, and plates that centre them."""

from __future__ import annotations

from geometry.blanks.ring_stack import Ring
from geometry.records import Record


class SameRings(Record):
    """Rings of one outside: their numbers, and the first of them."""

    rings: tuple[int, ...]
    size: Ring


class GlueUpBoard(Record):
    """Sizes whose outlines share one square board, largest first; all have the same count of segments."""

    number: int
    side: float
    sizes: tuple[SameRings, ...]


class CentringPlate(Record):
    """Fits the opening of rings of one size, all closed or all open; the tailstock's point enters its middle."""

    rings: tuple[int, ...]
    segments: int
    apothem: float  # play taken off
    hole: float
    gap: float = 0.0  # between the segments of open rings, which are placed one by one; 0 for closed rings
    inner_edge: float = 0.0  # of the segments of open rings, for their marks


class TruingBoard(Record):
    """Carries halves of rings to the abrasive; only rings of an even count have halves."""

    tips: tuple[tuple[float, tuple[int, ...]], ...]  # from the middle, and whose they are
    width: float
    depth: float
    line: float  # from its front edge to the plane in which the ends come to lie: the abrasive's thickness
    face_height: float  # of the upright that bears the abrasive
    land_from: float  # lands of the half check, from the middle
    land_to: float


class RingBoards(Record):
    """Boards that rings are glued up and trued on, plates that centre rings whose opening is large enough."""

    glue_up: tuple[GlueUpBoard, ...]
    centring: tuple[CentringPlate, ...]
    truing: TruingBoard | None
    whole: tuple[int, ...]  # rings of an odd count, which have no halves
