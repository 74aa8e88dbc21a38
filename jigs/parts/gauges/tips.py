"""Tips of printed gauges: a slicer prints what is thinner than its lines too wide, or not at all.

So a tip is cut square where it is narrower than two lines. Measured in PrusaSlicer, nozzle 0.4 mm, both ways of
making walls, tips of 10 to 40 degrees: none reached past its end, but those under 25 degrees stood up to 0.15 mm out
of their edges. Cut square, of 4 to 30 degrees: 0.03 mm at most (tests/clients/test_printed_tips.py).
"""

from __future__ import annotations

from math import radians, tan

from geometry.plane.profile import Profile
from geometry.records import dataclass
from jigs.asked.job_shop import Workshop
from jigs.parts.part import Point
from jigs.words.lengths import Unit, show_length

WIDTH = 2.0  # nozzles: a tip narrower than this is cut off
SHARP = radians(25)  # wider corners are printed as drawn
HALVINGS = 40  # to a height


@dataclass(frozen=True)
class Blunted:
    """A working edge without its tips; the corners (mm) of the square cuts below and above it."""

    edge: Profile
    below: tuple[Point, ...] = ()
    above: tuple[Point, ...] = ()
    lost: tuple[tuple[float, float], ...] = ()  # diameters from and to which nothing guides

    def notes(self, unit: Unit) -> tuple[str, ...]:
        """What the turner has to do without the tips."""
        return tuple(
            "Its tip is cut square, for a printer makes so thin a tip too thick. No edge guides you from "
            f"{show_length(min(ends), unit)} to {show_length(max(ends), unit)} across: carry the curve on by eye."
            for ends in self.lost
        )


def blunted(edge: Profile, shop: Workshop, stand: float | None = None) -> Blunted:
    """The edge of a plate that lies right of it, level at both ends; at its lower one as far as a foot at a radius.

    A gauge cut from sheet keeps its tips.
    """
    if shop.made.gauges != "print":
        return Blunted(edge)
    width = min(WIDTH * shop.printer.nozzle, (edge.top - edge.bottom) / 3)
    low, high = _cut(edge, edge.bottom, width, stand), _cut(edge, edge.top, -width)
    if not low and not high:
        return Blunted(edge)
    left = edge.between(edge.bottom + low, edge.top - high)
    return Blunted(
        left,
        ((left.start[0], edge.bottom),) if low else (),
        ((left.end[0], edge.top),) if high else (),
        (
            *(((2 * edge.start[0], 2 * left.start[0]),) if low else ()),
            *(((2 * edge.end[0], 2 * left.end[0]),) if high else ()),
        ),
    )


def _cut(edge: Profile, end: float, width: float, stand: float | None = None) -> float:
    """Height to take off at an end; 0 where its corner is printed as drawn."""
    tip, reach = edge.radius_at(end), edge.radius_at(end + width)
    if abs(width) >= (reach - tip) * tan(SHARP):
        return 0.0
    if stand is None or reach <= stand:
        return abs(width)
    low, high = 0.0, width  # the plate goes on under the edge from its foot on: cut it there
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if edge.radius_at(end + middle) < stand else (low, middle)
    return low
