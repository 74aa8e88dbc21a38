"""The sled's stop, by the edges of the rings that it has cut: it alone sets their size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import sin, tan
from typing import TYPE_CHECKING

from geometry.bodies.torus import least_wood
from geometry.measuring.estimate import Estimate
from jigs.measured.advice import Advice, Words, estimated
from jigs.measured.wedge_angle import GOOD, TRIAL
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "stop"


def stop_advice(plan: TorusPlan) -> Iterator[Advice]:
    """Which way to move it, and what rings of the size that it gave are good for.

    By the thick edge, which is right whatever the wedge's angle; where both edges were read, they have to agree.
    """
    readings, words, cut = plan.job.readings, Words(plan.job.unit), plan.ring_cut
    of = next((of for of in (GOOD, TRIAL) if f"{of}.thick-edge" in readings), None)
    thick = readings.length(f"{of}.thick-edge") if of else None
    if thick is None:
        return
    off = Estimate(thick.value - cut.thick_edge, thick.accuracy)
    thin = readings.length(f"{of}.thin-edge")
    told = estimated("off", "Thick edge, over its plan", off)
    if not off.sure:
        says: tuple[str, ...] = (
            f"Thick edges are out by {words.within(off)}: no more than you can measure. Leave the stop.",
        )
        yield Advice(f"{TOPIC}.size", TOPIC, "right", told, says)
        return
    move, centre = (
        -off.value / (2 * sin(cut.half_wedge)),
        plan.blank.centre + off.value / (2 * tan(cut.half_wedge)),
    )
    form = plan.job.form
    left = least_wood(replace(plan.blank, centre=centre), form.major_radius, form.tube)
    told = (
        *told,
        Quantity("move", "Stop, along the wedge's face, away from the apex", move, "calliper"),
        Quantity("centre", "Middle of the rings from the axis", centre, "calliper"),
        Quantity("left", "Least wood round the form with these rings", left, "calliper"),
    )
    size, way = ("thick", "towards the apex") if off.value > 0 else ("thin", "away from the apex")
    says = (
        f"Thick edges are {words.fine(abs(off.value))} too {size}: move the stop {words.fine(abs(move))} {way}, along "
        f"the wedge's face. {words.fine(0.1)} of stop is {words.fine(0.2 * sin(cut.half_wedge))} of thick edge.",
        *_other_edge(plan, thin, off, words),
        f"Rings cut already serve if all are alike: {words.fine(left)} of wood is left round the form; do not mix them "
        "with rings of the other size."
        if left > plan.job.gauges.sanding_allowance
        else f"Rings cut already do not hold the form: {words.fine(left)} of wood is left. Cut the others first.",
    )
    yield Advice(f"{TOPIC}.size", TOPIC, "correct", told, says)


def _other_edge(plan: TorusPlan, thin: Estimate | None, off: Estimate, words: Words) -> tuple[str, ...]:
    """A thin edge that is out otherwise than the thick one is the wedge's doing."""
    if thin is None:
        return ()
    other = Estimate(thin.value - plan.ring_cut.thin_edge, thin.accuracy)
    if not off.minus(other).sure:
        return ()
    return (
        f"Thin edges are {words.fine(abs(other.value))} too {'thick' if other.value > 0 else 'thin'}, which is not the "
        "same: the angle is out too. Set the wedge right first, by the check corner.",
    )
