"""The wedge-ring sled for a bandsaw: fence, stop, jaw and handle as on the table saw, another base.

Plan coordinates as of the `sled`: the apex is the origin, y runs away from the operator along the cut.
"""

from __future__ import annotations

from math import cos, degrees, sin

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import Contour, polygon, rectangle
from jigs.parts.lines import broken
from jigs.parts.part import Dimension, Line, Part
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, ring_room, with_tabs
from jigs.parts.probes import Extent
from jigs.parts.sleds import edge_guide
from jigs.parts.sleds.uprights import gusset, handle, stop_cheek
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.bandsaw import BRIDGE_HEIGHT, RELEASE, BandsawLayout
from jigs.stages.wedge_rings.parts.jaw import jaw
from jigs.stages.wedge_rings.parts.sled import base_slots, draw_rod, fence, fence_lines

TABLE_LINE = 25.0  # most that it leans aside


def bandsaw_sled(plan: TorusPlan) -> list[Part]:
    """Every part of the sled, its rail too; none where the table saw cuts the wedge rings."""
    layout = plan.sled
    if not isinstance(layout, BandsawLayout):
        return []
    slots = _slots(layout)
    lying = [
        _base(plan, layout),
        edge_guide.rail(plan, "sled-rail"),
        edge_guide.strip(plan, "sled-strip", layout.guide.strip, *_strip_ends(layout), slots),
        edge_guide.batten(plan, "sled-batten", layout.batten, slots),
    ]
    upright = [fence(plan), gusset(plan), stop_cheek(plan), jaw(plan), handle(plan), *draw_rod(plan)]
    return [*lying, _bridge(plan, layout), *upright]


def _strip_ends(layout: BandsawLayout) -> tuple[float, float]:
    return (layout.operator_edge + 5, layout.far_edge - 5)


def _slots(layout: BandsawLayout) -> list[Contour]:
    half, (low, high) = layout.play / 2, layout.bridge
    bridge = [rectangle(x - half, low - half, x + TAB + half, high + half) for x in layout.bridge_tabs]
    return [*base_slots(layout), *bridge]


def _outline(layout: BandsawLayout) -> Contour:
    """Open in front; at the slot's end the wood that the first pass trims comes free."""
    trim, side = layout.slot_sides
    end, far = layout.slot_end, layout.far_edge
    return polygon(
        [
            (layout.left_edge, layout.operator_edge),
            (layout.right_edge, layout.operator_edge),
            (layout.right_edge, far),
            (side, far),
            (side, end),
            (0.0, end),
            (0.0, end + RELEASE),
            (trim, end + RELEASE),
            (trim, far),
            (layout.left_edge, far),
        ]
    )


def _lines(layout: BandsawLayout) -> tuple[Line, ...]:
    stop, strip = layout.cut.stop, layout.guide.strip
    return (
        Line(((0.0, layout.slot_end + RELEASE), (0.0, layout.far_edge)), "blade line"),
        Line((layout.plan(stop, layout.play + 1), layout.plan(stop, layout.stop_check)), "stop line"),
        Line(((strip, layout.operator_edge), (strip, layout.far_edge)), "strip, under the base"),
        Line(layout.batten, "batten, under the base"),
        _table_line(layout),
    )


def _table_line(layout: BandsawLayout) -> Line:
    """Parallel to the table's edge when the sled lies on its rail: proves the drift."""
    drift = layout.guide.drift
    x0, y0 = layout.right_edge - (TABLE_LINE + 5 if drift >= 0 else 5), layout.slot_end + 20
    length = min(layout.far_edge - 10 - y0, TABLE_LINE / max(1e-9, abs(sin(drift))))
    return Line(((x0, y0), (x0 + length * sin(drift), y0 + length * cos(drift))), "guide line: table's edge")


def _base(plan: TorusPlan, layout: BandsawLayout) -> Part:
    slots, fittings = _slots(layout), layout.fittings
    plate = Plate(plan, _outline(layout), slots)
    plate.holes += edge_guide.strip_screws(fittings, layout.guide.strip, *_strip_ends(layout), slots)
    plate.holes += edge_guide.batten_screws(fittings, layout.batten, slots)
    plate.marks += fence_lines(layout)
    plate.marks += [piece for line in _lines(layout) for piece in broken(line, plate.holes)]
    plate.letter(
        "BANDSAW SLED",
        f"FENCE {degrees(layout.cut.half_wedge):.4g}°",
        f"DRIFT {degrees(layout.guide.drift):+.2f}°",
        "STOP TO BLADE",
        plan.job.show(layout.stop_check, exact=True).upper(),
        *SAW_CAUTION,
        "HANDS ON HANDLE",
        "↓ OPERATOR",
        near=(layout.left_edge, layout.far_edge),
    )
    wall = layout.plan(layout.fence_tabs[0] + TAB / 2, -layout.sheet)
    trimmed = (layout.trim, (layout.slot_end + layout.far_edge) / 2)
    plate.angle("fence to blade", degrees(layout.cut.half_wedge), wall, trimmed)
    plate.dimensions.append(Dimension("over all", layout.right_edge - layout.left_edge, Extent("x")))
    return plate.part(
        "sled-base",
        "carries the ring past the bandsaw's blade",
        making=(
            f"Its slot is drawn {plan.job.show(layout.trim)} beside the blade line: its own first pass "
            "trims that away, and the cut is the blade line.",
        ),
        works_to=ring_room(layout.cut.half_wedge),
    )


def _bridge(plan: TorusPlan, layout: BandsawLayout) -> Part:
    """Stands across the line of the cut, behind its end. x as on the base."""
    (left, right), h = layout.bridge_sides, BRIDGE_HEIGHT
    top = [(right, 0.0), (right, h - 15), (right - 15, h), (left + 15, h), (left, h - 15), (left, 0.0)]
    plate = Plate(plan, with_tabs(top, layout.bridge_tabs, layout.sheet))
    plate.letter("SLED BRIDGE", "NEVER CUT THROUGH", titled=False)
    glue = "Glue it in before the first pass: the cut ends in front of it."
    return plate.part("sled-bridge", "ties both halves of the base behind the cut", making=(glue,))
