"""Truing halves of flat rings: a board that carries them to the abrasive, its upright, and a check.

Board: x along its front edge from the middle, y to the back. The ends of a half come to lie at y = line.
"""

from __future__ import annotations

from collections.abc import Iterator

from geometry.plane.contour import rectangle
from geometry.strokes.lettering import text_width
from jigs.parts.part import Lettering, Line, Part
from jigs.parts.places import centred
from jigs.parts.plate import Plate, straight_edge
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_rings.plan import TruingBoard
from jigs.words.quantity import ring_numbers, runs

CHECK_HEIGHT = 50.0
RELIEF = 3.0
TICK = 8.0
TEXT = 3.0
LEVELS = 3  # rows in which the ring numbers are staggered


def ring_truing(plan: VesselPlan) -> list[Part]:
    """Board, upright and check; none where every ring has an odd count."""
    truing = plan.ring_boards.truing
    if truing is None:
        return []
    return [_board(plan, truing), _face(plan, truing), _check(plan, truing)]


def _board(plan: VesselPlan, truing: TruingBoard) -> Part:
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
        foot = low + TICK + (TEXT + 2) * (k % LEVELS)
        label = runs(numbers, "-")
        within = min(radius, truing.width / 2 - text_width(label, TEXT) / 2 - 2)
        for side in (1, -1):
            x = side * radius
            tick = Line(((x, low), (x, foot)), f"tip of {ring_numbers(numbers).lower()}", witness=True)
            yield tick, centred(label, (side * within, foot + 1 + TEXT / 2), TEXT)


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
