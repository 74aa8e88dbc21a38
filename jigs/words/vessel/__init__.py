"""A vessel in words and tables, in the order of the work."""

from __future__ import annotations

from jigs.plan.vessel import VesselPlan
from jigs.words.sections import Section
from jigs.words.speed import speed_section
from jigs.words.vessel.lathe import first_mounting_section, gauge_sections, reversing_section
from jigs.words.vessel.saws import glue_up_section, saw_sections
from jigs.words.vessel.stack import floating_sections, form_section, joints_section, stack_section


def vessel_sections(plan: VesselPlan) -> list[Section]:
    """Everything a turner checks before buying wood, in the order of the work."""
    return [
        form_section(plan),
        stack_section(plan),
        joints_section(plan),
        *floating_sections(plan),
        *saw_sections(plan),
        glue_up_section(plan),
        first_mounting_section(plan),
        *gauge_sections(plan),
        reversing_section(plan),
        speed_section(plan.rim_speed),
    ]
