"""Blocks that give clamps faces parallel to a joint of quarters and halves. Sawn off after the glue-up."""

from __future__ import annotations

from math import ceil, cos, degrees, floor, tan

from geometry.compared.alike import FreeEdge
from geometry.plane.contour import Contour, polygon
from jigs.asked.job_shop import Family
from jigs.forms.torus.plan import TorusPlan
from jigs.parts.part import Dimension, EdgeAngle, EdgeGap, EdgeLength, Line, Part, Words
from jigs.parts.places import lettered
from jigs.parts.sheet import cut_part, middle
from jigs.stages.glue_up.layout.clamping import INSET, LEAST_FACE, ClampBlocks

FAMILY: Family = "clamping"
TICK = 2.0  # length of a mark at either end of the pull line
SAW_ABOVE = 2.0  # the line above a rim block's foot along which it is sawn off


def clamping(plan: TorusPlan) -> list[Part]:
    """Blocks for the flats above and below and, where the ring has a flat there, for the rim."""
    blocks = plan.clamping
    if min(blocks.flat_width, blocks.flat_far - blocks.set_back) < LEAST_FACE:
        return []
    rim = [] if plan.blank.arris_out else [_rim_block(plan, blocks)]
    return [_flat_block(plan, blocks), *rim]


def _joints(plan: TorusPlan) -> int:
    """Joints at quarters and halves."""
    return 4 if plan.truing.quarter else 2


def _flat_block(plan: TorusPlan, blocks: ClampBlocks) -> Part:
    """Lies on a flat. x runs along the joint from the torus axis, y square to it, both less an even shift."""
    corners = blocks.flat_corners
    shift = corners[3][0]
    a, b, c, d = ((x - shift, y) for x, y in corners)
    outline = polygon([a, b, c, d])
    pull = blocks.pull_radius - shift
    lines = tuple(
        Line(((pull, y), (pull, y + TICK)), "pull line")
        for y in (blocks.set_back + 0.5, blocks.flat_far - TICK - 0.5)
    )
    layers = ceil(blocks.height / plan.job.workshop.boards.sheet)
    near, far, side = middle(a, b), middle(c, d), middle(b, c)
    w = degrees(plan.blank.half_wedge)
    return cut_part(
        plan,
        FAMILY,
        "clamp-block-flat",
        "gives clamps parallel faces on the flats above and below each joint of quarters and halves",
        outline,
        (),
        (*lines, *_joint_side(outline, lines)),
        (
            Dimension("side to clamp face", 90 + w, EdgeAngle(side, far)),
            Dimension(
                "joint edge to clamp face", blocks.flat_far - blocks.set_back, EdgeGap(near, far), "differ"
            ),
        ),
        quantity=4 * _joints(plan) * layers,
        stack=layers,
        free=(
            FreeEdge(far, 5.0, 0.4),
            FreeEdge(middle(b, c), 3.0, 0.4),
            FreeEdge(middle(a, d), 3.0, 0.4),
        ),
    )


def _joint_side(outline: Contour, lines: tuple[Line, ...]) -> tuple[Words, ...]:
    """Which edge lies along the joint: in words, by an arrow, or, on the smallest blocks, by its line alone."""
    return lettered(outline, (), lines, ("JOINT ↓",), instead=(("↓",),))


def _rim_block(plan: TorusPlan, blocks: ClampBlocks) -> Part:
    """Stands on the rim's flat; drawn in the joint's frame, moved so that its foot ends at the origin."""
    corners = blocks.rim_corners
    x0, y0 = corners[0]
    shape = [(x - x0, y - y0) for x, y in corners]
    w = plan.blank.half_wedge
    lift = SAW_ABOVE / cos(w)
    saw = Line(tuple((lift - y * tan(w), y) for y in (-0.5, shape[1][1] + 0.5)), "saw here")
    layers = max(1, floor((plan.blank.flat_width - 2 * INSET) / plan.job.workshop.boards.sheet))
    outline = polygon(shape).ccw()
    foot, face = middle(shape[0], shape[1]), (blocks.height / 2, 0.0)
    return cut_part(
        plan,
        FAMILY,
        "clamp-block-rim",
        "gives a clamp parallel faces on the rim at each joint of quarters and halves",
        outline,
        (),
        (saw, *_joint_side(outline, (saw,))),
        (
            Dimension("foot to clamp face", degrees(blocks.face_angle), EdgeAngle(foot, face)),
            Dimension("clamp face", blocks.height, EdgeLength(face)),
        ),
        quantity=2 * _joints(plan) * layers,
        stack=layers,
    )
