"""The finished surface laid flat: angles about the axis from left to right, the way along its outline downward.

The left and the right edge are at angle π, opposite the first segment, which lies in the middle; so seen from
without, left is left. Lengths mm.
"""

from __future__ import annotations

from math import pi

import numpy as np

from geometry.bodies.meridian import Meridian
from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.looks.spots import on_grid
from jigs.looks.surface import Surface
from jigs.looks.views import Image

LINE = 1.4  # pixels, on each side of a joint
AT_ONCE = 65536  # places: what fits the processor's cache


class Sheet(Record):
    """A stretch of the outline, from `top` to `foot` of the picture, mm along it."""

    name: str
    top: float
    foot: float

    @property
    def length(self) -> float:
        return abs(self.foot - self.top)


def unrolled(surface: Surface, meridian: Meridian, sheet: Sheet, width: int, height: int) -> Image:
    """The picture (height, width, 3) of a stretch."""
    along = sheet.top + (np.arange(height) + 0.5) / height * (sheet.foot - sheet.top)
    fine = min(sheet.length / height, 2 * pi * meridian.largest_radius / width)
    phi, rows = columns(width), max(1, AT_ONCE // width)
    parts = (along[k : k + rows] for k in range(0, height, rows))
    return np.concatenate([surface.grid_colours(on_grid(meridian.at(s), phi), LINE * fine) for s in parts])


def smooth_sheet(surface: Surface, meridian: Meridian, sheet: Sheet, width: int) -> Image:
    """A picture in true proportions, each pixel the mean of four places."""
    height = true_height(meridian, sheet, width)
    fine = unrolled(surface, meridian, sheet, 2 * width, 2 * height).reshape(height, 2, width, 2, 3)
    sums = fine.sum(axis=(1, 3), dtype=np.uint16)
    return np.asarray((sums + 2) // 4, dtype=np.uint8)


def columns(count: int) -> FloatArray:
    """The angles of the middles of so many columns, from -π to π."""
    return np.asarray((np.arange(count) + 0.5) * (2 * pi / count) - pi, dtype=np.float64)


def true_height(meridian: Meridian, sheet: Sheet, width: int) -> int:
    """Rows that give a stretch its true proportions where the form is widest."""
    return max(1, round(sheet.length * width / (2 * pi * meridian.largest_radius)))
