"""The wedge rings' cuts and the sled that carries them, for a job and its blank."""

from __future__ import annotations

from math import cos

from geometry.blanks.sawing import WedgeRingCut, wedge_ring_cut
from geometry.bodies.torus import Blank
from geometry.records import replace
from geometry.statics.holding import Holding
from jigs.asked.job import TorusJob
from jigs.asked.table_sled import shop_sizes
from jigs.stages.blank.size import clean_up
from jigs.stages.held.statics.rings import ring_holdings
from jigs.stages.segments.plan import SawName
from jigs.stages.segments.saws import edge_guide, kerf_of, saw_for_rings
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import SledBody, SledLayout


def solve_sled(job: TorusJob, blank: Blank) -> SledLayout | BandsawLayout:
    """The sled on the saw that cuts the wedge rings; its cut is the plan's."""
    saw = saw_for_rings(job, blank)
    cut = wedge_ring_cut(blank, clean_up(job, kerf_of(job, saw)), job.form.face_sanding)
    if job.readings.entries:
        from jigs.measured.wedge_angle import wedge_turn

        cut = replace(cut, wedge_turn=wedge_turn(job, blank, cut))
    return wedge_ring_sled(job, blank, cut, saw)


def end_wedge_thinner(job: TorusJob, sled: SledBody) -> float:
    """By how much the wedge for the ends of halves is thinner than the sled's wedge; 0 where there is none.

    Less than 0, and thicker, where a half's ends lose less than a face that is sanded for the glue.
    """
    return job.form.end_spare / cos(sled.cut.half_wedge)


def solve_rings_held(job: TorusJob, sled: SledBody) -> tuple[Holding, ...]:
    """In either cut on the sled, then in the second on the end wedge, where there is one; friction not counted."""
    return ring_holdings(sled, end_wedge_thinner(job, sled))


def wedge_ring_sled(
    job: TorusJob, blank: Blank, cut: WedgeRingCut, saw: SawName
) -> SledLayout | BandsawLayout:
    """The wedge-ring sled for the chosen saw."""
    shop, wish = job.workshop, job.workshop.sled
    ring = (cut, blank.apothem, blank.core_apothem, blank.mitre)
    if saw == "bandsaw":
        return BandsawLayout(
            *ring,
            sheet=shop.boards.sheet,
            play=shop.boards.play,
            kerf=shop.bandsaw.kerf,
            trim=wish.trim,
            clear_of_blade=wish.clear_of_blade,
            hands_clear=wish.hands_clear,
            guide=edge_guide(job),
            fittings=job.fittings,
        )
    return SledLayout(
        *ring,
        kerf=shop.saw.kerf,
        trim=wish.trim,
        slot_depth=shop.saw.slot_depth,
        table_front=shop.saw.table_front,
        **shop_sizes(job),
    )
