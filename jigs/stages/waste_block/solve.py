"""From a stack to the waste block under it."""

from __future__ import annotations

from geometry.bodies.section import Section
from geometry.hardware.fittings import screws_for
from geometry.lathe.turning import Runout
from jigs.asked.vessel_job import VesselJob
from jigs.stages.held.strength import SIDE
from jigs.stages.solids.slim import at_joint
from jigs.stages.stack.plan import StackPlan
from jigs.stages.waste_block.plan import EDGE, WasteBlock


def waste_block(job: VesselJob, section: Section, stack: StackPlan) -> WasteBlock:
    """As thick as the job says, as wide as its glue and its screws need at least."""
    least, most = stack.waste_across
    thickness = job.rings.waste_block
    moment = at_joint(job, section, stack.layers) + (SIDE + stack.weighs) * thickness
    screws = screws_for(job.fittings, least, thickness, moment)
    return WasteBlock(thickness, min(most, max(least, screws.on + 2 * EDGE)), most, screws, Runout())
