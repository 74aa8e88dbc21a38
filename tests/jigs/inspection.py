"""Looks at a part as a stranger would: with shapely, on sampled contours."""

from __future__ import annotations

from itertools import combinations

import shapely

from geometry.plane.contour import Contour
from geometry.plane.sample import sample
from jigs.files.marks import centre_lines, label
from jigs.parts.coding import settled
from jigs.parts.part import Part
from tests.geometry.validity import problems

SLACK = 1e-6  # mm


def shape(contour: Contour) -> shapely.Polygon:
    """The inside of a contour, curves within 0.01 mm."""
    return shapely.Polygon(sample(contour, 0.01))


def faults(part: Part) -> list[str]:
    """What keeps a part from being made, its lettering in place."""
    part = settled(part, "")
    contours = (part.outline, *part.holes)
    found = [fault for contour in contours for fault in problems(contour)]
    if part.outline.area <= 0:
        found.append("the outline runs clockwise")
    found += [f"hole {i} runs counter-clockwise" for i, hole in enumerate(part.holes) if hole.area >= 0]
    if not found:
        found += [*_hole_faults(part), *_mark_faults(part)]
    return [f"{part.name}: {fault}" for fault in found]


def _hole_faults(part: Part) -> list[str]:
    plate, holes = shape(part.outline), [shape(hole) for hole in part.holes]
    outside = [f"hole {i} leaves the outline" for i, h in enumerate(holes) if not plate.contains_properly(h)]
    pairs = combinations(enumerate(holes), 2)
    return outside + [f"holes {i} and {j} meet" for (i, a), (j, b) in pairs if a.intersects(b)]


def _mark_faults(part: Part) -> list[str]:
    if part.process == "turn":
        return []
    plate = shape(part.outline).difference(shapely.union_all([shape(hole) for hole in part.holes]))
    plate = plate.buffer(SLACK - (part.mark_width / 2 if part.process == "print" else 0))
    return [
        f"{label(mark)!r} leaves the plate"
        for mark in part.marks
        if not plate.covers(shapely.MultiLineString([line.tolist() for line in centre_lines(mark)]))
    ]


def text_of(part: Part) -> str:
    """All that is lettered on a part and, for want of room, beside its drawing."""
    whole = settled(part, "")
    return " ".join([*(label(mark) for mark in whole.marks), *whole.beside])
