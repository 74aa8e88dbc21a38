"""The stop of a sled for segments, which is swung clear before the cut."""

from __future__ import annotations

from geometry.hardware.sled_sizes import ARM, ARM_FOOT, PAST_STRIP
from geometry.plane.contour import outline as contour
from jigs.parts.part import Part
from jigs.parts.plate import Plate
from jigs.plans.plan import Plan

RAIL = (
    "Lay the blocks of a layup on it with their rail, like a strip. The hold-down presses on blocks, rail and the "
    "scrap behind them, which are all equally thick."
)


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
    plate = Plate(plan, outline)
    plate.gap("arm width", half + nose, on_nose, (half, (foot - half - reach) / 2))
    plate.hole((0.0, 0.0), plan.job.fittings.bolt_hole, "pivot")
    plate.letter("← TIP", "SWING", "CLEAR", titled=False)
    use = "Pin in, tip against the arm, lever down; pin out, swing the arm clear of the blade; only then cut."
    return plate.part(name, "measures the segment; swung clear before the cut", (use,))
