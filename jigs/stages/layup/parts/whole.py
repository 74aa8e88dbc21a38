"""Jigs for a patterned layup: its two sleds, the glue-up tray, the sanding holders."""

from __future__ import annotations

from jigs.parts.part import Part
from jigs.plans.plan import Plan


def layup(plan: Plan) -> list[Part]:
    """Every part for every layup of a job; none without one, nor is any of this loaded then."""
    if not plan.layups:
        return []
    from jigs.stages.layup.parts.sleds import layup_sled, trim_sled
    from jigs.stages.layup.parts.tray import layup_tray, sanding_holders

    return [
        part
        for own, jigs in zip(plan.layups, plan.layup_jigs, strict=True)
        for part in (
            *layup_sled(plan, own, jigs),
            *trim_sled(plan, own, jigs),
            *layup_tray(plan, own, jigs),
            *sanding_holders(plan, jigs),
        )
    ]
