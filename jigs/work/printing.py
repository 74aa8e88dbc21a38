"""How long a printed part takes, and how much plastic, by rule.

Each layer is so many walls at their speeds, and what they leave filled solid at its own; raised marks are lines. With a
slicer's usual 15 to 20 % inside, a gauge takes two thirds of it. The speeds are those that a common slicer has where
nobody sets any (PrusaSlicer, its default profile): cautious, so that a quick printer takes half as long.
`tests/clients/test_print_hours.py` slices with it and compares.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from geometry.plane.edges import lengths_of
from geometry.records import Record
from geometry.strokes.lettering import drawn_length
from jigs.asked.job_shop import Printer
from jigs.parts.part import Lettering, Mark, Part
from jigs.work.model import Cell, Column, Table

WALLS = 3
OUTER_WALL, WALL, SKIN, INSIDE, FIRST = 30.0, 60.0, 20.0, 80.0, 30.0  # mm/s; FIRST: all of the first layer
SKINS = 5  # layers of skin, top and bottom, beside the first
TRAVEL = 1.25  # travel, and slowing at corners: fitted to the slicer
WIDER = 1.125  # a line is so many times as wide as the nozzle
DENSITY = 1.24e-3  # g/mm3, of PLA


class Printed(Record):
    """All pieces of a part."""

    hours: float
    grams: float


def printed(part: Part, printer: Printer) -> Printed:
    """Of a plate printed solid and flat, its raised marks on top."""
    line = WIDER * printer.nozzle
    around = part.outline.length + sum(hole.length for hole in part.holes)
    area = _area(part)
    filled = max(0.0, area - WALLS * line * around) / line  # length of its lines
    layers = max(1, round(part.thickness / printer.layer))
    skins = min(SKINS, layers - 1)
    walls = around * (1 / OUTER_WALL + (WALLS - 1) / WALL)
    inside = (layers - 1 - skins) * filled / INSIDE + skins * filled / SKIN
    first = (WALLS * around + filled) / FIRST
    marks = sum(_length(mark) for mark in part.marks)
    seconds = (layers - 1) * walls + inside + first + _marked(part, printer) * marks / OUTER_WALL
    volume = area * part.thickness + marks * part.mark_width * part.mark_height
    return Printed(part.quantity * TRAVEL * seconds / 3600, part.quantity * volume * DENSITY)


def print_settings(parts: Iterable[Part], printer: Printer) -> tuple[Table, ...]:
    """What an STL does not say of each printed part, with the hours and the plastic of one piece; none without any."""
    columns = (
        Column("part", "Part"),
        Column("pieces", "Pieces"),
        Column("hours", "Each, filled solid, about", "hours"),
        Column("plastic", "Plastic, each, at most", "weight"),
        Column("layer", "Layer", "length"),
        Column("how", "How"),
    )
    rows = tuple(_row(part, printer) for part in parts if part.process == "print")
    return (Table("prints", "Print settings", columns, rows),) if rows else ()


def _row(part: Part, printer: Printer) -> tuple[Cell, ...]:
    whole = printed(part, printer)
    fill = "solid" if part.jig.solid else f"{WALLS} walls or more, filled"
    how = f"{fill}; as the file lies, no supports"
    each = (value / part.quantity for value in (whole.hours, whole.grams))
    return (f"{part.code} {part.name}", part.quantity, *each, printer.layer, how)


def _area(part: Part) -> float:
    """The mean of all layers': a bevelled edge narrows from its land to the top."""
    whole = abs(part.outline.area)
    if part.bevel:
        sloping = 1 - part.bevel.land / part.thickness
        whole -= sloping * (whole - abs(part.bevel.top.area)) / 2
    return whole - sum(abs(hole.area) for hole in part.holes)


def _marked(part: Part, printer: Printer) -> float:
    """Passes of the nozzle along each raised line."""
    return max(1, round(part.mark_height / printer.layer)) * max(
        1.0, part.mark_width / (WIDER * printer.nozzle)
    )


def _length(mark: Mark) -> float:
    """Along its lines."""
    if isinstance(mark, Lettering):
        return mark.height * drawn_length(mark.text)
    return float(lengths_of(np.diff(mark.points, axis=0)).sum())
