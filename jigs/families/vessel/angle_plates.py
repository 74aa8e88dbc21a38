"""Plates that prove and set the saw's angles: one joint plate for each count of segments, two for staves."""

from __future__ import annotations

from math import cos, degrees, sin, tan

from geometry.contour import polygon
from jigs.cautions import SHORT
from jigs.families.labels import ENGRAVED, SAW_CAUTION, block_width
from jigs.families.places import hang_hole, lettered
from jigs.families.saw_angles import joint_plate, show_degrees, tilt_plate
from jigs.families.sheet import cut_part
from jigs.part import Dimension, EdgeAngle, Part
from jigs.plan.vessel import VesselPlan
from jigs.plan.vessel.saws import StaveCut

WIDTH = 100.0  # least, along the mitre gauge
HEIGHT = 75.0  # of the blade's edge
CORNER = 4.0  # clipped between blade and mitre gauge


def angle_plates(plan: VesselPlan) -> list[Part]:
    """Joint plates, named as "joint-plate-n12"; the staves' tilt and gauge-angle plates."""
    joints = [joint_plate(plan, sled.segments, f"joint-plate-n{sled.segments}") for sled in plan.saws.sleds]
    staves = plan.saws.staves
    if staves is None:
        return joints
    says = (f"{staves.count} STAVES",)
    tilt = tilt_plate(plan, staves.blade_tilt, "stave-tilt-plate", "staves' edges", says)
    return [*joints, tilt, gauge_angle_plate(plan, staves)]


def gauge_angle_plate(plan: VesselPlan, staves: StaveCut) -> Part:
    """Sets the mitre gauge: its left edge on the blade, x = 0, its lower edge on the gauge's face."""
    angle = abs(staves.gauge_angle)
    lines = (
        plan.job.title.upper(),
        f"{staves.count} STAVES",
        f"GAUGE {show_degrees(angle)} OFF SQUARE",
        "← BLADE, GAUGE ↓",
        *SAW_CAUTION,
    )
    width = max(WIDTH, block_width(lines, ENGRAVED) + 22)
    rise = width * tan(angle)
    start = (CORNER * cos(angle), CORNER * sin(angle))
    top = HEIGHT + rise
    outline = polygon([start, (width, rise), (width, top), (0.0, top), (0.0, CORNER)])
    hole = hang_hole(outline, (), (width, top))
    return cut_part(
        plan,
        "angles",
        "stave-gauge-plate",
        "sets the mitre gauge for the staves' edges",
        outline,
        (hole,),
        lettered(outline, (hole,), (), lines),
        (Dimension("blade to gauge", 90 - degrees(angle), EdgeAngle((0.0, top / 2), (width / 2, rise / 2))),),
        (
            "Switch off and unplug; blade upright and raised: the left edge on the plate of the blade, between the "
            "teeth, the lower edge on the face of the mitre gauge. Tilt the blade afterwards.",
            "On the piece's side of the blade it sets first edges, the wide end against the gauge; turned over, as far "
            "to the other side of square, second edges: the piece turned end for end, the same face down.",
            f"Pieces under {SHORT[plan.job.unit]} are never held by hand: sled or mitre gauge, stop and hold-down.",
        ),
    )
