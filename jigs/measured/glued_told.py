"""Advice on rings that are glued already, and on what the others have become."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from geometry.blanks.truing import wood_left
from geometry.bodies.torus import least_wood
from jigs.measured.advice import Advice, Words, sentences
from jigs.measured.glued import GluedWedges, glued_wedges
from jigs.words.quantity import Quantity

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

TOPIC = "glued"


def glued_advice(plan: TorusPlan) -> Iterator[Advice]:
    """Of a torus: the last rings stay, the others are planned round them."""
    glued, words, cut = glued_wedges(plan.asked, plan.blank), Words(plan.job.unit), plan.ring_cut
    if glued is None:
        return
    others = plan.blank.wedge_rings - glued.count
    told = (
        Quantity("count", "Rings that stay", glued.count, "count"),
        Quantity("apothem", "Half their width across flats", glued.apothem, "calliper"),
        Quantity("centre", "Their middle from the axis", glued.centre, "calliper"),
        Quantity("thick", "Thick edge of each other ring, as cut", cut.thick_edge, "calliper"),
    )
    says = sentences(
        f"The last {glued.count} rings stay as they are: {words.fine(2 * glued.apothem)} across flats, their middle "
        f"{words.fine(glued.centre)} from the axis.",
        f"Cut rings 1 to {others} to a thick edge of {words.fine(cut.thick_edge)}.",
        _trued(plan, glued, words),
        "The cut list and the boards leave the glued rings out.",
    )
    yield Advice(f"{TOPIC}.rings", TOPIC, "correct", told, says)


def _trued(plan: TorusPlan, glued: GluedWedges, words: Words) -> str:
    """Where they are out."""
    trued, form = glued.trued(plan.blank), plan.asked.form
    if trued.most < 1e-6:
        return ""
    left = wood_left(least_wood(plan.blank, form.major_radius, form.tube), trued)
    return (
        f"True the half with the glued rings as the new one: {words.fine(trued.inner)} comes off each end at the hole, "
        f"{words.fine(trued.outer)} at the rim; {words.fine(left)} of wood is left round the form there."
    )
