"""Which boards can be had for one wood and one thickness: those at hand, and those that can be bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from geometry.records import Record
from jigs.asked.job import Job
from jigs.asked.job_wood import Board
from jigs.stages.boards.plan import WoodClass

MEASURED = 0.1  # mm to which boards are measured: so much under a size one counts as of it; common practice, no source
TINY = 1e-9


class InStock(Record):
    """Boards of one size that are at hand."""

    species: str
    thickness: float
    width: float
    length: float


Stock = Counter[InStock]


def in_stock(job: Job) -> Counter[InStock]:
    """Boards at hand whose sizes are known, and how many there are of each."""
    found: Counter[InStock] = Counter()
    for board in job.workshop.stock.boards:
        if board.width is not None and board.length is not None:
            found[InStock(board.species, board.thickness, board.width, board.length)] += board.count
    return found


def suits(job: Job, board: Board | InStock, species: str, thickness: float) -> bool:
    """Whether a board is of this wood and as thick, or can be planed to this thickness without much waste."""
    over = board.thickness - thickness
    return board.species == species and -MEASURED - TINY <= over <= most_over(job) + TINY


def most_over(job: Job) -> float:
    """What is planed off at most."""
    return job.workshop.stock.planing + job.workshop.stock.planed_down


def suitable(job: Job, species: str, thickness: float) -> tuple[Board, ...]:
    """Boards at hand that suit, whether or not their sizes are known."""
    return tuple(b for b in job.workshop.stock.boards if suits(job, b, species, thickness))


def thickest(job: Job, species: str) -> float | None:
    """Of what the boards of this wood at hand give, mm; None where none is listed: all is bought then."""
    listed = [board.thickness for board in job.workshop.stock.boards if board.species == species]
    return max(listed) + MEASURED if listed else None


def sized(boards: Iterable[Board]) -> tuple[Board, ...]:
    """Those of which both width and length are known: others cannot be planned with."""
    return tuple(b for b in boards if b.width is not None and b.length is not None)


def widest_strip(job: Job, species: str, thickness: float, length: float) -> float:
    """As planed: the widest from one board at hand that is long enough, or from a bought one."""
    stock = job.workshop.stock
    long = [
        b
        for b in sized(suitable(job, species, thickness))
        if (b.length or 0.0) - 2 * stock.end_trim >= length
    ]
    widths = [stock.bought_width, *(board.width or 0.0 for board in long)]
    return max(widths) - stock.edge_trim - stock.strip_clean_up


def used(found: WoodClass) -> Stock:
    """What of that at hand is sawn."""
    there: Stock = Counter()
    for taken in found.taken:
        if not taken.bought:
            there[InStock(found.species, taken.thickness, taken.width, taken.length)] += taken.count
    return there
