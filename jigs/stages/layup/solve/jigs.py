"""The jigs of a job's layups."""

from __future__ import annotations

from collections.abc import Sequence

from jigs.asked.job import Job
from jigs.asked.table_sled import shop_sizes
from jigs.stages.held.solve import held_cuts
from jigs.stages.held.statics.sleds import layup_pieces, trim_pieces
from jigs.stages.layup.layout.sled import LayupSledLayout
from jigs.stages.layup.layout.tray import LayupTrayLayout, SandingHolder
from jigs.stages.layup.layout.trim import TrimSledLayout
from jigs.stages.layup.plan import LayupJigs, LayupPlan, columns_and_rows

LEAST_LEFT = 0.005  # mm: less is not sanded by a holder


def layup_jigs(job: Job, layups: Sequence[LayupPlan]) -> tuple[LayupJigs, ...]:
    """The jigs of each layup, in order."""
    return tuple(_jigs(job, layup, i) for i, layup in enumerate(layups))


def _jigs(job: Job, plan: LayupPlan, index: int) -> LayupJigs:
    sled = _sled(job, plan)
    trim = _trim(job, plan, sled)
    return LayupJigs(
        suffix=f"-{index + 1}" if index else "",
        sled=sled,
        trim=trim,
        tray=_tray(job, plan),
        holders=tuple(_holders(job, plan)),
        held=held_cuts([*layup_pieces(sled), *trim_pieces(trim)]),
    )


def _sled(job: Job, plan: LayupPlan) -> LayupSledLayout:
    return LayupSledLayout(
        angle=plan.way.cut_angle,
        width=plan.way.slab,
        stack=plan.way.strips * plan.layup.sheet,
        height=plan.layup.depth,
        kerf=plan.layup.kerf,
        **shop_sizes(job),
    )


def _trim(job: Job, plan: LayupPlan, sled: LayupSledLayout) -> TrimSledLayout:
    return TrimSledLayout(
        slant=sled.angle,
        width=plan.way.slab,
        length=plan.way.slab_length,
        slab_length=sled.slab_length,
        height=sled.height,
        kerf=sled.kerf,
        **shop_sizes(job),
    )


def _tray(job: Job, plan: LayupPlan) -> LayupTrayLayout:
    columns, rows = columns_and_rows(plan)
    return LayupTrayLayout(
        plies=plan.layup.plies,
        angle=plan.layup.angle,
        a=plan.layup.a,
        b=plan.layup.b,
        across=plan.across,
        up=plan.up,
        columns=columns,
        rows=rows,
        turned=plan.turned,
        height=plan.layup.depth,
        sheet=job.workshop.boards.sheet,
        play=job.workshop.boards.play,
    )


def _holders(job: Job, plan: LayupPlan) -> list[SandingHolder]:
    """One for each side that is glued to its mirror image and loses wood to sanding."""
    shop, layup = job.workshop.boards, plan.layup
    sides = (("a", layup.a, plan.across, layup.b), ("b", layup.b, plan.up, layup.a))
    return [
        SandingHolder(side, cut, finished, across, layup.depth, shop.sheet, shop.play, fittings=job.fittings)
        for (side, cut, finished, across), count in zip(sides, columns_and_rows(plan), strict=True)
        if count == 2 and cut - finished > LEAST_LEFT
    ]
