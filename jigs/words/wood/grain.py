"""How the grain runs, and how it meets the joints, in words."""

from __future__ import annotations

from math import degrees

from jigs.plan.wood.joints import GrainJoint
from jigs.plan.wood.whole import WoodPlan
from jigs.words.sections import Row, Section
from jigs.words.wood.numbers import ring_list

BACKED = {
    "crossed": "long grain glued beside them crosses them",
    "in line": "they stand in line from ring to ring; the faces glued beside them are long grain, and carry",
    "none": "nothing else holds them",
}


def grain_section(wood: WoodPlan) -> Section:
    """Pieces, then joints."""
    pieces = [Row(f"grain of {p.piece}, {ring_list(p.rings)}", p.runs, "text") for p in wood.grain.pieces]
    joints = [Row(f"{j.sort}, {ring_list(j.rings)}", _joint(j), "text") for j in wood.grain.joints]
    told = ["A joint's angle is between the grain and square to the joint: 0° is end grain, 90° long grain."]
    if any(joint.end_to_end for joint in wood.grain.joints):
        told.append(
            "End grain drinks glue: size it first, and let it stand a minute before the joint is closed."
        )
    return Section("Grain", (*pieces, *joints), tuple(told))


def _joint(joint: GrainJoint) -> str:
    a, b = (degrees(angle) for angle in joint.angles)
    met = f"{a:.1f}° on both sides" if abs(a - b) < 0.05 else f"{a:.1f}° and {b:.1f}°"
    return f"{joint.count}, {met}{_told(joint)}"


def _told(joint: GrainJoint) -> str:
    """What end grain comes to."""
    if not joint.end_to_end:
        return ""
    near = "end grain" if joint.square else "nearly end grain"
    plies = "" if joint.solid else ", of plies"
    return f", {near} to {near}{plies}; {BACKED[joint.backing]}"
