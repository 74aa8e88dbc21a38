"""book.pdf: set by Typst from book.typ, in the fonts beside it, with the same bytes each time."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from jigs.render.book.gather import book_of
from jigs.render.pdf.catalog import unscaled
from jigs.render.pdf.length import is_short
from jigs.work.model import Work

HERE = Path(__file__).parent
NO_PICTURES: Mapping[str, str] = {}
PAPER = {"A4": "a4", "Letter": "us-letter"}
# What the fonts are known to have (a test looks); what they lack is shown as U+FFFD.
LACKING = re.compile(
    "[^\n -~\u00a0-\u0377\u0391-\u03a1\u03a3-\u03e1\u0400-\u052f\u1e00-\u1eff\u2010-\u2027\u2030-\u205e"
    "\u2070\u2071\u2074-\u208e\u20a0-\u20bf\u2150-\u215f]"
)
SHOWN = "\ufffd"


@dataclass(frozen=True)
class FullSize:
    """A sheet that is printed as it is, one unit a millimetre: a label sheet, a page of its own."""

    title: str
    svg: str


def book_pdf(
    work: Work,
    pictures: Mapping[str, str] = NO_PICTURES,
    sheets: Sequence[FullSize] = (),
    paper: str = "A4",
) -> bytes:
    """The book of a work: PDF/UA, text selectable, fonts embedded, never scaled by a viewer.

    `pictures` are SVG texts by id. Raises KeyError for a paper other than A4 or Letter.
    """
    import typst

    book = book_of(work, pictures)
    content = {
        "book": asdict(book),
        "short": [step.id for chapter in book.chapters for step in chapter.steps if is_short(step)],
        "pictures": dict(pictures),
        "sheets": [asdict(sheet) for sheet in sheets],
        "paper": PAPER[paper],
    }
    pdf = typst.compile(
        HERE / "book.typ",
        format="pdf",
        font_paths=[HERE / "fonts"],
        ignore_system_fonts=True,
        sys_inputs={"content": json.dumps(_known(content))},
        pdf_standards=["ua-1"],
        timestamp=0,
    )
    return unscaled(pdf)


def _known(content: Any) -> Any:
    """The same with what the fonts lack shown as that, in whatever it is made of."""
    if isinstance(content, str):
        return LACKING.sub(SHOWN, content.replace("\u2212", "\u2013"))
    if isinstance(content, dict):
        return {key: _known(value) for key, value in content.items()}
    return [_known(value) for value in content] if isinstance(content, list | tuple) else content
