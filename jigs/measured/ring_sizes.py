"""The sizes of the wedge rings as sanded: which order closes best, and which to sand."""

from __future__ import annotations

from collections.abc import Iterator
from math import tan
from typing import TYPE_CHECKING

import numpy as np

from geometry.blanks.truing import half_ends
from geometry.bodies.torus import Blank, least_wood, outer_flat
from geometry.measuring.ring_sizes import ENOUGH, best_order, centre_radii, closure, sorts_of, to_sand
from geometry.plane.edges import FloatArray
from geometry.records import Record, replace
from jigs.measured.advice import Advice, Verdict, Words, sentences
from jigs.measured.glued import stated_rings
from jigs.measured.planned import end_more
from jigs.measured.since import rings_glued
from jigs.words.quantity import Quantity, ring_list

if TYPE_CHECKING:
    from jigs.asked.job import TorusJob
    from jigs.plans.torus import TorusPlan

TOPIC = "ring-sizes"
READ = "glue_up.faces"
FAR = 3.0  # mm that a thick edge may differ from the others before it is taken for a slip of the pen


class RingsFound(Record):
    """Every ring's thick edge, apothem and half width A_x without its strip, mm; the flats as planned where they were
    not read."""

    thick: FloatArray
    apothem: FloatArray
    half_width: FloatArray
    accuracy: float  # of a thick edge

    @property
    def miss_accuracy(self) -> float:
        """Of the closure vector's length: errors of all edges, each seen along it by half."""
        return float(self.accuracy * (len(self.thick) / 2) ** 0.5)


def rings_found(job: TorusJob, blank: Blank) -> RingsFound | None:
    """As all will be once the ends of halves are trued; None until all thick edges are read."""
    readings = job.readings
    thick = readings.each(f"{READ}.thick")
    if len(thick) != blank.wedge_rings or any(one is None for one in thick):
        return None
    flats = readings.each(f"{READ}.flats")
    across = [flats[k] if k < len(flats) else None for k in range(blank.wedge_rings)]
    apothem = np.array([one.value / 2 if one else blank.apothem for one in across])
    half = outer_flat(1.0, blank.segments) * apothem - blank.parted
    read = [one for one in thick if one is not None]
    edges = np.array([one.value for one in read])
    edges[[ring - 1 for ring in half_ends(blank.wedge_rings)]] -= end_more(job, blank)
    return RingsFound(edges, apothem, half, read[0].accuracy)


def measured_centre(job: TorusJob, blank: Blank) -> float | None:
    """R_p of the rings as they are, their mean; None where it is the planned one as well as can be measured."""
    found = rings_found(job, blank)
    if found is None or _odd(found.thick) is not None:
        return None
    centre = float(centre_radii(found.thick, found.half_width).mean())
    accuracy = found.accuracy / 2 / (2 * tan(blank.half_wedge))  # what all readings share
    return centre if abs(centre - blank.centre) > accuracy else None


def as_glued(job: TorusJob, blank: Blank) -> Blank:
    """The blank of rings as they were measured; the planned one where they are as planned or were not read."""
    centre = measured_centre(job, blank)
    return blank if centre is None else replace(blank, centre=centre)


def rings_advice(plan: TorusPlan) -> Iterator[Advice]:
    """The order; what to sand; the radius that comes of it; the steps that stay. Nothing beside glued rings."""
    readings, words, blank = plan.job.readings, Words(plan.job.unit), plan.blank
    if stated_rings(readings):
        return
    read = [one for one in readings.each(f"{READ}.thick") if one is not None]
    found = rings_found(plan.job, blank)
    if found is None:
        if read:
            says: tuple[str, ...] = (
                f"{len(read)} of {blank.wedge_rings} thick edges are read; the order needs all of them.",
            )
            yield Advice(f"{TOPIC}.too-few", TOPIC, "unclear", (), says)
        return
    if (odd := _odd(found.thick)) is not None:
        says = (f"Ring {odd + 1} is {words.fine(found.thick[odd])}, far from the others. Measure it again.",)
        yield Advice(f"{TOPIC}.unclear", TOPIC, "unclear", (), says)
        return
    glued = rings_glued(readings)
    order = [] if glued else list(_order(plan, found, words))
    yield from order
    yield from _steps(found, words)
    if not glued and not any(one.id == f"{TOPIC}.sand" for one in order):  # that tells what is left then
        yield from _wood(plan, found, words)
    yield _radius(plan, found, words)


