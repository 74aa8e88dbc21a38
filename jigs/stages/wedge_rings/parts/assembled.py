"""The wedge-ring sled put together, a ring on it before its first cut.

The sled's own frame: the apex is the origin, y runs away from the operator along the cutting side of the blade, z up
from the top of the base. A place (s, u) is as in the layout.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, pi, sin

from geometry.plane.contour import regular_polygon
from jigs.parts.assembly import ACROSS, ALONG, UP, Assembly, Place, Places, plate_of_work, put_together
from jigs.parts.part import Part
from jigs.parts.sleds.placed import LEFT, batten, runner
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import JAW_GAP, SledBody, SledLayout


def assembled(plan: TorusPlan, parts: Mapping[str, Part]) -> tuple[Assembly, ...]:
    """The sled of either saw as it is built, with a ring, face 1 on the fence."""
    layout, blank = plan.sled, plan.blank
    lying = _on_table_saw(layout, parts) if isinstance(layout, SledLayout) else _on_bandsaw(layout)
    ring = plate_of_work(
        "ring",
        regular_polygon(blank.segments, blank.apothem, -pi / 2),
        layout.cut.ring_thickness,
        (regular_polygon(blank.segments, blank.core_apothem, -pi / 2).cw(),),
    )
    stands = _upright(layout, layout.cut.stop - blank.half_width, layout.cut.ring_thickness, blank.apothem)
    title = "sled for wedge rings, a ring on it before its first cut"
    return put_together("ring-sled", title, parts, {**lying, **_standing(layout)}, ((ring, stands),))


def _along(layout: SledBody) -> tuple[float, float, float]:
    """The way in which s grows; across it, u grows."""
    return (-sin(layout.cut.half_wedge), -cos(layout.cut.half_wedge), 0.0)


def _upright(layout: SledBody, s: float, front: float, foot: float = 0.0) -> Place:
    """A plate parallel to the fence, its x along s, its face towards the blade at u = `front`."""
    return Place((*layout.plan(s, front), foot), _along(layout), UP)


def _standing(layout: SledBody) -> Places:
    t, stop = layout.sheet, layout.cut.stop
    back = (-cos(layout.cut.half_wedge), sin(layout.cut.half_wedge), 0.0)
    return {
        "sled-fence": (_upright(layout, 0.0, 0.0),),
        "sled-stop-cheek": tuple(_upright(layout, stop, u + t) for u in layout.cheeks),
        "sled-jaw": tuple(_upright(layout, stop, (k + 1) * t, JAW_GAP) for k in range(layout.jaw_layers)),
        "sled-gusset": tuple(Place((*layout.plan(s + t / 2, -t), 0.0), back, UP) for s in layout.gussets),
        "sled-handle": (Place((layout.handle - t, layout.handle_start, 0.0), ACROSS, UP),),
    }


def _on_table_saw(layout: SledLayout, parts: Mapping[str, Part]) -> Places:
    t = layout.sheet
    block = parts.get("sled-exit-block")
    if block is None:
        return {}
    slot = (-layout.slot_distance - layout.slot_width, -layout.slot_distance)
    return {
        "sled-base": (Place((0.0, 0.0, -t)),),
        "sled-exit-block": tuple(Place((0.0, 0.0, k * t)) for k in range(block.quantity)),
        "sled-runner": runner(slot, layout.operator_edge, t, parts.get("sled-runner")),
        "sled-batten": (batten(layout.batten, layout.sheet),),
    }


def _on_bandsaw(layout: SledBody) -> Places:
    if not isinstance(layout, BandsawLayout):
        return {}
    t = layout.sheet
    strip = (layout.guide.strip, layout.operator_edge + 5, -2 * t)
    return {
        "sled-base": (Place((0.0, 0.0, -t)),),
        "sled-bridge": (Place((0.0, layout.bridge[1], 0.0), ALONG, UP),),
        "sled-strip": (Place(strip, ACROSS, LEFT),),
        "sled-batten": (batten(layout.batten, layout.sheet),),
    }
