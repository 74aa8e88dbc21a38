"""From a packing to how every length of board is sawn, and where its wood goes: each share worked out on its own, so
that their sum can be held against the boards.

The order of work: a board's ends are trimmed and it is crosscut into lengths, as thick as it came; the lengths
are planed; one edge is trimmed, strips are ripped, their edges planed; pieces are cut from the strips.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from geometry.packing.boards import Length
from jigs.asked.job import Job
from jigs.stages.boards.plan import BoardCut, BoardsTaken, Lot, Offcut, StripCut, Volumes
from jigs.stages.boards.solve.kinds import Kind, ripped
from jigs.stages.boards.solve.packed import Packed

NARROWEST = 20.0  # mm: narrower offcuts are not kept; common practice, no source


def is_kept(job: Job, width: float, length: float) -> bool:
    """Whether an offcut is long and wide enough to be held safely another time."""
    return length >= job.workshop.stock.least_offcut and width >= NARROWEST


def board_cuts(job: Job, lots: Sequence[Lot], found: Packed) -> tuple[BoardCut, ...]:
    """Lengths sawn alike, counted."""
    alike = Counter((kind, ready, one) for kind, ready, board in found.boards for one in board.lengths)
    return tuple(_board(job, lots, *sort, count) for sort, count in alike.items())


def _board(job: Job, lots: Sequence[Lot], kind: Kind, ready: bool, one: Length, count: int) -> BoardCut:
    width = kind.counts_as(ready)
    strips = tuple(
        StripCut(
            lot=lots[k].number,
            strips=alike,
            pieces=pieces,
            width=width if ready else ripped(job, lots[k]),
            length=one.length,
            left=lots[k].left_of(one.length, pieces),
        )
        for (k, pieces), alike in Counter(one.strips).items()
    )
    return BoardCut(
        thickness=kind.thickness,
        width=width,
        length=one.length,
        bought=kind.bought,
        ready=ready,
        count=count,
        strips=strips,
        left=0.0 if ready else _left_beside(job, kind.width, strips),
    )


def _left_beside(job: Job, width: float, strips: Sequence[StripCut]) -> float:
    """Width beside the strips once the last of them is ripped off; nothing where that cut takes it all."""
    wide, count = sum(cut.strips * cut.width for cut in strips), sum(cut.strips for cut in strips)
    room = width - job.workshop.stock.edge_trim
    return max(0.0, room - wide - count * job.workshop.saw.kerf)


NOTHING = 1e-9  # mm

Strips = Sequence[tuple[StripCut, Lot]]
Size = tuple[float, float, float]  # width, length and thickness


def boards_taken(found: Packed) -> tuple[BoardsTaken, ...]:
    """Whole boards, those that are crosscut alike together."""
    alike = Counter(
        (kind, kind.counts_as(ready), tuple(length.length for length in one.lengths), one.rest)
        for kind, ready, one in found.boards
    )
    return tuple(_taken(*one, count) for one, count in alike.items())


def _taken(kind: Kind, counts_as: float, lengths: tuple[float, ...], rest: float, count: int) -> BoardsTaken:
    thickness, width = kind.thickness, kind.width
    if kind.source is not None:
        thickness, width = kind.source.thickness, kind.source.width
    return BoardsTaken(
        thickness=thickness,
        width=width,
        length=kind.length,
        bought=kind.bought,
        count=count,
        lengths=lengths,
        rest=rest,
        thin=kind.thickness - thickness,
        narrow=counts_as - width,
    )


def offcuts(
    job: Job, lots: Sequence[Lot], boards: Sequence[BoardCut], taken: Sequence[BoardsTaken]
) -> tuple[Offcut, ...]:
    """What is left of boards, lengths and strips, sizes alike together, the largest first."""
    found: Counter[Size] = Counter()
    for size, count in _left(lots, boards, taken):
        if min(size) > NOTHING:
            found[size] += count
    largest = sorted(found.items(), key=lambda item: -item[0][0] * item[0][1] * item[0][2])
    least = job.workshop.stock.least_offcut
    return tuple(Offcut(*size, count, is_kept(job, *size[:2]), size[1] < least) for size, count in largest)


def _left(
    lots: Sequence[Lot], boards: Sequence[BoardCut], taken: Sequence[BoardsTaken]
) -> Iterator[tuple[Size, int]]:
    """The size of every offcut, and how many there are of each: what stays in one piece of boards, as thick as it
    came, what is left beside strips, planed, and the strips' ends."""
    thickness, by_number = lots[0].thickness, {lot.number: lot for lot in lots}
    for whole in taken:
        yield (whole.width, whole.rest, whole.thickness + whole.thin), whole.count
    for board in boards:
        yield (board.left, board.length, thickness), board.count
    for board in boards:
        for cut in board.strips:
            yield (by_number[cut.lot].width, cut.left, thickness), board.count * cut.strips


