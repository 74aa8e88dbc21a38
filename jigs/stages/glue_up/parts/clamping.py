"""Blocks that give clamps faces parallel to a joint of quarters and halves. Sawn off after the glue-up."""

from __future__ import annotations

from math import ceil, cos, degrees, floor, tan

from geometry.plane.contour import polygon
from geometry.readback.alike import FreeEdge
from jigs.parts.part import Line, Part
from jigs.parts.plate import Plate, middle
from jigs.plans.torus import TorusPlan
from jigs.stages.glue_up.layout.clamping import INSET, ClampBlocks

TICK = 2.0  # length of a mark at either end of the pull line
SAW_ABOVE = 2.0  # the line above a rim block's foot along which it is sawn off


def clamping(plan: TorusPlan) -> list[Part]:
    """Blocks for the flats above and below and, where the ring has a flat there, for the rim."""
    blocks = plan.clamping
    if not blocks.made:
        return []
    rim = [] if plan.blank.arris_out else [_rim_block(plan, blocks)]
    return [_flat_block(plan, blocks), *rim]


def _joints(plan: TorusPlan) -> int:
    """Joints at quarters and halves."""
    return 4 if plan.truing.quarter else 2


def _flat_block(plan: TorusPlan, blocks: ClampBlocks) -> Part:
    """Lies on a flat. x runs along the joint from the torus axis, y square to it, both less an even shift."""
    shift = blocks.flat_corners[3][0]
    a, b, c, d = ((x - shift, y) for x, y in blocks.flat_corners)
    plate, pull = Plate(plan, polygon([a, b, c, d])), blocks.pull_radius - shift
    for y in (blocks.set_back + 0.5, blocks.flat_far - TICK - 0.5):
        plate.marks.append(Line(((pull, y), (pull, y + TICK)), "pull line"))
    _letter_joint(plate)
    layers = ceil(blocks.height / plan.job.workshop.boards.sheet)
    near, far, side = middle(a, b), middle(c, d), middle(b, c)
    plate.angle("side to clamp face", 90 + degrees(plan.blank.half_wedge), side, far)
    plate.gap("joint edge to clamp face", blocks.deep, near, far, "differ")
    return plate.part(
        "clamp-block-flat",
        "gives clamps parallel faces on the flats above and below each joint of quarters and halves",
        quantity=4 * _joints(plan) * layers,
        stack=layers,
        free=(FreeEdge(far, 5.0, 0.4), FreeEdge(side, 3.0, 0.4), FreeEdge(middle(a, d), 3.0, 0.4)),
    )


def _letter_joint(plate: Plate) -> None:
    """Which edge lies along the joint: in words, by an arrow, or, on the smallest blocks, by its line alone."""
    plate.letter("JOINT ↓", titled=False, instead=(("↓",),))


def _rim_block(plan: TorusPlan, blocks: ClampBlocks) -> Part:
    """Stands on the rim's flat; drawn in the joint's frame, moved so that its foot ends at the origin."""
    x0, y0 = blocks.rim_corners[0]
    shape = [(x - x0, y - y0) for x, y in blocks.rim_corners]
    w = plan.blank.half_wedge
    lift = SAW_ABOVE / cos(w)
    plate = Plate(plan, polygon(shape).ccw())
    saw = tuple((lift - y * tan(w), y) for y in (-0.5, shape[1][1] + 0.5))
    plate.marks.append(Line(saw, "saw here"))
    _letter_joint(plate)
    foot, face = middle(shape[0], shape[1]), (blocks.height / 2, 0.0)
    plate.angle("foot to clamp face", degrees(blocks.face_angle), foot, face)
    plate.edge("clamp face", blocks.height, face)
    layers = max(1, floor((plan.blank.flat_width - 2 * INSET) / plan.job.workshop.boards.sheet))
    return plate.part(
        "clamp-block-rim",
        "gives a clamp parallel faces on the rim at each joint of quarters and halves",
        quantity=2 * _joints(plan) * layers,
        stack=layers,
    )
