"""The floating base: its groove and its disc, by the foot's hollow, the lowest ring's height and the wood."""

from __future__ import annotations

from geometry.bodies.floating_base import CLOSES, LEAST_LEDGE, FloatingBase
from geometry.bodies.section import Section
from jigs.asked.vessel_job import VesselJob
from jigs.asked.woods import movement, tangential_of
from jigs.words.findings import Finding, RefusedSoon


def floating_base(job: VesselJob, section: Section) -> FloatingBase | None:
    """The base that the job asks for; None where it asks for none. Raises Refused where nothing would carry it."""
    if job.rings.base != "floating":
        return None
    if not section.recess_radius or not section.recess_depth:
        raise RefusedSoon([_no_ledge(job)])
    if not isinstance(job.rings.heights, tuple):
        message = (
            "the groove of a floating base ends at the top of ring 1, whose height is not chosen from boards"
        )
        remedy = "state the heights, the lowest ring's first"
        raise RefusedSoon([job.finding("floating-heights", message, key="rings.heights", remedy=remedy)])
    shrinks, swells = moisture_shares(job)
    closes, opens = rings_move(job, section)
    return FloatingBase(
        opening=section.recess_radius,
        ledge=section.recess_depth,
        joint=job.rings.heights[0] - job.rings.turning_allowance,
        floor=section.inner.bottom,
        shrinks=shrinks,
        swells=swells,
        thickens=0.0 if job.floating.grain == "upright" else swells,
        closes=closes,
        opens=opens,
    )


def disc_species(job: VesselJob) -> str:
    return job.floating.species or job.rings.woods(1)[0]


def moisture_shares(job: VesselJob) -> tuple[float, float]:
    """The shares of its width by which the disc shrinks and swells from when it is fitted."""
    share, wish = tangential_of(disc_species(job)), job.floating
    return movement(1.0, share, wish.driest, wish.moisture), movement(1.0, share, wish.moisture, wish.wettest)


def rings_move(job: VesselJob, section: Section) -> tuple[float, float]:
    """By how much at most rings 1 and 2 close round the disc from when it is fitted, and open.

    What grows round, strips and plies, opens them as it swells and closes them as it dries.
    """
    share = max(map(tangential_of, (*job.woods_of(1), *job.woods_of(2))))
    _, outer = section.outer.radii(0.0, section.inner.bottom)
    wish = job.floating
    shrinks = movement(1.0, share, wish.driest, wish.moisture)
    swells = movement(1.0, share, wish.moisture, wish.wettest)
    round_it = max(job.grows_round(ring, outer) for ring in (1, 2))
    closes = CLOSES * outer * swells + round_it * max(swells, shrinks)
    return closes, max(CLOSES * outer * shrinks, round_it * swells)


def _no_ledge(job: VesselJob) -> Finding:
    least = job.at_least(LEAST_LEDGE)
    return job.finding(
        "no-ledge",
        "a floating base lies on a ledge round a hollow in the foot, and the job has no such hollow",
        key="foot.recess_depth",
        remedy=f"give recess_diameter and recess_depth in [foot], {least} deep or deeper",
    )
