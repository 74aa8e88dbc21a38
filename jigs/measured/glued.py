"""Rings that are glued or turned already: they stay as they were measured, the others are planned round them.

A vessel's stand from the foot up; a torus's are any that stay, such as one of its halves. And the advice on both.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import pi, tan
from typing import TYPE_CHECKING

from geometry.blanks.truing import Trued, to_line, wood_left
from geometry.bodies.torus import Blank, least_wood, outer_flat
from geometry.measuring.estimate import Estimate
from geometry.records import Record
from jigs.asked.job import Job, TorusJob
from jigs.asked.readings.readings import SECTION, Readings
from jigs.measured.advice import Advice, Words, sentences
from jigs.words.findings import Finding
from jigs.words.quantity import Quantity, ring_list

if TYPE_CHECKING:
    from jigs.plans.torus import TorusPlan

GROWN = "stack."  # a stack's operations, in however many parts the book has them
UP_TO = ".up-to."
RINGS, HEIGHT, ACROSS, OPENING, THICK, TOGETHER = (
    f"{SECTION}.{name}" for name in ("rings", "height", "across-flats", "opening", "thick", "together")
)
OF_VESSEL, OF_TORUS = (RINGS, HEIGHT, ACROSS, OPENING), (RINGS, ACROSS, THICK, TOGETHER)


class Glued(Record):
    """Rings 1 to `count` of a vessel, from the foot up. mm, by ring, where they were read."""

    count: int
    tops: Mapping[int, Estimate]  # over the stack's foot
    heights: Mapping[int, float]
    across: Mapping[int, float]  # flats; of an odd count from flat to corner; of a disc its diameter
    openings: Mapping[int, float]
    stated: int = 0  # of these, so many by the file's own word: whatever the job asks for now


def glued_rings(readings: Readings) -> Glued:
    """Every ring that the file says is glued, and up to the highest one whose top was read; none where nothing was."""
    tops = {}
    for id in readings.under(GROWN):
        read = readings.length(id, "rule")
        if UP_TO in id and read is not None:
            tops[int(id.rpartition(".")[2])] = read
    stated = stated_rings(readings)
    heights, across, openings = (_by_ring(readings, id) for id in (HEIGHT, ACROSS, OPENING))
    return Glued(max(stated, *tops, 0), tops, heights, across, openings, stated)


def stated_rings(readings: Readings) -> int:
    """How many the file says are glued; 0 where it does not say."""
    entry = readings.entries.get(RINGS)
    count = entry.numbers[0] if entry and entry.numbers else None
    return int(count) if count is not None and count == int(count) and count > 0 else 0


def rings_left(readings: Readings, count: int) -> tuple[int, ...]:
    """Of so many wedge rings, which are numbered from 1, those that are not glued already."""
    return tuple(range(1, count + 1 - stated_rings(readings)))


def glued_note(job: Job, first: int, last: int) -> Iterator[Finding]:
    """That rings are glued already."""
    if stated_rings(job.readings):
        goes_on = (
            "they are left out until the torus is closed"
            if first > 1
            else "the work begins with the next ring"
        )
        yield job.note(
            "glued-rings",
            f"{ring_list(list(range(first, last + 1)))} {'is' if first == last else 'are'} glued already: {goes_on}",
        )


def _by_ring(readings: Readings, id: str) -> dict[int, float]:
    return {number: one.value for number, one in enumerate(readings.each(id), 1) if one is not None}


class GluedWedges(Record):
    """Wedge rings of a torus that stay, alike: how many, and what the others have to be. mm, radians.

    The others are cut as if all were alike: both halves are trued to the axis, which takes off what these are out.
    """

    count: int
    apothem: float
    centre: float  # of their polygons from the axis
    together: float  # the angle that they close
    share: float  # and would close as planned

    def trued(self, blank: Blank) -> Trued:
        """What the truing takes off the half that holds them, or the most of them that one can: it may have been trued
        before, so nothing is counted to spare."""
        held = min(1.0, blank.wedge_rings / 2 / self.count)
        return to_line(blank, (self.together - self.share) * held, 0.0)


def glued_wedges(job: TorusJob, planned: Blank) -> GluedWedges | None:
    """None where the file states none, or as many as there are or more."""
    readings, rings = job.readings, planned.wedge_rings
    count = stated_rings(readings)
    if not 0 < count < rings:
        return None
    across, thick = readings.length(ACROSS), readings.length(THICK)
    share, read = 2 * pi * count / rings, readings.angle(TOGETHER)
    together = _unless_as_planned(read, share)
    apothem = _unless_as_planned(across, 2 * planned.apothem) / 2
    wedge = together / count / 2
    out = outer_flat(apothem, planned.segments)
    edge = _unless_as_planned(thick, planned.thick_edge)
    centre = edge / (2 * tan(wedge)) - out if thick else planned.centre
    return GluedWedges(count, apothem, centre, together, share)


def _unless_as_planned(read: Estimate | None, planned: float) -> float:
    """What was read, where that is more than its accuracy off the plan."""
    return read.value if read and abs(read.value - planned) > read.accuracy else planned


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
