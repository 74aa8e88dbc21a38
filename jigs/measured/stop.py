"""The sled's stop, by the edges of the rings that it has cut: it alone sets their size."""

from __future__ import annotations

from collections.abc import Iterator
from math import tan
from typing import TYPE_CHECKING

from geometry.bodies.torus import least_wood
from geometry.measuring.estimate import Estimate
from geometry.records import replace
from jigs.measured.advice import LEAST_LEAF, Advice, Words, estimated, sentences
from jigs.measured.since import rings_glued
from jigs.measured.wedge_angle import GOOD, TRIAL
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "stop"
FAR = 3.0  # mm that a thick edge may be out before it is taken for a slip of the pen, or of the ring


def stop_advice(plan: TorusPlan) -> Iterator[Advice]:
    """Which way to move it, and what rings of the size that it gave are good for.

    By the thick edge, which is right whatever the wedge's angle; where both edges were read, they have to agree. Once
    good rings were read, the trial's edges are of a stop that may have been moved since.
    """
    readings, words, cut = plan.job.readings, Words(plan.job.unit), plan.ring_cut
    of = GOOD if readings.under(f"{GOOD}.") else TRIAL
    thick = readings.length(f"{of}.thick-edge")
    if thick is None:
        return
    off = Estimate(thick.value - cut.thick_edge, thick.accuracy)
    thin = readings.length(f"{of}.thin-edge")
    told = estimated("off", "Thick edge, over its plan", off)
    if abs(off.value) > FAR:
        says: tuple[str, ...] = (
            f"A thick edge of {words.fine(thick.value)} is far from its plan of {words.fine(cut.thick_edge)}.",
            "Look whether the ring lay against the stop and on this job's wedge; then measure again.",
        )
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", told, says)
        return
    ratio = 2 * tan(cut.half_wedge)
    pack, centre = plan.blank.packing * off.value / ratio, plan.blank.centre + off.value / ratio
    if not off.sure or abs(pack) < LEAST_LEAF / 2:
        why = "less than the thinnest paper sets right" if off.sure else "no more than you can measure"
        says = (f"Thick edges are out by {words.within(off.size)}: {why}. Leave the stop.",)
        yield Advice(f"{TOPIC}.size", TOPIC, "right", told, says)
        return
    form = plan.job.form
    left = least_wood(replace(plan.blank, centre=centre), form.major_radius, form.tube)
    told = (
        *told,
        Quantity("pack", "Pack the stop by, less than nothing: plane it", pack, "calliper"),
        Quantity("centre", "Middle of the rings from the axis", centre, "calliper"),
        Quantity("left", "Least wood round the form with these rings", left, "calliper"),
    )
    size, do = (
        (
            "thick",
            f"pack all of the stop's edges by {words.fine(pack)}, which moves the ring towards the apex",
        )
        if off.value > 0
        else (
            "thin",
            f"plane {words.fine(-pack)} off the stop's edges, which moves the ring away from the apex",
        )
    )
    says = sentences(
        f"Thick edges are {words.fine(abs(off.value))} too {size}: {do}. {words.fine(0.1)} there is "
        f"{words.fine(0.1 * ratio / plan.blank.packing)} of thick edge.",
        *_other_edge(plan, thin, off, words),
        _cut_already(plan, left, words),
    )
    yield Advice(f"{TOPIC}.size", TOPIC, "correct", told, says)


def _cut_already(plan: TorusPlan, left: float, words: Words) -> str:
    """What rings of that size are good for, while they can still be sorted."""
    if rings_glued(plan.job.readings):
        return ""
    if left > plan.job.gauges.sanding_allowance:
        return (
            f"Rings cut already serve if all are alike: {words.fine(left)} of wood is left round the form; do not mix "
            "them with rings of the other size."
        )
    return (
        f"Rings cut already do not hold the form: {words.fine(left)} of wood is left. Cut the others first."
    )


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
