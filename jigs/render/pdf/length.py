"""How high a step comes out on its page, as book.typ sets it, so that it is set once: measuring one takes as long.

Never too low, and exact where no line is within its kerning of breaking elsewhere. Lengths in points.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil
from typing import NamedTuple

from geometry.records import Record
from jigs.render.book.content import MANY, Box, Jig, Line, Proof, Step
from jigs.render.pdf.letters import CAPITAL, Word, filled, lines, width, words
from jigs.render.pdf.ways import Way

MM = 72 / 25.4
NAMED = 3 * MANY  # more by code alone
SMALL = 10.0
BESIDE = 6 * MM  # between columns
WORDED = 24  # letters; a value that has more is words


class Block(NamedTuple):
    """Something across the page, and the least white above and below it where that is not a paragraph's."""

    height: float
    above: float | None = None
    below: float | None = None


class Type(Record):
    """Letters of a size, the white between lines and between paragraphs."""

    size: float
    leading: float
    gap: float

    def high(self, lines: int, size: float | None = None, leading: float | None = None) -> float:
        """A paragraph."""
        white = self.leading if leading is None else leading
        return lines * CAPITAL * (size or self.size) + max(lines - 1, 0) * white


def step_height(step: Step, way: Way, room: float, picture: float, first: bool) -> float:
    """A step's page in a column `room` wide, `first` of its stage or not; `picture` is the height of its picture."""
    type = Type(way.size, way.leading * way.size, way.gap * way.size)
    blocks = [*_head(step, way, type, room, first)]
    if step.settings:
        large = settings_blocks(step.settings, way.value, way.across, type, room, max(SMALL, way.size - 1))
        blocks.append(Block(stacked(large, type), 1.5 * way.size, 1.5 * way.size))
    blocks += _cautions(step, type, room)
    if way.picture:
        blocks.append(Block(way.picture * picture))
    if way.beside:
        left, right = 0.4 * (room - 8 * MM), 0.6 * (room - 8 * MM)
        said = [*_doing(step, type, right), *_checks(step, way, type, right)]
        blocks.append(Block(max(stacked([*_jigs(step, way, type, left)], type), stacked(said, type))))
    else:
        blocks += [*_jigs(step, way, type, room), *_doing(step, type, room), *_checks(step, way, type, room)]
    return stacked([*blocks, *_readings(step, way.reads, type, room)], type)


def stacked(blocks: Sequence[Block], type: Type) -> float:
    """Of the white below one and above the next the larger counts, but a paragraph's only beside another's."""
    total = sum([block.height for block in blocks])
    for upper, lower in pairwise(blocks):
        stated = [white for white in (upper.below, lower.above) if white is not None]
        total += max(stated, default=type.gap)
    return total


def _in_rows(heights: Sequence[float], across: int, gutter: float) -> float:
    """A grid."""
    rows = [max(heights[k : k + across]) for k in range(0, len(heights), across)]
    return sum(rows) + gutter * max(len(rows) - 1, 0)


def _column(room: float, across: int, gutter: float = BESIDE) -> float:
    return (room - (across - 1) * gutter) / across


def _head(step: Step, way: Way, type: Type, room: float, first: bool) -> Iterator[Block]:
    yield Block(CAPITAL * 11, None, 0.7 * (26 if first else way.size))
    yield Block(8 * MM)
    yield Block(-2 * MM, None, 0)
    yield Block(0)
    title = type.high(lines(step.does, way.title, room, bold=True), way.title, way.leading * way.title)
    yield Block(title, 18, 0.7 * 18)
    if step.made:
        yield Block(type.high(lines("  ·  ".join(step.made), way.size, room)))


def _title(type: Type) -> Block:
    return Block(CAPITAL * SMALL, type.size, 0.65 * type.size)


