"""The wedge-ring sled: flat parts with slots and tabs sized from the measured sheet."""

from __future__ import annotations

from geometry.hardware.sled_sizes import TAB
from geometry.plane.contour import rectangle
from geometry.readback.alike import FreeEdge
from jigs.parts.labels import SAW_CAUTION
from jigs.parts.part import Part
from jigs.parts.plate import Plate
from jigs.parts.sheet import tab_room, with_tabs
from jigs.parts.sleds import edge_guide
from jigs.parts.sleds.uprights import HIGHER, ends_free, gusset, handle, stop_cheek
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.sled import JAW_GAP
from jigs.stages.wedge_rings.parts.base import base, exit_block, runner, table_sled
from jigs.stages.wedge_rings.parts.draw_rod import draw_rod
from jigs.stages.wedge_rings.parts.jaw import jaw, jaw_bolts
from jigs.words.lengths import show_length


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
    unit = plan.job.unit
    takes = f"The {show_length(fittings.peg_hole, unit)} hole near the apex takes the wedge's peg: keep glue out of it."
    return plate.part(
        "sled-fence",
        "what the ring's face, or the wedge, leans on",
        making=(
            "Press it to the walls of its slots that are away from the blade.",
            f"The draw rod's hole is {show_length(rod.to_stop, unit)} nearer to the stop than the ring's middle, so "
            "that the rod pulls the ring to the stop too.",
            *((takes,) if peg else ()),
        ),
        free=(FreeEdge(top, 2.0, HIGHER), *ends_free(start, end, height)),
        works_to=tab_room(plan),
    )
