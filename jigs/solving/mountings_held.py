"""What the statics of the mountings follow from, out of a job's plan."""

from __future__ import annotations

from dataclasses import replace

from geometry.torus import Blank
from geometry.torus_held import HeldTorus, torus_holdings
from jigs.plan.holding import HoldingPlan
from jigs.plan.mountings import MountingsPlan
from jigs.strength import ALLOWED, PUSH


def with_statics(blank: Blank, holding: HoldingPlan, plan: MountingsPlan) -> MountingsPlan:
    """The mountings with what each holds against the tool."""
    first, brace = plan.first, plan.brace
    held = torus_holdings(
        HeldTorus(
            channel=holding.channel,
            retainer=holding.retainer,
            rough=plan.setting.rough,
            flat_height=first.centre_height,
            flat=plan.waste_flat,
            flat_centre=blank.centre,
            rim=first.scribed,
            normal=holding.normal_force,
            braces=holding.braces,
            brace_at=brace.tip + brace.bearing,
            brace_share=brace.finger_share,
            glue=ALLOWED,
            pull=PUSH,
        )
    )
    return replace(plan, held=held)
