"""The wedge-ring sled on a table saw: base, exit block, runner and draw rod, slots and tabs sized from the sheet.

Plan coordinates: the apex is the origin, y runs away from the operator along the cutting side of the
blade. A slot is wider than its sheet by the play, and lies so that the working face is true when the
plate is pressed away from the blade, the way the work presses it.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, tan

import numpy as np

from geometry.hardware.draw_rod import DrawRod
from geometry.hardware.fittings import clearance_hole
from geometry.hardware.sled_sizes import GUSSET_TAB, HANDLE_TABS, TAB
from geometry.plane.contour import Contour, circle, polygon, rectangle
from geometry.readback.free_edge import FreeEdge
from jigs.parts.lines import broken
from jigs.parts.part import Line, Part, Point
from jigs.parts.places import SAW_CAUTION
from jigs.parts.plate import Plate, ring_room, tab_room, with_tabs
from jigs.parts.sleds import edge_guide, strip_sled
from jigs.parts.sleds.strip_sled import BESIDE_BLOCK
from jigs.parts.sleds.uprights import HIGHER, ends_free, gusset, handle, stop_cheek
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.sled import JAW_GAP, SledBody, SledLayout
from jigs.stages.wedge_rings.parts.jaw import jaw, jaw_bolts


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
        plan.job.show(layout.stop_check, exact=True).upper(),
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
            f"The base is drawn {plan.job.show(layout.trim)} too wide: its own first pass trims it, and "
            "the trimmed edge is the blade line.",
            f"{plan.job.show(0.1)} from the fence to that edge moves the rings' centres by "
            f"{plan.job.show(0.05 / tan(layout.cut.half_wedge))}.",
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


STICK_SIDE = 4.0  # less than the core, across the stick's foot
STICK_HEAD = (80.0, 30.0)


def draw_rod(plan: TorusPlan) -> list[Part]:
    """The stick that sets the plug's depth; for a large core the plug's cheeks and hub."""
    rod = plan.sled.rod
    return [_stick(plan, rod), *([_disc(plan, rod, "cheek"), _disc(plan, rod, "hub")] if rod.hubbed else [])]


def _stick(plan: TorusPlan, rod: DrawRod) -> Part:
    """Its shoulders lie on the ring's uncut face, its foot reaches down to the rod's tip. y runs up."""
    half, deep, (wide, tall) = (rod.core - STICK_SIDE) / 2, rod.below_face, STICK_HEAD
    head = max(wide, rod.core + 40) / 2
    right = [(half, -deep), (half, 0.0), (head, 0.0), (head, tall)]
    plate = Plate(plan, polygon([*right, *((-x, y) for x, y in reversed(right))]))
    plate.letter("DRAW ROD'S DEPTH", "TIP ↓ NO HIGHER", near=(0.0, tall / 2))
    plate.gap("depth", deep, (head / 2 + half / 2, 0.0), (0.0, -deep))
    return plate.part("sled-rod-stick", "sets the draw rod's tip below the cut")


def _disc(plan: TorusPlan, rod: DrawRod, which: str) -> Part:
    cheek = which == "cheek"
    plate = Plate(plan, circle((0.0, 0.0), (rod.cheek if cheek else rod.hub) / 2))
    plate.hole((0.0, 0.0), clearance_hole(rod.bolt), "hole")
    plate.letter(f"PLUG {which.upper()}", titled=False)
    purpose = "squeezes the plug's rubber" if cheek else "the plug's rubber goes round it"
    return plate.part(f"sled-plug-{which}", purpose, quantity=2 if cheek else 1)


def sled(plan: TorusPlan) -> list[Part]:
    """Base, fence, gussets, stop cheeks, jaw, draw rod, exit block, handle, runner and batten; none for the bandsaw."""
    if plan.cutting.rings_on == "bandsaw":
        return []
    batten = edge_guide.batten(plan, "sled-batten", table_sled(plan).batten, ())
    lying = [base(plan), exit_block(plan), runner(plan), batten]
    return [*lying, fence(plan), gusset(plan), stop_cheek(plan), jaw(plan), handle(plan), *draw_rod(plan)]


def fence(plan: TorusPlan) -> Part:
    """x is s, the distance from the apex; y the height above the base."""
    layout, half, t = plan.sled, plan.sled.play / 2, plan.sled.sheet
    start, end, height = layout.fence_start, layout.fence_end, layout.fence_height
    foot, fittings = layout.gusset_mortise, plan.job.fittings
    outline = with_tabs([(end, 0.0), (end, height), (start, height), (start, 0.0)], layout.fence_tabs, t)
    mortises = [
        rectangle(s - t / 2 - half, foot - half, s + t / 2 + half, foot + TAB + half) for s in layout.gussets
    ]
    plate, rod, peg = Plate(plan, outline, mortises), layout.rod, layout.peg
    top, mortise = ((start + end) / 2, height), (layout.gussets[0], foot + TAB + half)
    plate.gap("mortise to top", height - foot - TAB - half, top, mortise, "differ")
    for s, v in jaw_bolts(plan):
        plate.hole((s, v + JAW_GAP), fittings.bolt_hole)
    plate.hole((rod.fence_place, plan.blank.apothem), rod.fence_hole, "draw rod's hole")
    if peg:
        plate.hole((peg.place, peg.height), fittings.peg_hole, "hole of the wedge's peg")
    plate.letter("SLED FENCE", "← APEX  FOOT ↓", *SAW_CAUTION)
    takes = f"The {plan.job.show(fittings.peg_hole)} hole near the apex takes the wedge's peg: keep glue out of it."
    return plate.part(
        "sled-fence",
        "what the ring's face, or the wedge, leans on",
        making=(
            "Press it to the walls of its slots that are away from the blade.",
            f"The draw rod's hole is {plan.job.show(rod.to_stop)} nearer to the stop than the ring's middle, so "
            "that the rod pulls the ring to the stop too.",
            *((takes,) if peg else ()),
        ),
        free=(FreeEdge(top, 2.0, HIGHER), *ends_free(start, end, height)),
        works_to=tab_room(plan),
    )
