"""A lid's knob, worked out."""

from __future__ import annotations

from geometry.bodies.section import Section
from jigs.asked.vessel_job import VesselJob
from jigs.stages.knob.plan import KnobPlan
from jigs.words.findings import RefusedSoon

DEEPER = 0.5  # mm of the hole than the tenon, for glue. Common practice, no source


def knob_plan(job: VesselJob, section: Section) -> KnobPlan | None:
    """None where there is no knob. Raises Refused for a profile that runs downward or comes to a point too soon."""
    wish = job.knob
    if wish is None:
        return None
    line, offset = wish.shape.profile, job.gauges.fit
    if (fold := line.fold()) is not None:
        message = f"the knob's profile turns downward at height {job.show(fold)}"
        found = job.finding(
            "knob-folds", message, key=f"knob.{wish.shape.way}", remedy="let it rise all the way"
        )
        raise RefusedSoon([found])
    hole = wish.tenon_length + DEEPER
    across, long = knob_blank(job) or (0.0, 0.0)
    longer = line.spanning(-2 * offset - 1.0, line.top)
    return KnobPlan(
        profile=line,
        edge=longer.beside(offset).spanning(0.0, line.top),
        species=knob_species(job),
        tenon=wish.tenon_diameter,
        length=wish.tenon_length,
        hole=hole,
        left=section.floor_thickness - hole,
        across=across,
        long=long,
        lands=(section.foot_radius if not section.recess_radius else 0.0) - line.start[0],
    )


# Common practice, no source, both; mm.
ENDS = 12.0  # at either end, for the centres
ROUND_OVER = 4.0  # of the square over the round


def knob_blank(job: VesselJob) -> tuple[float, float] | None:
    """Its side, and its length along the grain; None where there is no knob."""
    if job.knob is None:
        return None
    line = job.knob.shape.profile
    widest = 2 * line.radii(line.bottom, line.top)[1]
    return widest + ROUND_OVER, line.top + job.knob.tenon_length + 2 * ENDS


def knob_species(job: VesselJob) -> str:
    """As asked, else the lid's lowest ring's first."""
    return (job.knob.species if job.knob else None) or job.rings.woods(1)[0]
