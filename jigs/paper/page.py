"""A page of paper at true size: SVG in mm, with lines to measure the print by."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape

from jigs.job_wood import PaperSize

SIZES: dict[PaperSize, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
MARGIN = 10.0
CHECK = 50.0  # length of the lines to measure the print by
TOP = MARGIN + 16.0  # below the heading
FOOT = 12.0  # of the page below what is drawn
LETTER = 0.6  # a letter's width, of the size of the words, and seldom more
SMALLEST = 2.1  # mm: 6 pt
INK, GREY = "#222222", "#777777"


def room(paper: PaperSize) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of what may be drawn on, y down."""
    width, height = SIZES[paper]
    return MARGIN, TOP, width - MARGIN - 4.0, height - MARGIN - FOOT


def page(paper: PaperSize, heading: str, said: str, body: Sequence[str]) -> str:
    """The page as SVG text; `said` stands below the heading."""
    width, height = SIZES[paper]
    foot, side = height - MARGIN, width - MARGIN
    items = [
        words(MARGIN, MARGIN + 5.0, heading, 5.0),
        words(MARGIN, MARGIN + 11.0, said, _fitting(said, width - 2 * MARGIN, 3.2)),
        *body,
        line((MARGIN, foot), (MARGIN + CHECK, foot)),
        line((side, foot - CHECK), (side, foot)),
        words(
            MARGIN,
            foot - 2.0,
            f"Print at 100 %: both lines, this one and the one at the right edge, are {CHECK:g} mm long.",
            2.6,
        ),
    ]
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="0 0 {width:g} {height:g}" font-family="sans-serif">'
    )
    return "\n".join(
        [head, f'<rect width="{width:g}" height="{height:g}" fill="#ffffff"/>', *items, "</svg>", ""]
    )


def _fitting(text: str, width: float, most: float) -> float:
    return min(most, width / (LETTER * max(1, len(text))))


def fitting(texts: Sequence[str], width: float, most: float) -> float:
    """The size at which all of these lines keep to a width, at most `most`."""
    return min((_fitting(text, width, most) for text in texts), default=most)


def words(x: float, y: float, text: str, size: float, anchor: str = "start", colour: str = INK) -> str:
    """One line of text; its base line is at y."""
    return (
        f'<text x="{x:.3f}" y="{y:.3f}" font-size="{size:.3f}" text-anchor="{anchor}" fill="{colour}">'
        f"{escape(text)}</text>"
    )


def line(a: tuple[float, float], b: tuple[float, float], width: float = 0.25, dashes: str = "none") -> str:
    """A straight line."""
    (x0, y0), (x1, y1) = a, b
    return (
        f'<line x1="{x0:.4f}" y1="{y0:.4f}" x2="{x1:.4f}" y2="{y1:.4f}" stroke="{INK}" stroke-width="{width:g}" '
        f'stroke-dasharray="{dashes}"/>'
    )


def box(x: float, y: float, width: float, height: float) -> str:
    """An open rectangle."""
    return (
        f'<rect x="{x:.4f}" y="{y:.4f}" width="{width:.4f}" height="{height:.4f}" fill="none" stroke="{INK}" '
        'stroke-width="0.2"/>'
    )


def up_arrow(x: float, y: float, size: float) -> str:
    """A filled arrow upward, its point at (x, y)."""
    half = size / 2
    return (
        f'<path d="M{x:.3f} {y:.3f} L{x + half:.3f} {y + half:.3f} L{x + half / 3:.3f} {y + half:.3f} '
        f"L{x + half / 3:.3f} {y + size:.3f} L{x - half / 3:.3f} {y + size:.3f} L{x - half / 3:.3f} {y + half:.3f} "
        f'L{x - half:.3f} {y + half:.3f} Z" fill="{INK}"/>'
    )
