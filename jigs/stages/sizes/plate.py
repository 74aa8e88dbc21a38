"""The plate of forks and sticks."""

from __future__ import annotations

from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.parts.processes import plate_thickness


def sizes_plate(job: TorusJob, blank: Blank) -> float:
    """Thickness of forks and sticks."""
    longest = 2 * (job.form.major_radius + blank.apothem)
    return plate_thickness(job.workshop.made.sizes, job.workshop, longest, job.unit)
