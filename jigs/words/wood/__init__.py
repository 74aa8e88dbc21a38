"""The wood in words and tables."""

from __future__ import annotations

from jigs.plan import Plan
from jigs.words.sections import Section
from jigs.words.wood.boards import boards_section, offcuts_section
from jigs.words.wood.cut_list import cut_list_section, order_section, scrap_section
from jigs.words.wood.finish import finish_section
from jigs.words.wood.glue import glue_section
from jigs.words.wood.grain import grain_section


def wood_sections(plan: Plan) -> list[Section]:
    """Scrap, pieces, steps, boards, glue, finish; pieces and boards only where some are sawn."""
    job, wood = plan.job, plan.wood
    sawn = bool(wood.lots)
    return [
        scrap_section(job, wood),
        *([cut_list_section(job, wood)] if sawn else []),
        order_section(job, wood),
        *([boards_section(job, wood), offcuts_section(job, wood)] if sawn else []),
        grain_section(wood),
        glue_section(job, wood),
        finish_section(job, wood),
    ]
