"""book.pdf, set from book.typ."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from typing import Any

from jigs.render.book.content import Book
from jigs.render.book.gather import book_of
from jigs.render.pdf.fit import Size, pinned_way, placed
from jigs.render.pdf.typeset import typeset
from jigs.work.model import Work

NO_PICTURES: Mapping[str, str] = {}
PAPER = {"A4": ("a4", 210, 297), "Letter": ("us-letter", 215.9, 279.4)}
ASIDE, OVER = 34, 30  # mm, of the margins in book.typ
NO_PICTURE = (0.0, 0.0)


def book_pdf(
    work: Work,
    pictures: Mapping[str, str] = NO_PICTURES,
    paper: str = "A4",
) -> bytes:
    """The book of a work: PDF/UA, text selectable, fonts embedded, never scaled by a viewer.

    `pictures` are SVG texts by id. Raises KeyError for a paper other than A4 or Letter.
    """
    return typeset("book.typ", content(book_of(work, pictures), pictures, paper))


def content(book: Book, pictures: Mapping[str, str], paper: str) -> dict[str, Any]:
    """What the template is given."""
    name, width, height = PAPER[paper]
    page = (width - ASIDE, height - OVER)
    return {
        "book": asdict(book),
        "ways": dict(_ways(book, pictures, page)),
        "pinned": {sheet.place: asdict(pinned_way(sheet.steps, page)) for sheet in book.sheets},
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
