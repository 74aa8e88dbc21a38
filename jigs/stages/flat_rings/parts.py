"""Boards on which flat rings are glued up, and what their halves are trued by: a carrier, its upright, a check.

Glue-up boards: the middle of the rings is the origin; y runs up, and one flat of every ring lies straight down. Truing
boards: x along the front edge from the middle, y to the back. The ends of a half come to lie at y = line.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from geometry.plane.contour import circle, rectangle, regular_polygon
from geometry.strokes.lettering import text_width
from jigs.parts.part import Dimension, Lettering, Line, Mark, Part, Words
from jigs.parts.places import LEAST_TEXT, as_lines, centred, hang_hole, lettered
from jigs.parts.plate import Plate, cut_part, straight_edge
from jigs.parts.probes import HoleDiameter
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_rings.plan import GlueUpBoard, SameRings, TruingBoard
from jigs.words.quantity import ring_numbers, runs

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
    across = plan.job.show(2 * same.size.outer, exact=True).upper()
    return f"{ring_numbers(same.rings)}: {across} ACROSS"


def _label(same: SameRings) -> Lettering:
    """The rings' numbers above their lowest flat, beside the cross's line."""
    text = ", ".join(map(str, same.rings))
    room = same.size.outer_edge / 2 - 4
    height = min(TEXT, max(LEAST_TEXT, TEXT * room / text_width(text, TEXT)))
    return centred(text, (text_width(text, height) / 2 + 2, -same.size.outer + 1.5 + height / 2), height)


CHECK_HEIGHT = 50.0
RELIEF = 3.0
TICK = 8.0
SMALL_TEXT = 3.0
LEVELS = 3  # rows in which the ring numbers are staggered


def ring_truing(plan: VesselPlan) -> list[Part]:
    """Board, upright and check; none where every ring has an odd count."""
    truing = plan.ring_boards.truing
    if truing is None:
        return []
    return [_truing_board(plan, truing), _face(plan, truing), _check(plan, truing)]


def _truing_board(plan: VesselPlan, truing: TruingBoard) -> Part:
    half, depth, line = truing.width / 2, truing.depth, truing.line
    plate = Plate(plan, rectangle(-half, 0.0, half, depth))
    plate.hang((half, depth))
    plate.marks += [
        Line(((-half + 2, line), (half - 2, line)), "plane of the ends", witness=True),
        Line(((0.0, line + 1), (0.0, depth - 25)), "middle"),
    ]
    for tick, label in _ticks(truing):
        plate.marks += [tick, label]
    plate.letter("RING-TRUING BOARD", "HALVES: TIPS AT THEIR TICKS", "ABRASIVE ↓", near=(-half / 2, depth))
    return plate.part(
        "ring-truing-board",
        "carries halves of rings to the abrasive",
        (
            "Lay the half flat, both tips at their ticks, its ends over the front edge by as much as has to come off. "
            "Hold it down and slide the front edge along the bare foot of the upright.",
            "Sand until the abrasive marks all of both ends.",
        ),
    )


def _ticks(truing: TruingBoard) -> Iterator[tuple[Line, Lettering]]:
    """Where the tips of each half come to lie, numbered on both sides."""
    for k, (radius, numbers) in enumerate(truing.tips):
        low = truing.line + 1.0
        foot = low + TICK + (SMALL_TEXT + 2) * (k % LEVELS)
        label = runs(numbers, "-")
        within = min(radius, truing.width / 2 - text_width(label, SMALL_TEXT) / 2 - 2)
        for side in (1, -1):
            x = side * radius
            tick = Line(((x, low), (x, foot)), f"tip of {ring_numbers(numbers).lower()}", witness=True)
            yield tick, centred(label, (side * within, foot + 1 + SMALL_TEXT / 2), SMALL_TEXT)


def _face(plan: VesselPlan, truing: TruingBoard) -> Part:
    """The upright: y is the height above the bench."""
    long, sheet, height = truing.width + 100, plan.job.workshop.boards.sheet, truing.face_height
    plate = Plate(plan, rectangle(0.0, 0.0, long, height))
    plate.hang((long, height))
    plate.marks.append(Line(((3.0, sheet), (long - 3, sheet)), "top of the ring-truing board", witness=True))
    title, middle = plan.job.title.upper(), long / 2
    plate.letter("ABRASIVE ABOVE THE LINE", "BARE BELOW", title, near=(middle, height), titled=False)
    plate.gap("foot to top", height, (middle, 0.0), (middle, height))
    purpose = "stands square on the bench; abrasive on its upper part"
    return plate.part("ring-truing-face", purpose, ("Prove it square before each session.",))


def _check(plan: VesselPlan, truing: TruingBoard) -> Part:
    """A straight edge over both ends of a half; y = 0 is their plane."""
    wide, gap = truing.land_to, truing.land_from
    plate, land = Plate(plan, straight_edge(wide, gap, RELIEF, CHECK_HEIGHT)), (wide + gap) / 2
    plate.hang((wide, CHECK_HEIGHT))
    plate.letter("HALF RING: BOTH ENDS IN ONE PLANE", "STRAIGHT EDGE ↓")
    plate.edge("land", wide - gap, (land, 0.0))
    for side, x in (("left", -land), ("right", land)):
        plate.gap(f"{side} land below the middle", RELIEF, (0.0, RELIEF), (x, 0.0))
    return plate.part(
        "half-ring-check",
        "a straight edge for both ends of a half ring: no light under it",
        (
            "Lay it on both ends, near both faces of the ring. Light outside: the half spans too little; light at the "
            "opening: too much.",
        ),
    )
