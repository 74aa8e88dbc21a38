"""From a stack to the waste block under it."""

from __future__ import annotations

from geometry.hardware.fittings import screws_for
from geometry.lathe.turning import Runout
from jigs.asked.vessel_job import VesselJob
from jigs.stages.stack.plan import StackPlan
from jigs.stages.waste_block.plan import WasteBlock


def waste_block(job: VesselJob, stack: StackPlan) -> WasteBlock:
    """As thick as the job says, as wide as its glue needs at least."""
    least, most = stack.waste_across
    thickness = job.rings.waste_block
    return WasteBlock(thickness, least, most, screws_for(job.fittings, least, thickness), Runout())
