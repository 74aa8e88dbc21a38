"""A DXF of one part."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np

from geometry.plane.arcs import FloatArray
from geometry.plane.contour import Contour
from jigs.dryfit.plates import Drawn, Drill
from jigs.dryfit.read_tags import Entity, read_entities, unreadable
from jigs.words.file_names import what_of

OUTLINES = ("cut", "section")


def read_dxf(file: Path) -> Drawn:
    """A drawing as written, the cutter's kerf still in it. Raises Refused where it cannot be read."""
    entities = read_entities(file)
    lines = [entity for entity in entities if not entity.is_circle]
    closed = [Contour(e.loop) for e in entities if e.closed and e.layer in OUTLINES]
    closed.sort(key=lambda contour: -abs(contour.area))
    circles = [e.rows[0].tolist() for e in entities if e.is_circle and e.layer == "drill"]
    if not closed:
        raise unreadable(file, "no closed outline")
    return Drawn(
        what_of(file),
        closed[0].ccw(),
        tuple(closed[1:]),
        tuple(Drill((x, y), diameter) for x, y, diameter in circles),
        _named_lines(lines),
        _places([line for line in lines if line.layer == "engrave"]),
    )


def _places(lines: Sequence[Entity]) -> FloatArray:
    return np.concatenate([np.zeros((0, 2)), *(line.rows[:, :2] for line in lines)])


def _named_lines(lines: Sequence[Entity]) -> dict[str, FloatArray]:
    names = dict.fromkeys(line.name for line in lines if line.name)
    return {name: _places([line for line in lines if line.name == name]) for name in names}
