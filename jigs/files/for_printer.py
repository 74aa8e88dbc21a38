"""Parts as they are drawn for a printer that was measured, and files of them as it makes them."""

from __future__ import annotations

from geometry.measuring.drawn_size import DrawnSize
from geometry.records import replace
from jigs.parts.part import Lettering, Mark, Part, Point
from jigs.parts.readback import ReadBack

TOLERANCE = 0.02  # mm, of a contour that was moved and moved back


def as_drawn(part: Part, drawn: DrawnSize) -> Part:
    """The plate as its file has to have it; marks keep their size, and their places on it. Its dimensions stay."""
    if drawn.exact:
        return part
    bevel = part.bevel and replace(part.bevel, top=drawn.outline(part.bevel.top))
    return replace(
        part,
        outline=drawn.outline(part.outline),
        holes=tuple(drawn.opening(hole) for hole in part.holes),
        bevel=bevel,
        marks=tuple(_placed(mark, 1 / drawn.scale) for mark in part.marks),
    )


def as_made(read: ReadBack, drawn: DrawnSize) -> ReadBack:
    """What the printer makes of what a file holds."""
    if drawn.exact:
        return read
    outline, *holes = read.contours
    contours = (drawn.made_outline(outline), *(drawn.made_opening(hole) for hole in holes))
    return replace(read, contours=contours, tolerance=read.tolerance + TOLERANCE)


def _placed(mark: Mark, factor: float) -> Mark:
    def at(place: Point) -> Point:
        return place[0] * factor, place[1] * factor

    if isinstance(mark, Lettering):
        return replace(mark, origin=at(mark.origin))
    return replace(mark, points=tuple(at(place) for place in mark.points))
