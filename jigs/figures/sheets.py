"""The sheets as they are cut: every part's outline where it lies, with its code."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import pi

from geometry.plane.contour import Contour
from jigs.figures.clear import clearest, text_width
from jigs.figures.figure import Figure
from jigs.figures.items import WORDS, Item, Shape, Words, area, box
from jigs.files.sheets.nesting import Placed, Sheet
from jigs.words.file_names import of_job

PAPER = (165.0, 115.0)  # mm
SHARES = (0.5, 0.3, 0.7, 0.15, 0.85)  # of a part's width and height, where its code may go
HOLE = 25.0  # mm across: smaller ones would be dots under the code


def figures(job: str, sheets: Sequence[Sheet]) -> Iterator[Figure]:
    """One for each; parts that have no room for their codes are drawn without."""
    for sheet in sheets:
        wide, deep = sheet.size
        shown = min(PAPER[0] / wide, PAPER[1] / deep)
        items: list[Item] = [box(0.0, 0.0, wide, deep)]
        codes: list[Words] = []
        for one in sheet.placed:
            drawn = list(_outline(one))
            items += drawn
            if code := clearest(_places(one, shown), drawn, codes, shown):
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


def _outline(one: Placed) -> Iterator[Shape]:
    yield area(one.contour(one.part.outline), fill="jig")
    yield from (area(one.contour(hole), fill="paper") for hole in one.part.holes if _wide(hole) >= HOLE)


def _places(one: Placed, shown: float) -> Iterator[Words]:
    """Of the part's code: on its middle, then elsewhere on it; along its longer side, then across."""
    outline = one.contour(one.part.outline)
    x0, y0, x1, y1 = outline.bounds
    long, high = text_width(one.part.code, WORDS) / shown, WORDS / shown
    if max(x1 - x0, y1 - y0) < long or min(x1 - x0, y1 - y0) < 0.8 * high:
        return
    grid = [(x0 + i * (x1 - x0), y0 + j * (y1 - y0)) for j in SHARES for i in SHARES]
    points = [outline.centroid, *grid]
    inside = [at for at, within in zip(points, outline.contains(points), strict=True) if within]
    level = x1 - x0 >= long
    for along in (level, not level):
        for x, y in inside:
            at = (x, y - 0.35 * high) if along else (x + 0.35 * high, y)
            yield Words(one.part.code, at, anchor="middle", angle=0.0 if along else pi / 2)
