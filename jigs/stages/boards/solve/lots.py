"""What the pieces of both forms share: how many to spare, those with square ends, their numbers."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from geometry.records import replace
from jigs.asked.job import Job
from jigs.stages.boards.plan import Lot, Piece, Way


def spare_pieces(job: Job, count: int) -> int:
    """A share of the pieces of one size, rounded up, and no fewer than the least."""
    wish = job.workshop.spares
    return max(wish.least, ceil(count * wish.segments / 100 - 1e-9))


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
