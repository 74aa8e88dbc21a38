"""The sanding holder: a pocket out of which a glue face stands by what is left to take off, and a gauge for it."""

from __future__ import annotations

from geometry.plane.contour import Contour, circle, rectangle
from jigs.forms.plan import Plan
from jigs.parts.labels import centred
from jigs.parts.marked import as_lines
from jigs.parts.part import Dimension, EdgeGap, HoleDiameter, Part
from jigs.parts.places import hang_hole, lettered
from jigs.parts.sheet import closed, cut_part
from jigs.stages.layup.layout.holder import FINGER, FLOOR, GAUGE_HEIGHT, NOTCH, RELIEF, SandingHolder
from jigs.stages.layup.parts.sled import FAMILY
from jigs.stages.layup.plan.jigs import LayupJigs
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


def _bolts(holder: SandingHolder) -> list[Contour]:
    return [circle(bolt, holder.bolt_hole / 2) for bolt in holder.bolts]


def _says(plan: Plan, holder: SandingHolder) -> tuple[str, ...]:
    unit = plan.job.unit
    finished, left = (show_length(mm, unit, exact=True).upper() for mm in (holder.finished, holder.left))
    return (plan.job.title.upper(), f"SAND SIDE {holder.side.upper()}", f"TO {finished}", f"OFF {left}")


def _pocket(plan: Plan, holder: SandingHolder, name: str) -> Part:
    half, wide, top, r = holder.half, holder.half_width, holder.finished, RELIEF
    outline = closed(
        [
            (-wide, -FLOOR),
            (wide, -FLOOR),
            (wide, top),
            (half, top),
            (half, -r),
            (half - r, -r),
            (half - r, 0.0),
            (r - half, 0.0),
            (r - half, -r),
            (-half, -r),
            (-half, top),
            (-wide, top),
        ]
    )
    holes, shoulder = _bolts(holder), (half + wide) / 2
    return cut_part(
        plan,
        FAMILY,
        name,
        "holds a piece, its glue face out by what is left to take off",
        outline,
        holes,
        lettered(outline, holes, (), _says(plan, holder)),
        (
            Dimension("floor to reference edge", top, EdgeGap((0.0, 0.0), (shoulder, top))),
            Dimension("pocket width", 2 * half, EdgeGap((half, top / 2), (-half, top / 2))),
        ),
        (
            "Hold the holder by its sides, fingers above the reference edge.",
            "Cut new plates when the reference edge is worn.",
        ),
        quantity=holder.layers,
    )


def _back(plan: Plan, holder: SandingHolder, name: str) -> Part:
    outline = rectangle(-holder.half_width, -FLOOR, holder.half_width, holder.finished)
    holes = _bolts(holder)
    return cut_part(
        plan,
        FAMILY,
        name,
        "the sanding holder's back, on which the piece lies",
        outline,
        holes,
        lettered(outline, holes, (), ("BACK", *_says(plan, holder)[1:])),
        (),
    )


def _bar(plan: Plan, holder: SandingHolder, name: str) -> Part:
    low, high = holder.bar
    outline = rectangle(-holder.half_width, low, holder.half_width, high)
    holes = _bolts(holder)
    bolts = (
        Dimension(f"bolt hole {i + 1}", holder.bolt_hole, HoleDiameter(bolt))
        for i, bolt in enumerate(holder.bolts)
    )
    return cut_part(
        plan,
        FAMILY,
        name,
        "presses the piece to the holder's back",
        outline,
        holes,
        lettered(outline, holes, (), ("BAR",)),
        tuple(bolts),
        ("Pack under the bar where the piece lies lower than the plates.",),
    )


def _gauge(plan: Plan, holder: SandingHolder, name: str) -> Part:
    """Three notches from below: as cut, half of it left, finished."""
    right = holder.notches[-1][1] + FINGER
    points = [(0.0, 0.0)]
    for start, end in holder.notches:
        points += [(start, 0.0), (start, NOTCH), (end, NOTCH), (end, 0.0)]
    outline = closed([*points, (right, 0.0), (right, GAUGE_HEIGHT), (0.0, GAUGE_HEIGHT)])
    words = [
        centred(word, ((start + end) / 2, NOTCH + 5), 3.0)
        for word, (start, end) in zip(STEPS, holder.notches, strict=True)
    ]
    hole = hang_hole(outline, (), (right, GAUGE_HEIGHT))
    says = _says(plan, holder)
    return cut_part(
        plan,
        FAMILY,
        name,
        "shows what is left to take off: three notches for the sanded side",
        outline,
        (hole,),
        (
            *words,
            *lettered(outline, (hole,), as_lines(words), (says[0], f"LEFT, SIDE {holder.side.upper()}")),
        ),
        tuple(
            Dimension(f"notch {word.lower()}", end - start, EdgeGap((start, NOTCH / 2), (end, NOTCH / 2)))
            for word, (start, end) in zip(STEPS, holder.notches, strict=True)
        ),
        (
            "A piece as cut enters the first notch only. When it enters the second, half is left to take off; when it "
            "just enters the last, nothing.",
        ),
    )