def _odd(thick: FloatArray) -> int | None:
    away = np.abs(thick - np.median(thick))
    return int(away.argmax()) if away.max() > FAR else None


def _order(plan: TorusPlan, found: RingsFound, words: Words) -> Iterator[Advice]:
    before = abs(closure(found.thick))
    sorts = sorts_of(list(plan.species), ends=plan.job.form.half_sanding > 0)
    best = best_order(found.thick, sorts)
    told = (
        Quantity("miss.as-numbered", "In their numbers' order the ends miss by", before, "calliper"),
        Quantity("miss.best", "in the best order found", best.miss, "calliper"),
        Quantity("miss.bound", "no order misses by less than", best.bound, "calliper"),
        Quantity("miss.accuracy", "give or take", found.miss_accuracy, "calliper"),
        Quantity("order", "Order", " ".join(str(ring + 1) for ring in best.rings), "text"),
    )
    if before <= found.miss_accuracy or before <= ENOUGH / 5:
        says: tuple[str, ...] = (f"In their numbers' order the ends miss by {words.fine(before)}: leave it.",)
        yield Advice(f"{TOPIC}.order", TOPIC, "right", told, says)
        return
    order = np.array(best.rings)
    if best.miss > before - found.miss_accuracy / 2:
        says = (
            f"The ends miss by {words.fine(before)}, and no other order gains what you could measure: leave it.",
        )
        yield Advice(f"{TOPIC}.order", TOPIC, "right", told, says)
        order = np.arange(len(order))
    else:
        says = (
            f"In their numbers' order the ends of the torus miss by {words.fine(before)}; lay them "
            f"{' '.join(str(ring + 1) for ring in best.rings)}, and they miss by {words.fine(best.miss)}, give or take "
            f"{words.fine(found.miss_accuracy)}.",
            "Rings of other woods, and the ends of halves, stay in their places. Write new numbers on the labels.",
        )
        yield Advice(f"{TOPIC}.order", TOPIC, "correct", told, says)
    if best.miss > ENOUGH:
        yield _sanding(plan, found, order, words)


def _steps(found: RingsFound, words: Words) -> Iterator[Advice]:
    """From ring to ring; in whatever order, the largest and the least may come to lie side by side."""
    most = float(np.ptp(found.half_width))
    if most == 0:  # not read, or all alike
        return
    told = (Quantity("step", "Pattern steps from ring to ring by, at most", most, "calliper"),)
    says = (f"Outer edges flush, the pattern steps by {words.fine(most)} from ring to ring, at most.",)
    yield Advice(f"{TOPIC}.steps", TOPIC, "right", told, says)


def _wood_left(plan: TorusPlan, centres: FloatArray, apothem: FloatArray) -> FloatArray:
    """Of rings with these middles and apothems, the least wood round the finished form, (N,)."""
    form = plan.job.form
    rings = (
        replace(plan.blank, centre=float(centre), apothem=float(own))
        for centre, own in zip(centres, apothem, strict=True)
    )
    return np.array([least_wood(ring, form.major_radius, form.tube) for ring in rings])


