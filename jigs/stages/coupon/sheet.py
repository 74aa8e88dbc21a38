"""A strip of the sheet, its notches a little wider than the sheet is thick: what play a slot needs.

x runs to the right, y up; the notches open upward.
"""

from __future__ import annotations

from geometry.plane.contour import Contour, outline
from jigs.parts.part import Part, Point
from jigs.parts.places import centred
from jigs.parts.plate import Plate
from jigs.plans.plan import Plan
from jigs.stages.coupon.parts import SIZES
from jigs.words.lengths import show_length

NAME = "sheet-coupon"
DEEP, UNDER = 12.0, 30.0  # mm: a notch, and the strip under it
LAND = 12.0  # mm between notches
TEXT = 4.0


def sheet_coupon(plan: Plan) -> list[Part]:
    """One; none where no sled with slots is cut at a machine."""
    made = plan.job.workshop.made
    if "cut" not in (made.sled, made.segments, made.truing, made.layup):
        return []
    unit, sizes = plan.job.unit, SIZES[plan.job.unit]
    notches = [(play, *_sides(plan, k)) for k, play in enumerate(sizes.plays)]
    plate = Plate(plan, _outline(plan))
    for play, left, right in notches:
        told = show_length(play, unit, exact=unit == "in")
        plate.gap(f"notch with {told} of play", right - left, _side(left), _side(right))
        number = sizes.play(play).lstrip("0") or "0"
        plate.marks.append(centred(number, ((left + right) / 2, UNDER - 5.0), TEXT))
    plate.hang((_long(plan), 0.0))
    plate.letter("SHEET'S COUPON", near=(_long(plan) / 2, UNDER / 2))
    return [plate.part(NAME, "what play a slot needs over the sheet")]


def _sides(plan: Plan, k: int) -> tuple[float, float]:
    sheet, plays = plan.job.workshop.boards.sheet, SIZES[plan.job.unit].plays
    left = LAND + k * (sheet + plays[-1] + LAND)
    return left, left + sheet + plays[k]


def _long(plan: Plan) -> float:
    return _sides(plan, len(SIZES[plan.job.unit].plays) - 1)[1] + LAND


def _side(x: float) -> Point:
    return x, UNDER + DEEP / 2


def _outline(plan: Plan) -> Contour:
    top = UNDER + DEEP
    notches = [
        corner
        for k in reversed(range(len(SIZES[plan.job.unit].plays)))
        for left, right in (_sides(plan, k),)
        for corner in ((right, top), (right, UNDER), (left, UNDER), (left, top))
    ]
    long = _long(plan)
    return outline((0.0, 0.0), (long, 0.0), (long, top), *notches, (0.0, top))
