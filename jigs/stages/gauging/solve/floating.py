"""Gauges for the groove of a floating base and for its tongue."""

from __future__ import annotations

from math import sqrt

from jigs.asked.vessel_job import VesselJob
from jigs.stages.gauging.plan.vessel import FloatingGauges
from jigs.stages.stack.plan import StackPlan

ARM = 12.0  # mm of the plate on the ring
NOSE = 6.0  # mm of the step that enters the opening, at most
OVER_TONGUE = 0.1  # mm that the slot is wider
PAST = 1.0  # mm that it is deeper than the rebate


def floating_gauges(job: VesselJob, stack: StackPlan, plate: float) -> FloatingGauges | None:
    """None where no base floats."""
    if stack.floating is None:
        return None
    base = stack.floating.base
    return FloatingGauges(
        groove=_across(base.groove, plate),
        depth=base.depth,
        opening=_across(base.opening, plate),
        nose=min(NOSE, base.ledge + job.rings.turning_allowance / 2),
        arm=ARM,
        slot=base.tongue_thickness + OVER_TONGUE,
        slot_depth=base.tongue - base.field + PAST,
    )


def _across(radius: float, plate: float) -> float:
    """Width of a plate that touches a round hole with the corners of its thickness."""
    return 2 * sqrt(radius**2 - (plate / 2) ** 2)
