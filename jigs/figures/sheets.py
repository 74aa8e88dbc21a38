"""The sheets as they are cut: every part's outline where it lies, with its code."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import pi

from geometry.plane.contour import Contour
from jigs.figures.figure import WORDS, Figure, Item, Words
from jigs.figures.laid import text_width, words_box
from jigs.figures.shapes import area, box
from jigs.files.sheets.sheet import Placed, Sheet
from jigs.words.file_names import of_job

PAPER = (165.0, 115.0)  # mm
HOLE = 25.0  # mm across: smaller ones would be dots under the code


def figures(job: str, sheets: Sequence[Sheet]) -> Iterator[Figure]:
    """One for each; parts that are too small for their codes are drawn without."""
    for sheet in sheets:
        wide, deep = sheet.size
        shown = min(PAPER[0] / wide, PAPER[1] / deep)
        items: list[Item] = [box(0.0, 0.0, wide, deep)]
        codes: list[Words] = []
        for one in sheet.placed:
            items += _outline(one)
            code = _code(one, shown)
            if code and not any(_overlap(code, other, shown) for other in codes):
                codes.append(code)
        items += codes
        yield Figure(
            f"sheet.{sheet.name}",
            f"Where each part lies on {of_job(job, sheet.file)}",
            "Outlines of the parts as they lie on the sheet, each with its code where there is room for it.",
            tuple(items),
            *PAPER,
        )


def _wide(contour: Contour) -> float:
    x0, y0, x1, y1 = contour.bounds
    return max(x1 - x0, y1 - y0)


def _outline(one: Placed) -> Iterator[Item]:
    yield area(one.contour(one.part.outline), fill="jig")
    yield from (area(one.contour(hole), fill="paper") for hole in one.part.holes if _wide(hole) >= HOLE)


def _code(one: Placed, shown: float) -> Words | None:
    """About the part's middle, along its longer side; None where it is smaller than its code."""
    outline = one.contour(one.part.outline)
    x0, y0, x1, y1 = outline.bounds
    long, high = text_width(one.part.code, WORDS) / shown, WORDS / shown
    if max(x1 - x0, y1 - y0) < long or min(x1 - x0, y1 - y0) < high:
        return None
    x, y = outline.centroid
    level = x1 - x0 >= long
    at = (x, y - 0.35 * high) if level else (x + 0.35 * high, y)
    return Words(one.part.code, at, anchor="middle", angle=0.0 if level else pi / 2)


def _overlap(one: Words, other: Words, shown: float) -> bool:
    a, b = words_box(one, shown), words_box(other, shown)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
