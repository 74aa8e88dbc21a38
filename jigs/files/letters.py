"""Raised characters as pieces of a mesh, each cut into triangles once and then placed wherever it recurs.

A character stands in a cell, a rectangle left open in the plate's upper face. What lies between cell and character,
the character's sides and its head are the same wherever it stands.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import cos, sin

import numpy as np
from manifold3d import CrossSection

from geometry.plane.edges import FloatArray
from geometry.plane.sample import IntArray
from geometry.records import Record
from geometry.strokes.lettering import places, strokes
from jigs.files.caps import cap, flat, single, wall
from jigs.files.marks import bars, leaves, loops, raised, room_on, united
from jigs.parts.part import Lettering, Line, Part

CORNERS = 4
CELL_MARGIN = 0.05  # mm from a character to the edges of its cell
CLEAR = 0.01  # mm that the corners of a cell keep from all else
ROUNDING = 1e-6  # of the area of all cells


class Letters(Record, eq=False):
    """Characters on a plate, one after the other: corners of the cell, foot of the outline, its head right above.

    Triangles are numbers into `points` (n, 2).
    """

    points: FloatArray
    heads: IntArray  # which points stand above the plate
    cells: IntArray  # numbers of each cell's corners (c, 4), counter-clockwise
    level: IntArray  # triangles that face up: between cells and feet, and inside heads
    sides: IntArray  # triangles from feet to heads

    def stand_clear(self, others: CrossSection, room: CrossSection) -> bool:
        """Whether the cells keep inside `room`, off each other and off `others`, and all triangles face up."""
        cells = self.points[self.cells]
        out = cells - cells.mean(axis=1, keepdims=True)
        wider = cells + out * (CLEAR / np.linalg.norm(out, axis=2, keepdims=True))
        (ax, ay), (bx, by) = (wider[:, 2] - wider[:, 0]).T, (wider[:, 3] - wider[:, 1]).T
        alone = float((ax * by - ay * bx).sum()) / 2
        drawn = CrossSection(list(wider))
        return (
            abs(drawn.area() - alone) <= ROUNDING * alone
            and not leaves(drawn, room)
            and (drawn ^ others).is_empty()
            and not flat(self.points, self.level).size
        )


def raised_marks(part: Part, plate: CrossSection) -> tuple[list[FloatArray], Letters | None]:
    """A part's raised lines as outlines, bodies counter-clockwise, counters clockwise; and its lettering.

    Where a character has no cell of its own, all lettering is outlines too. `plate` is the face they stand on.
    Raises ValueError, naming the mark, where one comes too close to an edge or a hole, and for text the font lacks.
    """
    room, text = room_on(plate), letters(part)
    lines = raised(part, [mark for mark in part.marks if isinstance(mark, Line)], room)
    if text is None or text.stand_clear(lines, room):
        return loops(lines), text
    return loops(raised(part, part.marks, room)), None


def letters(part: Part) -> Letters | None:
    """A part's lettering; None where it has none. Raises ValueError for a character that the font lacks."""
    lines = [_line(mark, part.mark_width) for mark in part.marks if isinstance(mark, Lettering)]
    drawn = [character for characters, _ in lines for character in characters]
    if not drawn:
        return None
    firsts = np.cumsum([0, *(len(character.points) for character in drawn)])
    put = list(zip(drawn, firsts.tolist(), strict=False))
    return Letters(
        single(np.concatenate([points for _, points in lines])),
        np.concatenate([character.heads + first for character, first in put]),
        np.concatenate([character.cells + first for character, first in put]),
        np.concatenate([character.level + first for character, first in put]),
        np.concatenate([character.sides + first for character, first in put]),
    )


def _line(mark: Lettering, width: float) -> tuple[list[Letters], FloatArray]:
    """The characters of a line as they are drawn at the origin, and their points (n, 2) where they stand."""
    drawn = [_drawn(character, mark.height, width) for character in mark.text]
    start = np.repeat(places(mark.text), [len(character.points) if character else 0 for character in drawn])
    found = [character for character in drawn if character]
    points = np.concatenate([np.empty((0, 2)), *(character.points for character in found)])
    points[:, 0] += mark.height * start
    c, s = cos(mark.angle), sin(mark.angle)
    return found, points @ np.array([(c, s), (-s, c)]) + mark.origin


@lru_cache(maxsize=1024)
def _drawn(character: str, height: float, width: float) -> Letters | None:
    """A character at the origin; None for a blank."""
    lines = bars(strokes(character, height=height), width)
    if not lines:
        return None
    outline = loops(united(lines))
    shape = np.concatenate(outline)
    (left, low), (right, high) = shape.min(axis=0) - CELL_MARGIN, shape.max(axis=0) + CELL_MARGIN
    cell = np.array([(left, low), (right, low), (right, high), (left, high)])
    ends = np.cumsum([CORNERS, *map(len, outline)])
    feet = [np.arange(start, end) for start, end in pairwise(ends)]
    ground = np.concatenate([np.arange(CORNERS), *(foot[::-1] for foot in feet)])
    heads = np.arange(ends[-1], ends[-1] + len(shape))
    return Letters(
        np.concatenate([cell, shape, shape]),
        heads,
        np.arange(CORNERS)[None],
        np.concatenate([ground[cap([cell, *(loop[::-1] for loop in outline)])], heads[cap(outline)]]),
        np.concatenate([wall(foot, foot + len(shape)) for foot in feet]),
    )
