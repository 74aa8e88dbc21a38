"""Strips from sheets of plies: those at hand first, then sheets that are made."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from geometry.records import Record, replace

_EDGE = 1e-9


class Sheet(Record):
    """Sheets of one size; `count` is None for those that are made, as many as it takes.

    `rest_of` is the plan that left it, by its place: such a one is trimmed already.
    """

    width: float
    length: float
    count: int | None = None
    rest_of: int | None = None

    @property
    def area(self) -> float:
        return self.width * self.length


class StripSize(Record):
    """Of a strip as sawn, what each cut takes, and what a sheet loses before: off one edge, and off each end."""

    width: float
    length: float
    kerf: float
    edge: float = 0.0
    end: float = 0.0

    def usable(self, sheet: Sheet) -> tuple[float, float]:
        """Width and length of it with straight edges and clean ends."""
        if sheet.rest_of is not None:
            return sheet.width, sheet.length
        return max(0.0, sheet.width - self.edge), max(0.0, sheet.length - 2 * self.end)

    def rips(self, sheet: Sheet) -> int:
        """Strips side by side over the sheet's width."""
        return int((self.usable(sheet)[0] + self.kerf + _EDGE) // (self.width + self.kerf))

    def each(self, sheet: Sheet) -> int:
        """Strips one after the other over its length."""
        return int((self.usable(sheet)[1] + self.kerf + _EDGE) // (self.length + self.kerf))

    def in_sheet(self, sheet: Sheet) -> int:
        return self.rips(sheet) * self.each(sheet)


class Taken(Record):
    """Strips from so many sheets of one size, `strips` from each."""

    sheet: Sheet
    sheets: int
    strips: int


def take(strips: int, size: StripSize, hand: Sequence[Sheet], new: Sheet) -> tuple[Taken, ...]:
    """Where the strips come from; nothing from new sheets where none fits."""
    found: list[Taken] = []
    for sheet in (*hand, new):
        each = size.in_sheet(sheet)
        if not each or strips <= 0:
            continue
        wanted = ceil(strips / each)
        sheets = wanted if sheet.count is None else min(sheet.count, wanted)
        last = min(each, strips - (sheets - 1) * each)
        found += [Taken(sheet, sheets - 1, each)] if sheets > 1 else []
        found.append(Taken(sheet, 1, last))
        strips -= (sheets - 1) * each + last
    return tuple(found)


def left_at_hand(hand: Sequence[Sheet], taken: Sequence[Taken]) -> tuple[Sheet, ...]:
    """Those that nothing was taken from."""
    used = {id(sheet): sum(t.sheets for t in taken if t.sheet is sheet) for sheet in hand}
    rest = (replace(sheet, count=(sheet.count or 0) - used[id(sheet)]) for sheet in hand)
    return tuple(sheet for sheet in rest if sheet.count)


def rest_of_last(taken: Sequence[Taken], size: StripSize, number: int) -> tuple[Sheet, ...]:
    """What the strips of plan `number` leave of the last sheet that is made, beside them."""
    if not taken or taken[-1].sheet.count is not None:
        return ()
    last = taken[-1]
    width, length = size.usable(last.sheet)
    rips = ceil(last.strips / size.each(last.sheet))
    left = _parted(width, size.width, rips, size.kerf)[1]
    return (Sheet(left, length, 1, number),) if left > _EDGE else ()


def areas(taken: Taken, size: StripSize) -> tuple[float, float]:
    """Of one of these sheets, once it is trimmed: what its cuts take, and what is left whole, mm2."""
    (width, length), each = size.usable(taken.sheet), size.each(taken.sheet)
    full, rest = divmod(taken.strips, each)
    rip_kerf, rip_left = _parted(width, size.width, full + (1 if rest else 0), size.kerf)
    kerf, left = rip_kerf * length, rip_left * length
    for count, rips in ((each, full), (rest, 1)):
        cross_kerf, cross_left = _parted(length, size.length, count, size.kerf) if count else (0.0, 0.0)
        kerf, left = kerf + rips * cross_kerf * size.width, left + rips * cross_left * size.width
    return kerf, left


def _parted(whole: float, piece: float, count: int, kerf: float) -> tuple[float, float]:
    """What the cuts take when `count` pieces come off a whole, and what is left; the last cut only if it is needed."""
    rest = max(0.0, whole - count * piece - (count - 1) * kerf)
    last = min(kerf, rest)
    return (count - 1) * kerf + last, rest - last
