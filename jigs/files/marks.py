"""Marks as centre lines, and thickened into the raised bars of a printed part."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from manifold3d import CrossSection, FillRule, JoinType

from geometry.plane.edges import FloatArray
from geometry.strokes.lettering import strokes
from jigs.parts.part import Lettering, Mark, Part

END_POINTS = 7  # points on each round end; a bar is at most 3.5 % narrower than asked for
END_STEP = np.pi / (END_POINTS - 1)
HALF_TURN = np.linspace(np.pi / 2, 3 * np.pi / 2, END_POINTS)
LEAST_MARGIN = 0.1  # mm from a raised mark to an edge of the plate; less prints badly and may touch
WELD = 0.002  # mm by which marks grow, so that what only touches at a point becomes one
SPURIOUS = 1e-4  # mm: corners flatter than this are left by the union and mean nothing
SLIVER = 1e-6  # mm²: less than this outside the plate is rounding


def label(mark: Mark) -> str:
    """Return what to call a mark in a message: its text or its name."""
    return mark.text if isinstance(mark, Lettering) else mark.name or "unnamed line"


def centre_lines(mark: Mark) -> tuple[FloatArray, ...]:
    """Return the strokes of a mark as open polylines (k, 2), in mm."""
    if isinstance(mark, Lettering):
        return strokes(mark.text, mark.origin, mark.height, mark.angle)
    return (np.asarray(mark.points, dtype=np.float64),)


def bars(lines: Sequence[FloatArray], width: float) -> list[FloatArray]:
    """Return one counter-clockwise polygon (2 * END_POINTS, 2), round at both ends, for each straight piece.

    The points of all ends lie in the same few directions, so that pieces that meet share them.
    """
    if not lines:
        return []
    starts = np.concatenate([line[:-1] for line in lines])
    ends = np.concatenate([line[1:] for line in lines])
    along = ends - starts
    turn = np.round(np.arctan2(along[:, 1], along[:, 0]) / END_STEP)[:, None] * END_STEP + HALF_TURN
    reach = width / 2 * np.stack([np.cos(turn), np.sin(turn)], axis=2)
    return list(np.concatenate([starts[:, None] + reach, ends[:, None] - reach], axis=1))


def united(shapes: Sequence[FloatArray]) -> CrossSection:
    """Return what polygons cover together, those that only touch at a point made one."""
    return CrossSection(list(shapes), FillRule.NonZero).offset(WELD, JoinType.Miter).simplify(SPURIOUS)


def loops(shape: CrossSection) -> list[FloatArray]:
    """Return a shape's outlines, bodies counter-clockwise, counters clockwise."""
    return [np.asarray(loop) for loop in shape.to_polygons()]


def raised(part: Part, marks: Sequence[Mark], room: CrossSection) -> CrossSection:
    """Return what a part's raised marks cover together.

    Raises ValueError, naming the mark, where one leaves `room`, and for text the font lacks.
    """
    shapes = [bars(centre_lines(mark), part.mark_width) for mark in marks]
    shape = united([bar for shape in shapes for bar in shape])
    if leaves(shape, room):
        names = ", ".join(
            repr(label(mark))
            for mark, shape in zip(marks, shapes, strict=True)
            if leaves(CrossSection(shape, FillRule.NonZero), room)
        )
        raise ValueError(f"{part.name}: marks closer than {LEAST_MARGIN} mm to an edge or a hole: {names}")
    return shape


def room_on(plate: CrossSection) -> CrossSection:
    """Return where raised marks may stand on a plate's face."""
    return plate.offset(-LEAST_MARGIN, JoinType.Miter)


def leaves(shape: CrossSection, room: CrossSection) -> bool:
    return bool((shape - room).area() > SLIVER)
