"""The wedge-ring sled: flat parts with slots and tabs sized from the measured sheet."""

from __future__ import annotations

from jigs.parts.part import Part
from jigs.parts.sleds import edge_guide
from jigs.parts.sleds.uprights import fence, gusset, handle, stop_cheek
from jigs.plans.torus import TorusPlan
from jigs.stages.wedge_rings.parts.base import base, exit_block, runner, table_sled
from jigs.stages.wedge_rings.parts.draw_rod import draw_rod
from jigs.stages.wedge_rings.parts.jaw import jaw


def sled(plan: TorusPlan) -> list[Part]:
    """Base, fence, gussets, stop cheeks, jaw, draw rod, exit block, handle, runner and batten; none for the bandsaw."""
    if plan.cutting.rings_on == "bandsaw":
        return []
    batten = edge_guide.batten(plan, "sled", "sled-batten", table_sled(plan).batten, ())
    lying = [base(plan), exit_block(plan), runner(plan), batten]
    return [*lying, fence(plan), gusset(plan), stop_cheek(plan), jaw(plan), handle(plan), *draw_rod(plan)]
