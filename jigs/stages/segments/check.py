"""Whether the saws reach: height, throat, guide."""

from __future__ import annotations

from collections.abc import Iterator

from geometry.bodies.torus import Blank
from geometry.hardware.hold_down import LEAST_ROOM
from jigs.asked.job import Job, TorusJob, largest_that_fits
from jigs.stages.blank.check import least_ring
from jigs.stages.held.check.held import held_findings
from jigs.stages.segments.plan import CuttingPlan, SawName
from jigs.stages.segments.saws import rings_needed, saw_height, segments_needed, throat_findings
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import SledBody, SledLayout
from jigs.words.findings import Finding


def _blade_height(job: TorusJob, blank: Blank, sled: SledLayout) -> Iterator[Finding]:
    limit = job.workshop.saw.blade_height
    if sled.saw_height <= limit:
        return
    show = job.show
    room = limit - (sled.saw_height - sled.ring_height)
    tube = job.form.tube
    most = largest_that_fits(
        lambda wide: 2 * least_ring(job, tube.scaled(wide / 2)) <= room, 1, 2 * tube.wide
    )
    own = job.form.ring_across_flats is not None
    if own and 2 * least_ring(job, tube) <= room:
        smaller = f"a ring of at most {job.at_most(room)} across flats"
    else:
        smaller = f"a tube of at most {job.at_most(most)} on this major radius"
        smaller += ", ring_across_flats left out" if own else ""
    if 2 * least_ring(job, tube.scaled(most / 2)) > room:
        smaller = "a thinner sheet"
    yield job.finding(
        "ring-too-tall",
        f"a ring {show(blank.apothem * 2)} tall on its sled needs a blade {job.at_least(sled.saw_height)} "
        f"high; this saw gives {show(limit)}",
        key="saw.blade_height",
        remedy=f"{bandsaw_would_do(job, blank)}a saw with that height, or {smaller}",
        wants={"saw.blade_height": sled.saw_height, "form.tube_diameter": most},
    )


def bandsaw_would_do(job: TorusJob, blank: Blank) -> str:
    """Start of a remedy: the bandsaw, where it is tall enough for the wedge rings."""
    fits = rings_needed(job, blank)["bandsaw"] <= saw_height(job, "bandsaw")
    return 'cutting.wedge_rings = "bandsaw" would do; else ' if fits else ""


def saw_findings(job: TorusJob, blank: Blank, sled: SledBody, cutting: CuttingPlan) -> list[Finding]:
    """Height and throat of the saw that cuts the rings; the segments' height."""
    if found := _no_bandsaw(job):
        return found
    found = [*_segments(job, blank, cutting), *_held(job, blank, cutting)]
    if isinstance(sled, BandsawLayout):
        return [*_guides(job, blank), *_throat(job, sled, "bandsaw"), *found]
    if isinstance(sled, SledLayout):
        return [*_blade_height(job, blank, sled), *_throat(job, sled, "table saw"), *found]
    return found


def blade_findings(job: Job) -> Iterator[Finding]:
    """A table saw's blade, whose arbor is under the table, shows less than half of itself."""
    saw, show = job.workshop.saw, job.show
    if saw.blade_height <= saw.blade_diameter / 2:
        return
    yield job.finding(
        "blade-over-half",
        f"a blade of {show(saw.blade_diameter)} cannot stand {show(saw.blade_height)} above its table, more "
        "than half of itself",
        key="saw.blade_height",
        remedy=f"a blade_height of at most {job.at_most(saw.blade_diameter / 2)}, as measured, or the "
        "blade_diameter that this saw takes",
    )


def _no_bandsaw(job: TorusJob) -> list[Finding]:
    shop = job.workshop
    asked = {"cutting.wedge_rings": shop.cutting.wedge_rings, "cutting.segments": shop.cutting.segments}
    if shop.bandsaw.height is not None:
        return []
    return [
        job.finding(
            "no-bandsaw",
            "asks for a bandsaw, and no table [bandsaw] states its height",
            key=key,
            remedy='give height in [bandsaw], or ask for "table saw"',
        )
        for key, saw in asked.items()
        if saw == "bandsaw"
    ]


def _offer(key: str, other: SawName, needed: dict[SawName, float], job: TorusJob) -> str:
    return f'{key} = "{other}" would do; else ' if needed[other] <= saw_height(job, other) else ""


def _throat(job: TorusJob, sled: SledBody, saw: SawName) -> Iterator[Finding]:
    return throat_findings(job, "the sled", -sled.left_edge, saw, ", or a smaller ring")


def _held(job: TorusJob, blank: Blank, cutting: CuttingPlan) -> Iterator[Finding]:
    """Segments too short for a hold-down have a word of their own."""
    if blank.outer_edge >= LEAST_ROOM:
        yield from held_findings(
            job, (*cutting.held, *cutting.flat_held), "form.segments", "use fewer segments, or a thicker tube"
        )


def _guides(job: TorusJob, blank: Blank) -> Iterator[Finding]:
    needed, limit, show = rings_needed(job, blank), saw_height(job, "bandsaw"), job.show
    if needed["bandsaw"] <= limit:
        return
    yield job.finding(
        "ring-too-tall",
        f"a ring {show(2 * blank.apothem)} tall, its sled's base, fence and jaw need "
        f"{job.at_least(needed['bandsaw'])} under the bandsaw's guides; it gives {show(limit)}",
        key="bandsaw.height",
        remedy=f"{_offer('cutting.wedge_rings', 'table saw', needed, job)}"
        f"a bandsaw with {job.at_least(needed['bandsaw'])}, or a thinner tube",
        wants={"bandsaw.height": needed["bandsaw"]},
    )


def _segments(job: TorusJob, blank: Blank, cutting: CuttingPlan) -> Iterator[Finding]:
    needed, saw, show = segments_needed(job, blank), cutting.segments_on, job.show
    limit = saw_height(job, saw)
    if needed[saw] <= limit:
        return
    other: SawName = "bandsaw" if saw == "table saw" else "table saw"
    offer, thick = _offer("cutting.segments", other, needed, job), show(blank.apothem - blank.core_apothem)
    yield job.finding(
        "strip-too-thick",
        f"a strip {thick} thick on its carrier, cut at the mitre angle, "
        f"needs {job.at_least(needed[saw])} along the tilted blade; this {saw} gives {show(limit)}",
        key=(key := "saw.blade_height" if saw == "table saw" else "bandsaw.height"),
        remedy=f"{offer}a wider core opening, or a taller saw",
        wants={key: needed[saw]},
    )
