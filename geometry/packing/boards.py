"""What is sawn from which boards: crosscut to lengths, these ripped to strips, strips cut to pieces. Lengths mm."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

import numpy as np

from geometry.plane.edges import FloatArray
from geometry.records import Record, cached_property, replace

ROUNDING = 1e-6  # mm that a board is taken wider, so that widths whose sum fits exactly do fit
TINY = 1e-9


class Strips(Record):
    """Strips of one sort, and how many pieces are wanted from them."""

    width: float  # with the one kerf that it needs
    start: float  # of a strip that gives no piece
    each: float  # more for each piece
    wanted: int
    least: float = 0.0  # of a length that a board is crosscut to for them
    # More than its pieces take, with which what is left can be held again; 0 where it need not.
    spare: float = 0.0

    def length(self, pieces: int) -> float:
        """Least strip for so many pieces."""
        return self.start + pieces * self.each

    def pieces(self, length: float) -> int:
        """How many a strip gives."""
        return max(0, int((length - self.start + TINY) // self.each))


class Board(Record):
    """Boards of one size. The last strip needs no kerf, so that its room is its width and one kerf more."""

    room: float
    length: float  # between its trimmed ends
    cost: float  # a whole number
    count: int | None  # None: as many as are wanted
    fits: tuple[bool, ...]  # whether strips of each sort may be ripped from it
    # The sort that it is a strip of as it is, which it is too narrow to be ripped to.
    as_strip: int | None = None

    def most(self, strips: Strips) -> int:
        """Strips of one sort side by side."""
        return int((self.room + ROUNDING) // strips.width)

    def is_strip(self, lengths: Iterable[Length]) -> bool:
        """Whether what is cut from it says that it is taken as the strip that it is."""
        return any(not self.fits[sort] for length in lengths for sort, _ in length.strips)


class Task(Record):
    """What is wanted, and from what. A rest of a board shorter than `least` cannot be held again."""

    strips: tuple[Strips, ...]
    boards: tuple[Board, ...]
    kerf: float  # of a crosscut
    least: float = 0.0
    step: float = 0.0  # in which lengths are shown
    crosscut: bool = True  # whether boards may be

    @cached_property
    def sizes(self) -> FloatArray:
        """Start, each piece's length, least length and spare of the strips of each sort, (4, k)."""
        return np.array([(of.start, of.each, of.least, of.spare) for of in self.strips]).T

    def rounded(self, length: float) -> float:
        """Up to a whole step."""
        return math.ceil(length / self.step - ROUNDING) * self.step if self.step else length

    def allowed(self, board: Board, strip: int, length: float) -> bool:
        """Whether a length of a board may be ripped to such strips, or is one as it is."""
        whole = length >= board.length - TINY
        if strip == board.as_strip and not board.fits[strip]:
            return whole
        return board.fits[strip] and (whole or length >= self.strips[strip].least - TINY)


class Length(Record):
    """A length of board and the pieces that are cut from each of its strips: (number of the sort, pieces)."""

    length: float
    strips: tuple[tuple[int, int], ...]


class Sawn(Record):
    """One board, the lengths that it is crosscut to, and what stays in one piece beside them."""

    board: int
    lengths: tuple[Length, ...]
    rest: float


class NotEnough(ValueError):
    """The boards do not give the pieces."""


Ripped = tuple[float, tuple[int, ...]]  # a length of board and the strips of each sort across it
Cutting = tuple[int, tuple[Ripped, ...]]  # number of the board, and its lengths


def finished(task: Task, cuttings: Sequence[Cutting]) -> tuple[Sawn, ...]:
    """Boards with their pieces: strips are cut no further than pieces are wanted, and as many as can be are left long
    enough to be held again; lengths are no longer than their strips need, unless the rest would be too short to hold.
    """
    boards = [(number, [_Open(length, strips) for length, strips in lengths]) for number, lengths in cuttings]
    for first in (True, False):
        _share_out(task, [one for _, lengths in boards for one in lengths])
        kept = [
            (number, [one for one in lengths if any(one.pieces)], len(lengths)) for number, lengths in boards
        ]
        boards = [(number, lengths) for number, lengths, _ in kept if lengths]
        for number, lengths in [
            (number, own) for number, own, were in kept if own and (first or len(own) < were)
        ]:
            _fit(task, task.boards[number], lengths)
    return tuple(
        Sawn(number, tuple(one.closed() for one in lengths), _rest(task, task.boards[number], lengths))
        for number, lengths in boards
    )


class _Open:
    """A length of board whose strips are not yet cut; `pieces` of each strip in turn."""

    def __init__(self, length: float, strips: Sequence[int]) -> None:
        self.length = length
        self.sorts = [sort for sort, count in enumerate(strips) for _ in range(count)]
        self.pieces = [0] * len(self.sorts)

    def closed(self) -> Length:
        return Length(self.length, tuple((s, p) for s, p in zip(self.sorts, self.pieces, strict=True) if p))


def _share_out(task: Task, lengths: Sequence[_Open]) -> None:
    """The pieces wanted over all strips: as few as can be end too short to be held, then as few strips as can be."""
    for sort, strips in enumerate(task.strips):
        own = [(one, k) for one in lengths for k, found in enumerate(one.sorts) if found == sort]
        most = [strips.pieces(one.length) for one, _ in own]
        safe = [strips.pieces(one.length - strips.spare) for one, _ in own]
        full, short = set[int](), strips.wanted - sum(safe)
        for strip in sorted(range(len(own)), key=lambda strip: (safe[strip] - most[strip], -safe[strip])):
            if short > 0:  # cut to the last piece, those first that give most by it
                full.add(strip)
                short -= most[strip] - safe[strip]
        left = strips.wanted
        for strip in sorted(range(len(own)), key=lambda strip: (strip not in full, -safe[strip])):
            one, k = own[strip]
            one.pieces[k] = min(left, most[strip] if strip in full else safe[strip])
            left -= one.pieces[k]


