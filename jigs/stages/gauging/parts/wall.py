"""A plate with slots that go over the rim, one for each stage.

Coordinates: the slots open downward at y = 0.
"""

from __future__ import annotations

from itertools import accumulate

from geometry.plane.contour import Contour, polygon
from geometry.strokes.lettering import text_width
from jigs.parts.gauges.edge import diameter_text, edge_plate
from jigs.parts.gauges.plate import HANG, MARGIN, gauge_panel, hang_hole
from jigs.parts.part import Dimension, Part, Point
from jigs.parts.places import centred, raised_height
from jigs.parts.probes import EdgeGap
from jigs.plans.vessel import VesselPlan
from jigs.stages.gauging.plan.vessel import VesselStage, WallSlots
from jigs.words.lengths import show_length

LEG = 12.0  # between slots
BESIDE = 4.0  # between the sizes over neighbouring slots
BOTTOM = 1.0  # of a slot, deeper than the wall needs


def wall_gauge(plan: VesselPlan) -> list[Part]:
    """One plate; none where the wall at the rim is too curved for a straight slot."""
    return [_gauge(plan, plan.gauges.wall)] if plan.gauges.wall else []


def _gauge(plan: VesselPlan, slots: WallSlots) -> Part:
    unit, height = plan.job.unit, raised_height(plan.job.workshop.printer)
    sizes = [f"{k}: {diameter_text(width, unit)}" for k, width in enumerate(slots.widths, 1)]
    spans = [max(w + LEG, text_width(s, height) + BESIDE) for w, s in zip(slots.widths, sizes, strict=True)]
    middles = [end - span / 2 for end, span in zip(accumulate(spans), spans, strict=True)]
    stages = [_label(k, stage) for k, stage in enumerate(plan.gauges.stages, 1)]
    panel = gauge_panel(plan, "WALL GAUGE", "SLOT OVER RIM ↓", *stages)
    deep = slots.depth + BOTTOM
    over = deep + MARGIN + height  # top of the sizes
    right, top = max(sum(spans) + LEG, panel.size[0] + LEG / 2), over + panel.size[1]
    left = -LEG / 2
    middle_y = slots.depth / 2
    return edge_plate(
        plan,
        "wall-gauge",
        "thickness of the wall at the rim, one slot for each stage",
        _outline(slots.widths, middles, deep, left, right - LEG / 2, top),
        (hang_hole(right - LEG / 2 - MARGIN - HANG, top - MARGIN - HANG),),
        (
            *panel.lettering(left, top),
            *(
                centred(s, (x, deep + MARGIN + height / 2), height)
                for s, x in zip(sizes, middles, strict=True)
            ),
        ),
        tuple(
            Dimension(
                f"slot {k}, {stage.label.lower()}", w, EdgeGap((x - w / 2, middle_y), (x + w / 2, middle_y))
            )
            for k, (stage, w, x) in enumerate(zip(plan.gauges.stages, slots.widths, middles, strict=True), 1)
        ),
        (
            "Push it over the rim, square to the wall. When a slot goes down to its bottom, the wall has the thickness "
            f"of that stage. Sanded it is {show_length(slots.wall, unit)}.",
            f"Each slot has {show_length(2 * plan.gauges.fit, unit)} of play. It is {show_length(slots.depth, unit)} "
            "deep: so far down the wall is as thick as at the rim.",
        ),
    )


def _label(number: int, stage: VesselStage) -> str:
    return f"{number}: {stage.label}"


def _outline(
    widths: tuple[float, ...], middles: list[float], deep: float, left: float, right: float, top: float
) -> Contour:
    places: list[Point] = [(left, 0.0)]
    for width, x in zip(widths, middles, strict=True):
        a, b = x - width / 2, x + width / 2
        places += [(a, 0.0), (a, deep), (b, deep), (b, 0.0)]
    return polygon([*places, (right, 0.0), (right, top), (left, top)])
