"""The truing carrier's share of the plan."""

from __future__ import annotations

from geometry.bodies.torus import Blank
from jigs.asked.job import TorusJob
from jigs.stages.glue_up.layout import TruingLayout
from jigs.stages.wedge_rings.layout.sled import SledBody


def truing_layout(job: TorusJob, blank: Blank, sled: SledBody) -> TruingLayout:
    """Carrier and sanding board for halves, and for quarters where four alike are glued first."""
    shop = job.workshop
    return TruingLayout(
        blank=blank,
        quarter=blank.wedge_rings // 4 if blank.wedge_rings % 4 == 0 else 0,
        spare=job.form.half_sanding,
        abrasive=shop.truing.abrasive,
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        cheek_length=sled.cheek_length,
    )
