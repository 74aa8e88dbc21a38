"""Boards at hand that nothing of the job can be sawn from, each with the reason and what would do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jigs.asked.job import Job
from jigs.asked.job_wood import Board
from jigs.asked.nearest import at_least, at_most
from jigs.stages.boards.at_hand import MEASURED, TINY, InStock, most_over, sized, suits
from jigs.stages.boards.plan import Lot
from jigs.words.findings import Finding, near_names
from jigs.words.lengths import show_length

Reason = tuple[str, str]  # why not, and what would do


def unused_findings(job: Job, lots: Sequence[Lot]) -> Iterator[Finding]:
    """Alike boards once, however often they are listed; nothing of boards that fit and were not needed."""
    listed = list(dict.fromkeys(job.workshop.stock.boards))
    woods = list(dict.fromkeys(lot.species for lot in lots))
    for name in dict.fromkeys(board.species for board in listed if board.species not in woods):
        yield _of_no_piece(job, name, [board for board in listed if board.species == name], woods)
    for board in listed:
        own = [lot for lot in lots if lot.species == board.species]
        alike = [lot for lot in own if suits(job, board, lot.species, lot.thickness)]
        if own and not alike:
            yield _not_used(job, board, _thickness(job, board, own))
        elif own and not sized([board]):
            yield _without_size(job, board)
        elif own and all(lacks(job, board, lot) for lot in alike):
            yield _not_used(job, board, _size(job, board, alike))


def _of_no_piece(job: Job, name: str, boards: Sequence[Board], woods: Sequence[str]) -> Finding:
    """The likeliest cause is a name that is misspelt."""
    message = f"not used, for no piece is of this wood: {'; '.join(_named(job, board) for board in boards)}"
    near = near_names(name, woods)
    remedy = f"pieces are of {', '.join(woods)}" if woods else "no piece is sawn from boards"
    if near:
        remedy = f'did you mean "{near[0]}"?'
    return job.finding("board-of-no-piece", message, key="stock.boards", remedy=remedy, severity="note")


def _not_used(job: Job, board: Board, reason: Reason) -> Finding:
    why, remedy = reason
    message = f"{_named(job, board)} not used: {why}"
    return job.finding("board-not-used", message, key="stock.boards", remedy=remedy, severity="note")


def _without_size(job: Job, board: Board) -> Finding:
    lacking = " and ".join(name for name in ("width", "length") if getattr(board, name) is None)
    return job.finding(
        "board-without-size",
        f"{_named(job, board)} left out: without {lacking} no strips can be planned from them",
        key="stock.boards",
        remedy=f"give their {lacking}",
        severity="warning",
    )


def _thickness(job: Job, board: Board, lots: Sequence[Lot]) -> Reason:
    """Of the strips that it is too thin or too thick for, those that it lacks the least for and is nearest to."""
    reasons = [
        _of_strips(job, board, name, side)
        for name, side in (
            ("too thin", [lot for lot in lots if lot.thickness > board.thickness]),
            ("too thick", [lot for lot in lots if lot.thickness < board.thickness]),
        )
        if side
    ]
    return " and ".join(why for why, _ in reasons), "; ".join(remedy for _, remedy in reasons)


def _of_strips(job: Job, board: Board, name: str, lots: Sequence[Lot]) -> Reason:
    """All that it lacks, and the sizes that it would do with; those of it that are not known among these."""
    known = bool(sized([board]))
    lot = min(lots, key=lambda lot: (*_far(job, board, lot), *_needed(job, lot)))
    lacking, most = _known(job, board, lot), at_most(job, lot.thickness + most_over(job))
    *first, last = [name, *lacking]
    why = f"{', '.join(first)} and {last}" if first else last
    why += f" for strips {show_length(lot.thickness, job.unit)} thick"
    if name == "too thick" and known and not lacking:
        return why, f"planed or resawn to at most {most} it would do"
    width, length = (at_least(job, size) for size in _needed(job, lot))
    across = "" if known and not lacking else f", at least {width} wide and {length} long"
    return why, f"boards from {at_least(job, lot.thickness)} to {most} thick{across} would do"


def _far(job: Job, board: Board, lot: Lot) -> tuple[int, float]:
    return len(_known(job, board, lot)), abs(lot.thickness - board.thickness)


def _known(job: Job, board: Board, lot: Lot) -> list[str]:
    """What it lacks beside its thickness, as far as its size is known."""
    unknown = {"too narrow": board.width is None, "too short": board.length is None}
    return [why for why in lacks(job, board, lot) if not unknown[why]]


def lacks(job: Job, board: Board | InStock, lot: Lot) -> list[str]:
    """Of a board of known size, for one strip of a lot that gives a piece."""
    width, length = _needed(job, lot)
    narrow = (board.width or 0.0) < width - MEASURED - TINY
    short = (board.length or 0.0) < length - TINY
    return ["too narrow"] * narrow + ["too short"] * short


def _needed(job: Job, lot: Lot) -> tuple[float, float]:
    """Width and length of a board that is one strip of a lot, as it is."""
    return lot.width, lot.strip_length(1) + 2 * job.workshop.stock.end_trim


def _size(job: Job, board: Board, lots: Sequence[Lot]) -> Reason:
    """By the lot that it lacks the least for."""
    lot = min(lots, key=lambda lot: (len(lacks(job, board, lot)), *_needed(job, lot)))
    width, length = (at_least(job, size) for size in _needed(job, lot))
    why = f"{' and '.join(lacks(job, board, lot))} for any strip that it is thick enough for"
    return why, f"a board at least {width} wide and {length} long would do"


def _named(job: Job, board: Board) -> str:
    sizes = {"thick": board.thickness, "wide": board.width, "long": board.length}
    known = [f"{show_length(size, job.unit)} {name}" for name, size in sizes.items() if size is not None]
    return f"{board.count} of {board.species} {', '.join(known)}"
