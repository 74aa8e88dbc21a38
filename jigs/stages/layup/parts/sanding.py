"""The sanding holder: a pocket out of which a glue face stands by what is left to take off, and a gauge for it."""

from __future__ import annotations

from geometry.plane.contour import Contour, rectangle
from jigs.parts.part import Part
from jigs.parts.places import centred
from jigs.parts.plate import Plate, closed
from jigs.plans.plan import Plan
from jigs.stages.layup.layout.holder import FINGER, FLOOR, GAUGE_HEIGHT, NOTCH, RELIEF, SandingHolder
from jigs.stages.layup.plan import LayupJigs
from jigs.words.lengths import show_length

STEPS = ("CUT", "HALF", "DONE")


def sanding_holders(plan: Plan, jigs: LayupJigs) -> list[Part]:
    """For each side that is glued to its mirror image: pocket plates, back, bar and a gauge."""
    return [part for holder in jigs.holders for part in _holder(plan, holder, jigs.suffix)]


def _holder(plan: Plan, holder: SandingHolder, end: str) -> list[Part]:
    side = f"{holder.side}{end}"
    return [
        _pocket(plan, holder, f"layup-sanding-pocket-{side}"),
        _back(plan, holder, f"layup-sanding-back-{side}"),
        _bar(plan, holder, f"layup-sanding-bar-{side}"),
        _gauge(plan, holder, f"layup-left-gauge-{side}"),
    ]


def _says(plan: Plan, holder: SandingHolder) -> tuple[str, ...]:
    unit = plan.job.unit
    finished, left = (show_length(mm, unit, exact=True).upper() for mm in (holder.finished, holder.left))
    return (f"SAND SIDE {holder.side.upper()}", f"TO {finished}", f"OFF {left}")


def _pocket(plan: Plan, holder: SandingHolder, name: str) -> Part:
    half, wide, top, r = holder.half, holder.half_width, holder.finished, RELIEF
    right = [(wide, top), (half, top), (half, -r), (half - r, -r), (half - r, 0.0)]
    plate = _bolted(
        plan,
        holder,
        closed([(-wide, -FLOOR), (wide, -FLOOR), *right, *((-x, y) for x, y in reversed(right))]),
    )
    plate.letter(*_says(plan, holder))
    plate.gap("floor to reference edge", top, (0.0, 0.0), ((half + wide) / 2, top))
    plate.gap("pocket width", 2 * half, (half, top / 2), (-half, top / 2))
    return plate.part(
        name,
        "holds a piece, its glue face out by what is left to take off",
        (
            "Hold the holder by its sides, fingers above the reference edge.",
            "Cut new plates when the reference edge is worn.",
        ),
        quantity=holder.layers,
    )


def _bolted(plan: Plan, holder: SandingHolder, outline: Contour, measured: bool = False) -> Plate:
    plate = Plate(plan, outline)
    for number, bolt in enumerate(holder.bolts, 1):
        plate.hole(bolt, holder.bolt_hole, f"bolt hole {number}" if measured else "")
    return plate


def _back(plan: Plan, holder: SandingHolder, name: str) -> Part:
    plate = _bolted(plan, holder, rectangle(-holder.half_width, -FLOOR, holder.half_width, holder.finished))
    plate.letter("BACK", *_says(plan, holder), titled=False)
    return plate.part(name, "the sanding holder's back, on which the piece lies")


def _bar(plan: Plan, holder: SandingHolder, name: str) -> Part:
    (low, high), wide = holder.bar, holder.half_width
    plate = _bolted(plan, holder, rectangle(-wide, low, wide, high), measured=True)
    plate.letter("BAR", titled=False)
    pack = "Pack under the bar where the piece lies lower than the plates."
    return plate.part(name, "presses the piece to the holder's back", (pack,))


def _gauge(plan: Plan, holder: SandingHolder, name: str) -> Part:
    """Three notches from below: as cut, half of it left, finished."""
    right = holder.notches[-1][1] + FINGER
    points = [(0.0, 0.0)]
    for start, end in holder.notches:
        points += [(start, 0.0), (start, NOTCH), (end, NOTCH), (end, 0.0)]
    outline = closed([*points, (right, 0.0), (right, GAUGE_HEIGHT), (0.0, GAUGE_HEIGHT)])
    plate = Plate(plan, outline)
    plate.hang((right, GAUGE_HEIGHT))
    for word, (start, end) in zip(STEPS, holder.notches, strict=True):
        plate.marks.append(centred(word, ((start + end) / 2, NOTCH + 5), 3.0))
        plate.gap(f"notch {word.lower()}", end - start, (start, NOTCH / 2), (end, NOTCH / 2))
    plate.letter(f"LEFT, SIDE {holder.side.upper()}")
    return plate.part(
        name,
        "shows what is left to take off: three notches for the sanded side",
        (
            "A piece as cut enters the first notch only. When it enters the second, half is left to take off; when it "
            "just enters the last, nothing.",
        ),
    )
