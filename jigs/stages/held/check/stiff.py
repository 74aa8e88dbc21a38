"""Whether the sheet is stiff enough for the sleds that are cut from it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from jigs.asked.job import Job
from jigs.stages.held.statics.stiffness import ALLOWED, HoldFence, SledSheet, least_sheet, ring_fence
from jigs.stages.segments.plan import CuttingPlan
from jigs.stages.wedge_rings.layout.bandsaw import BandsawLayout
from jigs.stages.wedge_rings.layout.sled import SledLayout
from jigs.words.findings import Finding

if TYPE_CHECKING:  # a job of one form need not load the other's plan
    from jigs.stages.flat_segments.layout.sled import PlanAngleLayout
    from jigs.stages.flat_segments.plan import SawPlan
    from jigs.stages.layup.plan import LayupJigs


def stiff_findings(job: Job, sleds: Sequence[SledSheet]) -> Iterator[Finding]:
    """One for the sled whose sheet gives most."""
    sheet, show = job.workshop.boards.sheet, job.show
    worst = max(sleds, key=lambda sled: sled.gives(sheet), default=None)
    if worst is None or worst.gives(sheet) <= ALLOWED:
        return
    least = least_sheet(list(sleds))
    doubled = f", or two of yours glued face to face before they are cut: {show(2 * sheet)}"
    yield job.finding(
        "thin-sheet",
        f"sheet {show(sheet)} thick gives {job.at_least(worst.gives(sheet))} in the {worst.what}; "
        f"{show(ALLOWED)} is allowed",
        key="boards.sheet",
        remedy=f"use sheet at least {job.at_least(least)} thick{doubled if 2 * sheet >= least else ''}",
        wants={"boards.sheet": least},
    )


def torus_sheets(sled: SledLayout | BandsawLayout, cutting: CuttingPlan) -> list[SledSheet]:
    """The sled for wedge rings and what carries segments."""
    carrier, flat = cutting.carrier, cutting.plan_angle
    width = carrier.right_edge - carrier.left_edge
    found = [
        SledSheet("sled for wedge rings", -sled.left_edge, ring_fence(sled)),
        SledSheet("segment carrier", width, _pad(carrier.hold.pad, carrier.cut.depth)),
    ]
    return [*found, *([flat_sheet(flat)] if flat else [])]


def flat_sheet(layout: PlanAngleLayout) -> SledSheet:
    """A sled for flat rings."""
    hold = _pad(layout.hold.pad, layout.height)
    return SledSheet("plan-angle sled", layout.right_edge - layout.left_edge, hold)


def vessel_sheets(saws: SawPlan) -> list[SledSheet]:
    """The sleds for flat rings, and that for staves, whose finger reaches far out."""
    found = [flat_sheet(own.layout) for own in saws.sleds]
    if saws.staves is None or not saws.staves.layout.fits:
        return found
    sled = saws.staves.layout
    return [
        *found,
        SledSheet("sled for staves", sled.right_edge - sled.left_edge, _pad(sled.pad, sled.height)),
    ]


def layup_sheets(jigs: Sequence[LayupJigs]) -> Iterator[SledSheet]:
    """Both sleds of each layup."""
    for own in jigs:
        sled, trim = own.sled, own.trim
        hold, held = _pad(sled.hold.pad, sled.height), _pad(trim.hold.pad, trim.height)
        yield SledSheet("layup sled", sled.right_edge - sled.left_edge, hold)
        yield SledSheet("trim sled", trim.right_edge - trim.left_edge, held)


def _pad(pad: tuple[float, float], wood: float) -> HoldFence:
    return HoldFence((pad[0] + pad[1]) / 2, wood)
