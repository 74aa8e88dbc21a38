"""Boards at hand that nothing of the job can be sawn from, and what would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from geometry.grouping import grouped
from jigs.asked.job import Job
from jigs.asked.job_wood import Board
from jigs.stages.boards.at_hand import MEASURED, TINY, most_over, sized, suits
from jigs.stages.boards.plan import Lot
from jigs.words.findings import Finding, near_names
from jigs.words.quantity import count_text


def unused_findings(job: Job, lots: Sequence[Lot]) -> Iterator[Finding]:
    """Alike boards once, however often they are listed; nothing of boards that fit and were not needed."""
    woods = list(dict.fromkeys(lot.species for lot in lots))
    for board in dict.fromkeys(job.workshop.stock.boards):
        own = [lot for lot in lots if lot.species == board.species]
        alike = [lot for lot in own if suits(job, board, lot.species, lot.thickness)]
        if not own:
            yield _of_no_piece(job, board, woods)
        elif alike and not sized([board]):
            yield _without_size(job, board)
        elif not any(_gives(job, board, lot) for lot in alike):
            yield _not_used(job, board, own)


def _of_no_piece(job: Job, board: Board, woods: Sequence[str]) -> Finding:
    """The likeliest cause is a name that is misspelt."""
    near = near_names(board.species, woods)
    remedy = f"pieces are of {', '.join(woods)}" if woods else "no piece is sawn from boards"
    if near:
        remedy = f'did you mean "{near[0]}"?'
    message = f"{_named(job, board)}: not used, since no piece is of this wood"
    return job.note("board-of-no-piece", message, key="stock.boards", remedy=remedy)


def _without_size(job: Job, board: Board) -> Finding:
    lacking = " and ".join(name for name in ("width", "length") if getattr(board, name) is None)
    return job.warning(
        "board-without-size",
        f"{_named(job, board)}: left out, since without {lacking} no strips can be planned",
        key="stock.boards",
        remedy=f"give their {lacking}",
    )


def _not_used(job: Job, board: Board, lots: Sequence[Lot]) -> Finding:
    message = f"{_named(job, board)}: not used, since no strip of this job comes out of one"
    remedy = "; ".join(_would_do(job, own) for own in grouped(lots, lambda lot: lot.thickness).values())
    return job.note("board-not-used", message, key="stock.boards", remedy=remedy)


def _would_do(job: Job, lots: Sequence[Lot]) -> str:
    """The least board for any of some lots as thick as one another."""
    thick, (width, length) = lots[0].thickness, min(_needed(job, lot) for lot in lots)
    return (
        f"{job.at_least(thick)} to {job.at_most(thick + most_over(job))} thick, at least {job.at_least(width)} "
        f"wide and {job.at_least(length)} long would do"
    )


def _gives(job: Job, board: Board, lot: Lot) -> bool:
    """Whether a board of known size is one strip of a lot at least, that gives a piece."""
    width, length = _needed(job, lot)
    return (board.width or 0.0) >= width - MEASURED - TINY and (board.length or 0.0) >= length - TINY


def _needed(job: Job, lot: Lot) -> tuple[float, float]:
    """Width and length of a board that is one strip of a lot, as it is."""
    return lot.width, lot.strip_length(1) + 2 * job.workshop.stock.end_trim


def _named(job: Job, board: Board) -> str:
    sizes = {"thick": board.thickness, "wide": board.width, "long": board.length}
    known = [f"{job.show(size)} {name}" for name, size in sizes.items() if size is not None]
    return f"{count_text(board.count, 'board')} of {board.species}, {', '.join(known)}"
