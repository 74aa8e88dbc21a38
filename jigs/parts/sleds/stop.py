"""What holds strip and segment on their carrier, and the stop that is swung clear before the cut."""

from __future__ import annotations

from geometry.hardware.sled_sizes import ARM, ARM_FOOT, PAST_STRIP
from geometry.plane.contour import outline as contour
from geometry.plane.contour import rectangle
from jigs.asked.job_shop import Family
from jigs.forms.plan import Plan
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Part
from jigs.parts.plate import Plate
from jigs.parts.sleds import hold_down
from jigs.stages.segments.layout import CarrierLayout

FAMILY: Family = "segments"
RAIL = (
    "Lay the blocks of a layup on it with their rail, like a strip. The hold-down presses on blocks, rail and the "
    "scrap behind them, which are all equally thick."
)


def holds(plan: TorusPlan, layout: CarrierLayout) -> list[Part]:
    """One on the strip, one on the segment: slides on the fence, fingers, cams and levers."""
    strip, segment = layout.hold, layout.on_segment
    fingers = strip.fingers + segment.fingers
    return [
        hold_down.slide(plan, FAMILY, "segment-hold-strip", strip, "strip"),
        hold_down.slide(plan, FAMILY, "segment-hold-segment", segment, "segment"),
        hold_down.finger(plan, FAMILY, "segment-finger", segment, "strip and the segment", fingers, True),
        hold_down.cam(plan, FAMILY, "segment-cam", 2),
        hold_down.lever(plan, FAMILY, "segment-lever", 2),
    ]


def stop_arm(plan: Plan, name: str, reach: float, nose: float = ARM / 2) -> Part:
    """Turns on a bolt, its nose edge on the stop line; the origin is the bolt, y as on the base.

    `nose` is from that edge to the bolt.
    """
    half, foot = ARM / 2, ARM_FOOT
    wide = [(-half, 0.0), (-nose, 5 - PAST_STRIP)] if nose > half else []
    on_nose = (-nose, (wide[-1][1] if wide else 0.0) / 2 - reach / 2)  # the middle of its edge
    outline = contour(
        (half, -reach),
        (half, foot - half),
        (0.0, foot),
        (-half + 3, foot),
        (-half, foot - 3),
        *wide,
        (-nose, -reach),
    )
    plate = Plate(plan, FAMILY, outline)
    plate.gap("arm width", half + nose, on_nose, (half, (foot - half - reach) / 2))
    plate.hole((0.0, 0.0), plan.job.fittings.bolt_hole, "pivot")
    plate.letter("← TIP", "SWING", "CLEAR", titled=False)
    use = "Pin in, tip against the arm, lever down; pin out, swing the arm clear of the blade; only then cut."
    return plate.part(name, "measures the segment; swung clear before the cut", (use,))


def packing(plan: TorusPlan, layout: CarrierLayout) -> list[Part]:
    if not layout.packings:
        return []
    plate = Plate(plan, FAMILY, rectangle(-ARM / 2, -ARM / 2, ARM / 2, ARM / 2))
    plate.hole((0.0, 0.0), plan.job.fittings.bolt_hole)
    plate.letter("PACK", titled=False)
    put = "Put it on the pivot bolt, under the arm. With play up or down the arm's tip leaves the stop line."
    purpose = "raises the stop's arm to the strip's top face"
    return [plate.part("segment-stop-packing", purpose, making=(put,), quantity=layout.packings)]