def volumes(
    job: Job,
    lots: Sequence[Lot],
    boards: Sequence[BoardCut],
    taken: Sequence[BoardsTaken],
    left: Sequence[Offcut],
) -> Volumes:
    """Every share, mm3."""
    sawing = [
        (board, [(s, lot) for s in board.strips for lot in lots if lot.number == s.lot]) for board in boards
    ]
    return Volumes(
        stock=sum(whole.count * whole.section * whole.length for whole in taken),
        pieces=sum(lot.count * lot.volume for lot in lots),
        spares=sum(lot.spares * lot.volume for lot in lots),
        kerf=_crosscut(job, taken) + sum(_ripping(job, *one) + _cutting_off(*one) for one in sawing),
        planed=sum(_planed(*one) for one in sawing),
        trimmed=_ends(job, taken) + sum(_edge(job, *one) + _slanted(*one) for one in sawing),
        offcuts=sum(offcut.volume for offcut in left),
        kept=sum(offcut.volume for offcut in left if offcut.kept),
    )


def _crosscut(job: Job, taken: Sequence[BoardsTaken]) -> float:
    """What is between the lengths of a board, and between them and what stays in one piece."""
    end = 2 * job.workshop.stock.end_trim
    cut = (whole.length - end - sum(whole.lengths) - whole.rest for whole in taken)
    return sum(wide * whole.count * whole.section for wide, whole in zip(cut, taken, strict=True))


def _ends(job: Job, taken: Sequence[BoardsTaken]) -> float:
    return 2 * job.workshop.stock.end_trim * sum(whole.count * whole.section for whole in taken)


def _ripping(job: Job, board: BoardCut, strips: Strips) -> float:
    """A cut for each strip; the last takes no more than there is."""
    if board.ready:
        return 0.0
    kerf, count = job.workshop.saw.kerf, sum(cut.strips for cut, _ in strips)
    wide = sum(cut.strips * cut.width for cut, _ in strips)
    beside = board.width - job.workshop.stock.edge_trim - wide - (count - 1) * kerf
    return ((count - 1) * kerf + min(kerf, beside)) * board.length * strips[0][1].thickness * board.count


def _cutting_off(board: BoardCut, strips: Strips) -> float:
    """One cut more than there are pieces on every strip."""
    cuts = (cut.strips * (cut.pieces + 1) * lot.slant * lot.width * lot.thickness for cut, lot in strips)
    return board.count * sum(cuts)


def _planed(board: BoardCut, strips: Strips) -> float:
    """Off the faces of the lengths, and then off the edges of the strips."""
    thickness = strips[0][1].thickness
    faces = (board.thickness - thickness) * board.width * board.length
    edges = sum(cut.strips * (cut.width - lot.width) * cut.length * thickness for cut, lot in strips)
    return board.count * (faces + edges)


def _edge(job: Job, board: BoardCut, strips: Strips) -> float:
    trim = 0.0 if board.ready else job.workshop.stock.edge_trim
    return board.count * trim * board.length * strips[0][1].thickness


def _slanted(board: BoardCut, strips: Strips) -> float:
    """The triangles at both ends of each strip, and what bevels take off the pieces."""
    return board.count * sum(
        cut.strips * (lot.end * lot.width * lot.thickness + cut.pieces * lot.off) for cut, lot in strips
    )
