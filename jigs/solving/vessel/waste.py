"""From a stack to the waste block under it."""

from __future__ import annotations

from jigs.asked.vessel_job import VesselJob
from jigs.plan.mountings import Runout
from jigs.plan.vessel.stack import StackPlan
from jigs.plan.vessel.waste import WasteBlock
from jigs.solving.screws import screws_for


def waste_block(job: VesselJob, stack: StackPlan) -> WasteBlock:
    """As thick as the job says, as wide as its glue needs at least."""
    least, most = stack.waste_across
    thickness = job.rings.waste_block
    return WasteBlock(thickness, least, most, screws_for(least, thickness), Runout())
