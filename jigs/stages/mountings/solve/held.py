"""What the statics of the mountings follow from, out of a job's plan."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, inf

from geometry.bodies.torus import Blank
from geometry.hardware.fasteners import bolt_diameter
from geometry.statics.torus_held import HeldTorus, torus_holdings
from jigs.stages.held.strength import ALLOWED, PUSH, nut_torque
from jigs.stages.mountings.plan.holding import HoldingPlan
from jigs.stages.mountings.plan.mountings import Drawn, MountingsPlan

STEP = 10.0  # N


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
    drawn = tuple(
        _drawn(mounting.name, found.least_pull, brace.bolt if mounting.name == "C" else holding.bolt)
        for mounting, found in zip(plan.mountings, held, strict=True)
        if found.pull and found.least_pull < inf
    )
    return replace(plan, held=held, drawn=drawn)


def _drawn(mounting: str, least: float, bolt: str) -> Drawn:
    """The pull rounded up to what a person can tell."""
    pull = STEP * ceil(least / STEP)
    return Drawn(mounting, bolt, pull, nut_torque(pull, bolt_diameter(bolt)))
