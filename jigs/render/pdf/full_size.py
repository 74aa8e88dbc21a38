"""Pages that are drawn as they are, set from sheets.typ, and drawings at full size, set from full-size.typ.

These have an index, then a page for each sheet as it is laid out.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import floor

from geometry.grouping import gathered
from geometry.records import Record
from jigs.render.pdf.typeset import Document

Point = tuple[float, float]
Size = tuple[float, float]


class Pattern(Record):
    """One part: what is said of it and its drawing, an SVG of one unit a millimetre, `size` large."""

    code: str
    name: str
    make: str
    of: str  # material and thickness, in a line of the index
    svg: str
    outline: str  # an SVG as large, of its outline alone
    size: Size


class Shown(Record):
    """A pattern on a sheet: the corner of its drawing, words above it; its first sheet gets the bookmark."""

    pattern: int
    corner: Point
    caption: Point
    words: tuple[str, ...]
    first: bool


class Share(Record):
    """Of a pattern on several sheets: the window on the page, and which one of all tiles it is.

    `tiles` are the corners of all on the drawing, row by row; `crosses` lie on the page.
    """

    corner: Point
    size: Size
    tiles: tuple[Point, ...]
    number: int  # from 0
    crosses: tuple[Point, ...]


class Sheet(Record):
    """One page; lengths in mm from its upper left corner, y down."""

    size: Size
    shown: tuple[Shown, ...]
    share: Share | None = None


class Listed(Record):
    """A line of the index: a pattern and its pages."""

    pattern: int
    pages: str


ROW, HEAD, MARGINS = (
    5.6,
    36.0,
    36.0,
)  # mm: of a line of the index, above the first, of its page above and below


def full_size_document(
    title: str, paper: Size, ruler: tuple[float, str], patterns: Sequence[Pattern], sheets: Sequence[Sheet]
) -> Document:
    """The whole file. `ruler` is the length (mm) of the lines to measure a print by, and what it is called."""
    index = _index(len(patterns), sheets, paper)
    content = {
        "title": title,
        "paper": paper,
        "index": index,
        "ruler": {"long": ruler[0], "told": ruler[1]},
        "patterns": patterns,
        "sheets": sheets,
    }
    return Document("full-size.typ", content)


def _index(count: int, sheets: Sequence[Sheet], paper: Size) -> list[list[Listed]]:
    """The index by pages, as many as its lines fill; pages are counted here, since Typst would lay all out again."""
    room = floor((paper[1] - MARGINS) / ROW)
    first = floor((paper[1] - MARGINS - HEAD) / ROW)
    starts = [0, *range(first, count, room)]
    numbered = enumerate(sheets, len(starts) + 1)
    on = gathered((shown.pattern, number) for number, sheet in numbered for shown in sheet.shown)
    lines = [Listed(k, _pages(on[k])) for k in range(count)]
    return [lines[start:end] for start, end in pairwise((*starts, count))]


def _pages(numbers: Sequence[int]) -> str:
    return f"{numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"{numbers[0]}"


class FullSize(Record):
    """A sheet that is printed as it is, one unit a millimetre: a label sheet, a page of its own."""

    title: str
    svg: str


def sheets_document(title: str, paper: tuple[float, float], sheets: Sequence[FullSize]) -> Document:
    """A page of this size (mm) for each, with a bookmark."""
    return Document("sheets.typ", {"title": title, "paper": paper, "sheets": sheets})
