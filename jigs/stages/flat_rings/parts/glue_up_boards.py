"""Boards on which flat rings are glued up: outlines, joints and a cross through the middle.

The middle of the rings is the origin; y runs up, and one flat of every ring lies straight down.
"""

from __future__ import annotations

from math import cos, pi, sin

from geometry.plane.contour import circle, rectangle, regular_polygon
from geometry.strokes.lettering import text_width
from jigs.parts.part import Dimension, HoleDiameter, Lettering, Line, Mark, Part, Words
from jigs.parts.places import LEAST_TEXT, as_lines, centred, hang_hole, lettered
from jigs.parts.plate import cut_part
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_rings.plan import GlueUpBoard, SameRings
from jigs.words.lengths import show_length
from jigs.words.quantity import ring_numbers

TEXT = 4.0
JOINT = 6.0  # length of the mark at each joint, inward
NOTES = (
    "Lay the segments dry on the outline first. A gap at the last joint is the sum of all: true halves, do not force "
    "it shut.",
)


def glue_up_boards(plan: VesselPlan) -> list[Part]:
    """One board for as many ring sizes as their outlines leave room for."""
    return [_board(plan, board) for board in plan.ring_boards.glue_up]


def _board(plan: VesselPlan, board: GlueUpBoard) -> Part:
    half = board.side / 2
    across = plan.job.fittings.middle
    outline, pin = rectangle(-half, -half, half, half), circle((0.0, 0.0), across / 2)
    marks: list[Mark | Words] = [*_cross(half, across)]
    for same in board.sizes:
        marks += [_outline(same), *_joints(same), _label(same)]
    hang = hang_hole(outline, (pin,), (half, half))
    count = board.sizes[0].size.segments
    text = (
        plan.job.title.upper(),
        f"GLUE-UP BOARD {board.number}",
        f"{count} SEGMENTS",
        "FLATS ON THE LINES",
    )
    sized = [_size(plan, same) for same in board.sizes]
    marks += lettered(outline, (pin, hang), as_lines(marks), text, near=(-half, half))
    marks += lettered(outline, (pin, hang), as_lines(marks), sized, near=(half, -half), height=TEXT)
    return cut_part(
        plan,
        f"glue-up-board-{board.number}",
        "rings are laid out and glued on it: "
        + ", ".join(ring_numbers(s.rings).lower() for s in board.sizes),
        outline,
        (pin, hang),
        marks,
        (Dimension("pin in the middle", across, HoleDiameter((0.0, 0.0))),),
        NOTES,
    )


def _cross(half: float, clear: float) -> tuple[Line, ...]:
    reach = half - 3
    return (
        Line(((-reach, 0.0), (-clear, 0.0)), "centre line"),
        Line(((clear, 0.0), (reach, 0.0)), "centre line"),
        Line(((0.0, -reach), (0.0, -clear)), "centre line"),
        Line(((0.0, clear), (0.0, reach)), "centre line"),
    )


def _outline(same: SameRings) -> Line:
    ring = same.size
    corners = regular_polygon(ring.segments, ring.outer, -pi / 2).points.tolist()
    places = tuple((float(x), float(y)) for x, y in [*corners, corners[0]])
    return Line(places, f"outside of {ring_numbers(same.rings).lower()}", witness=True)


def _joints(same: SameRings) -> list[Line]:
    """A short mark at each joint, or two where a strip or a gap stands between the segments."""
    ring, found = same.size, []
    aside = ring.spacer / 2
    for k in range(ring.segments):
        angle = -pi / 2 + ring.mitre * (2 * k + 1)
        for offset in (aside, -aside) if aside else (0.0,):
            at = [(d * cos(angle) - offset * sin(angle), d * sin(angle) + offset * cos(angle))
                  for d in (ring.radius - JOINT, ring.radius - 1.0)]  # fmt: skip
            found.append(Line((at[0], at[1]), "joint", witness=True))
    return found


def _size(plan: VesselPlan, same: SameRings) -> str:
    across = show_length(2 * same.size.outer, plan.job.unit, exact=True).upper()
    return f"{ring_numbers(same.rings)}: {across} ACROSS"


def _label(same: SameRings) -> Lettering:
    """The rings' numbers above their lowest flat, beside the cross's line."""
    text = ", ".join(map(str, same.rings))
    room = same.size.outer_edge / 2 - 4
    height = min(TEXT, max(LEAST_TEXT, TEXT * room / text_width(text, TEXT)))
    return centred(text, (text_width(text, height) / 2 + 2, -same.size.outer + 1.5 + height / 2), height)
