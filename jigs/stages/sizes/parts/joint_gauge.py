"""The gauge of the rebates in which the ring that centres two parts lies."""

from __future__ import annotations

from geometry.lathe.size_gauges import plate_sagitta
from jigs.parts.codes import code_of
from jigs.parts.part import Part
from jigs.parts.places import WHOLE
from jigs.plans.vessel import VesselPlan
from jigs.stages.halves.plan import TierJoint
from jigs.stages.sizes.parts.gap_gauges import CAUTION, size_words
from jigs.stages.sizes.parts.stepped_sticks import mouth_plate
from jigs.stages.sizes.plan.vessel import MouthStick, StageSize

WIDE = "TOO WIDE"
MADE = 0.2  # mm of diameter, by which a rebate may be wider. Common practice, no source


def joint_gauges(plan: VesselPlan) -> list[Part]:
    """One for each joint; none for a vessel that is built in one."""
    return [_joint_gauge(plan, joint) for joint in plan.halves.joints] if plan.halves else []


def _joint_gauge(plan: VesselPlan, joint: TierJoint) -> Part:
    ring, name = joint.centring, joint.gauge
    sizes = StageSize(1, "GO", 2 * ring.rebate), StageSize(2, WIDE, 2 * ring.rebate + MADE)
    short = [2 * plate_sagitta(size.diameter / 2, plan.sizes.plate) for size in sizes]
    rows = (
        f"↑{WHOLE}{size_words(plan, sizes[1])}",
        plan.job.title.upper(),
        f"{code_of(name)} REBATE OVER RING {joint.ring}",
        CAUTION,
        f"↓{WHOLE}{size_words(plan, sizes[0])}",
    )
    when = (
        "Hold it along the axis, square across the joint. The rebate is right where GO goes in until the arms lie on "
        "the joint's face, all round, and TOO WIDE does not."
    )
    stick = MouthStick(1, sizes[0], sizes[1], short[0], short[1])
    what = f"the rebates of the joint over ring {joint.ring}"
    return mouth_plate(plan, name, what, stick, rows, ("GO", WIDE), when, ring.depth)
