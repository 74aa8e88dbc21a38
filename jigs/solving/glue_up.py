"""The truing carrier's share of the plan."""

from __future__ import annotations

from geometry.sled import SledBody
from geometry.torus import Blank, rings_in_check
from geometry.truing_carrier import TruingLayout
from jigs.job import TorusJob


def truing_layout(job: TorusJob, blank: Blank, sled: SledBody) -> TruingLayout:
    """Carrier and sanding board for halves, and for quarters where rings make one."""
    shop = job.workshop
    quarter = rings_in_check(blank.wedge_rings)
    return TruingLayout(
        blank=blank,
        quarter=quarter if quarter >= 2 else 0,
        spare=job.form.half_sanding,
        abrasive=shop.truing.abrasive,
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        cheek_length=sled.cheek_length,
    )
