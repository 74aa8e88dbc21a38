"""Plates that prove and set the saw's angles: one joint plate for each count of segments, one for staves."""

from __future__ import annotations

from jigs.parts.part import Part
from jigs.parts.sleds.angles import joint_plate, tilt_plate
from jigs.plans.vessel import VesselPlan


def angle_plates(plan: VesselPlan) -> list[Part]:
    """Joint plates, named as "joint-plate-n12"; the staves' tilt plate."""
    joints = [joint_plate(plan, sled.segments, f"joint-plate-n{sled.segments}") for sled in plan.saws.sleds]
    staves = plan.saws.staves
    if staves is None:
        return joints
    says = (f"{staves.count} STAVES",)
    tilt = tilt_plate(plan, staves.blade_tilt, "stave-tilt-plate", "staves' edges", says)
    return [*joints, tilt]
