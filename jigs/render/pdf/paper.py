"""book.pdf, set from book.typ, each step and each pinned sheet in the roomiest way in which it keeps to a page."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from jigs.render.book.content import Book, Line, Step
from jigs.render.book.gather import book_of
from jigs.render.pdf.length import (
    MM,
    SMALL,
    WORDED,
    Block,
    Type,
    number_words,
    settings_blocks,
    stacked,
    step_height,
)
from jigs.render.pdf.letters import Word, filled, lines, width, words
from jigs.render.pdf.typeset import Document, typeset
from jigs.render.pdf.ways import ALONE, ON_SEVERAL, PICTURED, PINNED, SHARED, Pinned, Way
from jigs.work.model import Work

NO_PICTURES: Mapping[str, str] = {}
PAPER = {"A4": ("a4", 210, 297), "Letter": ("us-letter", 215.9, 279.4)}
ASIDE, OVER = 34, 30  # mm, of the margins in book.typ
NO_PICTURE = (0.0, 0.0)


def book_pdf(work: Work, pictures: Mapping[str, str] = NO_PICTURES, paper: str = "A4") -> bytes:
    """The book of a work: PDF/UA, text selectable, fonts embedded, never scaled by a viewer.

    `pictures` are SVG texts by id. Raises KeyError for a paper other than A4 or Letter.
    """
    return typeset(Document("book.typ", content(book_of(work, pictures), pictures, paper)))[0]


def content(book: Book, pictures: Mapping[str, str], paper: str) -> dict[str, Any]:
    """What the template is given."""
    name, width, height = PAPER[paper]
    page = (width - ASIDE, height - OVER)
    return {
        "book": book,
        "ways": dict(_ways(book, pictures, page)),
        "pinned": {sheet.place: pinned_way(sheet.steps, page) for sheet in book.sheets},
        "pictures": dict(pictures),
        "paper": name,
    }


def _ways(book: Book, pictures: Mapping[str, str], page: Size) -> Iterator[tuple[str, dict[str, Any]]]:
    """How each step is set, by its id, and whether on the page of the one before; of its picture the width (mm)."""
    sizes = {
        step.id: svg_size(pictures[step.picture]) if step.picture else NO_PICTURE
        for chapter in book.chapters
        for step in chapter.steps
    }
    heights = {id: high for id, (_, high) in sizes.items()}
    for chapter in book.chapters:
        for step, way, follows in placed(chapter.steps, page, heights):
            shown = way.picture * sizes[step.id][0]
            yield step.id, {**asdict(way), "picture": shown, "follows": follows}


def svg_size(svg: str) -> Size:
    """As its first line says (mm)."""
    wide, high = re.findall(r'(?:width|height)="([\d.]+)mm"', svg)[:2]
    return float(wide), float(high)


SPARE = 0.5 * MM
ABOVE = 38  # mm, for what stands above the steps of a pinned sheet
BETWEEN = 14 * MM  # two steps on one page
Size = tuple[float, float]
Placed = tuple[Step, Way, bool]  # True: it follows on the page of the step before


def placed(steps: Sequence[Step], page: Size, pictures: Mapping[str, float]) -> Iterator[Placed]:
    """A chapter's steps, as few pages as they fill in their order where none is set small, then as roomy as those
    pages let them; `pictures` has the heights of theirs. Behind drawings begins a new page (mm)."""
    high = page[1] * MM - SPARE

    def height(group: Sequence[Step], ways: tuple[Way, Way]) -> float:
        heights = [
            step_height(step, ways[not step.picture], page[0] * MM, pictures[step.id] * MM, step is steps[0])
            for step in group
        ]
        return sum(heights) + BETWEEN * (len(group) - 1)

    groups: list[list[Step]] = []
    filled = 0.0
    for step in steps:
        own = height([step], SHARED[-1])
        if groups and not groups[-1][-1].drawings and filled + BETWEEN + own <= high:
            groups[-1].append(step)
            filled += BETWEEN + own
        else:
            groups.append([step])
            filled = own
    for first, *more in groups:
        if more:
            ways = next((ways for ways in SHARED if height([first, *more], ways) <= high), SHARED[-1])
            yield from ((step, ways[not step.picture], step is not first) for step in (first, *more))
        else:
            yield first, way_of(first, first is steps[0], page, pictures[first.id]), False


def way_of(step: Step, first: bool, page: Size, picture: float) -> Way:
    """The roomiest in which a step keeps to its page (mm); `picture` is the height of its picture, if it has one."""
    ways: tuple[Way, ...] = (*(PICTURED if step.picture else ()), *ALONE)
    room, high = page[0] * MM, page[1] * MM - SPARE
    for way in ways:
        if step_height(step, way, room, picture * MM, first) <= high:
            return way
    return ways[-1]


def pinned_way(steps: Sequence[Step], page: Size) -> Pinned:
    """The roomiest in which they keep to one page; of several, one that leaves no page with a step or two."""
    room, high = page[0] * MM, (page[1] - ABOVE) * MM
    if one := next((way for way in PINNED if pinned_height(steps, way, room) <= high), None):
        return one
    pages, last = _pages(steps, ON_SEVERAL, page)
    closer = (way for way in PINNED if not way.across and _pages(steps, way, page)[0] < pages)
    return next(closer, ON_SEVERAL) if last < 0.4 * high else ON_SEVERAL


def _pages(steps: Sequence[Step], way: Pinned, page: Size) -> tuple[int, float]:
    """How many they fill, no step broken, and how much of the last."""
    room, high = page[0] * MM, page[1] * MM
    pages, filled = 1, ABOVE * MM
    for step in steps:
        step_high = pinned_height([step], way, room) + way.room * MM
        pages, filled = (pages, filled + step_high) if filled + step_high <= high else (pages + 1, step_high)
    return pages, filled


def pinned_height(steps: Sequence[Step], way: Pinned, room: float) -> float:
    """Steps that set something, one below the other."""
    type = Type(way.size, 0.55 * way.size, 0.75 * way.size)
    column = room - (14 if way.across else 10) * MM
    heights = [_pinned(step, way, type, column) for step in steps]
    return sum(heights) + way.room * MM * (2 * len(steps) - 1)


def _pinned(step: Step, way: Pinned, type: Type, room: float) -> float:
    does = Block(type.high(lines(step.does, way.size, room)), None, way.room * MM)
    if way.across:
        return stacked(
            [does, *settings_blocks(step.settings, way.value, way.across, type, room, way.size)], type
        )
    said = type.high(filled(_flowing(step.settings, way.value), room), way.value, 0.8 * way.size)
    return stacked([does, Block(said)], type)


def _flowing(settings: Sequence[Line], value: float) -> Iterator[Word]:
    """Each label and its number stay together, where the number is set large."""
    for line in settings:
        if len(line.value) > WORDED:
            yield from words(f"{line.label} ", SMALL)
            *most, last = words(line.value, SMALL, bold=True)
            yield from most
            yield last[0], 7 * MM
        else:
            yield width(f"{line.label} ", SMALL) + sum(map(sum, number_words(line.value, value))), 7 * MM
