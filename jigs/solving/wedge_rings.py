"""The wedge rings' cuts and the sled that carries them, for a job and its blank."""

from __future__ import annotations

from geometry.bandsaw_sled import BandsawLayout
from geometry.sawing import wedge_ring_cut
from geometry.sled import SledLayout
from geometry.torus import Blank
from jigs.job import TorusJob
from jigs.solving.blank import clean_up
from jigs.solving.cutting import kerf_of, saw_for_rings, wedge_ring_sled


def solve_sled(job: TorusJob, blank: Blank) -> SledLayout | BandsawLayout:
    """The sled on the saw that cuts the wedge rings; its cut is the plan's."""
    saw = saw_for_rings(job, blank)
    cut = wedge_ring_cut(blank, clean_up(job, kerf_of(job, saw)), job.form.face_sanding)
    return wedge_ring_sled(job, blank, cut, saw)
