"""The sleds that cut the segments of flat rings: one for each count of segments."""

from __future__ import annotations

from dataclasses import replace
from math import degrees

from jigs.parts.part import Part
from jigs.parts.sleds.angles import joint_plate, tilt_plate
from jigs.parts.sleds.stop import RAIL
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_segments.parts.sled import sled_body
from jigs.stages.flat_segments.parts.stop_carriage import carriage_parts, stop_on_base
from jigs.stages.flat_segments.plan import FlatSled
from jigs.words.lengths import limit_length


def flat_sleds(plan: VesselPlan) -> list[Part]:
    """Every part of every sled; names end in the count of segments, as in "plan-angle-base-n12"."""
    return [part for sled in plan.saws.sleds for part in _sled(plan, sled)]


def _sled(plan: VesselPlan, sled: FlatSled) -> list[Part]:
    layout, suffix = sled.layout, f"-n{sled.segments}"
    carriage = layout.carriage
    if carriage is None:
        raise ValueError(f"the sled for {sled.segments} segments has no carriage for its stop")
    says = (f"{sled.segments} SEGMENTS", f"FENCES {degrees(layout.mitre):.4g}° OFF SQUARE")
    base, *rest = sled_body(plan, layout, stop_on_base(carriage, says), suffix)
    return [_with_notes(plan, sled, base), *rest, *carriage_parts(plan, carriage, suffix)]


def _with_notes(plan: VesselPlan, sled: FlatSled, base: Part) -> Part:
    held = limit_length(sled.layout.held, plan.job.unit, "least")
    said = (
        f"Stop cutting when less than {held} of strip is left behind the blade: the hold-down no longer holds it.",
        *([RAIL] if any(setting.blocks for setting in sled.settings) else []),
    )
    return replace(base, notes=(*base.notes, *said))


def angle_plates(plan: VesselPlan) -> list[Part]:
    """Joint plates, named as "joint-plate-n12"; the staves' tilt plate."""
    joints = [joint_plate(plan, sled.segments, f"joint-plate-n{sled.segments}") for sled in plan.saws.sleds]
    staves = plan.saws.staves
    if staves is None:
        return joints
    says = (f"{staves.count} STAVES",)
    tilt = tilt_plate(plan, staves.blade_tilt, "stave-tilt-plate", "staves' edges", says)
    return [*joints, tilt]
