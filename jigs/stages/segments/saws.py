"""Which saw cuts what, and what each has to give."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians

from geometry.bodies.torus import Blank
from geometry.hardware.hold_down import ABOVE
from geometry.hardware.sled_sizes import BLADE_PAST_RING, EdgeGuide
from jigs.asked.job import Job, TorusJob
from jigs.asked.job_shop import SawChoice
from jigs.stages.segments.plan import SawName
from jigs.stages.wedge_rings.layout.sled import SCREW_ABOVE
from jigs.words.findings import Finding


def saw_height(job: TorusJob, saw: SawName) -> float:
    """The most that a saw cuts above its table; nothing where there is no such saw."""
    return job.workshop.saw.blade_height if saw == "table saw" else job.workshop.bandsaw.height or 0.0


def kerf_of(job: TorusJob, saw: SawName) -> float:
    """Width of a saw's cut."""
    return job.workshop.saw.kerf if saw == "table saw" else job.workshop.bandsaw.kerf


def rings_height(job: TorusJob, apothem: float, saw: SawName) -> float:
    """What a saw has to give for a wedge ring on its sled; a bandsaw's guides also clear fence and jaw."""
    above = SCREW_ABOVE if saw == "bandsaw" else 0.0
    return 2 * apothem + above + job.workshop.boards.sheet + BLADE_PAST_RING


def segments_height(job: TorusJob, blank: Blank) -> float:
    """What a saw has to give along the tilted blade, for a strip on its carrier."""
    depth = blank.apothem - blank.core_apothem
    return (depth + job.workshop.boards.sheet) / cos(blank.mitre) + BLADE_PAST_RING


def carrier_height(job: TorusJob, blank: Blank) -> float:
    """What a bandsaw has to give for the carrier: its guides also clear the fence."""
    return segments_height(job, blank) + ABOVE / cos(blank.mitre)


def saw_for(job: TorusJob, asked: SawChoice, needed: dict[SawName, float]) -> SawName:
    """The saw asked for; left to us, the table saw unless only the bandsaw is tall enough."""
    if asked != "auto":
        return asked
    table = needed["table saw"] <= saw_height(job, "table saw")
    band = needed["bandsaw"] <= saw_height(job, "bandsaw")
    return "bandsaw" if band and not table else "table saw"


def rings_needed(job: TorusJob, blank: Blank) -> dict[SawName, float]:
    """Height that each saw has to give for the wedge rings."""
    saws: tuple[SawName, SawName] = ("table saw", "bandsaw")
    return {saw: rings_height(job, blank.apothem, saw) for saw in saws}


def segments_needed(job: TorusJob, blank: Blank) -> dict[SawName, float]:
    """Height that each saw has to give for the segments."""
    return {"table saw": segments_height(job, blank), "bandsaw": carrier_height(job, blank)}


def saw_for_rings(job: TorusJob, blank: Blank) -> SawName:
    """The saw that cuts the wedge rings."""
    return saw_for(job, job.workshop.cutting.wedge_rings, rings_needed(job, blank))


def saw_for_segments(job: TorusJob, blank: Blank) -> SawName:
    """The saw that cuts the segments."""
    return saw_for(job, job.workshop.cutting.segments, segments_needed(job, blank))


def edge_guide(job: TorusJob) -> EdgeGuide:
    """The rail on the bandsaw's table."""
    saw = job.workshop.bandsaw
    return EdgeGuide(radians(saw.drift), saw.table_left, saw.table_front)


def throat_findings(
    job: Job, sled: str, reach: float, saw: SawName = "table saw", smaller: str = ""
) -> Iterator[Finding]:
    """A sled that reaches further beside the blade than the saw gives; `smaller` is what else would do."""
    band, shop = saw == "bandsaw", job.workshop
    throat, key = (shop.bandsaw.throat, "bandsaw.throat") if band else (shop.saw.throat, "saw.throat")
    if reach <= throat:
        return
    beside = "from the blade towards the column; this bandsaw" if band else "beside the blade; this saw"
    yield job.finding(
        "throat",
        f"{sled} reaches {job.show(reach)} {beside} gives {job.show(throat)}",
        key=key,
        remedy=f"use a {'bandsaw' if band else 'saw'} with at least {job.at_least(reach)}{smaller}",
        wants={key: reach},
    )
