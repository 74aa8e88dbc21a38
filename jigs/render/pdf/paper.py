"""book.pdf, set from book.typ."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict

from jigs.render.book.gather import book_of
from jigs.render.pdf.length import is_short
from jigs.render.pdf.sheets import FullSize
from jigs.render.pdf.typeset import typeset
from jigs.work.model import Work

NO_PICTURES: Mapping[str, str] = {}
PAPER = {"A4": "a4", "Letter": "us-letter"}


def book_pdf(
    work: Work,
    pictures: Mapping[str, str] = NO_PICTURES,
    sheets: Sequence[FullSize] = (),
    paper: str = "A4",
) -> bytes:
    """The book of a work: PDF/UA, text selectable, fonts embedded, never scaled by a viewer.

    `pictures` are SVG texts by id. Raises KeyError for a paper other than A4 or Letter.
    """
    book = book_of(work, pictures)
    content = {
        "book": asdict(book),
        "short": [step.id for chapter in book.chapters for step in chapter.steps if is_short(step)],
        "pictures": dict(pictures),
        "sheets": [asdict(sheet) for sheet in sheets],
        "paper": PAPER[paper],
    }
    return typeset("book.typ", content)
