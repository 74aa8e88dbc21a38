"""Printed parts laid out on the printer's bed, in as few loads as they fit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from geometry.records import Record
from jigs.asked.job_shop import Printer
from jigs.files.sheets.cells import ROUNDING, Cells, cells_of, room_on
from jigs.files.sheets.nesting import Blank, Placed, laid_out
from jigs.parts.part import Part

SPACING = 5.0  # mm between parts and to the bed's edge: room for a brim and for a blade under each


class BedLoad(Record):
    """What is printed at once, the bed's lower left corner at the origin. `name` is that of its file."""

    name: str
    placed: tuple[Placed, ...]

    @property
    def file(self) -> str:
        return f"print/{self.name}.3mf"

    @property
    def counts(self) -> dict[Part, int]:
        """Each part, and how many of it, in the order in which they were laid down."""
        return dict(Counter(item.part for item in self.placed))

    @property
    def contents(self) -> str:
        """ "3 BP brace-pad, HG hole-gauge"."""
        return ", ".join(
            f"{count} {part.code} {part.name}" if count > 1 else f"{part.code} {part.name}"
            for part, count in self.counts.items()
        )


def bed_loads(parts: Iterable[Part], printer: Printer) -> tuple[BedLoad, ...]:
    """Every copy of every printed part, flat as its file has it, the coupon first and alone.

    A part that has no room for SPACING round it lies alone, in the middle of its bed.
    """
    printed = [part for part in parts if part.process == "print"]
    first = [part for part in printed if part.jig.first]
    rest = [part for part in printed if not part.jig.first]
    loads = [load for group in (first, rest) for load in _loads(group, printer)]
    return tuple(BedLoad(f"plate-{k}", load) for k, load in enumerate(loads, 1))


def _loads(parts: list[Part], printer: Printer) -> Iterator[tuple[Placed, ...]]:
    room = room_on(printer.bed, SPACING)
    cells = [cells_of(part, SPACING, 0.0) for part in parts]
    fitting = [one for one in cells if one.single.fits(room)]
    if fitting:
        for filled in laid_out(fitting, [], Blank(printer.bed, 0.0, None), SPACING):
            yield filled.placed
    for one in cells:
        if not one.single.fits(room):
            yield from _alone(one, printer)


def _alone(cells: Cells, printer: Printer) -> Iterator[tuple[Placed, ...]]:
    """Each copy of a part on a bed of its own, the way round that fits."""
    part = cells.single.part
    x0, y0, x1, y1 = part.outline.bounds
    wide, deep = printer.bed
    turned = x1 - x0 > wide + ROUNDING or y1 - y0 > deep + ROUNDING
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    at = (wide / 2 + y, deep / 2 - x) if turned else (wide / 2 - x, deep / 2 - y)
    for copy in range(1, part.quantity + 1):
        yield (Placed(part, copy, *at, int(turned)),)
