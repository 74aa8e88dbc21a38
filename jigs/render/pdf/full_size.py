"""Drawings at full size, set from full-size.typ: an index, then a page for each sheet as it is laid out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass

from jigs.render.pdf.typeset import typeset

Point = tuple[float, float]
Size = tuple[float, float]


@dataclass(frozen=True)
class Pattern:
    """One part: what is said of it and its drawing, an SVG of one unit a millimetre, `size` large."""

    code: str
    name: str
    make: str
    of: str
    svg: str
    outline: str  # an SVG as large, of its outline alone
    size: Size


@dataclass(frozen=True)
class Shown:
    """A pattern on a sheet: the corner of its drawing, words above it; its first sheet gets the bookmark."""

    pattern: int
    corner: Point
    caption: Point
    words: tuple[str, ...]
    first: bool


@dataclass(frozen=True)
class Share:
    """Of a pattern on several sheets: the window on the page, and which one of all tiles it is.

    `tiles` are the corners of all on the drawing, row by row; `crosses` lie on the page.
    """

    corner: Point
    size: Size
    tiles: tuple[Point, ...]
    number: int  # from 0
    crosses: tuple[Point, ...]


@dataclass(frozen=True)
class Sheet:
    """One page; lengths in mm from its upper left corner, y down."""

    size: Size
    shown: tuple[Shown, ...]
    share: Share | None = None


def full_size_pdf(
    title: str, paper: Size, ruler: tuple[float, str], patterns: Sequence[Pattern], sheets: Sequence[Sheet]
) -> bytes:
    """The whole file. `ruler` is the length (mm) of the lines to measure a print by, and what it is called."""
    content = {
        "title": title,
        "paper": paper,
        "ruler": {"long": ruler[0], "told": ruler[1]},
        "patterns": [asdict(pattern) for pattern in patterns],
        "sheets": [asdict(sheet) for sheet in sheets],
    }
    return typeset("full-size.typ", content)
