"""A page of paper at true size: SVG in mm, y down, with lines to measure the print by."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from html import escape
from math import floor

from jigs.asked.job_wood import PaperSize
from jigs.words.lengths import Unit, parse_length

SIZES: dict[PaperSize, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 10.0
CHECK: dict[Unit, str] = {"mm": "50 mm", "in": "2 in"}  # length of the lines to measure the print by
HEADING, SAID, PITCH = 5.0, 2.8, 1.3  # sizes of words; from line to line, of the size
LINES = 4  # below the heading
TOP = MARGIN + 24.0  # below these
FOOT = 7.0  # above the lower margin, for the check line and what it says
SIDE = 4.0  # beside the right margin, for the other one
LETTER = 0.6  # a letter's width, of the size of the words, and seldom more
SMALLEST = 2.12  # mm: 6 pt
INK, SHADE = "#222222", "#dddddd"
ASKED = "Print at 100 %: this line and the one at the right edge are {long} long."
ARROW = "M0 0L0.5 0.5L0.16 0.5L0.16 1L-0.16 1L-0.16 0.5L-0.5 0.5Z"  # of size 1, its tip at the origin

Point = tuple[float, float]
Room = tuple[float, float, float, float]


def room(paper: PaperSize) -> Room:
    """Left, top, right and bottom of what may be drawn on."""
    width, height = SIZES[paper]
    return MARGIN, TOP, width - MARGIN - SIDE, height - MARGIN - FOOT


def page(paper: PaperSize, unit: Unit, heading: str, said: str, body: Sequence[str]) -> str:
    """The page as SVG text; `said` stands below the heading, in as many lines as it needs."""
    width, height = SIZES[paper]
    check = parse_length(CHECK[unit], unit)
    foot, side, wide = height - MARGIN, width - MARGIN, width - 2 * MARGIN
    items = [
        words((MARGIN, MARGIN + HEADING), heading, fitting([heading], wide, HEADING)),
        *_paragraph((MARGIN, MARGIN + HEADING + 5.0), said, wide),
        *body,
        line((MARGIN, foot), (MARGIN + check, foot)),
        line((side, foot - check), (side, foot)),
        words((MARGIN, foot - 1.5), ASKED.format(long=CHECK[unit]), 2.6),
    ]
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="0 0 {width:g} {height:g}" font-family="sans-serif">'
    )
    sheet = f'<rect width="{width:g}" height="{height:g}" fill="#ffffff"/>'
    return "\n".join([head, sheet, *items, "</svg>", ""])


def _paragraph(at: Point, text: str, width: float) -> list[str]:
    """Wrapped to a width, smaller where it would be too many lines."""
    size, rows = SAID, wrapped(text, width, SAID)
    while len(rows) > LINES:
        size *= 0.95
        rows = wrapped(text, width, size)
    x, y = at
    return [words((x, y + k * PITCH * size), row, size) for k, row in enumerate(rows)]


def wrapped(text: str, width: float, size: float) -> list[str]:
    """Lines that keep to a width at this size."""
    return textwrap.wrap(text, max(1, floor(width / (LETTER * size))))


def wide(text: str, size: float) -> float:
    """The room that a line of text takes, mm."""
    return LETTER * size * len(text)


def fitting(texts: Sequence[str], width: float, most: float) -> float:
    """The size at which all of these lines keep to a width, at most `most`."""
    return min([most, *(width / wide(text, 1.0) for text in texts if text)])


def words(at: Point, text: str, size: float, anchor: str = "start") -> str:
    """One line of text; `at` is on its base line: its start, its middle or its end, by the anchor."""
    return (
        f'<text x="{at[0]:.3f}" y="{at[1]:.3f}" font-size="{size:.3f}" text-anchor="{anchor}" fill="{INK}">'
        f"{escape(text)}</text>"
    )


def line(a: Point, b: Point, width: float = 0.25, dashes: str = "none") -> str:
    """A straight line."""
    (x0, y0), (x1, y1) = a, b
    return (
        f'<line x1="{x0:.4f}" y1="{y0:.4f}" x2="{x1:.4f}" y2="{y1:.4f}" stroke="{INK}" stroke-width="{width:g}" '
        f'stroke-dasharray="{dashes}"/>'
    )


def outline(corners: Sequence[Point], fill: str = "none", dashes: str = "none") -> str:
    """A closed polygon."""
    points = " ".join([f"{x:.4f},{y:.4f}" for x, y in corners])
    return f'<polygon points="{points}" fill="{fill}" stroke="{INK}" stroke-width="0.2" stroke-dasharray="{dashes}"/>'


def rectangle(x: float, y: float, width: float, height: float) -> tuple[Point, Point, Point, Point]:
    """Its corners, from its upper left one."""
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def solid(corners: Sequence[Point]) -> str:
    """A filled shape without an edge."""
    path = " ".join(f"{x:.3f} {y:.3f}" for x, y in corners)
    return f'<path d="M{path}Z" fill="{INK}"/>'


def arrow(tip: Point, size: float, lean: float = 0.0) -> str:
    """A filled arrow upward, as long as wide; `lean` is how far it is turned clockwise, degrees."""
    place = f"translate({tip[0]:.3f} {tip[1]:.3f}) rotate({lean:.3f}) scale({size:.3f})"
    return f'<path d="{ARROW}" transform="{place}" fill="{INK}"/>'
