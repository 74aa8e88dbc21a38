"""The plate of forks and sticks."""

from __future__ import annotations

from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.asked.job_shop import Process
from jigs.parts.processes import plate_thickness


def sizes_plate(job: TorusJob, blank: Blank) -> float:
    """Thickness of forks and sticks."""
    process = job.workshop.made.sizes
    longest = 2 * (job.form.major_radius + blank.apothem)
    made: Process = "cut" if process == "paper" else process
    return plate_thickness(made, job.workshop, longest, job.unit)
