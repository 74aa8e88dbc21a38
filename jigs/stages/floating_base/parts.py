"""Gauges of a floating base: one stepped for its groove and the opening under it, one for the disc's tongue.

Groove gauge: x across from the axis, y up from the upper face of ring 1. Tongue gauge: the slot opens to the left.
"""

from __future__ import annotations

from geometry.plane.contour import polygon
from jigs.parts.gauges.edge import edge_plate
from jigs.parts.gauges.plate import HANG, MARGIN, Panel, gauge_panel, hang_hole
from jigs.parts.part import Dimension, Part, Point
from jigs.parts.probes import EdgeGap
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.plan.vessel import FloatingGauges

JAW = 8.0  # beside the tongue gauge's slot


def floating(plan: VesselPlan) -> list[Part]:
    """Both; none where no base floats."""
    gauges = plan.gauges.floating
    return [_groove(plan, gauges), _tongue(plan, gauges)] if gauges else []


def _groove(plan: VesselPlan, gauges: FloatingGauges) -> Part:
    panel = gauge_panel(plan, "GROOVE GAUGE", "BOTH STEPS IN, ARMS ON RING 1")
    half = max(gauges.groove / 2 + gauges.arm, panel.size[0] / 2)
    top, low = panel.size[1], -gauges.depth
    step, nose = gauges.groove / 2, gauges.opening / 2
    right: list[Point] = [
        (nose, low - gauges.nose),
        (nose, low),
        (step, low),
        (step, 0.0),
        (half, 0.0),
        (half, top),
    ]
    middle, beside = low / 2, (step + nose) / 2
    below = low - gauges.nose / 2
    return edge_plate(
        plan,
        "groove-gauge",
        "groove of the floating base, and the opening under it",
        polygon([*right, *((-x, y) for x, y in reversed(right))]),
        (hang_hole(half - MARGIN - HANG, top - MARGIN - HANG),),
        panel.lettering(-half, top),
        (
            Dimension("groove", gauges.groove, EdgeGap((step, middle), (-step, middle))),
            Dimension("groove, depth", gauges.depth, EdgeGap(((step + half) / 2, 0.0), (beside, low))),
            Dimension("opening", gauges.opening, EdgeGap((nose, below), (-nose, below))),
        ),
        (
            "Hold it across the axis, square to the ring's face. Bore until the lower step goes in. "
            "Then turn the groove until the upper step goes in and both arms lie on the ring, all round.",
            "Its steps are a little narrower than groove and opening, since a plate touches a round with its corners.",
        ),
    )


def _tongue(plan: VesselPlan, gauges: FloatingGauges) -> Part:
    panel: Panel = gauge_panel(plan, "TONGUE GAUGE", "SLOT OVER THE TONGUE")
    wide, tall = gauges.slot_depth + panel.size[0], max(panel.size[1], gauges.slot + 2 * JAW)
    low, high, deep = (tall - gauges.slot) / 2, (tall + gauges.slot) / 2, gauges.slot_depth
    outline = polygon(
        [
            (0.0, 0.0),
            (wide, 0.0),
            (wide, tall),
            (0.0, tall),
            (0.0, high),
            (deep, high),
            (deep, low),
            (0.0, low),
        ]
    )
    return edge_plate(
        plan,
        "tongue-gauge",
        "tongue of the floating base",
        outline,
        (hang_hole(wide - MARGIN - HANG, tall - MARGIN - HANG),),
        panel.lettering(deep, tall),
        (
            Dimension("slot", gauges.slot, EdgeGap((deep / 2, low), (deep / 2, high))),
            Dimension("slot, depth", deep, EdgeGap((deep, tall / 2), (0.0, low / 2))),
        ),
        (
            "Push it over the tongue from the edge, all round. Where it goes on, the tongue is thin enough for its "
            f"groove, {plan.job.show(gauges.depth)} deep.",
        ),
    )
