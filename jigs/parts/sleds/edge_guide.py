"""What guides a sled along the edge of a bandsaw's table: rail, strip and batten instead of a runner."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, hypot

from geometry.hardware.fittings import Fittings
from geometry.hardware.sled_sizes import BATTEN, STRIP
from geometry.plane.contour import Contour, circle, polygon, rectangle
from jigs.asked.job_shop import Family
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Dimension, EdgeAngle, EdgeGap, Part, Point
from jigs.parts.places import lettered
from jigs.parts.sheet import cut_part

Edge = tuple[Point, Point]
SCREWS = 5
SCREW_CLEAR = 6.0  # of a screw from any slot


def rail(plan: TorusPlan, family: Family, name: str) -> Part:
    """Clamped to the table's left edge. x runs along that edge from the table's front, y away from the table."""
    guide = plan.cutting.guide
    length, (near, far) = guide.rail_length, guide.rail_widths
    outline = polygon([(0.0, 0.0), (length, 0.0), (length, far), (0.0, near)])
    holes = [circle((x, min(near, far) / 2), plan.job.fittings.bolt_hole / 2) for x in (25.0, length - 25.0)]
    text = ("BANDSAW RAIL", f"DRIFT {degrees(guide.drift):+.2f}°", "TABLE EDGE ↓", "← FRONT")
    outer = (length / 2, (near + far) / 2)
    return cut_part(
        plan,
        family,
        name,
        "carries the sled's strip along the table's edge, at the measured drift",
        outline,
        holes,
        lettered(outline, holes, (), text),
        (
            Dimension("front edge to sled edge", 90 + degrees(guide.drift), EdgeAngle((0.0, near / 2), outer)),
            Dimension("sled edge to far end", 90 - degrees(guide.drift), EdgeAngle(outer, (length, far / 2))),
        ),
        (
            "Clamp it to the side of the table: straight edge against the table, the end marked FRONT level with the "
            "table's front, top no higher than the table.",
            "Measure the drift again after every change of blade or tension; if the drift changes, make a new rail.",
        ),
        making=("Screw it to a batten that the clamps can hold.",),
    )  # fmt: skip


def strip(
    plan: TorusPlan, family: Family, name: str, x: float, low: float, high: float, slots: Sequence[Contour]
) -> Part:
    """Screwed under the base, working edge at `x`, from `low` to `high` along the cut. Drawn along x."""
    outline = rectangle(0.0, 0.0, high - low, STRIP)
    holes = [
        circle((hole.centroid[1] - low, STRIP / 2), plan.job.fittings.screw_hole / 2)
        for hole in strip_screws(plan.job.fittings, x, low, high, slots)
    ]
    return cut_part(
        plan,
        family,
        name,
        "runs along the rail on the table's edge",
        outline,
        holes,
        lettered(outline, holes, (), ("STRIP, RAIL EDGE ↓",)),
        (Dimension("strip width", STRIP, EdgeGap(((high - low) / 2, 0.0), ((high - low) / 2, STRIP))),),
        making=(
            "Screw it under the base on its line, RAIL EDGE towards the blade. Wax that edge, not the rail.",
        ),
    )


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


def batten(plan: TorusPlan, family: Family, name: str, edge: Edge, slots: Sequence[Contour]) -> Part:
    """Screwed under the base behind the cut; meets the table's front edge and ends the feed."""
    length = hypot(edge[1][0] - edge[0][0], edge[1][1] - edge[0][1])
    outline = rectangle(0.0, 0.0, length, BATTEN)
    holes = [
        circle((x, BATTEN / 2), plan.job.fittings.screw_hole / 2)
        for x, place in zip(_along(length), _under(edge), strict=True)
        if not any(near(_screw(plan.job.fittings, place), slot) for slot in slots)
    ]
    return cut_part(
        plan,
        family,
        name,
        "ends the feed: the blade never cuts through behind",
        outline,
        holes,
        lettered(outline, holes, (), ("FEED STOP", "TABLE FRONT ↑")),
        (),
        making=("Screw it under the base on its line.",),
    )


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
