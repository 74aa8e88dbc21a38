"""What the statics of the mountings follow from, out of a job's plan."""

from __future__ import annotations

from dataclasses import replace
from math import asin, ceil, cos, floor, inf, pi, tan

from geometry.bodies.torus import Blank
from geometry.hardware.fittings import bolt_diameter
from geometry.lathe.turning import BAND_HIGH, BAND_LOW, Retainer
from geometry.statics.hoop import ring_tension
from geometry.statics.lathe_holding import Weight
from geometry.statics.torus_held import HeldTorus, torus_holdings
from jigs.stages.held.strength import ALLOWED, PUSH, SHEET_TAKES, most_pull, most_torque, nut_torque
from jigs.stages.mountings.plan import Drawn, HoldingPlan, MountingsPlan

STEP = 10.0  # N
BOARD = 0.75 * 9.81e-6  # N/mm³, as MDF: common practice, no source


def with_statics(blank: Blank, holding: HoldingPlan, plan: MountingsPlan, weight: float) -> MountingsPlan:
    """The mountings with what each holds against the tool; the blank weighs so many N."""
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
            blank=weight,
            board=Weight(
                BOARD * pi / 4 * holding.board_diameter**2 * holding.board_thickness,
                first.centre_height + holding.board_thickness / 2,
            ),
        )
    )
    bears = _bears(blank, holding, plan)
    drawn = tuple(
        _drawn(
            mounting.name,
            found.least_pull,
            brace.bolt if mounting.name == "C" else holding.bolt,
            bears[mounting.name],
        )
        for mounting, found in zip(plan.mountings, held, strict=True)
        if found.pull and found.least_pull < inf
    )
    return replace(plan, held=held, drawn=drawn)


def _couple(plug: Retainer) -> float:
    """By which a retainer that spreads the hole with 1 N, and the channel under it, turn the sections at most: neither
    presses through the middle of a tube that is not round."""
    slope = plug.hollow.angle_at_height(plug.band_low)
    band = max(plug.tube.lever(asin(sine)) for sine in (BAND_LOW, BAND_HIGH))
    flank = max(plug.tube.lever(pi / 2 - lean) for lean in (plug.contact / 2, plug.contact))
    return band / cos(slope) + tan(slope) / cos(plug.contact) * flank


def _drawn(mounting: str, least: float, bolt: str, bears: float) -> Drawn:
    """The pulls rounded up and down to what a person can tell."""
    pull, across = STEP * ceil(least / STEP), bolt_diameter(bolt)
    enough = STEP * ceil(
        most_pull(pull) / STEP
    )  # rounded down, it would be less than what a turned nut may pull
    most = min(STEP * floor(bears / STEP), enough)
    return Drawn(mounting, bolt, pull, nut_torque(pull, across), most, most_torque(most, across))


def _bears(blank: Blank, holding: HoldingPlan, plan: MountingsPlan) -> dict[str, float]:
    """N of one bolt that the wood stands in each mounting that bolts hold.

    The retainer spreads the finished hole, frictionless at the low end of its band, and pulls the joints of the torus
    open; in the reversed mounting the old board pulls at its glue as well. A brace's strap bends over its block.
    """
    plug, brace = holding.retainer, plan.brace
    slope = plug.hollow.angle_at_height(plug.band_low)
    core = blank.core_apothem / cos(blank.mitre)
    across_joints = ring_tension(1.0, _couple(plug), plug.major, plug.tube, core)
    spreads = 1.0 / tan(slope)
    joints = ALLOWED / (across_joints * spreads)
    glue = 2 * pi * blank.centre * plan.waste_flat * ALLOWED
    arm = brace.bolt_radius - brace.tip - brace.bearing
    section = (brace.width - brace.hole) * brace.thickness**2 / 6
    strap = SHEET_TAKES * section / (brace.finger_share * arm)
    return {"B": min(joints, glue), "C": strap, "D": joints}
