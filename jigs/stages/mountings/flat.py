"""The flat by which a torus is first glued on: how wide, and how far it may be sanded. Lengths mm."""

from __future__ import annotations

from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob


def least_flat(job: TorusJob) -> float:
    """Width of the flat that glue wants."""
    return job.workshop.holding.least_flat


def most_sanded(job: TorusJob, blank: Blank) -> float:
    """Down to the sanding allowance over the finished tube."""
    return max(0.0, blank.apothem - job.form.tube.high - job.gauges.sanding_allowance)
