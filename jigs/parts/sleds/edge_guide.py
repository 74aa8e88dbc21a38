"""What guides a sled along the edge of a bandsaw's table: rail, strip and batten instead of a runner."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, hypot
from typing import TYPE_CHECKING

from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import BATTEN, STRIP
from geometry.plane.contour import Contour, circle, polygon, rectangle
from jigs.parts.part import Part, Point
from jigs.parts.plate import Plate

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.plans.torus import TorusPlan

Edge = tuple[Point, Point]
SCREWS = 5
SCREW_CLEAR = 6.0  # of a screw from any slot


def rail(plan: TorusPlan, name: str) -> Part:
    """Clamped to the table's left edge. x runs along that edge from the table's front, y away from the table."""
    guide = plan.cutting.guide
    length, (near, far), drift = guide.rail_length, guide.rail_widths, degrees(guide.drift)
    plate = Plate(plan, polygon([(0.0, 0.0), (length, 0.0), (length, far), (0.0, near)]))
    for x in (25.0, length - 25.0):
        plate.hole((x, min(near, far) / 2), plan.job.fittings.bolt_hole)
    plate.letter("BANDSAW RAIL", f"DRIFT {drift:+.2f}°", "TABLE EDGE ↓", "← FRONT", titled=False)
    outer = (length / 2, (near + far) / 2)
    plate.angle("front edge to sled edge", 90 + drift, (0.0, near / 2), outer)
    plate.angle("sled edge to far end", 90 - drift, outer, (length, far / 2))
    return plate.part(
        name,
        "carries the sled's strip along the table's edge, at the measured drift",
        (
            "Clamp it to the side of the table: straight edge against the table, the end marked FRONT level with the "
            "table's front, top no higher than the table.",
            "Measure the drift again after every change of blade or tension; if the drift changes, make a new rail.",
        ),
        making=("Screw it to a batten that the clamps can hold.",),
    )


def strip(plan: TorusPlan, name: str, x: float, low: float, high: float, slots: Sequence[Contour]) -> Part:
    """Screwed under the base, working edge at `x`, from `low` to `high` along the cut. Drawn along x."""
    plate = Plate(plan, rectangle(0.0, 0.0, high - low, STRIP))
    for hole in strip_screws(plan.job.fittings, x, low, high, slots):
        plate.hole((hole.centroid[1] - low, STRIP / 2), plan.job.fittings.screw_hole)
    plate.letter("STRIP, RAIL EDGE ↓", titled=False)
    middle = (high - low) / 2
    plate.gap("strip width", STRIP, (middle, 0.0), (middle, STRIP))
    screw = "Screw it under the base on its line, RAIL EDGE towards the blade. Wax that edge, not the rail."
    return plate.part(name, "runs along the rail on the table's edge", making=(screw,))


def strip_screws(
    fittings: Fittings, x: float, low: float, high: float, slots: Sequence[Contour]
) -> list[Contour]:
    """Screw holes in the base over the strip, where no slot is."""
    step = (high - low - 40) / (SCREWS - 1)
    holes = [circle((x - STRIP / 2, low + 20 + i * step), fittings.screw_hole / 2) for i in range(SCREWS)]
    return [hole for hole in holes if not any(near(hole, slot) for slot in slots)]


def near(hole: Contour, slot: Contour) -> bool:
    x, y = hole.centroid
    x0, y0, x1, y1 = slot.bounds
    return x0 - SCREW_CLEAR <= x <= x1 + SCREW_CLEAR and y0 - SCREW_CLEAR <= y <= y1 + SCREW_CLEAR


def batten(plan: TorusPlan, name: str, edge: Edge, slots: Sequence[Contour]) -> Part:
    """Screwed under the base behind the cut; meets the table's front edge and ends the feed."""
    length = hypot(edge[1][0] - edge[0][0], edge[1][1] - edge[0][1])
    plate = Plate(plan, rectangle(0.0, 0.0, length, BATTEN))
    for x, place in zip(_along(length), _under(edge), strict=True):
        if not any(near(_screw(plan.job.fittings, place), slot) for slot in slots):
            plate.hole((x, BATTEN / 2), plan.job.fittings.screw_hole)
    plate.letter("FEED STOP", "TABLE FRONT ↑", titled=False)
    purpose = "ends the feed: the blade never cuts through behind"
    return plate.part(name, purpose, making=("Screw it under the base on its line.",))


def batten_screws(fittings: Fittings, edge: Edge, slots: Sequence[Contour]) -> list[Contour]:
    """Screw holes in the base over the batten, where no slot is."""
    holes = [_screw(fittings, place) for place in _under(edge)]
    return [hole for hole in holes if not any(near(hole, slot) for slot in slots)]


def _along(length: float) -> list[float]:
    return [10 + i * (length - 20) / (SCREWS - 1) for i in range(SCREWS)]


def _under(edge: Edge) -> list[Point]:
    """Places of the screws on the base, in the batten's middle, behind its working edge."""
    (x0, y0), (x1, y1) = edge
    length = hypot(x1 - x0, y1 - y0)
    c, s, back = (x1 - x0) / length, (y1 - y0) / length, BATTEN / 2
    return [(x0 + c * along + s * back, y0 + s * along - c * back) for along in _along(length)]


def _screw(fittings: Fittings, place: Point) -> Contour:
    return circle(place, fittings.screw_hole / 2)
