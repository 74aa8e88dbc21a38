"""Sizes of a torus's plan that its readings are held against; nothing else of these is loaded for a job without any."""

from __future__ import annotations

from math import cos
from typing import TYPE_CHECKING

from geometry.blanks.sawing import WedgeRingCut, stop_arm
from geometry.bodies.torus import Blank

if TYPE_CHECKING:
    from jigs.asked.job import TorusJob


def end_more(job: TorusJob, blank: Blank) -> float:
    """By how much the thick edge of an end ring is longer than the others', mm, until its half is trued."""
    return job.form.half_sanding / cos(blank.half_wedge)


def paper_length(job: TorusJob, cut: WedgeRingCut, blank: Blank) -> float:
    """Along the fence from the wedge's thin end, about which paper turns it, to its thick end."""
    past = job.workshop.sled.past_bearing - stop_arm(blank.segments, blank.apothem)[0]
    return cut.bearing * cos(cut.half_wedge) + past