def _wood(plan: TorusPlan, found: RingsFound, words: Words) -> Iterator[Advice]:
    """What is left for turning, where it is less than planned by more than a reading may be out."""
    form, sanding = plan.job.form, plan.job.gauges.sanding_allowance
    wood = _wood_left(plan, centre_radii(found.thick, found.half_width), found.apothem)
    planned = least_wood(plan.blank, form.major_radius, form.tube)
    left, ring = float(wood.min()), int(wood.argmin()) + 1
    if planned - left <= found.accuracy / (2 * tan(plan.blank.half_wedge)):
        return
    told = (Quantity("wood", "Least wood round the form, as the rings are", left, "calliper"),)
    least = (
        f"Ring {ring} leaves least wood round the form: {words.fine(left)}, planned {words.fine(planned)}."
    )
    if left <= sanding:
        short = [k for k, mm in enumerate(wood, 1) if mm <= sanding]
        again = f"The form does not fit: before any glue, make {ring_list(short)} again."
        yield Advice(f"{TOPIC}.wood", TOPIC, "short", told, (least, again))
        return
    means = (
        "The largest stage of the gauges may not touch everywhere: turn to the size first, then to the shape."
        if left < plan.gauges.stages[0].offset
        else "The form, the joints and the gauges stay as planned; there is only less to turn off."
    )
    yield Advice(f"{TOPIC}.wood", TOPIC, "right", told, (least, means))


def _sanding(plan: TorusPlan, found: RingsFound, order: FloatArray, words: Words) -> Advice:
    """Which rings lose how much; they come nearer to the axis, and the form has to fit them still."""
    off = to_sand(found.thick[order])
    sanded = sorted((int(ring) + 1, float(mm)) for ring, mm in zip(order, off, strict=True) if mm > 0)
    centres = centre_radii(found.thick[order] - off, found.half_width[order])
    left = float(_wood_left(plan, centres, found.apothem[order])[off > 0].min())
    told = (
        *(Quantity(f"sand.{ring}", f"Ring {ring}", mm, "calliper") for ring, mm in sanded),
        Quantity("left", "Least wood round the form, in those rings", left, "calliper"),
    )
    moved = list(order) != sorted(order)
    old = ("Rings have the numbers here that they were read by, not their new ones.",) if moved else ()
    if left <= plan.job.gauges.sanding_allowance:
        says: tuple[str, ...] = (
            f"No order closes them to {words.fine(ENOUGH)}, and sanded until they do, the form no longer fits: "
            f"{words.fine(left)} of wood is left.",
            _spare(found.thick, order),
            *old,
        )
        return Advice(f"{TOPIC}.sand", TOPIC, "short", told, says)
    rings = ", ".join(f"ring {ring} by {words.fine(mm)}" for ring, mm in sanded)
    says = (
        f"No order closes them to {words.fine(ENOUGH)}. Sand the thick edge of {rings}: half of it off each face.",
        *old,
        f"{words.fine(left)} of wood is then left round the form, in the ring that loses most.",
    )
    return Advice(f"{TOPIC}.sand", TOPIC, "correct", told, says)


def _spare(thick: FloatArray, order: FloatArray) -> str:
    """Which ring to cut again, if one that is like the others in its place closes them."""
    odd = int(np.abs(thick - np.median(thick)).argmax())
    again = thick.copy()
    again[odd] = np.median(np.delete(thick, odd))
    if abs(closure(again[order])) > ENOUGH:
        return "No one ring is to blame: measure all of them again, then cut spare rings for those that differ most."
    return f"Cut a spare ring like the others in place of ring {odd + 1}; then they close."


def _radius(plan: TorusPlan, found: RingsFound, words: Words) -> Advice:
    radii = centre_radii(found.thick, found.half_width)
    mean, planned = float(radii.mean()), plan.blank.centre
    centre = measured_centre(plan.job, plan.blank)
    verdict: Verdict = "right" if centre is None else "correct"
    told = (
        Quantity("centre", "Middle of the rings from the axis, mean", mean, "calliper"),
        *(
            Quantity(f"centre.{k}", f"Ring {k}", float(radius), "calliper")
            for k, radius in enumerate(radii, 1)
        ),
    )
    says: tuple[str, ...] = sentences(
        f"The middles of the rings lie {words.fine(mean)} from the axis, planned {words.fine(planned)}.",
        "" if centre is None else "The first board's spigot and circle follow: make draws its section anew.",
    )
    return Advice(f"{TOPIC}.radius", TOPIC, verdict, told, says)
