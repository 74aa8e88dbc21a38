"""A vessel's stack, outside and wall as they are, against the plan."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from geometry.measuring.estimate import Estimate
from geometry.measuring.harmonics import harmonic
from geometry.measuring.vessel import square_left
from jigs.measured.advice import Advice, Verdict, Words, listed, sentences
from jigs.measured.glued import glued_rings
from jigs.measured.outside import stations_read, wall_left
from jigs.words.quantity import Quantity, ring_list

if TYPE_CHECKING:
    from jigs.plans.vessel import VesselPlan

TOPIC = "vessel"
WALL = "inside.sand.wall"
FOLLOWS = (
    "The inside follows, so that the wall keeps its thickness: make draws the gauges inside, the mouth's stick and the "
    "plug anew. The outside gauges as redrawn fit the outside as it is."
)
SAME = 0.05  # mm
COUNT = 8


def vessel_advice(plan: VesselPlan) -> Iterator[Advice]:
    """Of the stack as it grows, then of the outside, then of the wall."""
    yield from _stack(plan)
    yield from _stations(plan)
    yield from _wall(plan)


def _stack(plan: VesselPlan) -> Iterator[Advice]:
    """Of the last reading, which counts for what to do next. The plan has the rings as they stand already."""
    glued, words = glued_rings(plan.job.readings), Words(plan.job.unit)
    planned = {layer.number: layer.ring.top - plan.planned.bottom for layer in plan.planned.layers}
    if plan.stack.stated:
        yield _stated(plan, words)
        return
    last = max((number for number in glued.tops if number in planned), default=0)
    if not last:
        return
    off = Estimate(glued.tops[last].value - planned[last], glued.tops[last].accuracy)
    told = (Quantity("off", f"Top of ring {last}, over its plan", off.value, "calliper"),)
    if not plan.stack.glued:
        says: tuple[str, ...] = (
            f"The stack is at its height, as well as a rule tells: {words.rule(abs(off.value))} off.",
        )
        if off.sure:  # what stands on a floating base, or carries staves, is not planned anew
            says = (
                f"The stack is {_high(off.value, words)} at the top of ring {last}: make it good in the next ring.",
            )
        yield Advice(f"{TOPIC}.stack", TOPIC, "correct" if off.sure else "right", told, says)
        return
    stack = plan.stack
    rings = [layer.filled for layer in stack.layers]
    left, at = square_left(plan.section, rings, [ring.top for ring in rings])
    raised = Quantity("raise", "Vessel higher in the stack by", stack.raised, "calliper")
    yield Advice(
        f"{TOPIC}.stack",
        TOPIC,
        "correct",
        (
            *told,
            Quantity("left", f"Least wood left, in ring {at}", left, "calliper"),
            *([raised] if stack.raised else []),
        ),
        sentences(
            f"The stack is {_high(off.value, words)} at the top of ring {last}; {words.fine(left)} of wood is left, in "
            f"ring {at}.",
            _turned_elsewhere(stack.raised, words) if stack.raised else "",
            *_above(plan, words),
        ),
    )


def _stated(plan: VesselPlan, words: Words) -> Advice:
    """Rings that the file says are glued, and what the others have become."""
    stack = plan.stack
    rings = [layer.filled for layer in stack.layers]
    left, at = square_left(plan.section, rings, [ring.top for ring in rings])
    told = (
        Quantity("count", "Rings that stay", stack.glued, "count"),
        Quantity("left", f"Least wood left, in ring {at}", left, "calliper"),
        Quantity("raise", "Vessel higher in the stack by", stack.raised, "calliper"),
    )
    top = words.rule(stack.layers[stack.glued - 1].ring.top - stack.bottom)
    says = sentences(
        f"Rings 1 to {stack.glued} stay as they are, up to {top}; {words.fine(left)} of wood is left, in ring {at}.",
        _turned_elsewhere(stack.raised, words) if stack.raised else "",
        *_above(plan, words),
        "The cut list and the boards leave the glued rings out.",
    )
    return Advice(f"{TOPIC}.glued", TOPIC, "correct", told, says)


def _high(off: float, words: Words) -> str:
    return f"{words.rule(abs(off))} too {'high' if off > 0 else 'low'}"


def _turned_elsewhere(raised: float, words: Words) -> str:
    way = "higher" if raised > 0 else "lower"
    return (
        f"The whole vessel is turned {words.rule(abs(raised))} {way} in it: the outside gauges and the lines of the "
        "stations follow; make draws them."
    )


def _above(plan: VesselPlan, words: Words) -> Iterator[str]:
    """What changes of the rings that are not glued yet."""
    planned = {layer.number: layer.ring for layer in plan.planned.layers}
    rings = [layer.ring for layer in plan.stack.layers[plan.stack.glued :]]
    for ring in rings:
        before = planned.get(ring.number)
        if before is None:
            yield f"Ring {ring.number} is one more: {words.rule(ring.height)} high."
            continue
        if abs(ring.height - before.height) > SAME:
            as_planned = ring is not rings[-1] and abs(ring.top - before.top) < SAME
            yield (
                f"Flatten ring {ring.number} to {words.rule(ring.height)} instead of {words.rule(before.height)}"
                f"{': every joint above it then lies as planned' if as_planned else ''}."
            )
        if max(abs(ring.outer - before.outer), abs(ring.core - before.core)) > SAME:
            yield (
                f"Ring {ring.number} is cut anew where it stands now: {words.fine(2 * ring.outer)} across flats, "
                f"opening {words.fine(2 * ring.core)}; planned {words.fine(2 * before.outer)} and "
                f"{words.fine(2 * before.core)}."
            )
    gone = sorted(set(planned) - {layer.number for layer in plan.stack.layers})
    if gone:
        yield f"{ring_list(gone).capitalize()} {'are' if len(gone) > 1 else 'is'} not needed."
    kept = [ring.number for ring in rings if ring.number in planned]
    if kept and abs(rings[-1].top - plan.planned.top) > SAME:
        yield f"Every joint above ring {plan.stack.glued} moves; rings cut already that are not named here serve."


def _stations(plan: VesselPlan) -> Iterator[Advice]:
    """Diameters as turned: what is over is turned off, what is under the inside follows."""
    words = Words(plan.job.unit)
    found = list(stations_read(plan.job.readings, plan.asked_sizes.finished))
    if not found:
        return
    told = tuple(
        Quantity(
            one.id.partition(".")[2].partition(".")[2],
            f"{one.label}, over its size",
            one.off.value,
            "calliper",
        )
        for one in found
    )
    if slips := [one.label for one in found if one.slip]:
        says: tuple[str, ...] = (f"{listed(slips)}: far from its size. Measure again; nothing is corrected.",)
        yield Advice(f"{TOPIC}.stations", TOPIC, "unclear", told, says)
        return
    if late := [one.label for one in found if one.late]:
        says = (
            f"{listed(late)}: nearer to the finished size, as if read after the profile was turned. A reading counts "
            "only before that: leave it out. Nothing is corrected.",
        )
        yield Advice(f"{TOPIC}.stations", TOPIC, "unclear", told, says)
        return
    over, under = (
        [
            f"{one.label} by {words.fine(abs(one.off.value))}"
            for one in found
            if one.off.sure and one.off.value * way > 0
        ]
        for way in (1, -1)
    )
    verdict: Verdict = "correct" if over or under else "right"
    lost = ""
    if under and plan.job.halves.ring is not None:
        left, least = wall_left(plan.section, found, plan.asked_sizes.finished), plan.job.wall.least
        lost = "The inside is turned already, so the wall loses half of that there. "
        lost += f"Its thinnest place, here or elsewhere, then has {words.fine(left)}"
        lost += f", under your least wall of {words.fine(least)}. Stop turning." if left < least else "."
        verdict = "short" if left < least else verdict
    elif under:
        lost = FOLLOWS
    says = sentences(
        f"Over its size: {listed(over)}. Turn it off." if over else "",
        f"Under its size: {listed(under)}. {lost}" if under else "",
        "" if over or under else "All stations have their size, as well as you can measure.",
    )
    yield Advice(f"{TOPIC}.stations", TOPIC, verdict, told, says)


def _wall(plan: VesselPlan) -> Iterator[Advice]:
    """Round the rim: whether inside and outside have one axis."""
    words = Words(plan.job.unit)
    read = [one for one in plan.job.readings.each(WALL) if one is not None]
    if not read:
        return
    walls = np.array([one.value for one in read])
    told = (
        Quantity("least", "Thinnest", float(walls.min()), "calliper"),
        Quantity("spread", "from thinnest to thickest", float(np.ptp(walls)), "calliper"),
    )
    if len(walls) != COUNT:
        says: tuple[str, ...] = (f"Read the wall at {COUNT} equal angles at one height.",)
        yield Advice(f"{TOPIC}.wall", TOPIC, "unclear", told, says)
        return
    first = harmonic(walls, 1)
    verdict, thin = _thinnest(plan, Estimate(float(walls.min()), read[0].accuracy), words)
    if first.amplitude <= first.accuracy(read[0].accuracy):
        even = f"The wall is even to {words.fine(float(np.ptp(walls)))}"
        says = sentences(f"{even}.", thin) if thin else (f"{even}: leave it.",)
        yield Advice(f"{TOPIC}.wall", TOPIC, verdict, told, says)
        return
    place = round(first.angle % (2 * np.pi) / (2 * np.pi / COUNT)) % COUNT + 1
    thickest = float(walls[place - 1])
    # No thinner than it was to be; and of one thin place among others alike none is too thick.
    off = min(2 * first.amplitude, thickest - plan.wall[0], 2 * (thickest - float(np.median(walls))))
    sand = off > read[0].accuracy
    says = sentences(
        f"The inside is {words.fine(first.amplitude)} off the outside's axis: the wall is thickest at reading {place}.",
        f"Sand the outside there by up to {words.fine(off)}, running out to nothing half round; the thinnest place, "
        f"{words.fine(float(walls.min()))}, stays."
        if sand
        else "It is not too thick there: leave it.",
        thin,
    )
    yield Advice(
        f"{TOPIC}.wall",
        TOPIC,
        "correct" if verdict == "right" and sand else verdict,
        (*told, Quantity("off", "Off the axis by", first.amplitude, "calliper")),
        says,
    )


def _thinnest(plan: VesselPlan, read: Estimate, words: Words) -> tuple[Verdict, str]:
    """Whether the thinnest place is under the plan's thinnest wall, or under what the turner will turn at all."""
    planned, least = plan.wall[0], plan.job.wall.least
    lacks = Estimate(planned - read.value, read.accuracy)
    if lacks.value <= 0 or not lacks.sure:
        return "right", ""
    if read.value < least:
        return "short", (
            f"{words.fine(read.value)} is under your least wall of {words.fine(least)}: cut no more of it, and sand it "
            "by hand with the lathe at rest."
        )
    return "correct", f"The wall was to be {words.fine(planned)} at least: take no more off its thin places."
