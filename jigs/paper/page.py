"""A page of paper at true size: mm from its upper left corner, y down, with lines to measure the print by."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from math import cos, floor, sin

from jigs.asked.job_wood import PaperSize
from jigs.figures.clear import text_width
from jigs.figures.figure import Figure
from jigs.figures.items import Anchor, Item, Paint, Point, Shape, Words
from jigs.words.lengths import PROOF_LINE, Unit, parse_length

SIZES: dict[PaperSize, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 10.0
HEADING, SAID, PITCH = 5.0, 3.1, 1.3  # sizes of words; from line to line, of the size
BELOW = 12.2  # from the first line below the heading to the last
TOP = MARGIN + 24.0  # below these
FOOT = 7.0  # above the lower margin, for the check line and what it says
SIDE = 4.0  # beside the right margin, for the other one
LETTER = 0.6  # a letter's width in a paragraph, of the size of the words, and seldom more
SMALLEST = 2.5  # mm
ASKED = "Print at 100 %: this line and the one at the right edge are {long} long."
ARROW = (  # of size 1, its tip at the origin
    (0.0, 0.0), (0.5, 0.5), (0.16, 0.5), (0.16, 1.0), (-0.16, 1.0), (-0.16, 0.5), (-0.5, 0.5),
)  # fmt: skip

Room = tuple[float, float, float, float]


def room(paper: PaperSize) -> Room:
    """Left, top, right and bottom of what may be drawn on."""
    width, height = SIZES[paper]
    return MARGIN, TOP, width - MARGIN - SIDE, height - MARGIN - FOOT


def page(
    paper: PaperSize, unit: Unit, heading: str, said: str, body: Sequence[Item], true_size: bool = True
) -> Figure:
    """The page; `said` stands below the heading, in as many lines as it needs. What is not at true size has no lines
    to measure the print by."""
    width, height = SIZES[paper]
    check = parse_length(PROOF_LINE[unit], unit)
    foot, side, wide = height - MARGIN, width - MARGIN, width - 2 * MARGIN
    items = (
        Shape(_rows(rectangle(0.0, 0.0, width, height)), closed=True, fill="paper", stroke=None),
        words((MARGIN, MARGIN + HEADING), heading, fitting([heading], wide, HEADING)),
        *_paragraph((MARGIN, MARGIN + HEADING + 5.0), said, wide),
        *body,
        *(
            (
                line((MARGIN, foot), (MARGIN + check, foot)),
                line((side, foot - check), (side, foot)),
                words((MARGIN, foot - 1.5), ASKED.format(long=PROOF_LINE[unit]), 3.1),
            )
            if true_size
            else ()
        ),
    )
    return Figure("page", heading, said, items, margin=0.0, page=(width, height))


def _paragraph(at: Point, text: str, width: float) -> list[Words]:
    """Wrapped to a width, smaller where it would take too much room."""
    size, rows = SAID, wrapped(text, width, SAID)
    while (len(rows) - 1) * PITCH * size > BELOW:
        size *= 0.95
        rows = wrapped(text, width, size)
    x, y = at
    return [words((x, y + k * PITCH * size), row, size) for k, row in enumerate(rows)]


def wrapped(text: str, width: float, size: float) -> list[str]:
    """Lines that keep to a width at this size."""
    return textwrap.wrap(text, max(1, floor(width / (LETTER * size))))


def fitting(texts: Sequence[str], width: float, most: float) -> float:
    """The size at which all of these lines keep to a width, at most `most`."""
    return min([most, *(width / text_width(text, 1.0) for text in texts if text)])


def words(at: Point, text: str, size: float, anchor: Anchor = "start") -> Words:
    """One line of text; `at` is on its base line: its start, its middle or its end, by the anchor."""
    return Words(text, (at[0], -at[1]), size, anchor)


def line(a: Point, b: Point, width: float = 0.25) -> Shape:
    """A straight line."""
    return Shape(_rows((a, b)), width=width)


def outline(corners: Sequence[Point], fill: Paint | None = None, dashes: tuple[float, ...] = ()) -> Shape:
    """A closed polygon."""
    return Shape(_rows(corners), closed=True, fill=fill, width=0.2, dashes=dashes)


def _rows(points: Iterable[Point]) -> tuple[tuple[float, float, float], ...]:
    return tuple((x, -y, 0.0) for x, y in points)


def rectangle(x: float, y: float, width: float, height: float) -> tuple[Point, Point, Point, Point]:
    """Its corners, from its upper left one."""
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def solid(corners: Iterable[Point]) -> Shape:
    """A filled shape without an edge."""
    return Shape(_rows(corners), closed=True, fill="ink", stroke=None)


def arrow(tip: Point, size: float, lean: float = 0.0) -> Shape:
    """A filled arrow upward, as long as wide; `lean` is how far it is turned clockwise, radians."""
    c, s, (x0, y0) = size * cos(lean), size * sin(lean), tip
    return solid((x0 + x * c - y * s, y0 + x * s + y * c) for x, y in ARROW)
