"""The sled's jaw: bolted to the fence over the ring, which its screw presses down."""

from __future__ import annotations

from math import cos, pi

import numpy as np

from geometry.hardware.fittings import Fittings
from geometry.plane.contour import Contour, rectangle, regular_polygon
from jigs.parts.part import Line, Part, Point
from jigs.parts.places import SAW_CAUTION, as_lines, lettered_titled
from jigs.parts.plate import Plate, closed
from jigs.parts.sleds.uprights import cheek_top
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.sled import JAW_ABOVE, JAW_BOLT, JAW_NUT, JAW_PLAY

NUT_PLAY, NUT_ROOM = 0.3, 4.0  # of the nut in the height of its window; marked line off it


def jaw(plan: TorusPlan) -> Part:
    """Bolted to the fence just above the ring; its screw presses the ring down. x is measured from the stop."""
    layout, fittings = plan.sled, plan.sled.fittings
    reach, tail, top = layout.jaw_reach, layout.jaw_tail - layout.cut.stop, layout.ring_height + JAW_ABOVE
    chain, foot = jaw_edge(plan), tail_foot(plan)
    end = (chain[-1][0], max(chain[-1][1], foot))
    plate = Plate(plan, closed([*chain, end, (tail, end[1]), (tail, top), (-reach, top)]))
    for number, (s, v) in enumerate(jaw_bolts(plan), 1):
        plate.hole((s - layout.cut.stop, v), fittings.bolt_hole, f"bolt hole {number}")
    x, y = layout.jaw_screw[0] - layout.cut.stop, top - JAW_NUT
    plate.holes.append(_nut_window((x, y), fittings))
    ends = (((x, y + NUT_ROOM), (x, top)), ((x, layout.ring_height), (x, y - NUT_ROOM)))
    plate.marks += [Line(points, "screw") for points in ends]
    title, says = plan.job.title.upper(), ("JAW ↓ RING", "STOP →", *SAW_CAUTION)
    plate.words += lettered_titled(plate.outline, plate.holes, title, says, as_lines(plate.marks))
    return plate.part(
        "sled-jaw",
        "its screw presses the ring down; it keeps the ring from turning, and hands away from it",
        quantity=layout.jaw_layers,
        stack=layout.jaw_layers,
    )


def _nut_window(middle: Point, fittings: Fittings) -> Contour:
    """Holds the screw's nut from turning and from rising."""
    x, y = middle
    across, height = fittings.nut_window, fittings.nut_height + NUT_PLAY
    return rectangle(x - across / 2, y - height / 2, x + across / 2, y + height / 2)


def jaw_edge(plan: TorusPlan) -> list[Point]:
    """The jaw's lower edge from the apex side to the stop: the ring's upper flats, with play on the leaning ones."""
    layout, blank = plan.sled, plan.blank
    grown = blank.apothem + JAW_PLAY
    ring = regular_polygon(
        blank.segments, grown, -pi / 2, (-blank.half_width, blank.apothem - JAW_PLAY)
    ).points
    upper = ring[(ring[:, 1] > blank.apothem + 1) & (ring[:, 0] > -blank.half_width)]
    upper = upper[np.argsort(upper[:, 0])]
    chain = [(-layout.jaw_reach, 2 * blank.apothem), *((float(x), float(y)) for x, y in upper)]
    if blank.arris_out and len(upper) > 1:
        return chain
    if blank.arris_out:  # a hexagon has but one leaning flat above its arris: half of it
        arris = (-blank.half_width + grown / cos(blank.mitre), blank.apothem - JAW_PLAY)
        last = chain[-1]
        return [*chain, ((last[0] + arris[0]) / 2, (last[1] + arris[1]) / 2)]
    (x0, y0), (x1, y1) = chain[-2:]  # the last leaning flat, cut off short of the stop
    return [*chain[:-1], (-JAW_PLAY, y0 + (y1 - y0) * (-JAW_PLAY - x0) / (x1 - x0))]


def jaw_bolts(plan: TorusPlan) -> list[Point]:
    """(s, height) of the jaw's two bolts when the jaw touches the ring; behind the stop it rises over the cheek."""
    layout = plan.sled
    (beside, behind), height = layout.jaw_bolts, layout.ring_height + JAW_BOLT
    return [(beside, height), (behind, max(height, tail_foot(plan) + 10))]


def tail_foot(plan: TorusPlan) -> float:
    """Height of the lower edge of the jaw's tail, over the stop cheek."""
    return cheek_top(plan) + 2