def settings_blocks(
    settings: Sequence[Line], value: float, across: int, type: Type, room: float, said: float
) -> list[Block]:
    """Settings set large, `across` beside each other; what is more than a number or two stands below as words."""
    blocks: list[Block] = []
    run: list[Line] = []
    for line in settings:
        if len(line.value) <= WORDED:
            run.append(line)
            continue
        blocks += _large(run, value, across, type, room, said)
        run = []
        told = lines(line.label, type.size, room) + lines(line.value, type.size, room, bold=True)
        blocks.append(Block(type.high(told), 0.9 * type.size, 0.9 * type.size))
    return [*blocks, *_large(run, value, across, type, room, said)]


def _large(
    run: Sequence[Line], value: float, across: int, type: Type, room: float, said: float
) -> Iterator[Block]:
    rows: list[float] = []
    x = across
    for line in run:
        span = 2 if across > 1 and _long(line.value) else 1
        if x + span > across:
            rows.append(0)
            x = 0
        x += span
        column = span * (_column(room, across) + BESIDE) - BESIDE
        rows[-1] = max(rows[-1], _setting(line, value, type, column, said))
    if rows:
        yield Block(sum(rows) + 0.55 * value * (len(rows) - 1))


def _setting(line: Line, value: float, type: Type, room: float, said: float) -> float:
    label = type.high(lines(line.label, said, room), said, type.leading * said / type.size)
    leading = 0.35 * (type.size if _has_fraction(line.value) else value)
    return label + 0.5 * type.size + type.high(filled(number_words(line.value, value), room), value, leading)


def _long(value: str) -> bool:
    head = value.partition("\u00a0(")[0] if _has_fraction(value) else value
    return len(head) > 11 or len(head) + 0.6 * (len(value) - len(head)) > 13


def _has_fraction(value: str) -> bool:
    return "\u00a0(" in value and "×" not in value


def number_words(value: str, size: float) -> list[Word]:
    """The fraction beside an inch's decimals is small, and in one piece."""
    if not _has_fraction(value):
        return words(value, size, bold=True)
    head, mark, tail = value.partition("\u00a0(")
    return [*words(head, size, bold=True), (width(mark + tail, max(SMALL, 0.6 * size), bold=True), 0.0)]


def _barred(height: float) -> float:
    return height + 6


def _cautions(step: Step, type: Type, room: float) -> Iterator[Block]:
    texts = [text for text in (*step.cautions, step.reminder) if text]
    if texts:
        sign = max(CAPITAL * type.size, 8.5) + 1.5
        heights = [max(sign, type.high(lines(text, type.size, room - 27))) for text in texts]
        yield Block(_barred(_in_rows(heights, 1, 6)), 0.85 * type.size, 0.85 * type.size)


def _jigs(step: Step, way: Way, type: Type, room: float) -> Iterator[Block]:
    if len(step.jigs) > MANY:
        yield from _jig_list(step.jigs, type, room)
    elif step.jigs:
        column = _column(room, way.jigs)
        yield _title(type)
        yield Block(_in_rows([_jig(jig, way.thumbs, type, column) for jig in step.jigs], way.jigs, 3.5 * MM))


def _jig(jig: Jig, thumbs: bool, type: Type, room: float) -> float:
    name = f"{jig.name} × {jig.count}" if jig.count > 1 else jig.name
    taken = width(jig.code, type.size, bold=True) + 11
    if thumbs:
        room -= 18 * MM
        told = lines(name, type.size, room, taken=taken)
        told += lines(jig.for_what, type.size, room) if jig.for_what else 0
    else:
        told = lines(f"{name}: {jig.for_what}" if jig.for_what else name, type.size, room, taken=taken)
    height = type.high(told) + _listed(jig.notes, type, room, type.leading)
    return max(height, 13 * MM) if thumbs and jig.picture else height


def _listed(notes: Sequence[str], type: Type, room: float, leading: float) -> float:
    """Points below a text."""
    inner = room - 0.876 * type.size
    return sum([leading + type.high(lines(note, type.size, inner), None, leading) for note in notes])


