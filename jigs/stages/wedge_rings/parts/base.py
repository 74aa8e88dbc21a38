"""The sled's lying parts: base, exit block and runner.

TorusPlan coordinates: the apex is the origin, y runs away from the operator along the cutting side of the
blade. A slot is wider than its sheet by the play, and lies so that the working face is true when the
plate is pressed away from the blade, the way the work presses it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, tan

import numpy as np

from geometry.hardware.sled_sizes import GUSSET_TAB, HANDLE_TABS, TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.readback.alike import FreeEdge
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.lines import broken
from jigs.parts.part import Line, Part, Point
from jigs.parts.plate import Plate
from jigs.parts.sheet import ring_room
from jigs.parts.sleds import strip_sled
from jigs.parts.sleds.strip_sled import BESIDE_BLOCK
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.sled import SledBody, SledLayout
from jigs.words.lengths import show_length


def table_sled(plan: TorusPlan) -> SledLayout:
    """The sled's layout on a table saw. Raises TypeError where the bandsaw cuts the wedge rings."""
    if isinstance(plan.sled, SledLayout):
        return plan.sled
    raise TypeError("the wedge rings are not cut on a table saw")


def base(plan: TorusPlan) -> Part:
    """What carries the ring: made over size beside the blade and trimmed by its own first pass."""
    layout = table_sled(plan)
    ear, shoulder, trim = layout.exit_block_sides[1], layout.exit_block_start, layout.trim
    (left, right), (near, far) = (layout.left_edge, ear), (layout.operator_edge, layout.far_edge)
    corners = [(left, near), (right, near), (right, shoulder), (trim, shoulder), (trim, far), (left, far)]
    plate = Plate(plan, polygon(corners), [*base_slots(layout), *_free_runner_holes(layout)])
    plate.marks += [piece for line in _base_lines(layout) for piece in _clear_of(line, plate.holes)]
    plate.letter(
        "WEDGE-RING SLED",
        f"FENCE {degrees(layout.cut.half_wedge):.4g}°",
        "STOP TO BLADE",
        show_length(layout.stop_check, plan.job.unit, exact=True).upper(),
        *SAW_CAUTION,
        "RIP FENCE AWAY",
        "HAND ON HANDLE",
        "BATTEN ENDS FEED",
        "↓ OPERATOR",
        near=(left, far),
    )
    wall = layout.plan(layout.fence_tabs[0] + TAB / 2, -layout.sheet)
    plate.angle("fence to blade", degrees(layout.cut.half_wedge), wall, (trim, (shoulder + far) / 2))
    last, foot = layout.fence_tabs[-1] + TAB + layout.play / 2, layout.cut.stop + layout.cheek_tab + TAB
    ends = layout.plan(foot, layout.sheet / 2), layout.plan(last, -layout.sheet / 2)
    plate.gap("stop slot to fence slot", foot - last, *ends)
    return plate.part(
        "sled-base",
        "carries the ring past the blade",
        making=(
            f"The base is drawn {show_length(layout.trim, plan.job.unit)} too wide: its own first pass trims it, and "
            "the trimmed edge is the blade line.",
            f"{show_length(0.1, plan.job.unit)} from the fence to that edge moves the rings' centres by "
            f"{show_length(0.05 / tan(layout.cut.half_wedge), plan.job.unit)}.",
        ),
        free=(FreeEdge((ear, (near + shoulder) / 2), *BESIDE_BLOCK),),
        works_to=ring_room(layout.cut.half_wedge),
    )


def base_slots(layout: SledBody) -> list[Contour]:
    """Slots of fence, stop cheeks, gussets and handle, in that order."""
    t, play, half = layout.sheet, layout.play, layout.play / 2
    fence = [_slot(layout, (s - half, s + TAB + half), (-t, play)) for s in layout.fence_tabs]
    foot = layout.cut.stop + layout.cheek_tab
    cheeks = [_slot(layout, (foot - play, foot + TAB), (u - half, u + t + half)) for u in layout.cheeks]
    behind = -t - GUSSET_TAB
    gussets = [
        _slot(layout, (s - t / 2 - half, s + t / 2 + half), (behind - TAB - half, behind + half))
        for s in layout.gussets
    ]
    x, y = layout.handle, layout.handle_start
    handle = [rectangle(x - t - half, y + tab - half, x + half, y + tab + TAB + half) for tab in HANDLE_TABS]
    return [*fence, *cheeks, *gussets, *handle]


