"""What the pieces of both forms share: how many to spare, those with square ends, their numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import ceil

from geometry.records import replace
from jigs.asked.job import Job
from jigs.stages.boards.plan import SCRAP, Lot, Piece, Way


def spare_pieces(job: Job, count: int) -> int:
    """A share of the pieces of one size, rounded up, and no fewer than the least."""
    wish = job.workshop.spares
    return max(wish.least, ceil(count * wish.segments / 100 - 1e-9))


def scrap_strips(job: Job, pieces: int, length: Callable[[int], float]) -> tuple[int, float]:
    """How many strips of scrap give so many pieces, and each one's length, which for n pieces is `length(n)`: none is
    longer than those of a board that can be bought."""
    stock = job.workshop.stock
    longest = stock.bought_length - 2 * stock.end_trim
    shared = ((strips, length(ceil(pieces / strips))) for strips in range(1, pieces + 1))
    strips, strip = next(one for one in shared if one[1] <= longest or one[0] == pieces)
    return strips, max(SCRAP[job.unit], strip)


def square_lot(
    name: str,
    piece: Piece,
    rings: tuple[int, ...],
    species: str,
    count: int,
    spares: int,
    size: tuple[float, float, float],
    kerf: float,
    way: Way = "square",
    held: float = 0.0,
) -> Lot:
    """Pieces cut off square; `size` is thickness, width and length."""
    thickness, width, length = size
    return Lot(
        name, piece, rings, species, count, spares, thickness, width, length, length, kerf, way, held=held
    )


def numbered(lots: Iterable[Lot]) -> tuple[Lot, ...]:
    """In their order, from 1."""
    return tuple(replace(lot, number=number) for number, lot in enumerate(lots, 1))