def _jig_list(jigs: Sequence[Jig], type: Type, room: float) -> Iterator[Block]:
    boxes = []
    for jig in jigs:
        name = 4 + width(jig.name, SMALL) if len(jigs) <= NAMED else 0.0
        count = width(f" × {jig.count}", SMALL) if jig.count > 1 else 0.0
        boxes.append((width(jig.code, SMALL, bold=True) + 6 + name + count, 4 * MM))
    noted = [f"{jig.code}: {' '.join(jig.notes)}" for jig in jigs if jig.notes]
    leading = 0.9 * type.size
    yield _title(type)
    yield Block(type.high(filled(boxes, room), SMALL, leading) + _listed(noted, type, room, leading))


def _doing(step: Step, type: Type, room: float) -> Iterator[Block]:
    if step.trial:
        yield _title(type)
        yield Block(type.high(lines(step.trial, type.size, room)))
    if step.how:
        number = max(width(f"{k}.", type.size) for k in range(1, len(step.how) + 1))
        moves = [type.high(lines(move, type.size, room - number - 0.6 * type.size)) for move in step.how]
        yield _title(type)
        yield Block(_in_rows(moves, 1, 0.65 * type.size))
    if step.known:
        row = [word for line in step.known for word in _known(line, type.size)]
        yield _title(type)
        yield Block(type.high(filled(row, room)))


def _known(line: Line, size: float) -> list[Word]:
    return [*words(f"{line.label} ", size), (width(line.value, size, bold=True), 5 * MM)]


def _checks(step: Step, way: Way, type: Type, room: float) -> Iterator[Block]:
    across = max(1, min(way.checks, len(step.checks)))
    heights = [_check(check, way.checks, type, _column(room, across) - 9) for check in step.checks]
    yield Block(_in_rows(heights, across, 2.5 * MM))


def _check(check: Proof, across: int, type: Type, room: float) -> float:
    mark = width("Check", type.size, bold=True) + 4 + 0.52 * type.size
    blocks = [Block(type.high(lines(check.how, type.size, room, taken=mark)))]
    if check.sizes:
        beside = max(1, 3 - across)
        column = _column(room, beside, 3 * MM)
        sizes = [_size(size, type, column) for size in check.sizes]
        blocks.append(Block(_in_rows(sizes, beside, 3 * MM), 0.7 * type.size))
    if check.if_not:
        mark = width("If not: ", type.size, bold=True)
        blocks.append(Block(type.high(lines(check.if_not, type.size, room, taken=mark)), 0.7 * type.size))
    return _barred(stacked(blocks, type))


def _size(size: Line, type: Type, room: float) -> float:
    """A size of 15 points behind its label."""
    label = words(f"{size.label} ", type.size)
    before = filled(label, room) - 1
    number = [(0.0, 3.0), *words(size.value, 15, bold=True)]
    large = filled([*label, *number], room) - before
    return before * CAPITAL * type.size + large * CAPITAL * 15 + (before + large - 1) * type.leading


def _readings(step: Step, across: int, type: Type, room: float) -> Iterator[Block]:
    if not step.readings:
        return
    yield _title(type)
    few = [_read(box, type, _column(room, across)) + 9.5 * MM for box in step.readings if box.count <= 2]
    if few:
        yield Block(_in_rows(few, across, 3 * MM))
    for box in step.readings:
        if box.count > 2:
            label, each, gap = (42 * MM, 14 * MM, 2 * MM) if box.count > 5 else (52 * MM, 21 * MM, 2.5 * MM)
            rows = ceil(box.count / max(1, (room - label - 4 * MM + gap) // (each + gap)))
            yield Block(max(_read(box, type, label), (10 * rows - 2) * MM), 3 * MM, 0)


def _read(box: Box, type: Type, room: float) -> float:
    row: Iterable[Word] = words(box.label, type.size)
    if box.planned:
        row = [*words(f"{box.label} planned ", type.size), (width(box.planned, type.size), 0.0)]
    return type.high(filled(row, room))