def _slot(layout: SledBody, s: tuple[float, float], u: tuple[float, float]) -> Contour:
    corners = ((s[0], u[0]), (s[1], u[0]), (s[1], u[1]), (s[0], u[1]))
    return polygon([layout.plan(*corner) for corner in corners])


def _runner_holes(layout: SledLayout) -> list[Contour]:
    x = -layout.slot_distance - layout.slot_width / 2
    low, high = layout.operator_edge + 15, layout.far_edge - 15
    return [circle((x, low + (high - low) * i / 3), layout.fittings.screw_hole / 2) for i in range(4)]


def _free_runner_holes(layout: SledLayout) -> list[Contour]:
    """Runner holes that no slot and no marked line runs into."""
    slots = [_grown(slot.bounds, 6.0) for slot in base_slots(layout)]

    def free(hole: Contour) -> bool:
        x, y = hole.centroid
        clear = not any(x0 <= x <= x1 and y0 <= y <= y1 for x0, y0, x1, y1 in slots)
        return clear and all(_distance((x, y), line) > 5 for line in _base_lines(layout))

    return [hole for hole in _runner_holes(layout) if free(hole)]


def _distance(point: Point, line: Line) -> float:
    """From a point to a marked line."""
    a, b, p = (np.array(place) for place in (*line.points, point))
    along = np.clip((p - a) @ (b - a) / ((b - a) @ (b - a)), 0, 1)
    return float(np.hypot(*(a + along * (b - a) - p)))


def _grown(bounds: tuple[float, float, float, float], by: float) -> tuple[float, float, float, float]:
    return (bounds[0] - by, bounds[1] - by, bounds[2] + by, bounds[3] + by)


def _clear_of(line: Line, holes: Sequence[Contour]) -> list[Line]:
    """The batten is long and may run past the handle's slots; other lines are clear of all holes."""
    return broken(line, holes) if line.name.startswith("batten") else [line]


def _base_lines(layout: SledLayout) -> tuple[Line, ...]:
    stop = layout.cut.stop
    return (
        Line(((0.0, layout.exit_block_start), (0.0, layout.far_edge)), "blade line"),
        *fence_lines(layout),
        Line(
            (layout.plan(stop, layout.play + 1), layout.plan(stop, layout.stop_check)),
            "stop line",
            witness=True,
        ),
        Line(layout.batten, "batten, under the base"),
    )


def fence_lines(layout: SledBody) -> list[Line]:
    """The fence line, left out where a slot crosses it."""
    foot, gap = layout.cut.stop + layout.cheek_tab, layout.play / 2 + 1
    tabs = sorted([*layout.fence_tabs, foot])
    ends = [layout.fence_start, *(s for tab in tabs for s in (tab - gap, tab + TAB + gap)), layout.fence_end]
    pieces = zip(ends[::2], ends[1::2], strict=True)
    return [Line((layout.plan(a, 0), layout.plan(b, 0)), "fence line") for a, b in pieces if b > a]


def exit_block(plan: TorusPlan) -> Part:
    """One layer of the block that the blade runs out into."""
    layout = table_sled(plan)
    (left, right), low, high = layout.exit_block_sides, layout.exit_block_end, layout.exit_block_start
    blade = Line(((0.0, low), (0.0, high)), "blade line")
    put = ("Put its blade line on the blade line of the base.",)
    sides = (left, low, right, high)
    return strip_sled.exit_block(plan, "sled-exit-block", sides, layout.ring_height, [blade], put)


def runner(plan: TorusPlan) -> Part:
    """Slides in the mitre slot, screwed under the base."""
    layout = table_sled(plan)
    low, high = layout.operator_edge, layout.far_edge
    over = _free_runner_holes(layout)
    return strip_sled.runner(plan, "sled-runner", low, high, over, titled=True)