def _fit(task: Task, board: Board, lengths: Sequence[_Open]) -> None:
    """Each no longer than it has to be; of what is over so much that its strips can be held again, where that is
    enough. What would be left too short to hold goes to the one with the most strips."""
    if not task.crosscut or any(not board.fits[sort] for one in lengths for sort in one.sorts):
        return
    for one in lengths:
        one.length = _least_length(task, one, _needed)
    over = board.length - sum(one.length for one in lengths) - (len(lengths) - 1) * task.kerf
    for one in lengths:
        longer = _least_length(task, one, _held_again, board.length) - one.length
        if 0.0 < longer <= over:
            one.length, over = one.length + longer, over - longer
    if over - task.kerf < max(task.least, TINY):
        max(lengths, key=lambda one: sum(map(bool, one.pieces))).length += max(0.0, over)


def _least_length(
    task: Task, one: _Open, needed: Callable[[Strips, int, float], float], most: float | None = None
) -> float:
    """Of a length of board, at most what it is or may be: its longest strip, and no less than they ask of a length."""
    most = one.length if most is None else most
    cut = [(task.strips[s], p) for s, p in zip(one.sorts, one.pieces, strict=True) if p]
    if any(strips.least > one.length + TINY for strips, _ in cut):
        return one.length
    least = max(max(needed(strips, pieces, one.length), strips.least) for strips, pieces in cut)
    return min(most, task.rounded(least))


def _held_again(strips: Strips, pieces: int, _: float) -> float:
    """Of a strip, what keeps it long enough to be held."""
    return strips.length(pieces) + strips.spare


def _needed(strips: Strips, pieces: int, length: float) -> float:
    """Of a strip, with what keeps it long enough to be held where it has that."""
    least = strips.length(pieces)
    return least + strips.spare if least + strips.spare <= length + TINY else least


def _rest(task: Task, board: Board, lengths: Sequence[_Open]) -> float:
    over = board.length - sum(one.length for one in lengths) - len(lengths) * task.kerf
    return over if over > ROUNDING else 0.0


def short_ends(task: Task, sawn: Sequence[Sawn]) -> int:
    """Strips whose ends are too short to be held again."""
    return sum(
        task.strips[sort].length(pieces) + task.strips[sort].spare > one.length + ROUNDING
        for board in sawn
        for one in board.lengths
        for sort, pieces in one.strips
    )


def area_taken(task: Task, sawn: Sequence[Sawn]) -> float:
    """Of all boards but what stays in one piece."""
    boards = ((task.boards[one.board], one.rest) for one in sawn)
    return sum(board.room * (board.length - rest) for board, rest in boards)


def rates(task: Task, board: Board) -> Iterator[float]:
    """For each sort of strips no fewer pieces than its strips side by side with nothing else give for each mm of a
    board's length that they take, the kerf that ends them among it; 0 where none is ripped from it."""
    for number, strips in enumerate(task.strips):
        able = board.fits[number] or number == board.as_strip
        pieces = min(strips.pieces(board.length), strips.wanted) if able else 0
        length = strips.length(pieces) if board.fits[number] and task.crosscut else board.length
        yield pieces / (length + task.kerf) if pieces else 0.0


def least_by_area(task: Task, costs: Sequence[float] | FloatArray) -> float:
    """A cost that no cutting is below, where a board of each size costs so much for all of its length and room: each
    piece at its share of the board where that is least. Infinite where no board gives a piece."""
    shares = [math.inf if strips.wanted else 0.0 for strips in task.strips]
    for board, cost in zip(task.boards, costs, strict=True):
        for k, rate in enumerate(rates(task, board)):
            strips = task.strips[k]
            wide = strips.width if board.fits[k] else board.room
            each = cost * wide / (board.room + ROUNDING) / (board.length + task.kerf)
            if rate and strips.wanted:
                shares[k] = min(shares[k], strips.wanted * each / rate)
    return sum(shares)


def least_by_room(task: Task) -> float:
    """Another: the pieces without their strips' ends, laid into the cheapest room for them with no width lost. Infinite
    where there is too little."""
    left, least = sum(strips.wanted * strips.each * strips.width for strips in task.strips), 0.0
    rooms = [(board, _room(task, board)) for board in task.boards]
    for board, room in sorted(((b, room) for b, room in rooms if room), key=lambda of: of[0].cost / of[1]):
        taken = min(left / room, math.inf if board.count is None else board.count)
        left, least = left - taken * room, least + taken * board.cost
    return least if left < ROUNDING else math.inf


def _room(task: Task, board: Board) -> float:
    """No less than all pieces together take of a board: along it, of strips one behind another each begins with an end,
    and all of one sort give no more than is wanted."""
    able = [s for k, s in enumerate(task.strips) if s.wanted and (board.fits[k] or k == board.as_strip)]
    most = sorted((strips.wanted * strips.each for strips in able), reverse=True)
    end = min((strips.start for strips in able), default=0.0)
    along = [
        min(sum(most[:count]), board.length + TINY - count * end - (count - 1) * task.kerf)
        for count in range(1, len(able) + 1)
    ]
    wide = 0.0 if board.as_strip is None else task.strips[board.as_strip].width
    return max(board.room + ROUNDING, wide) * max([0.0, *along])


def fewer(task: Task, left: Sequence[int]) -> Task:
    """The same for so many pieces."""
    strips = (replace(strips, wanted=count) for strips, count in zip(task.strips, left, strict=True))
    return replace(task, strips=tuple(strips))
